/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "rules/rules.h"

/* The unit-factor method: the cables' factors together may not exceed the conduit's for the length and bends of the run. */

/* Short and straight runs have factors of their own. */
gboolean sw_circuits_units_is_short (const SwRules *rules, double length_m, guint bends, GError **error);
/* Factor of one cable. */
gboolean sw_circuits_units_cable (const SwRules *rules, double mm2, gboolean solid, gboolean is_short, SwRuleValue *factor, GError **error);
/* Factor of a conduit; the next longer run of the table counts. SW_ERROR_NOT_FOUND beyond the table: put in a draw box. */
gboolean sw_circuits_units_conduit (const SwRules *rules, double size_mm, double length_m, guint bends, gboolean is_short,
                                    SwRuleValue *factor, GError **error);
