/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/sheet_parts.h"
#include "base/error.h"
#include <stdlib.h>

/* Plans of sheets: made from a filling, compared, and gone through by themselves. */

void
sw_sheet_plan_free (SwSheetPlan *plan)
{
  if (plan == NULL)
    return;
  g_array_unref (plan->sheets);
  g_array_unref (plan->places);
  g_array_unref (plan->cuts);
  g_free (plan);
}

static int
compare_places (gconstpointer pa, gconstpointer pb)
{
  const SwSheetPlace *a = pa, *b = pb;
  if (a->sheet != b->sheet)
    return a->sheet < b->sheet ? -1 : 1;
  if (a->y != b->y)
    return a->y - b->y;
  return a->x - b->x;
}

/* Moves a sheet's layout to the cheapest size that still holds it. */
static void
shrink (const SwSheetProblem *p, SwSheetPlan *plan)
{
  if (p->n_stock < 2)
    return;
  g_autofree int *used = g_new0 (int, p->n_stock);
  for (guint i = 0; i < plan->sheets->len; i++)
    used[g_array_index (plan->sheets, guint, i)]++;
  for (guint i = 0; i < plan->sheets->len; i++)
    {
      guint *now = &g_array_index (plan->sheets, guint, i);
      int right = 0, top = 0;
      for (guint k = 0; k < plan->places->len; k++)
        {
          const SwSheetPlace *place = &g_array_index (plan->places, SwSheetPlace, k);
          right = place->sheet == i ? MAX (right, place->x + place->width) : right;
          top = place->sheet == i ? MAX (top, place->y + place->height) : top;
        }
      for (guint s = 0; s < p->n_stock; s++)
        if (right + p->options.right <= p->stock[s].width && top + p->options.top <= p->stock[s].height
            && sw_sheet_stock_cost (&p->stock[s]) < sw_sheet_stock_cost (&p->stock[*now])
            && (p->stock[s].copies == 0 || used[s] < p->stock[s].copies))
          {
            used[*now]--;
            used[s]++;
            *now = s;
          }
    }
}

/* The parts that are cut are as wide as the sheet that was taken in the end. */
static void
fit_cuts (const SwSheetProblem *p, SwSheetPlan *plan)
{
  GArray *cuts = plan->cuts;
  guint kept = 0;
  for (guint i = 0; i < cuts->len; i++)
    {
      SwSheetCut cut = g_array_index (cuts, SwSheetCut, i);
      const SwSheetStock *stock = &p->stock[g_array_index (plan->sheets, guint, cut.sheet)];
      cut.width = MIN (cut.width, stock->width - p->options.right - cut.x);
      cut.height = MIN (cut.height, stock->height - p->options.top - cut.y);
      if (cut.width > 0 && cut.height > 0 && cut.at < (cut.upright ? cut.x + cut.width : cut.y + cut.height))
        g_array_index (cuts, SwSheetCut, kept++) = cut;
    }
  g_array_set_size (cuts, kept);
}

/* A stable sort by sheet: the order of the cuts in a sheet stays. */
static void
sort_cuts (GArray *cuts, guint n_sheets)
{
  g_autoptr (GArray) sorted = g_array_sized_new (FALSE, FALSE, sizeof (SwSheetCut), cuts->len);
  for (guint sheet = 0; sheet < n_sheets; sheet++)
    for (guint i = 0; i < cuts->len; i++)
      if (g_array_index (cuts, SwSheetCut, i).sheet == sheet)
        g_array_append_val (sorted, g_array_index (cuts, SwSheetCut, i));
  memcpy (cuts->data, sorted->data, sizeof (SwSheetCut) * cuts->len);
}

SwSheetPlan *
sw_sheet_plan_from (const SwSheetProblem *p, const SwSheetFill *fill)
{
  SwSheetPlan *plan = g_new0 (SwSheetPlan, 1);
  plan->sheets = g_array_copy (fill->sheets);
  plan->places = g_array_copy (fill->places);
  plan->cuts = g_array_copy (fill->cuts);
  shrink (p, plan);
  fit_cuts (p, plan);
  if (plan->places->len > 0)
    qsort (plan->places->data, plan->places->len, sizeof (SwSheetPlace), compare_places);
  if (plan->cuts->len > 0)
    sort_cuts (plan->cuts, plan->sheets->len);
  for (guint i = 0; i < plan->sheets->len; i++)
    plan->cost += sw_sheet_stock_cost (&p->stock[g_array_index (plan->sheets, guint, i)]);
  for (guint i = 0; i < plan->places->len; i++)
    {
      const SwSheetPlace *place = &g_array_index (plan->places, SwSheetPlace, i);
      plan->used += (gint64) place->width * place->height;
    }
  return plan;
}

void
sw_sheet_plan_keep (SwSheetPlan **best, SwSheetPlan *plan)
{
  if (*best != NULL && (*best)->cost <= plan->cost)
    {
      sw_sheet_plan_free (plan);
      return;
    }
  sw_sheet_plan_free (*best);
  *best = plan;
}


/* ---- the check ---- */

static gboolean
wrong (GError **error, const char *what, guint index)
{
  g_set_error (error, SW_ERROR, SW_ERROR_INTERNAL, "cutting plan: %s (%u)", what, index);
  return FALSE;
}

typedef struct
{
  int x, y, width, height;
} Part;

/* Follows the sheet's cuts: each must go through a part that is there and splits it in two. */
static gboolean
follow_cuts (const SwSheetPlan *plan, guint sheet, const SwSheetOptions *o, GArray *parts, GError **error)
{
  for (guint i = 0; i < plan->cuts->len; i++)
    {
      const SwSheetCut *cut = &g_array_index (plan->cuts, SwSheetCut, i);
      guint found = 0;
      if (cut->sheet != sheet)
        continue;
      for (; found < parts->len; found++)
        if (memcmp (&g_array_index (parts, Part, found), &cut->x, sizeof (Part)) == 0)
          break;
      if (found == parts->len)
        return wrong (error, "a cut goes through a part that is not there", i);
      Part low = g_array_index (parts, Part, found), high = low;
      int *start = cut->upright ? &high.x : &high.y, *size = cut->upright ? &high.width : &high.height;
      if (cut->at <= *start || cut->at >= *start + *size)
        return wrong (error, "a cut lies beside its part", i);
      *(cut->upright ? &low.width : &low.height) = cut->at - *start;
      *size -= cut->at + o->kerf - *start;
      *start = cut->at + o->kerf;
      g_array_index (parts, Part, found) = low;
      if (*size > 0)
        g_array_append_val (parts, high);
    }
  return TRUE;
}

static gboolean
check_sheet (const SwSheetPlan *plan, guint sheet, const SwSheetStock *stock, const SwSheetOptions *o, GError **error)
{
  g_autoptr (GArray) parts = g_array_new (FALSE, FALSE, sizeof (Part));
  Part whole = { o->left, o->bottom, stock->width - o->left - o->right, stock->height - o->bottom - o->top };
  g_array_append_val (parts, whole);
  if (!follow_cuts (plan, sheet, o, parts, error))
    return FALSE;
  for (guint i = 0; i < plan->places->len; i++)
    {
      const SwSheetPlace *place = &g_array_index (plan->places, SwSheetPlace, i);
      Part wanted = { place->x, place->y, place->width, place->height };
      guint found = 0;
      if (place->sheet != sheet)
        continue;
      for (; found < parts->len; found++)
        if (memcmp (&g_array_index (parts, Part, found), &wanted, sizeof (Part)) == 0)
          break;
      if (found == parts->len)
        return wrong (error, "a piece is not freed by the cuts", i);
      g_array_remove_index_fast (parts, found);
    }
  return TRUE;
}

static gboolean
check_counts (const SwSheetPlan *plan, const SwSheetItem *items, guint n_items, GError **error)
{
  g_autofree int *made = g_new0 (int, n_items + 1);
  for (guint i = 0; i < plan->places->len; i++)
    {
      const SwSheetPlace *place = &g_array_index (plan->places, SwSheetPlace, i);
      if (place->item >= n_items || place->sheet >= plan->sheets->len)
        return wrong (error, "a place names what is not there", i);
      const SwSheetItem *item = &items[place->item];
      gboolean as_is = place->width == item->width && place->height == item->height && !place->turned;
      gboolean turned = place->width == item->height && place->height == item->width && place->turned && item->may_turn;
      if (!as_is && !turned)
        return wrong (error, "a piece has another size", i);
      made[place->item]++;
    }
  for (guint i = 0; i < n_items; i++)
    if (made[i] != items[i].copies)
      return wrong (error, "a piece is not cut as often as asked", i);
  return TRUE;
}

gboolean
sw_sheet_plan_check (const SwSheetPlan *plan, const SwSheetItem *items, guint n_items, const SwSheetStock *stock,
                     guint n_stock, const SwSheetOptions *options, GError **error)
{
  SwSheetOptions none = { 0 };
  gint64 cost = 0;
  g_autofree int *used = g_new0 (int, n_stock + 1);
  for (guint i = 0; i < plan->sheets->len; i++)
    {
      guint size = g_array_index (plan->sheets, guint, i);
      if (size >= n_stock || (++used[size] > stock[size].copies && stock[size].copies > 0))
        return wrong (error, "a sheet is not in stock", i);
      cost += sw_sheet_stock_cost (&stock[size]);
      if (!check_sheet (plan, i, &stock[size], options ? options : &none, error))
        return FALSE;
    }
  if (cost != plan->cost)
    return wrong (error, "the cost does not add up", 0);
  return check_counts (plan, items, n_items, error);
}
