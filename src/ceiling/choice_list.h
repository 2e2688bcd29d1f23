/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "ceiling/choices.h"

/* Inside the search for alternatives. */

void sw_ceiling_choice_free (gpointer choice);
/* Of pointers to choices: the better first. A total order. */
int sw_ceiling_choice_compare (gconstpointer a, gconstpointer b);
/* The best first, no two alike, none that lets go of locked pieces which another keeps, at most `most`. */
void sw_ceiling_choices_settle (GPtrArray *choices, guint most);
