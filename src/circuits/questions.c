/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "circuits/questions.h"
#include "base/error.h"
#include "base/text.h"
#include "circuits/bends.h"
#include "circuits/fill.h"
#include "circuits/growth.h"
#include "circuits/pull.h"
#include "circuits/units.h"
#include "circuits/voltdrop.h"
#include <math.h>
#include <string.h>

/* ---- conduit by the space factor */

static const SwAskInput fill_inputs[] = {
  SW_ASK_MANY ("cables", N_ ("outside diameters of the cables, or their mm² with \"by\", as in 6x3.5"), "", 0.5, 400, ""),
  SW_ASK_ONE_OF ("by", N_ ("the numbers are diameters, or mm² of solid or stranded singles or of flat twin and earth"), "diameter|solid|stranded|flat", "diameter"),
  SW_ASK_ONE_OF ("material", N_ ("conduit"), "pvc|steel", "pvc"),
};

static const char *
bore_column (const SwAsked *asked)
{
  return sw_asked_word (asked, "material")[0] == 's' ? "bore_steel_mm" : "bore_pvc_mm";
}

/* Area of one cable, asked for by its diameter or its mm². A flat one counts as an ellipse at its largest. */
static gboolean
cable_area (const SwAsked *asked, double cable, SwRuleValue *size, double *area, GError **error)
{
  const char *by = sw_asked_word (asked, "by"), *column = strcmp (by, "solid") == 0 ? "solid_mm" : "stranded_mm";
  SwRuleValue width;
  *area = sw_circuits_round_area (cable);
  if (by[0] == 'd')
    return TRUE;
  if (by[0] != 'f')
    {
      gboolean known = sw_rules_lookup_at (sw_asked_rules (asked), "cable.singles", cable, SW_RULE_EXACT, column, size, error);
      *area = known ? sw_circuits_round_area (size->value) : NAN;
      return known;
    }
  if (!sw_rules_lookup_at (sw_asked_rules (asked), "cable.flat", cable, SW_RULE_EXACT, "thickness_high_mm", size, error)
      || !sw_rules_lookup_at (sw_asked_rules (asked), "cable.flat", cable, SW_RULE_EXACT, "width_high_mm", &width, error))
    return FALSE;
  *area = sw_circuits_flat_area (width.value, size->value);
  return TRUE;
}

/* All of them; the sizes that were looked up are quoted, each once. */
static gboolean
cables_area (const SwAsked *asked, SwWorking *working, double *area, double *first, GError **error)
{
  guint n;
  const double *cables = sw_asked_list (asked, "cables", &n);
  gboolean looked_up = sw_asked_word (asked, "by")[0] != 'd';
  *area = 0;
  for (guint i = 0; i < n; i++)
    {
      SwRuleValue size;
      double one;
      if (!cable_area (asked, cables[i], &size, &one, error))
        return FALSE;
      if (looked_up && (i == 0 || cables[i] != cables[i - 1]))
        sw_working_rule (working, "D", sw_asked_word (asked, "by")[0] == 'f' ? N_ ("thickness of a flat cable") : N_ ("outside diameter of a cable"), &size);
      if (i == 0)
        *first = looked_up ? sqrt (4 * one / G_PI) : cables[0];
      *area += one;
    }
  return TRUE;
}

/* The least conduit of the table whose bore takes the area at the space factor. */
static gboolean
least_conduit (const SwAsked *asked, double area, double share, double *size, SwRuleValue *bore)
{
  const SwRules *rules = sw_asked_rules (asked);
  for (guint i = 0; i < sw_rules_n_rows (rules, "conduit.sizes"); i++)
    if (sw_rules_lookup (rules, "conduit.sizes", sw_rules_row_key (rules, "conduit.sizes", i), bore_column (asked), bore, NULL)
        && sw_circuits_fill_share (&area, 1, sw_circuits_round_area (bore->value)) <= share)
      {
        *size = sw_rules_row_number (rules, "conduit.sizes", i);
        return TRUE;
      }
  return FALSE;
}

/* Three like cables in a bore near three times theirs wedge in a bend. */
static void
look_for_jam (const SwAsked *asked, SwWorking *working, double cable, double bore)
{
  guint n;
  const double *cables = sw_asked_list (asked, "cables", &n);
  SwRuleValue low = sw_rules_value (sw_asked_rules (asked), "conduit.fill", "jam_low");
  SwRuleValue high = sw_rules_value (sw_asked_rules (asked), "conduit.fill", "jam_high");
  SwRuleValue factor = sw_rules_value (sw_asked_rules (asked), "conduit.fill", "jam_bore_factor");
  if (n != 3 || cables[0] != cables[1] || cables[1] != cables[2] || sw_asked_word (asked, "by")[0] == 'f')
    return;
  double ratio = sw_circuits_jam_ratio (bore, cable, factor.value);
  sw_working_rule (working, "f", N_ ("the bore counts this many times"), &factor);
  sw_working_step (working, "J", N_ ("jam ratio"), "f d/D", ratio, "");
  if (ratio >= low.value && ratio <= high.value)
    sw_working_say (working, SW_VERDICT_BAD, N_ ("Three such cables can jam in a bend of this conduit: take another size."));
}

static gboolean
answer_fill (const SwAsked *asked, SwWorking *working, GError **error)
{
  guint n;
  SwRuleValue share = sw_rules_value (sw_asked_rules (asked), "conduit.fill", "space_factor_percent"), bore;
  double area, size, cable = 0;
  sw_asked_list (asked, "cables", &n);
  sw_working_given (working, "N", N_ ("cables"), n, "");
  if (!cables_area (asked, working, &area, &cable, error))
    return FALSE;
  sw_working_step (working, "a", N_ ("their area"), sw_asked_word (asked, "by")[0] == 'f' ? "Σ π/4 width · thickness" : "Σ π D²/4", area, "mm2");
  sw_working_rule (working, "q", N_ ("space factor"), &share);
  if (!least_conduit (asked, area, share.value / 100, &size, &bore))
    {
      g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, "no conduit of the table is large enough: use two, or trunking");
      return FALSE;
    }
  sw_working_answer (working, "size", N_ ("smallest conduit"), "a ≤ q π d²/4", size, "mm");
  sw_working_rule (working, "d", N_ ("its bore"), &bore);
  sw_working_answer (working, "fill", N_ ("filled"), "a/(π d²/4)", area / sw_circuits_round_area (bore.value) * 100, "%");
  look_for_jam (asked, working, cable, bore.value);
  return TRUE;
}

/* ---- conductors by count */

static const SwAskInput count_inputs[] = {
  SW_ASK ("bore-area", N_ ("inside area of the conduit, in any unit"), "", 1e-6, 1e9, ""),
  SW_ASK ("wire-area", N_ ("area of one wire, in the same unit"), "", 1e-6, 1e9, ""),
};

static gboolean
count_limits (const SwAsked *asked, SwWorking *working, SwFillByCount *limits, GError **error)
{
  static const struct { const char *key, *symbol, *what; gsize offset; double scale; } keys[] = {
    { "one_percent", "q₁", N_ ("one conductor"), G_STRUCT_OFFSET (SwFillByCount, one), 0.01 },
    { "two_percent", "q₂", N_ ("two conductors"), G_STRUCT_OFFSET (SwFillByCount, two), 0.01 },
    { "three_percent", "q₃", N_ ("three and more"), G_STRUCT_OFFSET (SwFillByCount, three), 0.01 },
    { "round_up_at", "r", N_ ("a part of a conductor from which the count rounds up"), G_STRUCT_OFFSET (SwFillByCount, round_up_at), 1 },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (keys); i++)
    {
      SwRuleValue rule;
      if (!sw_rules_number (sw_asked_rules (asked), "conduit.fill_count", keys[i].key, &rule, error))
        return FALSE;
      G_STRUCT_MEMBER (double, limits, keys[i].offset) = sw_working_rule (working, keys[i].symbol, keys[i].what, &rule) * keys[i].scale;
    }
  return TRUE;
}

static gboolean
answer_count (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwFillByCount limits = { 0 };
  double bore = sw_working_given (working, "A", N_ ("inside area of the conduit"), sw_asked_number (asked, "bore-area"), "");
  double wire = sw_working_given (working, "a", N_ ("area of one wire"), sw_asked_number (asked, "wire-area"), "");
  if (!count_limits (asked, working, &limits, error))
    return FALSE;
  sw_working_answer (working, "N", N_ ("like conductors"), "⌊q A/a + 1 − r⌋, q by the number itself", sw_circuits_fill_count (&limits, bore, wire), "");
  return TRUE;
}

/* ---- trade sizes by gauges */

static const SwAskInput trade_inputs[] = {
  SW_ASK_MANY_OF ("wires", N_ ("building wires by gauge, or their area in in², as in 3x12, 4x10, 1/0"), "", 1e-4, 10, "cable.wire_areas", "area_in2"),
  SW_ASK_ONE_OF ("nipple", N_ ("a short nipple between two boxes?"), "no|yes", "no"),
};

/* Whether the conduit takes the wires: like ones by their number, mixed ones by their area. */
static gboolean
trade_takes (const SwFillByCount *limits, const double *wires, guint n, double share, double bore)
{
  gboolean like = TRUE;
  for (guint i = 1; i < n; i++)
    like &= wires[i] == wires[0];
  if (share > 0)
    return sw_circuits_fill_share (wires, n, bore) <= share;
  if (like)
    return sw_circuits_fill_count (limits, bore, wires[0]) >= (int) n;
  return sw_circuits_fill_share (wires, n, bore) <= sw_circuits_fill_limit (limits, n);
}

static gboolean
answer_trade (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRules *rules = sw_asked_rules (asked);
  SwFillByCount limits = { 0 };
  SwRuleValue area, nipple;
  guint n;
  double share = 0;
  const double *wires = sw_asked_list (asked, "wires", &n);
  sw_working_given (working, "N", N_ ("wires"), n, "");
  double sum = sw_asked_quote (asked, "wires", working, "a", N_ ("area of one wire"));
  sw_working_answer (working, "Σa", N_ ("area of all wires"), "Σ a", sum, "in2");
  if (!count_limits (asked, working, &limits, error))
    return FALSE;
  if (sw_asked_word (asked, "nipple")[0] == 'y')
    {
      if (!sw_rules_number (rules, "conduit.fill_count", "nipple_percent", &nipple, error))
        return FALSE;
      share = sw_working_rule (working, "q₄", N_ ("a nipple"), &nipple) / 100;
    }
  for (guint i = 0; i < sw_rules_n_rows (rules, "conduit.trade_sizes"); i++)
    {
      const char *row = sw_rules_row_key (rules, "conduit.trade_sizes", i);
      if (!sw_rules_lookup (rules, "conduit.trade_sizes", row, "area_in2", &area, NULL) || !trade_takes (&limits, wires, n, share, area.value))
        continue;
      sw_working_rule (working, "A", N_ ("inside area of the conduit"), &area);
      sw_working_step (working, "fill", N_ ("how full it is"), "100 Σa/A", 100 * sum / area.value, "%");
      sw_working_answer_word (working, "size", N_ ("smallest conduit, in"), "Σa ≤ q A, like wires by their number", row);
      return TRUE;
    }
  g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, "no conduit of conduit.trade_sizes is large enough: use two");
  return FALSE;
}

/* ---- conduit by unit factors */

static const SwAskInput unit_inputs[] = {
  SW_ASK_MANY ("cables", N_ ("cables by their mm², as in 6x4"), "mm2", 0.5, 400, ""),
  SW_ASK ("length", N_ ("length of the run"), "m", 0.1, 1000, ""),
  SW_ASK ("bends", N_ ("quarter bends"), "", 0, 20, "0"),
  SW_ASK_ONE_OF ("strands", N_ ("conductors"), "stranded|solid", "stranded"),
};

static gboolean
sum_factors (const SwAsked *asked, SwWorking *working, gboolean is_short, double *sum, GError **error)
{
  guint n;
  const double *cables = sw_asked_list (asked, "cables", &n);
  *sum = 0;
  for (guint i = 0; i < n; i++)
    {
      SwRuleValue factor;
      if (!sw_circuits_units_cable (sw_asked_rules (asked), cables[i], sw_asked_word (asked, "strands")[1] == 'o', is_short, &factor, error))
        return FALSE;
      if (i == 0 || cables[i] != cables[i - 1])
        sw_working_rule (working, "c", N_ ("factor of one cable"), &factor);
      *sum += factor.value;
    }
  return TRUE;
}

static gboolean
answer_units (const SwAsked *asked, SwWorking *working, GError **error)
{
  static const double sizes[] = { 16, 20, 25, 32 };
  const SwRules *rules = sw_asked_rules (asked);
  double length = sw_working_given (working, "L", N_ ("length of the run"), sw_asked_number (asked, "length"), "m"), sum;
  guint bends = (guint) sw_working_given (working, "B", N_ ("quarter bends"), sw_asked_number (asked, "bends"), "");
  gboolean is_short = sw_circuits_units_is_short (rules, length, bends, NULL);
  SwRuleValue factor;
  if (!sum_factors (asked, working, is_short, &sum, error))
    return FALSE;
  sw_working_step (working, "Σc", N_ ("factors of all cables"), "Σ c", sum, "");
  for (gsize i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      if (!sw_circuits_units_conduit (rules, sizes[i], length, bends, is_short, &factor, error))
        return FALSE;
      if (factor.value < sum)
        continue;
      sw_working_rule (working, "C", N_ ("factor of the conduit"), &factor);
      sw_working_answer (working, "size", N_ ("smallest conduit"), "Σc ≤ C", sizes[i], "mm");
      return TRUE;
    }
  g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, "no conduit of the table is large enough: use two, or put in a draw box");
  return FALSE;
}

/* ---- bends */

static const SwAskInput offset_inputs[] = {
  SW_ASK ("height", N_ ("offset"), "mm", 1, 5000, ""),
  SW_ASK ("angle", N_ ("angle of the bends"), "°", 1, 89, "30"),
};

static gboolean
answer_offset (const SwAsked *asked, SwWorking *working, GError **error)
{
  double height = sw_working_given (working, "h", N_ ("offset"), sw_asked_number (asked, "height"), "mm");
  double angle = sw_working_given (working, "φ", N_ ("angle of the bends"), sw_asked_number (asked, "angle"), "°");
  SwOffsetBend bend = sw_circuits_offset (height, angle);
  SwRuleValue factor;
  sw_working_answer (working, "m", N_ ("distance between the marks"), "h/sin φ", bend.between, "mm");
  sw_working_answer (working, "p", N_ ("length that it covers"), "h/tan φ", bend.advance, "mm");
  sw_working_answer (working, "s", N_ ("shrink"), "h tan(φ/2)", bend.shrink, "mm");
  sw_working_step (working, "Σφ", N_ ("turn of a dip and back up, of what may be drawn through"), "4 φ", sw_circuits_dip_turn (angle), "°");
  if (sw_rules_lookup_at (sw_asked_rules (asked), "conduit.offsets", angle, SW_RULE_EXACT, "distance_factor", &factor, NULL))
    {
      sw_working_rule (working, "F", N_ ("factor as used on site"), &factor);
      sw_working_step (working, "m'", N_ ("distance between the marks as used on site"), "F h", factor.value * height, "mm");
    }
  return TRUE;
}

static const SwAskInput arc_inputs[] = {
  SW_ASK ("radius", N_ ("radius of the centre line"), "mm", 1, 10000, ""),
  SW_ASK ("angle", N_ ("angle of the bend"), "°", 1, 179, "90"),
};

static gboolean
answer_arc (const SwAsked *asked, SwWorking *working, GError **error)
{
  double radius = sw_working_given (working, "R", N_ ("radius of the centre line"), sw_asked_number (asked, "radius"), "mm");
  double angle = sw_working_given (working, "φ", N_ ("angle of the bend"), sw_asked_number (asked, "angle"), "°");
  sw_working_answer (working, "b", N_ ("length of the arc"), "π R φ/180", sw_circuits_bend_arc (radius, angle), "mm");
  sw_working_answer (working, "g", N_ ("gain against the two legs"), "2 R tan(φ/2) − b", sw_circuits_bend_gain (radius, angle), "mm");
  return TRUE;
}

/* ---- crossing a rib */

static const SwAskInput turns_inputs[] = {
  SW_ASK ("drop", N_ ("from the conduit's level in the void down to its level below the rib"), "mm", 1, 2000, "150"),
  SW_ASK ("set", N_ ("length across over which it goes down, and up again"), "mm", 1, 5000, "200"),
  SW_ASK ("below", N_ ("level length below the rib"), "mm", 1, 5000, "200"),
  SW_ASK_ONE_OF ("way", N_ ("it comes along the void, or from across it already"), "along|across", "along"),
};

static gboolean
answer_turns (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRules *rules = sw_asked_rules (asked);
  SwRuleValue bends = sw_rules_value (rules, "conduit.draw", "note_bends"), stop = sw_rules_value (rules, "conduit.draw", "stop_degree");
  double h = sw_working_given (working, "h", N_ ("drop"), sw_asked_number (asked, "drop"), "mm"), a = sw_working_given (working, "a", N_ ("length of a set"), sw_asked_number (asked, "set"), "mm");
  double b = sw_working_given (working, "b", N_ ("level length below the rib"), sw_asked_number (asked, "below"), "mm");
  gboolean along = sw_asked_word (asked, "way")[1] == 'l';
  double far = 1000; /* any length: the angles do not depend on it */
  const SwPoint3 way[] = {
    { along ? -far : 0, along ? 0 : -far, 0 }, { 0, 0, 0 }, { 0, a, -h }, { 0, a + b, -h }, { 0, 2 * a + b, 0 }, { along ? far : 0, 2 * a + b + (along ? 0 : far), 0 },
  };
  sw_working_step (working, "φ₁", N_ ("turn into the set, in space"), "between the two directions", sw_circuits_turn (way[0], way[1], way[2]), "°");
  sw_working_step (working, "φ₂", N_ ("turn out of it"), "atan(h/a)", sw_circuits_turn (way[1], way[2], way[3]), "°");
  double sum = sw_working_answer (working, "Σφ", N_ ("turned in all"), "2 φ₁ + 2 φ₂", sw_circuits_turns (way, G_N_ELEMENTS (way)), "°");
  sw_working_rule (working, "B", N_ ("quarter bends between draw points"), &bends);
  sw_working_rule (working, "φmax", N_ ("most that is drawn through"), &stop);
  gboolean good = sum <= 90 * bends.value + 0.01;
  sw_working_say (working, good ? SW_VERDICT_GOOD : SW_VERDICT_BAD,
                  good ? N_ ("It draws without a box.")
                  : sum <= stop.value ? N_ ("Put a box beside the rib.") : N_ ("It cannot be drawn through: put a box on each side of the rib."));
  return TRUE;
}

static const SwAskInput radius_inputs[] = {
  SW_ASK ("od", N_ ("outside diameter of the cable"), "mm", 1, 200, ""),
  SW_ASK_ONE_OF ("kind", N_ ("cable"), "pvc|armoured|data-fixed|data-pulling", "pvc"),
};

static gboolean
answer_radius (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRules *rules = sw_asked_rules (asked);
  const char *kind = sw_asked_word (asked, "kind");
  SwRuleValue times;
  double od = sw_working_given (working, "D", N_ ("outside diameter of the cable"), sw_asked_number (asked, "od"), "mm");
  if (!(kind[0] == 'p' ? sw_rules_lookup_at (rules, "cable.bends", od, SW_RULE_NEXT_LARGER, "diameters", &times, error)
                       : sw_rules_lookup (rules, "cable.bends_other", kind, "diameters", &times, error)))
    return FALSE;
  sw_working_rule (working, "k", N_ ("radius in diameters"), &times);
  sw_working_answer (working, "r", N_ ("least inside radius"), "k D", times.value * od, "mm");
  return TRUE;
}

/* ---- volt drop */

static const SwAskInput drop_inputs[] = {
  SW_ASK ("mm2", N_ ("conductor"), "mm2", 0.5, 400, "2.5"),
  SW_ASK ("amps", N_ ("design current"), "A", 0.01, 1000, ""),
  SW_ASK ("length", N_ ("length of the circuit"), "m", 0.1, 10000, ""),
  SW_ASK_ONE_OF ("phases", N_ ("phases"), "1|3", "1"),
  SW_ASK_ONE_OF ("use", N_ ("circuit"), "power|lighting", "power"),
  SW_ASK_ONE_OF ("insulation", N_ ("insulation"), "pvc|thermosetting", "pvc"),
};

static gboolean
answer_drop (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRules *rules = sw_asked_rules (asked);
  gboolean three = sw_asked_word (asked, "phases")[0] == '3';
  const char *table = sw_asked_word (asked, "insulation")[0] == 't' ? "circuit.drop_thermosetting" : "circuit.drop_pvc";
  SwRuleValue limit = sw_rules_value (rules, "circuit.limits", sw_asked_word (asked, "use")[0] == 'l' ? "lighting_percent" : "power_percent");
  SwRuleValue volts = sw_rules_value (rules, "circuit.supply", three ? "three_phase_v" : "single_phase_v"), each;
  sw_working_given (working, "A", N_ ("conductor"), sw_asked_number (asked, "mm2"), "mm2");
  double amps = sw_working_given (working, "I", N_ ("design current"), sw_asked_number (asked, "amps"), "A");
  double length = sw_working_given (working, "L", N_ ("length of the circuit"), sw_asked_number (asked, "length"), "m");
  if (!sw_rules_lookup_at (rules, table, sw_asked_number (asked, "mm2"), SW_RULE_EXACT, three ? "three_phase_mv" : "single_phase_mv", &each, error))
    return FALSE;
  sw_working_rule (working, "u", N_ ("drop of one ampere and metre"), &each);
  sw_working_rule (working, "U", N_ ("supply"), &volts);
  sw_working_rule (working, "e", N_ ("most that is allowed"), &limit);
  double drop = sw_working_answer (working, "ΔU", N_ ("volt drop"), "u I L/1000", sw_circuits_volt_drop (each.value, amps, length), "V");
  double percent = sw_working_answer (working, "ΔU%", N_ ("of the supply"), "100 ΔU/U", sw_circuits_volt_drop_percent (drop, volts.value), "%");
  sw_working_answer (working, "Lmax", N_ ("longest circuit"), "e U/100 · 1000/(u I)", sw_circuits_volt_drop_length (each.value, amps, volts.value, limit.value), "m");
  sw_working_say (working, percent <= limit.value ? SW_VERDICT_GOOD : SW_VERDICT_BAD,
                  percent <= limit.value ? N_ ("The drop is allowed.") : N_ ("The drop is too large."));
  return TRUE;
}

/* ---- rating */

static const SwAskInput rating_inputs[] = {
  SW_ASK ("amps", N_ ("rating from the table"), "A", 0.1, 5000, ""),
  SW_ASK ("circuits", N_ ("circuits in the conduit"), "", 1, 20, "1"),
  SW_ASK ("air", N_ ("air around it"), "°C", -20, 100, "30"),
};

static gboolean
answer_rating (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRules *rules = sw_asked_rules (asked);
  SwRuleValue group, air;
  double amps = sw_working_given (working, "I₀", N_ ("rating from the table"), sw_asked_number (asked, "amps"), "A");
  double circuits = sw_working_given (working, "N", N_ ("circuits in the conduit"), sw_asked_number (asked, "circuits"), "");
  double degrees = sw_working_given (working, "Ta", N_ ("air around it"), sw_asked_number (asked, "air"), "°C");
  SwRuleValue base = sw_rules_value (rules, "circuit.supply", "base_c");
  if (!sw_rules_lookup_at (rules, "circuit.grouping_bunched", circuits, SW_RULE_NEXT_LARGER, "factor", &group, error))
    return FALSE;
  double factors[2] = { sw_working_rule (working, "kg", N_ ("factor of grouping"), &group), 1 };
  if (degrees == base.value)
    sw_working_rule (working, "T₀", N_ ("air of the table's ratings"), &base);
  else if (!sw_rules_lookup_at (rules, "circuit.ambient", degrees, SW_RULE_LINEAR, "factor", &air, error))
    return FALSE;
  else
    factors[1] = sw_working_rule (working, "ka", N_ ("factor of the air"), &air);
  sw_working_answer (working, "Iz", N_ ("rating here"), "I₀ kg ka", sw_circuits_derated (amps, factors, 2), "A");
  return TRUE;
}

/* ---- pulling in */

static const SwAskInput pull_inputs[] = {
  SW_ASK ("before", N_ ("pull before"), "N", 0, 1e6, "0"),
  SW_ASK ("weight", N_ ("weight of the cables"), "N/m", 0, 1e4, ""),
  SW_ASK ("length", N_ ("straight length"), "m", 0, 1e4, ""),
  SW_ASK ("turn", N_ ("turn of all bends after it"), "°", 0, 3600, "90"),
};

static gboolean
answer_pull (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRuleValue mu = sw_rules_value (sw_asked_rules (asked), "conduit.pull", "friction");
  double before = sw_working_given (working, "T₁", N_ ("pull before"), sw_asked_number (asked, "before"), "N");
  double weight = sw_working_given (working, "w", N_ ("weight of the cables"), sw_asked_number (asked, "weight"), "N/m");
  double length = sw_working_given (working, "L", N_ ("straight length"), sw_asked_number (asked, "length"), "m");
  double turn = sw_working_given (working, "φ", N_ ("turn of all bends after it"), sw_asked_number (asked, "turn"), "°");
  sw_working_rule (working, "μ", N_ ("friction"), &mu);
  double straight = sw_working_step (working, "T₂", N_ ("after the straight length"), "T₁ + μ w L", sw_circuits_pull_straight (before, mu.value, weight, length), "N");
  sw_working_answer (working, "T₃", N_ ("after the bends"), "T₂ e^(μ φ π/180)", sw_circuits_pull_bend (straight, mu.value, turn), "N");
  return TRUE;
}

/* ---- growth */

static const SwAskInput growth_inputs[] = {
  SW_ASK_ONE_OF ("material", N_ ("conduit"), "pvc|steel", "pvc"),
  SW_ASK ("length", N_ ("straight length between fixed points"), "m", 0.1, 1000, ""),
  SW_ASK ("range", N_ ("temperature range (0: of a void under a roof)"), "K", 0, 100, "0"),
};

static gboolean
answer_growth (const SwAsked *asked, SwWorking *working, GError **error)
{
  SwRules *rules = sw_asked_rules (asked);
  SwRuleValue alpha, usual = sw_rules_value (rules, "conduit.growth_rules", "range_k"), limit = sw_rules_value (rules, "conduit.growth_rules", "coupling_mm");
  double length = sw_working_given (working, "L", N_ ("straight length between fixed points"), sw_asked_number (asked, "length"), "m");
  if (!sw_rules_lookup (rules, "conduit.growth", sw_asked_word (asked, "material"), "coefficient_mm_m_k", &alpha, error))
    return FALSE;
  sw_working_rule (working, "α", N_ ("growth with temperature"), &alpha);
  double range = sw_asked_number (asked, "range");
  range = range > 0 ? sw_working_given (working, "ΔT", N_ ("temperature range"), range, "K") : sw_working_rule (working, "ΔT", N_ ("temperature range of a void under a roof"), &usual);
  sw_working_rule (working, "g₀", N_ ("growth that needs an expansion coupling"), &limit);
  double growth = sw_working_answer (working, "ΔL", N_ ("growth"), "α L ΔT", sw_circuits_growth (alpha.value, length, range), "mm");
  sw_working_answer (working, "Lmax", N_ ("longest plain run"), "g₀/(α ΔT)", sw_circuits_growth_length (alpha.value, range, limit.value), "m");
  sw_working_say (working, growth < limit.value ? SW_VERDICT_GOOD : SW_VERDICT_BAD,
                  growth < limit.value ? N_ ("No expansion coupling is needed.") : N_ ("It needs an expansion coupling."));
  return TRUE;
}

const SwQuestion sw_circuits_questions[] = {
  SW_QUESTION (N_ ("Conduit"), "conduit-size", N_ ("Conduit for cables"), N_ ("Smallest conduit by the space factor, and whether three cables jam."), fill_inputs, answer_fill),
  SW_QUESTION (N_ ("Conduit"), "conduit-count", N_ ("Conductors in a conduit"), N_ ("How many like conductors a conduit takes by their number."), count_inputs, answer_count),
  SW_QUESTION (N_ ("Conduit"), "conduit-trade", N_ ("Conduit for gauges"), N_ ("Smallest thin-wall steel conduit by trade size for wires by gauge."), trade_inputs, answer_trade),
  SW_QUESTION (N_ ("Conduit"), "conduit-units", N_ ("Conduit by unit factors"), N_ ("Smallest conduit by the factors of cables and conduit, length and bends."), unit_inputs, answer_units),
  SW_QUESTION (N_ ("Conduit"), "offset-bend", N_ ("Marks of an offset bend"), N_ ("Distance of the marks and shrink of a set of two bends."), offset_inputs, answer_offset),
  SW_QUESTION (N_ ("Conduit"), "bend-arc", N_ ("Length of a bend"), N_ ("Arc of a bend and what it saves."), arc_inputs, answer_arc),
  SW_QUESTION (N_ ("Conduit"), "rib-turns", N_ ("Turns of a rib crossing"), N_ ("What a conduit turns in space when it crosses below a rib, and whether it needs a box."), turns_inputs, answer_turns),
  SW_QUESTION (N_ ("Conduit"), "cable-radius", N_ ("Bend of a cable"), N_ ("How tightly a cable may be bent."), radius_inputs, answer_radius),
  SW_QUESTION (N_ ("Conduit"), "pull", N_ ("Pull of cables"), N_ ("Pull after a straight length and bends."), pull_inputs, answer_pull),
  SW_QUESTION (N_ ("Conduit"), "growth", N_ ("Growth of conduit"), N_ ("Growth with temperature and when a coupling is needed."), growth_inputs, answer_growth),
  SW_QUESTION (N_ ("Circuit"), "volt-drop", N_ ("Volt drop"), N_ ("Volt drop of a circuit and its greatest length."), drop_inputs, answer_drop),
  SW_QUESTION (N_ ("Circuit"), "rating", N_ ("Rating of a cable"), N_ ("Rating after the factors of grouping and air."), rating_inputs, answer_rating),
};

const guint sw_circuits_n_questions = G_N_ELEMENTS (sw_circuits_questions);
