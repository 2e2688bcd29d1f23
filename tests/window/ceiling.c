/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/layout.h"
#include "estimate/lay_choices.h"
#include "estimate/lay_rooms.h"
#include "checks/snag.h"
#include "geometry/outline.h"
#include "window/tools/picture.h"
#include "fixture.h"
#include "window/tools/board_edit.h"
#include <string.h>

#define TEST(name, function) g_test_add ("/window/ceiling/" name, Fixture, NULL, set_up, function, fixture_tear_down)

/* A room whose side is dragged: its ceiling is found while that goes on, and one edit ends it. */

static SwJob *
job_of (Fixture *fixture)
{
  return sw_desk_job (fixture->desk);
}

static const SwRoom *
room_of (Fixture *fixture)
{
  return (const SwRoom *) fixture_last (fixture, SW_TABLE_ROOM);
}

static void
change (Fixture *fixture, SwEdit *edit)
{
  g_autoptr (GError) error = NULL;
  g_assert_true (sw_desk_do (fixture->desk, edit, &error));
  g_assert_no_error (error);
  fixture_look (fixture);
}

/* A room of 4 × 3 m, picked. */
static void
set_up (Fixture *fixture, gconstpointer data)
{
  const SwPoint corners[] = { { 1000, 1000 }, { 5000, 1000 }, { 5000, 4000 }, { 1000, 4000 } };
  g_autoptr (SwEdit) edit = sw_edit_new ("");
  fixture_set_up (fixture, data);
  SwRoom *room = (SwRoom *) sw_record_copy (&room_of (fixture)->record);
  memcpy (sw_list_resize (&room->outline, &sw_struct_point, 4), corners, sizeof corners);
  sw_edit_put (edit, job_of (fixture), &room->record, NULL);
  change (fixture, edit);
  sw_board_pick (fixture->board, room_of (fixture)->record.id, FALSE);
  sw_board_set_snaps (fixture->board, FALSE);
}

static void
lay_out (Fixture *fixture)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwEdit) edit = sw_edit_new ("Lay out");
  const SwPicture *picture = sw_board_picture (fixture->board);
  const SwLayWanted wanted = { 0 };
  g_autoptr (GArray) laid = sw_lay_rooms (picture->deck, picture->rules, &wanted, edit, NULL, &error);
  g_assert_cmpuint (laid->len, ==, 1);
  change (fixture, edit);
}

static gboolean
on_too_late (gpointer data)
{
  g_error ("no ceiling within a minute");
  return G_SOURCE_REMOVE;
}

/* Until the ceiling of what is dragged now is there, with all of its search. */
static const SwCeilingDraft *
wait_for_full (Fixture *fixture)
{
  guint late = g_timeout_add_seconds (60, on_too_late, NULL);
  const SwRecord *draft = sw_board_drafts (fixture->board)->pdata[0];
  const SwCeilingDraft *ceiling;
  while ((ceiling = sw_board_ceiling (fixture->board)) == NULL || !ceiling->full || !sw_record_equal (&ceiling->room->record, draft))
    g_main_context_iteration (NULL, TRUE);
  g_source_remove (late);
  return ceiling;
}

static void
press_side_and_go_to (Fixture *fixture, double x)
{
  SwBoardMods mods = { .clicks = 1 };
  fixture_move (fixture, 5000, 2000);
  sw_board_press (fixture->board, (SwPoint){ 5000, 2000 }, mods);
  for (int i = 1; i <= 5; i++)
    fixture_move (fixture, 5000 + (x - 5000) * i / 5, 2000);
}

static void
let_go (Fixture *fixture, double x)
{
  sw_board_release (fixture->board, (SwPoint){ x, 2000 }, (SwBoardMods){ .clicks = 1 });
}

static double
pieces_m2 (const SwLayout *layout)
{
  double sum = 0;
  for (guint i = 0; i < layout->pieces.n; i++)
    sum += SW_LIST_AT (layout->pieces, SwPiece, i).length * SW_LIST_AT (layout->pieces, SwPiece, i).width;
  return sum / 1e6;
}

/* The boards of the draft cover the room as it is then: 5.8 × 3 m less the joints' width. */
static void
test_is_found_while_dragging (Fixture *fixture, gconstpointer data)
{
  press_side_and_go_to (fixture, 6800);
  const SwCeilingDraft *ceiling = wait_for_full (fixture);
  sw_assert_near (SW_LIST_AT (ceiling->room->outline, SwPoint, 1).x, 6800, 1e-9);
  sw_assert_near (pieces_m2 (ceiling->layout), 17.4, 0.1);
  g_assert_cmpfloat (ceiling->waste_m2, >, 0);
  g_assert_cmpuint (ceiling->n_sheets, >=, 5); /* of 3.6 m² */
  SwDisplay *live = sw_board_live (fixture->board);
  g_assert_cmpint (sw_display_find (live, SW_TABLE_LAYOUT, ceiling->layout->record.id, -1), >=, 0);
  sw_display_unref (live);
  let_go (fixture, 6800);
  g_assert_null (sw_board_ceiling (fixture->board));
  g_assert_cmpuint (fixture_count (fixture, SW_TABLE_LAYOUT), ==, 0); /* it had none */
}

/* Room and layout change by one edit, the layout as laying out would find it, and one undo takes both back. */
static void
test_one_edit (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  lay_out (fixture);
  guint64 generation = sw_desk_generation (fixture->desk);
  g_autoptr (SwRecord) before = sw_record_copy (fixture_last (fixture, SW_TABLE_LAYOUT));
  press_side_and_go_to (fixture, 6800);
  wait_for_full (fixture);
  let_go (fixture, 6800);
  g_assert_cmpuint (sw_desk_generation (fixture->desk), ==, generation + 1);
  sw_assert_near (SW_LIST_AT (room_of (fixture)->outline, SwPoint, 2).x, 6800, 1e-9);
  fixture_look (fixture);
  const SwPicture *picture = sw_board_picture (fixture->board);
  const SwLayout *layout = sw_ceiling_layout_of (job_of (fixture), room_of (fixture)->record.id);
  g_assert_false (sw_ceiling_layout_is_stale (layout, picture->deck, picture->rules));
  g_autoptr (SwEdit) again = sw_edit_new ("");
  const SwLayWanted wanted = { .again = TRUE };
  g_autoptr (GArray) laid = sw_lay_rooms (picture->deck, picture->rules, &wanted, again, NULL, &error);
  g_assert_cmpuint (laid->len, ==, 1);
  const SwRecord *anew = sw_edit_peek (again, job_of (fixture), layout->record.id);
  g_assert_true (sw_record_equal (anew, &layout->record));
  g_assert_true (sw_desk_undo (fixture->desk, &error));
  g_assert_true (sw_record_equal (before, fixture_last (fixture, SW_TABLE_LAYOUT)));
  sw_assert_near (SW_LIST_AT (room_of (fixture)->outline, SwPoint, 2).x, 5000, 1e-9);
}

/* Let go before anything came: the edit has the layout all the same. Escape leaves all as it was. */
static void
test_let_go_at_once (Fixture *fixture, gconstpointer data)
{
  lay_out (fixture);
  press_side_and_go_to (fixture, 6000);
  sw_board_cancel (fixture->board);
  sw_assert_near (SW_LIST_AT (room_of (fixture)->outline, SwPoint, 2).x, 5000, 1e-9);
  press_side_and_go_to (fixture, 6000);
  let_go (fixture, 6000);
  fixture_look (fixture);
  const SwPicture *picture = sw_board_picture (fixture->board);
  const SwLayout *layout = sw_ceiling_layout_of (job_of (fixture), room_of (fixture)->record.id);
  g_assert_false (sw_ceiling_layout_is_stale (layout, picture->deck, picture->rules));
  sw_assert_near (pieces_m2 (layout), 15, 0.1);
}

/* A side keeps its direction, and its neighbours theirs: of an outline that is out of square. */
static void
test_sides_keep_their_direction (Fixture *fixture, gconstpointer data)
{
  const SwPoint corners[] = { { 1000, 1000 }, { 5000, 1000 }, { 5600, 4000 }, { 1000, 4000 } };
  g_autoptr (SwEdit) edit = sw_edit_new ("");
  SwRoom *room = (SwRoom *) sw_record_copy (&room_of (fixture)->record);
  memcpy (room->outline.items, corners, sizeof corners);
  sw_edit_put (edit, job_of (fixture), &room->record, NULL);
  change (fixture, edit);
  fixture_drag (fixture, 2500, 4000, 2500, 3500); /* the upper side, down by 500 */
  const SwPoint *now = room_of (fixture)->outline.items;
  sw_assert_near (now[2].y, 3500, 1e-6);
  sw_assert_near (now[2].x, 5500, 1e-6);
  sw_assert_near (now[3].x, 1000, 1e-6);
  sw_assert_near (now[3].y, 3500, 1e-6);
  sw_assert_near (now[1].x, 5000, 1e-6);
}

/* What lines of the take-off count: as many pieces as the layout has of that kind, and none of the whole room's shape. */
static void
test_lines_light_their_pieces (Fixture *fixture, gconstpointer data)
{
  lay_out (fixture);
  const SwLayout *layout = (const SwLayout *) fixture_last (fixture, SW_TABLE_LAYOUT);
  SwId id = layout->record.id;
  guint battens = 0;
  for (guint i = 0; i < layout->members.n; i++)
    battens += SW_LIST_AT (layout->members, SwMember, i).kind == SW_MEMBER_BATTEN;
  g_assert_cmpuint (sw_board_light (fixture->board, SW_PRICE_BATTEN, "38x38", &id, 1), ==, battens);
  SwDisplay *live = sw_board_live (fixture->board);
  g_assert_cmpuint (sw_display_n_items (live), ==, battens);
  sw_display_unref (live);
  g_assert_cmpuint (sw_board_light (fixture->board, SW_PRICE_BATTEN, "50x50", &id, 1), ==, 0);
  g_assert_cmpuint (sw_board_light (fixture->board, SW_PRICE_BOARD, "gypsum-9.5-3000x1200", &id, 1), ==, layout->pieces.n);
  g_assert_cmpuint (sw_board_light (fixture->board, SW_PRICE_BOARD, "gypsum-9.5-2400x1200", &id, 1), ==, 0);
  g_assert_cmpuint (sw_board_light (fixture->board, SW_PRICE_TAPE, "", &id, 1), ==, layout->joints.n);
  g_assert_cmpuint (sw_board_light (fixture->board, SW_PRICE_FIXING, "", &id, 1), ==, layout->fixings.n);
  g_assert_cmpuint (sw_board_light (fixture->board, SW_PRICE_CORNICE, "", &id, 1), ==, 4);
  g_assert_cmpuint (sw_board_light (fixture->board, SW_PRICE_MITRE, "", &id, 1), ==, 4);
  g_assert_cmpuint (sw_board_light (fixture->board, SW_PRICE_BEAD, "", &id, 1), ==, 0);
  sw_board_pick (fixture->board, room_of (fixture)->record.id, FALSE);
  live = sw_board_live (fixture->board);
  g_assert_cmpuint (sw_display_n_items (live), <, 30); /* the room's shape and handles */
  sw_display_unref (live);
}

/* What is picked on the plan as battens and boards shows and changes the values of their room. */
static void
test_a_picked_layout_stands_for_its_room (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  lay_out (fixture);
  const SwLayout *layout = sw_ceiling_layout_of (job_of (fixture), room_of (fixture)->record.id);
  sw_board_pick (fixture->board, layout->record.id, FALSE);
  g_autoptr (GPtrArray) alone = sw_board_shown (fixture->board);
  g_assert_cmpuint (alone->len, ==, 1);
  g_assert_true (alone->pdata[0] == room_of (fixture));
  sw_board_pick (fixture->board, room_of (fixture)->record.id, TRUE);
  g_autoptr (GPtrArray) both = sw_board_shown (fixture->board);
  g_assert_cmpuint (both->len, ==, 1);
  g_assert_true (sw_board_set_tag (fixture->board, "R-9", &error));
  g_assert_no_error (error);
  g_assert_cmpstr (room_of (fixture)->record.tag, ==, "R-9");
}

/* A snag of a whole room stands where the room's name does: its badge is drawn above it, so that both can be read. */
static void
test_badges_leave_the_name_free (Fixture *fixture, gconstpointer data)
{
  g_autoptr (SwPicture) picture = sw_picture_check ((SwPicture *) sw_board_picture (fixture->board), NULL);
  const SwRoom *room = room_of (fixture);
  SwPoint name = sw_outline_label_point (room->outline.items, room->outline.n);
  guint seen = 0;
  SwDisplay *badges = picture->parts[SW_PART_SNAGS];
  for (guint i = 0; i < sw_display_n_groups (badges); i++)
    {
      const SwSnag *snag = sw_snags_get (picture->snags, (guint) sw_display_group (badges, i).key.record);
      SwBox box = sw_display_group_box (badges, i);
      if (snag->owners[0] != room->record.id || sw_point_distance ((SwPoint){ snag->place.x, snag->place.y }, name) > 1)
        continue;
      seen++;
      sw_assert_near ((box.low.y + box.high.y) / 2, name.y + 500, 1);
    }
  g_assert_cmpuint (seen, >=, 1); /* it has not been laid out */
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  TEST ("is-found-while-dragging", test_is_found_while_dragging);
  TEST ("one-edit", test_one_edit);
  TEST ("let-go-at-once", test_let_go_at_once);
  TEST ("sides-keep-their-direction", test_sides_keep_their_direction);
  TEST ("lines-light-their-pieces", test_lines_light_their_pieces);
  TEST ("badges-leave-the-name-free", test_badges_leave_the_name_free);
  TEST ("a-picked-layout-stands-for-its-room", test_a_picked_layout_stands_for_its_room);
  return g_test_run ();
}
