/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/csv.h"
#include "support.h"

static char *
one_cell (const char *text)
{
  g_autoptr (SwCsv) csv = sw_csv_new ();
  sw_csv_add_text (csv, text);
  return sw_csv_text (csv);
}

/* Source: RFC 4180, section 2, rules 5 to 7. */
static void
test_quotes (void)
{
  const struct { const char *text, *cell; } cells[] = {
    { "plain", "plain" }, { "", "" }, { "a,b", "\"a,b\"" }, { "say \"so\"", "\"say \"\"so\"\"\"" }, { "two\nlines", "\"two\nlines\"" },
    { "two\r\nlines", "\"two\r\nlines\"" }, { " blank", "\" blank\"" }, { "ß№😀", "ß№😀" }, { "a;b", "\"a;b\"" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cells); i++)
    {
      g_autofree char *cell = one_cell (cells[i].text);
      g_assert_cmpstr (cell, ==, cells[i].cell);
    }
  g_autofree char *nothing = one_cell (NULL), *broken = one_cell ("a\xff");
  g_assert_cmpstr (nothing, ==, "");
  g_assert_cmpstr (broken, ==, "a\xef\xbf\xbd");
}

/* Source: OWASP, "CSV injection": cells that start with one of these are taken for formulas. */
static void
test_formulas (void)
{
  const struct { const char *text, *cell; } cells[] = {
    { "=1+1", "'=1+1" }, { "+27 11", "'+27 11" }, { "-1 bar", "'-1 bar" }, { "@sum", "'@sum" }, { "\tx", "\"'\tx\"" }, { "\rx", "\"'\rx\"" },
    { "\nx", "\"'\nx\"" }, { "=a,b", "\"'=a,b\"" }, { "\xef\xbc\x9d" "1", "'\xef\xbc\x9d" "1" }, { "1=1", "1=1" }, { "'=1", "''=1" }, { "'tis", "'tis" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cells); i++)
    {
      g_autofree char *cell = one_cell (cells[i].text);
      g_assert_cmpstr (cell, ==, cells[i].cell);
    }
}

static void
test_rows (void)
{
  g_autoptr (SwCsv) csv = sw_csv_new ();
  sw_csv_add_text (csv, "name");
  sw_csv_add_text (csv, "");
  sw_csv_end_row (csv);
  sw_csv_add_number (csv, "-12.50");
  sw_csv_add_number (csv, "7");
  sw_csv_end_row (csv);
  g_autofree char *text = sw_csv_text (csv);
  g_assert_cmpstr (text, ==, "name,\r\n-12.50,7\r\n");
}

static void
test_no_false_numbers (void)
{
  static const char *const wrong[] = { "", "-", "1,5", "=1", "1e5", "--1", "1.2.3", ".5" };
  if (g_test_subprocess ())
    {
      g_autoptr (SwCsv) csv = sw_csv_new ();
      sw_csv_add_number (csv, wrong[g_ascii_strtoull (g_getenv ("WRONG_NUMBER"), NULL, 10)]);
      return;
    }
  for (gsize i = 0; i < G_N_ELEMENTS (wrong); i++)
    {
      char index[8];
      g_snprintf (index, sizeof index, "%u", (guint) i);
      g_setenv ("WRONG_NUMBER", index, TRUE);
      g_test_trap_subprocess (NULL, 0, G_TEST_SUBPROCESS_DEFAULT);
      g_test_trap_assert_failed ();
    }
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/base/csv/quotes", test_quotes);
  g_test_add_func ("/base/csv/formulas", test_formulas);
  g_test_add_func ("/base/csv/rows", test_rows);
  g_test_add_func ("/base/csv/no-false-numbers", test_no_false_numbers);
  return g_test_run ();
}
