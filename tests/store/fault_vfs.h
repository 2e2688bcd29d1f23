/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>
#include <sqlite3.h>

/* A layer over SQLite's default way to files that fails the n-th write, sync, truncation or deletion. */
typedef enum
{
  FAULT_IO,   /* not done, an input or output error */
  FAULT_FULL, /* writes find the disk full; the rest as above */
  FAULT_LATE, /* done, writes by half, and reported as an error: a folder that could not be synced, a torn write */
  N_FAULTS
} FaultKind;

/* Makes it the default of all connections opened from now on. */
void fault_vfs_install (void);
/* The n-th operation from now on (1 is the next) fails, and when `lasting` every later one. */
void fault_vfs_arm (int n, FaultKind kind, gboolean lasting);
/* No more faults; whether there was one. */
gboolean fault_vfs_disarm (void);
/* Puts all files back to what was synced last, as when the power goes. With no connection open. */
void fault_vfs_cut (void);
/* Forgets what was synced. */
void fault_vfs_forget (void);
