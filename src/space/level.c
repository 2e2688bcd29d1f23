/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Levels: of soffits, crowns and ceilings. */
#include "space/bay.h"
#include "base/tolerance.h"
#include "geometry/region.h"
#include <math.h>

double
sw_deck_soffit (const SwDeckBay *bay, SwPoint world)
{
  return bay->level + bay->slope_x * (world.x - bay->level_x) + bay->slope_y * (world.y - bay->level_y);
}

double
sw_deck_soffit_at (const SwDeck *deck, SwPoint world)
{
  const SwDeckBay *bay = sw_deck_bay_at (deck, world);
  return bay != NULL ? sw_deck_soffit (bay, world) : 0;
}

double
sw_deck_crown (const SwDeckBay *bay, SwPoint world)
{
  int near = sw_deck_void_near (bay, sw_deck_to_bay (bay, world).y);
  double depth = near < 0 ? bay->profile->depth : g_array_index (bay->voids, SwVoid, near).depth;
  return sw_deck_soffit (bay, world) + depth;
}

double
sw_deck_z_from_floor (const SwDeck *deck, double above_floor)
{
  return above_floor - sw_job_info (sw_deck_job (deck))->soffit_level;
}

double
sw_deck_z_to_floor (const SwDeck *deck, double z)
{
  return z + sw_job_info (sw_deck_job (deck))->soffit_level;
}

/* Lowers *lowest to the soffit at the places where two outlines' sides cross. */
static void
lowest_at_crossings (const SwDeckBay *bay, const SwList *a, const SwList *b, double *lowest)
{
  for (guint i = 0; i < a->n; i++)
    for (guint k = 0; k < b->n; k++)
      {
        SwPoint p = SW_LIST_AT (*a, SwPoint, i), q = SW_LIST_AT (*b, SwPoint, k);
        SwPoint r = sw_point_sub (SW_LIST_AT (*a, SwPoint, (i + 1) % a->n), p), s = sw_point_sub (SW_LIST_AT (*b, SwPoint, (k + 1) % b->n), q);
        double across = sw_point_cross (r, s);
        if (fabs (across) < 1e-9)
          continue;
        double t = sw_point_cross (sw_point_sub (q, p), s) / across, u = sw_point_cross (sw_point_sub (q, p), r) / across;
        if (t >= 0 && t <= 1 && u >= 0 && u <= 1)
          *lowest = fmin (*lowest, sw_deck_soffit (bay, sw_point_add (p, sw_point_scale (r, t))));
      }
}

/* Whether the bay lies over some of the room: one that ends at the room's wall touches it and lowers nothing there. */
static gboolean
lies_over (const SwList *bay, const SwRoom *room, SwBox bay_box)
{
  SwBox box = sw_record_box (&room->record);
  if (fmin (box.high.x, bay_box.high.x) - fmax (box.low.x, bay_box.low.x) <= SW_TOUCH_MM
      || fmin (box.high.y, bay_box.high.y) - fmax (box.low.y, bay_box.low.y) <= SW_TOUCH_MM)
    return FALSE;
  g_autoptr (SwRegion) over = sw_region_new_outline (bay->items, bay->n, NULL);
  g_autoptr (SwRegion) below = sw_region_new_outline (room->outline.items, room->outline.n, NULL);
  g_autoptr (SwRegion) shared = over != NULL && below != NULL ? sw_region_intersect (over, below, NULL) : NULL;
  return shared == NULL || !sw_region_is_empty (shared);
}

/* A plane over a polygon is lowest at a corner: of the room in the bay, of the bay in the room, or where sides cross. */
double
sw_deck_lowest_soffit (const SwDeck *deck, const SwRoom *room)
{
  double lowest = INFINITY;
  SwBox around = sw_box_grow (sw_record_box (&room->record), SW_TOUCH_MM);
  for (guint i = 0; i < sw_deck_n_bays (deck); i++)
    {
      const SwDeckBay *bay = sw_deck_bay (deck, i);
      const SwList *outline = &bay->bay->outline;
      if (!sw_box_meets (around, sw_deck_bay_box (deck, i)) || !lies_over (outline, room, sw_deck_bay_box (deck, i)))
        continue;
      for (guint k = 0; k < room->outline.n; k++)
        if (sw_outline_holds (outline->items, outline->n, SW_LIST_AT (room->outline, SwPoint, k)))
          lowest = fmin (lowest, sw_deck_soffit (bay, SW_LIST_AT (room->outline, SwPoint, k)));
      for (guint k = 0; k < outline->n; k++)
        if (sw_outline_holds (room->outline.items, room->outline.n, SW_LIST_AT (*outline, SwPoint, k)))
          lowest = fmin (lowest, sw_deck_soffit (bay, SW_LIST_AT (*outline, SwPoint, k)));
      lowest_at_crossings (bay, &room->outline, outline, &lowest);
    }
  return isfinite (lowest) ? lowest : 0;
}

double
sw_deck_ceiling_back (const SwDeck *deck, const SwRoom *room)
{
  double lowest = sw_deck_lowest_soffit (deck, room);
  switch ((SwFinish) room->finish)
    {
    case SW_FINISH_CLOSED:
      return lowest - room->packing - room->batten_depth - (room->direction == SW_DIRECTION_ALONG ? room->primary_depth : 0);
    case SW_FINISH_GRID:
      return lowest - room->grid_drop;
    default:
      return lowest;
    }
}

double
sw_deck_ceiling_face (const SwDeck *deck, const SwRoom *room)
{
  double back = sw_deck_ceiling_back (deck, room);
  return room->finish == SW_FINISH_CLOSED ? back - room->board_thickness : back;
}

double
sw_deck_ceiling_drop (const SwDeck *deck, const SwRoom *room, SwPoint p)
{
  const SwBulkhead *bulkhead = sw_deck_bulkhead_at (deck, room, p);
  return bulkhead != NULL ? bulkhead->drop : 0;
}

void
sw_deck_level_along (const SwRoom *room, const SwBulkhead *bulkhead, const GPtrArray *bulkheads, SwPoint from, SwPoint along, GArray *stretches)
{
  g_autoptr (GArray) inside = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  sw_outline_cut (room->outline.items, room->outline.n, from, along, inside);
  sw_intervals_intersect (stretches, inside);
  for (guint i = 0; i < bulkheads->len; i++)
    {
      const SwBulkhead *other = bulkheads->pdata[i];
      g_autoptr (GArray) here = g_array_new (FALSE, FALSE, sizeof (SwInterval));
      sw_outline_cut (other->outline.items, other->outline.n, from, along, here);
      if (other == bulkhead)
        sw_intervals_intersect (stretches, here);
      else if (bulkhead == NULL || other->drop > bulkhead->drop)
        for (guint k = 0; k < here->len; k++)
          sw_intervals_subtract (stretches, g_array_index (here, SwInterval, k).low, g_array_index (here, SwInterval, k).high);
    }
}
