/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "sheets/plan.h"

/* Inside the plan's drawing: one function a family of things. */

#define SW_LETTERS_MM 2.5 /* of capitals on paper: readable on site */

/* Opens a group for a record; sw_display_end closes it. */
void sw_plan_begin (SwDisplay *display, const SwRecord *record, int part, const char *class_name);
/* The same for a run: its title has its size. */
void sw_plan_begin_run (SwDisplay *display, const SwRun *run, SwLengths lengths, const char *class_name);
void sw_plan_label (SwDisplay *display, SwPoint at, const char *text, SwColourRole role, double height, double turn);
/* A rectangle about a middle, turned. */
void sw_plan_box_points (SwPoint at, double length, double width, double turn_deg, SwPoint out[4]);
/* Angle of a direction such that text along it reads from left to right looking down. */
double sw_plan_text_turn (SwPoint direction);

void sw_plan_draw_bays (SwDisplay *display, const SwDeck *deck);
void sw_plan_draw_rooms (SwDisplay *display, const SwDeck *deck);
void sw_plan_draw_bulkheads (SwDisplay *display, const SwDeck *deck);
void sw_plan_draw_structure (SwDisplay *display, const SwDeck *deck);
void sw_plan_draw_columns (SwDisplay *display, const SwDeck *deck);
void sw_plan_draw_walls (SwDisplay *display, const SwDeck *deck);
void sw_plan_draw_pipes (SwDisplay *display, const SwDeck *deck);
void sw_plan_draw_conduits (SwDisplay *display, const SwDeck *deck);
void sw_plan_draw_battens (SwDisplay *display, const SwDeck *deck);
void sw_plan_draw_boards (SwDisplay *display, const SwDeck *deck);
void sw_plan_draw_lights (SwDisplay *display, const SwDeck *deck);
void sw_plan_draw_hatches (SwDisplay *display, const SwDeck *deck);
void sw_plan_draw_grid (SwDisplay *display, const SwDeck *deck);
void sw_plan_draw_measures (SwDisplay *display, const SwDeck *deck);
