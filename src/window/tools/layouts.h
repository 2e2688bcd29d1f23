/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "drawing/display.h"
#include "estimate/lay_choices.h"
#include "window/tools/pricing.h"

/* Alternatives for the boards of a room, looked for in the background, as cards that can be laid side by side. */

/* One way of boarding the room. Immutable once made, counted by reference, any thread. */
typedef struct
{
  gatomicrefcount refs;
  SwEdit *edit;        /* makes the job so; NULL: the job is so */
  guint number;        /* as the command counts the alternatives; 0 for what the job has */
  SwDisplay *display;  /* the room with its boards, sealed */
  SwBox box;           /* of the room */
  char *sheets;        /* "8 × 3600x1200 + 2 × 3600x900" */
  gboolean turned, along; /* long side along the battens, battens along the ribs */
  gboolean priced;     /* else there is no cost */
  SwMoney cost;        /* of boards, battens and joints */
  guint n_sheets, faults, slivers, cuts;
  double shift_mm; /* of the battens */
  double joint_m, batten_m, waste_m2, waste_percent, smallest_mm;
} SwLayoutCard;

void sw_layout_card_unref (SwLayoutCard *card);

typedef struct
{
  guint64 generation;
  GPtrArray *cards; /* SwLayoutCard: what the job has (when its layout is up to date), then the alternatives, best first */
  guint n_own;      /* 1 when the first is what the job has */
  guint own_number; /* of the alternative that it is; 0: of none */
  guint n_locked;   /* pieces that stay where they are */
  gboolean done;    /* else better ones may come */
  GError *fault;    /* nothing more comes; `cards` is empty */
} SwLayoutsNews;

/* On the main thread, only for what was asked for last; borrowed. */
typedef void (*SwLayoutsDone) (const SwLayoutsNews *news, gpointer data);

typedef struct _SwLayouts SwLayouts;
SwLayouts *sw_layouts_new (SwLayoutsDone done, gpointer data);
/* Returns at once; nothing is handed over any more. */
void sw_layouts_free (SwLayouts *layouts);
/* Cancels what is under way. */
void sw_layouts_ask (SwLayouts *layouts, SwJob *job, guint64 generation, SwId room, gboolean keep_direction);
