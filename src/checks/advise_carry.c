/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What comes along when a part of a run moves: the fittings that sit on it, and the ends of other runs at those fittings. What stands
 * at the run's own ends stays: the leg is lengthened to it. One walk over fittings and runs. */
#include "checks/candidates.h"
#include "circuits/draws.h"

static void
move_vertex (SwVertex *vertex, SwPoint3 by)
{
  vertex->at = sw_point_add (vertex->at, (SwPoint){ by.x, by.y });
  if (vertex->level != SW_LEVEL_FALL)
    vertex->z += vertex->level == SW_LEVEL_BELOW ? -by.z : by.z;
}

/* As the edit has it so far, free to be changed. */
static SwRecord *
copy_so_far (const SwCandidates *to, const SwAdvice *advice, SwId id)
{
  return sw_record_copy (sw_edit_peek (advice->edit, to->job, id));
}

gboolean
sw_candidates_carry_ends (SwCandidates *to, SwAdvice *advice, SwId fitting, SwId run, SwPoint3 by)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (to->job, SW_TABLE_RUN); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwRun *other = (const SwRun *) record;
      if (record->id == run || (other->start != fitting && other->end != fitting))
        continue;
      SwRun *taken = (SwRun *) copy_so_far (to, advice, record->id);
      if (other->start == fitting)
        move_vertex (&SW_LIST_AT (taken->vertices, SwVertex, 0), by);
      if (other->end == fitting)
        move_vertex (&SW_LIST_AT (taken->vertices, SwVertex, taken->vertices.n - 1), by);
      if (!sw_candidates_put (to, advice, &taken->record))
        return FALSE;
    }
  return TRUE;
}

/* The leg that a place is nearest to, in plan. */
static guint
nearest_leg (const SwRoute *route, SwPoint at)
{
  double apart, along = sw_circuits_along (route, at, &apart);
  for (guint i = 0; i + 2 < route->n; i++)
    {
      double length = sw_point3_distance (route->axis[i], route->axis[i + 1]);
      if (along <= length)
        return i;
      along -= length;
    }
  return route->n - 2;
}

gboolean
sw_candidates_carry (SwCandidates *to, SwAdvice *advice, const SwRun *run, guint first, guint n, SwPoint3 by, gboolean *carried)
{
  const SwRoute *route = sw_space_route (to->space, run->record.id);
  const SwRecord *record;
  *carried = FALSE;
  for (SwJobIter i = sw_job_iter (to->job, SW_TABLE_FITTING); route != NULL && (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwFitting *fitting = (const SwFitting *) record;
      if (fitting->run != run->record.id || record->id == run->start || record->id == run->end)
        continue;
      guint leg = nearest_leg (route, fitting->at);
      if (leg < first || leg >= first + n)
        continue;
      SwFitting *moved = (SwFitting *) copy_so_far (to, advice, record->id);
      moved->at = sw_point_add (moved->at, (SwPoint){ by.x, by.y });
      moved->z += moved->level == SW_LEVEL_BELOW ? -by.z : by.z;
      *carried = TRUE;
      if (!sw_candidates_put (to, advice, &moved->record) || !sw_candidates_carry_ends (to, advice, record->id, run->record.id, by))
        return FALSE;
    }
  return TRUE;
}
