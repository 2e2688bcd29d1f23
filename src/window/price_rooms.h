/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/price_desk.h"
#include <gtk/gtk.h>

/* The rooms with what each costs and how high it is, closed and open, and the sums of all. Signal "chosen" (gint64 room; 0 for none).
 * A suspended grid is shown where a room has one, or for all when it is asked for. */
#define SW_TYPE_PRICE_ROOMS (sw_price_rooms_get_type ())
G_DECLARE_FINAL_TYPE (SwPriceRooms, sw_price_rooms, SW, PRICE_ROOMS, GtkWidget)

void sw_price_rooms_set_document (SwPriceRooms *rooms, SwDocument *document);
SwId sw_price_rooms_chosen (SwPriceRooms *rooms);
