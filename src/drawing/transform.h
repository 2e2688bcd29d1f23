/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "geometry/point.h"

/* An affine map of the plane: x' = xx·x + xy·y + x0, y' = yx·x + yy·y + y0. A plain value. */
typedef struct { double xx, xy, yx, yy, x0, y0; } SwTransform;

#define SW_TRANSFORM_IDENTITY ((SwTransform){ 1, 0, 0, 1, 0, 0 })

static inline SwPoint
sw_transform_point (SwTransform t, SwPoint p)
{
  return (SwPoint){ t.xx * p.x + t.xy * p.y + t.x0, t.yx * p.x + t.yy * p.y + t.y0 };
}

/* A direction or distance: without the shift. */
static inline SwPoint
sw_transform_vector (SwTransform t, SwPoint p)
{
  return (SwPoint){ t.xx * p.x + t.xy * p.y, t.yx * p.x + t.yy * p.y };
}

/* `inner` first, then `outer`. */
static inline SwTransform
sw_transform_join (SwTransform outer, SwTransform inner)
{
  SwPoint x = sw_transform_vector (outer, (SwPoint){ inner.xx, inner.yx });
  SwPoint y = sw_transform_vector (outer, (SwPoint){ inner.xy, inner.yy });
  SwPoint o = sw_transform_point (outer, (SwPoint){ inner.x0, inner.y0 });
  return (SwTransform){ x.x, y.x, x.y, y.y, o.x, o.y };
}

static inline double sw_transform_determinant (SwTransform t) { return t.xx * t.yy - t.xy * t.yx; }

/* Lengths grow by this on average (exactly, for turns, mirrors and even scales). */
static inline double sw_transform_scale (SwTransform t) { return sqrt (fabs (sw_transform_determinant (t))); }

static inline gboolean
sw_transform_is_usable (SwTransform t)
{
  double determinant = sw_transform_determinant (t);
  return isfinite (determinant) && determinant != 0 && isfinite (t.x0) && isfinite (t.y0);
}

/* The determinant must not be 0. */
static inline SwTransform
sw_transform_invert (SwTransform t)
{
  double k = 1 / sw_transform_determinant (t);
  SwTransform back = { t.yy * k, -t.xy * k, -t.yx * k, t.xx * k, 0, 0 };
  SwPoint shift = sw_transform_vector (back, (SwPoint){ t.x0, t.y0 });
  back.x0 = -shift.x;
  back.y0 = -shift.y;
  return back;
}

static inline SwTransform
sw_transform_move (SwPoint by)
{
  return (SwTransform){ 1, 0, 0, 1, by.x, by.y };
}

/* A view of a plan: `centre` comes to `to`, mirrored left to right when looking up, then turned counter-clockwise by
 * `turn` radians, lengths times `scale` (0.02 is 1:50). */
static inline SwTransform
sw_transform_view (SwPoint centre, SwPoint to, double scale, double turn, gboolean mirror)
{
  double c = cos (turn) * scale, s = sin (turn) * scale, side = mirror ? -1 : 1;
  SwTransform t = { c * side, -s, s * side, c, 0, 0 };
  SwPoint moved = sw_transform_vector (t, centre);
  t.x0 = to.x - moved.x;
  t.y0 = to.y - moved.y;
  return t;
}

/* The box round the four corners' places. */
static inline SwBox
sw_transform_box (SwTransform t, SwBox box)
{
  SwBox out = SW_BOX_EMPTY;
  if (sw_box_is_empty (box))
    return out;
  out = sw_box_add (out, sw_transform_point (t, box.low));
  out = sw_box_add (out, sw_transform_point (t, (SwPoint){ box.high.x, box.low.y }));
  out = sw_box_add (out, sw_transform_point (t, box.high));
  return sw_box_add (out, sw_transform_point (t, (SwPoint){ box.low.x, box.high.y }));
}
