/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "estimate/figure.h"
#include "estimate/headroom.h"
#include "estimate/paint.h"
#include "estimate/quote.h"
#include <gio/gio.h>

/* A room finished each way, side by side: boards on brandering, soffit left open and painted, and a suspended grid. */

#define SW_CHOICE_BANDS 6 /* octaves from 125 to 4,000 Hz */

typedef struct
{
  SwFinish finish;
  char *fault;          /* why it cannot be; then only `head` is set. NULL: it can */
  GPtrArray *needs;     /* SwNeed, of this finish only: no services */
  SwQuote *quote;
  SwMoney price_m2;     /* before tax, by the ceiling's area in plan */
  SwMoney later_low, later_high; /* price before tax with the repaints of the years compared */
  SwHeadroom head;
  SwPaint paint;        /* faces and litres; of an open soffit */
  double finish_l;      /* of all paint above the primers */
  double days_low, days_high;    /* of work, one crew after the other */
  double carbon_kg;     /* NAN: not known */
  double reflectance;   /* 0…1; NAN: not known */
  double absorption[SW_CHOICE_BANDS]; /* of the ceiling, m²; NAN: not known */
  double reverberation; /* at 500 Hz, s: empty, hard floor, painted walls; NAN: not known */
  SwRuleValue days_rule, carbon_rule, reflectance_rule, absorption_rule; /* the least certain behind each; rule_id NULL for none */
} SwChoiceSide;

typedef struct
{
  const SwRoom *room;   /* borrowed from the deck's job */
  double plan_m2;       /* under the deck */
  guint n;
  SwChoiceSide sides[3]; /* closed, exposed, and the grid when it was asked for */
} SwChoice;

/* Markup and tax of the rule set; without a tax, 0. */
SwQuoteTerms sw_quote_terms (const SwRules *rules);

/* `deck` must outlive it, with its job, whose price table prices it. The grid is looked at too when `grid` or when the room has
 * one. The ceiling engine lays what is closed anew, whatever the room's finish. What stands against a finish, a rule that is missing
 * too, is that side's fault; the only error is SW_ERROR_CANCELLED. Costs a layout. */
SwChoice *sw_choice_new (SwDeck *deck, SwRules *rules, const SwRoom *room, gboolean grid, GCancellable *cancellable, GError **error);
void sw_choice_free (SwChoice *choice);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwChoice, sw_choice_free)

/* The table: rows are the same for all rooms. */
guint sw_choice_n_rows (void);
const SwFigureInfo *sw_choice_row (guint row);
SwFigure sw_choice_figure (const SwChoice *choice, guint side, guint row);
/* "closed", "exposed", "grid": for files; and for people, untranslated. Static. */
const char *sw_choice_side_word (SwFinish finish);
const char *sw_choice_side_text (SwFinish finish);
