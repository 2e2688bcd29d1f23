/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What hangs from each bay and over each room, against what the engineer allows. */
#include "ceiling/suspended.h"
#include "sheets/schedule_parts.h"

static const SwScheduleColumn columns[] = {
  SW_COLUMN_TEXT ("bay", N_("Bay")),
  SW_COLUMN_TEXT ("room", N_("Room")),
  SW_COLUMN_NUMBER ("area_m2", N_("Area"), "m²", 2),
  SW_COLUMN_NUMBER ("pipes_n", N_("Pipes, full"), "N", 0),
  SW_COLUMN_NUMBER ("conduits_n", N_("Conduits with cables"), "N", 0),
  SW_COLUMN_NUMBER ("ceilings_n", N_("Ceilings"), "N", 0),
  SW_COLUMN_COUNT ("lights", N_("Downlights")),
  SW_COLUMN_NUMBER ("lights_n", N_("they weigh"), "N", 0),
  SW_COLUMN_COUNT ("fittings", N_("Boxes, valves, fittings")),
  SW_COLUMN_NUMBER ("fittings_n", N_("they weigh"), "N", 0),
  SW_COLUMN_NUMBER ("total_n", N_("Together"), "N", 0),
  SW_COLUMN_NUMBER ("load_kpa", N_("Suspended load"), "kPa", 3),
  SW_COLUMN_NUMBER ("allowed_kpa", N_("Allowed"), "kPa", 2),
  SW_COLUMN_NUMBER ("share_percent", N_("Of what is allowed"), "%", 0),
  SW_COLUMN_COUNT ("void", N_("Heaviest void")),
  SW_COLUMN_NUMBER ("void_n_m", N_("Runs in it, at most"), "N/m", 0),
  SW_COLUMN_M ("void_at_m", N_("there, from its start")),
  SW_COLUMN_NUMBER ("void_kpa", N_("spread over one pitch"), "kPa", 3),
  SW_COLUMN_TEXT ("note", N_("Note")),
};

static void
put_void (SwSchedule *schedule, const SwSheetContext *context, const SwDeckBay *bay, const GPtrArray *routes)
{
  double most = 0, at = 0;
  int number = 0;
  for (guint i = 0; i < bay->voids->len; i++)
    {
      double along = 0, load = sw_ceiling_void_load (context->rules, bay, i, routes, &along);
      if (load <= most)
        continue;
      most = load;
      at = along;
      number = g_array_index (bay->voids, SwVoid, i).number;
    }
  if (most <= 0)
    {
      sw_schedule_put_nothing (schedule, 4);
      return;
    }
  sw_schedule_put_number (schedule, number);
  sw_schedule_put_number (schedule, most);
  sw_schedule_put_number (schedule, at / 1000);
  sw_schedule_put_number (schedule, most / bay->profile->pitch);
}

static char *
note_of (const SwDeckBay *bay, const SwSuspended *load)
{
  GString *text = g_string_new (bay->bay->allowance <= 0 ? _("nothing allowed was entered: ask the engineer") : load->kpa > bay->bay->allowance ? _("more than is allowed: ask the engineer") : "");
  if (load->unknown > 0)
    g_string_append_printf (text, "%s%s", text->len > 0 ? "; " : "", _("some runs have no known weight"));
  return g_string_free (text, FALSE);
}

static void
put_row (SwSchedule *schedule, const SwSheetContext *context, const SwDeckBay *bay, const SwRoom *room, const GPtrArray *routes)
{
  SwSuspended load = sw_ceiling_suspended (context->deck, context->rules, bay, room, routes);
  double allowed = bay->bay->allowance;
  if (load.area_m2 <= 0)
    return;
  sw_schedule_begin_row (schedule, room != NULL ? room->record.id : bay->bay->record.id);
  sw_schedule_put (schedule, bay->bay->record.tag);
  sw_schedule_put (schedule, room != NULL ? room->record.tag : NULL);
  sw_schedule_put_number (schedule, load.area_m2);
  sw_schedule_put_number (schedule, load.pipes_n);
  sw_schedule_put_number (schedule, load.conduits_n);
  sw_schedule_put_number (schedule, load.ceilings_n);
  sw_schedule_put_count (schedule, load.lights);
  sw_schedule_put_number (schedule, load.lights_n);
  sw_schedule_put_count (schedule, load.fittings);
  sw_schedule_put_number (schedule, load.fittings_n);
  sw_schedule_put_number (schedule, sw_suspended_total (&load));
  sw_schedule_put_number (schedule, load.kpa);
  sw_schedule_put_number (schedule, allowed > 0 ? allowed : NAN);
  sw_schedule_put_number (schedule, allowed > 0 ? 100 * load.kpa / allowed : NAN);
  if (room == NULL)
    put_void (schedule, context, bay, routes);
  else
    sw_schedule_put_nothing (schedule, 4);
  sw_schedule_put_take (schedule, note_of (bay, &load));
}

static void
fill_loads (SwSchedule *schedule, const SwSheetContext *context)
{
  SwJob *job = sw_sheet_job (context);
  g_autoptr (GPtrArray) runs = sw_sheet_records (job, SW_TABLE_RUN), rooms = sw_sheet_records (job, SW_TABLE_ROOM);
  g_autoptr (GPtrArray) routes = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_route_free);
  for (guint i = 0; i < runs->len; i++)
    {
      SwRoute *route = sw_route_new (context->deck, context->rules, g_ptr_array_index (runs, i), NULL);
      if (route != NULL)
        g_ptr_array_add (routes, route);
    }
  for (guint b = 0; b < sw_deck_n_bays (context->deck); b++)
    {
      put_row (schedule, context, sw_deck_bay (context->deck, b), NULL, routes);
      for (guint i = 0; i < rooms->len; i++)
        put_row (schedule, context, sw_deck_bay (context->deck, b), g_ptr_array_index (rooms, i), routes);
    }
}

const SwScheduleKind sw_schedule_loads = SW_SCHEDULE ("loads", N_("Suspended loads"), N_("What hangs from each bay and over each room, against what is allowed"), columns, fill_loads);
