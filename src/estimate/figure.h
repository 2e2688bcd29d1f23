/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "base/money.h"
#include "rules/rules.h"

/* One figure of a list or of a table of things side by side, for whoever prints it: window, sheets, files, command. */

typedef enum { SW_FIGURE_NUMBER, SW_FIGURE_MONEY, SW_FIGURE_WORD } SwFigureKind;

typedef struct
{
  const char *key;   /* the same in all languages, with its unit: "price_m2" */
  const char *label; /* for people, untranslated */
  const char *unit;  /* "mm", "m²" …; "" for none or the job's currency */
  SwFigureKind kind;
  int decimals;      /* of numbers */
} SwFigureInfo;

typedef struct
{
  double number;     /* NAN: not known */
  SwMoney money;
  gboolean known;    /* of money */
  const char *word;  /* for people, untranslated, static; NULL: not known */
  SwRuleValue rule;  /* where it rests on the rule set: its source and confidence; rule_id NULL when not */
} SwFigure;

static inline SwFigure sw_figure_number (double number) { return (SwFigure){ .number = number }; }
static inline SwFigure sw_figure_money (SwMoney money) { return (SwFigure){ .money = money, .known = TRUE }; }
static inline SwFigure sw_figure_word (const char *word) { return (SwFigure){ .word = word }; }
gboolean sw_figure_is_known (const SwFigureInfo *info, const SwFigure *figure);
/* As files hold it: decimal point, no grouping, words in English; "" when it is not known. Free with g_free. */
char *sw_figure_write (const SwFigureInfo *info, const SwFigure *figure);
