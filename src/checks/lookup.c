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
  return lookup;
}

void
sw_check_lookup_free (SwCheckLookup *lookup)
{
  for (guint table = 0; table < SW_N_TABLES; table++)
    {
      g_clear_pointer (&lookup->places[table].records, g_ptr_array_unref);
      g_clear_pointer (&lookup->places[table].index, sw_neighbours_unref);
    }
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

static const Places *
places_of (SwCheckLookup *lookup, SwTable table)
{
  Places *places = &lookup->places[table];
  const SwRecord *record;
  if (places->records != NULL)
    return places;
  places->records = g_ptr_array_new ();
  g_autoptr (GArray) boxes = g_array_new (FALSE, FALSE, sizeof (SwBox3));
  for (SwJobIter i = sw_job_iter (lookup->job, table); (record = sw_job_iter_next (&i)) != NULL;)
    {
      SwBox3 box = upright_box (sw_record_box (record));
      g_ptr_array_add (places->records, (gpointer) record);
      g_array_append_val (boxes, box);
    }
  places->index = sw_neighbours_new ((const SwBox3 *) boxes->data, boxes->len);
  return places;
}

GPtrArray *
sw_check_lookup_near (SwCheckLookup *lookup, SwTable table, SwBox box)
{
  const Places *places = places_of (lookup, table);
  GPtrArray *near = g_ptr_array_new ();
  g_array_set_size (lookup->found, 0);
  sw_neighbours_find (places->index, upright_box (box), lookup->found);
  for (guint i = 0; i < lookup->found->len; i++)
    g_ptr_array_add (near, places->records->pdata[g_array_index (lookup->found, guint32, i)]);
  return near;
}

const SwRoom *
sw_check_lookup_room (SwCheckLookup *lookup, SwPoint at)
{
  g_autoptr (GPtrArray) near = sw_check_lookup_near (lookup, SW_TABLE_ROOM, (SwBox){ at, at });
  for (guint i = 0; i < near->len; i++)
    {
      const SwRoom *room = near->pdata[i];
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
