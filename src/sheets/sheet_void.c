/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sections across a void, and the question to the engineer about a sleeve: a section, the plan round it, and the facts. */
#include "base/error.h"
#include "base/number.h"
#include "drawing/dimension.h"
#include "sheets/place.h"
#include "sheets/section.h"
#include "sheets/sheet_plan.h"
#include "space/section.h"

#define PAD 4.0
#define HEAD_MM 7.0
#define FACTS_MM 112.0
#define LEVELS_MM 46.0 /* levels and their names, at the right edge of a view */
#define QUESTION_SCALE 10.0
#define PLAN_SCALE 25.0
#define FOOT_MM 8.0 /* where the level line stands when the view does not reach it: nearer than to scale */
#define SHOWN_SHARE 0.85 /* of a pitch, each way from the void's middle */
#define LOOK_MM 90.0 /* of the job: steps along a void in which the busiest place is looked for */

/* The first of the usual scales from `least` on at which a length fits. */
static double
scale_for (SwPoint size, SwPoint room, double least)
{
  static const double scales[] = { 5, 10, 20, 25, 50, 100, 200, 500 };
  for (guint i = 0; i < G_N_ELEMENTS (scales); i++)
    if (scales[i] >= least && size.x / scales[i] <= room.x && size.y / scales[i] <= room.y)
      return scales[i];
  return 1000;
}

static SwPoint
size_of (SwBox box)
{
  return sw_point_sub (box.high, box.low);
}

static const SwStroke concrete_edge = { .role = SW_ROLE_CONCRETE_EDGE, .width = 0.35 }, steel = { .role = SW_ROLE_STEEL, .width = 0.5 };
static const SwStroke batten_edge = { .role = SW_ROLE_BATTEN, .width = 0.25 }, board_edge = { .role = SW_ROLE_BOARD_EDGE, .width = 0.25 };
static const SwStroke wall_edge = { .role = SW_ROLE_WALL, .width = 0.25 };
static const SwFill wall = { .role = SW_ROLE_WALL, .hatching = SW_HATCHING_DENSE, .transparency = 0.4 };
static const SwFill concrete = { .role = SW_ROLE_CONCRETE }, batten = { .role = SW_ROLE_BATTEN, .transparency = 0.25 }, board = { .role = SW_ROLE_BOARD };

static void
add_section_column (const SwSheetMaker *maker, SwSheetDraft *draft, const char *const *notes, SwPoint at)
{
  const SwLegendEntry legend[] = {
    { &concrete_edge, &concrete, NULL, _("concrete") }, { &steel, NULL, NULL, _("sheet steel") }, { &batten_edge, &batten, NULL, _("batten") },
    { &board_edge, &board, NULL, _("board") },       { &wall_edge, &wall, NULL, _("wall") },
  };
  SwBox here = sw_box_grow ((SwBox){ at, at }, 400);
  SwSheetColumn column = { .legend = legend, .n_legend = G_N_ELEMENTS (legend), .notes = notes, .here = here };
  sw_sheet_add_column (maker, draft, &column);
}

/* Levels at the right edge of a section's view, on paper of their own: topping, crown, soffit, and the level line when it shows. */
static void
mark_levels (const SwSheetPlan *plan, gconstpointer data)
{
  static const SwFill paper = { .role = SW_ROLE_PAPER };
  static const SwStroke datum = { .role = SW_ROLE_INK, .width = 0.35, .dash = SW_DASH_CENTRE };
  const SwSectionCut *cut = data;
  double line = sw_deck_z_from_floor (plan->deck, sw_job_info (sw_deck_job (plan->deck))->level_line);
  gboolean shows = line > plan->content.low.y + FOOT_MM * plan->scale;
  double line_at = shows ? line : plan->content.low.y + FOOT_MM * plan->scale;
  SwPoint place = sw_deck_from_bay (cut->bay, (SwPoint){ cut->u, cut->v });
  double soffit = sw_deck_soffit (cut->bay, place), crown = sw_deck_crown (cut->bay, place);
  const struct { double z; const char *name; } levels[] = {
    { crown + cut->bay->profile->topping, _("top of slab") }, { crown, _("crown") }, { soffit, _("soffit") }, { line, shows ? _("level line") : _("level line (not to scale)") },
  };
  double x = plan->content.high.x - LEVELS_MM * plan->scale;
  SwBox margin = { { x - 3 * plan->scale, plan->content.low.y }, plan->content.high };
  sw_display_add_box (plan->display, margin, &paper, NULL);
  sw_labels_block (plan->labels, margin);
  sw_display_add_line (plan->display, (SwPoint){ plan->content.low.x, line_at }, (SwPoint){ plan->content.high.x, line_at }, &datum);
  for (guint i = 0; i < G_N_ELEMENTS (levels); i++)
    {
      g_autofree char *level = sw_sheet_level_text (plan->maker->context, levels[i].z), *text = g_strdup_printf ("%s %s", level, levels[i].name);
      sw_dimension_add_level (&plan->pen, (SwPoint){ x, levels[i].z == line ? line_at : levels[i].z }, text, FALSE);
    }
}

static SwDisplay *
draw_cut (const SwSpace *space, const SwSectionCut *cut)
{
  SwDisplay *drawn = sw_display_new ();
  sw_section_draw_across (drawn, space, cut);
  sw_display_seal (drawn);
  return drawn;
}

/* How many runs pass the void's section at u. */
static guint
count_runs_at (const SwSheetMaker *maker, const SwDeckBay *bay, const SwVoid *over, double u)
{
  guint n = 0;
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_sheet_job (maker->context), SW_TABLE_RUN); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwRoute *route = sw_space_route (maker->context->space, record->id);
      for (guint k = 0; route != NULL && k + 1 < route->n; k++)
        {
          SwPoint a = sw_deck_to_bay (bay, (SwPoint){ route->axis[k].x, route->axis[k].y }), b = sw_deck_to_bay (bay, (SwPoint){ route->axis[k + 1].x, route->axis[k + 1].y });
          double t = fabs (b.x - a.x) > 1e-9 ? (u - a.x) / (b.x - a.x) : -1, v = a.y + t * (b.y - a.y);
          n += t >= 0 && t <= 1 && v > over->low && v < over->high;
        }
    }
  return n;
}

/* Where the void holds most, off its plates; of equal places the one nearest to the void's middle. */
static double
busiest_place (const SwSheetMaker *maker, const SwDeckBay *bay, guint index)
{
  const SwVoid *over = &g_array_index (bay->voids, SwVoid, index);
  const SwReach *first = &g_array_index (bay->reaches, SwReach, over->first_reach), *last = first + over->n_reaches - 1;
  double middle = (first->low + last->high) / 2, best = middle, most = -1;
  for (double u = first->low + LOOK_MM; u < last->high; u += LOOK_MM)
    {
      gboolean clear = sw_deck_reach_at (bay, index, u) != NULL;
      for (guint i = 0; i < bay->plates->len && clear; i++)
        {
          const SwDeckPlate *plate = &g_array_index (bay->plates, SwDeckPlate, i);
          clear = plate->void_index != index || plate->out || fabs (plate->u - u) > LOOK_MM;
        }
      double score = clear ? count_runs_at (maker, bay, over, u) - fabs (u - middle) / (last->high - first->low) : -1;
      if (score > most)
        {
          most = score;
          best = u;
        }
    }
  return best;
}

/* The named void, and where along it: FALSE when there is none. */
static gboolean
find_cut (const SwSheetMaker *maker, SwSectionCut *cut, GError **error)
{
  const SwDeckBay *bay = sw_deck_bay_of (maker->context->deck, maker->args.record);
  for (guint i = 0; bay != NULL && i < bay->voids->len; i++)
    {
      const SwVoid *over = &g_array_index (bay->voids, SwVoid, i);
      if (over->number != maker->args.void_number || over->n_reaches == 0)
        continue;
      const SwReach *first = &g_array_index (bay->reaches, SwReach, over->first_reach), *last = first + over->n_reaches - 1;
      double u = maker->args.along >= 0 ? first->low + maker->args.along : busiest_place (maker, bay, i);
      if (u > last->high)
        break;
      *cut = (SwSectionCut){ bay, u, over->v };
      return TRUE;
    }
  g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, "the section needs a void: name a bay, one of its voids, and a place within its length");
  return FALSE;
}

gboolean
sw_sheet_draw_void (SwSheetMaker *maker, GError **error)
{
  SwSectionCut cut;
  if (maker->context->space == NULL)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "no section: the bodies of the job could not be worked out");
      return FALSE;
    }
  if (!find_cut (maker, &cut, error))
    return FALSE;
  g_autoptr (SwDisplay) drawn = draw_cut (maker->context->space, &cut);
  SwBox shown = sw_box_grow (sw_section_box_across (maker->context->deck, &cut), 60);
  shown.low.x = cut.v - SHOWN_SHARE * cut.bay->profile->pitch;
  shown.high.x = cut.v + SHOWN_SHARE * cut.bay->profile->pitch;
  SwBox area = sw_box_grow (sw_sheet_area (&maker->page), -PAD);
  SwPoint place = sw_deck_from_bay (cut.bay, (SwPoint){ cut.u, cut.v }), room = { size_of (area).x - 40, size_of (area).y - HEAD_MM };
  double asked = maker->context->options.scale, scale = asked > 0 ? asked : scale_for (size_of (shown), room, maker->info->scale);
  g_autofree char *where = sw_place_short (maker->context->deck, place), *heading = g_strdup_printf (_("Across the void at %s, seen along it"), where);
  SwSheetDraft *draft = sw_sheet_begin_page (maker, scale);
  g_free (maker->title);
  maker->title = g_strdup_printf (_("Section: %s, void %d"), cut.bay->bay->record.tag, maker->args.void_number);
  sw_paragraph_add_heading (&draft->pen, (SwPoint){ area.low.x, area.high.y }, size_of (area).x, heading);
  SwPoint centre = sw_point_lerp (shown.low, shown.high, 0.5);
  centre.x += LEVELS_MM / 2 * scale;
  /* Down to the level line, when that is on the page. */
  double line = sw_deck_z_from_floor (maker->context->deck, sw_job_info (sw_sheet_job (maker->context))->level_line), middle = (shown.high.y + line) / 2;
  if (shown.high.y - line < (room.y - 2 * PAD) * scale)
    centre.y = middle;
  sw_sheet_add_view (maker, draft, drawn, (SwBox){ area.low, { area.high.x, area.high.y - HEAD_MM } }, centre, scale, FALSE, mark_levels, &cut);
  add_section_column (maker, draft, NULL, place);
  return TRUE;
}

/* The question sheet. */

typedef struct
{
  const SwSleeve *sleeve;
  const SwSectionCut *cut; /* NULL outside all bays */
  SwPoint middle;
  double z;
} Question;

/* The hole in the section: a circle when it runs along the voids, a band when it crosses them, upright through the topping. */
static void
mark_hole (const SwSheetPlan *plan, gconstpointer data)
{
  static const SwStroke edge = { .role = SW_ROLE_SLEEVE, .width = 0.7 };
  static const SwFill fill = { .role = SW_ROLE_SLEEVE, .hatching = SW_HATCHING_DENSE };
  const Question *q = data;
  SwPoint a = sw_deck_to_bay (q->cut->bay, q->sleeve->from), b = sw_deck_to_bay (q->cut->bay, q->sleeve->to);
  double r = q->sleeve->diameter / 2, half = fabs (b.y - a.y) / 2, crown = sw_deck_crown (q->cut->bay, q->middle);
  SwBox band = { { q->cut->v - half, q->z - r }, { q->cut->v + half, q->z + r } };
  mark_levels (plan, q->cut);
  if (q->sleeve->through == SW_THROUGH_TOPPING)
    band = (SwBox){ { q->cut->v - r, crown }, { q->cut->v + r, crown + q->cut->bay->profile->topping } };
  if (half > 1 || q->sleeve->through == SW_THROUGH_TOPPING)
    sw_display_add_box (plan->display, band, &fill, &edge);
  else
    sw_display_add_circle (plan->display, (SwPoint){ q->cut->v, q->z }, r, &fill, &edge);
}

static void
mark_place (const SwSheetPlan *plan, gconstpointer data)
{
  static const SwStroke ring = { .role = SW_ROLE_SLEEVE, .width = 0.7 };
  const Question *q = data;
  sw_display_add_circle (plan->display, q->middle, 8 * plan->scale, NULL, &ring);
}

static char *
length (const SwSheetMaker *maker, double value)
{
  return isfinite (value) ? sw_sheet_length (maker->context, value, SW_LENGTH_UNIT) : g_strdup (_("not known"));
}

/* "+1660 mm": right of the line or above it. */
static char *
from_line (const SwSheetMaker *maker, const SwDatum *datum)
{
  g_autofree char *text = length (maker, datum->mm);
  return g_strdup_printf ("%s %s%s", datum->name, text[0] == '-' ? "" : "+", text);
}

static void
fact (GPtrArray *texts, const char *name, char *value)
{
  g_ptr_array_add (texts, g_strdup (name));
  g_ptr_array_add (texts, value);
}

/* Clear distance along the void to the closure that is nearer. */
static double
to_support (const Question *q)
{
  int near = sw_deck_void_near (q->cut->bay, q->cut->v);
  const SwReach *reach = near >= 0 ? sw_deck_reach_at (q->cut->bay, (guint) near, q->cut->u) : NULL;
  return reach != NULL ? fmin (q->cut->u - reach->low, reach->high - q->cut->u) : NAN;
}

static double
to_neighbour (const SwSheetMaker *maker, const Question *q)
{
  double nearest = NAN;
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_sheet_job (maker->context), SW_TABLE_SLEEVE); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwSleeve *other = (const SwSleeve *) record;
      double distance = sw_point_distance (q->middle, sw_point_lerp (other->from, other->to, 0.5));
      if (other != q->sleeve && !(distance >= nearest))
        nearest = distance;
    }
  return nearest;
}

static void
add_deck_facts (const SwSheetMaker *maker, const Question *q, GPtrArray *texts)
{
  const SwProfile *profile = q->cut->bay->profile;
  SwSection section = sw_section_of (profile, maker->context->rules);
  double height = profile->depth + profile->topping;
  g_autofree char *rib = sw_sheet_length (maker->context, section.rib_bottom, SW_LENGTH_BARE), *high = length (maker, height);
  g_autofree char *cover = sw_sheet_length (maker->context, profile->cover, SW_LENGTH_BARE), *link = sw_sheet_length (maker->context, profile->link, SW_LENGTH_BARE);
  g_autofree char *bar = length (maker, profile->bar);
  fact (texts, _("Rib at the soffit, height with topping"), g_strdup_printf ("%s × %s", rib, high));
  fact (texts, _("Cover, link, bar"), g_strdup_printf ("%s, %s, %s", cover, link, bar));
  fact (texts, _("Strip free of bars"), length (maker, section.drill_strip));
  fact (texts, _("Tendons"), g_strdup (sw_sheet_word (SW_TABLE_PROFILE, "tendons", profile->tendons)));
  if (isfinite (to_support (q)))
    fact (texts, _("To the nearer closure"), length (maker, to_support (q)));
  if (q->sleeve->through != SW_THROUGH_RIB)
    return;
  SwRuleValue divisor = sw_rules_value (maker->context->rules, "deck.rib_hole", "depth_divisor"), support = sw_rules_value (maker->context->rules, "deck.rib_hole", "support_depths");
  fact (texts, _("What is often asked: hole at most"), length (maker, height / divisor.value));
  fact (texts, _("… and from supports at least"), length (maker, height * support.value));
}

static GPtrArray *
question_facts (const SwSheetMaker *maker, const Question *q)
{
  GPtrArray *texts = g_ptr_array_new_with_free_func (g_free);
  const SwSleeve *sleeve = q->sleeve;
  const SwRecord *run = sw_job_get (sw_sheet_job (maker->context), sleeve->run);
  g_auto (SwSetOut) grid = sw_set_out_from_grid (sw_sheet_job (maker->context), q->middle);
  fact (texts, _("Through"), g_strdup (sw_sheet_word (SW_TABLE_SLEEVE, "through", sleeve->through)));
  fact (texts, _("Hole"), length (maker, sleeve->diameter));
  fact (texts, _("For run"), run != NULL ? sw_plan_title (run, sw_job_lengths (sw_sheet_job (maker->context))) : g_strdup (""));
  fact (texts, _("Place"), sw_place_short (maker->context->deck, q->middle));
  if (grid.x.name != NULL)
    fact (texts, _("From grid line"), from_line (maker, &grid.x));
  if (grid.y.name != NULL)
    fact (texts, _("From grid line"), from_line (maker, &grid.y));
  fact (texts, _("Axis above the soffit"), length (maker, sleeve->z));
  fact (texts, _("Axis above the level line"), sw_sheet_level_text (maker->context, q->z));
  if (q->cut != NULL)
    add_deck_facts (maker, q, texts);
  fact (texts, _("To the next sleeve"), length (maker, to_neighbour (maker, q)));
  fact (texts, _("Asked on"), g_strdup (sleeve->asked_on));
  return texts;
}

/* The answer as it stands in the job, and room to give it by hand. */
static void
add_answer (const SwSheetDraft *draft, SwPoint at, const SwSleeve *sleeve)
{
  static const SwAnswer answers[] = { SW_ANSWER_ALLOWED, SW_ANSWER_CONDITIONS, SW_ANSWER_REFUSED };
  SwStroke line = sw_pen_stroke (&draft->pen, 0.35, SW_DASH_SOLID);
  const char *const lines[] = { _("Conditions"), "", _("Name"), _("Date, reference"), _("Signature") };
  const char *const values[] = { sleeve->conditions, "", sleeve->answered_by, NULL, "" };
  g_autofree char *dated = g_strdup_printf ("%s %s", sleeve->answered_on, sleeve->reference);
  double y = sw_paragraph_add_heading (&draft->pen, at, FACTS_MM, _("The engineer's answer")) - 2;
  for (guint i = 0; i < G_N_ELEMENTS (answers); i++, y -= 8)
    {
      SwBox box = { { at.x, y - 5 }, { at.x + 5, y } };
      sw_display_add_box (draft->display, box, NULL, &line);
      if ((SwAnswer) sleeve->answer == answers[i])
        {
          sw_display_add_line (draft->display, box.low, box.high, &line);
          sw_display_add_line (draft->display, (SwPoint){ box.low.x, box.high.y }, (SwPoint){ box.high.x, box.low.y }, &line);
        }
      sw_pen_add_text (&draft->pen, (SwPoint){ at.x + 8, y - 4 }, sw_sheet_word (SW_TABLE_SLEEVE, "answer", (int) answers[i]), &(SwPenText){ 0 });
    }
  for (guint i = 0; i < G_N_ELEMENTS (lines); i++, y -= 9)
    {
      const char *value = i == 3 ? dated : values[i];
      sw_display_add_line (draft->display, (SwPoint){ at.x + 32, y - 6 }, (SwPoint){ at.x + FACTS_MM - 6, y - 6 }, &line);
      sw_pen_add_text (&draft->pen, (SwPoint){ at.x, y - 5 }, lines[i], &(SwPenText){ 0 });
      sw_pen_add_fitted_text (&draft->pen, (SwPoint){ at.x + 33, y - 5 }, value, FACTS_MM - 40, &(SwPenText){ 0 });
    }
}

static void
add_facts (const SwSheetMaker *maker, const SwSheetDraft *draft, SwBox area, const Question *q)
{
  const SwListColumn columns[] = { { _("Question"), 52, SW_ALIGN_LEFT }, { q->sleeve->record.tag, FACTS_MM - 54, SW_ALIGN_LEFT } };
  g_autoptr (GPtrArray) texts = question_facts (maker, q);
  SwTextList list = { columns, 2, (const char *const *) texts->pdata, texts->len / 2 };
  double y;
  sw_paragraph_add_list (&draft->pen, (SwPoint){ area.high.x - FACTS_MM, area.high.y }, area.low.y, &list, 0, &y);
  add_answer (draft, (SwPoint){ area.high.x - FACTS_MM, fmin (y - 8, area.low.y + 90) }, q->sleeve);
}

static void
add_question_section (const SwSheetMaker *maker, const SwSheetDraft *draft, SwBox box, const Question *q)
{
  g_autoptr (SwDisplay) drawn = draw_cut (maker->context->space, q->cut);
  SwBox shown = sw_section_box_across (maker->context->deck, q->cut), below = { box.low, { box.high.x, box.high.y - HEAD_MM } };
  g_autofree char *heading = g_strdup_printf (_("Section across the voids at the sleeve, 1:%.0f"), QUESTION_SCALE);
  SwPoint centre = { q->cut->v + LEVELS_MM / 2 * QUESTION_SCALE, (shown.low.y + shown.high.y) / 2 };
  sw_paragraph_add_heading (&draft->pen, (SwPoint){ box.low.x, box.high.y }, size_of (box).x, heading);
  sw_sheet_add_view (maker, draft, drawn, below, centre, QUESTION_SCALE, FALSE, mark_hole, q);
}

static void
add_question_plan (const SwSheetMaker *maker, const SwSheetDraft *draft, SwBox box, const Question *q)
{
  static const guint64 layers = SW_LAYER_BIT (SW_LAYER_DECK) | SW_LAYER_BIT (SW_LAYER_ROOMS) | SW_LAYER_BIT (SW_LAYER_PIPES);
  g_autoptr (SwDisplay) drawn = sw_display_new ();
  sw_plan_draw (drawn, maker->context->deck, layers);
  sw_display_seal (drawn);
  sw_paragraph_add_heading (&draft->pen, (SwPoint){ box.low.x, box.high.y }, size_of (box).x, _("Plan round the sleeve, 1:25, looking down"));
  sw_sheet_add_view (maker, draft, drawn, (SwBox){ box.low, { box.high.x, box.high.y - HEAD_MM } }, q->middle, PLAN_SCALE, FALSE, mark_place, q);
}

static void
draw_question (SwSheetMaker *maker, const SwSleeve *sleeve)
{
  const SwSheetContext *context = maker->context;
  const char *notes[] = { _("Nothing is cored, cut or cast in before the engineer has answered. What is often asked is no permission."), NULL };
  SwPoint middle = sw_point_lerp (sleeve->from, sleeve->to, 0.5);
  SwSectionCut cut;
  Question q = { sleeve, sw_section_cut_at (context->deck, middle, &cut) ? &cut : NULL, middle, sw_deck_soffit_at (context->deck, middle) + sleeve->z };
  SwSheetDraft *draft = sw_sheet_begin_page (maker, 0);
  SwBox area = sw_box_grow (sw_sheet_area (&maker->page), -PAD);
  double split = (area.low.y + area.high.y) / 2, right = area.high.x - FACTS_MM - PAD;
  if (q.cut != NULL && context->space != NULL)
    add_question_section (maker, draft, (SwBox){ { area.low.x, split + PAD }, { right, area.high.y } }, &q);
  add_question_plan (maker, draft, (SwBox){ area.low, { right, split } }, &q);
  add_facts (maker, draft, area, &q);
  add_section_column (maker, draft, notes, middle);
}

gboolean
sw_sheet_draw_sleeves (SwSheetMaker *maker, GError **error)
{
  const SwRecord *one = sw_job_get (sw_sheet_job (maker->context), maker->args.record);
  g_autoptr (GPtrArray) sleeves = sw_sheet_records (sw_sheet_job (maker->context), SW_TABLE_SLEEVE);
  if (maker->args.record != 0 && (one == NULL || sw_record_table (one) != SW_TABLE_SLEEVE))
    {
      g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, "the question needs a sleeve: name one of the job's, or none for all");
      return FALSE;
    }
  for (guint i = 0; i < sleeves->len; i++)
    if (one == NULL || one == g_ptr_array_index (sleeves, i))
      draw_question (maker, g_ptr_array_index (sleeves, i));
  if (maker->pages != NULL)
    return TRUE;
  g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, "the job has no sleeves to ask about");
  return FALSE;
}
