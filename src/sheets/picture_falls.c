/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Falling pipes of several sizes in one void: a fall is a line from the origin, a size a level at what its socket may lose. */
#include "base/number.h"
#include "drawing/dimension.h"
#include "sheets/pictures.h"
#include "sheets/words.h"
#include <string.h>

#define LEFT_MM 16.0
#define RIGHT_MM 50.0 /* names of the sizes */
#define FOOT_MM 14.0
#define HEAD_MM 6.0
#define EDGE_MM 9.0 /* what a figure needs; nearer to the right it stands at the left of its dot */
#define MOST_SIZES 32
#define STEP_MM 8.0   /* on paper, between lines of the grid at least */

typedef struct { double od, socket, drop; } Size;

typedef struct
{
  const SwPen *pen;
  SwBox plot;            /* on the page */
  double most_m, most_mm; /* at the right, at the top */
  const SwWorking *working;
  Size sizes[MOST_SIZES];
  guint n;
} Falls;

static double
cell (const Falls *falls, guint row, guint column)
{
  return g_array_index (falls->working->cells, double, row * falls->working->n_columns + column);
}

static SwPoint
place (const Falls *falls, double run_m, double lost_mm)
{
  SwPoint size = sw_point_sub (falls->plot.high, falls->plot.low);
  return (SwPoint){ falls->plot.low.x + run_m / falls->most_m * size.x, falls->plot.low.y + lost_mm / falls->most_mm * size.y };
}

/* The rows of a size follow each other; what it may lose is the same at every fall. */
static void
read_sizes (Falls *falls)
{
  for (guint row = 0; row < sw_working_n_rows (falls->working); row++)
    {
      double od = cell (falls, row, 0), fall = cell (falls, row, 2), run = cell (falls, row, 3);
      if (falls->n == 0 || falls->sizes[falls->n - 1].od != od)
        {
          if (falls->n == MOST_SIZES)
            return;
          falls->sizes[falls->n++] = (Size){ od, cell (falls, row, 1), run / fall };
        }
      falls->most_m = fmax (falls->most_m, run / 1000);
      falls->most_mm = fmax (falls->most_mm, run / fall);
    }
}

/* 1, 2 or 5 times a power of ten, so that lines lie at least STEP_MM apart. */
static double
grid_step (double most, double paper_mm)
{
  static const double steps[] = { 1, 2, 5, 10 };
  double least = most * STEP_MM / paper_mm, ten = pow (10, floor (log10 (least)));
  for (guint i = 0; i < G_N_ELEMENTS (steps); i++)
    if (steps[i] * ten >= least - 1e-12)
      return steps[i] * ten;
  return 10 * ten;
}

static void
add_grid_line (const Falls *falls, SwPoint from, SwPoint to, double value, const SwPenText *how, SwPoint text_at)
{
  static const SwStroke faint = { .role = SW_ROLE_GRID, .width = 0.13 };
  char digits[SW_NUMBER_BUF];
  sw_display_add_line (falls->pen->display, from, to, &faint);
  sw_number_write_fixed (value, fabs (value - round (value)) < 1e-6 ? 0 : 1, digits);
  sw_pen_add_text (falls->pen, text_at, digits, how);
}

static void
add_grid (const Falls *falls)
{
  const SwPen *pen = falls->pen;
  SwPoint size = sw_point_sub (falls->plot.high, falls->plot.low), low = falls->plot.low, high = falls->plot.high;
  SwStroke axis = sw_pen_stroke (pen, 0.35, SW_DASH_SOLID);
  gboolean feet = pen->lengths == SW_LENGTHS_FT_IN;
  double foot = feet ? SW_MM_PER_FOOT / 1000 : 1, inch = feet ? SW_MM_PER_INCH : 1, step = grid_step (falls->most_m / foot, size.x) * foot;
  for (double m = 0; m <= falls->most_m + 1e-9; m += step)
    add_grid_line (falls, place (falls, m, 0), place (falls, m, falls->most_mm), m / foot, &(SwPenText){ .align = SW_ALIGN_MIDDLE, .rise = SW_RISE_TOP },
                   sw_point_sub (place (falls, m, 0), (SwPoint){ 0, 1.5 }));
  step = grid_step (falls->most_mm / inch, size.y) * inch;
  for (double mm = step; mm <= falls->most_mm + 1e-9; mm += step)
    add_grid_line (falls, place (falls, 0, mm), place (falls, falls->most_m, mm), mm / inch, &(SwPenText){ .align = SW_ALIGN_RIGHT, .rise = SW_RISE_MIDDLE },
                   sw_point_sub (place (falls, 0, mm), (SwPoint){ 1.5, 0 }));
  sw_display_add_line (pen->display, low, (SwPoint){ high.x, low.y }, &axis);
  sw_display_add_line (pen->display, low, (SwPoint){ low.x, high.y }, &axis);
  sw_pen_add_text (pen, (SwPoint){ high.x, low.y - 6.5 }, feet ? _("length of the run, ft") : _("length of the run, m"), &(SwPenText){ .align = SW_ALIGN_RIGHT, .rise = SW_RISE_TOP });
  sw_pen_add_text (pen, (SwPoint){ low.x - LEFT_MM + 4, high.y + 3 }, feet ? _("height lost, in") : _("height lost, mm"), &(SwPenText){ 0 });
}

/* From the origin to the top, where its name stands. */
static void
add_fall (const Falls *falls, double fall)
{
  static const SwStroke line = { .role = SW_ROLE_WASTE, .width = 0.5 };
  SwPoint to = place (falls, falls->most_mm * fall / 1000, falls->most_mm);
  g_autofree char *name = g_strdup_printf ("1:%g", fall);
  sw_display_add_line (falls->pen->display, falls->plot.low, to, &line);
  sw_pen_add_text (falls->pen, (SwPoint){ to.x, to.y + 1 }, name, &(SwPenText){ .align = SW_ALIGN_MIDDLE, .halo = TRUE, .bold = TRUE });
}

static void
add_falls (const Falls *falls)
{
  for (guint row = 0; row < sw_working_n_rows (falls->working); row++)
    {
      gboolean seen = FALSE;
      for (guint before = 0; before < row && !seen; before++)
        seen = cell (falls, before, 2) == cell (falls, row, 2);
      if (!seen)
        add_fall (falls, cell (falls, row, 2));
    }
}

/* Names at the right keep apart: each at its level, or below the one above. */
static void
add_sizes (const Falls *falls)
{
  static const SwStroke level = { .role = SW_ROLE_CONCRETE_EDGE, .width = 0.25, .dash = SW_DASH_HIDDEN };
  double lowest = INFINITY, row_mm = 1.5 * sw_pen_letters (falls->pen);
  for (guint i = 0; i < falls->n; i++)
    {
      const Size *size = &falls->sizes[i];
      SwPoint to = place (falls, falls->most_m, fmax (size->drop, 0));
      char od[SW_LENGTH_BUF], socket[SW_LENGTH_BUF], drop[SW_LENGTH_BUF];
      SwLengths lengths = falls->pen->lengths;
      sw_length_write (size->od, lengths, SW_LENGTH_BARE, 0, od);
      sw_length_write (size->socket, lengths, SW_LENGTH_BARE, 0, socket);
      g_autofree char *name = size->drop > 0
                                ? g_strdup_printf (_("%s, socket %s: %s"), od, socket, sw_length_write (size->drop, lengths, SW_LENGTH_UNIT, 0, drop))
                                : g_strdup_printf (_("%s, socket %s: no room"), od, socket);
      if (size->drop > 0)
        sw_display_add_line (falls->pen->display, place (falls, 0, size->drop), to, &level);
      lowest = fmin (to.y, lowest - row_mm);
      sw_pen_add_text (falls->pen, (SwPoint){ to.x + 2, lowest }, name, &(SwPenText){ .rise = SW_RISE_MIDDLE });
    }
}

/* The longest runs, where a fall's line meets a size's level; figures that would run into the one before stay in the table. */
static void
add_runs (const Falls *falls)
{
  SwPoint before = { -INFINITY, -INFINITY };
  static const SwFill dot = { .role = SW_ROLE_STOP };
  char digits[SW_NUMBER_BUF];
  for (guint row = 0; row < sw_working_n_rows (falls->working); row++)
    {
      double run = cell (falls, row, 3), fall = cell (falls, row, 2);
      SwPoint at = place (falls, run / 1000, run / fall);
      if (run <= 0)
        continue;
      sw_display_add_circle (falls->pen->display, at, 0.8, &dot, NULL);
      sw_number_write_fixed (run / (falls->pen->lengths == SW_LENGTHS_FT_IN ? SW_MM_PER_FOOT : 1000), 1, digits);
      if (at.y == before.y && at.x - before.x < EDGE_MM)
        continue;
      before = at;
      gboolean edge = at.x > falls->plot.high.x - EDGE_MM;
      sw_pen_add_text (falls->pen, (SwPoint){ at.x + (edge ? -0.5 : 1), at.y - 1.2 }, digits,
                       &(SwPenText){ .align = edge ? SW_ALIGN_RIGHT : SW_ALIGN_LEFT, .rise = SW_RISE_TOP, .halo = TRUE });
    }
}

static void
add_end (const Falls *falls, double end_mm)
{
  static const SwStroke line = { .role = SW_ROLE_CLOSURE, .width = 0.5, .dash = SW_DASH_CENTRE };
  if (!(end_mm > 0) || end_mm / 1000 > falls->most_m)
    return;
  SwPoint foot = place (falls, end_mm / 1000, 0), head = place (falls, end_mm / 1000, falls->most_mm);
  sw_display_add_line (falls->pen->display, foot, head, &line);
  sw_pen_add_text (falls->pen, (SwPoint){ foot.x - 1, foot.y + 2 }, _("the void ends"), &(SwPenText){ .turn = G_PI / 2, .halo = TRUE });
}

void
sw_picture_add_falls (const SwPen *pen, SwBox box, const SwWorking *working, double end_mm)
{
  Falls falls = { .pen = pen, .working = working };
  falls.plot = (SwBox){ { box.low.x + LEFT_MM, box.low.y + FOOT_MM }, { box.high.x - RIGHT_MM, box.high.y - HEAD_MM } };
  read_sizes (&falls);
  if (!(falls.most_m > 0))
    {
      sw_pen_add_text (pen, (SwPoint){ box.low.x + LEFT_MM, box.high.y - HEAD_MM }, _("No size of the table has room for a socket in this void."), &(SwPenText){ .rise = SW_RISE_TOP });
      return;
    }
  falls.most_m *= 1.1;
  falls.most_mm *= 1.08;
  add_grid (&falls);
  add_end (&falls, end_mm);
  add_sizes (&falls);
  add_falls (&falls);
  add_runs (&falls);
}

/* ---- pictures of answers */

static double
value_of (const SwWorking *working, const char *symbol)
{
  const SwWorkingLine *line = sw_working_find (working, symbol);
  return line != NULL ? line->value : 0;
}

/* Section, clearances and places as the question "fit" writes them. */
static void
add_fit (const SwPen *pen, SwBox box, const SwWorking *working)
{
  SwPackCase pack = { .mouth = value_of (working, "M"), .crown = value_of (working, "C"), .depth = value_of (working, "h"), .side = value_of (working, "s"),
                      .top = value_of (working, "c"), .bottom = value_of (working, "b"), .between = value_of (working, "t") };
  guint n = sw_working_n_rows (working);
  g_autofree SwPictureTube *tubes = g_new0 (SwPictureTube, MAX (n, 1));
  for (guint i = 0; i < n; i++)
    {
      const double *cells = &g_array_index (working->cells, double, i * working->n_columns);
      tubes[i] = (SwPictureTube){ { cells[1] / 2, { cells[2], cells[3] } }, cells[0], NULL, SW_ROLE_WASTE };
    }
  sw_picture_add_packing (pen, box, &(SwPicturePacking){ &pack, tubes, n });
}

SwDisplay *
sw_picture_of_answer (const SwQuestion *question, const SwWorking *working, SwPage *page)
{
  gboolean falls = strcmp (question->id, "fall-table") == 0, fits = strcmp (question->id, "fit") == 0;
  if (working->columns == NULL || (!falls && !fits))
    return NULL;
  *page = (SwPage){ .paper = SW_PAPER_A4, .title = _(question->title) };
  g_autoptr (SwTextMeter) meter = sw_text_meter_new ();
  SwDisplay *display = sw_display_new ();
  SwPen pen = sw_pen_new (display, meter, 1);
  SwPoint size = sw_page_size (page);
  SwBox box = { { 8, 8 }, { size.x - 8, size.y - 16 } };
  sw_pen_add_text (&pen, (SwPoint){ 12, size.y - 8 }, _(question->title), &(SwPenText){ .height_mm = 3.5, .rise = SW_RISE_TOP, .bold = TRUE });
  if (falls)
    sw_picture_add_falls (&pen, box, working, NAN);
  else
    add_fit (&pen, box, working);
  sw_display_seal (display);
  return display;
}
