/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "space/space.h"

/* Inside the layer: the solids of one record, appended to `bodies` (GArray of SwBody). A route is needed for runs only. */
void sw_bodies_of_record (const SwDeck *deck, const SwRules *rules, const SwRecord *record, const SwRoute *route, GArray *bodies);
/* Does a change of this table move the bodies of other tables? */
gboolean sw_bodies_depend_on (SwTable table);

#include "space/index.h"
/* Tree over the bodies' boxes, each grown by its margin. */
SwIndex *sw_space_index (const SwSpace *space);
