/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "drawing/pen.h"

/* Text in lines, and lists whose cells take as many lines as they need. Coordinates are the pen's, y up; the pen's unit
 * and letters give the size. */

/* Lines of at most `width`, broken at blanks, or inside words that are wider. Free with g_strfreev. */
GStrv sw_paragraph_wrap (const SwPen *pen, const char *text, double width, gboolean bold);
/* From the top left corner down; returns the y below the last line. */
double sw_paragraph_add (const SwPen *pen, SwPoint top_left, double width, const char *text);
/* The same, bold. */
double sw_paragraph_add_heading (const SwPen *pen, SwPoint top_left, double width, const char *text);

typedef struct
{
  const char *heading;
  double width;
  SwTextAlign align;
} SwListColumn;

typedef struct
{
  const SwListColumn *columns;
  guint n_columns;
  const char *const *texts; /* row by row; NULL is empty */
  guint n_rows;
} SwTextList;

/* Headings and rows from `first` on, down to `bottom` at the lowest; returns how many rows were drawn, at least one when
 * there is one. *y (may be NULL) is where the list ends. */
guint sw_paragraph_add_list (const SwPen *pen, SwPoint top_left, double bottom, const SwTextList *list, guint first, double *y);
/* How many rows that would be. */
guint sw_paragraph_fit_list (const SwPen *pen, double height, const SwTextList *list, guint first);
