/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "ceiling/frame.h"
#include "geometry/region.h"

/* Straight cuts through areas, as boards are cut. Outlines and holes are wound in opposite ways, as set operations leave them:
 * wound alike, a cut through both leaves them as two rings (the same area by the even-odd rule). */

/* What lies below and above x = at (SW_ALONG_Y: the cut runs along y) or y = at (SW_ALONG_X). Parts thinner than a touch are
 * dropped. Either result may be NULL for not wanted. O(n log n). */
void sw_rings_split (const SwRings *rings, SwAlong along, double at, SwRings **low, SwRings **high);
/* What lies within low ≤ x ≤ high (SW_ALONG_Y: cuts run along y), or the same in y. */
SwRings *sw_rings_between (const SwRings *rings, SwAlong along, double low, double high);
/* One SwRings each connected part: its outline first, then its holes; sorted by lowest x, then y. The caller's. */
GPtrArray *sw_rings_polygons (const SwRings *rings);
/* x and y swapped. */
SwRings *sw_rings_swapped (const SwRings *rings);
/* One ring of the polygon's outline, holes joined to it by slits to the nearest corner. The caller's (SwPoint). */
GArray *sw_rings_slit (const SwRings *polygon);
/* sw_region_intersect, sw_region_subtract or sw_region_union of two areas; the caller's, NULL with an error. */
typedef SwRegion *(*SwRingsCombine) (SwRegion *a, SwRegion *b, GError **error);
SwRings *sw_rings_combine (const SwRings *a, const SwRings *b, SwRingsCombine combine, GError **error);
