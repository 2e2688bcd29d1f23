/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sweating: steady heat flow through the sleeve (a cylinder) and the air film on it; the surface grows warmer with
 * every millimetre of sleeve, so halving finds the thickness; it ends after a fixed number of steps. The pipe's own
 * wall and the water's film are left out, which errs to the safe side. */
#include "drainage/sweating.h"
#include <math.h>

#define STEPS      60
#define THICKEST_MM 1000

double
sw_drainage_dew_point (const SwMagnus *magnus, double air_c, double humidity_percent)
{
  double g = log (humidity_percent / 100) + magnus->a * air_c / (magnus->b_c + air_c);
  return magnus->b_c * g / (magnus->a - g);
}

double
sw_drainage_sweat_surface (const SwSweatCase *sweat, double thickness_mm)
{
  double d = sweat->pipe_mm / 1000, outer = d + 2 * thickness_mm / 1000;
  double sleeve = log (outer / d) / (2 * G_PI * sweat->conductivity_w_mk);
  double film = 1 / (G_PI * outer * sweat->surface_w_m2k);
  return sweat->air_c - (sweat->air_c - sweat->pipe_c) * film / (sleeve + film);
}

double
sw_drainage_sweat_thickness (const SwSweatCase *sweat)
{
  double low = 0, high = THICKEST_MM;
  if (sw_drainage_sweat_surface (sweat, 0) >= sweat->dew_c)
    return 0;
  if (!(sw_drainage_sweat_surface (sweat, high) >= sweat->dew_c))
    return NAN;
  for (int i = 0; i < STEPS; i++)
    {
      double middle = (low + high) / 2;
      if (sw_drainage_sweat_surface (sweat, middle) < sweat->dew_c)
        low = middle;
      else
        high = middle;
    }
  return high;
}
