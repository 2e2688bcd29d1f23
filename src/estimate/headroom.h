/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "estimate/soffit_area.h"
#include "rules/rules.h"

/* Height of a room as SANS 10400-C measures it: to the ceiling; without one to the crown, or to the ribs' underside when the
 * ribs cover more than the rule's share of the room (30 % exactly does not exceed it); no rib lower than the rule's least. */
typedef struct
{
  double height;        /* mm, as measured by the rule */
  double lowest;        /* mm, under the lowest rib or the ceiling */
  double wanted;        /* mm; 0 when the rule set has none */
  double wanted_lowest; /* mm; 0 when the rule set has none */
  gboolean to_crown;
  gboolean known;       /* the rule set has a rule */
  gboolean enough;
  SwRuleValue rule;     /* of `wanted`; rule_id NULL when unknown */
} SwHeadroom;

/* With the room's finish taken as `finish`; a suspended grid and boards end at their faces. */
SwHeadroom sw_headroom (const SwDeck *deck, const SwRules *rules, const SwRoom *room, SwFinish finish);
