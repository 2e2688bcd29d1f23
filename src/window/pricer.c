/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/pricer.h"
#include "window/background.h"

struct _SwPricer
{
  SwBackground *background;
  SwPricerDone done;
  gpointer data;
  guint64 asked;
};

typedef struct
{
  SwJob *job;
  guint64 generation;
  SwId first;
} Order;

static void
order_free (gpointer data)
{
  Order *order = data;
  sw_job_unref (order->job);
  g_free (order);
}

/* What the thread keeps from one asking to the next. */
typedef struct
{
  SwPriceBase *base; /* of the last asking; NULL before it */
  GHashTable *rooms; /* &SwRoomPrice.room → SwRoomPrice, that hold for `base` */
} Memory;

static void
memory_free (gpointer data)
{
  Memory *memory = data;
  g_hash_table_unref (memory->rooms);
  g_clear_pointer (&memory->base, sw_price_base_unref);
  g_free (memory);
}

static void
news_free (gpointer data)
{
  SwPricerNews *news = data;
  g_clear_pointer (&news->room, sw_room_price_unref);
  g_clear_pointer (&news->job, sw_job_price_unref);
  g_clear_error (&news->fault);
  g_free (news);
}

static void
take (gpointer data, gpointer owner)
{
  const SwPricerNews *news = data;
  SwPricer *pricer = owner;
  if (news->generation == pricer->asked)
    pricer->done (news, pricer->data);
}

static void
hand_over (SwBackgroundWork *work, SwPricerNews news)
{
  sw_background_hand_over (work, g_memdup2 (&news, sizeof news));
}

static gboolean
price_room (SwBackgroundWork *work, Memory *memory, SwId room, GCancellable *cancellable)
{
  SwRoomPrice *price = g_hash_table_lookup (memory->rooms, &room);
  if (price == NULL)
    {
      price = sw_room_price_new (memory->base, room, cancellable);
      if (price == NULL)
        return FALSE;
      g_hash_table_insert (memory->rooms, &price->room, price);
    }
  hand_over (work, (SwPricerNews){ SW_PRICED_ROOM, memory->base->generation, .room = sw_room_price_ref (price) });
  return TRUE;
}

static void
price_all (SwBackgroundWork *work, Memory *memory, SwId first, GCancellable *cancellable)
{
  SwJob *job = sw_deck_job (memory->base->deck);
  guint64 generation = memory->base->generation;
  const SwRecord *record;
  GError *error = NULL;
  if (first != 0)
    price_room (work, memory, first, cancellable);
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_ROOM); (record = sw_job_iter_next (&i)) != NULL;)
    if (record->id != first && !price_room (work, memory, record->id, cancellable))
      return;
  SwJobPrice *price = sw_job_price_new (memory->base, cancellable, &error);
  if (price != NULL)
    hand_over (work, (SwPricerNews){ SW_PRICED_JOB, generation, .job = price });
  else if (!g_cancellable_is_cancelled (cancellable))
    hand_over (work, (SwPricerNews){ SW_PRICED_FAULT, generation, .fault = g_steal_pointer (&error) });
  g_clear_error (&error);
}

static void
price (SwBackgroundWork *work, gpointer data, gpointer mine, GCancellable *cancellable)
{
  const Order *order = data;
  Memory *memory = mine;
  GError *error = NULL;
  SwPriceBase *base = sw_price_base_new (order->job, order->generation, memory->base, &error);
  if (base == NULL)
    {
      hand_over (work, (SwPricerNews){ SW_PRICED_FAULT, order->generation, .fault = error });
      return;
    }
  if (memory->base != NULL)
    sw_room_prices_drop (memory->rooms, sw_deck_job (memory->base->deck), sw_deck_job (base->deck));
  g_clear_pointer (&memory->base, sw_price_base_unref);
  memory->base = base;
  price_all (work, memory, order->first, cancellable);
}

SwPricer *
sw_pricer_new (SwPricerDone done, gpointer data)
{
  /* After input, so that typing goes first, but before drawing: a spinner that turns would keep it waiting for ever. */
  static const SwBackgroundKind kind = { "price", G_PRIORITY_HIGH_IDLE, price, take, order_free, news_free, memory_free };
  SwPricer *pricer = g_new0 (SwPricer, 1);
  Memory *memory = g_new0 (Memory, 1);
  memory->rooms = g_hash_table_new_full (g_int64_hash, g_int64_equal, NULL, (GDestroyNotify) sw_room_price_unref);
  pricer->done = done;
  pricer->data = data;
  pricer->background = sw_background_new (&kind, memory, pricer);
  return pricer;
}

void
sw_pricer_free (SwPricer *pricer)
{
  if (pricer == NULL)
    return;
  sw_background_free (pricer->background);
  g_free (pricer);
}

void
sw_pricer_ask (SwPricer *pricer, SwJob *job, guint64 generation, SwId first)
{
  Order *order = g_new0 (Order, 1);
  order->job = sw_job_ref (job);
  order->generation = generation;
  order->first = first;
  pricer->asked = generation;
  sw_background_ask (pricer->background, order);
}
