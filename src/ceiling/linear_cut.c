/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/linear_search.h"
#include "base/error.h"

/* Linear cutting to proof. Equal lengths become kinds; a greedy plan comes first, then, where three pieces a bar do, a search for a
 * plan that the sum of the lengths proves (linear_triples.c); column generation gives the bound (linear_node.c); dives and, when a gap is left, branch and price close it (linear_branch.c). Usually the bound is met at the
 * first dive. What is reported is added again from the bars in integers. Not looked for: joints (the caller splits what is
 * longer than any stock), leftovers of earlier jobs (give them as stock with copies). */

#define MOST_COST 1000000000
#define MOST_TABLE 16000000 /* values of the knapsack's layers */
#define NODES 20000

void
sw_linear_plan_free (SwLinearPlan *plan)
{
  if (plan == NULL)
    return;
  g_array_unref (plan->bars);
  g_array_unref (plan->parts);
  g_free (plan);
}

static gint64
cost_of (const SwLinearStock *stock)
{
  return stock->cost > 0 ? stock->cost : stock->length;
}

static gint64
greatest_divisor (gint64 a, gint64 b)
{
  while (b != 0)
    {
      gint64 rest = a % b;
      a = b;
      b = rest;
    }
  return a;
}

/* ---- the problem ---- */

static gboolean
check_stock (const SwLinearStock *stock, guint n, gint64 *longest, GError **error)
{
  *longest = 0;
  for (guint i = 0; i < n; i++)
    {
      if (stock[i].length <= 0 || stock[i].length > MOST_COST || stock[i].copies < 0 || stock[i].cost < 0 || stock[i].cost > MOST_COST)
        {
          g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "stock length %u: length from 1, cost and copies from 0, none above %d",
                       i + 1, MOST_COST);
          return FALSE;
        }
      *longest = MAX (*longest, stock[i].length);
    }
  return TRUE;
}

static gboolean
check_input (const SwLinearItem *items, guint n_items, const SwLinearStock *stock, guint n_stock, const SwLinearOptions *o,
             GError **error)
{
  gint64 longest;
  if (o->kerf < 0 || o->trim < 0 || o->kerf > MOST_COST || o->trim > MOST_COST)
    {
      g_set_error_literal (error, SW_ERROR, SW_ERROR_INVALID, "kerf and trim are 0 or more");
      return FALSE;
    }
  if (!check_stock (stock, n_stock, &longest, error))
    return FALSE;
  for (guint i = 0; i < n_items; i++)
    if (items[i].length <= 0 || items[i].copies < 0 || (items[i].copies > 0 && items[i].length > longest - o->trim))
      {
        g_set_error (error, SW_ERROR, SW_ERROR_INVALID,
                     "piece %u of %" G_GINT64_FORMAT " (%d of them): the longest stock gives %" G_GINT64_FORMAT, i + 1,
                     items[i].length, items[i].copies, longest - o->trim);
        return FALSE;
      }
  return TRUE;
}

static int
compare_items (gconstpointer pa, gconstpointer pb, gpointer data)
{
  const SwLinearItem *items = data;
  guint a = *(const guint *) pa, b = *(const guint *) pb;
  if (items[a].length != items[b].length)
    return items[a].length > items[b].length ? -1 : 1;
  return a < b ? -1 : a > b;
}

/* Sorted kinds; order[] lists the items in the same order. */
static void
make_kinds (SwLinearSearch *search, const SwLinearItem *items, guint n_items, gint64 kerf, guint *order)
{
  search->kinds = g_new0 (SwLinearKind, n_items + 1);
  for (guint i = 0; i < n_items; i++)
    order[i] = i;
  if (n_items > 0)
    g_qsort_with_data (order, (int) n_items, sizeof *order, compare_items, (gpointer) items);
  for (guint i = 0; i < n_items; i++)
    {
      const SwLinearItem *item = &items[order[i]];
      SwLinearKind *last = search->n_kinds > 0 ? &search->kinds[search->n_kinds - 1] : NULL;
      if (item->copies == 0)
        continue;
      if (last && last->length == item->length + kerf)
        last->demand += item->copies;
      else
        search->kinds[search->n_kinds++] = (SwLinearKind){ item->length + kerf, item->copies };
    }
}

static int
compare_sizes (gconstpointer pa, gconstpointer pb)
{
  const SwLinearSize *a = pa, *b = pb;
  if (a->cost != b->cost)
    return a->cost < b->cost ? -1 : 1;
  if (a->room != b->room)
    return a->room > b->room ? -1 : 1;
  return a->index < b->index ? -1 : a->index > b->index;
}

/* Sizes that no cheaper and longer one without end replaces. */
static void
make_sizes (SwLinearSearch *search, const SwLinearStock *stock, guint n_stock, const SwLinearOptions *o)
{
  g_autofree SwLinearSize *all = g_new0 (SwLinearSize, n_stock + 1);
  gint64 longest = 0;
  search->sizes = g_new0 (SwLinearSize, n_stock + 1);
  for (guint i = 0; i < n_stock; i++)
    all[i] = (SwLinearSize){ stock[i].length - o->trim + o->kerf, cost_of (&stock[i]),
                             stock[i].copies > 0 ? stock[i].copies : G_MAXINT, i };
  if (n_stock > 0)
    qsort (all, n_stock, sizeof *all, compare_sizes);
  for (guint i = 0; i < n_stock; i++)
    {
      gboolean useful = search->n_kinds > 0 && all[i].room >= search->kinds[search->n_kinds - 1].length && all[i].room > longest;
      if (!useful)
        continue;
      search->sizes[search->n_sizes++] = all[i];
      search->step = greatest_divisor (search->step, all[i].cost);
      if (all[i].copies == G_MAXINT)
        longest = all[i].room;
    }
}

/* Divides lengths by what they have in common, which makes the tables smaller. */
static gint64
shorten (SwLinearSearch *search)
{
  gint64 common = 0, room = 0;
  for (guint i = 0; i < search->n_kinds; i++)
    common = greatest_divisor (common, search->kinds[i].length);
  for (guint i = 0; i < search->n_kinds; i++)
    search->kinds[i].length /= common;
  for (guint s = 0; s < search->n_sizes; s++)
    {
      search->sizes[s].room /= common;
      room = MAX (room, search->sizes[s].room);
    }
  return room;
}

static gboolean
prepare (SwLinearSearch *search, GError **error)
{
  gint64 room = shorten (search);
  if ((room + 1) * (search->n_kinds + 1) > MOST_TABLE)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_LIMIT, "%u different lengths in stock of %" G_GINT64_FORMAT " units are too many: "
                   "take a coarser unit", search->n_kinds, room);
      return FALSE;
    }
  sw_knapsack_init (&search->knapsack, search->n_kinds, room);
  search->ways = g_array_new (FALSE, FALSE, sizeof (SwLinearWay));
  search->counts = g_array_new (FALSE, FALSE, sizeof (int));
  search->fixed = g_array_new (FALSE, FALSE, sizeof (guint));
  search->best = g_array_new (FALSE, FALSE, sizeof (guint));
  search->best_cost = G_MAXINT64;
  search->demand = g_new (int, search->n_kinds);
  search->left = g_new (int, search->n_sizes);
  for (guint i = 0; i < search->n_kinds; i++)
    search->demand[i] = search->kinds[i].demand;
  for (guint s = 0; s < search->n_sizes; s++)
    search->left[s] = search->sizes[s].copies;
  return sw_linear_programme_new (search, error);
}

static void
clear (SwLinearSearch *search)
{
  g_free (search->kinds);
  g_free (search->sums);
  g_free (search->sizes);
  g_free (search->demand);
  g_free (search->left);
  sw_knapsack_clear (&search->knapsack);
  g_clear_pointer (&search->ways, g_array_unref);
  g_clear_pointer (&search->counts, g_array_unref);
  g_clear_pointer (&search->fixed, g_array_unref);
  g_clear_pointer (&search->best, g_array_unref);
  sw_lp_free (search->lp);
}

/* ---- the plan ---- */

static int
compare_ways (gconstpointer pa, gconstpointer pb, gpointer data)
{
  const SwLinearSearch *search = data;
  guint a = *(const guint *) pa, b = *(const guint *) pb;
  guint size_a = g_array_index (search->ways, SwLinearWay, a).size, size_b = g_array_index (search->ways, SwLinearWay, b).size;
  if (size_a != size_b)
    return size_a < size_b ? -1 : 1;
  const int *x = sw_linear_counts (search, a), *y = sw_linear_counts (search, b);
  for (guint i = 0; i < search->n_kinds; i++)
    if (x[i] != y[i])
      return x[i] > y[i] ? -1 : 1;
  return 0;
}

typedef struct
{
  const SwLinearItem *items;
  const guint *order;
  guint n_items;
  guint *at;   /* for each kind: place in the order of the item that is next */
  int *spent;  /* copies given of that item */
} Dealer;

/* Gives `count` pieces of a kind as items, one after the other in the order. */
static void
deal (SwLinearPlan *plan, Dealer *dealer, guint kind, int count, SwLinearBar *bar)
{
  while (count > 0)
    {
      guint item = dealer->order[dealer->at[kind]];
      int give = MIN (count, dealer->items[item].copies - dealer->spent[kind]);
      SwLinearPart part = { item, give };
      if (give > 0)
        {
          g_array_append_val (plan->parts, part);
          bar->n++;
        }
      count -= give;
      dealer->spent[kind] += give;
      if (dealer->spent[kind] == dealer->items[item].copies)
        {
          dealer->at[kind]++;
          dealer->spent[kind] = 0;
        }
    }
}

static gboolean
same_parts (const SwLinearPlan *plan, const SwLinearBar *a, const SwLinearBar *b)
{
  return a->stock == b->stock && a->n == b->n
         && (a->n == 0 || memcmp (&g_array_index (plan->parts, SwLinearPart, a->first),
                                  &g_array_index (plan->parts, SwLinearPart, b->first), a->n * sizeof (SwLinearPart)) == 0);
}

static void
write_bars (SwLinearSearch *search, SwLinearPlan *plan, const SwLinearItem *items, guint n_items, const guint *order)
{
  g_autofree guint *at = g_new0 (guint, search->n_kinds + 1);
  g_autofree int *spent = g_new0 (int, search->n_kinds + 1);
  Dealer dealer = { items, order, n_items, at, spent };
  guint place = 0;
  for (guint k = 0; k < search->n_kinds; k++)
    {
      while (items[order[place]].copies == 0)
        place++;
      at[k] = place;
      for (int left = search->kinds[k].demand; left > 0; place++)
        left -= items[order[place]].copies;
    }
  g_array_sort_with_data (search->best, compare_ways, search);
  for (guint i = 0; i < search->best->len; i++)
    {
      guint way = g_array_index (search->best, guint, i);
      const SwLinearSize *size = &search->sizes[g_array_index (search->ways, SwLinearWay, way).size];
      SwLinearBar bar = { size->index, 1, plan->parts->len, 0 };
      for (guint k = 0; k < search->n_kinds; k++)
        deal (plan, &dealer, k, sw_linear_counts (search, way)[k], &bar);
      SwLinearBar *last = plan->bars->len > 0 ? &g_array_index (plan->bars, SwLinearBar, plan->bars->len - 1) : NULL;
      if (last && same_parts (plan, last, &bar))
        {
          last->times++;
          g_array_set_size (plan->parts, bar.first);
        }
      else
        g_array_append_val (plan->bars, bar);
      plan->n_bars++;
      plan->cost += size->cost;
    }
}

#define MOST_SUMS 1000000

/* No plan costs what the costs of its stock cannot add up to: bounds go up to the next sum that is one. With one size that is the
 * step already. */
static void
make_sums (SwLinearSearch *search)
{
  gint64 n = search->best_cost / search->step + 1;
  if (search->n_sizes < 2 || n > MOST_SUMS)
    return;
  search->n_sums = (gint32) n;
  search->sums = g_new (gint32, n);
  for (gint32 v = 0; v < n; v++)
    {
      gboolean reached = v == 0;
      for (guint s = 0; s < search->n_sizes && !reached; s++)
        {
          gint64 cost = search->sizes[s].cost / search->step;
          reached = cost > 0 && cost <= v && search->sums[v - cost] == v - cost;
        }
      search->sums[v] = reached ? v : -1;
    }
  gint32 next = (gint32) n - 1; /* the best plan's own */
  for (gint32 v = next; v >= 0; v--)
    search->sums[v] = next = search->sums[v] == v ? v : next;
}

static gboolean
search_all (SwLinearSearch *search, GError **error)
{
  g_autofree gint64 *duals = g_new (gint64, search->n_kinds + search->n_sizes);
  if (!sw_linear_finish (search, error) || !sw_linear_triples (search, error))
    return FALSE;
  if (search->best_cost <= search->bound)
    return TRUE;
  if (search->best_cost < G_MAXINT64)
    make_sums (search);
  if (!sw_linear_solve (search, &search->bound, duals, error))
    return FALSE;
  if (search->best_cost > search->bound && !sw_linear_dive (search, error))
    return FALSE;
  if (search->best_cost > search->bound)
    return sw_linear_branch (search, error);
  return TRUE;
}

SwLinearPlan *
sw_linear_cut (const SwLinearItem *items, guint n_items, const SwLinearStock *stock, guint n_stock,
               const SwLinearOptions *options, GCancellable *cancellable, GError **error)
{
  SwLinearOptions none = { 0 };
  const SwLinearOptions *o = options ? options : &none;
  if (!check_input (items, n_items, stock, n_stock, o, error))
    return NULL;
  g_autofree guint *order = g_new (guint, n_items + 1);
  g_autoptr (GError) stopped = NULL;
  SwLinearSearch search = { .cancellable = cancellable, .node_limit = o->nodes > 0 ? o->nodes : NODES };
  make_kinds (&search, items, n_items, o->kerf, order);
  make_sizes (&search, stock, n_stock, o);
  SwLinearPlan *plan = g_new0 (SwLinearPlan, 1);
  plan->bars = g_array_new (FALSE, FALSE, sizeof (SwLinearBar));
  plan->parts = g_array_new (FALSE, FALSE, sizeof (SwLinearPart));
  plan->proven = TRUE;
  if (search.n_kinds > 0)
    {
      gboolean done = prepare (&search, &stopped) && search_all (&search, &stopped);
      if (!done && (search.best == NULL || search.best_cost == G_MAXINT64))
        g_propagate_error (error, g_steal_pointer (&stopped));
      else if (search.best_cost == G_MAXINT64)
        g_set_error_literal (error, SW_ERROR, SW_ERROR_LIMIT, "the stock at hand does not do for all pieces: add stock");
      if (search.best == NULL || search.best_cost == G_MAXINT64)
        g_clear_pointer (&plan, sw_linear_plan_free);
      else
        {
          write_bars (&search, plan, items, n_items, order);
          plan->bound = search.bound;
          plan->proven = plan->cost <= plan->bound;
          plan->nodes = search.nodes;
          plan->columns = search.ways->len;
        }
    }
  clear (&search);
  return plan;
}

/* ---- the check ---- */

static gboolean
wrong (GError **error, const char *what, guint index)
{
  g_set_error (error, SW_ERROR, SW_ERROR_INTERNAL, "cutting plan: %s (%u)", what, index);
  return FALSE;
}

gboolean
sw_linear_plan_check (const SwLinearPlan *plan, const SwLinearItem *items, guint n_items, const SwLinearStock *stock,
                      guint n_stock, const SwLinearOptions *options, GError **error)
{
  SwLinearOptions none = { 0 };
  const SwLinearOptions *o = options ? options : &none;
  g_autofree int *made = g_new0 (int, n_items + 1), *used = g_new0 (int, n_stock + 1);
  gint64 cost = 0;
  for (guint b = 0; b < plan->bars->len; b++)
    {
      const SwLinearBar *bar = &g_array_index (plan->bars, SwLinearBar, b);
      gint64 length = o->trim - o->kerf;
      if (bar->stock >= n_stock || bar->times <= 0 || bar->n == 0)
        return wrong (error, "a bar is not in stock", b);
      for (guint p = bar->first; p < bar->first + bar->n; p++)
        {
          const SwLinearPart *part = &g_array_index (plan->parts, SwLinearPart, p);
          if (part->item >= n_items || part->count <= 0)
            return wrong (error, "a part names what is not there", p);
          made[part->item] += part->count * bar->times;
          length += part->count * (items[part->item].length + o->kerf);
        }
      used[bar->stock] += bar->times;
      cost += bar->times * cost_of (&stock[bar->stock]);
      if (length > stock[bar->stock].length || (used[bar->stock] > stock[bar->stock].copies && stock[bar->stock].copies > 0))
        return wrong (error, "a bar is longer than its stock, or stock is overdrawn", b);
    }
  for (guint i = 0; i < n_items; i++)
    if (made[i] != items[i].copies)
      return wrong (error, "a piece is not cut as often as asked", i);
  return cost == plan->cost || wrong (error, "the cost does not add up", 0);
}
