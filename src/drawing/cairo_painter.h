/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "drawing/look.h"
#include <cairo.h>
#include <gio/gio.h>

/* Paints what of a sealed display shows in `device` (in the view's device units, which are the context's units as it
 * comes). Adds nothing outside what the view makes visible; does not paint paper. The context's state comes back as it
 * was. Any thread; a context belongs to one at a time. Returns FALSE when `cancellable` (may be NULL) was cancelled
 * half way. */
gboolean sw_cairo_paint (cairo_t *cr, const SwDisplay *display, const SwDrawView *view, SwBox device, GCancellable *cancellable);

/* Fills the clip with the theme's paper. */
void sw_cairo_paint_paper (cairo_t *cr, SwTheme theme);

/* A whole tile with paper: a new ARGB32 image surface of `size` × `size`, its scale left at 1; NULL when cancelled. */
cairo_surface_t *sw_cairo_paint_tile (const SwDisplay *display, const SwDrawView *view, int size, GCancellable *cancellable);
