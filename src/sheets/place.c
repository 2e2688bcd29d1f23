/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sheets/place.h"
#include "sheets/words.h"
#include "base/number.h"
#include "geometry/outline.h"

#define PARALLEL 0.05 /* sine of the angle up to which a wall lies along a room's side */

/* Lines are sorted by the way in which they run, so that skew ones still give one distance each. */
static gboolean
runs_along_y (SwPoint way)
{
  return fabs (way.y) >= fabs (way.x);
}

/* Distance from the line through `from`, positive towards greater x (a line along y) or greater y. */
static double
signed_distance (SwPoint from, SwPoint way, SwPoint p)
{
  double length = sw_point_length (way);
  SwPoint normal = { -way.y / length, way.x / length };
  double side = runs_along_y (way) ? normal.x : normal.y;
  return (side < 0 ? -1 : 1) * sw_point_dot (normal, sw_point_sub (p, from));
}

/* Keeps the nearer of what `datum` holds and this line. Returns TRUE when it was taken. */
static gboolean
offer_line (SwSetOut *set_out, SwPoint from, SwPoint to, SwPoint p)
{
  SwPoint way = sw_point_sub (to, from);
  if (sw_point_length (way) <= 0)
    return FALSE;
  SwDatum *datum = runs_along_y (way) ? &set_out->x : &set_out->y;
  double mm = signed_distance (from, way, p);
  if (datum->name != NULL && fabs (mm) >= fabs (datum->mm))
    return FALSE;
  g_clear_pointer (&datum->name, g_free);
  datum->mm = mm;
  return TRUE;
}

static void
name_line (SwSetOut *set_out, SwPoint from, SwPoint to, const char *name)
{
  SwDatum *datum = runs_along_y (sw_point_sub (to, from)) ? &set_out->x : &set_out->y;
  datum->name = g_strdup (name);
}

SwSetOut
sw_set_out_from_grid (const SwJob *job, SwPoint p)
{
  SwSetOut set_out = { { NULL, 0 }, { NULL, 0 } };
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_GRIDLINE); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwGridline *line = (const SwGridline *) record;
      if (offer_line (&set_out, line->from, line->to, p))
        name_line (&set_out, line->from, line->to, record->tag);
    }
  return set_out;
}

/* The wall whose face or middle the side from a to b is. */
static const SwWall *
wall_of_side (const SwJob *job, SwPoint a, SwPoint b)
{
  SwPoint middle = sw_point_lerp (a, b, 0.5), side = sw_point_sub (b, a);
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_WALL); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwWall *wall = (const SwWall *) record;
      SwPoint way = sw_point_sub (wall->to, wall->from);
      double length = sw_point_length (way), along = sw_point_dot (sw_point_sub (middle, wall->from), way);
      if (length > 0 && fabs (sw_point_cross (way, side)) <= PARALLEL * length * sw_point_length (side) && along >= 0
          && along <= length * length && fabs (signed_distance (wall->from, way, middle)) <= wall->thickness)
        return wall;
    }
  return NULL;
}

/* Whether a tape held square to the side from a to b reaches the place. */
static gboolean
stands_before (SwPoint a, SwPoint b, SwPoint p)
{
  SwPoint way = sw_point_sub (b, a);
  double along = sw_point_dot (sw_point_sub (p, a), way);
  return along >= 0 && along <= sw_point_dot (way, way);
}

SwSetOut
sw_set_out_from_walls (const SwJob *job, const SwRoom *room, SwPoint p)
{
  SwSetOut set_out = { { NULL, 0 }, { NULL, 0 } };
  for (guint i = 0; room != NULL && i < room->outline.n; i++)
    {
      SwPoint a = SW_LIST_AT (room->outline, SwPoint, i), b = SW_LIST_AT (room->outline, SwPoint, (i + 1) % room->outline.n);
      if (!stands_before (a, b, p) || !offer_line (&set_out, a, b, p))
        continue;
      const SwWall *wall = wall_of_side (job, a, b);
      g_autofree char *side = g_strdup_printf (_("side %u"), i + 1);
      name_line (&set_out, a, b, wall != NULL ? wall->record.tag : side);
    }
  return set_out;
}

void
sw_set_out_clear (SwSetOut *set_out)
{
  g_clear_pointer (&set_out->x.name, g_free);
  g_clear_pointer (&set_out->y.name, g_free);
}

double
sw_place_beside_plate (const SwDeckBay *bay, SwPoint p)
{
  double nearest = NAN;
  SwPoint uv = bay != NULL ? sw_deck_to_bay (bay, p) : p;
  int over = bay != NULL ? sw_deck_void_near (bay, uv.y) : -1;
  for (guint i = 0; over >= 0 && i < bay->plates->len; i++)
    {
      const SwDeckPlate *plate = &g_array_index (bay->plates, SwDeckPlate, i);
      if (plate->void_index == (guint) over && !plate->out && !(fabs (plate->u - uv.x) >= nearest))
        nearest = fabs (plate->u - uv.x);
    }
  return nearest;
}

char *
sw_place_short (const SwDeck *deck, SwPoint p)
{
  SwAddress address = sw_deck_address (deck, p);
  char past[SW_LENGTH_BUF];
  if (address.bay == NULL)
    return g_strdup (_("outside all bays"));
  GString *text = g_string_new (address.bay->bay->record.tag);
  if (address.bay->voids->len == 0)
    return g_string_free (text, FALSE);
  g_string_append_printf (text, address.over_void ? _(", void %d") : _(", rib by void %d"), address.void_number);
  sw_length_write (address.past_plate, sw_job_lengths (sw_deck_job (deck)), SW_LENGTH_BARE, 0, past);
  if (address.has_plate)
    g_string_append_printf (text, _(", plate %d + %s"), address.plate_number, past);
  else
    g_string_append_printf (text, _(", closure + %s"), past);
  return g_string_free (text, FALSE);
}
