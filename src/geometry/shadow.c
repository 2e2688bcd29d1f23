/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A point of the solid at height z that is dz above or below the cylinder keeps the axis √(R² − dz²) + disc away, R being the
 * clearance with the solid's own radius. The places barred by all points are one convex area: the section of a sum of convex
 * bodies. So it is enough to cut the solid at some heights, to take the farthest of all those discs in each of many directions,
 * and to join the tangents; the directions of the solid's faces are among them, so that straight sides come out exact. Cost:
 * heights × edges + directions × discs. It ends because they are counted. */
#include "geometry/shadow.h"
#include "base/number.h"
#include "base/tolerance.h"
#include "geometry/core.h"
#include "geometry/outline.h"

#define RIM 96        /* corners of a round end: it stands out by half a thousandth of its radius */
#define AROUND 72     /* directions beside those of faces */
#define CAP_STEPS 16  /* heights above and below the cylinder each */
#define APART_RAD 1e-3 /* of these from those */
#define CORNERS_MAX MAX (RIM, SW_SOLID_POINTS_MAX)

typedef struct { SwPoint at; double radius; } Disc;

/* Two rings of n corners, joined corner by corner. */
typedef struct
{
  guint n;
  SwPoint3 low[CORNERS_MAX], high[CORNERS_MAX];
} Cage;

static void
cage_round (Cage *cage, const SwSolid *solid)
{
  SwPoint3 a = sw_core_square_to (solid->u), b = sw_point3_cross (solid->u, a);
  double radius = solid->disc / cos (G_PI / RIM); /* around the circle */
  cage->n = RIM;
  for (guint i = 0; i < RIM; i++)
    {
      double turn = 2 * G_PI * i / RIM;
      SwPoint3 out = sw_point3_add (sw_point3_scale (a, radius * cos (turn)), sw_point3_scale (b, radius * sin (turn)));
      cage->low[i] = sw_point3_add (solid->origin, out);
    }
}

static Cage
cage_of (const SwSolid *solid)
{
  Cage cage = { .n = 1, .low = { solid->origin } };
  if (solid->kind == SW_SOLID_CYLINDER)
    cage_round (&cage, solid);
  else if (solid->kind == SW_SOLID_PRISM)
    for (cage.n = 0; cage.n < solid->n; cage.n++)
      cage.low[cage.n] = sw_point3_add (solid->origin, sw_point3_add (sw_point3_scale (solid->u, solid->section[cage.n].x),
                                                                      sw_point3_scale (solid->v, solid->section[cage.n].y)));
  for (guint i = 0; i < cage.n; i++)
    cage.high[i] = sw_point3_add (cage.low[i], solid->along);
  return cage;
}

/* ---- discs */

static void
cut_edge (SwPoint3 a, SwPoint3 b, double z, double radius, GArray *discs)
{
  double low = fmin (a.z, b.z), high = fmax (a.z, b.z);
  if (z < low - 1e-9 || z > high + 1e-9)
    return;
  double t = high - low > 1e-9 ? CLAMP ((z - a.z) / (b.z - a.z), 0, 1) : 0;
  SwPoint3 at = sw_point3_lerp (a, b, t);
  Disc disc = { { at.x, at.y }, radius }, other = { { b.x, b.y }, radius };
  g_array_append_val (discs, disc);
  if (high - low <= 1e-9)
    g_array_append_val (discs, other);
}

static void
cut_cage (const Cage *cage, const SwUpright *upright, double reach, double z, GArray *discs)
{
  double off = fmax (fmax (upright->low - z, z - upright->high), 0);
  double radius = upright->disc + sqrt (fmax (reach * reach - off * off, 0));
  for (guint i = 0; i < cage->n; i++)
    {
      guint next = (i + 1) % cage->n;
      cut_edge (cage->low[i], cage->high[i], z, radius, discs);
      if (cage->n > 1)
        {
          cut_edge (cage->low[i], cage->low[next], z, radius, discs);
          cut_edge (cage->high[i], cage->high[next], z, radius, discs);
        }
    }
}

static void
add_level (GArray *levels, double z, SwInterval range)
{
  double kept = CLAMP (z, range.low, range.high);
  g_array_append_val (levels, kept);
}

static SwInterval
heights_of (const Cage *cage)
{
  SwInterval all = { INFINITY, -INFINITY };
  for (guint i = 0; i < cage->n; i++)
    {
      all.low = fmin (all.low, fmin (cage->low[i].z, cage->high[i].z));
      all.high = fmax (all.high, fmax (cage->low[i].z, cage->high[i].z));
    }
  return all;
}

/* Heights at which the area can change: corners, the cylinder's ends, and steps where it is rounded off. None when the solid is
 * wholly above or below. */
static GArray *
levels_of (const Cage *cage, const SwUpright *upright, double reach)
{
  GArray *levels = g_array_new (FALSE, FALSE, sizeof (double));
  SwInterval all = heights_of (cage), range = { fmax (all.low, upright->low - reach), fmin (all.high, upright->high + reach) };
  if (all.low > upright->high + reach - SW_GRID_MM || all.high < upright->low - reach + SW_GRID_MM) /* what just fits, fits */
    return levels;
  for (guint i = 0; i < cage->n; i++)
    {
      add_level (levels, cage->low[i].z, range);
      add_level (levels, cage->high[i].z, range);
    }
  for (guint i = 0; i <= CAP_STEPS; i++)
    {
      double off = reach * sin (i * G_PI / 2 / CAP_STEPS);
      add_level (levels, upright->low - off, range);
      add_level (levels, upright->high + off, range);
    }
  g_array_sort (levels, sw_compare_doubles);
  guint kept = 0;
  for (guint i = 0; i < levels->len; i++)
    if (kept == 0 || g_array_index (levels, double, i) > g_array_index (levels, double, kept - 1) + 1e-6)
      g_array_index (levels, double, kept++) = g_array_index (levels, double, i);
  g_array_set_size (levels, kept);
  return levels;
}

/* ---- directions */

static void
add_direction (GArray *turns, SwPoint3 normal)
{
  if (hypot (normal.x, normal.y) <= 1e-9 * sw_point3_length (normal) || sw_point3_length (normal) == 0)
    return;
  for (int side = 0; side < 2; side++)
    {
      double turn = side == 0 ? atan2 (normal.y, normal.x) : atan2 (-normal.y, -normal.x);
      g_array_append_val (turns, turn);
    }
}

static void
add_face_directions (GArray *turns, const SwSolid *solid, const Cage *cage)
{
  SwPoint3 along = solid->along;
  add_direction (turns, (SwPoint3){ -along.y, along.x, 0 });
  if (solid->kind == SW_SOLID_TUBE)
    return;
  add_direction (turns, solid->kind == SW_SOLID_CYLINDER ? solid->u : sw_point3_cross (solid->u, solid->v));
  for (guint i = 0; i < cage->n && solid->kind == SW_SOLID_PRISM; i++)
    {
      SwPoint3 side = sw_point3_sub (cage->low[(i + 1) % cage->n], cage->low[i]);
      add_direction (turns, sw_point3_cross (side, along));
      add_direction (turns, (SwPoint3){ -side.y, side.x, 0 });
    }
}

/* Outer tangents of two discs. */
static void
add_tangents (GArray *turns, const Disc *a, const Disc *b)
{
  SwPoint way = sw_point_sub (b->at, a->at);
  double apart = sw_point_length (way);
  if (apart <= fabs (a->radius - b->radius) + 1e-9)
    return;
  double turn = atan2 (way.y, way.x), open = acos ((a->radius - b->radius) / apart);
  for (int side = -1; side <= 1; side += 2)
    {
      double here = remainder (turn + side * open, 2 * G_PI);
      g_array_append_val (turns, here);
    }
}

/* A long tube that falls through the height at which it begins to pass above or below is narrower there, by less than a degree. */
static GArray *
directions_of (const SwSolid *solid, const Cage *cage, const GArray *discs)
{
  GArray *turns = g_array_new (FALSE, FALSE, sizeof (double));
  add_face_directions (turns, solid, cage);
  for (guint i = 0; i + 1 < discs->len && cage->n == 1; i++)
    add_tangents (turns, &g_array_index (discs, Disc, i), &g_array_index (discs, Disc, i + 1));
  guint faces = turns->len, kept = 0;
  for (guint i = 0; i < AROUND; i++)
    {
      double turn = -G_PI + 2 * G_PI * i / AROUND;
      gboolean near = FALSE;
      for (guint k = 0; k < faces && !near; k++)
        near = fabs (remainder (g_array_index (turns, double, k) - turn, 2 * G_PI)) < APART_RAD;
      if (!near)
        g_array_append_val (turns, turn);
    }
  g_array_sort (turns, sw_compare_doubles);
  for (guint i = 0; i < turns->len; i++)
    if (kept == 0 || g_array_index (turns, double, i) > g_array_index (turns, double, kept - 1) + SW_ANGLE_RAD / 10)
      g_array_index (turns, double, kept++) = g_array_index (turns, double, i);
  if (kept > 1 && g_array_index (turns, double, kept - 1) - g_array_index (turns, double, 0) > 2 * G_PI - SW_ANGLE_RAD / 10)
    kept--;
  g_array_set_size (turns, kept);
  return turns;
}

/* ---- tangents */

static double
support (const GArray *discs, SwPoint from, double turn)
{
  SwPoint way = { cos (turn), sin (turn) };
  double most = -INFINITY;
  for (guint i = 0; i < discs->len; i++)
    {
      const Disc *disc = &g_array_index (discs, Disc, i);
      most = fmax (most, sw_point_dot (sw_point_sub (disc->at, from), way) + disc->radius);
    }
  return most;
}

static void
join_tangents (const GArray *discs, const GArray *turns, GArray *outline)
{
  SwPoint from = g_array_index (discs, Disc, 0).at;
  guint first = outline->len, n = turns->len;
  double a = g_array_index (turns, double, n - 1), at_a = support (discs, from, a);
  for (guint i = 0; i < n; i++)
    {
      double b = g_array_index (turns, double, i), at_b = support (discs, from, b), apart = sin (b - a);
      SwPoint corner = { (at_a * sin (b) - at_b * sin (a)) / apart, (at_b * cos (a) - at_a * cos (b)) / apart };
      corner = sw_point_add (from, corner);
      if (outline->len == first || sw_point_distance (corner, g_array_index (outline, SwPoint, outline->len - 1)) > SW_TOUCH_MM)
        g_array_append_val (outline, corner);
      a = b;
      at_a = at_b;
    }
  if (outline->len > first + 1 && sw_point_distance (g_array_index (outline, SwPoint, first), g_array_index (outline, SwPoint, outline->len - 1)) <= SW_TOUCH_MM)
    g_array_set_size (outline, outline->len - 1);
}

gboolean
sw_solid_shadow (const SwSolid *solid, const SwUpright *upright, GArray *outline)
{
  Cage cage = cage_of (solid);
  double reach = upright->clearance + solid->radius;
  guint first = outline->len;
  g_autoptr (GArray) levels = levels_of (&cage, upright, reach);
  g_autoptr (GArray) discs = g_array_new (FALSE, FALSE, sizeof (Disc));
  for (guint i = 0; i < levels->len; i++)
    cut_cage (&cage, upright, reach, g_array_index (levels, double, i), discs);
  if (discs->len == 0)
    return FALSE;
  g_autoptr (GArray) turns = directions_of (solid, &cage, discs);
  join_tangents (discs, turns, outline);
  if (outline->len - first < 3)
    g_array_set_size (outline, first);
  return outline->len > first;
}
