/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "circuits/growth.h"
#include <math.h>

double
sw_circuits_growth (double coefficient, double length_m, double range_k)
{
  return coefficient * length_m * range_k;
}

double
sw_circuits_growth_length (double coefficient, double range_k, double limit_mm)
{
  double each = coefficient * range_k;
  return each > 0 ? limit_mm / each : INFINITY;
}
