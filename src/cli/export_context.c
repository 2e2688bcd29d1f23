/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/export_context.h"
#include <glib/gi18n.h>

gboolean
sw_cli_export_open (SwCliExport *given, const char *path)
{
  GError *error = NULL;
  g_autoptr (SwJob) job = sw_cli_open_job (path);
  if (job == NULL)
    return FALSE;
  const SwJobInfo *info = sw_job_info (job);
  const char *changes = *info->rule_overrides != '\0' ? info->rule_overrides : NULL;
  given->context.rules = sw_rules_load_text (info->rule_set, changes, _("changed rule values of the job"), &error);
  if (given->context.rules == NULL)
    {
      sw_cli_fail (error);
      return FALSE;
    }
  given->context.deck = sw_deck_new (job);
  return TRUE;
}

void
sw_cli_export_clear (SwCliExport *given)
{
  g_clear_pointer (&given->context.deck, sw_deck_unref);
  g_clear_pointer (&given->context.rules, sw_rules_unref);
}
