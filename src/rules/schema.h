/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>
#include <glib/gi18n.h>

/* What may stand in a rule file: every group, table, key, unit and range. Data without a line here is refused. */
typedef enum
{
  SW_RULE_NUMBER,
  SW_RULE_FLAG,  /* yes or no */
  SW_RULE_WORDS, /* text; one of `words` when those are given */
  SW_RULE_SERIES /* ascending numbers */
} SwRuleKind;

typedef struct
{
  const char *name;
  SwRuleKind kind;
  const char *unit;
  double low, high; /* both allowed */
  const char *words; /* "a|b|c", or NULL: any */
  const char *what;
} SwRuleKey;

typedef enum
{
  SW_RULES_GROUP, /* keys are names of single values */
  SW_RULES_TABLE, /* rows; keys are the columns */
  SW_RULES_GRID   /* rows; keys[0] is the column's number, keys[1] the cell */
} SwRuleShape;

typedef struct
{
  const char *name;
  SwRuleShape shape;
  gboolean everywhere; /* each rule set has it: a group whole, a table with its closed rows */
  const char *what;
  SwRuleKey row;       /* kind NUMBER or WORDS */
  const SwRuleKey *keys;
  guint n_keys;
} SwRuleTable;

#define SW_NUM(name_, unit_, low_, high_, what_) { name_, SW_RULE_NUMBER, unit_, low_, high_, NULL, what_ }
#define SW_FLAG(name_, what_) { name_, SW_RULE_FLAG, "", 0, 1, NULL, what_ }
#define SW_WORD(name_, words_, what_) { name_, SW_RULE_WORDS, "", 0, 0, words_, what_ }
#define SW_SERIES(name_, unit_, low_, high_, what_) { name_, SW_RULE_SERIES, unit_, low_, high_, NULL, what_ }
#define SW_GROUP(name_, everywhere_, what_, keys_) \
  { name_, SW_RULES_GROUP, everywhere_, what_, { NULL }, keys_, G_N_ELEMENTS (keys_) }
#define SW_TABLE(name_, everywhere_, what_, row_, keys_) \
  { name_, SW_RULES_TABLE, everywhere_, what_, row_, keys_, G_N_ELEMENTS (keys_) }
#define SW_GRID(name_, everywhere_, what_, row_, keys_) \
  { name_, SW_RULES_GRID, everywhere_, what_, row_, keys_, G_N_ELEMENTS (keys_) }
/* Rows keyed by a number, by free words, by a closed list of words. */
#define SW_ROW_NUMBER(unit_, low_, high_) { "row", SW_RULE_NUMBER, unit_, low_, high_, NULL, NULL }
#define SW_ROW_WORD { "row", SW_RULE_WORDS, "", 0, 0, NULL, NULL }
#define SW_ROW_OF(words_) { "row", SW_RULE_WORDS, "", 0, 0, words_, NULL }

/* One part of the schema a trade; the index runs over all parts. */
typedef struct
{
  const SwRuleTable *tables;
  guint n_tables;
} SwRuleSchemaPart;

extern const SwRuleSchemaPart sw_rules_schema_deck, sw_rules_schema_conduit, sw_rules_schema_circuit,
  sw_rules_schema_waste, sw_rules_schema_water, sw_rules_schema_light, sw_rules_schema_ceiling,
  sw_rules_schema_finish;

/* The i-th table over all parts; NULL at the end. */
const SwRuleTable *sw_rules_schema_table (guint i);
/* Where `name` stands; −1 when there is no such table. */
int sw_rules_schema_find (const char *name);
/* The column of `name`; −1 when there is none. In a grid only "": its cells. */
int sw_rules_schema_key (const SwRuleTable *table, const char *name);
/* Whether `word` is one of "a|b|c"; NULL allows any. */
gboolean sw_rules_words_have (const char *words, const char *word);
