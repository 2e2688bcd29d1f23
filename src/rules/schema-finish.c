/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "rules/schema.h"

static const SwRuleKey paint_systems[] = {
  SW_NUM ("solids_percent", "%", 1, 100, N_ ("volume solids")),
  SW_NUM ("film_um", "um", 1, 2000, N_ ("dry film of a coat")),
  SW_NUM ("coats", "", 1, 10, N_ ("coats")),
  SW_NUM ("density_kg_l", "kg/l", 0.5, 5, N_ ("density")),
};

static const SwRuleKey losses[] = {
  SW_NUM ("percent", "%", 0, 95, N_ ("loss used")),
  SW_NUM ("low_percent", "%", 0, 95, N_ ("least loss")),
  SW_NUM ("high_percent", "%", 0, 95, N_ ("greatest loss")),
};

static const SwRuleKey paint_rules[] = {
  SW_NUM ("loss_percent", "%", 0, 95, N_ ("loss of a job when no method is chosen")),
  SW_NUM ("moisture_percent", "%", 0, 50, N_ ("concrete's moisture before priming, at most")),
  SW_NUM ("age_days", "d", 0, 365, N_ ("concrete's age before priming, at least")),
  SW_NUM ("repaint_low_years", "a", 1, 100, N_ ("repaint after, soonest")),
  SW_NUM ("repaint_high_years", "a", 1, 100, N_ ("repaint after, latest")),
};

static const SwRuleKey absorption[] = {
  SW_NUM ("frequency_hz", "Hz", 10, 20000, N_ ("octave band")),
  SW_NUM ("coefficient", "", 0, 1.2, N_ ("absorption coefficient")),
};

static const SwRuleKey acoustics[] = {
  SW_NUM ("sabine_s_m", "s/m", 0.1, 0.2, N_ ("reverberation constant of Sabine and Eyring")),
  SW_NUM ("mass_law_db", "dB", 30, 60, N_ ("taken off by the mass law")),
  SW_NUM ("air_from_hz", "Hz", 100, 20000, N_ ("the air's absorption counts from this band")),
};

static const SwRuleKey carbon[] = {
  SW_NUM ("kg_kg", "kg/kg", 0, 50, N_ ("carbon dioxide for each kilogram")),
};

static const SwRuleKey labour[] = {
  SW_NUM ("low", "", 0.1, 10000, N_ ("output a day, low")),
  SW_NUM ("high", "", 0.1, 10000, N_ ("output a day, high")),
  SW_WORD ("of", "m|m2|no", N_ ("what the output counts")),
  SW_NUM ("crew", "", 1, 20, N_ ("people")),
};

static const SwRuleKey labour_rules[] = {
  SW_NUM ("tower_low_percent", "%", 0, 90, N_ ("loss of output among ribs on towers, low")),
  SW_NUM ("tower_high_percent", "%", 0, 90, N_ ("loss of output among ribs on towers, high")),
  SW_NUM ("day_hours", "h", 1, 24, N_ ("working hours of a day")),
};

static const SwRuleKey waste[] = {
  SW_NUM ("percent", "%", 0, 100, N_ ("waste used")),
  SW_NUM ("high_percent", "%", 0, 100, N_ ("waste with many openings or cuts")),
};

static const SwRuleKey tax[] = {
  SW_NUM ("vat_percent", "%", 0, 50, N_ ("value added tax")),
};

static const SwRuleKey quote[] = {
  SW_NUM ("markup_percent", "%", 0, 500, N_ ("markup on cost")),
};

static const SwRuleKey choice[] = {
  SW_NUM ("years", "a", 1, 100, N_ ("years over which a finish is compared")),
};

static const SwRuleTable tables[] = {
  SW_TABLE ("paint.systems", TRUE, N_ ("coats"), SW_ROW_OF ("zinc-primer|alkali-primer|finish"), paint_systems),
  SW_TABLE ("paint.losses", TRUE, N_ ("loss by method and place"),
            SW_ROW_OF ("brush-roller|airless|spray|rough|uneven|wind"), losses),
  SW_GROUP ("paint.rules", TRUE, N_ ("painting"), paint_rules),
  SW_GRID ("acoustics.absorption", TRUE, N_ ("sound absorption"), SW_ROW_WORD, absorption),
  SW_GROUP ("acoustics.constants", TRUE, N_ ("room acoustics"), acoustics),
  SW_TABLE ("carbon.factors", TRUE, N_ ("embodied carbon"), SW_ROW_WORD, carbon),
  SW_TABLE ("labour.output", TRUE, N_ ("work of a day"), SW_ROW_WORD, labour),
  SW_GROUP ("labour.rules", TRUE, N_ ("work overhead"), labour_rules),
  SW_TABLE ("estimate.waste", TRUE, N_ ("waste that quotes carry"),
            SW_ROW_OF ("boards|battens|conduit|wire|pipe|cornice|screws|compound"), waste),
  SW_GROUP ("estimate.tax", FALSE, N_ ("tax"), tax),
  SW_GROUP ("estimate.quote", TRUE, N_ ("quotes"), quote),
  SW_GROUP ("estimate.choice", TRUE, N_ ("closed or exposed"), choice),
};

const SwRuleSchemaPart sw_rules_schema_finish = { tables, G_N_ELEMENTS (tables) };
