/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Conduits, pipes, ducts. Metres, wires and lagging are shared out exactly among the rooms that a run passes; couplers and
 * supports go to the room in which the middle of their stretch lies, bends to that of their place. A run turns in its boxes and junctions
 * without a bend; what is bent on site (PE-X, multilayer, pliable conduit) takes none. A plate in the way of several runs comes
 * out once. Legs times rooms that they pass. */
#include "estimate/run_facts.h"
#include "estimate/takeoff_parts.h"

/* Kinds of prices for one sort of run. */
typedef struct
{
  SwPriceKind metres, joint, bend, support;
} RunPrices;

static const RunPrices conduit_prices = { SW_PRICE_CONDUIT, SW_PRICE_COUPLER, SW_PRICE_CONDUIT_BEND, SW_PRICE_SADDLE };
static const RunPrices pipe_prices = { SW_PRICE_PIPE, SW_PRICE_SOCKET, SW_PRICE_PIPE_BEND, SW_PRICE_BRACKET };
static const RunPrices duct_prices = { SW_PRICE_DUCT, SW_PRICE_DUCT_JOINT, SW_PRICE_DUCT_BEND, SW_PRICE_BRACKET };

typedef struct
{
  const SwTakeoffWork *work;
  const SwRunFacts *facts;
  const RunPrices *prices;
  const GPtrArray *fittings; /* SwFitting on the run; NULL for none */
  char *size;
  GArray *shares;            /* of the leg at hand */
} RunCase;

static SwPoint
plan_of (SwPoint3 p)
{
  return (SwPoint){ p.x, p.y };
}

static SwId
run_id (const RunCase *c)
{
  return c->facts->run->record.id;
}

static void
add_at (const RunCase *c, SwPriceKind kind, double n, SwPoint3 place)
{
  sw_needs_add (c->work->needs, kind, c->size, n, sw_room_finder_id (c->work->rooms, plan_of (place)), run_id (c));
}

/* Does it turn there without a bend? */
static gboolean
turns_in_fitting (const RunCase *c, SwPoint3 place)
{
  static const guint32 kinds = 1u << SW_FITTING_BOX | 1u << SW_FITTING_BOARD | 1u << SW_FITTING_TEE | 1u << SW_FITTING_STACK | 1u << SW_FITTING_GULLY;
  for (guint i = 0; c->fittings != NULL && i < c->fittings->len; i++)
    {
      const SwFitting *fitting = c->fittings->pdata[i];
      if ((kinds >> fitting->kind & 1) != 0 && sw_point_distance (fitting->at, plan_of (place)) <= fmax (fitting->length, fitting->width) / 2 + 1)
        return TRUE;
    }
  return FALSE;
}

static void
take_bends (const RunCase *c)
{
  static const guint32 bent_on_site = 1u << SW_MATERIAL_PEX | 1u << SW_MATERIAL_MULTILAYER | 1u << SW_MATERIAL_PLIABLE;
  const SwRoute *route = c->facts->route;
  for (guint i = 0; i < route->n && (bent_on_site >> c->facts->run->material & 1) == 0; i++)
    if (sw_run_facts_turn (c->facts, i) > SW_RUN_STRAIGHT && !turns_in_fitting (c, route->axis[i]))
      add_at (c, c->prices->bend, 1, route->axis[i]);
}

/* Wires of the circuit, in metres of run; those at boxes and boards are spread over the run. */
static double
wires_per_metre (const RunCase *c)
{
  const SwCircuit *circuit = (const SwCircuit *) sw_job_get (sw_takeoff_job (c->work), c->facts->run->circuit);
  double total = sw_run_facts_total (c->facts);
  return circuit != NULL && total > 0 ? circuit->cores * sw_run_facts_cable (c->facts, c->work->rules) / total : 0;
}

static void
take_metres (const RunCase *c, const SwRunLeg *leg, double wires, const char *wire, const char *lagging)
{
  sw_room_finder_share (c->work->rooms, plan_of (leg->from), plan_of (leg->to), c->shares);
  for (guint i = 0; i < c->shares->len; i++)
    {
      SwRoomShare share = g_array_index (c->shares, SwRoomShare, i);
      double metres = leg->length / 1000 * share.share;
      sw_needs_add (c->work->needs, c->prices->metres, c->size, metres, share.room, run_id (c));
      if (wires > 0)
        sw_needs_add (c->work->needs, SW_PRICE_WIRE, wire, metres * wires, share.room, c->facts->run->circuit);
      if (lagging != NULL)
        sw_needs_add (c->work->needs, SW_PRICE_LAGGING, lagging, metres, share.room, run_id (c));
    }
}

static void
take_legs (const RunCase *c)
{
  const SwRun *run = c->facts->run;
  const SwCircuit *circuit = (const SwCircuit *) sw_job_get (sw_takeoff_job (c->work), run->circuit);
  double wires = sw_service_is_electric ((SwService) run->service) ? wires_per_metre (c) : 0;
  g_autofree char *wire = circuit != NULL ? sw_takeoff_number (circuit->cable_mm2) : NULL;
  g_autofree char *lagging = run->insulation > 0 ? sw_takeoff_pair (run->od, run->insulation) : NULL;
  for (guint i = 0; i < c->facts->legs->len; i++)
    {
      const SwRunLeg *leg = &g_array_index (c->facts->legs, SwRunLeg, i);
      SwPoint3 middle = sw_point3_lerp (leg->from, leg->to, 0.5);
      take_metres (c, leg, wires, wire, lagging);
      add_at (c, c->prices->joint, leg->joints, middle);
      add_at (c, c->prices->support, leg->supports, middle);
    }
  if (c->facts->has_supports)
    add_at (c, c->prices->support, 1, g_array_index (c->facts->legs, SwRunLeg, 0).from);
}

static void
take_plates (const RunCase *c, GHashTable *plates)
{
  for (guint i = 0; i < c->facts->plates->len; i++)
    {
      const SwRunPlate *met = &g_array_index (c->facts->plates, SwRunPlate, i);
      SwId room = sw_room_finder_id (c->work->rooms, plan_of (met->at));
      gboolean first = g_hash_table_add (plates, (gpointer) met->plate);
      sw_needs_add (c->work->needs, SW_PRICE_PLATE, NULL, first ? 1 : 0, room, run_id (c));
    }
}

static void
note_gaps (const RunCase *c)
{
  const SwRun *run = c->facts->run;
  if ((run->service == SW_SERVICE_POWER || run->service == SW_SERVICE_LIGHTING) && run->circuit == 0)
    sw_takeoff_note (c->work, SW_TAKEOFF_NO_CABLE, run->record.id, NULL);
  if (run->stage == SW_STAGE_FIRST_FIX && !c->facts->has_supports)
    sw_takeoff_note (c->work, SW_TAKEOFF_NO_SUPPORTS, run->record.id, NULL);
}

static const RunPrices *
prices_of (const SwRun *run)
{
  if (run->service == SW_SERVICE_DUCT)
    return &duct_prices;
  return sw_service_is_electric ((SwService) run->service) ? &conduit_prices : &pipe_prices;
}

static void
take_run (const SwTakeoffWork *work, const SwRun *run, const GPtrArray *fittings, GHashTable *plates)
{
  g_autoptr (SwRunFacts) facts = sw_run_facts_with (work->deck, work->rules, run, fittings);
  if (facts->route == NULL)
    {
      sw_takeoff_note (work, SW_TAKEOFF_NO_ROUTE, run->record.id, facts->fault);
      return;
    }
  g_autofree char *size = sw_takeoff_run_size (run);
  g_autoptr (GArray) shares = g_array_new (FALSE, FALSE, sizeof (SwRoomShare));
  RunCase c = { work, facts, prices_of (run), fittings, size, shares };
  take_legs (&c);
  take_bends (&c);
  take_plates (&c, plates);
  note_gaps (&c);
}

static void
put_fitting (GHashTable *fittings, SwId run, const SwFitting *fitting)
{
  GPtrArray *list = g_hash_table_lookup (fittings, &run);
  if (list == NULL)
    g_hash_table_insert (fittings, g_memdup2 (&run, sizeof run), list = g_ptr_array_new ());
  g_ptr_array_add (list, (gpointer) fitting);
}

/* Run → SwFitting that are on it or that it starts or ends at. */
static GHashTable *
fittings_by_run (const SwJob *job)
{
  GHashTable *fittings = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, (GDestroyNotify) g_ptr_array_unref);
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_FITTING); (record = sw_job_iter_next (&i)) != NULL;)
    if (((const SwFitting *) record)->run != 0)
      put_fitting (fittings, ((const SwFitting *) record)->run, (const SwFitting *) record);
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_RUN); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwId ends[] = { ((const SwRun *) record)->start, ((const SwRun *) record)->end };
      for (guint k = 0; k < 2; k++)
        if (ends[k] != 0 && SW_ID_TABLE (ends[k]) == SW_TABLE_FITTING)
          put_fitting (fittings, record->id, (const SwFitting *) sw_job_get (job, ends[k]));
    }
  return fittings;
}

gboolean
sw_takeoff_runs (const SwTakeoffWork *work, GError **error)
{
  SwJob *job = sw_takeoff_job (work);
  g_autoptr (GHashTable) fittings = fittings_by_run (job), plates = g_hash_table_new (NULL, NULL);
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_RUN); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwRun *run = (const SwRun *) record;
      if (sw_takeoff_is_given_up (work, error))
        return FALSE;
      if (run->stage != SW_STAGE_EXISTING)
        take_run (work, run, g_hash_table_lookup (fittings, &record->id), plates);
    }
  return TRUE;
}
