/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <gio/gio.h>

/* One thread that does what was asked for last. Asking again cancels what is under way and takes the place of what still waits;
 * what the work hands over reaches the main thread in its order. */
typedef struct _SwBackground SwBackground;
/* The thread's side of it. */
typedef struct _SwBackgroundWork SwBackgroundWork;

typedef struct
{
  const char *name; /* of the thread */
  int priority;     /* of what is handed over, among the main loop's sources */
  /* In the thread. The order is borrowed; `memory` is the thread's own, from one order to the next. */
  void (*work) (SwBackgroundWork *work, gpointer order, gpointer memory, GCancellable *cancellable);
  /* On the main thread, with what was handed over (borrowed). Never called once the background is freed. */
  void (*take) (gpointer news, gpointer data);
  GDestroyNotify order_free, news_free, memory_free; /* memory_free is called in the thread; NULL without memory */
} SwBackgroundKind;

/* Main thread only, as all below but the last one. `kind` is static; `memory` is taken over. */
SwBackground *sw_background_new (const SwBackgroundKind *kind, gpointer memory, gpointer data);
/* Returns at once; the thread ends by itself and hands nothing over any more. NULL is no affair of it. */
void sw_background_free (SwBackground *background);
/* The order is taken over. */
void sw_background_ask (SwBackground *background, gpointer order);
/* For work that fills the time between: begun when no order of the first kind waits. A later one takes the place of one that still
 * waits, and lets one that is under way end first; asking for the first kind cancels and forgets both. */
void sw_background_ask_later (SwBackground *background, gpointer order);
/* Cancels what is under way and forgets what waits; the second only what was asked for later. */
void sw_background_stop (SwBackground *background);
void sw_background_stop_later (SwBackground *background);

/* In the thread: the news are taken over. */
void sw_background_hand_over (SwBackgroundWork *work, gpointer news);
