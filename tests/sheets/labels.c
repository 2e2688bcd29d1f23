/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sheets/labels.h"
#include "base/random.h"
#include "support.h"
#include <math.h>
#include <string.h>

typedef struct
{
  SwTextMeter *meter;
  SwDisplay *display;
  SwLabels *labels;
} Fixture;

static void
setup (Fixture *f, gconstpointer unused)
{
  f->meter = sw_text_meter_new ();
  f->display = sw_display_new ();
  SwPen pen = sw_pen_new (f->display, f->meter, 50);
  f->labels = sw_labels_new (&pen, (SwBox){ { 0, 0 }, { 10000, 10000 } });
}

static void
teardown (Fixture *f, gconstpointer unused)
{
  sw_labels_free (f->labels);
  sw_display_unref (f->display);
  sw_text_meter_free (f->meter);
}

static void
add (Fixture *f, SwPoint at, const char *text, SwLabelWay way, double reach, gboolean needed, double turn)
{
  SwTextStyle style = { .height = 2.5, .align = SW_ALIGN_MIDDLE, .rise = SW_RISE_MIDDLE, .turn = turn };
  SwLabel label = { { text, NULL }, { style }, at, way, sw_box_grow ((SwBox){ at, at }, reach), 0, needed, 0 };
  sw_labels_add (f->labels, &label);
}

/* What was drawn, as boxes for upright letters. */
static GArray *
drawn (Fixture *f)
{
  sw_labels_draw (f->labels);
  sw_display_seal (f->display);
  return sw_display_texts (f->display);
}

static SwBox
box_of (Fixture *f, const SwDisplayText *text)
{
  double width = sw_text_meter_width (f->meter, text->text, text->style.height, text->style.bold);
  return (SwBox){ { text->at.x - width / 2, text->at.y - text->style.height / 2 }, { text->at.x + width / 2, text->at.y + text->style.height / 2 } };
}

static gboolean
overlap (SwBox a, SwBox b)
{
  return a.low.x < b.high.x - 1 && b.low.x < a.high.x - 1 && a.low.y < b.high.y - 1 && b.low.y < a.high.y - 1;
}

/* Forty lights in rows closer than their letters are wide: none of the letters meet. */
static void
test_round (Fixture *f, gconstpointer unused)
{
  for (int i = 0; i < 40; i++)
    {
      g_autofree char *text = g_strdup_printf ("L%d", i + 1);
      add (f, (SwPoint){ 1000 + i % 8 * 700, 1000 + i / 8 * 400 }, text, SW_LABEL_ROUND, 60, TRUE, 0);
    }
  g_autoptr (GArray) texts = drawn (f);
  g_assert_cmpuint (texts->len, ==, 40);
  for (guint i = 0; i < texts->len; i++)
    for (guint k = 0; k < i; k++)
      g_assert_false (overlap (box_of (f, &g_array_index (texts, SwDisplayText, i)), box_of (f, &g_array_index (texts, SwDisplayText, k))));
}

/* Runs that share a way slide apart along it. */
static void
test_along (Fixture *f, gconstpointer unused)
{
  for (int i = 0; i < 3; i++)
    add (f, (SwPoint){ 5000, 5000 }, "W1 W 110 1:60", SW_LABEL_ALONG, 3000, TRUE, 0);
  g_autoptr (GArray) texts = drawn (f);
  g_assert_cmpuint (texts->len, ==, 3);
  for (guint i = 0; i < 3; i++)
    for (guint k = 0; k < i; k++)
      g_assert_false (overlap (box_of (f, &g_array_index (texts, SwDisplayText, i)), box_of (f, &g_array_index (texts, SwDisplayText, k))));
}

/* A number that has twins elsewhere gives way; letters outside what shows are left out; what is blocked stays free. */
static void
test_gives_way (Fixture *f, gconstpointer unused)
{
  add (f, (SwPoint){ 2000, 2000 }, "7", SW_LABEL_FIXED, 0, TRUE, 0);
  add (f, (SwPoint){ 2000, 2000 }, "8", SW_LABEL_FIXED, 0, FALSE, 0);
  add (f, (SwPoint){ 20000, 2000 }, "9", SW_LABEL_FIXED, 0, TRUE, 0);
  sw_labels_block (f->labels, (SwBox){ { 4000, 4000 }, { 5000, 5000 } });
  add (f, (SwPoint){ 4500, 4500 }, "10", SW_LABEL_FIXED, 0, FALSE, 0);
  add (f, (SwPoint){ 4990, 4500 }, "11", SW_LABEL_ROUND, 60, TRUE, 0);
  g_autoptr (GArray) texts = drawn (f);
  g_assert_cmpuint (texts->len, ==, 2);
  g_assert_cmpstr (g_array_index (texts, SwDisplayText, 0).text, ==, "7");
  g_assert_false (overlap (box_of (f, &g_array_index (texts, SwDisplayText, 1)), (SwBox){ { 4000, 4000 }, { 5000, 5000 } }));
}

/* Letters are never smaller than can be read: 2.5 mm (ISO 3098 size). */
static void
test_least_letters (Fixture *f, gconstpointer unused)
{
  SwTextStyle tiny = { .height = 1.2, .align = SW_ALIGN_LEFT };
  SwLabel label = { { "small", NULL }, { tiny }, { 500, 500 }, SW_LABEL_FIXED, SW_BOX_EMPTY, 0, TRUE, 0 };
  sw_labels_add (f->labels, &label);
  g_autoptr (GArray) texts = drawn (f);
  sw_assert_near (g_array_index (texts, SwDisplayText, 0).style.height, 2.5 * 50, 1e-9);
}

/* A room of which only a strip shows is named where more of it shows. */
static void
test_least_seen (Fixture *f, gconstpointer unused)
{
  static const double shares[] = { 0.1, 0.5 };
  for (guint i = 0; i < G_N_ELEMENTS (shares); i++)
    {
      SwTextStyle style = { .height = 2.5, .align = SW_ALIGN_MIDDLE, .rise = SW_RISE_MIDDLE };
      SwBox room = { { 10000 - 4000 * shares[i], 1000 + 3000 * i }, { 14000 - 4000 * shares[i], 3000 + 3000 * i } };
      SwLabel label = { { i == 0 ? "Hall" : "Store", NULL }, { style }, { 9900, 2000 + 3000 * i }, SW_LABEL_INSIDE, room, 0, TRUE, 0, .least_seen = 0.2 };
      sw_labels_add (f->labels, &label);
    }
  g_autoptr (GArray) texts = drawn (f);
  g_assert_cmpuint (texts->len, ==, 1);
  g_assert_cmpstr (g_array_index (texts, SwDisplayText, 0).text, ==, "Store");
}

/* What is written in two lines is led back to its thing. */
static void
test_leader (Fixture *f, gconstpointer unused)
{
  SwTextStyle style = { .height = 2.5, .align = SW_ALIGN_MIDDLE, .rise = SW_RISE_MIDDLE };
  SwPoint at = { 5000, 5000 };
  SwLabel label = { { "WC1", "A + 2300" }, { style, style }, at, SW_LABEL_ROUND, sw_box_grow ((SwBox){ at, at }, 100), 0, TRUE, 0 };
  sw_labels_add (f->labels, &label);
  sw_labels_draw (f->labels);
  sw_display_seal (f->display);
  g_assert_cmpuint (sw_display_n_items (f->display), ==, 4); /* paper below, two texts, and the line */
}

/* The same labels give the same places. */
static void
test_same (Fixture *f, gconstpointer unused)
{
  g_autoptr (GArray) first = NULL;
  for (int round = 0; round < 2; round++)
    {
      SwRandom random = { 11 };
      Fixture own;
      setup (&own, NULL);
      for (int i = 0; i < 300; i++)
        add (&own, (SwPoint){ sw_random_double (&random, 0, 10000), sw_random_double (&random, 0, 10000) }, i % 3 ? "L12" : "R7 W 50", (SwLabelWay) (i % 4), 400, i % 5 != 0,
             i % 2 ? 0 : G_PI / 2);
      GArray *texts = drawn (&own);
      if (first == NULL)
        first = g_array_ref (texts);
      g_assert_cmpuint (texts->len, ==, first->len);
      for (guint i = 0; i < MIN (texts->len, first->len); i++)
        {
          sw_assert_near (g_array_index (texts, SwDisplayText, i).at.x, g_array_index (first, SwDisplayText, i).at.x, 0);
          sw_assert_near (g_array_index (texts, SwDisplayText, i).at.y, g_array_index (first, SwDisplayText, i).at.y, 0);
        }
      g_array_unref (texts);
      teardown (&own, NULL);
    }
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
#define ADD(name, function) g_test_add ("/sheets/labels/" name, Fixture, NULL, setup, function, teardown)
  ADD ("round", test_round);
  ADD ("along", test_along);
  ADD ("gives-way", test_gives_way);
  ADD ("least-letters", test_least_letters);
  ADD ("least-seen", test_least_seen);
  ADD ("leader", test_leader);
  ADD ("same", test_same);
  return g_test_run ();
}
