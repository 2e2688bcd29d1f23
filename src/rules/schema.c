/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "rules/schema.h"
#include <string.h>

static const SwRuleSchemaPart *const parts[] = {
  &sw_rules_schema_deck,  &sw_rules_schema_conduit, &sw_rules_schema_circuit, &sw_rules_schema_waste,
  &sw_rules_schema_water, &sw_rules_schema_light,   &sw_rules_schema_ceiling, &sw_rules_schema_finish,
};

const SwRuleTable *
sw_rules_schema_table (guint i)
{
  for (gsize part = 0; part < G_N_ELEMENTS (parts); part++)
    {
      if (i < parts[part]->n_tables)
        return &parts[part]->tables[i];
      i -= parts[part]->n_tables;
    }
  return NULL;
}

int
sw_rules_schema_find (const char *name)
{
  const SwRuleTable *table;
  for (guint i = 0; (table = sw_rules_schema_table (i)) != NULL; i++)
    if (strcmp (table->name, name) == 0)
      return (int) i;
  return -1;
}

int
sw_rules_schema_key (const SwRuleTable *table, const char *name)
{
  for (guint i = 0; i < table->n_keys; i++)
    if (strcmp (table->keys[i].name, name) == 0)
      return (int) i;
  return -1;
}

gboolean
sw_rules_words_have (const char *words, const char *word)
{
  if (words == NULL)
    return TRUE;
  gsize length = strlen (word);
  for (const char *at = words; *at != '\0';)
    {
      gsize here = strcspn (at, "|");
      if (here == length && strncmp (at, word, here) == 0)
        return TRUE;
      at += here + (at[here] == '|');
    }
  return FALSE;
}
