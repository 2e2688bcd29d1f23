/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The long section of a run: its way pulled straight, heights exaggerated. The concrete over it is looked at every few mm
 * and points on one line are dropped, so voids, webs and ribs come out as they are. Below stand the numbers of each vertex;
 * where vertices are close their columns are pushed apart and led back by a line. */
#include "base/error.h"
#include "base/number.h"
#include "drawing/dimension.h"
#include "sheets/place.h"
#include "estimate/run_facts.h"
#include "sheets/sheet_parts.h"

#define STEP_MM 5.0          /* between looks at the concrete */
#define LABELS_MM 40.0       /* names of the bands */
#define LEVELS_MM 14.0       /* scale of levels */
#define COLUMN_LEAST_MM 4.5  /* between columns of numbers */
#define PROFILE_MM 115.0     /* greatest height of the drawn part */
#define BAND_LEAST_MM 11.0   /* two lines of a band's name */
#define FALL_BAND_MM 11.0
#define OVER_MM 45.0         /* names and plates over the drawn part */

#define N_BANDS 6

typedef struct
{
  SwSheetMaker *maker;
  SwSheetDraft *draft;
  const SwPen *pen;
  const SwDeck *deck;
  const SwRunFacts *facts;
  const SwRoute *route;
  double length;                   /* in plan */
  double across, up;               /* scales: 1:n */
  double left, bottom, z_bottom, z_top; /* where the profile begins on the page */
  double *columns;                 /* x of each vertex's numbers on the page */
  double heights[N_BANDS];         /* of the bands: as their longest figure, which stands upright, wants */
} Long;

static SwPoint
on_page (const Long *l, double chainage, double z)
{
  return (SwPoint){ l->left + chainage / l->across, l->bottom + (z - l->z_bottom) / l->up };
}

/* Underside of the concrete over a place: crown, web or rib; a closure or solid zone counts as rib. */
static double
underside (const SwDeck *deck, SwPoint p)
{
  const SwDeckBay *bay = sw_deck_bay_at (deck, p);
  if (bay == NULL)
    return 0;
  SwPoint uv = sw_deck_to_bay (bay, p);
  double soffit = sw_deck_soffit (bay, p);
  int over = sw_deck_void_at (bay, uv.y);
  if (over < 0 || sw_deck_reach_at (bay, (guint) over, uv.x) == NULL)
    return soffit;
  const SwVoid *v = &g_array_index (bay->voids, SwVoid, over);
  double lean = (bay->profile->mouth - bay->profile->crown) / 2, inside = fmin (uv.y - v->low, v->high - uv.y);
  return soffit + v->depth * (inside >= lean ? 1 : inside / lean);
}

typedef double (*LevelAt) (const SwDeck *deck, SwPoint p);

static double
soffit_at (const SwDeck *deck, SwPoint p)
{
  return sw_deck_soffit_at (deck, p);
}

static double
slab_top (const SwDeck *deck, SwPoint p)
{
  const SwDeckBay *bay = sw_deck_bay_at (deck, p);
  return bay != NULL ? sw_deck_soffit (bay, p) + bay->profile->depth + bay->profile->topping : 0;
}

/* Upper face of the boards of a room with a ceiling; NAN elsewhere. */
static double
board_back (const SwDeck *deck, SwPoint p)
{
  const SwRoom *room = sw_deck_room_at (deck, p);
  return room != NULL && room->finish != SW_FINISH_EXPOSED ? sw_deck_ceiling_back (deck, room) - sw_deck_ceiling_drop (deck, room, p) : NAN;
}

/* Whether b lies on the line from a to c. */
static gboolean
is_between (SwPoint a, SwPoint b, SwPoint c)
{
  return fabs (sw_point_cross (sw_point_sub (c, a), sw_point_sub (b, a))) < 1e-4 * (1e-9 + sw_point_distance (a, c)) && a.x <= b.x && b.x <= c.x;
}

static void
add_point (GArray *line, SwPoint p)
{
  if (line->len >= 2 && is_between (g_array_index (line, SwPoint, line->len - 2), g_array_index (line, SwPoint, line->len - 1), p))
    g_array_index (line, SwPoint, line->len - 1) = p;
  else
    g_array_append_val (line, p);
}

/* Lines on the page along the whole run; a new one begins where there was no level. */
static void
draw_level_line (const Long *l, LevelAt level, const SwStroke *stroke)
{
  g_autoptr (GArray) line = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  int n = (int) ceil (l->length / STEP_MM);
  for (int i = 0; i <= n; i++)
    {
      double chainage = fmin (i * STEP_MM, l->length);
      SwPoint3 at = sw_route_at (l->route, chainage, NULL);
      double z = level (l->deck, (SwPoint){ at.x, at.y });
      if (!isnan (z))
        add_point (line, on_page (l, chainage, z));
      if ((isnan (z) || i == n) && line->len > 0)
        {
          sw_display_add_polyline (l->pen->display, (const SwPoint *) (gpointer) line->data, line->len, stroke);
          g_array_set_size (line, 0);
        }
    }
}

static void
draw_concrete (const Long *l)
{
  static const SwFill fill = { .role = SW_ROLE_CONCRETE };
  static const SwStroke stroke = { .role = SW_ROLE_CONCRETE_EDGE, .width = 0.5 }, dashed = { .role = SW_ROLE_INK, .width = 0.18, .dash = SW_DASH_HIDDEN };
  static const SwStroke board = { .role = SW_ROLE_BOARD_EDGE, .width = 0.7 };
  g_autoptr (GArray) ring = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  int n = (int) ceil (l->length / STEP_MM);
  for (int pass = 0; pass < 2; pass++)
    for (int i = 0; i <= n; i++)
      {
        double chainage = fmin ((pass == 0 ? i : n - i) * STEP_MM, l->length);
        SwPoint3 at = sw_route_at (l->route, chainage, NULL);
        SwPoint p = { at.x, at.y };
        SwPoint corner = on_page (l, chainage, pass == 0 ? underside (l->deck, p) : slab_top (l->deck, p));
        if (pass == 0)
          add_point (ring, corner);
        else
          g_array_append_val (ring, corner);
      }
  sw_display_begin_group (l->pen->display, &(SwDisplayGroup){ .id = "deck", .class_name = "deck" });
  sw_display_add_polygon (l->pen->display, (const SwPoint *) (gpointer) ring->data, ring->len, &fill, NULL);
  draw_level_line (l, underside, &stroke);
  draw_level_line (l, slab_top, &stroke);
  draw_level_line (l, soffit_at, &dashed);
  draw_level_line (l, board_back, &board);
  sw_display_end (l->pen->display);
}

/* The tube from its outside bottom to its outside top, its axis, and lagging. */
static void
draw_tube (const Long *l)
{
  SwServiceLine line = sw_plan_service_line ((SwService) l->facts->run->service);
  SwColourRole role = sw_service_line_role (line);
  SwFill fill = { .role = role, .transparency = 0.6 };
  SwStroke edge = { .role = role, .width = 0.35 }, axis = { .role = role, .width = 0.18, .dash = SW_DASH_CENTRE };
  sw_display_begin_group (l->pen->display, &(SwDisplayGroup){ { SW_TABLE_RUN, 0, l->facts->run->record.id }, "run", sw_role_name (role), l->facts->run->record.tag, NULL });
  for (guint i = 0; i + 1 < l->route->n; i++)
    {
      double a = sw_run_facts_chainage (l->route, i), b = sw_run_facts_chainage (l->route, i + 1), r = l->route->radius;
      double za = l->route->axis[i].z, zb = l->route->axis[i + 1].z, half = b - a < 2 * r ? r : 0;
      SwPoint ring[4] = { on_page (l, a - half, za - (half > 0 ? 0 : r)), on_page (l, b - half, zb - (half > 0 ? 0 : r)),
                          on_page (l, b + half, zb + (half > 0 ? 0 : r)), on_page (l, a + half, za + (half > 0 ? 0 : r)) };
      sw_display_add_polygon (l->pen->display, ring, 4, &fill, &edge);
      sw_display_add_line (l->pen->display, on_page (l, a, za), on_page (l, b, zb), &axis);
    }
  sw_display_end (l->pen->display);
}

static char *
plate_text (const SwDeckPlate *plate)
{
  return g_strdup_printf (plate->released ? _("plate %d, released") : _("plate %d"), plate->number);
}

static void
draw_plates (const Long *l)
{
  static const SwStroke stands = { .role = SW_ROLE_PLATE, .width = 0.7 }, released = { .role = SW_ROLE_PLATE, .width = 0.7, .dash = SW_DASH_HIDDEN };
  for (guint i = 0; i < l->facts->plates->len; i++)
    {
      const SwRunPlate *met = &g_array_index (l->facts->plates, SwRunPlate, i);
      double soffit = sw_deck_soffit (met->bay, (SwPoint){ met->at.x, met->at.y });
      double crown = soffit + g_array_index (met->bay->voids, SwVoid, met->plate->void_index).depth;
      g_autofree char *text = plate_text (met->plate);
      sw_display_add_line (l->pen->display, on_page (l, met->along, soffit), on_page (l, met->along, crown), met->plate->released ? &released : &stands);
      SwPoint at = on_page (l, met->along, crown);
      sw_pen_add_text (l->pen, (SwPoint){ at.x, l->bottom + (l->z_top - l->z_bottom) / l->up + 2 }, text,
                       &(SwPenText){ .turn = G_PI / 2, .rise = SW_RISE_MIDDLE, .halo = TRUE });
    }
}

/* Horizontal lines at round levels above the level line. */
static void
draw_levels (const Long *l)
{
  static const SwStroke stroke = { .role = SW_ROLE_GRID, .width = 0.13 };
  const SwJobInfo *info = sw_job_info (sw_deck_job (l->deck));
  double base = sw_deck_z_from_floor (l->deck, info->level_line), step = 5 * l->up >= 100 ? 100 * ceil (l->up * 5 / 100) : 50;
  double width = l->length / l->across;
  for (double level = ceil ((l->z_bottom - base) / step) * step; base + level <= l->z_top; level += step)
    {
      g_autofree char *text = sw_sheet_level_text (l->maker->context, base + level);
      double y = on_page (l, 0, base + level).y;
      sw_display_add_line (l->pen->display, (SwPoint){ l->left, y }, (SwPoint){ l->left + width, y }, &stroke);
      sw_pen_add_text (l->pen, (SwPoint){ l->left - 2, y }, text, &(SwPenText){ .align = SW_ALIGN_RIGHT, .rise = SW_RISE_MIDDLE, .faint = TRUE });
    }
}

/* The bands of numbers. */

typedef char *(*BandText) (const Long *l, guint vertex);

static double
outside (const SwRoute *route)
{
  return fmax (route->outer, route->socket + route->run->insulation);
}

static SwPoint
vertex_at (const Long *l, guint i)
{
  return (SwPoint){ l->route->axis[i].x, l->route->axis[i].y };
}

static char *
whole (const Long *l, double mm)
{
  return sw_sheet_length (l->maker->context, mm, SW_LENGTH_DIM);
}

static char *
chainage_text (const Long *l, guint i)
{
  char digits[SW_NUMBER_BUF];
  double chainage = sw_run_facts_chainage (l->route, i);
  if (l->pen->lengths != SW_LENGTHS_MM)
    return whole (l, chainage);
  return g_strdup_printf ("%s m", sw_number_write_fixed (chainage / 1000, 3, digits));
}

static char *
invert_text (const Long *l, guint i)
{
  return sw_sheet_level_text (l->maker->context, sw_route_invert (l->route, i));
}

static char *
cover_text (const Long *l, guint i)
{
  return whole (l, underside (l->deck, vertex_at (l, i)) - l->route->axis[i].z - outside (l->route));
}

static char *
clear_text (const Long *l, guint i)
{
  return whole (l, l->route->axis[i].z - outside (l->route) - sw_deck_soffit_at (l->deck, vertex_at (l, i)));
}

static char *
board_text (const Long *l, guint i)
{
  return whole (l, l->route->axis[i].z - outside (l->route) - board_back (l->deck, vertex_at (l, i)));
}

static char *
place_text (const Long *l, guint i)
{
  return sw_place_short (l->deck, vertex_at (l, i));
}

static const struct { const char *name; BandText text; } bands[N_BANDS] = {
  { N_("Chainage"), chainage_text },
  { N_("Invert from level line"), invert_text },
  { N_("Cover to concrete"), cover_text },
  { N_("Clear to soffit, battens"), clear_text },
  { N_("Clear to boards"), board_text },
  { N_("Place"), place_text },
};

static void
measure_bands (Long *l)
{
  SwPen pen = sw_sheet_pen (l->maker, NULL, 1);
  l->pen = &pen; /* the page's own comes when its scale is known */
  for (guint band = 0; band < N_BANDS; band++)
    {
      l->heights[band] = BAND_LEAST_MM;
      for (guint i = 0; i < l->route->n; i++)
        {
          g_autofree char *text = bands[band].text (l, i);
          l->heights[band] = fmax (l->heights[band], sw_pen_text_width (&pen, text, 0) + 3);
        }
    }
  l->pen = NULL;
}

/* Of all bands, the gradients' too. */
static double
bands_height (const Long *l)
{
  double height = 12 + FALL_BAND_MM;
  for (guint band = 0; band < N_BANDS; band++)
    height += l->heights[band];
  return height;
}

/* Pushes the columns apart, first to the right, then back from the right edge. */
static void
place_columns (Long *l, double right)
{
  guint n = l->route->n;
  l->columns = g_new0 (double, n);
  for (guint i = 0; i < n; i++)
    {
      l->columns[i] = on_page (l, sw_run_facts_chainage (l->route, i), 0).x;
      if (i > 0)
        l->columns[i] = fmax (l->columns[i], l->columns[i - 1] + COLUMN_LEAST_MM);
    }
  for (guint i = n; i-- > 0;)
    {
      l->columns[i] = fmin (l->columns[i], right);
      right = l->columns[i] - COLUMN_LEAST_MM;
    }
}

static void
draw_band (const Long *l, guint band, double y)
{
  static const SwStroke line = { .role = SW_ROLE_INK, .width = 0.18 };
  double start = l->left - LEVELS_MM - LABELS_MM, end = l->columns[l->route->n - 1] + COLUMN_LEAST_MM;
  sw_display_add_line (l->pen->display, (SwPoint){ start, y }, (SwPoint){ end, y }, &line);
  sw_paragraph_add (l->pen, (SwPoint){ start, y - 2 }, LABELS_MM + LEVELS_MM - 6, _(bands[band].name));
  for (guint i = 0; i < l->route->n; i++)
    {
      g_autofree char *text = bands[band].text (l, i);
      sw_pen_add_text (l->pen, (SwPoint){ l->columns[i], y - l->heights[band] + 1 }, text, &(SwPenText){ .turn = G_PI / 2, .rise = SW_RISE_MIDDLE });
    }
}

static char *
gradient_text (const SwRoute *route, guint leg)
{
  SwPoint3 way = sw_point3_sub (route->axis[leg + 1], route->axis[leg]);
  double plan = hypot (way.x, way.y);
  char digits[SW_NUMBER_BUF];
  if (plan < 1)
    return g_strdup (way.z < 0 ? _("straight down") : _("straight up"));
  if (fabs (way.z) < 0.05)
    return g_strdup (_("level"));
  sw_number_write_fixed (plan / fabs (way.z), plan / fabs (way.z) < 10 ? 1 : 0, digits);
  return g_strdup_printf (way.z < 0 ? _("1:%s") : _("up 1:%s"), digits);
}

/* Gradient and length between vertices, where there is room to write them. */
static void
draw_gradients (const Long *l, double y)
{
  static const SwStroke line = { .role = SW_ROLE_INK, .width = 0.18 };
  double start = l->left - LEVELS_MM - LABELS_MM;
  sw_display_add_line (l->pen->display, (SwPoint){ start, y }, (SwPoint){ l->columns[l->route->n - 1] + COLUMN_LEAST_MM, y }, &line);
  sw_paragraph_add (l->pen, (SwPoint){ start, y - 2 }, LABELS_MM + LEVELS_MM - 6, _("Fall; length"));
  for (guint i = 0; i + 1 < l->route->n; i++)
    {
      char digits[SW_LENGTH_BUF];
      g_autofree char *fall = gradient_text (l->route, i);
      double room = l->columns[i + 1] - l->columns[i] - 2, middle = (l->columns[i] + l->columns[i + 1]) / 2;
      const char *length = sw_length_write_far (sw_point3_distance (l->route->axis[i], l->route->axis[i + 1]), l->pen->lengths, 2, digits);
      if (sw_pen_text_width (l->pen, fall, 0) <= room)
        sw_pen_add_text (l->pen, (SwPoint){ middle, y - 4.5 }, fall, &(SwPenText){ .align = SW_ALIGN_MIDDLE });
      if (sw_pen_text_width (l->pen, length, 0) <= room)
        sw_pen_add_text (l->pen, (SwPoint){ middle, y - 9 }, length, &(SwPenText){ .align = SW_ALIGN_MIDDLE });
    }
}

static void
draw_bands (const Long *l)
{
  static const SwStroke thin = { .role = SW_ROLE_INK, .width = 0.13 };
  double y = l->bottom - 12, top = y;
  sw_display_begin_group (l->pen->display, &(SwDisplayGroup){ .id = "numbers", .class_name = "numbers" });
  for (guint band = 0; band < G_N_ELEMENTS (bands); band++)
    {
      draw_band (l, band, y);
      y -= l->heights[band];
      if (band == 0)
        {
          draw_gradients (l, y);
          y -= FALL_BAND_MM;
        }
    }
  for (guint i = 0; i < l->route->n; i++)
    {
      SwPoint foot = on_page (l, sw_run_facts_chainage (l->route, i), l->z_bottom), axis = on_page (l, sw_run_facts_chainage (l->route, i), l->route->axis[i].z);
      sw_display_add_line (l->pen->display, axis, foot, &thin);
      sw_display_add_line (l->pen->display, foot, (SwPoint){ l->columns[i], top + 2 }, &thin);
      sw_display_add_line (l->pen->display, (SwPoint){ l->columns[i], top + 2 }, (SwPoint){ l->columns[i], top }, &thin);
    }
  sw_display_end (l->pen->display);
}

static void
draw_ends (const Long *l)
{
  SwJob *job = sw_deck_job (l->deck);
  g_autofree char *start = sw_sheet_end_name (job, l->facts->run->start), *end = sw_sheet_end_name (job, l->facts->run->end);
  g_autofree char *from = *start != '\0' ? g_strdup_printf (_("from %s"), start) : NULL, *to = *end != '\0' ? g_strdup_printf (_("to %s"), end) : NULL;
  double y = l->bottom + (l->z_top - l->z_bottom) / l->up + 6;
  for (guint i = 0; i < l->facts->plates->len; i++)
    {
      g_autofree char *text = plate_text (g_array_index (l->facts->plates, SwRunPlate, i).plate);
      y = fmax (y, l->bottom + (l->z_top - l->z_bottom) / l->up + 6 + sw_pen_text_width (l->pen, text, 0));
    }
  if (from != NULL)
    sw_pen_add_text (l->pen, (SwPoint){ l->left, y }, from, &(SwPenText){ .bold = TRUE });
  if (to != NULL)
    sw_pen_add_text (l->pen, (SwPoint){ fmax (l->left + l->length / l->across, l->left + 90), y }, to, &(SwPenText){ .align = SW_ALIGN_RIGHT, .bold = TRUE });
}

/* Chooses scales and where the profile stands; levels that are drawn reach from the lowest body to the slab's top. */
static void
lay_out (Long *l, SwBox area)
{
  static const double across[] = { 20, 25, 50, 100, 200, 500, 1000 }, up[] = { 5, 10, 20, 50, 100 };
  double width = area.high.x - area.low.x - LABELS_MM - LEVELS_MM - 12, asked = l->maker->context->options.scale;
  guint i = 0, k = 0;
  measure_bands (l);
  l->z_bottom = INFINITY;
  l->z_top = -INFINITY;
  for (guint v = 0; v < l->route->n; v++)
    {
      SwPoint p = vertex_at (l, v);
      double board = board_back (l->deck, p);
      l->z_bottom = fmin (l->z_bottom, fmin (l->route->axis[v].z - outside (l->route), sw_deck_soffit_at (l->deck, p)));
      l->z_bottom = isnan (board) ? l->z_bottom : fmin (l->z_bottom, board);
      l->z_top = fmax (l->z_top, fmax (l->route->axis[v].z + outside (l->route), slab_top (l->deck, p)));
    }
  l->z_bottom -= 20;
  double highest = fmin (PROFILE_MM, area.high.y - area.low.y - bands_height (l) - 4 - OVER_MM);
  while (i + 1 < G_N_ELEMENTS (across) && l->length / across[i] > width)
    i++;
  while (k + 1 < G_N_ELEMENTS (up) && ((l->z_top - l->z_bottom) / up[k] > highest || up[k] * 5 < across[i]))
    k++;
  l->across = asked > 0 && l->length / asked <= width ? asked : across[i];
  l->up = up[k];
  l->left = area.low.x + LABELS_MM + LEVELS_MM + 2;
  l->bottom = fmax (area.low.y + bands_height (l) + 4, area.high.y - OVER_MM - (l->z_top - l->z_bottom) / l->up);
}

static void
add_long_column (const Long *l)
{
  static const SwFill concrete = { .role = SW_ROLE_CONCRETE };
  static const SwStroke edge = { .role = SW_ROLE_CONCRETE_EDGE, .width = 0.5 }, soffit = { .role = SW_ROLE_INK, .width = 0.18, .dash = SW_DASH_HIDDEN };
  static const SwStroke board = { .role = SW_ROLE_BOARD_EDGE, .width = 0.7 }, plate = { .role = SW_ROLE_PLATE, .width = 0.7 };
  SwColourRole role = sw_service_line_role (sw_plan_service_line ((SwService) l->facts->run->service));
  SwFill tube = { .role = role, .transparency = 0.6 };
  SwStroke tube_edge = { .role = role, .width = 0.35 };
  const SwLegendEntry legend[] = {
    { &edge, &concrete, NULL, _("concrete over the run") }, { &tube_edge, &tube, NULL, sw_sheet_word (SW_TABLE_RUN, "service", l->facts->run->service) },
    { &soffit, NULL, NULL, _("soffit: top of battens") }, { &board, NULL, NULL, _("upper face of boards") }, { &plate, NULL, NULL, _("stiffener plate") },
  };
  g_autofree char *heights = g_strdup_printf (_("Heights are drawn at 1:%.0f. Cover and clear room are measured from the socket or the lagging, whichever is larger."), l->up);
  const char *notes[] = { heights, NULL };
  SwSheetColumn column = { .legend = legend, .n_legend = G_N_ELEMENTS (legend), .notes = notes, .here = sw_record_box (&l->facts->run->record) };
  sw_sheet_add_column (l->maker, l->draft, &column);
}

gboolean
sw_sheet_draw_long (SwSheetMaker *maker, GError **error)
{
  const SwRecord *record = sw_job_get (sw_sheet_job (maker->context), maker->args.record);
  if (record == NULL || sw_record_table (record) != SW_TABLE_RUN)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, "the long section needs a run: name one of the job's");
      return FALSE;
    }
  g_autoptr (SwRunFacts) facts = sw_run_facts_new (maker->context->deck, maker->context->rules, (const SwRun *) record);
  if (facts->route == NULL)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "no long section of \"%s\": %s", record->tag, facts->fault);
      return FALSE;
    }
  Long l = { .maker = maker, .deck = maker->context->deck, .facts = facts, .route = facts->route, .length = sw_route_plan_length (facts->route) };
  g_free (maker->title);
  maker->title = g_strdup_printf (_("Long section of %s %s"), record->tag, ((const SwRun *) record)->name);
  g_strchomp (maker->title);
  SwBox area = sw_box_grow (sw_sheet_area (&maker->page), -4);
  lay_out (&l, area);
  l.draft = sw_sheet_begin_page (maker, l.across);
  l.pen = &l.draft->pen;
  place_columns (&l, area.high.x - COLUMN_LEAST_MM);
  add_long_column (&l);
  draw_levels (&l);
  draw_concrete (&l);
  draw_plates (&l);
  draw_tube (&l);
  draw_bands (&l);
  draw_ends (&l);
  g_free (l.columns);
  return TRUE;
}
