/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A list of snags brought up to date. What an edit may alter is found in three ways: the records that it changes; those that
 * refer to them or that they refer to, and what refers to that, before and after (two runs that end at one box); and those
 * that lie near, before or after, as far as any rule looks. These are checked again and their old snags dropped; all other
 * snags stay. Changes of what everything hangs on (deck, rooms, measurements) mean a whole check. Cost: one walk over the
 * references of tables that may refer to what changed, then the neighbourhood; it ends because both are finite. */
#include "checks/check.h"
#include "checks/snags.h"
#include "circuits/facts.h"
#include "job/edit.h"

#define ALL_LEVELS_MM 1e6

typedef struct
{
  const SwSpace *old;
  SwSpace *space;
  const SwEdit *edit;
  SwCheckLookup *lookup; /* of the later job */
  double reach;
  GHashTable *ids;       /* set of SwId: what is checked again */
} Recheck;

/* Concrete does not change but by a whole check, and meets everything. */
static void
add_id (Recheck *recheck, SwId id)
{
  static const guint32 concrete = SW_TABLE_BIT (SW_TABLE_BAY) | SW_TABLE_BIT (SW_TABLE_SOLID);
  if (id != 0 && !(concrete >> SW_ID_TABLE (id) & 1))
    g_hash_table_add (recheck->ids, g_memdup2 (&id, sizeof id));
}

static const SwChange *
change_at (const Recheck *recheck, guint i)
{
  return &g_array_index (recheck->edit->changes, SwChange, i);
}

/* ---- references */

/* Things that join what refers to them; a circuit or a profile does not. */
static const guint32 joining_tables = SW_TABLE_BIT (SW_TABLE_FITTING) | SW_TABLE_BIT (SW_TABLE_DROP_IN) | SW_TABLE_BIT (SW_TABLE_DROP)
                                      | SW_TABLE_BIT (SW_TABLE_RUN) | SW_TABLE_BIT (SW_TABLE_ROOM);

/* What a changed record refers to; where it joins, what else refers to it may see the change too. */
static void
add_referred (Recheck *recheck, const SwRecord *record, GHashTable *hubs)
{
  const SwStruct *body = record != NULL ? &sw_type_get (sw_record_table (record))->body : NULL;
  for (guint f = 0; body != NULL && f < body->n_fields; f++)
    {
      if (body->fields[f].kind != SW_FIELD_REF)
        continue;
      const SwId *id = (const SwId *) G_STRUCT_MEMBER_P (record, body->fields[f].offset);
      if (*id == 0)
        continue;
      add_id (recheck, *id);
      if (joining_tables >> SW_ID_TABLE (*id) & 1)
        g_hash_table_add (hubs, (gpointer) id);
    }
}

/* Records of a table that refer to one of the hubs, which stand in the tables `touched`. */
static void
add_referring (Recheck *recheck, SwTable table, guint32 touched, GHashTable *hubs)
{
  const SwStruct *body = &sw_type_get (table)->body;
  const SwRecord *record;
  gsize offsets[8];
  guint n = 0;
  for (guint f = 0; f < body->n_fields && n < G_N_ELEMENTS (offsets); f++)
    if (body->fields[f].kind == SW_FIELD_REF && body->fields[f].refs & touched)
      offsets[n++] = body->fields[f].offset;
  for (SwJobIter i = sw_job_iter (sw_space_job (recheck->space), table); n > 0 && (record = sw_job_iter_next (&i)) != NULL;)
    for (guint k = 0; k < n; k++)
      {
        const SwId *id = (const SwId *) G_STRUCT_MEMBER_P (record, offsets[k]);
        if (*id != 0 && touched >> SW_ID_TABLE (*id) & 1 && g_hash_table_contains (hubs, id))
          add_id (recheck, record->id);
      }
}

static void
add_linked (Recheck *recheck)
{
  guint32 touched = 0;
  GHashTableIter iter;
  gpointer id;
  g_autoptr (GHashTable) hubs = g_hash_table_new (g_int64_hash, g_int64_equal);
  for (guint i = 0; i < recheck->edit->changes->len; i++)
    {
      const SwChange *change = change_at (recheck, i);
      g_hash_table_add (hubs, (gpointer) &change->id);
      add_id (recheck, change->id);
      add_referred (recheck, change->before, hubs);
      add_referred (recheck, change->after, hubs);
    }
  g_hash_table_iter_init (&iter, hubs);
  while (g_hash_table_iter_next (&iter, &id, NULL))
    touched |= SW_TABLE_BIT (SW_ID_TABLE (*(const SwId *) id));
  for (guint table = 0; table < SW_N_TABLES; table++)
    add_referring (recheck, table, touched, hubs);
}

/* ---- places */

static gboolean
take_near (const SwBody *body, gpointer data)
{
  add_id (data, body->owner);
  return TRUE;
}

/* Tables without bodies whose records have a place, and rooms. */
static const SwTable flat_tables[] = { SW_TABLE_ROOM, SW_TABLE_HATCH, SW_TABLE_SLEEVE, SW_TABLE_DROP_IN, SW_TABLE_DROP, SW_TABLE_BULKHEAD };

static void
add_near (Recheck *recheck, SwBox3 box)
{
  SwBox3 wide = sw_box3_grow (box, recheck->reach);
  SwBox flat = { { wide.low.x, wide.low.y }, { wide.high.x, wide.high.y } };
  if (!(box.low.x <= box.high.x))
    return;
  sw_space_query (recheck->space, wide, ~0u, take_near, recheck);
  for (gsize t = 0; t < G_N_ELEMENTS (flat_tables); t++)
    {
      g_autoptr (GPtrArray) near = sw_check_lookup_near (recheck->lookup, flat_tables[t], flat);
      for (guint i = 0; i < near->len; i++)
        add_id (recheck, ((const SwRecord *) near->pdata[i])->id);
    }
}

static void
add_near_bodies (Recheck *recheck, const SwSpace *space, SwId id)
{
  guint first, n;
  sw_space_bodies_of (space, id, &first, &n);
  for (guint i = first; i < first + n; i++)
    add_near (recheck, sw_space_body (space, i)->box);
}

/* A hatch is looked for all along its void: as far as the longest bay reaches. */
static double
hatch_reach (const SwDeck *deck)
{
  double reach = 0;
  for (guint i = 0; i < sw_deck_n_bays (deck); i++)
    reach = fmax (reach, sw_deck_bay (deck, i)->length + sw_deck_bay (deck, i)->breadth);
  return reach;
}

static void
add_near_record (Recheck *recheck, const SwRecord *record)
{
  SwBox flat = record != NULL ? sw_record_box (record) : SW_BOX_EMPTY;
  if (record != NULL && sw_record_table (record) == SW_TABLE_HATCH)
    flat = sw_box_grow (flat, hatch_reach (sw_space_deck (recheck->space)));
  if (!sw_box_is_empty (flat))
    add_near (recheck, (SwBox3){ { flat.low.x, flat.low.y, -ALL_LEVELS_MM }, { flat.high.x, flat.high.y, ALL_LEVELS_MM } });
}

/* By bodies, which lie closer than the box of a run that goes round a corner; else by the record's box, at all levels. */
static void
add_neighbours (Recheck *recheck)
{
  for (guint i = 0; i < recheck->edit->changes->len; i++)
    {
      const SwChange *change = change_at (recheck, i);
      guint first, n_old, n_new;
      sw_space_bodies_of (recheck->old, change->id, &first, &n_old);
      sw_space_bodies_of (recheck->space, change->id, &first, &n_new);
      if (change->before != NULL && n_old == 0)
        add_near_record (recheck, change->before);
      if (change->after != NULL && n_new == 0)
        add_near_record (recheck, change->after);
      add_near_bodies (recheck, recheck->old, change->id);
      add_near_bodies (recheck, recheck->space, change->id);
    }
}

/* ---- circuits */

/* Conduits side by side share a group, and a row of them reaches farther than any rule looks: all that hangs together with those to be
 * checked again, and the circuits of it. And a circuit's way to its board may go through the runs of others. */
static void
add_circuits_of (Recheck *recheck, const SwSpace *space)
{
  g_autoptr (GArray) runs = g_array_new (FALSE, FALSE, sizeof (SwId));
  g_autoptr (GPtrArray) records = g_ptr_array_new ();
  GHashTableIter iter;
  gpointer id;
  g_hash_table_iter_init (&iter, recheck->ids);
  while (g_hash_table_iter_next (&iter, &id, NULL))
    if (SW_ID_TABLE (*(const SwId *) id) == SW_TABLE_RUN)
      {
        const SwRecord *record = sw_job_get (sw_space_job (space), *(const SwId *) id);
        g_array_append_vals (runs, id, 1);
        if (record != NULL && sw_circuits_warms ((const SwRun *) record))
          g_ptr_array_add (records, (gpointer) record);
      }
  g_autoptr (GPtrArray) conduits = sw_circuits_conduits_near (space, (const SwId *) runs->data, runs->len);
  for (guint i = 0; i < conduits->len; i++)
    add_id (recheck, ((const SwRoute *) conduits->pdata[i])->run->circuit);
  g_autoptr (GPtrArray) connected = sw_circuits_connected (sw_space_job (space), records);
  for (guint i = 0; i < connected->len; i++)
    add_id (recheck, ((const SwRun *) connected->pdata[i])->circuit);
}

/* ---- pipes */

static void
add_outlet (Recheck *recheck, const SwOutlet *outlet)
{
  add_id (recheck, outlet->thing);
  add_id (recheck, outlet->run);
}

/* What stands in one list only, or not the same in both. */
static void
add_differing (Recheck *recheck, const GArray *before, const GArray *after)
{
  guint i = 0, k = 0;
  while (i < before->len || k < after->len)
    {
      const SwOutlet *a = i < before->len ? &g_array_index (before, SwOutlet, i) : NULL, *b = k < after->len ? &g_array_index (after, SwOutlet, k) : NULL;
      int order = a == NULL ? 1 : b == NULL ? -1 : sw_outlet_compare (a, b);
      if (order != 0)
        add_outlet (recheck, order < 0 ? a : b);
      else if (a->units != b->units || a->along != b->along)
        add_outlet (recheck, b);
      i += order <= 0;
      k += order >= 0;
    }
}

/* An outlet runs into the nearest pipe that passes, so that a change may give it to another. */
static void
add_outlets (Recheck *recheck)
{
  static const guint32 tables = SW_TABLE_BIT (SW_TABLE_RUN) | SW_TABLE_BIT (SW_TABLE_FITTING) | SW_TABLE_BIT (SW_TABLE_DROP_IN) | SW_TABLE_BIT (SW_TABLE_DROP)
                                | SW_TABLE_BIT (SW_TABLE_WALL);
  guint32 changed = 0;
  for (guint i = 0; i < recheck->edit->changes->len; i++)
    changed |= SW_TABLE_BIT (SW_ID_TABLE (change_at (recheck, i)->id));
  if (!(changed & tables))
    return;
  const SwRules *rules = sw_space_rules (recheck->space);
  g_autoptr (SwBranches) before = sw_branches_new (sw_space_job (recheck->old), rules);
  const SwBranches *after = sw_check_lookup_branches (recheck->lookup, rules);
  add_differing (recheck, sw_branches_outlets (before), sw_branches_outlets (after));
}

/* What a pipe carries is carried by all that it leads into. */
static void
add_mains (Recheck *recheck, const SwJob *job)
{
  g_autoptr (GArray) ids = g_array_new (FALSE, FALSE, sizeof (SwId));
  GHashTableIter iter;
  gpointer key;
  g_hash_table_iter_init (&iter, recheck->ids);
  while (g_hash_table_iter_next (&iter, &key, NULL))
    if (SW_ID_TABLE (*(const SwId *) key) == SW_TABLE_RUN)
      g_array_append_vals (ids, key, 1);
  for (guint i = 0; i < ids->len; i++)
    {
      const SwRun *run = (const SwRun *) sw_job_get (job, g_array_index (ids, SwId, i));
      SwId into = run != NULL ? sw_branches_main (job, run) : 0;
      if (into == 0 || g_hash_table_contains (recheck->ids, &into))
        continue;
      add_id (recheck, into);
      g_array_append_val (ids, into);
    }
}

/* ---- prices */

/* What a board may do, and from what a room with the cheapest sheets was laid out, stands in the price list. */
static void
add_priced (Recheck *recheck)
{
  static const SwTable priced[] = { SW_TABLE_ROOM, SW_TABLE_LAYOUT };
  const SwRecord *record;
  guint i = 0;
  while (i < recheck->edit->changes->len && SW_ID_TABLE (change_at (recheck, i)->id) != SW_TABLE_PRICE)
    i++;
  for (gsize t = 0; t < G_N_ELEMENTS (priced) && i < recheck->edit->changes->len; t++)
    for (SwJobIter k = sw_job_iter (sw_space_job (recheck->space), priced[t]); (record = sw_job_iter_next (&k)) != NULL;)
      add_id (recheck, record->id);
}

/* ---- the new list */

static gboolean
is_stale (GHashTable *ids, const SwSnag *snag)
{
  if (snag->subject != 0)
    return g_hash_table_contains (ids, &snag->subject);
  return g_hash_table_contains (ids, &snag->owners[0]) || g_hash_table_contains (ids, &snag->owners[1]);
}

static void
append_copy (GArray *snags, const SwSnag *snag)
{
  g_array_append_vals (snags, snag, 1);
  g_array_index (snags, SwSnag, snags->len - 1).detail = g_strdup (snag->detail);
}

static GArray *
merged (const SwSnags *before, GHashTable *ids, const SwSnags *again)
{
  SwDeck *deck = sw_space_deck (sw_snags_space (again)), *old = sw_space_deck (sw_snags_space (before));
  gboolean same_bays = sw_deck_n_bays (deck) > 0 && sw_deck_n_bays (old) > 0 && sw_deck_bay (deck, 0) == sw_deck_bay (old, 0);
  GArray *snags = g_array_new (FALSE, FALSE, sizeof (SwSnag));
  g_array_set_clear_func (snags, (GDestroyNotify) sw_snag_clear);
  for (guint i = 0; i < sw_snags_n (before); i++)
    {
      const SwSnag *snag = sw_snags_get (before, i);
      if (is_stale (ids, snag))
        continue;
      append_copy (snags, snag);
      SwSnag *kept = &g_array_index (snags, SwSnag, snags->len - 1);
      if (!same_bays) /* an address points into its deck */
        kept->address = sw_deck_address (deck, (SwPoint){ kept->place.x, kept->place.y });
    }
  for (guint i = 0; i < sw_snags_n (again); i++)
    append_copy (snags, sw_snags_get (again, i));
  return snags;
}

static int
compare_ids (gconstpointer pa, gconstpointer pb)
{
  SwId a = *(const SwId *) pa, b = *(const SwId *) pb;
  return a < b ? -1 : a > b;
}

/* Those that are still there. */
static GArray *
there_in_order (const SwSpace *space, GHashTable *set)
{
  GArray *ids = g_array_new (FALSE, FALSE, sizeof (SwId));
  GHashTableIter iter;
  gpointer id;
  g_hash_table_iter_init (&iter, set);
  while (g_hash_table_iter_next (&iter, &id, NULL))
    if (sw_job_get (sw_space_job (space), *(const SwId *) id) != NULL)
      g_array_append_vals (ids, id, 1);
  g_array_sort (ids, compare_ids);
  return ids;
}

static gboolean
needs_all (const SwSpace *before, const SwSpace *space, const SwEdit *edit)
{
  for (guint i = 0; i < edit->changes->len; i++)
    if (sw_space_hangs_on (SW_ID_TABLE (g_array_index (edit->changes, SwChange, i).id)))
      return TRUE;
  return sw_space_rules (before) != sw_space_rules (space);
}

/* The job's own record comes always, for faults that belong to no run. */
GHashTable *
sw_check_touched (const SwSpace *before, SwSpace *space, const SwEdit *edit)
{
  if (needs_all (before, space, edit))
    return NULL;
  Recheck recheck = { before, space, edit, sw_check_lookup_new (sw_space_deck (space)), sw_check_farthest (space),
                      g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL) };
  add_linked (&recheck);
  add_neighbours (&recheck);
  add_outlets (&recheck);
  add_priced (&recheck);
  add_mains (&recheck, sw_space_job (before));
  add_mains (&recheck, sw_space_job (space));
  add_circuits_of (&recheck, before);
  add_circuits_of (&recheck, space);
  add_id (&recheck, sw_job_info (sw_space_job (space))->record.id);
  sw_check_lookup_free (recheck.lookup);
  return recheck.ids;
}

SwSnags *
sw_check_touched_snags (SwSpace *space, GHashTable *touched, const SwCheckOptions *options)
{
  if (touched == NULL)
    return sw_checks_run (space, options, NULL, NULL, NULL, NULL);
  g_autoptr (GArray) ids = there_in_order (space, touched);
  return sw_checks_of (space, options, (const SwId *) ids->data, ids->len);
}

SwSnags *
sw_checks_update (const SwSnags *before, SwSpace *space, const SwEdit *edit, const SwCheckOptions *options,
                  GCancellable *cancellable, GError **error)
{
  g_autoptr (GHashTable) touched = sw_check_touched (sw_snags_space (before), space, edit);
  if (touched == NULL)
    return sw_checks_run (space, options, cancellable, NULL, NULL, error);
  g_autoptr (SwSnags) again = sw_check_touched_snags (space, touched, options);
  return sw_snags_new (space, merged (before, touched, again));
}
