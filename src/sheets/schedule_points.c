/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Schedules of what has one place: downlights, drop-ins, sleeves. */
#include "drainage/branches.h"
#include "sheets/place.h"
#include "sheets/schedule_parts.h"

static const SwScheduleColumn light_columns[] = {
  SW_COLUMN_TEXT ("number", N_("No.")),
  SW_COLUMN_TEXT ("name", N_("Name")),
  SW_COLUMN_TEXT ("room", N_("Room")),
  SW_COLUMN_TEXT ("circuit", N_("Circuit")),
  SW_COLUMN_MM ("cut_out_mm", N_("Cut-out")),
  SW_COLUMNS_GRID,
  SW_COLUMNS_WALLS,
  SW_COLUMNS_ADDRESS,
  SW_COLUMN_MM ("off_centre_mm", N_("Off the void's centre line")),
  SW_COLUMN_MM ("beside_plate_mm", N_("Beside the nearest plate")),
  SW_COLUMN_MM ("level_mm", N_("Ceiling above level line")),
  SW_COLUMN_MM ("body_mm", N_("Body")),
  SW_COLUMN_MM ("recess_mm", N_("Recess")),
  SW_COLUMN_NUMBER ("watts", N_("Power"), "W", 1),
  SW_COLUMN_NUMBER ("lumens", N_("Light output"), "lm", 0),
  SW_COLUMN_TEXT ("hood", N_("Fire hood")),
};

static const SwScheduleColumn drop_in_columns[] = {
  SW_COLUMN_TEXT ("number", N_("No.")),
  SW_COLUMN_TEXT ("fixture", N_("Fixture")),
  SW_COLUMN_NUMBER ("units", N_("Discharge units"), "", 1),
  SW_COLUMN_MM ("hole_mm", N_("Hole")),
  SW_COLUMNS_GRID,
  SW_COLUMNS_ADDRESS,
  SW_COLUMN_MM ("off_centre_mm", N_("Off the void's centre line")),
  SW_COLUMN_MM ("clear_mm", N_("Hole clear of the crown's edge")),
  SW_COLUMN_MM ("move_x_mm", N_("Move right")),
  SW_COLUMN_MM ("move_y_mm", N_("Move up the plan")),
  SW_COLUMN_MM ("outlet_mm", N_("Outlet below the crown")),
  SW_COLUMN_MM ("outlet_level_mm", N_("Outlet above level line")),
  SW_COLUMN_TEXT ("runs", N_("Runs")),
};

static const SwScheduleColumn sleeve_columns[] = {
  SW_COLUMN_TEXT ("number", N_("No.")),
  SW_COLUMN_TEXT ("through", N_("Through")),
  SW_COLUMN_TEXT ("run", N_("For run")),
  SW_COLUMN_MM ("hole_mm", N_("Hole")),
  SW_COLUMN_MM ("length_mm", N_("Length")),
  SW_COLUMN_TEXT ("cast_in", N_("Cast in")),
  SW_COLUMNS_GRID,
  SW_COLUMNS_ADDRESS,
  SW_COLUMN_MM ("above_soffit_mm", N_("Axis above the soffit")),
  SW_COLUMN_MM ("level_mm", N_("Axis above level line")),
  SW_COLUMN_TEXT ("answer", N_("Engineer's answer")),
  SW_COLUMN_DATE ("asked_on", N_("Asked on")),
  SW_COLUMN_TEXT ("answered_by", N_("Answered by")),
  SW_COLUMN_DATE ("answered_on", N_("Answered on")),
  SW_COLUMN_TEXT ("reference", N_("Reference")),
  SW_COLUMN_TEXT ("conditions", N_("Conditions")),
};

void
sw_schedule_put_grid (SwSchedule *schedule, const SwSheetContext *context, SwPoint p)
{
  g_auto (SwSetOut) grid = sw_set_out_from_grid (sw_sheet_job (context), p);
  sw_schedule_put (schedule, grid.x.name);
  sw_schedule_put_number (schedule, grid.x.name != NULL ? grid.x.mm : NAN);
  sw_schedule_put (schedule, grid.y.name);
  sw_schedule_put_number (schedule, grid.y.name != NULL ? grid.y.mm : NAN);
}

void
sw_schedule_put_address (SwSchedule *schedule, const SwSheetContext *context, SwPoint p)
{
  SwAddress address = sw_deck_address (context->deck, p);
  if (address.bay == NULL || address.bay->voids->len == 0)
    {
      sw_schedule_put (schedule, address.bay != NULL ? address.bay->bay->record.tag : NULL);
      sw_schedule_put_nothing (schedule, 4);
      return;
    }
  sw_schedule_put (schedule, address.bay->bay->record.tag);
  sw_schedule_put_number (schedule, address.void_number);
  sw_schedule_put (schedule, address.over_void ? _("void") : _("rib"));
  sw_schedule_put_number (schedule, address.has_plate ? address.plate_number : NAN);
  sw_schedule_put_number (schedule, address.past_plate);
}

double
sw_schedule_from_line (const SwSheetContext *context, double z)
{
  return sw_deck_z_to_floor (context->deck, z) - sw_job_info (sw_sheet_job (context))->level_line;
}

/* Distance from the centre line of the nearest void, positive to the left of the voids' direction; NAN without one. */
static double
off_centre (const SwDeckBay *bay, SwPoint p)
{
  SwPoint uv = bay != NULL ? sw_deck_to_bay (bay, p) : p;
  int near = bay != NULL ? sw_deck_void_near (bay, uv.y) : -1;
  return near >= 0 ? uv.y - g_array_index (bay->voids, SwVoid, near).v : NAN;
}

void
sw_schedule_put_walls (SwSchedule *schedule, const SwSheetContext *context, const SwRoom *room, SwPoint p)
{
  g_auto (SwSetOut) walls = sw_set_out_from_walls (sw_sheet_job (context), room, p);
  sw_schedule_put (schedule, walls.x.name);
  sw_schedule_put_number (schedule, walls.x.name != NULL ? fabs (walls.x.mm) : NAN);
  sw_schedule_put (schedule, walls.y.name);
  sw_schedule_put_number (schedule, walls.y.name != NULL ? fabs (walls.y.mm) : NAN);
}

static void
fill_lights (SwSchedule *schedule, const SwSheetContext *context)
{
  SwJob *job = sw_sheet_job (context);
  g_autoptr (GPtrArray) lights = sw_sheet_records (job, SW_TABLE_LIGHT);
  for (guint i = 0; i < lights->len; i++)
    {
      const SwLight *light = g_ptr_array_index (lights, i);
      const SwRoom *room = sw_deck_room_at (context->deck, light->at);
      const SwRecord *circuit = sw_job_get (job, light->circuit);
      const SwDeckBay *bay = sw_deck_bay_at (context->deck, light->at);
      sw_schedule_begin_row (schedule, light->record.id);
      sw_schedule_put (schedule, light->record.tag);
      sw_schedule_put (schedule, light->name);
      sw_schedule_put (schedule, room != NULL ? room->record.tag : NULL);
      sw_schedule_put (schedule, circuit != NULL ? circuit->tag : NULL);
      sw_schedule_put_number (schedule, light->cut_out);
      sw_schedule_put_grid (schedule, context, light->at);
      sw_schedule_put_walls (schedule, context, room, light->at);
      sw_schedule_put_address (schedule, context, light->at);
      sw_schedule_put_number (schedule, off_centre (bay, light->at));
      sw_schedule_put_number (schedule, sw_place_beside_plate (bay, light->at));
      sw_schedule_put_number (schedule, room != NULL ? sw_schedule_from_line (context, sw_deck_ceiling_face (context->deck, room) - sw_deck_ceiling_drop (context->deck, room, light->at)) : NAN);
      sw_schedule_put_number (schedule, light->body);
      sw_schedule_put_number (schedule, light->recess);
      sw_schedule_put_number (schedule, light->watts);
      sw_schedule_put_number (schedule, light->lumens);
      sw_schedule_put_yes (schedule, light->hood);
    }
}

/* Marks of the runs that start or end at a record. */
static char *
runs_at (const SwJob *job, SwId id)
{
  GString *text = g_string_new (NULL);
  g_autoptr (GPtrArray) runs = sw_sheet_records (job, SW_TABLE_RUN);
  for (guint i = 0; i < runs->len; i++)
    {
      const SwRun *run = g_ptr_array_index (runs, i);
      if (run->start == id || run->end == id)
        g_string_append_printf (text, "%s%s", text->len > 0 ? "; " : "", run->record.tag);
    }
  return g_string_free (text, FALSE);
}

/* What the hole leaves to the nearer edge of the crown, and the way that makes it 0 when it cuts a rib. */
static void
put_hole (SwSchedule *schedule, const SwDeckBay *bay, const SwDropIn *drop_in)
{
  double off = off_centre (bay, drop_in->at);
  if (isnan (off))
    {
      sw_schedule_put_nothing (schedule, 4);
      return;
    }
  double clear = bay->profile->crown / 2 - fabs (off) - drop_in->hole / 2;
  double move = clear < 0 ? (off > 0 ? clear : -clear) : 0;
  sw_schedule_put_number (schedule, off);
  sw_schedule_put_number (schedule, clear);
  sw_schedule_put_number (schedule, clear < 0 ? -move * bay->sine : NAN);
  sw_schedule_put_number (schedule, clear < 0 ? move * bay->cosine : NAN);
}

/* Those that begin or end at it, else the one that takes its water in passing. */
static char *
runs_of_drop_in (const SwJob *job, const SwBranches *branches, SwId id)
{
  g_autofree char *runs = runs_at (job, id);
  const SwOutlet *outlet = *runs == '\0' ? sw_branches_outlet (branches, id) : NULL;
  return outlet != NULL ? g_strdup (sw_job_get (job, outlet->run)->tag) : g_steal_pointer (&runs);
}

static void
fill_drop_ins (SwSchedule *schedule, const SwSheetContext *context)
{
  SwJob *job = sw_sheet_job (context);
  g_autoptr (GPtrArray) drop_ins = sw_sheet_records (job, SW_TABLE_DROP_IN);
  g_autoptr (SwBranches) branches = sw_branches_new (job, context->rules);
  for (guint i = 0; i < drop_ins->len; i++)
    {
      const SwDropIn *drop_in = g_ptr_array_index (drop_ins, i);
      const SwDeckBay *bay = sw_deck_bay_at (context->deck, drop_in->at);
      sw_schedule_begin_row (schedule, drop_in->record.id);
      sw_schedule_put (schedule, drop_in->record.tag);
      sw_schedule_put (schedule, drop_in->fixture);
      sw_schedule_put_number (schedule, drop_in->units);
      sw_schedule_put_number (schedule, drop_in->hole);
      sw_schedule_put_grid (schedule, context, drop_in->at);
      sw_schedule_put_address (schedule, context, drop_in->at);
      put_hole (schedule, bay, drop_in);
      sw_schedule_put_number (schedule, drop_in->drop);
      sw_schedule_put_number (schedule, bay != NULL ? sw_schedule_from_line (context, sw_deck_crown (bay, drop_in->at) - drop_in->drop) : NAN);
      sw_schedule_put_take (schedule, runs_of_drop_in (job, branches, drop_in->record.id));
    }
}

static void
fill_sleeves (SwSchedule *schedule, const SwSheetContext *context)
{
  SwJob *job = sw_sheet_job (context);
  g_autoptr (GPtrArray) sleeves = sw_sheet_records (job, SW_TABLE_SLEEVE);
  for (guint i = 0; i < sleeves->len; i++)
    {
      const SwSleeve *sleeve = g_ptr_array_index (sleeves, i);
      const SwRecord *run = sw_job_get (job, sleeve->run);
      SwPoint middle = sw_point_lerp (sleeve->from, sleeve->to, 0.5);
      double length = sw_point_distance (sleeve->from, sleeve->to);
      sw_schedule_begin_row (schedule, sleeve->record.id);
      sw_schedule_put (schedule, sleeve->record.tag);
      sw_schedule_put (schedule, sw_sheet_word (SW_TABLE_SLEEVE, "through", sleeve->through));
      sw_schedule_put (schedule, run != NULL ? run->tag : NULL);
      sw_schedule_put_number (schedule, sleeve->diameter);
      sw_schedule_put_number (schedule, length > 0 ? length : NAN);
      sw_schedule_put_yes (schedule, sleeve->cast_in);
      sw_schedule_put_grid (schedule, context, middle);
      sw_schedule_put_address (schedule, context, middle);
      sw_schedule_put_number (schedule, sleeve->z);
      sw_schedule_put_number (schedule, sw_schedule_from_line (context, sw_deck_soffit_at (context->deck, middle) + sleeve->z));
      sw_schedule_put (schedule, sw_sheet_word (SW_TABLE_SLEEVE, "answer", sleeve->answer));
      sw_schedule_put (schedule, sleeve->asked_on);
      sw_schedule_put (schedule, sleeve->answered_by);
      sw_schedule_put (schedule, sleeve->answered_on);
      sw_schedule_put (schedule, sleeve->reference);
      sw_schedule_put (schedule, sleeve->conditions);
    }
}

const SwScheduleKind sw_schedule_lights = SW_SCHEDULE ("downlights", N_("Downlight set-out"), N_("Every downlight from grid lines, walls and plates"),
                                                       light_columns, fill_lights);
const SwScheduleKind sw_schedule_drop_ins = SW_SCHEDULE ("drop-ins", N_("Drop-ins"), N_("What comes down from the floor above, and whether its hole misses the ribs"),
                                                         drop_in_columns, fill_drop_ins);
const SwScheduleKind sw_schedule_sleeves = SW_SCHEDULE ("sleeves", N_("Sleeves"), N_("Every sleeve and hole with its question to the engineer"),
                                                        sleeve_columns, fill_sleeves);
