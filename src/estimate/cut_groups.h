/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "estimate/cut_job.h"

/* Inside the cutting of a job. */

#define SW_CUT_BOARD_UNITS 10 /* to a mm, as boards are laid */

void sw_cut_group_free (gpointer group);

/* The group like `wanted`, made when there is none; the code of a trim tells it apart and is copied. */
SwCutGroup *sw_cut_group_for (SwCutJob *cut, const SwCutGroup *wanted);
/* One more length of a thing of `owner`, rounded up to whole mm; equal ones become copies. */
void sw_cut_group_want (SwCutGroup *group, SwId owner, int kind, double mm);
/* cut_trims.c: cornices, shadow lines and corner beads of the layouts that are up to date, and conduits. */
void sw_cut_trims (const SwDeck *deck, const SwRules *rules, SwCutJob *cut);
