/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Each edit is one transaction: the records as they come to be, the edit with both sides of each change, and where the
 * history stands. When COMMIT itself fails, the change may be in the file or not; the file's revision tells which. Until
 * it could be asked, and answers as the job in memory stands, nothing more is written: so the two never part. */
#include "base/error.h"
#include "store/job_file_private.h"

typedef struct
{
  SwJournal base;
  SwJobFile *file;
  gboolean doubt; /* a COMMIT failed, and the file has not been asked since */
} FileJournal;

static FileJournal *
file_journal (SwJournal *journal)
{
  return (FileJournal *) journal;
}

/* A statement that is used once a transaction; the values are bound by the caller. */
static gboolean
run_once (sqlite3 *db, const char *sql, gint64 first, gint64 second, const char *third, const char *fourth,
          gint64 fifth, GError **error)
{
  g_autoptr (sqlite3_stmt) statement = sw_sql_prepare (db, sql, error);
  if (statement == NULL)
    return FALSE;
  sqlite3_bind_int64 (statement, 1, first);
  sqlite3_bind_int64 (statement, 2, second);
  if (third != NULL)
    sqlite3_bind_text (statement, 3, third, -1, SQLITE_TRANSIENT);
  if (fourth != NULL)
    sqlite3_bind_text (statement, 4, fourth, -1, SQLITE_TRANSIENT);
  sqlite3_bind_int64 (statement, 5, fifth);
  return sw_sql_do (statement, "write the change", error);
}

static gboolean
write_change (sqlite3 *db, guint number, guint place, const SwChange *change, GError **error)
{
  static const char sql[] = "INSERT INTO edit_change (edit, place, before, after, id) VALUES (?1, ?2, ?3, ?4, ?5)";
  g_autofree char *before = change->before != NULL ? sw_job_rows_record_write (change->before) : NULL;
  g_autofree char *after = change->after != NULL ? sw_job_rows_record_write (change->after) : NULL;
  return run_once (db, sql, number, place, before, after, change->id, error);
}

/* What could be redone goes, the edit comes. */
static gboolean
write_edit (sqlite3 *db, guint number, const SwEdit *edit, GError **error)
{
  g_autofree char *now = sw_job_file_now ();
  g_autofree char *drop = g_strdup_printf (
      "DELETE FROM edit_change WHERE edit >= %u; DELETE FROM edit WHERE number >= %u;", number, number);
  if (!sw_sql_run (db, drop, error)
      || !run_once (db, "INSERT INTO edit (number, name, at) VALUES (?1, ?3, ?4)", number, 0, edit->name, now, 0,
                    error))
    return FALSE;
  for (guint i = 0; i < edit->changes->len; i++)
    if (!write_change (db, number, i, &g_array_index (edit->changes, SwChange, i), error))
      return FALSE;
  return TRUE;
}

static gboolean
write_state (SwJobFile *file, guint position, GError **error)
{
  g_autofree char *sql
      = g_strdup_printf ("UPDATE state SET position = %u, revision = %" G_GINT64_FORMAT, position, file->revision + 1);
  return sw_sql_run (file->db, sql, error);
}

/* Asks the file whether it stands as the job in memory. When it is one revision ahead, the transaction that failed is in
 * it after all: *ahead. */
static gboolean
ask_file (FileJournal *own, gboolean *ahead, GError **error)
{
  gint64 revision;
  if (!sw_sql_int (own->file->db, "SELECT revision FROM state", &revision, error))
    return FALSE;
  *ahead = revision == own->file->revision + 1;
  if (*ahead || revision == own->file->revision)
    return TRUE;
  g_set_error_literal (error, SW_ERROR, SW_ERROR_CONFLICT,
                       "the file was changed by something else: save a copy, then close this job");
  return FALSE;
}

/* Before a write: a doubt that stays makes it fail. */
static gboolean
clear_doubt (FileJournal *own, GError **error)
{
  gboolean ahead = FALSE;
  if (!own->doubt)
    return TRUE;
  if (!ask_file (own, &ahead, error))
    return FALSE;
  if (ahead)
    {
      g_set_error_literal (error, SW_ERROR, SW_ERROR_CONFLICT,
                           "the last change, which was reported as not done, is in the file after all: close the job and open it again");
      return FALSE;
    }
  own->doubt = FALSE;
  return TRUE;
}

/* TRUE: the transaction stands. A COMMIT that failed may stand all the same; it counts once another one has been brought
 * to the disk after it. */
static gboolean
commit (FileJournal *own, GError **error)
{
  gboolean ahead = FALSE;
  sqlite3 *db = own->file->db;
  if (sw_sql_run (db, "COMMIT", error))
    {
      own->file->revision++;
      return TRUE;
    }
  sqlite3_exec (db, "ROLLBACK", NULL, NULL, NULL);
  own->doubt = TRUE;
  if (!ask_file (own, &ahead, NULL) || !ahead || !sw_sql_run (db, "UPDATE state SET revision = revision + 1", NULL))
    return FALSE;
  g_clear_error (error);
  own->doubt = FALSE;
  own->file->revision += 2;
  return TRUE;
}

/* Begins, lets `write` write, and commits; errors have the file's name. */
static gboolean
transact (FileJournal *own, gboolean (*write) (FileJournal *own, const SwEdit *edit, gboolean forward, GError **error),
          const SwEdit *edit, gboolean forward, GError **error)
{
  GError *cause = NULL;
  gboolean begun = clear_doubt (own, &cause) && sw_sql_run (own->file->db, "BEGIN IMMEDIATE", &cause);
  gboolean written = begun && write (own, edit, forward, &cause);
  if (begun && !written)
    sqlite3_exec (own->file->db, "ROLLBACK", NULL, NULL, NULL);
  if (written && commit (own, &cause))
    return TRUE;
  g_propagate_prefixed_error (error, cause, "%s: ", own->file->name);
  return FALSE;
}

static gboolean
write_append (FileJournal *own, const SwEdit *edit, gboolean forward, GError **error)
{
  return sw_job_rows_apply (own->file->rows, edit, TRUE, error) && write_edit (own->file->db, own->base.position, edit, error)
         && write_state (own->file, own->base.position + 1, error);
}

static gboolean
file_append (SwJournal *journal, const SwEdit *edit, GError **error)
{
  if (!transact (file_journal (journal), write_append, edit, TRUE, error))
    return FALSE;
  journal->length = ++journal->position;
  return TRUE;
}

static gboolean
write_step (FileJournal *own, const SwEdit *edit, gboolean forward, GError **error)
{
  return sw_job_rows_apply (own->file->rows, edit, forward, error)
         && write_state (own->file, own->base.position + (forward ? 1 : -1), error);
}

static gboolean
file_step (SwJournal *journal, const SwEdit *edit, gboolean forward, GError **error)
{
  if (!transact (file_journal (journal), write_step, edit, forward, error))
    return FALSE;
  journal->position += forward ? 1 : -1;
  return TRUE;
}

/* A column's record; NULL without an error when the column is. */
static SwRecord *
column_record (sqlite3_stmt *statement, int at, SwId id, GError **error)
{
  const char *text = (const char *) sqlite3_column_text (statement, at);
  return text != NULL ? sw_job_rows_record_read (id, text, error) : NULL;
}

static gboolean
fetch_change (sqlite3_stmt *statement, SwEdit *edit, GError **error)
{
  GError *cause = NULL;
  SwId id = sqlite3_column_int64 (statement, 0);
  SwChange change = { id, column_record (statement, 1, id, &cause), NULL };
  if (cause == NULL)
    change.after = column_record (statement, 2, id, &cause);
  g_array_append_val (edit->changes, change);
  g_hash_table_insert (edit->places, g_memdup2 (&id, sizeof id), GUINT_TO_POINTER (edit->changes->len));
  if (cause == NULL)
    return TRUE;
  g_propagate_error (error, cause);
  return FALSE;
}

static SwEdit *
fetch_edit (FileJournal *own, guint number, GError **error)
{
  g_autofree char *name = own->base.name (&own->base, number);
  g_autoptr (SwEdit) edit = sw_edit_new (name != NULL ? name : "");
  g_autoptr (sqlite3_stmt) statement = sw_sql_prepare (
      own->file->db, "SELECT id, before, after FROM edit_change WHERE edit = ?1 ORDER BY place", error);
  gboolean row = statement != NULL;
  if (row)
    sqlite3_bind_int64 (statement, 1, number);
  while (row)
    {
      if (!sw_sql_next (statement, "read the history", &row, error))
        return NULL;
      if (row && !fetch_change (statement, edit, error))
        return NULL;
    }
  return statement != NULL ? g_steal_pointer (&edit) : NULL;
}

static SwEdit *
file_fetch (SwJournal *journal, guint i, GError **error)
{
  FileJournal *own = file_journal (journal);
  SwEdit *edit = fetch_edit (own, i, error);
  if (edit == NULL)
    sw_job_file_failed (own->file, error);
  return edit;
}

static char *
file_name (SwJournal *journal, guint i)
{
  g_autoptr (sqlite3_stmt) statement
      = sw_sql_prepare (file_journal (journal)->file->db, "SELECT name FROM edit WHERE number = ?1", NULL);
  gboolean row = FALSE;
  if (statement == NULL)
    return NULL;
  sqlite3_bind_int64 (statement, 1, i);
  return sw_sql_next (statement, "read the history", &row, NULL) && row
             ? g_strdup ((const char *) sqlite3_column_text (statement, 0))
             : NULL;
}

static gboolean
write_forget (FileJournal *own, const SwEdit *edit, gboolean forward, GError **error)
{
  return sw_sql_run (own->file->db, "DELETE FROM edit_change; DELETE FROM edit;", error)
         && write_state (own->file, 0, error);
}

static gboolean
file_forget (SwJournal *journal, GError **error)
{
  FileJournal *own = file_journal (journal);
  if (!transact (own, write_forget, NULL, TRUE, error))
    return FALSE;
  journal->length = journal->position = 0;
  /* Gives the space back; when it cannot, later edits use it. */
  sqlite3_exec (own->file->db, "VACUUM", NULL, NULL, NULL);
  return TRUE;
}

static void
file_free (SwJournal *journal)
{
  sw_job_file_unref (file_journal (journal)->file);
  g_free (journal);
}

SwJournal *
sw_job_file_take_journal (SwJobFile *file)
{
  g_assert (!file->journal_taken);
  file->journal_taken = TRUE;
  FileJournal *own = g_new0 (FileJournal, 1);
  gboolean read_only = file->read_only != SW_READ_ONLY_NOT;
  own->base = (SwJournal){ file_append, file_step, file_fetch, file_name, file_forget, file_free, 0, 0, read_only };
  own->base.length = read_only ? 0 : file->length;
  own->base.position = read_only ? 0 : file->position;
  own->file = sw_job_file_ref (file);
  return &own->base;
}
