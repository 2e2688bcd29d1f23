/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "base/text.h"
#include "drainage/questions.h"
#include "drainage/supply.h"
#include <math.h>
#include <string.h>

#define MATERIALS "copper|steel|upvc|pe-x|multilayer|polypropylene"

/* ---- loading units */

static const SwAskInput flow_inputs[] = {
  SW_ASK_MANY_OF ("outlets", N_ ("outlets or their loading units, as in bath, 2xbasin, 3"), "", 0.1, 1000, "water.outlets", "units"),
  SW_ASK_ONE_OF ("formula", N_ ("formula for the design flow (rule: as the rule set says)"), "rule|dwellings-older|dwellings-newer", "rule"),
};

static gboolean
demand_of (const SwAsked *asked, SwWorking *working, double sum, double *demand, GError **error)
{
  SwRules *rules = sw_asked_rules (asked);
  const char *row = sw_asked_word (asked, "formula");
  SwRuleValue named, factor, power, less;
  if (strcmp (row, "rule") == 0)
    {
      if (!sw_rules_number (rules, "water.demand_rules", "formula", &named, error))
        return FALSE;
      row = named.text;
    }
  if (!sw_rules_lookup (rules, "water.demand", row, "factor", &factor, error) || !sw_rules_lookup (rules, "water.demand", row, "power", &power, error)
      || !sw_rules_lookup (rules, "water.demand", row, "less_ls", &less, error))
    return FALSE;
  sw_working_rule (working, "a", N_ ("factor of the formula"), &factor);
  sw_working_rule (working, "b", N_ ("its power"), &power);
  sw_working_rule (working, "c", N_ ("what it takes off"), &less);
  *demand = sw_drainage_supply_demand (factor.value, power.value, less.value, sum);
  sw_working_step (working, "Vf", N_ ("flow by the formula"), "a (ΣQ)^b − c", *demand, "l/s");
  return TRUE;
}

/* The least pipe of a table that takes the units. */
static void
least_by_units (const SwAsked *asked, SwWorking *working, const char *table, const char *symbol, const char *what, double units)
{
  SwRules *rules = sw_asked_rules (asked);
  SwRuleValue most;
  for (guint i = 0; i < sw_rules_n_rows (rules, table); i++)
    if (sw_rules_lookup (rules, table, sw_rules_row_key (rules, table, i), "units", &most, NULL) && most.value >= units)
      {
        sw_working_rule (working, "LUmax", N_ ("loading units that this pipe takes"), &most);
        sw_working_answer (working, symbol, what, "ΣLU ≤ LUmax", sw_rules_row_number (rules, table, i), "mm");
        return;
      }
  sw_working_answer (working, symbol, what, "ΣLU ≤ LUmax", NAN, "mm");
}

static gboolean
answer_flow (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRuleValue unit;
  guint n;
  const double *each = sw_asked_list (asked, "outlets", &n);
  double most = 0, demand;
  if (!sw_rules_number (sw_asked_rules (asked), "water.demand_rules", "unit_flow_ls", &unit, error))
    return FALSE;
  for (guint i = 0; i < n; i++)
    most = fmax (most, each[i]);
  double units = sw_asked_quote (asked, "outlets", working, "LU", N_ ("loading units of one outlet"));
  sw_working_answer (working, "ΣLU", N_ ("loading units"), "Σ LU", units, "");
  sw_working_rule (working, "q", N_ ("flow of one loading unit"), &unit);
  double sum = sw_working_step (working, "ΣQ", N_ ("flow of all outlets together"), "q ΣLU", unit.value * units, "l/s");
  if (!demand_of (asked, working, sum, &demand, error))
    return FALSE;
  double largest = sw_working_step (working, "Qmax", N_ ("flow of the largest outlet"), "q max LU", unit.value * most, "l/s");
  sw_working_answer (working, "Vs", N_ ("design flow"), "at least Qmax, at most ΣQ", fmin (fmax (demand, largest), sum), "l/s");
  least_by_units (asked, working, "water.copper_units", "Cu", N_ ("least copper tube by its loading units"), units);
  least_by_units (asked, working, "water.multilayer_units", "ML", N_ ("least multilayer pipe by its loading units"), units);
  return TRUE;
}

static const SwAskInput fixture_inputs[] = {
  SW_ASK ("units", N_ ("water supply fixture units"), "", 0.5, 10000, ""),
  SW_ASK_ONE_OF ("flush", N_ ("WCs flush by"), "tanks|valves", "tanks"),
};

static gboolean
answer_fixtures (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRules *rules = sw_asked_rules (asked);
  const char *table = sw_asked_word (asked, "flush")[0] == 't' ? "water.demand_tanks" : "water.demand_valves";
  SwRuleValue flow, gallon = sw_rules_value (rules, "water.physics", "gallon_litres");
  double units = sw_working_given (working, "WSFU", N_ ("water supply fixture units"), sw_asked_number (asked, "units"), "");
  if (!sw_rules_lookup_at (rules, table, units, SW_RULE_LINEAR, "flow_gpm", &flow, error))
    return FALSE;
  sw_working_rule (working, "G", N_ ("flow from the table"), &flow);
  sw_working_rule (working, "g", N_ ("litres in a gallon"), &gallon);
  sw_working_answer (working, "Q", N_ ("design flow"), "G g/60", flow.value * gallon.value / 60, "l/s");
  return TRUE;
}

/* ---- pressure */

static const SwAskInput loss_inputs[] = {
  SW_ASK ("bore", N_ ("bore of the pipe"), "mm", 2, 1000, ""),
  SW_ASK ("flow", N_ ("flow"), "l/s", 0.001, 1000, ""),
  SW_ASK ("length", N_ ("length of the pipe"), "m", 0.1, 10000, ""),
  SW_ASK ("fittings", N_ ("added to the length for bends and fittings"), "%", 0, 500, "0"),
  SW_ASK_ONE_OF ("material", N_ ("material"), MATERIALS, "copper"),
  SW_ASK_ONE_OF ("formula", N_ ("formula"), "darcy|hazen", "darcy"),
  SW_ASK_ONE_OF ("leg", N_ ("a pipe to several outlets, or a dead leg to one"), "pipe|dead-leg", "pipe"),
};

static gboolean
loss_darcy (const SwAsked *asked, SwWorking *working, double bore, double flow, double length, double *loss, GError **error)
{
  SwRuleValue rough, nu = sw_rules_value (sw_asked_rules (asked), "water.physics", "viscosity_m2_s");
  if (!sw_rules_lookup (sw_asked_rules (asked), "pipe.materials", sw_asked_word (asked, "material"), "roughness_mm", &rough, error))
    return FALSE;
  SwSupplyLoss found = sw_drainage_supply_loss (bore, flow, length, rough.value, nu.value);
  sw_working_rule (working, "k", N_ ("roughness"), &rough);
  sw_working_rule (working, "ν", N_ ("kinematic viscosity"), &nu);
  sw_working_step (working, "Re", N_ ("Reynolds number"), "v d/ν", found.reynolds, "");
  sw_working_step (working, "f", N_ ("friction factor"), "1/√f = −2 log₁₀(k/(3.7 d) + 2.51/(Re √f))", found.friction, "");
  *loss = sw_working_answer (working, "h", N_ ("loss of head"), "f L v²/(2 g d)", found.loss, "m");
  return TRUE;
}

static gboolean
loss_hazen (const SwAsked *asked, SwWorking *working, double bore, double flow, double length, double *loss, GError **error)
{
  SwRuleValue c;
  if (!sw_rules_lookup (sw_asked_rules (asked), "pipe.materials", sw_asked_word (asked, "material"), "hazen_c", &c, error))
    return FALSE;
  sw_working_rule (working, "C", N_ ("Hazen and Williams's C"), &c);
  *loss = sw_working_answer (working, "h", N_ ("loss of head"), "10.67 L Q^1.852/(C^1.852 d^4.8704), m and m³/s",
                             sw_drainage_supply_loss_hazen (bore, flow, length, c.value), "m");
  return TRUE;
}

static gboolean
answer_loss (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRules *rules = sw_asked_rules (asked);
  gboolean dead = sw_asked_word (asked, "leg")[0] == 'd', hazen = sw_asked_word (asked, "formula")[0] == 'h';
  SwRuleValue metre = sw_rules_value (rules, "water.physics", "pressure_kpa_m"), limit = sw_rules_value (rules, "water.velocity", dead ? "dead_leg_m_s" : "pipe_m_s");
  double bore = sw_working_given (working, "d", N_ ("bore of the pipe"), sw_asked_number (asked, "bore"), "mm"), loss = 0;
  double flow = sw_working_given (working, "Q", N_ ("flow"), sw_asked_number (asked, "flow"), "l/s");
  double straight = sw_working_given (working, "L₀", N_ ("length of the pipe"), sw_asked_number (asked, "length"), "m");
  double extra = sw_working_given (working, "e", N_ ("added to the length for bends and fittings"), sw_asked_number (asked, "fittings"), "%");
  double length = sw_working_step (working, "L", N_ ("length to reckon with"), "L₀ (1 + e/100)", straight * (1 + extra / 100), "m");
  double velocity = sw_working_answer (working, "v", N_ ("velocity"), "4 Q/(π d²)", sw_drainage_supply_velocity (bore, flow), "m/s");
  if (!(hazen ? loss_hazen : loss_darcy) (asked, working, bore, flow, length, &loss, error))
    return FALSE;
  sw_working_rule (working, "p₁", N_ ("pressure of one metre of water"), &metre);
  sw_working_answer (working, "Δp", N_ ("loss of pressure"), "h p₁", loss * metre.value, "kPa");
  sw_working_rule (working, "v₀", N_ ("fastest flow"), &limit);
  sw_working_say (working, velocity <= limit.value ? SW_VERDICT_GOOD : SW_VERDICT_BAD,
                  velocity <= limit.value ? N_ ("The flow is not too fast.") : N_ ("The flow is too fast: take a wider pipe."));
  return TRUE;
}

/* ---- hot water */

static const SwAskInput leg_inputs[] = {
  SW_ASK ("bore", N_ ("bore of the pipe"), "mm", 2, 200, ""),
  SW_ASK ("length", N_ ("length from the heated water to the tap"), "m", 0.1, 1000, ""),
};

static gboolean
answer_leg (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRuleValue most;
  double bore = sw_working_given (working, "d", N_ ("bore of the pipe"), sw_asked_number (asked, "bore"), "mm");
  double length = sw_working_given (working, "L", N_ ("length from the heated water to the tap"), sw_asked_number (asked, "length"), "m");
  if (!sw_rules_number (sw_asked_rules (asked), "water.hot", "dead_leg_l", &most, error))
    return FALSE;
  sw_working_rule (working, "V₀", N_ ("most water in an unheated leg"), &most);
  double each = sw_working_step (working, "V₁", N_ ("water in one metre"), "π d²/4", sw_drainage_supply_volume (bore), "l/m");
  double volume = sw_working_answer (working, "V", N_ ("water in the leg"), "V₁ L", each * length, "l");
  sw_working_answer (working, "Lmax", N_ ("longest leg"), "V₀/V₁", most.value / each, "m");
  sw_working_say (working, volume <= most.value ? SW_VERDICT_GOOD : SW_VERDICT_BAD,
                  volume <= most.value ? N_ ("The leg is short enough.") : N_ ("The leg holds too much water that has gone cold."));
  return TRUE;
}

static const SwAskInput hot_inputs[] = {
  SW_ASK ("od", N_ ("outside diameter of the pipe"), "mm", 4, 1000, "22"),
  SW_ASK ("bore", N_ ("its bore (0: its outside diameter)"), "mm", 0, 1000, "0"),
  SW_ASK ("conductivity", N_ ("conductivity of the sleeve (0: as the rule set says)"), "W/(m.K)", 0, 1, "0"),
};

static gboolean
answer_hot (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRules *rules = sw_asked_rules (asked);
  SwRuleValue r, lambda = sw_rules_value (rules, "insulation.sweating", "lambda_w_mk");
  double od = sw_working_given (working, "d", N_ ("outside diameter of the pipe"), sw_asked_number (asked, "od"), "mm");
  double bore = sw_asked_number (asked, "bore"), own = sw_asked_number (asked, "conductivity");
  if (!sw_rules_lookup_at (rules, "insulation.hot", bore > 0 ? bore : od, SW_RULE_NEXT_LARGER, "r_m2k_w", &r, error))
    return FALSE;
  sw_working_rule (working, "R", N_ ("least thermal resistance"), &r);
  double k = own > 0 ? sw_working_given (working, "λ", N_ ("conductivity of the sleeve"), own, "W/(m.K)")
                     : sw_working_rule (working, "λ", N_ ("conductivity of the sleeve"), &lambda);
  double thick = sw_working_answer (working, "s", N_ ("least sleeve"), "(D/2) ln(D/d)/λ = R, D = d + 2 s", sw_drainage_sleeve_thickness (od, r.value, k), "mm");
  sw_working_answer (working, "D", N_ ("outside with the sleeve"), "d + 2 s", od + 2 * thick, "mm");
  return TRUE;
}

/* ---- growth */

static const SwAskInput growth_inputs[] = {
  SW_ASK_ONE_OF ("material", N_ ("material"), MATERIALS, "copper"),
  SW_ASK ("length", N_ ("length between fixed points"), "m", 0.1, 1000, ""),
  SW_ASK ("range", N_ ("from coldest to warmest"), "K", 0.1, 200, "50"),
};

/* What one straight of plastic may change by without a coupling, as the check of a job's runs takes it. */
static void
growth_limit (SwWorking *working, SwRules *rules, const char *material, double each, double length)
{
  SwRuleValue most = sw_rules_value (rules, "pipe.growth_rules", "plastic_mm"), apart = sw_rules_value (rules, "support.limits", "waste_expansion_m");
  if (strcmp (material, "copper") == 0 || strcmp (material, "steel") == 0 || each <= 0)
    return;
  sw_working_rule (working, "e", N_ ("a straight that changes by this needs an expansion coupling"), &most);
  double longest = sw_working_answer (working, "Lmax", N_ ("longest straight without one"), "e/(α ΔT)", most.value / each, "m");
  if (strcmp (material, "polypropylene") == 0)
    sw_working_rule (working, "Lw", N_ ("an expansion joint in waste pipes each"), &apart);
  double n = floor (length / longest + 1e-9);
  sw_working_answer (working, "n", N_ ("expansion couplings"), "⌊L/Lmax⌋", n, "");
  sw_working_say (working, n > 0 ? SW_VERDICT_BAD : SW_VERDICT_GOOD, n > 0 ? N_ ("It needs expansion couplings, evenly between the fixed points.") : N_ ("It needs no expansion coupling."));
}

static gboolean
answer_growth (const SwAsked *asked, SwWorking *working, GError **error)
{
  static const struct { const char *column, *symbol, *grown; } ends[] = { { "expansion_low_mm_m_k", "α₁", "ΔL₁" }, { "expansion_high_mm_m_k", "α₂", "ΔL₂" } };
  SwRules *rules = sw_asked_rules (asked);
  const char *material = sw_asked_word (asked, "material");
  SwRuleValue alpha;
  if (!sw_rules_lookup (rules, "pipe.materials", material, "expansion_mm_m_k", &alpha, error))
    return FALSE;
  double length = sw_working_given (working, "L", N_ ("length between fixed points"), sw_asked_number (asked, "length"), "m");
  double range = sw_working_given (working, "ΔT", N_ ("from coldest to warmest"), sw_asked_number (asked, "range"), "K");
  sw_working_rule (working, "α", N_ ("growth with temperature"), &alpha);
  sw_working_answer (working, "ΔL", N_ ("growth"), "α L ΔT", alpha.value * length * range, "mm");
  growth_limit (working, rules, material, alpha.value * range, length);
  for (gsize i = 0; i < G_N_ELEMENTS (ends); i++)
    if (sw_rules_lookup (rules, "pipe.materials", material, ends[i].column, &alpha, NULL))
      {
        sw_working_rule (working, ends[i].symbol, i == 0 ? N_ ("the least that is given for it") : N_ ("the most that is given for it"), &alpha);
        sw_working_step (working, ends[i].grown, N_ ("growth by that"), "α L ΔT", alpha.value * length * range, "mm");
      }
  return TRUE;
}

const SwQuestion sw_drainage_water_questions[] = {
  SW_QUESTION (N_ ("Water"), "water-flow", N_ ("Water for outlets"), N_ ("Design flow from loading units, and the least pipe by them."), flow_inputs, answer_flow),
  SW_QUESTION (N_ ("Water"), "water-fixtures", N_ ("Water by fixture units"), N_ ("Design flow from North American fixture units."), fixture_inputs, answer_fixtures),
  SW_QUESTION (N_ ("Water"), "pressure-loss", N_ ("Loss of pressure"), N_ ("Velocity and loss of pressure in a pipe that runs full."), loss_inputs, answer_loss),
  SW_QUESTION (N_ ("Water"), "dead-leg", N_ ("Dead leg of hot water"), N_ ("How long an unheated hot pipe may be."), leg_inputs, answer_leg),
  SW_QUESTION (N_ ("Water"), "hot-sleeve", N_ ("Sleeve of a hot pipe"), N_ ("Thickness of the insulation that a hot pipe needs."), hot_inputs, answer_hot),
  SW_QUESTION (N_ ("Water"), "pipe-growth", N_ ("Growth of a pipe"), N_ ("How much longer a pipe becomes when it warms up."), growth_inputs, answer_growth),
};

const guint sw_drainage_n_water_questions = G_N_ELEMENTS (sw_drainage_water_questions);
