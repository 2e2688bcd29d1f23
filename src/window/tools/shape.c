/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/tools/shape.h"
#include "window/tools/parts.h"
#include "geometry/outline.h"

/* Half the size of a thing that stands on one place. */
static double
place_reach (const SwRecord *record)
{
  switch (sw_record_table (record))
    {
    case SW_TABLE_LIGHT:
      return ((const SwLight *) record)->cut_out / 2;
    case SW_TABLE_DROP_IN:
      return ((const SwDropIn *) record)->hole / 2;
    case SW_TABLE_FITTING:
      return MAX (((const SwFitting *) record)->length, ((const SwFitting *) record)->width) / 2;
    case SW_TABLE_HATCH:
      return MAX (((const SwHatch *) record)->length, ((const SwHatch *) record)->width) / 2;
    default:
      return 80;
    }
}

/* Width of a thing that runs along its places. */
static double
way_width (const SwRecord *record)
{
  switch (sw_record_table (record))
    {
    case SW_TABLE_RUN:
      return ((const SwRun *) record)->od + 2 * ((const SwRun *) record)->insulation;
    case SW_TABLE_WALL:
      return ((const SwWall *) record)->thickness;
    case SW_TABLE_BEAM:
      return ((const SwBeam *) record)->width;
    case SW_TABLE_SLEEVE:
      return ((const SwSleeve *) record)->diameter;
    default:
      return 0;
    }
}

static void
draw_way (SwDisplay *live, const SwRecord *record, const SwShapeLook *look)
{
  guint n = sw_parts_count (record);
  g_autofree SwPoint *points = g_new (SwPoint, n);
  double width = way_width (record);
  SwStroke body = { .role = look->role, .width = width, .unit = SW_SIZE_WORLD, .round = TRUE, .transparency = 0.6 };
  SwStroke line = { .role = look->role, .width = look->width_px, .unit = SW_SIZE_PX, .round = TRUE };
  for (guint i = 0; i < n; i++)
    points[i] = sw_parts_get (record, i);
  if (width > 0)
    sw_display_add_polyline (live, points, n, &body);
  sw_display_add_polyline (live, points, n, &line);
}

/* A tint over a whole room or bay would hide what it holds. */
static gboolean
is_ground (const SwRecord *record)
{
  return sw_record_table (record) == SW_TABLE_BAY || sw_record_table (record) == SW_TABLE_ROOM;
}

static void
draw_ring (SwDisplay *live, const SwRecord *record, const SwShapeLook *look)
{
  guint n = sw_parts_count (record);
  g_autofree SwPoint *points = g_new (SwPoint, n);
  SwFill fill = { .role = look->role, .transparency = 0.85 };
  SwStroke line = { .role = look->role, .width = look->width_px, .unit = SW_SIZE_PX };
  for (guint i = 0; i < n; i++)
    points[i] = sw_parts_get (record, i);
  if (n >= 3)
    sw_display_add_polygon (live, points, n, look->filled && !is_ground (record) ? &fill : NULL, &line);
  else
    sw_display_add_polyline (live, points, n, &line);
}

static void
draw_place (SwDisplay *live, SwPoint at, double reach, const SwShapeLook *look)
{
  SwFill fill = { .role = look->role, .transparency = 0.7 };
  SwStroke line = { .role = look->role, .width = look->width_px, .unit = SW_SIZE_PX };
  sw_display_add_circle (live, at, reach, look->filled ? &fill : NULL, &line);
}

static void
draw_layout (SwDisplay *live, const SwJob *job, const SwRecord *record, const SwShapeLook *look)
{
  const SwRecord *room = sw_job_get (job, ((const SwLayout *) record)->room);
  if (room != NULL)
    draw_ring (live, room, look);
}

void
sw_shape_draw (SwDisplay *live, const SwJob *job, const SwRecord *record, const SwShapeLook *look)
{
  SwPoint at;
  switch (sw_record_table (record))
    {
    case SW_TABLE_DROP:
      if (sw_job_drop_place (job, (const SwDrop *) record, &at))
        draw_place (live, at, 120, look);
      return;
    case SW_TABLE_LAYOUT:
      draw_layout (live, job, record, look);
      return;
    default:
      break;
    }
  guint n = sw_parts_count (record);
  switch (sw_parts_form (record))
    {
    case SW_PARTS_RING:
      draw_ring (live, record, look);
      break;
    case SW_PARTS_WAY:
      draw_way (live, record, look);
      break;
    default:
      if (n > 0)
        draw_place (live, sw_parts_get (record, 0), place_reach (record), look);
    }
}

static void
draw_handle (SwDisplay *live, SwPoint at, gboolean filled)
{
  /* A dot of no length: its width is in pixels, so it is as large at any zoom. */
  SwStroke rim = { .role = SW_ROLE_SELECTION, .width = 10, .unit = SW_SIZE_PX, .round = TRUE };
  SwStroke inside = { .role = SW_ROLE_PAPER, .width = 7, .unit = SW_SIZE_PX, .round = TRUE };
  SwPoint a = { at.x - 0.01, at.y }, b = { at.x + 0.01, at.y };
  sw_display_add_line (live, a, b, &rim);
  if (!filled)
    sw_display_add_line (live, a, b, &inside);
}

void
sw_shape_draw_handles (SwDisplay *live, const SwRecord *record, int part)
{
  guint n = sw_parts_count (record);
  if (n < 2)
    return;
  for (guint i = 0; i < n; i++)
    draw_handle (live, sw_parts_get (record, i), (int) i + 1 == part);
}

void
sw_shape_draw_cross (SwDisplay *live, SwPoint at, double mm_per_px, SwColourRole role)
{
  SwStroke line = { .role = role, .width = 1, .unit = SW_SIZE_PX };
  double reach = 14 * mm_per_px, gap = 3 * mm_per_px;
  const SwPoint ways[4] = { { 1, 0 }, { -1, 0 }, { 0, 1 }, { 0, -1 } };
  for (int i = 0; i < 4; i++)
    sw_display_add_line (live, sw_point_add (at, sw_point_scale (ways[i], gap)), sw_point_add (at, sw_point_scale (ways[i], reach)), &line);
}

static gboolean
plate_place (const SwDeck *deck, const SwPlate *plate, SwPoint *at)
{
  const SwDeckBay *bay = deck != NULL ? sw_deck_bay_of (deck, plate->bay) : NULL;
  for (guint i = 0; bay != NULL && i < bay->plates->len; i++)
    {
      const SwDeckPlate *stands = &g_array_index (bay->plates, SwDeckPlate, i);
      if (stands->record == NULL || stands->record->record.id != plate->record.id)
        continue;
      *at = sw_deck_from_bay (bay, (SwPoint){ stands->u, g_array_index (bay->voids, SwVoid, stands->void_index).v });
      return TRUE;
    }
  return FALSE;
}

static SwPoint
middle_of_parts (const SwRecord *record, guint n)
{
  SwPoint at = { 0, 0 };
  if (sw_parts_form (record) == SW_PARTS_RING && n >= 3)
    {
      const SwList *list = &SW_AT (record, sw_parts_list (record), SwList);
      return sw_outline_label_point (list->items, list->n);
    }
  if (n > 2)
    return sw_point_lerp (sw_parts_get (record, (n - 1) / 2), sw_parts_get (record, n / 2), n % 2 ? 0 : 0.5);
  for (guint i = 0; i < n; i++)
    at = sw_point_add (at, sw_point_scale (sw_parts_get (record, i), 1.0 / n));
  return at;
}

gboolean
sw_shape_place (const SwJob *job, const SwDeck *deck, const SwRecord *record, SwPoint *at)
{
  const SwRecord *room;
  guint n;
  switch (sw_record_table (record))
    {
    case SW_TABLE_DROP:
      return sw_job_drop_place (job, (const SwDrop *) record, at);
    case SW_TABLE_PLATE:
      return plate_place (deck, (const SwPlate *) record, at);
    case SW_TABLE_LAYOUT:
      room = sw_job_get (job, ((const SwLayout *) record)->room);
      return room != NULL && sw_shape_place (job, deck, room, at);
    default:
      n = sw_parts_count (record);
      if (n > 0)
        *at = middle_of_parts (record, n);
      return n > 0;
    }
}
