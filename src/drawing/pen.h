/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "base/length.h"
#include "drawing/text.h"

/* What the helpers in dimension.h, furniture.h and table.h draw with. Sizes are mm on paper; they are put into the
 * display in its own coordinates, so that signs and letters stay together at every zoom. */
typedef struct
{
  SwDisplay *display;
  SwTextMeter *meter;
  double unit;       /* mm of the coordinates in use for 1 mm on paper: 1 on a page, 50 in a plan at 1:50 */
  double letters;    /* height of capitals; less than SW_LETTERS_LEAST_MM counts as that */
  SwColourRole role; /* lines and letters */
  SwLengths lengths; /* of what dimensions and scale bars write; mm in a new pen */
} SwPen;

/* What can be read on a building site at arm's length (ISO 3098 size, common practice on A3 prints). */
#define SW_LETTERS_LEAST_MM 2.5

/* A pen for the coordinates that the display uses at present. */
SwPen sw_pen_new (SwDisplay *display, SwTextMeter *meter, double unit);
double sw_pen_letters (const SwPen *pen);
SwStroke sw_pen_stroke (const SwPen *pen, double width_mm, SwDash dash);
/* Width in the coordinates in use. */
double sw_pen_text_width (const SwPen *pen, const char *text, double height_mm);

typedef struct
{
  double height_mm; /* 0 = the pen's letters */
  double turn;
  SwTextAlign align;
  SwTextRise rise;
  gboolean halo, bold, faint;
} SwPenText;

void sw_pen_add_text (const SwPen *pen, SwPoint at, const char *text, const SwPenText *how);
/* Like sw_pen_add_text, shortened with "…" to `width` of the coordinates in use. */
void sw_pen_add_fitted_text (const SwPen *pen, SwPoint at, const char *text, double width, const SwPenText *how);
