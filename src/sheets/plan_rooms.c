/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rooms, walls, columns and shafts; grid lines and what was measured. */
#include "sheets/plan_parts.h"
#include "sheets/survey_words.h"
#include "sheets/words.h"
#include "base/number.h"
#include "geometry/outline.h"

static void
draw_room_name (SwDisplay *display, const SwRoom *room, SwLengths lengths)
{
  SwPoint at = sw_outline_label_point (room->outline.items, room->outline.n);
  SwTextStyle style = { .role = SW_ROLE_INK, .height = 3.0, .unit = SW_SIZE_PAPER, .align = SW_ALIGN_MIDDLE,
                        .rise = SW_RISE_BASELINE, .halo = TRUE, .bold = TRUE };
  const SwField *finish = sw_struct_field (&sw_type_get (SW_TABLE_ROOM)->body, "finish");
  char area[SW_LENGTH_BUF];
  double mm2 = fabs (sw_outline_area (room->outline.items, room->outline.n));
  g_autofree char *under = g_strdup_printf ("%s · %s", sw_area_write (mm2, lengths, 1, area), sw_word (finish->words[room->finish].label));
  sw_display_set_detail (display, 0.008, INFINITY);
  sw_display_add_text (display, at, *room->name ? room->name : room->record.tag, &style);
  style = (SwTextStyle){ .role = SW_ROLE_DIMENSION, .height = 2.2, .unit = SW_SIZE_PAPER, .align = SW_ALIGN_MIDDLE,
                         .rise = SW_RISE_TOP, .halo = TRUE };
  sw_display_set_detail (display, 0.035, INFINITY);
  sw_display_add_text (display, (SwPoint){ at.x, at.y - 60 }, under, &style);
}

/* Faces are drawn dashed, as what hangs lower; the label says by how much. */
static void
draw_bulkhead (SwDisplay *display, const SwBulkhead *bulkhead, SwLengths lengths)
{
  static const SwFill tint = { .role = SW_ROLE_BOARD, .transparency = 0.75 };
  static const SwStroke stroke = { .role = SW_ROLE_INK, .width = 0.35, .unit = SW_SIZE_PAPER, .dash = SW_DASH_HIDDEN };
  char drop[SW_LENGTH_BUF];
  g_autofree char *text = g_strdup_printf (_("%s, %s lower"), bulkhead->record.tag, sw_length_write (bulkhead->drop, lengths, SW_LENGTH_UNIT, 0, drop));
  sw_plan_begin (display, &bulkhead->record, 0, "bulkhead");
  sw_display_set_detail (display, 0, INFINITY);
  sw_display_add_polygon (display, bulkhead->outline.items, bulkhead->outline.n, &tint, &stroke);
  sw_display_set_detail (display, 0.02, INFINITY);
  sw_plan_label (display, sw_outline_label_point (bulkhead->outline.items, bulkhead->outline.n), text, SW_ROLE_INK, 2.2, 0);
  sw_display_end (display);
}

void
sw_plan_draw_bulkheads (SwDisplay *display, const SwDeck *deck)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_deck_job (deck), SW_TABLE_BULKHEAD); (record = sw_job_iter_next (&i)) != NULL;)
    draw_bulkhead (display, (const SwBulkhead *) record, sw_job_lengths (sw_deck_job (deck)));
}

void
sw_plan_draw_rooms (SwDisplay *display, const SwDeck *deck)
{
  static const SwStroke stroke = { .role = SW_ROLE_DIMENSION, .width = 0.25, .unit = SW_SIZE_PAPER, .dash = SW_DASH_CENTRE };
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_deck_job (deck), SW_TABLE_ROOM); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwRoom *room = (const SwRoom *) record;
      sw_plan_begin (display, record, 0, "room");
      sw_display_set_detail (display, 0, INFINITY);
      sw_display_add_polygon (display, room->outline.items, room->outline.n, NULL, &stroke);
      draw_room_name (display, room, sw_job_lengths (sw_deck_job (deck)));
      sw_display_end (display);
    }
}

static void
draw_wall (SwDisplay *display, const SwWall *wall)
{
  static const SwFill plain = { .role = SW_ROLE_WALL, .transparency = 0.25 };
  static const SwFill lines = { .role = SW_ROLE_SEPARATING_WALL, .hatching = SW_HATCHING_DENSE };
  static const SwFill paper = { .role = SW_ROLE_PAPER };
  static const SwStroke thin = { .role = SW_ROLE_WALL, .width = 0.25, .unit = SW_SIZE_PAPER };
  static const SwStroke thick = { .role = SW_ROLE_SEPARATING_WALL, .width = 0.5, .unit = SW_SIZE_PAPER };
  SwPoint way = sw_point_sub (wall->to, wall->from), corners[4];
  double length = sw_point_length (way);
  if (length <= 0)
    return;
  sw_plan_box_points (sw_point_lerp (wall->from, wall->to, 0.5), length, wall->thickness, atan2 (way.y, way.x) * 180 / G_PI, corners);
  sw_plan_begin (display, &wall->record, 0, wall->separating ? "separating-wall" : "wall");
  sw_display_set_detail (display, 0, INFINITY);
  if (wall->separating)
    sw_display_add_polygon (display, corners, 4, &paper, NULL);
  sw_display_add_polygon (display, corners, 4, wall->separating ? &lines : &plain, wall->separating ? &thick : &thin);
  if (wall->separating)
    {
      char fire[SW_NUMBER_BUF], sound[SW_NUMBER_BUF];
      g_autofree char *text = g_strdup_printf ("%s  %s min  %s dB", wall->record.tag, sw_number_write_fixed (wall->fire_minutes, 0, fire),
                                               sw_number_write_fixed (wall->sound_db, 0, sound));
      sw_display_set_detail (display, 0.03, INFINITY);
      sw_plan_label (display, sw_point_lerp (wall->from, wall->to, 0.5), text, SW_ROLE_SEPARATING_WALL, 2.2, sw_plan_text_turn (way));
    }
  sw_display_end (display);
}

void
sw_plan_draw_walls (SwDisplay *display, const SwDeck *deck)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_deck_job (deck), SW_TABLE_WALL); (record = sw_job_iter_next (&i)) != NULL;)
    draw_wall (display, (const SwWall *) record);
}

void
sw_plan_draw_columns (SwDisplay *display, const SwDeck *deck)
{
  static const SwFill solid = { .role = SW_ROLE_CONCRETE_EDGE }, paper = { .role = SW_ROLE_PAPER };
  static const SwStroke stroke = { .role = SW_ROLE_WALL, .width = 0.35, .unit = SW_SIZE_PAPER };
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_deck_job (deck), SW_TABLE_COLUMN); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwColumn *column = (const SwColumn *) record;
      const SwPoint *points = column->outline.items;
      gboolean shaft = column->kind == SW_COLUMN_SHAFT;
      sw_plan_begin (display, record, 0, shaft ? "shaft" : "column");
      sw_display_set_detail (display, 0, INFINITY);
      sw_display_add_polygon (display, points, column->outline.n, shaft ? &paper : &solid, &stroke);
      if (shaft && column->outline.n == 4)
        sw_display_add_line (display, points[0], points[2], &stroke);
      sw_display_end (display);
    }
}

/* The bubble stands outside the line's start: lines are drawn from the side on which they are named. */
static void
draw_gridline (SwDisplay *display, const SwGridline *line)
{
  static const SwStroke stroke = { .role = SW_ROLE_GRID, .width = 0.25, .unit = SW_SIZE_PAPER, .dash = SW_DASH_CENTRE };
  static const SwStroke ring = { .role = SW_ROLE_DIMENSION, .width = 0.25, .unit = SW_SIZE_PAPER };
  static const SwFill paper = { .role = SW_ROLE_PAPER };
  SwPoint way = sw_point_sub (line->to, line->from);
  double length = sw_point_length (way);
  if (length <= 0)
    return;
  SwPoint middle = sw_point_sub (line->from, sw_point_scale (way, 300 / length));
  sw_plan_begin (display, &line->record, 0, "grid");
  sw_display_set_detail (display, 0, INFINITY);
  sw_display_add_line (display, line->from, line->to, &stroke);
  sw_display_add_circle (display, middle, 300, &paper, &ring);
  SwTextStyle style = { .role = SW_ROLE_INK, .height = 240, .unit = SW_SIZE_WORLD, .align = SW_ALIGN_MIDDLE, .rise = SW_RISE_MIDDLE };
  sw_display_add_text (display, middle, line->record.tag, &style);
  sw_display_end (display);
}

void
sw_plan_draw_grid (SwDisplay *display, const SwDeck *deck)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_deck_job (deck), SW_TABLE_GRIDLINE); (record = sw_job_iter_next (&i)) != NULL;)
    draw_gridline (display, (const SwGridline *) record);
}

/* ---- what was measured */

static SwPoint
place_in_bay (const SwDeckBay *bay, const SwMeasure *measure)
{
  gboolean rib = measure->number >= 0 && measure->number < (int) bay->ribs->len;
  const SwRib *of = rib ? &g_array_index (bay->ribs, SwRib, measure->number) : NULL;
  gboolean high = measure->second == SW_EDGE_HIGH_START || measure->second == SW_EDGE_HIGH_END;
  if (of != NULL && measure->kind == SW_MEASURE_RIB)
    return sw_deck_from_bay (bay, (SwPoint){ 300, of->v });
  if (of != NULL && measure->kind == SW_MEASURE_EDGE)
    return sw_deck_from_bay (bay, (SwPoint){ measure->second <= SW_EDGE_HIGH_START ? 0 : bay->length, high ? of->high : of->low });
  for (guint i = 0; i < bay->voids->len; i++)
    {
      const SwVoid *over = &g_array_index (bay->voids, SwVoid, i);
      if (over->number == measure->number && measure->kind == SW_MEASURE_DEPTH)
        return sw_deck_from_bay (bay, (SwPoint){ bay->length / 2, over->v });
    }
  for (guint i = 0; i < bay->plates->len; i++)
    {
      const SwDeckPlate *plate = &g_array_index (bay->plates, SwDeckPlate, i);
      const SwVoid *over = &g_array_index (bay->voids, SwVoid, plate->void_index);
      if (measure->kind == SW_MEASURE_PLATE && over->number == measure->number && plate->number == measure->second)
        return sw_deck_from_bay (bay, (SwPoint){ plate->u, over->v });
    }
  return sw_deck_from_bay (bay, (SwPoint){ bay->length / 2, 0 });
}

static SwPoint
place_in_room (const SwRoom *room, const SwMeasure *measure)
{
  guint n = room->outline.n, from = (guint) (measure->number - 1);
  guint to = measure->kind == SW_MEASURE_LENGTH ? (from + 1) % n : (guint) (measure->second - 1);
  SwBox box = sw_record_box (&room->record);
  if (from >= n || to >= n)
    return (SwPoint){ (box.low.x + box.high.x) / 2, box.low.y };
  return sw_point_lerp (SW_LIST_AT (room->outline, SwPoint, from), SW_LIST_AT (room->outline, SwPoint, to), measure->kind == SW_MEASURE_LENGTH ? 0.5 : 0.35);
}

/* Where a measured value is shown: at its own place, else on the rib, plate, side or diagonal that it is of. */
static SwPoint
measure_place (const SwDeck *deck, const SwMeasure *measure)
{
  const SwDeckBay *bay = sw_deck_bay_of (deck, measure->of);
  const SwRecord *of = sw_job_get (sw_deck_job (deck), measure->of);
  if (measure->kind == SW_MEASURE_LEVEL || of == NULL)
    return measure->at;
  return bay != NULL ? place_in_bay (bay, measure) : sw_record_table (of) == SW_TABLE_ROOM ? place_in_room ((const SwRoom *) of, measure) : measure->at;
}

/* "rib line: 608 (+8)". */
static char *
measure_text (const SwDeck *deck, const SwMeasure *measure)
{
  const SwField *kind = sw_struct_field (&sw_type_get (SW_TABLE_MEASURE)->body, "kind");
  SwMeasureKey key = sw_measure_key (measure);
  char value[SW_LENGTH_BUF];
  double drawn = sw_survey_drawn (deck, &key);
  g_autofree char *shift = isnan (drawn) ? NULL : sw_survey_shift_text (sw_deck_job (deck), measure->value - drawn);
  sw_length_write (measure->value, sw_job_lengths (sw_deck_job (deck)), SW_LENGTH_BARE, 0, value);
  if (shift == NULL)
    return g_strdup_printf ("%s: %s", sw_word (kind->words[measure->kind].label), value);
  return g_strdup_printf ("%s: %s (%s)", sw_word (kind->words[measure->kind].label), value, shift);
}

static void
draw_measure (SwDisplay *display, const SwDeck *deck, const SwMeasure *measure)
{
  static const SwFill fill = { .role = SW_ROLE_DIMENSION };
  gboolean below = measure->kind == SW_MEASURE_EDGE && (measure->second == SW_EDGE_LOW_START || measure->second == SW_EDGE_LOW_END);
  SwPoint at = measure_place (deck, measure);
  double up = below ? -1 : 1;
  SwPoint mark[3] = { at, { at.x - 60, at.y + up * 110 }, { at.x + 60, at.y + up * 110 } };
  g_autofree char *text = measure_text (deck, measure);
  sw_plan_begin (display, &measure->record, 0, "measure");
  sw_display_set_detail (display, 0.015, INFINITY);
  sw_display_add_polygon (display, mark, 3, &fill, NULL);
  sw_display_set_detail (display, 0.05, INFINITY);
  sw_plan_label (display, (SwPoint){ at.x, at.y + up * 220 }, text, SW_ROLE_DIMENSION, 2.0, 0);
  sw_display_end (display);
}

/* The outline as measured, and how each corner stands off from where it is drawn. */
static void
draw_fitted (SwDisplay *display, const SwDeck *deck, const SwRoom *room)
{
  static const SwStroke line = { .role = SW_ROLE_DIMENSION, .width = 0.35, .dash = SW_DASH_HIDDEN };
  g_autoptr (SwSurveyRoom) survey = sw_survey_room (sw_deck_job (deck), room);
  if (survey == NULL || survey->shift < 0.5)
    return;
  sw_plan_begin (display, &room->record, 0, "measured");
  sw_display_set_detail (display, 0, INFINITY);
  sw_display_add_polygon (display, survey->corners, survey->n, NULL, &line);
  sw_display_set_detail (display, 0.03, INFINITY);
  for (guint i = 0; i < survey->n; i++)
    {
      SwPoint by = sw_point_sub (survey->corners[i], SW_LIST_AT (room->outline, SwPoint, i));
      SwPoint inwards = sw_outline_label_point (room->outline.items, room->outline.n);
      g_autofree char *x = sw_survey_shift_text (sw_deck_job (deck), by.x), *y = sw_survey_shift_text (sw_deck_job (deck), by.y);
      g_autofree char *text = g_strdup_printf (_("x %s, y %s"), x, y);
      double away = fmax (sw_point_distance (inwards, survey->corners[i]), 1);
      if (sw_point_length (by) >= 0.5)
        sw_plan_label (display, sw_point_lerp (survey->corners[i], inwards, fmin (500 / away, 0.3)), text, SW_ROLE_DIMENSION, 2.0, 0);
    }
  sw_display_end (display);
}

void
sw_plan_draw_measures (SwDisplay *display, const SwDeck *deck)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_deck_job (deck), SW_TABLE_ROOM); (record = sw_job_iter_next (&i)) != NULL;)
    draw_fitted (display, deck, (const SwRoom *) record);
  for (SwJobIter i = sw_job_iter (sw_deck_job (deck), SW_TABLE_MEASURE); (record = sw_job_iter_next (&i)) != NULL;)
    draw_measure (display, deck, (const SwMeasure *) record);
}
