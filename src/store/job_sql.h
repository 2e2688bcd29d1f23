/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>
#include <sqlite3.h>

/* SQLite with GError: every code that is not a success becomes SW_ERROR with what was done and what SQLite says. */

G_DEFINE_AUTOPTR_CLEANUP_FUNC (sqlite3_stmt, sqlite3_finalize)

/* Always FALSE. `doing` reads on from "cannot": "write the job". `db` may be NULL. */
gboolean sw_sql_fail (sqlite3 *db, int rc, const char *doing, GError **error);

/* Statements without results, or whose results do not matter. */
gboolean sw_sql_run (sqlite3 *db, const char *sql, GError **error);
sqlite3_stmt *sw_sql_prepare (sqlite3 *db, const char *sql, GError **error);
/* Runs a bound statement that has no rows, and resets it. */
gboolean sw_sql_do (sqlite3_stmt *statement, const char *doing, GError **error);
/* *row: whether there is one. */
gboolean sw_sql_next (sqlite3_stmt *statement, const char *doing, gboolean *row, GError **error);
/* The first value of a query's first row; it is an error when there is none. */
gboolean sw_sql_int (sqlite3 *db, const char *sql, gint64 *value, GError **error);
