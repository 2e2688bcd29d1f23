/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "estimate/carbon.h"
#include "ceiling/brandering.h"
#include <math.h>
#include <string.h>

gboolean
sw_carbon_add (SwCarbon *carbon, const SwRules *rules, const char *material, double kg)
{
  SwRuleValue factor;
  if (kg <= 0 || !sw_rules_lookup (rules, "carbon.factors", material, "kg_kg", &factor, NULL))
    return FALSE;
  carbon->kg = (isnan (carbon->kg) ? 0 : carbon->kg) + kg * factor.value;
  if (carbon->factor.rule_id == NULL || factor.confidence > carbon->factor.confidence)
    carbon->factor = factor;
  return TRUE;
}

/* The two numbers at the end of a size: "gypsum-9.5-3000x1200" → 3000, 1200. */
static gboolean
read_pair (const char *size, double *a, double *b)
{
  const char *dash = strrchr (size, '-');
  char *end;
  *a = g_ascii_strtod (dash != NULL ? dash + 1 : size, &end);
  if (*end != 'x')
    return FALSE;
  *b = g_ascii_strtod (end + 1, &end);
  return *end == '\0';
}

static double
member_kg (const SwRules *rules, const SwRoom *room, double a, double b, double metres)
{
  if (room->material == SW_BATTENS_STEEL)
    return sw_ceiling_batten_mass (rules, room, a, b) * metres;
  SwRuleValue density = { 0 };
  sw_rules_lookup (rules, "material.density", "softwood", "density_kg_m3", &density, NULL);
  return a * b / 1e6 * metres * density.value;
}

static double
boards_kg (const SwRules *rules, const SwRoom *room, double a, double b, double sheets)
{
  SwRuleValue mass = { 0 };
  const char *row = sw_ceiling_board_row (rules, "board.kinds", room, NULL);
  if (row != NULL)
    sw_rules_lookup (rules, "board.kinds", row, "mass_kg_m2", &mass, NULL);
  return a * b / 1e6 * sheets * mass.value;
}

static double
paint_kg (const SwRules *rules, const char *row, double litres)
{
  SwRuleValue density = { 0 };
  sw_rules_lookup (rules, "paint.systems", row, "density_kg_l", &density, NULL);
  return litres * density.value;
}

static void
add_need (SwCarbon *carbon, const SwNeed *need, const SwRules *rules, const SwRoom *room)
{
  double a = 0, b = 0, amount = sw_quantity_to_double (need->quantity);
  gboolean pair = read_pair (sw_price_size (need->code), &a, &b);
  switch (need->kind)
    {
    case SW_PRICE_BOARD:
      if (pair)
        sw_carbon_add (carbon, rules, room->board_kind == SW_BOARD_FIBRE_CEMENT ? "fibre-cement" : "gypsum-board",
                       boards_kg (rules, room, a, b, amount));
      break;
    case SW_PRICE_BATTEN:
    case SW_PRICE_WALL_BATTEN:
    case SW_PRICE_NOGGIN:
    case SW_PRICE_TRIMMER:
    case SW_PRICE_PRIMARY:
    case SW_PRICE_STUD:
      if (pair)
        sw_carbon_add (carbon, rules, room->material == SW_BATTENS_STEEL ? "galvanised-steel" : "softwood", member_kg (rules, room, a, b, amount));
      break;
    case SW_PRICE_ZINC_PRIMER:
      sw_carbon_add (carbon, rules, "paint-water", paint_kg (rules, "zinc-primer", amount));
      break;
    case SW_PRICE_ALKALI_PRIMER:
      sw_carbon_add (carbon, rules, "paint-water", paint_kg (rules, "alkali-primer", amount));
      break;
    case SW_PRICE_FINISH:
      sw_carbon_add (carbon, rules, "paint-water", paint_kg (rules, "finish", amount));
      break;
    default:
      break;
    }
}

SwCarbon
sw_carbon_of (const GPtrArray *needs, const SwRules *rules, const SwRoom *room)
{
  SwCarbon carbon = { .kg = NAN };
  for (guint i = 0; i < needs->len; i++)
    add_need (&carbon, needs->pdata[i], rules, room);
  return carbon;
}
