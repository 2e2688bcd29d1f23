/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sheets/plan_sheet.h"
#include "space/sample.h"
#include "support.h"
#include <string.h>

static void
only_text (GMarkupParseContext *parse, const char *element, const char **names, const char **values, gpointer data, GError **error)
{
  *(guint *) data += strcmp (element, "text") == 0;
}

/* Every sheet of a small job is an SVG document with text that stays text, and is the same a second time. */
static void
test_sheets (void)
{
  GError *error = NULL;
  SwSample sample = sw_sample_new (6000, 4200, 0);
  g_autoptr (SwDeck) deck = sw_deck_new (sample.job);
  g_autoptr (SwRules) rules = sw_rules_load ("south-africa", NULL, &error);
  g_assert_no_error (error);
  SwSheetContext context = { deck, rules };
  for (guint i = 0; i < sw_plan_sheets_n (); i++)
    {
      SwPage page;
      guint texts = 0;
      const GMarkupParser parser = { .start_element = only_text };
      g_autoptr (SwDisplay) display = sw_plan_sheet_draw (&context, sw_plan_sheets_get (i), &page);
      g_autoptr (GBytes) svg = sw_page_write (display, &page, SW_PAGE_SVG, &error);
      g_assert_no_error (error);
      g_autoptr (GMarkupParseContext) parse = g_markup_parse_context_new (&parser, 0, &texts, NULL);
      g_markup_parse_context_parse (parse, g_bytes_get_data (svg, NULL), (gssize) g_bytes_get_size (svg), &error);
      g_assert_no_error (error);
      g_assert_cmpuint (texts, >, 8);
      g_autoptr (SwDisplay) again = sw_plan_sheet_draw (&context, sw_plan_sheets_get (i), &page);
      g_autoptr (GBytes) same = sw_page_write (again, &page, SW_PAGE_SVG, &error);
      g_assert_true (g_bytes_equal (svg, same));
    }
  sw_sample_clear (&sample);
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/sheets/plan-sheet/all", test_sheets);
  return g_test_run ();
}
