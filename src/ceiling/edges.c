/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/lay.h"
#include "base/tolerance.h"

/* What a ceiling needs along its edges. Each straight side of the part is looked at in a frame of its own: x from the wall
 * inwards, y along the wall. Sides that run with the battens (within 15°) get a batten for the cornice, unless a batten of
 * the grid already stands there; where battens end at a side and would stand over too far, the wall carries a ledger; the
 * other sides get noggins between the battens. Sides that are seams to another part are edges of the boards too, but no
 * wall; boards at a movement joint across the battens are screwed to noggins at both of its sides in any case. Sides times what already stands there. */

#define WITH_BATTENS 0.2588190451 /* sine of 15° */
#define SAME_TURN 1e-6

typedef struct
{
  SwFrame frame;  /* from the layer's local frame */
  double length;
  gboolean seam;
  gboolean lower; /* beyond it hangs a bulkhead */
  gboolean field; /* beyond it the same battens go on: a movement joint */
  double slant;   /* sine of the angle to the battens */
  SwPoint from, to;
} Edge;

typedef void (*EdgeCall) (SwLayer *layer, const Edge *edge, gpointer data);

/* The part of the room that lies just outside this side, NULL for none. */
static const SwCeilingPart *
part_beyond (const SwLayer *layer, SwPoint outside)
{
  SwPoint world = sw_frame_from (&layer->frame, outside);
  const GArray *parts = layer->lay->ceiling->parts;
  for (guint i = 0; i < parts->len; i++)
    {
      const SwCeilingPart *part = &g_array_index (parts, SwCeilingPart, i);
      if (i != layer->part && sw_rings_holds (part->area, sw_frame_to (&part->frame, world)))
        return part;
    }
  return NULL;
}

static Edge
edge_of (const SwLayer *layer, SwPoint a, SwPoint b)
{
  Edge edge = { .length = sw_point_distance (a, b), .from = a, .to = b };
  SwPoint along = sw_point_scale (sw_point_sub (b, a), 1 / edge.length);
  SwPoint left = { -along.y, along.x }, middle = sw_point_lerp (a, b, 0.5);
  gboolean inside_left = sw_rings_holds (layer->clear, sw_point_add (middle, sw_point_scale (left, 1)));
  SwPoint inward = inside_left ? left : sw_point_scale (left, -1);
  /* y runs a quarter turn left of x. */
  edge.frame = (SwFrame){ inside_left ? b : a, inward.x, inward.y };
  edge.slant = fabs (along.x);
  const SwCeilingPart *beyond = part_beyond (layer, sw_point_sub (middle, sw_point_scale (inward, SW_BESIDE_MM)));
  edge.seam = beyond != NULL;
  const SwCeilingPart *own = &g_array_index (layer->lay->ceiling->parts, SwCeilingPart, layer->part);
  edge.lower = beyond != NULL && beyond->drop > own->drop;
  edge.field = beyond != NULL && beyond->drop == own->drop && fabs (beyond->frame.sine - own->frame.sine) < SAME_TURN
               && fabs (beyond->frame.cosine - own->frame.cosine) < SAME_TURN;
  return edge;
}

static void
each_edge (SwLayer *layer, EdgeCall call, gpointer data)
{
  for (guint i = 0; i < sw_rings_n (layer->clear); i++)
    {
      guint n;
      const SwPoint *points = sw_rings_get (layer->clear, i, &n);
      for (guint k = 0; k < n; k++)
        {
          SwPoint a = points[k], b = points[k + 1 < n ? k + 1 : 0];
          if (sw_point_distance (a, b) < layer->width)
            continue;
          Edge edge = edge_of (layer, a, b);
          call (layer, &edge, data);
        }
    }
}

/* Free stretches of a strip along the edge and on by `beyond` at both ends, x from `low` to `low` + width. */
static GArray *
free_about (const SwLayer *layer, const Edge *edge, double low, double width, double beyond)
{
  GArray *intervals = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  g_autoptr (SwRings) turned = sw_rings_to (layer->clear, &edge->frame);
  g_autoptr (GArray) inside = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  SwInterval whole = { -beyond, edge->length + beyond };
  g_array_append_val (intervals, whole);
  sw_rings_band (turned, low, low + width, inside);
  sw_intervals_intersect (intervals, inside);
  for (guint i = 0; i < layer->quads->len; i++)
    {
      SwQuad quad = g_array_index (layer->quads, SwQuad, i);
      for (int k = 0; k < 4; k++)
        quad.corner[k] = sw_frame_to (&edge->frame, quad.corner[k]);
      sw_intervals_keep_off (intervals, quad.corner, 4, low, low + width);
    }
  return intervals;
}

static GArray *
free_along (const SwLayer *layer, const Edge *edge, double low, double width)
{
  return free_about (layer, edge, low, width, 0);
}

static void
add_along (SwLayer *layer, const Edge *edge, int kind, double x, GArray *intervals, double shortest)
{
  for (guint i = 0; i < intervals->len; i++)
    {
      SwInterval part = g_array_index (intervals, SwInterval, i);
      if (part.high - part.low >= shortest)
        sw_layer_add (layer, kind, sw_frame_from (&edge->frame, (SwPoint){ x, part.low }),
                      sw_frame_from (&edge->frame, (SwPoint){ x, part.high }), layer->width);
    }
}

/* ---- ledgers ---- */

/* How far the member's ends stand over where they are held (the whole of it, when it is not). */
static void
overhangs (const SwLayer *layer, SwPoint from, SwPoint to, double *low, double *high)
{
  g_autoptr (GArray) holds = sw_layer_holds (layer, from, to);
  double length = sw_point_distance (from, to);
  *low = *high = length;
  for (guint i = 0; i < holds->len; i++)
    {
      *low = fmin (*low, g_array_index (holds, double, i));
      *high = fmin (*high, length - g_array_index (holds, double, i));
    }
}

static gboolean
ends_at (const SwLayer *layer, const Edge *edge, SwPoint end)
{
  SwPoint p = sw_frame_to (&edge->frame, end);
  double reach = layer->width / 2 + SW_TOUCH_MM; /* a slanting wall stops one corner of a square end */
  return p.x < reach + layer->width && p.y > -reach && p.y < edge->length + reach;
}

/* Whether a member along the stretch at x would end at this edge and stand over too far there. */
static gboolean
stands_over (const SwLayer *layer, const Edge *edge, double x, SwInterval stretch)
{
  SwPoint from = { x, stretch.low }, to = { x, stretch.high };
  gboolean low_here = ends_at (layer, edge, from), high_here = ends_at (layer, edge, to);
  double low, high;
  if (!low_here && !high_here)
    return FALSE;
  overhangs (layer, from, to, &low, &high);
  return (low_here && low > layer->lay->cantilever + SW_LAY_SLACK_MM) || (high_here && high > layer->lay->cantilever + SW_LAY_SLACK_MM);
}

typedef struct
{
  double x;
  SwInterval stretch;
} Strip;

/* Where the members of the lines would lie without ledgers. */
static void
list_lines (const SwLayer *layer, GArray *strips)
{
  for (guint i = 0; i < layer->lines->len; i++)
    {
      double at = g_array_index (layer->lines, double, i);
      g_autoptr (GArray) battens = g_array_new (FALSE, FALSE, sizeof (SwInterval));
      sw_layer_free_at (layer, at, layer->width, battens);
      for (guint k = 0; k < battens->len; k++)
        {
          Strip strip = { at, g_array_index (battens, SwInterval, k) };
          g_array_append_val (strips, strip);
        }
    }
}

/* And those along walls and seams that run with them. */
static void
list_wall (SwLayer *layer, const Edge *edge, gpointer data)
{
  double face = edge->seam ? 0 : layer->lay->wall_face, x = face + layer->width / 2;
  if (edge->slant * edge->length > SW_TOUCH_MM)
    return;
  g_autoptr (GArray) intervals = free_along (layer, edge, face, layer->width);
  for (guint i = 0; i < intervals->len; i++)
    {
      SwInterval part = g_array_index (intervals, SwInterval, i);
      SwPoint a = sw_frame_from (&edge->frame, (SwPoint){ x, part.low });
      SwPoint b = sw_frame_from (&edge->frame, (SwPoint){ x, part.high });
      Strip strip = { a.x, { fmin (a.y, b.y), fmax (a.y, b.y) } };
      g_array_append_val ((GArray *) data, strip);
    }
}

typedef struct
{
  GArray *strips, *edges; /* Strip; Edge: that need a ledger */
} Ledgers;

static void
find_ledger (SwLayer *layer, const Edge *edge, gpointer data)
{
  Ledgers *ledgers = data;
  if (edge->slant <= WITH_BATTENS || edge->seam)
    return;
  for (guint i = 0; i < ledgers->strips->len; i++)
    {
      Strip strip = g_array_index (ledgers->strips, Strip, i);
      if (stands_over (layer, edge, strip.x, strip.stretch))
        {
          g_array_append_val (ledgers->edges, *edge);
          return;
        }
    }
}

/* Takes what lies over the steps; it stands the boards' thickness behind the face. */
static void
add_face_plate (SwLayer *layer, const Edge *edge, gpointer data)
{
  SwPoint from = sw_frame_from (&layer->frame, sw_frame_from (&edge->frame, (SwPoint){ 0, 0 }));
  SwPoint to = sw_frame_from (&layer->frame, sw_frame_from (&edge->frame, (SwPoint){ 0, edge->length }));
  g_autoptr (GArray) steps = sw_lay_steps (layer->lay->ceiling, layer->part, from, to, 0);
  double back = layer->lay->ceiling->room->board_thickness;
  if (steps->len == 0)
    return;
  g_autoptr (GArray) intervals = free_along (layer, edge, back, layer->width);
  GArray *members = layer->lay->ceiling->members;
  guint before = members->len;
  sw_intervals_intersect (intervals, steps);
  add_along (layer, edge, SW_MEMBER_PERIMETER, back + layer->width / 2, intervals, layer->width);
  for (guint k = before; k < members->len; k++)
    g_array_index (members, SwCeilingMember, k).on_wall = TRUE;
}

void
sw_layer_face_plates (SwLayer *layer)
{
  if (g_array_index (layer->lay->ceiling->parts, SwCeilingPart, layer->part).bulkhead != 0)
    each_edge (layer, add_face_plate, NULL);
}

/* Ledgers on the wall over the wanted stretches of it. */
static void
add_ledgers (SwLayer *layer, const Edge *edge, int kind, const GArray *wanted)
{
  GArray *members = layer->lay->ceiling->members;
  g_autoptr (GArray) intervals = free_along (layer, edge, 0, layer->width);
  guint before = members->len;
  sw_intervals_intersect (intervals, wanted);
  add_along (layer, edge, kind, layer->width / 2, intervals, layer->width);
  for (guint k = before; k < members->len; k++)
    g_array_index (members, SwCeilingMember, k).on_wall = TRUE;
}

void
sw_layer_ledgers (SwLayer *layer)
{
  g_autoptr (GArray) edges = g_array_new (FALSE, FALSE, sizeof (Edge));
  g_autoptr (GArray) strips = g_array_new (FALSE, FALSE, sizeof (Strip));
  Ledgers ledgers = { strips, edges };
  list_lines (layer, strips);
  each_edge (layer, list_wall, strips);
  each_edge (layer, find_ledger, &ledgers);
  for (guint i = 0; i < edges->len; i++)
    {
      const Edge *edge = &g_array_index (edges, Edge, i);
      g_autoptr (GArray) all = g_array_new (FALSE, FALSE, sizeof (SwInterval));
      SwInterval whole = { 0, edge->length };
      g_array_append_val (all, whole);
      add_ledgers (layer, edge, SW_MEMBER_PERIMETER, all);
    }
}

typedef struct
{
  SwPoint p;
  double far;
  GArray *places;
} Near;

static void
add_near (SwLayer *layer, const Edge *edge, gpointer data)
{
  Near *near = data;
  SwPoint p = sw_frame_to (&edge->frame, near->p);
  if (edge->seam || p.x < 0 || p.x > near->far || p.y < -near->far || p.y > edge->length + near->far)
    return;
  g_autoptr (GArray) intervals = free_along (layer, edge, 0, layer->width);
  for (guint i = 0; i < intervals->len; i++)
    {
      SwInterval part = g_array_index (intervals, SwInterval, i);
      double at = fmin (fmax (p.y, part.low), part.high);
      SwLedgerPlace place = { sw_frame_from (&edge->frame, (SwPoint){ layer->width / 2, part.low }),
                              sw_frame_from (&edge->frame, (SwPoint){ layer->width / 2, part.high }), at - part.low, hypot (p.x, p.y - at) };
      if (part.high - part.low >= layer->width && place.away <= near->far)
        g_array_append_val (near->places, place);
    }
}

static int
compare_places (gconstpointer pa, gconstpointer pb)
{
  const SwLedgerPlace *a = pa, *b = pb;
  if (a->away != b->away)
    return a->away < b->away ? -1 : 1;
  if (a->from.x != b->from.x)
    return a->from.x < b->from.x ? -1 : 1;
  return (a->from.y > b->from.y) - (a->from.y < b->from.y);
}

GArray *
sw_layer_ledgers_near (SwLayer *layer, SwPoint p, double far)
{
  GArray *places = g_array_new (FALSE, FALSE, sizeof (SwLedgerPlace));
  Near near = { p, far, places };
  each_edge (layer, add_near, &near);
  g_array_sort (places, compare_places);
  return places;
}

gboolean
sw_layer_seam_at (const SwLayer *layer, double x)
{
  for (guint i = 0; i < sw_rings_n (layer->clear); i++)
    {
      guint n;
      const SwPoint *points = sw_rings_get (layer->clear, i, &n);
      for (guint k = 0; k < n; k++)
        {
          SwPoint a = points[k], b = points[k + 1 < n ? k + 1 : 0];
          if (fabs (a.x - x) < SW_TOUCH_MM && fabs (b.x - x) < SW_TOUCH_MM && fabs (a.y - b.y) >= layer->width && edge_of (layer, a, b).seam)
            return TRUE;
        }
    }
  return FALSE;
}

gboolean
sw_layer_slants_at (const SwLayer *layer, SwPoint end)
{
  for (guint i = 0; i < sw_rings_n (layer->clear); i++)
    {
      guint n;
      const SwPoint *points = sw_rings_get (layer->clear, i, &n);
      for (guint k = 0; k < n; k++)
        {
          SwPoint a = points[k], b = points[k + 1 < n ? k + 1 : 0];
          double length = sw_point_distance (a, b);
          if (length < layer->width || fabs (b.x - a.x) > WITH_BATTENS * length || fabs (b.x - a.x) < SW_TOUCH_MM)
            continue;
          Edge edge = edge_of (layer, a, b);
          if (ends_at (layer, &edge, end))
            return TRUE;
        }
    }
  return FALSE;
}

/* ---- battens along walls ---- */

/* Takes the stretches where a batten of the grid stands nearly as close to the wall. */
static void
give_way (const SwLayer *layer, const Edge *edge, double x, GArray *intervals)
{
  if (edge->slant * edge->length > SW_TOUCH_MM)
    return;
  for (guint i = 0; i < layer->lines->len; i++)
    {
      double at = g_array_index (layer->lines, double, i);
      double line = fabs (at - edge->from.x);
      SwPoint inside = sw_frame_to (&edge->frame, (SwPoint){ at, edge->from.y });
      if (inside.x < 0 || fabs (line - x) >= layer->width)
        continue;
      g_autoptr (GArray) battens = g_array_new (FALSE, FALSE, sizeof (SwInterval));
      sw_layer_free_at (layer, at, layer->width, battens);
      for (guint k = 0; k < battens->len; k++)
        {
          SwInterval part = g_array_index (battens, SwInterval, k);
          double a = sw_frame_to (&edge->frame, (SwPoint){ at, part.low }).y;
          double b = sw_frame_to (&edge->frame, (SwPoint){ at, part.high }).y;
          sw_intervals_subtract (intervals, fmin (a, b), fmax (a, b));
        }
    }
}

/* A stretch beside a column or in a niche may meet no rib: it goes on until it does. */
static void
reach_out (const SwLayer *layer, const Edge *edge, double x, GArray *intervals)
{
  for (guint i = 0; i < intervals->len; i++)
    {
      SwInterval *part = &g_array_index (intervals, SwInterval, i);
      SwPoint a = sw_frame_from (&edge->frame, (SwPoint){ x, part->low });
      SwPoint b = sw_frame_from (&edge->frame, (SwPoint){ x, part->high });
      SwInterval stretch = { fmin (a.y, b.y), fmax (a.y, b.y) };
      if (part->high - part->low < 2 * layer->width || !sw_layer_reach_holds (layer, a.x, &stretch))
        continue;
      sw_layer_reach_over (layer, a.x, &stretch);
      double low = sw_frame_to (&edge->frame, (SwPoint){ a.x, stretch.low }).y;
      double high = sw_frame_to (&edge->frame, (SwPoint){ a.x, stretch.high }).y;
      part->low = fmin (low, high);
      part->high = fmax (low, high);
    }
}

/* Whether ribs or other members hold a batten along the edge so that neither end stands over by more than it may. */
static gboolean
is_well_held (const SwLayer *layer, const Edge *edge, int kind, double x, SwInterval part)
{
  double over[2], reach = layer->lay->cantilever + SW_LAY_SLACK_MM;
  SwPoint ends[] = { sw_frame_from (&edge->frame, (SwPoint){ x, part.low }), sw_frame_from (&edge->frame, (SwPoint){ x, part.high }) };
  SwPoint way = sw_point_scale (sw_point_sub (ends[1], ends[0]), 1 / (part.high - part.low));
  overhangs (layer, ends[0], ends[1], &over[0], &over[1]);
  for (int k = 0; k < 2; k++)
    if (over[k] > reach && !sw_layer_carries_end (layer, kind, ends[k], way))
      return FALSE;
  return TRUE;
}

/* What ribs would not hold is taken out and put among `loose`: the wall holds it. */
static void
part_loose (const SwLayer *layer, const Edge *edge, int kind, double x, GArray *intervals, GArray *loose)
{
  for (guint i = intervals->len; i-- > 0;)
    {
      SwInterval part = g_array_index (intervals, SwInterval, i);
      if (part.high - part.low < 2 * layer->width || is_well_held (layer, edge, kind, x, part))
        continue;
      g_array_append_val (loose, part);
      g_array_remove_index (intervals, i);
    }
}

static void
add_wall_batten (SwLayer *layer, const Edge *edge, gpointer data)
{
  if (edge->slant > WITH_BATTENS)
    return;
  double face = edge->seam ? 0 : layer->lay->wall_face;
  g_autoptr (GArray) intervals = free_along (layer, edge, face, layer->width);
  give_way (layer, edge, face + layer->width / 2, intervals);
  if (edge->slant * edge->length <= SW_TOUCH_MM)
    reach_out (layer, edge, face + layer->width / 2, intervals);
  int kind = layer->kind == SW_MEMBER_PRIMARY ? SW_MEMBER_PRIMARY : SW_MEMBER_PERIMETER;
  g_autoptr (GArray) loose = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  if (!edge->seam)
    part_loose (layer, edge, kind, face + layer->width / 2, intervals, loose);
  add_ledgers (layer, edge, kind, loose);
  add_along (layer, edge, kind, face + layer->width / 2, intervals, 2 * layer->width);
}

void
sw_layer_walls (SwLayer *layer)
{
  each_edge (layer, add_wall_batten, NULL);
}

/* ---- noggins ---- */

static gboolean
is_nailed (const SwLayer *layer, const Edge *edge, double x, double y)
{
  SwPoint way = sw_point_sub (sw_frame_from (&edge->frame, (SwPoint){ 0, 1 }), edge->frame.origin);
  return sw_quads_meet_end (layer->quads, sw_frame_from (&edge->frame, (SwPoint){ x, y }), way, layer->width);
}

/* Beside a column or shaft a noggin as long as its face ends between battens: it goes on to the next of them. Where that finds none either
 * the stretch is taken out and put among `loose`. */
static void
reach_battens (const SwLayer *layer, const Edge *edge, double face, GArray *intervals, GArray *loose)
{
  double x = face + layer->width / 2, limit = g_array_index (layer->lay->ceiling->parts, SwCeilingPart, layer->part).limit;
  g_autoptr (GArray) about = free_about (layer, edge, face, layer->width, limit);
  for (guint i = intervals->len; i-- > 0;)
    {
      SwInterval *part = &g_array_index (intervals, SwInterval, i);
      for (guint k = 0; k < about->len; k++)
        {
          SwInterval wide = g_array_index (about, SwInterval, k);
          if (wide.low > part->low + SW_TOUCH_MM || wide.high < part->high - SW_TOUCH_MM)
            continue;
          if (!is_nailed (layer, edge, x, part->low) && is_nailed (layer, edge, x, wide.low))
            part->low = wide.low;
          if (!is_nailed (layer, edge, x, part->high) && is_nailed (layer, edge, x, wide.high))
            part->high = wide.high;
        }
      if (is_nailed (layer, edge, x, part->low) || is_nailed (layer, edge, x, part->high))
        continue;
      g_array_append_vals (loose, part, 1);
      g_array_remove_index (intervals, i);
    }
}

static void
add_wall_noggins (SwLayer *layer, const Edge *edge, gpointer data)
{
  if (edge->slant <= WITH_BATTENS || (!edge->lower && !edge->field && !*(const gboolean *) data))
    return;
  double face = edge->seam ? 0 : layer->lay->wall_face;
  g_autoptr (GArray) intervals = free_along (layer, edge, face, layer->width);
  /* A ledger on this wall does what a noggin would. */
  g_autoptr (GArray) bare = free_along (layer, edge, 0, layer->width);
  if (sw_intervals_sum (bare) < edge->length / 2)
    return;
  g_autoptr (GArray) loose = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  reach_battens (layer, edge, face, intervals, loose);
  add_along (layer, edge, SW_MEMBER_NOGGIN, face + layer->width / 2, intervals, 2 * layer->width);
  if (!edge->seam)
    add_ledgers (layer, edge, SW_MEMBER_PERIMETER, loose);
}

void
sw_layer_noggins (SwLayer *layer, gboolean at_walls)
{
  each_edge (layer, add_wall_noggins, &at_walls);
}
