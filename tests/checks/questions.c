/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Each calculation by itself: answers against worked examples, the working's shape, and what is refused. */
#include "checks/questions.h"
#include "checks/working_text.h"
#include "support.h"
#include <math.h>
#include <string.h>

static SwRules *
load (const char *name)
{
  return sw_test_rules (name);
}

/* "depth=255 od=110" */
static SwWorking *
ask (const char *rule_set, const char *id, const char *given, GError **error)
{
  g_autoptr (SwRules) rules = load (rule_set);
  g_autoptr (GHashTable) table = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  g_auto (GStrv) parts = g_strsplit (given, " ", -1);
  for (char **part = parts; *part != NULL; part++)
    {
      g_auto (GStrv) pair = g_strsplit (*part, "=", 2);
      if (**part != '\0')
        g_hash_table_insert (table, g_strdup (pair[0]), g_strdup (pair[1]));
    }
  return sw_question_ask (sw_questions_find (id), rules, table, error);
}

typedef struct
{
  const char *id, *given, *symbol;
  double value, tolerance;
  SwVerdict verdict;
  const char *rule_set; /* NULL: South Africa */
} Example;

static const Example examples[] = {
  /* by hand: void 255 deep, 110 pipe, socket 128, 20 over it, 1:60 */
  { "fall-run", "depth=255 od=110", "L", 6420, 0.01, SW_VERDICT_NONE },
  { "fall-run", "depth=255 od=110 start=pipe", "L", 6960, 0.01, SW_VERDICT_NONE },
  { "fall-run", "depth=255 od=110 start=pipe", "L₀", 7500, 0.01, SW_VERDICT_NONE },
  { "fall-run", "depth=255 od=110 start=pipe fall=1:40", "L", 4640, 0.01, SW_VERDICT_NONE },
  { "fall-run", "depth=250 start=wc", "L", 3360, 0.01, SW_VERDICT_NONE },
  { "fall-run", "depth=150 od=50", "L", 2600, 0.01, SW_VERDICT_NONE },
  { "fall-run", "depth=120 od=110", "L", 0, 0, SW_VERDICT_BAD },
  /* Manning: T = 1:60, 103.6 bore, by hand; a table of EN 12056-2 annex B as remembered */
  { "part-full-flow", "bore=103.6 fall=60 formula=manning", "Q", 4.330, 1e-3, SW_VERDICT_GOOD },
  { "part-full-flow", "bore=96 fall=100 filling=0.7", "Q", 4.2, 0.05, SW_VERDICT_GOOD },
  { "part-full-flow", "bore=96 fall=200", "V", 0.5, 0.05, SW_VERDICT_BAD },
  { "part-full-depth", "bore=103.6 fall=60 flow=2 formula=manning", "h", 33.9, 0.05, SW_VERDICT_GOOD },
  { "part-full-depth", "bore=103.6 fall=60 flow=20", "h/d", NAN, 0, SW_VERDICT_BAD },
  /* published design sheets: 26.1 units → 2.55 l/s; a flat by hand */
  { "waste-flow", "units=26.1", "Qww", 2.55, 0.005, SW_VERDICT_NONE },
  { "waste-flow", "units=0.5,0.8,2.0,2x0.8", "Qww", 1.107, 5e-4, SW_VERDICT_NONE },
  { "waste-flow", "units=0.5,0.8,2.0,2x0.8", "Q", 2.0, 1e-9, SW_VERDICT_NONE },
  { "waste-flow", "units=6x2.0,4x0.5,2x0.8 use=frequent", "Qww", 2.765, 5e-4, SW_VERDICT_NONE },
  /* dew point page: 26 °C, 60 % → 17.6 °C; thickness by hand */
  { "sweating", "humidity=60", "Td", 17.6, 0.05, SW_VERDICT_BAD },
  { "sweating", "od=22 water=10 where=room", "s", 6.51, 0.03, SW_VERDICT_BAD },
  { "sweating", "od=22 water=10 where=room", "s'", 9, 0, SW_VERDICT_BAD },
  { "sweating", "od=22 water=25", "s", 0, 0, SW_VERDICT_GOOD },
  /* six 3.5 mm cables in a bore of 16.9: 25.7 %; three of 5.7 jam there */
  { "conduit-size", "cables=6x3.5", "size", 20, 0, SW_VERDICT_NONE },
  { "conduit-size", "cables=6x3.5", "fill", 25.74, 0.01, SW_VERDICT_NONE },
  { "conduit-size", "cables=3x5.7", "J", 3.113, 5e-4, SW_VERDICT_BAD },
  { "conduit-size", "cables=15x3.5", "size", 32, 0, SW_VERDICT_NONE },
  /* NEC annex C.1 */
  { "conduit-count", "bore-area=0.864 wire-area=0.1562", "N", 1, 0, SW_VERDICT_NONE, "north-america" },
  { "conduit-count", "bore-area=0.304 wire-area=0.0507", "N", 2, 0, SW_VERDICT_NONE, "north-america" },
  { "conduit-count", "bore-area=1.496 wire-area=0.0133", "N", 45, 0, SW_VERDICT_NONE, "north-america" },
  /* on-site guide, appendix E: six 4 mm² stranded, 3 m straight → 348, 20 mm */
  { "conduit-units", "cables=6x4 length=3", "Σc", 348, 0, SW_VERDICT_NONE, "britain" },
  { "conduit-units", "cables=6x4 length=3", "size", 20, 0, SW_VERDICT_NONE, "britain" },
  { "conduit-units", "cables=6x4 length=5 bends=2", "C", 358, 0, SW_VERDICT_NONE, "britain" },
  /* derived: 2 mm on a rib of 100, 52 on 150; a 50 pipe in 300 may be asked for, a 110 may not */
  { "drill-strip", "rib=100", "w", 2, 0, SW_VERDICT_BAD },
  { "drill-strip", "rib=150", "w", 52, 0, SW_VERDICT_GOOD },
  { "rib-hole", "depth=300 pipe=50", "d", 70, 0, SW_VERDICT_GOOD },
  { "rib-hole", "depth=300 pipe=55", "a₁", 112.5, 0, SW_VERDICT_GOOD },
  { "rib-hole", "depth=300 pipe=50", "a₂", 200, 1e-6, SW_VERDICT_GOOD },
  { "rib-hole", "depth=300 pipe=110", "d", 130, 0, SW_VERDICT_BAD },
  /* published bending charts and geometry */
  { "offset-bend", "height=113", "m", 226, 1e-9, SW_VERDICT_NONE },
  { "offset-bend", "height=113", "p", 195.7, 0.05, SW_VERDICT_NONE },
  { "offset-bend", "height=113", "s", 30.28, 0.005, SW_VERDICT_NONE },
  { "bend-arc", "radius=60", "b", 94.25, 0.005, SW_VERDICT_NONE },
  { "bend-arc", "radius=60", "g", 25.75, 0.005, SW_VERDICT_NONE },
  /* 18 mV: 20 A, 25 m → 9.00 V, 3.91 % */
  { "volt-drop", "amps=20 length=25", "ΔU", 9, 1e-9, SW_VERDICT_GOOD },
  { "volt-drop", "amps=20 length=25", "ΔU%", 3.913, 5e-4, SW_VERDICT_GOOD },
  { "volt-drop", "amps=20 length=35", "ΔU%", 5.478, 5e-4, SW_VERDICT_BAD },
  { "volt-drop", "mm2=4 amps=25 length=40 phases=3", "ΔU", 9.5, 1e-9, SW_VERDICT_GOOD },
  /* IEC 60364-5-52: 24 A × 0.65 × 0.94 */
  { "rating", "amps=24 circuits=4", "Iz", 15.6, 1e-9, SW_VERDICT_NONE },
  { "rating", "amps=24 circuits=4 air=35", "Iz", 14.664, 1e-9, SW_VERDICT_NONE },
  /* 36 lb round a quarter bend → 79 lb, any unit of force */
  { "pull", "before=36 weight=0 length=0", "T₃", 79, 0.05, SW_VERDICT_NONE },
  /* NEC 352.44 */
  { "growth", "length=10", "ΔL", 12.17, 0.005, SW_VERDICT_BAD },
  { "growth", "length=4", "Lmax", 4.93, 0.005, SW_VERDICT_GOOD },
  { "growth", "length=1 range=25", "ΔL", 1.52, 0.002, SW_VERDICT_GOOD },
  /* the same by mm²: 2.5 mm² singles of 3.5 mm; flat cables as ellipses; a 2.5 mm² table has no row 3 */
  { "conduit-size", "cables=6x2.5 by=solid", "fill", 25.74, 0.01, SW_VERDICT_NONE },
  { "conduit-size", "cables=1x2.5 by=flat", "a", 56.0, 0.01, SW_VERDICT_NONE },
  /* worked answer of a steel-tube trade institute: 3 of 12, 4 of 10, 8 of 8 gauge are 0.4171 in² and need 1-1/4 */
  { "conduit-trade", "wires=3x12,4x10,8x8", "Σa", 0.4171, 1e-4, SW_VERDICT_NONE, "north-america" },
  { "conduit-trade", "wires=3x12,4x10,8x8", "A", 1.496, 0, SW_VERDICT_NONE, "north-america" },
  { "conduit-trade", "wires=16x14", "A", 0.533, 0, SW_VERDICT_NONE, "north-america" },
  /* NEC chapter 9: one wire may fill 53 %, a nipple 60 % */
  { "conduit-trade", "wires=2/0", "A", 0.533, 0, SW_VERDICT_NONE, "north-america" },
  { "conduit-trade", "wires=1x0.182 nipple=yes", "A", 0.304, 0, SW_VERDICT_NONE, "north-america" },
  /* IEC 60364-5-52's example, whole: four 2.5 mm² circuits at 35 °C carry 14.66 A; 18 mV: 20 A, 25 m → 3.913 % */
  { "circuit", "amps=14 length=25 circuits=4 air=35", "Iz", 14.664, 1e-6, SW_VERDICT_GOOD },
  { "circuit", "amps=14 length=25 circuits=4 air=35", "A", 2.5, 0, SW_VERDICT_GOOD },
  { "circuit", "amps=15 length=25 circuits=4 air=35", "A", 4, 0, SW_VERDICT_GOOD },
  { "circuit", "amps=20 length=25", "ΔU%", 3.913, 5e-4, SW_VERDICT_GOOD },
  { "circuit", "amps=20 length=25", "Lmax", 31.944, 1e-3, SW_VERDICT_GOOD },
  { "circuit", "amps=10 length=30 use=lighting", "A", 2.5, 0, SW_VERDICT_GOOD, "britain" },
  { "circuit", "amps=100 length=25", "A", NAN, 0, SW_VERDICT_BAD },
  /* flat cable above a ceiling with thick insulation, BS 7671 table 4D5: 1.5 mm² is not enough for 16 A, nor 2.5 at 17 A for 20 A */
  { "circuit", "amps=16 length=10 method=above-board-thick", "A", 2.5, 0, SW_VERDICT_GOOD },
  { "circuit", "amps=10 protection=20 length=10 method=above-board-thick", "A", 4, 0, SW_VERDICT_GOOD },
  /* EN 50174-2 by A = S P: 100 · 0.4 with five circuits; 38 · 2 with twenty */
  { "segregation", "cable=category-6-unscreened circuits=5", "a", 40, 1e-9, SW_VERDICT_NONE },
  { "segregation", "cable=category-6-screened between=open circuits=20", "a", 76, 1e-9, SW_VERDICT_NONE },
  /* IEC 60364-5-52 and NEC 310.15(C)(1) as remembered: no more than two diameters clear for more than 600 mm; BS 7671 table 4C1: 0.80 for two,
   * 0.65 for four */
  { "conduits-beside", "clear=40 length=0.7", "N", 2, 0, SW_VERDICT_BAD },
  /* IEC 60364-5-52, from memory: what carries up to 30 % of its grouped rating is left out */
  { "conduits-beside", "clear=40 length=0.7 others=3 light=2", "N", 2, 0, SW_VERDICT_BAD },
  { "conduits-beside", "clear=41 length=0.7", "N", 1, 0, SW_VERDICT_GOOD },
  { "conduits-beside", "clear=0 length=0.6", "N", 1, 0, SW_VERDICT_GOOD },
  { "conduits-beside", "od=25 clear=50 length=5 own=2 others=2", "kg", 0.65, 1e-9, SW_VERDICT_BAD },
  { "cable-length", "length=12 boxes=2 boards=1 cores=3", "Σl", 39.9, 1e-9, SW_VERDICT_NONE },
  /* units come with their values */
  { "volt-drop", "amps=20A length=2500cm", "ΔU", 9, 1e-9, SW_VERDICT_GOOD },
  { "fall-run", "depth=25.5cm od=110mm fall=2.5%", "L", 4280, 0.01, SW_VERDICT_NONE },
  /* by hand: a void of 500/400 by 250 is 420 wide at 200; the plates at 0, 1.5 … between 0.3 and 6.3 m */
  { "void-width", "height=200", "w", 420, 1e-9, SW_VERDICT_NONE },
  { "plates-met", "from=0.3 to=6.3", "n", 4, 0, SW_VERDICT_NONE },
  { "plates-met", "from=6.3 to=0.3", "n", 4, 0, SW_VERDICT_NONE },
  { "plates-met", "from=1.5 to=3", "n", 2, 0, SW_VERDICT_NONE },
  { "plates-met", "first=0.5 from=0 to=0.4", "n", 0, 0, SW_VERDICT_NONE },
  /* 250 deep, 10 at the crown and 5 above the battens: 235 */
  { "largest-tube", "mouth=600 crown=600", "Dmax", 235, 1e-6, SW_VERDICT_NONE },
  { "largest-tube", "mouth=600 crown=600", "z", 122.5, 1e-6, SW_VERDICT_NONE },
  { "fit", "tubes=110,2x25", "p", 12.31, 0.01, SW_VERDICT_GOOD },
  { "fit", "tubes=250", "p", 43.63, 0.01, SW_VERDICT_BAD },
  { "fit", "tubes=6x110 sockets=no", "p", 50.68, 0.01, SW_VERDICT_BAD },
  /* derived: with a spacer saddle and its coupler 20 needs 26.5, 32 needs 40.5 */
  { "rib-crossing", "size=20 batten=38", "e", 11.5, 1e-9, SW_VERDICT_GOOD },
  { "rib-crossing", "size=32 batten=38", "e", -2.5, 1e-9, SW_VERDICT_BAD },
  { "rib-crossing", "size=32 batten=50", "e", 9.5, 1e-9, SW_VERDICT_GOOD },
  /* ACI 318 as remembered and a joist handbook: a third of the topping, and 25 mm more than the conduit */
  { "topping-conduit", "od=25 topping=75", "Dmax", 25, 1e-9, SW_VERDICT_GOOD },
  { "topping-conduit", "od=32 topping=75", "Dmax", 25, 1e-9, SW_VERDICT_BAD },
  /* a textbook's clip tables: 15 mm copper each 1.2 m; 40 mm waste each 0.5 m */
  { "supports", "kind=copper od=15 length=6", "n", 6, 0, SW_VERDICT_NONE },
  { "supports", "kind=waste od=40 length=3", "n", 7, 0, SW_VERDICT_NONE },
  /* by hand: water in a bore of 103.6 is 8.43 kg/m; the hanger of a full 110 bears about 99 N at 1 m */
  /* by hand: 9.81 (8.6 + 300/60) = 0.133 kPa; 184 W at 230 V; a level quarter bend, one that rises at 45°, and one in space: arccos(1/2);
   * 20 conduit, 2.5 and 3 diameters; four quarter bends and 25 m; 110 with its socket of 128 and 20 over it in 255 (T2.8b) */
  { "suspended-load", "area=60 ceiling=8.6 runs=300", "q", 0.13342, 5e-5, SW_VERDICT_GOOD },
  { "suspended-load", "area=60 ceiling=8.6 runs=280 lights=20 fittings=8", "q", 0.13342, 5e-5, SW_VERDICT_GOOD }, /* 20 of 0.6 kg are 12 */
  { "suspended-load", "area=60 ceiling=8.6 runs=300 allowed=0.1", "q", 0.13342, 5e-5, SW_VERDICT_BAD },
  { "load-current", "watts=184", "Ib", 0.8, 1e-9, SW_VERDICT_NONE },
  { "load-current", "watts=6928.2 phases=3 protection=9.9", "Ib", 10, 1e-4, SW_VERDICT_BAD },
  { "true-turn", "", "β", 90, 1e-9, SW_VERDICT_NONE },
  { "true-turn", "plan=0 second-rise=1000", "β", 45, 1e-9, SW_VERDICT_NONE },
  { "true-turn", "first-rise=1000 second-rise=1000", "β", 60, 1e-9, SW_VERDICT_NONE },
  { "conduit-radius", "", "r", 50, 1e-9, SW_VERDICT_NONE },
  { "conduit-radius", "", "R", 60, 1e-9, SW_VERDICT_NONE },
  { "draw-boxes", "turn=180 length=10", "N", 0, 0, SW_VERDICT_GOOD },
  { "draw-boxes", "turn=360 length=10", "N", 1, 0, SW_VERDICT_BAD },
  { "draw-boxes", "turn=90 length=25", "N", 2, 0, SW_VERDICT_BAD },
  { "cover", "depth=255 axis=171", "o", 20, 1e-9, SW_VERDICT_GOOD },
  { "cover", "depth=255 axis=68", "u", 4, 1e-9, SW_VERDICT_BAD },
  { "hanging-load", "", "m₂", 8.43, 0.005, SW_VERDICT_NONE },
  { "hanging-load", "", "F", 98, 2, SW_VERDICT_NONE },
  { "hanging-load", "contents=nothing", "m₂", 0, 0, SW_VERDICT_NONE },
  /* EN 1995-1-1 8.7.2 by hand: 6 mm, 40 mm in 350 kg/m³ → 15.92 N/mm², 2866 N; a 3.1 nail 228 N */
  { "pull-out", "", "f", 15.92, 0.005, SW_VERDICT_GOOD },
  { "pull-out", "", "F", 2866, 1, SW_VERDICT_GOOD },
  { "pull-out", "fixing=nail diameter=3.1 depth=30", "F", 228, 0.5, SW_VERDICT_BAD },
  /* masonry practice: a third upright, a sixth level */
  { "chase", "leaf=120 box=45", "e₁", 40, 1e-9, SW_VERDICT_BAD },
  { "chase", "leaf=120 box=35", "e₂", 20, 1e-9, SW_VERDICT_GOOD },
  /* EN 12056-2: a published bathroom of 0.8, 0.5, 0.5 and 2.5; the fixtures by their names */
  { "waste-flow", "units=bath,basin,bidet,wc-9l", "Qww", 1.04, 0.005, SW_VERDICT_NONE },
  { "waste-flow", "units=bath,basin,bidet,wc-9l", "Q", 2.5, 1e-9, SW_VERDICT_NONE },
  { "waste-branch", "units=basin", "DN", 40, 0, SW_VERDICT_GOOD },
  { "waste-branch", "units=bath", "DN", 50, 0, SW_VERDICT_GOOD },
  { "waste-branch", "units=wc-9l wc=yes", "DN", 100, 0, SW_VERDICT_GOOD },
  { "waste-branch", "units=wc-9l wc=yes length=5", "L₀", 4, 0, SW_VERDICT_BAD },
  { "waste-branch", "units=wc-9l wc=yes length=5 vent=yes", "DN", 90, 0, SW_VERDICT_GOOD },
  { "waste-branch", "units=10x2.5 use=special", "DN", NAN, 0, SW_VERDICT_BAD },
  /* EN 12056-2: a stack with a WC is at least DN 100 */
  { "waste-stack", "flow=1", "DN", 100, 0, SW_VERDICT_NONE },
  { "waste-stack", "flow=1 wc=no", "DN", 70, 0, SW_VERDICT_NONE },
  { "waste-stack", "flow=5", "DN", 125, 0, SW_VERDICT_NONE },
  { "waste-stack", "flow=5 entry=swept", "DN", 100, 0, SW_VERDICT_NONE },
  /* EN 12056-2 annex B as remembered: DN 100 half full carries 2.5 l/s at 1 %, DN 150 at 0.7 carries 12.8 */
  { "waste-pipe", "flow=2.4 fall=1%", "DN", 100, 0, SW_VERDICT_GOOD },
  { "waste-pipe", "flow=2.6 fall=1%", "DN", 125, 0, SW_VERDICT_GOOD },
  { "waste-pipe", "flow=12.7 fall=1% place=ground", "DN", 150, 0, SW_VERDICT_GOOD },
  { "waste-pipe", "flow=100", "DN", NAN, 0, SW_VERDICT_BAD },
  /* IPC table 710.1(1): 4 in takes 180 at 1/8; 3 in stops at 42 at 1/4 */
  { "building-drain", "units=100 fall=eighth", "D", 4, 0, SW_VERDICT_NONE, "north-america" },
  { "building-drain", "units=43", "D", 4, 0, SW_VERDICT_NONE, "north-america" },
  { "building-drain", "units=14x3", "D", 3, 0, SW_VERDICT_NONE, "north-america" },
  { "building-drain", "units=5xwc-public,2xbasin wc=yes", "D", 3, 0, SW_VERDICT_NONE, "north-america" },
  { "fall-table", "depth=150", "Dmax", 75, 0, SW_VERDICT_NONE },
  /* EN 806-3 units; the German formulas by hand: 12 units → 0.600 and 0.592 l/s */
  { "water-flow", "outlets=basin,wc-cistern,shower,bath,sink,washing-machine", "ΣLU", 12, 0, SW_VERDICT_NONE },
  { "water-flow", "outlets=12x1", "Vs", 0.600, 1e-3, SW_VERDICT_NONE },
  { "water-flow", "outlets=12x1 formula=dwellings-newer", "Vs", 0.592, 1e-3, SW_VERDICT_NONE },
  { "water-flow", "outlets=20x1", "Vs", 0.792, 1e-3, SW_VERDICT_NONE },
  { "water-flow", "outlets=20x1", "Cu", 22, 0, SW_VERDICT_NONE },
  { "water-flow", "outlets=flush-valve-dn20", "Vs", 1.5, 1e-9, SW_VERDICT_NONE },
  /* NSPC table B.5.4: 10 units, flush tanks: 8 gallons a minute */
  { "water-fixtures", "units=10", "Q", 0.505, 1e-3, SW_VERDICT_NONE, "north-america" },
  /* Darcy and Colebrook by hand, twice; Hazen and Williams */
  { "pressure-loss", "bore=13 flow=0.20 length=10", "v", 1.507, 1e-3, SW_VERDICT_GOOD },
  { "pressure-loss", "bore=13 flow=0.20 length=10", "Re", 19510, 20, SW_VERDICT_GOOD },
  { "pressure-loss", "bore=13 flow=0.20 length=10", "f", 0.02629, 1e-5, SW_VERDICT_GOOD },
  { "pressure-loss", "bore=13 flow=0.20 length=10", "h", 2.340, 5e-3, SW_VERDICT_GOOD },
  { "pressure-loss", "bore=12 flow=0.15 length=10 material=multilayer", "h", 2.131, 5e-3, SW_VERDICT_GOOD },
  { "pressure-loss", "bore=20 flow=0.40 length=10 formula=hazen", "h", 1.084, 2e-3, SW_VERDICT_GOOD },
  { "pressure-loss", "bore=13 flow=0.30 length=10", "v", 2.26, 0.01, SW_VERDICT_BAD },
  { "pressure-loss", "bore=13 flow=0.30 length=10 leg=dead-leg", "v", 2.26, 0.01, SW_VERDICT_GOOD },
  /* a trade journal on SANS 10252-1: 0.150 l/m → 26.66 m */
  { "dead-leg", "bore=13.82 length=20", "Lmax", 26.66, 0.02, SW_VERDICT_GOOD },
  { "dead-leg", "bore=13.82 length=30", "V", 4.5, 0.01, SW_VERDICT_BAD },
  /* by hand: 22 pipe, R 1.0, λ 0.04: D/2 ln(D/22) = 40, D 69.5 → s 23.8 */
  { "hot-sleeve", "od=22 conductivity=0.04", "s", 23.76, 0.01, SW_VERDICT_NONE },
  /* growth by hand with published coefficients: copper 6 m, 50 K → 5.1; PE-X 0.18 → 54; uPVC 0.06, 30 K → 10.8 */
  { "pipe-growth", "length=6", "ΔL", 5.1, 1e-9, SW_VERDICT_NONE },
  { "pipe-growth", "length=6 material=pe-x", "ΔL", 54, 1e-9, SW_VERDICT_BAD },
  { "pipe-growth", "length=6 material=upvc range=30", "ΔL₁", 10.8, 1e-9, SW_VERDICT_BAD },
  /* the rule of the check: 10 mm a straight (from memory), at 0.07 mm a metre and kelvin and 30 K 4.76 m */
  { "pipe-growth", "length=6 material=upvc range=30", "Lmax", 4.762, 1e-3, SW_VERDICT_BAD },
  { "pipe-growth", "length=6 material=upvc range=30", "n", 1, 0, SW_VERDICT_BAD },
  { "pipe-growth", "length=4.7 material=upvc range=30", "n", 0, 0, SW_VERDICT_GOOD },
  /* derived: a rib crossing turns 200 to 355 degrees in space; 45° sets alone turn 4 · 45; from along the void cos φ is 0: 90 + 45 twice */
  { "rib-turns", "drop=150 set=150", "Σφ", 270, 1e-6, SW_VERDICT_BAD },
  { "rib-turns", "drop=150 set=150 way=across", "Σφ", 180, 1e-6, SW_VERDICT_GOOD },
  { "rib-turns", "drop=20 set=200", "Σφ", 191.4, 0.05, SW_VERDICT_BAD },
  /* guidance on BS 7671: 3 diameters to 10 mm, 4 to 25, 6 above and for armoured ones */
  { "cable-radius", "od=10", "r", 30, 1e-9, SW_VERDICT_NONE },
  { "cable-radius", "od=11.5", "r", 46, 1e-9, SW_VERDICT_NONE },
  { "cable-radius", "od=20 kind=armoured", "r", 120, 1e-9, SW_VERDICT_NONE },
  /* rules of thumb in two public notes: 110 at 1:60, flattest 1:120 */
  { "gradient", "fall=60", "S", 16.667, 1e-3, SW_VERDICT_GOOD },
  { "gradient", "fall=100", "S", 10, 1e-9, SW_VERDICT_GOOD },
  { "gradient", "fall=130", "S", 7.692, 1e-3, SW_VERDICT_BAD },
  { "gradient", "fall=10", "S", 100, 1e-9, SW_VERDICT_BAD },
  /* Approved Document H: a WC falls 18 to 90 mm a metre and runs 6 m; a basin 1.7 m */
  { "single-branch", "branch=wc-100 length=5 fall=40", "e", 1, 1e-9, SW_VERDICT_GOOD, "britain" },
  { "single-branch", "branch=wc-100 length=5 fall=60", "S", 16.667, 1e-3, SW_VERDICT_BAD, "britain" },
  { "single-branch", "branch=wc-100 length=7", "e", -1, 1e-9, SW_VERDICT_BAD, "britain" },
  { "single-branch", "branch=basin-32 length=1.7", "L₀", 1.7, 0, SW_VERDICT_GOOD, "britain" },
  /* by hand: 6 m at 1:60 lose 100 mm */
  { "invert", "start=1850 length=6m", "z₂", 1750, 1e-9, SW_VERDICT_NONE },
  /* derived: a hole of 150 lies over a crown of 400 in 250 of 600 mm; a wall of 45 dB and 2.6 m is left with 11.7 dB */
  { "drop-in", "", "w", 41.667, 1e-3, SW_VERDICT_GOOD },
  { "drop-in", "off=210", "m", 85, 1e-9, SW_VERDICT_BAD },
  { "drop-in", "od=50 off=150", "m", 0, 0, SW_VERDICT_GOOD },
  { "wall-gap", "", "S₀", 0.1125, 1e-9, SW_VERDICT_BAD },
  { "wall-gap", "", "S", 0.1875, 1e-9, SW_VERDICT_BAD },
  { "wall-gap", "", "R", 11.7, 0.05, SW_VERDICT_BAD },
};

static void
run_example (gconstpointer data)
{
  const Example *example = data;
  GError *error = NULL;
  g_autoptr (SwWorking) working = ask (example->rule_set != NULL ? example->rule_set : "south-africa", example->id, example->given, &error);
  g_assert_no_error (error);
  if (working == NULL)
    return;
  const SwWorkingLine *line = sw_working_find (working, example->symbol);
  g_assert_nonnull (line);
  if (isnan (example->value))
    g_assert_true (isnan (line->value));
  else
    sw_assert_near (line->value, example->value, example->tolerance);
  g_assert_cmpint (working->verdict, ==, example->verdict);
  g_assert_true ((working->said != NULL) == (working->verdict != SW_VERDICT_NONE));
}

/* Each line says what it is and where its number comes from; there is an answer. */
static void
test_shape (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (examples); i++)
    {
      g_autoptr (SwWorking) working = ask (examples[i].rule_set != NULL ? examples[i].rule_set : "south-africa", examples[i].id, examples[i].given, NULL);
      g_assert_nonnull (sw_working_nth_answer (working, 0));
      for (guint k = 0; k < working->lines->len; k++)
        {
          const SwWorkingLine *line = &g_array_index (working->lines, SwWorkingLine, k);
          g_assert_cmpstr (line->what, !=, "");
          g_assert_true ((line->kind == SW_LINE_RULE) == (line->rule.rule_id != NULL));
          if (line->kind == SW_LINE_RULE)
            g_assert_cmpstr (line->rule.source, !=, "");
          if (line->kind == SW_LINE_STEP)
            g_assert_nonnull (line->formula);
        }
    }
}

static void
test_refused (void)
{
  static const struct { const char *id, *given, *part; SwErrorCode code; } wrong[] = {
    { "fall-run", "", "depth: has to be given", SW_ERROR_INVALID },
    { "fall-run", "depth=five", "depth: ", SW_ERROR_INVALID },
    { "fall-run", "depth=5", "depth: \"5\" is not from 20 to 2000", SW_ERROR_INVALID },
    { "fall-run", "depth=250 width=3", "width: fall-run does not ask for it", SW_ERROR_INVALID },
    { "fall-run", "depth=250 start=roof", "start: \"roof\" is none of", SW_ERROR_INVALID },
    { "fall-run", "depth=250 od=400", "400", SW_ERROR_NOT_FOUND },
    { "waste-flow", "units=0.5,,x", "units: ", SW_ERROR_NOT_FOUND },
    { "waste-flow", "units=0x2", "units: \"0x2\"", SW_ERROR_INVALID },
    { "waste-flow", "units=,", "units: needs 1 to", SW_ERROR_INVALID },
    { "conduit-count", "bore-area=1 wire-area=0.1", "conduit.fill_count", SW_ERROR_NOT_FOUND },
    { "conduit-size", "cables=1000x20", "use two", SW_ERROR_NOT_FOUND },
    { "conduit-units", "cables=4 length=5 bends=5", "draw box", SW_ERROR_NOT_FOUND },
    { "conduit-units", "cables=4 length=50", "50", SW_ERROR_NOT_FOUND },
    { "conduit-units", "cables=7 length=5", "7", SW_ERROR_NOT_FOUND },
    { "volt-drop", "amps=10 length=20 mm2=3", "3", SW_ERROR_NOT_FOUND },
    { "volt-drop", "amps=10 length=20kg", "length: \"20kg\": kg does not go with m", SW_ERROR_INVALID },
    { "waste-flow", "units=bath,bathh", "units: \"bathh\" is no row of drainage.units", SW_ERROR_NOT_FOUND },
    { "conduit-size", "cables=3x3 by=solid", "3", SW_ERROR_NOT_FOUND },
    { "conduit-trade", "wires=3x0.01", "conduit.fill_count", SW_ERROR_NOT_FOUND },
    { "circuit", "amps=10 length=20 phases=3 method=clipped", "no ratings for clipped", SW_ERROR_NOT_FOUND },
    { "rib-crossing", "size=40", "40", SW_ERROR_NOT_FOUND },
    { "fit", "tubes=25x10", "at most 24", SW_ERROR_INVALID },
    { "waste-stack", "flow=50", "use two", SW_ERROR_NOT_FOUND },
    { "water-fixtures", "units=10", "water.demand_tanks", SW_ERROR_NOT_FOUND },
    { "supports", "kind=waste od=400 length=3", "400", SW_ERROR_NOT_FOUND },
    { "gradient", "od=300 fall=60", "300", SW_ERROR_NOT_FOUND },
    { "cable-radius", "", "od: has to be given", SW_ERROR_INVALID },
    { "pull-out", "diameter=5", "outside the formula", SW_ERROR_INVALID },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (wrong); i++)
    {
      GError *error = NULL;
      g_autoptr (SwWorking) working = ask ("south-africa", wrong[i].id, wrong[i].given, &error);
      g_assert_null (working);
      g_assert_error (error, SW_ERROR, (int) wrong[i].code);
      if (error != NULL && strstr (error->message, wrong[i].part) == NULL)
        g_assertion_message_cmpstr (G_LOG_DOMAIN, __FILE__, __LINE__, G_STRFUNC, wrong[i].given, error->message, "~", wrong[i].part);
      g_clear_error (&error);
    }
}

/* Questions of one subject follow each other. */
static void
test_subjects (void)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  const char *before = NULL;
  for (guint i = 0; i < sw_questions_n (); i++)
    {
      const char *subject = sw_questions_get (i)->subject;
      if (g_strcmp0 (before, subject) != 0)
        g_assert_true (g_hash_table_add (seen, (gpointer) subject));
      before = subject;
    }
  g_assert_cmpuint (g_hash_table_size (seen), ==, 8);
}

/* What is shown of a working: four figures, the rule with its source, the table; user's values are marked. */
static void
test_text (void)
{
  GError *error = NULL;
  g_autoptr (SwRules) rules = sw_rules_load_text ("south-africa", "[checks.clearances]\nsource=our office\nconfidence=common-practice\ntube_mm=40\n", "ours", &error);
  g_assert_no_error (error);
  g_autoptr (GHashTable) given = g_hash_table_new (g_str_hash, g_str_equal);
  g_hash_table_insert (given, (gpointer) "tubes", (gpointer) "110, 2x25");
  g_autoptr (SwWorking) working = sw_question_ask (sw_questions_find ("fit"), rules, given, &error);
  g_assert_no_error (error);
  g_autofree char *text = sw_working_text (working, NULL);
  g_assert_nonnull (strstr (text, "of the section taken: 12.31 %"));
  g_assert_nonnull (strstr (text, "They fit; the table says where."));
  g_assert_nonnull (strstr (text, "checks.clearances.tube_mm (our office; common practice), changed by the user"));
  g_assert_nonnull (strstr (text, "D = 110 mm"));
  g_assert_cmpuint (sw_working_n_rows (working), ==, 3);
  for (guint i = 0; i < sw_questions_n (); i++)
    for (guint k = 0; k < sw_questions_get (i)->n_inputs; k++)
      {
        g_autofree char *what = sw_ask_input_text (&sw_questions_get (i)->inputs[k], NULL);
        g_assert_true ((strstr (what, "has to be given") != NULL) == (*sw_questions_get (i)->inputs[k].start_text == '\0'));
      }
}

/* Keys are what the command and files hold; no two questions have one id. */
static void
test_tables (void)
{
  g_autoptr (GHashTable) ids = g_hash_table_new (g_str_hash, g_str_equal);
  g_assert_null (sw_questions_find ("no-such-question"));
  for (guint i = 0; i < sw_questions_n (); i++)
    {
      const SwQuestion *question = sw_questions_get (i);
      g_assert_true (sw_questions_find (question->id) == question);
      g_assert_true (g_hash_table_add (ids, (gpointer) question->id));
      for (guint k = 0; k < question->n_inputs; k++)
        {
          g_assert_cmpuint (strspn (question->inputs[k].key, "abcdefghijklmnopqrstuvwxyz0123456789-"), ==, strlen (question->inputs[k].key));
          g_assert_true ((question->inputs[k].kind == SW_ASK_WORD) == (question->inputs[k].words != NULL));
        }
    }
}

/* Every word that a question offers has one that people read. */
static void
test_words (void)
{
  for (guint q = 0; q < sw_questions_n (); q++)
    for (guint i = 0; i < sw_questions_get (q)->n_inputs; i++)
      {
        const SwAskInput *input = &sw_questions_get (q)->inputs[i];
        g_auto (GStrv) words = g_strsplit (input->kind == SW_ASK_WORD ? input->words : "", "|", -1);
        for (guint w = 0; words[w] != NULL; w++)
          if (sw_question_word (words[w]) == NULL)
            {
              g_test_message ("%s, %s: %s has no label", sw_questions_get (q)->id, input->key, words[w]);
              g_test_fail ();
            }
      }
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  for (gsize i = 0; i < G_N_ELEMENTS (examples); i++)
    {
      g_autofree char *name = g_strdup_printf ("/questions/%s/%" G_GSIZE_FORMAT, examples[i].id, i);
      g_test_add_data_func (name, &examples[i], run_example);
    }
  g_test_add_func ("/questions/shape", test_shape);
  g_test_add_func ("/questions/refused", test_refused);
  g_test_add_func ("/questions/tables", test_tables);
  g_test_add_func ("/questions/subjects", test_subjects);
  g_test_add_func ("/questions/text", test_text);
  g_test_add_func ("/questions/words", test_words);
  return g_test_run ();
}
