/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>

/* Lengths as people write and read them. Model and files are always in mm; this decides only how a length is shown and
 * what a bare number means that somebody types. An inch is 25.4 mm exactly (international yard and pound agreement, 1959). */
typedef enum
{
  SW_LENGTHS_MM,
  SW_LENGTHS_FT_IN, /* feet, inches and the nearest sixteenth: 4' 0 9/16" */
  SW_N_LENGTHS
} SwLengths;

#define SW_MM_PER_INCH 25.4
#define SW_MM_PER_FOOT 304.8

typedef enum
{
  SW_LENGTH_UNIT, /* in a sentence: "1234 mm"; 4' 0 9/16" */
  SW_LENGTH_BARE, /* in a table or a field whose head names the unit: "1234"; 4' 0 9/16" */
  SW_LENGTH_DIM   /* on a drawing: "1234"; 4'-0 9/16" */
} SwLengthStyle;

#define SW_LENGTH_BUF 56

/* Rounded to `decimals` of a mm (0–9), or to a sixteenth of an inch, half away from zero; returns `buf`. NaN and infinities assert. */
const char *sw_length_write (double mm, SwLengths in, SwLengthStyle style, int decimals, char buf[SW_LENGTH_BUF]);
/* For clearances that differ by less than 1 mm: "9.6 mm"; 0.378". */
const char *sw_length_write_fine (double mm, SwLengths in, char buf[SW_LENGTH_BUF]);
/* What mm jobs give in metres: "1.84 m"; 6' 0 7/16". */
const char *sw_length_write_far (double mm, SwLengths in, int decimals, char buf[SW_LENGTH_BUF]);
/* A sum of lengths: "12.3 m"; "40.4 ft". */
const char *sw_length_write_sum (double mm, SwLengths in, int decimals, char buf[SW_LENGTH_BUF]);
/* "12.3 m²"; "132.4 ft²". */
const char *sw_area_write (double mm2, SwLengths in, int decimals, char buf[SW_LENGTH_BUF]);

/* The next whole mm or sixteenth of an inch that is no less, in mm; hundredths of a mm that rounding left do not count. */
double sw_length_up (double mm, SwLengths in);

/* The last whole mm or sixteenth of an inch that is no more, in mm: what a saw is set to for a piece that has to go between walls; hundredths of
 * a mm that rounding took do not count. */
double sw_length_down (double mm, SwLengths in);

/* For labels of fields and heads of columns: "mm", "ft-in"; "m", "ft"; "m²", "ft²". Static. */
const char *sw_lengths_symbol (SwLengths in);
const char *sw_lengths_sum_symbol (SwLengths in);
const char *sw_lengths_area_symbol (SwLengths in);

/* Tape-measure arithmetic: + - * / and brackets over lengths, "1200+450/2", "1.2 m + 3 cm", 3' 4 1/2" + 2"; units mm, cm, m,
 * in, ft and ' ". A sum that names no unit is in mm, or in inches where feet and inches are read. Whole inches and a fraction
 * stand apart (4 1/2"); inches follow feet with a space, a hyphen as on drawings (4'-6") or nothing. A decimal comma is taken
 * too. Sets *mm. SW_ERROR_INVALID says what is wrong and where, also of what can be read in two ways (6-1/2"). */
gboolean sw_length_read (const char *text, SwLengths in, double *mm, GError **error);
