/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "cli/cli.h"
#include "job/desk.h"
#include "store/job_file.h"
#include "store/text_form.h"

static gboolean
change_text (const char *path, SwCliChange change, gpointer data, GError **error)
{
  g_autoptr (SwJob) job = sw_text_form_load (path, error);
  g_autoptr (SwEdit) edit = job != NULL ? change (job, data, error) : NULL;
  if (edit != NULL && sw_edit_is_empty (edit))
    return TRUE;
  g_autoptr (SwJob) next = edit != NULL ? sw_job_apply (job, edit, TRUE, error) : NULL;
  return next != NULL && sw_text_form_save (next, path, error);
}

static gboolean
change_file (const char *path, SwCliChange change, gpointer data, GError **error)
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
  g_autoptr (SwEdit) edit = change (sw_desk_job (desk), data, error);
  return edit != NULL && sw_desk_do (desk, edit, error);
}

int
sw_cli_change_job (const char *path, SwCliChange change, gpointer data)
{
  GError *error = NULL;
  gboolean done = g_str_has_suffix (path, ".json") ? change_text (path, change, data, &error)
                                                   : change_file (path, change, data, &error);
  return done ? SW_CLI_GOOD : sw_cli_fail (error);
}
