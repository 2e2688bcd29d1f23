/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "job/edit.h"

/* Price lists as CSV (base/csv.h): first row the columns' names, "code" and any of the price table's fields: description, unit,
 * supplier, material, labour, waste (percent), length_mm, width_mm (of stock). Amounts and numbers have a decimal point; an
 * empty one is 0. Written again, a list that was written here has the same bytes. */

/* All that changes when the list is taken over: rows with a code that the job knows get the columns that the list has, others are
 * new, and nothing is taken out. SW_ERROR_INVALID names `name`, line and character, and nothing was changed: not CSV, a column
 * that is unknown or stands twice or a missing "code", a code twice or one that is the mark of something else, a cell out of
 * range. `length` in bytes, -1: up to the NUL. */
SwEdit *sw_price_list_read (const SwJob *job, const char *text, gssize length, const char *name, GError **error);
/* The same from a file. */
SwEdit *sw_price_list_load (const SwJob *job, const char *path, GError **error);

/* The job's list, in the order in which rows came. Free with g_free. */
char *sw_price_list_write (const SwJob *job);

/* The job, with the invented list that the program brings (data/prices.csv) when it has no prices. The caller's. */
SwJob *sw_price_list_or_default (SwJob *job, GError **error);
