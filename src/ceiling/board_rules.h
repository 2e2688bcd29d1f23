/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "job/job.h"
#include "rules/rules.h"

/* What the rule set and the job's price list ask of a room's boards and battens. */

/* The rule set's row for the room's board ("gypsum-9.5"), its own thickness or the next thinner. Borrowed. */
const char *sw_ceiling_board_row (const SwRules *rules, const char *table, const SwRoom *room, GError **error);
/* Greatest centres by rule, price list and room, mm, and the rule they come from. */
gboolean sw_ceiling_centres_limit (const SwRules *rules, const SwJob *job, const SwRoom *room, double *limit, double *edge_limit,
                                   SwRuleValue *rule, GError **error);
/* m between movement joints: by the edge's relief, or less where the room's board wants it. `rule` (may be NULL): where it comes from. */
double sw_ceiling_longest_field (const SwRules *rules, const SwJob *job, const SwRoom *room, SwRuleValue *rule);
/* The row of the job's price list for the room's sheet, whose own limits win over the rule set's. NULL for none. */
const SwPrice *sw_ceiling_board_price (const SwJob *job, const SwRoom *room);
/* Code of that row, "board-gypsum-9.5-3000x1200"; without the size what the codes of all sheets of the board begin with. Free with g_free. */
char *sw_ceiling_board_code (const SwRoom *room, gboolean with_size);
/* A limit of the room's board: of the price list's row for it, else a cell of board.limits: the row of its kind and thickness, else of its
 * kind. FALSE where there is none. */
gboolean sw_ceiling_board_limit (const SwRules *rules, const SwJob *job, const SwRoom *room, const char *column, SwRuleValue *value);
/* sheet_suits.c: whether boards of that size suit the room: they get through stair and door, stand the wet and add the minutes that are asked, and
 * bear on battens at the centres that the room insists on, by their own row of the price list or else the rule set's. Of a limit that is not known nothing is asked. */
gboolean sw_ceiling_sheet_suits (const SwRules *rules, const SwJob *job, const SwRoom *room, double length, double width);
/* Whether they may lie among the room's own sheets too: they ask for no closer battens, edges and movement joints than those. */
gboolean sw_ceiling_sheet_mixes (const SwRules *rules, const SwJob *job, const SwRoom *room, double length, double width);
