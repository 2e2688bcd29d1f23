/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "geometry/outline.h"
#include "job/job.h"

/* The deck worked out from a job: every bay's ribs, voids, reaches and plates, measured lines and levels in the place of
 * drawn ones. Immutable; may be shared between threads. Holds the job.
 *
 * A bay's own frame: u along the voids, v across them to the left, both from the outline's lowest values.
 * Rib k lies between void k − 1 and void k; voids count from 0 here, their written numbers start at the bay's first_void. */
typedef struct _SwDeck SwDeck;

typedef struct
{
  double low, high;       /* u of the closures that end it: the open length */
  double solid_low, solid_high; /* where the concrete beyond each closure ends (bay edge, opening, middle of a solid zone) */
} SwReach;

typedef struct
{
  int number;             /* as written on drawings */
  double v, low, high;    /* centre line and edges of the mouth */
  double depth;           /* measured or the profile's */
  guint first_reach, n_reaches;
  gboolean measured;      /* one of its ribs was */
} SwVoid;

typedef struct
{
  double v, low, high;    /* centre line and faces at the soffit; outermost ones run to the bay's edge */
  double u_low, u_high;
  gboolean measured;
} SwRib;

typedef struct
{
  guint void_index;
  int number;             /* as written */
  double u;
  const SwPlate *record;  /* NULL when nothing is known of it */
  gboolean released, out, measured;
} SwDeckPlate;

typedef struct
{
  const SwBay *bay;
  const SwProfile *profile;
  double cosine, sine, u_zero, v_zero; /* of the frame */
  double length, breadth;              /* extent along u and v */
  double level, slope_x, slope_y, level_x, level_y; /* soffit z = level + slope · (p − level place) */
  gboolean level_measured;
  GArray *voids;   /* SwVoid */
  GArray *ribs;    /* SwRib, one more than voids */
  GArray *reaches; /* SwReach */
  GArray *plates;  /* SwDeckPlate, by void, then u */
} SwDeckBay;

SwDeck *sw_deck_new (SwJob *job);
/* The deck of a later job: what was worked out is shared when no change is to a table that a deck hangs on. */
SwDeck *sw_deck_update (SwDeck *deck, SwJob *job, const SwEdit *edit);
SwDeck *sw_deck_ref (SwDeck *deck);
void sw_deck_unref (SwDeck *deck);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwDeck, sw_deck_unref)

SwJob *sw_deck_job (const SwDeck *deck);
guint sw_deck_n_bays (const SwDeck *deck);
const SwDeckBay *sw_deck_bay (const SwDeck *deck, guint i);
const SwDeckBay *sw_deck_bay_of (const SwDeck *deck, SwId bay);
/* The bay under a place, NULL outside all. */
const SwDeckBay *sw_deck_bay_at (const SwDeck *deck, SwPoint p);

/* First rib with which as many voids as fit, a whole rib at both sides, stand in the middle of the bay: the same strip is left
 * at both sides. */
double sw_deck_even_first_rib (const SwBay *bay, const SwProfile *profile);

SwPoint sw_deck_to_bay (const SwDeckBay *bay, SwPoint world); /* x = u, y = v */
SwPoint sw_deck_from_bay (const SwDeckBay *bay, SwPoint uv);
/* Soffit's z at a place; the bay's plane goes on beyond its edge. */
double sw_deck_soffit (const SwDeckBay *bay, SwPoint world);
/* The same for whatever bay is there, else 0. */
double sw_deck_soffit_at (const SwDeck *deck, SwPoint world);
double sw_deck_crown (const SwDeckBay *bay, SwPoint world);

/* Index of the void whose mouth v lies over, −1 on a rib or outside. */
int sw_deck_void_at (const SwDeckBay *bay, double v);
/* Index of the void whose centre line is nearest, −1 when the bay has none. */
int sw_deck_void_near (const SwDeckBay *bay, double v);
/* What people call the rib of that index: the number of the void after it. */
int sw_deck_rib_number (const SwDeckBay *bay, int rib);
/* Index of the rib over v, −1 over a void. */
int sw_deck_rib_at (const SwDeckBay *bay, double v);
/* The reach of a void that holds u; NULL in solid concrete. */
const SwReach *sw_deck_reach_at (const SwDeckBay *bay, guint void_index, double u);
/* Width of void at height h above the soffit, 0 ≤ h ≤ depth. */
double sw_deck_void_width (const SwDeckBay *bay, guint void_index, double h);

/* "Bay B, void 7, 340 past plate 3, 1.84 m from grid C", in parts. */
typedef struct
{
  const SwDeckBay *bay; /* NULL outside all: nothing else is set but the grid line */
  int void_number;      /* when over a void */
  gboolean over_void;
  int rib_number;       /* over a rib: its number */
  gboolean has_plate;
  int plate_number;     /* the last plate at or before the place */
  double past_plate;    /* from it, else from the void's start closure */
  const SwGridline *grid; /* nearest parallel distance; NULL without grid lines */
  double from_grid;
} SwAddress;
SwAddress sw_deck_address (const SwDeck *deck, SwPoint p);
/* English, for files and logs; the window and sheets make their own from the parts. Free with g_free. */
char *sw_address_text (const SwAddress *address);
/* Rooms whose boxes in plan come within a touch of `box`: appended to `rooms` (of const SwRoom), in id order. */
void sw_deck_rooms_near (const SwDeck *deck, SwBox box, GPtrArray *rooms);
/* Room under a place, NULL for none. */
const SwRoom *sw_deck_room_at (const SwDeck *deck, SwPoint p);
/* The same; for a place in a wall between rooms the one whose side is nearest within `reach` mm (of two alike the first in the job). */
const SwRoom *sw_deck_room_beside (const SwDeck *deck, SwPoint p, double reach);
/* The room that has most of an outline's area, the first of two alike; NULL where none has 1 mm² of it. */
const SwRoom *sw_deck_room_under (const SwDeck *deck, const SwPoint *points, guint n);

/* z (from the job's soffit datum) of a height above the finished floor, and back. */
double sw_deck_z_from_floor (const SwDeck *deck, double above_floor);
double sw_deck_z_to_floor (const SwDeck *deck, double z);
/* z of a room's ceiling face by its finish (exposed: the lowest rib soffit), and of its board's upper face. */
double sw_deck_ceiling_face (const SwDeck *deck, const SwRoom *room);
double sw_deck_ceiling_back (const SwDeck *deck, const SwRoom *room);
/* The bulkhead over a place of a room with a closed ceiling: the lowest where several are; NULL for none. */
const SwBulkhead *sw_deck_bulkhead_at (const SwDeck *deck, const SwRoom *room, SwPoint p);
/* All of a closed room whose box meets it, in id order: GPtrArray of SwBulkhead, borrowed; free with g_ptr_array_unref. */
GPtrArray *sw_deck_bulkheads (const SwDeck *deck, const SwRoom *room);
/* How far the ceiling over a place is below the room's: 0 outside its bulkheads. */
double sw_deck_ceiling_drop (const SwDeck *deck, const SwRoom *room, SwPoint p);
/* Keeps of `stretches` (SwInterval along the line from `from`; `along` is one mm long) what lies under a ceiling of one level:
 * `bulkhead`'s, one of `bulkheads`, or with NULL the room's own between them. A lower one comes before a higher one. */
void sw_deck_level_along (const SwRoom *room, const SwBulkhead *bulkhead, const GPtrArray *bulkheads, SwPoint from, SwPoint along, GArray *stretches);
/* Lowest soffit over a room: the ceiling is set from it. */
double sw_deck_lowest_soffit (const SwDeck *deck, const SwRoom *room);
