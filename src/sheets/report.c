/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What can be written is first listed: a sheet with what it is about, or a schedule. Then each is drawn and written in
 * turn, so that progress is known and cancelling leaves whole files only. Memory holds one sheet at a time, and all of them
 * when the set is asked for. */
#include "sheets/report.h"
#include "base/error.h"
#include "sheets/words.h"
#include <errno.h>
#include <glib/gstdio.h>
#include <string.h>

typedef struct
{
  const SwSheetContext *context;
  const char *folder;
  SwReportFormats formats;
  GPtrArray *written;
  GPtrArray *sheets; /* SwSheet, kept for the set */
} Report;

char *
sw_sheets_safe_name (const char *text)
{
  GString *name = g_string_new (NULL);
  for (const char *at = text; *at != '\0'; at = g_utf8_next_char (at))
    {
      gboolean good = g_ascii_isalnum (*at) || *at == '_' || *at == '-' || (*at == '.' && name->len > 0);
      if (good || (name->len > 0 && name->str[name->len - 1] != '-'))
        g_string_append_c (name, good ? *at : '-');
    }
  while (name->len > 0 && strchr ("-.", name->str[name->len - 1]) != NULL)
    g_string_truncate (name, name->len - 1);
  return g_string_free (name, FALSE);
}

static void
item_clear (gpointer data)
{
  g_free (((SwReportItem *) data)->title);
  g_free (((SwReportItem *) data)->stem);
}

static gboolean
has_stem (const GArray *items, const char *stem)
{
  for (guint i = 0; i < items->len; i++)
    if (g_ascii_strcasecmp (g_array_index (items, SwReportItem, i).stem, stem) == 0)
      return TRUE;
  return FALSE;
}

/* Two marks may give one name: later ones get a number. */
static void
add_sheet (GArray *items, const SwSheetInfo *info, SwSheetArgs args, const char *about)
{
  g_autofree char *safe = sw_sheets_safe_name (about);
  g_autofree char *name = g_strdup_printf (*safe != '\0' ? "sheet-%s-%s" : "sheet-%s", info->id, safe);
  g_autofree char *stem = g_strdup (name);
  for (guint n = 2; has_stem (items, stem); n++)
    {
      g_free (stem);
      stem = g_strdup_printf ("%s-%u", name, n);
    }
  SwReportItem item = { info, NULL, args, *about != '\0' ? g_strdup_printf ("%s: %s", _(info->title), about) : g_strdup (_(info->title)), g_steal_pointer (&stem) };
  g_array_append_val (items, item);
}

static void
add_falling_runs (GArray *items, const SwSheetInfo *info, const SwSheetContext *context)
{
  g_autoptr (GPtrArray) runs = sw_sheet_records (sw_sheet_job (context), SW_TABLE_RUN);
  for (guint i = 0; i < runs->len; i++)
    {
      const SwRun *run = g_ptr_array_index (runs, i);
      g_autoptr (SwRoute) route = run->fall > 0 ? sw_route_new (context->deck, context->rules, run, NULL) : NULL;
      if (route != NULL)
        add_sheet (items, info, (SwSheetArgs){ .record = run->record.id, .along = -1 }, run->record.tag);
    }
}

/* How many runs' vertices lie under each void of a bay. */
static void
count_vertices (const SwSheetContext *context, const SwDeckBay *bay, guint *counts)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_sheet_job (context), SW_TABLE_RUN); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwRun *run = (const SwRun *) record;
      for (guint k = 0; k < run->vertices.n; k++)
        {
          SwPoint at = SW_LIST_AT (run->vertices, SwVertex, k).at;
          int over = sw_deck_bay_at (context->deck, at) == bay ? sw_deck_void_at (bay, sw_deck_to_bay (bay, at).y) : -1;
          if (over >= 0)
            counts[over]++;
        }
    }
}

static void
add_busy_voids (GArray *items, const SwSheetInfo *info, const SwSheetContext *context)
{
  for (guint i = 0; context->space != NULL && i < sw_deck_n_bays (context->deck); i++)
    {
      const SwDeckBay *bay = sw_deck_bay (context->deck, i);
      g_autofree guint *counts = g_new0 (guint, bay->voids->len + 1);
      guint best = 0;
      count_vertices (context, bay, counts);
      for (guint k = 0; k < bay->voids->len; k++)
        best = counts[k] > counts[best] ? k : best;
      if (bay->voids->len > 0)
        add_sheet (items, info, (SwSheetArgs){ .record = bay->bay->record.id, .void_number = g_array_index (bay->voids, SwVoid, best).number, .along = -1 }, bay->bay->record.tag);
    }
}

GArray *
sw_report_items (const SwSheetContext *context)
{
  GArray *items = g_array_new (FALSE, FALSE, sizeof (SwReportItem));
  g_array_set_clear_func (items, item_clear);
  for (guint i = 0; i < sw_sheets_n (); i++)
    {
      const SwSheetInfo *info = sw_sheets_get (i);
      if (info->about == SW_SHEET_ABOUT_RUN)
        add_falling_runs (items, info, context);
      else if (info->about == SW_SHEET_ABOUT_VOID)
        add_busy_voids (items, info, context);
      else if (sw_sheet_has_subject (context, info))
        add_sheet (items, info, (SwSheetArgs){ .along = -1 }, "");
    }
  for (guint i = 0; i < sw_schedules_n (); i++)
    {
      const SwScheduleInfo *info = sw_schedules_get (i);
      SwReportItem item = { NULL, info, { .along = -1 }, g_strdup (_(info->title)), g_strdup_printf ("schedule-%s", info->id) };
      g_array_append_val (items, item);
    }
  return items;
}

static gboolean
write_page (const Report *report, const SwSheet *sheet, guint page, SwPageFormat format, const char *path, GError **error)
{
  const SwSheetPage *pages = sw_sheet_pages (sheet);
  gboolean good = format == SW_PAGE_PDF ? sw_page_export_pdf (pages, sw_sheet_n_pages (sheet), path, error)
                                        : sw_page_export (pages[page].display, &pages[page].page, format, path, error);
  if (good)
    g_ptr_array_add (report->written, g_strdup (path));
  return good;
}

static gboolean
write_sheet (const Report *report, const SwReportItem *item, const SwSheet *sheet, GError **error)
{
  static const char *const endings[SW_N_PAGE_FORMATS] = { [SW_PAGE_SVG] = "svg", [SW_PAGE_PDF] = "pdf", [SW_PAGE_PNG] = "png" };
  for (guint format = 0; format < SW_N_PAGE_FORMATS; format++)
    {
      guint n = format == SW_PAGE_PDF ? 1 : sw_sheet_n_pages (sheet);
      for (guint page = 0; (report->formats & 1u << format) && page < n; page++)
        {
          g_autofree char *name = n > 1 ? g_strdup_printf ("%s-%u.%s", item->stem, page + 1, endings[format]) : g_strdup_printf ("%s.%s", item->stem, endings[format]);
          g_autofree char *path = g_build_filename (report->folder, name, NULL);
          if (!write_page (report, sheet, page, (SwPageFormat) format, path, error))
            return FALSE;
        }
    }
  return TRUE;
}

static gboolean
write_schedule (const Report *report, const SwReportItem *item, GError **error)
{
  g_autoptr (SwSchedule) schedule = sw_schedule_new (report->context, item->schedule);
  g_autofree char *csv = sw_schedule_csv (schedule), *name = g_strdup_printf ("%s.csv", item->stem), *path = g_build_filename (report->folder, name, NULL);
  g_autofree char *shown = g_filename_display_name (path);
  g_autoptr (GError) trouble = NULL;
  if (!g_file_set_contents_full (path, csv, -1, G_FILE_SET_CONTENTS_CONSISTENT | G_FILE_SET_CONTENTS_DURABLE, 0666, &trouble))
    {
      g_set_error (error, SW_ERROR, SW_ERROR_IO, "cannot write \"%s\": %s; choose another place or make room there", shown, trouble->message);
      return FALSE;
    }
  g_ptr_array_add (report->written, g_steal_pointer (&path));
  return TRUE;
}

static gboolean
write_item (Report *report, const SwReportItem *item, GError **error)
{
  if (item->schedule != NULL)
    return !(report->formats & SW_REPORT_CSV) || write_schedule (report, item, error);
  if ((report->formats & ~SW_REPORT_CSV) == 0)
    return TRUE;
  SwSheet *sheet = sw_sheet_draw (report->context, item->sheet, &item->args, error);
  if (sheet == NULL)
    return FALSE;
  gboolean good = write_sheet (report, item, sheet, error);
  if (report->formats & SW_REPORT_SET)
    g_ptr_array_add (report->sheets, sheet);
  else
    sw_sheet_free (sheet);
  return good;
}

static gboolean
write_set (const Report *report, GError **error)
{
  g_autoptr (GArray) pages = g_array_new (FALSE, FALSE, sizeof (SwSheetPage));
  g_autofree char *path = g_build_filename (report->folder, "sheets.pdf", NULL);
  for (guint i = 0; i < report->sheets->len; i++)
    g_array_append_vals (pages, sw_sheet_pages (g_ptr_array_index (report->sheets, i)), sw_sheet_n_pages (g_ptr_array_index (report->sheets, i)));
  if (!sw_page_export_pdf ((const SwSheetPage *) (gpointer) pages->data, pages->len, path, error))
    return FALSE;
  g_ptr_array_add (report->written, g_strdup (path));
  return TRUE;
}

static gboolean
make_folder (const char *folder, GError **error)
{
  g_autofree char *shown = g_filename_display_name (folder);
  if (g_mkdir_with_parents (folder, 0777) == 0)
    return TRUE;
  g_set_error (error, SW_ERROR, SW_ERROR_IO, "cannot make the folder \"%s\": %s; choose another place", shown, g_strerror (errno));
  return FALSE;
}

static gboolean
was_cancelled (GCancellable *cancellable, GError **error)
{
  if (cancellable == NULL || !g_cancellable_is_cancelled (cancellable))
    return FALSE;
  g_set_error (error, SW_ERROR, SW_ERROR_CANCELLED, "the export was cancelled: what is written so far stays");
  return TRUE;
}

GStrv
sw_sheets_export_all (const SwSheetContext *context, const char *folder, SwReportFormats formats, SwReportProgress progress,
                      gpointer data, GCancellable *cancellable, GError **error)
{
  Report report = { context, folder, formats, g_ptr_array_new_with_free_func (g_free), g_ptr_array_new_with_free_func ((GDestroyNotify) sw_sheet_free) };
  g_autoptr (GArray) items = sw_report_items (context);
  gboolean good = make_folder (folder, error);
  for (guint i = 0; good && i < items->len; i++)
    {
      good = !was_cancelled (cancellable, error) && write_item (&report, &g_array_index (items, SwReportItem, i), error);
      if (good && progress != NULL)
        progress ((i + 1.0) / items->len, data);
    }
  if (good && (formats & SW_REPORT_SET))
    good = !was_cancelled (cancellable, error) && write_set (&report, error);
  g_ptr_array_unref (report.sheets);
  if (!good)
    {
      g_ptr_array_unref (report.written);
      return NULL;
    }
  g_ptr_array_add (report.written, NULL);
  return (GStrv) g_ptr_array_free (report.written, FALSE);
}

char *
sw_sheets_page_path (const char *path, guint page, guint n)
{
  const char *dot = strrchr (path, '.'), *slash = strrchr (path, G_DIR_SEPARATOR);
  gsize stem = dot != NULL && (slash == NULL || dot > slash) ? (gsize) (dot - path) : strlen (path);
  return n == 1 ? g_strdup (path) : g_strdup_printf ("%.*s-%u%s", (int) stem, path, page + 1, path + stem);
}

char *
sw_sheets_written_text (const char *path, guint n)
{
  SwPageFormat format;
  if (n < 2 || !sw_page_format_find (path, &format, NULL) || format == SW_PAGE_PDF)
    return g_strdup_printf (_("Written: %s"), path);
  g_autofree char *first = sw_sheets_page_path (path, 0, n), *last = sw_sheets_page_path (path, n - 1, n), *end = g_path_get_basename (last);
  return g_strdup_printf (_("Written: %s to %s, a file a page"), first, end);
}

guint
sw_sheets_write (const SwSheet *sheet, const char *path, GError **error)
{
  const SwSheetPage *pages = sw_sheet_pages (sheet);
  guint n = sw_sheet_n_pages (sheet);
  SwPageFormat format;
  if (!sw_page_format_find (path, &format, error))
    return 0;
  if (format == SW_PAGE_PDF)
    return sw_page_export_pdf (pages, n, path, error) ? 1 : 0;
  for (guint i = 0; i < n; i++)
    {
      g_autofree char *file = sw_sheets_page_path (path, i, n);
      if (!sw_page_export (pages[i].display, &pages[i].page, format, file, error))
        return 0;
    }
  return n;
}
