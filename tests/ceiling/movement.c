/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/tolerance.h"
#include "ceiling/layout.h"
#include "fixture.h"
#include "support.h"
#include <math.h>

/* Movement joints that end battens or primaries. Outside numbers: boards without a shadow line run 9.1 m (30 ft, ASTM C840). From the
 * rule set, from memory: ends stand over by 200, fixings keep 35 off the rib's edge and 30 off a batten's end at a joint. Ribs of the
 * sample deck have their middles at whole pitches; all places are worked out by hand from these. */

static void
set_ribs (SwFixture *fixture, double pitch, double mouth)
{
  SwProfile *profile = (SwProfile *) sw_sample_change (&fixture->sample, fixture->sample.profile);
  profile->pitch = pitch;
  profile->mouth = mouth;
  profile->crown = mouth - 100;
  sw_sample_put (&fixture->sample, &profile->record);
}

static double
coordinate (SwPoint p, gboolean y)
{
  return y ? p.y : p.x;
}

/* No member or board passes the place; noggins (battens beside it where they run along it) stand at both sides. */
static void
assert_cut_at (const SwCeiling *ceiling, double place, gboolean y, int kind, guint least)
{
  guint beside[2] = { 0 };
  for (guint i = 0; i < ceiling->members->len; i++)
    {
      const SwMember *m = &g_array_index (ceiling->members, SwCeilingMember, i).member;
      double a = coordinate (m->from, y), b = coordinate (m->to, y);
      g_assert_true (fmax (a, b) <= place + SW_TOUCH_MM || fmin (a, b) >= place - SW_TOUCH_MM);
      for (int side = 0; side < 2 && m->kind == kind; side++)
        beside[side] += fabs (a - b) < SW_TOUCH_MM && fabs (a - place - (side ? 19 : -19)) < SW_TOUCH_MM;
    }
  for (guint i = 0; i < ceiling->pieces->len; i++)
    {
      const SwCeilingPiece *piece = &g_array_index (ceiling->pieces, SwCeilingPiece, i);
      double low = INFINITY, high = -INFINITY;
      for (guint k = 0; k < piece->n; k++)
        {
          double at = coordinate (g_array_index (ceiling->corners, SwPoint, piece->first + k), y);
          low = fmin (low, at);
          high = fmax (high, at);
        }
      g_assert_true (high <= place + 1 || low >= place - 1);
    }
  g_assert_cmpuint (beside[0], >=, least);
  g_assert_cmpuint (beside[1], ==, beside[0]);
}

/* Every member of the kind that ends at the place is fixed `end` from there. */
static void
assert_fixed (const SwCeiling *ceiling, int kind, double place, double end)
{
  guint found = 0;
  for (guint i = 0; i < ceiling->members->len; i++)
    {
      const SwMember *m = &g_array_index (ceiling->members, SwCeilingMember, i).member;
      double nearest = INFINITY;
      if (m->kind != kind || (fabs (m->from.y - place) > SW_TOUCH_MM && fabs (m->to.y - place) > SW_TOUCH_MM))
        continue;
      for (guint k = 0; k < ceiling->fixings->len; k++)
        {
          const SwCeilingFixing *fixing = &g_array_index (ceiling->fixings, SwCeilingFixing, k);
          if (fixing->member == i)
            nearest = fmin (nearest, fabs (fixing->fixing.at.y - place));
        }
      sw_assert_near (nearest, end, 0.1);
      found++;
    }
  g_assert_cmpuint (found, >=, 4);
}

static void
assert_sound (const SwCeiling *ceiling)
{
  g_assert_cmpuint (sw_fixture_marks (ceiling, SW_CEILING_WIDE_FIELD) + sw_fixture_marks (ceiling, SW_CEILING_LARGE_FIELD)
                        + sw_fixture_marks (ceiling, SW_CEILING_CANTILEVER) + sw_fixture_marks (ceiling, SW_CEILING_UNSUPPORTED)
                        + sw_fixture_marks (ceiling, SW_CEILING_SPAN) + sw_fixture_marks (ceiling, SW_CEILING_JOINT_OFF_BATTEN), ==, 0);
}

static SwCeiling *
plan_long (SwFixture *fixture, double low, double high, SwBattenDirection direction)
{
  SwRoom *room = sw_fixture_rectangle (fixture, 500, low, 2900, high);
  room->direction = direction;
  SwId id = sw_sample_put (&fixture->sample, &room->record);
  return sw_fixture_plan (fixture, id, NULL);
}

/* Ribs 200 broad, 600 apart: 18.0 m from 600 on are even at 9,600, under the middle of a rib from 9,500 to 9,700. Left of the joint
 * fixings may lie from 9,535 to it: 32.5 from the end. */
static void
test_broad_ribs (void)
{
  for (int layered = 0; layered < 2; layered++)
    {
      SwFixture fixture = sw_fixture_new (6000, 19200, 0);
      set_ribs (&fixture, 600, 400);
      g_autoptr (SwCeiling) ceiling = plan_long (&fixture, 600, 18600, layered ? SW_DIRECTION_ALONG : SW_DIRECTION_ACROSS);
      g_assert_cmpuint (ceiling->parts->len, ==, 2);
      sw_assert_near (sw_fixture_joints (ceiling, SW_JOINT_MOVEMENT), 2.4, 0.001);
      for (guint i = 0; i < ceiling->joints->len; i++)
        if (g_array_index (ceiling->joints, SwJoint, i).kind == SW_JOINT_MOVEMENT)
          sw_assert_near (g_array_index (ceiling->joints, SwJoint, i).from.y, 9600, 0.01);
      assert_cut_at (ceiling, 9600, TRUE, layered ? SW_MEMBER_PERIMETER : SW_MEMBER_NOGGIN, layered ? 1 : 4);
      assert_fixed (ceiling, layered ? SW_MEMBER_PRIMARY : SW_MEMBER_BATTEN, 9600, 32.5);
      if (!layered)
        assert_sound (ceiling);
      g_assert_cmpuint (sw_fixture_marks (ceiling, SW_CEILING_WIDE_FIELD) + sw_fixture_marks (ceiling, SW_CEILING_CANTILEVER)
                            + sw_fixture_marks (ceiling, SW_CEILING_UNSUPPORTED), ==, 0);
      sw_fixture_clear (&fixture);
    }
}

/* From 450 on the even place is 9,450; the ribs next to it, 9,000 and 9,600, would leave a field of 9,450 or 9,150: too long. Of three
 * fields the even places are 6,450 and 12,450, the ribs next to them 6,600 and 12,600. */
static void
test_nearest_rib (void)
{
  SwFixture fixture = sw_fixture_new (6000, 19200, 0);
  set_ribs (&fixture, 600, 400);
  g_autoptr (SwCeiling) ceiling = plan_long (&fixture, 450, 18450, SW_DIRECTION_ACROSS);
  g_assert_cmpuint (ceiling->parts->len, ==, 3);
  sw_assert_near (sw_fixture_joints (ceiling, SW_JOINT_MOVEMENT), 4.8, 0.001);
  assert_cut_at (ceiling, 6600, TRUE, SW_MEMBER_NOGGIN, 4);
  assert_cut_at (ceiling, 12600, TRUE, SW_MEMBER_NOGGIN, 4);
  assert_fixed (ceiling, SW_MEMBER_BATTEN, 6600, 32.5);
  assert_fixed (ceiling, SW_MEMBER_BATTEN, 12600, 32.5);
  assert_sound (ceiling);
  sw_fixture_clear (&fixture);
}

/* Ribs of 100, 400 apart: under a rib the ends would be held 7.5 from their ends, too near; in the middle between two both stand over by
 * 200. 17.6 m from 600 on are even at 9,400, between the ribs at 9,200 and 9,600. */
static void
test_close_ribs (void)
{
  SwFixture fixture = sw_fixture_new (6000, 19200, 0);
  set_ribs (&fixture, 400, 300);
  g_autoptr (SwCeiling) ceiling = plan_long (&fixture, 600, 18200, SW_DIRECTION_ACROSS);
  g_assert_cmpuint (ceiling->parts->len, ==, 2);
  assert_cut_at (ceiling, 9400, TRUE, SW_MEMBER_NOGGIN, 4);
  assert_fixed (ceiling, SW_MEMBER_BATTEN, 9400, 200);
  assert_sound (ceiling);
  sw_fixture_clear (&fixture);
}

/* Ribs of 100, 600 apart hold both ends nowhere: between them an end stands over by 300 or more, under them it is held 7.5 from its end.
 * No joint is put in; the field is said to be too long. */
static void
test_no_place (void)
{
  SwFixture fixture = sw_fixture_new (6000, 19200, 0);
  g_autoptr (SwCeiling) ceiling = plan_long (&fixture, 600, 18600, SW_DIRECTION_ACROSS);
  g_assert_cmpuint (ceiling->parts->len, ==, 1);
  sw_assert_near (sw_fixture_joints (ceiling, SW_JOINT_MOVEMENT), 0, 1e-6);
  g_assert_cmpuint (sw_fixture_marks (ceiling, SW_CEILING_WIDE_FIELD), ==, 1);
  g_assert_cmpuint (sw_fixture_marks (ceiling, SW_CEILING_FIELD_UNHELD), ==, 1);
  g_assert_cmpuint (sw_fixture_marks (ceiling, SW_CEILING_FIELD_BLOCKED), ==, 0);
  g_assert_cmpuint (sw_fixture_marks (ceiling, SW_CEILING_CANTILEVER), ==, 0);
  sw_fixture_clear (&fixture);
}

/* Battens below primaries, 18.0 m along the ribs from 500 on: cut at 9,500, their ends resting on a primary at each side, whatever the ribs. */
static void
test_layers (void)
{
  SwFixture fixture = sw_fixture_new (19000, 6000, 0);
  SwRoom *room = sw_fixture_rectangle (&fixture, 500, 450, 18500, 2850);
  room->direction = SW_DIRECTION_ALONG;
  SwId id = sw_sample_put (&fixture.sample, &room->record);
  g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, id, NULL);
  guint beside = 0, resting = 0;
  g_assert_cmpuint (ceiling->parts->len, ==, 2);
  sw_assert_near (sw_fixture_joints (ceiling, SW_JOINT_MOVEMENT), 2.4, 0.001);
  assert_cut_at (ceiling, 9500, FALSE, SW_MEMBER_NOGGIN, 4);
  g_assert_cmpuint (sw_fixture_marks (ceiling, SW_CEILING_WIDE_FIELD) + sw_fixture_marks (ceiling, SW_CEILING_CANTILEVER)
                        + sw_fixture_marks (ceiling, SW_CEILING_UNSUPPORTED), ==, 0);
  for (guint i = 0; i < ceiling->members->len; i++)
    {
      const SwCeilingMember *m = &g_array_index (ceiling->members, SwCeilingMember, i);
      double from = m->member.from.x, to = m->member.to.x;
      if (m->member.kind == SW_MEMBER_PRIMARY && fabs (fabs (from - 9500) - 19) < SW_TOUCH_MM)
        beside++;
      if (m->member.kind != SW_MEMBER_BATTEN || (fabs (from - 9500) > SW_TOUCH_MM && fabs (to - 9500) > SW_TOUCH_MM))
        continue;
      double first = g_array_index (ceiling->places, double, m->first_place);
      double last = sw_point_distance (m->member.from, m->member.to) - g_array_index (ceiling->places, double, m->first_place + m->n_places - 1);
      sw_assert_near (fabs (from - 9500) < SW_TOUCH_MM ? first : last, 19, 0.1);
      resting++;
    }
  g_assert_cmpuint (beside, ==, 2);
  g_assert_cmpuint (resting, >=, 8);
  sw_fixture_clear (&fixture);
}

/* Battens across the ribs from 615 to 18,600: the joint stands at 8,990 from the wall, which is no multiple of the centres of 375. A grid
 * shifted by 42 goes on behind it all the same: battens at 657, 1,032 … whichever side they are on. */
static void
test_shifted_on (void)
{
  SwFixture fixture = sw_fixture_new (19200, 4800, 0);
  SwRoom *room = sw_fixture_rectangle (&fixture, 615, 500, 18600, 2900);
  room->batten_shift = 42;
  SwId id = sw_sample_put (&fixture.sample, &room->record);
  g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, id, NULL);
  g_assert_cmpuint (ceiling->parts->len, ==, 2);
  guint found = 0;
  for (double x = 657; x < 18600; x += 375)
    {
      gboolean there = FALSE;
      for (guint i = 0; i < ceiling->members->len; i++)
        {
          const SwMember *m = &g_array_index (ceiling->members, SwCeilingMember, i).member;
          there = there || (m->kind == SW_MEMBER_BATTEN && fabs (m->from.x - x) < 0.02 && fabs (m->to.x - x) < 0.02);
        }
      g_assert_true (there);
      found++;
    }
  g_assert_cmpuint (found, ==, 48);
  sw_fixture_clear (&fixture);
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/ceiling/movement/broad-ribs", test_broad_ribs);
  g_test_add_func ("/ceiling/movement/nearest-rib", test_nearest_rib);
  g_test_add_func ("/ceiling/movement/close-ribs", test_close_ribs);
  g_test_add_func ("/ceiling/movement/no-place", test_no_place);
  g_test_add_func ("/ceiling/movement/layers", test_layers);
  g_test_add_func ("/ceiling/movement/shifted-on", test_shifted_on);
  return g_test_run ();
}
