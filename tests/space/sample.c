/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sample.h"
#include "support.h"
#include <math.h>

SwId
sw_sample_put (SwSample *sample, SwRecord *record)
{
  GError *error = NULL;
  SwId id = record->id;
  g_autoptr (SwEdit) edit = sw_edit_new ("Put");
  sw_edit_put (edit, sample->job, record, &error);
  g_assert_no_error (error);
  SwJob *next = sw_job_apply (sample->job, edit, TRUE, &error);
  g_assert_no_error (error);
  sw_job_unref (sample->job);
  sample->job = next;
  return id;
}

SwRecord *
sw_sample_create (SwSample *sample, SwTable table)
{
  return sw_edit_create (NULL, sample->job, table);
}

SwRecord *
sw_sample_change (SwSample *sample, SwId id)
{
  return sw_record_copy (sw_job_get (sample->job, id));
}

void
sw_sample_rectangle (SwList *outline, double x0, double y0, double x1, double y1)
{
  SwPoint corners[] = { { x0, y0 }, { x1, y0 }, { x1, y1 }, { x0, y1 } };
  sw_list_set_points (outline, corners, 4);
}

SwSample
sw_sample_new (double length, double breadth, double direction)
{
  SwSample sample = { sw_job_new (), 0, 0 };
  sample.profile = sw_sample_put (&sample, sw_sample_create (&sample, SW_TABLE_PROFILE));
  SwBay *bay = (SwBay *) sw_sample_create (&sample, SW_TABLE_BAY);
  bay->profile = sample.profile;
  bay->direction = direction;
  sw_sample_rectangle (&bay->outline, 0, 0, length, breadth);
  for (guint i = 0; i < 4; i++)
    {
      SwPoint *corner = &SW_LIST_AT (bay->outline, SwPoint, i);
      *corner = sw_point_turn (*corner, cos (direction * G_PI / 180), sin (direction * G_PI / 180));
    }
  sample.bay = sw_sample_put (&sample, &bay->record);
  return sample;
}

void
sw_sample_clear (SwSample *sample)
{
  sw_job_unref (sample->job);
}

SwId
sw_sample_run (SwSample *sample, int service, double od, double fall, const SwSampleVertex *vertices, guint n)
{
  SwRun *run = (SwRun *) sw_sample_create (sample, SW_TABLE_RUN);
  run->service = service;
  run->od = od;
  run->fall = fall;
  sw_list_resize (&run->vertices, &sw_struct_vertex, n);
  for (guint i = 0; i < n; i++)
    SW_LIST_AT (run->vertices, SwVertex, i) = (SwVertex){ { vertices[i].x, vertices[i].y }, vertices[i].level, vertices[i].z };
  return sw_sample_put (sample, &run->record);
}
