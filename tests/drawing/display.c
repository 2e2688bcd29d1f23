/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/random.h"
#include "drawing/display_data.h"
#include "support.h"
#include <string.h>

static const SwStroke ink = { SW_ROLE_INK, 0.35 };
static const SwFill grey = { SW_ROLE_CONCRETE };

static void
assert_box (SwBox box, double x0, double y0, double x1, double y1)
{
  sw_assert_near (box.low.x, x0, 1e-6);
  sw_assert_near (box.low.y, y0, 1e-6);
  sw_assert_near (box.high.x, x1, 1e-6);
  sw_assert_near (box.high.y, y1, 1e-6);
}

static void
test_items (void)
{
  g_autoptr (SwDisplay) d = sw_display_new ();
  sw_display_add_line (d, (SwPoint){ 0, 0 }, (SwPoint){ 10, 5 }, &ink);
  sw_display_add_circle (d, (SwPoint){ 50, 50 }, 20, &grey, NULL);
  sw_display_add_box (d, (SwBox){ { 100, 100 }, { 120, 130 } }, &grey, &ink);
  sw_display_add_text (d, (SwPoint){ 7, 8 }, "W 50", &(SwTextStyle){ .height = 2.5 });
  sw_display_add_text (d, (SwPoint){ 7, 8 }, "", &(SwTextStyle){ .height = 2.5 });
  sw_display_paint (d, &grey, &ink); /* no path: nothing */
  sw_display_seal (d);
  g_assert_true (sw_display_is_sealed (d));
  g_assert_cmpuint (sw_display_n_items (d), ==, 4);
  assert_box (sw_display_item (d, 1)->box, 30, 30, 70, 70);
  assert_box (sw_display_box (d), 0, 0, 120, 130);
  g_assert_cmpuint (d->styles->len, ==, 4);
}

/* Arcs as cubic curves stay on the circle. */
static void
test_arc_is_round (void)
{
  g_autoptr (SwDisplay) d = sw_display_new ();
  sw_display_arc (d, (SwPoint){ 3, 4 }, 1000, 0.3, -5.1);
  sw_display_paint (d, NULL, &ink);
  const SwPoint *p = sw_display_points (d, 0);
  guint n = sw_display_item (d, 0)->n_points;
  for (guint i = 0; i + 3 < n; i += 3)
    for (double t = 0; t <= 1; t += 0.05)
      {
        double s = 1 - t, k[4] = { s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t };
        SwPoint at = { 0, 0 };
        for (int j = 0; j < 4; j++)
          at = sw_point_add (at, sw_point_scale (p[i + j], k[j]));
        sw_assert_near (sw_point_distance (at, (SwPoint){ 3, 4 }), 1000, 0.005);
      }
  sw_assert_near (p[n - 1].x, 3 + 1000 * cos (0.3 - 5.1), 1e-9);
}

static void
test_scopes (void)
{
  g_autoptr (SwDisplay) d = sw_display_new ();
  sw_display_begin_group (d, &(SwDisplayGroup){ { 3, 0, 41 }, "run-41", "waste", "Waste 50", NULL });
  sw_display_begin_transform (d, sw_transform_view ((SwPoint){ 1000, 0 }, (SwPoint){ 200, 100 }, 0.02, 0, TRUE));
  sw_assert_near (sw_display_unit (d), 50, 1e-9);
  sw_display_set_layer (d, 5);
  sw_display_set_detail (d, 0.1, 2);
  sw_display_begin_group (d, &(SwDisplayGroup){ { 3, 2, 41 } });
  sw_display_add_line (d, (SwPoint){ 1000, 0 }, (SwPoint){ 2000, 500 }, &(SwStroke){ .width = 100, .unit = SW_SIZE_WORLD });
  sw_display_end (d);
  sw_display_end (d);
  sw_display_add_line (d, (SwPoint){ 0, 0 }, (SwPoint){ 1, 1 }, &ink);
  sw_display_end (d);
  sw_display_seal (d);

  const SwItem *item = sw_display_item (d, 0);
  assert_box (item->box, 179, 99, 201, 111); /* mirrored, 1:50, half of 100 mm is 1 mm */
  g_assert_cmpint (item->layer, ==, 5);
  sw_assert_near (item->least_detail, 5, 1e-9);
  sw_assert_near (item->most_detail, 100, 1e-9);
  g_assert_cmpint (sw_display_item (d, 1)->layer, ==, 0);
  g_assert_cmpuint (sw_display_n_groups (d), ==, 2);
  SwDisplayGroup group = sw_display_group (d, 0);
  g_assert_cmpstr (group.id, ==, "run-41");
  g_assert_cmpstr (group.title, ==, "Waste 50");
  g_assert_cmpint (sw_display_group_parent (d, 0), ==, -1);
  g_assert_cmpint (sw_display_group_parent (d, 1), ==, 0);
  assert_box (sw_display_group_box (d, 0), 0, 0, 201, 111);
  g_assert_cmpint (sw_display_find (d, 3, 41, -1), ==, 0);
  g_assert_cmpint (sw_display_find (d, 3, 41, 0), ==, 1);
  g_assert_cmpint (sw_display_find (d, 3, 41, 1), ==, -1);
  g_assert_cmpint (sw_display_find (d, 4, 41, -1), ==, -1);
}

static void
test_bad_numbers (void)
{
  g_autoptr (SwDisplay) d = sw_display_new ();
  sw_display_add_line (d, (SwPoint){ 0, NAN }, (SwPoint){ 1, 1 }, &ink);
  sw_display_add_line (d, (SwPoint){ 0, 0 }, (SwPoint){ 1e300, 1 }, &ink);
  sw_display_add_circle (d, (SwPoint){ 0, 0 }, INFINITY, &grey, &ink);
  sw_display_add_line (d, (SwPoint){ 0, 0 }, (SwPoint){ 1, 1 }, &(SwStroke){ .width = -1 });
  sw_display_add_text (d, (SwPoint){ NAN, 0 }, "x", &(SwTextStyle){ .height = 3 });
  sw_display_add_text (d, (SwPoint){ 0, 0 }, "x", &(SwTextStyle){ .height = 3, .turn = NAN });
  sw_display_begin_clip_box (d, (SwBox){ { -INFINITY, NAN }, { INFINITY, 1 } });
  sw_display_add_line (d, (SwPoint){ 0, 0 }, (SwPoint){ 1, 1 }, &ink);
  sw_display_seal (d);
  g_assert_cmpuint (sw_display_n_items (d), ==, 1);
  g_assert_cmpuint (sw_display_n_left_out (d), ==, 6);
  assert_box (sw_display_box (d), 0, 0, 1, 1);
}

static void
test_strings_are_cleaned (void)
{
  g_autoptr (SwDisplay) d = sw_display_new ();
  sw_display_begin_group (d, &(SwDisplayGroup){ .title = "a\tb\x01" "c\xff" "d\xEF\xBF\xBF" });
  sw_display_add_text (d, (SwPoint){ 0, 0 }, "one\ntwo \xC3", &(SwTextStyle){ .height = 3 });
  sw_display_seal (d);
  g_assert_cmpstr (sw_display_group (d, 0).title, ==, "a b c\xEF\xBF\xBD" "d\xEF\xBF\xBD");
  g_assert_cmpstr (sw_display_item (d, 0)->text, ==, "one two \xEF\xBF\xBD");
}

static SwDisplay *
random_display (guint n, guint64 seed)
{
  SwRandom random = { seed };
  SwDisplay *d = sw_display_new ();
  for (guint i = 0; i < n; i++)
    {
      SwPoint at = { sw_random_double (&random, 0, 20000), sw_random_double (&random, 0, 10000) };
      sw_display_set_layer (d, sw_random_int (&random, 0, 9));
      double least = sw_random_int (&random, 0, 1) ? 0 : sw_random_double (&random, 0, 1);
      sw_display_set_detail (d, least, sw_random_int (&random, 0, 1) ? INFINITY : least + 0.5);
      SwSizeUnit unit = sw_random_int (&random, 0, 2);
      SwPoint to = { at.x + sw_random_double (&random, -500, 500), at.y + sw_random_double (&random, -500, 500) };
      if (i % 3 == 0)
        sw_display_add_text (d, at, "void 7", &(SwTextStyle){ .height = 20, .unit = unit });
      else
        sw_display_add_line (d, at, to, &(SwStroke){ .width = sw_random_double (&random, 0, 30), .unit = unit });
    }
  sw_display_seal (d);
  return d;
}

static gboolean
shows (const SwItem *item, const SwDisplayQuery *query)
{
  double reach = item->reach_world + item->reach_paper * query->paper + item->reach_px * query->px;
  return ((query->layers >> item->layer) & 1) && item->least_detail <= query->detail && query->detail < item->most_detail
         && sw_box_meets (sw_box_grow (item->box, reach), query->box);
}

/* The lookup against looking at every item. */
static void
test_query (void)
{
  SwRandom random = { 11 };
  const guint sizes[] = { 1, 15, 16, 17, 256, 257, 3000 };
  for (gsize s = 0; s < G_N_ELEMENTS (sizes); s++)
    {
      g_autoptr (SwDisplay) d = random_display (sizes[s], s + 1);
      g_autofree guint64 *bits = g_new (guint64, sw_display_n_words (d));
      for (int q = 0; q < 40; q++)
        {
          SwPoint low = { sw_random_double (&random, -1000, 20000), sw_random_double (&random, -1000, 10000) };
          SwDisplayQuery query = { { low, { low.x + 2000, low.y + 1500 } }, sw_random_double (&random, 0, 50),
                                   sw_random_double (&random, 0, 20), sw_random_double (&random, 0, 2), 0x2B5 };
          memset (bits, 0, sw_display_n_words (d) * sizeof *bits);
          sw_display_query (d, &query, bits);
          for (guint i = 0; i < sw_display_n_items (d); i++)
            g_assert_true (((bits[i / 64] >> (i % 64)) & 1) == (guint) shows (sw_display_item (d, i), &query));
        }
    }
}

static void
test_empty (void)
{
  g_autoptr (SwDisplay) d = sw_display_new ();
  sw_display_seal (d);
  sw_display_seal (d);
  SwDisplayQuery query = { { { 0, 0 }, { 1, 1 } }, 1, 1, 1, ~G_GUINT64_CONSTANT (0) };
  sw_display_query (d, &query, NULL);
  g_assert_true (sw_box_is_empty (sw_display_box (d)));
  g_assert_cmpuint (sw_display_n_words (d), ==, 0);
}

static void
fill_plan (SwDisplay *d)
{
  sw_display_begin_group (d, &(SwDisplayGroup){ { 1, 0, 9 }, "bay-9", "bay", "Bay B", "two & three" });
  sw_display_set_layer (d, 3);
  sw_display_set_detail (d, 0.01, 5);
  sw_display_begin_clip_box (d, (SwBox){ { 0, 0 }, { 6000, 4000 } });
  sw_display_add_box (d, (SwBox){ { -100, 0 }, { 6000, 4000 } }, &grey, &(SwStroke){ .width = 20, .unit = SW_SIZE_WORLD });
  sw_display_add_circle (d, (SwPoint){ 500, 600 }, 45, NULL, &ink);
  sw_display_end (d);
  sw_display_add_text (d, (SwPoint){ 30, 40 }, "Bay B", &(SwTextStyle){ .height = 150, .unit = SW_SIZE_WORLD, .turn = 1 });
  sw_display_end (d);
  sw_display_add_text (d, (SwPoint){ 30, 40 }, "outside", &(SwTextStyle){ .height = 2.5, .halo = TRUE });
}

static void
assert_same_items (const SwDisplay *a, const SwDisplay *b)
{
  g_assert_cmpuint (sw_display_n_items (a), ==, sw_display_n_items (b));
  for (guint i = 0; i < sw_display_n_items (a); i++)
    {
      const SwItem *x = sw_display_item (a, i), *y = sw_display_item (b, i);
      assert_box (x->box, y->box.low.x, y->box.low.y, y->box.high.x, y->box.high.y);
      g_assert_cmpuint (x->n_points, ==, y->n_points);
      for (guint p = 0; p < x->n_points; p++)
        sw_assert_near (sw_point_distance (*sw_display_points (a, x->first_point + p), *sw_display_points (b, y->first_point + p)), 0, 1e-9);
      g_assert_cmpmem (a->verbs->data + x->first_verb, x->n_verbs, b->verbs->data + y->first_verb, y->n_verbs);
      g_assert_cmpstr (x->text, ==, y->text);
      g_assert_true (x->layer == y->layer && x->mirrored == y->mirrored);
      sw_assert_near (x->reach_world, y->reach_world, 1e-9);
      sw_assert_near (x->reach_paper, y->reach_paper, 1e-9);
      sw_assert_near (x->least_detail, y->least_detail, 1e-9);
      sw_assert_near (1 / x->most_detail, 1 / y->most_detail, 1e-9); /* may be infinite */
      g_assert_cmpint (sw_display_style (a, x->style)->has_fill, ==, sw_display_style (b, y->style)->has_fill);
      sw_assert_near (sw_display_style (a, x->style)->stroke.width, sw_display_style (b, y->style)->stroke.width, 1e-9);
    }
}

/* Appending a display under a view is the same as drawing there. */
static void
test_append (void)
{
  SwTransform view = sw_transform_view ((SwPoint){ 3000, 2000 }, (SwPoint){ 210, 150 }, 0.02, 0.5, TRUE);
  g_autoptr (SwDisplay) plan = sw_display_new ();
  g_autoptr (SwDisplay) straight = sw_display_new ();
  g_autoptr (SwDisplay) appended = sw_display_new ();
  fill_plan (plan);
  sw_display_seal (plan);
  sw_display_begin_transform (straight, view);
  fill_plan (straight);
  sw_display_end (straight);
  sw_display_begin_transform (appended, view);
  sw_display_append (appended, plan);
  sw_display_end (appended);
  sw_display_seal (straight);
  sw_display_seal (appended);
  assert_same_items (straight, appended);
  g_assert_cmpuint (sw_display_n_groups (appended), ==, 1);
  g_assert_cmpstr (sw_display_group (appended, 0).description, ==, "two & three");
}

/* The letters of a display are listed, and what is left without them can be drawn elsewhere. */
static void
test_texts (void)
{
  g_autoptr (SwDisplay) d = sw_display_new ();
  sw_display_begin_group (d, &(SwDisplayGroup){ { 3, 0, 7 }, "a", NULL, NULL, NULL });
  sw_display_set_layer (d, 5);
  sw_display_set_detail (d, 0.5, 9);
  sw_display_add_line (d, (SwPoint){ 0, 0 }, (SwPoint){ 10, 5 }, &ink);
  sw_display_add_text (d, (SwPoint){ 7, 8 }, "W 50", &(SwTextStyle){ .height = 2.5, .turn = G_PI / 2, .bold = TRUE });
  sw_display_end (d);
  sw_display_add_text (d, (SwPoint){ 1, 2 }, "free", &(SwTextStyle){ .height = 3 });
  sw_display_seal (d);
  g_autoptr (GArray) texts = sw_display_texts (d);
  g_assert_cmpuint (texts->len, ==, 2);
  const SwDisplayText *first = &g_array_index (texts, SwDisplayText, 0), *second = first + 1;
  g_assert_cmpstr (first->text, ==, "W 50");
  sw_assert_near (first->at.x, 7, 0);
  sw_assert_near (first->direction.y, 1, 1e-12);
  sw_assert_near (first->style.turn, G_PI / 2, 1e-12);
  g_assert_true (first->style.bold);
  g_assert_cmpint (first->layer, ==, 5);
  sw_assert_near (first->least_detail, 0.5, 0);
  sw_assert_near (first->most_detail, 9, 0);
  g_assert_cmpint (first->group, ==, 0);
  g_assert_cmpint (second->group, ==, -1);
  g_autoptr (SwDisplay) bare = sw_display_new ();
  sw_display_append_paths (bare, d);
  sw_display_seal (bare);
  g_autoptr (GArray) none = sw_display_texts (bare);
  g_assert_cmpuint (none->len, ==, 0);
  g_assert_cmpuint (sw_display_n_items (bare), ==, 1);
  g_assert_cmpint (sw_display_find (bare, 3, 7, -1), ==, 0);
}

static void
test_append_outline (void)
{
  g_autoptr (SwDisplay) plan = sw_display_new ();
  g_autoptr (SwDisplay) mark = sw_display_new ();
  fill_plan (plan);
  sw_display_begin_group (plan, &(SwDisplayGroup){ { 1, 0, 10 } }); /* holds nothing */
  sw_display_end (plan);
  sw_display_seal (plan);
  sw_display_append_outline (mark, plan, 0, &(SwStroke){ SW_ROLE_SELECTION, 2, SW_SIZE_PX });
  sw_display_append_outline (mark, plan, 1, &ink);
  sw_display_seal (mark);
  g_assert_cmpuint (sw_display_n_items (mark), ==, 2);
  const SwItemStyle *style = sw_display_style (mark, sw_display_item (mark, 0)->style);
  g_assert_true (!style->has_fill && style->stroke.role == SW_ROLE_SELECTION);
  assert_box (sw_display_item (mark, 0)->box, -100, 0, 6000, 4000);
  g_assert_cmpint (sw_display_group (mark, 0).key.record, ==, 9);
}

static void
test_misuse (void)
{
  g_autoptr (SwDisplay) d = sw_display_new ();
  g_test_expect_message (G_LOG_DOMAIN, G_LOG_LEVEL_CRITICAL, "*states->len > 1*");
  sw_display_end (d);
  sw_display_move (d, (SwPoint){ 0, 0 });
  g_test_expect_message (G_LOG_DOMAIN, G_LOG_LEVEL_CRITICAL, "*is_between_items*");
  sw_display_begin_group (d, &(SwDisplayGroup){ 0 });
  sw_display_line (d, (SwPoint){ 1, 0 });
  sw_display_paint (d, NULL, &ink);
  g_test_expect_message (G_LOG_DOMAIN, G_LOG_LEVEL_CRITICAL, "*sw_transform_is_usable*");
  sw_display_begin_transform (d, (SwTransform){ 0, 0, 0, 0, 1, 1 });
  sw_display_seal (d);
  g_test_expect_message (G_LOG_DOMAIN, G_LOG_LEVEL_CRITICAL, "*sealed*");
  sw_display_move (d, (SwPoint){ 0, 0 });
  g_test_assert_expected_messages ();
  g_assert_cmpuint (sw_display_n_items (d), ==, 1);
}

static gpointer
query_many (gpointer data)
{
  SwDisplay *d = data;
  g_autofree guint64 *bits = g_new0 (guint64, sw_display_n_words (d));
  gsize found = 0;
  for (int i = 0; i < 200; i++)
    {
      SwDisplayQuery query = { { { i * 100, 0 }, { i * 100 + 900, 9000 } }, 1, 1, 0.2, ~G_GUINT64_CONSTANT (0) };
      memset (bits, 0, sw_display_n_words (d) * sizeof *bits);
      sw_display_query (d, &query, bits);
      for (gsize w = 0; w < sw_display_n_words (d); w++)
        found += (gsize) __builtin_popcountll (bits[w]);
    }
  sw_display_unref (d);
  return GSIZE_TO_POINTER (found);
}

static void
test_threads (void)
{
  g_autoptr (SwDisplay) d = random_display (2000, 5);
  GThread *threads[4];
  for (int i = 0; i < 4; i++)
    threads[i] = g_thread_new ("query", query_many, sw_display_ref (d));
  gpointer alone = query_many (sw_display_ref (d));
  for (int i = 0; i < 4; i++)
    g_assert_true (g_thread_join (threads[i]) == alone);
  g_assert_cmpuint (GPOINTER_TO_SIZE (alone), >, 0);
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/drawing/display/items", test_items);
  g_test_add_func ("/drawing/display/arc-is-round", test_arc_is_round);
  g_test_add_func ("/drawing/display/scopes", test_scopes);
  g_test_add_func ("/drawing/display/bad-numbers", test_bad_numbers);
  g_test_add_func ("/drawing/display/strings-are-cleaned", test_strings_are_cleaned);
  g_test_add_func ("/drawing/display/query", test_query);
  g_test_add_func ("/drawing/display/empty", test_empty);
  g_test_add_func ("/drawing/display/append", test_append);
  g_test_add_func ("/drawing/display/texts", test_texts);
  g_test_add_func ("/drawing/display/append-outline", test_append_outline);
  g_test_add_func ("/drawing/display/misuse", test_misuse);
  g_test_add_func ("/drawing/display/threads", test_threads);
  return g_test_run ();
}
