/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "drawing/look.h"
#include <cairo.h>

/* Paper, and displays on paper: a page's display is in mm from the lower left corner of the sheet. */

typedef enum { SW_PAPER_A4, SW_PAPER_A3, SW_PAPER_A2, SW_PAPER_A1, SW_N_PAPERS } SwPaper;

typedef struct
{
  SwPaper paper;
  gboolean upright; /* the short side below */
  SwTheme theme;    /* SW_THEME_MONO for black-and-white */
  double dpi;       /* PNG; 0 = 150 */
  const char *title;       /* for the file's metadata; may be NULL */
  const char *description; /* SVG only; may be NULL */
  const char *date;        /* "2026-01-31T12:00:00Z" for a PDF; NULL = none, so that the same page gives the same bytes */
} SwPage;

typedef struct
{
  const SwDisplay *display;
  SwPage page;
} SwSheetPage;

const char *sw_paper_name (SwPaper paper); /* "A3" */
/* FALSE when there is no such paper. */
gboolean sw_paper_find (const char *name, SwPaper *paper);
/* Width and height in mm. */
SwPoint sw_page_size (const SwPage *page);
/* Inside the frame's lines: 20 mm from the left edge for binding, 10 mm from the others (ISO 5457). */
SwBox sw_page_frame (const SwPage *page);
/* The frame with centring marks. */
void sw_page_add_frame (SwDisplay *display, const SwPage *page);

/* Levels of detail on paper are those of a screen with 6 px per mm, at any zoom: the preview shows what prints. */
#define SW_PAGE_DETAIL 6.0
/* The page drawn where `to_device` puts it (a preview); line widths follow. */
SwDrawView sw_page_view_at (const SwPage *page, SwTransform to_device);
/* The page from the device's top left corner. */
SwDrawView sw_page_view (const SwPage *page, double units_per_mm);
/* For printing: the page with its paper at `units_per_mm` of the context's units. */
void sw_page_paint (cairo_t *cr, const SwDisplay *display, const SwPage *page, double units_per_mm);

typedef enum { SW_PAGE_SVG, SW_PAGE_PDF, SW_PAGE_PNG, SW_N_PAGE_FORMATS } SwPageFormat;
/* By the ending of a file's name: ".svg", ".pdf", ".png" in any case. SW_ERROR_INVALID for others. */
gboolean sw_page_format_find (const char *path, SwPageFormat *format, GError **error);

/* The file's contents. SW_ERROR_LIMIT when a picture would be too large, SW_ERROR_IO when cairo fails. */
GBytes *sw_page_write (const SwDisplay *display, const SwPage *page, SwPageFormat format, GError **error);
/* Several sheets as one PDF with a bookmark for each title. */
GBytes *sw_page_write_pdf (const SwSheetPage *sheets, guint n, GError **error);
/* Replace the file at once and whole, or leave it as it was: SW_ERROR_IO with its name. */
gboolean sw_page_export (const SwDisplay *display, const SwPage *page, SwPageFormat format, const char *path, GError **error);
gboolean sw_page_export_pdf (const SwSheetPage *sheets, guint n, const char *path, GError **error);
