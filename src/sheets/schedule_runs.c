/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Schedules of conduits and pipes: one row a run. */
#include "sheets/schedule_parts.h"
#include "circuits/contents.h"
#include "drainage/run_flow.h"
#include "estimate/junctions.h"
#include "estimate/run_facts.h"
#include "space/expansion.h"

static const SwScheduleColumn conduit_columns[] = {
  SW_COLUMN_TEXT ("number", N_("No.")),
  SW_COLUMN_TEXT ("name", N_("Name")),
  SW_COLUMN_TEXT ("service", N_("Service")),
  SW_COLUMN_TEXT ("material", N_("Material")),
  SW_COLUMN_NUMBER ("size_mm", N_("Size"), "mm", 1),
  SW_COLUMN_TEXT ("from", N_("From")),
  SW_COLUMN_TEXT ("to", N_("To")),
  SW_COLUMN_TEXT ("circuit", N_("Circuit")),
  SW_COLUMN_TEXT ("contents", N_("Contents")),
  SW_COLUMN_COUNT ("cables", N_("Cables in it")),
  SW_COLUMN_NUMBER ("fill_percent", N_("Filled"), "%", 1),
  SW_COLUMN_NUMBER ("fill_limit_percent", N_("Filled at most"), "%", 0),
  SW_COLUMN_NUMBER ("least_mm", N_("Smallest conduit"), "mm", 0),
  SW_COLUMN_COUNT ("sharing", N_("Circuits in it")),
  SW_COLUMN_MM ("data_apart_mm", N_("Keeps off data cables")),
  SW_COLUMN_M ("way_m", N_("Way")),
  SW_COLUMN_M ("drops_m", N_("Drops")),
  SW_COLUMN_M ("length_m", N_("Length")),
  SW_COLUMN_M ("cable_m", N_("Cable")),
  SW_COLUMN_COUNT ("bends", N_("Bends")),
  SW_COLUMN_NUMBER ("turns_deg", N_("Turned in all"), "°", 0),
  SW_COLUMN_NUMBER ("draw_deg", N_("Turned between draw points, at most"), "°", 0),
  SW_COLUMN_M ("draw_m", N_("Between draw points, at most")),
  SW_COLUMN_COUNT ("boxes", N_("Boxes on the way")),
  SW_COLUMN_COUNT ("end_boxes", N_("Boxes at its ends")),
  SW_COLUMN_COUNT ("plates", N_("Plates met")),
  SW_COLUMN_TEXT ("plates_at", N_("Plates at")),
  SW_COLUMN_COUNT ("supports", N_("Saddles")),
  SW_COLUMN_MM ("support_every_mm", N_("Saddle every")),
  SW_COLUMN_COUNT ("lengths", N_("Stock lengths")),
  SW_COLUMN_M ("stock_m", N_("of")),
  SW_COLUMN_COUNT ("couplers", N_("Couplers on straights")),
  SW_COLUMN_COUNT ("expansion", N_("Expansion couplings")),
  SW_COLUMN_TEXT ("bonding", N_("Bonding")),
  SW_COLUMN_TEXT ("stage", N_("Stage")),
  SW_COLUMN_TEXT ("note", N_("Note")),
};

static const SwScheduleColumn pipe_columns[] = {
  SW_COLUMN_TEXT ("number", N_("No.")),
  SW_COLUMN_TEXT ("name", N_("Name")),
  SW_COLUMN_TEXT ("service", N_("Service")),
  SW_COLUMN_TEXT ("material", N_("Material")),
  SW_COLUMN_NUMBER ("od_mm", N_("Outside diameter"), "mm", 1),
  SW_COLUMN_NUMBER ("socket_mm", N_("Socket"), "mm", 1),
  SW_COLUMN_NUMBER ("insulation_mm", N_("Insulation"), "mm", 1),
  SW_COLUMN_TEXT ("from", N_("From")),
  SW_COLUMN_TEXT ("to", N_("To")),
  SW_COLUMN_NUMBER ("units", N_("Units carried"), "", 1),
  SW_COLUMN_M ("length_m", N_("Length")),
  SW_COLUMN_NUMBER ("fall_n", N_("Fall"), "1:n", 1),
  SW_COLUMN_MM ("invert_start_mm", N_("Invert at start above level line")),
  SW_COLUMN_MM ("invert_end_mm", N_("Invert at end above level line")),
  SW_COLUMN_NUMBER ("invert_start_datum_m", N_("Invert at start above site datum"), "m", 3),
  SW_COLUMN_NUMBER ("invert_end_datum_m", N_("Invert at end above site datum"), "m", 3),
  SW_COLUMN_MM ("over_mm", N_("Left below the crown, least")),
  SW_COLUMN_MM ("under_mm", N_("Left above the soffit, least")),
  SW_COLUMN_COUNT ("bends", N_("Bends")),
  SW_COLUMN_COUNT ("joints", N_("Joints on straights")),
  SW_COLUMN_COUNT ("expansion", N_("Expansion couplings")),
  SW_COLUMN_COUNT ("tees", N_("Tees")),
  SW_COLUMN_COUNT ("eyes", N_("Cleaning eyes")),
  SW_COLUMN_COUNT ("valves", N_("Valves")),
  SW_COLUMN_COUNT ("other_fittings", N_("Other fittings")),
  SW_COLUMN_COUNT ("brackets", N_("Brackets")),
  SW_COLUMN_MM ("bracket_every_mm", N_("Bracket every")),
  SW_COLUMN_COUNT ("plates", N_("Plates met")),
  SW_COLUMN_TEXT ("plates_at", N_("Plates at")),
  SW_COLUMN_COUNT ("lengths", N_("Stock lengths")),
  SW_COLUMN_M ("stock_m", N_("of")),
  SW_COLUMN_TEXT ("bonding", N_("Bonding")),
  SW_COLUMN_TEXT ("stage", N_("Stage")),
  SW_COLUMN_TEXT ("note", N_("Note")),
};

static char *
plates_text (const SwRunFacts *facts)
{
  GString *text = g_string_new (NULL);
  for (guint i = 0; i < facts->plates->len; i++)
    {
      const SwRunPlate *met = &g_array_index (facts->plates, SwRunPlate, i);
      int over = g_array_index (met->bay->voids, SwVoid, met->plate->void_index).number;
      g_string_append (text, i > 0 ? "; " : "");
      g_string_append_printf (text, _("%s void %d plate %d"), met->bay->bay->record.tag, over, met->plate->number);
    }
  return g_string_free (text, FALSE);
}

static void
put_plates (SwSchedule *schedule, const SwRunFacts *facts)
{
  sw_schedule_put_count (schedule, facts->plates->len);
  sw_schedule_put_take (schedule, plates_text (facts));
}

static void
put_supports (SwSchedule *schedule, const SwRunFacts *facts)
{
  sw_schedule_put_number (schedule, facts->has_supports ? facts->supports : NAN);
  sw_schedule_put_number (schedule, facts->has_supports ? facts->support_spacing : NAN);
}

static void
put_lengths (SwSchedule *schedule, const SwRunFacts *facts)
{
  sw_schedule_put_number (schedule, facts->stock > 0 ? facts->pieces : NAN);
  sw_schedule_put_number (schedule, facts->stock > 0 ? facts->stock / 1000 : NAN);
}

static void
put_stage (SwSchedule *schedule, const SwRunFacts *facts)
{
  sw_schedule_put (schedule, sw_sheet_word (SW_TABLE_RUN, "stage", facts->run->stage));
  sw_schedule_put (schedule, facts->fault);
}

static void
put_ends (SwSchedule *schedule, const SwJob *job, const SwRun *run)
{
  sw_schedule_put_take (schedule, sw_sheet_end_name (job, run->start));
  sw_schedule_put_take (schedule, sw_sheet_end_name (job, run->end));
}

/* Fittings of the run; borrowed records. O(fittings of the job). */
static GPtrArray *
fittings_of (const SwJob *job, SwId run)
{
  GPtrArray *fittings = g_ptr_array_new ();
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_FITTING); (record = sw_job_iter_next (&i)) != NULL;)
    if (((const SwFitting *) record)->run == run)
      g_ptr_array_add (fittings, (gpointer) record);
  return fittings;
}

static void
put_expansion (SwSchedule *schedule, const SwSheetContext *context, const SwRoute *route)
{
  g_autoptr (GPtrArray) fittings = fittings_of (sw_sheet_job (context), route->run->record.id);
  SwExpansion expansion = sw_expansion_of (context->rules, route, fittings);
  guint there = 0;
  for (guint i = 0; i < fittings->len; i++)
    there += ((const SwFitting *) fittings->pdata[i])->kind == SW_FITTING_SOCKET;
  sw_schedule_put_number (schedule, expansion.asked ? expansion.couplings + there : NAN);
}

/* Distance of data cables of the usual class from a power conduit with its circuits; NAN for other conduits. */
static double
data_apart (const SwRules *rules, const SwRun *run, guint sharing)
{
  SwRuleValue distance, factor;
  if ((run->service != SW_SERVICE_POWER && run->service != SW_SERVICE_LIGHTING)
      || !sw_rules_lookup (rules, "segregation.distance", "b", run->material == SW_MATERIAL_STEEL ? "solid_mm" : "none_mm", &distance, NULL)
      || !sw_rules_lookup_at (rules, "segregation.circuits", sharing, SW_RULE_NEXT_LARGER, "factor", &factor, NULL))
    return NAN;
  return distance.value * factor.value;
}

static void
put_fill (SwSchedule *schedule, const SwSheetContext *context, const SwRoute *route)
{
  const SwRun *run = route->run;
  const SwRecord *circuit = sw_job_get (sw_sheet_job (context), run->circuit);
  g_autoptr (GArray) stretches = sw_schedule_stretches (context, route);
  SwConduitFill fill = sw_circuits_conduit_fill (context->rules, route, stretches);
  guint sharing = circuit != NULL ? sw_circuits_sharing (run, (const SwCircuit *) circuit) : 0;
  sw_schedule_put_number (schedule, fill.cables > 0 ? fill.cables : NAN);
  sw_schedule_put_number (schedule, fill.percent);
  sw_schedule_put_number (schedule, fill.limit_percent);
  sw_schedule_put_number (schedule, fill.smallest);
  sw_schedule_put_number (schedule, sharing > 0 ? sharing : NAN);
  sw_schedule_put_number (schedule, data_apart (context->rules, run, MAX (sharing, 1)));
}

static guint
end_boxes (const SwJob *job, const SwRun *run)
{
  const SwId ends[] = { run->start, run->end };
  guint n = 0;
  for (guint i = 0; i < G_N_ELEMENTS (ends); i++)
    {
      const SwRecord *end = ends[i] != 0 ? sw_job_get (job, ends[i]) : NULL;
      n += end != NULL && (sw_record_table (end) == SW_TABLE_DROP || (sw_record_table (end) == SW_TABLE_FITTING && ((const SwFitting *) end)->kind == SW_FITTING_BOX));
    }
  return n;
}

static void
put_conduit (SwSchedule *schedule, const SwSheetContext *context, const SwRunFacts *facts)
{
  put_fill (schedule, context, facts->route);
  sw_schedule_put_number (schedule, facts->length / 1000);
  sw_schedule_put_number (schedule, (fabs (facts->drop_start) + fabs (facts->drop_end)) / 1000);
  sw_schedule_put_number (schedule, sw_run_facts_total (facts) / 1000);
  sw_schedule_put_number (schedule, sw_run_facts_cable (facts, context->rules) / 1000);
  sw_schedule_put_count (schedule, facts->bends);
  sw_schedule_put_number (schedule, facts->turns);
  sw_schedule_put_number (schedule, facts->worst_turns);
  sw_schedule_put_number (schedule, facts->worst_length / 1000);
  sw_schedule_put_count (schedule, facts->boxes);
  sw_schedule_put_count (schedule, end_boxes (sw_sheet_job (context), facts->run));
  put_plates (schedule, facts);
  put_supports (schedule, facts);
  put_lengths (schedule, facts);
  sw_schedule_put_number (schedule, facts->stock > 0 ? facts->joints : NAN);
  put_expansion (schedule, context, facts->route);
}

/* With why how full it is cannot be said. */
static void
put_conduit_stage (SwSchedule *schedule, const SwSheetContext *context, const SwRunFacts *facts)
{
  g_autoptr (GArray) stretches = facts->route != NULL ? sw_schedule_stretches (context, facts->route) : NULL;
  SwConduitFill fill = facts->route != NULL ? sw_circuits_conduit_fill (context->rules, facts->route, stretches) : (SwConduitFill){ 0 };
  sw_schedule_put (schedule, sw_sheet_word (SW_TABLE_RUN, "stage", facts->run->stage));
  if (facts->fault != NULL || (fill.no_row == NULL && fill.no_size == 0))
    sw_schedule_put (schedule, facts->fault);
  else if (fill.no_row != NULL)
    sw_schedule_put_take (schedule, g_strdup_printf (_("how full it is cannot be said: %s has no row for it"), fill.no_row));
  else
    sw_schedule_put_take (schedule, g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "how full it is cannot be said: the size of %u cable is not given", "how full it is cannot be said: the sizes of %u cables are not given",
                                                               fill.no_size), fill.no_size));
}

static void
fill_conduits (SwSchedule *schedule, const SwSheetContext *context)
{
  SwJob *job = sw_sheet_job (context);
  g_autoptr (GPtrArray) runs = sw_sheet_records (job, SW_TABLE_RUN);
  for (guint i = 0; i < runs->len; i++)
    {
      const SwRun *run = g_ptr_array_index (runs, i);
      if (!sw_service_is_electric ((SwService) run->service))
        continue;
      g_autoptr (SwRunFacts) facts = sw_run_facts_new (context->deck, context->rules, run);
      const SwRecord *circuit = sw_job_get (job, run->circuit);
      sw_schedule_begin_row (schedule, run->record.id);
      sw_schedule_put (schedule, run->record.tag);
      sw_schedule_put (schedule, run->name);
      sw_schedule_put (schedule, sw_sheet_word (SW_TABLE_RUN, "service", run->service));
      sw_schedule_put (schedule, sw_sheet_word (SW_TABLE_RUN, "material", run->material));
      sw_schedule_put_number (schedule, run->od);
      put_ends (schedule, job, run);
      sw_schedule_put (schedule, circuit != NULL ? circuit->tag : NULL);
      sw_schedule_put (schedule, run->contents);
      if (facts->route != NULL)
        put_conduit (schedule, context, facts);
      else
        sw_schedule_put_nothing (schedule, 24);
      sw_schedule_put (schedule, sw_schedule_bonding_words (job, run));
      put_conduit_stage (schedule, context, facts);
    }
}

/* Least room above and below the sockets where the run lies in voids; NAN where it lies in none. */
static void
room_left (const SwDeck *deck, const SwRoute *route, double *over, double *under)
{
  double outside = fmax (route->socket + route->run->insulation, route->outer);
  *over = *under = NAN;
  for (guint i = 0; i < route->n; i++)
    {
      SwPoint at = { route->axis[i].x, route->axis[i].y };
      const SwDeckBay *bay = sw_deck_bay_at (deck, at);
      double soffit = bay != NULL ? sw_deck_soffit (bay, at) : 0, crown = bay != NULL ? sw_deck_crown (bay, at) : 0;
      if (bay == NULL || route->axis[i].z <= soffit || route->axis[i].z >= crown)
        continue;
      *over = fmin (isnan (*over) ? INFINITY : *over, crown - route->axis[i].z - outside);
      *under = fmin (isnan (*under) ? INFINITY : *under, route->axis[i].z - outside - soffit);
    }
}

static void
put_levels (SwSchedule *schedule, const SwSheetContext *context, const SwRoute *route)
{
  const SwJobInfo *info = sw_job_info (sw_sheet_job (context));
  double start = sw_deck_z_to_floor (context->deck, sw_route_invert (route, 0));
  double end = sw_deck_z_to_floor (context->deck, sw_route_invert (route, route->n - 1)), over, under;
  room_left (context->deck, route, &over, &under);
  sw_schedule_put_number (schedule, start - info->level_line);
  sw_schedule_put_number (schedule, end - info->level_line);
  sw_schedule_put_number (schedule, (start + info->floor_level) / 1000);
  sw_schedule_put_number (schedule, (end + info->floor_level) / 1000);
  sw_schedule_put_number (schedule, over);
  sw_schedule_put_number (schedule, under);
}

/* Those drawn on the run: tees (and those that its fixtures need besides), eyes, valves, others; sockets are its expansion couplings. */
static void
put_fittings (SwSchedule *schedule, const SwJob *job, const GArray *junctions, SwId run)
{
  g_autoptr (GPtrArray) fittings = fittings_of (job, run);
  guint tees = sw_junctions_on (junctions, run), eyes = 0, valves = 0, others = 0;
  for (guint i = 0; i < fittings->len; i++)
    {
      int kind = ((const SwFitting *) fittings->pdata[i])->kind;
      tees += kind == SW_FITTING_TEE;
      eyes += kind == SW_FITTING_EYE;
      valves += kind == SW_FITTING_VALVE;
      others += kind == SW_FITTING_STACK || kind == SW_FITTING_GULLY || kind == SW_FITTING_EXIT || kind == SW_FITTING_OTHER;
    }
  sw_schedule_put_count (schedule, tees);
  sw_schedule_put_count (schedule, eyes);
  sw_schedule_put_count (schedule, valves);
  sw_schedule_put_count (schedule, others);
}

static void
put_pipe (SwSchedule *schedule, const SwSheetContext *context, const SwRunFacts *facts, const GArray *junctions)
{
  sw_schedule_put_number (schedule, sw_run_facts_total (facts) / 1000);
  sw_schedule_put_number (schedule, facts->run->fall > 0 ? facts->run->fall : NAN);
  put_levels (schedule, context, facts->route);
  sw_schedule_put_count (schedule, facts->bends);
  sw_schedule_put_number (schedule, facts->stock > 0 ? facts->joints : NAN);
  put_expansion (schedule, context, facts->route);
  put_fittings (schedule, sw_sheet_job (context), junctions, facts->run->record.id);
  put_supports (schedule, facts);
  put_plates (schedule, facts);
  put_lengths (schedule, facts);
}

static void
fill_pipes (SwSchedule *schedule, const SwSheetContext *context)
{
  SwJob *job = sw_sheet_job (context);
  g_autoptr (GPtrArray) runs = sw_sheet_records (job, SW_TABLE_RUN);
  g_autoptr (SwBranches) branches = sw_branches_new (job, context->rules);
  g_autoptr (GArray) junctions = sw_junctions_of (job, context->rules);
  for (guint i = 0; i < runs->len; i++)
    {
      const SwRun *run = g_ptr_array_index (runs, i);
      if (sw_service_is_electric ((SwService) run->service))
        continue;
      g_autoptr (SwRunFacts) facts = sw_run_facts_new (context->deck, context->rules, run);
      sw_schedule_begin_row (schedule, run->record.id);
      sw_schedule_put (schedule, run->record.tag);
      sw_schedule_put (schedule, run->name);
      sw_schedule_put (schedule, sw_sheet_word (SW_TABLE_RUN, "service", run->service));
      sw_schedule_put (schedule, sw_sheet_word (SW_TABLE_RUN, "material", run->material));
      sw_schedule_put_number (schedule, run->od);
      sw_schedule_put_number (schedule, facts->route != NULL ? 2 * facts->route->socket : NAN);
      sw_schedule_put_number (schedule, run->insulation);
      put_ends (schedule, job, run);
      double units = sw_branches_carried (branches, run).units;
      sw_schedule_put_number (schedule, units > 0 ? units : NAN);
      if (facts->route != NULL)
        put_pipe (schedule, context, facts, junctions);
      else
        sw_schedule_put_nothing (schedule, 21);
      sw_schedule_put (schedule, sw_schedule_bonding_words (job, run));
      put_stage (schedule, facts);
    }
}

const SwScheduleKind sw_schedule_conduits = SW_SCHEDULE ("conduits", N_("Conduits"), N_("Every conduit with its length, bends, plates and supports"),
                                                         conduit_columns, fill_conduits);
const SwScheduleKind sw_schedule_pipes = SW_SCHEDULE ("pipes", N_("Pipes with levels"), N_("Every pipe with its fall, levels, room left and brackets"),
                                                      pipe_columns, fill_pipes);
