/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Checking. Two walks: over all pairs of bodies that are nearer than some check asks (one neighbour search for all of them,
 * each pair dispatched by its two kinds of body), and over the records of the tables that checks name. What two things have
 * between them at one place becomes one snag, the worst of it. Cost: the pair search, which looks no farther than two bodies'
 * classes want (classes.h), plus records × what lies near them.
 * It ends because both walks do. It does not find what two snags cause together, and says nothing about records that the
 * space could not work out but for their faults. */
#include "checks/classes.h"
#include "checks/entries.h"
#include "checks/snags.h"
#include "base/error.h"
#include "base/tolerance.h"
#include "drainage/run_flow.h"
#include <string.h>


typedef struct
{
  SwCheckRun run;
  GCancellable *cancellable;
  SwCheckProgress progress;
  gpointer data;
  guint8 interested[SW_N_BODIES][SW_N_BODIES][16]; /* entries by kinds, +1; ended by 0 */
  guint8 either[SW_N_BODIES][SW_N_BODIES][32];     /* those that take the pair either way round */
  guint8 of_table[SW_N_TABLES][64];                /* entries about records of each table, likewise */
} Runner;

static const struct { const char *group, *key; } limit_places[SW_N_LIMITS] = {
  [SW_LIMIT_RIB] = { "checks.clearances", "rib_mm" },
  [SW_LIMIT_WEB] = { "checks.clearances", "web_mm" },
  [SW_LIMIT_CROWN] = { "checks.clearances", "crown_mm" },
  [SW_LIMIT_CLOSURE] = { "checks.clearances", "closure_mm" },
  [SW_LIMIT_SOLID] = { "checks.clearances", "solid_zone_mm" },
  [SW_LIMIT_OPENING] = { "checks.clearances", "opening_edge_mm" },
  [SW_LIMIT_BEAM] = { "checks.clearances", "downstand_mm" },
  [SW_LIMIT_PLATE] = { "checks.clearances", "plate_mm" },
  [SW_LIMIT_BATTEN] = { "checks.clearances", "batten_mm" },
  [SW_LIMIT_BOARD] = { "checks.clearances", "board_mm" },
  [SW_LIMIT_WALL] = { "checks.clearances", "wall_mm" },
  [SW_LIMIT_TUBE] = { "checks.clearances", "tube_mm" },
  [SW_LIMIT_CONDUIT] = { "checks.clearances", "conduit_mm" },
  [SW_LIMIT_CONDUIT_PIPE] = { "checks.clearances", "conduit_pipe_mm" },
  [SW_LIMIT_CONDUIT_HOT] = { "checks.clearances", "conduit_hot_pipe_mm" },
  [SW_LIMIT_GAS] = { "checks.clearances", "gas_mm" },
  [SW_LIMIT_LIGHT_BODY] = { "checks.clearances", "light_body_mm" },
  [SW_LIMIT_LIGHT_HEAT] = { "checks.clearances", "light_heat_mm" },
  [SW_LIMIT_LIGHT_RIB] = { "checks.clearances", "light_rib_mm" },
  [SW_LIMIT_LIGHT_PLATE] = { "checks.clearances", "light_plate_mm" },
  [SW_LIMIT_LIGHT_WALL] = { "checks.clearances", "light_wall_mm" },
  [SW_LIMIT_HANGER] = { "checks.clearances", "hanger_mm" },
  [SW_LIMIT_ZINC] = { "checks.clearances", "zinc_gap_mm" },
  [SW_LIMIT_SADDLE] = { "crossing.rules", "saddle_gap_mm" },
  [SW_LIMIT_END_REACH] = { "checks.runs", "end_reach_mm" },
  [SW_LIMIT_DRIP_ASIDE] = { "checks.runs", "drip_aside_mm" },
  [SW_LIMIT_DRIP_BELOW] = { "checks.runs", "drip_below_mm" },
  [SW_LIMIT_HATCH_REACH] = { "checks.runs", "hatch_reach_mm" },
  [SW_LIMIT_OVER_ELECTRICAL] = { "checks.runs", "over_electrical_mm" },
  [SW_LIMIT_SADDLE_PLATE] = { "checks.runs", "saddle_plate_mm" },
  [SW_LIMIT_BATTEN_CUT] = { "light.clearances", "batten_mm" },
  [SW_LIMIT_COMBUSTIBLE] = { "light.clearances", "combustible_mm" },
  [SW_LIMIT_WITHDRAW] = { "light.clearances", "withdraw_mm" },
  [SW_LIMIT_LIGHT_JOINT] = { "board.layout", "light_joint_mm" },
  [SW_LIMIT_UNMEASURED_RIB] = { "deck.as_built", "rib_mm" },
  [SW_LIMIT_UNMEASURED_LEVEL] = { "deck.as_built", "level_mm" },
  [SW_LIMIT_UNMEASURED_PLATE] = { "deck.as_built", "plate_mm" },
};

double
sw_check_farthest (const SwSpace *space)
{
  double farthest = 0;
  for (guint i = 0; i < SW_N_LIMITS; i++)
    farthest = MAX (farthest, sw_rules_value (sw_space_rules (space), limit_places[i].group, limit_places[i].key).value);
  return farthest;
}

guint
sw_checks_n (void)
{
  return sw_check_n_entries;
}

const SwCheck *
sw_checks_get (guint i)
{
  g_assert (i < sw_check_n_entries);
  return &sw_check_entries[i].check;
}

const SwCheck *
sw_checks_find (const char *id)
{
  for (guint i = 0; i < sw_check_n_entries; i++)
    if (strcmp (sw_check_entries[i].check.id, id) == 0)
      return &sw_check_entries[i].check;
  return NULL;
}

/* ---- setting up */

static gboolean
entry_wanted (const SwCheckRun *run, const SwCheckEntry *entry)
{
  return run->options.only == NULL || strcmp (run->options.only, entry->check.id) == 0;
}

static void
add_interest (Runner *runner, guint a, guint b, guint entry)
{
  guint8 *list = runner->interested[a][b];
  guint n = 0;
  while (list[n] != 0)
    n++;
  g_assert (n + 1 < G_N_ELEMENTS (runner->interested[a][b]));
  list[n] = (guint8) (entry + 1);
}

/* Entries that take the pair either way round: those of (a, b), then those of (b, a) that are not among them. */
static void
list_either (Runner *runner, guint a, guint b)
{
  const guint8 *lists[2] = { runner->interested[a][b], runner->interested[b][a] };
  guint8 *entries = runner->either[a][b];
  guint n = 0;
  for (guint side = 0; side < (a == b ? 1u : 2u); side++)
    for (const guint8 *entry = lists[side]; *entry != 0; entry++)
      if (memchr (entries, *entry, n) == NULL)
        entries[n++] = *entry;
}

static void
list_tables (Runner *runner)
{
  for (guint table = 0; table < SW_N_TABLES; table++)
    for (guint e = 0, n = 0; e < sw_check_n_entries; e++)
      if (entry_wanted (&runner->run, &sw_check_entries[e]) && sw_check_entries[e].tables & SW_TABLE_BIT (table))
        {
          g_assert (n + 1 < G_N_ELEMENTS (runner->of_table[table]));
          runner->of_table[table][n++] = (guint8) (e + 1);
        }
}

static void
list_interests (Runner *runner)
{
  for (guint e = 0; e < sw_check_n_entries; e++)
    if (entry_wanted (&runner->run, &sw_check_entries[e]))
      for (guint a = 0; a < SW_N_BODIES; a++)
        for (guint b = 0; b < SW_N_BODIES; b++)
          if (sw_check_entries[e].first & SW_BODY_BIT (a) && sw_check_entries[e].second & SW_BODY_BIT (b))
            add_interest (runner, a, b, e);
  for (guint a = 0; a < SW_N_BODIES; a++)
    for (guint b = 0; b < SW_N_BODIES; b++)
      list_either (runner, a, b);
}

static void
runner_init (Runner *runner, SwSpace *space, const SwCheckOptions *options)
{
  SwCheckRun *run = &runner->run;
  run->space = space;
  run->deck = sw_space_deck (space);
  run->job = sw_space_job (space);
  run->rules = sw_space_rules (space);
  if (options != NULL)
    run->options = *options;
  for (guint i = 0; i < SW_N_LIMITS; i++)
    run->limits[i] = sw_rules_value (run->rules, limit_places[i].group, limit_places[i].key);
  run->snags = g_array_new (FALSE, FALSE, sizeof (SwSnag));
  g_array_set_clear_func (run->snags, (GDestroyNotify) sw_snag_clear);
  run->links = g_array_new (FALSE, FALSE, sizeof (int));
  run->keys = g_hash_table_new_full (g_bytes_hash, g_bytes_equal, (GDestroyNotify) g_bytes_unref, NULL);
  run->draw_bends = sw_rules_value (run->rules, "conduit.draw", "note_bends");
  run->draw_stop = sw_rules_value (run->rules, "conduit.draw", "stop_degree");
  run->draw_length = sw_rules_value (run->rules, "conduit.draw", "note_length_m");
  for (guint service = 0; service < SW_N_SERVICES; service++)
    run->inside_c[service] = sw_drainage_inside_c (run->rules, (SwService) service);
  run->has_rated = TRUE;
  run->highest_back = INFINITY;
  run->lookup = sw_check_lookup_new (run->deck);
  list_interests (runner);
  list_tables (runner);
}

/* Cut-outs are wider than the bodies that are searched with. */
static void
add_rim (SwCheckRun *run, const SwRecord *record)
{
  const SwLight *light = (const SwLight *) record;
  run->rim = MAX (run->rim, (light->cut_out - light->body) / 2);
}

/* What the job has decides how far to look. */
static void
take_stock (SwCheckRun *run)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (run->job, SW_TABLE_RUN); (record = sw_job_iter_next (&i)) != NULL;)
    run->services |= 1u << ((const SwRun *) record)->service;
  for (SwJobIter i = sw_job_iter (run->job, SW_TABLE_LIGHT); (record = sw_job_iter_next (&i)) != NULL;)
    add_rim (run, record);
}

/* What holds of all ceilings need not be asked under each. */
static void
take_stock_of_ceilings (SwCheckRun *run)
{
  const SwRecord *record;
  run->highest_back = -INFINITY;
  run->has_rated = FALSE;
  for (SwJobIter i = sw_job_iter (run->job, SW_TABLE_ROOM); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwRoom *room = (const SwRoom *) record;
      if (sw_check_is_hidden (room))
        run->highest_back = fmax (run->highest_back, sw_check_lookup_back (run->lookup, room));
      run->has_rated = run->has_rated || sw_check_is_rated (room);
    }
}

/* For a few records it costs less to look as far as any job asks; only battens meet lights that are not among them. */
static void
take_stock_of (SwCheckRun *run, const SwId *owners, guint n)
{
  for (guint i = 0; i < n; i++)
    {
      const SwRecord *record = sw_job_get (run->job, owners[i]);
      if (record != NULL && sw_record_table (record) == SW_TABLE_LAYOUT)
        take_stock (run);
      else if (record != NULL && sw_record_table (record) == SW_TABLE_LIGHT)
        add_rim (run, record);
    }
  run->services = G_MAXUINT32;
}

static void
runner_clear (Runner *runner)
{
  g_clear_pointer (&runner->run.snags, g_array_unref); /* NULL once they are handed over */
  g_array_unref (runner->run.links);
  g_hash_table_unref (runner->run.keys);
  sw_check_lookup_free (runner->run.lookup);
}

/* ---- pairs */

/* What the first entry that cares about the pair this way round, else the other, asks for. */
static double
entry_needed (const SwCheckRun *run, const SwCheckEntry *entry, const SwBody *a, const SwBody *b, gboolean *turned)
{
  double needed = -1;
  *turned = FALSE;
  if (entry->first & SW_BODY_BIT (a->kind) && entry->second & SW_BODY_BIT (b->kind))
    needed = entry->needed (run, a, b);
  if (needed < 0 && entry->first & SW_BODY_BIT (b->kind) && entry->second & SW_BODY_BIT (a->kind))
    {
      *turned = TRUE;
      needed = entry->needed (run, b, a);
    }
  return needed;
}

static double
pair_needed (const SwBody *a, const SwBody *b, gpointer data)
{
  const Runner *runner = data;
  double most = -1;
  for (const guint8 *entry = runner->either[a->kind][b->kind]; *entry != 0; entry++)
    {
      gboolean turned;
      double needed = entry_needed (&runner->run, &sw_check_entries[*entry - 1], a, b, &turned);
      most = MAX (most, needed);
    }
  return most;
}

static void
take_meeting (Runner *runner, const SwMeeting *meeting)
{
  SwCheckRun *run = &runner->run;
  const SwBody *a = sw_space_body (run->space, meeting->first), *b = sw_space_body (run->space, meeting->second);
  const SwClearance *clearance = &meeting->clearance;
  SwPoint3 place = sw_point3_lerp (clearance->on_first, clearance->on_second, 0.5);
  double mm = sw_grid_round (clearance->mm); /* what just fits, fits */
  for (const guint8 *entry = runner->either[a->kind][b->kind]; *entry != 0; entry++)
    {
      gboolean turned;
      run->order = *entry - 1u;
      run->entry = &sw_check_entries[run->order];
      double needed = entry_needed (run, run->entry, a, b, &turned);
      if (needed < 0 || mm >= needed)
        continue;
      SwCheckPair pair = { a, b, mm, clearance->away, place };
      if (turned)
        pair = (SwCheckPair){ b, a, mm, sw_point3_scale (clearance->away, -1), place };
      run->entry->pair (run, &pair);
    }
}

/* Beyond the bodies' own margins. */
static double
widest_limit (const SwCheckRun *run)
{
  static const SwLimit not_distances[] = { SW_LIMIT_HATCH_REACH, SW_LIMIT_DRIP_ASIDE, SW_LIMIT_DRIP_BELOW, SW_LIMIT_LIGHT_WALL, SW_LIMIT_OVER_ELECTRICAL,
                                           SW_LIMIT_CONDUIT_PIPE, SW_LIMIT_CONDUIT_HOT };
  const guint32 wet = 1u << SW_SERVICE_WASTE | 1u << SW_SERVICE_SOIL | 1u << SW_SERVICE_RAINWATER | 1u << SW_SERVICE_CONDENSATE
                      | 1u << SW_SERVICE_COLD | 1u << SW_SERVICE_HOT | 1u << SW_SERVICE_SPRINKLER | 1u << SW_SERVICE_GAS;
  const guint32 electric = 1u << SW_SERVICE_POWER | 1u << SW_SERVICE_LIGHTING | 1u << SW_SERVICE_DATA | 1u << SW_SERVICE_FIRE_ALARM;
  double widest = 0;
  for (guint i = 0; i < SW_N_LIMITS; i++)
    {
      gboolean skip = FALSE;
      for (gsize k = 0; k < G_N_ELEMENTS (not_distances); k++)
        skip |= i == not_distances[k];
      if (!skip)
        widest = MAX (widest, sw_check_limit (run, i));
    }
  if (run->services & wet && run->services & electric)
    {
      widest = MAX (widest, sw_check_limit (run, SW_LIMIT_CONDUIT_PIPE));
      if (run->services & 1u << SW_SERVICE_HOT)
        widest = MAX (widest, sw_check_limit (run, SW_LIMIT_CONDUIT_HOT));
    }
  return MAX (widest, sw_check_segregation_reach (run)) + run->rim;
}

/* ---- records */

/* All that checks say of one record, before the next: what it takes is then still in the processor's cache. */
static gboolean
take_record (Runner *runner, const SwRecord *record)
{
  SwCheckRun *run = &runner->run;
  SwTable table = sw_record_table (record);
  if (g_cancellable_is_cancelled (runner->cancellable))
    return FALSE;
  run->subject = record->id;
  run->route = table == SW_TABLE_RUN ? sw_space_route (run->space, record->id) : NULL;
  for (const guint8 *entry = runner->of_table[table]; *entry != 0; entry++)
    {
      run->order = *entry - 1u;
      run->entry = &sw_check_entries[run->order];
      run->entry->record (run, record);
    }
  return TRUE;
}

static gboolean
take_table (Runner *runner, SwTable table)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (runner->run.job, table); (record = sw_job_iter_next (&i)) != NULL;)
    if (!take_record (runner, record))
      return FALSE;
  return TRUE;
}

static gboolean
take_all_records (Runner *runner)
{
  for (guint table = 0; table < SW_N_TABLES; table++)
    {
      if (runner->of_table[table][0] != 0 && !take_table (runner, table))
        return FALSE;
      if (runner->progress != NULL)
        runner->progress (0.5 + 0.5 * (table + 1) / SW_N_TABLES, runner->data);
    }
  return TRUE;
}

static void
take_records_of (Runner *runner, const SwId *owners, guint n)
{
  for (guint i = 0; i < n; i++)
    {
      const SwRecord *record = sw_job_get (runner->run.job, owners[i]);
      if (record != NULL)
        take_record (runner, record);
    }
}

/* ---- finish */

/* Where it is, and what stands behind it when no number does. */
static void
finish_snag (SwCheckRun *run, SwSnag *snag)
{
  if (snag->value.rule_id == NULL)
    sw_rules_lookup (run->rules, "checks.basis", snag->rule, "basis", &snag->value, NULL);
  SwPoint at = { snag->place.x, snag->place.y };
  const SwRoom *room = snag->room == 0 ? sw_check_room_at (run, at) : NULL;
  snag->address = sw_deck_address (run->deck, at);
  if (room != NULL)
    snag->room = room->record.id;
}

/* Those that stay move up. */
static SwSnags *
runner_finish (Runner *runner)
{
  SwCheckRun *run = &runner->run;
  GArray *snags = g_steal_pointer (&run->snags);
  guint kept = 0;
  for (guint i = 0; i < snags->len; i++)
    {
      SwSnag *snag = &g_array_index (snags, SwSnag, i);
      if (run->options.no_notes && snag->severity == SW_SEVERITY_NOTE)
        {
          sw_snag_clear (snag);
          continue;
        }
      finish_snag (run, snag);
      if (kept != i)
        {
          g_array_index (snags, SwSnag, kept) = *snag;
          snag->detail = NULL;
        }
      kept++;
    }
  g_array_set_size (snags, kept);
  return sw_snags_new (run->space, snags);
}

SwSnags *
sw_checks_run (SwSpace *space, const SwCheckOptions *options, GCancellable *cancellable, SwCheckProgress progress,
               gpointer data, GError **error)
{
  Runner runner = { .cancellable = cancellable, .progress = progress, .data = data };
  SwSnags *snags = NULL;
  runner_init (&runner, space, options);
  take_stock (&runner.run);
  take_stock_of_ceilings (&runner.run);
  g_autoptr (SwCheckClasses) classes = sw_check_classes_new (&runner.run, widest_limit (&runner.run), pair_needed, &runner);
  SwNeighbourClasses view = sw_check_classes_view (classes);
  g_autoptr (GArray) meetings = sw_space_meetings_by (space, &view, pair_needed, &runner, cancellable);
  if (meetings != NULL)
    {
      for (guint i = 0; i < meetings->len; i++)
        take_meeting (&runner, &g_array_index (meetings, SwMeeting, i));
      if (progress != NULL)
        progress (0.5, data);
      if (take_all_records (&runner))
        snags = runner_finish (&runner);
    }
  if (snags == NULL)
    g_set_error (error, SW_ERROR, SW_ERROR_CANCELLED, "the check was cancelled");
  runner_clear (&runner);
  return snags;
}

SwSnags *
sw_checks_of (SwSpace *space, const SwCheckOptions *options, const SwId *owners, guint n)
{
  Runner runner = { 0 };
  runner_init (&runner, space, options);
  take_stock_of (&runner.run, owners, n);
  g_autoptr (GArray) meetings
      = sw_space_meetings_of (space, owners, n, widest_limit (&runner.run), pair_needed, &runner);
  for (guint i = 0; i < meetings->len; i++)
    take_meeting (&runner, &g_array_index (meetings, SwMeeting, i));
  take_records_of (&runner, owners, n);
  SwSnags *snags = runner_finish (&runner);
  runner_clear (&runner);
  return snags;
}

/* ---- for tests */

struct _SwCheckAsking
{
  Runner runner;
  SwCheckClasses *classes;
};

SwCheckAsking *
sw_check_asking_new (SwSpace *space)
{
  SwCheckAsking *asking = g_new0 (SwCheckAsking, 1);
  runner_init (&asking->runner, space, NULL);
  take_stock (&asking->runner.run);
  asking->classes = sw_check_classes_new (&asking->runner.run, widest_limit (&asking->runner.run), pair_needed, &asking->runner);
  return asking;
}

void
sw_check_asking_free (SwCheckAsking *asking)
{
  sw_check_classes_free (asking->classes);
  runner_clear (&asking->runner);
  g_free (asking);
}

const SwCheckClasses *
sw_check_asking_classes (const SwCheckAsking *asking)
{
  return asking->classes;
}

double
sw_check_asking_needed (SwCheckAsking *asking, guint a, guint b)
{
  return pair_needed (sw_space_body (asking->runner.run.space, a), sw_space_body (asking->runner.run.space, b), &asking->runner);
}
