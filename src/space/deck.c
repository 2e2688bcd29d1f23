/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "space/bay.h"
#include "geometry/neighbour.h"
#include "geometry/region.h"
#include "base/tolerance.h"
#include "job/edit.h"
#include <math.h>

struct _SwDeck
{
  gatomicrefcount refs;
  SwJob *job, *source; /* source: whose records the bays point to */
  GPtrArray *bays;
  GArray *boxes; /* SwBox, one a bay */
  SwNeighbours *bays_near; /* over them */
  GPtrArray *rooms; /* SwRoom, in id order */
  SwNeighbours *rooms_near; /* over their boxes in plan */
  GPtrArray *bulkheads;     /* SwBulkhead, in id order */
  SwNeighbours *bulkheads_near;
};

static SwBox3
flat_box (SwBox box)
{
  return sw_box_is_empty (box) ? SW_BOX3_EMPTY : (SwBox3){ { box.low.x, box.low.y, 0 }, { box.high.x, box.high.y, 0 } };
}

/* All records of a table, and a tree over their boxes. */
static SwNeighbours *
take_table (SwJob *job, SwTable table, GPtrArray **records)
{
  const SwRecord *record;
  g_autoptr (GArray) boxes = g_array_new (FALSE, FALSE, sizeof (SwBox3));
  *records = g_ptr_array_new ();
  for (SwJobIter i = sw_job_iter (job, table); (record = sw_job_iter_next (&i)) != NULL;)
    {
      SwBox3 box = flat_box (sw_box_grow (sw_record_box (record), SW_TOUCH_MM));
      g_ptr_array_add (*records, (gpointer) record);
      g_array_append_val (boxes, box);
    }
  return sw_neighbours_new ((const SwBox3 *) boxes->data, boxes->len);
}

static void
take_bay_places (SwDeck *deck)
{
  g_autofree SwBox3 *boxes = g_new (SwBox3, MAX (deck->boxes->len, 1));
  for (guint i = 0; i < deck->boxes->len; i++)
    boxes[i] = flat_box (g_array_index (deck->boxes, SwBox, i));
  deck->bays_near = sw_neighbours_new (boxes, deck->boxes->len);
}

SwDeck *
sw_deck_new (SwJob *job)
{
  SwDeck *deck = g_new0 (SwDeck, 1);
  g_atomic_ref_count_init (&deck->refs);
  deck->job = sw_job_ref (job);
  deck->source = sw_job_ref (job);
  deck->bays = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_deck_bay_free);
  deck->boxes = g_array_new (FALSE, FALSE, sizeof (SwBox));
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_BAY); (record = sw_job_iter_next (&i)) != NULL;)
    {
      SwBox box = sw_record_box (record);
      g_ptr_array_add (deck->bays, sw_deck_bay_new (job, (const SwBay *) record));
      g_array_append_val (deck->boxes, box);
    }
  take_bay_places (deck);
  deck->rooms_near = take_table (job, SW_TABLE_ROOM, &deck->rooms);
  deck->bulkheads_near = take_table (job, SW_TABLE_BULKHEAD, &deck->bulkheads);
  return deck;
}

static gboolean
deck_hangs_on (SwTable table)
{
  static const guint32 tables = 1u << SW_TABLE_JOB | 1u << SW_TABLE_PROFILE | 1u << SW_TABLE_BAY | 1u << SW_TABLE_PLATE
                                | 1u << SW_TABLE_OPENING | 1u << SW_TABLE_SOLID | 1u << SW_TABLE_ROOM | 1u << SW_TABLE_MEASURE
                                | 1u << SW_TABLE_BULKHEAD;
  return tables >> table & 1;
}

SwDeck *
sw_deck_update (SwDeck *deck, SwJob *job, const SwEdit *edit)
{
  for (guint i = 0; i < edit->changes->len; i++)
    if (deck_hangs_on (SW_ID_TABLE (g_array_index (edit->changes, SwChange, i).id)))
      return sw_deck_new (job);
  SwDeck *later = g_new0 (SwDeck, 1);
  g_atomic_ref_count_init (&later->refs);
  later->job = sw_job_ref (job);
  later->source = sw_job_ref (deck->source);
  later->bays = g_ptr_array_ref (deck->bays);
  later->boxes = g_array_ref (deck->boxes);
  later->bays_near = sw_neighbours_ref (deck->bays_near);
  later->rooms = g_ptr_array_ref (deck->rooms);
  later->rooms_near = sw_neighbours_ref (deck->rooms_near);
  later->bulkheads = g_ptr_array_ref (deck->bulkheads);
  later->bulkheads_near = sw_neighbours_ref (deck->bulkheads_near);
  return later;
}

SwDeck *
sw_deck_ref (SwDeck *deck)
{
  g_atomic_ref_count_inc (&deck->refs);
  return deck;
}

void
sw_deck_unref (SwDeck *deck)
{
  if (!g_atomic_ref_count_dec (&deck->refs))
    return;
  g_ptr_array_unref (deck->bays);
  g_array_unref (deck->boxes);
  sw_neighbours_unref (deck->bays_near);
  g_ptr_array_unref (deck->rooms);
  sw_neighbours_unref (deck->rooms_near);
  g_ptr_array_unref (deck->bulkheads);
  sw_neighbours_unref (deck->bulkheads_near);
  sw_job_unref (deck->job);
  sw_job_unref (deck->source);
  g_free (deck);
}

SwJob *
sw_deck_job (const SwDeck *deck)
{
  return deck->job;
}

guint
sw_deck_n_bays (const SwDeck *deck)
{
  return deck->bays->len;
}

const SwDeckBay *
sw_deck_bay (const SwDeck *deck, guint i)
{
  g_assert (i < deck->bays->len);
  return deck->bays->pdata[i];
}

SwBox
sw_deck_bay_box (const SwDeck *deck, guint i)
{
  g_assert (i < deck->boxes->len);
  return g_array_index (deck->boxes, SwBox, i);
}

const SwDeckBay *
sw_deck_bay_of (const SwDeck *deck, SwId id)
{
  for (guint i = 0; i < deck->bays->len; i++)
    if (sw_deck_bay (deck, i)->bay->record.id == id)
      return sw_deck_bay (deck, i);
  return NULL;
}

#define FEW_BAYS 8 /* looked at one by one as fast as searched */

static gboolean
bay_holds (const SwDeck *deck, guint i, SwPoint p)
{
  const SwList *outline = &sw_deck_bay (deck, i)->bay->outline;
  return sw_box_holds (g_array_index (deck->boxes, SwBox, i), p) && sw_outline_holds (outline->items, outline->n, p);
}

typedef struct
{
  const SwDeck *deck;
  SwPoint at;
  guint32 first; /* in order that holds the place */
} Search;

static gboolean
take_bay (guint32 i, gpointer data)
{
  Search *search = data;
  if (i < search->first && bay_holds (search->deck, i, search->at))
    search->first = i;
  return TRUE;
}

const SwDeckBay *
sw_deck_bay_at (const SwDeck *deck, SwPoint p)
{
  guint n = deck->bays->len;
  Search search = { deck, p, G_MAXUINT32 };
  if (n > FEW_BAYS)
    sw_neighbours_query (deck->bays_near, flat_box ((SwBox){ p, p }), take_bay, &search);
  for (guint i = 0; n <= FEW_BAYS && i < n && search.first == G_MAXUINT32; i++)
    take_bay (i, &search);
  return search.first < n ? sw_deck_bay (deck, search.first) : NULL;
}

SwPoint
sw_deck_to_bay (const SwDeckBay *bay, SwPoint world)
{
  SwPoint turned = sw_point_turn (world, bay->cosine, -bay->sine);
  return (SwPoint){ turned.x - bay->u_zero, turned.y - bay->v_zero };
}

SwPoint
sw_deck_from_bay (const SwDeckBay *bay, SwPoint uv)
{
  return sw_point_turn ((SwPoint){ uv.x + bay->u_zero, uv.y + bay->v_zero }, bay->cosine, bay->sine);
}

int
sw_deck_void_at (const SwDeckBay *bay, double v)
{
  int near = sw_deck_void_near (bay, v);
  if (near < 0)
    return -1;
  const SwVoid *found = &g_array_index (bay->voids, SwVoid, near);
  return v > found->low && v < found->high ? near : -1;
}

int
sw_deck_void_near (const SwDeckBay *bay, double v)
{
  if (bay->voids->len == 0)
    return -1;
  guint low = 0, high = bay->voids->len - 1;
  while (low < high)
    {
      guint middle = (low + high) / 2;
      if (v < (g_array_index (bay->voids, SwVoid, middle).v + g_array_index (bay->voids, SwVoid, middle + 1).v) / 2)
        high = middle;
      else
        low = middle + 1;
    }
  return (int) low;
}

int
sw_deck_rib_at (const SwDeckBay *bay, double v)
{
  int near = sw_deck_void_near (bay, v);
  if (near < 0)
    return bay->ribs->len > 0 ? 0 : -1;
  const SwVoid *found = &g_array_index (bay->voids, SwVoid, near);
  return v <= found->low ? near : v >= found->high ? near + 1 : -1;
}

const SwReach *
sw_deck_reach_at (const SwDeckBay *bay, guint void_index, double u)
{
  const SwVoid *v = &g_array_index (bay->voids, SwVoid, void_index);
  for (guint i = 0; i < v->n_reaches; i++)
    {
      const SwReach *reach = &g_array_index (bay->reaches, SwReach, v->first_reach + i);
      if (reach->low < reach->high && u >= reach->low && u <= reach->high)
        return reach;
    }
  return NULL;
}

double
sw_deck_void_width (const SwDeckBay *bay, guint void_index, double h)
{
  const SwVoid *v = &g_array_index (bay->voids, SwVoid, void_index);
  double mouth = v->high - v->low, taper = bay->profile->mouth - bay->profile->crown;
  return mouth - taper * h / v->depth;
}

static gboolean
take_room (guint32 i, gpointer data)
{
  Search *search = data;
  const SwRoom *room = search->deck->rooms->pdata[i];
  if (i < search->first && sw_outline_holds (room->outline.items, room->outline.n, search->at))
    search->first = i;
  return TRUE;
}

void
sw_deck_rooms_near (const SwDeck *deck, SwBox box, GPtrArray *rooms)
{
  g_autoptr (GArray) found = g_array_new (FALSE, FALSE, sizeof (guint32));
  sw_neighbours_find (deck->rooms_near, flat_box (box), found);
  for (guint i = 0; i < found->len; i++)
    g_ptr_array_add (rooms, deck->rooms->pdata[g_array_index (found, guint32, i)]);
}

const SwRoom *
sw_deck_room_at (const SwDeck *deck, SwPoint p)
{
  Search search = { deck, p, G_MAXUINT32 };
  sw_neighbours_query (deck->rooms_near, flat_box ((SwBox){ p, p }), take_room, &search);
  return search.first < deck->rooms->len ? deck->rooms->pdata[search.first] : NULL;
}

const SwRoom *
sw_deck_room_beside (const SwDeck *deck, SwPoint p, double reach)
{
  const SwRoom *inside = sw_deck_room_at (deck, p), *nearest = NULL;
  double least = INFINITY;
  g_autoptr (GPtrArray) rooms = g_ptr_array_new ();
  if (inside != NULL)
    return inside;
  sw_deck_rooms_near (deck, sw_box_grow ((SwBox){ p, p }, reach + SW_TOUCH_MM), rooms);
  for (guint i = 0; i < rooms->len; i++)
    {
      const SwRoom *room = rooms->pdata[i];
      double apart = sw_outline_distance (room->outline.items, room->outline.n, p, NULL, NULL);
      if (apart > reach + SW_TOUCH_MM || apart >= least + SW_TOUCH_MM || (apart >= least - SW_TOUCH_MM && nearest->record.id < room->record.id))
        continue;
      least = apart;
      nearest = room;
    }
  return nearest;
}

typedef struct
{
  const SwDeck *deck;
  SwRegion *outline;
  double most; /* mm² */
  guint32 found;
} UnderSearch;

static gboolean
take_area (guint32 i, gpointer data)
{
  UnderSearch *search = data;
  const SwRoom *room = search->deck->rooms->pdata[i];
  g_autoptr (SwRegion) region = sw_region_new_outline (room->outline.items, room->outline.n, NULL);
  g_autoptr (SwRegion) shared = region != NULL ? sw_region_intersect (region, search->outline, NULL) : NULL;
  double area = shared != NULL ? sw_region_area (shared) : 0;
  if (area > search->most || (area > 0 && area == search->most && i < search->found))
    {
      search->most = area;
      search->found = i;
    }
  return TRUE;
}

const SwRoom *
sw_deck_room_under (const SwDeck *deck, const SwPoint *points, guint n)
{
  g_autoptr (SwRegion) outline = sw_region_new_outline (points, n, NULL);
  UnderSearch search = { deck, outline, 0, G_MAXUINT32 };
  if (outline != NULL)
    sw_neighbours_query (deck->rooms_near, flat_box (sw_region_box (outline)), take_area, &search);
  return search.most >= 1 ? deck->rooms->pdata[search.found] : NULL;
}

typedef struct
{
  const SwDeck *deck;
  const SwRoom *room;
  SwPoint at;
  const SwBulkhead *found; /* the lowest; of two alike the first */
} BulkheadSearch;

static gboolean
take_bulkhead (guint32 i, gpointer data)
{
  BulkheadSearch *search = data;
  const SwBulkhead *bulkhead = search->deck->bulkheads->pdata[i], *found = search->found;
  if (bulkhead->room != search->room->record.id || !sw_outline_holds (bulkhead->outline.items, bulkhead->outline.n, search->at))
    return TRUE;
  if (found == NULL || bulkhead->drop > found->drop || (bulkhead->drop == found->drop && bulkhead->record.id < found->record.id))
    search->found = bulkhead;
  return TRUE;
}

const SwBulkhead *
sw_deck_bulkhead_at (const SwDeck *deck, const SwRoom *room, SwPoint p)
{
  BulkheadSearch search = { deck, room, p, NULL };
  if (room->finish == SW_FINISH_CLOSED && deck->bulkheads->len > 0)
    sw_neighbours_query (deck->bulkheads_near, flat_box ((SwBox){ p, p }), take_bulkhead, &search);
  return search.found;
}

static gboolean
collect_bulkhead (guint32 i, gpointer data)
{
  g_array_append_val ((GArray *) data, i);
  return TRUE;
}

static int
compare_indices (gconstpointer pa, gconstpointer pb)
{
  guint32 a = *(const guint32 *) pa, b = *(const guint32 *) pb;
  return (a > b) - (a < b);
}

GPtrArray *
sw_deck_bulkheads (const SwDeck *deck, const SwRoom *room)
{
  GPtrArray *list = g_ptr_array_new ();
  g_autoptr (GArray) found = g_array_new (FALSE, FALSE, sizeof (guint32));
  if (room->finish == SW_FINISH_CLOSED && deck->bulkheads->len > 0)
    sw_neighbours_query (deck->bulkheads_near, flat_box (sw_record_box (&room->record)), collect_bulkhead, found);
  g_array_sort (found, compare_indices);
  for (guint i = 0; i < found->len; i++)
    {
      SwBulkhead *bulkhead = deck->bulkheads->pdata[g_array_index (found, guint32, i)];
      if (bulkhead->room == room->record.id)
        g_ptr_array_add (list, bulkhead);
    }
  return list;
}
