/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/document.h"
#include "window/window.h"

/* Actions about boards: sheets that are kept where they are, alternatives. */
void sw_window_class_add_boards (GtkWidgetClass *class);
void sw_window_update_boards (SwWindow *window);
/* What can be done with the sheet under a place, for the plan's menu. */
void sw_window_append_board_items (SwWindow *window, GMenu *menu, SwPoint at);
/* The room that is picked, or whose layout is; 0 for none. */
SwId sw_window_picked_room (SwWindow *window);
