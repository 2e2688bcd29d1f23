/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rooms, walls, columns and shafts; grid lines and what was measured. */
#include "sheets/plan_parts.h"
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

/* Where a measured value is shown: at its own place, else on the rib, plate or side that it is of. */
static SwPoint
measure_place (const SwDeck *deck, const SwMeasure *measure)
{
  const SwDeckBay *bay = sw_deck_bay_of (deck, measure->of);
  const SwRecord *of = sw_job_get (sw_deck_job (deck), measure->of);
  if (measure->at.x != 0 || measure->at.y != 0 || of == NULL)
    return measure->at;
  if (bay != NULL && measure->kind == SW_MEASURE_RIB && measure->number >= 0 && measure->number < (int) bay->ribs->len)
    return sw_deck_from_bay (bay, (SwPoint){ 300, g_array_index (bay->ribs, SwRib, measure->number).v });
  SwBox box = sw_record_box (of);
  return (SwPoint){ (box.low.x + box.high.x) / 2, box.low.y };
}

void
sw_plan_draw_measures (SwDisplay *display, const SwDeck *deck)
{
  static const SwFill fill = { .role = SW_ROLE_DIMENSION };
  const SwField *kind = sw_struct_field (&sw_type_get (SW_TABLE_MEASURE)->body, "kind");
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_deck_job (deck), SW_TABLE_MEASURE); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwMeasure *measure = (const SwMeasure *) record;
      SwPoint at = measure_place (deck, measure);
      SwPoint mark[3] = { at, { at.x - 60, at.y + 110 }, { at.x + 60, at.y + 110 } };
      char value[SW_LENGTH_BUF];
      g_autofree char *text = g_strdup_printf ("%s %d: %s", sw_word (kind->words[measure->kind].label), measure->number,
                                               sw_length_write (measure->value, sw_job_lengths (sw_deck_job (deck)), SW_LENGTH_BARE, 0, value));
      sw_plan_begin (display, record, 0, "measure");
      sw_display_set_detail (display, 0.015, INFINITY);
      sw_display_add_polygon (display, mark, 3, &fill, NULL);
      sw_display_set_detail (display, 0.05, INFINITY);
      sw_plan_label (display, (SwPoint){ at.x, at.y + 220 }, text, SW_ROLE_DIMENSION, 2.0, 0);
      sw_display_end (display);
    }
}
