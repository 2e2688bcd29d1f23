/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "geometry/solid.h"
#include "base/error.h"
#include "base/tolerance.h"

#define BEND_EXCESS_MM 0.1

SwSolid
sw_solid_tube (SwPoint3 from, SwPoint3 to, double radius)
{
  return (SwSolid){ .kind = SW_SOLID_TUBE, .radius = radius, .origin = from, .along = sw_point3_sub (to, from) };
}

SwSolid
sw_solid_cylinder (SwPoint3 from, SwPoint3 to, double radius)
{
  SwPoint3 along = sw_point3_sub (to, from);
  double length = sw_point3_length (along);
  SwPoint3 axis = length < SW_TOUCH_MM ? (SwPoint3){ 0, 0, 1 } : sw_point3_scale (along, 1 / length);
  return (SwSolid){ .kind = SW_SOLID_CYLINDER, .disc = radius, .origin = from, .along = along, .u = axis };
}

/* ---- prisms ---- */

/* Marks the sides whose direction no earlier side has: separating directions need each only once. */
static guint32
unlike_sides (const SwPoint *section, guint n)
{
  guint32 unlike = 0;
  SwPoint way[SW_SOLID_POINTS_MAX];
  for (guint i = 0; i < n; i++)
    {
      gboolean known = FALSE;
      way[i] = sw_point_sub (section[(i + 1) % n], section[i]);
      for (guint j = 0; j < i && !known; j++)
        known = fabs (sw_point_cross (way[i], way[j])) <= 1e-12 * sw_point_length (way[i]) * sw_point_length (way[j]);
      if (!known)
        unlike |= 1u << i;
    }
  return unlike;
}

SwSolid
sw_solid_box (SwPoint3 corner, SwPoint3 along, SwPoint3 across, SwPoint3 up)
{
  /* The section takes the two edges that span a plane, should one be zero. */
  SwPoint3 flat = sw_point3_cross (along, across);
  if (sw_point3_dot (flat, flat) == 0)
    {
      SwPoint3 kept = sw_point3_length (along) > sw_point3_length (across) ? along : across;
      SwPoint3 zero = sw_point3_length (along) > sw_point3_length (across) ? across : along;
      along = kept, across = up, up = zero;
    }
  SwSolid box = { .kind = SW_SOLID_PRISM, .n = 4, .sides = 3, .origin = corner, .along = up, .u = along, .v = across };
  box.section[1] = (SwPoint){ 1, 0 };
  box.section[2] = (SwPoint){ 1, 1 };
  box.section[3] = (SwPoint){ 0, 1 };
  return box;
}

SwSolid
sw_solid_box_upright (SwBox3 box)
{
  SwPoint3 size = sw_point3_sub (box.high, box.low);
  return sw_solid_box (box.low, (SwPoint3){ size.x, 0, 0 }, (SwPoint3){ 0, size.y, 0 }, (SwPoint3){ 0, 0, size.z });
}

/* How far a corner stands out beyond the line through its neighbours, negative when hollow; NaN when they coincide. */
static double
corner_height (SwPoint before, SwPoint at, SwPoint next, double way_round)
{
  SwPoint chord = sw_point_sub (next, before);
  return way_round * sw_point_cross (sw_point_sub (at, before), chord) / sw_point_length (chord);
}

/* Convex when every corner turns the same way and the ring goes round once: index of the first bad point, or n. */
static gsize
first_hollow (const SwPoint *section, gsize n, double way_round)
{
  for (gsize i = 0; i < n; i++)
    {
      SwPoint before = section[(i + n - 1) % n], at = section[i], next = section[(i + 1) % n];
      if (sw_point_distance (before, at) == 0 || !(corner_height (before, at, next, way_round) >= -SW_GRID_MM))
        return i;
    }
  return n;
}

static double
turned_in_all (const SwPoint *section, gsize n)
{
  double sum = 0;
  for (gsize i = 0; i < n; i++)
    {
      SwPoint in = sw_point_sub (section[i], section[(i + n - 1) % n]);
      SwPoint out = sw_point_sub (section[(i + 1) % n], section[i]);
      sum += atan2 (sw_point_cross (in, out), sw_point_dot (in, out));
    }
  return sum;
}

static double
twice_area (const SwPoint *section, gsize n)
{
  double twice = 0;
  for (gsize i = 1; i + 1 < n; i++)
    twice += sw_point_cross (sw_point_sub (section[i], section[0]), sw_point_sub (section[i + 1], section[0]));
  return twice;
}

static gboolean
section_is_good (const SwPoint *section, gsize n, double way_round, GError **error)
{
  for (gsize i = 0; i < n; i++)
    if (!isfinite (section[i].x) || !isfinite (section[i].y))
      {
        g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "section point %" G_GSIZE_FORMAT " is not a number", i);
        return FALSE;
      }
  if (way_round == 0)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "section has no area");
      return FALSE;
    }
  gsize hollow = first_hollow (section, n, way_round);
  if (hollow == n && fabs (turned_in_all (section, n)) < 3 * G_PI)
    return TRUE;
  g_set_error (error, SW_ERROR, SW_ERROR_INVALID,
               "section point %" G_GSIZE_FORMAT " makes it hollow or repeats a point: split it into convex parts",
               hollow == n ? 0 : hollow);
  return FALSE;
}

/* Copies the corners counter-clockwise, the first at (0, 0), without those that stand out by no more than rounding to
 * the grid made them: what is left is strictly convex. */
static guint
copy_corners (SwPoint *to, const SwPoint *section, gsize n, gboolean forward)
{
  guint kept = 0;
  SwPoint before = section[forward ? n - 1 : 1];
  for (gsize i = 0; i < n; i++)
    {
      SwPoint at = section[forward ? i : (n - i) % n], next = section[forward ? (i + 1) % n : (n - i - 1) % n];
      if (corner_height (before, at, next, 1) <= SW_GRID_MM / 10 && n - i + kept > 3)
        continue;
      to[kept++] = sw_point_sub (at, section[0]);
      before = at;
    }
  return kept;
}

static gboolean
is_unit (SwPoint3 d)
{
  return fabs (sw_point3_dot (d, d) - 1) < 1e-6;
}

gboolean
sw_solid_prism (SwSolid *solid, SwPoint3 origin, SwPoint3 u, SwPoint3 v, const SwPoint *section, gsize n, SwPoint3 push,
                GError **error)
{
  if (n < 3 || n > SW_SOLID_POINTS_MAX)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "section has %" G_GSIZE_FORMAT " points; it needs 3 to %d", n,
                   SW_SOLID_POINTS_MAX);
      return FALSE;
    }
  if (!is_unit (u) || !is_unit (v) || !(sw_point3_length (sw_point3_cross (u, v)) > SW_ANGLE_RAD)
      || !isfinite (sw_point3_dot (origin, push)))
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INVALID,
                   "section's axes are parallel or not of length 1, or its place is not a number");
      return FALSE;
    }
  double twice = twice_area (section, n);
  if (!section_is_good (section, n, twice > 0 ? 1 : twice < 0 ? -1 : 0, error))
    return FALSE;
  SwPoint3 first = sw_point3_add (sw_point3_scale (u, section[0].x), sw_point3_scale (v, section[0].y));
  *solid = (SwSolid){ .kind = SW_SOLID_PRISM, .origin = sw_point3_add (origin, first), .along = push, .u = u, .v = v };
  solid->n = copy_corners (solid->section, section, n, twice > 0);
  solid->sides = unlike_sides (solid->section, solid->n);
  return TRUE;
}

gboolean
sw_solid_slab (SwSolid *solid, const SwPoint *outline, gsize n, double z_low, double z_high, GError **error)
{
  return sw_solid_prism (solid, (SwPoint3){ 0, 0, z_low }, (SwPoint3){ 1, 0, 0 }, (SwPoint3){ 0, 1, 0 }, outline, n,
                         (SwPoint3){ 0, 0, z_high - z_low }, error);
}

/* ---- boxes, moves ---- */

static SwBox3
section_box (const SwSolid *solid)
{
  SwBox3 box = SW_BOX3_EMPTY;
  for (guint i = 0; i < solid->n; i++)
    {
      SwPoint3 x = sw_point3_scale (solid->u, solid->section[i].x), y = sw_point3_scale (solid->v, solid->section[i].y);
      box = sw_box3_add (box, sw_point3_add (solid->origin, sw_point3_add (x, y)));
    }
  return box;
}

SwBox3
sw_solid_box3 (const SwSolid *solid)
{
  SwBox3 box = { solid->origin, solid->origin };
  if (solid->kind == SW_SOLID_PRISM)
    box = section_box (solid);
  SwBox3 far = { sw_point3_add (box.low, solid->along), sw_point3_add (box.high, solid->along) };
  box = sw_box3_add (sw_box3_add (box, far.low), far.high);
  if (solid->kind == SW_SOLID_CYLINDER)
    {
      SwPoint3 u = solid->u;
      SwPoint3 reach = { solid->disc * hypot (u.y, u.z), solid->disc * hypot (u.z, u.x), solid->disc * hypot (u.x, u.y) };
      box = (SwBox3){ sw_point3_sub (box.low, reach), sw_point3_add (box.high, reach) };
    }
  return sw_box3_grow (box, solid->radius);
}

SwSolid
sw_solid_moved (const SwSolid *solid, SwPoint3 by)
{
  SwSolid moved = *solid;
  moved.origin = sw_point3_add (moved.origin, by);
  return moved;
}

SwSolid
sw_solid_grown (const SwSolid *solid, double by)
{
  SwSolid grown = *solid;
  grown.radius += by;
  return grown;
}

/* ---- bends ---- */

gboolean
sw_arc_in_corner (SwPoint3 a, SwPoint3 corner, SwPoint3 b, double bend_radius, SwArc *arc)
{
  SwPoint3 in = sw_point3_sub (corner, a), out = sw_point3_sub (b, corner);
  double in_length = sw_point3_length (in), out_length = sw_point3_length (out);
  SwPoint3 axis = sw_point3_cross (in, out);
  double sine = sw_point3_length (axis), cosine = sw_point3_dot (in, out);
  if (!(sine > SW_ANGLE_RAD * in_length * out_length) || !(bend_radius > 0))
    return FALSE;
  double angle = atan2 (sine, cosine), tangent = bend_radius * tan (angle / 2);
  if (tangent > in_length || tangent > out_length)
    return FALSE;
  axis = sw_point3_scale (axis, 1 / sine);
  in = sw_point3_scale (in, 1 / in_length);
  SwPoint3 start = sw_point3_sub (corner, sw_point3_scale (in, tangent));
  SwPoint3 inward = sw_point3_cross (axis, in);
  *arc = (SwArc){ sw_point3_add (start, sw_point3_scale (inward, bend_radius)), start, axis, angle };
  return TRUE;
}

SwPoint3
sw_arc_point (const SwArc *arc, double angle)
{
  SwPoint3 arm = sw_point3_sub (arc->start, arc->centre), square = sw_point3_cross (arc->axis, arm);
  double level = sw_point3_dot (arm, arc->axis);
  SwPoint3 up = sw_point3_scale (arc->axis, level), flat = sw_point3_sub (arm, up);
  SwPoint3 turned = sw_point3_add (sw_point3_scale (flat, cos (angle)), sw_point3_scale (square, sin (angle)));
  return sw_point3_add (sw_point3_add (arc->centre, up), turned);
}

/* A place on the arc, `out` further from its axis. */
static SwPoint3
beyond_arc (const SwArc *arc, double angle, double out, double radius)
{
  SwPoint3 on = sw_arc_point (arc, angle), arm = sw_point3_sub (on, arc->centre);
  SwPoint3 flat = sw_point3_sub (arm, sw_point3_scale (arc->axis, sw_point3_dot (arm, arc->axis)));
  return radius > 0 ? sw_point3_add (on, sw_point3_scale (flat, out / radius)) : on;
}

/* With chords of 2φ whose ends stand e = R tan² (φ / 2) outside the arc, their middles lie e inside it: no place of one is
 * farther than e from the other, so that tubes thicker by e hold the bend, and stand out by 2 e at most. */
void
sw_arc_tubes (const SwArc *arc, double tube_radius, GArray *tubes)
{
  SwPoint3 arm = sw_point3_sub (arc->start, arc->centre);
  double radius = sw_point3_length (sw_point3_cross (arc->axis, arm));
  double step = fmin (4 * atan (sqrt (BEND_EXCESS_MM / 2 / fmax (radius, BEND_EXCESS_MM))), 2 * G_PI / 3);
  guint chords = (guint) fmax (1, ceil (fabs (arc->angle) / step));
  double quarter = tan (arc->angle / chords / 4), out = radius * quarter * quarter;
  SwPoint3 from = beyond_arc (arc, 0, out, radius);
  for (guint i = 1; i <= chords; i++)
    {
      SwPoint3 to = beyond_arc (arc, arc->angle * i / chords, out, radius);
      SwSolid tube = sw_solid_tube (from, to, tube_radius + out);
      g_array_append_val (tubes, tube);
      from = to;
    }
}
