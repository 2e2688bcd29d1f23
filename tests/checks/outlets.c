/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Fixtures and taps that stand anywhere along a run load it from there on. */
#include "drainage/discharge.h"
#include "drainage/run_flow.h"
#include "tiny.h"

#define V(x, y, z) "{'at': [" #x "," #y "], 'z': " #z "}"
#define DROP_IN(id, x, y, units) "{'id': '" id "', 'at': [" #x "," #y "], 'units': " #units "}"
#define DRAIN(more) "'runs': [{'id': 'R1', 'service': 'soil', 'od_mm': 110, 'fall': 60, " more " 'vertices': [" V (500, 300, 170) ", {'at': [5500,300], 'level': 'fall'}]}]"

typedef struct
{
  SwJob *job;
  SwSpace *space;
  SwBranches *branches;
} Loaded;

static Loaded
loaded (const char *records)
{
  Loaded of = { .job = tiny_job (records) };
  of.space = tiny_space (of.job);
  of.branches = sw_branches_new (of.job, sw_space_rules (of.space));
  return of;
}

static void
loaded_clear (Loaded *of)
{
  sw_branches_free (of->branches);
  sw_space_unref (of->space);
  sw_job_unref (of->job);
}

static const SwRun *
run_of (const Loaded *of, const char *tag)
{
  return (const SwRun *) sw_job_find (of->job, tag);
}

static double
units_of (const char *records, const char *tag)
{
  Loaded of = loaded (records);
  double units = sw_branches_carried (of.branches, run_of (&of, tag)).units;
  loaded_clear (&of);
  return units;
}

typedef struct { double from, to, units, largest; } Part;

static void
assert_parts (const Loaded *of, const char *tag, const Part *parts, guint n)
{
  g_autoptr (GArray) stretches = sw_branches_stretches (of->branches, run_of (of, tag));
  g_assert_cmpuint (stretches->len, ==, n);
  for (guint i = 0; i < n && i < stretches->len; i++)
    {
      const SwStretch *stretch = &g_array_index (stretches, SwStretch, i);
      sw_assert_near (stretch->from, parts[i].from, 1e-9);
      sw_assert_near (stretch->to, parts[i].to, 1e-9);
      sw_assert_near (stretch->carried.units, parts[i].units, 1e-9);
      sw_assert_near (stretch->carried.largest, parts[i].largest, 1e-9);
    }
}

#define BATHROOM DROP_IN ("BT", 1000, 300, 0.8) "," DROP_IN ("BI", 2000, 300, 0.5) "," DROP_IN ("BA", 3000, 300, 0.5) "," DROP_IN ("WC", 4000, 300, 2.5)

/* A bathroom, K 0.5, as its fixtures come in: 0.8, 1.3, 1.8, 4.3 discharge units give 0.45, 0.57, 0.67, 1.04 l/s (published worked
 * example of EN 12056-2, to 0.01). The pipe is asked for the largest unit upstream where that is more: 0.8 up to the WC, then 2.5. */
static void
test_bathroom (void)
{
  static const double published[] = { 0.45, 0.57, 0.67, 1.04 }, asked[] = { 0.8, 0.8, 0.8, 2.5 };
  Loaded of = loaded ("'drop_ins': [" BATHROOM "]," DRAIN (""));
  assert_parts (&of, "R1", (Part[]){ { 0, 500, 0, 0 }, { 500, 1500, 0.8, 0.8 }, { 1500, 2500, 1.3, 0.8 }, { 2500, 3500, 1.8, 0.8 }, { 3500, 5000, 4.3, 2.5 } }, 5);
  const SwRoute *route = sw_space_route (of.space, run_of (&of, "R1")->record.id);
  g_autoptr (GArray) flows = sw_drainage_run_flows (sw_space_rules (of.space), of.job, of.branches, route);
  g_assert_cmpuint (flows->len, ==, 5);
  g_assert_true (isnan (g_array_index (flows, SwRunFlow, 0).flow));
  for (guint i = 0; i < 4; i++)
    {
      const SwRunFlow *flow = &g_array_index (flows, SwRunFlow, i + 1);
      sw_assert_near (sw_drainage_discharge (flow->k.value, flow->units), published[i], 0.005);
      sw_assert_near (flow->flow, asked[i], 1e-9);
      sw_assert_near (flow->fall_n, 60, 1e-6);
    }
  SwRunFlow worst = sw_drainage_run_flow (sw_space_rules (of.space), of.job, of.branches, route);
  g_assert_false (worst.too_small);
  g_assert_true (worst.too_slow); /* 0.8 l/s in 110 at 1:60 stays below 0.7 m/s */
  loaded_clear (&of);
}

/* Drawn from its stack the same pipe carries the same, counted from the other end. */
static void
test_drawn_upwards (void)
{
  Loaded of = loaded ("'drop_ins': [" DROP_IN ("BA", 1000, 300, 0.5) "," DROP_IN ("WC", 4000, 300, 2) "],"
                      "'fittings': [{'id': 'ST', 'kind': 'stack', 'at': [5500,300]}],"
                      "'runs': [{'id': 'R1', 'service': 'soil', 'od_mm': 110, 'start': 'ST', 'end': 'BA', 'vertices': [" V (5500, 300, 90) "," V (1000, 300, 165) "]}]");
  assert_parts (&of, "R1", (Part[]){ { 0, 1500, 2.5, 2 }, { 1500, 4500, 0.5, 0.5 } }, 2);
  loaded_clear (&of);
}

/* A branch counts from its tee on, and what joins at the very end there only; what was entered stands for all. */
static void
test_branches_along (void)
{
#define JOINED(at, more) "'drop_ins': [" DROP_IN ("WC", 1000, 900, 2) "," DROP_IN ("BA", 500, 300, 0.5) "]," \
  "'fittings': [{'id': 'T1', 'kind': 'tee', 'run': 'R1', 'at': [" #at ",300]}]," \
  "'runs': [{'id': 'R1', 'service': 'soil', 'od_mm': 110, 'fall': 60, 'start': 'BA', " more " 'vertices': [" V (500, 300, 170) ", {'at': [5500,300], 'level': 'fall'}]}," \
  "{'id': 'R2', 'service': 'soil', 'od_mm': 110, 'fall': 60, 'start': 'WC', 'end': 'T1', 'vertices': [" V (1000, 900, 200) ", {'at': [" #at ",900], 'level': 'fall'}]}]"
  Loaded middle = loaded (JOINED (3000, "")), end = loaded (JOINED (5500, "")), entered = loaded (JOINED (3000, "'units': 6,"));
  assert_parts (&middle, "R1", (Part[]){ { 0, 2500, 0.5, 0.5 }, { 2500, 5000, 2.5, 2 } }, 2);
  assert_parts (&end, "R1", (Part[]){ { 0, 5000, 0.5, 0.5 }, { 5000, 5000, 2.5, 2 } }, 2);
  assert_parts (&entered, "R1", (Part[]){ { 0, 5000, 6, 2 } }, 1);
  const SwRoute *route = sw_space_route (end.space, run_of (&end, "R1")->record.id);
  SwRunFlow flow = sw_drainage_run_flow (sw_space_rules (end.space), end.job, end.branches, route);
  sw_assert_near (flow.fall_n, 60, 1e-6);
  loaded_clear (&middle);
  loaded_clear (&end);
  loaded_clear (&entered);
}

/* A hole of 150 and 50 mm of tolerance (rule set, common practice) reach 125; the nearer pipe takes it; a pipe of other water never does;
 * nor does one that passes take what already has its pipe. */
static void
test_near_enough (void)
{
#define TWO(service) "'runs': [{'id': 'R1', 'service': 'waste', 'od_mm': 50, 'vertices': [" V (500, 300, 170) "," V (5500, 300, 120) "]}," \
  "{'id': 'R2', 'service': '" service "', 'od_mm': 50, 'vertices': [" V (500, 200, 170) "," V (5500, 200, 120) "]}]"
  sw_assert_near (units_of ("'drop_ins': [" DROP_IN ("WC", 2000, 424, 2) "]," DRAIN (""), "R1"), 2, 1e-9);
  sw_assert_near (units_of ("'drop_ins': [" DROP_IN ("WC", 2000, 426, 2) "]," DRAIN (""), "R1"), 0, 1e-9);
  sw_assert_near (units_of ("'drop_ins': [" DROP_IN ("BA", 2000, 249, 0.5) "]," TWO ("soil"), "R1"), 0, 1e-9);
  sw_assert_near (units_of ("'drop_ins': [" DROP_IN ("BA", 2000, 249, 0.5) "]," TWO ("soil"), "R2"), 0.5, 1e-9);
  sw_assert_near (units_of ("'drop_ins': [" DROP_IN ("BA", 2000, 249, 0.5) "]," TWO ("rainwater"), "R1"), 0.5, 1e-9);
  sw_assert_near (units_of ("'drop_ins': [" DROP_IN ("BA", 2000, 300, 0.5) "],'runs': [{'id': 'R1', 'service': 'waste', 'od_mm': 50, 'start': 'BA', 'vertices': [" V (2000, 300, 170) "," V (2000, 900, 150) "]},"
                            "{'id': 'R2', 'service': 'waste', 'od_mm': 50, 'vertices': [" V (500, 300, 100) "," V (5500, 300, 50) "]}]", "R2"), 0, 1e-9);
}

#define TAP(id, along, units) "{'id': '" id "', 'wall': 'W', 'kind': 'tap', 'along_mm': " #along ", 'units': " #units "}"
#define TAPS "'walls': [{'id': 'W', 'from': [500,300], 'to': [5500,300], 'thickness_mm': 100}]," \
  "'drops': [" TAP ("BT", 1000, 4) "," TAP ("SH", 2500, 2) "," TAP ("SI", 2500, 2) "," TAP ("LA", 5000, 4) ", {'id': 'SW', 'wall': 'W', 'kind': 'switch', 'along_mm': 1500}]"
#define WATER(id, service, y, more) "{'id': '" id "', 'service': '" service "', 'material': 'copper', 'od_mm': 22, " more " 'vertices': [" V (500, y, 120) "," V (5500, y, 120) "]}"

/* Bath 4, shower 2, sink 2 and, at the end, basin, WC and washing machine 4: twelve loading units (EN 806-3 table 2) leave the riser:
 * 0.600 l/s by the German formula 0.682 (0.1 · 12)^0.45 − 0.14, eight after the bath, four at last. A mixer draws from both pipes. */
static void
test_taps (void)
{
  Loaded of = loaded (TAPS ",'runs': [" WATER ("R1", "cold", 300, "'end': 'LA',") "," WATER ("R2", "hot", 380, "") "]");
  const Part parts[] = { { 0, 1000, 12, 4 }, { 1000, 2500, 8, 4 }, { 2500, 5000, 4, 4 } };
  assert_parts (&of, "R1", parts, 3);
  assert_parts (&of, "R2", parts, 3);
  const SwRoute *route = sw_space_route (of.space, run_of (&of, "R1")->record.id);
  g_autoptr (GArray) flows = sw_drainage_run_flows (sw_space_rules (of.space), of.job, of.branches, route);
  double lost = 0;
  for (guint i = 0; i < flows->len; i++)
    {
      const SwRunFlow *flow = &g_array_index (flows, SwRunFlow, i);
      sw_assert_near (flow->flow, fmin (0.682 * pow (0.1 * flow->units, 0.45) - 0.14, 0.1 * flow->units), 1e-9);
      lost += flow->loss_kpa;
    }
  SwRunFlow whole = sw_drainage_run_flow (sw_space_rules (of.space), of.job, of.branches, route);
  sw_assert_near (whole.flow, 0.600, 1e-3);
  sw_assert_near (whole.loss_kpa, lost, 1e-9);
  g_assert_cmpfloat (lost, >, 0);
  loaded_clear (&of);
}

/* 0.8 in a 40 pipe at 1:60 carries 0.20 l/s half full (Colebrook and White) and 0.50 as a branch of one outlet (EN 12056-2 table 4):
 * too small from the fixture on, wherever it stands. The outlet of a drop-in is 60 below the crown unless said. */
static const TinyCase outlets[] = {
  TINY_FIX ("loads-the-middle", "pipe-flow", "small", NAN, "'drop_ins': [" DROP_IN ("BT", 3000, 300, 0.8) "],'runs': [{'id': 'R1', 'service': 'waste', 'od_mm': 40, 'fall': 60, 'vertices': [" V (1000, 300, 170) ", {'at': [4000,300], 'level': 'fall'}]}]"),
  TINY_NONE ("wc-is-carried", "pipe-flow", "'drop_ins': [" DROP_IN ("WC", 3000, 300, 2) "]," DRAIN ("")),
  TINY_NOTE ("no-pipe", "outlet", "open", NAN, "'drop_ins': [" DROP_IN ("WC", 2000, 900, 2) "]," DRAIN ("")),
  TINY_NONE ("no-units", "outlet", "'drop_ins': [" DROP_IN ("WC", 2000, 900, 0) "]," DRAIN ("")),
  TINY_NONE ("low-enough", "outlet", "'drop_ins': [{'id': 'WC', 'at': [1700,300], 'units': 2, 'drop_mm': 99}]," DRAIN ("")),
  TINY_FIX ("too-high", "outlet", "high", 1, "'drop_ins': [{'id': 'WC', 'at': [1700,300], 'units': 2, 'drop_mm': 101}]," DRAIN ("")),
};

int
main (int argc, char *argv[])
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/outlets/bathroom", test_bathroom);
  g_test_add_func ("/outlets/drawn-upwards", test_drawn_upwards);
  g_test_add_func ("/outlets/branches-along", test_branches_along);
  g_test_add_func ("/outlets/near-enough", test_near_enough);
  g_test_add_func ("/outlets/taps", test_taps);
  TINY_ADD ("/outlets", outlets);
  return g_test_run ();
}
