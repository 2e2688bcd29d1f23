/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "base/text.h"
#include "circuits/questions.h"
#include "circuits/voltdrop.h"
#include <math.h>
#include <string.h>

/* ---- a whole circuit: cable, drop, longest length */

static const SwAskInput circuit_inputs[] = {
  SW_ASK ("amps", N_ ("design current"), "A", 0.01, 1000, ""),
  SW_ASK ("protection", N_ ("rating of fuse or breaker (0: the design current)"), "A", 0, 1000, "0"),
  SW_ASK ("length", N_ ("length of the circuit"), "m", 0.1, 10000, ""),
  SW_ASK_ONE_OF ("phases", N_ ("phases"), "1|3", "1"),
  SW_ASK_ONE_OF ("use", N_ ("circuit"), "power|lighting", "power"),
  SW_ASK_ONE_OF ("method", N_ ("how the cable lies: singles in conduit, or flat cable"), "conduit|above-board|above-board-thick|clipped|insulated-wall", "conduit"),
  SW_ASK ("circuits", N_ ("circuits bunched together"), "", 1, 20, "1"),
  SW_ASK ("air", N_ ("air around it (0: of the rating tables)"), "°C", 0, 90, "0"),
};

static const SwWorkingColumn circuit_columns[] = {
  { "A", N_ ("conductor"), "mm2" }, { "Iz", N_ ("rating here"), "A" }, { "ΔU%", N_ ("volt drop"), "%" }, { "Lmax", N_ ("longest circuit"), "m" },
};

/* What a circuit is reckoned with. */
typedef struct
{
  const char *ratings, *rating, *drop; /* tables' names and columns */
  double amps, carries, length, volts, percent; /* carries: what the cable has to */
  double factors[2];
} Circuit;

static gboolean
circuit_factors (const SwAsked *asked, SwWorking *working, Circuit *circuit, GError **error)
{
  SwRules *rules = sw_asked_rules (asked);
  SwRuleValue group, air, base = sw_rules_value (rules, "circuit.supply", "base_c");
  double degrees = sw_asked_number (asked, "air");
  if (!sw_rules_lookup_at (rules, "circuit.grouping_bunched", sw_working_given (working, "N", N_ ("circuits bunched together"), sw_asked_number (asked, "circuits"), ""),
                           SW_RULE_NEXT_LARGER, "factor", &group, error))
    return FALSE;
  circuit->factors[0] = sw_working_rule (working, "kg", N_ ("factor of grouping"), &group);
  circuit->factors[1] = 1;
  if (degrees == 0 || degrees == base.value)
    {
      sw_working_rule (working, "T₀", N_ ("air of the table's ratings"), &base);
      return TRUE;
    }
  sw_working_given (working, "Ta", N_ ("air around it"), degrees, "°C");
  if (!sw_rules_lookup_at (rules, "circuit.ambient", degrees, SW_RULE_LINEAR, "factor", &air, error))
    return FALSE;
  circuit->factors[1] = sw_working_rule (working, "ka", N_ ("factor of the air"), &air);
  return TRUE;
}

static gboolean
circuit_read (const SwAsked *asked, SwWorking *working, Circuit *circuit, GError **error)
{
  static const struct { const char *method, *table, *single, *three; } methods[] = {
    { "conduit", "circuit.ratings_conduit", "single_phase_a", "three_phase_a" }, { "above-board", "circuit.ratings_flat", "above_board_a", NULL },
    { "above-board-thick", "circuit.ratings_flat", "above_board_thick_a", NULL }, { "clipped", "circuit.ratings_flat", "clipped_a", NULL },
    { "insulated-wall", "circuit.ratings_flat", "insulated_wall_a", NULL },
  };
  SwRules *rules = sw_asked_rules (asked);
  gboolean three = sw_asked_word (asked, "phases")[0] == '3';
  gsize m = 0;
  while (strcmp (methods[m].method, sw_asked_word (asked, "method")) != 0)
    m++;
  circuit->ratings = methods[m].table;
  circuit->rating = three ? methods[m].three : methods[m].single;
  circuit->drop = three ? "three_phase_mv" : "single_phase_mv";
  if (circuit->rating == NULL || !sw_rules_has (rules, circuit->ratings))
    {
      g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, "the rule set has no ratings for %s with %s phases", methods[m].method, three ? "three" : "one");
      return FALSE;
    }
  SwRuleValue volts = sw_rules_value (rules, "circuit.supply", three ? "three_phase_v" : "single_phase_v");
  SwRuleValue limit = sw_rules_value (rules, "circuit.limits", sw_asked_word (asked, "use")[0] == 'l' ? "lighting_percent" : "power_percent");
  double breaker = sw_asked_number (asked, "protection");
  circuit->amps = sw_working_given (working, "Ib", N_ ("design current"), sw_asked_number (asked, "amps"), "A");
  circuit->carries = breaker > 0 ? sw_working_given (working, "In", N_ ("rating of fuse or breaker"), breaker, "A") : circuit->amps;
  circuit->carries = fmax (circuit->carries, circuit->amps);
  circuit->length = sw_working_given (working, "L", N_ ("length of the circuit"), sw_asked_number (asked, "length"), "m");
  circuit->volts = sw_working_rule (working, "U", N_ ("supply"), &volts);
  circuit->percent = sw_working_rule (working, "e", N_ ("most that is allowed"), &limit);
  return circuit_factors (asked, working, circuit, error);
}

/* The figures of one conductor size; FALSE where a table has no row for it. */
static gboolean
circuit_row (const SwRules *rules, const Circuit *circuit, const char *row, SwRuleValue *rating, SwRuleValue *each, double cells[3])
{
  if (!sw_rules_lookup (rules, circuit->ratings, row, circuit->rating, rating, NULL)
      || !sw_rules_lookup (rules, "circuit.drop_pvc", row, circuit->drop, each, NULL))
    return FALSE;
  cells[0] = sw_circuits_derated (rating->value, circuit->factors, 2);
  cells[1] = sw_circuits_volt_drop_percent (sw_circuits_volt_drop (each->value, circuit->amps, circuit->length), circuit->volts);
  cells[2] = sw_circuits_volt_drop_length (each->value, circuit->amps, circuit->volts, circuit->percent);
  return TRUE;
}

static void
circuit_chosen (SwWorking *working, const SwRuleValue *rating, const SwRuleValue *each, const double cells[3])
{
  sw_working_rule (working, "I₀", N_ ("rating from the table"), rating);
  sw_working_rule (working, "u", N_ ("drop of one ampere and metre"), each);
  sw_working_answer (working, "Iz", N_ ("rating here"), "I₀ kg ka", cells[0], "A");
  sw_working_answer (working, "ΔU%", N_ ("volt drop, of the supply"), "100 u Ib L/(1000 U)", cells[1], "%");
  sw_working_answer (working, "Lmax", N_ ("longest circuit with it"), "e U/100 · 1000/(u Ib)", cells[2], "m");
}

static gboolean
answer_circuit (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRules *rules = sw_asked_rules (asked);
  Circuit circuit = { NULL };
  gboolean found = FALSE;
  if (!circuit_read (asked, working, &circuit, error))
    return FALSE;
  sw_working_table (working, circuit_columns, G_N_ELEMENTS (circuit_columns));
  for (guint i = 0; i < sw_rules_n_rows (rules, circuit.ratings); i++)
    {
      SwRuleValue rating, each;
      double cells[3], size = sw_rules_row_number (rules, circuit.ratings, i);
      if (!circuit_row (rules, &circuit, sw_rules_row_key (rules, circuit.ratings, i), &rating, &each, cells))
        continue;
      sw_working_cell (working, size);
      for (int c = 0; c < 3; c++)
        sw_working_cell (working, cells[c]);
      if (found || cells[0] < circuit.carries - 1e-9 || cells[1] > circuit.percent + 1e-9)
        continue;
      found = TRUE;
      sw_working_answer (working, "A", N_ ("least conductor"), "Iz ≥ Ib, In and ΔU% ≤ e", size, "mm2");
      circuit_chosen (working, &rating, &each, cells);
    }
  if (!found)
    sw_working_answer (working, "A", N_ ("least conductor"), "Iz ≥ Ib, In and ΔU% ≤ e", NAN, "mm2");
  sw_working_say (working, found ? SW_VERDICT_GOOD : SW_VERDICT_BAD,
                  found ? N_ ("Other sizes stand in the table.") : N_ ("No size of the table does: shorten or split the circuit."));
  return TRUE;
}

/* ---- conduits beside each other */

static const SwAskInput beside_inputs[] = {
  SW_ASK ("od", N_ ("outside diameter of the larger conduit"), "mm", 5, 300, "20"),
  SW_ASK ("clear", N_ ("clear between the two"), "mm", 0, 5000, ""),
  SW_ASK ("length", N_ ("side by side over"), "m", 0, 1000, ""),
  SW_ASK ("own", N_ ("circuits in the conduit"), "", 1, 20, "1"),
  SW_ASK ("others", N_ ("circuits in those beside it"), "", 0, 20, "1"),
  SW_ASK ("light", N_ ("of these, circuits that carry little"), "", 0, 20, "0"),
};

static gboolean
answer_beside (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRules *rules = sw_asked_rules (asked);
  SwRuleValue diameters = sw_rules_value (rules, "circuit.bunching", "clear_diameters"), least = sw_rules_value (rules, "circuit.bunching", "length_mm"), group;
  double od = sw_working_given (working, "D", N_ ("outside diameter of the larger conduit"), sw_asked_number (asked, "od"), "mm");
  double clear = sw_working_given (working, "a", N_ ("clear between the two"), sw_asked_number (asked, "clear"), "mm");
  double length = sw_working_given (working, "L", N_ ("side by side over"), sw_asked_number (asked, "length"), "m");
  double own = sw_working_given (working, "n", N_ ("circuits in the conduit"), sw_asked_number (asked, "own"), "");
  double others = sw_working_given (working, "m", N_ ("circuits in those beside it"), sw_asked_number (asked, "others"), "");
  sw_working_rule (working, "f", N_ ("diameters that part them"), &diameters);
  sw_working_rule (working, "Lg", N_ ("side by side for no longer does not count"), &least);
  double apart = sw_working_answer (working, "ag", N_ ("clear that parts them"), "f D", diameters.value * od, "mm");
  SwRuleValue light = sw_rules_value (rules, "circuit.bunching", "light_percent");
  double few = sw_working_given (working, "l", N_ ("of these, circuits that carry little"), sw_asked_number (asked, "light"), "");
  sw_working_rule (working, "p", N_ ("of their rating in the group, at most, so that they are left out of it"), &light);
  few = light.value > 0 ? fmin (few, others) : 0;
  gboolean together = clear <= apart + 1e-9 && 1000 * length > least.value;
  double circuits = sw_working_answer (working, "N", N_ ("circuits together"), together ? few > 0 ? "n + m − l" : "n + m" : "n", together ? own + others - few : own, "");
  if (!sw_rules_lookup_at (rules, "circuit.grouping_bunched", circuits, SW_RULE_NEXT_LARGER, "factor", &group, error))
    return FALSE;
  sw_working_rule (working, "kg", N_ ("factor of grouping"), &group);
  sw_working_say (working, together ? SW_VERDICT_BAD : SW_VERDICT_GOOD, together ? N_ ("They warm each other and count as one group.") : N_ ("They count each for itself."));
  return TRUE;
}

/* ---- load */

static const SwAskInput load_inputs[] = {
  SW_ASK ("watts", N_ ("all that is on at once"), "W", 0.1, 1000000, ""),
  SW_ASK_ONE_OF ("phases", N_ ("phases"), "1|3", "1"),
  SW_ASK ("factor", N_ ("power factor"), "", 0.1, 1, "1"),
  SW_ASK ("protection", N_ ("rating of fuse or breaker (0: not chosen)"), "A", 0, 1000, "0"),
};

static gboolean
answer_load (const SwAsked *asked, SwWorking *working, GError **error)
{
  gboolean three = sw_asked_word (asked, "phases")[0] == '3';
  SwRuleValue volts = sw_rules_value (sw_asked_rules (asked), "circuit.supply", three ? "three_phase_v" : "single_phase_v");
  double watts = sw_working_given (working, "P", N_ ("all that is on at once"), sw_asked_number (asked, "watts"), "W");
  double factor = sw_working_given (working, "φ", N_ ("power factor"), sw_asked_number (asked, "factor"), ""), breaker = sw_asked_number (asked, "protection");
  sw_working_rule (working, "U", N_ ("supply"), &volts);
  double amps = sw_working_answer (working, "Ib", N_ ("design current"), three ? "P/(√3 U φ)" : "P/(U φ)", watts / (volts.value * factor * (three ? sqrt (3) : 1)), "A");
  if (breaker <= 0)
    return TRUE;
  sw_working_given (working, "In", N_ ("rating of fuse or breaker"), breaker, "A");
  sw_working_say (working, amps <= breaker + 1e-9 ? SW_VERDICT_GOOD : SW_VERDICT_BAD,
                  amps <= breaker + 1e-9 ? N_ ("Fuse or breaker carries it; the cable has to carry their rating.") : N_ ("It is more than fuse or breaker carries: split the circuit."));
  return TRUE;
}

/* ---- power and data */

static const SwAskInput apart_inputs[] = {
  SW_ASK_ONE_OF ("cable", N_ ("data cable"), "category-7-screened|category-6-screened|category-5e-screened|category-6-unscreened|category-5e-unscreened|unknown", "unknown"),
  SW_ASK_ONE_OF ("between", N_ ("what the power cables lie in"), "none|open|perforated|solid", "none"),
  SW_ASK ("circuits", N_ ("power circuits of 230 V and 20 A"), "", 1, 1000, "1"),
};

static gboolean
answer_apart (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRules *rules = sw_asked_rules (asked);
  SwRuleValue class, distance, factor;
  g_autofree char *column = g_strconcat (sw_asked_word (asked, "between"), "_mm", NULL);
  double circuits = sw_working_given (working, "N", N_ ("power circuits"), sw_asked_number (asked, "circuits"), "");
  if (!sw_rules_lookup (rules, "segregation.classes", sw_asked_word (asked, "cable"), "class", &class, error)
      || !sw_rules_lookup (rules, "segregation.distance", class.text, column, &distance, error)
      || !sw_rules_lookup_at (rules, "segregation.circuits", circuits, SW_RULE_NEXT_LARGER, "factor", &factor, error))
    return FALSE;
  sw_working_rule (working, "S", N_ ("distance for the cable's class"), &distance);
  sw_working_rule (working, "P", N_ ("factor of the circuits"), &factor);
  sw_working_answer (working, "a", N_ ("power and data stay apart"), "S P", distance.value * factor.value, "mm");
  return TRUE;
}

/* ---- cable for a way */

static const SwAskInput cable_inputs[] = {
  SW_ASK ("length", N_ ("length of the conduit"), "m", 0.1, 10000, ""),
  SW_ASK ("boxes", N_ ("boxes on the way and at its ends"), "", 0, 1000, "2"),
  SW_ASK ("boards", N_ ("ends at a distribution board"), "", 0, 2, "0"),
  SW_ASK ("cores", N_ ("wires in it"), "", 1, 100, "3"),
};

static gboolean
answer_cable (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRuleValue box = sw_rules_value (sw_asked_rules (asked), "cable.allowance", "box_mm"), board = sw_rules_value (sw_asked_rules (asked), "cable.allowance", "board_mm");
  double length = sw_working_given (working, "L", N_ ("length of the conduit"), sw_asked_number (asked, "length"), "m");
  double boxes = sw_working_given (working, "B", N_ ("boxes"), sw_asked_number (asked, "boxes"), "");
  double boards = sw_working_given (working, "D", N_ ("ends at a board"), sw_asked_number (asked, "boards"), "");
  double cores = sw_working_given (working, "n", N_ ("wires in it"), sw_asked_number (asked, "cores"), "");
  sw_working_rule (working, "b", N_ ("wire left at a box"), &box);
  sw_working_rule (working, "d", N_ ("wire left at a board"), &board);
  double one = sw_working_answer (working, "l", N_ ("each wire"), "L + (B b + D d)/1000", length + (boxes * box.value + boards * board.value) / 1000, "m");
  sw_working_answer (working, "Σl", N_ ("all wires"), "n l", cores * one, "m");
  return TRUE;
}

const SwQuestion sw_circuits_circuit_questions[] = {
  SW_QUESTION (N_ ("Circuit"), "circuit", N_ ("Cable and longest circuit"), N_ ("Least conductor that carries a load after grouping and air and keeps the volt drop, and the longest circuit with each size."), circuit_inputs, answer_circuit),
  SW_QUESTION (N_ ("Circuit"), "conduits-beside", N_ ("Conduits beside each other"), N_ ("Whether conduits side by side count as one group of circuits, and the factor for it."), beside_inputs, answer_beside),
  SW_QUESTION (N_ ("Circuit"), "load-current", N_ ("Current of a load"), N_ ("Design current of what is on at once, against a fuse or breaker."), load_inputs, answer_load),
  SW_QUESTION (N_ ("Circuit"), "segregation", N_ ("Data beside power"), N_ ("How far data cables stay from power."), apart_inputs, answer_apart),
  SW_QUESTION (N_ ("Circuit"), "cable-length", N_ ("Wire for a conduit"), N_ ("Length of wire with what boxes and boards need."), cable_inputs, answer_cable),
};

const guint sw_circuits_n_circuit_questions = G_N_ELEMENTS (sw_circuits_circuit_questions);
