/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A page for each separating wall: its elevation to scale in as many strips as it needs, with the deck over it, what is open
 * above its head and the runs that pass, and the list of what is closed. The deck is sampled along the wall every STEP_MM.
 * Coordinates of an elevation: along the wall from its start, and z. */
#include "base/error.h"
#include "base/number.h"
#include "drawing/dimension.h"
#include "estimate/fillers.h"
#include "sheets/crossings.h"
#include "sheets/place.h"
#include "sheets/section.h"
#include "sheets/sheet_room_pages.h"

#define STEP_MM 10.0
#define SCALE 20.0
#define BELOW_MM 300.0  /* of the wall, below the soffit */
#define SIDE_MM 10.0    /* free at both ends of a strip */
#define LEVELS_MM 40.0  /* levels, at a strip's right */
#define STRIP_MM 62.0   /* height of a strip */
#define HEAD_MM 8.0
#define PAD 4.0
#define GAP 5.0
#define RANK 2

typedef struct
{
  const SwSheetContext *context;
  const SwWall *wall;
  double length, soffit, low, top; /* soffit at its middle; what is shown of z */
  GArray *fillers, *crossings;
} Elevation;

static SwPoint
place_at (const Elevation *e, double along)
{
  return sw_point_lerp (e->wall->from, e->wall->to, along / e->length);
}

/* Where the wall ends there, never above the concrete's underside. */
static double
head_at (const Elevation *e, SwPoint at, double under)
{
  const SwDeckBay *bay = sw_deck_bay_at (e->context->deck, at);
  double soffit = sw_deck_soffit_at (e->context->deck, at);
  switch ((SwWallHead) e->wall->head)
    {
    case SW_HEAD_CEILING:
    case SW_HEAD_RIB:
      return fmin (under, soffit);
    case SW_HEAD_CROWN:
      return bay != NULL ? fmin (under, sw_deck_crown (bay, at)) : under;
    case SW_HEAD_SLAB:
      return under;
    }
  return under;
}

typedef struct { GArray *under, *top, *head; } Lines; /* SwPoint each */

static Lines
sample (const Elevation *e)
{
  Lines lines = { g_array_new (FALSE, FALSE, sizeof (SwPoint)), g_array_new (FALSE, FALSE, sizeof (SwPoint)), g_array_new (FALSE, FALSE, sizeof (SwPoint)) };
  guint n = MAX ((guint) ceil (e->length / STEP_MM), 1);
  for (guint i = 0; i <= n; i++)
    {
      double along = e->length * i / n, under, top;
      SwPoint at = place_at (e, along);
      sw_section_concrete_at (e->context->deck, at, &under, &top);
      SwPoint points[] = { { along, under }, { along, top }, { along, head_at (e, at, under) } };
      g_array_append_val (lines.under, points[0]);
      g_array_append_val (lines.top, points[1]);
      g_array_append_val (lines.head, points[2]);
    }
  return lines;
}

/* The area between two lines of the same length. */
static void
add_between (SwDisplay *display, const GArray *low, const GArray *high, const SwFill *fill, const SwStroke *edge)
{
  g_autoptr (GArray) ring = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  g_array_append_vals (ring, low->data, low->len);
  for (guint i = high->len; i-- > 0;)
    g_array_append_val (ring, g_array_index (high, SwPoint, i));
  sw_display_add_polygon (display, (const SwPoint *) (gpointer) ring->data, ring->len, fill, edge);
}

static const SwFill concrete = { .role = SW_ROLE_CONCRETE }, wall_fill = { .role = SW_ROLE_SEPARATING_WALL, .hatching = SW_HATCHING_DENSE };
static const SwFill open_fill = { .role = SW_ROLE_STOP, .hatching = SW_HATCHING_CROSS };
static const SwStroke edge = { .role = SW_ROLE_INK, .width = 0.35 }, open_edge = { .role = SW_ROLE_STOP, .width = 0.5 };
static const SwStroke run_edge = { .role = SW_ROLE_INK, .width = 0.35 };
static const SwFill run_fill = { .role = SW_ROLE_PAPER };

/* Each stretch over which something is open above the head. */
static void
draw_open (SwDisplay *display, const Lines *lines)
{
  g_autoptr (GArray) low = g_array_new (FALSE, FALSE, sizeof (SwPoint)), high = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  for (guint i = 0; i <= lines->under->len; i++)
    {
      gboolean open = i < lines->under->len && g_array_index (lines->under, SwPoint, i).y - g_array_index (lines->head, SwPoint, i).y > 1;
      if (open)
        {
          g_array_append_val (low, g_array_index (lines->head, SwPoint, i));
          g_array_append_val (high, g_array_index (lines->under, SwPoint, i));
          continue;
        }
      if (low->len > 1)
        add_between (display, low, high, &open_fill, &open_edge);
      g_array_set_size (low, 0);
      g_array_set_size (high, 0);
    }
}

static SwDisplay *
draw_elevation (const Elevation *e)
{
  SwDisplay *display = sw_display_new ();
  Lines lines = sample (e);
  g_autoptr (GArray) foot = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  for (guint i = 0; i < lines.head->len; i++)
    {
      SwPoint at = { g_array_index (lines.head, SwPoint, i).x, e->soffit - BELOW_MM };
      g_array_append_val (foot, at);
    }
  add_between (display, lines.under, lines.top, &concrete, &edge);
  add_between (display, foot, lines.head, &wall_fill, &edge);
  draw_open (display, &lines);
  for (guint i = 0; i < e->crossings->len; i++)
    {
      const SwCrossing *crossing = &g_array_index (e->crossings, SwCrossing, i);
      SwPoint at = { crossing->along, crossing->z };
      if (crossing->sleeve != NULL)
        sw_display_add_circle (display, at, crossing->sleeve->diameter / 2, NULL, &open_edge);
      sw_display_add_circle (display, at, crossing->outer, &run_fill, &run_edge);
    }
  g_array_unref (lines.under);
  g_array_unref (lines.top);
  g_array_unref (lines.head);
  sw_display_seal (display);
  return display;
}

/* Only what stands on the strip has its figure there. */
static void
add_seen (GArray *points, SwPoint at, double low, double high)
{
  if (at.x > low + 2 * SCALE && at.x < high - 2 * SCALE)
    g_array_append_val (points, at);
}

static int
compare_fillers (gconstpointer a, gconstpointer b)
{
  const SwFiller *first = a, *second = b;
  double x = sw_point_distance (first->wall->from, first->at), y = sw_point_distance (second->wall->from, second->at);
  return x < y ? -1 : x > y ? 1 : (int) first->void_index - (int) second->void_index;
}

/* Numbers of voids and marks of runs, running dimensions from the wall's start, levels at the right. */
static void
mark_strip (const SwSheetPlan *plan, gconstpointer data)
{
  const Elevation *e = data;
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  static const SwFill paper = { .role = SW_ROLE_PAPER };
  double foot = e->soffit - BELOW_MM, right = plan->content.high.x - LEVELS_MM * plan->scale;
  SwBox margin = { { right, plan->content.low.y }, plan->content.high };
  sw_display_add_box (plan->display, margin, &paper, NULL);
  sw_labels_block (plan->labels, margin);
  for (guint i = 0; i < e->fillers->len; i++)
    {
      const SwFiller *filler = &g_array_index (e->fillers, SwFiller, i);
      SwPoint at = { sw_point_distance (e->wall->from, filler->at), foot };
      g_autofree char *number = g_strdup_printf ("%d", g_array_index (filler->bay->voids, SwVoid, filler->void_index).number);
      add_seen (points, at, plan->content.low.x, right);
      if (at.x < right)
        sw_sheet_plan_add_label (plan, (SwPoint){ at.x, sw_deck_crown (filler->bay, filler->at) + filler->bay->profile->topping / 2 }, number, SW_ROLE_INK, RANK);
    }
  for (guint i = 0; i < e->crossings->len; i++)
    {
      const SwCrossing *crossing = &g_array_index (e->crossings, SwCrossing, i);
      SwPoint at = { crossing->along, foot };
      add_seen (points, at, plan->content.low.x, right);
      if (at.x >= right)
        continue;
      sw_labels_block (plan->labels, sw_box_grow ((SwBox){ { at.x, crossing->z }, { at.x, crossing->z } }, crossing->outer));
      sw_sheet_plan_add_label (plan, (SwPoint){ at.x, crossing->z }, crossing->run->record.tag, SW_ROLE_INK, RANK - 1);
    }
  sw_display_begin_clip_box (plan->display, (SwBox){ plan->content.low, { right, plan->content.high.y } });
  if (points->len > 0)
    sw_dimension_add_running (&plan->pen, (SwDimensionLine){ { 0, foot - 3 * plan->scale }, 0 }, (SwPoint){ 0, 0 }, (const SwPoint *) (gpointer) points->data, points->len);
  sw_display_end (plan->display);
  const struct { double z; const char *words; } levels[] = { { e->top, _("top of slab") }, { e->soffit, _("soffit") } };
  for (guint i = 0; i < G_N_ELEMENTS (levels); i++)
    {
      g_autofree char *level = sw_sheet_level_text (e->context, levels[i].z), *text = g_strdup_printf ("%s %s", level, levels[i].words);
      sw_dimension_add_level (&plan->pen, (SwPoint){ right + 2 * plan->scale, levels[i].z }, text, FALSE);
    }
}

/* All strips, from the top down; the y below them. */
static double
add_strips (const SwSheetMaker *maker, const SwSheetDraft *draft, SwBox area, const Elevation *e)
{
  g_autoptr (SwDisplay) drawn = draw_elevation (e);
  double width = area.high.x - area.low.x, most = (width - LEVELS_MM - 2 * SIDE_MM) * SCALE, y = area.high.y;
  guint n = MAX ((guint) ceil (e->length / most - 1e-9), 1);
  for (guint i = 0; i < n; i++, y -= STRIP_MM)
    {
      double middle = e->length * (i + 0.5) / n, half = e->length / n / 2 + SIDE_MM * SCALE / 2;
      double shown = fmin (2 * half / SCALE + LEVELS_MM, width);
      SwPoint centre = { middle + LEVELS_MM * SCALE / 2, e->top + 9 * SCALE - STRIP_MM * SCALE / 2 };
      sw_sheet_add_view (maker, draft, drawn, (SwBox){ { area.low.x, y - STRIP_MM }, { area.low.x + shown, y } }, centre, SCALE, FALSE, mark_strip, e);
    }
  return y;
}

static void
add_row (GPtrArray *texts, char *what, char *where, char *size, char *along, char *level, char *hole)
{
  char *cells[] = { what, where, size, along, level, hole, g_strdup ("\n"), g_strdup (""), g_strdup ("") };
  for (guint i = 0; i < G_N_ELEMENTS (cells); i++)
    g_ptr_array_add (texts, cells[i]);
}

static GPtrArray *
stopping_texts (const Elevation *e)
{
  GPtrArray *texts = g_ptr_array_new_with_free_func (g_free);
  for (guint i = 0; i < e->crossings->len; i++)
    {
      const SwCrossing *crossing = &g_array_index (e->crossings, SwCrossing, i);
      const SwRun *run = crossing->run;
      g_autofree char *od = sw_sheet_length (e->context, run->od, SW_LENGTH_BARE);
      g_autofree char *hole = crossing->sleeve != NULL ? sw_sheet_length (e->context, crossing->sleeve->diameter, SW_LENGTH_BARE) : NULL;
      add_row (texts, g_strdup_printf ("%s %s", run->record.tag, sw_sheet_word (SW_TABLE_RUN, "service", run->service)), sw_place_short (e->context->deck, crossing->at),
               g_strdup_printf ("%s %s", sw_sheet_word (SW_TABLE_RUN, "material", run->material), od), sw_sheet_length (e->context, crossing->along, SW_LENGTH_BARE), sw_sheet_level_text (e->context, crossing->z),
               crossing->sleeve != NULL ? g_strdup_printf ("%s %s", crossing->sleeve->record.tag, hole) : g_strdup (_("NO SLEEVE")));
    }
  for (guint i = 0; i < e->fillers->len; i++)
    {
      const SwFiller *filler = &g_array_index (e->fillers, SwFiller, i);
      const SwProfile *profile = filler->bay->profile;
      const SwVoid *over = &g_array_index (filler->bay->voids, SwVoid, filler->void_index);
      char area[SW_LENGTH_BUF];
      g_autofree char *mouth = sw_sheet_length (e->context, profile->mouth, SW_LENGTH_BARE), *crown = sw_sheet_length (e->context, profile->crown, SW_LENGTH_BARE);
      g_autofree char *depth = sw_sheet_length (e->context, over->depth, SW_LENGTH_BARE);
      add_row (texts, g_strdup (_("filler")), g_strdup_printf (_("%s, void %d"), filler->bay->bay->record.tag, over->number),
               g_strdup_printf ("%s / %s × %s", mouth, crown, depth), sw_sheet_length (e->context, sw_point_distance (e->wall->from, filler->at), SW_LENGTH_BARE), g_strdup (""),
               g_strdup (sw_area_write (filler->area, sw_job_lengths (sw_sheet_job (e->context)), 3, area)));
    }
  return texts;
}

static void
draw_wall (SwSheetMaker *maker, const SwWall *wall)
{
  const SwLegendEntry legend[] = { { &edge, &concrete, NULL, _("concrete") }, { &edge, &wall_fill, NULL, _("separating wall") },
                                   { &open_edge, &open_fill, NULL, _("open above the wall: to be filled") }, { &run_edge, &run_fill, NULL, _("run that passes"), SW_SIGN_RING } };
  const char *notes[] = { _("The program names gaps and sizes. The fire consultant names the tested system; its installer signs."),
                          _("Fillers: width at the soffit / at the crown × depth, sealed all round."), NULL };
  g_autofree char *size = sw_sheet_length_head (maker->context, _("Size")), *start = sw_sheet_length_head (maker->context, _("From start"));
  const SwListColumn columns[] = { { _("What"), 38, SW_ALIGN_LEFT }, { _("Where"), 58, SW_ALIGN_LEFT }, { size, 32, SW_ALIGN_LEFT }, { start, 19, SW_ALIGN_RIGHT },
                                   { _("Axis, level"), 17, SW_ALIGN_RIGHT }, { _("Hole, area"), 26, SW_ALIGN_LEFT }, { _("Tested system"), 48, SW_ALIGN_LEFT },
                                   { _("By, date"), 34, SW_ALIGN_LEFT }, { _("Photo"), 16, SW_ALIGN_LEFT } };
  Elevation e = { maker->context, wall, sw_point_distance (wall->from, wall->to) };
  SwPoint middle = sw_point_lerp (wall->from, wall->to, 0.5);
  double under;
  e.soffit = sw_deck_soffit_at (maker->context->deck, middle);
  sw_section_concrete_at (maker->context->deck, middle, &under, &e.top);
  e.fillers = g_array_new (FALSE, FALSE, sizeof (SwFiller));
  sw_fillers_of_wall (maker->context->deck, wall, e.fillers);
  g_array_sort (e.fillers, compare_fillers);
  e.crossings = sw_crossings_of_wall (maker->context, wall);
  g_autofree char *rating = sw_wall_rating_text (wall);
  g_autofree char *heading = g_strdup_printf (_("Wall %s: %s; head: %s; elevation 1:%.0f, its start at the left"), wall->record.tag, rating, sw_sheet_word (SW_TABLE_WALL, "head", wall->head), SCALE);
  SwSheetDraft *draft = sw_sheet_begin_page (maker, SCALE);
  SwBox area = sw_box_grow (sw_sheet_area (&maker->page), -PAD);
  SwSheetColumn column = { legend, G_N_ELEMENTS (legend), notes, FALSE, FALSE, sw_box_grow (sw_record_box (&wall->record), 250), FALSE };
  sw_sheet_add_column (maker, draft, &column);
  sw_paragraph_add_heading (&draft->pen, (SwPoint){ area.low.x, area.high.y }, area.high.x - area.low.x, heading);
  double y = add_strips (maker, draft, (SwBox){ area.low, { area.high.x, area.high.y - HEAD_MM } }, &e) - GAP;
  g_autoptr (GPtrArray) texts = stopping_texts (&e);
  SwTextList list = { columns, G_N_ELEMENTS (columns), (const char *const *) texts->pdata, texts->len / G_N_ELEMENTS (columns) };
  sw_sheet_add_list_on (maker, draft, (SwBox){ area.low, { area.high.x, y } }, _("To be closed and sealed"), wall->record.tag, &list);
  g_array_unref (e.fillers);
  g_array_unref (e.crossings);
}

gboolean
sw_sheet_draw_stopping (SwSheetMaker *maker, GError **error)
{
  g_autoptr (GPtrArray) walls = sw_sheet_records (sw_sheet_job (maker->context), SW_TABLE_WALL);
  for (guint i = 0; i < walls->len; i++)
    {
      const SwWall *wall = g_ptr_array_index (walls, i);
      if (wall->separating && sw_point_distance (wall->from, wall->to) > 1)
        draw_wall (maker, wall);
    }
  if (maker->pages != NULL)
    return TRUE;
  g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, "the job has no separating walls");
  return FALSE;
}
