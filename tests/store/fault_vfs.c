/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fault_vfs.h"
#include <glib/gstdio.h>
#include <string.h>

typedef struct
{
  sqlite3_file base;
  char *path; /* NULL for a temporary file */
  sqlite3_file *real;
} FaultFile;

static sqlite3_vfs *real_vfs;
static sqlite3_vfs fault_vfs;
static int countdown;
static FaultKind fault_kind;
static gboolean fault_lasts, fault_fired;
static GHashTable *synced; /* path → GBytes, what would be there after the power went */
static GHashTable *seen;   /* all paths */

static gboolean
fault_now (void)
{
  gboolean now = (countdown > 0 && --countdown == 0) || (fault_fired && fault_lasts);
  fault_fired |= now;
  return now;
}

static sqlite3_file *
real_of (sqlite3_file *file)
{
  return ((FaultFile *) file)->real;
}

static GBytes *
read_all (sqlite3_file *real)
{
  sqlite3_int64 size = 0;
  real->pMethods->xFileSize (real, &size);
  guint8 *bytes = g_malloc0 ((gsize) size + 1);
  real->pMethods->xRead (real, bytes, (int) size, 0);
  return g_bytes_new_take (bytes, (gsize) size);
}

static int
fault_close (sqlite3_file *file)
{
  FaultFile *own = (FaultFile *) file;
  int rc = own->real->pMethods->xClose (own->real);
  g_free (own->path);
  g_free (own->real);
  return rc;
}

static int
fault_read (sqlite3_file *file, void *bytes, int n, sqlite3_int64 at)
{
  return real_of (file)->pMethods->xRead (real_of (file), bytes, n, at);
}

static int
fault_write (sqlite3_file *file, const void *bytes, int n, sqlite3_int64 at)
{
  sqlite3_file *real = real_of (file);
  if (!fault_now ())
    return real->pMethods->xWrite (real, bytes, n, at);
  if (fault_kind == FAULT_LATE)
    real->pMethods->xWrite (real, bytes, n / 2, at);
  return fault_kind == FAULT_FULL ? SQLITE_FULL : SQLITE_IOERR_WRITE;
}

static int
fault_truncate (sqlite3_file *file, sqlite3_int64 size)
{
  sqlite3_file *real = real_of (file);
  gboolean fails = fault_now ();
  int rc = fails && fault_kind != FAULT_LATE ? SQLITE_OK : real->pMethods->xTruncate (real, size);
  return fails ? SQLITE_IOERR_TRUNCATE : rc;
}

static int
fault_sync (sqlite3_file *file, int flags)
{
  FaultFile *own = (FaultFile *) file;
  gboolean fails = fault_now ();
  if (fails && fault_kind != FAULT_LATE)
    return SQLITE_IOERR_FSYNC;
  int rc = own->real->pMethods->xSync (own->real, flags);
  if (own->path != NULL)
    g_hash_table_replace (synced, g_strdup (own->path), read_all (own->real));
  return fails ? SQLITE_IOERR_FSYNC : rc;
}

static int
fault_size (sqlite3_file *file, sqlite3_int64 *size)
{
  return real_of (file)->pMethods->xFileSize (real_of (file), size);
}

static int
fault_lock (sqlite3_file *file, int level)
{
  return real_of (file)->pMethods->xLock (real_of (file), level);
}

static int
fault_unlock (sqlite3_file *file, int level)
{
  return real_of (file)->pMethods->xUnlock (real_of (file), level);
}

static int
fault_check_reserved (sqlite3_file *file, int *held)
{
  return real_of (file)->pMethods->xCheckReservedLock (real_of (file), held);
}

static int
fault_control (sqlite3_file *file, int what, void *data)
{
  return real_of (file)->pMethods->xFileControl (real_of (file), what, data);
}

static int
fault_sector (sqlite3_file *file)
{
  return real_of (file)->pMethods->xSectorSize (real_of (file));
}

/* Promises nothing: no write is atomic, none is in order. */
static int
fault_traits (sqlite3_file *file)
{
  return 0;
}

static const sqlite3_io_methods fault_methods = {
  1, fault_close, fault_read, fault_write, fault_truncate, fault_sync, fault_size, fault_lock, fault_unlock, fault_check_reserved,
  fault_control, fault_sector, fault_traits,
};

static int
fault_open (sqlite3_vfs *vfs, const char *name, sqlite3_file *file, int flags, int *out_flags)
{
  FaultFile *own = (FaultFile *) file;
  own->real = g_malloc0 ((gsize) real_vfs->szOsFile);
  own->base.pMethods = NULL;
  int rc = real_vfs->xOpen (real_vfs, name, own->real, flags, out_flags);
  if (rc != SQLITE_OK)
    {
      g_free (own->real);
      return rc;
    }
  own->base.pMethods = &fault_methods;
  own->path = name != NULL && !(flags & SQLITE_OPEN_DELETEONCLOSE) ? g_strdup (name) : NULL;
  /* What is there when it is first opened was there before. */
  if (own->path != NULL && g_hash_table_add (seen, g_strdup (own->path)) && (flags & SQLITE_OPEN_MAIN_DB))
    g_hash_table_replace (synced, g_strdup (own->path), read_all (own->real));
  return SQLITE_OK;
}

static int
fault_delete (sqlite3_vfs *vfs, const char *name, int sync_folder)
{
  gboolean fails = fault_now ();
  if (fails && fault_kind != FAULT_LATE)
    return SQLITE_IOERR_DELETE;
  int rc = real_vfs->xDelete (real_vfs, name, sync_folder);
  /* Late: deleted, but nobody knows whether the folder's entry lasts. */
  if (rc == SQLITE_OK && sync_folder && !fails)
    g_hash_table_remove (synced, name);
  return fails ? SQLITE_IOERR_DIR_FSYNC : rc;
}

void
fault_vfs_install (void)
{
  real_vfs = sqlite3_vfs_find (NULL);
  fault_vfs = *real_vfs;
  fault_vfs.zName = "fault";
  fault_vfs.szOsFile = sizeof (FaultFile);
  fault_vfs.xOpen = fault_open;
  fault_vfs.xDelete = fault_delete;
  synced = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify) g_bytes_unref);
  seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_assert_cmpint (sqlite3_vfs_register (&fault_vfs, 1), ==, SQLITE_OK);
}

void
fault_vfs_arm (int n, FaultKind kind, gboolean lasting)
{
  countdown = n;
  fault_kind = kind;
  fault_lasts = lasting;
  fault_fired = FALSE;
}

gboolean
fault_vfs_disarm (void)
{
  gboolean fired = fault_fired;
  countdown = 0;
  fault_fired = FALSE;
  return fired;
}

void
fault_vfs_cut (void)
{
  GHashTableIter iter;
  gpointer path;
  g_hash_table_iter_init (&iter, seen);
  while (g_hash_table_iter_next (&iter, &path, NULL))
    {
      GBytes *bytes = g_hash_table_lookup (synced, path);
      if (bytes == NULL)
        g_unlink (path);
      else
        g_assert_true (g_file_set_contents (path, g_bytes_get_data (bytes, NULL), (gssize) g_bytes_get_size (bytes), NULL));
    }
}

void
fault_vfs_forget (void)
{
  g_hash_table_remove_all (synced);
  g_hash_table_remove_all (seen);
}
