/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Allowed places of lights: the room, less what each body near it bars to the light's body or heat (geometry/shadow.h), less strips
 * about joints, hatches and walls for its cut-out. A room whose ceiling hangs at several levels is taken level by level. The limits
 * are those of the checks of lights, so a place is allowed when they find nothing there. Cost: one shadow a body and one union; it
 * ends because bodies do. It does not find how several lights would stand together, and knows nothing of an unmeasured deck. */
#include "lighting/places.h"
#include "base/error.h"
#include "base/text.h"
#include "base/tolerance.h"
#include "geometry/shadow.h"
#include <string.h>

typedef struct
{
  SwLightBar kind;
  SwId owner;
  guint zone, first, n; /* points of the outline */
  SwBox box;
} Bar;

/* A stretch of the ceiling at one level. */
typedef struct
{
  SwRegion *area;
  double face, drop;
} Zone;

typedef struct
{
  double rib, crown, plate, service, heat, batten, joint, wall, side, top;
} Limits;

struct _SwLightPlaces
{
  gatomicrefcount refs;
  SwSpace *space;   /* holds room and deck */
  const SwRoom *room;
  SwLight light;    /* numbers only: its texts are not held */
  Limits limits;
  GArray *zones, *bars, *points; /* Zone, Bar, SwPoint */
  SwRegion *region;
  gboolean assumed;
};

/* ---- setting up */

static void
zone_clear (gpointer data)
{
  g_clear_pointer (&((Zone *) data)->area, sw_region_unref);
}

static double
limit_of (const SwLightPlaces *places, const char *table, const char *key)
{
  return sw_rules_value (sw_space_rules (places->space), table, key).value;
}

static void
read_limits (SwLightPlaces *places)
{
  const SwLight *light = &places->light;
  places->limits = (Limits){
    .rib = limit_of (places, "checks.clearances", "light_rib_mm"),
    .crown = limit_of (places, "light.clearances", "withdraw_mm"),
    .plate = limit_of (places, "checks.clearances", "light_plate_mm"),
    .service = limit_of (places, "checks.clearances", "light_body_mm"),
    .heat = limit_of (places, "checks.clearances", "light_heat_mm"),
    .batten = limit_of (places, "light.clearances", "batten_mm"),
    .joint = limit_of (places, "board.layout", "light_joint_mm"),
    .wall = limit_of (places, "checks.clearances", "light_wall_mm"),
    .side = light->side_clearance > 0 ? light->side_clearance : limit_of (places, "light.clearances", "side_mm"),
    .top = light->top_clearance > 0 ? light->top_clearance : limit_of (places, "light.clearances", "top_mm"),
  };
}

/* ---- bars */

static void
note_bar (SwLightPlaces *places, guint zone, SwLightBar kind, SwId owner, const SwSolid *solid, const SwUpright *upright)
{
  Bar bar = { kind, owner, zone, places->points->len, 0, SW_BOX_EMPTY };
  if (!sw_solid_shadow (solid, upright, places->points))
    return;
  bar.n = places->points->len - bar.first;
  bar.box = sw_outline_box (&g_array_index (places->points, SwPoint, bar.first), bar.n);
  g_array_append_val (places->bars, bar);
}

typedef struct
{
  SwLightPlaces *places;
  guint zone;
  double face;
  GCancellable *cancellable;
} Taker;

static SwUpright
body_with (const Taker *taker, double clearance)
{
  const SwLight *light = &taker->places->light;
  return (SwUpright){ taker->face, taker->face + light->recess, light->body / 2, fmax (clearance, 0) };
}

static SwUpright
heat_with (const Taker *taker, double clearance)
{
  const SwLight *light = &taker->places->light;
  const Limits *limits = &taker->places->limits;
  return (SwUpright){ taker->face, taker->face + light->recess + limits->top, light->body / 2 + limits->side, fmax (clearance, 0) };
}

static void
bar_body (const Taker *taker, const SwBody *body, SwLightBar kind, double clearance)
{
  SwUpright upright = body_with (taker, clearance);
  note_bar (taker->places, taker->zone, kind, body->owner, &body->solid, &upright);
}

static void
bar_heat (const Taker *taker, const SwBody *body, SwLightBar kind, double clearance)
{
  SwUpright upright = heat_with (taker, clearance);
  note_bar (taker->places, taker->zone, kind, body->owner, &body->solid, &upright);
}

/* Drivers and hangers may touch; nothing else may be near, or in its heat. */
static void
bar_service (const Taker *taker, const SwBody *body)
{
  const SwFitting *fitting = sw_record_table (body->record) == SW_TABLE_FITTING ? (const SwFitting *) body->record : NULL;
  gboolean own = fitting != NULL && (fitting->kind == SW_FITTING_DRIVER || fitting->kind == SW_FITTING_HANGER);
  bar_body (taker, body, SW_LIGHT_BAR_SERVICE, own ? 0 : taker->places->limits.service);
  if (!own)
    bar_heat (taker, body, SW_LIGHT_BAR_HEAT, taker->places->limits.heat);
}

static gboolean
is_released (const Taker *taker, const SwBody *body)
{
  const SwDeck *deck = sw_space_deck (taker->places->space);
  const SwDeckBay *bay = body->bay < sw_deck_n_bays (deck) ? sw_deck_bay (deck, body->bay) : NULL;
  return bay != NULL && (guint) body->part < bay->plates->len && g_array_index (bay->plates, SwDeckPlate, body->part).released;
}

static gboolean
take_body (const SwBody *body, gpointer data)
{
  const Taker *taker = data;
  const Limits *limits = &taker->places->limits;
  const SwLight *light = &taker->places->light;
  if (body->owner == light->record.id)
    return TRUE;
  switch (body->kind)
    {
    case SW_BODY_CROWN:
      bar_body (taker, body, SW_LIGHT_BAR_CROWN, limits->crown);
      break;
    case SW_BODY_PLATE:
      if (!is_released (taker, body))
        bar_body (taker, body, SW_LIGHT_BAR_PLATE, limits->plate);
      break;
    case SW_BODY_MEMBER: /* counted from the hole, not from the body */
      bar_body (taker, body, SW_LIGHT_BAR_BATTEN, limits->batten + (light->cut_out - light->body) / 2);
      break;
    case SW_BODY_TUBE:
    case SW_BODY_SOCKET:
    case SW_BODY_FITTING:
      bar_service (taker, body);
      break;
    case SW_BODY_LIGHT:
      bar_heat (taker, body, SW_LIGHT_BAR_LIGHT, 0);
      break;
    case SW_BODY_HEAT:
      bar_body (taker, body, SW_LIGHT_BAR_LIGHT, 0);
      break;
    default: /* all that is left is concrete */
      bar_body (taker, body, SW_LIGHT_BAR_CONCRETE, limits->rib);
      break;
    }
  return !g_cancellable_is_cancelled (taker->cancellable);
}

#define BIT(name) (1u << SW_BODY_##name)
#define BODIES (BIT (RIB) | BIT (CROWN) | BIT (CLOSURE) | BIT (SOLID) | BIT (PLATE) | BIT (BEAM) | BIT (COLUMN) | BIT (MEMBER) | BIT (TUBE) \
                | BIT (SOCKET) | BIT (FITTING) | BIT (LIGHT) | BIT (HEAT))

static void
take_bodies (Taker *taker, SwBox box)
{
  const Limits *limits = &taker->places->limits;
  const SwLight *light = &taker->places->light;
  double widest = fmax (fmax (limits->rib, limits->crown), fmax (fmax (limits->plate, limits->service), limits->batten + light->cut_out));
  double reach = light->body / 2 + fmax (limits->side + limits->heat, widest);
  SwBox3 near = { { box.low.x - reach, box.low.y - reach, taker->face - widest },
                  { box.high.x + reach, box.high.y + reach, taker->face + light->recess + fmax (limits->top + limits->heat, widest) } };
  sw_space_query (taker->places->space, near, BODIES, take_body, taker);
}

/* ---- what bars the cut-out in plan: the height does not matter, so all of it is put at one */

static void
bar_line (const Taker *taker, SwLightBar kind, SwId owner, SwPoint from, SwPoint to, double half_width, double limit)
{
  SwSolid line = sw_solid_tube ((SwPoint3){ from.x, from.y, 0 }, (SwPoint3){ to.x, to.y, 0 }, 0);
  SwUpright upright = { -1, 1, half_width + taker->places->light.cut_out / 2 + limit, 0 };
  note_bar (taker->places, taker->zone, kind, owner, &line, &upright);
}

static const SwLayout *
layout_of (const SwJob *job, const SwRoom *room)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_LAYOUT); (record = sw_job_iter_next (&i)) != NULL;)
    if (((const SwLayout *) record)->room == room->record.id)
      return (const SwLayout *) record;
  return NULL;
}

static void
take_joints (const Taker *taker)
{
  const SwRoom *room = taker->places->room;
  const SwLayout *layout = room->finish == SW_FINISH_CLOSED ? layout_of (sw_space_job (taker->places->space), room) : NULL;
  for (guint i = 0; layout != NULL && i < layout->joints.n; i++)
    {
      const SwJoint *joint = &SW_LIST_AT (layout->joints, SwJoint, i);
      bar_line (taker, SW_LIGHT_BAR_JOINT, layout->record.id, joint->from, joint->to, 0, taker->places->limits.joint);
    }
}

static void
take_walls (const Taker *taker, SwBox box)
{
  const SwLightPlaces *places = taker->places;
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_space_job (places->space), SW_TABLE_WALL); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwWall *wall = (const SwWall *) record;
      double reach = wall->thickness / 2 + places->light.cut_out / 2 + places->limits.wall;
      if (sw_box_meets (sw_box_grow (sw_record_box (record), reach), box))
        bar_line (taker, SW_LIGHT_BAR_WALL, record->id, wall->from, wall->to, wall->thickness / 2, places->limits.wall);
    }
}

/* A hatch's edge is cut through the board as the light's hole is: as far apart as a hole and a joint. */
static void
take_hatches (const Taker *taker, SwBox box)
{
  const SwLightPlaces *places = taker->places;
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_space_job (places->space), SW_TABLE_HATCH); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwHatch *hatch = (const SwHatch *) record;
      double cosine = cos (hatch->turn * G_PI / 180), sine = sin (hatch->turn * G_PI / 180), reach = places->light.cut_out / 2 + places->limits.joint;
      SwPoint corner = sw_point_add (hatch->at, sw_point_turn ((SwPoint){ -hatch->length / 2, -hatch->width / 2 }, cosine, sine));
      SwSolid opening = sw_solid_box ((SwPoint3){ corner.x, corner.y, 0 }, (SwPoint3){ cosine * hatch->length, sine * hatch->length, 0 },
                                      (SwPoint3){ -sine * hatch->width, cosine * hatch->width, 0 }, (SwPoint3){ 0, 0, 1 });
      SwUpright upright = { 0, 1, reach, 0 };
      if (sw_box_meets (sw_box_grow (sw_record_box (record), reach + hypot (hatch->length, hatch->width) / 2), box))
        note_bar (taker->places, taker->zone, SW_LIGHT_BAR_HATCH, record->id, &opening, &upright);
    }
}

/* Battens that nobody has laid yet: even centres, square to the ribs' or along them. */
static void
assume_battens (const Taker *taker, double limit)
{
  SwLightPlaces *places = taker->places;
  const SwRoom *room = places->room;
  SwPoint label = sw_outline_label_point (room->outline.items, room->outline.n);
  const SwDeckBay *bay = sw_deck_bay_at (sw_space_deck (places->space), label);
  double turn = (bay != NULL ? bay->bay->direction : 0) + (room->direction == SW_DIRECTION_ALONG ? 90 : 0);
  double cosine = cos (turn * G_PI / 180), sine = sin (turn * G_PI / 180), half = room->batten_width / 2;
  SwBox box = SW_BOX_EMPTY; /* x across the battens, y along them */
  for (guint i = 0; i < room->outline.n; i++)
    box = sw_box_add (box, sw_point_turn (SW_LIST_AT (room->outline, SwPoint, i), cosine, -sine));
  double first = box.low.x + limit_of (places, "brandering.setout", "wall_face_mm") + half, last = box.high.x - (first - box.low.x);
  int bays = last > first ? MAX (1, (int) ceil ((last - first) / limit - 1e-9)) : 0;
  for (int i = 0; i <= bays && bays > 0; i++)
    {
      double x = first + (last - first) * i / bays;
      SwPoint from = sw_point_turn ((SwPoint){ x, box.low.y }, cosine, sine), to = sw_point_turn ((SwPoint){ x, box.high.y }, cosine, sine);
      bar_line (taker, SW_LIGHT_BAR_BATTEN, 0, from, to, half, places->limits.batten);
    }
}

/* ---- levels of the ceiling */

static gboolean
add_zone (SwLightPlaces *places, SwRegion *area, double drop)
{
  const SwDeck *deck = sw_space_deck (places->space);
  Zone zone = { area, sw_deck_ceiling_face (deck, places->room) - drop, drop };
  if (area != NULL)
    g_array_append_val (places->zones, zone);
  return area != NULL;
}

/* The area of a bulkhead less those that hang lower, as the deck counts them: in `order` the lower ones come first. */
static SwRegion *
bulkhead_area (const SwBulkhead *bulkhead, SwRegion *room, SwRegion *lower, GError **error)
{
  g_autoptr (SwRegion) outline = sw_region_new_outline (bulkhead->outline.items, bulkhead->outline.n, error);
  g_autoptr (SwRegion) inside = outline != NULL ? sw_region_intersect (outline, room, error) : NULL;
  return inside != NULL ? sw_region_subtract (inside, lower, error) : NULL;
}

static int
by_drop (gconstpointer a, gconstpointer b)
{
  const SwBulkhead *p = *(SwBulkhead *const *) a, *q = *(SwBulkhead *const *) b;
  if (p->drop != q->drop)
    return p->drop > q->drop ? -1 : 1;
  return (p->record.id > q->record.id) - (p->record.id < q->record.id);
}

/* Each level's area; the middle of a light stays half its cut-out off the edge. */
static gboolean
add_zones (SwLightPlaces *places, GError **error)
{
  const SwRoom *room = places->room;
  g_autoptr (SwRegion) whole = sw_region_new_outline (room->outline.items, room->outline.n, error);
  g_autoptr (SwRegion) taken = sw_region_new_empty ();
  g_autoptr (GPtrArray) bulkheads = sw_deck_bulkheads (sw_space_deck (places->space), room);
  double rim = places->light.cut_out / 2;
  g_ptr_array_sort (bulkheads, by_drop);
  for (guint i = 0; whole != NULL && i <= bulkheads->len; i++)
    {
      const SwBulkhead *bulkhead = i < bulkheads->len ? bulkheads->pdata[i] : NULL;
      g_autoptr (SwRegion) area = bulkhead != NULL ? bulkhead_area (bulkhead, whole, taken, error) : sw_region_subtract (whole, taken, error);
      SwRegion *more = area != NULL ? sw_region_union (taken, area, error) : NULL;
      if (more == NULL || !add_zone (places, sw_region_grow (area, -rim, error), bulkhead != NULL ? bulkhead->drop : 0))
        {
          g_clear_pointer (&more, sw_region_unref);
          return FALSE;
        }
      sw_region_unref (taken);
      taken = more;
    }
  return whole != NULL;
}

/* ---- the region */

/* Whether another bar of the zone, itself kept, holds all of this one: both are convex. */
static gboolean
is_covered (const SwLightPlaces *places, const Bar *bar, const GPtrArray *kept)
{
  for (guint i = 0; i < kept->len; i++)
    {
      const Bar *other = kept->pdata[i];
      gboolean holds = sw_box_holds (other->box, bar->box.low) && sw_box_holds (other->box, bar->box.high);
      for (guint k = 0; k < bar->n && holds; k++)
        holds = sw_outline_holds (&g_array_index (places->points, SwPoint, other->first), other->n, g_array_index (places->points, SwPoint, bar->first + k));
      if (holds)
        return TRUE;
    }
  return FALSE;
}

static int
by_size (gconstpointer a, gconstpointer b)
{
  const Bar *p = *(Bar *const *) a, *q = *(Bar *const *) b;
  double at = (p->box.high.x - p->box.low.x) * (p->box.high.y - p->box.low.y), bt = (q->box.high.x - q->box.low.x) * (q->box.high.y - q->box.low.y);
  return at != bt ? (at < bt) - (at > bt) : (p->first > q->first) - (p->first < q->first);
}

/* Bars of a zone that no other holds, as those of sockets lie in those of their tubes. Borrowed, largest first. */
static GPtrArray *
bars_that_count (const SwLightPlaces *places, guint index)
{
  SwBox box = sw_region_box (g_array_index (places->zones, Zone, index).area);
  g_autoptr (GPtrArray) near = g_ptr_array_new ();
  GPtrArray *kept = g_ptr_array_new ();
  for (guint i = 0; i < places->bars->len; i++)
    if (g_array_index (places->bars, Bar, i).zone == index && sw_box_meets (g_array_index (places->bars, Bar, i).box, box))
      g_ptr_array_add (near, &g_array_index (places->bars, Bar, i));
  g_ptr_array_sort (near, by_size);
  for (guint i = 0; i < near->len; i++)
    if (!is_covered (places, near->pdata[i], kept))
      g_ptr_array_add (kept, near->pdata[i]);
  return kept;
}

static SwRegion *
zone_allowed (const SwLightPlaces *places, guint index, GError **error)
{
  const Zone *zone = &g_array_index (places->zones, Zone, index);
  g_autoptr (GPtrArray) bars = bars_that_count (places, index);
  g_autoptr (GPtrArray) barred = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_region_unref);
  for (guint i = 0; i < bars->len; i++)
    {
      const Bar *bar = bars->pdata[i];
      SwRegion *one = sw_region_new_outline (&g_array_index (places->points, SwPoint, bar->first), bar->n, error);
      if (one == NULL)
        return NULL;
      g_ptr_array_add (barred, one);
    }
  g_autoptr (SwRegion) all = sw_region_union_all ((SwRegion *const *) barred->pdata, barred->len, error);
  return all != NULL ? sw_region_subtract (zone->area, all, error) : NULL;
}

static gboolean
join_zones (SwLightPlaces *places, GError **error)
{
  places->region = sw_region_new_empty ();
  for (guint i = 0; i < places->zones->len; i++)
    {
      g_autoptr (SwRegion) allowed = zone_allowed (places, i, error);
      SwRegion *both = allowed != NULL ? sw_region_union (places->region, allowed, error) : NULL;
      if (both == NULL)
        return FALSE;
      sw_region_unref (places->region);
      places->region = both;
    }
  return TRUE;
}

static gboolean
take_all (SwLightPlaces *places, const SwLightPlaceOptions *options, GCancellable *cancellable, GError **error)
{
  const SwRoom *room = places->room;
  double centres = options != NULL ? options->centres : 0;
  places->assumed = centres > 0 && room->finish == SW_FINISH_CLOSED && layout_of (sw_space_job (places->space), room) == NULL;
  if (!add_zones (places, error))
    return FALSE;
  for (guint i = 0; i < places->zones->len; i++)
    {
      const Zone *zone = &g_array_index (places->zones, Zone, i);
      Taker taker = { places, i, zone->face, cancellable };
      SwBox box = sw_region_box (zone->area);
      if (sw_region_is_empty (zone->area))
        continue;
      take_bodies (&taker, box);
      take_joints (&taker);
      take_walls (&taker, box);
      take_hatches (&taker, box);
      if (places->assumed)
        assume_battens (&taker, centres);
      if (g_cancellable_is_cancelled (cancellable))
        {
          g_set_error_literal (error, SW_ERROR, SW_ERROR_CANCELLED, "looking for places of lights was cancelled");
          return FALSE;
        }
    }
  return join_zones (places, error);
}

SwLightPlaces *
sw_light_places_new (SwSpace *space, const SwRoom *room, const SwLight *light, const SwLightPlaceOptions *options, GCancellable *cancellable,
                     GError **error)
{
  g_autoptr (SwLightPlaces) places = g_new0 (SwLightPlaces, 1);
  g_atomic_ref_count_init (&places->refs);
  places->space = sw_space_ref (space);
  places->room = room;
  places->light = *light;
  places->light.name = places->light.record.tag = NULL;
  places->zones = g_array_new (FALSE, FALSE, sizeof (Zone));
  g_array_set_clear_func (places->zones, zone_clear);
  places->bars = g_array_new (FALSE, FALSE, sizeof (Bar));
  places->points = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  read_limits (places);
  return take_all (places, options, cancellable, error) ? g_steal_pointer (&places) : NULL;
}

SwLightPlaces *
sw_light_places_ref (SwLightPlaces *places)
{
  g_atomic_ref_count_inc (&places->refs);
  return places;
}

void
sw_light_places_unref (SwLightPlaces *places)
{
  if (!g_atomic_ref_count_dec (&places->refs))
    return;
  g_array_unref (places->zones);
  g_array_unref (places->bars);
  g_array_unref (places->points);
  g_clear_pointer (&places->region, sw_region_unref);
  sw_space_unref (places->space);
  g_free (places);
}

SwRegion *
sw_light_places_region (const SwLightPlaces *places)
{
  return places->region;
}

gboolean
sw_light_places_assumed (const SwLightPlaces *places)
{
  return places->assumed;
}

/* ---- one place */

const char *
sw_light_bar_text (SwLightBar bar)
{
  static const char *const texts[SW_N_LIGHT_BARS] = {
    [SW_LIGHT_BAR_NONE] = N_ ("allowed"),
    [SW_LIGHT_BAR_EDGE] = N_ ("edge of the ceiling"),
    [SW_LIGHT_BAR_CONCRETE] = N_ ("rib or other concrete"),
    [SW_LIGHT_BAR_CROWN] = N_ ("crown of the void"),
    [SW_LIGHT_BAR_PLATE] = N_ ("stiffener plate"),
    [SW_LIGHT_BAR_BATTEN] = N_ ("batten"),
    [SW_LIGHT_BAR_SERVICE] = N_ ("run or fitting"),
    [SW_LIGHT_BAR_HEAT] = N_ ("run or fitting in its heat"),
    [SW_LIGHT_BAR_LIGHT] = N_ ("another light"),
    [SW_LIGHT_BAR_JOINT] = N_ ("joint of the boards"),
    [SW_LIGHT_BAR_HATCH] = N_ ("hatch"),
    [SW_LIGHT_BAR_WALL] = N_ ("wall"),
  };
  return texts[bar];
}

/* The bar that the place lies deepest in, of those at its level. */
static void
find_bar (const SwLightPlaces *places, SwPoint at, SwLightPlace *place)
{
  double drop = sw_deck_ceiling_drop (sw_space_deck (places->space), places->room, at), deepest = -1;
  place->bar = SW_LIGHT_BAR_EDGE;
  for (guint i = 0; i < places->bars->len; i++)
    {
      const Bar *bar = &g_array_index (places->bars, Bar, i);
      const SwPoint *points = &g_array_index (places->points, SwPoint, bar->first);
      if (g_array_index (places->zones, Zone, bar->zone).drop != drop || !sw_box_holds (bar->box, at) || !sw_outline_holds (points, bar->n, at))
        continue;
      double depth = sw_outline_distance (points, bar->n, at, NULL, NULL);
      if (depth <= deepest)
        continue;
      deepest = depth;
      place->bar = bar->kind;
      place->owner = bar->owner;
    }
}

/* Whole mm along and across the voids where such a place is allowed too. */
static SwPoint
whole_move (const SwLightPlaces *places, SwPoint at, SwPoint by)
{
  const SwDeckBay *bay = sw_deck_bay_at (sw_space_deck (places->space), at);
  double cosine = bay != NULL ? bay->cosine : 1, sine = bay != NULL ? bay->sine : 0;
  SwPoint own = sw_point_turn (by, cosine, -sine), whole = { 0, 0 };
  whole.x = copysign (ceil (fabs (own.x) - SW_TOUCH_MM), own.x);
  whole.y = copysign (ceil (fabs (own.y) - SW_TOUCH_MM), own.y);
  whole = sw_point_turn (whole, cosine, sine);
  return sw_region_holds (places->region, sw_point_add (at, whole)) ? whole : by;
}

SwLightPlace
sw_light_places_ask (const SwLightPlaces *places, SwPoint at)
{
  SwLightPlace place = { .bar = SW_LIGHT_BAR_NONE };
  gboolean allowed = sw_region_holds (places->region, at);
  double least = INFINITY;
  SwPoint to = at;
  for (guint i = 0; i < sw_region_n_rings (places->region); i++)
    {
      SwRing ring = sw_region_ring (places->region, i);
      SwPoint nearest;
      double distance = sw_outline_distance (ring.points, ring.n, at, NULL, &nearest);
      if (distance < least)
        {
          least = distance;
          to = nearest;
        }
    }
  place.mm = allowed ? least : -least;
  if (allowed)
    return place;
  find_bar (places, at, &place);
  if (isfinite (least))
    place.move = whole_move (places, at, sw_point_sub (to, at));
  return place;
}

/* ---- the region in pieces */

static SwLightStrip
strip_of (const SwLightPlaces *places, SwRegion *part, guint number)
{
  SwRing ring = sw_region_ring (part, 0);
  SwLightStrip strip = { .part = number, .box = SW_BOX_EMPTY, .area = sw_region_area (part) };
  strip.middle = sw_outline_label_point (ring.points, ring.n);
  strip.bay = sw_deck_bay_at (sw_space_deck (places->space), strip.middle);
  for (guint i = 0; i < ring.n; i++)
    strip.box = sw_box_add (strip.box, strip.bay != NULL ? sw_deck_to_bay (strip.bay, ring.points[i]) : ring.points[i]);
  double v = strip.bay != NULL ? sw_deck_to_bay (strip.bay, strip.middle).y : 0;
  strip.void_index = strip.bay != NULL ? sw_deck_void_near (strip.bay, v) : -1;
  strip.over_rib = strip.bay != NULL && sw_deck_void_at (strip.bay, v) < 0;
  return strip;
}

static int
by_place (gconstpointer a, gconstpointer b)
{
  const SwLightStrip *p = a, *q = b;
  if (p->bay != q->bay)
    return p->bay == NULL ? 1 : q->bay == NULL ? -1 : p->bay->bay->record.id < q->bay->bay->record.id ? -1 : 1;
  if (p->void_index != q->void_index)
    return p->void_index < q->void_index ? -1 : 1;
  return p->box.low.x != q->box.low.x ? (p->box.low.x > q->box.low.x) - (p->box.low.x < q->box.low.x) : (p->part > q->part) - (p->part < q->part);
}

GArray *
sw_light_places_strips (const SwLightPlaces *places)
{
  GArray *strips = g_array_new (FALSE, FALSE, sizeof (SwLightStrip));
  g_autoptr (GPtrArray) parts = sw_region_parts (places->region);
  for (guint i = 0; i < parts->len; i++)
    {
      SwLightStrip strip = strip_of (places, parts->pdata[i], i);
      g_array_append_val (strips, strip);
    }
  g_array_sort (strips, by_place);
  return strips;
}

/* ---- by hand */

double
sw_light_band (double mouth, double crown, double depth, double top, double body, double clearance)
{
  double lean = (mouth - crown) / 2, high = CLAMP (top, 0, depth);
  double slant = depth > 0 ? hypot (lean, depth) / depth : 1; /* what a clearance square to the side takes off the width */
  return mouth - 2 * lean * high / depth - body - 2 * clearance * (top > 0 ? slant : 1);
}

double
sw_light_gap (double centres, double batten, double cut_out, double clearance)
{
  return centres - batten - cut_out - 2 * clearance;
}
