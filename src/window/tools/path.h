/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "job/records.h"

/* The way from a record to one value that can be typed or chosen: a field, x or y of a place, a vertex's level. The
 * inspector is made of these. */
typedef struct
{
  const SwField *outer; /* of the record */
  int item;             /* of a list, from 0; −1 for the field itself */
  const SwField *inner; /* of the item; NULL when the item is a place */
  int axis;             /* 0 x, 1 y of a place; −1 otherwise */
} SwPath;

/* All values of a record in the order of its table, lists unrolled when `lists`. GArray of SwPath, the caller's. Hidden
 * fields and lists of other things than places are left out. */
GArray *sw_path_list (const SwRecord *record, gboolean lists);
/* The field at its end (x and y are fields of a point). */
const SwField *sw_path_leaf (const SwPath *path);
/* Where the leaf's base lies; NULL when the record has no such item. */
gpointer sw_path_base (const SwRecord *record, const SwPath *path);
gboolean sw_path_equal (const SwPath *a, const SwPath *b);

/* As people type it (not for references); "" when there is no such item. Free with g_free. */
char *sw_path_write (const SwRecord *record, const SwPath *path, SwLengths lengths);
/* For a record that is not yet in a job. Not for references. */
gboolean sw_path_read (SwRecord *record, const SwPath *path, SwLengths lengths, const char *text, GError **error);
