/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/verbs.h"
#include <glib/gi18n.h>

int
sw_cli_validate (const SwCliVerb *verb, int argc, char **argv)
{
  int result = SW_CLI_GOOD;
  if (!sw_cli_parse (verb, NULL, &argc, &argv, 1, G_MAXINT))
    return SW_CLI_USAGE;
  for (int i = 1; i < argc; i++)
    {
      g_autoptr (SwJob) job = sw_cli_open_job (argv[i]);
      if (job == NULL)
        result = SW_CLI_FAILED;
      else
        g_print (_("%s: a good job\n"), argv[i]);
    }
  return result;
}
