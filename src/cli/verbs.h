/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "cli/cli.h"

/* All verbs, in the order in which --help lists them: name, operands, what it does. */
#define VERBS \
  VERB (new, "JOB", N_("make a new job, with the profiles of the catalogue")) \
  VERB (info, "JOB", N_("say what a job holds")) \
  VERB (deck, "JOB", N_("say what the deck's sections come to")) \
  VERB (check, "JOB", N_("list the snags of a job")) \
  VERB (json, "JOB", N_("write a job in its text form")) \
  VERB (make, "TEXT JOB", N_("make a job file from a job's text form")) \
  VERB (validate, "JOB…", N_("say what is wrong with a job's file")) \
  VERB (sheet, "JOB", N_("draw a job's sheets as SVG, PDF or PNG")) \
  VERB (schedule, "JOB", N_("write a job's schedules as CSV")) \
  VERB (export, "JOB", N_("write all sheets and schedules into a folder")) \
  VERB (lay, "JOB [ROOM…]", N_("lay out battens and boards of closed ceilings, and keep them in the job")) \
  VERB (hold, "JOB ROOM [KIND]", N_("enter what was seen at a hold point of a room, or list them")) \
  VERB (price, "JOB", N_("take off and price a job or a room")) \
  VERB (choice, "JOB", N_("compare closed and open ceilings, room by room")) \
  VERB (prices, "JOB", N_("write a job's price list as CSV, or read one into it")) \
  VERB (cut, "ITEMS STOCK", N_("cut lengths or rectangles from stock, both lists as CSV, without a job")) \
  VERB (void, "JOB BAY VOID [TUBES]", N_("say what a void has room for")) \
  VERB (places, "JOB", N_("say where downlights of one kind may be")) \
  VERB (ask, "[QUESTION [KEY=VALUE…]]", N_("answer one calculation by itself, with its working and rules")) \
  VERB (rules, "[TABLE]", N_("list the numbers of a rule set with their sources")) \
  VERB (schema, "", N_("write the JSON Schema of a job's text form"))

#define VERB(name, operands, summary) int sw_cli_##name (const SwCliVerb *verb, int argc, char **argv);
VERBS
#undef VERB
