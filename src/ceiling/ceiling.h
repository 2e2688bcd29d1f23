/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "ceiling/frame.h"
#include "ceiling/options.h"
#include "ceiling/span.h"
#include "space/deck.h"
#include <gio/gio.h>

/* What the ceiling engine finds for one room: battens, then boards. Places in the plan, levels from the job's z = 0. */

/* A stretch of the room with one batten direction; movement joints lie between them. */
typedef struct
{
  SwId bulkhead;       /* whose bottom it is; 0: the room's own level */
  double drop;         /* below the room's own level */
  gboolean layered;    /* battens lie below primaries */
  gboolean framed;     /* battens span between walls and the bulkhead's faces; no rib holds them */
  SwFrame frame;       /* x counts the battens from the wall that they start at, y runs along them */
  SwRings *area;       /* of the boards, in the frame */
  SwRings *clear;      /* of the battens: less where shallow beams hang */
  double centres;      /* of the battens */
  double limit;        /* greatest, by rule and room */
  gboolean gridded;    /* sheets end inside: centres divide the sheet */
  double shift;        /* of that grid from the wall */
  GArray *lines;       /* double: x of the battens that run through, ascending */
  guint first_joint, n_joints; /* among the ceiling's joints, movement joints aside */
} SwCeilingPart;

typedef enum { SW_SUPPORT_RIB, SW_SUPPORT_PRIMARY, SW_SUPPORT_END } SwSupportKind; /* end: ledger, trimmer or neighbour */

typedef struct
{
  SwMember member;
  guint part;
  double centres;           /* width of ceiling that it carries, mm */
  double span, cantilever;  /* greatest, mm */
  double span_limit;        /* lesser of the published span and the sag's; INFINITY without either */
  double published;         /* span by the rule set's table, 0 = none; rule id below, NULL */
  const char *span_rule;
  gboolean on_wall;         /* a ledger: held by the wall along its length */
  SwSpanCheck check;        /* of the greatest span */
  guint n_supports;         /* ribs or primaries, and carried ends */
  guint first_place, n_places; /* of the ribs or primaries, among the ceiling's places */
} SwCeilingMember;

typedef struct
{
  SwFixing fixing;     /* packer: from the member's top to the rib's face there */
  SwId bay;
  guint member;
  double load;         /* N on each, at least the rule's design load where one is enough */
  guint count;         /* fixings side by side there */
  gboolean long_fixing, hanger; /* packed more than the rule's limits */
} SwCeilingFixing;

typedef enum
{
  SW_CEILING_NO_DECK,        /* a stretch of the room lies under no bay: battens there have no ribs */
  SW_CEILING_SPAN,           /* batten spans `value`, allowed `limit` */
  SW_CEILING_STRESS,         /* N/mm² */
  SW_CEILING_CANTILEVER,     /* an end stands over */
  SW_CEILING_UNSUPPORTED,    /* a batten crosses no rib and has no ledger */
  SW_CEILING_NARROW_BATTEN,  /* too narrow for a joint */
  SW_CEILING_LONG_FIXING, SW_CEILING_HANGER, /* packing */
  SW_CEILING_LIGHT_CUTS,     /* light `owner` would cut a batten: `value` = move by this across the battens */
  SW_CEILING_LIGHT_TRIMMED,  /* light `owner` cuts `value` battens: trimmed, as was chosen */
  SW_CEILING_HATCH_CUTS,     /* hatch `owner` cuts `value` battens: trimmed */
  SW_CEILING_JOINT_OFF_BATTEN, SW_CEILING_JOINT_AT_LIGHT, SW_CEILING_JOINT_AT_HATCH,
  SW_CEILING_STAGGER,        /* end joints of neighbouring rows too close */
  SW_CEILING_SLIVER,         /* piece narrower than the limit */
  SW_CEILING_WIDE_FIELD,     /* more than the limit between movement joints */
  SW_CEILING_LARGE_FIELD,    /* the same by area, m² */
  SW_CEILING_LOCK_LOST,      /* a locked piece no longer fits: it was laid anew */
  SW_CEILING_SHIFT,          /* a shift of the battens by `value` would clear `limit` lights and crossings */
  SW_CEILING_FIXING,         /* what is held there loads one fixing with `value` N: more than `limit` */
  SW_CEILING_FIELD_UNHELD,   /* across the ribs a field is `value` long: ribs hold the ends at a movement joint nowhere */
  SW_CEILING_FIELD_BLOCKED,  /* the same where lights and hatches leave a joint no place */
  SW_CEILING_UNKNOWN_SECTION, /* the price list has no second moment of the steel profile: sag and stress are not checked */
  SW_CEILING_BOARD_UNHELD,   /* a place of a board lies `value` from what holds it: more than `limit`, and not between two members */
  SW_N_CEILING_MARKS
} SwCeilingMarkKind;
G_STATIC_ASSERT (SW_N_CEILING_MARKS == SW_LAID_MARK_KINDS);

/* What the layout could not mend, or wants to be known. */
typedef struct
{
  SwCeilingMarkKind kind;
  SwId owner;           /* light, hatch, else the room */
  SwPoint at;
  double value, limit;
  const char *rule_id;  /* NULL: none */
} SwCeilingMark;

/* A piece of board. Its corners stand in the ceiling's `corners` from `first` on; a hatch in it is reached by a slit. */
typedef struct
{
  SwPiece piece;        /* numbered from 1; sheets too; box along and across the sheet's long side */
  guint part;
  guint first, n;
  double area;          /* mm² */
  double x, y;          /* of the piece's box in its sheet, mm */
  SwPoint low, high;    /* box in the part's frame */
} SwCeilingPiece;

/* An upright face of a bulkhead, seen from outside: boards on studs from the back of the higher ceiling's boards down to the back
 * of its own; `from` to `to` is its outer side in the plan. */
typedef struct
{
  SwId bulkhead;
  SwPoint from, to, inward; /* inward: one mm across it, under the bulkhead */
  double top, height, centres; /* of its boards; of its studs */
  guint first, n;           /* among the ceiling's face pieces */
} SwCeilingFace;

typedef struct
{
  SwFacePiece piece;        /* from and to along the middle of its thickness */
  double x, y;              /* of the piece in its sheet, mm */
} SwCeilingFacePiece;

typedef struct
{
  SwDeck *deck;
  SwRules *rules;
  const SwRoom *room;   /* of the deck's job */
  double top;           /* z of the battens' upper faces, and of the primaries' */
  double primary_top;
  double sheet_length, sheet_width; /* of the sheets */
  gboolean turned;      /* long side along the battens */
  guint n_sheets, n_sheets_plain, n_sheets_bound; /* used; of the plain corner start; of the room's size none can do with fewer */
  GArray *parts, *members, *fixings, *marks; /* SwCeilingPart, SwCeilingMember, SwCeilingFixing, SwCeilingMark */
  GArray *places;       /* double: distances from a member's start where it is held, ascending */
  GArray *pieces, *corners, *joints, *strips; /* SwCeilingPiece, SwPoint, SwJoint, SwStrip */
  GArray *sheets;       /* SwOddSheet: those of another size than the room's */
  GArray *faces, *face_pieces; /* SwCeilingFace, SwCeilingFacePiece: numbered on from the pieces */
  double bead, inner, face_joints; /* mm of outer corners, of inner ones, of joints between face pieces */
  gint64 cost;          /* of all sheets, as SwBoardSize counts */
  GPtrArray *locked;    /* SwRings in the plan: pieces to be laid around */
  GPtrArray *kept;      /* all pieces of the layout that they come from */
} SwCeiling;

/* Empty. */
SwCeiling *sw_ceiling_new (SwDeck *deck, SwRules *rules, const SwRoom *room);
void sw_ceiling_free (SwCeiling *ceiling);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwCeiling, sw_ceiling_free)
/* "light would cut a batten" …, untranslated. Static. */
const char *sw_ceiling_mark_text (SwCeilingMarkKind kind);
