/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/furniture.h"
#include "base/number.h"
#include "drawing/dimension.h"

#define LINE_MM 0.25
#define CODE_EVERY_MM 60.0
#define SAMPLE_MM 28.0
#define AREA_MM 3.8
#define ROW_GAP_MM 0.9

/* `dx`, `dy` in mm on paper from `p`. */
static SwPoint
off (const SwPen *pen, SwPoint p, double dx, double dy)
{
  return (SwPoint){ p.x + dx * pen->unit, p.y + dy * pen->unit };
}

void
sw_furniture_add_north (const SwPen *pen, SwPoint centre, double angle, const char *letter)
{
  SwStroke line = sw_pen_stroke (pen, 0.35, SW_DASH_SOLID);
  const SwPoint arrow[] = { { 6, 0 }, { -4, 2.6 }, { -2.2, 0 }, { -4, -2.6 } };
  SwPoint ring[4], half[3];
  for (int i = 0; i < 4; i++)
    ring[i] = sw_point_add (centre, sw_point_scale (sw_point_turn (arrow[i], cos (angle), sin (angle)), pen->unit));
  for (int i = 0; i < 3; i++)
    half[i] = ring[i];
  sw_display_add_circle (pen->display, centre, 6 * pen->unit, NULL, &line);
  sw_display_add_polygon (pen->display, half, 3, &(SwFill){ pen->role }, NULL);
  sw_display_add_polygon (pen->display, ring, 4, NULL, &line);
  SwPoint above = { cos (angle) * (7.5 + sw_pen_letters (pen) / 2) * pen->unit, sin (angle) * (7.5 + sw_pen_letters (pen) / 2) * pen->unit };
  sw_pen_add_text (pen, sw_point_add (centre, above), letter, &(SwPenText){ .height_mm = 3.5, .align = SW_ALIGN_MIDDLE, .rise = SW_RISE_MIDDLE, .bold = TRUE });
}

void
sw_furniture_add_looking (const SwPen *pen, SwPoint centre, gboolean up, const char *words)
{
  double side = up ? 1 : -1;
  SwStroke line = sw_pen_stroke (pen, 0.35, SW_DASH_SOLID), thick = sw_pen_stroke (pen, 0.7, SW_DASH_SOLID);
  SwPoint eye = off (pen, centre, 0, -3 * side);
  /* Two flat arcs make the eye. */
  double radius = 5, reach = acos (0.6);
  for (int lid = -1; lid <= 1; lid += 2)
    {
      sw_display_arc (pen->display, off (pen, eye, 0, -lid * 3.0), radius * pen->unit, lid * G_PI / 2 - reach, 2 * reach);
      sw_display_paint (pen->display, NULL, &line);
    }
  sw_display_add_circle (pen->display, eye, 1.1 * pen->unit, &(SwFill){ pen->role }, NULL);
  sw_dimension_add_arrow (pen, off (pen, centre, 0, -0.6 * side), off (pen, centre, 0, 5 * side));
  sw_display_add_line (pen->display, off (pen, centre, -8, 5.4 * side), off (pen, centre, 8, 5.4 * side), &thick);
  double below = up ? -6 - sw_pen_letters (pen) : -7 - sw_pen_letters (pen);
  sw_pen_add_text (pen, off (pen, centre, 0, below), words, &(SwPenText){ .align = SW_ALIGN_MIDDLE });
}

/* The largest of 1, 2, 5 · 10^k metres of which at least four fit. */
static double
bar_step_mm (double most_mm)
{
  double step = 1;
  for (double decade = 1; decade <= 1e9; decade *= 10)
    for (int i = 0; i < 3; i++)
      {
        double next = decade * (const double[]){ 1, 2, 5 }[i];
        if (next * 4 <= most_mm)
          step = next;
      }
  return step;
}

void
sw_furniture_add_scale_bar (const SwPen *pen, SwPoint left, double scale, double width_mm, const char *words)
{
  gboolean feet = pen->lengths == SW_LENGTHS_FT_IN;
  double mark_mm = feet ? SW_MM_PER_FOOT : 1000;
  /* Steps of 1, 2 and 5: of millimetres, or of thousandths of a foot. */
  double step = bar_step_mm (width_mm * scale / mark_mm * 1000) * mark_mm / 1000, step_paper = step / scale;
  int n = (int) CLAMP (floor (width_mm / step_paper + 1e-9), 1, 10);
  SwStroke line = sw_pen_stroke (pen, LINE_MM, SW_DASH_SOLID);
  for (int i = 0; i < n; i++)
    {
      SwBox box = { off (pen, left, i * step_paper, 0), off (pen, left, (i + 1) * step_paper, 1.8) };
      sw_display_add_box (pen->display, box, &(SwFill){ i % 2 ? SW_ROLE_PAPER : pen->role }, &line);
    }
  double below = -1 - sw_pen_letters (pen);
  for (int i = 0; i <= n; i++)
    {
      char buf[SW_NUMBER_BUF];
      g_autofree char *mark = g_strconcat (sw_number_write (round (i * step / mark_mm * 1e6) / 1e6, buf), i == n ? " " : NULL, sw_lengths_sum_symbol (pen->lengths), NULL);
      gboolean fits = i == 0 || i == n || sw_pen_text_width (pen, "0.0", 0) < step_paper * pen->unit;
      if (fits)
        sw_pen_add_text (pen, off (pen, left, i * step_paper, below), mark, &(SwPenText){ .align = SW_ALIGN_MIDDLE });
    }
  sw_pen_add_text (pen, off (pen, left, 0, 3), words, &(SwPenText){ 0 });
}

static void
add_ring (const SwPen *pen, SwPoint centre, double radius, const char *label)
{
  SwStroke line = sw_pen_stroke (pen, 0.35, SW_DASH_SOLID);
  sw_display_add_circle (pen->display, centre, radius, &(SwFill){ SW_ROLE_PAPER }, &line);
  sw_pen_add_text (pen, centre, label, &(SwPenText){ .align = SW_ALIGN_MIDDLE, .rise = SW_RISE_MIDDLE });
}

static double
ring_radius (const SwPen *pen, const char *label, double least_mm)
{
  return MAX (least_mm * pen->unit, sw_pen_text_width (pen, label, 0) / 2 + 1.2 * pen->unit);
}

void
sw_furniture_add_grid_line (const SwPen *pen, SwPoint a, SwPoint b, const char *label, gboolean both)
{
  SwStroke line = sw_pen_stroke (pen, 0.18, SW_DASH_CENTRE);
  double radius = ring_radius (pen, label, 4), length = sw_point_distance (a, b);
  if (!(length > 0))
    return;
  SwPoint beyond = sw_point_scale (sw_point_sub (b, a), radius / length);
  sw_display_add_line (pen->display, a, b, &line);
  add_ring (pen, sw_point_add (b, beyond), radius, label);
  if (both)
    add_ring (pen, sw_point_sub (a, beyond), radius, label);
}

void
sw_furniture_add_tag (const SwPen *pen, SwPoint centre, const char *label)
{
  add_ring (pen, centre, ring_radius (pen, label, 2.8), label);
}

static void
add_code (const SwPen *pen, SwPoint a, SwPoint b, double t, SwServiceLine service)
{
  SwPen coloured = *pen;
  coloured.role = sw_service_line_role (service);
  sw_pen_add_text (&coloured, sw_point_lerp (a, b, t), sw_service_line_code (service),
                   &(SwPenText){ .turn = atan2 (b.y - a.y, b.x - a.x), .align = SW_ALIGN_MIDDLE, .rise = SW_RISE_MIDDLE, .halo = TRUE, .bold = TRUE });
}

void
sw_furniture_add_service_line (const SwPen *pen, const SwPoint *points, gsize n, SwServiceLine service, double width_mm)
{
  if (n < 2)
    return;
  SwStroke stroke = { sw_service_line_role (service), width_mm * pen->unit, SW_SIZE_WORLD, sw_service_line_dash (service) };
  sw_display_add_polyline (pen->display, points, n, &stroke);
  gsize longest = 0;
  double room = 3 * sw_pen_text_width (pen, sw_service_line_code (service), 0);
  for (gsize i = 0; i + 1 < n; i++)
    if (sw_point_distance (points[i], points[i + 1]) > sw_point_distance (points[longest], points[longest + 1]))
      longest = i;
  for (gsize i = 0; i + 1 < n; i++)
    {
      double length = sw_point_distance (points[i], points[i + 1]);
      int codes = length > room ? (int) MIN (floor (length / (CODE_EVERY_MM * pen->unit) + 0.5), 1000) : 0;
      codes = i == longest ? MAX (codes, 1) : codes;
      for (int k = 0; k < codes; k++)
        add_code (pen, points[i], points[i + 1], (k + 0.5) / codes, service);
    }
}

static void
add_sign (const SwPen *pen, const SwLegendEntry *entry, SwPoint centre)
{
  double arm = AREA_MM / 2;
  gboolean box = entry->sign == SW_SIGN_CROSSED_BOX;
  SwPoint corners[] = { off (pen, centre, -arm, box ? -arm : 0), off (pen, centre, arm, box ? arm : 0), off (pen, centre, box ? -arm : 0, arm), off (pen, centre, box ? arm : 0, -arm) };
  if (box)
    sw_display_add_box (pen->display, (SwBox){ corners[0], corners[1] }, NULL, entry->stroke);
  else
    sw_display_add_circle (pen->display, centre, 0.6 * arm * pen->unit, entry->fill, entry->stroke);
  for (int i = 0; i < 4 && entry->sign != SW_SIGN_RING; i += 2)
    sw_display_add_line (pen->display, corners[i], corners[i + 1], entry->stroke);
}

static void
add_sample (const SwPen *pen, const SwLegendEntry *entry, SwPoint middle_left)
{
  SwPoint right = off (pen, middle_left, SAMPLE_MM, 0), centre = sw_point_lerp (middle_left, right, 0.5);
  if (entry->sign == SW_SIGN_RING)
    sw_display_add_line (pen->display, middle_left, right, entry->stroke);
  if (entry->sign != SW_SIGN_NONE)
    add_sign (pen, entry, centre);
  else if (entry->fill != NULL)
    {
      SwBox box = { off (pen, middle_left, 0, -AREA_MM / 2), off (pen, right, 0, AREA_MM / 2) };
      sw_display_add_box (pen->display, box, entry->fill, entry->stroke);
    }
  else if (entry->stroke != NULL)
    sw_display_add_line (pen->display, middle_left, right, entry->stroke);
  if (entry->code != NULL)
    sw_pen_add_text (pen, centre, entry->code, &(SwPenText){ .align = SW_ALIGN_MIDDLE, .rise = SW_RISE_MIDDLE, .halo = TRUE, .bold = TRUE });
}

SwBox
sw_furniture_add_legend (const SwPen *pen, SwPoint top_left, const char *title, const SwLegendEntry *entries, gsize n)
{
  double letters = sw_pen_letters (pen), row = MAX (AREA_MM, letters) + ROW_GAP_MM, width = sw_pen_text_width (pen, title, 3.5), y = -3.5;
  sw_pen_add_text (pen, off (pen, top_left, 0, y), title, &(SwPenText){ .height_mm = 3.5, .bold = TRUE });
  y -= 1 + row / 2;
  for (gsize i = 0; i < n; i++, y -= row)
    {
      add_sample (pen, &entries[i], off (pen, top_left, 0, y));
      sw_pen_add_text (pen, off (pen, top_left, SAMPLE_MM + 3, y), entries[i].words, &(SwPenText){ .rise = SW_RISE_MIDDLE });
      width = MAX (width, (SAMPLE_MM + 3) * pen->unit + sw_pen_text_width (pen, entries[i].words, 0));
    }
  SwPoint low = off (pen, top_left, 0, y + row / 2);
  return (SwBox){ low, { top_left.x + width, top_left.y } };
}
