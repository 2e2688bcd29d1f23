/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "job/job.h"

/* Which pipes lead into which: waste that ends at a fitting of another falling pipe runs on in that; water is fed to a pipe that
 * begins at a fitting of another of its service. What branches carry adds up in the pipe that they lead into or come from
 * (EN 12056-2: a pipe takes the sum of the discharge units upstream; EN 806-3: loading units add up from the outlets
 * back). Immutable: any thread may read it. */
typedef struct _SwBranches SwBranches;

/* `job` has to outlive it. O(runs). Free with sw_branches_free. */
SwBranches *sw_branches_new (const SwJob *job);
void sw_branches_free (SwBranches *branches);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwBranches, sw_branches_free)

typedef struct
{
  double units;   /* what was entered for the run; else those of the drop-in where waste begins, and of all branches */
  double largest; /* greatest single one of the drop-ins upstream */
  guint n;        /* pipes that lead straight into it, or are fed straight from it */
} SwCarried;

/* Pipes that lead in a ring lead nowhere: each of them carries what comes from outside the ring. O(1). */
SwCarried sw_branches_carried (const SwBranches *branches, const SwRun *run);
/* The run that a run's water goes on in or comes from; 0: none. */
SwId sw_branches_main (const SwJob *job, const SwRun *run);
