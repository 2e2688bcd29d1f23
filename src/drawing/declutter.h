/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "drawing/look.h"

/* Which labels a picture goes without because they would stand on others: of two that meet, the one that
 * matters less, by layer in front, bold letters, their height and the order of painting. Only texts with a
 * rim go; the others keep their place. A label goes because of those that it meets, whether these are seen or
 * not, so that a change reaches no farther than the labels next to it and every tile of a picture answers
 * alike. */
typedef struct _SwDeclutter SwDeclutter;

/* `displays` (n) are sealed and painted over each other in `view`, of which only scale, turn and look count.
 * O(k log k) for k texts. Free with sw_declutter_free. */
SwDeclutter *sw_declutter_new (SwDisplay *const *displays, guint n, const SwDrawView *view);
void sw_declutter_free (SwDeclutter *declutter);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwDeclutter, sw_declutter_free)

/* One bit for each item of a display, set when it goes: what `left_out` of a SwDrawView takes. */
const guint64 *sw_declutter_left_out (const SwDeclutter *declutter, guint display);
