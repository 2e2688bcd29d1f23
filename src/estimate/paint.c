/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "estimate/paint.h"
#include "space/route.h"

double
sw_paint_spreading_rate (double solids_percent, double film_um)
{
  return 10 * solids_percent / film_um;
}

double
sw_paint_litres (double area_m2, double rate_m2_l, double loss_percent)
{
  return area_m2 / (rate_m2_l * (1 - loss_percent / 100));
}

/* Litres of one paint of the rule set's system, all its coats. */
static gboolean
litres_of (const SwRules *rules, const char *row, double area, double loss, double *litres, GError **error)
{
  SwRuleValue solids, film, coats;
  if (!sw_rules_lookup (rules, "paint.systems", row, "solids_percent", &solids, error)
      || !sw_rules_lookup (rules, "paint.systems", row, "film_um", &film, error)
      || !sw_rules_lookup (rules, "paint.systems", row, "coats", &coats, error))
    return FALSE;
  *litres = coats.value * sw_paint_litres (area, sw_paint_spreading_rate (solids.value, film.value), loss);
  return TRUE;
}

/* Surface of the runs that hang in the room, π × diameter × length of the legs whose middle lies in it. */
static double
services_area (const SwDeck *deck, const SwRules *rules, const SwRoom *room)
{
  double area = 0;
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_deck_job (deck), SW_TABLE_RUN); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwRun *run = (const SwRun *) record;
      g_autoptr (SwRoute) route = run->stage == SW_STAGE_CAST_IN ? NULL : sw_route_new (deck, rules, run, NULL);
      for (guint k = 0; route != NULL && k + 1 < route->n; k++)
        {
          SwPoint3 middle = sw_point3_lerp (route->axis[k], route->axis[k + 1], 0.5);
          if (sw_outline_holds (room->outline.items, room->outline.n, (SwPoint){ middle.x, middle.y }))
            area += G_PI * 2 * route->outer * sw_point3_distance (route->axis[k], route->axis[k + 1]);
        }
    }
  return area;
}

gboolean
sw_paint_room (const SwDeck *deck, const SwRules *rules, const SwRoom *room, SwPaint *paint, GError **error)
{
  *paint = (SwPaint){ .area = sw_soffit_area (deck, room) };
  if (!sw_rules_number (rules, "paint.rules", "loss_percent", &paint->loss_rule, error))
    return FALSE;
  paint->loss_percent = paint->loss_rule.value;
  double steel = paint->area.troughs + paint->area.plates + paint->area.closures;
  if (paint->area.concrete_ribs)
    paint->concrete_m2 = paint->area.ribs / 1e6;
  else
    steel += paint->area.ribs;
  paint->steel_m2 = steel / 1e6;
  paint->services_m2 = services_area (deck, rules, room) / 1e6;
  return litres_of (rules, "zinc-primer", paint->steel_m2, paint->loss_percent, &paint->zinc_primer_l, error)
         && litres_of (rules, "alkali-primer", paint->concrete_m2, paint->loss_percent, &paint->alkali_primer_l, error)
         && litres_of (rules, "finish", paint->steel_m2 + paint->concrete_m2 + paint->services_m2, paint->loss_percent, &paint->finish_l, error);
}
