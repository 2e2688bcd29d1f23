/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "estimate/quote.h"
#include "space/sample.h"
#include "support.h"
#include <string.h>

static void
put_price (SwSample *sample, const char *code, const char *material, const char *labour, double waste)
{
  SwPrice *price = (SwPrice *) sw_sample_create (sample, SW_TABLE_PRICE);
  sw_text_set (&price->record.tag, code);
  g_assert_true (sw_money_read (material, &price->material, NULL));
  g_assert_true (sw_money_read (labour, &price->labour, NULL));
  price->waste = waste;
  sw_sample_put (sample, &price->record);
}

static void
assert_money (SwMoney money, const char *text)
{
  char buf[SW_MONEY_BUF];
  g_assert_cmpstr (sw_money_write (money, buf), ==, text);
}

/* Derived with exact decimals, invented rates: 24 m², waste 10 %, material 95.00, labour 65.00, markup 20 %, VAT 15 %:
 * 2,508.00 + 1,560.00 = 4,068.00; 4,881.60; VAT 732.24; 5,613.84. */
static void
test_worked (void)
{
  SwSample sample = sw_sample_new (6000, 4200, 0);
  put_price (&sample, "board", "95.00", "65.00", 10);
  g_autoptr (GPtrArray) needs = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_need_free);
  g_ptr_array_add (needs, sw_need_new ("board", "Boards", "m2", 24, 0));
  g_autoptr (SwQuote) quote = sw_quote_new (sample.job, needs, (SwQuoteTerms){ 200000, 150000 });
  const SwQuoteLine *line = &g_array_index (quote->lines, SwQuoteLine, 0);
  g_assert_cmpint (line->gross, ==, 26400);
  assert_money (line->material, "2508.00");
  assert_money (line->labour, "1560.00");
  assert_money (quote->cost, "4068.00");
  assert_money (quote->price, "4881.60");
  assert_money (quote->vat, "732.24");
  assert_money (quote->total, "5613.84");
  assert_money (sw_money_margin (quote->cost, 200000), "5085.00"); /* a margin of 20 % is not a markup: cost / (1 − 0.2) */
  g_assert_cmpuint (quote->unpriced, ==, 0);
  sw_sample_clear (&sample);
}

/* Whole things are ordered whole; a code that the list does not know costs nothing and is counted. */
static void
test_whole_and_unknown (void)
{
  SwSample sample = sw_sample_new (6000, 4200, 0);
  put_price (&sample, "sheet", "100.00", "0", 10);
  g_autoptr (GPtrArray) needs = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_need_free);
  g_ptr_array_add (needs, sw_need_new ("sheet", "Sheets", "no", 7, 0));
  g_ptr_array_add (needs, sw_need_new ("moon", "Moonstone", "kg", 1, 0));
  g_autoptr (SwQuote) quote = sw_quote_new (sample.job, needs, (SwQuoteTerms){ 0, 0 });
  g_assert_cmpint (g_array_index (quote->lines, SwQuoteLine, 0).gross, ==, 8000); /* 7.7 */
  assert_money (quote->total, "800.00");
  g_assert_cmpuint (quote->unpriced, ==, 1);
  sw_sample_clear (&sample);
}

/* 10.8 m with 5 % are 11.34 m: three lengths of 4 m; a row that counts in another unit is no price. */
static void
test_lengths_and_units (void)
{
  SwSample sample = sw_sample_new (6000, 4200, 0);
  const char *codes[] = { "conduit-pvc-20", "cornice" };
  for (int i = 0; i < 2; i++)
    {
      SwPrice *price = (SwPrice *) sw_sample_create (&sample, SW_TABLE_PRICE);
      sw_text_set (&price->record.tag, codes[i]);
      sw_text_set (&price->unit, i == 0 ? "m" : "no");
      price->material = SW_MONEY_ONE;
      price->waste = 5;
      price->length = 4000;
      sw_sample_put (&sample, &price->record);
    }
  g_autoptr (GPtrArray) needs = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_need_free);
  g_ptr_array_add (needs, sw_need_new (codes[0], "Conduit", "m", 10.8, 0));
  g_ptr_array_add (needs, sw_need_new (codes[1], "Cornice", "m", 10.8, 0));
  g_autoptr (SwQuote) quote = sw_quote_new (sample.job, needs, (SwQuoteTerms){ 0, 0 });
  const SwQuoteLine *lines = (const SwQuoteLine *) quote->lines->data;
  g_assert_cmpint (lines[0].gross, ==, 11340);
  g_assert_cmpuint (lines[0].lengths, ==, 3);
  g_assert_true (lines[1].price == NULL && lines[1].other_unit);
  assert_money (quote->total, "11.34");
  g_assert_cmpuint (quote->unpriced, ==, 1);
  sw_sample_clear (&sample);
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/estimate/quote/worked", test_worked);
  g_test_add_func ("/estimate/quote/whole-and-unknown", test_whole_and_unknown);
  g_test_add_func ("/estimate/quote/lengths-and-units", test_lengths_and_units);
  return g_test_run ();
}
