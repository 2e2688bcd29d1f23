/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drainage/discharge.h"
#include "drainage/fall.h"
#include "drainage/partfull.h"
#include "drainage/sweating.h"
#include "support.h"
#include <math.h>

static const SwFlowFormula upvc_smooth = { SW_FLOW_MANNING, .manning_n = 0.009 };
static const SwFlowFormula upvc = { SW_FLOW_MANNING, .manning_n = 0.011 };
static const SwFlowFormula waste_water = { SW_FLOW_COLEBROOK, .roughness_mm = 1.0, .viscosity_m2_s = 1.31e-6 };

/* Published Manning sheet, worked for pipes of 8 and 4 inches. */
static void
test_geometry (void)
{
  SwPartFull eight = sw_drainage_partfull (203.2, 0.7);
  sw_assert_near (eight.area_m2, 0.0242, 0.5e-4);
  sw_assert_near (eight.perimeter_m, 0.4028, 0.5e-4);
  sw_assert_near (eight.radius_m, 0.060195, 0.5e-5);
  SwPartFull four = sw_drainage_partfull (101.6, 0.5);
  sw_assert_near (four.area_m2, 0.0041, 0.5e-4);
  sw_assert_near (four.perimeter_m, 0.1596, 0.5e-4);
  sw_assert_near (four.radius_m, 0.0254, 0.5e-6);
  SwPartFull full = sw_drainage_partfull (100, 1);
  sw_assert_near (full.area_m2, G_PI / 400, 1e-12);
  sw_assert_near (full.radius_m, 0.025, 1e-12);
}

/* Ratios to the full pipe under Manning: textbook curve of hydraulic elements. */
static void
test_ratios (void)
{
  double q = sw_drainage_capacity (&upvc, 100, 1, 0.01), v = sw_drainage_velocity (&upvc, 100, 1, 0.01);
  sw_assert_near (sw_drainage_capacity (&upvc, 100, 0.5, 0.01) / q, 0.5, 1e-9);
  sw_assert_near (sw_drainage_velocity (&upvc, 100, 0.5, 0.01) / v, 1.0, 1e-9);
  sw_assert_near (sw_drainage_capacity (&upvc, 100, 0.7, 0.01) / q, 0.837, 5e-4);
  sw_assert_near (sw_drainage_velocity (&upvc, 100, 0.7, 0.01) / v, 1.120, 5e-4);
  sw_assert_near (sw_drainage_velocity (&upvc, 100, 0.8128, 0.01) / v, 1.140, 5e-4);
  double most = sw_drainage_filling_most (&upvc, 100, 0.01);
  sw_assert_near (most, 0.938, 5e-4);
  sw_assert_near (sw_drainage_capacity (&upvc, 100, most, 0.01) / q, 1.076, 5e-4);
}

/* Worked by hand from R^(2/3) √S / n. */
static void
test_manning (void)
{
  sw_assert_near (sw_drainage_velocity (&upvc_smooth, 100, 0.5, 0.01), 0.950, 5e-4);
  sw_assert_near (sw_drainage_capacity (&upvc_smooth, 100, 0.5, 0.01), 3.731, 5e-4);
  sw_assert_near (sw_drainage_velocity (&upvc_smooth, 100, 0.7, 0.01), 1.064, 5e-4);
  sw_assert_near (sw_drainage_capacity (&upvc_smooth, 100, 0.7, 0.01), 6.247, 5e-4);
  sw_assert_near (sw_drainage_capacity (&upvc_smooth, 100, 1, 0.01), 7.461, 1e-3);
  double slope = 1 / 60.0;
  sw_assert_near (sw_drainage_capacity (&upvc, 103.6, 1, slope), 8.661, 1e-3);
  sw_assert_near (sw_drainage_capacity (&upvc, 103.6, 0.5, slope), 4.330, 1e-3);
  sw_assert_near (sw_drainage_capacity (&upvc, 103.6, 0.7, slope), 7.251, 1e-3);
  double filling = sw_drainage_filling (&upvc, 103.6, slope, 2.0);
  sw_assert_near (filling, 0.327, 5e-4);
  sw_assert_near (filling * 103.6, 33.9, 0.05);
  sw_assert_near (sw_drainage_velocity (&upvc, 103.6, filling, slope), 0.835, 1e-3);
}

/* EN 12056-2 annex B as remembered (l/s, m/s to one decimal); flow bores 96, 146 and 184 mm. */
static void
test_colebrook (void)
{
  static const struct { double bore, filling, percent, flow, velocity; } cells[] = {
    { 96, 0.5, 0.5, 1.8, 0.5 },   { 96, 0.5, 1.0, 2.5, 0.7 },   { 96, 0.5, 1.5, 3.1, 0.8 },   { 96, 0.5, 2.0, 3.5, 1.0 },
    { 146, 0.5, 0.5, 5.4, 0.6 },  { 146, 0.5, 1.0, 7.7, 0.9 },  { 146, 0.5, 1.5, 9.4, 1.1 },  { 146, 0.5, 2.0, 10.9, 1.3 },
    { 184, 0.5, 0.5, 10.0, 0.8 }, { 184, 0.5, 1.0, 14.2, 1.1 }, { 184, 0.5, 1.5, 17.4, 1.3 }, { 184, 0.5, 2.0, 20.1, 1.5 },
    { 96, 0.7, 0.5, 2.9, 0.5 },   { 96, 0.7, 1.0, 4.2, 0.8 },   { 96, 0.7, 1.5, 5.1, 0.9 },   { 96, 0.7, 2.0, 5.9, 1.1 },
    { 146, 0.7, 0.5, 9.0, 0.7 },  { 146, 0.7, 1.0, 12.8, 1.0 }, { 146, 0.7, 1.5, 15.7, 1.3 }, { 146, 0.7, 2.0, 18.2, 1.5 },
    { 184, 0.7, 0.5, 16.7, 0.8 }, { 184, 0.7, 1.0, 23.7, 1.2 }, { 184, 0.7, 1.5, 29.1, 1.5 }, { 184, 0.7, 2.0, 33.6, 1.7 },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cells); i++)
    {
      double slope = cells[i].percent / 100;
      sw_assert_near (sw_drainage_capacity (&waste_water, cells[i].bore, cells[i].filling, slope), cells[i].flow, 0.0505);
      sw_assert_near (sw_drainage_velocity (&waste_water, cells[i].bore, cells[i].filling, slope), cells[i].velocity, 0.06);
    }
}

static void
test_filling_edges (void)
{
  g_assert_true (isnan (sw_drainage_filling (&upvc, 50, 0.01, 100)));
  g_assert_true (isnan (sw_drainage_filling (&upvc, 50, 0, 0.1)));
  sw_assert_near (sw_drainage_velocity (&waste_water, 100, 0.5, -0.01), 0, 0);
  for (double filling = 0.05; filling < 0.93; filling += 0.01)
    {
      double flow = sw_drainage_capacity (&waste_water, 96, filling, 0.02);
      sw_assert_near (sw_drainage_filling (&waste_water, 96, 0.02, flow), filling, 1e-9);
    }
}

/* Published design sheets for EN 12056-2 (K 0.5): 26.1 units, and a bathroom's branches; flats and a school by hand. */
static void
test_discharge (void)
{
  sw_assert_near (sw_drainage_discharge (0.5, 26.1), 2.55, 0.005);
  sw_assert_near (sw_drainage_discharge (0.7, 15.6), 2.765, 5e-4);
  sw_assert_near (sw_drainage_discharge (0.5, 49), 3.50, 5e-4);
  static const double units[] = { 0.8, 1.3, 1.8, 2.5, 4.3 }, flows[] = { 0.45, 0.57, 0.67, 0.79, 1.04 };
  for (gsize i = 0; i < G_N_ELEMENTS (units); i++)
    sw_assert_near (sw_drainage_discharge (0.5, units[i]), flows[i], 0.005);
  static const double flat[] = { 0.5, 0.8, 2.0, 0.8, 0.8 };
  sw_assert_near (sw_drainage_discharge_design (0.5, flat, G_N_ELEMENTS (flat), FALSE), 1.107, 5e-4);
  sw_assert_near (sw_drainage_discharge_design (0.5, flat, G_N_ELEMENTS (flat), TRUE), 2.0, 1e-12);
}

static SwFallRoom
fall_room (double depth, double od, double socket, double axis, double n)
{
  SwFallCase fall = { depth, od, socket, axis, n };
  return sw_drainage_fall_room (&fall);
}

/* By hand: void 255 deep, 110 pipe with a 128 socket. */
static void
test_fall (void)
{
  double over_pipe = sw_drainage_fall_axis (20, 110), over_socket = sw_drainage_fall_axis (20, 128);
  sw_assert_near (fall_room (255, 110, 128, over_pipe, 60).tube_drop, 125, 1e-9);
  sw_assert_near (fall_room (255, 110, 128, over_pipe, 60).tube_run, 7500, 1e-6);
  sw_assert_near (fall_room (255, 110, 128, over_pipe, 40).tube_run, 5000, 1e-6);
  sw_assert_near (fall_room (255, 110, 128, over_pipe, 60).run, 6960, 1e-6);
  sw_assert_near (fall_room (255, 110, 128, over_socket, 60).run, 6420, 1e-6);
  sw_assert_near (fall_room (255, 110, 128, over_pipe, 40).run, 4640, 1e-6);
  sw_assert_near (fall_room (255, 110, 128, over_socket, 40).run, 4280, 1e-6);
  sw_assert_near (sw_drainage_fall_loss (6000, 60), 100, 1e-9);
  sw_assert_near (sw_drainage_fall_loss (6000, 0), 0, 0);
}

/* By hand: depths 150 to 300 under a WC's bend 130 below the crown, and 20 over the socket; 50 mm waste in 150. */
static void
test_fall_by_depth (void)
{
  sw_assert_near (fall_room (200, 110, 128, 130, 60).run, 360, 1e-6);
  sw_assert_near (fall_room (250, 110, 128, 130, 60).run, 3360, 1e-6);
  sw_assert_near (fall_room (300, 110, 128, 130, 60).run, 6360, 1e-6);
  double over = sw_drainage_fall_axis (20, 128);
  sw_assert_near (fall_room (200, 110, 128, over, 60).run, 3120, 1e-6);
  sw_assert_near (fall_room (250, 110, 128, over, 60).run, 6120, 1e-6);
  sw_assert_near (fall_room (140, 110, 128, over, 60).run, 0, 0);
  sw_assert_near (fall_room (150, 50, 65, sw_drainage_fall_axis (20, 65), 40).run, 2600, 1e-6);
}

static const SwMagnus magnus = { 17.62, 243.12 };

/* Dew point page: 26 °C and 60 % give 17.6 °C; the others worked by hand from the same constants. */
static void
test_dew_point (void)
{
  sw_assert_near (sw_drainage_dew_point (&magnus, 26, 60), 17.6, 0.05);
  static const double cases[][3] = { { 20, 50, 9.26 }, { 24, 65, 17.01 }, { 25, 70, 19.15 }, { 26, 70, 20.10 }, { 30, 80, 26.17 } };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    sw_assert_near (sw_drainage_dew_point (&magnus, cases[i][0], cases[i][1]), cases[i][2], 0.006);
}

/* By hand from the heat flow through a cylinder. */
static void
test_sweating (void)
{
  static const struct { double d, water, air, humidity, lambda, h, mm; } cases[] = {
    { 22, 10, 26, 70, 0.038, 8, 6.51 }, { 22, 10, 26, 70, 0.038, 5, 9.66 }, { 15, 10, 26, 70, 0.038, 8, 6.1 },
    { 28, 7, 30, 80, 0.038, 8, 16.5 },  { 110, 15, 26, 70, 0.038, 8, 4.0 }, { 22, 12, 26, 70, 0.040, 5, 8.4 },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      SwSweatCase sweat = { cases[i].d, cases[i].water, cases[i].air,
                            sw_drainage_dew_point (&magnus, cases[i].air, cases[i].humidity), cases[i].lambda, cases[i].h };
      sw_assert_near (sw_drainage_sweat_thickness (&sweat), cases[i].mm, 0.06);
    }
  SwSweatCase warm = { 22, 25, 26, 20.1, 0.04, 5 }, hopeless = { 22, 5, 26, 26, 0.04, 5 };
  sw_assert_near (sw_drainage_sweat_thickness (&warm), 0, 0);
  g_assert_true (isnan (sw_drainage_sweat_thickness (&hopeless)));
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/drainage/geometry", test_geometry);
  g_test_add_func ("/drainage/ratios", test_ratios);
  g_test_add_func ("/drainage/manning", test_manning);
  g_test_add_func ("/drainage/colebrook", test_colebrook);
  g_test_add_func ("/drainage/filling-edges", test_filling_edges);
  g_test_add_func ("/drainage/discharge", test_discharge);
  g_test_add_func ("/drainage/fall", test_fall);
  g_test_add_func ("/drainage/fall-by-depth", test_fall_by_depth);
  g_test_add_func ("/drainage/dew-point", test_dew_point);
  g_test_add_func ("/drainage/sweating", test_sweating);
  return g_test_run ();
}
