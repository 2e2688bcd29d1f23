/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "ceiling/boards.h"
#include "ceiling/rows.h"
#include "ceiling/sheet_cut.h"

/* Inside board laying: the state while a room's sheets are laid, and how pieces come out of sheets. */

#define SW_BOARD_UNITS 10 /* sheets are cut in tenths of a millimetre: what is lost to that stays below the joint's width */

typedef struct
{
  SwCeiling *ceiling;
  GPtrArray *fields;      /* SwBoardField, one a part */
  GArray *stock;          /* SwSheetStock: the room's sheet, then others that pieces may come from */
  SwSheetOptions cutting;
  gint64 joint_cost;      /* of a metre, where the stock has prices */
  guint n_stock;          /* of these that are looked at: the room's sheet alone, or all */
  guint trial, last;      /* effort of trials and of the cut that is written down */
  GCancellable *cancellable; /* cuts end early when it is cancelled; NULL: never */
} SwBoarding;

/* SW_ERROR_INVALID, SW_ERROR_LIMIT as sw_ceiling_board. `options` may be NULL. */
gboolean sw_boarding_init (SwBoarding *boarding, SwCeiling *ceiling, const SwCeilingOptions *options, GError **error);
void sw_boarding_clear (SwBoarding *boarding);

/* Pieces as they come out of sheets; whole sheets are not cut. */
typedef struct
{
  GArray *sizes;          /* SwPoint: along and across the sheet's long side, mm, one a piece */
  GArray *which;          /* guint: the pieces that are cut, as items of the plan */
  SwSheetPlan *plan;
  guint sheets;
  gint64 cost;
  gint64 most;            /* cuts that cost more are of no use: SW_ERROR_LIMIT; 0: any */
} SwBoardCut;

void sw_board_cut_init (SwBoardCut *cut);
void sw_board_cut_clear (SwBoardCut *cut);
void sw_board_cut_add (SwBoardCut *cut, const SwRings *piece);
/* The ceiling's face pieces, after all others. */
void sw_board_cut_add_faces (SwBoardCut *cut, const SwCeiling *ceiling);
gboolean sw_board_cut_run (SwBoardCut *cut, const SwBoarding *boarding, guint effort, GError **error);

/* The part's cost by itself; *squares (may be NULL): the sum of the squares of what each cut sheet gives. SW_ERROR_LIMIT when it is above
 * `most` (0: any). */
gboolean sw_boarding_count (const SwBoarding *boarding, SwRows *rows, guint effort, gint64 most, double *squares, GError **error);
/* All parts' pieces and the faces', put into `cut` and cut. */
gboolean sw_boarding_cut (const SwBoarding *boarding, const GPtrArray *laid, SwBoardCut *cut, GError **error);
/* Plain rows from the corner: GPtrArray of SwRows, one a part, the caller's. */
GPtrArray *sw_boarding_lay_plain (const SwBoarding *boarding);
/* board_search.c: takes over `best`, a part's rows with their cost; gives back those or better, NULL with an error. */
SwRows *sw_boarding_improve (SwBoarding *boarding, guint index, SwRows *best, gint64 enough, GCancellable *cancellable,
                             GError **error);
/* board_mix.c: the same with rows of several lengths of sheet, where there are several. */
SwRows *sw_boarding_mix (SwBoarding *boarding, guint index, SwRows *best, gint64 enough, GCancellable *cancellable, GError **error);
/* board_bound.c: no layout of these parts (and the faces of bulkheads) with its joints on battens takes fewer sheets of the
 * room's size. */
guint sw_boarding_bound (const SwBoarding *boarding, guint first, guint n, gboolean faces);
/* No layout of these parts with its joints on battens costs less, whichever of the sizes it takes. */
gint64 sw_boarding_least_cost (const SwBoarding *boarding, guint first, guint n, gboolean faces);
/* Notes in the ceiling how many sheets the plain layout takes in all parts together, and the bound. */
void sw_boarding_note_counts (SwBoarding *boarding, const SwBoardCut *plain);
/* The same, cutting the plain layout for it. */
gboolean sw_boarding_measure (SwBoarding *boarding, GError **error);
/* board_write.c: writes rows (SwRows, one a part) and their cut into the ceiling. */
void sw_boarding_write (SwBoarding *boarding, const GPtrArray *laid, const SwBoardCut *cut);
/* Sheet of each piece (numbered in the order in which laying needs them) and its place there; sheets of other sizes. */
void sw_boarding_number (SwBoarding *boarding, const SwBoardCut *cut);
