/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "geometry/point.h"

/* Convex bodies as plain values of one fixed size, in millimetres and world coordinates: no allocation, copied freely.
 * Each is a core (segment, disc-ended cylinder or prism) with a radius all round. */

#define SW_SOLID_POINTS_MAX 16

typedef enum
{
  SW_SOLID_TUBE,     /* segment with a radius: round ends */
  SW_SOLID_CYLINDER, /* flat ends */
  SW_SOLID_PRISM     /* convex section pushed along a vector, upright or sheared; boxes and plates too */
} SwSolidKind;

typedef struct
{
  SwSolidKind kind;
  guint n;                /* prism: points of the section */
  guint32 sides;          /* prism: bit i set when no earlier side is parallel to side i */
  double radius;          /* tube: its own; others: 0 until grown */
  double disc;            /* cylinder: radius of its ends */
  SwPoint3 origin, along; /* tube, cylinder: start and vector of the axis; prism: origin of the section, its push */
  SwPoint3 u, v;          /* prism: the section's axes; cylinder: u is the unit axis */
  SwPoint section[SW_SOLID_POINTS_MAX]; /* prism: counter-clockwise seen against u × v */
} SwSolid;

/* From and to may be one place: a ball. */
SwSolid sw_solid_tube (SwPoint3 from, SwPoint3 to, double radius);
/* An axis shorter than SW_TOUCH_MM counts as upright: a disc. */
SwSolid sw_solid_cylinder (SwPoint3 from, SwPoint3 to, double radius);
/* Three edges that leave one corner; they need not be square to each other; one of them may be zero, a plate. */
SwSolid sw_solid_box (SwPoint3 corner, SwPoint3 along, SwPoint3 across, SwPoint3 up);
SwSolid sw_solid_box_upright (SwBox3 box);
/* The convex section origin + x·u + y·v, 3 to SW_SOLID_POINTS_MAX points either way round, pushed along `push` (zero: a
 * plate). u and v are unit vectors, not parallel. Points that stand out by less than rounding to the grid makes them are
 * left out. FALSE and SW_ERROR_INVALID, naming the point, for sections that are hollow (by more than the grid), flat
 * or have too few or too many points. */
gboolean sw_solid_prism (SwSolid *solid, SwPoint3 origin, SwPoint3 u, SwPoint3 v, const SwPoint *section, gsize n,
                         SwPoint3 push, GError **error);
/* A plan outline, convex, from one level to another. */
gboolean sw_solid_slab (SwSolid *solid, const SwPoint *outline, gsize n, double z_low, double z_high, GError **error);

/* Smallest box around; exact to rounding. */
SwBox3 sw_solid_box3 (const SwSolid *solid);
SwSolid sw_solid_moved (const SwSolid *solid, SwPoint3 by);
/* With `by` ≥ 0 more all round: insulation, clearance; corners become round. */
SwSolid sw_solid_grown (const SwSolid *solid, double by);

typedef struct
{
  double mm;                    /* > 0: distance; < 0: least depth that moves them apart; 0: they touch */
  SwPoint3 on_first, on_second; /* places on the surfaces, |mm| apart */
  SwPoint3 away;                /* unit: moving the first by −mm along it makes an overlap a touch */
} SwClearance;

/* Signed clearance in mm; `out` may be NULL (cheaper where they overlap). Exact to 0.001 mm but for overlaps of
 * cylinders: 0.005 mm, their points 0.02 mm. Where several ways out are equally short, the same one is always taken. */
double sw_solid_clearance (const SwSolid *first, const SwSolid *second, SwClearance *out);

/* Whether the clearance is `needed` mm or more: the same answer, found sooner. */
gboolean sw_solid_is_clear (const SwSolid *first, const SwSolid *second, double needed);

/* A bend: `start` turned about the line through `centre` along unit `axis`, counter-clockwise, by `angle` radians. */
typedef struct
{
  SwPoint3 centre, start, axis;
  double angle;
} SwArc;

/* The bend of the given radius in the corner a-corner-b, tangent to both legs. FALSE when they go straight on or fold
 * back, or when a leg is shorter than its tangent. */
gboolean sw_arc_in_corner (SwPoint3 a, SwPoint3 corner, SwPoint3 b, double bend_radius, SwArc *arc);
SwPoint3 sw_arc_point (const SwArc *arc, double angle);
/* Appends the swept arc to `tubes` (GArray of SwSolid) as tubes that hold all of it and stand out by at most 0.1 mm, so that
 * no clash with a bend is missed and none is seen that is farther off than that. */
void sw_arc_tubes (const SwArc *arc, double tube_radius, GArray *tubes);
