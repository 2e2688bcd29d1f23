/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/tools/board.h"
#include "window/tools/path.h"

/* Changes to values of what the inspector shows: all that is picked, or the template of the tool in hand. */

/* What it shows: the picked records of one table, else the template as the only one. GPtrArray of borrowed SwRecord, to be
 * unreferenced; empty when nothing is picked or what is picked is of several tables. */
GPtrArray *sw_board_shown (SwBoard *board);
/* Whether that is the template, which changes without an edit. */
gboolean sw_board_shows_template (SwBoard *board);

/* Sets one value in all of them by one edit. FALSE and an error to be shown beside the entry. */
gboolean sw_board_set_value (SwBoard *board, const SwPath *path, const char *text, GError **error);
gboolean sw_board_set_ref (SwBoard *board, const SwPath *path, SwId to, GError **error);
/* Whether a picked bay leaves another strip at one side of its voids than at the other, and the edit that evens them. */
gboolean sw_board_voids_are_off_centre (SwBoard *board);
gboolean sw_board_centre_voids (SwBoard *board, GError **error);
/* The mark of the one picked thing. */
gboolean sw_board_set_tag (SwBoard *board, const char *tag, GError **error);
/* A new place after place `item` of the one picked thing, half way to the next; or takes it out. */
gboolean sw_board_insert_place (SwBoard *board, guint item, GError **error);
gboolean sw_board_remove_place (SwBoard *board, guint item, GError **error);
