/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/tolerance.h"
#include "ceiling/held.h"
#include "ceiling/rows.h"
#include "space/route.h"

/* What is left to say once the boards lie: joints that have to lie on battens are held against every batten of their part,
 * and a noggin is put where only a part of a joint finds none, or where sheets along the battens end between them; joints too close to each other, lights and hatches, and
 * narrow pieces are marked; movement joints follow where two parts touch; runs below the ribs leave strips where no screw
 * may go. Joints times members, and runs times sides of the room. */

static void
mark (SwCeiling *ceiling, SwCeilingMarkKind kind, SwId owner, SwPoint at, double value, double limit, const char *rule)
{
  SwCeilingMark made = { kind, owner ? owner : ceiling->room->record.id, at, value, limit, rule };
  g_array_append_val (ceiling->marks, made);
}

static SwPoint
middle_of (const SwJoint *joint)
{
  return sw_point_lerp (joint->from, joint->to, 0.5);
}

/* ---- joints on battens ---- */

static SwQuad
quad_in (const SwCeilingPart *part, const SwMember *member)
{
  return sw_quad_around (sw_frame_to (&part->frame, member->from), sw_frame_to (&part->frame, member->to), member->width);
}

/* Takes from `bare` (along y at x) what a member covers to both sides of x. */
static void
cover (GArray *bare, const SwQuad *quad, double x, double aside)
{
  g_autoptr (SwRings) ring = sw_rings_new ();
  g_autoptr (GArray) low = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  g_autoptr (GArray) high = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  sw_rings_add (ring, quad->corner, 4);
  sw_rings_cut (ring, SW_ALONG_Y, x - aside, low);
  sw_rings_cut (ring, SW_ALONG_Y, x + aside, high);
  sw_intervals_intersect (low, high);
  for (guint i = 0; i < low->len; i++)
    sw_intervals_subtract (bare, g_array_index (low, SwInterval, i).low, g_array_index (low, SwInterval, i).high);
}

typedef struct
{
  SwCeiling *ceiling;
  guint index;          /* of the part */
  guint n_members;      /* before noggins were added */
  double bearing, width;
} Bearing;

static void
cover_by_members (const Bearing *b, guint from, GArray *bare, double x)
{
  const SwCeilingPart *part = &g_array_index (b->ceiling->parts, SwCeilingPart, b->index);
  for (guint i = from; i < b->ceiling->members->len && bare->len > 0; i++)
    {
      const SwCeilingMember *member = &g_array_index (b->ceiling->members, SwCeilingMember, i);
      SwQuad quad = quad_in (part, &member->member);
      if (member->part == b->index && member->member.kind != SW_MEMBER_PRIMARY && member->member.top == b->ceiling->top - part->drop)
        cover (bare, &quad, x, b->bearing - SW_TOUCH_MM);
    }
}

/* Short battens along y at x, as far as walls and members leave room for them. */
static void
add_noggins (const Bearing *b, double x, SwInterval gap)
{
  const SwCeilingPart *part = &g_array_index (b->ceiling->parts, SwCeilingPart, b->index);
  g_autoptr (GArray) room = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  g_autoptr (GArray) wanted = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  g_array_append_val (wanted, gap);
  sw_rings_band (part->clear, x - b->width / 2, x + b->width / 2, room);
  sw_intervals_intersect (wanted, room);
  for (guint i = 0; i < b->n_members; i++)
    {
      const SwCeilingMember *member = &g_array_index (b->ceiling->members, SwCeilingMember, i);
      SwQuad quad = quad_in (part, &member->member);
      if (member->part == b->index && member->member.kind != SW_MEMBER_PRIMARY && member->member.top == b->ceiling->top - part->drop)
        sw_intervals_keep_off (wanted, quad.corner, 4, x - b->width / 2, x + b->width / 2);
    }
  for (guint i = 0; i < wanted->len; i++)
    {
      SwInterval at = g_array_index (wanted, SwInterval, i);
      SwPoint from = sw_frame_from (&part->frame, (SwPoint){ x, at.low });
      SwPoint to = sw_frame_from (&part->frame, (SwPoint){ x, at.high });
      SwCeilingMember noggin = { .member = { { sw_grid_round (from.x), sw_grid_round (from.y) },
                                             { sw_grid_round (to.x), sw_grid_round (to.y) },
                                             b->width, b->ceiling->room->batten_depth, b->ceiling->top - part->drop, SW_MEMBER_NOGGIN },
                                 .part = b->index };
      if (at.high - at.low >= b->width)
        g_array_append_val (b->ceiling->members, noggin);
    }
}

static void
support_joint (const Bearing *b, const SwJoint *joint)
{
  const SwCeilingPart *part = &g_array_index (b->ceiling->parts, SwCeilingPart, b->index);
  SwPoint from = sw_frame_to (&part->frame, joint->from), to = sw_frame_to (&part->frame, joint->to);
  SwInterval whole = { fmin (from.y, to.y), fmax (from.y, to.y) };
  guint before = b->ceiling->members->len;
  g_autoptr (GArray) bare = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  g_array_append_val (bare, whole);
  cover_by_members (b, 0, bare, from.x);
  if (sw_board_field_on_line (part, from.x))
    for (guint i = 0; i < bare->len; i++)
      add_noggins (b, from.x, g_array_index (bare, SwInterval, i));
  cover_by_members (b, before, bare, from.x);
  double missing = 0;
  for (guint i = 0; i < bare->len; i++)
    missing = fmax (missing, g_array_index (bare, SwInterval, i).high - g_array_index (bare, SwInterval, i).low);
  if (missing > 2 * b->width) /* the ends of a joint reach past the ends of battens, at a slanting wall both by more than one's width */
    mark (b->ceiling, SW_CEILING_JOINT_OFF_BATTEN, 0, middle_of (joint), missing, 0, "brandering.setout.bearing_mm");
}

/* Sheets along the battens end between them: noggins from batten to batten carry both ends. */
static void
support_end (const Bearing *b, const SwJoint *joint)
{
  const SwCeilingPart *part = &g_array_index (b->ceiling->parts, SwCeilingPart, b->index);
  const SwFrame across = { { 0, 0 }, 0, 1 }; /* x of this frame is the part's y, y is −x */
  SwPoint from = sw_frame_to (&across, sw_frame_to (&part->frame, joint->from)), to = sw_frame_to (&across, sw_frame_to (&part->frame, joint->to));
  SwInterval whole = { fmin (from.y, to.y), fmax (from.y, to.y) };
  /* A hair narrower, so that stored joints, which stand on the grid, find the same. */
  double half = b->width / 2 - SW_TOUCH_MM, low = from.x - half, high = from.x + half;
  g_autoptr (SwRings) turned = sw_rings_to (part->clear, &across);
  g_autoptr (GArray) room = g_array_new (FALSE, FALSE, sizeof (SwInterval)), wanted = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  g_array_append_val (wanted, whole);
  sw_rings_band (turned, low, high, room);
  sw_intervals_intersect (wanted, room);
  for (guint i = 0; i < b->n_members; i++)
    {
      const SwCeilingMember *member = &g_array_index (b->ceiling->members, SwCeilingMember, i);
      SwQuad quad = quad_in (part, &member->member);
      for (int k = 0; k < 4; k++)
        quad.corner[k] = sw_frame_to (&across, quad.corner[k]);
      if (member->part == b->index && member->member.kind != SW_MEMBER_PRIMARY && member->member.top == b->ceiling->top - part->drop)
        sw_intervals_keep_off (wanted, quad.corner, 4, low, high);
    }
  for (guint i = 0; i < wanted->len; i++)
    {
      SwInterval at = g_array_index (wanted, SwInterval, i);
      SwPoint a = sw_frame_from (&part->frame, sw_frame_from (&across, (SwPoint){ from.x, at.low }));
      SwPoint z = sw_frame_from (&part->frame, sw_frame_from (&across, (SwPoint){ from.x, at.high }));
      SwCeilingMember noggin = { .member = { { sw_grid_round (a.x), sw_grid_round (a.y) }, { sw_grid_round (z.x), sw_grid_round (z.y) }, b->width,
                                             b->ceiling->room->batten_depth, b->ceiling->top - part->drop, SW_MEMBER_NOGGIN },
                                 .part = b->index };
      if (at.high - at.low >= b->width - SW_TOUCH_MM)
        g_array_append_val (b->ceiling->members, noggin);
    }
}

static void
support_joints (SwCeiling *ceiling)
{
  int kind = ceiling->turned ? SW_JOINT_LONG : SW_JOINT_END;
  Bearing bearing = { .ceiling = ceiling, .n_members = ceiling->members->len, .width = ceiling->room->batten_width };
  bearing.bearing = sw_rules_value (ceiling->rules, "brandering.setout", "bearing_mm").value;
  for (bearing.index = 0; bearing.index < ceiling->parts->len; bearing.index++)
    {
      const SwCeilingPart *part = &g_array_index (ceiling->parts, SwCeilingPart, bearing.index);
      for (guint k = 0; k < part->n_joints; k++)
        {
          SwJoint joint = g_array_index (ceiling->joints, SwJoint, part->first_joint + k);
          if (joint.kind == kind)
            support_joint (&bearing, &joint);
          else if (ceiling->turned && joint.kind == SW_JOINT_END)
            support_end (&bearing, &joint);
        }
    }
}

/* ---- joints among each other ---- */

typedef struct
{
  double x, low, high; /* along the row; the joint's stretch across it */
  SwPoint at;
} EndJoint;

static int
compare_ends (gconstpointer pa, gconstpointer pb)
{
  const EndJoint *a = pa, *b = pb;
  if (a->x != b->x)
    return a->x < b->x ? -1 : 1;
  return (a->low > b->low) - (a->low < b->low);
}

static GArray *
end_joints (const SwCeiling *ceiling, const SwBoardField *field)
{
  GArray *ends = g_array_new (FALSE, FALSE, sizeof (EndJoint));
  const SwCeilingPart *part = field->part;
  for (guint k = 0; k < part->n_joints; k++)
    {
      const SwJoint *joint = &g_array_index (ceiling->joints, SwJoint, part->first_joint + k);
      SwPoint a = sw_frame_to (&part->frame, joint->from), b = sw_frame_to (&part->frame, joint->to);
      EndJoint end = { a.x, fmin (a.y, b.y), fmax (a.y, b.y), middle_of (joint) };
      if (field->turned)
        end = (EndJoint){ a.y, fmin (a.x, b.x), fmax (a.x, b.x), end.at };
      if (joint->kind == SW_JOINT_END)
        g_array_append_val (ends, end);
    }
  g_array_sort (ends, compare_ends);
  return ends;
}

/* Marks end joints that meet at a row's edge, or nearly. */
static void
mark_stagger (SwCeiling *ceiling, const SwBoardField *field)
{
  g_autoptr (GArray) ends = end_joints (ceiling, field);
  for (guint i = 0; i < ends->len; i++)
    for (guint k = i + 1; k < ends->len; k++)
      {
        const EndJoint *a = &g_array_index (ends, EndJoint, i), *b = &g_array_index (ends, EndJoint, k);
        double apart = b->x - a->x;
        if (apart >= field->stagger_least - SW_TOUCH_MM)
          break;
        if (fabs (a->high - b->low) < SW_TOUCH_MM || fabs (b->high - a->low) < SW_TOUCH_MM)
          mark (ceiling, SW_CEILING_STAGGER, 0, b->at, apart, field->stagger_least, "board.layout.stagger_supports");
      }
}

static void
mark_close_calls (SwCeiling *ceiling, const SwBoardField *field)
{
  const SwCeilingPart *part = field->part;
  for (guint k = 0; k < part->n_joints; k++)
    {
      SwJoint joint = g_array_index (ceiling->joints, SwJoint, part->first_joint + k);
      SwPoint a = sw_frame_to (&part->frame, joint.from), b = sw_frame_to (&part->frame, joint.to);
      if (field->turned)
        {
          a = (SwPoint){ a.y, a.x };
          b = (SwPoint){ b.y, b.x };
        }
      const SwKeepOff *off = sw_board_field_near (field, a, b);
      if (off != NULL)
        mark (ceiling, off->hatch ? SW_CEILING_JOINT_AT_HATCH : SW_CEILING_JOINT_AT_LIGHT, off->owner, middle_of (&joint), 0,
              off->keep, off->hatch ? "board.layout.hatch_joint_mm" : "board.layout.light_joint_mm");
    }
}

static void
mark_slivers (SwCeiling *ceiling)
{
  SwRuleValue limit = sw_rules_value (ceiling->rules, "board.layout", "sliver_mm");
  for (guint i = 0; i < ceiling->pieces->len; i++)
    {
      const SwCeilingPiece *piece = &g_array_index (ceiling->pieces, SwCeilingPiece, i);
      double least = fmin (piece->piece.length, piece->piece.width);
      if (least < limit.value - SW_TOUCH_MM)
        mark (ceiling, SW_CEILING_SLIVER, 0, g_array_index (ceiling->corners, SwPoint, piece->first), least, limit.value,
              limit.rule_id);
    }
}

static void
mark_fields (SwCeiling *ceiling)
{
  gboolean relief = ceiling->room->edge == SW_EDGE_SHADOW;
  SwRuleValue length;
  sw_ceiling_longest_field (ceiling->rules, sw_deck_job (ceiling->deck), ceiling->room, &length);
  SwRuleValue area = sw_rules_value (ceiling->rules, "board.movement", relief ? "relief_m2" : "plain_m2");
  for (guint i = 0; i < ceiling->parts->len; i++)
    {
      const SwCeilingPart *part = &g_array_index (ceiling->parts, SwCeilingPart, i);
      SwBox box = sw_rings_box (part->area);
      double longest = fmax (box.high.x - box.low.x, box.high.y - box.low.y), m2 = sw_rings_area (part->area) / 1e6;
      SwPoint at = sw_frame_from (&part->frame, sw_point_lerp (box.low, box.high, 0.5));
      if (longest > length.value * 1e3)
        mark (ceiling, SW_CEILING_WIDE_FIELD, 0, at, longest, length.value * 1e3, length.rule_id);
      else if (m2 > area.value)
        mark (ceiling, SW_CEILING_LARGE_FIELD, 0, at, m2, area.value, area.rule_id);
    }
}

/* ---- movement joints ---- */

static void
add_movement (SwCeiling *ceiling, SwPoint a, SwPoint b, const SwCeilingPart *self, const SwCeilingPart *other)
{
  SwFrame edge = sw_frame_along (a, b); /* in the plan; y to the left */
  g_autoptr (SwRings) there = sw_rings_from (other->area, &other->frame);
  g_autoptr (SwRings) here = sw_rings_from (self->area, &self->frame);
  g_autoptr (SwRings) turned = sw_rings_to (there, &edge);
  g_autoptr (GArray) parts = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  g_autoptr (GArray) touching = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  SwInterval whole = { 0, sw_point_distance (a, b) };
  double outward = sw_rings_holds (here, sw_frame_from (&edge, (SwPoint){ whole.high / 2, 1 })) ? -SW_BESIDE_MM : SW_BESIDE_MM;
  g_array_append_val (parts, whole);
  sw_rings_cut (turned, SW_ALONG_X, outward, touching);
  sw_intervals_intersect (parts, touching);
  for (guint i = 0; i < parts->len; i++)
    {
      SwInterval part = g_array_index (parts, SwInterval, i);
      SwJoint joint = { sw_frame_from (&edge, (SwPoint){ part.low, 0 }), sw_frame_from (&edge, (SwPoint){ part.high, 0 }),
                        SW_JOINT_MOVEMENT };
      if (part.high - part.low > SW_BESIDE_MM)
        g_array_append_val (ceiling->joints, joint);
    }
}

static void
movement_joints (SwCeiling *ceiling)
{
  for (guint i = 0; i < ceiling->parts->len; i++)
    for (guint k = i + 1; k < ceiling->parts->len; k++)
      {
        const SwCeilingPart *self = &g_array_index (ceiling->parts, SwCeilingPart, i);
        const SwCeilingPart *other = &g_array_index (ceiling->parts, SwCeilingPart, k);
        if (self->drop != other->drop) /* a face lies between them */
          continue;
        for (guint r = 0; r < sw_rings_n (self->area); r++)
          {
            guint n;
            const SwPoint *points = sw_rings_get (self->area, r, &n);
            for (guint s = 0; s < n; s++)
              add_movement (ceiling, sw_frame_from (&self->frame, points[s]),
                            sw_frame_from (&self->frame, points[s + 1 < n ? s + 1 : 0]), self, other);
          }
      }
}

/* ---- no-screw strips ---- */

/* The part of a segment whose tube hangs below z, as shares of the segment; FALSE when none does. */
static gboolean
below (SwPoint3 a, SwPoint3 b, double radius, double z, double *from, double *to)
{
  double fa = a.z - radius - z, fb = b.z - radius - z;
  *from = 0;
  *to = 1;
  if (fa >= -SW_TOUCH_MM && fb >= -SW_TOUCH_MM)
    return FALSE;
  if (fa > 0)
    *from = fa / (fa - fb);
  else if (fb > 0)
    *to = fa / (fa - fb);
  return TRUE;
}

/* Stretches below one level of the ceiling: `bulkhead`'s, or with NULL the room's own between its bulkheads. */
static void
add_strip (SwCeiling *ceiling, SwPoint a, SwPoint b, double width, const SwBulkhead *bulkhead, const GPtrArray *bulkheads)
{
  double length = sw_point_distance (a, b);
  if (length < SW_TOUCH_MM)
    return;
  g_autoptr (GArray) wanted = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  SwPoint along = sw_point_scale (sw_point_sub (b, a), 1 / length);
  SwInterval whole = { 0, length };
  g_array_append_val (wanted, whole);
  sw_deck_level_along (ceiling->room, bulkhead, bulkheads, a, along, wanted);
  for (guint i = 0; i < wanted->len; i++)
    {
      SwInterval part = g_array_index (wanted, SwInterval, i);
      SwStrip strip = { sw_point_add (a, sw_point_scale (along, part.low)), sw_point_add (a, sw_point_scale (along, part.high)),
                        width };
      g_array_append_val (ceiling->strips, strip);
    }
}

/* Under the room's own level all that hangs below the ribs is in the way of screws, in a bulkhead what hangs beside its battens. */
static void
add_strips (SwCeiling *ceiling, const SwRoute *route, double gap, const SwBulkhead *bulkhead, const GPtrArray *bulkheads)
{
  double level = bulkhead != NULL ? ceiling->top - bulkhead->drop : sw_deck_lowest_soffit (ceiling->deck, ceiling->room);
  for (guint k = 0; k + 1 < route->n; k++)
    {
      SwPoint3 a = route->axis[k], b = route->axis[k + 1];
      SwPoint pa = { a.x, a.y }, pb = { b.x, b.y };
      double from, to, radius = fmax (route->outer, route->radius);
      if (below (a, b, radius, level, &from, &to))
        add_strip (ceiling, sw_point_lerp (pa, pb, from), sw_point_lerp (pa, pb, to), 2 * (radius + gap), bulkhead, bulkheads);
    }
}

static void
strips (SwCeiling *ceiling)
{
  double gap = sw_rules_value (ceiling->rules, "brandering.setout", "crossing_gap_mm").value;
  SwBox box = sw_record_box (&ceiling->room->record);
  g_autoptr (GPtrArray) bulkheads = sw_deck_bulkheads (ceiling->deck, ceiling->room);
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_deck_job (ceiling->deck), SW_TABLE_RUN); (record = sw_job_iter_next (&i)) != NULL;)
    {
      if (!sw_box_meets (box, sw_record_box (record)))
        continue;
      /* A run that cannot be worked out is a snag of its own. */
      g_autoptr (SwRoute) route = sw_route_new (ceiling->deck, ceiling->rules, (const SwRun *) record, NULL);
      for (guint b = 0; route != NULL && b <= bulkheads->len; b++)
        add_strips (ceiling, route, gap, b > 0 ? bulkheads->pdata[b - 1] : NULL, bulkheads);
    }
}

void
sw_ceiling_finish_boards (SwCeiling *ceiling, const GPtrArray *fields)
{
  support_joints (ceiling);
  sw_ceiling_catch_pieces (ceiling);
  for (guint i = 0; i < fields->len; i++)
    {
      mark_stagger (ceiling, fields->pdata[i]);
      mark_close_calls (ceiling, fields->pdata[i]);
    }
  mark_slivers (ceiling);
  mark_fields (ceiling);
  movement_joints (ceiling);
  strips (ceiling);
}
