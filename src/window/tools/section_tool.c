/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A drag makes a draft of the record, as a drag on the plan does: the plan shows it too, judged, and letting go makes one
 * edit. Both ends of a leg move together across; its height changes where a vertex gives one, and a vertex that follows
 * the fall keeps following it. */
#include "window/tools/section_tool.h"
#include "base/number.h"
#include "drawing/hit.h"
#include "sheets/words.h"
#include "window/tools/board_data.h"
#include "window/tools/judge.h"

static const SwPicture *
picture_of (SwSectionTool *tool)
{
  const SwPicture *picture = sw_board_picture (tool->board);
  return picture != NULL && picture->space != NULL ? picture : NULL;
}

SwId
sw_section_tool_run (SwSectionTool *tool)
{
  SwId id = sw_board_n_picked (tool->board) == 1 ? sw_board_picked (tool->board, 0) : 0;
  return SW_ID_TABLE (id) == SW_TABLE_RUN ? id : 0;
}

static gboolean
shows_along (SwSectionTool *tool)
{
  return tool->along && sw_section_tool_run (tool) != 0 && picture_of (tool) != NULL
         && sw_space_route (picture_of (tool)->space, sw_section_tool_run (tool)) != NULL;
}

gboolean
sw_section_tool_set_place (SwSectionTool *tool, SwPoint world)
{
  const SwPicture *picture = picture_of (tool);
  SwSectionCut cut;
  if (picture == NULL || tool->dragged != 0 || !sw_section_cut_at (picture->deck, world, &cut))
    return FALSE;
  gboolean changed = !tool->has_cut || cut.bay != tool->cut.bay || cut.u != tool->cut.u || cut.v != tool->cut.v;
  tool->cut = cut;
  tool->bay = cut.bay->bay->record.id;
  tool->has_cut = TRUE;
  return changed;
}

void
sw_section_tool_renew (SwSectionTool *tool)
{
  const SwPicture *picture = picture_of (tool);
  tool->has_cut = FALSE;
  if (picture == NULL || sw_deck_n_bays (picture->deck) == 0)
    return;
  const SwDeckBay *bay = sw_deck_bay (picture->deck, 0);
  for (guint i = 0; i < sw_deck_n_bays (picture->deck); i++)
    if (sw_deck_bay (picture->deck, i)->bay->record.id == tool->bay)
      bay = sw_deck_bay (picture->deck, i);
  if (tool->bay == bay->bay->record.id)
    tool->cut.bay = bay;
  else
    tool->cut = (SwSectionCut){ bay, bay->length / 2 + 100, bay->breadth / 2 };
  tool->bay = bay->bay->record.id;
  tool->has_cut = TRUE;
}

SwBox
sw_section_tool_box (SwSectionTool *tool)
{
  const SwPicture *picture = picture_of (tool);
  if (picture == NULL)
    return SW_BOX_EMPTY;
  if (shows_along (tool))
    return sw_section_box_along (picture->space, sw_section_tool_run (tool), tool->exaggeration);
  return tool->has_cut ? sw_section_box_across (picture->deck, &tool->cut) : SW_BOX_EMPTY;
}

/* ---- Drawing ---- */

/* All that the cut shows of it: a layout's battens and boards, a run that passes twice. */
static void
mark_picked (SwSectionTool *tool, SwDisplay *over, const SwDisplay *section)
{
  static const SwStroke line = { .role = SW_ROLE_SELECTION, .width = 2, .unit = SW_SIZE_PX };
  for (guint i = 0; i < sw_display_n_groups (section); i++)
    {
      SwDisplayKey key = sw_display_group (section, i).key;
      SwBox box = sw_display_group_box (section, i);
      if (key.table != SW_TABLE_BAY && key.table != SW_TABLE_ROOM && key.record != 0 && sw_board_is_picked (tool->board, key.record) && !sw_box_is_empty (box))
        sw_display_add_box (over, sw_box_grow (box, 6), NULL, &line);
    }
}

/* A draft of a run where it passes through the cut. */
static void
draw_draft_run (SwSectionTool *tool, SwDisplay *over, const SwRun *run, gboolean bad)
{
  const SwPicture *picture = picture_of (tool);
  g_autoptr (SwRoute) route = sw_route_new (picture->deck, picture->rules, run, NULL);
  SwFill fill = { .role = bad ? SW_ROLE_BAD : SW_ROLE_GOOD, .transparency = 0.5 };
  SwStroke ring = { .role = bad ? SW_ROLE_BAD : SW_ROLE_GOOD, .width = 2, .unit = SW_SIZE_PX };
  for (guint i = 0; route != NULL && i + 1 < route->n; i++)
    {
      SwPoint3 a = route->axis[i], b = route->axis[i + 1];
      SwPoint ua = sw_deck_to_bay (tool->cut.bay, (SwPoint){ a.x, a.y }), ub = sw_deck_to_bay (tool->cut.bay, (SwPoint){ b.x, b.y });
      double t = fabs (ub.x - ua.x) > 1e-6 ? (tool->cut.u - ua.x) / (ub.x - ua.x) : -1;
      if (t < 0 || t > 1)
        continue;
      sw_display_add_circle (over, (SwPoint){ ua.y + (ub.y - ua.y) * t, a.z + (b.z - a.z) * t }, route->outer, &fill, &ring);
    }
}

static void
draw_drafts (SwSectionTool *tool, SwDisplay *over)
{
  const GPtrArray *drafts = sw_board_drafts (tool->board);
  for (guint i = 0; i < drafts->len && tool->has_cut && !shows_along (tool); i++)
    if (sw_record_table (drafts->pdata[i]) == SW_TABLE_RUN)
      draw_draft_run (tool, over, drafts->pdata[i], sw_board_is_short (tool->board, ((const SwRecord *) drafts->pdata[i])->id));
}

static SwDisplay *
plain_section (SwSectionTool *tool)
{
  const SwPicture *picture = picture_of (tool);
  if (picture == NULL || (!shows_along (tool) && !tool->has_cut))
    return NULL;
  SwDisplay *display = sw_display_new ();
  if (shows_along (tool))
    sw_section_draw_along (display, picture->space, sw_section_tool_run (tool), tool->exaggeration);
  else
    sw_section_draw_across (display, picture->space, &tool->cut);
  sw_display_seal (display);
  return display;
}

SwDisplay *
sw_section_tool_draw (SwSectionTool *tool)
{
  g_autoptr (SwDisplay) section = plain_section (tool);
  if (section == NULL)
    return NULL;
  SwDisplay *all = sw_display_new ();
  sw_display_append (all, section);
  if (!shows_along (tool))
    mark_picked (tool, all, section);
  draw_drafts (tool, all);
  sw_display_seal (all);
  return all;
}

char *
sw_section_tool_title (SwSectionTool *tool)
{
  const SwPicture *picture = picture_of (tool);
  if (picture == NULL)
    return g_strdup (_("Section"));
  SwLengths lengths = sw_job_lengths (sw_picture_job (picture));
  if (shows_along (tool))
    {
      const SwRecord *record = sw_job_get (sw_picture_job (picture), sw_section_tool_run (tool));
      g_autofree char *title = record != NULL ? sw_plan_title (record, lengths) : g_strdup ("");
      return g_strdup_printf (_("Along %s, heights × %.0f"), title, tool->exaggeration);
    }
  if (!tool->has_cut)
    return g_strdup (_("Section: point at the deck"));
  const SwBay *bay = tool->cut.bay->bay;
  char along[SW_LENGTH_BUF];
  return g_strdup_printf (_("%s, across the voids %s from its start"), *bay->name ? bay->name : bay->record.tag,
                          sw_length_write (tool->cut.u, lengths, SW_LENGTH_UNIT, 0, along));
}

/* ---- Pointer ---- */

static SwId
thing_at (SwSectionTool *tool, SwPoint at, double reach)
{
  g_autoptr (SwDisplay) section = plain_section (tool);
  SwLook look = { .hidden = SW_LAYER_BIT (SW_LAYER_DECK) };
  double zoom = reach > 0 ? 6 / reach : 1;
  SwDrawView view = sw_draw_view_new ((SwTransform){ zoom, 0, 0, -zoom, 0, 0 }, 1, 0, &look);
  if (section == NULL)
    return 0;
  g_autoptr (GArray) hits = sw_hit_point (section, &view, sw_transform_point (view.to_device, at), 6);
  for (guint i = 0; i < hits->len; i++)
    {
      SwId id = g_array_index (hits, SwHit, i).key.record;
      if (sw_job_get (sw_board_job (tool->board), id) != NULL)
        return id;
    }
  return 0;
}

/* Across: the leg of a run that passes nearest to the place. */
static int
leg_at (SwSectionTool *tool, SwId id, SwPoint at)
{
  const SwRoute *route = sw_space_route (picture_of (tool)->space, id);
  double nearest = INFINITY;
  int leg = -1;
  for (guint i = 0; route != NULL && i + 1 < route->n; i++)
    {
      SwPoint3 a = route->axis[i], b = route->axis[i + 1];
      SwPoint ua = sw_deck_to_bay (tool->cut.bay, (SwPoint){ a.x, a.y }), ub = sw_deck_to_bay (tool->cut.bay, (SwPoint){ b.x, b.y });
      double t = fabs (ub.x - ua.x) > 1e-6 ? (tool->cut.u - ua.x) / (ub.x - ua.x) : 0.5;
      if (t < -0.05 || t > 1.05)
        continue;
      double distance = hypot (ua.y + (ub.y - ua.y) * t - at.x, a.z + (b.z - a.z) * t - at.y);
      if (distance < nearest)
        {
          nearest = distance;
          leg = (int) i;
        }
    }
  return leg;
}

/* Along: the vertex that stands nearest. */
static int
vertex_at (SwSectionTool *tool, SwId id, SwPoint at, double reach)
{
  const SwRoute *route = sw_space_route (picture_of (tool)->space, id);
  double along = 0;
  for (guint i = 0; route != NULL && i < route->n; i++)
    {
      if (fabs (along - at.x) <= 2 * reach && fabs (route->axis[i].z * tool->exaggeration - at.y) <= 2 * reach + route->outer * tool->exaggeration)
        return (int) i;
      if (i + 1 < route->n)
        along += hypot (route->axis[i + 1].x - route->axis[i].x, route->axis[i + 1].y - route->axis[i].y);
    }
  return -1;
}

void
sw_section_tool_press (SwSectionTool *tool, SwPoint at, double reach, gboolean add)
{
  if (picture_of (tool) == NULL)
    return;
  tool->pressed_at = at;
  tool->moved = FALSE;
  tool->dragged = 0;
  if (shows_along (tool))
    {
      tool->leg = vertex_at (tool, sw_section_tool_run (tool), at, reach);
      tool->dragged = tool->leg >= 0 ? sw_section_tool_run (tool) : 0;
      return;
    }
  SwId id = thing_at (tool, at, reach);
  tool->leg = SW_ID_TABLE (id) == SW_TABLE_RUN ? leg_at (tool, id, at) : -1;
  sw_board_pick (tool->board, id, add);
  tool->dragged = id;
}

static void
raise_vertex (SwVertex *vertex, double dz)
{
  if (vertex->level == SW_LEVEL_FALL)
    return;
  vertex->z += vertex->level == SW_LEVEL_BELOW ? -dz : dz;
  if (vertex->level == SW_LEVEL_BELOW)
    vertex->z = MAX (vertex->z, 0);
}

static SwPoint
shifted (const SwSectionTool *tool, SwPoint at, double dv)
{
  const SwDeckBay *bay = tool->cut.bay;
  return sw_point_add (at, (SwPoint){ -bay->sine * dv, bay->cosine * dv });
}

static SwRecord *
dragged_across (SwSectionTool *tool, SwRecord *copy, SwPoint by)
{
  if (sw_record_table (copy) == SW_TABLE_RUN && tool->leg >= 0)
    {
      SwVertex *vertices = ((SwRun *) copy)->vertices.items;
      for (int i = tool->leg; i <= tool->leg + 1 && i < (int) ((SwRun *) copy)->vertices.n; i++)
        {
          vertices[i].at = shifted (tool, vertices[i].at, by.x);
          raise_vertex (&vertices[i], by.y);
        }
      return copy;
    }
  if (sw_record_table (copy) == SW_TABLE_FITTING)
    ((SwFitting *) copy)->z += by.y;
  if (sw_record_table (copy) == SW_TABLE_FITTING || sw_record_table (copy) == SW_TABLE_LIGHT || sw_record_table (copy) == SW_TABLE_HATCH)
    {
      sw_record_move (copy, shifted (tool, (SwPoint){ 0, 0 }, by.x));
      return copy;
    }
  sw_record_unref (copy);
  return NULL;
}

/* A vertex that followed the fall gets a height of its own where it is dragged to. */
static SwRecord *
dragged_along (SwSectionTool *tool, SwRecord *copy, double dz)
{
  const SwPicture *picture = picture_of (tool);
  const SwRoute *route = sw_space_route (picture->space, copy->id);
  SwRun *run = (SwRun *) copy;
  SwVertex *vertex = &SW_LIST_AT (run->vertices, SwVertex, tool->leg);
  if (vertex->level == SW_LEVEL_FALL && route != NULL)
    {
      vertex->level = SW_LEVEL_VOID;
      vertex->z = sw_route_level_value (picture->deck, vertex->at, run->od, SW_LEVEL_VOID, route->axis[tool->leg].z);
    }
  raise_vertex (vertex, dz);
  return copy;
}

static SwRecord *
dragged_record (SwSectionTool *tool, SwPoint at)
{
  const SwRecord *record = sw_job_get (sw_board_job (tool->board), tool->dragged);
  SwPoint by = { round (at.x - tool->pressed_at.x), round (at.y - tool->pressed_at.y) };
  if (record == NULL || picture_of (tool) == NULL)
    return NULL;
  if (shows_along (tool))
    return dragged_along (tool, sw_record_copy (record), round (by.y / tool->exaggeration));
  return dragged_across (tool, sw_record_copy (record), by);
}

void
sw_section_tool_motion (SwSectionTool *tool, SwPoint at, double reach)
{
  if (tool->dragged == 0)
    return;
  if (!tool->moved && sw_point_distance (at, tool->pressed_at) < reach / 2)
    return;
  tool->moved = tool->board->pressed = TRUE;
  SwRecord *record = dragged_record (tool, at);
  sw_board_set_drafts (tool->board, &record, record != NULL);
  sw_board_tell (tool->board, SW_BOARD_LIVE | SW_BOARD_SAYS);
}

void
sw_section_tool_cancel (SwSectionTool *tool)
{
  if (tool->dragged == 0)
    return;
  tool->dragged = 0;
  tool->board->pressed = FALSE;
  sw_board_set_drafts (tool->board, NULL, 0);
  sw_board_tell (tool->board, SW_BOARD_LIVE | SW_BOARD_SAYS);
}

void
sw_section_tool_release (SwSectionTool *tool, SwPoint at)
{
  SwRecord *record = tool->moved && tool->dragged != 0 ? dragged_record (tool, at) : NULL;
  sw_section_tool_cancel (tool);
  if (record == NULL)
    return;
  g_autofree char *name = g_strdup_printf (_("Move %s in section"), sw_word (sw_record_type (record)->label));
  GPtrArray *records = g_ptr_array_new ();
  g_ptr_array_add (records, record);
  sw_board_put_all (tool->board, name, records);
}
