/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>

/* Waste water from fixtures, EN 12056-2: K √ΣDU. Units and flows in l/s. */
double sw_drainage_discharge (double frequency, double units_sum);

/* The design flow of n fixtures; `largest`: at least the largest single unit. */
double sw_drainage_discharge_design (double frequency, const double *units, gsize n, gboolean largest);
