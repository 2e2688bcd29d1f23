/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>

/* Dual feasible functions: whatever lengths lie side by side within `size`, their values sum to at most `divisor`. So the
 * values of all lengths, over the divisor, bound how often `size` is needed. In integers; each grows with the length, and a
 * length's value is at least that of its parts together. (Fekete and Schepers 2001; Carlier, Clautiaux and Moukrim 2007.) */

typedef enum
{
  SW_DUAL_CUT_ENDS,   /* short ones do not count, nearly full ones count as full; step 0: the length itself */
  SW_DUAL_STEPS,      /* `step` + 1 of them would not do: u(k) */
  SW_DUAL_ROUND_DOWN  /* in whole steps, and what is more than half by what it leaves */
} SwDualFamily;

typedef struct
{
  SwDualFamily family;
  gint64 size, step, divisor;
} SwDual;

SwDual sw_dual_new (SwDualFamily family, gint64 size, gint64 step);

static inline gint64
sw_dual_value (const SwDual *dual, gint64 x)
{
  gint64 size = dual->size, step = dual->step;
  switch (dual->family)
    {
    case SW_DUAL_CUT_ENDS:
      return x > size - step ? size : x >= step ? x : 0;
    case SW_DUAL_STEPS:
      return (step + 1) * x % size == 0 ? x * step : (step + 1) * x / size * size;
    default:
      if (2 * x > size)
        return 2 * (size / step - (size - x) / step);
      return 2 * x == size ? size / step : 2 * (x / step);
    }
}
