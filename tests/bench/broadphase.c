/* SPDX-License-Identifier: GPL-3.0-or-later */
/* All pairs of near boxes: our packed tree beside the general geometry library's STR tree, on the same boxes in the same
 * run; each with its own building of the tree. Processor time, best of three. Thin boxes are runs 25–110 mm thick and
 * 0.5–6 m long, half of them each way; cubes have sides of 50–400 mm; 2.5 on a square metre. Prints a table and the
 * growth exponent between neighbouring sizes. Arguments: the sizes, else 1,000 10,000 100,000. */
#include "broadphase.h"
#include <geos_c.h>
#include <stdio.h>
#include <stdlib.h>

typedef struct
{
  const SwBox3 *boxes;
  guint32 self;
  gsize pairs;
} Count;

static void
count_pair (void *item, void *data)
{
  Count *count = data;
  guint32 other = GPOINTER_TO_UINT (item);
  if (other > count->self && sw_box3_meets (count->boxes[count->self], count->boxes[other]))
    count->pairs++;
}

/* The library's tree knows plan boxes only; level is looked at in the callback. Making the envelopes is not counted. */
static double
str_tree_ms (const SwBox3 *boxes, guint n, gsize *pairs)
{
  GEOSContextHandle_t context = GEOS_init_r ();
  GEOSGeometry **envelopes = g_new (GEOSGeometry *, n);
  for (guint i = 0; i < n; i++)
    envelopes[i] = GEOSGeom_createRectangle_r (context, boxes[i].low.x, boxes[i].low.y, boxes[i].high.x, boxes[i].high.y);
  double start = bench_cpu_ms ();
  GEOSSTRtree *tree = GEOSSTRtree_create_r (context, 10);
  for (guint i = 0; i < n; i++)
    GEOSSTRtree_insert_r (context, tree, envelopes[i], GUINT_TO_POINTER (i));
  Count count = { boxes, 0, 0 };
  for (count.self = 0; count.self < n; count.self++)
    GEOSSTRtree_query_r (context, tree, envelopes[count.self], count_pair, &count);
  GEOSSTRtree_destroy_r (context, tree);
  double taken = bench_cpu_ms () - start;
  for (guint i = 0; i < n; i++)
    GEOSGeom_destroy_r (context, envelopes[i]);
  g_free (envelopes);
  GEOS_finish_r (context);
  *pairs = count.pairs;
  return taken;
}

static void
bench (BenchKind kind, const guint *sizes, int n_sizes)
{
  double before[2] = { 0, 0 };
  for (int i = 0; i < n_sizes; i++)
    {
      guint n = sizes[i];
      SwBox3 *boxes = bench_boxes (kind, n);
      BenchOurs ours = { .total_ms = INFINITY };
      double theirs = INFINITY;
      gsize their_pairs = 0;
      for (int round = 0; round < 3; round++)
        {
          BenchOurs now = bench_ours (boxes, n);
          ours = now.total_ms < ours.total_ms ? now : ours;
          theirs = fmin (theirs, str_tree_ms (boxes, n, &their_pairs));
        }
      double step = i > 0 ? log ((double) n / sizes[i - 1]) : NAN;
      printf ("%-6s %7u %9zu %9zu %9.2f %9.2f %9.2f %7.1f %8.2f %8.2f %8.1f\n", kind == BENCH_THIN ? "thin" : "cubes", n,
              ours.pairs, their_pairs, ours.build_ms, ours.total_ms, theirs, theirs / ours.total_ms,
              log (ours.total_ms / before[0]) / step, log (theirs / before[1]) / step, (double) ours.bytes / n);
      before[0] = ours.total_ms, before[1] = theirs;
      g_free (boxes);
    }
}

int
main (int argc, char **argv)
{
  guint sizes[16] = { 1000, 10000, 100000 };
  int n_sizes = argc > 1 ? MIN (argc - 1, 16) : 3;
  for (int i = 1; i < argc && i <= 16; i++)
    sizes[i - 1] = (guint) CLAMP (atoi (argv[i]), 1, 10000000);
  printf ("%-6s %7s %9s %9s %9s %9s %9s %7s %8s %8s %8s\n", "boxes", "n", "pairs", "theirs", "build ms", "all ms",
          "STR ms", "ratio", "growth", "STR gr.", "B/item");
  bench (BENCH_THIN, sizes, n_sizes);
  bench (BENCH_CUBES, sizes, n_sizes);
  return 0;
}
