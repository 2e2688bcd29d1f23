/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "estimate/quote.h"
#include <math.h>
#include <string.h>

SwNeed *
sw_need_new (const char *code, const char *description, const char *unit, double quantity, SwId room)
{
  SwNeed *need = g_new0 (SwNeed, 1);
  need->code = g_strdup (code);
  need->kind = sw_price_kind_of (code);
  need->description = g_strdup (description);
  need->unit = g_strdup (unit);
  need->quantity = sw_quantity_from_double (quantity);
  need->room = room;
  need->things = g_array_new (FALSE, FALSE, sizeof (SwId));
  return need;
}

void
sw_need_free (SwNeed *need)
{
  g_free (need->code);
  g_free (need->description);
  g_free (need->unit);
  g_array_unref (need->things);
  g_free (need);
}

static GHashTable *
prices_by_code (const SwJob *job)
{
  GHashTable *prices = g_hash_table_new (g_str_hash, g_str_equal);
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_PRICE); (record = sw_job_iter_next (&i)) != NULL;)
    g_hash_table_insert (prices, record->tag, (gpointer) record);
  return prices;
}

/* What its cutting takes, or net with the row's waste; what is bought whole is rounded up, with a hair for what was rounded before. */
static SwQuantity
gross_of (const SwNeed *need, const SwPrice *price)
{
  if (need->bought > 0)
    return need->bought;
  gint64 waste_ppm = (gint64) round (price->waste * 10000);
  SwQuantity gross = need->quantity + sw_divide_round ((__int128) need->quantity * waste_ppm, 1000000);
  if (strcmp (need->unit, "no") == 0)
    gross = (gross + SW_QUANTITY_ONE - 1) / SW_QUANTITY_ONE * SW_QUANTITY_ONE;
  return gross;
}

/* Whole stock lengths that the gross metres take; of what is cut from several lengths, and of a room's share, it says nothing. */
static guint
lengths_of (const SwPrice *price, const SwNeed *need, SwQuantity gross)
{
  SwQuantity stock = sw_quantity_from_double (price->length / 1000);
  if (need->bought > 0 && (sw_price_is_timber (need->kind) || stock <= 0 || gross % stock != 0))
    return 0;
  return strcmp (need->unit, "m") == 0 && stock > 0 ? (guint) ((gross + stock - 1) / stock) : 0;
}

static SwQuoteLine
price_line (const SwNeed *need, const SwPrice *price)
{
  SwQuoteLine line = { .need = need, .gross = need->quantity };
  line.other_unit = price != NULL && *price->unit != '\0' && strcmp (price->unit, need->unit) != 0;
  if (price == NULL || line.other_unit)
    return line;
  line.price = price;
  line.gross = gross_of (need, price);
  line.lengths = lengths_of (price, need, line.gross);
  line.material = sw_money_cents (sw_money_times (price->material, line.gross));
  line.labour = sw_money_cents (sw_money_times (price->labour, need->quantity));
  return line;
}

SwQuote *
sw_quote_new (const SwJob *job, const GPtrArray *needs, SwQuoteTerms terms)
{
  SwQuote *quote = g_new0 (SwQuote, 1);
  g_autoptr (GHashTable) prices = prices_by_code (job);
  quote->lines = g_array_new (FALSE, FALSE, sizeof (SwQuoteLine));
  for (guint i = 0; i < needs->len; i++)
    {
      const SwNeed *need = needs->pdata[i];
      SwQuoteLine line = price_line (need, g_hash_table_lookup (prices, need->code));
      quote->unpriced += line.price == NULL;
      quote->material += line.material;
      quote->labour += line.labour;
      g_array_append_val (quote->lines, line);
    }
  quote->cost = quote->material + quote->labour;
  quote->price = sw_money_cents (quote->cost + sw_money_share (quote->cost, terms.markup_ppm));
  quote->vat = sw_money_cents (sw_money_share (quote->price, terms.vat_ppm));
  quote->total = quote->price + quote->vat;
  return quote;
}

void
sw_quote_free (SwQuote *quote)
{
  g_array_unref (quote->lines);
  g_free (quote);
}
