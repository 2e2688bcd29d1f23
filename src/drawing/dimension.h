/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "drawing/pen.h"

/* Dimensions, levels and arrows. Coordinates in use are mm; values are written in the pen's lengths: whole mm, or feet, inches
 * and sixteenths. */

/* The line on which dimensions stand. */
typedef struct
{
  SwPoint at;   /* any point of it */
  double angle; /* radians */
} SwDimensionLine;

/* The distances between neighbours, measured along the line. Points come in any order; those at one place count once.
 * Each is the difference of rounded positions from the first, so the chain adds up to its overall length. */
void sw_dimension_add_chain (const SwPen *pen, SwDimensionLine line, const SwPoint *points, gsize n);

/* All distances from one datum, as a tape hooked there reads: an open ring at the datum, the values upright at each
 * point. Points behind the datum read negative. */
void sw_dimension_add_running (const SwPen *pen, SwDimensionLine line, SwPoint datum, const SwPoint *points, gsize n);

/* A level: a triangle that stands on its point at `at`, a shelf, and the text on it (to the right). `hanging` turns it
 * over: for undersides. */
void sw_dimension_add_level (const SwPen *pen, SwPoint at, const char *text, gboolean hanging);

/* A line with a slim filled head at `to`. */
void sw_dimension_add_arrow (const SwPen *pen, SwPoint from, SwPoint to);
/* An arrow from a text at `at` to what it speaks of. */
void sw_dimension_add_leader (const SwPen *pen, SwPoint at, SwPoint to, const char *text);
