/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "ceiling/boards.h"

/* Alternatives for a room's boards: which sheet, which way round, which direction of battens, one size of sheet or several. */

typedef struct
{
  SwRoom *room;        /* as it would have to be: a copy */
  SwCeiling *ceiling;  /* of that copy; sw_ceiling_store takes it */
  guint faults;        /* end joints off battens or too close to the next row's */
  guint slivers;
  guint cuts;          /* lights that would cut a batten and are to move */
  gint64 cost;         /* of sheets; with prices also of battens and joints */
  guint sheets;
  double joint_m, batten_m, waste_m2;
  double smallest_mm;  /* least side of any piece */
} SwCeilingChoice;

typedef struct
{
  const SwBoardSize *sizes; /* that can be had; none: the room's only */
  guint n_sizes;
  gint64 batten_cost, joint_cost; /* a metre, in the sizes' unit; they count when all sizes have a cost */
  gboolean both_ways;       /* sheets along the battens too */
  gboolean both_directions; /* battens across and along the ribs */
  const SwLayout *keep;     /* its locked pieces stay; NULL: none */
  guint most;               /* alternatives given back; 0: 8 */
} SwCeilingChoiceOptions;

/* A better choice than any before, while the search goes on. The first comes from the room as it is, with little search. */
typedef void (*SwCeilingChoiceFound) (const SwCeilingChoice *choice, gpointer data);

/* Best first: fewest faults, fewest slivers, least cost, fewest metres of joint, largest smallest piece; no two alike. GPtrArray of
 * SwCeilingChoice, at least one; the same input gives the same. Cancelling gives what was found so far, SW_ERROR_CANCELLED when
 * that is nothing; other errors as sw_ceiling_plan for the room as it is. `found` may be NULL. */
GPtrArray *sw_ceiling_choices (SwDeck *deck, SwRules *rules, const SwRoom *room, const SwCeilingChoiceOptions *options,
                               SwCeilingChoiceFound found, gpointer data, GCancellable *cancellable, GError **error);

/* How many sheets of that size it takes. */
guint sw_ceiling_choice_n_of_size (const SwCeilingChoice *choice, double length, double width);

/* Fills the figures of a choice whose room and ceiling are given, but for its cost. */
void sw_ceiling_choice_measure (SwCeilingChoice *choice);

/* The direction of battens that takes less timber, and how much less than the other, m³ (0 when the other cannot be laid). */
gboolean sw_ceiling_least_direction (SwDeck *deck, SwRules *rules, const SwRoom *room, SwBattenDirection *direction,
                                     double *saved_m3, GCancellable *cancellable, GError **error);
