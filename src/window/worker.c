/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/worker.h"

/* Shared by the main thread and the worker's; freed by whoever leaves last. */
typedef struct
{
  gatomicrefcount refs;
  GMutex lock;
  GCond wake;
  SwJob *job; /* asked for, not begun */
  guint64 generation;
  GCancellable *cancellable; /* of what is under way */
  GPtrArray *draft; /* SwRecord: asked for, not begun; of the job above */
  guint64 draft_serial;
  GCancellable *draft_cancellable;
  gboolean quit;
  SwWorker *owner; /* main thread only; NULL once freed */
} Shared;

struct _SwWorker
{
  Shared *shared;
  SwWorkerDone done;
  gpointer data;
  guint64 asked, got, checked;
  guint64 draft_asked, draft_least; /* what comes of an older one is dropped */
};

typedef struct
{
  Shared *shared;
  SwPicture *picture;
  guint64 draft_serial; /* 0: no draft */
} Result;

static void
shared_unref (Shared *shared)
{
  if (!g_atomic_ref_count_dec (&shared->refs))
    return;
  g_clear_pointer (&shared->job, sw_job_unref);
  g_clear_object (&shared->cancellable);
  g_clear_pointer (&shared->draft, g_ptr_array_unref);
  g_clear_object (&shared->draft_cancellable);
  g_mutex_clear (&shared->lock);
  g_cond_clear (&shared->wake);
  g_free (shared);
}

static gboolean
take_result (gpointer data)
{
  Result *result = data;
  SwWorker *worker = result->shared->owner;
  SwPicture *picture = result->picture;
  if (worker != NULL && result->draft_serial > 0)
    {
      if (result->draft_serial >= worker->draft_least)
        worker->done (picture, worker->data);
    }
  else if (worker != NULL && picture->generation >= worker->got && picture->generation > worker->checked
      && (picture->checked || picture->generation > worker->got))
    {
      worker->got = picture->generation;
      if (picture->checked || picture->space == NULL)
        worker->checked = picture->generation;
      worker->done (picture, worker->data);
    }
  return G_SOURCE_REMOVE;
}

static void
result_free (gpointer data)
{
  Result *result = data;
  sw_picture_unref (result->picture);
  shared_unref (result->shared);
  g_free (result);
}

static void
hand_over (Shared *shared, SwPicture *picture, guint64 draft_serial)
{
  Result *result = g_new0 (Result, 1);
  result->shared = shared;
  g_atomic_ref_count_inc (&shared->refs);
  result->picture = sw_picture_ref (picture);
  result->draft_serial = draft_serial;
  g_idle_add_full (G_PRIORITY_DEFAULT, take_result, result, result_free);
}

static void
keep (SwPicture **last, SwPicture *picture)
{
  g_clear_pointer (last, sw_picture_unref);
  *last = picture;
}

/* Called with the lock, which is open while the work is done. */
static void
work_on_job (Shared *shared, SwPicture **last)
{
  g_autoptr (SwJob) job = g_steal_pointer (&shared->job);
  g_autoptr (GCancellable) cancellable = g_object_ref (shared->cancellable);
  guint64 generation = shared->generation;
  g_mutex_unlock (&shared->lock);
  SwPicture *picture = sw_picture_new (job, generation, *last, cancellable);
  if (picture != NULL)
    {
      hand_over (shared, picture, 0);
      keep (last, picture);
      SwPicture *checked = sw_picture_check (picture, cancellable);
      if (checked != NULL)
        {
          hand_over (shared, checked, 0);
          keep (last, checked);
        }
    }
  g_mutex_lock (&shared->lock);
}

/* As above. Without a checked picture of its own job to start from, a draft is let go. */
static void
work_on_draft (Shared *shared, const SwPicture *last)
{
  g_autoptr (GPtrArray) draft = g_steal_pointer (&shared->draft);
  g_autoptr (GCancellable) cancellable = g_object_ref (shared->draft_cancellable);
  guint64 serial = shared->draft_serial;
  gboolean can = last != NULL && last->checked && last->space != NULL && last->generation == shared->generation;
  g_mutex_unlock (&shared->lock);
  g_autoptr (SwPicture) picture = can ? sw_picture_draft (last, (SwRecord *const *) draft->pdata, draft->len, cancellable) : NULL;
  if (picture != NULL)
    hand_over (shared, picture, serial);
  g_mutex_lock (&shared->lock);
}

static gpointer
work (gpointer data)
{
  Shared *shared = data;
  g_autoptr (SwPicture) last = NULL;
  g_mutex_lock (&shared->lock);
  while (!shared->quit)
    if (shared->job != NULL)
      work_on_job (shared, &last);
    else if (shared->draft != NULL)
      work_on_draft (shared, last);
    else
      g_cond_wait (&shared->wake, &shared->lock);
  g_mutex_unlock (&shared->lock);
  shared_unref (shared);
  return NULL;
}

SwWorker *
sw_worker_new (SwWorkerDone done, gpointer data)
{
  SwWorker *worker = g_new0 (SwWorker, 1);
  Shared *shared = g_new0 (Shared, 1);
  g_atomic_ref_count_init (&shared->refs);
  g_atomic_ref_count_inc (&shared->refs);
  g_mutex_init (&shared->lock);
  g_cond_init (&shared->wake);
  shared->owner = worker;
  worker->shared = shared;
  worker->done = done;
  worker->data = data;
  g_thread_unref (g_thread_new ("picture", work, shared));
  return worker;
}

/* With the lock. */
static void
forget_draft (Shared *shared)
{
  g_clear_pointer (&shared->draft, g_ptr_array_unref);
  if (shared->draft_cancellable != NULL)
    g_cancellable_cancel (shared->draft_cancellable);
  g_clear_object (&shared->draft_cancellable);
}

void
sw_worker_free (SwWorker *worker)
{
  if (worker == NULL)
    return;
  Shared *shared = worker->shared;
  shared->owner = NULL;
  g_mutex_lock (&shared->lock);
  shared->quit = TRUE;
  if (shared->cancellable != NULL)
    g_cancellable_cancel (shared->cancellable);
  forget_draft (shared);
  g_cond_signal (&shared->wake);
  g_mutex_unlock (&shared->lock);
  shared_unref (shared);
  g_free (worker);
}

void
sw_worker_ask (SwWorker *worker, SwJob *job, guint64 generation)
{
  Shared *shared = worker->shared;
  worker->asked = generation;
  worker->draft_least = worker->draft_asked + 1;
  g_mutex_lock (&shared->lock);
  forget_draft (shared);
  if (shared->cancellable != NULL)
    g_cancellable_cancel (shared->cancellable);
  g_clear_object (&shared->cancellable);
  shared->cancellable = g_cancellable_new ();
  g_clear_pointer (&shared->job, sw_job_unref);
  shared->job = sw_job_ref (job);
  shared->generation = generation;
  g_cond_signal (&shared->wake);
  g_mutex_unlock (&shared->lock);
}

void
sw_worker_ask_draft (SwWorker *worker, const GPtrArray *records)
{
  Shared *shared = worker->shared;
  GPtrArray *draft = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_record_unref);
  for (guint i = 0; i < records->len; i++)
    g_ptr_array_add (draft, sw_record_ref (records->pdata[i]));
  g_mutex_lock (&shared->lock);
  g_clear_pointer (&shared->draft, g_ptr_array_unref);
  shared->draft = draft;
  shared->draft_serial = ++worker->draft_asked;
  if (shared->draft_cancellable == NULL)
    shared->draft_cancellable = g_cancellable_new ();
  g_cond_signal (&shared->wake);
  g_mutex_unlock (&shared->lock);
}

void
sw_worker_drop_draft (SwWorker *worker)
{
  worker->draft_least = worker->draft_asked + 1;
  g_mutex_lock (&worker->shared->lock);
  forget_draft (worker->shared);
  g_mutex_unlock (&worker->shared->lock);
}

gboolean
sw_worker_is_busy (SwWorker *worker)
{
  return worker->checked < worker->asked;
}
