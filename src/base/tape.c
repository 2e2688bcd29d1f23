/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tape-measure arithmetic. Recursive descent over sum → product → signed → value; depth is bounded so that brackets cannot
 * eat the stack. Every value knows whether it is a length yet: a plain number becomes one beside a length in a sum or at the
 * end, so that 3' * 2 doubles. */
#include "base/error.h"
#include "base/length.h"
#include <math.h>
#include <string.h>

typedef struct
{
  const char *at;
  int depth;
  double bare_mm; /* what a plain number is in mm */
  const char *wrong;
} Tape;

typedef struct
{
  double q; /* mm when it is a length */
  gboolean length;
} Value;

static Value tape_sum (Tape *tape);

static void
fail (Tape *tape, const char *wrong)
{
  tape->wrong = tape->wrong != NULL ? tape->wrong : wrong;
}

static void
tape_space (Tape *tape)
{
  while (g_ascii_isspace (*tape->at))
    tape->at++;
}

static const char *
after_space (const char *at)
{
  while (g_ascii_isspace (*at))
    at++;
  return at;
}

/* mm in the unit at `at`, 0 where none stands; *end is behind it. */
static double
find_unit (const char *at, const char **end)
{
  static const struct { const char *name; double mm; } units[] = {
    { "mm", 1 }, { "cm", 10 }, { "m", 1000 }, { "in", SW_MM_PER_INCH }, { "ft", SW_MM_PER_FOOT }, { "\"", SW_MM_PER_INCH },
    { "''", SW_MM_PER_INCH }, { "'", SW_MM_PER_FOOT }, { "″", SW_MM_PER_INCH }, { "′", SW_MM_PER_FOOT }, { "”", SW_MM_PER_INCH },
    { "’", SW_MM_PER_FOOT },
  };
  at = after_space (at);
  for (gsize i = 0; i < G_N_ELEMENTS (units); i++)
    {
      gsize length = strlen (units[i].name);
      if (strncmp (at, units[i].name, length) == 0 && !(g_ascii_isalpha (units[i].name[0]) && g_ascii_isalpha (at[length])))
        {
          *end = at + length;
          return units[i].mm;
        }
    }
  return 0;
}

/* Whole digits / whole digits; *end is behind them. */
static gboolean
read_fraction (const char *at, double *over, double *under, const char **end)
{
  gsize top = strspn (at, "0123456789"), bottom = top > 0 && at[top] == '/' ? strspn (at + top + 1, "0123456789") : 0;
  if (bottom == 0 || (at[top + 1 + bottom] != '\0' && strchr (".,", at[top + 1 + bottom]) != NULL))
    return FALSE;
  *over = g_ascii_strtod (at, NULL);
  *under = g_ascii_strtod (at + top + 1, NULL);
  *end = at + top + 1 + bottom;
  return TRUE;
}

/* A part of an inch as rules are marked: 1/2 … 63/64. */
static gboolean
is_rule_mark (double over, double under)
{
  return over < under && (under == 2 || under == 4 || under == 8 || under == 16 || under == 32 || under == 64);
}

/* 6-1/2": six and a half to a carpenter, five and a half to an accountant. */
static gboolean
is_ambiguous (const Tape *tape, const char *after)
{
  double over, under;
  const char *end;
  if (*after != '-' || !read_fraction (after + 1, &over, &under, &end) || !is_rule_mark (over, under))
    return FALSE;
  double unit = find_unit (end, &end);
  return unit == SW_MM_PER_INCH || (unit == 0 && tape->bare_mm == SW_MM_PER_INCH);
}

/* The number at the head: "12.5", "4 1/2", and "1/2" where a unit follows it. */
static double
tape_figure (Tape *tape)
{
  double over, under, q;
  const char *end, *unit;
  gsize digits = strspn (tape->at, "0123456789.,");
  g_autofree char *figure = g_strndup (tape->at, digits);
  g_strdelimit (figure, ",", '.');
  char *stop = NULL;
  q = g_ascii_strtod (figure, &stop);
  if (digits == 0 || *stop != '\0')
    {
      fail (tape, "a number is missing");
      return 0;
    }
  if (read_fraction (tape->at, &over, &under, &end) && find_unit (end, &unit) > 0)
    q = 0; /* the fraction is all */
  else
    {
      gboolean whole = strspn (figure, "0123456789") == digits;
      if (whole && is_ambiguous (tape, tape->at + digits))
        fail (tape, "this can be read in two ways, put spaces: 6 1/2\" or 6 - 1/2\"");
      tape->at += digits;
      if (!whole || !g_ascii_isspace (*tape->at) || !read_fraction (after_space (tape->at), &over, &under, &end))
        return q;
    }
  if (under == 0)
    fail (tape, "division by zero");
  tape->at = end;
  return under == 0 ? 0 : q + over / under;
}

/* Inches behind feet: 3' 4 1/2", 3'4, 4'-6 1/2", 3 ft 4 in; adds them. */
static void
tape_inches (Tape *tape, Value *feet)
{
  Tape ahead = *tape;
  const char *end;
  gboolean hyphen = *ahead.at == '-' && g_ascii_isdigit (ahead.at[1]);
  ahead.at += hyphen ? 1 : 0;
  ahead.at = hyphen ? ahead.at : after_space (ahead.at);
  if (!g_ascii_isdigit (*ahead.at))
    return;
  double inches = tape_figure (&ahead), unit = find_unit (ahead.at, &end);
  if (ahead.wrong != NULL)
    {
      *tape = ahead;
      return;
    }
  gboolean mark = *(tape->at - 1) == '\'' || (unsigned char) *(tape->at - 1) > 127;
  if (unit == SW_MM_PER_INCH || (unit == 0 && mark))
    {
      feet->q += inches * SW_MM_PER_INCH;
      tape->at = unit > 0 ? end : ahead.at;
    }
}

static gboolean
go_down (Tape *tape)
{
  if (++tape->depth <= 50)
    return TRUE;
  fail (tape, "too many signs or brackets");
  return FALSE;
}

static Value
tape_value (Tape *tape)
{
  Value value = { 0, FALSE };
  const char *end;
  tape_space (tape);
  if (*tape->at == '-' || *tape->at == '+')
    {
      double sign = *tape->at++ == '-' ? -1 : 1;
      if (!go_down (tape))
        return value;
      value = tape_value (tape);
      value.q *= sign;
      tape->depth--;
      return value;
    }
  if (*tape->at == '(')
    {
      tape->at++;
      if (!go_down (tape))
        return value;
      value = tape_sum (tape);
      tape->depth--;
      tape_space (tape);
      if (*tape->at != ')')
        fail (tape, "a bracket is not closed");
      else
        tape->at++;
    }
  else
    value.q = tape_figure (tape);
  double unit = tape->wrong == NULL && !value.length ? find_unit (tape->at, &end) : 0;
  if (unit == 0)
    return value;
  value = (Value){ value.q * unit, TRUE };
  tape->at = end;
  if (unit == SW_MM_PER_FOOT)
    tape_inches (tape, &value);
  return value;
}

static Value
tape_product (Tape *tape)
{
  Value left = tape_value (tape);
  for (tape_space (tape); tape->wrong == NULL && (*tape->at == '*' || *tape->at == '/'); tape_space (tape))
    {
      gboolean divide = *tape->at++ == '/';
      Value right = tape_value (tape);
      if (divide && right.q == 0)
        fail (tape, "division by zero");
      else if (divide && right.length && !left.length)
        fail (tape, "a number divided by a length is none");
      else if (!divide && right.length && left.length)
        fail (tape, "a length times a length is none");
      else if (divide)
        left = (Value){ left.q / right.q, left.length && !right.length };
      else
        left = (Value){ left.q * right.q, left.length || right.length };
    }
  return left;
}

static double
value_mm (const Tape *tape, Value value)
{
  return value.length ? value.q : value.q * tape->bare_mm;
}

static Value
tape_sum (Tape *tape)
{
  Value left = tape_product (tape);
  for (tape_space (tape); tape->wrong == NULL && (*tape->at == '+' || *tape->at == '-'); tape_space (tape))
    {
      double sign = *tape->at++ == '-' ? -1 : 1;
      Value right = tape_product (tape);
      if (left.length == right.length)
        left.q += sign * right.q;
      else
        left = (Value){ value_mm (tape, left) + sign * value_mm (tape, right), TRUE };
    }
  return left;
}

gboolean
sw_length_read (const char *text, SwLengths in, double *mm, GError **error)
{
  Tape tape = { text, 0, in == SW_LENGTHS_FT_IN ? SW_MM_PER_INCH : 1, NULL };
  double q = value_mm (&tape, tape_sum (&tape));
  tape_space (&tape);
  if (tape.wrong == NULL && *tape.at != '\0')
    tape.wrong = "something follows the length";
  if (tape.wrong == NULL && !isfinite (q))
    tape.wrong = "the length is out of range";
  if (tape.wrong != NULL)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "\"%s\" is not a length: %s at character %ld", text, tape.wrong,
                   (long) g_utf8_pointer_to_offset (text, tape.at) + 1);
      return FALSE;
    }
  *mm = q;
  return TRUE;
}
