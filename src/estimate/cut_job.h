/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "estimate/cut_plan.h"
#include "rules/rules.h"
#include "space/deck.h"

/* How the closed ceilings of a job are cut, from the layouts that the job holds: sheets by board and size, timber by section, cornice and
 * other trims, and its conduits, all rooms together, so that what is left over from one goes into another. */

/* What goes along walls, faces and ways, after the members of a ceiling. */
enum { SW_CUT_CORNICE = SW_MEMBER_STUD + 1, SW_CUT_SHADOW, SW_CUT_BEAD, SW_CUT_CONDUIT };

/* What an item of a group's task is. */
typedef struct
{
  SwId room;  /* of a conduit: its run */
  int member; /* SwMemberKind or SW_CUT_CORNICE …; -1: a piece of board */
  int piece;  /* of board: its number in the room; else 0 */
} SwCutThing;

typedef struct
{
  gboolean flat;
  int trim;                /* SW_CUT_CORNICE …; 0: boards or timber */
  int board_kind;          /* of boards */
  double thickness;
  double length, width;    /* of a sheet; or width and depth of a section */
  int material;            /* of a section */
  char *code;              /* of the price list: "board-gypsum-9.5-3000x1200", "batten-38x38" */
  SwCutTask *task;         /* tenths of a mm for boards, mm for timber */
  GArray *things;          /* SwCutThing, one an item of the task */
  SwCutPlan *plan;         /* NULL when nothing has to be cut */
  guint n_whole;           /* sheets that go up uncut, or of which one piece takes all; not in the plan */
  GArray *whole;           /* SwCutThing of each */
  guint n_by_rooms;        /* sheets when each room is cut by itself; 0 for timber */
  GArray *by_rooms;        /* SwId of the room, one for each of these sheets */
} SwCutGroup;

typedef struct
{
  GPtrArray *groups; /* SwCutGroup: boards by kind, thickness, size; then timber by section, then trims */
} SwCutJob;

/* SW_ERROR_NOT_FOUND where the rule set lacks a row, SW_ERROR_CANCELLED; a room's layout that is out of date counts as it stands. */
SwCutJob *sw_cut_job_new (const SwDeck *deck, const SwRules *rules, GCancellable *cancellable, GError **error);
void sw_cut_job_free (SwCutJob *cut);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwCutJob, sw_cut_job_free)

/* What boards a room takes, mm²: its pieces as they are cut, the sheets when it is cut by itself, and its share of the sheets when all
 * rooms are cut together (of a sheet that serves several rooms as much as its pieces are of all in it). Over all rooms the shares add up to
 * the sheets that are bought. */
typedef struct
{
  SwId room;
  double pieces, alone, shared;
} SwCutRoom;

/* By room: GArray of SwCutRoom, the caller's. */
GArray *sw_cut_job_rooms (const SwCutJob *cut);

/* All sheets or stock lengths to buy. */
guint sw_cut_group_n (const SwCutGroup *group);
