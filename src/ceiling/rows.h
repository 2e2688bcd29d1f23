/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "ceiling/ceiling.h"
#include "ceiling/clip.h"

/* Inside board laying: one part of a room in a frame whose x runs along the rows of sheets. */

typedef struct
{
  SwPoint at;
  double half_x, half_y, keep; /* box about it, and how far joints keep from it */
  gboolean hatch;
  SwId owner;
} SwKeepOff;

typedef struct
{
  const SwCeilingPart *part;
  guint index;
  gboolean turned;         /* x, y of the part's frame are swapped */
  SwRings *whole, *area;   /* with and without what is locked */
  GPtrArray *locked;       /* SwRings: pieces that stay */
  SwBox box;               /* of the whole */
  double length, width;    /* of a sheet, along and across the rows */
  double step, start;      /* joints in a row fall on start + k · step */
  GArray *lines;           /* double: where battens lie under joints in a row; NULL: anywhere */
  GPtrArray *battens;      /* GArray of SwInterval: along which y of the part a batten runs, for each of its lines */
  double batten;           /* its width */
  GArray *keep_offs;       /* SwKeepOff, by x */
  double bearing, sliver, edge_good; /* narrower than the bearing, a strip makes no joint */
  double stagger_least, stagger_good;
} SwBoardField;

typedef enum
{
  SW_ROWS_PLAIN,     /* corner start, every other row half a sheet on */
  SW_ROWS_FEW,       /* few joints first */
  SW_ROWS_STAGGERED, /* wide stagger first */
  SW_ROWS_OFFCUTS,   /* few new sheets first: ends come from offcuts of the rows before */
  SW_N_ROWS_AIMS
} SwRowsAim;

typedef struct
{
  double first;            /* height of the first row, from the field's low side */
  SwRowsAim aim;
} SwRowsManner;

/* A connected part of a row. */
typedef struct
{
  double low, high;        /* its ends */
  SwInterval across;       /* its breadth, in y */
  guint row;               /* counted from 0 */
  GArray *joints;          /* double: end joints, ascending */
} SwRowsStretch;

typedef struct
{
  GPtrArray *pieces;       /* SwRings, polygons in the field's frame: the locked ones, then by row, then x */
  GArray *joints;          /* SwJoint in the field's frame */
  guint off, faults;       /* end joints off a batten; those and the ones under the least stagger */
  double bare;             /* the most of a joint that is off */
  guint bare_more;         /* joints with more of it than a batten's width at each end: noggins do not find room everywhere */
  guint slivers, close_calls; /* narrow pieces; joints too near to lights and hatches */
  double joint_length;
  double smallest;         /* least side of any piece's box */
  double first;            /* height of the first row */
  GPtrArray *stretches;    /* SwRowsStretch, in the order of laying */
  gint64 cost;             /* filled in by who cuts the pieces */
} SwRows;

SwBoardField *sw_board_field_new (const SwCeiling *ceiling, guint part);
void sw_board_field_free (SwBoardField *field);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwBoardField, sw_board_field_free)

/* locked.c: takes the locked pieces that fit the part, or come to fit where its walls have moved a little, out of its area; a mark for each of
 * this part that no longer does. */
gboolean sw_board_field_lock (SwBoardField *field, SwCeiling *ceiling, GError **error);
/* Where the boards' side of a locked piece touches others: each stretch once. */
typedef void (*SwLockedSeam) (SwAlong along, double at, const GArray *parts, gpointer data);
void sw_board_field_locked_seams (const SwBoardField *field, SwLockedSeam seam, gpointer data);

/* First-row heights worth a try, plain first: GArray of SwRowsManner. */
GArray *sw_rows_manners (const SwBoardField *field);
SwRows *sw_rows_lay (const SwBoardField *field, SwRowsManner manner);
/* With end joints as given: SwRowsStretch in the order of laying, as rows of that first height have them. */
SwRows *sw_rows_lay_as (const SwBoardField *field, double first, const GPtrArray *stretches);
SwRowsStretch *sw_rows_stretch_copy (const SwRowsStretch *stretch);
void sw_rows_stretch_free (SwRowsStretch *stretch);
/* Fewest joints with much of them off battens, fewest with any, fewest faults, fewest slivers, least cost, joints off lights and hatches, fewest metres of joint, largest smallest piece. */
gboolean sw_rows_is_better (const SwRows *a, const SwRows *b);
/* Joints with much off, joints off battens, faults, slivers, in the order in which they count: negative where `a` has less. */
int sw_rows_compare_faults (const SwRows *a, const SwRows *b);
void sw_rows_free (SwRows *rows);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwRows, sw_rows_free)

/* Whether a joint is too close to a light or hatch: the first such, else NULL. */
const SwKeepOff *sw_board_field_near (const SwBoardField *field, SwPoint from, SwPoint to);
/* Whether a batten lies under a joint in a row at x. */
gboolean sw_board_field_has_line (const SwBoardField *field, double x);
/* How much of the joints at x of the part's frame (SwInterval in y) has no batten below it, their width at each end left out. */
double sw_board_field_bare (const SwBoardField *field, double x, const GArray *joints);
/* Whether a batten of the part's grid runs at x of the part's frame. */
gboolean sw_board_field_on_line (const SwCeilingPart *part, double x);

/* joints.c: movement joints between parts; joints against battens, with noggins where a part of one finds none; strips where no
 * screw may go; marks. */
void sw_ceiling_finish_boards (SwCeiling *ceiling, const GPtrArray *fields);
