/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "geometry/point.h"

/* An outline is a closed ring of n ≥ 3 points in plan, the last joined to the first, either way round. */

typedef enum
{
  SW_OUTLINE_GOOD,
  SW_OUTLINE_FEW,     /* fewer than three points */
  SW_OUTLINE_NUMBER,  /* a coordinate is not finite or out of range: *where is its index */
  SW_OUTLINE_REPEAT,  /* two neighbours are one place (SW_TOUCH_MM): *where is the second */
  SW_OUTLINE_CROSSES, /* sides cross or touch: *where is the first such side */
  SW_OUTLINE_FLAT     /* no area */
} SwOutlineFault;

/* Says what is wrong with a ring; `where` may be NULL. O(n log n) typical. */
SwOutlineFault sw_outline_check (const SwPoint *points, gsize n, gsize *where);
/* Sentence part for a fault: "needs at least 3 points" …, untranslated. Static. */
const char *sw_outline_fault_text (SwOutlineFault fault);

/* Signed area in mm², positive when counter-clockwise. */
double sw_outline_area (const SwPoint *points, gsize n);
double sw_outline_perimeter (const SwPoint *points, gsize n);
SwBox sw_outline_box (const SwPoint *points, gsize n);
/* A point inside, far from the sides (pole of inaccessibility to 1 % of the box), for labels. */
SwPoint sw_outline_label_point (const SwPoint *points, gsize n);
/* Inside or on the boundary within SW_TOUCH_MM. */
gboolean sw_outline_holds (const SwPoint *points, gsize n, SwPoint p);
/* Distance to the nearest side; *side and *nearest may be NULL. */
double sw_outline_distance (const SwPoint *points, gsize n, SwPoint p, gsize *side, SwPoint *nearest);

typedef struct { double low, high; } SwInterval;

/* Where the line origin + t·direction (unit) lies inside the outline: sorted disjoint intervals of t appended to
 * `intervals` (a GArray of SwInterval). Sides lying on the line count as inside. */
void sw_outline_cut (const SwPoint *points, gsize n, SwPoint origin, SwPoint direction, GArray *intervals);

/* The same through several rings at once, by the even-odd rule: an outline and its holes. */
typedef struct { const SwPoint *points; gsize n; } SwOutlineRing;
void sw_outlines_cut (const SwOutlineRing *rings, gsize n_rings, SwPoint origin, SwPoint direction, GArray *intervals);

/* Set arithmetic on sorted disjoint interval lists; results replace `a`. Pieces shorter than SW_TOUCH_MM are dropped,
 * here and by sw_outline_cut, which also joins pieces less than that apart. O(n). */
void sw_intervals_intersect (GArray *a, const GArray *b);
void sw_intervals_subtract (GArray *a, double low, double high);
