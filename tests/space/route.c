/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sample.h"
#include "space/route.h"
#include "support.h"
#include <math.h>
#include <string.h>

typedef struct
{
  SwSample sample;
  SwRules *rules;
  SwDeck *deck;
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
  sw_deck_unref (fixture->deck);
  sw_rules_unref (fixture->rules);
  sw_sample_clear (&fixture->sample);
}

static SwRoute *
route_of (Fixture *fixture, SwId run)
{
  GError *error = NULL;
  fixture->deck = sw_deck_new (fixture->sample.job);
  SwRoute *route = sw_route_new (fixture->deck, fixture->rules, (const SwRun *) sw_job_get (fixture->sample.job, run), &error);
  g_assert_no_error (error);
  return route;
}

static void
test_levels (Fixture *fixture, gconstpointer data)
{
  SwSampleVertex way[] = {
    { 500, 300, SW_LEVEL_VOID, 120 }, { 1500, 300, SW_LEVEL_BELOW, 4 }, { 2000, 300, SW_LEVEL_TOPPING, 30 }, { 2500, 300, SW_LEVEL_FLOOR, 2690 },
  };
  g_autoptr (SwRoute) route = route_of (fixture, sw_sample_run (&fixture->sample, SW_SERVICE_POWER, 20, 0, way, 4));
  sw_assert_near (route->axis[0].z, 120, 1e-9);
  sw_assert_near (route->axis[1].z, -14, 1e-9);
  sw_assert_near (route->axis[2].z, 280, 1e-9);
  sw_assert_near (route->axis[3].z, -10, 1e-9);
  for (guint i = 0; i < 4; i++)
    sw_assert_near (sw_route_level_value (fixture->deck, (SwPoint){ way[i].x, way[i].y }, 20, (SwLevel) way[i].level, route->axis[i].z), way[i].z, 1e-9);
}

/* A 6 m run at 1:60 falls 100 mm (arithmetic). */
static void
test_fall (Fixture *fixture, gconstpointer data)
{
  SwSampleVertex way[] = { { 0, 300, SW_LEVEL_VOID, 180 }, { 3000, 300, SW_LEVEL_FALL, 0 }, { 6000, 300, SW_LEVEL_FALL, 0 } };
  g_autoptr (SwRoute) route = route_of (fixture, sw_sample_run (&fixture->sample, SW_SERVICE_SOIL, 110, 60, way, 3));
  sw_assert_near (route->axis[1].z, 130, 1e-9);
  sw_assert_near (route->axis[2].z, 80, 1e-9);
  sw_assert_near (sw_route_plan_length (route), 6000, 1e-9);
  sw_assert_near (sw_route_at (route, 1500, NULL).z, 155, 1e-9);
  /* A 110 pipe has a 128 socket and a 3.2 wall (from memory, as the rule set says). */
  sw_assert_near (2 * route->socket, 128, 1e-9);
  sw_assert_near (route->bore, 103.6, 1e-9);
  sw_assert_near (sw_route_invert (route, 0), 180 - 51.8, 1e-9);
}

/* True angles in space: a quarter turn in plan, and a dip that turns four times. */
static void
test_turns (Fixture *fixture, gconstpointer data)
{
  SwSampleVertex way[] = { { 0, 300, SW_LEVEL_VOID, 100 }, { 1000, 300, SW_LEVEL_VOID, 100 }, { 1000, 1300, SW_LEVEL_VOID, 100 } };
  g_autoptr (SwRoute) quarter = route_of (fixture, sw_sample_run (&fixture->sample, SW_SERVICE_POWER, 20, 0, way, 3));
  sw_assert_near (sw_route_turns (quarter), 90, 1e-9);
  sw_deck_unref (fixture->deck);
  SwSampleVertex dip[] = {
    { 0, 300, SW_LEVEL_VOID, 113 }, { 500, 300, SW_LEVEL_VOID, 113 }, { 500 + 113 / tan (G_PI / 6), 300, SW_LEVEL_VOID, 0 }, { 1500, 300, SW_LEVEL_VOID, 0 },
  };
  g_autoptr (SwRoute) offset = route_of (fixture, sw_sample_run (&fixture->sample, SW_SERVICE_POWER, 20, 0, dip, 4));
  sw_assert_near (sw_route_turn (offset, 1), 30, 0.01);
  sw_assert_near (sw_route_turns (offset), 60, 0.02);
}

static void
test_faults (Fixture *fixture, gconstpointer data)
{
  GError *error = NULL;
  SwSampleVertex way[] = { { 0, 300, SW_LEVEL_VOID, 100 }, { 0, 300, SW_LEVEL_VOID, 100 } };
  SwId id = sw_sample_run (&fixture->sample, SW_SERVICE_POWER, 20, 0, way, 2);
  fixture->deck = sw_deck_new (fixture->sample.job);
  g_assert_null (sw_route_new (fixture->deck, fixture->rules, (const SwRun *) sw_job_get (fixture->sample.job, id), &error));
  sw_assert_error (error, SW_ERROR_INVALID, "points 1 and 2 are one place");
}

#define ADD(name, test) g_test_add ("/space/route/" name, Fixture, NULL, setup, test, teardown)

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  ADD ("levels", test_levels);
  ADD ("fall", test_fall);
  ADD ("turns", test_turns);
  ADD ("faults", test_faults);
  return g_test_run ();
}
