/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Places barred to an upright cylinder, judged by the clearance itself, which is found in another way. */
#include "geometry/shadow.h"
#include "geometry/outline.h"
#include "shapes.h"
#include "support.h"

#define EDGE_MM 0.3

static gboolean
holds (const GArray *outline, SwPoint p)
{
  return outline->len >= 3 && sw_outline_holds ((const SwPoint *) outline->data, outline->len, p);
}

/* A pair counts when it lies clear of the edge by more than the outline may be off. */
static void
judge (const Shape *shape, const SwUpright *upright, SwPoint at, guint counts[2])
{
  SwSolid cylinder = sw_solid_cylinder ((SwPoint3){ at.x, at.y, upright->low }, (SwPoint3){ at.x, at.y, upright->high }, upright->disc);
  g_autoptr (GArray) outline = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  gboolean any = sw_solid_shadow (&shape->solid, upright, outline);
  g_assert_cmpint (any, ==, outline->len > 0);
  double mm = sw_solid_clearance (&cylinder, &shape->solid, NULL), size = 1e-3 * (upright->disc + upright->clearance + shape->radius + shape->disc) + EDGE_MM;
  if (fabs (mm - upright->clearance) < size)
    return;
  gboolean barred = mm < upright->clearance;
  counts[barred]++;
  if (holds (outline, at) != barred)
    {
      g_autofree char *text = shapes_text (shape, shape);
      g_test_message ("%s; at %.3f %.3f, z %.3f to %.3f, disc %.3f, wanted %.3f, found %.3f", text, at.x, at.y, upright->low, upright->high, upright->disc,
                      upright->clearance, mm);
    }
  g_assert_cmpint (holds (outline, at), ==, barred);
}

static void
test_random (void)
{
  SwRandom random = { 2203 };
  guint counts[2] = { 0 };
  for (int round = 0; round < sw_test_rounds (4000); round++)
    {
      Shape shape, other;
      shapes_random_pair (&random, round % 4, &shape, &other);
      SwBox3 box = sw_solid_box3 (&shape.solid);
      double height = box.high.z - box.low.z + 50, breadth = box.high.x - box.low.x + 50, depth = box.high.y - box.low.y + 50;
      SwUpright upright = { .low = sw_random_double (&random, box.low.z - height / 2, box.high.z + 20) };
      upright.high = upright.low + sw_random_double (&random, 1, height);
      upright.disc = sw_random_double (&random, 1, 100);
      upright.clearance = round % 3 == 0 ? 0 : sw_random_double (&random, 1, 60);
      SwPoint at = { sw_random_double (&random, box.low.x - breadth / 2, box.high.x + breadth / 2),
                     sw_random_double (&random, box.low.y - depth / 2, box.high.y + depth / 2) };
      judge (&shape, &upright, at, counts);
    }
  g_assert_cmpuint (counts[0], >, (guint) sw_test_rounds (4000) / 10);
  g_assert_cmpuint (counts[1], >, (guint) sw_test_rounds (4000) / 10);
}

/* By hand: a batten 38 wide, a body 86 across, 50 beside it: barred 19 + 43 + 50 = 112 each side of its middle. */
static void
test_batten (void)
{
  SwSolid batten = sw_solid_box_upright ((SwBox3){ { -19, -1000, -38 }, { 19, 1000, 0 } });
  SwUpright upright = { -50.5, 40, 43, 50 };
  g_autoptr (GArray) outline = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  g_assert_true (sw_solid_shadow (&batten, &upright, outline));
  SwBox box = sw_outline_box ((const SwPoint *) outline->data, outline->len);
  sw_assert_near (box.low.x, -112, 1e-6);
  sw_assert_near (box.high.x, 112, 1e-6);
  sw_assert_near (box.high.y, 1093, 1e-6);
  g_assert_cmpfloat (sw_outline_area ((const SwPoint *) outline->data, outline->len), >, 0); /* counter-clockwise */
}

/* What hangs higher than the clearance bars nothing; a body of 28 in battens of 38, by hand 10 below the rib, fits under it. */
static void
test_under_rib (void)
{
  SwSolid rib = sw_solid_box_upright ((SwBox3){ { -50, -1000, 0 }, { 50, 1000, 250 } });
  SwUpright slim = { -50.5, -10, 43, 10 }, thick = { -50.5, -9, 43, 10 };
  g_autoptr (GArray) outline = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  g_assert_false (sw_solid_shadow (&rib, &slim, outline));
  g_assert_true (sw_solid_shadow (&rib, &thick, outline));
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/geometry/shadow/random", test_random);
  g_test_add_func ("/geometry/shadow/batten", test_batten);
  g_test_add_func ("/geometry/shadow/under-rib", test_under_rib);
  return g_test_run ();
}
