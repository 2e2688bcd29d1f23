/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "drawing/pen.h"

/* Inside the sheets: where the letters of a plan go, so that they can be read. */
typedef struct _SwLabels SwLabels;

typedef enum
{
  SW_LABEL_FIXED, /* there or, when that is taken, nowhere */
  SW_LABEL_ALONG, /* slides along its direction, and beside it */
  SW_LABEL_ROUND, /* round a thing */
  SW_LABEL_INSIDE /* somewhere in an area */
} SwLabelWay;

typedef struct
{
  const char *lines[2]; /* the second may be NULL; copied */
  SwTextStyle styles[2]; /* heights in any unit but SW_SIZE_PX; at least what can be read is taken */
  SwPoint at;           /* where it would stand by itself, aligned as the first style says; a second line stands below */
  SwLabelWay way;
  SwBox around;         /* the thing, the area, or where it may slide */
  int rank;             /* lower ones are placed first */
  gboolean needed;      /* drawn in any case, where it covers least */
  int layer;
  double least_seen;    /* left out when less of `around` than this share of it, both ways, is visible */
} SwLabel;

/* The pen's unit is the scale; labels outside `visible` are left out. */
SwLabels *sw_labels_new (const SwPen *pen, SwBox visible);
void sw_labels_free (SwLabels *labels);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwLabels, sw_labels_free)

void sw_labels_add (SwLabels *labels, const SwLabel *label);
/* Keeps other labels off. */
void sw_labels_block (SwLabels *labels, SwBox box);
/* Places all labels by rank, then in the order in which they came, and draws them. O(n) for evenly spread labels. */
void sw_labels_draw (SwLabels *labels);
