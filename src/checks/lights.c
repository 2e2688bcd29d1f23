/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Downlights: their bodies, their heat, and the hole that they hang in. */
#include "checks/entries.h"
#include "base/tolerance.h"

#define WALL_HALF_MOST_MM 1000.0 /* half of the thickest wall that a job may hold: walls are found by their centre lines */
#define HATCH_HALF_MOST_MM 2200.0 /* half the diagonal of the largest hatch: they are found by their middles */

static const SwLight *
light_of (const SwCheckRun *run, const SwBody *body)
{
  return (const SwLight *) sw_job_get (run->job, body->owner);
}

static SwSnag *
body_pair (SwCheckRun *run, const SwCheckPair *pair, SwLimit limit)
{
  gboolean hits = pair->mm < -SW_TOUCH_MM;
  double needed = sw_check_limit (run, limit);
  return pair->mm >= needed ? NULL
                            : sw_check_add_pair (run, hits ? "hit" : "near", hits ? SW_SEVERITY_STOP : SW_SEVERITY_FIX, pair,
                                                 needed, &run->limits[limit]);
}

/* A light hangs at the ceiling: it can only go sideways. */
static void
light_pair (SwCheckRun *run, const SwCheckPair *pair, SwLimit limit)
{
  SwSnag *snag = body_pair (run, pair, limit);
  if (snag != NULL)
    sw_check_set_aside (run, snag, pair, sw_check_limit (run, limit));
}

/* ---- services: the table has the service first, it is what moves */

static gboolean
is_own_driver (const SwCheckRun *run, const SwBody *body)
{
  const SwFitting *fitting = sw_check_fitting_of (run, body->owner);
  return fitting != NULL && (fitting->kind == SW_FITTING_DRIVER || fitting->kind == SW_FITTING_HANGER);
}

double
sw_check_light_service_needed (const SwCheckRun *run, const SwBody *first, const SwBody *second)
{
  return is_own_driver (run, first) ? 0 : sw_check_limit (run, SW_LIMIT_LIGHT_BODY);
}

void
sw_check_light_service_pair (SwCheckRun *run, const SwCheckPair *pair)
{
  if (pair->mm < sw_check_light_service_needed (run, pair->first, pair->second))
    body_pair (run, pair, SW_LIMIT_LIGHT_BODY);
}

double
sw_check_light_heat_needed (const SwCheckRun *run, const SwBody *first, const SwBody *second)
{
  return is_own_driver (run, first) ? -1 : sw_check_limit (run, SW_LIMIT_LIGHT_HEAT);
}

void
sw_check_light_heat_pair (SwCheckRun *run, const SwCheckPair *pair)
{
  if (pair->mm < sw_check_limit (run, SW_LIMIT_LIGHT_HEAT) - SW_TOUCH_MM)
    sw_check_add_pair (run, "hot", SW_SEVERITY_FIX, pair, sw_check_limit (run, SW_LIMIT_LIGHT_HEAT),
                       &run->limits[SW_LIMIT_LIGHT_HEAT]);
}

/* ---- the deck */

double
sw_check_light_rib_needed (const SwCheckRun *run, const SwBody *first, const SwBody *second)
{
  return sw_check_limit (run, SW_LIMIT_LIGHT_RIB);
}

void
sw_check_light_rib_pair (SwCheckRun *run, const SwCheckPair *pair)
{
  light_pair (run, pair, SW_LIMIT_LIGHT_RIB);
}

double
sw_check_light_crown_needed (const SwCheckRun *run, const SwBody *first, const SwBody *second)
{
  return sw_check_limit (run, SW_LIMIT_WITHDRAW);
}

void
sw_check_light_crown_pair (SwCheckRun *run, const SwCheckPair *pair)
{
  body_pair (run, pair, SW_LIMIT_WITHDRAW);
}

static const SwDeckPlate *
plate_of (const SwCheckRun *run, const SwBody *body)
{
  const SwDeckBay *bay = body->bay < sw_deck_n_bays (run->deck) ? sw_deck_bay (run->deck, body->bay) : NULL;
  return bay != NULL && (guint) body->part < bay->plates->len ? &g_array_index (bay->plates, SwDeckPlate, body->part) : NULL;
}

double
sw_check_light_plate_needed (const SwCheckRun *run, const SwBody *first, const SwBody *second)
{
  return sw_check_limit (run, SW_LIMIT_LIGHT_PLATE);
}

void
sw_check_light_plate_pair (SwCheckRun *run, const SwCheckPair *pair)
{
  const SwDeckPlate *plate = plate_of (run, pair->second);
  gboolean released = plate != NULL && plate->released;
  if (released && pair->mm < -SW_TOUCH_MM)
    sw_check_add_pair (run, "released", SW_SEVERITY_NOTE, pair, sw_check_limit (run, SW_LIMIT_LIGHT_PLATE),
                       &run->limits[SW_LIMIT_LIGHT_PLATE]);
  else if (!released)
    light_pair (run, pair, SW_LIMIT_LIGHT_PLATE);
}

/* ---- battens: counted from the hole, not from the body */

double
sw_check_light_batten_needed (const SwCheckRun *run, const SwBody *first, const SwBody *second)
{
  const SwLight *light = light_of (run, first);
  double wider = light != NULL ? MAX (light->cut_out - light->body, 0) / 2 : 0;
  return sw_check_limit (run, SW_LIMIT_BATTEN_CUT) + wider;
}

/* On it: a clash. Nearer than what burns may be: fix. Nearer than aimed at: a note. */
void
sw_check_light_batten_pair (SwCheckRun *run, const SwCheckPair *pair)
{
  const SwLight *light = light_of (run, pair->first);
  SwCheckPair cut = *pair;
  double rim = (light->cut_out - light->body) / 2;
  cut.mm -= rim;
  SwLimit limit = cut.mm >= -SW_TOUCH_MM && cut.mm < sw_check_limit (run, SW_LIMIT_COMBUSTIBLE) ? SW_LIMIT_COMBUSTIBLE : SW_LIMIT_BATTEN_CUT;
  double needed = sw_check_limit (run, limit);
  const char *variant = cut.mm < -SW_TOUCH_MM ? "hit" : limit == SW_LIMIT_COMBUSTIBLE ? "burns" : "near";
  SwSeverity severity = cut.mm < -SW_TOUCH_MM ? SW_SEVERITY_STOP : limit == SW_LIMIT_COMBUSTIBLE ? SW_SEVERITY_FIX : SW_SEVERITY_NOTE;
  SwSnag *snag = cut.mm < needed ? sw_check_add_pair (run, variant, severity, &cut, needed, &run->limits[limit]) : NULL;
  if (snag != NULL)
    sw_check_set_aside (run, snag, pair, needed + rim);
}

/* ---- another light: a body in the heat of the other, or bodies in each other */

double
sw_check_light_light_needed (const SwCheckRun *run, const SwBody *first, const SwBody *second)
{
  return 0;
}

void
sw_check_light_light_pair (SwCheckRun *run, const SwCheckPair *pair)
{
  gboolean heat = pair->second->kind == SW_BODY_HEAT;
  SwSnag *snag = pair->mm >= -SW_TOUCH_MM
                     ? NULL
                     : sw_check_add_pair (run, heat ? "hot" : "hit", heat ? SW_SEVERITY_FIX : SW_SEVERITY_STOP, pair, 0, NULL);
  if (snag != NULL)
    sw_check_set_aside (run, snag, pair, 0);
}

/* ---- records */

static SwPoint3
light_place (const SwCheckRun *run, const SwLight *light)
{
  const SwRoom *room = sw_check_room_at (run, light->at);
  double z = room != NULL ? sw_check_lookup_face_at (run->lookup, room, light->at) : sw_deck_soffit_at (run->deck, light->at);
  return (SwPoint3){ light->at.x, light->at.y, z };
}

/* Nearest point of a segment. */
static SwPoint
nearest_on (SwPoint from, SwPoint to, SwPoint p)
{
  SwPoint along = sw_point_sub (to, from);
  double square = sw_point_dot (along, along);
  double t = square > 0 ? CLAMP (sw_point_dot (sw_point_sub (p, from), along) / square, 0, 1) : 0;
  return sw_point_add (from, sw_point_scale (along, t));
}

/* A cut-out whose middle is `distance` from something that it should keep away from, the way out along `away`; on it counts as `on`. */
static void
check_cut_out (SwCheckRun *run, const SwLight *light, SwPoint away, double distance, const SwRuleValue *rule, SwId other, SwSeverity on)
{
  double found = distance - light->cut_out / 2;
  gboolean hits = found < -SW_TOUCH_MM;
  if (found >= rule->value)
    return;
  SwSnag *snag = sw_check_add (run, hits ? "hit" : "near", hits ? on : SW_SEVERITY_FIX, light->record.id, light_place (run, light));
  sw_check_set_other (snag, other, SW_N_BODIES, -1);
  sw_check_set_numbers (snag, rule->value, found, SW_UNIT_MM, rule);
  sw_check_set_missing (snag, rule->value - found, (SwPoint3){ away.x, away.y, 0 });
}

void
sw_check_light_joint_record (SwCheckRun *run, const SwRecord *record)
{
  const SwLight *light = (const SwLight *) record;
  if (sw_job_count (run->job, SW_TABLE_LAYOUT) == 0)
    return;
  const SwRoom *room = sw_check_room_at (run, light->at);
  const SwLayout *layout = room != NULL && room->finish == SW_FINISH_CLOSED ? sw_check_layout_of (run, room->record.id) : NULL;
  SwPoint best = { 0 };
  double distance = INFINITY;
  for (guint i = 0; layout != NULL && i < layout->joints.n; i++)
    {
      const SwJoint *joint = &SW_LIST_AT (layout->joints, SwJoint, i);
      SwPoint nearest = nearest_on (joint->from, joint->to, light->at);
      if (sw_point_distance (nearest, light->at) < distance)
        {
          distance = sw_point_distance (nearest, light->at);
          best = nearest;
        }
    }
  if (isfinite (distance))
    check_cut_out (run, light, sw_point_sub (light->at, best), distance, &run->limits[SW_LIMIT_LIGHT_JOINT], room->record.id, SW_SEVERITY_FIX);
}

/* Where no wall is drawn a ceiling ends all the same, and so does one level of it at a bulkhead's side: no board holds a cut-out there. */
static void
check_edge (SwCheckRun *run, const SwLight *light, const SwList *outline, SwId owner)
{
  SwPoint nearest;
  double distance = sw_outline_distance (outline->items, outline->n, light->at, NULL, &nearest);
  double missing = light->cut_out / 2 - distance;
  if (missing <= SW_TOUCH_MM)
    return;
  SwPoint inward = sw_point_sub (light->at, nearest);
  SwSnag *snag = sw_check_add (run, "edge", SW_SEVERITY_STOP, light->record.id, light_place (run, light));
  sw_check_set_other (snag, owner, SW_N_BODIES, -1);
  sw_check_set_numbers (snag, light->cut_out / 2, distance, SW_UNIT_MM, NULL);
  sw_check_set_missing (snag, missing, (SwPoint3){ inward.x, inward.y, 0 });
}

static void
check_edges (SwCheckRun *run, const SwLight *light)
{
  const SwRoom *room = sw_check_room_at (run, light->at);
  if (room == NULL)
    return;
  check_edge (run, light, &room->outline, room->record.id);
  g_autoptr (GPtrArray) bulkheads = sw_check_near_line (run, SW_TABLE_BULKHEAD, light->at, light->at, light->cut_out / 2);
  for (guint i = 0; i < bulkheads->len && room->finish == SW_FINISH_CLOSED; i++)
    {
      const SwBulkhead *bulkhead = bulkheads->pdata[i];
      if (bulkhead->room == room->record.id)
        check_edge (run, light, &bulkhead->outline, bulkhead->record.id);
    }
}

void
sw_check_light_wall_record (SwCheckRun *run, const SwRecord *record)
{
  const SwLight *light = (const SwLight *) record;
  double reach = light->cut_out / 2 + sw_check_limit (run, SW_LIMIT_LIGHT_WALL) + WALL_HALF_MOST_MM;
  g_autoptr (GPtrArray) walls = sw_check_near_line (run, SW_TABLE_WALL, light->at, light->at, reach);
  guint before = run->snags->len;
  for (guint i = 0; i < walls->len; i++)
    {
      const SwWall *wall = walls->pdata[i];
      SwPoint away = sw_point_sub (light->at, nearest_on (wall->from, wall->to, light->at));
      check_cut_out (run, light, away, sw_point_length (away) - wall->thickness / 2, &run->limits[SW_LIMIT_LIGHT_WALL], wall->record.id, SW_SEVERITY_STOP);
    }
  if (run->snags->len == before)
    check_edges (run, light);
}

/* How far `at` is from the opening of a hatch, less than 0 inside it, and the way out. */
static double
from_hatch (const SwHatch *hatch, SwPoint at, SwPoint *away)
{
  double cosine = cos (hatch->turn * G_PI / 180), sine = sin (hatch->turn * G_PI / 180);
  SwPoint own = sw_point_turn (sw_point_sub (at, hatch->at), cosine, -sine);
  SwPoint over = { fabs (own.x) - hatch->length / 2, fabs (own.y) - hatch->width / 2 };
  gboolean inside = over.x < 0 && over.y < 0;
  SwPoint out = { fmax (over.x, 0), fmax (over.y, 0) };
  if (inside)
    out = over.x > over.y ? (SwPoint){ 1, 0 } : (SwPoint){ 0, 1 };
  *away = sw_point_turn ((SwPoint){ copysign (out.x, own.x), copysign (out.y, own.y) }, cosine, sine);
  return inside ? fmax (over.x, over.y) : sw_point_length (out);
}

/* A hatch is cut out of the board as the light is: as far apart as a cut-out and a joint. */
void
sw_check_light_hatch_record (SwCheckRun *run, const SwRecord *record)
{
  const SwLight *light = (const SwLight *) record;
  const SwRuleValue *rule = &run->limits[SW_LIMIT_LIGHT_JOINT];
  g_autoptr (GPtrArray) hatches = sw_check_near_line (run, SW_TABLE_HATCH, light->at, light->at, light->cut_out / 2 + rule->value + HATCH_HALF_MOST_MM);
  for (guint i = 0; i < hatches->len; i++)
    {
      const SwHatch *hatch = hatches->pdata[i];
      SwPoint away;
      double distance = from_hatch (hatch, light->at, &away);
      check_cut_out (run, light, away, distance, rule, hatch->record.id, SW_SEVERITY_STOP);
    }
}

/* The driver goes in through the hole. */
void
sw_check_light_driver_record (SwCheckRun *run, const SwRecord *record)
{
  const SwLight *light = (const SwLight *) record;
  double across = hypot (light->driver_width, light->driver_height);
  if (light->driver_length <= 0 || across <= light->cut_out)
    return;
  SwSnag *snag = sw_check_add (run, "large", SW_SEVERITY_FIX, record->id, light_place (run, light));
  sw_check_set_numbers (snag, across, light->cut_out, SW_UNIT_MM, NULL);
  sw_check_set_missing (snag, across - light->cut_out, (SwPoint3){ 0 });
}

/* A ceiling of fire boards, or one of which a rating is asked, is a tested whole: each hole without a hood lets the fire into the voids. Common practice. */
void
sw_check_light_hood_record (SwCheckRun *run, const SwRecord *record)
{
  const SwLight *light = (const SwLight *) record;
  const SwRoom *room = run->has_rated && !light->hood ? sw_check_room_at (run, light->at) : NULL;
  if (room == NULL || !sw_check_is_rated (room))
    return;
  SwSnag *snag = sw_check_add (run, "none", SW_SEVERITY_FIX, record->id, light_place (run, light));
  snag->room = room->record.id;
  sw_check_set_other (snag, room->record.id, SW_N_BODIES, -1);
}
