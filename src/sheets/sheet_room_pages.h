/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "sheets/sheet_plan.h"

/* Inside the sheets: pages about one room, and what people write on them by hand. Lengths in mm on paper. */

/* A page for a room with its heading "room 2 Store"; the area below it comes back in *area. Borrowed. */
SwSheetDraft *sw_sheet_begin_room (SwSheetMaker *maker, const SwRoom *room, double scale, SwBox *area);

/* The scale, of 1:25, 1:50, 1:100 …, at which a box of the job fits into a box of the page, 10 mm free all round. */
double sw_sheet_fitting_scale (SwBox job, SwBox page);
/* A sealed display of the whole plan, what of it lies round the box of the job, at that scale; looking up when `mirrored`. */
void sw_sheet_add_part (const SwSheetMaker *maker, const SwSheetDraft *draft, const SwDisplay *drawn, SwBox page, SwBox job, double scale,
                        gboolean mirrored, SwSheetViewMark mark, gconstpointer data);

/* Lines to write on, each with its words before it and, when there is one, what is known already upon it. The y below. */
typedef struct { const char *words, *value; } SwWriteLine;
double sw_sheet_add_write_lines (const SwSheetDraft *draft, SwPoint top_left, double width, double words_width, const SwWriteLine *lines, guint n);
/* A box to tick, crossed when `ticked`, with words beside it. */
void sw_sheet_add_tick (const SwSheetDraft *draft, SwPoint low_left, gboolean ticked, const char *words);

/* A list with its heading in the area, and what does not fit there on pages of its own, which say what they are
 * about ("room 2"). The texts are the list's, row by row.
 * The y below what stands in the area. */
double sw_sheet_add_list_on (SwSheetMaker *maker, SwSheetDraft *draft, SwBox area, const char *heading, const char *about, const SwTextList *list);

/* Whether the run passes over or through the room. */
gboolean sw_sheet_run_in_room (const SwDeck *deck, const SwRoute *route, const SwRoom *room, SwPoint *first);
