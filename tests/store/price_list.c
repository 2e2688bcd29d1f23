/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "store/price_list.h"
#include "base/paths.h"
#include "estimate/price_kinds.h"
#include "support.h"
#include <string.h>

static SwJob *
job_with (SwJob *job, const char *text)
{
  GError *error = NULL;
  g_autoptr (SwEdit) edit = sw_price_list_read (job, text, -1, "list.csv", &error);
  g_assert_no_error (error);
  SwJob *next = sw_job_apply (job, edit, TRUE, &error);
  g_assert_no_error (error);
  return next;
}

static const SwPrice *
price_of (const SwJob *job, const char *code)
{
  return (const SwPrice *) sw_job_find (job, code);
}

/* The list that comes with the program: every kind of the take-off has a row, in the take-off's unit, and it is in the form in
 * which it would be written. */
static void
test_default (void)
{
  GError *error = NULL;
  gboolean has[SW_N_PRICES] = { FALSE };
  g_autofree char *path = sw_data_path ("prices.csv"), *text = NULL;
  g_autoptr (SwJob) empty = sw_job_new ();
  g_autoptr (SwJob) job = sw_price_list_or_default (empty, &error);
  g_assert_no_error (error);
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_PRICE); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwPrice *price = (const SwPrice *) record;
      SwPriceKind kind = sw_price_kind_of (record->tag);
      g_assert_cmpint (kind, <, SW_N_PRICES);
      has[kind] = TRUE;
      g_assert_cmpstr (price->unit, ==, sw_price_info (kind)->unit);
      g_assert_cmpint (price->material + price->labour, >, 0);
      g_assert_cmpstr (price->supplier, ==, ""); /* no makers */
    }
  for (guint i = 0; i < SW_N_PRICES; i++)
    if (!has[i])
      g_error ("no price for %s", sw_price_info ((SwPriceKind) i)->word);
  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  g_autofree char *written = sw_price_list_write (job);
  g_assert_cmpstr (written, ==, text);
  g_autoptr (SwJob) same = sw_price_list_or_default (job, &error);
  g_assert_true (same == job);
}

/* Rows are added and changed, columns that the list lacks are kept, order is that in which rows came. */
static void
test_merge (void)
{
  g_autoptr (SwJob) empty = sw_job_new ();
  g_autoptr (SwJob) first = job_with (empty, "code,material,description,unit,waste\nb,12.5,\"Board, large\",no,10\na,0.0125,'=Sum,m,\n");
  g_autoptr (SwJob) second = job_with (first, "labour,code,centres_mm,wet,fire_min,field_mm,lead_days,inertia_mm4\n7,a,,,,,,\n8.25,c,350,yes,25,5400,3,4900\n");
  const char *list = "code,description,unit,supplier,material,labour,waste,length_mm,width_mm,centres_mm,field_mm,wet,fire_min,lead_days,inertia_mm4\r\n"
                     "b,\"Board, large\",no,,12.50,0.00,10,0,0,0,0,,0,0,0\r\n"
                     "a,'=Sum,m,,0.0125,7.00,0,0,0,0,0,,0,0,0\r\n"
                     "c,,,,0.00,8.25,0,0,0,350,5400,yes,25,3,4900\r\n";
  g_assert_cmpuint (sw_job_count (second, SW_TABLE_PRICE), ==, 3);
  g_assert_cmpstr (price_of (second, "a")->description, ==, "=Sum");
  g_assert_cmpint (price_of (second, "a")->material, ==, 125);
  g_assert_cmpint (price_of (second, "a")->wet, ==, SW_WET_AS_KIND);
  g_assert_cmpint (price_of (second, "c")->wet, ==, SW_WET_YES);
  g_autofree char *written = sw_price_list_write (second);
  g_assert_cmpstr (written, ==, list);
  g_autoptr (SwJob) third = job_with (empty, written);
  g_autofree char *again = sw_price_list_write (third);
  g_assert_cmpstr (again, ==, list);
  GError *error = NULL;
  g_autoptr (SwEdit) nothing = sw_price_list_read (second, written, -1, "list.csv", &error);
  g_assert_no_error (error);
  g_assert_true (sw_edit_is_empty (nothing));
}

static void
test_wrong (void)
{
  static const struct { const char *text, *part; } cases[] = {
    { "", "list.csv: line 1: the names of the columns are missing" },
    { "material,unit\n1,m\n", "list.csv: line 1, character 1: the column \"code\" is missing" },
    { "code,labor\na,1\n", "line 1, character 6: there is no column \"labor\"; did you mean \"labour\"?" },
    { "code;labour\na;1,2,5\n", "line 2, character 3: labour: \"1.2,5\" is not an amount" },
    { "code,unit,unit\na,m,m\n", "line 1, character 11: the column \"unit\" stands twice" },
    { "code,labour\na,1\n\"b\nb\",2\na,3\n", "line 5, character 1: the code \"a\" stands twice" },
    { "code,labour\na,1\n,2\n", "line 3, character 1: the code is missing" },
    { "code,labour\na,\"12,5\"\n", "line 2, character 3: labour: \"12,5\" is not an amount" },
    { "code,labour\na,1.23456\n", "line 2, character 3: labour: " },
    { "code,description,waste\na,ß,ten\n", "line 2, character 5: waste: \"ten\" is not a number" },
    { "code,wet\na,perhaps\n", "line 2, character 3: wet: \"perhaps\" is none of as-kind, no, yes" },
    { "code,waste\na,101\n", "line 2, character 1: price \"a\".waste: must lie between 0 and 100" },
    { "code,material\nB1,1\n", "line 2, character 1: \"B1\" is the mark of something else in the job" },
    { "code,material\na,1,2\n", "list.csv: line 2: 3 cells" },
  };
  GError *error = NULL;
  g_autoptr (SwJob) empty = sw_job_new ();
  g_autoptr (SwEdit) edit = sw_edit_new ("");
  SwRecord *profile = sw_edit_create (edit, empty, SW_TABLE_PROFILE);
  sw_text_set (&profile->tag, "B1");
  g_assert_true (sw_edit_put (edit, empty, profile, &error));
  g_autoptr (SwJob) job = sw_job_apply (empty, edit, TRUE, &error);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_assert_null (sw_price_list_read (job, cases[i].text, -1, "list.csv", &error));
      sw_assert_error (error, SW_ERROR_INVALID, cases[i].part);
    }
  g_assert_null (sw_price_list_load (job, "/nowhere/list.csv", &error));
  sw_assert_error (error, SW_ERROR_IO, "/nowhere/list.csv");
}

/* As spreadsheets write where the comma is the decimal mark. */
static void
test_semicolons (void)
{
  GError *error = NULL;
  g_autoptr (SwJob) empty = sw_job_new ();
  g_autoptr (SwEdit) commas = sw_price_list_read (empty, "code,labour,waste,description\na,12.5,7.5,\"1,5 mm\"\n", -1, "list.csv", &error);
  g_assert_no_error (error);
  g_autoptr (SwEdit) semicolons = sw_price_list_read (empty, "code;labour;waste;description\r\na;12,5;7,5;1,5 mm\r\n", -1, "list.csv", &error);
  g_assert_no_error (error);
  g_autoptr (SwJob) first = sw_job_apply (empty, commas, TRUE, &error), second = sw_job_apply (empty, semicolons, TRUE, &error);
  g_assert_true (sw_record_equal (sw_job_nth (first, SW_TABLE_PRICE, 0), sw_job_nth (second, SW_TABLE_PRICE, 0)));
  g_assert_cmpint (((const SwPrice *) sw_job_nth (second, SW_TABLE_PRICE, 0))->labour, ==, 125000);
}

/* Numbers too small for plain figures are still written as plain figures. */
static void
test_small_numbers (void)
{
  g_autoptr (SwJob) empty = sw_job_new ();
  g_autoptr (SwJob) job = job_with (empty, "code,waste\na,0.00001\n");
  g_autofree char *written = sw_price_list_write (job);
  g_assert_nonnull (strstr (written, ",0.000010000,"));
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/store/price-list/default", test_default);
  g_test_add_func ("/store/price-list/merge", test_merge);
  g_test_add_func ("/store/price-list/wrong", test_wrong);
  g_test_add_func ("/store/price-list/semicolons", test_semicolons);
  g_test_add_func ("/store/price-list/small-numbers", test_small_numbers);
  return g_test_run ();
}
