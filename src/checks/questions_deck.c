/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "base/text.h"
#include "checks/questions_parts.h"
#include "space/packing.h"
#include <math.h>

/* ---- fixings */

static const SwAskInput strip_inputs[] = {
  SW_ASK ("rib", N_ ("width of the rib's underside"), "mm", 10, 2000, ""),
  SW_ASK ("cover", N_ ("cover to the links"), "mm", 0, 200, "25"),
  SW_ASK ("link", N_ ("link"), "mm", 0, 40, "8"),
  SW_ASK ("bar", N_ ("bar"), "mm", 0, 60, "16"),
};

static gboolean
answer_strip (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRuleValue least = sw_rules_value (sw_asked_rules (asked), "deck.drill", "strip_least_mm");
  SwRuleValue less = sw_rules_value (sw_asked_rules (asked), "deck.drill", "cover_less_mm");
  double rib = sw_working_given (working, "b", N_ ("width of the rib's underside"), sw_asked_number (asked, "rib"), "mm");
  double cover = sw_working_given (working, "c", N_ ("cover to the links"), sw_asked_number (asked, "cover"), "mm");
  double link = sw_working_given (working, "l", N_ ("link"), sw_asked_number (asked, "link"), "mm");
  double bar = sw_working_given (working, "d", N_ ("bar"), sw_asked_number (asked, "bar"), "mm");
  double strip = sw_working_answer (working, "w", N_ ("safe strip between the bars"), "b − 2 (c + l + d)", rib - 2 * (cover + link + bar), "mm");
  sw_working_rule (working, "w₀", N_ ("narrowest strip that is drilled without asking"), &least);
  sw_working_rule (working, "e", N_ ("what a shallow hole leaves of the cover"), &less);
  sw_working_answer (working, "t", N_ ("deepest hole outside the strip"), "c − e", fmax (cover - less.value, 0), "mm");
  sw_working_say (working, strip >= least.value ? SW_VERDICT_GOOD : SW_VERDICT_BAD,
                  strip >= least.value ? N_ ("There is a strip to drill in, unless there are tendons.") : N_ ("Ask the engineer before any hole deeper than the cover."));
  return TRUE;
}

/* ---- holes */

static const SwAskInput hole_inputs[] = {
  SW_ASK ("depth", N_ ("depth of rib and topping"), "mm", 50, 3000, ""),
  SW_ASK ("topping", N_ ("topping"), "mm", 0, 1000, "75"),
  SW_ASK ("pipe", N_ ("outside of the pipe with its insulation"), "mm", 5, 1000, ""),
};

static gboolean
answer_hole (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRules *rules = sw_asked_rules (asked);
  SwRuleValue gap = sw_rules_value (rules, "deck.sleeves", "gap_least_mm"), divisor = sw_rules_value (rules, "deck.rib_hole", "depth_divisor");
  SwRuleValue low = sw_rules_value (rules, "deck.rib_hole", "band_bottom_share"), clear = sw_rules_value (rules, "deck.rib_hole", "support_depths");
  SwRuleValue apart = sw_rules_value (rules, "deck.rib_hole", "spacing_diameters");
  double h = sw_working_given (working, "h", N_ ("depth of rib and topping"), sw_asked_number (asked, "depth"), "mm");
  double topping = sw_working_given (working, "t", N_ ("topping"), sw_asked_number (asked, "topping"), "mm");
  double pipe = sw_working_given (working, "D", N_ ("outside of the pipe with its insulation"), sw_asked_number (asked, "pipe"), "mm");
  sw_working_rule (working, "g", N_ ("room around the pipe, each side"), &gap);
  double hole = sw_working_answer (working, "d", N_ ("hole"), "D + 2 g", pipe + 2 * gap.value, "mm");
  sw_working_rule (working, "q", N_ ("hole at most the depth over this"), &divisor);
  double most = sw_working_answer (working, "dmax", N_ ("widest hole that is commonly asked for"), "h/q", h / divisor.value, "mm");
  double highest = sw_working_answer (working, "a₁", N_ ("its middle below the top, at least"), "t + d/2", topping + hole / 2, "mm");
  sw_working_rule (working, "r", N_ ("lowest middle as a share of the depth"), &low);
  double lowest = sw_working_answer (working, "a₂", N_ ("its middle below the top, at most"), "r h", low.value * h, "mm");
  sw_working_rule (working, "k", N_ ("clear of supports, in depths"), &clear);
  sw_working_answer (working, "x", N_ ("clear of supports"), "k h", clear.value * h, "mm");
  sw_working_rule (working, "s", N_ ("holes apart, in diameters"), &apart);
  sw_working_answer (working, "y", N_ ("holes apart"), "s d", apart.value * hole, "mm");
  gboolean may = hole <= most + 1e-9 && highest <= lowest + 1e-9;
  sw_working_say (working, may ? SW_VERDICT_GOOD : SW_VERDICT_BAD,
                  may ? N_ ("This may be asked of the engineer, who decides.") : N_ ("The engineer will hardly allow it: take another way."));
  return TRUE;
}

/* ---- a void's section */

#define SECTION_INPUTS \
  SW_ASK ("mouth", N_ ("width of the void at the soffit"), "mm", 20, 3000, "500"), SW_ASK ("crown", N_ ("width at its crown"), "mm", 10, 3000, "400"), \
  SW_ASK ("depth", N_ ("depth of the void"), "mm", 20, 2000, "250")

/* Its clearances: what the rule set says for sides, crown and tubes; the plane of the soffit may be touched but for battens. */
static SwPackCase
read_section (const SwAsked *asked, SwWorking *working)
{
  static const struct { const char *key, *symbol, *what; gsize offset; } clearances[] = {
    { "web_mm", "s", N_ ("clearance at the sides"), G_STRUCT_OFFSET (SwPackCase, side) },
    { "crown_mm", "c", N_ ("clearance at the crown"), G_STRUCT_OFFSET (SwPackCase, top) },
    { "batten_mm", "b", N_ ("clearance above the battens"), G_STRUCT_OFFSET (SwPackCase, bottom) },
    { "tube_mm", "t", N_ ("clearance between tubes"), G_STRUCT_OFFSET (SwPackCase, between) },
  };
  SwPackCase pack = { 0 };
  pack.mouth = sw_working_given (working, "M", N_ ("width of the void at the soffit"), sw_asked_number (asked, "mouth"), "mm");
  pack.crown = sw_working_given (working, "C", N_ ("width at its crown"), sw_asked_number (asked, "crown"), "mm");
  pack.depth = sw_working_given (working, "h", N_ ("depth of the void"), sw_asked_number (asked, "depth"), "mm");
  for (gsize i = 0; i < G_N_ELEMENTS (clearances); i++)
    {
      SwRuleValue rule = sw_rules_value (sw_asked_rules (asked), "checks.clearances", clearances[i].key);
      G_STRUCT_MEMBER (double, &pack, clearances[i].offset) = sw_working_rule (working, clearances[i].symbol, clearances[i].what, &rule);
    }
  return pack;
}

static const SwAskInput width_inputs[] = {
  SECTION_INPUTS,
  SW_ASK ("height", N_ ("height above the soffit"), "mm", 0, 2000, ""),
  SW_ASK ("od", N_ ("outside diameter of tubes side by side there"), "mm", 1, 1000, "20"),
};

static gboolean
answer_width (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwPackCase pack = read_section (asked, working);
  double height = sw_working_given (working, "z", N_ ("height above the soffit"), sw_asked_number (asked, "height"), "mm");
  double od = sw_working_given (working, "D", N_ ("outside diameter"), sw_asked_number (asked, "od"), "mm");
  if (height > pack.depth)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "height: %g mm is above the crown", height);
      return FALSE;
    }
  sw_working_answer (working, "w", N_ ("width of the void there"), "M − (M − C) z/h", sw_packing_width (&pack, height), "mm");
  sw_working_answer (working, "n", N_ ("tubes side by side with their axes there"), "⌊(w − 2 s' + t)/(D + t)⌋, s' for the sloping side", sw_packing_row (&pack, od, height), "");
  return TRUE;
}

static const SwAskInput largest_inputs[] = { SECTION_INPUTS };

static gboolean
answer_largest (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwPackCase pack = read_section (asked, working);
  SwPoint at = { 0, 0 };
  double largest = sw_working_answer (working, "Dmax", N_ ("widest single tube, over socket and insulation"), "touches two sides of the section less the clearances",
                                      sw_packing_largest (&pack, &at), "mm");
  sw_working_answer (working, "z", N_ ("height of its axis above the soffit"), NULL, at.y, "mm");
  if (largest <= 0)
    sw_working_say (working, SW_VERDICT_BAD, N_ ("Nothing fits into this section."));
  return TRUE;
}

/* ---- how much fits */

static const SwAskInput fit_inputs[] = {
  SW_ASK_MANY ("tubes", N_ ("outside diameters, as in 110, 2x25"), "mm", 1, 1000, ""),
  SECTION_INPUTS,
  SW_ASK_ONE_OF ("sockets", N_ ("reckon waste pipes with their sockets?"), "yes|no", "yes"),
};

static const SwWorkingColumn fit_columns[] = {
  { "D", N_ ("tube"), "mm" }, { "S", N_ ("reckoned as"), "mm" }, { "x", N_ ("from the void's middle"), "mm" }, { "z", N_ ("axis above the soffit"), "mm" },
};

static double
outside_of (const SwAsked *asked, double od)
{
  SwRuleValue socket;
  gboolean sockets = sw_asked_word (asked, "sockets")[0] == 'y';
  return sockets && sw_rules_lookup_at (sw_asked_rules (asked), "waste.sockets", od, SW_RULE_EXACT, "socket_mm", &socket, NULL) ? fmax (socket.value, od) : od;
}

static void
say_fit (SwWorking *working, SwPackResult result)
{
  static const char *const said[] = {
    [SW_PACK_FITS] = N_ ("They fit; the table says where."),
    [SW_PACK_TOO_WIDE] = N_ ("One of them does not fit even alone."),
    [SW_PACK_TOO_MUCH] = N_ ("They do not fit: their areas are more than the section has."),
    [SW_PACK_NOT_FOUND] = N_ ("No way was found to fit them; for more than two tubes that is no proof."),
  };
  sw_working_say (working, result == SW_PACK_FITS ? SW_VERDICT_GOOD : SW_VERDICT_BAD, said[result]);
}

static gboolean
answer_fit (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwPackTube tubes[SW_PACK_MOST];
  guint n;
  const double *list = sw_asked_list (asked, "tubes", &n);
  SwPackCase pack = read_section (asked, working);
  if (n > SW_PACK_MOST)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "tubes: at most %d can be packed", SW_PACK_MOST);
      return FALSE;
    }
  for (guint i = 0; i < n; i++)
    tubes[i] = (SwPackTube){ .radius = outside_of (asked, list[i]) / 2 };
  SwPackResult result = sw_packing_find (&pack, tubes, n);
  double taken = 0;
  for (guint i = 0; i < n; i++)
    taken += G_PI * tubes[i].radius * tubes[i].radius;
  sw_working_given (working, "N", N_ ("tubes"), n, "");
  double area = sw_working_step (working, "A", N_ ("area of the section"), "h (M + C)/2", pack.depth * (pack.mouth + pack.crown) / 2, "mm2");
  sw_working_answer (working, "p", N_ ("of the section taken"), "100 Σ π D²/4 / A", 100 * taken / area, "%");
  say_fit (working, result);
  sw_working_table (working, fit_columns, G_N_ELEMENTS (fit_columns));
  for (guint i = 0; i < n; i++)
    {
      double cells[] = { list[i], 2 * tubes[i].radius, result == SW_PACK_FITS ? tubes[i].at.x : NAN, result == SW_PACK_FITS ? tubes[i].at.y : NAN };
      for (gsize c = 0; c < G_N_ELEMENTS (cells); c++)
        sw_working_cell (working, cells[c]);
    }
  return TRUE;
}

/* ---- crossing below a rib */

static const SwAskInput crossing_inputs[] = {
  SW_ASK ("size", N_ ("conduit"), "mm", 10, 100, "20"),
  SW_ASK ("batten", N_ ("depth of the brandering"), "mm", 0, 500, "38"),
};

static gboolean
answer_crossing (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRuleValue needs;
  double size = sw_working_given (working, "D", N_ ("conduit"), sw_asked_number (asked, "size"), "mm");
  double batten = sw_working_given (working, "B", N_ ("depth of the brandering"), sw_asked_number (asked, "batten"), "mm");
  if (!sw_rules_lookup_at (sw_asked_rules (asked), "crossing.depth", size, SW_RULE_EXACT, "depth_mm", &needs, error))
    return FALSE;
  sw_working_rule (working, "d", N_ ("room that it needs with coupler and spacer saddle"), &needs);
  double left = sw_working_answer (working, "e", N_ ("room left"), "B − d", batten - needs.value, "mm");
  sw_working_say (working, left >= 0 ? SW_VERDICT_GOOD : SW_VERDICT_BAD, left >= 0 ? N_ ("It passes below the rib, between two battens.") : N_ ("It does not pass below the rib."));
  return TRUE;
}

static const SwAskInput topping_inputs[] = {
  SW_ASK ("od", N_ ("outside diameter of the conduit"), "mm", 5, 200, "20"),
  SW_ASK ("topping", N_ ("topping"), "mm", 10, 1000, "75"),
};

static gboolean
answer_topping (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRules *rules = sw_asked_rules (asked);
  SwRuleValue divisor = sw_rules_value (rules, "deck.topping_conduit", "depth_divisor"), over = sw_rules_value (rules, "deck.topping_conduit", "depth_over_mm");
  SwRuleValue apart = sw_rules_value (rules, "deck.topping_conduit", "spacing_diameters");
  double od = sw_working_given (working, "D", N_ ("outside diameter of the conduit"), sw_asked_number (asked, "od"), "mm");
  double topping = sw_working_given (working, "t", N_ ("topping"), sw_asked_number (asked, "topping"), "mm");
  sw_working_rule (working, "q", N_ ("at most the topping over this"), &divisor);
  sw_working_rule (working, "o", N_ ("topping more than the conduit by"), &over);
  sw_working_rule (working, "k", N_ ("conduits apart, in diameters"), &apart);
  double most = sw_working_answer (working, "Dmax", N_ ("widest conduit"), "min(t/q, t − o)", fmin (topping / divisor.value, topping - over.value), "mm");
  sw_working_answer (working, "a", N_ ("conduits apart, middle to middle"), "k D", apart.value * od, "mm");
  sw_working_say (working, od <= most + 1e-9 ? SW_VERDICT_GOOD : SW_VERDICT_BAD,
                  od <= most + 1e-9 ? N_ ("This may be asked of the engineer, who decides.") : N_ ("It is too wide to be cast into this topping."));
  return TRUE;
}

/* ---- plates */

static const SwAskInput plate_inputs[] = {
  SW_ASK ("first", N_ ("the first plate, from the closure"), "m", 0, 100, "0"),
  SW_ASK ("spacing", N_ ("from plate to plate"), "m", 0.1, 20, "1.5"),
  SW_ASK ("from", N_ ("the run starts at"), "m", 0, 1000, ""),
  SW_ASK ("to", N_ ("the run ends at"), "m", 0, 1000, ""),
};

static gboolean
answer_plates (const SwAsked *asked, SwWorking *working, GError **error)
{
  double first = sw_working_given (working, "x₀", N_ ("the first plate, from the closure"), sw_asked_number (asked, "first"), "m");
  double each = sw_working_given (working, "p", N_ ("from plate to plate"), sw_asked_number (asked, "spacing"), "m");
  double from = sw_working_given (working, "x₁", N_ ("the run starts at"), sw_asked_number (asked, "from"), "m");
  double to = sw_working_given (working, "x₂", N_ ("the run ends at"), sw_asked_number (asked, "to"), "m");
  double low = fmax (ceil ((fmin (from, to) - first) / each - 1e-9), 0), high = floor ((fmax (from, to) - first) / each + 1e-9);
  sw_working_answer (working, "n", N_ ("plates met"), "⌊(x₂ − x₀)/p⌋ − ⌈(x₁ − x₀)/p⌉ + 1", fmax (high - low + 1, 0), "");
  return TRUE;
}

const SwQuestion sw_deck_questions[] = {
  SW_QUESTION (N_ ("Deck"), "fit", N_ ("How much fits into a void"), N_ ("Whether tubes fit together into a void's section, and where."), fit_inputs, answer_fit),
  SW_QUESTION (N_ ("Deck"), "largest-tube", N_ ("Widest tube in a void"), N_ ("The widest single tube that a void's section takes."), largest_inputs, answer_largest),
  SW_QUESTION (N_ ("Deck"), "void-width", N_ ("Width of a void at a height"), N_ ("How wide a void is there, and how many tubes lie side by side."), width_inputs, answer_width),
  SW_QUESTION (N_ ("Deck"), "plates-met", N_ ("Plates in the way"), N_ ("How many stiffener plates a run along a void meets."), plate_inputs, answer_plates),
  SW_QUESTION (N_ ("Deck"), "rib-crossing", N_ ("Conduit below a rib"), N_ ("Whether a conduit passes below a rib within the brandering."), crossing_inputs, answer_crossing),
  SW_QUESTION (N_ ("Deck"), "topping-conduit", N_ ("Conduit in the topping"), N_ ("How wide a conduit may be that is cast into the topping."), topping_inputs, answer_topping),
  SW_QUESTION (N_ ("Deck"), "rib-hole", N_ ("Hole through a rib"), N_ ("What may be asked of the engineer for a pipe through a rib."), hole_inputs, answer_hole),
  SW_QUESTION (N_ ("Deck"), "drill-strip", N_ ("Drilling into a rib"), N_ ("Safe strip between the bars of a rib."), strip_inputs, answer_strip),
};

const guint sw_deck_n_questions = G_N_ELEMENTS (sw_deck_questions);
