/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>

/* Reads a number that may carry a unit: "6.5 m" asked for in mm gives 6500, "60C" in °C 60, "1:60" or "2%" in 1:n 60 and 50.
 * Without one it is in `unit` already. SW_ERROR_INVALID names what is no number, and units that do not go together. */
gboolean sw_measure_read (const char *text, const char *unit, double *value, GError **error);
