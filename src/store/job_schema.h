/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "store/job_file.h"
#include "store/job_sql.h"

#define SW_JOB_FILE_ID 0x534F4646 /* "SOFF" */
#define SW_JOB_FILE_VERSION 10

/* What leads from one version of the file to the next. When a field changes, tests/store/job_schema.c fails: count
 * SW_JOB_FILE_VERSION up, add the step to job_schema.c and pin the new text beside the old ones with
 * "soffit schema --sql --to tests/store/schema-N.sql". */
typedef struct
{
  int from;        /* to from + 1 */
  const char *sql; /* runs in one transaction with the other steps */
} SwJobUpgrade;

/* sw_job_schema_sql in job_file.h gives all of the newest version's CREATE statements, from the field tables. */
/* Brings a database with user version `from` to `to` by the steps (n of them), all or nothing. */
gboolean sw_job_schema_upgrade (sqlite3 *db, int from, int to, const SwJobUpgrade *steps, guint n, GError **error);
/* The same to SW_JOB_FILE_VERSION by the program's own steps; does nothing at that version. */
gboolean sw_job_schema_update (sqlite3 *db, int from, GError **error);

/* Calls `each` with the name of every column of a field: one, or two for a point. */
void sw_job_schema_each_column (const SwField *field, void (*each) (const SwField *field, const char *column, gpointer data), gpointer data);
