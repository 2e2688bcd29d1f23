/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Outlines: a rectangle by two corners (or one drag), or corner by corner, closed on the first one or by Enter. */
#include "window/tools/board_data.h"
#include "window/tools/parts.h"
#include "window/tools/shape.h"
#include "sheets/words.h"
#include "base/number.h"
#include "geometry/outline.h"

typedef struct
{
  SwTool tool;
  GArray *corners; /* SwPoint */
  SwPoint now, pressed_at;
} Outline;

static GArray *
corners_with (const Outline *outline, SwPoint to)
{
  GArray *points = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  guint n = outline->corners->len;
  if (n == 1 && !sw_board_polygons (outline->tool.board))
    {
      SwPoint a = g_array_index (outline->corners, SwPoint, 0);
      SwPoint rectangle[4] = { a, { to.x, a.y }, to, { a.x, to.y } };
      g_array_append_vals (points, rectangle, 4);
      return points;
    }
  g_array_append_vals (points, outline->corners->data, n);
  if (n == 0 || sw_point_distance (g_array_index (points, SwPoint, n - 1), to) > 0.5)
    g_array_append_val (points, to);
  return points;
}

static void
set_state (Outline *outline)
{
  SwBoard *board = outline->tool.board;
  guint n = outline->corners->len;
  sw_board_set_anchor (board, n > 0 ? &g_array_index (outline->corners, SwPoint, n - 1) : NULL);
  if (n == 0)
    sw_board_offer (board, SW_TYPED_PLACE);
  else
    sw_board_offer (board, sw_board_polygons (board) ? SW_TYPED_POLAR | SW_TYPED_PLACE : SW_TYPED_SIDES);
  if (n == 0)
    sw_board_set_drafts (board, NULL, 0);
}

static void
outline_start (SwTool *tool)
{
  Outline *outline = (Outline *) tool;
  outline->corners = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  set_state (outline);
}

static void
outline_end (SwTool *tool)
{
  g_clear_pointer (&((Outline *) tool)->corners, g_array_unref);
}

static void
outline_motion (SwTool *tool, const SwToolEvent *event)
{
  Outline *outline = (Outline *) tool;
  outline->now = event->at;
  if (outline->corners->len == 0)
    return;
  char x[SW_LENGTH_BUF], y[SW_LENGTH_BUF];
  SwPoint from = g_array_index (outline->corners, SwPoint, outline->corners->len - 1);
  if (sw_board_polygons (tool->board))
    sw_board_say (tool->board, g_strdup_printf (outline->corners->len < 3 ? _("%s long") : _("%s long · a click on the first corner closes it"),
                                                sw_board_length (tool->board, sw_point_distance (from, event->at), SW_LENGTH_UNIT, x)));
  else
    sw_board_say (tool->board, g_strdup_printf (_("%s × %s"), sw_board_length (tool->board, fabs (event->at.x - from.x), SW_LENGTH_BARE, x),
                                                sw_board_length (tool->board, fabs (event->at.y - from.y), SW_LENGTH_UNIT, y)));
}

/* Voids in the middle of a new bay; the inspector shows the first rib, to be changed. */
static void
share_sides (SwBoard *board, SwBay *bay)
{
  const SwRecord *profile = sw_job_get (sw_board_job (board), bay->profile);
  if (profile != NULL)
    bay->first_rib = sw_deck_even_first_rib (bay, (const SwProfile *) profile);
}

/* A bulkhead belongs to the room that has most of it. FALSE, with something said, outside all. */
static gboolean
find_room (SwBoard *board, const GArray *points, SwRecord *record)
{
  const SwPicture *picture = sw_board_picture (board);
  const SwRoom *room = picture != NULL ? sw_deck_room_under (picture->deck, (const SwPoint *) (gconstpointer) points->data, points->len) : NULL;
  if (room == NULL)
    {
      sw_board_say (board, g_strdup (_("A bulkhead hangs in a room: draw it inside one")));
      return FALSE;
    }
  ((SwBulkhead *) record)->room = room->record.id;
  return TRUE;
}

static gboolean
put (Outline *outline, GArray *points)
{
  SwBoard *board = outline->tool.board;
  SwRecord *record = sw_board_create (board, NULL);
  if (sw_record_table (record) == SW_TABLE_BULKHEAD && !find_room (board, points, record))
    {
      sw_record_unref (record);
      return FALSE;
    }
  GPtrArray *records = g_ptr_array_new ();
  g_autofree char *name = g_strdup_printf (_("Draw %s"), sw_word (sw_type_get (outline->tool.class->row.table)->label));
  sw_list_set_points (&SW_AT (record, sw_parts_list (record), SwList), (const SwPoint *) (gpointer) points->data, points->len);
  if (sw_record_table (record) == SW_TABLE_BAY)
    share_sides (board, (SwBay *) record);
  g_ptr_array_add (records, record);
  if (!sw_board_put_all (board, name, records))
    return FALSE;
  g_array_set_size (outline->corners, 0);
  set_state (outline);
  sw_board_say (board, NULL);
  return TRUE;
}

static void
outline_finish (SwTool *tool)
{
  Outline *outline = (Outline *) tool;
  if (sw_board_polygons (tool->board) && outline->corners->len >= 3)
    put (outline, outline->corners);
}

static void
add_corner (Outline *outline, const SwToolEvent *event)
{
  GArray *corners = outline->corners;
  double near = sw_board_px (outline->tool.board, 8);
  if (corners->len == 1 && !sw_board_polygons (outline->tool.board))
    {
      g_autoptr (GArray) points = corners_with (outline, event->at);
      put (outline, points);
      return;
    }
  if (corners->len >= 3 && (event->clicks == 2 || sw_point_distance (g_array_index (corners, SwPoint, 0), event->at) <= near))
    {
      put (outline, corners);
      return;
    }
  if (corners->len > 0 && sw_point_distance (g_array_index (corners, SwPoint, corners->len - 1), event->at) < 0.5)
    return;
  g_array_append_val (corners, event->at);
  set_state (outline);
}

static void
outline_press (SwTool *tool, const SwToolEvent *event)
{
  Outline *outline = (Outline *) tool;
  outline->pressed_at = outline->now = event->at;
  add_corner (outline, event);
}

static void
outline_release (SwTool *tool, const SwToolEvent *event)
{
  Outline *outline = (Outline *) tool;
  gboolean dragged = sw_point_distance (event->at, outline->pressed_at) > sw_board_px (tool->board, 12);
  outline->now = event->at;
  if (outline->corners->len == 1 && dragged && !sw_board_polygons (tool->board))
    add_corner (outline, event);
}

static gboolean
outline_back (SwTool *tool)
{
  Outline *outline = (Outline *) tool;
  if (outline->corners->len == 0)
    return FALSE;
  g_array_set_size (outline->corners, outline->corners->len - 1);
  set_state (outline);
  return TRUE;
}

static gboolean
outline_drop (SwTool *tool)
{
  Outline *outline = (Outline *) tool;
  if (outline->corners->len == 0)
    return FALSE;
  g_array_set_size (outline->corners, 0);
  set_state (outline);
  sw_board_say (tool->board, NULL);
  return TRUE;
}

static void
outline_draw (SwTool *tool, SwDisplay *live)
{
  Outline *outline = (Outline *) tool;
  static const SwFill fill = { .role = SW_ROLE_DRAFT, .transparency = 0.85 };
  static const SwStroke line = { .role = SW_ROLE_DRAFT, .width = 1.5, .unit = SW_SIZE_PX };
  if (outline->corners->len == 0)
    return;
  g_autoptr (GArray) points = corners_with (outline, outline->now);
  if (points->len >= 3)
    sw_display_add_polygon (live, (const SwPoint *) (gpointer) points->data, points->len, &fill, &line);
  else if (points->len == 2)
    sw_display_add_polyline (live, (const SwPoint *) (gpointer) points->data, 2, &line);
}

static void
setup_room (SwRecord *template)
{
  ((SwRoom *) template)->finish = SW_FINISH_CLOSED;
}

#define SITE(name) SW_SITE_BIT (SW_SITE_##name)
#define CORNERS (SW_SNAP_BIT (SW_SNAP_CORNER) | SW_SNAP_BIT (SW_SNAP_CROSSING) | SW_SNAP_BIT (SW_SNAP_GRID) | SW_SNAP_BIT (SW_SNAP_WALL) \
                 | SW_SNAP_BIT (SW_SNAP_STRAIGHT))
#define OUTLINE(name, id, key, label, hint, sites, table, setup_) \
  const SwToolClass name = { .row = { id, label, hint, sites, table, key, TRUE }, .size = sizeof (Outline), .snaps = CORNERS, .setup = setup_, \
                             .start = outline_start, .end = outline_end, .press = outline_press, .motion = outline_motion, \
                             .release = outline_release, .finish = outline_finish, .back = outline_back, .drop = outline_drop, \
                             .draw = outline_draw }

OUTLINE (sw_tool_bay, "bay", 'b', N_("Bay"), N_("Click the first corner of the bay"), SITE (DECK), SW_TABLE_BAY, NULL);
OUTLINE (sw_tool_room, "room", 'r', N_("Room"), N_("Click the first corner of the room"), SITE (MEASURE) | SITE (BRANDERING) | SITE (BOARDS), SW_TABLE_ROOM, setup_room);
OUTLINE (sw_tool_opening, "opening", 'n', N_("Opening"), N_("Click the first corner of the opening"), SITE (DECK), SW_TABLE_OPENING, NULL);
OUTLINE (sw_tool_column, "column", 'c', N_("Column or shaft"), N_("Click the first corner of the column"), SITE (DECK), SW_TABLE_COLUMN, NULL);
OUTLINE (sw_tool_solid, "solid-zone", 'z', N_("Solid zone"), N_("Click the first corner of the zone"), SITE (DECK), SW_TABLE_SOLID, NULL);
OUTLINE (sw_tool_bulkhead, "bulkhead", 'u', N_("Bulkhead"), N_("Click the first corner of the bulkhead"), SITE (BRANDERING) | SITE (BOARDS) | SITE (PIPES), SW_TABLE_BULKHEAD, NULL);
