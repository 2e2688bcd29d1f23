/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The board keeps the pointer's raw place and asks, each time it moves, where it catches and what is typed; tools only see
 * the answer. A draft lives beside the job until it becomes one edit. Everything that can be done with the pointer can be
 * done with keys: the crosshair is the same raw place, moved by steps, and Enter presses there. */
#include "window/tools/board_data.h"
#include "window/tools/judge.h"
#include "base/error.h"
#include "base/text.h"
#include "sheets/words.h"

typedef struct { SwBoardWatch watch; gpointer data; } Watcher;

static const SwToolClass *const tools[] = {
  &sw_tool_pick, &sw_tool_tape, &sw_tool_room, &sw_tool_wall, &sw_tool_gridline, &sw_tool_rib, &sw_tool_scale, &sw_tool_bay, &sw_tool_opening,
  &sw_tool_column, &sw_tool_beam, &sw_tool_solid, &sw_tool_pipe, &sw_tool_conduit, &sw_tool_cross, &sw_tool_drop_in,
  &sw_tool_stack, &sw_tool_gully, &sw_tool_exit, &sw_tool_box, &sw_tool_distribution_board, &sw_tool_drop, &sw_tool_fitting,
  &sw_tool_sleeve, &sw_tool_light, &sw_tool_hatch, &sw_tool_bulkhead,
};

guint
sw_board_n_tools (void)
{
  return G_N_ELEMENTS (tools);
}

const SwToolClass *
sw_board_tool_class (guint i)
{
  g_return_val_if_fail (i < G_N_ELEMENTS (tools), &sw_tool_pick);
  return tools[i];
}

const SwToolRow *
sw_board_tool_row (guint i)
{
  return &sw_board_tool_class (i)->row;
}

void
sw_board_tell (SwBoard *board, guint changes)
{
  for (guint i = 0; i < board->watchers->len; i++)
    {
      Watcher watcher = g_array_index (board->watchers, Watcher, i);
      watcher.watch (board, changes, watcher.data);
    }
}

void
sw_board_watch (SwBoard *board, SwBoardWatch watch, gpointer data)
{
  Watcher watcher = { watch, data };
  g_array_append_val (board->watchers, watcher);
}

void
sw_board_unwatch (SwBoard *board, SwBoardWatch watch, gpointer data)
{
  for (guint i = 0; i < board->watchers->len; i++)
    {
      const Watcher *watcher = &g_array_index (board->watchers, Watcher, i);
      if (watcher->watch == watch && watcher->data == data)
        {
          g_array_remove_index (board->watchers, i);
          return;
        }
    }
}

static SwTool *
tool_new (SwBoard *board, const SwToolClass *class)
{
  SwTool *tool = g_malloc0 (class->size);
  tool->class = class;
  tool->board = board;
  return tool;
}

/* What was picked may be gone after an undo. */
static void
on_notice (SwDesk *desk, const SwNotice *notice, gpointer data)
{
  SwBoard *board = data;
  SwJob *job = sw_desk_job (desk);
  for (guint i = board->picked->len; i-- > 0;)
    if (sw_job_get (job, g_array_index (board->picked, SwId, i)) == NULL)
      g_array_remove_index (board->picked, i);
  sw_board_tell (board, SW_BOARD_PICKED | SW_BOARD_LIVE);
}

SwBoard *
sw_board_new (SwDesk *desk)
{
  SwBoard *board = g_new0 (SwBoard, 1);
  board->desk = desk;
  board->mm_per_px = 20;
  board->catches = TRUE;
  board->lit_kind = SW_N_PRICES;
  board->picked = g_array_new (FALSE, FALSE, sizeof (SwId));
  board->drafts = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_record_unref);
  board->shortfalls = g_array_new (FALSE, FALSE, sizeof (SwShortfall));
  board->watchers = g_array_new (FALSE, FALSE, sizeof (Watcher));
  board->templates = g_ptr_array_new ();
  g_ptr_array_set_size (board->templates, G_N_ELEMENTS (tools));
  sw_typed_clear (&board->typed);
  board->tool = tool_new (board, &sw_tool_pick);
  board->desk_watch = sw_desk_watch (desk, on_notice, board);
  return board;
}

void
sw_board_free (SwBoard *board)
{
  if (board == NULL)
    return;
  if (board->tool->class->end != NULL)
    board->tool->class->end (board->tool);
  g_free (board->tool);
  sw_desk_unwatch (board->desk, board->desk_watch);
  for (guint i = 0; i < board->templates->len; i++)
    g_clear_pointer (&board->templates->pdata[i], sw_record_unref);
  g_ptr_array_unref (board->templates);
  g_ptr_array_unref (board->drafts);
  g_array_unref (board->shortfalls);
  g_array_unref (board->picked);
  g_array_unref (board->watchers);
  sw_board_clear_ceiling (board);
  sw_board_clear_places (board);
  g_clear_pointer (&board->picture, sw_picture_unref);
  g_clear_error (&board->fault);
  g_free (board->lit_size);
  g_clear_pointer (&board->lit_cornices, g_hash_table_unref);
  g_free (board->says);
  g_free (board);
}

SwDesk *
sw_board_desk (SwBoard *board)
{
  return board->desk;
}

SwJob *
sw_board_job (SwBoard *board)
{
  return sw_desk_job (board->desk);
}

void
sw_board_set_picture (SwBoard *board, SwPicture *picture)
{
  if (picture != NULL)
    sw_picture_ref (picture);
  g_clear_pointer (&board->picture, sw_picture_unref);
  board->picture = picture;
  sw_board_follow_places (board);
  sw_board_tell (board, SW_BOARD_LIVE);
}

const SwPicture *
sw_board_picture (SwBoard *board)
{
  return board->picture;
}

void
sw_board_set_view (SwBoard *board, double mm_per_px, guint64 hidden_layers, guint64 faded_layers)
{
  board->faded = faded_layers;
  board->mm_per_px = mm_per_px;
  board->hidden = hidden_layers;
}

double
sw_board_px (SwBoard *board, double px)
{
  return px * board->mm_per_px;
}

void
sw_board_set_snaps (SwBoard *board, gboolean on)
{
  board->catches = on;
}

void
sw_board_set_polygons (SwBoard *board, gboolean on)
{
  if (board->polygons == on)
    return;
  if (board->tool->class->drop != NULL)
    board->tool->class->drop (board->tool);
  board->polygons = on;
  sw_board_tell (board, SW_BOARD_TOOL | SW_BOARD_LIVE);
}

gboolean
sw_board_polygons (SwBoard *board)
{
  return board->polygons;
}

static SwToolEvent
event_now (SwBoard *board)
{
  return sw_board_event_at (board, board->cursor, (SwBoardMods){ .clicks = 1 });
}

SwToolEvent
sw_board_event_at (SwBoard *board, SwPoint raw, SwBoardMods mods)
{
  SwToolEvent event = { .raw = raw, .at = raw, .clicks = mods.clicks, .shift = mods.shift, .control = mods.control };
  guint snaps = board->tool->class->snaps;
  if (snaps != 0 && board->catches && !mods.control && board->picture != NULL)
    {
      SwSnapQuery query = { board->picture->deck, snaps, sw_board_px (board, 9), board->has_anchor ? &board->anchor : NULL, 0 };
      event.snap = sw_snap_find (&query, raw);
      event.at = event.snap.at;
    }
  if (mods.shift && board->tool->class == &sw_tool_light && sw_board_allowed_place (board, raw, &event.at))
    event.snap = (SwSnap){ .kind = SW_SNAP_ALLOWED, .at = event.at };
  event.at = sw_typed_resolve (&board->typed, event.at, board->has_anchor ? &board->anchor : NULL);
  return event;
}

void
sw_board_motion (SwBoard *board, SwPoint world, SwBoardMods mods)
{
  board->has_cursor = TRUE;
  board->cursor = world;
  board->last = sw_board_event_at (board, world, mods);
  if (board->tool->class->motion != NULL)
    board->tool->class->motion (board->tool, &board->last);
  sw_board_tell (board, SW_BOARD_LIVE | SW_BOARD_SAYS);
}

void
sw_board_press (SwBoard *board, SwPoint world, SwBoardMods mods)
{
  board->has_cursor = TRUE;
  board->cursor = world;
  board->pressed = TRUE;
  board->done_at = world;
  board->last = sw_board_event_at (board, world, mods);
  if (board->tool->class->press != NULL)
    board->tool->class->press (board->tool, &board->last);
  sw_board_tell (board, SW_BOARD_LIVE | SW_BOARD_SAYS);
}

void
sw_board_release (SwBoard *board, SwPoint world, SwBoardMods mods)
{
  if (!board->pressed)
    return;
  board->pressed = FALSE;
  board->cursor = world;
  board->last = sw_board_event_at (board, world, mods);
  if (board->tool->class->release != NULL)
    board->tool->class->release (board->tool, &board->last);
  sw_board_tell (board, SW_BOARD_LIVE | SW_BOARD_SAYS);
}

void
sw_board_leave (SwBoard *board)
{
  board->has_cursor = FALSE;
  sw_board_tell (board, SW_BOARD_LIVE | SW_BOARD_SAYS);
}

void
sw_board_nudge (SwBoard *board, int right, int up, double step_mm)
{
  board->cursor.x = sw_point_scale ((SwPoint){ round (board->cursor.x / step_mm) + right, 0 }, step_mm).x;
  board->cursor.y = sw_point_scale ((SwPoint){ round (board->cursor.y / step_mm) + up, 0 }, step_mm).x;
  sw_board_motion (board, board->cursor, (SwBoardMods){ .clicks = 1 });
}

gboolean
sw_board_has_cursor (SwBoard *board, SwPoint *at)
{
  if (board->has_cursor && at != NULL)
    *at = board->tool->class->snaps != 0 ? board->last.at : board->cursor;
  return board->has_cursor;
}

gboolean
sw_board_raw_cursor (SwBoard *board, SwPoint *at)
{
  *at = board->cursor;
  return board->has_cursor;
}

static void
typed_changed (SwBoard *board)
{
  board->last = event_now (board);
  if (board->tool->class->motion != NULL)
    board->tool->class->motion (board->tool, &board->last);
  sw_board_tell (board, SW_BOARD_TOOL | SW_BOARD_LIVE | SW_BOARD_SAYS);
}

gboolean
sw_board_type (SwBoard *board, gunichar character)
{
  board->typed.lengths = sw_job_lengths (sw_board_job (board));
  if (!sw_typed_add (&board->typed, character))
    return FALSE;
  typed_changed (board);
  return TRUE;
}

gboolean
sw_board_tab (SwBoard *board, gboolean back)
{
  if (!sw_typed_next (&board->typed, back))
    return FALSE;
  typed_changed (board);
  return TRUE;
}

gboolean
sw_board_backspace (SwBoard *board)
{
  if (sw_typed_erase (&board->typed))
    {
      typed_changed (board);
      return TRUE;
    }
  if (board->tool->class->back == NULL || !board->tool->class->back (board->tool))
    return FALSE;
  typed_changed (board);
  return TRUE;
}

/* Presses and lets go at the crosshair, with what is typed worked in. */
static void
click_here (SwBoard *board)
{
  board->last = event_now (board);
  if (board->tool->class->press != NULL)
    board->tool->class->press (board->tool, &board->last);
  if (board->tool->class->release != NULL)
    board->tool->class->release (board->tool, &board->last);
}

void
sw_board_enter (SwBoard *board)
{
  int fault = sw_typed_fault (&board->typed);
  if (fault >= 0)
    {
      g_clear_error (&board->fault);
      board->fault = g_error_new (SW_ERROR, SW_ERROR_INVALID, _("%s: \"%s\" is no length; write it like %s"), sw_word (sw_typed_label (fault)),
                                  board->typed.text[fault],
                                  board->typed.lengths == SW_LENGTHS_FT_IN ? _("3' 4 1/2\" + 2\" or 1.2 m") : _("1200+450/2 or 1.2 m"));
      sw_board_tell (board, SW_BOARD_FAULT);
      return;
    }
  gboolean first_typed = !board->has_anchor && !sw_typed_is_empty (&board->typed);
  gboolean stayed = sw_point_distance (board->cursor, board->done_at) < sw_board_px (board, 5);
  if (sw_typed_is_empty (&board->typed) && board->has_anchor && board->tool->class->finish != NULL && stayed)
    board->tool->class->finish (board->tool);
  else
    click_here (board);
  /* From a first place that was typed, what is typed next counts from there, wherever the pointer was left. */
  if (first_typed && board->has_anchor)
    board->cursor = board->anchor;
  board->done_at = board->cursor;
  sw_typed_clear (&board->typed);
  typed_changed (board);
}

void
sw_board_escape (SwBoard *board)
{
  if (!sw_typed_is_empty (&board->typed) || board->typed.active >= 0)
    sw_typed_clear (&board->typed);
  else if (board->tool->class->drop != NULL && board->tool->class->drop (board->tool))
    board->pressed = FALSE;
  else if (board->tool->class != &sw_tool_pick)
    sw_board_use (board, "pick");
  else
    sw_board_pick (board, 0, FALSE);
  typed_changed (board);
}

void
sw_board_cancel (SwBoard *board)
{
  board->pressed = FALSE;
  if (board->tool->class == &sw_tool_pick && board->tool->class->drop (board->tool))
    sw_board_tell (board, SW_BOARD_LIVE | SW_BOARD_SAYS);
}

gboolean
sw_board_is_drawing (SwBoard *board)
{
  return board->typed.offered != 0;
}

const SwToolRow *
sw_board_tool (SwBoard *board)
{
  return &board->tool->class->row;
}

gboolean
sw_board_use (SwBoard *board, const char *id)
{
  guint i = 0;
  while (i < G_N_ELEMENTS (tools) && !g_str_equal (tools[i]->row.id, id))
    i++;
  if (i == G_N_ELEMENTS (tools))
    return FALSE;
  if (board->tool->class->drop != NULL)
    board->tool->class->drop (board->tool);
  if (board->tool->class->end != NULL)
    board->tool->class->end (board->tool);
  g_free (board->tool);
  board->has_anchor = FALSE;
  board->pressed = FALSE;
  board->tool_index = i;
  board->tool = tool_new (board, tools[i]);
  sw_board_set_drafts (board, NULL, 0);
  sw_typed_clear (&board->typed);
  sw_typed_offer (&board->typed, 0);
  sw_board_say (board, NULL);
  if (tools[i] != &sw_tool_pick && board->picked->len > 0 && tools[i] != &sw_tool_cross)
    sw_board_pick (board, 0, FALSE);
  if (tools[i]->start != NULL)
    tools[i]->start (board->tool);
  sw_board_tell (board, SW_BOARD_TOOL | SW_BOARD_LIVE | SW_BOARD_SAYS | SW_BOARD_PICKED);
  return TRUE;
}

/* The bay's own references (a profile) cannot be guessed by a default: the first of the job. */
static void
fill_owners (const SwField *field, SwId *ref, gpointer data)
{
  SwJob *job = data;
  if ((field->flags & SW_FLAG_OWNER) == 0 || (*ref != 0 && sw_job_get (job, *ref) != NULL))
    return;
  *ref = 0;
  for (SwTable table = 0; table < SW_N_TABLES && *ref == 0; table++)
    if ((field->refs & (1u << table)) != 0 && sw_job_count (job, table) > 0)
      *ref = sw_job_nth (job, table, 0)->id;
}

/* A reference to what an undo took away is dropped. */
static void
drop_dead (const SwField *field, SwId *ref, gpointer data)
{
  if (*ref != 0 && sw_job_get (data, *ref) == NULL)
    *ref = 0;
}

/* The next bay is most likely of the same troughs as the last one. */
static void
follow_last_bay (SwJob *job, SwRecord *template)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_BAY); (record = sw_job_iter_next (&i)) != NULL;)
    ((SwBay *) template)->profile = ((const SwBay *) record)->profile;
}

SwRecord *
sw_board_template (SwBoard *board)
{
  const SwToolClass *class = board->tool->class;
  gpointer *slot = &board->templates->pdata[board->tool_index];
  if (class->row.table == SW_N_TABLES)
    return NULL;
  if (*slot == NULL)
    {
      *slot = sw_record_new (SW_ID (class->row.table, 1), "");
      if (class->setup != NULL)
        class->setup (*slot);
      if (class->row.table == SW_TABLE_BAY)
        follow_last_bay (sw_board_job (board), *slot);
    }
  sw_record_each_ref (*slot, drop_dead, sw_board_job (board));
  sw_record_each_ref (*slot, fill_owners, sw_board_job (board));
  return *slot;
}

void
sw_board_template_changed (SwBoard *board)
{
  typed_changed (board);
}

SwRecord *
sw_board_create (SwBoard *board, const SwEdit *edit)
{
  g_autoptr (SwEdit) none = edit == NULL ? sw_edit_new ("") : NULL;
  SwRecord *template = sw_board_template (board);
  g_autoptr (SwRecord) blank = sw_edit_create (edit != NULL ? edit : none, sw_board_job (board), sw_record_table (template));
  SwRecord *record = sw_record_copy (template);
  record->id = blank->id;
  sw_text_set (&record->tag, blank->tag);
  return record;
}

void
sw_board_set_anchor (SwBoard *board, const SwPoint *anchor)
{
  board->has_anchor = anchor != NULL;
  if (anchor != NULL)
    board->anchor = *anchor;
}

void
sw_board_offer (SwBoard *board, guint typed_fields)
{
  sw_typed_offer (&board->typed, typed_fields);
}

const SwTyped *
sw_board_typed (SwBoard *board)
{
  return &board->typed;
}

const char *
sw_board_length (SwBoard *board, double mm, SwLengthStyle style, char buf[SW_LENGTH_BUF])
{
  return sw_length_write (mm, sw_job_lengths (sw_board_job (board)), style, 0, buf);
}

void
sw_board_say (SwBoard *board, char *text)
{
  g_free (board->says);
  board->says = text;
}

const char *
sw_board_says (SwBoard *board)
{
  return board->says;
}

const GError *
sw_board_fault (SwBoard *board)
{
  return board->fault;
}

const GPtrArray *
sw_board_drafts (SwBoard *board)
{
  return board->drafts;
}

const GPtrArray *
sw_board_draft_under_way (SwBoard *board, guint *serial)
{
  *serial = board->draft_serial;
  return board->drafts->len > 0 && (board->pressed || board->has_anchor) ? board->drafts : NULL;
}

void
sw_board_set_drafts (SwBoard *board, SwRecord **records, guint n)
{
  board->draft_serial++;
  g_ptr_array_set_size (board->drafts, 0);
  g_array_set_size (board->shortfalls, 0);
  for (guint i = 0; i < n; i++)
    g_ptr_array_add (board->drafts, records[i]);
  if (n > 0 && board->picture != NULL)
    sw_judge_drafts (board->picture, board->drafts, board->shortfalls);
  sw_board_follow_ceiling (board);
  sw_board_follow_places (board);
}

gboolean
sw_board_do (SwBoard *board, SwEdit *edit)
{
  g_autoptr (SwEdit) mine = edit;
  g_clear_error (&board->fault);
  gboolean done = sw_desk_do (board->desk, mine, &board->fault);
  sw_typed_clear (&board->typed);
  if (!done)
    sw_board_tell (board, SW_BOARD_FAULT);
  return done;
}
