/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/price_job.h"
#include "job/edit.h"
#include "store/price_list.h"
#include <glib/gi18n.h>

void
sw_cli_price_args_clear (SwCliPriceArgs *args)
{
  g_free (args->room);
  g_free (args->list);
  g_free (args->format);
  g_free (args->to);
}

gboolean
sw_cli_format_good (const SwCliVerb *verb, const char *format)
{
  static const char *const formats[] = { "text", "csv", "json", NULL };
  if (format == NULL || g_strv_contains (formats, format))
    return TRUE;
  sw_cli_misuse (verb, _("--format is text, csv or json, not \"%s\""), format);
  return FALSE;
}

/* ---- the job */

/* The job with the prices of a file over its own. */
static SwJob *
with_list (SwJob *job, const char *path, GError **error)
{
  g_autoptr (SwEdit) edit = sw_price_list_load (job, path, error);
  return edit != NULL ? sw_job_apply (job, edit, TRUE, error) : NULL;
}

static gboolean
open_job (SwCliPriceJob *job, const SwCliPriceArgs *args, SwJob *bare, GError **error)
{
  g_autoptr (SwJob) priced = args->list != NULL ? with_list (bare, args->list, error) : sw_price_list_or_default (bare, error);
  if (priced == NULL)
    return FALSE;
  job->invented = priced != bare && args->list == NULL;
  job->deck = sw_deck_new (priced);
  job->rules = sw_cli_rules_of (bare, error);
  if (job->rules == NULL)
    return FALSE;
  job->room = args->room != NULL ? sw_cli_find_room (priced, args->room, error) : NULL;
  return args->room == NULL || job->room != NULL;
}

gboolean
sw_cli_price_job_open (SwCliPriceJob *job, const SwCliPriceArgs *args, const char *path)
{
  GError *error = NULL;
  g_autoptr (SwJob) bare = sw_cli_open_job (path);
  if (bare == NULL)
    return FALSE;
  if (open_job (job, args, bare, &error))
    return TRUE;
  sw_cli_fail (error);
  return FALSE;
}

void
sw_cli_price_job_clear (SwCliPriceJob *job)
{
  g_clear_pointer (&job->deck, sw_deck_unref);
  g_clear_pointer (&job->rules, sw_rules_unref);
}
