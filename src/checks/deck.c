/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Services against the deck's concrete, its plates and its openings. */
#include "checks/entries.h"
#include "base/tolerance.h"

#define AROUND_SLEEVE_MM 50.0 /* a sleeve drawn this far beside its rib still is that rib's */

/* ---- what is asked of whom */

/* Bodies that touch concrete by their nature: what is cast in, hangers, stacks and boards. */
static gboolean
touches_concrete (const SwCheckRun *run, const SwBody *body)
{
  static const guint32 kinds = 1u << SW_FITTING_STACK | 1u << SW_FITTING_GULLY | 1u << SW_FITTING_EXIT
                               | 1u << SW_FITTING_BOARD | 1u << SW_FITTING_HANGER;
  const SwRun *of = sw_check_run_of (body);
  if (of != NULL)
    return of->stage == SW_STAGE_CAST_IN;
  const SwFitting *fitting = sw_check_fitting_of (run, body->owner);
  return fitting == NULL || kinds & 1u << fitting->kind || fitting->level == SW_LEVEL_TOPPING;
}

/* The run's own clearance, else the rule's; a fitting may touch. *rule is NULL when no rule was asked. */
static double
asked_of (const SwCheckRun *run, const SwBody *body, SwLimit limit, const SwRuleValue **rule)
{
  const SwRun *of = sw_check_run_of (body);
  *rule = of != NULL && of->clearance <= 0 ? &run->limits[limit] : NULL;
  return of == NULL ? 0 : of->clearance > 0 ? of->clearance : sw_check_limit (run, limit);
}

static double
concrete_needed (const SwCheckRun *run, const SwBody *first, SwLimit limit)
{
  const SwRuleValue *rule;
  return touches_concrete (run, first) ? -1 : asked_of (run, first, limit, &rule);
}

/* Does the axis itself run inside the other body? Then it goes through and no small move helps. */
static gboolean
goes_through (const SwCheckPair *pair)
{
  double radius = pair->first->kind == SW_BODY_TUBE ? pair->first->solid.radius
                  : pair->first->kind == SW_BODY_SOCKET ? pair->first->solid.disc : INFINITY;
  return pair->mm < -radius;
}

/* ---- sleeves */

static SwPoint3
sleeve_place (const SwCheckRun *run, const SwSleeve *sleeve, SwPoint at)
{
  return (SwPoint3){ at.x, at.y, sw_deck_soffit_at (run->deck, at) + sleeve->z };
}

static gboolean
box_holds (SwBox3 box, SwPoint3 p)
{
  return box.low.x <= p.x && p.x <= box.high.x && box.low.y <= p.y && p.y <= box.high.y && box.low.z <= p.z && p.z <= box.high.z;
}

/* A sleeve of this kind that stands in the obstacle and that the body runs in, be it large enough or not. */
static gboolean
has_sleeve (const SwCheckRun *run, const SwCheckPair *pair, SwThrough through)
{
  SwBox3 around = sw_box3_grow (pair->second->box, AROUND_SLEEVE_MM);
  SwBox flat = { { around.low.x, around.low.y }, { around.high.x, around.high.y } };
  g_autoptr (GPtrArray) sleeves = sw_check_lookup_near (run->lookup, SW_TABLE_SLEEVE, flat);
  for (guint i = 0; i < sleeves->len; i++)
    {
      const SwSleeve *sleeve = sleeves->pdata[i];
      if (sleeve->through != (int) through || (sleeve->run != 0 && sleeve->run != pair->first->owner))
        continue;
      SwPoint3 from = sleeve_place (run, sleeve, sleeve->from), to = sleeve_place (run, sleeve, sleeve->to);
      if (through == SW_THROUGH_TOPPING)
        to = sw_point3_add (from, (SwPoint3){ 0, 0, SW_TOUCH_MM });
      SwSolid hole = sw_solid_tube (from, to, sleeve->diameter / 2);
      SwSolid axis = sw_solid_tube (pair->first->solid.origin,
                                    sw_point3_add (pair->first->solid.origin, pair->first->solid.along), 0);
      if (box_holds (around, sw_point3_lerp (from, to, 0.5)) && sw_solid_clearance (&axis, &hole, NULL) <= 0)
        return TRUE;
    }
  return FALSE;
}

/* A drop-in's hole through the topping, for the run that starts or ends at it. */
static gboolean
has_drop_in (const SwCheckRun *run, const SwCheckPair *pair)
{
  const SwRun *of = sw_check_run_of (pair->first);
  SwId ends[2] = { of != NULL ? of->start : 0, of != NULL ? of->end : 0 };
  for (int i = 0; i < 2; i++)
    {
      const SwRecord *end = ends[i] != 0 ? sw_job_get (run->job, ends[i]) : NULL;
      if (end == NULL || sw_record_table (end) != SW_TABLE_DROP_IN)
        continue;
      const SwDropIn *drop_in = (const SwDropIn *) end;
      if (sw_point_distance (drop_in->at, (SwPoint){ pair->place.x, pair->place.y }) < drop_in->hole)
        return TRUE;
    }
  return FALSE;
}

/* ---- concrete */

/* Through: a question to the engineer. Into: a clash. Near: a shortage. */
static void
concrete_pair (SwCheckRun *run, const SwCheckPair *pair, double needed, const SwRuleValue *rule, SwThrough through)
{
  if (pair->mm >= needed || has_sleeve (run, pair, through))
    return;
  gboolean goes = goes_through (pair), hits = pair->mm < -SW_TOUCH_MM;
  SwSnag *snag = sw_check_add_pair (run, goes ? "through" : hits ? "hit" : "near",
                                    goes || hits ? SW_SEVERITY_STOP : SW_SEVERITY_FIX, pair, needed, rule);
  if (snag != NULL && goes)
    snag->trade = SW_TRADE_ENGINEER;
}

/* Below a rib, not beside it: the way out leads down. */
static gboolean
is_below (const SwCheckPair *pair)
{
  return pair->away.z < -0.5;
}

/* A conduit crosses on spacer saddles, with its couplers between them. */
static double
rib_asked (const SwCheckRun *run, const SwBody *body, const SwRuleValue **rule)
{
  const SwRun *of = sw_check_run_of (body);
  if (of == NULL || of->clearance > 0 || !sw_service_is_electric ((SwService) of->service))
    return asked_of (run, body, SW_LIMIT_RIB, rule);
  *rule = &run->limits[SW_LIMIT_SADDLE];
  return body->kind == SW_BODY_SOCKET ? 0 : sw_check_limit (run, SW_LIMIT_SADDLE);
}

double
sw_check_rib_needed (const SwCheckRun *run, const SwBody *first, const SwBody *second)
{
  const SwRuleValue *rule;
  return touches_concrete (run, first) ? -1 : rib_asked (run, first, &rule);
}

void
sw_check_rib_pair (SwCheckRun *run, const SwCheckPair *pair)
{
  const SwRuleValue *rule;
  double needed = rib_asked (run, pair->first, &rule);
  if (is_below (pair) || goes_through (pair))
    concrete_pair (run, pair, needed, rule, SW_THROUGH_RIB);
}

double
sw_check_web_needed (const SwCheckRun *run, const SwBody *first, const SwBody *second)
{
  return concrete_needed (run, first, SW_LIMIT_WEB);
}

void
sw_check_web_pair (SwCheckRun *run, const SwCheckPair *pair)
{
  const SwRuleValue *rule;
  double needed = asked_of (run, pair->first, SW_LIMIT_WEB, &rule);
  if (!is_below (pair) && !goes_through (pair))
    concrete_pair (run, pair, needed, rule, SW_THROUGH_RIB);
}

double
sw_check_crown_needed (const SwCheckRun *run, const SwBody *first, const SwBody *second)
{
  return concrete_needed (run, first, SW_LIMIT_CROWN);
}

void
sw_check_crown_pair (SwCheckRun *run, const SwCheckPair *pair)
{
  const SwRuleValue *rule;
  double needed = asked_of (run, pair->first, SW_LIMIT_CROWN, &rule);
  if (!has_drop_in (run, pair))
    concrete_pair (run, pair, needed, rule, SW_THROUGH_TOPPING);
}

/* What passes below the concrete at a void's end hangs there as below a rib; what ends before it wants room to be put together. */
double
sw_check_closure_needed (const SwCheckRun *run, const SwBody *first, const SwBody *second)
{
  return concrete_needed (run, first, SW_LIMIT_CLOSURE);
}

void
sw_check_closure_pair (SwCheckRun *run, const SwCheckPair *pair)
{
  const SwRuleValue *rule;
  double needed = is_below (pair) ? rib_asked (run, pair->first, &rule) : asked_of (run, pair->first, SW_LIMIT_CLOSURE, &rule);
  concrete_pair (run, pair, needed, rule, SW_THROUGH_CLOSURE);
}

double
sw_check_solid_needed (const SwCheckRun *run, const SwBody *first, const SwBody *second)
{
  return concrete_needed (run, first, SW_LIMIT_SOLID);
}

void
sw_check_solid_pair (SwCheckRun *run, const SwCheckPair *pair)
{
  const SwRuleValue *rule;
  double needed = is_below (pair) ? rib_asked (run, pair->first, &rule) : asked_of (run, pair->first, SW_LIMIT_SOLID, &rule);
  concrete_pair (run, pair, needed, rule, SW_THROUGH_SOLID);
}

double
sw_check_beam_needed (const SwCheckRun *run, const SwBody *first, const SwBody *second)
{
  return concrete_needed (run, first, SW_LIMIT_BEAM);
}

void
sw_check_beam_pair (SwCheckRun *run, const SwCheckPair *pair)
{
  const SwRuleValue *rule;
  double needed = asked_of (run, pair->first, SW_LIMIT_BEAM, &rule);
  concrete_pair (run, pair, needed, rule, SW_THROUGH_BEAM);
}

double
sw_check_column_needed (const SwCheckRun *run, const SwBody *first, const SwBody *second)
{
  return concrete_needed (run, first, SW_LIMIT_BEAM);
}

void
sw_check_column_pair (SwCheckRun *run, const SwCheckPair *pair)
{
  const SwRuleValue *rule;
  double needed = asked_of (run, pair->first, SW_LIMIT_BEAM, &rule);
  gboolean hits = pair->mm < -SW_TOUCH_MM;
  if (pair->mm < needed)
    sw_check_add_pair (run, hits ? "hit" : "near", hits ? SW_SEVERITY_STOP : SW_SEVERITY_FIX, pair, needed, rule);
}

/* ---- plates */

static const SwDeckPlate *
plate_of (const SwCheckRun *run, const SwBody *body)
{
  const SwDeckBay *bay = body->bay < sw_deck_n_bays (run->deck) ? sw_deck_bay (run->deck, body->bay) : NULL;
  return bay != NULL && (guint) body->part < bay->plates->len ? &g_array_index (bay->plates, SwDeckPlate, body->part) : NULL;
}

static gboolean
is_hanger (const SwCheckRun *run, const SwBody *body)
{
  const SwFitting *fitting = sw_check_fitting_of (run, body->owner);
  return fitting != NULL && fitting->kind == SW_FITTING_HANGER;
}

double
sw_check_plate_needed (const SwCheckRun *run, const SwBody *first, const SwBody *second)
{
  return is_hanger (run, first) ? -1 : concrete_needed (run, first, SW_LIMIT_PLATE);
}

void
sw_check_plate_pair (SwCheckRun *run, const SwCheckPair *pair)
{
  const SwDeckPlate *plate = plate_of (run, pair->second);
  const SwRuleValue *rule;
  double needed = asked_of (run, pair->first, SW_LIMIT_PLATE, &rule);
  gboolean hits = pair->mm < -SW_TOUCH_MM;
  if (plate == NULL || pair->mm >= needed || (plate->released && !hits))
    return;
  SwSnag *snag = sw_check_add_pair (run, plate->released ? "released" : hits ? "hit" : "near",
                                    plate->released ? SW_SEVERITY_NOTE : hits ? SW_SEVERITY_STOP : SW_SEVERITY_FIX,
                                    pair, hits ? 0 : needed, hits ? NULL : rule);
  if (snag == NULL || !hits)
    return;
  snag->trade = plate->released ? snag->trade : SW_TRADE_ENGINEER;
  snag->missing_mm = snag->needed = snag->found = NAN; /* it comes out or it does not: no length is missing */
  snag->distance = 0;
}

double
sw_check_plate_hanger_needed (const SwCheckRun *run, const SwBody *first, const SwBody *second)
{
  return is_hanger (run, first) ? sw_check_limit (run, SW_LIMIT_SADDLE_PLATE) : -1;
}

void
sw_check_plate_hanger_pair (SwCheckRun *run, const SwCheckPair *pair)
{
  const SwDeckPlate *plate = plate_of (run, pair->second);
  if (plate != NULL && plate->released)
    sw_check_add_pair (run, "goes", SW_SEVERITY_FIX, pair, sw_check_limit (run, SW_LIMIT_SADDLE_PLATE),
                       &run->limits[SW_LIMIT_SADDLE_PLATE]);
}

/* ---- what was not measured */

/* How far the body may be off in the direction that counts; 0 when it was measured or moves with the deck. */
static double
unmeasured_by (const SwCheckRun *run, const SwBody *body, const SwRuleValue **rule)
{
  const SwDeckBay *bay = body->bay < sw_deck_n_bays (run->deck) ? sw_deck_bay (run->deck, body->bay) : NULL;
  const SwDeckPlate *plate = body->kind == SW_BODY_PLATE ? plate_of (run, body) : NULL;
  gboolean rib = bay != NULL && body->kind == SW_BODY_RIB && (guint) body->part < bay->ribs->len;
  if (plate != NULL)
    *rule = &run->limits[SW_LIMIT_UNMEASURED_PLATE];
  else
    *rule = &run->limits[SW_LIMIT_UNMEASURED_RIB];
  if (plate != NULL)
    return plate->measured ? 0 : (*rule)->value;
  return rib && !g_array_index (bay->ribs, SwRib, body->part).measured ? (*rule)->value : 0;
}

/* What the pair wants apart from that, so that a snag does not get a note as well. */
static double
measured_needed (const SwCheckRun *run, const SwBody *first, const SwBody *second)
{
  const SwRuleValue *rule;
  gboolean plate = second->kind == SW_BODY_PLATE;
  if (first->kind == SW_BODY_LIGHT)
    return sw_check_limit (run, plate ? SW_LIMIT_LIGHT_PLATE : SW_LIMIT_LIGHT_RIB);
  return asked_of (run, first, plate ? SW_LIMIT_PLATE : SW_LIMIT_WEB, &rule);
}

double
sw_check_unmeasured_needed (const SwCheckRun *run, const SwBody *first, const SwBody *second)
{
  const SwRuleValue *rule;
  if (first->kind != SW_BODY_LIGHT && touches_concrete (run, first))
    return -1;
  double off = unmeasured_by (run, second, &rule);
  return off > 0 ? off : -1;
}

void
sw_check_unmeasured_pair (SwCheckRun *run, const SwCheckPair *pair)
{
  const SwRuleValue *rule;
  double off = unmeasured_by (run, pair->second, &rule);
  if (pair->mm >= measured_needed (run, pair->first, pair->second) && !is_below (pair))
    sw_check_add_pair (run, "near", SW_SEVERITY_NOTE, pair, off, rule);
}

/* ---- openings */

/* Least distance in plan between two segments, and the place on the first; 0 where they cross. */
static double
segments_apart (SwPoint a, SwPoint b, SwPoint c, SwPoint d, SwPoint *place)
{
  SwPoint sides[4][3] = { { a, c, d }, { b, c, d }, { c, a, b }, { d, a, b } };
  double best = INFINITY;
  SwPoint r = sw_point_sub (b, a), s = sw_point_sub (d, c);
  double across = sw_point_cross (r, s);
  if (across != 0)
    {
      double t = sw_point_cross (sw_point_sub (c, a), s) / across, u = sw_point_cross (sw_point_sub (c, a), r) / across;
      if (t >= 0 && t <= 1 && u >= 0 && u <= 1)
        {
          *place = sw_point_lerp (a, b, t);
          return 0;
        }
    }
  for (int i = 0; i < 4; i++)
    {
      SwPoint p = sides[i][0], from = sides[i][1], along = sw_point_sub (sides[i][2], from);
      double square = sw_point_dot (along, along);
      double t = square > 0 ? CLAMP (sw_point_dot (sw_point_sub (p, from), along) / square, 0, 1) : 0;
      SwPoint foot = sw_point_add (from, sw_point_scale (along, t));
      if (sw_point_distance (p, foot) < best)
        {
          best = sw_point_distance (p, foot);
          *place = i < 2 ? p : foot;
        }
    }
  return best;
}

/* Nearest that the run comes to an opening's edge while it hangs in a void; crossings are the closures' affair. */
static double
opening_distance (const SwCheckRun *run, const SwRoute *route, const SwOpening *opening, SwPoint3 *place)
{
  double best = INFINITY;
  for (guint i = 0; i + 1 < route->n; i++)
    for (guint k = 0; k < opening->outline.n; k++)
      {
        SwPoint3 from = route->axis[i], to = route->axis[i + 1];
        SwPoint a = { from.x, from.y }, b = { to.x, to.y }, at = a;
        double apart = segments_apart (a, b, SW_LIST_AT (opening->outline, SwPoint, k),
                                       SW_LIST_AT (opening->outline, SwPoint, (k + 1) % opening->outline.n), &at);
        double top = MAX (from.z, to.z) + route->outer;
        if (top > sw_deck_soffit_at (run->deck, at) && apart < best)
          {
            best = apart;
            *place = (SwPoint3){ at.x, at.y, (from.z + to.z) / 2 };
          }
      }
  return best;
}

void
sw_check_opening_record (SwCheckRun *run, const SwRecord *record)
{
  const SwRoute *route = sw_check_route (run, record->id);
  if (route == NULL || route->run->stage == SW_STAGE_CAST_IN || sw_job_count (run->job, SW_TABLE_OPENING) == 0)
    return;
  SwBox box = sw_box_grow (sw_check_run_box (route->run), route->outer + sw_check_limit (run, SW_LIMIT_OPENING));
  g_autoptr (GPtrArray) openings = sw_check_lookup_near (run->lookup, SW_TABLE_OPENING, box);
  for (guint i = 0; i < openings->len; i++)
    {
      const SwRecord *opening = openings->pdata[i];
      SwPoint3 place = { 0 };
      double apart = opening_distance (run, route, (const SwOpening *) opening, &place);
      double found = apart - route->outer, needed = sw_check_limit (run, SW_LIMIT_OPENING);
      if (apart == 0 || found >= needed)
        continue;
      SwSnag *snag = sw_check_add (run, "near", SW_SEVERITY_FIX, record->id, place);
      sw_check_set_other (snag, opening->id, SW_N_BODIES, -1);
      sw_check_set_numbers (snag, needed, found, SW_UNIT_MM, &run->limits[SW_LIMIT_OPENING]);
      sw_check_set_missing (snag, needed - found, (SwPoint3){ 0 });
    }
}

/* ---- sleeves as records */

static gboolean
is_engineers (int through)
{
  return through != SW_THROUGH_WALL;
}

static SwSnag *
add_for_sleeve (SwCheckRun *run, const char *variant, SwSeverity severity, const SwSleeve *sleeve)
{
  SwPoint3 from = sleeve_place (run, sleeve, sleeve->from), to = sleeve_place (run, sleeve, sleeve->to);
  SwSnag *snag = sw_check_add (run, variant, severity, sleeve->record.id, sw_point3_lerp (from, to, 0.5));
  sw_check_set_extent (snag, from, to);
  sw_check_set_other (snag, sleeve->run, SW_N_BODIES, -1);
  return snag;
}

void
sw_check_sleeve_answer_record (SwCheckRun *run, const SwRecord *record)
{
  static const struct { const char *variant; SwSeverity severity; } answers[] = {
    [SW_ANSWER_OPEN] = { "open", SW_SEVERITY_STOP },
    [SW_ANSWER_ASKED] = { "asked", SW_SEVERITY_FIX },
    [SW_ANSWER_ALLOWED] = { NULL, SW_SEVERITY_NOTE },
    [SW_ANSWER_CONDITIONS] = { "conditions", SW_SEVERITY_NOTE },
    [SW_ANSWER_REFUSED] = { "refused", SW_SEVERITY_STOP },
  };
  const SwSleeve *sleeve = (const SwSleeve *) record;
  if (!is_engineers (sleeve->through) || answers[sleeve->answer].variant == NULL)
    return;
  SwSnag *snag = add_for_sleeve (run, answers[sleeve->answer].variant, answers[sleeve->answer].severity, sleeve);
  if (sleeve->answer == SW_ANSWER_CONDITIONS)
    snag->detail = g_strdup (sleeve->conditions);
}

/* Room around the pipe, with its insulation, on each side. */
void
sw_check_sleeve_size_record (SwCheckRun *run, const SwRecord *record)
{
  const SwSleeve *sleeve = (const SwSleeve *) record;
  const SwRoute *route = sleeve->run != 0 ? sw_space_route (run->space, sleeve->run) : NULL;
  SwRuleValue gap = sw_rules_value (run->rules, "deck.sleeves", "gap_least_mm");
  if (route == NULL)
    return;
  double found = sleeve->diameter / 2 - route->outer;
  if (found >= gap.value - SW_TOUCH_MM)
    return;
  SwSnag *snag = add_for_sleeve (run, "small", SW_SEVERITY_FIX, sleeve);
  sw_check_set_numbers (snag, gap.value, found, SW_UNIT_MM, &gap);
  sw_check_set_missing (snag, gap.value - found, (SwPoint3){ 0 });
  sw_check_set_param (snag, "diameter", 2 * (route->outer + gap.value), SW_UNIT_MM);
}

/* Depth of rib and topping at a sleeve; 0 where there is no bay. */
static double
section_depth (const SwCheckRun *run, SwPoint at, const SwProfile **profile)
{
  const SwDeckBay *bay = sw_deck_bay_at (run->deck, at);
  *profile = bay != NULL ? bay->profile : NULL;
  return bay != NULL ? bay->profile->depth + bay->profile->topping : 0;
}

/* A hole in a rib beyond what is commonly asked for: the engineer is asked in any case, but will hardly say yes. */
void
sw_check_rib_hole_record (SwCheckRun *run, const SwRecord *record)
{
  const SwSleeve *sleeve = (const SwSleeve *) record;
  const SwProfile *profile;
  double h = section_depth (run, sw_point_lerp (sleeve->from, sleeve->to, 0.5), &profile);
  if (sleeve->through != SW_THROUGH_RIB || profile == NULL || sleeve->answer == SW_ANSWER_ALLOWED
      || sleeve->answer == SW_ANSWER_CONDITIONS)
    return;
  SwRuleValue divisor = sw_rules_value (run->rules, "deck.rib_hole", "depth_divisor");
  SwRuleValue low = sw_rules_value (run->rules, "deck.rib_hole", "band_bottom_share");
  double most = h / divisor.value, below_top = h - sleeve->z;
  double highest = profile->topping + sleeve->diameter / 2, lowest = low.value * h;
  if (sleeve->diameter > most + SW_TOUCH_MM)
    {
      SwSnag *snag = add_for_sleeve (run, "large", SW_SEVERITY_FIX, sleeve);
      sw_check_set_numbers (snag, most, sleeve->diameter, SW_UNIT_MM, &divisor);
      sw_check_set_missing (snag, sleeve->diameter - most, (SwPoint3){ 0 });
      snag->trade = SW_TRADE_ENGINEER;
    }
  else if (below_top < highest - SW_TOUCH_MM || below_top > lowest + SW_TOUCH_MM)
    {
      gboolean high = below_top < highest;
      SwSnag *snag = add_for_sleeve (run, high ? "high" : "low", SW_SEVERITY_FIX, sleeve);
      sw_check_set_numbers (snag, high ? highest : lowest, below_top, SW_UNIT_MM, high ? NULL : &low);
      sw_check_set_missing (snag, fabs (below_top - snag->needed), (SwPoint3){ 0, 0, high ? -1 : 1 });
      snag->trade = SW_TRADE_ENGINEER;
    }
}

/* ---- cast in */

/* Conduit in the topping: thin enough for it, and enough concrete around. */
void
sw_check_topping_record (SwCheckRun *run, const SwRecord *record)
{
  const SwRoute *route = sw_check_route (run, record->id);
  if (route == NULL || route->run->stage != SW_STAGE_CAST_IN)
    return;
  for (guint i = 0; i < route->n; i++)
    {
      SwPoint at = { route->axis[i].x, route->axis[i].y };
      const SwDeckBay *bay = sw_deck_bay_at (run->deck, at);
      if (bay == NULL || SW_LIST_AT (route->run->vertices, SwVertex, i).level != SW_LEVEL_TOPPING)
        continue;
      SwRuleValue third = sw_rules_value (run->rules, "deck.topping_conduit", "depth_divisor");
      SwRuleValue over = sw_rules_value (run->rules, "deck.topping_conduit", "depth_over_mm");
      double most_third = bay->profile->topping / third.value, most_over = bay->profile->topping - over.value;
      double most = MIN (most_third, most_over);
      if (route->od <= most + SW_TOUCH_MM)
        continue;
      SwSnag *snag = sw_check_add (run, "thick", SW_SEVERITY_STOP, record->id, route->axis[i]);
      snag->trade = SW_TRADE_ENGINEER;
      sw_check_set_numbers (snag, most, route->od, SW_UNIT_MM, most_third < most_over ? &third : &over);
      sw_check_set_missing (snag, route->od - most, (SwPoint3){ 0 });
      return;
    }
}
