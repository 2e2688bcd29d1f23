/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "drawing/transform.h"

/* What of the world a widget shows, without a widget. World: mm, y up. Widget: pixels from the top left, y down.
 * A plain value: copy it to keep it; every function leaves it usable (finite, zoom above 0) whatever it is given. */
typedef struct
{
  SwPoint centre;      /* world point in the middle of the widget */
  double zoom;         /* widget pixels per mm */
  double turn;         /* radians counter-clockwise, after the mirror */
  gboolean mirror;     /* looking up: left and right change sides */
  double width, height; /* widget pixels */
  double device_scale; /* device pixels per widget pixel */
} SwViewport;

SwViewport sw_viewport_new (double width, double height);

SwTransform sw_viewport_transform (const SwViewport *view); /* world → widget */
SwPoint sw_viewport_to_widget (const SwViewport *view, SwPoint world);
SwPoint sw_viewport_to_world (const SwViewport *view, SwPoint widget);
/* The box round all that is seen: larger than what is seen when turned. */
SwBox sw_viewport_visible (const SwViewport *view);
double sw_viewport_px_to_mm (const SwViewport *view, double px);

/* Moves so that `world` lies at `widget`. All gestures end here: pin the point that was under the pointer. */
void sw_viewport_pin (SwViewport *view, SwPoint world, SwPoint widget);
/* These keep the world point under `widget` where it is. */
void sw_viewport_zoom_about (SwViewport *view, SwPoint widget, double factor);
void sw_viewport_turn_about (SwViewport *view, SwPoint widget, double radians);
void sw_viewport_mirror_about (SwViewport *view, SwPoint widget);
void sw_viewport_pan (SwViewport *view, double dx, double dy);
/* A new size keeps the middle; zoom stays. */
void sw_viewport_resize (SwViewport *view, double width, double height, double device_scale);
/* Zoom and centre such that `box` just fits inside the margin (widget px on each side). An empty box changes nothing;
 * a point or line keeps the zoom in the direction that it lacks. */
void sw_viewport_fit (SwViewport *view, SwBox box, double margin);

typedef struct
{
  double least_zoom, most_zoom; /* px per mm */
  SwBox world;                  /* the centre stays inside; empty = anywhere */
} SwViewportLimits;

/* Zoom by less than 1:20,000 or more than 40 px a mm helps nobody. */
#define SW_VIEWPORT_LIMITS ((SwViewportLimits){ 0.0002, 40, { { -1e7, -1e7 }, { 1e7, 1e7 } } })
/* Brings zoom and centre back within limits. Returns TRUE when something changed. */
gboolean sw_viewport_clamp (SwViewport *view, const SwViewportLimits *limits);

/* Tiles: the plane is the world turned, mirrored and zoomed in device pixels, its origin at the world's origin, so
 * that panning changes no tile. Tile (i, j) covers [i·size, (i+1)·size) × [j·size, (j+1)·size) of the plane. */
SwTransform sw_viewport_tile_transform (const SwViewport *view, int i, int j, int size); /* world → device px in the tile */
/* First and last tile that are seen. */
void sw_viewport_tiles (const SwViewport *view, int size, int *i0, int *j0, int *i1, int *j1);
/* Where the tile's top left corner lies in the widget, in device pixels, whole when the plane's offset is rounded. */
SwPoint sw_viewport_tile_place (const SwViewport *view, int i, int j, int size);
