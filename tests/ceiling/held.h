/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "ceiling/ceiling.h"

/* Whether boards are held, looked at from the outside: only pieces, their corners and members are read, none of what laying knows. */

typedef struct
{
  double area;      /* m² of board that is not held */
  guint pieces;     /* with such a place */
  SwPoint at;       /* the worst place, in the plan */
  double distance;  /* from the nearest member there, mm */
} SwHeld;

/* A place of a piece is held when, along the battens or across them, members lie to both sides of it in the same piece, clear of each other by
 * no more than the board's greatest centres less a member's width; or when a member is no further than `over` away. Places stand `step` mm apart. */
SwHeld sw_held_look (const SwCeiling *ceiling, double over, double step);
/* Noggins of which an end neither butts against another member nor lies at it. */
guint sw_held_loose_noggins (const SwCeiling *ceiling);
