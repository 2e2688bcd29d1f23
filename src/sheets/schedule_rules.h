/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "sheets/schedule.h"

/* Which numbers of the rule set the figures of a schedule rest on. */

typedef struct
{
  guint column;            /* of the schedule */
  const char *rule_id;     /* "checks.runs.end_reach_mm", or a whole table: "drainage.gradients" */
  const char *what;        /* what it is, in English, to be translated */
  char *value;             /* "0.7 m/s"; "" for a table */
  SwRuleValue answer;      /* of a table its first value */
  const char *source;
  SwConfidence confidence; /* of a table the least sure one of its values */
  gboolean overridden;     /* by the user, or something in the table */
} SwScheduleRule;

/* Those of one column, or of all (G_MAXUINT), in the order of the columns; what this rule set does not have is left out. The strings
 * belong to `rules`, which have to live as long. O(values of the rule set). GPtrArray of SwScheduleRule, the caller's. */
GPtrArray *sw_schedule_rules (const SwScheduleInfo *info, guint column, const SwRules *rules);
/* "Design flow: drainage.flow.filling_branch = 0.5 (EN 12056-2; published)", in the user's language; a length in `lengths`. Free with g_free. */
char *sw_schedule_rule_text (const SwScheduleInfo *info, const SwScheduleRule *rule, SwLengths lengths);
/* For tests: the row i of the table of schedules, columns and rules; NULL after the last. `rules` are ids with blanks between. */
const char *sw_schedule_rules_row (guint i, const char **schedule, const char **column);
