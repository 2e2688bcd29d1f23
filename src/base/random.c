/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/random.h"

double
sw_random_double (SwRandom *random, double low, double high)
{
  return low + (high - low) * ((double) (sw_random_next (random) >> 11) * 0x1.0p-53);
}

int
sw_random_int (SwRandom *random, int low, int high)
{
  g_assert (low <= high);
  guint64 span = (guint64) ((gint64) high - low) + 1;
  return low + (int) (((sw_random_next (random) >> 32) * span) >> 32);
}
