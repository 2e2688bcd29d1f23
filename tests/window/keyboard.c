/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fixture.h"
#include <string.h>

/* Each tool begins by its letter and ends without a pointer: typed places and lengths, Tab, Enter, arrows. */

/* As an arrow on the plan does when there is no crosshair yet. */
static void
arrow (Fixture *fixture, int right, int up)
{
  if (!sw_board_has_cursor (fixture->board, NULL))
    sw_board_motion (fixture->board, (SwPoint){ 4500, 3000 }, (SwBoardMods){ .clicks = 1 });
  sw_board_nudge (fixture->board, right, up, 100);
}

static gboolean
offers (Fixture *fixture, guint fields)
{
  return (sw_board_typed (fixture->board)->offered & fields) == fields;
}

/* What is asked next, typed. */
static void
answer (Fixture *fixture, guint step)
{
  if (offers (fixture, SW_TYPED_SIDES))
    fixture_type (fixture, "1200\t900\n");
  else if (offers (fixture, SW_TYPED_POLAR))
    fixture_type (fixture, "700\t0\n");
  else if (offers (fixture, SW_TYPED_BIT (SW_TYPED_VALUE)))
    fixture_type (fixture, "905\n");
  else if (offers (fixture, SW_TYPED_PLACE))
    fixture_type (fixture, step == 0 ? "3400\t1200\n" : "4300\t2000\n");
  else
    {
      arrow (fixture, step == 0 ? 1 : 9, 0);
      sw_board_enter (fixture->board);
    }
}

static void
finish_by_keys (Fixture *fixture, const SwToolRow *row)
{
  guint before = sw_desk_history_length (fixture->desk);
  g_assert_true (sw_board_use (fixture->board, row->id));
  arrow (fixture, 0, 0);
  for (guint step = 0; step < 4 && sw_desk_history_length (fixture->desk) == before; step++)
    answer (fixture, step);
  if (sw_desk_history_length (fixture->desk) == before)
    sw_board_enter (fixture->board);
  if (sw_desk_history_length (fixture->desk) != before + 1)
    g_test_message ("the tool \"%s\" made nothing", row->id);
  g_assert_cmpuint (sw_desk_history_length (fixture->desk), ==, before + 1);
  fixture_look (fixture);
}

static gboolean
makes_records (const SwToolRow *row)
{
  return row->table != SW_N_TABLES;
}

static void
test_every_tool_ends_by_keys (Fixture *fixture, gconstpointer data)
{
  for (guint i = 0; i < sw_board_n_tools (); i++)
    if (makes_records (sw_board_tool_row (i)))
      finish_by_keys (fixture, sw_board_tool_row (i));
}

static void
test_every_tool_has_a_letter (Fixture *fixture, gconstpointer data)
{
  for (guint i = 0; i < sw_board_n_tools (); i++)
    {
      const SwToolRow *row = sw_board_tool_row (i);
      if (row->key == 0)
        g_test_message ("the tool \"%s\" has no letter", row->id);
      g_assert_true (g_ascii_isalpha (row->key));
      /* Begun by its letter: nothing that can be typed at first may begin with it. */
      g_assert_true (sw_board_use (fixture->board, "pipe"));
      g_assert_false (sw_board_type (fixture->board, (gunichar) row->key));
    }
}

static void
test_tape_reads_by_keys (Fixture *fixture, gconstpointer data)
{
  g_assert_true (sw_board_use (fixture->board, "tape"));
  arrow (fixture, 0, 0);
  sw_board_enter (fixture->board);
  arrow (fixture, 12, 0);
  g_assert_nonnull (sw_board_says (fixture->board));
  g_assert_nonnull (strstr (sw_board_says (fixture->board), "1200"));
}

#define TEST(path, function) g_test_add ("/window/keyboard/" path, Fixture, NULL, fixture_set_up, function, fixture_tear_down)

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  TEST ("ends", test_every_tool_ends_by_keys);
  TEST ("letters", test_every_tool_has_a_letter);
  TEST ("tape", test_tape_reads_by_keys);
  return g_test_run ();
}
