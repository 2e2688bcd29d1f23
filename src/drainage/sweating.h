/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>

/* When a cold pipe sweats, and what sleeve keeps it dry. Temperatures in °C, humidity in percent. */

typedef struct
{
  double a, b_c; /* of Magnus's formula */
} SwMagnus;

double sw_drainage_dew_point (const SwMagnus *magnus, double air_c, double humidity_percent);

typedef struct
{
  double pipe_mm;              /* outside diameter */
  double pipe_c, air_c, dew_c;
  double conductivity_w_mk;    /* of the sleeve */
  double surface_w_m2k;
} SwSweatCase;

/* Temperature of the surface with a sleeve of this thickness. */
double sw_drainage_sweat_surface (const SwSweatCase *sweat, double thickness_mm);
/* Least sleeve whose surface is not colder than the dew point; 0 when the bare pipe is not; NaN when none is enough. */
double sw_drainage_sweat_thickness (const SwSweatCase *sweat);
