/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/csv_read.h"
#include "base/csv.h"
#include "base/random.h"
#include "support.h"
#include <string.h>

static void
assert_cells (const SwCsvFile *file, guint row, const char *const *cells)
{
  for (guint i = 0; i < sw_csv_file_n_columns (file); i++)
    g_assert_cmpstr (sw_csv_file_cell (file, row, i), ==, cells[i]);
}

/* Source: RFC 4180, section 2, rules 1 to 7; lines ended by LF alone are what most tools write. */
static void
test_good (void)
{
  const char *const texts[] = {
    "a,b,c\r\n\"1,5\",\"say \"\"so\"\"\",\"two\r\nlines\"\r\n,\"\",x\r\n",
    "a,b,c\n\"1,5\",\"say \"\"so\"\"\",\"two\r\nlines\"\n,,x",
    /* Two literals: an "a" would go on the escape before it. */
    ("\xef\xbb\xbf" "a,b,c\r\n\"1,5\",\"say \"\"so\"\"\",\"two\r\nlines\"\r\n,,x\r\n"),
  };
  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      GError *error = NULL;
      g_autoptr (SwCsvFile) file = sw_csv_read (texts[i], -1, &error);
      g_assert_no_error (error);
      g_assert_cmpuint (sw_csv_file_n_columns (file), ==, 3);
      g_assert_cmpuint (sw_csv_file_n_rows (file), ==, 3);
      assert_cells (file, 0, (const char *[]){ "a", "b", "c" });
      assert_cells (file, 1, (const char *[]){ "1,5", "say \"so\"", "two\r\nlines" });
      assert_cells (file, 2, (const char *[]){ "", "", "x" });
      guint line, character;
      sw_csv_file_place (file, 2, 2, &line, &character);
      g_assert_cmpuint (line, ==, 4);
      g_assert_cmpuint (character, ==, i == 0 ? 5 : 3);
    }
}

/* What spreadsheets write where the comma is the decimal mark. */
static void
test_partings (void)
{
  static const struct { const char *text, *cells[3], *number; } cases[] = {
    { ("\xef\xbb\xbf" "a;b;c\r\n1,5;\"x;\"\"y\";z,\r\n"), { "1,5", "x;\"y", "z," }, "1.5" },
    { "a\tb\tc\n1,5\tx;\tz\n", { "1,5", "x;", "z" }, "1.5" },
    { "a,b;,c\n\"1,5\",x;,z\n", { "1,5", "x;", "z" }, "1,5" }, /* a comma in the first row: the others mean nothing */
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      GError *error = NULL;
      char buf[SW_CSV_NUMBER_BUF];
      g_autoptr (SwCsvFile) file = sw_csv_read (cases[i].text, -1, &error);
      g_assert_no_error (error);
      g_assert_cmpuint (sw_csv_file_n_columns (file), ==, 3);
      assert_cells (file, 1, cases[i].cells);
      g_assert_cmpstr (sw_csv_file_number (file, sw_csv_file_cell (file, 1, 0), buf), ==, cases[i].number);
    }
}

static void
test_wrong (void)
{
  static const struct { const char *text; gssize length; const char *part; } cases[] = {
    { "", -1, "line 1: the names of the columns are missing" },
    { "a,b\nß,x\"y\n", -1, "line 2, character 4: a quote inside a cell" },
    { "a,b\n1,\"2\"3\n", -1, "line 2, character 6: after a closing quote" },
    { "a;b\n1;\"2\"3\n", -1, "line 2, character 6: after a closing quote only a semicolon" },
    { "a,b\n1,\"2\n\n", -1, "line 2, character 3: this quote is never closed" },
    { "a,b\n1,2\r3\n", -1, "line 2, character 4: a carriage return" },
    { "a,b\n\"x\ny\",2\n1\n", -1, "line 4: 1 cells, where the first line has 2" },
    { "a,b\n1,2,3\n", -1, "line 2: 3 cells" },
    { "a,b\n\n", -1, "line 2: 1 cells" },
    { "a,b\n1,\xff\n", -1, "line 2: not UTF-8" },
    { "a,b\n1,\0002\n", 9, "line 2: not UTF-8" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      GError *error = NULL;
      g_assert_null (sw_csv_read (cases[i].text, cases[i].length, &error));
      sw_assert_error (error, SW_ERROR_INVALID, cases[i].part);
    }
}

static const char *
some_part (SwRandom *random)
{
  static const char *const parts[] = { "", "a", "\"", ",", "\n", "\r\n", "'", "=", "-1", "ß", " ", ";", "\t", "@", "+" };
  return parts[sw_random_int (random, 0, G_N_ELEMENTS (parts) - 1)];
}

/* Whatever is written comes back, apostrophes and signs of formulas too. */
static void
test_random (void)
{
  SwRandom random = { 31 };
  for (int round = 0; round < sw_test_rounds (500); round++)
    {
      GError *error = NULL;
      g_autoptr (SwCsv) csv = sw_csv_new ();
      g_autoptr (GPtrArray) texts = g_ptr_array_new_with_free_func (g_free);
      guint n_columns = (guint) sw_random_int (&random, 2, 4), n_rows = (guint) sw_random_int (&random, 1, 4);
      for (guint i = 0; i < n_columns * n_rows; i++)
        {
          const char *first = some_part (&random), *second = some_part (&random), *third = some_part (&random);
          char *text = g_strconcat (first, second, third, NULL);
          g_ptr_array_add (texts, text);
          sw_csv_add_text (csv, text);
          if (i % n_columns == n_columns - 1)
            sw_csv_end_row (csv);
        }
      g_autofree char *written = sw_csv_text (csv);
      g_autoptr (SwCsvFile) file = sw_csv_read (written, -1, &error);
      g_assert_no_error (error);
      g_assert_cmpuint (sw_csv_file_n_columns (file), ==, n_columns);
      g_assert_cmpuint (sw_csv_file_n_rows (file), ==, n_rows);
      for (guint i = 0; i < texts->len; i++)
        g_assert_cmpstr (sw_csv_plain (sw_csv_file_cell (file, i / n_columns, i % n_columns)), ==, texts->pdata[i]);
    }
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/base/csv-read/good", test_good);
  g_test_add_func ("/base/csv-read/wrong", test_wrong);
  g_test_add_func ("/base/csv-read/partings", test_partings);
  g_test_add_func ("/base/csv-read/random", test_random);
  return g_test_run ();
}
