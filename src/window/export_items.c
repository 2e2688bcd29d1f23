/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/export_items.h"
#include "base/error.h"
#include "sheets/papers.h"
#include "sheets/words.h"
#include "store/price_list.h"

struct _SwExports
{
  gatomicrefcount refs;
  SwPapers *papers;
  GArray *items; /* SwReportItem */
};

SwExports *
sw_exports_new (const SwPicture *picture, GCancellable *cancellable, GError **error)
{
  if (picture->rules == NULL)
    {
      g_set_error_literal (error, SW_ERROR, SW_ERROR_NOT_FOUND, picture->fault != NULL ? picture->fault->message : _("The job has no rule set."));
      return NULL;
    }
  SwJob *job = sw_picture_job (picture);
  g_autoptr (SwJob) priced = sw_price_list_or_default (job, error);
  SwPapers *papers = priced != NULL ? sw_papers_new (priced, picture->rules, priced != job, cancellable, error) : NULL;
  if (papers == NULL)
    return NULL;
  SwExports *exports = g_new0 (SwExports, 1);
  g_atomic_ref_count_init (&exports->refs);
  exports->papers = papers;
  exports->items = sw_report_items (sw_papers_context (papers));
  return exports;
}

SwExports *
sw_exports_ref (SwExports *exports)
{
  g_atomic_ref_count_inc (&exports->refs);
  return exports;
}

void
sw_exports_unref (SwExports *exports)
{
  if (!g_atomic_ref_count_dec (&exports->refs))
    return;
  g_array_unref (exports->items);
  sw_papers_free (exports->papers);
  g_free (exports);
}

guint
sw_exports_n (const SwExports *exports)
{
  return exports->items->len;
}

const SwReportItem *
sw_exports_item (const SwExports *exports, guint i)
{
  return &g_array_index (exports->items, SwReportItem, i);
}

static SwSheetContext
context_of (const SwExports *exports, gboolean mono)
{
  SwSheetContext context = *sw_papers_context (exports->papers);
  context.options.theme = mono ? SW_THEME_MONO : SW_THEME_LIGHT;
  return context;
}

SwSheet *
sw_exports_draw (const SwExports *exports, guint i, gboolean mono, GError **error)
{
  const SwReportItem *item = sw_exports_item (exports, i);
  SwSheetContext context = context_of (exports, mono);
  return item->sheet != NULL ? sw_sheet_draw (&context, item->sheet, &item->args, error) : NULL;
}

const SwRules *
sw_exports_rules (const SwExports *exports)
{
  return sw_papers_context (exports->papers)->rules;
}

SwSchedule *
sw_exports_schedule (const SwExports *exports, guint i)
{
  const SwReportItem *item = sw_exports_item (exports, i);
  return item->schedule != NULL ? sw_schedule_new (sw_papers_context (exports->papers), item->schedule) : NULL;
}

gboolean
sw_exports_write (const SwExports *exports, guint i, gboolean mono, const char *path, GError **error)
{
  if (sw_exports_item (exports, i)->schedule != NULL)
    {
      g_autoptr (SwSchedule) schedule = sw_exports_schedule (exports, i);
      g_autofree char *csv = sw_schedule_csv (schedule);
      return g_file_set_contents (path, csv, -1, error);
    }
  g_autoptr (SwSheet) sheet = sw_exports_draw (exports, i, mono, error);
  return sheet != NULL && sw_sheets_write (sheet, path, error) > 0;
}

int
sw_exports_write_all (const SwExports *exports, const char *folder, const char *ending, gboolean mono, GCancellable *cancellable,
                      GError **error)
{
  SwReportFormats formats = SW_REPORT_CSV | (g_str_equal (ending, "pdf") ? SW_REPORT_PDF : g_str_equal (ending, "png") ? SW_REPORT_PNG : SW_REPORT_SVG);
  SwSheetContext context = context_of (exports, mono);
  g_auto (GStrv) written = sw_sheets_export_all (&context, folder, formats, NULL, NULL, cancellable, error);
  return written != NULL ? (int) g_strv_length (written) : -1;
}
