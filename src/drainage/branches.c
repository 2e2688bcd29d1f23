/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drainage/branches.h"
#include "space/route.h"

struct _SwBranches
{
  const SwJob *job;
  GHashTable *into;  /* SwId of a run → GPtrArray of const SwRun that lead into it */
  GHashTable *known; /* SwId of a run → SwCarried; while one is added up it stands there with nothing */
};

static gboolean
is_supply (const SwRun *run)
{
  return run->service == SW_SERVICE_COLD || run->service == SW_SERVICE_HOT;
}

static const SwRun *
run_at (const SwJob *job, SwId end)
{
  const SwRecord *fitting = end != 0 && SW_ID_TABLE (end) == SW_TABLE_FITTING ? sw_job_get (job, end) : NULL;
  SwId run = fitting != NULL ? ((const SwFitting *) fitting)->run : 0;
  return run != 0 ? (const SwRun *) sw_job_get (job, run) : NULL;
}

SwId
sw_branches_main (const SwJob *job, const SwRun *run)
{
  gboolean gravity = sw_service_is_gravity ((SwService) run->service);
  const SwRun *next = gravity ? run_at (job, run->end) : is_supply (run) ? run_at (job, run->start) : NULL;
  if (next == NULL || next->record.id == run->record.id)
    return 0;
  return (gravity ? sw_service_is_gravity ((SwService) next->service) : next->service == run->service) ? next->record.id : 0;
}

SwBranches *
sw_branches_new (const SwJob *job)
{
  SwBranches *branches = g_new0 (SwBranches, 1);
  const SwRecord *record;
  branches->job = job;
  branches->into = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, (GDestroyNotify) g_ptr_array_unref);
  branches->known = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, g_free);
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_RUN); (record = sw_job_iter_next (&i)) != NULL;)
    {
      SwId into = sw_branches_main (job, (const SwRun *) record);
      GPtrArray *list = into != 0 ? g_hash_table_lookup (branches->into, &into) : NULL;
      if (into == 0)
        continue;
      if (list == NULL)
        g_hash_table_insert (branches->into, g_memdup2 (&into, sizeof into), list = g_ptr_array_new ());
      g_ptr_array_add (list, (gpointer) record);
    }
  return branches;
}

void
sw_branches_free (SwBranches *branches)
{
  if (branches == NULL)
    return;
  g_hash_table_unref (branches->into);
  g_hash_table_unref (branches->known);
  g_free (branches);
}

static double
drop_in_units (const SwJob *job, const SwRun *run)
{
  const SwRecord *start = run->start != 0 ? sw_job_get (job, run->start) : NULL;
  gboolean falls_in = start != NULL && sw_record_table (start) == SW_TABLE_DROP_IN && sw_service_is_gravity ((SwService) run->service);
  return falls_in ? ((const SwDropIn *) start)->units : 0;
}

SwCarried
sw_branches_carried (SwBranches *branches, const SwRun *run)
{
  SwCarried *known = g_hash_table_lookup (branches->known, &run->record.id);
  if (known != NULL)
    return *known;
  known = g_new0 (SwCarried, 1);
  g_hash_table_insert (branches->known, g_memdup2 (&run->record.id, sizeof run->record.id), known);
  const GPtrArray *into = g_hash_table_lookup (branches->into, &run->record.id);
  SwCarried sum = { .units = drop_in_units (branches->job, run), .n = into != NULL ? into->len : 0 };
  sum.largest = sum.units;
  for (guint i = 0; i < sum.n; i++)
    {
      SwCarried branch = sw_branches_carried (branches, into->pdata[i]);
      sum.units += branch.units;
      sum.largest = MAX (sum.largest, branch.largest);
    }
  if (run->loading > 0)
    sum.units = run->loading;
  return *known = sum;
}
