/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "ceiling/sheet_cut.h"

/* Inside sheet cutting: filling sheets one rectangle after the other. */

typedef struct
{
  int width, height;
  guint item;
  gboolean may_turn;
} SwSheetUnit; /* one copy of an item */

typedef enum { SW_FIT_AREA, SW_FIT_SHORT, SW_FIT_LONG, SW_FIT_FIRST, SW_N_FITS } SwSheetFit;
typedef enum { SW_SPLIT_SHORT, SW_SPLIT_LONG, SW_SPLIT_LARGE, SW_SPLIT_UPRIGHT, SW_SPLIT_LEVEL, SW_N_SPLITS } SwSheetSplit;

typedef struct
{
  SwSheetFit fit;
  SwSheetSplit split;
} SwSheetManner;

/* How far the pieces of a sheet reach, and the cost of the cheapest size that holds them. */
typedef struct
{
  int right, top;
  gint64 cost;
} SwSheetReach;

typedef struct
{
  const SwSheetStock *stock;
  guint n_stock, prefer;     /* the size that is opened first */
  const SwSheetOptions *options;
  GArray *rests;             /* free rectangles, of a private kind */
  GArray *places, *cuts;     /* SwSheetPlace, SwSheetCut in the order made */
  GArray *sheets;            /* guint: stock of each sheet opened */
  guint limit;               /* gives up when more sheets would be needed; 0: no limit */
  GArray *reaches;           /* SwSheetReach, one a sheet, kept where `most` is given */
  gint64 most, least;        /* gives up when its sheets cost that much even as small as they can be; 0: no limit. What they cost so far */
} SwSheetFill;

void sw_sheet_fill_init (SwSheetFill *fill, const SwSheetStock *stock, guint n_stock, const SwSheetOptions *options);
void sw_sheet_fill_clear (SwSheetFill *fill);
/* Empties it for another go, limits aside. */
void sw_sheet_fill_reset (SwSheetFill *fill);
/* Puts the units in, in the order given (indexes; NULL: as they stand). FALSE when the limit was met or the stock is used
 * up: *failed is then the place in the order. O(n · rests). */
gboolean sw_sheet_fill_all (SwSheetFill *fill, const SwSheetUnit *units, const guint *order, guint n,
                            SwSheetManner manner, guint *failed);
/* Puts one unit where it fits best in what is open; FALSE when it fits nowhere. */
gboolean sw_sheet_fill_put (SwSheetFill *fill, const SwSheetUnit *unit, SwSheetManner manner);
/* Opens one more sheet that the unit fits on; FALSE when there is none. */
gboolean sw_sheet_fill_open (SwSheetFill *fill, const SwSheetUnit *unit);
/* Cost of one sheet: its own, else its area. */
gint64 sw_sheet_stock_cost (const SwSheetStock *stock);
/* Whether the unit fits on a sheet of that size, trims off. */
gboolean sw_sheet_fits (const SwSheetStock *stock, const SwSheetOptions *options, const SwSheetUnit *unit);
