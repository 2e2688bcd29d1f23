/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tubes in a void's section: a trapezoid is convex, so a circle keeps its clearance when its centre stays inside the
 * trapezoid with each side moved in by radius and clearance, which is exact. A packing can be pushed until every tube
 * touches two others or sides, so each tube is tried at the corners that sides and the tubes placed before it make, deepest
 * first, by going back when one finds no place. Tubes go from wide to narrow, then in other orders. It ends after a fixed
 * number of places; each costs the square of the number of tubes. What it does not find: packings that touch in no such
 * order, which needs three tubes or more; and nothing but round tubes is packed. */
#include "space/packing.h"
#include <math.h>
#include <string.h>

#define SLACK_MM 1e-7
#define PLACES   60000 /* tried in one order */

/* n · p ≤ reach for the centre of a circle, less what the circle needs. */
typedef struct
{
  SwPoint normal; /* unit, outward */
  double reach, clearance;
} Side;

#define N_SIDES 4

typedef struct
{
  Side sides[N_SIDES];
  double between;
  const SwPackTube *fixed;
  guint n_fixed;
  const SwPackTube *tubes; /* in the order of placing, through `order` */
  guint order[SW_PACK_MOST];
  SwPoint at[SW_PACK_MOST]; /* by place in the order */
  guint n, left;
} Search;

static void
make_sides (const SwPackCase *pack, Side sides[N_SIDES])
{
  double lean = (pack->mouth - pack->crown) / 2, slope = hypot (pack->depth, lean);
  double across = pack->depth / slope, up = lean / slope, reach = across * pack->mouth / 2;
  sides[0] = (Side){ { across, up }, reach, pack->side };
  sides[1] = (Side){ { -across, up }, reach, pack->side };
  sides[2] = (Side){ { 0, 1 }, pack->depth, pack->top };
  sides[3] = (Side){ { 0, -1 }, 0, pack->bottom };
}

static double
room (const Side *side, SwPoint p, double radius)
{
  return side->reach - side->clearance - radius - sw_point_dot (side->normal, p);
}

/* ---- one tube */

double
sw_packing_width (const SwPackCase *pack, double height)
{
  return pack->mouth - (pack->mouth - pack->crown) * height / pack->depth;
}

guint
sw_packing_row (const SwPackCase *pack, double diameter, double height)
{
  Side sides[N_SIDES];
  make_sides (pack, sides);
  double half = (room (&sides[0], (SwPoint){ 0, height }, diameter / 2)) / sides[0].normal.x;
  if (half < 0 || room (&sides[2], (SwPoint){ 0, height }, diameter / 2) < -SLACK_MM || room (&sides[3], (SwPoint){ 0, height }, diameter / 2) < -SLACK_MM)
    return 0;
  return 1 + (guint) floor ((2 * half + SLACK_MM) / (diameter + pack->between));
}

/* On the centre line each side's room falls or grows evenly with the height, so the best lies where two of them are equal. */
double
sw_packing_largest (const SwPackCase *pack, SwPoint *at)
{
  Side sides[N_SIDES];
  double best = 0;
  make_sides (pack, sides);
  for (int i = 0; i < N_SIDES; i++)
    for (int k = i + 1; k < N_SIDES; k++)
      {
        double turn = sides[i].normal.y - sides[k].normal.y;
        if (fabs (turn) < 1e-12)
          continue;
        SwPoint p = { 0, (sides[i].reach - sides[i].clearance - sides[k].reach + sides[k].clearance) / turn };
        double least = INFINITY;
        for (int s = 0; s < N_SIDES; s++)
          least = fmin (least, room (&sides[s], p, 0));
        if (least > best)
          {
            best = least;
            *at = p;
          }
      }
  return 2 * best;
}

/* ---- many */

/* Tube k: first those that hang there, then those placed. */
static SwPackTube
tube_at (const Search *search, guint k)
{
  if (k < search->n_fixed)
    return search->fixed[k];
  return (SwPackTube){ search->tubes[search->order[k - search->n_fixed]].radius, search->at[k - search->n_fixed] };
}

static gboolean
is_free (const Search *search, guint placed, SwPoint p, double radius)
{
  for (int s = 0; s < N_SIDES; s++)
    if (room (&search->sides[s], p, radius) < -SLACK_MM)
      return FALSE;
  for (guint i = 0; i < search->n_fixed + placed; i++)
    {
      SwPackTube tube = tube_at (search, i);
      if (sw_point_distance (p, tube.at) < tube.radius + radius + search->between - SLACK_MM)
        return FALSE;
    }
  return TRUE;
}

static void
keep (const Search *search, guint placed, SwPoint p, double radius, GArray *found)
{
  if (isfinite (p.x) && isfinite (p.y) && is_free (search, placed, p, radius))
    g_array_append_val (found, p);
}

/* Where two sides, moved in for the radius, meet. */
static void
side_and_side (const Search *search, guint placed, int i, int k, double radius, GArray *found)
{
  const Side *a = &search->sides[i], *b = &search->sides[k];
  double p = a->reach - a->clearance - radius, q = b->reach - b->clearance - radius, cross = sw_point_cross (a->normal, b->normal);
  if (fabs (cross) > 1e-12)
    keep (search, placed, (SwPoint){ (p * b->normal.y - q * a->normal.y) / cross, (q * a->normal.x - p * b->normal.x) / cross }, radius, found);
}

static void
side_and_tube (const Search *search, guint placed, int i, guint tube, double radius, GArray *found)
{
  const Side *side = &search->sides[i];
  SwPackTube other = tube_at (search, tube);
  double reach = other.radius + radius + search->between, off = room (side, other.at, radius);
  double half = sqrt (reach * reach - off * off);
  SwPoint foot = sw_point_add (other.at, sw_point_scale (side->normal, off)), along = { -side->normal.y, side->normal.x };
  keep (search, placed, sw_point_add (foot, sw_point_scale (along, half)), radius, found);
  keep (search, placed, sw_point_sub (foot, sw_point_scale (along, half)), radius, found);
}

static void
tube_and_tube (const Search *search, guint placed, guint i, guint k, double radius, GArray *found)
{
  SwPackTube first = tube_at (search, i), second = tube_at (search, k);
  double p = first.radius + radius + search->between, q = second.radius + radius + search->between;
  SwPoint between = sw_point_sub (second.at, first.at);
  double apart = hypot (between.x, between.y), along = (apart * apart + p * p - q * q) / (2 * apart), half = sqrt (p * p - along * along);
  SwPoint foot = sw_point_add (first.at, sw_point_scale (between, along / apart)), across = { -between.y / apart, between.x / apart };
  keep (search, placed, sw_point_add (foot, sw_point_scale (across, half)), radius, found);
  keep (search, placed, sw_point_sub (foot, sw_point_scale (across, half)), radius, found);
}

/* High up first, so that what must come down to the lights finds room below; then to the left. */
static int
by_place (gconstpointer a, gconstpointer b)
{
  const SwPoint *p = a, *q = b;
  return p->y != q->y ? (p->y < q->y) - (p->y > q->y) : (p->x > q->x) - (p->x < q->x);
}

static GArray *
places (const Search *search, guint placed, double radius)
{
  GArray *found = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  guint there = search->n_fixed + placed;
  for (int i = 0; i < N_SIDES; i++)
    {
      for (int k = i + 1; k < N_SIDES; k++)
        side_and_side (search, placed, i, k, radius, found);
      for (guint k = 0; k < there; k++)
        side_and_tube (search, placed, i, k, radius, found);
    }
  for (guint i = 0; i < there; i++)
    for (guint k = i + 1; k < there; k++)
      tube_and_tube (search, placed, i, k, radius, found);
  g_array_sort (found, by_place);
  return found;
}

static gboolean
place_rest (Search *search, guint placed)
{
  if (placed == search->n)
    return TRUE;
  g_autoptr (GArray) found = places (search, placed, search->tubes[search->order[placed]].radius);
  for (guint i = 0; i < found->len && search->left > 0; i++)
    {
      search->left--;
      search->at[placed] = g_array_index (found, SwPoint, i);
      if (place_rest (search, placed + 1))
        return TRUE;
    }
  return FALSE;
}

/* Wide ones first; of like ones the first given. */
static void
sort_order (Search *search)
{
  for (guint i = 1; i < search->n; i++)
    for (guint k = i; k > 0 && search->tubes[search->order[k]].radius > search->tubes[search->order[k - 1]].radius; k--)
      {
        guint swap = search->order[k];
        search->order[k] = search->order[k - 1];
        search->order[k - 1] = swap;
      }
}

/* The same order with the k-th in front. */
static void
pull_forward (guint *order, guint k)
{
  guint first = order[k];
  for (; k > 0; k--)
    order[k] = order[k - 1];
  order[0] = first;
}

/* Circles grown by half their clearance lie apart from each other in a trapezoid whose sides moved in by the rest. */
static gboolean
areas_fit (const SwPackCase *pack, const SwPackTube *tubes, guint n)
{
  Side sides[N_SIDES];
  double half = pack->between / 2, taken = 0;
  make_sides (pack, sides);
  double low = pack->bottom - half, high = pack->depth - pack->top + half, shift = (pack->side - half) / sides[0].normal.x;
  double area = (high - low) * (sw_packing_width (pack, (low + high) / 2) - 2 * shift);
  for (guint i = 0; i < n; i++)
    taken += G_PI * (tubes[i].radius + half) * (tubes[i].radius + half);
  return taken <= fmax (area, 0);
}

SwPackResult
sw_packing_find (const SwPackCase *pack, SwPackTube *tubes, guint n)
{
  Search search = { .between = pack->between, .fixed = pack->fixed, .n_fixed = pack->n_fixed, .tubes = tubes, .n = n };
  SwPoint at;
  double largest = sw_packing_largest (pack, &at);
  g_assert (n <= SW_PACK_MOST);
  for (guint i = 0; i < n; i++)
    {
      search.order[i] = i;
      if (2 * tubes[i].radius > largest + SLACK_MM)
        return SW_PACK_TOO_WIDE;
    }
  if (!areas_fit (pack, tubes, n))
    return SW_PACK_TOO_MUCH;
  make_sides (pack, search.sides);
  sort_order (&search);
  for (guint first = 0; first < n; first++)
    {
      guint sorted[SW_PACK_MOST];
      memcpy (sorted, search.order, sizeof sorted);
      pull_forward (search.order, first);
      search.left = PLACES / n;
      if (place_rest (&search, 0))
        {
          for (guint i = 0; i < n; i++)
            tubes[search.order[i]].at = search.at[i];
          return SW_PACK_FITS;
        }
      memcpy (search.order, sorted, sizeof sorted);
    }
  return n == 0 ? SW_PACK_FITS : SW_PACK_NOT_FOUND;
}

/* A free place that is bounded at all has a corner, so one tube is found wherever it fits, and halving finds the widest. */
double
sw_packing_largest_beside (const SwPackCase *pack, SwPoint *at)
{
  double low = 0, high = sw_packing_largest (pack, at);
  while (high - low > 0.05)
    {
      SwPackTube tube = { .radius = (low + high) / 4 };
      if (sw_packing_find (pack, &tube, 1) != SW_PACK_FITS)
        high = (low + high) / 2;
      else
        {
          low = (low + high) / 2;
          *at = tube.at;
        }
    }
  return low;
}
