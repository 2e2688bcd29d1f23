/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "drawing/page.h"
#include "drawing/pen.h"
#include "rules/question.h"
#include "space/packing.h"

/* Pictures of what was reckoned: tubes in the section of a void, and how far falling pipes run in it. They are drawn into a box
 * of a page, in mm, with a pen of unit 1. */

/* A tube of the section. Sloping runs come as several under one name. */
typedef struct
{
  SwPackTube tube;
  double size;        /* without socket and insulation; 0: as wide as the tube */
  const char *name;   /* mark of a run that hangs there already; NULL: one that was asked for */
  SwColourRole role;
} SwPictureTube;

typedef struct
{
  const SwPackCase *pack;      /* its `fixed` are not looked at: they come as tubes with a name */
  const SwPictureTube *tubes;  /* those with a place that is not finite are not drawn */
  guint n;
} SwPicturePacking;

/* The section to scale with widths and depth, the tubes, and the two least gaps of each that was asked for, in mm. */
void sw_picture_add_packing (const SwPen *pen, SwBox box, const SwPicturePacking *picture);

/* Height lost over length run: a line a fall, a level a size where its socket meets the soffit, and the run where they cross.
 * `working` answers the question "fall-table"; `end_mm`: where the void ends, or NAN. */
void sw_picture_add_falls (const SwPen *pen, SwBox box, const SwWorking *working, double end_mm);

/* "110,2x25" into tubes as wide as their sockets of the rule set, and their sizes as they were written: room for SW_PACK_MOST of
 * both. SW_ERROR_INVALID says what is wrong. */
gboolean sw_picture_read_tubes (const SwRules *rules, const char *text, SwPackTube *tubes, double *sizes, guint *n, GError **error);
/* "they fit" …, to be translated. */
const char *sw_picture_packing_word (SwPackResult result);

/* The picture that belongs to an answer, on a bare page; sealed, the caller's. NULL for a question without one. */
SwDisplay *sw_picture_of_answer (const SwQuestion *question, const SwWorking *working, SwPage *page);
