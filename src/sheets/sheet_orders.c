/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lists on paper for who orders and who runs the site: no plan, only their schedules. */
#include "sheets/sheet_parts.h"

gboolean
sw_sheet_draw_order (SwSheetMaker *maker, GError **error)
{
  static const SwSheetListColumn columns[] = {
    { "supplier", 38 }, { "code", 54 }, { "description", 66 }, { "packs", 17 }, { "pack", 18 }, { "unit", 13 }, { "wanted", 21 }, { "cost", 23 }, { "lead_days", 17 },
  };
  sw_sheet_add_schedule_pages (maker, "order", columns, G_N_ELEMENTS (columns));
  return TRUE;
}

gboolean
sw_sheet_draw_sequence (SwSheetMaker *maker, GError **error)
{
  static const SwSheetListColumn columns[] = {
    { "room", 30 }, { "step", 12 }, { "work", 82 }, { "amount", 18 }, { "unit", 12 }, { "sheets", 24 }, { "days_low", 16 }, { "days_high", 12 },
    { "crew", 13 }, { "hours_low", 20 }, { "hours_high", 14 }, { "result", 16 }, { "on", 20 }, { "by", 22 },
  };
  static const SwSheetListColumn hours[] = {
    { "room", 40 }, { "work", 62 }, { "amount", 22 }, { "unit", 14 }, { "output_low", 36 }, { "output_high", 16 }, { "crew", 16 }, { "hours_low", 30 }, { "hours_high", 20 },
  };
  sw_sheet_add_schedule_pages (maker, "sequence", columns, G_N_ELEMENTS (columns));
  sw_sheet_add_schedule_pages (maker, "labour", hours, G_N_ELEMENTS (hours));
  return TRUE;
}
