/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "cli/verbs.h"
#include "job/desk.h"
#include "store/job_file.h"
#include "store/price_list.h"
#include "store/text_form.h"
#include <glib/gi18n.h>

static gboolean
read_into_text (const char *path, const char *from, GError **error)
{
  g_autoptr (SwJob) job = sw_text_form_load (path, error);
  g_autoptr (SwEdit) edit = job != NULL ? sw_price_list_load (job, from, error) : NULL;
  g_autoptr (SwJob) next = edit != NULL ? sw_job_apply (job, edit, TRUE, error) : NULL;
  return next != NULL && sw_text_form_save (next, path, error);
}

/* One edit, which can be undone in the window. */
static gboolean
read_into_file (const char *path, const char *from, GError **error)
{
  g_autoptr (SwJobFile) file = sw_job_file_open (path, FALSE, error);
  if (file == NULL)
    return FALSE;
  g_autofree char *why = sw_job_file_read_only_text (file);
  if (why != NULL)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_READ_ONLY, "%s: %s", path, why);
      return FALSE;
    }
  g_autoptr (SwDesk) desk = sw_desk_new (sw_job_file_job (file), sw_job_file_take_journal (file));
  g_autoptr (SwEdit) edit = sw_price_list_load (sw_desk_job (desk), from, error);
  return edit != NULL && sw_desk_do (desk, edit, error);
}

static int
take_over (const char *path, const char *from)
{
  GError *error = NULL;
  gboolean read = g_str_has_suffix (path, ".json") ? read_into_text (path, from, &error) : read_into_file (path, from, &error);
  return read ? SW_CLI_GOOD : sw_cli_fail (error);
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
  return from != NULL ? take_over (argv[1], from) : write_list (argv[1], to);
}
