/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The plan is drawn family by family, what lies deepest first as seen on paper: deck, rooms, battens, boards, services,
 * lights, grid. Each thing is a group of its own with its record as key, so that one display serves pictures, picking and
 * the list of things. Levels of detail keep a whole floor calm: numbers come when a void is wide enough to hold them.
 * It draws what the job and the deck say and judges nothing. */
#include "sheets/plan_parts.h"
#include "sheets/words.h"
#include "base/number.h"
#include "geometry/outline.h"

static void
begin (SwDisplay *display, const SwRecord *record, int part, const char *class_name, const char *title)
{
  g_autofree char *id = g_strdup_printf ("%s-%s", sw_record_type (record)->column, record->tag);
  sw_display_begin_group (display, &(SwDisplayGroup){ { (int) sw_record_table (record), part, record->id },
                                                      id, class_name, title, NULL });
}

void
sw_plan_begin (SwDisplay *display, const SwRecord *record, int part, const char *class_name)
{
  g_autofree char *title = sw_plan_title (record, SW_LENGTHS_MM);
  g_assert (sw_record_table (record) != SW_TABLE_RUN); /* its title has a size */
  begin (display, record, part, class_name, title);
}

void
sw_plan_begin_run (SwDisplay *display, const SwRun *run, SwLengths lengths, const char *class_name)
{
  g_autofree char *title = sw_plan_title (&run->record, lengths);
  begin (display, &run->record, 0, class_name, title);
}

void
sw_plan_label (SwDisplay *display, SwPoint at, const char *text, SwColourRole role, double height, double turn)
{
  SwTextStyle style = { .role = role, .height = height, .unit = SW_SIZE_PAPER, .align = SW_ALIGN_MIDDLE,
                        .rise = SW_RISE_MIDDLE, .turn = turn, .halo = TRUE };
  sw_display_add_text (display, at, text, &style);
}

void
sw_plan_box_points (SwPoint at, double length, double width, double turn_deg, SwPoint out[4])
{
  double c = cos (turn_deg * G_PI / 180), s = sin (turn_deg * G_PI / 180);
  const double signs[4][2] = { { -1, -1 }, { 1, -1 }, { 1, 1 }, { -1, 1 } };
  for (int i = 0; i < 4; i++)
    {
      SwPoint corner = { signs[i][0] * length / 2, signs[i][1] * width / 2 };
      out[i] = sw_point_add (at, sw_point_turn (corner, c, s));
    }
}

double
sw_plan_text_turn (SwPoint direction)
{
  double turn = atan2 (direction.y, direction.x);
  if (turn > G_PI / 2 + 1e-9)
    return turn - G_PI;
  return turn <= -G_PI / 2 + 1e-9 ? turn + G_PI : turn;
}

typedef struct
{
  SwLayer layer;
  void (*draw) (SwDisplay *display, const SwDeck *deck);
} Family;

static const Family families[] = {
  { SW_LAYER_DECK, sw_plan_draw_bays },         { SW_LAYER_DECK, sw_plan_draw_structure },
  { SW_LAYER_ROOMS, sw_plan_draw_columns },     { SW_LAYER_BATTENS, sw_plan_draw_battens },
  { SW_LAYER_BOARDS, sw_plan_draw_boards },     { SW_LAYER_ROOMS, sw_plan_draw_walls },
  { SW_LAYER_ROOMS, sw_plan_draw_bulkheads },   { SW_LAYER_ROOMS, sw_plan_draw_rooms },
  { SW_LAYER_HATCHES, sw_plan_draw_hatches },
  { SW_LAYER_PIPES, sw_plan_draw_pipes },       { SW_LAYER_CONDUITS, sw_plan_draw_conduits },
  { SW_LAYER_LIGHTS, sw_plan_draw_lights },     { SW_LAYER_GRID, sw_plan_draw_grid },
  { SW_LAYER_MEASURES, sw_plan_draw_measures },
};

void
sw_plan_draw (SwDisplay *display, const SwDeck *deck, guint64 layers)
{
  for (gsize i = 0; i < G_N_ELEMENTS (families); i++)
    if (layers & SW_LAYER_BIT (families[i].layer) && !(layers & SW_PLAN_BARE && families[i].draw == sw_plan_draw_bulkheads))
      {
        sw_display_set_layer (display, families[i].layer);
        sw_display_set_detail (display, 0, INFINITY);
        families[i].draw (display, deck);
      }
}

SwBox
sw_plan_box (const SwJob *job)
{
  static const SwTable tables[] = { SW_TABLE_BAY, SW_TABLE_ROOM, SW_TABLE_WALL, SW_TABLE_GRIDLINE, SW_TABLE_RUN, SW_TABLE_BEAM,
                                    SW_TABLE_LIGHT, SW_TABLE_FITTING, SW_TABLE_COLUMN };
  SwBox box = SW_BOX_EMPTY;
  const SwRecord *record;
  for (gsize i = 0; i < G_N_ELEMENTS (tables); i++)
    for (SwJobIter iter = sw_job_iter (job, tables[i]); (record = sw_job_iter_next (&iter)) != NULL;)
      box = sw_box_union (box, sw_record_box (record));
  return box;
}

static SwLayer
run_layer (int service)
{
  return service == SW_SERVICE_POWER || service == SW_SERVICE_LIGHTING || service == SW_SERVICE_DATA
                 || service == SW_SERVICE_FIRE_ALARM
             ? SW_LAYER_CONDUITS
             : SW_LAYER_PIPES;
}

static SwLayer
fitting_layer (const SwJob *job, const SwFitting *fitting)
{
  const SwRecord *run = sw_job_get (job, fitting->run);
  if (run != NULL)
    return run_layer (((const SwRun *) run)->service);
  switch (fitting->kind)
    {
    case SW_FITTING_BOX:
    case SW_FITTING_BOARD:
      return SW_LAYER_CONDUITS;
    case SW_FITTING_DRIVER:
      return SW_LAYER_LIGHTS;
    default:
      return SW_LAYER_PIPES;
    }
}

SwLayer
sw_plan_layer_of (const SwJob *job, const SwRecord *record)
{
  switch (sw_record_table (record))
    {
    case SW_TABLE_RUN:
      return run_layer (((const SwRun *) record)->service);
    case SW_TABLE_FITTING:
      return fitting_layer (job, (const SwFitting *) record);
    case SW_TABLE_DROP:
      return ((const SwDrop *) record)->kind == SW_DROP_TAP ? SW_LAYER_PIPES : SW_LAYER_CONDUITS;
    case SW_TABLE_DROP_IN:
    case SW_TABLE_SLEEVE:
      return SW_LAYER_PIPES;
    case SW_TABLE_ROOM:
    case SW_TABLE_WALL:
    case SW_TABLE_COLUMN:
    case SW_TABLE_BULKHEAD:
      return SW_LAYER_ROOMS;
    case SW_TABLE_LIGHT:
      return SW_LAYER_LIGHTS;
    case SW_TABLE_HATCH:
      return SW_LAYER_HATCHES;
    case SW_TABLE_LAYOUT:
      return SW_LAYER_BATTENS;
    case SW_TABLE_GRIDLINE:
      return SW_LAYER_GRID;
    case SW_TABLE_MEASURE:
      return SW_LAYER_MEASURES;
    default:
      return SW_LAYER_DECK;
    }
}

SwServiceLine
sw_plan_service_line (SwService service)
{
  static const SwServiceLine lines[SW_N_SERVICES] = {
    [SW_SERVICE_WASTE] = SW_SERVICE_LINE_WASTE,           [SW_SERVICE_SOIL] = SW_SERVICE_LINE_WASTE,
    [SW_SERVICE_RAINWATER] = SW_SERVICE_LINE_RAINWATER,   [SW_SERVICE_CONDENSATE] = SW_SERVICE_LINE_CONDENSATE,
    [SW_SERVICE_COLD] = SW_SERVICE_LINE_COLD_WATER,       [SW_SERVICE_HOT] = SW_SERVICE_LINE_HOT_WATER,
    [SW_SERVICE_POWER] = SW_SERVICE_LINE_POWER,           [SW_SERVICE_LIGHTING] = SW_SERVICE_LINE_LIGHTING,
    [SW_SERVICE_DATA] = SW_SERVICE_LINE_DATA,             [SW_SERVICE_FIRE_ALARM] = SW_SERVICE_LINE_FIRE_ALARM,
    [SW_SERVICE_SPRINKLER] = SW_SERVICE_LINE_SPRINKLER,   [SW_SERVICE_REFRIGERANT] = SW_SERVICE_LINE_REFRIGERANT,
    [SW_SERVICE_DUCT] = SW_SERVICE_LINE_DUCT,             [SW_SERVICE_GAS] = SW_SERVICE_LINE_GAS,
  };
  g_return_val_if_fail ((int) service >= 0 && service < SW_N_SERVICES, SW_SERVICE_LINE_WASTE);
  return lines[service];
}

/* What a record calls itself beside its mark: its name, fixture or description. */
static const char *
own_name (const SwRecord *record)
{
  static const char *const keys[] = { "name", "fixture", "description", "note" };
  const SwType *type = sw_record_type (record);
  for (gsize i = 0; i < G_N_ELEMENTS (keys); i++)
    {
      const SwField *field = sw_struct_field (&type->body, keys[i]);
      if (field != NULL && field->kind == SW_FIELD_TEXT && *SW_AT (record, field, char *) != 0)
        return SW_AT (record, field, char *);
    }
  return NULL;
}

/* What the thing is: a run by its service, others by their kind where they have one. */
static const char *
own_kind (const SwRecord *record)
{
  static const char *const keys[] = { "service", "kind" };
  const SwType *type = sw_record_type (record);
  if (sw_record_table (record) == SW_TABLE_MEASURE)
    return sw_word (type->label);
  for (gsize i = 0; i < G_N_ELEMENTS (keys); i++)
    {
      const SwField *field = sw_struct_field (&type->body, keys[i]);
      if (field != NULL && field->kind == SW_FIELD_ENUM)
        return sw_word (field->words[SW_AT (record, field, int)].label);
    }
  return sw_word (type->label);
}

char *
sw_plan_title (const SwRecord *record, SwLengths lengths)
{
  const char *name = own_name (record);
  g_autofree char *call = sw_record_call (record, own_kind (record));
  g_autoptr (GString) title = g_string_new (call);
  if (sw_record_table (record) == SW_TABLE_RUN)
    {
      char size[SW_LENGTH_BUF];
      g_string_append_printf (title, ", %s", sw_length_write (((const SwRun *) record)->od, lengths, SW_LENGTH_UNIT, 0, size));
    }
  if (name != NULL)
    g_string_append_printf (title, ", %s", name);
  return g_strdup (title->str);
}
