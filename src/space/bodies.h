/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "geometry/neighbour.h"
#include "space/space.h"

/* Inside the layer: the solids of one record, appended to `bodies` (GArray of SwBody). A route is needed for runs only. */
void sw_bodies_of_record (const SwDeck *deck, const SwRules *rules, const SwRecord *record, const SwRoute *route, GArray *bodies);
/* Tree over the bodies' boxes, each grown by its margin. Borrowed. */
const SwNeighbours *sw_space_index (const SwSpace *space);
/* The order in which the bodies of a space that is made anew stand: records by id, then parts. */
gboolean sw_space_comes_before (const SwSpace *space, guint a, guint b);
/* Bodies of one record have the same number. */
guint32 sw_space_group (const SwSpace *space, guint i);
