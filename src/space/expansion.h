/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "space/route.h"

/* How plastic pipes and conduits change when a void warms up or cools down. A straight is what lies between turns of the run,
 * its ends, and sockets that are drawn on it: those stand for its expansion couplings. */
typedef struct
{
  gboolean asked;      /* FALSE: metal, flexible, cast in or there already, or the rule set has no value; the rest is then empty */
  double longest_mm;   /* the longest straight */
  double growth_mm;    /* of it */
  double limit_mm;     /* a straight so long needs a coupling */
  guint couplings;     /* that are still to be put in, all straights together */
  SwPoint3 from, to;   /* of the longest straight */
  SwRuleValue limit;   /* the rule behind it */
} SwExpansion;

/* `fittings` (SwFitting) holds all those of the run, and perhaps others; NULL: none. */
SwExpansion sw_expansion_of (const SwRules *rules, const SwRoute *route, const GPtrArray *fittings);
/* The longest straight between two lengths along the axis, mm: of any run. */
double sw_expansion_straight (const SwRoute *route, const GPtrArray *fittings, double from, double to);
/* Where the couplings that are still to be put in divide their straights evenly, moved on by `shift`: lengths along the axis, mm, in
 * order. GArray of double, the caller's. */
GArray *sw_expansion_places (const SwRules *rules, const SwRoute *route, const GPtrArray *fittings, double shift);
