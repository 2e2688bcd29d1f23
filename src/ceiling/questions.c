/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/questions.h"
#include "base/error.h"
#include "base/text.h"
#include "ceiling/batten_rules.h"
#include "space/hanging.h"
#include <math.h>

/* ---- a batten from rib to rib */

static const SwAskInput span_inputs[] = {
  SW_ASK ("width", N_ ("width of the batten"), "mm", 10, 200, "38"),
  SW_ASK ("depth", N_ ("depth of the batten, upright"), "mm", 10, 300, "38"),
  SW_ASK ("span", N_ ("span from rib to rib"), "mm", 100, 6000, ""),
  SW_ASK ("centres", N_ ("centres of the battens"), "mm", 100, 2000, "400"),
  SW_ASK ("load", N_ ("board, insulation and fittings"), "kg/m2", 0.1, 200, "10"),
  SW_ASK_ONE_OF ("grade", N_ ("grade of the timber, or a steel profile"), "s5|s7|s10|c16|c24|steel", "s5"),
  SW_ASK ("inertia", N_ ("second moment of area of a steel profile (0: not known)"), "mm4", 0, 1e8, "0"),
  SW_ASK_ONE_OF ("face", N_ ("face of the ceiling: boards with covered joints, or skimmed"), "boards|skimmed", "boards"),
  SW_ASK_ONE_OF ("table", N_ ("board that the rule set's table of spans is read for"), "gypsum|fibre-cement", "gypsum"),
};

static gboolean
is_steel (const SwAsked *asked)
{
  return g_str_equal (sw_asked_word (asked, "grade"), "steel");
}

/* The span that the rule set's table has for the section; 0 where it has none. */
static double
published_span (const SwAsked *asked, SwWorking *working)
{
  SwRuleValue rule;
  if (is_steel (asked))
    {
      rule = sw_rules_value (sw_asked_rules (asked), "steel.furring", "clips_high_mm");
      return sw_working_rule (working, "L₂", N_ ("clips at most this far apart"), &rule);
    }
  g_autofree char *row = g_strdup_printf ("%dx%d", (int) lround (sw_asked_number (asked, "width")), (int) lround (sw_asked_number (asked, "depth")));
  const char *column = sw_asked_word (asked, "table")[0] == 'g' ? "gypsum_6.4_mm" : "fibre_cement_mm";
  if (!sw_rules_lookup (sw_asked_rules (asked), "brandering.spans", row, column, &rule, NULL))
    return 0;
  return sw_working_rule (working, "L₂", N_ ("greatest span by the rule set's table"), &rule);
}

/* Section and stress allowed. */
static gboolean
read_timber (const SwAsked *asked, SwWorking *working, SwBattenSection *section, double *strength, GError **error)
{
  const SwRules *rules = sw_asked_rules (asked);
  const char *grade = sw_asked_word (asked, "grade");
  SwRuleValue e, bending, density = sw_rules_value (rules, "timber.limits", "load_density_kg_m3");
  SwRuleValue duration = sw_rules_value (rules, "timber.limits", "duration_factor"), material = sw_rules_value (rules, "timber.limits", "material_factor");
  if (!sw_rules_lookup (rules, "timber.grades", grade, "e_mpa", &e, error) || !sw_rules_lookup (rules, "timber.grades", grade, "bending_mpa", &bending, error))
    return FALSE;
  double width = sw_working_given (working, "b", N_ ("width of the batten"), sw_asked_number (asked, "width"), "mm");
  double depth = sw_working_given (working, "h", N_ ("depth of the batten"), sw_asked_number (asked, "depth"), "mm");
  sw_working_rule (working, "E", N_ ("modulus of elasticity"), &e);
  sw_working_rule (working, "ρ", N_ ("density for the batten's own weight"), &density);
  double mass = sw_working_step (working, "m", N_ ("weight of the batten"), "ρ b h", density.value * width * depth / 1e6, "kg/m");
  *section = sw_span_rectangle (width, depth, e.value, mass);
  sw_working_step (working, "I", N_ ("second moment of area"), "b h³/12", section->inertia, "mm4");
  sw_working_step (working, "W", N_ ("section modulus"), "b h²/6", section->modulus, "mm3");
  sw_working_rule (working, "f", N_ ("bending strength"), &bending);
  sw_working_rule (working, "k", N_ ("factor for lasting loads"), &duration);
  sw_working_rule (working, "γ", N_ ("factor of the material"), &material);
  *strength = sw_working_step (working, "f₁", N_ ("stress allowed"), "f k/γ", bending.value * duration.value / material.value, "N/mm2");
  return TRUE;
}

static gboolean
read_steel (const SwAsked *asked, SwWorking *working, SwBattenSection *section, double *strength, GError **error)
{
  const SwRules *rules = sw_asked_rules (asked);
  SwRuleValue e = sw_rules_value (rules, "steel.furring", "e_mpa"), thickness = sw_rules_value (rules, "steel.furring", "thickness_mm"), density;
  SwRuleValue yield = sw_rules_value (rules, "steel.furring", "yield_mpa"), safety = sw_rules_value (rules, "steel.furring", "safety_factor");
  if (sw_asked_number (asked, "inertia") <= 0)
    {
      g_set_error_literal (error, SW_ERROR, SW_ERROR_INVALID,
                           "the second moment of area of the steel profile is not known: give \"inertia\" in mm4, as its maker states it");
      return FALSE;
    }
  if (!sw_rules_lookup (rules, "material.density", "steel", "density_kg_m3", &density, error))
    return FALSE;
  double width = sw_working_given (working, "b", N_ ("width of the batten"), sw_asked_number (asked, "width"), "mm");
  double depth = sw_working_given (working, "h", N_ ("depth of the batten"), sw_asked_number (asked, "depth"), "mm");
  double inertia = sw_working_given (working, "I", N_ ("second moment of area"), sw_asked_number (asked, "inertia"), "mm4");
  sw_working_rule (working, "E", N_ ("modulus of elasticity"), &e);
  sw_working_rule (working, "t", N_ ("thickness of the steel"), &thickness);
  sw_working_rule (working, "ρ", N_ ("density for the batten's own weight"), &density);
  double mass = sw_working_step (working, "m", N_ ("weight of the batten"), "2 (b + h) t ρ", sw_ceiling_profile_mass (rules, width, depth), "kg/m");
  *section = sw_span_profile (depth, inertia, e.value, mass);
  sw_working_step (working, "W", N_ ("section modulus, on the safe side"), "I/h", section->modulus, "mm3");
  sw_working_rule (working, "f", N_ ("yield strength"), &yield);
  sw_working_rule (working, "γ", N_ ("factor of the material"), &safety);
  *strength = sw_working_step (working, "f₁", N_ ("stress allowed"), "f/γ", yield.value / safety.value, "N/mm2");
  return TRUE;
}

static gboolean
answer_span (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwBattenSection section;
  double strength, span = sw_asked_number (asked, "span");
  SwRuleValue divisor = sw_rules_value (sw_asked_rules (asked), "timber.limits", sw_asked_word (asked, "face")[0] == 's' ? "plastered_divisor" : "board_divisor");
  gboolean read = is_steel (asked) ? read_steel (asked, working, &section, &strength, error) : read_timber (asked, working, &section, &strength, error);
  if (!read)
    return FALSE;
  sw_working_given (working, "L", N_ ("span"), span, "mm");
  double centres = sw_working_given (working, "s", N_ ("centres"), sw_asked_number (asked, "centres"), "mm");
  double mass = sw_working_given (working, "q", N_ ("board, insulation and fittings"), sw_asked_number (asked, "load"), "kg/m2");
  double load = sw_working_step (working, "w", N_ ("load of a batten"), "(q s + m) g", sw_span_load (&section, mass, centres), "N/mm");
  SwSpanCheck check = sw_span_check (&section, load, span);
  sw_working_rule (working, "n", N_ ("sag at most the span over this"), &divisor);
  sw_working_answer (working, "δ", N_ ("sag"), "5 w L⁴/(384 E I)", check.deflection, "mm");
  sw_working_step (working, "δ₁", N_ ("sag allowed"), "L/n", span / divisor.value, "mm");
  sw_working_step (working, "M", N_ ("moment"), "w L²/8", check.moment, "Nmm");
  sw_working_answer (working, "σ", N_ ("stress"), "M/W", check.stress, "N/mm2");
  double greatest = sw_working_step (working, "L₁", N_ ("greatest span by sag"), "(384 E I/(5 w n))^(1/3)", sw_span_greatest (&section, load, divisor.value), "mm");
  double published = published_span (asked, working);
  double most = sw_working_answer (working, "Lmax", N_ ("greatest span"), published > 0 ? "min(L₁, L₂)" : "L₁", published > 0 ? fmin (greatest, published) : greatest, "mm");
  gboolean good = span <= most + 1e-9 && check.stress <= strength;
  sw_working_say (working, good ? SW_VERDICT_GOOD : SW_VERDICT_BAD, good ? N_ ("The batten does over this span.") : N_ ("The span is too far: take a deeper batten, or closer supports."));
  return TRUE;
}

/* ---- what a fixing holds */

static const SwAskInput fixing_inputs[] = {
  SW_ASK ("spacing", N_ ("distance of the ribs"), "mm", 100, 6000, "600"),
  SW_ASK ("centres", N_ ("centres of the battens"), "mm", 100, 2000, "400"),
  SW_ASK ("load", N_ ("ceiling with battens and fittings"), "kg/m2", 0.1, 200, "10"),
  SW_ASK_ONE_OF ("fixing", N_ ("fixing: screw or smooth nail in timber, or an anchor"), "screw|nail|anchor", "anchor"),
  SW_ASK ("diameter", N_ ("diameter of the screw or nail"), "mm", 1, 20, "6"),
  SW_ASK ("length", N_ ("length of its thread, or of the nail, in the timber"), "mm", 5, 300, "40"),
  SW_ASK ("density", N_ ("characteristic density of the timber"), "kg/m3", 200, 900, "350"),
  SW_ASK ("hold", N_ ("load of the anchor at failure, by its approval (0: not known)"), "N", 0, 100000, "0"),
};

static gboolean
read_hold (const SwAsked *asked, SwWorking *working, double *hold, GError **error)
{
  const char *fixing = sw_asked_word (asked, "fixing");
  double strength;
  if (fixing[0] == 'a')
    {
      *hold = sw_working_given (working, "F", N_ ("what the anchor holds at failure"), sw_asked_number (asked, "hold"), "N");
      return TRUE;
    }
  double diameter = sw_working_given (working, "d", N_ ("diameter"), sw_asked_number (asked, "diameter"), "mm");
  double length = sw_working_given (working, "l", N_ ("length in the timber"), sw_asked_number (asked, "length"), "mm");
  double density = sw_working_given (working, "ρ", N_ ("density of the timber"), sw_asked_number (asked, "density"), "kg/m3");
  SwRuleValue factor = sw_rules_value (sw_asked_rules (asked), "timber.withdrawal", fixing[0] == 's' ? "screw_factor" : "nail_factor");
  sw_working_rule (working, "a", N_ ("factor of withdrawal"), &factor);
  if (fixing[0] == 'n')
    {
      *hold = sw_working_step (working, "F", N_ ("what the nail holds"), "a ρ² d l", sw_hanging_nail_withdrawal (sw_asked_rules (asked), diameter, length, density), "N");
      return TRUE;
    }
  if (!sw_hanging_screw_withdrawal (sw_asked_rules (asked), diameter, length, density, &strength, hold, error))
    return FALSE;
  sw_working_step (working, "fax", N_ ("withdrawal strength"), "a d^-0.5 l^-0.1 ρ^0.8", strength, "N/mm2");
  sw_working_step (working, "F", N_ ("what the screw holds"), "fax d l min(d/8, 1)", *hold, "N");
  return TRUE;
}

static gboolean
answer_fixing (const SwAsked *asked, SwWorking *working, GError **error)
{
  const SwRules *rules = sw_asked_rules (asked);
  SwRuleValue design = sw_rules_value (rules, "brandering.fixing", "design_n"), safety = sw_rules_value (rules, "brandering.fixing", "safety_factor");
  SwRuleValue push = sw_rules_value (rules, "brandering.fixing", "push_n");
  double hold, spacing = sw_working_given (working, "r", N_ ("distance of the ribs"), sw_asked_number (asked, "spacing"), "mm");
  double centres = sw_working_given (working, "s", N_ ("centres of the battens"), sw_asked_number (asked, "centres"), "mm");
  double mass = sw_working_given (working, "q", N_ ("ceiling with battens and fittings"), sw_asked_number (asked, "load"), "kg/m2");
  double dead = sw_working_step (working, "G", N_ ("weight on a fixing"), "q r s g", mass * spacing * centres * SW_CEILING_GRAVITY / 1e6, "N");
  sw_working_rule (working, "P", N_ ("push of a hand"), &push);
  sw_working_rule (working, "D", N_ ("least load that a fixing is designed for"), &design);
  double load = sw_working_answer (working, "N", N_ ("load of a fixing"), "max(G + P, D)", fmax (dead + push.value, design.value), "N");
  if (!read_hold (asked, working, &hold, error))
    return FALSE;
  sw_working_rule (working, "ν", N_ ("safety"), &safety);
  if (hold <= 0)
    {
      sw_working_answer (working, "F₀", N_ ("what the anchor has to hold at failure"), "ν N", load * safety.value, "N");
      return TRUE;
    }
  double allowed = sw_working_answer (working, "F₁", N_ ("what it may carry"), "F/ν", hold / safety.value, "N");
  sw_working_say (working, allowed >= load ? SW_VERDICT_GOOD : SW_VERDICT_BAD, allowed >= load ? N_ ("The fixing holds.") : N_ ("The fixing is too weak: take more of them, or a stronger one."));
  return TRUE;
}

const SwQuestion sw_ceiling_questions[] = {
  SW_QUESTION (N_ ("Ceiling"), "batten-span", N_ ("Batten between ribs"), N_ ("Sag and stress of a batten, and how far it may span."), span_inputs, answer_span),
  SW_QUESTION (N_ ("Ceiling"), "batten-fixing", N_ ("Fixing of a batten"), N_ ("What hangs on a fixing at a rib, and whether it pulls out."), fixing_inputs, answer_fixing),
};

const guint sw_ceiling_n_questions = G_N_ELEMENTS (sw_ceiling_questions);
