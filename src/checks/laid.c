/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a ceiling's layout found and could not mend, and boards against what is asked of them. */
#include "checks/entries.h"
#include "base/tolerance.h"
#include "ceiling/brandering.h"
#include "geometry/outline.h"

/* How a kind of mark is said. Kinds without a variant are said by other checks, or on the sheets. */
typedef struct
{
  const char *variant;
  SwSeverity severity;
  SwUnit unit;
  const char *group, *key; /* the number of the rule set behind it; NULL: none */
} Saying;

static const Saying sayings[SW_N_CEILING_MARKS] = {
  [SW_CEILING_NO_DECK] = { "no-deck", SW_SEVERITY_FIX, SW_UNIT_MM, "brandering.setout", "cantilever_mm" },
  [SW_CEILING_SPAN] = { "span", SW_SEVERITY_STOP, SW_UNIT_MM, NULL, NULL },
  [SW_CEILING_STRESS] = { "stress", SW_SEVERITY_STOP, SW_UNIT_NONE, NULL, NULL },
  [SW_CEILING_CANTILEVER] = { "cantilever", SW_SEVERITY_FIX, SW_UNIT_MM, "brandering.setout", "cantilever_mm" },
  [SW_CEILING_BOARD_UNHELD] = { "unheld", SW_SEVERITY_FIX, SW_UNIT_MM, "brandering.setout", "board_over_mm" },
  [SW_CEILING_UNSUPPORTED] = { "unsupported", SW_SEVERITY_STOP, SW_UNIT_NONE, NULL, NULL },
  [SW_CEILING_NARROW_BATTEN] = { "narrow", SW_SEVERITY_FIX, SW_UNIT_MM, "brandering.setout", "joint_width_mm" },
  [SW_CEILING_JOINT_AT_HATCH] = { "hatch", SW_SEVERITY_NOTE, SW_UNIT_MM, "board.layout", "hatch_joint_mm" },
  [SW_CEILING_STAGGER] = { "stagger", SW_SEVERITY_FIX, SW_UNIT_MM, NULL, NULL },
  [SW_CEILING_SLIVER] = { "sliver", SW_SEVERITY_NOTE, SW_UNIT_MM, "board.layout", "sliver_mm" },
  [SW_CEILING_WIDE_FIELD] = { "field", SW_SEVERITY_FIX, SW_UNIT_MM, NULL, NULL },
  [SW_CEILING_LARGE_FIELD] = { "area", SW_SEVERITY_FIX, SW_UNIT_M2, NULL, NULL },
  [SW_CEILING_LOCK_LOST] = { "lock", SW_SEVERITY_NOTE, SW_UNIT_NONE, NULL, NULL },
  [SW_CEILING_FIXING] = { "fixing", SW_SEVERITY_FIX, SW_UNIT_NONE, "brandering.fixing", "design_n" },
  [SW_CEILING_UNKNOWN_SECTION] = { "unknown", SW_SEVERITY_FIX, SW_UNIT_MM, "steel.furring", "e_mpa" },
  [SW_CEILING_SHIFT] = { "shift", SW_SEVERITY_NOTE, SW_UNIT_MM, NULL, NULL },
};

static double
excess (const SwLaidMark *mark)
{
  return fabs (mark->value - mark->limit);
}

static gboolean
has_mark (const SwLayout *layout, int kind)
{
  for (guint i = 0; i < layout->marks.n; i++)
    if (SW_LIST_AT (layout->marks, SwLaidMark, i).kind == kind)
      return TRUE;
  return FALSE;
}

/* A field that is too long is said with the reason why it was not shared. */
static const char *
variant_of (const SwLayout *layout, int kind)
{
  if (kind == SW_CEILING_WIDE_FIELD && has_mark (layout, SW_CEILING_FIELD_UNHELD))
    return "field-unheld";
  if (kind == SW_CEILING_WIDE_FIELD && has_mark (layout, SW_CEILING_FIELD_BLOCKED))
    return "field-blocked";
  return sayings[kind].variant;
}

/* What of the deck and of the rules makes the ends of battens at a movement joint find no rib. */
static void
set_ribs (const SwCheckRun *run, SwSnag *snag, SwPoint at)
{
  const SwDeckBay *bay = sw_deck_bay_at (run->deck, at);
  const SwProfile *profile = bay != NULL ? bay->profile : NULL;
  sw_check_set_param (snag, "rib", profile != NULL ? profile->pitch - profile->mouth : NAN, SW_UNIT_MM);
  sw_check_set_param (snag, "pitch", profile != NULL ? profile->pitch : NAN, SW_UNIT_MM);
  sw_check_set_param (snag, "near", sw_rules_value (run->rules, "brandering.fixing", "end_mm").value, SW_UNIT_MM);
  sw_check_set_param (snag, "far", sw_rules_value (run->rules, "brandering.setout", "cantilever_mm").value, SW_UNIT_MM);
}

/* One snag for each kind, at the worst place, with how many there are. */
static void
say_kind (SwCheckRun *run, const SwLayout *layout, const SwRoom *room, int kind)
{
  const Saying *saying = &sayings[kind];
  const SwLaidMark *worst = NULL;
  guint count = 0;
  for (guint i = 0; i < layout->marks.n; i++)
    {
      const SwLaidMark *mark = &SW_LIST_AT (layout->marks, SwLaidMark, i);
      if (mark->kind != kind)
        continue;
      count++;
      if (worst == NULL || excess (mark) > excess (worst))
        worst = mark;
    }
  if (count == 0)
    return;
  double z = sw_check_lookup_back (run->lookup, room) - sw_deck_ceiling_drop (run->deck, room, worst->at);
  SwSnag *snag = sw_check_add (run, variant_of (layout, kind), saying->severity, room->record.id, (SwPoint3){ worst->at.x, worst->at.y, z });
  SwRuleValue rule = { 0 };
  if (saying->group != NULL)
    rule = sw_rules_value (run->rules, saying->group, saying->key);
  snag->room = room->record.id;
  sw_check_set_numbers (snag, worst->limit, worst->value, saying->unit, saying->group != NULL ? &rule : NULL);
  if (kind == SW_CEILING_WIDE_FIELD && has_mark (layout, SW_CEILING_FIELD_UNHELD))
    set_ribs (run, snag, worst->at);
  else
    sw_check_set_param (snag, "count", count, SW_UNIT_NONE);
  if (kind == SW_CEILING_SHIFT)
    sw_check_set_param (snag, "cleared", worst->limit, SW_UNIT_NONE);
}

/* Sheets beside the room's own against all that the room asks of its boards: the first that does not do. */
static void
say_odd_sheet (SwCheckRun *run, const SwLayout *layout, const SwRoom *room)
{
  for (guint i = 0; i < layout->sheets.n; i++)
    {
      const SwOddSheet *odd = &SW_LIST_AT (layout->sheets, SwOddSheet, i);
      if (sw_ceiling_sheet_suits (run->rules, run->job, room, odd->length, odd->width))
        continue;
      SwPoint at = sw_outline_label_point (room->outline.items, room->outline.n);
      SwSnag *snag = sw_check_add (run, "odd", SW_SEVERITY_FIX, room->record.id, (SwPoint3){ at.x, at.y, sw_check_lookup_back (run->lookup, room) });
      snag->room = room->record.id;
      sw_check_set_param (snag, "length", odd->length, SW_UNIT_MM);
      sw_check_set_param (snag, "width", odd->width, SW_UNIT_MM);
      return;
    }
}

void
sw_check_laid_record (SwCheckRun *run, const SwRecord *record)
{
  const SwLayout *layout = (const SwLayout *) record;
  const SwRoom *room = (const SwRoom *) sw_job_get (run->job, layout->room);
  for (int kind = 0; room != NULL && room->finish == SW_FINISH_CLOSED && kind < SW_N_CEILING_MARKS; kind++)
    if (sayings[kind].variant != NULL)
      say_kind (run, layout, room, kind);
  if (room != NULL && room->finish == SW_FINISH_CLOSED)
    say_odd_sheet (run, layout, room);
}

/* ---- suspended grids */

/* A tile is lifted over its runners before it is turned out. */
void
sw_check_grid_record (SwCheckRun *run, const SwRecord *record)
{
  const SwRoom *room = (const SwRoom *) record;
  SwRuleValue least = sw_rules_value (run->rules, "ceiling.suspended", "drop_least_mm"), good = sw_rules_value (run->rules, "ceiling.suspended", "drop_good_mm");
  if (room->finish != SW_FINISH_GRID || room->grid_drop >= good.value - SW_TOUCH_MM)
    return;
  gboolean tight = room->grid_drop < least.value - SW_TOUCH_MM;
  SwPoint at = sw_outline_label_point (room->outline.items, room->outline.n);
  SwSnag *snag = sw_check_add (run, tight ? "least" : "good", tight ? SW_SEVERITY_FIX : SW_SEVERITY_NOTE, room->record.id,
                               (SwPoint3){ at.x, at.y, sw_check_lookup_face (run->lookup, room) });
  double wanted = tight ? least.value : good.value;
  snag->room = room->record.id;
  sw_check_set_numbers (snag, wanted, room->grid_drop, SW_UNIT_MM, tight ? &least : &good);
  sw_check_set_missing (snag, wanted - room->grid_drop, (SwPoint3){ 0, 0, -1 });
}

/* ---- boards */

static SwSnag *
add_for_board (SwCheckRun *run, const SwRoom *room, const char *variant, SwSeverity severity)
{
  SwPoint at = sw_outline_label_point (room->outline.items, room->outline.n);
  SwSnag *snag = sw_check_add (run, variant, severity, room->record.id, (SwPoint3){ at.x, at.y, sw_check_lookup_back (run->lookup, room) });
  snag->room = room->record.id;
  return snag;
}

static void
check_length (SwCheckRun *run, const SwRoom *room)
{
  if (room->sheet_most > 0 && room->board_length > room->sheet_most + SW_TOUCH_MM)
    sw_check_set_numbers (add_for_board (run, room, "long", SW_SEVERITY_FIX), room->sheet_most, room->board_length, SW_UNIT_MM, NULL);
}

static gboolean
has_sheet_price (const SwJob *job, const SwRoom *room)
{
  g_autofree char *start = sw_ceiling_board_code (room, FALSE);
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_PRICE); (record = sw_job_iter_next (&i)) != NULL;)
    if (g_str_has_prefix (record->tag, start))
      return TRUE;
  return FALSE;
}

/* The rule set knows what a board adds; a ceiling's rating is that of a tested system, whatever the boards. */
void
sw_check_board_record (SwCheckRun *run, const SwRecord *record)
{
  const SwRoom *room = (const SwRoom *) record;
  SwRuleValue wet, fire;
  if (room->finish != SW_FINISH_CLOSED)
    return;
  check_length (run, room);
  if (room->sheet_choice == SW_SHEET_CHEAPEST && !has_sheet_price (run->job, room))
    sw_check_set_numbers (add_for_board (run, room, "unpriced", SW_SEVERITY_NOTE), NAN, NAN, SW_UNIT_NONE, NULL);
  if (room->wet && sw_ceiling_board_limit (run->rules, run->job, room, "wet", &wet) && wet.value == 0)
    sw_check_set_numbers (add_for_board (run, room, "wet", SW_SEVERITY_FIX), NAN, NAN, SW_UNIT_NONE, &wet);
  if (room->fire_minutes <= 0)
    return;
  gboolean known = sw_ceiling_board_limit (run->rules, run->job, room, "fire_min", &fire), less = known && fire.value < room->fire_minutes;
  SwSnag *snag = add_for_board (run, room, less ? "fire" : "tested", less ? SW_SEVERITY_FIX : SW_SEVERITY_NOTE);
  sw_check_set_numbers (snag, room->fire_minutes, known ? fire.value : NAN, SW_UNIT_MINUTE, known ? &fire : NULL);
}
