/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/linear_search.h"
#include "base/error.h"
#include "ceiling/cancel.h"
#include <math.h>

/* The covering programme over ways of cutting, by column generation: solve, take the duals to integers, let the knapsack find
 * the way that is worth most per stock length, add it when it is worth more than it costs. The bound does not trust the
 * solver: for any numbers ≥ 0 on the kinds (and ≤ 0 on limited sizes), scaled down until no way at all is worth more than it
 * costs (Farley), their sum over what is left is a bound; it is formed in 128-bit integers and rounded up to the step of
 * the costs. It ends because there are finitely many ways. */

#define DEAR 1e3 /* a kind that nothing covers costs so many times the dearest stock */

gboolean
sw_linear_programme_new (SwLinearSearch *search, GError **error)
{
  guint n_rows = search->n_kinds + search->n_sizes;
  g_autofree double *values = g_new0 (double, n_rows);
  double dearest = 0;
  search->lp = sw_lp_new (n_rows, search->n_kinds, error);
  if (search->lp == NULL)
    return FALSE;
  for (guint i = 0; i < search->n_sizes; i++)
    dearest = fmax (dearest, search->sizes[i].cost);
  for (guint i = 0; i < search->n_kinds; i++)
    {
      values[i] = 1;
      if (!sw_lp_add_column (search->lp, DEAR * dearest, values, error))
        return FALSE;
      values[i] = 0;
    }
  return TRUE;
}

static gboolean
same_way (const SwLinearSearch *search, guint way, guint size, const int *counts)
{
  return g_array_index (search->ways, SwLinearWay, way).size == size
         && memcmp (sw_linear_counts (search, way), counts, search->n_kinds * sizeof (int)) == 0;
}

guint
sw_linear_way (SwLinearSearch *search, guint size, const int *counts, GError **error)
{
  for (guint k = 0; k < search->ways->len; k++)
    if (same_way (search, k, size, counts))
      return k;
  g_autofree double *values = g_new0 (double, search->n_kinds + search->n_sizes);
  for (guint i = 0; i < search->n_kinds; i++)
    values[i] = counts[i];
  values[search->n_kinds + size] = 1;
  if (!sw_lp_add_column (search->lp, search->sizes[size].cost, values, error))
    return G_MAXUINT;
  SwLinearWay way = { size, search->ways->len };
  g_array_append_val (search->ways, way);
  g_array_append_vals (search->counts, counts, search->n_kinds);
  return search->ways->len - 1;
}

double
sw_linear_share (const SwLinearSearch *search, guint way)
{
  return sw_lp_primal (search->lp, search->n_kinds + way);
}

/* Rows for what is left; ways that take more of a kind than is left are shut. */
static gboolean
set_rows (SwLinearSearch *search, GError **error)
{
  double pieces = 0; /* no plan takes more bars */
  for (guint i = 0; i < search->n_kinds; i++)
    {
      pieces += search->demand[i];
      if (!sw_lp_set_row (search->lp, i, search->demand[i], error))
        return FALSE;
    }
  for (guint s = 0; s < search->n_sizes; s++)
    {
      double left = search->sizes[s].copies == G_MAXINT ? pieces : search->left[s];
      if (!sw_lp_set_row (search->lp, search->n_kinds + s, left, error))
        return FALSE;
    }
  for (guint k = 0; k < search->ways->len; k++)
    {
      const int *counts = sw_linear_counts (search, k);
      gboolean open = TRUE;
      for (guint i = 0; i < search->n_kinds; i++)
        open = open && counts[i] <= search->demand[i];
      if (!sw_lp_open_column (search->lp, search->n_kinds + k, open, error))
        return FALSE;
    }
  return TRUE;
}

static void
read_duals (const SwLinearSearch *search, gint64 *duals)
{
  for (guint i = 0; i < search->n_kinds + search->n_sizes; i++)
    {
      double dual = sw_lp_dual (search->lp, i);
      gboolean kind = i < search->n_kinds;
      duals[i] = llround ((kind ? fmax (dual, 0) : fmin (dual, 0)) * SW_LINEAR_SCALE);
      if (!kind && search->sizes[i - search->n_kinds].copies == G_MAXINT)
        duals[i] = 0;
    }
}

/* Σ duals over what is left, and the ratio top / bottom that it has to be divided by to make them feasible. */
void
sw_linear_weigh (const SwLinearSearch *search, const gint64 *duals, SwLinearWeight *weight)
{
  __int128 sum = 0, top = SW_LINEAR_SCALE, bottom = 1;
  for (guint i = 0; i < search->n_kinds; i++)
    sum += (__int128) duals[i] * search->demand[i];
  for (guint s = 0; s < search->n_sizes; s++)
    {
      gint64 dual = duals[search->n_kinds + s], cost = search->sizes[s].cost;
      __int128 worth = (__int128) sw_knapsack_value (&search->knapsack, 0, search->sizes[s].room) + dual;
      if (search->left[s] == 0)
        continue;
      sum += dual == 0 ? 0 : (__int128) dual * search->left[s];
      if (worth * bottom > top * cost) /* worth / cost above the ratio so far */
        {
          top = worth;
          bottom = cost;
        }
    }
  *weight = (SwLinearWeight){ sum, top, bottom };
}

static gint64
safe_bound (const SwLinearSearch *search, const gint64 *duals)
{
  SwLinearWeight weight;
  sw_linear_weigh (search, duals, &weight);
  if (weight.sum <= 0)
    return 0;
  __int128 step = (__int128) search->step * weight.top, value = weight.sum * weight.bottom;
  gint64 steps = (gint64) ((value + step - 1) / step);
  return (steps < search->n_sums ? search->sums[steps] : steps) * search->step;
}

/* Adds the best way of each size that is worth more than it costs. */
static gboolean
price (SwLinearSearch *search, const gint64 *duals, guint *added, GError **error)
{
  g_autofree int *counts = g_new (int, search->n_kinds);
  *added = 0;
  sw_knapsack_fill (&search->knapsack, search->kinds, search->demand, duals);
  for (guint s = 0; s < search->n_sizes; s++)
    {
      const SwLinearSize *size = &search->sizes[s];
      gint64 worth = sw_knapsack_value (&search->knapsack, 0, size->room) + duals[search->n_kinds + s];
      gint64 cost = size->cost * SW_LINEAR_SCALE;
      if (search->left[s] == 0 || worth <= cost + cost / 100000000)
        continue;
      guint before = search->ways->len;
      sw_knapsack_take (&search->knapsack, search->kinds, search->demand, duals, size->room, counts);
      guint way = sw_linear_way (search, s, counts, error);
      if (way == G_MAXUINT)
        return FALSE;
      *added += search->ways->len > before;
    }
  return TRUE;
}

gboolean
sw_linear_solve (SwLinearSearch *search, gint64 *bound, gint64 *duals, GError **error)
{
  guint added = 1;
  *bound = 0;
  if (!set_rows (search, error))
    return FALSE;
  while (added > 0)
    {
      if (sw_ceiling_is_cancelled (search->cancellable, error) || !sw_lp_solve (search->lp, error))
        return FALSE;
      read_duals (search, duals);
      if (!price (search, duals, &added, error))
        return FALSE;
      *bound = MAX (*bound, safe_bound (search, duals));
    }
  return TRUE;
}
