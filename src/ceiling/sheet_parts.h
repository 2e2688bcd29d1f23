/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "ceiling/sheet_fill.h"

/* Inside sheet cutting: the problem with its pieces one by one, and the search that improves a plan. */

typedef struct
{
  const SwSheetItem *items;
  guint n_items;
  const SwSheetStock *stock;
  guint n_stock;
  SwSheetOptions options;
  GArray *units; /* SwSheetUnit */
} SwSheetProblem;

SwSheetPlan *sw_sheet_plan_from (const SwSheetProblem *problem, const SwSheetFill *fill);
/* Takes over `plan`; the cheaper of the two stays in *best, the older on a tie. */
void sw_sheet_plan_keep (SwSheetPlan **best, SwSheetPlan *plan);
/* Improves *plan (one size of sheet) until its bound is met, the effort is spent or it is cancelled. */
void sw_sheet_search (const SwSheetProblem *problem, SwSheetPlan **plan, GCancellable *cancellable);
