/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The command's `price` and `choice` by the same functions, cut into pieces that can be shown one after the other. A room costs
 * the layouts of its finishes, so what was found for it is kept as long as the job changes only where no price looks: a finish.
 * Any other change of a room or its layout drops that room, and any other change at all drops every room. */
#include "window/tools/pricing.h"
#include "job/edit.h"
#include "sheets/words.h"
#include "store/price_list.h"
#include <math.h>

static gboolean
same_rules (const SwJobInfo *a, const SwJobInfo *b)
{
  return g_str_equal (a->rule_set, b->rule_set) && g_str_equal (a->rule_overrides, b->rule_overrides);
}

SwPriceBase *
sw_price_base_new (SwJob *job, guint64 generation, const SwPriceBase *before, GError **error)
{
  const SwJobInfo *info = sw_job_info (job);
  g_autoptr (SwJob) priced = sw_price_list_or_default (job, error);
  g_autoptr (SwRules) rules = NULL;
  if (priced == NULL)
    return NULL;
  if (before != NULL && same_rules (info, sw_job_info (sw_deck_job (before->deck))))
    rules = sw_rules_ref (before->rules);
  else
    rules = sw_rules_load_text (info->rule_set, *info->rule_overrides ? info->rule_overrides : NULL, _("the job's own values"), error);
  if (rules == NULL)
    return NULL;
  SwPriceBase *base = g_new0 (SwPriceBase, 1);
  g_atomic_ref_count_init (&base->refs);
  base->generation = generation;
  base->deck = sw_deck_new (priced);
  base->rules = g_steal_pointer (&rules);
  base->invented = priced != job;
  return base;
}

SwPriceBase *
sw_price_base_ref (SwPriceBase *base)
{
  g_atomic_ref_count_inc (&base->refs);
  return base;
}

void
sw_price_base_unref (SwPriceBase *base)
{
  if (!g_atomic_ref_count_dec (&base->refs))
    return;
  sw_deck_unref (base->deck);
  sw_rules_unref (base->rules);
  g_free (base);
}

/* ---- One room ---- */

SwRoomPrice *
sw_room_price_new (SwPriceBase *base, SwId room, GCancellable *cancellable)
{
  const SwRecord *record = sw_job_get (sw_deck_job (base->deck), room);
  if (record == NULL || sw_record_table (record) != SW_TABLE_ROOM)
    return NULL;
  SwChoice *choice = sw_choice_new (base->deck, base->rules, (const SwRoom *) record, TRUE, cancellable, NULL);
  if (choice == NULL)
    return NULL;
  SwRoomPrice *price = g_new0 (SwRoomPrice, 1);
  g_atomic_ref_count_init (&price->refs);
  price->base = sw_price_base_ref (base);
  price->room = room;
  price->choice = choice;
  return price;
}

SwRoomPrice *
sw_room_price_ref (SwRoomPrice *price)
{
  g_atomic_ref_count_inc (&price->refs);
  return price;
}

void
sw_room_price_unref (SwRoomPrice *price)
{
  if (!g_atomic_ref_count_dec (&price->refs))
    return;
  sw_choice_free (price->choice);
  sw_price_base_unref (price->base);
  g_free (price);
}

int
sw_room_price_side (const SwRoomPrice *price, SwFinish finish)
{
  for (guint i = 0; i < price->choice->n; i++)
    if (price->choice->sides[i].finish == finish)
      return (int) i;
  return -1;
}

/* The room is the same but for its finish. */
static gboolean
only_finish (const SwChange *change)
{
  if (change->before == NULL || change->after == NULL)
    return FALSE;
  g_autoptr (SwRecord) copy = sw_record_copy (change->before);
  ((SwRoom *) copy)->finish = ((const SwRoom *) change->after)->finish;
  return sw_record_equal (copy, change->after);
}

void
sw_room_prices_drop (GHashTable *rooms, const SwJob *from, const SwJob *to)
{
  g_autoptr (SwEdit) edit = sw_edit_between ("", from, to);
  for (guint i = 0; i < edit->changes->len; i++)
    {
      const SwChange *change = &g_array_index (edit->changes, SwChange, i);
      SwTable table = SW_ID_TABLE (change->id);
      if (table == SW_TABLE_LAYOUT)
        {
          const SwRecord *layout = change->after != NULL ? change->after : change->before;
          g_hash_table_remove (rooms, &((const SwLayout *) layout)->room);
          continue;
        }
      if (table == SW_TABLE_ROOM && only_finish (change))
        continue;
      if (table != SW_TABLE_ROOM)
        {
          g_hash_table_remove_all (rooms);
          return;
        }
      g_hash_table_remove (rooms, &change->id);
    }
}

/* ---- The whole job ---- */

static SwPriceLines *
lines_new (const SwPriceBase *base, GPtrArray *needs)
{
  SwPriceLines *lines = g_new0 (SwPriceLines, 1);
  lines->needs = needs;
  lines->quote = sw_quote_new (sw_deck_job (base->deck), needs, sw_quote_terms (base->rules));
  return lines;
}

void
sw_price_lines_free (SwPriceLines *lines)
{
  sw_quote_free (lines->quote);
  g_ptr_array_unref (lines->needs);
  g_free (lines);
}

SwJobPrice *
sw_job_price_new (SwPriceBase *base, GCancellable *cancellable, GError **error)
{
  SwTakeoff *takeoff = sw_takeoff_new (base->deck, base->rules, cancellable, error);
  if (takeoff == NULL)
    return NULL;
  SwJobPrice *price = g_new0 (SwJobPrice, 1);
  g_atomic_ref_count_init (&price->refs);
  price->base = sw_price_base_ref (base);
  price->takeoff = takeoff;
  price->whole = lines_new (base, sw_needs_of (takeoff->needs, SW_NEEDS_ALL));
  return price;
}

SwJobPrice *
sw_job_price_ref (SwJobPrice *price)
{
  g_atomic_ref_count_inc (&price->refs);
  return price;
}

void
sw_job_price_unref (SwJobPrice *price)
{
  if (!g_atomic_ref_count_dec (&price->refs))
    return;
  sw_price_lines_free (price->whole);
  sw_takeoff_free (price->takeoff);
  sw_price_base_unref (price->base);
  g_free (price);
}

SwPriceLines *
sw_job_price_lines (const SwJobPrice *price, SwId room)
{
  return lines_new (price->base, sw_needs_of (price->takeoff->needs, room));
}

/* ---- Sums and choosing ---- */

void
sw_price_sum_add (SwPriceSum *sum, const SwRoomPrice *price, SwFinish finish)
{
  int at = sw_room_price_side (price, finish);
  const SwChoiceSide *side = at >= 0 ? &price->choice->sides[at] : NULL;
  sum->rooms++;
  if (side == NULL)
    return;
  sum->judged += side->head.known;
  sum->high_enough += side->head.known && side->head.enough;
  if (side->fault != NULL)
    return;
  sum->priced++;
  sum->unpriced += side->quote->unpriced;
  sum->price += side->quote->price;
  sum->total += side->quote->total;
  if (!isnan (side->carbon_kg))
    {
      sum->weighed++;
      sum->carbon_kg += side->carbon_kg;
    }
}

SwEdit *
sw_finish_edit (const SwJob *job, const SwId *rooms, guint n, SwFinish finish, GError **error)
{
  g_autoptr (SwEdit) edit = sw_edit_new (n == 1 ? _("Choose finish") : _("Choose finish of rooms"));
  for (guint i = 0; i < n; i++)
    {
      const SwRecord *record = sw_job_get (job, rooms[i]);
      if (record == NULL || sw_record_table (record) != SW_TABLE_ROOM || ((const SwRoom *) record)->finish == (int) finish)
        continue;
      SwRecord *copy = sw_record_copy (record);
      ((SwRoom *) copy)->finish = (int) finish;
      if (!sw_edit_put (edit, job, copy, error))
        return NULL;
    }
  return g_steal_pointer (&edit);
}
