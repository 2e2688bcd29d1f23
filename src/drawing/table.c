/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/table.h"

#define LINE_MM 0.25
#define EDGE_MM 0.5
#define PAD_MM 1.2
#define VALUE_MM 3.5

static void
add_frame (const SwPen *pen, SwBox box, double width_mm)
{
  SwStroke line = sw_pen_stroke (pen, width_mm, SW_DASH_SOLID);
  sw_display_add_box (pen->display, box, NULL, &line);
}

static double
value_height (const SwPen *pen)
{
  return MAX (VALUE_MM, sw_pen_letters (pen));
}

static double
row_height (const SwPen *pen, const SwCellRow *row)
{
  double least = 4 * PAD_MM + sw_pen_letters (pen) + value_height (pen);
  return (row->height_mm > 0 ? row->height_mm : least) * pen->unit;
}

static void
add_cell (const SwPen *pen, SwBox box, const SwCell *cell)
{
  double pad = PAD_MM * pen->unit, room = box.high.x - box.low.x - 2 * pad;
  add_frame (pen, box, LINE_MM);
  sw_pen_add_fitted_text (pen, (SwPoint){ box.low.x + pad, box.high.y - pad }, cell->label, room,
                          &(SwPenText){ .rise = SW_RISE_TOP, .faint = TRUE });
  /* Smaller letters first, "…" only when those do not do either. */
  double wide = cell->value != NULL ? sw_pen_text_width (pen, cell->value, VALUE_MM) : 0;
  double height = wide > room ? MAX (VALUE_MM * room / wide, sw_pen_letters (pen)) : VALUE_MM;
  sw_pen_add_fitted_text (pen, (SwPoint){ box.low.x + pad, box.low.y + 1.5 * pad }, cell->value, room, &(SwPenText){ .height_mm = height });
}

static void
add_cells (const SwPen *pen, SwBox box, const SwCellRow *row)
{
  double total = 0, x = box.low.x, width = box.high.x - box.low.x;
  for (gsize i = 0; i < row->n; i++)
    total += MAX (row->cells[i].share, 0);
  for (gsize i = 0; i < row->n; i++)
    {
      double share = total > 0 ? MAX (row->cells[i].share, 0) / total : 1.0 / row->n;
      add_cell (pen, (SwBox){ { x, box.low.y }, { x + share * width, box.high.y } }, &row->cells[i]);
      x += share * width;
    }
}

SwBox
sw_table_add_title_block (const SwPen *pen, SwPoint corner, double width_mm, const SwCellRow *rows, gsize n)
{
  SwBox box = { { corner.x - width_mm * pen->unit, corner.y }, corner };
  for (gsize i = 0; i < n; i++)
    box.high.y += row_height (pen, &rows[i]);
  double y = box.high.y;
  for (gsize i = 0; i < n; i++)
    {
      double height = row_height (pen, &rows[i]);
      add_cells (pen, (SwBox){ { box.low.x, y - height }, { box.high.x, y } }, &rows[i]);
      y -= height;
    }
  add_frame (pen, box, EDGE_MM);
  return box;
}

typedef struct
{
  const SwPen *pen;
  const SwTableColumn *columns;
  gsize n_columns;
  const double *widths; /* coordinates in use */
  double row;
} Schedule;

static void
measure_columns (const SwPen *pen, const SwTableColumn *columns, gsize n_columns, const char *const *texts, gsize n_rows, double *widths)
{
  for (gsize c = 0; c < n_columns; c++)
    {
      double widest = sw_text_meter_width (pen->meter, columns[c].heading, sw_pen_letters (pen) * pen->unit, TRUE);
      for (gsize r = 0; r < n_rows && columns[c].width_mm <= 0; r++)
        if (texts[r * n_columns + c] != NULL)
          widest = MAX (widest, sw_pen_text_width (pen, texts[r * n_columns + c], 0));
      widths[c] = columns[c].width_mm > 0 ? columns[c].width_mm * pen->unit : widest + 2 * PAD_MM * pen->unit;
    }
}

static void
add_schedule_row (const Schedule *s, SwPoint top_left, const char *const *texts, gboolean bold)
{
  double x = top_left.x, pad = PAD_MM * s->pen->unit, y = top_left.y - s->row / 2;
  for (gsize c = 0; c < s->n_columns; x += s->widths[c++])
    {
      SwTextAlign align = s->columns[c].align;
      SwPoint at = { x + pad + (s->widths[c] - 2 * pad) * (align / 2.0), y };
      /* A hair of room, so that a column as wide as its widest text holds it. */
      sw_pen_add_fitted_text (s->pen, at, texts[c], s->widths[c] - 2 * pad + 1e-6 * s->pen->unit,
                              &(SwPenText){ .align = align, .rise = SW_RISE_MIDDLE, .bold = bold });
    }
}

static void
add_schedule_lines (const Schedule *s, SwBox box, gsize n_shown)
{
  SwStroke thin = sw_pen_stroke (s->pen, 0.18, SW_DASH_SOLID), line = sw_pen_stroke (s->pen, LINE_MM, SW_DASH_SOLID);
  double x = box.low.x;
  for (gsize r = 0; r < n_shown; r++)
    {
      double y = box.high.y - (double) (r + 1) * s->row;
      sw_display_add_line (s->pen->display, (SwPoint){ box.low.x, y }, (SwPoint){ box.high.x, y }, r == 0 ? &line : &thin);
    }
  for (gsize c = 0; c + 1 < s->n_columns; c++)
    {
      x += s->widths[c];
      sw_display_add_line (s->pen->display, (SwPoint){ x, box.low.y }, (SwPoint){ x, box.high.y }, &thin);
    }
  add_frame (s->pen, box, EDGE_MM);
}

SwBox
sw_table_add_schedule (const SwPen *pen, SwPoint top_left, double height_mm, const SwTableColumn *columns, gsize n_columns,
                       const char *const *texts, gsize n_rows, gsize *n_shown)
{
  g_autofree double *widths = g_new0 (double, n_columns + 1);
  g_autofree const char **headings = g_new0 (const char *, n_columns + 1);
  Schedule s = { pen, columns, n_columns, widths, (sw_pen_letters (pen) + 2 * PAD_MM) * pen->unit };
  double rows_in = floor (height_mm * pen->unit / s.row + 1e-9) - 1;
  gsize shown = rows_in >= (double) n_rows ? n_rows : rows_in > 0 ? (gsize) rows_in : 0;
  measure_columns (pen, columns, n_columns, texts, n_rows, widths);
  SwBox box = { { top_left.x, top_left.y - s.row * (double) (shown + 1) }, top_left };
  for (gsize c = 0; c < n_columns; c++)
    {
      box.high.x += widths[c];
      headings[c] = columns[c].heading;
    }
  add_schedule_row (&s, top_left, headings, TRUE);
  for (gsize r = 0; r < shown; r++)
    add_schedule_row (&s, (SwPoint){ top_left.x, top_left.y - s.row * (double) (r + 1) }, texts + r * n_columns, FALSE);
  add_schedule_lines (&s, box, shown);
  if (n_shown != NULL)
    *n_shown = shown;
  return box;
}
