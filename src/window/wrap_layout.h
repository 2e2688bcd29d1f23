/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <gtk/gtk.h>

/* Lays children out one after the other, as words in lines, so that none runs out of view where there is little width. */
#define SW_TYPE_WRAP_LAYOUT (sw_wrap_layout_get_type ())
G_DECLARE_FINAL_TYPE (SwWrapLayout, sw_wrap_layout, SW, WRAP_LAYOUT, GtkLayoutManager)
