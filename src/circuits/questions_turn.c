/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "circuits/questions.h"
#include "base/text.h"
#include <math.h>

/* ---- true angles */

static const SwAskInput turn_inputs[] = {
  SW_ASK ("plan", N_ ("turn as seen on the plan"), "°", 0, 180, "90"),
  SW_ASK ("first", N_ ("plan length of the leg before"), "mm", 0, 100000, "1000"),
  SW_ASK ("first-rise", N_ ("what that leg rises (falls: less than 0)"), "mm", -100000, 100000, "0"),
  SW_ASK ("second", N_ ("plan length of the leg after"), "mm", 0, 100000, "1000"),
  SW_ASK ("second-rise", N_ ("what that leg rises (falls: less than 0)"), "mm", -100000, 100000, "0"),
};

static gboolean
answer_turn (const SwAsked *asked, SwWorking *working, GError **error)
{
  double plan = sw_working_given (working, "α", N_ ("turn as seen on the plan"), sw_asked_number (asked, "plan"), "°");
  double l1 = sw_working_given (working, "l₁", N_ ("plan length of the leg before"), sw_asked_number (asked, "first"), "mm");
  double h1 = sw_working_given (working, "h₁", N_ ("what that leg rises"), sw_asked_number (asked, "first-rise"), "mm");
  double l2 = sw_working_given (working, "l₂", N_ ("plan length of the leg after"), sw_asked_number (asked, "second"), "mm");
  double h2 = sw_working_given (working, "h₂", N_ ("what that leg rises"), sw_asked_number (asked, "second-rise"), "mm");
  double dot = l1 * l2 * cos (plan * G_PI / 180) + h1 * h2, lengths = hypot (l1, h1) * hypot (l2, h2);
  double turn = lengths > 0 ? acos (CLAMP (dot / lengths, -1, 1)) * 180 / G_PI : NAN;
  sw_working_answer (working, "β", N_ ("true turn in space"), "arccos((l₁ l₂ cos α + h₁ h₂)/(√(l₁² + h₁²) √(l₂² + h₂²)))", turn, "°");
  return TRUE;
}

/* ---- boxes */

static const SwAskInput box_inputs[] = {
  SW_ASK ("turn", N_ ("true turns between the draw points, together"), "°", 0, 10000, "180"),
  SW_ASK ("length", N_ ("length between the draw points"), "m", 0, 1000, "10"),
};

static gboolean
answer_boxes (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRules *rules = sw_asked_rules (asked);
  SwRuleValue bends = sw_rules_value (rules, "conduit.draw", "note_bends"), longest = sw_rules_value (rules, "conduit.draw", "note_length_m");
  SwRuleValue stop = sw_rules_value (rules, "conduit.draw", "stop_degree");
  double turn = sw_working_given (working, "β", N_ ("true turns between the draw points, together"), sw_asked_number (asked, "turn"), "°");
  double length = sw_working_given (working, "L", N_ ("length between the draw points"), sw_asked_number (asked, "length"), "m");
  sw_working_rule (working, "b", N_ ("quarter bends that draw easily"), &bends);
  sw_working_rule (working, "L₁", N_ ("length that draws easily"), &longest);
  sw_working_rule (working, "β₀", N_ ("turns at most"), &stop);
  double boxes = fmax (fmax (ceil (turn / (90 * bends.value) - 1e-9), ceil (length / longest.value - 1e-9)) - 1, 0);
  sw_working_answer (working, "N", N_ ("boxes to add between them"), "max(⌈β/(90 b)⌉, ⌈L/L₁⌉) − 1", boxes, "");
  sw_working_say (working, boxes > 0 ? SW_VERDICT_BAD : SW_VERDICT_GOOD,
                  turn > stop.value + 1e-9 ? N_ ("It may not be drawn so: put boxes in.") : boxes > 0 ? N_ ("It draws hard: put boxes in, each where half of the turns are behind.") : N_ ("It draws easily."));
  return TRUE;
}

/* ---- radius */

static const SwAskInput radius_inputs[] = {
  SW_ASK ("size", N_ ("conduit"), "mm", 10, 200, "20"),
};

static gboolean
answer_radius (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRuleValue inside = sw_rules_value (sw_asked_rules (asked), "conduit.bends", "inside_diameters"), centre = sw_rules_value (sw_asked_rules (asked), "conduit.bends", "centre_diameters");
  double size = sw_working_given (working, "D", N_ ("conduit"), sw_asked_number (asked, "size"), "mm");
  sw_working_rule (working, "k", N_ ("inside of a bend in diameters, at least"), &inside);
  sw_working_rule (working, "c", N_ ("centre line of a bend in diameters, as bent in a shop"), &centre);
  sw_working_answer (working, "r", N_ ("inside radius, at least"), "k D", inside.value * size, "mm");
  sw_working_answer (working, "R", N_ ("radius of the centre line"), "max(c D, k D + D/2)", fmax (centre.value, inside.value + 0.5) * size, "mm");
  return TRUE;
}

const SwQuestion sw_circuits_turn_questions[] = {
  SW_QUESTION (N_ ("Conduit"), "true-turn", N_ ("True angle of a bend"), N_ ("What a run turns in space where its legs turn on plan and rise or fall."), turn_inputs, answer_turn),
  SW_QUESTION (N_ ("Conduit"), "draw-boxes", N_ ("Boxes between draw points"), N_ ("Whether cables can be drawn through turns and length, and how many boxes cure it."), box_inputs, answer_boxes),
  SW_QUESTION (N_ ("Conduit"), "conduit-radius", N_ ("Radius of a bend"), N_ ("How tightly a conduit may be bent."), radius_inputs, answer_radius),
};

const guint sw_circuits_n_turn_questions = G_N_ELEMENTS (sw_circuits_turn_questions);
