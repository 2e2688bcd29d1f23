/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/export_context.h"
#include "cli/verbs.h"
#include "sheets/plan_sheet.h"
#include "sheets/schedule.h"
#include <glib/gi18n.h>
#include <glib/gstdio.h>
#include <errno.h>

static gboolean
export_sheets (const SwSheetContext *context, const char *folder, GError **error)
{
  for (guint i = 0; i < sw_plan_sheets_n (); i++)
    {
      SwPage page;
      const SwPlanSheetInfo *info = sw_plan_sheets_get (i);
      g_autofree char *path = g_strdup_printf ("%s/sheet-%s.svg", folder, info->id);
      g_autoptr (SwDisplay) display = sw_plan_sheet_draw (context, info, &page);
      if (!sw_page_export (display, &page, SW_PAGE_SVG, path, error))
        return FALSE;
      g_print ("%s\n", path);
    }
  return TRUE;
}

static gboolean
export_schedules (const SwSheetContext *context, const char *folder, GError **error)
{
  for (guint i = 0; i < sw_schedules_n (); i++)
    {
      const SwScheduleInfo *info = sw_schedules_get (i);
      g_autofree char *path = g_strdup_printf ("%s/schedule-%s.csv", folder, info->id);
      g_autoptr (SwSchedule) schedule = sw_schedule_new (context, info);
      g_autofree char *csv = sw_schedule_csv (schedule);
      if (!g_file_set_contents (path, csv, -1, error))
        return FALSE;
      g_print ("%s\n", path);
    }
  return TRUE;
}

int
sw_cli_export (const SwCliVerb *verb, int argc, char **argv)
{
  g_autofree char *to = NULL;
  gboolean all = FALSE;
  GError *error = NULL;
  const GOptionEntry options[] = {
    { "all", 'a', 0, G_OPTION_ARG_NONE, &all, N_("every sheet as SVG and every schedule as CSV"), NULL },
    { "to", 't', 0, G_OPTION_ARG_FILENAME, &to, N_("write into this folder"), N_("FOLDER") },
    { NULL },
  };
  if (!sw_cli_parse (verb, options, &argc, &argv, 1, 1))
    return SW_CLI_USAGE;
  if (!all || to == NULL)
    return sw_cli_misuse (verb, "%s", _("say --all and, with --to, a folder"));
  g_auto (SwCliExport) given = { NULL };
  if (!sw_cli_export_open (&given, argv[1]))
    return SW_CLI_FAILED;
  if (g_mkdir_with_parents (to, 0777) != 0)
    {
      g_set_error (&error, G_FILE_ERROR, g_file_error_from_errno (errno), _("%s cannot be made: %s"), to, g_strerror (errno));
      return sw_cli_fail (error);
    }
  if (!export_sheets (&given.context, to, &error) || !export_schedules (&given.context, to, &error))
    return sw_cli_fail (error);
  return SW_CLI_GOOD;
}
