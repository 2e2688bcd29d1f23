/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <gtk/gtk.h>

/* All keys, from the tables that they come from. */
GtkWidget *sw_keys_window_new (GtkWindow *parent);
