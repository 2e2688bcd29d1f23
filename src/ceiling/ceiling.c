/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/ceiling.h"

static void
clear_part (gpointer data)
{
  SwCeilingPart *part = data;
  sw_rings_free (part->area);
  sw_rings_free (part->clear);
  g_clear_pointer (&part->lines, g_array_unref);
}

SwCeiling *
sw_ceiling_new (SwDeck *deck, SwRules *rules, const SwRoom *room)
{
  SwCeiling *ceiling = g_new0 (SwCeiling, 1);
  ceiling->deck = sw_deck_ref (deck);
  ceiling->rules = sw_rules_ref (rules);
  ceiling->room = room;
  ceiling->parts = g_array_new (FALSE, TRUE, sizeof (SwCeilingPart));
  g_array_set_clear_func (ceiling->parts, clear_part);
  ceiling->members = g_array_new (FALSE, TRUE, sizeof (SwCeilingMember));
  ceiling->fixings = g_array_new (FALSE, TRUE, sizeof (SwCeilingFixing));
  ceiling->marks = g_array_new (FALSE, TRUE, sizeof (SwCeilingMark));
  ceiling->places = g_array_new (FALSE, TRUE, sizeof (double));
  ceiling->pieces = g_array_new (FALSE, TRUE, sizeof (SwCeilingPiece));
  ceiling->corners = g_array_new (FALSE, TRUE, sizeof (SwPoint));
  ceiling->joints = g_array_new (FALSE, TRUE, sizeof (SwJoint));
  ceiling->strips = g_array_new (FALSE, TRUE, sizeof (SwStrip));
  ceiling->sheets = g_array_new (FALSE, TRUE, sizeof (SwOddSheet));
  ceiling->faces = g_array_new (FALSE, TRUE, sizeof (SwCeilingFace));
  ceiling->face_pieces = g_array_new (FALSE, TRUE, sizeof (SwCeilingFacePiece));
  ceiling->kept = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_rings_free);
  ceiling->locked = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_rings_free);
  return ceiling;
}

void
sw_ceiling_free (SwCeiling *ceiling)
{
  if (ceiling == NULL)
    return;
  GArray *arrays[] = { ceiling->parts,  ceiling->members, ceiling->fixings, ceiling->marks, ceiling->places,
                       ceiling->pieces, ceiling->corners, ceiling->joints,  ceiling->strips, ceiling->sheets,
                       ceiling->faces,  ceiling->face_pieces };
  for (gsize i = 0; i < G_N_ELEMENTS (arrays); i++)
    g_array_unref (arrays[i]);
  g_ptr_array_unref (ceiling->locked);
  g_ptr_array_unref (ceiling->kept);
  sw_deck_unref (ceiling->deck);
  sw_rules_unref (ceiling->rules);
  g_free (ceiling);
}

const char *
sw_ceiling_mark_text (SwCeilingMarkKind kind)
{
  static const char *texts[SW_N_CEILING_MARKS] = {
    [SW_CEILING_NO_DECK] = "no bay above: battens find no ribs",
    [SW_CEILING_SPAN] = "batten spans too far",
    [SW_CEILING_STRESS] = "batten bends too much",
    [SW_CEILING_CANTILEVER] = "batten stands over too far",
    [SW_CEILING_UNSUPPORTED] = "batten is held by nothing",
    [SW_CEILING_NARROW_BATTEN] = "batten too narrow for a joint",
    [SW_CEILING_LONG_FIXING] = "packing needs a longer fixing",
    [SW_CEILING_HANGER] = "packing needs a hanger",
    [SW_CEILING_LIGHT_CUTS] = "light would cut a batten",
    [SW_CEILING_LIGHT_TRIMMED] = "light cuts battens: trimmed",
    [SW_CEILING_HATCH_CUTS] = "hatch cuts battens: trimmed",
    [SW_CEILING_JOINT_OFF_BATTEN] = "end joint off a batten",
    [SW_CEILING_JOINT_AT_LIGHT] = "joint too close to a light",
    [SW_CEILING_JOINT_AT_HATCH] = "joint too close to a hatch",
    [SW_CEILING_STAGGER] = "end joints too close to the next row's",
    [SW_CEILING_SLIVER] = "sliver of board",
    [SW_CEILING_WIDE_FIELD] = "too far between movement joints",
    [SW_CEILING_LARGE_FIELD] = "too large without a movement joint",
    [SW_CEILING_LOCK_LOST] = "locked piece no longer fits",
    [SW_CEILING_SHIFT] = "shifted battens would clear more",
    [SW_CEILING_FIXING] = "a fixing is held to more than it is designed for",
    [SW_CEILING_FIELD_UNHELD] = "ribs hold the ends at a movement joint nowhere",
    [SW_CEILING_BOARD_UNHELD] = "board hangs on nothing",
    [SW_CEILING_FIELD_BLOCKED] = "lights and hatches leave a movement joint no place",
    [SW_CEILING_UNKNOWN_SECTION] = "second moment of the steel profile is not known",
  };
  G_STATIC_ASSERT (G_N_ELEMENTS (texts) == SW_N_CEILING_MARKS);
  g_assert (kind < SW_N_CEILING_MARKS);
  return texts[kind];
}
