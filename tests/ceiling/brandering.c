/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/tolerance.h"
#include "ceiling/layout.h"
#include "ceiling/totals.h"
#include "fixture.h"
#include "support.h"
#include <math.h>
#include <string.h>

/* Members of a kind that run along y at x; the i-th's x. */
static GArray *
places_of (const SwCeiling *ceiling, int kind)
{
  GArray *places = g_array_new (FALSE, FALSE, sizeof (double));
  for (guint i = 0; i < ceiling->members->len; i++)
    {
      const SwMember *m = &g_array_index (ceiling->members, SwCeilingMember, i).member;
      if (m->kind == kind && fabs (m->from.x - m->to.x) < 0.1)
        g_array_append_val (places, m->from.x);
    }
  return places;
}

/* South African specification and derived: a room 3,600 long with one batten 38 off each wall, even centres of 387.33: two
 * battens at the walls and eight between. */
static void
test_even_room (void)
{
  SwFixture fixture = sw_fixture_new (6000, 6000, 0);
  SwRoom *room = sw_fixture_rectangle (&fixture, 500, 350, 4100, 2950);
  room->board_length = 3600;
  SwId id = sw_sample_put (&fixture.sample, &room->record);
  g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, id, NULL);
  g_autoptr (GArray) battens = places_of (ceiling, SW_MEMBER_BATTEN);
  g_autoptr (GArray) walls = places_of (ceiling, SW_MEMBER_PERIMETER);
  g_assert_cmpuint (battens->len, ==, 8);
  g_assert_cmpuint (walls->len, ==, 2);
  for (guint i = 0; i < battens->len; i++)
    sw_assert_near (g_array_index (battens, double, i), 500 + 57 + 387.3333 * (i + 1), 0.01);
  sw_assert_near (fmin (g_array_index (walls, double, 0), g_array_index (walls, double, 1)), 557, 0.01);
  sw_fixture_clear (&fixture);
}

/* Ribs every 600 from the bay's edge at 0: a batten from 350 to 2,950 crosses 600, 1,200, 1,800, 2,400 in their middles, and
 * both ends stand over 250 and 550: more than 200, so both walls get ledgers. */
static void
test_ribs_and_ledgers (void)
{
  SwFixture fixture = sw_fixture_new (6000, 6000, 0);
  SwId id = sw_sample_put (&fixture.sample, &sw_fixture_rectangle (&fixture, 500, 350, 4100, 2950)->record);
  g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, id, NULL);
  guint ledgers = 0;
  for (guint i = 0; i < ceiling->members->len; i++)
    {
      const SwCeilingMember *m = &g_array_index (ceiling->members, SwCeilingMember, i);
      ledgers += m->on_wall;
      if (m->member.kind != SW_MEMBER_BATTEN)
        continue;
      g_assert_cmpuint (m->n_places, ==, 4);
      g_assert_cmpuint (m->n_supports, ==, 6);
      sw_assert_near (m->span, 600, 0.01);
      sw_assert_near (m->cantilever, 0, 0.01);
      sw_assert_near (m->published, 1000, 1e-9); /* South African specification: 38 × 38 under gypsum */
    }
  g_assert_cmpuint (ledgers, ==, 2);
  for (guint i = 0; i < ceiling->fixings->len; i++)
    {
      double y = g_array_index (ceiling->fixings, SwCeilingFixing, i).fixing.at.y;
      sw_assert_near (y / 600, round (y / 600), 1e-6);
      g_assert_cmpint (g_array_index (ceiling->fixings, SwCeilingFixing, i).fixing.rib, ==, (int) round (y / 600));
    }
  sw_fixture_clear (&fixture);
}

/* Ends within 200 of their last rib need none: 450 to 2,550. */
static void
test_cantilever (void)
{
  SwFixture fixture = sw_fixture_new (6000, 6000, 0);
  SwId id = sw_sample_put (&fixture.sample, &sw_fixture_rectangle (&fixture, 500, 450, 4100, 2550)->record);
  g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, id, NULL);
  guint noggins = 0;
  for (guint i = 0; i < ceiling->members->len; i++)
    {
      const SwCeilingMember *m = &g_array_index (ceiling->members, SwCeilingMember, i);
      g_assert_false (m->on_wall);
      noggins += m->member.kind == SW_MEMBER_NOGGIN;
      if (m->member.kind == SW_MEMBER_BATTEN)
        sw_assert_near (m->cantilever, 150, 0.01);
    }
  g_assert_cmpuint (noggins, >, 10); /* the board wants them along the walls */
  sw_fixture_clear (&fixture);
}

/* A soffit that rises 10 mm a metre along x: the ceiling hangs level from its lowest point in the room, x = 500, and each packer
 * is what the plane says; over 25 mm a longer fixing, over 50 mm hangers (rule set). */
static void
test_packers (void)
{
  SwFixture fixture = sw_fixture_new (9000, 6000, 0);
  SwBay *bay = (SwBay *) sw_sample_change (&fixture.sample, fixture.sample.bay);
  bay->slope_x = 10;
  sw_sample_put (&fixture.sample, &bay->record);
  SwId id = sw_sample_put (&fixture.sample, &sw_fixture_rectangle (&fixture, 500, 450, 7500, 2550)->record);
  g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, id, NULL);
  sw_assert_near (ceiling->top, 5, 1e-6);
  for (guint i = 0; i < ceiling->fixings->len; i++)
    {
      const SwCeilingFixing *fixing = &g_array_index (ceiling->fixings, SwCeilingFixing, i);
      double packer = (fixing->fixing.at.x - 500) / 100;
      sw_assert_near (fixing->fixing.packer, packer, 0.006);
      g_assert_cmpint (fixing->long_fixing, ==, packer > 25);
      g_assert_cmpint (fixing->hanger, ==, packer > 50);
    }
  g_assert_cmpuint (sw_fixture_marks (ceiling, SW_CEILING_HANGER), >, 0);
  g_assert_cmpuint (sw_fixture_marks (ceiling, SW_CEILING_LONG_FIXING), >, 0);
  sw_fixture_clear (&fixture);
}

/* Two layers: primaries across the ribs at no more than what a 38 × 38 spans (1,000), battens along below them. */
static void
test_two_layers (void)
{
  SwFixture fixture = sw_fixture_new (6000, 6000, 0);
  SwRoom *room = sw_fixture_rectangle (&fixture, 500, 450, 5100, 2550);
  room->direction = SW_DIRECTION_ALONG;
  SwId id = sw_sample_put (&fixture.sample, &room->record);
  g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, id, NULL);
  guint primaries = 0, battens = 0;
  sw_assert_near (ceiling->primary_top - ceiling->top, 50, 1e-9);
  for (guint i = 0; i < ceiling->members->len; i++)
    {
      const SwCeilingMember *m = &g_array_index (ceiling->members, SwCeilingMember, i);
      gboolean along_x = fabs (m->member.from.y - m->member.to.y) < 0.1;
      if (m->member.kind == SW_MEMBER_PRIMARY)
        {
          g_assert_false (along_x);
          sw_assert_near (m->span, 600, 0.01);
          primaries++;
        }
      else if (m->member.kind == SW_MEMBER_BATTEN)
        {
          g_assert_true (along_x);
          g_assert_cmpfloat (m->span, <=, 1000);
          battens++;
        }
    }
  g_assert_cmpuint (primaries, ==, 6); /* (4,600 − 114) / 1,000: five bays */
  g_assert_cmpuint (battens, ==, 4);   /* (2,100 − 114) / 400: five bays, less the two at walls */
  for (guint i = 0; i < ceiling->fixings->len; i++)
    {
      guint member = g_array_index (ceiling->fixings, SwCeilingFixing, i).member;
      g_assert_cmpint (g_array_index (ceiling->members, SwCeilingMember, member).member.kind, ==, SW_MEMBER_PRIMARY);
    }
  sw_fixture_clear (&fixture);
}

static SwCeiling *
with_hatch (SwFixture *fixture, double length, double width, double x)
{
  SwHatch *hatch = (SwHatch *) sw_sample_create (&fixture->sample, SW_TABLE_HATCH);
  hatch->at = (SwPoint){ x, 1500 };
  hatch->length = length;
  hatch->width = width;
  sw_sample_put (&fixture->sample, &hatch->record);
  SwRoom *room = sw_fixture_rectangle (fixture, 500, 450, 5300, 2550);
  room->board_length = 2400;
  SwId id = sw_sample_put (&fixture->sample, &room->record);
  return sw_fixture_plan (fixture, id, NULL);
}

/* 350 × 600 fits between battens at 400 (362 clear) and needs a trimmer at each end; 600 × 600 cuts a batten and is trimmed on
 * all four sides, with the headers between trimmers that reach the next ribs. */
static void
test_hatches (void)
{
  SwFixture fixture = sw_fixture_new (6000, 6000, 0);
  g_autoptr (SwCeiling) narrow = with_hatch (&fixture, 350, 600, 2300);
  g_assert_cmpuint (sw_fixture_marks (narrow, SW_CEILING_HATCH_CUTS), ==, 0);
  g_assert_cmpuint (sw_fixture_members (narrow, SW_MEMBER_TRIMMER), ==, 2);
  sw_fixture_clear (&fixture);
  fixture = sw_fixture_new (6000, 6000, 0);
  g_autoptr (SwCeiling) wide = with_hatch (&fixture, 600, 600, 2500);
  g_assert_cmpuint (sw_fixture_marks (wide, SW_CEILING_HATCH_CUTS), ==, 1);
  g_assert_cmpuint (sw_fixture_members (wide, SW_MEMBER_TRIMMER), ==, 4);
  for (guint i = 0; i < wide->members->len; i++)
    {
      const SwCeilingMember *m = &g_array_index (wide->members, SwCeilingMember, i);
      double length = sw_point_distance (m->member.from, m->member.to);
      if (m->member.kind == SW_MEMBER_TRIMMER && fabs (m->member.from.y - m->member.to.y) < 1)
        sw_assert_near (length, 600, 0.1);
      else if (m->member.kind == SW_MEMBER_TRIMMER)
        g_assert_cmpfloat (length, >=, 600 + 2 * 38);
    }
  g_assert_cmpuint (sw_fixture_marks (wide, SW_CEILING_CANTILEVER) + sw_fixture_marks (wide, SW_CEILING_SPAN), ==, 0);
  sw_fixture_clear (&fixture);
}

/* The nearest that any member comes to the middle of the light. */
static double
nearest_to (const SwCeiling *ceiling, SwPoint at)
{
  double nearest = INFINITY;
  for (guint i = 0; i < ceiling->members->len; i++)
    {
      const SwMember *m = &g_array_index (ceiling->members, SwCeilingMember, i).member;
      SwPoint along = sw_point_sub (m->to, m->from);
      double t = CLAMP (sw_point_dot (sw_point_sub (at, m->from), along) / sw_point_dot (along, along), 0, 1);
      nearest = fmin (nearest, sw_point_distance (at, sw_point_lerp (m->from, m->to, t)) - m->width / 2);
    }
  return nearest;
}

/* Battens at 400: a light of 100 over one is told to move by the shorter way until it clears the batten: (38 + 100) / 2 − 20. Where the
 * room or the light says so, the batten is cut and trimmed instead, all timber 50 off the hole (common practice: 100 / 2 + 50), and
 * the cut ends are carried. */
static void
test_light (void)
{
  SwFixture fixture = sw_fixture_new (6000, 6000, 0);
  SwLight *light = (SwLight *) sw_sample_create (&fixture.sample, SW_TABLE_LIGHT);
  light->at = (SwPoint){ 500 + 1200 + 20, 1500 };
  light->cut_out = 100;
  light->body = 90;
  sw_sample_put (&fixture.sample, &light->record);
  SwRoom *room = sw_fixture_rectangle (&fixture, 500, 450, 5300, 2550);
  room->board_length = 2400;
  SwId id = sw_sample_put (&fixture.sample, &room->record);
  g_autoptr (SwCeiling) told = sw_fixture_plan (&fixture, id, NULL);
  g_assert_cmpuint (sw_fixture_marks (told, SW_CEILING_LIGHT_CUTS), ==, 1);
  for (guint i = 0; i < told->marks->len; i++)
    if (g_array_index (told->marks, SwCeilingMark, i).kind == SW_CEILING_LIGHT_CUTS)
      sw_assert_near (g_array_index (told->marks, SwCeilingMark, i).value, 49, 0.01);
  g_assert_cmpuint (sw_fixture_members (told, SW_MEMBER_TRIMMER), ==, 0);
  for (int by = 0; by < 2; by++)
    {
      SwLight *own = (SwLight *) sw_sample_change (&fixture.sample, light->record.id);
      own->trims = by == 0;
      sw_sample_put (&fixture.sample, &own->record);
      SwRoom *changed = (SwRoom *) sw_sample_change (&fixture.sample, id);
      changed->lights = by == 0 ? SW_LIGHTS_MOVE : SW_LIGHTS_TRIM;
      sw_sample_put (&fixture.sample, &changed->record);
      g_autoptr (SwCeiling) trimmed = sw_fixture_plan (&fixture, id, NULL);
      g_assert_cmpuint (sw_fixture_members (trimmed, SW_MEMBER_TRIMMER), ==, 4);
      g_assert_cmpuint (sw_fixture_marks (trimmed, SW_CEILING_LIGHT_TRIMMED), ==, 1);
      g_assert_cmpuint (sw_fixture_marks (trimmed, SW_CEILING_LIGHT_CUTS) + sw_fixture_marks (trimmed, SW_CEILING_CANTILEVER)
                            + sw_fixture_marks (trimmed, SW_CEILING_SPAN) + sw_fixture_marks (trimmed, SW_CEILING_UNSUPPORTED), ==, 0);
      g_assert_cmpfloat (nearest_to (trimmed, own->at), >=, 100 - 0.01);
    }
  sw_fixture_clear (&fixture);
}

/* Boards without a shadow line run 9.1 m (30 ft, ASTM C840) and no more: 18.0 m are two fields of 9.0 m with a movement joint across the
 * room, and each field has a batten at the joint. A hatch in the middle moves the joint off it; where no place within the limit is clear
 * there is one field more. */
static void
test_movement (void)
{
  for (int hatch = 0; hatch < 2; hatch++)
    {
      SwFixture fixture = sw_fixture_new (19000, 6000, 0);
      SwId id = sw_sample_put (&fixture.sample, &sw_fixture_rectangle (&fixture, 500, 450, 18500, 2850)->record);
      if (hatch)
        {
          SwHatch *record = (SwHatch *) sw_sample_create (&fixture.sample, SW_TABLE_HATCH);
          record->at = (SwPoint){ 9500, 1500 };
          sw_sample_put (&fixture.sample, &record->record);
        }
      g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, id, NULL);
      g_assert_cmpuint (ceiling->parts->len, ==, hatch ? 3 : 2);
      sw_assert_near (sw_fixture_joints (ceiling, SW_JOINT_MOVEMENT), hatch ? 4.8 : 2.4, 0.001);
      g_assert_cmpuint (sw_fixture_marks (ceiling, SW_CEILING_WIDE_FIELD) + sw_fixture_marks (ceiling, SW_CEILING_CANTILEVER)
                            + sw_fixture_marks (ceiling, SW_CEILING_UNSUPPORTED) + sw_fixture_marks (ceiling, SW_CEILING_JOINT_OFF_BATTEN), ==, 0);
      for (guint i = 0; i < ceiling->joints->len; i++)
        {
          const SwJoint *joint = &g_array_index (ceiling->joints, SwJoint, i);
          if (joint->kind == SW_JOINT_MOVEMENT && !hatch)
            sw_assert_near (joint->from.x, 9500, 0.01);
          else if (joint->kind == SW_JOINT_MOVEMENT)
            g_assert_cmpfloat (fabs (joint->from.x - 9500), >=, 300 + 100);
        }
      sw_fixture_clear (&fixture);
    }
}

/* A batten of 38 × 38 under ribs 1,400 apart spans more than the published 1,000. */
static void
test_span_mark (void)
{
  SwFixture fixture = sw_fixture_new (9000, 9000, 0);
  SwProfile *profile = (SwProfile *) sw_sample_change (&fixture.sample, fixture.sample.profile);
  profile->pitch = 1400;
  profile->mouth = 1200;
  profile->crown = 1000;
  sw_sample_put (&fixture.sample, &profile->record);
  SwId id = sw_sample_put (&fixture.sample, &sw_fixture_rectangle (&fixture, 500, 500, 4100, 7000)->record);
  g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, id, NULL);
  g_assert_cmpuint (sw_fixture_marks (ceiling, SW_CEILING_SPAN), >, 0);
  for (guint i = 0; i < ceiling->marks->len; i++)
    {
      const SwCeilingMark *mark = &g_array_index (ceiling->marks, SwCeilingMark, i);
      if (mark->kind != SW_CEILING_SPAN)
        continue;
      sw_assert_near (mark->value, 1400, 0.01);
      sw_assert_near (mark->limit, 1000, 0.01);
      g_assert_cmpstr (mark->rule_id, ==, "brandering.spans[38x38].gypsum_6.4_mm");
    }
  sw_fixture_clear (&fixture);
}

/* Two bays with their voids at right angles meet at x = 6000, where a column stands: the battens along that line end at the column between
 * ribs, and a batten on its face carries them. */
static void
test_seam_at_column (void)
{
  SwFixture fixture = sw_fixture_new (6000, 6000, 0);
  SwBay *bay = (SwBay *) sw_sample_create (&fixture.sample, SW_TABLE_BAY);
  sw_sample_rectangle (&bay->outline, 6000, 0, 12000, 6000);
  bay->profile = fixture.sample.profile;
  bay->direction = 90;
  sw_sample_put (&fixture.sample, &bay->record);
  SwColumn *column = (SwColumn *) sw_sample_create (&fixture.sample, SW_TABLE_COLUMN);
  sw_sample_rectangle (&column->outline, 5850, 2300, 6250, 2700);
  sw_sample_put (&fixture.sample, &column->record);
  SwId id = sw_sample_put (&fixture.sample, &sw_fixture_rectangle (&fixture, 2000, 500, 9300, 5050)->record);
  g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, id, NULL);
  g_assert_cmpuint (ceiling->parts->len, ==, 2);
  g_assert_cmpuint (sw_fixture_marks (ceiling, SW_CEILING_CANTILEVER) + sw_fixture_marks (ceiling, SW_CEILING_UNSUPPORTED), ==, 0);
  sw_assert_near (sw_fixture_joints (ceiling, SW_JOINT_MOVEMENT), 4.55 - 0.4, 0.01);
  sw_fixture_clear (&fixture);
}

/* All fixings of the stored layout, those side by side counted each. */
static guint
stored_fixings (SwFixture *fixture, const SwCeiling *ceiling)
{
  g_autoptr (GArray) counts = sw_ceiling_fixing_counts (sw_fixture_store (fixture, ceiling));
  guint sum = 0;
  for (guint i = 0; i < counts->len; i++)
    sum += g_array_index (counts, guint, i);
  return sum;
}

/* By hand, as the rule set has boards of 9.5 mm at 7 kg/m², 1 kg/m² of fittings, timber at 480 kg/m³ and a push of 100 N: primaries of 38 × 76
 * that are 797 apart and held each 600 carry battens of 38 × 38 at 375 below them, 480 × 0.038 × 0.038 / 0.375 = 1.848 kg/m². So
 * ((8 + 1.848) × 0.797 + 480 × 0.038 × 0.076) × 0.6 × 9.81 N = 54.4 N, 154.4 N with the push, which is more than the 150 N that one
 * fixing is designed for; with 697 between them it is 148.6 N. Were the battens not weighed, both would be
 * below 150 N. */
static void
test_fixing_load (void)
{
  for (int close = 0; close < 2; close++)
    {
      double centres = close ? 697 : 797;
      double load = ((8 + 480 * 0.038 * 0.038 / 0.375) * centres / 1000 + 480 * 0.038 * 0.076) * 0.6 * 9.81 + 100;
      SwFixture fixture = sw_fixture_new (9000, 9000, 0);
      SwRoom *room = sw_fixture_rectangle (&fixture, 500, 450, 500 + 3 * centres + 2 * 57, 4450);
      room->direction = SW_DIRECTION_ALONG;
      room->primary_centres = 800;
      room->primary_depth = 76;
      SwId id = sw_sample_put (&fixture.sample, &room->record);
      g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, id, NULL);
      guint marks = sw_fixture_marks (ceiling, SW_CEILING_FIXING), doubled = 0;
      for (guint i = 0; i < ceiling->fixings->len; i++)
        {
          const SwCeilingFixing *fixing = &g_array_index (ceiling->fixings, SwCeilingFixing, i);
          g_assert_cmpuint (fixing->count, >=, 1);
          g_assert_cmpfloat (fixing->load, ==, 150);
          doubled += fixing->count == 2;
        }
      g_assert_cmpuint (doubled, ==, marks);
      for (guint i = 0; i < ceiling->members->len; i++)
        {
          const SwCeilingMember *member = &g_array_index (ceiling->members, SwCeilingMember, i);
          double each = member->member.kind == SW_MEMBER_PRIMARY ? (load - 100) / 600 : (8 * 0.375 + 480 * 0.038 * 0.038) * 9.81 / 1e3;
          if (member->member.kind == SW_MEMBER_PRIMARY || member->member.kind == SW_MEMBER_BATTEN)
            sw_assert_near (member->check.load, each, 1e-4);
        }
      for (guint i = 0; i < ceiling->marks->len; i++)
        if (g_array_index (ceiling->marks, SwCeilingMark, i).kind == SW_CEILING_FIXING)
          sw_assert_near (g_array_index (ceiling->marks, SwCeilingMark, i).value, load, 0.1);
      g_assert_true (close ? marks == 0 : marks > 0);
      g_assert_cmpuint (stored_fixings (&fixture, ceiling), ==, ceiling->fixings->len + doubled);
      GError *error = NULL;
      g_autoptr (SwTotals) totals = sw_totals_new (ceiling, NULL, &error);
      g_assert_no_error (error);
      g_assert_cmpint (sw_totals_sum (totals, SW_TOTAL_FIXINGS), ==, (gint64) (ceiling->fixings->len + doubled) * SW_QUANTITY_ONE);
      sw_fixture_clear (&fixture);
    }
}

/* The price list's row for the room's sheet says what the board stands; without a row, or with 0 in it, the rule set does: 400 across
 * for gypsum of 9.5 mm and 9.1 m between movement joints. */
static void
test_price_limits (void)
{
  SwFixture fixture = sw_fixture_new (11400, 6000, 0);
  SwId id = sw_sample_put (&fixture.sample, &sw_fixture_rectangle (&fixture, 500, 450, 8500, 2850)->record);
  g_autoptr (SwCeiling) plain = sw_fixture_plan (&fixture, id, NULL);
  SwPrice *price = (SwPrice *) sw_sample_create (&fixture.sample, SW_TABLE_PRICE);
  sw_text_set (&price->record.tag, "board-gypsum-9.5-3000x1200");
  price->centres = 300;
  price->field = 5000;
  price->wet = SW_WET_YES;
  price->fire_minutes = 45;
  SwId row = sw_sample_put (&fixture.sample, &price->record);
  const SwJob *job = fixture.sample.job;
  const SwRoom *room = (const SwRoom *) sw_job_get (job, id);
  SwRuleValue wet, fire;
  g_assert_cmpuint (plain->parts->len, ==, 1);
  sw_assert_near (g_array_index (plain->parts, SwCeilingPart, 0).centres, 375, 0.01);
  g_assert_true (sw_ceiling_board_price (job, room) == (const SwPrice *) sw_job_get (job, row));
  g_assert_true (sw_ceiling_board_limit (fixture.rules, job, room, "wet", &wet) && wet.value == 1);
  g_assert_true (sw_ceiling_board_limit (fixture.rules, job, room, "fire_min", &fire) && fire.value == 45);
  g_assert_cmpstr (fire.source, ==, "the board's row in the price list");
  g_autoptr (SwCeiling) limited = sw_fixture_plan (&fixture, id, NULL);
  g_assert_cmpuint (limited->parts->len, ==, 2); /* two fields of 4 m */
  sw_assert_near (sw_fixture_joints (limited, SW_JOINT_MOVEMENT), 2.4, 0.001);
  sw_assert_near (g_array_index (limited->parts, SwCeilingPart, 0).centres, 300, 0.01);
  SwPrice *other = (SwPrice *) sw_sample_change (&fixture.sample, row);
  other->centres = 0;
  other->field = 0;
  other->wet = SW_WET_AS_KIND;
  other->fire_minutes = 0;
  sw_sample_put (&fixture.sample, &other->record);
  g_autoptr (SwCeiling) again = sw_fixture_plan (&fixture, id, NULL);
  sw_assert_near (g_array_index (again->parts, SwCeilingPart, 0).centres, 375, 0.01);
  g_assert_true (sw_ceiling_board_limit (fixture.rules, fixture.sample.job, room, "wet", &wet) && wet.value == 0);
  sw_fixture_clear (&fixture);
}

/* ---- layouts ---- */

static SwCeiling *
store (SwFixture *fixture, SwId room)
{
  SwCeiling *ceiling = sw_fixture_plan (fixture, room, NULL);
  sw_fixture_store (fixture, ceiling);
  return ceiling;
}

static gboolean
is_stale (const SwFixture *fixture, SwId room)
{
  g_autoptr (SwDeck) deck = sw_deck_new (fixture->sample.job);
  return sw_ceiling_layout_is_stale (sw_ceiling_layout_of (fixture->sample.job, room), deck, fixture->rules);
}

static void
test_layout (void)
{
  SwFixture fixture = sw_fixture_new (6000, 6000, 0);
  SwId id = sw_sample_put (&fixture.sample, &sw_fixture_rectangle (&fixture, 500, 450, 4100, 2550)->record);
  g_autoptr (SwCeiling) ceiling = store (&fixture, id);
  const SwLayout *layout = sw_ceiling_layout_of (fixture.sample.job, id);
  g_autoptr (SwDeck) deck = sw_deck_new (fixture.sample.job);
  g_autoptr (SwCeiling) back = sw_ceiling_recall (layout, deck, fixture.rules);
  g_assert_cmpuint (back->members->len, ==, ceiling->members->len);
  g_assert_cmpuint (back->fixings->len, ==, ceiling->fixings->len);
  g_assert_cmpuint (back->joints->len, ==, ceiling->joints->len);
  g_assert_cmpuint (back->corners->len, ==, ceiling->corners->len);
  g_assert_cmpuint (back->n_sheets, ==, ceiling->n_sheets);
  for (guint i = 0; i < back->pieces->len; i++)
    {
      const SwCeilingPiece *a = &g_array_index (ceiling->pieces, SwCeilingPiece, i);
      const SwCeilingPiece *b = &g_array_index (back->pieces, SwCeilingPiece, i);
      g_assert_cmpint (a->piece.sheet, ==, b->piece.sheet);
      g_assert_cmpuint (a->n, ==, b->n);
      sw_assert_near (a->area, b->area, 100);
    }
  g_assert_cmpuint (back->parts->len, ==, ceiling->parts->len);
  g_assert_cmpuint (back->marks->len, ==, ceiling->marks->len);
  /* Stored again, it takes its own place. */
  G_GNUC_UNUSED g_autoptr (SwCeiling) again = store (&fixture, id);
  g_assert_cmpuint (sw_job_count (fixture.sample.job, SW_TABLE_LAYOUT), ==, 1);
  sw_fixture_clear (&fixture);
}

/* What is read makes it stale; names and what lies beside the room do not. */
static void
test_stale (void)
{
  GError *error = NULL;
  SwFixture fixture = sw_fixture_new (9000, 9000, 0);
  SwId id = sw_sample_put (&fixture.sample, &sw_fixture_rectangle (&fixture, 500, 450, 4100, 2550)->record);
  G_GNUC_UNUSED g_autoptr (SwCeiling) ceiling = store (&fixture, id);
  g_assert_false (is_stale (&fixture, id));
  SwRoom *room = (SwRoom *) sw_sample_change (&fixture.sample, id);
  sw_text_set (&room->name, "Store");
  sw_sample_put (&fixture.sample, &room->record);
  SwLight *light = (SwLight *) sw_sample_create (&fixture.sample, SW_TABLE_LIGHT);
  light->at = (SwPoint){ 8000, 8000 };
  SwId far = sw_sample_put (&fixture.sample, &light->record);
  g_assert_false (is_stale (&fixture, id));
  light = (SwLight *) sw_sample_change (&fixture.sample, far);
  light->at = (SwPoint){ 2000, 2000 };
  sw_sample_put (&fixture.sample, &light->record);
  g_assert_true (is_stale (&fixture, id));
  G_GNUC_UNUSED g_autoptr (SwCeiling) second = store (&fixture, id);
  g_assert_false (is_stale (&fixture, id));
  SwBay *bay = (SwBay *) sw_sample_change (&fixture.sample, fixture.sample.bay);
  bay->first_rib = 20;
  sw_sample_put (&fixture.sample, &bay->record);
  g_assert_true (is_stale (&fixture, id));
  G_GNUC_UNUSED g_autoptr (SwCeiling) third = store (&fixture, id);
  g_autoptr (SwRules) changed = sw_rules_load_text (
    "south-africa", "[brandering.setout]\nsource=me\nconfidence=common-practice\nwall_face_mm=40\n", "mine", &error);
  g_assert_no_error (error);
  g_autoptr (SwDeck) deck = sw_deck_new (fixture.sample.job);
  const SwLayout *layout = sw_ceiling_layout_of (fixture.sample.job, id);
  g_assert_false (sw_ceiling_layout_is_stale (layout, deck, fixture.rules));
  g_assert_true (sw_ceiling_layout_is_stale (layout, deck, changed));
  sw_fixture_clear (&fixture);
}

/* The same room twice is the same, byte for byte. */
static void
test_same_twice (void)
{
  SwFixture fixture = sw_fixture_new (9000, 9000, 33);
  const SwPoint points[] = { { 200, 1000 }, { 3200, 2900 }, { 1200, 6100 }, { -900, 4800 } };
  SwId id = sw_sample_put (&fixture.sample, &sw_fixture_room (&fixture, points, 4)->record);
  g_autoptr (SwCeiling) first = store (&fixture, id);
  g_autoptr (SwCeiling) second = sw_fixture_plan (&fixture, id, NULL);
  g_assert_cmpmem (first->corners->data, first->corners->len * sizeof (SwPoint), second->corners->data,
                   second->corners->len * sizeof (SwPoint));
  g_assert_cmpuint (first->joints->len, ==, second->joints->len);
  for (guint i = 0; i < first->joints->len; i++) /* field by field: the struct ends in padding */
    {
      const SwJoint *a = &g_array_index (first->joints, SwJoint, i), *b = &g_array_index (second->joints, SwJoint, i);
      g_assert_cmpmem (&a->from, sizeof a->from, &b->from, sizeof b->from);
      g_assert_cmpmem (&a->to, sizeof a->to, &b->to, sizeof b->to);
      g_assert_cmpint (a->kind, ==, b->kind);
    }
  g_assert_cmpuint (first->members->len, ==, second->members->len);
  for (guint i = 0; i < first->members->len; i++)
    {
      const SwMember *a = &g_array_index (first->members, SwCeilingMember, i).member;
      const SwMember *b = &g_array_index (second->members, SwCeilingMember, i).member;
      g_assert_cmpmem (&a->from, sizeof a->from, &b->from, sizeof b->from);
      g_assert_cmpmem (&a->to, sizeof a->to, &b->to, sizeof b->to);
    }
  sw_fixture_clear (&fixture);
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/ceiling/brandering/even-room", test_even_room);
  g_test_add_func ("/ceiling/brandering/ribs-and-ledgers", test_ribs_and_ledgers);
  g_test_add_func ("/ceiling/brandering/cantilever", test_cantilever);
  g_test_add_func ("/ceiling/brandering/packers", test_packers);
  g_test_add_func ("/ceiling/brandering/two-layers", test_two_layers);
  g_test_add_func ("/ceiling/brandering/hatches", test_hatches);
  g_test_add_func ("/ceiling/brandering/light", test_light);
  g_test_add_func ("/ceiling/brandering/movement", test_movement);
  g_test_add_func ("/ceiling/brandering/span-mark", test_span_mark);
  g_test_add_func ("/ceiling/brandering/seam-at-column", test_seam_at_column);
  g_test_add_func ("/ceiling/brandering/fixing-load", test_fixing_load);
  g_test_add_func ("/ceiling/brandering/price-limits", test_price_limits);
  g_test_add_func ("/ceiling/layout/round-trip", test_layout);
  g_test_add_func ("/ceiling/layout/stale", test_stale);
  g_test_add_func ("/ceiling/layout/same-twice", test_same_twice);
  return g_test_run ();
}
