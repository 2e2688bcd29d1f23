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

/* "12.345 m²", "9.6 m": an amount of stock. */
static char *
amount_text (const SwCutTask *task, gint64 size, SwLengths lengths)
{
  char digits[SW_MONEY_BUF], text[SW_LENGTH_BUF];
  if (lengths == SW_LENGTHS_MM)
    return g_strdup_printf ("%s %s", sw_cut_plan_metres (task, size, digits), task->flat ? "m²" : "m");
  double mm = (double) size / (double) task->per_mm;
  return g_strdup (task->flat ? sw_area_write (mm / (double) task->per_mm, lengths, 1, text) : sw_length_write_sum (mm, lengths, 1, text));
}

static char *
amount_sentence (const SwCutPlan *plan, SwLengths lengths)
{
  char percent[SW_NUMBER_BUF];
  const SwCutTask *task = plan->task;
  g_autofree char *bought = amount_text (task, plan->bought, lengths), *used = amount_text (task, plan->used, lengths);
  g_autofree char *waste = amount_text (task, sw_cut_plan_waste (plan), lengths);
  sw_number_write_fixed (sw_cut_plan_waste_percent (plan), 1, percent);
  return g_strdup_printf (task->flat ? _("%u pieces from %u sheets: %s bought, %s used, %s (%s %%) "
                                          "waste, saw cuts and trims in it.")
                                     : _("%u pieces from %u stock lengths: %s bought, %s used, %s (%s "
                                          "%%) waste, saw cuts and trims in it."),
                          count_pieces (plan), plan->n, bought, used, waste, percent);
}

static char *
keep_text (const SwCutTask *task, SwLengths lengths)
{
  char digits[SW_LENGTH_BUF];
  return g_strdup (sw_length_write ((double) task->keep / (double) task->per_mm, lengths, SW_LENGTH_UNIT, 0, digits));
}

static char *
offcut_sentence (const SwCutPlan *plan, SwLengths lengths)
{
  const SwCutTask *task = plan->task;
  g_autofree char *size = keep_text (task, lengths), *kept = amount_text (task, plan->kept, lengths);
  return g_strdup_printf (task->flat ? _("Kept for later: %u offcuts of at least %s both ways, %s in all; they do not count as waste.")
                                     : _("Kept for later: %u offcuts of at least %s, %s in all; they do not count as waste."),
                          plan->n_kept, size, kept);
}

/* A cost in words: money, or metres of stock. */
static char *
cost_text (const SwCutPlan *plan, gint64 cost, SwLengths lengths)
{
  char digits[SW_MONEY_BUF];
  if (plan->task->priced)
    return g_strdup (sw_money_write (cost, digits));
  return amount_text (plan->task, cost, lengths);
}

static char *
bound_sentence (const SwCutPlan *plan, SwLengths lengths)
{
  if (plan->task->flat)
    return plan->proven ? g_strdup_printf (_("It is proven that %u sheets are the fewest."), plan->n)
                        : g_strdup_printf (_("It is not proven to be the least: no plan takes fewer than %u "
                                              "sheets of the largest size."),
                                           plan->n_bound);
  g_autofree char *cost = cost_text (plan, plan->cost, lengths), *bound = cost_text (plan, plan->cost_bound, lengths);
  return plan->proven ? g_strdup_printf (_("It is proven that no plan takes less than %s."), cost)
                      : g_strdup_printf (
                          _("It takes %s and is not proven to be the least: no plan takes less than %s."),
                          cost, bound);
}

GStrv
sw_cut_sentences (const SwCutPlan *plan, SwLengths lengths)
{
  GPtrArray *lines = g_ptr_array_new ();
  g_ptr_array_add (lines, amount_sentence (plan, lengths));
  if (plan->n_kept > 0)
    g_ptr_array_add (lines, offcut_sentence (plan, lengths));
  if (plan->task->priced)
    {
      char digits[SW_MONEY_BUF];
      g_ptr_array_add (lines,
                       g_strdup_printf (_("The stock costs %s."), sw_money_write (plan->cost, digits)));
    }
  g_ptr_array_add (lines, bound_sentence (plan, lengths));
  g_ptr_array_add (lines, NULL);
  return (GStrv) g_ptr_array_free (lines, FALSE);
}

char *
sw_cut_size_text (const SwCutTask *task, gint64 length, gint64 width, SwLengths lengths)
{
  char first[SW_LENGTH_BUF], second[SW_LENGTH_BUF];
  double long_mm = (double) length / (double) task->per_mm, wide_mm = (double) width / (double) task->per_mm;
  if (lengths == SW_LENGTHS_MM && !task->on_site)
    return sw_cut_task_size (task, length, width);
  if (task->on_site)
    {
      long_mm = sw_length_down (long_mm, lengths);
      wide_mm = sw_length_down (wide_mm, lengths);
    }
  sw_length_write (long_mm, lengths, SW_LENGTH_BARE, 0, first);
  if (!task->flat)
    return g_strdup (first);
  return g_strdup_printf ("%s × %s", first, sw_length_write (wide_mm, lengths, SW_LENGTH_BARE, 0, second));
}

char *
sw_cut_bought_text (const SwCutPlan *plan, guint stock, guint n, SwLengths lengths)
{
  const SwCutStock *row = &g_array_index (plan->task->stock, SwCutStock, stock);
  g_autofree char *size = sw_cut_size_text (plan->task, row->length, row->width, lengths);
  if (*row->mark != '\0')
    return g_strdup_printf ("%u × %s (%s)", n, size, row->mark);
  return g_strdup_printf ("%u × %s", n, size);
}
