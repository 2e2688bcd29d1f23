/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Each table is a spine of chunks of at most 256 records sorted by id. A new job copies the spines (one pointer a
 * chunk) and only those chunks that change: a chunk with one reference belongs to the job under construction. */
#include "job/edit.h"
#include "base/error.h"
#include <string.h>

#define CHUNK_SIZE 256

typedef struct
{
  gatomicrefcount refs;
  guint n;
  SwRecord *records[CHUNK_SIZE];
} Chunk;

typedef struct
{
  GPtrArray *chunks; /* Chunk, none empty */
  guint count;
  gint64 last_serial; /* highest ever used here */
} Table;

struct _SwJob
{
  gatomicrefcount refs;
  Table tables[SW_N_TABLES];
};

static Chunk *
chunk_new (void)
{
  Chunk *chunk = g_new0 (Chunk, 1);
  g_atomic_ref_count_init (&chunk->refs);
  return chunk;
}

static Chunk *
chunk_ref (Chunk *chunk)
{
  g_atomic_ref_count_inc (&chunk->refs);
  return chunk;
}

static void
chunk_unref (gpointer data)
{
  Chunk *chunk = data;
  if (!g_atomic_ref_count_dec (&chunk->refs))
    return;
  for (guint i = 0; i < chunk->n; i++)
    sw_record_unref (chunk->records[i]);
  g_free (chunk);
}

static SwJob *
job_alloc (void)
{
  SwJob *job = g_new0 (SwJob, 1);
  g_atomic_ref_count_init (&job->refs);
  for (SwTable table = 0; table < SW_N_TABLES; table++)
    job->tables[table].chunks = g_ptr_array_new_with_free_func (chunk_unref);
  return job;
}

static SwJob *
job_copy (const SwJob *job)
{
  SwJob *copy = job_alloc ();
  for (SwTable table = 0; table < SW_N_TABLES; table++)
    {
      const Table *from = &job->tables[table];
      Table *to = &copy->tables[table];
      for (guint i = 0; i < from->chunks->len; i++)
        g_ptr_array_add (to->chunks, chunk_ref (from->chunks->pdata[i]));
      to->count = from->count;
      to->last_serial = from->last_serial;
    }
  return copy;
}

/* Index of the first chunk whose last record is not before `id`, or of the last chunk. */
static guint
table_chunk_for (const Table *table, SwId id)
{
  guint low = 0, high = table->chunks->len;
  while (low < high)
    {
      guint middle = (low + high) / 2;
      const Chunk *chunk = table->chunks->pdata[middle];
      if (chunk->records[chunk->n - 1]->id < id)
        low = middle + 1;
      else
        high = middle;
    }
  return MIN (low, table->chunks->len > 0 ? table->chunks->len - 1 : 0);
}

static guint
chunk_place (const Chunk *chunk, SwId id)
{
  guint low = 0, high = chunk->n;
  while (low < high)
    {
      guint middle = (low + high) / 2;
      if (chunk->records[middle]->id < id)
        low = middle + 1;
      else
        high = middle;
    }
  return low;
}

/* The chunk, copied first when another job sees it too. */
static Chunk *
table_own_chunk (Table *table, guint i)
{
  Chunk *chunk = table->chunks->pdata[i];
  if (g_atomic_ref_count_compare (&chunk->refs, 1))
    return chunk;
  Chunk *copy = chunk_new ();
  copy->n = chunk->n;
  for (guint k = 0; k < chunk->n; k++)
    copy->records[k] = sw_record_ref (chunk->records[k]);
  chunk_unref (chunk);
  table->chunks->pdata[i] = copy;
  return copy;
}

static void
table_insert (Table *table, const SwRecord *record)
{
  if (table->chunks->len == 0)
    g_ptr_array_add (table->chunks, chunk_new ());
  guint i = ((Chunk *) table->chunks->pdata[0])->n == 0 ? 0 : table_chunk_for (table, record->id);
  Chunk *chunk = table_own_chunk (table, i);
  guint place = chunk_place (chunk, record->id);
  if (chunk->n == CHUNK_SIZE)
    {
      /* Appending, the usual way to grow, starts a fresh chunk; elsewhere the chunk is halved. */
      guint keep = place == CHUNK_SIZE ? CHUNK_SIZE : CHUNK_SIZE / 2;
      Chunk *upper = chunk_new ();
      upper->n = CHUNK_SIZE - keep;
      memcpy (upper->records, chunk->records + keep, upper->n * sizeof *upper->records);
      chunk->n = keep;
      g_ptr_array_insert (table->chunks, (int) i + 1, upper);
      if (place > keep || keep == CHUNK_SIZE)
        {
          chunk = upper;
          place -= keep;
        }
    }
  memmove (chunk->records + place + 1, chunk->records + place, (chunk->n - place) * sizeof *chunk->records);
  chunk->records[place] = sw_record_ref (record);
  chunk->n++;
  table->count++;
  table->last_serial = MAX (table->last_serial, SW_ID_SERIAL (record->id));
}

/* The record must be there. */
static void
table_replace (Table *table, SwId id, const SwRecord *after)
{
  guint i = table_chunk_for (table, id);
  Chunk *chunk = table_own_chunk (table, i);
  guint place = chunk_place (chunk, id);
  sw_record_unref (chunk->records[place]);
  if (after != NULL)
    {
      chunk->records[place] = sw_record_ref (after);
      return;
    }
  memmove (chunk->records + place, chunk->records + place + 1, (chunk->n - place - 1) * sizeof *chunk->records);
  chunk->n--;
  table->count--;
  if (chunk->n == 0)
    g_ptr_array_remove_index (table->chunks, i);
}

SwJob *
sw_job_new (void)
{
  SwJob *job = job_alloc ();
  g_autoptr (SwRecord) info = sw_record_new (SW_ID (SW_TABLE_JOB, 1), "");
  table_insert (&job->tables[SW_TABLE_JOB], info);
  return job;
}

SwJob *
sw_job_ref (SwJob *job)
{
  g_atomic_ref_count_inc (&job->refs);
  return job;
}

void
sw_job_unref (SwJob *job)
{
  if (!g_atomic_ref_count_dec (&job->refs))
    return;
  for (SwTable table = 0; table < SW_N_TABLES; table++)
    g_ptr_array_unref (job->tables[table].chunks);
  g_free (job);
}

const SwJobInfo *
sw_job_info (const SwJob *job)
{
  return (const SwJobInfo *) sw_job_nth (job, SW_TABLE_JOB, 0);
}

SwLengths
sw_job_lengths (const SwJob *job)
{
  return (SwLengths) sw_job_info (job)->units;
}

const SwRecord *
sw_job_get (const SwJob *job, SwId id)
{
  if (id <= 0 || SW_ID_TABLE (id) >= SW_N_TABLES)
    return NULL;
  const Table *table = &job->tables[SW_ID_TABLE (id)];
  if (table->chunks->len == 0)
    return NULL;
  const Chunk *chunk = table->chunks->pdata[table_chunk_for (table, id)];
  guint place = chunk_place (chunk, id);
  return place < chunk->n && chunk->records[place]->id == id ? chunk->records[place] : NULL;
}

const SwRecord *
sw_job_find (const SwJob *job, const char *tag)
{
  for (SwTable table = 0; table < SW_N_TABLES; table++)
    {
      const SwRecord *record;
      for (SwJobIter i = sw_job_iter (job, table); (record = sw_job_iter_next (&i)) != NULL;)
        if (strcmp (record->tag, tag) == 0)
          return record;
    }
  return NULL;
}

guint
sw_job_count (const SwJob *job, SwTable table)
{
  return job->tables[table].count;
}

const SwRecord *
sw_job_nth (const SwJob *job, SwTable table, guint i)
{
  const GPtrArray *chunks = job->tables[table].chunks;
  g_assert (i < job->tables[table].count);
  guint at = 0;
  for (;; at++)
    {
      const Chunk *chunk = chunks->pdata[at];
      if (i < chunk->n)
        return chunk->records[i];
      i -= chunk->n;
    }
}

SwJobIter
sw_job_iter (const SwJob *job, SwTable table)
{
  return (SwJobIter){ job, table, 0, 0 };
}

const SwRecord *
sw_job_iter_next (SwJobIter *iter)
{
  const GPtrArray *chunks = iter->job->tables[iter->table].chunks;
  if (iter->chunk >= chunks->len)
    return NULL;
  const Chunk *chunk = chunks->pdata[iter->chunk];
  const SwRecord *record = chunk->records[iter->at++];
  if (iter->at >= chunk->n)
    {
      iter->chunk++;
      iter->at = 0;
    }
  return record;
}

SwId
sw_job_next_id (const SwJob *job, SwTable table, guint ahead)
{
  return SW_ID (table, job->tables[table].last_serial + 1 + ahead);
}

char *
sw_job_free_tag (const SwJob *job, SwTable table, guint ahead)
{
  for (guint number = sw_job_count (job, table) + 1;; number++)
    {
      g_autofree char *tag = g_strdup_printf ("%s%u", sw_type_get (table)->prefix, number);
      if (sw_job_find (job, tag) == NULL && ahead-- == 0)
        return g_steal_pointer (&tag);
    }
}

static gboolean
conflict (const SwRecord *wanted, GError **error)
{
  g_set_error (error, SW_ERROR, SW_ERROR_CONFLICT, "%s \"%s\" is no longer what this change starts from",
               sw_record_type (wanted)->label, wanted->tag);
  return FALSE;
}

static gboolean
job_change (SwJob *job, SwId id, const SwRecord *before, const SwRecord *after, GError **error)
{
  const SwRecord *now = sw_job_get (job, id);
  if (before == NULL ? now != NULL : now == NULL || !sw_record_equal (now, before))
    return conflict (before ? before : after, error);
  Table *table = &job->tables[SW_ID_TABLE (id)];
  if (before == NULL)
    table_insert (table, after);
  else
    table_replace (table, id, after);
  return TRUE;
}

typedef struct
{
  const SwJob *job;
  const SwRecord *record;
  GError *error;
} RefCheck;

static void
check_ref (const SwField *field, SwId *ref, gpointer data)
{
  RefCheck *check = data;
  if (check->error != NULL)
    return;
  const char *what = sw_record_type (check->record)->label;
  if (*ref == 0)
    {
      if (field->flags & SW_FLAG_OWNER)
        g_set_error (&check->error, SW_ERROR, SW_ERROR_INVALID, "%s \"%s\".%s: must name something", what, check->record->tag, field->key);
    }
  else if (sw_job_get (check->job, *ref) == NULL || !(field->refs & (1u << SW_ID_TABLE (*ref))))
    g_set_error (&check->error, SW_ERROR, SW_ERROR_INVALID, "%s \"%s\".%s: what it names is not in the job", what, check->record->tag, field->key);
}

/* References of what came must lead somewhere; when something went, all references are looked at. */
static gboolean
job_check_refs (const SwJob *job, const SwEdit *edit, gboolean forward, GError **error)
{
  gboolean removes = FALSE;
  RefCheck check = { job, NULL, NULL };
  for (guint i = 0; i < edit->changes->len && check.error == NULL; i++)
    {
      const SwChange *change = &g_array_index (edit->changes, SwChange, i);
      check.record = forward ? change->after : change->before;
      if (check.record == NULL)
        removes = TRUE;
      else
        sw_record_each_ref ((SwRecord *) check.record, check_ref, &check);
    }
  for (SwTable table = 0; removes && check.error == NULL && table < SW_N_TABLES; table++)
    for (SwJobIter i = sw_job_iter (job, table); check.error == NULL && (check.record = sw_job_iter_next (&i)) != NULL;)
      sw_record_each_ref ((SwRecord *) check.record, check_ref, &check);
  if (check.error == NULL)
    return TRUE;
  g_propagate_error (error, check.error);
  return FALSE;
}

/* Marks can only come to stand twice when the edit brings or changes one. */
static gboolean
job_check_tags (const SwJob *job, const SwEdit *edit, gboolean forward, GError **error)
{
  g_autoptr (GHashTable) fresh = g_hash_table_new (g_str_hash, g_str_equal);
  for (guint i = 0; i < edit->changes->len; i++)
    {
      const SwChange *change = &g_array_index (edit->changes, SwChange, i);
      const SwRecord *after = forward ? change->after : change->before, *before = forward ? change->before : change->after;
      if (after != NULL && *after->tag != '\0' && (before == NULL || strcmp (before->tag, after->tag) != 0))
        g_hash_table_insert (fresh, after->tag, (gpointer) after);
    }
  if (g_hash_table_size (fresh) == 0)
    return TRUE;
  for (SwTable table = 0; table < SW_N_TABLES; table++)
    {
      const SwRecord *record, *other;
      for (SwJobIter i = sw_job_iter (job, table); (record = sw_job_iter_next (&i)) != NULL;)
        if ((other = g_hash_table_lookup (fresh, record->tag)) != NULL && other->id != record->id)
          {
            g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "the mark \"%s\" stands on a %s and on a %s: choose another", record->tag,
                         sw_record_type (record)->label, sw_record_type (other)->label);
            return FALSE;
          }
    }
  return TRUE;
}

SwJob *
sw_job_apply (SwJob *job, const SwEdit *edit, gboolean forward, GError **error)
{
  g_autoptr (SwJob) next = job_copy (job);
  for (guint i = 0; i < edit->changes->len; i++)
    {
      const SwChange *change = &g_array_index (edit->changes, SwChange, i);
      if (!job_change (next, change->id, forward ? change->before : change->after, forward ? change->after : change->before, error))
        return NULL;
    }
  if (sw_job_count (next, SW_TABLE_JOB) != 1)
    {
      g_set_error_literal (error, SW_ERROR, SW_ERROR_INVALID, "a job has exactly one \"job\" record");
      return NULL;
    }
  if (!job_check_tags (next, edit, forward, error) || !job_check_refs (next, edit, forward, error))
    return NULL;
  return g_steal_pointer (&next);
}

gboolean
sw_job_drop_place (const SwJob *job, const SwDrop *drop, SwPoint *at)
{
  const SwWall *wall = (const SwWall *) sw_job_get (job, drop->wall);
  if (wall == NULL)
    return FALSE;
  double length = sw_point_distance (wall->from, wall->to);
  *at = sw_point_lerp (wall->from, wall->to, length > 0 ? drop->along / length : 0);
  return TRUE;
}

gboolean
sw_job_equal (const SwJob *a, const SwJob *b)
{
  for (SwTable table = 0; table < SW_N_TABLES; table++)
    {
      if (sw_job_count (a, table) != sw_job_count (b, table))
        return FALSE;
      SwJobIter ia = sw_job_iter (a, table), ib = sw_job_iter (b, table);
      const SwRecord *ra, *rb;
      while ((ra = sw_job_iter_next (&ia)) != NULL && (rb = sw_job_iter_next (&ib)) != NULL)
        if (!sw_record_equal (ra, rb))
          return FALSE;
    }
  return TRUE;
}
