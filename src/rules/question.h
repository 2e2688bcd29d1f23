/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "rules/working.h"

/* A calculation that can be asked for by itself, with the values that it wants described, so that one page of the window and
 * one verb of the command serve them all. The engines hold the tables: see drainage/questions.h and circuits/questions.h. */

typedef enum
{
  SW_ASK_NUMBER, /* a fall may also be written 1:60 */
  SW_ASK_WORD,
  SW_ASK_LIST    /* numbers with commas or spaces between; "3x0.5" counts three times */
} SwAskKind;

/* Numbers may carry a unit that goes with the input's, "6.5m" for 6500 mm: see base/measure.h. */

typedef struct
{
  const char *key;        /* "depth" */
  const char *label;      /* English, to be translated */
  SwAskKind kind;
  const char *unit;
  double low, high;       /* of a number, or of each in a list */
  const char *start_text; /* what it is when nothing is given; "" : it has to be given */
  const char *words;      /* "a|b|c" of a word */
  const char *table, *column; /* of a list: a row's key of this rule table stands for its number, "2xbasin"; NULL for none */
} SwAskInput;

/* The values of one asking, read and checked. */
typedef struct _SwAsked SwAsked;
double sw_asked_number (const SwAsked *asked, const char *key);
const char *sw_asked_word (const SwAsked *asked, const char *key);
const double *sw_asked_list (const SwAsked *asked, const char *key, guint *n);
double sw_asked_sum (const SwAsked *asked, const char *key);
/* Adds a line for each rule that a list names by its row; the sum of all of them comes back. */
double sw_asked_quote (const SwAsked *asked, const char *key, SwWorking *working, const char *symbol, const char *what);
SwRules *sw_asked_rules (const SwAsked *asked);

typedef struct
{
  const char *id;          /* "fall-run" */
  const char *title;       /* English, to be translated */
  const char *description; /* likewise */
  const SwAskInput *inputs;
  guint n_inputs;
  /* Writes the working; FALSE where the rule set has no row for it. */
  gboolean (*answer) (const SwAsked *asked, SwWorking *working, GError **error);
  const char *subject;     /* English, to be translated: questions of one subject stand together */
} SwQuestion;

#define SW_QUESTION(subject, id, title, what, inputs, answer) { id, title, what, inputs, G_N_ELEMENTS (inputs), answer, subject }

/* `given` is key → text, both char *; keys that are not there take what they start with. SW_ERROR_INVALID names the key,
 * SW_ERROR_NOT_FOUND says which table has no row. */
SwWorking *sw_question_ask (const SwQuestion *question, SwRules *rules, GHashTable *given, GError **error);

#define SW_ASK(key_, label_, unit_, low_, high_, start_) { key_, label_, SW_ASK_NUMBER, unit_, low_, high_, start_, NULL, NULL, NULL }
#define SW_ASK_ONE_OF(key_, label_, words_, start_) { key_, label_, SW_ASK_WORD, "", 0, 0, start_, words_, NULL, NULL }
#define SW_ASK_MANY(key_, label_, unit_, low_, high_, start_) { key_, label_, SW_ASK_LIST, unit_, low_, high_, start_, NULL, NULL, NULL }
#define SW_ASK_MANY_OF(key_, label_, unit_, low_, high_, table_, column_) { key_, label_, SW_ASK_LIST, unit_, low_, high_, "", NULL, table_, column_ }
