/* SPDX-License-Identifier: GPL-3.0-or-later */
#define SQLITE_ENABLE_SESSION 1
#define SQLITE_ENABLE_PREUPDATE_HOOK 1
#include "job/desk.h"
#include "sample.h"
#include "store/job_file.h"
#include "store/job_file_private.h"
#include "store/text_form.h"
#include "support.h"
#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

static const char *program; /* this test, to run a part of itself as another process */

static char *
in_folder (const char *name)
{
  g_autofree char *folder = sw_test_folder ();
  return g_build_filename (folder, name, NULL);
}

static SwJobFile *
new_file (const char *path, guint64 seed)
{
  GError *error = NULL;
  g_autoptr (SwJob) job = sw_sample_job (seed, 3);
  SwJobFile *file = sw_job_file_create (path, job, FALSE, &error);
  g_assert_no_error (error);
  g_assert_nonnull (file);
  g_assert_true (sw_job_equal (job, sw_job_file_job (file)));
  return file;
}

static SwJobFile *
reopen (const char *path)
{
  GError *error = NULL;
  SwJobFile *file = sw_job_file_open (path, FALSE, &error);
  g_assert_no_error (error);
  g_assert_nonnull (file);
  g_assert_cmpint (sw_job_file_read_only (file), ==, SW_READ_ONLY_NOT);
  return file;
}

/* The desk holds the file from then on. */
static SwDesk *
desk_for (SwJobFile *file)
{
  return sw_desk_new (sw_job_file_job (file), sw_job_file_take_journal (file));
}

static void
do_random (SwDesk *desk, SwRandom *random)
{
  GError *error = NULL;
  g_autoptr (SwEdit) edit = sw_sample_edit (random, sw_desk_job (desk));
  g_assert_true (sw_desk_do (desk, edit, &error));
  g_assert_no_error (error);
}

static GBytes *
contents (const char *path)
{
  char *bytes = NULL;
  gsize length = 0;
  g_assert_true (g_file_get_contents (path, &bytes, &length, NULL));
  return g_bytes_new_take (bytes, length);
}

static guint
files_beside (const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);
  GDir *dir = g_dir_open (folder, 0, NULL);
  guint n = 0;
  while (g_dir_read_name (dir) != NULL)
    n++;
  g_dir_close (dir);
  return n;
}

/* https://www.sqlite.org/fileformat2.html: application id at 68, user version at 60, read and write version 1 (no write-ahead log). */
static void
test_header (void)
{
  g_autofree char *path = in_folder ("job.soffit");
  g_autoptr (SwJobFile) file = new_file (path, 1);
  g_clear_pointer (&file, sw_job_file_unref);
  g_autoptr (GBytes) bytes = contents (path);
  const guint8 *header = g_bytes_get_data (bytes, NULL);
  g_assert_cmpmem (header, 16, "SQLite format 3", 16);
  g_assert_cmpmem (header + 68, 4, "SOFF", 4);
  g_assert_cmpmem (header + 60, 4, "\0\0\0\12", 4);
  g_assert_cmpmem (header + 18, 2, "\1\1", 2);
  g_assert_cmpuint (files_beside (path), ==, 1);
}

/* Edits, undo and redo over many openings: job, names and history go on as if the file had never been closed. */
static void
test_restarts (void)
{
  SwRandom random = { 4 };
  g_autofree char *path = in_folder ("job.soffit");
  g_autoptr (SwJobFile) file = new_file (path, 2);
  g_autoptr (SwDesk) memory = sw_desk_new (sw_job_file_job (file), NULL);
  for (int round = 0; round < 12; round++)
    {
      g_autoptr (SwDesk) desk = desk_for (file);
      for (int i = 0; i < 12; i++)
        {
          int what = sw_random_int (&random, 0, 9);
          if (what < 5)
            {
              g_autoptr (SwEdit) edit = sw_sample_edit (&random, sw_desk_job (desk));
              g_assert_true (sw_desk_do (desk, edit, NULL) && sw_desk_do (memory, edit, NULL));
            }
          else if (what < 8)
            g_assert_cmpint (sw_desk_undo (desk, NULL), ==, sw_desk_undo (memory, NULL));
          else
            g_assert_cmpint (sw_desk_redo (desk, NULL), ==, sw_desk_redo (memory, NULL));
          g_autofree char *undo = sw_desk_undo_name (desk), *undo_wanted = sw_desk_undo_name (memory);
          g_autofree char *redo = sw_desk_redo_name (desk), *redo_wanted = sw_desk_redo_name (memory);
          g_assert_cmpstr (undo, ==, undo_wanted);
          g_assert_cmpstr (redo, ==, redo_wanted);
        }
      g_clear_pointer (&file, sw_job_file_unref);
      g_clear_pointer (&desk, sw_desk_free);
      file = reopen (path);
      g_assert_true (sw_job_equal (sw_job_file_job (file), sw_desk_job (memory)));
    }
}

/* Two records swap their marks in one edit. */
static void
test_swapped_marks (void)
{
  GError *error = NULL;
  g_autofree char *path = in_folder ("job.soffit");
  g_autoptr (SwJobFile) file = new_file (path, 3);
  g_autoptr (SwDesk) desk = desk_for (file);
  g_autoptr (SwEdit) edit = sw_edit_new ("Swap");
  for (guint i = 0; i < 2; i++)
    {
      SwRecord *record = sw_record_copy (sw_job_nth (sw_desk_job (desk), SW_TABLE_LIGHT, i));
      sw_text_set (&record->tag, sw_job_nth (sw_desk_job (desk), SW_TABLE_LIGHT, 1 - i)->tag);
      g_assert_true (sw_edit_put (edit, sw_desk_job (desk), record, &error));
    }
  g_assert_true (sw_desk_do (desk, edit, &error));
  g_assert_no_error (error);
  g_assert_true (sw_desk_undo (desk, &error));
  g_assert_no_error (error);
}

static int
model_tables (void *data, const char *table)
{
  static const char *const frame[] = { "edit", "edit_change", "state", "holder" };
  for (gsize i = 0; i < G_N_ELEMENTS (frame); i++)
    if (strcmp (table, frame[i]) == 0)
      return 0;
  return 1;
}

/* SQLite's session extension as the judge: an edit and its undo together change nothing, an edit alone something. */
static void
test_session (void)
{
  SwRandom random = { 5 };
  g_autofree char *path = in_folder ("job.soffit");
  g_autoptr (SwJobFile) file = new_file (path, 4);
  g_autoptr (SwDesk) desk = desk_for (file);
  for (int i = 0; i < 60; i++)
    {
      sqlite3_session *session = NULL;
      g_assert_cmpint (sqlite3session_create (file->db, "main", &session), ==, SQLITE_OK);
      sqlite3session_table_filter (session, model_tables, NULL);
      g_assert_cmpint (sqlite3session_attach (session, NULL), ==, SQLITE_OK);
      for (int step = 0; step < 2; step++)
        {
          int size = 0;
          void *changes = NULL;
          if (step == 0)
            do_random (desk, &random);
          else
            g_assert_true (sw_desk_undo (desk, NULL));
          g_assert_cmpint (sqlite3session_changeset (session, &size, &changes), ==, SQLITE_OK);
          g_assert_cmpint (size > 0, ==, step == 0);
          sqlite3_free (changes);
        }
      sqlite3session_delete (session);
      do_random (desk, &random);
    }
}

/* Runs a part of this test as another process and gives what it prints. */
static char *
other_process (const char *part, const char *path)
{
  GError *error = NULL;
  char *out = NULL;
  const char *arguments[] = { program, "--part", part, path, NULL };
  g_autoptr (GSubprocess) process = g_subprocess_newv (arguments, G_SUBPROCESS_FLAGS_STDOUT_PIPE, &error);
  g_assert_no_error (error);
  g_assert_true (g_subprocess_communicate_utf8 (process, NULL, NULL, &out, NULL, &error));
  g_assert_no_error (error);
  return out;
}

static int
part_open (const char *path)
{
  GError *error = NULL;
  g_autoptr (SwJobFile) file = sw_job_file_open (path, FALSE, &error);
  if (file == NULL)
    {
      g_print ("%d %s", error->code, error->message);
      g_error_free (error);
      return 0;
    }
  g_autofree char *text = sw_job_file_read_only_text (file);
  g_print ("%d %s", sw_job_file_read_only (file), text != NULL ? text : "");
  return 0;
}

static void
test_second_opener (void)
{
  SwRandom random = { 6 };
  g_autofree char *path = in_folder ("job.soffit"), *pid = g_strdup_printf ("(process %ld)", (long) getpid ());
  g_autoptr (SwJobFile) file = new_file (path, 5);
  g_autoptr (SwDesk) desk = desk_for (file);
  do_random (desk, &random);

  g_autofree char *held = other_process ("open", path);
  g_assert_true (g_str_has_prefix (held, "2 "));
  g_assert_nonnull (strstr (held, g_get_user_name ()));
  g_assert_nonnull (strstr (held, g_get_host_name ()));
  g_assert_nonnull (strstr (held, pid));

  /* A second time in one program; the first goes on writing all the same. */
  GError *error = NULL;
  g_autoptr (SwJobFile) second = sw_job_file_open (path, FALSE, &error);
  g_assert_no_error (error);
  g_assert_cmpint (sw_job_file_read_only (second), ==, SW_READ_ONLY_HELD);
  g_assert_cmpint (sw_job_file_holder (second)->pid, ==, getpid ());
  g_assert_true (sw_job_equal (sw_job_file_job (second), sw_desk_job (desk)));
  g_autoptr (SwDesk) reader = desk_for (second);
  g_assert_true (sw_desk_is_read_only (reader));
  g_autoptr (SwEdit) edit = sw_sample_edit (&random, sw_desk_job (reader));
  g_assert_false (sw_desk_do (reader, edit, &error));
  sw_assert_error (error, SW_ERROR_READ_ONLY, "save a copy");
  do_random (desk, &random);
  g_clear_pointer (&reader, sw_desk_free);
  g_clear_pointer (&second, sw_job_file_unref);
  do_random (desk, &random);

  g_clear_pointer (&file, sw_job_file_unref);
  g_autofree char *still = other_process ("open", path);
  g_assert_true (g_str_has_prefix (still, "2 ")); /* the desk's journal holds it */
  g_clear_pointer (&desk, sw_desk_free);
  g_autofree char *freed = other_process ("open", path);
  g_assert_cmpstr (freed, ==, "0 ");
}

static void
test_read_only_wanted (void)
{
  GError *error = NULL;
  g_autofree char *path = in_folder ("job.soffit");
  g_autoptr (SwJobFile) file = new_file (path, 6);
  g_clear_pointer (&file, sw_job_file_unref);
  file = sw_job_file_open (path, TRUE, &error);
  g_assert_no_error (error);
  g_assert_cmpint (sw_job_file_read_only (file), ==, SW_READ_ONLY_WANTED);
  g_assert_null (sw_job_file_holder (file));
  g_autoptr (SwJobFile) writer = reopen (path); /* a reader is in nobody's way */
  g_clear_pointer (&file, sw_job_file_unref);
  g_clear_pointer (&writer, sw_job_file_unref);
}

static void
run_sql (const char *path, const char *sql)
{
  sqlite3 *db = NULL;
  GError *error = NULL;
  g_assert_cmpint (sqlite3_open (path, &db), ==, SQLITE_OK);
  g_assert_true (sw_sql_run (db, sql, &error));
  g_assert_no_error (error);
  sqlite3_close (db);
}

typedef struct
{
  const char *name;
  const char *sql;      /* done to a good job file, or NULL */
  const char *bytes;    /* the whole file instead, or NULL */
  gsize n_bytes;
  double keep;          /* share of the file that is kept */
  int code;
  const char *part;
} BadFile;

static const BadFile bad_files[] = {
  { "empty", NULL, "", 0, 1, SW_ERROR_DAMAGED, "this file is empty" },
  { "text", NULL, "{\"format\": \"soffit-job\"}", 24, 1, SW_ERROR_INVALID, "not a job" },
  { "header only", NULL, "SQLite format 3", 16, 1, SW_ERROR_DAMAGED, "cut short" },
  { "newer", "PRAGMA user_version = 99", NULL, 0, 1, SW_ERROR_TOO_NEW, "newer version" },
  { "older than the first", "PRAGMA user_version = 0", NULL, 0, 1, SW_ERROR_DAMAGED, "version 0" },
  { "another program's", "PRAGMA application_id = 7", NULL, 0, 1, SW_ERROR_INVALID, "another program" },
  { "half", NULL, NULL, 0, 0.5, SW_ERROR_DAMAGED, "damaged" },
  { "nine tenths", NULL, NULL, 0, 0.9, SW_ERROR_DAMAGED, "damaged" },
  { "a page short", NULL, NULL, 0, 0.999, SW_ERROR_DAMAGED, "damaged" },
  { "table gone", "DROP TABLE light", NULL, 0, 1, SW_ERROR_DAMAGED, "light" },
  { "column gone", "ALTER TABLE light DROP COLUMN watts", NULL, 0, 1, SW_ERROR_DAMAGED, "watts" },
  { "state gone", "DELETE FROM state", NULL, 0, 1, SW_ERROR_DAMAGED, "damaged" },
  { "history gone", "UPDATE state SET position = 3", NULL, 0, 1, SW_ERROR_DAMAGED, "history" },
  { "job gone", "DELETE FROM job", NULL, 0, 1, SW_ERROR_DAMAGED, "a record: its fields or its mark are lost" },
  { "unknown word", "UPDATE room SET finish = 'velvet'", NULL, 0, 1, SW_ERROR_DAMAGED, "finish" },
  { "bad outline", "UPDATE room SET outline = '[[0, 0], [1, 1]]'", NULL, 0, 1, SW_ERROR_DAMAGED, "outline: needs at least 3 points" },
  { "no list", "UPDATE room SET outline = 'hello'", NULL, 0, 1, SW_ERROR_DAMAGED, "outline: line 1, column 1" },
  { "wrong list", "UPDATE run SET vertices = '[{\"at\": 3}]'", NULL, 0, 1, SW_ERROR_DAMAGED, "vertices[0].at: must be [x, y]" },
  { "out of range", "UPDATE light SET watts = 1e300", NULL, 0, 1, SW_ERROR_DAMAGED, "watts: must lie between" },
  { "infinite", "UPDATE light SET watts = 9e999", NULL, 0, 1, SW_ERROR_DAMAGED, "watts: is not a number" },
  { "leads nowhere", "PRAGMA foreign_keys = OFF; UPDATE run SET circuit = 77", NULL, 0, 1, SW_ERROR_DAMAGED, "circuit: what it names is not in the job" },
  { "leads elsewhere", "UPDATE run SET circuit = (SELECT id FROM light LIMIT 1)", NULL, 0, 1, SW_ERROR_DAMAGED, "circuit: what it names" },
  { "record of no table", "PRAGMA ignore_check_constraints = ON; INSERT INTO object VALUES (5, 9, 'x')", NULL, 0, 1, SW_ERROR_DAMAGED, "damaged" },
  { "mark gone", "UPDATE object SET tag = '' WHERE id = (SELECT id FROM light LIMIT 1)", NULL, 0, 1, SW_ERROR_DAMAGED, "needs a mark" },
};

/* What cannot be opened gets a message that names it, and stays as it was, byte for byte. */
static void
test_bad_files (void)
{
  g_autofree char *good = in_folder ("good.soffit");
  g_autoptr (SwJobFile) file = new_file (good, 7);
  g_clear_pointer (&file, sw_job_file_unref);
  g_autoptr (GBytes) good_bytes = contents (good);
  for (gsize i = 0; i < G_N_ELEMENTS (bad_files); i++)
    {
      const BadFile *bad = &bad_files[i];
      GError *error = NULL;
      g_autofree char *path = in_folder ("bad.soffit");
      gsize length = bad->bytes != NULL ? bad->n_bytes : (gsize) ((double) g_bytes_get_size (good_bytes) * bad->keep);
      g_assert_true (g_file_set_contents (path, bad->bytes != NULL ? bad->bytes : g_bytes_get_data (good_bytes, NULL), (gssize) length, NULL));
      if (bad->sql != NULL)
        run_sql (path, bad->sql);
      g_autoptr (GBytes) before = contents (path);
      for (int read_only = 0; read_only < 2; read_only++)
        {
          file = sw_job_file_open (path, read_only, &error);
          g_test_message ("%s: %s", bad->name, error != NULL ? error->message : "opened");
          g_assert_null (file);
          sw_assert_error (error, bad->code, bad->part);
          g_clear_error (&error);
        }
      g_autoptr (GBytes) after = contents (path);
      g_assert_true (g_bytes_equal (before, after));
      g_assert_cmpuint (files_beside (path), ==, 1);
    }
}

#define OLDER 9

/* What version 9 did not have is taken off a file of today. */
static void
make_older (const char *path)
{
  static const char gone[] = "SELECT group_concat ('ALTER TABLE \"' || m.name || '\" DROP COLUMN \"' || c.name || '\"', ';') FROM sqlite_schema m"
                             " JOIN pragma_table_info (m.name) c WHERE m.type = 'table'"
                             " AND NOT EXISTS (SELECT 1 FROM pragma_table_info (m.name, 'old') o WHERE o.name = c.name)";
  GError *error = NULL;
  sqlite3 *db = NULL;
  g_autofree char *name = g_strdup_printf ("tests/store/schema-%d.sql", OLDER), *pinned = sw_test_source_path (name), *sql = NULL, *aside = in_folder ("old.db");
  g_assert_true (g_file_get_contents (pinned, &sql, NULL, &error));
  run_sql (aside, sql);
  g_autofree char *attach = g_strdup_printf ("ATTACH '%s' AS old", aside), *version = g_strdup_printf ("PRAGMA user_version = %d", OLDER);
  g_assert_cmpint (sqlite3_open (path, &db), ==, SQLITE_OK);
  g_assert_true (sw_sql_run (db, attach, &error));
  g_autoptr (sqlite3_stmt) statement = sw_sql_prepare (db, gone, &error);
  g_assert_cmpint (sqlite3_step (statement), ==, SQLITE_ROW);
  g_autofree char *drop = g_strdup ((const char *) sqlite3_column_text (statement, 0));
  sqlite3_reset (statement);
  g_assert_true (sw_sql_run (db, "DETACH old", &error) && sw_sql_run (db, drop, &error) && sw_sql_run (db, version, &error));
  g_clear_pointer (&statement, sqlite3_finalize);
  sqlite3_close (db);
}

/* A job of an older version can be read by who may or will not write it, and stays as it was. */
static void
test_older_is_read (void)
{
  GError *error = NULL;
  g_autofree char *path = in_folder ("job.soffit");
  g_autoptr (SwJobFile) file = new_file (path, 7);
  guint lights = sw_job_count (sw_job_file_job (file), SW_TABLE_LIGHT);
  g_clear_pointer (&file, sw_job_file_unref);
  make_older (path);
  g_autoptr (GBytes) before = contents (path);
  file = sw_job_file_open (path, TRUE, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (lights, >, 0);
  g_assert_cmpuint (sw_job_count (sw_job_file_job (file), SW_TABLE_LIGHT), ==, lights);
  g_autoptr (GBytes) after = contents (path);
  g_assert_true (g_bytes_equal (before, after));
}

/* A job with bytes overwritten anywhere opens as some good job or is refused; nothing crashes. */
static void
test_random_damage (void)
{
  SwRandom random = { 9 };
  g_autofree char *good = in_folder ("good.soffit"), *path = in_folder ("bad.soffit");
  g_autoptr (SwJobFile) file = new_file (good, 8);
  g_clear_pointer (&file, sw_job_file_unref);
  g_autoptr (GBytes) good_bytes = contents (good);
  int refused = 0;
  for (int i = 0; i < 60; i++)
    {
      GError *error = NULL;
      gsize length = 0;
      g_autofree guint8 *bytes = g_memdup2 (g_bytes_get_data (good_bytes, &length), g_bytes_get_size (good_bytes));
      length = g_bytes_get_size (good_bytes);
      for (int n = 0; n < 40; n++)
        bytes[sw_random_int (&random, i % 2 ? 100 : 0, (int) length - 1)] = (guint8) sw_random_int (&random, 0, 255);
      g_assert_true (g_file_set_contents (path, (char *) bytes, (gssize) length, NULL));
      file = sw_job_file_open (path, FALSE, &error);
      g_assert_true ((file == NULL) == (error != NULL));
      refused += file == NULL;
      g_clear_error (&error);
      g_clear_pointer (&file, sw_job_file_unref);
    }
  g_assert_cmpint (refused, >, 40);
}

/* Triggers in a job from elsewhere do not run. */
static void
test_triggers (void)
{
  SwRandom random = { 10 };
  g_autofree char *path = in_folder ("job.soffit");
  g_autoptr (SwJobFile) file = new_file (path, 9);
  g_clear_pointer (&file, sw_job_file_unref);
  run_sql (path, "CREATE TRIGGER bad AFTER INSERT ON edit BEGIN DELETE FROM room; DELETE FROM object WHERE tbl = 9; END");
  file = reopen (path);
  g_autoptr (SwDesk) desk = desk_for (file);
  for (int i = 0; i < 5; i++)
    do_random (desk, &random);
  g_autoptr (SwJob) wanted = sw_job_ref (sw_desk_job (desk));
  g_clear_pointer (&file, sw_job_file_unref);
  g_clear_pointer (&desk, sw_desk_free);
  file = reopen (path);
  g_assert_true (sw_job_equal (wanted, sw_job_file_job (file)));
}

static void
test_not_files (void)
{
  GError *error = NULL;
  g_autofree char *folder = sw_test_folder (), *path = g_build_filename (folder, "pipe.soffit", NULL), *gone = g_build_filename (folder, "gone.soffit", NULL);
  g_autofree char *nowhere = g_build_filename (folder, "no", "job.soffit", NULL);
  g_assert_null (sw_job_file_open (folder, FALSE, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "this is a folder");
  g_assert_null (sw_job_file_open (gone, FALSE, &error));
  sw_assert_error (error, SW_ERROR_NOT_FOUND, "gone.soffit: cannot open the file");
  g_assert_cmpint (mkfifo (path, 0600), ==, 0);
  g_assert_null (sw_job_file_open (path, FALSE, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "not a file");
  g_autoptr (SwJob) job = sw_job_new ();
  g_assert_null (sw_job_file_create (nowhere, job, TRUE, &error));
  sw_assert_error (error, SW_ERROR_NOT_FOUND, "job.soffit: cannot write in this folder");
  g_assert_null (sw_job_file_create (folder, job, TRUE, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "not a file");
}

static void
test_save_copy (void)
{
  GError *error = NULL;
  SwRandom random = { 11 };
  g_autofree char *path = in_folder ("job.soffit"), *copy = in_folder ("copy.soffit"), *other = in_folder ("other.soffit"), *link = in_folder ("link.soffit");
  g_autoptr (SwJobFile) file = new_file (path, 10);
  g_autoptr (SwDesk) desk = desk_for (file);
  for (int i = 0; i < 10; i++)
    do_random (desk, &random);
  g_assert_true (sw_desk_undo (desk, &error));
  g_assert_true (sw_job_file_save_copy (file, copy, &error));
  g_assert_no_error (error);
  g_assert_cmpuint (files_beside (copy), ==, 1);
  do_random (desk, &random);
  g_assert_true (sw_job_file_save_copy (file, copy, &error)); /* over the first */
  g_assert_no_error (error);

  g_autoptr (SwJobFile) opened = reopen (copy);
  g_assert_true (sw_job_equal (sw_job_file_job (opened), sw_desk_job (desk)));
  g_autoptr (SwDesk) copied = desk_for (opened);
  g_assert_cmpuint (sw_desk_history_length (copied), ==, 10);
  g_assert_true (sw_desk_undo (copied, &error));
  g_assert_no_error (error);

  g_assert_false (sw_job_file_save_copy (file, path, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "this is the job itself");
  g_assert_cmpint (symlink (path, link), ==, 0);
  g_assert_false (sw_job_file_save_copy (file, link, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "this is the job itself");
  g_assert_false (sw_job_file_save_copy (file, copy, &error));
  sw_assert_error (error, SW_ERROR_CONFLICT, "copy.soffit: the job that has this name is open");
  g_autoptr (SwJob) job = sw_job_new ();
  g_assert_null (sw_job_file_create (copy, job, FALSE, &error));
  sw_assert_error (error, SW_ERROR_CONFLICT, "a file of this name already");
  g_assert_null (sw_job_file_create (copy, job, TRUE, &error));
  sw_assert_error (error, SW_ERROR_CONFLICT, "is open");
  g_assert_cmpuint (files_beside (copy), ==, 1);

  /* From a reader: what it shows, without the history. */
  g_autoptr (SwJobFile) reader = sw_job_file_open (path, FALSE, &error);
  do_random (desk, &random);
  g_assert_true (sw_job_file_save_copy (reader, other, &error));
  g_assert_no_error (error);
  g_autoptr (SwJobFile) third = reopen (other);
  g_assert_true (sw_job_equal (sw_job_file_job (third), sw_job_file_job (reader)));
}

static void
test_history (void)
{
  GError *error = NULL;
  SwRandom random = { 12 };
  g_autofree char *path = in_folder ("job.soffit");
  g_autoptr (SwJobFile) file = new_file (path, 11);
  g_autoptr (SwDesk) desk = desk_for (file);
  g_assert_cmpint (sw_job_file_history_bytes (file), ==, 0);
  for (int i = 0; i < 40; i++)
    do_random (desk, &random);
  g_assert_cmpint (sw_job_file_history_bytes (file), >, 10000);
  g_autoptr (GBytes) before = contents (path);
  g_assert_true (sw_desk_forget_history (desk, &error));
  g_assert_no_error (error);
  g_assert_cmpint (sw_job_file_history_bytes (file), ==, 0);
  g_assert_false (sw_desk_can_undo (desk));
  do_random (desk, &random);
  g_autoptr (SwJob) wanted = sw_job_ref (sw_desk_job (desk));
  g_clear_pointer (&file, sw_job_file_unref);
  g_clear_pointer (&desk, sw_desk_free);
  g_autoptr (GBytes) after = contents (path);
  g_assert_cmpuint (g_bytes_get_size (after), <, g_bytes_get_size (before));
  file = reopen (path);
  g_assert_true (sw_job_equal (wanted, sw_job_file_job (file)));
}

/* A history that somebody has tampered with cannot bring in what a job may not hold. */
static void
test_bad_history (void)
{
  static const char *const changes[] = {
    "UPDATE edit_change SET before = replace (before, '\"cut_out_mm\"', '\"cutout\"')",
    "UPDATE edit_change SET before = '{\"id\": \"L\", \"at\": [1e300, 0]}'",
    "UPDATE edit_change SET before = '[]'",
    "UPDATE edit_change SET before = '{\"id\": \"\"'",
    "UPDATE edit_change SET id = 5",
    "UPDATE edit_change SET after = NULL",
    "DELETE FROM edit_change",
  };
  for (gsize i = 0; i < G_N_ELEMENTS (changes); i++)
    {
      GError *error = NULL;
      g_autofree char *path = in_folder ("job.soffit");
      g_autoptr (SwJobFile) file = new_file (path, 12);
      g_autoptr (SwDesk) desk = desk_for (file);
      g_autoptr (SwEdit) edit = sw_edit_new ("Move");
      SwRecord *light = sw_record_copy (sw_job_nth (sw_desk_job (desk), SW_TABLE_LIGHT, 0));
      sw_record_move (light, (SwPoint){ 100, 0 });
      g_assert_true (sw_edit_put (edit, sw_desk_job (desk), light, NULL) && sw_desk_do (desk, edit, NULL));
      g_clear_pointer (&file, sw_job_file_unref);
      g_clear_pointer (&desk, sw_desk_free);
      run_sql (path, changes[i]);
      file = reopen (path);
      desk = desk_for (file);
      g_autoptr (SwJob) job = sw_job_ref (sw_desk_job (desk));
      if (sw_desk_undo (desk, &error))
        g_assert_cmpstr (changes[i], ==, "DELETE FROM edit_change");
      else
        g_assert_nonnull (error);
      g_clear_error (&error);
      g_assert_true (sw_job_equal (job, sw_desk_job (desk)));
    }
}

/* A file and its journal as a program leaves them that is killed in the middle of a change. */
static void
leave_hot (SwJobFile *file, const char *to)
{
  g_autofree char *journal = g_strconcat (file->hold.path, "-journal", NULL), *to_journal = g_strconcat (to, "-journal", NULL);
  g_assert_true (sw_sql_run (file->db, "BEGIN IMMEDIATE; UPDATE room SET name = 'half'; DELETE FROM light; DELETE FROM edit_change;", NULL));
  g_assert_cmpint (sqlite3_db_cacheflush (file->db), ==, SQLITE_OK);
  g_autoptr (GBytes) main_bytes = contents (file->hold.path), journal_bytes = contents (journal);
  g_assert_true (g_file_set_contents (to, g_bytes_get_data (main_bytes, NULL), (gssize) g_bytes_get_size (main_bytes), NULL));
  g_assert_true (g_file_set_contents (to_journal, g_bytes_get_data (journal_bytes, NULL), (gssize) g_bytes_get_size (journal_bytes), NULL));
  g_assert_true (sw_sql_run (file->db, "ROLLBACK", NULL));
}

static void
test_hot_journal (void)
{
  GError *error = NULL;
  g_autofree char *path = in_folder ("job.soffit"), *hot = in_folder ("hot.soffit");
  g_autoptr (SwJobFile) file = new_file (path, 13);
  leave_hot (file, hot);
  g_autoptr (SwJobFile) opened = reopen (hot);
  g_assert_true (sw_job_equal (sw_job_file_job (opened), sw_job_file_job (file)));
  g_clear_pointer (&opened, sw_job_file_unref);
  /* A copy is not put where such a journal waits. */
  leave_hot (file, hot);
  g_assert_false (sw_job_file_save_copy (file, hot, &error));
  sw_assert_error (error, SW_ERROR_CONFLICT, "not closed cleanly");
}

/* As somebody who may write nothing: root may everything. FALSE, with the test skipped, when that cannot be had. */
static gboolean
become_nobody (void)
{
  if (geteuid () != 0)
    return TRUE;
  if (seteuid (65534) == 0)
    return TRUE;
  g_test_skip ("cannot give up root's rights");
  return FALSE;
}

static void
become_root (void)
{
  if (getuid () == 0)
    g_assert_cmpint (seteuid (0), ==, 0);
}

static void
test_no_rights (void)
{
  GError *error = NULL;
  g_autofree char *path = in_folder ("job.soffit"), *folder = g_path_get_dirname (path), *other = g_build_filename (folder, "other.soffit", NULL);
  g_autoptr (SwJobFile) file = new_file (path, 14);
  g_autoptr (SwJob) job = sw_job_ref (sw_job_file_job (file));
  g_clear_pointer (&file, sw_job_file_unref);
  g_autoptr (GBytes) before = contents (path);
  g_assert_cmpint (g_chmod (path, 0444), ==, 0);
  g_assert_cmpint (g_chmod (folder, 0555), ==, 0);
  if (!become_nobody ())
    return;
  file = sw_job_file_open (path, FALSE, &error);
  g_assert_no_error (error);
  g_assert_cmpint (sw_job_file_read_only (file), ==, SW_READ_ONLY_NO_RIGHT);
  g_assert_true (sw_job_equal (sw_job_file_job (file), job));
  g_assert_false (sw_job_file_save_copy (file, other, &error));
  sw_assert_error (error, SW_ERROR_IO, "other.soffit: cannot write in this folder");
  g_clear_pointer (&file, sw_job_file_unref);
  become_root ();
  g_assert_cmpint (g_chmod (path, 0000), ==, 0);
  if (become_nobody ())
    g_assert_null (sw_job_file_open (path, FALSE, &error));
  become_root ();
  sw_assert_error (error, SW_ERROR_IO, "job.soffit: cannot open the file");
  g_assert_cmpint (g_chmod (path, 0644), ==, 0);
  g_assert_cmpint (g_chmod (folder, 0755), ==, 0);
  g_autoptr (GBytes) after = contents (path);
  g_assert_true (g_bytes_equal (before, after));
}

static void
test_hot_journal_read_only (void)
{
  GError *error = NULL;
  g_autofree char *path = in_folder ("job.soffit"), *hot = in_folder ("hot.soffit"), *folder = g_path_get_dirname (hot), *journal = g_strconcat (hot, "-journal", NULL);
  g_autoptr (SwJobFile) file = new_file (path, 15);
  leave_hot (file, hot);
  g_autoptr (GBytes) before = contents (hot), journal_before = contents (journal);
  g_assert_cmpint (g_chmod (hot, 0444), ==, 0);
  g_assert_cmpint (g_chmod (journal, 0444), ==, 0);
  g_assert_cmpint (g_chmod (folder, 0555), ==, 0);
  if (!become_nobody ())
    return;
  g_autoptr (SwJobFile) opened = sw_job_file_open (hot, FALSE, &error);
  become_root ();
  g_assert_no_error (error);
  g_assert_cmpint (sw_job_file_read_only (opened), ==, SW_READ_ONLY_ASIDE);
  g_autofree char *text = sw_job_file_read_only_text (opened);
  g_assert_nonnull (strstr (text, "not closed cleanly"));
  g_assert_true (sw_job_equal (sw_job_file_job (opened), sw_job_file_job (file)));
  g_assert_cmpint (g_chmod (folder, 0755), ==, 0);
  g_autoptr (GBytes) after = contents (hot), journal_after = contents (journal);
  g_assert_true (g_bytes_equal (before, after));
  g_assert_true (g_bytes_equal (journal_before, journal_after));
}

int
main (int argc, char **argv)
{
  if (argc == 4 && strcmp (argv[1], "--part") == 0 && strcmp (argv[2], "open") == 0)
    return part_open (argv[3]);
  program = argv[0];
  sw_sample_fast_folders ();
  sw_test_init (&argc, &argv);
  g_test_add_func ("/store/job-file/header", test_header);
  g_test_add_func ("/store/job-file/restarts", test_restarts);
  g_test_add_func ("/store/job-file/swapped-marks", test_swapped_marks);
  g_test_add_func ("/store/job-file/session", test_session);
  g_test_add_func ("/store/job-file/second-opener", test_second_opener);
  g_test_add_func ("/store/job-file/read-only-wanted", test_read_only_wanted);
  g_test_add_func ("/store/job-file/bad-files", test_bad_files);
  g_test_add_func ("/store/job-file/older-is-read", test_older_is_read);
  g_test_add_func ("/store/job-file/random-damage", test_random_damage);
  g_test_add_func ("/store/job-file/triggers", test_triggers);
  g_test_add_func ("/store/job-file/not-files", test_not_files);
  g_test_add_func ("/store/job-file/save-copy", test_save_copy);
  g_test_add_func ("/store/job-file/history", test_history);
  g_test_add_func ("/store/job-file/bad-history", test_bad_history);
  g_test_add_func ("/store/job-file/hot-journal", test_hot_journal);
  g_test_add_func ("/store/job-file/no-rights", test_no_rights);
  g_test_add_func ("/store/job-file/hot-journal-read-only", test_hot_journal_read_only);
  return g_test_run ();
}
