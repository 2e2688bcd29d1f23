/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "estimate/headroom.h"
#include "base/tolerance.h"

static const char *
height_row (int use)
{
  static const char *const rows[] = { [SW_USE_HABITABLE] = "habitable", [SW_USE_SERVICE] = "passage", [SW_USE_ASSEMBLY] = "assembly" };
  return rows[use];
}

SwHeadroom
sw_headroom (const SwDeck *deck, const SwRules *rules, const SwRoom *room, SwFinish finish)
{
  SwHeadroom head = { 0 };
  SwRuleValue share = { .value = 100 }, projection = { 0 };
  SwSoffitArea area = sw_soffit_area (deck, room);
  g_autoptr (SwRecord) copy = sw_record_copy (&room->record);
  ((SwRoom *) copy)->finish = finish;
  double floor = sw_deck_z_from_floor (deck, room->floor_offset);
  head.known = sw_rules_lookup (rules, "room.heights", height_row (room->use), "height_mm", &head.rule, NULL)
               && sw_rules_number (rules, "room.rules", "rib_share_percent", &share, NULL)
               && sw_rules_number (rules, "room.rules", "projection_mm", &projection, NULL);
  head.lowest = sw_deck_ceiling_face (deck, (const SwRoom *) copy) - floor;
  head.to_crown = finish == SW_FINISH_EXPOSED && area.rib_share * 100 <= share.value + 1e-9;
  head.height = head.to_crown ? area.crown_low - floor : head.lowest;
  head.wanted = head.known ? head.rule.value : 0;
  head.wanted_lowest = head.known ? projection.value : 0;
  head.enough = head.height >= head.wanted - SW_TOUCH_MM && head.lowest >= head.wanted_lowest - SW_TOUCH_MM;
  return head;
}
