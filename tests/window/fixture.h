/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "support.h"
#include "window/tools/board.h"

/* A board over a small deck, with pictures made at once instead of by a worker. */
typedef struct
{
  SwDesk *desk;
  SwBoard *board;
} Fixture;

/* A bay of 9 × 6 m, profile 600/500/400/250, voids along x: void i (from 0) has its middle at y = 600 (i + 1), rib faces
 * at ± 50 of y = 300 + 600 i; closures 150 from both ends, plates from x = 1650 every 1500. A room below all of it, a wall
 * along y = 0, a box F1 at (3000, 1200), grid lines A (x = 0), 1 (y = 0). */
void fixture_set_up (Fixture *fixture, gconstpointer more);
void fixture_tear_down (Fixture *fixture, gconstpointer more);
/* After each edit: what the worker does in the window. */
void fixture_look (Fixture *fixture);

void fixture_move (Fixture *fixture, double x, double y);
void fixture_click (Fixture *fixture, double x, double y);
void fixture_drag (Fixture *fixture, double x0, double y0, double x1, double y1);
void fixture_type (Fixture *fixture, const char *text);
/* The only record of its table, or the last one. */
const SwRecord *fixture_last (Fixture *fixture, SwTable table);
guint fixture_count (Fixture *fixture, SwTable table);
