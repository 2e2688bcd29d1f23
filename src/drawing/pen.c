/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/pen.h"

SwPen
sw_pen_new (SwDisplay *display, SwTextMeter *meter, double unit)
{
  return (SwPen){ display, meter, unit, SW_LETTERS_LEAST_MM, SW_ROLE_INK };
}

double
sw_pen_letters (const SwPen *pen)
{
  return MAX (pen->letters, SW_LETTERS_LEAST_MM);
}

SwStroke
sw_pen_stroke (const SwPen *pen, double width_mm, SwDash dash)
{
  return (SwStroke){ pen->role, width_mm * pen->unit, SW_SIZE_WORLD, dash };
}

static double
height_of (const SwPen *pen, double height_mm)
{
  return MAX (height_mm, sw_pen_letters (pen)) * pen->unit;
}

double
sw_pen_text_width (const SwPen *pen, const char *text, double height_mm)
{
  return sw_text_meter_width (pen->meter, text, height_of (pen, height_mm), FALSE);
}

void
sw_pen_add_text (const SwPen *pen, SwPoint at, const char *text, const SwPenText *how)
{
  SwTextStyle style = { how->faint ? SW_ROLE_FAINT_INK : pen->role, height_of (pen, how->height_mm), SW_SIZE_WORLD,
                        how->align, how->rise, how->turn, how->halo, how->bold };
  sw_display_add_text (pen->display, at, text, &style);
}

void
sw_pen_add_fitted_text (const SwPen *pen, SwPoint at, const char *text, double width, const SwPenText *how)
{
  if (text == NULL)
    return;
  g_autofree char *fitted = sw_text_meter_shorten (pen->meter, text, height_of (pen, how->height_mm), how->bold, width);
  sw_pen_add_text (pen, at, fitted, how);
}
