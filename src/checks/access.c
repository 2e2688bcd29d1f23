/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a hand must reach after the ceiling is closed; what comes down through the topping, and where its water goes. */
#include "checks/entries.h"
#include "base/tolerance.h"

/* ---- hatches */

static gboolean
needs_access (const SwFitting *fitting)
{
  static const guint32 kinds = 1u << SW_FITTING_BOX | 1u << SW_FITTING_VALVE | 1u << SW_FITTING_EYE | 1u << SW_FITTING_DRIVER;
  return fitting->access || kinds & 1u << fitting->kind;
}

/* Extent of a turned rectangle in a bay's frame. */
static SwBox
extent_in_bay (const SwDeckBay *bay, SwPoint at, double length, double width, double turn_degree)
{
  double turn = turn_degree * G_PI / 180;
  SwBox box = SW_BOX_EMPTY;
  for (int i = 0; i < 4; i++)
    {
      SwPoint corner = { i & 1 ? length / 2 : -length / 2, i & 2 ? width / 2 : -width / 2 };
      box = sw_box_add (box, sw_deck_to_bay (bay, sw_point_add (at, sw_point_turn (corner, cos (turn), sin (turn)))));
    }
  return box;
}

static SwBox
fitting_extent (const SwDeckBay *bay, const SwFitting *fitting)
{
  return extent_in_bay (bay, fitting->at, fitting->length, fitting->width > 0 ? fitting->width : fitting->length, fitting->turn);
}

static double
gap (double a_low, double a_high, double b_low, double b_high)
{
  return MAX (0, MAX (a_low - b_high, b_low - a_high));
}

typedef struct
{
  double distance; /* along the void; INFINITY without a hatch in it */
  SwId hatch;
  gboolean blocked; /* the nearest hatch lies behind a plate */
} Reach;

/* A plate that stays between two places of a void. */
static gboolean
plate_between (const SwDeckBay *bay, guint void_index, double u, double w)
{
  for (guint i = 0; i < bay->plates->len; i++)
    {
      const SwDeckPlate *plate = &g_array_index (bay->plates, SwDeckPlate, i);
      if (plate->void_index == void_index && !plate->released && plate->u > MIN (u, w) && plate->u < MAX (u, w))
        return TRUE;
    }
  return FALSE;
}

/* A hatch opens into a void when at least half its width lies under the mouth. */
static Reach
reach_by (const SwDeckBay *bay, int void_index, SwBox fitting, const SwHatch *hatch)
{
  SwBox box = extent_in_bay (bay, hatch->at, hatch->length, hatch->width, hatch->turn);
  Reach reach = { INFINITY, hatch->record.id, FALSE };
  if (sw_box_meets (box, fitting)) /* right below it */
    return (Reach){ 0, hatch->record.id, FALSE };
  if (void_index < 0)
    return reach;
  const SwVoid *v = &g_array_index (bay->voids, SwVoid, void_index);
  double shared = MIN (box.high.y, v->high) - MAX (box.low.y, v->low);
  if (shared < MIN (box.high.y - box.low.y, v->high - v->low) / 2)
    return reach;
  reach.distance = gap (fitting.low.x, fitting.high.x, box.low.x, box.high.x);
  double near = CLAMP ((fitting.low.x + fitting.high.x) / 2, box.low.x, box.high.x);
  reach.blocked = plate_between (bay, (guint) void_index, near, (fitting.low.x + fitting.high.x) / 2);
  return reach;
}

/* Best hatch: one that no plate blocks before one that it does, then the nearest. */
static Reach
best_reach (const SwCheckRun *run, const SwDeckBay *bay, const SwFitting *fitting)
{
  SwBox box = fitting_extent (bay, fitting);
  int void_index = sw_deck_void_at (bay, sw_deck_to_bay (bay, fitting->at).y);
  Reach best = { INFINITY, 0, FALSE };
  double far = bay->length + bay->breadth; /* a hatch anywhere in the void is worth naming */
  g_autoptr (GPtrArray) hatches = sw_check_near_line (run, SW_TABLE_HATCH, fitting->at, fitting->at, far);
  for (guint i = 0; i < hatches->len; i++)
    {
      Reach reach = reach_by (bay, void_index, box, hatches->pdata[i]);
      if (!isfinite (reach.distance))
        continue;
      if (best.hatch == 0 || reach.blocked < best.blocked || (reach.blocked == best.blocked && reach.distance < best.distance))
        best = reach;
    }
  return best;
}

void
sw_check_reach_record (SwCheckRun *run, const SwRecord *record)
{
  const SwFitting *fitting = (const SwFitting *) record;
  const SwRoom *room = sw_check_room_at (run, fitting->at);
  const SwDeckBay *bay = sw_deck_bay_at (run->deck, fitting->at);
  if (room == NULL || room->finish != SW_FINISH_CLOSED || bay == NULL || !needs_access (fitting)
      || fitting->level == SW_LEVEL_TOPPING)
    return;
  double z = sw_route_level_z (run->deck, fitting->at, fitting->height, (SwLevel) fitting->level, fitting->z);
  double needed = sw_check_limit (run, SW_LIMIT_HATCH_REACH);
  if (z < sw_check_lookup_face_at (run->lookup, room, fitting->at))
    return;
  Reach reach = best_reach (run, bay, fitting);
  if (reach.hatch != 0 && !reach.blocked && reach.distance <= needed)
    return;
  SwSnag *snag = sw_check_add (run, reach.hatch == 0 ? "none" : reach.blocked ? "plate" : "far", SW_SEVERITY_FIX, record->id,
                               (SwPoint3){ fitting->at.x, fitting->at.y, z });
  sw_check_set_other (snag, reach.hatch, SW_N_BODIES, -1);
  sw_check_set_numbers (snag, needed, reach.hatch != 0 ? reach.distance : NAN, SW_UNIT_MM, &run->limits[SW_LIMIT_HATCH_REACH]);
  if (reach.hatch != 0 && !reach.blocked)
    sw_check_set_missing (snag, reach.distance - needed, (SwPoint3){ 0 });
}

/* ---- drop-ins */

static SwPoint3
in_world (const SwDeckBay *bay, double u, double v)
{
  SwPoint a = sw_deck_from_bay (bay, (SwPoint){ 0, 0 }), b = sw_deck_from_bay (bay, (SwPoint){ u, v });
  return (SwPoint3){ b.x - a.x, b.y - a.y, 0 };
}

static SwSnag *
add_drop_in (SwCheckRun *run, const SwDropIn *drop_in, const SwDeckBay *bay, const char *variant, double missing, SwPoint3 way)
{
  SwPoint3 place = { drop_in->at.x, drop_in->at.y, sw_deck_crown (bay, drop_in->at) };
  SwSnag *snag = sw_check_add (run, variant, SW_SEVERITY_STOP, drop_in->record.id, place);
  sw_check_set_missing (snag, missing, way);
  sw_check_set_param (snag, "hole", drop_in->hole, SW_UNIT_MM);
  sw_check_set_param (snag, "crown", bay->profile->crown, SW_UNIT_MM);
  return snag;
}

/* Least move along u that takes a hole out of the way of what ends or blocks its void; 0 when nothing does. */
static double
move_along (const SwDeckBay *bay, guint void_index, double u, double half)
{
  const SwReach *reach = sw_deck_reach_at (bay, void_index, u);
  if (reach == NULL)
    return 0;
  if (u - half < reach->low)
    return reach->low - (u - half);
  if (u + half > reach->high)
    return reach->high - (u + half);
  for (guint i = 0; i < bay->plates->len; i++)
    {
      const SwDeckPlate *plate = &g_array_index (bay->plates, SwDeckPlate, i);
      if (plate->void_index == void_index && !plate->released && fabs (plate->u - u) < half)
        return u >= plate->u ? plate->u + half - u : plate->u - half - u;
    }
  return 0;
}

/* The hole lies wholly over a crown, between plates and closures. */
void
sw_check_drop_in_record (SwCheckRun *run, const SwRecord *record)
{
  const SwDropIn *drop_in = (const SwDropIn *) record;
  const SwDeckBay *bay = sw_deck_bay_at (run->deck, drop_in->at);
  if (bay == NULL || bay->voids->len == 0)
    return;
  SwPoint uv = sw_deck_to_bay (bay, drop_in->at);
  guint near = (guint) sw_deck_void_near (bay, uv.y);
  const SwVoid *v = &g_array_index (bay->voids, SwVoid, near);
  double side = v->v - uv.y, missing = fabs (side) + drop_in->hole / 2 - bay->profile->crown / 2;
  if (drop_in->hole > bay->profile->crown + SW_TOUCH_MM)
    {
      add_drop_in (run, drop_in, bay, "wide", drop_in->hole - bay->profile->crown, (SwPoint3){ 0 });
      return;
    }
  if (missing > SW_TOUCH_MM)
    {
      add_drop_in (run, drop_in, bay, "rib", missing, in_world (bay, 0, side));
      return;
    }
  double along = move_along (bay, near, uv.x, drop_in->hole / 2);
  if (fabs (along) > SW_TOUCH_MM)
    add_drop_in (run, drop_in, bay, "end", fabs (along), in_world (bay, along, 0));
  else if (sw_deck_reach_at (bay, near, uv.x) == NULL)
    add_drop_in (run, drop_in, bay, "solid", NAN, (SwPoint3){ 0 });
}

/* What falls from a fixture needs a pipe, whose axis lies no higher there than the outlet's. */
void
sw_check_outlet_record (SwCheckRun *run, const SwRecord *record)
{
  const SwDropIn *drop_in = (const SwDropIn *) record;
  const SwDeckBay *bay = sw_deck_bay_at (run->deck, drop_in->at);
  if (bay == NULL || drop_in->units <= 0)
    return;
  const SwOutlet *outlet = sw_branches_outlet (sw_check_lookup_branches (run->lookup, run->rules), record->id);
  const SwRoute *route = outlet != NULL ? sw_space_route (run->space, outlet->run) : NULL;
  double level = sw_deck_crown (bay, drop_in->at) - drop_in->drop;
  if (outlet == NULL)
    sw_check_add (run, "open", SW_SEVERITY_NOTE, record->id, (SwPoint3){ drop_in->at.x, drop_in->at.y, level });
  if (route == NULL)
    return;
  SwPoint3 pipe = sw_route_at (route, outlet->along, NULL);
  if (pipe.z <= level + SW_TOUCH_MM)
    return;
  SwSnag *snag = sw_check_add (run, "high", SW_SEVERITY_FIX, record->id, pipe);
  sw_check_set_other (snag, outlet->run, SW_N_BODIES, -1);
  sw_check_set_missing (snag, pipe.z - level, (SwPoint3){ 0 });
}
