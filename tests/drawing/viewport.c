/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/random.h"
#include "drawing/viewport.h"
#include "support.h"

static SwViewport
any_view (SwRandom *random)
{
  SwViewport view = sw_viewport_new (sw_random_double (random, 200, 3000), sw_random_double (random, 200, 2000));
  view.zoom = pow (10, sw_random_double (random, -3, 1.5));
  view.turn = sw_random_double (random, -4, 4);
  view.mirror = sw_random_int (random, 0, 1);
  view.device_scale = sw_random_int (random, 1, 3);
  view.centre = (SwPoint){ sw_random_double (random, -1e6, 1e6), sw_random_double (random, -1e6, 1e6) };
  return view;
}

static SwPoint
any_place (SwRandom *random, const SwViewport *view)
{
  return (SwPoint){ sw_random_double (random, 0, view->width), sw_random_double (random, 0, view->height) };
}

static void
test_round_trip (void)
{
  SwRandom random = { 1 };
  for (int i = 0; i < 2000; i++)
    {
      SwViewport view = any_view (&random);
      SwPoint widget = any_place (&random, &view);
      SwPoint back = sw_viewport_to_widget (&view, sw_viewport_to_world (&view, widget));
      sw_assert_near (back.x, widget.x, 1e-5);
      sw_assert_near (back.y, widget.y, 1e-5);
    }
}

static void
test_directions (void)
{
  SwViewport view = sw_viewport_new (400, 300);
  view.zoom = 0.5;
  view.centre = (SwPoint){ 1000, 2000 };
  SwPoint right_up = sw_viewport_to_widget (&view, (SwPoint){ 1100, 2040 });
  sw_assert_near (right_up.x, 250, 1e-9);
  sw_assert_near (right_up.y, 130, 1e-9);
  view.mirror = TRUE;
  right_up = sw_viewport_to_widget (&view, (SwPoint){ 1100, 2040 });
  sw_assert_near (right_up.x, 150, 1e-9);
  sw_assert_near (right_up.y, 130, 1e-9);
  view.mirror = FALSE;
  view.turn = G_PI / 2; /* the world's right points up */
  right_up = sw_viewport_to_widget (&view, (SwPoint){ 1100, 2000 });
  sw_assert_near (right_up.x, 200, 1e-9);
  sw_assert_near (right_up.y, 100, 1e-9);
}

static void
test_pinned (void)
{
  SwRandom random = { 2 };
  for (int i = 0; i < 2000; i++)
    {
      SwViewport view = any_view (&random);
      SwPoint widget = any_place (&random, &view), world = sw_viewport_to_world (&view, widget);
      switch (i % 3)
        {
        case 0:
          sw_viewport_zoom_about (&view, widget, sw_random_double (&random, 0.3, 3));
          break;
        case 1:
          sw_viewport_turn_about (&view, widget, sw_random_double (&random, -9, 9));
          break;
        default:
          sw_viewport_mirror_about (&view, widget);
        }
      SwPoint now = sw_viewport_to_widget (&view, world);
      sw_assert_near (now.x, widget.x, 1e-5);
      sw_assert_near (now.y, widget.y, 1e-5);
    }
}

/* A hundred small zooms in and out come back to where they began: nothing adds up. */
static void
test_no_drift (void)
{
  SwViewport view = sw_viewport_new (800, 600), before = view;
  for (int i = 0; i < 100; i++)
    sw_viewport_zoom_about (&view, (SwPoint){ 17, 590 }, 1.1);
  for (int i = 0; i < 100; i++)
    sw_viewport_zoom_about (&view, (SwPoint){ 17, 590 }, 1 / 1.1);
  sw_assert_near (view.centre.x, before.centre.x, 1e-6);
  sw_assert_near (view.zoom, before.zoom, 1e-12);
  for (int i = 0; i < 50; i++)
    sw_viewport_pan (&view, 3.5, -2);
  SwPoint moved = sw_viewport_to_widget (&view, before.centre);
  sw_assert_near (moved.x, 400 + 50 * 3.5, 1e-6);
  sw_assert_near (moved.y, 300 - 50 * 2, 1e-6);
}

static void
test_fit (void)
{
  SwViewport view = sw_viewport_new (400, 300);
  SwBox box = { { 1000, 1000 }, { 11000, 3000 } };
  sw_viewport_fit (&view, box, 20);
  sw_assert_near (view.zoom, 360.0 / 10000, 1e-12);
  SwPoint corner = sw_viewport_to_widget (&view, box.low);
  sw_assert_near (corner.x, 20, 1e-9);
  view.turn = G_PI / 2;
  sw_viewport_fit (&view, box, 20);
  sw_assert_near (view.zoom, 260.0 / 10000, 1e-12);
  double zoom = view.zoom;
  sw_viewport_fit (&view, SW_BOX_EMPTY, 20);
  sw_viewport_fit (&view, (SwBox){ { 5, 6 }, { 5, 6 } }, 20);
  g_assert_true (view.zoom == zoom && view.centre.x == 5 && view.centre.y == 6);
}

static void
test_visible (void)
{
  SwRandom random = { 3 };
  for (int i = 0; i < 500; i++)
    {
      SwViewport view = any_view (&random);
      SwBox seen = sw_box_grow (sw_viewport_visible (&view), 1e-6);
      g_assert_true (sw_box_holds (seen, sw_viewport_to_world (&view, any_place (&random, &view))));
    }
  SwViewport view = sw_viewport_new (400, 300);
  SwBox seen = sw_viewport_visible (&view);
  sw_assert_near (seen.high.x - seen.low.x, 4000, 1e-9);
  sw_assert_near (seen.high.y - seen.low.y, 3000, 1e-9);
}

static void
test_clamp (void)
{
  SwViewport view = sw_viewport_new (400, 300);
  SwViewportLimits limits = { 0.01, 10, { { 0, 0 }, { 100, 100 } } };
  view.centre = (SwPoint){ 50, 50 };
  g_assert_false (sw_viewport_clamp (&view, &limits));
  view.centre.x = -5;
  view.zoom = 99;
  g_assert_true (sw_viewport_clamp (&view, &limits));
  g_assert_true (view.centre.x == 0 && view.zoom == 10);
}

/* Whatever comes in from a wild event, the view stays usable. */
static void
test_nonsense (void)
{
  SwViewport view = sw_viewport_new (400, 300);
  SwPoint nowhere = { NAN, 1 }, here = { 10, 10 };
  sw_viewport_zoom_about (&view, nowhere, 1.1);
  sw_viewport_zoom_about (&view, here, 0);
  sw_viewport_zoom_about (&view, here, -1);
  sw_viewport_zoom_about (&view, here, NAN);
  sw_viewport_zoom_about (&view, here, INFINITY);
  sw_viewport_turn_about (&view, here, NAN);
  sw_viewport_pan (&view, INFINITY, 0);
  sw_viewport_resize (&view, -1, 5, 1);
  sw_viewport_resize (&view, NAN, 5, 1);
  g_assert_true (isfinite (view.centre.x) && isfinite (view.centre.y) && isfinite (view.turn));
  g_assert_true (view.zoom > 0 && isfinite (view.zoom) && view.width == 400 && view.height == 300);
}

/* Tiles cover the widget without a gap, and a world point has the same place through its tile as without. */
static void
test_tiles (void)
{
  SwRandom random = { 4 };
  for (int i = 0; i < 500; i++)
    {
      SwViewport view = any_view (&random);
      int i0, j0, i1, j1;
      sw_viewport_tiles (&view, 512, &i0, &j0, &i1, &j1);
      SwPoint first = sw_viewport_tile_place (&view, i0, j0, 512), last = sw_viewport_tile_place (&view, i1, j1, 512);
      g_assert_true (first.x <= 0 && first.x > -512 && first.y <= 0 && first.y > -512);
      g_assert_true (last.x + 512 >= view.width * view.device_scale && last.x < view.width * view.device_scale);
      g_assert_true (last.y + 512 >= view.height * view.device_scale && last.y < view.height * view.device_scale);
      g_assert_true (first.x == floor (first.x) && first.y == floor (first.y));
      SwPoint widget = any_place (&random, &view), world = sw_viewport_to_world (&view, widget);
      SwPoint in_tile = sw_transform_point (sw_viewport_tile_transform (&view, i0, j0, 512), world);
      sw_assert_near (first.x + in_tile.x, widget.x * view.device_scale, 0.51);
      sw_assert_near (first.y + in_tile.y, widget.y * view.device_scale, 0.51);
    }
}

/* Panning by whole pixels asks for the same tiles at moved places. */
static void
test_tiles_stay (void)
{
  SwViewport view = sw_viewport_new (800, 600);
  view.zoom = 0.37;
  view.centre = (SwPoint){ 1234.5, -777 };
  SwTransform before = sw_viewport_tile_transform (&view, 2, 3, 512);
  SwPoint place = sw_viewport_tile_place (&view, 2, 3, 512);
  sw_viewport_pan (&view, 40, -7);
  SwTransform after = sw_viewport_tile_transform (&view, 2, 3, 512);
  SwPoint moved = sw_viewport_tile_place (&view, 2, 3, 512);
  g_assert_true (before.x0 == after.x0 && before.y0 == after.y0 && before.xx == after.xx);
  sw_assert_near (moved.x - place.x, 40, 1e-9);
  sw_assert_near (moved.y - place.y, -7, 1e-9);
}

static void
test_transform (void)
{
  SwRandom random = { 5 };
  for (int i = 0; i < 500; i++)
    {
      SwTransform t = { sw_random_double (&random, -3, 3), sw_random_double (&random, -3, 3), sw_random_double (&random, -3, 3),
                        sw_random_double (&random, -3, 3), sw_random_double (&random, -99, 99), 7 };
      if (fabs (sw_transform_determinant (t)) < 0.01)
        continue;
      SwPoint p = { sw_random_double (&random, -50, 50), sw_random_double (&random, -50, 50) };
      SwPoint back = sw_transform_point (sw_transform_join (sw_transform_invert (t), t), p);
      sw_assert_near (back.x, p.x, 1e-8);
      sw_assert_near (back.y, p.y, 1e-8);
    }
  g_assert_false (sw_transform_is_usable ((SwTransform){ 1, 1, 1, 1, 0, 0 }));
  g_assert_false (sw_transform_is_usable ((SwTransform){ 1, 0, 0, NAN, 0, 0 }));
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/drawing/viewport/round-trip", test_round_trip);
  g_test_add_func ("/drawing/viewport/directions", test_directions);
  g_test_add_func ("/drawing/viewport/pinned", test_pinned);
  g_test_add_func ("/drawing/viewport/no-drift", test_no_drift);
  g_test_add_func ("/drawing/viewport/fit", test_fit);
  g_test_add_func ("/drawing/viewport/visible", test_visible);
  g_test_add_func ("/drawing/viewport/clamp", test_clamp);
  g_test_add_func ("/drawing/viewport/nonsense", test_nonsense);
  g_test_add_func ("/drawing/viewport/tiles", test_tiles);
  g_test_add_func ("/drawing/viewport/tiles-stay", test_tiles_stay);
  g_test_add_func ("/drawing/viewport/transform", test_transform);
  return g_test_run ();
}
