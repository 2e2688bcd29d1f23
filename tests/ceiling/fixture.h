/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "../space/sample.h"
#include "ceiling/boards.h"
#include "ceiling/brandering.h"
#include "rules/rules.h"

/* Ceilings below a sample deck. */
typedef struct
{
  SwSample sample;
  SwRules *rules;
} SwFixture;

/* A bay from (0, 0) of that size, voids along x turned by `direction`. */
SwFixture sw_fixture_new (double length, double breadth, double direction);
void sw_fixture_clear (SwFixture *fixture);
/* A closed room with 38 × 38 battens, 9.5 mm boards of 3,000 × 1,200, not yet in the job. */
SwRoom *sw_fixture_room (SwFixture *fixture, const SwPoint *points, guint n);
SwRoom *sw_fixture_rectangle (SwFixture *fixture, double x0, double y0, double x1, double y1);
/* Battens and boards of the room as the job stands; asserts that it can be laid. */
SwCeiling *sw_fixture_plan (SwFixture *fixture, SwId room, const SwCeilingOptions *options);
/* Takes the ceiling over into the fixture's job; its layout there. */
const SwLayout *sw_fixture_store (SwFixture *fixture, const SwCeiling *ceiling);
guint sw_fixture_marks (const SwCeiling *ceiling, SwCeilingMarkKind kind);
guint sw_fixture_members (const SwCeiling *ceiling, int kind);
/* Metres of joints of a kind (−1: all). */
double sw_fixture_joints (const SwCeiling *ceiling, int kind);
