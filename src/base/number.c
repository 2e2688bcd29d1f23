/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/number.h"
#include "base/error.h"
#include <float.h>
#include <math.h>
#include <string.h>

const char *
sw_number_write (double value, char buf[SW_NUMBER_BUF])
{
  g_assert (isfinite (value));
  if (value == 0)
    return strcpy (buf, "0");
  if (fabs (value) < 1e15 && value == floor (value))
    return g_ascii_formatd (buf, SW_NUMBER_BUF, "%.0f", value);
  for (int digits = 6; digits <= 17; digits++)
    {
      char format[8];
      g_snprintf (format, sizeof format, "%%.%dg", digits);
      g_ascii_formatd (buf, SW_NUMBER_BUF, format, value);
      if (g_ascii_strtod (buf, NULL) == value)
        break;
    }
  return buf;
}

const char *
sw_number_write_fixed (double value, int decimals, char buf[SW_NUMBER_BUF])
{
  g_assert (isfinite (value) && decimals >= 0 && decimals <= 9);
  /* A hair is added so that 2.675, kept as 2.67499…, rounds as people write it. */
  double scale = pow (10.0, decimals);
  double rounded = value;
  if (fabs (value) * scale < 4e14)
    rounded = round (value * scale * (1 + 4 * DBL_EPSILON)) / scale;
  char format[8];
  g_snprintf (format, sizeof format, "%%.%df", decimals);
  return g_ascii_formatd (buf, SW_NUMBER_BUF, format, rounded == 0 ? 0.0 : rounded);
}

static gboolean
is_plain_number (const char *text)
{
  return text[0] != '\0' && strspn (text, "+-0123456789.eE") == strlen (text);
}

gboolean
sw_number_read (const char *text, double *value, GError **error)
{
  g_autofree char *copy = g_strstrip (g_strdup (text));
  char *end = NULL;
  double read = is_plain_number (copy) ? g_ascii_strtod (copy, &end) : 0;
  if (end == NULL || end == copy || *end != '\0' || !isfinite (read))
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "\"%s\" is not a number", copy);
      return FALSE;
    }
  *value = read;
  return TRUE;
}

gboolean
sw_number_read_int (const char *text, gint64 *value, GError **error)
{
  g_autofree char *copy = g_strstrip (g_strdup (text));
  return g_ascii_string_to_signed (copy, 10, G_MININT64, G_MAXINT64, value, error);
}

/* Recursive descent over sum → product → signed → value; depth is bounded so that brackets cannot eat the stack. */
typedef struct
{
  const char *at;
  int depth;
  const char *wrong;
} Tape;

static double tape_sum (Tape *tape);

static void
tape_space (Tape *tape)
{
  while (g_ascii_isspace (*tape->at))
    tape->at++;
}

static double
tape_unit (Tape *tape)
{
  static const struct { const char *name; double mm; } units[] = {
    { "mm", 1 }, { "cm", 10 }, { "m", 1000 }, { "in", 25.4 }, { "ft", 304.8 }, { "\"", 25.4 }, { "'", 304.8 },
  };
  tape_space (tape);
  for (gsize i = 0; i < G_N_ELEMENTS (units); i++)
    {
      gsize length = strlen (units[i].name);
      if (strncmp (tape->at, units[i].name, length) == 0
          && !(g_ascii_isalpha (units[i].name[0]) && g_ascii_isalpha (tape->at[length])))
        {
          tape->at += length;
          return units[i].mm;
        }
    }
  return 0;
}

static double
tape_value (Tape *tape)
{
  double q = 0;
  tape_space (tape);
  if (*tape->at == '-' || *tape->at == '+')
    {
      gboolean negative = *tape->at++ == '-';
      if (++tape->depth > 50)
        {
          tape->wrong = "too many signs or brackets";
          return q;
        }
      q = tape_value (tape);
      tape->depth--;
      q = negative ? -q : q;
      return q;
    }
  if (*tape->at == '(')
    {
      tape->at++;
      if (++tape->depth > 50)
        {
          tape->wrong = "too many signs or brackets";
          return q;
        }
      q = tape_sum (tape);
      tape->depth--;
      tape_space (tape);
      if (*tape->at != ')')
        tape->wrong = tape->wrong ? tape->wrong : "a bracket is not closed";
      else
        tape->at++;
      return q;
    }
  gsize digits = strspn (tape->at, "0123456789.,");
  g_autofree char *figure = g_strndup (tape->at, digits);
  g_strdelimit (figure, ",", '.');
  char *end = NULL;
  q = g_ascii_strtod (figure, &end);
  if (digits == 0 || *end != '\0')
    {
      tape->wrong = tape->wrong ? tape->wrong : "a number is missing";
      return q;
    }
  tape->at += digits;
  double unit = tape_unit (tape);
  return unit > 0 ? q * unit : q;
}

static double
tape_product (Tape *tape)
{
  double left = tape_value (tape);
  for (tape_space (tape); tape->wrong == NULL && (*tape->at == '*' || *tape->at == '/'); tape_space (tape))
    {
      gboolean divide = *tape->at++ == '/';
      double right = tape_value (tape);
      if (divide && right == 0)
        tape->wrong = tape->wrong ? tape->wrong : "division by zero";
      else if (divide)
        left /= right;
      else
        left *= right;
    }
  return left;
}

static double
tape_sum (Tape *tape)
{
  double left = tape_product (tape);
  for (tape_space (tape); tape->wrong == NULL && (*tape->at == '+' || *tape->at == '-'); tape_space (tape))
    {
      gboolean minus = *tape->at++ == '-';
      double right = tape_product (tape);
      left += minus ? -right : right;
    }
  return left;
}

gboolean
sw_length_read (const char *text, double *mm, GError **error)
{
  Tape tape = { text, 0, NULL };
  double q = tape_sum (&tape);
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
