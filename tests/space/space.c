/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sample.h"
#include "space/space.h"
#include "support.h"
#include <math.h>
#include <string.h>

typedef struct
{
  SwSample sample;
  SwRules *rules;
  SwSpace *space;
} Fixture;

static void
setup (Fixture *fixture, gconstpointer data)
{
  fixture->sample = sw_sample_new (6000, 4200, 0);
  fixture->rules = sw_test_rules ("south-africa");
}

static void
teardown (Fixture *fixture, gconstpointer data)
{
  sw_space_unref (fixture->space);
  sw_rules_unref (fixture->rules);
  sw_sample_clear (&fixture->sample);
}

static void
build (Fixture *fixture)
{
  GError *error = NULL;
  g_clear_pointer (&fixture->space, sw_space_unref);
  g_autoptr (SwDeck) deck = sw_deck_new (fixture->sample.job);
  fixture->space = sw_space_new (deck, fixture->rules, &error);
  g_assert_no_error (error);
}

/* Tubes against concrete and plates, wanted at least 5 apart. */
static double
tube_to_deck (const SwBody *a, const SwBody *b, gpointer data)
{
  const SwBody *tube = b->kind == SW_BODY_TUBE ? b : a, *other = tube == b ? a : b;
  return tube->kind == SW_BODY_TUBE && other->kind <= SW_BODY_PLATE ? 5 : -1;
}

static double
least (Fixture *fixture, SwBodyKind kind)
{
  g_autoptr (GArray) meetings = sw_space_meetings (fixture->space, 5, tube_to_deck, NULL, NULL);
  double found = INFINITY;
  for (guint i = 0; i < meetings->len; i++)
    {
      const SwMeeting *meeting = &g_array_index (meetings, SwMeeting, i);
      if (sw_space_body (fixture->space, meeting->first)->kind == kind || sw_space_body (fixture->space, meeting->second)->kind == kind)
        found = fmin (found, meeting->clearance.mm);
    }
  return found;
}

/* A 20 tube on the centre line clears all but plates; beside the web its clearance is what the trapezoid gives:
 * the web leans 50 in 250, so at height h its face is 250 − h/5 from the centre line, measured at right angles. */
static void
test_web (Fixture *fixture, gconstpointer data)
{
  SwSampleVertex centre[] = { { 300, 300, SW_LEVEL_VOID, 100 }, { 1500, 300, SW_LEVEL_VOID, 100 } };
  SwId id = sw_sample_run (&fixture->sample, SW_SERVICE_POWER, 20, 0, centre, 2);
  build (fixture);
  g_assert_true (isinf (least (fixture, SW_BODY_RIB)));
  g_assert_true (isinf (least (fixture, SW_BODY_CLOSURE)));
  SwRun *run = (SwRun *) sw_sample_change (&fixture->sample, id);
  double away = 225; /* from the centre line: the face at height 100 is at 230 */
  for (guint i = 0; i < 2; i++)
    SW_LIST_AT (run->vertices, SwVertex, i).at.y = 300 + away;
  sw_sample_put (&fixture->sample, &run->record);
  build (fixture);
  sw_assert_near (least (fixture, SW_BODY_RIB), (230 - away) * cos (atan (50.0 / 250)) - 10, 0.02);
}

static void
test_crown_and_plate (Fixture *fixture, gconstpointer data)
{
  SwSampleVertex way[] = { { 300, 300, SW_LEVEL_VOID, 238 }, { 2500, 300, SW_LEVEL_VOID, 238 } };
  sw_sample_run (&fixture->sample, SW_SERVICE_POWER, 20, 0, way, 2);
  build (fixture);
  sw_assert_near (least (fixture, SW_BODY_CROWN), 250 - 238 - 10, 1e-6);
  g_assert_cmpfloat (least (fixture, SW_BODY_PLATE), <, 0); /* the plate at 1,650 */
}

/* Moving one run takes the other bodies over and gives the same as building anew. */
static void
test_update (Fixture *fixture, gconstpointer data)
{
  GError *error = NULL;
  SwSampleVertex way[] = { { 300, 300, SW_LEVEL_VOID, 100 }, { 2500, 300, SW_LEVEL_VOID, 100 } };
  SwId id = sw_sample_run (&fixture->sample, SW_SERVICE_POWER, 20, 0, way, 2);
  build (fixture);
  SwRun *run = (SwRun *) sw_sample_change (&fixture->sample, id);
  SW_LIST_AT (run->vertices, SwVertex, 1).at.y = 900;
  g_autoptr (SwEdit) edit = sw_edit_new ("Move");
  g_assert_true (sw_edit_put (edit, fixture->sample.job, sw_record_copy (&run->record), &error));
  sw_sample_put (&fixture->sample, &run->record);
  g_autoptr (SwDeck) deck = sw_deck_new (fixture->sample.job);
  g_autoptr (SwSpace) updated = sw_space_update (fixture->space, deck, edit, &error);
  build (fixture);
  guint first, n, anew, n_anew;
  sw_space_bodies_of (updated, id, &first, &n);
  sw_space_bodies_of (fixture->space, id, &anew, &n_anew);
  g_assert_cmpuint (n, >, 0);
  g_assert_cmpuint (n, ==, n_anew);
  for (guint i = 0; i < n; i++)
    g_assert_cmpmem (&sw_space_body (updated, first + i)->box, sizeof (SwBox3), &sw_space_body (fixture->space, anew + i)->box, sizeof (SwBox3));
  g_autoptr (GArray) some = sw_space_meetings (updated, 5, tube_to_deck, NULL, NULL), all = sw_space_meetings (fixture->space, 5, tube_to_deck, NULL, NULL);
  g_assert_cmpuint (some->len, >, 0);
  g_assert_cmpuint (some->len, ==, all->len);
  for (guint i = 0; i < some->len; i++)
    g_assert_cmpfloat (g_array_index (some, SwMeeting, i).clearance.mm, ==, g_array_index (all, SwMeeting, i).clearance.mm);
  g_assert_cmpfloat (least (fixture, SW_BODY_RIB), <, 0); /* it now goes through rib 1 */
}

/* What a drag sees is what the whole check sees of that run; a draft in the run's place sees it too. */
static void
test_local (Fixture *fixture, gconstpointer data)
{
  GError *error = NULL;
  SwSampleVertex way[] = { { 300, 300, SW_LEVEL_VOID, 100 }, { 2500, 900, SW_LEVEL_VOID, 100 } };
  SwId id = sw_sample_run (&fixture->sample, SW_SERVICE_POWER, 20, 0, way, 2);
  build (fixture);
  g_autoptr (GArray) all = sw_space_meetings (fixture->space, 5, tube_to_deck, NULL, NULL);
  g_autoptr (GArray) local = sw_space_meetings_of (fixture->space, &id, 1, 5, tube_to_deck, NULL);
  g_assert_cmpuint (all->len, >, 0);
  g_assert_cmpuint (all->len, ==, local->len);
  g_autoptr (GArray) drafts = g_array_new (FALSE, FALSE, sizeof (SwBody));
  g_assert_true (sw_space_bodies_for (fixture->space, sw_job_get (fixture->sample.job, id), drafts, &error));
  g_autoptr (GArray) drafted = sw_space_meetings_with (fixture->space, drafts, id, 5, tube_to_deck, NULL);
  g_assert_cmpuint (drafted->len, ==, all->len);
}

static void
test_light (Fixture *fixture, gconstpointer data)
{
  SwLight *light = (SwLight *) sw_sample_create (&fixture->sample, SW_TABLE_LIGHT);
  light->at = (SwPoint){ 1000, 300 };
  SwId id = sw_sample_put (&fixture->sample, &light->record);
  build (fixture);
  guint first, n;
  sw_space_bodies_of (fixture->space, id, &first, &n);
  g_assert_cmpuint (n, ==, 2);
  double side = sw_rules_value (fixture->rules, "light.clearances", "side_mm").value;
  SwBox3 heat = sw_space_body (fixture->space, first + 1)->box;
  sw_assert_near (heat.high.x - heat.low.x, 96 + 2 * side, 0.02);
  sw_assert_near (heat.low.z, 0, 1e-9);
}

static void
test_fault (Fixture *fixture, gconstpointer data)
{
  SwSampleVertex way[] = { { 0, 300, SW_LEVEL_VOID, 100 }, { 0, 300, SW_LEVEL_VOID, 100 } };
  SwId id = sw_sample_run (&fixture->sample, SW_SERVICE_POWER, 20, 0, way, 2);
  build (fixture);
  g_assert_cmpuint (sw_space_faults (fixture->space)->len, ==, 1);
  g_assert_cmpint (((SwSpaceFault *) sw_space_faults (fixture->space)->pdata[0])->owner, ==, id);
  g_assert_null (sw_space_route (fixture->space, id));
}

#define ADD(name, test) g_test_add ("/space/space/" name, Fixture, NULL, setup, test, teardown)

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  ADD ("web", test_web);
  ADD ("crown-and-plate", test_crown_and_plate);
  ADD ("update", test_update);
  ADD ("local", test_local);
  ADD ("light", test_light);
  ADD ("fault", test_fault);
  return g_test_run ();
}
