/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Items are painted one by one in the order of the list: one path for all of a style costs twice as much, because
 * cairo then looks for self-crossings. Points are brought to the device here, in doubles. What is much larger than the
 * target is cut to it first: cairo's coordinates end at 8 million, and dashes far outside would cost the most.
 * Hatchings are lines on the device counted from the display's origin, so neighbouring tiles join. Cost is that of the
 * items that show. */
#include "drawing/cairo_painter.h"
#include "drawing/text.h"
#include "drawing/trace.h"
#include <pango/pangocairo.h>

/* Paths that reach farther than this beyond the target are cut to it. */
#define FAR_PX 2000.0
#define FAR_DASHED_PX 100.0
/* Hatching lines closer than this are painted as an even tint. */
#define LEAST_HATCHING_PX 2.5
/* A rim's width as a share of the font size. */
#define RIM 0.25
/* Smaller letters on a picture get their rim from eight shifted prints, a quarter of the cost of a stroked outline. */
#define PRINTED_RIM_PX 24.0
/* Larger letters are beyond what pango's whole numbers hold, and beyond reading. */
#define MOST_TEXT_PX 1e5
#define LOOK_UP_EVERY 64

typedef struct
{
  cairo_t *cr;
  const SwDisplay *display;
  const SwDrawView *view;
  SwBox target;
  guint32 clip; /* scope in force, or SW_NO_SCOPE */
  PangoLayout *layout;
  SwTrace *trace;
  GArray *ring;
} Painter;

static void
set_colour (cairo_t *cr, SwColour c, double alpha)
{
  if (alpha < 1)
    cairo_set_source_rgba (cr, c.r, c.g, c.b, alpha);
  else
    cairo_set_source_rgb (cr, c.r, c.g, c.b);
}

static guint32
clip_scope (const SwDisplay *display, guint32 scope)
{
  while (scope != SW_NO_SCOPE && sw_display_scope (display, scope)->kind != SW_SCOPE_CLIP)
    scope = sw_display_scope (display, scope)->parent;
  return scope;
}

static void
add_ring (cairo_t *cr, const SwPoint *points, guint n)
{
  for (guint i = 0; i < n; i++)
    cairo_line_to (cr, points[i].x, points[i].y);
  cairo_close_path (cr);
}

static void
apply_clips (Painter *p, guint32 scope)
{
  for (; scope != SW_NO_SCOPE; scope = clip_scope (p->display, sw_display_scope (p->display, scope)->parent))
    {
      const SwScope *clip = sw_display_scope (p->display, scope);
      g_autoptr (GArray) device = g_array_new (FALSE, FALSE, sizeof (SwPoint));
      for (guint i = 0; i < clip->n_points; i++)
        {
          SwPoint at = sw_transform_point (p->view->to_device, *sw_display_points (p->display, clip->first_point + i));
          g_array_append_val (device, at);
        }
      sw_ring_clip ((SwPoint *) device->data, device->len, sw_box_grow (p->target, FAR_PX), p->ring);
      add_ring (p->cr, (SwPoint *) p->ring->data, p->ring->len);
      cairo_clip (p->cr);
    }
}

static void
use_clip (Painter *p, guint32 scope)
{
  guint32 wanted = clip_scope (p->display, scope);
  if (wanted == p->clip)
    return;
  cairo_restore (p->cr);
  cairo_save (p->cr);
  apply_clips (p, wanted);
  p->clip = wanted;
}

static void
add_path (cairo_t *cr, const SwDisplay *display, const SwItem *item, SwTransform t)
{
  const SwPoint *from = sw_display_points (display, item->first_point);
  for (guint v = 0; v < item->n_verbs; v++)
    {
      SwVerb verb = display->verbs->data[item->first_verb + v];
      if (verb == SW_VERB_CLOSE)
        {
          cairo_close_path (cr);
          continue;
        }
      SwPoint a = sw_transform_point (t, from[0]);
      if (verb == SW_VERB_MOVE)
        cairo_move_to (cr, a.x, a.y);
      else if (verb == SW_VERB_LINE)
        cairo_line_to (cr, a.x, a.y);
      else
        {
          SwPoint b = sw_transform_point (t, from[1]), c = sw_transform_point (t, from[2]);
          cairo_curve_to (cr, a.x, a.y, b.x, b.y, c.x, c.y);
          from += 2;
        }
      from++;
    }
}

/* The parts of the traced path that show, each as a ring. */
static void
add_cut_path (Painter *p)
{
  for (guint part = 0; part < sw_trace_n (p->trace); part++)
    {
      guint n;
      const SwPoint *points = sw_trace_part (p->trace, part, &n);
      sw_ring_clip (points, n, sw_box_grow (p->target, FAR_PX), p->ring);
      if (p->ring->len > 2)
        {
          cairo_new_sub_path (p->cr);
          add_ring (p->cr, (SwPoint *) p->ring->data, p->ring->len);
        }
    }
}

static void
set_stroke (cairo_t *cr, const SwStrokePaint *stroke)
{
  set_colour (cr, stroke->colour, stroke->alpha);
  cairo_set_line_width (cr, stroke->width);
  cairo_set_line_cap (cr, stroke->round ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
  cairo_set_dash (cr, stroke->dashes, stroke->n_dashes, 0);
}

/* Strokes what shows; each run starts the dashes where the whole line would have them. */
static void
stroke_cut_path (Painter *p, const SwStrokePaint *stroke)
{
  double period = 0;
  for (int i = 0; i < stroke->n_dashes; i++)
    period += stroke->dashes[i];
  g_autoptr (GArray) runs = g_array_new (FALSE, FALSE, sizeof (SwTraceRun));
  sw_trace_cut (p->trace, sw_box_grow (p->target, stroke->width + FAR_DASHED_PX / 2), stroke->n_dashes > 0, p->ring, runs);
  for (guint r = 0; r < runs->len; r++)
    {
      const SwTraceRun *run = &g_array_index (runs, SwTraceRun, r);
      for (guint i = 0; i < run->n; i++)
        {
          SwPoint at = g_array_index (p->ring, SwPoint, run->first + i);
          cairo_line_to (p->cr, at.x, at.y);
        }
      cairo_set_dash (p->cr, stroke->dashes, stroke->n_dashes, period > 0 ? fmod (run->along, period) : 0);
      cairo_stroke (p->cr);
    }
}

/* One family of lines over the box at `angle` (radians, seen counter-clockwise). */
static void
add_hatching_lines (cairo_t *cr, SwBox box, SwPoint origin, double angle, double spacing)
{
  SwPoint along = { cos (angle), -sin (angle) }, across = { sin (angle), cos (angle) };
  SwBox turned = SW_BOX_EMPTY;
  for (int corner = 0; corner < 4; corner++)
    {
      SwPoint c = { (corner & 1 ? box.high.x : box.low.x) - origin.x, (corner & 2 ? box.high.y : box.low.y) - origin.y };
      turned = sw_box_add (turned, (SwPoint){ sw_point_dot (c, along), sw_point_dot (c, across) });
    }
  /* Whole spacings, so that dashes stay in step too. */
  double start = floor (turned.low.x / spacing) * spacing;
  for (double k = floor (turned.low.y / spacing); k * spacing <= turned.high.y; k++)
    {
      double off = (k + 0.5) * spacing;
      cairo_move_to (cr, origin.x + along.x * start + across.x * off, origin.y + along.y * start + across.y * off);
      cairo_line_to (cr, origin.x + along.x * turned.high.x + across.x * off, origin.y + along.y * turned.high.x + across.y * off);
    }
}

/* Over the current path, which is used up. `area` is its box on the device. */
static void
paint_hatching (Painter *p, const SwFillPaint *fill, SwBox area)
{
  const SwHatchingLines *lines = sw_hatching_lines (fill->hatching);
  double spacing = lines->spacing * p->view->paper_px, width = lines->width * p->view->paper_px;
  if (spacing < LEAST_HATCHING_PX)
    {
      double tint = lines->width / lines->spacing * (lines->cross ? 2 : 1) * (lines->on > 0 ? lines->on / lines->spacing : 1);
      set_colour (p->cr, fill->line_colour, fill->alpha * tint);
      cairo_fill (p->cr);
      return;
    }
  SwBox box = { { MAX (area.low.x, p->target.low.x), MAX (area.low.y, p->target.low.y) },
                { MIN (area.high.x, p->target.high.x), MIN (area.high.y, p->target.high.y) } };
  cairo_save (p->cr);
  cairo_clip (p->cr);
  SwPoint origin = { p->view->to_device.x0, p->view->to_device.y0 };
  double angle = lines->angle * G_PI / 180, dashes[] = { lines->on * p->view->paper_px, spacing - lines->on * p->view->paper_px };
  if (!sw_box_is_empty (box))
    {
      add_hatching_lines (p->cr, box, origin, angle, spacing);
      if (lines->cross)
        add_hatching_lines (p->cr, box, origin, angle + G_PI / 2, spacing);
    }
  set_colour (p->cr, fill->line_colour, fill->alpha);
  cairo_set_line_width (p->cr, MAX (width, p->view->least_line_px / 2));
  cairo_set_line_cap (p->cr, CAIRO_LINE_CAP_BUTT);
  cairo_set_dash (p->cr, dashes, lines->on > 0 ? 2 : 0, (spacing + dashes[0]) / 2);
  cairo_stroke (p->cr);
  cairo_restore (p->cr);
}

static void
paint_fill (Painter *p, const SwItem *item, const SwFillPaint *fill, SwBox area, gboolean cut)
{
  if (cut)
    add_cut_path (p);
  else
    add_path (p->cr, p->display, item, p->view->to_device);
  if (fill->plain)
    {
      set_colour (p->cr, fill->colour, fill->alpha);
      cairo_fill_preserve (p->cr);
    }
  if (fill->hatching != SW_HATCHING_NONE)
    paint_hatching (p, fill, area);
}

static void
paint_path (Painter *p, const SwItem *item)
{
  const SwItemStyle *style = sw_display_style (p->display, item->style);
  SwBox area = sw_transform_box (p->view->to_device, item->box);
  SwStrokePaint stroke = { 0 };
  if (style->has_stroke)
    stroke = sw_look_stroke (p->view, &style->stroke, item->layer);
  SwBox near = sw_box_grow (p->target, stroke.n_dashes > 0 ? FAR_DASHED_PX : FAR_PX);
  gboolean cut = !(sw_box_holds (near, area.low) && sw_box_holds (near, area.high));
  if (cut)
    sw_trace_path (p->trace, p->display, item, p->view->to_device);
  cairo_new_path (p->cr);
  if (style->has_fill)
    {
      SwFillPaint fill = sw_look_fill (p->view, &style->fill, item->layer);
      paint_fill (p, item, &fill, area, cut);
    }
  if (style->has_stroke && cut)
    {
      cairo_new_path (p->cr);
      set_stroke (p->cr, &stroke);
      stroke_cut_path (p, &stroke);
    }
  else if (style->has_stroke)
    {
      if (!cairo_has_current_point (p->cr))
        add_path (p->cr, p->display, item, p->view->to_device);
      set_stroke (p->cr, &stroke);
      cairo_stroke (p->cr);
    }
  cairo_new_path (p->cr);
}

/* Both begin at the baseline's start, `start` from the origin. */
static void
paint_stroked_rim (cairo_t *cr, PangoLayoutLine *line, double start, double em)
{
  cairo_move_to (cr, start, 0);
  pango_cairo_layout_line_path (cr, line);
  cairo_set_line_width (cr, em * RIM);
  cairo_set_dash (cr, NULL, 0, 0);
  cairo_stroke (cr);
}

static void
paint_printed_rim (cairo_t *cr, PangoLayoutLine *line, double start, double em)
{
  double radius = MAX (em * RIM / 2, 1);
  for (int i = 0; i < 8; i++)
    {
      cairo_move_to (cr, start + radius * cos (i * G_PI / 4), radius * sin (i * G_PI / 4));
      pango_cairo_show_layout_line (cr, line);
    }
}

static void
paint_text (Painter *p, const SwItem *item)
{
  const SwTextStyle *style = &sw_display_style (p->display, item->style)->text;
  const SwPoint *at = sw_display_points (p->display, item->first_point);
  SwTextPlace place = sw_text_place (p->view, at[0], at[1], item->mirrored, style);
  if (place.em < p->view->least_text_px || !(place.em > 0) || place.em > MOST_TEXT_PX)
    return;
  if (p->layout == NULL)
    p->layout = sw_text_layout_new ();
  double width = sw_text_layout_set (p->layout, item->text, place.em, style->bold);
  SwColour letters, rim;
  sw_look_text (p->view, style, item->layer, &letters, &rim);
  PangoLayoutLine *line = pango_layout_get_line_readonly (p->layout, 0);
  cairo_matrix_t turn = { place.cosine, place.sine, -place.sine, place.cosine, 0, 0 };
  cairo_save (p->cr);
  cairo_translate (p->cr, place.at.x, place.at.y);
  cairo_transform (p->cr, &turn);
  double start = -width * (place.align / 2.0);
  set_colour (p->cr, rim, 1);
  gboolean picture = cairo_surface_get_type (cairo_get_target (p->cr)) == CAIRO_SURFACE_TYPE_IMAGE;
  if (style->halo && picture && place.em < PRINTED_RIM_PX)
    paint_printed_rim (p->cr, line, start, place.em);
  else if (style->halo)
    paint_stroked_rim (p->cr, line, start, place.em);
  cairo_move_to (p->cr, start, 0);
  set_colour (p->cr, letters, 1);
  pango_cairo_show_layout_line (p->cr, line);
  cairo_restore (p->cr);
  cairo_new_path (p->cr);
}

gboolean
sw_cairo_paint (cairo_t *cr, const SwDisplay *display, const SwDrawView *view, SwBox device, GCancellable *cancellable)
{
  guint n = 0, i = 0;
  g_autofree guint32 *list = sw_draw_list (display, view, device, &n);
  g_autoptr (SwTrace) trace = sw_trace_new ();
  g_autoptr (GArray) ring = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  Painter painter = { cr, display, view, device, SW_NO_SCOPE, NULL, trace, ring };
  cairo_save (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD);
  cairo_save (cr); /* use_clip comes back to here */
  for (; i < n; i++)
    {
      if (i % LOOK_UP_EVERY == 0 && g_cancellable_is_cancelled (cancellable))
        break;
      const SwItem *item = sw_display_item (display, list[i]);
      use_clip (&painter, item->scope);
      if (item->text != NULL)
        paint_text (&painter, item);
      else
        paint_path (&painter, item);
    }
  cairo_restore (cr);
  cairo_restore (cr);
  g_clear_object (&painter.layout);
  return i == n;
}

void
sw_cairo_paint_paper (cairo_t *cr, SwTheme theme)
{
  cairo_save (cr);
  set_colour (cr, sw_palette_colour (theme, SW_ROLE_PAPER), 1);
  cairo_paint (cr);
  cairo_restore (cr);
}

cairo_surface_t *
sw_cairo_paint_tile (const SwDisplay *display, const SwDrawView *view, int size, GCancellable *cancellable)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, size, size);
  cairo_t *cr = cairo_create (surface);
  sw_cairo_paint_paper (cr, view->look.theme);
  gboolean done = sw_cairo_paint (cr, display, view, (SwBox){ { 0, 0 }, { size, size } }, cancellable);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  if (!done)
    g_clear_pointer (&surface, cairo_surface_destroy);
  return surface;
}
