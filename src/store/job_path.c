/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "store/job_path.h"
#include "base/error.h"
#include "store/job_schema.h"
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define LOCK_BYTE ((off_t) 1 << 40) /* far beyond SQLite's own, which lie at 1 GB */
#define HEADER_SIZE 100

typedef struct
{
  dev_t device;
  ino_t inode;
} Held;

/* Files that this process has in hand. A fact about the process, like its open files: hence not in any object. */
static GMutex held_mutex;
static GArray *held_files;

static gboolean
held_find (dev_t device, ino_t inode, guint *at)
{
  for (guint i = 0; held_files != NULL && i < held_files->len; i++)
    {
      const Held *held = &g_array_index (held_files, Held, i);
      *at = i;
      if (held->device == device && held->inode == inode)
        return TRUE;
    }
  return FALSE;
}

/* FALSE when it was there already. */
static gboolean
held_add (dev_t device, ino_t inode)
{
  guint at;
  g_mutex_lock (&held_mutex);
  gboolean fresh = !held_find (device, inode, &at);
  if (held_files == NULL)
    held_files = g_array_new (FALSE, FALSE, sizeof (Held));
  if (fresh)
    g_array_append_vals (held_files, &(Held){ device, inode }, 1);
  g_mutex_unlock (&held_mutex);
  return fresh;
}

static void
held_remove (dev_t device, ino_t inode)
{
  guint at;
  g_mutex_lock (&held_mutex);
  if (held_find (device, inode, &at))
    g_array_remove_index_fast (held_files, at);
  if (held_files != NULL && held_files->len == 0)
    g_clear_pointer (&held_files, g_array_unref);
  g_mutex_unlock (&held_mutex);
}

static gboolean
refuse (GError **error, int code, const char *what)
{
  g_set_error_literal (error, SW_ERROR, code, what);
  return FALSE;
}

static gboolean
refuse_errno (GError **error, const char *doing)
{
  int number = errno;
  g_set_error (error, SW_ERROR, number == ENOENT ? SW_ERROR_NOT_FOUND : SW_ERROR_IO, "cannot %s: %s", doing,
               g_strerror (number));
  return FALSE;
}

static char *
absolute_path (const char *path)
{
  char *real = realpath (path, NULL);
  char *copy = real != NULL ? g_strdup (real) : g_canonicalize_filename (path, NULL);
  free (real);
  return copy;
}

static gboolean
check_kind (const struct stat *info, GError **error)
{
  if (S_ISDIR (info->st_mode))
    return refuse (error, SW_ERROR_INVALID, "this is a folder, not a job");
  if (!S_ISREG (info->st_mode))
    return refuse (error, SW_ERROR_INVALID, "this is not a file");
  if (info->st_size == 0)
    return refuse (error, SW_ERROR_DAMAGED, "this file is empty: it is not a job, or what was in it is lost");
  return TRUE;
}

static guint32
header_number (const guint8 *header, int at)
{
  guint32 number;
  memcpy (&number, header + at, sizeof number);
  return GUINT32_FROM_BE (number);
}

/* Whether the file has all the pages that its header counts: SQLite itself takes what is missing for zeros. While an
 * interrupted change waits beside the file, its size may differ. */
static gboolean
is_whole (const guint8 *header, off_t size, const char *path)
{
  struct stat info;
  g_autofree char *journal = g_strconcat (path, "-journal", NULL);
  off_t page_size = header[16] << 8 | header[17];
  page_size = page_size == 1 ? 65536 : page_size;
  gboolean counted = memcmp (header + 24, header + 92, 4) == 0;
  return (stat (journal, &info) == 0 && info.st_size > 0) || !counted
         || size >= page_size * (off_t) header_number (header, 28);
}

/* https://www.sqlite.org/fileformat2.html, 1.3: magic, page size at 16, change counter at 24 and, as it was when the pages at
 * 28 were counted, at 92; user version at 60, application at 68. */
static gboolean
check_header (int fd, off_t size, const char *path, GError **error)
{
  guint8 header[HEADER_SIZE] = { 0 };
  gssize got = pread (fd, header, sizeof header, 0);
  if (got < 0)
    return refuse_errno (error, "read the file");
  if (memcmp (header, "SQLite format 3", MIN ((gsize) got, 16)) != 0)
    return refuse (error, SW_ERROR_INVALID, "this file is not a job");
  if (got < HEADER_SIZE)
    return refuse (error, SW_ERROR_DAMAGED, "this job is damaged: the file is cut short");
  if (header_number (header, 68) != SW_JOB_FILE_ID)
    return refuse (error, SW_ERROR_INVALID, "this file is a database of another program, not a job");
  if (header_number (header, 60) > SW_JOB_FILE_VERSION)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_TOO_NEW,
                   "this job was last written by a newer version of the program (file version %u; this program reads up to %d): open it with that version",
                   header_number (header, 60), SW_JOB_FILE_VERSION);
      return FALSE;
    }
  return is_whole (header, size, path) || refuse (error, SW_ERROR_DAMAGED, "this job is damaged: the file is cut short");
}

static gboolean
take_lock (int fd)
{
  struct flock lock = { .l_type = F_WRLCK, .l_whence = SEEK_SET, .l_start = LOCK_BYTE, .l_len = 1 };
  return fcntl (fd, F_OFD_SETLK, &lock) == 0;
}

/* Whether another open file description has it. */
static gboolean
lock_is_taken (int fd)
{
  struct flock lock = { .l_type = F_WRLCK, .l_whence = SEEK_SET, .l_start = LOCK_BYTE, .l_len = 1 };
  return fcntl (fd, F_OFD_GETLK, &lock) == 0 && lock.l_type != F_UNLCK;
}

/* Opens the file and decides whose it is; the descriptor stays open only when the file is ours. */
static gboolean
hold_open (SwHold *hold, const struct stat *info, gboolean wanted, GError **error)
{
  int fd = wanted ? open (hold->path, O_RDWR | O_CLOEXEC) : -1;
  if (fd >= 0)
    hold->state = SW_HOLD_MINE;
  else
    fd = open (hold->path, O_RDONLY | O_CLOEXEC);
  if (fd < 0)
    return refuse_errno (error, "open the file");
  gboolean good = check_header (fd, info->st_size, hold->path, error);
  if (good && hold->state == SW_HOLD_MINE && !take_lock (fd))
    hold->state = errno == EAGAIN || errno == EACCES ? SW_HOLD_ANOTHERS : SW_HOLD_NO_LOCKS;
  else if (good && hold->state == SW_HOLD_NO_RIGHT && lock_is_taken (fd))
    hold->state = SW_HOLD_ANOTHERS;
  if (good && hold->state == SW_HOLD_MINE)
    hold->fd = fd;
  else
    close (fd);
  return good;
}

gboolean
sw_hold_take (SwHold *hold, const char *path, gboolean wanted, GError **error)
{
  struct stat info;
  *hold = (SwHold){ absolute_path (path), -1, 0, 0, SW_HOLD_NO_RIGHT };
  if (stat (hold->path, &info) != 0)
    {
      refuse_errno (error, "open the file");
      sw_hold_drop (hold);
      return FALSE;
    }
  hold->device = info.st_dev;
  hold->inode = info.st_ino;
  if (!check_kind (&info, error))
    {
      sw_hold_drop (hold);
      return FALSE;
    }
  if (!held_add (info.st_dev, info.st_ino))
    {
      hold->state = SW_HOLD_ANOTHERS;
      return TRUE;
    }
  gboolean good = hold_open (hold, &info, wanted, error);
  if (hold->fd < 0)
    held_remove (info.st_dev, info.st_ino);
  if (!good)
    sw_hold_drop (hold);
  return good;
}

void
sw_hold_drop (SwHold *hold)
{
  if (hold->fd >= 0)
    {
      close (hold->fd);
      held_remove (hold->device, hold->inode);
    }
  hold->fd = -1;
  g_clear_pointer (&hold->path, g_free);
}

char *
sw_job_path_temporary (const char *path, GError **error)
{
  g_autofree char *whole = absolute_path (path), *folder = g_path_get_dirname (whole), *name = g_path_get_basename (whole);
  for (int i = 0; i < 1000; i++)
    {
      g_autofree char *hidden = g_strdup_printf (".%s.%ld-%d.part", name, (long) getpid (), i);
      g_autofree char *made = g_build_filename (folder, hidden, NULL);
      int fd = open (made, O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
      if (fd >= 0)
        {
          close (fd);
          return g_steal_pointer (&made);
        }
      if (errno != EEXIST)
        break;
    }
  refuse_errno (error, "write in this folder");
  return NULL;
}

/* The folder's entry must last too. */
static gboolean
sync_folder (const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);
  int fd = open (folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (fd < 0)
    return FALSE;
  gboolean done = fsync (fd) == 0;
  close (fd);
  return done;
}

/* Whether the file that is there may go: nobody holds it, and no interrupted change waits beside it, which SQLite would
 * take for one of the new file. */
static gboolean
may_replace (const char *path, const struct stat *info, GError **error)
{
  g_autofree char *journal = g_strconcat (path, "-journal", NULL);
  struct stat other;
  if (!S_ISREG (info->st_mode))
    return refuse (error, SW_ERROR_INVALID, "something that is not a file has this name: choose another");
  if (stat (journal, &other) == 0 && other.st_size > 0)
    return refuse (error, SW_ERROR_CONFLICT,
                   "the file that has this name was not closed cleanly: open it once, or choose another name");
  gboolean fresh = held_add (info->st_dev, info->st_ino), taken = !fresh;
  int fd = fresh ? open (path, O_RDWR | O_CLOEXEC) : -1;
  if (fd >= 0)
    {
      taken = lock_is_taken (fd);
      close (fd);
    }
  if (fresh)
    held_remove (info->st_dev, info->st_ino);
  return !taken || refuse (error, SW_ERROR_CONFLICT, "the job that has this name is open: choose another name");
}

gboolean
sw_job_path_install (const char *from, const char *path, gboolean replace, GError **error)
{
  g_autofree char *whole = absolute_path (path);
  struct stat info;
  if (stat (whole, &info) == 0)
    {
      if (!replace)
        return refuse (error, SW_ERROR_CONFLICT, "there is a file of this name already");
      if (!may_replace (whole, &info, error))
        return FALSE;
    }
  int moved = replace ? rename (from, whole) : renameat2 (AT_FDCWD, from, AT_FDCWD, whole, RENAME_NOREPLACE);
  if (moved != 0 && !replace && (errno == EINVAL || errno == ENOSYS))
    moved = rename (from, whole); /* a file system without that flag */
  if (moved != 0)
    return refuse_errno (error, "write the file");
  return sync_folder (whole) || refuse_errno (error, "make sure that the file is on the disk");
}
