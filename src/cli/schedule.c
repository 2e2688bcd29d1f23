/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/export_context.h"
#include "cli/verbs.h"
#include "sheets/schedule_rules.h"
#include <glib/gi18n.h>
#include <json-glib/json-glib.h>
#include <string.h>

static int
list_schedules (const char *to)
{
  g_autoptr (GString) text = g_string_new (NULL);
  for (guint i = 0; i < sw_schedules_n (); i++)
    {
      const SwScheduleInfo *info = sw_schedules_get (i);
      g_string_append_printf (text, "%-14s %s\n", info->id, _(info->description));
    }
  return sw_cli_put (to, text->str, -1);
}

static void
add_member (JsonBuilder *json, const char *name, const char *value)
{
  json_builder_set_member_name (json, name);
  json_builder_add_string_value (json, value);
}

/* The columns with what their figures rest on. */
static void
add_columns (JsonBuilder *json, const SwScheduleInfo *info, const SwRules *rules)
{
  g_autoptr (GPtrArray) all = sw_schedule_rules (info, G_MAXUINT, rules);
  json_builder_set_member_name (json, "columns");
  json_builder_begin_array (json);
  for (guint c = 0, next = 0; c < info->n_columns; c++)
    {
      json_builder_begin_object (json);
      add_member (json, "key", info->columns[c].key);
      add_member (json, "title", _(info->columns[c].title));
      add_member (json, "unit", info->columns[c].unit);
      json_builder_set_member_name (json, "rests_on");
      json_builder_begin_array (json);
      for (; next < all->len && ((const SwScheduleRule *) all->pdata[next])->column == c; next++)
        {
          const SwScheduleRule *rule = all->pdata[next];
          json_builder_begin_object (json);
          add_member (json, "rule", rule->rule_id);
          add_member (json, "value", rule->value);
          add_member (json, "source", rule->source);
          add_member (json, "confidence", sw_confidence_word (rule->confidence));
          json_builder_set_member_name (json, "changed");
          json_builder_add_boolean_value (json, rule->overridden);
          json_builder_end_object (json);
        }
      json_builder_end_array (json);
      json_builder_end_object (json);
    }
  json_builder_end_array (json);
}

static char *
schedule_json (const SwSchedule *schedule, const SwRules *rules)
{
  const SwScheduleInfo *info = sw_schedule_info (schedule);
  g_autoptr (JsonBuilder) json = json_builder_new ();
  double number;
  json_builder_begin_object (json);
  add_member (json, "schedule", info->id);
  add_columns (json, info, rules);
  json_builder_set_member_name (json, "rows");
  json_builder_begin_array (json);
  for (guint row = 0; row < sw_schedule_n_rows (schedule); row++)
    {
      json_builder_begin_object (json);
      for (guint c = 0; c < info->n_columns; c++)
        {
          json_builder_set_member_name (json, info->columns[c].key);
          if (sw_schedule_number (schedule, row, c, &number))
            json_builder_add_double_value (json, number);
          else if (info->columns[c].kind == SW_CELL_NUMBER)
            json_builder_add_null_value (json);
          else
            json_builder_add_string_value (json, sw_schedule_text (schedule, row, c));
        }
      json_builder_end_object (json);
    }
  json_builder_end_array (json);
  json_builder_end_object (json);
  g_autoptr (JsonNode) root = json_builder_get_root (json);
  g_autofree char *text = json_to_string (root, TRUE);
  return g_strconcat (text, "\n", NULL);
}

/* One cell a line below its row's first, so that wide schedules can be read in a terminal; then what the figures rest on. */
static char *
schedule_text (const SwSchedule *schedule, const SwRules *rules)
{
  const SwScheduleInfo *info = sw_schedule_info (schedule);
  GString *out = g_string_new (NULL);
  for (guint row = 0; row < sw_schedule_n_rows (schedule); row++)
    for (guint c = 0; c < info->n_columns; c++)
      {
        const char *text = sw_schedule_text (schedule, row, c);
        g_autofree char *heading = sw_schedule_heading (info, c);
        if (*text != '\0')
          g_string_append_printf (out, "%s%s: %s\n", c > 0 ? "  " : "", heading, text);
      }
  g_autoptr (GPtrArray) all = sw_schedule_rules (info, G_MAXUINT, rules);
  if (all->len > 0)
    g_string_append_printf (out, "\n%s\n", _("Rests on"));
  for (guint i = 0; i < all->len; i++)
    {
      g_autofree char *line = sw_schedule_rule_text (info, all->pdata[i], SW_LENGTHS_MM);
      g_string_append_printf (out, "  %s\n", line);
    }
  return g_string_free (out, FALSE);
}

static int
write_schedule (const char *path, const SwScheduleInfo *info, const char *format, const char *to)
{
  g_autoptr (SwPapers) papers = sw_cli_open_papers (path);
  if (papers == NULL)
    return SW_CLI_FAILED;
  const SwSheetContext *context = sw_papers_context (papers);
  g_autoptr (SwSchedule) schedule = sw_schedule_new (context, info);
  g_autofree char *text = g_strcmp0 (format, "json") == 0 ? schedule_json (schedule, context->rules)
                          : g_strcmp0 (format, "text") == 0 ? schedule_text (schedule, context->rules) : sw_schedule_csv (schedule);
  return sw_cli_put (to, text, -1);
}

int
sw_cli_schedule (const SwCliVerb *verb, int argc, char **argv)
{
  g_autofree char *to = NULL, *id = NULL, *format = NULL;
  gboolean list = FALSE;
  const GOptionEntry options[] = {
    { "list", 'l', 0, G_OPTION_ARG_NONE, &list, N_("say which schedules there are"), NULL },
    { "schedule", 's', 0, G_OPTION_ARG_STRING, &id, N_("write this schedule as CSV"), N_("ID") },
    { "format", 'f', 0, G_OPTION_ARG_STRING, &format, N_("csv (the default), or text or json with the rules that the figures rest on"), N_("WORD") },
    { "to", 't', 0, G_OPTION_ARG_FILENAME, &to, N_("write into FILE instead of standard output"), N_("FILE") },
    { NULL },
  };
  if (!sw_cli_parse (verb, options, &argc, &argv, 0, 1))
    return SW_CLI_USAGE;
  if (list)
    return list_schedules (to);
  if (argc < 2 || id == NULL)
    return sw_cli_misuse (verb, "%s", _("name a job and, with --schedule, a schedule; --list says which there are"));
  const SwScheduleInfo *info = sw_schedules_find (id);
  if (info == NULL)
    return sw_cli_misuse (verb, _("there is no schedule \"%s\"; --list says which there are"), id);
  if (format != NULL && strcmp (format, "csv") != 0 && strcmp (format, "text") != 0 && strcmp (format, "json") != 0)
    return sw_cli_misuse (verb, _("--format is csv, text or json, not \"%s\""), format);
  return write_schedule (argv[1], info, format, to);
}
