/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/page.h"
#include "support.h"
#include <glib/gstdio.h>
#include <string.h>

static SwDisplay *
sample (const SwPage *page)
{
  SwDisplay *d = sw_display_new ();
  sw_page_add_frame (d, page);
  sw_display_add_text (d, (SwPoint){ 60, 60 }, "Stopcock level 2,715", &(SwTextStyle){ .height = 3.5, .halo = TRUE });
  sw_display_seal (d);
  return d;
}

/* Source: ISO 216. */
static void
test_sizes (void)
{
  const struct { const char *name; double side, other; } sizes[] = { { "A4", 210, 297 }, { "a3", 297, 420 }, { "A2", 420, 594 }, { "A1", 594, 841 } };
  for (gsize i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      SwPage page = { .upright = TRUE };
      g_assert_true (sw_paper_find (sizes[i].name, &page.paper));
      sw_assert_near (sw_page_size (&page).x, sizes[i].side, 0);
      sw_assert_near (sw_page_size (&page).y, sizes[i].other, 0);
      page.upright = FALSE;
      sw_assert_near (sw_page_size (&page).x, sizes[i].other, 0);
      SwBox frame = sw_page_frame (&page);
      sw_assert_near (frame.low.x, 20, 0);
      sw_assert_near (frame.high.x, sizes[i].other - 10, 0);
    }
  SwPaper paper;
  g_assert_false (sw_paper_find ("A7", &paper));
}

static char *
pdf_words (const char *path, guint *n_pages)
{
  g_autofree char *program = g_find_program_in_path ("pdftotext");
  char *words = NULL;
  if (program == NULL)
    {
      g_test_skip ("pdftotext is not installed");
      return NULL;
    }
  const char *const arguments[] = { program, path, "-", NULL };
  g_assert_true (g_spawn_sync (NULL, (char **) arguments, NULL, G_SPAWN_DEFAULT, NULL, NULL, &words, NULL, NULL, NULL));
  *n_pages = 0;
  for (const char *at = words; *at != '\0'; at++)
    *n_pages += *at == '\f';
  return words;
}

static void
test_pdf (void)
{
  SwPage page = { SW_PAPER_A3, .title = "Services plan" };
  g_autoptr (SwDisplay) d = sample (&page);
  const SwSheetPage sheets[] = { { d, page }, { d, { SW_PAPER_A4, .upright = TRUE, .title = "Section ü" } }, { d, page } };
  g_autofree char *folder = sw_test_folder ();
  g_autofree char *path = g_build_filename (folder, "set.pdf", NULL);
  GError *error = NULL;
  g_assert_true (sw_page_export_pdf (sheets, 3, path, &error));
  g_assert_no_error (error);
  guint n_pages;
  g_autofree char *words = pdf_words (path, &n_pages);
  if (words == NULL)
    return;
  g_assert_cmpuint (n_pages, ==, 3);
  g_assert_nonnull (strstr (words, "Stopcock level 2,715"));
}

/* The same page gives the same bytes at any time of day, and a date when it is given one. */
static void
test_pdf_same_bytes (void)
{
  SwPage page = { SW_PAPER_A4, .title = "Plan" };
  g_autoptr (SwDisplay) d = sample (&page);
  g_autoptr (GBytes) a = sw_page_write (d, &page, SW_PAGE_PDF, NULL);
  g_usleep (1100000);
  g_autoptr (GBytes) b = sw_page_write (d, &page, SW_PAGE_PDF, NULL);
  g_assert_true (g_bytes_equal (a, b));
  page.date = "2026-01-31T12:00:00Z";
  g_autoptr (GBytes) dated = sw_page_write (d, &page, SW_PAGE_PDF, NULL);
  gsize length;
  const char *data = g_bytes_get_data (dated, &length);
  g_assert_nonnull (memmem (data, length, "20260131120000Z", 15));
}

static void
test_png (void)
{
  SwPage page = { SW_PAPER_A4, .dpi = 254 };
  g_autoptr (SwDisplay) d = sample (&page);
  g_autofree char *folder = sw_test_folder ();
  g_autofree char *path = g_build_filename (folder, "sheet.png", NULL);
  GError *error = NULL;
  g_assert_true (sw_page_export (d, &page, SW_PAGE_PNG, path, &error));
  g_assert_no_error (error);
  cairo_surface_t *surface = cairo_image_surface_create_from_png (path); /* libpng refuses a wrong checksum */
  g_assert_cmpint (cairo_surface_status (surface), ==, CAIRO_STATUS_SUCCESS);
  g_assert_cmpint (cairo_image_surface_get_width (surface), ==, 2970);
  const guint8 *data = cairo_image_surface_get_data (surface);
  int stride = cairo_image_surface_get_stride (surface);
  g_assert_cmpint (data[1000 * stride + 198 * 4], <, 60);  /* the frame's left line at 20 mm */
  g_assert_cmpint (data[1000 * stride + 150 * 4], ==, 255);
  cairo_surface_destroy (surface);
  g_autofree char *bytes = NULL;
  g_file_get_contents (path, &bytes, NULL, NULL);
  const guint8 size[] = { 'p', 'H', 'Y', 's', 0, 0, 0x27, 0x10, 0, 0, 0x27, 0x10, 1 }; /* 10,000 px a metre */
  g_assert_true (memcmp (bytes + 37, size, sizeof size) == 0);
}

static void
test_png_too_large (void)
{
  SwPage page = { SW_PAPER_A1, .dpi = 1200 };
  g_autoptr (SwDisplay) d = sample (&page);
  GError *error = NULL;
  g_assert_false (sw_page_export (d, &page, SW_PAGE_PNG, "/tmp/never-written.png", &error));
  sw_assert_error (error, SW_ERROR_LIMIT, "never-written.png\": a picture of A1");
  page.dpi = NAN;
  page.paper = SW_PAPER_A4;
  g_autoptr (GBytes) usual = sw_page_write (d, &page, SW_PAGE_PNG, NULL);
  g_assert_nonnull (usual);
}

/* A file that cannot be written stays as it was. */
static void
test_replace (void)
{
  SwPage page = { SW_PAPER_A4 };
  g_autoptr (SwDisplay) d = sample (&page);
  g_autofree char *folder = sw_test_folder ();
  g_autofree char *missing = g_build_filename (folder, "none", "plan.svg", NULL);
  GError *error = NULL;
  g_assert_false (sw_page_export (d, &page, SW_PAGE_SVG, missing, &error));
  sw_assert_error (error, SW_ERROR_IO, "plan.svg");
  g_assert_false (sw_page_export (d, &page, SW_PAGE_SVG, folder, &error));
  sw_assert_error (error, SW_ERROR_IO, "cannot write");

  g_autofree char *path = g_build_filename (folder, "plan.svg", NULL);
  g_file_set_contents (path, "old", -1, NULL);
  page.dpi = 1e9;
  g_assert_false (sw_page_export (d, &page, SW_PAGE_PNG, path, &error));
  sw_assert_error (error, SW_ERROR_LIMIT, "plan.svg");
  g_autofree char *kept = NULL;
  g_file_get_contents (path, &kept, NULL, NULL);
  g_assert_cmpstr (kept, ==, "old");
  g_assert_true (sw_page_export (d, &page, SW_PAGE_SVG, path, &error));
  g_assert_no_error (error);
  g_autofree char *now = NULL;
  g_file_get_contents (path, &now, NULL, NULL);
  g_assert_true (g_str_has_prefix (now, "<?xml"));
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint n = 0;
  while (g_dir_read_name (dir) != NULL)
    n++;
  g_assert_cmpuint (n, ==, 1); /* nothing half written beside it */
}

static void
test_format (void)
{
  SwPageFormat format;
  GError *error = NULL;
  g_assert_true (sw_page_format_find ("a/plan.v2.PDF", &format, NULL) && format == SW_PAGE_PDF);
  g_assert_true (sw_page_format_find ("plan.svg", &format, NULL) && format == SW_PAGE_SVG);
  g_assert_false (sw_page_format_find ("plan.dwg", &format, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "plan.dwg");
  g_assert_false (sw_page_format_find ("plan", &format, &error));
  sw_assert_error (error, SW_ERROR_INVALID, ".svg, .pdf or .png");
}

/* The preview of a page at any zoom has the detail that prints. */
static void
test_preview_detail (void)
{
  SwPage page = { SW_PAPER_A3 };
  g_autoptr (SwDisplay) d = sw_display_new ();
  sw_display_begin_transform (d, sw_transform_view ((SwPoint){ 0, 0 }, (SwPoint){ 100, 100 }, 0.02, 0, FALSE));
  const double least[] = { 0.05, 0.11, 0.13, 0.5 }; /* px per mm of the plan; 6 on paper are 0.12 */
  for (gsize i = 0; i < G_N_ELEMENTS (least); i++)
    {
      sw_display_set_detail (d, least[i], INFINITY);
      sw_display_add_circle (d, (SwPoint){ 0, 0 }, 500, NULL, &(SwStroke){ .width = 0.25 });
    }
  sw_display_seal (d);
  for (double zoom = 0.3; zoom < 40; zoom *= 3)
    {
      SwDrawView view = sw_page_view_at (&page, (SwTransform){ zoom, 0, 0, -zoom, 0, 297 * zoom });
      guint n;
      g_autofree guint32 *list = sw_draw_list (d, &view, (SwBox){ { 0, 0 }, { 420 * zoom, 297 * zoom } }, &n);
      g_assert_nonnull (list);
      g_assert_cmpuint (n, ==, 2);
    }
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/drawing/page/sizes", test_sizes);
  g_test_add_func ("/drawing/page/pdf", test_pdf);
  g_test_add_func ("/drawing/page/pdf-same-bytes", test_pdf_same_bytes);
  g_test_add_func ("/drawing/page/png", test_png);
  g_test_add_func ("/drawing/page/png-too-large", test_png_too_large);
  g_test_add_func ("/drawing/page/replace", test_replace);
  g_test_add_func ("/drawing/page/format", test_format);
  g_test_add_func ("/drawing/page/preview-detail", test_preview_detail);
  return g_test_run ();
}
