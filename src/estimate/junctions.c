/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "estimate/junctions.h"
#include "drainage/outlets.h"
#include <math.h>

/* Where tees stand on each run: run → GArray of double, along it in plan. */
static GHashTable *
tees_by_run (const SwJob *job)
{
  GHashTable *tees = g_hash_table_new_full (g_int64_hash, g_int64_equal, NULL, (GDestroyNotify) g_array_unref);
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_FITTING); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwFitting *fitting = (const SwFitting *) record;
      const SwRun *run = fitting->kind == SW_FITTING_TEE && fitting->run != 0 ? (const SwRun *) sw_job_get (job, fitting->run) : NULL;
      if (run == NULL)
        continue;
      GArray *places = g_hash_table_lookup (tees, &fitting->run);
      if (places == NULL)
        g_hash_table_insert (tees, (gpointer) &fitting->run, places = g_array_new (FALSE, FALSE, sizeof (double)));
      double along = sw_outlets_along (run, fitting->at, NULL);
      g_array_append_val (places, along);
    }
  return tees;
}

static double
length_in_plan (const SwRun *run)
{
  double length = 0;
  for (guint i = 0; i + 1 < run->vertices.n; i++)
    length += sw_point_distance (SW_LIST_AT (run->vertices, SwVertex, i).at, SW_LIST_AT (run->vertices, SwVertex, i + 1).at);
  return length;
}

static gboolean
has_place_near (const GArray *places, double along, double reach)
{
  for (guint i = 0; places != NULL && i < places->len; i++)
    if (fabs (g_array_index (places, double, i) - along) <= reach)
      return TRUE;
  return FALSE;
}

GArray *
sw_junctions_of (const SwJob *job, const SwRules *rules)
{
  GArray *junctions = g_array_new (FALSE, FALSE, sizeof (SwJunction));
  double reach = sw_rules_value (rules, "checks.runs", "end_reach_mm").value;
  g_autoptr (GArray) outlets = sw_outlets_of (job, reach);
  g_autoptr (GHashTable) tees = tees_by_run (job);
  for (guint i = 0; i < outlets->len; i++)
    {
      const SwOutlet *outlet = &g_array_index (outlets, SwOutlet, i);
      SwJunction junction = { (const SwRun *) sw_job_get (job, outlet->run), sw_job_get (job, outlet->thing), { 0 } };
      if (junction.run->stage == SW_STAGE_EXISTING || outlet->along <= reach || outlet->along >= length_in_plan (junction.run) - reach
          || has_place_near (g_hash_table_lookup (tees, &outlet->run), outlet->along, reach))
        continue;
      if (sw_record_table (junction.thing) == SW_TABLE_DROP_IN)
        junction.at = ((const SwDropIn *) junction.thing)->at;
      else if (!sw_job_drop_place (job, (const SwDrop *) junction.thing, &junction.at))
        continue;
      g_array_append_val (junctions, junction);
    }
  return junctions;
}

guint
sw_junctions_on (const GArray *junctions, SwId run)
{
  guint n = 0;
  for (guint i = 0; i < junctions->len; i++)
    n += g_array_index (junctions, SwJunction, i).run->record.id == run;
  return n;
}
