/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A tree packed once from the bottom: boxes are sorted along a Hilbert-like order (sort, tile, recurse over x, y, z), then
 * every eight neighbours share a parent, up to one root. O(n log n) to make; a query visits the nodes that it meets. */
#include "space/index.h"
#include <stdlib.h>

#define FAN 8

typedef struct { float low[3], high[3]; } Node;

typedef struct
{
  double centre[3];
  guint i;
} Entry;

struct _SwIndex
{
  guint n_levels;
  guint first[16], count[16]; /* of each level in `nodes`, leaves first */
  Node *nodes;
  guint *order; /* leaf → box */
};

static float
round_down (double value)
{
  float near = (float) value;
  return near > value ? nextafterf (near, -INFINITY) : near;
}

static float
round_up (double value)
{
  float near = (float) value;
  return near < value ? nextafterf (near, INFINITY) : near;
}

static Node
node_of (SwBox3 box)
{
  return (Node){ { round_down (box.low.x), round_down (box.low.y), round_down (box.low.z) },
                 { round_up (box.high.x), round_up (box.high.y), round_up (box.high.z) } };
}

#define BY_AXIS(name, axis) \
  static int name (gconstpointer a, gconstpointer b) \
  { \
    const Entry *p = a, *q = b; \
    if (p->centre[axis] != q->centre[axis]) \
      return p->centre[axis] < q->centre[axis] ? -1 : 1; \
    return (p->i > q->i) - (p->i < q->i); \
  }
BY_AXIS (by_x, 0)
BY_AXIS (by_y, 1)
BY_AXIS (by_z, 2)

/* Sort-tile-recursive: slabs along x, strips along y in each, sorted along z in each. */
static void
order_entries (Entry *entries, guint n)
{
  guint leaves = (n + FAN - 1) / FAN, side = (guint) ceil (cbrt (leaves));
  guint slab = side * side * FAN, strip = side * FAN;
  qsort (entries, n, sizeof *entries, by_x);
  for (guint i = 0; i < n; i += slab)
    {
      guint in_slab = MIN (slab, n - i);
      qsort (entries + i, in_slab, sizeof *entries, by_y);
      for (guint k = 0; k < in_slab; k += strip)
        qsort (entries + i + k, MIN (strip, in_slab - k), sizeof *entries, by_z);
    }
}

static void
node_join (Node *a, const Node *b)
{
  for (int axis = 0; axis < 3; axis++)
    {
      a->low[axis] = MIN (a->low[axis], b->low[axis]);
      a->high[axis] = MAX (a->high[axis], b->high[axis]);
    }
}

static void
index_stack_levels (SwIndex *index)
{
  for (guint level = 1; level < index->n_levels; level++)
    for (guint i = 0; i < index->count[level]; i++)
      {
        guint from = i * FAN, to = MIN (from + FAN, index->count[level - 1]);
        Node *node = &index->nodes[index->first[level] + i];
        const Node *below = &index->nodes[index->first[level - 1]];
        *node = below[from];
        for (guint k = from + 1; k < to; k++)
          node_join (node, &below[k]);
      }
}

SwIndex *
sw_index_new (const SwBox3 *boxes, guint n)
{
  SwIndex *index = g_new0 (SwIndex, 1);
  guint total = 0;
  for (guint count = n; count > 0; count = count > 1 ? (count + FAN - 1) / FAN : 0)
    {
      index->first[index->n_levels] = total;
      index->count[index->n_levels++] = count;
      total += count;
    }
  index->nodes = g_new (Node, MAX (total, 1));
  index->order = g_new (guint, MAX (n, 1));
  g_autofree Entry *entries = g_new (Entry, MAX (n, 1));
  for (guint i = 0; i < n; i++)
    entries[i] = (Entry){ { boxes[i].low.x + boxes[i].high.x, boxes[i].low.y + boxes[i].high.y, boxes[i].low.z + boxes[i].high.z }, i };
  order_entries (entries, n);
  for (guint i = 0; i < n; i++)
    {
      index->order[i] = entries[i].i;
      index->nodes[i] = node_of (boxes[entries[i].i]);
    }
  index_stack_levels (index);
  return index;
}

void
sw_index_free (SwIndex *index)
{
  g_free (index->nodes);
  g_free (index->order);
  g_free (index);
}

static gboolean
node_meets (const Node *a, const Node *b)
{
  return a->low[0] <= b->high[0] && b->low[0] <= a->high[0] && a->low[1] <= b->high[1] && b->low[1] <= a->high[1] && a->low[2] <= b->high[2]
         && b->low[2] <= a->high[2];
}

static gboolean
visit (const SwIndex *index, guint level, guint i, const Node *wanted, gboolean (*each) (guint, gpointer), gpointer data)
{
  if (!node_meets (&index->nodes[index->first[level] + i], wanted))
    return TRUE;
  if (level == 0)
    return each (index->order[i], data);
  guint to = MIN ((i + 1) * FAN, index->count[level - 1]);
  for (guint k = i * FAN; k < to; k++)
    if (!visit (index, level - 1, k, wanted, each, data))
      return FALSE;
  return TRUE;
}

void
sw_index_query (const SwIndex *index, SwBox3 box, gboolean (*each) (guint i, gpointer data), gpointer data)
{
  Node wanted = node_of (box);
  if (index->n_levels > 0)
    visit (index, index->n_levels - 1, 0, &wanted, each, data);
}
