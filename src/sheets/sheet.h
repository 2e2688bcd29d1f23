/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "sheets/context.h"

/* Sheets: drawings on paper, to scale, one table of them. Preview, export and print show the same pages. Words are in the
 * user's language. */

typedef enum
{
  SW_SHEET_ABOUT_JOB,
  SW_SHEET_ABOUT_RUN,    /* one run has to be named */
  SW_SHEET_ABOUT_VOID,   /* a bay, a void of it, and a place along it */
  SW_SHEET_ABOUT_SLEEVES /* one sleeve may be named; else all of them */
} SwSheetAbout;

typedef struct
{
  const char *id;   /* "plumber-plan": also the start of its files' names */
  const char *code; /* "P1": the number of the sheet */
  const char *title, *description; /* English, to be translated */
  SwTrade trade;
  SwSheetAbout about;
  SwPaper paper;
  double scale;     /* 1:n that is tried first; 0 = not to scale */
} SwSheetInfo;

guint sw_sheets_n (void);
const SwSheetInfo *sw_sheets_get (guint i);
/* NULL where there is none. */
const SwSheetInfo *sw_sheets_find (const char *id);

/* What a sheet is about, where it is not the whole job. */
typedef struct
{
  SwId record;     /* run, sleeve, or the void's bay */
  int void_number; /* as written on drawings */
  double along;    /* from the void's start closure, mm; negative: its middle */
  const char *tubes; /* "110,2x25": what is to find room in the void; NULL: nothing. Borrowed */
} SwSheetArgs;

/* One sheet of one or more pages, immutable. */
typedef struct _SwSheet SwSheet;

/* `args` may be NULL for sheets about the job. SW_ERROR_NOT_FOUND when what it is about does not exist or is missing,
 * SW_ERROR_INVALID when it cannot be worked out. */
SwSheet *sw_sheet_draw (const SwSheetContext *context, const SwSheetInfo *info, const SwSheetArgs *args, GError **error);
void sw_sheet_free (SwSheet *sheet);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwSheet, sw_sheet_free)

/* Whether the job has anything that the sheet would show beside its deck: a sheet about sleeves needs a sleeve. */
gboolean sw_sheet_has_subject (const SwSheetContext *context, const SwSheetInfo *info);

const SwSheetInfo *sw_sheet_info (const SwSheet *sheet);
/* With its subject: "Long section of R4". Borrowed. */
const char *sw_sheet_title (const SwSheet *sheet);
guint sw_sheet_n_pages (const SwSheet *sheet);
/* Displays and pages belong to the sheet; the array is as sw_page_export_pdf wants it. */
const SwSheetPage *sw_sheet_pages (const SwSheet *sheet);
