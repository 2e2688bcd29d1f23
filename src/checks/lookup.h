/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "drainage/branches.h"
#include "space/deck.h"

/* Records by place and by what they belong to, so that a check looks at its neighbours only. Each index is made when it is
 * first asked for. One thread. Inside the layer. */
typedef struct _SwCheckLookup SwCheckLookup;

SwCheckLookup *sw_check_lookup_new (SwDeck *deck);
void sw_check_lookup_free (SwCheckLookup *lookup);

/* Records of a table whose box in plan meets `box`, in id order. GPtrArray of const SwRecord; free with g_ptr_array_unref. */
GPtrArray *sw_check_lookup_near (SwCheckLookup *lookup, SwTable table, SwBox box);
/* The same of walls that separate. */
GPtrArray *sw_check_lookup_separating (SwCheckLookup *lookup, SwBox box);
/* As sw_deck_room_at. */
const SwRoom *sw_check_lookup_room (SwCheckLookup *lookup, SwPoint at);

typedef enum
{
  SW_OWNED_FITTINGS, /* of a run */
  SW_OWNED_LAYOUTS,  /* of a room */
  SW_OWNED_HOLDS,    /* hold points of a room */
  SW_OWNED_RUNS,     /* of a circuit */
  SW_OWNED_LIGHTS,   /* of a circuit */
  SW_N_OWNED
} SwOwned;

/* Records that belong to one, in id order; NULL for none. Borrowed. */
const GPtrArray *sw_check_lookup_owned (SwCheckLookup *lookup, SwOwned kind, SwId owner);

/* What the job's pipes carry; the rules asked with first count. The lookup's. */
const SwBranches *sw_check_lookup_branches (SwCheckLookup *lookup, const SwRules *rules);

/* Levels of a room's ceiling, as sw_deck_ceiling_face and sw_deck_ceiling_back. */
double sw_check_lookup_face (SwCheckLookup *lookup, const SwRoom *room);
double sw_check_lookup_back (SwCheckLookup *lookup, const SwRoom *room);
/* The ceiling's face over a place of the room: lower in a bulkhead. */
double sw_check_lookup_face_at (SwCheckLookup *lookup, const SwRoom *room, SwPoint at);
