/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/linear_search.h"
#include <stdlib.h>

/* When two to three pieces a bar would do, from a stock of one length without end, a plan of at most three a bar with as few bars
 * as the sum of all lengths asks for is looked for directly: so many bars can waste no more than is then left over (`spare`),
 * often nothing. A depth-first search takes the length with the fewest ways to fill its bar up to that, tries them, the
 * least waste first, and goes back where some length has none. What it finds needs no other proof than that sum, in integers. It
 * ends after `limit` choices at the latest; then the programme has to do it (linear_node.c). A choice: lengths squared, since
 * counting stops at the fewest so far and, for one length, goes once along the list. */

#define MOST_STEPS 3000     /* when nothing may be wasted: there the programme is slow */
#define MOST_WASTING 250    /* when something may: mostly found at once, or not at all */
#define MOST_FILLS 64 /* ways of one bar that are tried */

typedef struct
{
  guint one, two;      /* kinds; n_kinds: none */
  gint64 waste;
} Fill;

typedef struct
{
  const SwLinearKind *kinds;
  guint n, steps, limit;
  gint64 room;
  int *left;           /* of each kind */
  int pieces;
  GArray *bars;        /* guint: three kinds a bar */
} Triples;

static guint
add_fill (Fill *fills, guint n, Fill fill)
{
  if (fills != NULL && n < MOST_FILLS)
    fills[n] = fill;
  return n + 1;
}

/* Ways to fill the rest of a bar with two pieces, one or none and no more waste than `spare`; counts up to `most`. */
static guint
fills_of (const Triples *t, gint64 rest, gint64 spare, guint most, Fill *fills)
{
  guint count = 0, far = t->n; /* kinds from `far` on fit beside the first */
  for (guint one = 0; one < t->n && count < most; one++)
    {
      if (t->left[one] == 0 || t->kinds[one].length > rest)
        continue;
      gint64 room = rest - t->kinds[one].length;
      if (room <= spare)
        count = add_fill (fills, count, (Fill){ one, t->n, room });
      while (far > 0 && t->kinds[far - 1].length <= room)
        far--;
      for (guint two = MAX (far, one); two < t->n && count < most && room - t->kinds[two].length <= spare; two++)
        if (t->left[two] > (two == one))
          count = add_fill (fills, count, (Fill){ one, two, room - t->kinds[two].length });
      if (2 * t->kinds[one].length + spare < rest)
        break;
    }
  return rest <= spare && count < most ? add_fill (fills, count, (Fill){ t->n, t->n, rest }) : count;
}

/* The kind with the fewest ways to fill its bar; n when some kind has none. */
static guint
tightest (Triples *t, gint64 spare)
{
  guint best = t->n, fewest = MOST_FILLS + 1;
  for (guint i = 0; i < t->n && fewest > 1; i++)
    {
      if (t->left[i] == 0)
        continue;
      t->left[i]--;
      guint count = fills_of (t, t->room - t->kinds[i].length, spare, fewest, NULL);
      t->left[i]++;
      if (count == 0)
        return t->n;
      if (count < fewest)
        {
          fewest = count;
          best = i;
        }
    }
  return best;
}

static int
compare_fills (const void *pa, const void *pb)
{
  const Fill *a = pa, *b = pb;
  if (a->waste != b->waste)
    return a->waste < b->waste ? -1 : 1;
  return a->one < b->one ? -1 : a->one > b->one;
}

static void
take (Triples *t, guint kind, int by)
{
  if (kind == t->n)
    return;
  t->left[kind] -= by;
  t->pieces -= by;
}

static gboolean
fill_bars (Triples *t, gint64 spare)
{
  Fill fills[MOST_FILLS];
  if (t->pieces == 0)
    return TRUE;
  guint kind = ++t->steps <= t->limit ? tightest (t, spare) : t->n;
  if (kind == t->n)
    return FALSE;
  take (t, kind, 1);
  guint n = fills_of (t, t->room - t->kinds[kind].length, spare, MOST_FILLS, fills);
  qsort (fills, n, sizeof *fills, compare_fills);
  for (guint i = 0; i < n && t->steps <= t->limit; i++)
    {
      guint bar[] = { kind, fills[i].one, fills[i].two };
      take (t, bar[1], 1);
      take (t, bar[2], 1);
      g_array_append_vals (t->bars, bar, 3);
      if (fill_bars (t, spare - fills[i].waste))
        return TRUE;
      g_array_set_size (t->bars, t->bars->len - 3);
      take (t, bar[1], -1);
      take (t, bar[2], -1);
    }
  take (t, kind, -1);
  return FALSE;
}

/* Writes the bars found down as the best plan. */
static gboolean
keep_bars (SwLinearSearch *search, const Triples *t, GError **error)
{
  g_autofree int *counts = g_new0 (int, t->n);
  g_array_set_size (search->best, 0);
  for (guint i = 0; i < t->bars->len; i += 3)
    {
      memset (counts, 0, t->n * sizeof *counts);
      for (guint k = 0; k < 3; k++)
        if (g_array_index (t->bars, guint, i + k) < t->n)
          counts[g_array_index (t->bars, guint, i + k)]++;
      guint way = sw_linear_way (search, 0, counts, error);
      if (way == G_MAXUINT)
        return FALSE;
      g_array_append_val (search->best, way);
    }
  search->best_cost = search->bound = t->bars->len / 3 * search->sizes[0].cost;
  return TRUE;
}

gboolean
sw_linear_triples (SwLinearSearch *search, GError **error)
{
  const SwLinearSize *size = &search->sizes[0];
  guint n = search->n_kinds;
  gint64 sum = 0;
  if (search->n_sizes != 1 || size->copies != G_MAXINT || n == 0)
    return TRUE;
  Triples t = { .kinds = search->kinds, .n = n, .room = size->room };
  for (guint i = 0; i < n; i++)
    {
      sum += search->kinds[i].length * search->kinds[i].demand;
      t.pieces += search->kinds[i].demand;
    }
  gint64 bars = (sum + size->room - 1) / size->room;
  if (bars * size->cost >= search->best_cost || t.pieces > 3 * bars || t.pieces <= 2 * bars)
    return TRUE;
  gint64 spare = bars * size->room - sum;
  t.limit = spare > 0 ? MOST_WASTING : MOST_STEPS;
  t.left = g_memdup2 (search->demand, n * sizeof (int));
  t.bars = g_array_new (FALSE, FALSE, sizeof (guint));
  gboolean good = TRUE;
  if (fill_bars (&t, spare))
    good = keep_bars (search, &t, error);
  g_free (t.left);
  g_array_unref (t.bars);
  return good;
}
