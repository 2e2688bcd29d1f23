/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "estimate/paint.h"
#include "geometry/outline.h"
#include "space/route.h"

double
sw_paint_spreading_rate (double solids_percent, double film_um)
{
  return 10 * solids_percent / film_um;
}

double
sw_paint_wet_film (double solids_percent, double film_um)
{
  return film_um * 100 / solids_percent;
}

double
sw_paint_litres (double area_m2, double rate_m2_l, double loss_percent)
{
  return area_m2 / (rate_m2_l * (1 - loss_percent / 100));
}

gboolean
sw_paint_litres_of (const SwRules *rules, const char *row, double area, double loss, double *litres, GError **error)
{
  SwRuleValue solids, film, coats;
  if (!sw_rules_lookup (rules, "paint.systems", row, "solids_percent", &solids, error)
      || !sw_rules_lookup (rules, "paint.systems", row, "film_um", &film, error)
      || !sw_rules_lookup (rules, "paint.systems", row, "coats", &coats, error))
    return FALSE;
  *litres = coats.value * sw_paint_litres (area, sw_paint_spreading_rate (solids.value, film.value), loss);
  return TRUE;
}

/* Share of a leg that the room holds, in plan. */
static double
share_in (const SwRoom *room, SwPoint from, SwPoint to)
{
  double length = sw_point_distance (from, to), inside = 0;
  if (length < 1)
    return sw_outline_holds (room->outline.items, room->outline.n, from);
  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  sw_outline_cut (room->outline.items, room->outline.n, from, sw_point_scale (sw_point_sub (to, from), 1 / length), spans);
  for (guint i = 0; i < spans->len; i++)
    {
      SwInterval span = g_array_index (spans, SwInterval, i);
      inside += fmax (0, fmin (span.high, length) - fmax (span.low, 0));
    }
  return inside / length;
}

/* Surface of the runs that hang in the room, π × diameter × length. */
static double
services_area (const SwDeck *deck, const SwRules *rules, const SwRoom *room)
{
  double area = 0;
  SwBox box = sw_record_box (&room->record);
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_deck_job (deck), SW_TABLE_RUN); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwRun *run = (const SwRun *) record;
      if (run->stage == SW_STAGE_CAST_IN || !sw_box_meets (box, sw_record_box (record)))
        continue;
      g_autoptr (SwRoute) route = sw_route_new (deck, rules, run, NULL);
      for (guint k = 0; route != NULL && k + 1 < route->n; k++)
        {
          SwPoint3 a = route->axis[k], b = route->axis[k + 1];
          area += G_PI * 2 * route->outer * sw_point3_distance (a, b) * share_in (room, (SwPoint){ a.x, a.y }, (SwPoint){ b.x, b.y });
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
  const struct { const char *row; double area, *litres; } paints[] = {
    { "zinc-primer", paint->steel_m2, &paint->zinc_primer_l },
    { "alkali-primer", paint->concrete_m2, &paint->alkali_primer_l },
    { "finish", paint->steel_m2 + paint->concrete_m2 + paint->services_m2, &paint->finish_l },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (paints); i++)
    {
      SwRuleValue coats;
      if (!sw_rules_lookup (rules, "paint.systems", paints[i].row, "coats", &coats, error)
          || !sw_paint_litres_of (rules, paints[i].row, paints[i].area, paint->loss_percent, paints[i].litres, error))
        return FALSE;
      paint->coats_m2 += paints[i].area * coats.value;
    }
  return TRUE;
}
