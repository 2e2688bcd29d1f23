/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "job/records.h"
#include "rules/rules.h"

/* What hung tubes weigh, what carries them, and what holds a fixing. */

typedef struct
{
  double tube, contents, sleeve; /* kg per m */
} SwHangingMass;

/* Densities in kg/m³; a sleeve of `insulation` mm around it. */
SwHangingMass sw_hanging_mass (double od_mm, double bore_mm, double insulation_mm, double tube, double contents, double sleeve);
static inline double
sw_hanging_total (const SwHangingMass *mass)
{
  return mass->tube + mass->contents + mass->sleeve;
}

/* Supports of a straight length with one at each end: spaces and one more. */
guint sw_hanging_supports (double length_m, double spacing_m);

/* The table of supports for a service and material: "support.waste"; and the row of material.density. */
const char *sw_hanging_table (SwService service, SwMaterial material);
const char *sw_hanging_density_row (SwMaterial material);

/* Characteristic withdrawal of a screw from timber by the rule set's formula (EN 1995-1-1 8.7.2 in most), N. `strength`,
 * N/mm², may be NULL. SW_ERROR_INVALID for screws that the formula does not hold for. */
gboolean sw_hanging_screw_withdrawal (const SwRules *rules, double diameter, double length, double density, double *strength,
                                      double *newtons, GError **error);
/* Of a smooth nail, short loads only, N. */
double sw_hanging_nail_withdrawal (const SwRules *rules, double diameter, double length, double density);
