/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "job/records.h"

/* What laying a room's ceiling is asked for beside what the room says; all zero: nothing. */

/* A sheet that can be had. */
typedef struct
{
  double length, width; /* mm, the longer first */
  gint64 cost;          /* in any one unit; 0 for any: all count by their area */
} SwBoardSize;

typedef struct
{
  double centres;       /* take these and no others; 0: worked out from rule, room and sheet */
  const SwLayout *keep; /* its locked pieces stay where they are; NULL: none */
  const SwBoardSize *sizes; /* n_sizes: pieces may come from these too (the room's own is known by its size: for its cost) */
  guint n_sizes;
  gint64 joint_cost;    /* of a metre, in the sizes' unit: of layouts that were found, it tells which costs least; 0: sheets alone count */
  gboolean quick;       /* a first answer: less search */
} SwCeilingOptions;
