/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "rules/table.h"

/* Inside the layer: a rule set after its bases, stand-ins and overrides were put together. */
struct _SwRules
{
  int references;
  SwRulesPool pool;
  char *folder;
  const char *name, *title;
  const char *overrides_name;
  SwRulesTable **tables; /* one a schema table; NULL where the set has none */
  const char **missing;  /* why, for those: the note of absent=yes; else NULL */
  guint n_tables;
  GHashTable *index; /* name → place + 1 */
};

/* The table; NULL when the set has none. `error` says whether the rule set or the program does not know it. */
const SwRulesTable *sw_rules_table_get (const SwRules *rules, const char *name, GError **error);
/* A cell as an answer. */
SwRuleValue sw_rules_answer (const SwRulesCell *cell, const SwRuleKey *key);
