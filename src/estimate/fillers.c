/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "estimate/fillers.h"
#include "base/tolerance.h"
#include <math.h>

#define ALONG 0.05 /* sine of the angle to the voids below which a wall counts as along them */

static void
add_across (const SwWall *wall, const SwDeckBay *bay, guint index, SwPoint a, SwPoint b, GArray *fillers)
{
  const SwVoid *over = &g_array_index (bay->voids, SwVoid, index);
  SwPoint way = sw_point_sub (b, a);
  double t = (over->v - a.y) / way.y, u = a.x + t * way.x;
  if (t < 0 || t > 1 || sw_deck_reach_at (bay, index, u) == NULL)
    return;
  double section = (bay->profile->mouth + bay->profile->crown) / 2 * over->depth;
  SwFiller filler = { wall, bay, index, sw_deck_from_bay (bay, (SwPoint){ u, over->v }), section * sw_point_length (way) / fabs (way.y) };
  g_array_append_val (fillers, filler);
}

static void
add_along (const SwWall *wall, const SwDeckBay *bay, guint index, SwPoint a, SwPoint b, GArray *fillers)
{
  const SwVoid *over = &g_array_index (bay->voids, SwVoid, index);
  for (guint k = 0; k < over->n_reaches && a.y > over->low && a.y < over->high; k++)
    {
      const SwReach *reach = &g_array_index (bay->reaches, SwReach, over->first_reach + k);
      double low = fmax (reach->low, fmin (a.x, b.x)), high = fmin (reach->high, fmax (a.x, b.x));
      SwFiller filler = { wall, bay, index, sw_deck_from_bay (bay, (SwPoint){ (low + high) / 2, over->v }), (high - low) * over->depth };
      if (high - low > SW_TOUCH_MM)
        g_array_append_val (fillers, filler);
    }
}

void
sw_fillers_of_wall (const SwDeck *deck, const SwWall *wall, GArray *fillers)
{
  double length = sw_point_distance (wall->from, wall->to);
  if (!wall->separating || wall->head == SW_HEAD_SLAB || length <= 0)
    return;
  for (guint i = 0; i < sw_deck_n_bays (deck); i++)
    {
      const SwDeckBay *bay = sw_deck_bay (deck, i);
      SwPoint a = sw_deck_to_bay (bay, wall->from), b = sw_deck_to_bay (bay, wall->to);
      gboolean across = fabs (b.y - a.y) > ALONG * length;
      for (guint k = 0; k < bay->voids->len; k++)
        (across ? add_across : add_along) (wall, bay, k, a, b, fillers);
    }
}
