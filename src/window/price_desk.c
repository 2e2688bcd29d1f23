/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/price_desk.h"
#include "window/pricer.h"

struct _SwPriceDesk
{
  GObject parent_instance;
  SwDocument *document; /* borrowed: it owns the desk */
  SwPricer *pricer;
  GHashTable *rooms;   /* &SwRoomPrice.room → SwRoomPrice */
  GHashTable *current; /* SwId (as gint64 *, owned) of rooms priced in this generation */
  SwJobPrice *job;
  guint64 asked, done; /* generations */
  SwId first;
  char *fault;
};

G_DEFINE_FINAL_TYPE (SwPriceDesk, sw_price_desk, G_TYPE_OBJECT)

enum { SIGNAL_ASKED, SIGNAL_ROOM, SIGNAL_JOB, N_SIGNALS };
static guint signals[N_SIGNALS];

static void
take_room (SwPriceDesk *desk, SwRoomPrice *price)
{
  g_hash_table_replace (desk->rooms, &price->room, sw_room_price_ref (price));
  g_hash_table_add (desk->current, g_memdup2 (&price->room, sizeof price->room));
  g_signal_emit (desk, signals[SIGNAL_ROOM], 0, price->room);
}

static void
on_news (const SwPricerNews *news, gpointer data)
{
  SwPriceDesk *desk = data;
  if (news->kind == SW_PRICED_ROOM)
    {
      take_room (desk, news->room);
      return;
    }
  desk->done = news->generation;
  if (news->kind == SW_PRICED_JOB)
    {
      sw_job_price_ref (news->job);
      g_clear_pointer (&desk->job, sw_job_price_unref);
      desk->job = news->job;
    }
  else
    desk->fault = g_strdup (news->fault->message);
  g_signal_emit (desk, signals[SIGNAL_JOB], 0);
}

static guint64
generation_of (SwPriceDesk *desk)
{
  return sw_desk_generation (sw_document_desk (desk->document)) + 1;
}

void
sw_price_desk_refresh (SwPriceDesk *desk)
{
  if (desk->asked == generation_of (desk))
    return;
  desk->asked = generation_of (desk);
  g_clear_pointer (&desk->fault, g_free);
  g_hash_table_remove_all (desk->current);
  sw_pricer_ask (desk->pricer, sw_document_job (desk->document), desk->asked, desk->first);
  g_signal_emit (desk, signals[SIGNAL_ASKED], 0);
}

/* Nobody listens: the next who does asks. */
static void
on_changed (SwPriceDesk *desk)
{
  if (g_signal_has_handler_pending (desk, signals[SIGNAL_JOB], 0, FALSE))
    sw_price_desk_refresh (desk);
}

void
sw_price_desk_look_at (SwPriceDesk *desk, SwId room)
{
  desk->first = room;
}

const SwRoomPrice *
sw_price_desk_room (SwPriceDesk *desk, SwId room)
{
  return g_hash_table_lookup (desk->rooms, &room);
}

const SwJobPrice *
sw_price_desk_job (SwPriceDesk *desk)
{
  return desk->job;
}

gboolean
sw_price_desk_room_is_stale (SwPriceDesk *desk, SwId room)
{
  return !g_hash_table_contains (desk->current, &room);
}

gboolean
sw_price_desk_is_busy (SwPriceDesk *desk)
{
  return desk->done != desk->asked;
}

const char *
sw_price_desk_fault (SwPriceDesk *desk)
{
  return desk->fault;
}

SwPriceDesk *
sw_price_desk_of (SwDocument *document)
{
  SwPriceDesk *desk = g_object_get_data (G_OBJECT (document), "price-desk");
  if (desk != NULL)
    return desk;
  desk = g_object_new (SW_TYPE_PRICE_DESK, NULL);
  desk->document = document;
  g_signal_connect_object (document, "changed", G_CALLBACK (on_changed), desk, G_CONNECT_SWAPPED);
  g_object_set_data_full (G_OBJECT (document), "price-desk", desk, g_object_unref);
  return desk;
}

static void
sw_price_desk_init (SwPriceDesk *desk)
{
  desk->pricer = sw_pricer_new (on_news, desk);
  desk->rooms = g_hash_table_new_full (g_int64_hash, g_int64_equal, NULL, (GDestroyNotify) sw_room_price_unref);
  desk->current = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
}

static void
price_desk_finalize (GObject *object)
{
  SwPriceDesk *desk = SW_PRICE_DESK (object);
  sw_pricer_free (desk->pricer);
  g_hash_table_unref (desk->rooms);
  g_hash_table_unref (desk->current);
  g_clear_pointer (&desk->job, sw_job_price_unref);
  g_free (desk->fault);
  G_OBJECT_CLASS (sw_price_desk_parent_class)->finalize (object);
}

static void
sw_price_desk_class_init (SwPriceDeskClass *class)
{
  G_OBJECT_CLASS (class)->finalize = price_desk_finalize;
  signals[SIGNAL_ASKED] = g_signal_new ("asked", SW_TYPE_PRICE_DESK, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[SIGNAL_ROOM] = g_signal_new ("room", SW_TYPE_PRICE_DESK, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_INT64);
  signals[SIGNAL_JOB] = g_signal_new ("job", SW_TYPE_PRICE_DESK, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}
