/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/tolerance.h"
#include "ceiling/brandering.h"

/* Sheets of other sizes than the room's own have limits of their own: each row of the price list may give some. A sheet of another size is
 * asked as the room's own would be, were it the room's. A room has one spacing of battens and one length between movement joints, those that
 * its own sheet asks for, so that a sheet which asks for more is left out of a mix. Constant time. */

static SwRoom
with_sheet (const SwRoom *room, double length, double width)
{
  SwRoom other = *room; /* only to be asked: it owns nothing */
  other.board_length = length;
  other.board_width = width;
  return other;
}

gboolean
sw_ceiling_sheet_suits (const SwRules *rules, const SwJob *job, const SwRoom *room, double length, double width)
{
  SwRoom other = with_sheet (room, length, width);
  const SwPrice *price = sw_ceiling_board_price (job, &other);
  SwRuleValue wet, fire;
  if (price != NULL && price->centres > 0 && room->batten_centres > price->centres + SW_TOUCH_MM) /* centres that the room insists on */
    return FALSE;
  if (room->sheet_most > 0 && length > room->sheet_most + SW_TOUCH_MM)
    return FALSE;
  if (room->wet && sw_ceiling_board_limit (rules, job, &other, "wet", &wet) && wet.value == 0)
    return FALSE;
  return room->fire_minutes <= 0 || !sw_ceiling_board_limit (rules, job, &other, "fire_min", &fire) || fire.value >= room->fire_minutes;
}

gboolean
sw_ceiling_sheet_mixes (const SwRules *rules, const SwJob *job, const SwRoom *room, double length, double width)
{
  SwRoom other = with_sheet (room, length, width);
  SwRuleValue rule, other_rule;
  double limit, edge, other_limit, other_edge;
  if (!sw_ceiling_sheet_suits (rules, job, room, length, width)
      || !sw_ceiling_centres_limit (rules, job, room, &limit, &edge, &rule, NULL)
      || !sw_ceiling_centres_limit (rules, job, &other, &other_limit, &other_edge, &other_rule, NULL))
    return FALSE;
  return other_rule.value >= limit - SW_TOUCH_MM && other_edge >= edge - SW_TOUCH_MM
         && sw_ceiling_longest_field (rules, job, &other, NULL) >= sw_ceiling_longest_field (rules, job, room, NULL);
}
