/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "geometry/point.h"
#include <malloc.h>
#include <time.h>

/* All pairs of boxes that meet, found by general-purpose trees, each with the building of its tree: what our own search and
 * the whole check are measured against, on the same boxes and in the same run. */

static inline double
bench_cpu_ms (void)
{
  struct timespec t;
  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &t);
  return (double) t.tv_sec * 1e3 + (double) t.tv_nsec / 1e6;
}

/* Bytes that are handed out: what a library keeps is the difference. */
static inline gsize
bench_heap (void)
{
  struct mallinfo2 info = mallinfo2 ();
  return info.uordblks + info.hblkhd;
}

typedef struct
{
  double ms; /* processor time; NAN: not measured */
  gsize pairs, bytes;
} BenchTree;

/* GEOS's STR tree, of plan boxes: level is looked at in its callback. Making its envelopes is not counted. */
BenchTree bench_str_tree (const SwBox3 *boxes, guint n);
/* SQLite's R*Tree, in memory, with prepared statements in one transaction. */
BenchTree bench_r_tree (const SwBox3 *boxes, guint n);
/* FCL's dynamic tree of boxes; making its objects is not counted. Not measured where the library is not installed. */
BenchTree bench_fcl_tree (const SwBox3 *boxes, guint n);

static inline BenchTree
bench_better (BenchTree a, BenchTree b)
{
  return b.ms < a.ms || isnan (a.ms) ? b : a;
}
