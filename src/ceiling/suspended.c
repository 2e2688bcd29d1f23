/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Runs are cut by the bay's and room's outlines exactly; ceilings count with the area that bay and room share. */
#include "ceiling/suspended.h"
#include "ceiling/brandering.h"
#include "geometry/region.h"
#include "space/hangers.h"
#include <math.h>

#define LOOK_MM 250.0

static double
gravity (const SwRules *rules)
{
  return sw_rules_value (rules, "deck.loads", "gravity_m_s2").value;
}

double
sw_ceiling_mass (const SwRules *rules, const SwJob *job, const SwRoom *room)
{
  const char *row = room->finish == SW_FINISH_EXPOSED ? NULL : sw_ceiling_board_row (rules, "board.kinds", room, NULL);
  SwRuleValue board, wool, rule;
  double mass, centres = 0, edge;
  if (row == NULL || !sw_rules_lookup (rules, "board.kinds", row, "mass_kg_m2", &board, NULL))
    return 0;
  mass = board.value;
  if (room->insulation > 0 && sw_rules_lookup (rules, "material.density", "glass-wool", "density_kg_m3", &wool, NULL))
    mass += wool.value * room->insulation / 1000;
  if (room->finish == SW_FINISH_CLOSED && sw_ceiling_centres_limit (rules, job, room, &centres, &edge, &rule, NULL) && centres > 0)
    mass += sw_ceiling_batten_mass (rules, room, room->batten_width, room->batten_depth) / centres * 1000;
  return mass;
}

/* Length of a run inside a region, in space, mm. */
static double
length_inside (const SwRegion *region, const SwRoute *route)
{
  g_autoptr (GArray) inside = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  double sum = 0;
  for (guint i = 0; i + 1 < route->n; i++)
    {
      SwPoint3 a = route->axis[i], b = route->axis[i + 1];
      SwPoint from = { a.x, a.y }, way = { b.x - a.x, b.y - a.y };
      double flat = sw_point_length (way), whole = sw_point3_distance (a, b);
      if (flat < 1e-6)
        {
          sum += sw_region_holds (region, from) ? whole : 0;
          continue;
        }
      g_array_set_size (inside, 0);
      sw_region_cut (region, from, sw_point_scale (way, 1 / flat), inside);
      for (guint k = 0; k < inside->len; k++)
        {
          const SwInterval *part = &g_array_index (inside, SwInterval, k);
          sum += fmax (fmin (part->high, flat) - fmax (part->low, 0), 0) * whole / flat;
        }
    }
  return sum;
}

static void
add_runs (SwSuspended *load, const SwRules *rules, const SwRegion *region, const GPtrArray *routes)
{
  for (guint i = 0; i < routes->len; i++)
    {
      const SwRoute *route = routes->pdata[i];
      double length = route->run->stage == SW_STAGE_CAST_IN ? 0 : length_inside (region, route);
      double mass = length > 0 ? sw_hangers_mass (rules, route) : 0, force = mass * length / 1000 * gravity (rules);
      load->unknown += isnan (mass);
      if (isnan (mass))
        continue;
      if (sw_service_is_electric ((SwService) route->run->service))
        load->conduits_n += force;
      else
        load->pipes_n += force;
    }
}

/* ---- lights and fittings */

gboolean
sw_ceiling_light_mass (const SwRules *rules, const SwLight *light, SwRuleValue *mass)
{
  SwRuleValue hood;
  if (!sw_rules_lookup (rules, "hanging.masses", "downlight", "mass_kg", mass, NULL))
    return FALSE;
  if (light->hood && sw_rules_lookup (rules, "hanging.masses", "hood", "mass_kg", &hood, NULL))
    mass->value += hood.value;
  return TRUE;
}

gboolean
sw_ceiling_fitting_mass (const SwRules *rules, const SwFitting *fitting, SwRuleValue *mass)
{
  static const char *const rows[] = { [SW_FITTING_BOX] = "box", [SW_FITTING_TEE] = "tee", [SW_FITTING_BEND] = "bend", [SW_FITTING_SOCKET] = "socket",
                                      [SW_FITTING_EYE] = "eye", [SW_FITTING_VALVE] = "valve", [SW_FITTING_HANGER] = "hanger", [SW_FITTING_DRIVER] = "driver",
                                      [SW_FITTING_OTHER] = "other" };
  const char *row = fitting->kind < (int) G_N_ELEMENTS (rows) ? rows[fitting->kind] : NULL;
  return row != NULL && sw_rules_lookup (rules, "hanging.masses", row, "mass_kg", mass, NULL);
}

/* By their places in plan. What is on a run that is cast in is cast in too. */
static void
add_things (SwSuspended *load, const SwJob *job, const SwRules *rules, const SwRegion *region)
{
  const SwRecord *record;
  SwRuleValue mass;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_LIGHT); (record = sw_job_iter_next (&i)) != NULL;)
    if (sw_region_holds (region, ((const SwLight *) record)->at) && sw_ceiling_light_mass (rules, (const SwLight *) record, &mass))
      {
        load->lights++;
        load->lights_n += mass.value * gravity (rules);
      }
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_FITTING); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwFitting *fitting = (const SwFitting *) record;
      const SwRecord *run = fitting->run != 0 ? sw_job_get (job, fitting->run) : NULL;
      if ((run != NULL && ((const SwRun *) run)->stage == SW_STAGE_CAST_IN) || fitting->level == SW_LEVEL_TOPPING || !sw_region_holds (region, fitting->at)
          || !sw_ceiling_fitting_mass (rules, fitting, &mass))
        continue;
      load->fittings++;
      load->fittings_n += mass.value * gravity (rules);
    }
}

static SwRegion *
region_of (const SwList *outline)
{
  return sw_region_new_outline (outline->items, outline->n, NULL);
}

static void
add_ceiling (SwSuspended *load, const SwRules *rules, const SwJob *job, SwRegion *bay, const SwRoom *room)
{
  double mass = sw_ceiling_mass (rules, job, room);
  g_autoptr (SwRegion) outline = mass > 0 ? region_of (&room->outline) : NULL;
  g_autoptr (SwRegion) shared = outline != NULL ? sw_region_intersect (bay, outline, NULL) : NULL;
  if (shared != NULL)
    load->ceilings_n += mass * gravity (rules) * sw_region_area (shared) / 1e6;
}

SwSuspended
sw_ceiling_suspended (const SwDeck *deck, const SwRules *rules, const SwDeckBay *bay, const SwRoom *room, const GPtrArray *routes)
{
  SwSuspended load = { 0 };
  g_autoptr (SwRegion) whole = region_of (&bay->bay->outline), outline = room != NULL ? region_of (&room->outline) : NULL;
  g_autoptr (SwRegion) part = whole == NULL || (room != NULL && outline == NULL) ? NULL
                              : room != NULL ? sw_region_intersect (whole, outline, NULL) : sw_region_ref (whole);
  const SwRecord *record;
  if (part == NULL || sw_region_is_empty (part))
    return load;
  load.area_m2 = sw_region_area (part) / 1e6;
  add_runs (&load, rules, part, routes);
  add_things (&load, sw_deck_job (deck), rules, part);
  for (SwJobIter i = sw_job_iter (sw_deck_job (deck), SW_TABLE_ROOM); room == NULL && (record = sw_job_iter_next (&i)) != NULL;)
    add_ceiling (&load, rules, sw_deck_job (deck), part, (const SwRoom *) record);
  if (room != NULL)
    add_ceiling (&load, rules, sw_deck_job (deck), part, room);
  load.kpa = sw_suspended_total (&load) / load.area_m2 / 1000;
  return load;
}

/* What a run weighs where it passes u in the void, N/m; 0 where it does not. */
static double
weight_at (const SwRules *rules, const SwDeckBay *bay, const SwVoid *over, const SwRoute *route, double u)
{
  for (guint i = 0; route->run->stage != SW_STAGE_CAST_IN && i + 1 < route->n; i++)
    {
      SwPoint a = sw_deck_to_bay (bay, (SwPoint){ route->axis[i].x, route->axis[i].y }), b = sw_deck_to_bay (bay, (SwPoint){ route->axis[i + 1].x, route->axis[i + 1].y });
      double t = fabs (b.x - a.x) > 1e-9 ? (u - a.x) / (b.x - a.x) : -1, v = a.y + t * (b.y - a.y);
      if (t < 0 || t > 1 || v <= over->low || v >= over->high)
        continue;
      double mass = sw_hangers_mass (rules, route);
      return isnan (mass) ? 0 : mass * gravity (rules);
    }
  return 0;
}

double
sw_ceiling_void_load (const SwRules *rules, const SwDeckBay *bay, guint void_index, const GPtrArray *routes, double *along)
{
  const SwVoid *over = &g_array_index (bay->voids, SwVoid, void_index);
  double most = 0;
  for (guint r = over->first_reach; r < over->first_reach + over->n_reaches; r++)
    {
      const SwReach *reach = &g_array_index (bay->reaches, SwReach, r);
      for (double u = reach->low + LOOK_MM / 2; u < reach->high; u += LOOK_MM)
        {
          double sum = 0;
          for (guint i = 0; i < routes->len; i++)
            sum += weight_at (rules, bay, over, routes->pdata[i], u);
          if (sum > most && along != NULL)
            *along = u - g_array_index (bay->reaches, SwReach, over->first_reach).low;
          most = fmax (most, sum);
        }
    }
  return most;
}
