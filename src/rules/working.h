/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "base/length.h"
#include "rules/rules.h"

/* A calculation as it would stand on paper: what was given, what the rules say, each step, the answer. */

typedef enum
{
  SW_LINE_GIVEN, /* by who asks */
  SW_LINE_RULE,  /* by the rule set: `rule` is set */
  SW_LINE_STEP,
  SW_LINE_ANSWER /* a step that was asked for */
} SwLineKind;

typedef struct
{
  SwLineKind kind;
  const char *symbol;  /* static: "Qww" */
  const char *what;    /* static English, to be translated: "waste water flow" */
  const char *formula; /* static: "K √ΣDU"; NULL for given values and rules */
  double value;        /* NaN when there is none */
  const char *unit;    /* static or the rule set's: "l/s"; "" for a plain number; "1:n" for a fall */
  SwRuleValue rule;    /* rule_id NULL unless kind is SW_LINE_RULE */
  const char *text;    /* a value in words, static or the rule set's: "1-1/4"; NULL for numbers */
} SwWorkingLine;

/* A table that belongs to the answer. */
typedef struct
{
  const char *symbol, *what, *unit; /* static; `what` is English, to be translated */
} SwWorkingColumn;

typedef enum
{
  SW_VERDICT_NONE,
  SW_VERDICT_GOOD,
  SW_VERDICT_BAD
} SwVerdict;

/* Holds a reference on the rules whose answers it quotes. */
typedef struct
{
  SwRules *rules;
  GArray *lines;          /* SwWorkingLine */
  SwVerdict verdict;
  const char *said;       /* static English, to be translated; NULL without a verdict */
  const SwWorkingColumn *columns; /* NULL without a table */
  guint n_columns;
  GArray *cells;          /* double, row by row; NaN where there is nothing */
  SwLengths lengths; /* how lengths of it are written: whoever shows it sets the job's */
} SwWorking;

SwWorking *sw_working_new (SwRules *rules);
void sw_working_free (SwWorking *working);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwWorking, sw_working_free)

/* Each adds a line and gives its value back. */
double sw_working_given (SwWorking *working, const char *symbol, const char *what, double value, const char *unit);
double sw_working_rule (SwWorking *working, const char *symbol, const char *what, const SwRuleValue *rule);
double sw_working_step (SwWorking *working, const char *symbol, const char *what, const char *formula, double value, const char *unit);
double sw_working_answer (SwWorking *working, const char *symbol, const char *what, const char *formula, double value, const char *unit);
/* The same for a value in words. */
void sw_working_answer_word (SwWorking *working, const char *symbol, const char *what, const char *formula, const char *text);
/* Begins the table; then its cells, row by row. */
void sw_working_table (SwWorking *working, const SwWorkingColumn *columns, guint n);
void sw_working_cell (SwWorking *working, double value);
guint sw_working_n_rows (const SwWorking *working);
void sw_working_say (SwWorking *working, SwVerdict verdict, const char *said);

/* The i-th answer; NULL when there are fewer. */
const SwWorkingLine *sw_working_nth_answer (const SwWorking *working, guint i);
/* The line with a symbol; NULL for none. */
const SwWorkingLine *sw_working_find (const SwWorking *working, const char *symbol);
