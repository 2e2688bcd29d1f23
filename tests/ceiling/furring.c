/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/layout.h"
#include "ceiling/totals.h"
#include "fixture.h"
#include "support.h"
#include <math.h>

/* Battens of thin steel: held, checked and counted by the second moment that their maker states. */

/* A row of the price list for the profile, with its second moment in mm⁴. */
static void
add_profile (SwFixture *fixture, const char *code, double inertia)
{
  const SwRecord *record = sw_job_find (fixture->sample.job, code);
  SwPrice *price = (SwPrice *) (record != NULL ? sw_sample_change (&fixture->sample, record->id) : sw_sample_create (&fixture->sample, SW_TABLE_PRICE));
  sw_text_set (&price->record.tag, code);
  price->inertia = inertia;
  sw_sample_put (&fixture->sample, &price->record);
}

/* The even room of 3,600 mm, whose battens stand at 387.33, in steel. */
static SwId
steel_room (SwFixture *fixture, double width, double depth)
{
  *fixture = sw_fixture_new (6000, 6000, 0);
  SwRoom *room = sw_fixture_rectangle (fixture, 500, 350, 4100, 2950);
  room->board_length = 3600;
  room->material = SW_BATTENS_STEEL;
  room->batten_width = width;
  room->batten_depth = depth;
  return sw_sample_put (&fixture->sample, &room->record);
}

static const SwCeilingMember *
first_batten (const SwCeiling *ceiling)
{
  for (guint i = 0; i < ceiling->members->len; i++)
    if (g_array_index (ceiling->members, SwCeilingMember, i).member.kind == SW_MEMBER_BATTEN)
      return &g_array_index (ceiling->members, SwCeilingMember, i);
  g_assert_not_reached ();
}

/* By hand, 5wL⁴/384EI and M = wL²/8: a hat of 38 × 22, its strip 2 (38 + 22) wide and 0.5 thick of 7,850 kg/m³: 0.471 kg/m. Board and
 * fittings 8 kg/m² at 387.33: w = 0.03502 N/mm. I = 5,000 mm⁴, E = 200,000, ribs at 600: sag 0.0591 mm, M 1,576 Nmm, at most 22 mm from
 * the axis: 6.93 N/mm² of 140 / 1.67 = 83.8. Sag of L/360 would allow 1,828 mm, clips stand at most 1,200 apart. */
static void
test_checked (void)
{
  SwFixture fixture;
  SwId id = steel_room (&fixture, 38, 22);
  add_profile (&fixture, "batten-steel-38x22", 5000);
  g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, id, NULL);
  const SwCeilingMember *batten = first_batten (ceiling);
  sw_assert_near (batten->span, 600, 0.01);
  sw_assert_near (batten->check.load, 0.03502, 1e-5);
  sw_assert_near (batten->check.deflection, 0.0591, 1e-4);
  sw_assert_near (batten->check.moment, 1576, 1);
  sw_assert_near (batten->check.stress, 6.93, 0.01);
  sw_assert_near (batten->span_limit, 1200, 0.01);
  g_assert_cmpuint (sw_fixture_marks (ceiling, SW_CEILING_UNKNOWN_SECTION), ==, 0);
  g_assert_cmpuint (sw_fixture_marks (ceiling, SW_CEILING_SPAN), ==, 0);
  g_assert_cmpuint (sw_fixture_marks (ceiling, SW_CEILING_STRESS), ==, 0);
  sw_fixture_clear (&fixture);
}

/* The same with I = 60: sag allows (384 · 200,000 · 60 / (5 · 0.03502 · 360))^⅓ = 418 mm, and 22 M / I = 578 N/mm². Of twice the sag
 * allowed nobody is told while the second moment is not known, but that it is not. */
static void
test_weak_and_unknown (void)
{
  SwFixture fixture;
  SwId id = steel_room (&fixture, 38, 22);
  g_autoptr (SwCeiling) unknown = sw_fixture_plan (&fixture, id, NULL);
  g_assert_cmpuint (sw_fixture_marks (unknown, SW_CEILING_UNKNOWN_SECTION), ==, 1);
  g_assert_cmpuint (sw_fixture_marks (unknown, SW_CEILING_SPAN), ==, 0);
  g_assert_cmpuint (sw_fixture_marks (unknown, SW_CEILING_STRESS), ==, 0);
  g_assert_true (isfinite (first_batten (unknown)->check.deflection));
  sw_fixture_store (&fixture, unknown);
  add_profile (&fixture, "primary-steel-38x22", 60); /* whichever row of the profile says it */
  g_autoptr (SwDeck) deck = sw_deck_new (fixture.sample.job);
  const SwLayout *layout = sw_ceiling_layout_of (fixture.sample.job, id);
  g_assert_true (sw_ceiling_layout_is_stale (layout, deck, fixture.rules));
  g_autoptr (SwCeiling) weak = sw_fixture_plan (&fixture, id, NULL);
  g_assert_cmpuint (sw_fixture_marks (weak, SW_CEILING_UNKNOWN_SECTION), ==, 0);
  g_assert_cmpuint (sw_fixture_marks (weak, SW_CEILING_SPAN), >, 0);
  g_assert_cmpuint (sw_fixture_marks (weak, SW_CEILING_STRESS), >, 0);
  sw_assert_near (first_batten (weak)->span_limit, 418, 0.5);
  sw_assert_near (first_batten (weak)->check.stress, 578, 0.5);
  sw_fixture_clear (&fixture);
}

/* ASTM C840: furring of 1-1/4 in takes a joint, of timber 1-1/2 in. */
static void
test_joint_width (void)
{
  static const struct { int material; double width; guint marks; } cases[] = {
    { SW_BATTENS_STEEL, 35, 0 }, { SW_BATTENS_STEEL, 30, 1 }, { SW_BATTENS_TIMBER, 35, 1 }, { SW_BATTENS_TIMBER, 38, 0 },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      SwFixture fixture;
      SwId id = steel_room (&fixture, cases[i].width, 38);
      SwRoom *room = (SwRoom *) sw_sample_change (&fixture.sample, id);
      room->material = cases[i].material;
      sw_sample_put (&fixture.sample, &room->record);
      g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, id, NULL);
      g_assert_cmpuint (sw_fixture_marks (ceiling, SW_CEILING_NARROW_BATTEN), ==, cases[i].marks);
      sw_fixture_clear (&fixture);
    }
}

/* A clip at each rib below a batten or primary, and wherever a batten crosses a primary; a primary's own weight and that of the battens
 * below it are those of steel. Both profiles have to be known. */
static void
test_clips (void)
{
  for (int layered = 0; layered < 2; layered++)
    {
      SwFixture fixture;
      SwId id = steel_room (&fixture, 38, 22);
      SwRoom *room = (SwRoom *) sw_sample_change (&fixture.sample, id);
      room->direction = layered ? SW_DIRECTION_ALONG : SW_DIRECTION_ACROSS;
      room->primary_depth = 38;
      sw_sample_put (&fixture.sample, &room->record);
      add_profile (&fixture, "batten-steel-38x22", 5000);
      g_autoptr (SwCeiling) half = sw_fixture_plan (&fixture, id, NULL);
      g_assert_cmpuint (sw_fixture_marks (half, SW_CEILING_UNKNOWN_SECTION), ==, (guint) layered);
      add_profile (&fixture, "primary-steel-38x38", 20000);
      g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, id, NULL);
      g_assert_cmpuint (sw_fixture_marks (ceiling, SW_CEILING_UNKNOWN_SECTION), ==, 0);
      GError *error = NULL;
      g_autoptr (SwTotals) totals = sw_totals_new (ceiling, NULL, &error);
      g_assert_no_error (error);
      guint crossings = 0, fixings = 0;
      for (guint i = 0; i < ceiling->fixings->len; i++)
        fixings += g_array_index (ceiling->fixings, SwCeilingFixing, i).count;
      for (guint i = 0; i < ceiling->members->len; i++)
        for (guint k = 0; layered && k < ceiling->members->len; k++)
          {
            const SwMember *a = &g_array_index (ceiling->members, SwCeilingMember, i).member, *b = &g_array_index (ceiling->members, SwCeilingMember, k).member;
            gboolean below = a->kind != SW_MEMBER_PRIMARY && a->kind != SW_MEMBER_NOGGIN && fabs (a->from.y - a->to.y) < 0.1 && a->top == ceiling->top;
            crossings += below && b->kind == SW_MEMBER_PRIMARY && b->from.x > fmin (a->from.x, a->to.x) && b->from.x < fmax (a->from.x, a->to.x)
                         && a->from.y >= fmin (b->from.y, b->to.y) && a->from.y <= fmax (b->from.y, b->to.y);
          }
      g_assert_true (!layered || crossings > 10);
      g_assert_cmpint (sw_totals_sum (totals, SW_TOTAL_CLIPS), ==, (gint64) (fixings + crossings) * SW_QUANTITY_ONE);
      for (guint i = 0; i < ceiling->members->len; i++)
        {
          const SwCeilingMember *member = &g_array_index (ceiling->members, SwCeilingMember, i);
          double centres = g_array_index (ceiling->parts, SwCeilingPart, 0).centres;
          if (member->member.kind == SW_MEMBER_PRIMARY) /* 2 (38 + 38) · 0.5 · 7,850: 0.5966 kg/m */
            sw_assert_near (member->check.load, ((8 + 0.471 / centres * 1000) * member->centres / 1000 + 0.5966) * 9.81 / 1000, 1e-5);
        }
      sw_fixture_clear (&fixture);
    }
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/ceiling/furring/checked", test_checked);
  g_test_add_func ("/ceiling/furring/weak-and-unknown", test_weak_and_unknown);
  g_test_add_func ("/ceiling/furring/joint-width", test_joint_width);
  g_test_add_func ("/ceiling/furring/clips", test_clips);
  return g_test_run ();
}
