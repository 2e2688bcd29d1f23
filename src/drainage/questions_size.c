/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "base/text.h"
#include "drainage/discharge.h"
#include "drainage/fall.h"
#include "drainage/partfull.h"
#include "drainage/questions.h"
#include <math.h>
#include <string.h>

/* ---- least pipe for a flow */

static const SwAskInput pipe_inputs[] = {
  SW_ASK ("flow", N_ ("flow"), "l/s", 0.001, 1000, ""),
  SW_ASK ("fall", N_ ("fall"), "1:n", 1, 10000, "60"),
  SW_ASK_ONE_OF ("place", N_ ("where the pipe lies"), "inside|ground", "inside"),
};

static const SwWorkingColumn pipe_columns[] = {
  { "DN", N_ ("size"), "" }, { "d", N_ ("bore"), "mm" }, { "Q", N_ ("most flow"), "l/s" }, { "V", N_ ("velocity then"), "m/s" },
};

static gboolean
answer_pipe (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRules *rules = sw_asked_rules (asked);
  SwRuleValue fill = sw_rules_value (rules, "drainage.flow", sw_asked_word (asked, "place")[0] == 'g' ? "filling_ground" : "filling_branch"), bore;
  SwRuleValue k = sw_rules_value (rules, "drainage.flow", "roughness_mm"), nu = sw_rules_value (rules, "drainage.flow", "viscosity_m2_s");
  SwFlowFormula formula = { .law = SW_FLOW_COLEBROOK, .roughness_mm = k.value, .viscosity_m2_s = nu.value };
  double flow = sw_working_given (working, "Q₀", N_ ("flow"), sw_asked_number (asked, "flow"), "l/s"), least = NAN;
  double slope = 1 / sw_working_given (working, "m", N_ ("fall"), sw_asked_number (asked, "fall"), "1:n");
  if (!sw_rules_has (rules, "drainage.bores"))
    return sw_rules_lookup_at (rules, "drainage.bores", 0, SW_RULE_NEXT_LARGER, "bore_mm", &bore, error);
  sw_working_rule (working, "h/d", N_ ("depth of water over bore"), &fill);
  sw_working_rule (working, "k", N_ ("roughness"), &k);
  sw_working_rule (working, "ν", N_ ("kinematic viscosity"), &nu);
  sw_working_table (working, pipe_columns, G_N_ELEMENTS (pipe_columns));
  for (guint i = 0; i < sw_rules_n_rows (rules, "drainage.bores"); i++)
    {
      double size = sw_rules_row_number (rules, "drainage.bores", i);
      if (!sw_rules_lookup (rules, "drainage.bores", sw_rules_row_key (rules, "drainage.bores", i), "bore_mm", &bore, NULL))
        continue;
      double most = sw_drainage_capacity (&formula, bore.value, fill.value, slope);
      double cells[] = { size, bore.value, most, sw_drainage_velocity (&formula, bore.value, fill.value, slope) };
      for (gsize c = 0; c < G_N_ELEMENTS (cells); c++)
        sw_working_cell (working, cells[c]);
      if (isnan (least) && most >= flow)
        least = size;
    }
  sw_working_answer (working, "DN", N_ ("least size"), "Q(h/d) ≥ Q₀, by Colebrook and White", least, "");
  sw_working_say (working, isnan (least) ? SW_VERDICT_BAD : SW_VERDICT_GOOD,
                  isnan (least) ? N_ ("No pipe of the table carries this flow at this fall.") : N_ ("Larger sizes stand in the table."));
  return TRUE;
}

/* ---- branches */

static const SwAskInput branch_inputs[] = {
  SW_ASK_MANY_OF ("units", N_ ("fixtures or their discharge units, as in wc-6l, 3xbasin, 0.8"), "l/s", 0.01, 100, "drainage.units", "du_ls"),
  SW_ASK_ONE_OF ("use", N_ ("frequency of use"), "intermittent|frequent|congested|special", "intermittent"),
  SW_ASK_ONE_OF ("vent", N_ ("has the branch a vent?"), "no|yes", "no"),
  SW_ASK_ONE_OF ("wc", N_ ("is there a WC on it?"), "no|yes", "no"),
  SW_ASK ("length", N_ ("length of the branch"), "m", 0, 100, "0"),
  SW_ASK ("bends", N_ ("quarter bends besides the outlet's"), "", 0, 50, "0"),
  SW_ASK ("drop", N_ ("upright drop"), "m", 0, 50, "0"),
  SW_ASK ("fall", N_ ("fall"), "1:n", 1, 1000, "50"),
};

/* Whether the branch keeps to the table's limits; where it gives none, it does. */
static gboolean
keeps_limits (const SwAsked *asked, SwWorking *working, const char *row)
{
  static const struct { const char *key, *column, *symbol, *what; } limits[] = {
    { "length", "length_m", "L₀", N_ ("longest branch") }, { "bends", "bends", "B₀", N_ ("most quarter bends") },
    { "drop", "drop_m", "H₀", N_ ("highest drop") },
  };
  SwRuleValue limit;
  gboolean keeps = TRUE;
  for (gsize i = 0; i < G_N_ELEMENTS (limits); i++)
    if (sw_rules_lookup (sw_asked_rules (asked), "drainage.branch_limits", row, limits[i].column, &limit, NULL))
      {
        sw_working_rule (working, limits[i].symbol, limits[i].what, &limit);
        keeps &= sw_asked_number (asked, limits[i].key) <= limit.value + 1e-9;
      }
  if (sw_rules_lookup (sw_asked_rules (asked), "drainage.branch_limits", row, "gradient_percent", &limit, NULL))
    {
      sw_working_rule (working, "S₀", N_ ("least fall"), &limit);
      keeps &= 100 / sw_asked_number (asked, "fall") >= limit.value - 1e-9;
    }
  return keeps;
}

static double
design_flow (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRuleValue k, largest = sw_rules_value (sw_asked_rules (asked), "drainage.flow", "largest_unit");
  guint n;
  const double *units = sw_asked_list (asked, "units", &n);
  if (!sw_rules_lookup (sw_asked_rules (asked), "drainage.frequency", sw_asked_word (asked, "use"), "k", &k, error))
    return NAN;
  double sum = sw_asked_quote (asked, "units", working, "DU", N_ ("discharge unit"));
  sw_working_step (working, "ΣDU", N_ ("sum of the discharge units"), "Σ DU", sum, "l/s");
  sw_working_rule (working, "K", N_ ("frequency factor"), &k);
  return sw_working_step (working, "Q", N_ ("design flow"), largest.value != 0 ? "max(K √ΣDU, max DU)" : "K √ΣDU",
                          sw_drainage_discharge_design (k.value, units, n, largest.value != 0), "l/s");
}

static gboolean
answer_branch (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRules *rules = sw_asked_rules (asked);
  const char *kind = sw_asked_word (asked, "vent")[0] == 'y' ? "ventilated" : "unventilated";
  const char *table = sw_asked_word (asked, "vent")[0] == 'y' ? "drainage.ventilated" : "drainage.unventilated";
  gboolean wc = sw_asked_word (asked, "wc")[0] == 'y', found = FALSE;
  double flow = design_flow (asked, working, error);
  if (isnan (flow))
    return FALSE;
  if (!sw_rules_has (rules, table))
    {
      g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, "this rule set has no table %s", table);
      return FALSE;
    }
  for (guint i = 0; i < sw_rules_n_rows (rules, table) && !found; i++)
    {
      SwRuleValue most, takes;
      const char *row = sw_rules_row_key (rules, table, i);
      found = sw_rules_lookup (rules, table, row, "capacity_ls", &most, NULL) && most.value >= flow - 1e-9
              && (!wc || (sw_rules_lookup (rules, table, row, "wc", &takes, NULL) && takes.value != 0));
      if (!found)
        continue;
      sw_working_rule (working, "Qmax", N_ ("most flow of this branch"), &most);
      sw_working_answer (working, "DN", N_ ("least branch"), "Q ≤ Qmax", sw_rules_row_number (rules, table, i), "");
    }
  gboolean keeps = keeps_limits (asked, working, kind);
  if (!found)
    sw_working_answer (working, "DN", N_ ("least branch"), "Q ≤ Qmax", NAN, "");
  sw_working_say (working, found && keeps ? SW_VERDICT_GOOD : SW_VERDICT_BAD,
                  !found ? N_ ("No branch of the table is large enough.")
                  : keeps ? N_ ("The branch keeps to the limits.") : N_ ("Length, bends, drop or fall go beyond the limits: vent it, or shorten it."));
  return TRUE;
}

/* ---- stacks */

static const SwAskInput stack_inputs[] = {
  SW_ASK ("flow", N_ ("design flow"), "l/s", 0.01, 1000, ""),
  SW_ASK_ONE_OF ("entry", N_ ("entries"), "square|swept", "square"),
  SW_ASK_ONE_OF ("wc", N_ ("is there a WC on it?"), "yes|no", "yes"),
};

static gboolean
answer_stack (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRules *rules = sw_asked_rules (asked);
  SwRuleValue most, least = { 0 }, vent;
  const char *column = sw_asked_word (asked, "entry")[1] == 'q' ? "square_ls" : "swept_ls";
  double flow = sw_working_given (working, "Q", N_ ("design flow"), sw_asked_number (asked, "flow"), "l/s");
  if (sw_asked_word (asked, "wc")[0] == 'y')
    {
      if (!sw_rules_number (rules, "drainage.wc", "stack_dn", &least, error))
        return FALSE;
      sw_working_rule (working, "DN₀", N_ ("least stack with a WC"), &least);
    }
  for (guint i = 0; i < sw_rules_n_rows (rules, "drainage.stacks"); i++)
    {
      const char *row = sw_rules_row_key (rules, "drainage.stacks", i);
      double size = sw_rules_row_number (rules, "drainage.stacks", i);
      if (size < least.value || !sw_rules_lookup (rules, "drainage.stacks", row, column, &most, NULL) || most.value < flow)
        continue;
      sw_working_rule (working, "Qmax", N_ ("most flow of this stack"), &most);
      sw_working_answer (working, "DN", N_ ("least stack with a primary vent"), "Q ≤ Qmax", size, "");
      if (sw_rules_lookup (rules, "drainage.stacks", row, "vent_dn", &vent, NULL))
        sw_working_rule (working, "V", N_ ("its secondary vent, where there is one"), &vent);
      return TRUE;
    }
  g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, "no stack of drainage.stacks carries %g l/s: use two", flow);
  return FALSE;
}

/* ---- building drain by fixture units */

static const SwAskInput drain_inputs[] = {
  SW_ASK_MANY_OF ("units", N_ ("fixtures or their fixture units, as in wc-public, 3xbasin, 2"), "", 0.1, 10000, "drainage.fixture_units", "units"),
  SW_ASK_ONE_OF ("fall", N_ ("fall, of an inch in a foot"), "sixteenth|eighth|quarter|half", "quarter"),
  SW_ASK_ONE_OF ("wc", N_ ("is there a WC on it?"), "no|yes", "no"),
};

static gboolean
answer_drain (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRules *rules = sw_asked_rules (asked);
  SwRuleValue most, least = { 0 };
  double units = sw_asked_quote (asked, "units", working, "FU", N_ ("fixture units of one fixture"));
  sw_working_step (working, "ΣFU", N_ ("fixture units"), "Σ FU", units, "");
  if (sw_asked_word (asked, "wc")[0] == 'y' && sw_rules_number (rules, "drainage.wc", "drain_in", &least, NULL))
    sw_working_rule (working, "D₀", N_ ("least drain with a WC"), &least);
  if (!sw_rules_has (rules, "drainage.building_drain"))
    return sw_rules_lookup (rules, "drainage.building_drain", "4", "quarter", &most, error);
  for (guint i = 0; i < sw_rules_n_rows (rules, "drainage.building_drain"); i++)
    {
      double size = sw_rules_row_number (rules, "drainage.building_drain", i);
      if (size < least.value || !sw_rules_lookup (rules, "drainage.building_drain", sw_rules_row_key (rules, "drainage.building_drain", i),
                                                  sw_asked_word (asked, "fall"), &most, NULL) || most.value < units)
        continue;
      sw_working_rule (working, "FUmax", N_ ("most units of this drain"), &most);
      sw_working_answer (working, "D", N_ ("least building drain"), "ΣFU ≤ FUmax", size, "in");
      return TRUE;
    }
  g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, "no drain of drainage.building_drain takes %g units at this fall", units);
  return FALSE;
}

/* ---- what runs how far in a void */

static const SwAskInput table_inputs[] = {
  SW_ASK ("depth", N_ ("depth of the void"), "mm", 20, 2000, ""),
  SW_ASK_ONE_OF ("start", N_ ("at the high end: room over the socket, room over the pipe, or the bend under a WC"), "socket|pipe|wc", "socket"),
  SW_ASK_MANY ("falls", N_ ("falls to reckon with"), "1:n", 5, 1000, "40, 60, 80, 100"),
};

static const SwWorkingColumn table_columns[] = {
  { "D", N_ ("pipe"), "mm" }, { "S", N_ ("its socket"), "mm" }, { "n", N_ ("fall"), "1:n" },
  { "L", N_ ("longest run with sockets"), "mm" }, { "L₀", N_ ("longest run of plain pipe"), "mm" },
};

static void
put_runs (const SwAsked *asked, SwWorking *working, double od, double socket, double over, double bend)
{
  guint n;
  const double *falls = sw_asked_list (asked, "falls", &n);
  char start = sw_asked_word (asked, "start")[0];
  for (guint i = 0; i < n; i++)
    {
      SwFallCase fall = { .depth = sw_asked_number (asked, "depth"), .od = od, .socket = socket, .fall_n = falls[i] };
      fall.axis_below_crown = start == 'w' ? bend : sw_drainage_fall_axis (over, start == 's' ? socket : od);
      SwFallRoom room = sw_drainage_fall_room (&fall);
      double cells[] = { od, socket, falls[i], room.run, room.tube_run };
      for (gsize c = 0; c < G_N_ELEMENTS (cells); c++)
        sw_working_cell (working, cells[c]);
    }
}

static gboolean
answer_table (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRules *rules = sw_asked_rules (asked);
  SwRuleValue over = sw_rules_value (rules, "waste.falls", "over_socket_mm"), bend = sw_rules_value (rules, "waste.falls", "wc_bend_axis_mm"), socket;
  double largest = NAN;
  sw_working_given (working, "h", N_ ("depth of the void"), sw_asked_number (asked, "depth"), "mm");
  if (sw_asked_word (asked, "start")[0] == 'w')
    sw_working_rule (working, "a", N_ ("axis of the bend below the crown"), &bend);
  else
    sw_working_rule (working, "c", N_ ("room over it at the high end"), &over);
  sw_working_table (working, table_columns, G_N_ELEMENTS (table_columns));
  for (guint i = 0; i < sw_rules_n_rows (rules, "waste.sockets"); i++)
    {
      double od = sw_rules_row_number (rules, "waste.sockets", i);
      if (!sw_rules_lookup (rules, "waste.sockets", sw_rules_row_key (rules, "waste.sockets", i), "socket_mm", &socket, NULL))
        continue;
      put_runs (asked, working, od, socket.value, over.value, bend.value);
      if (g_array_index (working->cells, double, working->cells->len - 2) >= 1000)
        largest = od;
    }
  sw_working_answer (working, "Dmax", N_ ("largest pipe that runs a metre or more at the last fall"), "L = (h − a − S/2) n ≥ 1000", largest, "mm");
  return TRUE;
}

/* ---- falls and levels */

static const SwAskInput gradient_inputs[] = {
  SW_ASK ("od", N_ ("outside diameter of the pipe"), "mm", 10, 1000, "110"),
  SW_ASK ("fall", N_ ("fall"), "1:n", 1, 10000, ""),
};

static gboolean
answer_gradient (const SwAsked *asked, SwWorking *working, GError **error)
{
  static const struct { const char *column, *symbol, *what; } limits[] = {
    { "default_n", "n₀", N_ ("usual fall") }, { "note_n", "n₁", N_ ("steeper than this is better") },
    { "stop_n", "n₂", N_ ("flattest") }, { "steepest_n", "n₃", N_ ("steepest") },
  };
  double n = sw_asked_number (asked, "fall"), found[G_N_ELEMENTS (limits)];
  sw_working_given (working, "D", N_ ("outside diameter of the pipe"), sw_asked_number (asked, "od"), "mm");
  sw_working_given (working, "n", N_ ("fall"), n, "1:n");
  for (gsize i = 0; i < G_N_ELEMENTS (limits); i++)
    {
      SwRuleValue rule;
      gboolean known = sw_rules_lookup_at (sw_asked_rules (asked), "drainage.gradients", sw_asked_number (asked, "od"), SW_RULE_NEXT_LARGER, limits[i].column, &rule, i == 0 ? error : NULL);
      if (!known && i == 0)
        return FALSE;
      found[i] = known ? sw_working_rule (working, limits[i].symbol, limits[i].what, &rule) : NAN;
    }
  sw_working_answer (working, "S", N_ ("it falls"), "1000/n", 1000 / n, "mm/m");
  gboolean steep = n < found[3] - 1e-9, flat = n > found[2] + 1e-9, gentle = n > found[1] + 1e-9;
  sw_working_say (working, steep || flat ? SW_VERDICT_BAD : SW_VERDICT_GOOD,
                  flat ? N_ ("It is too flat.") : steep ? N_ ("It is too steep.") : gentle ? N_ ("It is allowed, but steeper is better.") : N_ ("The fall is good."));
  return TRUE;
}

static const SwAskInput invert_inputs[] = {
  SW_ASK ("start", N_ ("invert at the high end, above the level line"), "mm", -100000, 100000, "0"),
  SW_ASK ("length", N_ ("length in plan"), "mm", 0, 1e6, ""),
  SW_ASK ("fall", N_ ("fall"), "1:n", 1, 10000, "60"),
};

static gboolean
answer_invert (const SwAsked *asked, SwWorking *working, GError **error)
{
  double start = sw_working_given (working, "z₁", N_ ("invert at the high end"), sw_asked_number (asked, "start"), "mm");
  double length = sw_working_given (working, "L", N_ ("length in plan"), sw_asked_number (asked, "length"), "mm");
  double n = sw_working_given (working, "n", N_ ("fall"), sw_asked_number (asked, "fall"), "1:n");
  double drop = sw_working_answer (working, "d", N_ ("what it loses"), "L/n", sw_drainage_fall_loss (length, n), "mm");
  sw_working_answer (working, "z₂", N_ ("invert at the low end, above the level line"), "z₁ − d", start - drop, "mm");
  return TRUE;
}

/* ---- one fixture's branch */

static const SwAskInput single_inputs[] = {
  SW_ASK_ONE_OF ("branch", N_ ("fixture and size of its branch"), "basin-32|bath-40|bath-50|shower-40|shower-50|wc-100|wc-group-100", "basin-32"),
  SW_ASK ("length", N_ ("length of the branch"), "m", 0.01, 100, ""),
  SW_ASK ("fall", N_ ("fall (0: not known yet)"), "1:n", 0, 1000, "0"),
};

static gboolean
answer_single (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRules *rules = sw_asked_rules (asked);
  const char *table = "drainage.single_branches", *row = sw_asked_word (asked, "branch");
  SwRuleValue most, low, high;
  double length = sw_working_given (working, "L", N_ ("length of the branch"), sw_asked_number (asked, "length"), "m"), n = sw_asked_number (asked, "fall");
  if (!sw_rules_lookup (rules, table, row, "length_m", &most, error))
    return FALSE;
  sw_working_rule (working, "L₀", N_ ("longest branch without a vent"), &most);
  gboolean good = length <= most.value + 1e-9;
  double slope = n > 0 ? sw_working_step (working, "S", N_ ("it falls"), "1000/n", 1000 / n, "mm/m") : NAN;
  if (sw_rules_lookup (rules, table, row, "fall_low_mm_m", &low, NULL))
    good &= !(slope < sw_working_rule (working, "S₁", N_ ("least fall"), &low));
  if (sw_rules_lookup (rules, table, row, "fall_high_mm_m", &high, NULL))
    good &= !(slope > sw_working_rule (working, "S₂", N_ ("greatest fall"), &high));
  sw_working_answer (working, "e", N_ ("length left"), "L₀ − L", most.value - length, "m");
  sw_working_say (working, good ? SW_VERDICT_GOOD : SW_VERDICT_BAD, good ? N_ ("The branch needs no vent.") : N_ ("Vent it, shorten it, or change its fall."));
  return TRUE;
}

const SwQuestion sw_drainage_size_questions[] = {
  SW_QUESTION (N_ ("Waste"), "fall-table", N_ ("Falling pipes in a void: all sizes"), N_ ("How far each size runs at each fall before a socket meets the soffit."), table_inputs, answer_table),
  SW_QUESTION (N_ ("Waste"), "gradient", N_ ("Fall of a pipe"), N_ ("Whether a pipe of a size may fall so."), gradient_inputs, answer_gradient),
  SW_QUESTION (N_ ("Waste"), "invert", N_ ("Invert along a falling pipe"), N_ ("What a falling pipe loses, and its level at the low end."), invert_inputs, answer_invert),
  SW_QUESTION (N_ ("Waste"), "single-branch", N_ ("Branch of one fixture"), N_ ("How long the branch of one fixture may be without a vent, British practice."), single_inputs, answer_single),
  SW_QUESTION (N_ ("Waste"), "waste-pipe", N_ ("Least pipe for a flow"), N_ ("The least laid-to-fall pipe for a flow, and what all sizes carry."), pipe_inputs, answer_pipe),
  SW_QUESTION (N_ ("Waste"), "waste-branch", N_ ("Least branch for fixtures"), N_ ("The least branch for fixtures, and its limits."), branch_inputs, answer_branch),
  SW_QUESTION (N_ ("Waste"), "waste-stack", N_ ("Least stack for a flow"), N_ ("The least stack with a primary vent."), stack_inputs, answer_stack),
  SW_QUESTION (N_ ("Waste"), "building-drain", N_ ("Building drain by fixture units"), N_ ("The least drain by North American fixture units."), drain_inputs, answer_drain),
};

const guint sw_drainage_n_size_questions = G_N_ELEMENTS (sw_drainage_size_questions);
