/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>

/* The best guess at what somebody meant to write. */
typedef struct
{
  const char *word, *best; /* borrowed */
  guint distance;          /* of the best, in letters typed wrong, left out, added or swapped with a neighbour */
} SwNearest;

/* Starts with words that are too far off to be meant. */
SwNearest sw_nearest_new (const char *word);
/* Offers one candidate; the first of several equally near ones stays. O(product of the lengths), 0 for texts over 80 bytes. */
void sw_nearest_offer (SwNearest *nearest, const char *candidate);
/* `; did you mean "deep"?`, or "" when nothing is near. Free with g_free. */
char *sw_nearest_hint (const SwNearest *nearest);
