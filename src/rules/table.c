/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "rules/table.h"
#include "base/number.h"
#include <math.h>
#include <string.h>

static void
row_free (gpointer data)
{
  SwRulesRow *row = data;
  g_array_unref (row->cells);
  g_free (row);
}

static SwRulesRow *
row_new (const char *name, double number, guint n_columns)
{
  SwRulesRow *row = g_new (SwRulesRow, 1);
  row->head = (SwRulesHead) { name, number };
  row->cells = g_array_new (FALSE, TRUE, sizeof (SwRulesCell));
  g_array_set_size (row->cells, n_columns);
  return row;
}

SwRulesTable *
sw_rules_table_bare (const SwRuleTable *schema)
{
  SwRulesTable *table = g_new0 (SwRulesTable, 1);
  table->schema = schema;
  table->columns = g_array_new (FALSE, TRUE, sizeof (SwRulesHead));
  table->rows = g_ptr_array_new_with_free_func (row_free);
  for (guint i = 0; schema->shape != SW_RULES_GRID && i < schema->n_keys; i++)
    {
      SwRulesHead head = { schema->keys[i].name, NAN };
      g_array_append_val (table->columns, head);
    }
  if (schema->shape == SW_RULES_GROUP)
    g_ptr_array_add (table->rows, row_new ("", NAN, table->columns->len));
  return table;
}

void
sw_rules_table_free (SwRulesTable *table)
{
  if (table == NULL)
    return;
  g_array_unref (table->columns);
  g_ptr_array_unref (table->rows);
  g_free (table);
}

SwRulesTable *
sw_rules_table_copy (const SwRulesTable *table)
{
  SwRulesTable *copy = g_new (SwRulesTable, 1);
  *copy = *table;
  copy->columns = g_array_copy (table->columns);
  copy->rows = g_ptr_array_new_with_free_func (row_free);
  for (guint i = 0; i < table->rows->len; i++)
    {
      const SwRulesRow *row = table->rows->pdata[i];
      SwRulesRow *twin = g_new (SwRulesRow, 1);
      twin->head = row->head;
      twin->cells = g_array_copy (row->cells);
      g_ptr_array_add (copy->rows, twin);
    }
  return copy;
}

const SwRuleKey *
sw_rules_table_key (const SwRulesTable *table, guint column)
{
  return table->schema->shape == SW_RULES_GRID ? &table->schema->keys[1] : &table->schema->keys[column];
}

SwRulesCell *
sw_rules_table_cell (const SwRulesTable *table, guint row, guint column)
{
  const SwRulesRow *at = table->rows->pdata[row];
  return &g_array_index (at->cells, SwRulesCell, column);
}

/* Numbers are compared as numbers: "20" finds the row that was written "20.0". */
static gboolean
head_is (const SwRulesHead *head, const char *name)
{
  double number;
  if (isnan (head->number))
    return strcmp (head->name, name) == 0;
  return sw_number_read (name, &number, NULL) && number == head->number;
}

int
sw_rules_table_row (const SwRulesTable *table, const char *key)
{
  for (guint i = 0; i < table->rows->len; i++)
    if (head_is (&((SwRulesRow *) table->rows->pdata[i])->head, key))
      return (int) i;
  return -1;
}

int
sw_rules_table_column (const SwRulesTable *table, const char *name)
{
  for (guint i = 0; i < table->columns->len; i++)
    if (head_is (&g_array_index (table->columns, SwRulesHead, i), name))
      return (int) i;
  return -1;
}

char *
sw_rules_cell_text (const SwRulesCell *cell, const SwRuleKey *key)
{
  char buf[SW_NUMBER_BUF];
  if (!cell->present)
    return g_strdup ("");
  switch (key->kind)
    {
    case SW_RULE_FLAG:
      return g_strdup (cell->value != 0 ? "yes" : "no");
    case SW_RULE_WORDS:
      return g_strdup (cell->text);
    case SW_RULE_SERIES:
      {
        GString *text = g_string_new (NULL);
        for (guint i = 0; i < cell->n_series; i++)
          g_string_append_printf (text, "%s%s", i > 0 ? ";" : "", sw_number_write (cell->series[i], buf));
        return g_string_free (text, FALSE);
      }
    case SW_RULE_NUMBER:
    default:
      return g_strdup (sw_number_write (cell->value, buf));
    }
}

/* ---- one value ---- */

static gboolean
read_number (const char *text, const SwRuleKey *key, const char *what, const SwRulesOrigin *origin,
             guint line, double *value, GError **error)
{
  char low[SW_NUMBER_BUF], high[SW_NUMBER_BUF];
  if (!sw_number_read (text, value, NULL))
    return sw_rules_fail (error, origin->path, line, "%s: \"%s\" is not a number (write 0.5, not 0,5)", what,
                          text);
  if (*value < key->low || *value > key->high)
    return sw_rules_fail (error, origin->path, line, "%s: %s lies outside %s to %s %s", what, text,
                          sw_number_write (key->low, low), sw_number_write (key->high, high), key->unit);
  return TRUE;
}

static gboolean
read_series (const char *text, const SwRuleKey *key, const SwRulesOrigin *origin, guint line,
             SwRulesCell *cell, GError **error)
{
  g_auto (GStrv) parts = g_strsplit (text, ";", -1);
  guint n = g_strv_length (parts);
  if (n > 1 && *g_strstrip (parts[n - 1]) == '\0')
    n--;
  double *numbers = g_new (double, MAX (n, 1));
  g_ptr_array_add (origin->pool->arrays, numbers);
  for (guint i = 0; i < n; i++)
    {
      if (!read_number (g_strstrip (parts[i]), key, cell->id, origin, line, &numbers[i], error))
        return FALSE;
      if (i > 0 && numbers[i] <= numbers[i - 1])
        return sw_rules_fail (error, origin->path, line, "%s: the numbers have to ascend, %s does not",
                              cell->id, parts[i]);
    }
  cell->series = numbers;
  cell->n_series = n;
  return n > 0;
}

static gboolean
read_cell (const char *text, const SwRuleKey *key, const SwRulesOrigin *origin, guint line, SwRulesCell *cell,
           GError **error)
{
  gboolean good = TRUE;
  switch (key->kind)
    {
    case SW_RULE_FLAG:
      cell->value = strcmp (text, "yes") == 0;
      if (cell->value == 0 && strcmp (text, "no") != 0)
        good = sw_rules_fail (error, origin->path, line, "%s: \"%s\" is neither yes nor no", cell->id, text);
      break;
    case SW_RULE_WORDS:
      cell->text = g_string_chunk_insert_const (origin->pool->strings, text);
      if (text[0] == '\0' || !sw_rules_words_have (key->words, text))
        good = sw_rules_fail (error, origin->path, line, "%s: \"%s\" is not one of %s", cell->id, text,
                              key->words ? key->words : "any words");
      break;
    case SW_RULE_SERIES:
      good = read_series (text, key, origin, line, cell, error);
      break;
    case SW_RULE_NUMBER:
    default:
      good = read_number (text, key, cell->id, origin, line, &cell->value, error);
    }
  cell->present = good;
  return good;
}

/* ---- rows and columns ---- */

/* A row's or column's name: a number in its range, kept in its shortest form, or a word of the closed list. */
static gboolean
read_head (const char *text, const SwRuleKey *key, const char *what, const SwRulesOrigin *origin, guint line,
           SwRulesHead *head, GError **error)
{
  char buf[SW_NUMBER_BUF];
  head->number = NAN;
  if (key->kind == SW_RULE_NUMBER)
    {
      if (!read_number (text, key, what, origin, line, &head->number, error))
        return FALSE;
      text = sw_number_write (head->number, buf);
    }
  else if (text[0] == '\0' || !sw_rules_words_have (key->words, text))
    return sw_rules_fail (error, origin->path, line, "%s: \"%s\" is not one of %s", what, text,
                          key->words ? key->words : "any words");
  head->name = g_string_chunk_insert_const (origin->pool->strings, text);
  return TRUE;
}

/* Reads `columns=`: which of the table's columns each field of a row fills. */
static GArray *
read_columns (SwRulesTable *table, const SwRulesSection *section, const SwRulesOrigin *origin, GError **error)
{
  const SwRulesLine *line = sw_rules_section_find (section, "columns");
  if (line == NULL)
    {
      sw_rules_fail (error, origin->path, section->line, "[%s] needs columns=", section->name);
      return NULL;
    }
  g_autoptr (GArray) places = g_array_new (FALSE, FALSE, sizeof (int));
  g_auto (GStrv) names = g_strsplit (line->value, ";", -1);
  gboolean grid = table->schema->shape == SW_RULES_GRID;
  for (guint i = 0; names[i] != NULL; i++)
    {
      const char *name = g_strstrip (names[i]);
      if (name[0] == '\0' && names[i + 1] == NULL && i > 0)
        break;
      SwRulesHead head;
      if (grid && !read_head (name, &table->schema->keys[0], "columns", origin, line->line, &head, error))
        return NULL;
      if (grid && table->columns->len > 0
          && head.number <= g_array_index (table->columns, SwRulesHead, table->columns->len - 1).number)
        return sw_rules_fail (error, origin->path, line->line, "columns have to ascend, %s does not", name),
               NULL;
      if (grid)
        g_array_append_val (table->columns, head);
      int place = grid ? (int) i : sw_rules_schema_key (table->schema, name);
      if (place < 0)
        return sw_rules_fail (error, origin->path, line->line, "[%s] has no column \"%s\"", section->name,
                              name),
               NULL;
      for (guint k = 0; k < places->len; k++)
        if (g_array_index (places, int, k) == place)
          return sw_rules_fail (error, origin->path, line->line, "column \"%s\" stands twice", name), NULL;
      g_array_append_val (places, place);
    }
  return g_steal_pointer (&places);
}

static gboolean
read_row (SwRulesTable *table, const SwRulesLine *line, const GArray *places, const SwRulesOrigin *origin,
          GError **error)
{
  SwRulesHead head;
  g_autofree char *what = g_strdup_printf ("%s rows", table->schema->name);
  if (!read_head (line->key + strlen ("row."), &table->schema->row, what, origin, line->line, &head, error))
    return FALSE;
  if (table->rows->len > 0 && table->schema->row.kind == SW_RULE_NUMBER)
    {
      const SwRulesRow *last = table->rows->pdata[table->rows->len - 1];
      if (last->head.number >= head.number)
        return sw_rules_fail (error, origin->path, line->line, "%s have to ascend: %s follows %s", what,
                              head.name, last->head.name);
    }
  g_auto (GStrv) fields = g_strsplit (line->value, ";", -1);
  guint n = g_strv_length (fields);
  if (n == places->len + 1 && *g_strstrip (fields[n - 1]) == '\0')
    n--;
  if (n != places->len)
    return sw_rules_fail (error, origin->path, line->line, "row %s has %u values for %u columns", head.name,
                          n, places->len);
  SwRulesRow *row = row_new (head.name, head.number, table->columns->len);
  g_ptr_array_add (table->rows, row);
  for (guint i = 0; i < n; i++)
    {
      int place = g_array_index (places, int, i);
      SwRulesCell *cell = &g_array_index (row->cells, SwRulesCell, place);
      const char *text = g_strstrip (fields[i]);
      g_autofree char *id = g_strdup_printf ("%s[%s].%s", table->schema->name, head.name,
                                             g_array_index (table->columns, SwRulesHead, place).name);
      cell->id = g_string_chunk_insert_const (origin->pool->strings, id);
      if (strcmp (text, "-") != 0
          && !read_cell (text, sw_rules_table_key (table, place), origin, line->line, cell, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
read_single (SwRulesTable *table, const SwRulesLine *line, const SwRulesOrigin *origin, GError **error)
{
  int place = sw_rules_schema_key (table->schema, line->key);
  if (place < 0)
    return sw_rules_fail (error, origin->path, line->line, "[%s] has no key \"%s\"", table->schema->name,
                          line->key);
  SwRulesCell *cell = sw_rules_table_cell (table, 0, place);
  g_autofree char *id = g_strdup_printf ("%s.%s", table->schema->name, line->key);
  cell->id = g_string_chunk_insert_const (origin->pool->strings, id);
  return read_cell (line->value, &table->schema->keys[place], origin, line->line, cell, error);
}

/* ---- source, confidence, note ---- */

typedef enum
{
  ABOUT_NOTHING,
  ABOUT_SOURCE,
  ABOUT_CONFIDENCE,
  ABOUT_NOTE
} About;

static About
about_of (const char *key, gsize *stem)
{
  static const struct
  {
    const char *word;
    About about;
  } words[] = {
    { "source", ABOUT_SOURCE },
    { "confidence", ABOUT_CONFIDENCE },
    { "note", ABOUT_NOTE },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (words); i++)
    {
      gsize length = strlen (key), tail = strlen (words[i].word);
      if (length >= tail && strcmp (key + length - tail, words[i].word) == 0
          && (length == tail || key[length - tail - 1] == '.'))
        {
          *stem = length == tail ? 0 : length - tail - 1;
          return words[i].about;
        }
    }
  return ABOUT_NOTHING;
}

static gboolean
set_about (SwRulesCell *cell, About about, const SwRulesLine *line, const SwRulesOrigin *origin,
           GError **error)
{
  if (line->value[0] == '\0' && about != ABOUT_NOTE)
    return sw_rules_fail (error, origin->path, line->line, "%s is empty", line->key);
  if (about == ABOUT_SOURCE)
    cell->source = line->value;
  else if (about == ABOUT_NOTE)
    cell->note = line->value;
  else
    {
      int i = 0;
      while (i < SW_N_CONFIDENCES && strcmp (sw_confidence_word (i), line->value) != 0)
        i++;
      if (i == SW_N_CONFIDENCES)
        return sw_rules_fail (error, origin->path, line->line,
                              "\"%s\" is not a confidence (published, common-practice, derived, from-memory)",
                              line->value);
      cell->confidence = i;
    }
  return TRUE;
}

/* Which cells "row.20", "column.bore_mm", "row.20@bore_mm" or a group's key mean; −1 for all. */
static int
find_target (const SwRulesTable *table, const char *stem, int *row, int *column)
{
  *row = *column = -1;
  if (stem[0] == '\0')
    return 0;
  if (table->schema->shape == SW_RULES_GROUP)
    {
      *row = 0;
      *column = sw_rules_schema_key (table->schema, stem);
      return *column < 0 ? -1 : 3;
    }
  if (g_str_has_prefix (stem, "column."))
    {
      *column = sw_rules_table_column (table, stem + strlen ("column."));
      return *column < 0 ? -1 : 1;
    }
  if (!g_str_has_prefix (stem, "row."))
    return -1;
  g_auto (GStrv) parts = g_strsplit (stem + strlen ("row."), "@", 2);
  *row = sw_rules_table_row (table, parts[0]);
  *column = parts[1] ? sw_rules_table_column (table, parts[1]) : -1;
  if (*row < 0 || (parts[1] != NULL && *column < 0))
    return -1;
  return parts[1] != NULL ? 3 : 2;
}

/* One pass a level, coarse to fine: the group's words, then a column's, a row's, a cell's. */
static gboolean
attribute (SwRulesTable *table, const SwRulesSection *section, int level, const SwRulesOrigin *origin,
           GError **error)
{
  for (guint i = 0; i < section->lines->len; i++)
    {
      const SwRulesLine *line = &g_array_index (section->lines, SwRulesLine, i);
      gsize stem_length = 0;
      About about = about_of (line->key, &stem_length);
      if (about == ABOUT_NOTHING)
        continue;
      g_autofree char *stem = g_strndup (line->key, stem_length);
      int row, column, found = find_target (table, stem, &row, &column);
      if (found < 0)
        return sw_rules_fail (error, origin->path, line->line, "\"%s\" names nothing in [%s]", line->key,
                              section->name);
      if (found != level)
        continue;
      for (guint r = 0; r < table->rows->len; r++)
        for (guint c = 0; c < table->columns->len; c++)
          if ((row < 0 || row == (int) r) && (column < 0 || column == (int) c)
              && !set_about (sw_rules_table_cell (table, r, c), about, line, origin, error))
            return FALSE;
    }
  return TRUE;
}

/* ---- a whole section ---- */

static gboolean
require (const SwRulesSection *section, const char *key, const SwRulesOrigin *origin, GError **error)
{
  const SwRulesLine *line = sw_rules_section_find (section, key);
  if (line == NULL || line->value[0] == '\0')
    return sw_rules_fail (error, origin->path, line ? line->line : section->line,
                          "[%s] needs %s=", section->name, key);
  return TRUE;
}

static gboolean
finish_cells (SwRulesTable *table, const SwRulesSection *section, const SwRulesOrigin *origin, GError **error)
{
  for (int level = 0; level <= 3; level++)
    if (!attribute (table, section, level, origin, error))
      return FALSE;
  guint n = 0;
  for (guint r = 0; r < table->rows->len; r++)
    for (guint c = 0; c < table->columns->len; c++)
      {
        SwRulesCell *cell = sw_rules_table_cell (table, r, c);
        cell->rule_set = origin->rule_set;
        cell->overridden = origin->override;
        cell->note = cell->note ? cell->note : "";
        n += cell->present;
      }
  if (n == 0)
    return sw_rules_fail (error, origin->path, section->line, "[%s] holds no value", section->name);
  return TRUE;
}

static gboolean
fill (SwRulesTable *table, const SwRulesSection *section, const SwRulesOrigin *origin, GError **error)
{
  gboolean group = table->schema->shape == SW_RULES_GROUP;
  g_autoptr (GArray) places = NULL;
  if (!group && (places = read_columns (table, section, origin, error)) == NULL)
    return FALSE;
  for (guint i = 0; i < section->lines->len; i++)
    {
      const SwRulesLine *line = &g_array_index (section->lines, SwRulesLine, i);
      gsize stem;
      if (about_of (line->key, &stem) != ABOUT_NOTHING || (!group && strcmp (line->key, "columns") == 0))
        continue;
      gboolean good;
      if (group)
        good = read_single (table, line, origin, error);
      else if (g_str_has_prefix (line->key, "row."))
        good = read_row (table, line, places, origin, error);
      else
        good = sw_rules_fail (error, origin->path, line->line, "[%s] knows no key \"%s\"", section->name,
                              line->key);
      if (!good)
        return FALSE;
    }
  return TRUE;
}

/* `absent=yes` and `stand_in_from=` take the place of all values; both need a note. */
static gboolean
read_without_values (SwRulesTable *table, const SwRulesSection *section, const SwRulesLine *mark,
                     const SwRulesOrigin *origin, GError **error)
{
  if (origin->override)
    return sw_rules_fail (error, origin->path, mark->line, "%s cannot stand in overrides", mark->key);
  if (!require (section, "note", origin, error))
    return FALSE;
  if (section->lines->len != 2)
    return sw_rules_fail (error, origin->path, mark->line,
                          "[%s] with %s= holds only that and note=", section->name, mark->key);
  table->absent = strcmp (mark->key, "absent") == 0;
  if (table->absent && strcmp (mark->value, "yes") != 0)
    return sw_rules_fail (error, origin->path, mark->line, "absent= can only be yes");
  table->stand_in_from = table->absent ? NULL : mark->value;
  table->stand_in_note = sw_rules_section_find (section, "note")->value;
  table->line = mark->line;
  return TRUE;
}

SwRulesTable *
sw_rules_table_new (const SwRulesSection *section, const SwRuleTable *schema, const SwRulesOrigin *origin,
                    GError **error)
{
  g_autoptr (SwRulesTable) table = sw_rules_table_bare (schema);
  table->path = origin->path;
  table->line = section->line;
  const SwRulesLine *mark = sw_rules_section_find (section, "stand_in_from");
  if (mark == NULL)
    mark = sw_rules_section_find (section, "absent");
  if (mark != NULL)
    return read_without_values (table, section, mark, origin, error) ? g_steal_pointer (&table) : NULL;
  if (!require (section, "source", origin, error) || !require (section, "confidence", origin, error)
      || !fill (table, section, origin, error) || !finish_cells (table, section, origin, error))
    return NULL;
  return g_steal_pointer (&table);
}

/* ---- laying one table on another ---- */

static guint
place_row (SwRulesTable *table, const SwRulesHead *head)
{
  int found = sw_rules_table_row (table, head->name);
  if (found >= 0)
    return found;
  guint at = table->rows->len;
  while (!isnan (head->number) && at > 0
         && ((SwRulesRow *) table->rows->pdata[at - 1])->head.number > head->number)
    at--;
  g_ptr_array_insert (table->rows, at, row_new (head->name, head->number, table->columns->len));
  return at;
}

static guint
place_column (SwRulesTable *table, const SwRulesHead *head)
{
  int found = sw_rules_table_column (table, head->name);
  if (found >= 0)
    return found;
  guint at = table->columns->len;
  while (at > 0 && g_array_index (table->columns, SwRulesHead, at - 1).number > head->number)
    at--;
  g_array_insert_val (table->columns, at, *head);
  const SwRulesCell none = { 0 };
  for (guint i = 0; i < table->rows->len; i++)
    g_array_insert_val (((SwRulesRow *) table->rows->pdata[i])->cells, at, none);
  return at;
}

void
sw_rules_table_overlay (SwRulesTable *under, const SwRulesTable *over, gboolean override, SwRulesPool *pool)
{
  for (guint r = 0; r < over->rows->len; r++)
    for (guint c = 0; c < over->columns->len; c++)
      {
        const SwRulesCell *cell = sw_rules_table_cell (over, r, c);
        if (!cell->present)
          continue;
        guint column = place_column (under, &g_array_index (over->columns, SwRulesHead, c));
        guint row = place_row (under, &((SwRulesRow *) over->rows->pdata[r])->head);
        SwRulesCell *target = sw_rules_table_cell (under, row, column);
        g_autofree char *was = sw_rules_cell_text (target, sw_rules_table_key (under, column));
        *target = *cell;
        if (override)
          target->was = g_string_chunk_insert_const (pool->strings, was);
      }
}

void
sw_rules_table_lend (SwRulesTable *table, const char *note, SwRulesPool *pool)
{
  for (guint r = 0; r < table->rows->len; r++)
    for (guint c = 0; c < table->columns->len; c++)
      {
        SwRulesCell *cell = sw_rules_table_cell (table, r, c);
        if (!cell->present)
          continue;
        g_autofree char *both = g_strconcat (note, cell->note[0] ? ". " : "", cell->note, NULL);
        cell->note = g_string_chunk_insert_const (pool->strings, both);
        cell->stand_in = TRUE;
      }
}
