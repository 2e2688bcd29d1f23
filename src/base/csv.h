/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>

/* CSV as RFC 4180 has it: UTF-8 without a mark at its head, commas, every line ended by CR LF, a cell between quotes when it
 * holds a comma, quote, line end, semicolon or tab, or begins or ends with a blank; quotes in it are doubled.
 *
 * Formula-safe: a spreadsheet takes a cell that begins with = + - @ (also in full width), a tab or a line end for a
 * formula, quoted or not. Such a text gets an apostrophe in front, and so does one that begins with apostrophes before such a
 * sign, so that taking one away gives the text back (csv_read.h). Numbers go through sw_csv_add_number and are left alone, so
 * that -12.5 stays a number. */
typedef struct _SwCsv SwCsv;

SwCsv *sw_csv_new (void);
void sw_csv_free (SwCsv *csv);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwCsv, sw_csv_free)

/* Cells of the row, in order. What is not UTF-8 is replaced; NULL is an empty cell. */
void sw_csv_add_text (SwCsv *csv, const char *text);
/* `digits` as base/number.h or base/money.h write them: asserts that it is a plain decimal number. */
void sw_csv_add_number (SwCsv *csv, const char *digits);
void sw_csv_end_row (SwCsv *csv);

/* Whether a text, after any apostrophes at its head, would be taken for a formula. */
gboolean sw_csv_is_formula (const char *text);

/* All rows so far. Free with g_free. */
char *sw_csv_text (const SwCsv *csv);
