/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "checks/advice.h"

/* Changes that might mend a snag, untried. Inside the layer. */
typedef struct
{
  const SwSnags *snags;
  const SwSnag *snag;
  SwJob *job;
  SwDeck *deck;
  SwSpace *space;
  SwRules *rules;
  GPtrArray *found; /* SwAdvice */
} SwCandidates;

/* Appends a change; takes the record over. Nothing happens when it cannot be settled. */
SwAdvice *sw_candidates_add (SwCandidates *to, const char *edit_name, const char *words, SwRecord *record, double cost);
/* Puts a further record into a candidate. FALSE (and the candidate is to be dropped) when it cannot be settled. */
gboolean sw_candidates_put (SwCandidates *to, SwAdvice *advice, SwRecord *record);
void sw_candidates_set_move (SwAdvice *advice, SwPoint3 by);
/* Takes along the fittings on the legs [first, first + n) of a run that move, and the ends of other runs that hang on those. FALSE
 * as above. *carried: whether there were any. */
gboolean sw_candidates_carry (SwCandidates *to, SwAdvice *advice, const SwRun *run, guint first, guint n, SwPoint3 by, gboolean *carried);
/* The ends of runs other than `run` that hang on a fitting which moves. FALSE as above. */
gboolean sw_candidates_carry_ends (SwCandidates *to, SwAdvice *advice, SwId fitting, SwId run, SwPoint3 by);

void sw_candidates_for_run (SwCandidates *to, const SwRun *run);
void sw_candidates_for_point (SwCandidates *to, const SwRecord *record); /* light, fitting, drop-in, sleeve */
void sw_candidates_for_room (SwCandidates *to, const SwRoom *room);
