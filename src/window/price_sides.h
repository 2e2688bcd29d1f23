/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/tools/pricing.h"
#include <gtk/gtk.h>

/* One room finished each way, side by side, with the rule behind each figure. Signals: "finish" (int SwFinish) when the user chooses
 * one; "rule" (string, its id) when the rule behind a figure is asked for. */
#define SW_TYPE_PRICE_SIDES (sw_price_sides_get_type ())
G_DECLARE_FINAL_TYPE (SwPriceSides, sw_price_sides, SW, PRICE_SIDES, GtkWidget)

/* `room` NULL: none is chosen. `price` NULL: not known yet. Both are only read now. */
void sw_price_sides_show (SwPriceSides *sides, const SwRoom *room, const SwRoomPrice *price, gboolean stale);
void sw_price_sides_set_grid (SwPriceSides *sides, gboolean shown);
void sw_price_sides_set_writable (SwPriceSides *sides, gboolean writable);
