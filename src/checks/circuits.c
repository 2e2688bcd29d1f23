/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Circuits: volt drop, rating and load. And what pipes carry. */
#include "circuits/facts.h"
#include "base/tolerance.h"
#include "checks/entries.h"
#include "circuits/draws.h"
#include "drainage/run_flow.h"
#include <math.h>

/* ---- circuits */

static gboolean
feeds_lights (const SwCheckRun *run, SwId circuit, const GPtrArray *runs)
{
  for (guint i = 0; i < runs->len; i++)
    if (((const SwRun *) runs->pdata[i])->service == SW_SERVICE_LIGHTING)
      return TRUE;
  return sw_check_lookup_owned (run->lookup, SW_OWNED_LIGHTS, circuit) != NULL;
}

static GPtrArray *
conduits_beside (const SwCheckRun *run, const GPtrArray *runs)
{
  g_autoptr (GArray) ids = g_array_new (FALSE, FALSE, sizeof (SwId));
  for (guint i = 0; i < runs->len; i++)
    g_array_append_val (ids, ((const SwRecord *) runs->pdata[i])->id);
  return sw_circuits_conduits_near (run->space, (const SwId *) ids->data, ids->len);
}

/* A circuit is shown where its first run starts; one without runs nowhere. */
static gboolean
facts_of (const SwCheckRun *run, const SwRecord *record, SwCircuitFacts *facts, SwPoint3 *place)
{
  const GPtrArray *runs = sw_check_lookup_owned (run->lookup, SW_OWNED_RUNS, record->id);
  const SwRoute *route = NULL;
  for (guint i = 0; runs != NULL && i < runs->len && route == NULL; i++)
    route = sw_space_route (run->space, ((const SwRecord *) runs->pdata[i])->id);
  if (route == NULL)
    return FALSE;
  g_autoptr (GPtrArray) beside = conduits_beside (run, runs);
  *place = route->axis[0];
  *facts = sw_circuits_facts (run->deck, run->rules, (const SwCircuit *) record, runs, beside, feeds_lights (run, record->id, runs));
  return TRUE;
}

void
sw_check_volt_drop_record (SwCheckRun *run, const SwRecord *record)
{
  SwCircuitFacts facts;
  SwPoint3 place;
  if (!facts_of (run, record, &facts, &place) || !facts.too_far)
    return;
  SwSnag *snag = sw_check_add (run, "far", SW_SEVERITY_FIX, record->id, place);
  sw_check_set_numbers (snag, facts.limit_percent, facts.drop_percent, SW_UNIT_PERCENT, &facts.limit);
  sw_check_set_param (snag, "length", facts.farthest_mm, SW_UNIT_MM);
  sw_check_set_param (snag, "longest", facts.longest_m * 1000, SW_UNIT_MM);
}

/* Where conduits lie together, and which one is the nearest: that one may move. */
static void
set_bunched (SwCheckRun *run, SwSnag *snag, const SwCircuitFacts *facts)
{
  const SwBunching *bunching = &facts->bunching;
  const SwRoute *route = sw_space_route (run->space, facts->bunched);
  if (bunching->beside == 0 || route == NULL)
    return;
  sw_check_set_other (snag, bunching->beside, SW_BODY_TUBE, (int) bunching->leg);
  sw_check_set_extent (snag, sw_circuits_place (route, bunching->from), sw_circuits_place (route, bunching->to));
  sw_check_set_param (snag, "beside", bunching->circuits - bunching->own, SW_UNIT_NONE);
  sw_check_set_param (snag, "spacing", bunching->spacing_mm, SW_UNIT_MM);
  sw_check_set_missing (snag, bunching->spacing_mm - bunching->apart, (SwPoint3){ 0, 0, 0 });
}

static SwPoint3
bunched_place (const SwCheckRun *run, const SwCircuitFacts *facts, SwPoint3 otherwise)
{
  const SwRoute *route = facts->bunching.beside != 0 ? sw_space_route (run->space, facts->bunched) : NULL;
  return route != NULL ? sw_circuits_place (route, (facts->bunching.from + facts->bunching.to) / 2) : otherwise;
}

void
sw_check_cable_rating_record (SwCheckRun *run, const SwRecord *record)
{
  SwCircuitFacts facts;
  SwPoint3 place;
  if (!facts_of (run, record, &facts, &place) || (!facts.too_thin && facts.no_row == NULL))
    return;
  place = bunched_place (run, &facts, place);
  if (facts.no_row != NULL)
    {
      SwSnag *snag = sw_check_add (run, "no-row", SW_SEVERITY_NOTE, record->id, place);
      sw_check_set_param (snag, "circuits", facts.sharing, SW_UNIT_NONE);
      snag->detail = g_strdup (facts.no_row);
      return;
    }
  const char *variant = facts.bunching.beside != 0 ? "bunched" : facts.sharing > 1 ? "shared" : "thin";
  SwSnag *snag = sw_check_add (run, variant, SW_SEVERITY_FIX, record->id, place);
  sw_check_set_numbers (snag, facts.carries_a, facts.rating_a, SW_UNIT_AMPERE, facts.sharing > 1 ? &facts.group : &facts.rating);
  sw_check_set_param (snag, "circuits", facts.sharing, SW_UNIT_NONE);
  set_bunched (run, snag, &facts);
}

/* The lights on a circuit, all on at once, against what it was designed for; its design current against its fuse or breaker. */
void
sw_check_circuit_load_record (SwCheckRun *run, const SwRecord *record)
{
  const SwCircuit *circuit = (const SwCircuit *) record;
  SwCircuitFacts facts;
  SwPoint3 place;
  double watts = 0, protection = sw_circuits_protection (circuit->protection);
  const GPtrArray *lights = sw_check_lookup_owned (run->lookup, SW_OWNED_LIGHTS, record->id);
  for (guint i = 0; lights != NULL && i < lights->len; i++)
    watts += ((const SwLight *) lights->pdata[i])->watts;
  double amps = circuit->volts > 0 ? watts / (circuit->volts * (circuit->phases == 3 ? sqrt (3) : 1)) : 0;
  gboolean lights_more = amps > circuit->amps + 1e-9, fuse_less = protection > 0 && circuit->amps > protection + 1e-9;
  if ((!lights_more && !fuse_less) || !facts_of (run, record, &facts, &place))
    return;
  SwSnag *snag = sw_check_add (run, lights_more ? "lights" : "protection", SW_SEVERITY_FIX, record->id, place);
  sw_check_set_numbers (snag, lights_more ? circuit->amps : protection, lights_more ? amps : circuit->amps, SW_UNIT_AMPERE, NULL);
  sw_check_set_param (snag, "watts", watts, SW_UNIT_NONE);
}

/* ---- pipes */

void
sw_check_pipe_flow_record (SwCheckRun *run, const SwRecord *record)
{
  const SwRoute *route = sw_check_route (run, record->id);
  if (route == NULL || sw_service_is_electric ((SwService) route->run->service))
    return;
  const SwBranches *branches = sw_check_lookup_branches (run->lookup, run->rules);
  if (sw_branches_carried (branches, route->run).units <= 0)
    return; /* without a load neither can be wrong */
  SwRunFlow flow = sw_drainage_run_flow (run->rules, run->job, branches, route);
  if (!flow.too_small && !flow.too_fast && !flow.too_slow)
    return;
  SwSnag *snag = sw_check_add (run, flow.too_small ? "small" : flow.too_fast ? "fast" : "slow", flow.too_small ? SW_SEVERITY_FIX : SW_SEVERITY_NOTE, record->id, sw_route_at (route, flow.from, NULL));
  if (flow.too_small)
    sw_check_set_numbers (snag, flow.flow, flow.capacity, SW_UNIT_NONE, &flow.k);
  else if (flow.too_slow)
    sw_check_set_numbers (snag, flow.cleansing.value, flow.velocity, SW_UNIT_NONE, &flow.cleansing);
  else
    sw_check_set_numbers (snag, flow.fastest.value, flow.velocity, SW_UNIT_NONE, &flow.fastest);
  sw_check_set_extent (snag, sw_route_at (route, flow.from, NULL), sw_route_at (route, flow.to, NULL));
}
