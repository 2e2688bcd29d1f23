/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Everything is brought into the display's own coordinates when it is added, so painters, lookup and hit testing know
 * nothing of nested transforms: arcs become cubic curves of at most an eighth of a turn (error below 5e-6 of the
 * radius), which stay true under any affine map. Styles are kept once each and named by number. */
#include "drawing/display_data.h"
#include <string.h>

#define FARTHEST_MM 1e9

typedef struct
{
  guint32 scope;
  SwTransform transform;
  double scale;
  int layer;
  double least_detail, most_detail;
} State;

typedef struct _SwDisplayBuilder
{
  GArray *states; /* State; the last is in use */
  guint32 first_verb, first_point;
  gboolean open, bad;
  GHashTable *styles; /* SwItemStyle → number + 1 */
} Builder;

static guint
style_hash (gconstpointer data)
{
  const guint8 *bytes = data;
  guint hash = 2166136261u;
  for (gsize i = 0; i < sizeof (SwItemStyle); i++)
    hash = (hash ^ bytes[i]) * 16777619u;
  return hash;
}

static gboolean
style_equal (gconstpointer a, gconstpointer b)
{
  return memcmp (a, b, sizeof (SwItemStyle)) == 0;
}

static State *
builder_state (const SwDisplay *display)
{
  GArray *states = display->builder->states;
  return &g_array_index (states, State, states->len - 1);
}

SwDisplay *
sw_display_new (void)
{
  SwDisplay *display = g_new0 (SwDisplay, 1);
  g_atomic_ref_count_init (&display->references);
  display->items = g_array_new (FALSE, TRUE, sizeof (SwItem));
  display->scopes = g_array_new (FALSE, TRUE, sizeof (SwScope));
  display->styles = g_array_new (FALSE, TRUE, sizeof (SwItemStyle));
  display->points = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  display->groups = g_array_new (FALSE, FALSE, sizeof (guint32));
  display->verbs = g_byte_array_new ();
  display->strings = g_string_chunk_new (1024);
  display->box = SW_BOX_EMPTY;
  display->builder = g_new0 (Builder, 1);
  display->builder->states = g_array_new (FALSE, TRUE, sizeof (State));
  display->builder->styles = g_hash_table_new_full (style_hash, style_equal, g_free, NULL);
  State outside = { SW_NO_SCOPE, SW_TRANSFORM_IDENTITY, 1, 0, 0, INFINITY };
  g_array_append_val (display->builder->states, outside);
  return display;
}

SwDisplay *
sw_display_ref (SwDisplay *display)
{
  g_atomic_ref_count_inc (&display->references);
  return display;
}

static void
builder_free (Builder *builder)
{
  if (builder == NULL)
    return;
  g_array_unref (builder->states);
  g_hash_table_unref (builder->styles);
  g_free (builder);
}

void
sw_display_unref (SwDisplay *display)
{
  if (!g_atomic_ref_count_dec (&display->references))
    return;
  builder_free (display->builder);
  g_array_unref (display->items);
  g_array_unref (display->scopes);
  g_array_unref (display->styles);
  g_array_unref (display->points);
  g_array_unref (display->groups);
  g_byte_array_unref (display->verbs);
  g_string_chunk_free (display->strings);
  g_free (display->order);
  g_free (display->nodes);
  g_free (display);
}

static void
count_in_scopes (SwDisplay *display, guint32 number)
{
  const SwItem *item = sw_display_item (display, number);
  display->box = sw_box_union (display->box, item->box);
  for (guint32 s = item->scope; s != SW_NO_SCOPE; s = sw_display_scope (display, s)->parent)
    {
      SwScope *scope = &g_array_index (display->scopes, SwScope, s);
      scope->box = sw_box_union (scope->box, item->box);
      scope->first_item = scope->end_item == 0 ? number : scope->first_item;
      scope->end_item = number + 1;
    }
}

void
sw_display_seal (SwDisplay *display)
{
  if (display->sealed)
    return;
  for (guint i = 0; i < display->items->len; i++)
    count_in_scopes (display, i);
  sw_display_index_build (display);
  g_clear_pointer (&display->builder, builder_free);
  display->sealed = TRUE;
}

gboolean
sw_display_is_sealed (const SwDisplay *display)
{
  return display->sealed;
}

char *
sw_display_clean_text (const char *text)
{
  g_autofree char *valid = g_utf8_make_valid (text, -1);
  GString *clean = g_string_new (NULL);
  for (const char *at = valid; *at != '\0'; at = g_utf8_next_char (at))
    {
      gunichar c = g_utf8_get_char (at);
      gboolean control = c < 0x20 || (c >= 0x7F && c < 0xA0) || c == 0x2028 || c == 0x2029;
      g_string_append_unichar (clean, control ? ' ' : c == 0xFFFE || c == 0xFFFF ? 0xFFFD : c);
    }
  return g_string_free (clean, FALSE);
}

/* In the display's keeping. */
static const char *
keep_string (SwDisplay *display, const char *text)
{
  g_autofree char *clean = text != NULL ? sw_display_clean_text (text) : NULL;
  return clean != NULL ? g_string_chunk_insert_const (display->strings, clean) : NULL;
}

/* Scopes and texts stand between paths, not within one. */
static gboolean
is_between_items (const SwDisplay *display)
{
  return !display->sealed && display->verbs->len == display->builder->first_verb;
}

static void
begin_scope (SwDisplay *display, SwScope scope)
{
  State state = *builder_state (display);
  scope.parent = state.scope;
  scope.box = SW_BOX_EMPTY;
  state.scope = display->scopes->len;
  g_array_append_val (display->scopes, scope);
  g_array_append_val (display->builder->states, state);
}

void
sw_display_begin_group (SwDisplay *display, const SwDisplayGroup *group)
{
  g_return_if_fail (is_between_items (display));
  SwScope scope = { .kind = SW_SCOPE_GROUP, .group = display->groups->len, .key = group->key };
  scope.id = keep_string (display, group->id);
  scope.class_name = keep_string (display, group->class_name);
  scope.title = keep_string (display, group->title);
  scope.description = keep_string (display, group->description);
  guint32 index = display->scopes->len;
  g_array_append_val (display->groups, index);
  begin_scope (display, scope);
}

void
sw_display_begin_transform (SwDisplay *display, SwTransform transform)
{
  g_return_if_fail (is_between_items (display));
  g_return_if_fail (sw_transform_is_usable (transform));
  begin_scope (display, (SwScope){ .kind = SW_SCOPE_TRANSFORM });
  State *state = builder_state (display);
  double scale = sw_transform_scale (transform);
  state->transform = sw_transform_join (state->transform, transform);
  state->scale *= scale;
}

static double
within_range (double value)
{
  return isnan (value) ? 0 : CLAMP (value, -FARTHEST_MM, FARTHEST_MM);
}

void
sw_display_begin_clip (SwDisplay *display, const SwPoint *ring, gsize n)
{
  g_return_if_fail (is_between_items (display) && n >= 3);
  SwScope scope = { .kind = SW_SCOPE_CLIP, .first_point = display->points->len, .n_points = (guint32) n };
  for (gsize i = 0; i < n; i++)
    {
      SwPoint p = sw_transform_point (builder_state (display)->transform, ring[i]);
      p = (SwPoint){ within_range (p.x), within_range (p.y) };
      g_array_append_val (display->points, p);
    }
  begin_scope (display, scope);
  display->builder->first_point = display->points->len;
}

void
sw_display_begin_clip_box (SwDisplay *display, SwBox box)
{
  SwPoint ring[] = { box.low, { box.high.x, box.low.y }, box.high, { box.low.x, box.high.y } };
  sw_display_begin_clip (display, ring, 4);
}

void
sw_display_end (SwDisplay *display)
{
  g_return_if_fail (is_between_items (display) && display->builder->states->len > 1);
  g_array_set_size (display->builder->states, display->builder->states->len - 1);
}

void
sw_display_set_layer (SwDisplay *display, int layer)
{
  g_return_if_fail (!display->sealed && layer >= 0 && layer < 64);
  builder_state (display)->layer = layer;
}

void
sw_display_set_detail (SwDisplay *display, double least, double most)
{
  g_return_if_fail (!display->sealed);
  State *state = builder_state (display);
  state->least_detail = least / state->scale;
  state->most_detail = most / state->scale;
}

double
sw_display_unit (const SwDisplay *display)
{
  return display->sealed ? 1 : 1 / builder_state (display)->scale;
}

static void
add_point (SwDisplay *display, SwPoint p)
{
  SwPoint to = sw_transform_point (builder_state (display)->transform, p);
  if (!(fabs (to.x) <= FARTHEST_MM && fabs (to.y) <= FARTHEST_MM))
    display->builder->bad = TRUE;
  g_array_append_val (display->points, to);
}

static void
add_verb (SwDisplay *display, SwVerb verb)
{
  guint8 byte = verb;
  g_byte_array_append (display->verbs, &byte, 1);
}

void
sw_display_move (SwDisplay *display, SwPoint to)
{
  g_return_if_fail (!display->sealed);
  add_verb (display, SW_VERB_MOVE);
  add_point (display, to);
  display->builder->open = TRUE;
}

void
sw_display_line (SwDisplay *display, SwPoint to)
{
  g_return_if_fail (!display->sealed);
  if (!display->builder->open)
    {
      sw_display_move (display, to);
      return;
    }
  add_verb (display, SW_VERB_LINE);
  add_point (display, to);
}

void
sw_display_arc (SwDisplay *display, SwPoint centre, double radius, double from, double sweep)
{
  g_return_if_fail (!display->sealed);
  sw_display_line (display, (SwPoint){ centre.x + radius * cos (from), centre.y + radius * sin (from) });
  if (!isfinite (sweep))
    display->builder->bad = TRUE;
  sweep = isfinite (sweep) ? CLAMP (sweep, -2 * G_PI, 2 * G_PI) : 0;
  int n = (int) ceil (fabs (sweep) / (G_PI / 4) - 1e-9);
  double step = n > 0 ? sweep / n : 0, handle = 4.0 / 3.0 * tan (step / 4) * radius;
  for (int i = 0; i < n; i++)
    {
      double a = from + i * step, b = from + (i + 1) * step;
      SwPoint start = { centre.x + radius * cos (a), centre.y + radius * sin (a) };
      SwPoint end = { centre.x + radius * cos (b), centre.y + radius * sin (b) };
      add_verb (display, SW_VERB_CURVE);
      add_point (display, (SwPoint){ start.x - handle * sin (a), start.y + handle * cos (a) });
      add_point (display, (SwPoint){ end.x + handle * sin (b), end.y - handle * cos (b) });
      add_point (display, end);
    }
}

void
sw_display_close (SwDisplay *display)
{
  g_return_if_fail (!display->sealed);
  if (display->builder->open)
    add_verb (display, SW_VERB_CLOSE);
  display->builder->open = FALSE;
}

void
sw_display_add_verbs (SwDisplay *display, const guint8 *verbs, guint n_verbs, const SwPoint *points, guint n_points)
{
  g_byte_array_append (display->verbs, verbs, n_verbs);
  for (guint i = 0; i < n_points; i++)
    add_point (display, points[i]);
}

/* Field by field, so that the bytes between fields stay 0 and equal styles compare equal. */
static void
copy_style (SwItemStyle *to, const SwItemStyle *from)
{
  memset (to, 0, sizeof *to);
  to->has_fill = from->has_fill;
  to->has_stroke = from->has_stroke;
  to->fill.role = from->fill.role;
  to->fill.hatching = from->fill.hatching;
  to->fill.transparency = from->fill.transparency;
  to->stroke.role = from->stroke.role;
  to->stroke.width = from->stroke.width;
  to->stroke.unit = from->stroke.unit;
  to->stroke.dash = from->stroke.dash;
  to->stroke.round = from->stroke.round;
  to->stroke.transparency = from->stroke.transparency;
  to->text.role = from->text.role;
  to->text.height = from->text.height;
  to->text.unit = from->text.unit;
  to->text.align = from->text.align;
  to->text.rise = from->text.rise;
  to->text.halo = from->text.halo;
  to->text.bold = from->text.bold;
  to->text.on = from->text.on;
}

static guint32
intern_style (SwDisplay *display, const SwItemStyle *style)
{
  SwItemStyle *key = g_new (SwItemStyle, 1);
  copy_style (key, style);
  gpointer found = g_hash_table_lookup (display->builder->styles, key);
  if (found != NULL)
    {
      g_free (key);
      return GPOINTER_TO_UINT (found) - 1;
    }
  g_array_append_val (display->styles, *key);
  g_hash_table_insert (display->builder->styles, key, GUINT_TO_POINTER (display->styles->len));
  return display->styles->len - 1;
}

static void
grow_item (SwItem *item, SwSizeUnit unit, double by)
{
  if (unit == SW_SIZE_WORLD)
    item->box = sw_box_grow (item->box, by);
  else if (unit == SW_SIZE_PAPER)
    item->reach_paper = by;
  else
    item->reach_px = by;
}

static SwItem
new_item (const SwDisplay *display)
{
  const State *state = builder_state (display);
  return (SwItem){ .box = SW_BOX_EMPTY, .scope = state->scope, .layer = (guint8) state->layer,
                   .least_detail = state->least_detail, .most_detail = state->most_detail };
}

static gboolean
is_size (double size)
{
  return isfinite (size) && size >= 0 && size <= FARTHEST_MM;
}

void
sw_display_paint (SwDisplay *display, const SwFill *fill, const SwStroke *stroke)
{
  g_return_if_fail (!display->sealed);
  Builder *builder = display->builder;
  SwItem item = new_item (display);
  item.first_verb = builder->first_verb;
  item.first_point = builder->first_point;
  item.n_verbs = display->verbs->len - builder->first_verb;
  item.n_points = display->points->len - builder->first_point;
  gboolean bad = builder->bad || (stroke != NULL && !is_size (stroke->width));
  if (bad || item.n_verbs == 0 || (fill == NULL && stroke == NULL))
    {
      g_byte_array_set_size (display->verbs, builder->first_verb);
      g_array_set_size (display->points, builder->first_point);
      display->n_left_out += bad;
    }
  else
    {
      SwItemStyle style = { .has_fill = fill != NULL, .has_stroke = stroke != NULL };
      style.fill = fill != NULL ? *fill : style.fill;
      style.stroke = stroke != NULL ? *stroke : style.stroke;
      if (style.stroke.unit == SW_SIZE_WORLD)
        style.stroke.width *= builder_state (display)->scale;
      for (guint i = 0; i < item.n_points; i++)
        item.box = sw_box_add (item.box, *sw_display_points (display, item.first_point + i));
      grow_item (&item, style.stroke.unit, style.stroke.width / 2);
      item.style = intern_style (display, &style);
      g_array_append_val (display->items, item);
    }
  builder->first_verb = display->verbs->len;
  builder->first_point = display->points->len;
  builder->open = builder->bad = FALSE;
}

void
sw_display_add_line (SwDisplay *display, SwPoint a, SwPoint b, const SwStroke *stroke)
{
  sw_display_add_polyline (display, (SwPoint[]){ a, b }, 2, stroke);
}

void
sw_display_add_polyline (SwDisplay *display, const SwPoint *points, gsize n, const SwStroke *stroke)
{
  for (gsize i = 0; i < n; i++)
    sw_display_line (display, points[i]);
  sw_display_paint (display, NULL, stroke);
}

void
sw_display_add_polygon (SwDisplay *display, const SwPoint *points, gsize n, const SwFill *fill, const SwStroke *stroke)
{
  for (gsize i = 0; i < n; i++)
    sw_display_line (display, points[i]);
  sw_display_close (display);
  sw_display_paint (display, fill, stroke);
}

void
sw_display_add_box (SwDisplay *display, SwBox box, const SwFill *fill, const SwStroke *stroke)
{
  SwPoint ring[] = { box.low, { box.high.x, box.low.y }, box.high, { box.low.x, box.high.y } };
  sw_display_add_polygon (display, ring, 4, fill, stroke);
}

void
sw_display_add_circle (SwDisplay *display, SwPoint centre, double radius, const SwFill *fill, const SwStroke *stroke)
{
  sw_display_arc (display, centre, radius, 0, 2 * G_PI);
  sw_display_close (display);
  sw_display_paint (display, fill, stroke);
}

void
sw_display_set_item_state (SwDisplay *display, const SwItem *like)
{
  State *state = builder_state (display);
  state->layer = like->layer;
  state->least_detail = like->least_detail / state->scale;
  state->most_detail = like->most_detail / state->scale;
}

void
sw_display_add_text_item (SwDisplay *display, const SwItem *like, SwPoint at, SwPoint direction, const SwTextStyle *style)
{
  const State *state = builder_state (display);
  SwPoint turned = sw_transform_vector (state->transform, direction);
  SwPoint place[2] = { sw_transform_point (state->transform, at), sw_point_scale (turned, 1 / sw_point_length (turned)) };
  if (!is_size (style->height) || !is_size (fabs (place[0].x)) || !is_size (fabs (place[0].y)) || !isfinite (place[1].x))
    {
      display->n_left_out++;
      return;
    }
  SwItem item = new_item (display);
  SwItemStyle kept = { .text = *style };
  if (style->unit == SW_SIZE_WORLD)
    kept.text.height *= state->scale;
  item.text = keep_string (display, like->text);
  item.mirrored = like->mirrored ^ (sw_transform_determinant (state->transform) < 0);
  item.box = sw_box_add (item.box, place[0]);
  /* No letter of common faces is wider than 1.1 of the font size; the rest is for what hangs below and above. */
  double reach = kept.text.height * (1.1 * SW_TEXT_EM * (double) g_utf8_strlen (item.text, -1) + 1.6);
  *(style->unit == SW_SIZE_WORLD ? &item.reach_world : style->unit == SW_SIZE_PAPER ? &item.reach_paper : &item.reach_px) = reach;
  item.style = intern_style (display, &kept);
  item.first_point = display->points->len;
  item.n_points = 2;
  g_array_append_vals (display->points, place, 2);
  g_array_append_val (display->items, item);
  display->builder->first_point = display->points->len;
}

void
sw_display_add_text (SwDisplay *display, SwPoint at, const char *text, const SwTextStyle *style)
{
  g_return_if_fail (is_between_items (display));
  SwItem like = { .text = text };
  if (text != NULL && *text != '\0')
    sw_display_add_text_item (display, &like, at, (SwPoint){ cos (style->turn), sin (style->turn) }, style);
}
