/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A job's pipes by the formulas of this folder. Waste flows by Colebrook and White in the flattest leg, branches from an outlet by
 * the standard's table where that gives more; what a run carries comes from its branches and outlets, part by part. Supply loses
 * pressure along its own length only: what lies before it, and fittings, are left out. Time: parts × vertices. */
#include "drainage/run_flow.h"
#include "base/tolerance.h"
#include "drainage/discharge.h"
#include "drainage/partfull.h"
#include "drainage/supply.h"
#include "space/expansion.h"
#include "drainage/sweating.h"
#include <math.h>

static const char *
material_row (SwMaterial material)
{
  static const char *const rows[] = {
    [SW_MATERIAL_PVC] = "upvc", [SW_MATERIAL_STEEL] = "steel", [SW_MATERIAL_COPPER] = "copper", [SW_MATERIAL_PEX] = "pe-x",
    [SW_MATERIAL_MULTILAYER] = "multilayer", [SW_MATERIAL_PP] = "polypropylene", [SW_MATERIAL_BRASS] = "copper", [SW_MATERIAL_PLIABLE] = NULL,
  };
  return (gsize) material < G_N_ELEMENTS (rows) ? rows[material] : NULL;
}

/* ---- waste */

/* What a part of the run and one of its legs share, in plan, mm; a part of no length lies on the leg that ends there. Below 0: nothing. */
static double
shared (const SwStretch *stretch, double leg_from, double leg_to)
{
  double low = fmax (stretch->from, leg_from), high = fmin (stretch->to, leg_to);
  gboolean at_end = stretch->to - stretch->from <= SW_TOUCH_MM;
  return high - low > SW_TOUCH_MM || (at_end && high >= low - SW_TOUCH_MM) ? fmax (high - low, 0) : -1;
}

static double
flattest (const SwRoute *route, const SwStretch *stretch)
{
  double flat = NAN, walked = 0;
  for (guint i = 0; i + 1 < route->n; i++)
    {
      SwPoint3 from = route->axis[i], to = route->axis[i + 1];
      double plan = hypot (to.x - from.x, to.y - from.y), drop = fabs (from.z - to.z);
      if (plan > SW_TOUCH_MM && drop > SW_TOUCH_MM && drop <= plan && !(plan / drop <= flat) && shared (stretch, walked, walked + plan) >= 0)
        flat = plan / drop;
      walked += plan;
    }
  return flat;
}

/* In space; upright legs belong to the part that they stand in, or to the one before when they stand between two. */
static double
length_of (const SwRoute *route, const SwStretch *stretch)
{
  double length = 0, walked = 0;
  for (guint i = 0; i + 1 < route->n; i++)
    {
      SwPoint3 from = route->axis[i], to = route->axis[i + 1];
      double plan = hypot (to.x - from.x, to.y - from.y), leg = sw_point3_distance (from, to);
      if (plan <= SW_TOUCH_MM)
        length += (walked > stretch->from + SW_TOUCH_MM || stretch->from <= 0) && walked <= stretch->to + SW_TOUCH_MM ? leg : 0;
      else
        length += leg * fmax (shared (stretch, walked, walked + plan), 0) / plan;
      walked += plan;
    }
  return length;
}

/* A branch from outlets fills for a moment only: the standard's table for branches without a vent lets it carry more than
 * steady flow at the usual filling, up to a length. 0 for other pipes, and where the rule set has no table. */
static double
branch_capacity (const SwRules *rules, const SwRoute *route, SwCarried carried)
{
  SwRuleValue table, length;
  return carried.n == 0 && carried.outlets > 0 && sw_rules_lookup (rules, "drainage.branch_limits", "unventilated", "length_m", &length, NULL)
             && sw_route_length (route) <= length.value * 1000
             && sw_rules_lookup_at (rules, "drainage.unventilated", route->od, SW_RULE_NEXT_SMALLER, "capacity_ls", &table, NULL)
           ? table.value : 0;
}

static void
flow_waste (const SwRules *rules, const SwRoute *route, const SwStretch *stretch, SwRunFlow *flow)
{
  const SwRun *run = route->run;
  SwCarried carried = stretch->carried;
  SwRuleValue fill = sw_rules_value (rules, "drainage.flow", "filling_branch");
  SwFlowFormula formula = { .law = SW_FLOW_COLEBROOK, .roughness_mm = sw_rules_value (rules, "drainage.flow", "roughness_mm").value,
                            .viscosity_m2_s = sw_rules_value (rules, "drainage.flow", "viscosity_m2_s").value };
  flow->fall_n = flattest (route, stretch);
  if (isnan (flow->fall_n))
    return;
  flow->capacity = fmax (sw_drainage_capacity (&formula, route->bore, fill.value, 1 / flow->fall_n), branch_capacity (rules, route, carried));
  if (carried.units <= 0 || run->service == SW_SERVICE_RAINWATER || run->service == SW_SERVICE_CONDENSATE
      || !sw_rules_lookup (rules, "drainage.frequency", "intermittent", "k", &flow->k, NULL))
    return;
  gboolean largest = sw_rules_value (rules, "drainage.flow", "largest_unit").value != 0;
  flow->flow = fmax (sw_drainage_discharge (flow->k.value, carried.units), largest ? carried.largest : 0);
  flow->filling = sw_drainage_filling (&formula, route->bore, 1 / flow->fall_n, flow->flow);
  flow->cleansing = sw_rules_value (rules, "drainage.flow", "self_cleansing_m_s");
  flow->too_small = flow->flow > flow->capacity + 1e-9;
  if (isnan (flow->filling))
    return;
  flow->velocity = sw_drainage_velocity (&formula, route->bore, flow->filling, 1 / flow->fall_n);
  flow->too_slow = flow->velocity < flow->cleansing.value;
}

/* ---- supply */

static void
flow_supply (const SwRules *rules, const SwRoute *route, const SwStretch *stretch, SwRunFlow *flow)
{
  SwCarried carried = stretch->carried;
  SwRuleValue unit, formula, factor, power, less, rough;
  const char *material = material_row ((SwMaterial) route->run->material);
  if (carried.units <= 0 || !sw_rules_number (rules, "water.demand_rules", "unit_flow_ls", &unit, NULL)
      || !sw_rules_number (rules, "water.demand_rules", "formula", &formula, NULL)
      || !sw_rules_lookup (rules, "water.demand", formula.text, "factor", &factor, NULL)
      || !sw_rules_lookup (rules, "water.demand", formula.text, "power", &power, NULL)
      || !sw_rules_lookup (rules, "water.demand", formula.text, "less_ls", &less, NULL))
    return;
  double sum = unit.value * carried.units;
  flow->demand = formula;
  flow->flow = fmin (sw_drainage_supply_demand (factor.value, power.value, less.value, sum), sum);
  flow->velocity = sw_drainage_supply_velocity (route->bore, flow->flow);
  flow->fastest = sw_rules_value (rules, "water.velocity", "pipe_m_s");
  flow->too_fast = flow->velocity > flow->fastest.value;
  if (material == NULL || !sw_rules_lookup (rules, "pipe.materials", material, "roughness_mm", &rough, NULL))
    return;
  SwSupplyLoss loss = sw_drainage_supply_loss (route->bore, flow->flow, length_of (route, stretch) / 1000, rough.value,
                                               sw_rules_value (rules, "water.physics", "viscosity_m2_s").value);
  flow->loss_kpa = loss.loss * sw_rules_value (rules, "water.physics", "pressure_kpa_m").value;
}

/* ---- warmth */

static void
flow_growth (const SwRules *rules, const SwJob *job, const SwRoute *route, SwRunFlow *flow)
{
  const char *row = material_row ((SwMaterial) route->run->material);
  const char *range = route->run->service == SW_SERVICE_HOT ? "hot_k" : sw_service_is_gravity ((SwService) route->run->service) ? "waste_k" : "cold_k";
  g_autoptr (GPtrArray) fittings = g_ptr_array_new ();
  const SwRecord *record;
  if (row == NULL || !sw_rules_lookup (rules, "pipe.materials", row, "expansion_mm_m_k", &flow->expansion, NULL))
    return;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_FITTING); (record = sw_job_iter_next (&i)) != NULL;)
    if (((const SwFitting *) record)->run == route->run->record.id)
      g_ptr_array_add (fittings, (gpointer) record);
  double longest = sw_expansion_straight (route, fittings, 0, sw_route_length (route));
  flow->growth = flow->expansion.value * longest / 1000 * sw_rules_value (rules, "pipe.growth_ranges", range).value;
}

double
sw_drainage_inside_c (const SwRules *rules, SwService service)
{
  gboolean water = service == SW_SERVICE_COLD || service == SW_SERVICE_CONDENSATE;
  return water || service == SW_SERVICE_REFRIGERANT ? sw_rules_value (rules, "insulation.sweating", water ? "water_c" : "refrigerant_c").value : NAN;
}

static void
flow_sweat (const SwRules *rules, const SwRoute *route, SwRunFlow *flow)
{
  const char *group = "insulation.sweating";
  double inside = sw_drainage_inside_c (rules, (SwService) route->run->service);
  if (isnan (inside))
    return;
  SwMagnus magnus = { sw_rules_value (rules, group, "magnus_a").value, sw_rules_value (rules, group, "magnus_b_c").value };
  flow->sleeve_rule = sw_rules_value (rules, group, "lambda_w_mk");
  SwSweatCase sweat = { .pipe_mm = route->od, .pipe_c = inside, .air_c = sw_rules_value (rules, group, "air_c").value,
                        .conductivity_w_mk = flow->sleeve_rule.value, .surface_w_m2k = sw_rules_value (rules, group, "surface_void_w_m2k").value };
  sweat.dew_c = sw_drainage_dew_point (&magnus, sweat.air_c, sw_rules_value (rules, group, "humidity_percent").value);
  flow->sleeve = sw_drainage_sweat_thickness (&sweat);
  flow->sweats = flow->sleeve > route->run->insulation + 1e-9;
}

/* ---- the run */

/* What is the same along the whole run. */
static SwRunFlow
flow_of_run (const SwRules *rules, const SwJob *job, const SwRoute *route)
{
  SwRunFlow flow = { .flow = NAN, .fall_n = NAN, .filling = NAN, .velocity = NAN, .capacity = NAN, .loss_kpa = NAN, .growth = NAN, .sleeve = NAN };
  if (!sw_service_is_electric ((SwService) route->run->service))
    flow_growth (rules, job, route, &flow);
  flow_sweat (rules, route, &flow);
  return flow;
}

GArray *
sw_drainage_run_flows (const SwRules *rules, const SwJob *job, const SwBranches *branches, const SwRoute *route)
{
  GArray *flows = g_array_new (FALSE, FALSE, sizeof (SwRunFlow));
  g_autoptr (GArray) stretches = sw_branches_stretches (branches, route->run);
  SwService service = (SwService) route->run->service;
  SwRunFlow whole = flow_of_run (rules, job, route);
  for (guint i = 0; i < stretches->len; i++)
    {
      const SwStretch *stretch = &g_array_index (stretches, SwStretch, i);
      SwRunFlow flow = whole;
      flow.from = stretch->from;
      flow.to = stretch->to;
      flow.units = stretch->carried.units;
      if (sw_service_is_gravity (service))
        flow_waste (rules, route, stretch, &flow);
      else if (service == SW_SERVICE_COLD || service == SW_SERVICE_HOT)
        flow_supply (rules, route, stretch, &flow);
      g_array_append_val (flows, flow);
    }
  return flows;
}

static int
fault_rank (const SwRunFlow *flow)
{
  return flow->too_small ? 2 : flow->too_slow || flow->too_fast ? 1 : 0;
}

/* Of two parts that are too small the one that lacks more counts, of two that are too slow the slower, else the greater flow. */
static gboolean
is_worse (const SwRunFlow *a, const SwRunFlow *b)
{
  int rank = fault_rank (a), other = fault_rank (b);
  if (rank != other)
    return rank > other;
  if (a->too_small)
    return a->flow * b->capacity > b->flow * a->capacity;
  if (a->too_slow && b->too_slow)
    return a->velocity < b->velocity;
  return a->flow > b->flow || (isnan (b->flow) && !isnan (a->flow));
}

SwRunFlow
sw_drainage_run_flow (const SwRules *rules, const SwJob *job, const SwBranches *branches, const SwRoute *route)
{
  g_autoptr (GArray) flows = sw_drainage_run_flows (rules, job, branches, route);
  SwRunFlow worst = g_array_index (flows, SwRunFlow, 0);
  double lost = 0;
  gboolean loses = FALSE;
  for (guint i = 0; i < flows->len; i++)
    {
      const SwRunFlow *flow = &g_array_index (flows, SwRunFlow, i);
      if (is_worse (flow, &worst))
        worst = *flow;
      loses |= !isnan (flow->loss_kpa);
      lost += isnan (flow->loss_kpa) ? 0 : flow->loss_kpa;
    }
  worst.loss_kpa = loses ? lost : NAN;
  return worst;
}
