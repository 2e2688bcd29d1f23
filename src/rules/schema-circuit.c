/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "rules/schema.h"

static const SwRuleKey grouping[] = {
  SW_NUM ("factor", "", 0.01, 1, N_ ("rating factor for this many circuits")),
};

static const SwRuleKey grouping_count[] = {
  SW_NUM ("percent", "%", 1, 100, N_ ("rating for up to this many current-carrying conductors")),
};

static const SwRuleKey bunching[] = {
  SW_NUM ("clear_diameters", "", 0, 20, N_ ("diameters of the larger conduit that are clear between two which do not warm each other")),
  SW_NUM ("length_mm", "mm", 0, 10000, N_ ("conduits beside each other for no longer than this do not count")),
  SW_NUM ("light_percent", "%", 0, 100, N_ ("a circuit that carries no more than this of its rating in the group is left out of it (0: none is)")),
};

static const SwRuleKey ambient[] = {
  SW_NUM ("factor", "", 0.01, 2, N_ ("rating factor at this air temperature")),
};

static const SwRuleKey insulation[] = {
  SW_NUM ("factor", "", 0.01, 1, N_ ("rating factor for this length in insulation")),
};

static const SwRuleKey ratings[] = {
  SW_NUM ("single_phase_a", "A", 0.1, 2000, N_ ("two loaded conductors")),
  SW_NUM ("three_phase_a", "A", 0.1, 2000, N_ ("three loaded conductors")),
};

static const SwRuleKey ratings_flat[] = {
  SW_NUM ("above_board_a", "A", 0.1, 2000, N_ ("above a plasterboard ceiling, up to 100 mm of insulation")),
  SW_NUM ("above_board_thick_a", "A", 0.1, 2000, N_ ("above a plasterboard ceiling, more than 100 mm")),
  SW_NUM ("clipped_a", "A", 0.1, 2000, N_ ("clipped direct")),
  SW_NUM ("insulated_wall_a", "A", 0.1, 2000, N_ ("in conduit in an insulated wall")),
};

static const SwRuleKey ratings_local[] = {
  SW_NUM ("insulated_wall_a", "A", 0.1, 2000, N_ ("in an insulated wall")),
  SW_NUM ("conduit_a", "A", 0.1, 2000, N_ ("in conduit on a wall or ceiling")),
  SW_NUM ("clipped_a", "A", 0.1, 2000, N_ ("clipped direct")),
  SW_NUM ("free_air_a", "A", 0.1, 2000, N_ ("in free air")),
};

static const SwRuleKey drop[] = {
  SW_NUM ("single_phase_mv", "mV/(A.m)", 0.01, 500, N_ ("single phase")),
  SW_NUM ("three_phase_mv", "mV/(A.m)", 0.01, 500, N_ ("three phases")),
};

static const SwRuleKey limits[] = {
  SW_NUM ("lighting_percent", "%", 0.1, 20, N_ ("volt drop of a lighting circuit, at most")),
  SW_NUM ("power_percent", "%", 0.1, 20, N_ ("volt drop of other circuits, at most")),
};

static const SwRuleKey supply[] = {
  SW_NUM ("single_phase_v", "V", 50, 1000, N_ ("voltage, single phase")),
  SW_NUM ("three_phase_v", "V", 50, 1000, N_ ("voltage between phases")),
  SW_NUM ("base_c", "°C", 0, 60, N_ ("air temperature of the ratings")),
  SW_NUM ("void_c", "°C", 0, 90, N_ ("air in a closed void")),
};

static const SwRuleKey segregation_old[] = {
  SW_NUM ("none_mm", "mm", 0, 2000, N_ ("no divider")),
  SW_NUM ("aluminium_mm", "mm", 0, 2000, N_ ("aluminium divider")),
  SW_NUM ("steel_mm", "mm", 0, 2000, N_ ("steel divider")),
};

static const SwRuleKey segregation[] = {
  SW_NUM ("none_mm", "mm", 0, 2000, N_ ("no containment")),
  SW_NUM ("open_mm", "mm", 0, 2000, N_ ("open metal containment")),
  SW_NUM ("perforated_mm", "mm", 0, 2000, N_ ("perforated metal containment")),
  SW_NUM ("solid_mm", "mm", 0, 2000, N_ ("solid metal containment")),
};

static const SwRuleKey segregation_circuits[] = {
  SW_NUM ("factor", "", 0.01, 100, N_ ("factor for up to this many 20 A circuits")),
};

static const SwRuleKey segregation_classes[] = {
  SW_WORD ("class", "a|b|c|d", N_ ("class of the table")),
};

static const SwRuleKey segregation_limits[] = {
  SW_NUM ("exempt_m", "m", 0, 100, N_ ("the last part of a level run is exempt")),
  SW_NUM ("lamp_mm", "mm", 0, 1000, N_ ("data cables from discharge and fluorescent lamps")),
};

static const SwRuleTable tables[] = {
  SW_TABLE ("circuit.grouping_bunched", FALSE, N_ ("circuits bunched or enclosed"), SW_ROW_NUMBER ("", 1, 1000),
            grouping),
  SW_TABLE ("circuit.grouping_layer", FALSE, N_ ("circuits in one layer on a surface"), SW_ROW_NUMBER ("", 1, 1000),
            grouping),
  SW_TABLE ("circuit.grouping_conductors", FALSE, N_ ("conductors in one raceway"), SW_ROW_NUMBER ("", 1, 100000),
            grouping_count),
  SW_GROUP ("circuit.bunching", TRUE, N_ ("conduits beside each other"), bunching),
  SW_TABLE ("circuit.ambient", FALSE, N_ ("air temperature, 70 °C PVC"), SW_ROW_NUMBER ("°C", -20, 100), ambient),
  SW_TABLE ("circuit.insulation", FALSE, N_ ("cable in thermal insulation"), SW_ROW_NUMBER ("mm", 0, 10000),
            insulation),
  SW_TABLE ("circuit.ratings_conduit", FALSE, N_ ("ratings of singles in conduit"), SW_ROW_NUMBER ("mm2", 0.1, 1000),
            ratings),
  SW_TABLE ("circuit.ratings_flat", FALSE, N_ ("ratings of flat twin and earth"), SW_ROW_NUMBER ("mm2", 0.1, 1000),
            ratings_flat),
  SW_TABLE ("circuit.ratings_flat_local", FALSE, N_ ("ratings of flat twin and earth, South African table"),
            SW_ROW_NUMBER ("mm2", 0.1, 1000), ratings_local),
  SW_TABLE ("circuit.drop_pvc", FALSE, N_ ("volt drop of 70 °C PVC copper"), SW_ROW_NUMBER ("mm2", 0.1, 1000), drop),
  SW_TABLE ("circuit.drop_thermosetting", FALSE, N_ ("volt drop of 90 °C thermosetting copper"),
            SW_ROW_NUMBER ("mm2", 0.1, 1000), drop),
  SW_GROUP ("circuit.limits", TRUE, N_ ("limits of volt drop"), limits),
  SW_GROUP ("circuit.supply", TRUE, N_ ("supply and surroundings"), supply),
  SW_TABLE ("segregation.screening", FALSE, N_ ("power from data by screening, older edition"),
            SW_ROW_OF ("unscreened-unscreened|unscreened-screened|screened-unscreened|screened-screened"),
            segregation_old),
  SW_TABLE ("segregation.distance", FALSE, N_ ("power from data by class and containment"), SW_ROW_OF ("a|b|c|d"),
            segregation),
  SW_TABLE ("segregation.circuits", FALSE, N_ ("power from data by number of circuits"),
            SW_ROW_NUMBER ("", 1, 1000000), segregation_circuits),
  SW_TABLE ("segregation.classes", FALSE, N_ ("classes of data cables"), SW_ROW_WORD, segregation_classes),
  SW_GROUP ("segregation.limits", FALSE, N_ ("power from data: limits"), segregation_limits),
};

const SwRuleSchemaPart sw_rules_schema_circuit = { tables, G_N_ELEMENTS (tables) };
