/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "space/route.h"
#include "base/error.h"
#include "base/tolerance.h"
#include <math.h>

gboolean
sw_service_is_gravity (SwService service)
{
  return service == SW_SERVICE_WASTE || service == SW_SERVICE_SOIL || service == SW_SERVICE_RAINWATER || service == SW_SERVICE_CONDENSATE;
}

gboolean
sw_service_is_electric (SwService service)
{
  return service == SW_SERVICE_POWER || service == SW_SERVICE_LIGHTING || service == SW_SERVICE_DATA || service == SW_SERVICE_FIRE_ALARM;
}

gboolean
sw_service_is_wet (SwService service)
{
  return sw_service_is_gravity (service) || service == SW_SERVICE_COLD || service == SW_SERVICE_HOT || service == SW_SERVICE_SPRINKLER;
}

double
sw_route_level_z (const SwDeck *deck, SwPoint at, double across, SwLevel level, double value)
{
  const SwDeckBay *bay = sw_deck_bay_at (deck, at);
  double soffit = bay != NULL ? sw_deck_soffit (bay, at) : 0;
  switch (level)
    {
    case SW_LEVEL_BELOW:
      return soffit - value - across / 2;
    case SW_LEVEL_TOPPING:
      return (bay != NULL ? sw_deck_crown (bay, at) : soffit) + value;
    case SW_LEVEL_FLOOR:
      return sw_deck_z_from_floor (deck, value);
    default:
      return soffit + value;
    }
}

double
sw_route_level_value (const SwDeck *deck, SwPoint at, double across, SwLevel level, double z)
{
  double at_zero = sw_route_level_z (deck, at, across, level, 0);
  return level == SW_LEVEL_BELOW ? at_zero - z : z - at_zero;
}

static void
route_set_axis (SwRoute *route, const SwDeck *deck)
{
  const SwRun *run = route->run;
  for (guint i = 0; i < route->n; i++)
    {
      const SwVertex *vertex = &SW_LIST_AT (run->vertices, SwVertex, i);
      double z;
      if (vertex->level == SW_LEVEL_FALL && i > 0)
        {
          double along = hypot (vertex->at.x - route->axis[i - 1].x, vertex->at.y - route->axis[i - 1].y);
          z = route->axis[i - 1].z - (run->fall > 0 ? along / run->fall : 0);
        }
      else
        z = sw_route_level_z (deck, vertex->at, 2 * route->outer, (SwLevel) vertex->level, vertex->z);
      route->axis[i] = (SwPoint3){ vertex->at.x, vertex->at.y, z };
    }
}

/* Row of a rule table by the outside diameter; FALSE when there is none. */
static gboolean
by_size (const SwRules *rules, const char *table, double od, const char *column, SwRuleValue *answer)
{
  return sw_rules_has (rules, table) && sw_rules_lookup_at (rules, table, od, SW_RULE_NEXT_LARGER, column, answer, NULL);
}

static void
route_set_conduit (SwRoute *route, const SwRules *rules)
{
  SwRuleValue answer;
  gboolean steel = route->run->material == SW_MATERIAL_STEEL;
  if (route->bore <= 0 && by_size (rules, "conduit.sizes", route->od, steel ? "bore_steel_mm" : "bore_pvc_mm", &route->bore_rule))
    route->bore = fmin (route->bore_rule.value, route->od);
  if (route->socket <= 0 && by_size (rules, "conduit.sizes", route->od, "coupler_mm", &route->socket_rule))
    route->socket = route->socket_rule.value / 2;
  if (route->bend_radius <= 0 && sw_rules_number (rules, "conduit.bends", "centre_diameters", &answer, NULL))
    route->bend_radius = answer.value * route->od;
}

static void
route_set_pipe (SwRoute *route, const SwRules *rules)
{
  static const struct { SwMaterial material; const char *table, *wall; } walls[] = {
    { SW_MATERIAL_COPPER, "pipe.copper", "wall_light_mm" }, { SW_MATERIAL_PEX, "pipe.pex", "wall_mm" },
    { SW_MATERIAL_MULTILAYER, "pipe.multilayer", "wall_mm" }, { SW_MATERIAL_STEEL, "pipe.steel", "wall_mm" },
  };
  SwRuleValue answer;
  gboolean waste = sw_service_is_gravity ((SwService) route->run->service);
  if (waste && route->bore <= 0 && by_size (rules, "waste.sockets", route->od, "wall_mm", &route->bore_rule))
    route->bore = route->od - 2 * route->bore_rule.value;
  for (gsize i = 0; i < G_N_ELEMENTS (walls) && route->bore <= 0 && route->run->service != SW_SERVICE_DUCT; i++)
    if (walls[i].material == (SwMaterial) route->run->material && by_size (rules, walls[i].table, route->od, walls[i].wall, &route->bore_rule))
      route->bore = route->od - 2 * route->bore_rule.value;
  if (waste && route->socket <= 0 && by_size (rules, "waste.sockets", route->od, "socket_mm", &route->socket_rule))
    route->socket = route->socket_rule.value / 2;
  if (route->bend_radius <= 0 && waste && sw_rules_number (rules, "waste.falls", "bend_radius_diameters", &answer, NULL))
    route->bend_radius = answer.value * route->od;
}

static void
route_set_clearance (SwRoute *route, const SwRules *rules)
{
  route->clearance = route->run->clearance;
  if (route->clearance <= 0)
    {
      route->clearance_rule = sw_rules_value (rules, "checks.clearances", "rib_mm");
      route->clearance = route->clearance_rule.value;
    }
}

static void
route_set_stock (SwRoute *route, const SwRules *rules)
{
  static const char *const rows[] = {
    [SW_MATERIAL_PVC] = "upvc",       [SW_MATERIAL_STEEL] = "steel",           [SW_MATERIAL_COPPER] = "copper", [SW_MATERIAL_PEX] = "pe-x",
    [SW_MATERIAL_MULTILAYER] = "multilayer", [SW_MATERIAL_PP] = "polypropylene", [SW_MATERIAL_CAST_IRON] = "steel", [SW_MATERIAL_CPVC] = "upvc",
    [SW_MATERIAL_PLIABLE] = "pe-x",   [SW_MATERIAL_BRASS] = "copper",
  };
  SwRuleValue answer;
  if (sw_rules_lookup (rules, "pipe.stock", rows[route->run->material], "length_mm", &answer, NULL))
    route->stock_length = answer.value;
  route->socket_length = route->od * 0.6;
}

SwRoute *
sw_route_new (const SwDeck *deck, const SwRules *rules, const SwRun *run, GError **error)
{
  SwRoute *route = g_new0 (SwRoute, 1);
  route->run = run;
  route->n = run->vertices.n;
  route->axis = g_new0 (SwPoint3, route->n);
  route->od = run->od;
  route->radius = run->od / 2;
  route->outer = route->radius + run->insulation;
  route->bore = run->bore;
  route->socket = run->socket / 2;
  route->bend_radius = run->bend_radius;
  if (sw_service_is_electric ((SwService) run->service))
    route_set_conduit (route, rules);
  else
    route_set_pipe (route, rules);
  route->bore = route->bore > 0 ? route->bore : route->od;
  route->socket = fmax (route->socket, route->radius);
  route_set_clearance (route, rules);
  route_set_stock (route, rules);
  route_set_axis (route, deck);
  for (guint i = 0; i + 1 < route->n; i++)
    if (sw_point3_distance (route->axis[i], route->axis[i + 1]) < SW_TOUCH_MM)
      {
        g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "run \"%s\": points %u and %u are one place", run->record.tag, i + 1, i + 2);
        sw_route_free (route);
        return NULL;
      }
  return route;
}

void
sw_route_free (SwRoute *route)
{
  g_free (route->axis);
  g_free (route);
}

gboolean
sw_route_bend (const SwRoute *route, guint corner, SwPoint3 from, SwArc *arc)
{
  if (corner == 0 || corner + 1 >= route->n || !(route->bend_radius > 0))
    return FALSE;
  SwPoint3 to = sw_point3_lerp (route->axis[corner], route->axis[corner + 1], corner + 2 < route->n ? 0.5 : 1);
  return sw_arc_in_corner (from, route->axis[corner], to, route->bend_radius, arc);
}

#define STRAIGHT_DEGREES 1.0

GArray *
sw_route_tight (const SwRoute *route)
{
  GArray *places = g_array_new (FALSE, FALSE, sizeof (SwTightPlace));
  SwPoint3 from = route->axis[0];
  for (guint i = 1; i < route->n; i++)
    {
      SwArc arc;
      double turn = sw_route_turn (route, i), leg = sw_point3_distance (route->axis[i - 1], route->axis[i]);
      gboolean turns = turn > STRAIGHT_DEGREES, before = sw_route_turn (route, i - 1) > STRAIGHT_DEGREES, bent = sw_route_bend (route, i, from, &arc);
      SwTightPlace place = { i, 0, 2 * route->socket_length - leg };
      if (turns && !bent && route->bend_radius > 0)
        {
          double after = sw_point3_distance (route->axis[i], route->axis[i + 1]) * (i + 2 < route->n ? 0.5 : 1);
          place.radius = route->bend_radius;
          place.missing = turn < 179 ? route->bend_radius * tan (turn * G_PI / 360) - fmin (sw_point3_distance (from, route->axis[i]), after) : NAN;
          g_array_append_val (places, place);
        }
      else if (!(route->bend_radius > 0) && turns && before && place.missing > 0)
        g_array_append_val (places, place);
      from = bent ? sw_arc_point (&arc, arc.angle) : route->axis[i];
    }
  return places;
}

guint
sw_route_tight_places (const SwRoute *route)
{
  g_autoptr (GArray) places = sw_route_tight (route);
  return places->len;
}

double
sw_route_length (const SwRoute *route)
{
  double sum = 0;
  for (guint i = 0; i + 1 < route->n; i++)
    sum += sw_point3_distance (route->axis[i], route->axis[i + 1]);
  return sum;
}

static double
plan_leg (const SwRoute *route, guint i)
{
  return hypot (route->axis[i + 1].x - route->axis[i].x, route->axis[i + 1].y - route->axis[i].y);
}

double
sw_route_plan_length (const SwRoute *route)
{
  double sum = 0;
  for (guint i = 0; i + 1 < route->n; i++)
    sum += plan_leg (route, i);
  return sum;
}

double
sw_route_turn (const SwRoute *route, guint i)
{
  if (i == 0 || i + 1 >= route->n)
    return 0;
  SwPoint3 a = sw_point3_sub (route->axis[i], route->axis[i - 1]), b = sw_point3_sub (route->axis[i + 1], route->axis[i]);
  return atan2 (sw_point3_length (sw_point3_cross (a, b)), sw_point3_dot (a, b)) * 180 / G_PI;
}

double
sw_route_turns (const SwRoute *route)
{
  double sum = 0;
  for (guint i = 1; i + 1 < route->n; i++)
    sum += sw_route_turn (route, i);
  return sum;
}

double
sw_route_invert (const SwRoute *route, guint i)
{
  return route->axis[i].z - route->bore / 2;
}

SwPoint3
sw_route_at (const SwRoute *route, double plan_distance, guint *segment)
{
  guint i = 0;
  double left = MAX (plan_distance, 0);
  while (i + 2 < route->n && left > plan_leg (route, i))
    left -= plan_leg (route, i++);
  double leg = plan_leg (route, i);
  if (segment != NULL)
    *segment = i;
  return sw_point3_lerp (route->axis[i], route->axis[i + 1], leg > 0 ? MIN (left / leg, 1) : 0);
}
