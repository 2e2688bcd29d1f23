/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The live layer: what is picked, the draft in the colour of its state with what is short in mm, where the pointer caught.
 * It is small and made anew at each move; the plan below it is never touched. */
#include "window/tools/board_data.h"
#include "window/tools/judge.h"
#include "window/tools/shape.h"
#include "sheets/words.h"
#include "base/number.h"

static void
draw_picked (SwBoard *board, SwDisplay *live)
{
  SwJob *job = sw_board_job (board);
  SwShapeLook look = { SW_ROLE_SELECTION, 2, TRUE };
  for (guint i = 0; i < board->picked->len; i++)
    {
      const SwRecord *record = sw_job_get (job, g_array_index (board->picked, SwId, i));
      if (record == NULL || (sw_board_is_lit (board) && sw_record_table (record) == SW_TABLE_LAYOUT))
        continue;
      sw_shape_draw (live, job, record, &look);
      if (board->picked->len == 1)
        sw_shape_draw_handles (live, record, 0);
    }
}

gboolean
sw_board_is_short (SwBoard *board, SwId draft)
{
  for (guint i = 0; i < board->shortfalls->len; i++)
    if (g_array_index (board->shortfalls, SwShortfall, i).draft == draft)
      return TRUE;
  return FALSE;
}

static void
draw_drafts (SwBoard *board, SwDisplay *live)
{
  SwJob *job = sw_board_job (board);
  for (guint i = 0; i < board->drafts->len; i++)
    {
      const SwRecord *record = board->drafts->pdata[i];
      SwShapeLook look = { sw_board_is_short (board, record->id) ? SW_ROLE_BAD : SW_ROLE_GOOD, 2, TRUE };
      sw_shape_draw (live, job, record, &look);
    }
}

/* The worst three are written; more would hide what they are about. */
static void
draw_shortfalls (SwBoard *board, SwDisplay *live)
{
  SwTextStyle style = { .role = SW_ROLE_BAD, .height = 9, .unit = SW_SIZE_PX, .halo = TRUE, .bold = TRUE };
  static const SwStroke ring = { .role = SW_ROLE_BAD, .width = 2, .unit = SW_SIZE_PX };
  double px = board->mm_per_px, below = INFINITY;
  SwJob *job = sw_board_job (board);
  for (guint i = 0; i < MIN (board->shortfalls->len, 3); i++)
    {
      const SwShortfall *shortfall = &g_array_index (board->shortfalls, SwShortfall, i);
      char missing[SW_LENGTH_BUF];
      g_autofree char *text = g_strdup_printf (_("%s: %s short"), sw_word (sw_judge_kind_label (shortfall->kind)),
                                               sw_board_length (board, sw_length_up (shortfall->missing, sw_job_lengths (job)), SW_LENGTH_UNIT, missing));
      sw_display_add_circle (live, shortfall->at, 9 * px, NULL, &ring);
      /* Each one under the one before, so that they can be read where they are about the same place. */
      below = MIN (shortfall->at.y - 16 * px, below - 16 * px);
      sw_display_add_text (live, (SwPoint){ shortfall->at.x + 14 * px, below }, text, &style);
    }
}

static void
draw_snap (SwBoard *board, SwDisplay *live)
{
  const SwSnap *snap = &board->last.snap;
  static const SwStroke guide = { .role = SW_ROLE_SNAP, .width = 1, .unit = SW_SIZE_PX, .dash = SW_DASH_CENTRE };
  static const SwStroke ring = { .role = SW_ROLE_SNAP, .width = 2, .unit = SW_SIZE_PX };
  if (!board->has_cursor || board->tool->class->snaps == 0)
    return;
  if (board->tool->class != &sw_tool_pick)
    {
      for (guint i = 0; i < snap->n_guides; i++)
        sw_display_add_line (live, snap->guides[i][0], snap->guides[i][1], &guide);
      if (snap->kind != SW_SNAP_NONE)
        sw_display_add_circle (live, snap->at, 6 * board->mm_per_px, NULL, &ring);
      sw_shape_draw_cross (live, board->last.at, board->mm_per_px, SW_ROLE_INK);
    }
}

SwDisplay *
sw_board_live (SwBoard *board)
{
  SwDisplay *live = sw_display_new ();
  draw_picked (board, live);
  sw_board_draw_lit (board, live);
  sw_board_draw_ceiling (board, live);
  sw_board_draw_places (board, live);
  draw_drafts (board, live);
  if (board->tool->class->draw != NULL)
    board->tool->class->draw (board->tool, live);
  draw_snap (board, live);
  draw_shortfalls (board, live);
  sw_display_seal (live);
  return live;
}
