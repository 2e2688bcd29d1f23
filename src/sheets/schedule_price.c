/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Schedules with money: the take-off of the whole job, and the finishes of each room side by side. Money is in the job's currency;
 * without a price list its cells are empty. */
#include "estimate/choice.h"
#include "estimate/takeoff.h"
#include "sheets/schedule_parts.h"
#include <math.h>
#include <string.h>

static const SwScheduleColumn takeoff_columns[] = {
  SW_COLUMN_TEXT ("trade", N_("Trade")),
  SW_COLUMN_TEXT ("code", N_("Code")),
  SW_COLUMN_TEXT ("description", N_("What")),
  SW_COLUMN_NUMBER ("quantity", N_("Net"), "", 3),
  SW_COLUMN_TEXT ("unit", N_("Unit")),
  SW_COLUMN_NUMBER ("waste_percent", N_("Waste"), "%", 1),
  SW_COLUMN_NUMBER ("ordered", N_("With waste"), "", 3),
  SW_COLUMN_COUNT ("lengths", N_("Stock lengths")),
  SW_COLUMN_M ("stock_m", N_("of")),
  SW_COLUMN_NUMBER ("material_rate", N_("Material at"), "", 4),
  SW_COLUMN_NUMBER ("labour_rate", N_("Labour at"), "", 4),
  SW_COLUMN_NUMBER ("material", N_("Material"), "", 2),
  SW_COLUMN_NUMBER ("labour", N_("Labour"), "", 2),
  SW_COLUMN_NUMBER ("sum", N_("Sum"), "", 2),
  SW_COLUMN_TEXT ("things", N_("Counted from")),
};

/* Schedules keep numbers as doubles: exact to the last decimal shown up to 10^11 of the currency. */
static void
put_money (SwSchedule *schedule, SwMoney money)
{
  sw_schedule_put_number (schedule, (double) money / SW_MONEY_ONE);
}

static char *
marks_of (const SwJob *job, const SwNeed *need)
{
  GString *marks = g_string_new (NULL);
  for (guint i = 0; i < need->things->len; i++)
    {
      const SwRecord *record = sw_job_get (job, g_array_index (need->things, SwId, i));
      g_string_append_printf (marks, "%s%s", i > 0 ? "; " : "", record->tag);
    }
  return g_string_free (marks, FALSE);
}

static void
put_price (SwSchedule *schedule, const SwQuoteLine *line)
{
  if (line->price == NULL)
    {
      sw_schedule_put_nothing (schedule, 1);
      sw_schedule_put_number (schedule, sw_quantity_to_double (line->gross));
      sw_schedule_put_nothing (schedule, 7);
      return;
    }
  gboolean cut = line->need->bought > 0 && line->need->quantity > 0;
  sw_schedule_put_number (schedule, cut ? 100 * (sw_quantity_to_double (line->gross) / sw_quantity_to_double (line->need->quantity) - 1) : line->price->waste);
  sw_schedule_put_number (schedule, sw_quantity_to_double (line->gross));
  sw_schedule_put_number (schedule, line->lengths > 0 ? line->lengths : NAN);
  sw_schedule_put_number (schedule, line->lengths > 0 ? line->price->length / 1000 : NAN);
  const SwMoney money[] = { line->price->material, line->price->labour, line->material, line->labour, line->material + line->labour };
  for (gsize i = 0; i < G_N_ELEMENTS (money); i++)
    put_money (schedule, money[i]);
}

static void
put_need (SwSchedule *schedule, const SwJob *job, const SwQuoteLine *line)
{
  const SwNeed *need = line->need;
  gboolean described = line->price != NULL && *line->price->description != '\0';
  sw_schedule_begin_row (schedule, need->things->len > 0 ? g_array_index (need->things, SwId, 0) : 0);
  sw_schedule_put (schedule, _(sw_bill_text (sw_price_info (need->kind)->bill)));
  sw_schedule_put (schedule, need->code);
  sw_schedule_put (schedule, described ? line->price->description : _(need->description));
  sw_schedule_put_number (schedule, sw_quantity_to_double (need->quantity));
  sw_schedule_put (schedule, _(sw_price_unit_text (need->unit)));
  put_price (schedule, line);
  sw_schedule_put_take (schedule, marks_of (job, need));
}

static void
put_sum (SwSchedule *schedule, const char *what, SwMoney material, SwMoney labour, SwMoney sum)
{
  sw_schedule_begin_row (schedule, 0);
  sw_schedule_put_nothing (schedule, 2);
  sw_schedule_put (schedule, what);
  sw_schedule_put_nothing (schedule, 8);
  if (material != 0 || labour != 0)
    {
      put_money (schedule, material);
      put_money (schedule, labour);
    }
  else
    sw_schedule_put_nothing (schedule, 2);
  put_money (schedule, sum);
  sw_schedule_put_nothing (schedule, 1);
}

static void
fill_takeoff (SwSchedule *schedule, const SwSheetContext *context)
{
  SwJob *job = sw_sheet_job (context);
  g_autoptr (SwTakeoff) takeoff = sw_takeoff_new (context->deck, context->rules, NULL, NULL);
  if (takeoff == NULL)
    return;
  g_autoptr (GPtrArray) needs = sw_needs_of (takeoff->needs, SW_NEEDS_ALL);
  g_autoptr (SwQuote) quote = sw_quote_new (job, needs, sw_quote_terms (context->rules));
  for (guint i = 0; i < quote->lines->len; i++)
    put_need (schedule, job, &g_array_index (quote->lines, SwQuoteLine, i));
  if (quote->unpriced == quote->lines->len)
    return;
  put_sum (schedule, _("Cost"), quote->material, quote->labour, quote->cost);
  put_sum (schedule, _("Price with markup, before tax"), 0, 0, quote->price);
  put_sum (schedule, _("Tax"), 0, 0, quote->vat);
  put_sum (schedule, _("Price with tax"), 0, 0, quote->total);
}

/* The figures of the choice in the order of their columns, each for a side. */
static const struct
{
  const char *figure;
  guint side; /* 0 closed, 1 open */
} choice_figures[] = {
  { "area_m2", 0 },         { "price", 0 },           { "price", 1 },           { "price_m2", 0 },        { "price_m2", 1 },
  { "later_low", 0 },       { "later_high", 0 },      { "later_low", 1 },       { "later_high", 1 },      { "height_mm", 0 },
  { "height_mm", 1 },       { "measured_to", 1 },     { "wanted_mm", 0 },       { "margin_mm", 0 },       { "margin_mm", 1 },
  { "steel_m2", 1 },        { "concrete_m2", 1 },     { "zinc_primer_l", 1 },   { "alkali_primer_l", 1 }, { "finish_l", 0 },
  { "finish_l", 1 },        { "days_low", 0 },        { "days_high", 0 },       { "days_low", 1 },        { "days_high", 1 },
  { "carbon_kg", 0 },       { "carbon_kg", 1 },       { "reflectance", 0 },     { "reflectance", 1 },     { "absorption_500_m2", 0 },
  { "absorption_500_m2", 1 },
};

static const SwScheduleColumn choice_columns[] = {
  SW_COLUMN_TEXT ("room", N_("Room")),
  SW_COLUMN_TEXT ("name", N_("Name")),
  SW_COLUMN_TEXT ("finish", N_("Finish")),
  SW_COLUMN_NUMBER ("area_m2", N_("Area"), "m²", 2),
  SW_COLUMN_NUMBER ("closed_price", N_("Closed: price before tax"), "", 2),
  SW_COLUMN_NUMBER ("open_price", N_("Open: price before tax"), "", 2),
  SW_COLUMN_NUMBER ("closed_price_m2", N_("Closed: for 1 m²"), "", 2),
  SW_COLUMN_NUMBER ("open_price_m2", N_("Open: for 1 m²"), "", 2),
  SW_COLUMN_NUMBER ("closed_later_low", N_("Closed: over the years, least"), "", 2),
  SW_COLUMN_NUMBER ("closed_later_high", N_("Closed: over the years, most"), "", 2),
  SW_COLUMN_NUMBER ("open_later_low", N_("Open: over the years, least"), "", 2),
  SW_COLUMN_NUMBER ("open_later_high", N_("Open: over the years, most"), "", 2),
  SW_COLUMN_MM ("closed_height_mm", N_("Closed: height")),
  SW_COLUMN_MM ("open_height_mm", N_("Open: height")),
  SW_COLUMN_TEXT ("open_measured_to", N_("Open: measured to")),
  SW_COLUMN_MM ("wanted_mm", N_("Height wanted")),
  SW_COLUMN_MM ("closed_left_mm", N_("Closed: height left")),
  SW_COLUMN_MM ("open_left_mm", N_("Open: height left")),
  SW_COLUMN_NUMBER ("zinc_m2", N_("Zinc faces"), "m²", 2),
  SW_COLUMN_NUMBER ("concrete_m2", N_("Concrete faces"), "m²", 2),
  SW_COLUMN_NUMBER ("zinc_primer_l", N_("Primer for zinc"), "l", 2),
  SW_COLUMN_NUMBER ("alkali_primer_l", N_("Alkali-resistant primer"), "l", 2),
  SW_COLUMN_NUMBER ("closed_finish_l", N_("Closed: finish paint"), "l", 2),
  SW_COLUMN_NUMBER ("open_finish_l", N_("Open: finish paint"), "l", 2),
  SW_COLUMN_NUMBER ("closed_days_low", N_("Closed: days, least"), "", 1),
  SW_COLUMN_NUMBER ("closed_days_high", N_("Closed: days, most"), "", 1),
  SW_COLUMN_NUMBER ("open_days_low", N_("Open: days, least"), "", 1),
  SW_COLUMN_NUMBER ("open_days_high", N_("Open: days, most"), "", 1),
  SW_COLUMN_NUMBER ("closed_carbon_kg", N_("Closed: carbon"), "kg", 1),
  SW_COLUMN_NUMBER ("open_carbon_kg", N_("Open: carbon"), "kg", 1),
  SW_COLUMN_NUMBER ("closed_reflectance", N_("Closed: light given back"), "", 2),
  SW_COLUMN_NUMBER ("open_reflectance", N_("Open: light given back"), "", 2),
  SW_COLUMN_NUMBER ("closed_absorption_m2", N_("Closed: sound taken up at 500 Hz"), "m²", 2),
  SW_COLUMN_NUMBER ("open_absorption_m2", N_("Open: sound taken up at 500 Hz"), "m²", 2),
};

static void
put_figure (SwSchedule *schedule, const SwChoice *choice, const char *key, guint side)
{
  guint row = 0;
  while (strcmp (sw_choice_row (row)->key, key) != 0)
    row++;
  const SwFigureInfo *info = sw_choice_row (row);
  SwFigure figure = sw_choice_figure (choice, side, row);
  if (info->kind == SW_FIGURE_WORD)
    sw_schedule_put (schedule, sw_word (figure.word));
  else if (info->kind == SW_FIGURE_NUMBER)
    sw_schedule_put_number (schedule, figure.number);
  else if (figure.known)
    put_money (schedule, figure.money);
  else
    sw_schedule_put_nothing (schedule, 1);
}

static void
fill_choice (SwSchedule *schedule, const SwSheetContext *context)
{
  g_autoptr (GPtrArray) rooms = sw_sheet_records (sw_sheet_job (context), SW_TABLE_ROOM);
  for (guint i = 0; i < rooms->len; i++)
    {
      const SwRoom *room = rooms->pdata[i];
      g_autoptr (SwChoice) choice = sw_choice_new (context->deck, context->rules, room, FALSE, NULL, NULL);
      if (choice == NULL)
        continue;
      sw_schedule_begin_row (schedule, room->record.id);
      sw_schedule_put (schedule, room->record.tag);
      sw_schedule_put (schedule, room->name);
      sw_schedule_put (schedule, sw_sheet_word (SW_TABLE_ROOM, "finish", room->finish));
      for (gsize k = 0; k < G_N_ELEMENTS (choice_figures); k++)
        put_figure (schedule, choice, choice_figures[k].figure, choice_figures[k].side);
    }
}

const SwScheduleKind sw_schedule_takeoff = SW_SCHEDULE ("take-off", N_("Take-off"), N_("All material and work of the job, with prices"),
                                                        takeoff_columns, fill_takeoff);
const SwScheduleKind sw_schedule_choice = SW_SCHEDULE ("choice", N_("Closed or open"), N_("Every room's ceiling closed and left open, side by side"),
                                                       choice_columns, fill_choice);
