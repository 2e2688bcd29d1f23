/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Falls, ends, walls, access and records. A void is 250 deep and 110 pipes have sockets of 128; gradients are the rule set's
 * (1:60 usual for 110, a note beyond 1:80, not beyond 1:120; 1:40 for 50). */
#include "tiny.h"

#define V(x, y, z) "{'at': [" #x "," #y "], 'z': " #z "}"
#define FALL(x, y) "{'at': [" #x "," #y "], 'level': 'fall'}"
#define PIPE(od, more, vertices) "'runs': [{'id': 'R1', 'service': 'soil', 'od_mm': " #od more ", 'vertices': [" vertices "]}]"
#define OUTLINE "'outline': [[0,0],[6000,0],[6000,4800],[0,4800]]"
#define ROOM(more) ", 'rooms': [{'id': 'hall', " OUTLINE more "}]"

static const TinyCase gradients[] = {
  TINY_NONE ("1:60", "fall", PIPE (110, "", V (1000, 300, 150) "," V (4000, 300, 100))),
  TINY_NONE ("1:80", "fall", PIPE (110, "", V (1000, 300, 150) "," V (4200, 300, 110))),
  TINY_NOTE ("1:90", "fall", "gentle", 5, PIPE (110, "", V (1000, 300, 150) "," V (4600, 300, 110))),
  TINY_STOP ("1:150", "fall", "flat", 5, PIPE (110, "", V (1000, 300, 150) "," V (4000, 300, 130))),
  TINY_STOP ("level", "fall", "level", 25, PIPE (110, "", V (1000, 300, 150) "," V (4000, 300, 150))),
  TINY_STOP ("backwards", "fall", "backwards", 45, PIPE (110, "", V (1000, 300, 130) "," V (4000, 300, 150))),
  TINY_NONE ("short-level-leg-of-a-bend", "fall", PIPE (110, "", V (1000, 300, 150) "," V (1200, 300, 150))),
  TINY_NONE ("upright-leg", "fall", PIPE (110, "", V (1000, 300, 150) "," V (1000, 300, -1000))),
  TINY_NONE ("drawn-from-the-stack", "fall",
             "'fittings': [{'id': 'F1', 'kind': 'stack', 'at': [4000,300]}]," PIPE (110, ", 'start': 'F1'", V (4000, 300, 100) "," V (1000, 300, 150))),
  TINY_NONE ("water-need-not-fall", "fall", "'runs': [{'service': 'cold', 'vertices': [" V (1000, 300, 100) "," V (4000, 300, 100) "]}]"),
};

/* Under a WC's bend, 130 below the crown, the axis lies at 120; a socket meets the soffit after (120 − 64) 60 = 3360, the
 * tube after (120 − 55) 60 = 3900. */
static const TinyCase ways_out[] = {
  TINY_NONE ("before-it", "fall-out", PIPE (110, ", 'socket_mm': 128, 'fall': 60", V (1000, 300, 120) "," FALL (4360, 300)) ROOM ("")),
  TINY_STOP ("socket", "fall-out", "socket", 1, PIPE (110, ", 'socket_mm': 128, 'fall': 60", V (1000, 300, 120) "," FALL (4420, 300)) ROOM ("")),
  TINY_STOP ("tube", "fall-out", "tube", 14, PIPE (110, ", 'socket_mm': 128, 'fall': 60", V (1000, 300, 120) "," FALL (5200, 300)) ROOM ("")),
  TINY_FIX ("exposed", "fall-out", "socket", 1, PIPE (110, ", 'socket_mm': 128, 'fall': 60", V (1000, 300, 120) "," FALL (4420, 300)) ROOM (", 'finish': 'exposed'")),
  TINY_NOTE ("over-a-grid", "fall-out", "socket", 1, PIPE (110, ", 'socket_mm': 128, 'fall': 60", V (1000, 300, 120) "," FALL (4420, 300)) ROOM (", 'finish': 'grid'")),
  TINY_NONE ("turned-down-before", "fall-out", PIPE (110, ", 'socket_mm': 128", V (1000, 300, 120) "," V (4000, 300, 70) "," V (4000, 300, -500)) ROOM ("")),
};

#define STACK(kind, x) "'fittings': [{'id': 'F1', 'kind': '" kind "', 'at': [" #x ",300], 'length_mm': 110, 'width_mm': 0}],"

static const TinyCase ends[] = {
  TINY_FIX ("open", "gravity-end", "open", NAN, PIPE (110, "", V (1000, 300, 150) "," V (4000, 300, 100))),
  TINY_NONE ("stack", "gravity-end", STACK ("stack", 4100) PIPE (110, ", 'end': 'F1'", V (1000, 300, 150) "," V (4000, 300, 100))),
  TINY_NONE ("gully", "gravity-end", STACK ("gully", 4000) PIPE (110, ", 'end': 'F1'", V (1000, 300, 150) "," V (4000, 300, 100))),
  TINY_FIX ("short", "gravity-end", "short", 51, STACK ("stack", 4106) PIPE (110, ", 'end': 'F1'", V (1000, 300, 150) "," V (4000, 300, 100))),
  TINY_FIX ("box", "gravity-end", "other", NAN, STACK ("box", 4000) PIPE (110, ", 'end': 'F1'", V (1000, 300, 150) "," V (4000, 300, 100))),
  TINY_FIX ("only-the-branch-is-joined", "gravity-end", "open", NAN,
            "'fittings': [{'id': 'T', 'kind': 'tee', 'at': [4000,300], 'run': 'R1'}],"
            "'runs': [{'id': 'R1', 'service': 'soil', 'od_mm': 110, 'vertices': [" V (1000, 300, 150) "," V (5000, 300, 100) "]},"
            "{'id': 'R2', 'service': 'waste', 'od_mm': 50, 'end': 'T', 'vertices': [" V (4000, 100, 150) "," V (4000, 300, 120) "]}]"),
  TINY_NOTE ("nothing", "run-start", "open", NAN, PIPE (110, "", V (1000, 300, 150) "," V (4000, 300, 100))),
  TINY_NONE ("drop-in", "run-start", "'drop_ins': [{'id': 'DI1', 'at': [1000,300]}]," PIPE (110, ", 'start': 'DI1'", V (1000, 300, 150) "," V (4000, 300, 100))),
  TINY_NONE ("existing", "run-start", PIPE (110, ", 'stage': 'existing'", V (1000, 300, 150) "," V (4000, 300, 100))),
};

#define WALL(more) ", 'walls': [{'id': 'W1', 'from': [3000,0], 'to': [3000,4800]" more "}]"
#define CONDUIT(vertices) "'runs': [{'id': 'R1', 'service': 'power', 'vertices': [" vertices "]}]"

static const TinyCase walls[] = {
  TINY_FIX ("conduit", "wall-separating", "open", NAN, CONDUIT (V (2000, 300, 60) "," V (4000, 300, 60)) WALL (", 'separating': true, 'fire_min': 60")),
  TINY_FIX ("plastic-pipe", "wall-separating", "collar", NAN, PIPE (110, "", V (2000, 300, 150) "," V (4000, 300, 100)) WALL (", 'separating': true, 'fire_min': 60")),
  TINY_FIX ("plastic-pipe-in-a-sound-wall", "wall-separating", "open", NAN, PIPE (110, "", V (2000, 300, 150) "," V (4000, 300, 100)) WALL (", 'separating': true, 'sound_db': 45")),
  TINY_NOTE ("sleeved", "wall-separating", "sleeved", NAN,
             CONDUIT (V (2000, 300, 60) "," V (4000, 300, 60)) WALL (", 'separating': true")
             ", 'sleeves': [{'from': [2930,300], 'to': [3070,300], 'through': 'wall', 'z_mm': 60, 'diameter_mm': 40, 'run': 'R1'}]"),
  TINY_NONE ("plain", "wall-separating", CONDUIT (V (2000, 300, 60) "," V (4000, 300, 60)) WALL ("")),
  TINY_NONE ("along-it", "wall-separating", CONDUIT (V (2000, 300, 60) "," V (2900, 300, 60)) WALL (", 'separating': true")),
  TINY_NONE ("drop-into-it", "wall-separating",
             "'drops': [{'id': 'D1', 'wall': 'W1', 'along_mm': 300}], 'runs': [{'service': 'power', 'end': 'D1', 'vertices': [" V (2000, 300, 60) "," V (3001, 300, 60)
             ",{'at': [3001,300], 'level': 'floor', 'z': 1200}]}]" WALL (", 'separating': true")),
  TINY_FIX ("at-the-ribs", "wall-filler", "across", NAN, "'job': {}" WALL (", 'separating': true")),
  TINY_NONE ("to-the-crown", "wall-filler", "'job': {}" WALL (", 'separating': true, 'head': 'crown'")),
  TINY_NONE ("plain", "wall-filler", "'job': {}" WALL ("")),
  TINY_FIX ("along", "wall-filler", "along", NAN, "'walls': [{'from': [1000,300], 'to': [4000,300], 'separating': true}]"),
  TINY_NONE ("under-a-rib", "wall-filler", "'walls': [{'from': [1000,600], 'to': [4000,600], 'separating': true}]"),
  TINY_NOTE ("below-the-ribs", "wall-pass", "through", NAN, CONDUIT ("{'at': [2000,300], 'level': 'below', 'z': 100}, {'at': [4000,300], 'level': 'below', 'z': 100}") WALL ("")),
  TINY_NONE ("over-it", "wall-pass", CONDUIT (V (2000, 300, 60) "," V (4000, 300, 60)) WALL ("")),
};

#define BETWEEN(x0, finish) "'rooms': [{'id': 'A', 'outline': [[" x0 ",0], [5000,0], [5000,4000], [" x0 ",4000]], 'finish': '" finish "'}]"
#define BESIDE ", 'walls': [{'id': 'W1', 'from': [1000,0], 'to': [1000,4000], 'thickness_mm': 110}]"

/* A room between walls ends at their faces: what is drawn farther is that much too long, up to the wall's other face. */
static const TinyCase sides[] = {
  TINY_NONE ("at-the-face", "room-wall", BETWEEN ("1055", "closed") BESIDE),
  TINY_NONE ("within-what-a-corner-may-be-off", "room-wall", BETWEEN ("1050", "closed") BESIDE),
  TINY_FIX ("past-the-face", "room-wall", "in", 6, BETWEEN ("1049", "closed") BESIDE),
  TINY_FIX ("at-the-middle", "room-wall", "in", 55, BETWEEN ("1000", "closed") BESIDE),
  TINY_FIX ("clockwise", "room-wall", "in", 55, "'rooms': [{'id': 'A', 'outline': [[1000,4000], [5000,4000], [5000,0], [1000,0]]}]" BESIDE),
  TINY_FIX ("at-the-far-face", "room-wall", "in", 110, BETWEEN ("945", "closed") BESIDE),
  TINY_NONE ("a-wall-in-the-room", "room-wall", BETWEEN ("900", "closed") BESIDE),
  TINY_NONE ("short-of-it", "room-wall", BETWEEN ("1100", "closed") BESIDE),
  TINY_NONE ("no-ceiling", "room-wall", BETWEEN ("1000", "exposed") BESIDE),
  TINY_NONE ("a-wall-that-ends-at-it", "room-wall", BETWEEN ("1055", "closed") ", 'walls': [{'from': [0,2000], 'to': [1055,2000]}]"),
};

/* Voids that stand open over a wall of 4.8 m across: eight of (500 + 400) / 2 × 250 mm² = 0.1125 m² (derived). */
static void
test_filler_figures (void)
{
  g_autoptr (SwSnags) snags = tiny_check ("'job': {}" WALL (", 'separating': true"), "wall-filler");
  const SwSnag *snag = sw_snags_get (snags, 0);
  g_assert_cmpstr (snag->params[0].name, ==, "voids");
  sw_assert_near (snag->params[0].value, 8, 0);
  g_assert_cmpstr (snag->params[1].name, ==, "area");
  sw_assert_near (snag->params[1].value, 8 * 0.1125, 1e-9);
}

#define HATCH(x, y) ", 'hatches': [{'id': 'H1', 'at': [" #x "," #y "]}]"
#define VALVE(x) "'fittings': [{'id': 'F1', 'kind': 'valve', 'at': [" #x ",300], 'z_mm': 60}]"
#define PLATES "'bays': [{'id': 'B', 'profile': 'p', 'plate_spacing_mm': 1500, " OUTLINE "}],"

static const TinyCase reached[] = {
  TINY_FIX ("no-hatch", "hatch-reach", "none", NAN, VALVE (2000) ROOM ("")),
  /* hatch 600 long: its edge at x 1300; valve 100 long */
  TINY_NONE ("in-reach", "hatch-reach", VALVE (1950) ROOM ("") HATCH (1000, 300)),
  TINY_FIX ("far", "hatch-reach", "far", 1, VALVE (1951) ROOM ("") HATCH (1000, 300)),
  TINY_FIX ("next-void", "hatch-reach", "none", NAN, VALVE (1000) ROOM ("") HATCH (1000, 900)),
  TINY_NONE ("behind-a-far-plate", "hatch-reach", PLATES VALVE (1500) ROOM ("") HATCH (1000, 300)),
  TINY_FIX ("behind-a-plate", "hatch-reach", "plate", NAN, PLATES VALVE (1750) ROOM ("") HATCH (1300, 300)),
  TINY_NONE ("exposed", "hatch-reach", VALVE (2000) ROOM (", 'finish': 'exposed'")),
  TINY_NONE ("grid", "hatch-reach", VALVE (2000) ROOM (", 'finish': 'grid'")),
  TINY_NONE ("tee-needs-no-hand", "hatch-reach", "'fittings': [{'kind': 'tee', 'at': [2000,300], 'z_mm': 60}]" ROOM ("")),
  TINY_FIX ("unless-it-says-so", "hatch-reach", "none", NAN, "'fittings': [{'kind': 'tee', 'at': [2000,300], 'z_mm': 60, 'access': true}]" ROOM ("")),

  /* hole 150 over a crown of 400: its centre at most 125 off the void's (42 % of all places; derived) */
  TINY_NONE ("over-the-crown", "drop-in", "'drop_ins': [{'at': [1000,425]}]"),
  TINY_STOP ("over-the-rib", "drop-in", "rib", 85, "'drop_ins': [{'at': [1000,510]}]"),
  TINY_STOP ("wide", "drop-in", "wide", 10, "'drop_ins': [{'at': [1000,300], 'hole_mm': 410}]"),
  TINY_STOP ("closure", "drop-in", "end", 25, "'drop_ins': [{'at': [200,300]}]"),
  TINY_STOP ("plate", "drop-in", "end", 65, PLATES "'drop_ins': [{'at': [1660,300]}]"),
  TINY_STOP ("solid", "drop-in", "solid", NAN, "'drop_ins': [{'at': [100,300]}]"),
};

/* Where a drop-in has to go: 85 mm to the south for a void along x, and to the east for one along y. */
static void
test_drop_in_way (void)
{
  g_autoptr (SwSnags) snags = tiny_check ("'drop_ins': [{'at': [1000,510]}]", "drop-in");
  sw_assert_near (sw_snags_get (snags, 0)->direction.y, -1, 1e-9);
  sw_assert_near (sw_snags_get (snags, 0)->distance, 85, 1e-9);
  g_autoptr (SwSnags) turned = tiny_check ("'bays': [{'profile': 'p', 'direction_deg': 90, " OUTLINE "}], 'drop_ins': [{'at': [5490,1000]}]", "drop-in");
  sw_assert_near (sw_snags_get (turned, 0)->direction.x, 1, 1e-9);
  sw_assert_near (sw_snags_get (turned, 0)->distance, 85, 1e-9);
}

#define STAIRS V (1000, 300, 100) "," V (2000, 300, 100) "," V (2000, 400, 100) "," V (3000, 400, 100) "," V (3000, 300, 100)
#define BOX ", 'fittings': [{'kind': 'box', 'at': [2000,400], 'z_mm': 100, 'run': 'R1'}]"

static const TinyCase conduits[] = {
  TINY_NONE ("two-quarters", "conduit-turns", CONDUIT (V (1000, 300, 100) "," V (2000, 300, 100) "," V (2000, 400, 100) "," V (3000, 400, 100))),
  TINY_NOTE ("three-quarters", "conduit-turns", "many", NAN, CONDUIT (STAIRS)),
  TINY_NONE ("with-a-box", "conduit-turns", CONDUIT (STAIRS) BOX),
  TINY_NOTE ("four-quarters", "conduit-turns", "many", NAN, CONDUIT (STAIRS "," V (4000, 300, 100))),
  TINY_STOP ("five-quarters", "conduit-turns", "stop", NAN, CONDUIT (STAIRS "," V (4000, 300, 100) "," V (4000, 400, 100))),
  TINY_NONE ("pipes-are-not-drawn-through", "conduit-turns", "'runs': [{'service': 'cold', 'vertices': [" STAIRS "]}]"),
  TINY_NONE ("ten-metres", "conduit-length", CONDUIT (V (1000, 300, 100) "," V (11000, 300, 100))),
  TINY_NOTE ("longer", "conduit-length", "long", NAN, CONDUIT (V (1000, 300, 100) "," V (11001, 300, 100))),
  TINY_NONE ("longer-with-a-box", "conduit-length", CONDUIT (V (1000, 300, 100) "," V (11001, 300, 100)) ", 'fittings': [{'kind': 'box', 'at': [6000,300], 'z_mm': 100, 'run': 'R1'}]"),
};

/* Copper 15: every 1.2 m (a plumbing textbook's clip table, in line). */
#define COPPER "'runs': [{'id': 'R1', 'service': 'cold', 'material': 'copper', 'od_mm': 15, 'vertices': [" V (1000, 300, 100) "," V (4000, 300, 100) "]}]"
#define HANGERS(a, b) ", 'fittings': [{'kind': 'hanger', 'at': [" #a ",300], 'run': 'R1'}, {'kind': 'hanger', 'at': [" #b ",300], 'run': 'R1'}]"
#define PASSED(kind) "{'room': 'hall', 'kind': '" kind "', 'result': 'passed'}, "
#define HOLD_BUT_CABLES(test) ", 'hold_points': [" PASSED ("close") PASSED ("survey") PASSED ("soil-test") PASSED ("conduit") PASSED ("photographs") \
  "{'room': 'hall', 'kind': 'water-test', 'result': '" test "'}"
#define HOLD(test) HOLD_BUT_CABLES (test) ", {'room': 'hall', 'kind': 'cables', 'result': 'passed'}]"

static const TinyCase others[] = {
  TINY_NONE ("as-asked", "support", COPPER HANGERS (1900, 3100)),
  TINY_NOTE ("wide", "support", "wide", NAN, COPPER HANGERS (1900, 3101)),
  TINY_NONE ("not-drawn-yet", "support", COPPER),
  TINY_FIX ("open", "hold-point", "open", NAN, "'job': {}" ROOM ("") HOLD ("open")),
  TINY_FIX ("failed", "hold-point", "failed", NAN, "'job': {}" ROOM ("") HOLD ("failed")),
  TINY_NONE ("passed", "hold-point", "'job': {}" ROOM ("") HOLD ("passed")),
  TINY_FIX ("skipped", "hold-point", "skipped", NAN, "'job': {}" ROOM ("") HOLD_BUT_CABLES ("passed") "]"),
  TINY_NONE ("not-closed", "hold-point", "'job': {}" ROOM ("") ", 'hold_points': [{'room': 'hall', 'kind': 'water-test'}]"),
  TINY_STOP ("one-place", "fault", "fault", NAN, CONDUIT (V (1000, 300, 100) "," V (1000, 300, 100))),
  TINY_NONE ("good", "fault", CONDUIT (V (1000, 300, 100) "," V (2000, 300, 100))),
};

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  TINY_ADD ("/checks", gradients);
  TINY_ADD ("/checks", ways_out);
  TINY_ADD ("/checks", ends);
  TINY_ADD ("/checks", walls);
  TINY_ADD ("/checks/room-wall", sides);
  TINY_ADD ("/checks", reached);
  TINY_ADD ("/checks", conduits);
  TINY_ADD ("/checks", others);
  g_test_add_func ("/checks/wall-filler/figures", test_filler_figures);
  g_test_add_func ("/checks/drop-in/way", test_drop_in_way);
  return g_test_run ();
}
