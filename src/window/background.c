/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/background.h"

enum { FIRST, LATER, N_SLOTS };

/* Shared by the main thread and the other one; freed by whoever leaves last. */
struct _SwBackgroundWork
{
  gatomicrefcount refs;
  const SwBackgroundKind *kind;
  gpointer memory; /* the thread's */
  GMutex lock;
  GCond wake;
  struct
  {
    gpointer order;            /* asked for, not begun */
    GCancellable *cancellable; /* of what is asked for or under way */
  } slots[N_SLOTS];            /* the first goes before the second */
  gboolean quit;
  SwBackground *owner; /* main thread only; NULL once freed */
};

struct _SwBackground
{
  SwBackgroundWork *shared;
  gpointer data;
};

typedef struct
{
  SwBackgroundWork *shared;
  gpointer news;
} Message;

static void
shared_unref (SwBackgroundWork *shared)
{
  if (!g_atomic_ref_count_dec (&shared->refs))
    return;
  for (int i = 0; i < N_SLOTS; i++)
    {
      g_clear_pointer (&shared->slots[i].order, shared->kind->order_free);
      g_clear_object (&shared->slots[i].cancellable);
    }
  g_mutex_clear (&shared->lock);
  g_cond_clear (&shared->wake);
  g_free (shared);
}

static gboolean
take_message (gpointer data)
{
  Message *message = data;
  SwBackground *owner = message->shared->owner;
  if (owner != NULL)
    message->shared->kind->take (message->news, owner->data);
  return G_SOURCE_REMOVE;
}

static void
message_free (gpointer data)
{
  Message *message = data;
  message->shared->kind->news_free (message->news);
  shared_unref (message->shared);
  g_free (message);
}

void
sw_background_hand_over (SwBackgroundWork *work, gpointer news)
{
  Message *message = g_new0 (Message, 1);
  message->shared = work;
  g_atomic_ref_count_inc (&work->refs);
  message->news = news;
  g_idle_add_full (work->kind->priority, take_message, message, message_free);
}

/* With the lock, which is open while the work is done. */
static void
work_on (SwBackgroundWork *shared, int slot)
{
  gpointer order = g_steal_pointer (&shared->slots[slot].order);
  g_autoptr (GCancellable) cancellable = g_object_ref (shared->slots[slot].cancellable);
  g_mutex_unlock (&shared->lock);
  shared->kind->work (shared, order, shared->memory, cancellable);
  shared->kind->order_free (order);
  g_mutex_lock (&shared->lock);
}

static gpointer
run (gpointer data)
{
  SwBackgroundWork *shared = data;
  g_mutex_lock (&shared->lock);
  while (!shared->quit)
    if (shared->slots[FIRST].order != NULL)
      work_on (shared, FIRST);
    else if (shared->slots[LATER].order != NULL)
      work_on (shared, LATER);
    else
      g_cond_wait (&shared->wake, &shared->lock);
  g_mutex_unlock (&shared->lock);
  if (shared->kind->memory_free != NULL)
    shared->kind->memory_free (shared->memory);
  shared_unref (shared);
  return NULL;
}

SwBackground *
sw_background_new (const SwBackgroundKind *kind, gpointer memory, gpointer data)
{
  SwBackground *background = g_new0 (SwBackground, 1);
  SwBackgroundWork *shared = g_new0 (SwBackgroundWork, 1);
  g_atomic_ref_count_init (&shared->refs);
  g_atomic_ref_count_inc (&shared->refs);
  g_mutex_init (&shared->lock);
  g_cond_init (&shared->wake);
  shared->kind = kind;
  shared->memory = memory;
  shared->owner = background;
  background->shared = shared;
  background->data = data;
  g_thread_unref (g_thread_new (kind->name, run, shared));
  return background;
}

/* With the lock. */
static void
drop (SwBackgroundWork *shared, int slot)
{
  g_clear_pointer (&shared->slots[slot].order, shared->kind->order_free);
  if (shared->slots[slot].cancellable != NULL)
    g_cancellable_cancel (shared->slots[slot].cancellable);
  g_clear_object (&shared->slots[slot].cancellable);
}

static void
put (SwBackgroundWork *shared, int slot, gpointer order)
{
  g_clear_pointer (&shared->slots[slot].order, shared->kind->order_free);
  shared->slots[slot].order = order;
  if (shared->slots[slot].cancellable == NULL)
    shared->slots[slot].cancellable = g_cancellable_new ();
  g_cond_signal (&shared->wake);
}

void
sw_background_free (SwBackground *background)
{
  if (background == NULL)
    return;
  SwBackgroundWork *shared = background->shared;
  shared->owner = NULL;
  g_mutex_lock (&shared->lock);
  shared->quit = TRUE;
  drop (shared, FIRST);
  drop (shared, LATER);
  g_cond_signal (&shared->wake);
  g_mutex_unlock (&shared->lock);
  shared_unref (shared);
  g_free (background);
}

void
sw_background_ask (SwBackground *background, gpointer order)
{
  SwBackgroundWork *shared = background->shared;
  g_mutex_lock (&shared->lock);
  drop (shared, LATER);
  drop (shared, FIRST);
  put (shared, FIRST, order);
  g_mutex_unlock (&shared->lock);
}

void
sw_background_ask_later (SwBackground *background, gpointer order)
{
  SwBackgroundWork *shared = background->shared;
  g_mutex_lock (&shared->lock);
  put (shared, LATER, order);
  g_mutex_unlock (&shared->lock);
}

void
sw_background_stop (SwBackground *background)
{
  SwBackgroundWork *shared = background->shared;
  g_mutex_lock (&shared->lock);
  drop (shared, LATER);
  drop (shared, FIRST);
  g_mutex_unlock (&shared->lock);
}

void
sw_background_stop_later (SwBackground *background)
{
  SwBackgroundWork *shared = background->shared;
  g_mutex_lock (&shared->lock);
  drop (shared, LATER);
  g_mutex_unlock (&shared->lock);
}
