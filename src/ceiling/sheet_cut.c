/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/sheet_parts.h"
#include "base/error.h"
#include <stdlib.h>

/* Cutting rectangles from sheets. First, several sortings of the pieces and all manners of filling are tried and the cheapest
 * kept: fast, and for a room's handful of cut pieces mostly as good as can be. Then, when effort is asked for,
 * sheet_search.c improves on it. The bound (sheet_bound.c) tells when to stop and is reported. Nothing here proves more than that
 * bound: a gap of one may be the plan's or the bound's fault. Pieces × rests a filling; effort times a few fillings more. */

#define FIRST_WORK 100000000 /* pieces squared times fillings, at most */
#define FIRST_LEAST 4        /* fillings in any case */

/* ---- the problem ---- */

static gboolean
check_size (int width, int height, int copies, const char *what, guint index, GError **error)
{
  if (width > 0 && height > 0 && width <= SW_SHEET_MOST && height <= SW_SHEET_MOST && copies >= 0)
    return TRUE;
  g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "%s %u is %d × %d, %d of them: sizes from 1 to %d, copies from 0", what,
               index + 1, width, height, copies, SW_SHEET_MOST);
  return FALSE;
}

static gboolean
check_problem (const SwSheetProblem *p, GError **error)
{
  for (guint i = 0; i < p->n_stock; i++)
    if (!check_size (p->stock[i].width, p->stock[i].height, p->stock[i].copies, "sheet size", i, error))
      return FALSE;
  for (guint i = 0; i < p->n_items; i++)
    {
      const SwSheetItem *item = &p->items[i];
      SwSheetUnit unit = { item->width, item->height, i, item->may_turn };
      gboolean fits = FALSE;
      if (!check_size (item->width, item->height, item->copies, "piece", i, error))
        return FALSE;
      for (guint s = 0; s < p->n_stock; s++)
        fits = fits || sw_sheet_fits (&p->stock[s], &p->options, &unit);
      if (!fits && item->copies > 0)
        {
          g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "piece %u of %d × %d fits on no sheet: take a larger sheet or joint it",
                       i + 1, item->width, item->height);
          return FALSE;
        }
    }
  if (p->options.kerf < 0 || p->options.left < 0 || p->options.right < 0 || p->options.bottom < 0 || p->options.top < 0)
    {
      g_set_error_literal (error, SW_ERROR, SW_ERROR_INVALID, "kerf and trims are 0 or more");
      return FALSE;
    }
  return TRUE;
}

static void
expand (SwSheetProblem *p)
{
  p->units = g_array_new (FALSE, FALSE, sizeof (SwSheetUnit));
  for (guint i = 0; i < p->n_items; i++)
    for (int k = 0; k < p->items[i].copies; k++)
      {
        SwSheetUnit unit = { p->items[i].width, p->items[i].height, i, p->items[i].may_turn };
        g_array_append_val (p->units, unit);
      }
}

/* ---- first answers ---- */

typedef enum { BY_AREA, BY_HEIGHT, BY_WIDTH, BY_LONGEST, BY_SHORTEST, BY_GIRTH, N_SORTINGS } Sorting;

static gint64
sort_key (const SwSheetUnit *unit, Sorting sorting)
{
  gint64 w = unit->width, h = unit->height;
  const gint64 keys[N_SORTINGS] = {
    [BY_AREA] = w * h,
    [BY_HEIGHT] = h * SW_SHEET_MOST + w,
    [BY_WIDTH] = w * SW_SHEET_MOST + h,
    [BY_LONGEST] = MAX (w, h) * SW_SHEET_MOST + MIN (w, h),
    [BY_SHORTEST] = MIN (w, h) * SW_SHEET_MOST + MAX (w, h),
    [BY_GIRTH] = w + h,
  };
  return keys[sorting];
}

typedef struct
{
  const SwSheetUnit *units;
  Sorting sorting;
} SortBy;

static int
compare_units (gconstpointer pa, gconstpointer pb, gpointer data)
{
  const SortBy *by = data;
  guint a = *(const guint *) pa, b = *(const guint *) pb;
  gint64 x = sort_key (&by->units[a], by->sorting), y = sort_key (&by->units[b], by->sorting);
  if (x != y)
    return x > y ? -1 : 1;
  return a < b ? -1 : a > b;
}

/* No plan costs less: the pieces' area from the size that gives most of it for its cost. */
static gint64
least_by_area (const SwSheetProblem *p)
{
  __int128 area = 0;
  gint64 least = G_MAXINT64;
  for (guint i = 0; i < p->n_items; i++)
    area += (__int128) p->items[i].width * p->items[i].height * p->items[i].copies;
  for (guint s = 0; s < p->n_stock; s++)
    {
      __int128 sheet = (__int128) p->stock[s].width * p->stock[s].height;
      __int128 cost = (area * sw_sheet_stock_cost (&p->stock[s]) + sheet - 1) / sheet;
      least = cost < least ? (gint64) cost : least;
    }
  return least;
}

typedef struct
{
  const SwSheetProblem *problem;
  SwSheetFill fill;
  SwSheetPlan *best;
  gint64 least;
  guint fillings, most;
} First;

/* All manners of filling in one order; FALSE when there is nothing more to gain, or the work is spent. */
static gboolean
fill_in_order (First *first, const guint *order)
{
  const SwSheetProblem *p = first->problem;
  SwSheetFill *fill = &first->fill;
  for (int manner = 0; manner < SW_N_FITS * SW_N_SPLITS; manner++)
    {
      if ((first->best || p->options.most > 0) && first->fillings++ >= first->most)
        return FALSE;
      SwSheetManner m = { manner % SW_N_FITS, manner / SW_N_FITS };
      sw_sheet_fill_reset (fill);
      fill->limit = first->best && p->n_stock == 1 ? first->best->sheets->len - 1 : 0;
      fill->most = first->best && p->n_stock > 1 ? first->best->cost : 0;
      if (first->best == NULL && p->options.most > 0)
        fill->most = p->options.most + 1;
      if (first->best && (first->best->cost <= first->least || (p->n_stock == 1 && fill->limit == 0)))
        return FALSE;
      if (sw_sheet_fill_all (fill, (const SwSheetUnit *) p->units->data, order, p->units->len, m, NULL)
          && (fill->most == 0 || fill->least < fill->most))
        sw_sheet_plan_keep (&first->best, sw_sheet_plan_from (p, fill));
    }
  return TRUE;
}

/* The pieces sorted in each way, one order after the other; returns how many differ. */
static guint
sort_orders (const SwSheetProblem *p, guint *orders)
{
  guint n = p->units->len, kept = 0;
  for (int sorting = 0; sorting < N_SORTINGS; sorting++)
    {
      SortBy by = { (const SwSheetUnit *) p->units->data, sorting };
      guint *order = orders + (gsize) kept * n, before = 0;
      for (guint i = 0; i < n; i++)
        order[i] = i;
      g_qsort_with_data (order, n, sizeof *order, compare_units, &by);
      while (before < kept && memcmp (orders + (gsize) before * n, order, n * sizeof *order) != 0)
        before++;
      kept += before == kept;
    }
  return kept;
}

/* All sortings and manners with each size preferred; NULL when the stock at hand never did. */
static SwSheetPlan *
first_answers (const SwSheetProblem *p)
{
  guint n = p->units->len;
  First first = { .problem = p, .least = least_by_area (p) };
  first.most = (guint) MAX (FIRST_WORK / ((guint64) n * n + 1), FIRST_LEAST);
  g_autofree guint *orders = g_new (guint, (gsize) n * N_SORTINGS + 1);
  guint n_orders = sort_orders (p, orders);
  gboolean more = p->options.most == 0 || first.least <= p->options.most;
  sw_sheet_fill_init (&first.fill, p->stock, p->n_stock, &p->options);
  for (first.fill.prefer = 0; more && first.fill.prefer < p->n_stock; first.fill.prefer++)
    for (guint i = 0; more && i < n_orders; i++)
      more = fill_in_order (&first, orders + (gsize) i * n);
  sw_sheet_fill_clear (&first.fill);
  return first.best;
}

static guint
bound_over_stock (const SwSheetProblem *p)
{
  int width = 0, height = 0;
  for (guint i = 0; i < p->n_stock; i++)
    {
      width = MAX (width, p->stock[i].width - p->options.left - p->options.right);
      height = MAX (height, p->stock[i].height - p->options.bottom - p->options.top);
    }
  return sw_sheet_bound (p->items, p->n_items, width, height, p->options.kerf);
}

SwSheetPlan *
sw_sheet_cut (const SwSheetItem *items, guint n_items, const SwSheetStock *stock, guint n_stock,
              const SwSheetOptions *options, GCancellable *cancellable, GError **error)
{
  SwSheetProblem p = { .items = items, .n_items = n_items, .stock = stock, .n_stock = n_stock };
  if (options)
    p.options = *options;
  if (!check_problem (&p, error))
    return NULL;
  gboolean searches = p.options.effort > 0 && n_stock == 1;
  gint64 most = p.options.most;
  if (searches) /* which may bring a dearer plan below it */
    p.options.most = 0;
  expand (&p);
  SwSheetPlan *plan = first_answers (&p);
  if (plan != NULL)
    {
      plan->bound = bound_over_stock (&p);
      if (searches && plan->sheets->len > MAX (plan->bound, 1))
        sw_sheet_search (&p, &plan, cancellable);
      plan->proven = n_stock == 1 && plan->sheets->len <= plan->bound;
    }
  if (plan != NULL && most > 0 && plan->cost > most)
    g_clear_pointer (&plan, sw_sheet_plan_free);
  if (plan == NULL)
    g_set_error_literal (error, SW_ERROR, SW_ERROR_LIMIT, "the sheets at hand, or what may be spent on them, do not do for all pieces: add sheets");
  g_array_unref (p.units);
  return plan;
}
