/* SPDX-License-Identifier: GPL-3.0-or-later */
/* New job files: written whole under another name in the same folder, then moved to their place in one step. */
#include "base/error.h"
#include "store/job_file_private.h"
#include "store/job_schema.h"
#include <glib/gstdio.h>
#include <string.h>

static gboolean
write_records (sqlite3 *db, SwJob *job, GError **error)
{
  g_autoptr (SwJobRows) rows = sw_job_rows_new (db);
  g_autoptr (SwEdit) edit = sw_edit_new ("");
  /* Every record as new: an edit from a job that has not even the one record. */
  for (SwTable table = 0; table < SW_N_TABLES; table++)
    {
      const SwRecord *record;
      for (SwJobIter i = sw_job_iter (job, table); (record = sw_job_iter_next (&i)) != NULL;)
        {
          SwChange change = { record->id, NULL, sw_record_ref (record) };
          g_array_append_val (edit->changes, change);
        }
    }
  return sw_job_rows_apply (rows, edit, TRUE, error);
}

static gboolean
write_job (sqlite3 *db, SwJob *job, GError **error)
{
  g_autofree char *schema = sw_job_schema_sql ();
  g_autofree char *marks
      = g_strdup_printf ("PRAGMA application_id = %d; PRAGMA user_version = %d;", SW_JOB_FILE_ID, SW_JOB_FILE_VERSION);
  return sw_sql_run (db,
                     "PRAGMA foreign_keys = ON; PRAGMA synchronous = EXTRA; PRAGMA encoding = 'UTF-8'; BEGIN IMMEDIATE",
                     error)
         && sw_sql_run (db, marks, error) && sw_sql_run (db, schema, error)
         && sw_sql_run (db, "INSERT INTO state (one, position, revision) VALUES (1, 0, 0)", error)
         && write_records (db, job, error) && sw_sql_run (db, "COMMIT", error);
}

/* Removes what a file that was not finished may have left. */
static void
remove_part (const char *part)
{
  g_autofree char *journal = g_strconcat (part, "-journal", NULL);
  g_unlink (journal);
  g_unlink (part);
}

static gboolean
fill_part (const char *part, gboolean (*fill) (sqlite3 *db, gpointer data, GError **error), gpointer data, GError **error)
{
  sqlite3 *db = NULL;
  int rc = sqlite3_open_v2 (part, &db, SQLITE_OPEN_READWRITE | SQLITE_OPEN_EXRESCODE, NULL);
  gboolean done = rc == SQLITE_OK ? fill (db, data, error) : sw_sql_fail (db, rc, "write the file", error);
  rc = sqlite3_close (db);
  return done && (rc == SQLITE_OK || sw_sql_fail (NULL, rc, "write the file", error));
}

/* Writes a file by `fill` and puts it at `path`. */
static gboolean
make_file (const char *path, gboolean replace, gboolean (*fill) (sqlite3 *db, gpointer data, GError **error),
           gpointer data, GError **error)
{
  g_autofree char *part = sw_job_path_temporary (path, error);
  gboolean made = part != NULL && fill_part (part, fill, data, error) && sw_job_path_install (part, path, replace, error);
  if (!made)
    {
      g_autofree char *name = g_filename_display_name (path);
      g_prefix_error (error, "%s: ", name);
      if (part != NULL)
        remove_part (part);
    }
  return made;
}

static gboolean
fill_with_job (sqlite3 *db, gpointer data, GError **error)
{
  return write_job (db, data, error);
}

SwJobFile *
sw_job_file_create (const char *path, SwJob *job, gboolean replace, GError **error)
{
  return make_file (path, replace, fill_with_job, job, error) ? sw_job_file_open (path, FALSE, error) : NULL;
}

/* The copy is nobody's. Its last commit also brings all pages to the disk. */
static gboolean
release_copy (sqlite3 *db, gpointer data, GError **error)
{
  return sw_sql_run (db, "PRAGMA synchronous = EXTRA; DELETE FROM holder; UPDATE state SET revision = revision + 1", error);
}

/* VACUUM INTO makes its own connection to the file, which must be empty. */
static gboolean
copy_into (SwJobFile *file, const char *part, GError **error)
{
  g_autoptr (sqlite3_stmt) statement = sw_sql_prepare (file->db, "VACUUM INTO ?1", error);
  if (statement == NULL)
    return FALSE;
  sqlite3_bind_text (statement, 1, part, -1, SQLITE_TRANSIENT);
  return sw_sql_do (statement, "write the copy", error) && fill_part (part, release_copy, NULL, error);
}

static gboolean
copy_with_history (SwJobFile *file, const char *path, GError **error)
{
  g_autofree char *part = sw_job_path_temporary (path, error);
  gboolean made = part != NULL && copy_into (file, part, error) && sw_job_path_install (part, path, TRUE, error);
  if (!made && part != NULL)
    remove_part (part);
  return made;
}

gboolean
sw_job_file_save_copy (SwJobFile *file, const char *path, GError **error)
{
  GStatBuf own, other;
  g_autofree char *name = g_filename_display_name (path);
  if (g_stat (path, &other) == 0 && g_stat (file->hold.path, &own) == 0 && own.st_dev == other.st_dev
      && own.st_ino == other.st_ino)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "%s: this is the job itself: choose another name for the copy", name);
      return FALSE;
    }
  if (file->db == NULL)
    return make_file (path, TRUE, fill_with_job, file->job, error);
  if (copy_with_history (file, path, error))
    return TRUE;
  g_prefix_error (error, "%s: ", name);
  return FALSE;
}
