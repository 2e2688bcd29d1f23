/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/lookup.h"
#include "geometry/neighbour.h"

typedef struct
{
  GPtrArray *records;
  SwNeighbours *index; /* over their boxes in plan */
} Places;

typedef struct { double face, back; } Levels;

struct _SwCheckLookup
{
  SwDeck *deck;
  SwJob *job;
  Places places[SW_N_TABLES];
  Places separating; /* of walls */
  GPtrArray *none;
  GHashTable *owned[SW_N_OWNED]; /* SwId → GPtrArray */
  GHashTable *levels;            /* const SwRoom → Levels */
  GArray *found;
};

SwCheckLookup *
sw_check_lookup_new (SwDeck *deck)
{
  SwCheckLookup *lookup = g_new0 (SwCheckLookup, 1);
  lookup->deck = deck;
  lookup->job = sw_deck_job (deck);
  lookup->levels = g_hash_table_new_full (g_direct_hash, g_direct_equal, NULL, g_free);
  lookup->found = g_array_new (FALSE, FALSE, sizeof (guint32));
  lookup->none = g_ptr_array_new ();
  return lookup;
}

static void
places_clear (Places *places)
{
  g_clear_pointer (&places->records, g_ptr_array_unref);
  g_clear_pointer (&places->index, sw_neighbours_unref);
}

void
sw_check_lookup_free (SwCheckLookup *lookup)
{
  for (guint table = 0; table < SW_N_TABLES; table++)
    places_clear (&lookup->places[table]);
  places_clear (&lookup->separating);
  g_ptr_array_unref (lookup->none);
  for (guint kind = 0; kind < SW_N_OWNED; kind++)
    g_clear_pointer (&lookup->owned[kind], g_hash_table_unref);
  g_hash_table_unref (lookup->levels);
  g_array_unref (lookup->found);
  g_free (lookup);
}

/* ---- by place */

static SwBox3
upright_box (SwBox box)
{
  return sw_box_is_empty (box) ? SW_BOX3_EMPTY : (SwBox3){ { box.low.x, box.low.y, 0 }, { box.high.x, box.high.y, 0 } };
}

static gboolean
is_separating (const SwRecord *wall)
{
  return ((const SwWall *) wall)->separating;
}

static void
places_fill (Places *places, const SwJob *job, SwTable table, gboolean (*counts) (const SwRecord *record))
{
  const SwRecord *record;
  places->records = g_ptr_array_new ();
  g_autoptr (GArray) boxes = g_array_new (FALSE, FALSE, sizeof (SwBox3));
  for (SwJobIter i = sw_job_iter (job, table); (record = sw_job_iter_next (&i)) != NULL;)
    {
      SwBox3 box = upright_box (sw_record_box (record));
      if (counts != NULL && !counts (record))
        continue;
      g_ptr_array_add (places->records, (gpointer) record);
      g_array_append_val (boxes, box);
    }
  places->index = sw_neighbours_new ((const SwBox3 *) boxes->data, boxes->len);
}

/* The numbers of what is found stand in lookup->found. */
static guint
find_places (SwCheckLookup *lookup, const Places *places, SwBox box)
{
  g_array_set_size (lookup->found, 0);
  if (places->records->len > 0)
    sw_neighbours_find (places->index, upright_box (box), lookup->found);
  return lookup->found->len;
}

static GPtrArray *
near_places (SwCheckLookup *lookup, const Places *places, SwBox box)
{
  guint n = find_places (lookup, places, box);
  if (n == 0)
    return g_ptr_array_ref (lookup->none);
  GPtrArray *near = g_ptr_array_sized_new (n);
  for (guint i = 0; i < n; i++)
    g_ptr_array_add (near, places->records->pdata[g_array_index (lookup->found, guint32, i)]);
  return near;
}

static const Places *
places_of (SwCheckLookup *lookup, SwTable table)
{
  if (lookup->places[table].records == NULL)
    places_fill (&lookup->places[table], lookup->job, table, NULL);
  return &lookup->places[table];
}

GPtrArray *
sw_check_lookup_near (SwCheckLookup *lookup, SwTable table, SwBox box)
{
  return near_places (lookup, places_of (lookup, table), box);
}

GPtrArray *
sw_check_lookup_separating (SwCheckLookup *lookup, SwBox box)
{
  if (lookup->separating.records == NULL)
    places_fill (&lookup->separating, lookup->job, SW_TABLE_WALL, is_separating);
  return near_places (lookup, &lookup->separating, box);
}

const SwRoom *
sw_check_lookup_room (SwCheckLookup *lookup, SwPoint at)
{
  const Places *places = places_of (lookup, SW_TABLE_ROOM);
  guint n = find_places (lookup, places, (SwBox){ at, at });
  for (guint i = 0; i < n; i++)
    {
      const SwRoom *room = places->records->pdata[g_array_index (lookup->found, guint32, i)];
      if (sw_outline_holds (room->outline.items, room->outline.n, at))
        return room;
    }
  return NULL;
}

/* ---- by owner */

static const struct { SwTable table; gsize offset; } owners[SW_N_OWNED] = {
  [SW_OWNED_FITTINGS] = { SW_TABLE_FITTING, G_STRUCT_OFFSET (SwFitting, run) },
  [SW_OWNED_LAYOUTS] = { SW_TABLE_LAYOUT, G_STRUCT_OFFSET (SwLayout, room) },
  [SW_OWNED_HOLDS] = { SW_TABLE_HOLD_POINT, G_STRUCT_OFFSET (SwHoldPoint, room) },
  [SW_OWNED_RUNS] = { SW_TABLE_RUN, G_STRUCT_OFFSET (SwRun, circuit) },
  [SW_OWNED_LIGHTS] = { SW_TABLE_LIGHT, G_STRUCT_OFFSET (SwLight, circuit) },
};

static GHashTable *
owned_of (SwCheckLookup *lookup, SwOwned kind)
{
  const SwRecord *record;
  if (lookup->owned[kind] != NULL)
    return lookup->owned[kind];
  lookup->owned[kind] = g_hash_table_new_full (g_int64_hash, g_int64_equal, NULL, (GDestroyNotify) g_ptr_array_unref);
  for (SwJobIter i = sw_job_iter (lookup->job, owners[kind].table); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwId *owner = (const SwId *) G_STRUCT_MEMBER_P (record, owners[kind].offset);
      GPtrArray *list = g_hash_table_lookup (lookup->owned[kind], owner);
      if (list == NULL)
        {
          list = g_ptr_array_new ();
          g_hash_table_insert (lookup->owned[kind], (gpointer) owner, list);
        }
      g_ptr_array_add (list, (gpointer) record);
    }
  return lookup->owned[kind];
}

const GPtrArray *
sw_check_lookup_owned (SwCheckLookup *lookup, SwOwned kind, SwId owner)
{
  return g_hash_table_lookup (owned_of (lookup, kind), &owner);
}

/* ---- levels */

static const Levels *
levels_of (SwCheckLookup *lookup, const SwRoom *room)
{
  Levels *levels = g_hash_table_lookup (lookup->levels, room);
  if (levels != NULL)
    return levels;
  levels = g_new (Levels, 1);
  *levels = (Levels){ sw_deck_ceiling_face (lookup->deck, room), sw_deck_ceiling_back (lookup->deck, room) };
  g_hash_table_insert (lookup->levels, (gpointer) room, levels);
  return levels;
}

double
sw_check_lookup_face (SwCheckLookup *lookup, const SwRoom *room)
{
  return levels_of (lookup, room)->face;
}

double
sw_check_lookup_back (SwCheckLookup *lookup, const SwRoom *room)
{
  return levels_of (lookup, room)->back;
}

double
sw_check_lookup_face_at (SwCheckLookup *lookup, const SwRoom *room, SwPoint at)
{
  return levels_of (lookup, room)->face - sw_deck_ceiling_drop (lookup->deck, room, at);
}
