/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Trims are taken off the stock before it goes to the engines of linear and of sheet cutting, so that each
 * row has its own; costs are divided by what is common to them, so that the bound is rounded up to a cost
 * that there can be. Equal lengths go to the engine as one and are handed back in the order of the list.
 * Sheets that are cut alike are put together. */
#include "estimate/cut_plan.h"
#include "base/error.h"
#include "estimate/cut_edges.h"
#include "ceiling/linear_cut.h"
#include "ceiling/sheet_cut.h"
#include <string.h>

/* For a unit of effort: seconds for a hundred different lengths, nothing for what is proven at once. */
#define LENGTH_NODES 100
#define SHEET_ROUNDS 500

static gint64
usable_length (const SwCutStock *stock)
{
  return stock->length - stock->start - stock->end;
}

static gint64
usable_width (const SwCutStock *stock)
{
  return stock->width - stock->low - stock->high;
}

static gint64
size_of (const SwCutTask *task, gint64 length, gint64 width)
{
  return task->flat ? length * width : length;
}

static const SwCutItem *
item_at (const SwCutTask *task, guint i)
{
  return &g_array_index (task->items, SwCutItem, i);
}

static const SwCutStock *
stock_at (const SwCutTask *task, guint i)
{
  return &g_array_index (task->stock, SwCutStock, i);
}

static gint64
cost_of (const SwCutTask *task, const SwCutStock *stock)
{
  return task->priced ? stock->cost : size_of (task, stock->length, stock->width);
}

static gint64
common_cost (const SwCutTask *task)
{
  gint64 common = 0;
  for (guint i = 0; i < task->stock->len; i++)
    for (gint64 a = cost_of (task, stock_at (task, i)), rest; a != 0; a = rest)
      {
        rest = common % a;
        common = a;
      }
  return MAX (common, 1);
}

static gboolean
all_may_turn (const SwCutTask *task)
{
  for (guint i = 0; i < task->stock->len; i++)
    if (!stock_at (task, i)->may_turn)
      return FALSE;
  return TRUE;
}

static gboolean
fits (const SwCutTask *task, const SwCutItem *item, gboolean may_turn)
{
  for (guint i = 0; i < task->stock->len; i++)
    {
      gint64 length = usable_length (stock_at (task, i)),
             width = task->flat ? usable_width (stock_at (task, i)) : 0;
      if ((item->length <= length && item->width <= width)
          || (may_turn && item->width <= length && item->length <= width))
        return TRUE;
    }
  return FALSE;
}

static gboolean
check_fits (const SwCutTask *task, GError **error)
{
  gboolean turn = task->flat && all_may_turn (task);
  for (guint i = 0; i < task->items->len; i++)
    {
      const SwCutItem *item = item_at (task, i);
      if (fits (task, item, turn && item->may_turn))
        continue;
      g_autofree char *size = sw_cut_task_size (task, item->length, item->width);
      g_autofree char *place = item->line > 0 && task->items_name != NULL ? g_strdup_printf ("%s: line %u: ", task->items_name, item->line) : g_strdup ("");
      g_autofree char *mark = *item->mark != '\0' ? g_strdup_printf (" \"%s\"", item->mark) : g_strdup ("");
      g_set_error (error, SW_ERROR, SW_ERROR_INVALID,
                   "%spiece%s of %s mm fits no stock less its trims%s: add a larger one, or joint it",
                   place, mark, size, turn && !item->may_turn ? " unless it is turned" : "");
      return FALSE;
    }
  return TRUE;
}

static void
add_piece (SwCutPlan *plan, SwCutPiece piece)
{
  g_array_append_val (plan->pieces, piece);
}

/* ---- lengths ---- */

/* Items longest first, equal ones in the order of the list: `order` holds their indexes. */
static int
compare_items (gconstpointer a, gconstpointer b, gpointer data)
{
  const SwCutItem *first = item_at (data, *(const guint *) a), *second = item_at (data, *(const guint *) b);
  if (first->length != second->length)
    return first->length > second->length ? -1 : 1;
  return *(const guint *) a < *(const guint *) b ? -1 : *(const guint *) a > *(const guint *) b;
}

static guint *
items_by_length (const SwCutTask *task)
{
  guint *order = g_new (guint, task->items->len);
  for (guint i = 0; i < task->items->len; i++)
    order[i] = i;
  g_qsort_with_data (order, (int) task->items->len, sizeof *order, compare_items, (gpointer) task);
  return order;
}

/* Equal lengths together; *starts says where each begins in the order. */
static GArray *
linear_items (const SwCutTask *task, const guint *order, GArray *starts)
{
  GArray *items = g_array_new (FALSE, FALSE, sizeof (SwLinearItem));
  for (guint i = 0; i < task->items->len; i++)
    {
      const SwCutItem *item = item_at (task, order[i]);
      SwLinearItem *last = items->len > 0 ? &g_array_index (items, SwLinearItem, items->len - 1) : NULL;
      if (last != NULL && last->length == item->length)
        {
          last->copies += item->copies;
          continue;
        }
      SwLinearItem next = { item->length, item->copies };
      g_array_append_val (items, next);
      g_array_append_val (starts, i);
    }
  return items;
}

static GArray *
linear_stock (const SwCutTask *task, gint64 common)
{
  GArray *stock = g_array_new (FALSE, FALSE, sizeof (SwLinearStock));
  for (guint i = 0; i < task->stock->len; i++)
    {
      const SwCutStock *row = stock_at (task, i);
      SwLinearStock next = { usable_length (row), cost_of (task, row) / common, row->copies };
      g_array_append_val (stock, next);
    }
  return stock;
}

typedef struct
{
  SwCutPlan *plan;
  const guint *order;
  guint *next; /* for each engine's item: where in the order it hands out */
  int *taken;  /* of that one */
} Handing;

/* The task's item that the next piece of an engine's item is. */
static guint
hand_out (Handing *handing, guint item)
{
  guint at = handing->order[handing->next[item]];
  if (++handing->taken[item] >= item_at (handing->plan->task, at)->copies)
    {
      handing->next[item]++;
      handing->taken[item] = 0;
    }
  return at;
}

static void
add_bar (Handing *handing, const SwLinearPlan *linear, const SwLinearBar *bar)
{
  SwCutPlan *plan = handing->plan;
  const SwCutStock *stock = stock_at (plan->task, bar->stock);
  gint64 x = stock->start;
  SwCutWay way = { bar->stock, 1, plan->pieces->len, 0, 0, 0 };
  for (guint k = bar->first; k < bar->first + bar->n; k++)
    {
      const SwLinearPart *part = &g_array_index (linear->parts, SwLinearPart, k);
      for (int c = 0; c < part->count; c++)
        {
          guint item = hand_out (handing, part->item);
          gint64 length = item_at (plan->task, item)->length;
          add_piece (plan, (SwCutPiece){ item, x, 0, length, 0, FALSE });
          x += length + plan->task->kerf;
        }
    }
  way.n = plan->pieces->len - way.first;
  g_array_append_val (plan->ways, way);
}

static gboolean
cut_lengths (SwCutPlan *plan, GCancellable *cancellable, GError **error)
{
  const SwCutTask *task = plan->task;
  gint64 common = common_cost (task);
  g_autofree guint *order = items_by_length (task);
  g_autoptr (GArray) starts = g_array_new (FALSE, FALSE, sizeof (guint)),
                     items = linear_items (task, order, starts), stock = linear_stock (task, common);
  const SwLinearItem *wanted = (const SwLinearItem *) (gpointer) items->data;
  const SwLinearStock *have = (const SwLinearStock *) (gpointer) stock->data;
  SwLinearOptions options = { task->kerf, 0, LENGTH_NODES * task->effort };
  g_autoptr (SwLinearPlan) linear
      = sw_linear_cut (wanted, items->len, have, stock->len, &options, cancellable, error);
  if (linear == NULL || !sw_linear_plan_check (linear, wanted, items->len, have, stock->len, &options, error))
    return FALSE;
  g_autofree int *taken = g_new0 (int, items->len);
  Handing handing = { plan, order, (guint *) (gpointer) starts->data, taken };
  for (guint i = 0; i < linear->bars->len; i++)
    for (int k = 0; k < g_array_index (linear->bars, SwLinearBar, i).times; k++)
      add_bar (&handing, linear, &g_array_index (linear->bars, SwLinearBar, i));
  plan->cost_bound = linear->bound * common;
  plan->proven = linear->proven;
  return TRUE;
}

/* No plan has fewer than the whole length wanted, with the cut behind each, over the longest stock with a cut
 * more. */
static guint
fewest_lengths (const SwCutTask *task)
{
  gint64 sum = 0, longest = 1;
  for (guint i = 0; i < task->items->len; i++)
    sum += (item_at (task, i)->length + task->kerf) * item_at (task, i)->copies;
  for (guint i = 0; i < task->stock->len; i++)
    longest = MAX (longest, usable_length (stock_at (task, i)) + task->kerf);
  return (guint) ((sum + longest - 1) / longest);
}

/* With one length of stock the bound in cost is one in number too. */
static void
bound_lengths (SwCutPlan *plan)
{
  plan->n_bound = fewest_lengths (plan->task);
  if (plan->task->stock->len == 1)
    {
      gint64 each = cost_of (plan->task, stock_at (plan->task, 0));
      plan->n_bound = MAX (plan->n_bound, (guint) ((plan->cost_bound + each - 1) / each));
    }
}

/* ---- sheets ---- */

static GArray *
sheet_items (const SwCutTask *task)
{
  GArray *items = g_array_new (FALSE, FALSE, sizeof (SwSheetItem));
  gboolean turn = all_may_turn (task);
  for (guint i = 0; i < task->items->len; i++)
    {
      const SwCutItem *item = item_at (task, i);
      SwSheetItem next = { (int) item->length, (int) item->width, item->copies, turn && item->may_turn };
      g_array_append_val (items, next);
    }
  return items;
}

static GArray *
sheet_stock (const SwCutTask *task, gint64 common)
{
  GArray *stock = g_array_new (FALSE, FALSE, sizeof (SwSheetStock));
  for (guint i = 0; i < task->stock->len; i++)
    {
      const SwCutStock *row = stock_at (task, i);
      SwSheetStock next = { (int) usable_length (row), (int) usable_width (row), cost_of (task, row) / common,
                            row->copies };
      g_array_append_val (stock, next);
    }
  return stock;
}

static void
add_lines (SwCutPlan *plan, const SwSheetPlan *sheets, guint sheet, guint *at, const SwCutStock *stock)
{
  for (; *at < sheets->cuts->len && g_array_index (sheets->cuts, SwSheetCut, *at).sheet == sheet; ++*at)
    {
      const SwSheetCut *cut = &g_array_index (sheets->cuts, SwSheetCut, *at);
      SwCutLine line = { cut->upright, cut->at + (cut->upright ? stock->start : stock->low), 0, 0 };
      line.from = cut->upright ? cut->y + stock->low : cut->x + stock->start;
      line.to = line.from + (cut->upright ? cut->height : cut->width);
      g_array_append_val (plan->lines, line);
    }
}

static void
add_sheets (SwCutPlan *plan, const SwSheetPlan *sheets)
{
  guint place = 0, cut = 0;
  for (guint sheet = 0; sheet < sheets->sheets->len; sheet++)
    {
      SwCutWay way
          = { g_array_index (sheets->sheets, guint, sheet), 1, plan->pieces->len, 0, plan->lines->len, 0 };
      const SwCutStock *stock = stock_at (plan->task, way.stock);
      for (;
           place < sheets->places->len && g_array_index (sheets->places, SwSheetPlace, place).sheet == sheet;
           place++)
        {
          const SwSheetPlace *found = &g_array_index (sheets->places, SwSheetPlace, place);
          add_piece (plan, (SwCutPiece){ found->item, found->x + stock->start, found->y + stock->low,
                                         found->width, found->height, found->turned });
        }
      add_lines (plan, sheets, sheet, &cut, stock);
      way.n = plan->pieces->len - way.first;
      way.n_lines = plan->lines->len - way.first_line;
      g_array_append_val (plan->ways, way);
    }
}

static gboolean
cut_sheets (SwCutPlan *plan, GCancellable *cancellable, GError **error)
{
  const SwCutTask *task = plan->task;
  g_autoptr (GArray) items = sheet_items (task), stock = sheet_stock (task, common_cost (task));
  const SwSheetItem *wanted = (const SwSheetItem *) (gpointer) items->data;
  const SwSheetStock *have = (const SwSheetStock *) (gpointer) stock->data;
  SwSheetOptions options = { .kerf = (int) task->kerf, .effort = SHEET_ROUNDS * task->effort };
  g_autoptr (SwSheetPlan) sheets
      = sw_sheet_cut (wanted, items->len, have, stock->len, &options, cancellable, error);
  if (sheets == NULL || !sw_sheet_plan_check (sheets, wanted, items->len, have, stock->len, &options, error))
    return FALSE;
  add_sheets (plan, sheets);
  plan->n_bound = sheets->bound;
  plan->proven = sheets->proven;
  plan->cost_bound = -1;
  return TRUE;
}

/* ---- both ---- */

/* All of a way that tells it from others. */
static char *
way_key (const SwCutPlan *plan, const SwCutWay *way)
{
  GString *key = g_string_new (NULL);
  g_string_append_printf (key, "%u", way->stock);
  for (guint k = way->first; k < way->first + way->n; k++)
    {
      const SwCutPiece *piece = &g_array_index (plan->pieces, SwCutPiece, k);
      g_string_append_printf (key, ";%u,%" G_GINT64_FORMAT ",%" G_GINT64_FORMAT ",%d", piece->item, piece->x,
                              piece->y, piece->turned);
    }
  return g_string_free (key, FALSE);
}

/* The first of ways that are alike counts for all. */
static void
put_together (SwCutPlan *plan)
{
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  guint kept = 0;
  for (guint i = 0; i < plan->ways->len; i++)
    {
      SwCutWay *way = &g_array_index (plan->ways, SwCutWay, i);
      char *key = way_key (plan, way);
      guint before = GPOINTER_TO_UINT (g_hash_table_lookup (seen, key));
      if (before > 0)
        {
          g_array_index (plan->ways, SwCutWay, before - 1).times += way->times;
          g_free (key);
          continue;
        }
      g_array_index (plan->ways, SwCutWay, kept) = *way;
      g_hash_table_insert (seen, key, GUINT_TO_POINTER (++kept));
    }
  g_array_set_size (plan->ways, kept);
}

static void
add_up (SwCutPlan *plan)
{
  const SwCutTask *task = plan->task;
  for (guint i = 0; i < plan->ways->len; i++)
    {
      const SwCutWay *way = &g_array_index (plan->ways, SwCutWay, i);
      const SwCutStock *stock = stock_at (task, way->stock);
      plan->n += way->times;
      plan->bought += way->times * size_of (task, stock->length, stock->width);
      plan->cost += way->times * cost_of (task, stock);
    }
  for (guint i = 0; i < task->items->len; i++)
    plan->used
        += item_at (task, i)->copies * size_of (task, item_at (task, i)->length, item_at (task, i)->width);
}

SwCutPlan *
sw_cut_plan_new (const SwCutTask *task, GCancellable *cancellable, GError **error)
{
  if (!check_fits (task, error))
    return NULL;
  SwCutPlan *plan = g_new0 (SwCutPlan, 1);
  plan->task = task;
  plan->ways = g_array_new (FALSE, FALSE, sizeof (SwCutWay));
  plan->pieces = g_array_new (FALSE, FALSE, sizeof (SwCutPiece));
  plan->lines = g_array_new (FALSE, FALSE, sizeof (SwCutLine));
  plan->offcuts = g_array_new (FALSE, FALSE, sizeof (SwCutOffcut));
  if (!(task->flat ? cut_sheets (plan, cancellable, error) : cut_lengths (plan, cancellable, error)))
    {
      sw_cut_plan_free (plan);
      return NULL;
    }
  sw_cut_edges_arrange (plan);
  put_together (plan);
  add_up (plan);
  sw_cut_plan_keep_offcuts (plan);
  if (!task->flat)
    bound_lengths (plan);
  return plan;
}

void
sw_cut_plan_free (SwCutPlan *plan)
{
  g_array_unref (plan->ways);
  g_array_unref (plan->pieces);
  g_array_unref (plan->lines);
  g_array_unref (plan->offcuts);
  g_free (plan);
}

GArray *
sw_cut_plan_bought (const SwCutPlan *plan)
{
  GArray *bought = g_array_new (FALSE, TRUE, sizeof (guint));
  g_array_set_size (bought, plan->task->stock->len);
  for (guint i = 0; i < plan->ways->len; i++)
    {
      const SwCutWay *way = &g_array_index (plan->ways, SwCutWay, i);
      g_array_index (bought, guint, way->stock) += way->times;
    }
  return bought;
}

gint64
sw_cut_plan_rest (const SwCutPlan *plan, const SwCutWay *way)
{
  const SwCutStock *stock = stock_at (plan->task, way->stock);
  gint64 rest = plan->task->flat ? stock->length * stock->width : usable_length (stock);
  for (guint k = way->first; k < way->first + way->n; k++)
    {
      const SwCutPiece *piece = &g_array_index (plan->pieces, SwCutPiece, k);
      rest -= plan->task->flat ? piece->length * piece->width : piece->length + plan->task->kerf;
    }
  return MAX (rest, 0);
}

gint64
sw_cut_plan_waste (const SwCutPlan *plan)
{
  return plan->bought - plan->used - plan->kept;
}

gint64
sw_cut_plan_way_waste (const SwCutPlan *plan, guint way)
{
  gint64 rest = sw_cut_plan_rest (plan, &g_array_index (plan->ways, SwCutWay, way));
  for (guint i = 0; i < plan->offcuts->len; i++)
    {
      const SwCutOffcut *offcut = &g_array_index (plan->offcuts, SwCutOffcut, i);
      if (offcut->way == way)
        rest -= size_of (plan->task, offcut->length, offcut->width);
    }
  return rest;
}

double
sw_cut_plan_waste_percent (const SwCutPlan *plan)
{
  return plan->bought > 0 ? 100.0 * (double) sw_cut_plan_waste (plan) / (double) plan->bought : 0;
}

const char *
sw_cut_plan_metres (const SwCutTask *task, gint64 size, char buf[SW_MONEY_BUF])
{
  gint64 divisor = task->flat ? (gint64) task->per_mm * task->per_mm * 1000 : task->per_mm;
  return sw_quantity_write (sw_divide_round (size, divisor), buf);
}
