/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drainage/branches.h"
#include "space/route.h"

/* A pipe's sum; pipes are taken from the outlets on, each once all that lead into it are known. */
typedef struct Pipe Pipe;
struct Pipe
{
  const SwRun *run;
  Pipe *into;
  guint waiting; /* pipes that lead into it and are not known yet; those of a ring never are */
  SwCarried carried;
};

struct _SwBranches
{
  GHashTable *pipes; /* SwId of a run → Pipe */
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

static double
drop_in_units (const SwJob *job, const SwRun *run)
{
  const SwRecord *start = run->start != 0 ? sw_job_get (job, run->start) : NULL;
  gboolean falls_in = start != NULL && sw_record_table (start) == SW_TABLE_DROP_IN && sw_service_is_gravity ((SwService) run->service);
  return falls_in ? ((const SwDropIn *) start)->units : 0;
}

static GPtrArray *
pipes_of (SwBranches *branches, const SwJob *job)
{
  GPtrArray *pipes = g_ptr_array_new ();
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_RUN); (record = sw_job_iter_next (&i)) != NULL;)
    {
      Pipe *pipe = g_new0 (Pipe, 1);
      pipe->run = (const SwRun *) record;
      pipe->carried.units = pipe->carried.largest = drop_in_units (job, pipe->run);
      g_hash_table_insert (branches->pipes, (gpointer) &pipe->run->record.id, pipe);
      g_ptr_array_add (pipes, pipe);
    }
  return pipes;
}

/* What was entered stands for all that comes from above. */
static void
settle (Pipe *pipe)
{
  if (pipe->run->loading > 0)
    pipe->carried.units = pipe->run->loading;
}

static void
add_up (const GPtrArray *pipes)
{
  g_autoptr (GPtrArray) known = g_ptr_array_new ();
  for (guint i = 0; i < pipes->len; i++)
    if (((Pipe *) pipes->pdata[i])->waiting == 0)
      g_ptr_array_add (known, pipes->pdata[i]);
  for (guint i = 0; i < known->len; i++)
    {
      Pipe *pipe = known->pdata[i], *into = pipe->into;
      settle (pipe);
      if (into == NULL)
        continue;
      into->carried.units += pipe->carried.units;
      into->carried.largest = MAX (into->carried.largest, pipe->carried.largest);
      if (--into->waiting == 0)
        g_ptr_array_add (known, into);
    }
  for (guint i = 0; i < pipes->len; i++)
    if (((Pipe *) pipes->pdata[i])->waiting > 0)
      settle (pipes->pdata[i]);
}

SwBranches *
sw_branches_new (const SwJob *job)
{
  SwBranches *branches = g_new0 (SwBranches, 1);
  branches->pipes = g_hash_table_new_full (g_int64_hash, g_int64_equal, NULL, g_free);
  g_autoptr (GPtrArray) pipes = pipes_of (branches, job);
  for (guint i = 0; i < pipes->len; i++)
    {
      Pipe *pipe = pipes->pdata[i];
      SwId into = sw_branches_main (job, pipe->run);
      pipe->into = into != 0 ? g_hash_table_lookup (branches->pipes, &into) : NULL;
      if (pipe->into == NULL)
        continue;
      pipe->into->waiting++;
      pipe->into->carried.n++;
    }
  add_up (pipes);
  return branches;
}

void
sw_branches_free (SwBranches *branches)
{
  if (branches == NULL)
    return;
  g_hash_table_unref (branches->pipes);
  g_free (branches);
}

SwCarried
sw_branches_carried (const SwBranches *branches, const SwRun *run)
{
  const Pipe *pipe = g_hash_table_lookup (branches->pipes, &run->record.id);
  return pipe != NULL ? pipe->carried : (SwCarried){ .units = run->loading };
}
