/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "rules/working.h"
#include <math.h>
#include <string.h>

SwWorking *
sw_working_new (SwRules *rules)
{
  SwWorking *working = g_new0 (SwWorking, 1);
  working->rules = sw_rules_ref (rules);
  working->lines = g_array_new (FALSE, FALSE, sizeof (SwWorkingLine));
  working->cells = g_array_new (FALSE, FALSE, sizeof (double));
  return working;
}

void
sw_working_free (SwWorking *working)
{
  g_array_unref (working->lines);
  g_array_unref (working->cells);
  sw_rules_unref (working->rules);
  g_free (working);
}

static double
add_line (SwWorking *working, SwWorkingLine line)
{
  g_array_append_val (working->lines, line);
  return line.value;
}

double
sw_working_given (SwWorking *working, const char *symbol, const char *what, double value, const char *unit)
{
  return add_line (working, (SwWorkingLine){ SW_LINE_GIVEN, symbol, what, NULL, value, unit, { 0 }, NULL });
}

double
sw_working_rule (SwWorking *working, const char *symbol, const char *what, const SwRuleValue *rule)
{
  return add_line (working, (SwWorkingLine){ SW_LINE_RULE, symbol, what, NULL, rule->value, rule->unit, *rule, NULL });
}

double
sw_working_step (SwWorking *working, const char *symbol, const char *what, const char *formula, double value, const char *unit)
{
  return add_line (working, (SwWorkingLine){ SW_LINE_STEP, symbol, what, formula, value, unit, { 0 }, NULL });
}

double
sw_working_answer (SwWorking *working, const char *symbol, const char *what, const char *formula, double value, const char *unit)
{
  return add_line (working, (SwWorkingLine){ SW_LINE_ANSWER, symbol, what, formula, value, unit, { 0 }, NULL });
}

void
sw_working_answer_word (SwWorking *working, const char *symbol, const char *what, const char *formula, const char *text)
{
  add_line (working, (SwWorkingLine){ SW_LINE_ANSWER, symbol, what, formula, NAN, "", { 0 }, text });
}

void
sw_working_table (SwWorking *working, const SwWorkingColumn *columns, guint n)
{
  g_assert (working->columns == NULL && n > 0);
  working->columns = columns;
  working->n_columns = n;
}

void
sw_working_cell (SwWorking *working, double value)
{
  g_assert (working->columns != NULL);
  g_array_append_val (working->cells, value);
}

guint
sw_working_n_rows (const SwWorking *working)
{
  return working->n_columns > 0 ? working->cells->len / working->n_columns : 0;
}

void
sw_working_say (SwWorking *working, SwVerdict verdict, const char *said)
{
  working->verdict = verdict;
  working->said = said;
}

const SwWorkingLine *
sw_working_nth_answer (const SwWorking *working, guint i)
{
  for (guint k = 0; k < working->lines->len; k++)
    {
      const SwWorkingLine *line = &g_array_index (working->lines, SwWorkingLine, k);
      if (line->kind == SW_LINE_ANSWER && i-- == 0)
        return line;
    }
  return NULL;
}

const SwWorkingLine *
sw_working_find (const SwWorking *working, const char *symbol)
{
  for (guint k = 0; k < working->lines->len; k++)
    if (strcmp (g_array_index (working->lines, SwWorkingLine, k).symbol, symbol) == 0)
      return &g_array_index (working->lines, SwWorkingLine, k);
  return NULL;
}
