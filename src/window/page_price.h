/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/document.h"
#include <gtk/gtk.h>

/* Price and choice: rooms closed against open, the finish of each, quantities and prices, price lists in and out. Signal "rule"
 * (string, its id) when the rule behind a figure is asked for. */
#define SW_TYPE_PRICE_PAGE (sw_price_page_get_type ())
G_DECLARE_FINAL_TYPE (SwPricePage, sw_price_page, SW, PRICE_PAGE, GtkWindow)

SwPricePage *sw_price_page_new (GtkWindow *parent, SwDocument *document);
/* Both in the background; the page says how it went. */
void sw_price_page_read_list (SwPricePage *page, GFile *file);
void sw_price_page_write_list (SwPricePage *page, GFile *file);
