/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Each side is the room with that finish, taken off, priced and weighed by the same functions as the whole job. Only the finish is
 * counted: services hang in the voids either way. Days are those of one crew for each kind of work, one after the other.
 * Sound and light are rough: matt faces, long troughs, an empty room. Over the years only repainting is counted. */
#include "estimate/choice.h"
#include "base/error.h"
#include "base/text.h"
#include "estimate/carbon.h"
#include "estimate/labour.h"
#include "estimate/sound.h"
#include "estimate/takeoff_parts.h"
#include "lighting/trough_light.h"
#include "geometry/outline.h"
#include <math.h>

SwQuoteTerms
sw_quote_terms (const SwRules *rules)
{
  SwRuleValue vat = { 0 }, markup = sw_rules_value (rules, "estimate.quote", "markup_percent");
  sw_rules_number (rules, "estimate.tax", "vat_percent", &vat, NULL);
  return (SwQuoteTerms){ (gint64) llround (markup.value * 10000), (gint64) llround (vat.value * 10000) };
}

typedef struct
{
  SwDeck *deck;
  SwRules *rules;
  const SwRoom *room; /* with the side's finish */
  SwQuoteTerms terms;
  SwSoffitArea area;
  SwChoiceSide *side;
} SideCase;

/* Keeps the less certain of two. */
static void
least_certain (SwRuleValue *kept, const SwRuleValue *other)
{
  if (kept->rule_id == NULL || other->confidence > kept->confidence)
    *kept = *other;
}

/* ---- days of work */

static double
amount_of (const GPtrArray *needs, SwPriceKind kind)
{
  double sum = 0;
  for (guint i = 0; i < needs->len; i++)
    if (((const SwNeed *) needs->pdata[i])->kind == kind)
      sum += sw_quantity_to_double (((const SwNeed *) needs->pdata[i])->quantity);
  return sum;
}

static void
find_days (const SideCase *c)
{
  SwLabour labour;
  for (guint i = 0; i < sw_labour_n_works (); i++)
    {
      if (!sw_labour_of (c->rules, c->side->needs, i, &labour))
        continue;
      c->side->days_low += labour.days_low;
      c->side->days_high += labour.days_high;
      least_certain (&c->side->days_rule, &labour.rule);
    }
}

/* ---- money */

/* What painting it once more costs, before tax. */
static SwMoney
repaint_price (const SideCase *c)
{
  SwRuleValue coats = { .value = 0 };
  SwNeeds *needs = sw_needs_new ();
  SwSoffitArea *area = &c->side->paint.area;
  sw_rules_lookup (c->rules, "paint.systems", "finish", "coats", &coats, NULL);
  double open = area->plan > 0 ? c->side->paint.steel_m2 + c->side->paint.concrete_m2 + c->side->paint.services_m2 : 0;
  sw_needs_add (needs, SW_PRICE_FINISH, NULL, c->side->finish_l, 0, 0);
  sw_needs_add (needs, SW_PRICE_SOFFIT_COAT, NULL, open * coats.value, 0, 0);
  sw_needs_add (needs, SW_PRICE_CEILING_COAT, NULL, amount_of (c->side->needs, SW_PRICE_CEILING_COAT), 0, 0);
  g_autoptr (GPtrArray) list = sw_needs_end (needs);
  g_autoptr (SwQuote) quote = sw_quote_new (sw_deck_job (c->deck), list, c->terms);
  return quote->price;
}

/* How often it is painted again before the years are over. */
static gint64
repaints (const SideCase *c, const char *every)
{
  double years = sw_rules_value (c->rules, "estimate.choice", "years").value;
  return MAX (0, (gint64) ceil (years / sw_rules_value (c->rules, "paint.rules", every).value - 1e-9) - 1);
}

static void
find_prices (const SideCase *c)
{
  SwChoiceSide *side = c->side;
  SwQuantity plan = sw_quantity_from_double (c->area.plan / 1e6);
  side->quote = sw_quote_new (sw_deck_job (c->deck), side->needs, c->terms);
  side->price_m2 = plan > 0 ? sw_money_cents (sw_divide_round ((__int128) side->quote->price * SW_QUANTITY_ONE, plan)) : 0;
  SwMoney again = side->finish == SW_FINISH_GRID ? 0 : repaint_price (c);
  side->later_low = side->quote->price + again * repaints (c, "repaint_high_years");
  side->later_high = side->quote->price + again * repaints (c, "repaint_low_years");
}

/* ---- light and sound */

static void
find_light (const SideCase *c)
{
  SwChoiceSide *side = c->side;
  const char *row = side->finish == SW_FINISH_CLOSED ? "board" : "white-paint";
  if (side->finish == SW_FINISH_GRID || !sw_rules_lookup (c->rules, "light.reflectance", row, "design", &side->reflectance_rule, NULL))
    return;
  side->reflectance = side->reflectance_rule.value;
  if (side->finish != SW_FINISH_EXPOSED || c->area.bay == NULL)
    return;
  const SwProfile *profile = c->area.bay->profile;
  double mouth = sw_trough_reflectance (profile->mouth, profile->crown, profile->depth, side->reflectance_rule.value);
  side->reflectance = c->area.rib_share * side->reflectance_rule.value + (1 - c->area.rib_share) * mouth;
}

typedef struct
{
  const char *row; /* of acoustics.absorption */
  double m2;
} Absorber;

/* Octave by octave; NAN where a face has no value. */
static void
absorb (const SwRules *rules, const Absorber *faces, guint n, double absorption[SW_CHOICE_BANDS], SwRuleValue *rule)
{
  for (guint band = 0; band < SW_CHOICE_BANDS; band++)
    {
      absorption[band] = 0;
      for (guint i = 0; i < n; i++)
        {
          SwRuleValue value = { .value = NAN };
          if (sw_rules_grid (rules, "acoustics.absorption", faces[i].row, 125 << band, SW_RULE_EXACT, &value, NULL))
            least_certain (rule, &value);
          absorption[band] += faces[i].m2 > 0 ? faces[i].m2 * value.value : 0;
        }
    }
}

/* Boards on battens of 25 mm and on thicker ones; wool above them as measured on a frame of 100 mm. */
static const char *
board_row (const SwRoom *room)
{
  if (room->insulation > 0)
    return "board-frame-100-wool";
  return room->batten_depth + room->packing < 38 ? "board-battens-25" : "board-battens-50";
}

/* Empty room: linoleum, painted walls up to the lowest of the ceiling, and the ceiling. */
static double
reverberation_of (const SideCase *c)
{
  const int at_500 = 2;
  double plan = c->area.plan / 1e6, low = c->side->head.lowest / 1e3, other[SW_CHOICE_BANDS];
  SwRuleValue rule = { 0 };
  double walls = sw_outline_perimeter (c->room->outline.items, c->room->outline.n) / 1e3 * low;
  double volume = plan * low + (c->side->finish == SW_FINISH_EXPOSED ? c->area.voids / 1e9 : 0);
  const Absorber faces[] = { { "linoleum", plan }, { "concrete-painted", walls } };
  absorb (c->rules, faces, G_N_ELEMENTS (faces), other, &rule);
  return sw_sound_sabine (c->rules, volume, other[at_500] + c->side->absorption[at_500]);
}

static void
find_sound (const SideCase *c)
{
  SwChoiceSide *side = c->side;
  const Absorber board[] = { { board_row (c->room), c->area.plan / 1e6 } };
  const Absorber open[] = { { "trough-painted", side->paint.steel_m2 }, { "concrete-painted", side->paint.concrete_m2 } };
  for (guint band = 0; band < SW_CHOICE_BANDS; band++)
    side->absorption[band] = NAN;
  if (side->finish == SW_FINISH_CLOSED)
    absorb (c->rules, board, G_N_ELEMENTS (board), side->absorption, &side->absorption_rule);
  else if (side->finish == SW_FINISH_EXPOSED)
    absorb (c->rules, open, G_N_ELEMENTS (open), side->absorption, &side->absorption_rule);
  side->reverberation = side->head.lowest > 0 ? reverberation_of (c) : NAN;
}

/* ---- one side */

static gboolean
take_off (const SideCase *c, GCancellable *cancellable, GError **error)
{
  SwTakeoffWork work = { c->deck, c->rules, NULL, sw_needs_new (), NULL, cancellable };
  gboolean done = sw_takeoff_room (&work, c->room, error);
  c->side->needs = sw_needs_end (work.needs);
  if (done && c->side->finish == SW_FINISH_EXPOSED)
    done = sw_paint_room (c->deck, c->rules, c->room, &c->side->paint, error);
  c->side->finish_l = amount_of (c->side->needs, SW_PRICE_FINISH);
  return done;
}

/* A finish that cannot be is a fault of the side; only a cancelled or unfit rule set ends it all. */
static gboolean
find_side (SideCase *c, GCancellable *cancellable, GError **error)
{
  SwChoiceSide *side = c->side;
  g_autoptr (GError) fault = NULL;
  side->carbon_kg = side->reflectance = side->reverberation = NAN;
  side->head = sw_headroom (c->deck, c->rules, c->room, side->finish);
  gboolean done = c->area.plan > 0 && take_off (c, cancellable, &fault);
  if (g_cancellable_is_cancelled (cancellable))
    {
      g_set_error_literal (error, SW_ERROR, SW_ERROR_CANCELLED, "the comparison of finishes was cancelled");
      return FALSE;
    }
  if (!done)
    {
      side->fault = g_strdup (fault != NULL ? fault->message : N_("the room lies under no bay"));
      return TRUE;
    }
  find_prices (c);
  find_days (c);
  find_light (c);
  find_sound (c);
  SwCarbon carbon = sw_carbon_of (side->needs, c->rules, c->room);
  side->carbon_kg = carbon.kg;
  side->carbon_rule = carbon.factor;
  return TRUE;
}

SwChoice *
sw_choice_new (SwDeck *deck, SwRules *rules, const SwRoom *room, gboolean grid, GCancellable *cancellable, GError **error)
{
  static const SwFinish finishes[] = { SW_FINISH_CLOSED, SW_FINISH_EXPOSED, SW_FINISH_GRID };
  g_autoptr (SwChoice) choice = g_new0 (SwChoice, 1);
  SwSoffitArea area = sw_soffit_area (deck, room);
  choice->room = room;
  choice->plan_m2 = area.plan / 1e6;
  choice->n = grid || room->finish == SW_FINISH_GRID ? 3 : 2;
  for (guint i = 0; i < choice->n; i++)
    {
      g_autoptr (SwRecord) copy = sw_record_copy (&room->record);
      ((SwRoom *) copy)->finish = choice->sides[i].finish = finishes[i];
      SideCase c = { deck, rules, (const SwRoom *) copy, sw_quote_terms (rules), area, &choice->sides[i] };
      if (!find_side (&c, cancellable, error))
        return NULL;
    }
  return g_steal_pointer (&choice);
}

void
sw_choice_free (SwChoice *choice)
{
  for (guint i = 0; i < G_N_ELEMENTS (choice->sides); i++)
    {
      g_free (choice->sides[i].fault);
      g_clear_pointer (&choice->sides[i].quote, sw_quote_free);
      g_clear_pointer (&choice->sides[i].needs, g_ptr_array_unref);
    }
  g_free (choice);
}
