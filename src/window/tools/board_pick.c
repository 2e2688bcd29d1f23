/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is picked, and the edits of it. */
#include "window/tools/board_data.h"
#include "window/tools/parts.h"
#include "drawing/hit.h"
#include "geometry/outline.h"
#include "sheets/words.h"

guint
sw_board_n_picked (SwBoard *board)
{
  return board->picked->len;
}

SwId
sw_board_picked (SwBoard *board, guint i)
{
  return i < board->picked->len ? g_array_index (board->picked, SwId, i) : 0;
}

static int
picked_index (SwBoard *board, SwId id)
{
  for (guint i = 0; i < board->picked->len; i++)
    if (g_array_index (board->picked, SwId, i) == id)
      return (int) i;
  return -1;
}

gboolean
sw_board_is_picked (SwBoard *board, SwId id)
{
  return picked_index (board, id) >= 0;
}

void
sw_board_pick (SwBoard *board, SwId id, gboolean add)
{
  int at = picked_index (board, id);
  board->lit_kind = SW_N_PRICES;
  if (!add)
    g_array_set_size (board->picked, 0);
  if (add && at >= 0)
    g_array_remove_index (board->picked, at);
  else if (id != 0 && sw_job_get (sw_board_job (board), id) != NULL)
    g_array_append_val (board->picked, id);
  sw_board_tell (board, SW_BOARD_PICKED | SW_BOARD_LIVE);
}

void
sw_board_pick_many (SwBoard *board, const SwId *ids, guint n)
{
  board->lit_kind = SW_N_PRICES;
  g_array_set_size (board->picked, 0);
  for (guint i = 0; i < n; i++)
    if (sw_job_get (sw_board_job (board), ids[i]) != NULL && picked_index (board, ids[i]) < 0)
      g_array_append_val (board->picked, ids[i]);
  sw_board_tell (board, SW_BOARD_PICKED | SW_BOARD_LIVE);
}

void
sw_board_pick_layers (SwBoard *board, guint64 layers)
{
  SwJob *job = sw_board_job (board);
  const SwRecord *record;
  board->lit_kind = SW_N_PRICES;
  g_array_set_size (board->picked, 0);
  for (SwTable table = SW_TABLE_BAY; table <= SW_TABLE_MEASURE; table++)
    for (SwJobIter i = sw_job_iter (job, table); (record = sw_job_iter_next (&i)) != NULL;)
      if (table != SW_TABLE_CIRCUIT && table != SW_TABLE_PLATE && (layers & SW_LAYER_BIT (sw_plan_layer_of (job, record))) != 0)
        g_array_append_val (board->picked, record->id);
  sw_board_tell (board, SW_BOARD_PICKED | SW_BOARD_LIVE);
}

/* "Move downlight", or "Move 3 things". */
static char *
edit_name (SwBoard *board, const char *one, const char *many)
{
  if (board->picked->len == 1)
    {
      const SwRecord *record = sw_job_get (sw_board_job (board), g_array_index (board->picked, SwId, 0));
      return g_strdup_printf (one, sw_word (sw_record_type (record)->label));
    }
  return g_strdup_printf (many, board->picked->len);
}

gboolean
sw_board_delete (SwBoard *board)
{
  if (board->picked->len == 0)
    return FALSE;
  g_autofree char *name = edit_name (board, _("Delete %s"), _("Delete %u things"));
  SwEdit *edit = sw_edit_new (name);
  for (guint i = 0; i < board->picked->len; i++)
    {
      SwId id = g_array_index (board->picked, SwId, i);
      if (SW_ID_TABLE (id) != SW_TABLE_JOB)
        sw_edit_remove (edit, sw_board_job (board), id);
    }
  return sw_board_do (board, edit);
}

/* A drop stands on its wall: only the part along it counts. */
static void
move_drop (const SwJob *job, SwDrop *drop, SwPoint by)
{
  const SwWall *wall = (const SwWall *) sw_job_get (job, drop->wall);
  if (wall == NULL)
    return;
  SwPoint way = sw_point_sub (wall->to, wall->from);
  double length = sw_point_length (way);
  if (length > 0)
    drop->along = CLAMP (drop->along + sw_point_dot (by, way) / length, 0, length);
}

static SwRecord *
moved_copy (SwBoard *board, const SwRecord *record, SwPoint by)
{
  SwRecord *copy = sw_record_copy (record);
  if (sw_record_table (copy) == SW_TABLE_DROP)
    {
      if (!sw_board_is_picked (board, ((SwDrop *) copy)->wall))
        move_drop (sw_board_job (board), (SwDrop *) copy, by);
    }
  else
    sw_record_move (copy, by);
  return copy;
}

/* Runs that begin or end at something that moves go along with that end. */
static gboolean
follow_ends (SwBoard *board, const SwRun *run, SwPoint by, SwRun **changed)
{
  gboolean start = run->start != 0 && SW_ID_TABLE (run->start) != SW_TABLE_DROP && sw_board_is_picked (board, run->start);
  gboolean end = run->end != 0 && SW_ID_TABLE (run->end) != SW_TABLE_DROP && sw_board_is_picked (board, run->end);
  if (sw_board_is_picked (board, run->record.id) || (!start && !end))
    return FALSE;
  *changed = (SwRun *) sw_record_copy (&run->record);
  SwVertex *vertices = (*changed)->vertices.items;
  guint last = (*changed)->vertices.n - 1;
  if (start)
    vertices[0].at = sw_point_add (vertices[0].at, by);
  if (end)
    vertices[last].at = sw_point_add (vertices[last].at, by);
  return TRUE;
}

/* Bulkheads go along with their room. */
static gboolean
follow_room (SwBoard *board, const SwRecord *record)
{
  return !sw_board_is_picked (board, record->id) && sw_board_is_picked (board, ((const SwBulkhead *) record)->room);
}

GPtrArray *
sw_board_moved (SwBoard *board, SwPoint by)
{
  SwJob *job = sw_board_job (board);
  GPtrArray *records = g_ptr_array_new ();
  const SwRecord *record;
  SwRun *changed;
  for (guint i = 0; i < board->picked->len; i++)
    if ((record = sw_job_get (job, g_array_index (board->picked, SwId, i))) != NULL && sw_record_table (record) != SW_TABLE_LAYOUT)
      g_ptr_array_add (records, moved_copy (board, record, by)); /* battens and boards lie where their room says */
  for (SwJobIter iter = sw_job_iter (job, SW_TABLE_RUN); (record = sw_job_iter_next (&iter)) != NULL;)
    if (follow_ends (board, (const SwRun *) record, by, &changed))
      g_ptr_array_add (records, changed);
  for (SwJobIter iter = sw_job_iter (job, SW_TABLE_BULKHEAD); (record = sw_job_iter_next (&iter)) != NULL;)
    if (follow_room (board, record))
      g_ptr_array_add (records, moved_copy (board, record, by));
  return records;
}

gboolean
sw_board_put_all (SwBoard *board, const char *name, GPtrArray *records)
{
  g_autoptr (GPtrArray) mine = records;
  g_autoptr (SwEdit) edit = sw_edit_new (name);
  GError *error = NULL;
  gboolean good = TRUE;
  for (guint i = 0; i < mine->len; i++)
    {
      if (good)
        good = sw_edit_put (edit, sw_board_job (board), mine->pdata[i], &error);
      else
        sw_record_unref (mine->pdata[i]);
    }
  if (good && sw_board_put_ceiling (board, edit, &error))
    return sw_board_do (board, g_steal_pointer (&edit));
  g_clear_error (&board->fault);
  board->fault = error;
  sw_board_tell (board, SW_BOARD_FAULT);
  return FALSE;
}

gboolean
sw_board_move (SwBoard *board, SwPoint by)
{
  if (board->picked->len == 0 || sw_point_length (by) == 0)
    return FALSE;
  g_autofree char *name = edit_name (board, _("Move %s"), _("Move %u things"));
  return sw_board_put_all (board, name, sw_board_moved (board, by));
}

/* References between things that are copied together lead to the copies; others to ends of runs are cleared. */
static void
lead_to_copies (const SwField *field, SwId *ref, gpointer data)
{
  const SwId *copy = g_hash_table_lookup (data, ref);
  if (copy != NULL)
    *ref = *copy;
  else if (g_str_equal (field->key, "start") || g_str_equal (field->key, "end"))
    *ref = 0;
}

gboolean
sw_board_copy (SwBoard *board, SwPoint by)
{
  SwJob *job = sw_board_job (board);
  if (board->picked->len == 0)
    return FALSE;
  g_autofree char *name = edit_name (board, _("Copy %s"), _("Copy %u things"));
  g_autoptr (GHashTable) copies = g_hash_table_new_full (g_int64_hash, g_int64_equal, NULL, NULL);
  g_autoptr (GPtrArray) records = g_ptr_array_new ();
  g_autoptr (GArray) ids = g_array_sized_new (FALSE, FALSE, sizeof (SwId), board->picked->len);
  guint ahead[SW_N_TABLES] = { 0 };
  for (guint i = 0; i < board->picked->len; i++)
    {
      const SwRecord *record = sw_job_get (job, g_array_index (board->picked, SwId, i));
      SwTable table = sw_record_table (record);
      if (table == SW_TABLE_JOB)
        continue;
      SwRecord *copy = moved_copy (board, record, by);
      g_autofree char *tag = sw_job_free_tag (job, table, ahead[table]);
      copy->id = sw_job_next_id (job, table, ahead[table]++);
      sw_text_set (&copy->tag, tag);
      g_ptr_array_add (records, copy);
      g_array_append_val (ids, copy->id);
      g_hash_table_insert (copies, (gpointer) &record->id, &copy->id);
    }
  for (guint i = 0; i < records->len; i++)
    sw_record_each_ref (records->pdata[i], lead_to_copies, copies);
  g_clear_pointer (&copies, g_hash_table_unref);
  if (!sw_board_put_all (board, name, g_steal_pointer (&records)))
    return FALSE;
  sw_board_pick_many (board, (const SwId *) (gpointer) ids->data, ids->len);
  return TRUE;
}

static gboolean
add_new (GArray *found, SwId id, guint most)
{
  for (guint i = 0; i < found->len; i++)
    if (g_array_index (found, SwId, i) == id)
      return TRUE;
  if (found->len >= most)
    return FALSE;
  g_array_append_val (found, id);
  return TRUE;
}

/* A room has no face of its own to click on: all its floor counts where rooms are what the step is about, and the deck is not. */
static gboolean
floors_count (const SwBoard *board)
{
  guint64 rooms = SW_LAYER_BIT (SW_LAYER_ROOMS), deck = SW_LAYER_BIT (SW_LAYER_DECK);
  return board->picture != NULL && ((board->hidden | board->faded) & rooms) == 0 && (board->faded & deck) != 0;
}

static gboolean
add_rooms (SwBoard *board, SwPoint at, GArray *found, guint most)
{
  const SwRecord *record;
  gboolean more = TRUE;
  for (SwJobIter i = sw_job_iter (sw_board_job (board), SW_TABLE_ROOM); more && (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwRoom *room = (const SwRoom *) record;
      if (sw_outline_holds (room->outline.items, room->outline.n, at))
        more = add_new (found, record->id, most);
    }
  return more;
}

static guint
things_at (SwBoard *board, SwPoint world, SwId *ids, guint most, gboolean floors)
{
  g_autoptr (GArray) found = g_array_new (FALSE, FALSE, sizeof (SwId));
  SwLook look = { .hidden = board->hidden, .faded = board->faded };
  double zoom = 1 / board->mm_per_px;
  SwDrawView view = sw_draw_view_new ((SwTransform){ zoom, 0, 0, -zoom, 0, 0 }, 1, 0, &look);
  SwPoint at = sw_transform_point (view.to_device, world);
  for (int p = SW_PART_THINGS; board->picture != NULL && p >= 0; p--)
    {
      g_autoptr (GArray) hits = sw_hit_point (board->picture->parts[p], &view, at, 6);
      for (guint i = 0; i < hits->len; i++)
        {
          SwId id = g_array_index (hits, SwHit, i).key.record;
          if (floors && SW_ID_TABLE (id) == SW_TABLE_BAY && !add_rooms (board, world, found, most))
            break;
          if (sw_job_get (sw_board_job (board), id) != NULL && !add_new (found, id, most))
            break;
        }
    }
  if (floors)
    add_rooms (board, world, found, most);
  for (guint i = 0; i < found->len; i++)
    ids[i] = g_array_index (found, SwId, i);
  return found->len;
}

guint
sw_board_things_at (SwBoard *board, SwPoint world, SwId *ids, guint most)
{
  return things_at (board, world, ids, most, floors_count (board));
}

guint
sw_board_drawn_at (SwBoard *board, SwPoint world, SwId *ids, guint most)
{
  return things_at (board, world, ids, most, FALSE);
}
