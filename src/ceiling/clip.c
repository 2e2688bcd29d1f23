/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/clip.h"
#include "base/tolerance.h"

/* A straight cut goes through an area along one line. Each ring is walked once: stretches on the wanted side are kept as
 * chains that begin and end on the line; sorted along the line, ends pair up two by two (between the first and the second
 * the line is inside), and following chains from partner to partner closes the new rings. Rings that the line does not meet
 * are kept or dropped whole, holes too, so outlines and holes need not be told apart. Points on the line count as
 * above it: what is then left with no width is dropped. */

typedef struct
{
  double y;       /* along the line */
  guint chain;
  gboolean end;   /* of the chain, else its start */
} Meeting;

typedef struct
{
  GArray *points; /* of all chains, one after the other */
  GArray *starts; /* guint, first point of each chain */
  GArray *meetings;
} Chains;

static SwPoint
swapped (SwPoint p)
{
  return (SwPoint){ p.y, p.x };
}

SwRings *
sw_rings_swapped (const SwRings *rings)
{
  SwRings *copy = sw_rings_new ();
  g_array_append_vals (copy->ends, rings->ends->data, rings->ends->len);
  for (guint i = 0; i < rings->points->len; i++)
    {
      SwPoint p = swapped (g_array_index (rings->points, SwPoint, i));
      g_array_append_val (copy->points, p);
    }
  return copy;
}

static void
note_meeting (Chains *chains, SwPoint a, SwPoint b, double at, gboolean end)
{
  SwPoint p = { at, a.y + (b.y - a.y) * ((at - a.x) / (b.x - a.x)) };
  if (!end)
    g_array_append_val (chains->starts, chains->points->len);
  Meeting meeting = { p.y, chains->starts->len - 1, end };
  g_array_append_val (chains->points, p);
  g_array_append_val (chains->meetings, meeting);
}

/* The stretches of a ring on the wanted side of x = at; a ring all on it goes to `out`. */
static void
walk_ring (const SwPoint *ring, guint n, double at, gboolean above, Chains *chains, SwRings *out)
{
  guint first = n;
  for (guint i = 0; i < n && first == n; i++)
    if ((ring[i].x >= at) != above && (ring[(i + 1) % n].x >= at) == above)
      first = i;
  if (first == n)
    {
      if ((ring[0].x >= at) == above)
        sw_rings_add (out, ring, n);
      return;
    }
  for (guint k = 0; k < n; k++)
    {
      SwPoint a = ring[(first + k) % n], b = ring[(first + k + 1) % n];
      gboolean a_in = (a.x >= at) == above, b_in = (b.x >= at) == above;
      if (a_in != b_in)
        note_meeting (chains, a, b, at, a_in);
      if (b_in)
        g_array_append_val (chains->points, b);
    }
}

static int
compare_meetings (gconstpointer pa, gconstpointer pb)
{
  const Meeting *a = pa, *b = pb;
  if (a->y != b->y)
    return a->y < b->y ? -1 : 1;
  if (a->chain != b->chain)
    return a->chain < b->chain ? -1 : 1;
  return a->end - b->end;
}

/* Drops repeated points and rings without width. */
static void
close_ring (GArray *ring, SwRings *out)
{
  for (guint i = 0; i < ring->len && ring->len > 1;)
    {
      SwPoint a = g_array_index (ring, SwPoint, i), b = g_array_index (ring, SwPoint, (i + 1) % ring->len);
      if (sw_point_distance (a, b) < SW_GRID_MM / 2)
        g_array_remove_index (ring, i);
      else
        i++;
    }
  if (ring->len < 3)
    return;
  const SwPoint *points = (const SwPoint *) ring->data;
  SwBox box = sw_outline_box (points, ring->len);
  double area = fabs (sw_outline_area (points, ring->len));
  double longest = fmax (box.high.x - box.low.x, box.high.y - box.low.y);
  if (area >= SW_TOUCH_MM * longest)
    sw_rings_add (out, points, ring->len);
}

static void
join_chains (Chains *chains, SwRings *out)
{
  guint n = chains->starts->len;
  g_array_sort (chains->meetings, compare_meetings);
  g_autofree guint *next = g_new0 (guint, n); /* the chain whose start is the partner of this one's end */
  for (guint i = 0; i + 1 < chains->meetings->len; i += 2)
    {
      Meeting a = g_array_index (chains->meetings, Meeting, i), b = g_array_index (chains->meetings, Meeting, i + 1);
      if (a.end == b.end) /* rounding swapped two neighbours: close each chain by itself */
        {
          next[a.chain] = a.chain;
          next[b.chain] = b.chain;
        }
      else
        next[a.end ? a.chain : b.chain] = a.end ? b.chain : a.chain;
    }
  g_autofree gboolean *done = g_new0 (gboolean, n);
  for (guint i = 0; i < n; i++)
    {
      g_autoptr (GArray) ring = g_array_new (FALSE, FALSE, sizeof (SwPoint));
      for (guint chain = i; !done[chain]; chain = next[chain])
        {
          guint start = g_array_index (chains->starts, guint, chain);
          guint end = chain + 1 < n ? g_array_index (chains->starts, guint, chain + 1) : chains->points->len;
          done[chain] = TRUE;
          g_array_append_vals (ring, &g_array_index (chains->points, SwPoint, start), end - start);
        }
      close_ring (ring, out);
    }
}

static SwRings *
side_of (const SwRings *rings, double at, gboolean above)
{
  SwRings *out = sw_rings_new ();
  Chains chains = { g_array_new (FALSE, FALSE, sizeof (SwPoint)), g_array_new (FALSE, FALSE, sizeof (guint)),
                    g_array_new (FALSE, FALSE, sizeof (Meeting)) };
  for (guint i = 0; i < sw_rings_n (rings); i++)
    {
      guint n;
      const SwPoint *ring = sw_rings_get (rings, i, &n);
      walk_ring (ring, n, at, above, &chains, out);
    }
  join_chains (&chains, out);
  g_array_unref (chains.points);
  g_array_unref (chains.starts);
  g_array_unref (chains.meetings);
  return out;
}

static SwRings *
side_along (const SwRings *rings, SwAlong along, double at, gboolean above)
{
  if (along == SW_ALONG_Y)
    return side_of (rings, at, above);
  g_autoptr (SwRings) turned = sw_rings_swapped (rings);
  g_autoptr (SwRings) side = side_of (turned, at, above);
  return sw_rings_swapped (side);
}

void
sw_rings_split (const SwRings *rings, SwAlong along, double at, SwRings **low, SwRings **high)
{
  if (low)
    *low = side_along (rings, along, at, FALSE);
  if (high)
    *high = side_along (rings, along, at, TRUE);
}

SwRings *
sw_rings_between (const SwRings *rings, SwAlong along, double low, double high)
{
  g_autoptr (SwRings) above = side_along (rings, along, low, TRUE);
  return side_along (above, along, high, FALSE);
}

/* ---- polygons ---- */

typedef struct
{
  guint ring, depth; /* in how many others it lies */
  double area;
  SwPoint inside;
  SwBox box;
} Ring;

static gboolean
lies_in (const SwRings *rings, const Ring *inner, const Ring *outer)
{
  guint n;
  const SwPoint *points = sw_rings_get (rings, outer->ring, &n);
  return inner->ring != outer->ring && outer->area > inner->area && sw_outline_holds (points, n, inner->inside);
}

static Ring *
measure_rings (const SwRings *rings)
{
  guint count = sw_rings_n (rings);
  Ring *all = g_new0 (Ring, count);
  for (guint i = 0; i < count; i++)
    {
      guint n;
      const SwPoint *points = sw_rings_get (rings, i, &n);
      all[i] = (Ring){ i, 0, fabs (sw_outline_area (points, n)), points[0], sw_outline_box (points, n) };
      if (count > 1)
        all[i].inside = sw_outline_label_point (points, n);
    }
  for (guint i = 0; i < count; i++)
    for (guint k = 0; k < count; k++)
      all[i].depth += lies_in (rings, &all[i], &all[k]);
  return all;
}

static int
compare_rings (gconstpointer pa, gconstpointer pb)
{
  const Ring *a = pa, *b = pb;
  const double keys[][2] = { { a->box.low.x, b->box.low.x }, { a->box.low.y, b->box.low.y }, { a->area, b->area } };
  for (int i = 0; i < 3; i++)
    if (keys[i][0] != keys[i][1])
      return keys[i][0] < keys[i][1] ? -1 : 1;
  return a->ring < b->ring ? -1 : a->ring > b->ring;
}

GPtrArray *
sw_rings_polygons (const SwRings *rings)
{
  GPtrArray *polygons = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_rings_free);
  guint n, count = sw_rings_n (rings);
  g_autofree Ring *all = measure_rings (rings);
  if (count > 0)
    qsort (all, count, sizeof *all, compare_rings);
  for (guint i = 0; i < count; i++)
    {
      if (all[i].depth % 2 == 1)
        continue;
      SwRings *polygon = sw_rings_new ();
      const SwPoint *points = sw_rings_get (rings, all[i].ring, &n);
      sw_rings_add (polygon, points, n);
      for (guint k = 0; k < count; k++)
        if (all[k].depth == all[i].depth + 1 && lies_in (rings, &all[k], &all[i]))
          {
            points = sw_rings_get (rings, all[k].ring, &n);
            sw_rings_add (polygon, points, n);
          }
      g_ptr_array_add (polygons, polygon);
    }
  return polygons;
}

/* ---- slits ---- */

/* Goes round `hole` from its corner nearest to the ring and back, at the ring's nearest corner. */
static void
join_hole (GArray *ring, const SwPoint *hole, guint n)
{
  double best = INFINITY;
  guint at = 0, from = 0;
  for (guint i = 0; i < ring->len; i++)
    for (guint k = 0; k < n; k++)
      {
        double distance = sw_point_distance (g_array_index (ring, SwPoint, i), hole[k]);
        if (distance < best)
          {
            best = distance;
            at = i;
            from = k;
          }
      }
  g_autoptr (GArray) way = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  SwPoint corner = g_array_index (ring, SwPoint, at);
  for (guint k = 0; k <= n; k++)
    g_array_append_val (way, hole[(from + k) % n]);
  g_array_append_val (way, corner);
  g_array_insert_vals (ring, at + 1, way->data, way->len);
}

GArray *
sw_rings_slit (const SwRings *polygon)
{
  GArray *ring = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  guint n;
  const SwPoint *points = sw_rings_get (polygon, 0, &n);
  gboolean left = sw_outline_area (points, n) > 0;
  for (guint i = 0; i < n; i++)
    g_array_append_val (ring, points[left ? i : n - 1 - i]);
  for (guint h = 1; h < sw_rings_n (polygon); h++)
    {
      points = sw_rings_get (polygon, h, &n);
      g_autofree SwPoint *hole = g_new (SwPoint, n);
      gboolean right = sw_outline_area (points, n) < 0;
      for (guint i = 0; i < n; i++)
        hole[i] = points[right ? i : n - 1 - i];
      join_hole (ring, hole, n);
    }
  return ring;
}

/* ---- set operations ---- */

SwRings *
sw_rings_combine (const SwRings *a, const SwRings *b, SwRingsCombine combine, GError **error)
{
  g_autoptr (SwRegion) first = sw_region_new_rings (a->points, a->ends, error);
  g_autoptr (SwRegion) second = first ? sw_region_new_rings (b->points, b->ends, error) : NULL;
  g_autoptr (SwRegion) result = second ? combine (first, second, error) : NULL;
  if (result == NULL)
    return NULL;
  SwRings *rings = sw_rings_new ();
  for (guint i = 0; i < sw_region_n_rings (result); i++)
    {
      SwRing ring = sw_region_ring (result, i);
      sw_rings_add (rings, ring.points, ring.n);
    }
  return rings;
}
