/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fixture.h"
#include "window/tools/board_edit.h"
#include "window/tools/new_job.h"
#include "window/tools/parts.h"

#define TEST(path, function) \
  g_test_add ("/window/board/" path, Fixture, NULL, fixture_set_up, function, fixture_tear_down)

static void
place_light (Fixture *fixture, double x, double y)
{
  sw_board_set_snaps (fixture->board, FALSE);
  g_assert_true (sw_board_use (fixture->board, "light"));
  fixture_click (fixture, x, y);
  sw_board_use (fixture->board, "pick");
  fixture_look (fixture);
}

/* Until the thread has said where the light in hand may be. */
static void
await_places (Fixture *fixture)
{
  for (int i = 0; i < 3000 && (sw_board_says (fixture->board) == NULL || strstr (sw_board_says (fixture->board), "llowed") == NULL); i++)
    {
      g_main_context_iteration (NULL, FALSE);
      g_usleep (1000);
    }
}

/* Rib faces at 50 on both sides of y = 1500: a light of 96 across with 10 beside it may be nowhere there. */
static void
test_shift_takes_an_allowed_place (Fixture *fixture, gconstpointer data)
{
  sw_board_use (fixture->board, "light");
  fixture_move (fixture, 5000, 1500);
  await_places (fixture);
  g_assert_nonnull (sw_board_says (fixture->board));
  g_autoptr (SwDisplay) live = sw_board_live (fixture->board);
  g_assert_cmpuint (sw_display_n_items (live), >, 10);
  sw_board_press (fixture->board, (SwPoint){ 5000, 1500 }, (SwBoardMods){ .shift = TRUE, .clicks = 1 });
  sw_board_release (fixture->board, (SwPoint){ 5000, 1500 }, (SwBoardMods){ .shift = TRUE, .clicks = 1 });
  SwPoint at = ((const SwLight *) fixture_last (fixture, SW_TABLE_LIGHT))->at;
  g_assert_cmpfloat (fabs (at.y - 1500), >, 50 + 48 + 9);
  g_assert_cmpfloat (fabs (at.y - 1500), <, 250);
  sw_board_use (fixture->board, "pick");
  g_autoptr (SwDisplay) bare = sw_board_live (fixture->board);
  g_assert_cmpuint (sw_display_n_items (bare), <, sw_display_n_items (live));
}

static void
test_every_tool_can_be_taken (Fixture *fixture, gconstpointer data)
{
  for (guint i = 0; i < sw_board_n_tools (); i++)
    {
      const SwToolRow *row = sw_board_tool_row (i);
      g_assert_true (sw_board_use (fixture->board, row->id));
      g_assert_true (sw_board_tool (fixture->board) == row);
      g_assert_cmpint (row->sites, !=, 0);
      g_assert_cmpuint (strlen (row->hint), >, 5);
      fixture_move (fixture, 3000, 1300);
      sw_display_unref (sw_board_live (fixture->board));
      /* Two keys for one tool would make one of them unreachable. */
      for (guint j = 0; j < i; j++)
        {
          g_assert_cmpstr (row->id, !=, sw_board_tool_row (j)->id);
          if (row->key != 0)
            g_assert_cmpint (row->key, !=, sw_board_tool_row (j)->key);
        }
    }
  g_assert_false (sw_board_use (fixture->board, "no-such-tool"));
  g_assert_cmpuint (sw_desk_history_length (fixture->desk), ==, 0);
}

static void
test_click_picks_and_the_same_click_goes_deeper (Fixture *fixture, gconstpointer data)
{
  place_light (fixture, 3020, 1200);
  SwId light = fixture_last (fixture, SW_TABLE_LIGHT)->id, box = fixture_last (fixture, SW_TABLE_FITTING)->id;
  fixture_click (fixture, 3020, 1200);
  SwId first = sw_board_picked (fixture->board, 0);
  g_assert_true (first == light || first == box);
  fixture_click (fixture, 3020, 1200);
  SwId second = sw_board_picked (fixture->board, 0);
  g_assert_cmpuint (sw_board_n_picked (fixture->board), ==, 1);
  g_assert_true (second != first && (second == light || second == box || SW_ID_TABLE (second) == SW_TABLE_BAY || SW_ID_TABLE (second) == SW_TABLE_ROOM));
  fixture_click (fixture, 20000, 20000);
  g_assert_cmpuint (sw_board_n_picked (fixture->board), ==, 0);
}

/* Where rooms are what the step is about, a click on the bare floor picks the room; elsewhere nothing. */
static void
test_click_on_the_floor_picks_the_room (Fixture *fixture, gconstpointer data)
{
  guint64 deck = SW_LAYER_BIT (SW_LAYER_DECK), rooms = SW_LAYER_BIT (SW_LAYER_ROOMS);
  const struct { guint64 faded; guint picked; } cases[] = { { deck, 1 }, { rooms, 0 }, { deck | rooms, 0 }, { 0, 0 } };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      sw_board_set_view (fixture->board, 5, 0, cases[i].faded);
      fixture_click (fixture, 7000 + 300 * (double) i, 1650);
      g_assert_cmpuint (sw_board_n_picked (fixture->board), ==, cases[i].picked);
    }
  /* a drag on the floor of a picked room is a rubber band still */
  sw_board_set_view (fixture->board, 5, 0, deck);
  fixture_click (fixture, 7000, 1650);
  g_assert_cmpint (SW_ID_TABLE (sw_board_picked (fixture->board, 0)), ==, SW_TABLE_ROOM);
  fixture_drag (fixture, 7000, 1650, 8000, 2000);
  g_assert_cmpuint (sw_desk_history_length (fixture->desk), ==, 0);
}

static void
test_shift_adds_and_takes_away (Fixture *fixture, gconstpointer data)
{
  place_light (fixture, 5000, 3000);
  fixture_click (fixture, 3000, 1200);
  sw_board_press (fixture->board, (SwPoint){ 5000, 3000 }, (SwBoardMods){ .shift = TRUE, .clicks = 1 });
  sw_board_release (fixture->board, (SwPoint){ 5000, 3000 }, (SwBoardMods){ .shift = TRUE, .clicks = 1 });
  g_assert_cmpuint (sw_board_n_picked (fixture->board), ==, 2);
  sw_board_press (fixture->board, (SwPoint){ 5000, 3000 }, (SwBoardMods){ .shift = TRUE, .clicks = 1 });
  sw_board_release (fixture->board, (SwPoint){ 5000, 3000 }, (SwBoardMods){ .shift = TRUE, .clicks = 1 });
  g_assert_cmpuint (sw_board_n_picked (fixture->board), ==, 1);
  g_assert_cmpint (SW_ID_TABLE (sw_board_picked (fixture->board, 0)), ==, SW_TABLE_FITTING);
}

static void
test_rubber_band_takes_what_lies_inside (Fixture *fixture, gconstpointer data)
{
  place_light (fixture, 5000, 3000);
  place_light (fixture, 6000, 3600);
  fixture_drag (fixture, 10500, -600, -1500, 7500);
  g_assert_true (sw_board_is_picked (fixture->board, fixture_last (fixture, SW_TABLE_LIGHT)->id));
  g_assert_true (sw_board_is_picked (fixture->board, fixture_last (fixture, SW_TABLE_FITTING)->id));
  g_assert_cmpuint (sw_desk_history_length (fixture->desk), ==, 2);
}

static void
test_rubber_band_begins_on_what_lies_under_everything (Fixture *fixture, gconstpointer data)
{
  place_light (fixture, 5000, 3000);
  sw_board_pick (fixture->board, 0, FALSE);
  fixture_drag (fixture, 0, -600, 7000, 4000); /* from grid line A */
  g_assert_cmpuint (sw_desk_history_length (fixture->desk), ==, 1);
  g_assert_cmpuint (sw_board_n_picked (fixture->board), ==, 2);
  g_assert_true (sw_board_is_picked (fixture->board, fixture_last (fixture, SW_TABLE_LIGHT)->id));
  g_assert_true (sw_board_is_picked (fixture->board, fixture_last (fixture, SW_TABLE_FITTING)->id));
}

static void
test_drag_leaves_what_is_of_another_step (Fixture *fixture, gconstpointer data)
{
  place_light (fixture, 5000, 3000);
  sw_board_pick (fixture->board, 0, FALSE);
  sw_board_set_view (fixture->board, 5, 0, SW_LAYER_BIT (SW_LAYER_LIGHTS));
  fixture_drag (fixture, 5000, 3000, 5400, 3300);
  sw_assert_near (((const SwLight *) fixture_last (fixture, SW_TABLE_LIGHT))->at.x, 5000, 1e-9);
  fixture_click (fixture, 5000, 3000); /* picked first, it can be moved */
  g_assert_cmpuint (sw_board_n_picked (fixture->board), ==, 1);
  fixture_drag (fixture, 5000, 3000, 5400, 3300);
  sw_assert_near (((const SwLight *) fixture_last (fixture, SW_TABLE_LIGHT))->at.x, 5400, 1e-9);
}

static void
test_typed_sides_count_from_a_typed_corner (Fixture *fixture, gconstpointer data)
{
  g_assert_true (sw_board_use (fixture->board, "room"));
  fixture_move (fixture, 2000, 1000); /* before the corner to come: the pointer decides nothing */
  fixture_type (fixture, "6000");
  sw_board_tab (fixture->board, FALSE);
  fixture_type (fixture, "3000");
  sw_board_enter (fixture->board);
  fixture_type (fixture, "2000");
  sw_board_tab (fixture->board, FALSE);
  fixture_type (fixture, "1500");
  sw_board_enter (fixture->board);
  g_assert_cmpuint (fixture_count (fixture, SW_TABLE_ROOM), ==, 2);
  SwBox box = sw_record_box (fixture_last (fixture, SW_TABLE_ROOM));
  sw_assert_near (box.low.x, 6000, 1e-9);
  sw_assert_near (box.low.y, 3000, 1e-9);
  sw_assert_near (box.high.x, 8000, 1e-9);
  sw_assert_near (box.high.y, 4500, 1e-9);
}

static void
test_drag_moves_in_one_edit_with_a_name (Fixture *fixture, gconstpointer data)
{
  place_light (fixture, 5000, 3000);
  fixture_drag (fixture, 5000, 3000, 5400, 3300);
  const SwLight *light = (const SwLight *) fixture_last (fixture, SW_TABLE_LIGHT);
  sw_assert_near (light->at.x, 5400, 1e-9);
  sw_assert_near (light->at.y, 3300, 1e-9);
  g_autofree char *name = sw_desk_undo_name (fixture->desk);
  g_assert_cmpstr (name, ==, "Move downlight");
  g_assert_cmpuint (sw_desk_history_length (fixture->desk), ==, 2);
  g_assert_true (sw_desk_undo (fixture->desk, NULL));
  light = (const SwLight *) fixture_last (fixture, SW_TABLE_LIGHT);
  sw_assert_near (light->at.x, 5000, 1e-9);
}

static void
test_typed_distance_moves_exactly (Fixture *fixture, gconstpointer data)
{
  place_light (fixture, 5000, 3000);
  sw_board_press (fixture->board, (SwPoint){ 5000, 3000 }, (SwBoardMods){ .clicks = 1 });
  fixture_move (fixture, 5300, 3000);
  fixture_type (fixture, "750");
  sw_board_release (fixture->board, (SwPoint){ 5300, 3000 }, (SwBoardMods){ .clicks = 1 });
  sw_assert_near (((const SwLight *) fixture_last (fixture, SW_TABLE_LIGHT))->at.x, 5750, 1e-9);
}

static void
test_escape_drops_the_draft_then_the_pick (Fixture *fixture, gconstpointer data)
{
  place_light (fixture, 5000, 3000);
  guint edits = sw_desk_history_length (fixture->desk);
  sw_board_press (fixture->board, (SwPoint){ 5000, 3000 }, (SwBoardMods){ .clicks = 1 });
  fixture_move (fixture, 5500, 3500);
  g_assert_cmpuint (sw_board_drafts (fixture->board)->len, ==, 1);
  sw_board_escape (fixture->board);
  g_assert_cmpuint (sw_board_drafts (fixture->board)->len, ==, 0);
  sw_board_release (fixture->board, (SwPoint){ 5500, 3500 }, (SwBoardMods){ .clicks = 1 });
  g_assert_cmpuint (sw_desk_history_length (fixture->desk), ==, edits);
  g_assert_cmpuint (sw_board_n_picked (fixture->board), ==, 1);
  sw_board_escape (fixture->board);
  g_assert_cmpuint (sw_board_n_picked (fixture->board), ==, 0);
}

static void
test_escape_in_a_tool_goes_back_step_by_step (Fixture *fixture, gconstpointer data)
{
  sw_board_use (fixture->board, "conduit");
  fixture_click (fixture, 1000, 1200);
  fixture_move (fixture, 2000, 1200);
  fixture_type (fixture, "500");
  sw_board_escape (fixture->board);
  g_assert_true (sw_typed_is_empty (sw_board_typed (fixture->board)));
  g_assert_cmpuint (sw_board_drafts (fixture->board)->len, ==, 1);
  sw_board_escape (fixture->board);
  g_assert_cmpuint (sw_board_drafts (fixture->board)->len, ==, 0);
  g_assert_cmpstr (sw_board_tool (fixture->board)->id, ==, "conduit");
  sw_board_escape (fixture->board);
  g_assert_cmpstr (sw_board_tool (fixture->board)->id, ==, "pick");
}

static void
test_delete_and_copy (Fixture *fixture, gconstpointer data)
{
  place_light (fixture, 5000, 3000);
  g_assert_false (sw_board_delete (fixture->board));
  fixture_click (fixture, 5000, 3000);
  g_assert_true (sw_board_copy (fixture->board, (SwPoint){ 600, 0 }));
  g_assert_cmpuint (fixture_count (fixture, SW_TABLE_LIGHT), ==, 2);
  const SwLight *copy = (const SwLight *) fixture_last (fixture, SW_TABLE_LIGHT);
  sw_assert_near (copy->at.x, 5600, 1e-9);
  g_assert_cmpstr (copy->record.tag, !=, sw_job_nth (sw_desk_job (fixture->desk), SW_TABLE_LIGHT, 0)->tag);
  g_assert_true (sw_board_is_picked (fixture->board, copy->record.id));
  g_assert_true (sw_board_delete (fixture->board));
  g_assert_cmpuint (fixture_count (fixture, SW_TABLE_LIGHT), ==, 1);
  g_assert_cmpuint (sw_board_n_picked (fixture->board), ==, 0);
}

static void
test_room_by_typed_sides (Fixture *fixture, gconstpointer data)
{
  sw_board_use (fixture->board, "room");
  fixture_move (fixture, 20000, 1000);
  fixture_type (fixture, "20000\t1000\n");
  fixture_move (fixture, 21000, 1500);
  fixture_type (fixture, "4200\t2*1500\n");
  g_assert_cmpuint (fixture_count (fixture, SW_TABLE_ROOM), ==, 2);
  SwBox box = sw_record_box (fixture_last (fixture, SW_TABLE_ROOM));
  sw_assert_near (box.low.x, 20000, 1e-9);
  sw_assert_near (box.high.x, 24200, 1e-9);
  sw_assert_near (box.high.y, 4000, 1e-9);
}

static void
test_room_corner_by_corner (Fixture *fixture, gconstpointer data)
{
  sw_board_set_snaps (fixture->board, FALSE);
  sw_board_use (fixture->board, "room");
  sw_board_set_polygons (fixture->board, TRUE);
  const SwPoint corners[] = { { 20000, 0 }, { 24000, 0 }, { 24000, 3000 }, { 22000, 5000 }, { 20000, 3000 } };
  for (gsize i = 0; i < G_N_ELEMENTS (corners); i++)
    fixture_click (fixture, corners[i].x, corners[i].y);
  g_assert_true (sw_board_backspace (fixture->board));
  fixture_click (fixture, 20000, 0); /* the first one again closes it */
  g_assert_cmpuint (fixture_count (fixture, SW_TABLE_ROOM), ==, 2);
  g_assert_cmpuint (((const SwRoom *) fixture_last (fixture, SW_TABLE_ROOM))->outline.n, ==, 4);
}

static void
test_flat_outline_is_refused_with_words (Fixture *fixture, gconstpointer data)
{
  sw_board_set_snaps (fixture->board, FALSE);
  sw_board_use (fixture->board, "bay");
  fixture_click (fixture, 20000, 0);
  fixture_click (fixture, 24000, 0);
  g_assert_cmpuint (fixture_count (fixture, SW_TABLE_BAY), ==, 1);
  g_assert_nonnull (sw_board_fault (fixture->board));
  g_assert_nonnull (strstr (sw_board_fault (fixture->board)->message, "outline"));
}

static void
test_walls_go_on_from_each_other (Fixture *fixture, gconstpointer data)
{
  sw_board_use (fixture->board, "wall");
  fixture_click (fixture, 20000, 0);
  fixture_click (fixture, 23000, 0);
  fixture_move (fixture, 23000, 500);
  fixture_type (fixture, "2400\n");
  sw_board_enter (fixture->board); /* nothing more: it ends */
  g_assert_cmpuint (fixture_count (fixture, SW_TABLE_WALL), ==, 3);
  const SwWall *wall = (const SwWall *) fixture_last (fixture, SW_TABLE_WALL);
  sw_assert_near (wall->from.x, 23000, 1e-9);
  sw_assert_near (wall->to.y, 2400, 1e-9);
}

static void
test_drop_stands_on_the_nearest_wall (Fixture *fixture, gconstpointer data)
{
  sw_board_use (fixture->board, "drop");
  fixture_click (fixture, 2500, 3000);
  g_assert_cmpuint (fixture_count (fixture, SW_TABLE_DROP), ==, 0);
  fixture_click (fixture, 2500, 120);
  const SwDrop *drop = (const SwDrop *) fixture_last (fixture, SW_TABLE_DROP);
  sw_assert_near (drop->along, 2500, 1e-9);
  fixture_look (fixture);
  sw_board_use (fixture->board, "pick");
  sw_board_pick (fixture->board, drop->record.id, FALSE);
  g_assert_true (sw_board_move (fixture->board, (SwPoint){ 300, 900 }));
  sw_assert_near (((const SwDrop *) fixture_last (fixture, SW_TABLE_DROP))->along, 2800, 1e-9);
}

static void
test_measured_rib_shifts_the_deck (Fixture *fixture, gconstpointer data)
{
  sw_board_use (fixture->board, "as-built");
  fixture_click (fixture, 4000, 910); /* rib 1 stands at 900 */
  fixture_type (fixture, "908\n");
  const SwMeasure *measure = (const SwMeasure *) fixture_last (fixture, SW_TABLE_MEASURE);
  g_assert_cmpint (measure->number, ==, 1);
  sw_assert_near (measure->value, 908, 1e-9);
  fixture_look (fixture);
  const SwDeckBay *bay = sw_deck_bay (sw_board_picture (fixture->board)->deck, 0);
  sw_assert_near (g_array_index (bay->ribs, SwRib, 1).v, 908, 1e-9);
}

static void
test_all_by_keyboard (Fixture *fixture, gconstpointer data)
{
  sw_board_set_snaps (fixture->board, FALSE);
  sw_board_use (fixture->board, "light");
  sw_board_motion (fixture->board, (SwPoint){ 4987, 3012 }, (SwBoardMods){ .clicks = 1 });
  sw_board_nudge (fixture->board, 2, -1, 50);
  SwPoint at;
  g_assert_true (sw_board_has_cursor (fixture->board, &at));
  sw_assert_near (at.x, 5100, 1e-9);
  sw_assert_near (at.y, 2950, 1e-9);
  sw_board_enter (fixture->board);
  sw_assert_near (((const SwLight *) fixture_last (fixture, SW_TABLE_LIGHT))->at.x, 5100, 1e-9);
}

static void
test_values_of_several_at_once (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  place_light (fixture, 5000, 3000);
  place_light (fixture, 6000, 3000);
  SwId ids[] = { sw_job_nth (sw_desk_job (fixture->desk), SW_TABLE_LIGHT, 0)->id, sw_job_nth (sw_desk_job (fixture->desk), SW_TABLE_LIGHT, 1)->id };
  sw_board_pick_many (fixture->board, ids, 2);
  SwPath path = { sw_struct_field (&sw_type_get (SW_TABLE_LIGHT)->body, "watts"), -1, NULL, -1 };
  g_assert_true (sw_board_set_value (fixture->board, &path, "12", &error));
  g_assert_no_error (error);
  sw_assert_near (((const SwLight *) fixture_last (fixture, SW_TABLE_LIGHT))->watts, 12, 0);
  g_autofree char *name = sw_desk_undo_name (fixture->desk);
  g_assert_cmpstr (name, ==, "Change power of 2 things");
  /* A value out of range changes nothing and says which. */
  guint edits = sw_desk_history_length (fixture->desk);
  g_assert_false (sw_board_set_value (fixture->board, &path, "-3", &error));
  g_assert_nonnull (strstr (error->message, "watts"));
  g_assert_cmpuint (sw_desk_history_length (fixture->desk), ==, edits);
}

/* Makes the fixture's job one in feet and inches. */
static void
use_feet (Fixture *fixture)
{
  SwJob *job = sw_desk_job (fixture->desk);
  g_autoptr (SwEdit) edit = sw_edit_new ("Feet");
  SwRecord *copy = sw_record_copy (&sw_job_info (job)->record);
  ((SwJobInfo *) copy)->units = SW_LENGTHS_FT_IN;
  g_assert_true (sw_edit_put (edit, job, copy, NULL));
  g_assert_true (sw_desk_do (fixture->desk, edit, NULL));
  fixture_look (fixture);
}

/* 3'4 = 40 in = 1016 mm; a bare 40 means the same; 1.2 m stays 1200 mm. */
static void
test_feet_are_typed_and_said (Fixture *fixture, gconstpointer data)
{
  static const struct { const char *typed; double mm; } lengths[] = { { "3'4", 1016 }, { "40", 1016 }, { "40 1/2\"", 1028.7 }, { "1.2 m", 1200 } };
  use_feet (fixture);
  sw_board_set_snaps (fixture->board, FALSE);
  for (gsize i = 0; i < G_N_ELEMENTS (lengths); i++)
    {
      sw_board_use (fixture->board, "wall");
      fixture_click (fixture, 1000, 2000);
      fixture_move (fixture, 1500, 2000);
      fixture_type (fixture, lengths[i].typed);
      g_assert_nonnull (strstr (sw_board_says (fixture->board), "\" long"));
      g_assert_null (strstr (sw_board_says (fixture->board), "mm"));
      sw_board_enter (fixture->board);
      const SwWall *wall = (const SwWall *) fixture_last (fixture, SW_TABLE_WALL);
      sw_assert_near (sw_point_distance (wall->from, wall->to), lengths[i].mm, 0.011);
      sw_board_escape (fixture->board);
      sw_board_escape (fixture->board);
    }
}

/* A text that shows the value already leaves it: 3000 mm reads 9' 10 1/8", which is 3000.4 mm. */
static void
test_feet_of_values (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  use_feet (fixture);
  place_light (fixture, 5000, 3000);
  const SwRecord *light = fixture_last (fixture, SW_TABLE_LIGHT);
  SwPath path = { sw_struct_field (&sw_record_type (light)->body, "at"), -1, NULL, 1 };
  g_autofree char *text = sw_path_write (light, &path, SW_LENGTHS_FT_IN);
  g_assert_cmpstr (text, ==, "9' 10 1/8\"");
  sw_board_pick (fixture->board, light->id, FALSE);
  guint edits = sw_desk_history_length (fixture->desk);
  g_assert_true (sw_board_set_value (fixture->board, &path, text, &error));
  g_assert_cmpuint (sw_desk_history_length (fixture->desk), ==, edits);
  sw_assert_near (((const SwLight *) fixture_last (fixture, SW_TABLE_LIGHT))->at.y, 3000, 0);
  g_assert_true (sw_board_set_value (fixture->board, &path, "10'", &error));
  g_assert_no_error (error);
  sw_assert_near (((const SwLight *) fixture_last (fixture, SW_TABLE_LIGHT))->at.y, 3048, 1e-9);
}

static void
test_template_says_what_comes_next (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  SwPath path = { sw_struct_field (&sw_type_get (SW_TABLE_LIGHT)->body, "cut_out_mm"), -1, NULL, -1 };
  sw_board_use (fixture->board, "light");
  g_assert_true (sw_board_shows_template (fixture->board));
  g_assert_true (sw_board_set_value (fixture->board, &path, "2*65", &error));
  g_assert_cmpuint (sw_desk_history_length (fixture->desk), ==, 0);
  fixture_click (fixture, 5000, 3000);
  sw_assert_near (((const SwLight *) fixture_last (fixture, SW_TABLE_LIGHT))->cut_out, 130, 0);
}

static void
test_handles_move_places_and_middles_make_new_ones (Fixture *fixture, gconstpointer data)
{
  const SwRecord *room = fixture_last (fixture, SW_TABLE_ROOM);
  sw_board_pick (fixture->board, room->id, FALSE);
  sw_board_set_snaps (fixture->board, FALSE);
  fixture_drag (fixture, 9000, 6000, 9000, 6600);
  sw_assert_near (sw_record_box (fixture_last (fixture, SW_TABLE_ROOM)).high.y, 6600, 1e-9);
  fixture_look (fixture);
  fixture_drag (fixture, 4500, 0, 4500, 900);
  g_assert_cmpuint (((const SwRoom *) fixture_last (fixture, SW_TABLE_ROOM))->outline.n, ==, 5);
  g_autofree char *name = sw_desk_undo_name (fixture->desk);
  g_assert_cmpstr (name, ==, "Reshape room");
}

static void
test_undo_drops_what_is_picked_and_gone (Fixture *fixture, gconstpointer data)
{
  place_light (fixture, 5000, 3000);
  sw_board_pick (fixture->board, fixture_last (fixture, SW_TABLE_LIGHT)->id, FALSE);
  g_assert_true (sw_desk_undo (fixture->desk, NULL));
  g_assert_cmpuint (sw_board_n_picked (fixture->board), ==, 0);
  sw_display_unref (sw_board_live (fixture->board));
}

static void
test_rectangle_starts_a_job (void)
{
  g_autoptr (SwJob) blank = sw_job_new ();
  g_autoptr (SwEdit) profiles = sw_edit_new ("");
  g_autoptr (GError) error = NULL;
  SwRecord *profile = sw_edit_create (profiles, blank, SW_TABLE_PROFILE);
  SwId id = profile->id;
  g_assert_true (sw_edit_put (profiles, blank, profile, &error));
  g_autoptr (SwJob) catalogue = sw_job_apply (blank, profiles, TRUE, &error);
  g_autoptr (SwJob) job = sw_new_job_empty (catalogue, &error);
  g_autoptr (SwEdit) edit = sw_new_job_rectangle (job, 9000, 6000, id, &error);
  g_assert_no_error (error);
  g_autoptr (SwJob) done = sw_job_apply (job, edit, TRUE, &error);
  g_assert_cmpuint (sw_job_count (done, SW_TABLE_ROOM), ==, 1);
  g_assert_cmpuint (sw_job_count (done, SW_TABLE_GRIDLINE), ==, 4);
  g_autoptr (SwDeck) deck = sw_deck_new (done);
  const SwDeckBay *bay = sw_deck_bay (deck, 0);
  /* 6000 with ribs of 100 at 600: nine voids, 300 to the first rib's middle at both sides. */
  g_assert_cmpuint (bay->voids->len, ==, 9);
  sw_assert_near (g_array_index (bay->ribs, SwRib, 0).v + g_array_index (bay->ribs, SwRib, 9).v, 6000, 700);
  g_assert_null (sw_new_job_rectangle (job, 9000, 650, id, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "Not one void");
}

/* By hand, profile 600 / mouth 500, rib 100: in 4.3 m seven voids, in 2.5 m four go with a whole rib at both sides. */
static void
test_new_bay_has_equal_sides (Fixture *fixture, gconstpointer data)
{
  static const struct { SwPoint to; double direction, first; } cases[] = {
    { { 16000, 4300 }, 0, (4300 - 7 * 600) / 2.0 }, { { 12500, 5000 }, 90, (2500 - 4 * 600) / 2.0 },
    { { 16000, 4799 }, 0, (4799 - 7 * 600) / 2.0 },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      sw_board_use (fixture->board, "bay");
      ((SwBay *) sw_board_template (fixture->board))->direction = cases[i].direction;
      sw_board_set_snaps (fixture->board, FALSE);
      fixture_drag (fixture, 10000, 0, cases[i].to.x, cases[i].to.y);
      const SwBay *bay = (const SwBay *) fixture_last (fixture, SW_TABLE_BAY);
      sw_assert_near (bay->first_rib, cases[i].first, 0.011);
      fixture_look (fixture);
      const SwDeckBay *made = sw_deck_bay_of (sw_board_picture (fixture->board)->deck, bay->record.id);
      const SwVoid *first = &g_array_index (made->voids, SwVoid, 0), *last = &g_array_index (made->voids, SwVoid, made->voids->len - 1);
      sw_assert_near (first->low, made->breadth - last->high, 0.03);
      g_assert_true (sw_desk_undo (fixture->desk, NULL));
    }
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  TEST ("shift-takes-an-allowed-place", test_shift_takes_an_allowed_place);
  TEST ("every-tool", test_every_tool_can_be_taken);
  TEST ("click-picks", test_click_picks_and_the_same_click_goes_deeper);
  TEST ("click-picks-the-room-by-its-floor", test_click_on_the_floor_picks_the_room);
  TEST ("pick/floor", test_click_on_the_floor_picks_the_room);
  TEST ("shift-adds", test_shift_adds_and_takes_away);
  TEST ("rubber-band", test_rubber_band_takes_what_lies_inside);
  TEST ("rubber-band-begins-anywhere", test_rubber_band_begins_on_what_lies_under_everything);
  TEST ("drag-leaves-other-steps", test_drag_leaves_what_is_of_another_step);
  TEST ("typed-sides", test_typed_sides_count_from_a_typed_corner);
  TEST ("drag-moves", test_drag_moves_in_one_edit_with_a_name);
  TEST ("typed-move", test_typed_distance_moves_exactly);
  TEST ("escape-drops", test_escape_drops_the_draft_then_the_pick);
  TEST ("escape-steps", test_escape_in_a_tool_goes_back_step_by_step);
  TEST ("delete-and-copy", test_delete_and_copy);
  TEST ("room-typed", test_room_by_typed_sides);
  TEST ("room-corners", test_room_corner_by_corner);
  TEST ("flat-outline", test_flat_outline_is_refused_with_words);
  TEST ("walls", test_walls_go_on_from_each_other);
  TEST ("drop", test_drop_stands_on_the_nearest_wall);
  TEST ("measured-rib", test_measured_rib_shifts_the_deck);
  TEST ("keyboard", test_all_by_keyboard);
  TEST ("several-values", test_values_of_several_at_once);
  TEST ("feet-typed", test_feet_are_typed_and_said);
  TEST ("feet-values", test_feet_of_values);
  TEST ("template", test_template_says_what_comes_next);
  TEST ("handles", test_handles_move_places_and_middles_make_new_ones);
  TEST ("undo-and-picks", test_undo_drops_what_is_picked_and_gone);
  g_test_add_func ("/window/board/rectangle", test_rectangle_starts_a_job);
  TEST ("bay-sides", test_new_bay_has_equal_sides);
  return g_test_run ();
}
