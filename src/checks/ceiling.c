/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What concerns the ceiling: battens, its depth, its joints, its fixings and its height. */
#include "checks/entries.h"
#include "base/tolerance.h"
#include "ceiling/suspended.h"
#include "geometry/outline.h"
#include "space/section.h"

/* ---- battens */

double
sw_check_batten_needed (const SwCheckRun *run, const SwBody *first, const SwBody *second)
{
  return first->kind == SW_BODY_FITTING ? 0 : sw_check_limit (run, SW_LIMIT_BATTEN);
}

void
sw_check_batten_pair (SwCheckRun *run, const SwCheckPair *pair)
{
  double needed = sw_check_batten_needed (run, pair->first, pair->second);
  gboolean hits = pair->mm < -SW_TOUCH_MM;
  SwSnag *snag = sw_check_add_pair (run, hits ? "hit" : "near", hits ? SW_SEVERITY_STOP : SW_SEVERITY_FIX, pair, needed,
                                    &run->limits[SW_LIMIT_BATTEN]);
  if (snag != NULL)
    sw_check_set_aside (run, snag, pair, needed); /* above lies the rib */
}

/* ---- depth above the boards */

typedef struct
{
  SwId owner;
  const SwRoom *room;
  double drop;     /* of the ceiling there, below the room's */
  double low, top; /* z of the lowest and the highest of it over this ceiling */
  SwPoint3 place;
} Hidden;

/* Hidden by the ceiling and too low for it; what lies wholly below the ceiling is not hidden. */
static void
check_depth (SwCheckRun *run, const Hidden *hidden)
{
  double back = sw_check_lookup_back (run->lookup, hidden->room) - hidden->drop;
  double face = sw_check_lookup_face (run->lookup, hidden->room) - hidden->drop;
  double found = hidden->low - back, needed = sw_check_limit (run, SW_LIMIT_BOARD);
  if (found >= needed || hidden->top <= face)
    return;
  gboolean deep = found < -SW_TOUCH_MM;
  SwSnag *snag = sw_check_add (run, deep ? "deep" : "near", deep ? SW_SEVERITY_STOP : SW_SEVERITY_FIX, hidden->owner,
                               hidden->place);
  snag->room = hidden->room->record.id;
  sw_check_set_other (snag, hidden->room->record.id, SW_N_BODIES, -1);
  sw_check_set_numbers (snag, needed, found, SW_UNIT_MM, &run->limits[SW_LIMIT_BOARD]);
  sw_check_set_missing (snag, needed - found, (SwPoint3){ 0, 0, 1 });
}

/* The lowest of a leg under one level of ceiling; steep legs go through the ceiling on purpose. */
static void
leg_depth (const SwRoute *route, guint leg, const SwBulkhead *bulkhead, const GPtrArray *bulkheads, Hidden *worst)
{
  SwPoint3 from = route->axis[leg], to = route->axis[leg + 1];
  SwPoint a = { from.x, from.y }, along = { to.x - from.x, to.y - from.y };
  double length = sw_point_length (along), below = MAX (route->outer, route->socket);
  if (length < SW_TOUCH_MM || fabs (to.z - from.z) > length)
    return;
  g_autoptr (GArray) stretches = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  SwInterval whole = { 0, length };
  g_array_append_val (stretches, whole);
  sw_deck_level_along (worst->room, bulkhead, bulkheads, a, sw_point_scale (along, 1 / length), stretches);
  for (guint i = 0; i < stretches->len; i++)
    {
      SwInterval part = g_array_index (stretches, SwInterval, i);
      SwPoint3 ends[2] = { sw_point3_lerp (from, to, part.low / length), sw_point3_lerp (from, to, part.high / length) };
      for (int k = 0; part.low < part.high && k < 2; k++)
        if (ends[k].z - below < worst->low)
          {
            worst->low = ends[k].z - below;
            worst->top = MAX (ends[0].z, ends[1].z) + route->outer;
            worst->place = ends[k];
          }
    }
}

static double
lowest_of (const SwRoute *route)
{
  double below = MAX (route->outer, route->socket), lowest = INFINITY;
  for (guint i = 0; i < route->n; i++)
    lowest = MIN (lowest, route->axis[i].z - below);
  return lowest;
}

static void
run_depth (SwCheckRun *run, const SwRoute *route, const SwRoom *room)
{
  double lowest = lowest_of (route);
  if (lowest - sw_check_lookup_back (run->lookup, room) >= sw_check_limit (run, SW_LIMIT_BOARD))
    return; /* most are high enough wherever they go */
  g_autoptr (GPtrArray) bulkheads = sw_deck_bulkheads (run->deck, room);
  for (guint b = 0; b <= bulkheads->len; b++)
    {
      const SwBulkhead *bulkhead = b < bulkheads->len ? bulkheads->pdata[b] : NULL;
      Hidden worst = { route->run->record.id, room, bulkhead != NULL ? bulkhead->drop : 0, INFINITY, 0, { 0 } };
      for (guint i = 0; i + 1 < route->n; i++)
        leg_depth (route, i, bulkhead, bulkheads, &worst);
      if (isfinite (worst.low))
        check_depth (run, &worst);
    }
}

static void
fitting_depth (SwCheckRun *run, const SwFitting *fitting, const SwRoom *room)
{
  static const guint32 through = 1u << SW_FITTING_STACK | 1u << SW_FITTING_GULLY | 1u << SW_FITTING_EXIT | 1u << SW_FITTING_BOARD;
  if (through & 1u << fitting->kind || !sw_outline_holds (room->outline.items, room->outline.n, fitting->at))
    return;
  double middle = sw_route_level_z (run->deck, fitting->at, fitting->height, (SwLevel) fitting->level, fitting->z);
  Hidden hidden = { fitting->record.id, room, sw_deck_ceiling_drop (run->deck, room, fitting->at), middle - fitting->height / 2, middle + fitting->height / 2,
                    { fitting->at.x, fitting->at.y, middle } };
  check_depth (run, &hidden);
}

void
sw_check_depth_record (SwCheckRun *run, const SwRecord *record)
{
  const SwRoute *route = sw_check_route (run, record->id);
  if (route != NULL && lowest_of (route) - run->highest_back >= sw_check_limit (run, SW_LIMIT_BOARD))
    return; /* above all ceilings */
  SwBox box = sw_record_box (record);
  g_autoptr (GPtrArray) rooms = sw_check_lookup_near (run->lookup, SW_TABLE_ROOM, box);
  for (guint i = 0; i < rooms->len; i++)
    {
      const SwRoom *room = rooms->pdata[i];
      if (!sw_check_is_hidden (room))
        continue;
      if (route != NULL)
        run_depth (run, route, room);
      else if (sw_record_table (record) == SW_TABLE_FITTING)
        fitting_depth (run, (const SwFitting *) record, room);
    }
}

/* ---- end joints */

typedef struct
{
  double off;     /* least bearing that one of the two sheets has, mm; negative when it has none */
  double covered; /* share of the joint that has a batten under it */
} Bearing;

/* A member that crosses the joint's line, as the batten along the wall does where the joint ends, bears it over its own width.
 * `from` and `to`: its ends from the joint's start. */
static void
subtract_crossing (GArray *bare, const SwMember *member, SwPoint along, SwPoint from, SwPoint to)
{
  double s1 = sw_point_cross (along, from), s2 = sw_point_cross (along, to), length = sw_point_distance (from, to);
  if (s1 * s2 > 0 || fabs (s2 - s1) < SW_TOUCH_MM)
    return;
  double at = sw_point_dot (along, sw_point_lerp (from, to, s1 / (s1 - s2))), half = member->width / 2 * length / fabs (s2 - s1);
  sw_intervals_subtract (bare, at - half, at + half);
}

/* The batten under a joint and what it leaves each sheet: battens that run along it and lie under its line. */
static Bearing
joint_bearing (const SwLayout *layout, const SwJoint *joint)
{
  SwPoint along = sw_point_sub (joint->to, joint->from);
  double length = sw_point_length (along);
  g_autoptr (GArray) bare = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  SwInterval all = { 0, length };
  Bearing bearing = { .off = -INFINITY };
  if (length < SW_TOUCH_MM)
    return (Bearing){ INFINITY, 1 };
  along = sw_point_scale (along, 1 / length);
  g_array_append_val (bare, all);
  for (guint i = 0; i < layout->members.n; i++)
    {
      const SwMember *member = &SW_LIST_AT (layout->members, SwMember, i);
      SwPoint from = sw_point_sub (member->from, joint->from), to = sw_point_sub (member->to, joint->from);
      double side = MAX (fabs (sw_point_cross (along, from)), fabs (sw_point_cross (along, to)));
      double left = member->width / 2 - side, a = sw_point_dot (along, from), b = sw_point_dot (along, to);
      if (left <= 0 && member->kind != SW_MEMBER_STUD && member->kind != SW_MEMBER_PRIMARY)
        subtract_crossing (bare, member, along, from, to);
      if (left <= 0 || member->kind == SW_MEMBER_PRIMARY || member->kind == SW_MEMBER_STUD || MAX (a, b) <= 0 || MIN (a, b) >= length)
        continue;
      bearing.off = MAX (bearing.off, left);
      sw_intervals_subtract (bare, MIN (a, b), MAX (a, b));
    }
  double open = 0;
  for (guint i = 0; i < bare->len; i++)
    open += g_array_index (bare, SwInterval, i).high - g_array_index (bare, SwInterval, i).low;
  bearing.covered = 1 - open / length;
  return bearing;
}

/* End joints need a batten along their whole length, but for what a saw or a board's edge leaves. */
#define COVERED_LEAST 0.9

void
sw_check_joint_record (SwCheckRun *run, const SwRecord *record)
{
  const SwLayout *layout = (const SwLayout *) record;
  SwRuleValue least = sw_rules_value (run->rules, "brandering.setout", "bearing_mm");
  for (guint i = 0; i < layout->joints.n; i++)
    {
      const SwJoint *joint = &SW_LIST_AT (layout->joints, SwJoint, i);
      Bearing bearing = joint_bearing (layout, joint);
      const SwRoom *room = (const SwRoom *) sw_job_get (run->job, layout->room);
      gboolean off = bearing.covered < COVERED_LEAST;
      if (joint->kind != SW_JOINT_END || (!off && bearing.off >= least.value - SW_TOUCH_MM))
        continue;
      SwPoint middle = sw_point_lerp (joint->from, joint->to, 0.5);
      double z = room != NULL ? sw_deck_ceiling_back (run->deck, room) - sw_deck_ceiling_drop (run->deck, room, middle) : 0;
      SwSnag *snag = sw_check_add (run, off ? "off" : "bearing", off ? SW_SEVERITY_STOP : SW_SEVERITY_FIX, layout->room,
                                   (SwPoint3){ middle.x, middle.y, z });
      snag->room = layout->room;
      snag->parts[0] = (int) i;
      sw_check_set_extent (snag, (SwPoint3){ joint->from.x, joint->from.y, z }, (SwPoint3){ joint->to.x, joint->to.y, z });
      sw_check_set_numbers (snag, least.value, off ? NAN : bearing.off, SW_UNIT_MM, &least);
      if (!off)
        sw_check_set_missing (snag, least.value - bearing.off, (SwPoint3){ 0 });
    }
}

/* ---- fixings into ribs */

static const char *
drill_variant (const SwProfile *profile, double strip, const SwRuleValue *least)
{
  if (profile->tendons == SW_TENDONS_YES)
    return "tendons";
  if (profile->tendons == SW_TENDONS_UNKNOWN)
    return "unknown";
  return strip < least->value ? "narrow" : NULL;
}

typedef struct
{
  const SwDeckBay *bay;
  SwPoint first;
  guint n;
} BayFixings;

/* One snag a bay: all its ribs are alike. */
static void
check_drill (SwCheckRun *run, SwId owner, const BayFixings *fixings)
{
  SwRuleValue least = sw_rules_value (run->rules, "deck.drill", "strip_least_mm");
  double strip = sw_section_of (fixings->bay->profile, run->rules).drill_strip;
  const char *variant = drill_variant (fixings->bay->profile, strip, &least);
  if (variant == NULL)
    return;
  SwPoint3 place = { fixings->first.x, fixings->first.y, sw_deck_soffit (fixings->bay, fixings->first) };
  SwSnag *snag = sw_check_add (run, variant, SW_SEVERITY_STOP, owner, place);
  sw_check_set_other (snag, fixings->bay->bay->record.id, SW_N_BODIES, -1);
  sw_check_set_numbers (snag, least.value, strip, SW_UNIT_MM, &least);
  sw_check_set_param (snag, "fixings", fixings->n, SW_UNIT_NONE);
  sw_check_set_param (snag, "cover", fixings->bay->profile->cover, SW_UNIT_MM);
}

void
sw_check_drill_record (SwCheckRun *run, const SwRecord *record)
{
  guint n_bays = sw_deck_n_bays (run->deck);
  g_autofree BayFixings *by_bay = g_new0 (BayFixings, n_bays + 1);
  const SwLayout *layout = sw_record_table (record) == SW_TABLE_LAYOUT ? (const SwLayout *) record : NULL;
  const SwFitting *hanger = layout == NULL ? (const SwFitting *) record : NULL;
  if (hanger != NULL && hanger->kind != SW_FITTING_HANGER)
    return;
  for (guint i = 0; i < (layout != NULL ? layout->fixings.n : 1); i++)
    {
      SwPoint at = layout != NULL ? SW_LIST_AT (layout->fixings, SwFixing, i).at : hanger->at;
      const SwDeckBay *bay = sw_deck_bay_at (run->deck, at);
      if (bay == NULL || sw_deck_rib_at (bay, sw_deck_to_bay (bay, at).y) < 0)
        continue;
      for (guint b = 0; b < n_bays; b++)
        if (sw_deck_bay (run->deck, b) == bay)
          {
            if (by_bay[b].n++ == 0)
              by_bay[b].first = at;
            by_bay[b].bay = bay;
          }
    }
  for (guint b = 0; b < n_bays; b++)
    if (by_bay[b].n > 0)
      check_drill (run, layout != NULL ? layout->room : record->id, &by_bay[b]);
}

/* ---- layouts */

static SwPoint3
room_place (const SwCheckRun *run, const SwRoom *room, double z)
{
  SwPoint at = sw_outline_label_point (room->outline.items, room->outline.n);
  return (SwPoint3){ at.x, at.y, z };
}

void
sw_check_layout_record (SwCheckRun *run, const SwRecord *record)
{
  const SwRoom *room = (const SwRoom *) record;
  const SwLayout *layout = sw_check_layout_of (run, record->id);
  const SwCheckOptions *options = &run->options;
  if (room->finish != SW_FINISH_CLOSED)
    return;
  gboolean stale = layout != NULL && options->layout_is_current != NULL
                   && !options->layout_is_current (run->space, room, layout, options->layout_data);
  if (layout != NULL && !stale)
    return;
  SwSnag *snag = sw_check_add (run, stale ? "stale" : "missing", SW_SEVERITY_NOTE, record->id,
                               room_place (run, room, sw_check_lookup_back (run->lookup, room)));
  snag->room = record->id;
}

/* ---- height of rooms */

static double
above_floor (const SwCheckRun *run, const SwRoom *room, double z)
{
  return sw_deck_z_to_floor (run->deck, z) - room->floor_offset;
}

/* Bulkheads of a closed room: the lowest, and the share of the plan that all of them cover together, percent. */
static const SwBulkhead *
lowest_bulkhead (const SwCheckRun *run, const SwRoom *room, double *percent)
{
  const SwBulkhead *lowest = NULL;
  double area = 0, whole = fabs (sw_outline_area (room->outline.items, room->outline.n));
  g_autoptr (GPtrArray) bulkheads = sw_deck_bulkheads (run->deck, room);
  for (guint i = 0; i < bulkheads->len; i++)
    {
      const SwBulkhead *bulkhead = bulkheads->pdata[i];
      area += fabs (sw_outline_area (bulkhead->outline.items, bulkhead->outline.n));
      if (lowest == NULL || bulkhead->drop > lowest->drop)
        lowest = bulkhead;
    }
  *percent = whole > 0 ? area / whole * 100 : 0;
  return lowest;
}

/* Level that a room's height is measured to: the ceiling (its lowest bulkhead, when they cover more than the rule's share), else the crown when the ribs' share of the plan does not exceed
 * the rule's, else the ribs. */
static double
height_level (const SwCheckRun *run, const SwRoom *room, const char **variant)
{
  SwRuleValue share;
  double level = sw_check_lookup_face (run->lookup, room);
  *variant = room->finish == SW_FINISH_EXPOSED ? "ribs" : "ceiling";
  if (room->finish != SW_FINISH_EXPOSED)
    {
      double percent;
      const SwBulkhead *bulkhead = lowest_bulkhead (run, room, &percent);
      gboolean counts = bulkhead != NULL && sw_rules_number (run->rules, "room.rules", "rib_share_percent", &share, NULL) && percent > share.value + 1e-9;
      *variant = counts ? "bulkhead" : "ceiling";
      return counts ? level - bulkhead->drop : level;
    }
  SwPoint at = sw_outline_label_point (room->outline.items, room->outline.n);
  const SwDeckBay *bay = sw_deck_bay_at (run->deck, at);
  if (bay == NULL || !sw_rules_number (run->rules, "room.rules", "rib_share_percent", &share, NULL))
    return level;
  double ribs = (1 - bay->profile->mouth / bay->profile->pitch) * 100;
  if (ribs > share.value + 1e-9)
    return level;
  *variant = "crown";
  return level + bay->profile->depth;
}

void
sw_check_height_record (SwCheckRun *run, const SwRecord *record)
{
  static const char *const rows[] = { [SW_USE_HABITABLE] = "habitable", [SW_USE_SERVICE] = "passage", [SW_USE_ASSEMBLY] = "assembly" };
  const SwRoom *room = (const SwRoom *) record;
  SwRuleValue least;
  const char *variant;
  if (!sw_rules_has (run->rules, "room.heights")
      || !sw_rules_lookup (run->rules, "room.heights", rows[room->use], "height_mm", &least, NULL))
    return;
  double level = height_level (run, room, &variant), found = above_floor (run, room, level);
  double allowed = least.value - sw_rules_value (run->rules, "checks.runs", "ceiling_level_mm").value;
  if (found >= allowed - SW_TOUCH_MM)
    return;
  SwSnag *snag = sw_check_add (run, variant, SW_SEVERITY_STOP, record->id, room_place (run, room, level));
  snag->room = record->id;
  sw_check_set_numbers (snag, least.value, found, SW_UNIT_MM, &least);
  sw_check_set_missing (snag, least.value - found, (SwPoint3){ 0, 0, 1 });
}

/* Lowest beam over a room, its record in *beam and its place; else the ribs of an exposed soffit, with no place. */
static double
lowest_projection (const SwCheckRun *run, const SwRoom *room, SwId *beam, SwPoint3 *place)
{
  double lowest = room->finish == SW_FINISH_EXPOSED ? sw_deck_lowest_soffit (run->deck, room) : INFINITY;
  g_autoptr (GPtrArray) beams = sw_check_lookup_near (run->lookup, SW_TABLE_BEAM, sw_record_box (&room->record));
  *beam = 0;
  for (guint i = 0; i < beams->len; i++)
    {
      const SwBeam *next = beams->pdata[i];
      SwPoint middle = sw_point_lerp (next->from, next->to, 0.5);
      double z = sw_deck_soffit_at (run->deck, middle) - next->drop;
      if (z >= lowest || !sw_outline_holds (room->outline.items, room->outline.n, middle))
        continue;
      lowest = z;
      *beam = next->record.id;
      *place = (SwPoint3){ middle.x, middle.y, z };
    }
  return lowest;
}

/* No rib or beam hangs lower than a head. */
void
sw_check_projection_record (SwCheckRun *run, const SwRecord *record)
{
  const SwRoom *room = (const SwRoom *) record;
  SwRuleValue least;
  SwId beam;
  SwPoint3 place = { 0 };
  double lowest = lowest_projection (run, room, &beam, &place);
  if (!isfinite (lowest) || !sw_rules_number (run->rules, "room.rules", "projection_mm", &least, NULL))
    return;
  double found = above_floor (run, room, lowest);
  if (found >= least.value - SW_TOUCH_MM)
    return;
  if (beam == 0) /* not before: it takes longer than all the rest */
    place = room_place (run, room, lowest);
  SwSnag *snag = sw_check_add (run, beam != 0 ? "beam" : "ribs", SW_SEVERITY_STOP, record->id, place);
  snag->room = record->id;
  sw_check_set_other (snag, beam, SW_N_BODIES, -1);
  sw_check_set_numbers (snag, least.value, found, SW_UNIT_MM, &least);
  sw_check_set_missing (snag, least.value - found, (SwPoint3){ 0, 0, 1 });
}

/* A bulkhead counts like a beam: no lower than a head. */
static void
bulkhead_height (SwCheckRun *run, const SwBulkhead *bulkhead, const SwRoom *room)
{
  SwRuleValue least;
  SwPoint at = sw_outline_label_point (bulkhead->outline.items, bulkhead->outline.n);
  double z = sw_check_lookup_face (run->lookup, room) - bulkhead->drop, found = above_floor (run, room, z);
  if (!sw_rules_number (run->rules, "room.rules", "projection_mm", &least, NULL) || found >= least.value - SW_TOUCH_MM)
    return;
  SwSnag *snag = sw_check_add (run, "low", SW_SEVERITY_STOP, bulkhead->record.id, (SwPoint3){ at.x, at.y, z });
  snag->room = room->record.id;
  sw_check_set_numbers (snag, least.value, found, SW_UNIT_MM, &least);
  sw_check_set_missing (snag, least.value - found, (SwPoint3){ 0, 0, 1 });
}

/* Half in the bulkhead and half in the higher ceiling. */
static void
across_edge (SwCheckRun *run, const SwBulkhead *bulkhead, const SwRecord *record, const SwPoint *corners, guint n, double z)
{
  guint inside = 0;
  SwPoint middle = { 0 };
  for (guint i = 0; i < n; i++)
    {
      inside += sw_outline_holds (bulkhead->outline.items, bulkhead->outline.n, corners[i]);
      middle = sw_point_add (middle, sw_point_scale (corners[i], 1.0 / n));
    }
  if (inside == 0 || inside == n)
    return;
  SwSnag *snag = sw_check_add (run, "edge", SW_SEVERITY_STOP, bulkhead->record.id, (SwPoint3){ middle.x, middle.y, z });
  snag->room = bulkhead->room;
  sw_check_set_other (snag, record->id, SW_N_BODIES, -1);
}

/* Lights and hatches on the line of a face. */
static void
bulkhead_edges (SwCheckRun *run, const SwBulkhead *bulkhead, const SwRoom *room, double z)
{
  SwPoint corners[8];
  SwBox box = sw_box_grow (sw_record_box (&bulkhead->record), 3000);
  g_autoptr (GPtrArray) lights = sw_check_lookup_near (run->lookup, SW_TABLE_LIGHT, box);
  g_autoptr (GPtrArray) hatches = sw_check_lookup_near (run->lookup, SW_TABLE_HATCH, box);
  for (guint i = 0; i < lights->len; i++)
    {
      const SwLight *light = lights->pdata[i];
      for (int k = 0; k < 8; k++)
        corners[k] = sw_point_add (light->at, sw_point_turn ((SwPoint){ light->cut_out / 2, 0 }, cos (k * G_PI_4), sin (k * G_PI_4)));
      if (sw_outline_holds (room->outline.items, room->outline.n, light->at))
        across_edge (run, bulkhead, &light->record, corners, 8, z);
    }
  for (guint i = 0; i < hatches->len; i++)
    {
      const SwHatch *hatch = hatches->pdata[i];
      double cosine = cos (hatch->turn * G_PI / 180), sine = sin (hatch->turn * G_PI / 180);
      for (int k = 0; k < 4; k++)
        corners[k] = sw_point_add (hatch->at, sw_point_turn ((SwPoint){ (k & 1 ? 0.5 : -0.5) * hatch->length, (k & 2 ? 0.5 : -0.5) * hatch->width }, cosine, sine));
      if (sw_outline_holds (room->outline.items, room->outline.n, hatch->at))
        across_edge (run, bulkhead, &hatch->record, corners, 4, z);
    }
}

/* Its corner that lies farthest outside its room, and how far; 0 when it keeps within. */
static double
reach_beyond (const SwBulkhead *bulkhead, const SwRoom *room, SwPoint *where)
{
  double farthest = 0;
  for (guint i = 0; i < bulkhead->outline.n; i++)
    {
      SwPoint corner = SW_LIST_AT (bulkhead->outline, SwPoint, i);
      double distance = sw_outline_holds (room->outline.items, room->outline.n, corner)
                            ? 0 : sw_outline_distance (room->outline.items, room->outline.n, corner, NULL, NULL);
      if (distance > farthest + SW_TOUCH_MM)
        {
          farthest = distance;
          *where = corner;
        }
    }
  return farthest;
}

static void
bulkhead_beyond (SwCheckRun *run, const SwBulkhead *bulkhead, const SwRoom *room, double z)
{
  SwPoint where = { 0, 0 };
  double distance = reach_beyond (bulkhead, room, &where);
  if (distance <= 0)
    return;
  SwSnag *snag = sw_check_add (run, "beyond", SW_SEVERITY_FIX, bulkhead->record.id, (SwPoint3){ where.x, where.y, z });
  snag->room = room->record.id;
  sw_check_set_other (snag, room->record.id, SW_N_BODIES, -1);
  sw_check_set_missing (snag, distance, (SwPoint3){ 0 });
}

void
sw_check_bulkhead_record (SwCheckRun *run, const SwRecord *record)
{
  const SwBulkhead *bulkhead = (const SwBulkhead *) record;
  const SwRoom *room = (const SwRoom *) sw_job_get (run->job, bulkhead->room);
  SwPoint at = sw_outline_label_point (bulkhead->outline.items, bulkhead->outline.n);
  if (room == NULL)
    return;
  double z = sw_check_lookup_face (run->lookup, room) - bulkhead->drop;
  gboolean closed = room->finish == SW_FINISH_CLOSED, inside = sw_outline_holds (room->outline.items, room->outline.n, at);
  if (closed && inside)
    {
      bulkhead_height (run, bulkhead, room);
      bulkhead_edges (run, bulkhead, room, z);
      bulkhead_beyond (run, bulkhead, room, z);
      return;
    }
  SwSnag *snag = sw_check_add (run, closed ? "outside" : "open", closed ? SW_SEVERITY_FIX : SW_SEVERITY_NOTE, record->id,
                               (SwPoint3){ at.x, at.y, z });
  snag->room = room->record.id;
  sw_check_set_other (snag, room->record.id, SW_N_BODIES, -1);
}

/* ---- what hangs from the deck */

/* Runs near a room, as they lie in space. */
static GPtrArray *
routes_over (const SwCheckRun *run, const SwRoom *room)
{
  GPtrArray *routes = g_ptr_array_new ();
  g_autoptr (GPtrArray) near = sw_check_lookup_near (run->lookup, SW_TABLE_RUN, sw_record_box (&room->record));
  for (guint i = 0; i < near->len; i++)
    {
      const SwRoute *route = sw_space_route (run->space, ((const SwRecord *) near->pdata[i])->id);
      if (route != NULL)
        g_ptr_array_add (routes, (gpointer) route);
    }
  return routes;
}

void
sw_check_suspended_record (SwCheckRun *run, const SwRecord *record)
{
  const SwRoom *room = (const SwRoom *) record;
  g_autoptr (GPtrArray) routes = NULL;
  SwBox box = sw_record_box (record);
  for (guint i = 0; i < sw_deck_n_bays (run->deck); i++)
    {
      const SwDeckBay *bay = sw_deck_bay (run->deck, i);
      if (bay->bay->allowance <= 0 || !sw_box_meets (box, sw_record_box (&bay->bay->record)))
        continue;
      if (routes == NULL)
        routes = routes_over (run, room);
      SwSuspended load = sw_ceiling_suspended (run->deck, run->rules, bay, room, routes);
      if (load.kpa <= bay->bay->allowance + 1e-9)
        continue;
      SwPoint at = sw_outline_label_point (room->outline.items, room->outline.n);
      SwSnag *snag = sw_check_add (run, "heavy", SW_SEVERITY_STOP, record->id, (SwPoint3){ at.x, at.y, sw_deck_soffit_at (run->deck, at) });
      sw_check_set_other (snag, bay->bay->record.id, SW_N_BODIES, -1);
      sw_check_set_numbers (snag, bay->bay->allowance, load.kpa, SW_UNIT_KPA, NULL);
    }
}
