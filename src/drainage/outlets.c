/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drainage/outlets.h"
#include "geometry/neighbour.h"
#include "space/route.h"

/* What pipes carry of the same water. */
typedef enum { WATER_WASTE, WATER_COLD, WATER_HOT, N_WATERS } Water;

/* One thing that gives or takes water, as it stands in plan. */
typedef struct
{
  SwId id;
  SwPoint at;
  double units, half;
} Thing;

typedef struct
{
  const SwJob *job;
  GPtrArray *runs[N_WATERS];        /* SwRun */
  SwNeighbours *index[N_WATERS];    /* of their boxes, made when asked for */
  GHashTable *joined[N_WATERS];     /* SwId of what runs begin or end at */
  GArray *outlets;
} Search;

static int
water_of (const SwRun *run)
{
  switch (run->service)
    {
    case SW_SERVICE_COLD:
      return WATER_COLD;
    case SW_SERVICE_HOT:
      return WATER_HOT;
    case SW_SERVICE_WASTE:
    case SW_SERVICE_SOIL:
      return WATER_WASTE;
    default:
      return -1;
    }
}

double
sw_outlets_along (const SwRun *run, SwPoint at, double *apart)
{
  double walked = 0, best = INFINITY, along = 0;
  for (guint i = 0; i + 1 < run->vertices.n; i++)
    {
      SwPoint from = SW_LIST_AT (run->vertices, SwVertex, i).at, to = SW_LIST_AT (run->vertices, SwVertex, i + 1).at, leg = sw_point_sub (to, from);
      double square = sw_point_dot (leg, leg), t = square > 0 ? CLAMP (sw_point_dot (sw_point_sub (at, from), leg) / square, 0, 1) : 0;
      double far = sw_point_distance (at, sw_point_lerp (from, to, t));
      if (far < best)
        {
          best = far;
          along = walked + t * sqrt (square);
        }
      walked += sqrt (square);
    }
  if (apart != NULL)
    *apart = best;
  return along;
}

static SwTable
table_of (SwId id)
{
  return id != 0 ? SW_ID_TABLE (id) : SW_N_TABLES;
}

static gboolean
is_exit (const SwJob *job, SwId id)
{
  const SwFitting *fitting = table_of (id) == SW_TABLE_FITTING ? (const SwFitting *) sw_job_get (job, id) : NULL;
  return fitting != NULL && (fitting->kind == SW_FITTING_STACK || fitting->kind == SW_FITTING_GULLY || fitting->kind == SW_FITTING_EXIT);
}

gboolean
sw_run_is_turned (const SwJob *job, const SwRun *run)
{
  if (!sw_service_is_gravity ((SwService) run->service))
    return FALSE;
  gboolean from_outlet = table_of (run->start) == SW_TABLE_DROP_IN, to_outlet = table_of (run->end) == SW_TABLE_DROP_IN;
  return (to_outlet && !from_outlet) || (is_exit (job, run->start) && !is_exit (job, run->end));
}

/* ---- runs that begin or end at it */

/* Any gravity pipe takes what falls into its end; a tap may end any pipe that carries water. */
static void
take_end (Search *search, const SwRun *run, SwId end, gboolean last)
{
  const SwRecord *thing = end != 0 ? sw_job_get (search->job, end) : NULL;
  gboolean falls = sw_service_is_gravity ((SwService) run->service);
  int water = falls ? WATER_WASTE : water_of (run);
  double units = thing == NULL || water < 0 ? NAN
                 : falls && sw_record_table (thing) == SW_TABLE_DROP_IN ? ((const SwDropIn *) thing)->units
                 : !falls && sw_record_table (thing) == SW_TABLE_DROP && ((const SwDrop *) thing)->kind == SW_DROP_TAP ? ((const SwDrop *) thing)->units : NAN;
  if (isnan (units))
    return;
  SwOutlet outlet = { end, run->record.id, units, last ? INFINITY : 0 };
  if (last)
    outlet.along = sw_outlets_along (run, SW_LIST_AT (run->vertices, SwVertex, run->vertices.n - 1).at, NULL);
  g_array_append_val (search->outlets, outlet);
  g_hash_table_add (search->joined[water], g_memdup2 (&end, sizeof end));
}

static void
take_runs (Search *search)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (search->job, SW_TABLE_RUN); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwRun *run = (const SwRun *) record;
      int water = water_of (run);
      if (run->vertices.n < 2)
        continue;
      take_end (search, run, run->start, FALSE);
      if (run->end != run->start)
        take_end (search, run, run->end, TRUE);
      if (water >= 0)
        g_ptr_array_add (search->runs[water], (gpointer) run);
    }
}

/* ---- runs that pass it */

static const SwNeighbours *
index_of (Search *search, Water water)
{
  const GPtrArray *runs = search->runs[water];
  if (search->index[water] != NULL)
    return search->index[water];
  g_autofree SwBox3 *boxes = g_new (SwBox3, MAX (runs->len, 1));
  for (guint i = 0; i < runs->len; i++)
    {
      SwBox box = sw_record_box (runs->pdata[i]);
      boxes[i] = (SwBox3){ { box.low.x, box.low.y, 0 }, { box.high.x, box.high.y, 0 } };
    }
  return search->index[water] = sw_neighbours_new (boxes, runs->len);
}

static void
take_passing (Search *search, const Thing *thing, Water water, double reach)
{
  g_autoptr (GArray) near = g_array_new (FALSE, FALSE, sizeof (guint32));
  SwOutlet best = { thing->id, 0, thing->units, 0 };
  double nearest = reach + thing->half, grow = nearest;
  if (thing->units <= 0 || search->runs[water]->len == 0 || g_hash_table_contains (search->joined[water], &thing->id))
    return;
  SwBox3 around = sw_box3_grow ((SwBox3){ { thing->at.x, thing->at.y, 0 }, { thing->at.x, thing->at.y, 0 } }, grow);
  sw_neighbours_find (index_of (search, water), around, near);
  for (guint i = 0; i < near->len; i++)
    {
      const SwRun *run = search->runs[water]->pdata[g_array_index (near, guint32, i)];
      double apart, along = sw_outlets_along (run, thing->at, &apart);
      if (apart > nearest || (apart == nearest && best.run != 0))
        continue;
      nearest = apart;
      best.run = run->record.id;
      best.along = along;
    }
  if (best.run != 0)
    g_array_append_val (search->outlets, best);
}

static void
take_things (Search *search, double reach)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (search->job, SW_TABLE_DROP_IN); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwDropIn *drop_in = (const SwDropIn *) record;
      take_passing (search, &(Thing){ record->id, drop_in->at, drop_in->units, drop_in->hole / 2 }, WATER_WASTE, reach);
    }
  for (SwJobIter i = sw_job_iter (search->job, SW_TABLE_DROP); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwDrop *drop = (const SwDrop *) record;
      const SwWall *wall = drop->kind == SW_DROP_TAP ? (const SwWall *) sw_job_get (search->job, drop->wall) : NULL;
      Thing thing = { record->id, { 0 }, drop->units, wall != NULL ? wall->thickness / 2 : 0 };
      if (wall == NULL || !sw_job_drop_place (search->job, drop, &thing.at))
        continue;
      take_passing (search, &thing, WATER_COLD, reach);
      take_passing (search, &thing, WATER_HOT, reach);
    }
}

int
sw_outlet_compare (gconstpointer pa, gconstpointer pb)
{
  const SwOutlet *a = pa, *b = pb;
  return a->thing != b->thing ? (a->thing > b->thing) - (a->thing < b->thing) : (a->run > b->run) - (a->run < b->run);
}

GArray *
sw_outlets_of (const SwJob *job, double reach_mm)
{
  Search search = { .job = job, .outlets = g_array_new (FALSE, FALSE, sizeof (SwOutlet)) };
  for (int w = 0; w < N_WATERS; w++)
    {
      search.runs[w] = g_ptr_array_new ();
      search.joined[w] = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
    }
  take_runs (&search);
  take_things (&search, reach_mm);
  g_array_sort (search.outlets, sw_outlet_compare);
  for (int w = 0; w < N_WATERS; w++)
    {
      g_ptr_array_unref (search.runs[w]);
      g_hash_table_unref (search.joined[w]);
      g_clear_pointer (&search.index[w], sw_neighbours_unref);
    }
  return search.outlets;
}
