/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sheets/report.h"
#include "sample.h"
#include <glib/gstdio.h>

static void
count_progress (double done, gpointer data)
{
  double *last = data;
  g_assert_cmpfloat (done, >, *last);
  *last = done;
}

static void
test_report (SwSheetSample *sample, gconstpointer unused)
{
  GError *error = NULL;
  double last = 0;
  g_autofree char *root = sw_test_folder (), *folder = g_build_filename (root, "new", "papers", NULL);
  g_auto (GStrv) written = sw_sheets_export_all (&sample->context, folder, SW_REPORT_SVG | SW_REPORT_CSV | SW_REPORT_SET, count_progress, &last, NULL, &error);
  g_assert_no_error (error);
  sw_assert_near (last, 1, 1e-12);
  for (guint i = 0; written[i] != NULL; i++)
    {
      GStatBuf about;
      g_assert_cmpint (g_stat (written[i], &about), ==, 0);
      g_assert_cmpint (about.st_size, >, 100);
    }
  static const char *const names[] = { "sheet-long-section-R1.svg", "sheet-long-section-R2.svg", "schedule-conduits.csv", "sheets.pdf" };
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *path = g_build_filename (folder, names[i], NULL);
      g_assert_true (g_strv_contains ((const char *const *) written, path));
    }
}

static void
test_report_fails (SwSheetSample *sample, gconstpointer unused)
{
  GError *error = NULL;
  g_autofree char *root = sw_test_folder (), *file = g_build_filename (root, "file", NULL), *below = g_build_filename (file, "papers", NULL);
  g_assert_true (g_file_set_contents (file, "x", -1, NULL));
  g_assert_null (sw_sheets_export_all (&sample->context, below, SW_REPORT_CSV, NULL, NULL, NULL, &error));
  sw_assert_error (error, SW_ERROR_IO, "papers");
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_cancellable_cancel (cancellable);
  g_assert_null (sw_sheets_export_all (&sample->context, root, SW_REPORT_SVG, NULL, NULL, cancellable, &error));
  sw_assert_error (error, SW_ERROR_CANCELLED, "cancelled");
}

static void
test_safe_names (void)
{
  static const struct { const char *text, *name; } names[] = {
    { "R1", "R1" }, { "../../etc/passwd", "etc-passwd" }, { "a b/c:d", "a-b-c-d" }, { "", "" }, { "…", "" }, { ".hidden", "hidden" }, { "x.", "x" }, { "K\xc3\xbc" "che 2", "K-che-2" },
  };
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *name = sw_sheets_safe_name (names[i].text);
      g_assert_cmpstr (name, ==, names[i].name);
    }
}

/* What is written is said: a drawing of several pages is a file a page, but one PDF; a list is one file. */
static void
test_written (void)
{
  const struct { const char *path; guint n; const char *text; } cases[] = {
    { "/tmp/day.png", 13, "Written: /tmp/day-1.png to day-13.png, a file a page" }, { "/tmp/day.png", 1, "Written: /tmp/day.png" },
    { "/tmp/day.pdf", 13, "Written: /tmp/day.pdf" }, { "/tmp/day.csv", 13, "Written: /tmp/day.csv" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = sw_sheets_written_text (cases[i].path, cases[i].n);
      g_assert_cmpstr (text, ==, cases[i].text);
    }
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
#define ADD(name, function) g_test_add ("/sheets/report/" name, SwSheetSample, NULL, sw_sheet_sample_open, function, sw_sheet_sample_close)
  g_test_add_func ("/sheets/report/safe-names", test_safe_names);
  g_test_add_func ("/sheets/report/written", test_written);
  ADD ("writes-all", test_report);
  ADD ("fails", test_report_fails);
  return g_test_run ();
}
