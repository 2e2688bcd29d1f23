/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "drawing/look.h"
#include "drawing/viewport.h"
#include <gtk/gtk.h>

/* Displays as textures of SW_TILE pixels a side, painted by workers, kept in a least-recently-used cache. While the view
 * zooms the old tiles are scaled; sharp ones come when it rests. A change of the displays renews only tiles that it meets. */
typedef struct _SwTiles SwTiles;
#define SW_TILE 512

/* `ready` is called on the main thread when new tiles can be drawn. */
SwTiles *sw_tiles_new (void (*ready) (gpointer data), gpointer data);
/* Stops the workers' results from coming; painting that is under way ends by itself. */
void sw_tiles_free (SwTiles *tiles);

/* Sealed displays in painting order (referenced). `changed`: what differs from those before; NULL: everything. */
void sw_tiles_set_content (SwTiles *tiles, SwDisplay *const *displays, guint n, const SwBox *changed);
/* Theme and layers, and device pixels (at scale 1) for a mm on paper. Everything is painted anew when they differ. */
void sw_tiles_set_look (SwTiles *tiles, const SwLook *look, double paper_px);
/* A picture under the display: its pixels (premultiplied ARGB32 in native order, `stride` bytes a row) and where they lie:
 * pixel → world. NULL: none. */
void sw_tiles_set_underlay (SwTiles *tiles, GBytes *pixels, int width, int height, int stride, SwTransform to_world, double opacity);

/* Draws what is there and asks for what is missing. `resting` is FALSE while a zoom is going on. */
void sw_tiles_snapshot (SwTiles *tiles, GtkSnapshot *snapshot, const SwViewport *view, gboolean resting);
/* TRUE when all that shows is there and sharp: for tests and benchmarks. */
gboolean sw_tiles_is_complete (SwTiles *tiles);
guint sw_tiles_n_painted (SwTiles *tiles);
