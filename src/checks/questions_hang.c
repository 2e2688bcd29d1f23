/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/text.h"
#include "checks/questions_parts.h"
#include "space/hanging.h"
#include <math.h>
#include <string.h>

/* ---- supports */

#define KINDS "waste|copper|steel|pe-x|multilayer|cpvc|conduit-pvc|conduit-steel|conduit-pliable"

/* What hangs, where its supports stand in the rule set, and what it is made of. */
static const struct { const char *word, *table, *density; } kinds[] = {
  { "waste", "support.waste", "upvc" },           { "copper", "support.copper", "copper" },
  { "steel", "support.steel", "steel" },          { "pe-x", "support.pex", "pe-x" },
  { "multilayer", "support.multilayer", "multilayer" }, { "cpvc", "support.cpvc", "upvc" },
  { "conduit-pvc", "conduit.support_insulating", "upvc" }, { "conduit-steel", "conduit.support_metal", "steel" },
  { "conduit-pliable", "conduit.support_pliable", "upvc" },
};

static gsize
kind_of (const SwAsked *asked)
{
  gsize i = 0;
  while (strcmp (kinds[i].word, sw_asked_word (asked, "kind")) != 0)
    i++;
  return i;
}

static gboolean
spacing_of (const SwAsked *asked, SwWorking *working, const char *column, double *spacing, GError **error)
{
  SwRuleValue rule;
  if (!sw_rules_lookup_at (sw_asked_rules (asked), kinds[kind_of (asked)].table, sw_asked_number (asked, "od"), SW_RULE_NEXT_LARGER, column, &rule, error))
    return FALSE;
  *spacing = sw_working_rule (working, "a", N_ ("between supports"), &rule);
  return TRUE;
}

static const SwAskInput support_inputs[] = {
  SW_ASK_ONE_OF ("kind", N_ ("what is hung"), KINDS, "waste"),
  SW_ASK ("od", N_ ("outside diameter"), "mm", 4, 1000, "110"),
  SW_ASK ("length", N_ ("straight length"), "m", 0.01, 1000, ""),
  SW_ASK_ONE_OF ("way", N_ ("it lies level, or stands upright"), "level|upright", "level"),
};

static gboolean
answer_supports (const SwAsked *asked, SwWorking *working, GError **error)
{
  double spacing;
  sw_working_given (working, "D", N_ ("outside diameter"), sw_asked_number (asked, "od"), "mm");
  double length = sw_working_given (working, "L", N_ ("straight length"), sw_asked_number (asked, "length"), "m");
  if (!spacing_of (asked, working, sw_asked_word (asked, "way")[0] == 'l' ? "horizontal_m" : "vertical_m", &spacing, error))
    return FALSE;
  double n = sw_working_answer (working, "n", N_ ("supports"), "⌈L/a⌉ + 1", sw_hanging_supports (length, spacing), "");
  sw_working_answer (working, "a'", N_ ("evenly spaced"), "1000 L/(n − 1)", 1000 * length / (n - 1), "mm");
  return TRUE;
}

/* ---- weight */

static const SwAskInput load_inputs[] = {
  SW_ASK_ONE_OF ("kind", N_ ("what is hung"), KINDS, "waste"),
  SW_ASK ("od", N_ ("outside diameter"), "mm", 4, 1000, "110"),
  SW_ASK ("bore", N_ ("bore"), "mm", 1, 1000, "103.6"),
  SW_ASK_ONE_OF ("contents", N_ ("full of"), "water|cable|nothing", "water"),
  SW_ASK ("filled", N_ ("how full it is"), "%", 0, 100, "100"),
  SW_ASK ("spacing", N_ ("between supports (0: as usual for the size)"), "m", 0, 20, "0"),
};

static gboolean
answer_load (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRules *rules = sw_asked_rules (asked);
  const char *contents = sw_asked_word (asked, "contents");
  SwRuleValue tube, inside = { 0 }, gravity = sw_rules_value (rules, "deck.loads", "gravity_m_s2");
  double od = sw_working_given (working, "D", N_ ("outside diameter"), sw_asked_number (asked, "od"), "mm");
  double bore = sw_working_given (working, "d", N_ ("bore"), fmin (sw_asked_number (asked, "bore"), od), "mm");
  double spacing = sw_asked_number (asked, "spacing"), filled = sw_asked_number (asked, "filled") / 100;
  if (!sw_rules_lookup (rules, "material.density", kinds[kind_of (asked)].density, "density_kg_m3", &tube, error)
      || (contents[0] != 'n' && !sw_rules_lookup (rules, "material.density", contents, "density_kg_m3", &inside, error)))
    return FALSE;
  if (spacing > 0)
    sw_working_given (working, "a", N_ ("between supports"), spacing, "m");
  else if (!spacing_of (asked, working, "horizontal_m", &spacing, error))
    return FALSE;
  sw_working_rule (working, "ρ", N_ ("density of the tube"), &tube);
  if (contents[0] != 'n')
    sw_working_rule (working, "ρ'", N_ ("density of what is inside"), &inside);
  sw_working_given (working, "p", N_ ("how full it is"), 100 * filled, "%");
  SwHangingMass mass = sw_hanging_mass (od, bore, 0, tube.value, inside.value * filled, 0);
  sw_working_step (working, "m₁", N_ ("tube"), "π/4 (D² − d²) ρ", mass.tube, "kg/m");
  sw_working_step (working, "m₂", N_ ("what is inside"), "π/4 d² ρ' p", mass.contents, "kg/m");
  double total = sw_working_answer (working, "m", N_ ("together"), "m₁ + m₂", sw_hanging_total (&mass), "kg/m");
  sw_working_rule (working, "g", N_ ("gravity"), &gravity);
  sw_working_answer (working, "F", N_ ("load on each hanger"), "m g a", total * gravity.value * spacing, "N");
  return TRUE;
}

/* ---- pull-out */

static const SwAskInput pull_inputs[] = {
  SW_ASK_ONE_OF ("fixing", N_ ("fixing into timber"), "screw|nail", "screw"),
  SW_ASK ("diameter", N_ ("its diameter"), "mm", 1, 30, "6"),
  SW_ASK ("depth", N_ ("threaded or smooth length in the timber"), "mm", 1, 500, "40"),
  SW_ASK ("density", N_ ("characteristic density of the timber"), "kg/m3", 100, 1200, "350"),
  SW_ASK ("load", N_ ("load on it (0: the least to design for)"), "N", 0, 100000, "0"),
};

static gboolean
answer_pull (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRules *rules = sw_asked_rules (asked);
  SwRuleValue least = sw_rules_value (rules, "brandering.fixing", "design_n"), safety = sw_rules_value (rules, "brandering.fixing", "safety_factor");
  gboolean screw = sw_asked_word (asked, "fixing")[0] == 's';
  double diameter = sw_working_given (working, "d", N_ ("its diameter"), sw_asked_number (asked, "diameter"), "mm");
  double depth = sw_working_given (working, "l", N_ ("length in the timber"), sw_asked_number (asked, "depth"), "mm");
  double density = sw_working_given (working, "ρ", N_ ("characteristic density of the timber"), sw_asked_number (asked, "density"), "kg/m3");
  double load = sw_asked_number (asked, "load"), strength = 0, force;
  SwRuleValue factor = sw_rules_value (rules, "timber.withdrawal", screw ? "screw_factor" : "nail_factor");
  sw_working_rule (working, "c", N_ ("factor of the formula"), &factor);
  if (!screw)
    force = sw_hanging_nail_withdrawal (rules, diameter, depth, density);
  else if (!sw_hanging_screw_withdrawal (rules, diameter, depth, density, &strength, &force, error))
    return FALSE;
  if (screw)
    sw_working_step (working, "f", N_ ("withdrawal strength"), "c d^−0.5 l^−0.1 ρ^0.8", strength, "N/mm2");
  sw_working_answer (working, "F", N_ ("characteristic pull-out"), screw ? "f d l min(d/8, 1)" : "c ρ² d l", force, "N");
  sw_working_rule (working, "γ", N_ ("safety"), &safety);
  double safe = sw_working_answer (working, "F₁", N_ ("load to hang on it"), "F/γ", force / safety.value, "N");
  load = load > 0 ? sw_working_given (working, "N", N_ ("load on it"), load, "N") : sw_working_rule (working, "N", N_ ("least load to design for"), &least);
  sw_working_say (working, safe >= load ? SW_VERDICT_GOOD : SW_VERDICT_BAD, safe >= load ? N_ ("It holds the load.") : N_ ("It does not hold the load with this safety."));
  return TRUE;
}

/* ---- what hangs from the deck */

static const SwAskInput suspended_inputs[] = {
  SW_ASK ("area", N_ ("area of the deck that it hangs from"), "m2", 0.1, 100000, ""),
  SW_ASK ("ceiling", N_ ("ceiling with battens and insulation (0: none)"), "kg/m2", 0, 500, "0"),
  SW_ASK ("runs", N_ ("pipes full of water and conduits with cables, all together"), "kg", 0, 1000000, "0"),
  SW_ASK ("lights", N_ ("downlights"), "", 0, 10000, "0"),
  SW_ASK ("fittings", N_ ("boxes, valves and other fittings, all together"), "kg", 0, 100000, "0"),
  SW_ASK ("allowed", N_ ("what the engineer allows (0: not known)"), "kPa", 0, 10, "0"),
};

static gboolean
answer_suspended (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRuleValue gravity = sw_rules_value (sw_asked_rules (asked), "deck.loads", "gravity_m_s2"), low = sw_rules_value (sw_asked_rules (asked), "deck.loads", "allowance_low_kpa");
  double area = sw_working_given (working, "A", N_ ("area of the deck that it hangs from"), sw_asked_number (asked, "area"), "m2");
  double ceiling = sw_working_given (working, "c", N_ ("ceiling with battens and insulation"), sw_asked_number (asked, "ceiling"), "kg/m2");
  double runs = sw_working_given (working, "m", N_ ("pipes and conduits, full"), sw_asked_number (asked, "runs"), "kg"), allowed = sw_asked_number (asked, "allowed");
  double lights = sw_working_given (working, "n", N_ ("downlights"), sw_asked_number (asked, "lights"), "");
  double fittings = sw_working_given (working, "f", N_ ("boxes, valves and other fittings"), sw_asked_number (asked, "fittings"), "kg");
  SwRuleValue light;
  if (!sw_rules_lookup (sw_asked_rules (asked), "hanging.masses", "downlight", "mass_kg", &light, error))
    return FALSE;
  sw_working_rule (working, "l", N_ ("weight of a downlight"), &light);
  sw_working_rule (working, "g", N_ ("gravity"), &gravity);
  double load = sw_working_answer (working, "q", N_ ("suspended load"), "g (c + (m + n l + f)/A)/1000",
                                   gravity.value * (ceiling + (runs + lights * light.value + fittings) / area) / 1000, "kPa");
  if (allowed > 0)
    sw_working_given (working, "q₀", N_ ("what the engineer allows"), allowed, "kPa");
  else
    sw_working_rule (working, "q₀", N_ ("what deck engineers allow at the least, often"), &low);
  gboolean good = load <= (allowed > 0 ? allowed : low.value) + 1e-9;
  sw_working_say (working, good ? SW_VERDICT_GOOD : SW_VERDICT_BAD,
                  allowed > 0 ? (good ? N_ ("It is allowed.") : N_ ("It is more than is allowed: ask the engineer.")) : good ? N_ ("Ask the engineer what is allowed; it is less than often is.") : N_ ("Ask the engineer what is allowed before anything is hung."));
  return TRUE;
}

/* ---- chases */

static const SwAskInput chase_inputs[] = {
  SW_ASK ("leaf", N_ ("thickness of the wall's leaf"), "mm", 20, 1000, "110"),
  SW_ASK ("box", N_ ("depth that box and conduit need"), "mm", 0, 300, "0"),
};

static gboolean
answer_chase (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRuleValue down = sw_rules_value (sw_asked_rules (asked), "drops.chases", "vertical_divisor"), level = sw_rules_value (sw_asked_rules (asked), "drops.chases", "horizontal_divisor");
  double leaf = sw_working_given (working, "t", N_ ("thickness of the wall's leaf"), sw_asked_number (asked, "leaf"), "mm"), box = sw_asked_number (asked, "box");
  sw_working_rule (working, "q₁", N_ ("an upright chase at most the leaf over this"), &down);
  sw_working_rule (working, "q₂", N_ ("a level chase at most the leaf over this"), &level);
  double most = sw_working_answer (working, "e₁", N_ ("deepest upright chase"), "t/q₁", leaf / down.value, "mm");
  sw_working_answer (working, "e₂", N_ ("deepest level chase"), "t/q₂", leaf / level.value, "mm");
  if (box <= 0)
    return TRUE;
  sw_working_given (working, "b", N_ ("depth that box and conduit need"), box, "mm");
  sw_working_say (working, box <= most ? SW_VERDICT_GOOD : SW_VERDICT_BAD, box <= most ? N_ ("The leaf is thick enough for an upright chase.") : N_ ("The leaf is too thin for this chase."));
  return TRUE;
}

/* ---- what comes down, and what a wall leaves open */

static const SwAskInput drop_in_inputs[] = {
  SW_ASK ("crown", N_ ("width of the void's crown"), "mm", 10, 3000, "400"),
  SW_ASK ("pitch", N_ ("from void to void"), "mm", 20, 5000, "600"),
  SW_ASK ("od", N_ ("outside of the pipe that comes down"), "mm", 10, 500, "110"),
  SW_ASK ("off", N_ ("its middle off the void's middle"), "mm", 0, 5000, "0"),
};

static gboolean
answer_drop_in (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRules *rules = sw_asked_rules (asked);
  SwRuleValue soil = sw_rules_value (rules, "waste.falls", "drop_in_hole_mm"), over = sw_rules_value (rules, "waste.falls", "hole_over_mm");
  double crown = sw_working_given (working, "C", N_ ("width of the void's crown"), sw_asked_number (asked, "crown"), "mm");
  double pitch = sw_working_given (working, "p", N_ ("from void to void"), sw_asked_number (asked, "pitch"), "mm");
  double od = sw_working_given (working, "D", N_ ("outside of the pipe"), sw_asked_number (asked, "od"), "mm"), hole = soil.value;
  double off = sw_working_given (working, "x", N_ ("its middle off the void's middle"), sw_asked_number (asked, "off"), "mm");
  if (od == 110)
    sw_working_rule (working, "H", N_ ("hole for it"), &soil);
  else
    {
      sw_working_rule (working, "o", N_ ("hole larger than the pipe by"), &over);
      hole = sw_working_step (working, "H", N_ ("hole for it"), "D + o", od + over.value, "mm");
    }
  double reach = sw_working_step (working, "r", N_ ("its middle may lie off the void's middle by"), "(C − H)/2", (crown - hole) / 2, "mm");
  sw_working_answer (working, "m", N_ ("to move it towards the void's middle"), "x − r", fmax (off - reach, 0), "mm");
  sw_working_answer (working, "w", N_ ("of all positions that are good"), "100 (C − H)/p", fmax (100 * (crown - hole) / pitch, 0), "%");
  sw_working_say (working, off <= reach ? SW_VERDICT_GOOD : SW_VERDICT_BAD,
                  off <= reach ? N_ ("The hole lies wholly over the crown.") : reach < 0 ? N_ ("The hole is wider than the crown.") : N_ ("The hole cuts into the rib: move it."));
  return TRUE;
}

static const SwAskInput gap_inputs[] = {
  SW_ASK ("wall", N_ ("sound reduction of the wall itself"), "dB", 1, 80, "45"),
  SW_ASK ("height", N_ ("height of the wall to the rib soffit"), "mm", 100, 20000, "2600"),
  SW_ASK ("mouth", N_ ("width of the void at the soffit"), "mm", 20, 3000, "500"),
  SW_ASK ("crown", N_ ("width at its crown"), "mm", 10, 3000, "400"),
  SW_ASK ("depth", N_ ("depth of the void"), "mm", 20, 2000, "250"),
  SW_ASK ("pitch", N_ ("from void to void"), "mm", 20, 5000, "600"),
};

static gboolean
answer_gap (const SwAsked *asked, SwWorking *working, GError **error)
{
  double wall = sw_working_given (working, "R₁", N_ ("sound reduction of the wall itself"), sw_asked_number (asked, "wall"), "dB");
  double height = sw_working_given (working, "H", N_ ("height of the wall to the rib soffit"), sw_asked_number (asked, "height"), "mm");
  double mouth = sw_working_given (working, "M", N_ ("width of the void at the soffit"), sw_asked_number (asked, "mouth"), "mm");
  double crown = sw_working_given (working, "C", N_ ("width at its crown"), sw_asked_number (asked, "crown"), "mm");
  double depth = sw_working_given (working, "h", N_ ("depth of the void"), sw_asked_number (asked, "depth"), "mm");
  double pitch = sw_working_given (working, "p", N_ ("from void to void"), sw_asked_number (asked, "pitch"), "mm");
  double open = sw_working_answer (working, "S₀", N_ ("open area of one void"), "h (M + C)/2", depth * (mouth + crown) / 2e6, "m2");
  double each = sw_working_answer (working, "S", N_ ("open area of a metre of wall across the voids"), "1000 S₀/p", 1000 * open / pitch, "m2");
  double through = (height / 1000 * pow (10, -wall / 10) + each) / (height / 1000 + each);
  sw_working_answer (working, "R", N_ ("what is left without a ceiling or fillers"), "−10 log₁₀((H 10^(−R₁/10) + S)/(H + S)), H in m", -10 * log10 (through), "dB");
  sw_working_say (working, SW_VERDICT_BAD, N_ ("Fill each void above a separating wall; the consultant names the tested system."));
  return TRUE;
}

const SwQuestion sw_hanging_questions[] = {
  SW_QUESTION (N_ ("Deck"), "drop-in", N_ ("Hole from the floor above"), N_ ("Whether the hole of a fixture lies over a crown, and how far to move it."), drop_in_inputs, answer_drop_in),
  SW_QUESTION (N_ ("Deck"), "wall-gap", N_ ("Voids open above a wall"), N_ ("What a sound wall is worth that stops below open voids."), gap_inputs, answer_gap),
  SW_QUESTION (N_ ("Hanging"), "supports", N_ ("Supports of a run"), N_ ("How many supports a straight length needs."), support_inputs, answer_supports),
  SW_QUESTION (N_ ("Hanging"), "hanging-load", N_ ("Load on a hanger"), N_ ("Weight of a pipe or conduit with what is in it, and the load on each hanger."), load_inputs, answer_load),
  SW_QUESTION (N_ ("Hanging"), "suspended-load", N_ ("Load that hangs from the deck"), N_ ("What pipes, conduits and ceiling weigh on a square metre, against what is allowed."), suspended_inputs, answer_suspended),
  SW_QUESTION (N_ ("Hanging"), "pull-out", N_ ("Pull-out of a screw or nail"), N_ ("What a screw or nail in a batten holds."), pull_inputs, answer_pull),
  SW_QUESTION (N_ ("Hanging"), "chase", N_ ("Chase in a wall"), N_ ("How deep a chase may be cut."), chase_inputs, answer_chase),
};

const guint sw_hanging_n_questions = G_N_ELEMENTS (sw_hanging_questions);
