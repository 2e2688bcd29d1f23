/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>

/* Money in 1/10,000 of the currency's unit, quantities in 1/1000; products in 128 bits, one rounding function. */
typedef gint64 SwMoney;
typedef gint64 SwQuantity;

#define SW_MONEY_ONE G_GINT64_CONSTANT (10000)
#define SW_QUANTITY_ONE G_GINT64_CONSTANT (1000)
#define SW_MONEY_BUF 32

/* n / d rounded half away from zero; d > 0. */
gint64 sw_divide_round (__int128 n, gint64 d);

/* rate × quantity, kept at 1/10,000. Out of range saturates at G_MAXINT64, which sw_money_is_valid refuses. */
SwMoney sw_money_times (SwMoney rate, SwQuantity quantity);
/* money × share, the share in 1/1,000,000 (15 % = 150,000). */
SwMoney sw_money_share (SwMoney money, gint64 share_ppm);
/* Price for a cost at a margin: cost / (1 − margin); margin_ppm < 1,000,000. */
SwMoney sw_money_margin (SwMoney cost, gint64 margin_ppm);
/* Rounded to cents, half away from zero, as each line of a quote is. */
SwMoney sw_money_cents (SwMoney money);
gboolean sw_money_is_valid (SwMoney money);

/* "4068.00": two decimals, or four when they are needed; no grouping, point as decimal sign. Returns `buf`. */
const char *sw_money_write (SwMoney money, char buf[SW_MONEY_BUF]);
/* Exact: at most four decimals; "1234.5", "-3". SW_ERROR_INVALID otherwise. */
gboolean sw_money_read (const char *text, SwMoney *money, GError **error);

/* A measured double turned into a quantity, rounded half away from zero. */
SwQuantity sw_quantity_from_double (double value);
double sw_quantity_to_double (SwQuantity quantity);
/* At most three decimals, trailing zeros dropped. */
const char *sw_quantity_write (SwQuantity quantity, char buf[SW_MONEY_BUF]);
gboolean sw_quantity_read (const char *text, SwQuantity *quantity, GError **error);
