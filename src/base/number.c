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

int
sw_compare_doubles (gconstpointer a, gconstpointer b)
{
  double first = *(const double *) a, second = *(const double *) b;
  return (first > second) - (first < second);
}
