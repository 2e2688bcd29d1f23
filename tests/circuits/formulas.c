/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "circuits/bends.h"
#include "circuits/fill.h"
#include "circuits/growth.h"
#include "circuits/pull.h"
#include "circuits/voltdrop.h"
#include "support.h"
#include <math.h>

/* NEC chapter 9: tables 1, 4 (thin-wall steel) and 5, note 7. */
static const SwFillByCount nec = { 0.53, 0.31, 0.40, 0.8 };
static const double trade_areas[] = { 0.304, 0.533, 0.864, 1.496, 2.036, 3.356, 5.858, 8.846, 11.545, 14.753 };
static const double wire_areas[] = { 0.0097, 0.0133, 0.0211, 0.0366, 0.0507, 0.0824, 0.0973, 0.1158, 0.1562, 0.1855, 0.2223, 0.2679 };

/* NEC annex C.1, thin-wall steel, sizes 1/2 to 4, gauges 14 to 3/0, as three reprints have it; −1 where they end. */
static const int annex[9][12] = {
  { 12, 9, 5, 3, 2, 1, 1, 1, 1, 1, 0, 0 },
  { 22, 16, 10, 6, 4, 2, 1, 1, 1, 1, 1, 1 },
  { 35, 26, 16, 9, 7, 4, 3, 3, 1, 1, 1, 1 },
  { 61, 45, 28, 16, 12, 7, 6, 5, 4, 3, 2, 1 },
  { 84, 61, 38, 22, 16, 10, 8, 7, 5, 4, 3, 3 },
  { 138, 101, 63, 36, 26, 16, 13, 11, 8, 7, 6, 5 },
  { 241, 176, 111, 64, 46, 28, 24, 20, 15, 12, 10, 8 },
  { 364, 266, 167, 96, 69, 43, 36, 30, 22, 19, 16, 13 },
  { 608, 443, 279, 161, 116, 71, 60, 51, 37, 32, -1, -1 },
};

static void
test_annex (void)
{
  static const double areas[] = { 0.304, 0.533, 0.864, 1.496, 2.036, 3.356, 5.858, 8.846, 14.753 };
  int cells = 0;
  for (int size = 0; size < 9; size++)
    for (int wire = 0; wire < 12; wire++)
      if (annex[size][wire] >= 0)
        {
          g_assert_cmpint (sw_circuits_fill_count (&nec, areas[size], wire_areas[wire]), ==, annex[size][wire]);
          cells++;
        }
  g_assert_cmpint (cells, ==, 106);
}

/* Worked answer of a steel-tube trade institute: 3 of 12, 4 of 10 and 8 of 8 gauge need 1-1/4. */
static void
test_sum (void)
{
  double areas[15];
  for (int i = 0; i < 15; i++)
    areas[i] = i < 3 ? 0.0133 : i < 7 ? 0.0211 : 0.0366;
  sw_assert_near (sw_circuits_fill_share (areas, 15, 1), 0.4171, 1e-4);
  g_assert_cmpfloat (sw_circuits_fill_share (areas, 15, trade_areas[3]), <, sw_circuits_fill_limit (&nec, 15));
  g_assert_cmpfloat (sw_circuits_fill_share (areas, 15, trade_areas[2]), >, sw_circuits_fill_limit (&nec, 15));
  sw_assert_near (sw_circuits_fill_limit (&nec, 1), 0.53, 0);
  sw_assert_near (sw_circuits_fill_limit (&nec, 2), 0.31, 0);
}

/* By hand: 3.5 mm cables in bores of 16.9 and 21.4 at 40 %. */
static void
test_space_factor (void)
{
  double cable = sw_circuits_round_area (3.5), areas[6] = { cable, cable, cable, cable, cable, cable };
  sw_assert_near (sw_circuits_fill_share (areas, 6, sw_circuits_round_area (16.9)), 0.2574, 1e-4);
  g_assert_cmpint (sw_circuits_fill_count_flat_share (0.40, sw_circuits_round_area (16.9), cable), ==, 9);
  g_assert_cmpint (sw_circuits_fill_count_flat_share (0.40, sw_circuits_round_area (21.4), cable), ==, 14);
  sw_assert_near (sw_circuits_flat_area (10, 5), 39.27, 0.005);
}

/* By hand; NEC chapter 9 warns between 2.8 and 3.2. */
static void
test_jam (void)
{
  sw_assert_near (sw_circuits_jam_ratio (16.9, 5.7, 1.05), 3.113, 5e-4);
}

/* Published bending charts: 4 in at 30° has its marks 8 in apart; cosecants and shrink per unit of offset. */
static void
test_offset (void)
{
  SwOffsetBend bend = sw_circuits_offset (113, 30);
  sw_assert_near (bend.between, 226.0, 1e-6);
  sw_assert_near (bend.advance, 195.7, 0.05);
  sw_assert_near (bend.shrink, 30.28, 0.005);
  sw_assert_near (sw_circuits_offset (4, 30).between, 8, 1e-9);
  sw_assert_near (sw_circuits_offset (4, 30).shrink, 1.072, 5e-4);
  static const double chart[][3] = { { 10, 5.759, 0.0875 }, { 15, 3.864, 0.132 }, { 22.5, 2.613, 0.199 },
                                     { 30, 2.000, 0.268 },  { 45, 1.414, 0.414 }, { 60, 1.155, 0.577 } };
  for (gsize i = 0; i < G_N_ELEMENTS (chart); i++)
    {
      sw_assert_near (sw_circuits_offset (1, chart[i][0]).between, chart[i][1], 5.1e-4);
      sw_assert_near (sw_circuits_offset (1, chart[i][0]).shrink, chart[i][2], 5.1e-4);
    }
  sw_assert_near (sw_circuits_dip_turn (30), 120, 0);
}

/* By hand: quarter bend of centre radius 60. */
static void
test_arc (void)
{
  sw_assert_near (sw_circuits_bend_arc (60, 90), 94.25, 0.005);
  sw_assert_near (sw_circuits_bend_gain (60, 90), 25.75, 0.005);
  sw_assert_near (sw_circuits_bend_gain (1, 90), 0.4292, 5e-5);
}

/* A way out of a void, under a rib and into the next: quarter turns down, across, across back and up. */
static void
test_turns (void)
{
  static const SwPoint3 way[] = { { 0, 0, 60 }, { 1000, 0, 60 }, { 1000, 0, -13 }, { 1000, 600, -13 }, { 1000, 600, 60 }, { 2000, 600, 60 } };
  sw_assert_near (sw_circuits_turns (way, G_N_ELEMENTS (way)), 360, 1e-9);
  sw_assert_near (sw_circuits_turn (way[0], way[1], way[2]), 90, 1e-9);
  sw_assert_near (sw_circuits_turn (way[0], way[0], way[1]), 0, 0);
  sw_assert_near (sw_circuits_turn (way[0], way[1], way[0]), 180, 1e-9);
  static const SwPoint3 slanted[] = { { 0, 0, 0 }, { 1, 0, 0 }, { 2, 1, G_SQRT2 } };
  sw_assert_near (sw_circuits_turns (slanted, 3), 60, 1e-9);
}

/* mV tables of 70 °C PVC copper, worked by hand. */
static void
test_volt_drop (void)
{
  sw_assert_near (sw_circuits_volt_drop (18, 20, 25), 9.00, 1e-9);
  sw_assert_near (sw_circuits_volt_drop_percent (9, 230), 3.913, 5e-4);
  sw_assert_near (sw_circuits_volt_drop_percent (sw_circuits_volt_drop (29, 10, 30), 230), 3.78, 0.005);
  sw_assert_near (sw_circuits_volt_drop_percent (sw_circuits_volt_drop (9.5, 25, 40), 400), 2.375, 1e-9);
  sw_assert_near (sw_circuits_volt_drop_length (18, 20, 230, 9.0 / 230 * 100), 25, 1e-9);
  g_assert_true (isinf (sw_circuits_volt_drop_length (18, 0, 230, 5)));
}

/* IEC 60364-5-52 factors, two published examples. */
static void
test_derated (void)
{
  static const double four_circuits[] = { 0.65, 0.94 }, hot[] = { 0.79, 0.65 };
  sw_assert_near (sw_circuits_derated (24, four_circuits, 1), 15.6, 1e-9);
  sw_assert_near (sw_circuits_derated (24, four_circuits, 2), 14.664, 1e-9);
  sw_assert_near (sw_circuits_derated (30, hot, 2), 15.4, 0.05);
}

/* Published table of factors; 36 lb round a quarter bend gives 79 lb. */
static void
test_pull (void)
{
  sw_assert_near (sw_circuits_pull_bend (36, 0.5, 90), 79, 0.05);
  static const double table[][3] = { { 0.7, 3.00, 1.73 }, { 0.6, 2.57, 1.60 }, { 0.5, 2.19, 1.48 },
                                     { 0.4, 1.87, 1.37 }, { 0.3, 1.60, 1.27 }, { 0.15, 1.27, 1.13 } };
  for (gsize i = 0; i < G_N_ELEMENTS (table); i++)
    {
      sw_assert_near (sw_circuits_pull_bend (1, table[i][0], 90), table[i][1], 0.006);
      sw_assert_near (sw_circuits_pull_bend (1, table[i][0], 45), table[i][2], 0.006);
    }
  sw_assert_near (sw_circuits_pull_straight (10, 0.5, 4, 20), 50, 1e-12);
  sw_assert_near (sw_circuits_pull_sidewall (300, 0.15), 2000, 1e-9);
}

/* NEC table 352.44 for PVC (mm/m at 5 … 50 K), and its 6 mm rule. */
static void
test_growth (void)
{
  static const double table[] = { 0.30, 0.61, 0.91, 1.22, 1.52, 1.83, 2.13, 2.43, 2.74, 3.04 };
  for (gsize i = 0; i < G_N_ELEMENTS (table); i++)
    sw_assert_near (sw_circuits_growth (0.06084, 1, 5 * (i + 1)), table[i], 0.0051);
  sw_assert_near (sw_circuits_growth (0.06084, 10, 20), 12.17, 0.005);
  sw_assert_near (sw_circuits_growth_length (0.06084, 20, 6), 4.93, 0.005);
  g_assert_true (isinf (sw_circuits_growth_length (0.06, 0, 6)));
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/circuits/annex", test_annex);
  g_test_add_func ("/circuits/sum", test_sum);
  g_test_add_func ("/circuits/space-factor", test_space_factor);
  g_test_add_func ("/circuits/jam", test_jam);
  g_test_add_func ("/circuits/offset", test_offset);
  g_test_add_func ("/circuits/arc", test_arc);
  g_test_add_func ("/circuits/turns", test_turns);
  g_test_add_func ("/circuits/volt-drop", test_volt_drop);
  g_test_add_func ("/circuits/derated", test_derated);
  g_test_add_func ("/circuits/pull", test_pull);
  g_test_add_func ("/circuits/growth", test_growth);
  return g_test_run ();
}
