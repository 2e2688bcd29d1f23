/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "rules/listing.h"
#include "base/error.h"
#include "rules/set.h"
#include <math.h>
#include <string.h>

static void
entry_free (gpointer data)
{
  SwRuleEntry *entry = data;
  g_free (entry->text);
  g_free (entry);
}

static SwRuleEntry *
entry_new (const SwRulesTable *table, guint row, guint column)
{
  const SwRulesCell *cell = sw_rules_table_cell (table, row, column);
  const SwRuleKey *key = sw_rules_table_key (table, column);
  SwRuleEntry *entry = g_new0 (SwRuleEntry, 1);
  entry->answer = sw_rules_answer (cell, key);
  entry->table = table->schema->name;
  entry->table_what = table->schema->what;
  entry->what = key->what;
  entry->row = ((SwRulesRow *) table->rows->pdata[row])->head.name;
  entry->column = g_array_index (table->columns, SwRulesHead, column).name;
  entry->text = sw_rules_cell_text (cell, key);
  entry->was = cell->was;
  return entry;
}

GPtrArray *
sw_rules_entries (const SwRules *rules, gboolean changed_only)
{
  GPtrArray *entries = g_ptr_array_new_with_free_func (entry_free);
  for (guint i = 0; i < rules->n_tables; i++)
    {
      const SwRulesTable *table = rules->tables[i];
      for (guint r = 0; table != NULL && r < table->rows->len; r++)
        for (guint c = 0; c < table->columns->len; c++)
          {
            const SwRulesCell *cell = sw_rules_table_cell (table, r, c);
            if (cell->present && (cell->overridden || !changed_only))
              g_ptr_array_add (entries, entry_new (table, r, c));
          }
    }
  return entries;
}

/* ---- writing overrides ---- */

/* One changed value, wherever it comes from. */
typedef struct
{
  const SwRuleTable *schema;
  const char *row, *column, *value, *source, *note;
  SwConfidence confidence;
} Change;

static gboolean
same_row (const Change *a, const Change *b)
{
  return a->schema == b->schema && strcmp (a->row, b->row) == 0;
}

static void
write_about (GString *text, const Change *change)
{
  g_autofree char *stem = change->schema->shape == SW_RULES_GROUP
                              ? g_strdup (change->column)
                              : g_strdup_printf ("row.%s@%s", change->row, change->column);
  g_string_append_printf (text, "%s.source=%s\n%s.confidence=%s\n", stem, change->source, stem,
                          sw_confidence_word (change->confidence));
  if (change->note[0] != '\0')
    g_string_append_printf (text, "%s.note=%s\n", stem, change->note);
}

/* The columns that occur in the table's changes, in the table's order or, in a grid, ascending. */
static GPtrArray *
used_columns (const Change *changes, guint n)
{
  GPtrArray *columns = g_ptr_array_new ();
  for (guint i = 0; i < n; i++)
    {
      guint at = 0;
      gboolean known = FALSE;
      double number = g_ascii_strtod (changes[i].column, NULL);
      for (guint k = 0; k < columns->len; k++)
        {
          known = known || strcmp (columns->pdata[k], changes[i].column) == 0;
          gboolean before = changes[i].schema->shape == SW_RULES_GRID
                                ? g_ascii_strtod (columns->pdata[k], NULL) < number
                                : sw_rules_schema_key (changes[i].schema, columns->pdata[k])
                                      < sw_rules_schema_key (changes[i].schema, changes[i].column);
          at += before;
        }
      if (!known)
        g_ptr_array_insert (columns, at, (gpointer) changes[i].column);
    }
  return columns;
}

static void
write_rows (GString *text, const Change *changes, guint n)
{
  g_autoptr (GPtrArray) columns = used_columns (changes, n);
  g_string_append (text, "columns=");
  for (guint k = 0; k < columns->len; k++)
    g_string_append_printf (text, "%s%s", k > 0 ? ";" : "", (const char *) columns->pdata[k]);
  g_string_append_c (text, '\n');
  for (guint i = 0; i < n; i++)
    {
      if (i > 0 && same_row (&changes[i - 1], &changes[i]))
        continue;
      g_string_append_printf (text, "row.%s=", changes[i].row);
      for (guint k = 0; k < columns->len; k++)
        {
          const char *value = "-";
          for (guint j = i; j < n && same_row (&changes[i], &changes[j]); j++)
            if (strcmp (changes[j].column, columns->pdata[k]) == 0)
              value = changes[j].value;
          g_string_append_printf (text, "%s%s", k > 0 ? ";" : "", value);
        }
      g_string_append_c (text, '\n');
    }
}

static char *
write_changes (const GArray *changes)
{
  GString *text = g_string_new (NULL);
  for (guint i = 0, end; i < changes->len; i = end)
    {
      const Change *first = &g_array_index (changes, Change, i);
      for (end = i; end < changes->len && g_array_index (changes, Change, end).schema == first->schema;)
        end++;
      g_string_append_printf (text, "%s[%s]\nsource=%s\nconfidence=%s\n", i > 0 ? "\n" : "",
                              first->schema->name, first->source, sw_confidence_word (first->confidence));
      if (first->schema->shape != SW_RULES_GROUP)
        write_rows (text, first, end - i);
      for (guint k = i; k < end; k++)
        {
          const Change *change = &g_array_index (changes, Change, k);
          if (first->schema->shape == SW_RULES_GROUP)
            g_string_append_printf (text, "%s=%s\n", change->column, change->value);
          write_about (text, change);
        }
    }
  return g_string_free (text, FALSE);
}

/* ---- the new change in its place ---- */

/* Parts of "table.key" or "table[row].column"; the strings are cut out of `id`. */
static const SwRuleTable *
split_id (char *id, const char **row, const char **column)
{
  char *open = strchr (id, '['), *close = open ? strstr (open, "].") : NULL;
  char *dot = open ? NULL : strrchr (id, '.');
  if (open != NULL ? close == NULL : dot == NULL)
    return NULL;
  *(open ? open : dot) = '\0';
  if (open != NULL)
    *close = '\0';
  *row = open ? open + 1 : "";
  *column = open ? close + 2 : dot + 1;
  int place = sw_rules_schema_find (id);
  const SwRuleTable *schema = place < 0 ? NULL : sw_rules_schema_table (place);
  return schema != NULL && (schema->shape == SW_RULES_GROUP) == (open == NULL) ? schema : NULL;
}

static int
schema_place (const Change *change)
{
  return sw_rules_schema_find (change->schema->name);
}

/* Puts `change` where its table and row stand; equal rows stay together. */
static void
insert_change (GArray *changes, const Change *change)
{
  guint at = 0;
  gboolean numbers = change->schema->row.kind == SW_RULE_NUMBER;
  for (guint i = 0; i < changes->len; i++)
    {
      const Change *other = &g_array_index (changes, Change, i);
      if (schema_place (other) < schema_place (change))
        at = i + 1;
      else if (other->schema == change->schema
               && (same_row (other, change) || !numbers
                   || g_ascii_strtod (other->row, NULL) < g_ascii_strtod (change->row, NULL)))
        at = i + 1;
    }
  if (!numbers)
    for (guint i = 0; i < changes->len; i++)
      if (same_row (&g_array_index (changes, Change, i), change))
        at = i + 1;
  g_array_insert_val (changes, at, *change);
}

static GArray *
other_changes (const GPtrArray *entries, const char *rule_id)
{
  GArray *changes = g_array_new (FALSE, FALSE, sizeof (Change));
  for (guint i = 0; i < entries->len; i++)
    {
      const SwRuleEntry *entry = entries->pdata[i];
      if (strcmp (entry->answer.rule_id, rule_id) == 0)
        continue;
      Change change = { sw_rules_schema_table (sw_rules_schema_find (entry->table)),
                        entry->row,
                        entry->column,
                        entry->text,
                        entry->answer.source,
                        entry->answer.note,
                        entry->answer.confidence };
      g_array_append_val (changes, change);
    }
  return changes;
}

char *
sw_rules_override (const SwRules *rules, const char *rule_id, const char *value, const char *source,
                   SwConfidence confidence, GError **error)
{
  g_autofree char *id = g_strdup (rule_id);
  const char *row = "", *column = "";
  const SwRuleTable *schema = split_id (id, &row, &column);
  if (schema == NULL)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, "no rule is named \"%s\"", rule_id);
      return NULL;
    }
  if (value != NULL
      && (value[0] == '\0' || strcmp (value, "-") == 0 || strpbrk (value, "\r\n") || source[0] == '\0'
          || strpbrk (source, "\r\n")))
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INVALID,
                   "%s: a changed rule needs a value and a source, one line each", rule_id);
      return NULL;
    }
  g_autoptr (GPtrArray) entries = sw_rules_entries (rules, TRUE);
  g_autoptr (GArray) changes = other_changes (entries, rule_id);
  Change change = { schema, row, column, value, source, "", confidence };
  if (value != NULL)
    insert_change (changes, &change);
  g_autofree char *text = write_changes (changes);
  g_autoptr (SwRules) trial
      = sw_rules_load_from (rules->folder, rules->name, text, rules->overrides_name, error);
  return trial != NULL ? g_steal_pointer (&text) : NULL;
}
