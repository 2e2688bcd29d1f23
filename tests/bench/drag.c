/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the window works out in the background while something is dragged: from the moved records to the list of snags with
 * its badges, beside the whole of it. Sizes (runs) or a job in text form may be given as arguments; each line is one of them,
 * the median and the worst of 60 moves. Processor time, one thread. */
#include "made_job.h"
#include "store/text_form.h"
#include "window/tools/picture.h"
#include <stdlib.h>
#include <time.h>

#define MOVES 60

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

static int
compare_ms (gconstpointer a, gconstpointer b)
{
  double x = *(const double *) a, y = *(const double *) b;
  return (x > y) - (x < y);
}

/* A record of the table is led across its neighbours. */
static void
bench_table (const SwPicture *picture, SwTable table, const char *name)
{
  double ms[MOVES];
  guint n = sw_job_count (sw_picture_job (picture), table);
  if (n == 0)
    return;
  const SwRecord *record = sw_job_nth (sw_picture_job (picture), table, n / 2);
  for (int i = 0; i < MOVES; i++)
    {
      g_autoptr (SwRecord) moved = sw_record_copy (record);
      sw_record_move (moved, (SwPoint){ 0, 40.0 * (i + 1) });
      gint64 start = now_us ();
      g_autoptr (SwPicture) draft = sw_picture_draft (picture, &moved, 1, NULL);
      ms[i] = since_ms (start);
      if (draft == NULL)
        g_error ("the draft of a %s failed", name);
    }
  qsort (ms, MOVES, sizeof *ms, compare_ms);
  g_print ("  a %s: median %.1f ms, worst %.1f ms\n", name, ms[MOVES / 2], ms[MOVES - 1]);
}

static void
bench_job (SwJob *job, const char *name)
{
  gint64 start = now_us ();
  g_autoptr (SwPicture) plain = sw_picture_new (job, 1, NULL, NULL);
  if (plain == NULL || plain->space == NULL)
    g_error ("%s cannot be worked out", name);
  g_autoptr (SwPicture) picture = sw_picture_check (plain, NULL);
  g_print ("%s: %u runs, %u snags, all of it %.0f ms\n", name, sw_job_count (job, SW_TABLE_RUN), sw_snags_n (picture->snags), since_ms (start));
  bench_table (picture, SW_TABLE_RUN, "run");
  bench_table (picture, SW_TABLE_LIGHT, "downlight");
  bench_table (picture, SW_TABLE_BAY, "bay");
}

static SwJob *
job_of (const char *argument)
{
  GError *error = NULL;
  SwJob *job = g_ascii_isdigit (*argument) ? sw_made_job ((guint) strtoul (argument, NULL, 10), FALSE) : sw_text_form_load (argument, &error);
  if (job == NULL)
    g_error ("%s", error->message);
  return job;
}

int
main (int argc, char **argv)
{
  static const char *const usual[] = { "500", "2000", "8000" };
  for (int i = 0; i < (argc > 1 ? argc - 1 : (int) G_N_ELEMENTS (usual)); i++)
    {
      const char *argument = argc > 1 ? argv[i + 1] : usual[i];
      g_autoptr (SwJob) job = job_of (argument);
      bench_job (job, argument);
    }
  return 0;
}
