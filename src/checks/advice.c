/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Advice. Candidates come from the kind of snag and of record; each is applied to the job, the space brought up to date and
 * the rules asked again of all that the change touches. Cheapest first, so the search ends with the first few that hold, and
 * in any case after MOST_TRIED. It finds single moves only: nothing that needs two things moved at once but for a run that
 * hangs on the thing moved. */
#include "checks/candidates.h"
#include "base/number.h"
#include "base/text.h"
#include "base/tolerance.h"
#include <string.h>

#define MOST_TRIED 60
#define SAME_PLACE_MM 500.0 /* a snag of the same two things this near is the same snag */

void
sw_advice_free (SwAdvice *advice)
{
  sw_edit_unref (advice->edit);
  g_free (advice);
}

/* ---- candidates */

gboolean
sw_candidates_put (SwCandidates *to, SwAdvice *advice, SwRecord *record)
{
  return sw_edit_put (advice->edit, to->job, record, NULL);
}

SwAdvice *
sw_candidates_add (SwCandidates *to, const char *edit_name, const char *words, SwRecord *record, double cost)
{
  SwAdvice *advice = g_new0 (SwAdvice, 1);
  advice->edit = sw_edit_new (edit_name);
  advice->words = words;
  advice->cost = cost;
  if (!sw_candidates_put (to, advice, record))
    {
      sw_advice_free (advice);
      return NULL;
    }
  g_ptr_array_add (to->found, advice);
  return advice;
}

void
sw_candidates_set_move (SwAdvice *advice, SwPoint3 by)
{
  advice->distance = sw_point3_length (by);
  if (advice->distance > 0)
    advice->direction = sw_point3_scale (by, 1 / advice->distance);
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

typedef struct
{
  const SwSnags *before_all;
  const SwCheckOptions *options;
  SwSpace *space;
  GArray *ids; /* SwId: all that the change touches, and both owners of the snag */
} Trial;

static void
add_id (GArray *ids, SwId id)
{
  for (guint i = 0; i < ids->len; i++)
    if (g_array_index (ids, SwId, i) == id)
      return;
  if (id != 0)
    g_array_append_val (ids, id);
}

/* Records that are there in a job: a new one is not in the old, a removed one not in the new. */
static SwSnags *
check_ids (SwSpace *space, const SwCheckOptions *options, const GArray *ids)
{
  g_autoptr (GArray) there = g_array_new (FALSE, FALSE, sizeof (SwId));
  for (guint i = 0; i < ids->len; i++)
    if (sw_job_get (sw_space_job (space), g_array_index (ids, SwId, i)) != NULL)
      g_array_append_val (there, g_array_index (ids, SwId, i));
  return sw_checks_of (space, options, (const SwId *) there->data, there->len);
}

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

/* It was there before, at least as bad. */
static gboolean
was_there (const SwSnags *before, const SwSnag *snag)
{
  for (guint i = 0; i < sw_snags_n (before); i++)
    {
      const SwSnag *old = sw_snags_get (before, i);
      gboolean larger = !isnan (snag->missing_mm) && !isnan (old->missing_mm) && snag->missing_mm > old->missing_mm + SW_TOUCH_MM;
      if (is_like (old, snag) && old->severity <= snag->severity && !larger)
        return TRUE;
    }
  return FALSE;
}

static gboolean
leaves_nothing_worse (const SwSnags *before, const SwSnags *after)
{
  if (sw_snags_count (after, SW_SEVERITY_STOP) > sw_snags_count (before, SW_SEVERITY_STOP))
    return FALSE;
  for (guint i = 0; i < sw_snags_n (after); i++)
    {
      const SwSnag *snag = sw_snags_get (after, i);
      if (snag->severity != SW_SEVERITY_NOTE && !was_there (before, snag))
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
  g_autoptr (GArray) ids = g_array_new (FALSE, FALSE, sizeof (SwId));
  if (space == NULL)
    return FALSE;
  for (guint i = 0; i < advice->edit->changes->len; i++)
    add_id (ids, g_array_index (advice->edit->changes, SwChange, i).id);
  for (int i = 0; i < 2; i++)
    add_id (ids, from->snag->owners[i]);
  g_autoptr (SwSnags) before = check_ids (from->space, options, ids), after = check_ids (space, options, ids);
  advice->notes = sw_snags_count (after, SW_SEVERITY_NOTE);
  return is_mended (after, from->snag) && leaves_nothing_worse (before, after);
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
      if (holds (&candidates, &all, advice))
        g_ptr_array_add (good, g_steal_pointer (&advice));
    }
  return good;
}

char *
sw_advice_text (const SwAdvice *advice, SwTranslate translate)
{
  const char *words = translate != NULL ? translate (advice->words) : advice->words;
  g_autofree char *move = sw_snag_move (advice->direction, advice->distance, translate);
  char figure[SW_NUMBER_BUF];
  g_auto (GStrv) at_move = g_strsplit (words, "{move}", -1);
  g_autofree char *moved = g_strjoinv (move, at_move);
  g_auto (GStrv) at_number = g_strsplit (moved, "{number}", -1);
  return g_strjoinv (sw_number_write (advice->number, figure), at_number);
}

const char *
sw_advice_none (void)
{
  return N_ ("No single move was found that leaves nothing worse.");
}
