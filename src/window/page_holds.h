/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/document.h"
#include <gtk/gtk.h>

/* Hold points of a room: result, name, date and note of each, and whether the room may be closed. What is entered is one edit
 * that can be undone. */
#define SW_TYPE_PAGE_HOLDS (sw_page_holds_get_type ())
G_DECLARE_FINAL_TYPE (SwPageHolds, sw_page_holds, SW, PAGE_HOLDS, GtkWindow)

SwPageHolds *sw_page_holds_new (GtkWindow *parent, SwDocument *document);
/* 0: leaves the room that is shown. */
void sw_page_holds_show (SwPageHolds *page, SwId room);
