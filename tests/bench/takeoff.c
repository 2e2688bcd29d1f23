/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The take-off of a job with n run segments: runs of four legs along the voids and across, one draw box on each, exposed rooms of 6 by 6 m
 * below bays of 30 by 30 m. One line a size; then how the time grows: exponent e in n^e between neighbouring sizes. Processor
 * time, one thread. Sizes may be given as arguments. */
#include "estimate/takeoff.h"
#include "job/edit.h"
#include <math.h>
#include <stdlib.h>
#include <time.h>

#define BAY_MM  30000.0
#define ROOM_MM 6000.0
#define LEGS    4
#define LANES   245 /* runs of a bay: five to each of 49 voids */

static double
now_ms (void)
{
  struct timespec now;
  clock_gettime (CLOCK_THREAD_CPUTIME_ID, &now);
  return (double) now.tv_sec * 1e3 + (double) now.tv_nsec / 1e6;
}

static gpointer
new_record (SwTable table, guint serial)
{
  g_autofree char *tag = g_strdup_printf ("%s%u", sw_type_get (table)->prefix, serial);
  return sw_record_new (SW_ID (table, serial), tag);
}

static void
put (SwEdit *edit, const SwJob *job, gpointer record)
{
  GError *error = NULL;
  if (!sw_edit_put (edit, job, record, &error))
    g_error ("%s", error->message);
}

static void
set_square (SwList *outline, SwPoint at, double side)
{
  SwPoint corners[] = { at, { at.x + side, at.y }, { at.x + side, at.y + side }, { at.x, at.y + side } };
  sw_list_set_points (outline, corners, G_N_ELEMENTS (corners));
}

static void
add_bay (SwEdit *edit, const SwJob *job, guint serial, SwPoint at)
{
  const guint a_side = (guint) (BAY_MM / ROOM_MM);
  SwBay *bay = new_record (SW_TABLE_BAY, serial);
  set_square (&bay->outline, at, BAY_MM);
  bay->profile = SW_ID (SW_TABLE_PROFILE, 1);
  put (edit, job, bay);
  for (guint i = 0; i < a_side * a_side; i++)
    {
      SwRoom *room = new_record (SW_TABLE_ROOM, (serial - 1) * a_side * a_side + i + 1);
      set_square (&room->outline, (SwPoint){ at.x + i % a_side * ROOM_MM, at.y + i / a_side * ROOM_MM }, ROOM_MM);
      room->finish = SW_FINISH_GRID;
      put (edit, job, room);
    }
}

static void
add_run (SwEdit *edit, const SwJob *job, guint serial, guint lane, SwPoint at)
{
  SwRun *run = new_record (SW_TABLE_RUN, serial);
  SwFitting *box = new_record (SW_TABLE_FITTING, serial);
  double v = at.y + 900 + lane % 49 * 600, u = at.x + 300 + lane / 49 * 5800;
  SwPoint way[LEGS + 1] = { { u, v }, { u + 1500, v }, { u + 3000, v + 20 }, { u + 4500, v }, { u + 5500, v } };
  sw_list_resize (&run->vertices, &sw_struct_vertex, LEGS + 1);
  for (guint i = 0; i <= LEGS; i++)
    SW_LIST_AT (run->vertices, SwVertex, i) = (SwVertex){ way[i], SW_LEVEL_VOID, 100 };
  run->service = SW_SERVICE_DATA;
  put (edit, job, run);
  box->at = way[2];
  box->run = SW_ID (SW_TABLE_RUN, serial);
  put (edit, job, box);
}

static SwJob *
make_job (guint n)
{
  GError *error = NULL;
  g_autoptr (SwJob) empty = sw_job_new ();
  g_autoptr (SwEdit) edit = sw_edit_new ("Make");
  guint runs = n / LEGS, bays = (runs + LANES - 1) / LANES, a_side = (guint) ceil (sqrt (bays));
  put (edit, empty, new_record (SW_TABLE_PROFILE, 1));
  for (guint i = 0; i < bays; i++)
    add_bay (edit, empty, i + 1, (SwPoint){ i % a_side * (BAY_MM + 500), i / a_side * (BAY_MM + 500) });
  for (guint i = 0; i < runs; i++)
    {
      guint bay = i / LANES;
      add_run (edit, empty, i + 1, i % LANES, (SwPoint){ bay % a_side * (BAY_MM + 500), bay / a_side * (BAY_MM + 500) });
    }
  SwJob *job = sw_job_apply (empty, edit, TRUE, &error);
  if (job == NULL)
    g_error ("%s", error->message);
  return job;
}

static double
measure (guint n)
{
  GError *error = NULL;
  g_autoptr (SwJob) job = make_job (n);
  g_autoptr (SwRules) rules = sw_rules_load ("south-africa", NULL, &error);
  g_autoptr (SwDeck) deck = sw_deck_new (job);
  double start = now_ms ();
  g_autoptr (SwTakeoff) takeoff = sw_takeoff_new (deck, rules, NULL, &error);
  double ms = now_ms () - start;
  g_print ("%7u segments, %u rooms: take-off %.0f ms, %u needs\n", n, sw_job_count (job, SW_TABLE_ROOM), ms, takeoff->needs->len);
  return ms;
}

int
main (int argc, char **argv)
{
  const guint usual[] = { 1000, 4000, 16000 };
  guint n = argc > 1 ? (guint) argc - 1 : G_N_ELEMENTS (usual), before = 0;
  double before_ms = 0;
  for (guint i = 0; i < n; i++)
    {
      guint size = argc > 1 ? (guint) atoi (argv[i + 1]) : usual[i];
      double ms = measure (size);
      if (before > 0)
        g_print ("        exponent %.2f\n", log (ms / before_ms) / log ((double) size / before));
      before = size;
      before_ms = ms;
    }
  return 0;
}
