/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "space/deck.h"

/* Inside the layer: works a bay out. The result belongs to the deck. */
SwDeckBay *sw_deck_bay_new (const SwJob *job, const SwBay *bay);
void sw_deck_bay_free (SwDeckBay *bay);
/* In plan. */
SwBox sw_deck_bay_box (const SwDeck *deck, guint i);
