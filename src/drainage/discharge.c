/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drainage/discharge.h"
#include <math.h>

double
sw_drainage_discharge (double frequency, double units_sum)
{
  return frequency * sqrt (units_sum);
}

double
sw_drainage_discharge_design (double frequency, const double *units, gsize n, gboolean largest)
{
  double sum = 0, most = 0;
  for (gsize i = 0; i < n; i++)
    {
      sum += units[i];
      most = fmax (most, units[i]);
    }
  double flow = sw_drainage_discharge (frequency, sum);
  return largest ? fmax (flow, most) : flow;
}
