/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "lighting/questions.h"
#include "base/text.h"
#include "lighting/places.h"
#include <math.h>

static const SwAskInput band_inputs[] = {
  SW_ASK ("mouth", N_ ("width of the void at the soffit"), "mm", 50, 3000, "500"),
  SW_ASK ("crown", N_ ("width of the void at the crown"), "mm", 50, 3000, "400"),
  SW_ASK ("depth", N_ ("depth of the void"), "mm", 20, 1000, "250"),
  SW_ASK ("body", N_ ("body of the light, across"), "mm", 10, 1000, "96"),
  SW_ASK ("recess", N_ ("its height above the ceiling's face"), "mm", 1, 1000, "90"),
  SW_ASK ("cut-out", N_ ("its cut-out"), "mm", 10, 1000, "100"),
  SW_ASK ("centres", N_ ("centres of the battens"), "mm", 50, 2000, "400"),
  SW_ASK ("width", N_ ("width of the batten"), "mm", 10, 200, "38"),
  SW_ASK ("batten", N_ ("depth of the battens below the soffit"), "mm", 0, 500, "38"),
  SW_ASK ("board", N_ ("thickness of the board"), "mm", 0, 100, "9.5"),
};

/* Rib and crown: TRUE when a body so low passes below the ribs. */
static gboolean
work_across (const SwAsked *asked, SwWorking *working, double *band)
{
  SwRules *rules = sw_asked_rules (asked);
  SwRuleValue side = sw_rules_value (rules, "checks.clearances", "light_rib_mm"), above = sw_rules_value (rules, "light.clearances", "withdraw_mm");
  double mouth = sw_working_given (working, "m", N_ ("width of the void at the soffit"), sw_asked_number (asked, "mouth"), "mm");
  double crown = sw_working_given (working, "k", N_ ("width of the void at the crown"), sw_asked_number (asked, "crown"), "mm");
  double depth = sw_working_given (working, "d", N_ ("depth of the void"), sw_asked_number (asked, "depth"), "mm");
  double body = sw_working_given (working, "b", N_ ("body of the light, across"), sw_asked_number (asked, "body"), "mm");
  double recess = sw_working_given (working, "h", N_ ("its height above the ceiling's face"), sw_asked_number (asked, "recess"), "mm");
  double below = sw_working_given (working, "B", N_ ("depth of the battens below the soffit"), sw_asked_number (asked, "batten"), "mm");
  double board = sw_working_given (working, "t", N_ ("thickness of the board"), sw_asked_number (asked, "board"), "mm");
  sw_working_rule (working, "c", N_ ("clearance of a light's body from ribs"), &side);
  sw_working_rule (working, "a", N_ ("room above it for springs and driver"), &above);
  double top = sw_working_step (working, "z", N_ ("top of the body above the soffit"), "h − B − t", recess - below - board, "mm");
  *band = sw_light_band (mouth, crown, depth, top, body, side.value);
  sw_working_step (working, "w", N_ ("width of the void there"), "m − (m − k) max(z, 0)/d", mouth - (mouth - crown) * CLAMP (top, 0, depth) / depth, "mm");
  sw_working_answer (working, "A", N_ ("allowed band across the void, for middles"), "w − b − 2 c √(d² + ((m − k)/2)²)/d", fmax (*band, 0), "mm");
  if (top + above.value > depth)
    *band = -1;
  return top + side.value <= 1e-9;
}

static gboolean
answer_band (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRuleValue batten = sw_rules_value (sw_asked_rules (asked), "light.clearances", "batten_mm");
  double band;
  gboolean under = work_across (asked, working, &band);
  double cut_out = sw_working_given (working, "u", N_ ("its cut-out"), sw_asked_number (asked, "cut-out"), "mm");
  double centres = sw_working_given (working, "e", N_ ("centres of the battens"), sw_asked_number (asked, "centres"), "mm");
  double width = sw_working_given (working, "v", N_ ("width of the batten"), sw_asked_number (asked, "width"), "mm");
  sw_working_rule (working, "g", N_ ("cut-out from a batten, aimed at"), &batten);
  double gap = sw_light_gap (centres, width, cut_out, batten.value);
  sw_working_answer (working, "L", N_ ("allowed length between two battens, for middles"), "e − v − u − 2 g", fmax (gap, 0), "mm");
  sw_working_answer_word (working, "R", N_ ("below a rib"), "z + c ≤ 0", under ? N_ ("it fits: the body is low enough") : N_ ("it does not fit"));
  gboolean fits = gap >= 0 && (band >= 0 || under);
  sw_working_say (working, fits ? SW_VERDICT_GOOD : SW_VERDICT_BAD,
                  !fits ? N_ ("No place is left: take a lower or narrower light, or wider centres.") : under ? N_ ("Its middle may be anywhere between the battens, below ribs too.")
                                                                                                          : N_ ("Its middle may be in this band of each void, between the battens."));
  return TRUE;
}

const SwQuestion sw_lighting_questions[] = {
  SW_QUESTION (N_ ("Lights"), "light-band", N_ ("Allowed band of a downlight"), N_ ("Where the middle of a light may be between ribs and battens, and whether it goes below a rib."), band_inputs,
               answer_band),
};

const guint sw_lighting_n_questions = G_N_ELEMENTS (sw_lighting_questions);
