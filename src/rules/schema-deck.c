/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "rules/schema.h"

static const SwRuleKey clearances[] = {
  SW_NUM ("rib_mm", "mm", 0, 200, N_ ("a service from the underside and sides of a rib")),
  SW_NUM ("web_mm", "mm", 0, 200, N_ ("a service from the sloping side of a void")),
  SW_NUM ("crown_mm", "mm", 0, 200, N_ ("a service from the crown of a void")),
  SW_NUM ("closure_mm", "mm", 0, 500, N_ ("a service from the closure at a void's end")),
  SW_NUM ("solid_zone_mm", "mm", 0, 500, N_ ("a service from a solid zone")),
  SW_NUM ("opening_edge_mm", "mm", 0, 500, N_ ("a service from the edge of an opening")),
  SW_NUM ("downstand_mm", "mm", 0, 500, N_ ("a service from a downstand beam")),
  SW_NUM ("plate_mm", "mm", 0, 200, N_ ("a service from a stiffener plate")),
  SW_NUM ("batten_mm", "mm", 0, 200, N_ ("a service from a batten")),
  SW_NUM ("board_mm", "mm", 0, 200, N_ ("a service from the back of a board")),
  SW_NUM ("wall_mm", "mm", 0, 500, N_ ("a service from a wall that it passes")),
  SW_NUM ("tube_mm", "mm", 0, 500, N_ ("one pipe from another, over insulation and sockets")),
  SW_NUM ("conduit_mm", "mm", 0, 500, N_ ("one conduit from another")),
  SW_NUM ("conduit_pipe_mm", "mm", 0, 500, N_ ("a conduit from a pipe of another trade")),
  SW_NUM ("conduit_hot_pipe_mm", "mm", 0, 500, N_ ("a conduit from a hot pipe")),
  SW_NUM ("gas_mm", "mm", 0, 500, N_ ("a gas pipe from an electrical service")),
  SW_NUM ("light_body_mm", "mm", 0, 500, N_ ("a service from the body of a light")),
  SW_NUM ("light_heat_mm", "mm", 0, 500, N_ ("a service from a light's heat zone, beyond the zone itself")),
  SW_NUM ("light_rib_mm", "mm", 0, 500, N_ ("a light's body from a rib or the side of a void")),
  SW_NUM ("light_plate_mm", "mm", 0, 500, N_ ("a light's body from a stiffener plate")),
  SW_NUM ("light_wall_mm", "mm", 0, 2000, N_ ("a light's cut-out from a wall")),
  SW_NUM ("hanger_mm", "mm", 0, 200, N_ ("a hanger from another trade's service")),
  SW_NUM ("zinc_gap_mm", "mm", 0, 200, N_ ("copper or brass from galvanised steel")),
  SW_NUM ("no_screw_mm", "mm", 0, 200, N_ ("a board's screw from a crossing service, each side")),
};

static const SwRuleKey run_checks[] = {
  SW_NUM ("end_reach_mm", "mm", 0, 1000, N_ ("how near a run has to end to the thing that it is joined to")),
  SW_NUM ("hatch_reach_mm", "mm", 100, 3000, N_ ("how far a hand reaches from a hatch along one void, each way")),
  SW_NUM ("over_electrical_mm", "mm", 0, 2000, N_ ("a joint or valve counts as above electrical gear within this")),
  SW_NUM ("drip_aside_mm", "mm", 0, 200, N_ ("zinc counts as below copper or brass within this aside")),
  SW_NUM ("drip_below_mm", "mm", 0, 10000, N_ ("and within this below it")),
  SW_NUM ("ceiling_level_mm", "mm", 0, 100, N_ ("a finished ceiling may be this much lower than asked")),
  SW_NUM ("saddle_plate_mm", "mm", 0, 500, N_ ("a saddle or hanger keeps this far from a plate")),
};

static const SwRuleKey basis[] = {
  SW_WORD ("basis", "law|engineer|trade|drawing|arithmetic", N_ ("what a check without a number rests on")),
};

static const SwRuleKey deck_defaults[] = {
  SW_NUM ("plate_spacing_mm", "mm", 100, 10000, N_ ("distance between stiffener plates")),
  SW_NUM ("plate_forecast_days", "d", 0, 365, N_ ("from the pour to the forecast release of the plates")),
  SW_NUM ("saving_low_percent", "%", 0, 100, N_ ("least concrete saved against a solid slab, usual decks")),
  SW_NUM ("saving_high_percent", "%", 0, 100, N_ ("most concrete saved against a solid slab, usual decks")),
  SW_NUM ("sheet_thickness_max_mm", "mm", 0.1, 10, N_ ("thickest trough sheet")),
  SW_NUM ("sag_divisor", "1:n", 50, 5000, N_ ("a soffit sags by the span over this")),
  SW_NUM ("level_line_mm", "mm", 0, 3000, N_ ("height of the level line above the finished floor")),
};

static const SwRuleKey topping_conduit[] = {
  SW_NUM ("depth_divisor", "", 1, 20, N_ ("conduit diameter at most the topping's depth over this")),
  SW_NUM ("depth_over_mm", "mm", 0, 200, N_ ("topping at least the conduit's diameter plus this")),
  SW_NUM ("spacing_diameters", "", 0, 20, N_ ("conduits apart at least this many diameters")),
};

static const SwRuleKey drill[] = {
  SW_NUM ("strip_least_mm", "mm", 0, 500, N_ ("a safe strip between bars narrower than this asks the engineer")),
  SW_NUM ("cover_less_mm", "mm", 0, 50, N_ ("a hole outside the strip is at most the cover less this deep")),
  SW_NUM ("topping_left_mm", "mm", 0, 200, N_ ("a hole in the crown leaves this much of the topping")),
};

static const SwRuleKey edge_distance[] = {
  SW_NUM ("edge_mm", "mm", 0, 500, N_ ("from the fixing's centre to the rib's edge")),
};

static const SwRuleKey rib_hole[] = {
  SW_NUM ("depth_divisor", "", 1, 50, N_ ("hole at most the section's depth over this")),
  SW_NUM ("support_depths", "", 0, 20, N_ ("clear of supports by this many depths")),
  SW_NUM ("spacing_diameters", "", 0, 20, N_ ("holes apart by this many diameters")),
  SW_NUM ("band_top_share", "", 0, 1, N_ ("centre at least this share of the depth below the top")),
  SW_NUM ("band_bottom_share", "", 0, 1, N_ ("centre at most this share of the depth below the top")),
  SW_NUM ("per_rib_m", "m", 0, 20, N_ ("one hole in this length of rib")),
};

static const SwRuleKey sleeves[] = {
  SW_NUM ("gap_least_mm", "mm", 0, 100, N_ ("room between pipe and sleeve, each side, least")),
  SW_NUM ("gap_most_mm", "mm", 0, 200, N_ ("room between pipe and sleeve, each side, most")),
  SW_NUM ("spacing_mm", "mm", 0, 500, N_ ("between sleeves in a wall or solid slab")),
  SW_NUM ("collar_over_mm", "mm", 0, 500, N_ ("a plastic pipe of larger bore needs a collar or wrap")),
};

static const SwRuleKey fire_pipes[] = {
  SW_NUM ("bore_mm", "mm", 0, 1000, N_ ("largest bore through a separating wall without a sealing device")),
};

static const SwRuleKey as_built[] = {
  SW_NUM ("rib_mm", "mm", 0, 200, N_ ("an unmeasured rib line may be off by this")),
  SW_NUM ("level_mm", "mm", 0, 200, N_ ("an unmeasured soffit level may be off by this")),
  SW_NUM ("plate_mm", "mm", 0, 500, N_ ("an unmeasured plate may be off by this")),
  SW_NUM ("misclosure_mm", "mm", 0, 200, N_ ("a larger misclosure of a room asks for a new measure")),
  SW_NUM ("corner_mm", "mm", 0, 200, N_ ("a measured corner of a room may stand off by this before its outline is taken over")),
};

static const SwRuleKey loads[] = {
  SW_NUM ("allowance_low_kpa", "kPa", 0, 10, N_ ("suspended load that decks often allow, low")),
  SW_NUM ("allowance_high_kpa", "kPa", 0, 10, N_ ("suspended load that decks often allow, high")),
  SW_NUM ("gravity_m_s2", "m/s2", 9, 10, N_ ("weight of one kilogram in newton")),
};

static const SwRuleKey crossing[] = {
  SW_NUM ("depth_mm", "mm", 5, 500, N_ ("room below a rib for conduit, coupler and spacer saddle")),
};

static const SwRuleKey crossing_rules[] = {
  SW_NUM ("saddle_gap_mm", "mm", 0, 50, N_ ("a spacer saddle holds the conduit off the concrete by this")),
  SW_NUM ("angle_low_degree", "°", 0, 720, N_ ("least turn, in true angles, of a crossing out of a void and back")),
  SW_NUM ("angle_high_degree", "°", 0, 720, N_ ("largest usual turn of such a crossing")),
};

static const SwRuleKey hanging[] = {
  SW_NUM ("web_share", "", 0, 1, N_ ("no fixing into a rib's side below this share of its depth")),
  SW_NUM ("plate_band_mm", "mm", 0, 500, N_ ("a band on a plate counts within this of the plate")),
};

static const SwRuleKey materials[] = {
  SW_NUM ("density_kg_m3", "kg/m3", 1, 20000, N_ ("density")),
};

static const SwRuleKey masses[] = {
  SW_NUM ("mass_kg", "kg", 0, 1000, N_ ("weight of one")),
};

static const SwRuleKey bodies[] = {
  SW_NUM ("length_mm", "mm", 1, 5000, N_ ("along the run")),
  SW_NUM ("width_mm", "mm", 1, 5000, N_ ("across the run")),
  SW_NUM ("height_mm", "mm", 1, 5000, N_ ("upright")),
};

static const SwRuleKey chases[] = {
  SW_NUM ("vertical_divisor", "", 1, 20, N_ ("upright chase at most the leaf's thickness over this")),
  SW_NUM ("horizontal_divisor", "", 1, 20, N_ ("level chase at most the leaf's thickness over this")),
};

static const SwRuleKey drop_ends[] = {
  SW_NUM ("at_wall_mm", "mm", 0, 5000, N_ ("a run goes down in the wall when it ends as near as this to its wall point")),
};

static const SwRuleKey drop_heights[] = {
  SW_NUM ("height_mm", "mm", 0, 5000, N_ ("above the finished floor")),
};

static const SwRuleKey props[] = {
  SW_NUM ("days", "d", 0, 365, N_ ("from the pour until props come out, a forecast only")),
};

static const SwRuleKey wall_heads[] = {
  SW_NUM ("deflection_gap_mm", "mm", 0, 200, N_ ("gap between a wall's head and the slab that may sag on it")),
  SW_NUM ("seal_gap_mm", "mm", 0, 100, N_ ("a gap up to this is sealed, a larger one is filled and sealed")),
  SW_NUM ("filler_mm", "mm", 10, 1000, N_ ("length of a profile filler along the void")),
};

static const SwRuleTable tables[] = {
  SW_GROUP ("checks.clearances", TRUE, N_ ("clearances that the snag checks ask for"), clearances),
  SW_TABLE ("checks.basis", TRUE, N_ ("checks without a number"), SW_ROW_WORD, basis),
  SW_GROUP ("checks.runs", TRUE, N_ ("limits of the snag checks"), run_checks),
  SW_GROUP ("deck.defaults", TRUE, N_ ("the deck: usual values"), deck_defaults),
  SW_GROUP ("deck.topping_conduit", TRUE, N_ ("conduits cast into the topping"), topping_conduit),
  SW_GROUP ("deck.drill", TRUE, N_ ("drilling into a rib"), drill),
  SW_TABLE ("deck.edge_distance", TRUE, N_ ("distance of fixings from a rib's edge"),
            SW_ROW_OF ("screw-anchor|shot-pin|plug-screw"), edge_distance),
  SW_GROUP ("deck.rib_hole", TRUE, N_ ("a hole through a rib: what may be asked of the engineer"), rib_hole),
  SW_GROUP ("deck.sleeves", TRUE, N_ ("sleeves"), sleeves),
  SW_TABLE ("deck.fire_pipes", FALSE, N_ ("pipes through separating walls without a sealing device"),
            SW_ROW_OF ("any|upvc-enclosed|metal"), fire_pipes),
  SW_GROUP ("deck.as_built", TRUE, N_ ("tolerance of what was not measured"), as_built),
  SW_GROUP ("deck.loads", TRUE, N_ ("suspended loads"), loads),
  SW_TABLE ("crossing.depth", TRUE, N_ ("depth of a conduit that crosses below a rib"),
            SW_ROW_NUMBER ("mm", 10, 200), crossing),
  SW_GROUP ("crossing.rules", TRUE, N_ ("crossing below a rib"), crossing_rules),
  SW_GROUP ("hanging.rules", TRUE, N_ ("hanging pipes from the deck"), hanging),
  SW_TABLE ("material.density", TRUE, N_ ("densities"),
            SW_ROW_OF ("concrete|steel|water|copper|upvc|pe-x|multilayer|polypropylene|cast-iron|gypsum|"
                       "fibre-cement|softwood|glass-wool|cable"),
            materials),
  SW_TABLE ("hanging.masses", TRUE, N_ ("what lights and fittings weigh"),
            SW_ROW_OF ("downlight|hood|box|tee|bend|socket|eye|valve|hanger|driver|other"), masses),
  SW_TABLE ("fittings.bodies", TRUE, N_ ("bodies of boxes and fittings when none is given"),
            SW_ROW_OF ("draw-box|round-box|junction-box|cleaning-eye|valve|driver|fire-detector"), bodies),
  SW_GROUP ("drops.chases", TRUE, N_ ("chases in walls"), chases),
  SW_GROUP ("drops.ends", TRUE, N_ ("runs that go down in walls"), drop_ends),
  SW_TABLE ("drops.heights", TRUE, N_ ("heights of drops' ends"),
            SW_ROW_OF ("switch|socket|board|isolator|thermostat"), drop_heights),
  SW_GROUP ("wall.heads", TRUE, N_ ("heads of walls below a deck"), wall_heads),
  SW_TABLE ("deck.props", FALSE, N_ ("striking of props in published practice"), SW_ROW_WORD, props),
};

const SwRuleSchemaPart sw_rules_schema_deck = { tables, G_N_ELEMENTS (tables) };
