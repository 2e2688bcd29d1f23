/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/edit.h"
#include <string.h>

static void
change_clear (gpointer data)
{
  SwChange *change = data;
  g_clear_pointer (&change->before, sw_record_unref);
  g_clear_pointer (&change->after, sw_record_unref);
}

SwEdit *
sw_edit_new (const char *name)
{
  SwEdit *edit = g_new0 (SwEdit, 1);
  g_atomic_ref_count_init (&edit->refs);
  edit->name = g_strdup (name);
  edit->changes = g_array_new (FALSE, FALSE, sizeof (SwChange));
  g_array_set_clear_func (edit->changes, change_clear);
  edit->places = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  return edit;
}

SwEdit *
sw_edit_ref (SwEdit *edit)
{
  g_atomic_ref_count_inc (&edit->refs);
  return edit;
}

void
sw_edit_unref (SwEdit *edit)
{
  if (!g_atomic_ref_count_dec (&edit->refs))
    return;
  g_array_unref (edit->changes);
  g_hash_table_unref (edit->places);
  g_free (edit->name);
  g_free (edit);
}

static SwChange *
edit_change (const SwEdit *edit, SwId id)
{
  guint place = GPOINTER_TO_UINT (g_hash_table_lookup (edit->places, &id));
  return place > 0 ? &g_array_index (edit->changes, SwChange, place - 1) : NULL;
}

/* Takes `after` over. A change that ends where it began, and one that never was, are dropped. */
static void
edit_set (SwEdit *edit, const SwJob *job, SwId id, SwRecord *after)
{
  SwChange *change = edit_change (edit, id);
  if (change == NULL)
    {
      const SwRecord *before = job ? sw_job_get (job, id) : NULL;
      SwChange fresh = { id, before ? sw_record_ref (before) : NULL, after };
      if (after == before || (after != NULL && before != NULL && sw_record_equal (before, after)))
        {
          change_clear (&fresh);
          return;
        }
      g_array_append_val (edit->changes, fresh);
      g_hash_table_insert (edit->places, g_memdup2 (&id, sizeof id), GUINT_TO_POINTER (edit->changes->len));
      return;
    }
  g_clear_pointer (&change->after, sw_record_unref);
  change->after = after;
  if (change->before == NULL ? after == NULL : after != NULL && sw_record_equal (change->before, after))
    {
      guint place = GPOINTER_TO_UINT (g_hash_table_lookup (edit->places, &id));
      g_array_remove_index (edit->changes, place - 1);
      g_hash_table_remove_all (edit->places);
      for (guint i = 0; i < edit->changes->len; i++)
        g_hash_table_insert (edit->places, g_memdup2 (&g_array_index (edit->changes, SwChange, i).id, sizeof id), GUINT_TO_POINTER (i + 1));
    }
}

gboolean
sw_edit_put (SwEdit *edit, const SwJob *job, SwRecord *record, GError **error)
{
  if (!sw_record_settle (record, error))
    {
      g_prefix_error (error, "%s \"%s\".", sw_record_type (record)->label, record->tag);
      sw_record_unref (record);
      return FALSE;
    }
  edit_set (edit, job, record->id, record);
  return TRUE;
}

const SwRecord *
sw_edit_peek (const SwEdit *edit, const SwJob *job, SwId id)
{
  const SwChange *change = edit_change (edit, id);
  return change != NULL ? change->after : sw_job_get (job, id);
}

typedef struct
{
  SwId gone;
  gboolean names, owned;
} RefFind;

static void
find_ref (const SwField *field, SwId *ref, gpointer data)
{
  RefFind *find = data;
  if (*ref != find->gone)
    return;
  find->names = TRUE;
  find->owned |= (field->flags & SW_FLAG_OWNER) != 0;
}

static void
drop_ref (const SwField *field, SwId *ref, gpointer data)
{
  if (*ref == *(SwId *) data)
    *ref = 0;
}

/* A dependent either goes too or loses its reference. */
static void
release_dependent (SwEdit *edit, const SwJob *job, const SwRecord *record, SwId gone)
{
  RefFind find = { gone, FALSE, FALSE };
  sw_record_each_ref ((SwRecord *) record, find_ref, &find);
  if (find.owned)
    sw_edit_remove (edit, job, record->id);
  else if (find.names)
    {
      SwRecord *copy = sw_record_copy (record);
      sw_record_each_ref (copy, drop_ref, &gone);
      edit_set (edit, job, copy->id, copy);
    }
}

void
sw_edit_remove (SwEdit *edit, const SwJob *job, SwId id)
{
  if (sw_edit_peek (edit, job, id) == NULL)
    return;
  edit_set (edit, job, id, NULL);
  for (SwTable table = 0; table < SW_N_TABLES; table++)
    {
      const SwRecord *record;
      for (SwJobIter i = sw_job_iter (job, table); (record = sw_job_iter_next (&i)) != NULL;)
        {
          const SwRecord *now = sw_edit_peek (edit, job, record->id);
          if (now != NULL)
            release_dependent (edit, job, now, id);
        }
    }
}

SwRecord *
sw_edit_create (const SwEdit *edit, const SwJob *job, SwTable table)
{
  guint ahead = 0;
  g_autoptr (GHashTable) taken = g_hash_table_new (g_str_hash, g_str_equal);
  for (guint i = 0; edit != NULL && i < edit->changes->len; i++)
    {
      const SwChange *change = &g_array_index (edit->changes, SwChange, i);
      ahead += change->before == NULL && SW_ID_TABLE (change->id) == table;
      if (change->after != NULL)
        g_hash_table_add (taken, change->after->tag);
    }
  SwId id = sw_job_next_id (job, table, ahead);
  for (guint skip = 0;; skip++)
    {
      g_autofree char *tag = sw_job_free_tag (job, table, skip);
      if (!g_hash_table_contains (taken, tag))
        return sw_record_new (id, tag);
    }
}

SwEdit *
sw_edit_between (const char *name, const SwJob *from, const SwJob *to)
{
  SwEdit *edit = sw_edit_new (name);
  for (SwTable table = 0; table < SW_N_TABLES; table++)
    {
      const SwRecord *record;
      for (SwJobIter i = sw_job_iter (from, table); (record = sw_job_iter_next (&i)) != NULL;)
        if (sw_job_get (to, record->id) == NULL)
          edit_set (edit, from, record->id, NULL);
      for (SwJobIter i = sw_job_iter (to, table); (record = sw_job_iter_next (&i)) != NULL;)
        edit_set (edit, from, record->id, sw_record_ref (record));
    }
  return edit;
}

gboolean
sw_edit_is_empty (const SwEdit *edit)
{
  return edit->changes->len == 0;
}

SwBox
sw_edit_box (const SwEdit *edit)
{
  SwBox box = SW_BOX_EMPTY;
  for (guint i = 0; i < edit->changes->len; i++)
    {
      const SwChange *change = &g_array_index (edit->changes, SwChange, i);
      if (change->before != NULL)
        box = sw_box_union (box, sw_record_box (change->before));
      if (change->after != NULL)
        box = sw_box_union (box, sw_record_box (change->after));
    }
  return box;
}
