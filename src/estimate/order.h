/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "estimate/cut_job.h"
#include "estimate/takeoff.h"

/* What to order for the ceilings, in the units in which suppliers sell it: boards and timber as they are cut, the rest from the
 * take-off with the waste of its price rows. */

typedef struct
{
  SwPriceKind kind;
  char *code;            /* of the price list */
  const SwPrice *price;  /* of the job; NULL: it has no such row, and there is no cost */
  const SwCutGroup *group; /* of boards and timber; else NULL */
  SwQuantity wanted;     /* in the kind's unit, waste in it */
  SwQuantity pack;       /* what one of the supplier's units holds, in the kind's unit */
  gint64 packs;
  SwMoney cost;          /* of all packs, material only, in whole cents */
} SwOrderLine;

typedef struct
{
  GPtrArray *lines; /* SwOrderLine: by supplier, then as the price list has its kinds */
  SwMoney cost;
  guint unpriced;   /* lines without a price */
} SwOrder;

/* Borrows the take-off, which has its `cut`; it outlives the order, as does the deck's job. */
SwOrder *sw_order_new (const SwDeck *deck, const SwRules *rules, const SwTakeoff *takeoff);
void sw_order_free (SwOrder *order);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwOrder, sw_order_free)
