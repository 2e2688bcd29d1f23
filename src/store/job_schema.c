/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One table a record type, generated from its fields, under a common parent "object", so that a reference may lead to
 * any of several types and a mark stands once in the job. Marks and references are checked at the end of a transaction. */
#include "store/job_schema.h"
#include "base/error.h"
#include <string.h>

static const char frame_sql[] =
  "CREATE TABLE object (id INTEGER PRIMARY KEY, tbl INTEGER NOT NULL CHECK (tbl = id >> 40), tag TEXT NOT NULL) STRICT;\n"
  "CREATE UNIQUE INDEX object_tag ON object (tag) WHERE tag <> '';\n"
  "CREATE TABLE edit (number INTEGER PRIMARY KEY, name TEXT NOT NULL, at TEXT NOT NULL) STRICT;\n"
  "CREATE TABLE edit_change (edit INTEGER NOT NULL, place INTEGER NOT NULL, id INTEGER NOT NULL, before TEXT, after TEXT,\n"
  "  PRIMARY KEY (edit, place)) STRICT, WITHOUT ROWID;\n"
  "CREATE TABLE state (one INTEGER PRIMARY KEY CHECK (one = 1), position INTEGER NOT NULL, revision INTEGER NOT NULL) STRICT;\n"
  "CREATE TABLE holder (one INTEGER PRIMARY KEY CHECK (one = 1), host TEXT NOT NULL, pid INTEGER NOT NULL, user TEXT NOT NULL,\n"
  "  since TEXT NOT NULL) STRICT;\n";

static const char *
column_type (const SwField *field)
{
  static const char *const types[] = {
    [SW_FIELD_BOOL] = "INTEGER NOT NULL", [SW_FIELD_INT] = "INTEGER NOT NULL", [SW_FIELD_NUMBER] = "REAL NOT NULL",
    [SW_FIELD_TEXT] = "TEXT NOT NULL",    [SW_FIELD_DATE] = "TEXT NOT NULL",   [SW_FIELD_ENUM] = "TEXT NOT NULL",
    [SW_FIELD_MONEY] = "INTEGER NOT NULL", [SW_FIELD_POINT] = "REAL NOT NULL", [SW_FIELD_LIST] = "TEXT NOT NULL",
  };
  if (field->kind != SW_FIELD_REF)
    return types[field->kind];
  return field->flags & SW_FLAG_OWNER ? "INTEGER NOT NULL REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED"
                                      : "INTEGER REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED";
}

void
sw_job_schema_each_column (const SwField *field, void (*each) (const SwField *field, const char *column, gpointer data),
                           gpointer data)
{
  if (field->kind != SW_FIELD_POINT)
    {
      each (field, field->key, data);
      return;
    }
  g_autofree char *x = g_strconcat (field->key, "_x", NULL), *y = g_strconcat (field->key, "_y", NULL);
  each (field, x, data);
  each (field, y, data);
}

/* What the column's type does not tell: words that may stand there, keys of a list's items. A change of these changes the
 * text too, so that it is not forgotten that older programs cannot read it. */
static void
append_content (const SwField *field, GString *sql)
{
  if (field->kind != SW_FIELD_ENUM && field->kind != SW_FIELD_LIST)
    return;
  for (int i = 0; field->kind == SW_FIELD_ENUM && field->words[i].key != NULL; i++)
    g_string_append_printf (sql, "%s%s", i > 0 ? " " : "(", field->words[i].key);
  for (guint i = 0; field->kind == SW_FIELD_LIST && i < field->item->n_fields; i++)
    {
      g_string_append_printf (sql, "%s%s", i > 0 ? " " : "(", field->item->fields[i].key);
      append_content (&field->item->fields[i], sql);
    }
  g_string_append_c (sql, ')');
}

static void
append_column (const SwField *field, const char *column, gpointer data)
{
  GString *sql = data;
  g_string_append_printf (sql, ",\n  \"%s\" %s", column, column_type (field));
  if (field->kind != SW_FIELD_ENUM && field->kind != SW_FIELD_LIST)
    return;
  g_string_append (sql, " /* ");
  append_content (field, sql);
  g_string_append (sql, " */");
}

static void
append_table (GString *sql, const SwType *type)
{
  g_string_append_printf (
      sql, "CREATE TABLE \"%s\" (\n  id INTEGER PRIMARY KEY REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED",
      type->column);
  for (guint i = 0; i < type->body.n_fields; i++)
    sw_job_schema_each_column (&type->body.fields[i], append_column, sql);
  g_string_append (sql, ") STRICT;\n");
  /* Without these every record that goes would make SQLite look through all that may refer to it. */
  for (guint i = 0; i < type->body.n_fields; i++)
    if (type->body.fields[i].kind == SW_FIELD_REF)
      g_string_append_printf (sql, "CREATE INDEX \"%s_%s\" ON \"%s\" (\"%s\");\n", type->column,
                              type->body.fields[i].key, type->column, type->body.fields[i].key);
}

char *
sw_job_schema_sql (void)
{
  GString *sql = g_string_new (frame_sql);
  for (SwTable table = 0; table < SW_N_TABLES; table++)
    append_table (sql, sw_type_get (table));
  return g_string_free (sql, FALSE);
}

static const SwJobUpgrade *
upgrade_from (int from, const SwJobUpgrade *steps, guint n)
{
  for (guint i = 0; i < n; i++)
    if (steps[i].from == from)
      return &steps[i];
  return NULL;
}

static gboolean
run_upgrades (sqlite3 *db, int from, int to, const SwJobUpgrade *steps, guint n, GError **error)
{
  for (int version = from; version < to; version++)
    {
      const SwJobUpgrade *step = upgrade_from (version, steps, n);
      g_autofree char *count = g_strdup_printf ("PRAGMA user_version = %d", version + 1);
      if (step == NULL)
        {
          g_set_error (error, SW_ERROR, SW_ERROR_DAMAGED,
                       "this job is damaged: there is no version %d of job files that could be brought up to date",
                       version);
          return FALSE;
        }
      if (!sw_sql_run (db, step->sql, error) || !sw_sql_run (db, count, error))
        return FALSE;
    }
  return TRUE;
}

gboolean
sw_job_schema_upgrade (sqlite3 *db, int from, int to, const SwJobUpgrade *steps, guint n, GError **error)
{
  if (from == to)
    return TRUE;
  if (!sw_sql_run (db, "BEGIN IMMEDIATE", error))
    return FALSE;
  if (run_upgrades (db, from, to, steps, n, error) && sw_sql_run (db, "COMMIT", error))
    return TRUE;
  sqlite3_exec (db, "ROLLBACK", NULL, NULL, NULL);
  return FALSE;
}

gboolean
sw_job_schema_update (sqlite3 *db, int from, GError **error)
{
  static const SwJobUpgrade steps[] = {
    { 1, "ALTER TABLE \"layout\" ADD COLUMN \"sheets\" TEXT NOT NULL DEFAULT '[]';"
         "ALTER TABLE \"room\" ADD COLUMN \"batten_shift_mm\" REAL NOT NULL DEFAULT 0" },
    { 2, "CREATE TABLE \"bulkhead\" (id INTEGER PRIMARY KEY REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED,"
         "  \"room\" INTEGER NOT NULL REFERENCES object (id) DEFERRABLE INITIALLY DEFERRED, \"outline\" TEXT NOT NULL,"
         "  \"drop_mm\" REAL NOT NULL, \"frame\" TEXT NOT NULL, \"build_up\" TEXT NOT NULL, \"note\" TEXT NOT NULL) STRICT;"
         "CREATE INDEX \"bulkhead_room\" ON \"bulkhead\" (\"room\");"
         "ALTER TABLE \"layout\" ADD COLUMN \"faces\" TEXT NOT NULL DEFAULT '[]';"
         "ALTER TABLE \"light\" ADD COLUMN \"trims\" INTEGER NOT NULL DEFAULT 0" },
    { 3, "ALTER TABLE \"job\" ADD COLUMN \"units\" TEXT NOT NULL DEFAULT 'mm'" },
    { 4, "ALTER TABLE \"room\" ADD COLUMN \"joints\" TEXT NOT NULL DEFAULT 'skim';"
         "ALTER TABLE \"room\" ADD COLUMN \"lights\" TEXT NOT NULL DEFAULT 'move';"
         "ALTER TABLE \"room\" ADD COLUMN \"wet\" INTEGER NOT NULL DEFAULT 0;"
         "ALTER TABLE \"room\" ADD COLUMN \"fire_min\" REAL NOT NULL DEFAULT 0;"
         "ALTER TABLE \"layout\" ADD COLUMN \"marks\" TEXT NOT NULL DEFAULT '[]'" },
    { 5, "ALTER TABLE \"wall_drop\" ADD COLUMN \"units\" REAL NOT NULL DEFAULT 0" },
    { 6, "ALTER TABLE \"price\" ADD COLUMN \"centres_mm\" REAL NOT NULL DEFAULT 0;"
         "ALTER TABLE \"price\" ADD COLUMN \"field_mm\" REAL NOT NULL DEFAULT 0;"
         "ALTER TABLE \"price\" ADD COLUMN \"wet\" TEXT NOT NULL DEFAULT 'as-kind';"
         "ALTER TABLE \"price\" ADD COLUMN \"fire_min\" REAL NOT NULL DEFAULT 0" },
    { 7, "ALTER TABLE \"room\" ADD COLUMN \"sheet\" TEXT NOT NULL DEFAULT 'chosen';"
         "ALTER TABLE \"room\" ADD COLUMN \"sheet_most_mm\" REAL NOT NULL DEFAULT 0" },
    { 8, "ALTER TABLE \"price\" ADD COLUMN \"lead_days\" REAL NOT NULL DEFAULT 0;"
         "ALTER TABLE \"room\" ADD COLUMN \"battens_least\" INTEGER NOT NULL DEFAULT 0;"
         "ALTER TABLE \"room\" ADD COLUMN \"batten_grade\" TEXT NOT NULL DEFAULT 'rule'" },
    { 9, "ALTER TABLE \"room\" ADD COLUMN \"batten_material\" TEXT NOT NULL DEFAULT 'timber';"
         "ALTER TABLE \"price\" ADD COLUMN \"inertia_mm4\" REAL NOT NULL DEFAULT 0" },
  };
  return sw_job_schema_upgrade (db, from, SW_JOB_FILE_VERSION, steps, G_N_ELEMENTS (steps), error);
}
