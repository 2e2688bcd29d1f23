/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/records.h"
#include "base/text.h"
#include "base/tolerance.h"
#include <string.h>

/* One line a field: key, label, default and range. S is set to the struct that a block describes. */
#define AT(member) .offset = G_STRUCT_OFFSET (S, member)
#define BOOL(key, member, text, on) { key, text, SW_FIELD_BOOL, AT (member), .start = on, .high = 1 }
#define INT(key, member, text, from, lowest, highest) { key, text, SW_FIELD_INT, AT (member), .start = from, .low = lowest, .high = highest }
#define NUM(key, member, text, unit_, from, lowest, highest) \
  { key, text, SW_FIELD_NUMBER, unit_, AT (member), .start = from, .low = lowest, .high = highest }
#define MM(key, member, text, from, lowest, highest) NUM (key, member, text, SW_UNIT_MM, from, lowest, highest)
#define TEXT(key, member, text) { key, text, SW_FIELD_TEXT, AT (member) }
#define TEXT_AS(key, member, text, from) { key, text, SW_FIELD_TEXT, AT (member), .start_text = from }
#define DATE(key, member, text) { key, text, SW_FIELD_DATE, AT (member) }
#define WORD(key, member, text, words_, from) \
  { key, text, SW_FIELD_ENUM, AT (member), .start = from, .high = G_N_ELEMENTS (words_) - 2, .words = words_ }
#define REF(key, member, text, tables) { key, text, SW_FIELD_REF, AT (member), .refs = tables }
#define OWNER(key, member, text, tables) { key, text, SW_FIELD_REF, AT (member), .refs = tables, .flags = SW_FLAG_OWNER | SW_FLAG_REQUIRED }
#define POINT(key, member, text) { key, text, SW_FIELD_POINT, SW_UNIT_MM, AT (member), .flags = SW_FLAG_REQUIRED }
#define OUTLINE(key, member, text) \
  { key, text, SW_FIELD_LIST, SW_UNIT_MM, AT (member), .flags = SW_FLAG_REQUIRED | SW_FLAG_OUTLINE, .item = &sw_struct_point }
#define LIST(key, member, text, item_) { key, text, SW_FIELD_LIST, AT (member), .item = &item_ }
#define MONEY(key, member, text) { key, text, SW_FIELD_MONEY, AT (member) }
#define BIT(table) (1u << (table))
#define FAR SW_COORDINATE_MAX_MM
#define STRUCT(name, type, rows, short) const SwStruct name = { sizeof (type), G_N_ELEMENTS (rows), rows, short }

#define S SwPoint
static const SwField point_fields[] = { MM ("x", x, N_("x"), 0, -FAR, FAR), MM ("y", y, N_("y"), 0, -FAR, FAR) };
STRUCT (sw_struct_point, SwPoint, point_fields, TRUE);
#undef S

static const SwWord level_words[] = {
  { "void", N_("in the void") }, { "below", N_("below the ribs") }, { "topping", N_("in the topping") },
  { "floor", N_("above the floor") }, { "fall", N_("by the fall") }, { NULL, NULL },
};
static const SwWord body_level_words[] = {
  { "void", N_("in the void") }, { "below", N_("below the ribs") }, { "topping", N_("in the topping") },
  { "floor", N_("above the floor") }, { NULL, NULL },
};

#define S SwVertex
static const SwField vertex_fields[] = {
  POINT ("at", at, N_("Place")),
  WORD ("level", level, N_("Level given"), level_words, SW_LEVEL_VOID),
  MM ("z", z, N_("Level"), 0, -FAR, FAR),
};
STRUCT (sw_struct_vertex, SwVertex, vertex_fields, FALSE);
#undef S

static const SwWord member_words[] = {
  { "batten", N_("batten") }, { "primary", N_("primary") }, { "noggin", N_("noggin") }, { "trimmer", N_("trimmer") },
  { "perimeter", N_("perimeter batten") }, { "stud", N_("stud") }, { NULL, NULL },
};
#define S SwMember
static const SwField member_fields[] = {
  POINT ("from", from, N_("From")), POINT ("to", to, N_("To")), MM ("width", width, N_("Width"), 38, 1, 500),
  MM ("depth", depth, N_("Depth"), 38, 1, 500), MM ("top", top, N_("Top"), 0, -FAR, FAR),
  WORD ("kind", kind, N_("Kind"), member_words, SW_MEMBER_BATTEN),
};
STRUCT (sw_struct_member, SwMember, member_fields, FALSE);
#undef S

#define S SwPiece
static const SwField piece_fields[] = {
  INT ("piece", piece, N_("Piece"), 1, 0, 1e6), INT ("sheet", sheet, N_("Sheet"), 0, 0, 1e6),
  MM ("length", length, N_("Length"), 0, 0, 1e5), MM ("width", width, N_("Width"), 0, 0, 1e5), BOOL ("cut", cut, N_("Cut"), FALSE),
  BOOL ("locked", locked, N_("Locked"), FALSE),
};
STRUCT (sw_struct_piece, SwPiece, piece_fields, FALSE);
#undef S

#define S SwOddSheet
static const SwField odd_sheet_fields[] = {
  INT ("sheet", sheet, N_("Sheet"), 1, 0, 1e6), MM ("length", length, N_("Length"), 3000, 1, 1e5), MM ("width", width, N_("Width"), 1200, 1, 1e5),
};
STRUCT (sw_struct_odd_sheet, SwOddSheet, odd_sheet_fields, FALSE);
#undef S

#define S SwFacePiece
static const SwField face_piece_fields[] = {
  INT ("piece", piece, N_("Piece"), 1, 0, 1e6), INT ("sheet", sheet, N_("Sheet"), 0, 0, 1e6), MM ("length", length, N_("Length"), 0, 0, 1e5),
  MM ("width", width, N_("Width"), 0, 0, 1e5), BOOL ("cut", cut, N_("Cut"), FALSE), POINT ("from", from, N_("From")), POINT ("to", to, N_("To")),
  MM ("top", top, N_("Top"), 0, -FAR, FAR),
};
STRUCT (sw_struct_face_piece, SwFacePiece, face_piece_fields, FALSE);
#undef S

#define S SwCorner
static const SwField corner_fields[] = { INT ("piece", piece, N_("Piece"), 1, 0, 1e6), POINT ("at", at, N_("Place")) };
STRUCT (sw_struct_corner, SwCorner, corner_fields, FALSE);
#undef S

static const SwWord joint_words[] = { { "long", N_("long joint") }, { "end", N_("end joint") }, { "movement", N_("movement joint") }, { NULL, NULL } };
#define S SwJoint
static const SwField joint_fields[] = {
  POINT ("from", from, N_("From")), POINT ("to", to, N_("To")), WORD ("kind", kind, N_("Kind"), joint_words, SW_JOINT_LONG),
};
STRUCT (sw_struct_joint, SwJoint, joint_fields, FALSE);
#undef S

#define S SwFixing
static const SwField fixing_fields[] = {
  POINT ("at", at, N_("Place")), MM ("packer", packer, N_("Packer"), 0, -1000, 1000), INT ("rib", rib, N_("Rib"), 0, -1, 1e6),
};
STRUCT (sw_struct_fixing, SwFixing, fixing_fields, FALSE);
#undef S

#define S SwStrip
static const SwField strip_fields[] = {
  POINT ("from", from, N_("From")), POINT ("to", to, N_("To")), MM ("width", width, N_("Width"), 50, 0, 1e4),
};
STRUCT (sw_struct_strip, SwStrip, strip_fields, FALSE);
#undef S

/* In the order of SwCeilingMarkKind. */
static const SwWord mark_words[] = {
  { "no-deck", N_("no bay above") }, { "span", N_("span") }, { "stress", N_("stress") }, { "cantilever", N_("end stands over") },
  { "unsupported", N_("held by nothing") }, { "narrow-batten", N_("narrow batten") }, { "long-fixing", N_("longer fixing") }, { "hanger", N_("hanger") },
  { "light-cuts", N_("light cuts a batten") }, { "light-trimmed", N_("batten trimmed at a light") }, { "hatch-cuts", N_("hatch cuts battens") },
  { "joint-off-batten", N_("joint off a batten") }, { "joint-at-light", N_("joint at a light") }, { "joint-at-hatch", N_("joint at a hatch") },
  { "stagger", N_("joints too close") }, { "sliver", N_("sliver") }, { "wide-field", N_("long field") }, { "large-field", N_("large field") },
  { "lock-lost", N_("lock lost") }, { "shift", N_("shift of the battens") }, { "fixing-load", N_("load on a fixing") },
  { "field-unheld", N_("no ribs at a movement joint") }, { "field-blocked", N_("no place for a movement joint") },
  { "unknown-section", N_("profile not known") }, { "board-unheld", N_("board hangs on nothing") }, { NULL, NULL },
};
G_STATIC_ASSERT (G_N_ELEMENTS (mark_words) == SW_LAID_MARK_KINDS + 1);
#define S SwLaidMark
static const SwField laid_mark_fields[] = {
  POINT ("at", at, N_("Place")), MM ("value", value, N_("Found"), 0, -FAR, FAR), MM ("limit", limit, N_("Limit"), 0, -FAR, FAR),
  WORD ("kind", kind, N_("Kind"), mark_words, 0),
};
STRUCT (sw_struct_laid_mark, SwLaidMark, laid_mark_fields, FALSE);
#undef S

/* In the order of SwLengths. */
static const SwWord unit_words[] = { { "mm", N_("millimetres") }, { "ft-in", N_("feet and inches") }, { NULL, NULL } };

#define S SwJobInfo
static const SwField job_fields[] = {
  TEXT_AS ("name", name, N_("Name"), "New job"),
  TEXT ("number", number, N_("Job number")),
  { "rule_set", N_("Rule set"), SW_FIELD_TEXT, AT (rule_set), .start_text = "south-africa", .flags = SW_FLAG_RULE_SET },
  TEXT_AS ("currency", currency, N_("Currency"), "R"),
  WORD ("units", units, N_("Lengths shown in"), unit_words, SW_LENGTHS_MM),
  TEXT ("revision", revision, N_("Revision")),
  TEXT ("prepared_by", prepared_by, N_("Prepared by")),
  TEXT ("datum_name", datum_name, N_("Site datum")),
  DATE ("pour_date", pour_date, N_("Date of the pour")),
  TEXT ("note", note, N_("Note")),
  { "rule_overrides", N_("Changed rule values"), SW_FIELD_TEXT, AT (rule_overrides), .flags = SW_FLAG_HIDDEN },
  MM ("floor_level_mm", floor_level, N_("Finished floor above site datum"), 0, -FAR, FAR),
  MM ("level_line_mm", level_line, N_("Level line above finished floor"), 1000, 0, 5000),
  MM ("soffit_level_mm", soffit_level, N_("Soffit above finished floor"), 2700, 500, 50000),
};
#undef S

#define S SwGridline
static const SwField gridline_fields[] = { POINT ("from", from, N_("From")), POINT ("to", to, N_("To")) };
#undef S

static const SwWord rib_face_words[] = { { "concrete", N_("bare concrete") }, { "steel", N_("steel flange") }, { "board", N_("board left in") }, { NULL, NULL } };
static const SwWord tendon_words[] = { { "unknown", N_("unknown") }, { "no", N_("no") }, { "yes", N_("yes") }, { NULL, NULL } };
#define S SwProfile
static const SwField profile_fields[] = {
  TEXT ("name", name, N_("Name")),
  MM ("pitch_mm", pitch, N_("Pitch"), 600, 100, 3000),
  MM ("mouth_mm", mouth, N_("Width at the soffit"), 500, 20, 3000),
  MM ("crown_mm", crown, N_("Width at the crown"), 400, 20, 3000),
  MM ("depth_mm", depth, N_("Depth of the void"), 250, 20, 2000),
  MM ("sheet_mm", sheet, N_("Sheet thickness"), 0.8, 0.3, 6),
  MM ("topping_mm", topping, N_("Topping"), 75, 0, 1000),
  MM ("plate_spacing_mm", plate_spacing, N_("Stiffener plates every"), 1500, 0, 20000),
  WORD ("rib_face", rib_face, N_("Underside of the ribs"), rib_face_words, SW_RIB_FACE_CONCRETE),
  MM ("cover_mm", cover, N_("Cover to links"), 25, 0, 200),
  MM ("link_mm", link, N_("Link diameter"), 8, 0, 40),
  MM ("bar_mm", bar, N_("Bar diameter"), 16, 0, 60),
  WORD ("tendons", tendons, N_("Tendons"), tendon_words, SW_TENDONS_UNKNOWN),
};
#undef S

#define S SwBay
static const SwField bay_fields[] = {
  TEXT ("name", name, N_("Name")),
  OUTLINE ("outline", outline, N_("Outline")),
  OWNER ("profile", profile, N_("Profile"), BIT (SW_TABLE_PROFILE)),
  NUM ("direction_deg", direction, N_("Direction of the voids"), SW_UNIT_DEGREE, 0, -360, 360),
  MM ("first_rib_mm", first_rib, N_("First rib from the side"), 0, -3000, 3000),
  MM ("level_mm", level, N_("Soffit above the job's soffit"), 0, -20000, 20000),
  NUM ("slope_x", slope_x, N_("Rise along x, mm per m"), SW_UNIT_NONE, 0, -100, 100),
  NUM ("slope_y", slope_y, N_("Rise along y, mm per m"), SW_UNIT_NONE, 0, -100, 100),
  MM ("closure_start_mm", closure_start, N_("Closure from the start"), 150, 0, 5000),
  MM ("closure_end_mm", closure_end, N_("Closure from the end"), 150, 0, 5000),
  MM ("plate_first_mm", plate_first, N_("First plate from the closure"), 1500, 0, 20000),
  MM ("plate_spacing_mm", plate_spacing, N_("Plates every (0: profile)"), 0, 0, 20000),
  NUM ("allowance_kpa", allowance, N_("Suspended load allowed"), SW_UNIT_KPA, 0, 0, 10),
  INT ("first_void", first_void, N_("Number of the first void"), 1, -9999, 9999),
  INT ("first_plate", first_plate, N_("Number of the first plate"), 1, -9999, 9999),
  BOOL ("backwards", backwards, N_("Numbers count down"), FALSE),
};
#undef S

#define S SwPlate
static const SwField plate_fields[] = {
  OWNER ("bay", bay, N_("Bay"), BIT (SW_TABLE_BAY)),
  INT ("void", void_number, N_("Void"), 1, -99999, 99999),
  INT ("plate", plate_number, N_("Plate"), 1, -99999, 99999),
  TEXT ("released_by", released_by, N_("Released by (engineer)")),
  DATE ("released_on", released_on, N_("Released on")),
  TEXT ("reference", reference, N_("Reference of the release")),
  DATE ("out_on", out_on, N_("Taken out on")),
};
#undef S

#define S SwOpening
static const SwField opening_fields[] = { OUTLINE ("outline", outline, N_("Outline")), TEXT ("note", note, N_("Note")) };
#undef S
static const SwWord column_words[] = { { "column", N_("column") }, { "shaft", N_("shaft") }, { NULL, NULL } };
#define S SwColumn
static const SwField column_fields[] = { OUTLINE ("outline", outline, N_("Outline")), WORD ("kind", kind, N_("Kind"), column_words, SW_COLUMN_COLUMN) };
#undef S
#define S SwBeam
static const SwField beam_fields[] = {
  POINT ("from", from, N_("From")), POINT ("to", to, N_("To")), MM ("width_mm", width, N_("Width"), 250, 10, 5000),
  MM ("drop_mm", drop, N_("Depth below the soffit"), 200, 0, 5000),
};
#undef S
#define S SwSolidZone
static const SwField solid_fields[] = { OUTLINE ("outline", outline, N_("Outline")), TEXT ("note", note, N_("Note")) };
#undef S

static const SwWord use_words[] = { { "habitable", N_("habitable") }, { "service", N_("service") }, { "assembly", N_("assembly") }, { NULL, NULL } };
static const SwWord finish_words[] = { { "closed", N_("closed") }, { "grid", N_("suspended grid") }, { "exposed", N_("exposed") }, { NULL, NULL } };
static const SwWord direction_words[] = { { "across", N_("across the ribs") }, { "along", N_("along the ribs") }, { NULL, NULL } };
static const SwWord board_words[] = {
  { "gypsum", N_("gypsum") }, { "fibre-cement", N_("fibre-cement") }, { "fire", N_("fire board") }, { "moisture", N_("moisture board") }, { NULL, NULL },
};
static const SwWord edge_words[] = { { "cornice", N_("cornice") }, { "shadow", N_("shadow line") }, { "plain", N_("plain") }, { NULL, NULL } };
static const SwWord lights_words[] = { { "move", N_("the light moves") }, { "trim", N_("the batten is trimmed") }, { NULL, NULL } };
static const SwWord joints_words[] = {
  { "skim", N_("taped and skimmed") }, { "tape", N_("taped and filled") }, { "strip", N_("cover strips") }, { NULL, NULL },
};
static const SwWord batten_material_words[] = { { "timber", N_("timber") }, { "steel", N_("steel profile") }, { NULL, NULL } };
static const SwWord grade_words[] = {
  { "rule", N_("as the rule set has it") }, { "s5", "S5" }, { "s7", "S7" }, { "s10", "S10" }, { "c16", "C16" }, { "c24", "C24" }, { NULL, NULL },
};
static const SwWord sheet_words[] = { { "chosen", N_("of the size below") }, { "cheapest", N_("cheapest on the list") }, { NULL, NULL } };
#define S SwRoom
static const SwField room_fields[] = {
  TEXT ("name", name, N_("Name")),
  OUTLINE ("outline", outline, N_("Outline")),
  WORD ("use", use, N_("Use"), use_words, SW_USE_HABITABLE),
  WORD ("finish", finish, N_("Finish"), finish_words, SW_FINISH_CLOSED),
  MM ("floor_offset_mm", floor_offset, N_("Floor above the job's floor"), 0, -20000, 20000),
  WORD ("battens", direction, N_("Battens run"), direction_words, SW_DIRECTION_ACROSS),
  BOOL ("battens_least", battens_least, N_("Turn the battens where that costs least"), FALSE),
  MM ("batten_width_mm", batten_width, N_("Batten width"), 38, 10, 200),
  MM ("batten_depth_mm", batten_depth, N_("Batten depth"), 38, 10, 300),
  WORD ("batten_material", material, N_("Battens are of"), batten_material_words, SW_BATTENS_TIMBER),
  WORD ("batten_grade", grade, N_("Grade of the timber"), grade_words, 0),
  MM ("batten_centres_mm", batten_centres, N_("Batten centres (0: rule)"), 0, 0, 2000),
  MM ("batten_shift_mm", batten_shift, N_("Shift of the battens"), 0, 0, 2000),
  MM ("primary_depth_mm", primary_depth, N_("Primary depth"), 50, 10, 300),
  MM ("primary_centres_mm", primary_centres, N_("Primary centres (0: rule)"), 0, 0, 3000),
  WORD ("board", board_kind, N_("Board"), board_words, SW_BOARD_GYPSUM),
  MM ("board_thickness_mm", board_thickness, N_("Board thickness"), 9.5, 3, 50),
  WORD ("sheet", sheet_choice, N_("Sheet"), sheet_words, SW_SHEET_CHOSEN),
  MM ("sheet_most_mm", sheet_most, N_("Longest sheet that stair and door pass (0: any)"), 0, 0, 6000),
  MM ("board_length_mm", board_length, N_("Sheet length"), 3000, 300, 6000),
  MM ("board_width_mm", board_width, N_("Sheet width"), 1200, 200, 3000),
  BOOL ("boards_turned", boards_turned, N_("Sheets along the battens"), FALSE),
  WORD ("joints", joints, N_("Joints of the boards"), joints_words, SW_BOARD_JOINTS_SKIM),
  WORD ("edge", edge, N_("Edge"), edge_words, SW_EDGE_CORNICE),
  WORD ("lights", lights, N_("Where a light meets a batten"), lights_words, SW_LIGHTS_MOVE),
  BOOL ("wet", wet, N_("Wet room"), FALSE),
  NUM ("fire_min", fire_minutes, N_("Fire rating asked of the ceiling"), SW_UNIT_MINUTE, 0, 0, 480),
  MM ("insulation_mm", insulation, N_("Insulation"), 0, 0, 500),
  MM ("grid_drop_mm", grid_drop, N_("Suspended grid below soffit"), 200, 0, 5000),
  MM ("packing_mm", packing, N_("Packing at the lowest rib"), 0, 0, 500),
};
#undef S

static const SwWord frame_words[] = { { "hung", N_("hung from the ribs") }, { "framed", N_("framed from wall to face") }, { NULL, NULL } };
#define S SwBulkhead
static const SwField bulkhead_fields[] = {
  OWNER ("room", room, N_("Room"), BIT (SW_TABLE_ROOM)), OUTLINE ("outline", outline, N_("Outline")),
  MM ("drop_mm", drop, N_("Below the room's ceiling"), 300, 30, 5000), WORD ("frame", frame, N_("Frame"), frame_words, SW_BULKHEAD_HUNG),
  TEXT ("build_up", build_up, N_("Build-up")), TEXT ("note", note, N_("Note")),
};
#undef S

static const SwWord wall_words[] = {
  { "brick", N_("brick") }, { "block", N_("block") }, { "concrete", N_("concrete") }, { "stud", N_("stud") }, { "glass", N_("glass") }, { NULL, NULL },
};
static const SwWord head_words[] = {
  { "ceiling", N_("at the ceiling") }, { "rib", N_("at the rib soffit") }, { "crown", N_("sealed to the crown") }, { "slab", N_("to the slab") }, { NULL, NULL },
};
#define S SwWall
static const SwField wall_fields[] = {
  POINT ("from", from, N_("From")), POINT ("to", to, N_("To")), MM ("thickness_mm", thickness, N_("Thickness"), 110, 10, 2000),
  WORD ("material", material, N_("Material"), wall_words, SW_WALL_BRICK), WORD ("head", head, N_("Head"), head_words, SW_HEAD_RIB),
  BOOL ("separating", separating, N_("Separating"), FALSE),
  NUM ("fire_min", fire_minutes, N_("Fire rating"), SW_UNIT_MINUTE, 0, 0, 480), NUM ("sound_db", sound_db, N_("Sound rating"), SW_UNIT_DB, 0, 0, 90),
};
#undef S

static const SwWord fitting_words[] = {
  { "box", N_("draw box") }, { "board", N_("distribution board") }, { "stack", N_("stack") }, { "gully", N_("gully") }, { "exit", N_("exit") },
  { "tee", N_("tee") }, { "bend", N_("bend") }, { "socket", N_("socket") }, { "eye", N_("cleaning eye") }, { "valve", N_("valve") },
  { "hanger", N_("hanger") }, { "driver", N_("driver") }, { "other", N_("other body") }, { NULL, NULL },
};
#define S SwFitting
static const SwField fitting_fields[] = {
  TEXT ("name", name, N_("Name")), WORD ("kind", kind, N_("Kind"), fitting_words, SW_FITTING_BOX), POINT ("at", at, N_("Place")),
  WORD ("level", level, N_("Level given"), body_level_words, SW_LEVEL_VOID), MM ("z_mm", z, N_("Level"), 60, -FAR, FAR),
  MM ("length_mm", length, N_("Length or diameter"), 100, 1, 5000), MM ("width_mm", width, N_("Width (0: round)"), 100, 0, 5000),
  MM ("height_mm", height, N_("Height"), 50, 1, 20000), NUM ("turn_deg", turn, N_("Turn"), SW_UNIT_DEGREE, 0, -360, 360),
  REF ("run", run, N_("On run"), BIT (SW_TABLE_RUN)), BOOL ("access", access, N_("Needs access"), FALSE),
};
#undef S

#define S SwDropIn
static const SwField drop_in_fields[] = {
  TEXT ("fixture", fixture, N_("Fixture")), POINT ("at", at, N_("Place")), MM ("hole_mm", hole, N_("Hole"), 150, 10, 1000),
  NUM ("units", units, N_("Discharge units"), SW_UNIT_NONE, 0, 0, 1000), MM ("drop_mm", drop, N_("Outlet below the crown"), 60, 0, 2000),
};
#undef S

#define S SwCircuit
static const SwField circuit_fields[] = {
  TEXT ("name", name, N_("Name")), TEXT ("protection", protection, N_("Protection")),
  NUM ("volts", volts, N_("Voltage"), SW_UNIT_VOLT, 230, 1, 1000), NUM ("amps", amps, N_("Design current"), SW_UNIT_AMPERE, 10, 0, 1000),
  NUM ("cable_mm2", cable_mm2, N_("Conductor, mm²"), SW_UNIT_NONE, 2.5, 0, 400), INT ("phases", phases, N_("Phases"), 1, 1, 3),
  INT ("cores", cores, N_("Cables in the conduit"), 3, 0, 100),
};
#undef S

static const SwWord service_words[] = {
  { "waste", N_("waste") }, { "soil", N_("soil") }, { "rainwater", N_("rainwater") }, { "condensate", N_("condensate") }, { "cold", N_("cold water") },
  { "hot", N_("hot water") }, { "power", N_("power") }, { "lighting", N_("lighting") }, { "data", N_("data") }, { "fire-alarm", N_("fire alarm") },
  { "sprinkler", N_("sprinkler") }, { "refrigerant", N_("refrigerant") }, { "duct", N_("duct") }, { "gas", N_("gas") }, { NULL, NULL },
};
static const SwWord material_words[] = {
  { "pvc", N_("PVC") }, { "steel", N_("steel") }, { "copper", N_("copper") }, { "pex", N_("PE-X") }, { "multilayer", N_("multilayer") },
  { "pp", N_("polypropylene") }, { "cast-iron", N_("cast iron") }, { "cpvc", N_("CPVC") }, { "pliable", N_("pliable conduit") }, { "brass", N_("brass") }, { NULL, NULL },
};
static const SwWord stage_words[] = { { "first-fix", N_("first fix") }, { "cast-in", N_("cast in") }, { "existing", N_("existing") }, { NULL, NULL } };
#define RUN_ENDS (BIT (SW_TABLE_FITTING) | BIT (SW_TABLE_DROP_IN) | BIT (SW_TABLE_DROP))
#define S SwRun
static const SwField run_fields[] = {
  TEXT ("name", name, N_("Name")), WORD ("service", service, N_("Service"), service_words, SW_SERVICE_POWER),
  WORD ("material", material, N_("Material"), material_words, SW_MATERIAL_PVC), TEXT ("product", product, N_("Product")), MM ("od_mm", od, N_("Outside diameter"), 20, 1, 2000),
  MM ("bore_mm", bore, N_("Bore (0: rule)"), 0, 0, 2000), MM ("socket_mm", socket, N_("Socket (0: rule)"), 0, 0, 2000),
  MM ("insulation_mm", insulation, N_("Insulation"), 0, 0, 200), MM ("clearance_mm", clearance, N_("Clearance (0: rule)"), 0, 0, 500),
  MM ("bend_radius_mm", bend_radius, N_("Bend radius (0: rule)"), 0, 0, 5000), NUM ("fall", fall, N_("Fall"), SW_UNIT_FALL, 0, 0, 1000),
  { "vertices", N_("Way"), SW_FIELD_LIST, AT (vertices), .flags = SW_FLAG_REQUIRED, .item = &sw_struct_vertex },
  REF ("start", start, N_("Starts at"), RUN_ENDS), REF ("end", end, N_("Ends at"), RUN_ENDS), REF ("circuit", circuit, N_("Circuit"), BIT (SW_TABLE_CIRCUIT)),
  TEXT ("contents", contents, N_("Contents")), NUM ("units", loading, N_("Units carried"), SW_UNIT_NONE, 0, 0, 10000),
  WORD ("stage", stage, N_("Stage"), stage_words, SW_STAGE_FIRST_FIX),
};
#undef S

static const SwWord drop_words[] = { { "switch", N_("switch") }, { "socket", N_("socket outlet") }, { "board", N_("distribution board") }, { "tap", N_("tap") }, { "other", N_("other") }, { NULL, NULL } };
#define S SwDrop
static const SwField drop_fields[] = {
  OWNER ("wall", wall, N_("Wall"), BIT (SW_TABLE_WALL)), WORD ("kind", kind, N_("Kind"), drop_words, SW_DROP_SWITCH),
  MM ("along_mm", along, N_("Along the wall"), 0, 0, FAR), MM ("height_mm", height, N_("Above the floor"), 1200, 0, 20000),
  MM ("box_depth_mm", box_depth, N_("Box depth"), 47, 0, 500), MM ("chase_depth_mm", chase_depth, N_("Chase depth"), 25, 0, 500),
  NUM ("units", units, N_("Loading units of a tap"), SW_UNIT_NONE, 0, 0, 1000),
  REF ("circuit", circuit, N_("Circuit"), BIT (SW_TABLE_CIRCUIT)),
};
#undef S

#define S SwLight
static const SwField light_fields[] = {
  TEXT ("name", name, N_("Name")), POINT ("at", at, N_("Place")), MM ("cut_out_mm", cut_out, N_("Cut-out"), 100, 10, 1000),
  MM ("body_mm", body, N_("Body"), 96, 10, 1000), MM ("recess_mm", recess, N_("Recess above the ceiling"), 90, 1, 1000),
  MM ("driver_length_mm", driver_length, N_("Driver length"), 120, 0, 1000), MM ("driver_width_mm", driver_width, N_("Driver width"), 45, 0, 1000),
  MM ("driver_height_mm", driver_height, N_("Driver height"), 30, 0, 500), NUM ("watts", watts, N_("Power"), SW_UNIT_WATT, 9, 0, 2000),
  NUM ("lumens", lumens, N_("Light output"), SW_UNIT_LUMEN, 800, 0, 100000), MM ("side_clearance_mm", side_clearance, N_("Side clearance (0: rule)"), 0, 0, 1000),
  MM ("top_clearance_mm", top_clearance, N_("Top clearance (0: rule)"), 0, 0, 1000), BOOL ("hood", hood, N_("Fire hood"), FALSE),
  BOOL ("trims", trims, N_("Batten in its way is trimmed"), FALSE),
  REF ("circuit", circuit, N_("Circuit"), BIT (SW_TABLE_CIRCUIT)),
};
#undef S

#define S SwHatch
static const SwField hatch_fields[] = {
  POINT ("at", at, N_("Place")), MM ("length_mm", length, N_("Length"), 600, 50, 3000), MM ("width_mm", width, N_("Width"), 350, 50, 3000),
  NUM ("turn_deg", turn, N_("Turn"), SW_UNIT_DEGREE, 0, -360, 360),
};
#undef S

static const SwWord through_words[] = {
  { "rib", N_("rib") }, { "closure", N_("closure") }, { "solid", N_("solid zone") }, { "beam", N_("downstand beam") }, { "wall", N_("wall") }, { "topping", N_("topping") }, { NULL, NULL },
};
static const SwWord answer_words[] = {
  { "open", N_("not asked") }, { "asked", N_("asked") }, { "allowed", N_("allowed") }, { "conditions", N_("allowed with conditions") }, { "refused", N_("refused") }, { NULL, NULL },
};
#define S SwSleeve
static const SwField sleeve_fields[] = {
  POINT ("from", from, N_("From")), POINT ("to", to, N_("To")), WORD ("through", through, N_("Through"), through_words, SW_THROUGH_RIB),
  MM ("z_mm", z, N_("Axis above the soffit"), 100, -FAR, FAR), MM ("diameter_mm", diameter, N_("Hole"), 60, 5, 1000), REF ("run", run, N_("For run"), BIT (SW_TABLE_RUN)),
  BOOL ("cast_in", cast_in, N_("Cast in"), FALSE), WORD ("answer", answer, N_("Engineer's answer"), answer_words, SW_ANSWER_OPEN),
  DATE ("asked_on", asked_on, N_("Asked on")), TEXT ("answered_by", answered_by, N_("Answered by")), DATE ("answered_on", answered_on, N_("Answered on")),
  TEXT ("reference", reference, N_("Reference")), TEXT ("conditions", conditions, N_("Conditions")),
};
#undef S

static const SwWord measure_words[] = {
  { "rib", N_("rib line") }, { "level", N_("soffit level") }, { "plate", N_("plate") }, { "depth", N_("void depth") }, { "length", N_("wall length") }, { "diagonal", N_("diagonal") },
  { "edge", N_("rib edge") }, { NULL, NULL },
};
#define S SwMeasure
static const SwField measure_fields[] = {
  OWNER ("of", of, N_("Bay or room"), BIT (SW_TABLE_BAY) | BIT (SW_TABLE_ROOM)), WORD ("kind", kind, N_("Kind"), measure_words, SW_MEASURE_RIB),
  INT ("number", number, N_("Number"), 0, -99999, 99999), INT ("second", second, N_("Second number"), 0, -99999, 99999),
  { "at", N_("Place"), SW_FIELD_POINT, SW_UNIT_MM, AT (at) }, MM ("value_mm", value, N_("Measured"), 0, -FAR, FAR),
  TEXT ("by", by, N_("Measured by")), DATE ("on", on, N_("Measured on")), TEXT ("note", note, N_("Note")),
};
#undef S

#define S SwUnderlay
static const SwField underlay_fields[] = {
  TEXT ("file", file, N_("File")), { "sha256", N_("Check sum"), SW_FIELD_TEXT, AT (sha256), .flags = SW_FLAG_HIDDEN }, POINT ("origin", origin, N_("Top left corner")),
  NUM ("scale", scale, N_("mm per unit"), SW_UNIT_NONE, 1, 1e-6, 1e6), NUM ("turn_deg", turn, N_("Turn"), SW_UNIT_DEGREE, 0, -360, 360),
  NUM ("opacity", opacity, N_("Opacity"), SW_UNIT_PERCENT, 50, 0, 100), BOOL ("shown", shown, N_("Shown"), TRUE),
};
#undef S

#define S SwLayout
static const SwField layout_fields[] = {
  OWNER ("room", room, N_("Room"), BIT (SW_TABLE_ROOM)), { "inputs", N_("Hash of the inputs"), SW_FIELD_TEXT, AT (inputs), .flags = SW_FLAG_HIDDEN },
  LIST ("members", members, N_("Battens"), sw_struct_member), LIST ("pieces", pieces, N_("Boards"), sw_struct_piece),
  LIST ("corners", corners, N_("Corners of boards"), sw_struct_corner), LIST ("joints", joints, N_("Joints"), sw_struct_joint),
  LIST ("fixings", fixings, N_("Fixings"), sw_struct_fixing), LIST ("strips", strips, N_("No-screw strips"), sw_struct_strip),
  LIST ("sheets", sheets, N_("Sheets of other sizes"), sw_struct_odd_sheet), LIST ("faces", faces, N_("Faces of bulkheads"), sw_struct_face_piece),
  LIST ("marks", marks, N_("What the layout could not mend"), sw_struct_laid_mark),
};
#undef S

static const SwWord hold_words[] = {
  { "survey", N_("survey") }, { "soil-test", N_("soil and waste test") }, { "water-test", N_("water pressure test") }, { "conduit", N_("conduit") }, { "cables", N_("cables") },
  { "photographs", N_("photographs") }, { "close", N_("permission to close") }, { "battens", N_("battens") }, { "boards", N_("boards") }, { "second-fix", N_("second fix") }, { NULL, NULL },
};
static const SwWord result_words[] = { { "open", N_("open") }, { "passed", N_("passed") }, { "failed", N_("failed") }, { NULL, NULL } };
#define S SwHoldPoint
static const SwField hold_fields[] = {
  OWNER ("room", room, N_("Room"), BIT (SW_TABLE_ROOM)), WORD ("kind", kind, N_("Hold point"), hold_words, SW_HOLD_SURVEY),
  WORD ("result", result, N_("Result"), result_words, SW_RESULT_OPEN), TEXT ("by", by, N_("Name")), DATE ("on", on, N_("Date")), TEXT ("note", note, N_("Note")),
};
#undef S

/* In the order of SwWetUse. */
static const SwWord wet_words[] = { { "as-kind", N_("as boards of its kind") }, { "no", N_("no") }, { "yes", N_("yes") }, { NULL, NULL } };

#define S SwPrice
static const SwField price_fields[] = {
  TEXT ("description", description, N_("Description")), TEXT ("unit", unit, N_("Unit")), TEXT ("supplier", supplier, N_("Supplier")),
  MONEY ("material", material, N_("Material")), MONEY ("labour", labour, N_("Labour")), NUM ("waste", waste, N_("Waste"), SW_UNIT_PERCENT, 0, 0, 100),
  MM ("length_mm", length, N_("Stock length"), 0, 0, 500000), MM ("width_mm", width, N_("Stock width"), 0, 0, 20000),
  MM ("centres_mm", centres, N_("Greatest batten centres"), 0, 0, 5000), MM ("field_mm", field, N_("Greatest side without movement joint"), 0, 0, 100000),
  WORD ("wet", wet, N_("For wet rooms"), wet_words, SW_WET_AS_KIND), NUM ("fire_min", fire_minutes, N_("Fire rating"), SW_UNIT_MINUTE, 0, 0, 480),
  NUM ("lead_days", lead_days, N_("Lead time in days (0: not known)"), SW_UNIT_NONE, 0, 0, 730),
  NUM ("inertia_mm4", inertia, N_("Second moment of area of a steel profile in mm⁴ (0: not known)"), SW_UNIT_NONE, 0, 0, 1e8),
};
#undef S

#define TYPE(type, rows, key, column, label, prefix) { { sizeof (type), G_N_ELEMENTS (rows), rows, FALSE }, key, column, label, prefix }
static const SwType types[SW_N_TABLES] = {
  [SW_TABLE_JOB] = TYPE (SwJobInfo, job_fields, "job", "job", N_("job"), "J"),
  [SW_TABLE_GRIDLINE] = TYPE (SwGridline, gridline_fields, "grid_lines", "grid_line", N_("grid line"), "G"),
  [SW_TABLE_PROFILE] = TYPE (SwProfile, profile_fields, "profiles", "profile", N_("profile"), "profile-"),
  [SW_TABLE_BAY] = TYPE (SwBay, bay_fields, "bays", "bay", N_("bay"), "bay-"),
  [SW_TABLE_PLATE] = TYPE (SwPlate, plate_fields, "plates", "plate", N_("stiffener plate"), "PL"),
  [SW_TABLE_OPENING] = TYPE (SwOpening, opening_fields, "openings", "opening", N_("opening"), "O"),
  [SW_TABLE_COLUMN] = TYPE (SwColumn, column_fields, "columns", "column", N_("column or shaft"), "C"),
  [SW_TABLE_BEAM] = TYPE (SwBeam, beam_fields, "beams", "beam", N_("downstand beam"), "DB"),
  [SW_TABLE_SOLID] = TYPE (SwSolidZone, solid_fields, "solid_zones", "solid_zone", N_("solid zone"), "SZ"),
  [SW_TABLE_ROOM] = TYPE (SwRoom, room_fields, "rooms", "room", N_("room"), "room-"),
  [SW_TABLE_WALL] = TYPE (SwWall, wall_fields, "walls", "wall", N_("wall"), "W"),
  [SW_TABLE_FITTING] = TYPE (SwFitting, fitting_fields, "fittings", "fitting", N_("fitting"), "F"),
  [SW_TABLE_DROP_IN] = TYPE (SwDropIn, drop_in_fields, "drop_ins", "drop_in", N_("drop-in"), "DI"),
  [SW_TABLE_CIRCUIT] = TYPE (SwCircuit, circuit_fields, "circuits", "circuit", N_("circuit"), "CCT"),
  [SW_TABLE_RUN] = TYPE (SwRun, run_fields, "runs", "run", N_("run"), "R"),
  [SW_TABLE_DROP] = TYPE (SwDrop, drop_fields, "drops", "wall_drop", N_("drop"), "D"),
  [SW_TABLE_LIGHT] = TYPE (SwLight, light_fields, "lights", "light", N_("downlight"), "L"),
  [SW_TABLE_HATCH] = TYPE (SwHatch, hatch_fields, "hatches", "hatch", N_("hatch"), "H"),
  [SW_TABLE_SLEEVE] = TYPE (SwSleeve, sleeve_fields, "sleeves", "sleeve", N_("sleeve"), "S"),
  [SW_TABLE_MEASURE] = TYPE (SwMeasure, measure_fields, "measures", "measure", N_("measurement"), "M"),
  [SW_TABLE_UNDERLAY] = TYPE (SwUnderlay, underlay_fields, "underlays", "underlay", N_("underlay"), "U"),
  [SW_TABLE_LAYOUT] = TYPE (SwLayout, layout_fields, "layouts", "layout", N_("ceiling layout"), "LAY"),
  [SW_TABLE_HOLD_POINT] = TYPE (SwHoldPoint, hold_fields, "hold_points", "hold_point", N_("hold point"), "HP"),
  [SW_TABLE_PRICE] = TYPE (SwPrice, price_fields, "prices", "price", N_("price"), "P"),
  [SW_TABLE_BULKHEAD] = TYPE (SwBulkhead, bulkhead_fields, "bulkheads", "bulkhead", N_("bulkhead"), "BH"),
};

const SwType *
sw_type_get (SwTable table)
{
  g_assert ((int) table >= 0 && table < SW_N_TABLES);
  return &types[table];
}

const SwField *
sw_struct_field (const SwStruct *kind, const char *key)
{
  for (guint i = 0; i < kind->n_fields; i++)
    if (strcmp (kind->fields[i].key, key) == 0)
      return &kind->fields[i];
  return NULL;
}

SwTable
sw_table_from_key (const char *key)
{
  for (SwTable table = 0; table < SW_N_TABLES; table++)
    if (strcmp (types[table].key, key) == 0)
      return table;
  return SW_N_TABLES;
}
