/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "drawing/pen.h"

/* Tables on a page: the title block, and schedules with columns. Texts are shortened to their cells. */

typedef struct
{
  const char *label; /* small, above the value; may be NULL */
  const char *value; /* may be NULL: room to write by hand */
  double share;      /* of the row's width; all of a row need not add up to 1: they are scaled */
} SwCell;

typedef struct
{
  const SwCell *cells;
  gsize n;
  double height_mm; /* 0 = as high as a label and a value need */
} SwCellRow;

/* Rows of label and value, from the top, in a box whose lower right corner is `corner` (in a sheet's frame) and that is
 * `width_mm` wide. Returns the box. */
SwBox sw_table_add_title_block (const SwPen *pen, SwPoint corner, double width_mm, const SwCellRow *rows, gsize n);

typedef struct
{
  const char *heading;
  double width_mm; /* 0 = as wide as its widest text */
  SwTextAlign align;
} SwTableColumn;

/* A schedule from its top left corner: heading and `n_rows` rows of `n_columns` texts (row by row; NULL = empty), as
 * many as fit into `height_mm`. Returns the box; *n_shown (may be NULL) is the number of rows shown. */
SwBox sw_table_add_schedule (const SwPen *pen, SwPoint top_left, double height_mm, const SwTableColumn *columns, gsize n_columns,
                             const char *const *texts, gsize n_rows, gsize *n_shown);
