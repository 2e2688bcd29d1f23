/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>

/* Pulling cables through conduit. Forces in N, but any one unit of force does for the bends. */

/* After a straight length: weight in N per m. */
double sw_circuits_pull_straight (double before, double friction, double weight_n_m, double length_m);
/* After a bend. */
double sw_circuits_pull_bend (double before, double friction, double angle_degree);
/* Pressure on the inside of a bend, N per m. */
double sw_circuits_pull_sidewall (double after_n, double radius_m);
