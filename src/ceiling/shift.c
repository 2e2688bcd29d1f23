/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/tolerance.h"
#include "ceiling/lay.h"
#include "space/route.h"

/* Would battens shifted by less than one centre clear more lights and crossings? What stands in their way are stretches across the
 * battens: a light's cut-out with the distance that it keeps from what burns, or its body, a run that goes below the ribs beside the battens with its gap. As the grid shifts, each
 * stretch is met at shifts between two ends, so the best shift is one of these ends (or none): they are all tried. What runs
 * across the battens is met by any shift and does not count. Stretches squared. */

/* Runs below the ribs that pass within the part, as stretches across the battens. */
static void
add_run (const SwLayer *layer, const SwRoute *route, double gap, GArray *stretches)
{
  gboolean own = g_array_index (layer->lay->ceiling->parts, SwCeilingPart, layer->part).bulkhead == 0;
  double soffit = own ? sw_deck_lowest_soffit (layer->lay->ceiling->deck, layer->lay->ceiling->room) : layer->top;
  for (guint k = 0; k + 1 < route->n; k++)
    {
      SwPoint3 a = route->axis[k], b = route->axis[k + 1];
      double reach = fmax (route->outer, route->radius) + gap;
      SwPoint from = sw_frame_to (&layer->frame, (SwPoint){ a.x, a.y }), to = sw_frame_to (&layer->frame, (SwPoint){ b.x, b.y });
      SwInterval stretch = { fmin (from.x, to.x) - reach, fmax (from.x, to.x) + reach };
      gboolean below = fmin (a.z, b.z) - reach < soffit, beside = fabs (to.y - from.y) > layer->width;
      if (below && beside && stretch.high - stretch.low < layer->centres
          && sw_rings_holds (layer->clear, sw_point_lerp (from, to, 0.5)))
        g_array_append_val (stretches, stretch);
    }
}

static void
add_runs (const SwLayer *layer, GArray *stretches)
{
  const SwCeiling *ceiling = layer->lay->ceiling;
  double gap = sw_rules_value (ceiling->rules, "brandering.setout", "crossing_gap_mm").value;
  SwBox box = sw_record_box (&ceiling->room->record);
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_deck_job (ceiling->deck), SW_TABLE_RUN); (record = sw_job_iter_next (&i)) != NULL;)
    {
      if (!sw_box_meets (box, sw_record_box (record)))
        continue;
      g_autoptr (SwRoute) route = sw_route_new (ceiling->deck, ceiling->rules, (const SwRun *) record, NULL);
      if (route != NULL)
        add_run (layer, route, gap, stretches);
    }
}

static void
add_lights (const SwLayer *layer, GArray *stretches)
{
  double burns = sw_rules_value (layer->lay->ceiling->rules, "light.clearances", "combustible_mm").value;
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_deck_job (layer->lay->ceiling->deck), SW_TABLE_LIGHT);
       (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwLight *light = (const SwLight *) record;
      double half = fmax (light->cut_out / 2 + burns, light->body / 2);
      if (light->trims || layer->lay->ceiling->room->lights == SW_LIGHTS_TRIM)
        continue;
      SwPoint at = sw_frame_to (&layer->frame, light->at);
      SwInterval stretch = { at.x - half, at.x + half };
      if (sw_rings_holds (layer->clear, at))
        g_array_append_val (stretches, stretch);
    }
}

/* Stretches that a batten of the grid from `start` on meets. */
static guint
count_met (const SwLayer *layer, const GArray *stretches, double start)
{
  guint count = 0;
  for (guint i = 0; i < stretches->len; i++)
    {
      SwInterval stretch = g_array_index (stretches, SwInterval, i);
      double low = stretch.low - layer->width / 2 + SW_TOUCH_MM, high = stretch.high + layer->width / 2 - SW_TOUCH_MM;
      double next = start + ceil ((low - start) / layer->centres) * layer->centres;
      count += next < high;
    }
  return count;
}

/* The shift as the room's field takes it, less than the centres, in whole mm: nobody sets out tenths. Away from the stretch. */
static double
whole_shift (const SwLayer *layer, double shift, gboolean up)
{
  double rest = shift - floor (shift / layer->centres) * layer->centres, whole = up ? ceil (rest - SW_TOUCH_MM) : floor (rest + SW_TOUCH_MM);
  return whole < layer->centres ? whole : 0;
}

void
sw_layer_advise_shift (SwLayer *layer, double start, double shift, double behind)
{
  g_autoptr (GArray) stretches = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  add_lights (layer, stretches);
  add_runs (layer, stretches);
  guint now = count_met (layer, stretches, start + shift), least = now;
  double best = shift;
  for (guint i = 0; i < stretches->len && now > 0; i++)
    {
      SwInterval stretch = g_array_index (stretches, SwInterval, i);
      const double edges[] = { stretch.low - layer->width / 2, stretch.high + layer->width / 2 };
      for (int k = 0; k < 2; k++)
        {
          double trial = whole_shift (layer, edges[k] - start + behind, k == 1) - behind;
          trial = sw_grid_round (trial - floor (trial / layer->centres) * layer->centres);
          guint met = count_met (layer, stretches, start + trial);
          if (trial < layer->centres && (met < least || (met == least && met < now && trial < best)))
            {
              least = met;
              best = trial;
            }
        }
    }
  SwBox box = sw_rings_box (layer->clear);
  best += behind - floor ((best + behind) / layer->centres) * layer->centres;
  if (least < now)
    sw_layer_mark (layer, SW_CEILING_SHIFT, layer->lay->ceiling->room->record.id, sw_point_lerp (box.low, box.high, 0.5), best,
                   now - least, NULL);
}
