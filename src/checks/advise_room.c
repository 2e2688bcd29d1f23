/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a room could do: its battens shifted to where they clear more lights and crossings, and the ceiling laid out again there. */
#include "checks/candidates.h"
#include "base/text.h"
#include "ceiling/boards.h"
#include "ceiling/layout.h"
#include <string.h>

/* A layout of several sizes of sheet was chosen by its price, which is not known here. */
static const SwLayout *
plain_layout (const SwCandidates *to, const SwRoom *room)
{
  const SwLayout *layout = sw_ceiling_layout_of (to->job, room->record.id);
  return layout != NULL && layout->sheets.n == 0 && !sw_ceiling_layout_is_stale (layout, to->deck, to->rules) ? layout : NULL;
}

void
sw_candidates_for_room (SwCandidates *to, const SwRoom *room)
{
  const SwLayout *layout = plain_layout (to, room);
  if (strcmp (to->snag->rule, "ceiling-laid") != 0 || strcmp (to->snag->variant, "shift") != 0 || layout == NULL)
    return;
  SwRoom *shifted = (SwRoom *) sw_record_copy (&room->record);
  shifted->batten_shift = to->snag->found;
  const SwCeilingOptions options = { .keep = layout };
  g_autoptr (SwCeiling) ceiling = sw_ceiling_plan (to->deck, to->rules, shifted, &options, NULL, NULL);
  SwAdvice *advice = sw_candidates_add (to, N_ ("Shift battens"), N_ ("Shift the battens to {number} and lay the ceiling out again."),
                                        sw_record_ref (&shifted->record), 0);
  if (advice != NULL)
    {
      advice->number = shifted->batten_shift;
      advice->number_unit = SW_UNIT_MM;
      if (ceiling == NULL || !sw_ceiling_store (ceiling, advice->edit, to->job, NULL))
        g_ptr_array_remove (to->found, advice);
    }
  g_clear_pointer (&ceiling, sw_ceiling_free); /* it points into the copy */
  sw_record_unref (&shifted->record);
}
