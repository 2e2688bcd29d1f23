/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Picking: a click takes the uppermost thing, the same click again the one below it; shift adds; from an empty place a
 * rubber band takes all that lies wholly inside. Dragging what is picked moves it; dragging a place of the one thing that is
 * picked moves that place, dragging the middle of a leg makes a new one, and dragging a side of an outline moves that side. A drag from what is not of the step in hand,
 * or from a bay or room that is not picked, is a rubber band too. */
#include "window/tools/board_data.h"
#include "window/tools/parts.h"
#include "window/tools/shape.h"
#include "sheets/plan.h"
#include "sheets/words.h"
#include "base/number.h"

typedef enum { PICK_IDLE, PICK_PRESSED, PICK_BAND, PICK_MOVE, PICK_PART, PICK_SIDE } PickState;

typedef struct
{
  SwTool tool;
  PickState state;
  SwPoint pressed_at, now;
  SwId hover;
  SwId last_clicked; /* for cycling */
  SwPoint last_click_at;
  int part;          /* of the one picked thing, 1 …; < 0: a new one after place −part */
  int side;          /* of the one picked outline, 1 … */
  gboolean was_picked, added;
} Pick;

#define MOST_UNDER 32

/* Battens and boards stand for their room. */
static const SwRecord *
only_picked (SwBoard *board)
{
  const SwRecord *record = sw_board_n_picked (board) == 1 ? sw_job_get (sw_board_job (board), sw_board_picked (board, 0)) : NULL;
  if (record != NULL && sw_record_table (record) == SW_TABLE_LAYOUT)
    return sw_job_get (sw_board_job (board), ((const SwLayout *) record)->room);
  return record;
}

/* The handle under the pointer: a place of the one picked thing, or the middle between two as its negative. */
static int
part_at (SwBoard *board, SwPoint at)
{
  const SwRecord *record = only_picked (board);
  double reach = sw_board_px (board, 8);
  if (record == NULL || sw_parts_count (record) < 2)
    return 0;
  guint n = sw_parts_count (record);
  for (guint i = 0; i < n; i++)
    if (sw_point_distance (sw_parts_get (record, i), at) <= reach)
      return (int) i + 1;
  if (sw_parts_list (record) == NULL)
    return 0;
  gboolean ring = sw_parts_form (record) == SW_PARTS_RING;
  for (guint i = 0; i + 1 < n + ring; i++)
    {
      SwPoint a = sw_parts_get (record, i), b = sw_parts_get (record, (i + 1) % n);
      if (sw_point_distance (a, b) > 5 * reach && sw_point_distance (sw_point_lerp (a, b, 0.5), at) <= reach)
        return -(int) (i + 1);
    }
  return 0;
}

static double
distance_to_leg (SwPoint at, SwPoint a, SwPoint b)
{
  SwPoint way = sw_point_sub (b, a);
  double square = sw_point_dot (way, way), along = square > 0 ? sw_point_dot (sw_point_sub (at, a), way) / square : 0;
  return sw_point_distance (at, sw_point_lerp (a, b, CLAMP (along, 0, 1)));
}

/* The side of the one picked outline that is under the pointer, from 1; 0 for none. What is small is moved as a whole. */
static int
side_at (SwBoard *board, SwPoint at)
{
  const SwRecord *record = only_picked (board);
  double reach = sw_board_px (board, 6);
  if (record == NULL || sw_parts_form (record) != SW_PARTS_RING)
    return 0;
  guint n = sw_parts_count (record);
  SwBox box = sw_record_box (record);
  if (n < 3 || fmin (box.high.x - box.low.x, box.high.y - box.low.y) < 8 * reach)
    return 0;
  for (guint i = 0; i < n; i++)
    if (distance_to_leg (at, sw_parts_get (record, i), sw_parts_get (record, (i + 1) % n)) <= reach)
      return (int) i + 1;
  return 0;
}

/* A corner goes along the side before or behind it, so that this one keeps its direction, unless the two are nearly one line. */
static void
slide (SwRecord *copy, guint corner, guint beyond, SwPoint normal, double by)
{
  SwPoint at = sw_parts_get (copy, corner), way = sw_point_sub (at, sw_parts_get (copy, beyond));
  double length = sw_point_length (way), lean = length > 0 ? sw_point_dot (way, normal) / length : 0;
  SwPoint step = fabs (lean) > 0.2 ? sw_point_scale (way, by / (lean * length)) : sw_point_scale (normal, by);
  sw_parts_set (copy, corner, sw_point_add (at, step));
}

/* The one picked outline with its side moved to where the pointer is, by whole millimetres. */
static SwRecord *
side_moved (Pick *pick, const SwToolEvent *event, double *by)
{
  const SwRecord *record = only_picked (pick->tool.board);
  guint n = record != NULL ? sw_parts_count (record) : 0, i = (guint) pick->side - 1, k = n > 0 ? (i + 1) % n : 0;
  if (n < 3 || i >= n)
    return NULL;
  SwPoint a = sw_parts_get (record, i), b = sw_parts_get (record, k), way = sw_point_sub (b, a);
  double length = sw_point_length (way);
  if (length == 0)
    return NULL;
  SwRecord *copy = sw_record_copy (record);
  SwPoint normal = { -way.y / length, way.x / length };
  SwPoint to = sw_typed_resolve (sw_board_typed (pick->tool.board), event->raw, &pick->pressed_at);
  *by = round (sw_point_dot (sw_point_sub (to, pick->pressed_at), normal));
  slide (copy, i, (i + n - 1) % n, normal, *by);
  slide (copy, k, (k + 1) % n, normal, *by);
  return copy;
}

static SwRecord *
part_moved (Pick *pick, SwPoint to)
{
  const SwRecord *record = only_picked (pick->tool.board);
  if (record == NULL)
    return NULL;
  SwRecord *copy = sw_record_copy (record);
  if (pick->part > 0 && pick->part <= (int) sw_parts_count (copy))
    sw_parts_set (copy, pick->part - 1, to);
  else if (pick->part < 0)
    sw_parts_insert (copy, -pick->part - 1, to);
  return copy;
}

/* The one below what the same click picked before. */
static SwId
next_under (Pick *pick, SwPoint at)
{
  SwId ids[MOST_UNDER];
  SwBoard *board = pick->tool.board;
  guint n = sw_board_things_at (board, at, ids, MOST_UNDER);
  if (n == 0)
    return 0;
  if (pick->last_clicked != 0 && sw_point_distance (at, pick->last_click_at) < sw_board_px (board, 3))
    for (guint i = 0; i < n; i++)
      if (ids[i] == pick->last_clicked)
        return ids[(i + 1) % n];
  return ids[0];
}

static SwId
top_at (SwBoard *board, SwPoint at)
{
  SwId ids[MOST_UNDER];
  guint n = sw_board_drawn_at (board, at, ids, MOST_UNDER);
  for (guint i = 0; i < n; i++)
    if (sw_board_is_picked (board, ids[i]))
      return ids[i];
  return n > 0 ? ids[0] : 0;
}

/* What a drag may take along although it was not picked before: a thing of the step in hand. Bays, rooms and grid lines lie
 * under everything: they have to be picked first, else a rubber band could be begun nowhere. */
static gboolean
may_grab (const SwBoard *board, SwId id)
{
  SwTable table = SW_ID_TABLE (id);
  const SwRecord *record = id != 0 ? sw_job_get (sw_desk_job (board->desk), id) : NULL;
  return record != NULL && table != SW_TABLE_BAY && table != SW_TABLE_ROOM && table != SW_TABLE_GRIDLINE && table != SW_TABLE_JOB
         && (board->faded & SW_LAYER_BIT (sw_plan_layer_of (sw_desk_job (board->desk), record))) == 0;
}

static void
pick_press (SwTool *tool, const SwToolEvent *event)
{
  Pick *pick = (Pick *) tool;
  SwId id = top_at (tool->board, event->raw);
  pick->state = PICK_PRESSED;
  pick->pressed_at = pick->now = event->raw;
  pick->part = event->shift ? 0 : part_at (tool->board, event->raw);
  pick->side = event->shift || pick->part != 0 ? 0 : side_at (tool->board, event->raw);
  pick->was_picked = id != 0 && sw_board_is_picked (tool->board, id);
  pick->added = FALSE;
  if (pick->part != 0 || pick->side != 0 || pick->was_picked)
    return;
  /* What is pressed is picked at once, so that one gesture picks and moves. */
  if (may_grab (tool->board, id))
    {
      sw_board_pick (tool->board, id, event->shift);
      pick->last_clicked = id;
      pick->last_click_at = event->raw;
      pick->added = TRUE;
    }
}

static void
say_move (SwBoard *board, SwPoint by)
{
  char dx[SW_LENGTH_BUF], dy[SW_LENGTH_BUF], length[SW_LENGTH_BUF];
  g_autofree char *place = sw_board_place_words (board);
  g_autofree char *moved = g_strdup_printf (_("Moved %s (x %s, y %s)"), sw_board_length (board, sw_point_length (by), SW_LENGTH_UNIT, length),
                                            sw_board_length (board, by.x, SW_LENGTH_BARE, dx), sw_board_length (board, by.y, SW_LENGTH_BARE, dy));
  sw_board_say (board, place != NULL ? g_strdup_printf ("%s · %s", place, moved) : g_steal_pointer (&moved));
}

/* With Shift the one light that is dragged takes the nearest allowed place. */
static SwPoint
moved_by (const Pick *pick, const SwToolEvent *event)
{
  SwPoint to = sw_typed_resolve (sw_board_typed (pick->tool.board), event->raw, &pick->pressed_at), allowed;
  SwPoint by = sw_point_sub (to, pick->pressed_at);
  const SwRecord *record = event->shift ? only_picked (pick->tool.board) : NULL;
  if (record == NULL || sw_record_table (record) != SW_TABLE_LIGHT)
    return by;
  SwPoint at = ((const SwLight *) record)->at;
  return sw_board_allowed_place (pick->tool.board, sw_point_add (at, by), &allowed) ? sw_point_sub (allowed, at) : by;
}

static void
drag_motion (Pick *pick, const SwToolEvent *event)
{
  SwBoard *board = pick->tool.board;
  if (pick->state == PICK_MOVE)
    {
      SwPoint by = moved_by (pick, event);
      g_autoptr (GPtrArray) moved = sw_board_moved (board, by);
      sw_board_set_drafts (board, (SwRecord **) moved->pdata, moved->len);
      say_move (board, by);
    }
  else if (pick->state == PICK_PART)
    {
      SwRecord *copy = part_moved (pick, event->at);
      if (copy != NULL)
        sw_board_set_drafts (board, &copy, 1);
    }
  else if (pick->state == PICK_SIDE)
    {
      double by = 0;
      char length[SW_LENGTH_BUF];
      SwRecord *copy = side_moved (pick, event, &by);
      if (copy != NULL)
        sw_board_set_drafts (board, &copy, 1);
      sw_board_say (board, g_strdup_printf (_("Side moved %s"), sw_board_length (board, fabs (by), SW_LENGTH_UNIT, length)));
    }
}

static void
pick_motion (SwTool *tool, const SwToolEvent *event)
{
  Pick *pick = (Pick *) tool;
  pick->now = event->raw;
  if (pick->state == PICK_IDLE)
    {
      pick->hover = top_at (tool->board, event->raw);
      return;
    }
  if (pick->state == PICK_PRESSED && sw_point_distance (event->raw, pick->pressed_at) > sw_board_px (tool->board, 4))
    {
      if (pick->part != 0)
        pick->state = PICK_PART;
      else if (pick->side != 0)
        pick->state = PICK_SIDE;
      else if (pick->was_picked || pick->added)
        pick->state = PICK_MOVE;
      else
        pick->state = PICK_BAND;
      pick->hover = 0;
      if (pick->state == PICK_MOVE || pick->state == PICK_SIDE)
        {
          sw_board_set_anchor (tool->board, &pick->pressed_at);
          sw_board_offer (tool->board, SW_TYPED_POLAR);
        }
      else if (pick->state == PICK_PART)
        sw_board_offer (tool->board, SW_TYPED_PLACE);
    }
  drag_motion (pick, event);
}

/* Things of the step in hand, where the band holds any, else all that it holds. */
static void
keep_front (SwBoard *board, GArray *ids)
{
  guint n = 0;
  for (guint i = 0; i < ids->len; i++)
    n += may_grab (board, g_array_index (ids, SwId, i));
  for (guint i = ids->len; n > 0 && i-- > 0;)
    if (!may_grab (board, g_array_index (ids, SwId, i)))
      g_array_remove_index (ids, i);
}

static void
pick_band (Pick *pick)
{
  SwBoard *board = pick->tool.board;
  SwBox band = sw_box_add (sw_box_add (SW_BOX_EMPTY, pick->pressed_at), pick->now);
  const SwPicture *picture = sw_board_picture (board);
  g_autoptr (GArray) ids = g_array_new (FALSE, FALSE, sizeof (SwId));
  for (int p = SW_PART_THINGS; picture != NULL && p >= 0; p--)
    for (guint i = 0; i < sw_display_n_groups (picture->parts[p]); i++)
      {
        SwBox box = sw_display_group_box (picture->parts[p], i);
        SwId id = sw_display_group (picture->parts[p], i).key.record;
        if (id != 0 && !sw_box_is_empty (box) && sw_box_holds (band, box.low) && sw_box_holds (band, box.high))
          g_array_append_val (ids, id);
      }
  keep_front (board, ids);
  sw_board_pick_many (board, (const SwId *) (gpointer) ids->data, ids->len);
}

static void
settle (Pick *pick)
{
  pick->state = PICK_IDLE;
  pick->part = pick->side = 0;
  sw_board_set_anchor (pick->tool.board, NULL);
  sw_board_offer (pick->tool.board, 0);
  sw_board_set_drafts (pick->tool.board, NULL, 0);
  sw_board_say (pick->tool.board, NULL);
}

static void
click (Pick *pick, const SwToolEvent *event)
{
  SwBoard *board = pick->tool.board;
  if (pick->added || pick->part != 0)
    return;
  SwId id = next_under (pick, event->raw);
  if (event->shift)
    {
      if (id != 0)
        sw_board_pick (board, pick->was_picked ? top_at (board, event->raw) : id, TRUE);
      return;
    }
  sw_board_pick (board, id, FALSE);
  pick->last_clicked = id;
  pick->last_click_at = event->raw;
}

static void
pick_release (SwTool *tool, const SwToolEvent *event)
{
  Pick *pick = (Pick *) tool;
  PickState state = pick->state;
  pick->now = event->raw;
  if (state == PICK_MOVE)
    {
      SwPoint by = moved_by (pick, event);
      settle (pick);
      sw_board_move (tool->board, by);
      return;
    }
  if (state == PICK_PART || state == PICK_SIDE)
    {
      double by;
      SwRecord *copy = state == PICK_PART ? part_moved (pick, event->at) : side_moved (pick, event, &by);
      settle (pick);
      if (copy != NULL)
        {
          g_autofree char *name = g_strdup_printf (_("Reshape %s"), sw_word (sw_record_type (copy)->label));
          GPtrArray *records = g_ptr_array_new ();
          g_ptr_array_add (records, copy);
          sw_board_put_all (tool->board, name, records);
        }
      return;
    }
  if (state == PICK_BAND)
    pick_band (pick);
  else if (state == PICK_PRESSED)
    click (pick, event);
  settle (pick);
}

static gboolean
pick_drop (SwTool *tool)
{
  Pick *pick = (Pick *) tool;
  if (pick->state == PICK_IDLE)
    return FALSE;
  settle (pick);
  return TRUE;
}

static void
pick_draw (SwTool *tool, SwDisplay *live)
{
  Pick *pick = (Pick *) tool;
  SwBoard *board = tool->board;
  const SwRecord *hover = pick->hover != 0 ? sw_job_get (sw_board_job (board), pick->hover) : NULL;
  SwShapeLook look = { SW_ROLE_HOVER, 2, FALSE };
  if (hover != NULL && !sw_board_is_picked (board, pick->hover))
    sw_shape_draw (live, sw_board_job (board), hover, &look);
  if (pick->state == PICK_BAND)
    {
      SwFill fill = { .role = SW_ROLE_SELECTION, .transparency = 0.88 };
      SwStroke line = { .role = SW_ROLE_SELECTION, .width = 1, .unit = SW_SIZE_PX };
      sw_display_add_box (live, sw_box_add (sw_box_add (SW_BOX_EMPTY, pick->pressed_at), pick->now), &fill, &line);
    }
}

const SwToolClass sw_tool_pick = {
  .row = { "pick", N_("Pick"), N_("Click a thing; shift adds, dragging moves"), SW_SITES_ALL, SW_N_TABLES, 'v' },
  .size = sizeof (Pick),
  .snaps = SW_SNAPS_ALL & ~SW_SNAP_BIT (SW_SNAP_STRAIGHT),
  .press = pick_press,
  .motion = pick_motion,
  .release = pick_release,
  .drop = pick_drop,
  .draw = pick_draw,
};
