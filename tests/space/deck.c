/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sample.h"
#include "space/deck.h"
#include "space/section.h"
#include "support.h"
#include <math.h>
#include <string.h>

static SwRules *
load_rules (void)
{
  return sw_test_rules ("south-africa");
}

/* Six metres by 4.2 with first rib on the edge: ribs at 0, 600 … 4200, so seven voids of 500. */
static void
test_voids (void)
{
  for (int direction = 0; direction < 360; direction += 45)
    {
      SwSample sample = sw_sample_new (6000, 4200, direction);
      g_autoptr (SwDeck) deck = sw_deck_new (sample.job);
      const SwDeckBay *bay = sw_deck_bay (deck, 0);
      g_assert_cmpuint (bay->voids->len, ==, 7);
      g_assert_cmpuint (bay->ribs->len, ==, 8);
      sw_assert_near (g_array_index (bay->voids, SwVoid, 0).v, 300, 0.02);
      sw_assert_near (g_array_index (bay->ribs, SwRib, 7).high, 4200, 0.02);
      const SwReach *reach = sw_deck_reach_at (bay, 3, 3000);
      g_assert_nonnull (reach);
      sw_assert_near (reach->low, 150, 0.02);
      sw_assert_near (reach->high, 5850, 0.02);
      g_assert_cmpuint (bay->plates->len, ==, 7 * 3); /* 1,500, 3,000 and 4,500 past the closure */
      SwPoint world = sw_deck_from_bay (bay, (SwPoint){ 2000, 900 });
      SwPoint back = sw_deck_to_bay (bay, world);
      sw_assert_near (back.x, 2000, 1e-6);
      sw_assert_near (back.y, 900, 1e-6);
      g_assert_cmpint (sw_deck_void_at (bay, 900), ==, 1);
      g_assert_cmpint (sw_deck_void_at (bay, 610), ==, -1);
      g_assert_cmpint (sw_deck_rib_at (bay, 610), ==, 1);
      g_assert_true (sw_deck_bay_at (deck, world) == bay);
      sw_sample_clear (&sample);
    }
}

/* Width of the trough at height z: mouth − (mouth − crown) z / depth: 420 at 200 (derived: linear). */
static void
test_width (void)
{
  SwSample sample = sw_sample_new (6000, 4200, 0);
  g_autoptr (SwDeck) deck = sw_deck_new (sample.job);
  sw_assert_near (sw_deck_void_width (sw_deck_bay (deck, 0), 0, 200), 420, 1e-9);
  sw_sample_clear (&sample);
}

static void
test_opening (void)
{
  SwSample sample = sw_sample_new (6000, 4200, 0);
  SwOpening *opening = (SwOpening *) sw_sample_create (&sample, SW_TABLE_OPENING);
  sw_sample_rectangle (&opening->outline, 2000, 600, 3000, 1200);
  sw_sample_put (&sample, &opening->record);
  g_autoptr (SwDeck) deck = sw_deck_new (sample.job);
  const SwDeckBay *bay = sw_deck_bay (deck, 0);
  g_assert_cmpuint (g_array_index (bay->voids, SwVoid, 0).n_reaches, ==, 1);
  g_assert_cmpuint (g_array_index (bay->voids, SwVoid, 1).n_reaches, ==, 2);
  const SwReach *before = sw_deck_reach_at (bay, 1, 1000), *after = sw_deck_reach_at (bay, 1, 4000);
  sw_assert_near (before->high, 2000 - 150, 1e-6);
  sw_assert_near (before->solid_high, 2000, 1e-6);
  sw_assert_near (after->low, 3000 + 150, 1e-6);
  g_assert_null (sw_deck_reach_at (bay, 1, 2500));
  sw_sample_clear (&sample);
}

static void
test_solid_zone (void)
{
  SwSample sample = sw_sample_new (6000, 4200, 0);
  SwSolidZone *zone = (SwSolidZone *) sw_sample_create (&sample, SW_TABLE_SOLID);
  sw_sample_rectangle (&zone->outline, -10, -10, 1000, 4300);
  sw_sample_put (&sample, &zone->record);
  g_autoptr (SwDeck) deck = sw_deck_new (sample.job);
  const SwReach *reach = sw_deck_reach_at (sw_deck_bay (deck, 0), 2, 3000);
  sw_assert_near (reach->low, 1000, 1e-6);
  g_assert_null (sw_deck_reach_at (sw_deck_bay (deck, 0), 2, 500));
  sw_sample_clear (&sample);
}

/* An L: the upper voids are shorter, and the void that the step cuts goes only where its whole mouth fits. */
static void
test_notch (void)
{
  SwSample sample = sw_sample_new (6000, 4200, 0);
  SwBay *bay = (SwBay *) sw_sample_change (&sample, sample.bay);
  SwPoint corners[] = { { 0, 0 }, { 6000, 0 }, { 6000, 2000 }, { 3000, 2000 }, { 3000, 4200 }, { 0, 4200 } };
  sw_list_set_points (&bay->outline, corners, 6);
  sw_sample_put (&sample, &bay->record);
  g_autoptr (SwDeck) deck = sw_deck_new (sample.job);
  const SwDeckBay *local = sw_deck_bay (deck, 0);
  g_assert_nonnull (sw_deck_reach_at (local, 2, 5000)); /* mouth 1,250–1,750 */
  g_assert_null (sw_deck_reach_at (local, 3, 5000));    /* 1,850–2,350 is cut by the step at 2,000 */
  g_assert_nonnull (sw_deck_reach_at (local, 3, 2000));
  g_assert_null (sw_deck_reach_at (local, 5, 5000));
  sw_sample_clear (&sample);
}

static void
measure (SwSample *sample, int kind, int number, int second, SwPoint at, double value)
{
  SwMeasure *measure = (SwMeasure *) sw_sample_create (sample, SW_TABLE_MEASURE);
  measure->of = sample->bay;
  measure->kind = kind;
  measure->number = number;
  measure->second = second;
  measure->at = at;
  measure->value = value;
  sw_sample_put (sample, &measure->record);
}

static void
test_measured (void)
{
  SwSample sample = sw_sample_new (6000, 4200, 0);
  measure (&sample, SW_MEASURE_RIB, 1, 0, (SwPoint){ 0, 0 }, 620);
  measure (&sample, SW_MEASURE_DEPTH, 1, 0, (SwPoint){ 0, 0 }, 240);
  measure (&sample, SW_MEASURE_PLATE, 2, 1, (SwPoint){ 0, 0 }, 1530);
  measure (&sample, SW_MEASURE_LEVEL, 0, 0, (SwPoint){ 0, 0 }, 2700);
  measure (&sample, SW_MEASURE_LEVEL, 0, 0, (SwPoint){ 6000, 0 }, 2688);
  measure (&sample, SW_MEASURE_LEVEL, 0, 0, (SwPoint){ 0, 4200 }, 2700);
  g_autoptr (SwDeck) deck = sw_deck_new (sample.job);
  const SwDeckBay *bay = sw_deck_bay (deck, 0);
  sw_assert_near (g_array_index (bay->voids, SwVoid, 0).high, 570, 1e-9);
  g_assert_true (g_array_index (bay->voids, SwVoid, 0).measured);
  g_assert_false (g_array_index (bay->voids, SwVoid, 4).measured);
  sw_assert_near (g_array_index (bay->voids, SwVoid, 0).depth, 240, 1e-9);
  gboolean moved = FALSE;
  for (guint i = 0; i < bay->plates->len; i++)
    {
      const SwDeckPlate *plate = &g_array_index (bay->plates, SwDeckPlate, i);
      if (plate->void_index == 1 && plate->number == 1)
        {
          moved = plate->measured;
          sw_assert_near (plate->u, 150 + 1530, 1e-9);
        }
    }
  g_assert_true (moved);
  sw_assert_near (sw_deck_soffit (bay, (SwPoint){ 3000, 1000 }), -6, 1e-6);
  sw_sample_clear (&sample);
}

static void
test_release (void)
{
  SwSample sample = sw_sample_new (6000, 4200, 0);
  SwPlate *plate = (SwPlate *) sw_sample_create (&sample, SW_TABLE_PLATE);
  plate->bay = sample.bay;
  plate->void_number = 3;
  plate->plate_number = 2;
  sw_text_set (&plate->released_by, "The engineer");
  sw_text_set (&plate->released_on, "2026-03-02");
  SwId id = sw_sample_put (&sample, &plate->record);
  for (int complete = 0; complete < 2; complete++)
    {
      g_autoptr (SwDeck) deck = sw_deck_new (sample.job);
      int released = 0;
      for (guint i = 0; i < sw_deck_bay (deck, 0)->plates->len; i++)
        released += g_array_index (sw_deck_bay (deck, 0)->plates, SwDeckPlate, i).released;
      g_assert_cmpint (released, ==, complete); /* a release without a reference is none */
      plate = (SwPlate *) sw_sample_change (&sample, id);
      sw_text_set (&plate->reference, "SE-17");
      sw_sample_put (&sample, &plate->record);
    }
  sw_sample_clear (&sample);
}

static void
test_address (void)
{
  SwSample sample = sw_sample_new (6000, 4200, 0);
  SwGridline *line = (SwGridline *) sw_sample_create (&sample, SW_TABLE_GRIDLINE);
  sw_text_set (&line->record.tag, "C");
  line->from = (SwPoint){ 150, 0 };
  line->to = (SwPoint){ 150, 4200 };
  sw_sample_put (&sample, &line->record);
  g_autoptr (SwDeck) deck = sw_deck_new (sample.job);
  SwAddress address = sw_deck_address (deck, (SwPoint){ 1990, 900 });
  g_autofree char *text = sw_address_text (&address);
  g_assert_cmpstr (text, ==, "bay 1, void 2, 340 past plate 1, 1.84 m from grid C");
  address = sw_deck_address (deck, (SwPoint){ 1000, 600 });
  g_assert_false (address.over_void);
  g_assert_false (address.has_plate);
  sw_assert_near (address.past_plate, 850, 1e-9);
  sw_sample_clear (&sample);
}

/* Developed width of the reference trough, derived: side 254.95, factor 1.6832; drill strip 2 on a 100 rib with 25 + 8 + 16. */
static void
test_section (void)
{
  SwSample sample = sw_sample_new (6000, 4200, 0);
  g_autoptr (SwRules) rules = load_rules ();
  const SwProfile *profile = (const SwProfile *) sw_job_get (sample.job, sample.profile);
  SwSection section = sw_section_of (profile, rules);
  sw_assert_near (section.side, 254.951, 1e-3);
  sw_assert_near (section.developed / profile->pitch, 1.6832, 1e-4);
  sw_assert_near (section.drill_strip, 2, 1e-9);
  sw_assert_near (section.void_area, 112500, 1e-9);
  sw_assert_near (section.saving, 112500 / (600.0 * 325), 1e-9);
  sw_assert_near (section.developed_concrete, 100, 1e-9);
  /* 909.9 mm of 0.8 sheet each 600, at the rule set's density of steel */
  sw_assert_near (section.sheet_mass, 909.902 * 0.8 / 600 / 1000 * 7850, 0.01);
  sw_sample_clear (&sample);
}

static void
test_saving (void)
{
  SwSample sample = sw_sample_new (6000, 4200, 0);
  g_autoptr (SwDeck) deck = sw_deck_new (sample.job);
  SwSaving saving = sw_section_saving (deck);
  sw_assert_near (saving.deck_area, 25.2, 1e-9);
  sw_assert_near (saving.gross, 25.2 * 0.1125 / 0.6, 1e-9);
  sw_assert_near (saving.net, 7 * 0.1125 * 5.7, 1e-9);
  sw_assert_near (saving.solid, 25.2 * 0.325, 1e-9);
  sw_sample_clear (&sample);
}

static void
test_ceiling (void)
{
  SwSample sample = sw_sample_new (6000, 4200, 0);
  SwBay *bay = (SwBay *) sw_sample_change (&sample, sample.bay);
  bay->slope_x = -2; /* 2 mm per m: 12 lower at the far end */
  sw_sample_put (&sample, &bay->record);
  SwRoom *room = (SwRoom *) sw_sample_create (&sample, SW_TABLE_ROOM);
  sw_sample_rectangle (&room->outline, 1000, 1000, 9000, 3000); /* sticks out of the bay */
  SwId id = sw_sample_put (&sample, &room->record);
  g_autoptr (SwDeck) deck = sw_deck_new (sample.job);
  const SwRoom *kept = (const SwRoom *) sw_job_get (sample.job, id);
  sw_assert_near (sw_deck_lowest_soffit (deck, kept), -12, 1e-9);
  sw_assert_near (sw_deck_ceiling_back (deck, kept), -12 - 38, 1e-9);
  sw_assert_near (sw_deck_ceiling_face (deck, kept), -12 - 38 - 9.5, 1e-9);
  g_assert_true (sw_deck_room_at (deck, (SwPoint){ 5000, 2000 }) == kept);
  sw_sample_clear (&sample);
}

/* A bay that falls away behind a room's wall, which lies on its side, does not lower the room's ceiling; one over a corner of it does. */
static void
test_bay_beside (void)
{
  SwSample sample = sw_sample_new (6000, 4200, 0);
  SwBay *beside = (SwBay *) sw_sample_create (&sample, SW_TABLE_BAY);
  beside->profile = ((const SwBay *) sw_job_get (sample.job, sample.bay))->profile;
  sw_sample_rectangle (&beside->outline, 6000, 0, 9000, 4200);
  beside->level = -9;
  sw_sample_put (&sample, &beside->record);
  SwRoom *room = (SwRoom *) sw_sample_create (&sample, SW_TABLE_ROOM);
  sw_sample_rectangle (&room->outline, 0, 0, 6000, 4200);
  SwId id = sw_sample_put (&sample, &room->record);
  g_autoptr (SwDeck) deck = sw_deck_new (sample.job);
  sw_assert_near (sw_deck_lowest_soffit (deck, (const SwRoom *) sw_job_get (sample.job, id)), 0, 1e-9);
  SwRoom *wider = (SwRoom *) sw_sample_change (&sample, id);
  sw_sample_rectangle (&wider->outline, 0, 0, 6100, 4200);
  sw_sample_put (&sample, &wider->record);
  g_autoptr (SwDeck) after = sw_deck_new (sample.job);
  sw_assert_near (sw_deck_lowest_soffit (after, (const SwRoom *) sw_job_get (sample.job, id)), -9, 1e-9);
  sw_sample_clear (&sample);
}

/* Places in a wall of 110 between two rooms belong to the nearer one, the first where both are as near. */
static void
test_room_beside (void)
{
  SwSample sample = sw_sample_new (6000, 4200, 0);
  SwRoom *one = (SwRoom *) sw_sample_create (&sample, SW_TABLE_ROOM);
  sw_sample_rectangle (&one->outline, 0, 0, 2945, 4200);
  SwId first = sw_sample_put (&sample, &one->record);
  SwRoom *two = (SwRoom *) sw_sample_create (&sample, SW_TABLE_ROOM);
  sw_sample_rectangle (&two->outline, 3055, 0, 6000, 4200);
  SwId second = sw_sample_put (&sample, &two->record);
  g_autoptr (SwDeck) deck = sw_deck_new (sample.job);
  const struct { double x, reach; SwId room; } cases[] = {
    { 3000, 55, first }, { 3001, 110, second }, { 2999, 110, first }, { 3000, 54, 0 }, { 2000, 0, first }, { 3100, 110, second },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const SwRoom *room = sw_deck_room_beside (deck, (SwPoint){ cases[i].x, 2000 }, cases[i].reach);
      g_assert_cmpuint (room != NULL ? room->record.id : 0, ==, cases[i].room);
    }
  sw_sample_clear (&sample);
}

/* An outline over two rooms of 3.0 × 4.0 m is the one's that has most of it, wherever its middle lies: an L of 1.0 × 0.5 m in the right room
 * and 0.6 × 2.0 m in the left one. */
static void
test_room_under (void)
{
  SwSample sample = sw_sample_new (6000, 4200, 0);
  SwRoom *left = (SwRoom *) sw_sample_create (&sample, SW_TABLE_ROOM);
  sw_sample_rectangle (&left->outline, 0, 0, 3000, 4000);
  SwId left_id = sw_sample_put (&sample, &left->record);
  SwRoom *right = (SwRoom *) sw_sample_create (&sample, SW_TABLE_ROOM);
  sw_sample_rectangle (&right->outline, 3000, 0, 6000, 4000);
  SwId right_id = sw_sample_put (&sample, &right->record);
  const SwPoint ell[] = { { 2400, 500 }, { 4000, 500 }, { 4000, 1000 }, { 3000, 1000 }, { 3000, 2500 }, { 2400, 2500 } };
  const SwPoint most_right[] = { { 2800, 500 }, { 4000, 500 }, { 4000, 1000 }, { 2800, 1000 } };
  const SwPoint outside[] = { { 7000, 500 }, { 8000, 500 }, { 8000, 1000 } };
  g_autoptr (SwDeck) deck = sw_deck_new (sample.job);
  g_assert_true (sw_deck_room_under (deck, ell, G_N_ELEMENTS (ell)) == (const SwRoom *) sw_job_get (sample.job, left_id));
  g_assert_true (sw_deck_room_under (deck, most_right, G_N_ELEMENTS (most_right)) == (const SwRoom *) sw_job_get (sample.job, right_id));
  g_assert_null (sw_deck_room_under (deck, outside, G_N_ELEMENTS (outside)));
  sw_sample_clear (&sample);
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/space/deck/voids", test_voids);
  g_test_add_func ("/space/deck/width", test_width);
  g_test_add_func ("/space/deck/opening", test_opening);
  g_test_add_func ("/space/deck/solid-zone", test_solid_zone);
  g_test_add_func ("/space/deck/notch", test_notch);
  g_test_add_func ("/space/deck/measured", test_measured);
  g_test_add_func ("/space/deck/release", test_release);
  g_test_add_func ("/space/deck/address", test_address);
  g_test_add_func ("/space/deck/section", test_section);
  g_test_add_func ("/space/deck/saving", test_saving);
  g_test_add_func ("/space/deck/ceiling", test_ceiling);
  g_test_add_func ("/space/deck/bay-beside", test_bay_beside);
  g_test_add_func ("/space/deck/room-beside", test_room_beside);
  g_test_add_func ("/space/deck/room-under", test_room_under);
  return g_test_run ();
}
