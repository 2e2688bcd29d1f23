/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Packs are counted once for the whole job, so that rounding up is not done room by room. Waste percentages
 * do not apply to boards and timber: their waste is in the cutting. */
#include "estimate/order.h"
#include "base/natural.h"
#include <math.h>
#include <string.h>

/* What is ordered from the take-off, and the rule that says how it is packed: none means by stock length of
 * the price row, else one by one. */
static const struct
{
  SwPriceKind kind;
  const char *pack; /* of board.takeoff */
  double per;       /* of the rule's value in the kind's unit */
} ordered[] = {
  { SW_PRICE_FIXING, "fixing_box", 1 }, { SW_PRICE_LONG_FIXING, "fixing_box", 1 },
  { SW_PRICE_HANGER, NULL, 1 },         { SW_PRICE_PACKER, "packer_bag", 1 },
  { SW_PRICE_CLIP, NULL, 1 },           { SW_PRICE_STEEL_SCREW, "screw_box", 1 },
  { SW_PRICE_SCREW, "screw_box", 1 },   { SW_PRICE_TAPE, "tape_roll_m", 1 },
  { SW_PRICE_COMPOUND, "compound_tub_kg", 1 }, { SW_PRICE_SKIM, "skim_bag_kg", 1 },
  { SW_PRICE_MOVEMENT_JOINT, NULL, 1 }, { SW_PRICE_CORNICE, "cornice_length_mm", 1e-3 },
  { SW_PRICE_ADHESIVE, "adhesive_bag_kg", 1 }, { SW_PRICE_SHADOW_LINE, NULL, 1 },
  { SW_PRICE_COVER_STRIP, NULL, 1 },    { SW_PRICE_BEAD, "bead_length_mm", 1e-3 },
  { SW_PRICE_INSULATION, NULL, 1 },     { SW_PRICE_HATCH, NULL, 1 },
  { SW_PRICE_GRID, NULL, 1 },           { SW_PRICE_GRID_EDGE, NULL, 1 },
  { SW_PRICE_GRID_HANGER, NULL, 1 },    { SW_PRICE_ZINC_PRIMER, "paint_tin_l", 1 },
  { SW_PRICE_ALKALI_PRIMER, "paint_tin_l", 1 }, { SW_PRICE_FINISH, "paint_tin_l", 1 },
};

typedef struct
{
  const SwJob *job;
  const SwRules *rules;
  const SwCutJob *cut;
  SwOrder *order;
} Ordering;

static void
line_free (gpointer data)
{
  SwOrderLine *line = data;
  g_free (line->code);
  g_free (line);
}

static const SwPrice *
price_of (const Ordering *ordering, const char *code)
{
  const SwRecord *record = sw_job_find (ordering->job, code);
  return record != NULL && sw_record_table (record) == SW_TABLE_PRICE ? (const SwPrice *) record : NULL;
}

static void
add_line (const Ordering *ordering, SwOrderLine line)
{
  if (line.wanted <= 0)
    return;
  line.packs = (line.wanted + line.pack - 1) / line.pack;
  if (line.price != NULL)
    line.cost = sw_money_cents (sw_money_times (line.price->material, line.packs * line.pack));
  ordering->order->cost += line.cost;
  ordering->order->unpriced += line.price == NULL;
  g_ptr_array_add (ordering->order->lines, g_memdup2 (&line, sizeof line));
}

/* Boards by the sheet; timber by the stock length, each on a line of its own. */
static void
order_group (const Ordering *ordering, const SwCutGroup *group)
{
  const SwPrice *price = price_of (ordering, group->code);
  SwPriceKind kind = sw_price_kind_of (group->code);
  if (group->flat)
    {
      add_line (ordering, (SwOrderLine){ kind, g_strdup (group->code), price, group,
                                         sw_cut_group_n (group) * SW_QUANTITY_ONE, SW_QUANTITY_ONE, 0, 0 });
      return;
    }
  g_autoptr (GArray) bought = sw_cut_plan_bought (group->plan);
  for (guint i = 0; i < bought->len; i++)
    {
      guint n = g_array_index (bought, guint, i);
      SwQuantity length
          = g_array_index (group->task->stock, SwCutStock, i).length; /* mm: thousandths of a metre */
      if (n > 0)
        add_line (ordering,
                  (SwOrderLine){ kind, g_strdup (group->code), price, group, n * length, length, 0, 0 });
    }
}

static SwQuantity
pack_of (const Ordering *ordering, guint i, const SwPrice *price)
{
  double pack = 1;
  if (price != NULL && price->length > 0 && strcmp (sw_price_info (ordered[i].kind)->unit, "m") == 0)
    pack = price->length / 1e3;
  else if (ordered[i].pack != NULL)
    pack = sw_rules_value (ordering->rules, "board.takeoff", ordered[i].pack).value * ordered[i].per;
  return MAX (1, sw_quantity_from_double (pack));
}

/* Bought by the lengths that the cutting plan takes. */
static gboolean
is_cut (const Ordering *ordering, const char *code)
{
  gboolean found = FALSE;
  for (guint i = 0; i < ordering->cut->groups->len; i++)
    {
      const SwCutGroup *group = ordering->cut->groups->pdata[i];
      found = found || (group->trim != 0 && strcmp (group->code, code) == 0);
    }
  return found;
}

static void
order_need (const Ordering *ordering, const SwQuoteLine *line)
{
  for (guint i = 0; i < G_N_ELEMENTS (ordered); i++)
    if (ordered[i].kind == line->need->kind && !is_cut (ordering, line->need->code))
      add_line (ordering, (SwOrderLine){ line->need->kind, g_strdup (line->need->code), line->price, NULL,
                                         line->gross, pack_of (ordering, i, line->price), 0, 0 });
}

static const char *
supplier_of (const SwOrderLine *line)
{
  return line->price != NULL && line->price->supplier != NULL ? line->price->supplier : "";
}

static int
compare_lines (gconstpointer pa, gconstpointer pb)
{
  const SwOrderLine *a = *(const SwOrderLine *const *) pa, *b = *(const SwOrderLine *const *) pb;
  int order = sw_natural_compare (supplier_of (a), supplier_of (b));
  if (order != 0)
    return order;
  if (a->kind != b->kind)
    return a->kind < b->kind ? -1 : 1;
  order = sw_natural_compare (a->code, b->code);
  return order != 0 ? order : (a->pack > b->pack) - (a->pack < b->pack);
}

SwOrder *
sw_order_new (const SwDeck *deck, const SwRules *rules, const SwTakeoff *takeoff)
{
  SwOrder *order = g_new0 (SwOrder, 1);
  const SwJob *job = sw_deck_job (deck);
  const SwCutJob *cut = takeoff->cut;
  const Ordering ordering = { job, rules, cut, order };
  order->lines = g_ptr_array_new_with_free_func (line_free);
  for (guint i = 0; i < cut->groups->len; i++)
    order_group (&ordering, cut->groups->pdata[i]);
  g_autoptr (GPtrArray) needs = sw_needs_of (takeoff->needs, SW_NEEDS_ALL);
  g_autoptr (SwQuote) quote = sw_quote_new (job, needs, (SwQuoteTerms){ 0, 0 });
  for (guint i = 0; i < quote->lines->len; i++)
    order_need (&ordering, &g_array_index (quote->lines, SwQuoteLine, i));
  g_ptr_array_sort (order->lines, compare_lines);
  return order;
}

void
sw_order_free (SwOrder *order)
{
  g_ptr_array_unref (order->lines);
  g_free (order);
}
