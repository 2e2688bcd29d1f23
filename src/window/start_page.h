/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "job/job.h"
#include <gtk/gtk.h>

/* What an empty window offers. */
#define SW_TYPE_START_PAGE (sw_start_page_get_type ())
G_DECLARE_FINAL_TYPE (SwStartPage, sw_start_page, SW, START_PAGE, GtkWidget)

#define SW_START_RECENT_MOST 4

/* Signal "start" (double length, double width, guint profile): a rectangle was asked for; profile counts in the catalogue. */
/* The catalogue's profiles, named in the drop-down. */
void sw_start_page_set_catalogue (SwStartPage *page, SwJob *catalogue);
/* Offers the first SW_START_RECENT_MOST of these jobs that are still there; NULL-terminated. */
void sw_start_page_set_recent (SwStartPage *page, const char *const *uris);
