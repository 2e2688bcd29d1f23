/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "space/deck.h"

/* Where a pointer catches: places (ends of runs, fittings, corners, crossings of grid lines) win over lines (void
 * centres, lanes, grid lines, walls, runs, straight on from the last place), and two lines win over one at their crossing. */
typedef enum
{
  SW_SNAP_NONE,
  SW_SNAP_END,      /* of a run or on it; a fitting, drop-in, light */
  SW_SNAP_CORNER,   /* of an outline, end of a wall */
  SW_SNAP_CROSSING, /* of two lines */
  SW_SNAP_CENTRE,   /* centre line of a void */
  SW_SNAP_LANE,     /* beside it, half way to the rib */
  SW_SNAP_GRID,
  SW_SNAP_WALL,
  SW_SNAP_RUN,
  SW_SNAP_STRAIGHT, /* along or across the voids, or along x or y, from the anchor */
  SW_SNAP_ALLOWED,  /* the nearest place where nothing bars a light: the board finds it */
  SW_N_SNAPS
} SwSnapKind;
#define SW_SNAP_BIT(kind) (1u << (kind))
#define SW_SNAPS_ALL ((1u << SW_N_SNAPS) - 1)

typedef struct
{
  const SwDeck *deck;
  guint kinds;           /* bits */
  double tolerance;      /* mm */
  const SwPoint *anchor; /* NULL for none */
  SwId leave_out;        /* record that is being changed */
} SwSnapQuery;

typedef struct
{
  SwSnapKind kind;
  SwPoint at;
  SwId record; /* what it caught on, 0 for none */
  int part;
  guint n_guides;
  SwPoint guides[2][2]; /* lines to be shown */
} SwSnap;

/* Always gives a place: with SW_SNAP_NONE it is `raw`. O(records + voids of the bay). */
SwSnap sw_snap_find (const SwSnapQuery *query, SwPoint raw);
/* Untranslated: "void centre line". */
const char *sw_snap_label (SwSnapKind kind);
