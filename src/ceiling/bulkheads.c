/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/tolerance.h"
#include "ceiling/lay.h"
#include "ceiling/setout.h"

/* Upright faces of bulkheads. A face stands wherever a part of the ceiling lies beside a higher one, not where it ends at a wall
 * or column: side by side of each part, cut to where the other touches it. Its boards go from the back of the higher ceiling's
 * boards to the back of its own, so that they are as high as the step; they hang on studs behind them, which are nailed to what
 * carries the higher ceiling and stand on a batten of the lower one. Sheets lie along the face; where one is not enough, studs
 * take the centres that divide it. Sides times parts. */

/* ---- where it steps ---- */

/* Adds the stretches along which `other` lies just outside. */
static void
add_touching (const SwRings *own, const SwCeilingPart *other, SwPoint from, SwPoint to, GArray *out)
{
  SwFrame edge = sw_frame_along (from, to); /* in the plan; y to the left */
  g_autoptr (SwRings) there = sw_rings_from (other->area, &other->frame);
  g_autoptr (SwRings) turned = sw_rings_to (there, &edge);
  g_autoptr (GArray) touching = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  g_autoptr (GArray) whole = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  SwInterval all = { 0, sw_point_distance (from, to) };
  double outward = sw_rings_holds (own, sw_frame_from (&edge, (SwPoint){ all.high / 2, 1 })) ? -SW_BESIDE_MM : SW_BESIDE_MM;
  g_array_append_val (whole, all);
  sw_rings_cut (turned, SW_ALONG_X, outward, touching);
  sw_intervals_intersect (whole, touching);
  for (guint i = 0; i < whole->len; i++)
    if (g_array_index (whole, SwInterval, i).high - g_array_index (whole, SwInterval, i).low > SW_BESIDE_MM)
      g_array_append_val (out, g_array_index (whole, SwInterval, i));
}

static int
compare_intervals (gconstpointer pa, gconstpointer pb)
{
  double a = ((const SwInterval *) pa)->low, b = ((const SwInterval *) pb)->low;
  return (a > b) - (a < b);
}

/* Parts of one level meet at bays: their stretches become one. */
static void
join (GArray *stretches)
{
  g_array_sort (stretches, compare_intervals);
  for (guint i = 1; i < stretches->len;)
    {
      SwInterval *before = &g_array_index (stretches, SwInterval, i - 1), here = g_array_index (stretches, SwInterval, i);
      if (here.low > before->high + SW_BESIDE_MM)
        {
          i++;
          continue;
        }
      before->high = fmax (before->high, here.high);
      g_array_remove_index (stretches, i);
    }
}

GArray *
sw_lay_steps (const SwCeiling *ceiling, guint part, SwPoint from, SwPoint to, double step)
{
  const SwCeilingPart *self = &g_array_index (ceiling->parts, SwCeilingPart, part);
  GArray *steps = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  g_autoptr (SwRings) own = sw_rings_from (self->area, &self->frame);
  for (guint i = 0; i < ceiling->parts->len; i++)
    {
      const SwCeilingPart *other = &g_array_index (ceiling->parts, SwCeilingPart, i);
      double here = self->drop - other->drop;
      if (here > SW_TOUCH_MM && (step == 0 || fabs (here - step) < SW_TOUCH_MM))
        add_touching (own, other, from, to, steps);
    }
  join (steps);
  return steps;
}

GArray *
sw_lay_beside (const SwCeiling *ceiling, guint part, SwPoint from, SwPoint to, int level)
{
  const SwCeilingPart *self = &g_array_index (ceiling->parts, SwCeilingPart, part);
  GArray *beside = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  g_autoptr (SwRings) own = sw_rings_from (self->area, &self->frame);
  for (guint i = 0; i < ceiling->parts->len; i++)
    {
      const SwCeilingPart *other = &g_array_index (ceiling->parts, SwCeilingPart, i);
      double rise = self->drop - other->drop;
      if (i != part && (rise > SW_TOUCH_MM) - (rise < -SW_TOUCH_MM) == level)
        add_touching (own, other, from, to, beside);
    }
  join (beside);
  return beside;
}

/* ---- ends of battens at a bulkhead ---- */

/* How far a line that ends at y goes on above a bulkhead beyond, upwards or downwards; NAN where there is none. */
static double
end_above (const SwLayer *layer, double at, double y, gboolean up)
{
  const GArray *parts = layer->lay->ceiling->parts;
  double own = g_array_index (parts, SwCeilingPart, layer->part).drop, reach = 2 * layer->width;
  for (guint i = 0; i < parts->len; i++)
    {
      const SwCeilingPart *other = &g_array_index (parts, SwCeilingPart, i);
      if (other->drop < own + layer->depth)
        continue;
      g_autoptr (SwRings) there = sw_rings_from (other->area, &other->frame);
      g_autoptr (SwRings) local = sw_rings_to (there, &layer->frame);
      g_autoptr (GArray) bands = g_array_new (FALSE, FALSE, sizeof (SwInterval));
      sw_rings_band (local, at - layer->width / 2, at + layer->width / 2, bands);
      for (guint k = 0; k < bands->len; k++)
        {
          SwInterval band = g_array_index (bands, SwInterval, k);
          if (fabs ((up ? band.low : band.high) - y) < reach)
            return up ? band.high : band.low;
        }
    }
  return NAN;
}

void
sw_layer_reach_over (const SwLayer *layer, double at, SwInterval *stretch)
{
  double over[2] = { end_above (layer, at, stretch->low, FALSE), end_above (layer, at, stretch->high, TRUE) };
  if (isnan (over[0]) && isnan (over[1]))
    return;
  SwInterval whole = { fmin (stretch->low, isnan (over[0]) ? stretch->low : over[0]),
                       fmax (stretch->high, isnan (over[1]) ? stretch->high : over[1]) };
  SwInterval last = { INFINITY, -INFINITY }, next = { -INFINITY, INFINITY }; /* holds within, and the nearest beyond */
  g_autoptr (GArray) places = sw_layer_holds (layer, (SwPoint){ at, whole.low }, (SwPoint){ at, whole.high });
  for (guint i = 0; i < places->len; i++)
    {
      double y = whole.low + g_array_index (places, double, i);
      if (y < stretch->low)
        next.low = fmax (next.low, y);
      else if (y > stretch->high)
        next.high = fmin (next.high, y);
      else
        last = (SwInterval){ fmin (last.low, y), fmax (last.high, y) };
    }
  double reach = layer->lay->cantilever + SW_LAY_SLACK_MM;
  if (!(last.low - stretch->low <= reach) && isfinite (next.low))
    stretch->low = fmax (whole.low, next.low - layer->width);
  if (!(stretch->high - last.high <= reach) && isfinite (next.high))
    stretch->high = fmin (whole.high, next.high + layer->width);
}

/* ---- pieces of a face ---- */

/* Ends of the pieces of a course, from `first` on in whole sheets; no last piece narrower than the limit. GArray of double. */
static GArray *
ends_of_course (double length, double sheet, double first, double step, double sliver)
{
  GArray *ends = g_array_new (FALSE, FALSE, sizeof (double));
  for (double at = first; at < length - SW_TOUCH_MM; at += sheet)
    g_array_append_val (ends, at);
  double last = ends->len > 0 ? g_array_index (ends, double, ends->len - 1) : 0;
  if (ends->len > 0 && length - last < sliver)
    {
      double back = step * ceil ((sliver - (length - last)) / step), before = ends->len > 1 ? g_array_index (ends, double, ends->len - 2) : 0;
      if (last - back - before >= sliver)
        g_array_index (ends, double, ends->len - 1) = last - back;
    }
  g_array_append_val (ends, length);
  return ends;
}

static void
add_course (SwLay *lay, const SwCeilingFace *face, double top, double height, double first)
{
  SwCeiling *ceiling = lay->ceiling;
  double length = sw_point_distance (face->from, face->to), from = 0;
  double sliver = sw_rules_value (ceiling->rules, "board.layout", "sliver_mm").value;
  SwPoint aside = sw_point_scale (face->inward, ceiling->room->board_thickness / 2);
  g_autoptr (GArray) ends = ends_of_course (length, ceiling->sheet_length, first, face->centres, sliver);
  for (guint i = 0; i < ends->len; i++)
    {
      double to = g_array_index (ends, double, i);
      SwPoint a = sw_point_add (sw_point_lerp (face->from, face->to, from / length), aside);
      SwPoint b = sw_point_add (sw_point_lerp (face->from, face->to, to / length), aside);
      SwCeilingFacePiece piece = { .piece = { .length = sw_grid_round (to - from), .width = sw_grid_round (height), .cut = TRUE,
                                              .from = { sw_grid_round (a.x), sw_grid_round (a.y) },
                                              .to = { sw_grid_round (b.x), sw_grid_round (b.y) }, .top = sw_grid_round (top) } };
      g_array_append_val (ceiling->face_pieces, piece);
      from = to;
    }
  ceiling->face_joints += (ends->len - 1) * height;
}

/* Courses of at most a sheet's width; a narrow rest is shared with the one before. */
static void
add_courses (SwLay *lay, SwCeilingFace *face)
{
  SwCeiling *ceiling = lay->ceiling;
  double width = ceiling->sheet_width, sheet = ceiling->sheet_length, length = sw_point_distance (face->from, face->to);
  double sliver = sw_rules_value (ceiling->rules, "board.layout", "sliver_mm").value, top = face->top, left = face->height;
  face->first = ceiling->face_pieces->len;
  for (guint course = 0; left > SW_TOUCH_MM; course++)
    {
      double height = fmin (left, width), half = face->centres * floor (sheet / 2 / face->centres + 1e-6);
      if (left > width && left - width < sliver)
        height = left / 2;
      add_course (lay, face, top, height, course % 2 == 1 && half > 0 ? half : sheet);
      ceiling->face_joints += course > 0 ? length : 0;
      top -= height;
      left -= height;
    }
  face->n = ceiling->face_pieces->len - face->first;
}

static void
add_member (SwLay *lay, const SwCeilingFace *face, guint part, SwMemberKind kind, SwInterval along, double depth, double top)
{
  const SwRoom *room = lay->ceiling->room;
  double length = sw_point_distance (face->from, face->to);
  SwPoint aside = sw_point_scale (face->inward, room->board_thickness + room->batten_depth / 2);
  SwPoint from = sw_point_add (sw_point_lerp (face->from, face->to, along.low / length), aside);
  SwPoint to = sw_point_add (sw_point_lerp (face->from, face->to, along.high / length), aside);
  SwCeilingMember member = { .member = { { sw_grid_round (from.x), sw_grid_round (from.y) }, { sw_grid_round (to.x), sw_grid_round (to.y) },
                                         room->batten_depth, depth, top, kind },
                             .part = part, .on_wall = TRUE };
  if (along.high - along.low > SW_TOUCH_MM)
    g_array_append_val (lay->ceiling->members, member);
}

/* Studs at the centres and both ends; noggins below joints between courses. */
static void
add_studs (SwLay *lay, const SwCeilingFace *face, guint part)
{
  const SwCeiling *ceiling = lay->ceiling;
  double width = fmin (ceiling->room->batten_width, sw_point_distance (face->from, face->to)), length = sw_point_distance (face->from, face->to);
  double top = face->top + ceiling->room->batten_depth, at = width / 2, joint = INFINITY;
  while (TRUE)
    {
      add_member (lay, face, part, SW_MEMBER_STUD, (SwInterval){ at - width / 2, at + width / 2 }, face->height, top);
      if (at >= length - width)
        break;
      at = face->centres * floor (at / face->centres + 1 + 1e-6);
      if (at > length - width)
        at = length - width / 2;
    }
  for (guint i = face->first; i < face->first + face->n; i++)
    {
      double z = g_array_index (ceiling->face_pieces, SwCeilingFacePiece, i).piece.top;
      if (z < face->top - SW_TOUCH_MM && z < joint - SW_TOUCH_MM)
        {
          joint = z;
          add_member (lay, face, part, SW_MEMBER_NOGGIN, (SwInterval){ 0, length }, ceiling->room->batten_width, z + ceiling->room->batten_width / 2);
        }
    }
}

static void
add_face (SwLay *lay, guint index, SwPoint from, SwPoint to, SwPoint inward, double height)
{
  SwCeiling *ceiling = lay->ceiling;
  const SwCeilingPart *part = &g_array_index (ceiling->parts, SwCeilingPart, index);
  double length = sw_point_distance (from, to);
  SwCeilingFace face = { .bulkhead = part->bulkhead, .from = from, .to = to, .inward = inward, .height = height,
                         .top = ceiling->top - ceiling->room->batten_depth - part->drop + height };
  gboolean jointed = length > ceiling->sheet_length + SW_TOUCH_MM;
  face.centres = jointed ? sw_setout_dividing_centres (ceiling->sheet_length, part->limit) : length / ceil (length / part->limit - 1e-6);
  add_courses (lay, &face);
  add_studs (lay, &face, index);
  ceiling->bead += length;
  ceiling->inner += length;
  g_array_append_val (ceiling->faces, face);
}

/* ---- the sides of a part ---- */

typedef struct
{
  SwPoint from, to, along, inward;
  double starts, ends; /* height of the faces at both ends, 0 for none */
} Side;

static Side
side_of (const SwRings *area, SwPoint from, SwPoint to)
{
  Side side = { .from = from, .to = to };
  side.along = sw_point_scale (sw_point_sub (to, from), 1 / sw_point_distance (from, to));
  side.inward = (SwPoint){ -side.along.y, side.along.x };
  if (!sw_rings_holds (area, sw_point_add (sw_point_lerp (from, to, 0.5), side.inward)))
    side.inward = sw_point_scale (side.inward, -1);
  return side;
}

static void
add_side (SwLay *lay, guint index, Side *side, double height)
{
  g_autoptr (GArray) steps = sw_lay_steps (lay->ceiling, index, side->from, side->to, height);
  double length = sw_point_distance (side->from, side->to);
  for (guint i = 0; i < steps->len; i++)
    {
      SwInterval step = g_array_index (steps, SwInterval, i);
      if (step.low < 1)
        side->starts = height;
      if (step.high > length - 1)
        side->ends = height;
      add_face (lay, index, sw_point_add (side->from, sw_point_scale (side->along, step.low)),
                sw_point_add (side->from, sw_point_scale (side->along, step.high)), side->inward, height);
    }
}

/* An upright edge between two faces wants a bead outside and tape inside. */
static void
count_corner (SwCeiling *ceiling, const Side *before, const Side *after)
{
  double height = fmin (before->ends, after->starts), turn = sw_point_dot (before->inward, after->along);
  if (height > 0 && turn > 0.02)
    ceiling->bead += height;
  else if (height > 0 && turn < -0.02)
    ceiling->inner += height;
}

static void
add_ring (SwLay *lay, guint index, const SwRings *area, const SwPoint *points, guint n, const GArray *heights)
{
  g_autofree Side *sides = g_new0 (Side, n);
  for (guint i = 0; i < n; i++)
    {
      sides[i] = side_of (area, points[i], points[(i + 1) % n]);
      for (guint k = 0; k < heights->len; k++)
        add_side (lay, index, &sides[i], g_array_index (heights, double, k));
    }
  for (guint i = 0; i < n; i++)
    count_corner (lay->ceiling, &sides[i], &sides[(i + 1) % n]);
}

/* The steps that there are up from a part, each once. */
static GArray *
heights_from (const SwCeiling *ceiling, double drop)
{
  GArray *heights = g_array_new (FALSE, FALSE, sizeof (double));
  for (guint i = 0; i < ceiling->parts->len; i++)
    {
      double height = drop - g_array_index (ceiling->parts, SwCeilingPart, i).drop;
      gboolean known = FALSE;
      for (guint k = 0; k < heights->len; k++)
        known = known || fabs (g_array_index (heights, double, k) - height) < SW_TOUCH_MM;
      if (height > SW_TOUCH_MM && !known)
        g_array_append_val (heights, height);
    }
  return heights;
}

void
sw_lay_faces (SwLay *lay)
{
  for (guint i = 0; i < lay->ceiling->parts->len; i++)
    {
      const SwCeilingPart *part = &g_array_index (lay->ceiling->parts, SwCeilingPart, i);
      g_autoptr (SwRings) area = sw_rings_from (part->area, &part->frame);
      g_autoptr (GArray) heights = heights_from (lay->ceiling, part->drop);
      for (guint r = 0; part->bulkhead != 0 && r < sw_rings_n (area); r++)
        {
          guint n;
          const SwPoint *points = sw_rings_get (area, r, &n);
          add_ring (lay, i, area, points, n, heights);
        }
    }
}
