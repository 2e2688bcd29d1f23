/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "estimate/figure.h"
#include "space/deck.h"

/* What a profile's section and a whole deck come to, as lists of figures for window and command. The rows are the same for all. */

guint sw_profile_n_rows (void);
const SwFigureInfo *sw_profile_row (guint row);
SwFigure sw_profile_figure (const SwProfile *profile, const SwRules *rules, guint row);

/* Concrete of all bays: gross counts troughs only, net takes closures, solid zones and openings off. */
guint sw_deck_n_rows (void);
const SwFigureInfo *sw_deck_row (guint row);
SwFigure sw_deck_figure (const SwDeck *deck, guint row);
