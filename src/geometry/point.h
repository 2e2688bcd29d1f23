/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>
#include <math.h>

/* Places in millimetres: x, y in plan, z up from the soffit datum. Plain values. */
typedef struct { double x, y; } SwPoint;
typedef struct { double x, y, z; } SwPoint3;

/* Boxes with sides along the axes; empty when low > high. */
typedef struct { SwPoint low, high; } SwBox;
typedef struct { SwPoint3 low, high; } SwBox3;

#define SW_BOX_EMPTY ((SwBox){ { INFINITY, INFINITY }, { -INFINITY, -INFINITY } })
#define SW_BOX3_EMPTY ((SwBox3){ { INFINITY, INFINITY, INFINITY }, { -INFINITY, -INFINITY, -INFINITY } })

static inline SwPoint sw_point_add (SwPoint a, SwPoint b) { return (SwPoint){ a.x + b.x, a.y + b.y }; }
static inline SwPoint sw_point_sub (SwPoint a, SwPoint b) { return (SwPoint){ a.x - b.x, a.y - b.y }; }
static inline SwPoint sw_point_scale (SwPoint a, double k) { return (SwPoint){ a.x * k, a.y * k }; }
static inline double sw_point_dot (SwPoint a, SwPoint b) { return a.x * b.x + a.y * b.y; }
static inline double sw_point_cross (SwPoint a, SwPoint b) { return a.x * b.y - a.y * b.x; }
static inline double sw_point_length (SwPoint a) { return hypot (a.x, a.y); }
static inline double sw_point_distance (SwPoint a, SwPoint b) { return hypot (a.x - b.x, a.y - b.y); }
static inline SwPoint
sw_point_lerp (SwPoint a, SwPoint b, double t)
{
  return (SwPoint){ a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t };
}
/* Turned counter-clockwise by the angle whose cosine and sine are given. */
static inline SwPoint
sw_point_turn (SwPoint a, double cosine, double sine)
{
  return (SwPoint){ a.x * cosine - a.y * sine, a.x * sine + a.y * cosine };
}

static inline SwPoint3 sw_point3_add (SwPoint3 a, SwPoint3 b) { return (SwPoint3){ a.x + b.x, a.y + b.y, a.z + b.z }; }
static inline SwPoint3 sw_point3_sub (SwPoint3 a, SwPoint3 b) { return (SwPoint3){ a.x - b.x, a.y - b.y, a.z - b.z }; }
static inline SwPoint3 sw_point3_scale (SwPoint3 a, double k) { return (SwPoint3){ a.x * k, a.y * k, a.z * k }; }
static inline double sw_point3_dot (SwPoint3 a, SwPoint3 b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
static inline SwPoint3
sw_point3_cross (SwPoint3 a, SwPoint3 b)
{
  return (SwPoint3){ a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x };
}
static inline double sw_point3_length (SwPoint3 a) { return sqrt (sw_point3_dot (a, a)); }
static inline double sw_point3_distance (SwPoint3 a, SwPoint3 b) { return sw_point3_length (sw_point3_sub (a, b)); }
static inline SwPoint3
sw_point3_lerp (SwPoint3 a, SwPoint3 b, double t)
{
  return (SwPoint3){ a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t, a.z + (b.z - a.z) * t };
}

static inline gboolean sw_box_is_empty (SwBox box) { return !(box.low.x <= box.high.x && box.low.y <= box.high.y); }
static inline SwBox
sw_box_add (SwBox box, SwPoint p)
{
  return (SwBox){ { fmin (box.low.x, p.x), fmin (box.low.y, p.y) }, { fmax (box.high.x, p.x), fmax (box.high.y, p.y) } };
}
static inline SwBox
sw_box_union (SwBox a, SwBox b)
{
  return (SwBox){ { fmin (a.low.x, b.low.x), fmin (a.low.y, b.low.y) }, { fmax (a.high.x, b.high.x), fmax (a.high.y, b.high.y) } };
}
static inline SwBox
sw_box_grow (SwBox box, double by)
{
  return (SwBox){ { box.low.x - by, box.low.y - by }, { box.high.x + by, box.high.y + by } };
}
static inline gboolean
sw_box_meets (SwBox a, SwBox b)
{
  return a.low.x <= b.high.x && b.low.x <= a.high.x && a.low.y <= b.high.y && b.low.y <= a.high.y;
}
static inline gboolean
sw_box_holds (SwBox box, SwPoint p)
{
  return box.low.x <= p.x && p.x <= box.high.x && box.low.y <= p.y && p.y <= box.high.y;
}
static inline SwBox3
sw_box3_add (SwBox3 box, SwPoint3 p)
{
  return (SwBox3){ { fmin (box.low.x, p.x), fmin (box.low.y, p.y), fmin (box.low.z, p.z) },
                   { fmax (box.high.x, p.x), fmax (box.high.y, p.y), fmax (box.high.z, p.z) } };
}
static inline SwBox3
sw_box3_grow (SwBox3 box, double by)
{
  return (SwBox3){ { box.low.x - by, box.low.y - by, box.low.z - by }, { box.high.x + by, box.high.y + by, box.high.z + by } };
}
static inline gboolean
sw_box3_meets (SwBox3 a, SwBox3 b)
{
  return a.low.x <= b.high.x && b.low.x <= a.high.x && a.low.y <= b.high.y && b.low.y <= a.high.y
         && a.low.z <= b.high.z && b.low.z <= a.high.z;
}
