/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/document.h"
#include <gtk/gtk.h>

/* Sheets and schedules of a job: seen as they print, exported one by one or all at once, printed. */
#define SW_TYPE_EXPORT_WINDOW (sw_export_window_get_type ())
G_DECLARE_FINAL_TYPE (SwExportWindow, sw_export_window, SW, EXPORT_WINDOW, GtkWindow)

SwExportWindow *sw_export_window_new (GtkWindow *parent, SwDocument *document);
/* Everything into a folder, in a thread; what came of it stands in the window. */
void sw_export_window_export_all (SwExportWindow *window, GFile *folder);
