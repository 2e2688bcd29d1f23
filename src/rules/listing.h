/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "rules/rules.h"

/* One line of the rules page: every value of the set, in the schema's order. */
typedef struct
{
  SwRuleValue answer;     /* strings as in rules.h */
  const char *table;      /* "waste.sockets" */
  const char *table_what; /* what the table holds, in English, translatable */
  const char *what;       /* what the value is, likewise */
  const char *row;        /* "" in a group */
  const char *column;
  char *text;      /* "128", "yes", "2400;2700" */
  const char *was; /* the text before the user changed it, "" when it was not there; NULL when unchanged */
} SwRuleEntry;

/* All values, or only those that the user changed; the entries keep no reference on `rules`. Free with
 * g_ptr_array_unref. */
GPtrArray *sw_rules_entries (const SwRules *rules, gboolean changed_only);

/* The overrides' text after the value `rule_id` was set to `value` (NULL takes the user's change away), checked by
 * loading it. Other changes are kept. "" when none is left. Free with g_free; NULL with an error. */
char *sw_rules_override (const SwRules *rules, const char *rule_id, const char *value, const char *source,
                         SwConfidence confidence, GError **error);
