/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/linear_search.h"
#include "base/error.h"

/* Cuts what is left without looking ahead: the longest piece left starts a bar, which the knapsack then fills as full as the
 * rest allows; of several stock lengths the one that costs least for what it holds is taken. Kinds times lengths a bar. */

void
sw_linear_fix (SwLinearSearch *search, guint way, int times)
{
  const int *counts = sw_linear_counts (search, way);
  guint size = g_array_index (search->ways, SwLinearWay, way).size;
  for (guint i = 0; i < search->n_kinds; i++)
    search->demand[i] -= times * counts[i];
  if (search->left[size] != G_MAXINT)
    search->left[size] -= times;
  search->fixed_cost += times * search->sizes[size].cost;
  for (int k = 0; k < times; k++)
    g_array_append_val (search->fixed, way);
  if (times < 0)
    g_array_set_size (search->fixed, search->fixed->len + times);
}

typedef struct
{
  int *demand, *left, *counts; /* what is left; the bar at hand */
  gint64 *lengths;
  GArray *bars;                /* int: size, then counts */
  gint64 cost;
} Greedy;

/* The size that costs least for what it can hold with the longest piece in it; FALSE when none is left that takes it. */
static gboolean
choose_size (SwLinearSearch *search, const Greedy *greedy, guint longest, guint *chosen)
{
  __int128 best_cost = 0, best_held = 0;
  gboolean found = FALSE;
  for (guint s = 0; s < search->n_sizes; s++)
    {
      const SwLinearSize *size = &search->sizes[s];
      gint64 room = size->room - search->kinds[longest].length;
      if (room < 0 || greedy->left[s] == 0)
        continue;
      __int128 held = search->kinds[longest].length + sw_knapsack_value (&search->knapsack, 0, room);
      if (found && size->cost * best_held >= best_cost * held)
        continue;
      found = TRUE;
      best_cost = size->cost;
      best_held = held;
      *chosen = s;
    }
  return found;
}

static gboolean
cut_bar (SwLinearSearch *search, Greedy *greedy, guint longest)
{
  guint size;
  greedy->demand[longest]--;
  sw_knapsack_fill (&search->knapsack, search->kinds, greedy->demand, greedy->lengths);
  if (!choose_size (search, greedy, longest, &size))
    return FALSE;
  sw_knapsack_take (&search->knapsack, search->kinds, greedy->demand, greedy->lengths,
                    search->sizes[size].room - search->kinds[longest].length, greedy->counts);
  for (guint i = 0; i < search->n_kinds; i++)
    greedy->demand[i] -= greedy->counts[i];
  greedy->counts[longest]++;
  greedy->cost += search->sizes[size].cost;
  if (greedy->left[size] != G_MAXINT)
    greedy->left[size]--;
  g_array_append_val (greedy->bars, size);
  g_array_append_vals (greedy->bars, greedy->counts, search->n_kinds);
  return TRUE;
}

static gboolean
keep_plan (SwLinearSearch *search, const Greedy *greedy, GError **error)
{
  g_autoptr (GArray) plan = g_array_copy (search->fixed);
  for (guint at = 0; at < greedy->bars->len; at += search->n_kinds + 1)
    {
      const int *bar = &g_array_index (greedy->bars, int, at);
      guint way = sw_linear_way (search, (guint) bar[0], bar + 1, error);
      if (way == G_MAXUINT)
        return FALSE;
      g_array_append_val (plan, way);
    }
  search->best_cost = greedy->cost;
  g_array_set_size (search->best, 0);
  g_array_append_vals (search->best, plan->data, plan->len);
  return TRUE;
}

gboolean
sw_linear_finish (SwLinearSearch *search, GError **error)
{
  guint n = search->n_kinds;
  g_autofree int *demand = g_memdup2 (search->demand, n * sizeof (int));
  g_autofree int *left = g_memdup2 (search->left, search->n_sizes * sizeof (int));
  g_autofree int *counts = g_new0 (int, n);
  g_autofree gint64 *lengths = g_new (gint64, n);
  g_autoptr (GArray) bars = g_array_new (FALSE, FALSE, sizeof (int));
  Greedy greedy = { demand, left, counts, lengths, bars, search->fixed_cost };
  gboolean could = TRUE;
  for (guint i = 0; i < n; i++)
    lengths[i] = search->kinds[i].length;
  for (guint i = 0; i < n && could && greedy.cost < search->best_cost;)
    if (demand[i] == 0)
      i++;
    else
      could = cut_bar (search, &greedy, i);
  if (!could || greedy.cost >= search->best_cost)
    return TRUE;
  return keep_plan (search, &greedy, error);
}
