/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/number.h"
#include "base/random.h"
#include "base/tolerance.h"
#include "support.h"
#include <math.h>
#include <string.h>

static void
test_round_trip (void)
{
  SwRandom random = { 7 };
  for (int i = 0; i < sw_test_rounds (20000); i++)
    {
      double value = sw_random_double (&random, -1, 1) * pow (10, sw_random_int (&random, -12, 12)), back = 0;
      char buf[SW_NUMBER_BUF];
      g_assert_true (sw_number_read (sw_number_write (value, buf), &back, NULL));
      g_assert_true (value == back);
    }
}

static void
test_fixed (void)
{
  static const struct { double value; int decimals; const char *text; } cases[] = {
    { 2.675, 2, "2.68" }, { -2.675, 2, "-2.68" }, { 0.5, 0, "1" }, { -0.5, 0, "-1" }, { -0.001, 2, "0.00" },
    { 1e9, 1, "1000000000.0" }, { 1.005, 2, "1.01" }, { 12.17, 1, "12.2" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      char buf[SW_NUMBER_BUF];
      g_assert_cmpstr (sw_number_write_fixed (cases[i].value, cases[i].decimals, buf), ==, cases[i].text);
    }
}

static void
test_read_refuses (void)
{
  static const char *const bad[] = { "", "nan", "inf", "0x10", "1,5", "1 2", "1e999" };
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      double value;
      g_assert_false (sw_number_read (bad[i], &value, NULL));
    }
}

static void
test_grid (void)
{
  sw_assert_near (sw_grid_round (1.005), 1.0, 0.0100001);
  g_assert_true (sw_grid_round (-0.001) == 0 && !signbit (sw_grid_round (-0.001)));
  g_assert_true (sw_grid_round (12.345678) == 12.35);
  g_assert_true (sw_grid_round (-12.345678) == -12.35);
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/base/number/round-trip", test_round_trip);
  g_test_add_func ("/base/number/fixed", test_fixed);
  g_test_add_func ("/base/number/read-refuses", test_read_refuses);
  g_test_add_func ("/base/number/grid", test_grid);
  return g_test_run ();
}
