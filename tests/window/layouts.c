/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/tools/layouts.h"
#include "ceiling/layout.h"
#include "fixture.h"
#include <string.h>

#define TEST(name, function) g_test_add ("/window/layouts/" name, Fixture, NULL, set_up, function, fixture_tear_down)

/* Alternatives looked for in the background: cards against what taking them makes of the job. */

typedef struct
{
  GMainLoop *loop;
  guint news, most;          /* hand-overs; cards of the last one */
  guint64 generation;
  guint n_own, n_locked;
  GPtrArray *edits;          /* SwEdit of each alternative of the last hand-over */
  GArray *cards;             /* SwLayoutCard, copied: pointers in it are not to be used */
  char *fault;
} Heard;

static void
on_news (const SwLayoutsNews *news, gpointer data)
{
  Heard *heard = data;
  heard->news++;
  heard->generation = news->generation;
  heard->n_own = news->n_own;
  heard->n_locked = news->n_locked;
  g_ptr_array_set_size (heard->edits, 0);
  g_array_set_size (heard->cards, 0);
  for (guint i = news->n_own; i < news->cards->len; i++)
    {
      const SwLayoutCard *card = news->cards->pdata[i];
      g_assert_true (news->n_own == 0 || !sw_edit_is_empty (card->edit)); /* the job's own is not repeated */
      g_ptr_array_add (heard->edits, sw_edit_ref (card->edit));
      g_array_append_vals (heard->cards, card, 1);
    }
  g_free (heard->fault);
  heard->fault = news->fault != NULL ? g_strdup (news->fault->message) : NULL;
  if (news->done)
    g_main_loop_quit (heard->loop);
}

static Heard
heard_new (void)
{
  return (Heard){ .loop = g_main_loop_new (NULL, FALSE),
                  .edits = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_edit_unref),
                  .cards = g_array_new (FALSE, FALSE, sizeof (SwLayoutCard)) };
}

static void
heard_clear (Heard *heard)
{
  g_main_loop_unref (heard->loop);
  g_ptr_array_unref (heard->edits);
  g_array_unref (heard->cards);
  g_free (heard->fault);
}

static SwId
room_of (Fixture *fixture)
{
  return fixture_last (fixture, SW_TABLE_ROOM)->id;
}

/* 3.2 × 2.5 m of the fixture's room: a search through all sheets takes a while. */
static void
set_up (Fixture *fixture, gconstpointer data)
{
  const SwPoint corners[] = { { 200, 400 }, { 3400, 400 }, { 3400, 2900 }, { 200, 2900 } };
  g_autoptr (GError) error = NULL;
  g_autoptr (SwEdit) edit = sw_edit_new ("");
  fixture_set_up (fixture, data);
  SwRoom *room = (SwRoom *) sw_record_copy (fixture_last (fixture, SW_TABLE_ROOM));
  memcpy (sw_list_resize (&room->outline, &sw_struct_point, 4), corners, sizeof corners);
  sw_edit_put (edit, sw_desk_job (fixture->desk), &room->record, &error);
  g_assert_no_error (error);
  g_assert_true (sw_desk_do (fixture->desk, edit, &error));
}

static guint
sheets_of (const SwLayout *layout)
{
  int most = 0;
  for (guint i = 0; i < layout->pieces.n; i++)
    most = MAX (most, SW_LIST_AT (layout->pieces, SwPiece, i).sheet);
  return (guint) most;
}

static double
joints_of (const SwLayout *layout)
{
  double sum = 0;
  for (guint i = 0; i < layout->joints.n; i++)
    sum += sw_point_distance (SW_LIST_AT (layout->joints, SwJoint, i).from, SW_LIST_AT (layout->joints, SwJoint, i).to);
  return sum / 1e3;
}

/* Each card's edit makes a layout with as many sheets and joints as the card says; undo takes it back. */
static void
test_cards_say_what_their_edits_make (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  Heard heard = heard_new ();
  SwLayouts *layouts = sw_layouts_new (on_news, &heard);
  sw_layouts_ask (layouts, sw_desk_job (fixture->desk), 1, room_of (fixture), TRUE);
  g_main_loop_run (heard.loop);
  g_assert_null (heard.fault);
  g_assert_cmpuint (heard.n_own, ==, 0);
  g_assert_cmpuint (heard.edits->len, >=, 3);
  g_assert_cmpuint (heard.news, >=, 2);
  for (guint i = 0; i < heard.edits->len; i++)
    {
      const SwLayoutCard *card = &g_array_index (heard.cards, SwLayoutCard, i);
      g_assert_true (sw_desk_do (fixture->desk, heard.edits->pdata[i], &error));
      const SwLayout *layout = sw_ceiling_layout_of (sw_desk_job (fixture->desk), room_of (fixture));
      g_assert_cmpuint (sheets_of (layout), ==, card->n_sheets);
      sw_assert_near (joints_of (layout), card->joint_m, 1e-6);
      g_assert_true (card->priced);
      g_assert_true (sw_desk_undo (fixture->desk, &error));
      g_assert_cmpuint (sw_job_count (sw_desk_job (fixture->desk), SW_TABLE_LAYOUT), ==, 0);
    }
  sw_layouts_free (layouts);
  heard_clear (&heard);
}

/* What was taken is then what the job has, with the same cost, and its locked pieces are counted. */
static void
test_what_was_taken_is_the_jobs_own (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  Heard heard = heard_new ();
  SwLayouts *layouts = sw_layouts_new (on_news, &heard);
  sw_layouts_ask (layouts, sw_desk_job (fixture->desk), 1, room_of (fixture), TRUE);
  g_main_loop_run (heard.loop);
  SwMoney cost = g_array_index (heard.cards, SwLayoutCard, 0).cost;
  g_assert_true (sw_desk_do (fixture->desk, heard.edits->pdata[0], &error));
  guint before = heard.edits->len;
  sw_layouts_ask (layouts, sw_desk_job (fixture->desk), 2, room_of (fixture), TRUE);
  g_main_loop_run (heard.loop);
  g_assert_cmpuint (heard.n_own, ==, 1);
  g_assert_cmpuint (heard.edits->len, ==, before - 1);
  g_autoptr (SwEdit) lock = sw_edit_new ("");
  const int first = 1;
  g_assert_true (sw_lay_lock (sw_desk_job (fixture->desk), room_of (fixture), &first, 1, TRUE, lock, &error));
  g_assert_true (sw_desk_do (fixture->desk, lock, &error));
  sw_layouts_ask (layouts, sw_desk_job (fixture->desk), 3, room_of (fixture), TRUE);
  g_main_loop_run (heard.loop);
  g_assert_cmpuint (heard.n_own, ==, 1);
  g_assert_cmpuint (heard.n_locked, ==, 1);
  g_assert_cmpint (g_array_index (heard.cards, SwLayoutCard, 0).cost, <=, cost + cost / 4);
  for (guint i = 0; i < heard.edits->len; i++)
    {
      g_autoptr (SwJob) next = sw_job_apply (sw_desk_job (fixture->desk), heard.edits->pdata[i], TRUE, &error);
      g_assert_no_error (error);
      g_assert_cmpuint (sw_lay_n_locked (sw_ceiling_layout_of (next, room_of (fixture))), ==, 1);
    }
  sw_layouts_free (layouts);
  heard_clear (&heard);
}

static void
test_only_the_last_asking_is_heard (Fixture *fixture, gconstpointer data)
{
  Heard heard = heard_new ();
  SwLayouts *layouts = sw_layouts_new (on_news, &heard);
  for (guint64 i = 1; i <= 4; i++)
    sw_layouts_ask (layouts, sw_desk_job (fixture->desk), i, room_of (fixture), TRUE);
  g_main_loop_run (heard.loop);
  g_assert_cmpuint (heard.generation, ==, 4);
  sw_layouts_ask (layouts, sw_desk_job (fixture->desk), 5, SW_ID (SW_TABLE_ROOM, 999), TRUE);
  g_main_loop_run (heard.loop);
  g_assert_nonnull (heard.fault);
  g_assert_cmpuint (heard.edits->len, ==, 0);
  sw_layouts_free (layouts);
  heard_clear (&heard);
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  TEST ("cards-say-what-their-edits-make", test_cards_say_what_their_edits_make);
  TEST ("what-was-taken-is-the-jobs-own", test_what_was_taken_is_the_jobs_own);
  TEST ("only-the-last-asking-is-heard", test_only_the_last_asking_is_heard);
  return g_test_run ();
}
