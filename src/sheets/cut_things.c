/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/number.h"
#include "sheets/cut_parts.h"
#include "sheets/words.h"
#include <string.h>

char *
sw_cut_letter (guint i)
{
  char letter = (char) ('A' + i % 26);
  return i < 26 ? g_strdup_printf ("%c", letter) : g_strdup_printf ("%c%c", 'A' + (int) (i / 26 - 1) % 26, letter);
}

char *
sw_cut_group_text (const SwCutGroup *group)
{
  char length[SW_NUMBER_BUF], width[SW_NUMBER_BUF], thickness[SW_NUMBER_BUF];
  sw_number_write (group->length, length);
  sw_number_write (group->width, width);
  if (!group->flat)
    return g_strdup_printf (_("Timber %s × %s mm"), length, width);
  return g_strdup_printf (_("Board (%s) %s mm, sheets %s × %s mm"), sw_sheet_word (SW_TABLE_ROOM, "board", group->board_kind),
                          sw_number_write (group->thickness, thickness), length, width);
}

char *
sw_cut_room_text (const SwJob *job, SwId id)
{
  const SwRoom *room = (const SwRoom *) sw_job_get (job, id);
  const SwRecord *record;
  if (*room->name == '\0')
    return g_strdup (room->record.tag);
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_ROOM); (record = sw_job_iter_next (&i)) != NULL;)
    if (record->id != id && strcmp (((const SwRoom *) record)->name, room->name) == 0)
      return g_strdup_printf ("%s (%s)", room->name, room->record.tag);
  return g_strdup (room->name);
}

static const struct
{
  const char *word, *letter;
} members[] = {
  [SW_MEMBER_BATTEN] = { N_ ("batten"), N_ ("B") },   [SW_MEMBER_PRIMARY] = { N_ ("primary"), N_ ("P") },
  [SW_MEMBER_NOGGIN] = { N_ ("noggin"), N_ ("N") },   [SW_MEMBER_TRIMMER] = { N_ ("trimmer"), N_ ("T") },
  [SW_MEMBER_PERIMETER] = { N_ ("batten along a wall"), N_ ("W") },
};

const char *
sw_cut_thing_word (const SwCutThing *thing)
{
  return thing->member < 0 ? _("board") : _(members[thing->member].word);
}

const char *
sw_cut_thing_letter (const SwCutThing *thing)
{
  return thing->member < 0 ? "" : _(members[thing->member].letter);
}

char *
sw_cut_thing_text (const SwJob *job, const SwCutThing *thing)
{
  g_autofree char *room = sw_cut_room_text (job, thing->room);
  return thing->member < 0 ? g_strdup_printf ("%s %d", room, thing->piece) : g_strdup_printf ("%s, %s", room, sw_cut_thing_word (thing));
}
