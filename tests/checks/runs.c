/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Services against each other. Distances by hand; limits are the rule set's: pipes 25 mm apart, conduits 5, conduit from pipe
 * 100 (a published conduit specification) and from a hot one 150, gas 25, copper from zinc 10, power from unscreened data
 * (class b) 100 × 0.2, for five circuits 100 × 0.4 (EN 50174-2, later edition). */
#include "base/random.h"
#include "tiny.h"

#define WALL_150 "'walls': [{'id': 'W1', 'from': [2000,2000], 'to': [2000,4000], 'thickness_mm': 150, 'head': 'rib'}]"
#define IN_WALL(x0, y0, x1, y1, z0, z1) "'runs': [{'id': 'R1', 'service': 'power', 'od_mm': 20, 'vertices': [{'at': [" #x0 "," #y0 "], 'z': " #z0 "}, {'at': [" #x1 "," #y1 "], 'z': " #z1 "}]}]"
#define V(x, y, z) "{'at': [" #x "," #y "], 'z': " #z "}"
#define ALONG(id, service, od, y, more) \
  "{'id': '" id "', 'service': '" service "', 'od_mm': " #od ", 'socket_mm': " #od ", 'vertices': [" V (1000, y, 120) "," V (4000, y, 120) "]" more "}"
#define PEX ", 'material': 'pex'"
#define RUNS(a, b) "'runs': [" a "," b "]"
#define ROOM(finish) ", 'rooms': [{'id': 'hall', 'finish': '" finish "', 'outline': [[0,0],[6000,0],[6000,4800],[0,4800]]}]"

static const TinyCase clashes[] = {
  TINY_FIX ("near", "run-run", "near", 1, RUNS (ALONG ("R1", "cold", 50, 226, PEX), ALONG ("R2", "cold", 50, 300, PEX))),
  TINY_NONE ("clear", "run-run", RUNS (ALONG ("R1", "cold", 50, 225, PEX), ALONG ("R2", "cold", 50, 300, PEX))),
  TINY_STOP ("hit", "run-run", "hit", 35, RUNS (ALONG ("R1", "cold", 50, 260, PEX), ALONG ("R2", "cold", 50, 300, PEX))),
  TINY_FIX ("conduits", "run-run", "near", 1, RUNS (ALONG ("R1", "power", 20, 276, ""), ALONG ("R2", "power", 20, 300, ""))),
  TINY_NONE ("conduits-clear", "run-run", RUNS (ALONG ("R1", "power", 20, 275, ""), ALONG ("R2", "power", 20, 300, ""))),
  TINY_FIX ("own-clearance", "run-run", "near", 15,
            RUNS (ALONG ("R1", "cold", 50, 225, PEX ", 'clearance_mm': 40"), ALONG ("R2", "cold", 50, 300, PEX))),
  TINY_FIX ("insulation", "run-run", "near", 13,
            RUNS (ALONG ("R1", "cold", 50, 225, PEX ", 'insulation_mm': 13"), ALONG ("R2", "cold", 50, 300, PEX))),
  TINY_STOP ("crossing", "run-run", "hit", 75,
             RUNS (ALONG ("R1", "cold", 50, 300, PEX), "{'id': 'R2', 'service': 'cold', 'material': 'pex', 'od_mm': 50, 'socket_mm': 50, 'vertices': ["
                   V (2000, 150, 120) "," V (2000, 450, 120) "]}")),
  TINY_NONE ("joined-at-a-tee", "run-run",
             "'fittings': [{'id': 'T', 'kind': 'tee', 'at': [2000,300], 'z_mm': 120, 'run': 'R1'}],"
             RUNS (ALONG ("R1", "waste", 50, 300, ""), "{'id': 'R2', 'service': 'waste', 'od_mm': 50, 'end': 'T', 'vertices': ["
                   V (2000, 150, 120) "," V (2000, 300, 120) "]}")),
  TINY_STOP ("joined-elsewhere", "run-run", "hit", NAN,
             "'fittings': [{'id': 'T', 'kind': 'tee', 'at': [3800,300], 'z_mm': 120, 'run': 'R1'}],"
             RUNS (ALONG ("R1", "cold", 50, 300, PEX), "{'id': 'R2', 'service': 'cold', 'material': 'pex', 'od_mm': 50, 'socket_mm': 50, 'end': 'T', 'vertices': ["
                   V (2000, 150, 120) "," V (2000, 450, 120) "," V (3800, 450, 120) "," V (3800, 300, 120) "]}")),
  TINY_STOP ("box-of-another-run", "run-run", "hit", NAN,
             "'fittings': [{'id': 'F1', 'kind': 'box', 'at': [2000,300], 'z_mm': 120}]," "'runs': [" ALONG ("R1", "power", 20, 300, "") "]"),
  TINY_NONE ("box-of-this-run", "run-run",
             "'fittings': [{'id': 'F1', 'kind': 'box', 'at': [2000,300], 'z_mm': 120, 'run': 'R1'}]," "'runs': [" ALONG ("R1", "power", 20, 300, "") "]"),
};

static const TinyCase apart[] = {
  TINY_FIX ("near", "segregation", "near", 1, RUNS (ALONG ("R1", "power", 20, 261, ""), ALONG ("R2", "data", 20, 300, ""))),
  TINY_NONE ("clear", "segregation", RUNS (ALONG ("R1", "power", 20, 260, ""), ALONG ("R2", "data", 20, 300, ""))),
  TINY_FIX ("lighting-too", "segregation", "near", 1, RUNS (ALONG ("R1", "data", 20, 261, ""), ALONG ("R2", "lighting", 20, 300, ""))),
  TINY_NONE ("steel-conduit", "segregation", RUNS (ALONG ("R1", "power", 20, 270, ", 'material': 'steel'"), ALONG ("R2", "data", 20, 300, ""))),
  TINY_FIX ("five-circuits", "segregation", "near", 1,
            "'circuits': [{'id': 'C1', 'cores': 3}]," RUNS (ALONG ("R1", "power", 20, 241, ", 'circuit': 'C1', 'contents': '15 x 2.5 mm2'"), ALONG ("R2", "data", 20, 300, ""))),
  TINY_NONE ("five-circuits-clear", "segregation",
             "'circuits': [{'id': 'C1', 'cores': 3}]," RUNS (ALONG ("R1", "power", 20, 240, ", 'circuit': 'C1', 'contents': '15 x 2.5 mm2'"), ALONG ("R2", "data", 20, 300, ""))),
  TINY_NONE ("fire-alarm-is-not-data", "segregation", RUNS (ALONG ("R1", "power", 20, 275, ""), ALONG ("R2", "fire-alarm", 20, 300, ""))),

  TINY_NOTE ("beside", "conduit-pipe", "near", 1, RUNS (ALONG ("R1", "power", 20, 166, ""), ALONG ("R2", "cold", 50, 300, PEX))),
  TINY_NONE ("clear", "conduit-pipe", RUNS (ALONG ("R1", "power", 20, 165, ""), ALONG ("R2", "cold", 50, 300, PEX))),
  TINY_NOTE ("hot", "conduit-pipe", "near", 50, RUNS (ALONG ("R1", "power", 20, 165, ""), ALONG ("R2", "hot", 50, 300, PEX))),
  TINY_NONE ("crossing", "conduit-pipe",
             RUNS (ALONG ("R1", "cold", 50, 300, PEX), "{'id': 'R2', 'service': 'power', 'vertices': [" V (2000, 150, 190) "," V (2000, 450, 190) "]}")),

  TINY_STOP ("near", "gas-electric", "near", 1, RUNS (ALONG ("R1", "power", 20, 266, ""), ALONG ("R2", "gas", 20, 310, ", 'material': 'steel'"))),
  TINY_NONE ("clear", "gas-electric", RUNS (ALONG ("R1", "power", 20, 265, ""), ALONG ("R2", "gas", 20, 310, ", 'material': 'steel'"))),
  TINY_NONE ("water-through-a-conduit-is-no-gas", "gas-electric", RUNS (ALONG ("R1", "power", 20, 300, ""), ALONG ("R2", "cold", 20, 305, PEX))),
  TINY_NONE ("water-is-no-gas", "gas-electric", RUNS (ALONG ("R1", "power", 20, 266, ""), ALONG ("R2", "cold", 20, 310, PEX))),

  TINY_STOP ("closed", "gas-void", "closed", NAN, "'runs': [" ALONG ("R1", "gas", 20, 300, ", 'material': 'steel'") "]" ROOM ("closed")),
  TINY_NONE ("exposed", "gas-void", "'runs': [" ALONG ("R1", "gas", 20, 300, ", 'material': 'steel'") "]" ROOM ("exposed")),
  TINY_NONE ("below-the-ceiling", "gas-void",
             "'runs': [{'id': 'R1', 'service': 'gas', 'material': 'steel', 'vertices': [{'at': [1000,300], 'level': 'floor', 'z': 2000},"
             "{'at': [4000,300], 'level': 'floor', 'z': 2000}]}]" ROOM ("closed")),
};

/* Copper 22: its side at y 80.31 is 9 from the void's side at z 120, which leans 50 in 250. */
#define COPPER(y, more) "'runs': [{'id': 'R1', 'service': 'cold', 'material': 'copper', 'od_mm': 22, 'socket_mm': 22, 'clearance_mm': 1, 'vertices': [" \
  "{'at': [1000," #y "], 'z': 120}, {'at': [4000," #y "], 'z': 120}]" more "}]"

/* Water that has run over copper eats zinc that it drips on: plumbing practice (never copper above galvanised steel). 15 mm copper at 150;
 * the zinc's side may come to 10 of the pipe's in plan, not nearer. */
#define PIPE_AT(id, service, material, od, x0, y0, x1, y1, z, more) "{'id': '" id "', 'service': '" service "', 'material': '" material "', 'od_mm': " #od ", 'socket_mm': " #od \
  ", 'clearance_mm': 1, 'vertices': [{'at': [" #x0 "," #y0 "], 'z': " #z "}, {'at': [" #x1 "," #y1 "], 'z': " #z "}]" more "}"
#define OVER(service, more, below) RUNS (PIPE_AT ("R1", service, "copper", 15, 1000, 300, 4000, 300, 150, more), below)
#define CROSSED PIPE_AT ("R2", "power", "steel", 20, 2000, 120, 2000, 480, 60, "")

/* Brick wall along x 2000; 20 conduit to a switch at (2000, 2700), 1200 up: upright in the wall from z 120. 22 pipes cross it below the
 * soffit: their middles may come to 10 + 25 + 11 = 46 of it. */
/* A wall along y = from, or leaning to y = to at its end; a switch 1 m along it, its conduit ending in the void beside. */
#define DROP_SET(from, to, y) "'walls': [{'id': 'W', 'from': [1000," #from "], 'to': [2200," #to "]}], 'drops': [{'id': 'D1', 'wall': 'W', 'along_mm': 0}]," \
  "'runs': [{'id': 'R1', 'service': 'power', 'od_mm': 20, 'start': 'D1', 'vertices': [{'at': [1000," #y "], 'z': 60}, {'at': [4000," #y "], 'z': 60}]}]"
#define WALL_DROP(runs) "'walls': [{'id': 'W1', 'from': [2000,2000], 'to': [2000,4000]}], 'drops': [{'id': 'D1', 'wall': 'W1', 'along_mm': 700}]," \
  "'runs': [{'id': 'R1', 'service': 'power', 'od_mm': 20, 'end': 'D1', 'vertices': [{'at': [500,2700], 'z': 120}, {'at': [2000,2700], 'z': 120}]}" runs "]"
#define PASSING(y, z) ",{'id': 'R2', 'service': 'cold', 'material': 'pex', 'od_mm': 22, 'socket_mm': 22, 'vertices': [{'at': [1500," #y "], 'level': 'below', 'z': " #z "}," \
  "{'at': [2500," #y "], 'level': 'below', 'z': " #z "}]}"

static const TinyCase surroundings[] = {
  /* masonry practice: an upright chase up to a third of the leaf */
  /* the same, a level one up to a sixth: 20 mm conduit 5 under the face of a wall of 150 is 25 deep, 6 under it 26; through a wall is no chase; upright up to 50 */
  TINY_NONE ("level-shallow", "chase", WALL_150 "," IN_WALL (2060, 2500, 2060, 3500, -500, -500)),
  TINY_FIX ("level-deep", "chase", "level", NAN, WALL_150 "," IN_WALL (2059, 2500, 2059, 3500, -500, -500)),
  TINY_NONE ("through", "chase", WALL_150 "," IN_WALL (1500, 3000, 2500, 3000, -500, -500)),
  TINY_NONE ("above", "chase", WALL_150 "," IN_WALL (2000, 2500, 2000, 3500, 100, 100)),
  TINY_NONE ("upright-in-a-third", "chase", WALL_150 "," IN_WALL (2035, 3000, 2035, 3000, -1500, -200)),
  TINY_FIX ("upright-deeper", "chase", "upright", NAN, WALL_150 "," IN_WALL (2034, 3000, 2034, 3000, -1500, -200)),
  TINY_FIX ("deep", "chase", "deep", 1, "'walls': [{'id': 'W1', 'from': [2000,2000], 'to': [2000,4000], 'thickness_mm': 90}], 'drops': [{'id': 'D1', 'wall': 'W1', 'along_mm': 700, 'chase_depth_mm': 31}]"),
  TINY_NONE ("not-too-deep", "chase", "'walls': [{'id': 'W1', 'from': [2000,2000], 'to': [2000,4000], 'thickness_mm': 90}], 'drops': [{'id': 'D1', 'wall': 'W1', 'along_mm': 700, 'chase_depth_mm': 30}]"),
  TINY_NONE ("studs", "chase", "'walls': [{'id': 'W1', 'from': [2000,2000], 'to': [2000,4000], 'thickness_mm': 90, 'material': 'stud'}], 'drops': [{'id': 'D1', 'wall': 'W1', 'along_mm': 700, 'chase_depth_mm': 31}]"),
  /* rib 550 to 650 at the soffit, the wall's middle at 600: 550 less 10 of clearance and half of 20 is 530, 70 aside */
  TINY_NOTE ("below-a-rib", "drop-set", "rib", NAN, DROP_SET (600, 600, 400)),
  TINY_NOTE ("on-the-other-side", "drop-set", "rib", NAN, DROP_SET (600, 600, 800)),
  TINY_NONE ("below-a-void", "drop-set", DROP_SET (300, 300, 400)),
  TINY_NONE ("just-within", "drop-set", DROP_SET (530, 530, 400)),
  TINY_NONE ("across-the-ribs", "drop-set", DROP_SET (600, 4200, 400)),
  TINY_STOP ("hit", "wall-drop", "hit", 26, WALL_DROP (PASSING (2720, 60))),
  TINY_FIX ("near", "wall-drop", "near", 6, WALL_DROP (PASSING (2740, 60))),
  TINY_NONE ("beside", "wall-drop", WALL_DROP (PASSING (2747, 60))),
  TINY_NONE ("under-the-switch", "wall-drop", WALL_DROP (PASSING (2720, 1600))),
  TINY_NONE ("its-own-run", "wall-drop", WALL_DROP ("")),
  TINY_STOP ("in-a-beam", "wall-drop", "hit", NAN, "'beams': [{'id': 'DB1', 'from': [2000,2000], 'to': [2000,4000], 'width_mm': 200, 'drop_mm': 300}]," WALL_DROP ("")),

  TINY_FIX ("crosses-steel", "copper-drip", "pipe", NAN, OVER ("cold", "", CROSSED)),
  TINY_FIX ("crosses-steel-slantwise", "copper-drip", "pipe", NAN, OVER ("hot", "", PIPE_AT ("R2", "power", "steel", 20, 1500, 120, 3000, 480, 60, ""))),
  TINY_NONE ("crosses-above", "copper-drip", OVER ("cold", "", PIPE_AT ("R2", "power", "steel", 20, 2000, 120, 2000, 480, 200, ""))),
  TINY_NONE ("crosses-plastic", "copper-drip", OVER ("cold", "", PIPE_AT ("R2", "power", "pvc", 20, 2000, 120, 2000, 480, 60, ""))),
  TINY_NONE ("crosses-sleeved", "copper-drip", OVER ("cold", ", 'insulation_mm': 6", CROSSED)),
  TINY_NONE ("gas-is-dry", "copper-drip", OVER ("gas", "", CROSSED)),
  TINY_NONE ("touches-already", "copper-drip", OVER ("cold", "", PIPE_AT ("R2", "power", "steel", 20, 2000, 120, 2000, 480, 130, ""))),
  TINY_FIX ("beside-the-drop-line", "copper-drip", "pipe", NAN, OVER ("cold", "", PIPE_AT ("R2", "power", "steel", 20, 1000, 327.4, 4000, 327.4, 60, ""))),
  TINY_NONE ("off-the-drop-line", "copper-drip", OVER ("cold", "", PIPE_AT ("R2", "power", "steel", 20, 1000, 327.6, 4000, 327.6, 60, ""))),
  TINY_NONE ("ends-before", "copper-drip", OVER ("cold", "", PIPE_AT ("R2", "power", "steel", 20, 4028, 120, 4028, 480, 60, ""))),
  TINY_FIX ("brass-valve", "copper-drip", "joint", NAN,
            RUNS (PIPE_AT ("R1", "cold", "pex", 20, 1000, 300, 4000, 300, 150, ""), CROSSED) ", 'fittings': [{'id': 'F1', 'kind': 'valve', 'run': 'R1', 'at': [2010,300], 'z_mm': 150, 'length_mm': 80, 'width_mm': 40}]"),
  TINY_NONE ("brass-valve-elsewhere", "copper-drip",
             RUNS (PIPE_AT ("R1", "cold", "pex", 20, 1000, 300, 4000, 300, 150, ""), CROSSED) ", 'fittings': [{'id': 'F1', 'kind': 'valve', 'run': 'R1', 'at': [2100,300], 'z_mm': 150, 'length_mm': 80, 'width_mm': 40}]"),
  /* a set that goes up at 45° over a conduit below its lower end, and over one beside it that lies higher than that end */
  TINY_NONE ("beside-the-foot-of-a-set", "copper-drip",
             "'runs': [{'id': 'R1', 'service': 'cold', 'material': 'copper', 'od_mm': 15, 'socket_mm': 15, 'vertices': [{'at': [2000,300], 'z': 40}, {'at': [2150,300], 'z': 190}]},"
             PIPE_AT ("R2", "power", "steel", 20, 1960, 120, 1960, 480, 120, "") "]"),
  TINY_FIX ("below-the-top-of-a-set", "copper-drip", "pipe", NAN,
            "'runs': [{'id': 'R1', 'service': 'cold', 'material': 'copper', 'od_mm': 15, 'socket_mm': 15, 'vertices': [{'at': [2000,300], 'z': 40}, {'at': [2150,300], 'z': 190}]},"
            PIPE_AT ("R2", "power", "steel", 20, 2140, 120, 2140, 480, 90, "") "]"),

  TINY_FIX ("near", "copper-zinc", "near", 1, COPPER (94.396, "")),
  TINY_NONE ("clear", "copper-zinc", COPPER (95.42, "")),
  TINY_NONE ("plastic-through-a-rib", "copper-zinc", "'runs': [" ALONG ("R1", "cold", 50, 600, PEX) "]"),
  TINY_NONE ("sleeved", "copper-zinc", COPPER (94.396, ", 'insulation_mm': 1")),
  TINY_FIX ("on-steel-conduit", "copper-zinc", "near", 1,
            RUNS (ALONG ("R1", "cold", 22, 300, ", 'material': 'copper'"), ALONG ("R2", "power", 20, 330, ", 'material': 'steel'"))),
  TINY_NONE ("by-plastic-conduit", "copper-zinc", RUNS (ALONG ("R1", "cold", 22, 300, ", 'material': 'copper'"), ALONG ("R2", "power", 20, 330, ""))),

  TINY_FIX ("over", "over-electrical", "over", 95,
            "'fittings': [{'id': 'F1', 'kind': 'box', 'at': [2000,300], 'z_mm': 30}, {'id': 'F2', 'kind': 'valve', 'at': [2005,305], 'z_mm': 150}]"),
  TINY_NONE ("under", "over-electrical",
             "'fittings': [{'id': 'F1', 'kind': 'box', 'at': [2000,300], 'z_mm': 150}, {'id': 'F2', 'kind': 'valve', 'at': [2005,305], 'z_mm': 30}]"),
  TINY_NONE ("beside", "over-electrical",
             "'fittings': [{'id': 'F1', 'kind': 'box', 'at': [2000,300], 'z_mm': 30}, {'id': 'F2', 'kind': 'valve', 'at': [2101,300], 'z_mm': 150}]"),

  /* 22 mm pipe with water of 12 °C in still air of 26 °C and 70 %: 8.1 mm of sleeve (cylinder, lambda 0.038, h 5) */
  TINY_NOTE ("bare", "sweating", "bare", NAN, COPPER (300, "") ROOM ("closed")),
  TINY_NOTE ("thin", "sweating", "thin", NAN, COPPER (300, ", 'insulation_mm': 6") ROOM ("closed")),
  TINY_NONE ("sleeved", "sweating", COPPER (300, ", 'insulation_mm': 9") ROOM ("closed")),
  /* by the formula in Python: a pipe of 15 at 5 °C in air of 26 °C and 70 % wants 12.4 mm; 22 at 10 °C in the same formula 9.66, as derived elsewhere */
  TINY_NOTE ("refrigerant", "sweating", "thin", NAN, "'runs': [" PIPE_AT ("R1", "refrigerant", "copper", 15, 1000, 300, 4000, 300, 120, ", 'insulation_mm': 12") "]" ROOM ("closed")),
  TINY_NONE ("refrigerant-lagged", "sweating", "'runs': [" PIPE_AT ("R1", "refrigerant", "copper", 15, 1000, 300, 4000, 300, 120, ", 'insulation_mm': 13") "]" ROOM ("closed")),
  TINY_NOTE ("condensate", "sweating", "bare", NAN, "'runs': [" PIPE_AT ("R1", "condensate", "pvc", 40, 1000, 300, 4000, 300, 120, "") "]" ROOM ("closed")),
  TINY_NONE ("hot", "sweating", "'runs': [" PIPE_AT ("R1", "hot", "copper", 15, 1000, 300, 4000, 300, 120, "") "]" ROOM ("closed")),
  TINY_NONE ("exposed", "sweating", COPPER (300, "") ROOM ("exposed")),
};

/* Whatever is nearer than asked is found, and nothing else: 70 pipes anywhere in the bay against all pairs of their bodies. */
static void
test_all_pairs (void)
{
  SwRandom random = { 7 };
  GString *records = g_string_new ("'runs': [");
  for (int i = 0; i < 70; i++)
    {
      int x = sw_random_int (&random, 300, 5000), y = sw_random_int (&random, 200, 4500), z = sw_random_int (&random, 40, 200);
      g_string_append_printf (records, "%s{'id': 'R%d', 'service': 'cold', 'material': 'pex', 'od_mm': %d, 'socket_mm': %d, 'vertices': [{'at': [%d,%d], 'z': %d}, {'at': [%d,%d], 'z': %d}]}",
                              i > 0 ? "," : "", i, sw_random_int (&random, 15, 60), 62, x, y, z, x + sw_random_int (&random, -1500, 1500), y + sw_random_int (&random, 10, 800), z);
    }
  g_autofree char *text = g_string_free (g_string_append (records, "]"), FALSE);
  g_autoptr (SwSnags) snags = tiny_check (text, "run-run");
  const SwSpace *space = sw_snags_space (snags);
  g_autoptr (GHashTable) found = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL), wanted = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  for (guint i = 0; i < sw_snags_n (snags); i++)
    g_hash_table_add (found, g_strdup_printf ("%" G_GINT64_FORMAT "-%" G_GINT64_FORMAT, sw_snags_get (snags, i)->owners[0], sw_snags_get (snags, i)->owners[1]));
  for (guint i = 0; i < sw_space_n_bodies (space); i++)
    for (guint k = i + 1; k < sw_space_n_bodies (space); k++)
      {
        const SwBody *a = sw_space_body (space, i), *b = sw_space_body (space, k);
        gboolean runs = SW_ID_TABLE (a->owner) == SW_TABLE_RUN && SW_ID_TABLE (b->owner) == SW_TABLE_RUN && a->owner != b->owner;
        if (runs && sw_solid_clearance (&a->solid, &b->solid, NULL) < 25 - 0.005)
          g_hash_table_add (wanted, g_strdup_printf ("%" G_GINT64_FORMAT "-%" G_GINT64_FORMAT, a->owner, b->owner));
      }
  g_assert_cmpuint (g_hash_table_size (wanted), >, 30);
  g_assert_cmpuint (g_hash_table_size (found), ==, g_hash_table_size (wanted));
  GHashTableIter iter;
  gpointer pair;
  g_hash_table_iter_init (&iter, wanted);
  while (g_hash_table_iter_next (&iter, &pair, NULL))
    g_assert_true (g_hash_table_contains (found, pair));
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  TINY_ADD ("/checks", clashes);
  TINY_ADD ("/checks", apart);
  TINY_ADD ("/checks", surroundings);
  g_test_add_func ("/checks/run-run/all-pairs", test_all_pairs);
  return g_test_run ();
}
