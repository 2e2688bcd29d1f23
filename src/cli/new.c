/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/verbs.h"
#include "job/edit.h"
#include "store/catalogue.h"
#include <glib/gi18n.h>

/* The catalogue's profiles and a name; NULL when it may not have that. */
static SwJob *
new_job (const char *name, GError **error)
{
  g_autoptr (SwJob) job = sw_catalogue_load (error);
  if (job == NULL)
    return NULL;
  g_autoptr (SwEdit) edit = sw_edit_new ("");
  SwRecord *info = sw_record_copy ((const SwRecord *) sw_job_info (job));
  sw_text_set (&((SwJobInfo *) info)->name, name);
  return sw_edit_put (edit, job, info, error) ? sw_job_apply (job, edit, TRUE, error) : NULL;
}

int
sw_cli_new (const SwCliVerb *verb, int argc, char **argv)
{
  GError *error = NULL;
  gboolean replace = FALSE;
  g_autofree char *name = NULL;
  const GOptionEntry options[] = {
    { "name", 'n', 0, G_OPTION_ARG_STRING, &name, N_("call the job NAME"), N_("NAME") },
    { "replace", 'r', 0, G_OPTION_ARG_NONE, &replace, N_("replace a file that is there"), NULL },
    { NULL },
  };
  if (!sw_cli_parse (verb, options, &argc, &argv, 1, 1))
    return SW_CLI_USAGE;
  g_autoptr (SwJob) job = new_job (name != NULL ? name : _("New job"), &error);
  return job != NULL ? sw_cli_save_job (job, argv[1], replace) : sw_cli_fail (error);
}
