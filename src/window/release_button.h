/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/document.h"
#include <gtk/gtk.h>

/* A button that asks who released some plates, when, and where that is written, and enters it for all of them in one edit. */
GtkWidget *sw_release_button_new (void);
/* GArray of SwPlateRef (referenced); the button hides without any, and when the job cannot be changed. */
void sw_release_button_set_plates (GtkWidget *button, SwDocument *document, GArray *plates);
