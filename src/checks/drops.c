/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What passes a drop in its wall: conduits and pipes that go down to switches, sockets and taps stand upright in the wall, from the run
 * that ends there, or from the soffit while none does. And how deep walls are cut for drops and for runs that lie in them. */
#include "checks/entries.h"
#include "base/tolerance.h"
#include "circuits/draws.h"
#include "geometry/outline.h"

#define WALL_HALF_MOST_MM 1000.0 /* half of the thickest wall that a job may hold: walls are found by their centre lines */

typedef struct
{
  SwCheckRun *run;
  const SwDrop *drop;
  SwBody body; /* of the drop */
  gboolean electric;
} Passing;

/* The run that ends at the drop; its axis there. NULL while none does. */
static const SwRoute *
run_of_drop (const SwCheckRun *run, const SwDrop *drop, SwPoint at, SwPoint3 *end)
{
  g_autoptr (GPtrArray) near = sw_check_near_line (run, SW_TABLE_RUN, at, at, sw_circuits_at_wall (run->rules));
  for (guint i = 0; i < near->len; i++)
    {
      const SwRun *of = near->pdata[i];
      const SwRoute *route = of->start == drop->record.id || of->end == drop->record.id ? sw_space_route (run->space, of->record.id) : NULL;
      if (route == NULL)
        continue;
      *end = route->axis[of->start == drop->record.id ? 0 : route->n - 1];
      return route;
    }
  return NULL;
}

/* Its own run, what sits on that, and what ends at it. */
static gboolean
belongs (const SwCheckRun *run, const SwDrop *drop, const SwBody *body)
{
  const SwFitting *fitting = sw_check_fitting_of (run, body->owner);
  const SwRun *of = sw_check_run_of (body);
  if (of == NULL && fitting != NULL && fitting->run != 0)
    of = (const SwRun *) sw_job_get (run->job, fitting->run);
  return of != NULL && (of->start == drop->record.id || of->end == drop->record.id);
}

static gboolean
take_passing (const SwBody *body, gpointer data)
{
  Passing *passing = data;
  SwCheckRun *run = passing->run;
  const SwRun *of = sw_check_run_of (body);
  gboolean both = of != NULL && sw_service_is_electric ((SwService) of->service) && passing->electric;
  const SwRuleValue *rule = of != NULL ? &run->limits[both ? SW_LIMIT_CONDUIT : SW_LIMIT_TUBE] : NULL;
  double needed = rule != NULL ? rule->value : 0;
  SwClearance clearance;
  if (belongs (run, passing->drop, body) || sw_solid_is_clear (&body->solid, &passing->body.solid, needed))
    return TRUE;
  sw_solid_clearance (&body->solid, &passing->body.solid, &clearance);
  SwCheckPair pair = { body, &passing->body, clearance.mm, clearance.away, sw_point3_lerp (clearance.on_first, clearance.on_second, 0.5) };
  gboolean hits = pair.mm < -SW_TOUCH_MM;
  if (hits || needed > 0)
    sw_check_add_pair (run, hits ? "hit" : "near", hits ? SW_SEVERITY_STOP : SW_SEVERITY_FIX, &pair, needed, rule);
  return TRUE;
}

void
sw_check_wall_drop_record (SwCheckRun *run, const SwRecord *record)
{
  const SwDrop *drop = (const SwDrop *) record;
  const SwRecord *wall = sw_job_get (run->job, drop->wall);
  SwPoint3 end;
  SwPoint at;
  if (wall == NULL || sw_record_table (wall) != SW_TABLE_WALL || !sw_job_drop_place (run->job, drop, &at))
    return;
  const SwRoute *route = run_of_drop (run, drop, at, &end);
  double low = sw_deck_z_from_floor (run->deck, drop->height), high = route != NULL ? end.z : sw_deck_soffit_at (run->deck, at);
  double radius = (route != NULL ? route->od : drop->chase_depth) / 2;
  if (!(radius > 0) || fabs (high - low) < 2 * radius)
    return;
  SwSolid solid = sw_solid_tube ((SwPoint3){ at.x, at.y, fmin (low, high) }, (SwPoint3){ at.x, at.y, fmax (low, high) - radius }, radius);
  Passing passing = { run, drop, { .box = sw_solid_box3 (&solid), .owner = record->id, .record = record, .kind = SW_BODY_FITTING, .bay = G_MAXUINT, .solid = solid },
                      route != NULL ? sw_service_is_electric ((SwService) route->run->service) : drop->kind != SW_DROP_TAP };
  double reach = fmax (sw_check_limit (run, SW_LIMIT_CONDUIT), sw_check_limit (run, SW_LIMIT_TUBE));
  sw_space_query (run->space, sw_box3_grow (passing.body.box, reach), SW_BODIES_SERVICE | SW_BODY_BIT (SW_BODY_BEAM) | SW_BODY_BIT (SW_BODY_COLUMN), take_passing, &passing);
}

/* ---- walls below ribs */

#define ALONG_LEAST 0.5 /* cosine between a wall and the voids: such a wall goes along a rib or beside it */

/* A wall along a rib, right below it: what comes down from the void beside it has to be set over by so much first. */
void
sw_check_drop_set_record (SwCheckRun *run, const SwRecord *record)
{
  const SwDrop *drop = (const SwDrop *) record;
  const SwWall *wall = (const SwWall *) sw_job_get (run->job, drop->wall);
  SwPoint at;
  SwPoint3 end;
  if (wall == NULL || sw_record_table (&wall->record) != SW_TABLE_WALL || !sw_job_drop_place (run->job, drop, &at))
    return;
  const SwDeckBay *bay = sw_deck_bay_at (run->deck, at);
  const SwRoute *route = bay != NULL ? run_of_drop (run, drop, at, &end) : NULL;
  SwPoint way = sw_point_sub (wall->to, wall->from);
  double length = sw_point_length (way);
  if (route == NULL || length <= 0 || fabs (way.x * bay->cosine + way.y * bay->sine) < ALONG_LEAST * length)
    return;
  double v = sw_deck_to_bay (bay, at).y;
  int k = sw_deck_void_near (bay, sw_deck_to_bay (bay, (SwPoint){ end.x, end.y }).y);
  if (k < 0 || sw_deck_rib_at (bay, v) < 0)
    return;
  const SwVoid *beside = &g_array_index (bay->voids, SwVoid, k);
  double inside = route->outer + sw_check_limit (run, SW_LIMIT_WEB), set = fmax (beside->low + inside - v, v - (beside->high - inside));
  if (set <= SW_TOUCH_MM)
    return;
  SwSnag *snag = sw_check_add (run, "rib", SW_SEVERITY_NOTE, record->id, (SwPoint3){ at.x, at.y, sw_deck_soffit (bay, at) });
  sw_check_set_other (snag, route->run->record.id, SW_BODY_TUBE, -1);
  sw_check_set_param (snag, "set", set, SW_UNIT_MM);
}

/* ---- chases: they weaken a leaf of masonry; boards on studs and glass have none */

static gboolean
is_masonry (const SwWall *wall)
{
  static const guint32 masonry = 1u << SW_WALL_BRICK | 1u << SW_WALL_BLOCK | 1u << SW_WALL_CONCRETE;
  return masonry >> wall->material & 1;
}

static void
check_drop_chase (SwCheckRun *run, const SwDrop *drop)
{
  const SwRecord *found = sw_job_get (run->job, drop->wall);
  SwRuleValue divisor = sw_rules_value (run->rules, "drops.chases", "vertical_divisor");
  SwPoint at;
  if (found == NULL || sw_record_table (found) != SW_TABLE_WALL || !sw_job_drop_place (run->job, drop, &at))
    return;
  const SwWall *wall = (const SwWall *) found;
  double most = wall->thickness / divisor.value;
  if (!is_masonry (wall) || drop->chase_depth <= most + SW_TOUCH_MM)
    return;
  SwSnag *snag = sw_check_add (run, "deep", SW_SEVERITY_FIX, drop->record.id, (SwPoint3){ at.x, at.y, sw_deck_z_from_floor (run->deck, drop->height) });
  sw_check_set_other (snag, wall->record.id, SW_N_BODIES, -1);
  sw_check_set_numbers (snag, most, drop->chase_depth, SW_UNIT_MM, &divisor);
  sw_check_set_missing (snag, drop->chase_depth - most, (SwPoint3){ 0 });
}

/* A stretch of a run's leg that lies in a wall along it, or goes up and down in it. */
typedef struct
{
  SwPoint3 from, to;
  double depth;      /* from the nearer face to the far side of the tube */
  gboolean upright;
} Chased;

/* Keeps of the stretch what lies between two values of a coordinate that goes from `a` to `b`. FALSE when nothing is left. */
static gboolean
keep_between (SwInterval *kept, double a, double b, double low, double high)
{
  double way = b - a;
  if (fabs (way) < SW_TOUCH_MM)
    return a >= low && a <= high;
  double t0 = (low - a) / way, t1 = (high - a) / way;
  kept->low = fmax (kept->low, fmin (t0, t1));
  kept->high = fmin (kept->high, fmax (t0, t1));
  return kept->low < kept->high;
}

static double
wall_top (const SwCheckRun *run, const SwWall *wall)
{
  guint first, n;
  sw_space_bodies_of (run->space, wall->record.id, &first, &n);
  return n > 0 ? sw_space_body (run->space, first)->box.high.z : -INFINITY;
}

/* FALSE where the leg is not in the wall, or only goes through it. */
static gboolean
chased_leg (const SwCheckRun *run, const SwRoute *route, guint leg, const SwWall *wall, Chased *chased)
{
  SwPoint3 a = route->axis[leg], b = route->axis[leg + 1];
  SwPoint along = sw_point_sub (wall->to, wall->from);
  double length = sw_point_length (along), plan = hypot (b.x - a.x, b.y - a.y), half = wall->thickness / 2;
  if (length <= 0)
    return FALSE;
  along = sw_point_scale (along, 1 / length);
  SwPoint from_a = sw_point_sub ((SwPoint){ a.x, a.y }, wall->from), from_b = sw_point_sub ((SwPoint){ b.x, b.y }, wall->from);
  double off_a = sw_point_cross (along, from_a), off_b = sw_point_cross (along, from_b);
  SwInterval kept = { 0, 1 };
  chased->upright = fabs (b.z - a.z) > 2 * plan;
  if (!chased->upright && fabs (off_b - off_a) > plan / 2)
    return FALSE;
  if (!keep_between (&kept, sw_point_dot (from_a, along), sw_point_dot (from_b, along), 0, length) || !keep_between (&kept, off_a, off_b, -half, half)
      || !keep_between (&kept, a.z, b.z, sw_deck_z_from_floor (run->deck, 0), wall_top (run, wall)))
    return FALSE;
  double off_low = off_a + (off_b - off_a) * kept.low, off_high = off_a + (off_b - off_a) * kept.high;
  chased->from = sw_point3_lerp (a, b, kept.low);
  chased->to = sw_point3_lerp (a, b, kept.high);
  chased->depth = half - fmin (fabs (off_low), fabs (off_high)) + route->radius;
  return sw_point3_distance (chased->from, chased->to) > 2 * route->od;
}

static void
check_run_chase (SwCheckRun *run, const SwRoute *route, const SwWall *wall)
{
  SwRuleValue divisors[2] = { sw_rules_value (run->rules, "drops.chases", "horizontal_divisor"), sw_rules_value (run->rules, "drops.chases", "vertical_divisor") };
  Chased chased;
  for (guint leg = 0; leg + 1 < route->n; leg++)
    {
      if (!chased_leg (run, route, leg, wall, &chased))
        continue;
      const SwRuleValue *divisor = &divisors[chased.upright];
      double most = wall->thickness / divisor->value;
      if (chased.depth <= most + SW_TOUCH_MM)
        continue;
      SwSnag *snag = sw_check_add (run, chased.upright ? "upright" : "level", SW_SEVERITY_FIX, route->run->record.id, sw_point3_lerp (chased.from, chased.to, 0.5));
      snag->parts[0] = (int) leg;
      sw_check_set_extent (snag, chased.from, chased.to);
      sw_check_set_other (snag, wall->record.id, SW_N_BODIES, -1);
      sw_check_set_numbers (snag, most, chased.depth, SW_UNIT_MM, divisor);
      sw_check_set_param (snag, "length", sw_point3_distance (chased.from, chased.to), SW_UNIT_MM);
    }
}

void
sw_check_chase_record (SwCheckRun *run, const SwRecord *record)
{
  if (sw_record_table (record) == SW_TABLE_DROP)
    {
      check_drop_chase (run, (const SwDrop *) record);
      return;
    }
  const SwRoute *route = sw_check_route (run, record->id);
  if (route == NULL || route->run->stage != SW_STAGE_FIRST_FIX)
    return;
  SwBox box = sw_box_grow (sw_check_run_box (route->run), WALL_HALF_MOST_MM);
  g_autoptr (GPtrArray) walls = sw_check_lookup_near (run->lookup, SW_TABLE_WALL, box);
  for (guint i = 0; i < walls->len; i++)
    if (is_masonry (walls->pdata[i]))
      check_run_chase (run, route, walls->pdata[i]);
}
