/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "drawing/look.h"

/* What lies at a place on the device. Groups with a table can be hit; an item counts for the innermost such group
 * round it. Only what the view shows counts (layers, levels of detail, clips). */

typedef struct
{
  guint group; /* number in the display */
  SwDisplayKey key;
  double distance; /* device units from the place to what is drawn; 0 = on it */
} SwHit;

/* The groups within `radius` device units of `at`, each once, the likeliest first: what is exactly there and small or
 * a line (topmost first), then near misses (nearest first, by whole units), layers in front before faded ones; last
 * the areas that are larger than the hand's aim (their shorter side above 6 · radius), topmost first. A total order.
 * GArray of SwHit, maybe empty; free with g_array_unref. O(log n + what lies near). */
GArray *sw_hit_point (const SwDisplay *display, const SwDrawView *view, SwPoint at, double radius);

/* The groups of which something shows in the box, or, when `whole`, of which all that shows lies in it; by number.
 * GArray of SwHit (distance 0); free with g_array_unref. */
GArray *sw_hit_box (const SwDisplay *display, const SwDrawView *view, SwBox device, gboolean whole);
