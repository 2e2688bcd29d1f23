/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "estimate/cut_job.h"
#include "sheets/context.h"
#include "sheets/cut_draw.h"

/* Inside the sheets: what cutting sheets, labels and their schedules say alike. Texts are in the user's language; free with g_free. */

/* "K", "L" …: of the i-th group; its sheets and lengths are K1, K2 … No number of a drawing begins so. */
char *sw_cut_letter (guint i);
/* "Board (gypsum) 9.5 mm", "Timber 38 × 38 mm"; and with the size of the sheets. */
char *sw_cut_material_text (const SwCutGroup *group, SwLengths lengths);
char *sw_cut_group_text (const SwCutGroup *group, SwLengths lengths);
/* A room's name, with its mark when another has the same. */
char *sw_cut_room_text (const SwJob *job, SwId room);
/* "batten", "noggin", "board" …; and one letter for it. */
const char *sw_cut_thing_word (const SwCutThing *thing);
const char *sw_cut_thing_letter (const SwCutThing *thing);
/* "Foyer 12" for a piece of board, "Foyer, batten" for timber. */
char *sw_cut_thing_text (const SwJob *job, const SwCutThing *thing);

/* Where each piece of board comes from: "K3", or that it is a whole sheet. Keys are from sw_cut_piece_key; free with
 * g_hash_table_unref. */
GHashTable *sw_cut_origins (const SwCutJob *cut);
char *sw_cut_piece_key (SwId room, int piece);
