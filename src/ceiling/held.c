/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/held.h"
#include "base/number.h"
#include "base/tolerance.h"

/* Lines across the battens are looked at just inside the heights of all corners, between which nothing changes but by slants; where a line is
 * bare, and heights are far apart, lines between are looked at too. What of a line is bare is tried at places along it. */

#define STEP_MM 20.0  /* between places along a bare line */
#define BAND_MM 50.0 /* between lines where one of them was bare */
#define INSIDE_MM 1.0 /* how far from a corner's height its line is */
#define SLACK_MM 0.5  /* what stored places, which stand on the grid, may differ by, and more */

/* Where the line lies in the quad; FALSE when it does not. */
static gboolean
cut_quad (const SwQuad *quad, SwAlong along, double at, SwInterval *cut)
{
  *cut = (SwInterval){ INFINITY, -INFINITY };
  for (int k = 0; k < 4; k++)
    {
      SwPoint a = quad->corner[k], b = quad->corner[(k + 1) % 4];
      if (along == SW_ALONG_X)
        {
          a = (SwPoint){ a.y, a.x };
          b = (SwPoint){ b.y, b.x };
        }
      if ((a.x > at) == (b.x > at))
        continue;
      double place = a.y + (b.y - a.y) * ((at - a.x) / (b.x - a.x));
      cut->low = fmin (cut->low, place);
      cut->high = fmax (cut->high, place);
    }
  return cut->high > cut->low;
}

static int
compare_cuts (gconstpointer pa, gconstpointer pb)
{
  const SwInterval *a = pa, *b = pb;
  if (a->low != b->low)
    return a->low < b->low ? -1 : 1;
  return (a->high > b->high) - (a->high < b->high);
}

/* Members' stretches of the line, ascending. */
static GArray *
cuts_along (const SwBoardHold *hold, SwAlong along, double at)
{
  GArray *cuts = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  for (guint i = 0; i < hold->quads->len; i++)
    {
      SwInterval cut;
      if (cut_quad (&g_array_index (hold->quads, SwQuad, i), along, at, &cut))
        g_array_append_val (cuts, cut);
    }
  g_array_sort (cuts, compare_cuts);
  return cuts;
}

typedef struct
{
  SwInterval gap;
  gboolean low_held, high_held;
  double allowed; /* between members at both ends */
} Gap;

static double
allowed_between (const SwBoardHold *hold, SwInterval low, SwInterval high)
{
  gboolean square = low.high - low.low < hold->width + INSIDE_MM && high.high - high.low < hold->width + INSIDE_MM;
  return square ? hold->limit - hold->width : hold->limit;
}

/* The line's stretches on no member: GArray of Gap. */
static GArray *
gaps_along (const SwBoardHold *hold, SwAlong along, double at)
{
  GArray *gaps = g_array_new (FALSE, FALSE, sizeof (Gap));
  g_autoptr (GArray) cuts = cuts_along (hold, along, at), runs = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  sw_rings_cut (hold->area, along, at, runs);
  for (guint i = 0; i < runs->len; i++)
    {
      SwInterval run = g_array_index (runs, SwInterval, i), last = { run.low, run.low };
      gboolean behind = FALSE;
      for (guint k = 0; k < cuts->len; k++)
        {
          SwInterval cut = g_array_index (cuts, SwInterval, k);
          if (cut.high <= run.low || cut.low >= run.high)
            continue;
          Gap gap = { { last.high, cut.low }, behind, TRUE, behind ? allowed_between (hold, last, cut) : 0 };
          if (cut.low > last.high)
            g_array_append_val (gaps, gap);
          if (!behind || cut.high > last.high)
            last = cut;
          behind = TRUE;
        }
      Gap rest = { { last.high, run.high }, behind, FALSE, 0 };
      if (run.high > last.high)
        g_array_append_val (gaps, rest);
    }
  return gaps;
}

/* Whether the gap holds what lies in it: from both ends, or all of it from one. */
static gboolean
is_narrow (const SwBoardHold *hold, const Gap *gap)
{
  double breadth = gap->gap.high - gap->gap.low;
  if (gap->low_held && gap->high_held)
    return breadth <= fmax (gap->allowed, 2 * hold->over) + SLACK_MM;
  return (gap->low_held || gap->high_held) && breadth <= hold->over + SLACK_MM;
}

static const Gap *
gap_at (const GArray *gaps, double at)
{
  for (guint i = 0; i < gaps->len; i++)
    {
      const Gap *gap = &g_array_index (gaps, Gap, i);
      if (gap->gap.low <= at && at <= gap->gap.high)
        return gap;
    }
  return NULL;
}

double
sw_board_distance (const SwBoardHold *hold, SwPoint p)
{
  double least = INFINITY;
  for (guint i = 0; i < hold->quads->len; i++)
    {
      const SwPoint *corners = g_array_index (hold->quads, SwQuad, i).corner;
      least = fmin (least, sw_outline_holds (corners, 4, p) ? 0 : sw_outline_distance (corners, 4, p, NULL, NULL));
    }
  return least;
}

static gboolean
is_held_along (const SwBoardHold *hold, SwAlong along, SwPoint p)
{
  g_autoptr (GArray) gaps = gaps_along (hold, along, along == SW_ALONG_X ? p.y : p.x);
  const Gap *gap = gap_at (gaps, along == SW_ALONG_X ? p.x : p.y);
  return gap == NULL || is_narrow (hold, gap);
}

gboolean
sw_board_is_held (const SwBoardHold *hold, SwPoint p)
{
  return is_held_along (hold, SW_ALONG_X, p) || is_held_along (hold, SW_ALONG_Y, p) || sw_board_distance (hold, p) <= hold->over + SLACK_MM;
}

SwInterval
sw_board_gap (const SwBoardHold *hold, SwAlong along, SwPoint p, gboolean *low_held, gboolean *high_held)
{
  double at = along == SW_ALONG_X ? p.x : p.y;
  g_autoptr (GArray) gaps = gaps_along (hold, along, along == SW_ALONG_X ? p.y : p.x);
  const Gap *gap = gap_at (gaps, at);
  *low_held = gap == NULL || gap->low_held;
  *high_held = gap == NULL || gap->high_held;
  return gap ? gap->gap : (SwInterval){ at, at };
}

/* ---- all of an area ---- */

static GArray *
heights_of (const SwBoardHold *hold)
{
  GArray *heights = g_array_new (FALSE, FALSE, sizeof (double));
  for (guint i = 0; i < hold->area->points->len; i++)
    g_array_append_val (heights, g_array_index (hold->area->points, SwPoint, i).y);
  for (guint i = 0; i < hold->quads->len; i++)
    for (int k = 0; k < 4; k++)
      g_array_append_val (heights, g_array_index (hold->quads, SwQuad, i).corner[k].y);
  g_array_sort (heights, sw_compare_doubles);
  return heights;
}

/* Appends the line's places that nothing holds. Whether the line itself leaves any to other members. */
static gboolean
look_along (const SwBoardHold *hold, double y, GArray *out)
{
  g_autoptr (GArray) gaps = gaps_along (hold, SW_ALONG_X, y);
  gboolean bare = FALSE;
  for (guint i = 0; i < gaps->len; i++)
    {
      const Gap *gap = &g_array_index (gaps, Gap, i);
      if (is_narrow (hold, gap))
        continue;
      bare = TRUE;
      guint n = (guint) ceil ((gap->gap.high - gap->gap.low) / STEP_MM) + 1;
      double inset = fmin (INSIDE_MM, (gap->gap.high - gap->gap.low) / 4), low = gap->gap.low + inset, high = gap->gap.high - inset;
      for (guint k = 0; k < n; k++)
        {
          SwPoint p = { low + (high - low) * k / (n - 1), y };
          if (sw_board_distance (hold, p) > hold->over + SLACK_MM && !is_held_along (hold, SW_ALONG_Y, p))
            g_array_append_val (out, p);
        }
    }
  return bare;
}

GArray *
sw_board_unheld (const SwBoardHold *hold)
{
  GArray *out = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  g_autoptr (GArray) heights = heights_of (hold);
  SwBox box = sw_rings_box (hold->area);
  double from = box.low.y;
  for (guint i = 0; i < heights->len; i++)
    {
      double to = g_array_index (heights, double, i);
      double low = from + INSIDE_MM, high = to - INSIDE_MM;
      from = fmax (from, to);
      if (high < low || to > box.high.y + SW_TOUCH_MM)
        continue;
      g_autoptr (GArray) last = g_array_new (FALSE, FALSE, sizeof (SwPoint));
      gboolean bare = look_along (hold, low, out);
      bare = (high > low && look_along (hold, high, last)) || bare;
      guint n = bare ? (guint) ceil ((high - low) / BAND_MM) : 0;
      for (guint k = 1; k < n; k++)
        look_along (hold, low + (high - low) * k / n, out);
      g_array_append_vals (out, last->data, last->len);
    }
  return out;
}
