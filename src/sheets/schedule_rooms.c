/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Schedules of circuits, rooms and hold points. */
#include "sheets/schedule_parts.h"
#include "circuits/facts.h"
#include "geometry/outline.h"

static const SwScheduleColumn circuit_columns[] = {
  SW_COLUMN_TEXT ("number", N_("No.")),
  SW_COLUMN_TEXT ("name", N_("Name")),
  SW_COLUMN_TEXT ("protection", N_("Protection")),
  SW_COLUMN_COUNT ("phases", N_("Phases")),
  SW_COLUMN_NUMBER ("volts", N_("Voltage"), "V", 0),
  SW_COLUMN_NUMBER ("amps", N_("Design current"), "A", 1),
  SW_COLUMN_NUMBER ("cable_mm2", N_("Conductor"), "mm²", 1),
  SW_COLUMN_COUNT ("cables", N_("Cables in the conduit")),
  SW_COLUMN_TEXT ("runs", N_("Runs")),
  SW_COLUMN_M ("length_m", N_("Conduit in all")),
  SW_COLUMN_M ("farthest_m", N_("Farthest point from the board")),
  SW_COLUMN_NUMBER ("drop_v", N_("Volt drop there"), "V", 2),
  SW_COLUMN_NUMBER ("drop_percent", N_("Volt drop there"), "%", 2),
  SW_COLUMN_NUMBER ("limit_percent", N_("Limit"), "%", 1),
  SW_COLUMN_M ("longest_m", N_("Longest circuit by that")),
  SW_COLUMN_COUNT ("loose", N_("Runs that no way leads to from a board")),
  SW_COLUMN_COUNT ("sharing", N_("Circuits together, at most")),
  SW_COLUMN_COUNT ("spared", N_("Left out of these: lightly loaded")),
  SW_COLUMN_COUNT ("beside", N_("Of them in conduits beside its own")),
  SW_COLUMN_TEXT ("beside_run", N_("Nearest of these")),
  SW_COLUMN_M ("beside_m", N_("Side by side over")),
  SW_COLUMN_NUMBER ("group_factor", N_("Factor for grouping"), "", 2),
  SW_COLUMN_NUMBER ("carries_a", N_("Cable has to carry"), "A", 1),
  SW_COLUMN_NUMBER ("rating_a", N_("Rating in a closed void"), "A", 1),
  SW_COLUMN_TEXT ("no_row", N_("Not in the tables")),
  SW_COLUMN_COUNT ("lights", N_("Downlights")),
  SW_COLUMN_NUMBER ("watts", N_("Power"), "W", 0),
  SW_COLUMN_NUMBER ("lights_a", N_("Current of the lights"), "A", 2),
  SW_COLUMN_COUNT ("points", N_("Wall points")),
};

static const SwScheduleColumn room_columns[] = {
  SW_COLUMN_TEXT ("number", N_("No.")),
  SW_COLUMN_TEXT ("name", N_("Name")),
  SW_COLUMN_TEXT ("use", N_("Use")),
  SW_COLUMN_TEXT ("finish", N_("Finish")),
  SW_COLUMN_NUMBER ("area_m2", N_("Area"), "m²", 2),
  SW_COLUMN_M ("perimeter_m", N_("Perimeter")),
  SW_COLUMN_MM ("soffit_mm", N_("Lowest soffit above level line")),
  SW_COLUMN_MM ("ceiling_mm", N_("Ceiling above level line")),
  SW_COLUMN_MM ("height_mm", N_("Height of the room")),
  SW_COLUMN_TEXT ("battens", N_("Battens run")),
  SW_COLUMN_TEXT ("board", N_("Board")),
  SW_COLUMN_NUMBER ("board_mm", N_("Board thickness"), "mm", 1),
  SW_COLUMN_TEXT ("edge", N_("Edge")),
};

static const SwScheduleColumn bulkhead_columns[] = {
  SW_COLUMN_TEXT ("mark", N_("Mark")),
  SW_COLUMN_TEXT ("room", N_("Room")),
  SW_COLUMN_TEXT ("name", N_("Name of the room")),
  SW_COLUMN_MM ("drop_mm", N_("Below the room's ceiling")),
  SW_COLUMN_MM ("ceiling_mm", N_("Ceiling above level line")),
  SW_COLUMN_MM ("height_mm", N_("Clear height below")),
  SW_COLUMN_NUMBER ("area_m2", N_("Area"), "m²", 2),
  SW_COLUMN_TEXT ("frame", N_("Frame")),
  SW_COLUMN_TEXT ("build_up", N_("Build-up")),
  SW_COLUMN_TEXT ("note", N_("Note")),
};

static const SwScheduleColumn hold_columns[] = {
  SW_COLUMN_TEXT ("room", N_("Room")),
  SW_COLUMN_TEXT ("name", N_("Name of the room")),
  SW_COLUMN_TEXT ("hold_point", N_("Hold point")),
  SW_COLUMN_TEXT ("result", N_("Result")),
  SW_COLUMN_TEXT ("by", N_("Name")),
  SW_COLUMN_DATE ("on", N_("Date")),
  SW_COLUMN_TEXT ("note", N_("Note")),
};

/* The runs of one circuit. */
typedef struct
{
  GPtrArray *runs; /* SwRun */
  GString *marks;
  gboolean lighting;
  guint lights, points;
  double watts;
} Circuit;

static void
circuit_clear (Circuit *circuit)
{
  g_ptr_array_unref (circuit->runs);
  g_string_free (circuit->marks, TRUE);
}

static void
circuit_count (Circuit *circuit, const SwJob *job, SwId id)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_LIGHT); (record = sw_job_iter_next (&i)) != NULL;)
    if (((const SwLight *) record)->circuit == id)
      {
        circuit->lights++;
        circuit->watts += ((const SwLight *) record)->watts;
      }
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_DROP); (record = sw_job_iter_next (&i)) != NULL;)
    circuit->points += ((const SwDrop *) record)->circuit == id;
}

static Circuit
circuit_gather (const SwSheetContext *context, const GPtrArray *runs, SwId id)
{
  Circuit circuit = { g_ptr_array_new (), g_string_new (NULL) };
  for (guint i = 0; i < runs->len; i++)
    {
      const SwRun *run = g_ptr_array_index (runs, i);
      if (run->circuit != id)
        continue;
      g_ptr_array_add (circuit.runs, (gpointer) run);
      g_string_append_printf (circuit.marks, "%s%s", circuit.marks->len > 0 ? "; " : "", run->record.tag);
      circuit.lighting |= run->service == SW_SERVICE_LIGHTING;
    }
  circuit_count (&circuit, sw_sheet_job (context), id);
  circuit.lighting |= circuit.lights > 0;
  return circuit;
}

static void
put_facts (SwSchedule *schedule, const SwJob *job, const SwCircuitFacts *facts)
{
  const SwRecord *beside = facts->bunching.beside != 0 ? sw_job_get (job, facts->bunching.beside) : NULL;
  sw_schedule_put_number (schedule, facts->farthest_mm / 1000);
  sw_schedule_put_number (schedule, facts->drop_v);
  sw_schedule_put_number (schedule, facts->drop_percent);
  sw_schedule_put_number (schedule, facts->limit_percent);
  sw_schedule_put_number (schedule, isfinite (facts->longest_m) ? facts->longest_m : NAN);
  sw_schedule_put_count (schedule, facts->loose);
  sw_schedule_put_count (schedule, facts->sharing);
  sw_schedule_put_count (schedule, facts->spared);
  sw_schedule_put_count (schedule, facts->bunching.circuits - facts->bunching.own);
  sw_schedule_put (schedule, beside != NULL ? beside->tag : NULL);
  sw_schedule_put_number (schedule, beside != NULL ? (facts->bunching.to - facts->bunching.from) / 1000 : NAN);
  sw_schedule_put_number (schedule, facts->group.rule_id != NULL ? facts->group.value / (strcmp (facts->group.unit, "%") == 0 ? 100 : 1) : facts->no_row == NULL ? 1 : NAN);
  sw_schedule_put_number (schedule, facts->carries_a);
  sw_schedule_put_number (schedule, facts->rating_a);
  sw_schedule_put (schedule, facts->no_row);
}

/* Conduits that may lie beside each other; the array frees the routes. */
static GPtrArray *
warm_conduits (const SwSheetContext *context, const GPtrArray *runs)
{
  GPtrArray *routes = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_route_free);
  for (guint i = 0; i < runs->len; i++)
    {
      SwRoute *route = sw_circuits_warms (g_ptr_array_index (runs, i)) ? sw_route_new (context->deck, context->rules, g_ptr_array_index (runs, i), NULL) : NULL;
      if (route != NULL)
        g_ptr_array_add (routes, route);
    }
  return routes;
}

static void
fill_circuits (SwSchedule *schedule, const SwSheetContext *context)
{
  SwJob *job = sw_sheet_job (context);
  g_autoptr (GPtrArray) circuits = sw_sheet_records (job, SW_TABLE_CIRCUIT), runs = sw_sheet_records (job, SW_TABLE_RUN), conduits = warm_conduits (context, runs);
  for (guint i = 0; i < circuits->len; i++)
    {
      const SwCircuit *record = g_ptr_array_index (circuits, i);
      Circuit circuit = circuit_gather (context, runs, record->record.id);
      SwCircuitFacts facts = sw_circuits_facts (context->deck, context->rules, record, circuit.runs, conduits, circuit.lighting);
      sw_schedule_begin_row (schedule, record->record.id);
      sw_schedule_put (schedule, record->record.tag);
      sw_schedule_put (schedule, record->name);
      sw_schedule_put (schedule, record->protection);
      sw_schedule_put_number (schedule, record->phases);
      sw_schedule_put_number (schedule, record->volts);
      sw_schedule_put_number (schedule, record->amps);
      sw_schedule_put_number (schedule, record->cable_mm2);
      sw_schedule_put_number (schedule, record->cores);
      sw_schedule_put (schedule, circuit.marks->str);
      sw_schedule_put_number (schedule, facts.length_mm / 1000);
      put_facts (schedule, job, &facts);
      sw_schedule_put_count (schedule, circuit.lights);
      sw_schedule_put_number (schedule, circuit.watts);
      sw_schedule_put_number (schedule, circuit.watts > 0 && record->volts > 0 ? circuit.watts / (record->volts * (record->phases == 3 ? sqrt (3) : 1)) : NAN);
      sw_schedule_put_count (schedule, circuit.points);
      circuit_clear (&circuit);
    }
}

static void
fill_rooms (SwSchedule *schedule, const SwSheetContext *context)
{
  g_autoptr (GPtrArray) rooms = sw_sheet_records (sw_sheet_job (context), SW_TABLE_ROOM);
  for (guint i = 0; i < rooms->len; i++)
    {
      const SwRoom *room = g_ptr_array_index (rooms, i);
      double face = sw_deck_ceiling_face (context->deck, room);
      gboolean closed = room->finish == SW_FINISH_CLOSED;
      sw_schedule_begin_row (schedule, room->record.id);
      sw_schedule_put (schedule, room->record.tag);
      sw_schedule_put (schedule, room->name);
      sw_schedule_put (schedule, sw_sheet_word (SW_TABLE_ROOM, "use", room->use));
      sw_schedule_put (schedule, sw_sheet_word (SW_TABLE_ROOM, "finish", room->finish));
      sw_schedule_put_number (schedule, fabs (sw_outline_area (room->outline.items, room->outline.n)) / 1e6);
      sw_schedule_put_number (schedule, sw_outline_perimeter (room->outline.items, room->outline.n) / 1000);
      sw_schedule_put_number (schedule, sw_schedule_from_line (context, sw_deck_lowest_soffit (context->deck, room)));
      sw_schedule_put_number (schedule, sw_schedule_from_line (context, face));
      sw_schedule_put_number (schedule, sw_deck_z_to_floor (context->deck, face) - room->floor_offset);
      sw_schedule_put (schedule, closed ? sw_sheet_word (SW_TABLE_ROOM, "battens", room->direction) : NULL);
      sw_schedule_put (schedule, closed ? sw_sheet_word (SW_TABLE_ROOM, "board", room->board_kind) : NULL);
      sw_schedule_put_number (schedule, closed ? room->board_thickness : NAN);
      sw_schedule_put (schedule, closed ? sw_sheet_word (SW_TABLE_ROOM, "edge", room->edge) : NULL);
    }
}

static void
fill_bulkheads (SwSchedule *schedule, const SwSheetContext *context)
{
  SwJob *job = sw_sheet_job (context);
  g_autoptr (GPtrArray) bulkheads = sw_sheet_records (job, SW_TABLE_BULKHEAD);
  for (guint i = 0; i < bulkheads->len; i++)
    {
      const SwBulkhead *bulkhead = g_ptr_array_index (bulkheads, i);
      const SwRoom *room = (const SwRoom *) sw_job_get (job, bulkhead->room);
      gboolean closed = room != NULL && room->finish == SW_FINISH_CLOSED;
      double face = closed ? sw_deck_ceiling_face (context->deck, room) - bulkhead->drop : NAN;
      sw_schedule_begin_row (schedule, bulkhead->record.id);
      sw_schedule_put (schedule, bulkhead->record.tag);
      sw_schedule_put (schedule, room != NULL ? room->record.tag : NULL);
      sw_schedule_put (schedule, room != NULL ? room->name : NULL);
      sw_schedule_put_number (schedule, bulkhead->drop);
      sw_schedule_put_number (schedule, closed ? sw_schedule_from_line (context, face) : NAN);
      sw_schedule_put_number (schedule, closed ? sw_deck_z_to_floor (context->deck, face) - room->floor_offset : NAN);
      sw_schedule_put_number (schedule, fabs (sw_outline_area (bulkhead->outline.items, bulkhead->outline.n)) / 1e6);
      sw_schedule_put (schedule, sw_sheet_word (SW_TABLE_BULKHEAD, "frame", bulkhead->frame));
      sw_schedule_put (schedule, bulkhead->build_up);
      sw_schedule_put (schedule, bulkhead->note);
    }
}

static void
fill_hold_points (SwSchedule *schedule, const SwSheetContext *context)
{
  SwJob *job = sw_sheet_job (context);
  g_autoptr (GPtrArray) rooms = sw_sheet_records (job, SW_TABLE_ROOM);
  for (guint i = 0; i < rooms->len; i++)
    for (int kind = SW_HOLD_SURVEY; kind <= SW_HOLD_SECOND_FIX; kind++)
      {
        const SwRoom *room = g_ptr_array_index (rooms, i);
        const SwHoldPoint *hold = sw_sheet_hold_point (job, room->record.id, kind);
        sw_schedule_begin_row (schedule, hold != NULL ? hold->record.id : room->record.id);
        sw_schedule_put (schedule, room->record.tag);
        sw_schedule_put (schedule, room->name);
        sw_schedule_put (schedule, sw_sheet_word (SW_TABLE_HOLD_POINT, "kind", kind));
        sw_schedule_put (schedule, sw_sheet_word (SW_TABLE_HOLD_POINT, "result", hold != NULL ? hold->result : SW_RESULT_OPEN));
        sw_schedule_put (schedule, hold != NULL ? hold->by : NULL);
        sw_schedule_put (schedule, hold != NULL ? hold->on : NULL);
        sw_schedule_put (schedule, hold != NULL ? hold->note : NULL);
      }
}

const SwScheduleKind sw_schedule_circuits = SW_SCHEDULE ("circuits", N_("Circuits"), N_("Every circuit with its runs, farthest point and volt drop"),
                                                         circuit_columns, fill_circuits);
const SwScheduleKind sw_schedule_rooms = SW_SCHEDULE ("rooms", N_("Rooms"), N_("Every room with its area, ceiling and levels"), room_columns, fill_rooms);
const SwScheduleKind sw_schedule_hold_points = SW_SCHEDULE ("hold-points", N_("Hold points"), N_("What must be seen and signed in each room, in order"),
                                                            hold_columns, fill_hold_points);
const SwScheduleKind sw_schedule_bulkheads = SW_SCHEDULE ("bulkheads", N_("Bulkheads"), N_("Every bulkhead with its room, drop and levels"), bulkhead_columns, fill_bulkheads);
