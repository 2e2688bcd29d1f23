/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/places.h"
#include "ceiling/brandering.h"

SwLightPlaces *
sw_check_light_places (SwSpace *space, const SwRoom *room, const SwLight *light, GCancellable *cancellable, GError **error)
{
  SwLightPlaceOptions options = { 0 };
  SwRuleValue rule;
  double limit, edge;
  if (sw_ceiling_centres_limit (sw_space_rules (space), room, &limit, &edge, &rule, NULL))
    options.centres = limit;
  return sw_light_places_new (space, room, light, &options, cancellable, error);
}
