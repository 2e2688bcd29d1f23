/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/verbs.h"
#include <glib/gi18n.h>

int
sw_cli_make (const SwCliVerb *verb, int argc, char **argv)
{
  gboolean replace = FALSE;
  const GOptionEntry options[] = {
    { "replace", 'r', 0, G_OPTION_ARG_NONE, &replace, N_("replace a file that is there"), NULL },
    { NULL },
  };
  if (!sw_cli_parse (verb, options, &argc, &argv, 2, 2))
    return SW_CLI_USAGE;
  g_autoptr (SwJob) job = sw_cli_open_job (argv[1]);
  return job != NULL ? sw_cli_save_job (job, argv[2], replace) : SW_CLI_FAILED;
}
