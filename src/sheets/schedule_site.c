/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Schedules for who hangs it: levels at every point, hangers, draw points, and what the pipes carry. */
#include "base/number.h"
#include "circuits/draws.h"
#include "circuits/growth.h"
#include "space/expansion.h"
#include "drainage/run_flow.h"
#include "sheets/schedule_parts.h"
#include "space/hangers.h"

/* Calls `row` for each run that can be worked out, in the order of their marks. */
typedef void (*RunRow) (SwSchedule *schedule, const SwSheetContext *context, const SwRoute *route, gpointer data);

static void
each_route (SwSchedule *schedule, const SwSheetContext *context, RunRow row, gpointer data)
{
  g_autoptr (GPtrArray) runs = sw_sheet_records (sw_sheet_job (context), SW_TABLE_RUN);
  for (guint i = 0; i < runs->len; i++)
    {
      g_autoptr (SwRoute) route = sw_route_new (context->deck, context->rules, g_ptr_array_index (runs, i), NULL);
      if (route != NULL)
        row (schedule, context, route, data);
    }
}

/* ---- hangers */

static const SwScheduleColumn hanger_columns[] = {
  SW_COLUMN_TEXT ("number", N_("No.")),
  SW_COLUMN_COUNT ("hanger", N_("Hanger")),
  SW_COLUMN_TEXT ("service", N_("Service")),
  SW_COLUMN_NUMBER ("size_mm", N_("Size"), "mm", 1),
  SW_COLUMN_M ("along_m", N_("Along the run")),
  SW_COLUMNS_GRID,
  SW_COLUMNS_ADDRESS,
  SW_COLUMN_MM ("axis_mm", N_("Axis above level line")),
  SW_COLUMN_NUMBER ("load_n", N_("Load"), "N", 0),
  SW_COLUMN_TEXT ("moved", N_("Moved off a plate")),
  SW_COLUMN_MM ("most_mm", N_("Apart at most")),
  SW_COLUMN_TEXT ("source", N_("Source")),
};

static void
hanger_rows (SwSchedule *schedule, const SwSheetContext *context, const SwRoute *route, gpointer data)
{
  g_autoptr (SwHangers) hangers = route->run->stage == SW_STAGE_FIRST_FIX ? sw_hangers_new (context->deck, context->rules, route, NULL) : NULL;
  for (guint i = 0; hangers != NULL && i < hangers->hangers->len; i++)
    {
      const SwHanger *hanger = &g_array_index (hangers->hangers, SwHanger, i);
      SwPoint at = { hanger->at.x, hanger->at.y };
      sw_schedule_begin_row (schedule, route->run->record.id);
      sw_schedule_put (schedule, route->run->record.tag);
      sw_schedule_put_count (schedule, i + 1);
      sw_schedule_put (schedule, sw_sheet_word (SW_TABLE_RUN, "service", route->run->service));
      sw_schedule_put_number (schedule, route->od);
      sw_schedule_put_number (schedule, hanger->along / 1000);
      sw_schedule_put_grid (schedule, context, at);
      sw_schedule_put_address (schedule, context, at);
      sw_schedule_put_number (schedule, sw_schedule_from_line (context, hanger->at.z));
      sw_schedule_put_number (schedule, hanger->load);
      sw_schedule_put_yes (schedule, hanger->moved);
      sw_schedule_put_number (schedule, hangers->spacing);
      sw_schedule_put (schedule, hangers->spacing_rule.source);
    }
}

static void
fill_hangers (SwSchedule *schedule, const SwSheetContext *context)
{
  each_route (schedule, context, hanger_rows, NULL);
}

/* ---- draw points */

static const SwScheduleColumn draw_columns[] = {
  SW_COLUMN_TEXT ("number", N_("No.")),
  SW_COLUMN_COUNT ("stretch", N_("Stretch")),
  SW_COLUMN_M ("from_m", N_("From, along the run")),
  SW_COLUMN_M ("to_m", N_("To")),
  SW_COLUMN_M ("length_m", N_("Length")),
  SW_COLUMN_NUMBER ("turn_deg", N_("Turned"), "°", 0),
  SW_COLUMN_M ("most_m", N_("Length at most")),
  SW_COLUMN_NUMBER ("most_deg", N_("Turned at most"), "°", 0),
  SW_COLUMN_COUNT ("boxes", N_("Boxes to add")),
  SW_COLUMN_TEXT ("boxes_at", N_("Boxes at, along the run")),
  SW_COLUMN_TEXT ("cured", N_("Then in order")),
  SW_COLUMN_M ("straight_m", N_("Longest straight")),
  SW_COLUMN_NUMBER ("growth_mm", N_("It grows"), "mm", 1),
  SW_COLUMN_TEXT ("coupling", N_("Lacks an expansion coupling")),
};

/* Places of the boxes on the run's way. O(fittings of the job). */
static GArray *
boxes_on (const SwJob *job, const SwRoute *route, double reach)
{
  GArray *places = g_array_new (FALSE, FALSE, sizeof (double));
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_FITTING); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwFitting *fitting = (const SwFitting *) record;
      double apart;
      if ((fitting->kind != SW_FITTING_BOX && fitting->kind != SW_FITTING_BOARD)
          || (fitting->run != route->run->record.id && record->id != route->run->start && record->id != route->run->end))
        continue;
      double along = sw_circuits_along (route, fitting->at, &apart);
      if (apart <= fmax (fitting->length, fitting->width) / 2 + reach)
        g_array_append_val (places, along);
    }
  g_array_sort (places, sw_compare_doubles);
  return places;
}

GArray *
sw_schedule_stretches (const SwSheetContext *context, const SwRoute *route)
{
  double reach = sw_rules_value (context->rules, "checks.runs", "end_reach_mm").value;
  g_autoptr (GArray) boxes = boxes_on (sw_sheet_job (context), route, reach);
  return sw_circuits_stretches (context->deck, context->rules, route, (const double *) boxes->data, boxes->len, reach);
}

static char *
places_text (const GArray *places)
{
  GString *text = g_string_new (NULL);
  char figure[SW_NUMBER_BUF];
  for (guint i = 0; i < places->len; i++)
    g_string_append_printf (text, "%s%s m", i > 0 ? "; " : "", sw_number_write_fixed (g_array_index (places, double, i) / 1000, 2, figure));
  return g_string_free (text, FALSE);
}

/* How much rigid conduit grows in a void, and whether that needs an expansion coupling. */
static void
put_growth (SwSchedule *schedule, const SwRules *rules, const SwRoute *route, double straight)
{
  SwRuleValue alpha, range = sw_rules_value (rules, "conduit.growth_rules", "range_k"), limit = sw_rules_value (rules, "conduit.growth_rules", "coupling_mm");
  gboolean rigid = route->run->material == SW_MATERIAL_PVC || route->run->material == SW_MATERIAL_STEEL;
  sw_schedule_put_number (schedule, straight / 1000);
  if (!rigid || !sw_rules_lookup (rules, "conduit.growth", route->run->material == SW_MATERIAL_STEEL ? "steel" : "pvc", "coefficient_mm_m_k", &alpha, NULL))
    {
      sw_schedule_put_nothing (schedule, 2);
      return;
    }
  double growth = sw_circuits_growth (alpha.value, straight / 1000, range.value);
  sw_schedule_put_number (schedule, growth);
  sw_schedule_put_yes (schedule, growth >= limit.value);
}

static void
draw_rows (SwSchedule *schedule, const SwSheetContext *context, const SwRoute *route, gpointer data)
{
  if (!sw_service_is_electric ((SwService) route->run->service))
    return;
  double reach = sw_rules_value (context->rules, "checks.runs", "end_reach_mm").value;
  double most = sw_rules_value (context->rules, "conduit.draw", "note_length_m").value, degree = 90 * sw_rules_value (context->rules, "conduit.draw", "note_bends").value;
  g_autoptr (GArray) stretches = sw_schedule_stretches (context, route);
  g_autoptr (GPtrArray) fittings = sw_sheet_records (sw_sheet_job (context), SW_TABLE_FITTING);
  for (guint i = 0; i < stretches->len; i++)
    {
      const SwDrawStretch *stretch = &g_array_index (stretches, SwDrawStretch, i);
      gboolean cured;
      g_autoptr (GArray) needed = sw_circuits_boxes_needed (context->deck, route, stretch, degree, most * 1000, reach, &cured);
      sw_schedule_begin_row (schedule, route->run->record.id);
      sw_schedule_put (schedule, route->run->record.tag);
      sw_schedule_put_count (schedule, i + 1);
      sw_schedule_put_number (schedule, stretch->from / 1000);
      sw_schedule_put_number (schedule, stretch->to / 1000);
      sw_schedule_put_number (schedule, (stretch->to - stretch->from) / 1000);
      sw_schedule_put_number (schedule, stretch->turn);
      sw_schedule_put_number (schedule, most);
      sw_schedule_put_number (schedule, degree);
      sw_schedule_put_count (schedule, needed->len);
      sw_schedule_put_take (schedule, places_text (needed));
      sw_schedule_put_yes (schedule, cured);
      put_growth (schedule, context->rules, route, sw_expansion_straight (route, fittings, stretch->from, stretch->to));
    }
}

static void
fill_draws (SwSchedule *schedule, const SwSheetContext *context)
{
  each_route (schedule, context, draw_rows, NULL);
}

/* ---- flows */

static const SwScheduleColumn flow_columns[] = {
  SW_COLUMN_TEXT ("number", N_("No.")),
  SW_COLUMN_TEXT ("name", N_("Name")),
  SW_COLUMN_TEXT ("service", N_("Service")),
  SW_COLUMN_NUMBER ("od_mm", N_("Outside diameter"), "mm", 1),
  SW_COLUMN_NUMBER ("bore_mm", N_("Bore"), "mm", 1),
  SW_COLUMN_NUMBER ("from_m", N_("From, along the run"), "m", 2),
  SW_COLUMN_NUMBER ("to_m", N_("To, along the run"), "m", 2),
  SW_COLUMN_NUMBER ("units", N_("Units carried"), "", 1),
  SW_COLUMN_NUMBER ("flow_ls", N_("Design flow"), "l/s", 2),
  SW_COLUMN_NUMBER ("fall_n", N_("Flattest fall"), "1:n", 1),
  SW_COLUMN_NUMBER ("capacity_ls", N_("Carries at the usual filling"), "l/s", 2),
  SW_COLUMN_NUMBER ("filling", N_("Depth of water over bore"), "", 2),
  SW_COLUMN_NUMBER ("velocity_ms", N_("Velocity"), "m/s", 2),
  SW_COLUMN_NUMBER ("loss_kpa", N_("Loss of pressure"), "kPa", 1),
  SW_COLUMN_NUMBER ("growth_mm", N_("Growth of the longest straight"), "mm", 1),
  SW_COLUMN_NUMBER ("insulation_mm", N_("Insulation"), "mm", 1),
  SW_COLUMN_NUMBER ("sleeve_mm", N_("Least against sweating"), "mm", 1),
  SW_COLUMN_NUMBER ("mass_kg_m", N_("Weight, full"), "kg/m", 2),
  SW_COLUMN_TEXT ("note", N_("Note")),
};

static char *
flow_note (const SwRunFlow *flow)
{
  const struct { gboolean so; const char *text; } notes[] = {
    { flow->too_small, _("carries too little at this fall") }, { flow->too_slow, _("does not clean itself") },
    { flow->too_fast, _("flows too fast") }, { flow->sweats, _("sweats") },
  };
  GString *text = g_string_new (NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (notes); i++)
    if (notes[i].so)
      g_string_append_printf (text, "%s%s", text->len > 0 ? "; " : "", notes[i].text);
  return g_string_free (text, FALSE);
}

static void
put_flow (SwSchedule *schedule, const SwSheetContext *context, const SwRoute *route, const SwRunFlow *flow)
{
  const double numbers[] = { flow->from / 1000, flow->to / 1000, flow->units > 0 ? flow->units : NAN, flow->flow, flow->fall_n, flow->capacity, flow->filling,
                             flow->velocity, flow->loss_kpa, flow->growth, route->run->insulation, flow->sleeve, sw_hangers_mass (context->rules, route) };
  sw_schedule_begin_row (schedule, route->run->record.id);
  sw_schedule_put (schedule, route->run->record.tag);
  sw_schedule_put (schedule, route->run->name);
  sw_schedule_put (schedule, sw_sheet_word (SW_TABLE_RUN, "service", route->run->service));
  sw_schedule_put_number (schedule, route->od);
  sw_schedule_put_number (schedule, route->bore);
  for (gsize i = 0; i < G_N_ELEMENTS (numbers); i++)
    sw_schedule_put_number (schedule, numbers[i]);
  sw_schedule_put_take (schedule, flow_note (flow));
}

/* A row for each part of the run that carries the same from end to end. */
static void
flow_row (SwSchedule *schedule, const SwSheetContext *context, const SwRoute *route, gpointer branches)
{
  if (sw_service_is_electric ((SwService) route->run->service))
    return;
  g_autoptr (GArray) flows = sw_drainage_run_flows (context->rules, sw_sheet_job (context), branches, route);
  for (guint i = 0; i < flows->len; i++)
    put_flow (schedule, context, route, &g_array_index (flows, SwRunFlow, i));
}

static void
fill_flows (SwSchedule *schedule, const SwSheetContext *context)
{
  g_autoptr (SwBranches) branches = sw_branches_new (sw_sheet_job (context), context->rules);
  each_route (schedule, context, flow_row, branches);
}

const SwScheduleKind sw_schedule_hangers = SW_SCHEDULE ("hangers", N_("Hangers"), N_("Every saddle and hanger with its place off the plates and its load"),
                                                        hanger_columns, fill_hangers);
const SwScheduleKind sw_schedule_draws = SW_SCHEDULE ("draw-points", N_("Draw points"), N_("Turns and lengths between draw points, and where boxes cure them"),
                                                      draw_columns, fill_draws);
const SwScheduleKind sw_schedule_flows = SW_SCHEDULE ("flows", N_("Flows"), N_("What each pipe carries and loses, how it grows, and whether it sweats"),
                                                      flow_columns, fill_flows);
