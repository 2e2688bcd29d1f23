/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <gtk/gtk.h>

/* Cutting alone, without a job: pieces and stock typed, pasted or read from CSV; plan, drawings, waste, bound. */
#define SW_TYPE_PAGE_CUT (sw_page_cut_get_type ())
G_DECLARE_FINAL_TYPE (SwPageCut, sw_page_cut, SW, PAGE_CUT, GtkWindow)

SwPageCut *sw_page_cut_new (GtkWindow *parent);
/* A list in CSV into the pieces or the stock. */
void sw_page_cut_read (SwPageCut *page, GFile *file, gboolean stock);
/* By the file's ending: csv, json, txt, svg, pdf or png. */
void sw_page_cut_write (SwPageCut *page, GFile *file);
