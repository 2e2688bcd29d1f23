/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Distances follow from the deck in tiny.h by hand; limits are the rule set's: rib, web, crown 10 mm, closure 20, solid zone
 * 10, opening's edge 50, downstand 10, plate 10, hanger to plate 50, spacer saddle 4, sleeve 10 each side. */
#include "tiny.h"
#include "checks/snag_text.h"

/* A run of 50 mm without larger sockets. */
#define PIPE(vertices) "'runs': [{'id': 'R1', 'service': 'cold', 'material': 'pex', 'od_mm': 50, 'socket_mm': 50, 'vertices': [" vertices "]}]"
#define V(x, y, z) "{'at': [" #x "," #y "], 'z': " #z "}"
#define BELOW(x, y, z) "{'at': [" #x "," #y "], 'level': 'below', 'z': " #z "}"
#define CONDUIT(vertices) "'runs': [{'id': 'R1', 'service': 'power', 'od_mm': 20, 'vertices': [" vertices "]}]"

static const TinyCase ribs[] = {
  TINY_FIX ("near", "rib-clearance", "near", 1, PIPE (BELOW (1000, 300, 9) "," BELOW (1000, 900, 9))),
  TINY_NONE ("clear", "rib-clearance", PIPE (BELOW (1000, 300, 10) "," BELOW (1000, 900, 10))),
  TINY_STOP ("hit", "rib-clearance", "hit", 15, PIPE (BELOW (1000, 300, -5) "," BELOW (1000, 900, -5))),
  TINY_STOP ("through", "rib-clearance", "through", NAN, PIPE (V (1000, 300, 100) "," V (1000, 900, 100))),
  TINY_FIX ("conduit-without-saddle", "rib-clearance", "near", 1, CONDUIT (BELOW (1000, 300, 3) "," BELOW (1000, 900, 3))),
  TINY_NONE ("conduit-on-saddles", "rib-clearance", CONDUIT (BELOW (1000, 300, 4) "," BELOW (1000, 900, 4))),
  TINY_NONE ("sleeve", "rib-clearance",
             PIPE (V (1000, 300, 100) "," V (1000, 900, 100))
             ", 'sleeves': [{'id': 'S1', 'from': [1000,500], 'to': [1000,700], 'z_mm': 100, 'diameter_mm': 70, 'run': 'R1'}]"),
  TINY_STOP ("sleeve-of-another-run", "rib-clearance", "through", NAN,
             "'runs': [{'id': 'R1', 'service': 'cold', 'material': 'pex', 'od_mm': 50, 'vertices': [" V (1000, 300, 100) "," V (1000, 900, 100) "]},"
             "{'id': 'R2', 'service': 'cold', 'vertices': [" V (5000, 300, 100) "," V (5500, 300, 100) "]}],"
             "'sleeves': [{'id': 'S1', 'from': [1000,500], 'to': [1000,700], 'z_mm': 100, 'diameter_mm': 70, 'run': 'R2'}]"),
  TINY_STOP ("sleeve-elsewhere", "rib-clearance", "through", NAN,
             PIPE (V (1000, 300, 100) "," V (1000, 900, 100))
             ", 'sleeves': [{'id': 'S1', 'from': [1200,500], 'to': [1200,700], 'z_mm': 100, 'diameter_mm': 70, 'run': 'R1'}]"),
  TINY_NONE ("cast-in", "rib-clearance",
             "'runs': [{'id': 'R1', 'service': 'power', 'od_mm': 20, 'stage': 'cast-in', 'vertices': ["
             "{'at': [1000,300], 'level': 'topping', 'z': 30}, {'at': [1000,900], 'level': 'topping', 'z': 30}]}]"),
  /* the side of the void leans 50 in 250: at z 100 its distance from y is ((y − 50) 250 − 50 z) / 254.95 */
  TINY_FIX ("near", "web-clearance", "near", 0.0915, PIPE (V (1000, 105.6, 100) "," V (4000, 105.6, 100))),
  TINY_NONE ("clear", "web-clearance", PIPE (V (1000, 105.7, 100) "," V (4000, 105.7, 100))),
  TINY_STOP ("hit", "web-clearance", "hit", 15.388, PIPE (V (1000, 90, 100) "," V (4000, 90, 100))),
  TINY_FIX ("own-clearance", "web-clearance", "near", 20.0915,
            "'runs': [{'id': 'R1', 'service': 'cold', 'material': 'pex', 'od_mm': 50, 'clearance_mm': 30, 'vertices': ["
            V (1000, 105.6, 100) "," V (4000, 105.6, 100) "]}]"),
  TINY_FIX ("insulated", "web-clearance", "near", 9.0915,
            "'runs': [{'id': 'R1', 'service': 'cold', 'material': 'pex', 'od_mm': 50, 'insulation_mm': 9, 'vertices': ["
            V (1000, 105.6, 100) "," V (4000, 105.6, 100) "]}]"),
  TINY_FIX ("socket", "web-clearance", "near", 7.5915,
            "'runs': [{'id': 'R1', 'service': 'waste', 'od_mm': 50, 'socket_mm': 65, 'vertices': [" V (1000, 105.6, 100) "," V (2000, 105.6, 100) "]}]"),
};

static const TinyCase concrete[] = {
  TINY_FIX ("near", "crown-clearance", "near", 1, PIPE (V (1000, 300, 216) "," V (4000, 300, 216))),
  TINY_NONE ("clear", "crown-clearance", PIPE (V (1000, 300, 215) "," V (4000, 300, 215))),
  TINY_STOP ("through", "crown-clearance", "through", NAN, PIPE (V (1000, 300, 100) "," V (1000, 300, 400))),
  TINY_NONE ("drop-in", "crown-clearance",
             "'drop_ins': [{'id': 'DI1', 'at': [1000,300]}],"
             "'runs': [{'id': 'R1', 'service': 'waste', 'od_mm': 50, 'start': 'DI1', 'vertices': [" V (1000, 300, 400) "," V (1000, 300, 100) "]}]"),
  TINY_STOP ("drop-in-elsewhere", "crown-clearance", "through", NAN,
             "'drop_ins': [{'id': 'DI1', 'at': [3000,300]}],"
             "'runs': [{'id': 'R1', 'service': 'waste', 'od_mm': 50, 'start': 'DI1', 'vertices': [" V (1000, 300, 400) "," V (1000, 300, 100) "]}]"),
  TINY_NONE ("topping-sleeve", "crown-clearance",
             PIPE (V (1000, 300, 100) "," V (1000, 300, 400))
             ", 'sleeves': [{'id': 'S1', 'from': [1000,300], 'to': [1000,300], 'through': 'topping', 'z_mm': 290, 'diameter_mm': 70}]"),

  TINY_NONE ("stack", "crown-clearance", "'fittings': [{'kind': 'stack', 'at': [1000,300], 'z_mm': 0, 'length_mm': 110, 'width_mm': 0, 'height_mm': 1000}]"),

  TINY_STOP ("through", "closure", "through", NAN, PIPE (V (1000, 300, 100) "," V (5950, 300, 100))),
  TINY_STOP ("hit", "closure", "hit", 35, PIPE (V (1000, 300, 100) "," V (5840, 300, 100))),
  TINY_FIX ("near", "closure", "near", 1, PIPE (V (1000, 300, 100) "," V (5806, 300, 100))),
  TINY_NONE ("conduit-below", "closure", CONDUIT (BELOW (5900, 300, 4) "," BELOW (5900, 900, 4))),
  TINY_FIX ("conduit-below-without-saddle", "closure", "near", 1, CONDUIT (BELOW (5900, 200, 3) "," BELOW (5900, 400, 3))),
  TINY_NONE ("clear", "closure", PIPE (V (1000, 300, 100) "," V (5805, 300, 100))),
  TINY_NONE ("sleeve", "closure",
             PIPE (V (1000, 300, 100) "," V (5950, 300, 100))
             ", 'sleeves': [{'id': 'S1', 'from': [5840,300], 'to': [6010,300], 'through': 'closure', 'diameter_mm': 80, 'run': 'R1'}]"),

  TINY_STOP ("through", "solid-zone", "through", NAN,
             PIPE (V (1000, 300, 100) "," V (5000, 300, 100)) ", 'solid_zones': [{'outline': [[3000,0],[3500,0],[3500,600],[3000,600]]}]"),
  TINY_FIX ("near", "solid-zone", "near", 1,
            PIPE (V (1000, 300, 100) "," V (2966, 300, 100)) ", 'solid_zones': [{'outline': [[3000,0],[3500,0],[3500,600],[3000,600]]}]"),
  TINY_NONE ("clear", "solid-zone",
             PIPE (V (1000, 300, 100) "," V (2965, 300, 100)) ", 'solid_zones': [{'outline': [[3000,0],[3500,0],[3500,600],[3000,600]]}]"),

  TINY_FIX ("near", "opening-edge", "near", 1,
            PIPE (V (1000, 486, 100) "," V (5000, 486, 100)) ", 'openings': [{'outline': [[2000,560],[3000,560],[3000,1200],[2000,1200]]}]"),
  TINY_NONE ("clear", "opening-edge",
             PIPE (V (1000, 485, 100) "," V (5000, 485, 100)) ", 'openings': [{'outline': [[2000,560],[3000,560],[3000,1200],[2000,1200]]}]"),
  TINY_NONE ("below-the-deck", "opening-edge",
             PIPE (BELOW (1000, 520, 10) "," BELOW (5000, 520, 10)) ", 'openings': [{'outline': [[2000,560],[3000,560],[3000,1200],[2000,1200]]}]"),

  TINY_FIX ("near", "downstand", "near", 1, PIPE (BELOW (2000, 300, 209) "," BELOW (4000, 300, 209)) ", 'beams': [{'from': [3000,0], 'to': [3000,4800]}]"),
  TINY_NONE ("clear", "downstand", PIPE (BELOW (2000, 300, 210) "," BELOW (4000, 300, 210)) ", 'beams': [{'from': [3000,0], 'to': [3000,4800]}]"),
  TINY_STOP ("through", "downstand", "through", NAN, PIPE (BELOW (2000, 300, 50) "," BELOW (4000, 300, 50)) ", 'beams': [{'from': [3000,0], 'to': [3000,4800]}]"),
  TINY_NONE ("sleeve", "downstand",
             PIPE (BELOW (2000, 300, 50) "," BELOW (4000, 300, 50)) ", 'beams': [{'from': [3000,0], 'to': [3000,4800]}],"
             "'sleeves': [{'id': 'S1', 'from': [2870,300], 'to': [3130,300], 'through': 'beam', 'z_mm': -75, 'diameter_mm': 80}]"),

  TINY_FIX ("near", "column", "near", 1, PIPE (BELOW (2000, 384, 50) "," BELOW (4000, 384, 50)) ", 'columns': [{'outline': [[2900,250],[3100,250],[3100,350],[2900,350]]}]"),
  TINY_NONE ("clear", "column", PIPE (BELOW (2000, 385, 50) "," BELOW (4000, 385, 50)) ", 'columns': [{'outline': [[2900,250],[3100,250],[3100,350],[2900,350]]}]"),
  TINY_STOP ("hit", "column", "hit", NAN, PIPE (BELOW (2000, 300, 50) "," BELOW (4000, 300, 50)) ", 'columns': [{'outline': [[2900,250],[3100,250],[3100,350],[2900,350]]}]"),
  TINY_NONE ("shaft", "column", PIPE (BELOW (2000, 300, 50) "," BELOW (4000, 300, 50)) ", 'columns': [{'outline': [[2900,250],[3100,250],[3100,350],[2900,350]], 'kind': 'shaft'}]"),
};

/* Plates every 1500 from the closure: at x 1650, 3150 and 4650. */
#define PLATES "'bays': [{'id': 'B', 'profile': 'p', 'plate_spacing_mm': 1500, 'outline': [[0,0],[6000,0],[6000,4800],[0,4800]]}],"
#define RELEASED "'void': 1, 'plate': 1, 'bay': 'B', 'released_by': 'engineer', 'released_on': '2025-03-01', 'reference': 'L1'"

static const TinyCase plates[] = {
  { "met", "plate", "hit", SW_SEVERITY_STOP, 3, NAN, PLATES PIPE (V (1000, 300, 100) "," V (5000, 300, 100)) },
  TINY_STOP ("one", "plate", "hit", NAN, PLATES PIPE (V (1000, 300, 100) "," V (2000, 300, 100))),
  TINY_NONE ("before", "plate", PLATES PIPE (V (1000, 300, 100) "," V (1600, 300, 100))),
  TINY_FIX ("near", "plate", "near", 1.5, PLATES PIPE (V (1000, 300, 100) "," V (1615, 300, 100))),
  TINY_NOTE ("released", "plate", "released", NAN, PLATES PIPE (V (1000, 300, 100) "," V (2000, 300, 100)) ", 'plates': [{" RELEASED "}]"),
  TINY_NONE ("out", "plate", PLATES PIPE (V (1000, 300, 100) "," V (2000, 300, 100)) ", 'plates': [{" RELEASED ", 'out_on': '2025-03-08'}]"),
  TINY_STOP ("name-alone-is-no-release", "plate", "hit", NAN,
             PLATES PIPE (V (1000, 300, 100) "," V (2000, 300, 100)) ", 'plates': [{'void': 1, 'plate': 1, 'bay': 'B', 'released_by': 'engineer'}]"),
  TINY_FIX ("goes", "plate-hanger", "goes", 11.5,
            PLATES "'fittings': [{'kind': 'hanger', 'at': [1700,300], 'z_mm': 120, 'length_mm': 20, 'width_mm': 20}], 'plates': [{" RELEASED "}]"),
  TINY_NONE ("far-enough", "plate-hanger",
             PLATES "'fittings': [{'kind': 'hanger', 'at': [1711.6,300], 'z_mm': 120, 'length_mm': 20, 'width_mm': 20}], 'plates': [{" RELEASED "}]"),
  TINY_NONE ("plate-stays", "plate-hanger",
             PLATES "'fittings': [{'kind': 'hanger', 'at': [1700,300], 'z_mm': 120, 'length_mm': 20, 'width_mm': 20}]"),
};

#define SLEEVE(fields) "'sleeves': [{'id': 'S1', 'from': [1000,500], 'to': [1000,700], 'z_mm': 100, " fields "}]"
/* Overall depth 300, topping 75. */
#define DEEP_300 "'profiles': [{'id': 'p', 'depth_mm': 225, 'tendons': 'no'}],"

static const TinyCase sleeves[] = {
  TINY_STOP ("open", "sleeve-answer", "open", NAN, SLEEVE ("'answer': 'open'")),
  TINY_FIX ("asked", "sleeve-answer", "asked", NAN, SLEEVE ("'answer': 'asked'")),
  TINY_NOTE ("conditions", "sleeve-answer", "conditions", NAN, SLEEVE ("'answer': 'conditions', 'conditions': 'two more links each side'")),
  TINY_STOP ("refused", "sleeve-answer", "refused", NAN, SLEEVE ("'answer': 'refused'")),
  TINY_NONE ("allowed", "sleeve-answer", SLEEVE ("'answer': 'allowed'")),
  TINY_NONE ("wall-asks-nobody", "sleeve-answer", SLEEVE ("'answer': 'open', 'through': 'wall'")),
  TINY_FIX ("small", "sleeve-size", "small", 1, PIPE (V (1000, 300, 100) "," V (1000, 900, 100)) "," SLEEVE ("'diameter_mm': 68, 'run': 'R1'")),
  TINY_NONE ("large-enough", "sleeve-size", PIPE (V (1000, 300, 100) "," V (1000, 900, 100)) "," SLEEVE ("'diameter_mm': 70, 'run': 'R1'")),
  /* h 300, topping 75: at most 75 wide, centre 112.5 to 200 below the top (derived from the guidance on holes in ribs) */
  TINY_FIX ("large", "rib-hole", "large", 1, DEEP_300 SLEEVE ("'diameter_mm': 76")),
  TINY_NONE ("largest", "rib-hole", DEEP_300 "'sleeves': [{'from': [1000,500], 'to': [1000,700], 'z_mm': 187.5, 'diameter_mm': 75}]"),
  TINY_FIX ("high", "rib-hole", "high", 1, DEEP_300 "'sleeves': [{'from': [1000,500], 'to': [1000,700], 'z_mm': 188.5, 'diameter_mm': 75}]"),
  TINY_NONE ("lowest", "rib-hole", DEEP_300 "'sleeves': [{'from': [1000,500], 'to': [1000,700], 'z_mm': 100, 'diameter_mm': 75}]"),
  TINY_FIX ("low", "rib-hole", "low", 1, DEEP_300 "'sleeves': [{'from': [1000,500], 'to': [1000,700], 'z_mm': 99, 'diameter_mm': 75}]"),
  TINY_NONE ("engineer-has-said-yes", "rib-hole", DEEP_300 SLEEVE ("'diameter_mm': 110, 'answer': 'allowed'")),
};

/* Topping 75: conduit at most a third of it, and the topping at least the conduit and 25. */
#define CAST_IN(od) "'runs': [{'id': 'R1', 'service': 'power', 'od_mm': " #od ", 'stage': 'cast-in', 'vertices': [" \
  "{'at': [1000,300], 'level': 'topping', 'z': 35}, {'at': [1000,900], 'level': 'topping', 'z': 35}]}]"

static const TinyCase others[] = {
  TINY_STOP ("thick", "topping-conduit", "thick", 7, CAST_IN (32)),
  TINY_NONE ("thin", "topping-conduit", CAST_IN (25)),
  /* between the limit of 10 and the 15 by which a rib line may be off */
  TINY_NOTE ("near", "unmeasured", "near", 1, PIPE (V (1000, 109.774, 100) "," V (4000, 109.774, 100))),
  TINY_NONE ("clear", "unmeasured", PIPE (V (1000, 110.9, 100) "," V (4000, 110.9, 100))),
  TINY_NONE ("a-snag-already", "unmeasured", PIPE (V (1000, 105, 100) "," V (4000, 105, 100))),
  TINY_NONE ("measured", "unmeasured",
             PIPE (V (1000, 109.774, 100) "," V (4000, 109.774, 100)) ", 'measures': [{'of': 'B', 'kind': 'rib', 'number': 0, 'value_mm': 0}]"),
};

/* Bay B covers x 0 to 6000, y 0 to 4800. */
#define BAYS(id, points) \
  "'profiles': [{'id': 'p', 'plate_spacing_mm': 0}], 'bays': [{'id': 'B', 'profile': 'p', 'outline': [[0,0],[6000,0],[6000,4800],[0,4800]]}," \
  "{'id': '" id "', 'profile': 'p', 'outline': [" points "]}]"

static const TinyCase bays[] = {
  TINY_STOP ("corner", "bay-over-bay", "over", NAN, BAYS ("C", "[5000,4000],[9000,4000],[9000,8000],[5000,8000]")),
  TINY_STOP ("inside", "bay-over-bay", "over", NAN, BAYS ("C", "[1000,1000],[2000,1000],[2000,2000],[1000,2000]")),
  TINY_STOP ("the-same", "bay-over-bay", "over", NAN, BAYS ("C", "[0,0],[6000,0],[6000,4800],[0,4800]")),
  TINY_STOP ("strip", "bay-over-bay", "over", NAN, BAYS ("C", "[5998,0],[9000,0],[9000,4800],[5998,4800]")),
  TINY_NONE ("side-by-side", "bay-over-bay", BAYS ("C", "[6000,0],[9000,0],[9000,4800],[6000,4800]")),
  TINY_NONE ("drawn-by-hand", "bay-over-bay", BAYS ("C", "[5999.5,0],[9000,0],[9000,4800],[5999.5,4800]")),
  TINY_NONE ("around-the-corner", "bay-over-bay", BAYS ("C", "[6000,-1000],[7000,-1000],[7000,6000],[0,6000],[0,4800],[6000,4800]")),
};

/* 1.0 by 0.8 m, the later bay over the earlier one. */
static void
test_bay_over_bay_says_how_much (void)
{
  g_autoptr (SwSnags) snags = tiny_check (bays[0].records, "bay-over-bay");
  g_assert_cmpuint (sw_snags_n (snags), ==, 1);
  const SwSnag *snag = sw_snags_get (snags, 0);
  g_autoptr (SwSnagText) text = sw_snag_text (snags, snag, NULL);
  g_assert_cmpstr (text->what, ==, "Bay C lies over bay B on 0.800 m², 1000 mm by 800 mm across.");
  sw_assert_near (snag->place.x, 5500, 1);
  sw_assert_near (snag->place.y, 4400, 1);
  sw_assert_near (snag->box.low.x, 5000, 1e-6);
  sw_assert_near (snag->box.high.y, 4800, 1e-6);
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  TINY_ADD ("/checks", ribs);
  TINY_ADD ("/checks", concrete);
  TINY_ADD ("/checks", plates);
  TINY_ADD ("/checks", sleeves);
  TINY_ADD ("/checks", others);
  TINY_ADD ("/checks", bays);
  g_test_add_func ("/checks/bay-over-bay/how-much", test_bay_over_bay_says_how_much);
  return g_test_run ();
}
