/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "job/record.h"

/* The places of any record, found from its table of fields: corners of an outline, vertices of a run, ends of a wall, the
 * middle of a light. Part 0 is the whole record, part i + 1 its place i. */

guint sw_parts_count (const SwRecord *record);
SwPoint sw_parts_get (const SwRecord *record, guint i);
/* For a record that is not yet in a job. */
void sw_parts_set (SwRecord *record, guint i, SwPoint to);
/* The list that the places stand in when there is one (outline, vertices), else NULL. Its places come last. */
const SwField *sw_parts_list (const SwRecord *record);
/* Whether the places form a closed ring, an open way, or stand alone. */
typedef enum { SW_PARTS_ALONE, SW_PARTS_WAY, SW_PARTS_RING } SwPartsForm;
SwPartsForm sw_parts_form (const SwRecord *record);
/* Puts a place between i and i + 1 of a way or ring; a run's new vertex takes the level of the one before. FALSE when
 * the record holds no list. */
gboolean sw_parts_insert (SwRecord *record, guint i, SwPoint at);
/* FALSE when too few would be left. */
gboolean sw_parts_remove (SwRecord *record, guint i);
