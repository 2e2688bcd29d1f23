/* SPDX-License-Identifier: GPL-3.0-or-later */
/* All pairs of near boxes: our packed tree beside three general-purpose ones (trees.h), on the same boxes in the same run; each
 * with its own building of the tree, ours with putting the pairs in order. Processor time, the best of three rounds (one for
 * the R*Tree, and none above 100,000). Thin boxes are runs 25–110 mm thick and 0.5–6 m long, half of them each way; cubes have
 * sides of 50–400 mm; 2.5 on a square metre. Prints the growth exponents from the size before and the bytes an item that each
 * keeps. Arguments: the sizes, else 1,000 10,000 100,000. */
#include "base/random.h"
#include "geometry/neighbour.h"
#include "trees.h"
#include <stdio.h>
#include <stdlib.h>

enum { OURS, STR, FCL, R, N_SIDES };

#define R_MOST 100000
#define ROUNDS 3

static SwBox3 *
make_boxes (gboolean thin, guint n)
{
  SwRandom random = { 7 };
  double side = 1000 * sqrt (n / 2.5);
  SwBox3 *boxes = g_new (SwBox3, n);
  for (guint i = 0; i < n; i++)
    {
      double thick = thin ? sw_random_double (&random, 25, 110) : sw_random_double (&random, 50, 400);
      double length = thin ? sw_random_double (&random, 500, 6000) : thick;
      SwPoint3 low = { sw_random_double (&random, 0, side), sw_random_double (&random, 0, side), sw_random_double (&random, -100, 300) };
      SwPoint3 size = { i % 2 ? length : thick, i % 2 ? thick : length, thick };
      boxes[i] = (SwBox3){ low, sw_point3_add (low, size) };
    }
  return boxes;
}

static BenchTree
our_tree (const SwBox3 *boxes, guint n)
{
  double start = bench_cpu_ms ();
  g_autoptr (SwNeighbours) index = sw_neighbours_new (boxes, n);
  g_autoptr (GArray) pairs = sw_neighbours_pairs (index, 0);
  return (BenchTree){ bench_cpu_ms () - start, pairs->len, sw_neighbours_bytes (index) };
}

static void
bench (gboolean thin, const guint *sizes, int n_sizes)
{
  double before[2] = { NAN, NAN };
  for (int i = 0; i < n_sizes; i++)
    {
      guint n = sizes[i];
      g_autofree SwBox3 *boxes = make_boxes (thin, n);
      BenchTree side[N_SIDES] = { { NAN, 0, 0 }, { NAN, 0, 0 }, { NAN, 0, 0 }, { NAN, 0, 0 } };
      for (int round = 0; round < ROUNDS; round++)
        {
          side[OURS] = bench_better (side[OURS], our_tree (boxes, n));
          side[STR] = bench_better (side[STR], bench_str_tree (boxes, n));
          side[FCL] = bench_better (side[FCL], bench_fcl_tree (boxes, n));
        }
      if (n <= R_MOST)
        side[R] = bench_r_tree (boxes, n);
      double best = fmin (fmin (side[STR].ms, side[FCL].ms), side[R].ms), step = i > 0 ? log ((double) n / sizes[i - 1]) : NAN;
      printf ("%-6s %8u", thin ? "thin" : "cubes", n);
      for (int k = 0; k < N_SIDES; k++)
        printf (" %9zu", side[k].pairs);
      for (int k = 0; k < N_SIDES; k++)
        printf (" %9.2f", side[k].ms);
      printf (" %6.2f %6.2f %6.2f", side[OURS].ms / best, log (side[OURS].ms / before[0]) / step, log (best / before[1]) / step);
      for (int k = 0; k < N_SIDES; k++)
        printf (" %6.1f", (double) side[k].bytes / n);
      printf ("\n");
      before[0] = side[OURS].ms, before[1] = best;
    }
}

int
main (int argc, char **argv)
{
  guint sizes[16] = { 1000, 10000, 100000 };
  int n_sizes = argc > 1 ? MIN (argc - 1, 16) : 3;
  for (int i = 1; i < argc && i <= 16; i++)
    sizes[i - 1] = (guint) CLAMP (atoi (argv[i]), 1, 10000000);
  printf ("%-6s %8s %39s %39s %6s %13s %27s\n", "", "", "pairs", "ms", "ours /", "growth", "bytes an item");
  printf ("%-6s %8s %9s %9s %9s %9s %9s %9s %9s %9s %6s %6s %6s %6s %6s %6s %6s\n", "boxes", "n", "ours", "STR", "FCL", "R*", "ours", "STR",
          "FCL", "R*", "best", "ours", "best", "ours", "STR", "FCL", "R*");
  bench (TRUE, sizes, n_sizes);
  bench (FALSE, sizes, n_sizes);
  return 0;
}
