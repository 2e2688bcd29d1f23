/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "job/edit.h"
#include "store/job_sql.h"

/* Records as rows of the job file, and back. */

/* Prepared statements of one connection, made as they are needed. */
typedef struct _SwRows SwJobRows;

SwJobRows *sw_job_rows_new (sqlite3 *db);
void sw_job_rows_free (SwJobRows *rows); /* before the connection is closed */
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwJobRows, sw_job_rows_free)

/* Writes what an edit leads to (or from, when !forward) inside the caller's transaction. */
gboolean sw_job_rows_apply (SwJobRows *rows, const SwEdit *edit, gboolean forward, GError **error);
/* All records as a job. SW_ERROR_DAMAGED names the record that cannot be what it is. */
SwJob *sw_job_rows_load (sqlite3 *db, GError **error);

/* A record as JSON for the history, all fields, references by number: what a default was then does not matter later. */
char *sw_job_rows_record_write (const SwRecord *record);
SwRecord *sw_job_rows_record_read (SwId id, const char *text, GError **error);
