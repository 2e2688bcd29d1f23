/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/held.h"
#include "base/tolerance.h"

/* Lines, wall battens and noggins leave places where board hangs on nothing: strips beside columns and shafts that are too narrow for battens
 * of their own, the wide end of what a slanting wall leaves, corners of pieces. Each such place (held.c) is tried with what is nailed in with
 * the least work first: a noggin across between two members, one along them, a short batten held by ribs, a ledger on the wall or the column
 * beside it. What does not hold the place is taken out again. One pass over the places, so it ends; it does not look for the fewest. */

#define STRIDE_MM 50.0 /* along a strip, to where it is held again */

typedef struct
{
  SwLayer *layer;
  GArray *quads;      /* SwQuad: members at the boards' backs */
  SwBoardHold part;   /* all of the part's area: between which members there is room */
  SwBoardHold boards; /* the piece that is looked at, or the part again */
  gboolean battens;   /* whether short battens may come: they need fixings */
} Catch;

/* ---- members ---- */

static void
collect_quads (const SwLayer *layer, GArray *quads)
{
  const GArray *members = layer->lay->ceiling->members;
  for (guint i = 0; i < members->len; i++)
    {
      const SwCeilingMember *member = &g_array_index (members, SwCeilingMember, i);
      if (member->part != layer->part || member->member.kind == SW_MEMBER_PRIMARY || member->member.top != layer->top)
        continue;
      SwQuad quad = sw_quad_around (sw_frame_to (&layer->frame, member->member.from), sw_frame_to (&layer->frame, member->member.to), member->member.width);
      g_array_append_val (quads, quad);
    }
}

/* Adds the member; takes it out again where it does not hold the place. */
static gboolean
add_holding (Catch *c, int kind, SwPoint from, SwPoint to, SwPoint p)
{
  GArray *members = c->layer->lay->ceiling->members;
  if (sw_point_distance (from, to) < c->layer->width)
    return FALSE;
  sw_layer_add (c->layer, kind, from, to, c->layer->width);
  SwQuad quad = g_array_index (c->layer->quads, SwQuad, c->layer->quads->len - 1);
  g_array_append_val (c->quads, quad);
  if (c->boards.quads != c->quads)
    g_array_append_val ((GArray *) c->boards.quads, quad);
  if (sw_board_is_held (&c->boards, p))
    return TRUE;
  g_array_set_size (members, members->len - 1);
  g_array_set_size (c->layer->quads, c->layer->quads->len - 1);
  g_array_set_size (c->quads, c->quads->len - 1);
  if (c->boards.quads != c->quads)
    g_array_set_size ((GArray *) c->boards.quads, c->boards.quads->len - 1);
  return FALSE;
}

/* ---- noggins ---- */

/* The free stretch of the line at `at` that takes a member and holds `place`; FALSE when there is none. */
static gboolean
free_stretch (const SwLayer *layer, SwAlong along, double at, double place, SwInterval *stretch)
{
  const SwFrame frame = along == SW_ALONG_X ? (SwFrame){ { 0, 0 }, 0, 1 } : (SwFrame){ { 0, 0 }, 1, 0 }; /* x of it is y, y is −x */
  double here = along == SW_ALONG_X ? -place : place, half = layer->width / 2 - SW_TOUCH_MM;
  g_autoptr (SwRings) turned = sw_rings_to (layer->clear, &frame);
  g_autoptr (GArray) room = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  sw_rings_band (turned, at - half, at + half, room);
  for (guint i = 0; i < layer->quads->len; i++)
    {
      SwQuad quad = g_array_index (layer->quads, SwQuad, i);
      for (int k = 0; k < 4; k++)
        quad.corner[k] = sw_frame_to (&frame, quad.corner[k]);
      sw_intervals_keep_off (room, quad.corner, 4, at - half, at + half);
    }
  for (guint i = 0; i < room->len; i++)
    {
      SwInterval part = g_array_index (room, SwInterval, i);
      if (part.low > here || here > part.high)
        continue;
      *stretch = along == SW_ALONG_X ? (SwInterval){ -part.high, -part.low } : part;
      return TRUE;
    }
  return FALSE;
}

/* Where across the stretch one more member does the most. */
static double
best_across (const Catch *c, SwInterval gap, gboolean low_held, gboolean high_held)
{
  double off = fmin (c->layer->lay->wall_face + c->layer->width / 2, (gap.high - gap.low) / 2);
  if (low_held == high_held)
    return (gap.low + gap.high) / 2;
  return low_held ? gap.high - off : gap.low + off;
}

/* `ladder`: where one is not enough, the first of several. */
static gboolean
add_noggin (Catch *c, SwAlong along, gboolean ladder, SwPoint p)
{
  gboolean low_held, high_held;
  gboolean x = along == SW_ALONG_X;
  SwInterval across = sw_board_gap (&c->part, x ? SW_ALONG_Y : SW_ALONG_X, p, &low_held, &high_held), stretch;
  double at = best_across (c, across, low_held, high_held), first = across.low + c->part.limit - c->layer->width / 2 - 1;
  double tries[] = { ladder && low_held ? first : at, x ? p.y : p.x };
  if ((across.high - across.low > 2 * c->part.limit) != ladder)
    return FALSE;
  if (ladder && !low_held)
    tries[0] = across.low + c->layer->lay->wall_face + c->layer->width / 2;
  for (gsize i = 0; i < G_N_ELEMENTS (tries); i++)
    {
      if (!free_stretch (c->layer, along, tries[i], x ? p.x : p.y, &stretch))
        continue;
      SwPoint from = x ? (SwPoint){ stretch.low, tries[i] } : (SwPoint){ tries[i], stretch.low };
      SwPoint to = x ? (SwPoint){ stretch.high, tries[i] } : (SwPoint){ tries[i], stretch.high };
      SwPoint way = x ? (SwPoint){ 1, 0 } : (SwPoint){ 0, 1 };
      if (stretch.high - stretch.low <= 2 * c->part.limit && sw_quads_meet_end (c->quads, from, way, c->layer->width) && sw_quads_meet_end (c->quads, to, way, c->layer->width) && add_holding (c, SW_MEMBER_NOGGIN, from, to, p))
        return TRUE;
    }
  return FALSE;
}

/* ---- battens ---- */

/* How far from p along the unit vector nothing holds the boards. */
static double
unheld_along (const Catch *c, SwPoint p, SwPoint way)
{
  double reach = 0;
  while (sw_rings_holds (c->boards.area, sw_point_add (p, sw_point_scale (way, reach + STRIDE_MM)))
         && !sw_board_is_held (&c->boards, sw_point_add (p, sw_point_scale (way, reach + STRIDE_MM))))
    reach += STRIDE_MM;
  return reach + STRIDE_MM;
}

/* Whether ribs (or primaries) hold the stretch, or what its ends butt against, so that neither stands over by more than it may. */
static gboolean
is_well_held (const Catch *c, double x, SwInterval stretch)
{
  const SwPoint from = { x, stretch.low }, to = { x, stretch.high }, way = { 0, 1 };
  g_autoptr (GArray) holds = sw_layer_holds (c->layer, from, to);
  double reach = c->layer->lay->cantilever + SW_LAY_SLACK_MM;
  gboolean low = sw_layer_carries_end (c->layer, c->layer->kind, from, way), high = sw_layer_carries_end (c->layer, c->layer->kind, to, way);
  if (holds->len == 0)
    return low && high;
  return (low || g_array_index (holds, double, 0) <= reach)
         && (high || stretch.high - stretch.low - g_array_index (holds, double, holds->len - 1) <= reach);
}

/* As long as nothing holds the boards beside it, and on to ribs; else as long as there is room. */
static gboolean
add_batten (Catch *c, SwPoint p)
{
  gboolean low_held, high_held;
  SwInterval across = sw_board_gap (&c->part, SW_ALONG_X, p, &low_held, &high_held), room;
  double tries[] = { best_across (c, across, low_held, high_held), p.x };
  for (gsize i = 0; c->battens && i < G_N_ELEMENTS (tries); i++)
    {
      double x = tries[i];
      if (!free_stretch (c->layer, SW_ALONG_Y, x, p.y, &room))
        continue;
      SwInterval stretch = { fmax (room.low, p.y - unheld_along (c, p, (SwPoint){ 0, -1 })), fmin (room.high, p.y + unheld_along (c, p, (SwPoint){ 0, 1 })) };
      sw_layer_reach_holds (c->layer, x, &stretch);
      SwInterval lengths[] = { stretch, { stretch.low, room.high }, { room.low, stretch.high }, room };
      for (gsize k = 0; k < G_N_ELEMENTS (lengths); k++)
        if (is_well_held (c, x, lengths[k])
            && add_holding (c, c->layer->kind, (SwPoint){ x, lengths[k].low }, (SwPoint){ x, lengths[k].high }, p))
          return TRUE;
    }
  return FALSE;
}

/* ---- ledgers ---- */

static gboolean
add_ledger (Catch *c, SwPoint p)
{
  GArray *members = c->layer->lay->ceiling->members;
  g_autoptr (GArray) ledgers = sw_layer_ledgers_near (c->layer, p, c->part.limit);
  for (guint i = 0; i < ledgers->len; i++)
    {
      SwLedgerPlace place = g_array_index (ledgers, SwLedgerPlace, i);
      double length = sw_point_distance (place.from, place.to), at = place.at;
      SwPoint way = sw_point_scale (sw_point_sub (place.to, place.from), 1 / length);
      double low = fmax (0, at - unheld_along (c, p, sw_point_scale (way, -1))), high = fmin (length, at + unheld_along (c, p, way));
      if (!add_holding (c, SW_MEMBER_PERIMETER, sw_point_add (place.from, sw_point_scale (way, low)), sw_point_add (place.from, sw_point_scale (way, high)), p))
        continue;
      g_array_index (members, SwCeilingMember, members->len - 1).on_wall = TRUE;
      return TRUE;
    }
  return FALSE;
}

static void
catch_places (Catch *c)
{
  g_autoptr (GArray) places = sw_board_unheld (&c->boards);
  for (guint i = 0; i < places->len; i++)
    {
      SwPoint p = g_array_index (places, SwPoint, i);
      if (!sw_board_is_held (&c->boards, p) && !add_noggin (c, SW_ALONG_X, FALSE, p) && !add_batten (c, p)
          && !add_noggin (c, SW_ALONG_X, TRUE, p) && !add_noggin (c, SW_ALONG_Y, FALSE, p))
        add_ledger (c, p);
    }
}

void
sw_layer_catch (SwLayer *layer)
{
  const SwCeilingPart *part = &g_array_index (layer->lay->ceiling->parts, SwCeilingPart, layer->part);
  g_autoptr (GArray) quads = g_array_new (FALSE, FALSE, sizeof (SwQuad));
  double over = sw_rules_value (layer->lay->ceiling->rules, "brandering.setout", "board_over_mm").value;
  Catch c = { .layer = layer, .quads = quads, .part = { part->area, quads, part->limit, layer->width, over }, .battens = TRUE };
  c.boards = c.part;
  collect_quads (layer, quads);
  catch_places (&c);
}

/* ---- pieces ---- */

/* Members that could hold something of the box. */
static GArray *
quads_near (const GArray *quads, SwBox box)
{
  GArray *near = g_array_new (FALSE, FALSE, sizeof (SwQuad));
  for (guint i = 0; i < quads->len; i++)
    {
      SwBox own = SW_BOX_EMPTY;
      for (int k = 0; k < 4; k++)
        own = sw_box_add (own, g_array_index (quads, SwQuad, i).corner[k]);
      if (sw_box_meets (own, box))
        g_array_append_vals (near, &g_array_index (quads, SwQuad, i), 1);
    }
  return near;
}

static void
mark_unheld (const Catch *c)
{
  g_autoptr (GArray) places = sw_board_unheld (&c->boards);
  SwPoint worst = { 0, 0 };
  double far = 0;
  for (guint i = 0; i < places->len; i++)
    {
      SwPoint p = g_array_index (places, SwPoint, i);
      double distance = fmin (sw_board_distance (&c->part, p), c->part.limit);
      if (distance > far + SW_LAY_SLACK_MM)
        {
          far = distance;
          worst = p;
        }
    }
  if (far > 0)
    sw_layer_mark (c->layer, SW_CEILING_BOARD_UNHELD, c->layer->lay->ceiling->room->record.id, worst, far, c->part.over, "brandering.setout.board_over_mm");
}

static void
catch_piece (Catch *c, const SwCeilingPiece *piece)
{
  SwCeiling *ceiling = c->layer->lay->ceiling;
  g_autoptr (SwRings) plan = sw_rings_new ();
  sw_rings_add (plan, &g_array_index (ceiling->corners, SwPoint, piece->first), piece->n);
  g_autoptr (SwRings) local = sw_rings_to (plan, &c->layer->frame);
  g_autoptr (GArray) near = quads_near (c->quads, sw_box_grow (sw_rings_box (local), c->part.limit));
  c->boards = c->part;
  c->boards.area = local;
  c->boards.quads = near;
  catch_places (c);
  mark_unheld (c);
}

static void
catch_part (SwLay *lay, guint index)
{
  SwCeiling *ceiling = lay->ceiling;
  const SwCeilingPart *part = &g_array_index (ceiling->parts, SwCeilingPart, index);
  double width = ceiling->room->batten_width;
  SwLayer layer = { .lay = lay, .part = index, .frame = part->frame, .clear = part->clear, .kind = SW_MEMBER_BATTEN, .width = width,
                    .depth = ceiling->room->batten_depth, .top = ceiling->top - part->drop, .lines = part->lines };
  layer.quads = g_array_new (FALSE, FALSE, sizeof (SwQuad));
  g_autoptr (GArray) quads = g_array_new (FALSE, FALSE, sizeof (SwQuad));
  double over = sw_rules_value (ceiling->rules, "brandering.setout", "board_over_mm").value;
  Catch c = { .layer = &layer, .quads = quads, .part = { part->area, quads, part->limit, width, over } };
  collect_quads (&layer, quads);
  g_array_append_vals (layer.quads, quads->data, quads->len);
  for (guint i = 0; i < ceiling->pieces->len; i++)
    if (g_array_index (ceiling->pieces, SwCeilingPiece, i).part == index)
      catch_piece (&c, &g_array_index (ceiling->pieces, SwCeilingPiece, i));
  g_array_unref (layer.quads);
}

void
sw_ceiling_catch_pieces (SwCeiling *ceiling)
{
  SwLay lay = { .ceiling = ceiling,
                .wall_face = sw_rules_value (ceiling->rules, "brandering.setout", "wall_face_mm").value,
                .cantilever = sw_rules_value (ceiling->rules, "brandering.setout", "cantilever_mm").value };
  for (guint i = 0; i < ceiling->parts->len; i++)
    catch_part (&lay, i);
}
