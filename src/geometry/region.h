/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "geometry/point.h"

/* Set operations on areas in plan. An area is rings, inside by the even-odd rule: `points` (GArray of SwPoint) and `ends`
 * (GArray of guint: the index after each ring's last point). Any thread. */
typedef enum { SW_REGION_INTERSECT, SW_REGION_SUBTRACT, SW_REGION_UNITE } SwRegionOperation;

typedef struct
{
  const GArray *points, *ends;
} SwRegionRings;

/* The result's rings are appended to `points` and `ends`, snapped to the grid (SW_GRID_MM): outlines counter-clockwise, holes
 * clockwise; parts and holes sorted by the library's normal form. SW_ERROR_INVALID when a ring is unsound. */
gboolean sw_region_combine (SwRegionRings a, SwRegionRings b, SwRegionOperation operation, GArray *points, GArray *ends, GError **error);
