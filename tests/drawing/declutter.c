/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/random.h"
#include "drawing/declutter.h"
#include "drawing/display_data.h"
#include "drawing/text.h"
#include "support.h"

static SwDrawView
view_at (double zoom, guint64 faded)
{
  return sw_draw_view_new ((SwTransform){ zoom, 0, 0, -zoom, 0, 0 }, 1, 5, &(SwLook){ SW_THEME_LIGHT, 0, faded });
}

static void
label (SwDisplay *display, double x, double y, const char *text, const SwTextStyle *style)
{
  sw_display_add_text (display, (SwPoint){ x, y }, text, style);
}

static gboolean
goes (const SwDeclutter *declutter, guint display, guint32 item)
{
  return (sw_declutter_left_out (declutter, display)[item / 64] >> (item % 64)) & 1;
}

static const SwTextStyle plain = { .height = 2, .halo = TRUE }, bold = { .height = 2, .halo = TRUE, .bold = TRUE },
                         high = { .height = 3, .halo = TRUE }, bare = { .height = 2 };

/* Of two that meet the one that matters less goes: layer in front, then bold, then height, then the later one. */
static void
test_what_goes (void)
{
  const struct
  {
    const SwTextStyle *first, *second;
    int first_layer, second_layer;
    gboolean first_goes, second_goes;
  } cases[] = { { &plain, &plain, 0, 0, TRUE, FALSE },
                { &high, &plain, 0, 0, FALSE, TRUE },
                { &bold, &high, 0, 0, FALSE, TRUE },
                { &plain, &bold, 0, 1, FALSE, TRUE }, /* layer 1 is faded */
                { &plain, &bare, 0, 0, TRUE, FALSE },
                { &bold, &bare, 0, 1, TRUE, FALSE },
                { &bare, &bare, 0, 0, FALSE, FALSE } };
  SwDrawView view = view_at (1, 2);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (SwDisplay) a = sw_display_new (), b = sw_display_new ();
      sw_display_set_layer (a, cases[i].first_layer);
      label (a, 0, 0, "Library", cases[i].first);
      sw_display_set_layer (b, cases[i].second_layer);
      label (b, 5, 3, "CW1 22", cases[i].second);
      sw_display_seal (a);
      sw_display_seal (b);
      SwDisplay *displays[] = { a, b };
      g_autoptr (SwDeclutter) declutter = sw_declutter_new (displays, 2, &view);
      g_assert_cmpint (goes (declutter, 0, 0), ==, cases[i].first_goes);
      g_assert_cmpint (goes (declutter, 1, 0), ==, cases[i].second_goes);
    }
}

/* What meets when seen from afar is apart from near, and the list to paint follows. */
static void
test_nearer_shows_more (void)
{
  g_autoptr (SwDisplay) d = sw_display_new ();
  label (d, 0, 0, "LF1 L 20", &plain);
  label (d, 0, 300, "LF2 L 20", &plain);
  sw_display_add_line (d, (SwPoint){ 0, 0 }, (SwPoint){ 500, 300 }, &(SwStroke){ SW_ROLE_INK, 0.25 });
  sw_display_seal (d);
  const struct { double zoom; guint shown; } cases[] = { { 0.01, 2 }, { 0.5, 3 } };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      SwDrawView view = view_at (cases[i].zoom, 0);
      g_autoptr (SwDeclutter) declutter = sw_declutter_new (&d, 1, &view);
      guint n = 0;
      view.left_out = sw_declutter_left_out (declutter, 0);
      g_autofree guint32 *list = sw_draw_list (d, &view, (SwBox){ { -1000, -1000 }, { 1000, 1000 } }, &n);
      g_assert_nonnull (list);
      g_assert_cmpuint (n, ==, cases[i].shown);
    }
}

/* The rectangle that a label covers, from measured letters, as four corners on the device. */
static void
corners_of (const SwDisplay *d, const SwDrawView *view, SwTextMeter *meter, guint32 i, double shrink, SwPoint corners[4])
{
  const SwItem *item = sw_display_item (d, i);
  const SwTextStyle *style = &sw_display_style (d, item->style)->text;
  const SwPoint *at = sw_display_points (d, item->first_point);
  double height = sw_draw_size (view, style->unit, style->height), width = sw_text_meter_width (meter, item->text, height, style->bold);
  SwPoint along = at[1], up = { -along.y, along.x }, from = { at[0].x * view->to_device.xx, at[0].y * view->to_device.xx };
  for (int c = 0; c < 4; c++)
    {
      double x = (c == 1 || c == 2 ? 1 - shrink : shrink) * width, y = (c >= 2 ? 1 - shrink : shrink) * height;
      corners[c] = sw_point_add (from, sw_point_add (sw_point_scale (along, x), sw_point_scale (up, y)));
    }
}

static gboolean
holds (const SwPoint ring[4], SwPoint p)
{
  for (int i = 0; i < 4; i++)
    if (sw_point_cross (sw_point_sub (ring[(i + 1) % 4], ring[i]), sw_point_sub (p, ring[i])) < 0)
      return FALSE;
  return TRUE;
}

/* Do two rectangles share a point of a grid laid over the first? */
static gboolean
overlap (const SwPoint a[4], const SwPoint b[4])
{
  for (int i = 0; i <= 20; i++)
    for (int j = 0; j <= 4; j++)
      if (holds (b, sw_point_lerp (sw_point_lerp (a[0], a[1], i / 20.0), sw_point_lerp (a[3], a[2], i / 20.0), j / 4.0)))
        return TRUE;
  return FALSE;
}

/* Labels at any turn: those that stay do not stand on each other, by letters as measured, a tenth of the edge forgiven. */
static void
test_none_on_another (void)
{
  g_autoptr (SwTextMeter) meter = sw_text_meter_new ();
  SwRandom random = { 41 };
  static const char *const texts[] = { "CW1 22", "Washrooms", "27.0 m² closed", "W5 60 min 45 dB", "12", "FA2 FA 20" };
  SwDrawView view = view_at (0.1, 0);
  for (int round = 0; round < sw_test_rounds (20); round++)
    {
      g_autoptr (SwDisplay) d = sw_display_new ();
      for (int i = 0; i < 60; i++)
        {
          SwTextStyle style = { .height = sw_random_double (&random, 2, 3), .halo = TRUE, .turn = sw_random_double (&random, -1.5, 1.5) };
          label (d, sw_random_double (&random, 0, 9000), sw_random_double (&random, 0, 9000), texts[i % 6], &style);
        }
      sw_display_seal (d);
      g_autoptr (SwDeclutter) declutter = sw_declutter_new (&d, 1, &view);
      guint stay = 0;
      for (guint32 i = 0; i < 60; i++)
        {
          SwPoint a[4], b[4];
          if (goes (declutter, 0, i))
            continue;
          stay++;
          corners_of (d, &view, meter, i, 0.1, a);
          for (guint32 j = 0; j < 60; j++)
            if (j != i && !goes (declutter, 0, j))
              {
                corners_of (d, &view, meter, j, 0.1, b);
                g_assert_false (overlap (a, b));
              }
        }
      g_assert_cmpuint (stay, >, 20);
      g_assert_cmpuint (stay, <, 60);
    }
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/drawing/declutter/what-goes", test_what_goes);
  g_test_add_func ("/drawing/declutter/nearer-shows-more", test_nearer_shows_more);
  g_test_add_func ("/drawing/declutter/none-on-another", test_none_on_another);
  return g_test_run ();
}
