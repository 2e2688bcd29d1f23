/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Coordinates are double millimetres on a grid of SW_GRID_MM, rounded once, at the edit. */
#define SW_GRID_MM 0.01
/* Two places closer than this are one place; a clearance between −SW_TOUCH_MM and 0 is a touch, not a clash. */
#define SW_TOUCH_MM 0.05
/* Angles closer than this (radians) are one direction. */
#define SW_ANGLE_RAD 1e-6
/* Largest coordinate that a job may hold: 10 km either way. */
#define SW_COORDINATE_MAX_MM 1e7

/* Rounds a length to the grid, half away from zero; the result prints with at most two decimals. */
static inline double
sw_grid_round (double mm)
{
  double scaled = mm * 100.0;
  double whole = (double) (long long) (scaled + (scaled < 0 ? -0.5 : 0.5));
  return whole == 0 ? 0 : whole / 100.0;
}
