/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/questions.h"
#include "base/text.h"
#include "circuits/questions.h"
#include "drainage/questions.h"
#include <math.h>
#include <string.h>

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

#define QUESTION(id, title, what, inputs, answer) { id, title, what, inputs, G_N_ELEMENTS (inputs), answer }

static const SwQuestion deck_questions[] = {
  QUESTION ("drill-strip", N_ ("Drilling into a rib"), N_ ("Safe strip between the bars of a rib."), strip_inputs, answer_strip),
  QUESTION ("rib-hole", N_ ("Hole through a rib"), N_ ("What may be asked of the engineer for a pipe through a rib."), hole_inputs, answer_hole),
};

guint
sw_questions_n (void)
{
  return G_N_ELEMENTS (deck_questions) + sw_drainage_n_questions + sw_circuits_n_questions;
}

const SwQuestion *
sw_questions_get (guint i)
{
  g_assert (i < sw_questions_n ());
  if (i < G_N_ELEMENTS (deck_questions))
    return &deck_questions[i];
  i -= G_N_ELEMENTS (deck_questions);
  return i < sw_drainage_n_questions ? &sw_drainage_questions[i] : &sw_circuits_questions[i - sw_drainage_n_questions];
}

const SwQuestion *
sw_questions_find (const char *id)
{
  for (guint i = 0; i < sw_questions_n (); i++)
    if (strcmp (sw_questions_get (i)->id, id) == 0)
      return sw_questions_get (i);
  return NULL;
}
