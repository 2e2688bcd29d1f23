/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/linear_search.h"
#include "base/error.h"
#include <math.h>

/* Closing the gap between the best plan and the bound. First a dive: take what the programme takes whole, solve again, and so
 * on. Then branch and price: the longest piece left has to be in some bar, so the node's children are all ways to cut such a
 * bar from any stock length. Two things make the list short without losing the optimum: a bar may be taken as full, in that no
 * piece left fits into its rest (a piece moved there from another bar makes nothing worse); and a way whose reduced cost is
 * more than a better plan could still afford is in no better plan. Both are decided in integers, so when the tree is done the
 * best plan is proven. It ends: every child has fewer pieces left; `node_limit` and `MOST_CHILDREN` bound it, and then the
 * root's bound is all that is claimed. */

#define MOST_CHILDREN 20000
#define WHOLE 1e-6

typedef struct
{
  guint size;
  double share;  /* that the programme takes of it */
  gint64 worth;
  guint at;      /* order of finding; counts stand there */
} Child;

typedef struct
{
  SwLinearSearch *search;
  const gint64 *duals;
  GArray *children, *counts;
  int *count;            /* of the way being made */
  guint size, longest;
  __int128 need;         /* least worth */
  gboolean complete;
} Listing;

static gboolean
nothing_left (const SwLinearSearch *search)
{
  for (guint i = 0; i < search->n_kinds; i++)
    if (search->demand[i] > 0)
      return FALSE;
  return TRUE;
}

static gboolean
is_done (const SwLinearSearch *search)
{
  return search->best_cost <= search->bound;
}

/* ---- dive ---- */

static int
most_times (const SwLinearSearch *search, guint way)
{
  const int *counts = sw_linear_counts (search, way);
  int times = search->left[g_array_index (search->ways, SwLinearWay, way).size];
  for (guint i = 0; i < search->n_kinds; i++)
    if (counts[i] > 0)
      times = MIN (times, search->demand[i] / counts[i]);
  return times;
}

/* Takes all that is taken whole, else one of the largest share; FALSE when the programme takes nothing. */
static gboolean
take_shares (SwLinearSearch *search)
{
  guint n = search->ways->len, best = n;
  gboolean any = FALSE;
  g_autofree double *shares = g_new (double, n + 1);
  for (guint k = 0; k < n; k++)
    {
      shares[k] = sw_linear_share (search, k);
      if (shares[k] > WHOLE && most_times (search, k) > 0 && (best == n || shares[k] > shares[best] + WHOLE))
        best = k;
    }
  for (guint k = 0; k < n; k++)
    {
      int times = MIN ((int) floor (shares[k] + WHOLE), most_times (search, k));
      if (times > 0)
        {
          sw_linear_fix (search, k, times);
          any = TRUE;
        }
    }
  if (!any && best < n)
    sw_linear_fix (search, best, 1);
  return any || best < n;
}

gboolean
sw_linear_dive (SwLinearSearch *search, GError **error)
{
  guint start = search->fixed->len;
  g_autofree gint64 *duals = g_new (gint64, search->n_kinds + search->n_sizes);
  gboolean good = TRUE;
  while (!nothing_left (search) && !is_done (search))
    {
      gint64 bound;
      good = sw_linear_solve (search, &bound, duals, error);
      if (!good || search->fixed_cost + bound >= search->best_cost || !take_shares (search))
        break;
      good = sw_linear_finish (search, error);
      if (!good)
        break;
    }
  while (search->fixed->len > start)
    sw_linear_fix (search, g_array_index (search->fixed, guint, search->fixed->len - 1), -1);
  return good;
}

/* ---- listing a node's children ---- */

static void
keep_child (Listing *listing, gint64 worth)
{
  SwLinearSearch *search = listing->search;
  Child child = { listing->size, 0, worth, listing->children->len };
  g_array_append_val (listing->children, child);
  g_array_append_vals (listing->counts, listing->count, search->n_kinds);
}

/* Nothing that is left beside this bar fits into its rest. */
static gboolean
is_full (const Listing *listing, gint64 room)
{
  const SwLinearSearch *search = listing->search;
  for (guint i = search->n_kinds; i-- > listing->longest;)
    if (listing->count[i] < search->demand[i])
      return search->kinds[i].length > room;
  return TRUE;
}

static void
list_from (Listing *listing, guint kind, gint64 room, gint64 worth)
{
  const SwLinearSearch *search = listing->search;
  if (!listing->complete || worth + sw_knapsack_value (&search->knapsack, kind, room) < listing->need)
    return;
  if (kind == search->n_kinds)
    {
      if (listing->children->len >= MOST_CHILDREN)
        listing->complete = FALSE;
      else if (is_full (listing, room))
        keep_child (listing, worth);
      return;
    }
  const SwLinearKind *k = &search->kinds[kind];
  int least = kind == listing->longest ? 1 : 0;
  int most = (int) MIN (search->demand[kind], room / k->length);
  for (int n = most; n >= least; n--)
    {
      listing->count[kind] = n;
      list_from (listing, kind + 1, room - n * k->length, worth + n * listing->duals[kind]);
    }
  listing->count[kind] = 0;
}

static int
compare_children (gconstpointer pa, gconstpointer pb)
{
  const Child *a = pa, *b = pb;
  if (a->share != b->share)
    return a->share > b->share ? -1 : 1;
  if (a->worth != b->worth)
    return a->worth > b->worth ? -1 : 1;
  return a->at < b->at ? -1 : a->at > b->at;
}

static void
add_shares (Listing *listing)
{
  SwLinearSearch *search = listing->search;
  for (guint w = 0; w < search->ways->len; w++)
    {
      double share = sw_linear_share (search, w);
      if (share < WHOLE)
        continue;
      for (guint i = 0; i < listing->children->len; i++)
        {
          Child *child = &g_array_index (listing->children, Child, i);
          const int *counts = &g_array_index (listing->counts, int, child->at *search->n_kinds);
          if (child->size == g_array_index (search->ways, SwLinearWay, w).size
              && memcmp (counts, sw_linear_counts (search, w), search->n_kinds * sizeof (int)) == 0)
            child->share = share;
        }
    }
  g_array_sort (listing->children, compare_children);
}

/* All ways with the longest piece left that a better plan can afford. */
static void
list_children (Listing *listing)
{
  SwLinearSearch *search = listing->search;
  SwLinearWeight weight;
  sw_linear_weigh (search, listing->duals, &weight);
  __int128 afford = (__int128) (search->best_cost - search->step - search->fixed_cost) * weight.top - weight.sum * weight.bottom;
  while (search->demand[listing->longest] == 0)
    listing->longest++;
  for (guint s = 0; s < search->n_sizes; s++)
    {
      const SwLinearSize *size = &search->sizes[s];
      if (search->left[s] == 0)
        continue;
      __int128 over = (__int128) size->cost * weight.top - afford; /* worth · bottom has to reach this */
      __int128 need = over > 0 ? (over + weight.bottom - 1) / weight.bottom : 0;
      listing->size = s;
      listing->need = need - listing->duals[search->n_kinds + s];
      list_from (listing, listing->longest, size->room, 0);
    }
  add_shares (listing);
}

/* ---- the tree ---- */

static gboolean branch (SwLinearSearch *search, gboolean *complete, GError **error);

static gboolean
branch_on (Listing *listing, gboolean *complete, GError **error)
{
  SwLinearSearch *search = listing->search;
  gboolean good = TRUE;
  for (guint i = 0; i < listing->children->len && good && !is_done (search) && search->nodes < search->node_limit; i++)
    {
      const Child *child = &g_array_index (listing->children, Child, i);
      guint way = sw_linear_way (search, child->size, &g_array_index (listing->counts, int, child->at *search->n_kinds), error);
      if (way == G_MAXUINT)
        return FALSE;
      sw_linear_fix (search, way, 1);
      good = branch (search, complete, error);
      sw_linear_fix (search, way, -1);
    }
  return good;
}

static gboolean
branch (SwLinearSearch *search, gboolean *complete, GError **error)
{
  gint64 bound;
  if (nothing_left (search)) /* its parent's greedy end has seen it */
    return sw_linear_finish (search, error);
  if (++search->nodes > search->node_limit)
    {
      *complete = FALSE;
      return TRUE;
    }
  g_autofree gint64 *duals = g_new (gint64, search->n_kinds + search->n_sizes);
  g_autofree int *count = g_new0 (int, search->n_kinds);
  if (!sw_linear_solve (search, &bound, duals, error))
    return FALSE;
  if (search->fixed_cost + bound >= search->best_cost)
    return TRUE;
  g_autoptr (GArray) children = g_array_new (FALSE, FALSE, sizeof (Child));
  g_autoptr (GArray) counts = g_array_new (FALSE, FALSE, sizeof (int));
  Listing listing = { search, duals, children, counts, count, 0, 0, 0, TRUE };
  list_children (&listing);
  *complete = *complete && listing.complete;
  if (!sw_linear_finish (search, error))
    return FALSE;
  return branch_on (&listing, complete, error);
}

gboolean
sw_linear_branch (SwLinearSearch *search, GError **error)
{
  gboolean complete = TRUE;
  if (!branch (search, &complete, error))
    return FALSE;
  complete = complete && (search->nodes < search->node_limit || is_done (search));
  if (complete)
    search->bound = search->best_cost;
  return TRUE;
}
