/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "sheets/sheet_plan.h"
#include <string.h>

#define PAGES(id, code, title, description, draw, needs) \
  { { id, code, title, description, SW_TRADE_ARCHITECT, SW_SHEET_ABOUT_JOB, SW_PAPER_A3, 0 }, draw, NULL, needs, FALSE }
#define PLAN(id, code, title, description, trade, plan) \
  { { id, code, title, description, trade, SW_SHEET_ABOUT_JOB, SW_PAPER_A3, 50 }, sw_sheet_draw_plan, &plan }

#define CUT(id, code, title, description, paper, draw, bare) \
  { { id, code, title, description, SW_TRADE_CEILING, SW_SHEET_ABOUT_JOB, paper, 0 }, draw, NULL, SW_TABLE_LAYOUT, bare }

static const SwSheetKind kinds[] = {
  PLAN ("combined-plan", "A1", N_("All services"), N_("the services of all trades together"), SW_TRADE_ARCHITECT, sw_sheet_plan_combined),
  PLAN ("soffit-plan", "A2", N_("Soffit plan"), N_("the deck with its levels, rooms and their finishes"), SW_TRADE_ARCHITECT, sw_sheet_plan_soffit),
  PLAN ("electrician-plan", "E1", N_("Electrician's plan"), N_("conduits, boxes, drops and lights in their voids"), SW_TRADE_ELECTRICIAN, sw_sheet_plan_electrician),
  PLAN ("light-plan", "E2", N_("Set-out of lights"), N_("lights with running dimensions from the walls"), SW_TRADE_ELECTRICIAN, sw_sheet_plan_lights),
  PLAN ("plumber-plan", "P1", N_("Plumber's plan"), N_("pipes with falls and levels, drop-ins and sleeves"), SW_TRADE_PLUMBER, sw_sheet_plan_plumber),
  PLAN ("drop-in-plan", "P2", N_("Drop-ins, looking down"), N_("holes for what comes from the floor above, from grid lines"), SW_TRADE_PLUMBER, sw_sheet_plan_drop_ins),
  { { "long-section", "P3", N_("Long section"), N_("one run pulled straight, with levels, falls, cover and plates"), SW_TRADE_PLUMBER,
      SW_SHEET_ABOUT_RUN, SW_PAPER_A3, 50 }, sw_sheet_draw_long, NULL },
  { { "void-section", "A3", N_("Section"), N_("across one void, to scale, with levels and clear distances"), SW_TRADE_ARCHITECT,
      SW_SHEET_ABOUT_VOID, SW_PAPER_A3, 5 }, sw_sheet_draw_void, NULL },
  { { "void-room", "A6", N_("Room in a void"), N_("what fits beside what hangs in a void, in section, and how far pipes fall in it"), SW_TRADE_ARCHITECT,
      SW_SHEET_ABOUT_VOID, SW_PAPER_A3, 0 }, sw_sheet_draw_void_room, NULL },
  PLAN ("before-pour", "B1", N_("Before the pour"), N_("conduits, sleeves and holes that are cast in"), SW_TRADE_ENGINEER, sw_sheet_plan_cast_in),
  { { "sleeve-questions", "B2", N_("Questions to the engineer"), N_("a page for each sleeve: section, plan, facts and room for the answer"), SW_TRADE_ENGINEER,
      SW_SHEET_ABOUT_SLEEVES, SW_PAPER_A3, 0 }, sw_sheet_draw_sleeves, NULL },
  PLAN ("brandering-plan", "C1", N_("Brandering plan"), N_("battens with running dimensions from one wall"), SW_TRADE_CEILING, sw_sheet_plan_battens),
  PLAN ("board-plan", "C2", N_("Board plan"), N_("boards with numbered pieces and their list"), SW_TRADE_CEILING, sw_sheet_plan_boards),
  CUT ("board-cutting", "C3", N_("Cutting of boards"), N_("each sheet of board with the pieces cut from it"), SW_PAPER_A3, sw_sheet_draw_cut_boards, FALSE),
  CUT ("timber-cutting", "C4", N_("Cutting of battens and trims"), N_("each stock length with the battens, cornices and conduits cut from it"), SW_PAPER_A3, sw_sheet_draw_cut_timber, FALSE),
  CUT ("labels", "C5", N_("Labels"), N_("to print and stick on pieces of board and bundles of battens"), SW_PAPER_A4, sw_sheet_draw_cut_labels, TRUE),
  CUT ("order-list", "C6", N_("Order list"), N_("what to order from whom, by pack and stock length"), SW_PAPER_A3, sw_sheet_draw_order, FALSE),
  CUT ("site-sequence", "C7", N_("Site sequence"), N_("works and hold points of each room in their order, with amounts, days and crew"), SW_PAPER_A3, sw_sheet_draw_sequence, FALSE),
  PAGES ("finish-pairs", "A4", N_("Closed or exposed"), N_("a page for each room: figures and sections of both finishes side by side"), sw_sheet_draw_finishes, SW_TABLE_ROOM),
  PAGES ("stopping", "A5", N_("Stopping at separating walls"), N_("a page for each wall: its elevation with gaps and passing runs, and what is to be sealed"), sw_sheet_draw_stopping, SW_TABLE_WALL),
  PAGES ("as-built-entry", "R1", N_("As-built entry"), N_("a page for each bay and room to write down what is measured"), sw_sheet_draw_survey, SW_TABLE_BAY),
  PAGES ("day-sheets", "R2", N_("Day sheet"), N_("a page for each room: what is to be fixed, its snags, and who worked"), sw_sheet_draw_days, SW_TABLE_ROOM),
  PAGES ("hold-points", "R3", N_("Hold points and permission to close"), N_("a page for each room: what was seen, by whom, and what stands against closing"), sw_sheet_draw_holds, SW_TABLE_ROOM),
  PLAN ("snag-plan", "S1", N_("Snag plan"), N_("all snags on plan with their numbered list"), SW_TRADE_ARCHITECT, sw_sheet_plan_snags),
};

struct _SwSheet
{
  const SwSheetInfo *info;
  char *title;
  GPtrArray *drafts; /* hold the displays */
  GPtrArray *page_titles;
  GArray *pages;     /* SwSheetPage */
};

guint
sw_sheets_n (void)
{
  return G_N_ELEMENTS (kinds);
}

const SwSheetInfo *
sw_sheets_get (guint i)
{
  g_assert (i < G_N_ELEMENTS (kinds));
  return &kinds[i].info;
}

const SwSheetInfo *
sw_sheets_find (const char *id)
{
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    if (strcmp (kinds[i].info.id, id) == 0)
      return &kinds[i].info;
  return NULL;
}

static const SwSheetKind *
kind_of (const SwSheetInfo *info)
{
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    if (&kinds[i].info == info)
      return &kinds[i];
  g_assert_not_reached ();
}

static gboolean
has_separating_wall (const SwJob *job)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_WALL); (record = sw_job_iter_next (&i)) != NULL;)
    if (((const SwWall *) record)->separating)
      return TRUE;
  return FALSE;
}

gboolean
sw_sheet_has_subject (const SwSheetContext *context, const SwSheetInfo *info)
{
  const SwJob *job = sw_sheet_job (context);
  if (sw_job_count (job, kind_of (info)->needs) == 0 || (kind_of (info)->draw == sw_sheet_draw_stopping && !has_separating_wall (job)))
    return FALSE;
  return info->about != SW_SHEET_ABOUT_SLEEVES || sw_job_count (sw_sheet_job (context), SW_TABLE_SLEEVE) > 0;
}

/* Takes over what the maker drew. */
static SwSheet *
sheet_new (SwSheetMaker *maker)
{
  SwSheet *sheet = g_new0 (SwSheet, 1);
  sheet->info = maker->info;
  sheet->title = g_steal_pointer (&maker->title);
  sheet->drafts = g_steal_pointer (&maker->pages);
  sheet->page_titles = g_ptr_array_new_with_free_func (g_free);
  sheet->pages = g_array_new (FALSE, FALSE, sizeof (SwSheetPage));
  for (guint i = 0; i < sheet->drafts->len; i++)
    {
      const SwSheetDraft *draft = g_ptr_array_index (sheet->drafts, i);
      char *title = sheet->drafts->len > 1 ? g_strdup_printf ("%s %s, %u", maker->info->code, sheet->title, i + 1)
                                           : g_strdup_printf ("%s %s", maker->info->code, sheet->title);
      SwSheetPage page = { draft->display, maker->page };
      page.page.title = title;
      g_ptr_array_add (sheet->page_titles, title);
      g_array_append_val (sheet->pages, page);
    }
  return sheet;
}

SwSheet *
sw_sheet_draw (const SwSheetContext *context, const SwSheetInfo *info, const SwSheetArgs *args, GError **error)
{
  g_autoptr (SwTextMeter) meter = sw_text_meter_new ();
  SwSheetMaker maker = { .context = context, .kind = kind_of (info), .info = info, .meter = meter };
  SwSheet *sheet = NULL;
  maker.args = args != NULL ? *args : (SwSheetArgs){ .along = -1 };
  maker.page = (SwPage){ .paper = context->options.has_paper ? context->options.paper : info->paper, .theme = context->options.theme };
  maker.title = g_strdup (_(info->title));
  if (maker.kind->draw (&maker, error))
    {
      g_assert (maker.pages != NULL);
      sw_sheet_finish (&maker);
      sheet = sheet_new (&maker);
    }
  g_free (maker.title);
  g_clear_pointer (&maker.pages, g_ptr_array_unref);
  return sheet;
}

void
sw_sheet_free (SwSheet *sheet)
{
  g_ptr_array_unref (sheet->drafts);
  g_ptr_array_unref (sheet->page_titles);
  g_array_unref (sheet->pages);
  g_free (sheet->title);
  g_free (sheet);
}

const SwSheetInfo *
sw_sheet_info (const SwSheet *sheet)
{
  return sheet->info;
}

const char *
sw_sheet_title (const SwSheet *sheet)
{
  return sheet->title;
}

guint
sw_sheet_n_pages (const SwSheet *sheet)
{
  return sheet->pages->len;
}

const SwSheetPage *
sw_sheet_pages (const SwSheet *sheet)
{
  return (const SwSheetPage *) (gpointer) sheet->pages->data;
}
