/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "rules/schema.h"

static const SwRuleKey frequency[] = {
  SW_NUM ("k", "", 0.1, 5, N_ ("frequency factor")),
};

static const SwRuleKey units[] = {
  SW_NUM ("du_ls", "l/s", 0.01, 20, N_ ("discharge units, system I")),
};

static const SwRuleKey flow[] = {
  SW_FLAG ("largest_unit", N_ ("the flow is at least the largest single discharge unit")),
  SW_NUM ("self_cleansing_m_s", "m/s", 0.1, 5, N_ ("self-cleansing velocity")),
  SW_NUM ("filling_branch", "", 0.1, 1, N_ ("degree of filling of collecting pipes inside")),
  SW_NUM ("filling_ground", "", 0.1, 1, N_ ("degree of filling of ground pipes")),
  SW_NUM ("roughness_mm", "mm", 0.0001, 10, N_ ("roughness of the Colebrook-White formula")),
  SW_NUM ("viscosity_m2_s", "m2/s", 1e-7, 1e-5, N_ ("kinematic viscosity of waste water")),
};

static const SwRuleKey bores[] = {
  SW_NUM ("bore_mm", "mm", 10, 500, N_ ("bore that the flow table reckons with")),
};

static const SwRuleKey branch[] = {
  SW_NUM ("capacity_ls", "l/s", 0.01, 100, N_ ("greatest flow")),
  SW_FLAG ("wc", N_ ("may take a WC")),
};

static const SwRuleKey branch_limits[] = {
  SW_NUM ("length_m", "m", 0.1, 100, N_ ("greatest length")),
  SW_NUM ("bends", "", 0, 50, N_ ("greatest number of quarter bends besides the outlet's")),
  SW_NUM ("drop_m", "m", 0.1, 50, N_ ("greatest upright drop")),
  SW_NUM ("gradient_percent", "%", 0.1, 20, N_ ("least gradient")),
};

static const SwRuleKey stacks[] = {
  SW_NUM ("square_ls", "l/s", 0.01, 100, N_ ("greatest flow, square entries")),
  SW_NUM ("swept_ls", "l/s", 0.01, 100, N_ ("greatest flow, swept entries")),
  SW_NUM ("vent_dn", "", 10, 500, N_ ("size of a secondary vent")),
};

static const SwRuleKey wc_sizes[] = {
  SW_NUM ("stack_dn", "", 50, 300, N_ ("least size of a stack with a WC")),
  SW_NUM ("ground_dn", "", 50, 300, N_ ("least size of a ground pipe")),
  SW_NUM ("drain_in", "in", 1, 12, N_ ("least size of a building drain with a WC")),
};

static const SwRuleKey branches_gb[] = {
  SW_NUM ("size_mm", "mm", 10, 300, N_ ("size of the branch")),
  SW_NUM ("length_m", "m", 0.1, 50, N_ ("greatest length without a vent")),
  SW_NUM ("fall_low_mm_m", "mm/m", 1, 500, N_ ("least fall")),
  SW_NUM ("fall_high_mm_m", "mm/m", 1, 500, N_ ("greatest fall")),
};

static const SwRuleKey traps[] = {
  SW_NUM ("size_mm", "mm", 10, 300, N_ ("size of the trap")),
  SW_NUM ("seal_mm", "mm", 10, 200, N_ ("depth of its seal")),
};

static const SwRuleKey gradients[] = {
  SW_NUM ("default_n", "1:n", 5, 1000, N_ ("fall used when none is given")),
  SW_NUM ("note_n", "1:n", 5, 1000, N_ ("a flatter fall gets a note")),
  SW_NUM ("stop_n", "1:n", 5, 1000, N_ ("a flatter fall is not accepted")),
  SW_NUM ("steepest_n", "1:n", 1, 1000, N_ ("a steeper fall is not accepted")),
};

static const SwRuleKey manning[] = {
  SW_NUM ("n", "", 0.001, 0.1, N_ ("Manning's n used")),
  SW_NUM ("n_low", "", 0.001, 0.1, N_ ("smoothest")),
  SW_NUM ("n_high", "", 0.001, 0.1, N_ ("roughest")),
};

static const SwRuleKey fixture_units[] = {
  SW_NUM ("units", "", 0.1, 100, N_ ("drainage fixture units")),
};

static const SwRuleKey building_drain[] = {
  SW_NUM ("sixteenth", "", 1, 10000, N_ ("units at 1/16 in a foot")),
  SW_NUM ("eighth", "", 1, 10000, N_ ("units at 1/8 in a foot")),
  SW_NUM ("quarter", "", 1, 10000, N_ ("units at 1/4 in a foot")),
  SW_NUM ("half", "", 1, 10000, N_ ("units at 1/2 in a foot")),
};

static const SwRuleKey horizontal_branch[] = {
  SW_NUM ("units", "", 1, 10000, N_ ("greatest number of units")),
};

static const SwRuleKey sockets[] = {
  SW_NUM ("wall_mm", "mm", 0.5, 20, N_ ("wall of the pipe")),
  SW_NUM ("socket_mm", "mm", 10, 500, N_ ("outside of the socket")),
  SW_NUM ("dn", "", 10, 500, N_ ("size in the flow tables")),
};

static const SwRuleKey falls[] = {
  SW_NUM ("over_socket_mm", "mm", 0, 200, N_ ("room left over the socket at a run's high end")),
  SW_NUM ("wc_bend_axis_mm", "mm", 0, 500, N_ ("axis of a WC's bend below the crown")),
  SW_NUM ("drop_in_hole_mm", "mm", 20, 500, N_ ("hole for a 110 pipe through the topping")),
  SW_NUM ("hole_over_mm", "mm", 0, 200, N_ ("other drop-ins: hole larger than the pipe by this")),
  SW_NUM ("bend_radius_diameters", "", 0.3, 10, N_ ("centre radius of a waste bend in diameters")),
};

static const SwRuleKey no_combined[] = {
  SW_FLAG ("combined_branch", N_ ("soil and waste may share a level branch")),
};

static const SwRuleTable tables[] = {
  SW_TABLE ("drainage.frequency", FALSE, N_ ("frequency of use"),
            SW_ROW_OF ("intermittent|frequent|congested|special"), frequency),
  SW_TABLE ("drainage.units", FALSE, N_ ("discharge units"), SW_ROW_WORD, units),
  SW_GROUP ("drainage.flow", TRUE, N_ ("waste flow"), flow),
  SW_TABLE ("drainage.bores", FALSE, N_ ("flow bores"), SW_ROW_NUMBER ("", 10, 500), bores),
  SW_TABLE ("drainage.unventilated", FALSE, N_ ("branches without a vent"), SW_ROW_NUMBER ("", 10, 500), branch),
  SW_TABLE ("drainage.ventilated", FALSE, N_ ("branches with a vent"), SW_ROW_NUMBER ("", 10, 500), branch),
  SW_TABLE ("drainage.branch_limits", FALSE, N_ ("limits of branches"),
            SW_ROW_OF ("unventilated|ventilated"), branch_limits),
  SW_TABLE ("drainage.stacks", FALSE, N_ ("stacks with a primary vent"), SW_ROW_NUMBER ("", 10, 500), stacks),
  SW_GROUP ("drainage.wc", FALSE, N_ ("least sizes with a WC"), wc_sizes),
  SW_TABLE ("drainage.single_branches", FALSE, N_ ("branches of single fixtures without a vent"), SW_ROW_WORD,
            branches_gb),
  SW_TABLE ("drainage.traps", FALSE, N_ ("traps"), SW_ROW_WORD, traps),
  SW_TABLE ("drainage.gradients", TRUE, N_ ("falls by size"), SW_ROW_NUMBER ("mm", 10, 1000), gradients),
  SW_TABLE ("drainage.gradients_other", TRUE, N_ ("falls of other gravity services"),
            SW_ROW_OF ("rainwater|condensate"), gradients),
  SW_TABLE ("drainage.manning", TRUE, N_ ("Manning's n"), SW_ROW_OF ("upvc|copper|cast-iron|concrete"), manning),
  SW_TABLE ("drainage.fixture_units", FALSE, N_ ("fixture units"), SW_ROW_WORD, fixture_units),
  SW_TABLE ("drainage.building_drain", FALSE, N_ ("building drains by fixture units"), SW_ROW_NUMBER ("in", 1, 20),
            building_drain),
  SW_TABLE ("drainage.horizontal_branch", FALSE, N_ ("level branches by fixture units"),
            SW_ROW_NUMBER ("in", 1, 20), horizontal_branch),
  SW_GROUP ("drainage.practice", FALSE, N_ ("soil and waste together"), no_combined),
  SW_TABLE ("waste.sockets", TRUE, N_ ("waste pipes and their sockets"), SW_ROW_NUMBER ("mm", 10, 500), sockets),
  SW_GROUP ("waste.falls", TRUE, N_ ("falling pipes in a void"), falls),
};

const SwRuleSchemaPart sw_rules_schema_waste = { tables, G_N_ELEMENTS (tables) };
