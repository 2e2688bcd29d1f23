/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Runs click by click: what they begin at gives their first level, then they keep the level asked for, or fall. The draft is
 * judged at every move. Enter or a double click ends the run; a click on a fitting or drop-in ends it there. */
#include "window/tools/board_data.h"
#include "routing/cross.h"
#include "window/tools/run_tool.h"
#include "base/error.h"
#include "sheets/words.h"
#include "base/number.h"
#include <string.h>

typedef struct
{
  SwTool tool;
  GArray *vertices; /* SwVertex */
  SwId start, end;
  SwVertex now;
} RunTool;

static const SwRun *
template_of (RunTool *tool)
{
  return (const SwRun *) sw_board_template (tool->tool.board);
}

static SwJob *
job_of (RunTool *tool)
{
  return sw_board_job (tool->tool.board);
}

static const SwDeckBay *
bay_at (RunTool *tool, SwPoint at)
{
  const SwPicture *picture = sw_board_picture (tool->tool.board);
  return picture != NULL ? sw_deck_bay_at (picture->deck, at) : NULL;
}

/* Tables that a run can begin or end at. */
static gboolean
is_end (SwId id)
{
  SwTable table = SW_ID_TABLE (id);
  return id != 0 && (table == SW_TABLE_FITTING || table == SW_TABLE_DROP_IN || table == SW_TABLE_DROP);
}

/* The level that a thing gives to a run that begins or ends there. */
static gboolean
level_of (RunTool *tool, const SwSnap *snap, SwVertex *vertex)
{
  const SwRecord *record = snap->record != 0 ? sw_job_get (job_of (tool), snap->record) : NULL;
  if (record == NULL || snap->kind != SW_SNAP_END)
    return FALSE;
  const SwDeckBay *bay = bay_at (tool, vertex->at);
  if (sw_record_table (record) == SW_TABLE_FITTING && ((const SwFitting *) record)->kind != SW_FITTING_STACK)
    {
      vertex->level = ((const SwFitting *) record)->level;
      vertex->z = ((const SwFitting *) record)->z;
      return TRUE;
    }
  if (sw_record_table (record) == SW_TABLE_DROP_IN && bay != NULL)
    {
      vertex->level = SW_LEVEL_VOID;
      vertex->z = bay->profile->depth - ((const SwDropIn *) record)->drop;
      return TRUE;
    }
  if (sw_record_table (record) == SW_TABLE_RUN && snap->part > 0 && snap->part <= (int) ((const SwRun *) record)->vertices.n)
    {
      const SwVertex *other = &SW_LIST_AT (((const SwRun *) record)->vertices, SwVertex, snap->part - 1);
      if (other->level == SW_LEVEL_FALL)
        return FALSE;
      vertex->level = other->level;
      vertex->z = other->z;
      return TRUE;
    }
  return FALSE;
}

/* A falling pipe begins as high as it goes, so that it gets far. */
static double
first_height (RunTool *tool, SwPoint at)
{
  const SwRun *run = template_of (tool);
  const SwDeckBay *bay = bay_at (tool, at);
  return bay != NULL ? MAX (bay->profile->depth - run->od / 2 - run->insulation - 30, run->od / 2) : 0;
}

static SwVertex
vertex_at (RunTool *tool, const SwToolEvent *event)
{
  const SwRun *run = template_of (tool);
  SwVertex vertex = SW_LIST_AT (run->vertices, SwVertex, 0); /* the template's one vertex holds the level of the next */
  double typed;
  gboolean first = tool->vertices->len == 0;
  vertex.at = event->at;
  if (sw_typed_value (sw_board_typed (tool->tool.board), SW_TYPED_LEVEL, &typed, NULL))
    vertex.z = typed;
  else if (run->fall > 0 && !first)
    vertex.level = SW_LEVEL_FALL;
  else if (level_of (tool, &event->snap, &vertex))
    return vertex;
  else if (run->fall > 0 && first)
    {
      vertex.level = SW_LEVEL_VOID;
      vertex.z = first_height (tool, event->at);
    }
  if (vertex.level == SW_LEVEL_FALL && (first || run->fall <= 0))
    vertex.level = SW_LEVEL_VOID;
  return vertex;
}

static SwRun *
draft_with (RunTool *tool, const SwVertex *more, guint n_more)
{
  SwRun *run = (SwRun *) sw_board_create (tool->tool.board, NULL);
  guint n = tool->vertices->len;
  SwVertex *vertices = sw_list_resize (&run->vertices, &sw_struct_vertex, n + n_more);
  if (n > 0)
    memcpy (vertices, tool->vertices->data, n * sizeof (SwVertex));
  if (n_more > 0)
    memcpy (vertices + n, more, n_more * sizeof (SwVertex));
  run->start = tool->start;
  run->end = tool->end;
  return run;
}

static void
show (RunTool *tool, const SwVertex *more, guint n_more)
{
  if (tool->vertices->len + n_more < 2)
    {
      sw_board_set_drafts (tool->tool.board, NULL, 0);
      return;
    }
  SwRecord *record = (SwRecord *) draft_with (tool, more, n_more);
  sw_board_set_drafts (tool->tool.board, &record, 1);
}

static void
set_state (RunTool *tool)
{
  guint n = tool->vertices->len;
  SwBoard *board = tool->tool.board;
  sw_board_set_anchor (board, n > 0 ? &g_array_index (tool->vertices, SwVertex, n - 1).at : NULL);
  sw_board_offer (board, (n > 0 ? SW_TYPED_POLAR : 0) | SW_TYPED_PLACE | SW_TYPED_BIT (SW_TYPED_LEVEL));
}

static void
clear (RunTool *tool)
{
  g_array_set_size (tool->vertices, 0);
  tool->start = tool->end = 0;
  sw_board_set_drafts (tool->tool.board, NULL, 0);
  sw_board_say (tool->tool.board, NULL);
  set_state (tool);
}

static void
run_start (SwTool *base)
{
  RunTool *tool = (RunTool *) base;
  tool->vertices = g_array_new (FALSE, FALSE, sizeof (SwVertex));
  set_state (tool);
}

static void
run_end (SwTool *base)
{
  g_clear_pointer (&((RunTool *) base)->vertices, g_array_unref);
}

static void
say_leg (RunTool *tool, SwPoint to, const SwSnap *snap)
{
  SwPoint from = g_array_index (tool->vertices, SwVertex, tool->vertices->len - 1).at;
  double angle = atan2 (to.y - from.y, to.x - from.x) * 180 / G_PI;
  char length[SW_LENGTH_BUF], degrees[SW_NUMBER_BUF];
  g_autoptr (GString) text = g_string_new (NULL);
  g_string_append_printf (text, _("%s at %s°"), sw_board_length (tool->tool.board, sw_point_distance (from, to), SW_LENGTH_UNIT, length),
                          sw_number_write_fixed (angle < -1e-9 ? angle + 360 : angle, 1, degrees));
  if (snap->kind != SW_SNAP_NONE)
    g_string_append_printf (text, " · %s", sw_word (sw_snap_label (snap->kind)));
  sw_board_say (tool->tool.board, g_strdup (text->str));
}

static void
run_motion (SwTool *base, const SwToolEvent *event)
{
  RunTool *tool = (RunTool *) base;
  tool->now = vertex_at (tool, event);
  if (tool->vertices->len == 0)
    {
      sw_board_say (base->board, event->snap.kind != SW_SNAP_NONE ? g_strdup (sw_word (sw_snap_label (event->snap.kind))) : NULL);
      return;
    }
  say_leg (tool, event->at, &event->snap);
  show (tool, &tool->now, 1);
}

static void
put (RunTool *tool)
{
  GPtrArray *records = g_ptr_array_new ();
  const SwRun *run = template_of (tool);
  const SwField *service = sw_struct_field (&sw_type_get (SW_TABLE_RUN)->body, "service");
  g_autofree char *name = g_strdup_printf (_("Draw %s run"), sw_word (service->words[run->service].label));
  g_ptr_array_add (records, draft_with (tool, NULL, 0));
  if (sw_board_put_all (tool->tool.board, name, records))
    clear (tool);
}

static void
run_finish (SwTool *base)
{
  RunTool *tool = (RunTool *) base;
  if (tool->vertices->len >= 2)
    put (tool);
}

static void
run_press (SwTool *base, const SwToolEvent *event)
{
  RunTool *tool = (RunTool *) base;
  SwVertex vertex = vertex_at (tool, event);
  guint n = tool->vertices->len;
  gboolean same = n > 0 && sw_point_distance (g_array_index (tool->vertices, SwVertex, n - 1).at, vertex.at) < 0.5;
  if (event->clicks >= 2 || same)
    {
      run_finish (base);
      return;
    }
  g_array_append_val (tool->vertices, vertex);
  if (event->snap.kind == SW_SNAP_END && is_end (event->snap.record))
    {
      if (n == 0)
        tool->start = event->snap.record;
      else
        {
          tool->end = event->snap.record;
          put (tool);
          return;
        }
    }
  set_state (tool);
  if (tool->vertices->len >= 2)
    show (tool, NULL, 0);
}

static gboolean
run_back (SwTool *base)
{
  RunTool *tool = (RunTool *) base;
  if (tool->vertices->len == 0)
    return FALSE;
  g_array_set_size (tool->vertices, tool->vertices->len - 1);
  if (tool->vertices->len == 0)
    clear (tool);
  set_state (tool);
  return TRUE;
}

static gboolean
run_drop (SwTool *base)
{
  RunTool *tool = (RunTool *) base;
  if (tool->vertices->len == 0)
    return FALSE;
  clear (tool);
  return TRUE;
}

gboolean
sw_run_tool_cross (SwTool *base, SwPoint to, GError **error)
{
  RunTool *tool = (RunTool *) base;
  const SwPicture *picture = sw_board_picture (base->board);
  guint n = tool->vertices->len;
  if (n == 0 || picture == NULL)
    {
      g_set_error_literal (error, SW_ERROR, SW_ERROR_INVALID, "begin a run in a void first, then cross to another one");
      return FALSE;
    }
  SwVertex from = g_array_index (tool->vertices, SwVertex, n - 1);
  if (!sw_cross_vertices (picture->deck, template_of (tool), &from, to, sw_cross_saddle_mm (picture->rules), tool->vertices, error))
    return FALSE;
  /* The first one stands on the last that there was when the gap is right there. */
  if (n < tool->vertices->len && sw_point_distance (from.at, g_array_index (tool->vertices, SwVertex, n).at) < 1)
    g_array_remove_index (tool->vertices, n);
  set_state (tool);
  show (tool, NULL, 0);
  return TRUE;
}

static void
set_level (SwRun *run, int level, double z)
{
  SwVertex *vertex = sw_list_resize (&run->vertices, &sw_struct_vertex, 1);
  vertex->level = level;
  vertex->z = z;
}

static void
setup_pipe (SwRecord *template)
{
  SwRun *run = (SwRun *) template;
  set_level (run, SW_LEVEL_VOID, 100);
  run->service = SW_SERVICE_WASTE;
  run->od = 50;
  run->fall = 40;
}

static void
setup_conduit (SwRecord *template)
{
  SwRun *run = (SwRun *) template;
  set_level (run, SW_LEVEL_VOID, 60);
  run->service = SW_SERVICE_POWER;
  run->od = 20;
}

#define RUN(name, id, key, label, hint, sites, setup_) \
  const SwToolClass name = { .row = { id, label, hint, sites, SW_TABLE_RUN, key }, .size = sizeof (RunTool), .snaps = SW_SNAPS_ALL, \
                             .setup = setup_, .start = run_start, .end = run_end, .press = run_press, .motion = run_motion, \
                             .finish = run_finish, .back = run_back, .drop = run_drop }

RUN (sw_tool_pipe, "pipe", 'p', N_("Pipe"), N_("Click where the pipe begins; Enter ends it"), SW_SITE_BIT (SW_SITE_PIPES), setup_pipe);
RUN (sw_tool_conduit, "conduit", 'k', N_("Conduit"), N_("Click where the conduit begins; Enter ends it"),
     SW_SITE_BIT (SW_SITE_CONDUITS) | SW_SITE_BIT (SW_SITE_LIGHTS), setup_conduit);
