/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "store/job_file.h"
#include "store/job_path.h"
#include "store/job_rows.h"

struct _SwJobFile
{
  gatomicrefcount refs;
  char *name;        /* for messages */
  SwHold hold;
  sqlite3 *db;       /* NULL when open for reading only: all has been read */
  SwJobRows *rows;
  SwJob *job;
  SwReadOnly read_only;
  char *cannot_write;     /* what the system says, or NULL */
  SwJobHolder holder;
  guint length, position; /* of the history, at opening */
  gint64 revision;        /* counts the transactions; tells whether one that failed is in the file after all */
  gboolean journal_taken;
};

/* "2026-03-02T10:15:00Z". Free with g_free. */
char *sw_job_file_now (void);
/* Puts the file's name before an error's message. FALSE. */
gboolean sw_job_file_failed (const SwJobFile *file, GError **error);
