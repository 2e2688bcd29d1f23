/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cutting diagrams of the job: sheets of board, then stock lengths of timber, one group after the other down
 * the pages. */
#include "sheets/cut_parts.h"
#include "sheets/sheet_parts.h"
#include <string.h>

#define PAD_MM   6.0
#define LEAST_MM 75.0 /* of a page under a heading: else a new page begins */

typedef struct
{
  SwSheetMaker *maker;
  const SwJob *job;
  const char *const *notes;
  SwSheetDraft *draft; /* the page in use; NULL before the first */
  SwBox area;
  double y;
} Flow;

static void
begin_page (Flow *flow)
{
  const SwSheetColumn column = { .here = SW_BOX_EMPTY, .notes = flow->notes };
  flow->draft = sw_sheet_begin_page (flow->maker, 0);
  sw_sheet_add_column (flow->maker, flow->draft, &column);
  flow->area = sw_box_grow (sw_sheet_area (&flow->maker->page), -PAD_MM);
  flow->y = flow->area.high.y;
}

/* "12 go up whole; cut room by room it would be 46 sheets." */
static char *
boards_sentence (const SwCutGroup *group)
{
  g_autoptr (GString) text = g_string_new (NULL);
  guint n = sw_cut_group_n (group);
  g_string_append_printf (text, _("%u sheets in all, of which %u go up uncut."), n, group->n_whole);
  if (group->n_by_rooms > n)
    g_string_append_printf (text, _(" Cut room by room it would be %u."), group->n_by_rooms);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static void
add_head (Flow *flow, const SwCutGroup *group, guint i)
{
  const SwPen *pen = &flow->draft->pen;
  double width = flow->area.high.x - flow->area.low.x;
  g_autofree char *letter = sw_cut_letter (i), *what = sw_cut_group_text (group, pen->lengths),
                  *heading = g_strdup_printf ("%s:  %s", letter, what);
  flow->y = sw_paragraph_add_heading (pen, (SwPoint){ flow->area.low.x, flow->y }, width, heading) - 0.5;
  if (group->flat)
    {
      g_autofree char *boards = boards_sentence (group);
      flow->y = sw_paragraph_add (pen, (SwPoint){ flow->area.low.x, flow->y }, width, boards);
    }
  if (group->plan != NULL)
    {
      g_auto (GStrv) sentences = sw_cut_sentences (group->plan, pen->lengths);
      g_autofree char *text = g_strjoinv (" ", sentences);
      flow->y = sw_paragraph_add (pen, (SwPoint){ flow->area.low.x, flow->y }, width, text);
    }
  flow->y -= 3;
}

typedef struct
{
  const SwJob *job;
  const SwCutGroup *group;
} Marking;

/* A SwCutMark: boards by room and number, timber by the room's mark and a letter. */
static char *
mark_of (const SwCutPlan *plan, const SwCutPiece *piece, gpointer data)
{
  const Marking *marking = data;
  const SwCutThing *thing = &g_array_index (marking->group->things, SwCutThing, piece->item);
  if (plan->task->flat)
    return sw_cut_thing_text (marking->job, thing);
  const char *tag = sw_job_get (marking->job, thing->room)->tag;
  return g_strdup_printf ("%s %s", g_str_has_prefix (tag, "room ") ? tag + strlen ("room ") : tag,
                          sw_cut_thing_letter (thing));
}

static void
draw_group (Flow *flow, const SwCutGroup *group, guint i)
{
  g_autofree char *letter = sw_cut_letter (i);
  Marking marking = { flow->job, group };
  const SwCutDrawing drawing = { group->plan, letter, mark_of, &marking };
  if (flow->draft == NULL || flow->y - LEAST_MM < flow->area.low.y)
    begin_page (flow);
  add_head (flow, group, i);
  for (guint first = 0; group->plan != NULL && first < group->plan->ways->len;)
    {
      if (first > 0)
        {
          g_autofree char *what = sw_cut_group_text (group, flow->draft->pen.lengths),
                          *again = g_strdup_printf (_("%s:  %s, continued"), letter, what);
          begin_page (flow);
          flow->y = sw_paragraph_add_heading (&flow->draft->pen, (SwPoint){ flow->area.low.x, flow->y },
                                              flow->area.high.x - flow->area.low.x, again)
                    - 3;
        }
      SwBox box = flow->area;
      box.high.y = flow->y;
      first += sw_cut_draw_ways (&flow->draft->pen, box, &drawing, first, &flow->y);
    }
  flow->y -= PAD_MM;
}

static gboolean
draw (SwSheetMaker *maker, gboolean flat, const char *const *notes, GError **error)
{
  g_autoptr (SwCutJob) cut = sw_cut_job_new (maker->context->deck, maker->context->rules, NULL, error);
  Flow flow = { .maker = maker, .job = sw_sheet_job (maker->context), .notes = notes };
  if (cut == NULL)
    return FALSE;
  for (guint i = 0; i < cut->groups->len; i++)
    {
      const SwCutGroup *group = cut->groups->pdata[i];
      if (group->flat == flat)
        draw_group (&flow, group, i);
    }
  if (flow.draft == NULL)
    {
      begin_page (&flow);
      sw_paragraph_add (&flow.draft->pen, (SwPoint){ flow.area.low.x, flow.y },
                        flow.area.high.x - flow.area.low.x,
                        _("No room of the job has a closed ceiling: there is nothing to cut."));
    }
  return TRUE;
}

gboolean
sw_sheet_draw_cut_boards (SwSheetMaker *maker, GError **error)
{
  const char *const notes[] = {
    _("Each piece has the name of its room and its number on the board plan. Sizes are from joint to joint "
       "along and across the sheet. Hatched: left over."),
    _("* A long side of it at a joint is sawn: bevel and prime it, and fill the joint wide. Sides with the sheet's own edge need nothing of that."),
    _("Heavy lines are cuts that go through what is left of the sheet. Notches and slopes are cut at the "
       "room."),
    NULL,
  };
  return draw (maker, TRUE, notes, error);
}

gboolean
sw_sheet_draw_cut_timber (SwSheetMaker *maker, GError **error)
{
  const char *const notes[] = {
    _("Under each length stand its room and what it is: B batten, P primary, N noggin, T trimmer, W batten "
       "along a wall, U stud of a bulkhead, C cornice, S shadow line, E corner bead, D conduit of a run. Short ones without: see the cutting list. Hatched: left over."),
    _("Lengths that are cut alike share a row; below it stands where the pieces of each go, and of how many."),
    _("Pieces that end over a rib or a primary are jointed there: the brandering plan shows the whole "
       "length."),
    NULL,
  };
  return draw (maker, FALSE, notes, error);
}
