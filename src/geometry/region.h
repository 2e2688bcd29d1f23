/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "geometry/outline.h"

/* Plan areas of any number of parts, with holes: immutable and reference-counted, so that threads may share them.
 * Results stand on the grid of SW_GRID_MM and in one form: outer rings counter-clockwise, holes clockwise, each from its
 * lowest point in x, then y; no points on straight sides; no part or hole thinner than SW_TOUCH_MM on average. The same
 * input gives the same bytes. Millimetres and mm². */

typedef struct _SwRegion SwRegion;

SwRegion *sw_region_new_empty (void);
/* NULL and SW_ERROR_INVALID, naming the point, for a ring that sw_outline_check refuses. */
SwRegion *sw_region_new_outline (const SwPoint *points, gsize n, GError **error);
/* What lies in an odd number of rings: `points` (SwPoint) and `ends` (guint, the index after each ring's last point). Rings
 * may touch each other. NULL and SW_ERROR_INVALID for a ring of fewer than three points. */
SwRegion *sw_region_new_rings (const GArray *points, const GArray *ends, GError **error);
/* A box without area, or the empty box, gives the empty region. */
SwRegion *sw_region_new_box (SwBox box);
SwRegion *sw_region_ref (SwRegion *region);
void sw_region_unref (SwRegion *region);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwRegion, sw_region_unref)

typedef struct
{
  const SwPoint *points; /* as long as the region lives */
  guint n, part;
  gboolean hole;
} SwRing;

/* Rings part by part, each part's outer ring first. */
guint sw_region_n_rings (const SwRegion *region);
SwRing sw_region_ring (const SwRegion *region, guint i);
guint sw_region_n_parts (const SwRegion *region);
/* Each part as a region; free with g_ptr_array_unref. */
GPtrArray *sw_region_parts (SwRegion *region);

gboolean sw_region_is_empty (const SwRegion *region);
double sw_region_area (const SwRegion *region);
double sw_region_perimeter (const SwRegion *region); /* holes too */
SwBox sw_region_box (const SwRegion *region);
/* Inside or within SW_TOUCH_MM of a side. */
gboolean sw_region_holds (const SwRegion *region, SwPoint p);
/* Where a line lies inside: sorted disjoint intervals (GArray of SwInterval) as sw_outline_cut gives them. */
void sw_region_cut (const SwRegion *region, SwPoint origin, SwPoint direction, GArray *intervals);

/* Set operations. NULL and SW_ERROR_INVALID, with the place, should the geometry defeat them. The result may be one of
 * the arguments with a reference more. */
SwRegion *sw_region_union (SwRegion *a, SwRegion *b, GError **error);
SwRegion *sw_region_intersect (SwRegion *a, SwRegion *b, GError **error);
SwRegion *sw_region_subtract (SwRegion *a, SwRegion *b, GError **error);
/* Of many at once; much faster than one by one. */
SwRegion *sw_region_union_all (SwRegion *const *regions, guint n, GError **error);
/* Outward by `mm`, inward when negative; corners stay sharp up to five times the distance, then they are cut off. */
SwRegion *sw_region_grow (SwRegion *region, double mm, GError **error);
/* The part inside a box: fast. */
SwRegion *sw_region_clip (SwRegion *region, SwBox box, GError **error);
