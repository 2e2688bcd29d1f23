/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The farthest point of a circuit is looked for from its distribution boards along its runs, which meet at what they start and
 * end at: distances are lowered run by run until nothing changes, at most once a run, so it ends. Circuits often share a conduit
 * from the board that names only one of them: where a circuit's own runs end at no board, the way goes on through the runs of
 * others that hang on the same boxes. Where that reaches none either, nothing is said of it. Circuits are grouped as the contents of their conduits say, with those in the
 * conduits beside them (bunching.h); of these, such as carry no more than a share of what they may in that group warm nothing
 * and are left out, where the rule set has that share. Circuits that contents hold without naming them always count. */
#include "circuits/facts.h"
#include "base/number.h"
#include "circuits/contents.h"
#include "circuits/voltdrop.h"
#include <math.h>
#include <string.h>

typedef struct
{
  const SwRun *run;
  SwRoute *route;
  double length;
  gboolean passed; /* another circuit's: on the way only */
} Part;

static void
part_clear (Part *part)
{
  sw_route_free (part->route);
}

static double
wall_drop (const SwDeck *deck, const SwRoute *route, SwId end, guint vertex)
{
  const SwRecord *record = sw_job_get (sw_deck_job (deck), end);
  if (record == NULL || sw_record_table (record) != SW_TABLE_DROP)
    return 0;
  double drop = fabs (route->axis[vertex].z - sw_deck_z_from_floor (deck, ((const SwDrop *) record)->height));
  return drop > route->od ? drop : 0;
}

static GArray *
measure_parts (const SwDeck *deck, const SwRules *rules, const GPtrArray *runs)
{
  GArray *parts = g_array_new (FALSE, FALSE, sizeof (Part));
  g_array_set_clear_func (parts, (GDestroyNotify) part_clear);
  for (guint i = 0; runs != NULL && i < runs->len; i++)
    {
      const SwRun *run = runs->pdata[i];
      SwRoute *route = sw_route_new (deck, rules, run, NULL);
      if (route == NULL)
        continue;
      Part part = { .run = run, .route = route, .length = sw_route_length (route) + wall_drop (deck, route, run->start, 0) + wall_drop (deck, route, run->end, route->n - 1) };
      g_array_append_val (parts, part);
    }
  return parts;
}

/* ---- the farthest point */

/* Distance of an end from a board so far; INFINITY when it was not reached. */
static double
reached (GHashTable *distances, SwId id)
{
  const double *distance = g_hash_table_lookup (distances, &id);
  return distance != NULL ? *distance : INFINITY;
}

static gboolean
lower (GHashTable *distances, SwId id, double distance)
{
  if (id == 0 || !(distance < reached (distances, id)))
    return FALSE;
  g_hash_table_insert (distances, g_memdup2 (&id, sizeof id), g_memdup2 (&distance, sizeof distance));
  return TRUE;
}

static gboolean
is_board (const SwJob *job, SwId id)
{
  const SwRecord *record = sw_job_get (job, id);
  return record != NULL
         && ((sw_record_table (record) == SW_TABLE_FITTING && ((const SwFitting *) record)->kind == SW_FITTING_BOARD)
             || (sw_record_table (record) == SW_TABLE_DROP && ((const SwDrop *) record)->kind == SW_DROP_BOARD));
}

/* Lowers the distances of a part's ends; *most grows to the farthest point on it. */
static gboolean
walk_part (GHashTable *distances, const Part *part, double *most)
{
  double start = reached (distances, part->run->start), end = reached (distances, part->run->end);
  gboolean changed = lower (distances, part->run->end, start + part->length);
  changed |= lower (distances, part->run->start, end + part->length);
  if (isfinite (fmin (start, end)) && !part->passed)
    *most = fmax (isnan (*most) ? 0 : *most, fmin (fmin (start, end) + part->length, fmax (start, end)));
  return changed;
}

/* *loose: how many parts of the circuit itself were not reached. */
static double
farthest (const GArray *parts, const SwJob *job, guint *loose)
{
  g_autoptr (GHashTable) distances = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, g_free);
  gboolean changed = TRUE;
  double most = NAN;
  for (guint i = 0; i < parts->len; i++)
    {
      const SwRun *run = g_array_index (parts, Part, i).run;
      if (is_board (job, run->start))
        lower (distances, run->start, 0);
      if (is_board (job, run->end))
        lower (distances, run->end, 0);
    }
  for (guint round = 0; round <= parts->len && changed; round++)
    {
      changed = FALSE;
      most = NAN;
      for (guint i = 0; i < parts->len; i++)
        changed |= walk_part (distances, &g_array_index (parts, Part, i), &most);
    }
  *loose = 0;
  for (guint i = 0; i < parts->len; i++)
    {
      const Part *part = &g_array_index (parts, Part, i);
      *loose += !part->passed && !isfinite (fmin (reached (distances, part->run->start), reached (distances, part->run->end)));
    }
  return most;
}

/* ---- through others' runs */

/* A box passes wires on; boards feed them, and at a switch or socket they end. */
static gboolean
passes_on (const SwJob *job, SwId id)
{
  const SwRecord *record = id != 0 ? sw_job_get (job, id) : NULL;
  return record != NULL && sw_record_table (record) == SW_TABLE_FITTING && ((const SwFitting *) record)->kind != SW_FITTING_BOARD;
}

static void
take_run (const SwJob *job, const SwRun *run, GPtrArray *connected, GHashTable *known, GHashTable *boxes)
{
  const SwId *ends[] = { &run->start, &run->end };
  g_hash_table_add (known, (gpointer) &run->record.id);
  g_ptr_array_add (connected, (gpointer) run);
  for (gsize i = 0; i < G_N_ELEMENTS (ends); i++)
    if (passes_on (job, *ends[i]))
      g_hash_table_add (boxes, (gpointer) ends[i]);
}

GPtrArray *
sw_circuits_connected (const SwJob *job, const GPtrArray *runs)
{
  g_autoptr (GHashTable) known = g_hash_table_new (g_int64_hash, g_int64_equal), boxes = g_hash_table_new (g_int64_hash, g_int64_equal);
  GPtrArray *connected = g_ptr_array_new ();
  const SwRecord *record;
  for (guint i = 0; runs != NULL && i < runs->len; i++)
    take_run (job, runs->pdata[i], connected, known, boxes);
  for (guint before = 0; before < connected->len && g_hash_table_size (boxes) > 0;)
    {
      before = connected->len;
      for (SwJobIter i = sw_job_iter (job, SW_TABLE_RUN); (record = sw_job_iter_next (&i)) != NULL;)
        {
          const SwRun *run = (const SwRun *) record;
          gboolean meets = (run->start != 0 && g_hash_table_contains (boxes, &run->start)) || (run->end != 0 && g_hash_table_contains (boxes, &run->end));
          if (meets && sw_circuits_warms (run) && !g_hash_table_contains (known, &record->id))
            take_run (job, run, connected, known, boxes);
        }
    }
  return connected;
}

static double
farthest_by_others (const SwDeck *deck, const SwRules *rules, const GPtrArray *runs, guint *loose)
{
  g_autoptr (GPtrArray) connected = sw_circuits_connected (sw_deck_job (deck), runs);
  if (runs == NULL || connected->len == runs->len)
    return NAN;
  g_autoptr (GArray) parts = measure_parts (deck, rules, connected);
  for (guint i = 0; i < parts->len; i++)
    {
      Part *part = &g_array_index (parts, Part, i);
      part->passed = TRUE;
      for (guint k = 0; k < runs->len && part->passed; k++)
        part->passed = runs->pdata[k] != part->run;
    }
  return farthest (parts, sw_deck_job (deck), loose);
}

/* ---- what the rules say */

static void
drop_facts (const SwRules *rules, const SwCircuit *circuit, SwCircuitFacts *facts)
{
  const char *column = circuit->phases == 3 ? "three_phase_mv" : "single_phase_mv";
  if (!sw_rules_lookup_at (rules, "circuit.drop_pvc", circuit->cable_mm2, SW_RULE_EXACT, column, &facts->each, NULL))
    return;
  facts->longest_m = sw_circuits_volt_drop_length (facts->each.value, circuit->amps, circuit->volts, facts->limit_percent);
  if (isnan (facts->farthest_mm))
    return;
  facts->drop_v = sw_circuits_volt_drop (facts->each.value, circuit->amps, facts->farthest_mm / 1000);
  facts->drop_percent = sw_circuits_volt_drop_percent (facts->drop_v, circuit->volts);
  facts->too_far = facts->drop_percent > facts->limit_percent + 1e-9;
}

/* The factor of the circuits that lie together: by circuits, or by conductors that carry current where the rule set counts those. */
static gboolean
group_factor (const SwRules *rules, const SwCircuit *circuit, SwCircuitFacts *facts, double *factor)
{
  gboolean by_conductors = !sw_rules_has (rules, "circuit.grouping_bunched");
  const char *table = by_conductors ? "circuit.grouping_conductors" : "circuit.grouping_bunched";
  double count = by_conductors ? facts->sharing * (circuit->phases == 3 ? 3 : 2) : facts->sharing;
  *factor = 1;
  if (facts->sharing <= 1 && !by_conductors)
    return TRUE;
  if (!sw_rules_lookup_at (rules, table, count, SW_RULE_NEXT_LARGER, by_conductors ? "percent" : "factor", &facts->group, NULL))
    {
      facts->no_row = table;
      return FALSE;
    }
  *factor = facts->group.value / (by_conductors ? 100 : 1);
  return TRUE;
}

static void
rating_facts (const SwRules *rules, const SwCircuit *circuit, SwCircuitFacts *facts)
{
  const char *column = circuit->phases == 3 ? "three_phase_a" : "single_phase_a";
  double factors[2], air = sw_rules_value (rules, "circuit.supply", "void_c").value;
  if (!sw_rules_lookup_at (rules, "circuit.ratings_conduit", circuit->cable_mm2, SW_RULE_EXACT, column, &facts->rating, NULL))
    facts->no_row = "circuit.ratings_conduit";
  else if (!sw_rules_lookup_at (rules, "circuit.ambient", air, SW_RULE_LINEAR, "factor", &facts->air, NULL))
    facts->no_row = "circuit.ambient";
  else if (group_factor (rules, circuit, facts, &factors[1]))
    {
      factors[0] = facts->air.value;
      facts->rating_a = sw_circuits_derated (facts->rating.value, factors, 2);
      facts->too_thin = facts->rating_a < facts->carries_a - 1e-9;
    }
}

double
sw_circuits_protection (const char *text)
{
  const char *from = text + strcspn (text, "0123456789");
  g_autofree char *digits = g_strndup (from, strspn (from, "0123456789."));
  double amps = 0;
  return *digits != '\0' && sw_number_read (digits, &amps, NULL) ? amps : 0;
}

/* The conduit of the circuit with the most circuits in it and beside it. */
static void
find_bunched (const SwDeck *deck, const SwRules *rules, const GArray *parts, const GPtrArray *beside, GHashTable *spared, SwCircuitFacts *facts)
{
  facts->sharing = 1;
  facts->bunched = 0;
  for (guint i = 0; i < parts->len; i++)
    {
      const Part *part = &g_array_index (parts, Part, i);
      SwBunching bunching = sw_circuits_bunching (deck, rules, part->route, beside, spared);
      if (facts->bunched != 0 && bunching.circuits <= facts->sharing)
        continue;
      facts->sharing = bunching.circuits;
      facts->bunching = bunching;
      facts->bunched = part->run->record.id;
    }
}

/* Runs of other circuits that carry no more than the rule's share of what they may where `together` lie together: set of SwId. */
static GHashTable *
lightly_loaded (const SwJob *job, const SwRules *rules, const SwCircuit *circuit, const GPtrArray *beside, guint together, double share)
{
  GHashTable *spared = g_hash_table_new (g_int64_hash, g_int64_equal);
  for (guint i = 0; beside != NULL && i < beside->len && share > 0; i++)
    {
      const SwRun *run = ((const SwRoute *) beside->pdata[i])->run;
      const SwCircuit *other = run->circuit != 0 && run->circuit != circuit->record.id ? (const SwCircuit *) sw_job_get (job, run->circuit) : NULL;
      SwCircuitFacts theirs = { .sharing = together, .rating_a = NAN };
      if (other == NULL)
        continue;
      rating_facts (rules, other, &theirs);
      if (other->amps <= share * theirs.rating_a + 1e-9)
        g_hash_table_add (spared, (gpointer) &run->record.id);
    }
  return spared;
}

static void
bunching_facts (const SwDeck *deck, const SwRules *rules, const SwCircuit *circuit, const GArray *parts, const GPtrArray *beside, SwCircuitFacts *facts)
{
  find_bunched (deck, rules, parts, beside, NULL, facts);
  guint all = facts->sharing;
  facts->light = sw_rules_value (rules, "circuit.bunching", "light_percent");
  g_autoptr (GHashTable) spared = all > 1 ? lightly_loaded (sw_deck_job (deck), rules, circuit, beside, all, facts->light.value / 100) : NULL;
  if (spared != NULL && g_hash_table_size (spared) > 0)
    find_bunched (deck, rules, parts, beside, spared, facts);
  facts->spared = all - facts->sharing;
}

SwCircuitFacts
sw_circuits_facts (const SwDeck *deck, const SwRules *rules, const SwCircuit *circuit, const GPtrArray *runs, const GPtrArray *beside,
                   gboolean lighting)
{
  SwCircuitFacts facts = { .drop_v = NAN, .drop_percent = NAN, .longest_m = NAN, .rating_a = NAN };
  g_autoptr (GArray) parts = measure_parts (deck, rules, runs);
  for (guint i = 0; i < parts->len; i++)
    facts.length_mm += g_array_index (parts, Part, i).length;
  facts.farthest_mm = farthest (parts, sw_deck_job (deck), &facts.loose);
  if (isnan (facts.farthest_mm))
    facts.farthest_mm = farthest_by_others (deck, rules, runs, &facts.loose);
  facts.limit = sw_rules_value (rules, "circuit.limits", lighting ? "lighting_percent" : "power_percent");
  facts.limit_percent = facts.limit.value;
  bunching_facts (deck, rules, circuit, parts, beside, &facts);
  facts.carries_a = fmax (circuit->amps, sw_circuits_protection (circuit->protection));
  drop_facts (rules, circuit, &facts);
  rating_facts (rules, circuit, &facts);
  return facts;
}
