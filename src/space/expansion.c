/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "space/expansion.h"
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

static int
by_number (gconstpointer a, gconstpointer b)
{
  double p = *(const double *) a, q = *(const double *) b;
  return (p > q) - (p < q);
}

static GArray *
sockets_on (const SwRoute *route, guint leg, const GPtrArray *fittings)
{
  GArray *shares = g_array_new (FALSE, FALSE, sizeof (double));
  for (guint i = 0; fittings != NULL && i < fittings->len; i++)
    {
      const SwFitting *fitting = fittings->pdata[i];
      double share = fitting->kind == SW_FITTING_SOCKET && fitting->run == route->run->record.id ? share_on (route->axis[leg], route->axis[leg + 1], fitting) : -1;
      if (share >= 0)
        g_array_append_val (shares, share);
    }
  g_array_sort (shares, by_number);
  return shares;
}

/* A straight that ends at `to`: couplings cut it into lengths below the limit. */
static void
end_straight (SwExpansion *expansion, double length, SwPoint3 from, SwPoint3 to)
{
  expansion->couplings += length < expansion->limit_mm - SW_TOUCH_MM ? 0 : (guint) floor (length / expansion->limit_mm + 1e-9);
  if (length <= expansion->longest_mm)
    return;
  expansion->longest_mm = length;
  expansion->from = from;
  expansion->to = to;
}

SwExpansion
sw_expansion_of (const SwRules *rules, const SwRoute *route, const GPtrArray *fittings)
{
  SwExpansion expansion = { FALSE };
  double each, straight = 0;
  if (!read_rules (rules, route->run, &expansion, &each))
    return (SwExpansion){ FALSE };
  SwPoint3 start = route->axis[0];
  for (guint i = 0; i + 1 < route->n; i++)
    {
      g_autoptr (GArray) sockets = sockets_on (route, i, fittings);
      double length = sw_point3_distance (route->axis[i], route->axis[i + 1]), done = 0;
      for (guint k = 0; k < sockets->len; k++)
        {
          double share = g_array_index (sockets, double, k);
          SwPoint3 at = sw_point3_lerp (route->axis[i], route->axis[i + 1], share);
          end_straight (&expansion, straight + length * (share - done), start, at);
          straight = 0;
          done = share;
          start = at;
        }
      straight += length * (1 - done);
      if (i + 2 < route->n && sw_route_turn (route, i + 1) <= TURNS_DEGREE)
        continue;
      end_straight (&expansion, straight, start, route->axis[i + 1]);
      straight = 0;
      start = route->axis[i + 1];
    }
  expansion.asked = TRUE;
  expansion.growth_mm = each * expansion.longest_mm;
  return expansion;
}
