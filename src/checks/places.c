/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/places.h"
#include "base/text.h"
#include "ceiling/brandering.h"
#include "ceiling/layout.h"

SwLightPlaces *
sw_check_light_places (SwSpace *space, const SwRoom *room, const SwLight *light, GCancellable *cancellable, GError **error)
{
  SwLightPlaceOptions options = { 0 };
  SwRuleValue rule;
  double limit, edge;
  if (sw_ceiling_centres_limit (sw_space_rules (space), sw_space_job (space), room, &limit, &edge, &rule, NULL))
    options.centres = limit;
  return sw_light_places_new (space, room, light, &options, cancellable, error);
}

const char *
sw_check_light_battens (const SwSpace *space, const SwRoom *room, const SwLightPlaces *places)
{
  const SwLayout *layout = sw_ceiling_layout_of (sw_space_job (space), room->record.id);
  if (layout != NULL)
    return sw_ceiling_layout_is_current (space, room, layout, NULL) ? N_ ("as laid out") : N_ ("of a layout that is out of date");
  return sw_light_places_assumed (places) ? N_ ("not laid out: taken at even centres") : N_ ("none");
}
