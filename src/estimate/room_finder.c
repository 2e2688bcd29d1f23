/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rooms by a neighbour search over their boxes, then exactly by their outlines. Where rooms overlap, the first in id order takes
 * what both hold. */
#include "estimate/takeoff_parts.h"
#include "geometry/neighbour.h"
#include "geometry/outline.h"

struct _SwRoomFinder
{
  GPtrArray *rooms; /* SwRoom, borrowed from the job */
  SwNeighbours *index;
};

SwRoomFinder *
sw_room_finder_new (const SwJob *job)
{
  SwRoomFinder *finder = g_new (SwRoomFinder, 1);
  g_autoptr (GArray) boxes = g_array_new (FALSE, FALSE, sizeof (SwBox3));
  const SwRecord *record;
  finder->rooms = g_ptr_array_new ();
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_ROOM); (record = sw_job_iter_next (&i)) != NULL;)
    {
      SwBox box = sw_record_box (record);
      SwBox3 flat = { { box.low.x, box.low.y, 0 }, { box.high.x, box.high.y, 0 } };
      g_ptr_array_add (finder->rooms, (gpointer) record);
      g_array_append_val (boxes, flat);
    }
  finder->index = sw_neighbours_new ((SwBox3 *) boxes->data, boxes->len);
  return finder;
}

void
sw_room_finder_free (SwRoomFinder *finder)
{
  g_ptr_array_unref (finder->rooms);
  sw_neighbours_unref (finder->index);
  g_free (finder);
}

static GArray *
near (const SwRoomFinder *finder, SwPoint a, SwPoint b)
{
  GArray *items = g_array_new (FALSE, FALSE, sizeof (guint32));
  SwBox3 box = { { fmin (a.x, b.x), fmin (a.y, b.y), 0 }, { fmax (a.x, b.x), fmax (a.y, b.y), 0 } };
  sw_neighbours_find (finder->index, box, items);
  return items;
}

const SwRoom *
sw_room_finder_at (const SwRoomFinder *finder, SwPoint place)
{
  g_autoptr (GArray) items = near (finder, place, place);
  for (guint i = 0; i < items->len; i++)
    {
      const SwRoom *room = finder->rooms->pdata[g_array_index (items, guint32, i)];
      if (sw_outline_holds (room->outline.items, room->outline.n, place))
        return room;
    }
  return NULL;
}

SwId
sw_room_finder_id (const SwRoomFinder *finder, SwPoint place)
{
  const SwRoom *room = sw_room_finder_at (finder, place);
  return room != NULL ? room->record.id : 0;
}

static double
sum_of (const GArray *spans)
{
  double sum = 0;
  for (guint i = 0; i < spans->len; i++)
    sum += g_array_index (spans, SwInterval, i).high - g_array_index (spans, SwInterval, i).low;
  return sum;
}

/* Takes what the room holds off the stretches that are left; returns how much that was. */
static double
take (const SwRoom *room, SwPoint from, SwPoint along, GArray *left)
{
  g_autoptr (GArray) inside = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  double before = sum_of (left);
  sw_outline_cut (room->outline.items, room->outline.n, from, along, inside);
  for (guint i = 0; i < inside->len; i++)
    sw_intervals_subtract (left, g_array_index (inside, SwInterval, i).low, g_array_index (inside, SwInterval, i).high);
  return before - sum_of (left);
}

void
sw_room_finder_share (const SwRoomFinder *finder, SwPoint from, SwPoint to, GArray *shares)
{
  double length = sw_point_distance (from, to), rest = 1;
  g_array_set_size (shares, 0);
  if (length < 1)
    {
      SwRoomShare all = { sw_room_finder_id (finder, from), 1 };
      g_array_append_val (shares, all);
      return;
    }
  g_autoptr (GArray) items = near (finder, from, to);
  g_autoptr (GArray) left = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  SwInterval whole = { 0, length };
  SwPoint along = sw_point_scale (sw_point_sub (to, from), 1 / length);
  g_array_append_val (left, whole);
  for (guint i = 0; i < items->len; i++)
    {
      const SwRoom *room = finder->rooms->pdata[g_array_index (items, guint32, i)];
      SwRoomShare share = { room->record.id, take (room, from, along, left) / length };
      if (share.share <= 0)
        continue;
      g_array_append_val (shares, share);
      rest -= share.share;
    }
  if (rest > 1e-9)
    {
      SwRoomShare none = { 0, rest };
      g_array_append_val (shares, none);
    }
}
