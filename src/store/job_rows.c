/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "store/job_rows.h"
#include "base/error.h"
#include "store/job_schema.h"
#include "store/json_fields.h"
#include "store/json_write.h"
#include <string.h>

typedef enum { DO_PUT, DO_DROP, N_DOINGS } Doing;

struct _SwRows
{
  sqlite3 *db;
  sqlite3_stmt *by_table[SW_N_TABLES][N_DOINGS];
  sqlite3_stmt *put_object, *drop_object, *free_mark;
};

static const char put_object_sql[]
    = "INSERT INTO object (id, tbl, tag) VALUES (?1, ?1 >> 40, ?2) ON CONFLICT (id) DO UPDATE SET tag = excluded.tag";
static const char drop_object_sql[] = "DELETE FROM object WHERE id = ?1";
static const char free_mark_sql[] = "UPDATE object SET tag = '' WHERE id = ?1";

SwJobRows *
sw_job_rows_new (sqlite3 *db)
{
  SwJobRows *rows = g_new0 (SwJobRows, 1);
  rows->db = db;
  return rows;
}

void
sw_job_rows_free (SwJobRows *rows)
{
  for (SwTable table = 0; table < SW_N_TABLES; table++)
    for (int doing = 0; doing < N_DOINGS; doing++)
      sqlite3_finalize (rows->by_table[table][doing]);
  sqlite3_finalize (rows->put_object);
  sqlite3_finalize (rows->drop_object);
  sqlite3_finalize (rows->free_mark);
  g_free (rows);
}

static void
append_name (const SwField *field, const char *column, gpointer data)
{
  g_string_append_printf (data, ", \"%s\"", column);
}

/* "id, "name", "at_x", "at_y"": all columns in the order of the fields. */
static char *
column_names (const SwType *type)
{
  GString *names = g_string_new ("id");
  for (guint i = 0; i < type->body.n_fields; i++)
    sw_job_schema_each_column (&type->body.fields[i], append_name, names);
  return g_string_free (names, FALSE);
}

static char *
put_sql (const SwType *type)
{
  g_autofree char *names = column_names (type);
  GString *sql = g_string_new (NULL);
  g_string_append_printf (sql, "INSERT OR REPLACE INTO \"%s\" (%s) VALUES (?", type->column, names);
  for (const char *c = names; *c != '\0'; c++)
    g_string_append (sql, *c == ',' ? ", ?" : "");
  g_string_append_c (sql, ')');
  return g_string_free (sql, FALSE);
}

/* The kept statement, made at first. */
static sqlite3_stmt *
statement_for (SwJobRows *rows, sqlite3_stmt **kept, const char *sql, GError **error)
{
  if (*kept == NULL)
    *kept = sw_sql_prepare (rows->db, sql, error);
  return *kept;
}

static sqlite3_stmt *
table_statement (SwJobRows *rows, SwTable table, Doing doing, GError **error)
{
  sqlite3_stmt **kept = &rows->by_table[table][doing];
  const SwType *type = sw_type_get (table);
  if (*kept != NULL)
    return *kept;
  g_autofree char *sql
      = doing == DO_PUT ? put_sql (type) : g_strdup_printf ("DELETE FROM \"%s\" WHERE id = ?1", type->column);
  return statement_for (rows, kept, sql, error);
}

static int
bind_text (sqlite3_stmt *statement, int at, const char *text)
{
  return sqlite3_bind_text (statement, at, text, -1, SQLITE_TRANSIENT);
}

static int
bind_list (sqlite3_stmt *statement, int at, const SwField *field, gconstpointer base)
{
  static const SwJsonStyle style = { NULL, TRUE };
  g_autoptr (GString) text = g_string_new (NULL);
  sw_json_write_field (text, &style, field, base);
  return bind_text (statement, at, text->str);
}

/* Binds a field from column `at` on; *at moves past it. */
static int
bind_field (sqlite3_stmt *statement, int *at, const SwField *field, gconstpointer base)
{
  int place = (*at)++;
  switch (field->kind)
    {
    case SW_FIELD_BOOL:
    case SW_FIELD_INT:
      return sqlite3_bind_int (statement, place, SW_AT (base, field, int));
    case SW_FIELD_NUMBER:
      return sqlite3_bind_double (statement, place, SW_AT (base, field, double));
    case SW_FIELD_TEXT:
    case SW_FIELD_DATE:
      return bind_text (statement, place, SW_AT (base, field, char *));
    case SW_FIELD_ENUM:
      return bind_text (statement, place, field->words[SW_AT (base, field, int)].key);
    case SW_FIELD_REF:
      return SW_AT (base, field, SwId) == 0 ? sqlite3_bind_null (statement, place)
                                            : sqlite3_bind_int64 (statement, place, SW_AT (base, field, SwId));
    case SW_FIELD_MONEY:
      return sqlite3_bind_int64 (statement, place, SW_AT (base, field, SwMoney));
    case SW_FIELD_POINT:
      (*at)++;
      sqlite3_bind_double (statement, place, SW_AT (base, field, SwPoint).x);
      return sqlite3_bind_double (statement, place + 1, SW_AT (base, field, SwPoint).y);
    case SW_FIELD_LIST:
      return bind_list (statement, place, field, base);
    }
  return SQLITE_MISUSE;
}

static gboolean
put_record (SwJobRows *rows, const SwRecord *record, GError **error)
{
  const SwStruct *kind = &sw_record_type (record)->body;
  sqlite3_stmt *object = statement_for (rows, &rows->put_object, put_object_sql, error);
  sqlite3_stmt *statement = object != NULL ? table_statement (rows, sw_record_table (record), DO_PUT, error) : NULL;
  if (statement == NULL)
    return FALSE;
  sqlite3_bind_int64 (object, 1, record->id);
  bind_text (object, 2, record->tag);
  sqlite3_bind_int64 (statement, 1, record->id);
  int at = 2, rc = SQLITE_OK;
  for (guint i = 0; i < kind->n_fields && rc == SQLITE_OK; i++)
    rc = bind_field (statement, &at, &kind->fields[i], record);
  if (rc != SQLITE_OK)
    return sw_sql_fail (rows->db, rc, "write the job", error);
  return sw_sql_do (object, "write the job", error) && sw_sql_do (statement, "write the job", error);
}

static gboolean
run_with_id (sqlite3_stmt *statement, SwId id, GError **error)
{
  if (statement == NULL)
    return FALSE;
  sqlite3_bind_int64 (statement, 1, id);
  return sw_sql_do (statement, "write the job", error);
}

static gboolean
drop_record (SwJobRows *rows, SwId id, GError **error)
{
  return run_with_id (table_statement (rows, SW_ID_TABLE (id), DO_DROP, error), id, error)
         && run_with_id (statement_for (rows, &rows->drop_object, drop_object_sql, error), id, error);
}

gboolean
sw_job_rows_apply (SwJobRows *rows, const SwEdit *edit, gboolean forward, GError **error)
{
  /* First no mark of theirs stands, so that two records can swap marks. */
  for (guint i = 0; i < edit->changes->len; i++)
    {
      const SwChange *change = &g_array_index (edit->changes, SwChange, i);
      if (change->before != NULL && change->after != NULL && strcmp (change->before->tag, change->after->tag) != 0
          && !run_with_id (statement_for (rows, &rows->free_mark, free_mark_sql, error), change->id, error))
        return FALSE;
    }
  for (guint i = 0; i < edit->changes->len; i++)
    {
      const SwChange *change = &g_array_index (edit->changes, SwChange, i);
      if ((forward ? change->after : change->before) == NULL && !drop_record (rows, change->id, error))
        return FALSE;
    }
  for (guint i = 0; i < edit->changes->len; i++)
    {
      const SwChange *change = &g_array_index (edit->changes, SwChange, i);
      const SwRecord *record = forward ? change->after : change->before;
      if (record != NULL && !put_record (rows, record, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
damaged (GError **error, const char *path, const char *what)
{
  g_set_error (error, SW_ERROR, SW_ERROR_DAMAGED, "%s: %s", path, what);
  return FALSE;
}

static const char *
column_text (sqlite3_stmt *statement, int at)
{
  const char *text = (const char *) sqlite3_column_text (statement, at);
  return text != NULL ? text : "";
}

static gboolean
read_list (const SwField *field, gpointer base, const char *text, GError **error)
{
  SwJsonPlace place = { NULL, field->key, 0 };
  g_autoptr (JsonNode) node = sw_json_read (text, -1, error);
  if (node != NULL)
    return sw_json_read_field (NULL, field, base, node, &place, error);
  g_prefix_error (error, "%s: ", field->key);
  return FALSE;
}

static gboolean
read_word (const SwField *field, gpointer base, const char *word, GError **error)
{
  for (int i = 0; field->words[i].key != NULL; i++)
    if (strcmp (field->words[i].key, word) == 0)
      {
        SW_AT (base, field, int) = i;
        return TRUE;
      }
  return damaged (error, field->key, "is none of its words");
}

/* Sets a field from column `at` on; *at moves past it. */
static gboolean
read_column (sqlite3_stmt *statement, int *at, const SwField *field, gpointer base, GError **error)
{
  int place = (*at)++;
  switch (field->kind)
    {
    case SW_FIELD_BOOL:
    case SW_FIELD_INT:
      SW_AT (base, field, int) = (int) CLAMP (sqlite3_column_int64 (statement, place), G_MININT, G_MAXINT);
      return TRUE;
    case SW_FIELD_NUMBER:
      SW_AT (base, field, double) = sqlite3_column_double (statement, place);
      return TRUE;
    case SW_FIELD_TEXT:
    case SW_FIELD_DATE:
      sw_text_set (&SW_AT (base, field, char *), column_text (statement, place));
      return TRUE;
    case SW_FIELD_ENUM:
      return read_word (field, base, column_text (statement, place), error);
    case SW_FIELD_REF:
    case SW_FIELD_MONEY:
      SW_AT (base, field, gint64) = sqlite3_column_int64 (statement, place);
      return TRUE;
    case SW_FIELD_POINT:
      (*at)++;
      SW_AT (base, field, SwPoint)
          = (SwPoint){ sqlite3_column_double (statement, place), sqlite3_column_double (statement, place + 1) };
      return TRUE;
    case SW_FIELD_LIST:
      return read_list (field, base, column_text (statement, place), error);
    }
  return FALSE;
}

/* The record in the current row: id, mark, then the fields. */
static gboolean
take_row (sqlite3_stmt *statement, SwTable table, SwEdit *edit, const SwJob *blank, GError **error)
{
  const SwType *type = sw_type_get (table);
  SwId id = sqlite3_column_int64 (statement, 1);
  if (id <= 0 || SW_ID_TABLE (id) != table || SW_ID_SERIAL (id) == 0)
    return damaged (error, type->label, "a record has an impossible number");
  g_autoptr (SwRecord) record = sw_record_new (id, column_text (statement, 0));
  int at = 2;
  for (guint i = 0; i < type->body.n_fields; i++)
    if (!read_column (statement, &at, &type->body.fields[i], record, error))
      {
        g_prefix_error (error, "%s \"%s\".", type->label, record->tag);
        return FALSE;
      }
  return sw_edit_put (edit, blank, sw_record_ref (record), error);
}

static gboolean
load_table (sqlite3 *db, SwTable table, SwEdit *edit, const SwJob *blank, gint64 *count, GError **error)
{
  const SwType *type = sw_type_get (table);
  g_autofree char *names = column_names (type);
  g_autofree char *sql = g_strdup_printf ("SELECT object.tag, \"%s\".%s FROM object JOIN \"%s\" USING (id) ORDER BY id",
                                          type->column, names, type->column);
  g_autoptr (sqlite3_stmt) statement = sw_sql_prepare (db, sql, error);
  gboolean row = statement != NULL;
  while (row)
    {
      if (!sw_sql_next (statement, "read the job", &row, error))
        return FALSE;
      if (row && !take_row (statement, table, edit, blank, error))
        return FALSE;
      *count += row;
    }
  return statement != NULL;
}

SwJob *
sw_job_rows_load (sqlite3 *db, GError **error)
{
  GError *cause = NULL;
  g_autoptr (SwJob) blank = sw_job_new ();
  g_autoptr (SwEdit) edit = sw_edit_new ("");
  gint64 count = 0, objects = 0;
  gboolean read = TRUE;
  for (SwTable table = 0; read && table < SW_N_TABLES; table++)
    read = load_table (db, table, edit, blank, &count, &cause);
  read = read && sw_sql_int (db, "SELECT count(*) FROM object", &objects, &cause);
  if (read && count != objects)
    read = damaged (&cause, "a record", "its fields or its mark are lost");
  SwJob *job = read ? sw_job_apply (blank, edit, TRUE, &cause) : NULL;
  if (job != NULL)
    return job;
  /* What would be the user's mistake elsewhere can only be damage here. */
  if (cause->domain == SW_ERROR && (cause->code == SW_ERROR_INVALID || cause->code == SW_ERROR_CONFLICT))
    cause->code = SW_ERROR_DAMAGED;
  g_prefix_error (&cause, "this job is damaged: ");
  g_propagate_error (error, cause);
  return NULL;
}

char *
sw_job_rows_record_write (const SwRecord *record)
{
  static const SwJsonStyle style = { NULL, TRUE };
  const SwStruct *kind = &sw_record_type (record)->body;
  GString *text = g_string_new ("{\"id\": ");
  sw_json_write_text (text, record->tag);
  for (guint i = 0; i < kind->n_fields; i++)
    {
      g_string_append_printf (text, ", \"%s\": ", kind->fields[i].key);
      sw_json_write_field (text, &style, &kind->fields[i], record);
    }
  g_string_append_c (text, '}');
  return g_string_free (text, FALSE);
}

SwRecord *
sw_job_rows_record_read (SwId id, const char *text, GError **error)
{
  g_autoptr (JsonNode) node = sw_json_read (text, -1, error);
  if (node == NULL)
    return NULL;
  JsonObject *object = JSON_NODE_HOLDS_OBJECT (node) ? json_node_get_object (node) : NULL;
  JsonNode *mark = object != NULL ? json_object_get_member (object, "id") : NULL;
  if (id <= 0 || SW_ID_TABLE (id) >= SW_N_TABLES || mark == NULL || !sw_json_holds_text (mark))
    {
      damaged (error, "history", "a change has lost its record");
      return NULL;
    }
  g_autoptr (SwRecord) record = sw_record_new (id, json_node_get_string (mark));
  if (!sw_json_read_members (NULL, &sw_record_type (record)->body, record, object, "id", NULL, error)
      || !sw_record_settle (record, error))
    return NULL;
  return g_steal_pointer (&record);
}
