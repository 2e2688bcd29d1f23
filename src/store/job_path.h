/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>
#include <sys/types.h>

/* The only place that opens job files beside SQLite. Closing any descriptor of a file drops the locks that SQLite holds
 * on it in this process, so a file that this process has in hand is never opened a second time here, and the
 * descriptor that carries our own lock outlives the connection. Any thread. */

typedef enum
{
  SW_HOLD_MINE,     /* ours to write */
  SW_HOLD_ANOTHERS, /* another program, or another window of this one, has it */
  SW_HOLD_NO_RIGHT, /* it may not be written, by its permissions or its medium */
  SW_HOLD_NO_LOCKS  /* its file system knows no locks */
} SwHoldState;

typedef struct
{
  char *path;   /* absolute, links resolved */
  int fd;       /* carries the lock; −1 when the file is not ours */
  dev_t device; /* of the file when it was looked at */
  ino_t inode;
  SwHoldState state;
} SwHold;

/* Looks at a job file without changing it, and takes it when `wanted` and nobody else has it. FALSE when it cannot be a
 * job file that this program reads: missing, a folder, empty, cut short, of another kind, from a newer version. */
gboolean sw_hold_take (SwHold *hold, const char *path, gboolean wanted, GError **error);
/* After the connection has been closed. */
void sw_hold_drop (SwHold *hold);

/* A new empty file beside `path`, to become it later. Free with g_free. */
char *sw_job_path_temporary (const char *path, GError **error);
/* Moves the finished file `from` to `path` in one step and makes that last. When there is a file already, it must be
 * one that nobody holds, and is only replaced when `replace`. */
gboolean sw_job_path_install (const char *from, const char *path, gboolean replace, GError **error);
