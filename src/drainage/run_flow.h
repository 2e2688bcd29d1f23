/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "drainage/branches.h"
#include "space/route.h"

/* What a job's own pipe, or a part of it, carries, loses, and does when it warms up or cools down. NAN where it does not apply, the run
 * says nothing of it, or the rule set has no value. */
typedef struct
{
  double from, to;   /* the part, in plan from the first vertex, mm */
  double units;      /* that it carries */
  double flow;       /* design flow from the units that the run carries, l/s */
  double fall_n;     /* flattest falling leg of the part, 1:n */
  double filling;    /* depth of water over bore at that fall; NAN when the pipe cannot carry it */
  double velocity;   /* m/s */
  double capacity;   /* of waste pipes at the usual filling, l/s */
  double loss_kpa;   /* of supply pipes, along the run */
  double growth;     /* of the longest straight, mm */
  double sleeve;     /* least against sweating, mm; 0: stays dry */
  gboolean too_small, too_slow, too_fast, sweats;
  SwRuleValue k, demand, cleansing, fastest, expansion, sleeve_rule; /* rule_id NULL where none was asked */
} SwRunFlow;

/* How cold what is in a pipe may be, °C; NAN for services that are not looked at: water that is drunk or runs off a cooler, and refrigerant
 * sweat. */
double sw_drainage_inside_c (const SwRules *rules, SwService service);
/* `branches`: of the same job, for the units that it carries. The part of the run with the worst fault, or else with the greatest flow;
 * pressure is lost along the whole of it. */
SwRunFlow sw_drainage_run_flow (const SwRules *rules, const SwJob *job, const SwBranches *branches, const SwRoute *route);
/* Every part of it that carries the same from end to end, from the first vertex on. GArray of SwRunFlow, the caller's. */
GArray *sw_drainage_run_flows (const SwRules *rules, const SwJob *job, const SwBranches *branches, const SwRoute *route);
