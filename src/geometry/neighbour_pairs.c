/* SPDX-License-Identifier: GPL-3.0-or-later */
/* All pairs of near items: one walk down the tree for each lowest block, not for each item, skipping what lies before it. Items
 * may be of classes, each two of which reach as far as a table says: a pair is judged by that where it is found, before any
 * function is called. O(n log n + pairs within the reaches of their classes). */
#include "geometry/neighbour_tree.h"
#include <stdlib.h>

/* ---- pairs ---- */

typedef struct
{
  const SwNeighbours *a, *b;
  gboolean within; /* a is b, and each pair counts once */
  double grow;
  const SwNeighbourClasses *classes; /* NULL: all reach `grow` */
  const float *farthest;             /* by class: the most that it reaches */
  guint32 asking;  /* an item of a's side list, or of b's when `turned` */
  gboolean turned, ended;
  SwNeighbourPair found;
  gpointer data;
} PairSearch;

static void
add_pair (PairSearch *search, guint32 first, guint32 second)
{
  if (search->ended)
    return;
  if (search->within && first > second)
    search->ended = !search->found (second, first, search->data);
  else
    search->ended = !search->found (first, second, search->data);
}

/* How far an item reaches, negative for not at all. */
static double
reach_of (const PairSearch *search, guint32 item)
{
  return search->classes == NULL || item == NOBODY ? search->grow : (double) search->farthest[search->classes->of[item]];
}

static gboolean
are_within (const Block *a, guint i, const Block *b, guint j, double reach)
{
  for (int k = 0; k < 3; k++)
    if ((double) a->low[k][i] - b->high[k][j] > reach || (double) b->low[k][j] - a->high[k][i] > reach)
      return FALSE;
  return TRUE;
}

/* By what their classes say of each other. */
static gboolean
are_a_pair (const PairSearch *search, guint32 block_a, guint i, guint32 block_b, guint j)
{
  const SwNeighbourClasses *classes = search->classes;
  if (classes == NULL)
    return TRUE;
  const Tree *ta = search->a->tree, *tb = search->b->tree;
  guint8 a = classes->of[ta->items[block_a * FAN + i]], b = classes->of[tb->items[block_b * FAN + j]];
  double reach = (double) classes->reach[a * classes->n + b];
  return reach >= 0 && are_within (&ta->blocks[block_a], i, &tb->blocks[block_b], j, reach);
}

/* Items of one lowest block of a against one of b. */
static void
pair_blocks (PairSearch *search, guint32 block_a, guint32 block_b, const Box *grown_a, Box grown_b)
{
  const Tree *ta = search->a->tree, *tb = search->b->tree;
  gboolean same = search->within && block_a == block_b;
  guint asking = children_that_meet (&ta->blocks[block_a], &grown_b);
  for (; asking; asking &= asking - 1)
    {
      guint i = (guint) __builtin_ctz (asking);
      guint32 item = ta->items[block_a * FAN + i];
      if (has_moved (search->a, item))
        continue;
      guint bits = children_that_meet (&tb->blocks[block_b], &grown_a[i]);
      if (same)
        bits &= ~0u << (i + 1);
      for (; bits; bits &= bits - 1)
        {
          guint j = (guint) __builtin_ctz (bits);
          guint32 other = tb->items[block_b * FAN + j];
          if (!has_moved (search->b, other) && are_a_pair (search, block_a, i, block_b, j))
            add_pair (search, item, other);
        }
    }
}

/* Children of a lowest block, each grown by what it reaches, and the box of all; the greatest reach, negative when none asks. */
static double
grown_children (const PairSearch *search, guint32 block, Box *each, Box *all)
{
  const Tree *tree = search->a->tree;
  Block asking;
  double most = -1;
  for (guint i = 0; i < FAN; i++)
    {
      double reach = reach_of (search, tree->items[block * FAN + i]);
      each[i] = reach < 0 ? no_box : grown (child_box (&tree->blocks[block], i), reach);
      set_child (&asking, i, each[i]);
      most = MAX (most, reach);
    }
  *all = block_box (&asking);
  return most;
}

/* One lowest block of a, down the tree of b; within one set only what does not lie before it. */
static void
pair_block_with_tree (PairSearch *search, guint32 block)
{
  const Tree *tb = search->b->tree;
  Box each[FAN], all;
  double reach = grown_children (search, block, each, &all);
  if (reach < 0)
    return;
  if (tb->n_levels == 1)
    {
      pair_blocks (search, block, 0, each, grown (block_box (&tb->blocks[0]), reach));
      return;
    }
  Node stack[STACK];
  guint depth = 0;
  stack[depth++] = (Node){ tb->n_levels - 1, 0 };
  while (depth > 0)
    {
      Node node = stack[--depth];
      const Block *here = &tb->blocks[tb->first[node.level] + node.block];
      for (guint bits = children_that_meet (here, &all); bits; bits &= bits - 1)
        {
          guint k = (guint) __builtin_ctz (bits);
          guint64 child = (guint64) node.block * FAN + k;
          if (search->within && (child + 1) << (3 * (node.level - 1)) <= block)
            continue;
          if (node.level > 1)
            stack[depth++] = (Node){ node.level - 1, (guint32) child };
          else
            pair_blocks (search, block, (guint32) child, each, grown (child_box (here, k), reach));
        }
    }
}

G_STATIC_ASSERT (FAN == 1 << 3);

static gboolean
is_on_side (const SwNeighbours *index, guint32 item)
{
  return item >= index->tree->n || has_moved (index, item);
}

static gboolean
pair_asking_with (guint32 item, gpointer data)
{
  PairSearch *search = data;
  gboolean asks_too = (search->within || search->turned) && is_on_side (search->a, item);
  if (asks_too && !(search->within && item > search->asking))
    return TRUE; /* their pair comes when that one asks */
  const SwNeighbourClasses *classes = search->classes;
  if (classes != NULL && classes->reach[classes->of[item] * classes->n + classes->of[search->asking]] < 0)
    return TRUE;
  add_pair (search, search->turned ? item : search->asking, search->turned ? search->asking : item);
  return TRUE;
}

static void
pair_side_list (PairSearch *search, gboolean turned)
{
  const SwNeighbours *from = turned ? search->b : search->a, *to = turned ? search->a : search->b;
  search->turned = turned;
  for (guint i = 0; i < from->n_side; i++)
    {
      Box box = grown (from->side[i].box, search->grow);
      search->asking = from->side[i].item;
      sw_neighbours_query_box (to, &box, pair_asking_with, search);
    }
}

static int
compare_seconds (gconstpointer pa, gconstpointer pb)
{
  const SwPair *a = pa, *b = pb;
  return a->second < b->second ? -1 : a->second > b->second;
}

/* By first: counting; by second within that: a plain sort of the few that share it. */
static GArray *
sorted_pairs (const GArray *pairs, guint n_first)
{
  const SwPair *from = (const SwPair *) pairs->data;
  g_autofree gsize *start = g_new0 (gsize, (gsize) n_first + 1);
  for (guint i = 0; i < pairs->len; i++)
    start[from[i].first + 1]++;
  for (guint i = 0; i < n_first; i++)
    start[i + 1] += start[i];
  GArray *sorted = g_array_sized_new (FALSE, FALSE, sizeof (SwPair), pairs->len);
  g_array_set_size (sorted, pairs->len);
  SwPair *to = (SwPair *) sorted->data;
  for (guint i = 0; i < pairs->len; i++)
    to[start[from[i].first]++] = from[i];
  for (guint i = 0, end; i < pairs->len; i = end)
    {
      for (end = i + 1; end < pairs->len && to[end].first == to[i].first;)
        end++;
      if (end - i > 1)
        qsort (&to[i], end - i, sizeof *to, compare_seconds);
    }
  return sorted;
}

static gboolean
search_pairs (PairSearch *search)
{
  for (guint block = 0; block < search->a->tree->first[1] && !search->ended; block++)
    pair_block_with_tree (search, block);
  pair_side_list (search, FALSE);
  if (!search->within)
    pair_side_list (search, TRUE);
  return !search->ended;
}

static gboolean
each_pair (const SwNeighbours *a, const SwNeighbours *b, gboolean within, double grow, SwNeighbourPair found, gpointer data)
{
  PairSearch search = { .a = a, .b = b, .within = within, .grow = grow, .found = found, .data = data };
  return search_pairs (&search);
}

gboolean
sw_neighbours_each_pair (const SwNeighbours *index, double grow, SwNeighbourPair found, gpointer data)
{
  return each_pair (index, index, TRUE, grow, found, data);
}

gboolean
sw_neighbours_each_pair_of (const SwNeighbours *index, const SwNeighbourClasses *classes, SwNeighbourPair found, gpointer data)
{
  g_autofree float *farthest = g_new (float, MAX (classes->n, 1));
  PairSearch search = { .a = index, .b = index, .within = TRUE, .classes = classes, .farthest = farthest, .found = found, .data = data };
  for (guint a = 0; a < classes->n; a++)
    {
      farthest[a] = -1;
      for (guint b = 0; b < classes->n; b++)
        farthest[a] = MAX (farthest[a], classes->reach[a * classes->n + b]);
      search.grow = MAX (search.grow, (double) farthest[a]);
    }
  return search_pairs (&search);
}

static gboolean
append_pair (guint32 first, guint32 second, gpointer data)
{
  SwPair pair = { first, second };
  g_array_append_val ((GArray *) data, pair);
  return TRUE;
}

GArray *
sw_neighbours_pairs (const SwNeighbours *index, double grow)
{
  g_autoptr (GArray) pairs = g_array_new (FALSE, FALSE, sizeof (SwPair));
  each_pair (index, index, TRUE, grow, append_pair, pairs);
  return sorted_pairs (pairs, index->n);
}

GArray *
sw_neighbours_pairs_between (const SwNeighbours *a, const SwNeighbours *b, double grow)
{
  g_autoptr (GArray) pairs = g_array_new (FALSE, FALSE, sizeof (SwPair));
  each_pair (a, b, FALSE, grow, append_pair, pairs);
  return sorted_pairs (pairs, a->n);
}

