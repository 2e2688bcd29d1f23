/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/linear_search.h"

/* The bounded knapsack, in integers: values[i][c] is the most that kinds i, i+1, … can be worth within length c. All layers
 * are kept, so that the best way can be read off for every stock length, and all ways within some distance of the best can be
 * listed without trying the others. */

void
sw_knapsack_init (SwKnapsack *knapsack, guint n_kinds, gint64 room)
{
  knapsack->n_kinds = n_kinds;
  knapsack->room = room;
  knapsack->values = g_new0 (gint64, (n_kinds + 1) * (room + 1));
}

void
sw_knapsack_clear (SwKnapsack *knapsack)
{
  g_clear_pointer (&knapsack->values, g_free);
}

void
sw_knapsack_fill (SwKnapsack *knapsack, const SwLinearKind *kinds, const int *demand, const gint64 *profits)
{
  gint64 width = knapsack->room + 1;
  memset (&knapsack->values[knapsack->n_kinds * width], 0, width * sizeof (gint64));
  for (guint i = knapsack->n_kinds; i-- > 0;)
    {
      gint64 *here = &knapsack->values[i * width];
      const gint64 *next = here + width;
      gint64 length = kinds[i].length, profit = profits[i];
      memcpy (here, next, width * sizeof (gint64));
      if (profit <= 0)
        continue;
      for (int k = 1; k <= demand[i] && k * length < width; k++)
        for (gint64 c = k * length; c < width; c++)
          here[c] = MAX (here[c], next[c - k * length] + k * profit);
    }
}

void
sw_knapsack_take (const SwKnapsack *knapsack, const SwLinearKind *kinds, const int *demand, const gint64 *profits,
                  gint64 room, int *counts)
{
  for (guint i = 0; i < knapsack->n_kinds; i++)
    {
      gint64 wanted = sw_knapsack_value (knapsack, i, room);
      counts[i] = 0;
      while (counts[i] * profits[i] + sw_knapsack_value (knapsack, i + 1, room) != wanted)
        {
          counts[i]++;
          room -= kinds[i].length;
          g_assert (counts[i] <= demand[i] && room >= 0);
        }
    }
}
