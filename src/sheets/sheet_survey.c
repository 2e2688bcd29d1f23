/* SPDX-License-Identifier: GPL-3.0-or-later */
/* As-built entry: a page for each bay (ribs, levels, void depths, plates) and each room (sides, diagonals) with what was
 * drawn, what was measured so far with its shift, and room to write the rest. Corners and sides count from 1. */
#include "base/error.h"
#include "base/number.h"
#include "sheets/sheet_room_pages.h"
#include "sheets/survey_words.h"
#include "space/survey.h"

#define LEFT_MM 128.0
#define PLAN_HIGH_MM 118.0
#define GAP 4.0
#define LEVEL_RANK 2

typedef struct
{
  SwSheetMaker *maker;
  const SwRecord *of;
  GArray *slots; /* SwSurveySlot, of it */
  GPtrArray *texts;
} Entry;

static char *
whole (const Entry *entry, double value)
{
  return sw_sheet_length (entry->maker->context, value, SW_LENGTH_BARE);
}

static char *
shift (const Entry *entry, double by)
{
  return sw_survey_shift_text (sw_sheet_job (entry->maker->context), by);
}

static double
measured_of (const SwSurveySlot *slot)
{
  return slot->measure != NULL ? slot->measure->value : NAN;
}

static void
add_number (const Entry *entry, double value)
{
  g_ptr_array_add (entry->texts, isnan (value) ? g_strdup ("") : whole (entry, value));
}

/* Drawn, measured and shift: three cells. */
static void
add_measured (const Entry *entry, const SwSurveySlot *slot, double less)
{
  double measured = measured_of (slot);
  add_number (entry, slot->drawn - less);
  add_number (entry, measured - less);
  g_ptr_array_add (entry->texts, isnan (measured) ? g_strdup ("") : shift (entry, measured - slot->drawn));
}

static const SwSurveySlot *
slot_of (const Entry *entry, SwMeasureKind kind, int number, int second)
{
  for (guint i = 0; i < entry->slots->len; i++)
    {
      const SwSurveySlot *slot = &g_array_index (entry->slots, SwSurveySlot, i);
      if (slot->key.kind == kind && slot->key.number == number && slot->key.second == second)
        return slot;
    }
  return NULL;
}

/* Where the rib's edges are drawn: "550 to 650". */
static char *
drawn_edges (const Entry *entry, const SwDeckBay *bay, int rib)
{
  double half = (bay->profile->pitch - bay->profile->mouth) / 2, middle = slot_of (entry, SW_MEASURE_RIB, rib, 0)->drawn;
  g_autofree char *low = whole (entry, middle - half), *high = whole (entry, middle + half);
  return g_strdup_printf (_("%s to %s"), low, high);
}

/* Rib by rib from the bay's lowest side: its middle and four edges, and how far its middle lies off what is drawn. */
static void
add_ribs (const Entry *entry, const SwDeckBay *bay)
{
  for (int i = 0; i < (int) bay->ribs->len; i++)
    {
      const SwRib *rib = &g_array_index (bay->ribs, SwRib, i);
      const SwSurveySlot *middle = slot_of (entry, SW_MEASURE_RIB, i, 0);
      g_ptr_array_add (entry->texts, g_strdup_printf ("%d", i));
      g_ptr_array_add (entry->texts, drawn_edges (entry, bay, i));
      for (int edge = SW_EDGE_LOW_START; edge <= SW_EDGE_HIGH_END; edge++)
        {
          const SwSurveySlot *slot = slot_of (entry, SW_MEASURE_EDGE, i, edge);
          if (slot != NULL)
            add_number (entry, measured_of (slot));
          else
            g_ptr_array_add (entry->texts, g_strdup ("–"));
        }
      add_number (entry, measured_of (middle));
      g_ptr_array_add (entry->texts, rib->measured ? shift (entry, rib->v - middle->drawn) : g_strdup (""));
    }
}

static void
add_levels (const Entry *entry, const SwDeckBay *bay)
{
  double line = sw_job_info (sw_sheet_job (entry->maker->context))->level_line;
  for (guint i = 0; i < entry->slots->len; i++)
    {
      const SwSurveySlot *slot = &g_array_index (entry->slots, SwSurveySlot, i);
      if (slot->key.kind != SW_MEASURE_LEVEL)
        continue;
      g_ptr_array_add (entry->texts, sw_survey_slot_name (slot));
      add_measured (entry, slot, line);
    }
}

/* "1350; 2850; 4350", and of those measured "1: 1362 (+12)". */
static void
add_plates (const Entry *entry, int over)
{
  GString *drawn = g_string_new (NULL), *measured = g_string_new (NULL);
  for (guint i = 0; i < entry->slots->len; i++)
    {
      const SwSurveySlot *slot = &g_array_index (entry->slots, SwSurveySlot, i);
      if (slot->key.kind != SW_MEASURE_PLATE || slot->key.number != over)
        continue;
      g_autofree char *place = whole (entry, slot->drawn), *found = slot->measure != NULL ? whole (entry, slot->measure->value) : NULL;
      g_autofree char *by = slot->measure != NULL ? shift (entry, slot->measure->value - slot->drawn) : NULL;
      g_string_append_printf (drawn, "%s%s", drawn->len > 0 ? "; " : "", place);
      if (found != NULL)
        g_string_append_printf (measured, "%s%d: %s (%s)", measured->len > 0 ? "; " : "", slot->key.second, found, by);
    }
  g_ptr_array_add (entry->texts, g_string_free (drawn, FALSE));
  g_ptr_array_add (entry->texts, g_string_free (measured, FALSE));
}

static void
add_voids (const Entry *entry, const SwDeckBay *bay)
{
  for (guint i = 0; i < bay->voids->len; i++)
    {
      const SwVoid *over = &g_array_index (bay->voids, SwVoid, i);
      const SwSurveySlot *depth = slot_of (entry, SW_MEASURE_DEPTH, over->number, 0);
      g_ptr_array_add (entry->texts, g_strdup_printf ("%d", over->number));
      add_number (entry, depth->drawn);
      add_number (entry, measured_of (depth));
      add_plates (entry, over->number);
    }
}

/* Starts with an empty array of texts; what `fill` puts there stands under the heading. The y below. */
static double
add_table (Entry *entry, SwSheetDraft *draft, SwBox area, const char *heading, const SwListColumn *columns, guint n, const SwDeckBay *bay,
           void (*fill) (const Entry *entry, const SwDeckBay *bay))
{
  g_autoptr (GPtrArray) texts = entry->texts = g_ptr_array_new_with_free_func (g_free);
  fill (entry, bay);
  SwTextList list = { columns, n, (const char *const *) texts->pdata, texts->len / n };
  return sw_sheet_add_list_on (entry->maker, draft, area, heading, entry->of->tag, &list) - GAP;
}

static void
mark_levels (const SwSheetPlan *plan, gconstpointer data)
{
  static const SwStroke cross = { .role = SW_ROLE_INK, .width = 0.35 };
  const Entry *entry = data;
  double arm = 1.5 * plan->scale;
  for (guint i = 0; i < entry->slots->len; i++)
    {
      const SwSurveySlot *slot = &g_array_index (entry->slots, SwSurveySlot, i);
      SwPoint at = slot->key.at;
      if (slot->key.kind != SW_MEASURE_LEVEL)
        continue;
      g_autofree char *name = sw_survey_slot_name (slot);
      sw_display_add_line (plan->display, (SwPoint){ at.x - arm, at.y }, (SwPoint){ at.x + arm, at.y }, &cross);
      sw_display_add_line (plan->display, (SwPoint){ at.x, at.y - arm }, (SwPoint){ at.x, at.y + arm }, &cross);
      sw_sheet_plan_add_label (plan, at, name, SW_ROLE_INK, LEVEL_RANK);
    }
}

static void
mark_corners (const SwSheetPlan *plan, gconstpointer data)
{
  const SwRoom *room = (const SwRoom *) ((const Entry *) data)->of;
  for (guint i = 0; i < room->outline.n; i++)
    {
      g_autofree char *name = g_strdup_printf ("%u", i + 1);
      sw_sheet_plan_add_label (plan, SW_LIST_AT (room->outline, SwPoint, i), name, SW_ROLE_INK, LEVEL_RANK);
    }
}

static SwDisplay *
draw_layers (const SwSheetMaker *maker, guint64 layers)
{
  SwDisplay *drawn = sw_display_new ();
  sw_plan_draw (drawn, maker->context->deck, layers);
  sw_display_seal (drawn);
  return drawn;
}

/* Plan at the left, lines to write on below it; the area at the right comes back. */
static SwBox
begin_entry (Entry *entry, SwSheetDraft **draft, const char *heading, SwBox box, guint64 layers, const char *note, SwSheetViewMark mark)
{
  SwSheetMaker *maker = entry->maker;
  const SwWriteLine lines[] = { { _("Measured by"), NULL }, { _("Date"), NULL }, { _("Instruments"), NULL }, { _("Level taken from"), NULL }, { _("Found, cast in"), NULL }, { "", NULL },
                                { _("Cracks, honeycomb"), NULL }, { _("Entered in the job"), NULL } };
  SwRuleValue rib = sw_rules_value (maker->context->rules, "deck.as_built", "rib_mm"), level = sw_rules_value (maker->context->rules, "deck.as_built", "level_mm"),
              plate = sw_rules_value (maker->context->rules, "deck.as_built", "plate_mm");
  g_autofree char *at_rib = sw_sheet_length (maker->context, rib.value, SW_LENGTH_UNIT), *at_level = sw_sheet_length (maker->context, level.value, SW_LENGTH_UNIT);
  g_autofree char *at_plate = sw_sheet_length (maker->context, plate.value, SW_LENGTH_UNIT);
  g_autofree char *unmeasured = g_strdup_printf (_("What is not measured is counted on within %s at ribs, %s at levels, %s at plates."), at_rib, at_level, at_plate);
  const char *notes[] = { note, unmeasured, _("What is measured replaces what is drawn: enter it, and every check runs again."), NULL };
  double scale = sw_sheet_fitting_scale (box, (SwBox){ { 0, 0 }, { LEFT_MM, PLAN_HIGH_MM } });
  *draft = sw_sheet_begin_page (maker, scale);
  SwBox area = sw_box_grow (sw_sheet_area (&maker->page), -GAP);
  g_autoptr (GArray) legend = sw_sheet_plan_legend (maker, layers);
  g_autoptr (SwDisplay) drawn = draw_layers (maker, layers);
  SwSheetColumn column = { (const SwLegendEntry *) (gpointer) legend->data, legend->len, notes, TRUE, TRUE, box, TRUE };
  sw_sheet_add_column (maker, *draft, &column);
  double y = sw_paragraph_add_heading (&(*draft)->pen, (SwPoint){ area.low.x, area.high.y }, LEFT_MM, heading) - 1;
  SwBox page = { { area.low.x, y - PLAN_HIGH_MM }, { area.low.x + LEFT_MM, y } };
  sw_sheet_add_part (maker, *draft, drawn, page, box, scale, TRUE, mark, entry);
  sw_sheet_add_write_lines (*draft, (SwPoint){ area.low.x, page.low.y - GAP }, LEFT_MM, 36, lines, G_N_ELEMENTS (lines));
  return (SwBox){ { page.high.x + GAP, area.low.y }, area.high };
}

static void
begin_slots (Entry *entry, const SwRecord *of)
{
  entry->of = of;
  g_clear_pointer (&entry->slots, g_array_unref);
  entry->slots = sw_survey_slots (entry->maker->context->deck, of->id);
}

static void
draw_bay (Entry *entry, const SwDeckBay *bay)
{
  const SwListColumn ribs[] = { { _("Rib"), 9, SW_ALIGN_RIGHT }, { _("Drawn"), 33, SW_ALIGN_RIGHT }, { _("Low, start"), 20, SW_ALIGN_RIGHT }, { _("High, start"), 20, SW_ALIGN_RIGHT },
                                { _("Low, end"), 20, SW_ALIGN_RIGHT }, { _("High, end"), 20, SW_ALIGN_RIGHT }, { _("Middle"), 17, SW_ALIGN_RIGHT }, { _("Shift"), 15, SW_ALIGN_RIGHT } };
  const SwListColumn levels[] = { { _("Place"), 34, SW_ALIGN_LEFT }, { _("Drawn"), 36, SW_ALIGN_RIGHT }, { _("Measured"), 54, SW_ALIGN_RIGHT }, { _("Shift"), 30, SW_ALIGN_RIGHT } };
  const SwListColumn voids[] = { { _("Void"), 12, SW_ALIGN_RIGHT }, { _("Depth"), 15, SW_ALIGN_RIGHT }, { _("Measured"), 24, SW_ALIGN_RIGHT }, { _("Plates drawn"), 54, SW_ALIGN_LEFT },
                                 { _("Plates measured"), 49, SW_ALIGN_LEFT } };
  SwSheetDraft *draft;
  g_autofree char *heading = g_strdup_printf (_("As built: %s %s"), bay->bay->record.tag, bay->bay->name);
  begin_slots (entry, &bay->bay->record);
  SwBox area = begin_entry (entry, &draft, heading, sw_record_box (entry->of), SW_LAYER_BIT (SW_LAYER_DECK),
                            _("Ribs: both edges (or the middle) at both ends, from the bay's lowest side across the voids. Start is where plates count from. "
                              "Levels above the level line. Plates from the start closure."), mark_levels);
  const SwSheetContext *context = entry->maker->context;
  g_autofree char *of_ribs = sw_sheet_length_head (context, _("Ribs")), *of_levels = sw_sheet_length_head (context, _("Soffit levels"));
  g_autofree char *of_voids = sw_sheet_length_head (context, _("Voids and plates"));
  area.high.y = add_table (entry, draft, area, of_ribs, ribs, G_N_ELEMENTS (ribs), bay, add_ribs);
  area.high.y = add_table (entry, draft, area, of_levels, levels, G_N_ELEMENTS (levels), bay, add_levels);
  add_table (entry, draft, area, of_voids, voids, G_N_ELEMENTS (voids), bay, add_voids);
}

/* As drawn, measured and fitted, and what a measure is off from what all the others give. */
static void
add_room (const Entry *entry, const SwDeckBay *bay)
{
  g_autoptr (SwSurveyRoom) survey = sw_survey_room (sw_sheet_job (entry->maker->context), (const SwRoom *) entry->of);
  for (guint i = 0; i < entry->slots->len; i++)
    {
      const SwSurveySlot *slot = &g_array_index (entry->slots, SwSurveySlot, i);
      const SwSurveyDistance *distance = survey != NULL ? sw_survey_distance_of (survey, slot) : NULL;
      g_ptr_array_add (entry->texts, sw_survey_slot_name (slot));
      add_measured (entry, slot, 0);
      add_number (entry, distance != NULL ? distance->fitted : NAN);
      g_ptr_array_add (entry->texts, distance != NULL && !isnan (distance->off) ? shift (entry, distance->off) : g_strdup (""));
    }
}

static void
draw_room (Entry *entry, const SwRoom *room)
{
  const SwListColumn columns[] = { { _("Distance"), 40, SW_ALIGN_LEFT }, { _("Drawn"), 25, SW_ALIGN_RIGHT }, { _("Measured"), 31, SW_ALIGN_RIGHT }, { _("Shift"), 18, SW_ALIGN_RIGHT },
                                   { _("Fitted"), 25, SW_ALIGN_RIGHT }, { _("Off"), 15, SW_ALIGN_RIGHT } };
  SwSheetDraft *draft;
  const SwSheetContext *context = entry->maker->context;
  g_autofree char *heading = g_strdup_printf (_("As built: %s %s"), room->record.tag, room->name);
  begin_slots (entry, &room->record);
  SwBox area = begin_entry (entry, &draft, heading, sw_record_box (entry->of), SW_LAYER_BIT (SW_LAYER_ROOMS) | SW_LAYER_BIT (SW_LAYER_DECK),
                            _("Sides and diagonals at the height of the ceiling, corner to corner as numbered on the plan. Off: against what all the other measures give."),
                            mark_corners);
  g_autofree char *title = sw_sheet_length_head (context, _("Sides and diagonals"));
  g_autofree char *closure = sw_survey_closure_text (sw_sheet_job (context), room, context->rules);
  double y = add_table (entry, draft, area, title, columns, G_N_ELEMENTS (columns), NULL, add_room);
  sw_paragraph_add (&draft->pen, (SwPoint){ area.low.x, y }, area.high.x - area.low.x, closure);
}

gboolean
sw_sheet_draw_survey (SwSheetMaker *maker, GError **error)
{
  SwJob *job = sw_sheet_job (maker->context);
  g_autoptr (GPtrArray) bays = sw_sheet_records (job, SW_TABLE_BAY), rooms = sw_sheet_records (job, SW_TABLE_ROOM);
  Entry entry = { maker, NULL, NULL, NULL };
  for (guint i = 0; i < bays->len; i++)
    draw_bay (&entry, sw_deck_bay_of (maker->context->deck, ((const SwRecord *) g_ptr_array_index (bays, i))->id));
  for (guint i = 0; i < rooms->len; i++)
    draw_room (&entry, g_ptr_array_index (rooms, i));
  g_clear_pointer (&entry.slots, g_array_unref);
  if (maker->pages != NULL)
    return TRUE;
  g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, "the job has no bays and no rooms to measure");
  return FALSE;
}
