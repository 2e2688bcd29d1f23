/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "geometry/region.h"
#include "base/random.h"
#include "base/tolerance.h"
#include "support.h"
#include <string.h>

static SwRegion *
box (double x, double y, double to_x, double to_y)
{
  return sw_region_new_box ((SwBox){ { x, y }, { to_x, to_y } });
}

/* "part 0: (0 0) (100 0) … hole …": the whole form, for comparing. */
static char *
text_of (const SwRegion *region)
{
  GString *text = g_string_new (NULL);
  for (guint i = 0; i < sw_region_n_rings (region); i++)
    {
      SwRing ring = sw_region_ring (region, i);
      g_string_append_printf (text, "%s%s", i ? " | " : "", ring.hole ? "hole" : "part");
      for (guint k = 0; k < ring.n; k++)
        g_string_append_printf (text, " %.9g,%.9g", ring.points[k].x, ring.points[k].y);
    }
  return g_string_free (text, FALSE);
}

#define assert_form(region, expected) \
  G_STMT_START { \
    g_autofree char *form = (region) ? text_of (region) : g_strdup ("(none)"); \
    g_assert_cmpstr (form, ==, expected); \
  } G_STMT_END

static void
test_known (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwRegion) room = box (0, 0, 6000, 4000), shaft = box (2000, 1000, 3000, 2500), side = box (5000, 3000, 9000, 9000);
  g_autoptr (SwRegion) pierced = sw_region_subtract (room, shaft, &error);
  g_assert_no_error (error);
  sw_assert_near (sw_region_area (pierced), 24e6 - 1.5e6, 1e-6);
  sw_assert_near (sw_region_perimeter (pierced), 20000 + 5000, 1e-9);
  assert_form (pierced, "part 0,0 6000,0 6000,4000 0,4000 | hole 2000,1000 2000,2500 3000,2500 3000,1000");
  g_autoptr (SwRegion) notched = sw_region_subtract (room, side, &error);
  assert_form (notched, "part 0,0 6000,0 6000,3000 5000,3000 5000,4000 0,4000");
  g_autoptr (SwRegion) common = sw_region_intersect (room, side, &error);
  assert_form (common, "part 5000,3000 6000,3000 6000,4000 5000,4000");
  g_autoptr (SwRegion) joined = sw_region_union (room, side, &error);
  sw_assert_near (sw_region_area (joined), 24e6 + 24e6 - 1e6, 1e-6);
  g_autoptr (SwRegion) filled = sw_region_union (pierced, shaft, &error);
  assert_form (filled, "part 0,0 6000,0 6000,4000 0,4000");
  g_autoptr (SwRegion) nothing = sw_region_subtract (shaft, room, &error);
  g_assert_true (sw_region_is_empty (nothing));
  g_assert_no_error (error);
}

static void
test_empty (void)
{
  g_autoptr (SwRegion) none = sw_region_new_empty (), room = box (0, 0, 100, 100), flat = box (0, 0, 100, 0);
  g_assert_true (sw_region_is_empty (flat));
  g_autoptr (SwRegion) wrong = box (10, 0, 0, 10);
  g_assert_true (sw_region_is_empty (wrong));
  g_autoptr (SwRegion) a = sw_region_union (none, room, NULL), b = sw_region_intersect (room, none, NULL);
  g_autoptr (SwRegion) c = sw_region_subtract (room, none, NULL), d = sw_region_subtract (none, room, NULL);
  g_autoptr (SwRegion) e = sw_region_union_all (NULL, 0, NULL), f = sw_region_grow (none, 10, NULL);
  g_autoptr (SwRegion) g = sw_region_clip (none, (SwBox){ { 0, 0 }, { 9, 9 } }, NULL);
  g_assert_true (a == room && c == room);
  g_assert_true (sw_region_is_empty (b) && sw_region_is_empty (d) && sw_region_is_empty (e) && sw_region_is_empty (f));
  g_assert_true (sw_region_is_empty (g) && sw_region_area (g) == 0 && sw_box_is_empty (sw_region_box (g)));
  g_assert_false (sw_region_holds (none, (SwPoint){ 0, 0 }));
  g_autoptr (GPtrArray) parts = sw_region_parts (none);
  g_assert_cmpuint (parts->len, ==, 0);
}

static void
test_touching (void)
{
  g_autoptr (SwRegion) left = box (0, 0, 100, 100), right = box (100, 0, 200, 100), corner = box (200, 100, 300, 200);
  g_autoptr (SwRegion) edge = sw_region_intersect (left, right, NULL);
  g_assert_true (sw_region_is_empty (edge)); /* a common side is no area */
  SwRegion *all[] = { left, right, corner };
  g_autoptr (SwRegion) joined = sw_region_union_all (all, 3, NULL);
  g_assert_cmpuint (sw_region_n_parts (joined), ==, 2); /* a common corner joins nothing */
  sw_assert_near (sw_region_area (joined), 30000, 1e-9);
  g_autoptr (SwRegion) sliver = box (0, 0, 99.97, 100);
  g_autoptr (SwRegion) rest = sw_region_subtract (left, sliver, NULL);
  g_assert_true (sw_region_is_empty (rest)); /* 0.03 mm wide */
}

static void
test_parts (void)
{
  g_autoptr (SwRegion) room = box (0, 0, 1000, 500), shaft = box (100, 100, 200, 200), wall = box (450, -10, 550, 600);
  g_autoptr (SwRegion) pierced = sw_region_subtract (room, shaft, NULL);
  g_autoptr (SwRegion) split = sw_region_subtract (pierced, wall, NULL);
  g_assert_cmpuint (sw_region_n_parts (split), ==, 2);
  g_autoptr (GPtrArray) parts = sw_region_parts (split);
  g_assert_cmpuint (parts->len, ==, 2);
  double sum = 0;
  guint holes = 0;
  for (guint i = 0; i < parts->len; i++)
    {
      g_assert_cmpuint (sw_region_n_parts (parts->pdata[i]), ==, 1);
      sum += sw_region_area (parts->pdata[i]);
      holes += sw_region_n_rings (parts->pdata[i]) - 1;
    }
  sw_assert_near (sum, sw_region_area (split), 1e-6);
  sw_assert_near (sum, 450000 - 10000, 1e-6);
  g_assert_cmpuint (holes, ==, 1);
  g_autoptr (GPtrArray) one = sw_region_parts (room);
  g_assert_true (one->len == 1 && one->pdata[0] == room);
}

static void
test_grow (void)
{
  g_autoptr (SwRegion) room = box (0, 0, 1000, 500);
  g_autoptr (SwRegion) out = sw_region_grow (room, 50, NULL), in = sw_region_grow (room, -50, NULL);
  g_autoptr (SwRegion) gone = sw_region_grow (room, -250, NULL), same = sw_region_grow (room, 0, NULL);
  assert_form (out, "part -50,-50 1050,-50 1050,550 -50,550");
  assert_form (in, "part 50,50 950,50 950,450 50,450");
  g_assert_true (sw_region_is_empty (gone) && same == room);
  /* Two rooms and a passage 100 wide: 60 inward leaves the rooms. */
  g_autoptr (SwRegion) passage = box (900, 200, 2100, 300), other = box (2000, 0, 3000, 500);
  SwRegion *all[] = { room, passage, other };
  g_autoptr (SwRegion) both = sw_region_union_all (all, 3, NULL);
  g_assert_cmpuint (sw_region_n_parts (both), ==, 1);
  g_autoptr (SwRegion) rooms = sw_region_grow (both, -60, NULL);
  g_assert_cmpuint (sw_region_n_parts (rooms), ==, 2);
  sw_assert_near (sw_region_area (rooms), 2 * 880 * 380, 1e-6);
  /* A hole shrinks as its surroundings grow. */
  g_autoptr (SwRegion) hole = box (400, 100, 500, 300), pierced = sw_region_subtract (room, hole, NULL);
  g_autoptr (SwRegion) wider = sw_region_grow (pierced, 20, NULL);
  sw_assert_near (sw_region_area (wider), 1040 * 540 - 60 * 160, 1e-6);
  GError *error = NULL;
  g_assert_null (sw_region_grow (room, NAN, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "not a number");
}

/* Rings as a floor is drawn with them: a room, a court in it, a kiosk in the court, and a lobby that shares a side. */
static void
test_rings (void)
{
  const SwBox boxes[] = { { { 0, 0 }, { 9000, 6000 } }, { { 2000, 1000 }, { 7000, 5000 } }, { { 4000, 2000 }, { 5000, 3000 } },
                          { { 9000, 0 }, { 12000, 6000 } } };
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (SwPoint)), ends = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autoptr (SwRegion) none = sw_region_new_rings (points, ends, NULL);
  g_assert_true (sw_region_is_empty (none));
  for (gsize i = 0; i < G_N_ELEMENTS (boxes); i++)
    {
      SwPoint low = boxes[i].low, high = boxes[i].high, ring[] = { low, { low.x, high.y }, high, { high.x, low.y } };
      g_array_append_vals (points, ring, 4);
      g_array_append_val (ends, points->len);
    }
  g_autoptr (GError) error = NULL;
  g_autoptr (SwRegion) floor = sw_region_new_rings (points, ends, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (sw_region_n_parts (floor), ==, 2); /* the shared side is gone */
  sw_assert_near (sw_region_area (floor), 12000. * 6000 - 5000. * 4000 + 1000. * 1000, 1e-6);
  g_assert_true (sw_region_holds (floor, (SwPoint){ 4500, 2500 }) && !sw_region_holds (floor, (SwPoint){ 3000, 2500 }));
  g_array_set_size (points, points->len - 2);
  g_array_index (ends, guint, 3) = points->len;
  g_assert_null (sw_region_new_rings (points, ends, &error));
  g_assert_error (error, SW_ERROR, SW_ERROR_INVALID);
}

static void
test_errors (void)
{
  GError *error = NULL;
  const SwPoint tie[] = { { 0, 0 }, { 100, 100 }, { 100, 0 }, { 0, 100 } }, hollow[] = { { 0, 0 }, { NAN, 5 }, { 9, 9 } };
  g_assert_null (sw_region_new_outline (tie, 4, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "crosses or touches itself, at point 0");
  g_assert_null (sw_region_new_outline (hollow, 3, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "at point 1");
  g_assert_null (sw_region_new_outline (tie, 2, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "at least 3 points");
}

static gsize
random_star (SwRandom *random, SwPoint *points, SwPoint centre)
{
  gsize n = sw_random_int (random, 4, 20);
  for (gsize i = 0; i < n; i++)
    {
      double radius = sw_random_double (random, 300, 4000), turn = 2 * G_PI * i / n;
      points[i] = (SwPoint){ sw_grid_round (centre.x + radius * cos (turn)), sw_grid_round (centre.y + radius * sin (turn)) };
    }
  return n;
}

static SwRegion *
random_region (SwRandom *random)
{
  SwPoint points[20];
  for (;;)
    {
      SwPoint centre = { sw_random_double (random, 0, 3000), sw_random_double (random, 0, 3000) };
      gsize n = random_star (random, points, centre);
      SwRegion *region = sw_region_new_outline (points, n, NULL);
      if (region)
        return region;
    }
}

static double
side_distance (const SwRegion *region, SwPoint p)
{
  double least = INFINITY;
  for (guint i = 0; i < sw_region_n_rings (region); i++)
    {
      SwRing ring = sw_region_ring (region, i);
      least = fmin (least, sw_outline_distance (ring.points, ring.n, p, NULL, NULL));
    }
  return least;
}

/* The form that the header promises. */
static void
check_form (const SwRegion *region)
{
  for (guint i = 0; i < sw_region_n_rings (region); i++)
    {
      SwRing ring = sw_region_ring (region, i);
      g_assert_true ((sw_outline_area (ring.points, ring.n) < 0) == ring.hole);
      g_assert_true (i > 0 || !ring.hole);
      for (guint k = 0; k < ring.n; k++)
        {
          SwPoint p = ring.points[k];
          g_assert_true (p.x == sw_grid_round (p.x) && p.y == sw_grid_round (p.y));
          g_assert_true (ring.points[0].x < p.x || (ring.points[0].x == p.x && ring.points[0].y <= p.y));
        }
    }
}

/* Every operation against the rule for single points, away from the sides; areas add up; all of it twice, same bytes. */
static void
test_random (void)
{
  SwRandom random = { 31 };
  for (int round = 0; round < 150; round++)
    {
      g_autoptr (SwRegion) a = random_region (&random), b = random_region (&random), c = random_region (&random);
      g_autoptr (SwRegion) hollow = sw_region_subtract (a, b, NULL);
      g_autoptr (SwRegion) sum = sw_region_union (hollow, c, NULL), common = sw_region_intersect (hollow, c, NULL);
      g_autoptr (SwRegion) rest = sw_region_subtract (hollow, c, NULL);
      SwBox window = { { 500, -1000 }, { 2600, 1800 } };
      g_autoptr (SwRegion) clipped = sw_region_clip (hollow, window, NULL), pane = sw_region_new_box (window);
      g_autoptr (SwRegion) slow = sw_region_intersect (hollow, pane, NULL), again = sw_region_union (hollow, c, NULL);
      SwRegion *made[] = { a, hollow, sum, common, rest, clipped };
      for (gsize i = 0; i < G_N_ELEMENTS (made); i++)
        check_form (made[i]);
      sw_assert_near (sw_region_area (sum), sw_region_area (c) + sw_region_area (rest), 400); /* grid times sides */
      sw_assert_near (sw_region_area (hollow), sw_region_area (common) + sw_region_area (rest), 400);
      sw_assert_near (sw_region_area (clipped), sw_region_area (slow), 400);
      g_autofree char *first = text_of (sum), *second = text_of (again);
      g_assert_cmpstr (first, ==, second);
      for (int k = 0; k < 60; k++)
        {
          SwPoint p = { sw_random_double (&random, -3000, 6000), sw_random_double (&random, -3000, 6000) };
          if (fmin (fmin (side_distance (a, p), side_distance (b, p)), side_distance (c, p)) < 0.2)
            continue;
          gboolean in = sw_region_holds (a, p) && !sw_region_holds (b, p), in_c = sw_region_holds (c, p);
          g_assert_cmpint (sw_region_holds (hollow, p), ==, in);
          g_assert_cmpint (sw_region_holds (sum, p), ==, in || in_c);
          g_assert_cmpint (sw_region_holds (common, p), ==, in && in_c);
          g_assert_cmpint (sw_region_holds (rest, p), ==, in && !in_c);
          if (side_distance (pane, p) > 0.2)
            g_assert_cmpint (sw_region_holds (clipped, p), ==, in && sw_box_holds (window, p));
        }
    }
}

static void
test_clip (void)
{
  /* A comb clipped through its teeth falls apart; endless windows are fine. */
  const SwPoint comb[] = { { 0, 0 }, { 500, 0 }, { 500, 300 }, { 400, 300 }, { 400, 100 }, { 100, 100 }, { 100, 300 }, { 0, 300 } };
  g_autoptr (SwRegion) region = sw_region_new_outline (comb, 8, NULL);
  g_autoptr (SwRegion) teeth = sw_region_clip (region, (SwBox){ { -INFINITY, 150 }, { INFINITY, INFINITY } }, NULL);
  g_assert_cmpuint (sw_region_n_parts (teeth), ==, 2);
  sw_assert_near (sw_region_area (teeth), 2 * 100 * 150, 1e-9);
  g_autoptr (SwRegion) back = sw_region_clip (region, (SwBox){ { -9, -9 }, { 900, 100 } }, NULL);
  assert_form (back, "part 0,0 500,0 500,100 0,100"); /* along the bottom of the gap */
  g_autoptr (SwRegion) whole = sw_region_clip (region, (SwBox){ { 0, 0 }, { 500, 300 } }, NULL);
  g_assert_true (whole == region);
  g_autoptr (SwRegion) off = sw_region_clip (region, (SwBox){ { 150, 150 }, { 350, 900 } }, NULL);
  g_assert_true (sw_region_is_empty (off));
}

static void
check_cut (const SwRegion *region, double y, const char *expected)
{
  g_autoptr (GArray) list = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  sw_region_cut (region, (SwPoint){ 0, y }, (SwPoint){ 1, 0 }, list);
  g_autoptr (GString) text = g_string_new (NULL);
  for (guint i = 0; i < list->len; i++)
    g_string_append_printf (text, "%s%g-%g", i ? " " : "", g_array_index (list, SwInterval, i).low,
                            g_array_index (list, SwInterval, i).high);
  g_assert_cmpstr (text->str, ==, expected);
}

static void
test_cut (void)
{
  g_autoptr (SwRegion) room = box (0, 0, 600, 400), shaft = box (200, 100, 300, 250), far = box (900, 0, 1000, 90);
  g_autoptr (SwRegion) pierced = sw_region_subtract (room, shaft, NULL), both = sw_region_union (pierced, far, NULL);
  check_cut (both, 50, "0-600 900-1000");
  check_cut (both, 150, "0-200 300-600");
  check_cut (both, 100, "0-600"); /* along the shaft's side, which belongs to the room */
  check_cut (both, 401, "");
  g_assert_true (sw_region_holds (both, (SwPoint){ 200, 150 }));
  g_assert_false (sw_region_holds (both, (SwPoint){ 250, 150 }));
  g_assert_true (sw_region_holds (both, (SwPoint){ 950, 45 }));
}

static gpointer
work (gpointer data)
{
  SwRandom random = { GPOINTER_TO_SIZE (data) };
  GString *text = g_string_new (NULL);
  for (int i = 0; i < 60; i++)
    {
      g_autoptr (SwRegion) a = random_region (&random), b = random_region (&random);
      g_autoptr (SwRegion) rest = sw_region_subtract (a, b, NULL), grown = sw_region_grow (rest, 35, NULL);
      g_autofree char *form = grown ? text_of (grown) : NULL;
      g_string_append (text, form ? form : "(none)");
    }
  return g_string_free (text, FALSE);
}

static void
test_threads (void)
{
  GThread *threads[4];
  for (gsize i = 0; i < 4; i++)
    threads[i] = g_thread_new ("work", work, GSIZE_TO_POINTER (i / 2 + 1));
  g_autofree char *a = g_thread_join (threads[0]), *b = g_thread_join (threads[1]);
  g_autofree char *c = g_thread_join (threads[2]), *d = g_thread_join (threads[3]);
  g_assert_cmpstr (a, ==, b);
  g_assert_cmpstr (c, ==, d);
  g_assert_cmpstr (a, !=, c);
  g_assert_null (strstr (a, "none"));
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/geometry/region/known", test_known);
  g_test_add_func ("/geometry/region/empty", test_empty);
  g_test_add_func ("/geometry/region/touching", test_touching);
  g_test_add_func ("/geometry/region/parts", test_parts);
  g_test_add_func ("/geometry/region/grow", test_grow);
  g_test_add_func ("/geometry/region/rings", test_rings);
  g_test_add_func ("/geometry/region/errors", test_errors);
  g_test_add_func ("/geometry/region/random", test_random);
  g_test_add_func ("/geometry/region/clip", test_clip);
  g_test_add_func ("/geometry/region/cut", test_cut);
  g_test_add_func ("/geometry/region/threads", test_threads);
  return g_test_run ();
}
