/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Schedules for the electrician beside conduits and circuits: cables, what may have to be bonded, and where drops, boxes and
 * lights are set out. */
#include "circuits/contents.h"
#include "estimate/run_facts.h"
#include "sheets/place.h"
#include "sheets/schedule_parts.h"
#include "space/space.h"

/* ---- cables */

static const SwScheduleColumn cable_columns[] = {
  SW_COLUMN_TEXT ("number", N_("No.")),
  SW_COLUMN_TEXT ("circuit", N_("Circuit")),
  SW_COLUMN_TEXT ("service", N_("Service")),
  SW_COLUMN_TEXT ("from", N_("From")),
  SW_COLUMN_TEXT ("to", N_("To")),
  SW_COLUMN_COUNT ("cables", N_("Cables")),
  SW_COLUMN_NUMBER ("cable_mm2", N_("Conductor"), "mm²", 1),
  SW_COLUMN_NUMBER ("diameter_mm", N_("Outside diameter"), "mm", 1),
  SW_COLUMN_M ("each_m", N_("Each, with boxes and boards")),
  SW_COLUMN_M ("total_m", N_("Length in all")),
  SW_COLUMN_TEXT ("contents", N_("Contents")),
};

static void
put_item (SwSchedule *schedule, const SwSheetContext *context, const SwRunFacts *facts, const SwCableItem *item)
{
  SwJob *job = sw_sheet_job (context);
  const SwRun *run = facts->run;
  const SwRecord *circuit = sw_job_get (job, run->circuit);
  double each = sw_run_facts_cable (facts, context->rules) / 1000;
  SwRuleValue size = { .value = item->diameter };
  if (item->mm2 > 0)
    sw_rules_lookup_at (context->rules, "cable.singles", item->mm2, SW_RULE_EXACT, "stranded_mm", &size, NULL);
  sw_schedule_begin_row (schedule, run->record.id);
  sw_schedule_put (schedule, run->record.tag);
  sw_schedule_put (schedule, circuit != NULL ? circuit->tag : NULL);
  sw_schedule_put (schedule, sw_sheet_word (SW_TABLE_RUN, "service", run->service));
  sw_schedule_put_take (schedule, sw_sheet_end_name (job, run->start));
  sw_schedule_put_take (schedule, sw_sheet_end_name (job, run->end));
  sw_schedule_put_count (schedule, item->n);
  sw_schedule_put_number (schedule, item->mm2 > 0 ? item->mm2 : NAN);
  sw_schedule_put_number (schedule, size.value > 0 ? size.value : NAN);
  sw_schedule_put_number (schedule, each);
  sw_schedule_put_number (schedule, each * item->n);
  sw_schedule_put (schedule, run->contents);
}

static void
fill_cables (SwSchedule *schedule, const SwSheetContext *context)
{
  g_autoptr (GPtrArray) runs = sw_sheet_records (sw_sheet_job (context), SW_TABLE_RUN);
  for (guint i = 0; i < runs->len; i++)
    {
      const SwRun *run = g_ptr_array_index (runs, i);
      g_autoptr (GArray) items = sw_circuits_contents (run->contents);
      if (!sw_service_is_electric ((SwService) run->service) || items->len == 0)
        continue;
      g_autoptr (SwRunFacts) facts = sw_run_facts_new (context->deck, context->rules, run);
      for (guint k = 0; k < items->len && facts->route != NULL; k++)
        put_item (schedule, context, facts, &g_array_index (items, SwCableItem, k));
    }
}

/* ---- bonding */

static const SwScheduleColumn bonding_columns[] = {
  SW_COLUMN_TEXT ("number", N_("No.")),
  SW_COLUMN_TEXT ("what", N_("What")),
  SW_COLUMN_TEXT ("bay", N_("Bay")),
  SW_COLUMN_TEXT ("voids", N_("Voids")),
  SW_COLUMN_TEXT ("asked", N_("To be asked")),
};

static gboolean
is_metal (int material)
{
  return material == SW_MATERIAL_STEEL || material == SW_MATERIAL_COPPER || material == SW_MATERIAL_BRASS || material == SW_MATERIAL_CAST_IRON;
}

/* From outside the deck: it starts or ends at an exit, or at nothing that has a name. */
static gboolean
enters (const SwJob *job, const SwRun *run)
{
  const SwId ends[] = { run->start, run->end };
  for (guint i = 0; i < G_N_ELEMENTS (ends); i++)
    {
      const SwRecord *end = ends[i] != 0 ? sw_job_get (job, ends[i]) : NULL;
      if (end == NULL || (sw_record_table (end) == SW_TABLE_FITTING && ((const SwFitting *) end)->kind == SW_FITTING_EXIT))
        return TRUE;
    }
  return FALSE;
}

const char *
sw_schedule_bonding_words (const SwJob *job, const SwRun *run)
{
  if (!is_metal (run->material) || run->service == SW_SERVICE_DUCT)
    return "";
  if (sw_service_is_electric ((SwService) run->service))
    return _("metal conduit: is it continuous to earth through boxes and couplers? The electrician decides");
  return enters (job, run) ? _("metal pipe that may come in from outside: is it bonded there? The electrician decides")
                           : _("metal pipe: is it bonded? The electrician decides");
}

/* Numbers of the bay's voids in which runs of some kind lie: "2, 4, 6". */
static char *
voids_text (const SwSheetContext *context, const SwDeckBay *bay, gboolean (*counts) (const SwRun *run), SwId only)
{
  GString *text = g_string_new (NULL);
  g_autofree gboolean *held = g_new0 (gboolean, bay->voids->len + 1);
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_sheet_job (context), SW_TABLE_RUN); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwRun *run = (const SwRun *) record;
      g_autoptr (SwRoute) route = (only == 0 || record->id == only) && counts (run) ? sw_route_new (context->deck, context->rules, run, NULL) : NULL;
      for (guint v = 0; route != NULL && v + 1 < route->n; v++)
        {
          SwPoint3 middle = sw_point3_lerp (route->axis[v], route->axis[v + 1], 0.5);
          SwPoint at = { middle.x, middle.y };
          int over = sw_deck_bay_at (context->deck, at) == bay ? sw_deck_void_at (bay, sw_deck_to_bay (bay, at).y) : -1;
          if (over >= 0 && middle.z > sw_deck_soffit (bay, at) && middle.z < sw_deck_crown (bay, at))
            held[over] = TRUE;
        }
    }
  for (guint v = 0; v < bay->voids->len; v++)
    if (held[v])
      g_string_append_printf (text, "%s%d", text->len > 0 ? ", " : "", g_array_index (bay->voids, SwVoid, v).number);
  return g_string_free (text, FALSE);
}

static gboolean
is_conduit (const SwRun *run)
{
  return sw_service_is_electric ((SwService) run->service);
}

static gboolean
is_any (const SwRun *run)
{
  return TRUE;
}

static void
put_troughs (SwSchedule *schedule, const SwSheetContext *context, const SwDeckBay *bay)
{
  g_autofree char *voids = voids_text (context, bay, is_conduit, 0);
  if (*voids == '\0')
    return;
  sw_schedule_begin_row (schedule, bay->bay->record.id);
  sw_schedule_put (schedule, bay->bay->record.tag);
  sw_schedule_put (schedule, _("steel troughs in which cables lie"));
  sw_schedule_put (schedule, bay->bay->record.tag);
  sw_schedule_put (schedule, voids);
  sw_schedule_put (schedule, _("the troughs are not joined to each other: are they bonded, and where? The electrician decides"));
}

static void
put_metal_run (SwSchedule *schedule, const SwSheetContext *context, const SwRun *run)
{
  const char *asked = sw_schedule_bonding_words (sw_sheet_job (context), run);
  const SwDeckBay *bay = run->vertices.n > 0 ? sw_deck_bay_at (context->deck, SW_LIST_AT (run->vertices, SwVertex, 0).at) : NULL;
  g_autofree char *voids = bay != NULL && *asked != '\0' ? voids_text (context, bay, is_any, run->record.id) : NULL;
  if (*asked == '\0')
    return;
  sw_schedule_begin_row (schedule, run->record.id);
  sw_schedule_put (schedule, run->record.tag);
  sw_schedule_put_take (schedule, g_strdup_printf ("%s, %s", sw_sheet_word (SW_TABLE_RUN, "service", run->service), sw_sheet_word (SW_TABLE_RUN, "material", run->material)));
  sw_schedule_put (schedule, bay != NULL ? bay->bay->record.tag : NULL);
  sw_schedule_put (schedule, voids);
  sw_schedule_put (schedule, asked);
}

static void
fill_bonding (SwSchedule *schedule, const SwSheetContext *context)
{
  g_autoptr (GPtrArray) runs = sw_sheet_records (sw_sheet_job (context), SW_TABLE_RUN);
  for (guint i = 0; i < sw_deck_n_bays (context->deck); i++)
    put_troughs (schedule, context, sw_deck_bay (context->deck, i));
  for (guint i = 0; i < runs->len; i++)
    put_metal_run (schedule, context, g_ptr_array_index (runs, i));
}

/* ---- set-out */

static const SwScheduleColumn set_out_columns[] = {
  SW_COLUMN_TEXT ("number", N_("No.")),
  SW_COLUMN_TEXT ("what", N_("What")),
  SW_COLUMN_TEXT ("name", N_("Name")),
  SW_COLUMN_TEXT ("room", N_("Room")),
  SW_COLUMN_TEXT ("circuit", N_("Circuit")),
  SW_COLUMNS_GRID,
  SW_COLUMNS_WALLS,
  SW_COLUMNS_ADDRESS,
  SW_COLUMN_MM ("floor_mm", N_("Above the finished floor")),
  SW_COLUMN_MM ("level_mm", N_("Above level line")),
  SW_COLUMN_TEXT ("wall", N_("In wall")),
  SW_COLUMN_MM ("along_mm", N_("Along it from its start")),
  SW_COLUMN_MM ("chase_mm", N_("Chase")),
  SW_COLUMN_MM ("chase_most_mm", N_("Chase at most")),
};

typedef struct
{
  const SwRecord *record;
  const char *what, *name;
  SwId circuit;
  SwPoint at;
  double z;
  const SwWall *wall; /* NULL: not in a wall; then `drop` is not looked at */
  const SwDrop *drop;
} Mark;

/* An upright chase: a share of the leaf. */
static double
chase_most (const SwRules *rules, const SwWall *wall)
{
  return wall->thickness / sw_rules_value (rules, "drops.chases", "vertical_divisor").value;
}

static void
put_mark (SwSchedule *schedule, const SwSheetContext *context, const Mark *mark)
{
  const SwRoom *room = sw_deck_room_beside (context->deck, mark->at, mark->wall != NULL ? mark->wall->thickness : 0);
  const SwRecord *circuit = sw_job_get (sw_sheet_job (context), mark->circuit);
  SwPoint face = mark->at; /* where a tape begins that reads along the wall */
  if (room != NULL && !sw_outline_holds (room->outline.items, room->outline.n, mark->at))
    sw_outline_distance (room->outline.items, room->outline.n, mark->at, NULL, &face);
  sw_schedule_begin_row (schedule, mark->record->id);
  sw_schedule_put (schedule, mark->record->tag);
  sw_schedule_put (schedule, mark->what);
  sw_schedule_put (schedule, mark->name);
  sw_schedule_put (schedule, room != NULL ? room->record.tag : NULL);
  sw_schedule_put (schedule, circuit != NULL ? circuit->tag : NULL);
  sw_schedule_put_grid (schedule, context, mark->at);
  sw_schedule_put_walls (schedule, context, room, face);
  sw_schedule_put_address (schedule, context, mark->at);
  sw_schedule_put_number (schedule, sw_deck_z_to_floor (context->deck, mark->z));
  sw_schedule_put_number (schedule, sw_schedule_from_line (context, mark->z));
  sw_schedule_put (schedule, mark->wall != NULL ? mark->wall->record.tag : NULL);
  sw_schedule_put_number (schedule, mark->wall != NULL ? mark->drop->along : NAN);
  sw_schedule_put_number (schedule, mark->wall != NULL && mark->drop->chase_depth > 0 ? mark->drop->chase_depth : NAN);
  sw_schedule_put_number (schedule, mark->wall != NULL ? chase_most (context->rules, mark->wall) : NAN);
}

static void
put_drop (SwSchedule *schedule, const SwSheetContext *context, const SwDrop *drop)
{
  const SwRecord *wall = sw_job_get (sw_sheet_job (context), drop->wall);
  if (wall == NULL || sw_record_table (wall) != SW_TABLE_WALL)
    return;
  const SwWall *in = (const SwWall *) wall;
  double length = sw_point_distance (in->from, in->to);
  Mark mark = { &drop->record, sw_sheet_word (SW_TABLE_DROP, "kind", drop->kind), "", drop->circuit,
                sw_point_lerp (in->from, in->to, length > 0 ? drop->along / length : 0), sw_deck_z_from_floor (context->deck, drop->height), in, drop };
  put_mark (schedule, context, &mark);
}

static void
fill_set_out (SwSchedule *schedule, const SwSheetContext *context)
{
  static const guint32 boxes = 1u << SW_FITTING_BOX | 1u << SW_FITTING_BOARD | 1u << SW_FITTING_DRIVER | 1u << SW_FITTING_OTHER;
  SwJob *job = sw_sheet_job (context);
  g_autoptr (GPtrArray) drops = sw_sheet_records (job, SW_TABLE_DROP), fittings = sw_sheet_records (job, SW_TABLE_FITTING), lights = sw_sheet_records (job, SW_TABLE_LIGHT);
  for (guint i = 0; i < drops->len; i++)
    put_drop (schedule, context, g_ptr_array_index (drops, i));
  for (guint i = 0; i < fittings->len; i++)
    {
      const SwFitting *fitting = g_ptr_array_index (fittings, i);
      const SwRecord *run = sw_job_get (job, fitting->run);
      Mark mark = { &fitting->record, sw_sheet_word (SW_TABLE_FITTING, "kind", fitting->kind), fitting->name, run != NULL ? ((const SwRun *) run)->circuit : 0,
                    fitting->at, sw_route_level_z (context->deck, fitting->at, fitting->height, (SwLevel) fitting->level, fitting->z), NULL, NULL };
      if (boxes & 1u << fitting->kind)
        put_mark (schedule, context, &mark);
    }
  for (guint i = 0; i < lights->len; i++)
    {
      const SwLight *light = g_ptr_array_index (lights, i);
      const SwRoom *room = sw_deck_room_at (context->deck, light->at);
      double z = room != NULL ? sw_deck_ceiling_face (context->deck, room) : sw_deck_soffit_at (context->deck, light->at);
      put_mark (schedule, context, &(Mark){ &light->record, _("downlight"), light->name, light->circuit, light->at, z, NULL, NULL });
    }
}

const SwScheduleKind sw_schedule_cables = SW_SCHEDULE ("cables", N_("Cables"), N_("Cables of every conduit by number and size, with their lengths"), cable_columns, fill_cables);
const SwScheduleKind sw_schedule_bonding = SW_SCHEDULE ("bonding", N_("Bonding"), N_("Steel troughs with cables, metal conduits and metal pipes: what the electrician decides on"),
                                                        bonding_columns, fill_bonding);
const SwScheduleKind sw_schedule_set_out = SW_SCHEDULE ("set-out", N_("Set-out of drops, boxes and lights"), N_("Every drop, box and light from grid lines and walls, with its height"),
                                                        set_out_columns, fill_set_out);
