/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pipes that work by falling: their gradient, how long they stay in the void, and where they end. */
#include "checks/entries.h"
#include "base/tolerance.h"
#include "drainage/fall.h"
#include "drainage/outlets.h"

#define LEVEL_MM 0.5 /* a leg that loses or gains less lies level */

/* The run as the water goes: drawn from its exit it counts the other way round. */
typedef struct
{
  const SwRoute *route;
  gboolean turned;
} Flow;

static gboolean
is_exit (const SwCheckRun *run, SwId thing)
{
  const SwFitting *fitting = sw_check_fitting_of (run, thing);
  return fitting != NULL && (fitting->kind == SW_FITTING_STACK || fitting->kind == SW_FITTING_GULLY || fitting->kind == SW_FITTING_EXIT);
}

static Flow
flow_of (const SwCheckRun *run, const SwRoute *route)
{
  return (Flow){ route, sw_run_is_turned (run->job, route->run) };
}

static SwPoint3
flow_place (const Flow *flow, guint i)
{
  return flow->route->axis[flow->turned ? flow->route->n - 1 - i : i];
}

static double
plan_length (SwPoint3 from, SwPoint3 to)
{
  return hypot (to.x - from.x, to.y - from.y);
}

/* Legs at more than 45° are drops, not falls. */
static gboolean
is_falling_leg (SwPoint3 from, SwPoint3 to)
{
  double length = plan_length (from, to);
  return length > SW_TOUCH_MM && fabs (from.z - to.z) <= length;
}

static const SwRoute *
gravity_route (const SwCheckRun *run, const SwRecord *record)
{
  const SwRoute *route = sw_check_route (run, record->id);
  return route != NULL && sw_service_is_gravity ((SwService) route->run->service) ? route : NULL;
}

/* ---- gradient */

static gboolean
gradient_rule (const SwCheckRun *run, const SwRoute *route, const char *column, SwRuleValue *rule)
{
  const char *row = route->run->service == SW_SERVICE_RAINWATER ? "rainwater"
                    : route->run->service == SW_SERVICE_CONDENSATE ? "condensate" : NULL;
  if (row != NULL)
    return sw_rules_lookup (run->rules, "drainage.gradients_other", row, column, rule, NULL);
  return sw_rules_lookup_at (run->rules, "drainage.gradients", route->od, SW_RULE_NEXT_LARGER, column, rule, NULL);
}

typedef struct
{
  const char *variant;
  SwSeverity severity;
  SwRuleValue rule;
  double missing; /* mm over the leg */
} Gradient;

/* What is wrong with a leg; FALSE when nothing is. */
static gboolean
leg_gradient (const SwCheckRun *run, const SwRoute *route, double length, double drop, Gradient *fault)
{
  SwRuleValue least, note, steepest;
  gboolean known = gradient_rule (run, route, "stop_n", &least);
  *fault = (Gradient){ 0 };
  if (known)
    fault->rule = least;
  double wanted = known ? sw_drainage_fall_loss (length, least.value) : 0;
  if (drop < -LEVEL_MM)
    *fault = (Gradient){ "backwards", SW_SEVERITY_STOP, fault->rule, wanted - drop };
  else if (drop <= LEVEL_MM && length > 2 * route->od) /* a bend's own length may lie level */
    *fault = (Gradient){ "level", SW_SEVERITY_STOP, fault->rule, wanted - drop };
  else if (drop > LEVEL_MM && known && length / drop > least.value + 1e-6)
    *fault = (Gradient){ "flat", SW_SEVERITY_STOP, least, wanted - drop };
  else if (drop > LEVEL_MM && gradient_rule (run, route, "note_n", &note) && length / drop > note.value + 1e-6)
    *fault = (Gradient){ "gentle", SW_SEVERITY_NOTE, note, sw_drainage_fall_loss (length, note.value) - drop };
  else if (drop > LEVEL_MM && gradient_rule (run, route, "steepest_n", &steepest) && length / drop < steepest.value - 1e-6)
    *fault = (Gradient){ "steep", SW_SEVERITY_FIX, steepest, drop - sw_drainage_fall_loss (length, steepest.value) };
  return fault->variant != NULL;
}

void
sw_check_fall_record (SwCheckRun *run, const SwRecord *record)
{
  const SwRoute *route = gravity_route (run, record);
  if (route == NULL)
    return;
  Flow flow = flow_of (run, route);
  for (guint i = 0; i + 1 < route->n; i++)
    {
      SwPoint3 from = flow_place (&flow, i), to = flow_place (&flow, i + 1);
      double length = plan_length (from, to), drop = from.z - to.z;
      Gradient fault;
      if (!is_falling_leg (from, to) || !leg_gradient (run, route, length, drop, &fault))
        continue;
      SwSnag *snag = sw_check_add (run, fault.variant, fault.severity, record->id, sw_point3_lerp (from, to, 0.5));
      snag->parts[0] = (int) (flow.turned ? route->n - 2 - i : i);
      sw_check_set_extent (snag, from, to);
      sw_check_set_numbers (snag, fault.rule.rule_id != NULL ? fault.rule.value : NAN, drop > LEVEL_MM ? length / drop : NAN,
                            SW_UNIT_FALL, &fault.rule);
      sw_check_set_missing (snag, fault.missing, (SwPoint3){ 0 });
      sw_check_set_param (snag, "length", length, SW_UNIT_MM);
      sw_check_set_param (snag, "rise", MAX (-drop, 0), SW_UNIT_MM);
    }
}

/* ---- out of the void */

/* Height of the lowest of socket (or tube) over the soffit; NaN where there is no void above. */
static double
over_soffit (const SwCheckRun *run, const SwRoute *route, SwPoint3 p, gboolean socket)
{
  SwPoint at = { p.x, p.y };
  const SwDeckBay *bay = sw_deck_bay_at (run->deck, at);
  if (bay == NULL || sw_deck_void_at (bay, sw_deck_to_bay (bay, at).y) < 0)
    return NAN;
  return p.z - (socket ? MAX (route->socket, route->outer) : route->outer) - sw_deck_soffit (bay, at);
}

typedef struct
{
  double along, tube_along; /* plan distance from the start where the socket, the tube passes the soffit; NaN: never */
  double below;             /* how deep it goes in the end */
  SwPoint3 place, end;
} WayOut;

/* Where the line between two heights passes zero downwards, as a share of the leg; NaN when it does not. */
static double
passes_down (double before, double after)
{
  return before >= 0 && after < -SW_TOUCH_MM ? before / (before - after) : NAN;
}

static WayOut
way_out (const SwCheckRun *run, const Flow *flow)
{
  WayOut out = { .along = NAN, .tube_along = NAN };
  double walked = 0;
  for (guint i = 0; i + 1 < flow->route->n; i++)
    {
      SwPoint3 from = flow_place (flow, i), to = flow_place (flow, i + 1);
      double length = plan_length (from, to);
      if (is_falling_leg (from, to))
        {
          double after = over_soffit (run, flow->route, to, TRUE);
          double socket = passes_down (over_soffit (run, flow->route, from, TRUE), after);
          double tube = passes_down (over_soffit (run, flow->route, from, FALSE), over_soffit (run, flow->route, to, FALSE));
          if (isnan (out.along) && !isnan (socket))
            {
              out.along = walked + socket * length;
              out.place = sw_point3_lerp (from, to, socket);
            }
          if (isnan (out.tube_along) && !isnan (tube))
            out.tube_along = walked + tube * length;
          if (!isnan (out.along) && -after > out.below)
            {
              out.below = -after;
              out.end = to;
            }
        }
      walked += length;
    }
  return out;
}

/* Hidden by boards it cannot be; over a hung grid it is the ceiling's depth that counts. */
static SwSeverity
way_out_severity (const SwCheckRun *run, const WayOut *out)
{
  const SwRoom *room = sw_check_room_at (run, (SwPoint){ out->end.x, out->end.y });
  return room == NULL || room->finish == SW_FINISH_GRID ? SW_SEVERITY_NOTE
         : room->finish == SW_FINISH_EXPOSED ? SW_SEVERITY_FIX : SW_SEVERITY_STOP;
}

void
sw_check_fall_out_record (SwCheckRun *run, const SwRecord *record)
{
  const SwRoute *route = gravity_route (run, record);
  if (route == NULL || route->run->stage == SW_STAGE_CAST_IN)
    return;
  Flow flow = flow_of (run, route);
  WayOut out = way_out (run, &flow);
  if (isnan (out.along))
    return;
  gboolean tube = !isnan (out.tube_along);
  SwSnag *snag = sw_check_add (run, tube ? "tube" : "socket", way_out_severity (run, &out), record->id, out.place);
  sw_check_set_extent (snag, out.place, out.end);
  sw_check_set_numbers (snag, 0, -out.below, SW_UNIT_MM, NULL);
  sw_check_set_missing (snag, out.below, (SwPoint3){ 0, 0, 1 });
  sw_check_set_param (snag, "along", out.along, SW_UNIT_MM);
  if (tube)
    sw_check_set_param (snag, "tube", out.tube_along, SW_UNIT_MM);
}

/* ---- ends */

/* How far the last place of the run stays from the fitting's body, in plan. */
static double
short_of (SwPoint3 end, const SwFitting *fitting)
{
  double half = fitting->width > 0 ? MAX (fitting->length, fitting->width) / 2 : fitting->length / 2;
  return MAX (hypot (end.x - fitting->at.x, end.y - fitting->at.y) - half, 0);
}

/* A fitting of another gravity run takes the water on. */
static gboolean
goes_on (const SwCheckRun *run, const SwRoute *route, const SwFitting *fitting)
{
  const SwRoute *next = fitting->run != route->run->record.id ? sw_space_route (run->space, fitting->run) : NULL;
  return next != NULL && sw_service_is_gravity ((SwService) next->run->service);
}

void
sw_check_gravity_end_record (SwCheckRun *run, const SwRecord *record)
{
  const SwRoute *route = gravity_route (run, record);
  if (route == NULL)
    return;
  Flow flow = flow_of (run, route);
  SwId thing = flow.turned ? route->run->start : route->run->end;
  SwPoint3 end = flow_place (&flow, route->n - 1);
  const SwFitting *fitting = sw_check_fitting_of (run, thing);
  double reach = sw_check_limit (run, SW_LIMIT_END_REACH);
  gboolean good = fitting != NULL && (is_exit (run, thing) || goes_on (run, route, fitting));
  double left = good ? short_of (end, fitting) : 0;
  if (good && left <= reach)
    return;
  SwSnag *snag = sw_check_add (run, good ? "short" : thing != 0 ? "other" : "open", SW_SEVERITY_FIX, record->id, end);
  sw_check_set_other (snag, thing, SW_N_BODIES, -1);
  if (good)
    {
      sw_check_set_numbers (snag, reach, left, SW_UNIT_MM, &run->limits[SW_LIMIT_END_REACH]);
      sw_check_set_missing (snag, left, (SwPoint3){ fitting->at.x - end.x, fitting->at.y - end.y, 0 });
    }
}

void
sw_check_start_record (SwCheckRun *run, const SwRecord *record)
{
  const SwRoute *route = sw_check_route (run, record->id);
  if (route != NULL && route->run->start == 0 && route->run->stage != SW_STAGE_EXISTING)
    sw_check_add (run, "open", SW_SEVERITY_NOTE, record->id, route->axis[0]);
}
