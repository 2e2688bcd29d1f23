/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "geometry/point.h"

/* Bends of conduits in true 3-D. Angles in degrees, lengths in mm. */

/* Angle turned at `corner` on the way from a to b: 0 straight on, 180 back; 0 where two of them are one place. */
double sw_circuits_turn (SwPoint3 a, SwPoint3 corner, SwPoint3 b);
/* Sum over a way of n places. */
double sw_circuits_turns (const SwPoint3 *way, gsize n);

/* Two equal bends that shift a conduit sideways by `height`. */
typedef struct
{
  double between; /* distance between the marks, along the conduit */
  double advance; /* what that covers in the conduit's first direction */
  double shrink;  /* the conduit is that much shorter than its straight length */
} SwOffsetBend;
SwOffsetBend sw_circuits_offset (double height_mm, double angle_degree);
/* Turn of a dip below an obstacle and back up: two offsets. */
double sw_circuits_dip_turn (double angle_degree);

/* Length of the arc of a bend, and what it saves against its two legs. */
double sw_circuits_bend_arc (double radius_mm, double angle_degree);
double sw_circuits_bend_gain (double radius_mm, double angle_degree);
