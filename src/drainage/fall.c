/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drainage/fall.h"
#include <math.h>

double
sw_drainage_fall_axis (double over_mm, double outside_mm)
{
  return over_mm + outside_mm / 2;
}

SwFallRoom
sw_drainage_fall_room (const SwFallCase *fall)
{
  double axis = fall->depth - fall->axis_below_crown; /* above the soffit */
  SwFallRoom room = { .drop = axis - fall->socket / 2, .tube_drop = axis - fall->od / 2 };
  room.run = fmax (room.drop, 0) * fall->fall_n;
  room.tube_run = fmax (room.tube_drop, 0) * fall->fall_n;
  return room;
}

double
sw_drainage_fall_loss (double run_mm, double fall_n)
{
  return fall_n > 0 ? run_mm / fall_n : 0;
}
