/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "base/random.h"
#include "geometry/neighbour.h"
#include <malloc.h>
#include <time.h>

/* What the broad-phase benchmarks share: the boxes, our side, the clock. */

typedef enum { BENCH_THIN, BENCH_CUBES } BenchKind;

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

/* One side of a table's line: the best of a few rounds, with the building of its tree. */
typedef struct
{
  double ms;
  gsize pairs, bytes;
} BenchTree;

static inline SwBox3 *
bench_boxes (BenchKind kind, guint n)
{
  SwRandom random = { 7 };
  double side = 1000 * sqrt (n / 2.5);
  SwBox3 *boxes = g_new (SwBox3, n);
  for (guint i = 0; i < n; i++)
    {
      double thick = kind == BENCH_THIN ? sw_random_double (&random, 25, 110) : sw_random_double (&random, 50, 400);
      double length = kind == BENCH_THIN ? sw_random_double (&random, 500, 6000) : thick;
      SwPoint3 low = { sw_random_double (&random, 0, side), sw_random_double (&random, 0, side),
                       sw_random_double (&random, -100, 300) };
      SwPoint3 size = { i % 2 ? length : thick, i % 2 ? thick : length, thick };
      boxes[i] = (SwBox3){ low, sw_point3_add (low, size) };
    }
  return boxes;
}

typedef struct
{
  double build_ms, total_ms; /* total: with building and the pairs in order */
  gsize pairs, bytes;
} BenchOurs;

static inline BenchOurs
bench_ours (const SwBox3 *boxes, guint n)
{
  double start = bench_cpu_ms ();
  g_autoptr (SwNeighbours) index = sw_neighbours_new (boxes, n);
  double built = bench_cpu_ms ();
  g_autoptr (GArray) pairs = sw_neighbours_pairs (index, 0);
  return (BenchOurs){ built - start, bench_cpu_ms () - start, pairs->len, sw_neighbours_bytes (index) };
}
