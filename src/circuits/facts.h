/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "space/route.h"

/* A job's own circuit: its length along the runs, its volt drop, and what its cable carries. NAN where it is not known. */
typedef struct
{
  double length_mm;     /* of all its runs with their wall drops */
  double farthest_mm;   /* from its boards to its farthest point; NAN when no run reaches a board */
  double drop_v, drop_percent; /* at the farthest point with the design current */
  double limit_percent;
  double longest_m;     /* circuit of this current and cable */
  double rating_a;      /* of the cable in conduit, in a closed void's air, alone */
  gboolean too_far, too_thin;
  SwRuleValue limit, each, rating, air; /* rule_id NULL where the rule set has none */
} SwCircuitFacts;

/* `runs` (SwRun) are the circuit's; `lighting`: it feeds lights. O(runs²) at most, for distances along the runs. */
SwCircuitFacts sw_circuits_facts (const SwDeck *deck, const SwRules *rules, const SwCircuit *circuit, const GPtrArray *runs, gboolean lighting);
