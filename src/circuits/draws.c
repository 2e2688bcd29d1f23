/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Boxes are set from the run's start, each as far along as turn and length allow: no later box could serve what lies before it,
 * so their number is the least when every straight can hold one. Where a straight lies below a rib the box goes back to one
 * that does not, which may cost a box more. One pass, O(vertices · boxes). */
#include "circuits/draws.h"
#include "base/tolerance.h"
#include <math.h>

double
sw_circuits_along (const SwRoute *route, SwPoint p, double *apart)
{
  double walked = 0, best = 0;
  *apart = INFINITY;
  for (guint i = 0; i + 1 < route->n; i++)
    {
      SwPoint3 from = route->axis[i], to = route->axis[i + 1];
      SwPoint a = { from.x, from.y }, along = { to.x - from.x, to.y - from.y };
      double square = sw_point_dot (along, along), length = sw_point3_distance (from, to);
      double t = square > 0 ? CLAMP (sw_point_dot (sw_point_sub (p, a), along) / square, 0, 1) : 0;
      double distance = sw_point_distance (p, sw_point_add (a, sw_point_scale (along, t)));
      if (distance < *apart)
        {
          *apart = distance;
          best = walked + t * length;
        }
      walked += length;
    }
  return best;
}

SwPoint3
sw_circuits_place (const SwRoute *route, double along)
{
  for (guint i = 0; i + 1 < route->n; i++)
    {
      double length = sw_point3_distance (route->axis[i], route->axis[i + 1]);
      if (along <= length || i + 2 == route->n)
        return sw_point3_lerp (route->axis[i], route->axis[i + 1], CLAMP (along / length, 0, 1));
      along -= length;
    }
  return route->axis[0];
}

/* ---- wall drops */

double
sw_circuits_at_wall (const SwRules *rules)
{
  return sw_rules_value (rules, "drops.ends", "at_wall_mm").value;
}

double
sw_circuits_wall_drop (const SwDeck *deck, const SwRules *rules, const SwRoute *route, gboolean last)
{
  const SwJob *job = sw_deck_job (deck);
  const SwRecord *record = sw_job_get (job, last ? route->run->end : route->run->start);
  SwPoint3 end = route->axis[last ? route->n - 1 : 0];
  SwPoint place;
  if (record == NULL || sw_record_table (record) != SW_TABLE_DROP || !sw_job_drop_place (job, (const SwDrop *) record, &place)
      || sw_point_distance (place, (SwPoint){ end.x, end.y }) > sw_circuits_at_wall (rules))
    return 0;
  double drop = end.z - sw_deck_z_from_floor (deck, ((const SwDrop *) record)->height);
  return fabs (drop) > route->od ? drop : 0;
}

double
sw_circuits_drop_turn (const SwRoute *route, double drop, gboolean last)
{
  SwPoint3 way = sw_point3_sub (route->axis[last ? route->n - 1 : 0], route->axis[last ? route->n - 2 : 1]);
  return drop == 0 ? 0 : acos (CLAMP (-way.z / sw_point3_length (way), -1, 1) * (drop > 0 ? 1 : -1)) * 180 / G_PI;
}

/* ---- stretches */

/* Turn of the vertices inside the stretch and at its ends, up to enough of it, and where that is reached. */
static double
turn_up_to (const SwRoute *route, const SwDrawStretch *stretch, double reach, double enough, double *where)
{
  double walked = 0, turned = stretch->turn_from;
  *where = (stretch->from + stretch->to) / 2;
  for (guint i = 1; i + 1 < route->n && turned < enough; i++)
    {
      walked += sw_point3_distance (route->axis[i - 1], route->axis[i]);
      if (walked <= stretch->from + reach || walked >= stretch->to - reach)
        continue;
      turned += sw_route_turn (route, i);
      *where = walked;
    }
  return turned < enough ? turned + stretch->turn_to : turned;
}

GArray *
sw_circuits_stretches (const SwDeck *deck, const SwRules *rules, const SwRoute *route, const double *boxes, guint n, double reach)
{
  GArray *stretches = g_array_new (FALSE, FALSE, sizeof (SwDrawStretch));
  double from = 0, end = sw_route_length (route), ends[2];
  for (int last = 0; last < 2; last++)
    ends[last] = sw_circuits_drop_turn (route, sw_circuits_wall_drop (deck, rules, route, last), last);
  for (guint i = 0; i <= n; i++)
    {
      double to = i < n ? boxes[i] : end;
      SwDrawStretch stretch = { .from = from, .to = to, .turn_from = i == 0 ? ends[0] : 0, .turn_to = i == n ? ends[1] : 0 };
      if (to - from > SW_TOUCH_MM)
        {
          stretch.turn = turn_up_to (route, &stretch, reach, INFINITY, &stretch.turn_at);
          turn_up_to (route, &stretch, reach, stretch.turn / 2, &stretch.turn_at);
          g_array_append_val (stretches, stretch);
        }
      from = to;
    }
  return stretches;
}

/* ---- where boxes go */

typedef struct
{
  const SwDeck *deck;
  const SwRoute *route;
  double most_mm;
  double last; /* the draw point before */
  GArray *boxes;
} Setting;

/* No box fits below a rib; in a void, or away from the deck, one does. */
static gboolean
holds_box (const Setting *setting, double along)
{
  SwPoint3 p = sw_circuits_place (setting->route, along);
  SwPoint at = { p.x, p.y };
  const SwDeckBay *bay = sw_deck_bay_at (setting->deck, at);
  return bay == NULL || (sw_deck_void_at (bay, sw_deck_to_bay (bay, at).y) >= 0 && p.z >= sw_deck_soffit (bay, at));
}

/* The last place for a box at or before `limit`, which lies on the leg that ends at `vertex`: there, else in the middle of that
 * leg or one before it, but after the last draw point. NAN: none. */
static double
place_before (const Setting *setting, guint vertex, double vertex_along, double limit, double reach)
{
  double end = vertex_along;
  if (limit < vertex_along - SW_TOUCH_MM && holds_box (setting, limit))
    return limit;
  for (guint i = vertex; i > 0; i--)
    {
      double start = end - sw_point3_distance (setting->route->axis[i - 1], setting->route->axis[i]);
      double middle = (fmax (start, setting->last) + fmin (end, limit)) / 2;
      if (end <= setting->last + reach)
        break;
      if (middle > setting->last + reach && middle <= limit + SW_TOUCH_MM && holds_box (setting, middle))
        return middle;
      end = start;
    }
  return NAN;
}

/* Of a part of the stretch. */
static double
turn_between (const SwRoute *route, const SwDrawStretch *stretch, double from, double to, double reach)
{
  double where;
  const SwDrawStretch part = { .from = from, .to = to, .turn_from = from <= stretch->from ? stretch->turn_from : 0,
                               .turn_to = to >= stretch->to ? stretch->turn_to : 0 };
  return turn_up_to (route, &part, reach, INFINITY, &where);
}

static gboolean
set_box (Setting *setting, guint vertex, double vertex_along, double limit, double reach)
{
  double place = place_before (setting, vertex, vertex_along, limit, reach);
  if (isnan (place))
    return FALSE;
  g_array_append_val (setting->boxes, place);
  setting->last = place;
  return TRUE;
}

GArray *
sw_circuits_boxes_needed (const SwDeck *deck, const SwRoute *route, const SwDrawStretch *stretch, double most_degree, double most_mm,
                          double reach, gboolean *cured)
{
  Setting setting = { deck, route, most_mm, stretch->from, g_array_new (FALSE, FALSE, sizeof (double)) };
  double walked = 0, before = 0;
  *cured = TRUE;
  for (guint i = 1; i < route->n && *cured; i++)
    {
      before = walked;
      walked += sw_point3_distance (route->axis[i - 1], route->axis[i]);
      if (walked <= stretch->from || before >= stretch->to)
        continue;
      double here = fmin (walked, stretch->to);
      while (*cured && here - setting.last > most_mm + SW_TOUCH_MM)
        *cured = set_box (&setting, i, walked, setting.last + most_mm, reach);
      while (*cured && walked < stretch->to - reach && turn_between (route, stretch, setting.last, fmin (walked + 2 * reach, stretch->to - SW_TOUCH_MM), reach) > most_degree + 0.01)
        *cured = set_box (&setting, i, walked, walked, reach);
      if (*cured && walked >= stretch->to - SW_TOUCH_MM && turn_between (route, stretch, setting.last, stretch->to, reach) > most_degree + 0.01)
        *cured = set_box (&setting, i, walked, walked, reach);
    }
  return setting.boxes;
}
