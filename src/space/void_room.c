/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every leg of every run is cut to the void and looked at along it; what it sweeps in the section is covered by circles set so
 * close that no part of it is left out. O(vertices of the job); boxes and hangers are not looked at. */
#include "space/void_room.h"
#include "base/tolerance.h"
#include <math.h>

#define COVERS 12 /* circles on a leg that slopes or swerves */

SwPackCase
sw_void_section (const SwSpace *space, const SwDeckBay *bay, guint void_index)
{
  const SwRules *rules = sw_space_rules (space);
  const char *group = "checks.clearances";
  const SwVoid *over = &g_array_index (bay->voids, SwVoid, void_index);
  return (SwPackCase){
    .mouth = sw_deck_void_width (bay, void_index, 0), .crown = sw_deck_void_width (bay, void_index, over->depth), .depth = over->depth,
    .side = sw_rules_value (rules, group, "web_mm").value, .top = sw_rules_value (rules, group, "crown_mm").value,
    .bottom = sw_rules_value (rules, group, "batten_mm").value, .between = sw_rules_value (rules, group, "tube_mm").value,
  };
}

/* The place in the section: x across from the void's middle, y above the soffit. */
static SwPoint
in_section (const SwDeckBay *bay, const SwVoid *over, SwPoint3 p)
{
  SwPoint at = { p.x, p.y };
  return (SwPoint){ sw_deck_to_bay (bay, at).y - over->v, p.z - sw_deck_soffit (bay, at) };
}

/* Cuts the share [low, high] of a leg to where a value that goes from a to b lies between two bounds. */
static void
cut (double a, double b, double least, double most, double *low, double *high)
{
  double way = b - a;
  if (fabs (way) < 1e-12)
    {
      if (a < least || a > most)
        *high = *low - 1;
      return;
    }
  double one = (least - a) / way, other = (most - a) / way;
  *low = fmax (*low, fmin (one, other));
  *high = fmin (*high, fmax (one, other));
}

static void
cover (SwId run, SwPoint from, SwPoint to, double radius, GArray *tubes)
{
  double length = sw_point_distance (from, to);
  guint n = length < SW_TOUCH_MM ? 1 : COVERS;
  double half = n > 1 ? length / (n - 1) / 2 : 0;
  for (guint i = 0; i < n; i++)
    {
      SwVoidTube tube = { run, { hypot (radius, half), n > 1 ? sw_point_lerp (from, to, (double) i / (n - 1)) : from } };
      g_array_append_val (tubes, tube);
    }
}

static void
add_leg (const SwDeckBay *bay, const SwVoid *over, const SwRoute *route, guint i, double from_u, double to_u, GArray *tubes)
{
  double radius = fmax (route->outer, route->socket + route->run->insulation), low = 0, high = 1;
  SwPoint3 a = route->axis[i], b = route->axis[i + 1];
  SwPoint p = sw_deck_to_bay (bay, (SwPoint){ a.x, a.y }), q = sw_deck_to_bay (bay, (SwPoint){ b.x, b.y });
  SwPoint one = in_section (bay, over, a), other = in_section (bay, over, b);
  cut (p.x, q.x, from_u, to_u, &low, &high);
  cut (p.y, q.y, over->low - radius, over->high + radius, &low, &high);
  cut (one.y, other.y, -radius, over->depth + radius, &low, &high);
  if (low <= high)
    cover (route->run->record.id, sw_point_lerp (one, other, low), sw_point_lerp (one, other, high), radius, tubes);
}

GArray *
sw_void_tubes (const SwSpace *space, const SwDeckBay *bay, guint void_index, double from_u, double to_u)
{
  GArray *tubes = g_array_new (FALSE, FALSE, sizeof (SwVoidTube));
  const SwVoid *over = &g_array_index (bay->voids, SwVoid, void_index);
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_space_job (space), SW_TABLE_RUN); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwRoute *route = sw_space_route (space, record->id);
      for (guint leg = 0; route != NULL && leg + 1 < route->n; leg++)
        add_leg (bay, over, route, leg, from_u, to_u, tubes);
    }
  return tubes;
}
