/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Supply pipes: Colebrook's friction is found by putting each estimate back into the formula; it converges for every
 * roughness and ends after a fixed number of rounds. Fittings are not reckoned: whoever asks adds a share of the length. */
#include "drainage/supply.h"
#include <math.h>

#define ROUNDS       40
#define LAMINAR      2300
#define GRAVITY      9.81
#define THICKEST_MM  1000

double
sw_drainage_supply_demand (double factor, double power, double less, double sum_ls)
{
  return sum_ls > 0 ? fmax (factor * pow (sum_ls, power) - less, 0) : 0;
}

double
sw_drainage_supply_volume (double bore_mm)
{
  return G_PI * bore_mm * bore_mm / 4000;
}

double
sw_drainage_supply_velocity (double bore_mm, double flow_ls)
{
  return flow_ls / sw_drainage_supply_volume (bore_mm);
}

static double
friction (double reynolds, double relative)
{
  if (reynolds < LAMINAR)
    return 64 / reynolds;
  double root = 7; /* 1/√f */
  for (int i = 0; i < ROUNDS; i++)
    root = -2 * log10 (relative / 3.7 + 2.51 * root / reynolds);
  return 1 / (root * root);
}

SwSupplyLoss
sw_drainage_supply_loss (double bore_mm, double flow_ls, double length_m, double roughness_mm, double viscosity_m2_s)
{
  SwSupplyLoss loss = { .velocity = sw_drainage_supply_velocity (bore_mm, flow_ls) };
  if (flow_ls <= 0)
    return (SwSupplyLoss){ 0 };
  loss.reynolds = loss.velocity * bore_mm / 1000 / viscosity_m2_s;
  loss.friction = friction (loss.reynolds, roughness_mm / bore_mm);
  loss.loss = loss.friction * length_m / (bore_mm / 1000) * loss.velocity * loss.velocity / (2 * GRAVITY);
  return loss;
}

double
sw_drainage_supply_loss_hazen (double bore_mm, double flow_ls, double length_m, double c)
{
  return 10.67 * length_m * pow (flow_ls / 1000, 1.852) / (pow (c, 1.852) * pow (bore_mm / 1000, 4.8704));
}

double
sw_drainage_sleeve_thickness (double od_mm, double r_m2k_w, double conductivity_w_mk)
{
  double low = 0, high = THICKEST_MM, wanted = r_m2k_w * conductivity_w_mk * 1000;
  for (int i = 0; i < 2 * ROUNDS; i++)
    {
      double middle = (low + high) / 2, outer = od_mm + 2 * middle;
      if (outer / 2 * log (outer / od_mm) < wanted)
        low = middle;
      else
        high = middle;
    }
  return high;
}
