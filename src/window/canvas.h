/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "drawing/display.h"
#include "drawing/viewport.h"
#include "window/tiles.h"

/* A widget that shows displays through a viewport: tiles below, a small live layer above. It pans (middle or space drag,
 * scrolling), zooms about the pointer, and passes pointer and keys to its subclass in world mm. */
#define SW_TYPE_CANVAS (sw_canvas_get_type ())
G_DECLARE_DERIVABLE_TYPE (SwCanvas, sw_canvas, SW, CANVAS, GtkWidget)

typedef struct
{
  SwPoint world;
  gboolean shift, control, alt;
  guint clicks;
} SwCanvasPoint;

struct _SwCanvasClass
{
  GtkWidgetClass parent_class;
  void (*press) (SwCanvas *canvas, const SwCanvasPoint *at);
  void (*motion) (SwCanvas *canvas, const SwCanvasPoint *at);
  void (*release) (SwCanvas *canvas, const SwCanvasPoint *at);
  void (*leave) (SwCanvas *canvas);
  void (*cancel) (SwCanvas *canvas); /* a second button, or the gesture was taken away: as Escape */
  void (*menu) (SwCanvas *canvas, const SwCanvasPoint *at, double x, double y);
  SwDisplay *(*live) (SwCanvas *canvas); /* the caller's; NULL for none */
  void (*view_changed) (SwCanvas *canvas);
  SwBox (*extent) (SwCanvas *canvas); /* what "fit" fits */
};

const SwViewport *sw_canvas_view (SwCanvas *canvas);
void sw_canvas_set_view (SwCanvas *canvas, const SwViewport *view);
SwTiles *sw_canvas_tiles (SwCanvas *canvas);
/* Theme and layers for tiles and live layer. */
void sw_canvas_set_look (SwCanvas *canvas, const SwLook *look);
const SwLook *sw_canvas_look (SwCanvas *canvas);
void sw_canvas_set_mirror (SwCanvas *canvas, gboolean mirror);

void sw_canvas_fit (SwCanvas *canvas);
/* At the first size that it gets, and until the user moves the view. */
void sw_canvas_fit_when_sized (SwCanvas *canvas);
void sw_canvas_zoom_by (SwCanvas *canvas, double factor); /* about the pointer, or the middle */
void sw_canvas_pan_by (SwCanvas *canvas, double dx, double dy);
/* Brings a place into view, zoomed in enough to see `size_mm` about it well. */
void sw_canvas_show (SwCanvas *canvas, SwPoint at, double size_mm);
/* Scrolls as little as needed. */
void sw_canvas_keep_visible (SwCanvas *canvas, SwPoint at);
void sw_canvas_live_changed (SwCanvas *canvas);
/* Pointer in world mm; FALSE when it is outside. */
gboolean sw_canvas_pointer (SwCanvas *canvas, SwPoint *at);
gboolean sw_canvas_is_settled (SwCanvas *canvas);
