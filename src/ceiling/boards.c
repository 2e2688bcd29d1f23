/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "base/tolerance.h"
#include "ceiling/boarding.h"
#include "ceiling/brandering.h"
#include "ceiling/cancel.h"

/* Tries a handful of manners of laying each part (rows.c), counts what each costs by cutting its pieces out of sheets
 * (sheet_cut.c), and keeps the best: fewest faults, then fewest narrow pieces, then least cost, then joints that keep off
 * lights and hatches, then fewest metres of joint, then the largest smallest piece; but never one that costs more than
 * plain rows from the corner. Where that takes more than the fewest sheets by the bound, board_search.c goes on from it. With several
 * sizes the room's sheet alone comes first; the same is done with all; board_mix.c and one more search go on from what these gave, and the cheapest is taken. */

/* ---- choosing ---- */

/* Whether `rows` may still be better than `best`, and than the plain ones, at that cost or below: 0 for not at all. */
static gint64
most_of_use (const SwRows *rows, const SwRows *best, const SwRows *plain)
{
  if (best == NULL)
    return plain->cost;
  int faults = sw_rows_compare_faults (rows, best);
  if (faults != 0)
    return faults < 0 ? plain->cost : 0;
  return MIN (best->cost, plain->cost);
}

/* Takes over `rows`: counted, and kept in *best where they are better. FALSE with an error. */
static gboolean
weigh (const SwBoarding *boarding, SwRows *rows, SwRows **best, const SwRows *plain, GError **error)
{
  gint64 most = most_of_use (rows, *best, plain);
  GError *failed = NULL;
  gboolean counted = most > 0 && sw_boarding_count (boarding, rows, boarding->trial, most, NULL, &failed);
  if (counted && rows->cost <= plain->cost && (*best == NULL || sw_rows_is_better (rows, *best)))
    {
      SwRows *before = *best;
      *best = rows;
      rows = before;
    }
  sw_rows_free (rows);
  if (failed == NULL || g_error_matches (failed, SW_ERROR, SW_ERROR_LIMIT))
    {
      g_clear_error (&failed);
      return TRUE;
    }
  g_propagate_error (error, failed);
  return FALSE;
}

/* The best manner of laying a part; the plain one when none is better. */
static SwRows *
lay_manners (SwBoarding *boarding, guint index, SwRows *plain, GCancellable *cancellable, GError **error)
{
  const SwBoardField *field = boarding->fields->pdata[index];
  g_autoptr (GArray) manners = sw_rows_manners (field);
  SwRows *best = NULL;
  gboolean good = sw_boarding_count (boarding, plain, boarding->trial, 0, NULL, error);
  for (guint i = 1; i < manners->len && good; i++)
    good = !sw_ceiling_is_cancelled (cancellable, error)
           && weigh (boarding, sw_rows_lay (field, g_array_index (manners, SwRowsManner, i)), &best, plain, error);
  if (!good)
    {
      sw_rows_free (best);
      return NULL;
    }
  if (best == NULL)
    {
      best = sw_rows_lay (field, g_array_index (manners, SwRowsManner, 0));
      best->cost = plain->cost;
    }
  return best;
}

/* The best layout of a part, searched for. */
static SwRows *
lay_part (SwBoarding *boarding, guint index, SwRows *plain, GCancellable *cancellable, GError **error)
{
  SwRows *best = lay_manners (boarding, index, plain, cancellable, error);
  if (best == NULL || boarding->trial == 0) /* a first answer */
    return best;
  return sw_boarding_improve (boarding, index, best, sw_boarding_least_cost (boarding, index, 1, FALSE), cancellable, error);
}

/* All parts' layouts (SwRows), the caller's; NULL with an error. */
static GPtrArray *
lay_parts (SwBoarding *boarding, const GPtrArray *plain, GCancellable *cancellable, GError **error)
{
  g_autoptr (GPtrArray) chosen = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_rows_free);
  for (guint i = 0; i < plain->len; i++)
    {
      SwRows *rows = lay_part (boarding, i, plain->pdata[i], cancellable, error);
      if (rows == NULL)
        return NULL;
      g_ptr_array_add (chosen, rows);
    }
  return g_steal_pointer (&chosen);
}

/* A part's rows of several lengths, from the better of two layouts on: found with all sizes, and with the room's sheet alone. */
static SwRows *
mix_part (SwBoarding *boarding, guint index, const SwRows *all, const SwRows *alone, GCancellable *cancellable, GError **error)
{
  const SwBoardField *field = boarding->fields->pdata[index];
  gint64 enough = sw_boarding_least_cost (boarding, index, 1, FALSE);
  SwRows *best = sw_rows_lay_as (field, all->first, all->stretches), *from = best;
  best->cost = all->cost;
  if (!weigh (boarding, sw_rows_lay_as (field, alone->first, alone->stretches), &best, all, error))
    {
      sw_rows_free (best);
      return NULL;
    }
  best = sw_boarding_mix (boarding, index, best, enough, cancellable, error);
  return best == NULL || best == from ? best : sw_boarding_improve (boarding, index, best, enough, cancellable, error);
}

static GPtrArray *
mix_parts (SwBoarding *boarding, const GPtrArray *all, const GPtrArray *alone, GCancellable *cancellable, GError **error)
{
  g_autoptr (GPtrArray) chosen = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_rows_free);
  for (guint i = 0; i < all->len; i++)
    {
      SwRows *rows = mix_part (boarding, i, all->pdata[i], alone->pdata[i], cancellable, error);
      if (rows == NULL)
        return NULL;
      g_ptr_array_add (chosen, rows);
    }
  return g_steal_pointer (&chosen);
}

static gboolean
has_joints_off (const GPtrArray *laid)
{
  for (guint i = 0; i < laid->len; i++)
    if (((const SwRows *) laid->pdata[i])->off > 0)
      return TRUE;
  return FALSE;
}

/* Whether the one has more of what is worst than the other; a short stretch of a joint that only wants a noggin is no such thing. */
static gboolean
is_faultier (const GPtrArray *laid, const GPtrArray *other)
{
  SwRows sums[2] = { 0 };
  for (guint i = 0; i < laid->len; i++)
    for (int k = 0; k < 2; k++)
      {
        const SwRows *rows = (k == 0 ? laid : other)->pdata[i];
        sums[k].bare_more += rows->bare_more;
        sums[k].faults += rows->faults - rows->off + rows->bare_more;
        sums[k].slivers += rows->slivers;
      }
  return sw_rows_compare_faults (&sums[0], &sums[1]) > 0;
}

/* Sheets as they were cut, and joints. */
static gint64
whole_cost (const SwBoarding *boarding, const GPtrArray *laid, const SwBoardCut *cut)
{
  double joints = 0;
  for (guint i = 0; i < laid->len; i++)
    joints += ((const SwRows *) laid->pdata[i])->joint_length;
  return cut->cost + llround (joints / 1e3 * (double) boarding->joint_cost);
}

/* Of layouts that cost alike: whether the one has fewer metres of joint, or as many and its smallest piece no smaller. */
static gboolean
is_as_good (const GPtrArray *laid, const GPtrArray *other)
{
  double joints = 0, smallest = INFINITY, others = INFINITY;
  for (guint i = 0; i < laid->len; i++)
    {
      const SwRows *a = laid->pdata[i], *b = other->pdata[i];
      joints += a->joint_length - b->joint_length;
      smallest = fmin (smallest, a->smallest);
      others = fmin (others, b->smallest);
    }
  return fabs (joints) > 1 ? joints < 0 : smallest >= others - SW_TOUCH_MM;
}

/* Cuts all ways and writes the cheapest down, of those that cost alike the last of the best; the first is plain. */
static gboolean
settle (SwBoarding *boarding, GPtrArray *const ways[], guint n, GError **error)
{
  g_autofree SwBoardCut *cuts = g_new (SwBoardCut, n);
  guint best = 0;
  gboolean done = TRUE;
  for (guint i = 0; i < n; i++)
    sw_board_cut_init (&cuts[i]);
  for (guint i = 0; i < n && done; i++)
    {
      done = sw_boarding_cut (boarding, ways[i], &cuts[i], error) && !sw_ceiling_is_cancelled (boarding->cancellable, error);
      gint64 more = done ? whole_cost (boarding, ways[i], &cuts[i]) - whole_cost (boarding, ways[best], &cuts[best]) : 1;
      if (more < 0 || (more == 0 && (best == 0 || is_as_good (ways[i], ways[best]))))
        best = i;
    }
  if (done && best == 0 && cuts[n - 1].cost <= cuts[0].cost && is_faultier (ways[0], ways[n - 1])) /* joints alone are no gain */
    best = n - 1;
  if (done)
    {
      sw_boarding_note_counts (boarding, &cuts[0]);
      sw_boarding_write (boarding, ways[best], &cuts[best]);
      if (has_joints_off (ways[best])) /* of which the bound does not speak */
        boarding->ceiling->n_sheets_bound = MIN (boarding->ceiling->n_sheets_bound, boarding->ceiling->n_sheets);
    }
  for (guint i = 0; i < n; i++)
    sw_board_cut_clear (&cuts[i]);
  return done;
}

/* Rows from the room's sheet alone, from all sizes, then rows of several lengths from what these found. */
static GPtrArray *
lay_mixed (SwBoarding *boarding, const GPtrArray *plain, GPtrArray **alone, GPtrArray **all, GCancellable *cancellable, GError **error)
{
  guint n_stock = boarding->n_stock;
  boarding->n_stock = 1;
  *alone = lay_parts (boarding, plain, cancellable, error);
  boarding->n_stock = n_stock;
  *all = *alone ? lay_parts (boarding, plain, cancellable, error) : NULL;
  return *all ? mix_parts (boarding, *all, *alone, cancellable, error) : NULL;
}

static gboolean
lay_all (SwBoarding *boarding, GCancellable *cancellable, GError **error)
{
  g_autoptr (GPtrArray) plain = sw_boarding_lay_plain (boarding), alone = NULL, all = NULL, chosen = NULL;
  GPtrArray *ways[4] = { plain };
  guint n = 1;
  if (boarding->n_stock > 1 && boarding->trial > 0)
    chosen = lay_mixed (boarding, plain, &alone, &all, cancellable, error);
  else
    chosen = lay_parts (boarding, plain, cancellable, error);
  if (chosen == NULL)
    return FALSE;
  if (alone != NULL && !is_faultier (alone, chosen))
    ways[n++] = alone;
  if (all != NULL && !is_faultier (all, chosen))
    ways[n++] = all;
  ways[n++] = chosen;
  return settle (boarding, ways, n, error);
}

/* ---- the room ---- */

/* The pieces of the layout that is kept, and which of them are locked, in the plan. */
static void
take_locked (SwBoarding *boarding, const SwLayout *keep)
{
  SwCeiling *ceiling = boarding->ceiling;
  g_ptr_array_set_size (ceiling->locked, 0);
  g_ptr_array_set_size (ceiling->kept, 0);
  for (guint i = 0, at = 0; keep != NULL && i < keep->pieces.n; i++)
    {
      const SwPiece *piece = &SW_LIST_AT (keep->pieces, SwPiece, i);
      guint first = at;
      while (at < keep->corners.n && SW_LIST_AT (keep->corners, SwCorner, at).piece == piece->piece)
        at++;
      if (at - first < 3)
        continue;
      SwRings *ring = sw_rings_new ();
      g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (SwPoint));
      for (guint k = first; k < at; k++)
        g_array_append_val (points, SW_LIST_AT (keep->corners, SwCorner, k).at);
      sw_rings_add (ring, (const SwPoint *) points->data, points->len);
      g_ptr_array_add (ceiling->kept, ring);
      SwFrame same = { { 0, 0 }, 1, 0 };
      if (piece->locked)
        g_ptr_array_add (ceiling->locked, sw_rings_to (ring, &same));
    }
}

gboolean
sw_ceiling_board (SwCeiling *ceiling, const SwCeilingOptions *options, GCancellable *cancellable, GError **error)
{
  SwBoarding boarding = { .ceiling = ceiling };
  take_locked (&boarding, options ? options->keep : NULL);
  gboolean done = sw_boarding_init (&boarding, ceiling, options, error);
  if (done)
    {
      boarding.cancellable = cancellable;
      done = lay_all (&boarding, cancellable, error);
    }
  if (done)
    sw_ceiling_finish_boards (ceiling, boarding.fields);
  sw_boarding_clear (&boarding);
  return done;
}

SwCeiling *
sw_ceiling_plan (SwDeck *deck, SwRules *rules, const SwRoom *room, const SwCeilingOptions *options,
                 GCancellable *cancellable, GError **error)
{
  g_autoptr (SwCeiling) ceiling = sw_ceiling_lay (deck, rules, room, options, cancellable, error);
  if (ceiling == NULL || !sw_ceiling_board (ceiling, options, cancellable, error))
    return NULL;
  return g_steal_pointer (&ceiling);
}
