/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sheets/schedule_rules.h"
#include "checks/snag_text.h"
#include "rules/listing.h"
#include "sheets/words.h"
#include <string.h>

/* A name without a value's stands for the whole table, of which each row of the schedule takes its own line. */
static const struct { const char *schedule, *column, *rules; } rows[] = {
  { "conduits", "fill_percent", "conduit.fill.method cable.singles cable.flat conduit.sizes" },
  { "conduits", "fill_limit_percent", "conduit.fill.space_factor_percent" },
  { "conduits", "data_apart_mm", "segregation.distance segregation.circuits segregation.classes" },
  { "conduits", "cable_m", "cable.allowance" },
  { "conduits", "supports", "conduit.support_limits conduit.support_insulating conduit.support_metal conduit.support_pliable" },
  { "conduits", "stock_m", "conduit.stock.length_mm" },
  { "conduits", "expansion", "conduit.growth conduit.growth_rules.coupling_mm conduit.growth_rules.range_k" },
  { "pipes", "socket_mm", "waste.sockets" },
  { "pipes", "brackets", "support.copper support.steel support.pex support.waste support.cpvc support.multilayer support.limits.fitting_mm" },
  { "pipes", "units", "checks.runs.end_reach_mm" },
  { "pipes", "expansion", "pipe.materials pipe.growth_ranges pipe.growth_rules.plastic_mm support.limits.waste_expansion_m" },
  { "pipes", "stock_m", "pipe.stock" },
  { "downlights", "beside_plate_mm", "checks.clearances.light_plate_mm" },
  { "sleeves", "hole_mm", "deck.sleeves.gap_least_mm deck.rib_hole.depth_divisor" },
  { "sleeves", "above_soffit_mm", "deck.rib_hole.band_bottom_share" },
  { "plates", "forecast", "deck.defaults.plate_forecast_days" },
  { "circuits", "drop_percent", "circuit.drop_pvc" },
  { "circuits", "limit_percent", "circuit.limits.lighting_percent circuit.limits.power_percent" },
  { "circuits", "sharing", "circuit.bunching.clear_diameters circuit.bunching.length_mm" },
  { "circuits", "group_factor", "circuit.grouping_bunched" },
  { "circuits", "rating_a", "circuit.ratings_conduit circuit.ambient circuit.supply.void_c" },
  { "as-built", "shift_mm", "deck.as_built" },
  { "rooms", "height_mm", "room.heights room.rules.rib_share_percent room.rules.projection_mm" },
  { "take-off", "stock_m", "conduit.stock.length_mm pipe.stock" },
  { "choice", "closed_days_low", "labour.output labour.rules" },
  { "choice", "open_days_low", "labour.output labour.rules" },
  { "choice", "closed_carbon_kg", "carbon.factors material.density board.kinds" },
  { "choice", "open_carbon_kg", "carbon.factors paint.systems paint.rules.loss_percent" },
  { "choice", "closed_reflectance", "light.reflectance" },
  { "choice", "open_reflectance", "light.reflectance" },
  { "choice", "closed_absorption_m2", "acoustics.absorption" },
  { "choice", "open_absorption_m2", "acoustics.absorption" },
  { "cutting", "length_mm", "brandering.setout.kerf_mm board.layout.kerf_mm" },
  { "order", "packs", "board.takeoff" },
  { "sequence", "days_low", "labour.output" },
  { "sequence", "hours_low", "labour.rules.day_hours" },
  { "labour", "output_low", "labour.output" },
  { "labour", "hours_low", "labour.rules.day_hours" },
  { "draw-points", "most_m", "conduit.draw.note_length_m" },
  { "draw-points", "most_deg", "conduit.draw.note_bends conduit.draw.stop_degree" },
  { "draw-points", "growth_mm", "conduit.growth conduit.growth_rules.coupling_mm conduit.growth_rules.range_k" },
  { "levels", "fall_n", "drainage.gradients drainage.gradients_other" },
  { "levels", "cover_mm", "checks.clearances.crown_mm" },
  { "flows", "bore_mm", "waste.sockets pipe.copper pipe.pex pipe.multilayer pipe.steel" },
  { "flows", "units", "checks.runs.end_reach_mm" },
  { "flows", "flow_ls", "drainage.frequency drainage.flow.largest_unit water.demand_rules water.demand" },
  { "flows", "fall_n", "drainage.gradients drainage.gradients_other" },
  { "flows", "capacity_ls", "drainage.flow.filling_branch drainage.flow.roughness_mm drainage.flow.viscosity_m2_s drainage.unventilated drainage.branch_limits" },
  { "flows", "velocity_ms", "drainage.flow.self_cleansing_m_s water.velocity.pipe_m_s" },
  { "flows", "loss_kpa", "pipe.materials water.physics.viscosity_m2_s water.physics.pressure_kpa_m" },
  { "flows", "growth_mm", "pipe.materials pipe.growth_ranges" },
  { "flows", "sleeve_mm", "insulation.sweating" },
  { "flows", "mass_kg_m", "material.density" },
  { "hangers", "load_n", "deck.loads.gravity_m_s2 material.density" },
  { "hangers", "most_mm", "support.copper support.steel support.pex support.waste support.multilayer conduit.support_insulating conduit.support_metal" },
  { "stopping", "gap_mm", "deck.sleeves.gap_least_mm" },
  { "cables", "diameter_mm", "cable.singles cable.flat" },
  { "cables", "each_m", "cable.allowance" },
  { "set-out", "chase_most_mm", "drops.chases.vertical_divisor" },
  { "loads", "pipes_n", "deck.loads.gravity_m_s2 material.density" },
  { "loads", "ceilings_n", "board.kinds timber.limits.load_density_kg_m3" },
  { "loads", "lights_n", "hanging.masses" },
  { "loads", "fittings_n", "hanging.masses" },
  { "loads", "allowed_kpa", "deck.loads.allowance_low_kpa deck.loads.allowance_high_kpa" },
  { "brandering", "centres_mm", "brandering.centres brandering.setout.centres_mm" },
  { "brandering", "off_wall_mm", "brandering.setout.wall_face_mm" },
  { "brandering", "primary_centres_mm", "brandering.setout.primary_least_mm brandering.setout.primary_most_mm" },
  { "brandering", "long", "brandering.setout.packer_mm" },
  { "brandering", "hangers", "brandering.setout.hanger_mm" },
  { "packers", "thickest_mm", "brandering.setout.packer_mm brandering.setout.hanger_mm" },
};

const char *
sw_schedule_rules_row (guint i, const char **schedule, const char **column)
{
  if (i >= G_N_ELEMENTS (rows))
    return NULL;
  *schedule = rows[i].schedule;
  *column = rows[i].column;
  return rows[i].rules;
}

static void
rule_free (gpointer data)
{
  SwScheduleRule *rule = data;
  g_free (rule->value);
  g_free (rule);
}

/* One value by its id, or all of a table as one. NULL when the rule set has none. */
static SwScheduleRule *
rule_of (const GPtrArray *entries, const char *id, guint column)
{
  SwScheduleRule *rule = NULL;
  for (guint i = 0; i < entries->len; i++)
    {
      const SwRuleEntry *entry = entries->pdata[i];
      gboolean one = strcmp (entry->answer.rule_id, id) == 0;
      if (!one && strcmp (entry->table, id) != 0)
        continue;
      if (rule == NULL)
        {
          rule = g_new0 (SwScheduleRule, 1);
          *rule = (SwScheduleRule){ column, one ? entry->answer.rule_id : entry->table, one ? entry->what : entry->table_what,
                                    one ? g_strdup_printf ("%s%s%s", entry->text, *entry->answer.unit ? " " : "", entry->answer.unit) : g_strdup (""),
                                    entry->answer, entry->answer.source, entry->answer.confidence, FALSE };
        }
      if (entry->answer.confidence > rule->confidence)
        {
          rule->confidence = entry->answer.confidence;
          rule->source = entry->answer.source;
        }
      rule->overridden |= entry->was != NULL;
    }
  return rule;
}

static guint
column_of (const SwScheduleInfo *info, const char *key)
{
  guint c = 0;
  while (c < info->n_columns && strcmp (info->columns[c].key, key) != 0)
    c++;
  return c;
}

static int
compare_columns (gconstpointer pa, gconstpointer pb)
{
  const SwScheduleRule *a = *(SwScheduleRule *const *) pa, *b = *(SwScheduleRule *const *) pb;
  return a->column != b->column ? (a->column > b->column) - (a->column < b->column) : strcmp (a->rule_id, b->rule_id);
}

GPtrArray *
sw_schedule_rules (const SwScheduleInfo *info, guint column, const SwRules *rules)
{
  GPtrArray *found = g_ptr_array_new_with_free_func (rule_free);
  g_autoptr (GPtrArray) entries = NULL;
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      if (strcmp (rows[i].schedule, info->id) != 0)
        continue;
      guint at = column_of (info, rows[i].column);
      g_assert (at < info->n_columns);
      if (column != G_MAXUINT && at != column)
        continue;
      if (entries == NULL)
        entries = sw_rules_entries (rules, FALSE);
      g_auto (GStrv) ids = g_strsplit (rows[i].rules, " ", 0);
      for (guint k = 0; ids[k] != NULL; k++)
        {
          SwScheduleRule *rule = rule_of (entries, ids[k], at);
          if (rule != NULL)
            g_ptr_array_add (found, rule);
        }
    }
  g_ptr_array_sort (found, compare_columns);
  return found;
}

char *
sw_schedule_rule_text (const SwScheduleInfo *info, const SwScheduleRule *rule, SwLengths lengths)
{
  gboolean length = lengths != SW_LENGTHS_MM && *rule->value != '\0' && (strcmp (rule->answer.unit, "mm") == 0 || strcmp (rule->answer.unit, "m") == 0);
  g_autofree char *value = length ? sw_rule_figure (&rule->answer, lengths) : g_strdup (rule->value);
  return g_strdup_printf ("%s: %s%s%s (%s; %s)%s%s", _(info->columns[rule->column].title), rule->rule_id, *value != '\0' ? " = " : "", value,
                          rule->source, sw_word (sw_confidence_label (rule->confidence)), rule->overridden ? ", " : "", rule->overridden ? _("changed by the user") : "");
}
