/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "space/route.h"

/* What hangs from a bay: runs with what is in them, and ceilings with battens and insulation. Fittings, lights and what people
 * add later are not known and not counted; what is cast in does not hang. */
typedef struct
{
  double area_m2;                 /* of the bay, or of its part over one room; 0: they do not meet */
  double pipes_n, conduits_n, ceilings_n;
  double kpa;                     /* all of it over the area */
  guint unknown;                  /* runs whose weight the rule set does not know */
} SwSuspended;

/* Of the whole bay, or where it lies over `room` (NULL: whole). `routes` (const SwRoute) may hold others too. O(routes). */
SwSuspended sw_ceiling_suspended (const SwDeck *deck, const SwRules *rules, const SwDeckBay *bay, const SwRoom *room, const GPtrArray *routes);

/* Weight of a room's ceiling, kg/m²; 0 for an open one. */
double sw_ceiling_mass (const SwRules *rules, const SwRoom *room);

/* What the runs of one void weigh where they weigh most, N per m, looked at every 250 mm; *along (may be NULL) is where, mm from
 * the void's start closure. */
double sw_ceiling_void_load (const SwRules *rules, const SwDeckBay *bay, guint void_index, const GPtrArray *routes, double *along);
