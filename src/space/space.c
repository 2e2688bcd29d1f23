/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bodies stand in one array, those of one record side by side, records in id order. An update takes the bodies of unchanged
 * records over unless something changed that others hang on (deck, rooms, measurements); the search tree is built anew, which
 * costs less than the exact distances that follow. */
#include "job/edit.h"
#include "space/bodies.h"
#include "space/index.h"
#include <string.h>

typedef struct
{
  const SwRecord *record;
  guint first, n;
} Group;

struct _SwSpace
{
  gatomicrefcount refs;
  SwDeck *deck;
  SwRules *rules;
  GArray *bodies;      /* SwBody */
  GArray *groups;      /* Group, sorted by the record's id */
  GHashTable *routes;  /* SwId → SwRoute */
  GPtrArray *faults;
  SwIndex *index; /* over bodies' boxes grown by their margins */
};

/* Tables that have bodies, in the order in which they stand. */
static const SwTable solid_tables[] = {
  SW_TABLE_BAY, SW_TABLE_COLUMN, SW_TABLE_BEAM, SW_TABLE_WALL, SW_TABLE_FITTING, SW_TABLE_RUN, SW_TABLE_LIGHT, SW_TABLE_LAYOUT,
};

static void
fault_free (gpointer data)
{
  SwSpaceFault *fault = data;
  g_free (fault->message);
  g_free (fault);
}

static SwSpace *
space_alloc (SwDeck *deck, SwRules *rules)
{
  SwSpace *space = g_new0 (SwSpace, 1);
  g_atomic_ref_count_init (&space->refs);
  space->deck = sw_deck_ref (deck);
  space->rules = sw_rules_ref (rules);
  space->bodies = g_array_new (FALSE, FALSE, sizeof (SwBody));
  space->groups = g_array_new (FALSE, FALSE, sizeof (Group));
  space->routes = g_hash_table_new_full (g_int64_hash, g_int64_equal, NULL, (GDestroyNotify) sw_route_free);
  space->faults = g_ptr_array_new_with_free_func (fault_free);
  return space;
}

/* The route of a run, kept; NULL with a fault when it cannot be worked out. */
static const SwRoute *
space_add_route (SwSpace *space, const SwRecord *record)
{
  GError *error = NULL;
  SwRoute *route = sw_route_new (space->deck, space->rules, (const SwRun *) record, &error);
  if (route == NULL)
    {
      SwSpaceFault *fault = g_new0 (SwSpaceFault, 1);
      fault->owner = record->id;
      fault->message = g_strdup (error->message);
      g_ptr_array_add (space->faults, fault);
      g_error_free (error);
      return NULL;
    }
  g_hash_table_insert (space->routes, (gpointer) &record->id, route);
  return route;
}

static const Group *
space_group (const SwSpace *space, SwId owner)
{
  guint low = 0, high = space->groups->len;
  while (low < high)
    {
      guint middle = (low + high) / 2;
      if (g_array_index (space->groups, Group, middle).record->id < owner)
        low = middle + 1;
      else
        high = middle;
    }
  const Group *group = &g_array_index (space->groups, Group, low);
  return low < space->groups->len && group->record->id == owner ? group : NULL;
}

static void
space_add_record (SwSpace *space, const SwRecord *record, const SwSpace *before)
{
  Group group = { record, space->bodies->len, 0 };
  const Group *known = before != NULL ? space_group (before, record->id) : NULL;
  const SwRoute *route = sw_record_table (record) == SW_TABLE_RUN ? space_add_route (space, record) : NULL;
  if (known != NULL && known->record == record)
    g_array_append_vals (space->bodies, &g_array_index (before->bodies, SwBody, known->first), known->n);
  else
    sw_bodies_of_record (space->deck, space->rules, record, route, space->bodies);
  group.n = space->bodies->len - group.first;
  g_array_append_val (space->groups, group);
}

static SwSpace *
space_build (SwDeck *deck, SwRules *rules, const SwSpace *before, GError **error)
{
  g_autoptr (SwSpace) space = space_alloc (deck, rules);
  for (gsize t = 0; t < G_N_ELEMENTS (solid_tables); t++)
    {
      const SwRecord *record;
      for (SwJobIter i = sw_job_iter (sw_deck_job (deck), solid_tables[t]); (record = sw_job_iter_next (&i)) != NULL;)
        space_add_record (space, record, before);
    }
  g_autofree SwBox3 *boxes = g_new (SwBox3, MAX (space->bodies->len, 1));
  for (guint i = 0; i < space->bodies->len; i++)
    boxes[i] = sw_box3_grow (g_array_index (space->bodies, SwBody, i).box, g_array_index (space->bodies, SwBody, i).margin);
  space->index = sw_index_new (boxes, space->bodies->len);
  return g_steal_pointer (&space);
}

SwSpace *
sw_space_new (SwDeck *deck, SwRules *rules, GError **error)
{
  return space_build (deck, rules, NULL, error);
}

SwSpace *
sw_space_update (SwSpace *space, SwDeck *deck, const SwEdit *edit, GError **error)
{
  for (guint i = 0; i < edit->changes->len; i++)
    if (sw_bodies_depend_on (SW_ID_TABLE (g_array_index (edit->changes, SwChange, i).id)))
      return space_build (deck, space->rules, NULL, error);
  return space_build (deck, space->rules, space, error);
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
  g_clear_pointer (&space->index, sw_index_free);
  g_array_unref (space->bodies);
  g_array_unref (space->groups);
  g_hash_table_unref (space->routes);
  g_ptr_array_unref (space->faults);
  sw_rules_unref (space->rules);
  sw_deck_unref (space->deck);
  g_free (space);
}

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
  return g_hash_table_lookup (space->routes, &run);
}

const GPtrArray *
sw_space_faults (const SwSpace *space)
{
  return space->faults;
}

guint
sw_space_n_bodies (const SwSpace *space)
{
  return space->bodies->len;
}

const SwBody *
sw_space_body (const SwSpace *space, guint i)
{
  g_assert (i < space->bodies->len);
  return &g_array_index (space->bodies, SwBody, i);
}

void
sw_space_bodies_of (const SwSpace *space, SwId owner, guint *first, guint *n)
{
  const Group *group = space_group (space, owner);
  *first = group != NULL ? group->first : 0;
  *n = group != NULL ? group->n : 0;
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

SwIndex *
sw_space_index (const SwSpace *space)
{
  return space->index;
}
