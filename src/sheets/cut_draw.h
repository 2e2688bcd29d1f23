/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "drawing/page.h"
#include "drawing/pen.h"
#include "estimate/cut_plan.h"

/* Cutting diagrams: each way of cutting a stock length or a sheet, to one scale on all pages. */

/* What stands on a piece beside its size; called for each piece of each way. May return NULL. Free with g_free. */
typedef char *(*SwCutMark) (const SwCutPlan *plan, const SwCutPiece *piece, gpointer data);

typedef struct
{
  const SwCutPlan *plan;
  const char *prefix; /* before the number of each way, which count from 1; NULL for none */
  SwCutMark mark;     /* NULL: the items' marks */
  gpointer data;
} SwCutDrawing;

/* As many ways from `first` on as go into the area, from its top down; at least one when there is one. The pen's unit is 1.
 * Returns how many. *bottom (may be NULL) is where they end. */
guint sw_cut_draw_ways (const SwPen *pen, SwBox area, const SwCutDrawing *drawing, guint first, double *bottom);

/* A plan by itself on pages of its own. */
typedef struct _SwCutPages SwCutPages;

/* Pages like `page` (its theme and paper), under a title: what it takes first, then the diagrams. */
SwCutPages *sw_cut_pages_new (const SwCutPlan *plan, const char *title, const SwPage *page);
void sw_cut_pages_free (SwCutPages *pages);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwCutPages, sw_cut_pages_free)
/* As sw_page_write_pdf wants them; the pages' own. */
const SwSheetPage *sw_cut_pages_get (const SwCutPages *pages, guint *n);

/* Sentences: how many pieces from how much stock and the waste; what it costs and whether that is the least. In the user's language;
 * free with g_strfreev. */
GStrv sw_cut_sentences (const SwCutPlan *plan, SwLengths lengths);
/* "4 × 6000", "2 × 3000 × 1200 (yard)": what to buy of one row of the stock. Free with g_free. */
char *sw_cut_bought_text (const SwCutPlan *plan, guint stock, guint n, SwLengths lengths);
/* A size of a task, "3000 × 1200" or "2350"; the whole mm or sixteenth of an inch below of one that is cut for site. Free with g_free. */
char *sw_cut_size_text (const SwCutTask *task, gint64 length, gint64 width, SwLengths lengths);
