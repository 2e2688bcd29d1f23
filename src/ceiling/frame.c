/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/frame.h"
#include "base/number.h"
#include "base/tolerance.h"

/* Battens and joints are lines in a frame of their own, so all that laying out needs of an area is where lines and bands
 * lie inside it: crossings with the sides, sorted and paired. A band asks for more than its middle: every side that enters
 * it takes its own stretch away, so nothing narrower than the batten is missed. */

SwFrame
sw_frame_along (SwPoint from, SwPoint to)
{
  SwPoint along = sw_point_sub (to, from);
  double length = sw_point_length (along);
  return (SwFrame){ from, along.x / length, along.y / length };
}

SwRings *
sw_rings_new (void)
{
  SwRings *rings = g_new (SwRings, 1);
  rings->points = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  rings->ends = g_array_new (FALSE, FALSE, sizeof (guint));
  return rings;
}

void
sw_rings_free (SwRings *rings)
{
  if (rings == NULL)
    return;
  g_array_unref (rings->points);
  g_array_unref (rings->ends);
  g_free (rings);
}

void
sw_rings_add (SwRings *rings, const SwPoint *points, gsize n)
{
  g_array_append_vals (rings->points, points, n);
  g_array_append_val (rings->ends, rings->points->len);
}

const SwPoint *
sw_rings_get (const SwRings *rings, guint i, guint *n)
{
  guint start = i == 0 ? 0 : g_array_index (rings->ends, guint, i - 1);
  *n = g_array_index (rings->ends, guint, i) - start;
  return &g_array_index (rings->points, SwPoint, start);
}

static SwRings *
moved (const SwRings *rings, const SwFrame *frame, SwPoint (*move) (const SwFrame *, SwPoint))
{
  SwRings *copy = sw_rings_new ();
  g_array_append_vals (copy->ends, rings->ends->data, rings->ends->len);
  g_array_set_size (copy->points, rings->points->len);
  for (guint i = 0; i < rings->points->len; i++)
    g_array_index (copy->points, SwPoint, i) = move (frame, g_array_index (rings->points, SwPoint, i));
  return copy;
}

SwRings *
sw_rings_to (const SwRings *rings, const SwFrame *frame)
{
  return moved (rings, frame, sw_frame_to);
}

SwRings *
sw_rings_from (const SwRings *rings, const SwFrame *frame)
{
  return moved (rings, frame, sw_frame_from);
}

SwBox
sw_rings_box (const SwRings *rings)
{
  SwBox box = SW_BOX_EMPTY;
  for (guint i = 0; i < rings->points->len; i++)
    box = sw_box_add (box, g_array_index (rings->points, SwPoint, i));
  return box;
}

/* A ring that lies in an odd number of others is a hole. */
static gboolean
is_hole (const SwRings *rings, guint ring)
{
  guint n, m;
  gboolean hole = FALSE;
  const SwPoint *points = sw_rings_get (rings, ring, &n);
  SwPoint inside = sw_outline_label_point (points, n);
  for (guint i = 0; i < sw_rings_n (rings); i++)
    {
      const SwPoint *other = sw_rings_get (rings, i, &m);
      if (i != ring && fabs (sw_outline_area (other, m)) > fabs (sw_outline_area (points, n))
          && sw_outline_holds (other, m, inside))
        hole = !hole;
    }
  return hole;
}

double
sw_rings_area (const SwRings *rings)
{
  double sum = 0;
  for (guint i = 0; i < sw_rings_n (rings); i++)
    {
      guint n;
      const SwPoint *points = sw_rings_get (rings, i, &n);
      double area = fabs (sw_outline_area (points, n));
      sum += sw_rings_n (rings) > 1 && is_hole (rings, i) ? -area : area;
    }
  return sum;
}

gboolean
sw_rings_holds (const SwRings *rings, SwPoint p)
{
  gboolean inside = FALSE;
  for (guint i = 0; i < sw_rings_n (rings); i++)
    {
      guint n;
      const SwPoint *points = sw_rings_get (rings, i, &n);
      for (guint k = 0; k < n; k++)
        {
          SwPoint a = points[k], b = points[k + 1 < n ? k + 1 : 0];
          if ((a.x > p.x) != (b.x > p.x) && p.y < a.y + (b.y - a.y) * ((p.x - a.x) / (b.x - a.x)))
            inside = !inside;
        }
    }
  return inside;
}

static gboolean
is_straight (SwPoint a, SwPoint b, SwPoint c)
{
  SwPoint along = sw_point_sub (c, a);
  double length = sw_point_length (along);
  if (length < SW_TOUCH_MM)
    return TRUE;
  return fabs (sw_point_cross (along, sw_point_sub (b, a))) <= SW_TOUCH_MM / 2 * length;
}

void
sw_rings_straighten (SwRings *rings)
{
  g_autoptr (SwRings) straight = sw_rings_new ();
  for (guint i = 0; i < sw_rings_n (rings); i++)
    {
      guint n;
      const SwPoint *points = sw_rings_get (rings, i, &n);
      g_autoptr (GArray) kept = g_array_new (FALSE, FALSE, sizeof (SwPoint));
      g_array_append_vals (kept, points, n);
      for (guint k = 0; k < kept->len && kept->len > 2;)
        {
          const SwPoint *ring = (const SwPoint *) kept->data;
          if (is_straight (ring[(k + kept->len - 1) % kept->len], ring[k], ring[(k + 1) % kept->len]))
            g_array_remove_index (kept, k);
          else
            k++;
        }
      if (kept->len > 2)
        sw_rings_add (straight, (const SwPoint *) kept->data, kept->len);
    }
  SwRings swap = *rings;
  *rings = *straight;
  *straight = swap;
}

/* ---- coordinates that are as good as one ---- */

double
sw_settle (double mm)
{
  return SW_SETTLE_STEP_MM * round (mm / SW_SETTLE_STEP_MM);
}

typedef struct { double low, high, value; } Settled;

static gsize
coordinate (SwAlong along)
{
  return along == SW_ALONG_X ? G_STRUCT_OFFSET (SwPoint, x) : G_STRUCT_OFFSET (SwPoint, y);
}

static void
collect_coordinates (const SwRings *rings, gsize offset, GArray *values)
{
  for (guint i = 0; i < rings->points->len; i++)
    g_array_append_vals (values, G_STRUCT_MEMBER_P (&g_array_index (rings->points, SwPoint, i), offset), 1);
}

/* Groups that reach no farther than the tolerance from their first; what each becomes. */
static GArray *
group_coordinates (GArray *values)
{
  GArray *groups = g_array_new (FALSE, FALSE, sizeof (Settled));
  g_array_sort (values, sw_compare_doubles);
  for (guint i = 0; i < values->len;)
    {
      Settled group = { g_array_index (values, double, i), g_array_index (values, double, i), 0 };
      for (; i < values->len && g_array_index (values, double, i) <= group.low + SW_SETTLE_MM; i++)
        group.high = g_array_index (values, double, i);
      group.value = sw_settle ((group.low + group.high) / 2);
      g_array_append_val (groups, group);
    }
  return groups;
}

static void
settle_coordinates (SwRings *rings, gsize offset, const GArray *groups)
{
  for (guint i = 0; i < rings->points->len; i++)
    {
      double *value = (double *) G_STRUCT_MEMBER_P (&g_array_index (rings->points, SwPoint, i), offset);
      guint low = 0, high = groups->len - 1;
      while (low < high)
        {
          guint middle = (low + high + 1) / 2;
          if (g_array_index (groups, Settled, middle).low <= *value)
            low = middle;
          else
            high = middle - 1;
        }
      *value = g_array_index (groups, Settled, low).value;
    }
}

void
sw_rings_settle (SwRings *a, SwRings *b)
{
  static const SwAlong ways[] = { SW_ALONG_X, SW_ALONG_Y };
  for (gsize w = 0; w < G_N_ELEMENTS (ways); w++)
    {
      gsize offset = coordinate (ways[w]);
      g_autoptr (GArray) values = g_array_new (FALSE, FALSE, sizeof (double));
      collect_coordinates (a, offset, values);
      if (b != NULL)
        collect_coordinates (b, offset, values);
      g_autoptr (GArray) groups = group_coordinates (values);
      settle_coordinates (a, offset, groups);
      if (b != NULL)
        settle_coordinates (b, offset, groups);
    }
  sw_rings_straighten (a);
  if (b != NULL)
    sw_rings_straighten (b);
}

/* ---- lines ---- */

static inline SwPoint
swapped (SwPoint p)
{
  return (SwPoint){ p.y, p.x };
}

typedef void (*Side) (SwPoint a, SwPoint b, gpointer data);

/* Every side, with x and y swapped when lines run along x. */
static void
each_side (const SwRings *rings, SwAlong along, Side side, gpointer data)
{
  for (guint i = 0; i < sw_rings_n (rings); i++)
    {
      guint n;
      const SwPoint *points = sw_rings_get (rings, i, &n);
      for (guint k = 0; k < n; k++)
        {
          SwPoint a = points[k], b = points[k + 1 < n ? k + 1 : 0];
          side (along == SW_ALONG_X ? swapped (a) : a, along == SW_ALONG_X ? swapped (b) : b, data);
        }
    }
}

typedef struct
{
  double at;
  GArray *crossings;
} Scan;

static void
note_crossing (SwPoint a, SwPoint b, gpointer data)
{
  Scan *scan = data;
  if ((a.x > scan->at) == (b.x > scan->at))
    return;
  double y = a.y + (b.y - a.y) * ((scan->at - a.x) / (b.x - a.x));
  g_array_append_val (scan->crossings, y);
}

void
sw_rings_cut (const SwRings *rings, SwAlong along, double at, GArray *out)
{
  g_autoptr (GArray) crossings = g_array_new (FALSE, FALSE, sizeof (double));
  Scan scan = { at, crossings };
  each_side (rings, along, note_crossing, &scan);
  g_array_sort (crossings, sw_compare_doubles);
  guint first = out->len;
  for (guint i = 0; i + 1 < crossings->len; i += 2)
    {
      SwInterval cut = { g_array_index (crossings, double, i), g_array_index (crossings, double, i + 1) };
      SwInterval *last = out->len > first ? &g_array_index (out, SwInterval, out->len - 1) : NULL;
      if (last != NULL && cut.low - last->high < SW_TOUCH_MM)
        last->high = fmax (last->high, cut.high);
      else if (cut.high - cut.low >= SW_TOUCH_MM)
        g_array_append_val (out, cut);
    }
}

void
sw_rings_seam (const SwRings *rings, SwAlong along, double at, double aside, GArray *out)
{
  g_autoptr (GArray) low = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  g_autoptr (GArray) high = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  sw_rings_cut (rings, along, at - aside, low);
  sw_rings_cut (rings, along, at + aside, high);
  sw_intervals_intersect (low, high);
  g_array_append_vals (out, low->data, low->len);
}

typedef struct
{
  double low, high;
  GArray *intervals;
} Band;

/* The stretch of y that the part of a side within the band covers. */
static gboolean
clip_to_band (SwPoint a, SwPoint b, double low, double high, double *y_low, double *y_high)
{
  if (a.x > b.x)
    {
      SwPoint c = a;
      a = b;
      b = c;
    }
  if (b.x <= low || a.x >= high)
    return FALSE;
  double along = b.x - a.x;
  double from = along > 0 && a.x < low ? a.y + (b.y - a.y) * ((low - a.x) / along) : a.y;
  double to = along > 0 && b.x > high ? a.y + (b.y - a.y) * ((high - a.x) / along) : b.y;
  *y_low = fmin (from, to);
  *y_high = fmax (from, to);
  return TRUE;
}

static void
take_side (SwPoint a, SwPoint b, gpointer data)
{
  Band *band = data;
  double low, high;
  if (clip_to_band (a, b, band->low, band->high, &low, &high))
    sw_intervals_subtract (band->intervals, low, high);
}

void
sw_rings_band (const SwRings *rings, double low, double high, GArray *out)
{
  g_autoptr (GArray) inside = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  Band band = { low + SW_TOUCH_MM / 2, high - SW_TOUCH_MM / 2, inside };
  sw_rings_cut (rings, SW_ALONG_Y, (low + high) / 2, inside);
  each_side (rings, SW_ALONG_Y, take_side, &band);
  g_array_append_vals (out, inside->data, inside->len);
}

void
sw_intervals_keep_off (GArray *intervals, const SwPoint *points, gsize n, double low, double high)
{
  double from = INFINITY, to = -INFINITY, y_low, y_high;
  for (gsize i = 0; i < n; i++)
    if (clip_to_band (points[i], points[i + 1 < n ? i + 1 : 0], low + SW_TOUCH_MM / 2, high - SW_TOUCH_MM / 2, &y_low,
                      &y_high))
      {
        from = fmin (from, y_low);
        to = fmax (to, y_high);
      }
  if (from <= to)
    sw_intervals_subtract (intervals, from, to);
}

double
sw_intervals_sum (const GArray *intervals)
{
  double sum = 0;
  for (guint i = 0; i < intervals->len; i++)
    sum += g_array_index (intervals, SwInterval, i).high - g_array_index (intervals, SwInterval, i).low;
  return sum;
}
