/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/appearance.h"
#include "window/document.h"
#include <gtk/gtk.h>

/* One job in one window, or the start page. */
#define SW_TYPE_WINDOW (sw_window_get_type ())
G_DECLARE_FINAL_TYPE (SwWindow, sw_window, SW, WINDOW, GtkApplicationWindow)

SwWindow *sw_window_new (GtkApplication *application, GSettings *settings, SwAppearance *appearance);
/* NULL goes back to the start page. */
void sw_window_set_document (SwWindow *window, SwDocument *document);
SwDocument *sw_window_document (SwWindow *window);
/* Opens a job here when the window is empty, else in a new window. Errors are shown. */
void sw_window_open (SwWindow *window, GFile *file);
void sw_window_show_fault (SwWindow *window, const char *fault);
