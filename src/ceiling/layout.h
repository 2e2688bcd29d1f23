/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "space/space.h"
#include "ceiling/ceiling.h"
#include "job/edit.h"

/* Layouts: what the ceiling engine found for a room, kept in the job, with the hash of all that it was found from. */

/* SHA-256 (hex) over the values that laying a room's ceiling reads from job, deck and rules. Free with g_free. */
char *sw_ceiling_inputs_hash (const SwDeck *deck, const SwRules *rules, const SwRoom *room);

/* The room's layout in the job; NULL when there is none. Borrowed. O(layouts). */
const SwLayout *sw_ceiling_layout_of (const SwJob *job, SwId room);
/* Whether the battens of the layout's room are of steel. */
gboolean sw_ceiling_layout_is_steel (const SwJob *job, const SwLayout *layout);
/* Which way the battens of a layout run, a unit vector; zero without any. */
SwPoint sw_ceiling_batten_way (const SwLayout *layout);
/* How many fixings stand side by side at each place of a stored layout, in the order of its fixings: guint, the caller's. Two or more
 * where one would hold more than it is designed for, which its marks say. O(fixings). */
GArray *sw_ceiling_fixing_counts (const SwLayout *layout);
/* Whether anything it was found from has changed, or its room is gone. */
gboolean sw_ceiling_layout_is_stale (const SwLayout *layout, const SwDeck *deck, const SwRules *rules);
/* The same as a check asks for it (SwCheckOptions); data is not looked at. */
gboolean sw_ceiling_layout_is_current (const SwSpace *space, const SwRoom *room, const SwLayout *layout, gpointer data);

/* Puts the ceiling into the edit as its room's layout, in the place of an older one. */
gboolean sw_ceiling_store (const SwCeiling *ceiling, SwEdit *edit, const SwJob *job, GError **error);
/* The stored layout as a ceiling: when it is up to date all of it, as it was when it was laid (battens are laid again, boards
 * as they were chosen); else only members, fixings, pieces, corners, joints and strips: parts and marks, and what is known of a
 * member beyond its place, are then missing. NULL when its room is gone. */
SwCeiling *sw_ceiling_recall (const SwLayout *layout, SwDeck *deck, SwRules *rules);
/* The room's ceiling whole: its stored layout when that is up to date, else laid now around that layout's locked pieces. `room`
 * may be a changed copy of the job's. Errors as sw_ceiling_plan. */
SwCeiling *sw_ceiling_of_room (SwDeck *deck, SwRules *rules, const SwRoom *room, GCancellable *cancellable, GError **error);
