/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "rules/schema.h"

static const SwRuleKey clearances[] = {
  SW_NUM ("side_mm", "mm", 0, 500, N_ ("heat zone beside a light's body, when its own sheet gives none")),
  SW_NUM ("top_mm", "mm", 0, 500, N_ ("heat zone above a light's body, when its own sheet gives none")),
  SW_NUM ("insulation_mm", "mm", 0, 500, N_ ("thermal insulation from a light not made for contact")),
  SW_NUM ("combustible_mm", "mm", 0, 500, N_ ("anything that burns from a light not made for contact, floor of all")),
  SW_NUM ("batten_mm", "mm", 0, 500, N_ ("a cut-out's edge from a batten, aimed at")),
  SW_NUM ("under_rib_mm", "mm", 0, 100, N_ ("a body lower than the batten by this may sit under a rib")),
  SW_NUM ("withdraw_mm", "mm", 0, 200, N_ ("room above the body for springs and driver")),
  SW_NUM ("cutout_over_mm", "mm", 0, 50, N_ ("springs forgive a cut-out larger by this")),
};

static const SwRuleKey cutouts[] = {
  SW_NUM ("cutout_low_mm", "mm", 10, 500, N_ ("cut-out, smallest")),
  SW_NUM ("cutout_high_mm", "mm", 10, 500, N_ ("cut-out, largest")),
  SW_NUM ("depth_low_mm", "mm", 1, 500, N_ ("depth above the board, smallest")),
  SW_NUM ("depth_high_mm", "mm", 1, 500, N_ ("depth above the board, largest")),
};

static const SwRuleKey cutouts_watt[] = {
  SW_NUM ("cutout_low_mm", "mm", 10, 500, N_ ("cut-out, smallest")),
  SW_NUM ("cutout_high_mm", "mm", 10, 500, N_ ("cut-out, largest")),
};

static const SwRuleKey defaults[] = {
  SW_NUM ("driver_low_mm", "mm", 1, 200, N_ ("height of a driver, low")),
  SW_NUM ("driver_high_mm", "mm", 1, 200, N_ ("height of a driver, high")),
  SW_NUM ("clear_depth_mm", "mm", 10, 500, N_ ("clear depth that aimed recessed lights commonly ask for")),
  SW_NUM ("working_plane_mm", "mm", 0, 2000, N_ ("working plane above the floor")),
  SW_NUM ("spacing_low", "", 0.1, 5, N_ ("spacing over height, broad beams, low")),
  SW_NUM ("spacing_high", "", 0.1, 5, N_ ("spacing over height, broad beams, high")),
  SW_NUM ("spacing_narrow_low", "", 0.1, 5, N_ ("spacing over height, narrow beams, low")),
  SW_NUM ("spacing_narrow_high", "", 0.1, 5, N_ ("spacing over height, narrow beams, high")),
  SW_NUM ("point_sizes", "", 1, 20, N_ ("a light counts as a point from this many times its size")),
};

static const SwRuleKey levels[] = {
  SW_NUM ("lux", "lx", 1, 5000, N_ ("maintained illuminance")),
  SW_NUM ("raised_lux", "lx", 1, 5000, N_ ("the same where the task or the eyes ask for more")),
  SW_NUM ("glare", "", 10, 30, N_ ("glare rating, at most")),
  SW_NUM ("uniformity", "", 0.1, 1, N_ ("least over mean")),
  SW_NUM ("colour", "", 0, 100, N_ ("colour rendering, at least")),
};

static const SwRuleKey utilization[] = {
  SW_NUM ("room_index", "", 0.1, 20, N_ ("room index")),
  SW_NUM ("factor", "", 0.01, 2, N_ ("utilization factor; rows: ceiling/wall/floor reflectance in percent")),
};

static const SwRuleKey reflectance[] = {
  SW_NUM ("design", "", 0.01, 1, N_ ("reflectance used")),
  SW_NUM ("low", "", 0.01, 1, N_ ("lowest")),
  SW_NUM ("high", "", 0.01, 1, N_ ("highest")),
};

static const SwRuleKey maintenance[] = {
  SW_NUM ("factor", "", 0.1, 1, N_ ("maintenance factor")),
};

static const SwRuleTable tables[] = {
  SW_GROUP ("light.clearances", TRUE, N_ ("clearances of recessed lights"), clearances),
  SW_TABLE ("light.kinds", TRUE, N_ ("usual cut-outs and depths"), SW_ROW_WORD, cutouts),
  SW_TABLE ("light.cutouts_by_power", TRUE, N_ ("usual cut-outs by power"), SW_ROW_NUMBER ("W", 0.1, 500),
            cutouts_watt),
  SW_GROUP ("light.defaults", TRUE, N_ ("lighting: usual values"), defaults),
  SW_TABLE ("light.levels", FALSE, N_ ("lighting levels"), SW_ROW_WORD, levels),
  SW_GRID ("light.utilization", TRUE, N_ ("utilization factors of a recessed diffusing light"), SW_ROW_WORD,
           utilization),
  SW_TABLE ("light.reflectance", TRUE, N_ ("reflectances"),
            SW_ROW_OF ("white-paint|galvanised|concrete|board|floor|wall"), reflectance),
  SW_TABLE ("light.maintenance", TRUE, N_ ("maintenance factors"), SW_ROW_OF ("very-clean|clean|average|dirty"),
            maintenance),
};

const SwRuleSchemaPart sw_rules_schema_light = { tables, G_N_ELEMENTS (tables) };
