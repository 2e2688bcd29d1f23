/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/pricer.h"

/* Shared by the main thread and the pricer's; freed by whoever leaves last. */
typedef struct
{
  gatomicrefcount refs;
  GMutex lock;
  GCond wake;
  SwJob *job; /* asked for, not begun */
  guint64 generation;
  SwId first;
  GCancellable *cancellable; /* of what is under way */
  gboolean quit;
  SwPricer *owner; /* main thread only; NULL once freed */
} Shared;

struct _SwPricer
{
  Shared *shared;
  SwPricerDone done;
  gpointer data;
  guint64 asked;
};

/* What the thread keeps from one asking to the next. */
typedef struct
{
  Shared *shared;
  SwPriceBase *base; /* of the last asking; NULL before it */
  GHashTable *rooms; /* &SwRoomPrice.room → SwRoomPrice, that hold for `base` */
} Work;

typedef struct
{
  Shared *shared;
  SwPricerNews news;
} Message;

static void
shared_unref (Shared *shared)
{
  if (!g_atomic_ref_count_dec (&shared->refs))
    return;
  g_clear_pointer (&shared->job, sw_job_unref);
  g_clear_object (&shared->cancellable);
  g_mutex_clear (&shared->lock);
  g_cond_clear (&shared->wake);
  g_free (shared);
}

static gboolean
take_message (gpointer data)
{
  Message *message = data;
  SwPricer *pricer = message->shared->owner;
  if (pricer != NULL && message->news.generation == pricer->asked)
    pricer->done (&message->news, pricer->data);
  return G_SOURCE_REMOVE;
}

static void
message_free (gpointer data)
{
  Message *message = data;
  g_clear_pointer (&message->news.room, sw_room_price_unref);
  g_clear_pointer (&message->news.job, sw_job_price_unref);
  g_clear_error (&message->news.fault);
  shared_unref (message->shared);
  g_free (message);
}

/* After input, so that typing goes first, but before drawing: a spinner that turns would keep it waiting for ever. */
static void
hand_over (Shared *shared, SwPricerNews news)
{
  Message *message = g_new0 (Message, 1);
  message->shared = shared;
  g_atomic_ref_count_inc (&shared->refs);
  message->news = news;
  g_idle_add_full (G_PRIORITY_HIGH_IDLE, take_message, message, message_free);
}

static gboolean
price_room (Work *work, SwId room, GCancellable *cancellable)
{
  SwRoomPrice *price = g_hash_table_lookup (work->rooms, &room);
  if (price == NULL)
    {
      price = sw_room_price_new (work->base, room, cancellable);
      if (price == NULL)
        return FALSE;
      g_hash_table_insert (work->rooms, &price->room, price);
    }
  hand_over (work->shared, (SwPricerNews){ SW_PRICED_ROOM, work->base->generation, .room = sw_room_price_ref (price) });
  return TRUE;
}

static void
price_all (Work *work, SwId first, GCancellable *cancellable)
{
  SwJob *job = sw_deck_job (work->base->deck);
  const SwRecord *record;
  GError *error = NULL;
  if (first != 0)
    price_room (work, first, cancellable);
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_ROOM); (record = sw_job_iter_next (&i)) != NULL;)
    if (record->id != first && !price_room (work, record->id, cancellable))
      return;
  SwJobPrice *price = sw_job_price_new (work->base, cancellable, &error);
  if (price != NULL)
    hand_over (work->shared, (SwPricerNews){ SW_PRICED_JOB, work->base->generation, .job = price });
  else if (!g_cancellable_is_cancelled (cancellable))
    hand_over (work->shared, (SwPricerNews){ SW_PRICED_FAULT, work->base->generation, .fault = g_steal_pointer (&error) });
  g_clear_error (&error);
}

static void
work_on (Work *work, SwJob *job, guint64 generation, SwId first, GCancellable *cancellable)
{
  GError *error = NULL;
  SwPriceBase *base = sw_price_base_new (job, generation, work->base, &error);
  if (base == NULL)
    {
      hand_over (work->shared, (SwPricerNews){ SW_PRICED_FAULT, generation, .fault = error });
      return;
    }
  if (work->base != NULL)
    sw_room_prices_drop (work->rooms, sw_deck_job (work->base->deck), sw_deck_job (base->deck));
  g_clear_pointer (&work->base, sw_price_base_unref);
  work->base = base;
  price_all (work, first, cancellable);
}

static gpointer
run (gpointer data)
{
  Shared *shared = data;
  Work work = { shared, NULL, g_hash_table_new_full (g_int64_hash, g_int64_equal, NULL, (GDestroyNotify) sw_room_price_unref) };
  g_mutex_lock (&shared->lock);
  while (!shared->quit)
    {
      if (shared->job == NULL)
        {
          g_cond_wait (&shared->wake, &shared->lock);
          continue;
        }
      g_autoptr (SwJob) job = g_steal_pointer (&shared->job);
      g_autoptr (GCancellable) cancellable = g_object_ref (shared->cancellable);
      guint64 generation = shared->generation;
      SwId first = shared->first;
      g_mutex_unlock (&shared->lock);
      work_on (&work, job, generation, first, cancellable);
      g_mutex_lock (&shared->lock);
    }
  g_mutex_unlock (&shared->lock);
  g_hash_table_unref (work.rooms);
  g_clear_pointer (&work.base, sw_price_base_unref);
  shared_unref (shared);
  return NULL;
}

SwPricer *
sw_pricer_new (SwPricerDone done, gpointer data)
{
  SwPricer *pricer = g_new0 (SwPricer, 1);
  Shared *shared = g_new0 (Shared, 1);
  g_atomic_ref_count_init (&shared->refs);
  g_atomic_ref_count_inc (&shared->refs);
  g_mutex_init (&shared->lock);
  g_cond_init (&shared->wake);
  shared->owner = pricer;
  pricer->shared = shared;
  pricer->done = done;
  pricer->data = data;
  g_thread_unref (g_thread_new ("price", run, shared));
  return pricer;
}

void
sw_pricer_free (SwPricer *pricer)
{
  if (pricer == NULL)
    return;
  Shared *shared = pricer->shared;
  shared->owner = NULL;
  g_mutex_lock (&shared->lock);
  shared->quit = TRUE;
  if (shared->cancellable != NULL)
    g_cancellable_cancel (shared->cancellable);
  g_cond_signal (&shared->wake);
  g_mutex_unlock (&shared->lock);
  shared_unref (shared);
  g_free (pricer);
}

void
sw_pricer_ask (SwPricer *pricer, SwJob *job, guint64 generation, SwId first)
{
  Shared *shared = pricer->shared;
  pricer->asked = generation;
  g_mutex_lock (&shared->lock);
  if (shared->cancellable != NULL)
    g_cancellable_cancel (shared->cancellable);
  g_clear_object (&shared->cancellable);
  shared->cancellable = g_cancellable_new ();
  g_clear_pointer (&shared->job, sw_job_unref);
  shared->job = sw_job_ref (job);
  shared->generation = generation;
  shared->first = first;
  g_cond_signal (&shared->wake);
  g_mutex_unlock (&shared->lock);
}
