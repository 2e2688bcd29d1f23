/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "store/underlay.h"
#include "support.h"
#include <cairo.h>
#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define SVG "<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" "
#define RED 0xffff0000u
#define BLUE 0xff0000ffu

static char *
write_drawing (const char *text, gssize length)
{
  g_autofree char *folder = sw_test_folder ();
  char *path = g_build_filename (folder, "plan.svg", NULL);
  g_assert_true (g_file_set_contents (path, text, length, NULL));
  return path;
}

static guint32
pixel (const SwUnderlayImage *image, int column, int row)
{
  guint32 value;
  memcpy (&value, image->pixels + ((gsize) row * (gsize) image->columns + (gsize) column) * 4, sizeof value);
  return value;
}

static SwUnderlayImage *
draw_good (const char *text, int longest)
{
  GError *error = NULL;
  g_autofree char *path = write_drawing (text, -1);
  SwUnderlayImage *image = sw_underlay_draw (path, longest, NULL, &error);
  g_assert_no_error (error);
  return image;
}

/* It must be refused within the 10 s that a user may be made to wait; some slack for a busy machine. */
static void
expect_refusal (const char *path, int code, const char *part)
{
  GError *error = NULL;
  gint64 began = g_get_monotonic_time ();
  SwUnderlayImage *image = sw_underlay_draw (path, 800, NULL, &error);
  double took_s = (double) (g_get_monotonic_time () - began) / G_TIME_SPAN_SECOND;
  g_test_message ("%.2f s: %s", took_s, error != NULL ? error->message : "drawn");
  g_assert_null (image);
  sw_assert_error (error, code, part);
  g_assert_cmpfloat (took_s, <, 10.5);
}

static void
test_good (void)
{
  static const char text[] = SVG "width=\"200\" height=\"100\"><rect width=\"100\" height=\"100\" fill=\"#f00\"/><rect x=\"100\" width=\"100\" height=\"50\" fill=\"#00f\"/></svg>";
  g_autoptr (SwUnderlayImage) image = draw_good (text, 50);
  g_assert_nonnull (image);
  g_assert_cmpfloat (image->width, ==, 200);
  g_assert_cmpfloat (image->height, ==, 100);
  g_assert_cmpint (image->columns, ==, 50);
  g_assert_cmpint (image->rows, ==, 25);
  g_assert_cmphex (pixel (image, 5, 20), ==, RED);
  g_assert_cmphex (pixel (image, 45, 5), ==, BLUE);
  g_assert_cmphex (pixel (image, 45, 20), ==, 0);
  g_autofree char *wanted = g_compute_checksum_for_string (G_CHECKSUM_SHA256, text, -1);
  g_assert_cmpstr (image->sha256, ==, wanted);
}

/* CSS: an inch is 96 pixels, 25.4 mm; without a size the view box gives it. */
static void
test_sizes (void)
{
  static const struct { const char *attributes; double width, height; int columns, rows; } cases[] = {
    { "width=\"254mm\" height=\"127mm\"", 960, 480, 100, 50 },
    { "width=\"1in\" height=\"2in\" viewBox=\"0 0 7 7\"", 96, 192, 50, 100 },
    { "viewBox=\"-5 -5 3000 1500\"", 3000, 1500, 100, 50 },
    { "width=\"100%\" height=\"100%\" viewBox=\"0 0 10 10\"", 10, 10, 100, 100 },
    { "width=\"1000000\" height=\"1\"", 1000000, 1, 100, 1 },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = g_strdup_printf (SVG "%s><rect width=\"1\" height=\"1\"/></svg>", cases[i].attributes);
      g_autoptr (SwUnderlayImage) image = draw_good (text, 100);
      g_assert_nonnull (image);
      sw_assert_near (image->width, cases[i].width, 1e-6);
      sw_assert_near (image->height, cases[i].height, 1e-6);
      g_assert_cmpint (image->columns, ==, cases[i].columns);
      g_assert_cmpint (image->rows, ==, cases[i].rows);
    }
}

static void
test_largest (void)
{
  g_autoptr (SwUnderlayImage) image = draw_good (SVG "width=\"10\" height=\"10\"><rect width=\"10\" height=\"10\" fill=\"#f00\"/></svg>", 100000);
  g_assert_nonnull (image);
  g_assert_cmpint (image->columns, ==, 4096);
  g_assert_cmphex (pixel (image, 4095, 4095), ==, RED);
}

static void
test_not_drawings (void)
{
  static const struct { const char *text; const char *part; } cases[] = {
    { "", "plan.svg: this is not an SVG drawing that can be read" },
    { "hello", "not an SVG drawing" },
    { "{\"format\": \"soffit-job\"}", "not an SVG drawing" },
    { "<html><body/></html>", "" },
    { SVG "width=\"10\" height=\"10\"><rect", "not an SVG drawing" },
    { SVG "/>", "has no size" },
    { SVG "width=\"1e9\" height=\"10\"/>", "has no size" },
    { SVG "width=\"nan\" height=\"10\"/>", "" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *path = write_drawing (cases[i].text, -1);
      expect_refusal (path, SW_ERROR_INVALID, cases[i].part);
    }
  g_autofree char *gif = write_drawing ("GIF89a", 6);
  expect_refusal (gif, SW_ERROR_INVALID, "nor a PNG or JPEG picture");
}

/* A picture that cairo wrote; of the JPEG there is a header only, by ISO/IEC 10918-1. */
static void
test_pictures (void)
{
  GError *error = NULL;
  g_autofree char *folder = sw_test_folder (), *path = g_build_filename (folder, "scan.png", NULL), *bytes = NULL;
  gsize n;
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 300, 150);
  cairo_t *cr = cairo_create (surface);
  cairo_set_source_rgb (cr, 1, 0, 0);
  cairo_paint (cr);
  cairo_set_source_rgb (cr, 0, 0, 1);
  cairo_rectangle (cr, 150, 0, 150, 150);
  cairo_fill (cr);
  g_assert_cmpint (cairo_surface_write_to_png (surface, path), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  g_autoptr (SwUnderlayImage) image = sw_underlay_draw (path, 100, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpfloat (image->width, ==, 300);
  g_assert_cmpfloat (image->height, ==, 150);
  g_assert_cmpint (image->columns, ==, 100);
  g_assert_cmpint (image->rows, ==, 50);
  g_assert_cmphex (pixel (image, 10, 25), ==, RED);
  g_assert_cmphex (pixel (image, 90, 25), ==, BLUE);

  g_assert_true (g_file_get_contents (path, &bytes, &n, NULL));
  g_autofree char *half = write_drawing (bytes, 60), *none = write_drawing (bytes, 16);
  expect_refusal (none, SW_ERROR_INVALID, "this picture cannot be read");
  g_assert_true (g_file_set_contents (half, bytes, 60, NULL));
  expect_refusal (half, SW_ERROR_INVALID, "this picture cannot be read");
  memcpy (bytes + 16, "\0\1\0\0\0\1\0\0", 8);
  g_assert_true (g_file_set_contents (half, bytes, (gssize) n, NULL));
  expect_refusal (half, SW_ERROR_INVALID, "65536 × 65536 pixels are more than");
  static const char jpeg[] = "\xff\xd8\xff\xe0\0\4\0\0\xff\xc0\0\13\10\0\20\0\40\1\1\21\0\xff\xd9";
  g_assert_true (g_file_set_contents (half, jpeg, sizeof jpeg - 1, NULL));
  expect_refusal (half, SW_ERROR_INVALID, "this picture cannot be read: it is damaged or empty");
}

static void
test_not_files (void)
{
  g_autofree char *folder = sw_test_folder (), *gone = g_build_filename (folder, "gone.svg", NULL), *fifo = g_build_filename (folder, "pipe.svg", NULL);
  expect_refusal (folder, SW_ERROR_INVALID, "not a file");
  expect_refusal (gone, SW_ERROR_NOT_FOUND, "gone.svg: cannot open the drawing");
  g_assert_cmpint (mkfifo (fifo, 0600), ==, 0);
  expect_refusal (fifo, SW_ERROR_INVALID, "not a file");
}

static void
test_huge_file (void)
{
  g_autofree char *path = write_drawing (SVG "width=\"10\" height=\"10\"><!--", -1);
  g_assert_cmpint (truncate (path, 100 << 20), ==, 0);
  expect_refusal (path, SW_ERROR_LIMIT, "larger than the 20 MB");
}

/* Each group draws the one before it ten times: 10^12 rectangles. */
static void
test_nested_use (void)
{
  GString *text = g_string_new (SVG "width=\"100\" height=\"100\"><defs><rect id=\"g0\" width=\"9\" height=\"9\"/>");
  for (int level = 1; level <= 12; level++)
    {
      g_string_append_printf (text, "<g id=\"g%d\">", level);
      for (int i = 0; i < 10; i++)
        g_string_append_printf (text, "<use xlink:href=\"#g%d\" x=\"%d\"/>", level - 1, i);
      g_string_append (text, "</g>");
    }
  g_string_append (text, "</defs><use xlink:href=\"#g12\"/></svg>");
  g_autofree char *path = write_drawing (text->str, (gssize) text->len);
  g_string_free (text, TRUE);
  GError *error = NULL;
  gint64 began = g_get_monotonic_time ();
  g_autoptr (SwUnderlayImage) image = sw_underlay_draw (path, 800, NULL, &error);
  g_assert_null (image);
  g_assert_true (g_error_matches (error, SW_ERROR, SW_ERROR_LIMIT) || g_error_matches (error, SW_ERROR, SW_ERROR_INVALID));
  g_test_message ("%s", error != NULL ? error->message : "drawn");
  g_clear_error (&error);
  g_assert_cmpint (g_get_monotonic_time () - began, <, 10500 * G_TIME_SPAN_MILLISECOND);
}

/* Groups in groups, each with a wide blur: every one needs a picture of its own. */
static void
test_filters (void)
{
  GString *text = g_string_new (SVG "width=\"4000\" height=\"4000\"><filter id=\"f\" x=\"-1\" y=\"-1\" width=\"3\" height=\"3\">");
  for (int i = 0; i < 60; i++)
    g_string_append_printf (text, "<feTurbulence baseFrequency=\"0.%02d\" numOctaves=\"50\"/><feMorphology radius=\"200\"/>", i + 1);
  g_string_append (text, "</filter>");
  for (int i = 0; i < 40; i++)
    g_string_append (text, "<g filter=\"url(#f)\">");
  g_string_append (text, "<rect width=\"4000\" height=\"4000\"/>");
  for (int i = 0; i < 40; i++)
    g_string_append (text, "</g>");
  g_string_append (text, "</svg>");
  g_autofree char *path = write_drawing (text->str, (gssize) text->len);
  g_string_free (text, TRUE);
  expect_refusal (path, SW_ERROR_LIMIT, "takes too long or too much memory");
}

static void
test_entities (void)
{
  GString *text = g_string_new ("<!DOCTYPE svg [<!ENTITY a0 \"ha\">");
  for (int i = 1; i <= 30; i++)
    g_string_append_printf (text, "<!ENTITY a%d \"&a%d;&a%d;&a%d;&a%d;&a%d;&a%d;&a%d;&a%d;&a%d;&a%d;\">", i, i - 1, i - 1, i - 1, i - 1, i - 1, i - 1, i - 1,
                            i - 1, i - 1, i - 1);
  g_string_append (text, "]>" SVG "width=\"100\" height=\"100\"><text>&a30;</text></svg>");
  g_autofree char *path = write_drawing (text->str, (gssize) text->len);
  g_string_free (text, TRUE);
  expect_refusal (path, SW_ERROR_INVALID, "not an SVG drawing");
}

/* A gigabyte of one letter, packed into a megabyte, is not what the limit of the file's size sees. */
static void
test_packed (void)
{
  g_autoptr (GZlibCompressor) packer = g_zlib_compressor_new (G_ZLIB_COMPRESSOR_FORMAT_GZIP, 9);
  g_autoptr (GOutputStream) memory = g_memory_output_stream_new_resizable ();
  g_autoptr (GOutputStream) packed = g_converter_output_stream_new (memory, G_CONVERTER (packer));
  g_autofree char *blank = g_strnfill (1 << 20, ' ');
  static const char start[] = SVG "width=\"10\" height=\"10\"><desc>";
  g_assert_true (g_output_stream_write_all (packed, start, sizeof start - 1, NULL, NULL, NULL));
  for (int i = 0; i < sw_test_rounds (1000); i++)
    g_assert_true (g_output_stream_write_all (packed, blank, 1 << 20, NULL, NULL, NULL));
  g_assert_true (g_output_stream_close (packed, NULL, NULL));
  GMemoryOutputStream *bytes = G_MEMORY_OUTPUT_STREAM (memory);
  g_autofree char *path = write_drawing (g_memory_output_stream_get_data (bytes), (gssize) g_memory_output_stream_get_data_size (bytes));
  GError *error = NULL;
  gint64 began = g_get_monotonic_time ();
  g_autoptr (SwUnderlayImage) image = sw_underlay_draw (path, 10, NULL, &error);
  g_test_message ("%s", error != NULL ? error->message : "drawn");
  g_assert_null (image);
  g_assert_true (error != NULL && error->domain == SW_ERROR);
  g_clear_error (&error);
  g_assert_cmpint (g_get_monotonic_time () - began, <, 10500 * G_TIME_SPAN_MILLISECOND);
}

/* A server on this machine that must not be asked. */
static GSocketListener *
listen_here (guint16 *port)
{
  GSocketListener *listener = g_socket_listener_new ();
  g_autoptr (GInetAddress) here = g_inet_address_new_loopback (G_SOCKET_FAMILY_IPV4);
  g_autoptr (GSocketAddress) address = g_inet_socket_address_new (here, 0), bound = NULL;
  g_assert_true (g_socket_listener_add_address (listener, address, G_SOCKET_TYPE_STREAM, G_SOCKET_PROTOCOL_TCP, NULL, &bound, NULL));
  *port = g_inet_socket_address_get_port (G_INET_SOCKET_ADDRESS (bound));
  return listener;
}

static void
count_visit (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (GSocketConnection) visit = g_socket_listener_accept_finish (G_SOCKET_LISTENER (source), result, NULL, NULL);
  *(int *) data += visit != NULL;
}

/* Pictures, style sheets, entities and references outside: a readable file beside it, a pipe on which opening would wait
 * and be seen, and a server. The drawing appears without them. */
static void
test_nothing_fetched (void)
{
  static const char *const forms[] = {
    "<image xlink:href=\"%s\" width=\"100\" height=\"100\"/>",
    "<use xlink:href=\"%s#r\"/>",
    "<style>@import url('%s');</style>",
    "<rect width=\"100\" height=\"100\" fill=\"url(%s#r)\"/>",
    "<filter id=\"f\"><feImage xlink:href=\"%s\"/></filter><rect filter=\"url(#f)\" width=\"100\" height=\"100\" opacity=\"0\"/>",
    "<xi:include xmlns:xi=\"http://www.w3.org/2001/XInclude\" href=\"%s\" parse=\"xml\"/>",
  };
  g_autofree char *folder = sw_test_folder (), *other = g_build_filename (folder, "other.svg", NULL), *fifo = g_build_filename (folder, "pipe.svg", NULL);
  g_autofree char *plan = g_build_filename (folder, "plan.svg", NULL);
  g_assert_true (g_file_set_contents (other, SVG "width=\"100\" height=\"100\"><rect id=\"r\" width=\"100\" height=\"100\" fill=\"#f00\"/></svg>", -1, NULL));
  g_assert_cmpint (mkfifo (fifo, 0600), ==, 0);
  guint16 port = 0;
  int visits = 0;
  g_autoptr (GSocketListener) server = listen_here (&port);
  g_autoptr (GCancellable) stop = g_cancellable_new ();
  g_socket_listener_accept_async (server, stop, count_visit, &visits);
  char *places[] = { g_strdup ("other.svg"), g_strdup_printf ("file://%s", other), g_strdup (other), g_strdup_printf ("file://%s", fifo),
                                g_strdup_printf ("http://127.0.0.1:%u/other.svg", port), NULL };
  for (gsize i = 0; i < G_N_ELEMENTS (forms); i++)
    for (guint k = 0; places[k] != NULL; k++)
      {
        if (!sw_test_is_full () && k != i % 5)
          continue;
        GError *error = NULL;
        g_autofree char *inside = g_strdup_printf (forms[i], places[k]);
        g_autofree char *text = g_strdup_printf ("<!DOCTYPE svg [<!ENTITY e SYSTEM \"%s\">]>" SVG "width=\"100\" height=\"100\">%s<text>&e;</text>"
                                                 "<rect x=\"90\" y=\"90\" width=\"10\" height=\"10\" fill=\"#00f\"/></svg>", places[k], inside);
        g_assert_true (g_file_set_contents (plan, text, -1, NULL));
        g_autoptr (SwUnderlayImage) image = sw_underlay_draw (plan, 100, NULL, &error);
        /* A helper that opened the pipe would have waited there; one that did not wait would still be reading it. */
        g_assert_cmpint (open (fifo, O_WRONLY | O_NONBLOCK | O_CLOEXEC), ==, -1);
        g_assert_cmpint (errno, ==, ENXIO);
        if (image != NULL)
          {
            g_assert_cmphex (pixel (image, 95, 95), ==, BLUE);
            g_assert_cmphex (pixel (image, 50, 50), !=, RED);
          }
        else
          g_assert_error (error, SW_ERROR, SW_ERROR_INVALID);
        g_clear_error (&error);
      }
  while (g_main_context_iteration (NULL, FALSE))
    ;
  g_assert_cmpint (visits, ==, 0);
  g_cancellable_cancel (stop);
  while (g_main_context_iteration (NULL, FALSE))
    ;
  for (char **place = places; *place != NULL; place++)
    g_free (*place);
}

static gpointer
cancel_soon (gpointer data)
{
  g_usleep (200000);
  g_cancellable_cancel (data);
  return NULL;
}

static void
test_cancel (void)
{
  GError *error = NULL;
  GString *text = g_string_new (SVG "width=\"4000\" height=\"4000\"><filter id=\"f\"><feTurbulence numOctaves=\"900\"/></filter>");
  for (int i = 0; i < 100; i++)
    g_string_append (text, "<rect width=\"4000\" height=\"4000\" filter=\"url(#f)\"/>");
  g_string_append (text, "</svg>");
  g_autofree char *path = write_drawing (text->str, (gssize) text->len);
  g_string_free (text, TRUE);
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  gint64 began = g_get_monotonic_time ();
  GThread *thread = g_thread_new ("cancel", cancel_soon, cancellable);
  g_assert_null (sw_underlay_draw (path, 4000, cancellable, &error));
  sw_assert_error (error, SW_ERROR_CANCELLED, "cancelled");
  g_assert_cmpint (g_get_monotonic_time () - began, <, 4 * G_TIME_SPAN_SECOND);
  g_thread_join (thread);
}

static void
test_no_helper (void)
{
  GError *error = NULL;
  g_autofree char *folder = sw_test_folder (), *fake = g_build_filename (folder, "soffit-underlay", NULL);
  g_autofree char *path = write_drawing (SVG "width=\"10\" height=\"10\"/>", -1);
  static const char *const scripts[] = { "#!/bin/sh\nexit 0\n", "#!/bin/sh\nprintf SWunder1\n", "#!/bin/sh\nyes | head -c 100000\n" };
  g_assert_true (g_setenv ("SOFFITWRIGHT_HELPERS", folder, TRUE));
  for (gsize i = 0; i < G_N_ELEMENTS (scripts); i++)
    {
      g_assert_true (g_file_set_contents (fake, scripts[i], -1, NULL));
      g_assert_cmpint (g_chmod (fake, 0700), ==, 0);
      g_assert_null (sw_underlay_draw (path, 10, NULL, &error));
      sw_assert_error (error, SW_ERROR_INTERNAL, "gave no picture");
    }
  g_unsetenv ("SOFFITWRIGHT_HELPERS");
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/store/underlay/good", test_good);
  g_test_add_func ("/store/underlay/sizes", test_sizes);
  g_test_add_func ("/store/underlay/largest", test_largest);
  g_test_add_func ("/store/underlay/not-drawings", test_not_drawings);
  g_test_add_func ("/store/underlay/pictures", test_pictures);
  g_test_add_func ("/store/underlay/not-files", test_not_files);
  g_test_add_func ("/store/underlay/huge-file", test_huge_file);
  g_test_add_func ("/store/underlay/entities", test_entities);
  if (sw_test_is_full ()) /* they are stopped only when their time is over */
    {
      g_test_add_func ("/store/underlay/nested-use", test_nested_use);
      g_test_add_func ("/store/underlay/filters", test_filters);
      g_test_add_func ("/store/underlay/packed", test_packed);
    }
  g_test_add_func ("/store/underlay/nothing-fetched", test_nothing_fetched);
  g_test_add_func ("/store/underlay/cancel", test_cancel);
  g_test_add_func ("/store/underlay/no-helper", test_no_helper);
  return g_test_run ();
}
