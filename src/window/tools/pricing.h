/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "estimate/choice.h"
#include "estimate/takeoff.h"

/* What one state of a job costs, room by room and as a whole. Immutable once made, counted by reference, any thread. */

/* What all prices of one state lean on. */
typedef struct
{
  gatomicrefcount refs;
  guint64 generation;
  SwDeck *deck; /* of the job with its prices */
  SwRules *rules;
  gboolean invented; /* the job has no prices: those that come with the program were taken */
} SwPriceBase;

/* `before` (may be NULL) lends its rules when they are the same. */
SwPriceBase *sw_price_base_new (SwJob *job, guint64 generation, const SwPriceBase *before, GError **error);
SwPriceBase *sw_price_base_ref (SwPriceBase *base);
void sw_price_base_unref (SwPriceBase *base);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwPriceBase, sw_price_base_unref)

/* One room finished each way: closed, open, on a grid. */
typedef struct
{
  gatomicrefcount refs;
  SwPriceBase *base;
  SwId room;
  SwChoice *choice;
} SwRoomPrice;

/* NULL when it was cancelled or there is no such room. */
SwRoomPrice *sw_room_price_new (SwPriceBase *base, SwId room, GCancellable *cancellable);
SwRoomPrice *sw_room_price_ref (SwRoomPrice *price);
void sw_room_price_unref (SwRoomPrice *price);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwRoomPrice, sw_room_price_unref)
/* Which of its sides is a finish; -1 when it was not looked at. */
int sw_room_price_side (const SwRoomPrice *price, SwFinish finish);
/* Takes out of `rooms` (SwId as gint64 * → SwRoomPrice) those that may stand otherwise after the job changed. A finish
 * changes none: each is priced anyway. */
void sw_room_prices_drop (GHashTable *rooms, const SwJob *from, const SwJob *to);

/* Lines of a quote with the needs that they count. */
typedef struct
{
  GPtrArray *needs; /* SwNeed */
  SwQuote *quote;
} SwPriceLines;
void sw_price_lines_free (SwPriceLines *lines);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwPriceLines, sw_price_lines_free)

/* The whole job as it is to be finished, services and all. */
typedef struct
{
  gatomicrefcount refs;
  SwPriceBase *base;
  SwTakeoff *takeoff;
  SwPriceLines *whole;
} SwJobPrice;

SwJobPrice *sw_job_price_new (SwPriceBase *base, GCancellable *cancellable, GError **error);
SwJobPrice *sw_job_price_ref (SwJobPrice *price);
void sw_job_price_unref (SwJobPrice *price);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwJobPrice, sw_job_price_unref)
/* Those of one room, 0 for what lies in none. The caller's; must not outlive `price`. */
SwPriceLines *sw_job_price_lines (const SwJobPrice *price, SwId room);

/* Ceilings of several rooms, each with one finish. */
typedef struct
{
  guint rooms;     /* added */
  guint priced;    /* that can be built */
  guint unpriced;  /* lines without a price */
  guint judged, high_enough; /* for which the rule set has a height; of these */
  guint weighed;   /* whose carbon is known */
  SwMoney price, total;
  double carbon_kg;
} SwPriceSum;
void sw_price_sum_add (SwPriceSum *sum, const SwRoomPrice *price, SwFinish finish);

/* Gives rooms a finish, in one edit; NULL with an error. Empty when all have it. */
SwEdit *sw_finish_edit (const SwJob *job, const SwId *rooms, guint n, SwFinish finish, GError **error);
