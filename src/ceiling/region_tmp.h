#pragma once
#include "ceiling/frame.h"
#include "ceiling/clip.h"
typedef enum { SW_REGION_INTERSECT, SW_REGION_SUBTRACT, SW_REGION_UNITE } SwRegionOperation;
static inline SwRings *
sw_ceiling_combine (const SwRings *a, const SwRings *b, SwRegionOperation op, GError **error)
{
  SwFrame same = { { 0, 0 }, 1, 0 };
  if (sw_rings_n (b) == 0) return op == SW_REGION_INTERSECT ? sw_rings_new () : sw_rings_to (a, &same);
  SwBox bb = sw_rings_box (b);
  if (op == SW_REGION_INTERSECT) {
    g_autoptr (SwRings) x = sw_rings_between (a, SW_ALONG_Y, bb.low.x, bb.high.x);
    return sw_rings_between (x, SW_ALONG_X, bb.low.y, bb.high.y); }
  SwBox ab = sw_rings_box (a);
  SwRings *r = sw_rings_to (a, &same);
  if (op == SW_REGION_SUBTRACT && bb.low.x <= ab.low.x && bb.high.x >= ab.high.x && bb.low.y <= ab.low.y && bb.high.y >= ab.high.y) { sw_rings_free (r); return sw_rings_new (); }
  guint n; const SwPoint *p = sw_rings_get (b, 0, &n);
  sw_rings_add (r, p, n);
  return r;
}
