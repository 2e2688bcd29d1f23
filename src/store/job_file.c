/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Opening looks before it touches: kind and header of the file without SQLite, then the lock, then SQLite's own check,
 * and only then the first write, the row that says who has the job. Reading only needs no connection once all is read. */
#include "base/error.h"
#include "store/job_file_private.h"
#include "store/job_schema.h"
#include <gio/gio.h>
#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

#define PATIENCE_MS 5000 /* for a reader or writer that is in the middle of something */

char *
sw_job_file_now (void)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_utc ();
  return g_date_time_format (now, "%Y-%m-%dT%H:%M:%SZ");
}

gboolean
sw_job_file_failed (const SwJobFile *file, GError **error)
{
  g_prefix_error (error, "%s: ", file->name);
  return FALSE;
}

/* Settings of every connection: nothing in the file is trusted to run, every commit is on the disk. */
static gboolean
set_up_connection (sqlite3 *db, GError **error)
{
  sqlite3_extended_result_codes (db, 1);
  sqlite3_busy_timeout (db, PATIENCE_MS);
  sqlite3_db_config (db, SQLITE_DBCONFIG_DEFENSIVE, 1, NULL);
  sqlite3_db_config (db, SQLITE_DBCONFIG_DQS_DML, 0, NULL); /* a missing column is an error, not a text */
  sqlite3_db_config (db, SQLITE_DBCONFIG_ENABLE_TRIGGER, 0, NULL);
  sqlite3_db_config (db, SQLITE_DBCONFIG_ENABLE_VIEW, 0, NULL);
  return sw_sql_run (
      db,
      "PRAGMA trusted_schema = OFF; PRAGMA cell_size_check = ON; PRAGMA foreign_keys = ON; PRAGMA synchronous = EXTRA;",
      error);
}

static sqlite3 *
connect_to (const char *path, int flags, GError **error)
{
  sqlite3 *db = NULL;
  int rc = sqlite3_open_v2 (path, &db, flags | SQLITE_OPEN_EXRESCODE, NULL);
  if (rc != SQLITE_OK)
    sw_sql_fail (db, rc, "open the file", error);
  else if (set_up_connection (db, error))
    return db;
  sqlite3_close (db);
  return NULL;
}

/* All pages sound, a version that this program knows. */
static gboolean
check_database (sqlite3 *db, gint64 *version, GError **error)
{
  g_autoptr (sqlite3_stmt) check = sw_sql_prepare (db, "PRAGMA quick_check (1)", error);
  gboolean row = FALSE;
  if (check == NULL || !sw_sql_next (check, "read the file", &row, error))
    return FALSE;
  const char *said = row ? (const char *) sqlite3_column_text (check, 0) : NULL;
  if (g_strcmp0 (said, "ok") != 0)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_DAMAGED, "this job is damaged: %s",
                   said != NULL ? said : "it cannot be checked");
      return FALSE;
    }
  return sw_sql_int (db, "PRAGMA user_version", version, error);
}

static void
clear_holder (SwJobHolder *holder)
{
  g_free (holder->user);
  g_free (holder->host);
  g_free (holder->since);
  *holder = (SwJobHolder){ NULL };
}

static gboolean
load_holder (sqlite3 *db, SwJobHolder *holder, GError **error)
{
  clear_holder (holder);
  g_autoptr (sqlite3_stmt) statement = sw_sql_prepare (db, "SELECT user, host, since, pid FROM holder", error);
  gboolean row = FALSE;
  if (statement == NULL || !sw_sql_next (statement, "read the job", &row, error))
    return FALSE;
  if (row)
    *holder = (SwJobHolder){ g_strdup ((const char *) sqlite3_column_text (statement, 0)),
                             g_strdup ((const char *) sqlite3_column_text (statement, 1)),
                             g_strdup ((const char *) sqlite3_column_text (statement, 2)),
                             sqlite3_column_int64 (statement, 3) };
  return TRUE;
}

static gboolean
load_all (SwJobFile *file, sqlite3 *db, GError **error)
{
  gint64 length, position;
  if (!sw_sql_int (db, "SELECT count(*) FROM edit", &length, error)
      || !sw_sql_int (db, "SELECT position FROM state", &position, error)
      || !sw_sql_int (db, "SELECT revision FROM state", &file->revision, error))
    return FALSE;
  if (position < 0 || position > length || length > G_MAXUINT / 2)
    {
      g_set_error_literal (error, SW_ERROR, SW_ERROR_DAMAGED, "this job is damaged: its history has gaps");
      return FALSE;
    }
  file->length = (guint) length;
  file->position = (guint) position;
  file->job = sw_job_rows_load (db, error);
  return file->job != NULL;
}

static gboolean
write_holder (SwJobFile *file, GError **error)
{
  g_autofree char *since = sw_job_file_now ();
  g_autoptr (sqlite3_stmt) statement = sw_sql_prepare (
      file->db, "INSERT OR REPLACE INTO holder (one, host, pid, user, since) VALUES (1, ?1, ?2, ?3, ?4)", error);
  if (statement == NULL)
    return FALSE;
  sqlite3_bind_text (statement, 1, g_get_host_name (), -1, SQLITE_TRANSIENT);
  sqlite3_bind_int64 (statement, 2, getpid ());
  sqlite3_bind_text (statement, 3, g_get_user_name (), -1, SQLITE_TRANSIENT);
  sqlite3_bind_text (statement, 4, since, -1, SQLITE_TRANSIENT);
  return sw_sql_do (statement, "note who has the job", error);
}

static void
disconnect (SwJobFile *file)
{
  g_clear_pointer (&file->rows, sw_job_rows_free);
  sqlite3_close (g_steal_pointer (&file->db));
}

/* What can be read is checked before the first write. When that fails, the job is still there to be read. */
static gboolean
open_for_writing (SwJobFile *file, GError **error)
{
  gint64 version;
  g_autoptr (GError) cause = NULL;
  file->db = connect_to (file->hold.path, SQLITE_OPEN_READWRITE, error);
  if (file->db == NULL || !check_database (file->db, &version, error)
      || !sw_job_schema_update (file->db, (int) version, error) || !load_all (file, file->db, error))
    return FALSE;
  file->rows = sw_job_rows_new (file->db);
  if (sw_sql_run (file->db, "PRAGMA journal_mode = DELETE", &cause) && write_holder (file, &cause))
    return TRUE;
  file->read_only = SW_READ_ONLY_CANNOT;
  file->cannot_write = g_strdup (cause->message);
  disconnect (file);
  return TRUE;
}

/* What may be written, a copy, is brought up to date. */
static gboolean
read_from (SwJobFile *file, const char *path, int flags, GError **error)
{
  gint64 version;
  sqlite3 *db = connect_to (path, flags, error);
  gboolean good = db != NULL && check_database (db, &version, error);
  if (good && flags == SQLITE_OPEN_READWRITE)
    good = sw_job_schema_update (db, (int) version, error);
  else if (good && version != SW_JOB_FILE_VERSION)
    {
      g_set_error_literal (error, SW_ERROR, SW_ERROR_READ_ONLY,
                           "this job was written by an older version of the program and has to be brought up to date, "
                           "but may not be written: copy it to a place where it may");
      good = FALSE;
    }
  good = good && load_holder (db, &file->holder, error) && load_all (file, db, error);
  sqlite3_close (db);
  return good;
}

static gboolean
copy_aside (const char *from, const char *folder, const char *name, GError **error)
{
  g_autofree char *to = g_build_filename (folder, name, NULL);
  g_autoptr (GFile) source = g_file_new_for_path (from), target = g_file_new_for_path (to);
  g_autoptr (GError) cause = NULL;
  if (g_file_copy (source, target, G_FILE_COPY_TARGET_DEFAULT_PERMS, NULL, NULL, NULL, &cause))
    return TRUE;
  g_set_error (error, SW_ERROR, SW_ERROR_IO, "cannot copy the job to read it: %s", cause->message);
  return FALSE;
}

static gboolean
has_journal (const SwJobFile *file)
{
  GStatBuf info;
  g_autofree char *journal = g_strconcat (file->hold.path, "-journal", NULL);
  return g_stat (journal, &info) == 0 && info.st_size > 0;
}

/* An interrupted change waits beside a file that may not be written, or it is of an older version: that is set right in a copy. Nobody
 * here holds the file, so that it may be opened. */
static gboolean
read_aside (SwJobFile *file, GError **error)
{
  g_autofree char *journal = g_strconcat (file->hold.path, "-journal", NULL);
  g_autoptr (GError) cause = NULL;
  g_autofree char *folder = g_dir_make_tmp ("soffitwright-XXXXXX", &cause);
  if (folder == NULL)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_IO, "cannot copy the job to read it: %s", cause->message);
      return FALSE;
    }
  g_autofree char *copy = g_build_filename (folder, "job", NULL),
                  *copied_journal = g_build_filename (folder, "job-journal", NULL);
  gboolean read = copy_aside (file->hold.path, folder, "job", error) && (!has_journal (file) || copy_aside (journal, folder, "job-journal", error))
                  && read_from (file, copy, SQLITE_OPEN_READWRITE, error);
  g_unlink (copied_journal);
  g_unlink (copy);
  g_rmdir (folder);
  return read;
}

static gboolean
open_for_reading (SwJobFile *file, GError **error)
{
  GError *cause = NULL;
  gboolean another = file->hold.state == SW_HOLD_ANOTHERS, aside = !another && has_journal (file);
  if (read_from (file, file->hold.path, SQLITE_OPEN_READONLY, &cause))
    return TRUE; /* a journal was no longer of use */
  if (!aside && (another || !g_error_matches (cause, SW_ERROR, SW_ERROR_READ_ONLY)))
    {
      g_propagate_error (error, cause);
      return FALSE;
    }
  g_clear_error (&cause);
  if (aside)
    file->read_only = SW_READ_ONLY_ASIDE;
  return read_aside (file, error);
}

static SwReadOnly
reason_for (SwHoldState state, gboolean asked)
{
  static const SwReadOnly reasons[] = {
    [SW_HOLD_MINE] = SW_READ_ONLY_NOT,
    [SW_HOLD_ANOTHERS] = SW_READ_ONLY_HELD,
    [SW_HOLD_NO_RIGHT] = SW_READ_ONLY_NO_RIGHT,
    [SW_HOLD_NO_LOCKS] = SW_READ_ONLY_NO_LOCKS,
  };
  return asked && state == SW_HOLD_NO_RIGHT ? SW_READ_ONLY_WANTED : reasons[state];
}

SwJobFile *
sw_job_file_open (const char *path, gboolean read_only, GError **error)
{
  g_autoptr (SwJobFile) file = g_new0 (SwJobFile, 1);
  g_atomic_ref_count_init (&file->refs);
  file->name = g_filename_display_name (path);
  file->hold.fd = -1;
  if (!sw_hold_take (&file->hold, path, !read_only, error))
    {
      sw_job_file_failed (file, error);
      return NULL;
    }
  file->read_only = reason_for (file->hold.state, read_only);
  if (!(file->read_only == SW_READ_ONLY_NOT ? open_for_writing (file, error) : open_for_reading (file, error)))
    {
      sw_job_file_failed (file, error);
      return NULL;
    }
  return g_steal_pointer (&file);
}

SwJobFile *
sw_job_file_ref (SwJobFile *file)
{
  g_atomic_ref_count_inc (&file->refs);
  return file;
}

void
sw_job_file_unref (SwJobFile *file)
{
  if (!g_atomic_ref_count_dec (&file->refs))
    return;
  /* A holder's row that stays is written over by the next one. */
  if (file->rows != NULL)
    sqlite3_exec (file->db, "DELETE FROM holder", NULL, NULL, NULL);
  disconnect (file);
  sw_hold_drop (&file->hold);
  g_clear_pointer (&file->job, sw_job_unref);
  clear_holder (&file->holder);
  g_free (file->cannot_write);
  g_free (file->name);
  g_free (file);
}

SwJob *
sw_job_file_job (SwJobFile *file)
{
  return file->job;
}

const char *
sw_job_file_path (SwJobFile *file)
{
  return file->hold.path;
}

SwReadOnly
sw_job_file_read_only (SwJobFile *file)
{
  return file->read_only;
}

const SwJobHolder *
sw_job_file_holder (SwJobFile *file)
{
  return file->read_only == SW_READ_ONLY_HELD && file->holder.user != NULL ? &file->holder : NULL;
}

char *
sw_job_file_read_only_text (SwJobFile *file)
{
  static const char *const texts[] = {
    [SW_READ_ONLY_WANTED] = "this job was opened for reading only",
    [SW_READ_ONLY_HELD] = "somebody else has this job open: it can be read, and a copy of it changed",
    [SW_READ_ONLY_NO_RIGHT] = "this job may not be written here: it can be read, and a copy of it changed",
    [SW_READ_ONLY_NO_LOCKS] = "where this job lies, two programs could change it at once: it can be read, and a copy of it changed",
    [SW_READ_ONLY_CANNOT] = NULL,
    [SW_READ_ONLY_ASIDE] = "this job was not closed cleanly and may not be written here: it is shown as it was after the last finished change; a copy of it can be changed",
  };
  const SwJobHolder *holder = sw_job_file_holder (file);
  if (holder != NULL)
    return g_strdup_printf ("%s on %s (process %" G_GINT64_FORMAT
                            ") has had this job open since %s: it can be read, and a copy of it changed",
                            holder->user, holder->host, holder->pid, holder->since);
  if (file->cannot_write != NULL)
    return g_strdup_printf ("this job cannot be written (%s): it can be read, and a copy of it changed", file->cannot_write);
  return g_strdup (texts[file->read_only]);
}

gint64
sw_job_file_history_bytes (SwJobFile *file)
{
  static const char sql[]
      = "SELECT total(length(CAST(before AS BLOB))) + total(length(CAST(after AS BLOB))) FROM edit_change";
  gint64 bytes = 0;
  return file->db != NULL && sw_sql_int (file->db, sql, &bytes, NULL) ? bytes : 0;
}
