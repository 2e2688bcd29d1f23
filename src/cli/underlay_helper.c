/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The program "soffit-underlay": draws the SVG, PNG or JPEG on its standard input into pixels on its standard output, and knows nothing
 * else of the project. It limits itself before it reads the first byte. The drawing has no address, so that nothing it
 * refers to outside itself can be found, on this machine or another. */
#include "store/underlay_format.h"
#include <cairo.h>
#include <gio/gio.h>
#include <gio/gunixinputstream.h>
#include <librsvg/rsvg.h>
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <unistd.h>

#define CPU_SECONDS 8
#define MEMORY_BYTES ((rlim_t) 1 << 30)
#define LARGEST_PICTURE 100000000 /* pixels: decoded, and once more to be drawn, they fit into the memory allowed */
#define LARGEST_SIDE 1e7 /* of the drawing, in its units */

#if defined(__has_feature)
#if __has_feature(address_sanitizer)
#define HAS_SHADOW_MEMORY 1
#endif
#elif defined(__SANITIZE_ADDRESS__)
#define HAS_SHADOW_MEMORY 1
#endif

static gboolean
limit (__rlimit_resource_t what, rlim_t most)
{
  struct rlimit both = { most, most };
  return setrlimit (what, &both) == 0;
}

static gboolean
limit_all (void)
{
  gboolean limited
      = limit (RLIMIT_CPU, CPU_SECONDS) && limit (RLIMIT_CORE, 0) && limit (RLIMIT_NOFILE, 64)
        && limit (RLIMIT_FSIZE, sizeof (SwUnderlayHead) + (rlim_t) SW_UNDERLAY_LONGEST * SW_UNDERLAY_LONGEST * 4)
        && prctl (PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) == 0;
#ifndef HAS_SHADOW_MEMORY /* a sanitizer maps far more than it uses */
  limited = limited && limit (RLIMIT_AS, MEMORY_BYTES);
#endif
  return limited;
}

static gboolean
is_size (double width, double height)
{
  return width > 0 && height > 0 && width <= LARGEST_SIDE && height <= LARGEST_SIDE;
}

/* Width and height as given, or as the view box has them. */
static gboolean
drawing_size (RsvgHandle *drawing, double *width, double *height)
{
  gboolean has_width, has_height, has_box;
  RsvgRectangle box;
  RsvgLength w, h;
  if (rsvg_handle_get_intrinsic_size_in_pixels (drawing, width, height) && is_size (*width, *height))
    return TRUE;
  rsvg_handle_get_intrinsic_dimensions (drawing, &has_width, &w, &has_height, &h, &has_box, &box);
  if (!has_box || !is_size (box.width, box.height))
    return FALSE;
  *width = box.width;
  *height = box.height;
  return TRUE;
}

static int
give_up (const char *what, const char *why)
{
  fprintf (stderr, "%s%s%s\n", what, *why != '\0' ? ": " : "", why);
  return 1;
}

static gboolean
put (const void *bytes, gsize n)
{
  const char *at = bytes;
  for (gssize done = 1; n > 0 && done > 0; at += done, n -= (gsize) MAX (done, 0))
    done = write (STDOUT_FILENO, at, n);
  return n == 0;
}

static int
write_picture (cairo_surface_t *surface, const SwUnderlayHead *head)
{
  cairo_surface_flush (surface);
  const guchar *row = cairo_image_surface_get_data (surface);
  gboolean written = put (head, sizeof *head);
  for (int i = 0; written && i < head->rows; i++, row += cairo_image_surface_get_stride (surface))
    written = put (row, (gsize) head->columns * 4);
  return written ? 0 : give_up ("the picture cannot be handed over", "");
}

/* librsvg leaves out, without a word, a picture that it cannot decode. */
static gboolean
is_blank (cairo_surface_t *surface)
{
  cairo_surface_flush (surface);
  const guchar *data = cairo_image_surface_get_data (surface);
  gsize n = (gsize) cairo_image_surface_get_stride (surface) * (gsize) cairo_image_surface_get_height (surface);
  return n == 0 || (data[0] == 0 && memcmp (data, data + 1, n - 1) == 0);
}

/* is_picture: the drawing holds one picture, which has to show. */
static int
draw (RsvgHandle *drawing, gboolean is_picture, int longest)
{
  g_autoptr (GError) error = NULL;
  SwUnderlayHead head = { .columns = 1, .rows = 1 };
  memcpy (head.magic, SW_UNDERLAY_MAGIC, sizeof head.magic);
  rsvg_handle_set_dpi (drawing, 96);
  if (!drawing_size (drawing, &head.width, &head.height))
    return give_up ("this drawing has no size: give it a width and height, or a view box", "");
  double scale = longest / MAX (head.width, head.height);
  head.columns = MAX ((int) lround (head.width * scale), 1);
  head.rows = MAX ((int) lround (head.height * scale), 1);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, head.columns, head.rows);
  cairo_t *cr = cairo_create (surface);
  RsvgRectangle place = { 0, 0, head.columns, head.rows };
  gboolean drawn = rsvg_handle_render_document (drawing, cr, &place, &error) && cairo_status (cr) == CAIRO_STATUS_SUCCESS;
  int result;
  if (!drawn)
    result = give_up ("this drawing cannot be drawn", error != NULL ? error->message : "");
  else if (is_picture && is_blank (surface))
    result = give_up ("this picture cannot be read", "it is damaged or empty");
  else
    result = write_picture (surface, &head);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  return result;
}

/* All of the standard input, whose size the caller bounds. */
static GBytes *
read_input (GError **error)
{
  g_autoptr (GInputStream) input = g_unix_input_stream_new (STDIN_FILENO, FALSE);
  g_autoptr (GOutputStream) bytes = g_memory_output_stream_new_resizable ();
  if (g_output_stream_splice (bytes, input, G_OUTPUT_STREAM_SPLICE_CLOSE_TARGET, NULL, error) < 0)
    return NULL;
  return g_memory_output_stream_steal_as_bytes (G_MEMORY_OUTPUT_STREAM (bytes));
}

static guint
big_endian (const guint8 *at, int bytes)
{
  guint value = 0;
  for (int i = 0; i < bytes; i++)
    value = value << 8 | at[i];
  return value;
}

/* PNG (ISO/IEC 15948): the header's chunk comes first, IEND last; without it the file was cut off, and would come out black. */
static gboolean
png_size (const guint8 *data, gsize n, guint *columns, guint *rows)
{
  gsize tail = MIN (n, 4096);
  if (n < 24 || memcmp (data + 12, "IHDR", 4) != 0 || memmem (data + n - tail, tail, "IEND", 4) == NULL)
    return FALSE;
  *columns = big_endian (data + 16, 4);
  *rows = big_endian (data + 20, 4);
  return TRUE;
}

/* JPEG (ISO/IEC 10918-1, B.2): segments with their length until a frame's header, C0 to CF but C4, C8 and CC. */
static gboolean
jpeg_size (const guint8 *data, gsize n, guint *columns, guint *rows)
{
  for (gsize at = 2; at + 9 <= n && data[at] == 0xff; at += 2 + big_endian (data + at + 2, 2))
    {
      guint8 marker = data[at + 1];
      if (marker < 0xc0 || marker > 0xcf || marker == 0xc4 || marker == 0xc8 || marker == 0xcc)
        continue;
      *rows = big_endian (data + at + 5, 2);
      *columns = big_endian (data + at + 7, 2);
      return TRUE;
    }
  return FALSE;
}

/* Scans and photographs that are taken, told by their first bytes. */
static const struct Picture
{
  const char *type, *first;
  gsize n;
  gboolean (*size) (const guint8 *data, gsize n, guint *columns, guint *rows);
} pictures[] = {
  { "image/png", "\x89PNG\r\n\x1a\n", 8, png_size },
  { "image/jpeg", "\xff\xd8\xff", 3, jpeg_size },
};

static const struct Picture *
picture_kind (GBytes *bytes)
{
  gsize n;
  const char *data = g_bytes_get_data (bytes, &n);
  for (gsize i = 0; i < G_N_ELEMENTS (pictures); i++)
    if (n > pictures[i].n && memcmp (data, pictures[i].first, pictures[i].n) == 0)
      return &pictures[i];
  return NULL;
}

static RsvgHandle *
read_svg (const char *text, gsize n, RsvgHandleFlags flags, GError **error)
{
  g_autoptr (GInputStream) stream = g_memory_input_stream_new_from_data (text, (gssize) n, NULL);
  return rsvg_handle_new_from_stream_sync (stream, NULL, flags, NULL, error);
}

/* A drawing that holds nothing but the picture: librsvg decodes it, within the same limits. */
static RsvgHandle *
wrap_picture (GBytes *bytes, const struct Picture *kind, GError **error)
{
  gsize n;
  const guint8 *data = g_bytes_get_data (bytes, &n);
  guint columns = 0, rows = 0;
  if (!kind->size (data, n, &columns, &rows) || columns == 0 || rows == 0)
    {
      g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA, "it is damaged");
      return NULL;
    }
  if ((guint64) columns * rows > LARGEST_PICTURE)
    {
      g_set_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA, "%u × %u pixels are more than the %d million that a picture may have; make it smaller",
                   columns, rows, LARGEST_PICTURE / 1000000);
      return NULL;
    }
  g_autofree char *coded = g_base64_encode (data, n);
  g_autofree char *text = g_strdup_printf ("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%u\" height=\"%u\"><image width=\"%u\" height=\"%u\""
                                           " href=\"data:%s;base64,%s\"/></svg>",
                                           columns, rows, columns, rows, kind->type, coded);
  return read_svg (text, strlen (text), RSVG_HANDLE_FLAG_UNLIMITED, error);
}

int
main (int argc, char **argv)
{
  g_autoptr (GError) error = NULL;
  gint64 longest = 0;
  if (argc != 2 || !g_ascii_string_to_signed (argv[1], 10, 1, SW_UNDERLAY_LONGEST, &longest, NULL))
    {
      fprintf (stderr, "usage: soffit-underlay LONGEST-SIDE <DRAWING >PIXELS\n");
      return 2;
    }
  if (!limit_all ())
    return give_up ("the limits for drawing underlays cannot be set", "");
  g_autoptr (GBytes) input = read_input (&error);
  if (input == NULL)
    return give_up ("the drawing cannot be read", error->message);
  const struct Picture *kind = picture_kind (input);
  RsvgHandle *drawing = kind != NULL ? wrap_picture (input, kind, &error)
                                     : read_svg (g_bytes_get_data (input, NULL), g_bytes_get_size (input), RSVG_HANDLE_FLAGS_NONE, &error);
  if (drawing == NULL)
    return give_up (kind != NULL ? "this picture cannot be read" : "this is not an SVG drawing that can be read, nor a PNG or JPEG picture",
                    error->message);
  int result = draw (drawing, kind != NULL, (int) longest);
  g_object_unref (drawing);
  return result;
}
