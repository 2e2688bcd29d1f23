/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>

/* Seeded numbers that are the same on every machine (SplitMix64, public domain algorithm). */
typedef struct { guint64 state; } SwRandom;

static inline guint64
sw_random_next (SwRandom *random)
{
  guint64 z = (random->state += G_GUINT64_CONSTANT (0x9E3779B97F4A7C15));
  z = (z ^ (z >> 30)) * G_GUINT64_CONSTANT (0xBF58476D1CE4E5B9);
  z = (z ^ (z >> 27)) * G_GUINT64_CONSTANT (0x94D049BB133111EB);
  return z ^ (z >> 31);
}

/* In [low, high). */
double sw_random_double (SwRandom *random, double low, double high);
/* In [low, high], each equally likely to within 2^-32. */
int sw_random_int (SwRandom *random, int low, int high);
