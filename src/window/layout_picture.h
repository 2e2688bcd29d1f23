/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "drawing/look.h"
#include <gtk/gtk.h>

/* A small drawing that fits itself into what room it gets, on paper of the theme's colour. */
#define SW_TYPE_LAYOUT_PICTURE (sw_layout_picture_get_type ())
G_DECLARE_FINAL_TYPE (SwLayoutPicture, sw_layout_picture, SW, LAYOUT_PICTURE, GtkWidget)

/* `name` is what a screen reader says. */
GtkWidget *sw_layout_picture_new (SwDisplay *display, SwBox box, const char *name);
/* The theme that the desktop's settings ask for. */
SwTheme sw_layout_picture_theme (GtkWidget *widget);
