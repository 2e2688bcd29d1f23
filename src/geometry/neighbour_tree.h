/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "geometry/neighbour.h"
#include "geometry/neighbour_box.h"

/* What neighbour.c and neighbour_pairs.c share; not for other layers. */

#define LEVELS 12 /* 8¹¹ > 2³² */
#define NOBODY G_MAXUINT32

typedef struct
{
  gatomicrefcount refs;
  guint n, n_levels;
  guint first[LEVELS + 1]; /* block of each level, lowest level first; the last level has one block */
  Block *blocks;
  guint32 *items; /* of the lowest level's children; NOBODY beyond n */
} Tree;

typedef struct
{
  guint32 item;
  Box box;
} Side;

struct _SwNeighbours
{
  gatomicrefcount refs;
  guint n, n_side;
  Tree *tree;
  guint32 *moved; /* bit i: item i of the tree has moved to the side list; NULL when none has */
  Side *side;     /* ascending by item */
};

static inline gboolean
has_moved (const SwNeighbours *index, guint32 item)
{
  return index->moved && index->moved[item / 32] >> (item % 32) & 1;
}

#define STACK (FAN * LEVELS)
typedef struct { guint32 level, block; } Node; /* block counted within its level */

/* Items of the tree that have not moved, and of the side list. FALSE when `found` ended it. */
gboolean sw_neighbours_query_box (const SwNeighbours *index, const Box *box, SwNeighbourFound found, gpointer data);
