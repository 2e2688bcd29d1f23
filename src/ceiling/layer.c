/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/lay.h"
#include "base/number.h"
#include "base/tolerance.h"

/* One layer of members: where one can lie, what holds it, and how it is put in. */

void
sw_layer_free_at (const SwLayer *layer, double at, double width, GArray *out)
{
  double low = at - width / 2, high = at + width / 2;
  sw_rings_band (layer->clear, low, high, out);
  for (guint i = 0; i < layer->quads->len; i++)
    sw_intervals_keep_off (out, g_array_index (layer->quads, SwQuad, i).corner, 4, low, high);
}

void
sw_layer_add (SwLayer *layer, int kind, SwPoint from, SwPoint to, double width)
{
  SwQuad quad = sw_quad_around (from, to, width);
  SwPoint a = sw_frame_from (&layer->frame, from), b = sw_frame_from (&layer->frame, to);
  SwCeilingMember member = { .member = { { sw_grid_round (a.x), sw_grid_round (a.y) },
                                         { sw_grid_round (b.x), sw_grid_round (b.y) },
                                         width, layer->depth, layer->top, kind },
                             .part = layer->part,
                             .centres = layer->centres };
  g_array_append_val (layer->lay->ceiling->members, member);
  g_array_append_val (layer->quads, quad);
}

GArray *
sw_layer_holds (const SwLayer *layer, SwPoint from, SwPoint to)
{
  GArray *places = g_array_new (FALSE, FALSE, sizeof (double));
  SwPoint a = sw_frame_from (&layer->frame, from), b = sw_frame_from (&layer->frame, to);
  g_autoptr (GArray) holds = g_array_new (FALSE, FALSE, sizeof (SwRibHold));
  const SwCeilingPart *part = &g_array_index (layer->lay->ceiling->parts, SwCeilingPart, layer->part);
  if (part->framed)
    return places;
  if (layer->kind == SW_MEMBER_BATTEN && part->layered)
    sw_lay_rests (layer->lay, layer->part, a, b, places);
  else
    sw_lay_holds (layer->lay, a, b, holds);
  for (guint i = 0; i < holds->len; i++)
    g_array_append_val (places, g_array_index (holds, SwRibHold, i).along);
  g_array_sort (places, sw_compare_doubles);
  return places;
}

gboolean
sw_layer_reach_holds (const SwLayer *layer, double x, SwInterval *stretch)
{
  g_autoptr (GArray) room = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  sw_layer_free_at (layer, x, layer->width, room);
  for (guint i = 0; i < room->len; i++)
    {
      SwInterval part = g_array_index (room, SwInterval, i);
      if (part.low > stretch->low + SW_TOUCH_MM || part.high < stretch->high - SW_TOUCH_MM)
        continue;
      g_autoptr (GArray) places = sw_layer_holds (layer, (SwPoint){ x, part.low }, (SwPoint){ x, part.high });
      double before = -INFINITY, after = INFINITY, reach = layer->lay->cantilever;
      for (guint k = 0; k < places->len; k++)
        {
          double y = part.low + g_array_index (places, double, k);
          if (y <= fmin (stretch->low + reach, stretch->high))
            before = fmax (before, y);
          if (y >= fmax (stretch->high - reach, stretch->low))
            after = fmin (after, y);
        }
      if (isfinite (before))
        stretch->low = fmax (part.low, fmin (stretch->low, before - layer->width));
      if (isfinite (after))
        stretch->high = fmin (part.high, fmax (stretch->high, after + layer->width));
      return TRUE;
    }
  return FALSE;
}

gboolean
sw_quads_meet_end (const GArray *quads, SwPoint end, SwPoint way, double width)
{
  const double gap = 5;
  SwPoint side = { -way.y * width / 2, way.x * width / 2 };
  for (guint i = 0; i < quads->len; i++)
    for (int k = -1; k <= 1; k++)
      {
        const SwPoint *corners = g_array_index (quads, SwQuad, i).corner;
        SwPoint p = sw_point_add (end, sw_point_scale (side, k));
        if (sw_outline_holds (corners, 4, p) || sw_outline_distance (corners, 4, p, NULL, NULL) <= gap)
          return TRUE;
      }
  return FALSE;
}

gboolean
sw_layer_carries_end (const SwLayer *layer, int kind, SwPoint end, SwPoint way)
{
  const GArray *members = layer->lay->ceiling->members;
  g_autoptr (GArray) quads = g_array_new (FALSE, FALSE, sizeof (SwQuad));
  for (guint i = 0; i < members->len; i++)
    {
      const SwCeilingMember *member = &g_array_index (members, SwCeilingMember, i);
      if (member->part != layer->part || member->member.top != layer->top || !sw_member_carries (member->member.kind, kind))
        continue;
      SwQuad quad = sw_quad_around (sw_frame_to (&layer->frame, member->member.from), sw_frame_to (&layer->frame, member->member.to), member->member.width);
      g_array_append_val (quads, quad);
    }
  return sw_quads_meet_end (quads, end, way, layer->width);
}

void
sw_layer_mark (SwLayer *layer, SwCeilingMarkKind kind, SwId owner, SwPoint local, double value, double limit,
               const char *rule_id)
{
  SwCeilingMark mark = { kind, owner, sw_frame_from (&layer->frame, local), value, limit, rule_id };
  g_array_append_val (layer->lay->ceiling->marks, mark);
}
