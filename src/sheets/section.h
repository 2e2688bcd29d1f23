/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "drawing/display.h"
#include "space/space.h"

/* Sections of the deck as displays in mm: across the voids at a place, at true scale, and along a run, pulled straight. Each
 * thing is a group with its table and record as key, as on the plan. */

/* A cut across the voids of one bay at u. Display x is v of the bay's frame, y is z; one looks along the voids, towards
 * higher u, with v to the left turned to x to the right, so the cut is seen from its high-u side. */
typedef struct
{
  const SwDeckBay *bay;
  double u, v;
} SwSectionCut;

/* The cut at a place; FALSE outside all bays. */
gboolean sw_section_cut_at (const SwDeck *deck, SwPoint at, SwSectionCut *cut);
/* What is within the cut: concrete, sheet, plates near it, tubes, fittings, lights, battens, boards, walls and beams, with
 * the clear distances of the void at v. Does not seal. */
void sw_section_draw_across (SwDisplay *display, const SwSpace *space, const SwSectionCut *cut);
/* A place of the cut back in plan. */
SwPoint sw_section_to_plan (const SwSectionCut *cut, double x);
/* What to show: the void at v with its neighbours. */
SwBox sw_section_box_across (const SwDeck *deck, const SwSectionCut *cut);

/* Underside and top of the concrete over a place, z; both the soffit outside all bays. */
void sw_section_concrete_at (const SwDeck *deck, SwPoint at, double *under, double *top);

/* The long section of a run: display x is the distance along it in plan, y is z × `exaggeration`, with inverts, falls, plates
 * and the ceiling. Nothing when the run could not be worked out. */
void sw_section_draw_along (SwDisplay *display, const SwSpace *space, SwId run, double exaggeration);
SwBox sw_section_box_along (const SwSpace *space, SwId run, double exaggeration);
