/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "geometry/solid.h"
#include "base/tolerance.h"
#include "shapes.h"
#include "support.h"

#define PROVEN_MM 0.002 /* clearances of bodies apart */
#define DEPTH_MM  0.005
#define POINT_MM  0.02 /* where an overlapping cylinder is left: the depth is flat in the direction there */

static gboolean
is_curved (const Shape *s)
{
  return s->disc > 0;
}

/* Apart: the points lie on both bodies, which bounds the distance from above; the direction parts the bodies by as much,
 * which bounds it from below. Both together prove it. */
static const char *
fault_apart (const Shape *a, const Shape *b, const SwClearance *c, double slack)
{
  SwPoint3 back = sw_point3_scale (c->away, -1);
  SwPoint3 a_core = sw_point3_add (c->on_first, sw_point3_scale (c->away, a->radius));
  SwPoint3 b_core = sw_point3_sub (c->on_second, sw_point3_scale (c->away, b->radius));
  double parted = -shape_extent (a, back) - shape_extent (b, c->away);
  if (fabs (parted - c->mm) > slack)
    return "direction does not part them by the clearance";
  if (shape_core_excess (a, a_core) > slack || shape_core_excess (b, b_core) > slack)
    return "a point is not on its body";
  if (fabs (sw_point3_distance (c->on_first, c->on_second) - c->mm) > slack)
    return "points are not the clearance apart";
  return NULL;
}

static const char *
fault_overlap (const Shape *a, const Shape *b, const SwClearance *c, double slack)
{
  double needed = shape_extent (a, sw_point3_scale (c->away, -1)) + shape_extent (b, c->away);
  if (fabs (needed + c->mm) > slack)
    return "moving by the depth does not make it a touch";
  if (shapes_searched_depth (a, b, 300) < -c->mm - slack)
    return "a search finds a shorter way out";
  double off = slack > PROVEN_MM ? POINT_MM : slack;
  SwPoint3 a_core = sw_point3_add (c->on_first, sw_point3_scale (c->away, a->radius));
  SwPoint3 b_core = sw_point3_sub (c->on_second, sw_point3_scale (c->away, b->radius));
  if (shape_core_excess (a, a_core) > off || shape_core_excess (b, b_core) > off)
    return "a point is not on its body";
  SwPoint3 moved = sw_point3_sub (c->on_first, sw_point3_scale (c->away, c->mm));
  return sw_point3_distance (moved, c->on_second) > slack ? "points are not the depth apart along the direction" : NULL;
}

static const char *
fault_of (Shape *a, Shape *b, SwClearance *c)
{
  double slack = is_curved (a) || is_curved (b) ? DEPTH_MM : PROVEN_MM;
  double mm = sw_solid_clearance (&a->solid, &b->solid, c);
  if (mm != c->mm || !(fabs (sw_point3_length (c->away) - 1) < 1e-9))
    return "value or direction is not plain";
  if (sw_solid_clearance (&a->solid, &b->solid, NULL) != mm)
    return "other value without the points";
  const char *fault = mm > 0 ? fault_apart (a, b, c, PROVEN_MM) : fault_overlap (a, b, c, slack);
  if (fault)
    return fault;
  if (fabs (sw_solid_clearance (&b->solid, &a->solid, NULL) - mm) > slack)
    return "differs when the two change places";
  SwSolid touching = sw_solid_moved (&a->solid, sw_point3_scale (c->away, -mm));
  return fabs (sw_solid_clearance (&touching, &b->solid, NULL)) > slack ? "moved by the clearance it is no touch" : NULL;
}

static void
test_random (gconstpointer data)
{
  int mode = GPOINTER_TO_INT (data), pairs = g_test_slow () ? 200000 : sw_test_rounds (3000), faults = 0, apart = 0;
  SwRandom random = { 100 + mode };
  for (int i = 0; i < pairs; i++)
    {
      Shape a, b;
      SwClearance c;
      shapes_random_pair (&random, mode, &a, &b);
      const char *fault = fault_of (&a, &b, &c);
      apart += c.mm > 0;
      if (fault == NULL || faults++ > 3)
        continue;
      g_autofree char *text = shapes_text (&a, &b);
      g_test_message ("pair %d: %s: %.6f searched %.6f\n%s", i, fault, c.mm, -shapes_searched_depth (&a, &b, 20000), text);
    }
  g_assert_cmpint (faults, ==, 0);
  g_assert_cmpint (apart, >, pairs / 50);
  g_assert_cmpint (apart, <, pairs);
}

/* ---- cases by hand ---- */

#define P3(x, y, z) ((SwPoint3){ x, y, z })

/* The clearance both ways round, with a good direction and points, here and 9 km off. */
static void
check_case (SwSolid a, SwSolid b, double expected)
{
  for (int i = 0; i < 4; i++)
    {
      SwPoint3 shift = i & 2 ? P3 (9e6, -9e6, 0) : P3 (0, 0, 0);
      SwSolid first = sw_solid_moved (i & 1 ? &b : &a, shift), second = sw_solid_moved (i & 1 ? &a : &b, shift);
      SwClearance c;
      sw_assert_near (sw_solid_clearance (&first, &second, &c), expected, 0.005);
      sw_assert_near (sw_point3_length (c.away), 1, 1e-9);
      sw_assert_near (sw_point3_distance (c.on_first, c.on_second), fabs (expected), 0.005);
      SwSolid touching = sw_solid_moved (&first, sw_point3_scale (c.away, -c.mm));
      sw_assert_near (sw_solid_clearance (&touching, &second, NULL), 0, 0.005);
    }
}

static SwSolid
tube (double x, double y, double z, double to_x, double to_y, double to_z, double radius)
{
  return sw_solid_tube (P3 (x, y, z), P3 (to_x, to_y, to_z), radius);
}

static SwSolid
upright (double x, double y, double z, double high, double radius)
{
  return sw_solid_cylinder (P3 (x, y, z), P3 (x, y, z + high), radius);
}

static SwSolid
box (double x, double y, double z, double to_x, double to_y, double to_z)
{
  return sw_solid_box_upright ((SwBox3){ P3 (x, y, z), P3 (to_x, to_y, to_z) });
}

static void
test_tubes (void)
{
  SwSolid run = tube (0, 0, 0, 1000, 0, 0, 50);
  check_case (run, tube (0, 100, 0, 1000, 100, 0, 50), 0);          /* side by side, tangent */
  check_case (run, tube (300, 100.01, 0, 700, 100.01, 0, 50), 0.01); /* one grid step apart */
  check_case (run, tube (300, 99.99, 0, 700, 99.99, 0, 50), -0.01);
  check_case (run, tube (0, 100, 0, 1000, 100.001, 0, 50), 0);      /* parallel but for a hair */
  check_case (run, tube (1200, 0, 0, 2000, 0, 0, 50), 100);         /* one after the other */
  check_case (run, tube (1000, 0, 0, 2000, 0, 0, 25), -75);         /* end on end */
  check_case (run, run, -100);
  check_case (run, tube (200, 0, 0, 800, 0, 0, 20), -70);           /* inside */
  check_case (run, tube (500, -400, 0, 500, 400, 0, 30), -80);      /* cross */
  check_case (run, tube (500, -400, 90, 500, 400, 90, 30), 10);
  check_case (run, tube (500, 0, 60, 500, 0, 600, 10), 0);          /* a drop that just reaches it */
  check_case (run, tube (1300, 400, 0, 1300, 400, 0, 25), 425);     /* a ball: 3-4-5 from the end */
  check_case (tube (7, 7, 7, 7, 7, 7, 3), tube (7, 7, 7, 7, 7, 7, 4), -7);
  check_case (tube (0, 0, 0, 0, 0, 0, 0), tube (3, 4, 0, 3, 4, 0, 0), 5);
  SwClearance c;
  SwSolid over = tube (500, -400, 60, 500, 400, 60, 30);
  sw_solid_clearance (&over, &run, &c);
  g_assert_true (c.away.z == 1 && fabs (c.on_first.z - 30) < 1e-9 && fabs (c.on_second.z - 50) < 1e-9);
}

static void
test_boxes (void)
{
  SwSolid a = box (0, 0, 0, 100, 200, 300);
  check_case (a, box (100, 0, 0, 200, 200, 300), 0); /* face on face */
  check_case (a, box (100, 200, 300, 150, 250, 350), 0); /* corner on corner */
  check_case (a, box (102, 203, 306, 150, 250, 350), 7); /* 2, 3, 6: diagonal 7 */
  check_case (a, box (103, 204, 0, 150, 250, 350), 5);
  check_case (a, a, -100);
  check_case (a, box (90, 50, 50, 95, 60, 60), -10); /* inside, near one face */
  check_case (a, box (40, -50, -50, 60, 250, 350), -60); /* right through */
  check_case (a, sw_solid_box (P3 (20, 30, 40), P3 (50, 0, 0), P3 (0, 50, 0), P3 (0, 0, 0)), -40); /* a plate, pulled down */
  check_case (a, sw_solid_box (P3 (20, 30, 310), P3 (50, 0, 0), P3 (0, 0, 0), P3 (0, 50, 0)), 10);
  check_case (a, sw_solid_box (P3 (20, 30, 310), P3 (0, 0, 0), P3 (50, 0, 0), P3 (0, 50, 0)), 10);
  /* Edge over edge, crossing at 90°: ridge of a box turned by 45° above an edge turned the other way. */
  SwSolid below = sw_solid_box (P3 (-500, 0, -100), P3 (1000, 0, 0), P3 (0, 100, 100), P3 (0, -100, 100));
  SwSolid above = sw_solid_box (P3 (0, -500, 110), P3 (0, 1000, 0), P3 (100, 0, 100), P3 (-100, 0, 100));
  check_case (below, above, 10);
  SwSolid lower = sw_solid_moved (&above, P3 (0, 0, -30));
  check_case (below, lower, -20);
}

/* A rib: trapezoid 120 wide at the soffit, 420 at the crown, 200 deep: faces slope 150 in 200, a 3-4-5. */
static void
test_rib (void)
{
  const SwPoint section[] = { { -60, 0 }, { 60, 0 }, { 210, 200 }, { -210, 200 } };
  SwSolid rib;
  g_assert_true (sw_solid_prism (&rib, P3 (0, 0, 0), P3 (1, 0, 0), P3 (0, 0, 1), section, 4, P3 (0, 6000, 0), NULL));
  check_case (rib, tube (0, 100, -50, 0, 5000, -50, 20), 30);       /* hung below, along it */
  check_case (rib, tube (-900, 3000, -21, 900, 3000, -21, 21), 0);  /* crossing below */
  check_case (rib, tube (160, 100, 0, 160, 5000, 0, 55), 25);       /* in the void: (100, 0) to the face is 100 · 4/5 */
  check_case (rib, tube (110, 100, 0, 110, 5000, 0, 55), -15);      /* 50 · 4/5 − 55 */
  check_case (rib, tube (-900, 3000, 100, 900, 3000, 100, 10), -110); /* right through the middle: down by 100 + 10 */
  check_case (rib, tube (85, 100, 100, 85, 5000, 100, 10), -50);    /* inside: 50 · 4/5 from the face, and the radius */
  check_case (rib, tube (0, 6100, 100, 0, 7000, 100, 30), 70);      /* past the end */
  check_case (rib, tube (0, 6030, 100, 0, 6030, 100, 30), 0);       /* a ball that touches the end */
  check_case (rib, upright (0, 3000, -150, 100, 60), 50);           /* a can below */
  check_case (rib, upright (110, 3000, -100, 150, 40), -22); /* rim at (70, 50): 10 · 4/5 − 50 · 3/5 */
}

static void
test_cylinders (void)
{
  SwSolid can = upright (0, 0, 0, 100, 50);
  check_case (can, box (-500, -500, -20, 500, 500, 0), 0);      /* standing on a board */
  check_case (can, box (-500, -500, 100.01, 500, 500, 120), 0.01);
  check_case (can, box (50, -500, 20, 70, 500, 30), 0);         /* tangent to a batten */
  check_case (can, box (33, 44, 20, 70, 500, 30), 5);           /* a corner 55 off the axis */
  check_case (can, box (24, 32, 20, 70, 500, 30), -10);         /* and 40 off */
  check_case (can, box (-500, -500, 90, 500, 500, 120), -10);
  check_case (can, upright (120, 0, 0, 100, 50), 20);
  check_case (can, upright (30, 40, 100, 80, 60), 0);           /* rim on face */
  check_case (can, upright (0, 0, 130, 10, 10), 30);            /* coaxial, one above the other */
  check_case (upright (0, 0, 0, 400, 100), upright (0, 0, 0, 400, 50), -150);
  check_case (upright (0, 0, 0, 400, 100), upright (0, 0, 150, 100, 50), -150);
  check_case (upright (0, 0, 0, 100, 100), upright (0, 0, 0, 100, 50), -100);
  check_case (upright (0, 0, 0, 400, 100), upright (40, 30, 150, 100, 30), -80);
  check_case (can, can, -100);
  check_case (can, tube (0, 0, -500, 0, 0, 500, 10), -60);      /* a rod down the axis */
  check_case (can, tube (-500, 0, 50, 500, 0, 50, 10), -60);
  check_case (can, tube (0, 0, 120, 0, 0, 500, 20), 0);
  check_case (can, tube (80, 0, 140, 80, 0, 140, 10), 40);      /* 3-4-5 off the rim */
  check_case (can, tube (50, -300, 100, 50, 300, 100, 0), 0);   /* a line that grazes the rim */
  check_case (upright (0, 0, 0, 0, 50), upright (60, 0, 0, 0, 50), 0); /* two discs in one plane */
  check_case (upright (0, 0, 0, 0, 50), upright (0, 0, 3, 0, 50), 3);
  SwSolid round = sw_solid_grown (&can, 20);
  check_case (round, tube (80, 0, 140, 80, 0, 140, 10), 20);
}

static void
test_prism_errors (void)
{
  static const struct { const char *part; gsize n; SwPoint section[5]; } bad[] = {
    { "needs 3 to 16", 2, { { 0, 0 }, { 10, 0 } } },
    { "point 2 makes it hollow", 4, { { 0, 0 }, { 10, 0 }, { 3, 3 }, { 0, 10 } } },
    { "point 1 makes it hollow or repeats", 4, { { 0, 0 }, { 0, 0 }, { 10, 0 }, { 0, 10 } } },
    { "no area", 3, { { 0, 0 }, { 10, 0 }, { 20, 0 } } },
    { "point 1 is not a number", 3, { { 0, 0 }, { NAN, 0 }, { 20, 0 } } },
    { "hollow", 5, { { 0, 10 }, { -6, -8 }, { 9, 3 }, { -9, 3 }, { 6, -8 } } }, /* a star goes round twice */
  };
  SwSolid solid;
  SwPoint3 x = { 1, 0, 0 }, y = { 0, 1, 0 }, up = { 0, 0, 9 };
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      GError *error = NULL;
      g_assert_false (sw_solid_prism (&solid, P3 (0, 0, 0), x, y, bad[i].section, bad[i].n, up, &error));
      g_assert_error (error, SW_ERROR, SW_ERROR_INVALID);
      g_assert_nonnull (error ? strstr (error->message, bad[i].part) : NULL);
      g_clear_error (&error);
    }
  const SwPoint good[] = { { 0, 0 }, { 50, 0.004 }, { 100, 0 }, { 100, 100 }, { 0, 100 } };
  GError *error = NULL;
  g_assert_true (sw_solid_prism (&solid, P3 (0, 0, 0), x, y, good, 5, up, &error)); /* hollow by rounding only */
  g_assert_cmpuint (solid.n, ==, 4);
  g_assert_false (sw_solid_prism (&solid, P3 (0, 0, 0), x, x, good, 5, up, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "parallel");
  SwPoint many[17];
  for (int i = 0; i < 17; i++)
    many[i] = (SwPoint){ 100 * cos (i * 2 * G_PI / 17), 100 * sin (i * 2 * G_PI / 17) };
  g_assert_false (sw_solid_slab (&solid, many, 17, 0, 5, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "has 17 points");
}

static void
test_box3 (void)
{
  SwRandom random = { 9 };
  for (int i = 0; i < 2000; i++)
    {
      Shape a, b;
      shapes_random_pair (&random, i % N_MODES, &a, &b);
      SwBox3 around = sw_solid_box3 (&a.solid);
      sw_assert_near (around.high.x, shape_extent (&a, P3 (1, 0, 0)), 1e-6);
      sw_assert_near (around.high.y, shape_extent (&a, P3 (0, 1, 0)), 1e-6);
      sw_assert_near (around.high.z, shape_extent (&a, P3 (0, 0, 1)), 1e-6);
      sw_assert_near (around.low.x, -shape_extent (&a, P3 (-1, 0, 0)), 1e-6);
      sw_assert_near (around.low.y, -shape_extent (&a, P3 (0, -1, 0)), 1e-6);
      sw_assert_near (around.low.z, -shape_extent (&a, P3 (0, 0, -1)), 1e-6);
    }
}

/* Clearance of the nearest of the tubes from a place. */
static double
from_tubes (const GArray *tubes, SwPoint3 p)
{
  SwSolid ball = sw_solid_tube (p, p, 0);
  double nearest = INFINITY;
  for (guint k = 0; k < tubes->len; k++)
    nearest = fmin (nearest, sw_solid_clearance (&ball, &g_array_index (tubes, SwSolid, k), NULL));
  return nearest;
}

/* A square bend of radius 300: starts and ends 300 from the corner; its tubes hold the true bend and stand out by 0.1 mm at most. */
static void
test_bend (void)
{
  SwArc arc;
  g_assert_true (sw_arc_in_corner (P3 (0, 0, 50), P3 (1000, 0, 50), P3 (1000, 800, 50), 300, &arc));
  sw_assert_near (arc.angle, G_PI / 2, 1e-12);
  sw_assert_near (sw_point3_distance (arc.start, P3 (700, 0, 50)), 0, 1e-9);
  sw_assert_near (sw_point3_distance (arc.centre, P3 (700, 300, 50)), 0, 1e-9);
  sw_assert_near (sw_point3_distance (sw_arc_point (&arc, arc.angle), P3 (1000, 300, 50)), 0, 1e-9);
  g_autoptr (GArray) tubes = g_array_new (FALSE, FALSE, sizeof (SwSolid));
  sw_arc_tubes (&arc, 25, tubes);
  g_assert_cmpuint (tubes->len, >, 5);
  g_assert_cmpuint (tubes->len, <, 50);
  for (int i = 0; i <= 500; i++)
    for (int k = 0; k < 8; k++)
      {
        SwPoint3 p = sw_arc_point (&arc, arc.angle * i / 500), out = sw_point3_scale (sw_point3_sub (p, arc.centre), 1 / 300.0);
        SwPoint3 way = sw_point3_add (sw_point3_scale (out, cos (k * G_PI / 4)), P3 (0, 0, sin (k * G_PI / 4)));
        g_assert_cmpfloat (from_tubes (tubes, sw_point3_add (p, sw_point3_scale (way, 25))), <=, 1e-9);
        g_assert_cmpfloat (from_tubes (tubes, sw_point3_add (p, sw_point3_scale (way, 25.1))), >=, -1e-9);
      }
  g_assert_false (sw_arc_in_corner (P3 (0, 0, 0), P3 (1000, 0, 0), P3 (2000, 0, 0), 300, &arc)); /* straight on */
  g_assert_false (sw_arc_in_corner (P3 (0, 0, 0), P3 (1000, 0, 0), P3 (500, 0, 0), 300, &arc));  /* folds back */
  g_assert_false (sw_arc_in_corner (P3 (0, 0, 0), P3 (1000, 0, 0), P3 (1000, 200, 0), 300, &arc)); /* leg too short */
}

int
main (int argc, char **argv)
{
  static const char *const modes[N_MODES] = { "anywhere", "grid", "nearly-parallel", "one-origin", "far-off", "thin", "flat" };
  sw_test_init (&argc, &argv);
  g_test_add_func ("/geometry/solid/tubes", test_tubes);
  g_test_add_func ("/geometry/solid/boxes", test_boxes);
  g_test_add_func ("/geometry/solid/rib", test_rib);
  g_test_add_func ("/geometry/solid/cylinders", test_cylinders);
  g_test_add_func ("/geometry/solid/prism-errors", test_prism_errors);
  g_test_add_func ("/geometry/solid/box3", test_box3);
  g_test_add_func ("/geometry/solid/bend", test_bend);
  for (int mode = 0; mode < N_MODES; mode++)
    {
      g_autofree char *path = g_strdup_printf ("/geometry/solid/random/%s", modes[mode]);
      g_test_add_data_func (path, GINT_TO_POINTER (mode), test_random);
    }
  return g_test_run ();
}
