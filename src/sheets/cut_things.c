/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/number.h"
#include "estimate/price_kinds.h"
#include "sheets/cut_parts.h"
#include "sheets/words.h"
#include <string.h>

char *
sw_cut_letter (guint i)
{
  static const char letters[] = "KLMNQRTUVWXYZ";
  guint n = sizeof letters - 1;
  return i < n ? g_strdup_printf ("%c", letters[i]) : g_strdup_printf ("%c%c", letters[i / n % n], letters[i % n]);
}

/* All digits of mm. */
static char *
size_text (double mm, SwLengths lengths, SwLengthStyle style)
{
  char digits[SW_NUMBER_BUF], text[SW_LENGTH_BUF];
  if (lengths != SW_LENGTHS_MM)
    return g_strdup (sw_length_write (mm, lengths, style, 0, text));
  return g_strdup_printf ("%s%s", sw_number_write (mm, digits), style == SW_LENGTH_UNIT ? " mm" : "");
}

/* Of "pvc-20", as a price code has it. */
static char *
conduit_text (const char *size, SwLengths lengths)
{
  const SwWord *words = sw_struct_field (&sw_type_get (SW_TABLE_RUN)->body, "material")->words;
  const char *dash = strrchr (size, '-');
  guint i = 0;
  while (dash != NULL && words[i].key != NULL && (strlen (words[i].key) != (gsize) (dash - size) || strncmp (words[i].key, size, (gsize) (dash - size)) != 0))
    i++;
  if (dash == NULL || words[i].key == NULL)
    return g_strdup (size);
  g_autofree char *od = size_text (g_ascii_strtod (dash + 1, NULL), lengths, SW_LENGTH_UNIT);
  return g_strdup_printf ("%s %s", sw_word (words[i].label), od);
}

char *
sw_cut_material_text (const SwCutGroup *group, SwLengths lengths)
{
  if (group->trim != 0)
    {
      SwPriceKind kind = sw_price_kind_of (group->code);
      g_autofree char *size = kind == SW_PRICE_CONDUIT ? conduit_text (sw_price_size (group->code), lengths) : g_strdup (sw_price_size (group->code));
      return g_strdup_printf ("%s%s%s", _(sw_price_info (kind)->text), *size != '\0' ? " " : "", size);
    }
  g_autofree char *first = size_text (group->flat ? group->thickness : group->length, lengths, group->flat ? SW_LENGTH_UNIT : SW_LENGTH_BARE);
  if (group->flat)
    return g_strdup_printf (_("Board (%s) %s"), sw_sheet_word (SW_TABLE_ROOM, "board", group->board_kind), first);
  g_autofree char *second = size_text (group->width, lengths, SW_LENGTH_UNIT);
  return g_strdup_printf (group->material == SW_BATTENS_STEEL ? _("Steel profile %s × %s") : _("Timber %s × %s"), first, second);
}

char *
sw_cut_group_text (const SwCutGroup *group, SwLengths lengths)
{
  char *material = sw_cut_material_text (group, lengths);
  if (!group->flat)
    return material;
  g_autofree char *length = size_text (group->length, lengths, SW_LENGTH_BARE), *width = size_text (group->width, lengths, SW_LENGTH_UNIT);
  char *text = g_strdup_printf (_("%s, sheets %s × %s"), material, length, width);
  g_free (material);
  return text;
}

char *
sw_cut_room_text (const SwJob *job, SwId id)
{
  const SwRoom *room = (const SwRoom *) sw_job_get (job, id);
  const SwRecord *record;
  if (SW_ID_TABLE (id) != SW_TABLE_ROOM)
    return g_strdup (room->record.tag);
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
  [SW_MEMBER_PERIMETER] = { N_ ("batten along a wall"), N_ ("W") }, [SW_MEMBER_STUD] = { N_ ("stud"), N_ ("U") },
  [SW_CUT_CORNICE] = { N_ ("cornice"), N_ ("C") },    [SW_CUT_SHADOW] = { N_ ("shadow line"), N_ ("S") },
  [SW_CUT_BEAD] = { N_ ("corner bead"), N_ ("E") },    [SW_CUT_CONDUIT] = { N_ ("conduit"), N_ ("D") },
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

char *
sw_cut_piece_key (SwId room, int piece)
{
  return g_strdup_printf ("%" G_GINT64_FORMAT ":%d", (gint64) room, piece);
}

static void
add_origin (GHashTable *origins, const SwCutThing *thing, char *from)
{
  g_hash_table_insert (origins, sw_cut_piece_key (thing->room, thing->piece), from);
}

GHashTable *
sw_cut_origins (const SwCutJob *cut)
{
  GHashTable *origins = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  for (guint i = 0; i < cut->groups->len; i++)
    {
      const SwCutGroup *group = cut->groups->pdata[i];
      g_autofree char *letter = sw_cut_letter (i);
      for (guint k = 0; k < group->whole->len; k++)
        add_origin (origins, &g_array_index (group->whole, SwCutThing, k), g_strdup (_("whole")));
      for (guint w = 0; group->flat && group->plan != NULL && w < group->plan->ways->len; w++)
        {
          const SwCutWay *way = &g_array_index (group->plan->ways, SwCutWay, w);
          for (guint k = way->first; k < way->first + way->n; k++)
            add_origin (origins, &g_array_index (group->things, SwCutThing, g_array_index (group->plan->pieces, SwCutPiece, k).item), g_strdup_printf ("%s%u", letter, w + 1));
        }
    }
  return origins;
}
