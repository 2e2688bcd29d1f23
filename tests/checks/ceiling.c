/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Ceilings and lights. The soffit lies 2700 above the floor, battens are 38 × 38 below it, boards 9.5. Limits are the rule
 * set's: 5 mm from batten and board; a joint bears 18 on each side; a light 10 from concrete, 25 from plates and services,
 * its cut-out 150 from walls, 50 (13 at least: NEC 410.116) from battens. */
#include "tiny.h"

#define V(x, y, z) "{'at': [" #x "," #y "], 'z': " #z "}"
#define BELOW(x, y, z) "{'at': [" #x "," #y "], 'level': 'below', 'z': " #z "}"
#define OUTLINE "'outline': [[0,0],[6000,0],[6000,4800],[0,4800]]"
#define ROOM(more) "'rooms': [{'id': 'hall', " OUTLINE more "}]"
#define CONDUIT(od, vertices) "'runs': [{'id': 'R1', 'service': 'power', 'od_mm': " #od ", 'vertices': [" vertices "]}]"
#define CROSSING(od, x) CONDUIT (od, BELOW (x, 300, 4) "," BELOW (x, 900, 4))

/* One batten across the ribs over x 1000, and what else the text says. */
#define LAYOUT(more) "'layouts': [{'room': 'hall', 'members': [{'from': [1000,0], 'to': [1000,4800]}]" more "}]"

static const TinyCase depth[] = {
  /* couplers 22.5, 28 and 36.5: a 38 batten takes 20 and 25, not 32 (derived) */
  TINY_NONE ("conduit-20", "ceiling-depth", CROSSING (20, 2000) "," ROOM ("")),
  TINY_NONE ("conduit-25", "ceiling-depth", CROSSING (25, 2000) "," ROOM ("")),
  TINY_STOP ("conduit-32", "ceiling-depth", "deep", NAN, CROSSING (32, 2000) "," ROOM ("")),
  TINY_NONE ("conduit-32-in-50", "ceiling-depth", CROSSING (32, 2000) "," ROOM (", 'batten_depth_mm': 50")),
  TINY_NONE ("exposed", "ceiling-depth", CROSSING (32, 2000) "," ROOM (", 'finish': 'exposed'")),
  TINY_NONE ("below-the-ceiling", "ceiling-depth", CONDUIT (32, BELOW (2000, 300, 60) "," BELOW (2000, 900, 60)) "," ROOM ("")),
  TINY_NONE ("drop-through-it", "ceiling-depth", CONDUIT (32, V (2000, 300, 60) ",{'at': [2000,300], 'level': 'floor', 'z': 1200}") "," ROOM ("")),
  TINY_STOP ("box", "ceiling-depth", "deep", 13, "'fittings': [{'kind': 'box', 'at': [2000,300], 'level': 'below', 'z_mm': -4}]," ROOM ("")),
  TINY_NONE ("box-in-the-void", "ceiling-depth", "'fittings': [{'kind': 'box', 'at': [2000,300], 'z_mm': 60}]," ROOM ("")),
  TINY_NONE ("another-room", "ceiling-depth", CROSSING (32, 2000) ",'rooms': [{'outline': [[3000,0],[6000,0],[6000,4800],[3000,4800]]}]"),

  TINY_FIX ("near", "batten", "near", 1, "'runs': [{'service': 'power', 'socket_mm': 20, 'vertices': [" BELOW (1033, 300, 4) "," BELOW (1033, 900, 4) "]}]," ROOM ("") "," LAYOUT ("")),
  TINY_NONE ("clear", "batten", "'runs': [{'service': 'power', 'socket_mm': 20, 'vertices': [" BELOW (1034, 300, 4) "," BELOW (1034, 900, 4) "]}]," ROOM ("") "," LAYOUT ("")),
  TINY_STOP ("hit", "batten", "hit", NAN, CROSSING (20, 1000) "," ROOM ("") "," LAYOUT ("")),
};

/* A batten that ends 38 before the wall, and one along the wall there (the narrow last row of a room); half of the joint bare. */
#define SHORT_JOINT(last) "'layouts': [{'room': 'hall', 'members': [{'from': [1000,38], 'to': [1000," #last "]}, {'from': [0,19], 'to': [6000,19], 'kind': 'perimeter'}]," \
  "'joints': [{'kind': 'end', 'from': [1000,0], 'to': [1000,300]}]}]"
#define JOINT(x) ", 'joints': [{'kind': 'end', 'from': [" #x ",0], 'to': [" #x ",1200]}]"

static const TinyCase boards[] = {
  TINY_STOP ("off", "joint-batten", "off", NAN, ROOM ("") "," LAYOUT (JOINT (1200))),
  TINY_NONE ("on", "joint-batten", ROOM ("") "," LAYOUT (JOINT (1001))),
  TINY_FIX ("bearing", "joint-batten", "bearing", 1, ROOM ("") "," LAYOUT (JOINT (1002))),
  TINY_NONE ("wall-batten-bears-the-end", "joint-batten", ROOM ("") "," SHORT_JOINT (300)),
  TINY_STOP ("half-bare", "joint-batten", "off", NAN, ROOM ("") "," SHORT_JOINT (150)),
  TINY_NONE ("long-joints-cross", "joint-batten", ROOM ("") "," LAYOUT (", 'joints': [{'kind': 'long', 'from': [0,1200], 'to': [6000,1200]}]")),

  TINY_NOTE ("missing", "ceiling-layout", "missing", NAN, ROOM ("")),
  TINY_NONE ("there", "ceiling-layout", ROOM ("") "," LAYOUT ("")),
  TINY_NONE ("exposed", "ceiling-layout", ROOM (", 'finish': 'exposed'")),
};

/* What the layout could not mend is said; what other checks say (a light over a batten, a joint off one) and what is only counted is not.
 * One snag a kind, the worst of it. */
#define MARKS(marks) "'layouts': [{'room': 'hall', 'marks': [" marks "]}]"
#define MARK(kind, value, limit) "{'kind': '" kind "', 'at': [1000,600], 'value': " #value ", 'limit': " #limit "}"

#define ODD(length) "'layouts': [{'room': 'hall', 'sheets': [{'sheet': 1, 'length': " #length ", 'width': 1200}]}]"

static const TinyCase laid[] = {
  TINY_STOP ("span", "ceiling-laid", "span", NAN, ROOM ("") "," MARKS (MARK ("span", 1400, 1000) "," MARK ("span", 1500, 1000))),
  TINY_STOP ("stress", "ceiling-laid", "stress", NAN, ROOM ("") "," MARKS (MARK ("stress", 6.5, 5.2))),
  TINY_STOP ("unsupported", "ceiling-laid", "unsupported", NAN, ROOM ("") "," MARKS (MARK ("unsupported", 0, 1))),
  TINY_FIX ("cantilever", "ceiling-laid", "cantilever", NAN, ROOM ("") "," MARKS (MARK ("cantilever", 260, 200))),
  TINY_FIX ("board-unheld", "ceiling-laid", "unheld", NAN, ROOM ("") "," MARKS (MARK ("board-unheld", 130, 100))),
  TINY_FIX ("field", "ceiling-laid", "field", NAN, ROOM ("") "," MARKS (MARK ("wide-field", 18000, 9100))),
  TINY_FIX ("field-unheld", "ceiling-laid", "field-unheld", NAN, ROOM ("") "," MARKS (MARK ("wide-field", 18000, 9100) "," MARK ("field-unheld", 18000, 9100))),
  TINY_FIX ("field-blocked", "ceiling-laid", "field-blocked", NAN, ROOM ("") "," MARKS (MARK ("wide-field", 18000, 9100) "," MARK ("field-blocked", 18000, 9100))),
  TINY_FIX ("odd-too-long", "ceiling-laid", "odd", NAN, ROOM (", 'sheet_most_mm': 3000") "," ODD (3600)),
  TINY_NONE ("odd-fits", "ceiling-laid", ROOM (", 'sheet_most_mm': 3600") "," ODD (3600)),
  TINY_FIX ("area", "ceiling-laid", "area", NAN, ROOM ("") "," MARKS (MARK ("large-field", 90, 84))),
  TINY_NOTE ("shift", "ceiling-laid", "shift", NAN, ROOM ("") "," MARKS (MARK ("shift", 120, 3))),
  TINY_NOTE ("sliver", "ceiling-laid", "sliver", NAN, ROOM ("") "," MARKS (MARK ("sliver", 60, 100))),
  TINY_NONE ("others", "ceiling-laid", ROOM ("") "," MARKS (MARK ("light-cuts", 49, 0) "," MARK ("light-trimmed", 1, 0) "," MARK ("hatch-cuts", 1, 0) "," MARK ("hanger", 60, 50))),
  TINY_NONE ("open", "ceiling-laid", ROOM (", 'finish': 'exposed'") "," MARKS (MARK ("span", 1400, 1000))),

  /* moisture boards and fibre-cement stand wet rooms, plain gypsum does not (common practice); 12.5 mm fire board adds 25 minutes by the
   * component additive method (IBC table 722.6.2(1)) */
  TINY_FIX ("wet", "board-limits", "wet", NAN, ROOM (", 'wet': true")),
  TINY_NONE ("wet-moisture", "board-limits", ROOM (", 'wet': true, 'board': 'moisture'")),
  TINY_NONE ("wet-fibre-cement", "board-limits", ROOM (", 'wet': true, 'board': 'fibre-cement', 'board_thickness_mm': 6")),
  TINY_FIX ("fire", "board-limits", "fire", NAN, ROOM (", 'fire_min': 30, 'board': 'fire', 'board_thickness_mm': 12.5")),
  TINY_NOTE ("fire-tested", "board-limits", "tested", NAN, ROOM (", 'fire_min': 30, 'board': 'fire', 'board_thickness_mm': 15")),
  TINY_FIX ("too-long", "board-limits", "long", NAN, ROOM (", 'sheet_most_mm': 2700")),
  TINY_NONE ("long-enough", "board-limits", ROOM (", 'sheet_most_mm': 3000")),
  TINY_NOTE ("cheapest-unpriced", "board-limits", "unpriced", NAN, ROOM (", 'sheet': 'cheapest'") ",'prices': [{'id': 'board-fire-12.5-3000x1200'}]"),
  TINY_NONE ("cheapest-priced", "board-limits", ROOM (", 'sheet': 'cheapest'") ",'prices': [{'id': 'board-gypsum-9.5-2400x900'}]"),
  TINY_NONE ("no-rating", "board-limits", ROOM ("")),
  /* a tile needs 150 to 200 above the grid (common practice) */
  TINY_FIX ("grid-tight", "grid-drop", "least", 1, ROOM (", 'finish': 'grid', 'grid_drop_mm': 149")),
  TINY_NOTE ("grid-close", "grid-drop", "good", 50, ROOM (", 'finish': 'grid', 'grid_drop_mm': 150")),
  TINY_NONE ("grid-good", "grid-drop", ROOM (", 'finish': 'grid', 'grid_drop_mm': 200")),
  TINY_NONE ("grid-closed", "grid-drop", ROOM (", 'grid_drop_mm': 10")),
  TINY_NONE ("exposed-wet", "board-limits", ROOM (", 'wet': true, 'fire_min': 30, 'finish': 'exposed'")),
};

/* Safe strip: rib − 2 (cover + link + bar) with 25 + 8 + 16: 2 mm on a rib of 100, 52 on 150, 102 on 200 (derived). */
#define PROFILE(more) "'profiles': [{'id': 'p', 'plate_spacing_mm': 0, " more "}],"
#define FIXED LAYOUT (", 'fixings': [{'at': [1000,600], 'rib': 1}, {'at': [1000,1200], 'rib': 2}]")

static const TinyCase fixings[] = {
  TINY_STOP ("narrow", "drill-strip", "narrow", NAN, ROOM ("") "," FIXED),
  TINY_NONE ("rib-150", "drill-strip", PROFILE ("'mouth_mm': 450, 'crown_mm': 350, 'tendons': 'no'") ROOM ("") "," FIXED),
  TINY_STOP ("rib-150-with-tendons", "drill-strip", "tendons", NAN, PROFILE ("'mouth_mm': 450, 'crown_mm': 350, 'tendons': 'yes'") ROOM ("") "," FIXED),
  TINY_STOP ("rib-150-unknown", "drill-strip", "unknown", NAN, PROFILE ("'mouth_mm': 450, 'crown_mm': 350") ROOM ("") "," FIXED),
  TINY_NONE ("no-fixings", "drill-strip", ROOM ("") "," LAYOUT ("")),
  TINY_STOP ("hanger-in-a-rib", "drill-strip", "narrow", NAN, "'fittings': [{'kind': 'hanger', 'at': [1000,600]}]"),
  TINY_NONE ("hanger-in-the-crown", "drill-strip", "'fittings': [{'kind': 'hanger', 'at': [1000,300], 'z_mm': 200}]"),
};

/* SANS 10400-C: 2.4 m in habitable rooms, 2.1 m in others and below projections; ribs count when they exceed 30 % of the plan. */
#define SOFFIT(mm) "'job': {'soffit_level_mm': " #mm "},"
#define EXPOSED ", 'finish': 'exposed'"

static const TinyCase heights[] = {
  TINY_STOP ("closed", "room-height", "ceiling", 0.5, SOFFIT (2447) ROOM ("")),
  TINY_NONE ("closed-enough", "room-height", SOFFIT (2447.5) ROOM ("")),
  TINY_NONE ("passage", "room-height", SOFFIT (2200) ROOM (", 'use': 'service'")),
  TINY_STOP ("floor-offset", "room-height", "ceiling", 100, SOFFIT (2447.5) ROOM (", 'floor_offset_mm': 100")),
  TINY_NONE ("ribs-of-25-percent", "room-height", SOFFIT (2300) PROFILE ("'mouth_mm': 450, 'crown_mm': 350") ROOM (EXPOSED)),
  TINY_STOP ("ribs-of-33-percent", "room-height", "ribs", 100, SOFFIT (2300) PROFILE ("'mouth_mm': 400, 'crown_mm': 350") ROOM (EXPOSED)),
  TINY_NONE ("ribs-of-30-percent", "room-height", SOFFIT (2300) PROFILE ("'mouth_mm': 420, 'crown_mm': 350") ROOM (EXPOSED)),
  TINY_STOP ("crown", "room-height", "crown", 1, SOFFIT (2149) ROOM (EXPOSED)),
  TINY_STOP ("beam", "projection", "beam", 1, SOFFIT (2299) ROOM (EXPOSED) ", 'beams': [{'from': [3000,0], 'to': [3000,4800]}]"),
  TINY_NONE ("beam-enough", "projection", SOFFIT (2300) ROOM (EXPOSED) ", 'beams': [{'from': [3000,0], 'to': [3000,4800]}]"),
  TINY_STOP ("ribs", "projection", "ribs", 1, SOFFIT (2099) ROOM (EXPOSED)),
};

/* Battens of 38 and boards of 9.5: the ceiling's face lies 47.5 below the soffit, the back of its boards 38; in a bulkhead as much lower
 * as it drops. SANS 10400-C: projections keep 2,100 and count as the ceiling beyond 30 % of the plan: 1,440 of the room's 4,800. */
#define BULKHEAD(y, drop) ", 'bulkheads': [{'id': 'BH1', 'room': 'hall', 'outline': [[0," #y "],[6000," #y "],[6000,4800],[0,4800]], 'drop_mm': " #drop "}]"
#define HANGING(z) ", 'runs': [{'id': 'R1', 'od_mm': 20, 'vertices': [{'at': [1000,4000], 'level': 'below', 'z': " #z "}, {'at': [3000,4000], 'level': 'below', 'z': " #z "}]}]"

static const TinyCase bulkheads[] = {
  TINY_STOP ("low", "bulkhead", "low", 1, SOFFIT (2447.5) ROOM ("") BULKHEAD (4000, 301)),
  TINY_NONE ("high-enough", "bulkhead", SOFFIT (2447.5) ROOM ("") BULKHEAD (4000, 300)),
  TINY_STOP ("broad", "room-height", "bulkhead", 50, SOFFIT (2447.5) ROOM ("") BULKHEAD (3350, 50)),
  TINY_NONE ("of-30-percent", "room-height", SOFFIT (2447.5) ROOM ("") BULKHEAD (3360, 50)),
  TINY_FIX ("outside", "bulkhead", "outside", NAN, SOFFIT (2700) ROOM ("") ", 'bulkheads': [{'id': 'BH1', 'room': 'hall', 'outline': [[7000,0],[8000,0],[8000,900]]}]"),
  TINY_FIX ("beyond", "bulkhead", "beyond", 100, SOFFIT (2700) ROOM ("") ", 'bulkheads': [{'id': 'BH1', 'room': 'hall', 'outline': [[4000,4000],[6000,4000],[6000,4900],[4000,4900]], 'drop_mm': 200}]"),
  TINY_NONE ("along-the-walls", "bulkhead", SOFFIT (2700) ROOM ("") ", 'bulkheads': [{'id': 'BH1', 'room': 'hall', 'outline': [[4000,4000],[6000,4000],[6000,4800],[4000,4800]], 'drop_mm': 200}]"),
  TINY_NOTE ("open", "bulkhead", "open", NAN, SOFFIT (2700) ROOM (EXPOSED) BULKHEAD (4000, 300)),
  TINY_STOP ("light-across", "bulkhead", "edge", NAN, SOFFIT (2700) ROOM ("") BULKHEAD (4000, 300) ", 'lights': [{'id': 'L1', 'at': [3000,3960]}]"),
  TINY_NONE ("light-beside", "bulkhead", SOFFIT (2700) ROOM ("") BULKHEAD (4000, 300) ", 'lights': [{'id': 'L1', 'at': [3000,3940]}]"),
  TINY_STOP ("hatch-across", "bulkhead", "edge", NAN, SOFFIT (2700) ROOM ("") BULKHEAD (4000, 300) ", 'hatches': [{'id': 'H1', 'at': [3000,3900]}]"),
  TINY_STOP ("run-below-the-ribs", "ceiling-depth", "deep", NAN, SOFFIT (2700) ROOM ("") HANGING (20)),
  TINY_NONE ("run-boxed", "ceiling-depth", SOFFIT (2700) ROOM ("") BULKHEAD (3800, 100) HANGING (20)),
  TINY_STOP ("run-through-the-bottom", "ceiling-depth", "deep", NAN, SOFFIT (2700) ROOM ("") BULKHEAD (3800, 100) HANGING (125)),
  TINY_STOP ("run-leaves-the-box", "ceiling-depth", "deep", NAN,
             SOFFIT (2700) ROOM ("") BULKHEAD (3800, 100) ", 'runs': [{'id': 'R1', 'od_mm': 20, 'vertices': [{'at': [1000,4000], 'level': 'below', 'z': 20}, "
                                                          "{'at': [1000,3000], 'level': 'below', 'z': 20}]}]"),
};

/* Body 96, cut-out 100, 90 above the ceiling's face at −47.5: its top at 42.5, beside the ribs' lowest part. */
#define LIGHT(x, y, more) "'lights': [{'id': 'L1', 'at': [" #x "," #y "]" more "}]"

static const TinyCase lights[] = {
  TINY_FIX ("near", "light-rib", "near", NAN, LIGHT (2000, 107, "") "," ROOM ("")),
  TINY_NONE ("clear", "light-rib", LIGHT (2000, 118, "") "," ROOM ("")),
  TINY_STOP ("under", "light-rib", "hit", NAN, LIGHT (2000, 600, "") "," ROOM ("")),
  TINY_NONE ("slim-under", "light-rib", LIGHT (2000, 600, ", 'recess_mm': 37.5") "," ROOM ("")),
  TINY_FIX ("less-slim-under", "light-rib", "near", 1, LIGHT (2000, 600, ", 'recess_mm': 38.5") "," ROOM ("")),
  TINY_FIX ("tall", "light-crown", "near", 1, LIGHT (2000, 300, ", 'recess_mm': 273.5") "," ROOM ("")),
  TINY_NONE ("short", "light-crown", LIGHT (2000, 300, ", 'recess_mm': 272.5") "," ROOM ("")),
  TINY_FIX ("near", "light-batten", "burns", 1, LIGHT (1081, 300, "") "," ROOM ("") "," LAYOUT ("")),
  TINY_NOTE ("not-best", "light-batten", "near", 1, LIGHT (1118, 300, "") "," ROOM ("") "," LAYOUT ("")),
  TINY_NONE ("clear", "light-batten", LIGHT (1119, 300, "") "," ROOM ("") "," LAYOUT ("")),
  TINY_STOP ("on", "light-batten", "hit", NAN, LIGHT (1010, 300, "") "," ROOM ("") "," LAYOUT ("")),
  TINY_FIX ("joint", "light-joint", "hit", NAN, LIGHT (1120, 300, "") "," ROOM ("") "," LAYOUT (JOINT (1100))),
  TINY_NONE ("joint-far", "light-joint", LIGHT (1400, 300, "") "," ROOM ("") "," LAYOUT (JOINT (1100))),
  TINY_FIX ("near", "light-wall", "near", 1, LIGHT (2254, 300, "") ", 'walls': [{'from': [2000,0], 'to': [2000,4800]}]"),
  TINY_NONE ("clear", "light-wall", LIGHT (2255, 300, "") ", 'walls': [{'from': [2000,0], 'to': [2000,4800]}]"),
  TINY_STOP ("in", "light-wall", "hit", NAN, LIGHT (2050, 300, "") ", 'walls': [{'from': [2000,0], 'to': [2000,4800]}]"),
  TINY_FIX ("driver", "light-driver", "large", NAN, LIGHT (2000, 300, ", 'driver_width_mm': 98")),
  TINY_NONE ("driver-fits", "light-driver", LIGHT (2000, 300, ", 'driver_width_mm': 95, 'driver_height_mm': 30")),
  TINY_FIX ("no-hood", "light-hood", "none", NAN, "'lights': [{'at': [2000,300]}]," ROOM (", 'board': 'fire'")),
  TINY_FIX ("no-hood-rated", "light-hood", "none", NAN, "'lights': [{'at': [2000,300]}]," ROOM (", 'fire_min': 30")),
  TINY_NONE ("hood", "light-hood", "'lights': [{'at': [2000,300], 'hood': true}]," ROOM (", 'board': 'fire'")),
  TINY_NONE ("plain-boards", "light-hood", "'lights': [{'at': [2000,300]}]," ROOM ("")),
  TINY_NONE ("open-soffit", "light-hood", "'lights': [{'at': [2000,300]}]," ROOM (", 'board': 'fire', 'finish': 'exposed'")),
  TINY_FIX ("heat-of-another", "light-light", "hot", NAN, "'lights': [{'at': [2000,300], 'top_clearance_mm': 100}, {'at': [2140,300], 'side_clearance_mm': 1}]," ROOM ("")),
  TINY_NONE ("far-from-another", "light-light", "'lights': [{'at': [2000,300]}, {'at': [2147,300]}]," ROOM ("")),
};

#define PLATES "'bays': [{'id': 'B', 'profile': 'p', 'plate_spacing_mm': 1500, " OUTLINE "}],"
#define RELEASED "'void': 1, 'plate': 1, 'bay': 'B', 'released_by': 'engineer', 'released_on': '2025-03-01', 'reference': 'L1'"
#define PIPE(y, z) "'runs': [{'id': 'R1', 'service': 'cold', 'material': 'pex', 'od_mm': 50, 'socket_mm': 50, 'vertices': [" V (1000, y, z) "," V (4000, y, z) "]}]"

static const TinyCase around[] = {
  TINY_STOP ("on", "light-plate", "hit", NAN, PLATES LIGHT (1660, 300, "") "," ROOM ("")),
  TINY_FIX ("near", "light-plate", "near", 1, PLATES LIGHT (1723.5, 300, "") "," ROOM ("")),
  TINY_NONE ("clear", "light-plate", PLATES LIGHT (1724.6, 300, "") "," ROOM ("")),
  TINY_NOTE ("released", "light-plate", "released", NAN, PLATES LIGHT (1660, 300, "") "," ROOM ("") ", 'plates': [{" RELEASED "}]"),
  /* the light's top at 42.5 and its heat 100 above that */
  TINY_STOP ("hit", "light-service", "hit", NAN, PIPE (300, 60) "," LIGHT (2000, 300, "") "," ROOM ("")),
  TINY_FIX ("near", "light-service", "near", 1, PIPE (300, 91.5) "," LIGHT (2000, 300, "") "," ROOM ("")),
  TINY_NONE ("clear", "light-service", PIPE (300, 92.5) "," LIGHT (2000, 300, "") "," ROOM ("")),
  TINY_FIX ("hot", "light-heat", "hot", 1, PIPE (300, 166.5) "," LIGHT (2000, 300, "") "," ROOM ("")),
  TINY_NONE ("cool", "light-heat", PIPE (300, 167.5) "," LIGHT (2000, 300, "") "," ROOM ("")),
};

/* An outdated layout is one of which the caller says so. */
static gboolean
never_current (const SwSpace *space, const SwRoom *room, const SwLayout *layout, gpointer data)
{
  *(const SwRoom **) data = room;
  return FALSE;
}

static void
test_stale (void)
{
  const SwRoom *asked = NULL;
  g_autoptr (SwJob) job = tiny_job (ROOM ("") "," LAYOUT (""));
  g_autoptr (SwSpace) space = tiny_space (job);
  SwCheckOptions options = { .only = "ceiling-layout", .layout_is_current = never_current, .layout_data = &asked };
  g_autoptr (SwSnags) snags = sw_checks_run (space, &options, NULL, NULL, NULL, NULL);
  g_assert_cmpuint (sw_snags_n (snags), ==, 1);
  g_assert_cmpstr (sw_snags_get (snags, 0)->variant, ==, "stale");
  g_assert_cmpint (asked->record.id, ==, sw_snags_get (snags, 0)->owners[0]);
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  TINY_ADD ("/checks", depth);
  TINY_ADD ("/checks", boards);
  TINY_ADD ("/checks/laid", laid);
  TINY_ADD ("/checks", fixings);
  TINY_ADD ("/checks", heights);
  TINY_ADD ("/checks/bulkheads", bulkheads);
  TINY_ADD ("/checks", lights);
  TINY_ADD ("/checks", around);
  g_test_add_func ("/checks/ceiling-layout/stale", test_stale);
  return g_test_run ();
}
