/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/verbs.h"
#include "job/records.h"
#include <glib/gi18n.h>

int
sw_cli_info (const SwCliVerb *verb, int argc, char **argv)
{
  if (!sw_cli_parse (verb, NULL, &argc, &argv, 1, 1))
    return SW_CLI_USAGE;
  g_autoptr (SwJob) job = sw_cli_open_job (argv[1]);
  if (job == NULL)
    return SW_CLI_FAILED;
  const SwJobInfo *info = sw_job_info (job);
  g_autoptr (GString) text = g_string_new (NULL);
  g_string_append_printf (text, _("Job: %s\n"), info->name);
  if (*info->number != '\0')
    g_string_append_printf (text, _("Number: %s\n"), info->number);
  g_string_append_printf (text, _("Rule set: %s\n"), info->rule_set);
  for (SwTable table = SW_TABLE_JOB + 1; table < SW_N_TABLES; table++)
    if (sw_job_count (job, table) > 0)
      g_string_append_printf (text, "%6u  %s\n", sw_job_count (job, table), _(sw_type_get (table)->label));
  return sw_cli_put (NULL, text->str, -1);
}
