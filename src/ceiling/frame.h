/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "geometry/outline.h"

/* A frame turned to the battens: x counts them, y runs along them. Lengths in mm. */
typedef struct
{
  SwPoint origin;      /* in the plan */
  double cosine, sine; /* of the x axis */
} SwFrame;

static inline SwPoint
sw_frame_to (const SwFrame *frame, SwPoint world)
{
  return sw_point_turn (sw_point_sub (world, frame->origin), frame->cosine, -frame->sine);
}
static inline SwPoint
sw_frame_from (const SwFrame *frame, SwPoint local)
{
  return sw_point_add (sw_point_turn (local, frame->cosine, frame->sine), frame->origin);
}
/* The frame whose x axis runs from `from` to `to`, its origin at `from`. */
SwFrame sw_frame_along (SwPoint from, SwPoint to);

/* An area as rings, inside by the even-odd rule: outlines, holes, several of each; no two sides cross. */
typedef struct
{
  GArray *points; /* SwPoint */
  GArray *ends;   /* guint: index after the last point of each ring */
} SwRings;

SwRings *sw_rings_new (void);
void sw_rings_free (SwRings *rings);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwRings, sw_rings_free)
void sw_rings_add (SwRings *rings, const SwPoint *points, gsize n);
static inline guint sw_rings_n (const SwRings *rings) { return rings->ends->len; }
/* Borrowed. */
const SwPoint *sw_rings_get (const SwRings *rings, guint i, guint *n);
/* A copy in the frame (or out of it). */
SwRings *sw_rings_to (const SwRings *rings, const SwFrame *frame);
SwRings *sw_rings_from (const SwRings *rings, const SwFrame *frame);
SwBox sw_rings_box (const SwRings *rings);
double sw_rings_area (const SwRings *rings);
/* By the even-odd rule; either way on a side. */
gboolean sw_rings_holds (const SwRings *rings, SwPoint p);
/* Takes out points that lie on the straight line between their neighbours (SW_TOUCH_MM) and rings that vanish so. */
void sw_rings_straighten (SwRings *rings);

/* Brings coordinates that are as good as one (SW_SETTLE_MM) to one, in both areas alike, on a grid of SW_SETTLE_STEP_MM, and straightens
 * them: so a wall that is out by a hair, and a measurement that was rounded the other way, give the same battens and boards. No place
 * moves by more than SW_SETTLED_MM, about as much as a joint between boards is wide, which a wall's edge takes up. Rooms are measured and
 * drawn in steps of 5 mm or more, so that what is decided does not hang on whose tape it was. */
#define SW_SETTLE_MM 2.0
#define SW_SETTLE_STEP_MM 5.0
#define SW_SETTLED_MM ((SW_SETTLE_MM + SW_SETTLE_STEP_MM) / 2)
/* Two areas that were settled in frames of their own lie beside each other when they are no further apart. */
#define SW_BESIDE_MM (2 * SW_SETTLED_MM + 1)
/* To the grid that settled coordinates lie on. */
double sw_settle (double mm);
void sw_rings_settle (SwRings *a, SwRings *b);

/* Where the line x = at (along y) or y = at (along x) lies inside: appended to `out` (SwInterval, ascending). A side
 * that lies on the line does not count; use sw_rings_seam where both sides of the line have to be inside. O(n log n). */
typedef enum { SW_ALONG_X, SW_ALONG_Y } SwAlong;
void sw_rings_cut (const SwRings *rings, SwAlong along, double at, GArray *out);
/* Where the inside reaches at least `aside` to both sides of the line: a joint between boards that are that broad. */
void sw_rings_seam (const SwRings *rings, SwAlong along, double at, double aside, GArray *out);
/* Where the whole band low < x < high is inside: a batten of that width, cut square, fits. O(n log n). */
void sw_rings_band (const SwRings *rings, double low, double high, GArray *out);
/* Takes from the intervals what a convex outline covers of the band. */
void sw_intervals_keep_off (GArray *intervals, const SwPoint *points, gsize n, double low, double high);
double sw_intervals_sum (const GArray *intervals);
