/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "store/job_schema.h"
#include "support.h"
#include <string.h>

static sqlite3 *
new_database (const char *sql)
{
  sqlite3 *db = NULL;
  GError *error = NULL;
  g_assert_cmpint (sqlite3_open (":memory:", &db), ==, SQLITE_OK);
  g_assert_true (sw_sql_run (db, sql, &error));
  g_assert_no_error (error);
  return db;
}

/* Names, types and constraints of all columns, one a line; not defaults: a column that was added later has to have one. */
static char *
describe (sqlite3 *db)
{
  static const char sql[] = "SELECT m.name || '.' || c.name || ' ' || c.type || ' ' || c.\"notnull\" || ' ' || c.pk "
                            "FROM sqlite_schema m JOIN pragma_table_info (m.name) c WHERE m.type = 'table' ORDER BY m.name, c.name";
  g_autoptr (sqlite3_stmt) statement = sw_sql_prepare (db, sql, NULL);
  GString *text = g_string_new (NULL);
  g_assert_nonnull (statement);
  while (sqlite3_step (statement) == SQLITE_ROW)
    g_string_append_printf (text, "%s\n", (const char *) sqlite3_column_text (statement, 0));
  return g_string_free (text, FALSE);
}

/* The text of each version is pinned in schema-N.sql: a field that is added, renamed or dropped changes what is in jobs that
 * people have. Then: count SW_JOB_FILE_VERSION up, add an SwJobUpgrade, and pin the new text as schema-(N + 1).sql. */
static void
test_pinned (void)
{
  GError *error = NULL;
  g_autofree char *name = g_strdup_printf ("tests/store/schema-%d.sql", SW_JOB_FILE_VERSION);
  g_autofree char *path = sw_test_source_path (name), *sql = sw_job_schema_sql (), *pinned = NULL;
  g_assert_true (g_file_get_contents (path, &pinned, NULL, &error));
  g_assert_no_error (error);
  g_assert_cmpstr (sql, ==, pinned);
}

/* Every version that ever was comes to the newest one's tables. */
static void
test_upgrades (void)
{
  g_autofree char *newest_sql = sw_job_schema_sql ();
  sqlite3 *newest = new_database (newest_sql);
  g_autofree char *wanted = describe (newest);
  sqlite3_close (newest);
  for (int version = 1; version <= SW_JOB_FILE_VERSION; version++)
    {
      GError *error = NULL;
      g_autofree char *name = g_strdup_printf ("tests/store/schema-%d.sql", version);
      g_autofree char *path = sw_test_source_path (name), *sql = NULL;
      g_assert_true (g_file_get_contents (path, &sql, NULL, &error));
      sqlite3 *db = new_database (sql);
      g_assert_true (sw_job_schema_update (db, version, &error));
      g_assert_no_error (error);
      g_autofree char *got = describe (db);
      g_assert_cmpstr (got, ==, wanted);
      sqlite3_close (db);
    }
}

static void
test_steps (void)
{
  static const SwJobUpgrade steps[] = {
    { 2, "ALTER TABLE a ADD COLUMN c REAL NOT NULL DEFAULT 7" },
    { 1, "ALTER TABLE a ADD COLUMN b TEXT NOT NULL DEFAULT ''" },
    { 3, "ALTER TABLE a ADD COLUMN d; ALTER TABLE missing ADD COLUMN e" },
  };
  GError *error = NULL;
  gint64 version = 0;
  sqlite3 *db = new_database ("CREATE TABLE a (x); INSERT INTO a VALUES (1); PRAGMA user_version = 1");
  g_assert_true (sw_job_schema_upgrade (db, 1, 3, steps, G_N_ELEMENTS (steps), &error));
  g_assert_no_error (error);
  g_assert_true (sw_sql_int (db, "PRAGMA user_version", &version, &error));
  g_assert_cmpint (version, ==, 3);
  g_assert_true (sw_sql_int (db, "SELECT c FROM a", &version, &error));
  g_assert_cmpint (version, ==, 7);
  /* A step that fails half way leaves nothing. */
  g_assert_false (sw_job_schema_upgrade (db, 3, 4, steps, G_N_ELEMENTS (steps), &error));
  sw_assert_error (error, SW_ERROR_DAMAGED, "missing");
  g_assert_true (sw_sql_int (db, "PRAGMA user_version", &version, &error));
  g_assert_cmpint (version, ==, 3);
  g_assert_true (sw_sql_int (db, "SELECT count(*) FROM pragma_table_info ('a')", &version, &error));
  g_assert_cmpint (version, ==, 3);
  g_assert_false (sw_job_schema_upgrade (db, 0, 3, steps, G_N_ELEMENTS (steps), &error));
  sw_assert_error (error, SW_ERROR_DAMAGED, "version 0");
  sqlite3_close (db);
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/store/job-schema/pinned", test_pinned);
  g_test_add_func ("/store/job-schema/upgrades", test_upgrades);
  g_test_add_func ("/store/job-schema/steps", test_steps);
  return g_test_run ();
}
