/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The whole check of a job with n run segments and n / 5 lights, at some 2.5 segments on a square metre, beside the pair
 * search alone of GEOS's STRtree over the same bodies' boxes, in plan, in the same run. Runs lie in lanes as a planner would
 * lay them; one in twenty is out of its lane and clashes. One line a size; then how the times grow: exponent e in n^e between
 * neighbouring sizes. Processor time, one thread. Sizes may be given as arguments. */
#include "made_job.h"
#include "checks/checks.h"
#include <geos_c.h>
#include <math.h>
#include <stdlib.h>
#include <time.h>

#define REACH_MM 50.0

/* Time of this thread on the processor: others may be using it too. */
static gint64
now_us (void)
{
  struct timespec now;
  clock_gettime (CLOCK_THREAD_CPUTIME_ID, &now);
  return now.tv_sec * G_USEC_PER_SEC + now.tv_nsec / 1000;
}

static double
since_ms (gint64 start)
{
  return (double) (now_us () - start) / 1000;
}

/* ---- the other tree */

typedef struct
{
  const SwSpace *space;
  guint from;
  guint64 pairs;
} Counted;

static void
count_pair (void *item, void *data)
{
  Counted *counted = data;
  counted->pairs += GPOINTER_TO_UINT (item) - 1 > counted->from;
}

static double
strtree_ms (const SwSpace *space, guint64 *pairs)
{
  GEOSContextHandle_t geos = GEOS_init_r ();
  guint n = sw_space_n_bodies (space);
  Counted counted = { space, 0, 0 };
  GEOSGeometry **boxes = g_new (GEOSGeometry *, n);
  for (guint i = 0; i < n; i++)
    {
      SwBox3 box = sw_space_body (space, i)->box;
      boxes[i] = GEOSGeom_createRectangle_r (geos, box.low.x - REACH_MM / 2, box.low.y - REACH_MM / 2, box.high.x + REACH_MM / 2, box.high.y + REACH_MM / 2);
    }
  gint64 start = now_us ();
  GEOSSTRtree *tree = GEOSSTRtree_create_r (geos, 10);
  for (guint i = 0; i < n; i++)
    GEOSSTRtree_insert_r (geos, tree, boxes[i], GUINT_TO_POINTER (i + 1));
  for (guint i = 0; i < n; i++)
    {
      counted.from = i;
      GEOSSTRtree_query_r (geos, tree, boxes[i], count_pair, &counted);
    }
  double ms = since_ms (start);
  GEOSSTRtree_destroy_r (geos, tree);
  for (guint i = 0; i < n; i++)
    GEOSGeom_destroy_r (geos, boxes[i]);
  g_free (boxes);
  GEOS_finish_r (geos);
  *pairs = counted.pairs;
  return ms;
}

/* ---- one size */

typedef struct
{
  double n, check, tree, one;
} Figures;

/* One run of the middle of the job asked for alone, as a drag does. */
static double
one_ms (SwSpace *space, SwJob *job)
{
  SwId owner = sw_job_nth (job, SW_TABLE_RUN, sw_job_count (job, SW_TABLE_RUN) / 2)->id;
  gint64 start = now_us ();
  for (int i = 0; i < 10; i++)
    {
      G_GNUC_UNUSED g_autoptr (SwSnags) snags = sw_checks_of (space, NULL, &owner, 1);
    }
  return since_ms (start) / 10;
}

static Figures
bench_size (SwRules *rules, guint n)
{
  GError *error = NULL;
  guint64 pairs = 0;
  g_autoptr (SwJob) job = sw_made_job (n);
  gint64 start = now_us ();
  g_autoptr (SwDeck) deck = sw_deck_new (job);
  g_autoptr (SwSpace) space = sw_space_new (deck, rules, &error);
  double build = since_ms (start);
  start = now_us ();
  g_autoptr (SwSnags) snags = sw_checks_run (space, NULL, NULL, NULL, NULL, &error);
  Figures figures = { .n = n, .check = since_ms (start) };
  figures.tree = strtree_ms (space, &pairs);
  figures.one = one_ms (space, job);
  g_print ("n=%u: %u bodies, space %.0f ms, check %.0f ms, %u snags; STRtree %.0f ms, %" G_GUINT64_FORMAT " pairs; ratio %.2f; one run %.2f ms\n",
           n, sw_space_n_bodies (space), build, figures.check, sw_snags_n (snags), figures.tree, pairs, figures.check / figures.tree, figures.one);
  return figures;
}

static double
exponent (double time_a, double time_b, double n_a, double n_b)
{
  return log (time_b / time_a) / log (n_b / n_a);
}

int
main (int argc, char **argv)
{
  static const guint usual[] = { 1000, 10000, 100000 };
  GError *error = NULL;
  g_autoptr (SwRules) rules = sw_rules_load ("south-africa", NULL, &error);
  Figures before = { 0 };
  if (rules == NULL)
    g_error ("%s", error->message);
  for (int i = 0; i < (argc > 1 ? argc - 1 : (int) G_N_ELEMENTS (usual)); i++)
    {
      Figures now = bench_size (rules, argc > 1 ? (guint) strtoul (argv[i + 1], NULL, 10) : usual[i]);
      if (before.n > 0)
        g_print ("growth from %.0f to %.0f: check n^%.2f, STRtree n^%.2f, one run n^%.2f\n", before.n, now.n,
                 exponent (before.check, now.check, before.n, now.n), exponent (before.tree, now.tree, before.n, now.n),
                 exponent (before.one, now.one, before.n, now.n));
      before = now;
    }
  return 0;
}
