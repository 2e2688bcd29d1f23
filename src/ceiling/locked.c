/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/tolerance.h"
#include "ceiling/rows.h"

/* Pieces that were locked by hand. One that still lies wholly in its part, on no other, and comes out of a sheet is taken out of the
 * part's area, so that rows are laid around it; the others are laid anew, with a mark. Joints round a locked piece are where its
 * sides along and across the rows have board on both sides; a stretch between two locked pieces belongs to the first. Sides that run
 * otherwise are walls. Locked pieces squared times their sides. */

#define LOST_MM2 200 /* of a piece's area, that the grid may take */

static SwRings *
to_field (const SwBoardField *field, const SwRings *plan)
{
  g_autoptr (SwRings) local = sw_rings_to (plan, &field->part->frame);
  SwFrame same = { { 0, 0 }, 1, 0 };
  return field->turned ? sw_rings_swapped (local) : sw_rings_to (local, &same);
}

/* Whether what is free holds the piece, but for what the grid takes. *inside: whether it lies in the part at all. */
static gboolean
fits (const SwBoardField *field, const SwRings *piece, gboolean *fits_here, gboolean *inside, GError **error)
{
  g_autoptr (SwRings) common = sw_rings_combine (field->area, piece, sw_region_intersect, error);
  if (common == NULL)
    return FALSE;
  double area = sw_rings_area (piece), here = sw_rings_area (common);
  SwBox box = sw_rings_box (piece);
  *inside = here > area / 2;
  *fits_here = here > area - LOST_MM2 && box.high.x - box.low.x <= field->length + SW_TOUCH_MM
               && box.high.y - box.low.y <= field->width + SW_TOUCH_MM;
  return TRUE;
}

gboolean
sw_board_field_lock (SwBoardField *field, SwCeiling *ceiling, GError **error)
{
  for (guint i = 0; i < ceiling->locked->len; i++)
    {
      const SwRings *plan = ceiling->locked->pdata[i];
      SwRings *piece = to_field (field, plan);
      gboolean here = FALSE, inside = FALSE;
      if (!fits (field, piece, &here, &inside, error))
        {
          sw_rings_free (piece);
          return FALSE;
        }
      if (!here)
        {
          SwCeilingMark mark = { SW_CEILING_LOCK_LOST, ceiling->room->record.id, g_array_index (plan->points, SwPoint, 0), 0, 0, NULL };
          if (inside)
            g_array_append_val (ceiling->marks, mark);
          sw_rings_free (piece);
          continue;
        }
      g_ptr_array_add (field->locked, piece);
      SwRings *rest = sw_rings_combine (field->area, piece, sw_region_subtract, error);
      if (rest == NULL)
        return FALSE;
      sw_rings_straighten (rest);
      sw_rings_free (field->area);
      field->area = rest;
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
