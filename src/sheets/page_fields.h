/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>

/* How a plan that is too long for a page is parted into fields along one axis, mm of the job. */

typedef struct
{
  double low, high;
} SwSpan;

/* `most`: what a page holds. `rooms`: SwSpan of each. Where fields begin, ascending, and where the last ends: GArray of double, the
 * caller's. No field is longer than `most`; there are as few as can be, or one more where that cuts through fewer rooms, a hundred at
 * most (then longer than a page); of what cuts as few rooms the most even is taken. */
GArray *sw_page_fields (SwSpan whole, double most, const GArray *rooms);
