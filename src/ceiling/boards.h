/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "ceiling/ceiling.h"

/* Lays the room's sheets over battens that sw_ceiling_lay found: pieces with their corners, the sheet that each is cut from,
 * joints and no-screw strips; noggins where a joint finds no batten under a part of it; marks for what could not be
 * mended. Locked pieces of options->keep stay where they are and the rest is laid around them. Never dearer than rows from the
 * corner would be. `options` may be NULL. SW_ERROR_INVALID for a sheet that cannot be laid, SW_ERROR_LIMIT beyond
 * SW_CEILING_MOST pieces, SW_ERROR_CANCELLED: the ceiling is then without boards. */
gboolean sw_ceiling_board (SwCeiling *ceiling, const SwCeilingOptions *options, GCancellable *cancellable, GError **error);

/* Before sheets are laid: what they cost at least (as SwBoardSize counts), and mm of joints, in any layout without locked pieces and
 * without joints off battens. Errors as sw_ceiling_board. */
gboolean sw_ceiling_board_least (SwCeiling *ceiling, const SwCeilingOptions *options, gint64 *cost, double *joints, GError **error);

/* Battens and boards in one go, as most callers want it. */
SwCeiling *sw_ceiling_plan (SwDeck *deck, SwRules *rules, const SwRoom *room, const SwCeilingOptions *options,
                            GCancellable *cancellable, GError **error);

/* Puts the boards of a stored layout on battens that were laid from the same inputs. FALSE with SW_ERROR_NOT_FOUND when
 * the layout does not fit them. */
gboolean sw_ceiling_board_recall (SwCeiling *ceiling, const SwLayout *layout, GError **error);
