/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What stands at one place: fittings, wall points, lights, drop-ins, sleeves, fillers. Stacks, gullies and exits belong to the
 * building; bends, sockets and hangers are counted with their runs. */
#include "estimate/fillers.h"
#include "estimate/junctions.h"
#include "estimate/takeoff_parts.h"

/* Fitting → the first run that it is on, or that starts or ends at it. */
static GHashTable *
runs_by_fitting (const SwJob *job)
{
  GHashTable *runs = g_hash_table_new (g_int64_hash, g_int64_equal);
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_FITTING); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwFitting *fitting = (const SwFitting *) record;
      if (fitting->run != 0)
        g_hash_table_insert (runs, (gpointer) &record->id, (gpointer) sw_job_get (job, fitting->run));
    }
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_RUN); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwRun *run = (const SwRun *) record;
      if (!g_hash_table_contains (runs, &run->start))
        g_hash_table_insert (runs, (gpointer) &run->start, (gpointer) run);
      if (!g_hash_table_contains (runs, &run->end))
        g_hash_table_insert (runs, (gpointer) &run->end, (gpointer) run);
    }
  return runs;
}

static const SwPriceKind fitting_prices[] = {
  [SW_FITTING_BOX] = SW_PRICE_BOX,     [SW_FITTING_BOARD] = SW_PRICE_DISTRIBUTION, [SW_FITTING_STACK] = SW_N_PRICES,
  [SW_FITTING_GULLY] = SW_N_PRICES,    [SW_FITTING_EXIT] = SW_N_PRICES,            [SW_FITTING_TEE] = SW_PRICE_JUNCTION,
  [SW_FITTING_BEND] = SW_N_PRICES,     [SW_FITTING_SOCKET] = SW_N_PRICES,          [SW_FITTING_EYE] = SW_PRICE_EYE,
  [SW_FITTING_VALVE] = SW_PRICE_VALVE, [SW_FITTING_HANGER] = SW_N_PRICES,          [SW_FITTING_DRIVER] = SW_PRICE_DRIVER,
  [SW_FITTING_OTHER] = SW_N_PRICES,
};

static void
add_point (const SwTakeoffWork *work, SwPriceKind kind, const char *size, const SwRecord *record, SwPoint place)
{
  sw_needs_add (work->needs, kind, size, 1, sw_room_finder_id (work->rooms, place), record->id);
}

/* A fitting of a run is as large as the run; one without a run is "other". */
static void
take_fittings (const SwTakeoffWork *work)
{
  SwJob *job = sw_takeoff_job (work);
  g_autoptr (GHashTable) runs = runs_by_fitting (job);
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_FITTING); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwFitting *fitting = (const SwFitting *) record;
      const SwRun *run = g_hash_table_lookup (runs, &record->id);
      SwPriceKind kind = fitting_prices[fitting->kind];
      if (kind == SW_N_PRICES || (run != NULL && run->stage == SW_STAGE_EXISTING))
        continue;
      g_autofree char *size = run != NULL ? sw_takeoff_run_size (run) : g_strdup ("other");
      add_point (work, kind, sw_price_info (kind)->sized ? size : NULL, record, fitting->at);
    }
}

static void
take_drops (const SwTakeoffWork *work)
{
  static const SwPriceKind kinds[] = {
    [SW_DROP_SWITCH] = SW_PRICE_SWITCH, [SW_DROP_SOCKET] = SW_PRICE_OUTLET, [SW_DROP_BOARD] = SW_PRICE_BOARD_POINT,
    [SW_DROP_TAP] = SW_PRICE_TAP,       [SW_DROP_OTHER] = SW_PRICE_POINT,
  };
  SwJob *job = sw_takeoff_job (work);
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_DROP); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwDrop *drop = (const SwDrop *) record;
      SwPoint at;
      if (!sw_job_drop_place (job, drop, &at))
        continue;
      const SwWall *wall = (const SwWall *) sw_job_get (job, drop->wall);
      const SwRoom *room = sw_deck_room_beside (work->deck, at, wall->thickness / 2);
      sw_needs_add (work->needs, kinds[drop->kind], NULL, 1, room != NULL ? room->record.id : 0, record->id);
    }
}

static void
take_lights (const SwTakeoffWork *work)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_takeoff_job (work), SW_TABLE_LIGHT); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwLight *light = (const SwLight *) record;
      g_autofree char *size = sw_takeoff_number (light->cut_out);
      add_point (work, SW_PRICE_LIGHT, size, record, light->at);
      if (light->hood)
        add_point (work, SW_PRICE_HOOD, NULL, record, light->at);
    }
}

/* Of the run's size, to the drop-in or tap that needs it. */
static void
take_junctions (const SwTakeoffWork *work)
{
  g_autoptr (GArray) junctions = sw_junctions_of (sw_takeoff_job (work), work->rules);
  for (guint i = 0; i < junctions->len; i++)
    {
      const SwJunction *junction = &g_array_index (junctions, SwJunction, i);
      g_autofree char *size = sw_takeoff_run_size (junction->run);
      add_point (work, SW_PRICE_JUNCTION, size, junction->thing, junction->at);
    }
}

static void
take_drop_ins (const SwTakeoffWork *work)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_takeoff_job (work), SW_TABLE_DROP_IN); (record = sw_job_iter_next (&i)) != NULL;)
    {
      g_autofree char *size = sw_takeoff_number (((const SwDropIn *) record)->hole);
      add_point (work, SW_PRICE_DROP_IN, size, record, ((const SwDropIn *) record)->at);
    }
}

/* All but those that the engineer refused. */
static void
take_sleeves (const SwTakeoffWork *work)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_takeoff_job (work), SW_TABLE_SLEEVE); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwSleeve *sleeve = (const SwSleeve *) record;
      g_autofree char *size = sw_takeoff_number (sleeve->diameter);
      if (sleeve->answer != SW_ANSWER_REFUSED)
        add_point (work, SW_PRICE_SLEEVE, size, record, sw_point_lerp (sleeve->from, sleeve->to, 0.5));
    }
}

static void
take_fillers (const SwTakeoffWork *work)
{
  const SwRecord *record;
  g_autoptr (GArray) fillers = g_array_new (FALSE, FALSE, sizeof (SwFiller));
  for (SwJobIter i = sw_job_iter (sw_takeoff_job (work), SW_TABLE_WALL); (record = sw_job_iter_next (&i)) != NULL;)
    sw_fillers_of_wall (work->deck, (const SwWall *) record, fillers);
  for (guint i = 0; i < fillers->len; i++)
    {
      const SwFiller *filler = &g_array_index (fillers, SwFiller, i);
      double depth = g_array_index (filler->bay->voids, SwVoid, filler->void_index).depth;
      g_autofree char *size = sw_takeoff_pair (filler->bay->profile->mouth, depth);
      add_point (work, SW_PRICE_FILLER, size, &filler->wall->record, filler->at);
    }
}

void
sw_takeoff_points (const SwTakeoffWork *work)
{
  take_fittings (work);
  take_drops (work);
  take_lights (work);
  take_drop_ins (work);
  take_junctions (work);
  take_sleeves (work);
  take_fillers (work);
}
