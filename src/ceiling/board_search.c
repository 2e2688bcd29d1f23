/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "base/number.h"
#include "base/random.h"
#include "base/tolerance.h"
#include "ceiling/boarding.h"
#include "ceiling/cancel.h"

/* Improves a part's layout that takes more sheets than its bound. rows.c chooses each stretch's first end joint without looking
 * ahead and lays whole sheets from there on. Here joints are moved, added and taken out at random, always onto battens, or the
 * heights of the rows are changed, and the pieces are cut anew. What has no more faults and slivers and costs no more
 * is kept, even when it only gathers the waste (the sum of the squares of what cut sheets give rises, or falls by less
 * than a tolerance that shrinks to nothing): so offcuts grow until whole rows come out of the ends of others. It ends at the
 * bound or after the rounds; numbers are drawn from a seed, so that the same room gives the same layout. Rounds ×
 * (laying the part + one cutting plan without search). What needs many joints moved at once is not found. */

#define ROUNDS 800
#define MIXED_ROUNDS 100 /* with several sizes of sheet, which cost more to cut */
#define AFRESH 10     /* one round in so many begins from another manner */
#define SLACK 0.6     /* of a sheet's square, at the start */

typedef struct
{
  SwBoarding *boarding;
  const SwBoardField *field;
  SwRandom random;
  GArray *manners;
  SwRows *now;         /* where the search stands */
  double first, squares;
} Walk;

static double
joint_at (const SwRowsStretch *stretch, guint i) /* 0: its low end, then the joints, then its high end */
{
  if (i == 0)
    return stretch->low;
  return i <= stretch->joints->len ? g_array_index (stretch->joints, double, i - 1) : stretch->high;
}

/* No piece longer than a sheet, none without length, all joints on battens. */
static gboolean
is_possible (const SwBoardField *field, const SwRowsStretch *stretch)
{
  for (guint i = 1; i <= stretch->joints->len + 1; i++)
    {
      double length = joint_at (stretch, i) - joint_at (stretch, i - 1);
      if (length < SW_TOUCH_MM || length > field->length + SW_TOUCH_MM)
        return FALSE;
      if (i <= stretch->joints->len && !sw_board_field_has_line (field, joint_at (stretch, i)))
        return FALSE;
    }
  return TRUE;
}

/* A place for a joint in the stretch. */
static double
draw_place (Walk *walk, const SwRowsStretch *stretch)
{
  const SwBoardField *field = walk->field;
  if (field->lines != NULL)
    return field->lines->len == 0 ? NAN
                                  : g_array_index (field->lines, double, sw_random_int (&walk->random, 0, (int) field->lines->len - 1));
  int low = (int) ceil ((stretch->low - field->start) / field->step), high = (int) floor ((stretch->high - field->start) / field->step);
  return low > high ? NAN : field->start + field->step * sw_random_int (&walk->random, low, high);
}

typedef enum { SHIFT_ALL, MOVE_ONE, ADD_ONE, DROP_ONE, N_MOVES } Move;

static void
shift_all (Walk *walk, SwRowsStretch *stretch)
{
  const SwBoardField *field = walk->field;
  int bays = MAX (1, (int) lround (field->length / field->step));
  double by = sw_random_int (&walk->random, 1, bays) * field->step, first = joint_at (stretch, 1) - by;
  if (first < stretch->low + SW_TOUCH_MM)
    first += bays * field->step;
  g_array_set_size (stretch->joints, 0);
  for (; first < stretch->high - SW_TOUCH_MM; first += field->length)
    g_array_append_val (stretch->joints, first);
}

/* One change of a stretch's joints; FALSE when the draw gave none that is possible. */
static gboolean
change (Walk *walk, SwRowsStretch *stretch)
{
  guint n = stretch->joints->len;
  Move move = (Move) sw_random_int (&walk->random, 0, N_MOVES - 1);
  if (move == SHIFT_ALL)
    {
      if (n == 0)
        return FALSE;
      shift_all (walk, stretch);
      return is_possible (walk->field, stretch);
    }
  if (move != ADD_ONE)
    {
      if (n == 0)
        return FALSE;
      g_array_remove_index (stretch->joints, (guint) sw_random_int (&walk->random, 0, (int) n - 1));
    }
  double at = move == DROP_ONE ? NAN : draw_place (walk, stretch);
  if (!isnan (at))
    g_array_append_val (stretch->joints, at);
  g_array_sort (stretch->joints, sw_compare_doubles);
  return TRUE;
}

/* A neighbour of where the search stands; NULL when the draw gave none. */
static SwRows *
neighbour (Walk *walk, double *first)
{
  *first = walk->first;
  guint n = walk->now->stretches->len;
  if (n == 0 || sw_random_int (&walk->random, 0, AFRESH - 1) == 0)
    {
      int which = sw_random_int (&walk->random, 0, (int) walk->manners->len - 1);
      SwRowsManner manner = g_array_index (walk->manners, SwRowsManner, which);
      *first = manner.first;
      return sw_rows_lay (walk->field, manner);
    }
  g_autoptr (GPtrArray) stretches = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_rows_stretch_free);
  gboolean moved = FALSE;
  for (guint i = 0; i < n; i++)
    g_ptr_array_add (stretches, sw_rows_stretch_copy (walk->now->stretches->pdata[i]));
  for (int k = sw_random_int (&walk->random, 1, 2); k > 0; k--)
    {
      SwRowsStretch *stretch = stretches->pdata[sw_random_int (&walk->random, 0, (int) n - 1)];
      for (int m = sw_random_int (&walk->random, 1, 3); m > 0; m--)
        moved = change (walk, stretch) || moved;
      if (!is_possible (walk->field, stretch))
        return NULL;
    }
  return moved ? sw_rows_lay_as (walk->field, walk->first, stretches) : NULL;
}

static gboolean
is_worse (const SwRows *a, const SwRows *b, double batten)
{
  /* A batten's width at each end of a joint may be bare: more asks for a noggin, which finds no room everywhere. */
  return a->bare > fmax (b->bare, 2 * batten) + SW_TOUCH_MM || sw_rows_compare_faults (a, b) > 0;
}

/* Whether the search goes on from `rows`, whose faults are no worse; they are cut. */
static gboolean
is_kept (Walk *walk, SwRows *rows, double slack, double *squares, GError **error)
{
  GError *failed = NULL;
  if (!sw_boarding_count (walk->boarding, rows, 0, walk->now->cost, squares, &failed))
    {
      if (g_error_matches (failed, SW_ERROR, SW_ERROR_LIMIT))
        g_clear_error (&failed);
      else
        g_propagate_error (error, failed);
      return FALSE;
    }
  return rows->cost < walk->now->cost || (rows->cost == walk->now->cost && *squares >= walk->squares - slack);
}

SwRows *
sw_boarding_improve (SwBoarding *boarding, guint index, SwRows *best, gint64 enough, GCancellable *cancellable, GError **error)
{
  GError *failed = NULL;
  Walk walk = { boarding, boarding->fields->pdata[index], { index + 1 }, NULL, best, best->first, 0 };
  guint rounds = boarding->n_stock > 1 ? MIXED_ROUNDS : ROUNDS;
  walk.manners = sw_rows_manners (walk.field);
  gboolean good = sw_boarding_count (boarding, best, 0, 0, &walk.squares, &failed);
  for (guint i = 0; i < rounds && good && best->cost > enough; i++)
    {
      double first, squares;
      SwRows *rows = neighbour (&walk, &first);
      good = !sw_ceiling_is_cancelled (cancellable, &failed);
      if (rows == NULL || !good || is_worse (rows, walk.now, walk.field->batten)
          || !is_kept (&walk, rows, SLACK * (1 - (double) i / rounds), &squares, &failed))
        {
          good = failed == NULL;
          sw_rows_free (rows);
          continue;
        }
      if (walk.now != best)
        sw_rows_free (walk.now);
      walk.now = rows;
      walk.first = first;
      walk.squares = squares;
      if (sw_rows_is_better (rows, best))
        {
          sw_rows_free (best);
          best = rows;
        }
    }
  if (walk.now != best)
    sw_rows_free (walk.now);
  g_array_unref (walk.manners);
  if (failed != NULL)
    {
      g_propagate_error (error, failed);
      g_clear_pointer (&best, sw_rows_free);
    }
  return best;
}
