/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every kind of item through both painters: our SVG as librsvg draws it against what the cairo painter paints. */
#include "drawing/cairo_painter.h"
#include "drawing/svg_writer.h"
#include "drawing/text.h"
#include "support.h"
#include <librsvg/rsvg.h>
#include <string.h>

#define SIDE_MM 60
#define PX_PER_MM 10
#define SIDE_PX (SIDE_MM * PX_PER_MM)

static SwDrawView
paper_view (double units_per_mm, SwTheme theme)
{
  return (SwDrawView){ .to_device = { units_per_mm, 0, 0, -units_per_mm, 0, SIDE_MM * units_per_mm },
                       .paper_px = units_per_mm,
                       .screen_px = units_per_mm * 25.4 / 96,
                       .detail = 6,
                       .look = { .theme = theme } };
}

static cairo_surface_t *
through_cairo (const SwDisplay *display, SwTheme theme)
{
  SwDrawView view = paper_view (PX_PER_MM, theme);
  return sw_cairo_paint_tile (display, &view, SIDE_PX, NULL);
}

static GString *
svg_of (const SwDisplay *display, SwTheme theme)
{
  SwSvgPage page = { SIDE_MM, SIDE_MM, NULL, NULL, paper_view (1, theme) };
  return sw_svg_write (display, &page);
}

static cairo_surface_t *
through_svg (const SwDisplay *display, SwTheme theme)
{
  GError *error = NULL;
  GString *svg = svg_of (display, theme);
  RsvgHandle *handle = rsvg_handle_new_from_data ((const guint8 *) svg->str, svg->len, &error);
  g_assert_no_error (error);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, SIDE_PX, SIDE_PX);
  cairo_t *cr = cairo_create (surface);
  RsvgRectangle all = { 0, 0, SIDE_PX, SIDE_PX };
  g_assert_true (rsvg_handle_render_document (handle, cr, &all, &error));
  g_assert_no_error (error);
  cairo_destroy (cr);
  g_object_unref (handle);
  g_string_free (svg, TRUE);
  return surface;
}

/* Sum of a channel over a block of half a millimetre: letters may sit a pixel aside, as cairo places them whole. */
#define BLOCK (PX_PER_MM / 2)
static int
block_sum (cairo_surface_t *surface, int x, int y, int channel)
{
  int sum = 0, stride = cairo_image_surface_get_stride (surface);
  const guint8 *data = cairo_image_surface_get_data (surface);
  for (int row = y * BLOCK; row < (y + 1) * BLOCK; row++)
    for (int column = x * BLOCK; column < (x + 1) * BLOCK; column++)
      sum += data[row * stride + column * 4 + channel];
  return sum;
}

/* Mean difference of a channel (0–255), and how much `a` itself differs from the paper of its corner. */
static double
mean_difference (cairo_surface_t *a, cairo_surface_t *b, double *ink)
{
  double sum = 0, own = 0, n = SIDE_PX / BLOCK;
  cairo_surface_flush (b);
  for (int channel = 0; channel < 3; channel++)
    for (int y = 0; y < n; y++)
      for (int x = 0; x < n; x++)
        {
          int here = block_sum (a, x, y, channel);
          sum += ABS (here - block_sum (b, x, y, channel));
          own += ABS (here - block_sum (a, 0, 0, channel));
        }
  *ink = own / (n * n * 3 * BLOCK * BLOCK);
  return sum / (n * n * 3 * BLOCK * BLOCK);
}

typedef void (*Draw) (SwDisplay *display);

static void
draw_lines (SwDisplay *d)
{
  for (int i = 0; i < 10; i++)
    sw_display_add_line (d, (SwPoint){ 5, 5 + i * 3 }, (SwPoint){ 50, 8 + i * 4 }, &(SwStroke){ SW_ROLE_WASTE + i, 0.2 + 0.1 * i });
  const SwPoint corner[] = { { 5, 55 }, { 30, 40 }, { 50, 56 } };
  sw_display_add_polyline (d, corner, 3, &(SwStroke){ SW_ROLE_STEEL, 2, .round = TRUE });
}

static void
draw_dashes (SwDisplay *d)
{
  for (int i = 0; i < SW_N_DASHES; i++)
    sw_display_add_line (d, (SwPoint){ 4, 3 + i * 3 }, (SwPoint){ 56, 3 + i * 3 }, &(SwStroke){ SW_ROLE_INK, 0.5, .dash = i });
}

static void
draw_widths (SwDisplay *d)
{
  sw_display_begin_transform (d, sw_transform_view ((SwPoint){ 0, 0 }, (SwPoint){ 30, 30 }, 0.02, 0.4, FALSE));
  for (int unit = 0; unit < 3; unit++)
    sw_display_add_line (d, (SwPoint){ -900, unit * 400 - 400 }, (SwPoint){ 900, unit * 400 - 400 },
                         &(SwStroke){ SW_ROLE_INK, unit == SW_SIZE_WORLD ? 110 : 3, unit });
  sw_display_end (d);
}

static void
draw_areas (SwDisplay *d)
{
  const SwFill tint = { SW_ROLE_ROOM_1 }, half = { SW_ROLE_STOP, .transparency = 0.5 };
  const SwStroke edge = { SW_ROLE_WALL, 0.5 };
  const SwPoint ring[] = { { 5, 5 }, { 40, 8 }, { 35, 40 }, { 10, 50 } };
  sw_display_add_polygon (d, ring, 4, &tint, &edge);
  sw_display_add_circle (d, (SwPoint){ 35, 35 }, 15, &half, NULL);
  sw_display_add_box (d, (SwBox){ { 45, 5 }, { 58, 20 } }, NULL, &edge);
  /* A polygon with a hole, and one in the hole. */
  for (int i = 0; i < 3; i++)
    {
      double r = 9 - 3 * i;
      sw_display_move (d, (SwPoint){ 48 - r, 48 - r });
      sw_display_line (d, (SwPoint){ 48 + r, 48 - r });
      sw_display_line (d, (SwPoint){ 48, 48 + r });
      sw_display_close (d);
    }
  sw_display_paint (d, &(SwFill){ SW_ROLE_PLATE }, NULL);
}

static void
draw_arcs (SwDisplay *d)
{
  const SwStroke line = { SW_ROLE_DATA, 0.6 };
  sw_display_arc (d, (SwPoint){ 30, 30 }, 20, 0.2, 4);
  sw_display_paint (d, NULL, &line);
  sw_display_move (d, (SwPoint){ 5, 5 });
  sw_display_arc (d, (SwPoint){ 30, 5 }, 10, G_PI, -G_PI);
  sw_display_line (d, (SwPoint){ 55, 5 });
  sw_display_paint (d, NULL, &line);
  sw_display_begin_transform (d, (SwTransform){ 2, 0, 0, 0.5, 30, 30 });
  sw_display_add_circle (d, (SwPoint){ 0, 0 }, 8, &(SwFill){ SW_ROLE_FIX }, &line);
  sw_display_end (d);
}

static void
draw_hatchings (SwDisplay *d)
{
  for (int h = 0; h < SW_N_HATCHINGS; h++)
    sw_display_add_box (d, (SwBox){ { 3 + h % 4 * 14, 3 + h / 4 * 18 }, { 15 + h % 4 * 14, 19 + h / 4 * 18 } },
                        &(SwFill){ SW_ROLE_CONCRETE_EDGE, h }, &(SwStroke){ SW_ROLE_INK, 0.25 });
}

static void
draw_rooms (SwDisplay *d)
{
  for (int i = 0; i < 6; i++)
    sw_display_add_box (d, (SwBox){ { 3 + i % 2 * 28, 3 + i / 2 * 19 }, { 28 + i % 2 * 28, 20 + i / 2 * 19 } },
                        &(SwFill){ SW_ROLE_ROOM_1 + i }, &(SwStroke){ SW_ROLE_WALL, 0.5 });
  sw_display_add_circle (d, (SwPoint){ 30, 30 }, 8, &(SwFill){ SW_ROLE_DOWNSTAND }, NULL);
}

static void
draw_texts (SwDisplay *d)
{
  for (int align = 0; align < 3; align++)
    for (int rise = 0; rise < 3; rise++)
      {
        SwTextStyle style = { .height = 2.5, .align = align, .rise = rise };
        sw_display_add_text (d, (SwPoint){ 30, 5 + 4 * (align * 3 + rise) }, "Bay B void 7, 340 mm", &style);
      }
  sw_display_add_text (d, (SwPoint){ 5, 45 }, "Bold 5 mm", &(SwTextStyle){ .height = 5, .bold = TRUE });
  sw_display_add_text (d, (SwPoint){ 5, 53 }, "1:60 ⌀110 ±12", &(SwTextStyle){ SW_ROLE_STOP, .height = 3.5 });
}

static void
draw_turned_texts (SwDisplay *d)
{
  for (int i = 0; i < 12; i++)
    sw_display_add_text (d, (SwPoint){ 30, 30 }, "     level 2,400", &(SwTextStyle){ .height = 2.5, .turn = i * G_PI / 6, .rise = SW_RISE_MIDDLE });
}

static void
draw_rims (SwDisplay *d)
{
  sw_display_add_box (d, (SwBox){ { 2, 2 }, { 58, 58 } }, &(SwFill){ SW_ROLE_CONCRETE_EDGE, SW_HATCHING_DENSE }, NULL);
  for (int i = 0; i < 5; i++)
    sw_display_add_text (d, (SwPoint){ 8, 8 + i * 10 }, "Waste 50", &(SwTextStyle){ .height = 4, .halo = TRUE });
}

static void
draw_clips (SwDisplay *d)
{
  const SwPoint ring[] = { { 5, 5 }, { 55, 15 }, { 30, 55 } };
  sw_display_begin_clip (d, ring, 3);
  sw_display_add_box (d, (SwBox){ { 0, 0 }, { 60, 60 } }, &(SwFill){ SW_ROLE_ROOM_3 }, NULL);
  sw_display_begin_clip_box (d, (SwBox){ { 10, 10 }, { 35, 30 } });
  sw_display_add_box (d, (SwBox){ { 0, 0 }, { 60, 60 } }, &(SwFill){ SW_ROLE_GOOD }, NULL);
  sw_display_end (d);
  sw_display_add_line (d, (SwPoint){ 0, 40 }, (SwPoint){ 60, 40 }, &(SwStroke){ SW_ROLE_INK, 1 });
  sw_display_end (d);
  sw_display_add_line (d, (SwPoint){ 0, 50 }, (SwPoint){ 60, 50 }, &(SwStroke){ SW_ROLE_INK, 1 });
}

/* The same plan from above and from below, side by side. */
static void
draw_mirrored (SwDisplay *d)
{
  for (int i = 0; i < 2; i++)
    {
      sw_display_begin_transform (d, sw_transform_view ((SwPoint){ 0, 0 }, (SwPoint){ 15 + 30 * i, 30 }, 0.02, 0.3 * i, i == 1));
      sw_display_add_box (d, (SwBox){ { -600, -900 }, { 500, 900 } }, &(SwFill){ SW_ROLE_BOARD }, &(SwStroke){ .width = 0.35 });
      for (int k = 0; k < 4; k++)
        sw_display_add_text (d, (SwPoint){ -500, -700 + k * 400 }, "Room 4", &(SwTextStyle){ .height = 125, .unit = SW_SIZE_WORLD, .turn = k });
      sw_display_end (d);
    }
}

static void
draw_far (SwDisplay *d)
{
  sw_display_add_box (d, (SwBox){ { -5e6, -40 }, { 5e6, 20 } }, &(SwFill){ SW_ROLE_ROOM_2 }, &(SwStroke){ SW_ROLE_INK, 1 });
  sw_display_add_line (d, (SwPoint){ -1e5, -1e5 }, (SwPoint){ 1e5, 1e5 }, &(SwStroke){ SW_ROLE_STOP, 1 });
  sw_display_add_circle (d, (SwPoint){ 30, -2970 }, 3000, NULL, &(SwStroke){ SW_ROLE_COLD_WATER, 0.7 });
}

/* Limits are about twice what was measured; a text at the wrong end of its place gives a share above 1. */
static const struct { const char *name; Draw draw; double most_share; } kinds[] = {
  { "lines", draw_lines, 0.01 },       { "dashes", draw_dashes, 0.01 }, { "widths", draw_widths, 0.01 },
  { "areas", draw_areas, 0.01 },       { "arcs", draw_arcs, 0.01 },     { "hatchings", draw_hatchings, 0.02 },
  { "rooms", draw_rooms, 0.01 },       { "texts", draw_texts, 0.15 },   { "turned-texts", draw_turned_texts, 0.2 },
  { "rims", draw_rims, 0.08 },         { "clips", draw_clips, 0.02 },   { "mirrored", draw_mirrored, 0.08 },
  { "far", draw_far, 0.01 },
};

static void
keep_picture (cairo_surface_t *surface, const char *name, const char *how)
{
  const char *folder = g_getenv ("SOFFITWRIGHT_KEEP_PICTURES");
  if (folder == NULL)
    return;
  g_autofree char *path = g_strdup_printf ("%s/%s-%s.png", folder, name, how);
  cairo_surface_write_to_png (surface, path);
}

static void
test_kind (gconstpointer data)
{
  const int k = GPOINTER_TO_INT (data);
  for (int theme = 0; theme < SW_N_THEMES; theme++)
    {
      g_autoptr (SwDisplay) d = sw_display_new ();
      kinds[k].draw (d);
      sw_display_seal (d);
      g_assert_cmpuint (sw_display_n_left_out (d), ==, 0);
      cairo_surface_t *a = through_cairo (d, theme), *b = through_svg (d, theme);
      double ink, difference = mean_difference (a, b, &ink);
      g_test_message ("%s theme %d: difference %.3f, ink %.3f, share %.3f", kinds[k].name, theme, difference, ink, difference / ink);
      g_autofree char *name = g_strdup_printf ("%s-%d", kinds[k].name, theme);
      keep_picture (a, name, "cairo");
      keep_picture (b, name, "svg");
      g_assert_cmpfloat (ink, >, 1);
      g_assert_cmpfloat (difference / ink, <, kinds[k].most_share);
      cairo_surface_destroy (a);
      cairo_surface_destroy (b);
    }
}

static SwDisplay *
draw_all (void)
{
  SwDisplay *d = sw_display_new ();
  for (gsize k = 0; k < G_N_ELEMENTS (kinds); k++)
    {
      sw_display_set_layer (d, (int) k);
      kinds[k].draw (d);
    }
  sw_display_seal (d);
  return d;
}

/* Tiles put side by side are the picture painted at once: dashes, hatchings, texts and cut paths join. */
static void
test_tiles_join (void)
{
  g_autoptr (SwDisplay) d = draw_all ();
  SwDrawView view = paper_view (PX_PER_MM, SW_THEME_LIGHT);
  cairo_surface_t *whole = sw_cairo_paint_tile (d, &view, SIDE_PX, NULL);
  const int side = SIDE_PX / 4, stride = cairo_image_surface_get_stride (whole);
  guint different = 0;
  for (int tile = 0; tile < 16; tile++)
    {
      int x0 = tile % 4 * side, y0 = tile / 4 * side;
      view.to_device.x0 = -x0;
      view.to_device.y0 = SIDE_PX - y0;
      cairo_surface_t *part = sw_cairo_paint_tile (d, &view, side, NULL);
      for (int y = 0; y < side; y++)
        for (int x = 0; x < side * 4; x++)
          {
            int a = cairo_image_surface_get_data (whole)[(y0 + y) * stride + x0 * 4 + x];
            int b = cairo_image_surface_get_data (part)[y * cairo_image_surface_get_stride (part) + x];
            different += ABS (a - b) > 24;
          }
      cairo_surface_destroy (part);
    }
  cairo_surface_destroy (whole);
  g_test_message ("%u of %d bytes differ", different, SIDE_PX * SIDE_PX * 4);
  g_assert_cmpuint (different, <, SIDE_PX * SIDE_PX * 4 / 2000);
}

static gpointer
paint_one (gpointer data)
{
  cairo_surface_t *surface = through_cairo (data, SW_THEME_LIGHT);
  char *sum = g_compute_checksum_for_data (G_CHECKSUM_SHA256, cairo_image_surface_get_data (surface),
                                           (gsize) cairo_image_surface_get_stride (surface) * SIDE_PX);
  cairo_surface_destroy (surface);
  sw_display_unref (data);
  return sum;
}

static void
test_threads (void)
{
  g_autoptr (SwDisplay) d = draw_all ();
  GThread *threads[3];
  for (gsize i = 0; i < G_N_ELEMENTS (threads); i++)
    threads[i] = g_thread_new ("paint", paint_one, sw_display_ref (d));
  g_autofree char *alone = paint_one (sw_display_ref (d));
  for (gsize i = 0; i < G_N_ELEMENTS (threads); i++)
    {
      g_autofree char *sum = g_thread_join (threads[i]);
      g_assert_cmpstr (sum, ==, alone);
    }
}

static guint32
pixel (const SwDisplay *d, const SwDrawView *view, int x, int y)
{
  cairo_surface_t *surface = sw_cairo_paint_tile (d, view, SIDE_PX, NULL);
  guint32 value = *(guint32 *) (cairo_image_surface_get_data (surface) + y * cairo_image_surface_get_stride (surface) + x * 4);
  cairo_surface_destroy (surface);
  return value & 0xFFFFFF;
}

/* A layer below that is not faded is painted over a faded one that came later; hidden ones do not show at all. */
static void
test_layers (void)
{
  g_autoptr (SwDisplay) d = sw_display_new ();
  sw_display_set_layer (d, 1);
  sw_display_add_box (d, (SwBox){ { 0, 0 }, { 60, 60 } }, &(SwFill){ SW_ROLE_STOP }, NULL);
  sw_display_set_layer (d, 2);
  sw_display_add_box (d, (SwBox){ { 0, 0 }, { 60, 60 } }, &(SwFill){ SW_ROLE_GOOD }, NULL);
  sw_display_seal (d);
  SwDrawView view = paper_view (PX_PER_MM, SW_THEME_LIGHT);
  g_assert_cmphex (pixel (d, &view, 300, 300), ==, 0x009E73);
  view.look.faded = 1 << 2;
  g_assert_cmphex (pixel (d, &view, 300, 300), ==, 0xD55E00);
  view.look.hidden = 1 << 1;
  g_assert_cmphex (pixel (d, &view, 300, 300), ==, 0xA6DDCE); /* 0.65 white + 0.35 of the green */
  view.look.hidden = ~G_GUINT64_CONSTANT (0);
  g_assert_cmphex (pixel (d, &view, 300, 300), ==, 0xFFFFFF);
}

/* No letters below the view's limit; levels of detail follow the zoom. */
static void
test_detail (void)
{
  g_autoptr (SwDisplay) d = sw_display_new ();
  sw_display_add_text (d, (SwPoint){ 5, 30 }, "HHHHHHHHHHHH", &(SwTextStyle){ .height = 4, .unit = SW_SIZE_WORLD });
  sw_display_seal (d);
  SwTransform t = { 1, 0, 0, -1, 0, SIDE_MM };
  SwDrawView view = sw_draw_view_new (t, 1, 0, NULL);
  cairo_surface_t *blank = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, SIDE_PX, SIDE_PX);
  cairo_t *cr = cairo_create (blank);
  sw_cairo_paint_paper (cr, SW_THEME_LIGHT);
  cairo_destroy (cr);
  for (double scale = 1; scale < 1.2; scale += 0.02)
    {
      double ink;
      view.to_device = (SwTransform){ scale, 0, 0, -scale, 0, SIDE_MM * scale };
      cairo_surface_t *painted = sw_cairo_paint_tile (d, &view, SIDE_PX, NULL);
      double shown = mean_difference (painted, blank, &ink);
      g_assert_true ((shown > 0.001) == (4 * scale * SW_TEXT_EM >= SW_SCREEN_LEAST_TEXT_PX));
      cairo_surface_destroy (painted);
    }
  cairo_surface_destroy (blank);
}

static void
test_cancel (void)
{
  g_autoptr (SwDisplay) d = draw_all ();
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  SwDrawView view = paper_view (PX_PER_MM, SW_THEME_LIGHT);
  g_cancellable_cancel (cancellable);
  g_assert_null (sw_cairo_paint_tile (d, &view, SIDE_PX, cancellable));
}

static void
test_meter (void)
{
  g_autoptr (SwTextMeter) meter = sw_text_meter_new ();
  double wide = sw_text_meter_width (meter, "Bay B, void 7", 2.5, FALSE);
  g_assert_cmpfloat (wide, >, 10);
  sw_assert_near (sw_text_meter_width (meter, "Bay B, void 7", 25, FALSE), 10 * wide, 1e-9);
  g_assert_cmpfloat (sw_text_meter_width (meter, "Bay B, void 7", 2.5, TRUE), >, wide);
  g_assert_cmpfloat (sw_text_meter_width (meter, "bad \xff bytes", 2.5, FALSE), >, 5);
  g_autofree char *whole = sw_text_meter_shorten (meter, "Bay B, void 7", 2.5, FALSE, wide + 0.01);
  g_assert_cmpstr (whole, ==, "Bay B, void 7");
  for (double room = 0; room < wide; room += 0.7)
    {
      g_autofree char *cut = sw_text_meter_shorten (meter, "Bay B, void 7", 2.5, FALSE, room);
      g_assert_true (g_str_has_suffix (cut, "…"));
      if (room > 4)
        g_assert_cmpfloat (sw_text_meter_width (meter, cut, 2.5, FALSE), <=, room);
    }
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      g_autofree char *path = g_strconcat ("/drawing/painters/", kinds[i].name, NULL);
      g_test_add_data_func (path, GINT_TO_POINTER ((int) i), test_kind);
    }
  g_test_add_func ("/drawing/painters/tiles-join", test_tiles_join);
  g_test_add_func ("/drawing/painters/threads", test_threads);
  g_test_add_func ("/drawing/painters/layers", test_layers);
  g_test_add_func ("/drawing/painters/detail", test_detail);
  g_test_add_func ("/drawing/painters/cancel", test_cancel);
  g_test_add_func ("/drawing/painters/meter", test_meter);
  return g_test_run ();
}
