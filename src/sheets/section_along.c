/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The run is pulled straight and the deck is sampled along it: one look every STEP_MM and one at each vertex, so a rib that
 * is narrower than a step is still met. Cost: length / step looks at the deck. */
#include "sheets/section.h"
#include "base/number.h"
#include "drawing/pattern.h"
#include "sheets/plan.h"
#include "sheets/words.h"

#define STEP_MM 25.0

typedef struct
{
  SwDisplay *display;
  const SwSpace *space;
  const SwDeck *deck;
  const SwRoute *route;
  double k, length;
} Long;

static SwPoint
place (const Long *l, double along, double z)
{
  return (SwPoint){ along, z * l->k };
}

static void
put_text (const Long *l, SwPoint at, const char *text, SwColourRole role, SwTextAlign align, SwTextRise rise)
{
  SwTextStyle style = { .role = role, .height = 2.2, .unit = SW_SIZE_PAPER, .align = align, .rise = rise, .halo = TRUE };
  sw_display_add_text (l->display, at, text, &style);
}

void
sw_section_concrete_at (const SwDeck *deck, SwPoint at, double *under, double *top)
{
  const SwDeckBay *bay = sw_deck_bay_at (deck, at);
  if (bay == NULL)
    {
      *under = *top = sw_deck_soffit_at (deck, at);
      return;
    }
  SwPoint uv = sw_deck_to_bay (bay, at);
  int index = sw_deck_void_at (bay, uv.y);
  double soffit = sw_deck_soffit (bay, at);
  *top = soffit + bay->profile->depth + bay->profile->topping;
  *under = soffit;
  if (index < 0 || sw_deck_reach_at (bay, (guint) index, uv.x) == NULL)
    return;
  const SwVoid *v = &g_array_index (bay->voids, SwVoid, index);
  double lean = (bay->profile->mouth - bay->profile->crown) / 2, inside = MIN (uv.y - v->low, v->high - uv.y);
  *under = soffit + v->depth * (lean > 0 ? CLAMP (inside / lean, 0, 1) : 1);
}

static void
draw_concrete (const Long *l)
{
  static const SwFill fill = { .role = SW_ROLE_CONCRETE };
  static const SwStroke edge = { .role = SW_ROLE_CONCRETE_EDGE, .width = 0.25, .unit = SW_SIZE_PAPER };
  g_autoptr (GArray) ring = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  g_autoptr (GArray) upper = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  int n = MAX ((int) ceil (l->length / STEP_MM), 1);
  for (int i = 0; i <= n; i++)
    {
      double along = l->length * i / n, under, top;
      SwPoint3 at = sw_route_at (l->route, along, NULL);
      sw_section_concrete_at (l->deck, (SwPoint){ at.x, at.y }, &under, &top);
      SwPoint low = place (l, along, under), high = place (l, along, top);
      g_array_append_val (ring, low);
      g_array_append_val (upper, high);
    }
  for (guint i = upper->len; i-- > 0;)
    g_array_append_val (ring, g_array_index (upper, SwPoint, i));
  sw_display_set_layer (l->display, SW_LAYER_DECK);
  sw_display_add_polygon (l->display, (const SwPoint *) (gpointer) ring->data, ring->len, &fill, &edge);
}

/* Plates that the run passes: where a leg along a void crosses their u within the mouth. */
static void
draw_plate (const Long *l, const SwDeckBay *bay, const SwDeckPlate *plate)
{
  static const SwStroke stands = { .role = SW_ROLE_PLATE, .width = 0.5, .unit = SW_SIZE_PAPER };
  static const SwStroke released = { .role = SW_ROLE_PLATE, .width = 0.35, .unit = SW_SIZE_PAPER, .dash = SW_DASH_HIDDEN };
  const SwVoid *v = &g_array_index (bay->voids, SwVoid, plate->void_index);
  double along = 0;
  for (guint i = 0; i + 1 < l->route->n; i++)
    {
      SwPoint3 a = l->route->axis[i], b = l->route->axis[i + 1];
      SwPoint ua = sw_deck_to_bay (bay, (SwPoint){ a.x, a.y }), ub = sw_deck_to_bay (bay, (SwPoint){ b.x, b.y });
      double leg = sw_point_distance (ua, ub), t = fabs (ub.x - ua.x) > 1e-6 ? (plate->u - ua.x) / (ub.x - ua.x) : -1;
      double across = ua.y + (ub.y - ua.y) * t;
      if (t >= 0 && t <= 1 && across > v->low && across < v->high)
        {
          SwPoint at = sw_deck_from_bay (bay, (SwPoint){ plate->u, across });
          double z = sw_deck_soffit (bay, at), x = along + t * leg;
          g_autofree char *number = g_strdup_printf ("%d", plate->number);
          sw_display_add_line (l->display, place (l, x, z), place (l, x, z + v->depth), plate->released || plate->out ? &released : &stands);
          put_text (l, place (l, x, z + v->depth), number, SW_ROLE_PLATE, SW_ALIGN_MIDDLE, SW_RISE_BASELINE);
        }
      along += leg;
    }
}

static void
draw_plates (const Long *l)
{
  for (guint b = 0; b < sw_deck_n_bays (l->deck); b++)
    {
      const SwDeckBay *bay = sw_deck_bay (l->deck, b);
      for (guint i = 0; i < bay->plates->len; i++)
        draw_plate (l, bay, &g_array_index (bay->plates, SwDeckPlate, i));
    }
}

static void
draw_ceiling (const Long *l)
{
  static const SwStroke line = { .role = SW_ROLE_BOARD_EDGE, .width = 0.5, .unit = SW_SIZE_PAPER };
  int n = MAX ((int) ceil (l->length / STEP_MM), 1);
  sw_display_set_layer (l->display, SW_LAYER_BOARDS);
  for (int i = 0; i < n; i++)
    {
      SwPoint3 a = sw_route_at (l->route, l->length * i / n, NULL), b = sw_route_at (l->route, l->length * (i + 1) / n, NULL);
      const SwRoom *room = sw_deck_room_at (l->deck, (SwPoint){ (a.x + b.x) / 2, (a.y + b.y) / 2 });
      if (room == NULL || room->finish == SW_FINISH_EXPOSED)
        continue;
      double z = sw_deck_ceiling_back (l->deck, room) - sw_deck_ceiling_drop (l->deck, room, (SwPoint){ (a.x + b.x) / 2, (a.y + b.y) / 2 });
      sw_display_add_line (l->display, place (l, l->length * i / n, z), place (l, l->length * (i + 1) / n, z), &line);
    }
}

static void
draw_tube (const Long *l)
{
  const SwRun *run = l->route->run;
  SwColourRole role = sw_service_line_role (sw_plan_service_line (run->service));
  SwFill fill = { .role = role, .transparency = 0.5 };
  SwStroke edge = { .role = role, .width = 0.35, .unit = SW_SIZE_PAPER };
  double along = 0;
  for (guint i = 0; i + 1 < l->route->n; i++)
    {
      SwPoint3 a = l->route->axis[i], b = l->route->axis[i + 1];
      double leg = hypot (b.x - a.x, b.y - a.y), r = l->route->outer;
      SwPoint bar[4] = { place (l, along, a.z - r), place (l, along + leg, b.z - r), place (l, along + leg, b.z + r), place (l, along, a.z + r) };
      sw_display_begin_group (l->display, &(SwDisplayGroup){ { SW_TABLE_RUN, (int) i + 1, run->record.id }, NULL, sw_role_name (role), run->record.tag, NULL });
      if (leg > 0.5)
        sw_display_add_polygon (l->display, bar, 4, &fill, &edge);
      sw_display_end (l->display);
      along += leg;
    }
}

/* At each vertex its number, invert above the finished floor, and between them the fall. */
static void
draw_levels (const Long *l)
{
  static const SwStroke tick = { .role = SW_ROLE_DIMENSION, .width = 0.18, .unit = SW_SIZE_PAPER };
  double along = 0, last = -INFINITY;
  SwLengths lengths = sw_job_lengths (sw_space_job (l->space));
  sw_display_set_layer (l->display, SW_LAYER_MEASURES);
  for (guint i = 0; i < l->route->n; i++)
    {
      SwPoint3 a = l->route->axis[i];
      double invert = sw_route_invert (l->route, i), leg = 0;
      char number[SW_LENGTH_BUF], fall[SW_NUMBER_BUF];
      g_autofree char *text = g_strdup_printf (_("IL %s"), sw_length_write (sw_deck_z_to_floor (l->deck, invert), lengths, SW_LENGTH_DIM, 0, number));
      SwPoint foot = place (l, along, invert - 60);
      if (along - last > 350 || i + 1 == l->route->n)
        {
          sw_display_add_line (l->display, place (l, along, invert), foot, &tick);
          put_text (l, foot, text, SW_ROLE_DIMENSION, SW_ALIGN_MIDDLE, SW_RISE_TOP);
          last = along;
        }
      if (i + 1 < l->route->n)
        {
          SwPoint3 b = l->route->axis[i + 1];
          leg = hypot (b.x - a.x, b.y - a.y);
          if (leg > 600 && a.z - b.z > 0.05)
            {
              g_autofree char *words = g_strdup_printf ("1:%s", sw_number_write_fixed (leg / (a.z - b.z), 0, fall));
              put_text (l, place (l, along + leg / 2, (a.z + b.z) / 2), words, SW_ROLE_DIMENSION, SW_ALIGN_MIDDLE, SW_RISE_MIDDLE);
            }
        }
      along += leg;
    }
}

void
sw_section_draw_along (SwDisplay *display, const SwSpace *space, SwId run, double exaggeration)
{
  const SwRoute *route = sw_space_route (space, run);
  if (route == NULL || route->n < 2)
    return;
  Long l = { display, space, sw_space_deck (space), route, exaggeration, sw_route_plan_length (route) };
  if (l.length < 1)
    return;
  draw_concrete (&l);
  draw_plates (&l);
  draw_ceiling (&l);
  sw_display_set_layer (display, sw_plan_layer_of (sw_space_job (space), &route->run->record));
  draw_tube (&l);
  draw_levels (&l);
}

SwBox
sw_section_box_along (const SwSpace *space, SwId run, double exaggeration)
{
  const SwRoute *route = sw_space_route (space, run);
  SwBox box = SW_BOX_EMPTY;
  if (route == NULL)
    return box;
  for (guint i = 0; i < route->n; i++)
    {
      double z = sw_deck_soffit_at (sw_space_deck (space), (SwPoint){ route->axis[i].x, route->axis[i].y });
      box = sw_box_add (box, (SwPoint){ 0, MIN (z - 160, route->axis[i].z - 140) * exaggeration });
      box = sw_box_add (box, (SwPoint){ sw_route_plan_length (route), (z + 360) * exaggeration });
    }
  return box;
}
