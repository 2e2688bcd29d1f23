/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/text.h"
#include <pango/pangocairo.h>

#define METER_EM 64.0

struct _SwTextMeter
{
  PangoLayout *layout;
};

PangoLayout *
sw_text_layout_new (void)
{
  /* The default map is the thread's own. */
  PangoContext *context = pango_font_map_create_context (pango_cairo_font_map_get_default ());
  cairo_font_options_t *options = cairo_font_options_create ();
  cairo_font_options_set_hint_style (options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics (options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias (options, CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options (context, options);
  cairo_font_options_destroy (options);
  pango_context_set_round_glyph_positions (context, FALSE);
  PangoLayout *layout = pango_layout_new (context);
  g_object_unref (context);
  pango_layout_set_single_paragraph_mode (layout, TRUE);
  return layout;
}

double
sw_text_layout_set (PangoLayout *layout, const char *text, double em, gboolean bold)
{
  PangoFontDescription *font = pango_font_description_new ();
  pango_font_description_set_family_static (font, "sans");
  pango_font_description_set_weight (font, bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_absolute_size (font, em * PANGO_SCALE);
  pango_layout_set_font_description (layout, font);
  pango_font_description_free (font);
  pango_layout_set_text (layout, text, -1);
  PangoRectangle logical;
  pango_layout_get_extents (layout, NULL, &logical);
  return (double) logical.width / PANGO_SCALE;
}

SwTextMeter *
sw_text_meter_new (void)
{
  SwTextMeter *meter = g_new0 (SwTextMeter, 1);
  meter->layout = sw_text_layout_new ();
  return meter;
}

void
sw_text_meter_free (SwTextMeter *meter)
{
  g_object_unref (meter->layout);
  g_free (meter);
}

double
sw_text_meter_width (SwTextMeter *meter, const char *text, double height, gboolean bold)
{
  g_autofree char *valid = g_utf8_make_valid (text, -1);
  return sw_text_layout_set (meter->layout, valid, METER_EM, bold) / METER_EM * height * SW_TEXT_EM;
}

char *
sw_text_meter_shorten (SwTextMeter *meter, const char *text, double height, gboolean bold, double width)
{
  g_autofree char *valid = g_utf8_make_valid (text, -1);
  if (sw_text_meter_width (meter, valid, height, bold) <= width)
    return g_steal_pointer (&valid);
  /* The longest beginning that fits, by halving. */
  glong fits = 0, too_long = g_utf8_strlen (valid, -1);
  while (too_long - fits > 1)
    {
      glong half = (fits + too_long) / 2;
      g_autofree char *start = g_utf8_substring (valid, 0, half);
      g_autofree char *cut = g_strconcat (start, "…", NULL);
      if (sw_text_meter_width (meter, cut, height, bold) <= width)
        fits = half;
      else
        too_long = half;
    }
  g_autofree char *start = g_utf8_substring (valid, 0, fits);
  return g_strconcat (g_strchomp (start), "…", NULL);
}

SwTextPlace
sw_text_place (const SwDrawView *view, SwPoint at, SwPoint direction, gboolean mirrored, const SwTextStyle *style)
{
  SwPoint up = mirrored ? (SwPoint){ direction.y, -direction.x } : (SwPoint){ -direction.y, direction.x };
  SwPoint along = sw_transform_vector (view->to_device, direction);
  SwPoint above = sw_transform_vector (view->to_device, up);
  along = sw_point_scale (along, 1 / sw_point_length (along));
  SwTextPlace place = { sw_transform_point (view->to_device, at), along.x, along.y,
                        sw_draw_size (view, style->unit, style->height) * SW_TEXT_EM, style->align };
  /* Reads from below, or from the right when it stands upright (ISO 129-1, aligned values). */
  gboolean readable = along.x > 1e-6 || (along.x > -1e-6 && along.y < 0);
  if (!readable)
    {
      place.cosine = -along.x;
      place.sine = -along.y;
      place.align = SW_ALIGN_RIGHT - style->align;
    }
  SwPoint letters_up = { place.sine, -place.cosine };
  double height = place.em / SW_TEXT_EM, rise = 0;
  gboolean upside_down = sw_point_dot (letters_up, above) < 0;
  if (style->rise == SW_RISE_MIDDLE)
    rise = -height / 2;
  else if ((style->rise == SW_RISE_TOP) != upside_down)
    rise = -height;
  place.at = sw_point_add (place.at, sw_point_scale (letters_up, rise));
  return place;
}
