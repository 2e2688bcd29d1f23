/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/worker.h"
#include "window/background.h"

struct _SwWorker
{
  SwBackground *background;
  SwWorkerDone done;
  gpointer data;
  guint64 asked, got, checked;
  guint64 draft_asked, draft_least; /* what comes of an older one is dropped */
};

/* A state of the job, or records that would be changed in the state asked for last. */
typedef struct
{
  SwJob *job; /* NULL for a draft */
  guint64 generation;
  GPtrArray *draft; /* SwRecord */
  guint64 draft_serial;
} Order;

static void
order_free (gpointer data)
{
  Order *order = data;
  g_clear_pointer (&order->job, sw_job_unref);
  g_clear_pointer (&order->draft, g_ptr_array_unref);
  g_free (order);
}

/* The thread's: the last picture, which lends what cannot have changed. */
typedef struct { SwPicture *last; } Memory;

static void
memory_free (gpointer data)
{
  Memory *memory = data;
  g_clear_pointer (&memory->last, sw_picture_unref);
  g_free (memory);
}

typedef struct
{
  SwPicture *picture;
  guint64 draft_serial; /* 0: no draft */
} News;

static void
news_free (gpointer data)
{
  News *news = data;
  sw_picture_unref (news->picture);
  g_free (news);
}

static void
hand_over (SwBackgroundWork *work, SwPicture *picture, guint64 draft_serial)
{
  News *news = g_new (News, 1);
  *news = (News){ sw_picture_ref (picture), draft_serial };
  sw_background_hand_over (work, news);
}

static void
hand_over_and_keep (SwBackgroundWork *work, Memory *memory, SwPicture *picture)
{
  hand_over (work, picture, 0);
  g_clear_pointer (&memory->last, sw_picture_unref);
  memory->last = picture;
}

static void
draw_job (SwBackgroundWork *work, const Order *order, Memory *memory, GCancellable *cancellable)
{
  SwPicture *picture = sw_picture_new (order->job, order->generation, memory->last, cancellable);
  if (picture == NULL)
    return;
  hand_over_and_keep (work, memory, picture);
  SwPicture *checked = sw_picture_check (picture, cancellable);
  if (checked != NULL)
    hand_over_and_keep (work, memory, checked);
}

/* Without a checked picture of its own job to start from, a draft is let go. */
static void
draw_draft (SwBackgroundWork *work, const Order *order, const SwPicture *last, GCancellable *cancellable)
{
  if (last == NULL || !last->checked || last->space == NULL || last->generation != order->generation)
    return;
  g_autoptr (SwPicture) picture = sw_picture_draft (last, (SwRecord *const *) order->draft->pdata, order->draft->len, cancellable);
  if (picture != NULL)
    hand_over (work, picture, order->draft_serial);
}

static void
draw (SwBackgroundWork *work, gpointer data, gpointer memory, GCancellable *cancellable)
{
  const Order *order = data;
  if (order->job != NULL)
    draw_job (work, order, memory, cancellable);
  else
    draw_draft (work, order, ((Memory *) memory)->last, cancellable);
}

static void
take (gpointer data, gpointer owner)
{
  const News *news = data;
  SwWorker *worker = owner;
  SwPicture *picture = news->picture;
  if (news->draft_serial > 0)
    {
      if (news->draft_serial >= worker->draft_least)
        worker->done (picture, worker->data);
      return;
    }
  if (picture->generation < worker->got || picture->generation <= worker->checked
      || (!picture->checked && picture->generation == worker->got))
    return;
  worker->got = picture->generation;
  if (picture->checked || picture->space == NULL)
    worker->checked = picture->generation;
  worker->done (picture, worker->data);
}

SwWorker *
sw_worker_new (SwWorkerDone done, gpointer data)
{
  static const SwBackgroundKind kind
      = { "picture", G_PRIORITY_DEFAULT, draw, take, order_free, news_free, memory_free };
  SwWorker *worker = g_new0 (SwWorker, 1);
  worker->done = done;
  worker->data = data;
  worker->background = sw_background_new (&kind, g_new0 (Memory, 1), worker);
  return worker;
}

void
sw_worker_free (SwWorker *worker)
{
  if (worker == NULL)
    return;
  sw_background_free (worker->background);
  g_free (worker);
}

void
sw_worker_ask (SwWorker *worker, SwJob *job, guint64 generation)
{
  Order *order = g_new0 (Order, 1);
  order->job = sw_job_ref (job);
  order->generation = generation;
  worker->asked = generation;
  worker->draft_least = worker->draft_asked + 1;
  sw_background_ask (worker->background, order);
}

void
sw_worker_ask_draft (SwWorker *worker, const GPtrArray *records)
{
  Order *order = g_new0 (Order, 1);
  order->generation = worker->asked;
  order->draft = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_record_unref);
  order->draft_serial = ++worker->draft_asked;
  for (guint i = 0; i < records->len; i++)
    g_ptr_array_add (order->draft, sw_record_ref (records->pdata[i]));
  sw_background_ask_later (worker->background, order);
}

void
sw_worker_drop_draft (SwWorker *worker)
{
  worker->draft_least = worker->draft_asked + 1;
  sw_background_stop_later (worker->background);
}

gboolean
sw_worker_is_busy (SwWorker *worker)
{
  return worker->checked < worker->asked;
}
