/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sheets/cut_draw.h"
#include "support.h"
#include <string.h>

/* The texts of a plan's diagrams, joined by "|"; *rows: how many there are. */
static char *
draw (const SwCutTask *task, SwBox area, guint first, guint *drawn, guint *rows)
{
  GError *error = NULL;
  g_autoptr (SwCutPlan) plan = sw_cut_plan_new (task, NULL, &error);
  g_assert_no_error (error);
  g_autoptr (SwDisplay) display = sw_display_new ();
  g_autoptr (SwTextMeter) meter = sw_text_meter_new ();
  SwPen pen = sw_pen_new (display, meter, 1);
  const SwCutDrawing drawing = { plan, "L", NULL, NULL };
  *drawn = sw_cut_draw_ways (&pen, area, &drawing, first, NULL);
  sw_display_seal (display);
  *rows = sw_display_n_groups (display);
  g_autoptr (GArray) texts = sw_display_texts (display);
  GString *all = g_string_new ("|");
  for (guint i = 0; i < texts->len; i++)
    g_string_append_printf (all, "%s|", g_array_index (texts, SwDisplayText, i).text);
  return g_string_free (all, FALSE);
}

static SwCutTask *
bars (void)
{
  SwCutTask *task = sw_cut_task_new (FALSE, 1);
  sw_cut_task_add_stock (task, "", 3000, 0, 0);
  return task;
}

static const SwBox page = { { 0, 0 }, { 300, 200 } };

/* Three bars that stay whole share a row with a list; the one that is cut otherwise has its own, with marks below its pieces. */
static void
test_alike (void)
{
  guint drawn, rows;
  g_autoptr (SwCutTask) task = bars ();
  sw_cut_task_add_item (task, "R1 B", 3000, 0, 2, FALSE);
  sw_cut_task_add_item (task, "R2 W", 3000, 0, 1, FALSE);
  sw_cut_task_add_item (task, "R3 N", 1250, 0, 2, FALSE);
  g_autofree char *texts = draw (task, page, 0, &drawn, &rows);
  g_assert_cmpuint (drawn, ==, 3);
  g_assert_cmpuint (rows, ==, 2);
  g_assert_nonnull (strstr (texts, "|L1–L2:  3 × 3000|"));
  g_assert_nonnull (strstr (texts, "|L1:\302\240R1\302\240B\302\240(2×); L2:\302\240R2\302\240W|"));
  g_assert_nonnull (strstr (texts, "|L3:  1 × 3000|"));
  g_assert_nonnull (strstr (texts, "|R3 N|"));
}

static void
test_unmarked (void)
{
  guint drawn, rows;
  g_autoptr (SwCutTask) task = bars ();
  sw_cut_task_add_item (task, "", 3000, 0, 2, FALSE);
  sw_cut_task_add_item (task, "", 3000, 0, 3, FALSE);
  g_autofree char *texts = draw (task, page, 0, &drawn, &rows);
  g_assert_cmpuint (rows, ==, 1);
  g_assert_nonnull (strstr (texts, "5 × 3000|"));
  g_assert_null (strstr (texts, ";"));
}

/* 300 bars for as many places: their list is parted, and each page draws at least a row and no more than it holds. */
static void
test_pages (void)
{
  guint drawn, rows, first = 0, pages = 0;
  g_autoptr (SwCutTask) task = bars ();
  for (guint i = 0; i < 300; i++)
    {
      g_autofree char *mark = g_strdup_printf ("R%u B", i + 1);
      sw_cut_task_add_item (task, mark, 3000, 0, 1, FALSE);
    }
  const SwBox low = { { 0, 0 }, { 300, 120 } };
  for (; first < 300; first += drawn, pages++)
    {
      g_autofree char *texts = draw (task, low, first, &drawn, &rows);
      g_autofree char *begins = g_strdup_printf ("|L%u:\302\240R%u\302\240B", first + 1, first + 1);
      g_assert_nonnull (strstr (texts, begins));
      g_assert_cmpuint (drawn, >, 0);
    }
  g_assert_cmpuint (first, ==, 300);
  g_assert_cmpuint (pages, ==, 2);
}

/* A saw on site is set to whole millimetres: what goes between walls is read no longer than it is, a list of sizes as it was written. */
static void
test_sizes (void)
{
  g_autoptr (SwCutTask) task = sw_cut_task_new (TRUE, 10);
  g_autofree char *written = sw_cut_size_text (task, 6227, 12000, SW_LENGTHS_MM);
  g_assert_cmpstr (written, ==, "622.7 × 1200");
  task->on_site = TRUE;
  g_autofree char *cut = sw_cut_size_text (task, 6227, 12000, SW_LENGTHS_MM), *inches = sw_cut_size_text (task, 6227, 12192, SW_LENGTHS_FT_IN);
  g_assert_cmpstr (cut, ==, "622 × 1200");
  g_assert_cmpstr (inches, ==, "2' 0 1/2\" × 4' 0\""); /* 392.25 sixteenths; 768 */
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/cut-draw/sizes", test_sizes);
  g_test_add_func ("/cut-draw/alike", test_alike);
  g_test_add_func ("/cut-draw/unmarked", test_unmarked);
  g_test_add_func ("/cut-draw/pages", test_pages);
  return g_test_run ();
}
