/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* What the test needs of the C++ collision library, as plain C. */
#ifdef __cplusplus
extern "C" {
#endif

typedef enum { BRIDGE_CAPSULE, BRIDGE_CYLINDER, BRIDGE_CONVEX } BridgeKind;

typedef struct
{
  BridgeKind kind;
  double radius, from[3], to[3]; /* capsule, cylinder: the axis, of some length */
  int n;                         /* convex: points of the section, counter-clockwise seen from the far end */
  double points[2 * 16][3];      /* 2 i at the start, 2 i + 1 at the far end */
} BridgeShape;

/* Whether they collide, and their distance (0 when they do). */
int bridge_collide (const BridgeShape *a, const BridgeShape *b);
double bridge_distance (const BridgeShape *a, const BridgeShape *b);

#ifdef __cplusplus
}
#endif
