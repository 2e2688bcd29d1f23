/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/export_context.h"
#include "cli/verbs.h"
#include "sheets/schedule.h"
#include <glib/gi18n.h>

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

static int
write_schedule (const char *path, const SwScheduleInfo *info, const char *to)
{
  g_autoptr (SwPapers) papers = sw_cli_open_papers (path);
  if (papers == NULL)
    return SW_CLI_FAILED;
  g_autoptr (SwSchedule) schedule = sw_schedule_new (sw_papers_context (papers), info);
  g_autofree char *csv = sw_schedule_csv (schedule);
  return sw_cli_put (to, csv, -1);
}

int
sw_cli_schedule (const SwCliVerb *verb, int argc, char **argv)
{
  g_autofree char *to = NULL, *id = NULL;
  gboolean list = FALSE;
  const GOptionEntry options[] = {
    { "list", 'l', 0, G_OPTION_ARG_NONE, &list, N_("say which schedules there are"), NULL },
    { "schedule", 's', 0, G_OPTION_ARG_STRING, &id, N_("write this schedule as CSV"), N_("ID") },
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
  return write_schedule (argv[1], info, to);
}
