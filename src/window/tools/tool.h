/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/tools/board.h"

/* A tool turns pointer and keys, in world mm, into a draft that is drawn and an edit that is done. It knows no toolkit. */
typedef struct _SwTool SwTool;

typedef struct
{
  SwPoint raw;      /* where the pointer is */
  SwPoint at;       /* where it caught, with what is typed */
  SwSnap snap;
  guint clicks;     /* 2 for the second of a double click */
  gboolean shift, control;
} SwToolEvent;

struct _SwToolClass
{
  SwToolRow row;
  gsize size;           /* of the tool's own struct, which begins with SwTool */
  guint snaps;          /* bits of SwSnapKind that it wants */
  void (*setup) (SwRecord *template); /* first values of what it makes, beside the table's own; may be NULL */
  void (*start) (SwTool *tool);
  void (*end) (SwTool *tool);
  void (*press) (SwTool *tool, const SwToolEvent *event);
  void (*motion) (SwTool *tool, const SwToolEvent *event);
  void (*release) (SwTool *tool, const SwToolEvent *event);
  void (*finish) (SwTool *tool);  /* Enter on what is drawn so far; may be NULL */
  gboolean (*back) (SwTool *tool); /* Backspace takes the last place back; FALSE when there is none */
  gboolean (*drop) (SwTool *tool); /* Escape: drops the draft; FALSE when there was none */
  void (*draw) (SwTool *tool, SwDisplay *live);
};

struct _SwTool
{
  const SwToolClass *class;
  SwBoard *board;
};

extern const SwToolClass sw_tool_pick, sw_tool_pipe, sw_tool_conduit, sw_tool_cross, sw_tool_drop, sw_tool_tape, sw_tool_rib, sw_tool_scale;
/* Tools for one place, for two, and for outlines; each makes records of one kind. */
extern const SwToolClass sw_tool_light, sw_tool_hatch, sw_tool_box, sw_tool_distribution_board, sw_tool_stack, sw_tool_gully, sw_tool_exit,
  sw_tool_fitting, sw_tool_drop_in, sw_tool_wall, sw_tool_gridline, sw_tool_beam, sw_tool_sleeve, sw_tool_bay, sw_tool_room,
  sw_tool_opening, sw_tool_column, sw_tool_solid, sw_tool_bulkhead;

/* For the tools. */
void sw_board_set_anchor (SwBoard *board, const SwPoint *anchor);
void sw_board_offer (SwBoard *board, guint typed_fields);
/* Says something under the plan; the caller's text is taken over. */
void sw_board_say (SwBoard *board, char *text);
/* Does the edit (taken over) and clears what was typed. On failure the message goes to the watchers. */
gboolean sw_board_do (SwBoard *board, SwEdit *edit);
/* New records of the draft (each taken over), judged and drawn in their state; none drops the draft. */
void sw_board_set_drafts (SwBoard *board, SwRecord **records, guint n);
/* A copy of the template with a free id and mark after what the edit holds (which may be NULL). The caller's. */
SwRecord *sw_board_create (SwBoard *board, const SwEdit *edit);
