/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "ceiling/choices.h"
#include "job/edit.h"

/* Alternatives for the boards of one room, from the sheets and prices that the job's price list has, and what is chosen among them,
 * as edits. Window and command go this way. */

typedef struct
{
  gboolean keep_direction; /* battens run as they do now */
  gboolean keep_turn;      /* sheets lie the way round that they do now */
  gboolean keep_sheet;     /* of the room's own size only */
  guint most;              /* alternatives given back; 0: 8 */
} SwLayChoicesWanted;

typedef struct
{
  GPtrArray *choices; /* SwCeilingChoice, best first, at least one, no two alike */
  gboolean priced;    /* their cost is SwMoney, material and labour of boards, battens and joints; else area of sheets */
} SwLayChoices;

/* `deck` is of the job with its prices and must outlive the choices. Pieces of the room's layout that are locked stay. `found` (may
 * be NULL) gets each that is better than any before, the first one soon. Errors as sw_ceiling_choices. */
SwLayChoices *sw_lay_choices_new (SwDeck *deck, SwRules *rules, const SwRoom *room, const SwLayChoicesWanted *wanted,
                                  SwCeilingChoiceFound found, gpointer data, GCancellable *cancellable, GError **error);
void sw_lay_choices_free (SwLayChoices *choices);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwLayChoices, sw_lay_choices_free)

/* The first of them whose sheets all suit the room (sw_ceiling_sheet_suits), with its battens' shift as it is where one has that; NULL for
 * none. Borrowed. */
const SwCeilingChoice *sw_lay_cheapest (const SwLayChoices *choices, const SwRules *rules, const SwRoom *room);

/* "8 × 3600x1200 + 2 × 3600x900". Free with g_free. */
char *sw_lay_sheets_text (const SwCeilingChoice *choice);

/* Whether the price list has a price for each sheet that can be taken: then costs are money. */
gboolean sw_lay_is_priced (const SwJob *job, const SwRoom *room);
/* Fills all figures of a choice whose room and ceiling are given, its cost as those of the alternatives (0 without prices). */
void sw_lay_measure (SwCeilingChoice *choice, const SwRules *rules);

/* Puts the room as the choice wants it and its layout into the edit, on `job`. */
gboolean sw_lay_choose (const SwCeilingChoice *choice, SwEdit *edit, const SwJob *job, GError **error);
/* The layout as it would be stored in `job`, for drawing. Free with sw_record_unref; NULL where it cannot be stored. */
SwLayout *sw_lay_layout_of (const SwCeiling *ceiling, const SwJob *job);

/* The sheets of the room's board in the job's price list: SwBoardSize, longest first, the cost material and labour of one, 0 for
 * none. The caller's. */
GArray *sw_lay_board_sizes (const SwJob *job, const SwRoom *room);
/* The room's own sheet and those that the layout takes beside it, costs from the list where it has them; empty when it takes no
 * others. */
GArray *sw_lay_sizes_taken (const SwJob *job, const SwRoom *room, const SwLayout *layout);

/* Locks pieces of the room's layout, or lets them go, by their numbers; none: all of them. SW_ERROR_NOT_FOUND for a room
 * without a layout or a piece that it has not. */
gboolean sw_lay_lock (const SwJob *job, SwId room, const int *pieces, guint n, gboolean locked, SwEdit *edit, GError **error);
guint sw_lay_n_locked (const SwLayout *layout);
/* Number of the piece of board there; 0 for none. */
int sw_lay_piece_at (const SwLayout *layout, SwPoint at);
