/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "job/job.h"
#include "rules/rules.h"

/* Junctions that nobody drew: a fixture or tap whose pipe stands on a run between its ends joins it there, unless a tee is drawn on the
 * run within reach of the place. Existing runs have theirs. O((runs + outlets) log runs). */
typedef struct
{
  const SwRun *run;      /* borrowed of the job */
  const SwRecord *thing; /* a drop-in, or a drop to a tap */
  SwPoint at;            /* where that stands */
} SwJunction;

/* In order of things: GArray of SwJunction, the caller's. */
GArray *sw_junctions_of (const SwJob *job, const SwRules *rules);
guint sw_junctions_on (const GArray *junctions, SwId run);
