/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "drawing/display.h"

/* How a display is shown: where on the device, in which theme, which layers. Shared by all painters and hit testing. */

typedef struct
{
  SwTheme theme;
  guint64 hidden; /* layers left out, one bit each */
  guint64 faded;  /* layers painted first and paler; the others come to the front at full strength */
} SwLook;

/* The device: pixels, points or millimetres from its top left, y down. */
typedef struct
{
  SwTransform to_device;
  double paper_px;      /* device units for 1 mm on paper */
  double screen_px;     /* device units for 1 px of SW_SIZE_PX */
  double detail;        /* px per mm by which levels of detail are chosen; 0 = those of `to_device` */
  double least_text_px; /* font sizes below are left out */
  double least_line_px; /* thinner lines are drawn this wide */
  SwLook look;
  const guint64 *left_out; /* items not painted, one bit each, as from sw_declutter_left_out; NULL = none */
} SwDrawView;

#define SW_SCREEN_LEAST_TEXT_PX 6.0
#define SW_SCREEN_PX_PER_MM (96 / 25.4)

/* A view for the screen: `to_device` as from sw_viewport_transform or sw_viewport_tile_transform, `device_scale` device
 * pixels to a widget pixel, `paper_px` device pixels for 1 mm on paper (0: real size at 96 px an inch). */
SwDrawView sw_draw_view_new (SwTransform to_device, double device_scale, double paper_px, const SwLook *look);

/* Device units for a size. */
double sw_draw_size (const SwDrawView *view, SwSizeUnit unit, double size);

/* The rest is for painters. */

typedef struct
{
  gboolean plain; /* the area in `colour` … */
  SwColour colour;
  SwHatching hatching; /* … and these lines over it in `line_colour` */
  SwColour line_colour;
  double alpha;
} SwFillPaint;

typedef struct
{
  SwColour colour;
  double alpha;
  double width; /* device units */
  gboolean round;
  int n_dashes;
  double dashes[8]; /* device units */
} SwStrokePaint;

SwFillPaint sw_look_fill (const SwDrawView *view, const SwFill *fill, int layer);
SwStrokePaint sw_look_stroke (const SwDrawView *view, const SwStroke *stroke, int layer);
/* The letters' colour and that of their rim. */
void sw_look_text (const SwDrawView *view, const SwTextStyle *style, int layer, SwColour *letters, SwColour *rim);

/* Numbers of the items that may show in the device box, in painting order; free with g_free. NULL when *n is 0. */
guint32 *sw_draw_list (const SwDisplay *display, const SwDrawView *view, SwBox device, guint *n);
