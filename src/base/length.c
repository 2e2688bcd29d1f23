/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/length.h"
#include "base/number.h"
#include "base/tolerance.h"
#include <math.h>
#include <string.h>

#define PARTS 16 /* of an inch */

/* In whole sixteenths, so that 11 31/32" carries into the next foot. */
static const char *
write_feet (double mm, const char *between, char buf[SW_LENGTH_BUF])
{
  gint64 all = llround (fabs (mm) * PARTS / SW_MM_PER_INCH), feet = all / (12 * PARTS), inches = all / PARTS % 12;
  int over = (int) (all % PARTS), under = PARTS;
  char whole[24] = "", part[16] = "", foot[28] = "";
  for (; over > 0 && over % 2 == 0; under /= 2)
    over /= 2;
  if (inches > 0 || feet > 0 || over == 0)
    g_snprintf (whole, sizeof whole, "%" G_GINT64_FORMAT, inches);
  if (over > 0)
    g_snprintf (part, sizeof part, "%s%d/%d", *whole != '\0' ? " " : "", over, under);
  if (feet > 0)
    g_snprintf (foot, sizeof foot, "%" G_GINT64_FORMAT "'%s", feet, between);
  g_snprintf (buf, SW_LENGTH_BUF, "%s%s%s%s\"", mm < 0 && all > 0 ? "-" : "", foot, whole, part);
  return buf;
}

static const char *
write_with (double value, int decimals, const char *unit, char buf[SW_LENGTH_BUF])
{
  char number[SW_NUMBER_BUF];
  g_snprintf (buf, SW_LENGTH_BUF, "%s%s%s", sw_number_write_fixed (value, decimals, number), *unit != '\0' ? " " : "", unit);
  return buf;
}

const char *
sw_length_write (double mm, SwLengths in, SwLengthStyle style, int decimals, char buf[SW_LENGTH_BUF])
{
  g_assert (isfinite (mm));
  if (in == SW_LENGTHS_FT_IN && fabs (mm) < 1e15)
    return write_feet (mm, style == SW_LENGTH_DIM ? "-" : " ", buf);
  return write_with (mm, decimals, style == SW_LENGTH_UNIT ? "mm" : "", buf);
}

const char *
sw_length_write_fine (double mm, SwLengths in, char buf[SW_LENGTH_BUF])
{
  char number[SW_NUMBER_BUF];
  if (in == SW_LENGTHS_MM)
    return write_with (mm, fabs (mm - round (mm)) >= 0.05 ? 1 : 0, "mm", buf);
  g_snprintf (buf, SW_LENGTH_BUF, "%s\"", sw_number_write_fixed (mm / SW_MM_PER_INCH, 3, number));
  return buf;
}

const char *
sw_length_write_far (double mm, SwLengths in, int decimals, char buf[SW_LENGTH_BUF])
{
  return in == SW_LENGTHS_FT_IN ? sw_length_write (mm, in, SW_LENGTH_UNIT, 0, buf) : write_with (mm / 1000, decimals, "m", buf);
}

const char *
sw_length_write_sum (double mm, SwLengths in, int decimals, char buf[SW_LENGTH_BUF])
{
  return write_with (mm / (in == SW_LENGTHS_FT_IN ? SW_MM_PER_FOOT : 1000), decimals, sw_lengths_sum_symbol (in), buf);
}

const char *
sw_area_write (double mm2, SwLengths in, int decimals, char buf[SW_LENGTH_BUF])
{
  /* A square foot is about a tenth of a square metre: it needs a digit less. */
  if (in == SW_LENGTHS_FT_IN)
    return write_with (mm2 / (SW_MM_PER_FOOT * SW_MM_PER_FOOT), MAX (decimals - 1, MIN (decimals, 1)), "ft²", buf);
  return write_with (mm2 / 1e6, decimals, "m²", buf);
}

double
sw_length_up (double mm, SwLengths in)
{
  double step = in == SW_LENGTHS_FT_IN ? SW_MM_PER_INCH / PARTS : 1;
  return ceil ((mm - 2 * SW_GRID_MM) / step) * step;
}

double
sw_length_down (double mm, SwLengths in)
{
  double step = in == SW_LENGTHS_FT_IN ? SW_MM_PER_INCH / PARTS : 1;
  return floor ((mm + 2 * SW_GRID_MM) / step) * step;
}

const char *
sw_lengths_symbol (SwLengths in)
{
  return in == SW_LENGTHS_FT_IN ? "ft-in" : "mm";
}

const char *
sw_lengths_sum_symbol (SwLengths in)
{
  return in == SW_LENGTHS_FT_IN ? "ft" : "m";
}

const char *
sw_lengths_area_symbol (SwLengths in)
{
  return in == SW_LENGTHS_FT_IN ? "ft²" : "m²";
}
