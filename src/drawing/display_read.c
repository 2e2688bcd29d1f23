/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/display_data.h"

guint
sw_display_n_items (const SwDisplay *display)
{
  return display->items->len;
}

guint
sw_display_n_left_out (const SwDisplay *display)
{
  return display->n_left_out;
}

SwBox
sw_display_box (const SwDisplay *display)
{
  return display->box;
}

guint
sw_display_n_groups (const SwDisplay *display)
{
  return display->groups->len;
}

static const SwScope *
group_scope (const SwDisplay *display, guint group)
{
  return sw_display_scope (display, g_array_index (display->groups, guint32, group));
}

SwDisplayGroup
sw_display_group (const SwDisplay *display, guint group)
{
  g_return_val_if_fail (group < display->groups->len, (SwDisplayGroup){ 0 });
  const SwScope *scope = group_scope (display, group);
  return (SwDisplayGroup){ scope->key, scope->id, scope->class_name, scope->title, scope->description };
}

SwBox
sw_display_group_box (const SwDisplay *display, guint group)
{
  g_return_val_if_fail (group < display->groups->len, SW_BOX_EMPTY);
  return group_scope (display, group)->box;
}

int
sw_display_group_parent (const SwDisplay *display, guint group)
{
  g_return_val_if_fail (group < display->groups->len, -1);
  guint32 scope = group_scope (display, group)->parent;
  while (scope != SW_NO_SCOPE && sw_display_scope (display, scope)->kind != SW_SCOPE_GROUP)
    scope = sw_display_scope (display, scope)->parent;
  return scope == SW_NO_SCOPE ? -1 : (int) sw_display_scope (display, scope)->group;
}

int
sw_display_find (const SwDisplay *display, int table, gint64 record, int after)
{
  for (guint group = (guint) (after + 1); group < display->groups->len; group++)
    {
      SwDisplayKey key = group_scope (display, group)->key;
      if (key.table == table && key.record == record)
        return (int) group;
    }
  return -1;
}

static guint
scope_depth (const SwDisplay *display, guint32 scope)
{
  guint depth = 0;
  for (; scope != SW_NO_SCOPE; scope = sw_display_scope (display, scope)->parent)
    depth++;
  return depth;
}

guint32
sw_display_scope_shared (const SwDisplay *display, guint32 a, guint32 b)
{
  guint depth_a = scope_depth (display, a), depth_b = scope_depth (display, b);
  for (; depth_a > depth_b; depth_a--)
    a = sw_display_scope (display, a)->parent;
  for (; depth_b > depth_a; depth_b--)
    b = sw_display_scope (display, b)->parent;
  while (a != b)
    {
      a = sw_display_scope (display, a)->parent;
      b = sw_display_scope (display, b)->parent;
    }
  return a;
}

/* Opens the scopes from `shared` (open already) down to `scope`. */
static void
open_scopes (SwDisplay *display, const SwDisplay *other, guint32 shared, guint32 scope)
{
  if (scope == shared)
    return;
  const SwScope *from = sw_display_scope (other, scope);
  open_scopes (display, other, shared, from->parent);
  if (from->kind == SW_SCOPE_CLIP)
    sw_display_begin_clip (display, sw_display_points (other, from->first_point), from->n_points);
  else if (from->kind == SW_SCOPE_GROUP)
    {
      SwDisplayGroup group = { from->key, from->id, from->class_name, from->title, from->description };
      sw_display_begin_group (display, &group);
    }
  else
    sw_display_begin_transform (display, SW_TRANSFORM_IDENTITY);
}

/* What of a display is copied: all, its paths only, or its paths with another stroke. */
typedef struct
{
  gboolean no_texts;
  const SwStroke *outline;
} Copy;

static void
append_item (SwDisplay *display, const SwDisplay *other, const SwItem *item, const Copy *copy)
{
  const SwItemStyle *style = sw_display_style (other, item->style);
  const SwPoint *points = sw_display_points (other, item->first_point);
  sw_display_set_item_state (display, item);
  if (item->text != NULL)
    {
      if (!copy->no_texts)
        sw_display_add_text_item (display, item, points[0], points[1], &style->text);
      return;
    }
  sw_display_add_verbs (display, other->verbs->data + item->first_verb, item->n_verbs, points, item->n_points);
  if (copy->outline != NULL)
    sw_display_paint (display, NULL, copy->outline);
  else
    sw_display_paint (display, style->has_fill ? &style->fill : NULL, style->has_stroke ? &style->stroke : NULL);
}

static void
append_items (SwDisplay *display, const SwDisplay *other, guint32 first, guint32 end, const Copy *copy)
{
  /* A scope of its own, so that layer and detail come back. */
  sw_display_begin_transform (display, SW_TRANSFORM_IDENTITY);
  guint32 open = SW_NO_SCOPE;
  for (guint32 i = first; i < end; i++)
    {
      const SwItem *item = sw_display_item (other, i);
      guint32 shared = sw_display_scope_shared (other, open, item->scope);
      for (; open != shared; open = sw_display_scope (other, open)->parent)
        sw_display_end (display);
      open_scopes (display, other, shared, item->scope);
      open = item->scope;
      append_item (display, other, item, copy);
    }
  for (; open != SW_NO_SCOPE; open = sw_display_scope (other, open)->parent)
    sw_display_end (display);
  sw_display_end (display);
}

void
sw_display_append (SwDisplay *display, const SwDisplay *other)
{
  g_return_if_fail (!display->sealed && other->sealed);
  append_items (display, other, 0, other->items->len, &(Copy){ FALSE, NULL });
}

void
sw_display_append_paths (SwDisplay *display, const SwDisplay *other)
{
  g_return_if_fail (!display->sealed && other->sealed);
  append_items (display, other, 0, other->items->len, &(Copy){ TRUE, NULL });
}

void
sw_display_append_outline (SwDisplay *display, const SwDisplay *other, guint group, const SwStroke *stroke)
{
  g_return_if_fail (!display->sealed && other->sealed && group < other->groups->len);
  const SwScope *scope = group_scope (other, group);
  append_items (display, other, scope->first_item, scope->end_item, &(Copy){ TRUE, stroke });
}

static int
innermost_group (const SwDisplay *display, guint32 scope)
{
  for (; scope != SW_NO_SCOPE; scope = sw_display_scope (display, scope)->parent)
    if (sw_display_scope (display, scope)->kind == SW_SCOPE_GROUP)
      return (int) sw_display_scope (display, scope)->group;
  return -1;
}

GArray *
sw_display_texts (const SwDisplay *display)
{
  GArray *texts = g_array_new (FALSE, FALSE, sizeof (SwDisplayText));
  g_return_val_if_fail (display->sealed, texts);
  for (guint32 i = 0; i < display->items->len; i++)
    {
      const SwItem *item = sw_display_item (display, i);
      if (item->text == NULL)
        continue;
      const SwPoint *points = sw_display_points (display, item->first_point);
      SwDisplayText text = { item->text, points[0], points[1], sw_display_style (display, item->style)->text, item->layer,
                             item->least_detail, item->most_detail, innermost_group (display, item->scope) };
      text.style.turn = atan2 (points[1].y, points[1].x);
      g_array_append_val (texts, text);
    }
  return texts;
}
