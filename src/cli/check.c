/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/layout.h"
#include "checks/snag_text.h"
#include "cli/verbs.h"
#include <glib/gi18n.h>
#include <json-glib/json-glib.h>
#include <string.h>

static const char *
translate (const char *english)
{
  return _(english);
}

typedef struct
{
  char *rule, *severity, *trade, *format, *to;
} CheckArgs;

static gboolean
wanted (const CheckArgs *args, const SwSnag *snag)
{
  return (args->severity == NULL || strcmp (args->severity, sw_severity_word (snag->severity)) == 0)
         && (args->trade == NULL || strcmp (args->trade, sw_trade_word (snag->trade)) == 0);
}

static void
add_text (GString *out, const SwSnags *snags, const SwSnag *snag)
{
  g_autoptr (SwSnagText) text = sw_snag_text (snags, snag, translate);
  g_string_append_printf (out, "%-4s %s\n", sw_severity_word (snag->severity), text->sentence);
  if (*text->rule != '\0')
    g_string_append_printf (out, "     %s\n", text->rule);
}

static void
add_json (JsonBuilder *json, const SwSnags *snags, const SwSnag *snag)
{
  g_autoptr (SwSnagText) text = sw_snag_text (snags, snag, NULL);
  const SwRecord *owner = sw_job_get (sw_space_job (sw_snags_space (snags)), snag->owners[0]);
  const struct { const char *name, *value; } words[] = {
    { "severity", sw_severity_word (snag->severity) }, { "rule", snag->rule }, { "trade", sw_trade_word (snag->trade) },
    { "of", owner != NULL ? owner->tag : "" }, { "what", text->what }, { "where", text->where }, { "todo", text->todo }, { "source", text->rule },
  };
  json_builder_begin_object (json);
  for (gsize i = 0; i < G_N_ELEMENTS (words); i++)
    {
      json_builder_set_member_name (json, words[i].name);
      json_builder_add_string_value (json, words[i].value);
    }
  json_builder_set_member_name (json, "missing_mm");
  if (isnan (snag->missing_mm))
    json_builder_add_null_value (json);
  else
    json_builder_add_double_value (json, round (snag->missing_mm * 100) / 100);
  json_builder_set_member_name (json, "place");
  json_builder_begin_array (json);
  const double place[] = { snag->place.x, snag->place.y, snag->place.z };
  for (gsize i = 0; i < 3; i++)
    json_builder_add_double_value (json, round (place[i] * 100) / 100);
  json_builder_end_array (json);
  json_builder_end_object (json);
}

static char *
write_json (const CheckArgs *args, const SwSnags *snags)
{
  g_autoptr (JsonBuilder) json = json_builder_new ();
  json_builder_begin_array (json);
  for (guint i = 0; i < sw_snags_n (snags); i++)
    if (wanted (args, sw_snags_get (snags, i)))
      add_json (json, snags, sw_snags_get (snags, i));
  json_builder_end_array (json);
  g_autoptr (JsonNode) root = json_builder_get_root (json);
  g_autofree char *text = json_to_string (root, TRUE);
  return g_strconcat (text, "\n", NULL);
}

static char *
write_text (const CheckArgs *args, const SwSnags *snags)
{
  GString *out = g_string_new (NULL);
  for (guint i = 0; i < sw_snags_n (snags); i++)
    if (wanted (args, sw_snags_get (snags, i)))
      add_text (out, snags, sw_snags_get (snags, i));
  g_string_append_printf (out, _("%u stop, %u fix, %u note\n"), sw_snags_count (snags, SW_SEVERITY_STOP), sw_snags_count (snags, SW_SEVERITY_FIX),
                          sw_snags_count (snags, SW_SEVERITY_NOTE));
  return g_string_free (out, FALSE);
}

static SwSnags *
check_job (SwJob *job, const CheckArgs *args, GError **error)
{
  const SwJobInfo *info = sw_job_info (job);
  const char *overrides = *info->rule_overrides != '\0' ? info->rule_overrides : NULL;
  g_autoptr (SwRules) rules = sw_rules_load_text (info->rule_set, overrides, "the job's own values", error);
  if (rules == NULL)
    return NULL;
  g_autoptr (SwDeck) deck = sw_deck_new (job);
  g_autoptr (SwSpace) space = sw_space_new (deck, rules, error);
  SwCheckOptions options = { .only = args->rule, .layout_is_current = sw_ceiling_layout_is_current };
  return space == NULL ? NULL : sw_checks_run (space, &options, NULL, NULL, NULL, error);
}

static int
run_check (const SwCliVerb *verb, const CheckArgs *args, const char *path)
{
  GError *error = NULL;
  gboolean json = g_strcmp0 (args->format, "json") == 0;
  if (args->format != NULL && !json && strcmp (args->format, "text") != 0)
    return sw_cli_misuse (verb, _("--format is text or json, not \"%s\""), args->format);
  if (args->rule != NULL && sw_checks_find (args->rule) == NULL)
    return sw_cli_misuse (verb, _("there is no rule \"%s\""), args->rule);
  g_autoptr (SwJob) job = sw_cli_open_job (path);
  if (job == NULL)
    return SW_CLI_FAILED;
  g_autoptr (SwSnags) snags = check_job (job, args, &error);
  if (snags == NULL)
    return sw_cli_fail (error);
  g_autofree char *text = json ? write_json (args, snags) : write_text (args, snags);
  int put = sw_cli_put (args->to, text, -1);
  return put != SW_CLI_GOOD ? put : sw_snags_count (snags, SW_SEVERITY_STOP) > 0 ? SW_CLI_STOPS : SW_CLI_GOOD;
}

int
sw_cli_check (const SwCliVerb *verb, int argc, char **argv)
{
  CheckArgs args = { 0 };
  const GOptionEntry options[] = {
    { "rule", 0, 0, G_OPTION_ARG_STRING, &args.rule, N_("one rule only, by its id"), N_("RULE") },
    { "severity", 0, 0, G_OPTION_ARG_STRING, &args.severity, N_("stop, fix or note only"), N_("WORD") },
    { "trade", 0, 0, G_OPTION_ARG_STRING, &args.trade, N_("one trade only: electrician, plumber, ceiling, architect, engineer"), N_("WORD") },
    { "format", 0, 0, G_OPTION_ARG_STRING, &args.format, N_("text (the default) or json"), N_("WORD") },
    { "to", 0, 0, G_OPTION_ARG_FILENAME, &args.to, N_("write to this file"), N_("FILE") },
    { NULL },
  };
  int result = sw_cli_parse (verb, options, &argc, &argv, 1, 1) ? run_check (verb, &args, argv[1]) : SW_CLI_USAGE;
  g_free (args.rule);
  g_free (args.severity);
  g_free (args.trade);
  g_free (args.format);
  g_free (args.to);
  return result;
}
