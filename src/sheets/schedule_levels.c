/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The level of each vertex of each run: what is set out from the level line. */
#include "estimate/run_facts.h"
#include "sheets/schedule_parts.h"
#include "sheets/section.h"

static const SwScheduleColumn columns[] = {
  SW_COLUMN_TEXT ("number", N_("No.")),
  SW_COLUMN_TEXT ("service", N_("Service")),
  SW_COLUMN_TEXT ("trade", N_("Trade")),
  SW_COLUMN_NUMBER ("size_mm", N_("Size"), "mm", 1),
  SW_COLUMN_COUNT ("vertex", N_("Vertex")),
  SW_COLUMN_M ("chainage_m", N_("Way from the start")),
  SW_COLUMNS_GRID,
  SW_COLUMNS_ADDRESS,
  SW_COLUMN_MM ("axis_mm", N_("Axis above level line")),
  SW_COLUMN_MM ("invert_mm", N_("Invert above level line")),
  SW_COLUMN_NUMBER ("invert_datum_m", N_("Invert above site datum"), "m", 3),
  SW_COLUMN_MM ("underside_mm", N_("Underside with insulation above level line")),
  SW_COLUMN_MM ("cover_mm", N_("Left below the concrete")),
  SW_COLUMN_MM ("clear_mm", N_("Left above the soffit")),
  SW_COLUMN_NUMBER ("fall_n", N_("Fall to the next"), "1:n", 1),
  SW_COLUMN_NUMBER ("turn_deg", N_("Turn"), "°", 0),
};

static double
fall_after (const SwRoute *route, guint i)
{
  if (i + 1 >= route->n || !sw_service_is_gravity ((SwService) route->run->service))
    return NAN;
  SwPoint3 a = route->axis[i], b = route->axis[i + 1];
  return a.z - b.z > 0.05 ? hypot (b.x - a.x, b.y - a.y) / (a.z - b.z) : NAN;
}

static void
put_vertex (SwSchedule *schedule, const SwSheetContext *context, const SwRoute *route, guint i)
{
  const SwJobInfo *info = sw_job_info (sw_sheet_job (context));
  SwPoint3 axis = route->axis[i];
  SwPoint at = { axis.x, axis.y };
  double invert = sw_schedule_from_line (context, sw_route_invert (route, i)), under, top;
  double reach = fmax (route->outer, route->socket + route->run->insulation);
  sw_section_concrete_at (context->deck, at, &under, &top);
  sw_schedule_begin_row (schedule, route->run->record.id);
  sw_schedule_put (schedule, route->run->record.tag);
  sw_schedule_put (schedule, sw_sheet_word (SW_TABLE_RUN, "service", route->run->service));
  sw_schedule_put (schedule, _(sw_trade_word (sw_service_is_electric ((SwService) route->run->service) ? SW_TRADE_ELECTRICIAN : SW_TRADE_PLUMBER)));
  sw_schedule_put_number (schedule, route->od);
  sw_schedule_put_number (schedule, i + 1);
  sw_schedule_put_number (schedule, sw_run_facts_chainage (route, i) / 1000);
  sw_schedule_put_grid (schedule, context, at);
  sw_schedule_put_address (schedule, context, at);
  sw_schedule_put_number (schedule, sw_schedule_from_line (context, axis.z));
  sw_schedule_put_number (schedule, invert);
  sw_schedule_put_number (schedule, (invert + info->level_line + info->floor_level) / 1000);
  sw_schedule_put_number (schedule, sw_schedule_from_line (context, axis.z - route->outer));
  sw_schedule_put_number (schedule, under - axis.z - reach);
  sw_schedule_put_number (schedule, axis.z - reach - sw_deck_soffit_at (context->deck, at));
  sw_schedule_put_number (schedule, fall_after (route, i));
  sw_schedule_put_number (schedule, i > 0 && i + 1 < route->n ? sw_route_turn (route, i) : NAN);
}

static void
fill_levels (SwSchedule *schedule, const SwSheetContext *context)
{
  g_autoptr (GPtrArray) runs = sw_sheet_records (sw_sheet_job (context), SW_TABLE_RUN);
  for (guint k = 0; k < runs->len; k++)
    {
      const SwRun *run = g_ptr_array_index (runs, k);
      g_autoptr (SwRoute) route = sw_route_new (context->deck, context->rules, run, NULL);
      for (guint i = 0; route != NULL && i < route->n; i++)
        put_vertex (schedule, context, route, i);
    }
}

const SwScheduleKind sw_schedule_levels = SW_SCHEDULE ("levels", N_("Levels"), N_("Level, cover and fall at every point of every run"), columns, fill_levels);
