/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "drainage/outlets.h"
#include "rules/rules.h"

/* Which pipes lead into which: waste that ends at a fitting of another falling pipe runs on in that; water is fed to a pipe that
 * begins at a fitting of another of its service. What branches and outlets carry adds up in the pipe that they lead into or come
 * from, from their place on it on (EN 12056-2: a pipe takes the sum of the discharge units upstream; EN 806-3: loading units add up
 * from the outlets back). Immutable: any thread may read it. */
typedef struct _SwBranches SwBranches;

/* `job` has to outlive it. `rules`: how near an outlet has to be to a run that passes it. O((runs + outlets) log runs). Free with
 * sw_branches_free. */
SwBranches *sw_branches_new (const SwJob *job, const SwRules *rules);
void sw_branches_free (SwBranches *branches);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwBranches, sw_branches_free)

typedef struct
{
  double units;   /* what was entered for the run; else those of its outlets and of all branches */
  double largest; /* greatest single one of the outlets upstream */
  guint n;        /* pipes that lead straight into it, or are fed straight from it */
  guint outlets;  /* that lead straight into it */
} SwCarried;

/* A part of a run that carries the same from end to end; in plan from its first vertex, mm. */
typedef struct
{
  double from, to;
  SwCarried carried;
} SwStretch;

/* All that it carries, where it carries most. Pipes that lead in a ring lead nowhere: each of them carries what comes from outside the
 * ring. O(1). */
SwCarried sw_branches_carried (const SwBranches *branches, const SwRun *run);
/* The same part by part, at least one, from the first vertex to the last. GArray of SwStretch, the caller's. What was entered for a
 * run stands for its whole length. */
GArray *sw_branches_stretches (const SwBranches *branches, const SwRun *run);
/* Outlets that lead into a pipe, as sw_outlets_of. Borrowed. */
const GArray *sw_branches_outlets (const SwBranches *branches);
/* The first of those of one thing; NULL when it leads into none. O(log outlets). */
const SwOutlet *sw_branches_outlet (const SwBranches *branches, SwId thing);
/* The run that a run's water goes on in or comes from; 0: none. */
SwId sw_branches_main (const SwJob *job, const SwRun *run);
