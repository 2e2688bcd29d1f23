/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/canvas.h"
#include "window/document.h"

/* The plan of a document on a canvas, with the tools of its board. */
#define SW_TYPE_PLAN_VIEW (sw_plan_view_get_type ())
G_DECLARE_FINAL_TYPE (SwPlanView, sw_plan_view, SW, PLAN_VIEW, SwCanvas)

/* Signals: "pointer" when the pointer or what the board says about it moves; "menu" (x, y) for the context menu. */
void sw_plan_view_set_document (SwPlanView *view, SwDocument *document);
void sw_plan_view_set_layers (SwPlanView *view, guint64 hidden, guint64 faded);
void sw_plan_view_set_theme (SwPlanView *view, SwTheme theme);
void sw_plan_view_set_looking_up (SwPlanView *view, gboolean up);
/* Starts the tool that a letter stands for and takes the focus. FALSE when there is none. */
gboolean sw_plan_view_use_tool_of_key (SwPlanView *view, gunichar character);
