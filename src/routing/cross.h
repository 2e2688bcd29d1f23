/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "rules/rules.h"
#include "space/deck.h"

/* "Cross here": from a void under the ribs to another one of the same bay, at right angles, in the gap between two battens. */

/* What a spacer saddle leaves between a rib and a tube below it, mm; 0 without rules. */
double sw_cross_saddle_mm (const SwRules *rules);

/* Appends the vertices (SwVertex) that follow `from`: along its void to the gap nearest `to`, down and `below` mm under the ribs, up
 * into the middle of the void under `to`. SW_ERROR_INVALID, with what to do instead, when there is nothing to cross or the
 * run falls. */
gboolean sw_cross_vertices (const SwDeck *deck, const SwRun *run, const SwVertex *from, SwPoint to, double below, GArray *vertices, GError **error);

/* The same for a leg of a run that is there already: which leg is nearest to `at`, and the run with it replaced. The
 * caller's; NULL and an error as above. */
SwRun *sw_cross_run (const SwDeck *deck, const SwRun *run, SwPoint at, double below, GError **error);

/* u of the place nearest `u` where a tube of `od` passes between the battens laid out over the strip v_low … v_high. */
double sw_cross_gap (const SwDeck *deck, const SwDeckBay *bay, double u, double v_low, double v_high, double od);
