/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fixture.h"
#include "ceiling/layout.h"
#include "support.h"

SwFixture
sw_fixture_new (double length, double breadth, double direction)
{
  SwFixture fixture = { sw_sample_new (length, breadth, direction), sw_test_rules ("south-africa") };
  return fixture;
}

void
sw_fixture_clear (SwFixture *fixture)
{
  sw_sample_clear (&fixture->sample);
  sw_rules_unref (fixture->rules);
}

SwRoom *
sw_fixture_room (SwFixture *fixture, const SwPoint *points, guint n)
{
  SwRoom *room = (SwRoom *) sw_sample_create (&fixture->sample, SW_TABLE_ROOM);
  sw_list_set_points (&room->outline, points, n);
  return room;
}

SwRoom *
sw_fixture_rectangle (SwFixture *fixture, double x0, double y0, double x1, double y1)
{
  SwPoint corners[] = { { x0, y0 }, { x1, y0 }, { x1, y1 }, { x0, y1 } };
  return sw_fixture_room (fixture, corners, 4);
}

SwCeiling *
sw_fixture_plan (SwFixture *fixture, SwId room, const SwCeilingOptions *options)
{
  GError *error = NULL;
  g_autoptr (SwDeck) deck = sw_deck_new (fixture->sample.job);
  SwCeiling *ceiling = sw_ceiling_plan (deck, fixture->rules, (const SwRoom *) sw_job_get (fixture->sample.job, room), options,
                                        NULL, &error);
  g_assert_no_error (error);
  return ceiling;
}

const SwLayout *
sw_fixture_store (SwFixture *fixture, const SwCeiling *ceiling)
{
  GError *error = NULL;
  SwId room = ceiling->room->record.id;
  g_autoptr (SwEdit) edit = sw_edit_new ("Lay ceiling");
  g_assert_true (sw_ceiling_store (ceiling, edit, fixture->sample.job, &error));
  SwJob *next = sw_job_apply (fixture->sample.job, edit, TRUE, &error);
  g_assert_no_error (error);
  sw_job_unref (fixture->sample.job);
  fixture->sample.job = next;
  return sw_ceiling_layout_of (next, room);
}

guint
sw_fixture_marks (const SwCeiling *ceiling, SwCeilingMarkKind kind)
{
  guint count = 0;
  for (guint i = 0; i < ceiling->marks->len; i++)
    count += g_array_index (ceiling->marks, SwCeilingMark, i).kind == kind;
  return count;
}

guint
sw_fixture_members (const SwCeiling *ceiling, int kind)
{
  guint count = 0;
  for (guint i = 0; i < ceiling->members->len; i++)
    count += g_array_index (ceiling->members, SwCeilingMember, i).member.kind == kind;
  return count;
}

double
sw_fixture_joints (const SwCeiling *ceiling, int kind)
{
  double sum = 0;
  for (guint i = 0; i < ceiling->joints->len; i++)
    {
      const SwJoint *joint = &g_array_index (ceiling->joints, SwJoint, i);
      if (kind < 0 || joint->kind == kind)
        sum += sw_point_distance (joint->from, joint->to) / 1e3;
    }
  return sum;
}
