/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every leg of every run is met with the wall's centre line in plan: O(legs) a wall. A run that lies along the wall is not
 * found: it does not pass it. */
#include "sheets/crossings.h"
#include "sheets/words.h"

#define SLEEVE_REACH_MM 300.0 /* of the job: a sleeve farther from where the run passes is another one's */

static const SwSleeve *
sleeve_of (const SwJob *job, const SwRun *run, SwPoint at)
{
  const SwSleeve *nearest = NULL;
  double least = SLEEVE_REACH_MM;
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_SLEEVE); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwSleeve *sleeve = (const SwSleeve *) record;
      double distance = sw_point_distance (at, sw_point_lerp (sleeve->from, sleeve->to, 0.5));
      if (sleeve->run == run->record.id && sleeve->through == SW_THROUGH_WALL && distance < least)
        {
          nearest = sleeve;
          least = distance;
        }
    }
  return nearest;
}

static void
add_of_route (const SwSheetContext *context, const SwWall *wall, const SwRoute *route, GArray *crossings)
{
  SwPoint way = sw_point_sub (wall->to, wall->from);
  double length = sw_point_length (way);
  for (guint i = 0; i + 1 < route->n; i++)
    {
      SwPoint a = sw_point_sub ((SwPoint){ route->axis[i].x, route->axis[i].y }, wall->from), b = sw_point_sub ((SwPoint){ route->axis[i + 1].x, route->axis[i + 1].y }, wall->from);
      double before = sw_point_cross (way, a), after = sw_point_cross (way, b);
      if ((before < 0) == (after < 0))
        continue;
      double t = before / (before - after);
      SwPoint3 at = sw_point3_lerp (route->axis[i], route->axis[i + 1], t);
      double along = sw_point_dot (sw_point_lerp (a, b, t), way) / length;
      SwPoint place = { at.x, at.y };
      SwCrossing crossing = { wall, route->run, sleeve_of (sw_sheet_job (context), route->run, place), place, along, at.z, route->outer };
      if (along >= 0 && along <= length)
        g_array_append_val (crossings, crossing);
    }
}

static int
compare (gconstpointer a, gconstpointer b)
{
  const SwCrossing *x = a, *y = b;
  if (x->along != y->along)
    return x->along < y->along ? -1 : 1;
  int order = sw_sheet_mark_compare (x->run->record.tag, y->run->record.tag);
  return order != 0 ? order : x->z < y->z ? -1 : x->z > y->z;
}

GArray *
sw_crossings_of_wall (const SwSheetContext *context, const SwWall *wall)
{
  GArray *crossings = g_array_new (FALSE, FALSE, sizeof (SwCrossing));
  g_autoptr (GPtrArray) runs = sw_sheet_records (sw_sheet_job (context), SW_TABLE_RUN);
  for (guint i = 0; i < runs->len && sw_point_distance (wall->from, wall->to) > 0; i++)
    {
      g_autoptr (SwRoute) route = sw_route_new (context->deck, context->rules, g_ptr_array_index (runs, i), NULL);
      if (route != NULL)
        add_of_route (context, wall, route, crossings);
    }
  g_array_sort (crossings, compare);
  return crossings;
}

char *
sw_wall_rating_text (const SwWall *wall)
{
  if (wall->fire_minutes > 0 && wall->sound_db > 0)
    return g_strdup_printf (_("fire %.0f min, sound %.0f dB"), wall->fire_minutes, wall->sound_db);
  if (wall->fire_minutes > 0)
    return g_strdup_printf (_("fire %.0f min"), wall->fire_minutes);
  return wall->sound_db > 0 ? g_strdup_printf (_("sound %.0f dB"), wall->sound_db) : g_strdup (_("rating not entered"));
}
