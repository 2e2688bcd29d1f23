/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "job/measures.h"
#include "space/deck.h"

/* ---- What there is to measure of a bay or a room, beside what was drawn. */

typedef struct
{
  SwMeasureKey key;
  int to;                   /* the corner, from 1, at which a side ends */
  gboolean marked;          /* a level at a place that the sheet marks */
  SwPoint place;            /* in plan, where it is measured */
  double drawn;             /* what the drawing says; compares with the measured value */
  const SwMeasure *measure; /* NULL: not measured yet */
} SwSurveySlot;

/* All of a bay (each rib's middle and edges, soffit levels near the corners, in the middle and where else one was taken, each
 * void's depth and plates) or of a room (sides, diagonals from the first two corners): GArray of SwSurveySlot, in that order.
 * The caller's; holds what the deck's job holds. */
GArray *sw_survey_slots (const SwDeck *deck, SwId of);

/* What the drawing says of what a key names; NAN when there is no such thing. */
double sw_survey_drawn (const SwDeck *deck, const SwMeasureKey *key);

/* How far a place is from what a slot of a bay is of: across the voids to a rib or void, also along them to an edge or a plate. */
double sw_survey_across (const SwDeckBay *bay, const SwSurveySlot *slot, SwPoint at);

/* ---- The outline of a room from its measured sides and diagonals, by least squares. */

typedef struct
{
  const SwMeasure *measure;
  guint from, to;       /* corners, from 0 */
  double drawn, fitted; /* the distance as drawn and in the fitted outline */
  double off;           /* by how much the measured value is more than what all the others give; NAN when they do not give it */
} SwSurveyDistance;

typedef struct
{
  guint n;
  SwPoint *corners;  /* fitted; what nothing fixes stays as near as it can to what is drawn */
  GArray *distances; /* SwSurveyDistance */
  int worst;         /* the one that fits worst; −1: nothing is measured twice over */
  double misclosure; /* |off| of the worst, else 0 */
  guint moved;       /* the corner that moved farthest, from 0 */
  double shift;      /* and how far */
} SwSurveyRoom;

/* NULL when nothing of the room was measured. The caller's. */
SwSurveyRoom *sw_survey_room (const SwJob *job, const SwRoom *room);
void sw_survey_room_free (SwSurveyRoom *survey);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwSurveyRoom, sw_survey_room_free)

/* Puts into an edit the walls of a room that go with its corners (as many as its outline has) to their new places, and those that end at
 * them. A wall whose face is within `reach` mm of a side lies along it. FALSE with an error when a wall cannot be put. */
gboolean sw_survey_carry_walls (SwEdit *edit, const SwJob *job, const SwRoom *room, const SwPoint *corners, double reach, GError **error);

/* An edit that gives the room the outline as measured, in whole mm, and moves its walls with it. SW_ERROR_INVALID when nothing was measured or the
 * misclosure is larger than `most`. The caller's. */
SwEdit *sw_survey_take_over (const SwJob *job, const SwRoom *room, double most, GError **error);
