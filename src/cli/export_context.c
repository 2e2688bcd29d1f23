/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/export_context.h"
#include "store/price_list.h"

SwPapers *
sw_cli_open_papers (const char *path)
{
  GError *error = NULL;
  g_autoptr (SwJob) bare = sw_cli_open_job (path);
  if (bare == NULL)
    return NULL;
  g_autoptr (SwJob) job = sw_price_list_or_default (bare, &error);
  if (job == NULL)
    {
      sw_cli_fail (error);
      return NULL;
    }
  g_autoptr (SwRules) rules = sw_cli_rules_of (job, &error);
  SwPapers *papers = rules != NULL ? sw_papers_new (job, rules, job != bare, NULL, &error) : NULL;
  if (papers == NULL)
    sw_cli_fail (error);
  return papers;
}
