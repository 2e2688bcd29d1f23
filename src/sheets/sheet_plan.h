/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "sheets/labels.h"
#include "sheets/sheet_parts.h"

/* Inside the sheets: plans. A plan is put on as many pages as its scale needs; what is drawn over it is in the job's
 * coordinates, with a pen whose unit is the scale. */

typedef struct
{
  SwSheetMaker *maker;
  const SwDeck *deck;
  SwDisplay *display;
  SwPen pen;        /* in the job's coordinates */
  double scale;     /* mm of the job for 1 mm on paper */
  gboolean mirrored; /* looking up */
  SwBox content;    /* what of the deck is on this page */
  SwLabels *labels; /* placed when all is drawn */
} SwSheetPlan;

struct _SwSheetPlanKind
{
  guint64 layers;
  gboolean working; /* keeps its scale over a few pages; others take one page at twice the scale if that does */
  gboolean down;   /* as seen looking down, if not asked otherwise */
  void (*mark) (const SwSheetPlan *plan); /* draws over the plan; may be NULL */
  const char *notes[3];                   /* untranslated */
  void (*add_lists) (SwSheetMaker *maker); /* pages after the plan; may be NULL */
};

extern const SwSheetPlanKind sw_sheet_plan_electrician, sw_sheet_plan_plumber, sw_sheet_plan_combined, sw_sheet_plan_lights, sw_sheet_plan_drop_ins,
  sw_sheet_plan_cast_in, sw_sheet_plan_battens, sw_sheet_plan_boards, sw_sheet_plan_soffit, sw_sheet_plan_snags;

/* Hands the letters of a sealed display of the plan to the labels, each to be moved as its thing allows. */
void sw_sheet_plan_take_labels (const SwSheetPlan *plan, const SwDisplay *drawn);
/* A sealed display's part round `centre`, to scale, in a box of the page, its letters placed so that they can be read. `mark`
 * (may be NULL) draws over it. */
typedef void (*SwSheetViewMark) (const SwSheetPlan *plan, gconstpointer data);
void sw_sheet_add_view (const SwSheetMaker *maker, const SwSheetDraft *draft, const SwDisplay *drawn, SwBox box, SwPoint centre, double scale,
                        gboolean mirrored, SwSheetViewMark mark, gconstpointer data);
/* A label of our own beside or round a place. */
void sw_sheet_plan_add_label (const SwSheetPlan *plan, SwPoint at, const char *text, SwColourRole role, int rank);
/* Where the rows of boards meet, from a wall of each room, and the end joints of each row from the wall at which it begins. */
void sw_sheet_plan_mark_rows (const SwSheetPlan *plan);
/* Faces of bulkheads, unrolled, on pages of their own; none without any. */
void sw_sheet_add_face_pages (SwSheetMaker *maker);
/* Grid lines with their rings, and a chain of dimensions between them, at the page's left and top. */
void sw_sheet_plan_add_grid (const SwSheetPlan *plan);

/* The legend of what the layers show and the job has; entries live as long as the array of them. */
GArray *sw_sheet_plan_legend (const SwSheetMaker *maker, guint64 layers);
