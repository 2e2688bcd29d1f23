/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/clip.h"
#include "base/random.h"
#include "base/tolerance.h"
#include "support.h"
#include <math.h>

/* A ring with random radii, concave, with a square hole about its middle. */
static SwRings *
random_area (SwRandom *random)
{
  SwRings *rings = sw_rings_new ();
  SwPoint points[24];
  guint n = sw_random_int (random, 3, 24);
  for (guint i = 0; i < n; i++)
    {
      double radius = sw_random_double (random, 600, 4000), turn = 2 * G_PI * i / n;
      points[i] = (SwPoint){ sw_grid_round (radius * cos (turn)), sw_grid_round (radius * sin (turn)) };
    }
  sw_rings_add (rings, points, n);
  if (n > 6 && sw_random_int (random, 0, 1))
    {
      const SwPoint hole[] = { { -200, -200 }, { 200, -200 }, { 200, 200 }, { -200, 200 } };
      sw_rings_add (rings, hole, 4);
    }
  return rings;
}

/* Cut in two, the areas add up; cut to a box, the area is what a set operation of another library says. */
static void
test_split (void)
{
  SwRandom random = { 17 };
  for (int round = 0; round < 300; round++)
    {
      g_autoptr (SwRings) area = random_area (&random);
      SwAlong along = round % 2 ? SW_ALONG_X : SW_ALONG_Y;
      double at = round % 5 == 0 ? 200 : sw_random_double (&random, -3000, 3000); /* 200: along the hole's side */
      SwRings *low, *high;
      sw_rings_split (area, along, at, &low, &high);
      sw_assert_near (sw_rings_area (low) + sw_rings_area (high), sw_rings_area (area), 200);
      SwBox below = sw_rings_box (low);
      g_assert_true (sw_rings_n (low) == 0 || (along == SW_ALONG_Y ? below.high.x : below.high.y) <= at + 1e-9);
      sw_rings_free (low);
      sw_rings_free (high);
      double from = sw_random_double (&random, -3000, 0), to = from + sw_random_double (&random, 100, 3000);
      g_autoptr (SwRings) strip = sw_rings_between (area, along, from, to);
      g_autoptr (SwRings) box = sw_rings_new ();
      SwBox all = { { along == SW_ALONG_Y ? from : -9000, along == SW_ALONG_Y ? -9000 : from },
                    { along == SW_ALONG_Y ? to : 9000, along == SW_ALONG_Y ? 9000 : to } };
      const SwPoint corners[] = { all.low, { all.high.x, all.low.y }, all.high, { all.low.x, all.high.y } };
      sw_rings_add (box, corners, 4);
      GError *error = NULL;
      g_autoptr (SwRings) other = sw_rings_combine (area, box, sw_region_intersect, &error);
      g_assert_no_error (error);
      sw_assert_near (sw_rings_area (strip), sw_rings_area (other), 600);
    }
}

/* By hand: a frame of 100 with a hole of 20 in the middle. */
static void
test_polygons (void)
{
  g_autoptr (SwRings) area = sw_rings_new ();
  const SwPoint outer[] = { { 0, 0 }, { 100, 0 }, { 100, 100 }, { 0, 100 } };
  const SwPoint hole[] = { { 40, 40 }, { 40, 60 }, { 60, 60 }, { 60, 40 } };
  const SwPoint island[] = { { 45, 45 }, { 55, 45 }, { 55, 55 }, { 45, 55 } };
  sw_rings_add (area, hole, 4);
  sw_rings_add (area, island, 4);
  sw_rings_add (area, outer, 4);
  sw_assert_near (sw_rings_area (area), 10000 - 400 + 100, 1e-9);
  g_autoptr (GPtrArray) polygons = sw_rings_polygons (area);
  g_assert_cmpuint (polygons->len, ==, 2);
  g_assert_cmpuint (sw_rings_n (polygons->pdata[0]), ==, 2);
  g_assert_cmpuint (sw_rings_n (polygons->pdata[1]), ==, 1);
  g_autoptr (GArray) ring = sw_rings_slit (polygons->pdata[0]);
  g_assert_cmpuint (ring->len, ==, 4 + 4 + 2);
  sw_assert_near (sw_outline_area ((SwPoint *) ring->data, ring->len), 9600, 1e-9);
  SwRings *low, *high;
  sw_rings_split (polygons->pdata[0], SW_ALONG_Y, 50, &low, &high);
  g_assert_cmpuint (sw_rings_n (low), ==, 1);
  sw_assert_near (sw_rings_area (low), 4800, 1e-9);
  sw_assert_near (sw_rings_area (high), 4800, 1e-9);
  sw_rings_free (low);
  sw_rings_free (high);
}

/* A batten of 38 in an L: only where both of its sides are inside. */
static void
test_band (void)
{
  g_autoptr (SwRings) area = sw_rings_new ();
  const SwPoint ell[] = { { 0, 0 }, { 3000, 0 }, { 3000, 1000 }, { 1000, 1000 }, { 1000, 2000 }, { 0, 2000 } };
  sw_rings_add (area, ell, 6);
  const struct { double at, length; } cases[] = { { 500, 2000 }, { 980, 2000 }, { 990, 1000 }, { 1500, 1000 }, { 10, 0 } };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GArray) room = g_array_new (FALSE, FALSE, sizeof (SwInterval));
      sw_rings_band (area, cases[i].at - 19, cases[i].at + 19, room);
      sw_assert_near (sw_intervals_sum (room), cases[i].length, 1e-9);
    }
  g_autoptr (GArray) seam = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  sw_rings_seam (area, SW_ALONG_X, 1000, 18, seam); /* the edge from 1,000 to 3,000 is no seam */
  sw_assert_near (sw_intervals_sum (seam), 1000, 1e-9);
}

static void
test_straighten (void)
{
  g_autoptr (SwRings) rings = sw_rings_new ();
  const SwPoint points[] = { { 0, 0 }, { 50, 0.01 }, { 100, 0 }, { 100, 100 }, { 100, 100 }, { 0, 100 }, { 0, 50 } };
  const SwPoint needle[] = { { 0, 0 }, { 900, 0.01 }, { 400, 0 } };
  sw_rings_add (rings, points, 7);
  sw_rings_add (rings, needle, 3);
  sw_rings_straighten (rings);
  g_assert_cmpuint (sw_rings_n (rings), ==, 1);
  g_assert_cmpuint (rings->points->len, ==, 4);
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/ceiling/clip/split", test_split);
  g_test_add_func ("/ceiling/clip/polygons", test_polygons);
  g_test_add_func ("/ceiling/clip/band", test_band);
  g_test_add_func ("/ceiling/clip/straighten", test_straighten);
  return g_test_run ();
}
