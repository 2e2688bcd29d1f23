/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Things that stand on one place: a click puts one down; the template says which. */
#include "window/tools/board_data.h"
#include "base/tolerance.h"
#include "window/tools/parts.h"
#include "window/tools/shape.h"
#include "sheets/words.h"
#include "space/route.h"
#include <math.h>

#define KIND(name) (1u << SW_FITTING_##name)
/* What a run goes through, or hangs from. */
#define ON_RUNS (KIND (BOX) | KIND (TEE) | KIND (BEND) | KIND (SOCKET) | KIND (EYE) | KIND (VALVE) | KIND (HANGER))

/* Nobody comes back to these, whatever the tool's last fitting asked for; who wants to says so at the fitting. */
#define JOINTS (KIND (TEE) | KIND (BEND) | KIND (SOCKET) | KIND (HANGER))

/* z of the run's axis over a place. FALSE when it does not pass there. */
static gboolean
axis_at (const SwRoute *route, SwPoint at, double *z)
{
  for (guint i = 0; i + 1 < route->n; i++)
    {
      SwPoint from = { route->axis[i].x, route->axis[i].y }, to = { route->axis[i + 1].x, route->axis[i + 1].y };
      SwPoint way = sw_point_sub (to, from), off = sw_point_sub (at, from);
      double length = sw_point_length (way);
      if (length < SW_TOUCH_MM)
        continue;
      double t = sw_point_dot (off, way) / (length * length);
      if (t < 0 || t > 1 || fabs (sw_point_cross (way, off)) / length > SW_TOUCH_MM)
        continue;
      *z = route->axis[i].z + t * (route->axis[i + 1].z - route->axis[i].z);
      return TRUE;
    }
  return FALSE;
}

/* A fitting that is put down on a run belongs to it and takes its level; the first run of the job when several pass there. */
static void
join_run (SwBoard *board, SwFitting *fitting)
{
  const SwPicture *picture = sw_board_picture (board);
  const SwRecord *record;
  double z;
  if (picture == NULL || picture->space == NULL || fitting->run != 0 || (ON_RUNS & 1u << fitting->kind) == 0)
    return;
  for (SwJobIter i = sw_job_iter (sw_picture_job (picture), SW_TABLE_RUN); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwRoute *route = sw_space_route (picture->space, record->id);
      if (route == NULL || sw_job_get (sw_board_job (board), record->id) == NULL || !axis_at (route, fitting->at, &z))
        continue;
      fitting->run = record->id;
      fitting->z = sw_route_level_value (picture->deck, fitting->at, fitting->height, (SwLevel) fitting->level, z);
      return;
    }
}

static SwRecord *
placed (SwTool *tool, SwPoint at)
{
  SwRecord *record = sw_board_create (tool->board, NULL);
  sw_parts_set (record, 0, at);
  if (sw_record_table (record) == SW_TABLE_FITTING)
    {
      SwFitting *fitting = (SwFitting *) record;
      fitting->access = fitting->access && (JOINTS & 1u << fitting->kind) == 0;
      join_run (tool->board, fitting);
    }
  return record;
}

static void
place_motion (SwTool *tool, const SwToolEvent *event)
{
  SwRecord *record = placed (tool, event->at);
  sw_board_set_drafts (tool->board, &record, 1);
  if (sw_record_table (record) == SW_TABLE_LIGHT)
    sw_board_say (tool->board, sw_board_place_words (tool->board));
}

static void
place_start (SwTool *tool)
{
  sw_board_offer (tool->board, SW_TYPED_PLACE);
}

static void
place_press (SwTool *tool, const SwToolEvent *event)
{
  GPtrArray *records = g_ptr_array_new ();
  SwRecord *record = placed (tool, event->at);
  g_autofree char *name = g_strdup_printf (_("Place %s"), sw_word (tool->class->row.label));
  g_ptr_array_add (records, record);
  sw_board_set_drafts (tool->board, NULL, 0);
  sw_board_put_all (tool->board, name, records);
}

static void
place_draw (SwTool *tool, SwDisplay *live)
{
}

static void
set_fitting (SwRecord *template, int kind, double length, double width, double height, int level, double z)
{
  SwFitting *fitting = (SwFitting *) template;
  fitting->kind = kind;
  fitting->length = length;
  fitting->width = width;
  fitting->height = height;
  fitting->level = level;
  fitting->z = z;
}

static void
setup_box (SwRecord *template)
{
  set_fitting (template, SW_FITTING_BOX, 100, 100, 50, SW_LEVEL_VOID, 30);
  ((SwFitting *) template)->access = TRUE;
}

static void
setup_board (SwRecord *template)
{
  set_fitting (template, SW_FITTING_BOARD, 400, 120, 600, SW_LEVEL_FLOOR, 1700);
}

static void
setup_stack (SwRecord *template)
{
  set_fitting (template, SW_FITTING_STACK, 110, 0, 2600, SW_LEVEL_FLOOR, 1300);
}

static void
setup_gully (SwRecord *template)
{
  set_fitting (template, SW_FITTING_GULLY, 150, 0, 150, SW_LEVEL_FLOOR, 0);
}

static void
setup_exit (SwRecord *template)
{
  set_fitting (template, SW_FITTING_EXIT, 50, 0, 50, SW_LEVEL_VOID, 100);
}

static void
setup_fitting (SwRecord *template)
{
  set_fitting (template, SW_FITTING_VALVE, 60, 60, 60, SW_LEVEL_VOID, 80);
  ((SwFitting *) template)->access = TRUE;
}

#define SITE(name) SW_SITE_BIT (SW_SITE_##name)
#define IN_VOID (SW_SNAP_BIT (SW_SNAP_END) | SW_SNAP_BIT (SW_SNAP_CENTRE) | SW_SNAP_BIT (SW_SNAP_LANE) | SW_SNAP_BIT (SW_SNAP_GRID) \
                 | SW_SNAP_BIT (SW_SNAP_RUN) | SW_SNAP_BIT (SW_SNAP_CROSSING))
#define PLACE(name, id, key, label, hint, sites, table, setup_) \
  const SwToolClass name = { .row = { id, label, hint, sites, table, key }, .size = sizeof (SwTool), .snaps = IN_VOID, .setup = setup_, \
                             .start = place_start, .press = place_press, .motion = place_motion, .draw = place_draw }

PLACE (sw_tool_light, "light", 'l', N_("Downlight"), N_("Click where the light goes; Shift takes the nearest allowed place"), SITE (LIGHTS), SW_TABLE_LIGHT, NULL);
PLACE (sw_tool_hatch, "hatch", 'h', N_("Hatch"), N_("Click the middle of the hatch"), SITE (LIGHTS) | SITE (BRANDERING) | SITE (PIPES) | SITE (BOARDS), SW_TABLE_HATCH, NULL);
PLACE (sw_tool_box, "box", 'o', N_("Draw box"), N_("Click where the box goes"), SITE (CONDUITS) | SITE (LIGHTS), SW_TABLE_FITTING, setup_box);
PLACE (sw_tool_distribution_board, "board", 'B', N_("Distribution board"), N_("Click where the board hangs"), SITE (CONDUITS), SW_TABLE_FITTING, setup_board);
PLACE (sw_tool_stack, "stack", 'q', N_("Stack"), N_("Click where the stack stands"), SITE (PIPES), SW_TABLE_FITTING, setup_stack);
PLACE (sw_tool_gully, "gully", 'y', N_("Gully"), N_("Click where the gully is"), SITE (PIPES), SW_TABLE_FITTING, setup_gully);
PLACE (sw_tool_exit, "exit", 'e', N_("Exit"), N_("Click where the run leaves the building"), SITE (PIPES), SW_TABLE_FITTING, setup_exit);
PLACE (sw_tool_fitting, "fitting", 'f', N_("Fitting"), N_("Click where the fitting goes"), SITE (PIPES) | SITE (CONDUITS), SW_TABLE_FITTING, setup_fitting);
PLACE (sw_tool_drop_in, "drop-in", 'i', N_("Drop-in"), N_("Click where the fixture above comes down"), SITE (PIPES), SW_TABLE_DROP_IN, NULL);
