/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "space/expansion.h"
#include "base/number.h"
#include "base/tolerance.h"
#include <math.h>

#define TURNS_DEGREE 1.0 /* less than that is straight */

/* Growth of one metre and kelvin, the range, and what one straight may change by. */
static gboolean
read_rules (const SwRules *rules, const SwRun *run, SwExpansion *expansion, double *each)
{
  static const char *const rows[] = { [SW_MATERIAL_PVC] = "upvc", [SW_MATERIAL_PP] = "polypropylene", [SW_MATERIAL_CPVC] = "upvc", [SW_MATERIAL_PEX] = "pe-x",
                                      [SW_MATERIAL_MULTILAYER] = "multilayer", [SW_MATERIAL_BRASS] = NULL };
  gboolean electric = sw_service_is_electric ((SwService) run->service), gravity = sw_service_is_gravity ((SwService) run->service);
  const char *range = run->service == SW_SERVICE_HOT ? "hot_k" : gravity ? "waste_k" : "cold_k";
  SwRuleValue alpha;
  if (run->stage != SW_STAGE_FIRST_FIX || run->service == SW_SERVICE_DUCT || (electric && run->material != SW_MATERIAL_PVC) || rows[run->material] == NULL)
    return FALSE;
  if (electric)
    {
      expansion->limit = sw_rules_value (rules, "conduit.growth_rules", "coupling_mm");
      *each = sw_rules_value (rules, "conduit.growth_rules", "range_k").value / 1000;
      if (!sw_rules_lookup (rules, "conduit.growth", "pvc", "coefficient_mm_m_k", &alpha, NULL))
        return FALSE;
    }
  else
    {
      expansion->limit = sw_rules_value (rules, "pipe.growth_rules", "plastic_mm");
      *each = sw_rules_value (rules, "pipe.growth_ranges", range).value / 1000;
      if (!sw_rules_lookup (rules, "pipe.materials", rows[run->material], "expansion_mm_m_k", &alpha, NULL))
        return FALSE;
    }
  *each *= alpha.value;
  expansion->limit_mm = expansion->limit.value / *each;
  SwRuleValue apart = sw_rules_value (rules, "support.limits", "waste_expansion_m");
  if (gravity && run->material == SW_MATERIAL_PP && apart.value * 1000 < expansion->limit_mm)
    {
      expansion->limit = apart;
      expansion->limit_mm = apart.value * 1000;
    }
  return expansion->limit_mm > 0;
}

/* Share of a leg at which a socket of the run lies; below 0 when it lies on another leg. */
static double
share_on (SwPoint3 from, SwPoint3 to, const SwFitting *fitting)
{
  SwPoint a = { from.x, from.y }, along = { to.x - from.x, to.y - from.y }, off = sw_point_sub (fitting->at, a);
  double square = sw_point_dot (along, along), t = square > 0 ? sw_point_dot (off, along) / square : -1;
  double apart = sw_point_length (sw_point_sub (off, sw_point_scale (along, t)));
  return t >= 0 && t <= 1 && apart <= fmax (fitting->length, fitting->width) / 2 + SW_TOUCH_MM ? t : -1;
}

/* Lengths along the axis at which straights end: turns, sockets, the run's ends; in order. */
static GArray *
ends_of_straights (const SwRoute *route, const GPtrArray *fittings)
{
  GArray *ends = g_array_new (FALSE, FALSE, sizeof (double));
  double walked = 0;
  g_array_append_val (ends, walked);
  for (guint leg = 0; leg + 1 < route->n; leg++)
    {
      double length = sw_point3_distance (route->axis[leg], route->axis[leg + 1]), end = walked + length;
      for (guint i = 0; fittings != NULL && i < fittings->len; i++)
        {
          const SwFitting *fitting = fittings->pdata[i];
          double share = fitting->kind == SW_FITTING_SOCKET && fitting->run == route->run->record.id ? share_on (route->axis[leg], route->axis[leg + 1], fitting) : -1;
          double at = walked + share * length;
          if (share >= 0)
            g_array_append_val (ends, at);
        }
      if (leg + 2 == route->n || sw_route_turn (route, leg + 1) > TURNS_DEGREE)
        g_array_append_val (ends, end);
      walked = end;
    }
  g_array_sort (ends, sw_compare_doubles);
  return ends;
}

double
sw_expansion_straight (const SwRoute *route, const GPtrArray *fittings, double from, double to)
{
  g_autoptr (GArray) ends = ends_of_straights (route, fittings);
  double longest = 0;
  for (guint i = 0; i + 1 < ends->len; i++)
    longest = fmax (longest, fmin (g_array_index (ends, double, i + 1), to) - fmax (g_array_index (ends, double, i), from));
  return longest;
}

static SwPoint3
place_at (const SwRoute *route, double along)
{
  for (guint i = 0; i + 2 < route->n; i++)
    {
      double length = sw_point3_distance (route->axis[i], route->axis[i + 1]);
      if (along <= length)
        return sw_point3_lerp (route->axis[i], route->axis[i + 1], length > 0 ? along / length : 0);
      along -= length;
    }
  double last = sw_point3_distance (route->axis[route->n - 2], route->axis[route->n - 1]);
  return sw_point3_lerp (route->axis[route->n - 2], route->axis[route->n - 1], last > 0 ? fmin (along / last, 1) : 0);
}

/* That one straight still wants. */
static guint
couplings_in (const SwExpansion *expansion, double length)
{
  return length < expansion->limit_mm - SW_TOUCH_MM ? 0 : (guint) floor (length / expansion->limit_mm + 1e-9);
}

SwExpansion
sw_expansion_of (const SwRules *rules, const SwRoute *route, const GPtrArray *fittings)
{
  SwExpansion expansion = { FALSE };
  double each;
  if (!read_rules (rules, route->run, &expansion, &each))
    return (SwExpansion){ FALSE };
  g_autoptr (GArray) ends = ends_of_straights (route, fittings);
  for (guint i = 0; i + 1 < ends->len; i++)
    {
      double from = g_array_index (ends, double, i), to = g_array_index (ends, double, i + 1);
      expansion.couplings += couplings_in (&expansion, to - from);
      if (to - from <= expansion.longest_mm)
        continue;
      expansion.longest_mm = to - from;
      expansion.from = place_at (route, from);
      expansion.to = place_at (route, to);
    }
  expansion.asked = TRUE;
  expansion.growth_mm = each * expansion.longest_mm;
  return expansion;
}

GArray *
sw_expansion_places (const SwRules *rules, const SwRoute *route, const GPtrArray *fittings, double shift)
{
  GArray *places = g_array_new (FALSE, FALSE, sizeof (double));
  SwExpansion expansion = sw_expansion_of (rules, route, fittings);
  g_autoptr (GArray) ends = ends_of_straights (route, fittings);
  for (guint i = 0; i + 1 < ends->len && expansion.couplings > 0; i++)
    {
      double from = g_array_index (ends, double, i), length = g_array_index (ends, double, i + 1) - from;
      guint n = couplings_in (&expansion, length);
      for (guint k = 1; k <= n; k++)
        {
          double at = from + length * k / (n + 1) + shift;
          g_array_append_val (places, at);
        }
    }
  return places;
}
