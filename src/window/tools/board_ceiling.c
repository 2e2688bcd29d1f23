/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The ceiling of a room that is dragged or drawn: asked for whenever the draft is set anew, drawn on the live layer over the room as
 * it was, and put into the edit that ends the drag when the room had a layout that was up to date. */
#include "window/tools/board_data.h"
#include "base/number.h"
#include "ceiling/layout.h"
#include "geometry/outline.h"
#include "sheets/plan.h"
#include "sheets/words.h"

/* A larger room is laid out only by asking for it when the drag ends before the search does. */
#define MOST_M2 100

static void
on_ceiling (SwCeilingDraft *ceiling, gpointer data)
{
  SwBoard *board = data;
  g_clear_pointer (&board->ceiling, sw_ceiling_draft_unref);
  board->ceiling = sw_ceiling_draft_ref (ceiling);
  sw_board_tell (board, SW_BOARD_LIVE);
}

/* The one room that is dragged or drawn, with a closed ceiling; NULL for none. */
static const SwRoom *
room_under_way (SwBoard *board)
{
  guint serial;
  const GPtrArray *drafts = sw_board_draft_under_way (board, &serial);
  if (drafts == NULL || drafts->len != 1 || sw_record_table (drafts->pdata[0]) != SW_TABLE_ROOM)
    return NULL;
  const SwRoom *room = drafts->pdata[0];
  return room->finish == SW_FINISH_CLOSED && room->outline.n >= 3 ? room : NULL;
}

void
sw_board_follow_ceiling (SwBoard *board)
{
  const SwRoom *room = room_under_way (board);
  if (room == NULL || board->picture == NULL || board->picture->rules == NULL)
    {
      /* What was found is kept: the edit that ends the drag comes after it. */
      if (board->drafter != NULL)
        sw_ceiling_drafter_stop (board->drafter);
      board->ceiling_over = TRUE;
      return;
    }
  if (board->ceiling_over)
    g_clear_pointer (&board->ceiling, sw_ceiling_draft_unref);
  board->ceiling_over = FALSE;
  if (board->drafter == NULL)
    board->drafter = sw_ceiling_drafter_new (on_ceiling, board);
  sw_ceiling_drafter_ask (board->drafter, board->picture, room);
}

void
sw_board_clear_ceiling (SwBoard *board)
{
  g_clear_pointer (&board->drafter, sw_ceiling_drafter_free);
  g_clear_pointer (&board->ceiling, sw_ceiling_draft_unref);
}

const SwCeilingDraft *
sw_board_ceiling (SwBoard *board)
{
  return board->ceiling_over ? NULL : board->ceiling;
}

/* Paper over the room as it was, so that its old boards do not show through. */
static void
cover (SwBoard *board, SwDisplay *live)
{
  static const SwFill paper = { .role = SW_ROLE_PAPER, .transparency = 0.1 };
  const SwRecord *before = sw_job_get (sw_board_job (board), board->ceiling->room->record.id);
  const SwRoom *rooms[] = { (const SwRoom *) before, board->ceiling->room };
  for (gsize i = 0; i < G_N_ELEMENTS (rooms); i++)
    if (rooms[i] != NULL)
      sw_display_add_polygon (live, rooms[i]->outline.items, rooms[i]->outline.n, &paper, NULL);
}

/* What it comes to, in the middle of the room: beside the pointer it would often leave the view. */
static void
write_figures (SwBoard *board, SwDisplay *live)
{
  static const SwTextStyle style = { .role = SW_ROLE_INK, .height = 9, .unit = SW_SIZE_PX, .align = SW_ALIGN_MIDDLE, .halo = TRUE, .bold = TRUE };
  const SwCeilingDraft *ceiling = board->ceiling;
  SwLengths in = sw_job_lengths (sw_board_job (board));
  char waste[SW_LENGTH_BUF], joints[SW_LENGTH_BUF];
  g_autofree char *text = g_strdup_printf (ceiling->full ? _("Sheets: %u · waste %s · joints %s") : _("Sheets: %u · waste %s · joints %s · looking for better"), ceiling->n_sheets,
                                           sw_area_write (ceiling->waste_m2 * 1e6, in, 2, waste), sw_length_write_sum (ceiling->joint_m * 1e3, in, 2, joints));
  sw_display_add_text (live, sw_outline_label_point (ceiling->room->outline.items, ceiling->room->outline.n), text, &style);
}

void
sw_board_draw_ceiling (SwBoard *board, SwDisplay *live)
{
  guint64 shown = (SW_LAYER_BIT (SW_LAYER_BATTENS) | SW_LAYER_BIT (SW_LAYER_BOARDS)) & ~board->hidden;
  if (board->ceiling == NULL || board->ceiling_over || shown == 0)
    return;
  cover (board, live);
  sw_plan_draw_layout (live, board->ceiling->room, board->ceiling->layout, shown);
  sw_display_set_layer (live, 0);
  sw_display_set_detail (live, 0, INFINITY);
  write_figures (board, live);
}

static gboolean
put_layout (SwBoard *board, SwDeck *deck, SwEdit *edit, const SwRoom *room, GError **error)
{
  g_autoptr (SwCeilingDraft) found = NULL;
  if (board->ceiling != NULL && board->ceiling->full && sw_record_equal (&board->ceiling->room->record, &room->record))
    found = sw_ceiling_draft_ref (board->ceiling);
  else if (fabs (sw_outline_area (room->outline.items, room->outline.n)) / 1e6 <= MOST_M2)
    found = sw_ceiling_draft_new (deck, board->picture->rules, room, TRUE, NULL);
  return found == NULL || sw_edit_put (edit, sw_deck_job (deck), sw_record_copy (&found->layout->record), error);
}

gboolean
sw_board_put_ceiling (SwBoard *board, SwEdit *edit, GError **error)
{
  SwJob *job = sw_board_job (board);
  const SwChange *change = edit->changes->len == 1 ? &g_array_index (edit->changes, SwChange, 0) : NULL;
  if (board->picture == NULL || board->picture->rules == NULL || change == NULL || SW_ID_TABLE (change->id) != SW_TABLE_ROOM
      || change->before == NULL || change->after == NULL)
    return TRUE;
  const SwRoom *room = (const SwRoom *) change->after;
  const SwLayout *layout = sw_ceiling_layout_of (job, room->record.id);
  if (room->finish != SW_FINISH_CLOSED || layout == NULL)
    return TRUE;
  g_autoptr (SwDeck) deck = sw_picture_job (board->picture) == job ? sw_deck_ref (board->picture->deck) : sw_deck_new (job);
  return sw_ceiling_layout_is_stale (layout, deck, board->picture->rules) || put_layout (board, deck, edit, room, error);
}
