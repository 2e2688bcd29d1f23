/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tubes in a void's section: what was found keeps every clearance, and what is known by hand is found. */
#include "space/packing.h"
#include "base/random.h"
#include "support.h"
#include <math.h>

/* Distance of a circle from the four sides, by the plain formula for a point and a line. */
static double
to_sides (const SwPackCase *pack, SwPoint p, double radius, gboolean sides)
{
  double half = pack->mouth / 2, crown = pack->crown / 2, slope = hypot (half - crown, pack->depth);
  double right = fabs ((crown - half) * (0 - p.y) - (half - p.x) * (pack->depth - 0)) / slope;
  double left = fabs ((half - crown) * (0 - p.y) - (-half - p.x) * (pack->depth - 0)) / slope;
  return sides ? fmin (left, right) - radius : fmin (pack->depth - p.y - pack->top, p.y - pack->bottom) - radius;
}

static void
check_packing (const SwPackCase *pack, const SwPackTube *tubes, guint n)
{
  for (guint i = 0; i < n; i++)
    {
      g_assert_cmpfloat (to_sides (pack, tubes[i].at, tubes[i].radius, TRUE), >, pack->side - 1e-5);
      g_assert_cmpfloat (to_sides (pack, tubes[i].at, tubes[i].radius, FALSE), >, -1e-5);
      for (guint k = i + 1; k < n; k++)
        g_assert_cmpfloat (hypot (tubes[i].at.x - tubes[k].at.x, tubes[i].at.y - tubes[k].at.y), >, tubes[i].radius + tubes[k].radius + pack->between - 1e-5);
    }
}

static const SwPackCase bare = { .mouth = 500, .crown = 400, .depth = 250 };

/* By hand: three of 100 stand in a row in a box of 300, nine in three rows; a tenth has no place. */
static void
test_box (void)
{
  const SwPackCase box = { .mouth = 300, .crown = 300, .depth = 300 };
  SwPackTube tubes[10];
  for (int i = 0; i < 10; i++)
    tubes[i].radius = 50;
  g_assert_cmpint (sw_packing_find (&box, tubes, 9), ==, SW_PACK_FITS);
  check_packing (&box, tubes, 9);
  g_assert_cmpint (sw_packing_find (&box, tubes, 10), !=, SW_PACK_FITS);
  /* Two circles in the corners of a square of side a: 2r (1 + 1/√2) = a/… r = a/(2 + √2) is the known limit. */
  double most = 300 / (2 + sqrt (2));
  tubes[0].radius = tubes[1].radius = most - 1e-6;
  g_assert_cmpint (sw_packing_find (&box, tubes, 2), ==, SW_PACK_FITS);
  check_packing (&box, tubes, 2);
  tubes[0].radius = tubes[1].radius = most + 0.01;
  g_assert_cmpint (sw_packing_find (&box, tubes, 2), ==, SW_PACK_NOT_FOUND);
  /* Five circles in a square: r = a/(2 + 2√2) = 0.2071 a, one in the middle, four in the corners; known optimum. */
  for (int i = 0; i < 5; i++)
    tubes[i].radius = 300 * 0.207;
  g_assert_cmpint (sw_packing_find (&box, tubes, 5), ==, SW_PACK_FITS);
  check_packing (&box, tubes, 5);
}

static void
test_refused (void)
{
  SwPackTube tubes[24];
  for (int i = 0; i < 24; i++)
    tubes[i].radius = 60;
  g_assert_cmpint (sw_packing_find (&bare, tubes, 24), ==, SW_PACK_TOO_MUCH);
  tubes[3].radius = 126;
  g_assert_cmpint (sw_packing_find (&bare, tubes, 4), ==, SW_PACK_TOO_WIDE);
  g_assert_cmpint (sw_packing_find (&bare, tubes, 0), ==, SW_PACK_FITS);
}

/* The widest tube touches two sides and keeps from all; a hair more does not. */
static void
test_largest (void)
{
  SwPoint at;
  sw_assert_near (sw_packing_largest (&bare, &at), 250, 1e-9);
  /* Inscribed circle of a triangle of base 300 and height 400: r = 2 area / perimeter = 120000 / (300 + 2 · 427.2). */
  const SwPackCase peak = { .mouth = 300, .crown = 0, .depth = 400 };
  sw_assert_near (sw_packing_largest (&peak, &at), 2 * 120000 / (300 + 2 * hypot (150, 400)), 1e-6);
  const SwPackCase tight = { .mouth = 500, .crown = 400, .depth = 250, .side = 10, .top = 10, .bottom = 5, .between = 25 };
  double widest = sw_packing_largest (&tight, &at);
  SwPackTube one = { .radius = widest / 2 };
  g_assert_cmpint (sw_packing_find (&tight, &one, 1), ==, SW_PACK_FITS);
  check_packing (&tight, &one, 1);
  one.radius += 0.001;
  g_assert_cmpint (sw_packing_find (&tight, &one, 1), ==, SW_PACK_TOO_WIDE);
  const SwPackCase none = { .mouth = 20, .crown = 20, .depth = 250, .side = 10 };
  sw_assert_near (sw_packing_largest (&none, &at), 0, 1e-9);
}

/* By hand: beside a circle of 100 in the middle of a square of 300 a corner takes r with √2 (150 − r) = 50 + r: 134.3 wide. */
static void
test_beside (void)
{
  const SwPackTube there = { .radius = 50, .at = { 0, 150 } };
  const SwPackCase box = { .mouth = 300, .crown = 300, .depth = 300, .fixed = &there, .n_fixed = 1 };
  SwPoint at;
  double widest = sw_packing_largest_beside (&box, &at);
  sw_assert_near (widest, 2 * (150 * sqrt (2) - 50) / (1 + sqrt (2)), 0.06);
  SwPackTube four[5];
  for (int i = 0; i < 5; i++)
    four[i].radius = 62;
  g_assert_cmpint (sw_packing_find (&box, four, 4), ==, SW_PACK_FITS);
  check_packing (&box, four, 4);
  for (int i = 0; i < 4; i++)
    g_assert_cmpfloat (hypot (four[i].at.x, four[i].at.y - 150), >, 112 - 1e-5);
  g_assert_cmpint (sw_packing_find (&box, four, 5), !=, SW_PACK_FITS);
}

/* ⌊(w + g)/(D + g)⌋ between upright sides; 420 wide at 200 in the usual void. */
static void
test_row (void)
{
  const SwPackCase box = { .mouth = 300, .crown = 300, .depth = 300, .between = 25 };
  g_assert_cmpuint (sw_packing_row (&box, 100, 150), ==, 2);
  g_assert_cmpuint (sw_packing_row (&box, 40, 150), ==, 5);
  g_assert_cmpuint (sw_packing_row (&box, 40, 10), ==, 0);
  g_assert_cmpuint (sw_packing_row (&box, 301, 150), ==, 0);
  sw_assert_near (sw_packing_width (&bare, 200), 420, 1e-9);
}

/* Random sections and tubes: whatever is called a fit keeps its clearances, and tubes that were laid in a row are found. */
static void
test_random (void)
{
  SwRandom random = { 7 };
  int fits = 0;
  for (int round = 0; round < sw_test_rounds (300); round++)
    {
      SwPackCase pack = { .mouth = sw_random_double (&random, 200, 700), .depth = sw_random_double (&random, 100, 400), .side = sw_random_double (&random, 0, 20),
                          .top = sw_random_double (&random, 0, 20), .bottom = sw_random_double (&random, 0, 20), .between = sw_random_double (&random, 0, 40) };
      SwPackTube tubes[8];
      guint n = (guint) sw_random_int (&random, 1, 8);
      pack.crown = pack.mouth * sw_random_double (&random, 0.6, 1.1);
      for (guint i = 0; i < n; i++)
        tubes[i].radius = sw_random_double (&random, 8, 60);
      if (sw_packing_find (&pack, tubes, n) != SW_PACK_FITS)
        continue;
      check_packing (&pack, tubes, n);
      fits++;
    }
  g_assert_cmpint (fits, >, sw_test_rounds (300) / 4);
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/space/packing/box", test_box);
  g_test_add_func ("/space/packing/refused", test_refused);
  g_test_add_func ("/space/packing/largest", test_largest);
  g_test_add_func ("/space/packing/beside", test_beside);
  g_test_add_func ("/space/packing/row", test_row);
  g_test_add_func ("/space/packing/random", test_random);
  return g_test_run ();
}
