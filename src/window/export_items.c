/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/export_items.h"
#include "base/error.h"
#include "sheets/plan_sheet.h"
#include "sheets/words.h"

guint
sw_export_n (void)
{
  return sw_plan_sheets_n () + sw_schedules_n ();
}

gboolean
sw_export_is_sheet (guint i)
{
  return i < sw_plan_sheets_n ();
}

static const SwScheduleInfo *
schedule_info (guint i)
{
  return sw_schedules_get (i - sw_plan_sheets_n ());
}

const char *
sw_export_title (guint i)
{
  return sw_word (sw_export_is_sheet (i) ? sw_plan_sheets_get (i)->title : schedule_info (i)->title);
}

char *
sw_export_stem (guint i)
{
  if (sw_export_is_sheet (i))
    return g_strdup_printf ("sheet-%s", sw_plan_sheets_get (i)->id);
  return g_strdup_printf ("schedule-%s", schedule_info (i)->id);
}

SwDisplay *
sw_export_draw (const SwPicture *picture, guint i, SwPage *page)
{
  SwSheetContext context = { picture->deck, picture->rules };
  if (!sw_export_is_sheet (i) || picture->rules == NULL)
    return NULL;
  return sw_plan_sheet_draw (&context, sw_plan_sheets_get (i), page);
}

SwSchedule *
sw_export_schedule (const SwPicture *picture, guint i)
{
  SwSheetContext context = { picture->deck, picture->rules };
  if (sw_export_is_sheet (i) || picture->rules == NULL)
    return NULL;
  return sw_schedule_new (&context, schedule_info (i));
}

gboolean
sw_export_write (const SwPicture *picture, guint i, gboolean mono, const char *path, GError **error)
{
  if (picture->rules == NULL)
    {
      g_set_error_literal (error, SW_ERROR, SW_ERROR_NOT_FOUND, picture->fault != NULL ? picture->fault->message : _("The job has no rule set."));
      return FALSE;
    }
  if (!sw_export_is_sheet (i))
    {
      g_autoptr (SwSchedule) schedule = sw_export_schedule (picture, i);
      g_autofree char *csv = sw_schedule_csv (schedule);
      return g_file_set_contents (path, csv, -1, error);
    }
  SwPage page;
  SwPageFormat format;
  if (!sw_page_format_find (path, &format, error))
    return FALSE;
  g_autoptr (SwDisplay) display = sw_export_draw (picture, i, &page);
  if (mono)
    page.theme = SW_THEME_MONO;
  return sw_page_export (display, &page, format, path, error);
}

int
sw_export_write_all (const SwPicture *picture, const char *folder, const char *ending, gboolean mono, GCancellable *cancellable,
                     GError **error)
{
  for (guint i = 0; i < sw_export_n (); i++)
    {
      g_autofree char *stem = sw_export_stem (i), *path = g_strdup_printf ("%s/%s.%s", folder, stem, sw_export_is_sheet (i) ? ending : "csv");
      if (g_cancellable_set_error_if_cancelled (cancellable, error) || !sw_export_write (picture, i, mono, path, error))
        return -1;
    }
  return (int) sw_export_n ();
}
