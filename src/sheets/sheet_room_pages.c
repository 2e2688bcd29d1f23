/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sheets/sheet_room_pages.h"

#define PAD 4.0
#define STEP_MM 200.0 /* of the job: a run is looked at that often */
#define LINE_STEP 9.0
#define FREE_MM 10.0
#define LEAST_MM 20.0 /* below that a list begins on a page of its own */

SwSheetDraft *
sw_sheet_begin_room (SwSheetMaker *maker, const SwRoom *room, double scale, SwBox *area)
{
  SwSheetDraft *draft = sw_sheet_begin_page (maker, scale);
  g_autofree char *heading = g_strdup_printf ("%s %s", room->record.tag, room->name);
  *area = sw_box_grow (sw_sheet_area (&maker->page), -PAD);
  area->high.y = sw_paragraph_add_heading (&draft->pen, (SwPoint){ area->low.x, area->high.y }, area->high.x - area->low.x, heading) - 1;
  return draft;
}

double
sw_sheet_fitting_scale (SwBox job, SwBox page)
{
  static const double scales[] = { 20, 25, 50, 100, 200, 500 };
  double x = page.high.x - page.low.x - 2 * FREE_MM, y = page.high.y - page.low.y - 2 * FREE_MM;
  for (guint i = 0; i < G_N_ELEMENTS (scales); i++)
    if ((job.high.x - job.low.x) / scales[i] <= x && (job.high.y - job.low.y) / scales[i] <= y)
      return scales[i];
  return 1000;
}

void
sw_sheet_add_part (const SwSheetMaker *maker, const SwSheetDraft *draft, const SwDisplay *drawn, SwBox page, SwBox job, double scale,
                   gboolean mirrored, SwSheetViewMark mark, gconstpointer data)
{
  SwPoint middle = sw_point_lerp (page.low, page.high, 0.5);
  double half_x = fmin ((job.high.x - job.low.x) / scale / 2 + FREE_MM, (page.high.x - page.low.x) / 2);
  double half_y = fmin ((job.high.y - job.low.y) / scale / 2 + FREE_MM, (page.high.y - page.low.y) / 2);
  SwBox shown = { { middle.x - half_x, middle.y - half_y }, { middle.x + half_x, middle.y + half_y } };
  sw_sheet_add_view (maker, draft, drawn, shown, sw_point_lerp (job.low, job.high, 0.5), scale, mirrored, mark, data);
}

double
sw_sheet_add_write_lines (const SwSheetDraft *draft, SwPoint top_left, double width, double words_width, const SwWriteLine *lines, guint n)
{
  SwStroke line = sw_pen_stroke (&draft->pen, 0.35, SW_DASH_SOLID);
  double y = top_left.y;
  for (guint i = 0; i < n; i++, y -= LINE_STEP)
    {
      double from = top_left.x + words_width, foot = y - LINE_STEP + 2;
      sw_display_add_line (draft->display, (SwPoint){ from, foot }, (SwPoint){ top_left.x + width, foot }, &line);
      sw_pen_add_fitted_text (&draft->pen, (SwPoint){ top_left.x, foot + 1 }, lines[i].words, words_width - 1, &(SwPenText){ 0 });
      sw_pen_add_fitted_text (&draft->pen, (SwPoint){ from + 1, foot + 1 }, lines[i].value, width - words_width - 2, &(SwPenText){ 0 });
    }
  return y;
}

void
sw_sheet_add_tick (const SwSheetDraft *draft, SwPoint low_left, gboolean ticked, const char *words)
{
  SwStroke line = sw_pen_stroke (&draft->pen, 0.35, SW_DASH_SOLID);
  SwBox box = { low_left, { low_left.x + 5, low_left.y + 5 } };
  sw_display_add_box (draft->display, box, NULL, &line);
  sw_pen_add_text (&draft->pen, (SwPoint){ box.high.x + 3, low_left.y + 1 }, words, &(SwPenText){ 0 });
  if (!ticked)
    return;
  sw_display_add_line (draft->display, box.low, box.high, &line);
  sw_display_add_line (draft->display, (SwPoint){ box.low.x, box.high.y }, (SwPoint){ box.high.x, box.low.y }, &line);
}

double
sw_sheet_add_list_on (SwSheetMaker *maker, SwSheetDraft *draft, SwBox area, const char *heading, const char *about, const SwTextList *list)
{
  double y = sw_paragraph_add_heading (&draft->pen, (SwPoint){ area.low.x, area.high.y }, area.high.x - area.low.x, heading) - 1;
  if (list->n_rows == 0)
    return sw_paragraph_add (&draft->pen, (SwPoint){ area.low.x, y }, area.high.x - area.low.x, _("none"));
  guint n = y - area.low.y > LEAST_MM ? sw_paragraph_add_list (&draft->pen, (SwPoint){ area.low.x, y }, area.low.y, list, 0, &y) : 0;
  if (n == 0)
    y = sw_paragraph_add (&draft->pen, (SwPoint){ area.low.x, y }, area.high.x - area.low.x, _("on the next page"));
  if (n < list->n_rows)
    {
      SwTextList rest = { list->columns, list->n_columns, list->texts + (gsize) n * list->n_columns, list->n_rows - n };
      g_autofree char *goes_on = g_strdup_printf (n > 0 ? _("%s: %s, continued") : "%s: %s", about, heading);
      sw_sheet_add_list_pages (maker, goes_on, &rest, NULL);
    }
  return y;
}

gboolean
sw_sheet_run_in_room (const SwDeck *deck, const SwRoute *route, const SwRoom *room, SwPoint *first)
{
  for (guint i = 0; i + 1 < route->n; i++)
    {
      SwPoint a = { route->axis[i].x, route->axis[i].y }, b = { route->axis[i + 1].x, route->axis[i + 1].y };
      guint steps = (guint) ceil (sw_point_distance (a, b) / STEP_MM) + 1;
      for (guint k = 0; k <= steps; k++)
        {
          *first = sw_point_lerp (a, b, (double) k / steps);
          if (sw_deck_room_at (deck, *first) == room)
            return TRUE;
        }
    }
  return FALSE;
}
