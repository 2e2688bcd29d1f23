/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/tools/picture.h"

/* Whether what is being drawn fits: the same bodies and clearances that the checks use, asked for a few drafts only. */
typedef struct
{
  SwPoint at;
  double missing; /* mm that are short, > 0 */
  SwId draft, with; /* what it is of, what it meets (0: the deck) */
  int kind;       /* SwBodyKind of what it meets */
} SwShortfall;

/* Appends to `shortfalls` (GArray of SwShortfall), the largest first. Records in the job with a draft's id are left out. */
void sw_judge_drafts (const SwPicture *picture, const GPtrArray *drafts, GArray *shortfalls);
/* "rib", "stiffener plate": what a draft meets, untranslated. */
const char *sw_judge_kind_label (int kind);
