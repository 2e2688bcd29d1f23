/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "rules/reader.h"
#include "rules/rules.h"
#include "rules/schema.h"

/* Tables in memory, inside the layer. What a rule set's values point to lives in its pool. */
typedef struct
{
  GStringChunk *strings;
  GPtrArray *arrays; /* owned arrays of double */
} SwRulesPool;

typedef struct
{
  gboolean present;
  double value;
  const char *text;
  const double *series;
  guint n_series;
  const char *source, *note;
  SwConfidence confidence;
  const char *id, *rule_set;
  gboolean overridden, stand_in;
  const char *was; /* NULL unless overridden */
} SwRulesCell;

typedef struct
{
  const char *name;
  double number; /* NaN for a name */
} SwRulesHead;

typedef struct
{
  SwRulesHead head;
  GArray *cells; /* SwRulesCell, one a column */
} SwRulesRow;

typedef struct
{
  const SwRuleTable *schema;
  const char *path;
  guint line;
  gboolean absent;           /* this rule set says that it has none */
  const char *stand_in_from; /* rule set to borrow from; else NULL */
  const char *stand_in_note;
  GArray *columns; /* SwRulesHead: all of the schema's, or a grid's own */
  GPtrArray *rows; /* SwRulesRow; a group has one, named "" */
} SwRulesTable;

/* Where a file's tables come from and go to. */
typedef struct
{
  const char *path, *rule_set;
  SwRulesPool *pool;
  gboolean override;
} SwRulesOrigin;

SwRulesTable *sw_rules_table_new (const SwRulesSection *section, const SwRuleTable *schema,
                                  const SwRulesOrigin *origin, GError **error);
/* With the schema's columns and no value. */
SwRulesTable *sw_rules_table_bare (const SwRuleTable *schema);
SwRulesTable *sw_rules_table_copy (const SwRulesTable *table);
void sw_rules_table_free (SwRulesTable *table);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwRulesTable, sw_rules_table_free)

/* Lays each value of `over` on `under`, adding rows and columns. With `override` the cell keeps what it was. */
void sw_rules_table_overlay (SwRulesTable *under, const SwRulesTable *over, gboolean override,
                             SwRulesPool *pool);
/* Marks every value as borrowed, with the note in front of its own. */
void sw_rules_table_lend (SwRulesTable *table, const char *note, SwRulesPool *pool);

int sw_rules_table_row (const SwRulesTable *table, const char *key);
int sw_rules_table_column (const SwRulesTable *table, const char *name);
SwRulesCell *sw_rules_table_cell (const SwRulesTable *table, guint row, guint column);
/* What a column measures; a grid's columns share one. */
const SwRuleKey *sw_rules_table_key (const SwRulesTable *table, guint column);
/* The value as a file would hold it. Free with g_free. */
char *sw_rules_cell_text (const SwRulesCell *cell, const SwRuleKey *key);
