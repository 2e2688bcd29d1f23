/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/verbs.h"
#include "store/job_file.h"
#include "store/text_form.h"
#include <glib/gi18n.h>

int
sw_cli_schema (const SwCliVerb *verb, int argc, char **argv)
{
  g_autofree char *to = NULL;
  gboolean sql = FALSE;
  const GOptionEntry options[] = {
    { "to", 't', 0, G_OPTION_ARG_FILENAME, &to, N_("write into FILE instead of standard output"), N_("FILE") },
    { "sql", 0, 0, G_OPTION_ARG_NONE, &sql, N_("write the tables of the job file instead"), NULL },
    { NULL },
  };
  if (!sw_cli_parse (verb, options, &argc, &argv, 0, 0))
    return SW_CLI_USAGE;
  g_autofree char *text = sql ? sw_job_schema_sql () : sw_text_form_schema ();
  return sw_cli_put (to, text, -1);
}
