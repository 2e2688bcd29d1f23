/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>

/* Flow in round pipes that run part full. Slopes are a rise over a run (1:60 = 1 / 60.0). */

typedef struct
{
  double angle;       /* of the wetted arc at the centre, radians */
  double area_m2;
  double perimeter_m; /* wetted */
  double radius_m;    /* hydraulic: area over wetted perimeter */
} SwPartFull;

/* `filling` is depth over bore, above 0 and at most 1. */
SwPartFull sw_drainage_partfull (double bore_mm, double filling);

typedef enum
{
  SW_FLOW_MANNING,
  SW_FLOW_COLEBROOK /* Colebrook and White, written for a hydraulic radius */
} SwFlowLaw;

typedef struct
{
  SwFlowLaw law;
  double manning_n;
  double roughness_mm, viscosity_m2_s;
} SwFlowFormula;

/* m/s; 0 on a level or rising slope. */
double sw_drainage_velocity (const SwFlowFormula *formula, double bore_mm, double filling, double slope);
/* l/s */
double sw_drainage_capacity (const SwFlowFormula *formula, double bore_mm, double filling, double slope);
/* The filling at which the pipe carries the flow, least of two; NaN when it never does. */
double sw_drainage_filling (const SwFlowFormula *formula, double bore_mm, double slope, double flow_ls);
/* The filling that carries most. */
double sw_drainage_filling_most (const SwFlowFormula *formula, double bore_mm, double slope);
