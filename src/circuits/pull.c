/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "circuits/pull.h"
#include <math.h>

double
sw_circuits_pull_straight (double before, double friction, double weight_n_m, double length_m)
{
  return before + friction * weight_n_m * length_m;
}

double
sw_circuits_pull_bend (double before, double friction, double angle_degree)
{
  return before * exp (friction * angle_degree * G_PI / 180);
}

double
sw_circuits_pull_sidewall (double after_n, double radius_m)
{
  return after_n / radius_m;
}
