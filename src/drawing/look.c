/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/display_data.h"
#include "drawing/look.h"

/* A faded layer keeps this share of its colour; the rest is paper. Mixing instead of blending: overlaps stay calm and
 * opaque paint is faster. */
#define FADE_KEEPS 0.35

SwDrawView
sw_draw_view_new (SwTransform to_device, double device_scale, double paper_px, const SwLook *look)
{
  return (SwDrawView){ .to_device = to_device,
                       .paper_px = paper_px > 0 ? paper_px : SW_SCREEN_PX_PER_MM * device_scale,
                       .screen_px = device_scale,
                       .least_text_px = SW_SCREEN_LEAST_TEXT_PX * device_scale,
                       .least_line_px = device_scale,
                       .look = look != NULL ? *look : (SwLook){ 0 } };
}

double
sw_draw_size (const SwDrawView *view, SwSizeUnit unit, double size)
{
  if (unit == SW_SIZE_PAPER)
    return size * view->paper_px;
  return size * (unit == SW_SIZE_PX ? view->screen_px : sw_transform_scale (view->to_device));
}

static SwColour
fade (const SwDrawView *view, SwColour colour, int layer)
{
  if (((view->look.faded >> layer) & 1) == 0)
    return colour;
  return sw_colour_mix (sw_palette_colour (view->look.theme, SW_ROLE_PAPER), colour, FADE_KEEPS);
}

static double
opacity (double transparency)
{
  return 1 - CLAMP (isnan (transparency) ? 0 : transparency, 0, 1);
}

SwFillPaint
sw_look_fill (const SwDrawView *view, const SwFill *fill, int layer)
{
  SwColour colour = fade (view, sw_palette_colour (view->look.theme, fill->role), layer);
  gboolean ground = sw_role_is_ground (fill->role);
  SwColour lines = ground ? fade (view, sw_palette_colour (view->look.theme, SW_ROLE_FAINT_INK), layer) : colour;
  SwFillPaint paint = { ground || fill->hatching == SW_HATCHING_NONE, colour, fill->hatching, lines, opacity (fill->transparency) };
  if (view->look.theme == SW_THEME_MONO && fill->hatching == SW_HATCHING_NONE)
    {
      paint.hatching = sw_role_mono_hatching (fill->role);
      if (paint.hatching != SW_HATCHING_NONE && !ground)
        paint.colour = sw_palette_colour (SW_THEME_MONO, SW_ROLE_PAPER);
    }
  return paint;
}

SwStrokePaint
sw_look_stroke (const SwDrawView *view, const SwStroke *stroke, int layer)
{
  SwStrokePaint paint = { .colour = fade (view, sw_palette_colour (view->look.theme, stroke->role), layer),
                          .alpha = opacity (stroke->transparency),
                          .width = MAX (sw_draw_size (view, stroke->unit, stroke->width), view->least_line_px),
                          .round = stroke->round };
  const double *lengths = sw_dash_pattern (stroke->dash, &paint.n_dashes);
  for (int i = 0; i < paint.n_dashes; i++)
    paint.dashes[i] = lengths[i] * view->paper_px;
  return paint;
}

void
sw_look_text (const SwDrawView *view, const SwTextStyle *style, int layer, SwColour *letters, SwColour *rim)
{
  SwColourRole on = style->on == SW_ROLE_INK ? SW_ROLE_PAPER : style->on;
  *letters = fade (view, sw_palette_text_colour (view->look.theme, style->role, on), layer);
  *rim = sw_palette_colour (view->look.theme, on);
}

static guint
list_bits (const SwDisplay *display, const guint64 *bits, guint64 layers, guint32 *list)
{
  guint n = 0;
  for (gsize word = 0; word < sw_display_n_words (display); word++)
    for (guint64 left = bits[word]; left != 0; left &= left - 1)
      {
        guint32 item = (guint32) (word * 64 + (gsize) __builtin_ctzll (left));
        if ((layers >> sw_display_item (display, item)->layer) & 1)
          list[n++] = item;
      }
  return n;
}

guint32 *
sw_draw_list (const SwDisplay *display, const SwDrawView *view, SwBox device, guint *n)
{
  *n = 0;
  g_return_val_if_fail (display->sealed, NULL);
  if (!sw_transform_is_usable (view->to_device) || display->items->len == 0)
    return NULL;
  double scale = sw_transform_scale (view->to_device);
  SwDisplayQuery query = { .paper = view->paper_px / scale,
                           .px = view->screen_px / scale,
                           .detail = view->detail > 0 ? view->detail : scale,
                           .layers = ~view->look.hidden };
  /* 1 px for antialiasing and half the thinnest line. */
  query.box = sw_transform_box (sw_transform_invert (view->to_device), sw_box_grow (device, 1 + view->least_line_px / 2));
  g_autofree guint64 *bits = g_new0 (guint64, sw_display_n_words (display));
  sw_display_query (display, &query, bits);
  for (gsize word = 0; view->left_out != NULL && word < sw_display_n_words (display); word++)
    bits[word] &= ~view->left_out[word];
  guint found = 0;
  for (gsize word = 0; word < sw_display_n_words (display); word++)
    found += (guint) __builtin_popcountll (bits[word]);
  guint32 *list = g_new (guint32, found + 1);
  *n = list_bits (display, bits, view->look.faded, list);
  *n += list_bits (display, bits, ~view->look.faded, list + *n);
  if (*n == 0)
    g_clear_pointer (&list, g_free);
  return list;
}
