/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "rules/schema.h"

static const SwRuleKey sizes[] = {
  SW_NUM ("bore_pvc_mm", "mm", 1, 300, N_ ("bore of heavy rigid PVC conduit")),
  SW_NUM ("bore_steel_mm", "mm", 1, 300, N_ ("bore of steel conduit")),
  SW_NUM ("coupler_mm", "mm", 1, 300, N_ ("outside of a coupler")),
};

static const SwRuleKey trade_sizes[] = {
  SW_NUM ("bore_mm", "mm", 1, 300, N_ ("bore")),
  SW_NUM ("area_in2", "in2", 0.01, 50, N_ ("inside area")),
  SW_NUM ("bend_radius_mm", "mm", 10, 2000, N_ ("centre radius of a one-shot bend")),
};

static const SwRuleKey wire_areas[] = {
  SW_NUM ("area_in2", "in2", 0.0001, 10, N_ ("area of the insulated wire")),
};

static const SwRuleKey singles[] = {
  SW_NUM ("solid_mm", "mm", 0.5, 100, N_ ("diameter, solid")),
  SW_NUM ("solid_low_mm", "mm", 0.5, 100, N_ ("least diameter, solid")),
  SW_NUM ("solid_high_mm", "mm", 0.5, 100, N_ ("greatest diameter, solid")),
  SW_NUM ("stranded_mm", "mm", 0.5, 100, N_ ("diameter, stranded")),
  SW_NUM ("stranded_low_mm", "mm", 0.5, 100, N_ ("least diameter, stranded")),
  SW_NUM ("stranded_high_mm", "mm", 0.5, 100, N_ ("greatest diameter, stranded")),
};

static const SwRuleKey flat_cables[] = {
  SW_NUM ("thickness_low_mm", "mm", 0.5, 100, N_ ("least thickness")),
  SW_NUM ("width_low_mm", "mm", 0.5, 200, N_ ("least width")),
  SW_NUM ("thickness_high_mm", "mm", 0.5, 100, N_ ("greatest thickness")),
  SW_NUM ("width_high_mm", "mm", 0.5, 200, N_ ("greatest width")),
};

static const SwRuleKey fill[] = {
  SW_WORD ("method", "space-factor|count|units", N_ ("method that a job starts with")),
  SW_NUM ("space_factor_percent", "%", 5, 100, N_ ("cables' area in a conduit, at most")),
  SW_NUM ("jam_low", "", 1, 5, N_ ("three cables can jam from this ratio")),
  SW_NUM ("jam_high", "", 1, 5, N_ ("and up to this ratio")),
  SW_NUM ("jam_bore_factor", "", 0.5, 2, N_ ("the bore counts this many times in the jam ratio")),
};

static const SwRuleKey fill_count[] = {
  SW_NUM ("one_percent", "%", 5, 100, N_ ("one conductor")),
  SW_NUM ("two_percent", "%", 5, 100, N_ ("two conductors")),
  SW_NUM ("three_percent", "%", 5, 100, N_ ("three and more")),
  SW_NUM ("nipple_percent", "%", 5, 100, N_ ("a nipple")),
  SW_NUM ("nipple_mm", "mm", 1, 5000, N_ ("longest nipple")),
  SW_NUM ("round_up_at", "", 0, 1, N_ ("like conductors: the count rounds up from this part")),
};

static const SwRuleKey unit_cables[] = {
  SW_NUM ("solid", "", 1, 5000, N_ ("cable factor, solid")),
  SW_NUM ("stranded", "", 1, 5000, N_ ("cable factor, stranded")),
};

static const SwRuleKey unit_factor[] = {
  SW_NUM ("factor", "", 1, 10000, N_ ("factor")),
};

static const SwRuleKey unit_rules[] = {
  SW_NUM ("short_m", "m", 0.1, 100, N_ ("a straight run up to this uses the short tables")),
};

static const SwRuleKey unit_grid[] = {
  SW_NUM ("size_mm", "mm", 10, 100, N_ ("conduit size")),
  SW_NUM ("factor", "", 1, 10000, N_ ("conduit factor by length of run")),
};

static const SwRuleKey bends[] = {
  SW_NUM ("inside_diameters", "", 0.5, 20, N_ ("inside radius of a bend, least, in diameters")),
  SW_NUM ("centre_diameters", "", 0.5, 20, N_ ("centre radius of a bend in shop practice, in diameters")),
};

static const SwRuleKey cable_bends[] = {
  SW_NUM ("diameters", "", 0.5, 50, N_ ("inside radius in diameters, for cables up to this diameter")),
};

static const SwRuleKey cable_bends_other[] = {
  SW_NUM ("diameters", "", 0.5, 50, N_ ("inside radius in diameters")),
};

static const SwRuleKey draw[] = {
  SW_NUM ("note_bends", "", 0, 20, N_ ("more quarter bends between draw points get a note")),
  SW_NUM ("note_length_m", "m", 1, 200, N_ ("a longer run between draw points gets a note")),
  SW_NUM ("stop_degree", "°", 90, 3600, N_ ("more turn between draw points is not accepted")),
};

static const SwRuleKey draw_public[] = {
  SW_NUM ("length_m", "m", 1, 200, N_ ("between boxes")),
  SW_NUM ("bends", "", 0, 20, N_ ("with up to this many quarter bends")),
  SW_NUM ("saddle_low_mm", "mm", 10, 5000, N_ ("saddles, closest")),
  SW_NUM ("saddle_high_mm", "mm", 10, 5000, N_ ("saddles, furthest")),
  SW_NUM ("first_saddle_mm", "mm", 10, 5000, N_ ("first saddle within this of a box")),
};

static const SwRuleKey support[] = {
  SW_NUM ("horizontal_m", "m", 0.05, 20, N_ ("between supports of a level run")),
  SW_NUM ("vertical_m", "m", 0.05, 20, N_ ("between supports of an upright run")),
};

static const SwRuleKey support_trade[] = {
  SW_NUM ("spacing_m", "m", 0.05, 20, N_ ("between supports")),
};

static const SwRuleKey support_limits[] = {
  SW_NUM ("box_mm", "mm", 10, 5000, N_ ("a support within this of a box")),
};

static const SwRuleKey growth[] = {
  SW_NUM ("coefficient_mm_m_k", "mm/(m.K)", 0.0001, 1, N_ ("growth with temperature")),
};

static const SwRuleKey growth_rules[] = {
  SW_NUM ("coupling_mm", "mm", 0.1, 100, N_ ("a straight run that changes by this needs an expansion coupling")),
  SW_NUM ("range_k", "K", 1, 100, N_ ("temperature range of a void under a roof slab")),
};

static const SwRuleKey offsets[] = {
  SW_NUM ("distance_factor", "", 1, 20, N_ ("between marks for each unit of offset, as used on site")),
  SW_NUM ("shrink_in_in", "", 0.01, 2, N_ ("shrink for each unit of offset, as used on site")),
};

static const SwRuleKey pull[] = {
  SW_NUM ("friction", "", 0.01, 2, N_ ("friction of a dry pull when unknown")),
  SW_NUM ("copper_n_mm2", "N/mm2", 1, 200, N_ ("pull on copper, at most")),
  SW_NUM ("copper_high_n_mm2", "N/mm2", 1, 200, N_ ("pull on copper, upper reading")),
};

static const SwRuleKey stock[] = {
  SW_NUM ("length_mm", "mm", 500, 20000, N_ ("length of a conduit as bought")),
  SW_NUM ("kerf_mm", "mm", 0, 20, N_ ("saw cut")),
  SW_NUM ("offcut_mm", "mm", 0, 5000, N_ ("shortest offcut that is kept")),
};

static const SwRuleKey allowance[] = {
  SW_NUM ("box_mm", "mm", 0, 5000, N_ ("cable beyond the conduit at each box")),
  SW_NUM ("board_mm", "mm", 0, 10000, N_ ("cable beyond the conduit at the distribution board")),
  SW_NUM ("tail_mm", "mm", 0, 5000, N_ ("tail of each wire at a point")),
};

#define SUPPORT(name, everywhere, what) SW_TABLE (name, everywhere, what, SW_ROW_NUMBER ("mm", 1, 10000), support)
#define BY_LENGTH SW_ROW_NUMBER ("m", 0.1, 1000)
#define BY_MM2 SW_ROW_NUMBER ("mm2", 0.1, 1000)

static const SwRuleTable tables[] = {
  SW_TABLE ("conduit.sizes", TRUE, N_ ("conduits by outside diameter"), SW_ROW_NUMBER ("mm", 10, 200), sizes),
  SW_TABLE ("conduit.trade_sizes", FALSE, N_ ("thin-wall steel conduits by trade size"), SW_ROW_WORD, trade_sizes),
  SW_TABLE ("cable.wire_areas", FALSE, N_ ("building wires by gauge"), SW_ROW_WORD, wire_areas),
  SW_TABLE ("cable.singles", TRUE, N_ ("single-core PVC cables"), BY_MM2, singles),
  SW_TABLE ("cable.flat", TRUE, N_ ("flat twin and earth cables"), BY_MM2, flat_cables),
  SW_GROUP ("conduit.fill", TRUE, N_ ("filling of conduits"), fill),
  SW_GROUP ("conduit.fill_count", FALSE, N_ ("filling by number of conductors"), fill_count),
  SW_TABLE ("conduit.units_short_cables", FALSE, N_ ("cable factors, short straight runs"), BY_MM2, unit_cables),
  SW_TABLE ("conduit.units_short_conduits", FALSE, N_ ("conduit factors, short straight runs"),
            SW_ROW_NUMBER ("mm", 10, 100), unit_factor),
  SW_TABLE ("conduit.units_long_cables", FALSE, N_ ("cable factors, long runs or runs with bends"), BY_MM2,
            unit_factor),
  SW_GROUP ("conduit.units_rules", FALSE, N_ ("unit-factor method"), unit_rules),
  SW_GRID ("conduit.units_bends_0", FALSE, N_ ("conduit factors, straight"), BY_LENGTH, unit_grid),
  SW_GRID ("conduit.units_bends_1", FALSE, N_ ("conduit factors, one bend"), BY_LENGTH, unit_grid),
  SW_GRID ("conduit.units_bends_2", FALSE, N_ ("conduit factors, two bends"), BY_LENGTH, unit_grid),
  SW_GRID ("conduit.units_bends_3", FALSE, N_ ("conduit factors, three bends"), BY_LENGTH, unit_grid),
  SW_GRID ("conduit.units_bends_4", FALSE, N_ ("conduit factors, four bends"), BY_LENGTH, unit_grid),
  SW_GROUP ("conduit.bends", TRUE, N_ ("bends of conduits"), bends),
  SW_TABLE ("cable.bends", TRUE, N_ ("bends of PVC cables by diameter"), SW_ROW_NUMBER ("mm", 1, 10000), cable_bends),
  SW_TABLE ("cable.bends_other", TRUE, N_ ("bends of other cables"),
            SW_ROW_OF ("armoured|data-fixed|data-pulling"), cable_bends_other),
  SW_GROUP ("conduit.draw", TRUE, N_ ("draw points"), draw),
  SW_GROUP ("conduit.draw_public_works", FALSE, N_ ("draw boxes, a public-works rule"), draw_public),
  SUPPORT ("conduit.support_metal", FALSE, N_ ("supports of rigid metal conduit")),
  SUPPORT ("conduit.support_insulating", FALSE, N_ ("supports of rigid insulating conduit")),
  SUPPORT ("conduit.support_pliable", FALSE, N_ ("supports of pliable conduit")),
  SUPPORT ("cable.clips", FALSE, N_ ("clips of flat cable")),
  SW_TABLE ("conduit.support_trade_metal", FALSE, N_ ("supports of rigid metal conduit by trade size"), SW_ROW_WORD,
            support_trade),
  SW_TABLE ("conduit.support_trade_pvc", FALSE, N_ ("supports of PVC conduit by trade size"), SW_ROW_WORD,
            support_trade),
  SW_GROUP ("conduit.support_limits", TRUE, N_ ("supports near boxes"), support_limits),
  SW_TABLE ("conduit.growth", TRUE, N_ ("growth of conduit"), SW_ROW_OF ("pvc|steel"), growth),
  SW_GROUP ("conduit.growth_rules", TRUE, N_ ("expansion couplings"), growth_rules),
  SW_TABLE ("conduit.offsets", TRUE, N_ ("offset bends as marked on site"), SW_ROW_NUMBER ("°", 1, 90), offsets),
  SW_GROUP ("conduit.pull", TRUE, N_ ("pulling cables"), pull),
  SW_GROUP ("conduit.stock", TRUE, N_ ("conduit as bought"), stock),
  SW_GROUP ("cable.allowance", TRUE, N_ ("cable beyond the route"), allowance),
};

const SwRuleSchemaPart sw_rules_schema_conduit = { tables, G_N_ELEMENTS (tables) };
