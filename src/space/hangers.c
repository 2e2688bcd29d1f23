/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Hangers of a run, leg by leg: one near each end of a leg, the rest evenly between. One that would land on a stiffener plate
 * goes back to before it, and what is left is spaced evenly anew, so that no space grows beyond the rule's; plates that are out
 * count too, for their flanges stay. A leg costs its hangers times the plates that it passes. It does not look for ribs to
 * bear on, other services, or battens: the check of clearances does when the hangers are drawn. */
#include "space/hangers.h"
#include "base/tolerance.h"
#include "space/hanging.h"
#include <math.h>

#define SAME_MM 1e-6

/* ---- plates */

typedef struct
{
  double from, to; /* along the leg: no hanger here */
} Barred;

static int
by_from (gconstpointer a, gconstpointer b)
{
  double p = ((const Barred *) a)->from, q = ((const Barred *) b)->from;
  return (p > q) - (p < q);
}

static guint
first_plate (const SwDeckBay *bay, int void_index)
{
  guint low = 0, high = bay->plates->len;
  while (low < high)
    {
      guint middle = (low + high) / 2;
      if ((int) g_array_index (bay->plates, SwDeckPlate, middle).void_index < void_index)
        low = middle + 1;
      else
        high = middle;
    }
  return low;
}

static void
bar_plate (const SwDeckBay *bay, const SwDeckPlate *plate, SwPoint3 from, SwPoint3 to, double apart, GArray *barred)
{
  SwPoint a = sw_deck_to_bay (bay, (SwPoint){ from.x, from.y }), b = sw_deck_to_bay (bay, (SwPoint){ to.x, to.y });
  const SwVoid *over = &g_array_index (bay->voids, SwVoid, plate->void_index);
  double t = (plate->u - a.x) / (b.x - a.x), v = a.y + t * (b.y - a.y), length = sw_point3_distance (from, to);
  double share = apart * length / fabs (b.x - a.x); /* the leg's length within `apart` of the plate */
  SwPoint3 at = sw_point3_lerp (from, to, t);
  double height = at.z - sw_deck_soffit (bay, (SwPoint){ at.x, at.y });
  if (!(t * length > -share && t * length < length + share) || v <= over->low || v >= over->high || height <= 0 || height >= over->depth)
    return;
  Barred bar = { t * length - share, t * length + share };
  g_array_append_val (barred, bar);
}

/* Plates of the voids that the leg passes. */
static GArray *
barred_by_plates (const SwDeck *deck, SwPoint3 from, SwPoint3 to, double apart)
{
  GArray *barred = g_array_new (FALSE, FALSE, sizeof (Barred));
  for (guint i = 0; i < sw_deck_n_bays (deck); i++)
    {
      const SwDeckBay *bay = sw_deck_bay (deck, i);
      SwPoint a = sw_deck_to_bay (bay, (SwPoint){ from.x, from.y }), b = sw_deck_to_bay (bay, (SwPoint){ to.x, to.y });
      int one = sw_deck_void_near (bay, a.y), other = sw_deck_void_near (bay, b.y);
      if (one < 0 || fabs (a.x - b.x) < SW_TOUCH_MM || fmax (a.x, b.x) < 0 || fmin (a.x, b.x) > bay->length)
        continue;
      for (guint p = first_plate (bay, MIN (one, other)); p < bay->plates->len; p++)
        {
          const SwDeckPlate *plate = &g_array_index (bay->plates, SwDeckPlate, p);
          if ((int) plate->void_index > MAX (one, other))
            break;
          bar_plate (bay, plate, from, to, apart, barred);
        }
    }
  g_array_sort (barred, by_from);
  return barred;
}

/* The nearest place at or before `place` that no plate bars; below `least` when there is none. */
static double
before_plates (const GArray *barred, double place)
{
  for (guint i = barred->len; i-- > 0;)
    {
      const Barred *bar = &g_array_index (barred, Barred, i);
      if (place > bar->from + SAME_MM && place < bar->to - SAME_MM)
        place = bar->from;
    }
  return place;
}

static double
after_plates (const GArray *barred, double place)
{
  for (guint i = 0; i < barred->len; i++)
    {
      const Barred *bar = &g_array_index (barred, Barred, i);
      if (place > bar->from + SAME_MM && place < bar->to - SAME_MM)
        place = bar->to;
    }
  return place;
}

/* ---- one leg */

typedef struct
{
  SwPoint3 from, to;
  double length, start; /* start: along the whole axis */
  double spacing, end;
  const GArray *barred;
} Leg;

static void
add_hanger (SwHangers *hangers, const Leg *leg, double place, double wished)
{
  SwHanger hanger = { sw_point3_lerp (leg->from, leg->to, place / leg->length), leg->start + place, 0, fabs (place - wished) > SAME_MM };
  if (hangers->hangers->len > 0 && g_array_index (hangers->hangers, SwHanger, hangers->hangers->len - 1).along > hanger.along - SW_TOUCH_MM)
    return;
  g_array_append_val (hangers->hangers, hanger);
}

/* The place nearest to `wished` that keeps within the leg and off its plates. */
static double
near_end (const Leg *leg, double wished, gboolean last)
{
  double before = before_plates (leg->barred, wished), after = after_plates (leg->barred, wished);
  gboolean first_choice = last ? after <= leg->length : before >= 0;
  double choice = last == first_choice ? after : before;
  return choice >= 0 && choice <= leg->length ? choice : wished;
}

static void
hang_leg (SwHangers *hangers, const Leg *leg)
{
  double end = fmin (leg->end, leg->length / 2), first = near_end (leg, end, FALSE), last = near_end (leg, leg->length - end, TRUE), at = first;
  if (leg->length <= 2 * leg->end && leg->length <= leg->spacing)
    {
      add_hanger (hangers, leg, near_end (leg, leg->length / 2, FALSE), leg->length / 2);
      return;
    }
  add_hanger (hangers, leg, first, end);
  while (last - at > leg->spacing + SAME_MM)
    {
      double wished = at + (last - at) / ceil ((last - at) / leg->spacing - SAME_MM), place = before_plates (leg->barred, wished);
      if (place <= at + SAME_MM)
        place = wished;
      add_hanger (hangers, leg, place, wished);
      at = place;
    }
  add_hanger (hangers, leg, last, leg->length - end);
}

/* ---- the run */

double
sw_hangers_mass (const SwRules *rules, const SwRoute *route)
{
  SwService service = (SwService) route->run->service;
  SwRuleValue tube, inside = { 0 }, sleeve = { 0 };
  if (!(route->bore < route->od)) /* nothing tells how thick it is */
    return NAN;
  const char *contents = sw_service_is_electric (service) ? "cable" : sw_service_is_wet (service) ? "water" : NULL;
  if (!sw_rules_lookup (rules, "material.density", sw_hanging_density_row ((SwMaterial) route->run->material), "density_kg_m3", &tube, NULL)
      || (contents != NULL && !sw_rules_lookup (rules, "material.density", contents, "density_kg_m3", &inside, NULL))
      || (route->run->insulation > 0 && !sw_rules_lookup (rules, "material.density", "glass-wool", "density_kg_m3", &sleeve, NULL)))
    return NAN;
  if (sw_service_is_electric (service))
    inside.value *= sw_rules_value (rules, "conduit.fill", "space_factor_percent").value / 100;
  SwHangingMass mass = sw_hanging_mass (route->od, route->bore, route->run->insulation, tube.value, inside.value, sleeve.value);
  return sw_hanging_total (&mass);
}

static void
share_load (SwHangers *hangers, const SwRules *rules, double length)
{
  double each = hangers->mass * sw_rules_value (rules, "deck.loads", "gravity_m_s2").value / 1000;
  GArray *all = hangers->hangers;
  for (guint i = 0; i < all->len; i++)
    {
      SwHanger *hanger = &g_array_index (all, SwHanger, i);
      double from = i > 0 ? (g_array_index (all, SwHanger, i - 1).along + hanger->along) / 2 : 0;
      double to = i + 1 < all->len ? (g_array_index (all, SwHanger, i + 1).along + hanger->along) / 2 : length;
      hanger->load = each * (to - from);
    }
}

static gboolean
spacing_of (const SwRules *rules, const SwRoute *route, const char *column, SwRuleValue *rule, GError **error)
{
  const char *table = sw_hanging_table ((SwService) route->run->service, (SwMaterial) route->run->material);
  return sw_rules_lookup_at (rules, table, route->od, SW_RULE_NEXT_LARGER, column, rule, error);
}

SwHangers *
sw_hangers_new (const SwDeck *deck, const SwRules *rules, const SwRoute *route, GError **error)
{
  gboolean electric = sw_service_is_electric ((SwService) route->run->service);
  SwRuleValue level, upright, off = sw_rules_value (rules, "checks.runs", "saddle_plate_mm");
  if (!spacing_of (rules, route, "horizontal_m", &level, error))
    return NULL;
  if (!spacing_of (rules, route, "vertical_m", &upright, NULL))
    upright = level;
  SwHangers *hangers = g_new0 (SwHangers, 1);
  hangers->hangers = g_array_new (FALSE, FALSE, sizeof (SwHanger));
  hangers->spacing_rule = level;
  hangers->spacing = level.value * 1000;
  hangers->end_rule = sw_rules_value (rules, electric ? "conduit.support_limits" : "support.limits", electric ? "box_mm" : "fitting_mm");
  double walked = 0;
  for (guint i = 0; i + 1 < route->n; i++)
    {
      SwPoint3 from = route->axis[i], to = route->axis[i + 1];
      gboolean stands = fabs (to.z - from.z) > hypot (to.x - from.x, to.y - from.y);
      g_autoptr (GArray) barred = barred_by_plates (deck, from, to, off.value);
      Leg leg = { from, to, sw_point3_distance (from, to), walked, (stands ? upright : level).value * 1000, hangers->end_rule.value, barred };
      hang_leg (hangers, &leg);
      walked += leg.length;
    }
  hangers->mass = sw_hangers_mass (rules, route);
  share_load (hangers, rules, walked);
  return hangers;
}

void
sw_hangers_free (SwHangers *hangers)
{
  g_array_unref (hangers->hangers);
  g_free (hangers);
}
