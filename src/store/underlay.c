/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The file is read once, so that what is hashed is what is drawn, and handed to the helper in memory; the picture comes
 * back in memory too, whose size the helper's own limit bounds. Standard error is the only pipe: its end tells that the
 * helper is done, so that one poll waits for that, the deadline and the user. */
#include "store/underlay.h"
#include "base/error.h"
#include "base/paths.h"
#include "store/underlay_format.h"
#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#define LARGEST_FILE (20 << 20)
#define PATIENCE_US (9500 * G_TIME_SPAN_MILLISECOND)

typedef struct
{
  GPid pid;
  int errors;       /* reading end of its standard error */
  GString *said;    /* from there */
  int error_code;   /* SwErrorCode when it was stopped, else −1 */
} Helper;

static gboolean
fail (GError **error, int code, const char *what)
{
  g_set_error_literal (error, SW_ERROR, code, what);
  return FALSE;
}

static gboolean
fail_errno (GError **error, const char *doing)
{
  int number = errno;
  g_set_error (error, SW_ERROR, number == ENOENT ? SW_ERROR_NOT_FOUND : SW_ERROR_IO, "cannot %s: %s", doing,
               g_strerror (number));
  return FALSE;
}

/* All of a file of at most LARGEST_FILE bytes; a pipe that nobody writes to does not hold us up. */
static GByteArray *
read_descriptor (int fd, GError **error)
{
  struct stat info;
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  guint8 part[65536];
  gssize got = 0;
  if (fstat (fd, &info) != 0 || !S_ISREG (info.st_mode))
    {
      fail (error, SW_ERROR_INVALID, "this is not a file");
      return NULL;
    }
  while (bytes->len <= LARGEST_FILE && (got = read (fd, part, sizeof part)) > 0)
    g_byte_array_append (bytes, part, (guint) got);
  if (got < 0)
    fail_errno (error, "read the drawing");
  else if (bytes->len > LARGEST_FILE)
    g_set_error (error, SW_ERROR, SW_ERROR_LIMIT, "this drawing is larger than the %d MB that an underlay may have",
                 LARGEST_FILE >> 20);
  else
    return g_steal_pointer (&bytes);
  return NULL;
}

static GByteArray *
read_drawing (const char *path, GError **error)
{
  int fd = open (path, O_RDONLY | O_CLOEXEC | O_NONBLOCK);
  if (fd < 0)
    {
      fail_errno (error, "open the drawing");
      return NULL;
    }
  GByteArray *bytes = read_descriptor (fd, error);
  close (fd);
  return bytes;
}

static gboolean
write_all (int fd, const guint8 *bytes, gsize n)
{
  gssize put = 1;
  for (; n > 0 && put > 0; bytes += put, n -= (gsize) MAX (put, 0))
    put = write (fd, bytes, n);
  return n == 0 && lseek (fd, 0, SEEK_SET) == 0;
}

static gboolean
helper_start (Helper *helper, int input, int output, int longest, GError **error)
{
  int ends[2];
  g_autofree char *path = sw_helper_path ("soffit-underlay"), *side = g_strdup_printf ("%d", longest);
  g_autoptr (GError) cause = NULL;
  const char *arguments[] = { path, side, NULL };
  if (pipe2 (ends, O_CLOEXEC) != 0)
    return fail_errno (error, "start the program that draws underlays");
  gboolean started = g_spawn_async_with_fds (NULL, (char **) arguments, NULL, G_SPAWN_DO_NOT_REAP_CHILD, NULL, NULL,
                                             &helper->pid, input, output, ends[1], &cause);
  close (ends[1]);
  helper->errors = ends[0];
  helper->said = g_string_new (NULL);
  helper->error_code = -1;
  if (started)
    return TRUE;
  close (ends[0]);
  g_string_free (helper->said, TRUE);
  g_set_error (error, SW_ERROR, SW_ERROR_INTERNAL, "cannot start the program that draws underlays: %s", cause->message);
  return FALSE;
}

/* Keeps the first of what the helper says. FALSE when it has closed its end. */
static gboolean
helper_listen (Helper *helper)
{
  char part[512];
  gssize got = read (helper->errors, part, sizeof part);
  if (got > 0 && helper->said->len < 2048)
    g_string_append_len (helper->said, part, got);
  return got > 0 || (got < 0 && (errno == EINTR || errno == EAGAIN));
}

/* Until the helper is done, or has to be stopped. */
static void
helper_wait (Helper *helper, GCancellable *cancellable)
{
  gint64 deadline = g_get_monotonic_time () + PATIENCE_US;
  GPollFD cancel = { .fd = -1 };
  gboolean watched = g_cancellable_make_pollfd (cancellable, &cancel);
  for (gboolean open = TRUE; open && helper->error_code < 0;)
    {
      gint64 left = deadline - g_get_monotonic_time ();
      struct pollfd fds[2] = { { helper->errors, POLLIN, 0 }, { watched ? cancel.fd : -1, POLLIN, 0 } };
      if (left <= 0)
        helper->error_code = SW_ERROR_LIMIT;
      else if (g_cancellable_is_cancelled (cancellable))
        helper->error_code = SW_ERROR_CANCELLED;
      else if (poll (fds, 2, (int) (left / 1000) + 1) > 0 && fds[0].revents != 0)
        open = helper_listen (helper);
    }
  if (watched)
    g_cancellable_release_fd (cancellable);
}

static gboolean
judge_signal (int number, GError **error)
{
  switch (number)
    {
    case SIGXCPU:
    case SIGKILL: /* by the limit on processor time, or by who watches over the memory */
      return fail (error, SW_ERROR_LIMIT,
                   "this drawing takes too long or too much memory to draw: simplify it, or save it without filters");
    case SIGABRT:
    case SIGXFSZ:
      return fail (error, SW_ERROR_LIMIT, "this drawing takes too much memory to draw: simplify it");
    default:
      g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "this drawing cannot be drawn (signal %d)", number);
      return FALSE;
    }
}

/* Ends and reaps the helper; whether it made a picture. */
static gboolean
helper_finish (Helper *helper, GError **error)
{
  int status = 0;
  if (helper->error_code >= 0)
    kill (helper->pid, SIGKILL);
  while (waitpid (helper->pid, &status, 0) < 0 && errno == EINTR)
    ;
  g_spawn_close_pid (helper->pid);
  close (helper->errors);
  g_autofree char *said = g_utf8_make_valid (helper->said->str, -1);
  g_string_free (helper->said, TRUE);
  if (helper->error_code == SW_ERROR_CANCELLED)
    return fail (error, SW_ERROR_CANCELLED, "was cancelled");
  if (helper->error_code == SW_ERROR_LIMIT)
    return judge_signal (SIGXCPU, error);
  if (WIFSIGNALED (status))
    return judge_signal (WTERMSIG (status), error);
  if (WEXITSTATUS (status) == 0)
    return TRUE;
  g_strstrip (said);
  return fail (error, SW_ERROR_INVALID, *said != '\0' ? said : "this drawing cannot be drawn");
}

static gboolean
is_good_head (const SwUnderlayHead *head, off_t size)
{
  return memcmp (head->magic, SW_UNDERLAY_MAGIC, sizeof head->magic) == 0 && head->columns > 0 && head->rows > 0
         && head->columns <= SW_UNDERLAY_LONGEST && head->rows <= SW_UNDERLAY_LONGEST && head->width > 0 && head->height > 0
         && size == (off_t) sizeof *head + (off_t) head->columns * head->rows * 4;
}

/* The helper's work is checked like any other input. */
static SwUnderlayImage *
take_picture (int fd, GError **error)
{
  SwUnderlayHead head;
  struct stat info;
  if (fstat (fd, &info) != 0 || pread (fd, &head, sizeof head, 0) != (gssize) sizeof head
      || !is_good_head (&head, info.st_size))
    {
      fail (error, SW_ERROR_INTERNAL, "the program that draws underlays gave no picture");
      return NULL;
    }
  gsize n = (gsize) head.columns * (gsize) head.rows * 4, done = 0;
  g_autoptr (SwUnderlayImage) image = g_new0 (SwUnderlayImage, 1);
  *image = (SwUnderlayImage){ head.width, head.height, head.columns, head.rows, g_malloc (n), NULL };
  for (gssize got = 1; done < n && got > 0; done += (gsize) MAX (got, 0))
    got = pread (fd, image->pixels + done, n - done, (off_t) (sizeof head + done));
  if (done == n)
    return g_steal_pointer (&image);
  fail_errno (error, "read the picture");
  return NULL;
}

static SwUnderlayImage *
run_helper (int input, int output, int longest, GCancellable *cancellable, GError **error)
{
  Helper helper;
  if (!helper_start (&helper, input, output, longest, error))
    return NULL;
  helper_wait (&helper, cancellable);
  return helper_finish (&helper, error) ? take_picture (output, error) : NULL;
}

static SwUnderlayImage *
draw_bytes (const GByteArray *drawing, int longest, GCancellable *cancellable, GError **error)
{
  int input = memfd_create ("drawing", MFD_CLOEXEC), output = memfd_create ("picture", MFD_CLOEXEC);
  SwUnderlayImage *image = NULL;
  if (input >= 0 && output >= 0 && write_all (input, drawing->data, drawing->len))
    image = run_helper (input, output, longest, cancellable, error);
  else
    fail_errno (error, "hand the drawing over");
  if (input >= 0)
    close (input);
  if (output >= 0)
    close (output);
  return image;
}

SwUnderlayImage *
sw_underlay_draw (const char *path, int longest, GCancellable *cancellable, GError **error)
{
  g_autoptr (GByteArray) drawing = read_drawing (path, error);
  SwUnderlayImage *image
      = drawing != NULL ? draw_bytes (drawing, CLAMP (longest, 1, SW_UNDERLAY_LONGEST), cancellable, error) : NULL;
  if (image != NULL)
    image->sha256 = g_compute_checksum_for_data (G_CHECKSUM_SHA256, drawing->data, drawing->len);
  else
    {
      g_autofree char *name = g_filename_display_name (path);
      g_prefix_error (error, "%s: ", name);
    }
  return image;
}

void
sw_underlay_image_free (SwUnderlayImage *image)
{
  g_free (image->pixels);
  g_free (image->sha256);
  g_free (image);
}
