/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "drawing/page.h"
#include <gtk/gtk.h>

/* A page as it prints, as large as the widget lets it be. */
#define SW_TYPE_PAGE_PREVIEW (sw_page_preview_get_type ())
G_DECLARE_FINAL_TYPE (SwPagePreview, sw_page_preview, SW, PAGE_PREVIEW, GtkWidget)

/* The display is referenced; NULL shows nothing. */
void sw_page_preview_set_page (SwPagePreview *view, SwDisplay *display, const SwPage *page);
