/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sheets/plan_sheet.h"
#include "drawing/furniture.h"
#include "drawing/table.h"
#include "sheets/plan.h"
#include <glib/gi18n.h>
#include <math.h>

#define FLOOR (SW_LAYER_BIT (SW_LAYER_DECK) | SW_LAYER_BIT (SW_LAYER_ROOMS) | SW_LAYER_BIT (SW_LAYER_GRID))
#define CEILING (SW_LAYER_BIT (SW_LAYER_BATTENS) | SW_LAYER_BIT (SW_LAYER_LIGHTS) | SW_LAYER_BIT (SW_LAYER_HATCHES))
#define TITLE_HEIGHT_MM 52.0

static const SwPlanSheetInfo sheets[] = {
  { "combined-services", N_("Services, combined"), FLOOR | SW_LAYER_BIT (SW_LAYER_PIPES) | SW_LAYER_BIT (SW_LAYER_CONDUITS) | SW_LAYER_BIT (SW_LAYER_LIGHTS) | SW_LAYER_BIT (SW_LAYER_HATCHES), FALSE },
  { "electrician", N_("Conduits and lights"), FLOOR | SW_LAYER_BIT (SW_LAYER_CONDUITS) | SW_LAYER_BIT (SW_LAYER_LIGHTS), FALSE },
  { "plumber", N_("Pipes"), FLOOR | SW_LAYER_BIT (SW_LAYER_PIPES), FALSE },
  { "drop-ins", N_("Drop-ins, looking down"), FLOOR | SW_LAYER_BIT (SW_LAYER_PIPES), TRUE },
  { "soffit", N_("Soffit"), FLOOR | SW_LAYER_BIT (SW_LAYER_MEASURES), FALSE },
  { "brandering", N_("Brandering"), FLOOR | CEILING, FALSE },
  { "boards", N_("Boards"), FLOOR | SW_LAYER_BIT (SW_LAYER_BOARDS) | SW_LAYER_BIT (SW_LAYER_LIGHTS) | SW_LAYER_BIT (SW_LAYER_HATCHES), FALSE },
};

guint
sw_plan_sheets_n (void)
{
  return G_N_ELEMENTS (sheets);
}

const SwPlanSheetInfo *
sw_plan_sheets_get (guint i)
{
  return &sheets[i];
}

/* The largest usual scale at which the plan fits the room on the page. */
static double
fitting_scale (SwBox plan, SwPoint room)
{
  static const double scales[] = { 20, 25, 50, 75, 100, 200, 250, 500, 1000, 2000, 5000 };
  for (gsize i = 0; i < G_N_ELEMENTS (scales); i++)
    if ((plan.high.x - plan.low.x) / scales[i] <= room.x && (plan.high.y - plan.low.y) / scales[i] <= room.y)
      return scales[i];
  return 10000;
}

static void
add_title (const SwPen *pen, const SwSheetContext *context, const SwPlanSheetInfo *info, SwBox frame, double scale)
{
  const SwJobInfo *job = sw_job_info (sw_sheet_job (context));
  g_autofree char *ratio = g_strdup_printf ("1:%.0f", scale);
  const SwCell first[] = { { _("Job"), job->name, 3 }, { _("Number"), job->number, 1 }, { _("Revision"), job->revision, 1 } };
  const SwCell second[] = { { _("Sheet"), _(info->title), 3 }, { _("Scale"), ratio, 1 }, { _("Rule set"), sw_rules_title (context->rules), 1 } };
  const SwCell third[] = { { _("Prepared by"), job->prepared_by, 2 }, { _("Checked on site, name and date"), NULL, 3 } };
  const SwCellRow rows[] = { { first, 3, 0 }, { second, 3, 0 }, { third, 2, 0 } };
  sw_table_add_title_block (pen, (SwPoint){ frame.high.x, frame.low.y }, 190, rows, G_N_ELEMENTS (rows));
  SwPoint left = { frame.low.x + 8, frame.low.y + 34 };
  sw_furniture_add_scale_bar (pen, left, scale, 120, ratio);
  sw_furniture_add_looking (pen, (SwPoint){ left.x + 150, left.y }, !info->down, info->down ? _("looking down") : _("looking up"));
  const SwPenText small = { .height_mm = 2.5 };
  sw_pen_add_text (pen, (SwPoint){ left.x, frame.low.y + 14 }, _("Levels from the line above the finished floor. Measure before cutting."), &small);
  sw_pen_add_text (pen, (SwPoint){ left.x, frame.low.y + 8 },
                   _("Local codes, the structural engineer and the licensed trades decide; nothing is drilled, cut or hung on this sheet's word."), &small);
}

SwDisplay *
sw_plan_sheet_draw (const SwSheetContext *context, const SwPlanSheetInfo *info, SwPage *page)
{
  *page = (SwPage){ .paper = SW_PAPER_A1, .theme = SW_THEME_LIGHT, .title = _(info->title) };
  SwDisplay *display = sw_display_new ();
  SwTextMeter *meter = sw_text_meter_new ();
  SwBox frame = sw_page_frame (page), plan = sw_box_grow (sw_plan_box (sw_sheet_job (context)), 500);
  SwPoint room = { frame.high.x - frame.low.x - 10, frame.high.y - frame.low.y - TITLE_HEIGHT_MM - 10 };
  double scale = fitting_scale (plan, room), side = info->down ? 1 : -1;
  SwPoint middle = { (plan.low.x + plan.high.x) / 2, (plan.low.y + plan.high.y) / 2 };
  SwPoint centre = { (frame.low.x + frame.high.x) / 2, (frame.low.y + TITLE_HEIGHT_MM + frame.high.y) / 2 };
  SwTransform place = { side / scale, 0, 0, 1 / scale, centre.x - side * middle.x / scale, centre.y - middle.y / scale };
  sw_page_add_frame (display, page);
  sw_display_begin_transform (display, place);
  sw_plan_draw (display, context->deck, info->layers);
  sw_display_end (display);
  SwPen pen = sw_pen_new (display, meter, 1);
  add_title (&pen, context, info, frame, scale);
  sw_display_seal (display);
  sw_text_meter_free (meter);
  return display;
}
