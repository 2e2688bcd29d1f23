/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/tolerance.h"
#include "ceiling/rows.h"

/* Pieces that were locked by hand. Each follows its room where walls have moved a little: it moves along with the corner that rows and
 * battens start from, goes on to a wall that has moved away from it, and ends at one that has come nearer. One that then lies wholly in its
 * part, on no other, and comes out of a sheet is taken out of the part's area, so that rows are laid around it; the others are laid anew, with
 * a mark. Joints round a locked piece are where its
 * sides along and across the rows have board on both sides; a stretch between two locked pieces belongs to the first. Sides that run
 * otherwise are walls. Locked pieces squared times their sides. */

#define LOST_MM2 200    /* of a piece's area, that the grid may take */
#define FOLLOW_MM 50.0  /* walls move so far when a room is measured again; one that moves further makes another room */
#define SIDE_MM 20.0    /* shorter sides do not go on to walls */

static SwRings *
to_field (const SwBoardField *field, const SwRings *plan)
{
  g_autoptr (SwRings) local = sw_rings_to (plan, &field->part->frame);
  SwFrame same = { { 0, 0 }, 1, 0 };
  return field->turned ? sw_rings_swapped (local) : sw_rings_to (local, &same);
}

static double
small_shift (double mm)
{
  return fabs (mm) > FOLLOW_MM || fabs (mm) < 2 * SW_TOUCH_MM ? 0 : mm;
}

/* By how much the corner that rows and battens start from has moved since the pieces were laid. */
static SwPoint
shift_since (const SwBoardField *field, const SwCeiling *ceiling)
{
  SwBox box = SW_BOX_EMPTY;
  for (guint i = 0; i < ceiling->kept->len; i++)
    {
      g_autoptr (SwRings) piece = to_field (field, ceiling->kept->pdata[i]);
      SwBox own = sw_rings_box (piece);
      if (!sw_rings_holds (field->whole, sw_point_lerp (own.low, own.high, 0.5)))
        continue;
      box = sw_box_add (sw_box_add (box, own.low), own.high);
    }
  if (!(box.low.x <= box.high.x))
    return (SwPoint){ 0, 0 };
  return (SwPoint){ small_shift (field->box.low.x - box.low.x), small_shift (field->box.low.y - box.low.y) };
}

/* ---- to walls that have moved away ---- */

/* What of the strip beside the side, from `near` to `far` off it, lies in the area, mm²; *strip (may be NULL) is that. */
static double
strip_inside (const SwRings *area, SwPoint a, SwPoint b, SwPoint outward, double near, double far, SwRings **strip)
{
  const SwPoint corners[] = { sw_point_add (a, sw_point_scale (outward, near)), sw_point_add (b, sw_point_scale (outward, near)),
                              sw_point_add (b, sw_point_scale (outward, far)), sw_point_add (a, sw_point_scale (outward, far)) };
  g_autoptr (SwRings) bar = sw_rings_new ();
  sw_rings_add (bar, corners, 4);
  SwRings *inside = sw_rings_combine (bar, area, sw_region_intersect, NULL);
  double mm2 = inside ? sw_rings_area (inside) : 0;
  if (strip != NULL && inside != NULL)
    *strip = inside;
  else
    sw_rings_free (inside);
  return mm2;
}

/* The piece with what lies between the side and a wall close by; NULL where that is nothing, or no wall. */
static SwRings *
extend_side (const SwBoardField *field, const SwRings *piece, SwPoint a, SwPoint b)
{
  double length = sw_point_distance (a, b);
  g_autoptr (SwRings) strip = NULL;
  if (length < SIDE_MM)
    return NULL;
  SwPoint along = sw_point_scale (sw_point_sub (b, a), 1 / length), out = { along.y, -along.x };
  if (sw_rings_holds (piece, sw_point_add (sw_point_lerp (a, b, 0.5), sw_point_scale (out, 1))))
    out = sw_point_scale (out, -1);
  if (strip_inside (field->area, a, b, out, 0, FOLLOW_MM, &strip) < LOST_MM2
      || strip_inside (field->whole, a, b, out, FOLLOW_MM, 2 * FOLLOW_MM, NULL) > LOST_MM2)
    return NULL;
  SwRings *whole = sw_rings_combine (piece, strip, sw_region_union, NULL);
  if (whole == NULL)
    return NULL;
  sw_rings_straighten (whole);
  SwBox box = sw_rings_box (whole);
  if (sw_rings_n (whole) == 1 && box.high.x - box.low.x <= field->length + SW_TOUCH_MM && box.high.y - box.low.y <= field->width + SW_TOUCH_MM)
    return whole;
  sw_rings_free (whole);
  return NULL;
}

static void
extend_to_walls (const SwBoardField *field, SwRings **piece)
{
  guint n;
  const SwPoint *points = sw_rings_get (*piece, 0, &n);
  for (guint k = 0, rounds = 0; k < n && rounds < 4 * n; k++, rounds++)
    {
      SwRings *wider = extend_side (field, *piece, points[k], points[k + 1 < n ? k + 1 : 0]);
      if (wider == NULL)
        continue;
      sw_rings_free (*piece);
      *piece = wider;
      points = sw_rings_get (*piece, 0, &n);
      k = G_MAXUINT; /* from the first side again */
    }
}

/* ---- what fits ---- */

/* Cuts the piece to what is free of it, where only its edge stands out. FALSE with an error. */
static gboolean
clip (const SwBoardField *field, SwRings **piece, gboolean *inside, GError **error)
{
  SwRings *common = sw_rings_combine (field->area, *piece, sw_region_intersect, error);
  if (common == NULL)
    return FALSE;
  sw_rings_straighten (common);
  double area = sw_rings_area (*piece), here = sw_rings_area (common);
  SwBox before = sw_rings_box (*piece), after = sw_rings_box (common);
  *inside = here > area / 2;
  gboolean edge = sw_rings_n (common) == 1 && here < area - LOST_MM2 && here > area - FOLLOW_MM * (before.high.x - before.low.x + before.high.y - before.low.y)
                  && after.low.x - before.low.x <= FOLLOW_MM && before.high.x - after.high.x <= FOLLOW_MM
                  && after.low.y - before.low.y <= FOLLOW_MM && before.high.y - after.high.y <= FOLLOW_MM;
  if (edge)
    {
      SwRings *swap = *piece;
      *piece = common;
      common = swap;
    }
  sw_rings_free (common);
  return TRUE;
}

/* Whether what is free holds the piece, but for what the grid takes. */
static gboolean
fits (const SwBoardField *field, const SwRings *piece, gboolean *fits_here, GError **error)
{
  g_autoptr (SwRings) common = sw_rings_combine (field->area, piece, sw_region_intersect, error);
  if (common == NULL)
    return FALSE;
  SwBox box = sw_rings_box (piece);
  *fits_here = sw_rings_area (common) > sw_rings_area (piece) - LOST_MM2 && box.high.x - box.low.x <= field->length + SW_TOUCH_MM
               && box.high.y - box.low.y <= field->width + SW_TOUCH_MM;
  return TRUE;
}

/* Takes the piece over: among the locked ones where it fits, else away. */
static gboolean
lock_piece (SwBoardField *field, SwCeiling *ceiling, SwRings *piece, SwPoint at, GError **error)
{
  gboolean here = FALSE, inside = FALSE;
  gboolean done = clip (field, &piece, &inside, error) && fits (field, piece, &here, error);
  SwCeilingMark mark = { SW_CEILING_LOCK_LOST, ceiling->room->record.id, at, 0, 0, NULL };
  if (!here)
    {
      if (inside)
        g_array_append_val (ceiling->marks, mark);
      sw_rings_free (piece);
      return done;
    }
  extend_to_walls (field, &piece);
  g_ptr_array_add (field->locked, piece);
  SwRings *rest = sw_rings_combine (field->area, piece, sw_region_subtract, error);
  if (rest == NULL)
    return FALSE;
  sw_rings_straighten (rest);
  sw_rings_free (field->area);
  field->area = rest;
  return TRUE;
}

gboolean
sw_board_field_lock (SwBoardField *field, SwCeiling *ceiling, GError **error)
{
  SwPoint shift = ceiling->locked->len > 0 ? shift_since (field, ceiling) : (SwPoint){ 0, 0 };
  for (guint i = 0; i < ceiling->locked->len; i++)
    {
      const SwRings *plan = ceiling->locked->pdata[i];
      SwRings *piece = to_field (field, plan);
      for (guint k = 0; k < piece->points->len; k++)
        g_array_index (piece->points, SwPoint, k) = sw_point_add (g_array_index (piece->points, SwPoint, k), shift);
      if (!lock_piece (field, ceiling, piece, g_array_index (plan->points, SwPoint, 0), error))
        return FALSE;
    }
  return TRUE;
}

/* ---- joints ---- */

/* What of the stretch is taken by locked pieces before this one, on the outer side at `outer`. */
static void
drop_earlier (const SwBoardField *field, guint index, SwAlong along, double outer, GArray *parts)
{
  for (guint k = 0; k < index; k++)
    {
      g_autoptr (GArray) taken = g_array_new (FALSE, FALSE, sizeof (SwInterval));
      sw_rings_cut (field->locked->pdata[k], along, outer, taken);
      for (guint i = 0; i < taken->len; i++)
        sw_intervals_subtract (parts, g_array_index (taken, SwInterval, i).low, g_array_index (taken, SwInterval, i).high);
    }
}

static void
seam_of_side (const SwBoardField *field, guint index, SwPoint a, SwPoint b, SwLockedSeam seam, gpointer data)
{
  gboolean upright = fabs (a.x - b.x) < SW_TOUCH_MM, level = fabs (a.y - b.y) < SW_TOUCH_MM;
  if (upright == level)
    return;
  SwAlong along = upright ? SW_ALONG_Y : SW_ALONG_X;
  double at = upright ? a.x : a.y;
  SwInterval side = upright ? (SwInterval){ fmin (a.y, b.y), fmax (a.y, b.y) } : (SwInterval){ fmin (a.x, b.x), fmax (a.x, b.x) };
  SwPoint middle = sw_point_lerp (a, b, 0.5);
  SwPoint beyond = { middle.x + upright, middle.y + level };
  double outer = at + (sw_rings_holds (field->locked->pdata[index], beyond) ? -1 : 1);
  g_autoptr (GArray) parts = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  g_autoptr (GArray) wanted = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  g_array_append_val (wanted, side);
  sw_rings_seam (field->whole, along, at, field->bearing, parts);
  sw_intervals_intersect (parts, wanted);
  drop_earlier (field, index, along, outer, parts);
  for (guint i = parts->len; i-- > 0;)
    if (g_array_index (parts, SwInterval, i).high - g_array_index (parts, SwInterval, i).low < 1)
      g_array_remove_index (parts, i);
  if (parts->len > 0)
    seam (along, at, parts, data);
}

void
sw_board_field_locked_seams (const SwBoardField *field, SwLockedSeam seam, gpointer data)
{
  for (guint i = 0; i < field->locked->len; i++)
    {
      const SwRings *piece = field->locked->pdata[i];
      for (guint r = 0; r < sw_rings_n (piece); r++)
        {
          guint n;
          const SwPoint *points = sw_rings_get (piece, r, &n);
          for (guint k = 0; k < n; k++)
            seam_of_side (field, i, points[k], points[k + 1 < n ? k + 1 : 0], seam, data);
        }
    }
}
