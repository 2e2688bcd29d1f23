/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/document.h"
#include "window/tools/pricing.h"

/* The prices of a document's job, kept up to date in the background for as long as somebody listens. Until new ones are there the
 * last good ones stay, and are called stale. Main thread only.
 *
 * Signals: "asked" when the job changed and all became stale, "room" (gint64 id) when that room's price is there, "job" when the
 * whole is there or why it cannot be. */
#define SW_TYPE_PRICE_DESK (sw_price_desk_get_type ())
G_DECLARE_FINAL_TYPE (SwPriceDesk, sw_price_desk, SW, PRICE_DESK, GObject)

/* The document's own, made when it is first asked for; borrowed, lives as long as the document. */
SwPriceDesk *sw_price_desk_of (SwDocument *document);
/* Prices the job when it has changed since the last time; call it after connecting. */
void sw_price_desk_refresh (SwPriceDesk *desk);
/* The room that is wanted soonest from now on, 0 for none. */
void sw_price_desk_look_at (SwPriceDesk *desk, SwId room);

/* Borrowed until the next signal; NULL before there is one. */
const SwRoomPrice *sw_price_desk_room (SwPriceDesk *desk, SwId room);
const SwJobPrice *sw_price_desk_job (SwPriceDesk *desk);
gboolean sw_price_desk_room_is_stale (SwPriceDesk *desk, SwId room);
gboolean sw_price_desk_is_busy (SwPriceDesk *desk);
/* Why the job cannot be priced; NULL when it can. */
const char *sw_price_desk_fault (SwPriceDesk *desk);
