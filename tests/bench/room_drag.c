/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the window works out while a room's wall is dragged, for each closed room of the example job or of the job (JSON) given as
 * argument: the first answer, which is drawn, and the whole search, which follows when the pointer rests; both with the layout that
 * would be stored. Median and worst of 40 moves by 7 mm; processor time of one thread. A frame at 60 a second is 16.7 ms. */
#include "store/text_form.h"
#include "window/tools/ceiling_draft.h"
#include <stdlib.h>
#include <time.h>

#define MOVES 40

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

/* The room's side of greatest x, or what of the outline lies there, goes inwards step by step. */
static void
drag (SwDeck *deck, SwRules *rules, const SwRoom *room, gboolean full)
{
  double ms[MOVES], edge = sw_record_box (&room->record).high.x;
  for (int move = 0; move < MOVES; move++)
    {
      g_autoptr (SwRecord) copy = sw_record_copy (&room->record);
      SwList *outline = &((SwRoom *) copy)->outline;
      for (guint i = 0; i < outline->n; i++)
        if (SW_LIST_AT (*outline, SwPoint, i).x > edge - 1)
          SW_LIST_AT (*outline, SwPoint, i).x -= 7 * (move + 1);
      double start = now_ms ();
      g_autoptr (SwCeilingDraft) draft = sw_ceiling_draft_new (deck, rules, (const SwRoom *) copy, full, NULL);
      ms[move] = now_ms () - start;
      if (draft == NULL)
        g_error ("%s cannot be laid out", room->record.tag);
    }
  qsort (ms, MOVES, sizeof *ms, compare_doubles);
  g_print (" %9.1f %9.1f", ms[MOVES / 2], ms[MOVES - 1]);
}

int
main (int argc, char **argv)
{
  const char *root = g_getenv ("SOFFITWRIGHT_SOURCE");
  g_autofree char *example = g_build_filename (root ? root : ".", "examples/community-hall.json", NULL);
  GError *error = NULL;
  g_autoptr (SwJob) job = sw_text_form_load (argc > 1 ? argv[1] : example, &error);
  SwRules *rules = job != NULL ? sw_rules_load ("south-africa", NULL, &error) : NULL;
  if (rules == NULL)
    g_error ("%s", error->message);
  g_autoptr (SwDeck) deck = sw_deck_new (job);
  const SwRecord *record;
  g_print ("room                   m²  first ms, worst   whole ms, worst\n");
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_ROOM); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwRoom *room = (const SwRoom *) record;
      if (room->finish != SW_FINISH_CLOSED)
        continue;
      SwBox box = sw_record_box (record);
      g_print ("%-20.20s %5.0f", room->name, (box.high.x - box.low.x) * (box.high.y - box.low.y) / 1e6);
      drag (deck, rules, room, FALSE);
      drag (deck, rules, room, TRUE);
      g_print ("\n");
    }
  sw_rules_unref (rules);
  return 0;
}
