/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "rules/set.h"
#include "base/error.h"
#include "base/number.h"
#include <math.h>
#include <string.h>

const char *
sw_confidence_word (SwConfidence confidence)
{
  static const char *const words[SW_N_CONFIDENCES]
      = { "published", "common-practice", "derived", "from-memory" };
  g_assert ((guint) confidence < SW_N_CONFIDENCES);
  return words[confidence];
}

const char *
sw_rules_name (const SwRules *rules)
{
  return rules->name;
}

const char *
sw_rules_title (const SwRules *rules)
{
  return rules->title;
}

static const SwRulesTable *
peek (const SwRules *rules, const char *name)
{
  guint place = GPOINTER_TO_UINT (g_hash_table_lookup (rules->index, name));
  return place > 0 ? rules->tables[place - 1] : NULL;
}

const SwRulesTable *
sw_rules_table_get (const SwRules *rules, const char *name, GError **error)
{
  guint place = GPOINTER_TO_UINT (g_hash_table_lookup (rules->index, name));
  const SwRulesTable *table = peek (rules, name);
  if (place == 0)
    g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, "no rule table is named \"%s\"", name);
  else if (table == NULL && rules->missing[place - 1] != NULL)
    g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, "the rule set \"%s\" has no table \"%s\": %s",
                 rules->name, name, rules->missing[place - 1]);
  else if (table == NULL)
    g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, "the rule set \"%s\" has no table \"%s\"", rules->name,
                 name);
  return table;
}

gboolean
sw_rules_has (const SwRules *rules, const char *table)
{
  return peek (rules, table) != NULL;
}

SwRuleValue
sw_rules_answer (const SwRulesCell *cell, const SwRuleKey *key)
{
  return (SwRuleValue) {
    .value = cell->value,
    .text = cell->text,
    .unit = key->unit,
    .source = cell->source,
    .note = cell->note,
    .confidence = cell->confidence,
    .rule_id = cell->id,
    .rule_set = cell->rule_set,
    .overridden = cell->overridden,
    .stand_in = cell->stand_in,
  };
}

/* ---- groups ---- */

static const SwRulesCell *
find_single (const SwRules *rules, const char *group, const char *key, const SwRuleKey **schema_key,
             GError **error)
{
  const SwRulesTable *table = sw_rules_table_get (rules, group, error);
  if (table == NULL)
    return NULL;
  int place = table->schema->shape == SW_RULES_GROUP ? sw_rules_schema_key (table->schema, key) : -1;
  if (place < 0)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, "no rule is named \"%s.%s\"", group, key);
      return NULL;
    }
  *schema_key = &table->schema->keys[place];
  const SwRulesCell *cell = sw_rules_table_cell (table, 0, place);
  if (cell->present)
    return cell;
  g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, "the rule set \"%s\" has no value for \"%s.%s\"",
               rules->name, group, key);
  return NULL;
}

gboolean
sw_rules_number (const SwRules *rules, const char *group, const char *key, SwRuleValue *answer,
                 GError **error)
{
  const SwRuleKey *schema_key;
  const SwRulesCell *cell = find_single (rules, group, key, &schema_key, error);
  if (cell == NULL)
    return FALSE;
  *answer = sw_rules_answer (cell, schema_key);
  return TRUE;
}

SwRuleValue
sw_rules_value (const SwRules *rules, const char *group, const char *key)
{
  SwRuleValue answer = { 0 };
  g_autoptr (GError) error = NULL;
  if (!sw_rules_number (rules, group, key, &answer, &error))
    g_error ("%s", error->message);
  return answer;
}

const double *
sw_rules_series (const SwRules *rules, const char *group, const char *key, guint *n, SwRuleValue *answer,
                 GError **error)
{
  const SwRuleKey *schema_key;
  *n = 0;
  const SwRulesCell *cell = find_single (rules, group, key, &schema_key, error);
  if (cell == NULL)
    return NULL;
  if (schema_key->kind != SW_RULE_SERIES)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, "\"%s.%s\" is not a list of numbers", group, key);
      return NULL;
    }
  if (answer != NULL)
    *answer = sw_rules_answer (cell, schema_key);
  *n = cell->n_series;
  return cell->series;
}

/* ---- tables ---- */

/* Where a number falls among ascending heads: between `low` and `high`, `share` of the way. */
typedef struct
{
  int low, high;
  double share;
  gboolean clamped;
} Spot;

static double
head_number (const SwRulesTable *table, gboolean rows, guint i)
{
  return rows ? ((SwRulesRow *) table->rows->pdata[i])->head.number
              : g_array_index (table->columns, SwRulesHead, i).number;
}

static gboolean
find_spot (const SwRulesTable *table, gboolean rows, double number, SwRuleMatch match, Spot *spot)
{
  int n = rows ? table->rows->len : table->columns->len, above = 0;
  while (above < n && head_number (table, rows, above) < number)
    above++;
  gboolean exact = above < n && head_number (table, rows, above) == number;
  *spot = (Spot) { above, above, 0, FALSE };
  if (exact || n == 0 || !isfinite (number))
    return exact;
  switch (match)
    {
    case SW_RULE_NEXT_LARGER:
      return above < n;
    case SW_RULE_NEXT_SMALLER:
      spot->low = spot->high = above - 1;
      return above > 0;
    case SW_RULE_LINEAR_CLAMPED:
      if (above == 0 || above == n)
        {
          *spot = (Spot) { above == 0 ? 0 : n - 1, above == 0 ? 0 : n - 1, 0, TRUE };
          return TRUE;
        }
      G_GNUC_FALLTHROUGH;
    case SW_RULE_LINEAR:
      if (above == 0 || above == n)
        return FALSE;
      spot->low = above - 1;
      spot->share = (number - head_number (table, rows, above - 1))
                    / (head_number (table, rows, above) - head_number (table, rows, above - 1));
      return TRUE;
    case SW_RULE_EXACT:
    default:
      return FALSE;
    }
}

static gboolean
no_place (const SwRules *rules, const SwRulesTable *table, const char *kind, const char *name, GError **error)
{
  g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND,
               "the table \"%s\" of the rule set \"%s\" has no %s for \"%s\"", table->schema->name,
               rules->name, kind, name);
  return FALSE;
}

static gboolean
no_number (const SwRules *rules, const SwRulesTable *table, gboolean rows, double number, GError **error)
{
  char buf[SW_NUMBER_BUF];
  return no_place (rules, table, rows ? "row" : "column",
                   isfinite (number) ? sw_number_write (number, buf) : "?", error);
}

/* Mixes up to four cells; any that counts must hold a value. The words come from the least certain of them. */
static gboolean
mix (const SwRules *rules, const SwRulesTable *table, const Spot *row, const Spot *column,
     SwRuleValue *answer, GError **error)
{
  double sum = 0;
  gboolean first = TRUE;
  for (int i = 0; i < 4; i++)
    {
      double weight = (i & 1 ? row->share : 1 - row->share) * (i & 2 ? column->share : 1 - column->share);
      if (weight == 0)
        continue;
      int r = i & 1 ? row->high : row->low, c = i & 2 ? column->high : column->low;
      const SwRulesCell *cell = sw_rules_table_cell (table, r, c);
      const SwRulesHead *head = &((SwRulesRow *) table->rows->pdata[r])->head;
      if (!cell->present)
        return no_place (rules, table, g_array_index (table->columns, SwRulesHead, c).name, head->name,
                         error);
      sum += weight * cell->value;
      if (first || cell->confidence > answer->confidence)
        *answer = sw_rules_answer (cell, sw_rules_table_key (table, c));
      first = FALSE;
    }
  answer->interpolated = row->share != 0 || column->share != 0;
  answer->clamped = row->clamped || column->clamped;
  answer->value = answer->interpolated ? sum : answer->value;
  return TRUE;
}

static gboolean
find_named (const SwRules *rules, const SwRulesTable *table, gboolean rows, const char *name, Spot *spot,
            GError **error)
{
  int place = rows ? sw_rules_table_row (table, name) : sw_rules_table_column (table, name);
  *spot = (Spot) { place, place, 0, FALSE };
  return place >= 0 || no_place (rules, table, rows ? "row" : "column", name, error);
}

static gboolean
find_number (const SwRules *rules, const SwRulesTable *table, gboolean rows, double number, SwRuleMatch match,
             Spot *spot, GError **error)
{
  return find_spot (table, rows, number, match, spot) || no_number (rules, table, rows, number, error);
}

gboolean
sw_rules_lookup (const SwRules *rules, const char *table_name, const char *row, const char *column,
                 SwRuleValue *answer, GError **error)
{
  const SwRulesTable *table = sw_rules_table_get (rules, table_name, error);
  Spot r, c;
  return table != NULL && find_named (rules, table, TRUE, row, &r, error)
         && find_named (rules, table, FALSE, column, &c, error) && mix (rules, table, &r, &c, answer, error);
}

gboolean
sw_rules_lookup_at (const SwRules *rules, const char *table_name, double row, SwRuleMatch match,
                    const char *column, SwRuleValue *answer, GError **error)
{
  const SwRulesTable *table = sw_rules_table_get (rules, table_name, error);
  Spot r, c;
  return table != NULL && find_number (rules, table, TRUE, row, match, &r, error)
         && find_named (rules, table, FALSE, column, &c, error) && mix (rules, table, &r, &c, answer, error);
}

gboolean
sw_rules_grid (const SwRules *rules, const char *table_name, const char *row, double column,
               SwRuleMatch column_match, SwRuleValue *answer, GError **error)
{
  const SwRulesTable *table = sw_rules_table_get (rules, table_name, error);
  Spot r, c;
  return table != NULL && find_named (rules, table, TRUE, row, &r, error)
         && find_number (rules, table, FALSE, column, column_match, &c, error)
         && mix (rules, table, &r, &c, answer, error);
}

gboolean
sw_rules_grid_at (const SwRules *rules, const char *table_name, double row, SwRuleMatch row_match,
                  double column, SwRuleMatch column_match, SwRuleValue *answer, GError **error)
{
  const SwRulesTable *table = sw_rules_table_get (rules, table_name, error);
  Spot r, c;
  return table != NULL && find_number (rules, table, TRUE, row, row_match, &r, error)
         && find_number (rules, table, FALSE, column, column_match, &c, error)
         && mix (rules, table, &r, &c, answer, error);
}

/* ---- walking a table ---- */

guint
sw_rules_n_rows (const SwRules *rules, const char *table)
{
  const SwRulesTable *found = peek (rules, table);
  return found ? found->rows->len : 0;
}

const char *
sw_rules_row_key (const SwRules *rules, const char *table, guint row)
{
  g_assert (row < sw_rules_n_rows (rules, table));
  return ((SwRulesRow *) peek (rules, table)->rows->pdata[row])->head.name;
}

double
sw_rules_row_number (const SwRules *rules, const char *table, guint row)
{
  g_assert (row < sw_rules_n_rows (rules, table));
  return head_number (peek (rules, table), TRUE, row);
}

guint
sw_rules_n_columns (const SwRules *rules, const char *table)
{
  const SwRulesTable *found = peek (rules, table);
  return found ? found->columns->len : 0;
}

const char *
sw_rules_column_name (const SwRules *rules, const char *table, guint column)
{
  g_assert (column < sw_rules_n_columns (rules, table));
  return g_array_index (peek (rules, table)->columns, SwRulesHead, column).name;
}
