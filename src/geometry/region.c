/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The one file that talks to GEOS: its reentrant interface, a context a call, so that threads share nothing. */
#include "geometry/region.h"
#include "base/error.h"
#include "base/tolerance.h"
#include <geos_c.h>

typedef struct
{
  GEOSContextHandle_t geos;
  char *message; /* the library's last complaint */
} Context;

static void
complain (const char *message, void *data)
{
  Context *context = data;
  g_free (context->message);
  context->message = g_strdup (message);
}

static void
context_open (Context *context)
{
  context->message = NULL;
  context->geos = GEOS_init_r ();
  GEOSContext_setErrorMessageHandler_r (context->geos, complain, context);
}

static void
context_close (Context *context)
{
  GEOS_finish_r (context->geos);
  g_free (context->message);
}

static gboolean
fail (const Context *context, GError **error)
{
  g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "areas cannot be put together: %s", context->message ? context->message : "an outline is unsound");
  return FALSE;
}

static GEOSGeometry *
ring_polygon (const Context *context, const SwPoint *points, guint n)
{
  GEOSCoordSequence *sequence = GEOSCoordSeq_create_r (context->geos, n + 1, 2);
  if (sequence == NULL)
    return NULL;
  for (guint i = 0; i <= n; i++)
    GEOSCoordSeq_setXY_r (context->geos, sequence, i, points[i % n].x, points[i % n].y);
  GEOSGeometry *ring = GEOSGeom_createLinearRing_r (context->geos, sequence);
  return ring != NULL ? GEOSGeom_createPolygon_r (context->geos, ring, NULL, 0) : NULL;
}

/* Rings by the even-odd rule: what lies in an odd number of them. Takes over nothing; NULL when a ring is unsound. */
static GEOSGeometry *
geometry_of (const Context *context, SwRegionRings rings)
{
  GEOSGeometry *sum = GEOSGeom_createEmptyPolygon_r (context->geos);
  guint from = 0;
  for (guint i = 0; i < rings.ends->len && sum != NULL; i++)
    {
      guint to = g_array_index (rings.ends, guint, i);
      GEOSGeometry *polygon = to >= from + 3 ? ring_polygon (context, &g_array_index (rings.points, SwPoint, from), to - from) : NULL;
      GEOSGeometry *next = polygon != NULL ? GEOSSymDifferencePrec_r (context->geos, sum, polygon, SW_GRID_MM) : NULL;
      GEOSGeom_destroy_r (context->geos, polygon);
      GEOSGeom_destroy_r (context->geos, sum);
      sum = next;
      from = to;
    }
  return sum;
}

static void
append_ring (const Context *context, const GEOSGeometry *ring, gboolean outline, GArray *points, GArray *ends)
{
  const GEOSCoordSequence *sequence = GEOSGeom_getCoordSeq_r (context->geos, ring);
  unsigned int n = 0;
  char counter = 0;
  GEOSCoordSeq_getSize_r (context->geos, sequence, &n);
  GEOSCoordSeq_isCCW_r (context->geos, sequence, &counter);
  gboolean turn = (counter != 0) != outline;
  for (unsigned int i = 0; i + 1 < n; i++)
    {
      SwPoint p;
      GEOSCoordSeq_getXY_r (context->geos, sequence, turn ? n - 1 - i : i, &p.x, &p.y);
      p = (SwPoint){ sw_grid_round (p.x), sw_grid_round (p.y) };
      g_array_append_val (points, p);
    }
  guint end = points->len;
  g_array_append_val (ends, end);
}

static void
append_geometry (const Context *context, const GEOSGeometry *geometry, GArray *points, GArray *ends)
{
  int type = GEOSGeomTypeId_r (context->geos, geometry);
  if (type == GEOS_POLYGON && GEOSisEmpty_r (context->geos, geometry) == 0)
    {
      append_ring (context, GEOSGetExteriorRing_r (context->geos, geometry), TRUE, points, ends);
      for (int i = 0; i < GEOSGetNumInteriorRings_r (context->geos, geometry); i++)
        append_ring (context, GEOSGetInteriorRingN_r (context->geos, geometry, i), FALSE, points, ends);
    }
  else if (type == GEOS_MULTIPOLYGON || type == GEOS_GEOMETRYCOLLECTION)
    for (int i = 0; i < GEOSGetNumGeometries_r (context->geos, geometry); i++)
      append_geometry (context, GEOSGetGeometryN_r (context->geos, geometry, i), points, ends);
}

static GEOSGeometry *
combine (const Context *context, const GEOSGeometry *a, const GEOSGeometry *b, SwRegionOperation operation)
{
  switch (operation)
    {
    case SW_REGION_INTERSECT:
      return GEOSIntersectionPrec_r (context->geos, a, b, SW_GRID_MM);
    case SW_REGION_SUBTRACT:
      return GEOSDifferencePrec_r (context->geos, a, b, SW_GRID_MM);
    default:
      return GEOSUnionPrec_r (context->geos, a, b, SW_GRID_MM);
    }
}

gboolean
sw_region_combine (SwRegionRings a, SwRegionRings b, SwRegionOperation operation, GArray *points, GArray *ends, GError **error)
{
  Context context;
  context_open (&context);
  GEOSGeometry *first = geometry_of (&context, a), *second = geometry_of (&context, b), *result = NULL;
  if (first != NULL && second != NULL)
    result = combine (&context, first, second, operation);
  gboolean good = result != NULL && GEOSNormalize_r (context.geos, result) == 0;
  if (good)
    append_geometry (&context, result, points, ends);
  else
    fail (&context, error);
  GEOSGeom_destroy_r (context.geos, first);
  GEOSGeom_destroy_r (context.geos, second);
  GEOSGeom_destroy_r (context.geos, result);
  context_close (&context);
  return good;
}
