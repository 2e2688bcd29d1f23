/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "geometry/solid.h"
#include "base/tolerance.h"
#include "shapes.h"
#include "support.h"

#define PROVEN_MM 0.002 /* clearances of bodies apart */
#define DEPTH_MM  0.01

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
  SwPoint3 a_core = sw_point3_add (c->on_first, sw_point3_scale (c->away, a->radius));
  SwPoint3 b_core = sw_point3_sub (c->on_second, sw_point3_scale (c->away, b->radius));
  if (shape_core_excess (a, a_core) > slack || shape_core_excess (b, b_core) > slack)
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
  int mode = GPOINTER_TO_INT (data), pairs = g_test_slow () ? 200000 : 3000, faults = 0, apart = 0;
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

int
main (int argc, char **argv)
{
  static const char *const modes[N_MODES] = { "anywhere", "grid", "nearly-parallel", "one-origin", "far-off", "thin", "flat" };
  sw_test_init (&argc, &argv);
  for (int mode = 0; mode < N_MODES; mode++)
    {
      g_autofree char *path = g_strdup_printf ("/geometry/solid/random/%s", modes[mode]);
      g_test_add_data_func (path, GINT_TO_POINTER (mode), test_random);
    }
  return g_test_run ();
}
