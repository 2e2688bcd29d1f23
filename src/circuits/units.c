/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "circuits/units.h"
#include "base/error.h"
#include "base/number.h"

static const char *const grids[] = { "conduit.units_bends_0", "conduit.units_bends_1", "conduit.units_bends_2",
                                     "conduit.units_bends_3", "conduit.units_bends_4" };

gboolean
sw_circuits_units_is_short (const SwRules *rules, double length_m, guint bends, GError **error)
{
  SwRuleValue limit;
  return bends == 0 && sw_rules_number (rules, "conduit.units_rules", "short_m", &limit, error) && length_m <= limit.value;
}

gboolean
sw_circuits_units_cable (const SwRules *rules, double mm2, gboolean solid, gboolean is_short, SwRuleValue *factor, GError **error)
{
  if (!is_short)
    return sw_rules_lookup_at (rules, "conduit.units_long_cables", mm2, SW_RULE_EXACT, "factor", factor, error);
  return sw_rules_lookup_at (rules, "conduit.units_short_cables", mm2, SW_RULE_EXACT, solid ? "solid" : "stranded", factor, error);
}

gboolean
sw_circuits_units_conduit (const SwRules *rules, double size_mm, double length_m, guint bends, gboolean is_short,
                           SwRuleValue *factor, GError **error)
{
  if (is_short)
    return sw_rules_lookup_at (rules, "conduit.units_short_conduits", size_mm, SW_RULE_EXACT, "factor", factor, error);
  if (bends < G_N_ELEMENTS (grids))
    return sw_rules_grid_at (rules, grids[bends], length_m, SW_RULE_NEXT_LARGER, size_mm, SW_RULE_EXACT, factor, error);
  g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, "the table of conduit factors ends at %u bends: put in a draw box",
               (guint) G_N_ELEMENTS (grids) - 1);
  return FALSE;
}
