/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "rules/schema.h"

static const SwRuleKey batten_sizes[] = {
  SW_NUM ("width_mm", "mm", 5, 300, N_ ("width of the face that takes the board")),
  SW_NUM ("depth_mm", "mm", 5, 300, N_ ("depth, upright")),
  SW_WORD ("material", "softwood|hardwood|steel", N_ ("what it is made of")),
};

static const SwRuleKey batten_spans[] = {
  SW_NUM ("gypsum_6.4_mm", "mm", 100, 5000, N_ ("greatest span under 6.4 mm gypsum board")),
  SW_NUM ("fibre_cement_mm", "mm", 100, 5000, N_ ("greatest span under 4 or 6 mm fibre-cement board")),
};

static const SwRuleKey batten_centres[] = {
  SW_NUM ("across_mm", "mm", 100, 1200, N_ ("greatest centres, bound edges at right angles to the battens")),
  SW_NUM ("noggins_mm", "mm", 100, 1200, N_ ("greatest centres when noggins stand between")),
  SW_NUM ("along_mm", "mm", 100, 1200, N_ ("greatest centres, bound edges along the battens")),
  SW_NUM ("edge_mm", "mm", 100, 1200, N_ ("centres of the first bays at walls")),
  SW_FLAG ("perimeter", N_ ("noggins along the perimeter are needed")),
};

static const SwRuleKey batten_setout[] = {
  SW_NUM ("wall_face_mm", "mm", 0, 200, N_ ("near face of the first batten off the wall")),
  SW_NUM ("cantilever_mm", "mm", 0, 1000, N_ ("furthest that a batten stands over its last rib")),
  SW_NUM ("board_over_mm", "mm", 0, 400, N_ ("furthest that a board stands over its last batten")),
  SW_NUM ("bearing_mm", "mm", 5, 50, N_ ("each sheet's bearing on a batten at a joint, least")),
  SW_NUM ("bearing_good_mm", "mm", 5, 50, N_ ("the same, aimed at")),
  SW_NUM ("joint_width_mm", "mm", 10, 100, N_ ("narrowest batten that takes a joint")),
  SW_NUM ("primary_least_mm", "mm", 100, 3000, N_ ("primaries of two layers: narrowest centres that are looked at")),
  SW_NUM ("primary_most_mm", "mm", 100, 3000, N_ ("primaries of two layers: greatest centres")),
  SW_NUM ("kerf_mm", "mm", 0, 20, N_ ("saw cut")),
  SW_NUM ("offcut_mm", "mm", 0, 3000, N_ ("shortest offcut of a batten that is kept")),
  SW_NUM ("packer_mm", "mm", 0, 500, N_ ("packing above this needs a longer fixing")),
  SW_NUM ("hanger_mm", "mm", 0, 500, N_ ("packing above this needs hangers")),
  SW_NUM ("crossing_gap_mm", "mm", 0, 200, N_ ("a crossing service keeps this from a batten's face")),
  SW_NUM ("trimmers", "", 0, 4, N_ ("trimmers on each side of a cut batten")),
  SW_SERIES ("stock_mm", "mm", 100, 12000, N_ ("lengths in stock")),
  SW_SERIES ("centres_mm", "mm", 100, 1200, N_ ("centres that are tried first")),
};

static const SwRuleKey batten_joists[] = {
  SW_NUM ("support_low_mm", "mm", 100, 5000, N_ ("joists between supports from this apart")),
  SW_NUM ("support_high_mm", "mm", 100, 5000, N_ ("and up to this apart")),
  SW_NUM ("runner_mm", "mm", 100, 5000, N_ ("runners that carry the joists, centres")),
  SW_NUM ("nail_low_mm", "mm", 10, 300, N_ ("nails from this length")),
  SW_NUM ("nail_high_mm", "mm", 10, 300, N_ ("nails up to this length")),
};

static const SwRuleKey batten_fixing[] = {
  SW_NUM ("end_mm", "mm", 0, 150, N_ ("least distance of a fixing from the end of a batten at a movement joint")),
  SW_NUM ("design_n", "N", 0, 10000, N_ ("design load of each fixing to a rib, least")),
  SW_NUM ("push_n", "N", 0, 5000, N_ ("push of a hand or of a light's change")),
  SW_NUM ("per_crossing", "", 1, 4, N_ ("fixings at each rib")),
  SW_NUM ("safety_factor", "", 1, 20, N_ ("safety factor of friction plugs")),
  SW_NUM ("point_kg", "kg", 0, 500, N_ ("heavier things are fixed to ribs, never to board or batten")),
  SW_NUM ("fittings_kg_m2", "kg/m2", 0, 50, N_ ("lights and leads that battens carry beside boards and insulation")),
};

static const SwRuleKey timber_grades[] = {
  SW_NUM ("e_mpa", "MPa", 1000, 30000, N_ ("mean modulus of elasticity")),
  SW_NUM ("bending_mpa", "MPa", 1, 100, N_ ("characteristic bending strength")),
  SW_NUM ("density_kg_m3", "kg/m3", 100, 1500, N_ ("mean density")),
};

static const SwRuleKey timber_limits[] = {
  SW_NUM ("plastered_divisor", "1:n", 50, 2000, N_ ("deflection of plastered or skimmed ceilings, span over this")),
  SW_NUM ("board_divisor", "1:n", 50, 2000, N_ ("deflection of boarded ceilings, span over this")),
  SW_NUM ("long_term_divisor", "1:n", 50, 2000, N_ ("deflection with creep, span over this")),
  SW_NUM ("creep_factor", "", 1, 5, N_ ("permanent load counts this many times in the long term")),
  SW_NUM ("young_timber_factor", "", 0.1, 1, N_ ("E of young timber against the grade's")),
  SW_NUM ("load_density_kg_m3", "kg/m3", 100, 1500, N_ ("softwood's density for loads")),
  SW_NUM ("lift_density_kg_m3", "kg/m3", 100, 1500, N_ ("softwood's density for lifting")),
  SW_NUM ("material_factor", "", 1, 5, N_ ("strength is divided by this")),
  SW_NUM ("duration_factor", "", 0.1, 1.2, N_ ("strength under permanent load")),
};

static const SwRuleKey timber_withdrawal[] = {
  SW_NUM ("screw_factor", "", 0, 10, N_ ("screw: factor")),
  SW_NUM ("screw_diameter_power", "", -5, 5, N_ ("screw: power of the diameter in mm")),
  SW_NUM ("screw_length_power", "", -5, 5, N_ ("screw: power of the threaded length in mm")),
  SW_NUM ("screw_density_power", "", -5, 5, N_ ("screw: power of the density")),
  SW_NUM ("full_diameter_mm", "mm", 1, 50, N_ ("thinner screws count by their share of this")),
  SW_NUM ("least_diameter_mm", "mm", 1, 50, N_ ("thinnest screw of the formula")),
  SW_NUM ("most_diameter_mm", "mm", 1, 50, N_ ("thickest screw of the formula")),
  SW_NUM ("least_length_diameters", "", 1, 50, N_ ("least threaded length in diameters")),
  SW_NUM ("nail_factor", "", 0, 1, N_ ("smooth nail: factor of the density squared, short loads only")),
};

static const SwRuleKey timber_notches[] = {
  SW_NUM ("notch_depth_divisor", "", 1, 50, N_ ("notch at most the bearer's depth over this")),
  SW_NUM ("notch_low_share", "", 0, 1, N_ ("notches from this share of the span")),
  SW_NUM ("notch_high_share", "", 0, 1, N_ ("and up to this share")),
  SW_NUM ("hole_low_share", "", 0, 1, N_ ("holes, on the centre line, from this share of the span")),
  SW_NUM ("hole_high_share", "", 0, 1, N_ ("and up to this share")),
};

static const SwRuleKey steel_furring[] = {
  SW_NUM ("e_mpa", "MPa", 1e5, 3e5, N_ ("modulus of elasticity")),
  SW_NUM ("depth_low_mm", "mm", 5, 200, N_ ("depth of a hat section, low")),
  SW_NUM ("depth_high_mm", "mm", 5, 200, N_ ("depth of a hat section, high")),
  SW_NUM ("thickness_mm", "mm", 0.1, 5, N_ ("base metal")),
  SW_NUM ("centres_low_mm", "mm", 100, 1500, N_ ("centres, low")),
  SW_NUM ("centres_high_mm", "mm", 100, 1500, N_ ("centres, high")),
  SW_NUM ("clips_low_mm", "mm", 100, 3000, N_ ("clips to the ribs, low")),
  SW_NUM ("clips_high_mm", "mm", 100, 3000, N_ ("clips to the ribs, high")),
  SW_NUM ("joint_width_mm", "mm", 10, 100, N_ ("narrowest furring that takes a joint")),
  SW_NUM ("yield_mpa", "MPa", 50, 700, N_ ("yield strength")),
  SW_NUM ("safety_factor", "", 1, 5, N_ ("stress allowed: yield strength over this")),
  SW_SERIES ("stock_mm", "mm", 100, 12000, N_ ("lengths in stock")),
};

static const SwRuleKey deflection_classes[] = {
  SW_NUM ("divisor", "1:n", 50, 2000, N_ ("span over this")),
  SW_NUM ("most_mm", "mm", 0.1, 100, N_ ("and not more than this")),
};

static const SwRuleKey boards[] = {
  SW_NUM ("thickness_mm", "mm", 1, 50, N_ ("thickness")),
  SW_NUM ("mass_kg_m2", "kg/m2", 1, 100, N_ ("mass used")),
  SW_NUM ("mass_low_kg_m2", "kg/m2", 1, 100, N_ ("lightest")),
  SW_NUM ("mass_high_kg_m2", "kg/m2", 1, 100, N_ ("heaviest")),
};

static const SwRuleKey board_sizes[] = {
  SW_SERIES ("gypsum_widths_mm", "mm", 100, 2000, N_ ("gypsum boards' widths")),
  SW_SERIES ("gypsum_lengths_mm", "mm", 500, 6000, N_ ("gypsum boards' lengths")),
  SW_SERIES ("gypsum_thin_lengths_mm", "mm", 500, 6000, N_ ("lengths of 6.4 mm gypsum boards")),
  SW_SERIES ("fibre_cement_widths_mm", "mm", 100, 2000, N_ ("fibre-cement boards' widths")),
  SW_SERIES ("fibre_cement_lengths_mm", "mm", 500, 6000, N_ ("fibre-cement boards' lengths")),
};

static const SwRuleKey board_screws[] = {
  SW_NUM ("field_mm", "mm", 50, 600, N_ ("screws on battens inside a sheet")),
  SW_NUM ("end_mm", "mm", 50, 600, N_ ("screws at ends and perimeters")),
  SW_NUM ("nail_mm", "mm", 50, 600, N_ ("nails")),
  SW_NUM ("bound_edge_mm", "mm", 1, 50, N_ ("from a bound edge")),
  SW_NUM ("cut_edge_mm", "mm", 1, 50, N_ ("from a cut edge")),
  SW_NUM ("support_edge_mm", "mm", 1, 50, N_ ("from the edge of the batten")),
};

static const SwRuleKey board_layout[] = {
  SW_NUM ("joint_mm", "mm", 0, 20, N_ ("widest joint")),
  SW_NUM ("layer_stagger_mm", "mm", 0, 3000, N_ ("joints of two layers apart")),
  SW_NUM ("stagger_supports", "", 0, 20, N_ ("end joints of neighbouring rows apart by this many battens, least")),
  SW_NUM ("stagger_share", "", 0, 1, N_ ("end joints of neighbouring rows apart by this share of a sheet, aimed at")),
  SW_NUM ("sliver_mm", "mm", 0, 1000, N_ ("a piece narrower than this is a sliver")),
  SW_NUM ("edge_good_mm", "mm", 0, 1200, N_ ("edge pieces at least this wide, aimed at")),
  SW_NUM ("light_joint_mm", "mm", 0, 1000, N_ ("joints keep this from a cut-out")),
  SW_NUM ("hatch_joint_mm", "mm", 0, 1000, N_ ("joints keep this from a hatch")),
  SW_NUM ("kerf_mm", "mm", 0, 20, N_ ("cut of a saw or knife")),
  SW_NUM ("offcut_mm", "mm", 0, 2000, N_ ("narrowest offcut that is kept")),
  SW_NUM ("two_man_kg", "kg", 1, 200, N_ ("a heavier sheet needs two people or a lifter")),
};

static const SwRuleKey board_limits[] = {
  SW_NUM ("field_m", "m", 1, 100, N_ ("longest field between movement joints")),
  SW_FLAG ("wet", N_ ("for wet rooms")),
  SW_NUM ("fire_min", "min", 0, 480, N_ ("what the board adds to a fire rating by itself")),
};

static const SwRuleKey board_movement[] = {
  SW_NUM ("plain_m", "m", 1, 100, N_ ("between movement joints without perimeter relief")),
  SW_NUM ("plain_m2", "m2", 1, 2000, N_ ("area between movement joints without perimeter relief")),
  SW_NUM ("relief_m", "m", 1, 100, N_ ("between movement joints with perimeter relief")),
  SW_NUM ("relief_m2", "m2", 1, 2000, N_ ("area between movement joints with perimeter relief")),
};

static const SwRuleKey board_takeoff[] = {
  SW_NUM ("tape_factor", "", 1, 2, N_ ("tape bought for each metre of joint")),
  SW_NUM ("compound_kg_m2", "kg/m2", 0, 10, N_ ("joint compound")),
  SW_NUM ("skim_mm", "mm", 0, 20, N_ ("thickness of skim")),
  SW_NUM ("skim_kg_m2", "kg/m2", 0, 20, N_ ("skim plaster at that thickness")),
  SW_NUM ("skim_bag_kg", "kg", 1, 100, N_ ("a bag of skim plaster")),
  SW_NUM ("putty_kg_m2_mm", "kg/m2", 0, 20, N_ ("putty for each millimetre")),
  SW_NUM ("cornice_factor", "", 1, 2, N_ ("cornice bought for each metre")),
  SW_NUM ("cornice_length_mm", "mm", 500, 6000, N_ ("length of a cornice")),
  SW_NUM ("cornice_adhesive_kg_m", "kg/m", 0, 5, N_ ("cornice adhesive")),
  SW_NUM ("bead_length_mm", "mm", 500, 6000, N_ ("length of a corner bead")),
  SW_NUM ("tape_roll_m", "m", 1, 500, N_ ("a roll of tape")),
  SW_NUM ("screw_box", "", 1, 10000, N_ ("screws in a box")),
  SW_NUM ("fixing_box", "", 1, 10000, N_ ("fixings to ribs in a box")),
  SW_NUM ("packer_bag", "", 1, 10000, N_ ("packers in a bag")),
  SW_NUM ("compound_tub_kg", "kg", 1, 100, N_ ("a tub of joint compound")),
  SW_NUM ("adhesive_bag_kg", "kg", 1, 100, N_ ("a bag of cornice adhesive")),
  SW_NUM ("paint_tin_l", "l", 0.1, 100, N_ ("a tin of paint or primer")),
};

static const SwRuleKey hatches[] = {
  SW_NUM ("width_mm", "mm", 50, 3000, N_ ("across the voids")),
  SW_NUM ("length_mm", "mm", 50, 3000, N_ ("along the voids")),
  SW_FLAG ("trimmers", N_ ("needs trimmers and straddles a rib")),
};

static const SwRuleKey suspended[] = {
  SW_NUM ("drop_least_mm", "mm", 10, 2000, N_ ("least drop that lets a tile be lifted")),
  SW_NUM ("drop_good_mm", "mm", 10, 2000, N_ ("drop aimed at")),
  SW_NUM ("hanger_mm", "mm", 100, 3000, N_ ("hangers' centres along a runner")),
};

static const SwRuleKey room_heights[] = {
  SW_NUM ("height_mm", "mm", 1000, 10000, N_ ("least height")),
  SW_NUM ("reduced_mm", "mm", 1000, 10000, N_ ("least height over a part beyond the area that is asked for")),
};

static const SwRuleKey room_rules[] = {
  SW_NUM ("rib_share_percent", "%", 0, 100, N_ ("ribs over more than this share of the plan set the height")),
  SW_NUM ("projection_mm", "mm", 1000, 5000, N_ ("no rib or beam hangs lower")),
};

static const SwRuleTable tables[] = {
  SW_TABLE ("brandering.sizes", TRUE, N_ ("battens"), SW_ROW_WORD, batten_sizes),
  SW_TABLE ("brandering.spans", FALSE, N_ ("greatest spans of battens"), SW_ROW_WORD, batten_spans),
  SW_TABLE ("brandering.centres", TRUE, N_ ("centres of battens by board"), SW_ROW_WORD,
            batten_centres),
  SW_GROUP ("brandering.setout", TRUE, N_ ("set-out of battens"), batten_setout),
  SW_GROUP ("brandering.joists", FALSE, N_ ("ceiling joists where supports stand far apart"), batten_joists),
  SW_GROUP ("brandering.fixing", TRUE, N_ ("fixing battens to ribs"), batten_fixing),
  SW_TABLE ("timber.grades", TRUE, N_ ("timber grades"), SW_ROW_WORD, timber_grades),
  SW_GROUP ("timber.limits", TRUE, N_ ("design of battens"), timber_limits),
  SW_GROUP ("timber.withdrawal", TRUE, N_ ("withdrawal of screws and nails from timber"), timber_withdrawal),
  SW_GROUP ("timber.notches", TRUE, N_ ("notches and holes in timber bearers"), timber_notches),
  SW_GROUP ("steel.furring", TRUE, N_ ("steel furring"), steel_furring),
  SW_TABLE ("ceiling.deflection_classes", FALSE, N_ ("deflection classes of ceilings"),
            SW_ROW_OF ("class-1|class-2"), deflection_classes),
  SW_TABLE ("board.kinds", TRUE, N_ ("boards"), SW_ROW_WORD, boards),
  SW_GROUP ("board.sizes", TRUE, N_ ("sheet sizes"), board_sizes),
  SW_GROUP ("board.screws", TRUE, N_ ("screws and nails"), board_screws),
  SW_GROUP ("board.layout", TRUE, N_ ("laying boards"), board_layout),
  SW_TABLE ("board.limits", FALSE, N_ ("limits of boards"), SW_ROW_WORD, board_limits),
  SW_GROUP ("board.movement", TRUE, N_ ("movement joints"), board_movement),
  SW_GROUP ("board.takeoff", TRUE, N_ ("material for joints and finish"), board_takeoff),
  SW_TABLE ("hatch.sizes", TRUE, N_ ("access hatches"), SW_ROW_WORD, hatches),
  SW_GROUP ("ceiling.suspended", TRUE, N_ ("suspended grids"), suspended),
  SW_TABLE ("room.heights", FALSE, N_ ("least room heights"),
            SW_ROW_OF ("habitable|kitchen|passage|bathroom|laundry|assembly"), room_heights),
  SW_GROUP ("room.rules", FALSE, N_ ("how a room's height is measured"), room_rules),
};

const SwRuleSchemaPart sw_rules_schema_ceiling = { tables, G_N_ELEMENTS (tables) };
