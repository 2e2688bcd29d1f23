/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "base/money.h"
#include "estimate/price_kinds.h"
#include "job/job.h"

/* One thing that is needed: how much of what, where, and which things of the job it counts. */
typedef struct
{
  char *code;          /* row of the price list */
  SwPriceKind kind;    /* of the code; SW_N_PRICES for none of the table's */
  char *description;   /* when the price list has no such row; English, for translation at the edge */
  char *unit;          /* "m", "m2", "no", "l", "kg" */
  SwQuantity quantity; /* net */
  SwQuantity bought;   /* of what is cut: the stock that its cutting takes; 0: not cut, or not known */
  SwId room;           /* 0: of the whole job */
  GArray *things;      /* SwId of what it counts, ascending; may be empty */
} SwNeed;

SwNeed *sw_need_new (const char *code, const char *description, const char *unit, double quantity, SwId room);
void sw_need_free (SwNeed *need);

/* A need with its price: material = bought × rate, or net × (1 + the row's waste) × rate where nothing is known of the cutting; labour =
 * net × rate (waste earns no labour), each rounded to cents half away from zero. */
typedef struct
{
  const SwNeed *need;   /* borrowed */
  const SwPrice *price; /* NULL: the price list has no such row, or one in another unit, and the money is 0 */
  gboolean other_unit;  /* there is a row, but it counts in another unit */
  SwQuantity gross;     /* with waste, what is ordered */
  guint lengths;        /* stock lengths that the gross metres take, when the row has one; else 0 */
  SwMoney material, labour;
} SwQuoteLine;

typedef struct
{
  gint64 markup_ppm, vat_ppm;
} SwQuoteTerms;

typedef struct
{
  GArray *lines;        /* SwQuoteLine, in the needs' order */
  SwMoney material, labour, cost; /* cost = material + labour */
  SwMoney price;        /* with markup, before tax */
  SwMoney vat, total;
  guint unpriced;       /* lines without a price row */
} SwQuote;

/* `needs` (GPtrArray of SwNeed) must outlive the quote, as must the job that holds the prices. A row
 * without a unit counts in the need's. */
SwQuote *sw_quote_new (const SwJob *job, const GPtrArray *needs, SwQuoteTerms terms);
void sw_quote_free (SwQuote *quote);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwQuote, sw_quote_free)
