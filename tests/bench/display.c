/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Time to build and seal a plan-like display, per 512-px tile and for its labels at three zooms, per hit test, and for the SVG; with n
 * and 4n items, so that growth shows. Prints one line a figure. */
#include "base/random.h"
#include "drawing/cairo_painter.h"
#include "drawing/declutter.h"
#include "drawing/hit.h"
#include "drawing/page.h"
#include "drawing/viewport.h"
#include <stdlib.h>

#define TILE 512

static double
since_ms (gint64 start)
{
  return (double) (g_get_monotonic_time () - start) / 1000;
}

/* Ribs, plates, runs, lights, boards and labels over a floor with 200 items on 10 m². */
static SwDisplay *
plan (guint n, double *side)
{
  SwRandom random = { 1 };
  SwDisplay *d = sw_display_new ();
  *side = sqrt (n / 200.0 * 10e6);
  for (guint i = 0; i < n; i++)
    {
      SwPoint p = { sw_random_double (&random, 0, *side), sw_random_double (&random, 0, *side) };
      SwPoint q = { p.x + sw_random_double (&random, -2500, 2500), p.y }, bend = { q.x, q.y + 600 };
      sw_display_begin_group (d, &(SwDisplayGroup){ .key = { 1 + (int) (i % 5), 0, i } });
      sw_display_set_layer (d, (int) (i % 5));
      if (i % 5 == 0)
        sw_display_add_polyline (d, (SwPoint[]){ p, q, bend }, 3, &(SwStroke){ SW_ROLE_WASTE + i % 13, 0.5, .dash = SW_DASH_SERVICE + i % 13 });
      else if (i % 5 == 1)
        sw_display_add_box (d, (SwBox){ p, { p.x + 1200, p.y + 300 } }, &(SwFill){ SW_ROLE_BOARD }, &(SwStroke){ SW_ROLE_BOARD_EDGE, 0.18 });
      else if (i % 5 == 2)
        sw_display_add_circle (d, p, 45, &(SwFill){ SW_ROLE_LIGHT }, &(SwStroke){ SW_ROLE_INK, 0.25 });
      else if (i % 5 == 3)
        sw_display_add_line (d, p, q, &(SwStroke){ SW_ROLE_BATTEN, 38, SW_SIZE_WORLD });
      else
        sw_display_add_text (d, p, "W 50 1:60", &(SwTextStyle){ .height = 125, .unit = SW_SIZE_WORLD, .halo = i % 10 == 4 });
      sw_display_end (d);
    }
  sw_display_seal (d);
  return d;
}

static void
bench_tiles (const SwDisplay *d, double side, double zoom, guint n)
{
  SwViewport port = sw_viewport_new (1920, 1080);
  port.zoom = zoom;
  port.centre = (SwPoint){ side / 2, side / 2 };
  SwDrawView whole = sw_draw_view_new (sw_viewport_tile_transform (&port, 0, 0, TILE), 1, 0, NULL);
  SwDisplay *display = (SwDisplay *) d; /* only read */
  gint64 begin = g_get_monotonic_time ();
  g_autoptr (SwDeclutter) declutter = sw_declutter_new (&display, 1, &whole);
  g_print ("labels n=%u zoom=%.4f: %.2f ms\n", n, zoom, since_ms (begin));
  int i0, j0, i1, j1, tiles = 0;
  sw_viewport_tiles (&port, TILE, &i0, &j0, &i1, &j1);
  gint64 start = g_get_monotonic_time ();
  double worst = 0;
  for (int j = j0; j <= j1; j++)
    for (int i = i0; i <= i1; i++, tiles++)
      {
        SwDrawView view = sw_draw_view_new (sw_viewport_tile_transform (&port, i, j, TILE), 1, 0, NULL);
        view.left_out = sw_declutter_left_out (declutter, 0);
        gint64 one = g_get_monotonic_time ();
        cairo_surface_destroy (sw_cairo_paint_tile (d, &view, TILE, NULL));
        worst = MAX (worst, since_ms (one));
      }
  g_print ("tile n=%u zoom=%.4f: %.2f ms mean, %.2f ms worst of %d\n", n, zoom, since_ms (start) / tiles, worst, tiles);
}

static void
bench_hits (const SwDisplay *d, double side, guint n)
{
  SwRandom random = { 2 };
  SwViewport port = sw_viewport_new (1920, 1080);
  port.centre = (SwPoint){ side / 2, side / 2 };
  SwDrawView view = sw_draw_view_new (sw_viewport_transform (&port), 1, 0, NULL);
  gint64 start = g_get_monotonic_time ();
  guint found = 0;
  for (int i = 0; i < 500; i++)
    {
      SwPoint at = { sw_random_double (&random, 0, 1920), sw_random_double (&random, 0, 1080) };
      g_autoptr (GArray) hits = sw_hit_point (d, &view, at, 6);
      found += hits->len;
    }
  g_print ("hit n=%u: %.3f ms, %u found in 500\n", n, since_ms (start) / 500, found);
}

static void
bench_one (guint n)
{
  double side;
  gint64 start = g_get_monotonic_time ();
  g_autoptr (SwDisplay) d = plan (n, &side);
  g_print ("build n=%u: %.1f ms\n", n, since_ms (start));
  bench_tiles (d, side, 1080 / side, n); /* all in view */
  bench_tiles (d, side, 0.05, n);
  bench_tiles (d, side, 0.3, n);
  bench_hits (d, side, n);
  g_autoptr (SwDisplay) page = sw_display_new ();
  sw_display_begin_transform (page, sw_transform_view ((SwPoint){ side / 2, side / 2 }, (SwPoint){ 420, 297 }, 500 / side, 0, FALSE));
  sw_display_append (page, d);
  sw_display_end (page);
  sw_display_seal (page);
  start = g_get_monotonic_time ();
  g_autoptr (GBytes) svg = sw_page_write (page, &(SwPage){ SW_PAPER_A1 }, SW_PAGE_SVG, NULL);
  g_print ("svg n=%u: %.1f ms, %.2f MB\n", n, since_ms (start), (double) g_bytes_get_size (svg) / 1e6);
}

int
main (int argc, char **argv)
{
  guint n = argc > 1 ? (guint) strtoul (argv[1], NULL, 10) : 20000;
  bench_one (n);
  bench_one (4 * n);
  return 0;
}
