/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/candidates.h"

gboolean
sw_candidates_put (SwCandidates *to, SwAdvice *advice, SwRecord *record)
{
  return sw_edit_put (advice->edit, to->job, record, NULL);
}

SwAdvice *
sw_candidates_add (SwCandidates *to, const char *edit_name, const char *words, SwRecord *record, double cost)
{
  g_autoptr (SwEdit) edit = sw_edit_new (edit_name);
  if (!sw_edit_put (edit, to->job, record, NULL))
    return NULL;
  SwAdvice *advice = g_new0 (SwAdvice, 1);
  advice->edit = g_steal_pointer (&edit);
  advice->words = words;
  advice->cost = cost;
  g_ptr_array_add (to->found, advice);
  return advice;
}

void
sw_candidates_set_move (SwAdvice *advice, SwPoint3 by)
{
  advice->distance = sw_point3_length (by);
  if (advice->distance > 0)
    advice->direction = sw_point3_scale (by, 1 / advice->distance);
}
