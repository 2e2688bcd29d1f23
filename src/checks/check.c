/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Making snags, and what several checks ask. */
#include "checks/check.h"
#include "base/tolerance.h"

#define MERGE_MM 300.0 /* meetings of the same two things closer than this are one place to go to */

const SwFitting *
sw_check_fitting_of (const SwCheckRun *run, SwId owner)
{
  return SW_ID_TABLE (owner) == SW_TABLE_FITTING ? (const SwFitting *) sw_job_get (run->job, owner) : NULL;
}

/* ---- trades */

static SwTrade
service_trade (SwService service)
{
  return sw_service_is_electric (service) ? SW_TRADE_ELECTRICIAN : SW_TRADE_PLUMBER;
}

static SwTrade
fitting_trade (const SwCheckRun *run, const SwFitting *fitting)
{
  static const guint32 electric = 1u << SW_FITTING_BOX | 1u << SW_FITTING_BOARD | 1u << SW_FITTING_DRIVER;
  const SwRun *of = fitting->run != 0 ? (const SwRun *) sw_job_get (run->job, fitting->run) : NULL;
  if (of != NULL)
    return service_trade ((SwService) of->service);
  return electric & 1u << fitting->kind ? SW_TRADE_ELECTRICIAN : SW_TRADE_PLUMBER;
}

/* Runs and fittings belong to the trade of their service; all else to the one that the table names. */
static SwTrade
owner_trade (const SwCheckRun *run, SwId owner)
{
  const SwRecord *record = owner != 0 ? sw_job_get (run->job, owner) : NULL;
  if (record != NULL && sw_record_table (record) == SW_TABLE_RUN)
    return service_trade ((SwService) ((const SwRun *) record)->service);
  if (record != NULL && sw_record_table (record) == SW_TABLE_FITTING)
    return fitting_trade (run, (const SwFitting *) record);
  return run->entry->check.trade;
}

/* ---- new snags */

static SwSnag
snag_blank (const SwCheckRun *run, const char *variant, SwSeverity severity, SwId owner, SwPoint3 place)
{
  return (SwSnag){
    .rule = run->entry->check.id,
    .variant = variant,
    .order = run->order,
    .severity = severity,
    .trade = owner_trade (run, owner),
    .subject = run->subject,
    .owners = { owner, 0 },
    .kinds = { SW_N_BODIES, SW_N_BODIES },
    .parts = { -1, -1 },
    .place = place,
    .box = sw_box3_add (SW_BOX3_EMPTY, place),
    .missing_mm = NAN,
    .needed = NAN,
    .found = NAN,
  };
}

SwSnag *
sw_check_add (SwCheckRun *run, const char *variant, SwSeverity severity, SwId owner, SwPoint3 place)
{
  SwSnag snag = snag_blank (run, variant, severity, owner, place);
  int none = -1;
  g_array_append_val (run->snags, snag);
  g_array_append_val (run->links, none);
  return &g_array_index (run->snags, SwSnag, run->snags->len - 1);
}

void
sw_check_set_numbers (SwSnag *snag, double needed, double found, SwUnit unit, const SwRuleValue *rule)
{
  snag->needed = needed;
  snag->found = found;
  snag->unit = unit;
  if (rule != NULL)
    snag->value = *rule;
}

void
sw_check_set_missing (SwSnag *snag, double missing_mm, SwPoint3 direction)
{
  snag->missing_mm = missing_mm;
  double length = sw_point3_length (direction);
  if (length > 0)
    {
      snag->direction = sw_point3_scale (direction, 1 / length);
      snag->distance = missing_mm;
    }
}

#define ASIDE_MOST_MM 1000.0
#define ASIDE_LEAST_MM 2e-4 /* a touch need not be told from a hair's breadth */

/* Least distance along a direction at which two bodies are `needed` apart; INFINITY when it is far. Both are convex: on a
 * straight way they come closer for one stretch only, so that halving finds its end. */
static double
distance_aside (const SwCheckPair *pair, SwPoint3 way, double needed)
{
  double low = 0, high = 2 * ASIDE_MOST_MM, asked = fmax (needed, ASIDE_LEAST_MM);
  for (double at = ASIDE_MOST_MM; high - low > SW_GRID_MM; at = (low + high) / 2)
    {
      SwSolid moved = sw_solid_moved (&pair->first->solid, sw_point3_scale (way, at));
      gboolean clear = sw_solid_is_clear (&moved, &pair->second->solid, asked);
      if (!clear && at == ASIDE_MOST_MM)
        return INFINITY;
      *(clear ? &high : &low) = at;
    }
  return high;
}

void
sw_check_set_aside (SwCheckRun *run, SwSnag *snag, const SwCheckPair *pair, double needed)
{
  const SwDeckBay *bay = sw_deck_bay_at (run->deck, (SwPoint){ pair->place.x, pair->place.y });
  SwPoint along = bay != NULL ? (SwPoint){ bay->cosine, bay->sine } : (SwPoint){ 1, 0 };
  const SwPoint3 ways[] = { { along.x, along.y, 0 }, { -along.x, -along.y, 0 }, { -along.y, along.x, 0 }, { along.y, -along.x, 0 } };
  double best = INFINITY;
  snag->distance = 0;
  snag->direction = (SwPoint3){ 0 };
  for (gsize i = 0; i < G_N_ELEMENTS (ways); i++)
    {
      double here = distance_aside (pair, ways[i], needed);
      if (here < best - SW_TOUCH_MM)
        {
          best = here;
          snag->direction = ways[i];
          snag->distance = here;
        }
    }
}

void
sw_check_set_other (SwSnag *snag, SwId owner, SwBodyKind kind, int part)
{
  snag->owners[1] = owner;
  snag->kinds[1] = kind;
  snag->parts[1] = part;
}

void
sw_check_set_param (SwSnag *snag, const char *name, double value, SwUnit unit)
{
  g_assert (snag->n_params < SW_SNAG_PARAMS_MAX);
  snag->params[snag->n_params++] = (SwSnagParam){ name, value, unit };
}

void
sw_check_set_extent (SwSnag *snag, SwPoint3 from, SwPoint3 to)
{
  snag->box = sw_box3_add (sw_box3_add (snag->box, from), to);
}

/* ---- pairs */

static GBytes *
pair_key (const SwCheckRun *run, const SwCheckPair *pair)
{
  const gint64 key[] = { run->order, pair->first->owner, pair->second->owner, pair->second->kind, pair->second->bay, pair->second->part };
  return g_bytes_new (key, sizeof key);
}

static gboolean
near_box (SwBox3 box, SwPoint3 p)
{
  return p.x > box.low.x - MERGE_MM && p.x < box.high.x + MERGE_MM && p.y > box.low.y - MERGE_MM && p.y < box.high.y + MERGE_MM
         && p.z > box.low.z - MERGE_MM && p.z < box.high.z + MERGE_MM;
}

/* The snag that stands for this pair already: of the same leg, or near this place; −1 for none. */
static int
known_pair (const SwCheckRun *run, const SwCheckPair *pair, int last)
{
  for (int i = last; i >= 0; i = g_array_index (run->links, int, i))
    {
      const SwSnag *snag = &g_array_index (run->snags, SwSnag, i);
      if (snag->parts[0] == pair->first->part || near_box (snag->box, pair->place))
        return i;
    }
  return -1;
}

static void
fill_pair (SwSnag *snag, const SwCheckPair *pair, double needed, const SwRuleValue *rule)
{
  snag->kinds[0] = pair->first->kind;
  snag->parts[0] = pair->first->part;
  sw_check_set_other (snag, pair->second->owner, pair->second->kind, pair->second->part);
  sw_check_set_numbers (snag, needed, pair->mm, SW_UNIT_MM, rule);
  sw_check_set_missing (snag, needed - pair->mm, pair->away);
}

SwSnag *
sw_check_add_pair (SwCheckRun *run, const char *variant, SwSeverity severity, const SwCheckPair *pair, double needed,
                   const SwRuleValue *rule)
{
  GBytes *key = pair_key (run, pair);
  int last = GPOINTER_TO_INT (g_hash_table_lookup (run->keys, key)) - 1, known = known_pair (run, pair, last);
  SwSnag snag = snag_blank (run, variant, severity, pair->first->owner, pair->place);
  fill_pair (&snag, pair, needed, rule);
  if (known >= 0)
    {
      SwSnag *old = &g_array_index (run->snags, SwSnag, known);
      SwBox3 box = sw_box3_add (old->box, pair->place);
      gboolean worse = severity < old->severity || (severity == old->severity && snag.missing_mm > old->missing_mm);
      g_bytes_unref (key);
      if (worse)
        *old = snag;
      old->box = box;
      return worse ? old : NULL;
    }
  g_array_append_val (run->snags, snag);
  g_array_append_val (run->links, last);
  g_hash_table_replace (run->keys, key, GINT_TO_POINTER ((int) run->snags->len));
  return &g_array_index (run->snags, SwSnag, run->snags->len - 1);
}

/* ---- what belongs together */

static gboolean
run_ends_at (const SwRun *run, SwId thing)
{
  return thing != 0 && (run->start == thing || run->end == thing);
}

/* A run and a fitting: on it, or at one of its ends. */
static gboolean
run_has_fitting (const SwCheckRun *check, const SwRun *run, SwId fitting)
{
  const SwFitting *record = sw_check_fitting_of (check, fitting);
  return run_ends_at (run, fitting) || (record != NULL && record->run == run->record.id);
}

/* The first or last place of a run. */
static SwPoint3
run_end_place (const SwRoute *route, gboolean last)
{
  return route->axis[last ? route->n - 1 : 0];
}

/* Does the thing at this end of a join the run b? It does when b ends at it too, or when it is a fitting of b. */
static gboolean
end_joins (const SwCheckRun *check, SwId thing, const SwRun *b)
{
  const SwFitting *fitting = sw_check_fitting_of (check, thing);
  return thing != 0 && (run_ends_at (b, thing) || (fitting != NULL && fitting->run == b->record.id));
}

/* Tubes that meet at an angle overlap for some diameters around the joint. */
static gboolean
runs_join (const SwCheckRun *check, const SwRoute *a, const SwRoute *b, SwPoint3 place)
{
  double near = 3 * (MAX (a->outer, a->socket) + MAX (b->outer, b->socket)) + sw_check_limit (check, SW_LIMIT_END_REACH);
  for (int last = 0; last < 2; last++)
    if (end_joins (check, last ? a->run->end : a->run->start, b->run)
        && sw_point3_distance (run_end_place (a, last), place) < near)
      return TRUE;
  return FALSE;
}

gboolean
sw_check_joined (const SwCheckRun *run, SwId a, SwId b, SwPoint3 place)
{
  const SwRoute *first = sw_space_route (run->space, a), *second = sw_space_route (run->space, b);
  if (first != NULL && second != NULL)
    return runs_join (run, first, second, place) || runs_join (run, second, first, place);
  if (first != NULL)
    return run_has_fitting (run, first->run, b);
  if (second != NULL)
    return run_has_fitting (run, second->run, a);
  const SwFitting *f = sw_check_fitting_of (run, a), *g = sw_check_fitting_of (run, b);
  return f != NULL && g != NULL && f->run != 0 && f->run == g->run; /* two fittings of one run: its own affair */
}

const SwLayout *
sw_check_layout_of (const SwCheckRun *run, SwId room)
{
  const GPtrArray *layouts = sw_check_lookup_owned (run->lookup, SW_OWNED_LAYOUTS, room);
  return layouts != NULL ? layouts->pdata[0] : NULL;
}

SwBox
sw_check_run_box (const SwRun *run)
{
  SwBox box = SW_BOX_EMPTY;
  for (guint i = 0; i < run->vertices.n; i++)
    box = sw_box_add (box, SW_LIST_AT (run->vertices, SwVertex, i).at);
  return box;
}

GPtrArray *
sw_check_near_line (const SwCheckRun *run, SwTable table, SwPoint from, SwPoint to, double around)
{
  SwBox box = sw_box_grow (sw_box_add (sw_box_add (SW_BOX_EMPTY, from), to), around);
  return sw_check_lookup_near (run->lookup, table, box);
}
