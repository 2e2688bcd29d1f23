/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The spatial lookup: items in Morton order of their centres, packed SW_INDEX_FAN to a leaf, leaves to nodes and so
 * on up. Built once, O(n log n); a query visits nodes whose box, grown by the reach of widths and letters at the
 * query's scale, meets the query's, and whose levels of detail and layers can show: about O(log n + found). A bit per
 * item keeps painting order without a sort. */
#include "drawing/display_data.h"
#include <stdlib.h>

typedef struct
{
  guint64 key;
  guint32 item;
} Keyed;

static guint64
spread_bits (guint32 v)
{
  guint64 x = v;
  x = (x | (x << 16)) & G_GUINT64_CONSTANT (0x0000FFFF0000FFFF);
  x = (x | (x << 8)) & G_GUINT64_CONSTANT (0x00FF00FF00FF00FF);
  x = (x | (x << 4)) & G_GUINT64_CONSTANT (0x0F0F0F0F0F0F0F0F);
  x = (x | (x << 2)) & G_GUINT64_CONSTANT (0x3333333333333333);
  return (x | (x << 1)) & G_GUINT64_CONSTANT (0x5555555555555555);
}

static guint32
grid_step (double value, double low, double high)
{
  return high > low ? (guint32) ((value - low) / (high - low) * 4294967295.0) : 0;
}

static int
compare_keyed (const void *a, const void *b)
{
  const Keyed *x = a, *y = b;
  if (x->key != y->key)
    return x->key < y->key ? -1 : 1;
  return x->item < y->item ? -1 : x->item > y->item;
}

static void
sort_items (SwDisplay *display)
{
  guint n = display->items->len;
  g_autofree Keyed *keyed = g_new (Keyed, n);
  for (guint i = 0; i < n; i++)
    {
      SwPoint middle = sw_point_lerp (sw_display_item (display, i)->box.low, sw_display_item (display, i)->box.high, 0.5);
      guint32 x = grid_step (middle.x, display->box.low.x, display->box.high.x);
      guint32 y = grid_step (middle.y, display->box.low.y, display->box.high.y);
      keyed[i] = (Keyed){ spread_bits (x) | (spread_bits (y) << 1), i };
    }
  qsort (keyed, n, sizeof *keyed, compare_keyed);
  display->order = g_new (guint32, n);
  for (guint i = 0; i < n; i++)
    display->order[i] = keyed[i].item;
}

static void
node_add (SwIndexNode *node, const SwIndexNode *other)
{
  node->box = sw_box_union (node->box, other->box);
  node->reach_world = MAX (node->reach_world, other->reach_world);
  node->reach_paper = MAX (node->reach_paper, other->reach_paper);
  node->reach_px = MAX (node->reach_px, other->reach_px);
  node->least_detail = MIN (node->least_detail, other->least_detail);
  node->most_detail = MAX (node->most_detail, other->most_detail);
  node->layers |= other->layers;
}

static SwIndexNode
item_node (const SwItem *item)
{
  return (SwIndexNode){ item->box, item->reach_world, item->reach_paper, item->reach_px, item->least_detail,
                        item->most_detail, G_GUINT64_CONSTANT (1) << item->layer };
}

void
sw_display_index_build (SwDisplay *display)
{
  guint n = display->items->len, width = n, total = 0, level = 0;
  if (n == 0)
    return;
  sort_items (display);
  do
    {
      width = (width + SW_INDEX_FAN - 1) / SW_INDEX_FAN;
      display->level_start[level++] = total;
      total += width;
    }
  while (width > 1);
  display->level_start[level] = total;
  display->n_levels = level;
  display->nodes = g_new (SwIndexNode, total);
  for (guint i = 0; i < total; i++)
    display->nodes[i] = (SwIndexNode){ .box = SW_BOX_EMPTY, .least_detail = INFINITY };
  for (guint i = 0; i < n; i++)
    {
      SwIndexNode node = item_node (sw_display_item (display, display->order[i]));
      node_add (&display->nodes[i / SW_INDEX_FAN], &node);
    }
  for (guint up = 1; up < level; up++)
    for (guint i = display->level_start[up - 1]; i < display->level_start[up]; i++)
      node_add (&display->nodes[display->level_start[up] + (i - display->level_start[up - 1]) / SW_INDEX_FAN],
                &display->nodes[i]);
}

static gboolean
query_meets (const SwDisplayQuery *query, const SwIndexNode *node)
{
  double reach = node->reach_world + node->reach_paper * query->paper + node->reach_px * query->px;
  return (node->layers & query->layers) != 0 && node->least_detail <= query->detail && query->detail < node->most_detail
         && sw_box_meets (sw_box_grow (node->box, reach), query->box);
}

static void
query_node (const SwDisplay *display, const SwDisplayQuery *query, guint level, guint at, guint64 *bits)
{
  if (!query_meets (query, &display->nodes[display->level_start[level] + at]))
    return;
  guint first = at * SW_INDEX_FAN;
  guint width = level > 0 ? display->level_start[level] - display->level_start[level - 1] : display->items->len;
  guint last = MIN (first + SW_INDEX_FAN, width);
  for (guint i = first; i < last; i++)
    if (level > 0)
      query_node (display, query, level - 1, i, bits);
    else
      {
        guint32 item = display->order[i];
        SwIndexNode node = item_node (sw_display_item (display, item));
        if (query_meets (query, &node))
          bits[item / 64] |= G_GUINT64_CONSTANT (1) << (item % 64);
      }
}

void
sw_display_query (const SwDisplay *display, const SwDisplayQuery *query, guint64 *bits)
{
  if (display->n_levels > 0 && !sw_box_is_empty (query->box))
    query_node (display, query, display->n_levels - 1, 0, bits);
}
