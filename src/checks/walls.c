/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Services through walls, and what stands open above a separating wall. */
#include "checks/entries.h"
#include "base/tolerance.h"
#include "space/section.h"

#define SLEEVE_MOST_MM 1000.0 /* the widest hole that a job may hold */
#define WALL_HALF_MOST_MM 1000.0 /* half of the thickest wall that a job may hold: walls are found by their centre lines */
#define PARALLEL 0.05 /* sine of the angle up to which a wall lies along a room's side */
#define BESIDE_MM 50.0 /* a wall's sleeve drawn this far beside the run still is its own */

/* A drop into this wall ends there on purpose. */
static gboolean
drops_into (const SwCheckRun *run, const SwRun *of, SwId wall)
{
  SwId ends[2] = { of->start, of->end };
  for (int i = 0; i < 2; i++)
    {
      const SwRecord *end = ends[i] != 0 ? sw_job_get (run->job, ends[i]) : NULL;
      if (end != NULL && sw_record_table (end) == SW_TABLE_DROP && ((const SwDrop *) end)->wall == wall)
        return TRUE;
    }
  return FALSE;
}

/* ---- plain walls */

double
sw_check_wall_needed (const SwCheckRun *run, const SwBody *first, const SwBody *second)
{
  const SwRun *of = sw_check_run_of (first);
  const SwWall *wall = (const SwWall *) sw_job_get (run->job, second->owner);
  return of == NULL || wall == NULL || wall->separating ? -1 : 0;
}

void
sw_check_wall_pair (SwCheckRun *run, const SwCheckPair *pair)
{
  const SwRun *of = sw_check_run_of (pair->first);
  if (pair->mm >= -SW_TOUCH_MM || drops_into (run, of, pair->second->owner))
    return;
  SwSnag *snag = sw_check_add_pair (run, "through", SW_SEVERITY_NOTE, pair, 0, NULL);
  if (snag == NULL)
    return;
  sw_check_set_numbers (snag, NAN, NAN, SW_UNIT_MM, NULL);
  snag->missing_mm = NAN;
  snag->distance = 0;
}

/* ---- separating walls */

/* Where a leg crosses the wall's middle, in plan. */
static gboolean
leg_crosses (SwPoint3 from, SwPoint3 to, const SwWall *wall, SwPoint3 *place)
{
  SwPoint r = { to.x - from.x, to.y - from.y }, s = sw_point_sub (wall->to, wall->from);
  SwPoint between = { wall->from.x - from.x, wall->from.y - from.y };
  double across = sw_point_cross (r, s);
  if (across == 0)
    return FALSE;
  double t = sw_point_cross (between, s) / across, u = sw_point_cross (between, r) / across;
  *place = sw_point3_lerp (from, to, t);
  return t >= 0 && t <= 1 && u >= 0 && u <= 1;
}

static gboolean
wall_has_sleeve (const SwCheckRun *run, const SwRoute *route, const SwWall *wall, SwPoint3 place)
{
  SwPoint at = { place.x, place.y };
  g_autoptr (GPtrArray) sleeves = sw_check_near_line (run, SW_TABLE_SLEEVE, at, at, wall->thickness + BESIDE_MM + SLEEVE_MOST_MM);
  for (guint i = 0; i < sleeves->len; i++)
    {
      const SwSleeve *sleeve = sleeves->pdata[i];
      SwPoint middle = sw_point_lerp (sleeve->from, sleeve->to, 0.5);
      double apart = hypot (middle.x - place.x, middle.y - place.y);
      if (sleeve->through == SW_THROUGH_WALL && (sleeve->run == 0 || sleeve->run == route->run->record.id)
          && apart <= wall->thickness / 2 + sleeve->diameter / 2 + BESIDE_MM)
        return TRUE;
    }
  return FALSE;
}

static gboolean
is_plastic (int material)
{
  static const guint32 plastics = 1u << SW_MATERIAL_PVC | 1u << SW_MATERIAL_PEX | 1u << SW_MATERIAL_MULTILAYER | 1u << SW_MATERIAL_PP
                                  | 1u << SW_MATERIAL_CPVC | 1u << SW_MATERIAL_PLIABLE;
  return plastics & 1u << material;
}

static void
check_crossing (SwCheckRun *run, const SwRoute *route, guint leg, const SwWall *wall, SwPoint3 place)
{
  SwRuleValue collar = sw_rules_value (run->rules, "deck.sleeves", "collar_over_mm");
  gboolean sleeve = wall_has_sleeve (run, route, wall, place);
  gboolean melts = wall->fire_minutes > 0 && is_plastic (route->run->material) && route->bore > collar.value;
  SwSnag *snag = sw_check_add (run, sleeve ? "sleeved" : melts ? "collar" : "open",
                               sleeve ? SW_SEVERITY_NOTE : SW_SEVERITY_FIX, route->run->record.id, place);
  snag->parts[0] = (int) leg;
  sw_check_set_other (snag, wall->record.id, SW_N_BODIES, -1);
  if (melts)
    sw_check_set_numbers (snag, collar.value, route->bore, SW_UNIT_MM, &collar);
  sw_check_set_param (snag, "fire", wall->fire_minutes, SW_UNIT_MINUTE);
  sw_check_set_param (snag, "sound", wall->sound_db, SW_UNIT_DB);
}

void
sw_check_separating_record (SwCheckRun *run, const SwRecord *record)
{
  const SwRoute *route = sw_check_route (run, record->id);
  if (route == NULL || route->run->stage == SW_STAGE_CAST_IN)
    return;
  g_autoptr (GPtrArray) walls = sw_check_lookup_separating (run->lookup, sw_check_run_box (route->run));
  for (guint i = 0; i < walls->len; i++)
    {
      const SwWall *wall = walls->pdata[i];
      if (drops_into (run, route->run, wall->record.id))
        continue;
      for (guint leg = 0; leg + 1 < route->n; leg++)
        {
          SwPoint3 place;
          if (leg_crosses (route->axis[leg], route->axis[leg + 1], wall, &place))
            check_crossing (run, route, leg, wall, place);
        }
    }
}

/* ---- voids over a wall */

typedef struct
{
  guint voids;    /* crossed */
  double area_m2; /* of their sections along the wall */
  SwPoint3 place; /* over the first */
} OpenVoids;

/* The wall's part over one void's mouth, in the void's open length. */
static gboolean
over_void (const SwDeckBay *bay, guint k, SwPoint from, SwPoint to, SwPoint *middle)
{
  const SwVoid *v = &g_array_index (bay->voids, SwVoid, k);
  double across = to.y - from.y, t0 = 0, t1 = 1;
  if (fabs (across) > SW_TOUCH_MM)
    {
      double a = (v->low - from.y) / across, b = (v->high - from.y) / across;
      t0 = CLAMP (MIN (a, b), 0, 1);
      t1 = CLAMP (MAX (a, b), 0, 1);
    }
  else if (from.y <= v->low || from.y >= v->high)
    return FALSE;
  *middle = sw_point_lerp (from, to, (t0 + t1) / 2);
  return t1 > t0 && sw_deck_reach_at (bay, k, middle->x) != NULL;
}

static void
count_open_voids (const SwCheckRun *run, const SwDeckBay *bay, const SwWall *wall, OpenVoids *open)
{
  SwPoint from = sw_deck_to_bay (bay, wall->from), to = sw_deck_to_bay (bay, wall->to);
  double length = sw_point_distance (from, to), square = length > 0 ? fabs (to.y - from.y) / length : 0;
  int first = sw_deck_void_near (bay, fmin (from.y, to.y)), last = sw_deck_void_near (bay, fmax (from.y, to.y));
  double area = sw_section_of (bay->profile, run->rules).void_area;
  for (guint k = (guint) MAX (first, 0); first >= 0 && k <= (guint) last; k++)
    {
      SwPoint middle;
      if (!over_void (bay, k, from, to, &middle))
        continue;
      SwPoint at = sw_deck_from_bay (bay, middle);
      if (open->voids++ == 0)
        open->place = (SwPoint3){ at.x, at.y, sw_deck_soffit (bay, at) };
      if (square > 0.1) /* a wall along a void stands open over its length: no section's area */
        open->area_m2 += area / 1e6 / square;
    }
}

void
sw_check_filler_record (SwCheckRun *run, const SwRecord *record)
{
  const SwWall *wall = (const SwWall *) record;
  OpenVoids open = { 0 };
  if (!wall->separating || wall->head >= SW_HEAD_CROWN)
    return;
  for (guint i = 0; i < sw_deck_n_bays (run->deck); i++)
    count_open_voids (run, sw_deck_bay (run->deck, i), wall, &open);
  if (open.voids == 0)
    return;
  SwSnag *snag = sw_check_add (run, open.area_m2 > 0 ? "across" : "along", SW_SEVERITY_FIX, record->id, open.place);
  sw_check_set_extent (snag, (SwPoint3){ wall->from.x, wall->from.y, open.place.z }, (SwPoint3){ wall->to.x, wall->to.y, open.place.z });
  sw_check_set_param (snag, "voids", open.voids, SW_UNIT_NONE);
  sw_check_set_param (snag, "area", open.area_m2, SW_UNIT_M2);
  sw_check_set_param (snag, "fire", wall->fire_minutes, SW_UNIT_MINUTE);
  sw_check_set_param (snag, "sound", wall->sound_db, SW_UNIT_DB);
}

/* ---- rooms between walls */

/* How far the side from a to b (the room on its left) has gone past the wall's near face, where the wall lies along it by more than its
 * own thickness; 0 where it has not, or where all of the wall stands in the room. */
static double
side_in_wall (SwPoint a, SwPoint b, const SwWall *wall)
{
  SwPoint way = sw_point_sub (b, a), along = sw_point_sub (wall->to, wall->from);
  double length = sw_point_length (way), wall_length = sw_point_length (along);
  if (length <= SW_TOUCH_MM || wall_length <= SW_TOUCH_MM || fabs (sw_point_cross (way, along)) > PARALLEL * length * wall_length)
    return 0;
  SwPoint unit = sw_point_scale (way, 1 / length);
  double from = sw_point_dot (sw_point_sub (wall->from, a), unit), to = sw_point_dot (sw_point_sub (wall->to, a), unit);
  double past = wall->thickness / 2 + sw_point_cross (unit, sw_point_sub (sw_point_lerp (wall->from, wall->to, 0.5), a));
  if (fmin (fmax (from, to), length) - fmax (fmin (from, to), 0) <= wall->thickness || past > wall->thickness + SW_TOUCH_MM)
    return 0;
  return fmax (past, 0);
}

/* The wall that a side of the room stands in most deeply. */
void
sw_check_room_wall_record (SwCheckRun *run, const SwRecord *record)
{
  const SwRoom *room = (const SwRoom *) record;
  SwRuleValue off = sw_rules_value (run->rules, "deck.as_built", "corner_mm");
  const SwWall *in = NULL;
  SwPoint place = { 0, 0 }, inward = { 0, 0 };
  double deepest = off.value + SW_TOUCH_MM;
  gboolean left = sw_outline_area (room->outline.items, room->outline.n) > 0;
  if (!sw_check_is_hidden (room))
    return;
  for (guint i = 0; i < room->outline.n; i++)
    {
      SwPoint one = SW_LIST_AT (room->outline, SwPoint, i), two = SW_LIST_AT (room->outline, SwPoint, (i + 1) % room->outline.n);
      SwPoint a = left ? one : two, b = left ? two : one;
      g_autoptr (GPtrArray) walls = sw_check_near_line (run, SW_TABLE_WALL, a, b, WALL_HALF_MOST_MM);
      for (guint k = 0; k < walls->len; k++)
        {
          double depth = side_in_wall (a, b, walls->pdata[k]);
          if (depth <= deepest)
            continue;
          deepest = depth;
          in = walls->pdata[k];
          place = sw_point_lerp (a, b, 0.5);
          inward = (SwPoint){ a.y - b.y, b.x - a.x };
        }
    }
  if (in == NULL)
    return;
  SwSnag *snag = sw_check_add (run, "in", SW_SEVERITY_FIX, record->id, (SwPoint3){ place.x, place.y, sw_deck_ceiling_face (run->deck, room) });
  snag->room = record->id;
  sw_check_set_other (snag, in->record.id, SW_BODY_WALL, -1);
  sw_check_set_numbers (snag, off.value, deepest, SW_UNIT_MM, &off);
  sw_check_set_missing (snag, deepest, (SwPoint3){ inward.x, inward.y, 0 });
}
