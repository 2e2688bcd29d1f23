/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>

/* Volt drop from the tables' mV per ampere and metre. */
double sw_circuits_volt_drop (double mv_a_m, double amps, double length_m);
double sw_circuits_volt_drop_percent (double drop_v, double supply_v);
/* Length at which the drop reaches `percent` of the supply; INFINITY without load. */
double sw_circuits_volt_drop_length (double mv_a_m, double amps, double supply_v, double percent);
/* Rating of a cable after the factors for grouping, air and insulation. */
double sw_circuits_derated (double amps, const double *factors, gsize n);
