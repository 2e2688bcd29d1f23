/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "circuits/bends.h"

#define RADIANS(degree) ((degree) * G_PI / 180)

double
sw_circuits_turn (SwPoint3 a, SwPoint3 corner, SwPoint3 b)
{
  SwPoint3 in = sw_point3_sub (corner, a), out = sw_point3_sub (b, corner);
  return atan2 (sw_point3_length (sw_point3_cross (in, out)), sw_point3_dot (in, out)) * 180 / G_PI;
}

double
sw_circuits_turns (const SwPoint3 *way, gsize n)
{
  double sum = 0;
  for (gsize i = 1; i + 1 < n; i++)
    sum += sw_circuits_turn (way[i - 1], way[i], way[i + 1]);
  return sum;
}

SwOffsetBend
sw_circuits_offset (double height_mm, double angle_degree)
{
  double angle = RADIANS (angle_degree);
  return (SwOffsetBend){ .between = height_mm / sin (angle),
                         .advance = height_mm / tan (angle),
                         .shrink = height_mm * tan (angle / 2) };
}

double
sw_circuits_dip_turn (double angle_degree)
{
  return 4 * angle_degree;
}

double
sw_circuits_bend_arc (double radius_mm, double angle_degree)
{
  return radius_mm * RADIANS (angle_degree);
}

double
sw_circuits_bend_gain (double radius_mm, double angle_degree)
{
  return 2 * radius_mm * tan (RADIANS (angle_degree) / 2) - sw_circuits_bend_arc (radius_mm, angle_degree);
}
