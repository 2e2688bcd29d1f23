/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/document.h"
#include <gtk/gtk.h>

/* Everything on the plan as a list: name, place, state. For who cannot see or point at the plan, and for finding. */
#define SW_TYPE_THING_LIST (sw_thing_list_get_type ())
G_DECLARE_FINAL_TYPE (SwThingList, sw_thing_list, SW, THING_LIST, GtkWidget)

/* Signal "show-thing" (gint64 record): Enter on a thing. Choosing one picks it. */
void sw_thing_list_set_document (SwThingList *list, SwDocument *document);
