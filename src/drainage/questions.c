/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drainage/questions.h"
#include "base/text.h"
#include "drainage/discharge.h"
#include "drainage/fall.h"
#include "drainage/partfull.h"
#include "drainage/sweating.h"
#include <math.h>

/* ---- how far a falling pipe stays in its void */

static const SwAskInput fall_inputs[] = {
  SW_ASK ("depth", N_ ("depth of the void"), "mm", 20, 2000, ""),
  SW_ASK ("od", N_ ("outside diameter of the pipe"), "mm", 10, 500, "110"),
  SW_ASK ("socket", N_ ("outside of its socket (0: as usual for the size)"), "mm", 0, 600, "0"),
  SW_ASK_ONE_OF ("start", N_ ("at the high end: room over the socket, room over the pipe, or the bend under a WC"), "socket|pipe|wc", "socket"),
  SW_ASK ("fall", N_ ("fall (0: as usual for the size)"), "1:n", 0, 1000, "0"),
};

static gboolean
given_or_rule (const SwAsked *asked, SwWorking *working, const char *key, const char *symbol, const char *what, const char *table, const char *column,
               double *value, GError **error)
{
  const char *unit = key[0] == 'f' ? "1:n" : "mm";
  SwRuleValue rule;
  *value = sw_asked_number (asked, key);
  if (*value > 0)
    {
      sw_working_given (working, symbol, what, *value, unit);
      return TRUE;
    }
  if (!sw_rules_lookup_at (sw_asked_rules (asked), table, sw_asked_number (asked, "od"), SW_RULE_NEXT_LARGER, column, &rule, error))
    return FALSE;
  *value = sw_working_rule (working, symbol, what, &rule);
  return TRUE;
}

/* Axis of the high end below the crown. */
static double
start_axis (const SwAsked *asked, SwWorking *working, const SwFallCase *fall)
{
  const char *start = sw_asked_word (asked, "start");
  if (start[0] == 'w')
    {
      SwRuleValue axis = sw_rules_value (sw_asked_rules (asked), "waste.falls", "wc_bend_axis_mm");
      return sw_working_rule (working, "a", N_ ("axis of the bend below the crown"), &axis);
    }
  SwRuleValue over = sw_rules_value (sw_asked_rules (asked), "waste.falls", "over_socket_mm");
  sw_working_rule (working, "c", N_ ("room over it at the high end"), &over);
  if (start[0] == 's')
    return sw_working_step (working, "a", N_ ("axis below the crown"), "c + S/2", sw_drainage_fall_axis (over.value, fall->socket), "mm");
  return sw_working_step (working, "a", N_ ("axis below the crown"), "c + D/2", sw_drainage_fall_axis (over.value, fall->od), "mm");
}

static gboolean
answer_fall (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwFallCase fall = { .depth = sw_asked_number (asked, "depth"), .od = sw_asked_number (asked, "od") };
  sw_working_given (working, "h", N_ ("depth of the void"), fall.depth, "mm");
  sw_working_given (working, "D", N_ ("outside diameter of the pipe"), fall.od, "mm");
  if (!given_or_rule (asked, working, "socket", "S", N_ ("outside of its socket"), "waste.sockets", "socket_mm", &fall.socket, error)
      || !given_or_rule (asked, working, "fall", "n", N_ ("fall"), "drainage.gradients", "default_n", &fall.fall_n, error))
    return FALSE;
  fall.axis_below_crown = start_axis (asked, working, &fall);
  SwFallRoom room = sw_drainage_fall_room (&fall);
  sw_working_step (working, "d", N_ ("what the axis may lose until a socket meets the soffit"), "h − a − S/2", room.drop, "mm");
  sw_working_answer (working, "L", N_ ("longest run with sockets"), "d n", room.run, "mm");
  sw_working_answer (working, "L₀", N_ ("longest run of plain pipe"), "(h − a − D/2) n", room.tube_run, "mm");
  if (room.drop <= 0)
    sw_working_say (working, SW_VERDICT_BAD, N_ ("The socket does not fit into this void at all."));
  return TRUE;
}

/* ---- part-full pipes */

static const SwAskInput flow_inputs[] = {
  SW_ASK ("bore", N_ ("bore of the pipe"), "mm", 10, 2000, ""),
  SW_ASK ("fall", N_ ("fall"), "1:n", 1, 10000, ""),
  SW_ASK ("filling", N_ ("depth of water over bore"), "", 0.01, 1, "0.5"),
  SW_ASK_ONE_OF ("formula", N_ ("formula"), "colebrook|manning", "colebrook"),
  SW_ASK_ONE_OF ("material", N_ ("material, for Manning's n"), "upvc|copper|cast-iron|concrete", "upvc"),
};

static const SwAskInput depth_inputs[] = {
  SW_ASK ("bore", N_ ("bore of the pipe"), "mm", 10, 2000, ""),
  SW_ASK ("fall", N_ ("fall"), "1:n", 1, 10000, ""),
  SW_ASK ("flow", N_ ("flow"), "l/s", 0.001, 10000, ""),
  SW_ASK_ONE_OF ("formula", N_ ("formula"), "colebrook|manning", "colebrook"),
  SW_ASK_ONE_OF ("material", N_ ("material, for Manning's n"), "upvc|copper|cast-iron|concrete", "upvc"),
};

/* The pipe, its slope and the friction of the formula chosen. */
static gboolean
read_pipe (const SwAsked *asked, SwWorking *working, SwFlowFormula *formula, double *slope, GError **error)
{
  SwRuleValue rule;
  sw_working_given (working, "d", N_ ("bore of the pipe"), sw_asked_number (asked, "bore"), "mm");
  sw_working_given (working, "m", N_ ("fall"), sw_asked_number (asked, "fall"), "1:n");
  *slope = sw_working_step (working, "S", N_ ("slope"), "1/m", 1 / sw_asked_number (asked, "fall"), "");
  if (sw_asked_word (asked, "formula")[0] == 'm')
    {
      formula->law = SW_FLOW_MANNING;
      if (!sw_rules_lookup (sw_asked_rules (asked), "drainage.manning", sw_asked_word (asked, "material"), "n", &rule, error))
        return FALSE;
      formula->manning_n = sw_working_rule (working, "n", N_ ("Manning's n"), &rule);
      return TRUE;
    }
  SwRuleValue k = sw_rules_value (sw_asked_rules (asked), "drainage.flow", "roughness_mm");
  SwRuleValue nu = sw_rules_value (sw_asked_rules (asked), "drainage.flow", "viscosity_m2_s");
  formula->law = SW_FLOW_COLEBROOK;
  formula->roughness_mm = sw_working_rule (working, "k", N_ ("roughness"), &k);
  formula->viscosity_m2_s = sw_working_rule (working, "ν", N_ ("kinematic viscosity"), &nu);
  return TRUE;
}

static const char *
velocity_formula (const SwFlowFormula *formula)
{
  return formula->law == SW_FLOW_MANNING ? "R^(2/3) √S / n" : "−2 √(8gRS) log₁₀(k/(14.8 R) + 2.51 ν/(4R √(8gRS)))";
}

static void
say_velocity (const SwAsked *asked, SwWorking *working, double velocity)
{
  SwRuleValue least = sw_rules_value (sw_asked_rules (asked), "drainage.flow", "self_cleansing_m_s");
  sw_working_rule (working, "V₀", N_ ("self-cleansing velocity"), &least);
  if (velocity >= least.value)
    sw_working_say (working, SW_VERDICT_GOOD, N_ ("It cleans itself."));
  else
    sw_working_say (working, SW_VERDICT_BAD, N_ ("It is too slow to clean itself."));
}

static gboolean
answer_flow (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwFlowFormula formula = { 0 };
  double slope, bore = sw_asked_number (asked, "bore"), filling = sw_asked_number (asked, "filling");
  if (!read_pipe (asked, working, &formula, &slope, error))
    return FALSE;
  SwPartFull full = sw_drainage_partfull (bore, filling);
  sw_working_given (working, "h/d", N_ ("depth of water over bore"), filling, "");
  sw_working_step (working, "θ", N_ ("angle of the wetted arc"), "2 acos(1 − 2h/d)", full.angle, "rad");
  sw_working_step (working, "A", N_ ("wetted area"), "d²/8 (θ − sin θ)", full.area_m2, "m2");
  sw_working_step (working, "P", N_ ("wetted perimeter"), "d θ/2", full.perimeter_m, "m");
  sw_working_step (working, "R", N_ ("hydraulic radius"), "A/P", full.radius_m, "m");
  double velocity = sw_drainage_velocity (&formula, bore, filling, slope);
  sw_working_answer (working, "V", N_ ("velocity"), velocity_formula (&formula), velocity, "m/s");
  sw_working_answer (working, "Q", N_ ("flow"), "1000 A V", sw_drainage_capacity (&formula, bore, filling, slope), "l/s");
  say_velocity (asked, working, velocity);
  return TRUE;
}

static gboolean
answer_depth (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwFlowFormula formula = { 0 };
  double slope, bore = sw_asked_number (asked, "bore"), flow = sw_asked_number (asked, "flow");
  if (!read_pipe (asked, working, &formula, &slope, error))
    return FALSE;
  sw_working_given (working, "Q", N_ ("flow"), flow, "l/s");
  double filling = sw_drainage_filling (&formula, bore, slope, flow);
  double most = sw_drainage_capacity (&formula, bore, sw_drainage_filling_most (&formula, bore, slope), slope);
  sw_working_step (working, "Qmax", N_ ("most that the pipe carries"), "max Q(h/d)", most, "l/s");
  if (isnan (filling))
    {
      sw_working_answer (working, "h/d", N_ ("depth of water over bore"), "Q(h/d) = Q", NAN, "");
      sw_working_say (working, SW_VERDICT_BAD, N_ ("The pipe cannot carry this flow at this fall."));
      return TRUE;
    }
  sw_working_answer (working, "h/d", N_ ("depth of water over bore"), "Q(h/d) = Q", filling, "");
  sw_working_answer (working, "h", N_ ("depth of water"), "(h/d) d", filling * bore, "mm");
  double velocity = sw_drainage_velocity (&formula, bore, filling, slope);
  sw_working_answer (working, "V", N_ ("velocity"), velocity_formula (&formula), velocity, "m/s");
  say_velocity (asked, working, velocity);
  return TRUE;
}

/* ---- waste flow */

static const SwAskInput discharge_inputs[] = {
  SW_ASK_MANY_OF ("units", N_ ("fixtures or their discharge units, as in wc-6l, 3xbasin, 0.8"), "l/s", 0.01, 100, "drainage.units", "du_ls"),
  SW_ASK_ONE_OF ("use", N_ ("frequency of use"), "intermittent|frequent|congested|special", "intermittent"),
};

static gboolean
answer_discharge (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRuleValue k, largest = sw_rules_value (sw_asked_rules (asked), "drainage.flow", "largest_unit");
  guint n;
  const double *units = sw_asked_list (asked, "units", &n);
  double sum = 0, most = 0;
  if (!sw_rules_lookup (sw_asked_rules (asked), "drainage.frequency", sw_asked_word (asked, "use"), "k", &k, error))
    return FALSE;
  for (guint i = 0; i < n; i++)
    {
      sum += units[i];
      most = fmax (most, units[i]);
    }
  sw_asked_quote (asked, "units", working, "DU", N_ ("discharge unit"));
  sw_working_step (working, "ΣDU", N_ ("sum of the discharge units"), "Σ DU", sum, "l/s");
  sw_working_step (working, "DUmax", N_ ("largest of them"), "max DU", most, "l/s");
  sw_working_rule (working, "K", N_ ("frequency factor"), &k);
  double flow = sw_drainage_discharge (k.value, sum);
  sw_working_step (working, "Qww", N_ ("waste water flow"), "K √ΣDU", flow, "l/s");
  sw_working_rule (working, "max", N_ ("the flow is at least the largest unit (1: yes)"), &largest);
  double design = sw_drainage_discharge_design (k.value, units, n, largest.value != 0);
  sw_working_answer (working, "Q", N_ ("design flow"), largest.value != 0 ? "max(Qww, DUmax)" : "Qww", design, "l/s");
  return TRUE;
}

/* ---- sweating */

static const SwAskInput sweat_inputs[] = {
  SW_ASK ("od", N_ ("outside diameter of the pipe"), "mm", 4, 1000, "22"),
  SW_ASK ("water", N_ ("temperature of the water"), "°C", -20, 60, "12"),
  SW_ASK ("air", N_ ("temperature of the air"), "°C", -20, 60, "26"),
  SW_ASK ("humidity", N_ ("relative humidity"), "%", 1, 100, "70"),
  SW_ASK_ONE_OF ("where", N_ ("where the pipe hangs"), "void|room", "void"),
};

static double
stock_above (const SwRules *rules, double thickness, SwRuleValue *rule)
{
  guint n;
  const double *stock = sw_rules_series (rules, "insulation.sweating", "stock_mm", &n, rule, NULL);
  for (guint i = 0; stock != NULL && i < n; i++)
    if (stock[i] >= thickness)
      return stock[i];
  return NAN;
}

static gboolean
answer_sweat (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRules *rules = sw_asked_rules (asked);
  const char *group = "insulation.sweating";
  SwRuleValue a = sw_rules_value (rules, group, "magnus_a"), b = sw_rules_value (rules, group, "magnus_b_c"), stock;
  SwRuleValue lambda = sw_rules_value (rules, group, "lambda_w_mk");
  SwRuleValue h = sw_rules_value (rules, group, sw_asked_word (asked, "where")[0] == 'v' ? "surface_void_w_m2k" : "surface_room_w_m2k");
  SwSweatCase sweat = { .pipe_mm = sw_asked_number (asked, "od"), .pipe_c = sw_asked_number (asked, "water"), .air_c = sw_asked_number (asked, "air") };
  double humidity = sw_asked_number (asked, "humidity");
  sw_working_given (working, "d", N_ ("outside diameter of the pipe"), sweat.pipe_mm, "mm");
  sw_working_given (working, "Tw", N_ ("temperature of the water"), sweat.pipe_c, "°C");
  sw_working_given (working, "Ta", N_ ("temperature of the air"), sweat.air_c, "°C");
  sw_working_given (working, "RH", N_ ("relative humidity"), humidity, "%");
  SwMagnus magnus = { sw_working_rule (working, "A", N_ ("Magnus's factor"), &a), sw_working_rule (working, "B", N_ ("Magnus's temperature"), &b) };
  sweat.dew_c = sw_working_answer (working, "Td", N_ ("dew point"), "B g/(A − g), g = ln(RH/100) + A Ta/(B + Ta)",
                                   sw_drainage_dew_point (&magnus, sweat.air_c, humidity), "°C");
  sweat.conductivity_w_mk = sw_working_rule (working, "λ", N_ ("conductivity of the sleeve"), &lambda);
  sweat.surface_w_m2k = sw_working_rule (working, "α", N_ ("surface coefficient"), &h);
  double thickness = sw_drainage_sweat_thickness (&sweat);
  sw_working_answer (working, "s", N_ ("least sleeve"), "Ta − (Ta − Tw) Rs/(Ri + Rs) = Td, Ri = ln(D/d)/(2πλ), Rs = 1/(πDα)", thickness, "mm");
  if (thickness > 0)
    sw_working_answer (working, "s'", N_ ("next thickness sold"), NULL, stock_above (rules, thickness, &stock), "mm");
  if (isnan (thickness))
    sw_working_say (working, SW_VERDICT_BAD, N_ ("No sleeve keeps it dry in this air."));
  else
    sw_working_say (working, thickness > 0 ? SW_VERDICT_BAD : SW_VERDICT_GOOD, thickness > 0 ? N_ ("The bare pipe sweats.") : N_ ("The bare pipe stays dry."));
  return TRUE;
}

/* ---- cover */

static const SwAskInput cover_inputs[] = {
  SW_ASK ("depth", N_ ("depth of the void"), "mm", 20, 2000, "250"),
  SW_ASK ("axis", N_ ("axis of the pipe above the soffit"), "mm", 0, 2000, ""),
  SW_ASK ("od", N_ ("outside diameter of the pipe"), "mm", 4, 1000, "110"),
  SW_ASK ("insulation", N_ ("insulation round it"), "mm", 0, 200, "0"),
};

static gboolean
answer_cover (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRules *rules = sw_asked_rules (asked);
  SwRuleValue crown = sw_rules_value (rules, "checks.clearances", "crown_mm"), batten = sw_rules_value (rules, "checks.clearances", "batten_mm"), socket;
  double depth = sw_working_given (working, "h", N_ ("depth of the void"), sw_asked_number (asked, "depth"), "mm");
  double axis = sw_working_given (working, "z", N_ ("axis of the pipe above the soffit"), sw_asked_number (asked, "axis"), "mm");
  double od = sw_working_given (working, "D", N_ ("outside diameter of the pipe"), sw_asked_number (asked, "od"), "mm"), outside = od;
  double insulation = sw_working_given (working, "i", N_ ("insulation round it"), sw_asked_number (asked, "insulation"), "mm");
  if (sw_rules_lookup_at (rules, "waste.sockets", od, SW_RULE_EXACT, "socket_mm", &socket, NULL))
    outside = fmax (od, sw_working_rule (working, "S", N_ ("outside of its socket"), &socket));
  sw_working_rule (working, "c", N_ ("clearance at the crown"), &crown);
  sw_working_rule (working, "b", N_ ("clearance above the battens"), &batten);
  double over = sw_working_answer (working, "o", N_ ("left below the crown"), "h − z − max(D, S)/2 − i", depth - axis - outside / 2 - insulation, "mm");
  double under = sw_working_answer (working, "u", N_ ("left above the battens"), "z − max(D, S)/2 − i", axis - outside / 2 - insulation, "mm");
  gboolean good = over >= crown.value - 1e-9 && under >= batten.value - 1e-9;
  sw_working_say (working, good ? SW_VERDICT_GOOD : SW_VERDICT_BAD, good ? N_ ("There is room.") : N_ ("There is no room for it there."));
  return TRUE;
}

const SwQuestion sw_drainage_questions[] = {
  SW_QUESTION (N_ ("Waste"), "cover", N_ ("Cover of a pipe in a void"), N_ ("What a pipe with socket and insulation leaves below the crown and above the battens."), cover_inputs, answer_cover),
  SW_QUESTION (N_ ("Waste"), "fall-run", N_ ("Falling pipe in a void"), N_ ("How far a falling pipe runs before a socket meets the soffit."), fall_inputs, answer_fall),
  SW_QUESTION (N_ ("Waste"), "part-full-flow", N_ ("Flow of a part-full pipe"), N_ ("Velocity and flow at a depth of water."), flow_inputs, answer_flow),
  SW_QUESTION (N_ ("Waste"), "part-full-depth", N_ ("Depth of water in a pipe"), N_ ("How full a pipe runs at a flow, and whether it cleans itself."), depth_inputs, answer_depth),
  SW_QUESTION (N_ ("Waste"), "waste-flow", N_ ("Waste water flow"), N_ ("Design flow from the discharge units of fixtures."), discharge_inputs, answer_discharge),
  SW_QUESTION (N_ ("Water"), "sweating", N_ ("Cold pipe that sweats"), N_ ("Dew point of the air, and the sleeve that keeps a cold pipe dry."), sweat_inputs, answer_sweat),
};

const guint sw_drainage_n_questions = G_N_ELEMENTS (sw_drainage_questions);
