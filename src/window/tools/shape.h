/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "drawing/display.h"
#include "job/job.h"
#include "space/deck.h"

/* The bare shape of any record in plan, for what is picked, under the pointer or being changed. */

typedef struct
{
  SwColourRole role;
  double width_px;
  gboolean filled; /* areas get a light tint */
} SwShapeLook;

void sw_shape_draw (SwDisplay *live, const SwJob *job, const SwRecord *record, const SwShapeLook *look);
/* Its places as small squares; `part` (1 …) is filled. */
void sw_shape_draw_handles (SwDisplay *live, const SwRecord *record, int part);
void sw_shape_draw_cross (SwDisplay *live, SwPoint at, double mm_per_px, SwColourRole role);
/* Where a record stands: the middle of its places, a drop's place on its wall, a plate's in its void, a layout's room. `deck` may
 * be NULL: plates then have no place. FALSE when it has none (a circuit, a profile), and *at is then untouched. */
gboolean sw_shape_place (const SwJob *job, const SwDeck *deck, const SwRecord *record, SwPoint *at);
