/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Letters are placed one after the other, important ones first. Each tries a short list of places, the nearest first, and
 * takes the first that meets nothing placed before; a needed one that finds none takes the place where it meets least.
 * Placed boxes stand in a hash of square cells, so that only near ones are looked at. It ends because nothing moves twice;
 * it does not find the best of all placings, and it knows nothing of lines, over which letters stand on a rim of paper. */
#include "sheets/labels.h"
#include <string.h>

#define CELL_MM 12.0
#define GAP_MM 0.5
#define LINE_GAP_MM 1.2
#define STEPS 6
#define INSIDE_STEPS 17 /* half widths to both sides, in areas that are long */
#define FINE_MM 2.0     /* steps where the coarse ones meet something everywhere */
#define FINE_STEPS 41
#define STRIP_MM 6.0
#define OUTSIDE 1000 /* worse than meeting that many letters */
#define LEADER_MM 0.18
#define FAR_MM 2.0

/* A rectangle about its centre, `axis` along its first half. */
typedef struct
{
  SwPoint centre, axis;
  double half_width, half_height;
} Place;

typedef struct
{
  SwLabel label;
  char *lines[2];
  guint n_lines;
  double heights[2]; /* of capitals, coordinates in use */
  double width, height;
  guint order;
} Item;

struct _SwLabels
{
  SwPen pen;
  SwBox visible;
  GArray *items;  /* Item */
  GArray *places; /* Place */
  GHashTable *cells; /* cell → GArray of guint */
};

static void
item_clear (gpointer data)
{
  Item *item = data;
  g_free (item->lines[0]);
  g_free (item->lines[1]);
}

SwLabels *
sw_labels_new (const SwPen *pen, SwBox visible)
{
  SwLabels *labels = g_new0 (SwLabels, 1);
  labels->pen = *pen;
  labels->visible = visible;
  labels->items = g_array_new (FALSE, FALSE, sizeof (Item));
  g_array_set_clear_func (labels->items, item_clear);
  labels->places = g_array_new (FALSE, FALSE, sizeof (Place));
  labels->cells = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, (GDestroyNotify) g_array_unref);
  return labels;
}

void
sw_labels_free (SwLabels *labels)
{
  g_array_unref (labels->items);
  g_array_unref (labels->places);
  g_hash_table_unref (labels->cells);
  g_free (labels);
}

static double
height_of (const SwPen *pen, const SwTextStyle *style)
{
  double least = sw_pen_letters (pen) * pen->unit;
  return fmax (style->unit == SW_SIZE_WORLD ? style->height : style->height * pen->unit, least);
}

/* Of what slides along and shows in part only: the middle of that part, when it is a narrow strip; else where it was. */
static SwPoint
seen_middle (const SwLabels *labels, const SwLabel *label)
{
  SwBox part = { { fmax (label->around.low.x, labels->visible.low.x), fmax (label->around.low.y, labels->visible.low.y) },
                 { fmin (label->around.high.x, labels->visible.high.x), fmin (label->around.high.y, labels->visible.high.y) } };
  SwPoint size = sw_point_sub (part.high, part.low);
  gboolean strip = !sw_box_is_empty (part) && fmin (size.x, size.y) <= STRIP_MM * labels->pen.unit && fmax (size.x, size.y) > 2 * STRIP_MM * labels->pen.unit;
  return strip ? sw_point_lerp (part.low, part.high, 0.5) : label->at;
}

/* The lesser of the shares of a box's width and height that are seen. */
static double
seen_share (const SwLabels *labels, SwBox box)
{
  double x = fmin (box.high.x, labels->visible.high.x) - fmax (box.low.x, labels->visible.low.x);
  double y = fmin (box.high.y, labels->visible.high.y) - fmax (box.low.y, labels->visible.low.y);
  return fmin (x / fmax (box.high.x - box.low.x, 1), y / fmax (box.high.y - box.low.y, 1));
}

void
sw_labels_add (SwLabels *labels, const SwLabel *label)
{
  if (label->least_seen > 0 && seen_share (labels, label->around) < label->least_seen)
    return;
  Item item = { .label = *label, .order = labels->items->len };
  for (guint i = 0; i < 2 && label->lines[i] != NULL; i++)
    {
      item.lines[i] = g_strdup (label->lines[i]);
      item.heights[i] = height_of (&labels->pen, &label->styles[i]);
      item.width = fmax (item.width, sw_text_meter_width (labels->pen.meter, item.lines[i], item.heights[i], label->styles[i].bold));
      item.height += item.heights[i] + (i > 0 ? LINE_GAP_MM * labels->pen.unit : 0);
      item.n_lines = i + 1;
    }
  if (label->way == SW_LABEL_ALONG && !sw_box_holds (labels->visible, label->at))
    item.label.at = seen_middle (labels, label);
  if (item.n_lines > 0 && sw_box_holds (labels->visible, item.label.at))
    g_array_append_val (labels->items, item);
  else
    item_clear (&item);
}

static SwBox
place_box (const Place *place)
{
  double x = fabs (place->axis.x) * place->half_width + fabs (place->axis.y) * place->half_height;
  double y = fabs (place->axis.y) * place->half_width + fabs (place->axis.x) * place->half_height;
  return (SwBox){ { place->centre.x - x, place->centre.y - y }, { place->centre.x + x, place->centre.y + y } };
}

/* Whether a line square to `axis` parts the two: separating axes of two rectangles. */
static gboolean
parted_along (SwPoint axis, const Place *a, const Place *b)
{
  double distance = fabs (sw_point_dot (axis, sw_point_sub (b->centre, a->centre)));
  double reach = 0;
  const Place *both[] = { a, b };
  for (guint i = 0; i < 2; i++)
    reach += fabs (sw_point_dot (axis, both[i]->axis)) * both[i]->half_width + fabs (sw_point_cross (axis, both[i]->axis)) * both[i]->half_height;
  return distance >= reach - 1e-6 * (1 + reach);
}

static gboolean
places_meet (const Place *a, const Place *b)
{
  SwPoint axes[] = { a->axis, { -a->axis.y, a->axis.x }, b->axis, { -b->axis.y, b->axis.x } };
  for (guint i = 0; i < 4; i++)
    if (parted_along (axes[i], a, b))
      return FALSE;
  return TRUE;
}

typedef struct { gint64 x0, y0, x1, y1; } Cells;

static Cells
cells_of (const SwLabels *labels, const Place *place)
{
  double cell = CELL_MM * labels->pen.unit;
  SwBox box = place_box (place);
  return (Cells){ (gint64) floor (box.low.x / cell), (gint64) floor (box.low.y / cell), (gint64) floor (box.high.x / cell), (gint64) floor (box.high.y / cell) };
}

static GArray *
cell_at (const SwLabels *labels, gint64 x, gint64 y, gboolean make)
{
  gint64 key = x * 4000037 + y;
  GArray *cell = g_hash_table_lookup (labels->cells, &key);
  if (cell == NULL && make)
    {
      cell = g_array_new (FALSE, FALSE, sizeof (guint));
      g_hash_table_insert (labels->cells, g_memdup2 (&key, sizeof key), cell);
    }
  return cell;
}

static void
keep_place (SwLabels *labels, const Place *place)
{
  Cells cells = cells_of (labels, place);
  guint index = labels->places->len;
  g_array_append_val (labels->places, *place);
  for (gint64 x = cells.x0; x <= cells.x1; x++)
    for (gint64 y = cells.y0; y <= cells.y1; y++)
      g_array_append_val (cell_at (labels, x, y, TRUE), index);
}

/* How many cells' worth of placed boxes the place meets; 0 when it is free. */
static guint
count_meetings (const SwLabels *labels, const Place *place)
{
  Cells cells = cells_of (labels, place);
  guint n = 0;
  for (gint64 x = cells.x0; x <= cells.x1; x++)
    for (gint64 y = cells.y0; y <= cells.y1; y++)
      {
        const GArray *cell = cell_at (labels, x, y, FALSE);
        for (guint i = 0; cell != NULL && i < cell->len; i++)
          n += places_meet (place, &g_array_index (labels->places, Place, g_array_index (cell, guint, i)));
      }
  return n;
}

void
sw_labels_block (SwLabels *labels, SwBox box)
{
  Place place = { sw_point_lerp (box.low, box.high, 0.5), { 1, 0 }, (box.high.x - box.low.x) / 2, (box.high.y - box.low.y) / 2 };
  SwBox seen = { { fmax (box.low.x, labels->visible.low.x), fmax (box.low.y, labels->visible.low.y) },
                 { fmin (box.high.x, labels->visible.high.x), fmin (box.high.y, labels->visible.high.y) } };
  if (!sw_box_is_empty (seen))
    keep_place (labels, &place);
}

/* Where the letters' middle is when the label stands where it came from. */
static Place
own_place (const SwLabels *labels, const Item *item)
{
  const SwTextStyle *style = &item->label.styles[0];
  SwPoint along = { cos (style->turn), sin (style->turn) }, up = { -along.y, along.x };
  const double sideways[] = { [SW_ALIGN_LEFT] = 0.5, [SW_ALIGN_MIDDLE] = 0, [SW_ALIGN_RIGHT] = -0.5 };
  const double upwards[] = { [SW_RISE_BASELINE] = 0.5, [SW_RISE_MIDDLE] = 0, [SW_RISE_TOP] = -0.5 };
  double rise = upwards[style->rise] * item->heights[0] - (item->height - item->heights[0]) / 2, gap = GAP_MM * labels->pen.unit;
  SwPoint centre = sw_point_add (item->label.at, sw_point_add (sw_point_scale (along, sideways[style->align] * item->width), sw_point_scale (up, rise)));
  return (Place){ centre, along, item->width / 2 + gap, item->height / 2 + gap };
}

/* Candidates. */

static void
offer (GArray *places, const Place *own, SwPoint centre)
{
  Place place = { centre, own->axis, own->half_width, own->half_height };
  g_array_append_val (places, place);
}

static void
offer_along (GArray *places, const Item *item, const Place *own)
{
  SwBox slide = sw_box_grow (item->label.around, item->height);
  SwPoint up = { -own->axis.y, own->axis.x };
  for (int side = 0; side < 3; side++)
    for (int step = 0; step <= 2 * STEPS; step++)
      {
        double along = (step + 1) / 2 * (step % 2 ? 1 : -1) * own->half_width * 0.8, aside = (side + 1) / 2 * (side % 2 ? 1 : -1) * 2.2 * own->half_height;
        SwPoint centre = sw_point_add (own->centre, sw_point_add (sw_point_scale (own->axis, along), sw_point_scale (up, aside)));
        if (sw_box_holds (slide, centre))
          offer (places, own, centre);
      }
}

static void
offer_round (GArray *places, const Item *item, const Place *own)
{
  static const int sides[8][2] = { { 1, 0 }, { -1, 0 }, { 0, 1 }, { 0, -1 }, { 1, 1 }, { -1, 1 }, { 1, -1 }, { -1, -1 } };
  SwBox box = item->label.around;
  SwPoint middle = sw_point_lerp (box.low, box.high, 0.5), half = sw_point_scale (sw_point_sub (box.high, box.low), 0.5);
  Place upright = { own->centre, own->axis, own->half_width, own->half_height };
  SwBox own_box = place_box (&upright);
  SwPoint reach = sw_point_scale (sw_point_sub (own_box.high, own_box.low), 0.5);
  for (int ring = 0; ring < 3; ring++)
    for (int i = 0; i < 8; i++)
      {
        double far = ring * own->half_height * 2;
        offer (places, own, (SwPoint){ middle.x + sides[i][0] * (half.x + reach.x + far), middle.y + sides[i][1] * (half.y + reach.y + far) });
      }
}

static int
by_distance (gconstpointer pa, gconstpointer pb, gpointer data)
{
  const Place *a = pa, *b = pb, *own = data;
  double first = sw_point_distance (a->centre, own->centre), second = sw_point_distance (b->centre, own->centre);
  return (first > second) - (first < second);
}

/* On a grid round its own place, the nearest first. */
static void
offer_inside (GArray *places, const Item *item, const Place *own, int across, int up, SwPoint step)
{
  g_autoptr (GArray) grid = g_array_new (FALSE, FALSE, sizeof (Place));
  SwBox area = item->label.around;
  for (int column = -across / 2; column <= across / 2; column++)
    for (int row = -up / 2; row <= up / 2; row++)
      {
        double x = own->centre.x + column * step.x, y = own->centre.y + row * step.y;
        if (x - own->half_width >= area.low.x && x + own->half_width <= area.high.x && y - own->half_height >= area.low.y && y + own->half_height <= area.high.y)
          offer (grid, own, (SwPoint){ x, y });
      }
  g_array_sort_with_data (grid, by_distance, (gpointer) own);
  g_array_append_vals (places, grid->data, grid->len);
}

/* Letters over their own line stand on paper. */
static void
draw_backing (const SwLabels *labels, const Place *place)
{
  static const SwFill paper = { .role = SW_ROLE_PAPER, .transparency = 0.25 };
  SwPoint along = sw_point_scale (place->axis, place->half_width), up = sw_point_scale ((SwPoint){ -place->axis.y, place->axis.x }, place->half_height);
  SwPoint low = sw_point_sub (place->centre, along), high = sw_point_add (place->centre, along);
  SwPoint ring[4] = { sw_point_sub (low, up), sw_point_sub (high, up), sw_point_add (high, up), sw_point_add (low, up) };
  sw_display_add_polygon (labels->pen.display, ring, 4, &paper, NULL);
}

static void
draw_item (const SwLabels *labels, const Item *item, const Place *place)
{
  SwPoint up = { -place->axis.y, place->axis.x };
  double top = item->height / 2;
  sw_display_set_layer (labels->pen.display, item->label.layer);
  if (item->label.way == SW_LABEL_ALONG || item->label.way == SW_LABEL_ROUND)
    draw_backing (labels, place);
  for (guint i = 0; i < item->n_lines; i++)
    {
      SwTextStyle style = item->label.styles[i];
      style.height = item->heights[i];
      style.unit = SW_SIZE_WORLD;
      style.align = SW_ALIGN_MIDDLE;
      style.rise = SW_RISE_MIDDLE;
      style.halo = TRUE;
      style.turn = item->label.styles[0].turn;
      sw_display_add_text (labels->pen.display, sw_point_add (place->centre, sw_point_scale (up, top - item->heights[i] / 2)), item->lines[i], &style);
      top -= item->heights[i] + LINE_GAP_MM * labels->pen.unit;
    }
}

/* Farther off, to be led back to the thing. */
static void
offer_far (GArray *places, const Place *own)
{
  for (int ring = 2; ring < 9; ring++)
    for (int i = 0; i < 12; i++)
      {
        double turn = (i + 0.5) * G_PI / 6, far = ring * own->half_height * 2;
        offer (places, own, (SwPoint){ own->centre.x + cos (turn) * (far + own->half_width / 2), own->centre.y + sin (turn) * far });
      }
}

static guint
badness (const SwLabels *labels, const Place *place)
{
  SwBox box = place_box (place), seen = labels->visible;
  gboolean inside = box.low.x >= seen.low.x && box.low.y >= seen.low.y && box.high.x <= seen.high.x && box.high.y <= seen.high.y;
  return count_meetings (labels, place) + (inside ? 0 : OUTSIDE);
}

/* Index of the first of the best places from `first` on; *least is how bad it is. */
static guint
choose_place (const SwLabels *labels, const GArray *places, guint first, guint *least)
{
  guint best = first;
  *least = G_MAXUINT;
  for (guint i = first; i < places->len && *least > 0; i++)
    {
      guint bad = badness (labels, &g_array_index (places, Place, i));
      if (bad < *least)
        {
          *least = bad;
          best = i;
        }
    }
  return best;
}

static void
draw_leader (const SwLabels *labels, const Item *item, const Place *place)
{
  SwStroke line = { .role = item->label.styles[0].role, .width = LEADER_MM };
  SwBox box = place_box (place);
  SwPoint to = item->label.way == SW_LABEL_ROUND ? sw_point_lerp (item->label.around.low, item->label.around.high, 0.5) : item->label.at;
  SwPoint from = { CLAMP (to.x, box.low.x, box.high.x), CLAMP (to.y, box.low.y, box.high.y) };
  sw_display_set_layer (labels->pen.display, item->label.layer);
  sw_display_add_line (labels->pen.display, from, to, &line);
}

/* Whether a line has to say what a label belongs to: those of two lines are wide, and set-out must not be misread. */
static gboolean
needs_leader (const SwLabels *labels, const Item *item, const Place *place)
{
  SwBox box = place_box (place), thing = item->label.around;
  double x = fmax (box.low.x - thing.high.x, thing.low.x - box.high.x), y = fmax (box.low.y - thing.high.y, thing.low.y - box.high.y);
  return item->label.way == SW_LABEL_ROUND && (item->n_lines > 1 || fmax (x, y) > FAR_MM * labels->pen.unit);
}

static void
place_item (SwLabels *labels, const Item *item)
{
  Place own = own_place (labels, item);
  guint least, far_least = G_MAXUINT;
  g_autoptr (GArray) places = g_array_new (FALSE, FALSE, sizeof (Place));
  if (item->label.way != SW_LABEL_ROUND)
    offer (places, &own, own.centre);
  if (item->label.way == SW_LABEL_ALONG)
    offer_along (places, item, &own);
  else if (item->label.way == SW_LABEL_ROUND)
    offer_round (places, item, &own);
  else if (item->label.way == SW_LABEL_INSIDE)
    offer_inside (places, item, &own, INSIDE_STEPS, 4 * STEPS + 1, (SwPoint){ own.half_width, own.half_height });
  guint best = choose_place (labels, places, 0, &least);
  if (least > 0 && item->label.way == SW_LABEL_INSIDE)
    {
      double fine = FINE_MM * labels->pen.unit;
      offer_inside (places, item, &own, FINE_STEPS, FINE_STEPS, (SwPoint){ fine, fine });
      best = choose_place (labels, places, 0, &least);
    }
  guint near = places->len;
  if (least > 0 && !item->label.needed)
    return;
  /* A room's name outside the room would be another room's. */
  if (least > 0 && item->label.way != SW_LABEL_FIXED && item->label.way != SW_LABEL_INSIDE)
    {
      offer_far (places, &own);
      guint far = choose_place (labels, places, near, &far_least);
      best = far_least == 0 ? far : best;
    }
  const Place *place = &g_array_index (places, Place, best);
  if (best >= near || needs_leader (labels, item, place))
    draw_leader (labels, item, place);
  keep_place (labels, place);
  draw_item (labels, item, place);
}

static int
item_compare (gconstpointer a, gconstpointer b)
{
  const Item *first = a, *second = b;
  if (first->label.rank != second->label.rank)
    return first->label.rank - second->label.rank;
  return first->order < second->order ? -1 : first->order > second->order;
}

void
sw_labels_draw (SwLabels *labels)
{
  g_array_sort (labels->items, item_compare);
  sw_display_begin_transform (labels->pen.display, SW_TRANSFORM_IDENTITY);
  for (guint i = 0; i < labels->items->len; i++)
    place_item (labels, &g_array_index (labels->items, Item, i));
  sw_display_end (labels->pen.display);
}
