/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/number.h"
#include "sheets/cut_draw.h"
#include "sheets/words.h"

static guint
count_pieces (const SwCutPlan *plan)
{
  guint n = 0;
  for (guint i = 0; i < plan->task->items->len; i++)
    n += (guint) g_array_index (plan->task->items, SwCutItem, i).copies;
  return n;
}

static char *
amount_sentence (const SwCutPlan *plan)
{
  char bought[SW_MONEY_BUF], used[SW_MONEY_BUF], waste[SW_MONEY_BUF], percent[SW_NUMBER_BUF];
  const SwCutTask *task = plan->task;
  sw_cut_plan_metres (task, plan->bought, bought);
  sw_cut_plan_metres (task, plan->used, used);
  sw_cut_plan_metres (task, sw_cut_plan_waste (plan), waste);
  sw_number_write_fixed (sw_cut_plan_waste_percent (plan), 1, percent);
  return g_strdup_printf (task->flat ? _("%u pieces from %u sheets: %s m² bought, %s m² used, %s m² (%s %%) "
                                          "waste, saw cuts and trims in it.")
                                     : _("%u pieces from %u stock lengths: %s m bought, %s m used, %s m (%s "
                                          "%%) waste, saw cuts and trims in it."),
                          count_pieces (plan), plan->n, bought, used, waste, percent);
}

static char *
offcut_sentence (const SwCutPlan *plan)
{
  char kept[SW_MONEY_BUF], least[SW_MONEY_BUF];
  const SwCutTask *task = plan->task;
  return g_strdup_printf (task->flat ? _("Kept for later: %u offcuts of at least %s mm both ways, %s m² in all; they do not count as waste.")
                                     : _("Kept for later: %u offcuts of at least %s mm, %s m in all; they do not count as waste."),
                          plan->n_kept, sw_cut_task_mm (task, task->keep, least), sw_cut_plan_metres (task, plan->kept, kept));
}

/* A cost in words: money, or metres of stock. */
static char *
cost_text (const SwCutPlan *plan, gint64 cost)
{
  char digits[SW_MONEY_BUF];
  if (plan->task->priced)
    return g_strdup (sw_money_write (cost, digits));
  sw_cut_plan_metres (plan->task, cost, digits);
  return g_strdup_printf ("%s m", digits);
}

static char *
bound_sentence (const SwCutPlan *plan)
{
  if (plan->task->flat)
    return plan->proven ? g_strdup_printf (_("It is proven that %u sheets are the fewest."), plan->n)
                        : g_strdup_printf (_("It is not proven to be the least: no plan takes fewer than %u "
                                              "sheets of the largest size."),
                                           plan->n_bound);
  g_autofree char *cost = cost_text (plan, plan->cost), *bound = cost_text (plan, plan->cost_bound);
  return plan->proven ? g_strdup_printf (_("It is proven that no plan takes less than %s."), cost)
                      : g_strdup_printf (
                          _("It takes %s and is not proven to be the least: no plan takes less than %s."),
                          cost, bound);
}

GStrv
sw_cut_sentences (const SwCutPlan *plan)
{
  GPtrArray *lines = g_ptr_array_new ();
  g_ptr_array_add (lines, amount_sentence (plan));
  if (plan->n_kept > 0)
    g_ptr_array_add (lines, offcut_sentence (plan));
  if (plan->task->priced)
    {
      char digits[SW_MONEY_BUF];
      g_ptr_array_add (lines,
                       g_strdup_printf (_("The stock costs %s."), sw_money_write (plan->cost, digits)));
    }
  g_ptr_array_add (lines, bound_sentence (plan));
  g_ptr_array_add (lines, NULL);
  return (GStrv) g_ptr_array_free (lines, FALSE);
}

char *
sw_cut_bought_text (const SwCutPlan *plan, guint stock, guint n)
{
  const SwCutStock *row = &g_array_index (plan->task->stock, SwCutStock, stock);
  g_autofree char *size = sw_cut_task_size (plan->task, row->length, row->width);
  if (*row->mark != '\0')
    return g_strdup_printf ("%u × %s (%s)", n, size, row->mark);
  return g_strdup_printf ("%u × %s", n, size);
}
