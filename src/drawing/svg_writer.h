/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "drawing/look.h"

typedef struct
{
  double width_mm, height_mm; /* above 0 */
  const char *title, *description; /* may be NULL */
  SwDrawView view; /* device units are mm, y down: see sw_page_view */
} SwSvgPage;

/* A sealed display as SVG 1.1 (with CSS classes for styles): real size, coordinates in mm to 1/1000, text as text,
 * groups as <g id class> with <title> and <desc>, ids unique, the same bytes for the same display. Free with
 * g_string_free. */
GString *sw_svg_write (const SwDisplay *display, const SwSvgPage *page);
