/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/document.h"
#include <gtk/gtk.h>

/* Opens all values of a row of the price list, a board's own limits among them, in a popover at a widget of the window; each change is
 * an edit. Picks the row, which stands nowhere on the plan. It takes itself away when it is closed. */
void sw_price_row_open (GtkWidget *parent, SwDocument *document, SwId price);
