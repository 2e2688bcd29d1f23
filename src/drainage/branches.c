/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drainage/branches.h"
#include "base/tolerance.h"
#include "space/route.h"

/* What one branch or outlet gives, and where. */
typedef struct
{
  double along; /* in plan from the run's first vertex, mm */
  SwCarried carried;
} Load;

/* A pipe's sum; pipes are taken from the outlets on, each once all that lead into it are known. */
typedef struct Pipe Pipe;
struct Pipe
{
  const SwRun *run;
  Pipe *into;
  double into_at;    /* where on that */
  guint waiting;     /* pipes that lead into it and are not known yet; those of a ring never are */
  gboolean gathers_back; /* water adds up from the last vertex to the first */
  GArray *loads;     /* Load; NULL: none */
  SwCarried carried;
};

struct _SwBranches
{
  GHashTable *pipes; /* SwId of a run that is joined to others or to outlets → Pipe */
  GArray *outlets;   /* SwOutlet */
};

static void
pipe_free (Pipe *pipe)
{
  g_clear_pointer (&pipe->loads, g_array_unref);
  g_free (pipe);
}

static gboolean
is_supply (const SwRun *run)
{
  return run->service == SW_SERVICE_COLD || run->service == SW_SERVICE_HOT;
}

static const SwFitting *
fitting_at (const SwJob *job, SwId end)
{
  return end != 0 && SW_ID_TABLE (end) == SW_TABLE_FITTING ? (const SwFitting *) sw_job_get (job, end) : NULL;
}

/* The fitting through which a run is joined to its main. */
static const SwFitting *
main_fitting (const SwJob *job, const SwRun *run)
{
  gboolean gravity = sw_service_is_gravity ((SwService) run->service);
  return gravity ? fitting_at (job, sw_run_is_turned (job, run) ? run->start : run->end) : is_supply (run) ? fitting_at (job, run->start) : NULL;
}

SwId
sw_branches_main (const SwJob *job, const SwRun *run)
{
  gboolean gravity = sw_service_is_gravity ((SwService) run->service);
  const SwFitting *fitting = main_fitting (job, run);
  const SwRun *next = fitting != NULL && fitting->run != 0 ? (const SwRun *) sw_job_get (job, fitting->run) : NULL;
  if (next == NULL || next->record.id == run->record.id)
    return 0;
  return (gravity ? sw_service_is_gravity ((SwService) next->service) : next->service == run->service) ? next->record.id : 0;
}

/* ---- adding up */

static void
load_pipe (Pipe *pipe, double along, SwCarried carried)
{
  Load load = { along, carried };
  if (pipe->loads == NULL)
    pipe->loads = g_array_new (FALSE, FALSE, sizeof (Load));
  g_array_append_val (pipe->loads, load);
}

/* Pipes that something runs into, and those that run into another: most runs of a job are neither and need none. */
static Pipe *
pipe_of (SwBranches *branches, const SwJob *job, SwId id, GPtrArray *pipes)
{
  Pipe *pipe = g_hash_table_lookup (branches->pipes, &id);
  if (pipe != NULL)
    return pipe;
  pipe = g_new0 (Pipe, 1);
  pipe->run = (const SwRun *) sw_job_get (job, id);
  pipe->gathers_back = is_supply (pipe->run) || sw_run_is_turned (job, pipe->run);
  g_hash_table_insert (branches->pipes, (gpointer) &pipe->run->record.id, pipe);
  g_ptr_array_add (pipes, pipe);
  return pipe;
}

static GPtrArray *
pipes_of (SwBranches *branches, const SwJob *job)
{
  GPtrArray *pipes = g_ptr_array_new ();
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_RUN); (record = sw_job_iter_next (&i)) != NULL;)
    {
      SwId into = sw_branches_main (job, (const SwRun *) record);
      if (into == 0)
        continue;
      Pipe *pipe = pipe_of (branches, job, record->id, pipes);
      pipe->into = pipe_of (branches, job, into, pipes);
      pipe->into_at = sw_outlets_along (pipe->into->run, main_fitting (job, pipe->run)->at, NULL);
      pipe->into->waiting++;
    }
  for (guint i = 0; i < branches->outlets->len; i++)
    {
      const SwOutlet *outlet = &g_array_index (branches->outlets, SwOutlet, i);
      load_pipe (pipe_of (branches, job, outlet->run, pipes), outlet->along,
                 (SwCarried){ .units = outlet->units, .largest = outlet->units, .outlets = 1 });
    }
  return pipes;
}

static void
add_carried (SwCarried *sum, SwCarried carried)
{
  sum->units += carried.units;
  sum->largest = MAX (sum->largest, carried.largest);
  sum->n += carried.n;
  sum->outlets += carried.outlets;
}

/* What was entered stands for all that comes from above. */
static void
settle (Pipe *pipe)
{
  for (guint i = 0; pipe->loads != NULL && i < pipe->loads->len; i++)
    add_carried (&pipe->carried, g_array_index (pipe->loads, Load, i).carried);
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
      load_pipe (into, pipe->into_at, (SwCarried){ pipe->carried.units, pipe->carried.largest, 1, 0 });
      if (--into->waiting == 0)
        g_ptr_array_add (known, into);
    }
  for (guint i = 0; i < pipes->len; i++)
    {
      Pipe *pipe = pipes->pdata[i];
      if (pipe->waiting == 0)
        continue;
      settle (pipe);
      pipe->carried.n += pipe->waiting;
    }
}

SwBranches *
sw_branches_new (const SwJob *job, const SwRules *rules)
{
  SwBranches *branches = g_new0 (SwBranches, 1);
  branches->pipes = g_hash_table_new_full (g_int64_hash, g_int64_equal, NULL, (GDestroyNotify) pipe_free);
  branches->outlets = sw_outlets_of (job, sw_rules_value (rules, "checks.runs", "end_reach_mm").value);
  g_autoptr (GPtrArray) pipes = pipes_of (branches, job);
  add_up (pipes);
  return branches;
}

void
sw_branches_free (SwBranches *branches)
{
  if (branches == NULL)
    return;
  g_hash_table_unref (branches->pipes);
  g_array_unref (branches->outlets);
  g_free (branches);
}

SwCarried
sw_branches_carried (const SwBranches *branches, const SwRun *run)
{
  const Pipe *pipe = g_hash_table_lookup (branches->pipes, &run->record.id);
  return pipe != NULL ? pipe->carried : (SwCarried){ .units = run->loading };
}

const GArray *
sw_branches_outlets (const SwBranches *branches)
{
  return branches->outlets;
}

const SwOutlet *
sw_branches_outlet (const SwBranches *branches, SwId thing)
{
  guint low = 0, high = branches->outlets->len;
  while (low < high)
    {
      guint middle = low + (high - low) / 2;
      if (g_array_index (branches->outlets, SwOutlet, middle).thing < thing)
        low = middle + 1;
      else
        high = middle;
    }
  const SwOutlet *found = low < branches->outlets->len ? &g_array_index (branches->outlets, SwOutlet, low) : NULL;
  return found != NULL && found->thing == thing ? found : NULL;
}

/* ---- part by part */

static int
compare_loads (gconstpointer pa, gconstpointer pb)
{
  double a = ((const Load *) pa)->along, b = ((const Load *) pb)->along;
  return (a > b) - (a < b);
}

static double
plan_length (const SwRun *run)
{
  double length = 0;
  for (guint i = 0; i + 1 < run->vertices.n; i++)
    length += sw_point_distance (SW_LIST_AT (run->vertices, SwVertex, i).at, SW_LIST_AT (run->vertices, SwVertex, i + 1).at);
  return length;
}

/* From the first outlet on, as the sum grows; what joins at the very end makes a part of no length there. */
static GArray *
stretches_of (const GArray *loads, double length, gboolean back)
{
  GArray *stretches = g_array_new (FALSE, FALSE, sizeof (SwStretch));
  SwCarried sum = { 0 };
  gboolean more = FALSE;
  double at = back ? length : 0, end = length - at;
  for (guint i = 0; i <= loads->len; i++)
    {
      const Load *load = i < loads->len ? &g_array_index (loads, Load, back ? loads->len - 1 - i : i) : NULL;
      double next = load != NULL ? CLAMP (load->along, 0, length) : end;
      if (fabs (next - at) > SW_TOUCH_MM || (load == NULL && more))
        {
          SwStretch stretch = { fmin (at, next), fmax (at, next), sum };
          g_array_insert_val (stretches, back ? 0 : stretches->len, stretch);
          at = next;
          more = FALSE;
        }
      if (load != NULL)
        add_carried (&sum, load->carried);
      more |= load != NULL;
    }
  return stretches;
}

GArray *
sw_branches_stretches (const SwBranches *branches, const SwRun *run)
{
  const Pipe *pipe = g_hash_table_lookup (branches->pipes, &run->record.id);
  double length = plan_length (run);
  if (pipe == NULL || pipe->loads == NULL || run->loading > 0)
    {
      GArray *stretches = g_array_new (FALSE, FALSE, sizeof (SwStretch));
      SwStretch whole = { 0, length, sw_branches_carried (branches, run) };
      g_array_append_val (stretches, whole);
      return stretches;
    }
  g_autoptr (GArray) loads = g_array_copy (pipe->loads);
  g_array_sort (loads, compare_loads);
  return stretches_of (loads, length, pipe->gathers_back);
}
