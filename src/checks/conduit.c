/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Drawing cables in: turns and lengths between boxes. And what carries a run. */
#include "checks/entries.h"
#include "base/number.h"
#include "base/tolerance.h"
#include "circuits/contents.h"
#include "circuits/draws.h"
#include "space/expansion.h"
#include "space/hanging.h"
#include <math.h>

#define SLACK_DEGREE 0.5 /* soffits slope a little, and nobody bends to less */

static void
add_place (const SwCheckRun *run, const SwRoute *route, const SwFitting *fitting, guint32 kinds, GArray *places)
{
  double apart, half = MAX (fitting->length, fitting->width) / 2;
  if (!(kinds & 1u << fitting->kind))
    return;
  double along = sw_circuits_along (route, fitting->at, &apart);
  if (apart <= half + sw_check_limit (run, SW_LIMIT_END_REACH))
    g_array_append_val (places, along);
}

/* Places along the run of its fittings of some kinds, sorted. */
static GArray *
fittings_along (const SwCheckRun *run, const SwRoute *route, guint32 kinds)
{
  GArray *places = g_array_new (FALSE, FALSE, sizeof (double));
  const GPtrArray *own = sw_check_lookup_owned (run->lookup, SW_OWNED_FITTINGS, route->run->record.id);
  SwId ends[2] = { route->run->start, route->run->end };
  for (guint i = 0; own != NULL && i < own->len; i++)
    add_place (run, route, own->pdata[i], kinds, places);
  for (int i = 0; i < 2; i++)
    {
      const SwFitting *end = sw_check_fitting_of (run, ends[i]);
      if (end != NULL && end->run != route->run->record.id && (i == 0 || ends[1] != ends[0]))
        add_place (run, route, end, kinds, places);
    }
  g_array_sort (places, sw_compare_doubles);
  return places;
}

/* On it or at its ends. */
static gboolean
has_no_fittings (const SwCheckRun *run, const SwRoute *route)
{
  return SW_ID_TABLE (route->run->start) != SW_TABLE_FITTING && SW_ID_TABLE (route->run->end) != SW_TABLE_FITTING
         && sw_check_lookup_owned (run->lookup, SW_OWNED_FITTINGS, route->run->record.id) == NULL;
}

static GArray *
stretches_of (const SwCheckRun *run, const SwRoute *route)
{
  g_autoptr (GArray) boxes = fittings_along (run, route, 1u << SW_FITTING_BOX | 1u << SW_FITTING_BOARD);
  return sw_circuits_stretches (run->deck, run->rules, route, (const double *) boxes->data, boxes->len,
                                sw_check_limit (run, SW_LIMIT_END_REACH));
}

static const SwRoute *
conduit_route (const SwCheckRun *run, const SwRecord *record)
{
  const SwRoute *route = sw_check_route (run, record->id);
  return route != NULL && sw_service_is_electric ((SwService) route->run->service) ? route : NULL;
}

void
sw_check_turns_record (SwCheckRun *run, const SwRecord *record)
{
  const SwRoute *route = conduit_route (run, record);
  SwRuleValue bends = run->draw_bends, stop = run->draw_stop;
  gboolean drops = route != NULL && (SW_ID_TABLE (route->run->start) == SW_TABLE_DROP || SW_ID_TABLE (route->run->end) == SW_TABLE_DROP);
  if (route == NULL || (!drops && sw_route_turns (route) <= bends.value * 90))
    return;
  g_autoptr (GArray) stretches = stretches_of (run, route);
  for (guint i = 0; i < stretches->len; i++)
    {
      const SwDrawStretch *stretch = &g_array_index (stretches, SwDrawStretch, i);
      gboolean stops = stretch->turn > stop.value + SLACK_DEGREE;
      if (stretch->turn <= bends.value * 90 + SLACK_DEGREE)
        continue;
      SwSnag *snag = sw_check_add (run, stops ? "stop" : "many", stops ? SW_SEVERITY_STOP : SW_SEVERITY_NOTE, record->id,
                                   sw_circuits_place (route, stretch->turn_at));
      snag->parts[0] = (int) i;
      sw_check_set_extent (snag, sw_circuits_place (route, stretch->from), sw_circuits_place (route, stretch->to));
      sw_check_set_numbers (snag, stops ? stop.value : bends.value * 90, stretch->turn, SW_UNIT_DEGREE, stops ? &stop : &bends);
    }
}

/* A corner at a box needs no bend. */
static gboolean
is_at_box (const SwCheckRun *run, const SwRoute *route, guint vertex)
{
  g_autoptr (GArray) boxes = fittings_along (run, route, 1u << SW_FITTING_BOX | 1u << SW_FITTING_BOARD | 1u << SW_FITTING_TEE | 1u << SW_FITTING_BEND | 1u << SW_FITTING_EYE);
  double at = 0;
  for (guint i = 0; i < vertex; i++)
    at += sw_point3_distance (route->axis[i], route->axis[i + 1]);
  for (guint i = 0; i < boxes->len; i++)
    if (fabs (g_array_index (boxes, double, i) - at) <= sw_check_limit (run, SW_LIMIT_END_REACH))
      return TRUE;
  return FALSE;
}

/* The run's own radius against the least for a conduit, measured to its middle as runs are. */
static void
check_radius (SwCheckRun *run, const SwRoute *route)
{
  if (!sw_service_is_electric ((SwService) route->run->service) || route->run->bend_radius <= 0)
    return;
  SwRuleValue inside = sw_rules_value (run->rules, "conduit.bends", "inside_diameters");
  double least = (inside.value + 0.5) * route->od;
  if (route->run->bend_radius >= least - SW_TOUCH_MM || sw_route_turns (route) < 1)
    return;
  SwSnag *snag = sw_check_add (run, "tight", SW_SEVERITY_FIX, route->run->record.id, route->axis[route->n / 2]);
  snag->trade = SW_TRADE_ELECTRICIAN;
  sw_check_set_numbers (snag, least, route->run->bend_radius, SW_UNIT_MM, &inside);
}

void
sw_check_bend_record (SwCheckRun *run, const SwRecord *record)
{
  const SwRoute *route = sw_check_route (run, record->id);
  if (route == NULL || route->n < 3 || route->run->service == SW_SERVICE_DUCT || route->run->stage == SW_STAGE_EXISTING || route->run->material == SW_MATERIAL_PLIABLE)
    return;
  gboolean electric = sw_service_is_electric ((SwService) route->run->service);
  g_autoptr (GArray) places = sw_route_tight (route);
  check_radius (run, route);
  for (guint i = 0; i < places->len; i++)
    {
      const SwTightPlace *tight = &g_array_index (places, SwTightPlace, i);
      if (is_at_box (run, route, tight->vertex))
        continue;
      SwSnag *snag = sw_check_add (run, tight->radius > 0 ? "room" : "elbows", SW_SEVERITY_FIX, record->id, route->axis[tight->vertex]);
      snag->trade = electric ? SW_TRADE_ELECTRICIAN : SW_TRADE_PLUMBER;
      snag->parts[0] = (int) tight->vertex - 1;
      sw_check_set_missing (snag, tight->missing, (SwPoint3){ 0, 0, 0 });
      sw_check_set_param (snag, "radius", tight->radius, SW_UNIT_MM);
      if (electric && route->run->bend_radius <= 0)
        snag->value = sw_rules_value (run->rules, "conduit.bends", "centre_diameters");
    }
}

/* Three like cables in a bend. */
static void
check_jam (SwCheckRun *run, const SwRoute *route, const SwConduitFill *fill)
{
  SwRuleValue low = sw_rules_value (run->rules, "conduit.fill", "jam_low"), high = sw_rules_value (run->rules, "conduit.fill", "jam_high");
  if (!(fill->jam >= low.value && fill->jam <= high.value) || sw_route_turns (route) < 1)
    return;
  SwSnag *snag = sw_check_add (run, "jam", SW_SEVERITY_NOTE, route->run->record.id, route->axis[0]);
  sw_check_set_numbers (snag, high.value, fill->jam, SW_UNIT_NONE, &high);
  sw_check_set_param (snag, "low", low.value, SW_UNIT_NONE);
  sw_check_set_extent (snag, route->axis[0], route->axis[route->n - 1]);
}

void
sw_check_conduit_fill_record (SwCheckRun *run, const SwRecord *record)
{
  const SwRoute *route = conduit_route (run, record);
  if (route == NULL || *route->run->contents == '\0')
    return;
  g_autoptr (GArray) stretches = stretches_of (run, route);
  SwConduitFill fill = sw_circuits_conduit_fill (run->rules, route, stretches);
  gboolean full = fill.percent > fill.limit_percent + 1e-9;
  if (!full)
    check_jam (run, route, &fill);
  if (!full && fill.no_row == NULL)
    return;
  SwSnag *snag = sw_check_add (run, !full ? "no-row" : isnan (fill.smallest) ? "none" : "full", full ? SW_SEVERITY_FIX : SW_SEVERITY_NOTE, record->id, route->axis[0]);
  if (!full)
    snag->detail = g_strdup (fill.no_row);
  else
    sw_check_set_numbers (snag, fill.limit_percent, fill.percent, SW_UNIT_PERCENT, &fill.limit);
  if (full && isfinite (fill.smallest))
    sw_check_set_param (snag, "size", fill.smallest, SW_UNIT_MM);
  sw_check_set_extent (snag, route->axis[0], route->axis[route->n - 1]);
}

void
sw_check_expansion_record (SwCheckRun *run, const SwRecord *record)
{
  const SwRoute *route = sw_check_route (run, record->id);
  if (route == NULL)
    return;
  SwExpansion expansion = sw_expansion_of (run->rules, route, sw_check_lookup_owned (run->lookup, SW_OWNED_FITTINGS, record->id));
  if (!expansion.asked || expansion.couplings == 0)
    return;
  SwSnag *snag = sw_check_add (run, "none", SW_SEVERITY_FIX, record->id, sw_point3_lerp (expansion.from, expansion.to, 0.5));
  snag->trade = sw_service_is_electric ((SwService) route->run->service) ? SW_TRADE_ELECTRICIAN : SW_TRADE_PLUMBER;
  sw_check_set_numbers (snag, expansion.limit_mm, expansion.longest_mm, SW_UNIT_MM, &expansion.limit);
  sw_check_set_param (snag, "growth", expansion.growth_mm, SW_UNIT_MM);
  sw_check_set_param (snag, "couplings", expansion.couplings, SW_UNIT_NONE);
  sw_check_set_extent (snag, expansion.from, expansion.to);
}

void
sw_check_draw_length_record (SwCheckRun *run, const SwRecord *record)
{
  const SwRoute *route = conduit_route (run, record);
  SwRuleValue longest = run->draw_length;
  if (route == NULL || sw_route_length (route) <= longest.value * 1000)
    return;
  g_autoptr (GArray) stretches = stretches_of (run, route);
  for (guint i = 0; i < stretches->len; i++)
    {
      const SwDrawStretch *stretch = &g_array_index (stretches, SwDrawStretch, i);
      double length = stretch->to - stretch->from, most = longest.value * 1000;
      if (length <= most + SW_TOUCH_MM)
        continue;
      SwSnag *snag = sw_check_add (run, "long", SW_SEVERITY_NOTE, record->id, sw_circuits_place (route, (stretch->from + stretch->to) / 2));
      snag->parts[0] = (int) i;
      sw_check_set_extent (snag, sw_circuits_place (route, stretch->from), sw_circuits_place (route, stretch->to));
      sw_check_set_numbers (snag, most, length, SW_UNIT_MM, &longest);
    }
}

/* ---- supports */

static const char *
support_table (const SwRun *run)
{
  return sw_hanging_table ((SwService) run->service, (SwMaterial) run->material);
}

/* Only where hangers are drawn: the widest gap between two of them, or to the run's end. */
void
sw_check_support_record (SwCheckRun *run, const SwRecord *record)
{
  const SwRoute *route = sw_check_route (run, record->id);
  SwRuleValue spacing;
  if (route == NULL || has_no_fittings (run, route) || !sw_rules_has (run->rules, support_table (route->run))
      || !sw_rules_lookup_at (run->rules, support_table (route->run), route->od, SW_RULE_NEXT_LARGER, "horizontal_m", &spacing, NULL))
    return;
  g_autoptr (GArray) hangers = fittings_along (run, route, 1u << SW_FITTING_HANGER);
  double before = 0, widest = 0, at = 0, end = sw_route_length (route);
  for (guint i = 0; i <= hangers->len; i++)
    {
      double here = i < hangers->len ? g_array_index (hangers, double, i) : end;
      if (here - before > widest)
        {
          widest = here - before;
          at = (here + before) / 2;
        }
      before = here;
    }
  if (hangers->len == 0 || widest <= spacing.value * 1000 + SW_TOUCH_MM)
    return;
  SwSnag *snag = sw_check_add (run, "wide", SW_SEVERITY_NOTE, record->id, sw_circuits_place (route, at));
  sw_check_set_numbers (snag, spacing.value * 1000, widest, SW_UNIT_MM, &spacing);
}
