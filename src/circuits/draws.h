/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "rules/rules.h"
#include "space/route.h"

/* Drawing cables in: what lies between two draw points, in true angles and lengths, and where a box would cure it. Places are
 * lengths along the axis from the run's start, mm. */

typedef struct
{
  double from, to;
  double turn;    /* degrees, of all bends between, with those into wall drops; a bend within `reach` of a draw point is none */
  double turn_at; /* half of the turn is behind: a box there halves it */
  double turn_from, turn_to; /* of them those at its ends, into wall drops */
} SwDrawStretch;

/* How near to its wall point, in plan, a run has to end to be the one that goes down the wall there, mm. */
double sw_circuits_at_wall (const SwRules *rules);
/* How far a run that ends at a wall point (last: at its end, else at its start) still goes down the wall, mm, negative for up; 0 for others
 * and for one that ends farther away than sw_circuits_at_wall, where it meets the run that goes down. */
double sw_circuits_wall_drop (const SwDeck *deck, const SwRules *rules, const SwRoute *route, gboolean last);
/* What it turns there, degrees. */
double sw_circuits_drop_turn (const SwRoute *route, double drop, gboolean last);

/* `boxes`: n places of draw points on the way, ascending; the ends count too. GArray of SwDrawStretch, the caller's. */
GArray *sw_circuits_stretches (const SwDeck *deck, const SwRules *rules, const SwRoute *route, const double *boxes, guint n, double reach);

/* The fewest boxes that leave no stretch with more turn and length than asked for, in a void or where there is no deck, never
 * below a rib: GArray of double, the caller's. `cured` says whether they are enough. */
GArray *sw_circuits_boxes_needed (const SwDeck *deck, const SwRoute *route, const SwDrawStretch *stretch, double most_degree,
                                  double most_mm, double reach, gboolean *cured);

/* Length along the axis of the place nearest to p in plan; *apart is how far that is in plan. */
double sw_circuits_along (const SwRoute *route, SwPoint p, double *apart);
/* The place at a length along the axis. */
SwPoint3 sw_circuits_place (const SwRoute *route, double along);
