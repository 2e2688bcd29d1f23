/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rooms are laid one by one, each from the job as it stands: the layout of one does not change what another
 * is laid from. A room whose stored layout has the hash of what it would be found from now is left, since the
 * engine would find the same. One whose sheets are of several sizes is laid from these sizes again; one whose
 * sheet is to be the cheapest from all of the price list, which gives the room its sheet's size; one whose battens may turn
 * in both directions. */
#include "estimate/lay_rooms.h"
#include "base/error.h"
#include "base/text.h"
#include "ceiling/boards.h"
#include "ceiling/layout.h"
#include "estimate/lay_choices.h"
#include "ceiling/totals.h"

typedef struct
{
  SwDeck *deck;
  SwRules *rules;
  SwEdit *edit;
  gboolean again;
  GCancellable *cancellable;
  GArray *laid; /* SwRoomLaid */
} Laying;

static void
clear_laid (gpointer data)
{
  g_clear_error (&((SwRoomLaid *) data)->fault);
}

SwLaidFigures
sw_laid_figures (const SwCeiling *ceiling)
{
  SwLaidFigures figures = { .n_sheets = ceiling->n_sheets, .n_pieces = ceiling->pieces->len + ceiling->face_pieces->len };
  for (guint i = 0; i < ceiling->members->len; i++)
    {
      const SwMember *member = &g_array_index (ceiling->members, SwCeilingMember, i).member;
      figures.n_members[member->kind]++;
      double width, depth;
      figures.member_mm[member->kind] += sw_totals_section (ceiling->room, member, &width, &depth);
    }
  for (guint i = 0; i < ceiling->pieces->len; i++)
    figures.piece_mm2 += g_array_index (ceiling->pieces, SwCeilingPiece, i).area;
  for (guint i = 0; i < ceiling->face_pieces->len; i++)
    {
      const SwFacePiece *piece = &g_array_index (ceiling->face_pieces, SwCeilingFacePiece, i).piece;
      figures.piece_mm2 += piece->length * piece->width;
    }
  figures.joint_mm = ceiling->face_joints;
  for (guint i = 0; i < ceiling->joints->len; i++)
    {
      const SwJoint *joint = &g_array_index (ceiling->joints, SwJoint, i);
      figures.joint_mm += sw_point_distance (joint->from, joint->to);
    }
  double plain = ceiling->sheet_length * ceiling->sheet_width;
  figures.sheet_mm2 = ceiling->n_sheets * plain;
  for (guint i = 0; i < ceiling->sheets->len; i++)
    {
      const SwOddSheet *odd = &g_array_index (ceiling->sheets, SwOddSheet, i);
      figures.sheet_mm2 += odd->length * odd->width - plain;
    }
  return figures;
}

void
sw_laid_marks (const SwCeiling *ceiling, SwRoomLaid *laid)
{
  for (guint i = 0; i < ceiling->marks->len; i++)
    {
      const SwCeilingMark *mark = &g_array_index (ceiling->marks, SwCeilingMark, i);
      laid->n_marks[mark->kind]++;
      if (mark->kind != SW_CEILING_SHIFT || mark->limit <= laid->cleared)
        continue;
      laid->shift_mm = mark->value;
      laid->cleared = (guint) mark->limit;
    }
}

/* Whether the room's layout can stay: then it is counted. */
static gboolean
keep (const Laying *laying, const SwLayout *layout, SwRoomLaid *laid)
{
  if (laying->again || layout == NULL || sw_ceiling_layout_is_stale (layout, laying->deck, laying->rules))
    return FALSE;
  g_autoptr (SwCeiling) ceiling = sw_ceiling_recall (layout, laying->deck, laying->rules);
  laid->deed = SW_LAID_KEPT;
  laid->figures = sw_laid_figures (ceiling);
  return TRUE;
}

static void
note_laid (const SwCeiling *ceiling, const SwLayout *layout, SwRoomLaid *laid)
{
  laid->deed = layout == NULL ? SW_LAID_NEW : SW_LAID_AGAIN;
  laid->figures = sw_laid_figures (ceiling);
  sw_laid_marks (ceiling, laid);
}

/* Whichever sheets of the price list, or direction of the battens, cost least; FALSE where there is no choice, or with `fault`: then the room's own is laid. */
static gboolean
lay_cheapest (const Laying *laying, const SwLayout *layout, SwRoomLaid *laid)
{
  SwJob *job = sw_deck_job (laying->deck);
  const SwRoom *room = laid->room;
  g_autoptr (GArray) sizes = sw_lay_board_sizes (job, room);
  gboolean any_sheet = room->sheet_choice == SW_SHEET_CHEAPEST && sizes->len > 0;
  const SwLayChoicesWanted wanted = { .keep_direction = !room->battens_least, .keep_turn = TRUE, .keep_sheet = !any_sheet };
  if (!any_sheet && !room->battens_least)
    return FALSE;
  g_autoptr (SwLayChoices) choices
      = sw_lay_choices_new (laying->deck, laying->rules, laid->room, &wanted, NULL, NULL, laying->cancellable, &laid->fault);
  const SwCeilingChoice *choice = choices != NULL ? sw_lay_cheapest (choices, laying->rules, laid->room) : NULL;
  if (choice == NULL)
    return laid->fault != NULL;
  if (sw_lay_choose (choice, laying->edit, job, &laid->fault))
    note_laid (choice->ceiling, layout, laid);
  return TRUE;
}

static void
lay (const Laying *laying, const SwLayout *layout, SwRoomLaid *laid)
{
  if (lay_cheapest (laying, layout, laid))
    return;
  SwJob *job = sw_deck_job (laying->deck);
  g_autoptr (GArray) sizes = sw_lay_sizes_taken (job, laid->room, layout);
  SwCeilingOptions options = { .keep = layout, .sizes = (const SwBoardSize *) (gpointer) sizes->data, .n_sizes = sizes->len };
  g_autoptr (SwCeiling) ceiling
      = sw_ceiling_plan (laying->deck, laying->rules, laid->room, &options, laying->cancellable, &laid->fault);
  if (ceiling == NULL || !sw_ceiling_store (ceiling, laying->edit, job, &laid->fault))
    return;
  note_laid (ceiling, layout, laid);
}

static gboolean
lay_room (const Laying *laying, const SwRoom *room, GError **error)
{
  SwRoomLaid laid = { .room = room, .deed = SW_LAID_NOT };
  const SwLayout *layout = sw_ceiling_layout_of (sw_deck_job (laying->deck), room->record.id);
  if (!keep (laying, layout, &laid))
    lay (laying, layout, &laid);
  g_array_append_val (laying->laid, laid);
  if (!g_cancellable_is_cancelled (laying->cancellable))
    return TRUE;
  g_set_error_literal (error, SW_ERROR, SW_ERROR_CANCELLED, "laying out was stopped");
  return FALSE;
}

static gboolean
lay_closed (const Laying *laying, GError **error)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_deck_job (laying->deck), SW_TABLE_ROOM);
       (record = sw_job_iter_next (&i)) != NULL;)
    if (((const SwRoom *) record)->finish == SW_FINISH_CLOSED
        && !lay_room (laying, (const SwRoom *) record, error))
      return FALSE;
  return TRUE;
}

static gboolean
lay_given (const Laying *laying, const SwLayWanted *wanted, GError **error)
{
  for (guint i = 0; i < wanted->n; i++)
    {
      const SwRecord *record = sw_job_get (sw_deck_job (laying->deck), wanted->rooms[i]);
      if (record != NULL && sw_record_table (record) == SW_TABLE_ROOM
          && !lay_room (laying, (const SwRoom *) record, error))
        return FALSE;
    }
  return TRUE;
}

GArray *
sw_lay_rooms (SwDeck *deck, SwRules *rules, const SwLayWanted *wanted, SwEdit *edit,
              GCancellable *cancellable, GError **error)
{
  g_autoptr (GArray) laid = g_array_new (FALSE, FALSE, sizeof (SwRoomLaid));
  Laying laying = { deck, rules, edit, wanted->again, cancellable, laid };
  g_array_set_clear_func (laid, clear_laid);
  gboolean good = wanted->n > 0 ? lay_given (&laying, wanted, error) : lay_closed (&laying, error);
  return good ? g_steal_pointer (&laid) : NULL;
}

static const struct
{
  const char *word, *text;
} deeds[SW_N_LAID] = {
  [SW_LAID_NOT] = { "not", N_ ("cannot be laid out") },
  [SW_LAID_KEPT] = { "kept", N_ ("up to date, kept") },
  [SW_LAID_NEW] = { "new", N_ ("laid out") },
  [SW_LAID_AGAIN] = { "again", N_ ("laid out again") },
};

const char *
sw_laid_text (SwLaidDeed deed)
{
  g_assert (deed < SW_N_LAID);
  return deeds[deed].text;
}

const char *
sw_laid_word (SwLaidDeed deed)
{
  g_assert (deed < SW_N_LAID);
  return deeds[deed].word;
}
