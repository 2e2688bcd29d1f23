/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/span.h"
#include "space/hanging.h"
#include "ceiling/setout.h"
#include "support.h"
#include <math.h>
#include <string.h>

static SwRules *
load_rules (void)
{
  return sw_test_rules ("south-africa");
}

/* Derived: bd³/12. */
static void
test_inertia (void)
{
  sw_assert_near (sw_span_rectangle (38, 38, 7800, 0).inertia, 173761, 1);
  sw_assert_near (sw_span_rectangle (38, 50, 7800, 0).inertia, 395833, 1);
  sw_assert_near (sw_span_rectangle (50, 50, 7800, 0).inertia, 520833, 1);
}

/* Derived: board 5.0 kg/m² and timber of 480 kg/m³ at 400 centres, 38 × 38, E 7,800: 5wL⁴/384EI by hand. */
static void
test_deflection (void)
{
  SwBattenSection timber = sw_span_rectangle (38, 38, 7800, 480 * 38 * 38 / 1e6);
  double load = sw_span_load (&timber, 5.0, 400);
  sw_assert_near (load, 0.02642, 0.02642e-3);
  SwSpanCheck check = sw_span_check (&timber, load, 900);
  sw_assert_near (check.deflection, 0.1665, 0.1665e-3);
  sw_assert_near (check.ratio, 5404, 5);
  sw_assert_near (check.moment, 2675, 3);
  sw_assert_near (check.stress, 0.292, 0.0006);
  check = sw_span_check (&timber, load, 1200);
  sw_assert_near (check.deflection, 0.5263, 0.0006);
  sw_assert_near (check.ratio, 2280, 3);
  sw_assert_near (sw_span_greatest (&timber, load, 360), 2220, 4.4);
  /* The greatest span sags by just its share. */
  double span = sw_span_greatest (&timber, load, 240);
  sw_assert_near (sw_span_check (&timber, load, span).ratio, 240, 1e-6);
  /* A cantilever of L/√48·… : wL⁴/8 is 9.6 times 5wL⁴/384 (handbook formulas). */
  double end = sw_span_check_cantilever (&timber, load, 900).deflection;
  sw_assert_near (end / sw_span_check (&timber, load, 900).deflection, 9.6, 1e-9);
}

/* Derived: 10 kg/m² × 0.4 m × 0.6 m × 9.81 = 23.54 N a crossing (board alone). */
static void
test_crossing (void)
{
  SwBattenSection weightless = sw_span_rectangle (38, 38, 7800, 0);
  sw_assert_near (sw_span_load (&weightless, 10, 400) * 600, 23.54, 0.005);
}

/* EN 1995-1-1 8.7.2 (from memory), worked by hand: d 6, 40 mm, 350 kg/m³. */
static void
test_withdrawal (void)
{
  GError *error = NULL;
  g_autoptr (SwRules) rules = load_rules ();
  double strength, newtons;
  g_assert_true (sw_hanging_screw_withdrawal (rules, 6, 40, 350, &strength, &newtons, &error));
  sw_assert_near (strength, 15.92, 15.92 * 2e-3);
  sw_assert_near (newtons, 2866, 2866 * 2e-3);
  sw_assert_near (sw_hanging_nail_withdrawal (rules, 3.1, 30, 350), 228, 0.5);
  g_assert_false (sw_hanging_screw_withdrawal (rules, 5, 40, 350, NULL, &newtons, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "6 to 12");
  g_assert_false (sw_hanging_screw_withdrawal (rules, 8, 40, 350, NULL, &newtons, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "48 mm or more");
}

/* ---- set-out ---- */

static double
line (SwSetoutLines lines, guint i)
{
  return g_array_index (lines.lines, double, i);
}

/* South African general specification: first batten's near face 38 mm off the wall; (3,600 − 114)/9 = 387.33, 10 battens. */
static void
test_even (void)
{
  SwSetout setout = { .length = 3600, .limit = 400, .first = 38 + 19, .width = 38 };
  SwSetoutLines lines = sw_setout_lines (&setout);
  g_assert_cmpuint (lines.lines->len, ==, 10);
  sw_assert_near (lines.centres, 387.333, 1e-3);
  sw_assert_near (line (lines, 0), 57, 1e-9);
  sw_assert_near (line (lines, 9), 3600 - 57, 1e-9);
  g_array_unref (lines.lines);
}

/* A narrower first and last bay, as thin boards ask for: none above 350 at walls nor above 400 elsewhere. */
static void
test_even_edges (void)
{
  for (double length = 300; length < 9000; length += 37.5)
    {
      SwSetout setout = { .length = length, .limit = 400, .edge_limit = 350, .first = 57, .width = 38 };
      SwSetoutLines lines = sw_setout_lines (&setout);
      sw_assert_near (line (lines, 0), 57, 1e-9);
      sw_assert_near (line (lines, lines.lines->len - 1), length - 57, 1e-9);
      for (guint i = 1; i < lines.lines->len; i++)
        {
          gboolean edge = i == 1 || i + 1 == lines.lines->len;
          g_assert_cmpfloat (line (lines, i) - line (lines, i - 1), <=, (edge ? 350 : 400) + 1e-6);
        }
      g_array_unref (lines.lines);
    }
}

/* Trade critique: 3,000 wants 375; 2,700 385.7; 2,400, 3,600 and 4,800 take 400. */
static void
test_dividing (void)
{
  sw_assert_near (sw_setout_dividing_centres (3000, 400), 375, 1e-9);
  sw_assert_near (sw_setout_dividing_centres (2700, 400), 385.714, 1e-3);
  sw_assert_near (sw_setout_dividing_centres (2700, 450), 450, 1e-9);
  sw_assert_near (sw_setout_dividing_centres (2400, 400), 400, 1e-9);
  sw_assert_near (sw_setout_dividing_centres (3600, 400), 400, 1e-9);
  sw_assert_near (sw_setout_dividing_centres (4800, 400), 400, 1e-9);
  g_assert_false (sw_setout_divides (3000, 400));
  g_assert_true (sw_setout_divides (3000, 375));
}

/* With joints: every multiple of the centres, a batten at both walls, and no gap above the limits. */
static void
test_grid (void)
{
  for (double length = 3001; length < 12000; length += 83)
    {
      SwSetout setout = { .length = length, .limit = 400, .edge_limit = 350, .first = 57, .width = 38, .sheet = 3000 };
      SwSetoutLines lines = sw_setout_lines (&setout);
      guint at = 0;
      sw_assert_near (lines.centres, 375, 1e-9);
      for (double x = 375; x < length - 19; x += 375)
        {
          while (at < lines.lines->len && line (lines, at) < x - 0.01)
            at++;
          sw_assert_near (line (lines, at), x, 1e-6);
        }
      for (guint i = 1; i < lines.lines->len; i++)
        {
          g_assert_cmpfloat (line (lines, i) - line (lines, i - 1), <=, 375 + 1e-6);
          g_assert_cmpfloat (line (lines, i) - line (lines, i - 1), >=, 38 - 1e-6);
        }
      g_assert_cmpfloat (line (lines, 0), <=, 57 + 38);
      g_assert_cmpfloat (length - line (lines, lines.lines->len - 1), <=, 57 + 38);
      g_array_unref (lines.lines);
    }
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/ceiling/span/inertia", test_inertia);
  g_test_add_func ("/ceiling/span/deflection", test_deflection);
  g_test_add_func ("/ceiling/span/crossing", test_crossing);
  g_test_add_func ("/ceiling/span/withdrawal", test_withdrawal);
  g_test_add_func ("/ceiling/setout/even", test_even);
  g_test_add_func ("/ceiling/setout/even-edges", test_even_edges);
  g_test_add_func ("/ceiling/setout/dividing", test_dividing);
  g_test_add_func ("/ceiling/setout/grid", test_grid);
  return g_test_run ();
}
