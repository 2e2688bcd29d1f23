/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "geometry/outline.h"
#include "base/number.h"
#include "base/tolerance.h"

/* Plain passes over the sides, O(n), but for two. The check sweeps the sides in x, so that only sides whose boxes
 * meet are compared: O(n log n) for real rooms, O(n²) when every side spans the whole width. The label point halves
 * squares in level order, keeps those that can still beat the best point, and ends at LABEL_SQUARES in any case; it
 * starts from a point known to be inside, so that a hopelessly thin outline gets a label inside, if not in its widest
 * place. Outlines are not repaired: a ring that sw_outline_check refuses gives figures by the even-odd rule. */

#define LABEL_SQUARES 4000
#define LABEL_SCANS   7

static const char *const fault_texts[] = {
  [SW_OUTLINE_GOOD] = "is good",
  [SW_OUTLINE_FEW] = "needs at least 3 points",
  [SW_OUTLINE_NUMBER] = "has a coordinate that is not a number within 10 km",
  [SW_OUTLINE_REPEAT] = "has the same point twice in a row",
  [SW_OUTLINE_CROSSES] = "crosses or touches itself",
  [SW_OUTLINE_FLAT] = "has no area",
};

const char *
sw_outline_fault_text (SwOutlineFault fault)
{
  g_assert ((gsize) fault < G_N_ELEMENTS (fault_texts));
  return fault_texts[fault];
}

static gsize
after (gsize i, gsize n)
{
  return i + 1 == n ? 0 : i + 1;
}

static SwPoint
nearest_on_side (SwPoint a, SwPoint b, SwPoint p)
{
  SwPoint along = sw_point_sub (b, a);
  double square = sw_point_dot (along, along);
  double t = square > 0 ? sw_point_dot (sw_point_sub (p, a), along) / square : 0;
  return t >= 1 ? b : sw_point_lerp (a, b, fmax (t, 0));
}

static double
side_distance (SwPoint a, SwPoint b, SwPoint p)
{
  return sw_point_distance (nearest_on_side (a, b, p), p);
}

/* ---- check ---- */

typedef struct
{
  gsize index;
  SwPoint a, b;
  SwBox box;
} Side;

static int
compare_sides (gconstpointer pa, gconstpointer pb)
{
  const Side *a = pa, *b = pb;
  if (a->box.low.x != b->box.low.x)
    return a->box.low.x < b->box.low.x ? -1 : 1;
  return a->index < b->index ? -1 : a->index > b->index;
}

static gboolean
ends_part (SwPoint a, SwPoint b, SwPoint p, SwPoint q)
{
  SwPoint along = sw_point_sub (b, a);
  double side_p = sw_point_cross (along, sw_point_sub (p, a)), side_q = sw_point_cross (along, sw_point_sub (q, a));
  return (side_p > 0 && side_q < 0) || (side_p < 0 && side_q > 0);
}

static gboolean
sides_meet (const Side *s, const Side *t, gsize n)
{
  if (after (s->index, n) == t->index) /* neighbours share a corner: only folding back counts */
    return side_distance (s->a, s->b, t->b) < SW_TOUCH_MM || side_distance (t->a, t->b, s->a) < SW_TOUCH_MM;
  if (after (t->index, n) == s->index)
    return sides_meet (t, s, n);
  if (ends_part (s->a, s->b, t->a, t->b) && ends_part (t->a, t->b, s->a, s->b))
    return TRUE;
  return side_distance (s->a, s->b, t->a) < SW_TOUCH_MM || side_distance (s->a, s->b, t->b) < SW_TOUCH_MM
         || side_distance (t->a, t->b, s->a) < SW_TOUCH_MM || side_distance (t->a, t->b, s->b) < SW_TOUCH_MM;
}

/* The lowest side that crosses or touches another, or n. `sides` are sorted; `live` holds positions in it. */
static gsize
sweep (const Side *sides, gsize n, gsize *live)
{
  gsize best = n, n_live = 0;
  for (gsize i = 0; i < n; i++)
    {
      gsize kept = 0;
      for (gsize k = 0; k < n_live; k++)
        {
          const Side *other = &sides[live[k]];
          if (other->box.high.x < sides[i].box.low.x)
            continue;
          live[kept++] = live[k];
          gsize first = MIN (other->index, sides[i].index);
          if (first < best && sw_box_meets (other->box, sides[i].box) && sides_meet (other, &sides[i], n))
            best = first;
        }
      n_live = kept;
      live[n_live++] = i;
    }
  return best;
}

static gsize
first_crossing (const SwPoint *points, gsize n)
{
  g_autofree Side *sides = g_new (Side, n);
  g_autofree gsize *live = g_new (gsize, n);
  for (gsize i = 0; i < n; i++)
    {
      SwPoint a = points[i], b = points[after (i, n)];
      SwBox box = sw_box_add (sw_box_add (SW_BOX_EMPTY, a), b);
      sides[i] = (Side){ i, a, b, sw_box_grow (box, SW_TOUCH_MM) };
    }
  qsort (sides, n, sizeof *sides, compare_sides);
  return sweep (sides, n, live);
}

/* All points within a touch of one straight line. */
static gboolean
is_flat (const SwPoint *points, gsize n)
{
  SwPoint far = points[0];
  for (gsize i = 1; i < n; i++)
    if (sw_point_distance (points[0], points[i]) > sw_point_distance (points[0], far))
      far = points[i];
  SwPoint along = sw_point_sub (far, points[0]);
  double length = sw_point_length (along);
  for (gsize i = 1; i < n; i++)
    if (fabs (sw_point_cross (along, sw_point_sub (points[i], points[0]))) > SW_TOUCH_MM * length)
      return FALSE;
  return TRUE;
}

static gboolean
in_range (double mm)
{
  return fabs (mm) <= SW_COORDINATE_MAX_MM; /* false for NaN too */
}

SwOutlineFault
sw_outline_check (const SwPoint *points, gsize n, gsize *where)
{
  gsize unused;
  where = where ? where : &unused;
  *where = 0;
  if (n < 3)
    return SW_OUTLINE_FEW;
  for (*where = 0; *where < n; ++*where)
    if (!in_range (points[*where].x) || !in_range (points[*where].y))
      return SW_OUTLINE_NUMBER;
  for (*where = 1; *where < n; ++*where)
    if (sw_point_distance (points[*where - 1], points[*where]) < SW_TOUCH_MM)
      return SW_OUTLINE_REPEAT;
  *where = 0;
  if (sw_point_distance (points[n - 1], points[0]) < SW_TOUCH_MM)
    return SW_OUTLINE_REPEAT;
  if (is_flat (points, n))
    return SW_OUTLINE_FLAT;
  gsize crossing = first_crossing (points, n);
  if (crossing == n)
    return SW_OUTLINE_GOOD;
  *where = crossing;
  return SW_OUTLINE_CROSSES;
}

/* ---- figures ---- */

double
sw_outline_area (const SwPoint *points, gsize n)
{
  double twice = 0;
  for (gsize i = 1; i + 1 < n; i++) /* from the first point, so that far-off coordinates cost no digits */
    twice += sw_point_cross (sw_point_sub (points[i], points[0]), sw_point_sub (points[i + 1], points[0]));
  return twice / 2;
}

double
sw_outline_perimeter (const SwPoint *points, gsize n)
{
  double sum = 0;
  for (gsize i = 0; i < n; i++)
    sum += sw_point_distance (points[i], points[after (i, n)]);
  return sum;
}

SwBox
sw_outline_box (const SwPoint *points, gsize n)
{
  SwBox box = SW_BOX_EMPTY;
  for (gsize i = 0; i < n; i++) /* plain comparisons: fmin is a call, and this is asked for every place that is looked up */
    {
      SwPoint p = points[i];
      box.low.x = p.x < box.low.x ? p.x : box.low.x;
      box.low.y = p.y < box.low.y ? p.y : box.low.y;
      box.high.x = p.x > box.high.x ? p.x : box.high.x;
      box.high.y = p.y > box.high.y ? p.y : box.high.y;
    }
  return box;
}

double
sw_outline_distance (const SwPoint *points, gsize n, SwPoint p, gsize *side, SwPoint *nearest)
{
  double best = INFINITY;
  for (gsize i = 0; i < n; i++)
    {
      SwPoint at = nearest_on_side (points[i], points[after (i, n)], p);
      double distance = sw_point_distance (at, p);
      if (distance >= best)
        continue;
      best = distance;
      if (side)
        *side = i;
      if (nearest)
        *nearest = at;
    }
  return best;
}

static gboolean
is_inside (const SwPoint *points, gsize n, SwPoint p)
{
  gboolean inside = FALSE;
  for (gsize i = 0; i < n; i++)
    {
      SwPoint a = points[i], b = points[after (i, n)];
      if ((a.y > p.y) == (b.y > p.y))
        continue;
      double turn = sw_point_cross (sw_point_sub (b, a), sw_point_sub (p, a));
      if ((turn > 0) == (b.y > a.y))
        inside = !inside;
    }
  return inside;
}

gboolean
sw_outline_holds (const SwPoint *points, gsize n, SwPoint p)
{
  if (n < 3 || !sw_box_holds (sw_box_grow (sw_outline_box (points, n), SW_TOUCH_MM), p))
    return FALSE;
  return is_inside (points, n, p) || sw_outline_distance (points, n, p, NULL, NULL) <= SW_TOUCH_MM;
}

/* ---- label point ---- */

typedef struct
{
  SwPoint centre;
  double half, depth; /* half the side; distance of the centre from the outline, negative outside */
} Square;

/* As sw_outline_distance: the root is taken only where a side may be the nearest. */
static double
least_distance (const SwPoint *points, gsize n, SwPoint p)
{
  double best = INFINITY, enough = INFINITY;
  for (gsize i = 0; i < n; i++)
    {
      SwPoint off = sw_point_sub (nearest_on_side (points[i], points[after (i, n)], p), p);
      if (sw_point_dot (off, off) > enough)
        continue;
      best = fmin (best, sw_point_length (off));
      enough = best * best * (1 + 1e-9);
    }
  return best;
}

static double
depth_at (const SwPoint *points, gsize n, SwPoint p)
{
  double distance = least_distance (points, n, p);
  return is_inside (points, n, p) ? distance : -distance;
}

static void
keep_deeper (const SwPoint *points, gsize n, SwPoint p, SwPoint *best, double *depth)
{
  double here = depth_at (points, n, p);
  if (here > *depth)
    *depth = here, *best = p;
}

/* The deepest of the middles of what some level and plumb lines cut out of the outline; its box's own where nothing is deeper than
 * `enough`, as in rooms with four square corners. */
static SwPoint
first_guess (const SwPoint *points, gsize n, SwBox box, double enough, double *depth)
{
  g_autoptr (GArray) cuts = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  SwPoint best = sw_point_lerp (box.low, box.high, 0.5);
  *depth = depth_at (points, n, best);
  for (int scan = 1; scan <= LABEL_SCANS && *depth < enough; scan++)
    {
      SwPoint origin = sw_point_lerp (box.low, box.high, scan / (LABEL_SCANS + 1.0));
      for (int plumb = 0; plumb < 2; plumb++)
        {
          SwPoint along = { !plumb, plumb };
          g_array_set_size (cuts, 0);
          sw_outline_cut (points, n, origin, along, cuts);
          for (guint k = 0; k < cuts->len; k++)
            {
              SwInterval cut = g_array_index (cuts, SwInterval, k);
              SwPoint middle = sw_point_add (origin, sw_point_scale (along, (cut.low + cut.high) / 2));
              keep_deeper (points, n, middle, &best, depth);
            }
        }
    }
  return best;
}

SwPoint
sw_outline_label_point (const SwPoint *points, gsize n)
{
  SwBox box = sw_outline_box (points, n);
  double depth, size = fmax (box.high.x - box.low.x, box.high.y - box.low.y);
  double most = fmin (box.high.x - box.low.x, box.high.y - box.low.y) / 2; /* no circle inside is larger */
  SwPoint best = first_guess (points, n, box, most, &depth);
  if (depth >= most)
    return best;
  g_autoptr (GArray) queue = g_array_new (FALSE, FALSE, sizeof (Square));
  Square whole = { sw_point_lerp (box.low, box.high, 0.5), size / 2, INFINITY };
  g_array_append_val (queue, whole);
  for (guint i = 0; i < queue->len && queue->len < LABEL_SQUARES; i++)
    {
      Square square = g_array_index (queue, Square, i);
      /* A hundredth of the box is coarse for a long corridor, so a twentieth of the depth found binds too. */
      double slack = fmin (0.01 * size, 0.05 * fmax (depth, 0));
      if (square.depth + square.half * G_SQRT2 <= depth + slack)
        continue;
      for (int quarter = 0; quarter < 4; quarter++)
        {
          double half = square.half / 2;
          SwPoint centre = { square.centre.x + (quarter & 1 ? half : -half),
                             square.centre.y + (quarter & 2 ? half : -half) };
          Square part = { centre, half, depth_at (points, n, centre) };
          if (part.depth > depth)
            depth = part.depth, best = centre;
          g_array_append_val (queue, part);
        }
    }
  return best;
}

/* ---- intervals ---- */

/* A point seen from the line: t along it, s to its left. Within half a grid step it is on the line. */
static SwPoint
seen_from_line (SwPoint p, SwPoint origin, SwPoint direction)
{
  SwPoint from = sw_point_sub (p, origin);
  double s = sw_point_cross (direction, from);
  return (SwPoint){ sw_point_dot (from, direction), fabs (s) <= SW_GRID_MM / 2 ? 0 : s };
}

/* Crossings of the line moved by a hair to its left (or right): a point on the line is then right (left) of it. */
static void
add_crossings (const SwPoint *points, gsize n, SwPoint origin, SwPoint direction, gboolean left, GArray *crossings)
{
  if (n < 3)
    return;
  SwPoint a = seen_from_line (points[n - 1], origin, direction);
  for (gsize i = 0; i < n; i++)
    {
      SwPoint b = seen_from_line (points[i], origin, direction);
      gboolean a_left = left ? a.y > 0 : a.y >= 0, b_left = left ? b.y > 0 : b.y >= 0;
      if (a_left != b_left)
        {
          double t = b.y == 0 ? b.x : a.x + (b.x - a.x) * (a.y / (a.y - b.y));
          g_array_append_val (crossings, t);
        }
      a = b;
    }
}

static void
put (GArray *list, double low, double high)
{
  if (high - low < SW_TOUCH_MM)
    return;
  SwInterval piece = { low, high };
  g_array_append_val (list, piece);
}

/* The line is inside where it is inside just left of it or just right of it: a merge of two sorted lists. */
void
sw_outlines_cut (const SwOutlineRing *rings, gsize n_rings, SwPoint origin, SwPoint direction, GArray *intervals)
{
  g_autoptr (GArray) left = g_array_new (FALSE, FALSE, sizeof (double));
  g_autoptr (GArray) right = g_array_new (FALSE, FALSE, sizeof (double));
  for (gsize i = 0; i < n_rings; i++)
    {
      add_crossings (rings[i].points, rings[i].n, origin, direction, TRUE, left);
      add_crossings (rings[i].points, rings[i].n, origin, direction, FALSE, right);
    }
  g_array_sort (left, sw_compare_doubles);
  g_array_sort (right, sw_compare_doubles);
  double low = 0, high = -INFINITY;
  for (guint l = 0, r = 0; l + 1 < left->len || r + 1 < right->len;)
    {
      gboolean take_left = r + 1 >= right->len
                           || (l + 1 < left->len && g_array_index (left, double, l) <= g_array_index (right, double, r));
      const double *pair = &g_array_index (take_left ? left : right, double, take_left ? l : r);
      *(take_left ? &l : &r) += 2;
      if (pair[0] > high + SW_TOUCH_MM)
        {
          put (intervals, low, high);
          low = pair[0];
        }
      high = fmax (high, pair[1]);
    }
  put (intervals, low, high);
}

void
sw_outline_cut (const SwPoint *points, gsize n, SwPoint origin, SwPoint direction, GArray *intervals)
{
  sw_outlines_cut (&(SwOutlineRing){ points, n }, 1, origin, direction, intervals);
}

void
sw_intervals_intersect (GArray *a, const GArray *b)
{
  g_autoptr (GArray) both = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  for (guint i = 0, j = 0; i < a->len && j < b->len;)
    {
      SwInterval p = g_array_index (a, SwInterval, i), q = g_array_index (b, SwInterval, j);
      put (both, fmax (p.low, q.low), fmin (p.high, q.high));
      if (p.high < q.high)
        i++;
      else
        j++;
    }
  g_array_set_size (a, 0);
  g_array_append_vals (a, both->data, both->len);
}

void
sw_intervals_subtract (GArray *a, double low, double high)
{
  if (!(low < high))
    return;
  g_autoptr (GArray) rest = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  for (guint i = 0; i < a->len; i++)
    {
      SwInterval p = g_array_index (a, SwInterval, i);
      put (rest, p.low, fmin (p.high, low));
      put (rest, fmax (p.low, high), p.high);
    }
  g_array_set_size (a, 0);
  g_array_append_vals (a, rest->data, rest->len);
}
