/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>

/* Water under pressure. Bores in mm, flows in l/s, lengths in m. */

/* Design flow from the summed flow of all outlets, l/s: factor · sum^power − less, never below 0. */
double sw_drainage_supply_demand (double factor, double power, double less, double sum_ls);

double sw_drainage_supply_velocity (double bore_mm, double flow_ls); /* m/s */
double sw_drainage_supply_volume (double bore_mm);                   /* l per m */

typedef struct
{
  double velocity; /* m/s */
  double reynolds;
  double friction; /* Darcy's: Colebrook's above a Reynolds number of 2300, 64/Re below */
  double loss;     /* m of water */
} SwSupplyLoss;

/* Darcy and Weisbach. All 0 without a flow. */
SwSupplyLoss sw_drainage_supply_loss (double bore_mm, double flow_ls, double length_m, double roughness_mm, double viscosity_m2_s);
/* Hazen and Williams, m of water. */
double sw_drainage_supply_loss_hazen (double bore_mm, double flow_ls, double length_m, double c);

/* Thickness in mm of a sleeve whose resistance on its outer surface is `r_m2k_w`: (D/2) ln(D/d)/λ = R. */
double sw_drainage_sleeve_thickness (double od_mm, double r_m2k_w, double conductivity_w_mk);
