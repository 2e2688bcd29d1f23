/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "geometry/outline.h"
#include "base/random.h"
#include "base/tolerance.h"
#include "support.h"
#include <string.h>

#define RING(...) (const SwPoint[]){ __VA_ARGS__ }, G_N_ELEMENTS (((const SwPoint[]){ __VA_ARGS__ }))

/* An L: 6 × 4 m with a 4 × 3 m corner left out. Area 24 − 12 = 12 m². */
static const SwPoint ell[] = { { 0, 0 }, { 6000, 0 }, { 6000, 1000 }, { 2000, 1000 }, { 2000, 4000 }, { 0, 4000 } };
/* A comb with two teeth upwards. */
static const SwPoint comb[] = { { 0, 0 }, { 5000, 0 }, { 5000, 3000 }, { 4000, 3000 },
                                { 4000, 1000 }, { 1000, 1000 }, { 1000, 3000 }, { 0, 3000 } };

static SwOutlineFault
fault (const SwPoint *points, gsize n, gsize *where)
{
  *where = 99;
  return sw_outline_check (points, n, where);
}

static void
test_check (void)
{
  gsize where;
  g_assert_cmpint (fault (ell, 6, &where), ==, SW_OUTLINE_GOOD);
  g_assert_cmpint (fault (comb, 8, &where), ==, SW_OUTLINE_GOOD);
  g_assert_cmpint (fault (ell, 2, &where), ==, SW_OUTLINE_FEW);
  g_assert_cmpint (fault (RING ({ 0, 0 }, { 1, NAN }, { 5, 5 }), &where), ==, SW_OUTLINE_NUMBER);
  g_assert_cmpuint (where, ==, 1);
  g_assert_cmpint (fault (RING ({ 0, 0 }, { 100, 0 }, { INFINITY, 5 }), &where), ==, SW_OUTLINE_NUMBER);
  g_assert_cmpuint (where, ==, 2);
  g_assert_cmpint (fault (RING ({ 1.1e7, 0 }, { 100, 0 }, { 0, 5 }), &where), ==, SW_OUTLINE_NUMBER);
  g_assert_cmpint (fault (RING ({ 0, 0 }, { 100, 0 }, { 100.04, 0 }, { 0, 90 }), &where), ==, SW_OUTLINE_REPEAT);
  g_assert_cmpuint (where, ==, 2);
  g_assert_cmpint (fault (RING ({ 0, 0 }, { 100, 0 }, { 0, 90 }, { 0, 0 }), &where), ==, SW_OUTLINE_REPEAT);
  g_assert_cmpuint (where, ==, 0);
  g_assert_cmpint (fault (RING ({ 0, 0 }, { 100, 0 }, { 50, 0.01 }, { 20, 0 }), &where), ==, SW_OUTLINE_FLAT);
  g_assert_cmpint (sw_outline_check (ell, 6, NULL), ==, SW_OUTLINE_GOOD);
}

static void
test_check_crossing (void)
{
  gsize where;
  /* Bow-tie: sides 0 and 2 cross. */
  g_assert_cmpint (fault (RING ({ 0, 0 }, { 100, 100 }, { 100, 0 }, { 0, 100 }), &where), ==, SW_OUTLINE_CROSSES);
  g_assert_cmpuint (where, ==, 0);
  /* A corner that touches an earlier side (1) from inside. */
  g_assert_cmpint (fault (RING ({ 0, 0 }, { 100, 0 }, { 100, 100 }, { 60, 100 }, { 100, 50 }, { 0, 100 }), &where), ==,
                   SW_OUTLINE_CROSSES);
  g_assert_cmpuint (where, ==, 1);
  /* A spike that folds back on itself: side 2 out, side 3 back. */
  g_assert_cmpint (fault (RING ({ 0, 0 }, { 100, 0 }, { 100, 50 }, { 200, 50 }, { 100, 50.02 }, { 0, 50 }), &where), ==,
                   SW_OUTLINE_CROSSES);
  g_assert_cmpuint (where, ==, 1);
  /* Straight on through a point is no fault; neither is a needle that stays open. */
  g_assert_cmpint (fault (RING ({ 0, 0 }, { 50, 0 }, { 100, 0 }, { 0, 100 }), &where), ==, SW_OUTLINE_GOOD);
  g_assert_cmpint (fault (RING ({ 0, 0 }, { 1000, 0 }, { 0, 1 }), &where), ==, SW_OUTLINE_GOOD);
  for (int i = 0; i <= SW_OUTLINE_FLAT; i++)
    g_assert_cmpint (strlen (sw_outline_fault_text (i)), >, 4);
}

/* A ring round (0, 0) with random radii: concave, never crossing. */
static gsize
random_star (SwRandom *random, SwPoint *points, gsize most)
{
  gsize n = sw_random_int (random, 4, most);
  for (gsize i = 0; i < n; i++)
    {
      double radius = sw_random_double (random, 200, 5000), turn = 2 * G_PI * i / n;
      points[i] = (SwPoint){ sw_grid_round (radius * cos (turn)), sw_grid_round (radius * sin (turn)) };
    }
  return n;
}

/* Oracle: every pair of sides by exact signs; grid coordinates in hundredths fit 64-bit integers. */
static int
turn_of (SwPoint a, SwPoint b, SwPoint c)
{
  gint64 ax = llround (a.x * 100), ay = llround (a.y * 100), bx = llround (b.x * 100), by = llround (b.y * 100);
  gint64 cx = llround (c.x * 100), cy = llround (c.y * 100);
  gint64 cross = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
  return cross > 0 ? 1 : cross < 0 ? -1 : 0;
}

static gsize
slow_first_crossing (const SwPoint *p, gsize n)
{
  for (gsize i = 0; i < n; i++)
    for (gsize j = i + 2; j < n; j++)
      {
        SwPoint a = p[i], b = p[i + 1], c = p[j], d = p[(j + 1) % n];
        if ((i > 0 || j + 1 < n) && turn_of (a, b, c) * turn_of (a, b, d) < 0 && turn_of (c, d, a) * turn_of (c, d, b) < 0)
          return i;
      }
  return n;
}

/* A corner within a touch of a side that is not its own: a fault that the signs do not show. */
static gboolean
touches (const SwPoint *p, gsize n)
{
  for (gsize i = 0; i < n; i++)
    for (gsize j = 0; j < n; j++)
      if (j != i && (j + 1) % n != i
          && sw_outline_distance ((SwPoint[]){ p[j], p[(j + 1) % n] }, 2, p[i], NULL, NULL) < SW_TOUCH_MM)
        return TRUE;
  return FALSE;
}

static void
test_check_random (void)
{
  SwRandom random = { 7 };
  SwPoint points[40];
  int crossed = 0, rounds = sw_test_rounds (3000);
  for (int round = 0; round < rounds; round++)
    {
      gsize where, n = random_star (&random, points, 40);
      for (int swap = round % 3; swap > 0; swap--)
        {
          gsize i = sw_random_int (&random, 0, n - 1), j = sw_random_int (&random, 0, n - 1);
          SwPoint kept = points[i];
          points[i] = points[j];
          points[j] = kept;
        }
      gsize slow = slow_first_crossing (points, n);
      if (touches (points, n))
        continue;
      SwOutlineFault found = sw_outline_check (points, n, &where);
      g_assert_cmpint (found, ==, slow == n ? SW_OUTLINE_GOOD : SW_OUTLINE_CROSSES);
      if (slow < n)
        g_assert_cmpuint (where, ==, slow);
      crossed += slow < n;
    }
  g_assert_cmpint (crossed, >, rounds / 6);
}

static void
test_figures (void)
{
  SwPoint far[6];
  for (int i = 0; i < 6; i++)
    far[i] = sw_point_add (ell[5 - i], (SwPoint){ 9e6, -9e6 });
  sw_assert_near (sw_outline_area (ell, 6), 12e6, 1e-6);
  sw_assert_near (sw_outline_area (far, 6), -12e6, 1e-6);
  sw_assert_near (sw_outline_perimeter (ell, 6), 20000, 1e-9);
  SwBox box = sw_outline_box (comb, 8);
  g_assert_true (box.low.x == 0 && box.low.y == 0 && box.high.x == 5000 && box.high.y == 3000);
  g_assert_true (sw_box_is_empty (sw_outline_box (comb, 0)));
  gsize side = 99;
  SwPoint nearest;
  sw_assert_near (sw_outline_distance (ell, 6, (SwPoint){ 3000, 1500 }, &side, &nearest), 500, 1e-9);
  g_assert_cmpuint (side, ==, 2);
  g_assert_true (nearest.x == 3000 && nearest.y == 1000);
  sw_assert_near (sw_outline_distance (ell, 6, (SwPoint){ 6300, -400 }, NULL, NULL), 500, 1e-9);
}

static void
test_holds (void)
{
  g_assert_true (sw_outline_holds (ell, 6, (SwPoint){ 1000, 3000 }));
  g_assert_false (sw_outline_holds (ell, 6, (SwPoint){ 3000, 3000 }));
  g_assert_true (sw_outline_holds (ell, 6, (SwPoint){ 2000.04, 2000 }));
  g_assert_false (sw_outline_holds (ell, 6, (SwPoint){ 2000.06, 2000 }));
  g_assert_true (sw_outline_holds (ell, 6, (SwPoint){ 0, 0 }));
  g_assert_true (sw_outline_holds (ell, 6, (SwPoint){ 6000.03, 1000 }));
  g_assert_false (sw_outline_holds (ell, 6, (SwPoint){ 1000, 4000.2 }));
  g_assert_false (sw_outline_holds (comb, 8, (SwPoint){ 2500, 1000.1 }));
  g_assert_false (sw_outline_holds (ell, 2, (SwPoint){ 0, 0 }));
}

/* The label point is inside, and no deeper point is found on a fine grid than 1 % of the box more. */
static void
check_label (const SwPoint *points, gsize n)
{
  SwPoint label = sw_outline_label_point (points, n);
  double depth = sw_outline_distance (points, n, label, NULL, NULL), deepest = 0;
  g_assert_true (sw_outline_holds (points, n, label));
  SwBox box = sw_outline_box (points, n);
  double step = fmax (box.high.x - box.low.x, box.high.y - box.low.y) / 150;
  for (double x = box.low.x; x <= box.high.x; x += step)
    for (double y = box.low.y; y <= box.high.y; y += step)
      if (sw_outline_holds (points, n, (SwPoint){ x, y }))
        deepest = fmax (deepest, sw_outline_distance (points, n, (SwPoint){ x, y }, NULL, NULL));
  g_assert_cmpfloat (depth, >=, deepest - 1.5 * step);
  g_assert_cmpfloat (depth, >, 0);
}

static void
test_label (void)
{
  check_label (ell, 6);
  check_label (comb, 8);
  SwRandom random = { 11 };
  SwPoint points[24];
  for (int i = 0; i < 15; i++)
    check_label (points, random_star (&random, points, 24));
  /* A corridor 1.2 m wide and 300 m long round a corner: still inside, and in the middle of its width. */
  const SwPoint corridor[] = { { 0, 0 }, { 300000, 0 }, { 300000, 300000 }, { 298800, 300000 }, { 298800, 1200 }, { 0, 1200 } };
  SwPoint label = sw_outline_label_point (corridor, 6);
  g_assert_cmpfloat (sw_outline_distance (corridor, 6, label, NULL, NULL), >, 550);
}

static GArray *
cut (const SwPoint *points, gsize n, SwPoint origin, SwPoint direction)
{
  GArray *list = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  sw_outline_cut (points, n, origin, direction, list);
  return list;
}

static void
check_cut (const SwPoint *points, gsize n, SwPoint origin, SwPoint direction, const char *expected)
{
  g_autoptr (GArray) list = cut (points, n, origin, direction);
  g_autoptr (GString) text = g_string_new (NULL);
  for (guint i = 0; i < list->len; i++)
    g_string_append_printf (text, "%s%.0f-%.0f", i ? " " : "", g_array_index (list, SwInterval, i).low,
                            g_array_index (list, SwInterval, i).high);
  g_assert_cmpstr (text->str, ==, expected);
}

static void
test_cut (void)
{
  SwPoint east = { 1, 0 }, north = { 0, 1 };
  check_cut (comb, 8, (SwPoint){ 0, 500 }, east, "0-5000");
  check_cut (comb, 8, (SwPoint){ 0, 2000 }, east, "0-1000 4000-5000");
  check_cut (comb, 8, (SwPoint){ 0, 1000 }, east, "0-5000");      /* along the bottom of the gap */
  check_cut (comb, 8, (SwPoint){ 0, 3000 }, east, "0-1000 4000-5000"); /* along the tops of the teeth */
  check_cut (comb, 8, (SwPoint){ 0, 0.004 }, east, "0-5000");
  check_cut (comb, 8, (SwPoint){ 0, 3000.2 }, east, "");
  check_cut (comb, 8, (SwPoint){ 1000, 9000 }, (SwPoint){ 0, -1 }, "6000-9000"); /* along a tooth's side */
  check_cut (comb, 8, (SwPoint){ 2500, 0 }, north, "0-1000");
  check_cut (ell, 6, (SwPoint){ 6000, 0 }, north, "0-1000");
  check_cut (ell, 6, (SwPoint){ 7000, 0 }, (SwPoint){ -M_SQRT1_2, M_SQRT1_2 }, ""); /* passes the corner (6000, 1000) only */
  check_cut (ell, 2, (SwPoint){ 0, 0 }, east, "");
}

/* Against sw_outline_holds at points along random lines through random concave outlines. */
static void
test_cut_random (void)
{
  SwRandom random = { 3 };
  SwPoint points[30];
  for (int round = 0; round < sw_test_rounds (400); round++)
    {
      gsize n = random_star (&random, points, 30);
      double turn = round % 2 ? sw_random_double (&random, 0, 7) : 0; /* level through a corner, and any */
      SwPoint origin = points[sw_random_int (&random, 0, n - 1)], along = { cos (turn), sin (turn) };
      g_autoptr (GArray) list = cut (points, n, origin, along);
      for (int k = 0; k < 300; k++)
        {
          double t = sw_random_double (&random, -10000, 10000);
          SwPoint p = sw_point_add (origin, sw_point_scale (along, t));
          gboolean covered = FALSE;
          for (guint i = 0; i < list->len; i++)
            {
              SwInterval piece = g_array_index (list, SwInterval, i);
              covered |= piece.low <= t && t <= piece.high;
              g_assert_true (piece.low < piece.high && (i == 0 || piece.low > g_array_index (list, SwInterval, i - 1).high));
            }
          if (sw_outline_distance (points, n, p, NULL, NULL) > 0.1)
            g_assert_cmpint (covered, ==, sw_outline_holds (points, n, p));
        }
    }
}

static GArray *
list_of (gsize n, const double *ends)
{
  GArray *list = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  g_array_append_vals (list, ends, n / 2);
  return list;
}

static void
check_list (GArray *list, const char *expected)
{
  g_autoptr (GString) text = g_string_new (NULL);
  for (guint i = 0; i < list->len; i++)
    g_string_append_printf (text, "%s%g-%g", i ? " " : "", g_array_index (list, SwInterval, i).low,
                            g_array_index (list, SwInterval, i).high);
  g_assert_cmpstr (text->str, ==, expected);
}

static void
test_intervals (void)
{
  g_autoptr (GArray) a = list_of (6, (double[]){ 0, 10, 20, 30, 40, 50 });
  g_autoptr (GArray) b = list_of (6, (double[]){ 5, 22, 29.98, 41, 45, 46 });
  sw_intervals_intersect (a, b);
  check_list (a, "5-10 20-22 40-41 45-46"); /* 29.98–30 is shorter than a touch */
  sw_intervals_subtract (a, 21, 40.5);
  check_list (a, "5-10 20-21 40.5-41 45-46");
  sw_intervals_subtract (a, 6, 7);
  check_list (a, "5-6 7-10 20-21 40.5-41 45-46");
  sw_intervals_subtract (a, 50, 40);
  sw_intervals_subtract (a, 46, 60);
  check_list (a, "5-6 7-10 20-21 40.5-41 45-46");
  sw_intervals_subtract (a, -INFINITY, INFINITY);
  check_list (a, "");
  sw_intervals_intersect (a, b);
  check_list (a, "");
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/geometry/outline/check", test_check);
  g_test_add_func ("/geometry/outline/check-crossing", test_check_crossing);
  g_test_add_func ("/geometry/outline/check-random", test_check_random);
  g_test_add_func ("/geometry/outline/figures", test_figures);
  g_test_add_func ("/geometry/outline/holds", test_holds);
  g_test_add_func ("/geometry/outline/label", test_label);
  g_test_add_func ("/geometry/outline/cut", test_cut);
  g_test_add_func ("/geometry/outline/cut-random", test_cut_random);
  g_test_add_func ("/geometry/outline/intervals", test_intervals);
  return g_test_run ();
}
