/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every number of a rule set with its source, how sure it is, and what the user changed. */
#include "rules/listing.h"
#include "base/error.h"
#include "cli/price_job.h"
#include "cli/verbs.h"
#include <glib/gi18n.h>
#include <string.h>

static const SwCliColumn columns[] = {
  { "rule", N_("Rule"), FALSE },         { "value", N_("Value"), FALSE },       { "unit", N_("Unit"), FALSE },
  { "was", N_("Was"), FALSE },           { "what", N_("What"), FALSE },         { "confidence", N_("Confidence"), FALSE },
  { "source", N_("Source"), FALSE },     { "rule_set", NULL, FALSE },           { "stand_in", NULL, FALSE },
  { "note", NULL, FALSE },
};

typedef struct
{
  char *rules, *overrides, *job, *format, *to;
  gboolean changed;
} RulesArgs;

static SwRules *
load_rules (const RulesArgs *args, GError **error)
{
  if (args->job == NULL)
    return sw_rules_load (args->rules != NULL ? args->rules : "south-africa", args->overrides, error);
  g_autoptr (SwJob) job = sw_cli_open_job (args->job);
  if (job == NULL)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INVALID, _("%s: the job gives no rules"), args->job);
      return NULL;
    }
  const SwJobInfo *info = sw_job_info (job);
  return sw_rules_load_text (info->rule_set, *info->rule_overrides != '\0' ? info->rule_overrides : NULL, "the job's own values", error);
}

static void
put_entry (SwCliTable *table, const SwRuleEntry *entry)
{
  const SwRuleValue *answer = &entry->answer;
  const char *cells[] = { answer->rule_id, entry->text, answer->unit, entry->was, _(entry->what), sw_confidence_word (answer->confidence),
                          answer->source, answer->rule_set, answer->stand_in ? "yes" : "no", answer->note };
  G_STATIC_ASSERT (G_N_ELEMENTS (cells) == G_N_ELEMENTS (columns));
  for (gsize i = 0; i < G_N_ELEMENTS (cells); i++)
    sw_cli_table_put (table, cells[i]);
}

static int
list_rules (const SwCliVerb *verb, const RulesArgs *args, const char *only)
{
  GError *error = NULL;
  g_autoptr (SwRules) rules = load_rules (args, &error);
  if (rules == NULL)
    return sw_cli_fail (error);
  g_autoptr (GPtrArray) entries = sw_rules_entries (rules, args->changed);
  g_auto (SwCliTable) table = sw_cli_table (columns, G_N_ELEMENTS (columns));
  for (guint i = 0; i < entries->len; i++)
    {
      const SwRuleEntry *entry = g_ptr_array_index (entries, i);
      if (only == NULL || g_str_has_prefix (entry->table, only))
        put_entry (&table, entry);
    }
  if (only != NULL && table.cells->len == 0 && !args->changed)
    return sw_cli_misuse (verb, _("this rule set has no table \"%s\""), only);
  g_autofree char *text = sw_cli_table_write (&table, args->format);
  return sw_cli_put (args->to, text, -1);
}

static int
run_rules (const SwCliVerb *verb, const RulesArgs *args, const char *only)
{
  if (args->job != NULL && (args->rules != NULL || args->overrides != NULL))
    return sw_cli_misuse (verb, _("--job brings its own rules: leave out --rules and --overrides"));
  return sw_cli_format_good (verb, args->format) ? list_rules (verb, args, only) : SW_CLI_USAGE;
}

int
sw_cli_rules (const SwCliVerb *verb, int argc, char **argv)
{
  RulesArgs args = { NULL };
  const GOptionEntry options[] = {
    { "rules", 0, 0, G_OPTION_ARG_STRING, &args.rules, N_("rule set to list, south-africa when none is named"), N_("NAME") },
    { "overrides", 0, 0, G_OPTION_ARG_FILENAME, &args.overrides, N_("values of your own, laid over the rule set"), N_("FILE") },
    { "job", 0, 0, G_OPTION_ARG_FILENAME, &args.job, N_("take rule set and own values from this job"), N_("JOB") },
    { "changed", 0, 0, G_OPTION_ARG_NONE, &args.changed, N_("only values that were changed"), NULL },
    SW_CLI_OUTPUT_OPTIONS (args),
    { NULL },
  };
  int result = sw_cli_parse (verb, options, &argc, &argv, 0, 1) ? run_rules (verb, &args, argc > 1 ? argv[1] : NULL) : SW_CLI_USAGE;
  g_free (args.rules);
  g_free (args.overrides);
  g_free (args.job);
  g_free (args.format);
  g_free (args.to);
  return result;
}
