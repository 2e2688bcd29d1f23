/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>

/* Growth of a straight run with temperature, mm; coefficient in mm per m and K. */
double sw_circuits_growth (double coefficient, double length_m, double range_k);
/* Length whose growth reaches `limit_mm`; INFINITY when it never does. */
double sw_circuits_growth_length (double coefficient, double range_k, double limit_mm);
