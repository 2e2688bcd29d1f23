/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "base/tolerance.h"
#include "ceiling/brandering.h"
#include "ceiling/clip.h"
#include "ceiling/lay.h"

/* The room cut up for laying. Bays with one direction of voids go together; what of the room lies under none goes to the
 * nearest bay's. Bulkheads are levels of their own: each is cut up alike, and what is left of the room. Columns, shafts, openings and beams that reach the ceiling are taken out; each connected piece that is left is
 * a part with a frame of its own, turned to its battens. Set operations on outlines; bays times rooms' sides. */

#define LEAST_AREA 100     /* mm²: smaller leavings of set operations are dropped */
#define LEAST_WIDTH 1      /* mm: so are those that are thinner on the whole */
#define LEG_GAIN 0.9    /* a cut into legs has to leave less to span than that share */
#define MOST_LEG_CUTS 12
#define SAME_DIRECTION 0.01 /* degrees */

typedef struct
{
  double direction; /* of the voids, degrees from 0 to below 180 */
  SwRings *area;    /* in the plan */
} Group;

static double
half_turn (double degrees)
{
  double turned = fmod (degrees, 180);
  if (turned < 0)
    turned += 180;
  return 180 - turned < SAME_DIRECTION ? 0 : turned;
}

static SwRings *
rings_of (const SwList *outline)
{
  SwRings *rings = sw_rings_new ();
  sw_rings_add (rings, outline->items, outline->n);
  return rings;
}

/* Replaces *rings by the result of a set operation with `other`. */
static gboolean
apply (SwRings **rings, const SwRings *other, SwRingsCombine combine, GError **error)
{
  SwRings *result = sw_rings_combine (*rings, other, combine, error);
  if (result == NULL)
    return FALSE;
  sw_rings_free (*rings);
  *rings = result;
  return TRUE;
}

static void
clear_group (gpointer data)
{
  sw_rings_free (((Group *) data)->area);
}

static Group *
group_for (GArray *groups, double direction)
{
  for (guint i = 0; i < groups->len; i++)
    if (fabs (g_array_index (groups, Group, i).direction - direction) < SAME_DIRECTION)
      return &g_array_index (groups, Group, i);
  Group group = { direction, sw_rings_new () };
  g_array_append_val (groups, group);
  return &g_array_index (groups, Group, groups->len - 1);
}

/* What of the room lies under bays, by direction; *rest is what does not. */
static gboolean
group_bays (const SwLay *lay, GArray *groups, SwRings **rest, GError **error)
{
  const SwRoom *room = lay->ceiling->room;
  SwBox box = sw_record_box (&room->record);
  for (guint i = 0; i < sw_deck_n_bays (lay->ceiling->deck); i++)
    {
      const SwDeckBay *bay = sw_deck_bay (lay->ceiling->deck, i);
      if (!sw_box_meets (box, sw_record_box (&bay->bay->record)))
        continue;
      g_autoptr (SwRings) outline = rings_of (&bay->bay->outline);
      g_autoptr (SwRings) part = sw_rings_combine (*rest, outline, sw_region_intersect, error);
      if (part == NULL || !apply (rest, outline, sw_region_subtract, error))
        return FALSE;
      if (sw_rings_area (part) < LEAST_AREA)
        continue;
      Group *group = group_for (groups, half_turn (bay->bay->direction));
      if (!apply (&group->area, part, sw_region_union, error))
        return FALSE;
    }
  return TRUE;
}

static guint
nearest_group (const SwLay *lay, const GArray *groups, SwPoint p)
{
  double best = INFINITY, direction = 0;
  for (guint i = 0; i < sw_deck_n_bays (lay->ceiling->deck); i++)
    {
      const SwBay *bay = sw_deck_bay (lay->ceiling->deck, i)->bay;
      double distance = sw_outline_distance (bay->outline.items, bay->outline.n, p, NULL, NULL);
      gboolean known = FALSE;
      for (guint g = 0; g < groups->len; g++)
        known = known || fabs (g_array_index (groups, Group, g).direction - half_turn (bay->direction)) < SAME_DIRECTION;
      if (known && distance < best)
        {
          best = distance;
          direction = half_turn (bay->direction);
        }
    }
  for (guint g = 0; g < groups->len; g++)
    if (fabs (g_array_index (groups, Group, g).direction - direction) < SAME_DIRECTION)
      return g;
  return 0;
}

/* Gives what lies under no bay to the nearest one's group, with a mark when a batten's end could not reach over it. */
static gboolean
give_rest (SwLay *lay, GArray *groups, const SwRings *rest, GError **error)
{
  g_autoptr (GPtrArray) polygons = sw_rings_polygons (rest);
  for (guint i = 0; i < polygons->len; i++)
    {
      guint n;
      const SwRings *polygon = polygons->pdata[i];
      const SwPoint *points = sw_rings_get (polygon, 0, &n);
      if (sw_rings_area (polygon) < LEAST_AREA)
        continue;
      SwPoint middle = sw_outline_label_point (points, n);
      double depth = sw_outline_distance (points, n, middle, NULL, NULL);
      Group *group = &g_array_index (groups, Group, nearest_group (lay, groups, middle));
      if (!apply (&group->area, polygon, sw_region_union, error))
        return FALSE;
      SwCeilingMark mark = { SW_CEILING_NO_DECK, lay->ceiling->room->record.id, middle, 2 * depth, lay->cantilever,
                             "brandering.setout.cantilever_mm" };
      if (2 * depth > lay->cantilever)
        g_array_append_val (lay->ceiling->marks, mark);
    }
  return TRUE;
}

/* ---- what is taken out ---- */

static gboolean
subtract_ring (SwRings **rings, const SwPoint *points, guint n, GError **error)
{
  g_autoptr (SwRings) other = sw_rings_new ();
  sw_rings_add (other, points, n);
  if (!sw_box_meets (sw_rings_box (*rings), sw_rings_box (other)))
    return TRUE;
  return apply (rings, other, sw_region_subtract, error);
}

static gboolean
subtract_outlines (const SwLay *lay, SwTable table, SwRings **rings, GError **error)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_deck_job (lay->ceiling->deck), table); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwList *outline = table == SW_TABLE_COLUMN ? &((const SwColumn *) record)->outline
                                                       : &((const SwOpening *) record)->outline;
      if (!subtract_ring (rings, outline->items, outline->n, error))
        return FALSE;
    }
  return TRUE;
}

/* Beams whose underside is below z. */
static gboolean
subtract_beams (const SwLay *lay, double z, SwRings **rings, GError **error)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_deck_job (lay->ceiling->deck), SW_TABLE_BEAM); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwBeam *beam = (const SwBeam *) record;
      double soffit = sw_deck_soffit_at (lay->ceiling->deck, sw_point_lerp (beam->from, beam->to, 0.5));
      SwQuad quad = sw_quad_around (beam->from, beam->to, beam->width);
      if (soffit - beam->drop < z - SW_TOUCH_MM && !subtract_ring (rings, quad.corner, 4, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
subtract_hatches (const SwLay *lay, SwRings **rings, GError **error)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_deck_job (lay->ceiling->deck), SW_TABLE_HATCH);
       (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwHatch *hatch = (const SwHatch *) record;
      double turn = hatch->turn * G_PI / 180;
      SwPoint half = sw_point_turn ((SwPoint){ hatch->length / 2, 0 }, cos (turn), sin (turn));
      SwQuad quad = sw_quad_around (sw_point_sub (hatch->at, half), sw_point_add (hatch->at, half), hatch->width);
      if (!subtract_ring (rings, quad.corner, 4, error))
        return FALSE;
    }
  return TRUE;
}

/* ---- parts ---- */

/* x counts the battens: along the voids when battens run across the ribs, else across them. */
static SwFrame
frame_for (const SwRings *area, double direction, gboolean along)
{
  double turn = (direction - (along ? 90 : 0)) * G_PI / 180;
  SwFrame frame = { { 0, 0 }, cos (turn), sin (turn) };
  if (fabs (frame.cosine) < 1e-12)
    frame.cosine = 0;
  if (fabs (frame.sine) < 1e-12)
    frame.sine = 0;
  g_autoptr (SwRings) local = sw_rings_to (area, &frame);
  SwPoint low = sw_rings_box (local).low;
  frame.origin = sw_frame_from (&frame, (SwPoint){ sw_settle (low.x), sw_settle (low.y) }); /* as firm as the walls against the ribs */
  return frame;
}

/* Across the narrower way, so that walls and faces carry them. */
static SwFrame
frame_across (const SwRings *area, double direction)
{
  SwFrame one = frame_for (area, direction, FALSE), two = frame_for (area, direction, TRUE);
  g_autoptr (SwRings) local = sw_rings_to (area, &one);
  SwBox box = sw_rings_box (local);
  return box.high.y - box.low.y > box.high.x - box.low.x + SW_TOUCH_MM ? two : one;
}

static gboolean
add_part (SwLay *lay, const SwRings *polygon, double direction, const SwBulkhead *bulkhead, GError **error)
{
  SwCeiling *ceiling = lay->ceiling;
  SwFrame same = { { 0, 0 }, 1, 0 };
  g_autoptr (SwRings) area = sw_rings_to (polygon, &same);
  g_autoptr (SwRings) clear = sw_rings_to (polygon, &same);
  SwCeilingPart part = { 0 };
  if (bulkhead != NULL)
    {
      part.bulkhead = bulkhead->record.id;
      part.drop = bulkhead->drop;
      part.framed = bulkhead->frame == SW_BULKHEAD_FRAMED;
    }
  part.layered = ceiling->room->direction == SW_DIRECTION_ALONG && !part.framed;
  sw_rings_straighten (area);
  part.frame = part.framed ? frame_across (area, direction) : frame_for (area, direction, part.layered);
  if (!subtract_hatches (lay, &area, error) || !subtract_beams (lay, ceiling->primary_top - part.drop, &clear, error))
    return FALSE;
  sw_rings_straighten (area);
  sw_rings_straighten (clear);
  part.area = sw_rings_to (area, &part.frame);
  part.clear = sw_rings_to (clear, &part.frame);
  sw_rings_settle (part.area, part.clear);
  g_array_append_val (ceiling->parts, part);
  return TRUE;
}

/* No leaving of two sides that are as good as one. */
static gboolean
is_worth (const SwRings *polygon)
{
  double area = sw_rings_area (polygon), around = 0;
  for (guint i = 0; i < sw_rings_n (polygon); i++)
    {
      guint n;
      const SwPoint *points = sw_rings_get (polygon, i, &n);
      around += sw_outline_perimeter (points, n);
    }
  return area >= LEAST_AREA && 2 * area >= LEAST_WIDTH * around;
}

/* Shares a field by joints along the ribs, which end the members that hang from them. */
static gboolean
add_along_ribs (SwLay *lay, SwRings *field, double direction, const SwBulkhead *bulkhead, GError **error)
{
  SwFrame same = { { 0, 0 }, 1, 0 }, frame = frame_for (field, direction, TRUE);
  g_autoptr (SwRings) timber = sw_rings_to (field, &same);
  g_autoptr (GPtrArray) fields = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_rings_free);
  double drop = bulkhead != NULL ? bulkhead->drop : 0;
  if (!subtract_hatches (lay, &timber, error) || !subtract_beams (lay, lay->ceiling->primary_top - drop, &timber, error)
      || !sw_lay_fields (lay, field, timber, &frame, fields, error))
    return FALSE;
  for (guint i = 0; i < fields->len; i++)
    if (is_worth (fields->pdata[i]) && !add_part (lay, fields->pdata[i], direction, bulkhead, error))
      return FALSE;
  return TRUE;
}

/* ---- legs of framed bulkheads ---- */

/* How far battens of the polygon span at the least, by its box. */
static double
span_of (const SwRings *polygon)
{
  SwBox box = sw_rings_box (polygon);
  return fmin (box.high.x - box.low.x, box.high.y - box.low.y);
}

/* What is spanned in all: area by area. */
static double
spans_of (const GPtrArray *polygons)
{
  double sum = 0;
  for (guint i = 0; i < polygons->len; i++)
    sum += span_of (polygons->pdata[i]) * sw_rings_area (polygons->pdata[i]);
  return sum;
}

static GPtrArray *
cut_polygon (const SwRings *polygon, SwAlong along, double at)
{
  SwRings *sides[2];
  GPtrArray *all = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_rings_free);
  sw_rings_split (polygon, along, at, &sides[0], &sides[1]);
  for (int k = 0; k < 2; k++)
    {
      g_autoptr (GPtrArray) polygons = sw_rings_polygons (sides[k]);
      g_ptr_array_set_free_func (polygons, NULL);
      for (guint i = 0; i < polygons->len; i++)
        g_ptr_array_add (all, polygons->pdata[i]);
      sw_rings_free (sides[k]);
    }
  return all;
}

/* The cut through one of its corners after which battens span the least; NULL where none gains much. */
static GPtrArray *
best_cut (const SwRings *polygon)
{
  GPtrArray *best = NULL;
  double least = LEG_GAIN * span_of (polygon) * sw_rings_area (polygon);
  for (guint i = 0; i < polygon->points->len; i++)
    for (int way = 0; way < 2; way++)
      {
        SwPoint corner = g_array_index (polygon->points, SwPoint, i);
        g_autoptr (GPtrArray) cut = cut_polygon (polygon, way ? SW_ALONG_Y : SW_ALONG_X, way ? corner.x : corner.y);
        double sum = spans_of (cut);
        if (cut->len < 2 || sum >= least)
          continue;
        least = sum;
        g_clear_pointer (&best, g_ptr_array_unref);
        best = g_steal_pointer (&cut);
      }
  return best;
}

/* A framed bulkhead that goes round corners is cut into legs, each with battens across it, where those of the whole would span more than
 * `most`. Each cut is straight through, so that there are few. The legs (SwRings in the same frame) are added to `legs`. */
static void
cut_legs (const SwRings *polygon, double most, guint depth, GPtrArray *legs)
{
  SwFrame same = { { 0, 0 }, 1, 0 };
  g_autoptr (GPtrArray) cut = depth < MOST_LEG_CUTS && span_of (polygon) > most ? best_cut (polygon) : NULL;
  if (cut == NULL)
    g_ptr_array_add (legs, sw_rings_to (polygon, &same));
  for (guint i = 0; cut != NULL && i < cut->len; i++)
    cut_legs (cut->pdata[i], most, depth + 1, legs);
}

static gboolean
add_legs (SwLay *lay, SwRings *polygon, double direction, const SwBulkhead *bulkhead, GError **error)
{
  const SwRoom *room = lay->ceiling->room;
  SwFrame frame = frame_for (polygon, direction, FALSE);
  g_autoptr (SwRings) local = sw_rings_to (polygon, &frame);
  g_autoptr (GPtrArray) legs = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_rings_free);
  double most = sw_rules_value (lay->ceiling->rules, "brandering.setout", "primary_most_mm").value, span;
  if (sw_ceiling_published_span (lay->ceiling->rules, room, room->batten_width, room->batten_depth, &span, NULL))
    most = fmin (most, span);
  sw_rings_settle (local, NULL);
  cut_legs (local, most, 0, legs);
  for (guint i = 0; i < legs->len; i++)
    {
      g_autoptr (SwRings) leg = sw_rings_from (legs->pdata[i], &frame);
      if (is_worth (leg) && !add_part (lay, leg, direction, bulkhead, error))
        return FALSE;
    }
  return TRUE;
}

/* The polygon in one part, or several with movement joints between: first across the ribs, then each field along them. */
static gboolean
add_fields (SwLay *lay, SwRings *polygon, double direction, const SwBulkhead *bulkhead, GError **error)
{
  gboolean framed = bulkhead != NULL && bulkhead->frame == SW_BULKHEAD_FRAMED;
  g_autoptr (GPtrArray) fields = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_rings_free);
  SwFrame frame = frame_for (polygon, direction, FALSE);
  if (framed)
    return add_legs (lay, polygon, direction, bulkhead, error);
  if (!sw_lay_fields (lay, polygon, NULL, &frame, fields, error))
    return FALSE;
  for (guint i = 0; i < fields->len; i++)
    if (is_worth (fields->pdata[i]) && !add_along_ribs (lay, fields->pdata[i], direction, bulkhead, error))
      return FALSE;
  return TRUE;
}

static gboolean
split_group (SwLay *lay, Group *group, const SwBulkhead *bulkhead, GError **error)
{
  double back = lay->ceiling->top - lay->ceiling->room->batten_depth - (bulkhead != NULL ? bulkhead->drop : 0);
  if (!subtract_outlines (lay, SW_TABLE_COLUMN, &group->area, error)
      || !subtract_outlines (lay, SW_TABLE_OPENING, &group->area, error) || !subtract_beams (lay, back, &group->area, error))
    return FALSE;
  g_autoptr (GPtrArray) polygons = sw_rings_polygons (group->area);
  for (guint i = 0; i < polygons->len; i++)
    if (is_worth (polygons->pdata[i]) && !add_fields (lay, polygons->pdata[i], group->direction, bulkhead, error))
      return FALSE;
  return TRUE;
}

/* One level of the room's ceiling: its own, or a bulkhead's bottom. */
static gboolean
add_level (SwLay *lay, const SwRings *area, const SwBulkhead *bulkhead, GError **error)
{
  SwFrame same = { { 0, 0 }, 1, 0 };
  SwRings *rest = sw_rings_to (area, &same);
  g_autoptr (GArray) groups = g_array_new (FALSE, FALSE, sizeof (Group));
  g_array_set_clear_func (groups, clear_group);
  gboolean done = group_bays (lay, groups, &rest, error);
  if (done && groups->len == 0)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, "%s \"%s\" lies under no bay: draw the deck above it first",
                   bulkhead != NULL ? "bulkhead" : "room", bulkhead != NULL ? bulkhead->record.tag : lay->ceiling->room->record.tag);
      done = FALSE;
    }
  done = done && give_rest (lay, groups, rest, error);
  for (guint i = 0; done && i < groups->len; i++)
    done = split_group (lay, &g_array_index (groups, Group, i), bulkhead, error);
  sw_rings_free (rest);
  return done;
}

/* The lowest first; of two alike the first in the job. */
static int
compare_drops (gconstpointer pa, gconstpointer pb)
{
  const SwBulkhead *a = *(const SwBulkhead *const *) pa, *b = *(const SwBulkhead *const *) pb;
  if (a->drop != b->drop)
    return a->drop > b->drop ? -1 : 1;
  return (a->record.id > b->record.id) - (a->record.id < b->record.id);
}

gboolean
sw_lay_parts (SwLay *lay, GError **error)
{
  SwRings *rest = rings_of (&lay->ceiling->room->outline);
  g_autoptr (GPtrArray) bulkheads = sw_deck_bulkheads (lay->ceiling->deck, lay->ceiling->room);
  g_autoptr (GPtrArray) areas = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_rings_free);
  g_ptr_array_sort (bulkheads, compare_drops);
  gboolean done = TRUE;
  for (guint i = 0; done && i < bulkheads->len; i++)
    {
      const SwBulkhead *bulkhead = bulkheads->pdata[i];
      g_autoptr (SwRings) outline = rings_of (&bulkhead->outline);
      SwRings *area = sw_rings_combine (rest, outline, sw_region_intersect, error);
      done = area != NULL && apply (&rest, outline, sw_region_subtract, error);
      if (area != NULL)
        g_ptr_array_add (areas, area);
    }
  if (done && (areas->len == 0 || is_worth (rest)))
    done = add_level (lay, rest, NULL, error);
  for (guint i = 0; done && i < areas->len; i++)
    if (is_worth (areas->pdata[i]))
      done = add_level (lay, areas->pdata[i], bulkheads->pdata[i], error);
  sw_rings_free (rest);
  return done;
}
