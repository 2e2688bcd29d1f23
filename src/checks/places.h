/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "lighting/places.h"

/* Places of lights as the checks see them: with the battens of the room's layout, else with those of the rule set's centres for its
 * board, should it have a row for it. As sw_light_places_new. */
SwLightPlaces *sw_check_light_places (SwSpace *space, const SwRoom *room, const SwLight *light, GCancellable *cancellable, GError **error);
/* Whose battens bar places there: "as laid out" …, untranslated. Static. */
const char *sw_check_light_battens (const SwSpace *space, const SwRoom *room, const SwLightPlaces *places);
