/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/working_text.h"
#include "base/length.h"
#include "base/number.h"
#include "base/text.h"
#include <math.h>
#include <string.h>

static const char *
in_language (SwTranslate translate, const char *english)
{
  return translate != NULL ? translate (english) : english;
}

/* ---- numbers */

/* Four figures and no zeros behind them; whole numbers in full. */
static void
put_number (GString *out, double value)
{
  char figure[SW_NUMBER_BUF];
  double size = fabs (value);
  if (size != 0 && (size < 1e-4 || size >= 1e9))
    {
      g_string_append (out, g_ascii_formatd (figure, SW_NUMBER_BUF, "%.3e", value));
      return;
    }
  int decimals = size >= 1000 ? 0 : size == 0 ? 0 : CLAMP (3 - (int) floor (log10 (size)), 0, 8);
  sw_number_write_fixed (value, decimals, figure);
  if (strchr (figure, '.') != NULL)
    {
      char *end = figure + strlen (figure);
      while (end[-1] == '0')
        *--end = '\0';
      if (end[-1] == '.')
        end[-1] = '\0';
    }
  g_string_append (out, figure);
}

char *
sw_unit_text (const char *unit)
{
  static const char *const raised[] = { "²", "³", "⁴" };
  GString *out = g_string_new (NULL);
  for (const char *at = unit; *at != '\0'; at++)
    if (at > unit && at[-1] == 'm' && *at >= '2' && *at <= '4')
      g_string_append (out, raised[*at - '2']);
    else
      g_string_append_c (out, *at);
  return g_string_free (out, FALSE);
}

static char *
with_unit (double value, const char *unit, gboolean full, SwLengths lengths)
{
  GString *out = g_string_new (NULL);
  char figure[SW_NUMBER_BUF];
  gboolean fall = strcmp (unit, "1:n") == 0;
  g_autofree char *symbol = sw_unit_text (unit);
  if (isnan (value))
    return g_string_free (g_string_append (out, "–"), FALSE);
  g_string_append (out, fall ? "1:" : "");
  if (full && isfinite (value))
    g_string_append (out, sw_number_write (value, figure));
  else if (isfinite (value))
    put_number (out, value);
  else
    g_string_append (out, "∞");
  if (!fall && *unit != '\0')
    g_string_append_printf (out, " %s", symbol);
  if (lengths == SW_LENGTHS_FT_IN && isfinite (value) && strcmp (unit, "mm") == 0)
    {
      /* The working itself is in mm: that stays beside it. */
      char length[SW_LENGTH_BUF];
      g_autofree char *mm = g_strdup (out->str);
      g_string_printf (out, "%s (%s)", sw_length_write (value, lengths, SW_LENGTH_UNIT, 0, length), mm);
    }
  return g_string_free (out, FALSE);
}

char *
sw_working_value_text (const SwWorking *working, const SwWorkingLine *line)
{
  if (line->text != NULL)
    return g_strdup (line->text);
  return with_unit (line->value, line->unit, line->kind == SW_LINE_GIVEN || line->kind == SW_LINE_RULE, working->lengths);
}

char *
sw_working_cell_text (const SwWorking *working, guint row, guint column)
{
  g_assert (row < sw_working_n_rows (working) && column < working->n_columns);
  return with_unit (g_array_index (working->cells, double, row * working->n_columns + column), working->columns[column].unit, FALSE, working->lengths);
}

/* ---- lines */

char *
sw_working_rule_text (const SwWorkingLine *line, SwTranslate translate)
{
  static const char *const labels[SW_N_CONFIDENCES] = { N_ ("published"), N_ ("common practice"), N_ ("derived"), N_ ("from memory") };
  const SwRuleValue *rule = &line->rule;
  if (rule->rule_id == NULL)
    return g_strdup ("");
  GString *out = g_string_new (rule->rule_id);
  g_string_append_printf (out, " (%s; %s)", rule->source, in_language (translate, labels[rule->confidence]));
  if (rule->overridden)
    g_string_append_printf (out, ", %s", in_language (translate, N_ ("changed by the user")));
  if (rule->interpolated)
    g_string_append_printf (out, ", %s", in_language (translate, N_ ("between two rows")));
  if (rule->clamped)
    g_string_append_printf (out, ", %s", in_language (translate, N_ ("outside the table: its end was taken")));
  if (rule->stand_in)
    g_string_append_printf (out, ", %s", in_language (translate, N_ ("stands in from another rule set")));
  if (*rule->note != '\0')
    g_string_append_printf (out, "; %s", rule->note);
  return g_string_free (out, FALSE);
}

static void
put_line (GString *out, const SwWorking *working, const SwWorkingLine *line, SwTranslate translate)
{
  g_autofree char *value = sw_working_value_text (working, line), *rule = sw_working_rule_text (line, translate);
  gboolean formula = line->formula != NULL && (line->kind == SW_LINE_STEP || line->kind == SW_LINE_ANSWER);
  g_string_append_printf (out, "  %s = %s%s%s   %s\n", line->symbol, formula ? line->formula : "", formula ? " = " : "", value, in_language (translate, line->what));
  if (*rule != '\0')
    g_string_append_printf (out, "      %s\n", rule);
}

static void
put_answers (GString *out, const SwWorking *working, SwTranslate translate)
{
  const SwWorkingLine *line;
  for (guint i = 0; (line = sw_working_nth_answer (working, i)) != NULL; i++)
    {
      g_autofree char *value = sw_working_value_text (working, line);
      g_string_append_printf (out, "%s: %s\n", in_language (translate, line->what), value);
    }
  if (working->said != NULL)
    g_string_append_printf (out, "%s\n", in_language (translate, working->said));
}

static void
put_table (GString *out, const SwWorking *working, SwTranslate translate)
{
  for (guint c = 0; c < working->n_columns; c++)
    g_string_append_printf (out, "  %s: %s%s", working->columns[c].symbol, in_language (translate, working->columns[c].what), "\n");
  for (guint row = 0; row < sw_working_n_rows (working); row++)
    {
      for (guint c = 0; c < working->n_columns; c++)
        {
          g_autofree char *cell = sw_working_cell_text (working, row, c);
          g_string_append_printf (out, "%s%s = %-12s", c == 0 ? "  " : " ", working->columns[c].symbol, cell);
        }
      while (out->len > 0 && out->str[out->len - 1] == ' ')
        g_string_truncate (out, out->len - 1);
      g_string_append_c (out, '\n');
    }
}

char *
sw_working_text (const SwWorking *working, SwTranslate translate)
{
  GString *out = g_string_new (NULL);
  put_answers (out, working, translate);
  g_string_append_printf (out, "\n%s\n", in_language (translate, N_ ("Working:")));
  for (guint i = 0; i < working->lines->len; i++)
    put_line (out, working, &g_array_index (working->lines, SwWorkingLine, i), translate);
  if (working->columns != NULL)
    {
      g_string_append_printf (out, "\n%s\n", in_language (translate, N_ ("Table:")));
      put_table (out, working, translate);
    }
  return g_string_free (out, FALSE);
}

/* ---- inputs */

char *
sw_ask_input_text (const SwAskInput *input, SwTranslate translate)
{
  GString *out = g_string_new (NULL);
  char low[SW_NUMBER_BUF], high[SW_NUMBER_BUF];
  g_autofree char *unit = sw_unit_text (input->unit);
  if (input->kind == SW_ASK_WORD)
    g_string_append (out, input->words);
  else
    g_string_append_printf (out, in_language (translate, N_ ("%s to %s")), sw_number_write (input->low, low), sw_number_write (input->high, high));
  if (*input->unit != '\0')
    g_string_append_printf (out, " %s", unit);
  if (input->table != NULL)
    g_string_append_printf (out, in_language (translate, N_ (", or a row of %s")), input->table);
  if (*input->start_text != '\0')
    g_string_append_printf (out, in_language (translate, N_ ("; %s when not given")), input->start_text);
  else
    g_string_append_printf (out, "; %s", in_language (translate, N_ ("has to be given")));
  return g_string_free (out, FALSE);
}
