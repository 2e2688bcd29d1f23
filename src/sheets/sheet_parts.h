/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "checks/snag_text.h"
#include "drawing/furniture.h"
#include "sheets/paragraph.h"
#include "sheets/plan.h"
#include "sheets/sheet.h"
#include "sheets/words.h"

/* Inside the sheets: what every sheet is put together with. Places on a page are mm from its lower left corner. */

typedef struct _SwSheetKind SwSheetKind;

typedef struct
{
  const SwSheetContext *context;
  const SwSheetKind *kind;
  const SwSheetInfo *info;
  SwSheetArgs args;
  SwTextMeter *meter;
  SwPage page;      /* what all pages share */
  char *title;      /* the sheet's, with its subject */
  GPtrArray *pages; /* SwSheetDraft */
} SwSheetMaker;

typedef struct
{
  SwDisplay *display;
  SwPen pen;    /* unit 1 */
  double scale; /* 1:n for the title block; 0 = not to scale */
  guint n_lists; /* of a page that holds nothing but lists: how many */
  double list_y; /* and where the last one ends */
} SwSheetDraft;

/* What a plan shows: sheet_plan.h. */
typedef struct _SwSheetPlanKind SwSheetPlanKind;

struct _SwSheetKind
{
  SwSheetInfo info;
  gboolean (*draw) (SwSheetMaker *maker, GError **error);
  const SwSheetPlanKind *plan; /* NULL for what is no plan */
  SwTable needs; /* a job without any has no use for the sheet */
  gboolean bare; /* neither frame nor title block: labels */
};

/* The column at the right of a page in which legend, notes and title block stand, and the rest of the frame. */
#define SW_SHEET_COLUMN_MM 92.0
SwBox sw_sheet_area (const SwPage *page);

/* A page with its frame; borrowed. The title block comes when all pages are there. */
SwSheetDraft *sw_sheet_begin_page (SwSheetMaker *maker, double scale);
/* Puts the title blocks in: call it once, when all pages are there. */
void sw_sheet_finish (SwSheetMaker *maker);

/* The column: legend from the top, then the key plan, notes above the title block. */
typedef struct
{
  const SwLegendEntry *legend;
  guint n_legend;
  const char *const *notes; /* paragraphs beside those that every sheet has; NULL-ended, may be NULL */
  gboolean has_looking, up;
  SwBox here;               /* what of the job this page shows, for the key plan; empty: no key plan */
  gboolean mirrored;        /* the key plan is seen as the plan is */
} SwSheetColumn;
void sw_sheet_add_column (const SwSheetMaker *maker, SwSheetDraft *draft, const SwSheetColumn *column);

/* Pages that hold nothing but lists, as many as this one needs: below the list before it while there is room. `foot` (may be NULL) stands
 * below its last row. */
void sw_sheet_add_list_pages (SwSheetMaker *maker, const char *heading, const SwTextList *list, const char *foot);

/* A schedule as list pages: these of its columns, each so wide in mm; numbers to the right. Nothing when it has no rows. The heading
 * is the schedule's, or another for a part of its columns. */
typedef struct
{
  const char *key;
  double width;
  gboolean if_any; /* left out where nothing stands in it; other empty columns are filled in by hand */
} SwSheetListColumn;
void sw_sheet_add_schedule_pages (SwSheetMaker *maker, const char *id, const SwSheetListColumn *columns, guint n);
void sw_sheet_add_schedule_part_pages (SwSheetMaker *maker, const char *id, const char *heading, const SwSheetListColumn *columns, guint n);
/* The same of the rows whose records pass. */
typedef gboolean (*SwSheetRowTest) (const SwJob *job, SwId record);
void sw_sheet_add_some_schedule_pages (SwSheetMaker *maker, const char *id, const SwSheetListColumn *columns, guint n, SwSheetRowTest passes);

/* A pen for the coordinates in use that writes lengths as the job shows them. */
SwPen sw_sheet_pen (const SwSheetMaker *maker, SwDisplay *display, double unit);
/* A length as the job shows it; "" for NaN. Free with g_free. */
char *sw_sheet_length (const SwSheetContext *context, double mm, SwLengthStyle style);
/* "mm", "feet and inches", for notes; in the user's language. Static. */
const char *sw_sheet_units_word (const SwSheetContext *context);
/* The head of a column of lengths: "Length (mm)", "Length (ft-in)". Free with g_free. */
char *sw_sheet_length_head (const SwSheetContext *context, const char *title);

/* A level above the level line: "+1843", "-20". Free with g_free. */
char *sw_sheet_level_text (const SwSheetContext *context, double z);

gboolean sw_sheet_draw_plan (SwSheetMaker *maker, GError **error);
gboolean sw_sheet_draw_long (SwSheetMaker *maker, GError **error);
gboolean sw_sheet_draw_void (SwSheetMaker *maker, GError **error);
gboolean sw_sheet_draw_void_room (SwSheetMaker *maker, GError **error);
gboolean sw_sheet_draw_finishes (SwSheetMaker *maker, GError **error);
gboolean sw_sheet_draw_days (SwSheetMaker *maker, GError **error);
gboolean sw_sheet_draw_holds (SwSheetMaker *maker, GError **error);
gboolean sw_sheet_draw_survey (SwSheetMaker *maker, GError **error);
gboolean sw_sheet_draw_stopping (SwSheetMaker *maker, GError **error);
gboolean sw_sheet_draw_sleeves (SwSheetMaker *maker, GError **error);
gboolean sw_sheet_draw_cut_boards (SwSheetMaker *maker, GError **error);
gboolean sw_sheet_draw_cut_timber (SwSheetMaker *maker, GError **error);
gboolean sw_sheet_draw_cut_labels (SwSheetMaker *maker, GError **error);
gboolean sw_sheet_draw_order (SwSheetMaker *maker, GError **error);
gboolean sw_sheet_draw_sequence (SwSheetMaker *maker, GError **error);
