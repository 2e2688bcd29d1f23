/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "geometry/neighbour_tree.h"

/* A tree packed into two arrays. Items are put in order by halving them again and again at the median of their middles
 * along the axis on which these are spread most; runs of FAN items make blocks, runs of FAN blocks make blocks of the
 * next level, so that children are found by counting and no links are stored. A block holds its children's boxes side
 * by side, and one comparison tests four of them. All pairs come from one walk down the tree for each lowest block, not
 * for each item, skipping what lies before it. Building is O(n log n); halving ends because each part is smaller.
 * Changed items stand in a side list that every search also passes; what it replaces in the tree is masked by a bit.
 * Not found: nothing that meets is missed; boxes of long slanted runs are wide, and their pairs many. */

#define SIDE_MIN 64
#define SIDE_PER 64

/* ---- building ---- */

typedef struct
{
  guint32 middle[3]; /* of the box; floats mapped so that whole numbers compare as they do */
  guint32 item;
} Entry;

/* Total: items are distinct. */
static inline guint64
entry_key (const Entry *entry, int axis)
{
  return (guint64) entry->middle[axis] << 32 | entry->item;
}

static inline void
swap_entries (Entry *a, Entry *b)
{
  Entry kept = *a;
  *a = *b;
  *b = kept;
}

static guint64
middle_key (const Entry *e, gsize n, int axis)
{
  guint64 a = entry_key (&e[0], axis), b = entry_key (&e[n / 2], axis), c = entry_key (&e[n - 1], axis);
  return MAX (MIN (a, b), MIN (MAX (a, b), c));
}

/* Puts the `rank` lowest first: quickselect, without a branch in its loop, which no processor would foresee. */
static void
select_lowest (Entry *e, gsize n, gsize rank, int axis)
{
  while (n > 2 && rank > 0 && rank < n)
    {
      guint64 pivot = middle_key (e, n, axis);
      gsize lower = 0; /* at least one in the end: the pivot is the middle of three */
      for (gsize i = 0; i < n; i++)
        {
          gboolean is_lower = entry_key (&e[i], axis) < pivot;
          swap_entries (&e[i], &e[lower]);
          lower += is_lower;
        }
      if (rank < lower)
        n = lower;
      else
        e += lower, n -= lower, rank -= lower;
    }
  if (n == 2 && rank == 1 && entry_key (&e[1], axis) < entry_key (&e[0], axis))
    swap_entries (&e[0], &e[1]);
}

static float
float_of_key (guint32 key)
{
  guint32 bits = key & 0x80000000u ? key ^ 0x80000000u : ~key;
  float value;
  memcpy (&value, &bits, sizeof value);
  return value;
}

static guint32
key_of_float (float value)
{
  guint32 bits;
  memcpy (&bits, &value, sizeof bits);
  return bits & 0x80000000u ? ~bits : bits | 0x80000000u;
}

static int
widest_axis (const Entry *entries, gsize n)
{
  guint32 low[3] = { G_MAXUINT32, G_MAXUINT32, G_MAXUINT32 }, high[3] = { 0, 0, 0 };
  for (gsize i = 0; i < n; i++)
    for (int k = 0; k < 3; k++)
      {
        low[k] = MIN (low[k], entries[i].middle[k]);
        high[k] = MAX (high[k], entries[i].middle[k]);
      }
  float x = float_of_key (high[0]) - float_of_key (low[0]), y = float_of_key (high[1]) - float_of_key (low[1]);
  float z = float_of_key (high[2]) - float_of_key (low[2]);
  return x >= y && x >= z ? 0 : y >= z ? 1 : 2;
}

/* Halves at multiples of `part`, the number of items in one child at this level, and goes on inside the children. */
static void
put_in_order (Entry *entries, gsize n, gsize part)
{
  while (part >= n)
    {
      if (part <= FAN)
        return;
      part /= FAN;
    }
  gsize children = (n + part - 1) / part, left = children / 2 * part;
  select_lowest (entries, n, left, widest_axis (entries, n));
  put_in_order (entries, left, part);
  put_in_order (entries + left, n - left, part);
}

static float
middle_of (float low, float high)
{
  double middle = ((double) low + high) / 2;
  return isfinite (middle) ? (float) middle : 0; /* empty or endless: anywhere */
}

static Entry *
entries_of (const Box *boxes, guint n)
{
  Entry *entries = g_new (Entry, n);
  for (guint i = 0; i < n; i++)
    {
      for (int k = 0; k < 3; k++)
        entries[i].middle[k] = key_of_float (middle_of (boxes[i].low[k], boxes[i].high[k]));
      entries[i].item = i;
    }
  return entries;
}

static void
fill_levels (Tree *tree, const Box *boxes)
{
  for (guint level = 0; level < tree->n_levels; level++)
    {
      guint n_blocks = tree->first[level + 1] - tree->first[level];
      guint n_below = level == 0 ? tree->n : tree->first[level] - tree->first[level - 1];
      for (guint i = 0; i < n_blocks * FAN; i++)
        {
          Box box = i >= n_below ? no_box
                    : level == 0 ? boxes[tree->items[i]]
                                 : block_box (&tree->blocks[tree->first[level - 1] + i]);
          set_child (&tree->blocks[tree->first[level] + i / FAN], i % FAN, box);
        }
    }
}

static Tree *
tree_new (const Box *boxes, guint n)
{
  Tree *tree = g_new0 (Tree, 1);
  g_atomic_ref_count_init (&tree->refs);
  tree->n = n;
  gsize part = FAN;
  for (guint below = n; tree->n_levels == 0 || below > 1; tree->n_levels++)
    {
      below = below / FAN + (below % FAN != 0 || below == 0);
      tree->first[tree->n_levels + 1] = tree->first[tree->n_levels] + below;
      part *= FAN;
    }
  g_autofree Entry *entries = entries_of (boxes, n);
  put_in_order (entries, n, part);
  guint padded = tree->first[1] * FAN;
  tree->items = g_new (guint32, padded);
  for (guint i = 0; i < padded; i++)
    tree->items[i] = i < n ? entries[i].item : NOBODY;
  tree->blocks = g_new (Block, tree->first[tree->n_levels]);
  fill_levels (tree, boxes);
  return tree;
}

static void
tree_unref (Tree *tree)
{
  if (!g_atomic_ref_count_dec (&tree->refs))
    return;
  g_free (tree->blocks);
  g_free (tree->items);
  g_free (tree);
}

static SwNeighbours *
index_new (Tree *tree, guint n)
{
  SwNeighbours *index = g_new0 (SwNeighbours, 1);
  g_atomic_ref_count_init (&index->refs);
  index->tree = tree;
  index->n = n;
  return index;
}

SwNeighbours *
sw_neighbours_new (const SwBox3 *boxes, guint n)
{
  g_assert (n < NOBODY / 2);
  g_autofree Box *rounded = g_new (Box, n);
  for (guint i = 0; i < n; i++)
    rounded[i] = box_of (boxes[i]);
  return index_new (tree_new (rounded, n), n);
}

SwNeighbours *
sw_neighbours_ref (SwNeighbours *index)
{
  g_atomic_ref_count_inc (&index->refs);
  return index;
}

void
sw_neighbours_unref (SwNeighbours *index)
{
  if (index == NULL || !g_atomic_ref_count_dec (&index->refs))
    return;
  tree_unref (index->tree);
  g_free (index->moved);
  g_free (index->side);
  g_free (index);
}

guint
sw_neighbours_count (const SwNeighbours *index)
{
  return index->n;
}

gsize
sw_neighbours_bytes (const SwNeighbours *index)
{
  const Tree *tree = index->tree;
  gsize moved = index->moved ? (tree->n + 31) / 32 * sizeof *index->moved : 0;
  return sizeof *index + sizeof *tree + tree->first[tree->n_levels] * sizeof *tree->blocks
         + tree->first[1] * FAN * sizeof *tree->items + moved + index->n_side * sizeof *index->side;
}

/* ---- changes ---- */

static int
compare_sides (gconstpointer pa, gconstpointer pb)
{
  const Side *a = pa, *b = pb;
  return a->item < b->item ? -1 : a->item > b->item;
}

/* Old side list and changes, sorted, the last of each item kept. Merge sort is stable, so "last" means the last given. */
static GArray *
merged_sides (const SwNeighbours *index, const SwNeighbourChange *changes, guint n_changes)
{
  GArray *all = g_array_new (FALSE, FALSE, sizeof (Side));
  g_array_append_vals (all, index->side, index->n_side);
  for (guint i = 0; i < n_changes; i++)
    {
      Side side = { changes[i].item, box_of (changes[i].box) };
      g_assert (side.item < NOBODY / 2);
      g_array_append_val (all, side);
    }
  g_array_sort (all, compare_sides);
  guint kept = 0;
  for (guint i = 0; i < all->len; i++)
    if (i + 1 == all->len || g_array_index (all, Side, i).item != g_array_index (all, Side, i + 1).item)
      g_array_index (all, Side, kept++) = g_array_index (all, Side, i);
  g_array_set_size (all, kept);
  return all;
}

static SwNeighbours *
rebuilt (const SwNeighbours *index, const GArray *sides, guint n)
{
  const Tree *tree = index->tree;
  g_autofree Box *boxes = g_new (Box, n);
  for (guint i = 0; i < n; i++)
    boxes[i] = no_box;
  for (guint i = 0; i < tree->n; i++)
    boxes[tree->items[i]] = child_box (&tree->blocks[i / FAN], i % FAN);
  for (guint i = 0; i < sides->len; i++)
    boxes[g_array_index (sides, Side, i).item] = g_array_index (sides, Side, i).box;
  return index_new (tree_new (boxes, n), n);
}

SwNeighbours *
sw_neighbours_with (const SwNeighbours *index, const SwNeighbourChange *changes, guint n_changes)
{
  g_autoptr (GArray) sides = merged_sides (index, changes, n_changes);
  guint n = index->n;
  if (sides->len > 0)
    n = MAX (n, g_array_index (sides, Side, sides->len - 1).item + 1);
  if (sides->len > SIDE_MIN + n / SIDE_PER)
    return rebuilt (index, sides, n);
  g_atomic_ref_count_inc (&index->tree->refs);
  SwNeighbours *with = index_new (index->tree, n);
  with->moved = g_new0 (guint32, (index->tree->n + 31) / 32);
  for (guint i = 0; i < sides->len; i++)
    {
      guint32 item = g_array_index (sides, Side, i).item;
      if (item < index->tree->n)
        with->moved[item / 32] |= 1u << (item % 32);
    }
  with->n_side = sides->len;
  with->side = (Side *) g_array_steal (sides, NULL);
  return with;
}

/* ---- queries ---- */

gboolean
sw_neighbours_query_box (const SwNeighbours *index, const Box *box, SwNeighbourFound found, gpointer data)
{
  const Tree *tree = index->tree;
  Node stack[STACK];
  guint depth = 0;
  stack[depth++] = (Node){ tree->n_levels - 1, 0 };
  while (depth > 0)
    {
      Node node = stack[--depth];
      guint bits = children_that_meet (&tree->blocks[tree->first[node.level] + node.block], box);
      for (; bits; bits &= bits - 1)
        {
          guint32 child = node.block * FAN + (guint) __builtin_ctz (bits);
          if (node.level > 0)
            stack[depth++] = (Node){ node.level - 1, child };
          else if (!has_moved (index, tree->items[child]) && !found (tree->items[child], data))
            return FALSE;
        }
    }
  for (guint i = 0; i < index->n_side; i++)
    if (boxes_meet (&index->side[i].box, box) && !found (index->side[i].item, data))
      return FALSE;
  return TRUE;
}

gboolean
sw_neighbours_query (const SwNeighbours *index, SwBox3 box, SwNeighbourFound found, gpointer data)
{
  Box rounded = box_of (box);
  return sw_neighbours_query_box (index, &rounded, found, data);
}

static gboolean
append_item (guint32 item, gpointer data)
{
  g_array_append_val ((GArray *) data, item);
  return TRUE;
}

static int
compare_items (gconstpointer pa, gconstpointer pb)
{
  guint32 a = *(const guint32 *) pa, b = *(const guint32 *) pb;
  return a < b ? -1 : a > b;
}

void
sw_neighbours_find (const SwNeighbours *index, SwBox3 box, GArray *items)
{
  guint before = items->len;
  sw_neighbours_query (index, box, append_item, items);
  if (items->len > before + 1)
    qsort (&g_array_index (items, guint32, before), items->len - before, sizeof (guint32), compare_items);
}

/* ---- nearest ---- */

typedef struct
{
  const SwNeighbours *index;
  double place[3];
  SwNeighbourFound accept;
  gpointer data;
  double best; /* squared */
  guint32 item;
} NearestSearch;

static double
square_to (const NearestSearch *search, Box box)
{
  double sum = 0;
  for (int k = 0; k < 3; k++)
    {
      double below = box.low[k] - search->place[k], above = search->place[k] - box.high[k];
      double off = below > 0 ? below : above > 0 ? above : box.low[k] <= box.high[k] ? 0 : INFINITY;
      sum += off * off;
    }
  return sum;
}

static void
consider (NearestSearch *search, guint32 item, double square)
{
  if (square > search->best || (square == search->best && item >= search->item) || square == INFINITY)
    return;
  if (search->accept && !search->accept (item, search->data))
    return;
  search->best = square;
  search->item = item;
}

/* Children from near to far, as long as they can still hold something as near as the best. */
static void
visit_near_to_far (NearestSearch *search, guint level, guint32 block)
{
  const Tree *tree = search->index->tree;
  double squares[FAN];
  for (guint i = 0; i < FAN; i++)
    squares[i] = square_to (search, child_box (&tree->blocks[tree->first[level] + block], i));
  for (;;)
    {
      guint near = 0;
      for (guint i = 1; i < FAN; i++)
        if (squares[i] < squares[near])
          near = i;
      if (squares[near] == INFINITY || squares[near] > search->best)
        return;
      guint32 child = block * FAN + near;
      if (level > 0)
        visit_near_to_far (search, level - 1, child);
      else if (!has_moved (search->index, tree->items[child]))
        consider (search, tree->items[child], squares[near]);
      squares[near] = INFINITY;
    }
}

gboolean
sw_neighbours_nearest (const SwNeighbours *index, SwPoint3 place, SwNeighbourFound accept, gpointer data, guint32 *item,
                       double *distance)
{
  NearestSearch search = { index, { place.x, place.y, place.z }, accept, data, INFINITY, NOBODY };
  for (guint i = 0; i < index->n_side; i++)
    consider (&search, index->side[i].item, square_to (&search, index->side[i].box));
  visit_near_to_far (&search, index->tree->n_levels - 1, 0);
  if (search.item == NOBODY)
    return FALSE;
  *item = search.item;
  if (distance)
    *distance = sqrt (search.best);
  return TRUE;
}
