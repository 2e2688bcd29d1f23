/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>

/* Reads CSV as RFC 4180 has it, strictly: commas, lines ended by CR LF or LF, cells between quotes when they hold a comma, quote or
 * line end, quotes in them doubled. A mark at the head (UTF-8) is skipped. The first row holds the columns' names. A first row without a
 * comma but with semicolons, or tabs, says that these part the cells, as spreadsheets write where a comma is the decimal mark. Immutable. */
typedef struct _SwCsvFile SwCsvFile;

/* `length` in bytes, -1: up to the NUL. SW_ERROR_INVALID names line and column: not UTF-8, a quote out of place or left
 * open, a lone CR, a row with fewer or more cells than the first, no first row. SW_ERROR_LIMIT beyond SW_CSV_MOST cells. */
SwCsvFile *sw_csv_read (const char *text, gssize length, GError **error);
void sw_csv_file_free (SwCsvFile *file);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwCsvFile, sw_csv_file_free)

#define SW_CSV_MOST 4000000

guint sw_csv_file_n_columns (const SwCsvFile *file);
/* Row 0 holds the names. */
guint sw_csv_file_n_rows (const SwCsvFile *file);
/* Borrowed. */
const char *sw_csv_file_cell (const SwCsvFile *file, guint row, guint column);
/* The cell as a number is written everywhere: where no comma parts the cells, a comma in it is the decimal mark. `cell` or `buf`. */
#define SW_CSV_NUMBER_BUF 48
const char *sw_csv_file_number (const SwCsvFile *file, const char *cell, char buf[SW_CSV_NUMBER_BUF]);
/* Where the cell begins: line and character in it, from 1. */
void sw_csv_file_place (const SwCsvFile *file, guint row, guint column, guint *line, guint *character);

/* A text as it was before sw_csv_add_text made it formula-safe: without the apostrophe in front. Part of `cell`. */
const char *sw_csv_plain (const char *cell);
