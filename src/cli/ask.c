/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One calculation by itself: without a question all of them are listed, without values what a question asks for is said. */
#include "base/error.h"
#include "checks/questions.h"
#include "checks/working_text.h"
#include "cli/pages.h"
#include "cli/verbs.h"
#include "sheets/pictures.h"
#include <glib/gi18n.h>
#include <json-glib/json-glib.h>
#include <math.h>
#include <string.h>

typedef struct
{
  char *rules, *overrides, *job, *format, *to, *picture;
} AskArgs;

static const char *
translate (const char *english)
{
  return _(english);
}

/* The rule set that is named, or the job's with what it changes; then the file of overrides on top. */
static SwRules *
load_rules (const AskArgs *args, SwLengths *lengths, GError **error)
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
  *lengths = sw_job_lengths (job);
  return sw_rules_load_text (info->rule_set, *info->rule_overrides != '\0' ? info->rule_overrides : NULL, "the job's own values", error);
}

/* ---- lists and help */

static void
put_strings (JsonBuilder *json, const char *const *names, const char *const *values)
{
  for (; *names != NULL; names++, values++)
    {
      json_builder_set_member_name (json, *names);
      json_builder_add_string_value (json, *values);
    }
}

static char *
write_builder (JsonBuilder *json)
{
  g_autoptr (JsonNode) root = json_builder_get_root (json);
  g_autofree char *text = json_to_string (root, TRUE);
  return g_strconcat (text, "\n", NULL);
}

static void
put_input (JsonBuilder *json, const SwAskInput *input)
{
  static const char *const kinds[] = { "number", "word", "list" };
  static const char *const names[] = { "key", "label", "kind", "unit", "start", "words", "table", NULL };
  json_builder_begin_object (json);
  put_strings (json, names, (const char *const[]){ input->key, input->label, kinds[input->kind], input->unit, input->start_text,
                                                   input->words != NULL ? input->words : "", input->table != NULL ? input->table : "" });
  if (input->kind != SW_ASK_WORD)
    {
      json_builder_set_member_name (json, "low");
      json_builder_add_double_value (json, input->low);
      json_builder_set_member_name (json, "high");
      json_builder_add_double_value (json, input->high);
    }
  json_builder_end_object (json);
}

static void
put_question (JsonBuilder *json, const SwQuestion *question)
{
  static const char *const names[] = { "question", "subject", "title", "description", NULL };
  json_builder_begin_object (json);
  put_strings (json, names, (const char *const[]){ question->id, question->subject, question->title, question->description });
  json_builder_set_member_name (json, "inputs");
  json_builder_begin_array (json);
  for (guint i = 0; i < question->n_inputs; i++)
    put_input (json, &question->inputs[i]);
  json_builder_end_array (json);
  json_builder_end_object (json);
}

static char *
list_json (const SwQuestion *only)
{
  g_autoptr (JsonBuilder) json = json_builder_new ();
  json_builder_begin_array (json);
  for (guint i = 0; i < sw_questions_n (); i++)
    if (only == NULL || only == sw_questions_get (i))
      put_question (json, sw_questions_get (i));
  json_builder_end_array (json);
  return write_builder (json);
}

static char *
list_text (void)
{
  GString *out = g_string_new (NULL);
  const char *subject = NULL;
  for (guint i = 0; i < sw_questions_n (); i++)
    {
      const SwQuestion *question = sw_questions_get (i);
      if (subject == NULL || strcmp (subject, question->subject) != 0)
        g_string_append_printf (out, "%s%s\n", i > 0 ? "\n" : "", _(question->subject));
      g_string_append_printf (out, "  %-16s %s\n", question->id, _(question->description));
      subject = question->subject;
    }
  return g_string_free (out, FALSE);
}

static char *
help_text (const SwQuestion *question)
{
  GString *out = g_string_new (NULL);
  g_string_append_printf (out, "%s\n%s\n\n", _(question->title), _(question->description));
  for (guint i = 0; i < question->n_inputs; i++)
    {
      g_autofree char *what = sw_ask_input_text (&question->inputs[i], translate);
      g_string_append_printf (out, "  %-14s %s\n  %-14s %s\n", question->inputs[i].key, _(question->inputs[i].label), "", what);
    }
  return g_string_free (out, FALSE);
}

/* ---- answers */

static void
put_double (JsonBuilder *json, const char *name, double value)
{
  if (name != NULL)
    json_builder_set_member_name (json, name);
  if (isfinite (value))
    json_builder_add_double_value (json, value);
  else
    json_builder_add_null_value (json);
}

static void
put_rule (JsonBuilder *json, const SwRuleValue *rule)
{
  static const char *const names[] = { "id", "rule_set", "source", "confidence", "note", NULL };
  const struct { const char *name; gboolean value; } flags[] = {
    { "overridden", rule->overridden }, { "stand_in", rule->stand_in }, { "interpolated", rule->interpolated }, { "clamped", rule->clamped },
  };
  json_builder_set_member_name (json, "rule");
  json_builder_begin_object (json);
  put_strings (json, names, (const char *const[]){ rule->rule_id, rule->rule_set, rule->source, sw_confidence_word (rule->confidence), rule->note });
  for (gsize i = 0; i < G_N_ELEMENTS (flags); i++)
    {
      json_builder_set_member_name (json, flags[i].name);
      json_builder_add_boolean_value (json, flags[i].value);
    }
  json_builder_end_object (json);
}

static void
put_working_line (JsonBuilder *json, const SwWorkingLine *line)
{
  static const char *const kinds[] = { "given", "rule", "step", "answer" };
  static const char *const names[] = { "kind", "symbol", "what", "formula", "unit", NULL };
  json_builder_begin_object (json);
  put_strings (json, names, (const char *const[]){ kinds[line->kind], line->symbol, line->what, line->formula != NULL ? line->formula : "", line->unit });
  if (line->text != NULL)
    {
      json_builder_set_member_name (json, "value");
      json_builder_add_string_value (json, line->text);
    }
  else
    put_double (json, "value", line->value);
  if (line->rule.rule_id != NULL)
    put_rule (json, &line->rule);
  json_builder_end_object (json);
}

static void
put_table (JsonBuilder *json, const SwWorking *working)
{
  static const char *const names[] = { "symbol", "what", "unit", NULL };
  json_builder_set_member_name (json, "columns");
  json_builder_begin_array (json);
  for (guint c = 0; c < working->n_columns; c++)
    {
      json_builder_begin_object (json);
      put_strings (json, names, (const char *const[]){ working->columns[c].symbol, working->columns[c].what, working->columns[c].unit });
      json_builder_end_object (json);
    }
  json_builder_end_array (json);
  json_builder_set_member_name (json, "rows");
  json_builder_begin_array (json);
  for (guint row = 0; row < sw_working_n_rows (working); row++)
    {
      json_builder_begin_array (json);
      for (guint c = 0; c < working->n_columns; c++)
        put_double (json, NULL, g_array_index (working->cells, double, row * working->n_columns + c));
      json_builder_end_array (json);
    }
  json_builder_end_array (json);
}

static char *
answer_json (const SwQuestion *question, const SwWorking *working)
{
  static const char *const verdicts[] = { "", "good", "bad" };
  static const char *const names[] = { "question", "verdict", "said", "rule_set", NULL };
  g_autoptr (JsonBuilder) json = json_builder_new ();
  json_builder_begin_object (json);
  put_strings (json, names, (const char *const[]){ question->id, verdicts[working->verdict], working->said != NULL ? working->said : "", sw_rules_name (working->rules) });
  json_builder_set_member_name (json, "working");
  json_builder_begin_array (json);
  for (guint i = 0; i < working->lines->len; i++)
    put_working_line (json, &g_array_index (working->lines, SwWorkingLine, i));
  json_builder_end_array (json);
  if (working->columns != NULL)
    put_table (json, working);
  json_builder_end_object (json);
  return write_builder (json);
}

/* ---- asking */

/* "depth=255": FALSE when there is no "=". */
static gboolean
read_given (GHashTable *given, char **parts, int n)
{
  for (int i = 0; i < n; i++)
    {
      char *equals = strchr (parts[i], '=');
      if (equals == NULL)
        return FALSE;
      g_hash_table_replace (given, g_strndup (parts[i], equals - parts[i]), g_strdup (equals + 1));
    }
  return TRUE;
}

/* Most questions have none: that is said, and nothing is written. */
static int
draw_answer (const SwQuestion *question, const SwWorking *working, const char *to)
{
  GError *error = NULL;
  SwSheetPage page;
  SwPageFormat format;
  if (!sw_page_format_find (to, &format, &error))
    return sw_cli_fail (error);
  g_autoptr (SwDisplay) display = sw_picture_of_answer (question, working, &page.page);
  page.display = display;
  if (display != NULL)
    return sw_cli_put_pages (&page, 1, format, to);
  g_set_error (&error, SW_ERROR, SW_ERROR_NOT_FOUND, _("the question \"%s\" has no picture"), question->id);
  return sw_cli_fail (error);
}

static int
answer (const AskArgs *args, const SwQuestion *question, GHashTable *given)
{
  GError *error = NULL;
  SwLengths lengths = SW_LENGTHS_MM;
  g_autoptr (SwRules) rules = load_rules (args, &lengths, &error);
  g_autoptr (SwWorking) working = rules != NULL ? sw_question_ask (question, rules, given, &error) : NULL;
  if (working == NULL)
    {
      gboolean misuse = rules != NULL && g_error_matches (error, SW_ERROR, SW_ERROR_INVALID);
      int failed = sw_cli_fail (error);
      return misuse ? SW_CLI_USAGE : failed;
    }
  working->lengths = lengths;
  int drawn = args->picture != NULL ? draw_answer (question, working, args->picture) : SW_CLI_GOOD;
  if (drawn != SW_CLI_GOOD)
    return drawn;
  g_autofree char *text = g_strcmp0 (args->format, "json") == 0 ? answer_json (question, working) : sw_working_text (working, translate);
  return sw_cli_put (args->to, text, -1);
}

static int
run_ask (const SwCliVerb *verb, const AskArgs *args, int argc, char **argv)
{
  gboolean json = g_strcmp0 (args->format, "json") == 0;
  const SwQuestion *question = argc > 1 ? sw_questions_find (argv[1]) : NULL;
  if (args->format != NULL && !json && strcmp (args->format, "text") != 0)
    return sw_cli_misuse (verb, _("--format is text or json, not \"%s\""), args->format);
  if (args->job != NULL && (args->rules != NULL || args->overrides != NULL))
    return sw_cli_misuse (verb, _("--job brings its own rules: leave out --rules and --overrides"));
  if (argc > 1 && question == NULL)
    return sw_cli_misuse (verb, _("there is no question \"%s\": \"soffit ask\" lists them"), argv[1]);
  if (argc <= 2)
    {
      g_autofree char *text = json ? list_json (question) : question != NULL ? help_text (question) : list_text ();
      return sw_cli_put (args->to, text, -1);
    }
  g_autoptr (GHashTable) given = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  if (!read_given (given, argv + 2, argc - 2))
    return sw_cli_misuse (verb, _("values are written KEY=VALUE, as in depth=255"));
  return answer (args, question, given);
}

int
sw_cli_ask (const SwCliVerb *verb, int argc, char **argv)
{
  AskArgs args = { NULL };
  const GOptionEntry options[] = {
    { "rules", 0, 0, G_OPTION_ARG_STRING, &args.rules, N_("rule set to ask, south-africa when none is named"), N_("NAME") },
    { "overrides", 0, 0, G_OPTION_ARG_FILENAME, &args.overrides, N_("values of your own, laid over the rule set"), N_("FILE") },
    { "job", 0, 0, G_OPTION_ARG_FILENAME, &args.job, N_("take rule set, own values and units from this job"), N_("JOB") },
    { "format", 'f', 0, G_OPTION_ARG_STRING, &args.format, N_("text (the default) or json"), N_("WORD") },
    { "to", 't', 0, G_OPTION_ARG_FILENAME, &args.to, N_("write into FILE instead of standard output"), N_("FILE") },
    { "picture", 0, 0, G_OPTION_ARG_FILENAME, &args.picture, N_("draw the answer of fit or fall-table into FILE as well: svg, pdf or png by the ending"), N_("FILE") },
    { NULL },
  };
  int result = sw_cli_parse (verb, options, &argc, &argv, 0, 100) ? run_ask (verb, &args, argc, argv) : SW_CLI_USAGE;
  g_free (args.rules);
  g_free (args.overrides);
  g_free (args.job);
  g_free (args.format);
  g_free (args.to);
  g_free (args.picture);
  return result;
}
