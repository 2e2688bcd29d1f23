/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Both kinds sort the points along the line, drop repeats and draw a tick and a thin helper line for each. Values that
 * find no room step outwards by a row; three rows in turn keep neighbours apart. Cost O(n log n). */
#include "drawing/dimension.h"
#include "base/number.h"
#include "base/tolerance.h"
#include <stdlib.h>

#define THIN_MM 0.18
#define TICK_WIDTH_MM 0.5
#define TICK_MM 2.5
#define GAP_MM 1.0
#define OVERSHOOT_MM 1.5
#define TEXT_GAP_MM 0.8
#define HEAD_MM 3.0
#define ROWS 3

typedef struct
{
  double along; /* from the datum */
  SwPoint point;
} Station;

typedef struct
{
  const SwPen *pen;
  SwPoint origin;          /* of `along`, on the line */
  SwPoint direction, out;  /* unit vectors; out leads away from the points */
  double angle;
} Ruler;

static int
compare_stations (const void *pa, const void *pb)
{
  const Station *a = pa, *b = pb;
  if (a->along != b->along)
    return a->along < b->along ? -1 : 1;
  if (a->point.x != b->point.x)
    return a->point.x < b->point.x ? -1 : 1;
  return a->point.y < b->point.y ? -1 : a->point.y > b->point.y;
}

static Ruler
ruler_new (const SwPen *pen, SwDimensionLine line, SwPoint datum, const SwPoint *points, gsize n)
{
  Ruler ruler = { pen, line.at, { cos (line.angle), sin (line.angle) }, { -sin (line.angle), cos (line.angle) }, line.angle };
  double away = 0;
  for (gsize i = 0; i < n; i++)
    away += sw_point_dot (sw_point_sub (line.at, points[i]), ruler.out);
  if (away < 0)
    ruler.out = sw_point_scale (ruler.out, -1);
  double along = sw_point_dot (sw_point_sub (datum, line.at), ruler.direction);
  ruler.origin = sw_point_add (line.at, sw_point_scale (ruler.direction, along));
  return ruler;
}

/* Sorted stations without repeats. */
static GArray *
ruler_stations (const Ruler *ruler, const SwPoint *points, gsize n)
{
  g_autofree Station *all = g_new (Station, n + 1);
  GArray *stations = g_array_new (FALSE, FALSE, sizeof (Station));
  gsize usable = 0;
  for (gsize i = 0; i < n; i++)
    {
      Station s = { sw_point_dot (sw_point_sub (points[i], ruler->origin), ruler->direction), points[i] };
      if (isfinite (s.along))
        all[usable++] = s;
    }
  qsort (all, usable, sizeof *all, compare_stations);
  for (gsize i = 0; i < usable; i++)
    if (stations->len == 0 || all[i].along - g_array_index (stations, Station, stations->len - 1).along > SW_TOUCH_MM)
      g_array_append_val (stations, all[i]);
  return stations;
}

static SwPoint
ruler_at (const Ruler *ruler, double along, double out_mm)
{
  SwPoint p = sw_point_add (ruler->origin, sw_point_scale (ruler->direction, along));
  return sw_point_add (p, sw_point_scale (ruler->out, out_mm * ruler->pen->unit));
}

static void
ruler_add_tick (const Ruler *ruler, double along)
{
  SwStroke stroke = sw_pen_stroke (ruler->pen, TICK_WIDTH_MM, SW_DASH_SOLID);
  SwPoint middle = ruler_at (ruler, along, 0);
  SwPoint half = sw_point_scale (sw_point_turn (ruler->direction, M_SQRT1_2, M_SQRT1_2), TICK_MM / 2 * ruler->pen->unit);
  sw_display_add_line (ruler->pen->display, sw_point_sub (middle, half), sw_point_add (middle, half), &stroke);
}

/* From a little off the point to a little past the line, or to a value that stands farther out. */
static void
ruler_add_helper (const Ruler *ruler, Station s, double out_mm)
{
  SwStroke stroke = sw_pen_stroke (ruler->pen, THIN_MM, SW_DASH_SOLID);
  SwPoint foot = ruler_at (ruler, s.along, 0);
  double length = sw_point_distance (foot, s.point), gap = GAP_MM * ruler->pen->unit;
  SwPoint start = length > 2 * gap ? sw_point_lerp (s.point, foot, gap / length) : foot;
  sw_display_add_line (ruler->pen->display, start, ruler_at (ruler, s.along, OVERSHOOT_MM + out_mm), &stroke);
}

static void
ruler_add_line (const Ruler *ruler, double from, double to)
{
  SwStroke stroke = sw_pen_stroke (ruler->pen, THIN_MM, SW_DASH_SOLID);
  sw_display_add_line (ruler->pen->display, ruler_at (ruler, from, 0), ruler_at (ruler, to, 0), &stroke);
}

static double
rounded (const SwPen *pen, double mm)
{
  double step = pen->lengths == SW_LENGTHS_FT_IN ? SW_MM_PER_INCH / 16 : 1;
  return round (mm / step) * step;
}

void
sw_dimension_add_chain (const SwPen *pen, SwDimensionLine line, const SwPoint *points, gsize n)
{
  if (n == 0)
    return;
  Ruler ruler = ruler_new (pen, line, points[0], points, n);
  g_autoptr (GArray) stations = ruler_stations (&ruler, points, n);
  const Station *s = (const Station *) stations->data;
  double row_mm = 1.5 * sw_pen_letters (pen);
  guint row = 0;
  for (guint i = 0; i < stations->len; i++)
    {
      ruler_add_tick (&ruler, s[i].along);
      ruler_add_helper (&ruler, s[i], 0);
      if (i == 0)
        continue;
      char buf[SW_LENGTH_BUF];
      double value = rounded (pen, s[i].along - s[0].along) - rounded (pen, s[i - 1].along - s[0].along);
      sw_length_write (value, pen->lengths, SW_LENGTH_DIM, 0, buf);
      double room = s[i].along - s[i - 1].along - TICK_MM * pen->unit;
      row = sw_pen_text_width (pen, buf, 0) <= room ? 0 : row % ROWS + 1;
      SwPoint at = ruler_at (&ruler, (s[i - 1].along + s[i].along) / 2, TEXT_GAP_MM + sw_pen_letters (pen) / 2 + row * row_mm);
      sw_pen_add_text (pen, at, buf, &(SwPenText){ .turn = ruler.angle, .align = SW_ALIGN_MIDDLE, .rise = SW_RISE_MIDDLE, .halo = row > 0 });
    }
  if (stations->len > 1)
    ruler_add_line (&ruler, s[0].along, s[stations->len - 1].along);
}

static double
widest_value_mm (const SwPen *pen, const Station *stations, guint n)
{
  double widest = 0;
  for (guint i = 0; i < n; i++)
    {
      char buf[SW_LENGTH_BUF];
      widest = MAX (widest, sw_pen_text_width (pen, sw_length_write (stations[i].along, pen->lengths, SW_LENGTH_DIM, 0, buf), 0));
    }
  return widest / pen->unit;
}

/* Upright at the end of its helper line. */
static void
add_running_value (const Ruler *ruler, Station s, double out_mm)
{
  char buf[SW_LENGTH_BUF];
  gboolean left = sw_point_cross (ruler->direction, ruler->out) > 0;
  sw_pen_add_text (ruler->pen, ruler_at (ruler, s.along, OVERSHOOT_MM + TEXT_GAP_MM + out_mm), sw_length_write (s.along, ruler->pen->lengths, SW_LENGTH_DIM, 0, buf),
                   &(SwPenText){ .turn = ruler->angle + G_PI / 2, .align = left ? SW_ALIGN_LEFT : SW_ALIGN_RIGHT, .rise = SW_RISE_MIDDLE, .halo = TRUE });
}

void
sw_dimension_add_running (const SwPen *pen, SwDimensionLine line, SwPoint datum, const SwPoint *points, gsize n)
{
  Ruler ruler = ruler_new (pen, line, datum, points, n);
  g_autoptr (GArray) stations = ruler_stations (&ruler, points, n);
  const Station *s = (const Station *) stations->data;
  double close = 1.5 * sw_pen_letters (pen) * pen->unit, last = -INFINITY, low = 0, high = 0;
  double step_mm = widest_value_mm (pen, s, stations->len) + 1;
  SwStroke ring = sw_pen_stroke (pen, 0.35, SW_DASH_SOLID);
  for (guint i = 0, row = 0; i < stations->len; i++)
    {
      gboolean at_datum = fabs (s[i].along) <= SW_TOUCH_MM;
      /* Beside a value that is too close, this one begins where that one ends. */
      row = s[i].along - last < close ? (row + 1) % ROWS : 0;
      ruler_add_helper (&ruler, s[i], at_datum ? 0 : row * step_mm);
      low = MIN (low, s[i].along);
      high = MAX (high, s[i].along);
      if (at_datum)
        continue;
      ruler_add_tick (&ruler, s[i].along);
      add_running_value (&ruler, s[i], row * step_mm);
      last = s[i].along;
    }
  sw_display_add_circle (pen->display, ruler_at (&ruler, 0, 0), TICK_MM / 2 * pen->unit, NULL, &ring);
  if (high > low)
    ruler_add_line (&ruler, low, high);
}

void
sw_dimension_add_level (const SwPen *pen, SwPoint at, const char *text, gboolean hanging)
{
  double side = hanging ? -pen->unit : pen->unit, height = sw_pen_letters (pen);
  SwStroke thin = sw_pen_stroke (pen, 0.25, SW_DASH_SOLID);
  SwFill fill = { pen->role };
  const SwPoint whole[] = { at, { at.x - 1.5 * pen->unit, at.y + 2.6 * side }, { at.x + 1.5 * pen->unit, at.y + 2.6 * side } };
  const SwPoint half[] = { at, { at.x, at.y + 2.6 * side }, { at.x + 1.5 * pen->unit, at.y + 2.6 * side } };
  sw_display_add_polygon (pen->display, half, 3, &fill, NULL);
  sw_display_add_polygon (pen->display, whole, 3, NULL, &thin);
  double width = sw_pen_text_width (pen, text, 0), shelf = at.y + 2.6 * side;
  sw_display_add_line (pen->display, (SwPoint){ at.x, shelf }, (SwPoint){ at.x + width + 3 * pen->unit, shelf }, &thin);
  double text_y = shelf + (TEXT_GAP_MM + height / 2) * side;
  sw_pen_add_text (pen, (SwPoint){ at.x + 2 * pen->unit, text_y }, text, &(SwPenText){ .rise = SW_RISE_MIDDLE });
}

void
sw_dimension_add_arrow (const SwPen *pen, SwPoint from, SwPoint to)
{
  double length = sw_point_distance (from, to), head = MIN (HEAD_MM * pen->unit, length);
  if (!(length > 0))
    return;
  SwStroke line = sw_pen_stroke (pen, 0.25, SW_DASH_SOLID);
  SwPoint back = sw_point_scale (sw_point_sub (from, to), head / length);
  SwPoint neck = sw_point_add (to, back), side = { -back.y / 6, back.x / 6 };
  const SwPoint ring[] = { to, sw_point_add (neck, side), sw_point_sub (neck, side) };
  sw_display_add_line (pen->display, from, neck, &line);
  sw_display_add_polygon (pen->display, ring, 3, &(SwFill){ pen->role }, NULL);
}

void
sw_dimension_add_leader (const SwPen *pen, SwPoint at, SwPoint to, const char *text)
{
  gboolean left = to.x >= at.x; /* the text stands on the side away from the arrow */
  double step = (left ? 1 : -1) * pen->unit;
  sw_dimension_add_arrow (pen, (SwPoint){ at.x + step, at.y }, to);
  sw_pen_add_text (pen, at, text, &(SwPenText){ .align = left ? SW_ALIGN_RIGHT : SW_ALIGN_LEFT, .rise = SW_RISE_MIDDLE, .halo = TRUE });
}
