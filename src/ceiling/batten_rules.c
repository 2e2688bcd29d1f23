/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/batten_rules.h"
#include "base/number.h"
#include <math.h>

#define STEEL "steel.furring"

static gboolean
is_steel (const SwRoom *room)
{
  return room->material == SW_BATTENS_STEEL;
}

const char *
sw_ceiling_grade (const SwRules *rules, const SwRoom *room)
{
  return room->grade == 0 ? sw_rules_row_key (rules, "timber.grades", 0) : sw_struct_field (&sw_type_get (SW_TABLE_ROOM)->body, "batten_grade")->words[room->grade].key;
}

char *
sw_ceiling_section_size (const SwRoom *room, double width, double depth)
{
  char first[SW_NUMBER_BUF], second[SW_NUMBER_BUF];
  return g_strdup_printf ("%s%sx%s", is_steel (room) ? "steel-" : "", sw_number_write (width, first), sw_number_write (depth, second));
}

/* mm⁴, of whichever row of the price list sells the profile and says it; 0 where none does. */
static double
inertia_of (const SwJob *job, const SwRoom *room, double width, double depth)
{
  static const char *const uses[] = { "batten", "primary", "wall-batten", "noggin", "trimmer", "stud" };
  g_autofree char *size = sw_ceiling_section_size (room, width, depth);
  for (gsize i = 0; i < G_N_ELEMENTS (uses); i++)
    {
      g_autofree char *code = g_strdup_printf ("%s-%s", uses[i], size);
      const SwRecord *record = sw_job_find (job, code);
      if (record != NULL && sw_record_table (record) == SW_TABLE_PRICE && ((const SwPrice *) record)->inertia > 0)
        return ((const SwPrice *) record)->inertia;
    }
  return 0;
}

double
sw_ceiling_profile_mass (const SwRules *rules, double width, double depth)
{
  SwRuleValue steel;
  double thickness = sw_rules_value (rules, STEEL, "thickness_mm").value;
  return sw_rules_lookup (rules, "material.density", "steel", "density_kg_m3", &steel, NULL) ? steel.value * 2 * (width + depth) * thickness / 1e6 : 0;
}

double
sw_ceiling_batten_mass (const SwRules *rules, const SwRoom *room, double width, double depth)
{
  return is_steel (room) ? sw_ceiling_profile_mass (rules, width, depth) : sw_rules_value (rules, "timber.limits", "load_density_kg_m3").value * width * depth / 1e6;
}

gboolean
sw_ceiling_section (const SwRules *rules, const SwJob *job, const SwRoom *room, double width, double depth, SwBattenSection *section,
                    GError **error)
{
  SwRuleValue e;
  double mass = sw_ceiling_batten_mass (rules, room, width, depth);
  if (is_steel (room))
    {
      *section = sw_span_profile (depth, inertia_of (job, room, width, depth), sw_rules_value (rules, STEEL, "e_mpa").value, mass);
      return TRUE;
    }
  if (!sw_rules_lookup (rules, "timber.grades", sw_ceiling_grade (rules, room), "e_mpa", &e, error))
    return FALSE;
  *section = sw_span_rectangle (width, depth, e.value, mass);
  return TRUE;
}

gboolean
sw_ceiling_strength (const SwRules *rules, const SwRoom *room, double *strength, const char **rule_id, GError **error)
{
  SwRuleValue bending;
  if (is_steel (room))
    {
      bending = sw_rules_value (rules, STEEL, "yield_mpa");
      *strength = bending.value / sw_rules_value (rules, STEEL, "safety_factor").value;
      *rule_id = bending.rule_id;
      return TRUE;
    }
  if (!sw_rules_lookup (rules, "timber.grades", sw_ceiling_grade (rules, room), "bending_mpa", &bending, error))
    return FALSE;
  *strength = bending.value * sw_rules_value (rules, "timber.limits", "duration_factor").value
              / sw_rules_value (rules, "timber.limits", "material_factor").value;
  *rule_id = "timber.grades";
  return TRUE;
}

gboolean
sw_ceiling_published_span (const SwRules *rules, const SwRoom *room, double width, double depth, double *span, const char **rule_id)
{
  SwRuleValue value;
  if (is_steel (room))
    value = sw_rules_value (rules, STEEL, "clips_high_mm");
  else
    {
      g_autofree char *row = g_strdup_printf ("%dx%d", (int) lround (width), (int) lround (depth));
      const char *column = room->board_kind == SW_BOARD_FIBRE_CEMENT ? "fibre_cement_mm" : "gypsum_6.4_mm";
      if (!sw_rules_lookup (rules, "brandering.spans", row, column, &value, NULL))
        return FALSE;
    }
  *span = value.value;
  if (rule_id)
    *rule_id = value.rule_id;
  return TRUE;
}

SwRuleValue
sw_ceiling_joint_width (const SwRules *rules, const SwRoom *room)
{
  return sw_rules_value (rules, is_steel (room) ? STEEL : "brandering.setout", "joint_width_mm");
}

const double *
sw_ceiling_stock (const SwRules *rules, const SwRoom *room, guint *n, GError **error)
{
  return sw_rules_series (rules, is_steel (room) ? STEEL : "brandering.setout", "stock_mm", n, NULL, error);
}
