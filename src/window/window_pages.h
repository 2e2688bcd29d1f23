/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/window.h"

/* The pages beside the plan, each a window of its own that is opened once: price and choice, calculations, rules. Their actions
 * (win.price, win.ask, win.rules) and the part of the main menu that leads to them. */
void sw_window_class_add_pages (GtkWidgetClass *class);
GMenuModel *sw_window_pages_menu (void);
/* Opens the rules where a value stands. */
void sw_window_show_rule (SwWindow *window, const char *rule_id);
/* Which of them can be opened now. */
void sw_window_update_pages (SwWindow *window);
