/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <gio/gio.h>

/* Rectangles cut from sheets by straight cuts that go through (guillotine cuts, any number of stages). Sizes are whole
 * numbers in a unit of the caller's, at most SW_SHEET_MOST: what is cut is exact in that unit. */

#define SW_SHEET_MOST 1000000

typedef struct
{
  int width, height; /* x, y */
  int copies;
  gboolean may_turn;
} SwSheetItem;

typedef struct
{
  int width, height;
  gint64 cost;       /* of one sheet; 0 counts as its area */
  int copies;        /* at hand; 0: as many as wanted */
} SwSheetStock;

typedef struct
{
  int kerf;                     /* what a cut takes */
  int left, right, bottom, top; /* trimmed off every sheet */
  guint effort;                 /* rounds of improvement, for one size of sheet; 0: first answer only */
  guint64 seed;
  gint64 most;                  /* a plan that costs more is of no use: SW_ERROR_LIMIT instead, sooner; 0: any */
} SwSheetOptions;

typedef struct
{
  guint sheet, item;         /* index of the sheet used, of the item */
  int x, y, width, height;   /* in the sheet, as cut */
  gboolean turned;
} SwSheetPlace;

/* A cut through a part of a sheet, in an order in which they can be made. It lies before `at` and is `kerf` wide (less at
 * the part's end): part low ≤ x < high, bottom ≤ y < top becomes two. */
typedef struct
{
  guint sheet;
  gboolean upright;          /* at x = at, else at y = at */
  int at;
  int x, y, width, height;   /* the part that is cut */
} SwSheetCut;

typedef struct
{
  GArray *sheets;  /* guint: index into the stock, one a sheet used */
  GArray *places;  /* SwSheetPlace, by sheet, then as cut */
  GArray *cuts;    /* SwSheetCut, by sheet, in order */
  gint64 cost, used; /* of the sheets; area of the items */
  guint bound;     /* fewest sheets of the largest size that could do */
  gboolean proven; /* one size and as few sheets as the bound */
} SwSheetPlan;

/* SW_ERROR_INVALID for sizes out of range or an item that fits no sheet (the message names it), SW_ERROR_LIMIT when the stock
 * at hand, or what may be spent, does not do. Cancelling gives the best plan so far. The same input and seed give the same plan. */
SwSheetPlan *sw_sheet_cut (const SwSheetItem *items, guint n_items, const SwSheetStock *stock, guint n_stock,
                           const SwSheetOptions *options, GCancellable *cancellable, GError **error);
void sw_sheet_plan_free (SwSheetPlan *plan);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwSheetPlan, sw_sheet_plan_free)

/* Fewest sheets of width × height that can hold the items: by area, by what cannot lie beside or above each other, and by
 * functions that keep every packing one (dual feasible); safe for free layouts too. */
guint sw_sheet_bound (const SwSheetItem *items, guint n_items, int width, int height, int kerf);

/* Goes through the plan by itself: every item as often as asked, inside its sheet, none over another, each sheet's cuts
 * going through and freeing every place, stock not overdrawn. SW_ERROR_INTERNAL says what is wrong. */
gboolean sw_sheet_plan_check (const SwSheetPlan *plan, const SwSheetItem *items, guint n_items,
                              const SwSheetStock *stock, guint n_stock, const SwSheetOptions *options, GError **error);
