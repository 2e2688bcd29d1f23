/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "ceiling/lay.h"

/* Whether board is held: a place is, when along the battens or across them members lie to both sides of it within the same area, clear of each
 * other by no more than the greatest centres less a member's width (no more than the centres where one of them slants); or when a member is no
 * further away than a board may stand over. */
typedef struct
{
  const SwRings *area;  /* of the boards, y along the battens */
  const GArray *quads;  /* SwQuad: members at the boards' backs, in the same frame */
  double limit, width;  /* greatest centres; of a member */
  double over;          /* how far a board may stand over its last member */
} SwBoardHold;

/* Places that nothing holds, a raster apart, by y, then x: GArray of SwPoint, the caller's. Corners of members and area, and where they are
 * far apart lines between them, members and sides each. */
GArray *sw_board_unheld (const SwBoardHold *hold);
gboolean sw_board_is_held (const SwBoardHold *hold, SwPoint p);
/* The stretch of the line through p (along x or y) that lies in the area and on no member. */
SwInterval sw_board_gap (const SwBoardHold *hold, SwAlong along, SwPoint p, gboolean *low_held, gboolean *high_held);
/* From p to the nearest member. INFINITY without any. */
double sw_board_distance (const SwBoardHold *hold, SwPoint p);

/* catch.c: noggins, short battens and ledgers where the boards of the layer's part would hang on nothing. */
void sw_layer_catch (SwLayer *layer);
/* The same once boards lie, piece by piece, with noggins and ledgers; a mark for each piece of which a place stays unheld. */
void sw_ceiling_catch_pieces (SwCeiling *ceiling);
