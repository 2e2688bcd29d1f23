/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/lookup.h"
#include "base/tolerance.h"
#include "geometry/neighbour.h"
#include "geometry/neighbour_box.h"

#define FEW 4 /* questions that are answered by a walk over the table, before an index is made of it */

typedef struct
{
  guint asked;
  GPtrArray *records;  /* NULL until there is an index */
  SwNeighbours *index; /* over their boxes in plan */
} Places;

/* A grid over the plan in which the cells are marked that walls lie in: most runs lie in none of them. */
#define CELL_MM    1500.0
#define CELLS_MOST (1 << 20)

typedef struct
{
  SwBox box;
  double cell; /* mm */
  guint columns, rows;
  guint8 *marked;
} Cells;

typedef struct { double face, back; } Levels;

struct _SwCheckLookup
{
  SwDeck *deck;
  SwJob *job;
  Places places[SW_N_TABLES];
  Places separating; /* of walls */
  Cells cells;       /* of the same, once there is an index */
  GPtrArray *none, *rooms; /* for those that are found */
  GHashTable *owned[SW_N_OWNED]; /* SwId → GPtrArray */
  GHashTable *levels;            /* const SwRoom → Levels */
  GArray *found;
  SwBranches *branches; /* NULL until asked for */
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
  lookup->rooms = g_ptr_array_new ();
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
  g_free (lookup->cells.marked);
  g_ptr_array_unref (lookup->none);
  g_ptr_array_unref (lookup->rooms);
  for (guint kind = 0; kind < SW_N_OWNED; kind++)
    g_clear_pointer (&lookup->owned[kind], g_hash_table_unref);
  g_hash_table_unref (lookup->levels);
  g_array_unref (lookup->found);
  sw_branches_free (lookup->branches);
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

/* As sw_record_box, sooner for what is asked for most. */
static SwBox
record_box (const SwRecord *record)
{
  if (sw_record_table (record) != SW_TABLE_WALL)
    return sw_record_box (record);
  const SwWall *wall = (const SwWall *) record;
  return sw_box_add (sw_box_add (SW_BOX_EMPTY, wall->from), wall->to);
}

typedef gboolean (*Counts) (const SwRecord *record); /* NULL: all do */

static void
places_fill (Places *places, const SwJob *job, SwTable table, Counts counts)
{
  const SwRecord *record;
  places->records = g_ptr_array_new ();
  g_autoptr (GArray) boxes = g_array_new (FALSE, FALSE, sizeof (SwBox3));
  for (SwJobIter i = sw_job_iter (job, table); (record = sw_job_iter_next (&i)) != NULL;)
    {
      if (counts != NULL && !counts (record))
        continue;
      SwBox3 box = upright_box (record_box (record));
      g_ptr_array_add (places->records, (gpointer) record);
      g_array_append_val (boxes, box);
    }
  places->index = sw_neighbours_new ((const SwBox3 *) boxes->data, boxes->len);
}

static GPtrArray *
near_by_index (SwCheckLookup *lookup, const Places *places, SwBox box)
{
  g_array_set_size (lookup->found, 0);
  if (places->records->len > 0)
    sw_neighbours_find (places->index, upright_box (box), lookup->found);
  if (lookup->found->len == 0)
    return g_ptr_array_ref (lookup->none);
  GPtrArray *near = g_ptr_array_sized_new (lookup->found->len);
  for (guint i = 0; i < lookup->found->len; i++)
    g_ptr_array_add (near, places->records->pdata[g_array_index (lookup->found, guint32, i)]);
  return near;
}

/* As an index of plain boxes finds them, rounded outward to single precision: a place on the line between two rooms is in both. */
static gboolean
plan_boxes_meet (SwBox a, SwBox b)
{
  return !sw_box_is_empty (a) && !sw_box_is_empty (b) && float_down (a.low.x) <= float_up (b.high.x) && float_down (b.low.x) <= float_up (a.high.x) && float_down (a.low.y) <= float_up (b.high.y)
         && float_down (b.low.y) <= float_up (a.high.y);
}

static GPtrArray *
near_by_walk (const SwCheckLookup *lookup, SwTable table, Counts counts, SwBox box)
{
  GPtrArray *near = g_ptr_array_new ();
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (lookup->job, table); (record = sw_job_iter_next (&i)) != NULL;)
    if ((counts == NULL || counts (record)) && plan_boxes_meet (record_box (record), box))
      g_ptr_array_add (near, (gpointer) record);
  return near;
}

static GPtrArray *
near_places (SwCheckLookup *lookup, Places *places, SwTable table, Counts counts, SwBox box)
{
  if (places->records == NULL && places->asked++ < FEW)
    return near_by_walk (lookup, table, counts, box);
  if (places->records == NULL)
    places_fill (places, lookup->job, table, counts);
  return near_by_index (lookup, places, box);
}

/* ---- cells */

static guint
cell_of (const Cells *cells, double mm, guint n)
{
  return (guint) CLAMP (mm / cells->cell, 0, n - 1);
}

/* The cells of a box: all of them marked (`mark`), or whether any is. A box beyond the edge counts with the cells there. */
static gboolean
walk_cells (Cells *cells, SwBox box, gboolean mark)
{
  SwPoint origin = cells->box.low;
  guint left = cell_of (cells, box.low.x - origin.x, cells->columns), right = cell_of (cells, box.high.x - origin.x, cells->columns);
  guint bottom = cell_of (cells, box.low.y - origin.y, cells->rows), top = cell_of (cells, box.high.y - origin.y, cells->rows);
  for (guint row = bottom; row <= top; row++)
    for (guint column = left; column <= right; column++)
      {
        guint8 *marked = &cells->marked[row * cells->columns + column];
        if (*marked && !mark)
          return TRUE;
        *marked |= mark;
      }
  return FALSE;
}

static void
cells_fill (Cells *cells, const GPtrArray *walls)
{
  cells->box = SW_BOX_EMPTY;
  for (guint i = 0; i < walls->len; i++)
    cells->box = sw_box_union (cells->box, record_box (walls->pdata[i]));
  double length = walls->len > 0 ? cells->box.high.x - cells->box.low.x : 0, breadth = walls->len > 0 ? cells->box.high.y - cells->box.low.y : 0;
  cells->cell = fmax (CELL_MM, fmax (sqrt (length * breadth / CELLS_MOST), fmax (length, breadth) / CELLS_MOST));
  cells->columns = (guint) (length / cells->cell) + 1;
  cells->rows = (guint) (breadth / cells->cell) + 1;
  cells->marked = g_new0 (guint8, (gsize) cells->columns * cells->rows);
  for (guint i = 0; i < walls->len; i++)
    walk_cells (cells, record_box (walls->pdata[i]), TRUE);
}

/* By the deck's index, which looks a touch farther. */
static void
near_rooms (const SwCheckLookup *lookup, SwBox box, GPtrArray *rooms)
{
  guint kept = 0;
  sw_deck_rooms_near (lookup->deck, box, rooms);
  for (guint i = 0; i < rooms->len; i++)
    {
      const SwList *outline = &((const SwRoom *) rooms->pdata[i])->outline;
      if (plan_boxes_meet (sw_outline_box (outline->items, outline->n), box))
        rooms->pdata[kept++] = rooms->pdata[i];
    }
  g_ptr_array_set_size (rooms, (int) kept);
}

GPtrArray *
sw_check_lookup_near (SwCheckLookup *lookup, SwTable table, SwBox box)
{
  if (table != SW_TABLE_ROOM)
    return near_places (lookup, &lookup->places[table], table, NULL, box);
  GPtrArray *rooms = g_ptr_array_new ();
  near_rooms (lookup, box, rooms);
  return rooms;
}

GPtrArray *
sw_check_lookup_separating (SwCheckLookup *lookup, SwBox box)
{
  const Places *places = &lookup->separating;
  if (places->records != NULL && lookup->cells.marked == NULL)
    cells_fill (&lookup->cells, places->records);
  if (places->records != NULL && (places->records->len == 0 || sw_box_is_empty (box) || !walk_cells (&lookup->cells, sw_box_grow (box, SW_TOUCH_MM), FALSE)))
    return g_ptr_array_ref (lookup->none);
  return near_places (lookup, &lookup->separating, SW_TABLE_WALL, is_separating, box);
}

const SwRoom *
sw_check_lookup_room (SwCheckLookup *lookup, SwPoint at)
{
  g_ptr_array_set_size (lookup->rooms, 0);
  near_rooms (lookup, (SwBox){ at, at }, lookup->rooms);
  for (guint i = 0; i < lookup->rooms->len; i++)
    {
      const SwRoom *room = lookup->rooms->pdata[i];
      if (sw_outline_holds (room->outline.items, room->outline.n, at))
        return room;
    }
  return NULL;
}

const SwBranches *
sw_check_lookup_branches (SwCheckLookup *lookup, const SwRules *rules)
{
  if (lookup->branches == NULL)
    lookup->branches = sw_branches_new (lookup->job, rules);
  return lookup->branches;
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
