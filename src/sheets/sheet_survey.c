/* SPDX-License-Identifier: GPL-3.0-or-later */
/* As-built entry: a page for each bay (ribs, levels, void depths, plates) and each room (sides, diagonals) with what was
 * drawn, what was measured so far with its shift, and room to write the rest. Corners and sides count from 1. */
#include "base/error.h"
#include "base/number.h"
#include "sheets/sheet_room_pages.h"

#define LEFT_MM 128.0
#define PLAN_HIGH_MM 118.0
#define GAP 4.0
#define LEVEL_RANK 2
#define CORNER_SHARE 0.08 /* levels are taken that far from a corner towards the middle, where the soffit can be seen */

typedef struct
{
  SwSheetMaker *maker;
  const SwDeck *drawn; /* without what was measured */
  const SwRecord *of;
  GPtrArray *texts;
} Entry;

static const SwMeasure *
measure_of (const Entry *entry, SwMeasureKind kind, int number, int second)
{
  const SwMeasure *found = NULL;
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_sheet_job (entry->maker->context), SW_TABLE_MEASURE); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwMeasure *measure = (const SwMeasure *) record;
      gboolean second_counts = kind == SW_MEASURE_PLATE || kind == SW_MEASURE_DIAGONAL;
      if (measure->of == entry->of->id && measure->kind == (int) kind && measure->number == number && (!second_counts || measure->second == second))
        found = measure;
    }
  return found;
}

static char *
whole (const Entry *entry, double value)
{
  return sw_sheet_length (entry->maker->context, value, SW_LENGTH_BARE);
}

/* "+12", "-3", "+0". */
static char *
shift (const Entry *entry, double by)
{
  g_autofree char *text = whole (entry, by);
  return g_strconcat (text[0] == '-' ? "" : "+", text, NULL);
}

/* Drawn, measured and shift: three cells. */
static void
add_measured (const Entry *entry, double drawn, const SwMeasure *measure, double measured)
{
  g_ptr_array_add (entry->texts, whole (entry, drawn));
  g_ptr_array_add (entry->texts, measure != NULL ? whole (entry, measured) : g_strdup (""));
  g_ptr_array_add (entry->texts, measure != NULL ? shift (entry, measured - drawn) : g_strdup (""));
}

/* Rib by rib from the bay's lowest side; the second "measured" is for its other end. */
static void
add_ribs (const Entry *entry, const SwDeckBay *bay)
{
  for (guint i = 0; i < bay->ribs->len; i++)
    {
      const SwMeasure *measure = measure_of (entry, SW_MEASURE_RIB, (int) i, 0);
      g_ptr_array_add (entry->texts, g_strdup_printf ("%u", i));
      add_measured (entry, g_array_index (bay->ribs, SwRib, i).v, measure, measure != NULL ? measure->value : NAN);
      g_ptr_array_add (entry->texts, g_strdup (""));
    }
}

static SwPoint
level_place (const SwBay *bay, guint i)
{
  SwBox box = sw_record_box (&bay->record);
  SwPoint middle = sw_point_lerp (box.low, box.high, 0.5);
  return i < bay->outline.n ? sw_point_lerp (SW_LIST_AT (bay->outline, SwPoint, i), middle, CORNER_SHARE) : middle;
}

static void
add_levels (const Entry *entry, const SwDeckBay *bay)
{
  const SwSheetContext *context = entry->maker->context;
  double line = sw_job_info (sw_sheet_job (context))->level_line;
  const SwRecord *record;
  for (guint i = 0; i <= bay->bay->outline.n; i++)
    {
      double drawn = sw_deck_z_to_floor (entry->drawn, sw_deck_soffit (bay, level_place (bay->bay, i))) - line;
      g_ptr_array_add (entry->texts, i < bay->bay->outline.n ? g_strdup_printf ("P%u", i + 1) : g_strdup (_("middle")));
      add_measured (entry, drawn, NULL, NAN);
    }
  for (SwJobIter k = sw_job_iter (sw_sheet_job (context), SW_TABLE_MEASURE); (record = sw_job_iter_next (&k)) != NULL;)
    {
      const SwMeasure *measure = (const SwMeasure *) record;
      if (measure->of != entry->of->id || measure->kind != SW_MEASURE_LEVEL)
        continue;
      g_ptr_array_add (entry->texts, g_strdup (measure->record.tag));
      add_measured (entry, sw_deck_z_to_floor (entry->drawn, sw_deck_soffit (bay, measure->at)) - line, measure, measure->value - line);
    }
}

/* "1350; 2850; 4350", and of those measured "1: 1362 (+12)". */
static void
add_plates (const Entry *entry, const SwDeckBay *bay, guint index)
{
  const SwVoid *over = &g_array_index (bay->voids, SwVoid, index);
  GString *drawn = g_string_new (NULL), *measured = g_string_new (NULL);
  for (guint i = 0; i < bay->plates->len; i++)
    {
      const SwDeckPlate *plate = &g_array_index (bay->plates, SwDeckPlate, i);
      if (plate->void_index != index)
        continue;
      double along = plate->u - g_array_index (bay->reaches, SwReach, over->first_reach).low;
      const SwMeasure *measure = measure_of (entry, SW_MEASURE_PLATE, over->number, plate->number);
      g_autofree char *place = whole (entry, along), *found = measure != NULL ? whole (entry, measure->value) : NULL;
      g_autofree char *by = measure != NULL ? shift (entry, measure->value - along) : NULL;
      g_string_append_printf (drawn, "%s%s", drawn->len > 0 ? "; " : "", place);
      if (measure != NULL)
        g_string_append_printf (measured, "%s%d: %s (%s)", measured->len > 0 ? "; " : "", plate->number, found, by);
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
      const SwMeasure *depth = measure_of (entry, SW_MEASURE_DEPTH, over->number, 0);
      g_ptr_array_add (entry->texts, g_strdup_printf ("%d", over->number));
      g_ptr_array_add (entry->texts, whole (entry, over->depth));
      g_ptr_array_add (entry->texts, depth != NULL ? whole (entry, depth->value) : g_strdup (""));
      add_plates (entry, bay, i);
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
  const SwBay *bay = data;
  double arm = 1.5 * plan->scale;
  for (guint i = 0; i < bay->outline.n; i++)
    {
      SwPoint at = level_place (bay, i);
      g_autofree char *name = g_strdup_printf ("P%u", i + 1);
      sw_display_add_line (plan->display, (SwPoint){ at.x - arm, at.y }, (SwPoint){ at.x + arm, at.y }, &cross);
      sw_display_add_line (plan->display, (SwPoint){ at.x, at.y - arm }, (SwPoint){ at.x, at.y + arm }, &cross);
      sw_sheet_plan_add_label (plan, at, name, SW_ROLE_INK, LEVEL_RANK);
    }
}

static void
mark_corners (const SwSheetPlan *plan, gconstpointer data)
{
  const SwRoom *room = data;
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
  sw_sheet_add_part (maker, *draft, drawn, page, box, scale, TRUE, mark, entry->of);
  sw_sheet_add_write_lines (*draft, (SwPoint){ area.low.x, page.low.y - GAP }, LEFT_MM, 36, lines, G_N_ELEMENTS (lines));
  return (SwBox){ { page.high.x + GAP, area.low.y }, area.high };
}

static void
draw_bay (Entry *entry, const SwDeckBay *bay)
{
  const SwListColumn ribs[] = { { _("Rib"), 14, SW_ALIGN_RIGHT }, { _("Drawn"), 28, SW_ALIGN_RIGHT }, { _("Measured"), 36, SW_ALIGN_RIGHT }, { _("Shift"), 22, SW_ALIGN_RIGHT },
                                { _("Other end"), 54, SW_ALIGN_RIGHT } };
  const SwListColumn levels[] = { { _("Place"), 34, SW_ALIGN_LEFT }, { _("Drawn"), 36, SW_ALIGN_RIGHT }, { _("Measured"), 54, SW_ALIGN_RIGHT }, { _("Shift"), 30, SW_ALIGN_RIGHT } };
  const SwListColumn voids[] = { { _("Void"), 12, SW_ALIGN_RIGHT }, { _("Depth"), 15, SW_ALIGN_RIGHT }, { _("Measured"), 24, SW_ALIGN_RIGHT }, { _("Plates drawn"), 54, SW_ALIGN_LEFT },
                                 { _("Plates measured"), 49, SW_ALIGN_LEFT } };
  SwSheetDraft *draft;
  g_autofree char *heading = g_strdup_printf (_("As built: %s %s"), bay->bay->record.tag, bay->bay->name);
  entry->of = &bay->bay->record;
  SwBox area = begin_entry (entry, &draft, heading, sw_record_box (entry->of), SW_LAYER_BIT (SW_LAYER_DECK),
                            _("Ribs: middle, from the bay's lowest side across the voids, at both ends. Levels above the level line. Plates from the start closure."), mark_levels);
  const SwSheetContext *context = entry->maker->context;
  g_autofree char *of_ribs = sw_sheet_length_head (context, _("Ribs")), *of_levels = sw_sheet_length_head (context, _("Soffit levels"));
  g_autofree char *of_voids = sw_sheet_length_head (context, _("Voids and plates"));
  area.high.y = add_table (entry, draft, area, of_ribs, ribs, G_N_ELEMENTS (ribs), bay, add_ribs);
  area.high.y = add_table (entry, draft, area, of_levels, levels, G_N_ELEMENTS (levels), bay, add_levels);
  add_table (entry, draft, area, of_voids, voids, G_N_ELEMENTS (voids), bay, add_voids);
}

static void
add_distance (const Entry *entry, const SwRoom *room, SwMeasureKind kind, guint a, guint b)
{
  const SwMeasure *measure = measure_of (entry, kind, (int) a + 1, (int) b + 1);
  double drawn = sw_point_distance (SW_LIST_AT (room->outline, SwPoint, a), SW_LIST_AT (room->outline, SwPoint, b));
  g_ptr_array_add (entry->texts, kind == SW_MEASURE_LENGTH ? g_strdup_printf (_("side %u, %u to %u"), a + 1, a + 1, b + 1) : g_strdup_printf (_("diagonal %u to %u"), a + 1, b + 1));
  add_measured (entry, drawn, measure, measure != NULL ? measure->value : NAN);
}

/* All sides, then the diagonals from the first two corners: enough to fix the outline's shape, one more than needed. */
static void
add_room (const Entry *entry, const SwDeckBay *bay)
{
  const SwRoom *room = (const SwRoom *) entry->of;
  guint n = room->outline.n;
  for (guint i = 0; i < n; i++)
    add_distance (entry, room, SW_MEASURE_LENGTH, i, (i + 1) % n);
  for (guint i = 0; i < 2; i++)
    for (guint k = i + 2; k < n; k++)
      if (!(i == 0 && k == n - 1))
        add_distance (entry, room, SW_MEASURE_DIAGONAL, i, k);
}

static void
draw_room (Entry *entry, const SwRoom *room)
{
  const SwListColumn columns[] = { { _("Distance"), 50, SW_ALIGN_LEFT }, { _("Drawn"), 30, SW_ALIGN_RIGHT }, { _("Measured"), 44, SW_ALIGN_RIGHT }, { _("Shift"), 30, SW_ALIGN_RIGHT } };
  SwSheetDraft *draft;
  g_autofree char *heading = g_strdup_printf (_("As built: %s %s"), room->record.tag, room->name);
  entry->of = &room->record;
  SwBox area = begin_entry (entry, &draft, heading, sw_record_box (entry->of), SW_LAYER_BIT (SW_LAYER_ROOMS) | SW_LAYER_BIT (SW_LAYER_DECK),
                            _("Sides and diagonals at the height of the ceiling, corner to corner as numbered on the plan."), mark_corners);
  g_autofree char *title = sw_sheet_length_head (entry->maker->context, _("Sides and diagonals"));
  add_table (entry, draft, area, title, columns, G_N_ELEMENTS (columns), NULL, add_room);
}

gboolean
sw_sheet_draw_survey (SwSheetMaker *maker, GError **error)
{
  SwJob *job = sw_sheet_job (maker->context);
  g_autoptr (SwDeck) drawn = sw_sheet_drawn_deck (job);
  g_autoptr (GPtrArray) bays = sw_sheet_records (job, SW_TABLE_BAY), rooms = sw_sheet_records (job, SW_TABLE_ROOM);
  Entry entry = { maker, drawn, NULL, NULL };
  for (guint i = 0; i < bays->len; i++)
    draw_bay (&entry, sw_deck_bay_of (drawn, ((const SwRecord *) g_ptr_array_index (bays, i))->id));
  for (guint i = 0; i < rooms->len; i++)
    draw_room (&entry, g_ptr_array_index (rooms, i));
  if (maker->pages != NULL)
    return TRUE;
  g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, "the job has no bays and no rooms to measure");
  return FALSE;
}
