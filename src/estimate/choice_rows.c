/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "estimate/choice.h"
#include "base/text.h"
#include <math.h>

/* The rows of the choice, each with how its figure is found. A side that cannot be has its headroom and nothing else. */

typedef struct
{
  SwFigureInfo info;
  gboolean of_fault; /* given for a side that cannot be, too */
  SwFigure (*find) (const SwChoice *choice, const SwChoiceSide *side);
} ChoiceRow;

#define ROW(name) static SwFigure find_##name (const SwChoice *choice, const SwChoiceSide *side)
#define MONEY_ROW(name, member) ROW (name) { return sw_figure_money (side->member); }
#define NUMBER_ROW(name, member) ROW (name) { return sw_figure_number (side->member); }
/* A number that the rule set stands behind. */
#define RULE_ROW(name, member, behind) ROW (name) { return (SwFigure){ .number = side->member, .rule = side->behind }; }
/* Areas and litres of an open soffit. */
#define OPEN_ROW(name, member) ROW (name) { return sw_figure_number (side->finish == SW_FINISH_EXPOSED ? side->member : NAN); }

ROW (possible)
{
  return sw_figure_word (side->fault == NULL ? N_("yes") : N_("no"));
}

ROW (area)
{
  return sw_figure_number (choice->plan_m2);
}

MONEY_ROW (material, quote->material)
MONEY_ROW (labour, quote->labour)
MONEY_ROW (cost, quote->cost)
MONEY_ROW (price, quote->price)
MONEY_ROW (price_m2, price_m2)
MONEY_ROW (vat, quote->vat)
MONEY_ROW (total, quote->total)
MONEY_ROW (later_low, later_low)
MONEY_ROW (later_high, later_high)
NUMBER_ROW (unpriced, quote->unpriced)
NUMBER_ROW (lowest, head.lowest)
RULE_ROW (days_low, days_low, days_rule)
RULE_ROW (days_high, days_high, days_rule)
RULE_ROW (carbon, carbon_kg, carbon_rule)
RULE_ROW (reflectance, reflectance, reflectance_rule)
RULE_ROW (absorption, absorption[2], absorption_rule)
RULE_ROW (reverberation, reverberation, absorption_rule)
OPEN_ROW (steel, paint.steel_m2)
OPEN_ROW (concrete, paint.concrete_m2)
OPEN_ROW (services, paint.services_m2)
OPEN_ROW (zinc, paint.zinc_primer_l)
OPEN_ROW (alkali, paint.alkali_primer_l)

ROW (finish)
{
  return sw_figure_number (side->finish == SW_FINISH_GRID ? NAN : side->finish_l);
}

ROW (height)
{
  return (SwFigure){ .number = side->head.height, .rule = side->head.rule };
}

ROW (wanted)
{
  return (SwFigure){ .number = side->head.known ? side->head.wanted : NAN, .rule = side->head.rule };
}

/* The lesser of what is left over the wanted height and under the lowest part. */
ROW (margin)
{
  double over = fmin (side->head.height - side->head.wanted, side->head.lowest - side->head.wanted_lowest);
  return (SwFigure){ .number = side->head.known ? over : NAN, .rule = side->head.rule };
}

ROW (measured_to)
{
  if (side->finish == SW_FINISH_EXPOSED)
    return sw_figure_word (side->head.to_crown ? N_("the crowns of the voids") : N_("the undersides of the ribs"));
  return sw_figure_word (side->finish == SW_FINISH_CLOSED ? N_("the boards") : N_("the tiles"));
}

ROW (enough)
{
  return sw_figure_word (!side->head.known ? NULL : side->head.enough ? N_("yes") : N_("no"));
}

#define MONEY(key, label, name) { { key, label, "", SW_FIGURE_MONEY, 2 }, FALSE, find_##name }
#define NUMBER(key, label, unit, decimals, name) { { key, label, unit, SW_FIGURE_NUMBER, decimals }, FALSE, find_##name }
#define HEAD(key, label, name) { { key, label, "mm", SW_FIGURE_NUMBER, 0 }, TRUE, find_##name }
#define WORD(key, label, name) { { key, label, "", SW_FIGURE_WORD, 0 }, TRUE, find_##name }

static const ChoiceRow rows[] = {
  WORD ("possible", N_("Can be built"), possible),
  { { "area_m2", N_("Area of the ceiling"), "m²", SW_FIGURE_NUMBER, 2 }, TRUE, find_area },
  MONEY ("material", N_("Material"), material),
  MONEY ("labour", N_("Labour"), labour),
  MONEY ("cost", N_("Cost"), cost),
  MONEY ("price", N_("Price with markup, before tax"), price),
  MONEY ("price_m2", N_("The same for 1 m² of ceiling"), price_m2),
  MONEY ("vat", N_("Tax"), vat),
  MONEY ("total", N_("Price with tax"), total),
  MONEY ("later_low", N_("With repainting over the years, before tax, least"), later_low),
  MONEY ("later_high", N_("With repainting over the years, before tax, most"), later_high),
  NUMBER ("unpriced", N_("Lines without a price"), "", 0, unpriced),
  HEAD ("height_mm", N_("Height of the room"), height),
  WORD ("measured_to", N_("Measured to"), measured_to),
  HEAD ("wanted_mm", N_("Height wanted"), wanted),
  HEAD ("lowest_mm", N_("Under the lowest part"), lowest),
  HEAD ("margin_mm", N_("Height left"), margin),
  WORD ("enough", N_("High enough"), enough),
  NUMBER ("steel_m2", N_("Zinc faces to paint"), "m²", 2, steel),
  NUMBER ("concrete_m2", N_("Concrete faces to paint"), "m²", 2, concrete),
  NUMBER ("services_m2", N_("Services in sight to paint"), "m²", 2, services),
  NUMBER ("zinc_primer_l", N_("Primer for zinc"), "l", 2, zinc),
  NUMBER ("alkali_primer_l", N_("Alkali-resistant primer"), "l", 2, alkali),
  NUMBER ("finish_l", N_("Finish paint"), "l", 2, finish),
  NUMBER ("days_low", N_("Days of work, least"), "d", 1, days_low),
  NUMBER ("days_high", N_("Days of work, most"), "d", 1, days_high),
  NUMBER ("carbon_kg", N_("Embodied carbon"), "kg", 1, carbon),
  NUMBER ("reflectance", N_("Light given back"), "", 2, reflectance),
  NUMBER ("absorption_500_m2", N_("Sound taken up at 500 Hz"), "m²", 2, absorption),
  NUMBER ("reverberation_500_s", N_("Reverberation at 500 Hz, empty room, hard floor, painted walls"), "s", 1, reverberation),
};

guint
sw_choice_n_rows (void)
{
  return G_N_ELEMENTS (rows);
}

const SwFigureInfo *
sw_choice_row (guint row)
{
  g_assert (row < G_N_ELEMENTS (rows));
  return &rows[row].info;
}

SwFigure
sw_choice_figure (const SwChoice *choice, guint side, guint row)
{
  g_assert (row < G_N_ELEMENTS (rows) && side < choice->n);
  if (choice->sides[side].fault != NULL && !rows[row].of_fault)
    return (SwFigure){ .number = NAN };
  return rows[row].find (choice, &choice->sides[side]);
}

const char *
sw_choice_side_word (SwFinish finish)
{
  static const char *const words[] = { [SW_FINISH_CLOSED] = "closed", [SW_FINISH_GRID] = "grid", [SW_FINISH_EXPOSED] = "exposed" };
  return words[finish];
}

const char *
sw_choice_side_text (SwFinish finish)
{
  static const char *const texts[] = {
    [SW_FINISH_CLOSED] = N_("Boards on brandering"), [SW_FINISH_GRID] = N_("Suspended grid"), [SW_FINISH_EXPOSED] = N_("Open soffit, painted"),
  };
  return texts[finish];
}
