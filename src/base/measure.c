/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/measure.h"
#include "base/error.h"
#include "base/number.h"
#include <string.h>

typedef enum { LENGTH, AREA, FLOW, HEAT, SPAN, PRESSURE, FORCE, MASS, POWER, CURRENT, ANGLE, VOLUME, SLOPE, SLOPE_OVER } Measure;

/* value · factor + offset is in the first unit of its measure; SLOPE_OVER: factor / value is. */
static const struct
{
  const char *unit;
  Measure measure;
  double factor, offset;
} units[] = {
  { "mm", LENGTH, 1, 0 },          { "cm", LENGTH, 10, 0 },    { "m", LENGTH, 1000, 0 },     { "in", LENGTH, 25.4, 0 },
  { "ft", LENGTH, 304.8, 0 },      { "mm2", AREA, 1, 0 },      { "mm²", AREA, 1, 0 },        { "cm2", AREA, 100, 0 },
  { "m2", AREA, 1e6, 0 },          { "in2", AREA, 645.16, 0 }, { "l/s", FLOW, 1, 0 },        { "l/min", FLOW, 1 / 60.0, 0 },
  { "m3/h", FLOW, 1 / 3.6, 0 },    { "gal/min", FLOW, 0.0630902, 0 }, { "°C", HEAT, 1, 0 },  { "C", HEAT, 1, 0 },
  { "°F", HEAT, 5 / 9.0, -160 / 9.0 }, { "F", HEAT, 5 / 9.0, -160 / 9.0 }, { "K", SPAN, 1, 0 }, { "kPa", PRESSURE, 1, 0 },
  { "Pa", PRESSURE, 0.001, 0 },    { "bar", PRESSURE, 100, 0 }, { "MPa", PRESSURE, 1000, 0 }, { "psi", PRESSURE, 6.894757, 0 },
  { "N", FORCE, 1, 0 },            { "kN", FORCE, 1000, 0 },   { "kg", MASS, 1, 0 },         { "g", MASS, 0.001, 0 },
  { "t", MASS, 1000, 0 },          { "W", POWER, 1, 0 },       { "kW", POWER, 1000, 0 },     { "A", CURRENT, 1, 0 },
  { "mA", CURRENT, 0.001, 0 },     { "°", ANGLE, 1, 0 },       { "deg", ANGLE, 1, 0 },       { "l", VOLUME, 1, 0 },
  { "m3", VOLUME, 1000, 0 },       { "1:n", SLOPE, 1, 0 },     { "%", SLOPE_OVER, 100, 0 },  { "mm/m", SLOPE_OVER, 1000, 0 },
  { "cm/m", SLOPE_OVER, 100, 0 },
};

static int
find_unit (const char *name)
{
  for (gsize i = 0; i < G_N_ELEMENTS (units); i++)
    if (strcmp (units[i].unit, name) == 0)
      return (int) i;
  return -1;
}

static gboolean
convert (double *value, int from, int to)
{
  if (from < 0 || to < 0)
    return FALSE;
  if (units[from].measure == SLOPE_OVER && units[to].measure == SLOPE && *value > 0)
    *value = units[from].factor / *value;
  else if (units[from].measure == units[to].measure && units[to].measure != SLOPE_OVER)
    *value = (*value * units[from].factor + units[from].offset - units[to].offset) / units[to].factor;
  else
    return FALSE;
  return TRUE;
}

/* Where the number at the head of the text ends. An e belongs to it only before digits. */
static gsize
number_length (const char *text)
{
  gsize n = strspn (text, "+-0123456789.");
  if (n > 0 && (text[n] == 'e' || text[n] == 'E'))
    {
      gsize sign = text[n + 1] == '-' || text[n + 1] == '+' ? 1 : 0, digits = strspn (text + n + 1 + sign, "0123456789");
      n += digits > 0 ? 1 + sign + digits : 0;
    }
  return n;
}

gboolean
sw_measure_read (const char *text, const char *unit, double *value, GError **error)
{
  g_autofree char *copy = g_strstrip (g_strdup (text));
  gboolean slope = strcmp (unit, "1:n") == 0 && g_str_has_prefix (copy, "1:");
  char *head = slope ? copy + 2 : copy;
  gsize n = number_length (head);
  g_autofree char *number = g_strndup (head, n), *suffix = g_strstrip (g_strdup (head + n));
  if (n == 0 || !sw_number_read (number, value, NULL))
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "\"%s\" is not a number", copy);
      return FALSE;
    }
  if (*suffix == '\0' || (!slope && strcmp (suffix, unit) == 0) || (!slope && convert (value, find_unit (suffix), find_unit (unit))))
    return TRUE;
  g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "\"%s\": %s does not go with %s", copy, suffix, *unit != '\0' ? unit : "a plain number");
  return FALSE;
}
