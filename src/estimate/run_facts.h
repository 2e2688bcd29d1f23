/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "space/route.h"
#include <math.h>

/* What schedules and take-off say of a run: lengths, bends, plates, supports. */

typedef struct
{
  const SwDeckBay *bay;
  const SwDeckPlate *plate;
  SwPoint3 at;
  double along; /* in plan from the run's start, mm */
} SwRunPlate;

/* A straight stretch: between two vertices, or down a wall at an end. */
typedef struct
{
  SwPoint3 from, to;
  double length;        /* mm */
  guint joints;         /* between stock lengths */
  guint supports;       /* spaces between them */
} SwRunLeg;

typedef struct
{
  const SwRun *run;
  SwRoute *route;        /* NULL when it cannot be worked out; then only `fault` is set */
  char *fault;
  double length;         /* of the axis, mm */
  double drop_start, drop_end; /* down the wall to a switch, socket or tap at an end, mm; negative: up */
  GArray *legs;          /* SwRunLeg, in order, the wall drops first and last */
  guint bends;           /* vertices that turn, with those into wall drops */
  double turns;          /* their true angles, degrees */
  double worst_turns, worst_length; /* between two draw points: degrees, mm */
  guint boxes;           /* on its way, ends not counted */
  guint boards;          /* distribution boards at its ends */
  GArray *plates;        /* SwRunPlate that still stand in its way, along the run */
  guint pieces, joints;  /* stock lengths, and joints between them on straight stretches */
  double stock;          /* length of one, mm; 0 = unknown */
  gboolean has_supports; /* FALSE: cast in, existing, or the rule set has no table */
  guint supports;        /* one more than the spaces of all legs */
  double support_spacing; /* of level legs, mm */
} SwRunFacts;

/* O(fittings of the job). */
SwRunFacts *sw_run_facts_new (const SwDeck *deck, const SwRules *rules, const SwRun *run);
/* The same for one of many: `fittings` (SwFitting) holds all those on the run, and perhaps others; NULL: none. */
SwRunFacts *sw_run_facts_with (const SwDeck *deck, const SwRules *rules, const SwRun *run, const GPtrArray *fittings);
void sw_run_facts_free (SwRunFacts *facts);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwRunFacts, sw_run_facts_free)

/* With drops, mm. */
static inline double
sw_run_facts_total (const SwRunFacts *facts)
{
  return facts->length + fabs (facts->drop_start) + fabs (facts->drop_end);
}
/* Angle turned at vertex i, into a wall drop at the ends, degrees; below SW_RUN_STRAIGHT it is a straight joint. */
double sw_run_facts_turn (const SwRunFacts *facts, guint i);
#define SW_RUN_STRAIGHT 0.5
/* A cable through the whole run, and what it needs beyond it at boxes, points and boards, mm. */
double sw_run_facts_cable (const SwRunFacts *facts, const SwRules *rules);
/* Plan length from the start to vertex i, mm. */
double sw_run_facts_chainage (const SwRoute *route, guint i);
/* Nearest place on the route to a place in plan: plan length from the start, mm. */
double sw_run_facts_nearest (const SwRoute *route, SwPoint p);
