/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Free adjustment of a trilaterated outline: Gauss-Newton on the squares of what each measured distance lacks, with a very weak
 * pull of each corner to where it is drawn, which alone decides where the outline lies and what was not measured. With A the
 * derivatives, N = AᵀA + εI and r = 1 − aᵀN⁻¹a the redundancy of one distance, v / r is what that distance is off from what the
 * others give (its residual when it is left out). Cost: corners³ a step. */
#include "space/survey.h"
#include "base/error.h"
#include "base/text.h"
#include <string.h>

#define PULL 1e-6            /* of a corner to its drawn place, beside 1 of a measured distance */
#define STEPS 30
#define STILL_MM 1e-6
#define LEAST_REDUNDANCY 1e-3 /* less: the others do not give it */

typedef struct
{
  guint m; /* unknowns: x and y of each corner */
  const SwRoom *room;
  SwSurveyRoom *survey;
  double *normal, *right; /* m × m, m */
} Fit;

static SwPoint
drawn_corner (const Fit *fit, guint i)
{
  return SW_LIST_AT (fit->room->outline, SwPoint, i);
}

/* The part of the derivatives that is not zero: of x, y at `from` it is minus this, at `to` this. */
static SwPoint
direction (const Fit *fit, const SwSurveyDistance *distance)
{
  SwPoint way = sw_point_sub (fit->survey->corners[distance->to], fit->survey->corners[distance->from]);
  double length = sw_point_length (way);
  return length > 0 ? sw_point_scale (way, 1 / length) : (SwPoint){ 1, 0 };
}

static void
fill_row (const Fit *fit, const SwSurveyDistance *distance, guint places[4], double row[4])
{
  SwPoint way = direction (fit, distance);
  const double values[4] = { -way.x, -way.y, way.x, way.y };
  memcpy (row, values, sizeof values);
  for (guint i = 0; i < 2; i++)
    {
      places[i] = 2 * distance->from + i;
      places[2 + i] = 2 * distance->to + i;
    }
}

static void
build (Fit *fit)
{
  guint m = fit->m;
  memset (fit->normal, 0, (gsize) m * m * sizeof (double));
  for (guint i = 0; i < m; i++)
    {
      SwPoint drawn = drawn_corner (fit, i / 2), now = fit->survey->corners[i / 2];
      fit->normal[i * m + i] = PULL;
      fit->right[i] = PULL * (i % 2 == 0 ? drawn.x - now.x : drawn.y - now.y);
    }
  for (guint d = 0; d < fit->survey->distances->len; d++)
    {
      const SwSurveyDistance *distance = &g_array_index (fit->survey->distances, SwSurveyDistance, d);
      double row[4], lacks = distance->measure->value - sw_point_distance (fit->survey->corners[distance->from], fit->survey->corners[distance->to]);
      guint places[4];
      fill_row (fit, distance, places, row);
      for (guint i = 0; i < 4; i++)
        {
          fit->right[places[i]] += row[i] * lacks;
          for (guint k = 0; k < 4; k++)
            fit->normal[places[i] * m + places[k]] += row[i] * row[k];
        }
    }
}

/* Cholesky in place, lower triangle: the matrix is positive definite by the pull. */
static void
factorize (Fit *fit)
{
  double *a = fit->normal;
  guint m = fit->m;
  for (guint j = 0; j < m; j++)
    for (guint i = j; i < m; i++)
      {
        double sum = a[i * m + j];
        for (guint k = 0; k < j; k++)
          sum -= a[i * m + k] * a[j * m + k];
        a[i * m + j] = i == j ? sqrt (fmax (sum, PULL * 1e-6)) : sum / a[j * m + j];
      }
}

static void
solve (const Fit *fit, double *x)
{
  const double *a = fit->normal;
  guint m = fit->m;
  for (guint i = 0; i < m; i++)
    {
      for (guint k = 0; k < i; k++)
        x[i] -= a[i * m + k] * x[k];
      x[i] /= a[i * m + i];
    }
  for (guint i = m; i-- > 0;)
    {
      for (guint k = i + 1; k < m; k++)
        x[i] -= a[k * m + i] * x[k];
      x[i] /= a[i * m + i];
    }
}

static void
adjust (Fit *fit)
{
  double moved = INFINITY;
  for (int step = 0; step < STEPS && moved > STILL_MM; step++)
    {
      moved = 0;
      build (fit);
      factorize (fit);
      solve (fit, fit->right);
      for (guint i = 0; i < fit->survey->n; i++)
        {
          SwPoint by = { fit->right[2 * i], fit->right[2 * i + 1] };
          fit->survey->corners[i] = sw_point_add (fit->survey->corners[i], by);
          moved = fmax (moved, sw_point_length (by));
        }
    }
}

/* After `adjust`: what each distance is off, and which fits worst beside how well the others fix it. */
static void
judge (Fit *fit)
{
  double worst = 0;
  build (fit);
  factorize (fit);
  for (guint d = 0; d < fit->survey->distances->len; d++)
    {
      SwSurveyDistance *distance = &g_array_index (fit->survey->distances, SwSurveyDistance, d);
      double row[4], redundancy = 1;
      guint places[4];
      fill_row (fit, distance, places, row);
      memset (fit->right, 0, fit->m * sizeof (double));
      for (guint i = 0; i < 4; i++)
        fit->right[places[i]] = row[i];
      solve (fit, fit->right);
      for (guint i = 0; i < 4; i++)
        redundancy -= row[i] * fit->right[places[i]];
      distance->fitted = sw_point_distance (fit->survey->corners[distance->from], fit->survey->corners[distance->to]);
      double residual = distance->measure->value - distance->fitted;
      distance->off = redundancy > LEAST_REDUNDANCY ? residual / redundancy : NAN;
      /* Of equals, which one measure too many always gives, the one that the others fix best. */
      double share = redundancy > LEAST_REDUNDANCY ? fabs (residual) / sqrt (redundancy) * (1 + redundancy * 1e-3) : -1;
      if (share > worst || (share >= 0 && fit->survey->worst < 0))
        {
          worst = share;
          fit->survey->worst = (int) d;
          fit->survey->misclosure = fabs (distance->off);
        }
    }
}

static void
add_distances (SwSurveyRoom *survey, const SwJob *job, const SwRoom *room)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_MEASURE); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwMeasure *measure = (const SwMeasure *) record;
      SwMeasureKey key = sw_measure_key (measure);
      guint n = room->outline.n, from = (guint) (measure->number - 1);
      guint to = measure->kind == SW_MEASURE_LENGTH ? (from + 1) % n : (guint) (measure->second - 1);
      gboolean distance = measure->kind == SW_MEASURE_LENGTH || measure->kind == SW_MEASURE_DIAGONAL;
      if (measure->of != room->record.id || !distance || from >= n || to >= n || from == to || sw_job_measure (job, &key) != measure)
        continue;
      SwSurveyDistance one = { measure, from, to, sw_point_distance (SW_LIST_AT (room->outline, SwPoint, from), SW_LIST_AT (room->outline, SwPoint, to)), NAN, NAN };
      g_array_append_val (survey->distances, one);
    }
}

SwSurveyRoom *
sw_survey_room (const SwJob *job, const SwRoom *room)
{
  g_autoptr (SwSurveyRoom) survey = g_new0 (SwSurveyRoom, 1);
  survey->n = room->outline.n;
  survey->corners = g_new (SwPoint, MAX (survey->n, 1));
  survey->distances = g_array_new (FALSE, FALSE, sizeof (SwSurveyDistance));
  survey->worst = -1;
  for (guint i = 0; i < survey->n; i++)
    survey->corners[i] = SW_LIST_AT (room->outline, SwPoint, i);
  add_distances (survey, job, room);
  if (survey->distances->len == 0)
    return NULL;
  Fit fit = { 2 * survey->n, room, survey, NULL, NULL };
  fit.normal = g_new0 (double, (gsize) fit.m * fit.m);
  fit.right = g_new0 (double, fit.m);
  adjust (&fit);
  judge (&fit);
  g_free (fit.normal);
  g_free (fit.right);
  for (guint i = 0; i < survey->n; i++)
    {
      double shift = sw_point_distance (survey->corners[i], SW_LIST_AT (room->outline, SwPoint, i));
      if (shift <= survey->shift)
        continue;
      survey->shift = shift;
      survey->moved = i;
    }
  return g_steal_pointer (&survey);
}

void
sw_survey_room_free (SwSurveyRoom *survey)
{
  g_free (survey->corners);
  g_array_unref (survey->distances);
  g_free (survey);
}

SwEdit *
sw_survey_take_over (const SwJob *job, const SwRoom *room, double most, GError **error)
{
  g_autoptr (SwSurveyRoom) survey = sw_survey_room (job, room);
  if (survey == NULL || survey->misclosure > most)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INVALID, survey == NULL ? "%s: nothing of it was measured" : "%s: its measures do not close, measure anew first", room->record.tag);
      return NULL;
    }
  g_autoptr (SwEdit) edit = sw_edit_new (N_("Take over the measured outline"));
  SwRecord *copy = sw_record_copy (&room->record);
  for (guint i = 0; i < survey->n; i++)
    {
      survey->corners[i] = (SwPoint){ round (survey->corners[i].x), round (survey->corners[i].y) };
      SW_LIST_AT (((SwRoom *) copy)->outline, SwPoint, i) = survey->corners[i];
    }
  return sw_edit_put (edit, job, copy, error) && sw_survey_carry_walls (edit, job, room, survey->corners, most, error) ? g_steal_pointer (&edit) : NULL;
}
