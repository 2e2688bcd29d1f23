/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/verbs.h"
#include "store/price_list.h"
#include <glib/gi18n.h>

/* A SwCliChange: `data` is the list's path. */
static SwEdit *
read_list (SwJob *job, gpointer data, GError **error)
{
  return sw_price_list_load (job, data, error);
}

static int
write_list (const char *path, const char *to)
{
  GError *error = NULL;
  g_autoptr (SwJob) job = sw_cli_open_job (path);
  if (job == NULL)
    return SW_CLI_FAILED;
  g_autoptr (SwJob) priced = sw_price_list_or_default (job, &error);
  if (priced == NULL)
    return sw_cli_fail (error);
  g_autofree char *text = sw_price_list_write (priced);
  return sw_cli_put (to, text, -1);
}

int
sw_cli_prices (const SwCliVerb *verb, int argc, char **argv)
{
  g_autofree char *to = NULL, *from = NULL;
  const GOptionEntry options[] = {
    { "from", 0, 0, G_OPTION_ARG_FILENAME, &from, N_("add and change prices in the job as FILE, a CSV, has them"), N_("FILE") },
    { "to", 't', 0, G_OPTION_ARG_FILENAME, &to, N_("write to FILE instead of standard output"), N_("FILE") },
    { NULL },
  };
  if (!sw_cli_parse (verb, options, &argc, &argv, 1, 1))
    return SW_CLI_USAGE;
  if (from != NULL && to != NULL)
    return sw_cli_misuse (verb, "%s", _("--from and --to exclude each other"));
  return from != NULL ? sw_cli_change_job (argv[1], read_list, from) : write_list (argv[1], to);
}
