/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "geometry/solid.h"

/* What clearance.c and depth.c share; not for other layers. Cores only: radii are added at the end. The first solid's
 * origin is the origin of all coordinates here, so that places far from the datum cost no digits. */

typedef struct
{
  const SwSolid *first, *second;
  SwPoint3 offset; /* of the second's origin */
} SwCorePair;

typedef struct
{
  double mm;     /* depth of the cores, negative when a gap stays */
  SwPoint3 away; /* unit, moves the first out */
} SwCoreDepth;

/* Point of the core, from its own origin, farthest in direction d (any length but zero). */
static inline SwPoint3
sw_core_support (const SwSolid *solid, SwPoint3 d)
{
  SwPoint3 tip = { 0, 0, 0 };
  if (solid->kind == SW_SOLID_PRISM)
    {
      double du = sw_point3_dot (d, solid->u), dv = sw_point3_dot (d, solid->v), best = -INFINITY;
      SwPoint at = { 0, 0 };
      for (guint i = 0; i < solid->n; i++)
        {
          double here = du * solid->section[i].x + dv * solid->section[i].y;
          if (here > best)
            best = here, at = solid->section[i];
        }
      tip = sw_point3_add (sw_point3_scale (solid->u, at.x), sw_point3_scale (solid->v, at.y));
    }
  else if (solid->kind == SW_SOLID_CYLINDER)
    {
      SwPoint3 out = sw_point3_sub (d, sw_point3_scale (solid->u, sw_point3_dot (d, solid->u)));
      double length = sw_point3_length (out);
      if (length > 1e-8 * sw_point3_length (d)) /* else the end face is farthest, to 1e-8 of its radius: its middle will do */
        tip = sw_point3_scale (out, solid->disc / length);
    }
  return sw_point3_dot (d, solid->along) > 0 ? sw_point3_add (tip, solid->along) : tip;
}

/* Point of first − second farthest in direction d. */
static inline SwPoint3
sw_core_pair_support (const SwCorePair *pair, SwPoint3 d)
{
  SwPoint3 a = sw_core_support (pair->first, d), b = sw_core_support (pair->second, sw_point3_scale (d, -1));
  return sw_point3_sub (a, sw_point3_add (b, pair->offset));
}

/* Any unit vector square to d; d is not zero. */
static inline SwPoint3
sw_core_square_to (SwPoint3 d)
{
  double x = fabs (d.x), y = fabs (d.y), z = fabs (d.z);
  SwPoint3 other = x <= y && x <= z ? (SwPoint3){ 1, 0, 0 } : y <= z ? (SwPoint3){ 0, 1, 0 } : (SwPoint3){ 0, 0, 1 };
  SwPoint3 square = sw_point3_cross (d, other);
  return sw_point3_scale (square, 1 / sw_point3_length (square));
}

/* Least way out among the directions of faces and of pairs of edges: the answer for polytopes, a start for others. */
SwCoreDepth sw_core_depth_by_axes (const SwCorePair *pair);
/* Improves it where a core is curved. */
void sw_core_depth_refine (const SwCorePair *pair, SwCoreDepth *depth);
