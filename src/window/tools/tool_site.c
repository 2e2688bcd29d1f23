/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tools for what is measured, and those that stand on something else: the tape, a rib measured on site, a drop on a wall, and
 * the crossing of a run that is there already. */
#include "window/tools/board_data.h"
#include "routing/cross.h"
#include "window/tools/run_tool.h"
#include "window/tools/shape.h"
#include "sheets/survey_words.h"
#include "sheets/words.h"
#include "base/number.h"

/* ---- Tape ---- */

typedef struct
{
  SwTool tool;
  int n; /* ends that stand: 0, 1, 2 */
  SwPoint a, b;
} Tape;

static void
tape_set (Tape *tape, int n)
{
  tape->n = n;
  sw_board_set_anchor (tape->tool.board, n == 1 ? &tape->a : NULL);
  sw_board_offer (tape->tool.board, n == 1 ? SW_TYPED_POLAR | SW_TYPED_PLACE : SW_TYPED_PLACE);
}

static void
tape_start (SwTool *tool)
{
  tape_set ((Tape *) tool, 0);
}

static char *
tape_text (const Tape *tape)
{
  char length[SW_LENGTH_BUF], x[SW_LENGTH_BUF], y[SW_LENGTH_BUF];
  SwBoard *board = tape->tool.board;
  return g_strdup_printf (_("%s  (x %s, y %s)"), sw_board_length (board, sw_point_distance (tape->a, tape->b), SW_LENGTH_UNIT, length),
                          sw_board_length (board, tape->b.x - tape->a.x, SW_LENGTH_BARE, x),
                          sw_board_length (board, tape->b.y - tape->a.y, SW_LENGTH_BARE, y));
}

static void
tape_motion (SwTool *tool, const SwToolEvent *event)
{
  Tape *tape = (Tape *) tool;
  if (tape->n != 1)
    return;
  tape->b = event->at;
  sw_board_say (tool->board, tape_text (tape));
}

static void
tape_press (SwTool *tool, const SwToolEvent *event)
{
  Tape *tape = (Tape *) tool;
  if (tape->n == 1)
    {
      tape->b = event->at;
      tape_set (tape, 2);
      sw_board_say (tool->board, tape_text (tape));
      return;
    }
  tape->a = tape->b = event->at;
  tape_set (tape, 1);
}

static gboolean
tape_drop (SwTool *tool)
{
  Tape *tape = (Tape *) tool;
  gboolean had = tape->n > 0;
  tape_set (tape, 0);
  sw_board_say (tool->board, NULL);
  return had;
}

static void
tape_draw (SwTool *tool, SwDisplay *live)
{
  Tape *tape = (Tape *) tool;
  static const SwStroke line = { .role = SW_ROLE_DRAFT, .width = 1.5, .unit = SW_SIZE_PX };
  if (tape->n == 0)
    return;
  SwPoint way = sw_point_sub (tape->b, tape->a);
  double length = sw_point_length (way), tick = sw_board_px (tool->board, 6);
  sw_display_add_line (live, tape->a, tape->b, &line);
  if (length <= 0)
    return;
  SwPoint side = sw_point_scale ((SwPoint){ -way.y, way.x }, tick / length);
  const SwPoint ends[2] = { tape->a, tape->b };
  for (int i = 0; i < 2; i++)
    sw_display_add_line (live, sw_point_add (ends[i], side), sw_point_sub (ends[i], side), &line);
  char number[SW_LENGTH_BUF];
  SwTextStyle style = { .role = SW_ROLE_DRAFT, .height = 9, .unit = SW_SIZE_PX, .align = SW_ALIGN_MIDDLE, .rise = SW_RISE_MIDDLE,
                        .turn = atan2 (way.y, way.x), .halo = TRUE, .bold = TRUE };
  sw_display_add_text (live, sw_point_lerp (tape->a, tape->b, 0.5), sw_board_length (tool->board, length, SW_LENGTH_DIM, number), &style);
}

#define SITE(name) SW_SITE_BIT (SW_SITE_##name)

const SwToolClass sw_tool_tape = {
  .row = { "tape", N_("Tape"), N_("Click both ends of what you measure"), SW_SITES_ALL, SW_N_TABLES, 't' },
  .size = sizeof (Tape), .snaps = SW_SNAPS_ALL, .start = tape_start, .press = tape_press, .motion = tape_motion, .drop = tape_drop,
  .draw = tape_draw,
};

/* ---- A value measured on site ---- */

typedef struct
{
  SwTool tool;
  gboolean begun;
  SwPoint at;
} Survey;

static void
survey_set (Survey *survey, gboolean begun)
{
  survey->begun = begun;
  sw_board_offer (survey->tool.board, begun ? SW_TYPED_BIT (SW_TYPED_VALUE) : 0);
  if (!begun)
    sw_board_set_drafts (survey->tool.board, NULL, 0);
}

/* What the template's kind of measurement finds nearest to a place, of the bay or room there: what it is of, and the value
 * that was measured, or is drawn. A level is taken where the pointer is. */
static gboolean
survey_find (Survey *survey, SwPoint at, SwMeasure *measure)
{
  const SwPicture *picture = sw_board_picture (survey->tool.board);
  gboolean of_room = measure->kind == SW_MEASURE_LENGTH || measure->kind == SW_MEASURE_DIAGONAL;
  const SwDeckBay *bay = picture != NULL && !of_room ? sw_deck_bay_at (picture->deck, at) : NULL;
  const SwRoom *room = picture != NULL && of_room ? sw_deck_room_at (picture->deck, at) : NULL;
  if (bay == NULL && room == NULL)
    return FALSE;
  SwId of = bay != NULL ? bay->bay->record.id : room->record.id;
  if (measure->kind == SW_MEASURE_LEVEL)
    {
      measure->of = of;
      measure->at = at;
      measure->value = sw_deck_z_to_floor (picture->deck, sw_deck_soffit (bay, at));
      return TRUE;
    }
  g_autoptr (GArray) slots = sw_survey_slots (picture->deck, of);
  const SwSurveySlot *best = NULL;
  double nearest = INFINITY;
  for (guint i = 0; i < slots->len; i++)
    {
      const SwSurveySlot *slot = &g_array_index (slots, SwSurveySlot, i);
      double distance = bay != NULL ? sw_survey_across (bay, slot, at) : sw_point_distance (slot->place, at);
      if (slot->key.kind != (SwMeasureKind) measure->kind || distance >= nearest)
        continue;
      nearest = distance;
      best = slot;
    }
  if (best == NULL)
    return FALSE;
  measure->of = of;
  measure->number = best->key.number;
  measure->second = best->key.second;
  measure->value = best->measure != NULL ? best->measure->value : best->drawn;
  return TRUE;
}

/* The record that is to be put: what was measured there before, if it was, is changed. */
static SwMeasure *
survey_record (Survey *survey)
{
  SwMeasure *measure = (SwMeasure *) sw_board_create (survey->tool.board, NULL);
  double typed;
  if (!survey_find (survey, survey->at, measure))
    {
      sw_record_unref (&measure->record);
      return NULL;
    }
  SwMeasureKey key = sw_measure_key (measure);
  const SwMeasure *before = sw_job_measure (sw_board_job (survey->tool.board), &key);
  if (before != NULL)
    {
      sw_record_unref (&measure->record);
      measure = (SwMeasure *) sw_record_copy (&before->record);
    }
  if (sw_typed_value (sw_board_typed (survey->tool.board), SW_TYPED_VALUE, &typed, NULL))
    measure->value = typed;
  return measure;
}

static void
survey_motion (SwTool *tool, const SwToolEvent *event)
{
  Survey *survey = (Survey *) tool;
  if (!survey->begun)
    survey->at = event->raw;
  SwMeasure *measure = survey_record (survey);
  if (measure == NULL)
    {
      sw_board_say (tool->board, g_strdup (_("Point at a rib or void of a bay, or into a room for its sides")));
      return;
    }
  SwMeasureKey key = sw_measure_key (measure);
  g_autofree char *name = measure->kind == SW_MEASURE_LEVEL ? g_strdup (_("soffit level above the floor"))
                                                            : sw_survey_key_name (sw_board_job (tool->board), &key);
  char value[SW_LENGTH_BUF];
  sw_board_say (tool->board, g_strdup_printf (survey->begun ? _("%s: type what was measured, then Enter (%s)") : _("%s, now %s"), name,
                                              sw_board_length (tool->board, measure->value, SW_LENGTH_BARE, value)));
  sw_board_set_drafts (tool->board, (SwRecord **) &measure, 1);
}

static void
survey_press (SwTool *tool, const SwToolEvent *event)
{
  Survey *survey = (Survey *) tool;
  if (!survey->begun)
    {
      survey->at = event->raw;
      survey_set (survey, TRUE);
      return;
    }
  SwMeasure *measure = survey_record (survey);
  survey_set (survey, FALSE);
  if (measure == NULL)
    return;
  GPtrArray *records = g_ptr_array_new ();
  g_ptr_array_add (records, measure);
  sw_board_put_all (tool->board, _("Enter measurement"), records);
}

static gboolean
survey_drop (SwTool *tool)
{
  Survey *survey = (Survey *) tool;
  gboolean had = survey->begun;
  survey_set (survey, FALSE);
  return had;
}

const SwToolClass sw_tool_rib = {
  .row = { "as-built", N_("As built"), N_("Click what was measured, type the value, Enter"), SITE (MEASURE), SW_TABLE_MEASURE, 'a' },
  .size = sizeof (Survey), .press = survey_press, .motion = survey_motion, .drop = survey_drop,
};

/* ---- Drop on a wall ---- */

static const SwWall *
wall_near (SwBoard *board, SwPoint at, double *along)
{
  const SwRecord *record;
  const SwWall *best = NULL;
  double nearest = sw_board_px (board, 60);
  for (SwJobIter i = sw_job_iter (sw_board_job (board), SW_TABLE_WALL); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwWall *wall = (const SwWall *) record;
      SwPoint way = sw_point_sub (wall->to, wall->from);
      double length = sw_point_length (way);
      if (length <= 0)
        continue;
      double t = CLAMP (sw_point_dot (sw_point_sub (at, wall->from), way) / (length * length), 0, 1);
      double distance = sw_point_distance (sw_point_lerp (wall->from, wall->to, t), at);
      if (distance < nearest - 1e-9)
        {
          nearest = distance;
          best = wall;
          *along = t * length;
        }
    }
  return best;
}

static SwDrop *
drop_record (SwBoard *board, SwPoint at)
{
  double along;
  const SwWall *wall = wall_near (board, at, &along);
  if (wall == NULL)
    return NULL;
  SwDrop *drop = (SwDrop *) sw_board_create (board, NULL);
  drop->wall = wall->record.id;
  drop->along = round (along);
  return drop;
}

static void
wall_drop_motion (SwTool *tool, const SwToolEvent *event)
{
  SwDrop *drop = drop_record (tool->board, event->raw);
  sw_board_set_drafts (tool->board, (SwRecord **) &drop, drop != NULL);
  char along[SW_LENGTH_BUF];
  if (drop != NULL)
    sw_board_say (tool->board, g_strdup_printf (_("%s along the wall"), sw_board_length (tool->board, drop->along, SW_LENGTH_UNIT, along)));
  else
    sw_board_say (tool->board, g_strdup (_("Point at a wall")));
}

static void
wall_drop_press (SwTool *tool, const SwToolEvent *event)
{
  SwDrop *drop = drop_record (tool->board, event->raw);
  sw_board_set_drafts (tool->board, NULL, 0);
  if (drop == NULL)
    return;
  GPtrArray *records = g_ptr_array_new ();
  g_ptr_array_add (records, drop);
  sw_board_put_all (tool->board, _("Place drop"), records);
}

const SwToolClass sw_tool_drop = {
  .row = { "drop", N_("Drop"), N_("Click on a wall where the drop comes down"), SITE (CONDUITS) | SITE (PIPES), SW_TABLE_DROP, 'd' },
  .size = sizeof (SwTool), .press = wall_drop_press, .motion = wall_drop_motion,
};

/* ---- Cross here ---- */

static const SwRun *
run_at (SwBoard *board, SwPoint at)
{
  SwId ids[16];
  guint n = sw_board_things_at (board, at, ids, G_N_ELEMENTS (ids));
  for (guint i = 0; i < n; i++)
    if (SW_ID_TABLE (ids[i]) == SW_TABLE_RUN)
      return (const SwRun *) sw_job_get (sw_board_job (board), ids[i]);
  return sw_board_n_picked (board) == 1 && SW_ID_TABLE (sw_board_picked (board, 0)) == SW_TABLE_RUN
             ? (const SwRun *) sw_job_get (sw_board_job (board), sw_board_picked (board, 0))
             : NULL;
}

static SwRun *
crossed (SwBoard *board, SwPoint at, GError **error)
{
  const SwRun *run = run_at (board, at);
  const SwPicture *picture = sw_board_picture (board);
  return run != NULL && picture != NULL ? sw_cross_run (picture->deck, run, at, sw_cross_saddle_mm (picture->rules), error) : NULL;
}

static void
cross_motion (SwTool *tool, const SwToolEvent *event)
{
  g_autoptr (GError) error = NULL;
  SwRun *run = crossed (tool->board, event->raw, &error);
  sw_board_set_drafts (tool->board, (SwRecord **) &run, run != NULL);
  if (run != NULL)
    sw_board_say (tool->board, g_strdup (_("Click to take the run under the ribs here")));
  else
    sw_board_say (tool->board, g_strdup (error != NULL ? error->message : _("Point at a leg of a run that meets a rib")));
}

static void
cross_press (SwTool *tool, const SwToolEvent *event)
{
  SwRun *run = crossed (tool->board, event->raw, NULL);
  sw_board_set_drafts (tool->board, NULL, 0);
  if (run == NULL)
    return;
  GPtrArray *records = g_ptr_array_new ();
  g_ptr_array_add (records, run);
  sw_board_put_all (tool->board, _("Cross under the ribs"), records);
}

const SwToolClass sw_tool_cross = {
  .row = { "cross", N_("Cross here"), N_("Click where a run passes under the ribs"), SITE (CONDUITS) | SITE (PIPES), SW_N_TABLES, 'x' },
  .size = sizeof (SwTool), .press = cross_press, .motion = cross_motion,
};

gboolean
sw_board_cross_here (SwBoard *board)
{
  const SwToolClass *class = board->tool->class;
  g_clear_error (&board->fault);
  if (class == &sw_tool_pipe || class == &sw_tool_conduit)
    {
      if (sw_run_tool_cross (board->tool, board->last.at, &board->fault))
        {
          sw_board_tell (board, SW_BOARD_LIVE | SW_BOARD_SAYS | SW_BOARD_TOOL);
          return TRUE;
        }
      sw_board_tell (board, SW_BOARD_FAULT);
      return FALSE;
    }
  return sw_board_use (board, "cross");
}
