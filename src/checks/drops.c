/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What passes a drop in its wall: conduits and pipes that go down to switches, sockets and taps stand upright in the wall, from the run
 * that ends there, or from the soffit while none does. */
#include "checks/entries.h"
#include "base/tolerance.h"

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
  g_autoptr (GPtrArray) near = sw_check_near_line (run, SW_TABLE_RUN, at, at, 1000);
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

/* Upright chases weaken a leaf of masonry; boards on studs and glass have none. */
void
sw_check_chase_record (SwCheckRun *run, const SwRecord *record)
{
  static const guint32 masonry = 1u << SW_WALL_BRICK | 1u << SW_WALL_BLOCK | 1u << SW_WALL_CONCRETE;
  const SwDrop *drop = (const SwDrop *) record;
  const SwRecord *found = sw_job_get (run->job, drop->wall);
  SwRuleValue divisor = sw_rules_value (run->rules, "drops.chases", "vertical_divisor");
  SwPoint at;
  if (found == NULL || sw_record_table (found) != SW_TABLE_WALL || !sw_job_drop_place (run->job, drop, &at))
    return;
  const SwWall *wall = (const SwWall *) found;
  double most = wall->thickness / divisor.value;
  if (!(masonry & 1u << wall->material) || drop->chase_depth <= most + SW_TOUCH_MM)
    return;
  SwSnag *snag = sw_check_add (run, "deep", SW_SEVERITY_FIX, record->id, (SwPoint3){ at.x, at.y, sw_deck_z_from_floor (run->deck, drop->height) });
  sw_check_set_other (snag, wall->record.id, SW_N_BODIES, -1);
  sw_check_set_numbers (snag, most, drop->chase_depth, SW_UNIT_MM, &divisor);
  sw_check_set_missing (snag, drop->chase_depth - most, (SwPoint3){ 0 });
}
