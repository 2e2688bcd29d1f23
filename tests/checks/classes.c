/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What two classes of bodies reach is never less than what any check asks of two bodies of theirs: asked of all pairs in a job of
 * every kind of run, fitting, light, wall and plate, so that a check which looks at more than the classes' key is found out. */
#include "base/random.h"
#include "checks/classes.h"
#include "job/edit.h"
#include "support.h"
#include "tiny.h"

static const char *const contents[] = { "", "category-7-screened", "category-6-unscreened", "unknown", "12x2.5", "30x2.5" };

static void
put (SwEdit *edit, SwJob *job, SwRecord *record)
{
  GError *error = NULL;
  sw_edit_put (edit, job, record, &error);
  g_clear_error (&error); /* what is not allowed stays out */
}

static SwPoint
place (SwRandom *random)
{
  return (SwPoint){ sw_random_double (random, 300, 5700), sw_random_double (random, 100, 4700) };
}

/* How many circuits a run of one contents holds hangs on the cores of its own. */
static SwId
add_circuit (SwRandom *random, SwEdit *edit, SwJob *job)
{
  SwCircuit *circuit = (SwCircuit *) sw_edit_create (edit, job, SW_TABLE_CIRCUIT);
  SwId id = circuit->record.id;
  circuit->cores = sw_random_int (random, 1, 3);
  put (edit, job, &circuit->record);
  return sw_edit_peek (edit, job, id) != NULL ? id : 0;
}

static void
add_run (SwRandom *random, SwEdit *edit, SwJob *job)
{
  static const double sizes[] = { 20, 25, 32, 50, 110 };
  SwRun *run = (SwRun *) sw_edit_create (edit, job, SW_TABLE_RUN);
  run->service = sw_random_int (random, 0, SW_N_SERVICES - 1);
  run->material = sw_random_int (random, 0, SW_MATERIAL_BRASS);
  run->stage = sw_random_int (random, 0, 2);
  run->od = sizes[sw_random_int (random, 0, G_N_ELEMENTS (sizes) - 1)];
  run->insulation = sw_random_int (random, 0, 2) == 0 ? 13 : 0;
  run->clearance = sw_random_int (random, 0, 3) == 0 ? sw_random_double (random, 1, 60) : 0;
  run->circuit = sw_random_int (random, 0, 1) ? add_circuit (random, edit, job) : 0;
  sw_text_set (&run->contents, contents[sw_random_int (random, 0, G_N_ELEMENTS (contents) - 1)]);
  SwVertex *way = sw_list_resize (&run->vertices, &sw_struct_vertex, 2);
  for (int i = 0; i < 2; i++)
    way[i] = (SwVertex){ place (random), SW_LEVEL_VOID, sw_random_double (random, 30, 220) };
  put (edit, job, &run->record);
}

static void
add_things (SwRandom *random, SwEdit *edit, SwJob *job)
{
  SwFitting *fitting = (SwFitting *) sw_edit_create (edit, job, SW_TABLE_FITTING);
  fitting->kind = sw_random_int (random, 0, SW_FITTING_OTHER);
  fitting->level = sw_random_int (random, 0, SW_LEVEL_FLOOR);
  fitting->at = place (random);
  put (edit, job, &fitting->record);
  SwLight *light = (SwLight *) sw_edit_create (edit, job, SW_TABLE_LIGHT);
  light->at = place (random);
  light->cut_out = light->body + sw_random_double (random, 0, 20);
  put (edit, job, &light->record);
  SwWall *wall = (SwWall *) sw_edit_create (edit, job, SW_TABLE_WALL);
  wall->from = place (random);
  wall->to = place (random);
  wall->separating = sw_random_int (random, 0, 1);
  put (edit, job, &wall->record);
}

static SwJob *
varied_job (void)
{
  GError *error = NULL;
  SwRandom random = { 41 };
  g_autoptr (SwJob) job = tiny_job ("'bays': [{'id': 'B', 'profile': 'p', 'plate_spacing_mm': 1500, 'outline': [[0,0],[6000,0],[6000,4800],[0,4800]]}],"
                                    "'beams': [{'from': [5000,0], 'to': [5000,4800]}], 'columns': [{'outline': [[0,0],[300,0],[300,300],[0,300]]}],"
                                    "'measures': [{'of': 'B', 'kind': 'rib', 'number': 2, 'value_mm': 1205}]");
  g_autoptr (SwEdit) edit = sw_edit_new ("Fill");
  for (int i = 0; i < 260; i++)
    add_run (&random, edit, job);
  for (int i = 0; i < 60; i++)
    add_things (&random, edit, job);
  SwJob *full = sw_job_apply (job, edit, TRUE, &error);
  g_assert_no_error (error);
  return full;
}

static void
test_all_pairs (void)
{
  g_autoptr (SwJob) job = varied_job ();
  g_autoptr (SwSpace) space = tiny_space (job);
  guint n = sw_space_n_bodies (space), asked = 0, short_ones = 0;
  g_autoptr (SwCheckAsking) asking = sw_check_asking_new (space);
  const SwCheckClasses *classes = sw_check_asking_classes (asking);
  g_assert_cmpuint (classes->reps->len, >, 100);
  for (guint a = 0; a < n; a++)
    for (guint b = 0; b < n; b++)
      {
        double needed = sw_check_asking_needed (asking, a, b), reach = (double) classes->reach[classes->of[a] * classes->reps->len + classes->of[b]];
        asked += needed >= 0;
        short_ones += needed >= 0 && reach < needed;
      }
  g_test_message ("%u bodies of %u classes, %u pairs that something is asked of", n, classes->reps->len, asked);
  g_assert_cmpuint (short_ones, ==, 0);
  g_assert_cmpuint (asked, >, 10000);
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/checks/classes/all-pairs", test_all_pairs);
  return g_test_run ();
}
