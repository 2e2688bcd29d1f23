/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/random.h"
#include "drawing/hit.h"
#include "drawing/viewport.h"
#include "support.h"

enum { ROOM = 1, RUN, LIGHT, LABEL };

static const SwStroke thin = { SW_ROLE_INK, 1, SW_SIZE_PX };

static void
begin (SwDisplay *d, int table, gint64 record)
{
  sw_display_begin_group (d, &(SwDisplayGroup){ .key = { table, 0, record } });
}

/*
 *   y 100 +---------------------------+
 *         |  room 1        (O) light 3|     light at 80, 80, radius 3
 *      50 |=====run 1================ |     two runs 4 apart, the second above
 *      46 |-----run 2---------------- |
 *         |   "Void 7" label          |     at 20, 20
 *     0   +---------------------------+
 */
static SwDisplay *
plan (void)
{
  SwDisplay *d = sw_display_new ();
  begin (d, ROOM, 1);
  sw_display_add_box (d, (SwBox){ { 0, 0 }, { 100, 100 } }, &(SwFill){ SW_ROLE_ROOM_1 }, &thin);
  sw_display_end (d);
  sw_display_set_layer (d, 1);
  for (int run = 1; run <= 2; run++)
    {
      begin (d, RUN, run);
      sw_display_begin_group (d, &(SwDisplayGroup){ .class_name = "leg" }); /* not to be hit itself */
      sw_display_add_line (d, (SwPoint){ 10, 54 - 4 * run }, (SwPoint){ 90, 54 - 4 * run }, &thin);
      sw_display_end (d);
      sw_display_end (d);
    }
  sw_display_set_layer (d, 2);
  begin (d, LIGHT, 3);
  sw_display_add_circle (d, (SwPoint){ 80, 80 }, 3, &(SwFill){ SW_ROLE_LIGHT }, &thin);
  sw_display_end (d);
  sw_display_set_layer (d, 3);
  begin (d, LABEL, 7);
  sw_display_add_text (d, (SwPoint){ 20, 20 }, "Void 7", &(SwTextStyle){ .height = 4, .unit = SW_SIZE_WORLD });
  sw_display_end (d);
  sw_display_add_circle (d, (SwPoint){ 50, 10 }, 2, &(SwFill){ SW_ROLE_INK }, NULL); /* in no group */
  sw_display_seal (d);
  return d;
}

/* 5 px per mm; world 0, 0 at device 0, 500. */
static SwDrawView
plain_view (void)
{
  return sw_draw_view_new ((SwTransform){ 5, 0, 0, -5, 0, 500 }, 1, 0, NULL);
}

static char *
names (GArray *hits)
{
  static const char *const tables[] = { "", "room", "run", "light", "label" };
  GString *out = g_string_new (NULL);
  for (guint i = 0; i < hits->len; i++)
    {
      SwDisplayKey key = g_array_index (hits, SwHit, i).key;
      g_string_append_printf (out, "%s%s %d", i > 0 ? ", " : "", tables[key.table], (int) key.record);
    }
  g_array_unref (hits);
  return g_string_free (out, FALSE);
}

static void
assert_hits (const SwDisplay *d, const SwDrawView *view, double x, double y, const char *expected)
{
  SwPoint at = sw_transform_point (view->to_device, (SwPoint){ x, y });
  g_autofree char *found = names (sw_hit_point (d, view, at, 6));
  g_assert_cmpstr (found, ==, expected);
}

static void
test_point (void)
{
  g_autoptr (SwDisplay) d = plan ();
  SwDrawView view = plain_view ();
  assert_hits (d, &view, 50, 50, "run 1, room 1");
  assert_hits (d, &view, 50, 50.8, "run 1, room 1");    /* 4 px beside the line */
  assert_hits (d, &view, 50, 55, "room 1");
  assert_hits (d, &view, 80, 81, "light 3, room 1");    /* inside a small area */
  assert_hits (d, &view, 80, 83.8, "light 3, room 1");  /* just outside it */
  assert_hits (d, &view, 80, 86, "room 1");
  assert_hits (d, &view, 26, 22, "label 7, room 1");
  assert_hits (d, &view, 50, 10, "room 1");
  assert_hits (d, &view, 100.5, 30, "room 1");          /* its edge, from outside */
  assert_hits (d, &view, 103, 30, "");
}

/* Between two lines within reach of both, the nearer comes first; on the line its own comes first. */
static void
test_nearest (void)
{
  g_autoptr (SwDisplay) d = plan ();
  SwDrawView view = sw_draw_view_new ((SwTransform){ 2, 0, 0, -2, 0, 500 }, 1, 0, NULL);
  assert_hits (d, &view, 50, 48.6, "run 1, run 2, room 1");
  assert_hits (d, &view, 50, 47.4, "run 2, run 1, room 1");
  assert_hits (d, &view, 50, 48, "run 2, run 1, room 1"); /* as near: the one on top */
}

static void
test_layers (void)
{
  g_autoptr (SwDisplay) d = plan ();
  SwDrawView view = plain_view ();
  view.to_device = (SwTransform){ 2, 0, 0, -2, 0, 500 };
  view.look.hidden = 1 << 1;
  assert_hits (d, &view, 50, 50, "room 1");
  view.look.hidden = 0;
  view.look.faded = 1 << 2;
  assert_hits (d, &view, 80, 80, "light 3, room 1");
  view.look.faded = 1 << 1 | 1 << 0;
  assert_hits (d, &view, 50, 48.6, "run 1, run 2, room 1");
}

/* Of two lines at one place the one in a layer in front comes first, the topmost when both are. */
static void
test_front (void)
{
  g_autoptr (SwDisplay) d = sw_display_new ();
  for (int layer = 0; layer < 2; layer++)
    {
      sw_display_set_layer (d, layer);
      begin (d, RUN, layer);
      sw_display_add_line (d, (SwPoint){ 10, 50 }, (SwPoint){ 90, 50 }, &thin);
      sw_display_end (d);
    }
  sw_display_seal (d);
  SwDrawView view = plain_view ();
  assert_hits (d, &view, 50, 50, "run 1, run 0");
  view.look.faded = 1 << 1;
  assert_hits (d, &view, 50, 50, "run 0, run 1");
}

static void
test_small_text_is_not_there (void)
{
  g_autoptr (SwDisplay) d = plan ();
  SwDrawView view = sw_draw_view_new ((SwTransform){ 1, 0, 0, -1, 0, 500 }, 1, 0, NULL);
  assert_hits (d, &view, 26, 22, "room 1"); /* 5.6 px */
}

/* The same hits in a view that is turned and mirrored. */
static void
test_turned (void)
{
  g_autoptr (SwDisplay) d = plan ();
  SwViewport port = sw_viewport_new (800, 600);
  port.zoom = 5;
  port.centre = (SwPoint){ 40, 50 };
  port.turn = 0.7;
  port.mirror = TRUE;
  SwDrawView view = sw_draw_view_new (sw_viewport_transform (&port), 1, 0, NULL);
  assert_hits (d, &view, 50, 50.8, "run 1, room 1");
  assert_hits (d, &view, 80, 83.8, "light 3, room 1");
  assert_hits (d, &view, 26, 22, "label 7, room 1"); /* covers its place */
}

static void
test_clip (void)
{
  g_autoptr (SwDisplay) d = sw_display_new ();
  sw_display_begin_clip_box (d, (SwBox){ { 0, 0 }, { 50, 100 } });
  begin (d, RUN, 1);
  sw_display_add_line (d, (SwPoint){ 10, 50 }, (SwPoint){ 90, 50 }, &thin);
  sw_display_end (d);
  sw_display_end (d);
  sw_display_seal (d);
  SwDrawView view = plain_view ();
  assert_hits (d, &view, 40, 50, "run 1");
  assert_hits (d, &view, 60, 50, "");
  g_autofree char *cut = names (sw_hit_box (d, &view, (SwBox){ { 270, 200 }, { 400, 300 } }, FALSE));
  g_assert_cmpstr (cut, ==, "");
}

static SwBox
device_box (const SwDrawView *view, double x0, double y0, double x1, double y1)
{
  return sw_transform_box (view->to_device, (SwBox){ { x0, y0 }, { x1, y1 } });
}

static void
test_box (void)
{
  g_autoptr (SwDisplay) d = plan ();
  SwDrawView view = plain_view ();
  const struct { double x0, y0, x1, y1; gboolean whole; const char *found; } cases[] = {
    { 40, 40, 60, 60, FALSE, "room 1, run 1, run 2" }, /* lines across, an area round it */
    { 40, 40, 60, 60, TRUE, "" },
    { 5, 48, 95, 90, TRUE, "run 1, light 3" },
    { 5, 5, 95, 95, TRUE, "run 1, run 2, light 3, label 7" },
    { -5, -5, 105, 105, TRUE, "room 1, run 1, run 2, light 3, label 7" },
    { 85, 76, 90, 84, FALSE, "room 1" }, /* beside the light */
    { 82, 76, 90, 84, FALSE, "room 1, light 3" },
    { 110, 0, 120, 100, FALSE, "" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      SwBox box = device_box (&view, cases[i].x0, cases[i].y0, cases[i].x1, cases[i].y1);
      g_autofree char *found = names (sw_hit_box (d, &view, box, cases[i].whole));
      g_assert_cmpstr (found, ==, cases[i].found);
    }
}

/* Many lines: the first hit is the nearest by looking at all, ties to the topmost. */
static void
test_against_all (void)
{
  SwRandom random = { 3 };
  g_autoptr (SwDisplay) d = sw_display_new ();
  SwPoint ends[300][2];
  for (int i = 0; i < 300; i++)
    {
      ends[i][0] = (SwPoint){ sw_random_double (&random, 0, 1000), sw_random_double (&random, 0, 1000) };
      ends[i][1] = (SwPoint){ ends[i][0].x + sw_random_double (&random, -90, 90), ends[i][0].y + sw_random_double (&random, -90, 90) };
      begin (d, RUN, i);
      sw_display_add_line (d, ends[i][0], ends[i][1], &thin);
      sw_display_end (d);
    }
  sw_display_seal (d);
  SwDrawView view = sw_draw_view_new ((SwTransform){ 1, 0, 0, -1, 0, 1000 }, 1, 0, NULL);
  for (int q = 0; q < 500; q++)
    {
      SwPoint at = { sw_random_double (&random, 0, 1000), sw_random_double (&random, 0, 1000) };
      int best = -1;
      double nearest = 99;
      for (int i = 0; i < 300; i++)
        {
          SwPoint ab = sw_point_sub (ends[i][1], ends[i][0]), ap = sw_point_sub (at, ends[i][0]);
          double t = CLAMP (sw_point_dot (ab, ap) / sw_point_dot (ab, ab), 0, 1);
          double apart = sw_point_distance (sw_point_lerp (ends[i][0], ends[i][1], t), at);
          double step = apart <= 0.5 ? 0 : 1 + round (apart - 0.5); /* half a line's width */
          if (apart <= 20.5 && step <= nearest)
            {
              nearest = step;
              best = i;
            }
        }
      g_autoptr (GArray) hits = sw_hit_point (d, &view, (SwPoint){ at.x, 1000 - at.y }, 20);
      g_assert_cmpint (best < 0 ? -1 : best, ==, hits->len == 0 ? -1 : (int) g_array_index (hits, SwHit, 0).key.record);
    }
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/drawing/hit/point", test_point);
  g_test_add_func ("/drawing/hit/nearest", test_nearest);
  g_test_add_func ("/drawing/hit/layers", test_layers);
  g_test_add_func ("/drawing/hit/front", test_front);
  g_test_add_func ("/drawing/hit/small-text-is-not-there", test_small_text_is_not_there);
  g_test_add_func ("/drawing/hit/turned", test_turned);
  g_test_add_func ("/drawing/hit/clip", test_clip);
  g_test_add_func ("/drawing/hit/box", test_box);
  g_test_add_func ("/drawing/hit/against-all", test_against_all);
  return g_test_run ();
}
