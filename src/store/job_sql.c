/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "store/job_sql.h"
#include "base/error.h"

typedef struct
{
  int rc;
  int code;
  const char *what; /* NULL: as SQLite says it */
} Meaning;

static const Meaning meanings[] = {
  { SQLITE_FULL, SW_ERROR_IO, "the disk is full" },
  { SQLITE_BUSY, SW_ERROR_CONFLICT, "another program is busy with it" },
  { SQLITE_LOCKED, SW_ERROR_CONFLICT, "it is locked" },
  { SQLITE_READONLY, SW_ERROR_READ_ONLY, "it may not be written" },
  { SQLITE_CORRUPT, SW_ERROR_DAMAGED, "it is damaged" },
  { SQLITE_NOTADB, SW_ERROR_DAMAGED, "it is damaged" },
  { SQLITE_CANTOPEN, SW_ERROR_IO, NULL },
  { SQLITE_PERM, SW_ERROR_IO, NULL },
  { SQLITE_IOERR, SW_ERROR_IO, NULL },
  { SQLITE_NOLFS, SW_ERROR_IO, NULL },
  { SQLITE_TOOBIG, SW_ERROR_LIMIT, NULL },
  { SQLITE_NOMEM, SW_ERROR_LIMIT, NULL },
  { SQLITE_CONSTRAINT, SW_ERROR_DAMAGED, NULL },
  { SQLITE_MISMATCH, SW_ERROR_DAMAGED, NULL },
  { SQLITE_ERROR, SW_ERROR_DAMAGED, NULL },
};

gboolean
sw_sql_fail (sqlite3 *db, int rc, const char *doing, GError **error)
{
  static const Meaning other = { 0, SW_ERROR_INTERNAL, NULL };
  const Meaning *meaning = &other;
  for (gsize i = 0; i < G_N_ELEMENTS (meanings); i++)
    if (meanings[i].rc == (rc & 0xff))
      meaning = &meanings[i];
  const char *said = db != NULL && sqlite3_errcode (db) != SQLITE_OK ? sqlite3_errmsg (db) : sqlite3_errstr (rc);
  g_set_error (error, SW_ERROR, meaning->code, "cannot %s: %s", doing, meaning->what != NULL ? meaning->what : said);
  return FALSE;
}

gboolean
sw_sql_run (sqlite3 *db, const char *sql, GError **error)
{
  int rc = sqlite3_exec (db, sql, NULL, NULL, NULL);
  return rc == SQLITE_OK || sw_sql_fail (db, rc, "use the job file", error);
}

sqlite3_stmt *
sw_sql_prepare (sqlite3 *db, const char *sql, GError **error)
{
  sqlite3_stmt *statement = NULL;
  int rc = sqlite3_prepare_v3 (db, sql, -1, SQLITE_PREPARE_PERSISTENT, &statement, NULL);
  if (rc == SQLITE_OK)
    return statement;
  sw_sql_fail (db, rc, "use the job file", error);
  return NULL;
}

gboolean
sw_sql_do (sqlite3_stmt *statement, const char *doing, GError **error)
{
  int rc = sqlite3_step (statement);
  gboolean done = rc == SQLITE_DONE || rc == SQLITE_ROW || sw_sql_fail (sqlite3_db_handle (statement), rc, doing, error);
  sqlite3_reset (statement);
  return done;
}

gboolean
sw_sql_next (sqlite3_stmt *statement, const char *doing, gboolean *row, GError **error)
{
  int rc = sqlite3_step (statement);
  *row = rc == SQLITE_ROW;
  return rc == SQLITE_DONE || rc == SQLITE_ROW || sw_sql_fail (sqlite3_db_handle (statement), rc, doing, error);
}

gboolean
sw_sql_int (sqlite3 *db, const char *sql, gint64 *value, GError **error)
{
  g_autoptr (sqlite3_stmt) statement = sw_sql_prepare (db, sql, error);
  gboolean row = FALSE;
  if (statement == NULL || !sw_sql_next (statement, "read the job file", &row, error))
    return FALSE;
  if (!row)
    return sw_sql_fail (NULL, SQLITE_CORRUPT, "read the job file", error);
  *value = sqlite3_column_int64 (statement, 0);
  return TRUE;
}
