/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/money.h"
#include "support.h"
#include <string.h>

/* Worked quote, invented rates, checked with exact decimal arithmetic: 24 m², waste 10 %, material 95.00,
 * labour 65.00, markup 20 %, VAT 15 %. */
static void
test_quote (void)
{
  SwMoney material = sw_money_cents (sw_money_times (950000, 24000 * 110 / 100));
  SwMoney labour = sw_money_cents (sw_money_times (650000, 24000));
  char buf[SW_MONEY_BUF];
  g_assert_cmpstr (sw_money_write (material, buf), ==, "2508.00");
  g_assert_cmpstr (sw_money_write (labour, buf), ==, "1560.00");
  SwMoney cost = material + labour;
  SwMoney price = sw_money_cents (cost + sw_money_share (cost, 200000));
  SwMoney vat = sw_money_cents (sw_money_share (price, 150000));
  g_assert_cmpstr (sw_money_write (price, buf), ==, "4881.60");
  g_assert_cmpstr (sw_money_write (vat, buf), ==, "732.24");
  g_assert_cmpstr (sw_money_write (price + vat, buf), ==, "5613.84");
  g_assert_cmpstr (sw_money_write (sw_money_margin (cost, 200000), buf), ==, "5085.00");
}

static void
test_rounding (void)
{
  g_assert_cmpint (sw_divide_round (5, 2), ==, 3);
  g_assert_cmpint (sw_divide_round (-5, 2), ==, -3);
  g_assert_cmpint (sw_divide_round (4, 3), ==, 1);
  g_assert_cmpint (sw_divide_round (5, 3), ==, 2);
  g_assert_cmpint (sw_money_cents (12350), ==, 12400);
  g_assert_cmpint (sw_money_cents (-12350), ==, -12400);
  g_assert_cmpint (sw_money_cents (12349), ==, 12300);
}

static void
test_text (void)
{
  static const struct { const char *in; gint64 value; const char *out; } good[] = {
    { "1234.5", 12345000, "1234.50" }, { "-0.0001", -1, "-0.0001" }, { "0", 0, "0.00" }, { ".5", 5000, "0.50" },
    { "7.", 70000, "7.00" }, { "+3", 30000, "3.00" },
  };
  char buf[SW_MONEY_BUF];
  for (gsize i = 0; i < G_N_ELEMENTS (good); i++)
    {
      SwMoney money = 0;
      g_assert_true (sw_money_read (good[i].in, &money, NULL));
      g_assert_cmpint (money, ==, good[i].value);
      g_assert_cmpstr (sw_money_write (money, buf), ==, good[i].out);
    }
  static const char *const bad[] = { "", "-", "1.23456", "1,5", "1e3", "99999999999999999999", "1.2.3", "R 5" };
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      SwMoney money;
      GError *error = NULL;
      g_assert_false (sw_money_read (bad[i], &money, &error));
      sw_assert_error (error, SW_ERROR_INVALID, "is not an amount");
    }
  SwQuantity quantity = 0;
  g_assert_true (sw_quantity_read ("12.25", &quantity, NULL));
  g_assert_cmpint (quantity, ==, 12250);
  g_assert_cmpstr (sw_quantity_write (quantity, buf), ==, "12.25");
  g_assert_cmpint (sw_quantity_from_double (23.6), ==, 23600);
}

static void
test_range (void)
{
  g_assert_false (sw_money_is_valid (sw_money_times (G_MAXINT64 / 2, 1000000)));
  g_assert_true (sw_money_is_valid (sw_money_times (1000000, 1000000)));
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/base/money/quote", test_quote);
  g_test_add_func ("/base/money/rounding", test_rounding);
  g_test_add_func ("/base/money/text", test_text);
  g_test_add_func ("/base/money/range", test_range);
  return g_test_run ();
}
