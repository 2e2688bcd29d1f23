/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>

/* How far a falling pipe runs in a void before it, or its socket, comes out below the soffit. Lengths in mm along the
 * plan; falls as 1:n. */

typedef struct
{
  double depth;            /* of the void */
  double od, socket;       /* outside of pipe and socket; socket ≥ od */
  double axis_below_crown; /* at the high end */
  double fall_n;
} SwFallCase;

/* Axis at the high end when the pipe, or its socket, has `over` above it. */
double sw_drainage_fall_axis (double over_mm, double outside_mm);

typedef struct
{
  double drop;       /* what the axis may lose before the socket meets the soffit; negative when it already lies lower */
  double run;        /* plan length for that; 0 when there is none */
  double tube_drop, tube_run; /* the same for the plain tube between sockets */
} SwFallRoom;

SwFallRoom sw_drainage_fall_room (const SwFallCase *fall);
/* Loss of level over a plan length. */
double sw_drainage_fall_loss (double run_mm, double fall_n);
