/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "space/route.h"

/* What hangs from a bay: runs with what is in them, the boxes, valves and other fittings on them, lights, and ceilings with battens and
 * insulation. Fittings and lights weigh what the rule set says of their kind. What is cast in does not hang, nor do boards, stacks,
 * gullies and exits; what people add later is not known. */
typedef struct
{
  double area_m2;                 /* of the bay, or of its part over one room; 0: they do not meet */
  double pipes_n, conduits_n, ceilings_n, lights_n, fittings_n;
  double kpa;                     /* all of it over the area */
  guint lights, fittings;         /* how many of them were counted */
  guint unknown;                  /* runs whose weight the rule set does not know */
} SwSuspended;

/* Of the whole bay, or where it lies over `room` (NULL: whole). `routes` (const SwRoute) may hold others too. O(routes). */
SwSuspended sw_ceiling_suspended (const SwDeck *deck, const SwRules *rules, const SwDeckBay *bay, const SwRoom *room, const GPtrArray *routes);

/* Of all of it, N. */
static inline double
sw_suspended_total (const SwSuspended *load)
{
  return load->pipes_n + load->conduits_n + load->ceilings_n + load->lights_n + load->fittings_n;
}

/* What a light and a fitting weigh, kg, with the rule; FALSE for what does not hang. */
gboolean sw_ceiling_light_mass (const SwRules *rules, const SwLight *light, SwRuleValue *mass);
gboolean sw_ceiling_fitting_mass (const SwRules *rules, const SwFitting *fitting, SwRuleValue *mass);

/* Weight of a room's ceiling, kg/m²; 0 for an open one. */
double sw_ceiling_mass (const SwRules *rules, const SwJob *job, const SwRoom *room);

/* What the runs of one void weigh where they weigh most, N per m, looked at every 250 mm; *along (may be NULL) is where, mm from
 * the void's start closure. */
double sw_ceiling_void_load (const SwRules *rules, const SwDeckBay *bay, guint void_index, const GPtrArray *routes, double *along);
