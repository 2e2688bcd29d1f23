/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Part-full flow: the wetted segment of a circle gives area and perimeter, a friction formula the velocity. Both
 * formulas rise with the filling up to one crest (near 0.94) and fall beyond it, so the filling for a flow is found by
 * halving below the crest, which a golden section finds first; each ends after a fixed number of steps. Uniform flow
 * only: no backwater, no hydraulic jump, no air. */
#include "drainage/partfull.h"
#include <math.h>

#define STEPS        60
#define GRAVITY_M_S2 9.80665 /* exact by definition */

SwPartFull
sw_drainage_partfull (double bore_mm, double filling)
{
  double d = bore_mm / 1000;
  SwPartFull full = { .angle = 2 * acos (CLAMP (1 - 2 * filling, -1, 1)) };
  full.area_m2 = d * d / 8 * (full.angle - sin (full.angle));
  full.perimeter_m = d * full.angle / 2;
  full.radius_m = full.perimeter_m > 0 ? full.area_m2 / full.perimeter_m : 0;
  return full;
}

double
sw_drainage_velocity (const SwFlowFormula *formula, double bore_mm, double filling, double slope)
{
  double r = sw_drainage_partfull (bore_mm, filling).radius_m;
  if (!(slope > 0) || !(r > 0))
    return 0;
  if (formula->law == SW_FLOW_MANNING)
    return pow (r, 2.0 / 3) * sqrt (slope) / formula->manning_n;
  double shear = sqrt (8 * GRAVITY_M_S2 * r * slope);
  return -2 * shear
         * log10 (formula->roughness_mm / 1000 / (14.8 * r) + 2.51 * formula->viscosity_m2_s / (4 * r * shear));
}

double
sw_drainage_capacity (const SwFlowFormula *formula, double bore_mm, double filling, double slope)
{
  return 1000 * sw_drainage_partfull (bore_mm, filling).area_m2
         * sw_drainage_velocity (formula, bore_mm, filling, slope);
}

double
sw_drainage_filling_most (const SwFlowFormula *formula, double bore_mm, double slope)
{
  const double golden = (sqrt (5) - 1) / 2;
  double low = 0.5, high = 1;
  for (int i = 0; i < STEPS; i++)
    {
      double left = high - golden * (high - low), right = low + golden * (high - low);
      if (sw_drainage_capacity (formula, bore_mm, left, slope) < sw_drainage_capacity (formula, bore_mm, right, slope))
        low = left;
      else
        high = right;
    }
  return (low + high) / 2;
}

double
sw_drainage_filling (const SwFlowFormula *formula, double bore_mm, double slope, double flow_ls)
{
  double low = 0, high = sw_drainage_filling_most (formula, bore_mm, slope);
  if (!(flow_ls >= 0) || sw_drainage_capacity (formula, bore_mm, high, slope) < flow_ls)
    return NAN;
  for (int i = 0; i < STEPS; i++)
    {
      double middle = (low + high) / 2;
      if (sw_drainage_capacity (formula, bore_mm, middle, slope) < flow_ls)
        low = middle;
      else
        high = middle;
    }
  return high;
}
