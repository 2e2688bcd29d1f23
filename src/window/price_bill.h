/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/price_desk.h"
#include <gtk/gtk.h>

/* The take-off with its prices, of one room or the whole job; choosing a line picks on the plan what it counts. */
#define SW_TYPE_PRICE_BILL (sw_price_bill_get_type ())
G_DECLARE_FINAL_TYPE (SwPriceBill, sw_price_bill, SW, PRICE_BILL, GtkWidget)

void sw_price_bill_set_document (SwPriceBill *view, SwDocument *document);
/* 0: none is chosen; then only the whole can be seen. */
void sw_price_bill_set_room (SwPriceBill *view, SwId room);
