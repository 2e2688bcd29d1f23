/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "geometry/region.h"
#include "base/error.h"
#include "base/tolerance.h"
#include <geos_c.h>
#include <string.h>

/* Set operations on plan areas, by GEOS; no other file includes it. Regions are flat arrays of points and rings; they
 * become the library's polygons for one call and come back in a form of our own, which makes results comparable byte by
 * byte. Overlays round to the grid as they go (snap rounding), so that what the library can build it can also read
 * again. Each call makes a context of its own (tens of nanoseconds), which keeps threads apart and catches messages.
 * Cost: some 100 µs for an overlay of rooms, a few for a clip. Not found: gaps and slivers wider than a touch stay. */

#define MITRE_LIMIT 5.0
#define ROUND_PARTS 8 /* of a quarter circle: asked for, though mitres have none */

typedef struct
{
  guint first, n, part;
  gboolean hole;
} Span;

struct _SwRegion
{
  gatomicrefcount refs;
  guint n_parts;
  GArray *points, *rings; /* SwPoint; Span */
};

/* ---- regions ---- */

SwRegion *
sw_region_new_empty (void)
{
  SwRegion *region = g_new0 (SwRegion, 1);
  g_atomic_ref_count_init (&region->refs);
  region->points = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  region->rings = g_array_new (FALSE, FALSE, sizeof (Span));
  return region;
}

SwRegion *
sw_region_ref (SwRegion *region)
{
  g_atomic_ref_count_inc (&region->refs);
  return region;
}

void
sw_region_unref (SwRegion *region)
{
  if (region == NULL || !g_atomic_ref_count_dec (&region->refs))
    return;
  g_array_unref (region->points);
  g_array_unref (region->rings);
  g_free (region);
}

guint
sw_region_n_rings (const SwRegion *region)
{
  return region->rings->len;
}

SwRing
sw_region_ring (const SwRegion *region, guint i)
{
  g_assert (i < region->rings->len);
  Span span = g_array_index (region->rings, Span, i);
  return (SwRing){ &g_array_index (region->points, SwPoint, span.first), span.n, span.part, span.hole };
}

guint
sw_region_n_parts (const SwRegion *region)
{
  return region->n_parts;
}

gboolean
sw_region_is_empty (const SwRegion *region)
{
  return region->n_parts == 0;
}

double
sw_region_area (const SwRegion *region)
{
  double area = 0;
  for (guint i = 0; i < region->rings->len; i++)
    {
      SwRing ring = sw_region_ring (region, i);
      area += sw_outline_area (ring.points, ring.n); /* holes run clockwise */
    }
  return area;
}

double
sw_region_perimeter (const SwRegion *region)
{
  double length = 0;
  for (guint i = 0; i < region->rings->len; i++)
    {
      SwRing ring = sw_region_ring (region, i);
      length += sw_outline_perimeter (ring.points, ring.n);
    }
  return length;
}

SwBox
sw_region_box (const SwRegion *region)
{
  return sw_outline_box ((const SwPoint *) region->points->data, region->points->len);
}

gboolean
sw_region_holds (const SwRegion *region, SwPoint p)
{
  gboolean inside = FALSE;
  for (guint i = 0; i < region->rings->len; i++)
    {
      SwRing ring = sw_region_ring (region, i);
      if (!sw_outline_holds (ring.points, ring.n, p))
        continue;
      if (sw_outline_distance (ring.points, ring.n, p, NULL, NULL) <= SW_TOUCH_MM)
        return TRUE;
      inside = !inside;
    }
  return inside;
}

void
sw_region_cut (const SwRegion *region, SwPoint origin, SwPoint direction, GArray *intervals)
{
  g_autofree SwOutlineRing *rings = g_new (SwOutlineRing, region->rings->len);
  for (guint i = 0; i < region->rings->len; i++)
    {
      SwRing ring = sw_region_ring (region, i);
      rings[i] = (SwOutlineRing){ ring.points, ring.n };
    }
  sw_outlines_cut (rings, region->rings->len, origin, direction, intervals);
}

/* ---- one form ---- */

static gboolean
is_straight (SwPoint before, SwPoint at, SwPoint after)
{
  SwPoint chord = sw_point_sub (after, before), step = sw_point_sub (at, before);
  return fabs (sw_point_cross (chord, step)) <= SW_GRID_MM / 10 * sw_point_length (chord)
         && sw_point_dot (step, sw_point_sub (after, at)) > 0;
}

static gboolean
is_lower (SwPoint a, SwPoint b)
{
  return a.x < b.x || (a.x == b.x && a.y < b.y);
}

/* Rounds to the grid, in place, and leaves out repeats and points on straight sides; the new number of points. */
static guint
tidy_ring (SwPoint *p, guint n)
{
  guint kept = 0;
  for (guint i = 0; i < n; i++)
    {
      SwPoint at = { sw_grid_round (p[i].x), sw_grid_round (p[i].y) };
      if (kept > 0 && at.x == p[kept - 1].x && at.y == p[kept - 1].y)
        continue;
      p[kept++] = at;
      while (kept > 2 && is_straight (p[kept - 3], p[kept - 2], p[kept - 1]))
        {
          p[kept - 2] = p[kept - 1];
          kept--;
        }
    }
  while (kept > 1 && p[kept - 1].x == p[0].x && p[kept - 1].y == p[0].y)
    kept--;
  while (kept > 3 && is_straight (p[kept - 2], p[kept - 1], p[0]))
    kept--;
  while (kept > 3 && is_straight (p[kept - 1], p[0], p[1]))
    memmove (p, p + 1, --kept * sizeof *p);
  return kept;
}

/* Turns the ring the right way round and to its lowest point. */
static void
settle_ring (SwPoint *p, guint n, gboolean hole)
{
  if ((sw_outline_area (p, n) < 0) != hole)
    for (guint i = 0; i < n / 2; i++)
      {
        SwPoint kept = p[i];
        p[i] = p[n - 1 - i];
        p[n - 1 - i] = kept;
      }
  guint lowest = 0;
  for (guint i = 1; i < n; i++)
    if (is_lower (p[i], p[lowest]))
      lowest = i;
  g_autofree SwPoint *head = g_memdup2 (p, lowest * sizeof *p);
  memmove (p, p + lowest, (n - lowest) * sizeof *p);
  if (lowest > 0)
    memcpy (p + n - lowest, head, lowest * sizeof *p);
}

/* Takes a ring that stands at the end of `points` from `first` on into the region, or drops it when it has no width. */
static gboolean
take_ring (SwRegion *region, guint first, gboolean hole)
{
  SwPoint *p = &g_array_index (region->points, SwPoint, first);
  guint n = tidy_ring (p, region->points->len - first);
  if (n < 3 || 2 * fabs (sw_outline_area (p, n)) < SW_TOUCH_MM * sw_outline_perimeter (p, n))
    {
      g_array_set_size (region->points, first);
      return FALSE;
    }
  settle_ring (p, n, hole);
  g_array_set_size (region->points, first + n);
  region->n_parts += !hole;
  Span span = { first, n, region->n_parts - 1, hole };
  g_array_append_val (region->rings, span);
  return TRUE;
}

SwRegion *
sw_region_new_outline (const SwPoint *points, gsize n, GError **error)
{
  gsize where;
  SwOutlineFault fault = sw_outline_check (points, n, &where);
  if (fault != SW_OUTLINE_GOOD)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "outline %s, at point %" G_GSIZE_FORMAT,
                   sw_outline_fault_text (fault), where);
      return NULL;
    }
  SwRegion *region = sw_region_new_empty ();
  g_array_append_vals (region->points, points, n);
  take_ring (region, 0, FALSE);
  return region;
}

/* Nothing of a job lies outside this; it bounds endless boxes. */
static const SwBox everything = { { -SW_COORDINATE_MAX_MM, -SW_COORDINATE_MAX_MM },
                                  { SW_COORDINATE_MAX_MM, SW_COORDINATE_MAX_MM } };

static SwBox
common_box (SwBox a, SwBox b)
{
  return (SwBox){ { fmax (a.low.x, b.low.x), fmax (a.low.y, b.low.y) },
                  { fmin (a.high.x, b.high.x), fmin (a.high.y, b.high.y) } };
}

SwRegion *
sw_region_new_box (SwBox box)
{
  SwRegion *region = sw_region_new_empty ();
  if (sw_box_is_empty (box) || !sw_box_meets (box, everything))
    return region;
  box = common_box (box, everything);
  SwPoint corners[] = { box.low, { box.high.x, box.low.y }, box.high, { box.low.x, box.high.y } };
  g_array_append_vals (region->points, corners, 4);
  take_ring (region, 0, FALSE);
  return region;
}

static void
copy_ring (SwRegion *to, SwRing ring)
{
  Span span = { to->points->len, ring.n, to->n_parts - 1, ring.hole };
  g_array_append_vals (to->points, ring.points, ring.n);
  g_array_append_val (to->rings, span);
}

GPtrArray *
sw_region_parts (SwRegion *region)
{
  GPtrArray *parts = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_region_unref);
  if (region->n_parts == 1)
    {
      g_ptr_array_add (parts, sw_region_ref (region));
      return parts;
    }
  SwRegion *part = NULL;
  for (guint i = 0; i < region->rings->len; i++)
    {
      SwRing ring = sw_region_ring (region, i);
      if (!ring.hole)
        {
          part = sw_region_new_empty ();
          part->n_parts = 1;
          g_ptr_array_add (parts, part);
        }
      copy_ring (part, ring);
    }
  return parts;
}

/* ---- to and from the library ---- */

typedef struct
{
  GEOSContextHandle_t context;
  char message[256]; /* the last error, with its place */
} Library;

static void
note_message (const char *message, void *data)
{
  g_strlcpy (((Library *) data)->message, message, sizeof ((Library *) data)->message);
}

static void
library_open (Library *library)
{
  library->message[0] = 0;
  library->context = GEOS_init_r ();
  GEOSContext_setErrorMessageHandler_r (library->context, note_message, library);
}

/* Closes, and makes what went wrong an error when `result` is NULL. */
static SwRegion *
library_close (Library *library, SwRegion *result, const char *what, GError **error)
{
  GEOS_finish_r (library->context);
  if (result == NULL)
    g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "areas cannot be %s: %s", what,
                 library->message[0] ? library->message : "the geometry library gave no reason");
  return result;
}

static GEOSGeometry *
ring_to_library (Library *library, SwRing ring)
{
  g_autofree SwPoint *closed = g_new (SwPoint, ring.n + 1);
  memcpy (closed, ring.points, ring.n * sizeof *closed);
  closed[ring.n] = ring.points[0];
  GEOSCoordSequence *sequence = GEOSCoordSeq_copyFromBuffer_r (library->context, &closed->x, ring.n + 1, FALSE, FALSE);
  return sequence ? GEOSGeom_createLinearRing_r (library->context, sequence) : NULL;
}

G_STATIC_ASSERT (sizeof (SwPoint) == 2 * sizeof (double));

/* The part that starts at ring *i, which moves on past its holes. */
static GEOSGeometry *
part_to_library (Library *library, const SwRegion *region, guint *i)
{
  GEOSGeometry *outer = ring_to_library (library, sw_region_ring (region, (*i)++));
  g_autoptr (GPtrArray) holes = g_ptr_array_new ();
  while (*i < region->rings->len && sw_region_ring (region, *i).hole)
    g_ptr_array_add (holes, ring_to_library (library, sw_region_ring (region, (*i)++)));
  return GEOSGeom_createPolygon_r (library->context, outer, (GEOSGeometry **) holes->pdata, holes->len);
}

static void
parts_to_library (Library *library, const SwRegion *region, GPtrArray *parts)
{
  for (guint i = 0; i < region->rings->len;)
    g_ptr_array_add (parts, part_to_library (library, region, &i));
}

static GEOSGeometry *
collect_parts (Library *library, GPtrArray *parts)
{
  return GEOSGeom_createCollection_r (library->context, GEOS_MULTIPOLYGON, (GEOSGeometry **) parts->pdata, parts->len);
}

static GEOSGeometry *
region_to_library (Library *library, const SwRegion *region)
{
  g_autoptr (GPtrArray) parts = g_ptr_array_new ();
  parts_to_library (library, region, parts);
  return collect_parts (library, parts);
}

static gboolean
take_library_ring (Library *library, SwRegion *region, const GEOSGeometry *ring, gboolean hole)
{
  const GEOSCoordSequence *sequence = GEOSGeom_getCoordSeq_r (library->context, ring);
  guint first = region->points->len, n = 0;
  GEOSCoordSeq_getSize_r (library->context, sequence, &n);
  g_array_set_size (region->points, first + n);
  GEOSCoordSeq_copyToBuffer_r (library->context, sequence, &g_array_index (region->points, SwPoint, first).x, FALSE, FALSE);
  return take_ring (region, first, hole);
}

static void
take_polygon (Library *library, SwRegion *region, const GEOSGeometry *polygon)
{
  if (GEOSisEmpty_r (library->context, polygon)
      || !take_library_ring (library, region, GEOSGetExteriorRing_r (library->context, polygon), FALSE))
    return;
  int n_holes = GEOSGetNumInteriorRings_r (library->context, polygon);
  for (int i = 0; i < n_holes; i++)
    take_library_ring (library, region, GEOSGetInteriorRingN_r (library->context, polygon, i), TRUE);
}

/* Polygons only: an overlay may leave points and lines where areas touch. Frees the geometry. */
static SwRegion *
region_from_library (Library *library, GEOSGeometry *geometry)
{
  if (geometry == NULL || GEOSNormalize_r (library->context, geometry) < 0)
    {
      GEOSGeom_destroy_r (library->context, geometry);
      return NULL;
    }
  SwRegion *region = sw_region_new_empty ();
  int n = GEOSGetNumGeometries_r (library->context, geometry);
  for (int i = 0; i < n; i++)
    {
      const GEOSGeometry *part = GEOSGetGeometryN_r (library->context, geometry, i);
      if (GEOSGeomTypeId_r (library->context, part) == GEOS_POLYGON)
        take_polygon (library, region, part);
    }
  GEOSGeom_destroy_r (library->context, geometry);
  return region;
}

/* ---- operations ---- */

typedef GEOSGeometry *(*Overlay) (GEOSContextHandle_t, const GEOSGeometry *, const GEOSGeometry *, double);

static SwRegion *
overlay (const SwRegion *a, const SwRegion *b, Overlay run, const char *what, GError **error)
{
  Library library;
  library_open (&library);
  GEOSGeometry *first = region_to_library (&library, a), *second = region_to_library (&library, b);
  GEOSGeometry *both = first && second ? run (library.context, first, second, SW_GRID_MM) : NULL;
  GEOSGeom_destroy_r (library.context, first);
  GEOSGeom_destroy_r (library.context, second);
  return library_close (&library, region_from_library (&library, both), what, error);
}

static gboolean
are_apart (const SwRegion *a, const SwRegion *b)
{
  return !sw_box_meets (sw_region_box (a), sw_region_box (b)); /* the empty region's box meets none */
}

SwRegion *
sw_region_union (SwRegion *a, SwRegion *b, GError **error)
{
  if (sw_region_is_empty (a))
    return sw_region_ref (b);
  if (sw_region_is_empty (b))
    return sw_region_ref (a);
  return overlay (a, b, GEOSUnionPrec_r, "joined", error);
}

SwRegion *
sw_region_intersect (SwRegion *a, SwRegion *b, GError **error)
{
  return are_apart (a, b) ? sw_region_new_empty () : overlay (a, b, GEOSIntersectionPrec_r, "intersected", error);
}

SwRegion *
sw_region_subtract (SwRegion *a, SwRegion *b, GError **error)
{
  return are_apart (a, b) ? sw_region_ref (a) : overlay (a, b, GEOSDifferencePrec_r, "subtracted", error);
}

/* A ring that the region's own form refuses (it touches itself) the library may still take. */
static SwRegion *
toggle_ring (SwRegion *sum, const SwPoint *points, guint n, GError **error)
{
  Library library;
  library_open (&library);
  GEOSGeometry *outer = n >= 3 ? ring_to_library (&library, (SwRing){ points, n, 0, FALSE }) : NULL;
  GEOSGeometry *polygon = outer ? GEOSGeom_createPolygon_r (library.context, outer, NULL, 0) : NULL;
  GEOSGeometry *before = region_to_library (&library, sum);
  GEOSGeometry *after = polygon && before ? GEOSSymDifferencePrec_r (library.context, before, polygon, SW_GRID_MM) : NULL;
  GEOSGeom_destroy_r (library.context, polygon);
  GEOSGeom_destroy_r (library.context, before);
  return library_close (&library, region_from_library (&library, after), "read", error);
}

SwRegion *
sw_region_new_rings (const GArray *points, const GArray *ends, GError **error)
{
  SwRegion *sum = NULL;
  guint from = 0;
  for (guint i = 0; i < ends->len; i++)
    {
      guint to = g_array_index (ends, guint, i);
      const SwPoint *ring = &g_array_index (points, SwPoint, from);
      g_autoptr (SwRegion) before = g_steal_pointer (&sum);
      if (before == NULL)
        sum = sw_region_new_outline (ring, to - from, NULL);
      if (sum == NULL)
        {
          g_autoptr (SwRegion) nothing = sw_region_new_empty ();
          sum = toggle_ring (before ? before : nothing, ring, to - from, error);
        }
      if (sum == NULL)
        return NULL;
      from = to;
    }
  return sum ? sum : sw_region_new_empty ();
}

SwRegion *
sw_region_union_all (SwRegion *const *regions, guint n, GError **error)
{
  Library library;
  library_open (&library);
  g_autoptr (GPtrArray) parts = g_ptr_array_new ();
  for (guint i = 0; i < n; i++)
    parts_to_library (&library, regions[i], parts);
  GEOSGeometry *all = collect_parts (&library, parts);
  GEOSGeometry *joined = all ? GEOSUnaryUnionPrec_r (library.context, all, SW_GRID_MM) : NULL;
  GEOSGeom_destroy_r (library.context, all);
  return library_close (&library, region_from_library (&library, joined), "joined", error);
}

SwRegion *
sw_region_grow (SwRegion *region, double mm, GError **error)
{
  if (mm == 0 || sw_region_is_empty (region))
    return sw_region_ref (region);
  Library library;
  library_open (&library);
  GEOSGeometry *given = region_to_library (&library, region), *grown = NULL, *rounded = NULL;
  if (!(fabs (mm) <= SW_COORDINATE_MAX_MM))
    note_message ("the distance is not a number within 10 km", &library);
  else if (given)
    grown = GEOSBufferWithStyle_r (library.context, given, mm, ROUND_PARTS, GEOSBUF_CAP_FLAT, GEOSBUF_JOIN_MITRE,
                                   MITRE_LIMIT);
  if (grown)
    rounded = GEOSGeom_setPrecision_r (library.context, grown, SW_GRID_MM, 0);
  GEOSGeom_destroy_r (library.context, given);
  GEOSGeom_destroy_r (library.context, grown);
  return library_close (&library, region_from_library (&library, rounded), mm > 0 ? "grown" : "shrunk", error);
}

/* The library's fast clip may leave rings that touch themselves. */
static gboolean
has_good_rings (const SwRegion *region)
{
  for (guint i = 0; i < region->rings->len; i++)
    {
      SwRing ring = sw_region_ring (region, i);
      if (sw_outline_check (ring.points, ring.n, NULL) != SW_OUTLINE_GOOD)
        return FALSE;
    }
  return TRUE;
}

static SwRegion *
clip_fast (const SwRegion *region, SwBox box)
{
  Library library;
  library_open (&library);
  GEOSGeometry *given = region_to_library (&library, region), *clipped = NULL;
  if (given)
    clipped = GEOSClipByRect_r (library.context, given, box.low.x, box.low.y, box.high.x, box.high.y);
  SwRegion *result = NULL;
  if (clipped && GEOSisValid_r (library.context, clipped) == 1)
    {
      result = region_from_library (&library, clipped);
      clipped = NULL;
    }
  GEOSGeom_destroy_r (library.context, given);
  GEOSGeom_destroy_r (library.context, clipped);
  GEOS_finish_r (library.context);
  return result;
}

SwRegion *
sw_region_clip (SwRegion *region, SwBox box, GError **error)
{
  SwBox own = sw_region_box (region);
  if (!sw_box_meets (own, box))
    return sw_region_new_empty ();
  if (sw_box_holds (box, own.low) && sw_box_holds (box, own.high))
    return sw_region_ref (region);
  g_autoptr (SwRegion) window = sw_region_new_box (common_box (box, sw_box_grow (own, 1)));
  if (sw_region_is_empty (window))
    return g_steal_pointer (&window);
  SwRegion *clipped = clip_fast (region, sw_region_box (window));
  if (clipped && has_good_rings (clipped))
    return clipped;
  sw_region_unref (clipped);
  return sw_region_intersect (region, window, error);
}
