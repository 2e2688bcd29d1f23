/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "estimate/sound.h"
#include <math.h>

double
sw_sound_sabine (const SwRules *rules, double volume_m3, double absorption_m2)
{
  return sw_rules_value (rules, "acoustics.constants", "sabine_s_m").value * volume_m3 / absorption_m2;
}

double
sw_sound_eyring (const SwRules *rules, double volume_m3, double surface_m2, double absorption_m2)
{
  return sw_sound_sabine (rules, volume_m3, -surface_m2 * log1p (-absorption_m2 / surface_m2));
}

double
sw_sound_mass_law (const SwRules *rules, double kg_m2, double hz)
{
  return 20 * log10 (kg_m2 * hz) - sw_rules_value (rules, "acoustics.constants", "mass_law_db").value;
}
