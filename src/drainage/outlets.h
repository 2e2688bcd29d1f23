/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "job/job.h"

/* Which pipe each outlet's water runs into, and which pipes feed each tap: the run that begins or ends at it; else, for waste, soil
 * and water, the nearest one that passes as near as a run's end has to be to what it is joined to (its hole, or the tap's wall, reaches
 * out that much farther). */
typedef struct
{
  SwId thing;   /* a drop-in, or a drop to a tap */
  SwId run;
  double units; /* discharge or loading units */
  double along; /* where on the run, in plan from its first vertex, mm */
} SwOutlet;

/* In order of things, then runs; a tap may stand there twice, for cold and for hot. Those that have no pipe, or pass one without
 * units of their own, are left out. `reach_mm`: to a run that is not joined. O((runs + outlets) log runs). GArray of SwOutlet, the caller's. */
GArray *sw_outlets_of (const SwJob *job, double reach_mm);
/* The order of that list. */
int sw_outlet_compare (gconstpointer a, gconstpointer b);
/* Where on a run the place nearest to `at` lies, in plan from its first vertex, mm; `apart` (may be NULL): how far off it is. */
double sw_outlets_along (const SwRun *run, SwPoint at, double *apart);
/* Falling pipes that were drawn from their exit, or towards a drop-in that does not stand at their start too. */
gboolean sw_run_is_turned (const SwJob *job, const SwRun *run);
