/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>

/* Where battens go along one direction: centres of lines, mm from the wall that the room starts at. */

typedef struct
{
  double length;     /* from wall to wall */
  double limit;      /* greatest centres */
  double edge_limit; /* greatest centres of the first and last bay; 0: the limit */
  double first;      /* centre of the first batten from the wall: near face + half its width */
  double last;       /* of the last from the other wall; 0: as the first */
  double width;      /* of a batten */
  double sheet;      /* sheet's size in this direction when end joints must fall on battens; 0 when there are none */
  double start;      /* where the grid of joints starts, from the wall */
} SwSetout;

typedef struct
{
  double centres; /* of the battens between the edges */
  GArray *lines;  /* double, ascending */
} SwSetoutLines;

/* Greatest centres ≤ limit that divide the sheet. */
double sw_setout_dividing_centres (double sheet, double limit);
/* Whether a joint at the sheet's end falls on a batten: within a thousandth of the centres. */
gboolean sw_setout_divides (double sheet, double centres);

/* Without joints: from the first batten to the last in even centres. With joints: on
 * the grid start + k · centres, and a batten at each wall for the cornice; a gap at an edge that is too wide gets one
 * more. The caller frees `lines` (g_array_unref). */
SwSetoutLines sw_setout_lines (const SwSetout *setout);
