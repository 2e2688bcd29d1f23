/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "ceiling/glpk_lp.h"
#include "ceiling/linear_cut.h"

/* Inside linear cutting. Equal lengths are one *kind*, the longest first; the kerf is added to lengths and stock. */

typedef struct
{
  gint64 length;
  int demand;
} SwLinearKind;

typedef struct
{
  gint64 room;  /* length, less trim, plus kerf */
  gint64 cost;
  int copies;   /* G_MAXINT: as many as wanted */
  guint index;  /* in the caller's list */
} SwLinearSize;

/* A way of cutting: counts of the kinds stand in `counts` from at · n_kinds on. */
typedef struct
{
  guint size;
  guint at;
} SwLinearWay;

/* Best values of kinds from i on within every length: layers of (room + 1) values. */
typedef struct
{
  guint n_kinds;
  gint64 room;
  gint64 *values;
} SwKnapsack;

typedef struct
{
  SwLinearKind *kinds;
  guint n_kinds;
  SwLinearSize *sizes;   /* dearest last */
  guint n_sizes;
  gint64 step;           /* every cost is a multiple of it */
  gint32 *sums, n_sums;  /* of the multiples below n_sums: the least one, from there on, that costs of stock add up to; NULL at first */
  guint node_limit, nodes;
  GCancellable *cancellable;

  SwLp *lp;
  GArray *ways, *counts; /* SwLinearWay, int: column k of the programme is way k, after one dear column a kind */
  SwKnapsack knapsack;

  int *demand, *left;    /* not yet cut; stock not yet used */
  GArray *fixed;         /* guint: ways cut so far */
  gint64 fixed_cost;
  gint64 best_cost;      /* G_MAXINT64: no plan */
  GArray *best;          /* guint: ways, one a bar */
  gint64 bound;          /* of the whole */
} SwLinearSearch;

/* linear_price.c */
void sw_knapsack_init (SwKnapsack *knapsack, guint n_kinds, gint64 room);
void sw_knapsack_clear (SwKnapsack *knapsack);
/* Fills the layers: at most demand[i] of kind i, worth profits[i] ≥ 0 each. Kinds times lengths times copies. */
void sw_knapsack_fill (SwKnapsack *knapsack, const SwLinearKind *kinds, const int *demand, const gint64 *profits);
static inline gint64
sw_knapsack_value (const SwKnapsack *knapsack, guint kind, gint64 room)
{
  return room < 0 ? -1 : knapsack->values[kind * (knapsack->room + 1) + room];
}
/* The counts that reach the best value within `room`. */
void sw_knapsack_take (const SwKnapsack *knapsack, const SwLinearKind *kinds, const int *demand, const gint64 *profits,
                       gint64 room, int *counts);

/* linear_node.c: the programme. */
static inline const int *
sw_linear_counts (const SwLinearSearch *search, guint way)
{
  return &g_array_index (search->counts, int, g_array_index (search->ways, SwLinearWay, way).at * search->n_kinds);
}
/* Index of the way, added to the programme when it is new. G_MAXUINT with an error. */
guint sw_linear_way (SwLinearSearch *search, guint size, const int *counts, GError **error);
gboolean sw_linear_programme_new (SwLinearSearch *search, GError **error);
/* Solves the programme of what is left, adding columns until none helps. *bound: no way to cut what is left costs less,
 * in integers; duals[] scaled by SW_LINEAR_SCALE (kinds, then sizes). FALSE with an error (SW_ERROR_CANCELLED too). */
gboolean sw_linear_solve (SwLinearSearch *search, gint64 *bound, gint64 *duals, GError **error);
/* Needs the knapsack filled with the duals, as sw_linear_solve leaves it. */
typedef struct { __int128 sum, top, bottom; } SwLinearWeight;
void sw_linear_weigh (const SwLinearSearch *search, const gint64 *duals, SwLinearWeight *weight);
/* How often the programme takes way k. */
double sw_linear_share (const SwLinearSearch *search, guint way);
#define SW_LINEAR_SCALE (G_GINT64_CONSTANT (1) << 28)

/* linear_greedy.c: cuts what is left, the longest first, each bar as full as can be; keeps the plan when it is the best. */
gboolean sw_linear_finish (SwLinearSearch *search, GError **error);
/* Takes a way (times < 0: back). */
void sw_linear_fix (SwLinearSearch *search, guint way, int times);

/* linear_triples.c: where three pieces a bar do, looks for a plan that the sum of the lengths alone proves. */
gboolean sw_linear_triples (SwLinearSearch *search, GError **error);

/* linear_branch.c: dives, then searches for the proof. */
gboolean sw_linear_dive (SwLinearSearch *search, GError **error);
gboolean sw_linear_branch (SwLinearSearch *search, GError **error);
