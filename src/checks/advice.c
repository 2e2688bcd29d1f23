/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Advice. Candidates come from the kind of snag and of record; each is applied to the job, the space brought up to date and
 * the rules asked again of all that the change can alter. Cheapest first, so the search ends with the first few that hold, and
 * in any case after MOST_TRIED. It finds single moves only: nothing that needs two things moved at once but for a run that
 * hangs on the thing moved. */
#include "checks/candidates.h"
#include "checks/check.h"
#include "base/number.h"
#include "base/text.h"
#include "base/tolerance.h"
#include "circuits/draws.h"
#include <string.h>

#define MOST_TRIED 60
#define SAME_PLACE_MM 500.0 /* a snag of the same two things this near is the same snag */

void
sw_advice_free (SwAdvice *advice)
{
  sw_edit_unref (advice->edit);
  g_clear_pointer (&advice->along, g_array_unref);
  g_free (advice);
}

/* ---- their order */

/* What reads the same is offered once: the one of least cost. */
static gboolean
reads_like (const GPtrArray *good, const SwAdvice *advice)
{
  for (guint i = 0; i < good->len; i++)
    {
      const SwAdvice *other = good->pdata[i];
      if (strcmp (other->words, advice->words) == 0 && other->number == advice->number && other->distance == advice->distance
          && sw_point3_distance (other->direction, advice->direction) < 1e-9)
        return TRUE;
    }
  return FALSE;
}

static int
by_cost (gconstpointer a, gconstpointer b)
{
  const SwAdvice *p = *(SwAdvice *const *) a, *q = *(SwAdvice *const *) b;
  return p->cost < q->cost ? -1 : p->cost > q->cost;
}

/* g_ptr_array_sort is not stable: cost alone would leave the order of equals to the library. */
static void
sort_candidates (GPtrArray *found)
{
  for (guint i = 0; i < found->len; i++)
    ((SwAdvice *) found->pdata[i])->cost += i * 1e-6;
  g_ptr_array_sort (found, by_cost);
}

/* ---- trying one */

static gboolean
is_like (const SwSnag *a, const SwSnag *b)
{
  gboolean straight = a->owners[0] == b->owners[0] && a->owners[1] == b->owners[1];
  gboolean turned = a->owners[0] == b->owners[1] && a->owners[1] == b->owners[0];
  return strcmp (a->rule, b->rule) == 0 && (straight || turned) && (a->parts[1] == b->parts[1] || SW_ID_TABLE (a->owners[1]) != SW_TABLE_BAY);
}

static gboolean
is_mended (const SwSnags *after, const SwSnag *snag)
{
  for (guint i = 0; i < sw_snags_n (after); i++)
    {
      const SwSnag *left = sw_snags_get (after, i);
      gboolean counts = left->severity != SW_SEVERITY_NOTE || snag->severity == SW_SEVERITY_NOTE;
      if (is_like (left, snag) && counts && sw_point3_distance (left->place, snag->place) < SAME_PLACE_MM)
        return FALSE;
    }
  return TRUE;
}

static gboolean
is_the_same (const SwSnag *a, const SwSnag *b)
{
  return is_like (a, b) && a->parts[0] == b->parts[0] && a->place.x == b->place.x && a->place.y == b->place.y && a->place.z == b->place.z;
}

static double
size_of (const SwSnag *snag)
{
  return isnan (snag->missing_mm) ? 0 : snag->missing_mm;
}

/* One that was there before, at least as bad, and stands for no other yet: the smallest such. −1 for none. */
static int
counterpart (const SwSnags *before, const gboolean *used, const SwSnag *snag)
{
  int best = -1;
  for (guint i = 0; i < sw_snags_n (before); i++)
    {
      const SwSnag *old = sw_snags_get (before, i);
      if (used[i] || !is_like (old, snag) || old->severity > snag->severity || size_of (snag) > size_of (old) + SW_TOUCH_MM)
        continue;
      if (best < 0 || size_of (old) < size_of (sw_snags_get (before, (guint) best)))
        best = (int) i;
    }
  return best;
}

static gboolean
leaves_nothing_worse (const SwSnags *before, const SwSnags *after, const SwSnag *mended)
{
  g_autofree gboolean *used = g_new0 (gboolean, sw_snags_n (before) + 1);
  for (guint i = 0; i < sw_snags_n (before); i++)
    used[i] = is_the_same (sw_snags_get (before, i), mended);
  for (guint i = 0; i < sw_snags_n (after); i++)
    {
      const SwSnag *snag = sw_snags_get (after, i);
      int old = snag->severity != SW_SEVERITY_NOTE ? counterpart (before, used, snag) : 0;
      if (old < 0)
        return FALSE;
      if (snag->severity != SW_SEVERITY_NOTE)
        used[old] = TRUE;
    }
  return TRUE;
}

/* No run that the edit changes has more places than before that cannot be bent or put together. */
static gboolean
can_be_built (const SwSpace *before, const SwSpace *after, const SwEdit *edit)
{
  for (guint i = 0; i < edit->changes->len; i++)
    {
      SwId id = g_array_index (edit->changes, SwChange, i).id;
      const SwRoute *old = sw_space_route (before, id), *now = sw_space_route (after, id);
      if (now != NULL && sw_route_tight_places (now) > (old != NULL ? sw_route_tight_places (old) : 0))
        return FALSE;
    }
  return TRUE;
}

/* How far a fitting's middle is from the run that it sits on, and an end of a run from what it hangs on, in plan; 0 where there is
 * neither. */
static double
off_run (const SwSpace *space, const SwFitting *fitting)
{
  const SwRoute *route = sw_space_route (space, fitting->run);
  double apart = 0;
  if (route != NULL)
    sw_circuits_along (route, fitting->at, &apart);
  return apart;
}

static double
off_end (const SwSpace *space, const SwRun *run, SwId thing, guint vertex)
{
  const SwRecord *record = sw_job_get (sw_space_job (space), thing);
  SwBox box = record != NULL ? sw_record_box (record) : SW_BOX_EMPTY;
  return sw_box_is_empty (box) ? 0 : sw_point_distance (sw_point_lerp (box.low, box.high, 0.5), SW_LIST_AT (run->vertices, SwVertex, vertex).at);
}

static gboolean
keeps_ends (const SwSpace *before, const SwSpace *after, const SwRecord *old, const SwRecord *now)
{
  const SwRun *a = (const SwRun *) old, *b = (const SwRun *) now;
  return off_end (after, b, b->start, 0) <= off_end (before, a, a->start, 0) + SW_TOUCH_MM
         && off_end (after, b, b->end, b->vertices.n - 1) <= off_end (before, a, a->end, a->vertices.n - 1) + SW_TOUCH_MM;
}

/* What sits on a run stays on it, and its ends stay where they hang. */
static gboolean
stays_attached (const SwSpace *before, const SwSpace *after, const SwEdit *edit)
{
  const SwRecord *record;
  for (guint i = 0; i < edit->changes->len; i++)
    {
      const SwChange *change = &g_array_index (edit->changes, SwChange, i);
      if (SW_ID_TABLE (change->id) == SW_TABLE_RUN && change->before != NULL && change->after != NULL
          && !keeps_ends (before, after, change->before, change->after))
        return FALSE;
    }
  for (SwJobIter i = sw_job_iter (sw_space_job (after), SW_TABLE_FITTING); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwFitting *now = (const SwFitting *) record;
      const SwRecord *old = sw_job_get (sw_space_job (before), record->id);
      gboolean changes = sw_edit_peek (edit, sw_space_job (before), now->run) != sw_job_get (sw_space_job (before), now->run) || old != record;
      if (old != NULL && now->run != 0 && changes && off_run (after, now) > off_run (before, (const SwFitting *) old) + SW_TOUCH_MM)
        return FALSE;
    }
  return TRUE;
}

static SwSpace *
space_after (SwSpace *space, SwEdit *edit)
{
  g_autoptr (SwJob) job = sw_job_apply (sw_space_job (space), edit, TRUE, NULL);
  if (job == NULL)
    return NULL;
  g_autoptr (SwDeck) deck = sw_deck_update (sw_space_deck (space), job, edit);
  return sw_space_update (space, deck, edit, NULL);
}

static gboolean
holds (const SwCandidates *from, const SwCheckOptions *options, SwAdvice *advice)
{
  g_autoptr (SwSpace) space = space_after (from->space, advice->edit);
  if (space == NULL || !can_be_built (from->space, space, advice->edit) || !stays_attached (from->space, space, advice->edit))
    return FALSE;
  g_autoptr (GHashTable) touched = sw_check_touched (from->space, space, advice->edit);
  for (int i = 0; i < 2 && touched != NULL; i++)
    if (from->snag->owners[i] != 0)
      g_hash_table_add (touched, g_memdup2 (&from->snag->owners[i], sizeof (SwId)));
  g_autoptr (SwSnags) before = sw_check_touched_snags (from->space, touched, options);
  g_autoptr (SwSnags) after = sw_check_touched_snags (space, touched, options);
  advice->notes = sw_snags_count (after, SW_SEVERITY_NOTE);
  if (from->snag->severity == SW_SEVERITY_NOTE && sw_snags_n (after) > sw_snags_n (before)) /* one note for two is no mend */
    return FALSE;
  return is_mended (after, from->snag) && leaves_nothing_worse (before, after, from->snag);
}

/* ---- finding */

static void
collect (SwCandidates *to)
{
  for (int i = 0; i < 2; i++)
    {
      const SwRecord *record = to->snag->owners[i] != 0 ? sw_job_get (to->job, to->snag->owners[i]) : NULL;
      if (record == NULL)
        continue;
      if (sw_record_table (record) == SW_TABLE_RUN)
        sw_candidates_for_run (to, (const SwRun *) record);
      else if (sw_record_table (record) == SW_TABLE_ROOM)
        sw_candidates_for_room (to, (const SwRoom *) record);
      else
        sw_candidates_for_point (to, record);
    }
}

GPtrArray *
sw_advice_find (const SwSnags *snags, const SwSnag *snag, const SwCheckOptions *options, guint most, GCancellable *cancellable)
{
  SwSpace *space = sw_snags_space (snags);
  SwCheckOptions all = options != NULL ? *options : (SwCheckOptions){ 0 };
  GPtrArray *good = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_advice_free);
  g_autoptr (GPtrArray) found = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_advice_free);
  SwCandidates candidates = { snags, snag, sw_space_job (space), sw_space_deck (space), space, sw_space_rules (space), found };
  all.only = NULL;
  all.no_notes = FALSE;
  collect (&candidates);
  sort_candidates (found);
  for (guint tried = 0; tried < MOST_TRIED && found->len > 0 && good->len < most; tried++)
    {
      if (g_cancellable_is_cancelled (cancellable))
        break;
      g_autoptr (SwAdvice) advice = g_ptr_array_steal_index (found, 0);
      if (!reads_like (good, advice) && holds (&candidates, &all, advice))
        g_ptr_array_add (good, g_steal_pointer (&advice));
    }
  return good;
}

/* "2.13 m, 4.27 m" */
static char *
places_text (const SwAdvice *advice, SwLengths lengths)
{
  GString *text = g_string_new (NULL);
  char figure[SW_LENGTH_BUF];
  for (guint i = 0; advice->along != NULL && i < advice->along->len; i++)
    g_string_append_printf (text, "%s%s", i > 0 ? ", " : "", sw_length_write_far (g_array_index (advice->along, double, i), lengths, 2, figure));
  return g_string_free (text, FALSE);
}

char *
sw_advice_text (const SwAdvice *advice, SwLengths lengths, SwTranslate translate)
{
  const char *words = translate != NULL ? translate (advice->words) : advice->words;
  g_autofree char *move = sw_snag_move (advice->direction, advice->distance, lengths, translate);
  char figure[SW_LENGTH_BUF];
  const char *number = advice->number_unit == SW_UNIT_MM ? sw_length_write (advice->number, lengths, SW_LENGTH_UNIT, 0, figure)
                                                         : sw_number_write (advice->number, figure);
  g_auto (GStrv) at_move = g_strsplit (words, "{move}", -1);
  g_autofree char *moved = g_strjoinv (move, at_move);
  g_auto (GStrv) at_number = g_strsplit (moved, "{number}", -1);
  g_autofree char *numbered = g_strjoinv (number, at_number), *places = places_text (advice, lengths);
  g_auto (GStrv) at_places = g_strsplit (numbered, "{places}", -1);
  return g_strjoinv (places, at_places);
}

const char *
sw_advice_none (void)
{
  return N_ ("No single move was found that leaves nothing worse.");
}
