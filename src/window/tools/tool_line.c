/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Things that reach from one place to another: walls, grid lines, beams, sleeves. */
#include "window/tools/board_data.h"
#include "window/tools/parts.h"
#include "window/tools/shape.h"
#include "sheets/words.h"
#include "base/number.h"

typedef struct
{
  SwTool tool;
  gboolean begun;
  SwPoint from;
} Line;

static SwRecord *
line_record (Line *line, SwPoint to)
{
  SwRecord *record = sw_board_create (line->tool.board, NULL);
  sw_parts_set (record, 0, line->from);
  sw_parts_set (record, 1, to);
  return record;
}

static void
begin (Line *line, gboolean begun, SwPoint from)
{
  line->begun = begun;
  line->from = from;
  sw_board_set_anchor (line->tool.board, begun ? &line->from : NULL);
  sw_board_offer (line->tool.board, begun ? SW_TYPED_POLAR | SW_TYPED_PLACE : SW_TYPED_PLACE);
}

static void
line_start (SwTool *tool)
{
  begin ((Line *) tool, FALSE, (SwPoint){ 0, 0 });
}

static void
line_motion (SwTool *tool, const SwToolEvent *event)
{
  Line *line = (Line *) tool;
  if (!line->begun)
    return;
  char length[SW_LENGTH_BUF];
  SwRecord *record = line_record (line, event->at);
  sw_board_set_drafts (tool->board, &record, 1);
  sw_board_say (tool->board, g_strdup_printf (_("%s long"), sw_board_length (tool->board, sw_point_distance (line->from, event->at), SW_LENGTH_UNIT, length)));
}

static void
line_press (SwTool *tool, const SwToolEvent *event)
{
  Line *line = (Line *) tool;
  if (!line->begun)
    {
      begin (line, TRUE, event->at);
      return;
    }
  if (sw_point_distance (line->from, event->at) < 1)
    return;
  GPtrArray *records = g_ptr_array_new ();
  g_autofree char *name = g_strdup_printf (_("Draw %s"), sw_word (sw_type_get (tool->class->row.table)->label));
  g_ptr_array_add (records, line_record (line, event->at));
  sw_board_set_drafts (tool->board, NULL, 0);
  sw_board_say (tool->board, NULL);
  gboolean done = sw_board_put_all (tool->board, name, records);
  /* Walls go on from where the last one ended. */
  begin (line, done && tool->class->row.table == SW_TABLE_WALL, event->at);
}

static gboolean
line_drop (SwTool *tool)
{
  Line *line = (Line *) tool;
  if (!line->begun)
    return FALSE;
  begin (line, FALSE, line->from);
  sw_board_set_drafts (tool->board, NULL, 0);
  sw_board_say (tool->board, NULL);
  return TRUE;
}

static void
line_finish (SwTool *tool)
{
  line_drop (tool);
}

static void
setup_wall (SwRecord *template)
{
  ((SwWall *) template)->thickness = 110;
}

#define SITE(name) SW_SITE_BIT (SW_SITE_##name)
#define LINE(name, id, key, label, hint, sites, table, setup_) \
  const SwToolClass name = { .row = { id, label, hint, sites, table, key }, .size = sizeof (Line), .snaps = SW_SNAPS_ALL, .setup = setup_, \
                             .start = line_start, .press = line_press, .motion = line_motion, .finish = line_finish, .drop = line_drop }

LINE (sw_tool_wall, "wall", 'w', N_("Wall"), N_("Click where the wall begins"), SITE (MEASURE) | SITE (DECK), SW_TABLE_WALL, setup_wall);
LINE (sw_tool_gridline, "grid-line", 'g', N_("Grid line"), N_("Click where its bubble stands"), SITE (MEASURE), SW_TABLE_GRIDLINE, NULL);
LINE (sw_tool_beam, "beam", 'm', N_("Beam"), N_("Click where the beam begins"), SITE (DECK), SW_TABLE_BEAM, NULL);
LINE (sw_tool_sleeve, "sleeve", 's', N_("Sleeve"), N_("Click where the sleeve begins"), SITE (PIPES) | SITE (CONDUITS), SW_TABLE_SLEEVE, NULL);
