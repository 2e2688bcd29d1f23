/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Plans on paper. Plans to work from are drawn at 1:50, others at the first of 1:50 and 1:100 at which the deck fits beside the column,
 * else at 1:100, unless another scale is asked for. What one page does not hold is parted into fields, one a page, each with what lies
 * round it; the key plan says which field a page shows. */
#include "drawing/dimension.h"
#include "sheets/page_fields.h"
#include "sheets/sheet_plan.h"

#define RINGS_MM 27.0  /* for rings and dimensions at the page's left and top */
#define EDGE_MM 7.0    /* at the other sides */
#define GRID_OVER_MM 13.0
#define CHAIN_MM 7.0
#define EDGE_OF_CHAIN_MM 4.5 /* as near to the plan as its figures come */
#define RING_MM 4.5 /* radius of a grid line's ring and its rim */
#define OVERLAP_MM 6.0

typedef struct
{
  SwBox deck, area;
  double scale;
  GArray *x, *y;  /* double: where fields begin, and where the last ends */
} Fields;

static SwBox
content_box (const SwJob *job)
{
  static const SwTable tables[] = { SW_TABLE_BAY, SW_TABLE_ROOM, SW_TABLE_WALL, SW_TABLE_COLUMN };
  SwBox box = SW_BOX_EMPTY;
  const SwRecord *record;
  for (guint t = 0; t < G_N_ELEMENTS (tables); t++)
    for (SwJobIter i = sw_job_iter (job, tables[t]); (record = sw_job_iter_next (&i)) != NULL;)
      box = sw_box_union (box, sw_record_box (record));
  return sw_box_is_empty (box) ? (SwBox){ { 0, 0 }, { 1000, 1000 } } : box;
}

static SwPoint
room_on_page (SwBox area)
{
  return (SwPoint){ area.high.x - area.low.x - RINGS_MM - EDGE_MM, area.high.y - area.low.y - RINGS_MM - EDGE_MM };
}

static gboolean
fits (SwBox deck, SwPoint room, double scale)
{
  return (deck.high.x - deck.low.x) / scale <= room.x + 1e-6 && (deck.high.y - deck.low.y) / scale <= room.y + 1e-6;
}

static double
usual_scale (const SwSheetMaker *maker, SwBox deck, SwPoint room)
{
  return maker->kind->plan->working || fits (deck, room, maker->info->scale) ? maker->info->scale : maker->info->scale * 2;
}

static Fields
choose_fields (const SwSheetMaker *maker)
{
  Fields fields = { .deck = content_box (sw_sheet_job (maker->context)), .area = sw_sheet_area (&maker->page) };
  SwPoint room = room_on_page (fields.area);
  fields.scale = maker->context->options.scale;
  if (fields.scale <= 0)
    fields.scale = usual_scale (maker, fields.deck, room);
  g_autoptr (GArray) x = g_array_new (FALSE, FALSE, sizeof (SwSpan)), y = g_array_new (FALSE, FALSE, sizeof (SwSpan));
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_sheet_job (maker->context), SW_TABLE_ROOM); (record = sw_job_iter_next (&i)) != NULL;)
    {
      SwBox box = sw_record_box (record);
      SwSpan across = { box.low.x, box.high.x }, up = { box.low.y, box.high.y };
      g_array_append_val (x, across);
      g_array_append_val (y, up);
    }
  fields.x = sw_page_fields ((SwSpan){ fields.deck.low.x, fields.deck.high.x }, room.x * fields.scale, x);
  fields.y = sw_page_fields ((SwSpan){ fields.deck.low.y, fields.deck.high.y }, room.y * fields.scale, y);
  return fields;
}

static guint
n_fields (const Fields *fields)
{
  return (fields->x->len - 1) * (fields->y->len - 1);
}

/* Fields count as one reads: from the page's left, top row first. */
static SwBox
field_box (const Fields *fields, guint number, gboolean mirrored)
{
  guint across = fields->x->len - 1, column = number % across, row = fields->y->len - 2 - number / across;
  column = mirrored ? across - 1 - column : column;
  return (SwBox){ { g_array_index (fields->x, double, column), g_array_index (fields->y, double, row) },
                  { g_array_index (fields->x, double, column + 1), g_array_index (fields->y, double, row + 1) } };
}

/* The job's place that lies at the page's left or right, and at its top. */
static double
left_of (const SwSheetPlan *plan)
{
  return plan->mirrored ? plan->content.high.x : plan->content.low.x;
}

typedef struct
{
  GArray *upright, *level; /* SwPoint where lines meet the content's top and left */
} Chains;

/* Cuts the line to the content and beyond, so that its ring stands at the page's top or left. */
static void
add_ring_line (const SwSheetPlan *plan, SwPoint from, SwPoint to, const char *name)
{
  SwPoint way = sw_point_sub (to, from), middle = sw_point_add (to, sw_point_scale (way, RING_MM * plan->scale / sw_point_length (way)));
  sw_furniture_add_grid_line (&plan->pen, from, to, name, FALSE);
  sw_labels_block (plan->labels, sw_box_grow ((SwBox){ middle, middle }, RING_MM * plan->scale));
}

static void
add_gridline (const SwSheetPlan *plan, const SwGridline *line, Chains *chains)
{
  SwPoint way = sw_point_sub (line->to, line->from);
  SwBox box = plan->content;
  double over = GRID_OVER_MM * plan->scale, short_over = 3 * plan->scale, left = left_of (plan), out = plan->mirrored ? 1 : -1;
  if (fabs (way.y) >= fabs (way.x))
    {
      double bend = way.x / way.y, top = box.high.y, bottom = box.low.y;
      double x_top = line->from.x + (top - line->from.y) * bend, x_bottom = line->from.x + (bottom - line->from.y) * bend;
      SwPoint at = { x_top, top };
      if (fmax (x_top, x_bottom) < box.low.x - 1 || fmin (x_top, x_bottom) > box.high.x + 1)
        return;
      g_array_append_val (chains->upright, at);
      add_ring_line (plan, (SwPoint){ x_bottom - short_over * bend, bottom - short_over }, (SwPoint){ x_top + over * bend, top + over }, line->record.tag);
      return;
    }
  double bend = way.y / way.x, right = plan->mirrored ? box.low.x : box.high.x;
  double y_left = line->from.y + (left - line->from.x) * bend, y_right = line->from.y + (right - line->from.x) * bend;
  SwPoint at = { left, y_left };
  if (fmax (y_left, y_right) < box.low.y - 1 || fmin (y_left, y_right) > box.high.y + 1)
    return;
  g_array_append_val (chains->level, at);
  add_ring_line (plan, (SwPoint){ right - out * short_over, y_right - out * short_over * bend },
                              (SwPoint){ left + out * over, y_left + out * over * bend }, line->record.tag);
}

void
sw_sheet_plan_add_grid (const SwSheetPlan *plan)
{
  Chains chains = { g_array_new (FALSE, FALSE, sizeof (SwPoint)), g_array_new (FALSE, FALSE, sizeof (SwPoint)) };
  SwJob *job = sw_deck_job (plan->deck);
  const SwRecord *record;
  sw_display_begin_group (plan->display, &(SwDisplayGroup){ .id = "grid", .class_name = "grid" });
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_GRIDLINE); (record = sw_job_iter_next (&i)) != NULL;)
    if (sw_point_distance (((const SwGridline *) record)->from, ((const SwGridline *) record)->to) > 0)
      add_gridline (plan, (const SwGridline *) record, &chains);
  sw_display_end (plan->display);
  double chain = CHAIN_MM * plan->scale, left = left_of (plan), out = plan->mirrored ? 1 : -1, far = GRID_OVER_MM * out * plan->scale;
  sw_labels_block (plan->labels, (SwBox){ { fmin (left + out * EDGE_OF_CHAIN_MM * plan->scale, left + far), plan->content.low.y },
                                          { fmax (left + out * EDGE_OF_CHAIN_MM * plan->scale, left + far), plan->content.high.y } });
  sw_labels_block (plan->labels, (SwBox){ { plan->content.low.x, plan->content.high.y + EDGE_OF_CHAIN_MM * plan->scale },
                                          { plan->content.high.x, plan->content.high.y + GRID_OVER_MM * plan->scale } });
  sw_display_begin_group (plan->display, &(SwDisplayGroup){ .id = "grid-dimensions", .class_name = "dimensions" });
  if (chains.upright->len > 1)
    sw_dimension_add_chain (&plan->pen, (SwDimensionLine){ { plan->content.low.x, plan->content.high.y + chain }, 0 },
                            (const SwPoint *) (gpointer) chains.upright->data, chains.upright->len);
  if (chains.level->len > 1)
    sw_dimension_add_chain (&plan->pen, (SwDimensionLine){ { left + out * chain, plan->content.low.y }, G_PI / 2 },
                            (const SwPoint *) (gpointer) chains.level->data, chains.level->len);
  sw_display_end (plan->display);
  g_array_unref (chains.upright);
  g_array_unref (chains.level);
}

/* What of the job is drawn: the field with a little of what lies round it, and all that the deck's edges need. */
static SwBox
clip_of (const Fields *fields, SwBox field)
{
  double edge = 40 * fields->scale, inner = OVERLAP_MM * fields->scale;
  SwBox clip = { { field.low.x - (field.low.x > fields->deck.low.x + 1 ? inner : edge), field.low.y - (field.low.y > fields->deck.low.y + 1 ? inner : edge) },
                 { field.high.x + (field.high.x < fields->deck.high.x - 1 ? inner : edge), field.high.y + (field.high.y < fields->deck.high.y - 1 ? inner : edge) } };
  return clip;
}

/* Where the deck goes on, on another page. */
static void
draw_match_lines (const SwSheetPlan *plan, SwBox deck)
{
  static const SwStroke stroke = { .role = SW_ROLE_INK, .width = 0.7, .dash = SW_DASH_BREAK };
  SwBox f = plan->content;
  const struct { gboolean goes_on; SwPoint a, b; } sides[] = {
    { f.low.x > deck.low.x + 1, f.low, { f.low.x, f.high.y } }, { f.high.x < deck.high.x - 1, { f.high.x, f.low.y }, f.high },
    { f.low.y > deck.low.y + 1, f.low, { f.high.x, f.low.y } }, { f.high.y < deck.high.y - 1, { f.low.x, f.high.y }, f.high },
  };
  sw_display_begin_group (plan->display, &(SwDisplayGroup){ .id = "match-lines", .class_name = "match-lines" });
  for (guint i = 0; i < G_N_ELEMENTS (sides); i++)
    if (sides[i].goes_on)
      sw_display_add_line (plan->display, sides[i].a, sides[i].b, &stroke);
  sw_display_end (plan->display);
}

/* Closed rooms that nothing is drawn of. */
static guint
count_bare_rooms (const SwJob *job)
{
  guint bare = 0;
  const SwRecord *record, *layout;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_ROOM); (record = sw_job_iter_next (&i)) != NULL;)
    {
      gboolean laid = ((const SwRoom *) record)->finish != SW_FINISH_CLOSED;
      for (SwJobIter k = sw_job_iter (job, SW_TABLE_LAYOUT); !laid && (layout = sw_job_iter_next (&k)) != NULL;)
        laid = ((const SwLayout *) layout)->room == record->id;
      bare += !laid;
    }
  return bare;
}

/* What is drawn of ceilings must not pass for what the job holds, and what is not drawn must not pass for nothing. */
static char *
laid_note (const SwSheetMaker *maker, guint64 layers)
{
  guint n = maker->context->n_laid_here, bare = count_bare_rooms (sw_sheet_job (maker->context));
  if (!(layers & (SW_LAYER_BIT (SW_LAYER_BATTENS) | SW_LAYER_BIT (SW_LAYER_BOARDS))) || (n == 0 && bare == 0))
    return NULL;
  if (bare > 0)
    return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u closed room is not laid out and not drawn: laying it out says why.",
                                         "%u closed rooms are not laid out and not drawn: laying them out says why.", bare), bare);
  return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u ceiling was laid out for this print and is not kept in the job.",
                                       "%u ceilings were laid out for this print and are not kept in the job.", n), n);
}

static void
draw_page (SwSheetMaker *maker, const Fields *fields, guint number, gboolean mirrored, const SwDisplay *drawn, const GArray *legend)
{
  const SwSheetPlanKind *kind = maker->kind->plan;
  SwBox field = field_box (fields, number, mirrored), area = fields->area;
  SwSheetDraft *draft = sw_sheet_begin_page (maker, fields->scale);
  /* The field's middle comes to the middle of the room that rings and edges leave. */
  SwPoint middle = { (area.low.x + RINGS_MM + area.high.x - EDGE_MM) / 2, (area.low.y + EDGE_MM + area.high.y - RINGS_MM) / 2 };
  SwTransform to_page = sw_transform_view (sw_point_lerp (field.low, field.high, 0.5), middle, 1 / fields->scale, 0, mirrored);
  SwSheetPlan plan = { maker, maker->context->deck, draft->display, sw_sheet_pen (maker, draft->display, fields->scale), fields->scale, mirrored, field, NULL };
  SwBox clip = clip_of (fields, field), page = sw_transform_box (sw_transform_invert (to_page), sw_box_grow (area, -2));
  SwBox visible = { { fmax (clip.low.x, page.low.x), fmax (clip.low.y, page.low.y) }, { fmin (clip.high.x, page.high.x), fmin (clip.high.y, page.high.y) } };
  g_autoptr (SwLabels) labels = plan.labels = sw_labels_new (&plan.pen, visible);
  sw_display_begin_clip_box (draft->display, area);
  sw_display_begin_transform (draft->display, to_page);
  sw_display_begin_clip_box (draft->display, clip);
  sw_display_append_paths (draft->display, drawn);
  sw_display_end (draft->display);
  draw_match_lines (&plan, fields->deck);
  sw_sheet_plan_take_labels (&plan, drawn);
  sw_display_set_layer (draft->display, SW_LAYER_GRID);
  sw_sheet_plan_add_grid (&plan);
  sw_display_begin_clip_box (draft->display, clip);
  if (kind->mark != NULL)
    kind->mark (&plan);
  sw_display_end (draft->display);
  sw_labels_draw (labels);
  sw_display_end (draft->display);
  sw_display_end (draft->display);
  const char *notes[G_N_ELEMENTS (kind->notes) + 4] = { NULL };
  guint n = 0;
  while (n < G_N_ELEMENTS (kind->notes) && kind->notes[n] != NULL)
    {
      notes[n] = _(kind->notes[n]);
      n++;
    }
  g_autofree char *laid = laid_note (maker, kind->layers);
  if (laid != NULL)
    notes[n++] = laid;
  const char *pour = sw_job_info (sw_sheet_job (maker->context))->pour_date;
  g_autofree char *last_day = kind == &sw_sheet_plan_cast_in && *pour != '\0' ? g_strdup_printf (_("The pour is on %s: the last day for all of it, seen and signed before."), pour) : NULL;
  if (last_day != NULL)
    notes[n++] = last_day;
  if (n_fields (fields) > 1)
    notes[n++] = _("Beyond the thick broken line the deck goes on on another page.");
  SwSheetColumn column = { (const SwLegendEntry *) (gpointer) legend->data, legend->len, notes, TRUE, mirrored, field, mirrored };
  sw_sheet_add_column (maker, draft, &column);
}

gboolean
sw_sheet_draw_plan (SwSheetMaker *maker, GError **error)
{
  const SwSheetPlanKind *kind = maker->kind->plan;
  SwLooking looking = maker->context->options.looking;
  gboolean mirrored = looking == SW_LOOKING_AS_SHEET ? !kind->down : looking == SW_LOOKING_UP;
  Fields fields = choose_fields (maker);
  g_autoptr (GArray) legend = sw_sheet_plan_legend (maker, kind->layers);
  g_autoptr (SwDisplay) drawn = sw_display_new ();
  sw_plan_draw (drawn, maker->context->deck, kind->layers);
  sw_display_seal (drawn);
  for (guint i = 0; i < n_fields (&fields); i++)
    draw_page (maker, &fields, i, mirrored, drawn, legend);
  g_array_unref (fields.x);
  g_array_unref (fields.y);
  if (kind->add_lists != NULL)
    kind->add_lists (maker);
  return TRUE;
}
