/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rooms first, each as it is to be finished, then runs, then what stands at one place. Nothing is priced here, and nothing
 * that the job does not hold is guessed: what cannot be counted becomes a note. */
#include "estimate/takeoff_parts.h"
#include "base/text.h"
#include "estimate/cut_share.h"

static int
compare_notes (gconstpointer a, gconstpointer b)
{
  const SwTakeoffNote *first = a, *second = b;
  if (first->kind != second->kind)
    return first->kind < second->kind ? -1 : 1;
  return (first->owner > second->owner) - (first->owner < second->owner);
}

static void
clear_note (gpointer note)
{
  g_free (((SwTakeoffNote *) note)->detail);
}

/* A room without a ceiling is worth a note; a job that was given up is not. */
static gboolean
take_rooms (const SwTakeoffWork *work, GError **error)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_takeoff_job (work), SW_TABLE_ROOM); (record = sw_job_iter_next (&i)) != NULL;)
    {
      g_autoptr (GError) fault = NULL;
      gboolean taken = sw_takeoff_room (work, (const SwRoom *) record, &fault);
      if (sw_takeoff_is_given_up (work, error))
        return FALSE;
      if (!taken)
        sw_takeoff_note (work, SW_TAKEOFF_NO_CEILING, record->id, fault->message);
    }
  return TRUE;
}

SwTakeoff *
sw_takeoff_new (SwDeck *deck, SwRules *rules, GCancellable *cancellable, GError **error)
{
  SwTakeoffWork work = { deck, rules, sw_room_finder_new (sw_deck_job (deck)), sw_needs_new (), NULL, cancellable };
  SwTakeoff *takeoff = NULL;
  work.notes = g_array_new (FALSE, FALSE, sizeof (SwTakeoffNote));
  g_array_set_clear_func (work.notes, clear_note);
  if (take_rooms (&work, error) && sw_takeoff_runs (&work, error))
    {
      sw_takeoff_points (&work);
      g_array_sort (work.notes, compare_notes);
      takeoff = g_new (SwTakeoff, 1);
      takeoff->needs = sw_needs_end (g_steal_pointer (&work.needs));
      takeoff->cut = sw_cut_job_new (deck, rules, cancellable, NULL); /* without it each room is cut by itself */
      if (takeoff->cut != NULL)
        sw_cut_job_share (takeoff->cut, takeoff->needs);
      takeoff->notes = g_array_ref (work.notes);
    }
  sw_room_finder_free (work.rooms);
  sw_needs_free (work.needs);
  g_array_unref (work.notes);
  return takeoff;
}

void
sw_takeoff_free (SwTakeoff *takeoff)
{
  g_ptr_array_unref (takeoff->needs);
  g_array_unref (takeoff->notes);
  g_clear_pointer (&takeoff->cut, sw_cut_job_free);
  g_free (takeoff);
}

static const struct
{
  const char *word, *text;
} notes[SW_N_TAKEOFF_NOTES] = {
  [SW_TAKEOFF_NO_ROUTE] = { "no-route", N_("run cannot be worked out: nothing of it is counted") },
  [SW_TAKEOFF_NO_CABLE] = { "no-cable", N_("run has no circuit: its wires are not counted") },
  [SW_TAKEOFF_NO_SUPPORTS] = { "no-supports", N_("the rule set has no spacing of supports for the run: they are not counted") },
  [SW_TAKEOFF_NO_CEILING] = { "no-ceiling", N_("the room's ceiling cannot be laid: it is not counted") },
  [SW_TAKEOFF_NEW_LAYOUT] = { "new-layout", N_("the room's layout is missing or out of date: counted from a new one") },
};

const char *
sw_takeoff_note_word (SwTakeoffNoteKind kind)
{
  g_assert (kind < SW_N_TAKEOFF_NOTES);
  return notes[kind].word;
}

const char *
sw_takeoff_note_text (SwTakeoffNoteKind kind)
{
  g_assert (kind < SW_N_TAKEOFF_NOTES);
  return notes[kind].text;
}
