/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "ceiling/brandering.h"

/* Inside the engine: the state while battens are laid. */

typedef struct { SwPoint corner[4]; } SwQuad;

#define SW_LAY_SLACK_MM 0.5 /* an end that stands over by no more than this too far is as good as at the limit */

typedef struct
{
  SwCeiling *ceiling;
  SwCeilingOptions options;
  GCancellable *cancellable;
  double wall_face, cantilever, limit, edge_limit;
  gboolean perimeter; /* the board wants noggins along the walls */
} SwLay;

/* One layer of a part: parallel members in a frame of their own, local to which all below is. */
typedef struct
{
  SwLay *lay;
  guint part;
  SwFrame frame;
  SwRings *clear;
  int kind;            /* SW_MEMBER_BATTEN or SW_MEMBER_PRIMARY */
  double width, depth, top, centres;
  GArray *lines;       /* double */
  GArray *quads;       /* SwQuad: what stands in the way */
  guint first_member;  /* of this layer in the ceiling */
} SwLayer;

/* Ledgers, wall battens and trimmers carry ends; a slanting wall's batten also stops at the battens that it crosses. */
static inline gboolean
sw_member_carries (int other, int member)
{
  return other == SW_MEMBER_PERIMETER || other == SW_MEMBER_TRIMMER || (other == SW_MEMBER_BATTEN && member == SW_MEMBER_PERIMETER);
}

static inline SwQuad
sw_quad_around (SwPoint from, SwPoint to, double width)
{
  SwPoint along = sw_point_sub (to, from);
  double scale = width / 2 / sw_point_length (along);
  SwPoint side = { -along.y * scale, along.x * scale };
  return (SwQuad){ { sw_point_sub (from, side), sw_point_sub (to, side), sw_point_add (to, side),
                     sw_point_add (from, side) } };
}

/* Where a member of the layer's width about x = `at` can lie: clear of walls and quads. Appended to `out`. */
void sw_layer_free_at (const SwLayer *layer, double at, double width, GArray *out);
/* Adds a member from local places and its quad. */
void sw_layer_add (SwLayer *layer, int kind, SwPoint from, SwPoint to, double width);
/* Distances from `from` to where a member of this layer is held by ribs, or rests on primaries: GArray of double, the caller's. */
GArray *sw_layer_holds (const SwLayer *layer, SwPoint from, SwPoint to);
/* Widens the stretch (along y at x) until a rib or primary holds it at both of its ends, within what is free; it stays as it is where
 * nothing is. FALSE when it is not free itself. */
gboolean sw_layer_reach_holds (const SwLayer *layer, double x, SwInterval *stretch);
/* Whether the end of a member of that width which runs along the unit vector `way` lies at one of the quads. */
gboolean sw_quads_meet_end (const GArray *quads, SwPoint end, SwPoint way, double width);
/* Whether a member of the layer that stands already carries the end of one of that kind. */
gboolean sw_layer_carries_end (const SwLayer *layer, int kind, SwPoint end, SwPoint way);
void sw_layer_mark (SwLayer *layer, SwCeilingMarkKind kind, SwId owner, SwPoint local, double value, double limit,
                    const char *rule_id);

/* edges.c: ledgers where ends would stand over too far; battens along the walls that run with the battens; noggins
 * along the others (along bulkheads in any case). */
void sw_layer_ledgers (SwLayer *layer);
/* Free places for ledgers along the walls (seams aside) that are no further than `far` from p, the nearest first: GArray of SwLedgerPlace,
 * the caller's. */
typedef struct
{
  SwPoint from, to; /* middle line, local to the layer */
  double at;        /* along it, nearest to p */
  double away;      /* p's distance from the wall */
} SwLedgerPlace;
GArray *sw_layer_ledgers_near (SwLayer *layer, SwPoint p, double far);
/* Whether a square end there lies at a wall that nearly runs with the battens. */
gboolean sw_layer_slants_at (const SwLayer *layer, SwPoint end);
void sw_layer_walls (SwLayer *layer);
/* Whether another part goes on beyond x somewhere, with battens of its own close by. */
gboolean sw_layer_seam_at (const SwLayer *layer, double x);
void sw_layer_noggins (SwLayer *layer, gboolean at_walls);
/* Battens along the faces of a bulkhead that its studs stand on. */
void sw_layer_face_plates (SwLayer *layer);

/* hatches.c: takes the hatches' and trimmed lights' places out of the lines and puts trimmers round them. */
void sw_layer_hatches (SwLayer *layer);
void sw_layer_lights (SwLayer *layer);

/* shift.c: marks a shift of the room's grid that lights and crossings would gain from; now it is `shift` from `start`, which lies `behind`
 * the place that the room's shift is counted from. */
void sw_layer_advise_shift (SwLayer *layer, double start, double shift, double behind);

/* supports.c: places where the member can be fixed to ribs, by their distance from `from`. Appended to `out`. */
typedef struct
{
  double along;
  SwPoint at;
  const SwDeckBay *bay;
  int rib;
} SwRibHold;
void sw_lay_holds (const SwLay *lay, SwPoint from, SwPoint to, GArray *out);
/* Distances from `from` at which a member of the part would rest on its primaries. Appended to `out` (double). */
void sw_lay_rests (const SwLay *lay, guint part, SwPoint from, SwPoint to, GArray *out);
/* Fixings, spans and their checks for all members of the ceiling. */
gboolean sw_lay_supports (SwLay *lay, GError **error);

/* bulkheads.c: stretches of a side of the part (in the plan) along which its ceiling steps up to a higher one, `step` mm (0: any
 * height): GArray of SwInterval from `from` on, the caller's. */
GArray *sw_lay_steps (const SwCeiling *ceiling, guint part, SwPoint from, SwPoint to, double step);
/* Stretches of a side along which a part lies beside whose ceiling is at the same level (0), higher (1) or lower (−1): as above. */
GArray *sw_lay_beside (const SwCeiling *ceiling, guint part, SwPoint from, SwPoint to, int level);
/* A line's end at a bulkhead that stands over too far goes on above it to the next rib. */
void sw_layer_reach_over (const SwLayer *layer, double at, SwInterval *stretch);
/* Faces of all bulkheads with their studs and pieces of board. */
void sw_lay_faces (SwLay *lay);

/* fields.c: adds the polygon (in the plan) to `fields` (SwRings), shared by movement joints at right angles to the frame's x where it is
 * longer than its boards may be. `timber` (in the plan): where members run along x that hang from ribs, so that each of their ends at a
 * joint has to be held; NULL where joints end none. */
gboolean sw_lay_fields (const SwLay *lay, const SwRings *polygon, const SwRings *timber, const SwFrame *frame, GPtrArray *fields, GError **error);

/* parts.c: the room less columns, shafts, openings and beams, split where the batten direction changes. */
gboolean sw_lay_parts (SwLay *lay, GError **error);
