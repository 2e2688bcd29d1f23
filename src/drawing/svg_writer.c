/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One walk over the painting list writes the body into a buffer and notes on the way which styles, hatchings and clips
 * it needs; the head with their definitions is put before it. Scopes are opened and closed as the walk passes from one
 * item's to the next's. Cost is linear in what shows. Numbers have at most three decimals (a micrometre on paper). */
#include "drawing/svg_writer.h"
#include "base/number.h"
#include "drawing/display_data.h"
#include "drawing/text.h"
#include "drawing/trace.h"
#include <string.h>

#define DECIMALS 3
#define RIM 0.25
/* Names that begin so are ours. */
#define OWN "sw-"
/* Paths that reach farther beyond the sheet are cut to it: programs that draw SVG go wrong far outside. */
#define FAR_MM 500.0
#define CUT_MM 100.0

typedef struct
{
  const SwDisplay *display;
  const SwDrawView *view;
  SwBox sheet;
  GString *body, *style, *definitions;
  GHashTable *rules;     /* CSS text → number + 1 */
  GHashTable *hatchings; /* key → number + 1 */
  GHashTable *ids;       /* taken */
  gboolean *named;       /* scopes whose id has been written */
  gboolean *clipped;     /* clip scopes that are defined */
  guint n_texts;
} Writer;

static void
put_number (GString *out, double value)
{
  char buf[SW_NUMBER_BUF];
  sw_number_write_fixed (value, DECIMALS, buf);
  gsize length = strlen (buf);
  while (buf[length - 1] == '0')
    length--;
  if (buf[length - 1] == '.')
    length--;
  g_string_append_len (out, buf, (gssize) length);
}

/* Items: text as it is, and N for the next number. */
static void
put (GString *out, const char *format, const double *numbers)
{
  for (; *format != '\0'; format++)
    if (*format == 'N')
      put_number (out, *numbers++);
    else
      g_string_append_c (out, *format);
}

static void
put_colour (GString *out, SwColour c)
{
  g_string_append_printf (out, "#%02x%02x%02x", (guint) lround (c.r * 255), (guint) lround (c.g * 255), (guint) lround (c.b * 255));
}

static void
put_escaped (GString *out, const char *text)
{
  for (; *text != '\0'; text++)
    switch (*text)
      {
      case '&':
        g_string_append (out, "&amp;");
        break;
      case '<':
        g_string_append (out, "&lt;");
        break;
      case '>':
        g_string_append (out, "&gt;");
        break;
      case '"':
        g_string_append (out, "&quot;");
        break;
      default:
        g_string_append_c (out, *text);
      }
}

/* Letters, digits, '-', '_' and '.' stay; others become '_'. Classes may also hold spaces. */
static char *
plain_name (const char *name, const char *also)
{
  GString *out = g_string_new (NULL);
  for (; *name != '\0'; name++)
    g_string_append_c (out, g_ascii_isalnum (*name) || strchr ("-_.", *name) || strchr (also, *name) ? *name : '_');
  return g_string_free (out, FALSE);
}

static void
put_id (Writer *w, const char *name)
{
  g_autofree char *plain = plain_name (name, "");
  gboolean prefix = !g_ascii_isalpha (plain[0]) || g_str_has_prefix (plain, OWN);
  g_autofree char *wanted = g_strconcat (prefix ? "n-" : "", plain, NULL);
  char *id = g_strdup (wanted);
  for (guint i = 2; g_hash_table_contains (w->ids, id); i++)
    {
      g_free (id);
      id = g_strdup_printf ("%s-%u", wanted, i);
    }
  g_string_append_printf (w->body, " id=\"%s\"", id);
  g_hash_table_add (w->ids, id);
}

/* Takes `rule`; returns the number of the class that has it. */
static guint
style_class (Writer *w, GString *rule)
{
  gpointer known = g_hash_table_lookup (w->rules, rule->str);
  guint number = known != NULL ? GPOINTER_TO_UINT (known) - 1 : g_hash_table_size (w->rules);
  if (known == NULL)
    {
      g_string_append_printf (w->style, "._%u{%s}\n", number, rule->str);
      g_hash_table_insert (w->rules, g_strdup (rule->str), GUINT_TO_POINTER (number + 1));
    }
  g_string_free (rule, TRUE);
  return number;
}

static void
put_hatching_lines (GString *out, const SwHatchingLines *lines, double unit)
{
  double s = lines->spacing * unit, on = lines->on > 0 ? lines->on * unit : s;
  put (out, "MN NHN", (double[]){ (s - on) / 2, s / 2, (s + on) / 2 });
  if (lines->cross)
    put (out, "MN NVN", (double[]){ s / 2, (s - on) / 2, (s + on) / 2 });
}

static void
define_hatching (Writer *w, guint number, const SwFillPaint *fill)
{
  const SwHatchingLines *lines = sw_hatching_lines (fill->hatching);
  double unit = w->view->paper_px, s = lines->spacing * unit;
  GString *out = w->definitions;
  g_string_append_printf (out, "<pattern id=\"" OWN "hatching-%u\" patternUnits=\"userSpaceOnUse\"", number);
  put (out, " width=\"N\" height=\"N\" patternTransform=\"translate(N N) rotate(N)\">",
       (double[]){ s, s, w->view->to_device.x0, w->view->to_device.y0, -lines->angle });
  if (fill->plain)
    {
      put (out, "<rect width=\"N\" height=\"N\" fill=\"", (double[]){ s, s });
      put_colour (out, fill->colour);
      g_string_append (out, "\"/>");
    }
  g_string_append (out, "<path fill=\"none\" stroke=\"");
  put_colour (out, fill->line_colour);
  put (out, "\" stroke-width=\"N\" d=\"", (double[]){ lines->width * unit });
  put_hatching_lines (out, lines, unit);
  g_string_append (out, "\"/></pattern>\n");
}

static guint
hatching_number (Writer *w, const SwFillPaint *fill)
{
  g_autoptr (GString) key = g_string_new (NULL);
  g_string_append_printf (key, "%d %d ", (int) fill->hatching, fill->plain);
  put_colour (key, fill->line_colour);
  put_colour (key, fill->colour);
  gpointer known = g_hash_table_lookup (w->hatchings, key->str);
  if (known != NULL)
    return GPOINTER_TO_UINT (known) - 1;
  guint number = g_hash_table_size (w->hatchings);
  define_hatching (w, number, fill);
  g_hash_table_insert (w->hatchings, g_strdup (key->str), GUINT_TO_POINTER (number + 1));
  return number;
}

static void
rule_fill (Writer *w, GString *rule, const SwItem *item, const SwFill *fill)
{
  SwFillPaint paint = sw_look_fill (w->view, fill, item->layer);
  g_string_append (rule, "fill:");
  if (paint.hatching != SW_HATCHING_NONE)
    g_string_append_printf (rule, "url(#" OWN "hatching-%u)", hatching_number (w, &paint));
  else
    put_colour (rule, paint.colour);
  if (paint.alpha < 1)
    put (rule, ";fill-opacity:N", &paint.alpha);
}

static void
rule_stroke (Writer *w, GString *rule, const SwItem *item, const SwStroke *stroke)
{
  SwStrokePaint paint = sw_look_stroke (w->view, stroke, item->layer);
  g_string_append (rule, ";stroke:");
  put_colour (rule, paint.colour);
  put (rule, ";stroke-width:N", &paint.width);
  for (int i = 0; i < paint.n_dashes; i++)
    put (rule, i == 0 ? ";stroke-dasharray:N" : ",N", &paint.dashes[i]);
  if (paint.round)
    g_string_append (rule, ";stroke-linecap:round");
  if (paint.alpha < 1)
    put (rule, ";stroke-opacity:N", &paint.alpha);
}

static guint
path_class (Writer *w, const SwItem *item, gboolean fill, gboolean stroke)
{
  const SwItemStyle *style = sw_display_style (w->display, item->style);
  GString *rule = g_string_new (NULL);
  if (fill)
    rule_fill (w, rule, item, &style->fill);
  else
    g_string_append (rule, "fill:none");
  if (stroke)
    rule_stroke (w, rule, item, &style->stroke);
  return style_class (w, rule);
}

static void
put_points (GString *out, const SwPoint *points, guint n)
{
  for (guint i = 0; i < n; i++)
    put (out, i > 0 ? "LN N" : "MN N", (double[]){ points[i].x, points[i].y });
}

static void
put_cut_fill (Writer *w, const SwItem *item, const SwTrace *trace)
{
  g_autoptr (GArray) ring = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  g_string_append_printf (w->body, "<path class=\"_%u\" d=\"", path_class (w, item, TRUE, FALSE));
  for (guint part = 0; part < sw_trace_n (trace); part++)
    {
      guint n;
      const SwPoint *points = sw_trace_part (trace, part, &n);
      sw_ring_clip (points, n, sw_box_grow (w->sheet, CUT_MM), ring);
      put_points (w->body, (SwPoint *) ring->data, ring->len);
      if (ring->len > 0)
        g_string_append_c (w->body, 'Z');
    }
  g_string_append (w->body, "\"/>\n");
}

static void
put_cut_stroke (Writer *w, const SwItem *item, const SwTrace *trace)
{
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  g_autoptr (GArray) runs = g_array_new (FALSE, FALSE, sizeof (SwTraceRun));
  SwStrokePaint paint = sw_look_stroke (w->view, &sw_display_style (w->display, item->style)->stroke, item->layer);
  double period = 0;
  for (int i = 0; i < paint.n_dashes; i++)
    period += paint.dashes[i];
  sw_trace_cut (trace, sw_box_grow (w->sheet, CUT_MM + paint.width), period > 0, points, runs);
  for (guint r = 0; r < runs->len; r++)
    {
      const SwTraceRun *run = &g_array_index (runs, SwTraceRun, r);
      g_string_append_printf (w->body, "<path class=\"_%u\"", path_class (w, item, FALSE, TRUE));
      if (period > 0)
        put (w->body, " stroke-dashoffset=\"N\"", (double[]){ fmod (run->along, period) });
      g_string_append (w->body, " d=\"");
      put_points (w->body, &g_array_index (points, SwPoint, run->first), run->n);
      g_string_append (w->body, "\"/>\n");
    }
}

static gboolean
reaches_far (Writer *w, const SwItem *item)
{
  SwBox area = sw_transform_box (w->view->to_device, item->box), near = sw_box_grow (w->sheet, FAR_MM);
  return !(sw_box_holds (near, area.low) && sw_box_holds (near, area.high));
}

static void
put_cut_path (Writer *w, const SwItem *item)
{
  g_autoptr (SwTrace) trace = sw_trace_new ();
  const SwItemStyle *style = sw_display_style (w->display, item->style);
  /* Ten pieces a millimetre, for curves. */
  SwTransform fine = sw_transform_join ((SwTransform){ 10, 0, 0, 10, 0, 0 }, w->view->to_device);
  sw_trace_path (trace, w->display, item, fine);
  for (guint i = 0; i < trace->points->len; i++)
    g_array_index (trace->points, SwPoint, i) = sw_point_scale (g_array_index (trace->points, SwPoint, i), 0.1);
  if (style->has_fill)
    put_cut_fill (w, item, trace);
  if (style->has_stroke)
    put_cut_stroke (w, item, trace);
}

static void
put_path (Writer *w, const SwItem *item)
{
  static const char letters[] = { 'M', 'L', 'C', 'Z' };
  static const guint counts[] = { 1, 1, 3, 0 };
  const SwItemStyle *style = sw_display_style (w->display, item->style);
  g_string_append_printf (w->body, "<path class=\"_%u\" d=\"", path_class (w, item, style->has_fill, style->has_stroke));
  const SwPoint *from = sw_display_points (w->display, item->first_point);
  for (guint v = 0; v < item->n_verbs; v++)
    {
      SwVerb verb = w->display->verbs->data[item->first_verb + v];
      g_string_append_c (w->body, letters[verb]);
      for (guint i = 0; i < counts[verb]; i++, from++)
        {
          SwPoint p = sw_transform_point (w->view->to_device, *from);
          put (w->body, i > 0 ? " N N" : "N N", (double[]){ p.x, p.y });
        }
    }
  g_string_append (w->body, "\"/>\n");
}

static guint
text_class (Writer *w, const SwItem *item, const SwTextPlace *place)
{
  const SwTextStyle *style = &sw_display_style (w->display, item->style)->text;
  static const char *const anchors[] = { "", ";text-anchor:middle", ";text-anchor:end" };
  SwColour letters, rim;
  sw_look_text (w->view, style, item->layer, &letters, &rim);
  GString *rule = g_string_new ("fill:");
  put_colour (rule, letters);
  put (rule, ";font-size:Npx", &place->em);
  if (style->bold)
    g_string_append (rule, ";font-weight:bold");
  g_string_append (rule, anchors[place->align]);
  return style_class (w, rule);
}

/* The rim is a second drawing of the same text below it, so the document holds the words once. */
static void
put_rim (Writer *w, const SwItem *item, const SwTextPlace *place)
{
  SwColour letters, rim;
  sw_look_text (w->view, &sw_display_style (w->display, item->style)->text, item->layer, &letters, &rim);
  GString *rule = g_string_new ("stroke:");
  put_colour (rule, rim);
  put (rule, ";stroke-width:N", (double[]){ place->em * RIM });
  g_string_append_printf (w->body, "<use class=\"_%u\" xlink:href=\"#" OWN "text-%u\"/>", style_class (w, rule), w->n_texts);
}

static void
put_text (Writer *w, const SwItem *item)
{
  const SwTextStyle *style = &sw_display_style (w->display, item->style)->text;
  const SwPoint *at = sw_display_points (w->display, item->first_point);
  SwTextPlace place = sw_text_place (w->view, at[0], at[1], item->mirrored, style);
  if (!(place.em > 0) || place.em < w->view->least_text_px)
    return;
  if (style->halo)
    put_rim (w, item, &place);
  g_string_append_printf (w->body, "<text class=\"_%u\"", text_class (w, item, &place));
  if (style->halo)
    g_string_append_printf (w->body, " id=\"" OWN "text-%u\"", w->n_texts++);
  double degrees = atan2 (place.sine, place.cosine) * 180 / G_PI, x = place.at.x, y = place.at.y;
  if (fabs (degrees) < 0.0005)
    put (w->body, " x=\"N\" y=\"N\"", (double[]){ x, y });
  else
    put (w->body, " transform=\"translate(N N) rotate(N)\"", (double[]){ x, y, degrees });
  /* Otherwise runs of spaces would shrink to one. */
  if (strstr (item->text, "  ") != NULL || item->text[0] == ' ' || g_str_has_suffix (item->text, " "))
    g_string_append (w->body, " xml:space=\"preserve\"");
  g_string_append_c (w->body, '>');
  put_escaped (w->body, item->text);
  g_string_append (w->body, "</text>\n");
}

static void
put_element (GString *out, const char *name, const char *text)
{
  if (text == NULL || *text == '\0')
    return;
  g_autofree char *clean = sw_display_clean_text (text);
  g_string_append_printf (out, "<%s>", name);
  put_escaped (out, clean);
  g_string_append_printf (out, "</%s>\n", name);
}

static void
define_clip (Writer *w, guint32 number, const SwScope *scope)
{
  if (w->clipped[number])
    return;
  w->clipped[number] = TRUE;
  g_string_append_printf (w->definitions, "<clipPath id=\"" OWN "clip-%u\"><path clip-rule=\"evenodd\" d=\"", number);
  for (guint i = 0; i < scope->n_points; i++)
    {
      SwPoint p = sw_transform_point (w->view->to_device, *sw_display_points (w->display, scope->first_point + i));
      put (w->definitions, i > 0 ? "LN N" : "MN N", (double[]){ p.x, p.y });
    }
  g_string_append (w->definitions, "Z\"/></clipPath>\n");
}

static void
open_group (Writer *w, guint32 number, const SwScope *scope)
{
  g_string_append (w->body, "<g");
  if (scope->id != NULL && *scope->id != '\0' && !w->named[number])
    put_id (w, scope->id);
  if (scope->class_name != NULL && *scope->class_name != '\0')
    {
      g_autofree char *plain = plain_name (scope->class_name, " ");
      g_string_append_printf (w->body, " class=\"%s\"", plain);
    }
  g_string_append (w->body, ">\n");
  put_element (w->body, "title", w->named[number] ? NULL : scope->title);
  put_element (w->body, "desc", w->named[number] ? NULL : scope->description);
  w->named[number] = TRUE;
}

static void
open_scopes (Writer *w, guint32 shared, guint32 number)
{
  if (number == shared)
    return;
  const SwScope *scope = sw_display_scope (w->display, number);
  open_scopes (w, shared, scope->parent);
  if (scope->kind == SW_SCOPE_GROUP)
    open_group (w, number, scope);
  else if (scope->kind == SW_SCOPE_CLIP)
    {
      define_clip (w, number, scope);
      g_string_append_printf (w->body, "<g clip-path=\"url(#" OWN "clip-%u)\">\n", number);
    }
}

static void
close_scopes (Writer *w, guint32 from, guint32 shared)
{
  for (; from != shared; from = sw_display_scope (w->display, from)->parent)
    if (sw_display_scope (w->display, from)->kind != SW_SCOPE_TRANSFORM)
      g_string_append (w->body, "</g>\n");
}

static void
put_body (Writer *w)
{
  guint n = 0;
  guint32 open = SW_NO_SCOPE;
  g_autofree guint32 *list = sw_draw_list (w->display, w->view, w->sheet, &n);
  for (guint i = 0; i < n; i++)
    {
      const SwItem *item = sw_display_item (w->display, list[i]);
      guint32 shared = sw_display_scope_shared (w->display, open, item->scope);
      close_scopes (w, open, shared);
      open_scopes (w, shared, item->scope);
      open = item->scope;
      if (item->text != NULL)
        put_text (w, item);
      else if (reaches_far (w, item))
        put_cut_path (w, item);
      else
        put_path (w, item);
    }
  close_scopes (w, open, SW_NO_SCOPE);
}

static GString *
put_head (Writer *w, const SwSvgPage *page)
{
  GString *out = g_string_new ("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" "
                               "xmlns:xlink=\"http://www.w3.org/1999/xlink\" version=\"1.1\"");
  double width = page->width_mm, height = page->height_mm;
  put (out, " width=\"Nmm\" height=\"Nmm\" viewBox=\"0 0 N N\"", (double[]){ width, height, width, height });
  g_string_append (out, " font-family=\"sans-serif\" fill-rule=\"evenodd\" stroke-linejoin=\"round\">\n");
  put_element (out, "title", page->title);
  put_element (out, "desc", page->description);
  g_string_append_printf (out, "<defs>\n<style type=\"text/css\">\n%s</style>\n%s</defs>\n", w->style->str, w->definitions->str);
  put (out, "<rect class=\"paper\" width=\"N\" height=\"N\" fill=\"", (double[]){ width, height });
  put_colour (out, sw_palette_colour (w->view->look.theme, SW_ROLE_PAPER));
  g_string_append (out, "\"/>\n");
  return out;
}

GString *
sw_svg_write (const SwDisplay *display, const SwSvgPage *page)
{
  g_return_val_if_fail (sw_display_is_sealed (display) && page->width_mm > 0 && page->height_mm > 0, NULL);
  g_autoptr (GString) body = g_string_new (NULL);
  g_autoptr (GString) style = g_string_new (NULL);
  g_autoptr (GString) definitions = g_string_new (NULL);
  g_autoptr (GHashTable) rules = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GHashTable) hatchings = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GHashTable) ids = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autofree gboolean *named = g_new0 (gboolean, display->scopes->len + 1);
  g_autofree gboolean *clipped = g_new0 (gboolean, display->scopes->len + 1);
  SwBox sheet = { { 0, 0 }, { page->width_mm, page->height_mm } };
  Writer writer = { display, &page->view, sheet, body, style, definitions, rules, hatchings, ids, named, clipped, 0 };
  put_body (&writer);
  GString *out = put_head (&writer, page);
  g_string_append_len (out, body->str, (gssize) body->len);
  g_string_append (out, "</svg>\n");
  return out;
}
