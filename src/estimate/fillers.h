/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "space/deck.h"

/* What closes one void over one separating wall. */
typedef struct
{
  const SwWall *wall;
  const SwDeckBay *bay;
  guint void_index;
  SwPoint at;   /* in plan, on the void's centre line */
  double area;  /* mm² to be closed */
} SwFiller;

/* Appends (GArray of SwFiller) those that a wall needs, bay by bay in the order of its voids; none unless it separates and ends
 * below the slab. A wall across the voids meets each one's section, longer by the slant; one along a void its side. */
void sw_fillers_of_wall (const SwDeck *deck, const SwWall *wall, GArray *fillers);
