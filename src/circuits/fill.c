/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "circuits/fill.h"
#include <math.h>

double
sw_circuits_round_area (double diameter)
{
  return G_PI / 4 * diameter * diameter;
}

double
sw_circuits_flat_area (double width, double thickness)
{
  return G_PI / 4 * width * thickness;
}

double
sw_circuits_fill_share (const double *areas, gsize n, double bore_area)
{
  double sum = 0;
  for (gsize i = 0; i < n; i++)
    sum += areas[i];
  return sum / bore_area;
}

double
sw_circuits_fill_limit (const SwFillByCount *limits, gsize n)
{
  return n <= 1 ? limits->one : n == 2 ? limits->two : limits->three;
}

/* Each share holds only for its own number of conductors, so the greatest number is looked for from above. */
int
sw_circuits_fill_count (const SwFillByCount *limits, double bore_area, double wire_area)
{
  const struct { double share; int least; } steps[] = { { limits->three, 3 }, { limits->two, 2 }, { limits->one, 1 } };
  for (gsize i = 0; i < G_N_ELEMENTS (steps); i++)
    {
      int n = (int) floor (steps[i].share * bore_area / wire_area + 1 - limits->round_up_at);
      if (n >= steps[i].least)
        return i == 0 ? n : steps[i].least;
    }
  return 0;
}

int
sw_circuits_fill_count_flat_share (double share, double bore_area, double cable_area)
{
  return (int) floor (share * bore_area / cable_area);
}

double
sw_circuits_jam_ratio (double bore_mm, double cable_mm, double bore_factor)
{
  return bore_factor * bore_mm / cable_mm;
}
