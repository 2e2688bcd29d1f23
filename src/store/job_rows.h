/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "job/edit.h"
#include "store/job_sql.h"

/* Records as rows of the job file, and back. */

/* Prepared statements of one connection, made as they are needed. */
typedef struct _SwRows SwRows;

SwRows *sw_rows_new (sqlite3 *db);
void sw_rows_free (SwRows *rows); /* before the connection is closed */
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwRows, sw_rows_free)

/* Writes what an edit leads to (or from, when !forward) inside the caller's transaction. */
gboolean sw_rows_apply (SwRows *rows, const SwEdit *edit, gboolean forward, GError **error);
/* All records as a job. SW_ERROR_DAMAGED names the record that cannot be what it is. */
SwJob *sw_rows_load (sqlite3 *db, GError **error);

/* A record as JSON for the history, all fields, references by number: what a default was then does not matter later. */
char *sw_rows_record_write (const SwRecord *record);
SwRecord *sw_rows_record_read (SwId id, const char *text, GError **error);
