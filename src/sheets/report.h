/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "sheets/schedule.h"
#include "sheets/sheet.h"
#include <gio/gio.h>

/* Every sheet and every schedule of a job into one folder. Sheets about one run are drawn for each run that falls, sections
 * for each bay at the void that holds most. */

/* One thing that can be written: a sheet with what it is about, or a schedule. */
typedef struct
{
  const SwSheetInfo *sheet;       /* NULL for a schedule */
  const SwScheduleInfo *schedule; /* NULL for a sheet */
  SwSheetArgs args;
  char *title; /* in the user's language */
  char *stem;  /* "sheet-long-section-R4", "schedule-pipes": of its files' names */
} SwReportItem;

/* Sheets first. GArray of SwReportItem; free with g_array_unref. */
GArray *sw_report_items (const SwSheetContext *context);

typedef enum
{
  SW_REPORT_SVG = 1 << SW_PAGE_SVG, /* a file a page */
  SW_REPORT_PDF = 1 << SW_PAGE_PDF, /* a file a sheet */
  SW_REPORT_PNG = 1 << SW_PAGE_PNG, /* a file a page */
  SW_REPORT_SET = 1 << 8,           /* all sheets as one PDF, "sheets.pdf" */
  SW_REPORT_CSV = 1 << 9            /* a file a schedule */
} SwReportFormats;

typedef void (*SwReportProgress) (double done, gpointer data);

/* Makes the folder if it is missing. Each file is replaced at once and whole. Returns the paths of the files written, in
 * order (free with g_strfreev); NULL with SW_ERROR_IO or SW_ERROR_CANCELLED, when those before it stay written. */
GStrv sw_sheets_export_all (const SwSheetContext *context, const char *folder, SwReportFormats formats, SwReportProgress progress,
                            gpointer data, GCancellable *cancellable, GError **error);

/* Letters, digits and - _ . of a mark; others become "-", so that it is a file's name everywhere. Free with g_free. */
char *sw_sheets_safe_name (const char *text);
/* The file of one page of n: `path` itself, or of several "plan-2.svg" for "plan.svg". Free with g_free. */
char *sw_sheets_page_path (const char *path, guint page, guint n);
/* "Written: day.pdf", or "Written: day-1.png to day-13.png, a file a page": of a sheet of n pages, of a list with n = 1. Free with g_free. */
char *sw_sheets_written_text (const char *path, guint n);
/* All pages of a sheet in the format of the path's ending: one PDF, else a file a page. Number of files, 0 on an error. */
guint sw_sheets_write (const SwSheet *sheet, const char *path, GError **error);
