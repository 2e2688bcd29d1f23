/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The program "soffit-underlay": draws the SVG on its standard input into pixels on its standard output, and knows nothing
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

static int
draw (RsvgHandle *drawing, int longest)
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
  int result = drawn ? write_picture (surface, &head)
                     : give_up ("this drawing cannot be drawn", error != NULL ? error->message : "");
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  return result;
}

int
main (int argc, char **argv)
{
  g_autoptr (GError) error = NULL;
  gint64 longest = 0;
  if (argc != 2 || !g_ascii_string_to_signed (argv[1], 10, 1, SW_UNDERLAY_LONGEST, &longest, NULL))
    {
      fprintf (stderr, "usage: soffit-underlay LONGEST-SIDE <DRAWING.svg >PIXELS\n");
      return 2;
    }
  if (!limit_all ())
    return give_up ("the limits for drawing underlays cannot be set", "");
  g_autoptr (GInputStream) input = g_unix_input_stream_new (STDIN_FILENO, FALSE);
  RsvgHandle *drawing = rsvg_handle_new_from_stream_sync (input, NULL, RSVG_HANDLE_FLAGS_NONE, NULL, &error);
  if (drawing == NULL)
    return give_up ("this is not an SVG drawing that can be read", error->message);
  int result = draw (drawing, (int) longest);
  g_object_unref (drawing);
  return result;
}
