/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rectangles from sheets on the 500 public instances of ten classes (reference data beside the tree; without it nothing is
 * measured): straight cuts of any number of stages beside the best known values for three stages, pieces fixed and turning, with the
 * area bound and ours. A value below the best known of free layouts would be an error and stops the program. Processor times.
 * Arguments: effort (2000), take every n-th instance (1). */
#include "ceiling/sheet_cut.h"
#include <stdlib.h>
#include <string.h>
#include <time.h>

#define CLASSES 10
#define MOST_ITEMS 128
#define MOST_INSTANCES 64

typedef struct
{
  guint instances, no_worse, sheets, known, bound, met; /* sums; met: sheets = bound */
  guint n;
  double ms[MOST_INSTANCES * CLASSES];
} Sums;

static double
now_ms (void)
{
  struct timespec now;
  clock_gettime (CLOCK_THREAD_CPUTIME_ID, &now);
  return now.tv_sec * 1e3 + now.tv_nsec / 1e6;
}

static int
compare_doubles (const void *a, const void *b)
{
  return (*(const double *) a > *(const double *) b) - (*(const double *) a < *(const double *) b);
}

/* instance, sheet width and height, count, best free fixed and turning, best in three stages fixed and turning, sizes. */
static void
solve_line (const char *line, gboolean turning, guint effort, Sums *sums)
{
  g_auto (GStrv) fields = g_strsplit (line, ",", -1), sizes = g_strsplit (fields[8], " ", -1);
  SwSheetItem items[MOST_ITEMS];
  guint n = 0, known = (guint) atoi (fields[turning ? 7 : 6]), free_best = (guint) atoi (fields[turning ? 5 : 4]);
  for (; sizes[n] != NULL && n < MOST_ITEMS; n++)
    items[n] = (SwSheetItem){ atoi (sizes[n]), atoi (strchr (sizes[n], 'x') + 1), 1, turning };
  SwSheetStock stock = { atoi (fields[1]), atoi (fields[2]), 0, 0 };
  SwSheetOptions options = { .effort = effort };
  GError *error = NULL;
  double start = now_ms ();
  g_autoptr (SwSheetPlan) plan = sw_sheet_cut (items, n, &stock, 1, &options, NULL, &error);
  sums->ms[sums->n++] = now_ms () - start;
  if (plan == NULL || !sw_sheet_plan_check (plan, items, n, &stock, 1, &options, &error))
    g_error ("%s: %s", fields[0], error->message);
  if (plan->bound > MIN (known, free_best) || plan->sheets->len < plan->bound)
    g_error ("%s: a bound of %u against %u known", fields[0], plan->bound, MIN (known, free_best));
  sums->instances++;
  sums->no_worse += plan->sheets->len <= known;
  sums->met += plan->sheets->len == plan->bound;
  sums->sheets += plan->sheets->len;
  sums->known += known;
  sums->bound += plan->bound;
}

static void
print_sums (const char *name, Sums *sums)
{
  qsort (sums->ms, sums->n, sizeof *sums->ms, compare_doubles);
  g_print ("%-16s %9u %8u %7u %7u %7u %9u %10.1f %10.1f\n", name, sums->instances, sums->no_worse, sums->sheets, sums->known,
           sums->bound, sums->met, sums->ms[sums->n / 2], sums->ms[sums->n - 1]);
}

static void
add_sums (Sums *all, const Sums *one)
{
  all->instances += one->instances;
  all->no_worse += one->no_worse;
  all->met += one->met;
  all->sheets += one->sheets;
  all->known += one->known;
  all->bound += one->bound;
  memcpy (all->ms + all->n, one->ms, one->n * sizeof *one->ms);
  all->n += one->n;
}

static void
measure (const char *folder, gboolean turning, guint effort, guint every)
{
  Sums *all = g_new0 (Sums, 1), *one = g_new0 (Sums, 1);
  for (int class = 1; class <= CLASSES; class++)
    {
      g_autofree char *path = g_strdup_printf ("%s/class%02d.csv", folder, class), *text = NULL;
      g_autofree char *name = g_strdup_printf ("class %d%s", class, turning ? ", turning" : "");
      if (!g_file_get_contents (path, &text, NULL, NULL))
        continue;
      g_auto (GStrv) lines = g_strsplit (text, "\n", -1);
      memset (one, 0, sizeof *one);
      for (guint i = 1; lines[i] != NULL && *lines[i] != '\0' && one->n < MOST_INSTANCES; i++)
        if (i % every == 0)
          solve_line (lines[i], turning, effort, one);
      print_sums (name, one);
      add_sums (all, one);
    }
  print_sums (turning ? "all, turning" : "all", all);
  g_free (all);
  g_free (one);
}

int
main (int argc, char **argv)
{
  const char *root = g_getenv ("SOFFITWRIGHT_SOURCE");
  g_autofree char *folder = g_build_filename (root ? root : ".", "../shared/reference/cutting2d", NULL);
  guint effort = argc > 1 ? (guint) atoi (argv[1]) : 2000, every = argc > 2 ? (guint) MAX (atoi (argv[2]), 1) : 1;
  if (!g_file_test (folder, G_FILE_TEST_IS_DIR))
    {
      g_print ("skipped: the public instances are not at %s\n", folder);
      return 0;
    }
  g_print ("class            instances no worse  sheets   known   bound bound met  median ms greatest ms\n");
  measure (folder, FALSE, effort, every);
  measure (folder, TRUE, effort, every);
  return 0;
}
