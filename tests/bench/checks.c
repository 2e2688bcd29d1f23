/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The whole check of a job with n run segments and n / 5 lights at some 2.5 segments on a square metre, in two densities
 * (made_job.h), beside the pair search alone of three general-purpose trees (trees.h) over the boxes of the same bodies in the
 * same run. The trees' boxes are the bodies' with their margins and half of REACH_MM on each side; the check itself looks as far
 * as its rules ask. Processor time, the best of a few rounds; wall: the same of the check by the clock. Growth: exponent e in
 * n^e from the size before. Bytes an item: what the search keeps. Arguments: the sizes, and "check" for the check alone. */
#include "checks/checks.h"
#include "made_job.h"
#include "space/bodies.h"
#include "trees.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define REACH_MM 50.0
#define R_MOST   500000  /* bodies: beyond, the R*Tree takes minutes */

/* ---- one size */

enum { STR, FCL, R, N_TREES };

typedef struct
{
  double n, space_ms, check_ms, wall_ms, one_ms, best_ms;
  guint bodies, snags;
  gsize bytes;
  BenchTree tree[N_TREES];
} Figures;

static SwBox3 *
boxes_of (const SwSpace *space)
{
  guint n = sw_space_n_bodies (space);
  SwBox3 *boxes = g_new (SwBox3, n);
  for (guint i = 0; i < n; i++)
    {
      const SwBody *body = sw_space_body (space, i);
      boxes[i] = sw_box3_grow (body->box, body->margin + REACH_MM / 2);
    }
  return boxes;
}

/* One run of the middle of the job asked for alone, as a drag does. */
static double
one_ms (SwSpace *space, SwJob *job)
{
  SwId owner = sw_job_nth (job, SW_TABLE_RUN, sw_job_count (job, SW_TABLE_RUN) / 2)->id;
  double best = INFINITY;
  for (int i = 0; i < 10; i++)
    {
      double start = bench_cpu_ms ();
      G_GNUC_UNUSED g_autoptr (SwSnags) snags = sw_checks_of (space, NULL, &owner, 1);
      best = fmin (best, bench_cpu_ms () - start);
    }
  return best;
}

static void
check_once (SwSpace *space, Figures *figures)
{
  GError *error = NULL;
  gint64 clock = g_get_monotonic_time ();
  double start = bench_cpu_ms ();
  g_autoptr (SwSnags) snags = sw_checks_run (space, NULL, NULL, NULL, NULL, &error);
  figures->check_ms = fmin (figures->check_ms, bench_cpu_ms () - start);
  figures->wall_ms = fmin (figures->wall_ms, (double) (g_get_monotonic_time () - clock) / 1000);
  figures->snags = sw_snags_n (snags);
}

static void
measure_trees (SwSpace *space, Figures *figures, gboolean with_r)
{
  g_autofree SwBox3 *boxes = boxes_of (space);
  figures->tree[STR] = bench_better (figures->tree[STR], bench_str_tree (boxes, figures->bodies));
  figures->tree[FCL] = bench_better (figures->tree[FCL], bench_fcl_tree (boxes, figures->bodies));
  if (with_r)
    figures->tree[R] = bench_r_tree (boxes, figures->bodies);
}

static Figures
bench_size (SwRules *rules, guint n, gboolean cubes, gboolean trees)
{
  GError *error = NULL;
  Figures figures = { .n = n, .check_ms = INFINITY, .wall_ms = INFINITY };
  int rounds = n <= 2000 ? 15 : n <= 20000 ? 7 : n <= 200000 ? 5 : 2;
  g_autoptr (SwJob) job = sw_made_job (n, cubes);
  double start = bench_cpu_ms ();
  g_autoptr (SwDeck) deck = sw_deck_new (job);
  g_autoptr (SwSpace) space = sw_space_new (deck, rules, &error);
  figures.space_ms = bench_cpu_ms () - start;
  figures.bodies = sw_space_n_bodies (space);
  figures.bytes = sw_neighbours_bytes (sw_space_index (space));
  for (int k = 0; k < N_TREES; k++)
    figures.tree[k].ms = NAN;
  for (int round = 0; round < rounds; round++)
    {
      check_once (space, &figures);
      if (trees)
        measure_trees (space, &figures, round == 0 && figures.bodies <= R_MOST);
    }
  figures.best_ms = fmin (fmin (figures.tree[STR].ms, figures.tree[FCL].ms), figures.tree[R].ms);
  figures.one_ms = one_ms (space, job);
  return figures;
}

static double
exponent (double time_a, double time_b, double n_a, double n_b)
{
  return log (time_b / time_a) / log (n_b / n_a);
}

static void
print_line (const char *density, const Figures *now, const Figures *before)
{
  printf ("%-6s %8.0f %8u %7u %8.1f %8.2f %8.2f %8.2f %8.2f %8.1f %6.2f %6.2f %6.2f %7.3f", density, now->n, now->bodies, now->snags,
          now->space_ms, now->check_ms, now->wall_ms, now->tree[STR].ms, now->tree[FCL].ms, now->tree[R].ms, now->check_ms / now->best_ms,
          exponent (before->check_ms, now->check_ms, before->n, now->n), exponent (before->best_ms, now->best_ms, before->n, now->n),
          now->one_ms);
  printf (" %6.1f", (double) now->bytes / now->bodies);
  for (int k = 0; k < N_TREES; k++)
    printf (" %6.1f", (double) now->tree[k].bytes / now->bodies);
  printf ("\n");
  fflush (stdout);
}

int
main (int argc, char **argv)
{
  guint sizes[16] = { 1000, 10000, 100000 };
  int n_sizes = 0;
  gboolean trees = TRUE;
  GError *error = NULL;
  g_autoptr (SwRules) rules = sw_rules_load ("south-africa", NULL, &error);
  if (rules == NULL)
    g_error ("%s", error->message);
  for (int i = 1; i < argc && n_sizes < 16; i++)
    if (strcmp (argv[i], "check") == 0)
      trees = FALSE;
    else
      sizes[n_sizes++] = (guint) strtoul (argv[i], NULL, 10);
  n_sizes = n_sizes > 0 ? n_sizes : 3;
  printf ("%-6s %8s %8s %7s %8s %8s %8s %8s %8s %8s %6s %6s %6s %7s %6s %6s %6s %6s\n", "", "n", "bodies", "snags", "space ms", "check ms",
          "wall ms", "STR ms", "FCL ms", "R* ms", "ratio", "growth", "best's", "one ms", "B/item", "STR B", "FCL B", "R* B");
  for (int cubes = 0; cubes < 2; cubes++)
    {
      Figures before = { 0 };
      for (int i = 0; i < n_sizes; i++)
        {
          Figures now = bench_size (rules, sizes[i], cubes, trees);
          print_line (cubes ? "cubes" : "thin", &now, &before);
          before = now;
        }
    }
  return 0;
}
