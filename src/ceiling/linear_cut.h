/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <gio/gio.h>

/* Lengths cut from stock lengths at the least cost, with a proof where one is found in time. Lengths are whole numbers in a
 * unit of the caller's. */

typedef struct
{
  gint64 length;
  int copies;
} SwLinearItem;

typedef struct
{
  gint64 length;
  gint64 cost; /* of one; 0: its length */
  int copies;  /* at hand; 0: as many as wanted */
} SwLinearStock;

typedef struct
{
  gint64 kerf; /* what a cut takes */
  gint64 trim; /* taken off each stock length before anything else */
  guint nodes; /* of the search for the proof; 0: 20,000 */
} SwLinearOptions;

typedef struct
{
  guint item;
  int count;
} SwLinearPart;

/* One way of cutting a stock length, and how often it is cut so. */
typedef struct
{
  guint stock;
  int times;
  guint first, n; /* among the parts */
} SwLinearBar;

typedef struct
{
  GArray *bars, *parts; /* SwLinearBar, SwLinearPart: longest pieces first */
  int n_bars;           /* stock lengths used */
  gint64 cost;          /* added again from the bars, in integers */
  gint64 bound;         /* no plan costs less: rounded to the safe side in integers */
  gboolean proven;      /* cost = bound */
  guint nodes, columns; /* of the search; ways of cutting that were looked at */
} SwLinearPlan;

/* SW_ERROR_INVALID names a length that fits no stock or is out of range; SW_ERROR_LIMIT when the stock at hand does not do or
 * lengths times kinds are too many for the tables (take a coarser unit). Cancelling gives the best plan so far, with
 * its bound; only before there is any plan it gives SW_ERROR_CANCELLED. The same input gives the same plan. */
SwLinearPlan *sw_linear_cut (const SwLinearItem *items, guint n_items, const SwLinearStock *stock, guint n_stock,
                             const SwLinearOptions *options, GCancellable *cancellable, GError **error);
void sw_linear_plan_free (SwLinearPlan *plan);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwLinearPlan, sw_linear_plan_free)

/* Adds everything again by itself: each item as often as asked, every bar within its stock, cost, stock at hand. */
gboolean sw_linear_plan_check (const SwLinearPlan *plan, const SwLinearItem *items, guint n_items,
                               const SwLinearStock *stock, guint n_stock, const SwLinearOptions *options, GError **error);
