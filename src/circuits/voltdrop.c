/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "circuits/voltdrop.h"
#include <math.h>

double
sw_circuits_volt_drop (double mv_a_m, double amps, double length_m)
{
  return mv_a_m * amps * length_m / 1000;
}

double
sw_circuits_volt_drop_percent (double drop_v, double supply_v)
{
  return drop_v / supply_v * 100;
}

double
sw_circuits_volt_drop_length (double mv_a_m, double amps, double supply_v, double percent)
{
  double each = sw_circuits_volt_drop (mv_a_m, amps, 1);
  return each > 0 ? percent / 100 * supply_v / each : INFINITY;
}

double
sw_circuits_derated (double amps, const double *factors, gsize n)
{
  for (gsize i = 0; i < n; i++)
    amps *= factors[i];
  return amps;
}
