/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/document.h"
#include <gtk/gtk.h>

/* The values of what is picked (or of what the tool in hand makes next), made from the tables of fields: any record, one or
 * several at once. Each entry shows its own error. */
#define SW_TYPE_INSPECTOR (sw_inspector_get_type ())
G_DECLARE_FINAL_TYPE (SwInspector, sw_inspector, SW, INSPECTOR, GtkWidget)

void sw_inspector_set_document (SwInspector *inspector, SwDocument *document);
