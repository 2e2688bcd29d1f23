/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/tools/pricing.h"

/* One thread that prices a job: the room that is looked at first, then the others, then the whole. Asking again cancels what is
 * under way; each room is handed over as soon as it is done. */
typedef struct _SwPricer SwPricer;

typedef enum { SW_PRICED_ROOM, SW_PRICED_JOB, SW_PRICED_FAULT } SwPriced;

typedef struct
{
  SwPriced kind;
  guint64 generation;
  SwRoomPrice *room; /* of SW_PRICED_ROOM */
  SwJobPrice *job;   /* of SW_PRICED_JOB, the last one of its generation */
  GError *fault;     /* of SW_PRICED_FAULT: nothing more comes */
} SwPricerNews;

/* On the main thread, only for what was asked for last; `news` is borrowed. */
typedef void (*SwPricerDone) (const SwPricerNews *news, gpointer data);

SwPricer *sw_pricer_new (SwPricerDone done, gpointer data);
/* Returns at once; the thread ends by itself and hands nothing over any more. */
void sw_pricer_free (SwPricer *pricer);
/* `first` is the room that is wanted soonest, 0 for none. */
void sw_pricer_ask (SwPricer *pricer, SwJob *job, guint64 generation, SwId first);
