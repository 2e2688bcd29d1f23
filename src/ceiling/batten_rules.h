/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "ceiling/span.h"
#include "job/job.h"
#include "rules/rules.h"

/* What rule set and price list say of a room's battens: timber of a grade, or profiles of thin steel. */

/* The row of timber.grades for the room's battens; the rule set may lack it. Static or the rules'. */
const char *sw_ceiling_grade (const SwRules *rules, const SwRoom *room);
/* A batten or primary of the room, mm, depth upright. A steel profile's second moment stands in its row of the job's price list:
 * sw_span_is_known tells whether it does. SW_ERROR_NOT_FOUND where the rule set lacks the timber's grade. */
gboolean sw_ceiling_section (const SwRules *rules, const SwJob *job, const SwRoom *room, double width, double depth, SwBattenSection *section,
                             GError **error);
/* Stress allowed in the room's battens under what always hangs from them, N/mm², and the rule it comes from. */
gboolean sw_ceiling_strength (const SwRules *rules, const SwRoom *room, double *strength, const char **rule_id, GError **error);
/* Greatest span by the rule set's table for timber of that section under the room's board, or for profiles on clips; FALSE when it has
 * none. `rule_id` may be NULL. */
gboolean sw_ceiling_published_span (const SwRules *rules, const SwRoom *room, double width, double depth, double *span, const char **rule_id);
/* Narrowest batten of the room that takes a joint of two sheets. */
SwRuleValue sw_ceiling_joint_width (const SwRules *rules, const SwRoom *room);
/* kg/m of a batten of that section. */
double sw_ceiling_batten_mass (const SwRules *rules, const SwRoom *room, double width, double depth);
/* The same of a steel profile: its strip is taken as wide as the outline of its section is long, 2 (width + depth). */
double sw_ceiling_profile_mass (const SwRules *rules, double width, double depth);
/* Lengths that the room's battens are sold in, ascending, mm; of the rules. NULL with an error where the rule set has none. */
const double *sw_ceiling_stock (const SwRules *rules, const SwRoom *room, guint *n, GError **error);
/* How codes of the price list name a section: "38x38", of steel "steel-38x22". Free with g_free. */
char *sw_ceiling_section_size (const SwRoom *room, double width, double depth);
