/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/cli.h"
#include "base/error.h"
#include "store/job_file.h"
#include "store/text_form.h"
#include <glib/gi18n.h>
#include <stdio.h>
#include <string.h>

gboolean
sw_cli_parse (const SwCliVerb *verb, const GOptionEntry *options, int *argc, char ***argv, int least, int most)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GOptionContext) context = g_option_context_new (verb->operands);
  g_autofree char *program = g_strdup_printf ("soffit %s", verb->name);
  g_set_prgname (program);
  g_option_context_set_summary (context, _(verb->summary));
  g_option_context_set_translation_domain (context, GETTEXT_PACKAGE);
  if (options != NULL)
    g_option_context_add_main_entries (context, options, GETTEXT_PACKAGE);
  if (!g_option_context_parse (context, argc, argv, &error))
    {
      sw_cli_misuse (verb, "%s", error->message);
      return FALSE;
    }
  /* GOption leaves a "--" before the operands when one of them looks like an option. */
  if (*argc > 1 && strcmp ((*argv)[1], "--") == 0)
    {
      memmove (*argv + 1, *argv + 2, (gsize) (*argc - 1) * sizeof **argv);
      --*argc;
    }
  int operands = *argc - 1;
  if (operands >= least && operands <= most)
    return TRUE;
  sw_cli_misuse (verb,
                 operands < least ? _("something is missing: it takes %s") : _("too many operands: it takes %s"),
                 verb->operands);
  return FALSE;
}

static char *
read_all_input (gsize *length)
{
  GString *text = g_string_new (NULL);
  char part[65536];
  gsize got;
  while ((got = fread (part, 1, sizeof part, stdin)) > 0)
    g_string_append_len (text, part, (gssize) got);
  *length = text->len;
  return g_string_free (text, FALSE);
}

gboolean
sw_cli_read (const char *path, char **text, gsize *length, GError **error)
{
  g_autoptr (GError) fault = NULL;
  if (strcmp (path, "-") == 0)
    {
      *text = read_all_input (length);
      return TRUE;
    }
  if (g_file_get_contents (path, text, length, &fault))
    return TRUE;
  g_set_error_literal (error, SW_ERROR, SW_ERROR_IO, fault->message);
  return FALSE;
}

static gboolean
is_text_form (const char *path)
{
  return strcmp (path, "-") == 0 || g_str_has_suffix (path, ".json");
}

static SwJob *
read_job (const char *path, GError **error)
{
  if (!is_text_form (path))
    {
      g_autoptr (SwJobFile) file = sw_job_file_open (path, TRUE, error);
      return file != NULL ? sw_job_ref (sw_job_file_job (file)) : NULL;
    }
  if (strcmp (path, "-") != 0)
    return sw_text_form_load (path, error);
  gsize length;
  g_autofree char *text = read_all_input (&length);
  return sw_text_form_read (text, (gssize) length, error);
}

SwJob *
sw_cli_open_job (const char *path)
{
  GError *error = NULL;
  SwJob *job = read_job (path, &error);
  if (job == NULL)
    sw_cli_fail (error);
  return job;
}

const SwRoom *
sw_cli_find_room (const SwJob *job, const char *name, GError **error)
{
  const SwRecord *record = sw_job_find (job, name);
  if (record != NULL && sw_record_table (record) == SW_TABLE_ROOM)
    return (const SwRoom *) record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_ROOM); (record = sw_job_iter_next (&i)) != NULL;)
    if (strcmp (((const SwRoom *) record)->name, name) == 0)
      return (const SwRoom *) record;
  g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, _("the job has no room \"%s\""), name);
  return NULL;
}

SwRules *
sw_cli_rules_of (const SwJob *job, GError **error)
{
  const SwJobInfo *info = sw_job_info (job);
  const char *changes = *info->rule_overrides != '\0' ? info->rule_overrides : NULL;
  return sw_rules_load_text (info->rule_set, changes, _("changed rule values of the job"), error);
}

static gboolean
write_job (SwJob *job, const char *path, gboolean replace, GError **error)
{
  if (!is_text_form (path))
    {
      g_autoptr (SwJobFile) file = sw_job_file_create (path, job, replace, error);
      return file != NULL;
    }
  if (replace || !g_file_test (path, G_FILE_TEST_EXISTS))
    return sw_text_form_save (job, path, error);
  g_set_error (error, SW_ERROR, SW_ERROR_CONFLICT, _("%s: there is a file of this name already"), path);
  return FALSE;
}

int
sw_cli_save_job (SwJob *job, const char *path, gboolean replace)
{
  GError *error = NULL;
  if (write_job (job, path, replace, &error))
    return SW_CLI_GOOD;
  return sw_cli_fail (error);
}

int
sw_cli_put (const char *to, const char *bytes, gssize length)
{
  gsize size = length < 0 ? strlen (bytes) : (gsize) length;
  GError *error = NULL;
  if (to != NULL && strcmp (to, "-") != 0)
    return g_file_set_contents (to, bytes, (gssize) size, &error) ? SW_CLI_GOOD : sw_cli_fail (error);
  if (fwrite (bytes, 1, size, stdout) == size && fflush (stdout) == 0)
    return SW_CLI_GOOD;
  g_printerr ("soffit: %s\n", _("standard output cannot be written"));
  return SW_CLI_FAILED;
}

int
sw_cli_fail (GError *error)
{
  g_printerr ("soffit: %s\n", error->message);
  g_error_free (error);
  return SW_CLI_FAILED;
}

int
sw_cli_misuse (const SwCliVerb *verb, const char *format, ...)
{
  va_list args;
  va_start (args, format);
  g_autofree char *what = g_strdup_vprintf (format, args);
  va_end (args);
  g_printerr ("soffit %s: %s\n", verb->name, what);
  g_printerr (_("Try \"soffit %s --help\".\n"), verb->name);
  return SW_CLI_USAGE;
}
