/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "geometry/solid.h"
#include "base/random.h"

/* Random bodies described apart from the solids made of them, so that tests can judge clearances on their own. */

typedef struct
{
  SwSolid solid;
  SwPoint3 points[2 * SW_SOLID_POINTS_MAX]; /* corners of the core; ends of the axis */
  guint n_points;
  double disc, radius;
  SwPoint3 origin, u, v, push; /* prism */
  SwPoint section[SW_SOLID_POINTS_MAX];
  guint n_section;
} Shape;

#define N_MODES 7
/* A pair by mode: 0 anywhere, 1 on a coarse grid, 2 nearly parallel, 3 one origin, 4 far off, 5 thin and long, 6 flat
 * or of no length. */
void shapes_random_pair (SwRandom *random, int mode, Shape *a, Shape *b);
void shape_move (Shape *shape, SwPoint3 by);
/* Largest extent of the body, radius and all, along a unit direction. */
double shape_extent (const Shape *shape, SwPoint3 direction);
/* How far a place is out of the core at most, by the core's own inequalities; ≤ 0 inside. */
double shape_core_excess (const Shape *shape, SwPoint3 place);
/* Least depth found over many directions, each mended as far as it goes: an upper bound that is nearly always the least. */
double shapes_searched_depth (const Shape *a, const Shape *b, int directions);
char *shapes_text (const Shape *a, const Shape *b);
