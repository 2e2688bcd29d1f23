/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "space/route.h"

/* Where saddles and hangers of a run go, and what each bears. */

typedef struct
{
  SwPoint3 at;      /* on the axis */
  double along;     /* length of the axis from the run's start, mm */
  double load;      /* N: half way to each neighbour, or to the run's end */
  gboolean moved;   /* a plate stands where it would have gone */
} SwHanger;

typedef struct
{
  GArray *hangers;  /* SwHanger, in order */
  double mass;      /* of tube, contents and insulation, kg per m; NAN where a density is not known */
  double spacing;   /* of level legs, mm */
  SwRuleValue spacing_rule, end_rule;
} SwHangers;

/* SW_ERROR_NOT_FOUND where the rule set has no spacing for the run. Free with sw_hangers_free. */
SwHangers *sw_hangers_new (const SwDeck *deck, const SwRules *rules, const SwRoute *route, GError **error);
void sw_hangers_free (SwHangers *hangers);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwHangers, sw_hangers_free)

/* What a run weighs full, kg per m; NAN where a density or its bore is not known. */
double sw_hangers_mass (const SwRules *rules, const SwRoute *route);
