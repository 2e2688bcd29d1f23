/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/document.h"
#include <gtk/gtk.h>

/* The list of snags: counted, filtered by severity, trade and room; the chosen one in full, with what mends it. */
#define SW_TYPE_SNAG_PANEL (sw_snag_panel_get_type ())
G_DECLARE_FINAL_TYPE (SwSnagPanel, sw_snag_panel, SW, SNAG_PANEL, GtkWidget)

/* Signal "show-place" (double x, double y, gint64 record): the place is to be shown on plan and in section. */
void sw_snag_panel_set_document (SwSnagPanel *panel, SwDocument *document);
