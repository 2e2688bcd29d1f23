/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Hours of work by room and in all, of what the rule set has a day's output for. What goes through several rooms, or is in none, is in the
 * sum of all only. */
#include "estimate/labour.h"
#include "estimate/takeoff.h"
#include "sheets/cut_parts.h"
#include "sheets/schedule_parts.h"
#include "sheets/sheet_parts.h"

static const SwScheduleColumn columns[] = {
  SW_COLUMN_TEXT ("room", N_ ("Room")),
  SW_COLUMN_TEXT ("work", N_ ("Work")),
  SW_COLUMN_NUMBER ("amount", N_ ("Amount"), "", 2),
  SW_COLUMN_TEXT ("unit", N_ ("Unit")),
  SW_COLUMN_NUMBER ("output_low", N_ ("A day's work of the crew, from"), "", 0),
  SW_COLUMN_NUMBER ("output_high", N_ ("to"), "", 0),
  SW_COLUMN_COUNT ("crew", N_ ("Crew")),
  SW_COLUMN_NUMBER ("hours_low", N_ ("Hours of all, from"), "h", 1),
  SW_COLUMN_NUMBER ("hours_high", N_ ("to"), "h", 1),
};

static void
put_works (SwSchedule *schedule, const SwRules *rules, const GPtrArray *needs, SwId record, const char *room)
{
  SwLabour labour;
  double low, high;
  for (guint i = 0; i < sw_labour_n_works (); i++)
    {
      if (!sw_labour_of (rules, needs, i, &labour))
        continue;
      const double numbers[] = { labour.output_low, labour.output_high, labour.crew, labour.hours_low, labour.hours_high };
      sw_schedule_begin_row (schedule, record);
      sw_schedule_put (schedule, room);
      sw_schedule_put (schedule, _(labour.text));
      sw_schedule_put_number (schedule, labour.amount);
      sw_schedule_put (schedule, _(sw_price_unit_text (labour.unit)));
      for (gsize k = 0; k < G_N_ELEMENTS (numbers); k++)
        sw_schedule_put_number (schedule, numbers[k]);
    }
  sw_labour_hours (rules, needs, &low, &high);
  if (high <= 0)
    return;
  sw_schedule_begin_row (schedule, record);
  sw_schedule_put (schedule, room);
  sw_schedule_put (schedule, _("all of it"));
  sw_schedule_put_nothing (schedule, 5);
  sw_schedule_put_number (schedule, low);
  sw_schedule_put_number (schedule, high);
}

static void
fill (SwSchedule *schedule, const SwSheetContext *context)
{
  g_autoptr (SwTakeoff) takeoff = sw_takeoff_new (context->deck, context->rules, NULL, NULL);
  if (takeoff == NULL)
    return;
  g_autoptr (GPtrArray) rooms = sw_sheet_records (sw_sheet_job (context), SW_TABLE_ROOM), all = sw_needs_of (takeoff->needs, SW_NEEDS_ALL);
  for (guint i = 0; i < rooms->len; i++)
    {
      const SwRecord *room = rooms->pdata[i];
      g_autoptr (GPtrArray) needs = sw_needs_of (takeoff->needs, room->id);
      g_autofree char *name = sw_cut_room_text (sw_sheet_job (context), room->id);
      put_works (schedule, context->rules, needs, room->id, name);
    }
  put_works (schedule, context->rules, all, 0, _("whole job"));
}

const SwScheduleKind sw_schedule_labour = SW_SCHEDULE ("labour", N_ ("Hours of work"), N_ ("hours by room and in all, by what a crew does in a day"), columns, fill);
