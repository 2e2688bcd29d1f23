/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is closed and sealed at separating walls: a filler for each void left open, and every run that passes. The tested
 * system, who built it and the photograph are left to be written in: the fire consultant names the system. */
#include "estimate/fillers.h"
#include "sheets/crossings.h"
#include "sheets/schedule_parts.h"

static const SwScheduleColumn columns[] = {
  SW_COLUMN_TEXT ("wall", N_("Wall")),
  SW_COLUMN_NUMBER ("fire_min", N_("Fire rating"), "min", 0),
  SW_COLUMN_NUMBER ("sound_db", N_("Sound rating"), "dB", 0),
  SW_COLUMN_MM ("thickness_mm", N_("Thickness")),
  SW_COLUMN_TEXT ("kind", N_("Kind")),
  SW_COLUMN_TEXT ("mark", N_("Run")),
  SW_COLUMN_TEXT ("bay", N_("Bay")),
  SW_COLUMN_COUNT ("void", N_("Void")),
  SW_COLUMN_MM ("along_mm", N_("From the wall's start")),
  SW_COLUMNS_GRID,
  SW_COLUMN_MM ("level_mm", N_("Axis above level line")),
  SW_COLUMN_TEXT ("service", N_("Service")),
  SW_COLUMN_TEXT ("material", N_("Material")),
  SW_COLUMN_NUMBER ("od_mm", N_("Outside diameter"), "mm", 1),
  SW_COLUMN_NUMBER ("insulation_mm", N_("Insulation"), "mm", 1),
  SW_COLUMN_TEXT ("sleeve", N_("Sleeve")),
  SW_COLUMN_MM ("hole_mm", N_("Hole")),
  SW_COLUMN_NUMBER ("gap_mm", N_("Gap all round"), "mm", 1),
  SW_COLUMN_NUMBER ("area_m2", N_("Area to close"), "m²", 4),
  SW_COLUMN_TEXT ("system", N_("Tested system (fire consultant)")),
  SW_COLUMN_TEXT ("by", N_("Built by")),
  SW_COLUMN_DATE ("on", N_("Built on")),
  SW_COLUMN_TEXT ("photograph", N_("Photograph")),
};

static void
begin_row (SwSchedule *schedule, const SwWall *wall, SwId record, const char *kind)
{
  sw_schedule_begin_row (schedule, record);
  sw_schedule_put (schedule, wall->record.tag);
  sw_schedule_put_number (schedule, wall->fire_minutes > 0 ? wall->fire_minutes : NAN);
  sw_schedule_put_number (schedule, wall->sound_db > 0 ? wall->sound_db : NAN);
  sw_schedule_put_number (schedule, wall->thickness);
  sw_schedule_put (schedule, kind);
}

static void
put_filler (SwSchedule *schedule, const SwSheetContext *context, const SwFiller *filler)
{
  const SwWall *wall = filler->wall;
  begin_row (schedule, wall, wall->record.id, _("filler over the wall"));
  sw_schedule_put (schedule, NULL);
  sw_schedule_put (schedule, filler->bay->bay->record.tag);
  sw_schedule_put_number (schedule, g_array_index (filler->bay->voids, SwVoid, filler->void_index).number);
  sw_schedule_put_number (schedule, sw_point_distance (wall->from, filler->at));
  sw_schedule_put_grid (schedule, context, filler->at);
  sw_schedule_put_nothing (schedule, 8);
  sw_schedule_put_number (schedule, filler->area / 1e6);
  sw_schedule_put_nothing (schedule, 4);
}

static void
put_crossing (SwSchedule *schedule, const SwSheetContext *context, const SwCrossing *crossing)
{
  const SwRun *run = crossing->run;
  SwAddress address = sw_deck_address (context->deck, crossing->at);
  begin_row (schedule, crossing->wall, run->record.id, _("run through the wall"));
  sw_schedule_put (schedule, run->record.tag);
  sw_schedule_put (schedule, address.bay != NULL ? address.bay->bay->record.tag : NULL);
  sw_schedule_put_number (schedule, address.bay != NULL && address.over_void ? address.void_number : NAN);
  sw_schedule_put_number (schedule, crossing->along);
  sw_schedule_put_grid (schedule, context, crossing->at);
  sw_schedule_put_number (schedule, sw_schedule_from_line (context, crossing->z));
  sw_schedule_put (schedule, sw_sheet_word (SW_TABLE_RUN, "service", run->service));
  sw_schedule_put (schedule, sw_sheet_word (SW_TABLE_RUN, "material", run->material));
  sw_schedule_put_number (schedule, run->od);
  sw_schedule_put_number (schedule, run->insulation > 0 ? run->insulation : NAN);
  sw_schedule_put (schedule, crossing->sleeve != NULL ? crossing->sleeve->record.tag : NULL);
  sw_schedule_put_number (schedule, crossing->sleeve != NULL ? crossing->sleeve->diameter : NAN);
  sw_schedule_put_number (schedule, crossing->sleeve != NULL ? crossing->sleeve->diameter / 2 - crossing->outer : NAN);
  sw_schedule_put_nothing (schedule, 5);
}

static void
fill (SwSchedule *schedule, const SwSheetContext *context)
{
  g_autoptr (GPtrArray) walls = sw_sheet_records (sw_sheet_job (context), SW_TABLE_WALL);
  for (guint i = 0; i < walls->len; i++)
    {
      const SwWall *wall = g_ptr_array_index (walls, i);
      if (!wall->separating)
        continue;
      g_autoptr (GArray) fillers = g_array_new (FALSE, FALSE, sizeof (SwFiller)), crossings = sw_crossings_of_wall (context, wall);
      sw_fillers_of_wall (context->deck, wall, fillers);
      for (guint k = 0; k < fillers->len; k++)
        put_filler (schedule, context, &g_array_index (fillers, SwFiller, k));
      for (guint k = 0; k < crossings->len; k++)
        put_crossing (schedule, context, &g_array_index (crossings, SwCrossing, k));
    }
}

const SwScheduleKind sw_schedule_stopping = SW_SCHEDULE ("stopping", N_("Stopping at separating walls"), N_("Fillers and passing runs to be sealed at walls that separate, with rating and size"),
                                                         columns, fill);
