/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Ceilings of the example job's closed rooms, or of those of the job (JSON) given as argument: the first answer (battens, and
 * boards with little search), all of the boards' search, a stored layout read back, and the alternatives over four sheets. Each is
 * the median of several goes; processor time of one thread. */
#include "ceiling/choices.h"
#include "ceiling/layout.h"
#include "store/text_form.h"
#include <stdlib.h>
#include <time.h>

#define GOES 5

typedef struct
{
  SwDeck *deck;
  SwRules *rules;
  const SwRoom *room;
  const SwLayout *layout;
} Case;

static double
now_ms (void)
{
  struct timespec now;
  clock_gettime (CLOCK_THREAD_CPUTIME_ID, &now);
  return (double) now.tv_sec * 1e3 + (double) now.tv_nsec / 1e6;
}

static int
compare_doubles (const void *a, const void *b)
{
  return (*(const double *) a > *(const double *) b) - (*(const double *) a < *(const double *) b);
}

static guint
plan (const Case *c, gboolean quick)
{
  GError *error = NULL;
  SwCeilingOptions options = { .quick = quick };
  g_autoptr (SwCeiling) ceiling = sw_ceiling_plan (c->deck, c->rules, c->room, &options, NULL, &error);
  if (ceiling == NULL)
    g_error ("%s", error->message);
  return ceiling->n_sheets;
}

static guint
first_answer (const Case *c)
{
  return plan (c, TRUE);
}

static guint
full_search (const Case *c)
{
  return plan (c, FALSE);
}

static guint
read_back (const Case *c)
{
  g_autoptr (SwCeiling) ceiling = sw_ceiling_recall (c->layout, c->deck, c->rules);
  return ceiling->n_sheets;
}

static guint
alternatives (const Case *c)
{
  static const SwBoardSize sizes[] = { { 2400, 1200, 0 }, { 2700, 1200, 0 }, { 3000, 1200, 0 }, { 3600, 1200, 0 } };
  SwCeilingChoiceOptions options = { .sizes = sizes, .n_sizes = G_N_ELEMENTS (sizes), .both_ways = TRUE };
  GError *error = NULL;
  g_autoptr (GPtrArray) choices = sw_ceiling_choices (c->deck, c->rules, c->room, &options, NULL, NULL, NULL, &error);
  if (choices == NULL)
    g_error ("%s", error->message);
  return ((const SwCeilingChoice *) choices->pdata[0])->sheets;
}

static void
measure (const Case *c, guint (*go) (const Case *c))
{
  double ms[GOES];
  guint sheets = 0;
  for (int i = 0; i < GOES; i++)
    {
      double start = now_ms ();
      sheets = go (c);
      ms[i] = now_ms () - start;
    }
  qsort (ms, GOES, sizeof *ms, compare_doubles);
  g_print (" %9.1f %6u", ms[GOES / 2], sheets);
}

/* The job with layouts of all of its closed rooms. */
static SwJob *
lay_all (SwJob *job, SwRules *rules)
{
  GError *error = NULL;
  g_autoptr (SwDeck) deck = sw_deck_new (job);
  g_autoptr (SwEdit) edit = sw_edit_new ("");
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_ROOM); (record = sw_job_iter_next (&i)) != NULL;)
    {
      if (((const SwRoom *) record)->finish != SW_FINISH_CLOSED)
        continue;
      g_autoptr (SwCeiling) ceiling = sw_ceiling_plan (deck, rules, (const SwRoom *) record, NULL, NULL, &error);
      if (ceiling == NULL || !sw_ceiling_store (ceiling, edit, job, &error))
        g_error ("%s", error->message);
    }
  SwJob *laid = sw_job_apply (job, edit, TRUE, &error);
  if (laid == NULL)
    g_error ("%s", error->message);
  return laid;
}

int
main (int argc, char **argv)
{
  const char *root = g_getenv ("SOFFITWRIGHT_SOURCE");
  g_autofree char *example = g_build_filename (root ? root : ".", "examples/community-hall.json", NULL);
  GError *error = NULL;
  g_autoptr (SwJob) bare = sw_text_form_load (argc > 1 ? argv[1] : example, &error);
  if (bare == NULL)
    g_error ("%s", error->message);
  SwRules *rules = sw_rules_load ("south-africa", NULL, &error);
  if (rules == NULL)
    g_error ("%s", error->message);
  g_autoptr (SwJob) job = lay_all (bare, rules);
  g_autoptr (SwDeck) deck = sw_deck_new (job);
  const SwRecord *record;
  g_print ("room                  first ms sheets   full ms sheets   back ms sheets  choice ms sheets\n");
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_ROOM); (record = sw_job_iter_next (&i)) != NULL;)
    {
      Case c = { deck, rules, (const SwRoom *) record, sw_ceiling_layout_of (job, record->id) };
      if (c.layout == NULL)
        continue;
      g_print ("%-20.20s", c.room->name);
      measure (&c, first_answer);
      measure (&c, full_search);
      measure (&c, read_back);
      measure (&c, alternatives);
      g_print ("\n");
    }
  sw_rules_unref (rules);
  return 0;
}
