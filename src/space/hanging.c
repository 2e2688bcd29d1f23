/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "space/hanging.h"
#include "base/error.h"
#include "space/route.h"
#include <math.h>

/* ---- weight */

static double
ring_m2 (double outside_mm, double inside_mm)
{
  return G_PI / 4 * (outside_mm * outside_mm - inside_mm * inside_mm) / 1e6;
}

SwHangingMass
sw_hanging_mass (double od_mm, double bore_mm, double insulation_mm, double tube, double contents, double sleeve)
{
  return (SwHangingMass){ ring_m2 (od_mm, bore_mm) * tube, ring_m2 (bore_mm, 0) * contents, ring_m2 (od_mm + 2 * insulation_mm, od_mm) * sleeve };
}

guint
sw_hanging_supports (double length_m, double spacing_m)
{
  return 1 + (guint) ceil (fmax (length_m, 0) / spacing_m - 1e-9);
}

const char *
sw_hanging_table (SwService service, SwMaterial material)
{
  static const char *const pipes[] = {
    [SW_MATERIAL_PVC] = "support.waste",           [SW_MATERIAL_STEEL] = "support.steel", [SW_MATERIAL_COPPER] = "support.copper",
    [SW_MATERIAL_PEX] = "support.pex",             [SW_MATERIAL_MULTILAYER] = "support.multilayer",
    [SW_MATERIAL_PP] = "support.waste",            [SW_MATERIAL_CAST_IRON] = "support.cast_iron",
    [SW_MATERIAL_CPVC] = "support.cpvc",           [SW_MATERIAL_PLIABLE] = "support.pex", [SW_MATERIAL_BRASS] = "support.copper",
  };
  if (!sw_service_is_electric (service))
    return pipes[material];
  return material == SW_MATERIAL_STEEL ? "conduit.support_metal" : material == SW_MATERIAL_PLIABLE ? "conduit.support_pliable" : "conduit.support_insulating";
}

const char *
sw_hanging_density_row (SwMaterial material)
{
  static const char *const rows[] = {
    [SW_MATERIAL_PVC] = "upvc",     [SW_MATERIAL_STEEL] = "steel",     [SW_MATERIAL_COPPER] = "copper", [SW_MATERIAL_PEX] = "pe-x",
    [SW_MATERIAL_MULTILAYER] = "multilayer", [SW_MATERIAL_PP] = "polypropylene", [SW_MATERIAL_CAST_IRON] = "cast-iron", [SW_MATERIAL_CPVC] = "upvc",
    [SW_MATERIAL_PLIABLE] = "upvc", [SW_MATERIAL_BRASS] = "copper",
  };
  return rows[material];
}

/* ---- withdrawal */

static double
withdrawal_value (const SwRules *rules, const char *key)
{
  return sw_rules_value (rules, "timber.withdrawal", key).value;
}

gboolean
sw_hanging_screw_withdrawal (const SwRules *rules, double diameter, double length, double density, double *strength,
                          double *newtons, GError **error)
{
  double thin = withdrawal_value (rules, "least_diameter_mm"), thick = withdrawal_value (rules, "most_diameter_mm");
  double least = withdrawal_value (rules, "least_length_diameters") * diameter;
  if (!(diameter >= thin && diameter <= thick))
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "a screw of %g mm is outside the formula: take %g to %g mm",
                   diameter, thin, thick);
      return FALSE;
    }
  if (!(length >= least && density > 0))
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INVALID,
                   "%g mm of thread is outside the formula: a screw of %g mm needs %g mm or more", length, diameter,
                   least);
      return FALSE;
    }
  double hold = withdrawal_value (rules, "screw_factor")
                * pow (diameter, withdrawal_value (rules, "screw_diameter_power"))
                * pow (length, withdrawal_value (rules, "screw_length_power"))
                * pow (density, withdrawal_value (rules, "screw_density_power"));
  double share = fmin (diameter / withdrawal_value (rules, "full_diameter_mm"), 1);
  if (strength)
    *strength = hold;
  *newtons = hold * diameter * length * share;
  return TRUE;
}

double
sw_hanging_nail_withdrawal (const SwRules *rules, double diameter, double length, double density)
{
  return withdrawal_value (rules, "nail_factor") * density * density * diameter * length;
}
