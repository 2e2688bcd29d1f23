/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "geometry/point.h"

/* Inside the layer: which of n boxes meet a box. Immutable once made; 32 bytes a box and as much a node. */
typedef struct _SwIndex SwIndex;
SwIndex *sw_index_new (const SwBox3 *boxes, guint n);
void sw_index_free (SwIndex *index);
/* Calls `each` with the number of every box that meets `box` (to single precision, rounded outward); stop with FALSE. */
void sw_index_query (const SwIndex *index, SwBox3 box, gboolean (*each) (guint i, gpointer data), gpointer data);
