/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "space/section.h"
#include "space/deck.h"
#include <math.h>

SwSection
sw_section_of (const SwProfile *profile, const SwRules *rules)
{
  SwSection section = { 0 };
  SwRuleValue steel = { 0 };
  section.rib_bottom = profile->pitch - profile->mouth;
  section.rib_top = profile->pitch - profile->crown;
  section.side = hypot ((profile->mouth - profile->crown) / 2, profile->depth);
  double trough = profile->crown + 2 * section.side;
  section.developed = section.rib_bottom + trough;
  gboolean steel_rib = profile->rib_face == SW_RIB_FACE_STEEL;
  section.developed_steel = trough + (steel_rib ? section.rib_bottom : 0);
  section.developed_concrete = profile->rib_face == SW_RIB_FACE_CONCRETE ? section.rib_bottom : 0;
  section.void_area = (profile->mouth + profile->crown) / 2 * profile->depth;
  section.depth_overall = profile->depth + profile->topping;
  section.concrete_solid = section.depth_overall / 1000;
  section.concrete = section.concrete_solid - section.void_area / profile->pitch / 1000;
  section.saving = 1 - section.concrete / section.concrete_solid;
  if (sw_rules_lookup (rules, "material.density", "steel", "density_kg_m3", &steel, NULL))
    section.sheet_mass = section.developed_steel * profile->sheet / profile->pitch / 1000 * steel.value;
  section.drill_strip = section.rib_bottom - 2 * (profile->cover + profile->link + profile->bar);
  return section;
}

SwSaving
sw_section_saving (const SwDeck *deck)
{
  SwSaving saving = { 0, 0, 0, 0 };
  for (guint i = 0; i < sw_deck_n_bays (deck); i++)
    {
      const SwDeckBay *bay = sw_deck_bay (deck, i);
      const SwList *outline = &bay->bay->outline;
      double area = fabs (sw_outline_area (outline->items, outline->n)) / 1e6;
      saving.deck_area += area;
      saving.solid += area * (bay->profile->depth + bay->profile->topping) / 1000;
      saving.gross += area * (bay->profile->mouth + bay->profile->crown) / 2 * bay->profile->depth / bay->profile->pitch / 1000;
      for (guint k = 0; k < bay->voids->len; k++)
        {
          const SwVoid *v = &g_array_index (bay->voids, SwVoid, k);
          double cross = (sw_deck_void_width (bay, k, 0) + sw_deck_void_width (bay, k, v->depth)) / 2 * v->depth;
          for (guint r = 0; r < v->n_reaches; r++)
            {
              const SwReach *reach = &g_array_index (bay->reaches, SwReach, v->first_reach + r);
              saving.net += cross * (reach->high - reach->low) / 1e9;
            }
        }
    }
  return saving;
}
