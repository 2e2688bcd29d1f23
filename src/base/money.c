/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/money.h"
#include "base/error.h"
#include <math.h>
#include <string.h>

static gint64
saturate (__int128 value)
{
  if (value > G_MAXINT64)
    return G_MAXINT64;
  if (value < -G_MAXINT64)
    return -G_MAXINT64;
  return (gint64) value;
}

gint64
sw_divide_round (__int128 n, gint64 d)
{
  g_assert (d > 0);
  __int128 half = d / 2;
  __int128 magnitude = n < 0 ? -n : n;
  __int128 whole = magnitude / d;
  __int128 rest = magnitude % d;
  if (rest > half || (rest == half && d % 2 == 0))
    whole++;
  return saturate (n < 0 ? -whole : whole);
}

SwMoney
sw_money_times (SwMoney rate, SwQuantity quantity)
{
  return sw_divide_round ((__int128) rate * quantity, SW_QUANTITY_ONE);
}

SwMoney
sw_money_share (SwMoney money, gint64 share_ppm)
{
  return sw_divide_round ((__int128) money * share_ppm, 1000000);
}

SwMoney
sw_money_margin (SwMoney cost, gint64 margin_ppm)
{
  g_assert (margin_ppm < 1000000);
  return sw_divide_round ((__int128) cost * 1000000, 1000000 - margin_ppm);
}

SwMoney
sw_money_cents (SwMoney money)
{
  return sw_divide_round (money, 100) * 100;
}

gboolean
sw_money_is_valid (SwMoney money)
{
  return money > -G_MAXINT64 && money < G_MAXINT64;
}

/* Writes value / 10^digits with at least `least` decimals. */
static const char *
write_scaled (gint64 value, int digits, int least, char buf[SW_MONEY_BUF])
{
  guint64 magnitude = value < 0 ? (guint64) 0 - (guint64) value : (guint64) value;
  guint64 scale = 1;
  for (int i = 0; i < digits; i++)
    scale *= 10;
  char rest[8];
  g_snprintf (rest, sizeof rest, "%0*" G_GUINT64_FORMAT, digits, magnitude % scale);
  int kept = digits;
  while (kept > least && rest[kept - 1] == '0')
    kept--;
  rest[kept] = '\0';
  g_snprintf (buf, SW_MONEY_BUF, "%s%" G_GUINT64_FORMAT "%s%s", value < 0 ? "-" : "", magnitude / scale,
              kept > 0 ? "." : "", rest);
  return buf;
}

static gboolean
read_scaled (const char *text, int digits, gint64 *value, GError **error)
{
  g_autofree char *copy = g_strstrip (g_strdup (text));
  const char *at = copy;
  gboolean negative = *at == '-';
  if (*at == '-' || *at == '+')
    at++;
  __int128 sum = 0;
  int decimals = -1, figures = 0;
  for (; g_ascii_isdigit (*at) || (*at == '.' && decimals < 0); at++)
    {
      if (*at == '.')
        {
          decimals = 0;
          continue;
        }
      figures++;
      decimals += decimals >= 0;
      sum = sum * 10 + (*at - '0');
      if (sum > G_MAXINT64 || decimals > digits)
        break;
    }
  for (int i = MAX (decimals, 0); i < digits; i++)
    sum *= 10;
  if (*at != '\0' || figures == 0 || sum >= G_MAXINT64)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "\"%s\" is not an amount with at most %d decimals", copy, digits);
      return FALSE;
    }
  *value = (gint64) (negative ? -sum : sum);
  return TRUE;
}

const char *
sw_money_write (SwMoney money, char buf[SW_MONEY_BUF])
{
  return write_scaled (money, 4, 2, buf);
}

gboolean
sw_money_read (const char *text, SwMoney *money, GError **error)
{
  return read_scaled (text, 4, money, error);
}

SwQuantity
sw_quantity_from_double (double value)
{
  g_assert (isfinite (value));
  if (fabs (value) > 9e15)
    return value > 0 ? G_MAXINT64 : -G_MAXINT64;
  return (SwQuantity) round (value * 1000.0);
}

double
sw_quantity_to_double (SwQuantity quantity)
{
  return (double) quantity / 1000.0;
}

const char *
sw_quantity_write (SwQuantity quantity, char buf[SW_MONEY_BUF])
{
  return write_scaled (quantity, 3, 0, buf);
}

gboolean
sw_quantity_read (const char *text, SwQuantity *quantity, GError **error)
{
  return read_scaled (text, 3, quantity, error);
}
