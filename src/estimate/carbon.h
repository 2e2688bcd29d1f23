/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "estimate/quote.h"
#include "rules/rules.h"

/* Embodied carbon of what a finish takes: net mass of boards, timber and paint times the rule set's factors. Fixings, compound,
 * plaster and grids are left out: the rule set knows no factor for them. */
typedef struct
{
  double kg;          /* of carbon dioxide and what counts like it; NAN when none of the needs has a factor */
  SwRuleValue factor; /* the least certain that was used; rule_id NULL for none */
} SwCarbon;

/* kg of a material ("gypsum-board") times its factor, added to `carbon`. FALSE where the rule set has no such row. */
gboolean sw_carbon_add (SwCarbon *carbon, const SwRules *rules, const char *material, double kg);
/* `room` gives the boards' kind. */
SwCarbon sw_carbon_of (const GPtrArray *needs, const SwRules *rules, const SwRoom *room);
