/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "space/space.h"

/* Conduits that lie side by side warm each other: their circuits count as one group. Two lie together where no more than the
 * rule's diameters of the larger is clear between them, in one void; a group is all that hangs together so; it counts where it goes on for
 * longer than the rule's length, so that what only crosses does not. Only power and lighting warm: data and alarms carry little. */

typedef struct
{
  guint circuits;    /* the most that lie together, those in the conduit itself counted */
  guint own;         /* in the conduit itself */
  double from, to;   /* where that is, along the axis from the run's start, mm; both 0 when nothing lies beside it */
  SwId beside;       /* the nearest conduit there; 0 for none */
  guint leg;         /* of that one */
  double apart;      /* clear between the two, mm */
  double spacing_mm; /* that parts them */
  SwRuleValue spacing, length; /* the rules behind it */
} SwBunching;

/* Whether a run's cables warm others. */
gboolean sw_circuits_warms (const SwRun *run);
/* As far as a conduit of the rule set's sizes can lie from one of `od` mm and still be with it, mm. */
double sw_circuits_bunching_reach (const SwRules *rules, double od);
/* `others` (const SwRoute) are the conduits that may lie near, the route itself and others that do not matter included; NULL: none. `spared`
 * (set of SwId; NULL: none) are runs whose named circuit carries so little that it does not count. O(legs · neighbours²). */
SwBunching sw_circuits_bunching (const SwDeck *deck, const SwRules *rules, const SwRoute *route, const GPtrArray *others, GHashTable *spared);
/* Conduits of the space that may hang together with some runs, these included: GPtrArray of const SwRoute, the caller's. */
GPtrArray *sw_circuits_conduits_near (const SwSpace *space, const SwId *runs, guint n);
