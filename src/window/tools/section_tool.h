/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "sheets/section.h"
#include "window/tools/board.h"

/* Picking and dragging in the section strip: a tube changes its lane and height there, a light or fitting its lane; in the
 * long section a vertex changes its level. No toolkit. */
typedef struct
{
  SwBoard *board;
  gboolean along;       /* the long section of the one picked run */
  double exaggeration;
  SwSectionCut cut;     /* across; its bay belongs to the board's picture */
  gboolean has_cut;
  SwId bay;
  SwId dragged;
  int leg;              /* across: leg of the run; along: vertex */
  SwPoint pressed_at;
  gboolean moved;
} SwSectionTool;

/* The display (sealed, the caller's) of what the strip shows now, drafts over it; NULL when there is nothing to show. */
SwDisplay *sw_section_tool_draw (SwSectionTool *tool);
SwBox sw_section_tool_box (SwSectionTool *tool);
/* Puts the cut at a place of the plan. TRUE when it changed. */
gboolean sw_section_tool_set_place (SwSectionTool *tool, SwPoint world);
/* The picture is new: the cut's bay has to be found again. */
void sw_section_tool_renew (SwSectionTool *tool);
/* "Bay B across void 7, 2340 from its start", for the strip's head. Free with g_free. */
char *sw_section_tool_title (SwSectionTool *tool);
/* The run whose long section can be shown; 0 for none. */
SwId sw_section_tool_run (SwSectionTool *tool);

/* `at` in the section's coordinates, `reach` how near counts. */
void sw_section_tool_press (SwSectionTool *tool, SwPoint at, double reach, gboolean add);
void sw_section_tool_motion (SwSectionTool *tool, SwPoint at, double reach);
void sw_section_tool_release (SwSectionTool *tool, SwPoint at);
void sw_section_tool_cancel (SwSectionTool *tool);
