/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/tolerance.h"
#include "ceiling/totals.h"
#include "fixture.h"
#include "support.h"
#include <math.h>
#include <string.h>

static double
quantity (const SwTotals *totals, SwTotalKind kind)
{
  return sw_quantity_to_double (sw_totals_sum (totals, kind));
}

static SwTotals *
totals_of (const SwCeiling *ceiling)
{
  GError *error = NULL;
  SwTotals *totals = sw_totals_new (ceiling, NULL, &error);
  g_assert_no_error (error);
  return totals;
}

/* Worked example (derived twice): 6.0 × 4.0 m with sheets of 3,000 × 1,200 at 375, staggered by half a sheet: rows of 2, 2 and
 * 2 sheets and one ripped into 400 strips: 7; long joints 18.0, end joints 1.2 + 2.4 + 1.2 + 0.8 = 5.6: 23.6 m, 24.8 m of
 * tape at 5 %; cornice 20 m, 21 m at 5 %, 7 lengths of 3 m. */
static void
test_example (void)
{
  SwFixture fixture = sw_fixture_new (7000, 5000, 0);
  SwId id = sw_sample_put (&fixture.sample, &sw_fixture_rectangle (&fixture, 300, 350, 6300, 4350)->record);
  g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, id, NULL);
  g_autoptr (SwTotals) totals = totals_of (ceiling);
  g_assert_cmpuint (ceiling->n_sheets, ==, 7);
  g_assert_cmpuint (ceiling->n_sheets_bound, ==, 7);
  sw_assert_near (g_array_index (ceiling->parts, SwCeilingPart, 0).centres, 375, 1e-9);
  sw_assert_near (quantity (totals, SW_TOTAL_JOINT_LONG), 18.0, 1e-9);
  sw_assert_near (quantity (totals, SW_TOTAL_JOINT_END), 5.6, 1e-9);
  sw_assert_near (quantity (totals, SW_TOTAL_TAPE), 24.78, 1e-9);
  sw_assert_near (quantity (totals, SW_TOTAL_CORNICE), 20, 1e-9);
  sw_assert_near (quantity (totals, SW_TOTAL_CORNICE_LENGTHS), 7, 1e-9);
  sw_assert_near (quantity (totals, SW_TOTAL_MITRES), 4, 1e-9);
  sw_assert_near (quantity (totals, SW_TOTAL_BOARD_AREA), 24, 1e-9);
  sw_assert_near (quantity (totals, SW_TOTAL_BOARD_WASTE), 1.2, 1e-9);
  /* 7 sheets of 3.6 m² at 7.0 kg/m². */
  sw_assert_near (quantity (totals, SW_TOTAL_SHEET_MASS), 176.4, 1e-9);
  g_assert_cmpuint (sw_fixture_marks (ceiling, SW_CEILING_JOINT_OFF_BATTEN), ==, 0);
  g_assert_cmpuint (sw_fixture_marks (ceiling, SW_CEILING_STAGGER), ==, 0);
  sw_fixture_clear (&fixture);
}

/* The same room with battens at 400, as somebody may insist on: 3,000/400 = 7.5, the end joints hang (trade critique). */
static void
test_hanging_joint (void)
{
  SwFixture fixture = sw_fixture_new (7000, 5000, 0);
  SwCeilingOptions options = { .centres = 400 };
  SwId id = sw_sample_put (&fixture.sample, &sw_fixture_rectangle (&fixture, 300, 350, 6300, 4350)->record);
  g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, id, &options);
  sw_assert_near (g_array_index (ceiling->parts, SwCeilingPart, 0).centres, 400, 1e-9);
  g_assert_cmpuint (sw_fixture_marks (ceiling, SW_CEILING_JOINT_OFF_BATTEN), >, 0);
  sw_fixture_clear (&fixture);
}

/* Derived by counting: 2,400 × 1,200 across battens at 400, 230 field, 150 ends, 10 from edges: 2 × 9 + 5 × 7 = 53. */
static void
test_screws (void)
{
  SwFixture fixture = sw_fixture_new (7000, 5000, 0);
  g_assert_cmpuint (sw_totals_sheet_screws (fixture.rules, 2400, 1200, 400), ==, 53);
  /* A room of just one sheet: the two end lines are battens 38 off the walls, the rest as above; walls along the sheet get
   * screws on the noggins too. */
  SwRoom *room = sw_fixture_rectangle (&fixture, 1000, 1000, 3400, 2200);
  room->board_length = 2400;
  SwId id = sw_sample_put (&fixture.sample, &room->record);
  g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, id, NULL);
  g_autoptr (SwTotals) totals = totals_of (ceiling);
  g_assert_cmpuint (ceiling->pieces->len, ==, 1);
  g_assert_cmpfloat (quantity (totals, SW_TOTAL_SCREWS), >=, 53);
  sw_fixture_clear (&fixture);
}

/* South African rule of thumb: cornice 20 m at 5 % in lengths of 3 m: 7. */
static void
test_cornice (void)
{
  SwFixture fixture = sw_fixture_new (7000, 5000, 0);
  g_assert_cmpuint (sw_totals_cornice_lengths (fixture.rules, 20), ==, 7);
  g_assert_cmpuint (sw_totals_cornice_lengths (fixture.rules, 0), ==, 0);
  sw_fixture_clear (&fixture);
}

/* All along the joint timber of some kind lies under it. */
static void
assert_carried (const SwCeiling *ceiling, const SwJoint *joint)
{
  for (int step = 0; step <= 40; step++)
    {
      SwPoint p = sw_point_lerp (joint->from, joint->to, step / 40.0);
      double nearest = INFINITY;
      for (guint i = 0; i < ceiling->members->len; i++)
        {
          const SwMember *m = &g_array_index (ceiling->members, SwCeilingMember, i).member;
          SwPoint along = sw_point_sub (m->to, m->from);
          double t = CLAMP (sw_point_dot (sw_point_sub (p, m->from), along) / sw_point_dot (along, along), 0, 1);
          nearest = fmin (nearest, sw_point_distance (p, sw_point_lerp (m->from, m->to, t)) - m->width / 2);
        }
      g_assert_cmpfloat (nearest, <=, p.x < 300 + 38 || p.x > 5300 - 38 ? 38 : 0.01);
    }
}

/* Sheets along the battens: long joints lie on battens, at a multiple of the centres that divides the sheet's width; where a row ends between
 * two battens noggins carry the joint. */
static void
test_turned (void)
{
  SwFixture fixture = sw_fixture_new (8000, 6000, 0);
  SwRoom *room = sw_fixture_rectangle (&fixture, 300, 300, 5300, 4700);
  room->boards_turned = TRUE;
  SwId id = sw_sample_put (&fixture.sample, &room->record);
  g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, id, NULL);
  double centres = g_array_index (ceiling->parts, SwCeilingPart, 0).centres;
  sw_assert_near (1200 / centres, round (1200 / centres), 1e-9);
  for (guint i = 0; i < ceiling->joints->len; i++)
    {
      const SwJoint *joint = &g_array_index (ceiling->joints, SwJoint, i);
      if (joint->kind == SW_JOINT_LONG)
        sw_assert_near ((joint->from.x - 300) / centres, round ((joint->from.x - 300) / centres), 1e-6);
      if (joint->kind == SW_JOINT_END)
        assert_carried (ceiling, joint);
    }
  g_assert_cmpuint (sw_fixture_marks (ceiling, SW_CEILING_JOINT_OFF_BATTEN), ==, 0);
  sw_fixture_clear (&fixture);
}

/* 3,650 wide is three rows and 50: plain rows leave a sliver of 50; a shifted start does not. */
static void
test_sliver (void)
{
  SwFixture fixture = sw_fixture_new (8000, 6000, 0);
  SwId id = sw_sample_put (&fixture.sample, &sw_fixture_rectangle (&fixture, 300, 300, 6300, 3950)->record);
  g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, id, NULL);
  double least = INFINITY;
  for (guint i = 0; i < ceiling->pieces->len; i++)
    least = fmin (least, g_array_index (ceiling->pieces, SwCeilingPiece, i).piece.width);
  g_assert_cmpfloat (least, >=, 100);
  g_assert_cmpuint (ceiling->n_sheets, <=, ceiling->n_sheets_plain);
  g_assert_cmpuint (sw_fixture_marks (ceiling, SW_CEILING_SLIVER), ==, 0);
  sw_fixture_clear (&fixture);
}

/* A board cannot be lifted over a column: no piece goes round it. A hatch is cut out of its board. */
static void
test_column_and_hatch (void)
{
  SwFixture fixture = sw_fixture_new (8000, 6000, 0);
  SwColumn *column = (SwColumn *) sw_sample_create (&fixture.sample, SW_TABLE_COLUMN);
  sw_sample_rectangle (&column->outline, 2000, 1000, 2300, 1300);
  sw_sample_put (&fixture.sample, &column->record);
  SwHatch *hatch = (SwHatch *) sw_sample_create (&fixture.sample, SW_TABLE_HATCH);
  hatch->at = (SwPoint){ 4000, 2000 };
  hatch->length = 350;
  hatch->width = 600;
  sw_sample_put (&fixture.sample, &hatch->record);
  SwId id = sw_sample_put (&fixture.sample, &sw_fixture_rectangle (&fixture, 300, 300, 6300, 4300)->record);
  g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, id, NULL);
  guint slit = 0;
  for (guint i = 0; i < ceiling->pieces->len; i++)
    {
      const SwCeilingPiece *piece = &g_array_index (ceiling->pieces, SwCeilingPiece, i);
      const SwPoint *corners = &g_array_index (ceiling->corners, SwPoint, piece->first);
      gboolean twice = FALSE;
      for (guint a = 0; a < piece->n; a++)
        for (guint b = a + 1; b < piece->n; b++)
          twice = twice || sw_point_distance (corners[a], corners[b]) < SW_TOUCH_MM;
      slit += twice;
      if (twice)
        g_assert_true (sw_outline_distance (corners, piece->n, (SwPoint){ 4000, 2000 }, NULL, NULL) < 400);
    }
  g_assert_cmpuint (slit, <=, 1);
  sw_fixture_clear (&fixture);
}

/* A conduit that crosses below the ribs leaves a strip without screws along it, inside the room only. */
static void
test_strip (void)
{
  SwFixture fixture = sw_fixture_new (8000, 6000, 0);
  const SwSampleVertex vertices[] = { { 2000, 900, SW_LEVEL_VOID, 100 }, { 2200, 900, SW_LEVEL_BELOW, 5 },
                                      { 2200, 2700, SW_LEVEL_BELOW, 5 }, { 2400, 2700, SW_LEVEL_VOID, 100 } };
  sw_sample_run (&fixture.sample, SW_SERVICE_POWER, 20, 0, vertices, 4);
  SwId id = sw_sample_put (&fixture.sample, &sw_fixture_rectangle (&fixture, 300, 300, 6300, 2000)->record);
  g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, id, NULL);
  gboolean along = FALSE;
  g_assert_cmpuint (ceiling->strips->len, >=, 1);
  for (guint i = 0; i < ceiling->strips->len; i++)
    {
      const SwStrip *strip = &g_array_index (ceiling->strips, SwStrip, i);
      g_assert_cmpfloat (strip->width, >=, 20);
      g_assert_cmpfloat (fmax (strip->from.y, strip->to.y), <=, 2000 + SW_TOUCH_MM);
      along = along || sw_point_distance (strip->from, strip->to) > 1050;
    }
  g_assert_true (along);
  sw_fixture_clear (&fixture);
}

/* Two bays, voids along and across: a movement joint where they meet, battens in both directions, through none of them. */
static void
test_two_bays (void)
{
  SwFixture fixture = sw_fixture_new (4000, 5000, 0);
  SwBay *second = (SwBay *) sw_sample_create (&fixture.sample, SW_TABLE_BAY);
  second->profile = fixture.sample.profile;
  second->direction = 90;
  sw_sample_rectangle (&second->outline, 4000, 0, 8000, 5000);
  sw_sample_put (&fixture.sample, &second->record);
  SwId id = sw_sample_put (&fixture.sample, &sw_fixture_rectangle (&fixture, 500, 500, 7500, 4500)->record);
  g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, id, NULL);
  guint plumb = 0, level = 0;
  g_assert_cmpuint (ceiling->parts->len, ==, 2);
  sw_assert_near (sw_fixture_joints (ceiling, SW_JOINT_MOVEMENT), 4.0, 1e-6);
  for (guint i = 0; i < ceiling->members->len; i++)
    {
      const SwMember *m = &g_array_index (ceiling->members, SwCeilingMember, i).member;
      double low = fmin (m->from.x, m->to.x), high = fmax (m->from.x, m->to.x);
      g_assert_true (high <= 4000 + SW_TOUCH_MM || low >= 4000 - SW_TOUCH_MM);
      plumb += m->kind == SW_MEMBER_BATTEN && high - low < 1 && high < 4000;
      level += m->kind == SW_MEMBER_BATTEN && high - low > 1 && low >= 4000 - SW_TOUCH_MM;
    }
  g_assert_cmpuint (plumb, >, 5);
  g_assert_cmpuint (level, >, 5);
  sw_fixture_clear (&fixture);
}

/* A deep beam divides the boards; battens stop at its faces. */
static void
test_beam (void)
{
  SwFixture fixture = sw_fixture_new (8000, 6000, 0);
  SwBeam *beam = (SwBeam *) sw_sample_create (&fixture.sample, SW_TABLE_BEAM);
  beam->from = (SwPoint){ 0, 2500 };
  beam->to = (SwPoint){ 8000, 2500 };
  beam->width = 300;
  beam->drop = 400;
  sw_sample_put (&fixture.sample, &beam->record);
  SwId id = sw_sample_put (&fixture.sample, &sw_fixture_rectangle (&fixture, 300, 300, 6300, 4700)->record);
  g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, id, NULL);
  double area = 0;
  g_assert_cmpuint (ceiling->parts->len, ==, 2);
  for (guint i = 0; i < ceiling->pieces->len; i++)
    area += g_array_index (ceiling->pieces, SwCeilingPiece, i).area / 1e6;
  sw_assert_near (area, 6.0 * (4.4 - 0.3), 1e-6);
  for (guint i = 0; i < ceiling->members->len; i++)
    {
      const SwMember *m = &g_array_index (ceiling->members, SwCeilingMember, i).member;
      g_assert_true (fmax (m->from.y, m->to.y) <= 2350 + SW_TOUCH_MM || fmin (m->from.y, m->to.y) >= 2650 - SW_TOUCH_MM);
    }
  sw_fixture_clear (&fixture);
}

static void
test_errors (void)
{
  GError *error = NULL;
  SwFixture fixture = sw_fixture_new (4000, 3000, 0);
  SwRoom *room = sw_fixture_rectangle (&fixture, 10000, 10000, 12000, 12000);
  SwId away = sw_sample_put (&fixture.sample, &room->record);
  room = sw_fixture_rectangle (&fixture, 300, 300, 2000, 2000);
  room->finish = SW_FINISH_EXPOSED;
  SwId bare = sw_sample_put (&fixture.sample, &room->record);
  room = sw_fixture_rectangle (&fixture, 300, 300, 2000, 2000);
  room->board_thickness = 3;
  SwId thin = sw_sample_put (&fixture.sample, &room->record);
  room = sw_fixture_rectangle (&fixture, 300, 300, 2000, 2000);
  SwId good = sw_sample_put (&fixture.sample, &room->record);
  g_autoptr (SwDeck) deck = sw_deck_new (fixture.sample.job);
  const struct { SwId room; int code; const char *part; } cases[] = {
    { away, SW_ERROR_NOT_FOUND, "lies under no bay" },
    { bare, SW_ERROR_INVALID, "no closed ceiling" },
    { thin, SW_ERROR_NOT_FOUND, "board of 3 mm" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const SwRoom *asked = (const SwRoom *) sw_job_get (fixture.sample.job, cases[i].room);
      g_assert_null (sw_ceiling_plan (deck, fixture.rules, asked, NULL, NULL, &error));
      g_assert_error (error, SW_ERROR, cases[i].code);
      g_assert_nonnull (strstr (error->message, cases[i].part));
      g_clear_error (&error);
    }
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_cancellable_cancel (cancellable);
  g_assert_null (sw_ceiling_plan (deck, fixture.rules, (const SwRoom *) sw_job_get (fixture.sample.job, good), NULL,
                                  cancellable, &error));
  sw_assert_error (error, SW_ERROR_CANCELLED, "cancelled");
  sw_fixture_clear (&fixture);
}

/* Derived by hand: rows of 2,750 over battens at 400. A sheet of 2,400 gives six bays of 400, or one piece of 350 + 400 k at the wall
 * takes as many bays and one more; so a row's six bays and its end are worth 7/6 of a sheet however they are cut: 13
 * rows 15.17 sheets, where the area alone says 14.9. */
static void
test_bound (void)
{
  SwFixture fixture = sw_fixture_new (9000, 17000, 0);
  SwRoom *room = sw_fixture_rectangle (&fixture, 400, 400, 3150, 16000);
  room->board_length = 2400;
  SwId id = sw_sample_put (&fixture.sample, &room->record);
  g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, id, NULL);
  const SwCeilingPart *part = &g_array_index (ceiling->parts, SwCeilingPart, 0);
  sw_assert_near (part->centres, 400, 1e-9);
  sw_assert_near (sw_rings_box (part->area).high.x - sw_rings_box (part->area).low.x, 2750, 0.01);
  g_assert_cmpuint (ceiling->n_sheets_bound, ==, 16);
  g_assert_cmpuint (ceiling->n_sheets, >=, 16);
  sw_fixture_clear (&fixture);
}

/* Derived by hand: each row of 2,200 takes a sheet of 3,000 and leaves 800; three such offcuts make a row of 752 + 695 + 752 on
 * battens at 347.7. So 7.44 rows of 900 take six sheets (5.46 by area) where rows from the corner take eight. */
static void
test_rows_of_offcuts (void)
{
  SwFixture fixture = sw_fixture_new (11400, 9000, 0);
  SwRoom *room = sw_fixture_rectangle (&fixture, 400, 300, 2600, 7000);
  room->board_length = 3000;
  room->board_width = 900;
  SwId id = sw_sample_put (&fixture.sample, &room->record);
  g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, id, NULL);
  g_assert_cmpuint (ceiling->n_sheets_plain, ==, 8);
  g_assert_cmpuint (ceiling->n_sheets_bound, ==, 6);
  g_assert_cmpuint (ceiling->n_sheets, ==, 6);
  g_assert_cmpuint (sw_fixture_marks (ceiling, SW_CEILING_JOINT_OFF_BATTEN), ==, 0);
  g_assert_cmpuint (sw_fixture_marks (ceiling, SW_CEILING_STAGGER), ==, 0);
  g_assert_cmpuint (sw_fixture_marks (ceiling, SW_CEILING_SLIVER), ==, 0);
  sw_fixture_clear (&fixture);
}

/* Walls at 27° to the battens, sheets along these: a long joint on a batten is bare where the batten's square end stops short of the slanting
 * wall, 38 mm / tan 27° at each, which the batten along the wall bridges. No joint is called off its batten for that. */
static void
test_slanting_ends (void)
{
  SwFixture fixture = sw_fixture_new (11400, 9000, 27);
  const SwPoint corners[] = { { -200, 4350 }, { 6300, 4350 }, { 6300, 8850 }, { 3600, 8850 }, { 3600, 6550 }, { -200, 6550 } };
  SwRoom *room = sw_fixture_room (&fixture, corners, G_N_ELEMENTS (corners));
  room->boards_turned = TRUE;
  SwId id = sw_sample_put (&fixture.sample, &room->record);
  g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, id, NULL);
  g_assert_cmpuint (ceiling->pieces->len, >=, 6);
  g_assert_cmpuint (sw_fixture_marks (ceiling, SW_CEILING_JOINT_OFF_BATTEN), ==, 0);
  sw_fixture_clear (&fixture);
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/ceiling/boards/example", test_example);
  g_test_add_func ("/ceiling/boards/hanging-joint", test_hanging_joint);
  g_test_add_func ("/ceiling/boards/screws", test_screws);
  g_test_add_func ("/ceiling/boards/cornice", test_cornice);
  g_test_add_func ("/ceiling/boards/turned", test_turned);
  g_test_add_func ("/ceiling/boards/sliver", test_sliver);
  g_test_add_func ("/ceiling/boards/column-and-hatch", test_column_and_hatch);
  g_test_add_func ("/ceiling/boards/strip", test_strip);
  g_test_add_func ("/ceiling/boards/two-bays", test_two_bays);
  g_test_add_func ("/ceiling/boards/beam", test_beam);
  g_test_add_func ("/ceiling/boards/errors", test_errors);
  g_test_add_func ("/ceiling/boards/bound", test_bound);
  g_test_add_func ("/ceiling/boards/rows-of-offcuts", test_rows_of_offcuts);
  g_test_add_func ("/ceiling/boards/slanting-ends", test_slanting_ends);
  return g_test_run ();
}
