/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "sheets/context.h"

/* Where a thing is, as a tape measures it. */

/* The distance from a line that runs along y (it gives the x of a place) or along x. */
typedef struct
{
  char *name; /* grid line or wall, "side 3" of a room without a wall there; NULL: there is no such line */
  double mm;  /* positive to the right of it, or above it, as seen on a plan with x to the right */
} SwDatum;

typedef struct { SwDatum x, y; } SwSetOut;

/* From the nearest grid lines. Free with sw_set_out_clear. */
SwSetOut sw_set_out_from_grid (const SwJob *job, SwPoint p);
/* From the nearest sides of a room; empty for NULL. */
SwSetOut sw_set_out_from_walls (const SwJob *job, const SwRoom *room, SwPoint p);
void sw_set_out_clear (SwSetOut *set_out);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (SwSetOut, sw_set_out_clear)

/* Distance to the nearest plate of the void under a place, along the void; NAN without one. */
double sw_place_beside_plate (const SwDeckBay *bay, SwPoint p);
/* "bay A, void 7, plate 3 + 340": bay, void or rib, and how far past the last plate or the closure. Free with g_free. */
char *sw_place_short (const SwDeck *deck, SwPoint p);
