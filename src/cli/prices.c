/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/verbs.h"
#include "store/price_list.h"
#include <glib/gi18n.h>

int
sw_cli_prices (const SwCliVerb *verb, int argc, char **argv)
{
  GError *error = NULL;
  g_autofree char *to = NULL;
  const GOptionEntry options[] = {
    { "to", 't', 0, G_OPTION_ARG_FILENAME, &to, N_("write to FILE instead of standard output"), N_("FILE") },
    { NULL },
  };
  if (!sw_cli_parse (verb, options, &argc, &argv, 1, 1))
    return SW_CLI_USAGE;
  g_autoptr (SwJob) job = sw_cli_open_job (argv[1]);
  if (job == NULL)
    return SW_CLI_FAILED;
  g_autoptr (SwJob) priced = sw_price_list_or_default (job, &error);
  if (priced == NULL)
    return sw_cli_fail (error);
  g_autofree char *text = sw_price_list_write (priced);
  return sw_cli_put (to, text, -1);
}
