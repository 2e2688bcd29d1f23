/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a room could do: its battens shifted to where they clear more lights and crossings, or what hangs from the ribs set closer where one
 * fixing would hold too much, and the ceiling laid out again there. */
#include "checks/candidates.h"
#include "base/text.h"
#include "ceiling/boards.h"
#include "ceiling/brandering.h"
#include "ceiling/layout.h"
#include <math.h>
#include <string.h>

/* A layout of several sizes of sheet was chosen by its price, which is not known here. */
static const SwLayout *
plain_layout (const SwCandidates *to, const SwRoom *room)
{
  const SwLayout *layout = sw_ceiling_layout_of (to->job, room->record.id);
  return layout != NULL && layout->sheets.n == 0 && !sw_ceiling_layout_is_stale (layout, to->deck, to->rules) ? layout : NULL;
}

/* The room as it would be, its ceiling laid out there; takes the room over. */
static void
add_relaid (SwCandidates *to, SwRoom *changed, const SwLayout *layout, const char *edit_name, const char *words, double number)
{
  const SwCeilingOptions options = { .keep = layout };
  g_autoptr (SwCeiling) ceiling = sw_ceiling_plan (to->deck, to->rules, changed, &options, NULL, NULL);
  SwAdvice *advice = sw_candidates_add (to, edit_name, words, sw_record_ref (&changed->record), 0);
  if (advice != NULL)
    {
      advice->number = number;
      advice->number_unit = SW_UNIT_MM;
      if (ceiling == NULL || !sw_ceiling_store (ceiling, advice->edit, to->job, NULL))
        g_ptr_array_remove (to->found, advice);
    }
  g_clear_pointer (&ceiling, sw_ceiling_free); /* it points into the copy */
  sw_record_unref (&changed->record);
}

static void
shift_battens (SwCandidates *to, const SwRoom *room, const SwLayout *layout)
{
  SwRoom *shifted = (SwRoom *) sw_record_copy (&room->record);
  shifted->batten_shift = to->snag->found;
  add_relaid (to, shifted, layout, N_ ("Shift battens"), N_ ("Shift the battens to {number} and lay the ceiling out again."), shifted->batten_shift);
}

/* ---- fixings that hold too much */

#define CENTRES_STEP_MM 25
#define LEAST_CENTRES_MM 200 /* closer, nobody gets a hand between them */

/* The greatest width of ceiling that a member carries whose fixings are doubled; 0 where none is. */
static double
widest_heavy (const SwCandidates *to, const SwRoom *room)
{
  g_autoptr (SwCeiling) ceiling = sw_ceiling_lay (to->deck, to->rules, room, NULL, NULL, NULL);
  double widest = 0;
  for (guint i = 0; ceiling != NULL && i < ceiling->fixings->len; i++)
    {
      const SwCeilingFixing *fixing = &g_array_index (ceiling->fixings, SwCeilingFixing, i);
      if (fixing->count > 1)
        widest = fmax (widest, g_array_index (ceiling->members, SwCeilingMember, fixing->member).centres);
    }
  return ceiling != NULL ? widest : NAN;
}

/* Those that hang from ribs, closer: primaries where there are any. The first step at which one fixing does everywhere. */
static void
close_centres (SwCandidates *to, const SwRoom *room, const SwLayout *layout)
{
  gboolean layered = room->direction == SW_DIRECTION_ALONG;
  double widest = widest_heavy (to, room);
  for (double centres = CENTRES_STEP_MM * (ceil (widest / CENTRES_STEP_MM) - 1); centres >= LEAST_CENTRES_MM; centres -= CENTRES_STEP_MM)
    {
      SwRoom *closer = (SwRoom *) sw_record_copy (&room->record);
      *(layered ? &closer->primary_centres : &closer->batten_centres) = centres;
      if (widest_heavy (to, closer) == 0)
        {
          add_relaid (to, closer, layout, layered ? N_ ("Set primaries closer") : N_ ("Set battens closer"),
                      layered ? N_ ("Set the primaries no more than {number} apart and lay the ceiling out again: then one fixing does at each rib.")
                              : N_ ("Set the battens no more than {number} apart and lay the ceiling out again: then one fixing does at each rib."),
                      centres);
          return;
        }
      sw_record_unref (&closer->record);
    }
}

void
sw_candidates_for_room (SwCandidates *to, const SwRoom *room)
{
  const SwLayout *layout = plain_layout (to, room);
  if (strcmp (to->snag->rule, "ceiling-laid") != 0 || layout == NULL)
    return;
  if (strcmp (to->snag->variant, "shift") == 0)
    shift_battens (to, room, layout);
  if (strcmp (to->snag->variant, "fixing") == 0)
    close_centres (to, room, layout);
}
