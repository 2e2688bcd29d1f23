/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/totals_parts.h"
#include "base/text.h"

/* The kinds of totals and their sums. */

static const struct
{
  const char *key, *text, *unit;
} kinds[SW_N_TOTALS] = {
  [SW_TOTAL_SHEETS] = { "sheets", N_ ("sheets"), "" },
  [SW_TOTAL_SHEET_MASS] = { "sheet-mass", N_ ("mass of the sheets"), "kg" },
  [SW_TOTAL_BOARD_AREA] = { "board-area", N_ ("boarded area"), "m²" },
  [SW_TOTAL_BOARD_WASTE] = { "board-waste", N_ ("board left over"), "m²" },
  [SW_TOTAL_BATTEN] = { "battens", N_ ("battens"), "m" },
  [SW_TOTAL_PRIMARY] = { "primaries", N_ ("primaries"), "m" },
  [SW_TOTAL_NOGGIN] = { "noggins", N_ ("noggins"), "m" },
  [SW_TOTAL_TRIMMER] = { "trimmers", N_ ("trimmers"), "m" },
  [SW_TOTAL_PERIMETER] = { "perimeter", N_ ("battens along walls"), "m" },
  [SW_TOTAL_STUD] = { "studs", N_ ("studs of bulkheads"), "m" },
  [SW_TOTAL_STOCK] = { "stock", N_ ("stock lengths"), "" },
  [SW_TOTAL_STOCK_WASTE] = { "stock-waste", N_ ("batten lengths left over"), "m" },
  [SW_TOTAL_SCREWS] = { "screws", N_ ("board screws"), "" },
  [SW_TOTAL_SCREW_BOXES] = { "screw-boxes", N_ ("boxes of screws"), "" },
  [SW_TOTAL_JOINT_LONG] = { "joints-long", N_ ("long joints"), "m" },
  [SW_TOTAL_JOINT_END] = { "joints-end", N_ ("end joints"), "m" },
  [SW_TOTAL_JOINT_MOVEMENT] = { "joints-movement", N_ ("movement joints"), "m" },
  [SW_TOTAL_TAPE] = { "tape", N_ ("joint tape"), "m" },
  [SW_TOTAL_TAPE_ROLLS] = { "tape-rolls", N_ ("rolls of tape"), "" },
  [SW_TOTAL_COMPOUND] = { "compound", N_ ("joint compound"), "kg" },
  [SW_TOTAL_COVER_STRIP] = { "cover-strip", N_ ("cover strips"), "m" },
  [SW_TOTAL_CORNICE] = { "cornice", N_ ("cornice"), "m" },
  [SW_TOTAL_CORNICE_LENGTHS] = { "cornice-lengths", N_ ("lengths of cornice"), "" },
  [SW_TOTAL_MITRES] = { "mitres", N_ ("mitres"), "" },
  [SW_TOTAL_ADHESIVE] = { "adhesive", N_ ("cornice adhesive"), "kg" },
  [SW_TOTAL_BEAD] = { "corner-bead", N_ ("corner beads"), "m" },
  [SW_TOTAL_BEAD_LENGTHS] = { "corner-bead-lengths", N_ ("lengths of corner bead"), "" },
  [SW_TOTAL_FIXINGS] = { "fixings", N_ ("fixings to ribs"), "" },
  [SW_TOTAL_LONG_FIXINGS] = { "fixings-long", N_ ("longer fixings"), "" },
  [SW_TOTAL_HANGERS] = { "hangers", N_ ("hangers"), "" },
  [SW_TOTAL_PACKERS] = { "packers", N_ ("packed crossings"), "" },
  [SW_TOTAL_CLIPS] = { "clips", N_ ("clips of steel battens"), "" },
  [SW_TOTAL_INSULATION] = { "insulation", N_ ("insulation"), "m²" },
  [SW_TOTAL_HATCHES] = { "hatches", N_ ("access hatches"), "" },
};

const char *
sw_total_key (SwTotalKind kind)
{
  return kinds[kind].key;
}

const char *
sw_total_text (SwTotalKind kind)
{
  return kinds[kind].text;
}

const char *
sw_total_unit (SwTotalKind kind)
{
  return kinds[kind].unit;
}

void
sw_totals_add (SwTotals *totals, SwTotalKind kind, double a, double b, double length, double amount)
{
  SwTotal total = { kind, a, b, length, sw_quantity_from_double (amount) };
  if (total.quantity != 0)
    g_array_append_val (totals->totals, total);
}

SwQuantity
sw_totals_sum (const SwTotals *totals, SwTotalKind kind)
{
  SwQuantity sum = 0;
  for (guint i = 0; i < totals->totals->len; i++)
    if (g_array_index (totals->totals, SwTotal, i).kind == kind)
      sum += g_array_index (totals->totals, SwTotal, i).quantity;
  return sum;
}
