/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A void's section with tubes. Gaps are measured from each tube to its sides and to all others, O(n²) for a handful of tubes. */
#include "base/number.h"
#include "drawing/dimension.h"
#include "sheets/pictures.h"
#include "sheets/words.h"

#define MARGIN_MM 24.0   /* on paper, for dimensions at left and below */
#define RIB_SHARE 0.22   /* of the mouth: what of the ribs is shown */
#define TOPPING_SHARE 0.2 /* of the depth */
#define GAPS_EACH 2      /* of each tube that was asked for */

typedef struct
{
  SwPen pen; /* in the section's coordinates */
  const SwPackCase *pack;
  const SwPictureTube *tubes;
  guint n;
} Drawing;

/* The tube's own outline to the next thing: from a to b, `mm` apart; negative where they overlap. */
typedef struct
{
  double mm;
  SwPoint a, b;
  guint other; /* tube, or n and more for a side */
} Gap;

static gboolean
is_placed (const SwPictureTube *tube)
{
  return isfinite (tube->tube.at.x) && isfinite (tube->tube.at.y);
}

/* ---- the void */

static void
add_concrete (const Drawing *drawing)
{
  static const SwFill concrete = { .role = SW_ROLE_CONCRETE };
  static const SwStroke steel = { .role = SW_ROLE_STEEL, .width = 0.6 };
  SwStroke faint = sw_pen_stroke (&drawing->pen, 0.18, SW_DASH_HIDDEN);
  const SwPackCase *pack = drawing->pack;
  double m = pack->mouth / 2, c = pack->crown / 2, h = pack->depth, out = m * (1 + 2 * RIB_SHARE), top = h * (1 + TOPPING_SHARE);
  const SwPoint whole[] = { { -out, 0 }, { -m, 0 }, { -c, h }, { c, h }, { m, 0 }, { out, 0 }, { out, top }, { -out, top } };
  const SwPoint sheet[] = { { -out, 0 }, { -m, 0 }, { -c, h }, { c, h }, { m, 0 }, { out, 0 } };
  sw_display_add_polygon (drawing->pen.display, whole, G_N_ELEMENTS (whole), &concrete, NULL);
  sw_display_add_polyline (drawing->pen.display, sheet, G_N_ELEMENTS (sheet), &steel);
  sw_display_add_line (drawing->pen.display, (SwPoint){ -m, 0 }, (SwPoint){ m, 0 }, &faint);
}

/* What is left when the clearances are taken off. */
static void
add_inside (const Drawing *drawing)
{
  SwStroke dashes = { .role = SW_ROLE_GOOD, .width = 0.25, .dash = SW_DASH_HIDDEN };
  const SwPackCase *pack = drawing->pack;
  double lean = (pack->mouth - pack->crown) / 2, in = pack->side * hypot (pack->depth, lean) / pack->depth;
  double low = pack->bottom, high = pack->depth - pack->top, a = sw_packing_width (pack, low) / 2 - in, b = sw_packing_width (pack, high) / 2 - in;
  if (high <= low || b <= 0)
    return;
  const SwPoint ring[] = { { -a, low }, { a, low }, { b, high }, { -b, high } };
  sw_display_add_polygon (drawing->pen.display, ring, G_N_ELEMENTS (ring), NULL, &dashes);
}

static void
add_sizes (const Drawing *drawing)
{
  const SwPackCase *pack = drawing->pack;
  double m = pack->mouth / 2, c = pack->crown / 2, h = pack->depth, unit = drawing->pen.unit, out = m * (1 + 2 * RIB_SHARE);
  const SwPoint mouth[] = { { -m, 0 }, { m, 0 } }, crown[] = { { -c, h }, { c, h } }, depth[] = { { -out, 0 }, { -out, h } };
  sw_dimension_add_chain (&drawing->pen, (SwDimensionLine){ { 0, -7 * unit }, 0 }, mouth, 2);
  sw_dimension_add_chain (&drawing->pen, (SwDimensionLine){ { 0, h * (1 + TOPPING_SHARE) + 4 * unit }, 0 }, crown, 2);
  sw_dimension_add_chain (&drawing->pen, (SwDimensionLine){ { -out - 6 * unit, 0 }, G_PI / 2 }, depth, 2);
}

/* ---- tubes */

/* One that was asked for, with the pipe inside its socket. */
static void
add_asked (const Drawing *drawing, const SwPictureTube *tube)
{
  static const SwFill paper = { .role = SW_ROLE_PAPER };
  const SwFill fill = { .role = tube->role, .transparency = 0.85 };
  const SwStroke ring = { .role = tube->role, .width = 0.5 }, inner = { .role = tube->role, .width = 0.25, .dash = SW_DASH_HIDDEN };
  sw_display_add_circle (drawing->pen.display, tube->tube.at, tube->tube.radius, &paper, NULL);
  sw_display_add_circle (drawing->pen.display, tube->tube.at, tube->tube.radius, &fill, &ring);
  if (tube->size > 0 && tube->size / 2 < tube->tube.radius - 0.5)
    sw_display_add_circle (drawing->pen.display, tube->tube.at, tube->size / 2, NULL, &inner);
}

/* Of the tubes of one run the first and the last. */
static gboolean
is_end (const Drawing *drawing, guint i)
{
  const char *name = drawing->tubes[i].name;
  return i == 0 || i + 1 == drawing->n || g_strcmp0 (drawing->tubes[i - 1].name, name) != 0 || g_strcmp0 (drawing->tubes[i + 1].name, name) != 0;
}

static void
add_tubes (const Drawing *drawing)
{
  for (int asked = 0; asked < 2; asked++)
    for (guint i = 0; i < drawing->n; i++)
      {
        const SwPictureTube *tube = &drawing->tubes[i];
        const SwFill fill = { .role = tube->role, .transparency = 0.85 };
        const SwStroke ring = { .role = tube->role, .width = 0.25 };
        if ((tube->name == NULL) != asked || !is_placed (tube))
          continue;
        if (asked)
          add_asked (drawing, tube);
        else
          sw_display_add_circle (drawing->pen.display, tube->tube.at, tube->tube.radius, &fill, is_end (drawing, i) ? &ring : NULL);
      }
}

static void
add_name (const Drawing *drawing, const SwPictureTube *tube, guint number)
{
  double wide = tube->size > 0 ? tube->size : 2 * tube->tube.radius;
  char size[SW_LENGTH_BUF];
  sw_length_write (wide, drawing->pen.lengths, SW_LENGTH_DIM, wide == round (wide) ? 0 : 1, size);
  g_autofree char *full = g_strdup_printf ("%u: ⌀%s", number, size), *less = g_strdup_printf ("%u", number);
  const char *text = tube->name != NULL ? tube->name : sw_pen_text_width (&drawing->pen, full, 0) < 1.9 * tube->tube.radius ? full : less;
  sw_pen_add_text (&drawing->pen, tube->tube.at, text, &(SwPenText){ .align = SW_ALIGN_MIDDLE, .rise = SW_RISE_MIDDLE, .halo = TRUE, .bold = tube->name == NULL });
}

/* A run's name stands once, at the first of its tubes. */
static void
add_names (const Drawing *drawing)
{
  guint number = 0;
  for (guint i = 0; i < drawing->n; i++)
    {
      const SwPictureTube *tube = &drawing->tubes[i];
      gboolean first = i == 0 || tube->name == NULL || g_strcmp0 (drawing->tubes[i - 1].name, tube->name) != 0;
      number += tube->name == NULL;
      if (first && is_placed (tube))
        add_name (drawing, tube, number);
    }
}

/* ---- gaps */

static Gap
gap_to_side (const Drawing *drawing, guint tube, guint side)
{
  const SwPackCase *pack = drawing->pack;
  SwPackTube t = drawing->tubes[tube].tube;
  double lean = (pack->mouth - pack->crown) / 2, slope = hypot (pack->depth, lean), across = pack->depth / slope, up = lean / slope;
  const SwPoint normals[] = { { across, up }, { -across, up }, { 0, 1 }, { 0, -1 } };
  const double reaches[] = { across * pack->mouth / 2, across * pack->mouth / 2, pack->depth, 0 };
  double room = reaches[side] - sw_point_dot (normals[side], t.at) - t.radius;
  SwPoint a = sw_point_add (t.at, sw_point_scale (normals[side], t.radius));
  return (Gap){ room, a, sw_point_add (a, sw_point_scale (normals[side], room)), drawing->n + side };
}

static Gap
gap_to_tube (const Drawing *drawing, guint tube, guint other)
{
  SwPackTube t = drawing->tubes[tube].tube, o = drawing->tubes[other].tube;
  double apart = fmax (sw_point_distance (t.at, o.at), 1e-9);
  SwPoint way = sw_point_scale (sw_point_sub (o.at, t.at), 1 / apart);
  return (Gap){ apart - t.radius - o.radius, sw_point_add (t.at, sw_point_scale (way, t.radius)), sw_point_sub (o.at, sw_point_scale (way, o.radius)), other };
}

static int
by_mm (gconstpointer a, gconstpointer b)
{
  const Gap *p = a, *q = b;
  return p->mm != q->mm ? (p->mm > q->mm) - (p->mm < q->mm) : (p->other > q->other) - (p->other < q->other);
}

static GArray *
gaps_of (const Drawing *drawing, guint tube)
{
  GArray *gaps = g_array_new (FALSE, FALSE, sizeof (Gap));
  for (guint i = 0; i < drawing->n + 4; i++)
    {
      if (i == tube || (i < drawing->n && !is_placed (&drawing->tubes[i])))
        continue;
      Gap gap = i < drawing->n ? gap_to_tube (drawing, tube, i) : gap_to_side (drawing, tube, i - drawing->n);
      g_array_append_val (gaps, gap);
    }
  g_array_sort (gaps, by_mm);
  return gaps;
}

static void
add_gap (const Drawing *drawing, const Gap *gap)
{
  static const SwStroke line = { .role = SW_ROLE_DIMENSION, .width = 0.25 };
  char digits[SW_LENGTH_BUF];
  if (gap->mm <= 0)
    return;
  sw_display_add_line (drawing->pen.display, gap->a, gap->b, &line);
  sw_length_write (gap->mm, drawing->pen.lengths, SW_LENGTH_DIM, fabs (gap->mm - round (gap->mm)) < 0.05 ? 0 : 1, digits);
  sw_pen_add_text (&drawing->pen, sw_point_lerp (gap->a, gap->b, 0.5), digits, &(SwPenText){ .align = SW_ALIGN_MIDDLE, .rise = SW_RISE_MIDDLE, .halo = TRUE });
}

/* Between two that were asked for it is written once. */
static void
add_gaps (const Drawing *drawing)
{
  g_autoptr (GHashTable) done = g_hash_table_new (NULL, NULL);
  for (guint i = 0; i < drawing->n; i++)
    {
      if (drawing->tubes[i].name != NULL || !is_placed (&drawing->tubes[i]))
        continue;
      g_autoptr (GArray) gaps = gaps_of (drawing, i);
      for (guint k = 0; k < MIN (gaps->len, GAPS_EACH); k++)
        {
          const Gap *gap = &g_array_index (gaps, Gap, k);
          guint pair = MIN (i, gap->other) * (drawing->n + 4) + MAX (i, gap->other) + 1;
          if (g_hash_table_add (done, GUINT_TO_POINTER (pair)))
            add_gap (drawing, gap);
        }
    }
}

void
sw_picture_add_packing (const SwPen *pen, SwBox box, const SwPicturePacking *picture)
{
  const SwPackCase *pack = picture->pack;
  double wide = pack->mouth * (1 + 2 * RIB_SHARE), high = pack->depth * (1 + TOPPING_SHARE);
  double scale = fmax (wide / (box.high.x - box.low.x - MARGIN_MM), high / (box.high.y - box.low.y - MARGIN_MM));
  SwPoint to = { (box.low.x + box.high.x + MARGIN_MM / 2) / 2, (box.low.y + box.high.y + MARGIN_MM / 4) / 2 };
  Drawing drawing = { *pen, pack, picture->tubes, picture->n };
  sw_display_begin_transform (pen->display, sw_transform_view ((SwPoint){ 0, high / 2 }, to, 1 / scale, 0, FALSE));
  drawing.pen.unit = scale;
  add_concrete (&drawing);
  add_inside (&drawing);
  add_sizes (&drawing);
  add_tubes (&drawing);
  add_names (&drawing);
  add_gaps (&drawing);
  sw_display_end (pen->display);
}
