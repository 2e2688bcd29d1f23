/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Solids from records. Concrete is a union of convex prisms: ribs (one a stretch of outline that they cross), the slab over
 * each void, and the filling of each void beyond its closures. All follow the soffit's plane: a section is pushed along the
 * void with the plane's rise. Outlines that are not convex count by their hull where they stand for one body. */
#include "space/bodies.h"
#include "base/tolerance.h"
#include <math.h>

#define PLATE_MM 3.0 /* sheet and stiffening lips of a plate */

static void
add_body (GArray *bodies, SwSolid solid, SwId owner, SwBodyKind kind, guint bay, int part, double margin)
{
  SwBody body = { .box = sw_solid_box3 (&solid), .owner = owner, .kind = kind, .bay = bay, .part = part, .margin = margin, .solid = solid };
  g_array_append_val (bodies, body);
}

/* Place on the soffit's plane. */
static SwPoint3
on_soffit (const SwDeckBay *bay, double u, double v)
{
  SwPoint world = sw_deck_from_bay (bay, (SwPoint){ u, v });
  return (SwPoint3){ world.x, world.y, sw_deck_soffit (bay, world) };
}

typedef struct
{
  const SwDeckBay *bay;
  guint index;
  GArray *bodies;
} BaySolids;

/* A section in (v, height) from u_low to u_high. */
static void
add_along (const BaySolids *to, const SwPoint *section, gsize n, double u_low, double u_high, SwId owner, SwBodyKind kind, int part)
{
  SwSolid solid;
  if (u_high - u_low < SW_TOUCH_MM)
    return;
  SwPoint3 origin = on_soffit (to->bay, u_low, 0);
  SwPoint3 across = sw_point3_sub (on_soffit (to->bay, u_low, 1), origin);
  SwPoint3 push = sw_point3_sub (on_soffit (to->bay, u_high, 0), origin);
  if (sw_solid_prism (&solid, origin, across, (SwPoint3){ 0, 0, 1 }, section, n, push, NULL))
    add_body (to->bodies, solid, owner, kind, to->index, part, 0);
}

/* Stretches of a strip of the bay that are neither outside nor in an opening. */
static GArray *
strip_spans (const BaySolids *to, const SwJob *job, double low, double high)
{
  const SwDeckBay *bay = to->bay;
  GArray *spans = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  SwPoint origin = sw_deck_from_bay (bay, (SwPoint){ 0, CLAMP ((low + high) / 2, 0.05, MAX (bay->breadth - 0.05, 0.05)) });
  SwPoint along = { bay->cosine, bay->sine };
  sw_outline_cut (bay->bay->outline.items, bay->bay->outline.n, origin, along, spans);
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_OPENING); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwList *outline = &((const SwOpening *) record)->outline;
      g_autoptr (GArray) cut = g_array_new (FALSE, FALSE, sizeof (SwInterval));
      sw_outline_cut (outline->items, outline->n, origin, along, cut);
      for (guint k = 0; k < cut->len; k++)
        sw_intervals_subtract (spans, g_array_index (cut, SwInterval, k).low, g_array_index (cut, SwInterval, k).high);
    }
  return spans;
}

static double
rib_depth (const SwDeckBay *bay, guint rib)
{
  double depth = bay->voids->len == 0 ? bay->profile->depth : 0;
  if (rib > 0 && rib - 1 < bay->voids->len)
    depth = g_array_index (bay->voids, SwVoid, rib - 1).depth;
  if (rib < bay->voids->len)
    depth = fmax (depth, g_array_index (bay->voids, SwVoid, rib).depth);
  return depth;
}

static void
add_ribs (const BaySolids *to, const SwJob *job)
{
  const SwDeckBay *bay = to->bay;
  double lean = (bay->profile->mouth - bay->profile->crown) / 2;
  for (guint i = 0; i < bay->ribs->len; i++)
    {
      const SwRib *rib = &g_array_index (bay->ribs, SwRib, i);
      double depth = rib_depth (bay, i);
      double left = i > 0 ? lean : 0, right = i + 1 < bay->ribs->len ? lean : 0; /* the bay's edges are upright */
      SwPoint section[] = { { rib->low, 0 }, { rib->high, 0 }, { rib->high + right, depth }, { rib->low - left, depth } };
      if (rib->high - rib->low < SW_TOUCH_MM)
        continue;
      g_autoptr (GArray) spans = strip_spans (to, job, rib->low, rib->high);
      for (guint k = 0; k < spans->len; k++)
        {
          SwInterval span = g_array_index (spans, SwInterval, k);
          add_along (to, section, 4, span.low, span.high, bay->bay->record.id, SW_BODY_RIB, (int) i);
        }
    }
}

static SwId
solid_zone_at (const SwJob *job, SwPoint p)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_SOLID); (record = sw_job_iter_next (&i)) != NULL;)
    if (sw_outline_holds (((const SwSolidZone *) record)->outline.items, ((const SwSolidZone *) record)->outline.n, p))
      return record->id;
  return 0;
}

/* Concrete that fills a void between u_low and u_high: a solid zone's where one is drawn, else the bay's own end. */
static void
add_filling (const BaySolids *to, const SwJob *job, const SwPoint *section, double u_low, double u_high, double v, int part)
{
  SwId zone = solid_zone_at (job, sw_deck_from_bay (to->bay, (SwPoint){ (u_low + u_high) / 2, v }));
  add_along (to, section, 4, u_low, u_high, zone ? zone : to->bay->bay->record.id, zone ? SW_BODY_SOLID : SW_BODY_CLOSURE, part);
}

static void
add_void (const BaySolids *to, const SwJob *job, guint i)
{
  const SwDeckBay *bay = to->bay;
  const SwVoid *v = &g_array_index (bay->voids, SwVoid, i);
  double lean = (bay->profile->mouth - bay->profile->crown) / 2, topping = fmax (bay->profile->topping, 1);
  SwPoint trough[] = { { v->low, 0 }, { v->high, 0 }, { v->high - lean, v->depth }, { v->low + lean, v->depth } };
  double left = g_array_index (bay->ribs, SwRib, i).v, right = g_array_index (bay->ribs, SwRib, i + 1).v;
  SwPoint slab[] = { { left, v->depth }, { right, v->depth }, { right, v->depth + topping }, { left, v->depth + topping } };
  for (guint k = 0; k < v->n_reaches; k++)
    {
      const SwReach *reach = &g_array_index (bay->reaches, SwReach, v->first_reach + k);
      add_along (to, slab, 4, reach->solid_low, reach->solid_high, bay->bay->record.id, SW_BODY_CROWN, (int) i);
      add_filling (to, job, trough, reach->solid_low, reach->low, v->v, (int) i);
      add_filling (to, job, trough, reach->high, reach->solid_high, v->v, (int) i);
    }
}

static void
add_plates (const BaySolids *to)
{
  const SwDeckBay *bay = to->bay;
  double lean = (bay->profile->mouth - bay->profile->crown) / 2;
  for (guint i = 0; i < bay->plates->len; i++)
    {
      const SwDeckPlate *plate = &g_array_index (bay->plates, SwDeckPlate, i);
      const SwVoid *v = &g_array_index (bay->voids, SwVoid, plate->void_index);
      SwPoint trough[] = { { v->low, 0 }, { v->high, 0 }, { v->high - lean, v->depth }, { v->low + lean, v->depth } };
      if (!plate->out)
        add_along (to, trough, 4, plate->u - PLATE_MM / 2, plate->u + PLATE_MM / 2, bay->bay->record.id, SW_BODY_PLATE, (int) i);
    }
}

static void
bay_bodies (const SwDeck *deck, const SwRecord *record, GArray *bodies)
{
  for (guint i = 0; i < sw_deck_n_bays (deck); i++)
    {
      BaySolids to = { sw_deck_bay (deck, i), i, bodies };
      if (to.bay->bay->record.id != record->id)
        continue;
      add_ribs (&to, sw_deck_job (deck));
      for (guint k = 0; k < to.bay->voids->len; k++)
        add_void (&to, sw_deck_job (deck), k);
      add_plates (&to);
    }
}

static int
by_place (gconstpointer a, gconstpointer b)
{
  const SwPoint *p = a, *q = b;
  return p->x < q->x ? -1 : p->x > q->x ? 1 : (p->y > q->y) - (p->y < q->y);
}

/* Convex hull by the monotone chain; `hull` has room for n + 1. Returns its size. */
static guint
hull_of (const SwPoint *points, guint n, SwPoint *hull)
{
  g_autofree SwPoint *sorted = g_memdup2 (points, n * sizeof *points);
  guint size = 0;
  qsort (sorted, n, sizeof *sorted, by_place);
  for (int pass = 0; pass < 2; pass++)
    {
      guint start = size;
      for (guint i = 0; i < n; i++)
        {
          SwPoint p = sorted[pass == 0 ? i : n - 1 - i];
          while (size >= start + 2 && sw_point_cross (sw_point_sub (hull[size - 1], hull[size - 2]), sw_point_sub (p, hull[size - 2])) <= 1e-6)
            size--;
          hull[size++] = p;
        }
      size--; /* the last point starts the other half */
    }
  return size;
}

/* A slab over an outline's hull. Hulls with more corners than a solid takes lose every other one that matters least. */
static void
add_slab (GArray *bodies, const SwPoint *points, guint n, SwInterval z, SwId owner, SwBodyKind kind, int part)
{
  g_autofree SwPoint *hull = g_new (SwPoint, 2 * n + 2);
  SwSolid solid;
  guint size = n >= 3 ? hull_of (points, n, hull) : 0;
  if (size > SW_SOLID_POINTS_MAX)
    {
      SwBox box = sw_outline_box (hull, size);
      hull[0] = box.low;
      hull[1] = (SwPoint){ box.high.x, box.low.y };
      hull[2] = box.high;
      hull[3] = (SwPoint){ box.low.x, box.high.y };
      size = 4;
    }
  if (size >= 3 && sw_solid_slab (&solid, hull, size, z.low, z.high, NULL))
    add_body (bodies, solid, owner, kind, G_MAXUINT, part, 0);
}

/* An upright band of a width about a line in plan. */
static SwSolid
band_solid (SwPoint from, SwPoint to, double width, double z_low, double z_high)
{
  SwPoint along = sw_point_sub (to, from);
  double length = fmax (sw_point_length (along), SW_TOUCH_MM);
  SwPoint across = { -along.y / length * width, along.x / length * width };
  return sw_solid_box ((SwPoint3){ from.x - across.x / 2, from.y - across.y / 2, z_low }, (SwPoint3){ along.x, along.y, 0 },
                       (SwPoint3){ across.x, across.y, 0 }, (SwPoint3){ 0, 0, z_high - z_low });
}

static void
column_bodies (const SwDeck *deck, const SwRecord *record, GArray *bodies)
{
  const SwColumn *column = (const SwColumn *) record;
  double top = sw_deck_soffit_at (deck, SW_LIST_AT (column->outline, SwPoint, 0));
  if (column->kind == SW_COLUMN_COLUMN) /* a shaft is open: services go into it */
    add_slab (bodies, column->outline.items, column->outline.n, (SwInterval){ sw_deck_z_from_floor (deck, 0), top }, record->id, SW_BODY_COLUMN, 0);
}

static void
beam_bodies (const SwDeck *deck, const SwRecord *record, GArray *bodies)
{
  const SwBeam *beam = (const SwBeam *) record;
  double soffit = sw_deck_soffit_at (deck, sw_point_lerp (beam->from, beam->to, 0.5));
  if (beam->drop > 0)
    add_body (bodies, band_solid (beam->from, beam->to, beam->width, soffit - beam->drop, soffit), record->id, SW_BODY_BEAM, G_MAXUINT, 0, 0);
}

static void
wall_bodies (const SwDeck *deck, const SwRecord *record, GArray *bodies)
{
  const SwWall *wall = (const SwWall *) record;
  SwPoint middle = sw_point_lerp (wall->from, wall->to, 0.5);
  const SwDeckBay *bay = sw_deck_bay_at (deck, middle);
  const SwRoom *room = sw_deck_room_beside (deck, middle, wall->thickness);
  double top = sw_deck_soffit_at (deck, middle);
  if (wall->head == SW_HEAD_CEILING && room != NULL)
    top = sw_deck_ceiling_face (deck, room);
  else if (wall->head >= SW_HEAD_CROWN && bay != NULL)
    top = sw_deck_crown (bay, middle);
  add_body (bodies, band_solid (wall->from, wall->to, wall->thickness, sw_deck_z_from_floor (deck, 0), top), record->id, SW_BODY_WALL, G_MAXUINT, 0, 0);
}

static void
board_bodies (const SwDeck *deck, const SwLayout *layout, GArray *bodies)
{
  const SwRoom *room = (const SwRoom *) sw_job_get (sw_deck_job (deck), layout->room);
  if (room == NULL)
    return;
  double face = sw_deck_ceiling_face (deck, room), back = sw_deck_ceiling_back (deck, room);
  g_autoptr (GArray) ring = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  for (guint i = 0; i < layout->corners.n; i++)
    {
      const SwCorner *corner = &SW_LIST_AT (layout->corners, SwCorner, i);
      g_array_append_val (ring, corner->at);
      if (i + 1 == layout->corners.n || SW_LIST_AT (layout->corners, SwCorner, i + 1).piece != corner->piece)
        {
          const SwPoint *points = (const SwPoint *) ring->data;
          double drop = ring->len > 2 ? sw_deck_ceiling_drop (deck, room, sw_outline_label_point (points, ring->len)) : 0;
          add_slab (bodies, points, ring->len, (SwInterval){ face - drop, back - drop }, layout->record.id, SW_BODY_BOARD, corner->piece);
          g_array_set_size (ring, 0);
        }
    }
  for (guint i = 0; i < layout->faces.n; i++)
    {
      const SwFacePiece *piece = &SW_LIST_AT (layout->faces, SwFacePiece, i);
      double height = fmax (fmin (piece->length, piece->width), 1), thickness = fmax (room->board_thickness, 1);
      if (sw_point_distance (piece->from, piece->to) > SW_TOUCH_MM)
        add_body (bodies, band_solid (piece->from, piece->to, thickness, piece->top - height, piece->top), layout->record.id, SW_BODY_BOARD, G_MAXUINT,
                  piece->piece, 0);
    }
}

static void
layout_bodies (const SwDeck *deck, const SwRecord *record, GArray *bodies)
{
  const SwLayout *layout = (const SwLayout *) record;
  for (guint i = 0; i < layout->members.n; i++)
    {
      const SwMember *member = &SW_LIST_AT (layout->members, SwMember, i);
      if (sw_point_distance (member->from, member->to) > SW_TOUCH_MM)
        add_body (bodies, band_solid (member->from, member->to, member->width, member->top - member->depth, member->top), record->id, SW_BODY_MEMBER,
                  G_MAXUINT, (int) i, 0);
    }
  board_bodies (deck, layout, bodies);
}

/* Pipe fittings as wide as high are round and lie along the pipe; without a width a body is round and upright; else a box. */
static SwSolid
fitting_solid (const SwFitting *fitting, double middle)
{
  static const guint32 round_kinds = 1u << SW_FITTING_TEE | 1u << SW_FITTING_SOCKET | 1u << SW_FITTING_EYE;
  double turn = fitting->turn * G_PI / 180, half = fitting->height / 2;
  SwPoint reach = sw_point_turn ((SwPoint){ fitting->length / 2, 0 }, cos (turn), sin (turn));
  SwPoint from = sw_point_sub (fitting->at, reach), to = sw_point_add (fitting->at, reach);
  if (fitting->width <= 0)
    return sw_solid_cylinder ((SwPoint3){ fitting->at.x, fitting->at.y, middle - half }, (SwPoint3){ fitting->at.x, fitting->at.y, middle + half },
                              fitting->length / 2);
  if (round_kinds >> fitting->kind & 1 && fitting->width == fitting->height)
    return sw_solid_cylinder ((SwPoint3){ from.x, from.y, middle }, (SwPoint3){ to.x, to.y, middle }, half);
  return band_solid (from, to, fitting->width, middle - half, middle + half);
}

static void
fitting_bodies (const SwDeck *deck, const SwRecord *record, GArray *bodies)
{
  const SwFitting *fitting = (const SwFitting *) record;
  double middle = sw_route_level_z (deck, fitting->at, fitting->height, (SwLevel) fitting->level, fitting->z);
  add_body (bodies, fitting_solid (fitting, middle), record->id, SW_BODY_FITTING, G_MAXUINT, 0, 0);
}

static void
light_bodies (const SwDeck *deck, const SwRules *rules, const SwRecord *record, GArray *bodies)
{
  const SwLight *light = (const SwLight *) record;
  const SwRoom *room = sw_deck_room_at (deck, light->at);
  double face = room != NULL ? sw_deck_ceiling_face (deck, room) - sw_deck_ceiling_drop (deck, room, light->at) : sw_deck_soffit_at (deck, light->at);
  double side = light->side_clearance > 0 ? light->side_clearance : sw_rules_value (rules, "light.clearances", "side_mm").value;
  double top = light->top_clearance > 0 ? light->top_clearance : sw_rules_value (rules, "light.clearances", "top_mm").value;
  SwPoint3 foot = { light->at.x, light->at.y, face }, head = { light->at.x, light->at.y, face + light->recess };
  add_body (bodies, sw_solid_cylinder (foot, head, light->body / 2), record->id, SW_BODY_LIGHT, G_MAXUINT, 0, 0);
  head.z += top;
  add_body (bodies, sw_solid_cylinder (foot, head, light->body / 2 + side), record->id, SW_BODY_HEAT, G_MAXUINT, 0, 0);
}

/* The straight part of a leg, and the bend at its end. */
typedef struct
{
  SwPoint3 from, to;
  SwArc arc;
  gboolean bent;
} Leg;

/* Bends take half of the leg that they share. A corner whose legs are too short for its radius stays sharp, which is on the
 * safe side. */
static Leg
next_leg (const SwRoute *route, guint i, SwPoint3 from)
{
  Leg leg = { .from = from, .to = route->axis[i + 1] };
  leg.bent = sw_route_bend (route, i + 1, from, &leg.arc);
  if (leg.bent)
    leg.to = sw_arc_point (&leg.arc, 0);
  return leg;
}

static void
add_run_body (const SwRoute *route, SwSolid solid, SwBodyKind kind, guint leg, GArray *bodies)
{
  add_body (bodies, solid, route->run->record.id, kind, G_MAXUINT, (int) leg, route->clearance);
}

static GArray *
add_tubes (const SwRoute *route, GArray *bodies)
{
  GArray *legs = g_array_new (FALSE, FALSE, sizeof (Leg));
  SwPoint3 from = route->axis[0];
  g_autoptr (GArray) bend = g_array_new (FALSE, FALSE, sizeof (SwSolid));
  for (guint i = 0; i + 1 < route->n; i++)
    {
      Leg leg = next_leg (route, i, from);
      g_array_append_val (legs, leg);
      add_run_body (route, sw_solid_tube (leg.from, leg.to, route->outer), SW_BODY_TUBE, i, bodies);
      g_array_set_size (bend, 0);
      if (leg.bent)
        sw_arc_tubes (&leg.arc, route->outer, bend);
      for (guint k = 0; k < bend->len; k++)
        add_run_body (route, g_array_index (bend, SwSolid, k), SW_BODY_TUBE, i, bodies);
      from = leg.bent ? sw_arc_point (&leg.arc, leg.arc.angle) : leg.to;
    }
  return legs;
}

static void
add_socket (const SwRoute *route, const Leg *leg, double start, double length, guint i, GArray *bodies)
{
  double whole = sw_point3_distance (leg->from, leg->to);
  if (!(whole > SW_TOUCH_MM))
    return;
  SwPoint3 a = sw_point3_lerp (leg->from, leg->to, CLAMP (start / whole, 0, 1));
  SwPoint3 b = sw_point3_lerp (leg->from, leg->to, CLAMP ((start + length) / whole, 0, 1));
  if (sw_point3_distance (a, b) > SW_TOUCH_MM)
    add_run_body (route, sw_solid_cylinder (a, b, route->socket + route->run->insulation), SW_BODY_SOCKET, i, bodies);
}

/* Sockets stand at both sides of every bend, corner and end, and every stock length. */
static void
add_sockets (const SwRoute *route, const GArray *legs, GArray *bodies)
{
  if (route->socket <= route->radius)
    return;
  double length = route->socket_length;
  for (guint i = 0; i < legs->len; i++)
    {
      const Leg *leg = &g_array_index (legs, Leg, i);
      double whole = sw_point3_distance (leg->from, leg->to);
      add_socket (route, leg, 0, length, i, bodies);
      for (double at = route->stock_length; route->stock_length > 0 && at < whole - length; at += route->stock_length)
        add_socket (route, leg, at - length / 2, length, i, bodies);
      add_socket (route, leg, whole - length, length, i, bodies);
    }
}

static void
bodies_of_record (const SwDeck *deck, const SwRules *rules, const SwRecord *record, const SwRoute *route, GArray *bodies)
{
  switch (sw_record_table (record))
    {
    case SW_TABLE_BAY:
      bay_bodies (deck, record, bodies);
      break;
    case SW_TABLE_COLUMN:
      column_bodies (deck, record, bodies);
      break;
    case SW_TABLE_BEAM:
      beam_bodies (deck, record, bodies);
      break;
    case SW_TABLE_WALL:
      wall_bodies (deck, record, bodies);
      break;
    case SW_TABLE_LAYOUT:
      layout_bodies (deck, record, bodies);
      break;
    case SW_TABLE_FITTING:
      fitting_bodies (deck, record, bodies);
      break;
    case SW_TABLE_LIGHT:
      light_bodies (deck, rules, record, bodies);
      break;
    case SW_TABLE_RUN:
      if (route != NULL)
        {
          g_autoptr (GArray) legs = add_tubes (route, bodies);
          add_sockets (route, legs, bodies);
        }
      break;
    default:
      break;
    }
}

void
sw_bodies_of_record (const SwDeck *deck, const SwRules *rules, const SwRecord *record, const SwRoute *route, GArray *bodies)
{
  guint first = bodies->len;
  bodies_of_record (deck, rules, record, route, bodies);
  for (guint i = first; i < bodies->len; i++)
    g_array_index (bodies, SwBody, i).record = record;
}

gboolean
sw_space_hangs_on (SwTable table)
{
  return table <= SW_TABLE_BAY || table == SW_TABLE_PLATE || table == SW_TABLE_OPENING || table == SW_TABLE_SOLID || table == SW_TABLE_ROOM
         || table == SW_TABLE_MEASURE || table == SW_TABLE_BULKHEAD;
}
