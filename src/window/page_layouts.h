/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/document.h"
#include <gtk/gtk.h>

/* Ways of boarding a room side by side, with cost, sheets, joints and waste; one of them is taken. */
#define SW_TYPE_PAGE_LAYOUTS (sw_page_layouts_get_type ())
G_DECLARE_FINAL_TYPE (SwPageLayouts, sw_page_layouts, SW, PAGE_LAYOUTS, GtkWindow)

SwPageLayouts *sw_page_layouts_new (GtkWindow *parent, SwDocument *document);
/* 0: the first room with a closed ceiling, or the one that is shown. */
void sw_page_layouts_show (SwPageLayouts *page, SwId room);
