/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fixture.h"
#include "routing/cross.h"
#include "window/tools/judge.h"
#include "window/tools/section_tool.h"

#define TEST(path, function) g_test_add ("/window/run/" path, Fixture, NULL, fixture_set_up, function, fixture_tear_down)

static const SwRun *
last_run (Fixture *fixture)
{
  return (const SwRun *) fixture_last (fixture, SW_TABLE_RUN);
}

static const SwVertex *
vertex (const SwRun *run, guint i)
{
  g_assert_cmpuint (i, <, run->vertices.n);
  return &SW_LIST_AT (run->vertices, SwVertex, i);
}

static void
draw_conduit (Fixture *fixture, double x0, double y0, double x1, double y1)
{
  sw_board_set_snaps (fixture->board, FALSE);
  sw_board_use (fixture->board, "conduit");
  fixture_click (fixture, x0, y0);
  fixture_click (fixture, x1, y1);
  sw_board_enter (fixture->board);
  sw_board_use (fixture->board, "pick");
  sw_board_set_snaps (fixture->board, TRUE);
  fixture_look (fixture);
}

static void
test_catches_the_middle_of_a_void (Fixture *fixture, gconstpointer data)
{
  sw_board_use (fixture->board, "conduit");
  fixture_click (fixture, 1000, 1220);
  fixture_click (fixture, 5000, 1190);
  sw_board_enter (fixture->board);
  const SwRun *run = last_run (fixture);
  sw_assert_near (vertex (run, 0)->at.y, 1200, 1e-6);
  sw_assert_near (vertex (run, 1)->at.y, 1200, 1e-6);
  g_assert_cmpuint (run->vertices.n, ==, 2);
  g_assert_cmpint (run->service, ==, SW_SERVICE_POWER);
  /* Control lets go of everything. */
  sw_board_motion (fixture->board, (SwPoint){ 1000, 1220 }, (SwBoardMods){ .control = TRUE, .clicks = 1 });
  SwPoint at;
  sw_board_has_cursor (fixture->board, &at);
  sw_assert_near (at.y, 1220, 1e-9);
}

static void
test_typed_leg (Fixture *fixture, gconstpointer data)
{
  sw_board_use (fixture->board, "conduit");
  fixture_click (fixture, 1000, 1200);
  fixture_move (fixture, 2000, 1210);
  fixture_type (fixture, "1200+450/2\n");
  fixture_type (fixture, "500\t0\n");
  sw_board_enter (fixture->board);
  const SwRun *run = last_run (fixture);
  g_assert_cmpuint (run->vertices.n, ==, 3);
  sw_assert_near (vertex (run, 1)->at.x, 2425, 0.01);
  sw_assert_near (vertex (run, 2)->at.x, 2925, 0.01);
}

static void
test_typed_level (Fixture *fixture, gconstpointer data)
{
  sw_board_use (fixture->board, "conduit");
  fixture_move (fixture, 1000, 1200);
  for (int i = 0; i < 3; i++)
    sw_board_tab (fixture->board, FALSE);
  g_assert_cmpint (sw_board_typed (fixture->board)->active, ==, SW_TYPED_LEVEL);
  fixture_type (fixture, "110\n");
  fixture_click (fixture, 3000, 1800);
  sw_board_enter (fixture->board);
  sw_assert_near (vertex (last_run (fixture), 0)->z, 110, 0);
  sw_assert_near (vertex (last_run (fixture), 1)->z, 60, 0);
}

static void
test_unreadable_length_is_refused (Fixture *fixture, gconstpointer data)
{
  sw_board_use (fixture->board, "conduit");
  fixture_click (fixture, 1000, 1200);
  fixture_type (fixture, "12+\n");
  g_assert_nonnull (sw_board_fault (fixture->board));
  g_assert_nonnull (strstr (sw_board_fault (fixture->board)->message, "12+"));
  g_assert_cmpuint (fixture_count (fixture, SW_TABLE_RUN), ==, 0);
}

static void
test_ends_hold_on_to_what_they_meet (Fixture *fixture, gconstpointer data)
{
  sw_board_use (fixture->board, "conduit");
  fixture_click (fixture, 1000, 1200);
  fixture_click (fixture, 3010, 1205); /* the box: ends the run */
  const SwRun *run = last_run (fixture);
  g_assert_cmpint (run->end, ==, fixture_last (fixture, SW_TABLE_FITTING)->id);
  sw_assert_near (vertex (run, 1)->z, 40, 0); /* at the box's height */
  /* The box moves: the end goes along. */
  sw_board_use (fixture->board, "pick");
  sw_board_pick (fixture->board, run->end, FALSE);
  g_assert_true (sw_board_move (fixture->board, (SwPoint){ 250, 0 }));
  sw_assert_near (vertex (last_run (fixture), 1)->at.x, 3250, 1e-9);
  sw_assert_near (vertex (last_run (fixture), 0)->at.x, 1000, 1e-9);
}

static void
test_falling_pipe_follows_its_fall (Fixture *fixture, gconstpointer data)
{
  sw_board_use (fixture->board, "pipe");
  fixture_click (fixture, 1000, 1200);
  fixture_click (fixture, 5000, 1200);
  sw_board_enter (fixture->board);
  const SwRun *run = last_run (fixture);
  g_assert_cmpint (vertex (run, 0)->level, ==, SW_LEVEL_VOID);
  g_assert_cmpint (vertex (run, 1)->level, ==, SW_LEVEL_FALL);
  /* As high as it goes: crown 250, half of 50, 30 air. */
  sw_assert_near (vertex (run, 0)->z, 195, 1e-9);
  fixture_look (fixture);
  const SwRoute *route = sw_space_route (sw_board_picture (fixture->board)->space, run->record.id);
  sw_assert_near (route->axis[0].z - route->axis[1].z, 4000 / 40.0, 0.01);
}

static void
test_draft_says_what_is_short (Fixture *fixture, gconstpointer data)
{
  sw_board_set_snaps (fixture->board, FALSE);
  sw_board_use (fixture->board, "conduit");
  fixture_click (fixture, 2000, 2400);
  fixture_move (fixture, 2600, 2400); /* inside the void, before the plate at 3150 */
  const GPtrArray *drafts = sw_board_drafts (fixture->board);
  g_assert_cmpuint (drafts->len, ==, 1);
  g_assert_false (sw_board_is_short (fixture->board, ((const SwRecord *) drafts->pdata[0])->id));
  fixture_move (fixture, 2600, 3000); /* through the rib at 2700 */
  drafts = sw_board_drafts (fixture->board);
  g_assert_true (sw_board_is_short (fixture->board, ((const SwRecord *) drafts->pdata[0])->id));
  g_autoptr (GArray) shortfalls = g_array_new (FALSE, FALSE, sizeof (SwShortfall));
  sw_judge_drafts (sw_board_picture (fixture->board), drafts, shortfalls);
  g_assert_cmpuint (shortfalls->len, >, 0);
  g_assert_cmpint (g_array_index (shortfalls, SwShortfall, 0).kind, ==, SW_BODY_RIB);
  fixture_move (fixture, 3600, 2400); /* through the plate */
  g_array_set_size (shortfalls, 0);
  sw_judge_drafts (sw_board_picture (fixture->board), sw_board_drafts (fixture->board), shortfalls);
  g_assert_cmpuint (shortfalls->len, ==, 1);
  g_assert_cmpint (g_array_index (shortfalls, SwShortfall, 0).kind, ==, SW_BODY_PLATE);
}

/* The web leans 1:5 from 2650 at the soffit: a body of 96 at 2550 is clear of it, the air that it warms is not, and may be there. */
static void
test_heat_may_touch_concrete (Fixture *fixture, gconstpointer data)
{
  sw_board_set_snaps (fixture->board, FALSE);
  sw_board_use (fixture->board, "light");
  fixture_move (fixture, 2600, 2550);
  g_assert_false (sw_board_is_short (fixture->board, ((const SwRecord *) sw_board_drafts (fixture->board)->pdata[0])->id));
  fixture_move (fixture, 2600, 2640);
  g_assert_true (sw_board_is_short (fixture->board, ((const SwRecord *) sw_board_drafts (fixture->board)->pdata[0])->id));
}

static void
test_cross_here_goes_under_the_rib (Fixture *fixture, gconstpointer data)
{
  sw_board_use (fixture->board, "conduit");
  fixture_click (fixture, 2000, 1200);
  fixture_move (fixture, 2400, 1800);
  g_assert_true (sw_board_cross_here (fixture->board));
  g_assert_false (sw_board_is_short (fixture->board, ((const SwRecord *) sw_board_drafts (fixture->board)->pdata[0])->id));
  sw_board_enter (fixture->board);
  const SwRun *run = last_run (fixture);
  g_assert_cmpuint (run->vertices.n, ==, 5);
  g_assert_cmpint (vertex (run, 2)->level, ==, SW_LEVEL_BELOW);
  g_assert_cmpint (vertex (run, 3)->level, ==, SW_LEVEL_BELOW);
  sw_assert_near (vertex (run, 2)->z, 4, 1e-9); /* crossing.rules.saddle_gap_mm */
  /* Below the whole rib 1450 … 1550, at one u. */
  g_assert_cmpfloat (vertex (run, 2)->at.y, <, 1450);
  g_assert_cmpfloat (vertex (run, 3)->at.y, >, 1550);
  sw_assert_near (vertex (run, 2)->at.x, vertex (run, 3)->at.x, 1e-6);
  sw_assert_near (vertex (run, 4)->at.y, 1800, 1e-6);
}

static void
test_cross_here_mends_a_run (Fixture *fixture, gconstpointer data)
{
  draw_conduit (fixture, 2000, 1200, 2600, 1800);
  sw_board_pick (fixture->board, last_run (fixture)->record.id, FALSE);
  sw_board_use (fixture->board, "cross");
  fixture_click (fixture, 2300, 1500);
  const SwRun *run = last_run (fixture);
  g_assert_cmpuint (run->vertices.n, >=, 5);
  GPtrArray *drafts = g_ptr_array_new ();
  g_autoptr (GArray) shortfalls = g_array_new (FALSE, FALSE, sizeof (SwShortfall));
  g_ptr_array_add (drafts, (gpointer) run);
  fixture_look (fixture);
  sw_judge_drafts (sw_board_picture (fixture->board), drafts, shortfalls);
  g_assert_cmpuint (shortfalls->len, ==, 0);
  g_ptr_array_unref (drafts);
}

static void
test_cross_here_refuses_with_words (Fixture *fixture, gconstpointer data)
{
  const SwDeck *deck = sw_board_picture (fixture->board)->deck;
  g_autoptr (GError) error = NULL;
  g_autoptr (GArray) vertices = g_array_new (FALSE, FALSE, sizeof (SwVertex));
  SwRun run = { .od = 20 };
  SwVertex from = { { 2000, 1200 }, SW_LEVEL_VOID, 60 };
  g_assert_false (sw_cross_vertices (deck, &run, &from, (SwPoint){ 3000, 1210 }, 4, vertices, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "no rib to cross");
  g_assert_false (sw_cross_vertices (deck, &run, &from, (SwPoint){ 3000, 9000 }, 4, vertices, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "same bay");
  run.fall = 40;
  g_assert_false (sw_cross_vertices (deck, &run, &from, (SwPoint){ 3000, 1800 }, 4, vertices, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "falling pipe");
}

static void
test_crossing_goes_between_battens (void)
{
  static const char job_text[] =
      "{\"format\": \"soffit-job\", \"version\": 1, \"profiles\": [{\"id\": \"p\"}],"
      " \"bays\": [{\"id\": \"b\", \"profile\": \"p\", \"first_rib_mm\": 300, \"outline\": [[0,0],[9000,0],[9000,6000],[0,6000]]}],"
      " \"rooms\": [{\"id\": \"r\", \"outline\": [[0,0],[9000,0],[9000,6000],[0,6000]]}],"
      " \"layouts\": [{\"room\": \"r\", \"members\": ["
      "   {\"from\": [2400, 0], \"to\": [2400, 6000]}, {\"from\": [2440, 0], \"to\": [2440, 6000]}, {\"from\": [2800, 0], \"to\": [2800, 6000]}]}]}";
  Fixture fixture;
  fixture_set_up (&fixture, job_text);
  const SwDeckBay *bay = sw_deck_bay (sw_board_picture (fixture.board)->deck, 0);
  const SwDeck *deck = sw_board_picture (fixture.board)->deck;
  /* Battens 38 wide at 2400 and 2440, a tube of 20 and 3 of air: taken from 2400 − 32 to 2440 + 32. */
  sw_assert_near (sw_cross_gap (deck, bay, 2430, 1200, 1800, 20), 2472, 1e-9);
  sw_assert_near (sw_cross_gap (deck, bay, 2410, 1200, 1800, 20), 2368, 1e-9);
  sw_assert_near (sw_cross_gap (deck, bay, 2600, 1200, 1800, 20), 2600, 1e-9);
  fixture_tear_down (&fixture, NULL);
}

/* A picked layout is marked wherever the cut shows it: at its battens and at each of its boards. */
static void
test_section_marks_all_of_a_layout (void)
{
  static const char job_text[] =
      "{\"format\": \"soffit-job\", \"version\": 1, \"profiles\": [{\"id\": \"p\"}],"
      " \"bays\": [{\"id\": \"b\", \"profile\": \"p\", \"first_rib_mm\": 300, \"outline\": [[0,0],[9000,0],[9000,6000],[0,6000]]}],"
      " \"rooms\": [{\"id\": \"r\", \"outline\": [[0,0],[9000,0],[9000,6000],[0,6000]]}],"
      " \"layouts\": [{\"room\": \"r\", \"members\": [{\"from\": [2400, 0], \"to\": [2400, 6000]}, {\"from\": [2400, 0], \"to\": [2800, 0]}],"
      "   \"pieces\": [{\"piece\": 1}, {\"piece\": 2}], \"corners\": [{\"piece\": 1, \"at\": [0, 0]}, {\"piece\": 1, \"at\": [3000, 0]}, {\"piece\": 1, \"at\": [3000, 1200]}, {\"piece\": 1, \"at\": [0, 1200]},"
      "   {\"piece\": 2, \"at\": [0, 1200]}, {\"piece\": 2, \"at\": [3000, 1200]}, {\"piece\": 2, \"at\": [3000, 2400]}, {\"piece\": 2, \"at\": [0, 2400]}]}]}";
  Fixture fixture;
  fixture_set_up (&fixture, job_text);
  SwSectionTool tool = { .board = fixture.board, .exaggeration = 5 };
  sw_section_tool_renew (&tool);
  g_assert_true (sw_section_tool_set_place (&tool, (SwPoint){ 2400, 1200 }));
  SwId layout = fixture_last (&fixture, SW_TABLE_LAYOUT)->id;
  g_autoptr (SwDisplay) plain = sw_section_tool_draw (&tool);
  guint groups = 0;
  for (guint i = 0; i < sw_display_n_groups (plain); i++)
    groups += sw_display_group (plain, i).key.record == layout && !sw_box_is_empty (sw_display_group_box (plain, i));
  sw_board_pick (fixture.board, layout, FALSE);
  g_autoptr (SwDisplay) marked = sw_section_tool_draw (&tool);
  g_assert_cmpuint (groups, >, 1);
  g_assert_cmpuint (sw_display_n_items (marked), ==, sw_display_n_items (plain) + groups);
  fixture_tear_down (&fixture, NULL);
}

static void
test_section_drag_changes_lane_and_height (Fixture *fixture, gconstpointer data)
{
  draw_conduit (fixture, 2000, 1200, 3000, 1200);
  SwSectionTool tool = { .board = fixture->board, .exaggeration = 5 };
  sw_section_tool_renew (&tool);
  g_assert_true (sw_section_tool_set_place (&tool, (SwPoint){ 2500, 1200 }));
  SwDisplay *display = sw_section_tool_draw (&tool);
  g_assert_cmpint (sw_display_find (display, SW_TABLE_RUN, last_run (fixture)->record.id, -1), >=, 0);
  sw_display_unref (display);
  sw_section_tool_press (&tool, (SwPoint){ 1200, 60 }, 6, FALSE);
  g_assert_true (sw_board_is_picked (fixture->board, last_run (fixture)->record.id));
  sw_section_tool_motion (&tool, (SwPoint){ 1300, 100 }, 6);
  g_assert_cmpuint (sw_board_drafts (fixture->board)->len, ==, 1);
  sw_section_tool_release (&tool, (SwPoint){ 1320, 110 });
  const SwRun *run = last_run (fixture);
  for (guint i = 0; i < 2; i++)
    {
      sw_assert_near (vertex (run, i)->at.y, 1320, 1e-6);
      sw_assert_near (vertex (run, i)->z, 110, 1e-6);
    }
  g_autofree char *name = sw_desk_undo_name (fixture->desk);
  g_assert_cmpstr (name, ==, "Move run in section");
}

static void
test_long_section_drag_changes_a_level (Fixture *fixture, gconstpointer data)
{
  sw_board_use (fixture->board, "pipe");
  fixture_click (fixture, 1000, 1200);
  fixture_click (fixture, 5000, 1200);
  sw_board_enter (fixture->board);
  sw_board_use (fixture->board, "pick");
  fixture_look (fixture);
  sw_board_pick (fixture->board, last_run (fixture)->record.id, FALSE);
  SwSectionTool tool = { .board = fixture->board, .exaggeration = 5, .along = TRUE };
  sw_section_tool_renew (&tool);
  SwBox box = sw_section_tool_box (&tool);
  sw_assert_near (box.high.x, 4000, 1e-6);
  sw_section_tool_press (&tool, (SwPoint){ 4000, 95 * 5 }, 30, FALSE);
  sw_section_tool_motion (&tool, (SwPoint){ 4000, 75 * 5 }, 30);
  sw_section_tool_release (&tool, (SwPoint){ 4000, 75 * 5 });
  const SwRun *run = last_run (fixture);
  g_assert_cmpint (vertex (run, 1)->level, ==, SW_LEVEL_VOID);
  sw_assert_near (vertex (run, 1)->z, 75, 0.01);
}

/* A box put down on a conduit belongs to it and lies at its level; one beside it belongs to nothing. */
static void
test_fitting_joins_its_run (Fixture *fixture, gconstpointer data)
{
  draw_conduit (fixture, 1000, 1800, 5000, 1800);
  const SwRun *run = last_run (fixture);
  SwId id = run->record.id;
  double z = vertex (run, 0)->z;
  sw_board_set_snaps (fixture->board, FALSE);
  sw_board_use (fixture->board, "box");
  fixture_click (fixture, 3000, 1800);
  const SwFitting *box = (const SwFitting *) fixture_last (fixture, SW_TABLE_FITTING);
  g_assert_cmpint (box->run, ==, id);
  sw_assert_near (box->z, z, 0.01);
  fixture_click (fixture, 3000, 1700);
  box = (const SwFitting *) fixture_last (fixture, SW_TABLE_FITTING);
  g_assert_cmpint (box->run, ==, 0);
  sw_assert_near (box->z, 30, 0.01); /* as the tool has it */
  g_assert_true (box->access);
  ((SwFitting *) sw_board_template (fixture->board))->kind = SW_FITTING_SOCKET;
  fixture_click (fixture, 4000, 1800);
  box = (const SwFitting *) fixture_last (fixture, SW_TABLE_FITTING);
  g_assert_cmpint (box->kind, ==, SW_FITTING_SOCKET);
  g_assert_cmpint (box->run, ==, id);
  g_assert_false (box->access);
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  TEST ("catches", test_catches_the_middle_of_a_void);
  TEST ("typed-leg", test_typed_leg);
  TEST ("typed-level", test_typed_level);
  TEST ("unreadable", test_unreadable_length_is_refused);
  TEST ("ends", test_ends_hold_on_to_what_they_meet);
  TEST ("falling", test_falling_pipe_follows_its_fall);
  TEST ("short", test_draft_says_what_is_short);
  TEST ("heat-may-touch-concrete", test_heat_may_touch_concrete);
  TEST ("cross-draft", test_cross_here_goes_under_the_rib);
  TEST ("cross-run", test_cross_here_mends_a_run);
  TEST ("cross-refuses", test_cross_here_refuses_with_words);
  g_test_add_func ("/window/run/cross-between-battens", test_crossing_goes_between_battens);
  g_test_add_func ("/window/run/section/all-of-a-layout", test_section_marks_all_of_a_layout);
  TEST ("section-drag", test_section_drag_changes_lane_and_height);
  TEST ("long-section-drag", test_long_section_drag_changes_a_level);
  TEST ("fitting-joins-its-run", test_fitting_joins_its_run);
  return g_test_run ();
}
