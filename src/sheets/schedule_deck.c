/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Schedules of the deck: plates in the way, fillers over separating walls, what was measured. */
#include "sheets/schedule_parts.h"
#include "estimate/fillers.h"
#include "estimate/run_facts.h"
#include "base/tolerance.h"
#include "space/survey.h"
#include <stdio.h>

static const SwScheduleColumn plate_columns[] = {
  SW_COLUMN_TEXT ("bay", N_("Bay")),
  SW_COLUMN_COUNT ("void", N_("Void")),
  SW_COLUMN_COUNT ("plate", N_("Plate")),
  SW_COLUMN_MM ("from_closure_mm", N_("From the start closure")),
  SW_COLUMNS_GRID,
  SW_COLUMN_TEXT ("measured", N_("Measured")),
  SW_COLUMN_TEXT ("runs", N_("In the way of")),
  SW_COLUMN_TEXT ("state", N_("State")),
  SW_COLUMN_DATE ("forecast", N_("Release forecast")),
  SW_COLUMN_TEXT ("released_by", N_("Released by (engineer)")),
  SW_COLUMN_DATE ("released_on", N_("Released on")),
  SW_COLUMN_TEXT ("reference", N_("Reference")),
  SW_COLUMN_DATE ("out_on", N_("Taken out on")),
};

static const SwScheduleColumn filler_columns[] = {
  SW_COLUMN_TEXT ("wall", N_("Wall")),
  SW_COLUMN_TEXT ("head", N_("Head")),
  SW_COLUMN_NUMBER ("fire_min", N_("Fire rating"), "min", 0),
  SW_COLUMN_NUMBER ("sound_db", N_("Sound rating"), "dB", 0),
  SW_COLUMN_MM ("thickness_mm", N_("Thickness")),
  SW_COLUMN_TEXT ("bay", N_("Bay")),
  SW_COLUMN_COUNT ("void", N_("Void")),
  SW_COLUMNS_GRID,
  SW_COLUMN_MM ("mouth_mm", N_("Width at the soffit")),
  SW_COLUMN_MM ("crown_mm", N_("Width at the crown")),
  SW_COLUMN_MM ("depth_mm", N_("Depth")),
  SW_COLUMN_NUMBER ("area_m2", N_("Area"), "m²", 4),
  SW_COLUMN_TEXT ("runs", N_("Runs through it")),
};

static const SwScheduleColumn measure_columns[] = {
  SW_COLUMN_TEXT ("number", N_("No.")),
  SW_COLUMN_TEXT ("of", N_("Bay or room")),
  SW_COLUMN_TEXT ("kind", N_("Kind")),
  SW_COLUMN_COUNT ("index", N_("Rib, void, side or corner")),
  SW_COLUMN_COUNT ("second", N_("Plate or corner")),
  SW_COLUMN_NUMBER ("x_mm", N_("x"), "mm", 0),
  SW_COLUMN_NUMBER ("y_mm", N_("y"), "mm", 0),
  SW_COLUMN_NUMBER ("drawn_mm", N_("Drawn"), "mm", 1),
  SW_COLUMN_NUMBER ("measured_mm", N_("Measured"), "mm", 1),
  SW_COLUMN_NUMBER ("shift_mm", N_("Shift"), "mm", 1),
  SW_COLUMN_TEXT ("by", N_("Measured by")),
  SW_COLUMN_DATE ("on", N_("Measured on")),
  SW_COLUMN_TEXT ("note", N_("Note")),
};

static void
free_text (gpointer text)
{
  g_string_free (text, TRUE);
}

/* Plate → GString with the marks of the runs that it stands in the way of. */
static GHashTable *
plates_in_the_way (const SwSheetContext *context)
{
  GHashTable *marks = g_hash_table_new_full (NULL, NULL, NULL, free_text);
  g_autoptr (GPtrArray) runs = sw_sheet_records (sw_sheet_job (context), SW_TABLE_RUN);
  for (guint i = 0; i < runs->len; i++)
    {
      g_autoptr (SwRunFacts) facts = sw_run_facts_new (context->deck, context->rules, g_ptr_array_index (runs, i));
      for (guint k = 0; k < facts->plates->len; k++)
        {
          const SwDeckPlate *plate = g_array_index (facts->plates, SwRunPlate, k).plate;
          GString *text = g_hash_table_lookup (marks, plate);
          if (text == NULL)
            g_hash_table_insert (marks, (gpointer) plate, text = g_string_new (NULL));
          g_string_append_printf (text, "%s%s", text->len > 0 ? "; " : "", facts->run->record.tag);
        }
    }
  return marks;
}

/* The pour and what the rule set adds: never a release. Free with g_free; NULL without a pour. */
static char *
release_forecast (const SwSheetContext *context)
{
  const char *pour = sw_job_info (sw_sheet_job (context))->pour_date;
  int year, month, day;
  GDate date;
  if (sscanf (pour, "%d-%d-%d", &year, &month, &day) != 3 || !g_date_valid_dmy ((GDateDay) day, (GDateMonth) month, (GDateYear) year))
    return NULL;
  g_date_clear (&date, 1);
  g_date_set_dmy (&date, (GDateDay) day, (GDateMonth) month, (GDateYear) year);
  g_date_add_days (&date, (guint) sw_rules_value (context->rules, "deck.defaults", "plate_forecast_days").value);
  return g_strdup_printf ("%04d-%02d-%02d", g_date_get_year (&date), g_date_get_month (&date), g_date_get_day (&date));
}

static const char *
plate_state (const SwDeckPlate *plate)
{
  if (plate->out)
    return _("taken out");
  return plate->released ? _("released") : _("wait for the engineer's release");
}

static void
put_plate (SwSchedule *schedule, const SwSheetContext *context, const SwDeckBay *bay, const SwDeckPlate *plate, const GString *runs)
{
  const SwVoid *over = &g_array_index (bay->voids, SwVoid, plate->void_index);
  const SwPlate *record = plate->record;
  g_autofree char *forecast = release_forecast (context);
  sw_schedule_begin_row (schedule, record != NULL ? record->record.id : bay->bay->record.id);
  sw_schedule_put (schedule, bay->bay->record.tag);
  sw_schedule_put_number (schedule, over->number);
  sw_schedule_put_number (schedule, plate->number);
  sw_schedule_put_number (schedule, plate->u - g_array_index (bay->reaches, SwReach, over->first_reach).low);
  sw_schedule_put_grid (schedule, context, sw_deck_from_bay (bay, (SwPoint){ plate->u, over->v }));
  sw_schedule_put_yes (schedule, plate->measured);
  sw_schedule_put (schedule, runs != NULL ? runs->str : NULL);
  sw_schedule_put (schedule, plate_state (plate));
  sw_schedule_put (schedule, plate->released ? NULL : forecast);
  sw_schedule_put (schedule, record != NULL ? record->released_by : NULL);
  sw_schedule_put (schedule, record != NULL ? record->released_on : NULL);
  sw_schedule_put (schedule, record != NULL ? record->reference : NULL);
  sw_schedule_put (schedule, record != NULL ? record->out_on : NULL);
}

static void
fill_plates (SwSchedule *schedule, const SwSheetContext *context)
{
  g_autoptr (GHashTable) marks = plates_in_the_way (context);
  for (guint i = 0; i < sw_deck_n_bays (context->deck); i++)
    {
      const SwDeckBay *bay = sw_deck_bay (context->deck, i);
      for (guint k = 0; k < bay->plates->len; k++)
        {
          const SwDeckPlate *plate = &g_array_index (bay->plates, SwDeckPlate, k);
          const GString *runs = g_hash_table_lookup (marks, plate);
          if (runs != NULL || plate->record != NULL)
            put_plate (schedule, context, bay, plate, runs);
        }
    }
}

/* Marks of the runs that pass the wall inside this void. */
static char *
runs_through (const SwFiller *filler, const GPtrArray *routes)
{
  const SwDeckBay *bay = filler->bay;
  const SwVoid *over = &g_array_index (bay->voids, SwVoid, filler->void_index);
  GString *text = g_string_new (NULL);
  SwPoint from = sw_deck_to_bay (bay, filler->wall->from), wall = sw_point_sub (sw_deck_to_bay (bay, filler->wall->to), from);
  for (guint i = 0; i < routes->len; i++)
    {
      const SwRoute *route = g_ptr_array_index (routes, i);
      gboolean passes = FALSE;
      for (guint k = 0; k + 1 < route->n && !passes; k++)
        {
          SwPoint p = sw_deck_to_bay (bay, (SwPoint){ route->axis[k].x, route->axis[k].y });
          SwPoint q = sw_deck_to_bay (bay, (SwPoint){ route->axis[k + 1].x, route->axis[k + 1].y });
          double across = sw_point_cross (wall, sw_point_sub (q, p));
          double t = -sw_point_cross (wall, sw_point_sub (p, from)) / across, v = p.y + t * (q.y - p.y);
          SwPoint3 at = sw_point3_lerp (route->axis[k], route->axis[k + 1], t);
          passes = across != 0 && t >= 0 && t <= 1 && v > over->low && v < over->high
                   && at.z + route->outer > sw_deck_soffit (bay, (SwPoint){ at.x, at.y })
                   && at.z - route->outer < sw_deck_soffit (bay, (SwPoint){ at.x, at.y }) + over->depth;
        }
      if (passes)
        g_string_append_printf (text, "%s%s", text->len > 0 ? "; " : "", route->run->record.tag);
    }
  return g_string_free (text, FALSE);
}

static void
put_filler (SwSchedule *schedule, const SwSheetContext *context, const SwFiller *filler, const GPtrArray *routes)
{
  const SwWall *wall = filler->wall;
  const SwVoid *over = &g_array_index (filler->bay->voids, SwVoid, filler->void_index);
  sw_schedule_begin_row (schedule, wall->record.id);
  sw_schedule_put (schedule, wall->record.tag);
  sw_schedule_put (schedule, sw_sheet_word (SW_TABLE_WALL, "head", wall->head));
  sw_schedule_put_number (schedule, wall->fire_minutes > 0 ? wall->fire_minutes : NAN);
  sw_schedule_put_number (schedule, wall->sound_db > 0 ? wall->sound_db : NAN);
  sw_schedule_put_number (schedule, wall->thickness);
  sw_schedule_put (schedule, filler->bay->bay->record.tag);
  sw_schedule_put_number (schedule, over->number);
  sw_schedule_put_grid (schedule, context, filler->at);
  sw_schedule_put_number (schedule, filler->bay->profile->mouth);
  sw_schedule_put_number (schedule, filler->bay->profile->crown);
  sw_schedule_put_number (schedule, over->depth);
  sw_schedule_put_number (schedule, filler->area / 1e6);
  sw_schedule_put_take (schedule, runs_through (filler, routes));
}

static GPtrArray *
all_routes (const SwSheetContext *context)
{
  GPtrArray *routes = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_route_free);
  g_autoptr (GPtrArray) runs = sw_sheet_records (sw_sheet_job (context), SW_TABLE_RUN);
  for (guint i = 0; i < runs->len; i++)
    {
      SwRoute *route = sw_route_new (context->deck, context->rules, g_ptr_array_index (runs, i), NULL);
      if (route != NULL)
        g_ptr_array_add (routes, route);
    }
  return routes;
}

static void
fill_fillers (SwSchedule *schedule, const SwSheetContext *context)
{
  g_autoptr (GPtrArray) walls = sw_sheet_records (sw_sheet_job (context), SW_TABLE_WALL), routes = all_routes (context);
  g_autoptr (GArray) fillers = g_array_new (FALSE, FALSE, sizeof (SwFiller));
  for (guint i = 0; i < walls->len; i++)
    sw_fillers_of_wall (context->deck, g_ptr_array_index (walls, i), fillers);
  for (guint i = 0; i < fillers->len; i++)
    put_filler (schedule, context, &g_array_index (fillers, SwFiller, i), routes);
}

static void
fill_measures (SwSchedule *schedule, const SwSheetContext *context)
{
  SwJob *job = sw_sheet_job (context);
  g_autoptr (GPtrArray) measures = sw_sheet_records (job, SW_TABLE_MEASURE);
  for (guint i = 0; i < measures->len; i++)
    {
      const SwMeasure *measure = g_ptr_array_index (measures, i);
      const SwRecord *of = sw_job_get (job, measure->of);
      SwMeasureKey key = sw_measure_key (measure);
      double was = sw_survey_drawn (context->deck, &key);
      gboolean placed = measure->kind == SW_MEASURE_LEVEL;
      gboolean second = measure->kind == SW_MEASURE_PLATE || measure->kind == SW_MEASURE_DIAGONAL || measure->kind == SW_MEASURE_EDGE;
      sw_schedule_begin_row (schedule, measure->record.id);
      sw_schedule_put (schedule, measure->record.tag);
      sw_schedule_put (schedule, of->tag);
      sw_schedule_put (schedule, sw_sheet_word (SW_TABLE_MEASURE, "kind", measure->kind));
      sw_schedule_put_number (schedule, placed ? NAN : measure->number);
      sw_schedule_put_number (schedule, second ? measure->second : NAN);
      sw_schedule_put_number (schedule, placed ? measure->at.x : NAN);
      sw_schedule_put_number (schedule, placed ? measure->at.y : NAN);
      sw_schedule_put_number (schedule, was);
      sw_schedule_put_number (schedule, measure->value);
      sw_schedule_put_number (schedule, measure->value - was);
      sw_schedule_put (schedule, measure->by);
      sw_schedule_put (schedule, measure->on);
      sw_schedule_put (schedule, measure->note);
    }
}

const SwScheduleKind sw_schedule_plates = SW_SCHEDULE ("plates", N_("Plates to take out"), N_("Stiffener plates in the way of runs, with their release"),
                                                       plate_columns, fill_plates);
const SwScheduleKind sw_schedule_fillers = SW_SCHEDULE ("fillers", N_("Fillers over separating walls"), N_("One profile filler for each void that a separating wall leaves open"),
                                                        filler_columns, fill_fillers);
const SwScheduleKind sw_schedule_measures = SW_SCHEDULE ("as-built", N_("As-built measurements"), N_("What was measured on site, what was drawn, and the shift"),
                                                         measure_columns, fill_measures);
