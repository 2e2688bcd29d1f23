/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bodies stand in sets: one made of the whole job, and beside it a small one of what edits changed since, which takes the
 * place of the same records' bodies in the first. The search tree is shared in the same way (geometry/neighbour.h). An
 * update costs what the edits since touched, whatever the size of the job; when they come to more than a small part of it,
 * or change something that others hang on (deck, rooms, measurements), a new whole set is made. Bodies of one record stand
 * side by side, records in id order; numbers of the second set go on behind those of the first. */
#include "job/edit.h"
#include "space/bodies.h"
#include <string.h>

#define CHANGES_MIN 64
#define CHANGES_PER 64

typedef struct
{
  SwId id;
  const SwRecord *record; /* NULL: gone */
  const SwRoute *route;   /* of a run that could be worked out */
  guint first, n;         /* counted within the set */
  guint before;           /* later set: the place among the first set's bodies at which these belong */
} Group;

typedef struct
{
  gatomicrefcount refs;
  SwDeck *deck;       /* holds the records */
  GArray *bodies;     /* SwBody */
  GArray *of_group;   /* guint32, one a body */
  GArray *groups;     /* Group, sorted by id */
  guint of_table[SW_N_TABLES]; /* the first group of each table, + 1 */
  GPtrArray *routes;  /* SwRoute */
  GPtrArray *faults;
} Set;

struct _SwSpace
{
  gatomicrefcount refs;
  SwDeck *deck;
  SwRules *rules;
  Set *whole, *later;
  GPtrArray *faults;   /* borrowed from the sets */
  SwNeighbours *whole_index, *index; /* over bodies' boxes grown by their margins */
};

/* Tables that have bodies, in the order in which they stand. */
static const SwTable solid_tables[] = {
  SW_TABLE_BAY, SW_TABLE_COLUMN, SW_TABLE_BEAM, SW_TABLE_WALL, SW_TABLE_FITTING, SW_TABLE_RUN, SW_TABLE_LIGHT, SW_TABLE_LAYOUT,
};

static gboolean
is_solid (SwTable table)
{
  for (gsize t = 0; t < G_N_ELEMENTS (solid_tables); t++)
    if (solid_tables[t] == table)
      return TRUE;
  return FALSE;
}

/* ---- sets */

static void
fault_free (gpointer data)
{
  SwSpaceFault *fault = data;
  g_free (fault->message);
  g_free (fault);
}

static Set *
set_new (SwDeck *deck)
{
  Set *set = g_new0 (Set, 1);
  g_atomic_ref_count_init (&set->refs);
  set->deck = sw_deck_ref (deck);
  set->bodies = g_array_new (FALSE, FALSE, sizeof (SwBody));
  set->of_group = g_array_new (FALSE, FALSE, sizeof (guint32));
  set->groups = g_array_new (FALSE, FALSE, sizeof (Group));
  set->routes = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_route_free);
  set->faults = g_ptr_array_new_with_free_func (fault_free);
  return set;
}

static Set *
set_ref (Set *set)
{
  g_atomic_ref_count_inc (&set->refs);
  return set;
}

static void
set_unref (Set *set)
{
  if (!g_atomic_ref_count_dec (&set->refs))
    return;
  g_array_unref (set->bodies);
  g_array_unref (set->of_group);
  g_array_unref (set->groups);
  g_ptr_array_unref (set->routes);
  g_ptr_array_unref (set->faults);
  sw_deck_unref (set->deck);
  g_free (set);
}

static const Group *
group_at (const Set *set, guint i)
{
  return &g_array_index (set->groups, Group, i);
}

/* Index of the first group whose id is not below. */
static guint
group_place (const Set *set, SwId id)
{
  guint low = 0, high = set->groups->len;
  while (low < high)
    {
      guint middle = (low + high) / 2;
      if (group_at (set, middle)->id < id)
        low = middle + 1;
      else
        high = middle;
    }
  return low;
}

/* Where the group would stand if no number of its table were missing: in most jobs few are. */
static const Group *
group_guessed (const Set *set, SwId id)
{
  guint first = SW_ID_TABLE (id) < SW_N_TABLES ? set->of_table[SW_ID_TABLE (id)] : 0;
  gint64 place = first > 0 ? first - 1 + (id - group_at (set, first - 1)->id) : -1;
  return place >= 0 && place < set->groups->len && group_at (set, (guint) place)->id == id ? group_at (set, (guint) place) : NULL;
}

static const Group *
set_group (const Set *set, SwId id)
{
  const Group *guessed = group_guessed (set, id);
  if (guessed != NULL)
    return guessed;
  guint place = group_place (set, id);
  return place < set->groups->len && group_at (set, place)->id == id ? group_at (set, place) : NULL;
}

/* Of the last set that says something of the record. */
static const Group *
space_group (const SwSpace *space, SwId id, const Set **set)
{
  const Group *group = set_group (space->later, id);
  *set = group != NULL ? space->later : space->whole;
  return group != NULL ? group : set_group (space->whole, id);
}

/* The route of a run, kept; NULL with a fault when it cannot be worked out. */
static const SwRoute *
set_add_route (Set *set, const SwRules *rules, const SwRecord *record)
{
  GError *error = NULL;
  SwRoute *route = sw_route_new (set->deck, rules, (const SwRun *) record, &error);
  if (route == NULL)
    {
      SwSpaceFault *fault = g_new0 (SwSpaceFault, 1);
      fault->owner = record->id;
      fault->message = g_strdup (error->message);
      g_ptr_array_add (set->faults, fault);
      g_error_free (error);
      return NULL;
    }
  g_ptr_array_add (set->routes, route);
  return route;
}

static void
set_add_group (Set *set, const Group *group)
{
  g_array_append_vals (set->groups, group, 1);
  if (set->of_table[SW_ID_TABLE (group->id)] == 0)
    set->of_table[SW_ID_TABLE (group->id)] = set->groups->len;
}

/* Takes the bodies over from `space` where the record is the same. */
static void
set_add_record (Set *set, const SwRules *rules, const SwRecord *record, const SwSpace *space)
{
  const Set *from = NULL;
  Group group = { .id = record->id, .record = record, .first = set->bodies->len };
  const Group *known = space != NULL ? space_group (space, record->id, &from) : NULL;
  const SwRoute *route = sw_record_table (record) == SW_TABLE_RUN ? set_add_route (set, rules, record) : NULL;
  if (known != NULL && known->record == record && known->n > 0)
    g_array_append_vals (set->bodies, &g_array_index (from->bodies, SwBody, known->first), known->n);
  else if (known == NULL || known->record != record)
    sw_bodies_of_record (set->deck, rules, record, route, set->bodies);
  group.route = route;
  group.n = set->bodies->len - group.first;
  for (guint i = group.first; i < set->bodies->len; i++)
    g_array_append_val (set->of_group, set->groups->len);
  set_add_group (set, &group);
}

/* ---- spaces */

static SwBox3
grown_box (const Set *set, guint i)
{
  const SwBody *body = &g_array_index (set->bodies, SwBody, i);
  return sw_box3_grow (body->box, body->margin);
}

static SwNeighbours *
whole_index (const Set *set)
{
  g_autofree SwBox3 *boxes = g_new (SwBox3, MAX (set->bodies->len, 1));
  for (guint i = 0; i < set->bodies->len; i++)
    boxes[i] = grown_box (set, i);
  return sw_neighbours_new (boxes, set->bodies->len);
}

static void
collect_faults (SwSpace *space)
{
  space->faults = g_ptr_array_new ();
  for (guint i = 0; i < space->whole->faults->len; i++)
    if (set_group (space->later, ((SwSpaceFault *) space->whole->faults->pdata[i])->owner) == NULL)
      g_ptr_array_add (space->faults, space->whole->faults->pdata[i]);
  g_ptr_array_extend (space->faults, space->later->faults, NULL, NULL);
}

/* Takes both sets and both indexes over. */
static SwSpace *
space_of_sets (SwDeck *deck, SwRules *rules, Set *whole, Set *later, SwNeighbours *of_whole, SwNeighbours *of_both)
{
  SwSpace *space = g_new0 (SwSpace, 1);
  g_atomic_ref_count_init (&space->refs);
  space->deck = sw_deck_ref (deck);
  space->rules = sw_rules_ref (rules);
  space->whole = whole;
  space->later = later;
  space->whole_index = of_whole;
  space->index = of_both;
  collect_faults (space);
  return space;
}

static SwSpace *
space_build (SwDeck *deck, SwRules *rules, const SwSpace *before)
{
  Set *whole = set_new (deck);
  for (gsize t = 0; t < G_N_ELEMENTS (solid_tables); t++)
    {
      const SwRecord *record;
      for (SwJobIter i = sw_job_iter (sw_deck_job (deck), solid_tables[t]); (record = sw_job_iter_next (&i)) != NULL;)
        set_add_record (whole, rules, record, before);
    }
  SwNeighbours *index = whole_index (whole);
  return space_of_sets (deck, rules, whole, set_new (deck), index, sw_neighbours_ref (index));
}

SwSpace *
sw_space_new (SwDeck *deck, SwRules *rules, GError **error)
{
  return space_build (deck, rules, NULL);
}

/* ---- updates */

static int
compare_ids (gconstpointer pa, gconstpointer pb)
{
  SwId a = *(const SwId *) pa, b = *(const SwId *) pb;
  return a < b ? -1 : a > b;
}

/* All records with bodies that changed since the whole set was made, in order, each once. */
static GArray *
changed_ids (const SwSpace *space, const SwEdit *edit)
{
  GArray *ids = g_array_new (FALSE, FALSE, sizeof (SwId));
  for (guint i = 0; i < space->later->groups->len; i++)
    g_array_append_val (ids, group_at (space->later, i)->id);
  for (guint i = 0; i < edit->changes->len; i++)
    {
      SwId id = g_array_index (edit->changes, SwChange, i).id;
      if (is_solid (SW_ID_TABLE (id)))
        g_array_append_val (ids, id);
    }
  g_array_sort (ids, compare_ids);
  guint kept = 0;
  for (guint i = 0; i < ids->len; i++)
    if (i == 0 || g_array_index (ids, SwId, i) != g_array_index (ids, SwId, kept - 1))
      g_array_index (ids, SwId, kept++) = g_array_index (ids, SwId, i);
  g_array_set_size (ids, kept);
  return ids;
}

static Set *
later_set (const SwSpace *space, SwDeck *deck, const GArray *ids)
{
  Set *later = set_new (deck);
  for (guint i = 0; i < ids->len; i++)
    {
      SwId id = g_array_index (ids, SwId, i);
      const SwRecord *record = sw_job_get (sw_deck_job (deck), id);
      guint place = group_place (space->whole, id);
      if (record != NULL)
        set_add_record (later, space->rules, record, space);
      else
        {
          Group gone = { .id = id, .first = later->bodies->len };
          set_add_group (later, &gone);
        }
      g_array_index (later->groups, Group, i).before
          = place < space->whole->groups->len ? group_at (space->whole, place)->first : space->whole->bodies->len;
    }
  return later;
}

static void
note_change (GArray *changes, guint item, SwBox3 box)
{
  SwNeighbourChange change = { item, box };
  g_array_append_val (changes, change);
}

/* What the later set takes out of the whole one's tree and puts behind it. */
static GArray *
index_changes (const Set *whole, const Set *later)
{
  GArray *changes = g_array_new (FALSE, FALSE, sizeof (SwNeighbourChange));
  for (guint i = 0; i < later->groups->len; i++)
    {
      const Group *old = set_group (whole, group_at (later, i)->id);
      for (guint k = 0; old != NULL && k < old->n; k++)
        note_change (changes, old->first + k, SW_BOX3_EMPTY);
    }
  for (guint i = 0; i < later->bodies->len; i++)
    note_change (changes, whole->bodies->len + i, grown_box (later, i));
  return changes;
}

SwSpace *
sw_space_update (SwSpace *space, SwDeck *deck, const SwEdit *edit, GError **error)
{
  for (guint i = 0; i < edit->changes->len; i++)
    if (sw_space_hangs_on (SW_ID_TABLE (g_array_index (edit->changes, SwChange, i).id)))
      return space_build (deck, space->rules, NULL);
  g_autoptr (GArray) ids = changed_ids (space, edit);
  Set *later = later_set (space, deck, ids);
  g_autoptr (GArray) changes = index_changes (space->whole, later);
  if (changes->len > CHANGES_MIN + space->whole->bodies->len / CHANGES_PER)
    {
      set_unref (later);
      return space_build (deck, space->rules, space);
    }
  SwNeighbours *index = sw_neighbours_with (space->whole_index, (const SwNeighbourChange *) changes->data, changes->len);
  return space_of_sets (deck, space->rules, set_ref (space->whole), later, sw_neighbours_ref (space->whole_index), index);
}

SwSpace *
sw_space_ref (SwSpace *space)
{
  g_atomic_ref_count_inc (&space->refs);
  return space;
}

void
sw_space_unref (SwSpace *space)
{
  if (!g_atomic_ref_count_dec (&space->refs))
    return;
  g_ptr_array_unref (space->faults);
  sw_neighbours_unref (space->index);
  sw_neighbours_unref (space->whole_index);
  set_unref (space->later);
  set_unref (space->whole);
  sw_rules_unref (space->rules);
  sw_deck_unref (space->deck);
  g_free (space);
}

/* ---- asking */

SwDeck *
sw_space_deck (const SwSpace *space)
{
  return space->deck;
}

SwRules *
sw_space_rules (const SwSpace *space)
{
  return space->rules;
}

SwJob *
sw_space_job (const SwSpace *space)
{
  return sw_deck_job (space->deck);
}

const SwRoute *
sw_space_route (const SwSpace *space, SwId run)
{
  const Set *set;
  const Group *group = space_group (space, run, &set);
  return group != NULL ? group->route : NULL;
}

const GPtrArray *
sw_space_faults (const SwSpace *space)
{
  return space->faults;
}

guint
sw_space_n_bodies (const SwSpace *space)
{
  return space->whole->bodies->len + space->later->bodies->len;
}

const SwBody *
sw_space_body (const SwSpace *space, guint i)
{
  guint n_whole = space->whole->bodies->len;
  g_assert (i < n_whole + space->later->bodies->len);
  return i < n_whole ? &g_array_index (space->whole->bodies, SwBody, i) : &g_array_index (space->later->bodies, SwBody, i - n_whole);
}

/* Groups of the later set count on behind those of the whole one. */
guint32
sw_space_group (const SwSpace *space, guint i)
{
  guint n_whole = space->whole->bodies->len;
  return i < n_whole ? g_array_index (space->whole->of_group, guint32, i)
                     : space->whole->groups->len + g_array_index (space->later->of_group, guint32, i - n_whole);
}

/* Where a body of the later set belongs among those of the whole one. */
static guint
later_place (const SwSpace *space, guint body)
{
  guint low = 0, high = space->later->groups->len;
  while (low + 1 < high)
    {
      guint middle = (low + high) / 2;
      if (group_at (space->later, middle)->first <= body)
        low = middle;
      else
        high = middle;
    }
  return group_at (space->later, low)->before;
}

gboolean
sw_space_comes_before (const SwSpace *space, guint a, guint b)
{
  guint n_whole = space->whole->bodies->len;
  if ((a < n_whole) == (b < n_whole))
    return a < b;
  return a < n_whole ? a < later_place (space, b - n_whole) : !(b < later_place (space, a - n_whole));
}

void
sw_space_bodies_of (const SwSpace *space, SwId owner, guint *first, guint *n)
{
  const Set *set;
  const Group *group = space_group (space, owner, &set);
  *n = group != NULL ? group->n : 0;
  *first = *n == 0 ? 0 : set == space->later ? space->whole->bodies->len + group->first : group->first;
}

gboolean
sw_space_bodies_for (const SwSpace *space, const SwRecord *record, GArray *bodies, GError **error)
{
  g_autoptr (SwRoute) route = NULL;
  if (sw_record_table (record) == SW_TABLE_RUN)
    {
      route = sw_route_new (space->deck, space->rules, (const SwRun *) record, error);
      if (route == NULL)
        return FALSE;
    }
  sw_bodies_of_record (space->deck, space->rules, record, route, bodies);
  return TRUE;
}

const SwNeighbours *
sw_space_index (const SwSpace *space)
{
  return space->index;
}
