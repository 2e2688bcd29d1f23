/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/random.h"
#include "drawing/cairo_painter.h"
#include "drawing/dimension.h"
#include "drawing/display_data.h"
#include "drawing/furniture.h"
#include "drawing/page.h"
#include "drawing/table.h"
#include "support.h"
#include <stdlib.h>
#include <string.h>

typedef struct
{
  SwDisplay *display;
  SwTextMeter *meter;
  SwPen pen;
} Board;

static Board
board_new (double unit)
{
  Board board = { sw_display_new (), sw_text_meter_new () };
  board.pen = sw_pen_new (board.display, board.meter, unit);
  return board;
}

static void
board_clear (Board *board)
{
  sw_display_unref (board->display);
  sw_text_meter_free (board->meter);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Board, board_clear)

/* All texts in order, each followed by a space. */
static char *
words (const SwDisplay *d)
{
  GString *out = g_string_new (NULL);
  for (guint i = 0; i < sw_display_n_items (d); i++)
    if (sw_display_item (d, i)->text != NULL)
      g_string_append_printf (out, "%s ", sw_display_item (d, i)->text);
  return g_string_free (out, FALSE);
}

static void
test_chain (void)
{
  g_auto (Board) b = board_new (50);
  /* Not in order, one place twice, heights differ; rounding each gap alone would give 334 + 333 + 333 + 1000. */
  const SwPoint points[] = { { 2000, 0 }, { 0, 40 }, { 1000, -30 }, { 333.4, 0 }, { 666.7, 0 }, { 333.42, 900 } };
  sw_dimension_add_chain (&b.pen, (SwDimensionLine){ { 0, 2000 }, 0 }, points, G_N_ELEMENTS (points));
  g_autofree char *values = words (b.display);
  g_assert_cmpstr (values, ==, "333 334 333 1000 ");
}

static void
test_chain_adds_up (void)
{
  SwRandom random = { 9 };
  for (int round_ = 0; round_ < 50; round_++)
    {
      g_auto (Board) b = board_new (50);
      SwPoint points[20] = { { 0, 0 } };
      for (int i = 1; i < 20; i++)
        points[i].x = points[i - 1].x + sw_random_double (&random, 10, 900);
      sw_dimension_add_chain (&b.pen, (SwDimensionLine){ { 0, 500 }, 0 }, points, 20);
      gint64 sum = 0;
      for (guint i = 0; i < sw_display_n_items (b.display); i++)
        if (sw_display_item (b.display, i)->text != NULL)
          sum += g_ascii_strtoll (sw_display_item (b.display, i)->text, NULL, 10);
      g_assert_cmpint (sum, ==, (gint64) round (points[19].x));
    }
}

/* Positions 0, 2500, 5000 mm: 8 ft 2.43 in and 16 ft 4.85 in, to the sixteenth 98 7/16 and 196 7/8 in, so twice 8'-2 7/16". */
static void
test_feet (void)
{
  g_auto (Board) b = board_new (50), r = board_new (50);
  const SwPoint points[] = { { 0, 0 }, { 2500, 0 }, { 5000, 0 }, { 5304.8, 0 } };
  b.pen.lengths = r.pen.lengths = SW_LENGTHS_FT_IN;
  sw_dimension_add_chain (&b.pen, (SwDimensionLine){ { 0, 2000 }, 0 }, points, G_N_ELEMENTS (points));
  g_autofree char *chain = words (b.display);
  g_assert_cmpstr (chain, ==, "8'-2 7/16\" 8'-2 7/16\" 1'-0\" ");
  sw_dimension_add_running (&r.pen, (SwDimensionLine){ { 0, -300 }, 0 }, (SwPoint){ 0, 0 }, points, G_N_ELEMENTS (points));
  g_autofree char *running = words (r.display);
  g_assert_cmpstr (running, ==, "8'-2 7/16\" 16'-4 7/8\" 17'-4 7/8\" ");
}

static void
test_running (void)
{
  g_auto (Board) b = board_new (20);
  const SwPoint points[] = { { 600, 0 }, { 0, 0 }, { 2715.4, 0 }, { -120, 0 }, { 1200, 0 } };
  sw_dimension_add_running (&b.pen, (SwDimensionLine){ { 0, -300 }, 0 }, (SwPoint){ 0, 0 }, points, G_N_ELEMENTS (points));
  g_autofree char *values = words (b.display);
  g_assert_cmpstr (values, ==, "-120 600 1200 2715 ");
  /* Values stand outside of the line, which lies below the points. */
  for (guint i = 0; i < sw_display_n_items (b.display); i++)
    if (sw_display_item (b.display, i)->text != NULL)
      g_assert_cmpfloat (sw_display_item (b.display, i)->box.high.y, <, -300);
}

static void
test_nothing_to_measure (void)
{
  g_auto (Board) b = board_new (1);
  const SwPoint points[] = { { 5, 5 }, { NAN, 3 } };
  sw_dimension_add_chain (&b.pen, (SwDimensionLine){ { 0, 0 }, 0 }, NULL, 0);
  sw_dimension_add_chain (&b.pen, (SwDimensionLine){ { 0, 0 }, 0 }, points, 1);
  sw_dimension_add_running (&b.pen, (SwDimensionLine){ { 0, 0 }, 0 }, points[0], points, 1);
  sw_dimension_add_arrow (&b.pen, points[0], points[0]);
  sw_furniture_add_grid_line (&b.pen, points[0], points[0], "A", TRUE);
  sw_furniture_add_service_line (&b.pen, points, 1, SW_SERVICE_LINE_GAS, 0.5);
  g_autofree char *none = words (b.display);
  g_assert_cmpstr (none, ==, "");
}

/* The place that a text covers on the page, from its style and the meter. */
static SwBox
text_box (const Board *b, const SwItem *item)
{
  SwDrawView view = sw_page_view (&(SwPage){ SW_PAPER_A3 }, 1);
  const SwTextStyle *style = &sw_display_style (b->display, item->style)->text;
  const SwPoint *at = sw_display_points (b->display, item->first_point);
  SwTextPlace place = sw_text_place (&view, at[0], at[1], item->mirrored, style);
  double height = place.em / SW_TEXT_EM, width = sw_text_meter_width (b->meter, item->text, height, style->bold);
  double start = -width * (place.align / 2.0);
  SwBox box = SW_BOX_EMPTY;
  for (int corner = 0; corner < 4; corner++)
    {
      SwPoint local = { corner & 1 ? start : start + width, corner & 2 ? 0 : -height };
      box = sw_box_add (box, sw_point_add (place.at, sw_point_turn (local, place.cosine, place.sine)));
    }
  return box;
}

static void
assert_texts_apart (const Board *b)
{
  for (guint i = 0; i < sw_display_n_items (b->display); i++)
    for (guint j = 0; j < i; j++)
      {
        const SwItem *x = sw_display_item (b->display, i), *y = sw_display_item (b->display, j);
        if (x->text != NULL && y->text != NULL && sw_box_meets (text_box (b, x), text_box (b, y)))
          {
            g_test_message ("\"%s\" lies on \"%s\"", x->text, y->text);
            g_test_fail ();
          }
      }
}

/* Voids and ribs at 1:50: 500 and 100 mm, the 100 too narrow for its value. */
static void
test_narrow_values_step_out (void)
{
  for (int turned = 0; turned < 4; turned++)
    {
      g_auto (Board) b = board_new (50);
      SwPoint points[13], origin = { 5000, 5000 };
      double angle = turned * G_PI / 2;
      for (int i = 0; i < 13; i++)
        points[i] = sw_point_add (origin, sw_point_turn ((SwPoint){ i / 2 * 600 + i % 2 * 500, 0 }, cos (angle), sin (angle)));
      SwPoint at = sw_point_add (origin, sw_point_turn ((SwPoint){ 0, 900 }, cos (angle), sin (angle)));
      sw_display_begin_transform (b.display, sw_transform_view (origin, (SwPoint){ 200, 150 }, 0.02, 0, FALSE));
      sw_dimension_add_chain (&b.pen, (SwDimensionLine){ at, angle }, points, 13);
      sw_display_end (b.display);
      assert_texts_apart (&b);
      g_auto (Board) r = board_new (50);
      sw_display_begin_transform (r.display, sw_transform_view (origin, (SwPoint){ 200, 150 }, 0.02, 0, FALSE));
      sw_dimension_add_running (&r.pen, (SwDimensionLine){ at, angle }, points[0], points, 13);
      sw_display_end (r.display);
      assert_texts_apart (&r);
    }
}

static const SwCell project[] = { { "Project", "Clinic with a name that is so very long that it cannot fit, not even in the smallest letters that can be read on site, into the one cell that it has to itself", 1 } };
static const SwCell sheet[] = { { "Sheet", "Soffit plan, looking up", 2 }, { "Scale", "1:50", 1 }, { "Revision", "B", 1 } };
static const SwCell hand[] = { { "Checked", NULL, 1 }, { "Date", NULL, 1 } };
static const SwCellRow block[] = { { project, 1 }, { sheet, 3 }, { hand, 2, 15 } };
static const SwTableColumn columns[] = { { "No.", 0, SW_ALIGN_RIGHT }, { "Material", 40, SW_ALIGN_LEFT }, { "m", 0, SW_ALIGN_RIGHT } };
static const char *const rows[] = { "1", "Waste 50", "12.4", "2", "Conduit 20 with a long description", "118.0", "10", NULL, "3.2" };

static void
draw_plan (const SwPen *pen)
{
  SwPoint xs[8], run[] = { { 300, 400 }, { 300, 2600 }, { 5600, 2600 } };
  for (int i = 0; i < 8; i++)
    xs[i] = (SwPoint){ i / 2 * 1800 + i % 2 * 1500, 0 };
  sw_dimension_add_chain (pen, (SwDimensionLine){ { 0, -500 }, 0 }, xs, 8);
  sw_dimension_add_running (pen, (SwDimensionLine){ { 0, 4700 }, 0 }, xs[0], xs, 8);
  sw_furniture_add_grid_line (pen, (SwPoint){ -400, 0 }, (SwPoint){ -400, 5500 }, "A", FALSE);
  sw_furniture_add_grid_line (pen, (SwPoint){ 0, 2000 }, (SwPoint){ 8000, 2000 }, "12a", TRUE);
  for (int s = 0; s < SW_N_SERVICE_LINES; s++)
    {
      SwPoint moved[3];
      for (int i = 0; i < 3; i++)
        moved[i] = (SwPoint){ run[i].x + s * 130, run[i].y + s * 130 };
      sw_furniture_add_service_line (pen, moved, 3, s, 0.5);
    }
  sw_dimension_add_level (pen, (SwPoint){ 6500, 1000 }, "+2,715", FALSE);
  sw_dimension_add_level (pen, (SwPoint){ 6500, 1000 }, "+2,690", TRUE);
  sw_dimension_add_leader (pen, (SwPoint){ 6800, 3300 }, (SwPoint){ 6200, 2700 }, "drop to switch");
  sw_furniture_add_tag (pen, (SwPoint){ 7600, 700 }, "17");
}

static SwBox
draw_sheet (Board *b, gboolean mirror)
{
  SwPage page = { SW_PAPER_A3 };
  SwBox frame = sw_page_frame (&page);
  sw_page_add_frame (b->display, &page);
  SwPen plan = sw_pen_new (b->display, b->meter, 50);
  sw_display_begin_transform (b->display, sw_transform_view ((SwPoint){ 4000, 2000 }, (SwPoint){ 150, 160 }, 0.02, 0, mirror));
  draw_plan (&plan);
  sw_display_end (b->display);
  SwBox title = sw_table_add_title_block (&b->pen, (SwPoint){ frame.high.x, frame.low.y }, 170, block, 3);
  sw_furniture_add_north (&b->pen, (SwPoint){ 390, 250 }, 1.2, "N");
  sw_furniture_add_looking (&b->pen, (SwPoint){ 355, 250 }, TRUE, "looking up");
  sw_furniture_add_looking (&b->pen, (SwPoint){ 355, 225 }, FALSE, "looking down");
  sw_furniture_add_scale_bar (&b->pen, (SwPoint){ 40, 30 }, 50, 100, "1:50 on A3");
  SwLegendEntry entries[SW_N_SERVICE_LINES + 2] = { 0 };
  SwStroke strokes[SW_N_SERVICE_LINES];
  for (int s = 0; s < SW_N_SERVICE_LINES; s++)
    {
      strokes[s] = (SwStroke){ sw_service_line_role (s), 0.5, SW_SIZE_PAPER, sw_service_line_dash (s) };
      entries[s] = (SwLegendEntry){ &strokes[s], NULL, sw_service_line_code (s), sw_role_name (sw_service_line_role (s)) };
    }
  SwFill zone = { SW_ROLE_SOLID_ZONE }, board = { SW_ROLE_BOARD, SW_HATCHING_WIDE };
  entries[SW_N_SERVICE_LINES] = (SwLegendEntry){ NULL, &zone, NULL, "solid zone" };
  entries[SW_N_SERVICE_LINES + 1] = (SwLegendEntry){ &strokes[0], &board, "B", "board" };
  sw_furniture_add_legend (&b->pen, (SwPoint){ 320, 200 }, "Legend", entries, G_N_ELEMENTS (entries));
  sw_table_add_schedule (&b->pen, (SwPoint){ 30, 90 }, 40, columns, 3, rows, 3, NULL);
  return title;
}

/* Letters are at least 2.5 mm high on the page, in plans too (what a site reads on A3). */
static void
test_letters (void)
{
  g_auto (Board) b = board_new (1);
  draw_sheet (&b, TRUE);
  sw_display_seal (b.display);
  guint n = 0;
  for (guint i = 0; i < sw_display_n_items (b.display); i++)
    {
      const SwItem *item = sw_display_item (b.display, i);
      const SwTextStyle *style = &sw_display_style (b.display, item->style)->text;
      if (item->text == NULL)
        continue;
      n++;
      g_assert_cmpint (style->unit, ==, SW_SIZE_WORLD);
      g_assert_cmpfloat (style->height, >=, 2.5 - 1e-9);
      SwBox box = text_box (&b, item);
      g_assert_true (box.low.x >= 20 && box.high.x <= 410 && box.low.y >= 10 && box.high.y <= 287);
    }
  g_assert_cmpuint (n, >, 60);
  g_assert_cmpuint (sw_display_n_left_out (b.display), ==, 0);
  const char *folder = g_getenv ("SOFFITWRIGHT_KEEP_PICTURES");
  for (int theme = 0; folder != NULL && theme < SW_N_THEMES; theme++)
    {
      g_autofree char *path = g_strdup_printf ("%s/sheet-%d.png", folder, theme);
      sw_page_export (b.display, &(SwPage){ SW_PAPER_A3, FALSE, theme }, SW_PAGE_PNG, path, NULL);
    }
}

static void
test_title_block (void)
{
  g_auto (Board) b = board_new (1);
  SwBox box = sw_table_add_title_block (&b.pen, (SwPoint){ 410, 10 }, 170, block, 3);
  sw_assert_near (box.low.x, 240, 1e-9);
  sw_assert_near (box.high.x, 410, 1e-9);
  sw_assert_near (box.high.y - box.low.y, 2 * (4 * 1.2 + 2.5 + 3.5) + 15, 1e-9);
  guint n = 0;
  for (guint i = 0; i < sw_display_n_items (b.display); i++)
    if (sw_display_item (b.display, i)->text != NULL)
      {
        SwBox at = text_box (&b, sw_display_item (b.display, i));
        g_assert_true (at.low.x > 240 && at.high.x < 410);
        n++;
      }
  g_assert_cmpuint (n, ==, 10); /* six labels, four values */
  assert_texts_apart (&b);
  g_autofree char *all = words (b.display);
  g_assert_nonnull (strstr (all, "…"));
}

static void
test_schedule (void)
{
  g_auto (Board) b = board_new (1);
  gsize shown = 0;
  SwBox box = sw_table_add_schedule (&b.pen, (SwPoint){ 30, 200 }, 100, columns, 3, rows, 3, &shown);
  g_assert_cmpuint (shown, ==, 3);
  sw_assert_near (box.high.y - box.low.y, 4 * (2.5 + 2.4), 1e-9);
  g_autofree char *all = words (b.display);
  g_assert_true (g_str_has_prefix (all, "No. Material m 1 Waste 50 12.4 2 Conduit"));
  g_assert_true (g_str_has_suffix (all, "118.0 10 3.2 "));
  assert_texts_apart (&b);
  g_auto (Board) low = board_new (1);
  sw_table_add_schedule (&low.pen, (SwPoint){ 30, 200 }, 15, columns, 3, rows, 3, &shown);
  g_assert_cmpuint (shown, ==, 2);
  sw_table_add_schedule (&low.pen, (SwPoint){ 30, 200 }, 1, columns, 3, rows, 3, &shown);
  g_assert_cmpuint (shown, ==, 0);
}

/* A bar at 1:50 that may be 100 mm long shows 5 m; its boxes measure what they say. */
static void
test_scale_bar (void)
{
  const struct { double scale, width, step_m; int n; } cases[] = { { 50, 100, 1, 5 }, { 20, 100, 0.5, 4 }, { 10, 60, 0.1, 6 }, { 200, 100, 5, 4 } };
  for (gsize c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      g_auto (Board) b = board_new (1);
      sw_furniture_add_scale_bar (&b.pen, (SwPoint){ 0, 0 }, cases[c].scale, cases[c].width, "scale");
      int n = 0;
      for (guint i = 0; i < sw_display_n_items (b.display); i++)
        {
          const SwItem *item = sw_display_item (b.display, i);
          if (item->text != NULL)
            continue;
          double width = item->box.high.x - item->box.low.x - sw_display_style (b.display, item->style)->stroke.width;
          sw_assert_near (width * cases[c].scale / 1000, cases[c].step_m, 1e-9);
          n++;
        }
      g_assert_cmpint (n, ==, cases[c].n);
    }
}

/* The same bar in feet: 100 mm at 1:50 are 16.4 ft, eight boxes of 2 ft. */
static void
test_scale_bar_feet (void)
{
  g_auto (Board) b = board_new (1);
  int n = 0;
  b.pen.lengths = SW_LENGTHS_FT_IN;
  sw_furniture_add_scale_bar (&b.pen, (SwPoint){ 0, 0 }, 50, 100, "scale");
  for (guint i = 0; i < sw_display_n_items (b.display); i++)
    {
      const SwItem *item = sw_display_item (b.display, i);
      if (item->text != NULL)
        continue;
      double width = item->box.high.x - item->box.low.x - sw_display_style (b.display, item->style)->stroke.width;
      sw_assert_near (width * 50, 2 * 304.8, 1e-9);
      n++;
    }
  g_autofree char *text = words (b.display);
  g_assert_cmpint (n, ==, 8);
  g_assert_nonnull (strstr (text, "16 ft"));
}

/* Without colour every service's line still looks different from every other's, letters apart. */
static void
test_mono_lines_differ (void)
{
  enum { LENGTH = 300, HEIGHT = 8 };
  guint8 strips[SW_N_SERVICE_LINES][LENGTH];
  for (int s = 0; s < SW_N_SERVICE_LINES; s++)
    {
      g_autoptr (SwDisplay) d = sw_display_new ();
      SwStroke stroke = { sw_service_line_role (s), 0.5, SW_SIZE_PAPER, sw_service_line_dash (s) };
      sw_display_add_line (d, (SwPoint){ 0, 0 }, (SwPoint){ 60, 0 }, &stroke);
      sw_display_seal (d);
      SwDrawView view = sw_draw_view_new ((SwTransform){ 5, 0, 0, -5, 0, HEIGHT / 2 }, 1, 5, &(SwLook){ SW_THEME_MONO });
      cairo_surface_t *surface = sw_cairo_paint_tile (d, &view, LENGTH, NULL);
      for (int x = 0; x < LENGTH; x++)
        strips[s][x] = cairo_image_surface_get_data (surface)[HEIGHT / 2 * cairo_image_surface_get_stride (surface) + 4 * x];
      cairo_surface_destroy (surface);
      for (int t = 0; t < s; t++)
        {
          int different = 0;
          for (int x = 0; x < LENGTH; x++)
            different += ABS (strips[s][x] - strips[t][x]) > 128;
          g_assert_cmpint (different, >, LENGTH / 25);
        }
    }
}

/* Turning a board over changes places, not words or sizes. */
static void
test_mirrored_words (void)
{
  g_auto (Board) down = board_new (1);
  g_auto (Board) up = board_new (1);
  draw_sheet (&down, FALSE);
  draw_sheet (&up, TRUE);
  g_autofree char *a = words (down.display);
  g_autofree char *b = words (up.display);
  g_assert_cmpstr (a, ==, b);
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/drawing/annotation/chain", test_chain);
  g_test_add_func ("/drawing/annotation/chain-adds-up", test_chain_adds_up);
  g_test_add_func ("/drawing/annotation/feet", test_feet);
  g_test_add_func ("/drawing/annotation/scale-bar-feet", test_scale_bar_feet);
  g_test_add_func ("/drawing/annotation/running", test_running);
  g_test_add_func ("/drawing/annotation/nothing-to-measure", test_nothing_to_measure);
  g_test_add_func ("/drawing/annotation/narrow-values-step-out", test_narrow_values_step_out);
  g_test_add_func ("/drawing/annotation/letters", test_letters);
  g_test_add_func ("/drawing/annotation/title-block", test_title_block);
  g_test_add_func ("/drawing/annotation/schedule", test_schedule);
  g_test_add_func ("/drawing/annotation/scale-bar", test_scale_bar);
  g_test_add_func ("/drawing/annotation/mono-lines-differ", test_mono_lines_differ);
  g_test_add_func ("/drawing/annotation/mirrored-words", test_mirrored_words);
  return g_test_run ();
}
