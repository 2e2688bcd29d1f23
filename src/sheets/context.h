/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "checks/snag.h"
#include "drawing/page.h"

typedef enum { SW_LOOKING_AS_SHEET, SW_LOOKING_UP, SW_LOOKING_DOWN } SwLooking;

/* What the user may ask for beside what a sheet does by itself; all zeros: nothing. */
typedef struct
{
  SwTheme theme;      /* SW_THEME_MONO for black-and-white */
  gboolean has_paper; /* `paper` in the place of the sheet's own */
  SwPaper paper;
  double scale;       /* 1:n of plans and sections; 0 = the first of the sheet's own that fits */
  SwLooking looking;  /* plans */
} SwSheetOptions;

/* What sheets and schedules are made from. All borrowed; nothing is changed, nothing is read from the clock or the disk. */
typedef struct
{
  SwDeck *deck;  /* with its job */
  SwRules *rules;
  SwSpace *space; /* of the same deck; may be NULL: then sections show no bodies */
  SwSnags *snags; /* may be NULL: then nothing is said of snags */
  guint n_laid_here; /* rooms whose layout is not stored in the job, but was found for these papers */
  gboolean invented_prices; /* the job has none of its own */
  const char *date; /* shown on sheets; NULL leaves room to write it */
  SwSheetOptions options;
} SwSheetContext;

static inline SwJob *sw_sheet_job (const SwSheetContext *context) { return sw_deck_job (context->deck); }

/* The records of a table in the order in which people look for them: by mark, figures in it by value ("R2" before "R10"),
 * then by id. Borrowed records; free the array with g_ptr_array_unref. */
GPtrArray *sw_sheet_records (const SwJob *job, SwTable table);
/* "S1", "F2", "N3": a snag's number with the letter of its severity, the same on plans and lists. Free with g_free. */
char *sw_sheet_snag_number (const SwSnags *snags, guint i);
/* The last record of a room's hold point; NULL when nothing was written down. Borrowed. */
const SwHoldPoint *sw_sheet_hold_point (const SwJob *job, SwId room, int kind);
/* The order of two marks; does not depend on the locale. */
int sw_sheet_mark_compare (const char *a, const char *b);
/* "draw box F3", "W.C. DI1", "switch D4": what a run starts or ends at; "" for 0. Free with g_free. */
char *sw_sheet_end_name (const SwJob *job, SwId id);
/* The word of a choice, in the user's language. Static. */
const char *sw_sheet_word (SwTable table, const char *field, int value);
