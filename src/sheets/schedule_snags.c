/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The schedule of snags, numbered as on the snag plan. */
#include "checks/snag_text.h"
#include "sheets/schedule_parts.h"

static const SwScheduleColumn snag_columns[] = {
  SW_COLUMN_TEXT ("number", N_("No.")),
  SW_COLUMN_TEXT ("kind", N_("Kind")),
  SW_COLUMN_TEXT ("trade", N_("Trade")),
  SW_COLUMN_TEXT ("title", N_("Snag")),
  SW_COLUMN_TEXT ("what", N_("What")),
  SW_COLUMN_TEXT ("where", N_("Where")),
  SW_COLUMN_TEXT ("room", N_("Room")),
  SW_COLUMN_TEXT ("todo", N_("What to do")),
  SW_COLUMN_NUMBER ("missing_mm", N_("Short by"), "mm", 1),
  SW_COLUMN_NUMBER ("x_mm", N_("x"), "mm", 0),
  SW_COLUMN_NUMBER ("y_mm", N_("y"), "mm", 0),
  SW_COLUMN_MM ("level_mm", N_("Above level line")),
  SW_COLUMN_TEXT ("rule", N_("Rule")),
  SW_COLUMN_TEXT ("number_of_rule", N_("Rests on")),
};

static void
fill_snags (SwSchedule *schedule, const SwSheetContext *context)
{
  const SwSnags *snags = context->snags;
  for (guint i = 0; snags != NULL && i < sw_snags_n (snags); i++)
    {
      const SwSnag *snag = sw_snags_get (snags, i);
      const SwRecord *room = sw_job_get (sw_sheet_job (context), snag->room);
      g_autoptr (SwSnagText) text = sw_snag_text (snags, snag, sw_word);
      sw_schedule_begin_row (schedule, snag->owners[0]);
      sw_schedule_put_take (schedule, sw_sheet_snag_number (snags, i));
      sw_schedule_put (schedule, _(sw_severity_label (snag->severity)));
      sw_schedule_put (schedule, _(sw_trade_label (snag->trade)));
      sw_schedule_put (schedule, text->title);
      sw_schedule_put (schedule, text->what);
      sw_schedule_put (schedule, text->where);
      sw_schedule_put (schedule, room != NULL ? room->tag : NULL);
      sw_schedule_put (schedule, text->todo);
      sw_schedule_put_number (schedule, snag->missing_mm);
      sw_schedule_put_number (schedule, snag->place.x);
      sw_schedule_put_number (schedule, snag->place.y);
      sw_schedule_put_number (schedule, sw_schedule_from_line (context, snag->place.z));
      sw_schedule_put (schedule, snag->rule);
      sw_schedule_put (schedule, text->rule);
    }
}

const SwScheduleKind sw_schedule_snags = SW_SCHEDULE ("snags", N_("Snags"), N_("all snags, worst first, with what to do"), snag_columns, fill_snags);
