/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/dual.h"
#include "ceiling/sheet_cut.h"

/* Lower bounds on sheets. A dual feasible function f keeps Σ f(x) ≤ 1 for all lengths that lie side by side in one sheet; so
 * Σ f(w) g(h) over the pieces of one sheet is at most 1 for any two of them, and their sum over all pieces, rounded up, is
 * a bound (Fekete and Schepers 2001). Three families with the thresholds that the pieces' own sizes give are tried
 * against each other, all in integers over a common denominator. A piece that may turn counts with its lesser way. The kerf is
 * added to pieces and sheet. Thresholds² times pieces, with at most 24 thresholds a family. */

#define MOST_THRESHOLDS 24
#define MOST_FUNCTIONS (1 + 4 + 2 * MOST_THRESHOLDS)

SwDual
sw_dual_new (SwDualFamily family, gint64 size, gint64 step)
{
  const gint64 divisors[] = { [SW_DUAL_CUT_ENDS] = size, [SW_DUAL_STEPS] = size * step,
                              [SW_DUAL_ROUND_DOWN] = step > 0 ? 2 * (size / step) : 0 };
  return (SwDual){ family, size, step, divisors[family] };
}

static int
compare_ints (const void *a, const void *b)
{
  return *(const int *) a - *(const int *) b;
}

/* Distinct sizes up to half the sheet, thinned evenly to MOST_THRESHOLDS. */
static guint
thresholds (const SwSheetItem *items, guint n, gboolean upright, int size, int kerf, int *out)
{
  g_autofree int *sizes = g_new (int, 2 * n + 1);
  guint count = 0, kept = 0;
  for (guint i = 0; i < n; i++)
    for (int turn = 0; turn <= (items[i].may_turn ? 1 : 0); turn++)
      {
        int length = ((turn == 1) != upright ? items[i].height : items[i].width) + kerf;
        if (2 * (gint64) length <= size)
          sizes[count++] = length;
      }
  qsort (sizes, count, sizeof *sizes, compare_ints);
  for (guint i = 0; i < count; i++)
    if (kept == 0 || sizes[i] != sizes[kept - 1])
      sizes[kept++] = sizes[i];
  guint taken = MIN (kept, MOST_THRESHOLDS);
  for (guint i = 0; i < taken; i++)
    out[i] = sizes[(guint64) i * kept / taken];
  return taken;
}

static guint
make_duals (const SwSheetItem *items, guint n_items, gboolean upright, int size, int kerf, SwDual *duals)
{
  int steps[MOST_THRESHOLDS];
  guint n = 0, n_steps = thresholds (items, n_items, upright, size, kerf, steps);
  duals[n++] = sw_dual_new (SW_DUAL_CUT_ENDS, size, 0);
  for (int k = 1; k <= 4; k++)
    duals[n++] = sw_dual_new (SW_DUAL_STEPS, size, k);
  for (guint i = 0; i < n_steps; i++)
    {
      duals[n++] = sw_dual_new (SW_DUAL_CUT_ENDS, size, steps[i]);
      duals[n++] = sw_dual_new (SW_DUAL_ROUND_DOWN, size, steps[i]);
    }
  return n;
}

static guint
bound_of (const SwSheetItem *items, guint n_items, int kerf, const SwDual *across, const SwDual *up)
{
  __int128 sum = 0, whole = (__int128) across->divisor * up->divisor;
  for (guint i = 0; i < n_items; i++)
    {
      int w = items[i].width + kerf, h = items[i].height + kerf;
      __int128 value = (__int128) sw_dual_value (across, w) * sw_dual_value (up, h);
      if (items[i].may_turn && w <= up->size && h <= across->size)
        {
          __int128 turned = (__int128) sw_dual_value (across, h) * sw_dual_value (up, w);
          /* One way only when the other does not fit. */
          value = w > across->size || h > up->size ? turned : MIN (value, turned);
        }
      sum += value * items[i].copies;
    }
  return (guint) ((sum + whole - 1) / whole);
}

guint
sw_sheet_bound (const SwSheetItem *items, guint n_items, int width, int height, int kerf)
{
  SwDual across[MOST_FUNCTIONS], up[MOST_FUNCTIONS];
  guint n_across = make_duals (items, n_items, TRUE, width + kerf, kerf, across);
  guint n_up = make_duals (items, n_items, FALSE, height + kerf, kerf, up);
  guint best = 0;
  for (guint i = 0; i < n_across; i++)
    for (guint k = 0; k < n_up; k++)
      best = MAX (best, bound_of (items, n_items, kerf, &across[i], &up[k]));
  return best;
}
