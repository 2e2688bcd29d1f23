/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "space/packing.h"
#include "space/space.h"

/* What a job's own void has room for. */

/* Its section with the rule set's clearances, measured depth and mouth; nothing hangs in it. */
SwPackCase sw_void_section (const SwSpace *space, const SwDeckBay *bay, guint void_index);

typedef struct
{
  SwId run;
  SwPackTube tube; /* where it hangs in the section; a run that falls or swerves gives several */
} SwVoidTube;

/* Runs that lie in a void between u and u, with sockets and insulation, in the job's order: GArray of SwVoidTube, the caller's.
 * Sloping ones are covered by tubes side by side, never by less than they take. */
GArray *sw_void_tubes (const SwSpace *space, const SwDeckBay *bay, guint void_index, double from_u, double to_u);
