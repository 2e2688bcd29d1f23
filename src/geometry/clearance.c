/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "geometry/core.h"
#include <string.h>

/* Cores first, radii after: the clearance of two round-edged bodies is that of their cores less both radii, and so is a
 * depth. Two segments have a formula. Other cores that stand apart go to Gilbert, Johnson and Keerthi's method (1988):
 * walk on the difference of the bodies towards the origin, keeping at most four of its points. The length of the point
 * found bounds the distance from above; each new support plane bounds it from below; the walk ends when the two are
 * GAP_MM apart, so a result is proved, not just converged. It also ends when rounding stops it; then it starts afresh
 * in the best direction, twice at most, and at worst the upper bound stands. Cores that meet go to depth.c.
 * Cost: some 5 support calls, each O(points of a section). */

#define GAP_MM   1e-4
#define MEET_MM  1e-4
#define CROSS_MM 1e-6
#define ROUNDING 1e-13
#define STEPS    64
#define STARTS   3

typedef struct
{
  SwPoint3 at, on_first, on_second; /* at = on_first − on_second */
} Corner;

typedef struct
{
  guint n;
  Corner corner[4];
  double weight[4];
  SwPoint3 nearest; /* to the origin: the weighted sum */
} Simplex;

/* ---- nearest point to the origin on a segment, triangle, tetrahedron ---- */

static double
square (SwPoint3 p)
{
  return sw_point3_dot (p, p);
}

static SwPoint3
weighted (const Simplex *s, gsize field)
{
  SwPoint3 sum = { 0, 0, 0 };
  for (guint i = 0; i < s->n; i++)
    sum = sw_point3_add (sum, sw_point3_scale (G_STRUCT_MEMBER (SwPoint3, &s->corner[i], field), s->weight[i]));
  return sum;
}

static void
weigh_segment (SwPoint3 a, SwPoint3 b, double *wa, double *wb)
{
  SwPoint3 ab = sw_point3_sub (b, a);
  double length = square (ab), t = -sw_point3_dot (a, ab);
  t = t <= 0 || length == 0 ? 0 : t >= length ? 1 : t / length;
  *wa = 1 - t;
  *wb = t;
}

static double
weighed_square (const SwPoint3 p[3], const double w[3])
{
  SwPoint3 sum = sw_point3_add (sw_point3_scale (p[0], w[0]), sw_point3_scale (p[1], w[1]));
  return square (sw_point3_add (sum, sw_point3_scale (p[2], w[2])));
}

/* The best of the three sides. */
static void
weigh_sides (const SwPoint3 p[3], double w[3])
{
  double best = INFINITY;
  for (int i = 0; i < 3; i++)
    {
      double trial[3] = { 0, 0, 0 };
      int j = (i + 1) % 3;
      weigh_segment (p[i], p[j], &trial[i], &trial[j]);
      double here = weighed_square (p, trial);
      if (here < best)
        {
          best = here;
          memcpy (w, trial, sizeof trial);
        }
    }
}

static void
weigh_triangle (const SwPoint3 p[3], double w[3])
{
  SwPoint3 ab = sw_point3_sub (p[1], p[0]), ac = sw_point3_sub (p[2], p[0]);
  SwPoint3 normal = sw_point3_cross (ab, ac);
  double whole = square (normal);
  if (whole > 1e-20 * square (ab) * square (ac))
    {
      /* Signed areas of the three parts, seen along the normal. */
      double a = sw_point3_dot (normal, sw_point3_cross (p[1], p[2])) / whole;
      double b = sw_point3_dot (normal, sw_point3_cross (p[2], p[0])) / whole;
      if (a > 0 && b > 0 && a + b < 1)
        {
          w[0] = a, w[1] = b, w[2] = 1 - a - b;
          return;
        }
    }
  weigh_sides (p, w);
}

static double
size_of (const Simplex *s)
{
  double most = 0;
  for (guint i = 0; i < s->n; i++)
    most = fmax (most, square (s->corner[i].at));
  return sqrt (most);
}

/* FALSE when the origin is surely inside, or else the best of the faces that it is, or may be, outside of: a needle's
 * sides are not trusted beyond what rounding leaves of their normals. */
static gboolean
weigh_tetrahedron (const Simplex *s, double w[4])
{
  static const guint8 faces[4][4] = { { 3, 0, 1, 2 }, { 3, 1, 2, 0 }, { 3, 2, 0, 1 }, { 0, 1, 2, 3 } };
  double best = INFINITY, slack = ROUNDING * size_of (s);
  for (int f = 0; f < 4; f++)
    {
      const guint8 *k = faces[f];
      SwPoint3 p[3] = { s->corner[k[0]].at, s->corner[k[1]].at, s->corner[k[2]].at };
      SwPoint3 ab = sw_point3_sub (p[1], p[0]), ac = sw_point3_sub (p[2], p[0]), normal = sw_point3_cross (ab, ac);
      double inner = sw_point3_dot (sw_point3_sub (s->corner[k[3]].at, p[0]), normal);
      double origin = -sw_point3_dot (p[0], normal), noise = slack * sqrt (square (ab) * square (ac));
      if ((inner > noise && origin > noise) || (inner < -noise && origin < -noise))
        continue;
      double part[3];
      weigh_triangle (p, part);
      double here = weighed_square (p, part);
      if (here >= best)
        continue;
      best = here;
      for (int i = 0; i < 3; i++)
        w[k[i]] = part[i];
      w[k[3]] = 0;
    }
  return best < INFINITY;
}

/* Sets weights and the nearest point, and drops corners without weight. */
static void
settle (Simplex *s)
{
  SwPoint3 p[3] = { s->corner[0].at, s->corner[1].at, s->corner[2].at };
  double w[4] = { 1, 0, 0, 0 };
  if (s->n == 2)
    weigh_segment (p[0], p[1], &w[0], &w[1]);
  else if (s->n == 3)
    weigh_triangle (p, w);
  else if (s->n == 4 && !weigh_tetrahedron (s, w))
    {
      s->nearest = (SwPoint3){ 0, 0, 0 };
      for (int i = 0; i < 4; i++)
        s->weight[i] = 0.25;
      return;
    }
  guint kept = 0;
  for (guint i = 0; i < s->n; i++)
    if (w[i] > 0)
      {
        s->corner[kept] = s->corner[i];
        s->weight[kept++] = w[i];
      }
  s->n = kept;
  s->nearest = weighted (s, G_STRUCT_OFFSET (Corner, at));
}

/* ---- the walk ---- */

static Corner
corner_towards (const SwCorePair *pair, SwPoint3 d)
{
  SwPoint3 a = sw_core_support (pair->first, d);
  SwPoint3 b = sw_point3_add (pair->offset, sw_core_support (pair->second, sw_point3_scale (d, -1)));
  return (Corner){ sw_point3_sub (a, b), a, b };
}

/* Walks from the corner in direction d until the bounds meet, the lower one reaches `enough` or nothing gets better. Returns
 * the upper bound and raises *lower. */
static double
walk (const SwCorePair *pair, SwPoint3 d, double enough, Simplex *s, double *lower)
{
  s->n = 1;
  s->corner[0] = corner_towards (pair, d);
  s->weight[0] = 1;
  s->nearest = s->corner[0].at;
  double length = sw_point3_length (s->nearest);
  for (int step = 0; step < STEPS && length > MEET_MM; step++)
    {
      Corner next = corner_towards (pair, sw_point3_scale (s->nearest, -1));
      double plane = sw_point3_dot (next.at, s->nearest) / length;
      *lower = fmax (*lower, plane);
      if (length - plane <= GAP_MM || *lower >= enough) /* by this direction, not just by an earlier one: it is handed out */
        break;
      Simplex grown = *s;
      grown.corner[grown.n++] = next;
      settle (&grown);
      double shorter = sw_point3_length (grown.nearest);
      if (!(shorter < length))
        break;
      *s = grown;
      length = shorter;
    }
  return length;
}

/* Distance of the cores, and the simplex that shows it; ≤ MEET_MM when they meet. Once it is surely `enough` or more, any upper
 * bound will do. */
static double
core_distance (const SwCorePair *pair, double enough, Simplex *best)
{
  SwPoint3 d = pair->offset;
  if (square (d) == 0)
    d = (SwPoint3){ 1, 0, 0 };
  double lower = -INFINITY, length = walk (pair, d, enough, best, &lower);
  for (int start = 1; start < STARTS && length > MEET_MM && length - lower > GAP_MM && lower < enough; start++)
    {
      Simplex other;
      double again = walk (pair, sw_point3_scale (best->nearest, -1), enough, &other, &lower);
      if (again < length)
        length = again, *best = other;
    }
  return length;
}

/* ---- clearances ---- */

/* Nearest points of two segments, from the first's start; parameters in 0 … 1. */
static void
nearest_on_segments (SwPoint3 p, SwPoint3 q, SwPoint3 offset, double *s, double *t)
{
  double pp = square (p), qq = square (q), pq = sw_point3_dot (p, q);
  double po = sw_point3_dot (p, offset), qo = sw_point3_dot (q, offset);
  double across = square (sw_point3_cross (p, q)); /* pp·qq − pq² without its loss of digits */
  *s = pp > 0 ? CLAMP (po / pp, 0, 1) : 0;
  if (across > 1e-24 * pp * qq) /* else parallel: the start's foot will do as well as any */
    *s = CLAMP ((po * qq - qo * pq) / across, 0, 1);
  *t = qq > 0 ? (*s * pq - qo) / qq : 0;
  if (*t >= 0 && *t <= 1)
    return;
  *t = CLAMP (*t, 0, 1);
  *s = pp > 0 ? CLAMP ((po + *t * pq) / pp, 0, 1) : 0;
}

/* Segments that meet have no thickness to leave: square to both is free. */
static SwPoint3
square_to_both (SwPoint3 p, SwPoint3 q)
{
  SwPoint3 normal = sw_point3_cross (p, q);
  double length = sw_point3_length (normal);
  if (length > 1e-9 * sw_point3_length (p) * sw_point3_length (q))
    return sw_point3_scale (normal, 1 / length);
  SwPoint3 longer = square (p) >= square (q) ? p : q;
  return square (longer) > 0 ? sw_core_square_to (longer) : (SwPoint3){ 0, 0, 1 };
}

static double
finish (const SwCorePair *pair, double core_mm, SwPoint3 a, SwPoint3 b, SwPoint3 away, SwClearance *out)
{
  double ra = pair->first->radius, rb = pair->second->radius, mm = core_mm - ra - rb;
  if (out)
    {
      SwPoint3 zero = pair->first->origin;
      *out = (SwClearance){ mm, sw_point3_add (zero, sw_point3_sub (a, sw_point3_scale (away, ra))),
                            sw_point3_add (zero, sw_point3_add (b, sw_point3_scale (away, rb))), away };
    }
  return mm;
}

static double
tube_clearance (const SwCorePair *pair, SwClearance *out)
{
  double s, t;
  SwPoint3 p = pair->first->along, q = pair->second->along;
  nearest_on_segments (p, q, pair->offset, &s, &t);
  SwPoint3 a = sw_point3_scale (p, s), b = sw_point3_add (pair->offset, sw_point3_scale (q, t));
  SwPoint3 from = sw_point3_sub (a, b);
  double length = sw_point3_length (from);
  if (out == NULL)
    return length - pair->first->radius - pair->second->radius;
  if (length > CROSS_MM)
    return finish (pair, length, a, b, sw_point3_scale (from, 1 / length), out);
  SwPoint3 away = square_to_both (p, q);
  return finish (pair, length, a, b, sw_point3_dot (away, from) < 0 ? sw_point3_scale (away, -1) : away, out);
}

/* Where they would touch: moved out by the depth and 1 mm more, the nearest points are plain. */
static double
finish_overlap (const SwCorePair *pair, SwCoreDepth depth, SwClearance *out)
{
  if (out == NULL)
    return finish (pair, -depth.mm, pair->offset, pair->offset, depth.away, NULL);
  Simplex s;
  SwPoint3 back = sw_point3_scale (depth.away, depth.mm + 1);
  SwCorePair apart = { pair->first, pair->second, sw_point3_sub (pair->offset, back) };
  core_distance (&apart, INFINITY, &s);
  SwPoint3 a = weighted (&s, G_STRUCT_OFFSET (Corner, on_first));
  return finish (pair, -depth.mm, a, sw_point3_add (a, sw_point3_scale (depth.away, depth.mm)), depth.away, out);
}

double
sw_solid_clearance (const SwSolid *first, const SwSolid *second, SwClearance *out)
{
  SwCorePair pair = { first, second, sw_point3_sub (second->origin, first->origin) };
  if (first->kind == SW_SOLID_TUBE && second->kind == SW_SOLID_TUBE)
    return tube_clearance (&pair, out);
  Simplex s;
  double length = core_distance (&pair, INFINITY, &s);
  if (length > MEET_MM)
    return finish (&pair, length, weighted (&s, G_STRUCT_OFFSET (Corner, on_first)),
                   weighted (&s, G_STRUCT_OFFSET (Corner, on_second)), sw_point3_scale (s.nearest, 1 / length), out);
  SwCoreDepth depth = sw_core_depth_by_axes (&pair);
  if (first->kind == SW_SOLID_CYLINDER || second->kind == SW_SOLID_CYLINDER)
    sw_core_depth_refine (&pair, &depth);
  return finish_overlap (&pair, depth, out);
}

gboolean
sw_solid_is_clear (const SwSolid *first, const SwSolid *second, double needed)
{
  SwCorePair pair = { first, second, sw_point3_sub (second->origin, first->origin) };
  double apart = needed + first->radius + second->radius;
  gboolean tubes = first->kind == SW_SOLID_TUBE && second->kind == SW_SOLID_TUBE;
  if (tubes || apart <= MEET_MM)
    return sw_solid_clearance (first, second, NULL) >= needed;
  Simplex s;
  return core_distance (&pair, apart, &s) >= apart;
}
