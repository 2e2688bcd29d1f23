/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Puts a rule set together. Each file is read once into raw tables; a table is then resolved from the chosen set
 * towards the root: the nearest file that holds it wins whole (tables of two countries never mix), only groups of
 * single values are laid key by key on those below. A stand-in takes the table of another set and marks it; a stand-in
 * for a stand-in is refused, and a base that leads back to itself is found while it is read, so both walks end. The
 * user's overrides come last, cell by cell. Cost: one pass over a few hundred lines. */
#include "rules/set.h"
#include "base/error.h"
#include "base/paths.h"
#include <string.h>

typedef struct _RawSet RawSet;
struct _RawSet
{
  const char *name, *title, *path;
  RawSet *base;
  gboolean selectable, loading;
  SwRulesTable **tables; /* one a schema table */
};

typedef struct
{
  const char *folder;
  SwRulesPool *pool;
  GHashTable *sets; /* name → RawSet */
  guint n_tables;
} Loader;

static guint
schema_length (void)
{
  guint n = 0;
  while (sw_rules_schema_table (n) != NULL)
    n++;
  return n;
}

static void
tables_free (SwRulesTable **tables, guint n)
{
  for (guint i = 0; tables != NULL && i < n; i++)
    sw_rules_table_free (tables[i]);
  g_free (tables);
}

static void
raw_free (gpointer data)
{
  RawSet *set = data;
  tables_free (set->tables, schema_length ());
  g_free (set);
}

static gboolean
is_set_name (const char *name)
{
  return name[0] != '\0' && strspn (name, "abcdefghijklmnopqrstuvwxyz0123456789-") == strlen (name);
}

static RawSet *raw_get (Loader *loader, const char *name, const char *from, guint line, GError **error);

static gboolean
read_head_section (Loader *loader, RawSet *set, const SwRulesSection *section, GError **error)
{
  static const char *const keys[] = { "name", "title", "base", "selectable", NULL };
  for (guint i = 0; i < section->lines->len; i++)
    {
      const SwRulesLine *line = &g_array_index (section->lines, SwRulesLine, i);
      if (!g_strv_contains (keys, line->key))
        return sw_rules_fail (error, set->path, line->line, "[ruleset] knows no key \"%s\"", line->key);
    }
  const SwRulesLine *name = sw_rules_section_find (section, "name");
  const SwRulesLine *title = sw_rules_section_find (section, "title");
  const SwRulesLine *selectable = sw_rules_section_find (section, "selectable");
  const SwRulesLine *base = sw_rules_section_find (section, "base");
  if (name == NULL || strcmp (name->value, set->name) != 0)
    return sw_rules_fail (error, set->path, name ? name->line : section->line,
                          "name= has to be \"%s\", as the file", set->name);
  set->title = title && title->value[0] ? title->value : set->name;
  if (selectable != NULL && strcmp (selectable->value, "yes") != 0 && strcmp (selectable->value, "no") != 0)
    return sw_rules_fail (error, set->path, selectable->line, "selectable= is yes or no");
  set->selectable = selectable == NULL || strcmp (selectable->value, "yes") == 0;
  if (base == NULL)
    return TRUE;
  set->base = raw_get (loader, base->value, set->path, base->line, error);
  return set->base != NULL;
}

static gboolean
read_tables (const SwRulesFile *file, guint first, const SwRulesOrigin *origin, SwRulesTable **tables,
             GError **error)
{
  for (guint i = first; i < file->sections->len; i++)
    {
      const SwRulesSection *section = file->sections->pdata[i];
      int place = sw_rules_schema_find (section->name);
      if (place < 0)
        return sw_rules_fail (error, file->path, section->line, "there is no group [%s]", section->name);
      tables[place] = sw_rules_table_new (section, sw_rules_schema_table (place), origin, error);
      if (tables[place] == NULL)
        return FALSE;
    }
  return TRUE;
}

static gboolean
raw_read (Loader *loader, RawSet *set, GError **error)
{
  g_autoptr (SwRulesFile) file = sw_rules_file_read (set->path, loader->pool->strings, error);
  if (file == NULL)
    return FALSE;
  const SwRulesSection *head = file->sections->len > 0 ? file->sections->pdata[0] : NULL;
  if (head == NULL || strcmp (head->name, "ruleset") != 0)
    return sw_rules_fail (error, set->path, head ? head->line : 1, "the first group has to be [ruleset]");
  SwRulesOrigin origin = { set->path, set->name, loader->pool, FALSE };
  return read_head_section (loader, set, head, error) && read_tables (file, 1, &origin, set->tables, error);
}

/* The set `name`, read at its first use; `from` and `line` say who asked. */
static RawSet *
raw_get (Loader *loader, const char *name, const char *from, guint line, GError **error)
{
  RawSet *set = g_hash_table_lookup (loader->sets, name);
  if (set != NULL && !set->loading)
    return set;
  if (set != NULL)
    return sw_rules_fail (error, from, line, "base=%s leads back to itself", name), NULL;
  g_autofree char *file = g_strconcat (name, ".ini", NULL);
  g_autofree char *path = g_build_filename (loader->folder, file, NULL);
  if (!is_set_name (name) || !g_file_test (path, G_FILE_TEST_IS_REGULAR))
    {
      if (from != NULL)
        return sw_rules_fail (error, from, line, "there is no rule set \"%s\"", name), NULL;
      g_auto (GStrv) sets = sw_rules_list (NULL);
      g_autofree char *names = sets != NULL ? g_strjoinv (", ", sets) : NULL;
      if (names != NULL && *names != '\0')
        g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, "there is no rule set \"%s\": one of %s", name, names);
      else
        g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, "there is no rule set \"%s\" in %s", name, loader->folder);
      return NULL;
    }
  set = g_new0 (RawSet, 1);
  set->name = g_string_chunk_insert_const (loader->pool->strings, name);
  set->path = g_string_chunk_insert_const (loader->pool->strings, path);
  set->tables = g_new0 (SwRulesTable *, loader->n_tables);
  set->loading = TRUE;
  g_hash_table_insert (loader->sets, (gpointer) set->name, set);
  if (!raw_read (loader, set, error))
    return NULL;
  set->loading = FALSE;
  return set;
}

/* ---- one table of the chosen set ---- */

static gboolean resolve (Loader *loader, const RawSet *set, guint place, gboolean standing,
                         SwRulesTable **table, const char **missing, GError **error);

static gboolean
borrow (Loader *loader, const SwRulesTable *raw, guint place, gboolean standing, SwRulesTable **table,
        GError **error)
{
  const char *missing = NULL;
  if (standing)
    return sw_rules_fail (error, raw->path, raw->line, "[%s] is asked to stand in but is a stand-in itself",
                          raw->schema->name);
  const RawSet *lender = raw_get (loader, raw->stand_in_from, raw->path, raw->line, error);
  if (lender == NULL || !resolve (loader, lender, place, TRUE, table, &missing, error))
    return FALSE;
  if (*table == NULL)
    return sw_rules_fail (error, raw->path, raw->line, "the rule set \"%s\" has no [%s] to lend",
                          raw->stand_in_from, raw->schema->name);
  sw_rules_table_lend (*table, raw->stand_in_note, loader->pool);
  return TRUE;
}

/* Sets *table, NULL when the set has none and *missing to the note that says why, if there is one. */
static gboolean
resolve (Loader *loader, const RawSet *set, guint place, gboolean standing, SwRulesTable **table,
         const char **missing, GError **error)
{
  *table = NULL;
  if (set == NULL)
    return TRUE;
  const SwRulesTable *raw = set->tables[place];
  if (raw == NULL)
    return resolve (loader, set->base, place, standing, table, missing, error);
  if (raw->absent)
    {
      *missing = raw->stand_in_note;
      return TRUE;
    }
  if (raw->stand_in_from != NULL)
    return borrow (loader, raw, place, standing, table, error);
  if (raw->schema->shape == SW_RULES_GROUP)
    {
      if (!resolve (loader, set->base, place, standing, table, missing, error))
        return FALSE;
      *missing = NULL;
      if (*table != NULL)
        {
          sw_rules_table_overlay (*table, raw, FALSE, loader->pool);
          return TRUE;
        }
    }
  *table = sw_rules_table_copy (raw);
  return TRUE;
}

/* ---- what every set must have ---- */

static gboolean
lacks (GError **error, const RawSet *set, const char *what, const char *part)
{
  return sw_rules_fail (error, set->path, 1, "the rule set needs %s%s%s", what, part[0] ? "." : "", part);
}

static gboolean
check_complete (const RawSet *set, const SwRuleTable *schema, const SwRulesTable *table, GError **error)
{
  if (!schema->everywhere)
    return TRUE;
  if (table == NULL)
    return lacks (error, set, schema->name, "");
  if (schema->shape == SW_RULES_GROUP)
    {
      for (guint i = 0; i < schema->n_keys; i++)
        if (!sw_rules_table_cell (table, 0, i)->present)
          return lacks (error, set, schema->name, schema->keys[i].name);
      return TRUE;
    }
  g_auto (GStrv) rows = g_strsplit (schema->row.words ? schema->row.words : "", "|", -1);
  for (guint i = 0; rows[i] != NULL; i++)
    if (sw_rules_table_row (table, rows[i]) < 0)
      return lacks (error, set, schema->name, rows[i]);
  return TRUE;
}

/* ---- overrides ---- */

static gboolean
lay_overrides (SwRules *rules, const char *text, GError **error)
{
  if (text == NULL)
    return TRUE;
  const char *name = rules->overrides_name;
  g_autoptr (SwRulesFile) file = sw_rules_file_parse (name, text, strlen (text), rules->pool.strings, error);
  if (file == NULL)
    return FALSE;
  SwRulesOrigin origin = { file->path, name, &rules->pool, TRUE };
  SwRulesTable **changes = g_new0 (SwRulesTable *, rules->n_tables);
  gboolean good = read_tables (file, 0, &origin, changes, error);
  for (guint i = 0; good && i < rules->n_tables; i++)
    {
      if (changes[i] == NULL)
        continue;
      if (rules->tables[i] == NULL)
        rules->tables[i] = sw_rules_table_bare (changes[i]->schema);
      sw_rules_table_overlay (rules->tables[i], changes[i], TRUE, &rules->pool);
    }
  tables_free (changes, rules->n_tables);
  return good;
}

/* ---- the set ---- */

static SwRules *
rules_new (const char *folder, const char *overrides_name)
{
  SwRules *rules = g_new0 (SwRules, 1);
  rules->references = 1;
  rules->pool.strings = g_string_chunk_new (4096);
  rules->pool.arrays = g_ptr_array_new_with_free_func (g_free);
  rules->folder = g_strdup (folder);
  rules->overrides_name
      = g_string_chunk_insert (rules->pool.strings, overrides_name ? overrides_name : "overrides");
  rules->n_tables = schema_length ();
  rules->tables = g_new0 (SwRulesTable *, rules->n_tables);
  rules->missing = g_new0 (const char *, rules->n_tables);
  rules->index = g_hash_table_new (g_str_hash, g_str_equal);
  for (guint i = 0; i < rules->n_tables; i++)
    g_hash_table_insert (rules->index, (gpointer) sw_rules_schema_table (i)->name, GUINT_TO_POINTER (i + 1));
  return rules;
}

static gboolean
assemble (SwRules *rules, Loader *loader, const char *name, GError **error)
{
  const RawSet *set = raw_get (loader, name, NULL, 0, error);
  if (set == NULL)
    return FALSE;
  rules->name = set->name;
  rules->title = set->title;
  for (guint i = 0; i < rules->n_tables; i++)
    if (!resolve (loader, set, i, FALSE, &rules->tables[i], &rules->missing[i], error)
        || (set->selectable && !check_complete (set, sw_rules_schema_table (i), rules->tables[i], error)))
      return FALSE;
  return TRUE;
}

SwRules *
sw_rules_load_from (const char *folder, const char *name, const char *overrides, const char *overrides_name,
                    GError **error)
{
  g_autoptr (SwRules) rules = rules_new (folder, overrides_name);
  Loader loader = { folder, &rules->pool, g_hash_table_new_full (g_str_hash, g_str_equal, NULL, raw_free),
                    rules->n_tables };
  gboolean good = assemble (rules, &loader, name, error) && lay_overrides (rules, overrides, error);
  g_hash_table_unref (loader.sets);
  return good ? g_steal_pointer (&rules) : NULL;
}

static char *
rules_folder (void)
{
  g_autofree char *path = sw_data_path ("rules/common.ini");
  return g_path_get_dirname (path);
}

SwRules *
sw_rules_load_text (const char *name, const char *overrides, const char *overrides_name, GError **error)
{
  g_autofree char *folder = rules_folder ();
  return sw_rules_load_from (folder, name, overrides, overrides_name, error);
}

SwRules *
sw_rules_load (const char *name, const char *overrides_path, GError **error)
{
  g_autofree char *text = NULL;
  gsize length = 0;
  g_autoptr (GError) problem = NULL;
  if (overrides_path != NULL && !g_file_get_contents (overrides_path, &text, &length, &problem))
    {
      g_set_error (error, SW_ERROR, SW_ERROR_IO, "the rules' overrides cannot be read: %s", problem->message);
      return NULL;
    }
  if (text != NULL && strlen (text) != length)
    return sw_rules_fail (error, overrides_path, 1, "the text holds a zero byte"), NULL;
  return sw_rules_load_text (name, text, overrides_path, error);
}

static int
by_name (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

/* Reads the head of each file only as far as the whole needs it: a broken file is named, not left out. */
GStrv
sw_rules_list (GError **error)
{
  g_autofree char *folder = rules_folder ();
  g_autoptr (GError) problem = NULL;
  g_autoptr (GDir) dir = g_dir_open (folder, 0, &problem);
  if (dir == NULL)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_IO, "the folder of the rules cannot be read: %s",
                   problem->message);
      return NULL;
    }
  SwRulesPool pool = { g_string_chunk_new (4096), g_ptr_array_new_with_free_func (g_free) };
  Loader loader
      = { folder, &pool, g_hash_table_new_full (g_str_hash, g_str_equal, NULL, raw_free), schema_length () };
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);
  gboolean good = TRUE;
  for (const char *file; good && (file = g_dir_read_name (dir)) != NULL;)
    {
      if (!g_str_has_suffix (file, ".ini"))
        continue;
      g_autofree char *name = g_strndup (file, strlen (file) - strlen (".ini"));
      const RawSet *set = raw_get (&loader, name, NULL, 0, error);
      good = set != NULL;
      if (good && set->selectable)
        g_ptr_array_add (names, g_strdup (name));
    }
  g_hash_table_unref (loader.sets);
  g_string_chunk_free (pool.strings);
  g_ptr_array_unref (pool.arrays);
  if (!good)
    return NULL;
  g_ptr_array_sort (names, by_name);
  g_ptr_array_add (names, NULL);
  return (GStrv) g_ptr_array_steal (names, NULL);
}

SwRules *
sw_rules_ref (SwRules *rules)
{
  g_atomic_int_inc (&rules->references);
  return rules;
}

void
sw_rules_unref (SwRules *rules)
{
  if (rules == NULL || !g_atomic_int_dec_and_test (&rules->references))
    return;
  tables_free (rules->tables, rules->n_tables);
  g_free (rules->missing);
  g_hash_table_unref (rules->index);
  g_string_chunk_free (rules->pool.strings);
  g_ptr_array_unref (rules->pool.arrays);
  g_free (rules->folder);
  g_free (rules);
}
