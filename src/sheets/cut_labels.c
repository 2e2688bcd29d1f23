/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Labels to print and stick: one for each piece of board, one for each bundle of equal lengths of a room. Three by seven to an A4
 * page, 63.5 × 38.1 mm each, as label sheets are commonly sold; thin lines between them for those who cut plain paper. */
#include "sheets/cut_parts.h"
#include "sheets/sheet_parts.h"

#define COLUMNS 3
#define ROWS 7
#define WIDE_MM 63.5
#define HIGH_MM 38.1
#define LEFT_MM 7.25
#define BOTTOM_MM 15.15
#define PITCH_MM 66.0
#define INSIDE_MM 3.5

typedef struct
{
  SwSheetMaker *maker;
  const SwJob *job;
  SwSheetDraft *draft;
  guint n; /* labels so far */
} Sticking;

/* The next place. */
static SwBox
next_box (Sticking *sticking)
{
  guint at = sticking->n++ % (COLUMNS * ROWS);
  if (at == 0)
    sticking->draft = sw_sheet_begin_page (sticking->maker, 0);
  SwPoint low = { LEFT_MM + (at % COLUMNS) * PITCH_MM, BOTTOM_MM + (ROWS - 1 - at / COLUMNS) * HIGH_MM };
  return (SwBox){ low, { low.x + WIDE_MM, low.y + HIGH_MM } };
}

static void
add_label (Sticking *sticking, const char *head, const char *size, const char *from, const char *what)
{
  const SwStroke line = { .role = SW_ROLE_FAINT_INK, .width = 0.13 };
  SwBox box = next_box (sticking);
  const SwPen *pen = &sticking->draft->pen;
  double width = WIDE_MM - 2 * INSIDE_MM, x = box.low.x + INSIDE_MM, y = box.high.y - INSIDE_MM;
  const struct { const char *text; double height; gboolean bold; } lines[] = { { head, 5.0, TRUE }, { size, 4.0, TRUE }, { from, 3.0, FALSE }, { what, 2.5, FALSE } };
  const char *job = sw_job_info (sticking->job)->name;
  sw_display_begin_group (pen->display, &(SwDisplayGroup){ .class_name = "label", .title = head });
  sw_display_add_box (pen->display, box, NULL, &line);
  for (guint i = 0; i < G_N_ELEMENTS (lines); i++)
    {
      y -= lines[i].height;
      sw_pen_add_fitted_text (pen, (SwPoint){ x, y }, lines[i].text, width, &(SwPenText){ .height_mm = lines[i].height, .bold = lines[i].bold });
      y -= 2.2;
    }
  sw_pen_add_fitted_text (pen, (SwPoint){ x, box.low.y + INSIDE_MM }, job, width, &(SwPenText){ .height_mm = 2.5, .faint = TRUE });
  sw_display_end (pen->display);
}

static char *
millimetres (const SwCutTask *task, gint64 length, gint64 width)
{
  g_autofree char *size = sw_cut_task_size (task, length, width);
  return g_strdup_printf (_("%s mm"), size);
}

static void
stick_whole (Sticking *sticking, const SwCutGroup *group)
{
  g_autofree char *what = sw_cut_group_text (group);
  const SwCutStock *sheet = &g_array_index (group->task->stock, SwCutStock, 0);
  g_autofree char *size = millimetres (group->task, sheet->length, sheet->width);
  for (guint i = 0; i < group->whole->len; i++)
    {
      g_autofree char *head = sw_cut_thing_text (sticking->job, &g_array_index (group->whole, SwCutThing, i));
      add_label (sticking, head, size, _("whole sheet"), what);
    }
}

static void
stick_boards (Sticking *sticking, const SwCutGroup *group, const char *letter)
{
  const SwCutPlan *plan = group->plan;
  g_autofree char *what = sw_cut_group_text (group);
  for (guint w = 0; plan != NULL && w < plan->ways->len; w++)
    {
      const SwCutWay *way = &g_array_index (plan->ways, SwCutWay, w);
      g_autofree char *from = g_strdup_printf (_("from sheet %s%u"), letter, w + 1);
      for (guint k = way->first; k < way->first + way->n; k++)
        {
          const SwCutPiece *piece = &g_array_index (plan->pieces, SwCutPiece, k);
          g_autofree char *head = sw_cut_thing_text (sticking->job, &g_array_index (group->things, SwCutThing, piece->item));
          g_autofree char *size = millimetres (group->task, piece->length, piece->width);
          add_label (sticking, head, size, from, what);
        }
    }
}

static void
stick_timber (Sticking *sticking, const SwCutGroup *group)
{
  g_autofree char *what = sw_cut_group_text (group);
  for (guint i = 0; i < group->things->len; i++)
    {
      const SwCutThing *thing = &g_array_index (group->things, SwCutThing, i);
      const SwCutItem *item = &g_array_index (group->task->items, SwCutItem, i);
      g_autofree char *head = sw_cut_room_text (sticking->job, thing->room), *size = millimetres (group->task, item->length, 0);
      g_autofree char *bundle = g_strdup_printf ("%d × %s", item->copies, size);
      add_label (sticking, head, bundle, sw_cut_thing_word (thing), what);
    }
}

gboolean
sw_sheet_draw_cut_labels (SwSheetMaker *maker, GError **error)
{
  g_autoptr (SwCutJob) cut = sw_cut_job_new (maker->context->deck, maker->context->rules, NULL, error);
  Sticking sticking = { .maker = maker, .job = sw_sheet_job (maker->context) };
  if (cut == NULL)
    return FALSE;
  maker->page.paper = SW_PAPER_A4;
  maker->page.upright = TRUE;
  for (guint i = 0; i < cut->groups->len; i++)
    {
      const SwCutGroup *group = cut->groups->pdata[i];
      g_autofree char *letter = sw_cut_letter (i);
      if (group->flat)
        {
          stick_whole (&sticking, group);
          stick_boards (&sticking, group, letter);
        }
      else
        stick_timber (&sticking, group);
    }
  if (sticking.draft == NULL)
    sw_sheet_begin_page (maker, 0);
  return TRUE;
}
