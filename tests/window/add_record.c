/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fixture.h"
#include "job/records.h"
#include "window/tools/add_record.h"

static const SwRecord *
added (Fixture *fixture, SwTable table, const char *picked)
{
  GError *error = NULL;
  SwId id = 0;
  SwJob *job = sw_desk_job (fixture->desk);
  g_autoptr (SwEdit) edit = sw_add_record_edit (job, table, picked != NULL ? sw_job_find (job, picked) : NULL, &id, &error);
  g_assert_no_error (error);
  g_assert_true (sw_desk_do (fixture->desk, edit, &error));
  g_assert_no_error (error);
  return sw_job_get (sw_desk_job (fixture->desk), id);
}

/* The bay's own profile is what a new one begins with: the data sheet differs in a few values only. */
static void
test_profile (Fixture *fixture, gconstpointer data)
{
  guint n = fixture_count (fixture, SW_TABLE_PROFILE);
  const SwBay *bay = (const SwBay *) fixture_last (fixture, SW_TABLE_BAY);
  g_autofree char *tag = g_strdup (bay->record.tag);
  double pitch = ((const SwProfile *) sw_job_get (sw_desk_job (fixture->desk), bay->profile))->pitch;
  SwId of_bay = bay->profile;
  const SwProfile *profile = (const SwProfile *) added (fixture, SW_TABLE_PROFILE, tag);
  g_assert_cmpuint (fixture_count (fixture, SW_TABLE_PROFILE), ==, n + 1);
  g_assert_cmpint (profile->record.id, !=, of_bay);
  g_assert_cmpfloat (profile->pitch, ==, pitch);
  g_assert_cmpstr (profile->record.tag, !=, "");
}

static void
test_circuit (Fixture *fixture, gconstpointer data)
{
  const SwCircuit *circuit = (const SwCircuit *) added (fixture, SW_TABLE_CIRCUIT, NULL);
  g_assert_cmpfloat (circuit->volts, ==, 230);
  GError *error = NULL;
  g_assert_true (sw_desk_undo (fixture->desk, &error));
  g_assert_no_error (error);
  g_assert_cmpuint (fixture_count (fixture, SW_TABLE_CIRCUIT), ==, 0);
}

static void
test_hold_point (Fixture *fixture, gconstpointer data)
{
  const SwRecord *room = fixture_last (fixture, SW_TABLE_ROOM);
  const SwHoldPoint *point = (const SwHoldPoint *) added (fixture, SW_TABLE_HOLD_POINT, NULL);
  g_assert_cmpint (point->room, ==, room->id);
  /* Without a room there is nothing to hold. */
  g_autoptr (SwJob) empty = sw_job_new ();
  GError *error = NULL;
  SwId id;
  g_assert_null (sw_add_record_edit (empty, SW_TABLE_HOLD_POINT, NULL, &id, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "belongs to a room");
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add ("/window/add-record/profile", Fixture, NULL, fixture_set_up, test_profile, fixture_tear_down);
  g_test_add ("/window/add-record/circuit", Fixture, NULL, fixture_set_up, test_circuit, fixture_tear_down);
  g_test_add ("/window/add-record/hold-point", Fixture, NULL, fixture_set_up, test_hold_point, fixture_tear_down);
  return g_test_run ();
}
