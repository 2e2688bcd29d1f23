/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/document.h"
#include <gtk/gtk.h>

/* Price and choice: rooms closed against open, the finish of each, quantities and prices, price lists in and out. Signal "rule"
 * (string, its id) when the rule behind a figure is asked for. */
#define SW_TYPE_PAGE_PRICE (sw_page_price_get_type ())
G_DECLARE_FINAL_TYPE (SwPagePrice, sw_page_price, SW, PAGE_PRICE, GtkWindow)

SwPagePrice *sw_page_price_new (GtkWindow *parent, SwDocument *document);
/* Both in the background; the page says how it went. */
void sw_page_price_read_list (SwPagePrice *page, GFile *file);
void sw_page_price_write_list (SwPagePrice *page, GFile *file);
