/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/document.h"
#include "window/tiles.h"

/* Keeps the picture of a job's underlay under the plan: draws the file when it is another, moves the picture when only its
 * place changes. The first underlay that is shown counts. */
typedef struct _SwUnderlays SwUnderlays;

SwUnderlays *sw_underlays_new (SwTiles *tiles);
void sw_underlays_free (SwUnderlays *underlays);
/* Looks at the document's job; NULL: nothing lies under the plan. Call it after each change. */
void sw_underlays_update (SwUnderlays *underlays, SwDocument *document);

/* Draws the file in a helper and puts it into the job as one edit, as wide as `width_mm` until it is scaled; faults are shown
 * by the document. */
void sw_underlays_add (SwDocument *document, GFile *file, double width_mm);
