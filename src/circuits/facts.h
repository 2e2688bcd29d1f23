/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "circuits/bunching.h"

/* A job's own circuit: its length along the runs, its volt drop, and what its cable carries. NAN where it is not known. */
typedef struct
{
  double length_mm;     /* of all its runs with their wall drops */
  double farthest_mm;   /* from its boards to its farthest point, through others' runs where its own reach none; NAN when neither do */
  double drop_v, drop_percent; /* at the farthest point with the design current */
  double limit_percent;
  double longest_m;     /* circuit of this current and cable */
  double rating_a;      /* of the cable in conduit, in a closed void's air, with the circuits that share it */
  double carries_a;     /* what it has to carry: the design current, or its fuse's or breaker's when that is more */
  guint loose;          /* of its runs: those that no way of its runs leads to from a board; what is said of farthest points leaves them out */
  guint spared;         /* circuits left out of those that share: in conduits beside it, and carrying little of what they may */
  guint sharing;        /* most circuits that lie together, itself counted: in one of its conduits and in those beside it */
  SwBunching bunching;  /* of that conduit; all 0 when the circuit has no run */
  SwId bunched;         /* that conduit; 0 for none */
  gboolean too_far, too_thin;
  SwRuleValue limit, each, rating, air, group, light; /* rule_id NULL where the rule set has none */
  const char *no_row;   /* static: the table of ratings in which a row is missing, so that rating_a is NAN; NULL for none */
} SwCircuitFacts;

/* Amperes that a fuse or breaker is named by, as in "20 A", "C16"; 0 when none is. */
double sw_circuits_protection (const char *text);

/* Runs of power and lighting that hang together with some by the boxes at their ends, up to the boards; these included. GPtrArray of const
 * SwRun, the caller's. O(runs of the job) a step from them. */
GPtrArray *sw_circuits_connected (const SwJob *job, const GPtrArray *runs);

/* `runs` (SwRun) are the circuit's; `beside` (const SwRoute) the conduits that may lie beside them, NULL for none; `lighting`: it feeds
 * lights. O(runs²) at most, for distances along the runs. */
SwCircuitFacts sw_circuits_facts (const SwDeck *deck, const SwRules *rules, const SwCircuit *circuit, const GPtrArray *runs, const GPtrArray *beside,
                                  gboolean lighting);
