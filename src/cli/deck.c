/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/price_job.h"
#include "cli/verbs.h"
#include "estimate/deck_figures.h"
#include <glib/gi18n.h>

static const SwCliColumn columns[] = {
  { "profile", N_("Profile"), FALSE }, { "figure", NULL, FALSE }, { "label", N_("What"), FALSE },
  { "value", N_("Value"), TRUE },      { "unit", N_("Unit"), FALSE },
};

static void
put_figure (SwCliTable *table, const char *profile, const SwFigureInfo *info, SwFigure figure)
{
  g_autofree char *value = sw_figure_write (info, &figure);
  sw_cli_table_put (table, profile);
  sw_cli_table_put (table, info->key);
  sw_cli_table_put (table, _(info->label));
  sw_cli_table_put (table, value);
  sw_cli_table_put (table, info->unit);
}

static int
show_deck (const SwCliPriceArgs *args, const char *path)
{
  g_auto (SwCliPriceJob) given = { NULL };
  g_auto (SwCliTable) table = sw_cli_table (columns, G_N_ELEMENTS (columns));
  const SwRecord *record;
  if (!sw_cli_price_job_open (&given, args, path))
    return SW_CLI_FAILED;
  for (SwJobIter i = sw_job_iter (sw_deck_job (given.deck), SW_TABLE_PROFILE); (record = sw_job_iter_next (&i)) != NULL;)
    for (guint row = 0; row < sw_profile_n_rows (); row++)
      put_figure (&table, record->tag, sw_profile_row (row), sw_profile_figure ((const SwProfile *) record, given.rules, row));
  for (guint row = 0; row < sw_deck_n_rows (); row++)
    put_figure (&table, NULL, sw_deck_row (row), sw_deck_figure (given.deck, row));
  g_autofree char *text = sw_cli_table_write (&table, args->format);
  return sw_cli_put (args->to, text, -1);
}

int
sw_cli_deck (const SwCliVerb *verb, int argc, char **argv)
{
  g_auto (SwCliPriceArgs) args = { NULL };
  const GOptionEntry options[] = { SW_CLI_OUTPUT_OPTIONS (args), { NULL } };
  if (!sw_cli_parse (verb, options, &argc, &argv, 1, 1) || !sw_cli_format_good (verb, args.format))
    return SW_CLI_USAGE;
  return show_deck (&args, argv[1]);
}
