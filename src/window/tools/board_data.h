/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/tools/tool.h"

/* The board's insides, shared by its files. */
struct _SwBoard
{
  SwDesk *desk;
  guint desk_watch;
  SwPicture *picture;
  double mm_per_px;
  guint64 hidden, faded;
  gboolean catches, polygons;

  SwTool *tool;
  guint tool_index;
  GPtrArray *templates; /* SwRecord or NULL, one a tool */
  SwTyped typed;
  gboolean has_anchor;
  SwPoint anchor;

  gboolean has_cursor, pressed;
  SwPoint cursor;  /* raw */
  SwPoint done_at; /* where it was at the last press or Enter: not moved since, Enter ends what is drawn */
  SwToolEvent last;

  GArray *picked; /* SwId */
  GPtrArray *drafts;
  guint draft_serial;
  GArray *shortfalls; /* SwShortfall */
  char *says;
  GError *fault;
  GArray *watchers;
};

void sw_board_tell (SwBoard *board, guint changes);
/* The event at the cursor with catching and typing worked in. */
SwToolEvent sw_board_event_at (SwBoard *board, SwPoint raw, SwBoardMods mods);
const SwToolClass *sw_board_tool_class (guint i);

/* Copies of all that moves with what is picked, `by` away: the picked things and the ends of runs that hold to them. */
GPtrArray *sw_board_moved (SwBoard *board, SwPoint by);
/* Puts records (all taken over, with the array, whose free function must be NULL) as one edit. */
gboolean sw_board_put_all (SwBoard *board, const char *name, GPtrArray *records);
