/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "estimate/deck_figures.h"
#include "base/text.h"
#include "space/section.h"
#include <math.h>

#define NUMBER(key, label, unit, decimals) { key, label, unit, SW_FIGURE_NUMBER, decimals }

typedef enum
{
  PROFILE_DEPTH, PROFILE_RIB, PROFILE_RIB_TOP, PROFILE_DEVELOPED, PROFILE_FACTOR, PROFILE_CONCRETE, PROFILE_SOLID, PROFILE_SAVING,
  PROFILE_SHEET, PROFILE_STRIP, N_PROFILE_ROWS
} ProfileRow;

static const SwFigureInfo profile_rows[N_PROFILE_ROWS] = {
  [PROFILE_DEPTH] = NUMBER ("depth_mm", N_("Depth of rib and topping"), "mm", 0),
  [PROFILE_RIB] = NUMBER ("rib_mm", N_("Rib at the soffit"), "mm", 0),
  [PROFILE_RIB_TOP] = NUMBER ("rib_top_mm", N_("Rib at the crown"), "mm", 0),
  [PROFILE_DEVELOPED] = NUMBER ("developed_mm", N_("Developed width of a pitch"), "mm", 1),
  [PROFILE_FACTOR] = NUMBER ("developed_factor", N_("Developed area for 1 m² of plan"), "m²", 3),
  [PROFILE_CONCRETE] = NUMBER ("concrete_m3_m2", N_("Concrete for 1 m²"), "m³", 4),
  [PROFILE_SOLID] = NUMBER ("solid_m3_m2", N_("A solid slab as deep, for 1 m²"), "m³", 4),
  [PROFILE_SAVING] = NUMBER ("saving_percent", N_("Concrete saved, gross"), "%", 1),
  [PROFILE_SHEET] = NUMBER ("sheet_kg_m2", N_("Sheet steel for 1 m²"), "kg", 2),
  [PROFILE_STRIP] = NUMBER ("drill_strip_mm", N_("Strip of the rib that may be drilled"), "mm", 0),
};

guint
sw_profile_n_rows (void)
{
  return N_PROFILE_ROWS;
}

const SwFigureInfo *
sw_profile_row (guint row)
{
  g_assert (row < N_PROFILE_ROWS);
  return &profile_rows[row];
}

SwFigure
sw_profile_figure (const SwProfile *profile, const SwRules *rules, guint row)
{
  SwSection section = sw_section_of (profile, rules);
  const double values[N_PROFILE_ROWS] = {
    [PROFILE_DEPTH] = section.depth_overall,     [PROFILE_RIB] = section.rib_bottom,
    [PROFILE_RIB_TOP] = section.rib_top,         [PROFILE_DEVELOPED] = section.developed,
    [PROFILE_FACTOR] = section.developed / profile->pitch, [PROFILE_CONCRETE] = section.concrete,
    [PROFILE_SOLID] = section.concrete_solid,    [PROFILE_SAVING] = section.saving * 100,
    [PROFILE_SHEET] = section.sheet_mass > 0 ? section.sheet_mass : NAN,
    [PROFILE_STRIP] = section.drill_strip,
  };
  SwFigure figure = sw_figure_number (values[row]);
  if (row == PROFILE_SHEET)
    sw_rules_lookup (rules, "material.density", "steel", "density_kg_m3", &figure.rule, NULL);
  if (row == PROFILE_STRIP)
    figure.rule = sw_rules_value (rules, "deck.drill", "strip_least_mm");
  return figure;
}

typedef enum { DECK_AREA, DECK_SOLID, DECK_GROSS, DECK_NET, DECK_GROSS_SHARE, DECK_NET_SHARE, N_DECK_ROWS } DeckRow;

static const SwFigureInfo deck_rows[N_DECK_ROWS] = {
  [DECK_AREA] = NUMBER ("deck_m2", N_("Deck"), "m²", 1),
  [DECK_SOLID] = NUMBER ("solid_m3", N_("Concrete of a solid slab as deep"), "m³", 2),
  [DECK_GROSS] = NUMBER ("saved_gross_m3", N_("Concrete saved, gross"), "m³", 2),
  [DECK_NET] = NUMBER ("saved_net_m3", N_("Concrete saved, net of solid zones"), "m³", 2),
  [DECK_GROSS_SHARE] = NUMBER ("saved_gross_percent", N_("Share saved, gross"), "%", 1),
  [DECK_NET_SHARE] = NUMBER ("saved_net_percent", N_("Share saved, net of solid zones"), "%", 1),
};

guint
sw_deck_n_rows (void)
{
  return N_DECK_ROWS;
}

const SwFigureInfo *
sw_deck_row (guint row)
{
  g_assert (row < N_DECK_ROWS);
  return &deck_rows[row];
}

SwFigure
sw_deck_figure (const SwDeck *deck, guint row)
{
  SwSaving saving = sw_section_saving (deck);
  const double values[N_DECK_ROWS] = {
    [DECK_AREA] = saving.deck_area, [DECK_SOLID] = saving.solid, [DECK_GROSS] = saving.gross, [DECK_NET] = saving.net,
    [DECK_GROSS_SHARE] = saving.gross / saving.solid * 100, [DECK_NET_SHARE] = saving.net / saving.solid * 100,
  };
  g_assert (row < N_DECK_ROWS);
  return sw_figure_number (values[row]);
}
