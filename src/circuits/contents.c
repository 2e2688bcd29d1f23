/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "circuits/contents.h"
#include "base/number.h"
#include "base/text.h"
#include "circuits/draws.h"
#include "circuits/fill.h"
#include "circuits/units.h"
#include <math.h>
#include <string.h>

/* ---- what is written */

/* A number at the start of *text, past blanks; *text moves behind it. */
static gboolean
take_number (const char **text, double *value)
{
  const char *from = *text + strspn (*text, " \t");
  gsize length = strspn (from, "0123456789.");
  g_autofree char *digits = g_strndup (from, length);
  if (length == 0 || !sw_number_read (digits, value, NULL))
    return FALSE;
  *text = from + length;
  *text += strspn (*text, " \t");
  return TRUE;
}

static gboolean
is_times (const char *text)
{
  return *text == 'x' || *text == 'X' || g_str_has_prefix (text, "×");
}

/* "3 x 1.5 mm2": without a unit a number is the mm² of a conductor. */
static SwCableItem
read_item (const char *text)
{
  SwCableItem item = { 1, 0, 0 };
  double number;
  if (!take_number (&text, &number))
    return item;
  if (is_times (text))
    {
      item.n = number >= 1 && number < 1000 ? (guint) number : 1;
      text += *text == 'x' || *text == 'X' ? 1 : strlen ("×");
      if (!take_number (&text, &number))
        return item;
    }
  if (g_str_has_prefix (text, "mm") && !g_str_has_prefix (text, "mm2") && !g_str_has_prefix (text, "mm²"))
    item.diameter = number;
  else if (*text == '\0' || g_str_has_prefix (text, "mm"))
    item.mm2 = number;
  return item;
}

GArray *
sw_circuits_contents (const char *text)
{
  GArray *items = g_array_new (FALSE, FALSE, sizeof (SwCableItem));
  g_auto (GStrv) parts = g_strsplit_set (text != NULL ? text : "", ",;+", -1);
  for (char **part = parts; *part != NULL; part++)
    {
      if (*g_strstrip (*part) == '\0')
        continue;
      SwCableItem item = read_item (*part);
      g_array_append_val (items, item);
    }
  return items;
}

guint
sw_circuits_sharing (const SwRun *run, const SwCircuit *circuit)
{
  g_autoptr (GArray) items = sw_circuits_contents (run->contents);
  guint singles = 0, each = (guint) MAX (circuit->cores, 1);
  for (guint i = 0; i < items->len; i++)
    if (g_array_index (items, SwCableItem, i).mm2 > 0)
      singles += g_array_index (items, SwCableItem, i).n;
  return MAX ((singles + each - 1) / each, 1);
}

guint
sw_circuits_in_run (const SwJob *job, const SwRun *run)
{
  const SwRecord *circuit = run->circuit != 0 ? sw_job_get (job, run->circuit) : NULL;
  return circuit != NULL ? sw_circuits_sharing (run, (const SwCircuit *) circuit) : 1;
}

/* ---- how full it is */

typedef struct
{
  const SwRules *rules;
  const SwRoute *route;
  const GArray *items, *stretches;
  SwConduitFill fill;
} Filling;

static const char *
bore_column (const Filling *filling)
{
  return filling->route->run->material == SW_MATERIAL_STEEL ? "bore_steel_mm" : "bore_pvc_mm";
}

/* All cables' area; FALSE where the size of one is not known. */
static gboolean
cables_area (Filling *filling, double *area)
{
  *area = 0;
  for (guint i = 0; i < filling->items->len; i++)
    {
      const SwCableItem *item = &g_array_index (filling->items, SwCableItem, i);
      SwRuleValue size = { .value = item->diameter };
      if (item->mm2 > 0 && !sw_rules_lookup_at (filling->rules, "cable.singles", item->mm2, SW_RULE_EXACT, "stranded_mm", &size, NULL))
        {
          filling->fill.no_row = "cable.singles";
          return FALSE;
        }
      if (size.value <= 0)
        return FALSE;
      *area += item->n * sw_circuits_round_area (size.value);
    }
  return TRUE;
}

/* Three cables of one diameter. */
static void
find_jam (Filling *filling)
{
  const SwCableItem *item = &g_array_index (filling->items, SwCableItem, 0);
  SwRuleValue size = { .value = item->diameter };
  if (filling->items->len != 1 || item->n != 3
      || (item->mm2 > 0 && !sw_rules_lookup_at (filling->rules, "cable.singles", item->mm2, SW_RULE_EXACT, "stranded_mm", &size, NULL)) || size.value <= 0)
    return;
  filling->fill.jam = sw_circuits_jam_ratio (filling->route->bore, size.value, sw_rules_value (filling->rules, "conduit.fill", "jam_bore_factor").value);
}

/* The least conduit of the table in which `area` takes no more than the limit. */
static double
smallest_by_area (const Filling *filling, double area, double limit_percent)
{
  SwRuleValue bore;
  for (guint i = 0; i < sw_rules_n_rows (filling->rules, "conduit.sizes"); i++)
    if (sw_rules_lookup (filling->rules, "conduit.sizes", sw_rules_row_key (filling->rules, "conduit.sizes", i), bore_column (filling), &bore, NULL)
        && 100 * area <= limit_percent * sw_circuits_round_area (bore.value))
      return sw_rules_row_number (filling->rules, "conduit.sizes", i);
  return NAN;
}

/* By space factor, or by the number of conductors where the rule set counts them. */
static void
fill_by_area (Filling *filling, gboolean by_count)
{
  static const char *const keys[] = { "one_percent", "two_percent", "three_percent" };
  SwConduitFill *fill = &filling->fill;
  double area;
  if (!cables_area (filling, &area))
    return;
  if (!by_count)
    fill->limit = sw_rules_value (filling->rules, "conduit.fill", "space_factor_percent");
  else if (!sw_rules_number (filling->rules, "conduit.fill_count", keys[fill->cables >= 3 ? 2 : fill->cables == 2 ? 1 : 0], &fill->limit, NULL))
    return;
  fill->limit_percent = fill->limit.value;
  fill->percent = 100 * area / sw_circuits_round_area (filling->route->bore);
  fill->smallest = smallest_by_area (filling, area, fill->limit_percent);
}

/* Factors of the cables over that of a conduit, in per cent, in one stretch. NAN where a table has no row. */
static double
units_percent (Filling *filling, double size, const SwDrawStretch *stretch, SwRuleValue *conduit)
{
  double sum = 0, length = (stretch->to - stretch->from) / 1000;
  guint bends = (guint) ceil (stretch->turn / 90 - 0.01);
  gboolean is_short = sw_circuits_units_is_short (filling->rules, length, bends, NULL);
  SwRuleValue factor;
  for (guint i = 0; i < filling->items->len; i++)
    {
      const SwCableItem *item = &g_array_index (filling->items, SwCableItem, i);
      if (item->mm2 <= 0 || !sw_circuits_units_cable (filling->rules, item->mm2, FALSE, is_short, &factor, NULL))
        {
          filling->fill.no_row = item->mm2 > 0 ? (is_short ? "conduit.units_short_cables" : "conduit.units_long_cables") : NULL;
          return NAN;
        }
      sum += item->n * factor.value;
    }
  if (sw_circuits_units_conduit (filling->rules, size, length, bends, is_short, conduit, NULL))
    return 100 * sum / conduit->value;
  filling->fill.no_row = "conduit.units_bends";
  return NAN;
}

/* The worst stretch decides; NAN when one has no row. */
static double
units_worst (Filling *filling, double size, SwRuleValue *conduit)
{
  double worst = -1;
  for (guint i = 0; i < filling->stretches->len; i++)
    {
      SwRuleValue one = { 0 };
      double percent = units_percent (filling, size, &g_array_index (filling->stretches, SwDrawStretch, i), &one);
      if (isnan (percent))
        return NAN;
      if (percent > worst)
        {
          worst = percent;
          *conduit = one;
        }
    }
  return worst;
}

static void
fill_by_units (Filling *filling)
{
  SwConduitFill *fill = &filling->fill;
  double worst = units_worst (filling, filling->route->od, &fill->limit);
  if (!(worst >= 0))
    return;
  SwRuleValue other;
  fill->percent = worst;
  fill->limit_percent = 100;
  for (guint i = 0; i < sw_rules_n_rows (filling->rules, "conduit.sizes") && isnan (fill->smallest); i++)
    {
      double size = sw_rules_row_number (filling->rules, "conduit.sizes", i);
      fill->smallest = units_worst (filling, size, &other) <= 100 ? size : NAN;
    }
  fill->no_row = NULL; /* of other sizes */
}

SwConduitFill
sw_circuits_conduit_fill (const SwRules *rules, const SwRoute *route, const GArray *stretches)
{
  g_autoptr (GArray) items = sw_circuits_contents (route->run->contents);
  Filling filling = { rules, route, items, stretches, { .percent = NAN, .limit_percent = NAN, .smallest = NAN, .jam = NAN } };
  SwRuleValue method = sw_rules_value (rules, "conduit.fill", "method");
  for (guint i = 0; i < items->len; i++)
    {
      const SwCableItem *item = &g_array_index (items, SwCableItem, i);
      filling.fill.cables += item->n;
      filling.fill.no_size += item->mm2 <= 0 && item->diameter <= 0 ? item->n : 0;
    }
  if (items->len == 0 || !sw_service_is_electric ((SwService) route->run->service))
    return filling.fill;
  find_jam (&filling);
  if (method.text != NULL && method.text[0] == 'u')
    fill_by_units (&filling);
  else
    fill_by_area (&filling, method.text != NULL && method.text[0] == 'c');
  return filling.fill;
}
