/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is measured of a bay and a room, and how a room's measures close. */
#include "space/survey.h"
#include "sample.h"
#include "support.h"
#include <string.h>

static SwId
add_room (SwSample *sample, double x, double y)
{
  SwRecord *room = sw_sample_create (sample, SW_TABLE_ROOM);
  sw_sample_rectangle (&((SwRoom *) room)->outline, 0, 0, x, y);
  return sw_sample_put (sample, room);
}

static void
measure (SwSample *sample, SwId of, SwMeasureKind kind, int number, int second, double value)
{
  SwRecord *record = sw_sample_create (sample, SW_TABLE_MEASURE);
  SwMeasure *one = (SwMeasure *) record;
  one->of = of;
  one->kind = (int) kind;
  one->number = number;
  one->second = second;
  one->value = value;
  sw_sample_put (sample, record);
}

static void
measure_sides (SwSample *sample, SwId room, double x, double y)
{
  for (int i = 1; i <= 4; i++)
    measure (sample, room, SW_MEASURE_LENGTH, i, 0, i % 2 == 1 ? x : y);
}

static SwSurveyRoom *
survey_of (const SwSample *sample, SwId room)
{
  return sw_survey_room (sample->job, (const SwRoom *) sw_job_get (sample->job, room));
}

/* Of a rhombus with sides a and one diagonal d the other is √(4a² − d²) (its diagonals halve each other at right angles). */
static void
test_misclosure (void)
{
  SwSample sample = sw_sample_new (6000, 4800, 0);
  double side = 3000, diagonal = 4230, other = sqrt (4 * side * side - diagonal * diagonal);
  SwId room = add_room (&sample, side, side);
  measure_sides (&sample, room, side, side);
  measure (&sample, room, SW_MEASURE_DIAGONAL, 1, 3, diagonal);
  g_autoptr (SwSurveyRoom) open = survey_of (&sample, room);
  g_assert_cmpint (open->worst, ==, -1); /* four sides and one diagonal: nothing is left over */
  measure (&sample, room, SW_MEASURE_DIAGONAL, 4, 2, other + 18);
  g_autoptr (SwSurveyRoom) survey = survey_of (&sample, room);
  sw_assert_near (survey->misclosure, 18, 0.15);
  g_assert_cmpint (g_array_index (survey->distances, SwSurveyDistance, survey->worst).measure->kind, ==, SW_MEASURE_DIAGONAL);
  GError *error = NULL;
  g_assert_null (sw_survey_take_over (sample.job, (const SwRoom *) sw_job_get (sample.job, room), 10, &error));
  g_assert_nonnull (strstr (error->message, "do not close"));
  g_error_free (error);
  sw_sample_clear (&sample);
}

/* By Pythagoras a room of 4012 by 2995 closes; what is taken over is that room, to the mm. */
static void
test_takes_over (void)
{
  GError *error = NULL;
  SwSample sample = sw_sample_new (6000, 4800, 0);
  SwId room = add_room (&sample, 4000, 3000);
  g_assert_null (survey_of (&sample, room));
  measure_sides (&sample, room, 4012, 2995);
  measure (&sample, room, SW_MEASURE_DIAGONAL, 1, 3, hypot (4012, 2995));
  measure (&sample, room, SW_MEASURE_DIAGONAL, 2, 4, hypot (4012, 2995));
  g_autoptr (SwSurveyRoom) survey = survey_of (&sample, room);
  sw_assert_near (survey->misclosure, 0, 0.01);
  sw_assert_near (survey->shift, hypot (6, 2.5), 0.01); /* shared out between the corners */
  for (guint i = 0; i < survey->distances->len; i++)
    sw_assert_near (g_array_index (survey->distances, SwSurveyDistance, i).fitted, g_array_index (survey->distances, SwSurveyDistance, i).measure->value, 0.01);
  g_autoptr (SwEdit) edit = sw_survey_take_over (sample.job, (const SwRoom *) sw_job_get (sample.job, room), 10, &error);
  g_assert_no_error (error);
  const SwRoom *after = (const SwRoom *) sw_edit_peek (edit, sample.job, room);
  sw_assert_near (sw_point_distance (SW_LIST_AT (after->outline, SwPoint, 0), SW_LIST_AT (after->outline, SwPoint, 1)), 4012, 1.01);
  sw_assert_near (sw_point_distance (SW_LIST_AT (after->outline, SwPoint, 1), SW_LIST_AT (after->outline, SwPoint, 2)), 2995, 1.01);
  sw_sample_clear (&sample);
}

static SwId
add_wall (SwSample *sample, double x1, double y1, double x2, double y2)
{
  SwRecord *record = sw_sample_create (sample, SW_TABLE_WALL);
  ((SwWall *) record)->from = (SwPoint){ x1, y1 };
  ((SwWall *) record)->to = (SwPoint){ x2, y2 };
  ((SwWall *) record)->thickness = 100;
  return sw_sample_put (sample, record);
}

static void
assert_wall (const SwJob *job, SwId id, double x1, double y1, double x2, double y2)
{
  const SwWall *wall = (const SwWall *) sw_job_get (job, id);
  sw_assert_near (wall->from.x, x1, 0.01);
  sw_assert_near (wall->from.y, y1, 0.01);
  sw_assert_near (wall->to.x, x2, 0.01);
  sw_assert_near (wall->to.y, y2, 0.01);
}

/* A room of 4000 by 3000 is measured 4012 by 2996: its corners go 6 out and 2 in (by symmetry). Walls of 100, drawn outside the outline,
 * keep 50 off it; the one that ends at the right wall from outside is cut by 6 and keeps its line; one that goes on past the corner keeps its far
 * end there; a wall that is four times as long as the side stays, and so does one that stands free. One edit back, and all is as it was. */
static void
test_walls_go_along (void)
{
  GError *error = NULL;
  SwSample sample = sw_sample_new (6000, 4800, 0);
  SwId room = add_room (&sample, 4000, 3000);
  SwId right = add_wall (&sample, 4050, -50, 4050, 3050);
  SwId top = add_wall (&sample, 4050, 3050, -50, 3050);
  SwId long_side = add_wall (&sample, -1000, -50, 4050, -50);
  SwId against = add_wall (&sample, 6000, 1000, 4100, 1000);
  SwId longer = add_wall (&sample, -8000, -50, 8000, -50);
  SwId away = add_wall (&sample, 4300, 0, 4300, 3000);
  measure_sides (&sample, room, 4012, 2996);
  measure (&sample, room, SW_MEASURE_DIAGONAL, 1, 3, hypot (4012, 2996));
  measure (&sample, room, SW_MEASURE_DIAGONAL, 2, 4, hypot (4012, 2996));
  g_autoptr (SwEdit) edit = sw_survey_take_over (sample.job, (const SwRoom *) sw_job_get (sample.job, room), 10, &error);
  g_assert_no_error (error);
  g_autoptr (SwJob) after = sw_job_apply (sample.job, edit, TRUE, &error);
  g_assert_no_error (error);
  assert_wall (after, right, 4056, -48, 4056, 3048);
  assert_wall (after, top, 4056, 3048, -56, 3048);
  assert_wall (after, long_side, -1000, -48, 4056, -48);
  assert_wall (after, against, 6000, 1000, 4106, 1000);
  assert_wall (after, longer, -8000, -50, 8000, -50);
  assert_wall (after, away, 4300, 0, 4300, 3000);
  g_autoptr (SwJob) back = sw_job_apply (after, edit, FALSE, &error);
  g_assert_true (sw_job_equal (back, sample.job));
  sw_sample_clear (&sample);
}

/* The reference trough: rib 2 is drawn from 1150 to 1250, that is its middle at 1200. A rib that lies askew stands in the way of all that
 * its ends reach; the voids beside it are narrower by as much. */
static void
test_edges (void)
{
  SwSample sample = sw_sample_new (6000, 4800, 0);
  measure (&sample, sample.bay, SW_MEASURE_EDGE, 2, SW_EDGE_LOW_START, 1156);
  measure (&sample, sample.bay, SW_MEASURE_EDGE, 2, SW_EDGE_HIGH_START, 1255);
  measure (&sample, sample.bay, SW_MEASURE_EDGE, 2, SW_EDGE_LOW_END, 1147);
  measure (&sample, sample.bay, SW_MEASURE_EDGE, 2, SW_EDGE_HIGH_END, 1248);
  g_autoptr (SwDeck) deck = sw_deck_new (sample.job);
  const SwDeckBay *bay = sw_deck_bay_of (deck, sample.bay);
  const SwRib *rib = &g_array_index (bay->ribs, SwRib, 2);
  g_assert_true (rib->measured);
  sw_assert_near (rib->low, 1147, 1e-9);
  sw_assert_near (rib->high, 1255, 1e-9);
  sw_assert_near (g_array_index (bay->voids, SwVoid, 1).high, 1147, 1e-9);
  sw_assert_near (g_array_index (bay->voids, SwVoid, 2).low, 1255, 1e-9);
  g_autoptr (GArray) slots = sw_survey_slots (deck, sample.bay);
  guint edges = 0, measured = 0;
  for (guint i = 0; i < slots->len; i++)
    {
      const SwSurveySlot *slot = &g_array_index (slots, SwSurveySlot, i);
      edges += slot->key.kind == SW_MEASURE_EDGE;
      measured += slot->measure != NULL;
      if (slot->key.kind == SW_MEASURE_EDGE && slot->key.number == 2)
        sw_assert_near (slot->drawn, slot->key.second % 2 == 1 ? 1150 : 1250, 1e-9);
    }
  g_assert_cmpuint (edges, ==, 4 * bay->ribs->len - 4); /* not the bay's own sides */
  g_assert_cmpuint (measured, ==, 4);
  sw_sample_clear (&sample);
}

/* What is entered twice is changed, what is emptied goes. */
static void
test_enters (void)
{
  GError *error = NULL;
  SwSample sample = sw_sample_new (6000, 4800, 0);
  measure (&sample, sample.bay, SW_MEASURE_DEPTH, 3, 0, 251);
  SwMeasureKey key = { sample.bay, SW_MEASURE_DEPTH, 3, 0, { 0, 0 } };
  const SwMeasure *before = sw_job_measure (sample.job, &key);
  g_autoptr (SwEdit) again = sw_job_enter_measure (sample.job, &key, 248, "A. Surveyor", "2026-04-02", &error);
  g_assert_no_error (error);
  const SwMeasure *after = (const SwMeasure *) sw_edit_peek (again, sample.job, before->record.id);
  sw_assert_near (after->value, 248, 0);
  g_assert_cmpstr (after->by, ==, "A. Surveyor");
  g_autoptr (SwEdit) same = sw_job_enter_measure (sample.job, &key, 251, NULL, NULL, &error);
  g_assert_true (sw_edit_is_empty (same));
  g_autoptr (SwEdit) gone = sw_job_enter_measure (sample.job, &key, NAN, NULL, NULL, &error);
  g_assert_null (sw_edit_peek (gone, sample.job, before->record.id));
  g_assert_null (sw_job_enter_measure (sample.job, &key, 248, NULL, "yesterday", &error));
  g_assert_nonnull (error);
  g_error_free (error);
  sw_sample_clear (&sample);
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/survey/misclosure", test_misclosure);
  g_test_add_func ("/survey/takes-over", test_takes_over);
  g_test_add_func ("/survey/walls-go-along", test_walls_go_along);
  g_test_add_func ("/survey/edges", test_edges);
  g_test_add_func ("/survey/enters", test_enters);
  return g_test_run ();
}
