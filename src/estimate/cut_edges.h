/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "estimate/cut_plan.h"
#include "job/records.h"

/* Long sides of boards at joints. A sheet's own long edges are bound in paper and tapered, so that tape and filler lie flush; a sawn edge
 * there has to be bevelled and filled wide. Common practice. */

/* On how many of its long sides (0 to 2) a piece of the layout has a joint along the rows. */
int sw_cut_edges_wanted (const SwLayout *layout, int piece);
/* How many of its long sides are the sheet's own edges; 0 of a turned piece. */
int sw_cut_edges_of (const SwCutPlan *plan, const SwCutWay *way, const SwCutPiece *piece);
/* Pieces in all that want more of them than they have. */
guint sw_cut_edges_missing (const SwCutPlan *plan);
/* Puts the strips of each sheet into the order in which most items get the edges that they want: the same pieces and rests,
 * elsewhere in the sheet. Before alike ways are put together. */
void sw_cut_edges_arrange (SwCutPlan *plan);
