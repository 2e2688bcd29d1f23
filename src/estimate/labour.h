/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "estimate/quote.h"
#include "rules/rules.h"

/* How long work takes, by what a crew does in a day: table labour.output of the rule set. */

typedef struct
{
  const char *text, *unit;     /* of the work; of amount and outputs */
  double amount;
  double output_low, output_high; /* of a crew in a day */
  double crew;                 /* people */
  double days_low, days_high;  /* one crew */
  double hours_low, hours_high; /* of all its people */
  SwRuleValue rule;            /* the less certain of both outputs */
} SwLabour;

/* Kinds of work that have an output, in the order of the site. */
guint sw_labour_n_works (void);
/* What the needs (SwNeed) ask of a work; FALSE for nothing of it, or without an output in the rule set. O(needs). */
gboolean sw_labour_of (const SwRules *rules, const GPtrArray *needs, guint work, SwLabour *labour);
/* The work that puts up a kind of the take-off; FALSE where it has no output of its own. */
gboolean sw_labour_work_for (SwPriceKind kind, guint *work);
/* Hours of all works. */
void sw_labour_hours (const SwRules *rules, const GPtrArray *needs, double *low, double *high);
