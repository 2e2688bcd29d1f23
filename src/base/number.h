/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>

/* Numbers in and out of files, whatever the locale. */

#define SW_NUMBER_BUF 40

/* Writes `value` with the fewest digits that read back bit for bit; returns `buf`. NaN and infinities assert. */
const char *sw_number_write (double value, char buf[SW_NUMBER_BUF]);

/* Writes `value` rounded to `decimals` (0–9), half away from zero, "-0" as "0"; returns `buf`. */
const char *sw_number_write_fixed (double value, int decimals, char buf[SW_NUMBER_BUF]);

/* Reads a plain decimal number that fills `text` but for white space. FALSE and SW_ERROR_INVALID otherwise. */
gboolean sw_number_read (const char *text, double *value, GError **error);
gboolean sw_number_read_int (const char *text, gint64 *value, GError **error);

/* For sorting arrays of double, ascending. */
int sw_compare_doubles (gconstpointer a, gconstpointer b);
