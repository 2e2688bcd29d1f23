/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "rules/schema.h"

static const SwRuleKey copper[] = {
  SW_NUM ("wall_light_mm", "mm", 0.1, 10, N_ ("common thin wall")),
  SW_NUM ("wall_heavy_mm", "mm", 0.1, 10, N_ ("common thick wall")),
};

static const SwRuleKey plastic[] = {
  SW_NUM ("wall_mm", "mm", 0.1, 20, N_ ("wall")),
};

static const SwRuleKey materials[] = {
  SW_NUM ("expansion_mm_m_k", "mm/(m.K)", 0, 1, N_ ("growth with temperature used")),
  SW_NUM ("expansion_low_mm_m_k", "mm/(m.K)", 0, 1, N_ ("growth, low")),
  SW_NUM ("expansion_high_mm_m_k", "mm/(m.K)", 0, 1, N_ ("growth, high")),
  SW_NUM ("roughness_mm", "mm", 0.00001, 10, N_ ("roughness")),
  SW_NUM ("hazen_c", "", 10, 200, N_ ("Hazen and Williams's C")),
};

static const SwRuleKey growth_ranges[] = {
  SW_NUM ("hot_k", "K", 1, 200, N_ ("temperature range of a hot pipe")),
  SW_NUM ("cold_k", "K", 1, 200, N_ ("temperature range of a cold pipe")),
  SW_NUM ("waste_k", "K", 1, 200, N_ ("temperature range of a waste pipe")),
};

static const SwRuleKey growth_rules[] = {
  SW_NUM ("plastic_mm", "mm", 0.1, 200, N_ ("a straight of plastic pipe that changes by this needs an expansion joint")),
};

static const SwRuleKey support[] = {
  SW_NUM ("horizontal_m", "m", 0.1, 10, N_ ("between supports of a level pipe")),
  SW_NUM ("vertical_m", "m", 0.1, 10, N_ ("between supports of an upright pipe")),
};

static const SwRuleKey support_limits[] = {
  SW_NUM ("fitting_mm", "mm", 0, 2000, N_ ("a support within this of a fitting")),
  SW_NUM ("waste_expansion_m", "m", 0.1, 20, N_ ("an expansion joint in waste pipes each")),
};

static const SwRuleKey stock[] = {
  SW_NUM ("length_mm", "mm", 100, 100000, N_ ("length or coil as bought")),
};

static const SwRuleKey outlets[] = {
  SW_NUM ("flow_ls", "l/s", 0.01, 10, N_ ("draw-off flow")),
  SW_NUM ("least_ls", "l/s", 0.01, 10, N_ ("least flow")),
  SW_NUM ("units", "", 0.1, 100, N_ ("loading units")),
};

static const SwRuleKey velocity[] = {
  SW_NUM ("pipe_m_s", "m/s", 0.1, 10, N_ ("headers, risers and floor pipes")),
  SW_NUM ("dead_leg_m_s", "m/s", 0.1, 10, N_ ("dead legs to one fitting")),
};

static const SwRuleKey unit_limit[] = {
  SW_NUM ("units", "", 0.1, 5000, N_ ("greatest loading units")),
};

static const SwRuleKey demand[] = {
  SW_NUM ("factor", "", 0, 10, N_ ("factor")),
  SW_NUM ("power", "", 0, 2, N_ ("power of the summed flow")),
  SW_NUM ("less_ls", "l/s", 0, 10, N_ ("taken off")),
};

static const SwRuleKey demand_rules[] = {
  SW_NUM ("unit_flow_ls", "l/s", 0.001, 1, N_ ("flow of one loading unit")),
  SW_WORD ("formula", "dwellings-older|dwellings-newer", N_ ("formula used")),
};

static const SwRuleKey demand_gpm[] = {
  SW_NUM ("flow_gpm", "gal/min", 0.1, 5000, N_ ("flow")),
};

static const SwRuleKey physics[] = {
  SW_NUM ("viscosity_m2_s", "m2/s", 1e-7, 1e-5, N_ ("kinematic viscosity of cold water")),
  SW_NUM ("gallon_litres", "l", 3, 5, N_ ("litres in a gallon of the tables")),
  SW_NUM ("pressure_kpa_m", "kPa/m", 9, 10, N_ ("pressure of one metre of water")),
};

static const SwRuleKey hot[] = {
  SW_NUM ("dead_leg_l", "l", 0.1, 50, N_ ("most water in an unheated hot leg")),
  SW_NUM ("structure_kg", "kg", 10, 5000, N_ ("a heavier hot-water vessel's support needs an engineer")),
};

static const SwRuleKey hot_insulation[] = {
  SW_NUM ("r_m2k_w", "m2.K/W", 0.01, 10, N_ ("least thermal resistance on exposed hot pipes")),
};

static const SwRuleKey sweating[] = {
  SW_NUM ("magnus_a", "", 10, 30, N_ ("Magnus's formula: factor")),
  SW_NUM ("magnus_b_c", "°C", 200, 300, N_ ("Magnus's formula: temperature")),
  SW_NUM ("lambda_w_mk", "W/(m.K)", 0.01, 1, N_ ("conductivity of the sleeve")),
  SW_NUM ("surface_room_w_m2k", "W/(m2.K)", 1, 50, N_ ("surface coefficient in a room")),
  SW_NUM ("surface_void_w_m2k", "W/(m2.K)", 1, 50, N_ ("surface coefficient in a still closed void")),
  SW_NUM ("air_c", "°C", -20, 60, N_ ("air in the void when none is given")),
  SW_NUM ("humidity_percent", "%", 1, 100, N_ ("its relative humidity")),
  SW_NUM ("water_c", "°C", 0, 60, N_ ("cold pipe's water")),
  SW_NUM ("refrigerant_c", "°C", -40, 60, N_ ("suction pipe of a cooling plant")),
  SW_SERIES ("stock_mm", "mm", 1, 200, N_ ("sleeve thicknesses in stock")),
};

static const SwRuleKey tests[] = {
  SW_NUM ("water_factor", "", 1, 5, N_ ("water test: times the working pressure")),
  SW_NUM ("water_low_kpa", "kPa", 100, 5000, N_ ("water test, least")),
  SW_NUM ("water_high_kpa", "kPa", 100, 5000, N_ ("water test, most")),
  SW_NUM ("water_hours", "h", 0.1, 48, N_ ("water test's length")),
  SW_NUM ("waste_gauge_mm", "mm", 1, 500, N_ ("waste air test: water gauge")),
  SW_NUM ("waste_minutes", "min", 0.5, 120, N_ ("waste air test's length")),
  SW_NUM ("joint_inside_kpa", "kPa", 1, 500, N_ ("waste joints hold this inside")),
  SW_NUM ("joint_outside_kpa", "kPa", 1, 500, N_ ("waste joints hold this outside")),
  SW_NUM ("insulation_v", "V", 100, 5000, N_ ("electrical insulation test")),
  SW_NUM ("insulation_mohm", "Mohm", 0.1, 1000, N_ ("least insulation resistance")),
};

#define SUPPORT(name, what) SW_TABLE (name, FALSE, what, SW_ROW_NUMBER ("mm", 1, 2000), support)

static const SwRuleTable tables[] = {
  SW_TABLE ("pipe.copper", TRUE, N_ ("copper tubes by outside diameter"), SW_ROW_NUMBER ("mm", 5, 300), copper),
  SW_TABLE ("pipe.pex", TRUE, N_ ("PE-X pipes by outside diameter"), SW_ROW_NUMBER ("mm", 5, 300), plastic),
  SW_TABLE ("pipe.multilayer", TRUE, N_ ("multilayer pipes by outside diameter"), SW_ROW_NUMBER ("mm", 5, 300),
            plastic),
  SW_TABLE ("pipe.materials", TRUE, N_ ("materials of pipes"),
            SW_ROW_OF ("copper|steel|upvc|pe-x|multilayer|polypropylene"), materials),
  SW_TABLE ("pipe.steel", TRUE, N_ ("steel pipes by outside diameter"), SW_ROW_NUMBER ("mm", 5, 300), plastic),
  SW_GROUP ("pipe.growth_ranges", TRUE, N_ ("warming of pipes"), growth_ranges),
  SW_GROUP ("pipe.growth_rules", TRUE, N_ ("expansion joints of pipes"), growth_rules),
  SUPPORT ("support.copper", N_ ("supports of copper tubes")),
  SUPPORT ("support.steel", N_ ("supports of steel pipes")),
  SUPPORT ("support.pex", N_ ("supports of PE-X and polybutylene pipes")),
  SUPPORT ("support.multilayer", N_ ("supports of multilayer pipes")),
  SUPPORT ("support.waste", N_ ("supports of plastic waste pipes")),
  SUPPORT ("support.cpvc", N_ ("supports of CPVC pipes")),
  SUPPORT ("support.cast_iron", N_ ("supports of cast iron pipes")),
  SW_GROUP ("support.limits", TRUE, N_ ("supports near fittings"), support_limits),
  SW_TABLE ("pipe.stock", TRUE, N_ ("lengths of pipe as bought"),
            SW_ROW_OF ("copper|upvc|pe-x|multilayer|steel|polypropylene"), stock),
  SW_TABLE ("water.outlets", FALSE, N_ ("outlets"), SW_ROW_WORD, outlets),
  SW_GROUP ("water.velocity", TRUE, N_ ("velocity of water"), velocity),
  SW_TABLE ("water.copper_units", FALSE, N_ ("loading units that a copper tube takes"),
            SW_ROW_NUMBER ("mm", 5, 300), unit_limit),
  SW_TABLE ("water.multilayer_units", FALSE, N_ ("loading units that a multilayer pipe takes"),
            SW_ROW_NUMBER ("mm", 5, 300), unit_limit),
  SW_TABLE ("water.demand", FALSE, N_ ("design flow from the summed flow"),
            SW_ROW_OF ("dwellings-older|dwellings-newer"), demand),
  SW_GROUP ("water.demand_rules", FALSE, N_ ("design flow from loading units"), demand_rules),
  SW_TABLE ("water.demand_tanks", FALSE, N_ ("flow by fixture units, flush tanks"), SW_ROW_NUMBER ("", 0.1, 10000),
            demand_gpm),
  SW_TABLE ("water.demand_valves", FALSE, N_ ("flow by fixture units, flush valves"),
            SW_ROW_NUMBER ("", 0.1, 10000), demand_gpm),
  SW_GROUP ("water.physics", TRUE, N_ ("water"), physics),
  SW_GROUP ("water.hot", FALSE, N_ ("hot water"), hot),
  SW_TABLE ("insulation.hot", FALSE, N_ ("insulation of hot pipes by bore"), SW_ROW_NUMBER ("mm", 1, 10000),
            hot_insulation),
  SW_GROUP ("insulation.sweating", TRUE, N_ ("cold pipes that sweat"), sweating),
  SW_GROUP ("tests.before_closing", TRUE, N_ ("tests before a ceiling is closed"), tests),
};

const SwRuleSchemaPart sw_rules_schema_water = { tables, G_N_ELEMENTS (tables) };
