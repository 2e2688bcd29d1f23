/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "geometry/point.h"

/* Which of many boxes are near: an index over items 0 … n − 1, immutable and reference-counted, so that any number of
 * threads may read it. About 32 bytes an item. Boxes are kept in single precision, rounded outward (by at most 0.004 mm
 * at 50 m from the datum, 1 mm at 10 km): an item may be reported that is that much away, none is missed. Empty boxes
 * stand for items that are not there. The same boxes give the same results in the same order. */

typedef struct _SwNeighbours SwNeighbours;

/* O(n log n). `boxes` are not kept. Free with sw_neighbours_unref. */
SwNeighbours *sw_neighbours_new (const SwBox3 *boxes, guint n);
SwNeighbours *sw_neighbours_ref (SwNeighbours *index);
void sw_neighbours_unref (SwNeighbours *index);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwNeighbours, sw_neighbours_unref)

guint sw_neighbours_count (const SwNeighbours *index);
gsize sw_neighbours_bytes (const SwNeighbours *index);

typedef struct
{
  guint32 item; /* at count or beyond: a new one */
  SwBox3 box;   /* empty: gone */
} SwNeighbourChange;

/* A new index with some boxes replaced; the last change of an item counts. Changes stand in a side list that shares the
 * old one's tree, O(changes + list), and the tree is built afresh when the list passes 64 + n / 64. */
SwNeighbours *sw_neighbours_with (const SwNeighbours *index, const SwNeighbourChange *changes, guint n_changes);

/* Returning FALSE ends the search. */
typedef gboolean (*SwNeighbourFound) (guint32 item, gpointer data);
/* Calls `found` for each item whose box meets `box` (touching counts), in no particular but a fixed order. FALSE when
 * `found` ended it. O(log n + found) for boxes that are not crowded. */
gboolean sw_neighbours_query (const SwNeighbours *index, SwBox3 box, SwNeighbourFound found, gpointer data);
/* The same, appended to `items` (GArray of guint32) in ascending order. */
void sw_neighbours_find (const SwNeighbours *index, SwBox3 box, GArray *items);

typedef struct { guint32 first, second; } SwPair;

/* All pairs of items whose boxes come within `grow` (≥ 0, mm) of each other along every axis: GArray of SwPair with
 * first < second, ascending by first, then second. The caller owns it. O(n log n + pairs). */
GArray *sw_neighbours_pairs (const SwNeighbours *index, double grow);
/* The same pairs one by one, in no particular but a fixed order, without a list. FALSE when `found` ended it. */
typedef gboolean (*SwNeighbourPair) (guint32 first, guint32 second, gpointer data);
gboolean sw_neighbours_each_pair (const SwNeighbours *index, double grow, SwNeighbourPair found, gpointer data);
/* The same for items of classes: two of them make a pair when they come within what their classes reach, and the search looks no
 * farther. */
typedef struct
{
  const guint8 *of;   /* class of every item */
  guint n;            /* classes */
  const float *reach; /* n × n, mm: what reach[a × n + b] says, [b × n + a] says too; negative: no pairs of these */
} SwNeighbourClasses;
gboolean sw_neighbours_each_pair_of (const SwNeighbours *index, const SwNeighbourClasses *classes, SwNeighbourPair found, gpointer data);
/* The same between two sets: first is an item of a, second of b. */
GArray *sw_neighbours_pairs_between (const SwNeighbours *a, const SwNeighbours *b, double grow);

/* The item whose box is nearest to a place (0 inside), among those that `accept` (may be NULL) takes; of equally near
 * ones the lowest. FALSE when there is none. `distance` may be NULL. */
gboolean sw_neighbours_nearest (const SwNeighbours *index, SwPoint3 place, SwNeighbourFound accept, gpointer data,
                                guint32 *item, double *distance);
