/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/price_job.h"
#include "cli/verbs.h"
#include "estimate/choice.h"
#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#define COLUMN_GRID 6

/* The sides stand in the order in which a choice has them. */
static const SwCliColumn columns[] = {
  { "room", NULL, FALSE },
  { "figure", NULL, FALSE },
  { "label", N_("What"), FALSE },
  { "unit", N_("Unit"), FALSE },
  { "closed", N_("Boards on brandering"), FALSE },
  { "exposed", N_("Open soffit, painted"), FALSE },
  { "grid", N_("Suspended grid"), FALSE },
  { "confidence", N_("Rests on"), FALSE },
  { "rule", NULL, FALSE },
};

/* The least certain rule behind a row. */
static const SwRuleValue *
row_rule (const SwChoice *choice, guint row, SwRuleValue *rule)
{
  rule->rule_id = NULL;
  for (guint side = 0; side < choice->n; side++)
    {
      SwFigure figure = sw_choice_figure (choice, side, row);
      if (figure.rule.rule_id != NULL && (rule->rule_id == NULL || figure.rule.confidence > rule->confidence))
        *rule = figure.rule;
    }
  return rule->rule_id != NULL ? rule : NULL;
}

static void
put_row (SwCliTable *table, const SwChoice *choice, guint row, const char *currency)
{
  const SwFigureInfo *info = sw_choice_row (row);
  SwRuleValue value;
  const SwRuleValue *rule = row_rule (choice, row, &value);
  sw_cli_table_put (table, choice->room->record.tag);
  sw_cli_table_put (table, info->key);
  sw_cli_table_put (table, _(info->label));
  sw_cli_table_put (table, info->kind == SW_FIGURE_MONEY ? currency : info->unit);
  for (guint side = 0; side < G_N_ELEMENTS (choice->sides); side++)
    {
      SwFigure figure = side < choice->n ? sw_choice_figure (choice, side, row) : sw_figure_number (NAN);
      g_autofree char *text = sw_figure_write (info, &figure);
      sw_cli_table_put (table, info->kind == SW_FIGURE_WORD && *text != '\0' ? _(text) : text);
    }
  sw_cli_table_put (table, rule != NULL ? sw_confidence_word (rule->confidence) : NULL);
  sw_cli_table_put (table, rule != NULL ? rule->rule_id : NULL);
}

/* Why a side cannot be, when one cannot. */
static void
put_faults (SwCliTable *table, const SwChoice *choice)
{
  gboolean any = FALSE;
  for (guint side = 0; side < choice->n; side++)
    any |= choice->sides[side].fault != NULL;
  if (!any)
    return;
  sw_cli_table_put (table, choice->room->record.tag);
  sw_cli_table_put (table, "fault");
  sw_cli_table_put (table, _("Why it cannot be built"));
  sw_cli_table_put (table, NULL);
  for (guint side = 0; side < G_N_ELEMENTS (choice->sides); side++)
    sw_cli_table_put (table, choice->sides[side].fault);
  sw_cli_table_put (table, NULL);
  sw_cli_table_put (table, NULL);
}

static void
put_choice (SwCliTable *table, const SwChoice *choice, const char *currency)
{
  for (guint row = 0; row < sw_choice_n_rows (); row++)
    put_row (table, choice, row, currency);
  put_faults (table, choice);
}

/* In text, a heading for each room and no column for a grid that was not looked at. */
static void
add_text (GString *out, const SwChoice *choice, const char *currency)
{
  SwCliColumn shown[G_N_ELEMENTS (columns)];
  memcpy (shown, columns, sizeof shown);
  if (choice->n < G_N_ELEMENTS (choice->sides))
    shown[COLUMN_GRID].title = NULL;
  g_auto (SwCliTable) table = sw_cli_table (shown, G_N_ELEMENTS (shown));
  put_choice (&table, choice, currency);
  g_autofree char *text = sw_cli_table_write (&table, "text");
  g_string_append_printf (out, "%s%s %s\n%s", out->len > 0 ? "\n" : "", choice->room->record.tag, choice->room->name, text);
}

static GPtrArray *
make_choices (const SwCliPriceJob *given, gboolean grid, GError **error)
{
  g_autoptr (GPtrArray) choices = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_choice_free);
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_deck_job (given->deck), SW_TABLE_ROOM); (record = sw_job_iter_next (&i)) != NULL;)
    {
      if (given->room != NULL && given->room->record.id != record->id)
        continue;
      SwChoice *choice = sw_choice_new (given->deck, given->rules, (const SwRoom *) record, grid, NULL, error);
      if (choice == NULL)
        return NULL;
      g_ptr_array_add (choices, choice);
    }
  return g_steal_pointer (&choices);
}

static int
compare_finishes (const SwCliPriceArgs *args, const char *path)
{
  GError *error = NULL;
  g_auto (SwCliPriceJob) given = { NULL };
  if (!sw_cli_price_job_open (&given, args, path))
    return SW_CLI_FAILED;
  g_autoptr (GPtrArray) choices = make_choices (&given, args->grid, &error);
  if (choices == NULL)
    return sw_cli_fail (error);
  const char *currency = sw_job_info (sw_deck_job (given.deck))->currency;
  g_autoptr (GString) text = g_string_new (NULL);
  g_auto (SwCliTable) table = sw_cli_table (columns, G_N_ELEMENTS (columns));
  gboolean plain = args->format == NULL || strcmp (args->format, "text") == 0;
  for (guint i = 0; i < choices->len; i++)
    if (plain)
      add_text (text, choices->pdata[i], currency);
    else
      put_choice (&table, choices->pdata[i], currency);
  if (plain && given.invented)
    g_string_append_printf (text, "\n%s\n", _("The job has no prices: the invented ones that come with the program were taken."));
  g_autofree char *written = plain ? NULL : sw_cli_table_write (&table, args->format);
  return sw_cli_put (args->to, plain ? text->str : written, -1);
}

int
sw_cli_choice (const SwCliVerb *verb, int argc, char **argv)
{
  g_auto (SwCliPriceArgs) args = { NULL };
  const GOptionEntry options[] = {
    SW_CLI_PRICE_OPTIONS (args),
    { "grid", 'g', 0, G_OPTION_ARG_NONE, &args.grid, N_("look at a suspended grid too"), NULL },
    { NULL },
  };
  if (!sw_cli_parse (verb, options, &argc, &argv, 1, 1) || !sw_cli_format_good (verb, args.format))
    return SW_CLI_USAGE;
  return compare_finishes (&args, argv[1]);
}
