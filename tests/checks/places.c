/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Allowed places of lights. The outside judge is the check: a light is put at random places of the example, and it is allowed where no
 * check of lights finds it too near to anything. */
#include "checks/places.h"
#include "base/random.h"
#include "base/tolerance.h"
#include "estimate/lay_rooms.h"
#include "tiny.h"
#include <string.h>

#define EDGE_MM 0.4 /* nearer to the edge the outline's roundness decides */

/* The rooms of bays A and C that take little time; those that stay open have no battens either. */
static const char *const rooms[] = { "room 1", "room 2", "room 3", "room 7", "room 8" };

static SwEdit *
lay_all (SwJob *job, SwRules *rules)
{
  GError *error = NULL;
  SwEdit *edit = sw_edit_new ("lay");
  SwId ids[G_N_ELEMENTS (rooms)];
  SwLayWanted all = { ids, G_N_ELEMENTS (rooms), FALSE };
  for (gsize i = 0; i < G_N_ELEMENTS (rooms); i++)
    ids[i] = sw_job_find (job, rooms[i])->id;
  g_autoptr (SwDeck) deck = sw_deck_new (job);
  GArray *laid = sw_lay_rooms (deck, rules, &all, edit, NULL, &error);
  g_assert_no_error (error);
  g_array_unref (laid);
  return edit;
}

/* What the checks say of the light that keeps it off its place; NULL for nothing. Plates that are released and what was not measured
 * are no bars, drivers and hoods no matter of the place. */
static const SwSnag *
barred_by (const SwSnags *snags)
{
  static const char *const rules[] = { "light-service", "light-heat", "light-rib", "light-crown", "light-plate", "light-batten",
                                       "light-joint", "light-hatch", "light-wall", "light-light", NULL };
  for (guint i = 0; i < sw_snags_n (snags); i++)
    if (g_strv_contains (rules, sw_snags_get (snags, i)->rule) && strcmp (sw_snags_get (snags, i)->variant, "released") != 0)
      return sw_snags_get (snags, i);
  return NULL;
}

/* Rules that may be behind a bar. */
static const char *const bar_rules[SW_N_LIGHT_BARS] = {
  [SW_LIGHT_BAR_EDGE] = "light-wall",   [SW_LIGHT_BAR_CONCRETE] = "light-rib", [SW_LIGHT_BAR_CROWN] = "light-crown",
  [SW_LIGHT_BAR_PLATE] = "light-plate", [SW_LIGHT_BAR_BATTEN] = "light-batten", [SW_LIGHT_BAR_SERVICE] = "light-service",
  [SW_LIGHT_BAR_HEAT] = "light-heat",   [SW_LIGHT_BAR_LIGHT] = "light-light",  [SW_LIGHT_BAR_JOINT] = "light-joint",
  [SW_LIGHT_BAR_HATCH] = "light-hatch", [SW_LIGHT_BAR_WALL] = "light-wall",
};

static gboolean
finds (const SwSnags *snags, const char *rule)
{
  for (guint i = 0; i < sw_snags_n (snags); i++)
    if (strcmp (sw_snags_get (snags, i)->rule, rule) == 0)
      return TRUE;
  return FALSE;
}

/* What the checks find of the light in the job. */
static SwSnags *
snags_of (SwSpace *space, const SwLight *light)
{
  g_autoptr (SwEdit) edit = sw_edit_new ("light");
  g_assert_true (sw_edit_put (edit, sw_space_job (space), sw_record_copy (&light->record), NULL));
  g_autoptr (SwJob) job = sw_job_apply (sw_space_job (space), edit, TRUE, NULL);
  g_autoptr (SwDeck) deck = sw_deck_update (sw_space_deck (space), job, edit);
  g_autoptr (SwSpace) after = sw_space_update (space, deck, edit, NULL);
  return sw_checks_of (after, NULL, &light->record.id, 1);
}

/* What stands just so high that it grazes a round thing above it: there a hair of height is much in plan. */
static gboolean
is_graze (SwSpace *space, SwLight *light)
{
  light->recess += 0.1;
  g_autoptr (SwSnags) higher = snags_of (space, light);
  light->recess -= 0.1;
  return barred_by (higher) != NULL;
}

static void
judge (SwSpace *space, const SwLightPlaces *places, SwLight *light, guint counts[SW_N_LIGHT_BARS])
{
  SwLightPlace place = sw_light_places_ask (places, light->at);
  if (fabs (place.mm) < EDGE_MM)
    return;
  g_autoptr (SwSnags) snags = snags_of (space, light);
  const SwSnag *found = barred_by (snags);
  gboolean agree = (found == NULL) == (place.bar == SW_LIGHT_BAR_NONE);
  counts[place.bar]++;
  gboolean same = place.bar == SW_LIGHT_BAR_NONE || finds (snags, bar_rules[place.bar]);
  if (!(agree && same) && is_graze (space, light))
    return;
  if (!(agree && same))
    g_test_message ("%g %g: %s by %g, the check says %s %s %g", light->at.x, light->at.y, sw_light_bar_text (place.bar), place.mm,
                    found != NULL ? found->rule : "nothing", found != NULL ? found->variant : "", found != NULL ? found->missing_mm : NAN);
  g_assert_true (agree && same);
}

/* A light that stands where the answer sends it is clear. */
static void
follow (const SwLightPlaces *places, const SwLight *light)
{
  SwLightPlace place = sw_light_places_ask (places, light->at);
  if (!isfinite (place.mm))
    return;
  SwLightPlace there = sw_light_places_ask (places, sw_point_add (light->at, place.move));
  g_assert_cmpint (there.bar, ==, SW_LIGHT_BAR_NONE);
  if (place.mm < 0)
    g_assert_cmpfloat (sw_point_length (place.move), <=, -place.mm + 1.5);
}

static void
judge_room (SwSpace *space, const SwRoom *room, SwLight *light, SwRandom *random, guint counts[SW_N_LIGHT_BARS])
{
  GError *error = NULL;
  g_autoptr (SwLightPlaces) places = sw_check_light_places (space, room, light, NULL, &error);
  g_assert_no_error (error);
  SwBox box = sw_record_box (&room->record);
  for (int i = 0; i < sw_test_rounds (45); i++)
    {
      light->at = (SwPoint){ sw_grid_round (sw_random_double (random, box.low.x, box.high.x)), sw_grid_round (sw_random_double (random, box.low.y, box.high.y)) };
      if (sw_deck_room_at (sw_space_deck (space), light->at) != room)
        continue;
      judge (space, places, light, counts);
      follow (places, light);
    }
}

static void
test_checks_agree (void)
{
  GError *error = NULL;
  SwRandom random = { 4021 };
  g_autoptr (SwJob) bare = tiny_example ();
  g_autoptr (SwRules) rules = sw_rules_load ("south-africa", NULL, &error);
  g_autoptr (SwEdit) laid = lay_all (bare, rules);
  g_autoptr (SwJob) job = sw_job_apply (bare, laid, TRUE, &error);
  g_autoptr (SwDeck) deck = sw_deck_new (job);
  g_autoptr (SwSpace) space = sw_space_new (deck, rules, &error);
  g_assert_no_error (error);
  guint counts[SW_N_LIGHT_BARS] = { 0 };
  static const double kinds[][3] = { { 92, 86, 90 }, { 125, 120, 36 }, { 200, 190, 120 } }; /* cut-out, body, recess: the second may go below ribs */
  for (gsize r = 0; r < G_N_ELEMENTS (rooms); r++)
    for (gsize k = 0; k < G_N_ELEMENTS (kinds); k++)
      {
        g_autoptr (SwRecord) light = sw_record_copy (sw_job_nth (job, SW_TABLE_LIGHT, 3));
        ((SwLight *) light)->cut_out = kinds[k][0];
        ((SwLight *) light)->body = kinds[k][1];
        ((SwLight *) light)->recess = kinds[k][2];
        judge_room (space, (const SwRoom *) sw_job_find (job, rooms[r]), (SwLight *) light, &random, counts);
      }
  for (guint bar = 0; bar < SW_N_LIGHT_BARS; bar++)
    g_test_message ("%s: %u", sw_light_bar_text (bar), counts[bar]);
  g_assert_cmpuint (counts[SW_LIGHT_BAR_NONE], >, 0);
  g_assert_cmpuint (counts[SW_LIGHT_BAR_CONCRETE], >, 0);
  g_assert_cmpuint (counts[SW_LIGHT_BAR_BATTEN], >, 0);
}

/* ---- by hand */

#define LIGHT "'lights': [{'id': 'L', 'at': [2000, 300], 'cut_out_mm': 100, 'body_mm': 100, 'recess_mm': %g}]"
#define ROOM "'rooms': [{'id': 'R', 'outline': [[0,0],[6000,0],[6000,4800],[0,4800]], 'batten_centres_mm': 400}]"
#define BATTENS "'layouts': [{'room': 'R', 'members': [" \
  "{'from': [1800,0], 'to': [1800,4800], 'width': 38, 'depth': 38, 'top': 0}, {'from': [2200,0], 'to': [2200,4800], 'width': 38, 'depth': 38, 'top': 0}]}]"

static SwLightPlaces *
tiny_places (const char *records)
{
  GError *error = NULL;
  g_autoptr (SwJob) job = tiny_job (records);
  g_autoptr (SwSpace) space = tiny_space (job);
  SwLightPlaces *places = sw_check_light_places (space, (const SwRoom *) sw_job_nth (job, SW_TABLE_ROOM, 0), (const SwLight *) sw_job_nth (job, SW_TABLE_LIGHT, 0),
                                                 NULL, &error);
  g_assert_no_error (error);
  return places;
}

/* The strip about a place. */
static SwLightStrip
strip_at (const SwLightPlaces *places, double x, double y)
{
  g_autoptr (GArray) strips = sw_light_places_strips (places);
  for (guint i = 0; i < strips->len; i++)
    if (sw_box_holds (g_array_index (strips, SwLightStrip, i).box, (SwPoint){ x, y }))
      return g_array_index (strips, SwLightStrip, i);
  return (SwLightStrip){ .box = SW_BOX_EMPTY };
}

/* Derived: cut-out 100, 50 each side, battens of 38 at 400: 162 mm. Across: the void is 468 wide at 80 above the soffit (500 − 100 · 80 / 250), less the body
 * of 100 and 10 square to each side: 10 · √(250² + 50²) / 250 = 10.198. */
static void
test_band (void)
{
  g_autofree char *light = g_strdup_printf (LIGHT, 80 + 38 + 9.5), *records = g_strdup_printf ("%s, %s, %s", light, ROOM, BATTENS);
  g_autoptr (SwLightPlaces) places = tiny_places (records);
  SwLightStrip strip = strip_at (places, 2000, 300);
  g_assert_false (sw_light_places_assumed (places));
  sw_assert_near (strip.box.high.x - strip.box.low.x, 162, 0.02);
  sw_assert_near (strip.box.high.y - strip.box.low.y, 468 - 100 - 20.396, 0.02);
  sw_assert_near (sw_light_band (500, 400, 250, 80, 100, 10), 468 - 100 - 20.396, 1e-3);
  sw_assert_near (sw_light_gap (400, 38, 100, 50), 162, 1e-9);
  g_assert_false (strip.over_rib);
  sw_assert_near (strip.area, 162 * (468 - 100 - 20.396), 20);
}

/* Derived: a body of batten depth − 10 = 28 above the board goes under a rib, one of 28.5 does not. */
static void
test_slim (void)
{
  for (int slim = 0; slim < 2; slim++)
    {
      g_autofree char *light = g_strdup_printf (LIGHT, (slim ? 28.0 : 28.5) + 9.5), *records = g_strdup_printf ("%s, %s, %s", light, ROOM, BATTENS);
      g_autoptr (SwLightPlaces) places = tiny_places (records);
      SwLightPlace place = sw_light_places_ask (places, (SwPoint){ 2000, 600 }); /* the middle of rib 2 */
      g_assert_cmpint (place.bar, ==, slim ? SW_LIGHT_BAR_NONE : SW_LIGHT_BAR_CONCRETE);
    }
}

/* By hand: 100 over the batten at 2200, that is 2219 − 19 − 100: the gap's band ends at 2200 − 19 − 50 − 50 = 2081. */
static void
test_signed (void)
{
  g_autofree char *light = g_strdup_printf (LIGHT, 90.0), *records = g_strdup_printf ("%s, %s, %s", light, ROOM, BATTENS);
  g_autoptr (SwLightPlaces) places = tiny_places (records);
  SwLightPlace off = sw_light_places_ask (places, (SwPoint){ 2100, 300 }), good = sw_light_places_ask (places, (SwPoint){ 2071, 300 });
  g_assert_cmpint (off.bar, ==, SW_LIGHT_BAR_BATTEN);
  sw_assert_near (off.mm, -19, 0.02);
  sw_assert_near (off.move.x, -19, 0.02);
  sw_assert_near (off.move.y, 0, 0.02);
  g_assert_cmpint (good.bar, ==, SW_LIGHT_BAR_NONE);
  sw_assert_near (good.mm, 10, 0.02);
}

/* Without a layout: battens at even centres of at most 400, the first 38 + 19 off its wall: (6000 − 114) / 15 = 392.4; the second stands at 57 + 392.4. */
static void
test_assumed (void)
{
  g_autofree char *light = g_strdup_printf (LIGHT, 90.0), *records = g_strdup_printf ("%s, %s", light, ROOM);
  g_autoptr (SwLightPlaces) places = tiny_places (records);
  g_assert_true (sw_light_places_assumed (places));
  SwLightStrip strip = strip_at (places, 57 + 392.4 * 5.5, 300);
  sw_assert_near (strip.box.high.x - strip.box.low.x, 392.4 - 38 - 200, 0.02);
  sw_assert_near (strip.box.low.x, 57 + 392.4 * 5 + 119, 0.02);
  SwLightPlace place = sw_light_places_ask (places, (SwPoint){ 57 + 392.4 * 5, 300 });
  g_assert_cmpint (place.bar, ==, SW_LIGHT_BAR_BATTEN);
}

/* A cut-out at a hatch, and one over the edge of a ceiling without walls: common practice. */
static const TinyCase cases[] = {
  TINY_STOP ("in", "light-hatch", "hit", 200, "'lights': [{'at': [2000, 300], 'cut_out_mm': 100}], 'hatches': [{'at': [2200, 300], 'length_mm': 600, 'width_mm': 350}]"),
  TINY_FIX ("near", "light-hatch", "near", 10, "'lights': [{'at': [2000, 300], 'cut_out_mm': 100}], 'hatches': [{'at': [2390, 300], 'length_mm': 600, 'width_mm': 350}]"),
  TINY_NONE ("clear", "light-hatch", "'lights': [{'at': [2000, 300], 'cut_out_mm': 100}], 'hatches': [{'at': [2400, 300], 'length_mm': 600, 'width_mm': 350}]"),
  TINY_STOP ("edge", "light-wall", "edge", 10, "'lights': [{'at': [2000, 300], 'cut_out_mm': 100}], 'rooms': [{'id': 'R', 'outline': [[0,0],[2040,0],[2040,4800],[0,4800]]}]"),
  TINY_NONE ("inside", "light-wall", "'lights': [{'at': [2000, 300], 'cut_out_mm': 100}], 'rooms': [{'id': 'R', 'outline': [[0,0],[2050,0],[2050,4800],[0,4800]]}]"),
};

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/checks/places/band", test_band);
  g_test_add_func ("/checks/places/slim", test_slim);
  g_test_add_func ("/checks/places/signed", test_signed);
  g_test_add_func ("/checks/places/assumed", test_assumed);
  g_test_add_func ("/checks/places/checks-agree", test_checks_agree);
  TINY_ADD ("/checks/places", cases);
  return g_test_run ();
}
