/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/price_job.h"
#include "cli/verbs.h"
#include "base/number.h"
#include "estimate/choice.h"
#include "estimate/labour.h"
#include "estimate/takeoff.h"
#include <glib/gi18n.h>

static const SwCliColumn columns[] = {
  { "trade", NULL, FALSE },
  { "code", N_("Code"), FALSE },
  { "description", N_("What"), FALSE },
  { "quantity", N_("Net"), TRUE },
  { "ordered", N_("With waste"), TRUE },
  { "unit", N_("Unit"), FALSE },
  { "lengths", N_("Lengths"), TRUE },
  { "material_rate", N_("Material at"), TRUE },
  { "labour_rate", N_("Labour at"), TRUE },
  { "material", N_("Material"), TRUE },
  { "labour", N_("Labour"), TRUE },
  { "sum", N_("Sum"), TRUE },
  { "things", NULL, FALSE },
};

static void
put_money (SwCliTable *table, SwMoney money)
{
  char text[SW_MONEY_BUF];
  sw_cli_table_put (table, sw_money_write (money, text));
}

static void
put_quantity (SwCliTable *table, SwQuantity quantity)
{
  char text[SW_MONEY_BUF];
  sw_cli_table_put (table, sw_quantity_write (quantity, text));
}

/* Marks of what a line counts. */
static void
put_things (SwCliTable *table, const SwJob *job, const SwNeed *need)
{
  g_autoptr (GString) marks = g_string_new (NULL);
  for (guint i = 0; i < need->things->len; i++)
    {
      const SwRecord *record = sw_job_get (job, g_array_index (need->things, SwId, i));
      if (record != NULL)
        g_string_append_printf (marks, "%s%s", marks->len > 0 ? "; " : "", record->tag);
    }
  sw_cli_table_put (table, marks->str);
}

static void
put_nothing (SwCliTable *table, guint n)
{
  for (guint i = 0; i < n; i++)
    sw_cli_table_put (table, NULL);
}

static void
put_rates (SwCliTable *table, const SwQuoteLine *line)
{
  if (line->price == NULL)
    {
      put_nothing (table, 5);
      return;
    }
  put_money (table, line->price->material);
  put_money (table, line->price->labour);
  put_money (table, line->material);
  put_money (table, line->labour);
  put_money (table, line->material + line->labour);
}

static void
put_line (SwCliTable *table, const SwJob *job, const SwQuoteLine *line)
{
  const SwNeed *need = line->need;
  g_autofree char *lengths = line->lengths > 0 ? g_strdup_printf ("%u", line->lengths) : NULL;
  gboolean described = line->price != NULL && *line->price->description != '\0';
  sw_cli_table_put (table, sw_bill_word (sw_price_info (need->kind)->bill));
  sw_cli_table_put (table, need->code);
  sw_cli_table_put (table, described ? line->price->description : _(need->description));
  put_quantity (table, need->quantity);
  put_quantity (table, line->gross);
  sw_cli_table_put (table, need->unit);
  sw_cli_table_put (table, lengths);
  put_rates (table, line);
  put_things (table, job, need);
}

static void
put_sum (SwCliTable *table, const char *code, const char *what, SwMoney money)
{
  sw_cli_table_put (table, "total");
  sw_cli_table_put (table, code);
  sw_cli_table_put (table, _(what));
  put_nothing (table, 8);
  put_money (table, money);
  put_nothing (table, 1);
}

static void
put_note (SwCliTable *table, const char *code, const char *of, const char *what, const char *detail)
{
  g_autofree char *more = detail != NULL ? g_strdup_printf (": %s", detail) : g_strdup ("");
  g_autofree char *text = g_strdup_printf ("%s%s%s%s", of, *of != '\0' ? ": " : "", _(what), more);
  sw_cli_table_put (table, "note");
  sw_cli_table_put (table, code);
  sw_cli_table_put (table, text);
  put_nothing (table, G_N_ELEMENTS (columns) - 3);
}

static void
put_hours (SwCliTable *table, const char *code, const char *what, double hours)
{
  char text[SW_NUMBER_BUF];
  sw_cli_table_put (table, "hours");
  sw_cli_table_put (table, code);
  sw_cli_table_put (table, _(what));
  sw_cli_table_put (table, sw_number_write_fixed (hours, 1, text));
  put_nothing (table, 1);
  sw_cli_table_put (table, "h");
  put_nothing (table, G_N_ELEMENTS (columns) - 6);
}

static void
put_sums (SwCliTable *table, const SwQuote *quote)
{
  put_sum (table, "material", N_("Material"), quote->material);
  put_sum (table, "labour", N_("Labour"), quote->labour);
  put_sum (table, "cost", N_("Cost"), quote->cost);
  put_sum (table, "price", N_("Price with markup, before tax"), quote->price);
  put_sum (table, "vat", N_("Tax"), quote->vat);
  put_sum (table, "total", N_("Price with tax"), quote->total);
}

static void
put_notes (SwCliTable *table, const SwCliPriceJob *given, const SwTakeoff *takeoff, const SwQuote *quote)
{
  const SwJob *job = sw_deck_job (given->deck);
  if (given->invented)
    put_note (table, "invented-prices", "", N_("the job has no prices: the invented ones that come with the program were taken"), NULL);
  for (guint i = 0; i < quote->lines->len; i++)
    {
      const SwQuoteLine *line = &g_array_index (quote->lines, SwQuoteLine, i);
      if (line->price == NULL)
        put_note (table, line->other_unit ? "other-unit" : "no-price", line->need->code,
                  line->other_unit ? N_("the price list counts this in another unit: it is not priced")
                                   : N_("the price list has no such row: it is not priced"), NULL);
    }
  for (guint i = 0; i < takeoff->notes->len; i++)
    {
      const SwTakeoffNote *note = &g_array_index (takeoff->notes, SwTakeoffNote, i);
      if (given->room == NULL || note->owner == given->room->record.id)
        put_note (table, sw_takeoff_note_word (note->kind), sw_job_get (job, note->owner)->tag, sw_takeoff_note_text (note->kind), note->detail);
    }
}

static int
price_job (const SwCliPriceArgs *args, const char *path)
{
  GError *error = NULL;
  double low, high;
  g_auto (SwCliPriceJob) given = { NULL };
  if (!sw_cli_price_job_open (&given, args, path))
    return SW_CLI_FAILED;
  g_autoptr (SwTakeoff) takeoff = sw_takeoff_new (given.deck, given.rules, NULL, &error);
  if (takeoff == NULL)
    return sw_cli_fail (error);
  SwJob *job = sw_deck_job (given.deck);
  g_autoptr (GPtrArray) needs = sw_needs_of (takeoff->needs, given.room != NULL ? given.room->record.id : SW_NEEDS_ALL);
  g_autoptr (SwQuote) quote = sw_quote_new (job, needs, sw_quote_terms (given.rules));
  g_auto (SwCliTable) table = sw_cli_table (columns, G_N_ELEMENTS (columns));
  for (guint i = 0; i < quote->lines->len; i++)
    put_line (&table, job, &g_array_index (quote->lines, SwQuoteLine, i));
  put_sums (&table, quote);
  sw_labour_hours (given.rules, needs, &low, &high);
  put_hours (&table, "hours-low", N_("Hours of work, from"), low);
  put_hours (&table, "hours-high", N_("Hours of work, to"), high);
  put_notes (&table, &given, takeoff, quote);
  g_autofree char *text = sw_cli_table_write (&table, args->format);
  return sw_cli_put (args->to, text, -1);
}

int
sw_cli_price (const SwCliVerb *verb, int argc, char **argv)
{
  g_auto (SwCliPriceArgs) args = { NULL };
  const GOptionEntry options[] = { SW_CLI_PRICE_OPTIONS (args), { NULL } };
  if (!sw_cli_parse (verb, options, &argc, &argv, 1, 1) || !sw_cli_format_good (verb, args.format))
    return SW_CLI_USAGE;
  return price_job (&args, argv[1]);
}
