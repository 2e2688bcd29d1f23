/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stock lengths are rows as wide as the area allows, all to the scale of the longest; those that follow each other and are cut into the
 * same lengths, only for other places, share a row and a list of what each gives. Sheets stand in columns
 * at the first of a few scales at which the largest of them goes twice into the area's width. Letters that do
 * not go into a piece are turned, then left out: the list has them. */
#include "sheets/cut_draw.h"
#include "estimate/cut_edges.h"
#include "sheets/paragraph.h"
#include "sheets/words.h"

#define BAR_MM     8.5 /* three figures go in upright */
#define BAR_ROW_MM 17.5
#define LINE_MM    3.8 /* from line to line of letters */
#define HEAD_MM    6.5 /* over a sheet */
#define GAP_MM     7.0
#define NO_BREAK   "\302\240"
#define MOST_ALIKE 200  /* in a row: their list has to go on a page */

static const double scales[] = { 5, 10, 15, 20, 25, 30, 40, 50, 75, 100, 150, 200, 500, 1000 };

typedef struct
{
  const SwPen *pen;
  const SwCutDrawing *drawing;
  double per_unit; /* mm on paper for a unit of the task */
  double left;     /* of lengths: what stands before them */
} Drafting;

static const SwCutStock *
stock_of (const Drafting *d, const SwCutWay *way)
{
  return &g_array_index (d->drawing->plan->task->stock, SwCutStock, way->stock);
}

static char *
mark_of (const Drafting *d, const SwCutPiece *piece)
{
  if (d->drawing->mark != NULL)
    return d->drawing->mark (d->drawing->plan, piece, d->drawing->data);
  return g_strdup (g_array_index (d->drawing->plan->task->items, SwCutItem, piece->item).mark);
}

/* "A3:  4 × 6000"; of several ways that follow each other "A3–A5:  9 × 6000". */
static char *
way_text (const Drafting *d, guint i, guint n)
{
  const SwCutPlan *plan = d->drawing->plan;
  const char *prefix = d->drawing->prefix != NULL ? d->drawing->prefix : "";
  guint times = 0;
  for (guint k = i; k < i + n; k++)
    times += g_array_index (plan->ways, SwCutWay, k).times;
  g_autofree char *bought = sw_cut_bought_text (plan, g_array_index (plan->ways, SwCutWay, i).stock, times, d->pen->lengths);
  g_autofree char *last = n > 1 ? g_strdup_printf ("–%s%u", prefix, i + n) : g_strdup ("");
  return g_strdup_printf ("%s%u%s:  %s", prefix, i + 1, last, bought);
}

static void
add_box (const Drafting *d, SwBox box, const SwFill *fill)
{
  SwStroke edge = sw_pen_stroke (d->pen, 0.35, SW_DASH_SOLID);
  sw_display_add_box (d->pen->display, box, fill, &edge);
}

/* One or two lines in the middle of a box, upright or turned as they fit; else the first alone; else nothing.
 */
static void
add_letters (const Drafting *d, SwBox box, const char *first, const char *second)
{
  SwPoint middle = sw_point_lerp (box.low, box.high, 0.5), size = sw_point_sub (box.high, box.low);
  const char *lines[2]
      = { first != NULL && *first != '\0' ? first : second, first != NULL && *first != '\0' ? second : NULL };
  for (guint n = lines[1] != NULL ? 2 : 1; n > 0; n--)
    {
      double wide = 1.5, high = n * LINE_MM - 0.8;
      for (guint i = 0; i < n; i++)
        wide = fmax (wide, sw_pen_text_width (d->pen, lines[i], sw_pen_letters (d->pen)) + 1.2);
      gboolean level = wide <= size.x && high <= size.y;
      if (!level && !(wide <= size.y && high <= size.x))
        continue;
      for (guint i = 0; i < n; i++)
        {
          double off = ((n - 1) / 2.0 - i) * LINE_MM;
          SwPoint at = level ? (SwPoint){ middle.x, middle.y + off } : (SwPoint){ middle.x - off, middle.y };
          SwPenText how = { .turn = level ? 0 : G_PI_2,
                            .align = SW_ALIGN_MIDDLE,
                            .rise = SW_RISE_MIDDLE,
                            .bold = i == 0 && n == 2 };
          sw_pen_add_text (d->pen, at, lines[i], &how);
        }
      return;
    }
}

static const SwFill waste = { .role = SW_ROLE_FAINT_INK, .hatching = SW_HATCHING_WIDE };

/* ---- lengths ---- */

static gboolean
are_alike (const SwCutPlan *plan, const SwCutWay *a, const SwCutWay *b)
{
  if (a->stock != b->stock || a->n != b->n)
    return FALSE;
  for (guint k = 0; k < a->n; k++)
    if (g_array_index (plan->pieces, SwCutPiece, a->first + k).length != g_array_index (plan->pieces, SwCutPiece, b->first + k).length)
      return FALSE;
  return TRUE;
}

/* How many ways from i on are cut into the same lengths. */
static guint
count_alike (const SwCutPlan *plan, guint i)
{
  const SwCutWay *ways = (const SwCutWay *) (gpointer) plan->ways->data;
  guint n = 1;
  while (n < MOST_ALIKE && i + n < plan->ways->len && are_alike (plan, &ways[i], &ways[i + n]))
    n++;
  return n;
}

/* "A3: R1 B, R2 N (4×); A4: R5 B, R2 N" in lines as wide as the longest stock, none broken within a mark; NULL for one way alone, and for
 * pieces without marks. */
static GStrv
list_of (const Drafting *d, guint i, guint n, double width)
{
  const SwCutPlan *plan = d->drawing->plan;
  g_autoptr (GString) text = g_string_new (NULL);
  gboolean marked = FALSE;
  for (guint w = i; w < i + n; w++)
    {
      const SwCutWay *way = &g_array_index (plan->ways, SwCutWay, w);
      g_string_append_printf (text, "%s%s%u:" NO_BREAK, w > i ? "; " : "", d->drawing->prefix != NULL ? d->drawing->prefix : "", w + 1);
      for (guint k = way->first; k < way->first + way->n; k++)
        {
          g_autofree char *mark = mark_of (d, &g_array_index (plan->pieces, SwCutPiece, k));
          g_auto (GStrv) words = g_strsplit (mark != NULL ? mark : "", " ", -1);
          g_autofree char *whole = g_strjoinv (NO_BREAK, words);
          marked = marked || *whole != '\0';
          g_string_append_printf (text, "%s%s", k > way->first ? ", " : "", whole);
        }
      if (way->times > 1)
        g_string_append_printf (text, NO_BREAK "(%u×)", way->times);
    }
  return n > 1 && marked ? sw_paragraph_wrap (d->pen, text->str, width, FALSE) : NULL;
}

static void
draw_length_piece (const Drafting *d, const SwCutPiece *piece, SwPoint origin, gboolean with_mark)
{
  static const SwFill wood = { .role = SW_ROLE_BOARD };
  g_autofree char *mark = with_mark ? mark_of (d, piece) : NULL;
  double left = origin.x + (double) piece->x * d->per_unit,
         right = left + (double) piece->length * d->per_unit;
  SwBox box = { { left, origin.y }, { right, origin.y + BAR_MM } };
  add_box (d, box, &wood);
  g_autofree char *size = sw_cut_size_text (d->drawing->plan->task, piece->length, piece->width, d->pen->lengths);
  add_letters (d, box, size, NULL);
  if (mark != NULL && *mark != '\0'
      && sw_pen_text_width (d->pen, mark, sw_pen_letters (d->pen)) <= right - left - 0.6)
    sw_pen_add_text (d->pen, (SwPoint){ (left + right) / 2, origin.y - 1.2 }, mark,
                     &(SwPenText){ .align = SW_ALIGN_MIDDLE, .rise = SW_RISE_TOP });
}

/* `n` ways from i on, which are alike, and what is listed of them. */
static void
draw_length (const Drafting *d, guint i, guint n, const GStrv list, SwPoint top_left)
{
  const SwCutPlan *plan = d->drawing->plan;
  const SwCutWay *way = &g_array_index (plan->ways, SwCutWay, i);
  SwPoint origin = { top_left.x + d->left, top_left.y - LINE_MM - BAR_MM };
  g_autofree char *text = way_text (d, i, n);
  gint64 rest = sw_cut_plan_rest (plan, way);
  double end = origin.x + (double) stock_of (d, way)->length * d->per_unit;
  sw_display_begin_group (d->pen->display, &(SwDisplayGroup){ .class_name = "way", .title = text });
  sw_pen_add_fitted_text (d->pen, (SwPoint){ top_left.x, origin.y + BAR_MM / 2 }, text, d->left - 1,
                          &(SwPenText){ .rise = SW_RISE_MIDDLE, .bold = TRUE });
  add_box (d, (SwBox){ origin, { end, origin.y + BAR_MM } }, &waste);
  for (guint k = way->first; k < way->first + way->n; k++)
    draw_length_piece (d, &g_array_index (plan->pieces, SwCutPiece, k), origin, n == 1);
  for (guint k = 0; list != NULL && list[k] != NULL; k++)
    sw_pen_add_text (d->pen, (SwPoint){ origin.x, origin.y - 1.2 - k * LINE_MM }, list[k], &(SwPenText){ .rise = SW_RISE_TOP });
  if (rest > 0)
    {
      gboolean kept = plan->task->keep > 0 && rest >= plan->task->keep;
      g_autofree char *size = sw_cut_size_text (plan->task, rest, 0, d->pen->lengths);
      g_autofree char *left = g_strdup_printf (kept ? _("keep %s") : _("rest %s"), size);
      sw_pen_add_text (d->pen, (SwPoint){ end, origin.y + BAR_MM + 1 }, left,
                       &(SwPenText){ .align = SW_ALIGN_RIGHT, .faint = TRUE });
    }
  sw_display_end (d->pen->display);
}

static guint
draw_lengths (Drafting *d, SwBox area, guint first, double *bottom)
{
  const SwCutPlan *plan = d->drawing->plan;
  gint64 longest = 1;
  for (guint i = 0, n; i < plan->ways->len; i += n)
    {
      n = count_alike (plan, i);
      g_autofree char *text = way_text (d, i, n);
      longest = MAX (longest, stock_of (d, &g_array_index (plan->ways, SwCutWay, i))->length);
      d->left = fmax (d->left, sw_text_meter_width (d->pen->meter, text, sw_pen_letters (d->pen), TRUE) + 2);
    }
  d->left = fmin (d->left, (area.high.x - area.low.x) / 3);
  d->per_unit = (area.high.x - area.low.x - d->left) / (double) longest;
  guint i = first;
  double y = area.high.y;
  while (i < plan->ways->len)
    {
      guint n = count_alike (plan, i);
      g_auto (GStrv) list = list_of (d, i, n, area.high.x - area.low.x - d->left);
      double row = BAR_ROW_MM + (list != NULL ? (g_strv_length (list) - 1) * LINE_MM : 0);
      if (i > first && y - row < area.low.y)
        break;
      draw_length (d, i, n, list, (SwPoint){ area.low.x, y });
      i += n;
      y -= row;
    }
  if (bottom != NULL)
    *bottom = y;
  return i - first;
}

/* ---- sheets ---- */

static void
draw_sheet_piece (const Drafting *d, const SwCutWay *way, const SwCutPiece *piece, SwPoint origin)
{
  static const SwFill board = { .role = SW_ROLE_BOARD };
  const SwCutPlan *plan = d->drawing->plan;
  gboolean sawn = g_array_index (plan->task->items, SwCutItem, piece->item).edges > sw_cut_edges_of (plan, way, piece);
  g_autofree char *name = mark_of (d, piece), *mark = sawn && name != NULL ? g_strconcat (name, " *", NULL) : g_strdup (name),
                  *size = sw_cut_size_text (d->drawing->plan->task, piece->length, piece->width, d->pen->lengths);
  SwPoint low = { origin.x + (double) piece->x * d->per_unit, origin.y + (double) piece->y * d->per_unit };
  SwBox box
      = { low,
          { low.x + (double) piece->length * d->per_unit, low.y + (double) piece->width * d->per_unit } };
  add_box (d, box, &board);
  add_letters (d, box, mark, size);
}

/* A rest to keep, without the hatching of waste. */
static void
draw_offcut (const Drafting *d, const SwCutOffcut *offcut, SwPoint origin)
{
  static const SwFill paper = { .role = SW_ROLE_PAPER };
  g_autofree char *size = sw_cut_size_text (d->drawing->plan->task, offcut->length, offcut->width, d->pen->lengths),
                  *text = g_strdup_printf (_("keep %s"), size);
  SwPoint low = { origin.x + (double) offcut->x * d->per_unit, origin.y + (double) offcut->y * d->per_unit };
  SwBox box = { low, { low.x + (double) offcut->length * d->per_unit, low.y + (double) offcut->width * d->per_unit } };
  add_box (d, box, &paper);
  add_letters (d, box, NULL, text);
}

static void
draw_sheet (const Drafting *d, const SwCutWay *way, guint i, SwPoint top_left)
{
  const SwCutPlan *plan = d->drawing->plan;
  const SwCutStock *stock = stock_of (d, way);
  SwPoint origin = { top_left.x, top_left.y - HEAD_MM - (double) stock->width * d->per_unit };
  SwStroke saw = sw_pen_stroke (d->pen, 0.7, SW_DASH_SOLID);
  g_autofree char *text = way_text (d, i, 1);
  sw_display_begin_group (d->pen->display, &(SwDisplayGroup){ .class_name = "way", .title = text });
  sw_pen_add_text (d->pen, (SwPoint){ top_left.x, top_left.y - HEAD_MM + 1.6 }, text,
                   &(SwPenText){ .bold = TRUE });
  add_box (d,
           (SwBox){ origin,
                    { origin.x + (double) stock->length * d->per_unit,
                      origin.y + (double) stock->width * d->per_unit } },
           &waste);
  for (guint k = way->first; k < way->first + way->n; k++)
    draw_sheet_piece (d, way, &g_array_index (plan->pieces, SwCutPiece, k), origin);
  for (guint k = 0; k < plan->offcuts->len; k++)
    if (g_array_index (plan->offcuts, SwCutOffcut, k).way == i)
      draw_offcut (d, &g_array_index (plan->offcuts, SwCutOffcut, k), origin);
  for (guint k = way->first_line; k < way->first_line + way->n_lines; k++)
    {
      const SwCutLine *line = &g_array_index (plan->lines, SwCutLine, k);
      double at = (double) line->at * d->per_unit, from = (double) line->from * d->per_unit,
             to = (double) line->to * d->per_unit;
      SwPoint a = line->upright ? (SwPoint){ origin.x + at, origin.y + from }
                                : (SwPoint){ origin.x + from, origin.y + at };
      SwPoint b = line->upright ? (SwPoint){ origin.x + at, origin.y + to }
                                : (SwPoint){ origin.x + to, origin.y + at };
      sw_display_add_line (d->pen->display, a, b, &saw);
    }
  sw_display_end (d->pen->display);
}

static void
choose_scale (Drafting *d, SwBox area, double *wide, double *high)
{
  const SwCutPlan *plan = d->drawing->plan;
  double length = 1, width = 1, room = (area.high.x - area.low.x - GAP_MM) / 2,
         height = area.high.y - area.low.y - HEAD_MM;
  guint s = 0;
  for (guint i = 0; i < plan->ways->len; i++)
    {
      const SwCutStock *stock = stock_of (d, &g_array_index (plan->ways, SwCutWay, i));
      length = fmax (length, (double) stock->length / plan->task->per_mm);
      width = fmax (width, (double) stock->width / plan->task->per_mm);
    }
  while (s + 1 < G_N_ELEMENTS (scales) && (length / scales[s] > room || width / scales[s] > height))
    s++;
  d->per_unit = 1 / (scales[s] * plan->task->per_mm);
  *wide = length / scales[s] + GAP_MM;
  *high = width / scales[s] + HEAD_MM + GAP_MM / 2;
}

static guint
draw_sheets (Drafting *d, SwBox area, guint first, double *bottom)
{
  const SwCutPlan *plan = d->drawing->plan;
  double wide, high, y = area.high.y;
  choose_scale (d, area, &wide, &high);
  guint columns = MAX (1, (guint) ((area.high.x - area.low.x + GAP_MM) / wide)), i = first;
  for (; i < plan->ways->len && (i == first || y - high >= area.low.y); y -= high)
    for (guint k = 0; k < columns && i < plan->ways->len; k++, i++)
      draw_sheet (d, &g_array_index (plan->ways, SwCutWay, i), i, (SwPoint){ area.low.x + k * wide, y });
  if (bottom != NULL)
    *bottom = y;
  return i - first;
}

guint
sw_cut_draw_ways (const SwPen *pen, SwBox area, const SwCutDrawing *drawing, guint first, double *bottom)
{
  Drafting d = { pen, drawing, 1, 0 };
  return drawing->plan->task->flat ? draw_sheets (&d, area, first, bottom)
                                   : draw_lengths (&d, area, first, bottom);
}
