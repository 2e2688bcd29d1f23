/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Walls go where the measured outline of their room goes: one that lies along a side for half of its length or more keeps its place on that side
 * and its distance from it; one that ends at such a wall is lengthened or shortened to it. Others stay: most of them belongs to rooms
 * that say nothing. O(walls × (sides + moved walls)). */
#include "space/survey.h"
#include "base/tolerance.h"
#include "job/edit.h"

#define ALONG_SINE 0.02 /* about 1°: what turns less lies along */

typedef struct
{
  const SwWall *wall;
  SwPoint from, to; /* where it goes */
} Moved;

/* A side of the room as it was drawn and as it is measured. */
typedef struct
{
  SwPoint from, to, new_from, new_to;
} Side;

static SwPoint
unit (SwPoint from, SwPoint to, double *length)
{
  SwPoint way = sw_point_sub (to, from);
  *length = sw_point_length (way);
  return *length > 0 ? sw_point_scale (way, 1 / *length) : (SwPoint){ 0 };
}

/* Along the old side, in proportion, and beside it by as much as before; past its ends by as much as before too, up to `corner`: what
 * reaches farther belongs to other rooms, and goes aside only. */
static SwPoint
carried (const Side *side, SwPoint p, double corner)
{
  double old_length, length;
  SwPoint old = unit (side->from, side->to, &old_length), now = unit (side->new_from, side->new_to, &length), off = sw_point_sub (p, side->from);
  double along = sw_point_dot (off, old), aside = sw_point_cross (old, off);
  double on = along < 0 ? along : along > old_length ? length + along - old_length : along * length / old_length;
  if (along < -corner || along > old_length + corner)
    on = sw_point_dot (sw_point_sub (p, side->new_from), now);
  SwPoint at = sw_point_add (sw_point_add (side->new_from, sw_point_scale (now, on)), sw_point_scale ((SwPoint){ -now.y, now.x }, aside));
  return (SwPoint){ round (at.x), round (at.y) };
}

/* How much of a wall lies along a side, from 0 to 1. */
static double
share_along (const Side *side, const SwWall *wall, double reach)
{
  double length, old_length;
  SwPoint way = unit (wall->from, wall->to, &length), old = unit (side->from, side->to, &old_length);
  if (length <= SW_TOUCH_MM || old_length <= SW_TOUCH_MM || fabs (sw_point_cross (old, way)) > ALONG_SINE)
    return 0;
  SwPoint middle = sw_point_sub (sw_point_lerp (wall->from, wall->to, 0.5), side->from);
  if (fabs (sw_point_cross (old, middle)) > wall->thickness / 2 + reach)
    return 0;
  double a = sw_point_dot (sw_point_sub (wall->from, side->from), old), b = sw_point_dot (sw_point_sub (wall->to, side->from), old);
  return fmax (fmin (fmax (a, b), old_length) - fmax (fmin (a, b), 0), 0) / length;
}

static GArray *
walls_along (const SwJob *job, const SwRoom *room, const SwPoint *corners, double reach)
{
  GArray *moved = g_array_new (FALSE, FALSE, sizeof (Moved));
  const SwRecord *record;
  for (SwJobIter w = sw_job_iter (job, SW_TABLE_WALL); (record = sw_job_iter_next (&w)) != NULL;)
    {
      const SwWall *wall = (const SwWall *) record;
      double most = 0.5;
      Moved one = { wall, wall->from, wall->to };
      for (guint i = 0; i < room->outline.n; i++)
        {
          guint next = (i + 1) % room->outline.n;
          Side side = { SW_LIST_AT (room->outline, SwPoint, i), SW_LIST_AT (room->outline, SwPoint, next), corners[i], corners[next] };
          double share = share_along (&side, wall, reach);
          if (share < most)
            continue;
          most = share;
          one = (Moved){ wall, carried (&side, wall->from, wall->thickness + reach), carried (&side, wall->to, wall->thickness + reach) };
        }
      if (sw_point_distance (one.from, wall->from) > SW_TOUCH_MM || sw_point_distance (one.to, wall->to) > SW_TOUCH_MM)
        g_array_append_val (moved, one);
    }
  return moved;
}

/* Where the end of a wall goes that stands against a moved one: along itself, so that it is as far from the other's line as before. */
static SwPoint
joined_end (const Moved *moved, SwPoint end, SwPoint other, double reach)
{
  double length, old_length, new_length;
  SwPoint own = unit (end, other, &length), old = unit (moved->wall->from, moved->wall->to, &old_length), now = unit (moved->from, moved->to, &new_length);
  SwPoint off = sw_point_sub (end, moved->wall->from);
  double along = sw_point_dot (off, old), aside = sw_point_cross (old, off), turns = sw_point_cross (now, own);
  double half = moved->wall->thickness / 2 + reach;
  if (length <= SW_TOUCH_MM || fabs (turns) <= ALONG_SINE || fabs (aside) > half || along < -half || along > old_length + half)
    return end;
  double was = sw_point_cross (now, sw_point_sub (end, moved->from));
  SwPoint at = sw_point_add (end, sw_point_scale (own, (aside - was) / turns));
  return (SwPoint){ round (at.x), round (at.y) };
}

static const Moved *
find_moved (const GArray *moved, SwId wall)
{
  for (guint i = 0; i < moved->len; i++)
    if (g_array_index (moved, Moved, i).wall->record.id == wall)
      return &g_array_index (moved, Moved, i);
  return NULL;
}

static gboolean
put_wall (SwEdit *edit, const SwJob *job, const SwWall *wall, SwPoint from, SwPoint to, GError **error)
{
  SwWall *copy = (SwWall *) sw_record_copy (&wall->record);
  copy->from = from;
  copy->to = to;
  return sw_edit_put (edit, job, &copy->record, error);
}

gboolean
sw_survey_carry_walls (SwEdit *edit, const SwJob *job, const SwRoom *room, const SwPoint *corners, double reach, GError **error)
{
  g_autoptr (GArray) moved = walls_along (job, room, corners, reach);
  const SwRecord *record;
  for (SwJobIter w = sw_job_iter (job, SW_TABLE_WALL); moved->len > 0 && (record = sw_job_iter_next (&w)) != NULL;)
    {
      const SwWall *wall = (const SwWall *) record;
      const Moved *own = find_moved (moved, record->id);
      SwPoint from = own != NULL ? own->from : wall->from, to = own != NULL ? own->to : wall->to;
      for (guint i = 0; own == NULL && i < moved->len; i++)
        {
          const Moved *other = &g_array_index (moved, Moved, i);
          from = sw_point_distance (from, wall->from) <= SW_TOUCH_MM ? joined_end (other, wall->from, wall->to, reach) : from;
          to = sw_point_distance (to, wall->to) <= SW_TOUCH_MM ? joined_end (other, wall->to, wall->from, reach) : to;
        }
      gboolean stays = sw_point_distance (from, wall->from) <= SW_TOUCH_MM && sw_point_distance (to, wall->to) <= SW_TOUCH_MM;
      if (!stays && sw_point_distance (from, to) > SW_TOUCH_MM && !put_wall (edit, job, wall, from, to, error))
        return FALSE;
    }
  return TRUE;
}
