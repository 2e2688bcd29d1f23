/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "geometry/solid.h"
#include "rules/rules.h"
#include "space/deck.h"

/* A run with every level and size worked out: its axis in space. */
typedef struct
{
  const SwRun *run;
  guint n;
  SwPoint3 *axis;        /* one a vertex */
  double od, bore;       /* mm */
  double radius;         /* of the tube */
  double outer;          /* with insulation */
  double socket;         /* radius of its sockets or couplers, ≥ radius */
  double socket_length, stock_length; /* sockets stand at vertices and every stock length */
  double bend_radius;    /* of the axis */
  double clearance;      /* wanted around it, from the run or the rule set */
  SwRuleValue clearance_rule, socket_rule, bore_rule; /* where the numbers come from; rule_id NULL when from the run itself */
} SwRoute;

/* SW_ERROR_NOT_FOUND when the rule set has no row that is needed and the run gives no value. Free with sw_route_free. */
SwRoute *sw_route_new (const SwDeck *deck, const SwRules *rules, const SwRun *run, GError **error);
void sw_route_free (SwRoute *route);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwRoute, sw_route_free)

/* Which trades' rules apply. */
gboolean sw_service_is_gravity (SwService service);  /* waste, soil, rainwater, condensate */
gboolean sw_service_is_electric (SwService service); /* power, lighting, data, fire alarm */
gboolean sw_service_is_wet (SwService service);

/* The bend at vertex `corner` when the leg before it starts at `from`: it takes half of the leg that it shares with the next one.
 * FALSE where there is none, or no room for it: the corner is then drawn sharp. */
gboolean sw_route_bend (const SwRoute *route, guint corner, SwPoint3 from, SwArc *arc);
/* A corner without room for its bend, or a leg between elbows that is shorter than the sockets at its ends. */
typedef struct
{
  guint vertex;   /* the corner; the leg ends there */
  double radius;  /* of the bend; 0: elbows */
  double missing; /* mm of leg; NAN for a fold back */
} SwTightPlace;
/* GArray of SwTightPlace, the caller's. */
GArray *sw_route_tight (const SwRoute *route);
guint sw_route_tight_places (const SwRoute *route);
/* Along the axis. */
double sw_route_length (const SwRoute *route);      /* mm, in space */
double sw_route_plan_length (const SwRoute *route); /* mm */
/* True angle turned at vertex i (0 at the ends), degrees, and the sum. */
double sw_route_turn (const SwRoute *route, guint i);
double sw_route_turns (const SwRoute *route);
/* Level of the invert (inside bottom) of the axis point, z. */
double sw_route_invert (const SwRoute *route, guint i);
/* The point at a plan distance from the start; the segment may be NULL. */
SwPoint3 sw_route_at (const SwRoute *route, double plan_distance, guint *segment);
/* z of the axis (or middle) of something `across` mm high, insulation included, whose level is given as `level` and `value`
 * at a place, and back. SW_LEVEL_FALL counts as in the void. */
double sw_route_level_z (const SwDeck *deck, SwPoint at, double across, SwLevel level, double value);
double sw_route_level_value (const SwDeck *deck, SwPoint at, double across, SwLevel level, double z);
