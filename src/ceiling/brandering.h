/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "ceiling/batten_rules.h"
#include "ceiling/board_rules.h"
#include "ceiling/ceiling.h"
#include "rules/rules.h"

/* Battens of a room whose finish is closed: across the ribs in one layer, or along them below primaries. The result holds
 * deck and rules; boards come from boards.h. `options` may be NULL. SW_ERROR_INVALID when the room has no ceiling on
 * battens, SW_ERROR_NOT_FOUND when it lies under no bay or the rule set knows no such board, SW_ERROR_LIMIT beyond
 * SW_CEILING_MOST battens, SW_ERROR_CANCELLED. */
SwCeiling *sw_ceiling_lay (SwDeck *deck, SwRules *rules, const SwRoom *room, const SwCeilingOptions *options,
                           GCancellable *cancellable, GError **error);

#define SW_CEILING_MOST 20000
