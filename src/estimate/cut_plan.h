/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "estimate/cut_task.h"
#include <gio/gio.h>

/* How a task is cut: ways of cutting a stock length or sheet, each done so many times, with the least that any plan would need. */

typedef struct
{
  guint item;                  /* of the task */
  gint64 x, y, length, width;  /* in its stock, as bought, trims counted in; length along the stock's length */
  gboolean turned;
} SwCutPiece;

/* A saw cut across a part of the sheet, in an order in which they can be made; a length's cuts lie behind each piece. */
typedef struct
{
  gboolean upright;   /* at x = at, from y = from to y = to; else at y = at */
  gint64 at, from, to;
} SwCutLine;

typedef struct
{
  guint stock;               /* of the task */
  guint times;
  guint first, n;            /* among the pieces, in the order in which they are cut */
  guint first_line, n_lines; /* among the lines; sheets only */
} SwCutWay;

/* A rest that is large enough to be kept for later; as many of it as its way is cut times. */
typedef struct
{
  guint way;
  gint64 x, y, length, width;  /* as of a piece; width 0 of a length */
} SwCutOffcut;

typedef struct
{
  const SwCutTask *task;        /* borrowed */
  GArray *ways, *pieces, *lines; /* SwCutWay, SwCutPiece, SwCutLine */
  GArray *offcuts;              /* SwCutOffcut, by way */
  guint n_kept;                 /* of them in all */
  guint n;                      /* stock lengths or sheets in all */
  gint64 bought, used;          /* length in the task's unit, or area in its square: of the stock, of the pieces */
  gint64 kept;                  /* of the offcuts that are kept: neither used nor waste */
  gint64 cost;                  /* SwMoney when priced; else as bought */
  gint64 cost_bound;            /* lengths: no plan costs less; -1: not known */
  guint n_bound;                /* no plan takes fewer (sheets: of the largest size) */
  gboolean proven;              /* none is better */
} SwCutPlan;

/* SW_ERROR_INVALID names the row that fits no stock; SW_ERROR_LIMIT when the stock at hand does not do, or there are too many
 * different lengths; SW_ERROR_CANCELLED before there is any plan, later the best so far comes back. All is added up again before
 * it is given out. The same task gives the same plan. */
SwCutPlan *sw_cut_plan_new (const SwCutTask *task, GCancellable *cancellable, GError **error);
void sw_cut_plan_free (SwCutPlan *plan);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwCutPlan, sw_cut_plan_free)

/* How many stock lengths or sheets of each row are bought: GArray of guint, the caller's. */
GArray *sw_cut_plan_bought (const SwCutPlan *plan);
/* What is left over of one length behind the last piece and its cut; of one sheet: its area that is in no piece. */
gint64 sw_cut_plan_rest (const SwCutPlan *plan, const SwCutWay *way);
/* Finds what is kept; sw_cut_plan_new has done so. */
void sw_cut_plan_keep_offcuts (SwCutPlan *plan);
/* Bought, less what is used and what is kept; of one way, once, less what is kept. */
gint64 sw_cut_plan_waste (const SwCutPlan *plan);
gint64 sw_cut_plan_way_waste (const SwCutPlan *plan, guint way);
/* 100 × waste over bought. */
double sw_cut_plan_waste_percent (const SwCutPlan *plan);
/* A size in the task's unit or its square as m or m²: "12.345", trailing zeros dropped. Returns `buf`. */
const char *sw_cut_plan_metres (const SwCutTask *task, gint64 size, char buf[SW_MONEY_BUF]);
