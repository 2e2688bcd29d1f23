/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Labels to print and stick: one for each piece of board, one for each bundle of equal lengths of a room.
 * Three by seven to an A4 page, 63.5 × 38.1 mm each, as label sheets are commonly sold; thin lines between
 * them for those who cut plain paper. */
#include "sheets/cut_parts.h"
#include "sheets/sheet_parts.h"

#define COLUMNS   3
#define ROWS      7
#define WIDE_MM   63.5
#define HIGH_MM   38.1
#define LEFT_MM   7.25
#define BOTTOM_MM 15.15
#define PITCH_MM  66.0
#define INSIDE_MM 3.5
#define HEAD_MM   7.0 /* the piece's number */
#define ROOM_MM   4.5
#define ROOM_LEAST_MM 2.5

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

typedef struct
{
  const char *room, *number; /* the number of a piece is never shortened; NULL for none */
  const char *size, *from, *what;
} Label;

static void
add_label (Sticking *sticking, const Label *label)
{
  const SwStroke line = { .role = SW_ROLE_FAINT_INK, .width = 0.13 };
  const struct
  {
    const char *text;
    double height;
    gboolean bold;
  } lines[] = { { label->size, 4.0, TRUE }, { label->from, 3.0, FALSE }, { label->what, 2.5, FALSE } };
  SwBox box = next_box (sticking);
  const SwPen *pen = &sticking->draft->pen;
  double width = WIDE_MM - 2 * INSIDE_MM, x = box.low.x + INSIDE_MM, y = box.high.y - INSIDE_MM - HEAD_MM;
  double number
      = label->number != NULL ? sw_text_meter_width (pen->meter, label->number, HEAD_MM, TRUE) + 2 : 0;
  sw_display_begin_group (pen->display, &(SwDisplayGroup){ .class_name = "label", .title = label->room });
  sw_display_add_box (pen->display, box, NULL, &line);
  double room = ROOM_MM * fmin (1, (width - number) / fmax (sw_text_meter_width (pen->meter, label->room, ROOM_MM, TRUE) + 0.1, 1));
  sw_pen_add_fitted_text (pen, (SwPoint){ x, y }, label->room, width - number,
                          &(SwPenText){ .height_mm = fmax (room, ROOM_LEAST_MM), .bold = TRUE });
  if (label->number != NULL)
    sw_pen_add_text (pen, (SwPoint){ box.high.x - INSIDE_MM, y }, label->number,
                     &(SwPenText){ .height_mm = HEAD_MM, .bold = TRUE, .align = SW_ALIGN_RIGHT });
  for (guint i = 0; i < G_N_ELEMENTS (lines); i++)
    {
      y -= lines[i].height + 2.2;
      sw_pen_add_fitted_text (pen, (SwPoint){ x, y }, lines[i].text, width,
                              &(SwPenText){ .height_mm = lines[i].height, .bold = lines[i].bold });
    }
  sw_pen_add_fitted_text (pen, (SwPoint){ x, box.low.y + INSIDE_MM }, sw_job_info (sticking->job)->name,
                          width, &(SwPenText){ .height_mm = 2.5, .faint = TRUE });
  sw_display_end (pen->display);
}

/* A piece of board. */
static void
stick_piece (Sticking *sticking, const SwCutThing *thing, const char *size, const char *from,
             const char *what)
{
  g_autofree char *room = sw_cut_room_text (sticking->job, thing->room),
                  *number = g_strdup_printf ("%d", thing->piece);
  add_label (sticking, &(Label){ room, number, size, from, what });
}

static char *
size_text (const Sticking *sticking, const SwCutTask *task, gint64 length, gint64 width)
{
  SwLengths lengths = sw_job_lengths (sticking->job);
  g_autofree char *size = sw_cut_size_text (task, length, width, lengths);
  return lengths == SW_LENGTHS_MM ? g_strdup_printf (_("%s mm"), size) : g_steal_pointer (&size);
}

static void
stick_whole (Sticking *sticking, const SwCutGroup *group)
{
  g_autofree char *what = sw_cut_material_text (group, sw_job_lengths (sticking->job));
  const SwCutStock *sheet = &g_array_index (group->task->stock, SwCutStock, 0);
  g_autofree char *size = size_text (sticking, group->task, sheet->length, sheet->width);
  for (guint i = 0; i < group->whole->len; i++)
    stick_piece (sticking, &g_array_index (group->whole, SwCutThing, i), size, _("whole sheet"), what);
}

static void
stick_boards (Sticking *sticking, const SwCutGroup *group, const char *letter)
{
  const SwCutPlan *plan = group->plan;
  g_autofree char *what = sw_cut_material_text (group, sw_job_lengths (sticking->job));
  for (guint w = 0; plan != NULL && w < plan->ways->len; w++)
    {
      const SwCutWay *way = &g_array_index (plan->ways, SwCutWay, w);
      g_autofree char *from = g_strdup_printf (_("from sheet %s%u"), letter, w + 1);
      for (guint k = way->first; k < way->first + way->n; k++)
        {
          const SwCutPiece *piece = &g_array_index (plan->pieces, SwCutPiece, k);
          g_autofree char *size = size_text (sticking, group->task, piece->length, piece->width);
          stick_piece (sticking, &g_array_index (group->things, SwCutThing, piece->item), size, from, what);
        }
    }
}

static void
stick_timber (Sticking *sticking, const SwCutGroup *group)
{
  g_autofree char *what = sw_cut_material_text (group, sw_job_lengths (sticking->job));
  for (guint i = 0; i < group->things->len; i++)
    {
      const SwCutThing *thing = &g_array_index (group->things, SwCutThing, i);
      const SwCutItem *item = &g_array_index (group->task->items, SwCutItem, i);
      g_autofree char *room = sw_cut_room_text (sticking->job, thing->room),
                      *size = size_text (sticking, group->task, item->length, 0);
      g_autofree char *bundle = g_strdup_printf ("%d × %s", item->copies, size);
      add_label (sticking, &(Label){ room, NULL, bundle, sw_cut_thing_word (thing), what });
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
