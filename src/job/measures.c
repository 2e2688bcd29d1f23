/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/measures.h"
#include "base/text.h"
#include <math.h>

#define SAME_PLACE_MM 1.0

SwMeasureKey
sw_measure_key (const SwMeasure *measure)
{
  return (SwMeasureKey){ measure->of, (SwMeasureKind) measure->kind, measure->number, measure->second, measure->at };
}

gboolean
sw_measure_key_equal (const SwMeasureKey *a, const SwMeasureKey *b)
{
  if (a->of != b->of || a->kind != b->kind)
    return FALSE;
  switch (a->kind)
    {
    case SW_MEASURE_LEVEL:
      return sw_point_distance (a->at, b->at) < SAME_PLACE_MM;
    case SW_MEASURE_DIAGONAL:
      return (a->number == b->number && a->second == b->second) || (a->number == b->second && a->second == b->number);
    case SW_MEASURE_PLATE:
    case SW_MEASURE_EDGE:
      return a->number == b->number && a->second == b->second;
    default:
      return a->number == b->number;
    }
}

const SwMeasure *
sw_job_measure (const SwJob *job, const SwMeasureKey *key)
{
  const SwMeasure *found = NULL;
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_MEASURE); (record = sw_job_iter_next (&i)) != NULL;)
    {
      SwMeasureKey other = sw_measure_key ((const SwMeasure *) record);
      if (sw_measure_key_equal (key, &other))
        found = (const SwMeasure *) record;
    }
  return found;
}

/* All that were entered of it: several of one thing can stand in a job that was written by hand. */
static void
remove_all (SwEdit *edit, const SwJob *job, const SwMeasureKey *key)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_MEASURE); (record = sw_job_iter_next (&i)) != NULL;)
    {
      SwMeasureKey other = sw_measure_key ((const SwMeasure *) record);
      if (sw_measure_key_equal (key, &other))
        sw_edit_remove (edit, job, record->id);
    }
}

SwEdit *
sw_job_enter_measure (const SwJob *job, const SwMeasureKey *key, double value, const char *by, const char *on, GError **error)
{
  const SwMeasure *before = sw_job_measure (job, key);
  g_autoptr (SwEdit) edit = sw_edit_new (isnan (value) ? N_ ("Take a measurement out") : N_ ("Enter measurement"));
  if (isnan (value))
    {
      remove_all (edit, job, key);
      return g_steal_pointer (&edit);
    }
  if (before != NULL && before->value == value)
    return g_steal_pointer (&edit);
  SwRecord *record = before != NULL ? sw_record_copy (&before->record) : sw_edit_create (edit, job, SW_TABLE_MEASURE);
  SwMeasure *measure = (SwMeasure *) record;
  measure->of = key->of;
  measure->kind = (int) key->kind;
  measure->number = key->number;
  measure->second = key->second;
  measure->at = key->at;
  measure->value = value;
  if (by != NULL)
    sw_text_set (&measure->by, by);
  if (on != NULL)
    sw_text_set (&measure->on, on);
  return sw_edit_put (edit, job, record, error) ? g_steal_pointer (&edit) : NULL;
}
