/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "held.h"
#include "base/number.h"
#include "base/tolerance.h"

/* Lines along x and y of a part's frame, a step apart, are cut through the piece and through every member. */

#define THIN 2.5  /* mm: a place thinner than this to both sides is none */
#define SLACK 1.0 /* mm, that corners on the grid and settled walls take */

typedef struct
{
  SwRings *piece;     /* in the part's frame */
  GPtrArray *members; /* SwRings, in it */
  double limit, width; /* centres; of a member */
  double over;
} Look;

static GPtrArray *
members_at (const SwCeiling *ceiling, const SwCeilingPart *part)
{
  GPtrArray *all = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_rings_free);
  for (guint i = 0; i < ceiling->members->len; i++)
    {
      const SwMember *member = &g_array_index (ceiling->members, SwCeilingMember, i).member;
      SwFrame along = sw_frame_along (member->from, member->to);
      double length = sw_point_distance (member->from, member->to), half = member->width / 2;
      const SwPoint corners[] = { { 0, -half }, { length, -half }, { length, half }, { 0, half } };
      if (member->kind == SW_MEMBER_PRIMARY || fabs (member->top - (ceiling->top - part->drop)) > SW_TOUCH_MM)
        continue;
      g_autoptr (SwRings) quad = sw_rings_new ();
      sw_rings_add (quad, corners, 4);
      g_autoptr (SwRings) plan = sw_rings_from (quad, &along);
      g_ptr_array_add (all, sw_rings_to (plan, &part->frame));
    }
  return all;
}

static int
compare_intervals (gconstpointer pa, gconstpointer pb)
{
  const SwInterval *a = pa, *b = pb;
  return a->low != b->low ? (a->low < b->low ? -1 : 1) : (a->high > b->high) - (a->high < b->high);
}

/* Clear, between two members of which a line takes so much: a width less where they lie square to it; where one slants, its end stops that much short. */
static double
allowed (const Look *look, double one, double other)
{
  gboolean square = one < look->width + SLACK && other < look->width + SLACK;
  return square ? look->limit - look->width : look->limit;
}

/* What of the line through the piece lies neither on a member nor between two that are near enough. */
static GArray *
unheld_along (const Look *look, SwAlong along, double at)
{
  g_autoptr (GArray) piece = g_array_new (FALSE, FALSE, sizeof (SwInterval)), held = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  GArray *bare = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  sw_rings_cut (look->piece, along, at, piece);
  for (guint i = 0; i < look->members->len; i++)
    sw_rings_cut (look->members->pdata[i], along, at, held);
  g_array_sort (held, compare_intervals);
  for (guint i = 0; i < piece->len; i++)
    {
      SwInterval run = g_array_index (piece, SwInterval, i);
      double reached = run.low;
      double behind = -1; /* how much of the line the member takes that lies there */
      for (guint k = 0; k < held->len; k++)
        {
          SwInterval member = g_array_index (held, SwInterval, k);
          SwInterval gap = { reached, fmin (member.low, run.high) };
          if (member.high <= run.low || member.low >= run.high)
            continue;
          if (gap.high > gap.low && (behind < 0 || gap.high - gap.low > allowed (look, behind, member.high - member.low) + SLACK))
            g_array_append_val (bare, gap);
          if (member.high > reached || behind < 0)
            behind = member.high - member.low;
          reached = fmax (reached, member.high);
        }
      SwInterval rest = { reached, run.high };
      if (rest.high > rest.low)
        g_array_append_val (bare, rest);
    }
  return bare;
}

static double
distance_to_members (const Look *look, SwPoint p)
{
  double least = INFINITY;
  for (guint i = 0; i < look->members->len; i++)
    {
      guint n;
      const SwPoint *points = sw_rings_get (look->members->pdata[i], 0, &n);
      least = fmin (least, sw_outline_holds (points, n, p) ? 0 : sw_outline_distance (points, n, p, NULL, NULL));
    }
  return least;
}

static gboolean
lies_in (const GArray *intervals, double at)
{
  for (guint i = 0; i < intervals->len; i++)
    if (g_array_index (intervals, SwInterval, i).low < at && at < g_array_index (intervals, SwInterval, i).high)
      return TRUE;
  return FALSE;
}

static void
look_along (const Look *look, const SwFrame *frame, double y, double step, SwHeld *held, gboolean *found)
{
  g_autoptr (GArray) bare = unheld_along (look, SW_ALONG_X, y), below = unheld_along (look, SW_ALONG_X, y - THIN), above = unheld_along (look, SW_ALONG_X, y + THIN);
  for (guint i = 0; i < bare->len; i++)
    {
      SwInterval gap = g_array_index (bare, SwInterval, i);
      for (double x = step * ceil (gap.low / step); x < gap.high; x += step)
        {
          g_autoptr (GArray) across = unheld_along (look, SW_ALONG_Y, x);
          double distance = lies_in (across, y) ? distance_to_members (look, (SwPoint){ x, y }) : 0;
          if (distance <= look->over + SLACK || (!lies_in (below, x) && !lies_in (above, x)))
            continue;
          held->area += step * step / 1e6;
          *found = TRUE;
          if (distance > held->distance)
            {
              held->distance = distance;
              held->at = sw_frame_from (frame, (SwPoint){ x, y });
            }
        }
    }
}

SwHeld
sw_held_look (const SwCeiling *ceiling, double over, double step)
{
  SwHeld held = { 0 };
  for (guint i = 0; i < ceiling->parts->len; i++)
    {
      const SwCeilingPart *part = &g_array_index (ceiling->parts, SwCeilingPart, i);
      g_autoptr (GPtrArray) members = members_at (ceiling, part);
      for (guint k = 0; k < ceiling->pieces->len; k++)
        {
          const SwCeilingPiece *piece = &g_array_index (ceiling->pieces, SwCeilingPiece, k);
          if (piece->part != i)
            continue;
          g_autoptr (SwRings) plan = sw_rings_new ();
          sw_rings_add (plan, &g_array_index (ceiling->corners, SwPoint, piece->first), piece->n);
          g_autoptr (SwRings) local = sw_rings_to (plan, &part->frame);
          SwBox box = sw_rings_box (local);
          Look look = { local, members, part->limit, ceiling->room->batten_width, over };
          gboolean found = FALSE;
          for (double y = step * ceil (box.low.y / step); y < box.high.y; y += step)
            look_along (&look, &part->frame, y, step, &held, &found);
          held.pieces += found;
        }
    }
  return held;
}

guint
sw_held_loose_noggins (const SwCeiling *ceiling)
{
  const double reach = 8; /* an end stands off what it is nailed to by no more than a grid's and a slanting cut's gap */
  guint loose = 0;
  for (guint i = 0; i < ceiling->members->len; i++)
    {
      const SwMember *noggin = &g_array_index (ceiling->members, SwCeilingMember, i).member;
      gboolean ends[2] = { FALSE, FALSE };
      if (noggin->kind != SW_MEMBER_NOGGIN)
        continue;
      SwFrame along = sw_frame_along (noggin->from, noggin->to);
      double length = sw_point_distance (noggin->from, noggin->to), half = noggin->width / 2;
      for (guint k = 0; k < ceiling->members->len; k++)
        {
          const SwMember *other = &g_array_index (ceiling->members, SwCeilingMember, k).member;
          if (k == i || other->kind == SW_MEMBER_PRIMARY || fabs (other->top - noggin->top) > SW_TOUCH_MM)
            continue;
          SwFrame way = sw_frame_along (other->from, other->to);
          double far = sw_point_distance (other->from, other->to), wide = other->width / 2;
          const SwPoint corners[] = { { 0, -wide }, { far, -wide }, { far, wide }, { 0, wide } };
          SwPoint quad[4];
          for (int c = 0; c < 4; c++)
            quad[c] = sw_frame_from (&way, corners[c]);
          for (int e = 0; e < 2; e++)
            for (int side = -1; side <= 1; side++)
              {
                SwPoint end = sw_frame_from (&along, (SwPoint){ e ? length : 0, side * half });
                ends[e] = ends[e] || sw_outline_holds (quad, 4, end) || sw_outline_distance (quad, 4, end, NULL, NULL) <= reach;
              }
        }
      loose += !ends[0] && !ends[1];
    }
  return loose;
}
