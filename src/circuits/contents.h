/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "space/route.h"

/* What a conduit of the job holds, read from its contents as people write them: "6 x 4 mm2", "3x1.5 + 1 x 2.5 mm²",
 * "2 x 11.5 mm" (cables by their outside diameter), "4 x data". */

typedef struct
{
  guint n;
  double mm2;      /* of a single conductor; 0: it is none */
  double diameter; /* of a cable, mm; 0: not said */
} SwCableItem;     /* both 0: a cable whose size is not said */

/* GArray of SwCableItem, the caller's; what cannot be read counts as cables whose size is not said. */
GArray *sw_circuits_contents (const char *text);

/* Circuits that share the conduit: its single conductors over those of one circuit, rounded up, one at least. */
guint sw_circuits_sharing (const SwRun *run, const SwCircuit *circuit);
/* The same with the circuit that the run names; 1 where it names none. */
guint sw_circuits_in_run (const SwJob *job, const SwRun *run);

/* How full a conduit is by the rule set's own method: areas and space factor, share by number of conductors, or unit factors. */
typedef struct
{
  guint cables;
  double percent, limit_percent; /* of the bore, or of the conduit's factor (then 100 is the limit); NAN: not known */
  double smallest;     /* conduit that takes them, mm; NAN: none of the table, or not known */
  double jam;          /* ratio of bore to cable for three like cables; NAN for others */
  SwRuleValue limit;   /* rule_id NULL when nothing was reckoned */
  const char *no_row;  /* static: the table in which a row is missing; NULL for none */
  guint no_size;       /* cables whose size is not said */
} SwConduitFill;

/* `stretches` (SwDrawStretch) between its draw points: long and bent ones take fewer cables by unit factors. */
SwConduitFill sw_circuits_conduit_fill (const SwRules *rules, const SwRoute *route, const GArray *stretches);
