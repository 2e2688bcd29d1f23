/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "geometry/point.h"
#include <string.h>

/* Boxes of the neighbour search, in single precision, and blocks of them that are compared four at a time. */

#define FAN 8

typedef struct { float low[3], high[3]; } Box; /* of NaN when empty: it meets nothing */
typedef struct { float low[3][FAN], high[3][FAN]; } Block;

static inline float
float_down (double mm)
{
  float f = (float) mm;
  return (double) f > mm ? nextafterf (f, -INFINITY) : f;
}

static inline float
float_up (double mm)
{
  float f = (float) mm;
  return (double) f < mm ? nextafterf (f, INFINITY) : f;
}

static const Box no_box = { { NAN, NAN, NAN }, { NAN, NAN, NAN } };

static inline Box
box_of (SwBox3 b)
{
  if (!(b.low.x <= b.high.x && b.low.y <= b.high.y && b.low.z <= b.high.z))
    return no_box;
  return (Box){ { float_down (b.low.x), float_down (b.low.y), float_down (b.low.z) },
                { float_up (b.high.x), float_up (b.high.y), float_up (b.high.z) } };
}

static inline Box
grown (Box box, double by)
{
  for (int k = 0; k < 3 && by > 0; k++)
    {
      box.low[k] = float_down ((double) box.low[k] - by);
      box.high[k] = float_up ((double) box.high[k] + by);
    }
  return box;
}

static inline Box
child_box (const Block *block, guint child)
{
  return (Box){ { block->low[0][child], block->low[1][child], block->low[2][child] },
                { block->high[0][child], block->high[1][child], block->high[2][child] } };
}

static inline void
set_child (Block *block, guint child, Box box)
{
  for (int k = 0; k < 3; k++)
    {
      block->low[k][child] = box.low[k];
      block->high[k][child] = box.high[k];
    }
}

static inline Box
block_box (const Block *block)
{
  Box all = { { INFINITY, INFINITY, INFINITY }, { -INFINITY, -INFINITY, -INFINITY } };
  for (guint i = 0; i < FAN; i++)
    for (int k = 0; k < 3; k++)
      {
        if (block->low[k][i] < all.low[k])
          all.low[k] = block->low[k][i];
        if (block->high[k][i] > all.high[k])
          all.high[k] = block->high[k][i];
      }
  return all.low[0] <= all.high[0] ? all : no_box;
}

static inline gboolean
boxes_meet (const Box *a, const Box *b)
{
  return a->low[0] <= b->high[0] && b->low[0] <= a->high[0] && a->low[1] <= b->high[1] && b->low[1] <= a->high[1]
         && a->low[2] <= b->high[2] && b->low[2] <= a->high[2];
}

/* Four at a time: the compilers' own vectors. */
typedef float Four __attribute__ ((vector_size (16)));
typedef gint32 FourBits __attribute__ ((vector_size (16)));

static inline Four
four_at (const float *p)
{
  Four four;
  memcpy (&four, p, sizeof four);
  return four;
}

static inline guint
bits_of (FourBits mask)
{
#ifdef __SSE__
  return (guint) __builtin_ia32_movmskps ((Four) mask);
#else
  mask &= (FourBits){ 1, 2, 4, 8 };
  return (guint) (mask[0] | mask[1] | mask[2] | mask[3]);
#endif
}

/* Bit i is set when child i meets the box. */
static inline guint
children_that_meet (const Block *block, const Box *box)
{
  guint bits = 0;
  for (guint half = 0; half < FAN; half += 4)
    {
      FourBits mask = ~(FourBits){ 0 };
      for (int k = 0; k < 3; k++)
        mask &= (four_at (block->low[k] + half) <= box->high[k]) & (four_at (block->high[k] + half) >= box->low[k]);
      bits |= bits_of (mask) << half;
    }
  return bits;
}
