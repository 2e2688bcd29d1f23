/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "job/journal.h"

/* The job file "*.soffit": an SQLite database in which every finished edit stands the moment it is done, with its history.
 * One thread at a time. Errors begin with the name of the file:
 *   SW_ERROR_NOT_FOUND  no such file            SW_ERROR_INVALID   it is no job         SW_ERROR_DAMAGED  it was one
 *   SW_ERROR_TOO_NEW    of a newer version      SW_ERROR_CONFLICT  somebody else has it
 *   SW_ERROR_IO         the disk is full, cannot be read or written …
 * A file that cannot be opened stays as it was, byte for byte. */
typedef struct _SwJobFile SwJobFile;

/* Why a job cannot be changed. */
typedef enum
{
  SW_READ_ONLY_NOT,
  SW_READ_ONLY_WANTED,
  SW_READ_ONLY_HELD,     /* somebody else has it: sw_job_file_holder */
  SW_READ_ONLY_NO_RIGHT, /* by its permissions or its medium */
  SW_READ_ONLY_NO_LOCKS, /* its file system knows no locks */
  SW_READ_ONLY_CANNOT,   /* writing failed, as on a full disk */
  SW_READ_ONLY_ASIDE     /* no right, and it was not closed cleanly: shown as it was after the last finished edit */
} SwReadOnly;

typedef struct
{
  char *user, *host, *since; /* since: YYYY-MM-DDThh:mm:ssZ */
  gint64 pid;
} SwJobHolder;

/* Opens a job to be changed, or for reading when `read_only` or when it cannot be changed (sw_job_file_read_only says why). */
SwJobFile *sw_job_file_open (const char *path, gboolean read_only, GError **error);
/* Writes a new job file and opens it. One that is there is only replaced when `replace`, and at once. */
SwJobFile *sw_job_file_create (const char *path, SwJob *job, gboolean replace, GError **error);
SwJobFile *sw_job_file_ref (SwJobFile *file);
/* The last one, here or in the journal, closes it. */
void sw_job_file_unref (SwJobFile *file);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwJobFile, sw_job_file_unref)

/* As it was when opened; borrowed. */
SwJob *sw_job_file_job (SwJobFile *file);
const char *sw_job_file_path (SwJobFile *file);
/* Where its edits go: hand it, once, to sw_desk_new. It holds the file. A journal that could not make sure of a write takes
 * no more until the file can be read again and stands as the job does. */
SwJournal *sw_job_file_take_journal (SwJobFile *file);

SwReadOnly sw_job_file_read_only (SwJobFile *file);
/* A sentence for SwReadOnly with the holder's name, in English; NULL when it can be changed. Free with g_free. */
char *sw_job_file_read_only_text (SwJobFile *file);
/* Who has it, when that is known; else NULL. Borrowed. */
const SwJobHolder *sw_job_file_holder (SwJobFile *file);

/* A copy of the file with its history (without, when it is open for reading only), in one step; a file of that name is
 * replaced unless it is open somewhere. Refuses the file itself. */
gboolean sw_job_file_save_copy (SwJobFile *file, const char *path, GError **error);
/* What the history takes up, in bytes; 0 when it is open for reading only. sw_desk_forget_history gives it back. */
gint64 sw_job_file_history_bytes (SwJobFile *file);

/* The CREATE statements of a job file of this version. Free with g_free. */
char *sw_job_schema_sql (void);
