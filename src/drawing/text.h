/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "drawing/look.h"
#include <pango/pango.h>

/* Widths of text for layout. One meter a thread; free with sw_text_meter_free. */
typedef struct _SwTextMeter SwTextMeter;
SwTextMeter *sw_text_meter_new (void);
void sw_text_meter_free (SwTextMeter *meter);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwTextMeter, sw_text_meter_free)
/* Width in the unit of `height` (of capitals) as painted: exactly proportional to the height. */
double sw_text_meter_width (SwTextMeter *meter, const char *text, double height, gboolean bold);
/* The text, or its beginning with "…", such that it is at most `width` wide. Free with g_free. */
char *sw_text_meter_shorten (SwTextMeter *meter, const char *text, double height, gboolean bold, double width);

/* The rest is for painters. */

/* A layout in the drawing's font without hinting or rounded advances, so that text scales evenly. */
PangoLayout *sw_text_layout_new (void);
/* Sets text and font size (device units); returns the advance width in device units. */
double sw_text_layout_set (PangoLayout *layout, const char *text, double em, gboolean bold);

/* Where a text goes on the device so that it can be read and covers its place. */
typedef struct
{
  SwPoint at;         /* left end, middle or right end of the baseline */
  double cosine, sine; /* direction of the baseline, y down */
  double em;          /* font size */
  SwTextAlign align;
} SwTextPlace;

/* `at` and `direction` are the display's; `mirrored`: up is to the right of the direction. */
SwTextPlace sw_text_place (const SwDrawView *view, SwPoint at, SwPoint direction, gboolean mirrored, const SwTextStyle *style);
