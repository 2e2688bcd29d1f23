/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "geometry/solid.h"

/* Where the axis of an upright cylinder with flat ends must not stand, so that it keeps off a solid. */
typedef struct
{
  double low, high;  /* z of its ends */
  double disc;       /* radius */
  double clearance;  /* wanted around it, ≥ 0 */
} SwUpright;

/* Appends the outline of the places in plan at which sw_solid_clearance is less than the clearance, counter-clockwise, convex, to
 * `outline` (GArray of SwPoint), and says whether there are any: what lies above or below it bars nothing. Never smaller than the
 * true one but at its edge by SW_TOUCH_MM, and larger by at most a thousandth of the distance from the solid to the axis. */
gboolean sw_solid_shadow (const SwSolid *solid, const SwUpright *upright, GArray *outline);
