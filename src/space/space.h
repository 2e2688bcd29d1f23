/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "geometry/neighbour.h"
#include "geometry/solid.h"
#include "space/route.h"
#include <gio/gio.h>

/* Everything solid in and under the deck, with who it belongs to: the one geometry that checks, routing, lights and live
 * drawing use. Immutable; holds job, deck and rules. */
typedef struct _SwSpace SwSpace;

typedef enum
{
  SW_BODY_RIB, SW_BODY_CROWN, SW_BODY_CLOSURE, /* closure: the concrete between a void's end and the edge */
  SW_BODY_SOLID, SW_BODY_PLATE, SW_BODY_BEAM, SW_BODY_COLUMN,
  SW_BODY_MEMBER, SW_BODY_BOARD, SW_BODY_WALL,
  SW_BODY_TUBE, SW_BODY_SOCKET, SW_BODY_FITTING, SW_BODY_LIGHT, SW_BODY_HEAT, SW_BODY_DRIVER,
  SW_N_BODIES
} SwBodyKind;

typedef struct
{
  SwBox3 box;
  SwId owner;     /* record: bay, run, light … */
  const SwRecord *record; /* that it was made of: its owner, but for concrete of a solid zone, which comes with its bay */
  SwBodyKind kind;
  guint bay;      /* index in the deck, G_MAXUINT for none */
  int part;       /* void, rib or plate index; segment of a run; member of a layout */
  double margin;  /* clearance that it wants around it, mm; insulation is already in the solid */
  SwSolid solid;  /* last: a search reads what stands before it */
} SwBody;

SwSpace *sw_space_new (SwDeck *deck, SwRules *rules, GError **error);
/* The space of a later job; `edit` is all that leads to it (sw_edit_between). What did not change is shared: the cost is that of
 * what the edits touched, but for changes of the deck, of rooms and of measurements, which make it anew. */
SwSpace *sw_space_update (SwSpace *space, SwDeck *deck, const SwEdit *edit, GError **error);
/* Whether a change of this table may move the bodies of others: deck, rooms, measurements. */
gboolean sw_space_hangs_on (SwTable table);
SwSpace *sw_space_ref (SwSpace *space);
void sw_space_unref (SwSpace *space);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwSpace, sw_space_unref)

SwDeck *sw_space_deck (const SwSpace *space);
SwRules *sw_space_rules (const SwSpace *space);
SwJob *sw_space_job (const SwSpace *space);
/* Of a run; NULL when the run could not be worked out (its reason is among sw_space_faults). Borrowed. */
const SwRoute *sw_space_route (const SwSpace *space, SwId run);
/* What could not be worked out: tag and message, to be shown as snags. GPtrArray of SwSpaceFault. */
typedef struct { SwId owner; char *message; } SwSpaceFault;
const GPtrArray *sw_space_faults (const SwSpace *space);

/* Numbers of bodies are below this; after an update some of them are of bodies that are gone, which no search finds. */
guint sw_space_n_bodies (const SwSpace *space);
const SwBody *sw_space_body (const SwSpace *space, guint i);
/* Bodies of one record: indexes [first, first + n). */
void sw_space_bodies_of (const SwSpace *space, SwId owner, guint *first, guint *n);

/* Calls `each` for every body of the wanted kinds (bits) whose box meets `box`; stop by returning FALSE. */
typedef gboolean (*SwSpaceEach) (const SwBody *body, gpointer data);
void sw_space_query (const SwSpace *space, SwBox3 box, guint32 kinds, SwSpaceEach each, gpointer data);

/* Clearance in mm that a pair wants, or a negative number to leave it out. Pairs of one owner are never asked for. */
typedef double (*SwSpaceNeeded) (const SwBody *a, const SwBody *b, gpointer data);

typedef struct
{
  guint first, second; /* bodies: records by id, then their parts */
  double needed;
  SwClearance clearance; /* clearance.mm < needed */
} SwMeeting;

/* All pairs nearer than what they need, in the order of records and parts, first, then second. `reach` is the greatest clearance that `needed` gives
 * beyond the bodies' margins. GArray of SwMeeting; NULL when cancelled. Cost: neighbour search, then exact distances. */
GArray *sw_space_meetings (const SwSpace *space, double reach, SwSpaceNeeded needed, gpointer data, GCancellable *cancellable);
/* The same, where `needed` is at most what the classes of the two bodies reach: sooner, since far fewer pairs are looked at. */
GArray *sw_space_meetings_by (const SwSpace *space, const SwNeighbourClasses *classes, SwSpaceNeeded needed, gpointer data, GCancellable *cancellable);
/* The same for the bodies of a few owners against all: what a drag asks for. */
GArray *sw_space_meetings_of (const SwSpace *space, const SwId *owners, guint n_owners, double reach, SwSpaceNeeded needed, gpointer data);
/* Bodies that are not in the space (a draft) against all that is, but for those of `without` (0: none): first counts in `drafts`. */
GArray *sw_space_meetings_with (const SwSpace *space, const GArray *drafts, SwId without, double reach, SwSpaceNeeded needed, gpointer data);

/* Bodies of a record that is not in the job (a draft): appended to `bodies` (GArray of SwBody). */
gboolean sw_space_bodies_for (const SwSpace *space, const SwRecord *record, GArray *bodies, GError **error);
