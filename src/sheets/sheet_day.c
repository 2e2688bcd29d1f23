/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The day sheet of a room: its plan, what is to be fixed there with its set-out, the room's snags and hold points, and room
 * to write down who worked and what was left. */
#include "base/error.h"
#include "base/number.h"
#include "estimate/run_facts.h"
#include "geometry/outline.h"
#include "sheets/place.h"
#include "sheets/sheet_room_pages.h"

#define PLAN_HIGH_MM 120.0 /* greatest height of the plan, which stands above two columns */
#define LEFT_MM 124.0      /* the column to write in */
#define GAP 4.0
#define SNAGS_MM 12.0 /* kept for saying where the snags are */

static const guint64 day_layers = SW_LAYERS_ALL & ~(SW_LAYER_BIT (SW_LAYER_BOARDS) | SW_LAYER_BIT (SW_LAYER_BATTENS) | SW_LAYER_BIT (SW_LAYER_SNAGS)
                                                     | SW_LAYER_BIT (SW_LAYER_MEASURES) | SW_LAYER_BIT (SW_LAYER_GRID));

static void
add_cells (GPtrArray *texts, const char *mark, char *what, char *where)
{
  g_ptr_array_add (texts, g_strdup (mark));
  g_ptr_array_add (texts, what);
  g_ptr_array_add (texts, where);
  g_ptr_array_add (texts, g_strdup (""));
}

/* "A + 2300, 4 − 650". */
static char *
set_out_text (const SwSheetContext *context, const SwSetOut *set_out)
{
  const SwDatum *datums[] = { &set_out->x, &set_out->y };
  GString *text = g_string_new (NULL);
  for (guint i = 0; i < 2; i++)
    if (datums[i]->name != NULL)
      {
        g_autofree char *length = sw_sheet_length (context, fabs (datums[i]->mm), SW_LENGTH_DIM);
        g_string_append_printf (text, "%s%s %s %s", text->len > 0 ? ", " : "", datums[i]->name, datums[i]->mm < 0 ? "−" : "+", length);
      }
  return g_string_free (text, FALSE);
}

static char *
from_walls (const SwSheetMaker *maker, const SwRoom *room, SwPoint at)
{
  g_auto (SwSetOut) walls = sw_set_out_from_walls (sw_sheet_job (maker->context), room, at);
  return set_out_text (maker->context, &walls);
}

static char *
run_text (const SwSheetContext *context, const SwRun *run)
{
  g_autofree char *size = sw_sheet_length (context, run->od, SW_LENGTH_UNIT);
  const char *service = sw_sheet_word (SW_TABLE_RUN, "service", run->service);
  return run->fall > 0 ? g_strdup_printf (_("%s %s, fall 1:%.0f"), service, size, run->fall) : g_strdup_printf ("%s %s", service, size);
}

static void
add_runs (const SwSheetMaker *maker, const SwRoom *room, GPtrArray *texts)
{
  const SwSheetContext *context = maker->context;
  g_autoptr (GPtrArray) runs = sw_sheet_records (sw_sheet_job (context), SW_TABLE_RUN);
  for (guint i = 0; i < runs->len; i++)
    {
      const SwRun *run = g_ptr_array_index (runs, i);
      g_autoptr (SwRoute) route = sw_route_new (context->deck, context->rules, run, NULL);
      SwPoint first;
      if (route == NULL || !sw_sheet_run_in_room (context->deck, route, room, &first))
        continue;
      g_autofree char *place = sw_place_short (context->deck, first);
      g_autofree char *low = sw_sheet_level_text (context, route->axis[0].z - route->outer);
      g_autofree char *high = sw_sheet_level_text (context, route->axis[route->n - 1].z - route->outer);
      add_cells (texts, run->record.tag, run_text (context, run), g_strdup_printf (_("%s; underside %s to %s"), place, low, high));
    }
}

/* What stands at one place: its table, and how it is described. */
static char *
light_text (const SwSheetContext *context, const SwRecord *record)
{
  g_autofree char *size = sw_sheet_length (context, ((const SwLight *) record)->cut_out, SW_LENGTH_UNIT);
  return g_strdup_printf (_("downlight, cut-out %s"), size);
}

static char *
drop_in_text (const SwSheetContext *context, const SwRecord *record)
{
  const SwDropIn *drop_in = (const SwDropIn *) record;
  g_autofree char *size = sw_sheet_length (context, drop_in->hole, SW_LENGTH_UNIT);
  return g_strdup_printf (_("%s, hole %s from above"), drop_in->fixture, size);
}

static char *
fitting_text (const SwSheetContext *context, const SwRecord *record)
{
  return g_strdup (sw_sheet_word (SW_TABLE_FITTING, "kind", ((const SwFitting *) record)->kind));
}

static char *
hatch_text (const SwSheetContext *context, const SwRecord *record)
{
  g_autofree char *length = sw_sheet_length (context, ((const SwHatch *) record)->length, SW_LENGTH_BARE);
  g_autofree char *width = sw_sheet_length (context, ((const SwHatch *) record)->width, SW_LENGTH_UNIT);
  return g_strdup_printf (_("hatch %s × %s"), length, width);
}

static const struct
{
  SwTable table;
  gsize at; /* of its place */
  char *(*text) (const SwSheetContext *context, const SwRecord *record);
} standing[] = {
  { SW_TABLE_LIGHT, G_STRUCT_OFFSET (SwLight, at), light_text },
  { SW_TABLE_DROP_IN, G_STRUCT_OFFSET (SwDropIn, at), drop_in_text },
  { SW_TABLE_FITTING, G_STRUCT_OFFSET (SwFitting, at), fitting_text },
  { SW_TABLE_HATCH, G_STRUCT_OFFSET (SwHatch, at), hatch_text },
};

static void
add_standing (const SwSheetMaker *maker, const SwRoom *room, GPtrArray *texts)
{
  for (guint t = 0; t < G_N_ELEMENTS (standing); t++)
    {
      g_autoptr (GPtrArray) records = sw_sheet_records (sw_sheet_job (maker->context), standing[t].table);
      for (guint i = 0; i < records->len; i++)
        {
          const SwRecord *record = g_ptr_array_index (records, i);
          SwPoint at = *(const SwPoint *) G_STRUCT_MEMBER_P (record, standing[t].at);
          if (sw_deck_room_at (maker->context->deck, at) == room)
            add_cells (texts, record->tag, standing[t].text (maker->context, record), from_walls (maker, room, at));
        }
    }
}

/* Drops come down the walls round the room, or through it: set out from the faces of the room's walls, where a tape begins. */
static void
add_drops (const SwSheetMaker *maker, const SwRoom *room, GPtrArray *texts)
{
  const SwSheetContext *context = maker->context;
  SwJob *job = sw_sheet_job (context);
  SwBox box = sw_record_box (&room->record);
  g_autoptr (GPtrArray) drops = sw_sheet_records (job, SW_TABLE_DROP);
  for (guint i = 0; i < drops->len; i++)
    {
      const SwDrop *drop = g_ptr_array_index (drops, i);
      const SwWall *wall = (const SwWall *) sw_job_get (job, drop->wall);
      double length = wall != NULL ? sw_point_distance (wall->from, wall->to) : 0, reach = wall != NULL ? wall->thickness : 0;
      SwPoint at = length > 0 ? sw_point_lerp (wall->from, wall->to, drop->along / length) : (SwPoint){ INFINITY, INFINITY };
      if (at.x < box.low.x - reach || at.x > box.high.x + reach || at.y < box.low.y - reach || at.y > box.high.y + reach)
        continue;
      SwPoint face = at;
      if (!sw_outline_holds (room->outline.items, room->outline.n, at))
        sw_outline_distance (room->outline.items, room->outline.n, at, NULL, &face);
      g_autofree char *place = from_walls (maker, room, face), *height = sw_sheet_length (context, drop->height, SW_LENGTH_UNIT);
      g_autofree char *chase = sw_sheet_length (context, drop->chase_depth, SW_LENGTH_UNIT);
      add_cells (texts, drop->record.tag, g_strdup_printf (_("%s, chase %s"), sw_sheet_word (SW_TABLE_DROP, "kind", drop->kind), chase),
                 g_strdup_printf (_("in %s: %s, %s above the floor"), wall->record.tag, place, height));
    }
}

/* Plates that runs of the room meet are hold points: what stays until the engineer's release, what may come out. */
static void
add_plates (const SwSheetMaker *maker, const SwRoom *room, GPtrArray *texts)
{
  const SwSheetContext *context = maker->context;
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_sheet_job (context), SW_TABLE_PLATE); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwPlate *plate = (const SwPlate *) record;
      const SwDeckBay *bay = sw_deck_bay_of (context->deck, plate->bay);
      for (guint k = 0; bay != NULL && k < bay->plates->len; k++)
        {
          const SwDeckPlate *one = &g_array_index (bay->plates, SwDeckPlate, k);
          const SwVoid *over = &g_array_index (bay->voids, SwVoid, one->void_index);
          SwPoint at = sw_deck_from_bay (bay, (SwPoint){ one->u, over->v });
          if (one->record != plate || !one->released || one->out || sw_deck_room_at (context->deck, at) != room)
            continue;
          g_autofree char *of = g_strdup_printf (_("bay %s, void %d, plate %d"), bay->bay->record.tag, over->number, one->number);
          add_cells (texts, record->tag, g_strdup (_("plate, take out")), g_strdup_printf (_("%s; released by %s, %s"), of, plate->released_by, plate->reference));
        }
    }
}

static GPtrArray *
snag_texts (const SwSheetMaker *maker, const SwRoom *room)
{
  const SwSnags *snags = maker->context->snags;
  GPtrArray *texts = g_ptr_array_new_with_free_func (g_free);
  for (guint i = 0; snags != NULL && i < sw_snags_n (snags); i++)
    {
      const SwSnag *snag = sw_snags_get (snags, i);
      if (snag->room != room->record.id)
        continue;
      g_autoptr (SwSnagText) text = sw_snag_text (snags, snag, sw_word);
      g_ptr_array_add (texts, sw_sheet_snag_number (snags, i));
      g_ptr_array_add (texts, g_strdup (text->sentence));
      g_ptr_array_add (texts, g_strdup (""));
    }
  return texts;
}

/* "survey passed; soil and waste test open …" of what has to come before closing, in one line. */
static char *
hold_text (const SwSheetMaker *maker, const SwRoom *room)
{
  GString *text = g_string_new (NULL);
  for (int kind = SW_HOLD_SURVEY; kind <= SW_HOLD_CLOSE; kind++)
    {
      const SwHoldPoint *hold = sw_sheet_hold_point (sw_sheet_job (maker->context), room->record.id, kind);
      if (hold == NULL || hold->result != SW_RESULT_PASSED)
        g_string_append_printf (text, "%s%s", text->len > 0 ? "; " : "", sw_sheet_word (SW_TABLE_HOLD_POINT, "kind", kind));
    }
  return g_string_free (text, FALSE);
}

static void
add_left (const SwSheetMaker *maker, const SwSheetDraft *draft, SwBox area, const SwRoom *room)
{
  const SwWriteLine lines[] = { { _("Date, weather"), maker->context->date }, { _("Crew, hours"), NULL }, { _("Done today"), NULL }, { "", NULL },
                                { _("Left, held up by"), NULL }, { "", NULL }, { _("Signature"), NULL } };
  g_autofree char *open = hold_text (maker, room);
  double y = sw_paragraph_add_heading (&draft->pen, (SwPoint){ area.low.x, area.high.y }, LEFT_MM, _("Hold points still open before closing"));
  y = sw_paragraph_add (&draft->pen, (SwPoint){ area.low.x, y }, LEFT_MM, *open != '\0' ? open : _("none")) - GAP;
  sw_sheet_add_write_lines (draft, (SwPoint){ area.low.x, y }, LEFT_MM, 34, lines, G_N_ELEMENTS (lines));
}

static void
draw_room (SwSheetMaker *maker, const SwRoom *room, const SwDisplay *drawn, const GArray *legend)
{
  const char *notes[] = { _("Set-out from the walls named; levels above the level line; places in voids as numbered on the plan."), NULL };
  SwBox area, box = sw_record_box (&room->record);
  SwBox sheet = sw_box_grow (sw_sheet_area (&maker->page), -GAP);
  double scale = sw_sheet_fitting_scale (box, (SwBox){ { sheet.low.x, 0 }, { sheet.high.x, PLAN_HIGH_MM } });
  SwSheetDraft *draft = sw_sheet_begin_room (maker, room, scale, &area);
  SwSheetColumn column = { (const SwLegendEntry *) (gpointer) legend->data, legend->len, notes, TRUE, TRUE, box, TRUE };
  sw_sheet_add_column (maker, draft, &column);
  double plan_mm = fmin ((box.high.y - box.low.y) / scale + 20, PLAN_HIGH_MM);
  sw_sheet_add_part (maker, draft, drawn, (SwBox){ { area.low.x, area.high.y - plan_mm }, area.high }, box, scale, TRUE, NULL, NULL);
  area.high.y -= plan_mm + GAP;
  add_left (maker, draft, area, room);
  double left = area.low.x + LEFT_MM + GAP, width = area.high.x - left;
  const SwListColumn work[] = { { _("No."), 15, SW_ALIGN_LEFT }, { _("What"), 50, SW_ALIGN_LEFT }, { _("Where"), width - 79, SW_ALIGN_LEFT }, { _("Fixed"), 14, SW_ALIGN_LEFT } };
  const SwListColumn mend[] = { { _("No."), 15, SW_ALIGN_LEFT }, { _("Snag"), width - 35, SW_ALIGN_LEFT }, { _("Mended"), 20, SW_ALIGN_LEFT } };
  g_autoptr (GPtrArray) things = g_ptr_array_new_with_free_func (g_free), snags = snag_texts (maker, room);
  add_runs (maker, room, things);
  add_standing (maker, room, things);
  add_drops (maker, room, things);
  add_plates (maker, room, things);
  SwTextList list = { work, 4, (const char *const *) things->pdata, things->len / 4 }, second = { mend, 3, (const char *const *) snags->pdata, snags->len / 3 };
  double y = sw_sheet_add_list_on (maker, draft, (SwBox){ { left, area.low.y + SNAGS_MM + GAP }, area.high }, _("To be fixed"), room->record.tag, &list) - GAP;
  sw_sheet_add_list_on (maker, draft, (SwBox){ { left, area.low.y }, { area.high.x, fmax (y, area.low.y + SNAGS_MM) } }, _("Snags"), room->record.tag, &second);
}

gboolean
sw_sheet_draw_days (SwSheetMaker *maker, GError **error)
{
  g_autoptr (GPtrArray) rooms = sw_sheet_records (sw_sheet_job (maker->context), SW_TABLE_ROOM);
  g_autoptr (GArray) legend = sw_sheet_plan_legend (maker, day_layers);
  g_autoptr (SwDisplay) drawn = sw_display_new ();
  sw_plan_draw (drawn, maker->context->deck, day_layers);
  sw_display_seal (drawn);
  for (guint i = 0; i < rooms->len; i++)
    draw_room (maker, g_ptr_array_index (rooms, i), drawn, legend);
  if (rooms->len > 0)
    return TRUE;
  g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, "the job has no rooms to make day sheets for");
  return FALSE;
}
