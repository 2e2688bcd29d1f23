/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>

/* How many cables a conduit takes. Areas in any one unit. */

double sw_circuits_round_area (double diameter);
/* A flat cable as an ellipse. */
double sw_circuits_flat_area (double width, double thickness);
/* Cables' area over the bore's, 0…. */
double sw_circuits_fill_share (const double *areas, gsize n, double bore_area);

/* Shares of the bore that one, two, three and more conductors may fill; counts of like conductors round up when their
 * decimal part is at least `round_up_at`. */
typedef struct
{
  double one, two, three;
  double round_up_at;
} SwFillByCount;
double sw_circuits_fill_limit (const SwFillByCount *limits, gsize n);
/* Greatest number of like conductors. */
int sw_circuits_fill_count (const SwFillByCount *limits, double bore_area, double wire_area);
/* Greatest number of like cables under one share for all. */
int sw_circuits_fill_count_flat_share (double share, double bore_area, double cable_area);

/* Three cables may jam in a bend when this lies between the rule set's limits. */
double sw_circuits_jam_ratio (double bore_mm, double cable_mm, double bore_factor);
