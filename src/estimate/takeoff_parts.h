/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "estimate/takeoff.h"

/* Inside the layer. Which room is where. */
typedef struct _SwRoomFinder SwRoomFinder;

SwRoomFinder *sw_room_finder_new (const SwJob *job);
void sw_room_finder_free (SwRoomFinder *finder);
/* The first room that holds a place; NULL for none. */
const SwRoom *sw_room_finder_at (const SwRoomFinder *finder, SwPoint place);
SwId sw_room_finder_id (const SwRoomFinder *finder, SwPoint place);

typedef struct
{
  SwId room;    /* 0: in none */
  double share; /* of the whole way, 0…1 */
} SwRoomShare;
/* How a straight way is shared out among rooms: GArray of SwRoomShare, replacing what is in it, adding up to 1. */
void sw_room_finder_share (const SwRoomFinder *finder, SwPoint from, SwPoint to, GArray *shares);

typedef struct
{
  SwDeck *deck;
  SwRules *rules;
  SwRoomFinder *rooms; /* NULL for single rooms */
  SwNeeds *needs;
  GArray *notes;       /* NULL: not wanted */
  GCancellable *cancellable;
} SwTakeoffWork;

static inline SwJob *sw_takeoff_job (const SwTakeoffWork *work) { return sw_deck_job (work->deck); }
/* Sets SW_ERROR_CANCELLED when nobody waits for it any more. */
gboolean sw_takeoff_is_given_up (const SwTakeoffWork *work, GError **error);
void sw_takeoff_note (const SwTakeoffWork *work, SwTakeoffNoteKind kind, SwId owner, const char *detail);

/* takeoff_finish.c: one room's ceiling. `room` may be a copy with another finish than the job's. Errors as the engine's. */
gboolean sw_takeoff_room (const SwTakeoffWork *work, const SwRoom *room, GError **error);
/* takeoff_runs.c, takeoff_points.c: of the whole job. */
gboolean sw_takeoff_runs (const SwTakeoffWork *work, GError **error);
void sw_takeoff_points (const SwTakeoffWork *work);

/* "pvc-20" for a run, "38x38" for two numbers, "100" for one. Free with g_free. */
char *sw_takeoff_run_size (const SwRun *run);
char *sw_takeoff_pair (double a, double b);
char *sw_takeoff_number (double a);
